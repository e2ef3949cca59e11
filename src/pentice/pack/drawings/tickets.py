"""Drawings of the tickets: a sheet as it will lie, with HEAD, FLUTES and WEATHER FACE; a bar with its holes.

Across is free where the piece would be too narrow to read; along is true in proportion.
"""

from __future__ import annotations

from dataclasses import dataclass

from pentice.cutting.values import Placement
from pentice.design import Design
from pentice.drawing.arrows import flutes_big, head_arrow, tape_band, weather_face
from pentice.drawing.leaders import leader
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import (
    Area,
    Box,
    Circle,
    Dimension,
    Line,
    Pinned,
    Polyline,
    Primitive,
    Running,
    Scene,
    Text,
)
from pentice.drawing.symbols import disc, hole, plate, screw_hole
from pentice.pack.drawings.values import half, part, rectangle
from pentice.pieces.values import Piece
from pentice.setting_out.values import Bar

TICKET_WIDTH_MM = 86.0
TICKET_HEIGHT_MM = 176.0
BAR_WIDTH_MM = 267.0
BAR_HEIGHT_MM = 66.0


def placed(design: Design, piece: Piece) -> tuple[int, Placement]:
    """The number of the stock sheet that gives a piece, and where it lies on it."""
    for k, plan in enumerate(design.cutting.sheets, 1):
        for p in plan.placements:
            if p.piece == piece.id:
                return k, p
    raise KeyError(piece.id)


def sheet_ticket_scene(design: Design, piece: Piece) -> Scene:
    """The drawing on the ticket of one sheet, TICKET_WIDTH_MM by TICKET_HEIGHT_MM on paper.

    Parameters
    ----------
    design
        A solved job.
    piece
        One of its sheets.
    """
    _, p = placed(design, piece)
    long = 134.0
    wide = min(58.0, max(46.0, long * p.width_mm / p.length_mm))
    left, top = 18.0, 20.0
    box = Box(left=left, top=top, right=left + wide, bottom=top + long)
    content = (
        part("sheet", *_sheet_face(box)),
        part("hole", *_sheet_hole(piece, p, box)),
        part("sizes", *_sheet_sizes(p, box)),
        head_arrow((box.centre[0] - 8.0, top - 1.5), 12.0),
    )
    desc = (
        f"{piece.name}, {p.width_mm} wide and {p.length_mm} along the flutes, weather face up, head at the top, "
        "solid tape at the head, breather tape at the foot."
    )
    return Scene(primitives=content, title=piece.name, desc=desc)


def _sheet_face(box: Box) -> tuple[Primitive, ...]:
    """Outline, tapes, flutes, and the two signs."""
    x, _ = box.centre
    found: list[Primitive] = [Area(points=box.corners, fill="white", style="extra wide")]
    step = (box.width - 4.0) / 22
    for k in range(23):
        at = box.left + 2.0 + step * k
        found.append(Line(a=(at, box.top + 7.0), b=(at, box.bottom - 7.0), style="hair"))
    found.append(weather_face((x, box.top + 21.0), 5.0))
    found.append(flutes_big((x + 3.0, box.top + 76.0), 42.0))
    solid = Box(left=box.left, top=box.top, right=box.right, bottom=box.top + 5.0)
    breather = Box(left=box.left, top=box.bottom - 5.0, right=box.right, bottom=box.bottom)
    return (*found, *tape_band(solid, "solid"), *tape_band(breather, "breather"))


def _sheet_hole(piece: Piece, p: Placement, box: Box) -> tuple[Primitive, ...]:
    """The button's hole near the foot, its size and its place."""
    if not piece.holes:
        return ()
    h = piece.holes[0]
    x = box.left + h.x_mm / piece.width_mm * box.width
    from_foot = piece.length_mm - h.y_mm
    y = box.bottom - max(10.0, min(20.0, from_foot / piece.length_mm * box.height * 2.0))
    low = box.bottom
    return (
        hole((x, y), 1.6),
        leader((x + 1.2, y - 1.2), (7.0, -6.0), f"hole {h.width_mm:g}", weight=700),
        Dimension(a=(x, low), b=(x, y), text=half(from_foot), axis="y", offset_mm=-(box.right - x + 5.0)),
        Dimension(
            a=(box.left, low),
            b=(x, low),
            text=half(h.x_mm),
            axis="x",
            offset_mm=-6.0,
        ),
    )


