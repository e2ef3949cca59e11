"""Each primitive of a scene as the entities of a DXF file: true dimensions, true hatches, real text."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from pentice.drawing.hatches import HATCHES, hatch_area
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import (
    Arc,
    Area,
    Circle,
    Dimension,
    Group,
    Line,
    Pinned,
    Point,
    Polyline,
    Primitive,
    Running,
    Text,
)
from pentice.drawing.styles import COLOURS, line_style

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

TEXT_LAYER = "PENTICE-TEXT"
SIZES_LAYER = "PENTICE-SIZES"
LEADER_LEAST_MM = 2.0
"""Shortest leader of a running size, in mm of paper."""
OVERALL_FURTHER_MM = 8.0
"""Overall sizes stand this much further out than on paper where values of running sizes stand up before them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DxfPen:
    """Where entities go. A symbol pinned at ``at`` is multiplied by ``grow``; y is turned up."""

    doc: Drawing
    space: Modelspace
    scale: float
    at: Point = (0.0, 0.0)
    grow: float = 1.0
    further_mm: float = 0.0
    """How much further out than on paper overall sizes stand, in mm of paper."""

    def point(self, p: Point) -> Point:
        """A point of the drawing as DXF has it."""
        return (self.at[0] + p[0] * self.grow, -(self.at[1] + p[1] * self.grow) + 0.0)

    def pinned(self, at: Point) -> DxfPen:
        """The pen for a symbol in mm of paper."""
        x, y = self.point(at)
        return DxfPen(doc=self.doc, space=self.space, scale=self.scale, at=(x, -y), grow=self.scale)


def further_out_mm(primitives: Iterable[Primitive]) -> float:
    """How much further out than on paper the overall sizes of a drawing stand, in mm of paper."""
    return OVERALL_FURTHER_MM if any(_runs(p) for p in primitives) else 0.0


def _runs(p: Primitive) -> bool:
    if isinstance(p, Group | Pinned):
        return any(_runs(inner) for inner in p.content)
    return isinstance(p, Running) and p.offset_mm > 0.0


def text_style(weight: int) -> str:
    """Name of the text style of a weight."""
    return f"PENTICE-{weight}"


def add_primitives(pen: DxfPen, primitives: Iterable[Primitive]) -> None:
    """Add every primitive to the drawing.

    Parameters
    ----------
    pen
        Where to.
    primitives
        In mm of the model (within a Pinned: of paper). Clipping is not done: a model is drawn whole.
    """
    for p in primitives:
        if isinstance(p, Group):
            add_primitives(pen, p.content)
        elif isinstance(p, Pinned):
            add_primitives(pen.pinned(p.at), p.content)
        elif isinstance(p, Text):
            _text(pen, p)
        elif isinstance(p, Area):
            _area(pen, p)
        elif isinstance(p, Dimension):
            _dimension(pen, p)
        elif isinstance(p, Running):
            _running(pen, p)
        else:
            _stroked(pen, p)


def _look(style: str, colour: str) -> dict[str, Any]:
    """Layer, and a true colour where it is not plain ink."""
    found: dict[str, Any] = {"layer": line_style(style).layer}
    return found if colour == "ink" else found | _true(colour)


def _true(colour: str) -> dict[str, Any]:
    return {"true_color": int(COLOURS[colour][1:], 16)}


def _stroked(pen: DxfPen, p: Line | Polyline | Circle | Arc) -> None:
    """A line, polyline, circle or arc."""
    if isinstance(p, Line):
        pen.space.add_line(pen.point(p.a), pen.point(p.b), _look(p.style, p.colour))
    elif isinstance(p, Polyline):
        points = [pen.point(q) for q in p.points]
        pen.space.add_lwpolyline(points, close=p.closed, dxfattribs=_look(p.style, p.colour))
    elif isinstance(p, Arc):
        look = _look(p.style, p.colour)
        pen.space.add_arc(pen.point(p.centre), p.radius * pen.grow, p.start_deg, p.end_deg, dxfattribs=look)
    else:
        _circle(pen, p)


def _circle(pen: DxfPen, p: Circle) -> None:
    """A circle, black where it is filled; white fill is only the paper's."""
    centre, radius = pen.point(p.centre), p.radius * pen.grow
    if p.fill and p.fill != "white":
        hatch = pen.space.add_hatch(dxfattribs={"layer": line_style("narrow").layer} | _true(p.fill))
        hatch.paths.add_edge_path().add_arc(centre, radius, 0.0, 360.0)
    if p.style:
        pen.space.add_circle(centre, radius, _look(p.style, p.colour))


def _text(pen: DxfPen, p: Text) -> None:
    """One line of text; its height is that of a capital, on paper, times the scale."""
    from ezdxf.enums import TextEntityAlignment

    align = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }[p.anchor]
    look: dict[str, Any] = {"layer": TEXT_LAYER, "style": text_style(p.weight)}
    if p.colour != "ink":
        look |= _true(p.colour)
    text = pen.space.add_text(p.text, height=p.h_mm * pen.scale, rotation=p.turn_deg, dxfattribs=look)
    text.set_placement(pen.point(p.at), align=align)


