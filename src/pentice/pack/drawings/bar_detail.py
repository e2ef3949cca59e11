"""The bar on its rafter 1:2, cut across: gap and bite of the sheets at both sides."""

from __future__ import annotations

from pentice.design import Design
from pentice.drawing.leaders import break_line, leader
from pentice.drawing.scene import (
    Area,
    Circle,
    Dimension,
    Line,
    Pinned,
    Point,
    Polyline,
    Primitive,
    Scene,
    Text,
)
from pentice.pack.drawings.details import fitted_at, spread_of
from pentice.pack.drawings.values import part, rectangle

SCALE = 2.0
SEAL_MM = 4.0
"""Height of a seal as drawn."""
CAP_MM = 3.0
RAFTER_SHOWN_MM = 22.0


def bar_detail(design: Design, letter: str = "D") -> Scene:
    """The bar between two sheets on its rafter, 1:2."""
    bar = design.parts.bar
    seat = bar.seat_thickness_mm or 2.0
    low, high = seat + SEAL_MM, seat + SEAL_MM + design.parts.sheet.depth_mm
    gap = side_gaps(design)
    reach = bar.seat_mm / 2 + 14.0
    inner = bar.stem_mm / 2 + _gap(design)
    content = (
        part("rafter", *(_carrying(design) if bar.carries else _rafter(design))),
        part(
            "sheets",
            *_sheet(design, (-reach, -inner), (low, high)),
            *_sheet(design, (inner, reach), (low, high)),
        ),
        part("bar", *_bar(design, low, high)),
        part("seals", *_seals(design, low, high)),
        part("sizes", *_sizes(design, low, high)),
    )
    what = "Bar" if bar.carries else "Bar on its rafter"
    desc = f"{what}, cut across. Gap {gap} each side with the sheets at {fitted_at(design)}."
    return Scene(
        primitives=content,
        title=f"{letter} Bar" + ("" if bar.carries else " on rafter"),
        desc=desc,
        scale=SCALE,
    )


def side_gaps(design: Design) -> str:
    """Gap between sheet and stem, all bays."""
    return spread_of(
        tuple(e.gap_mm for b in design.setting_out.plane.bays for e in (b.edges.left, b.edges.right))
    )


def _gap(design: Design) -> float:
    return design.setting_out.plane.bays[-1].edges.left.gap_mm


def _rafter(design: Design) -> tuple[Primitive, ...]:
    """The head of the rafter, cut across, up to a break line."""
    w = design.setting_out.plane.rafters[0].width_mm / 2
    low = RAFTER_SHOWN_MM
    return (
        Area(points=rectangle(-w, 0.0, w, low), fill="timber end"),
        Polyline(points=((-w, low), (-w, 0.0), (w, 0.0), (w, low)), style="wide"),
        break_line((-w - 4.0, low), (w + 4.0, low)),
        Line(a=(0.0, low + 2.0), b=(0.0, -4.0), style="chain"),
    )


def _carrying(design: Design) -> tuple[Primitive, ...]:
    """What of a bar that carries by itself lies below its seat, up to a break line: its shape is the supplier's."""
    half, low = design.parts.bar.seat_mm / 3, RAFTER_SHOWN_MM
    return (
        Polyline(points=((-half, low), (-half, 0.0), (half, 0.0), (half, low)), style="extra wide"),
        break_line((-half - 4.0, low), (half + 4.0, low)),
        Line(a=(0.0, low + 2.0), b=(0.0, -4.0), style="chain"),
    )


def _sheet(design: Design, xs: tuple[float, float], out: tuple[float, float]) -> tuple[Primitive, ...]:
    """A sheet cut across its flutes: walls and ribs drawn, the first rib where it is; a break line at the far end."""
    sheet, (low, high) = design.parts.sheet, out
    left, right = xs
    edge, sign = (right, -1.0) if left < 0.0 else (left, 1.0)
    bay = design.setting_out.plane.bays[-1]
    first = bay.edges.left.rib_at_mm if sign > 0 else bay.edges.right.rib_at_mm
    found: list[Primitive] = [Area(points=rectangle(left, -high, right, -low), fill="white")]
    for k in range(sheet.walls):
        y = -low - (high - low) * k / (sheet.walls - 1)
        style = "wide" if k in (0, sheet.walls - 1) else "narrow"
        found.append(Line(a=(left, y), b=(right, y), style=style))
    x = edge + sign * (first if first is not None else sheet.first_rib_mm)
    while left < x < right:
        found.append(Line(a=(x, -low), b=(x, -high), style="narrow"))
        x += sign * sheet.rib_pitch_mm
    end = left if sign < 0 else right
    return (*found, break_line((end, -low + 5.0), (end, -high - 5.0)))


