"""Drawings: a scene of neutral primitives, fitted to paper, written as SVG or DXF.

Describe once, render many. A builder (elsewhere) returns a `Scene` in mm of the thing, with lettering and
symbols in mm of paper. `fit_view` chooses a standard scale, `on_paper` or `sheet_scene` puts models on a
sheet, `render_svg` and `render_dxf` write. Nothing here knows of roofs, loads or prices.
"""