def _area(pen: DxfPen, p: Area) -> None:
    """A filled outline: a solid or patterned hatch, and its outline; white is left to the paper."""
    rings = [[pen.point(q) for q in ring] for ring in (p.points, *p.holes)]
    if p.fill in HATCHES:
        _pattern(pen, p, rings)
    elif p.fill and p.fill != "white":
        hatch = pen.space.add_hatch(dxfattribs={"layer": line_style("narrow").layer} | _true(p.fill))
        _boundary(hatch, rings)
    if p.style:
        for ring in rings:
            pen.space.add_lwpolyline(ring, close=True, dxfattribs=_look(p.style, p.colour))


def _boundary(hatch: Any, rings: list[list[Point]]) -> None:
    for k, ring in enumerate(rings):
        hatch.paths.add_polyline_path(ring, is_closed=True, flags=1 if k == 0 else 16)


def _pattern(pen: DxfPen, p: Area, rings: list[list[Point]]) -> None:
    """A hatch of parallel lines as a pattern; the others as plain lines."""
    families = HATCHES[p.fill].families
    if families:
        hatch = pen.space.add_hatch(dxfattribs={"layer": line_style("narrow").layer})
        lines = []
        for angle, gap in families:
            a = math.radians(angle)
            step = (-math.sin(a) * gap * pen.scale, math.cos(a) * gap * pen.scale)
            lines.append([angle, (0.0, 0.0), step, []])
        name = f"PENTICE_{p.fill.upper().replace(' ', '_').replace('-', '_')}"
        hatch.set_pattern_fill(name, definition=lines)
        _boundary(hatch, rings)
        return
    k = pen.scale / pen.grow  # one mm of paper in the area's own units
    small = Area(points=tuple((x / k, y / k) for x, y in p.points), fill=p.fill)
    inner = DxfPen(doc=pen.doc, space=pen.space, scale=pen.scale, at=pen.at, grow=pen.grow * k)
    add_primitives(inner, hatch_area(small))


def _dimension(pen: DxfPen, p: Dimension) -> None:
    """A true linear or aligned DIMENSION; its text is ours, its measure the geometry's."""
    a, b = pen.point(p.a), pen.point(p.b)
    # The drawn line says where the dimension stands; its value says how it is lettered.
    drawn = on_paper((replace(p, text=p.text or "0"),))
    value = next(q for q in drawn if isinstance(q, Text))
    angle = {"x": 0.0, "y": 90.0}.get(p.axis, math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])))
    further = math.copysign(pen.further_mm, p.offset_mm) if p.kind == "overall" else 0.0
    base = _base(replace(p, offset_mm=p.offset_mm + further), a, b, pen.scale)
    dim = pen.space.add_linear_dim(
        base=base,
        p1=a,
        p2=b,
        angle=angle,
        text=p.text or " ",
        dimstyle="PENTICE",
        override={"dimtxt": value.h_mm, "dimtxsty": text_style(value.weight)},
        dxfattribs={"layer": SIZES_LAYER},
    )
    dim.render()
    if dim.dimension.dxf.get("text_midpoint") is None:  # left out where there is no value; readers want it
        dim.dimension.dxf.text_midpoint = (base[0], base[1], 0.0)


def _base(p: Dimension, a: Point, b: Point, scale: float) -> Point:
    """A point on the dimension's line, in DXF coordinates (y up)."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    if p.axis == "x":
        along = (math.copysign(1.0, dx), 0.0)
    elif p.axis == "y":
        along = (0.0, math.copysign(1.0, dy))
    else:
        whole = math.hypot(dx, dy) or 1.0
        along = (dx / whole, dy / whole)
    left = (-along[1], along[0])
    heights = [q[0] * left[0] + q[1] * left[1] for q in (a, b)]
    level = (max(heights) if p.offset_mm > 0 else min(heights)) + p.offset_mm * scale
    shift = level - heights[0]
    return (a[0] + left[0] * shift, a[1] + left[1] * shift)


def _leader_mm(p: Running, text: str) -> float:
    """Length of a stop's leader, in mm of paper; below nothing: to the other side.

    An ordinate's value stands in line with its leader, where paper has it across. So that it ends about where paper has
    its row, and what lies beyond is left alone, the leader is the shorter. Values on the line itself go outward.
    """
    if p.offset_mm == 0.0:
        return -LEADER_LEAST_MM
    inside = abs(p.offset_mm) + p.h_mm + 4.0 - text_width_mm(text, p.h_mm, p.weight)
    return math.copysign(max(LEADER_LEAST_MM, min(abs(p.offset_mm), inside)), p.offset_mm)


def _running(pen: DxfPen, p: Running) -> None:
    """Running sizes as true ordinate DIMENSIONs from one origin, and the origin circle."""
    origin = pen.point(p.origin)
    ahead = (p.ahead[0], -p.ahead[1])
    left = (-ahead[1], ahead[0])
    off = p.offset_mm * pen.scale
    radius = 1.5 * pen.scale
    pen.space.add_circle(
        (origin[0] + left[0] * off, origin[1] + left[1] * off), radius, dxfattribs={"layer": SIZES_LAYER}
    )
    for distance, text in p.stops:
        feature = (origin[0] + ahead[0] * distance, origin[1] + ahead[1] * distance)
        reach = _leader_mm(p, text) * pen.scale
        dim = pen.space.add_ordinate_dim(
            feature_location=feature,
            offset=(left[0] * reach, left[1] * reach),
            dtype=1 if p.ahead[0] else 0,
            origin=origin,
            text=text,
            dimstyle="PENTICE",
            override={"dimtxt": p.h_mm, "dimtxsty": text_style(p.weight)},
            dxfattribs={"layer": SIZES_LAYER},
        )
        dim.render()