def _bar(design: Design, low: float, high: float) -> tuple[Primitive, ...]:
    """Base with its stem, cap, and a screw: solid, because they are thin."""
    bar = design.parts.bar
    seat, half = bar.seat_thickness_mm or 2.0, bar.seat_mm / 2
    stem, top = bar.stem_mm / 2, high + SEAL_MM
    wall = min(2.5, stem * 0.5)
    screw = -bar.hole_gauge_mm / 2
    inner = stem - wall - 0.6
    screws: tuple[Primitive, ...] = (
        Area(points=rectangle(screw - 4.5, -seat - 2.6, screw + 4.5, -seat), fill="ink"),
        Line(a=(screw, -seat), b=(screw, RAFTER_SHOWN_MM - 6.0), style="extra wide"),
    )
    return (
        Area(points=rectangle(-half, -seat, half, 0.0), fill="ink"),
        Area(points=rectangle(-stem, -high, -stem + wall, -seat), fill="ink"),
        Area(points=rectangle(stem - wall, -high, stem, -seat), fill="ink"),
        Area(points=rectangle(-half, -top - CAP_MM, half, -top), fill="ink"),
        Area(points=rectangle(-inner, -top, -inner + 1.4, -high + 12.0), fill="ink"),
        Area(points=rectangle(inner - 1.4, -top, inner, -high + 12.0), fill="ink"),
        *(() if bar.carries else screws),
    )


def _seals(design: Design, low: float, high: float) -> tuple[Primitive, ...]:
    """A seal under and over each sheet near the flange's tip."""
    bar = design.parts.bar
    x = bar.seat_mm / 2 - 5.0
    seat = bar.seat_thickness_mm or 2.0
    return tuple(
        Circle(centre=(side * x, -(y + SEAL_MM / 2)), radius=SEAL_MM / 2, style="", fill="ink")
        for side in (-1.0, 1.0)
        for y in (seat, high)
        if low > seat
    )


def _sizes(design: Design, low: float, high: float) -> tuple[Primitive, ...]:
    """Bite and gap in bold, the mark, the screw."""
    bar, bays = design.parts.bar, design.setting_out.plane.bays
    edges = [e for b in bays for e in (b.edges.left, b.edges.right) if e.held_by == "bar"]
    bite = spread_of(tuple(e.bite_fitted_mm for e in edges)) if edges else "none"
    gap = _gap(design)
    top = high + SEAL_MM + CAP_MM
    stem, half = bar.stem_mm / 2, bar.seat_mm / 2
    inner = stem + gap
    found: list[Primitive] = [
        Dimension(a=(inner, -top), b=(half, -top), text="", offset_mm=4.5, kind="overall"),
    ]
    label = Text(at=(0.0, -6.6), text=f"bite {bite}", weight=700, anchor="middle")
    found.append(Pinned(at=((inner + half) / 2, -top), content=(label,)))
    tip: Point = (stem + gap / 2, -low - 4.0)
    words = f"gap {side_gaps(design)}\neach side\nat {fitted_at(design)}"
    row = RAFTER_SHOWN_MM + 11.0
    found.append(leader(tip, ((9.0 - tip[0]) / SCALE, (row - tip[1]) / SCALE), words, end="dot", weight=700))
    screw = design.parts.screw
    tip = (-bar.hole_gauge_mm / 2, RAFTER_SHOWN_MM * 0.6)
    words = f"screw {screw.d_mm:g} × {screw.length_mm:g},\nleft, right\nby turns"
    left = -15.0
    if bar.carries:
        tip, left = (-bar.seat_mm / 3, RAFTER_SHOWN_MM * 0.6), -bar.seat_mm / 3 - 7.0
        words = f"carries itself,\n{bar.below_mm or 0.0:g} below\nthe seat"
    found.append(leader(tip, ((left - tip[0]) / SCALE, (row - tip[1]) / SCALE), words))
    return (*found, leader((0.0, -top), (-13.0, -7.5), "mark"))
