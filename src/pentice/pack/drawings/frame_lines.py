"""Lines that section, details and elevations share: wall, ground, wall plate, rafter, beams, glazing and gutter.

x level out from the wall's string line, y down, both 0 where the roof line meets it [mm].
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from pentice.catalogue.sections import Section
from pentice.design import Design
from pentice.drawing.scene import Arc, Area, Line, Point, Polyline, Primitive
from pentice.frame.stage import (
    beam_below_mm,
    birdsmouth_seat_mm,
    head_beam_below_mm,
    head_seat_mm,
    head_support_mm,
)
from pentice.pack.drawings.slope import SEAT_MM, lengths_of, slope_of
from pentice.pack.drawings.values import rectangle

WALL_MM = 10.0
UNKNOWN_POST_MM = 1100.0
"""How much of a post is drawn where the heights are not known: a break line ends it."""


def floor_y(design: Design) -> float:
    """The datum below the roof line at the wall [mm]; where it is not known, where the drawing ends."""
    if design.shape.head_height_mm is not None:
        return design.shape.head_height_mm
    return beam_bottom(design) + UNKNOWN_POST_MM


def beam_top(design: Design) -> float:
    """Top of the eaves beam below the roof line at the wall [mm]."""
    return beam_below_mm(design.job, design.shape, design.setting_out)


def beam_bottom(design: Design) -> float:
    """Underside of the eaves beam below the roof line at the wall [mm]."""
    beam = design.job.frame.beam_mm
    return beam_top(design) + (beam[1] if beam is not None else 0.0)


def wall_lines(design: Design, n: float) -> tuple[Primitive, ...]:
    """The wall, cut, as high as the drawing."""
    if not design.job.roof.attached:
        return ()
    kind = design.job.house.wall if design.job.house is not None else None
    fill = {"block": "blockwork", "timber frame": "timber along", "insulated render": "insulation"}
    top, bottom, thick = -21.0 * n, floor_y(design), WALL_MM * n
    return (
        Area(points=rectangle(-thick, top, 0.0, bottom), fill=fill.get(kind or "", "brick")),
        Line(a=(-thick, top), b=(-thick, bottom), style="narrow"),
        Line(a=(0.0, top), b=(0.0, bottom), style="extra wide"),
        break_level(-thick - 1.5 * n, 1.5 * n, top, n),
    )


def break_level(left: float, right: float, y: float, n: float) -> Polyline:
    """A level break line whose zigzag keeps its size on paper."""
    middle = (left + right) / 2
    zig = ((-1.2, 0.0), (-0.4, -1.6), (0.4, 1.6), (1.2, 0.0))
    return Polyline(
        points=((left, y), *((middle + dx * n, y + dy * n) for dx, dy in zig), (right, y)), style="narrow"
    )


def ground_lines(points: Sequence[Point], n: float) -> tuple[Primitive, ...]:
    """The ground through points from left to right, with three strokes here and there."""
    found: list[Primitive] = [Polyline(points=tuple(points), style="extra wide")]
    left, right, k = points[0][0], points[-1][0], 0.0
    while left + k + 6.0 * n < right:
        for step in (0.0, 1.6, 3.2):
            x = left + k + (step + 2.0) * n
            y = level_at(points, x)
            found.append(Line(a=(x, y), b=(x - 2.0 * n, y + 2.0 * n), style="narrow"))
        k += 14.0 * n
    return tuple(found)


def level_at(points: Sequence[Point], x: float) -> float:
    """Height of a line through points from left to right at a place on it: straight between them.

    Examples
    --------
    >>> level_at(((0.0, 0.0), (10.0, 5.0), (20.0, 5.0)), 4.0)
    2.0
    """
    for (x1, y1), (x2, y2) in pairwise(points):
        if x <= x2 and x2 > x1:
            return y1 + (y2 - y1) * (x - x1) / (x2 - x1)
    return points[-1][1]


def head_beam_outline(design: Design) -> tuple[tuple[float, float], ...]:
    """The head beam of a free-standing roof under its rafters; nothing where the job does not name it."""
    size = None if design.job.roof.attached else head_support_mm(design.job)
    if size is None:
        return ()
    top = _seat_level(design)
    return rectangle(0.0, top, size[0], top + size[1])


def rafter_foot(design: Design) -> tuple[tuple[float, float], ...]:
    """Corners of a rafter's underside at the beam, from its end inwards: the birdsmouth where it has one."""
    frame, far = design.job.frame, design.shape.projection_mm
    depth = design.setting_out.plane.rafters[0].depth_mm / design.shape.cos_pitch
    if not frame.rafter_notch_mm:
        return (slope_of(design).level(far, depth),)
    inner, top = far - birdsmouth_seat_mm(design.job, design.shape), beam_top(design)
    return ((far, top), (inner, top), slope_of(design).level(inner, depth))


