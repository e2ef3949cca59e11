"""A scene as DXF R2018: mm 1:1, a layer for each kind of line, true dimensions, the same bytes each time.

Geometry keeps its real size; lettering and symbols are multiplied by the scene's scale, so that a print at
that scale looks like the paper. y is turned up here and nowhere else.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from pentice.drawing.dxf_entities import (
    SIZES_LAYER,
    TEXT_LAYER,
    DxfPen,
    add_primitives,
    further_out_mm,
    text_style,
)
from pentice.drawing.scene import Scene
from pentice.drawing.styles import LINES, WEIGHTS, LineStyle

if TYPE_CHECKING:
    from ezdxf.document import Drawing


def render_dxf(scene: Scene) -> bytes:
    """The drawing as the bytes of a DXF file.

    Parameters
    ----------
    scene
        A model in mm of the thing itself; its ``scale`` sizes lettering, dashes and hatches.

    Returns
    -------
    bytes
        ASCII DXF R2018, UTF-8.

    Examples
    --------
    >>> from pentice.drawing.scene import Line
    >>> data = render_dxf(Scene(primitives=(Line(a=(0.0, 0.0), b=(5.0, 0.0)),), title="Rule", desc="A line."))
    >>> data.startswith(b"  0")
    True
    """
    from ezdxf._options import options

    # Without it the file would hold the hour and ids of chance.
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        return _written(_document(scene))
    finally:
        options.write_fixed_meta_data_for_testing = before


def _document(scene: Scene) -> Drawing:
    from ezdxf.filemanagement import new
    from ezdxf.units import MM

    doc = new("R2018", setup=False)
    doc.units = MM
    doc.header["$LTSCALE"] = scene.scale
    doc.header["$MEASUREMENT"] = 1
    _tables(doc, scene.scale)
    further = further_out_mm(scene.primitives)
    pen = DxfPen(doc=doc, space=doc.modelspace(), scale=scene.scale, further_mm=further)
    add_primitives(pen, scene.primitives)
    return doc


def _tables(doc: Drawing, scale: float) -> None:
    """Line types, layers, text styles and the dimension style."""
    for line in LINES.values():
        if line.dash:
            doc.linetypes.add(line.layer, _pattern(line), description=line.used_for)
    for line in LINES.values():
        layer = doc.layers.add(line.layer, color=7, lineweight=line.lineweight)
        layer.dxf.linetype = line.layer if line.dash else "CONTINUOUS"
        layer.description = line.used_for
    for name in (TEXT_LAYER, SIZES_LAYER):
        doc.layers.add(name, color=7, lineweight=LINES["narrow"].lineweight)
    for weight in WEIGHTS:
        doc.styles.add(text_style(weight), font=f"SourceSansPro-{_FACES[weight]}.ttf")
    _dimension_style(doc, scale)


_FACES = {400: "Regular", 600: "Semibold", 700: "Bold"}


def _pattern(line: LineStyle) -> list[float]:
    """Dash pattern in mm of paper: the whole length first, gaps negative."""
    parts = [part * line.width_mm * (1 if k % 2 == 0 else -1) for k, part in enumerate(line.dash)]
    return [sum(abs(part) for part in parts), *parts]


def _dimension_style(doc: Drawing, scale: float) -> None:
    style = doc.dimstyles.add("PENTICE")
    style.dxf.dimscale = scale
    style.dxf.dimtxt = 2.5
    style.dxf.dimtxsty = text_style(400)
    style.dxf.dimtsz = 1.2  # oblique strokes
    style.dxf.dimasz = 2.8
    style.dxf.dimexo = 1.5
    style.dxf.dimexe = 1.6
    style.dxf.dimdle = 1.6
    style.dxf.dimgap = 1.1
    style.dxf.dimtad = 1  # value above its line
    style.dxf.dimtih = 0
    style.dxf.dimtoh = 0
    style.dxf.dimdec = 1
    style.dxf.dimzin = 8


def _written(doc: Drawing) -> bytes:
    """The file's bytes, classes in a fixed order."""
    doc.commit_pending_changes()
    for name in sorted(doc.entitydb.dxf_types_in_use()):
        doc.classes.add_class(name)  # in hash-seed order otherwise
    stream = io.StringIO(newline="\n")
    doc.write(stream)
    return stream.getvalue().encode("utf-8")