def _sheet_sizes(p: Placement, box: Box) -> tuple[Primitive, ...]:
    """Width below, length at the left, h 5."""
    low, left = box.bottom + 14.0, box.left - 8.0
    lines: list[Primitive] = []
    for a, b in (((box.left, low), (box.right, low)), ((left, box.top), (left, box.bottom))):
        lines.append(Line(a=a, b=b, style="narrow"))
        for x, y in (a, b):
            lines.append(Line(a=(x - 0.85, y + 0.85), b=(x + 0.85, y - 0.85), style="wide"))
    for x in (box.left, box.right):
        lines.append(Line(a=(x, box.bottom + 1.5), b=(x, low + 1.5), style="narrow"))
    for y in (box.top, box.bottom):
        lines.append(Line(a=(box.left - 1.5, y), b=(left - 1.5, y), style="narrow"))
    words = (
        Text(at=(box.centre[0], low - 1.2), text=str(p.width_mm), h_mm=5.0, weight=700, anchor="middle", halo=True),
        Text(
            at=(left - 1.2, box.centre[1]), text=str(p.length_mm), h_mm=5.0, weight=700, anchor="middle", turn_deg=90.0
        ),
    )  # fmt: skip
    return (*lines, *words)


def piece_model(design: Design, piece: Piece) -> Scene:
    """One sheet as a model 1:1: outline as cut, hole, sizes, HEAD.

    Parameters
    ----------
    design
        A solved job.
    piece
        One of its sheets.
    """
    _, p = placed(design, piece)
    w, n = float(p.width_mm), float(p.length_mm)
    content: list[Primitive] = [
        Polyline(points=rectangle(0.0, 0.0, w, n), closed=True, style="extra wide"),
        Dimension(a=(0.0, n), b=(w, n), text=str(p.width_mm), offset_mm=-12.0, kind="overall"),
        Dimension(a=(0.0, n), b=(0.0, 0.0), text=str(p.length_mm), offset_mm=10.0, kind="overall"),
        Pinned(
            at=(w / 2, 0.0),
            content=(Text(at=(0.0, 8.0), text="HEAD", h_mm=3.5, weight=700, anchor="middle"),),
        ),
        Pinned(
            at=(w / 2, n / 2),
            content=(
                Text(at=(0.0, 0.0), text="FLUTES", h_mm=3.5, weight=700, anchor="middle", turn_deg=90.0),
            ),
        ),
    ]
    for h in piece.holes:
        x, y = h.x_mm, h.y_mm
        content.append(Circle(centre=(x, y), radius=h.width_mm / 2, style="wide"))
        content.append(Dimension(a=(x, n), b=(x, y), text=half(n - y), axis="y", offset_mm=-12.0))
    return Scene(
        primitives=tuple(content), title=piece.name, desc=f"{piece.name}, {w:g} by {n:g}.", scale=20.0
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeBars:
    """Bars with one length and one drilling pattern."""

    bars: tuple[Bar, ...]

    @property
    def bar(self) -> Bar:
        """The first: all are drilled like it."""
        return self.bars[0]


def alike_bars(design: Design) -> tuple[AlikeBars, ...]:
    """Bars of a design, alike ones together."""
    groups: dict[tuple[object, ...], list[Bar]] = {}
    for bar in design.setting_out.plane.bars:
        key = (int(bar.base_mm), int(bar.cap_mm), tuple((half(h.at_mm), h.side) for h in bar.holes))
        groups.setdefault(key, []).append(bar)
    return tuple(AlikeBars(bars=tuple(bars)) for bars in groups.values())


def bar_ticket_scene(design: Design, bar: Bar) -> Scene:
    """The drilling drawing of a bar, 267 mm wide: the tape hooks on the FOOT at the left.

    Parameters
    ----------
    design
        A solved job.
    bar
        One of its bars.
    """
    length = float(int(bar.base_mm))
    left, right = 8.0, BAR_WIDTH_MM - 12.0
    per_mm = (right - left) / length
    top, tall = 26.0, 24.0
    middle, gauge = top + tall / 2, tall * design.parts.bar.hole_gauge_mm / design.parts.bar.seat_mm
    stem = tall * design.parts.bar.stem_mm / design.parts.bar.seat_mm / 2
    content: list[Primitive] = [
        Area(points=rectangle(left, top, right, top + tall), fill="white", style="extra wide"),
        Area(points=rectangle(left, middle - stem, right, middle + stem), fill="brick", style="wide"),
        plate(((left + right) / 2 + 6.0, middle), "STEM", 2.5, 600),
        Text(at=(left, 5.2), text="FOOT", h_mm=5.0, weight=700),
        Text(at=(left + 21.0, 5.2), text="hook the tape here", h_mm=3.5, weight=600),
        Text(at=(right - 9.0, 5.2), text="HEAD", h_mm=5.0, weight=700, anchor="end"),
        Area(points=((right - 7.0, -0.6), (right, 2.7), (right - 7.0, 6.0)), fill="ink"),
    ]
    h = _mark_height(bar, per_mm)
    stops = tuple((x.at_mm * per_mm, half(x.at_mm)) for x in bar.holes)
    if stops:
        content.append(Running(origin=(left, top), stops=stops, offset_mm=7.5, h_mm=h))
    for x in bar.holes:
        at = left + x.at_mm * per_mm
        # Seen from above with the FOOT at the left, the left side as seen facing the wall is up.
        side = -1.0 if x.side == "L" else 1.0
        content.append(Line(a=(at, top), b=(at, middle + side * (gauge / 2 + 3.0)), style="chain"))
        content.append(screw_hole((at, middle + side * gauge / 2)))
        content.append(
            disc((at, top + tall + 7.0), x.side, 3.5 if len(bar.holes) <= 16 else 2.5, filled=x.side == "L")
        )
    desc = f"Drilling of bar {bar.id}: {len(bar.holes)} holes, counted from the foot."
    return Scene(primitives=tuple(content), title=f"Bar base {bar.id}", desc=desc)


def _mark_height(bar: Bar, per_mm: float) -> float:
    """The largest lettering at which marks stand in one row."""
    steps = [b.at_mm - a.at_mm for a, b in zip(bar.holes, bar.holes[1:], strict=False)]
    room = min(steps, default=9e9) * per_mm - 1.5
    widest = max((half(h.at_mm) for h in bar.holes), key=len, default="")
    return next((h for h in (5.0, 3.5) if text_width_mm(widest, h, 700) <= room), 2.5)


def bar_section_scene(design: Design) -> Scene:
    """The base across, full size: the seat, the stem, and where the two rows of holes lie."""
    bar = design.parts.bar
    half_seat, stem, gauge = bar.seat_mm / 2, bar.stem_mm / 2, bar.hole_gauge_mm / 2
    seat = bar.seat_thickness_mm or 2.0
    wall = min(2.5, stem * 0.5)
    x, y = half_seat + 3.0, 26.0
    content: list[Primitive] = [
        Area(points=rectangle(x - half_seat, y - seat, x + half_seat, y), fill="ink"),
        Area(points=rectangle(x - stem, y - 20.0, x - stem + wall, y), fill="ink"),
        Area(points=rectangle(x + stem - wall, y - 20.0, x + stem, y), fill="ink"),
        Line(a=(x, y - 22.0), b=(x, y + 9.0), style="chain"),
    ]
    if bar.carries:
        desc = "Bar base across, full size: no holes along it."
        return Scene(primitives=tuple(content), title="Across the bar", desc=desc)
    for side, letter in ((-1.0, "L"), (1.0, "R")):
        at = x + side * gauge
        content.append(Line(a=(at, y - 7.0), b=(at, y + 9.0), style="chain"))
        content.append(Text(at=(at, y - 8.5), text=letter, h_mm=3.5, weight=700, anchor="middle"))
    content.append(Dimension(a=(x - gauge, y), b=(x, y), text=f"{gauge:g}", offset_mm=-7.0, kind="overall"))
    content.append(Dimension(a=(x, y), b=(x + gauge, y), text=f"{gauge:g}", offset_mm=-7.0, kind="overall"))
    desc = f"Bar base across, full size: holes {gauge:g} left and right of the middle."
    return Scene(primitives=tuple(content), title="Across the bar", desc=desc)


def bar_model(design: Design, bar: Bar) -> Scene:
    """A bar base as a model 1:1, FOOT at the left: outline, holes, running sizes."""
    length, wide, gauge = float(int(bar.base_mm)), design.parts.bar.seat_mm, design.parts.bar.hole_gauge_mm
    radius = design.parts.screw.d_mm / 2 + 0.25
    stops = tuple((h.at_mm, half(h.at_mm)) for h in bar.holes)
    content: list[Primitive] = [
        Polyline(points=rectangle(0.0, -wide / 2, length, wide / 2), closed=True, style="wide"),
        Line(a=(0.0, 0.0), b=(length, 0.0), style="chain"),
        *((Running(origin=(0.0, -wide / 2), stops=stops, offset_mm=8.0),) if stops else ()),
        Dimension(
            a=(0.0, wide / 2), b=(length, wide / 2), text=str(int(length)), offset_mm=-10.0, kind="overall"
        ),
        Pinned(at=(0.0, wide / 2), content=(Text(at=(0.0, 5.0), text="FOOT", h_mm=3.5, weight=700),)),
    ]
    for h in bar.holes:
        y = (-1.0 if h.side == "L" else 1.0) * gauge / 2
        content.append(Circle(centre=(h.at_mm, y), radius=radius, style="wide"))
    desc = f"Bar base {bar.id}, {length:g} long, {len(bar.holes)} holes."
    return Scene(primitives=tuple(content), title=f"Bar base {bar.id}", desc=desc, scale=10.0)


__all__ = [
    "BAR_HEIGHT_MM", "BAR_WIDTH_MM", "TICKET_HEIGHT_MM", "TICKET_WIDTH_MM", "AlikeBars", "alike_bars",
    "bar_model", "bar_section_scene", "bar_ticket_scene", "piece_model", "placed", "sheet_ticket_scene",
]  # fmt: skip