def beam_fill(design: Design) -> str:
    """Timber shows its end grain; a metal section is left white, its name says what it is."""
    return "timber end" if design.parts.beam_section is None else "white"


def metal_words(section: Section | None) -> str:
    """Wall and metal of a section behind its size; nothing for timber."""
    return "" if section is None else f" × {section.web_mm:g} {section.metal}"


def _seat_level(design: Design) -> float:
    """Top of head beam, or of a wall plate that rafters lie on with a birdsmouth, below the roof line at the wall."""
    left = design.setting_out.plane.rafters[0].depth_mm - design.job.frame.head_notch_mm
    return head_beam_below_mm(design.shape, left, head_support_mm(design.job) or (0.0, 0.0))


def rafter_head(design: Design) -> tuple[tuple[float, float], ...]:
    """Corners of a rafter's underside over wall plate or head beam, from the span to its end: its birdsmouth there."""
    under_it = head_support_mm(design.job) or (0.0, 0.0)
    depth, slope = design.setting_out.plane.rafters[0].depth_mm / design.shape.cos_pitch, slope_of(design)
    top, inner = _seat_level(design), under_it[0] - head_seat_mm(design.job, design.shape)
    end = min(slope.level(0.0, depth)[1], top)
    return (slope.level(under_it[0], depth), (under_it[0], top), (inner, top), (0.0, end))


def plate_outline(design: Design) -> tuple[tuple[float, float], ...]:
    """The wall plate: its top bevelled to the roof line, or level under the rafters' birdsmouths."""
    b, h = design.job.frame.wall_plate_mm or (0.0, 0.0)
    if design.job.frame.head_notch_mm:
        top = _seat_level(design)
        return rectangle(0.0, top, b, top + h)
    (_, y2) = slope_of(design).level(b)
    return ((0.0, 0.0), (b, y2), (b, h), (0.0, h))


def rafter_outline(design: Design) -> tuple[tuple[float, float], ...]:
    """A rafter from the side, from its head along the roof line and back along its underside."""
    frame, slope = design.job.frame, slope_of(design)
    depth = design.setting_out.plane.rafters[0].depth_mm / design.shape.cos_pitch
    plate = frame.wall_plate_mm
    start = plate[0] if plate is not None and not frame.head_notch_mm else 0.0
    head = rafter_head(design) if frame.head_notch_mm else (slope.level(start, depth),)
    return (slope.level(start), slope.level(design.shape.projection_mm), *rafter_foot(design), *head)


def beam_outline(design: Design) -> tuple[tuple[float, float], ...]:
    """The eaves beam across, flush with its outer face; nothing where the job does not name it."""
    size, far = design.job.frame.beam_mm, design.shape.projection_mm
    return () if size is None else rectangle(far - size[0], beam_top(design), far, beam_bottom(design))


def glazing_lines(design: Design, bay_number: int) -> tuple[Primitive, ...]:
    """Sheet of a bay, upstand at the wall and foot profile."""
    slope, place = slope_of(design), lengths_of(design, bay_number)
    low, high = SEAT_MM, SEAT_MM + design.parts.sheet.depth_mm
    leg = design.parts.head_profile.leg_mm or 40.0
    arm = design.parts.head_profile.arm_mm
    upstand = ((0.0, -high - leg - 20.0), (0.0, -high), slope.at(arm, high + 4.0))
    if not design.job.roof.attached:
        upstand = ((0.0, leg - high), (0.0, -high), slope.at(arm, high + 4.0))
    return (
        Area(points=slope.box((place.sheet_head, place.sheet_foot), (low, high)), fill="white", style="wide"),
        Polyline(points=upstand, style="extra wide"),
        Line(a=slope.at(place.end, low - 2.0), b=slope.at(place.end, high + 2.0), style="extra wide"),
    )


def gutter_section(design: Design, bay_number: int) -> tuple[Primitive, ...]:
    """The gutter across, its top edge below the drip."""
    gutter, far = design.parts.gutter, design.shape.projection_mm
    if gutter is None:
        return ()
    y = gutter_top(design, bay_number)
    left, right = far + 4.0, far + 4.0 + gutter.width_mm
    if gutter.shape == "half round":
        r = gutter.width_mm / 2
        return (Arc(centre=(left + r, y), radius=r, start_deg=180.0, end_deg=360.0, style="extra wide"),)
    inset = gutter.width_mm * 0.15 if gutter.shape == "trapezoidal" else 0.0
    points = (
        (left, y),
        (left + inset, y + gutter.depth_mm),
        (right - inset, y + gutter.depth_mm),
        (right, y),
    )
    return (Polyline(points=points, style="extra wide"),)


def gutter_top(design: Design, bay_number: int) -> float:
    """Top edge of the gutter as drawn at a bay: 12 below the lowest point of the foot profile."""
    slope = slope_of(design)
    end = lengths_of(design, bay_number).end
    return slope.at(end, SEAT_MM)[1] + 12.0
