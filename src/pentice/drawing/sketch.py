"""How much paper a drawing takes: the bounds of primitives that lie on paper, lettering by its widths."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from pentice.drawing.lettering import CAPITAL_EM, text_width_mm
from pentice.drawing.page import bounds
from pentice.drawing.scene import Arc, Area, Box, Circle, Group, Line, Point, Polyline, Primitive, Text


def extent(primitives: Iterable[Primitive]) -> Box:
    """The smallest box round everything drawn, lettering too.

    Parameters
    ----------
    primitives
        In mm of paper, as `on_paper` gives them.

    Examples
    --------
    >>> extent([Line(a=(0.0, 0.0), b=(4.0, 3.0)), Circle(centre=(0.0, 0.0), radius=1.0)])
    Box(left=-1.0, top=-1.0, right=4.0, bottom=3.0)
    """
    return bounds(point for p in primitives for point in _points(p))


def text_box(p: Text) -> tuple[Point, ...]:
    """Corners of one line of lettering, from its foot to its capitals.

    Examples
    --------
    >>> [round(y, 1) for _, y in text_box(Text(at=(0.0, 0.0), text="A", h_mm=2.5))]
    [0.0, 0.0, -2.5, -2.5]
    """
    width = text_width_mm(p.text, p.h_mm, p.weight)
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[p.anchor]
    c, s = math.cos(math.radians(p.turn_deg)), -math.sin(math.radians(p.turn_deg))
    corners = ((start, 0.0), (start + width, 0.0), (start + width, -p.h_mm), (start, -p.h_mm))
    return tuple((p.at[0] + x * c - y * s, p.at[1] + x * s + y * c) for x, y in corners)


def halo_box(p: Text, font_mm: float) -> tuple[Point, ...]:
    """Corners of the white plate under a line of lettering that is not turned, drawn with a font of ``font_mm``.

    Examples
    --------
    >>> [round(y, 2) for _, y in halo_box(Text(at=(0.0, 0.0), text="8", h_mm=2.5), 3.79)]
    [-2.8, -2.8, 0.3, 0.3]
    """
    h = font_mm * CAPITAL_EM
    width = text_width_mm(p.text, h, p.weight)
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[p.anchor]
    low = 0.26 * h if any(c in p.text for c in "gjpqy(,") else 0.0
    left, right = p.at[0] + start - 0.4, p.at[0] + start + width + 0.4
    top, bottom = p.at[1] - h - 0.3, p.at[1] + max(0.3, low)
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _points(p: Primitive) -> Iterator[Point]:
    """Points that bound one primitive."""
    if isinstance(p, Group):
        if p.clip is not None:
            yield from p.clip.corners
            return
        for q in p.content:
            yield from _points(q)
    elif isinstance(p, Line):
        yield from (p.a, p.b)
    elif isinstance(p, Polyline | Area):
        yield from p.points
    elif isinstance(p, Circle | Arc):
        (x, y), r = p.centre, p.radius
        yield from ((x - r, y - r), (x + r, y + r))
    elif isinstance(p, Text):
        yield from text_box(p)
