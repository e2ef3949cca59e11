"""Details at the wall and at the foot 1:5, cut along a sheet: what changes with the temperature is bold."""

from __future__ import annotations

import math

from pentice.design import Design
from pentice.drawing.free import first_free
from pentice.drawing.leaders import break_line, leader
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import (
    Area,
    Dimension,
    Line,
    Pinned,
    Point,
    Polyline,
    Primitive,
    Scene,
    Text,
)
from pentice.frame.stage import head_seat_mm, head_support_mm
from pentice.job.called import head_called
from pentice.pack.drawings.frame_lines import (
    beam_bottom,
    beam_fill,
    beam_top,
    gutter_section,
    gutter_top,
    head_beam_outline,
    plate_outline,
    rafter_foot,
    rafter_head,
)
from pentice.pack.drawings.plan import section_bay
from pentice.pack.drawings.slope import SEAT_MM, Lengths, Slope, lengths_of, sheet_walls, slope_of
from pentice.pack.drawings.values import part, rectangle, tenth, whole

SCALE = 5.0
WALL_REACH_MM = 205.0
FOOT_REACH_MM = 135.0
ARM_MM = 2.0
"""Thickness of a profile's arm as drawn; the catalogue gives its back only."""


def spread_of(values: tuple[float, ...]) -> str:
    """One size, or the least and the most where bays differ, to 0.1.

    Examples
    --------
    >>> spread_of((3.03, 3.04)), spread_of((3.0, 3.4))
    ('3.0', '3.0 to 3.4')
    """
    low, high = tenth(min(values)), tenth(max(values))
    return low if low == high else f"{low} to {high}"


def fitted_at(design: Design) -> str:
    """The sheet temperature that gaps are given for."""
    return f"{design.setting_out.temperatures.fit_c:g} °C"


def wall_detail(design: Design, letter: str = "B") -> Scene:
    """The head at the wall, or over the head beam, 1:5."""
    slope, place = slope_of(design), lengths_of(design, section_bay(design).number)
    content = (
        part("wall", *(_wall_cut(design) if design.job.roof.attached else ())),
        part("frame", *_head_frame(design, slope)),
        part("sheet", *sheet_walls(design, slope, (place.sheet_head, _along(design, _wall_reach(design))))),
        part("profile", *_head_profile(design, slope, place)),
        part("labels", *_wall_labels(design, slope, place)),
    )
    gap = spread_of(tuple(b.edges.head.gap_mm for b in design.setting_out.plane.bays))
    there = head_called(design.job)
    desc = f"Detail at {there}. Head gap {gap} with the sheet at {fitted_at(design)}."
    return Scene(primitives=content, title=f"{letter} {there[4:].capitalize()}", desc=desc, scale=SCALE)


def _plate_words(plate: tuple[float, float]) -> str:
    return f"wall plate {plate[0]:g} × {plate[1]:g}"


def _head_beam_words(beam: tuple[float, float]) -> str:
    return f"head beam {beam[0]:g} × {beam[1]:g}"


def _wall_reach(design: Design) -> float:
    """How far out the roof is drawn at the head [mm]: past a label in it, so that its break line stays clear."""
    under, attached = head_support_mm(design.job), design.job.roof.attached
    if under is None or not (
        attached or design.job.frame.head_notch_mm
    ):  # a wedged beam's label stands below it
        return WALL_REACH_MM
    words = _plate_words(under) if attached else _head_beam_words(under)
    return max(WALL_REACH_MM, under[0] + SCALE * (9.0 + text_width_mm(words, 2.5)))


def _along(design: Design, level_mm: float) -> float:
    return level_mm / design.shape.cos_pitch


def _wall_cut(design: Design) -> tuple[Primitive, ...]:
    """A piece of the wall between break lines."""
    kind = design.job.house.wall if design.job.house is not None else None
    fill = {"block": "blockwork", "timber frame": "timber along", "insulated render": "insulation"}
    top, bottom = -128.0, _low(design)
    return (
        Area(points=rectangle(-48.0, top, 0.0, bottom), fill=fill.get(kind or "", "brick")),
        Line(a=(0.0, top), b=(0.0, bottom), style="extra wide"),
        break_line((-54.0, top), (6.0, top)),
        break_line((-54.0, bottom), (6.0, bottom)),
    )


def _low(design: Design) -> float:
    """Lower end of the wall detail."""
    plate = design.job.frame.wall_plate_mm
    rafter = design.setting_out.plane.rafters[0].depth_mm / design.shape.cos_pitch
    under = max(y for _, y in plate_outline(design)) if plate is not None else 0.0
    return max(under, rafter + 8.0) + 16.0


def _head_frame(design: Design, slope: Slope) -> tuple[Primitive, ...]:
    """Wall plate cut across, the rafter beyond it up to a break line."""
    plate, lies_on_it = design.job.frame.wall_plate_mm, design.job.frame.head_notch_mm > 0.0
    start = plate[0] if plate is not None and not lies_on_it else 0.0
    depth = design.setting_out.plane.rafters[0].depth_mm / design.shape.cos_pitch
    far = _wall_reach(design)
    under = rafter_head(design) if lies_on_it else (slope.level(start, depth),)
    found: list[Primitive] = [
        Line(a=slope.level(start), b=slope.level(far), style="wide"),
        Polyline(points=(slope.level(far, depth), *under), style="wide"),
        break_line(slope.level(far, -4.0), slope.level(far, depth + 4.0)),
    ]
    if plate is not None:
        found.append(Area(points=plate_outline(design), fill="timber end", style="wide"))
    else:
        found.append(Line(a=slope.level(start), b=slope.level(start, depth), style="wide"))
    if not design.job.roof.attached:
        found += _head_beam(design, slope, depth)
    return tuple(found)


def _head_beam(design: Design, slope: Slope, depth: float) -> tuple[Primitive, ...]:
    """The head beam cut across, a wedge over what the rafter does not touch; a break line below."""
    corners = head_beam_outline(design)
    if not corners:
        return ()
    (_, top), (width, _), *_ = corners
    low, inner = top + 40.0, width
    if design.job.frame.head_notch_mm:
        inner = width - head_seat_mm(design.job, design.shape)
    wedge = (Area(points=(slope.level(0.0, depth), (inner, top), (0.0, top)), fill="ink"),)
    return (
        *(wedge if inner > 1.0 else ()),
        Area(points=rectangle(0.0, top, width, low), fill=beam_fill(design)),
        Polyline(points=((0.0, low), (0.0, top), (width, top), (width, low)), style="wide"),
        break_line((-6.0, low), (width + 6.0, low)),
    )


def _head_profile(design: Design, slope: Slope, place: Lengths) -> tuple[Primitive, ...]:
    """The profile: its leg up the wall, or down over a head beam; arms over and under the sheet; both tapes."""
    profile = design.parts.head_profile
    low, high = SEAT_MM - ARM_MM, SEAT_MM + design.parts.sheet.depth_mm
    inside = profile.inside_mm or design.parts.sheet.depth_mm
    top = SEAT_MM - 0.7 + inside
    back, leg = profile.back_mm, profile.leg_mm or 40.0
    end = back + profile.arm_mm
    upper = slope.box((0.0, end), (top, top + ARM_MM))
    lower = slope.box((0.0, end), (low, low + ARM_MM))
    upstand_top = upper[0][1] - leg
    tape: tuple[Point, ...] = (
        (back + 1.5, upstand_top - 44.0),
        (back + 1.5, upper[0][1] - 4.0),
        slope.at(back + 5.0, top + ARM_MM + 2.5),
        slope.at(end + 14.0, top + ARM_MM + 2.5),
    )
    head = slope.box((place.sheet_head - 1.2, place.sheet_head), (SEAT_MM, high))
    upstand = rectangle(0.0, upstand_top, back, lower[2][1])
    if not design.job.roof.attached:
        down = lower[2][1] + leg
        tape = (
            tape[3],
            tape[2],
            slope.at(back - 3.0, top + ARM_MM + 2.5),
            (-3.0, upper[0][1]),
            (-3.0, down + 30.0),
        )
        upstand = rectangle(0.0, upper[0][1], back, down)
    return (
        Area(points=upstand, fill="ink"),
        Area(points=upper, fill="ink"),
        Area(points=lower, fill="ink"),
        Area(points=head, fill="ink"),
        Polyline(points=tape, style="wide"),
    )


def _wall_labels(design: Design, slope: Slope, place: Lengths) -> tuple[Primitive, ...]:
    """Labels in one column above the roof, and the plate's below."""
    bays = design.setting_out.plane.bays
    profile, depth = design.parts.head_profile, design.parts.sheet.depth_mm
    gap = spread_of(tuple(b.edges.head.gap_mm for b in bays))
    middle = SEAT_MM + depth / 2
    flashing: tuple[Point, str, int, str] = (
        ((profile.back_mm + 2.0, -95.0 + 10.0), "flashing, 150 up the wall", 400, "arrow")
        if design.job.roof.attached
        else (slope.at(4.0, SEAT_MM + depth + 6.0), "flashing, down onto the beam", 400, "arrow")
    )
    tips: tuple[tuple[Point, str, int, str], ...] = (
        flashing,
        (
            slope.at(profile.back_mm + profile.arm_mm * 0.8, SEAT_MM + depth + 2.0),
            f"head profile, arm {profile.arm_mm:g}", 400, "arrow",
        ),
        (
            slope.at((place.sheet_head + profile.back_mm) / 2, middle),
            f"head gap {gap} at {fitted_at(design)}", 700, "dot",
        ),
        (slope.at(place.sheet_head, SEAT_MM + 4.0), "solid tape", 600, "arrow"),
    )  # fmt: skip
    found: list[Primitive] = []
    for k, (tip, words, weight, end) in enumerate(tips):
        target = (82.0, -122.0 + 26.0 * k)
        to = ((target[0] - tip[0]) / SCALE, (target[1] - tip[1]) / SCALE)
        found.append(leader(tip, to, words, end=end, weight=weight))
    plate = design.job.frame.wall_plate_mm
    if plate is not None:
        ys = [y for _, y in plate_outline(design)]
        rafter = design.setting_out.plane.rafters[0].depth_mm
        high = min(ys) if design.job.frame.head_notch_mm else 0.0
        tip = (plate[0] * 0.5, high + min(plate[1], rafter) * 0.55)
        name, beside = _plate_words(plate), plate[0] * 0.5 / SCALE + 4.0
        # Within the rafter; a steep sheet comes down over it there, so then under the other labels.
        below = ((82.0 - tip[0]) / SCALE, (-122.0 + 26.0 * len(tips) - tip[1]) / SCALE)
        choices = [leader(tip, (beside, 0.0), f"{name}\nbolts by a\nstructural check", end="dot")]
        choices += [
            leader(tip, (below[0] + right, below[1]), f"{name}\nbolts by a structural check", end="dot")
            for right in (0.0, 8.0)
        ]
        reach = (place.sheet_head, _along(design, _wall_reach(design)))
        stands = (*_head_frame(design, slope), *sheet_walls(design, slope, reach))
        found.append(first_free(choices, stands, SCALE))
    corners = head_beam_outline(design)
    if not design.job.roof.attached and corners:
        (_, top), (width, _), _, (_, bottom) = corners
        cut = design.job.frame.head_notch_mm
        how, rise = (f"birdsmouth {cut:g}", -9.0) if cut else ("wedge above it", 0.0)
        words = f"{_head_beam_words((width, bottom - top))}\n{how}"
        right = width * 0.5 / SCALE + 4.0
        choices = [
            leader((width * 0.5, top + 22.0), (right, lower), words, end="dot")
            for lower in (rise, 8.0, 14.0, 20.0, 28.0)
        ]
        found.append(first_free(choices, _head_frame(design, slope), SCALE))
    return tuple(found)


def foot_detail(design: Design, letter: str = "C") -> Scene:
    """The foot over the beam and the gutter, 1:5."""
    slope, place = slope_of(design), lengths_of(design, section_bay(design).number)
    start = _along(design, design.shape.projection_mm - FOOT_REACH_MM)
    content = (
        part("frame", *_foot_frame(design, slope)),
        part("sheet", *sheet_walls(design, slope, (start, place.sheet_foot))),
        part("profile", *_foot_profile(design, slope, place)),
        part("gutter", *gutter_section(design, section_bay(design).number)),
        part("labels", *_foot_labels(design, slope, place)),
    )
    desc = f"Detail at the foot. The drip falls {whole(design.setting_out.drip_mm)} out from the beam."
    return Scene(primitives=content, title=f"{letter} Foot", desc=desc, scale=SCALE)


def _foot_frame(design: Design, slope: Slope) -> tuple[Primitive, ...]:
    """Rafter end, wedge, beam cut across, the post below up to a break line."""
    far = design.shape.projection_mm
    near = far - FOOT_REACH_MM
    depth = design.setting_out.plane.rafters[0].depth_mm / design.shape.cos_pitch
    found: list[Primitive] = [
        Polyline(
            points=(slope.level(near), slope.level(far), *rafter_foot(design), slope.level(near, depth)),
            style="wide",
        ),
        break_line(
            slope.level(near, depth + 4.0),
            slope.at(_along(design, near), SEAT_MM + design.parts.sheet.depth_mm + 4.0),
        ),
    ]
    beam = design.job.frame.beam_mm
    if beam is None:
        return tuple(found)
    top, bottom = beam_top(design), beam_bottom(design)
    shown = min(bottom, top + 40.0)
    left = far - beam[0]
    inner = rafter_foot(design)[-1]
    if inner[0] > left + 1.0:  # what of the beam's width no birdsmouth reaches is wedged
        found.append(Area(points=(slope.level(left, depth), (inner[0], top), (left, top)), fill="ink"))
    found.append(Area(points=rectangle(left, top, far, shown), fill=beam_fill(design)))
    found.append(Polyline(points=((left, shown), (left, top), (far, top), (far, shown)), style="wide"))
    found.append(break_line((left - 6.0, shown), (far + 6.0, shown)))
    return tuple(found)


def _foot_profile(design: Design, slope: Slope, place: Lengths) -> tuple[Primitive, ...]:
    """U-profile with its drip, breather tape, button, and the noggin under it."""
    profile, depth = design.parts.foot_profile, design.parts.sheet.depth_mm
    low, high = SEAT_MM, SEAT_MM + depth
    start = place.back - profile.arm_mm
    found: list[Primitive] = [
        Area(points=slope.box((start, place.end), (high, high + ARM_MM)), fill="ink"),
        Area(points=slope.box((start, place.end), (low - ARM_MM, low)), fill="ink"),
        Area(points=slope.box((place.back, place.end), (low - ARM_MM - 8.0, high + ARM_MM)), fill="ink"),
        Area(points=slope.box((place.sheet_foot, place.sheet_foot + 1.2), (low, high)), fill="ink"),
    ]
    if place.hole is not None:
        noggin = design.job.frame.noggin_mm
        if noggin is not None:
            points = slope.box((place.hole - noggin[0] / 2, place.hole + noggin[0] / 2), (-noggin[1], 0.0))
            found.append(Polyline(points=points, closed=True, style="narrow dashed"))
        found.append(
            Line(a=slope.at(place.hole, high + 2.0), b=slope.at(place.hole, -25.0), style="extra wide")
        )
        cap = slope.box((place.hole - 18.0, place.hole + 18.0), (high, high + 4.0))
        found.append(Area(points=cap, fill="ink"))
    return tuple(found)


def _foot_labels(design: Design, slope: Slope, place: Lengths) -> tuple[Primitive, ...]:
    """Labels above at the right, the drip with what will do below."""
    far, rise = design.shape.projection_mm, design.shape.rise_mm
    high = SEAT_MM + design.parts.sheet.depth_mm
    tips: list[tuple[Point, str, int, str]] = [
        (slope.at(place.back - 12.0, high + 2.0), "foot profile, drip down", 400, "arrow"),
        (
            slope.at(place.sheet_foot + 0.6, SEAT_MM + design.parts.sheet.depth_mm * 0.6),
            "breather tape",
            600,
            "arrow",
        ),
    ]
    if place.hole is not None:
        tips.insert(0, (slope.at(place.hole, high + 4.0), "button, noggin under it", 400, "arrow"))
    # A steep sheet rises past the labels: they stand over it.
    slopes = FOOT_REACH_MM * math.tan(math.radians(slope.pitch_deg)) + high / design.shape.cos_pitch
    lift = max(0.0, slopes + 14.0 - (90.0 if place.hole is not None else 116.0))
    found: list[Primitive] = []
    for k, (tip, words, weight, _) in enumerate(tips):
        target = (far + 24.0, rise - lift - 148.0 + 26.0 * k)
        to = ((target[0] - tip[0]) / SCALE, (target[1] - tip[1]) / SCALE)
        found.append(
            _label_left(tip, to, words, weight) if to[0] > 0 else leader(tip, to, words, weight=weight)
        )
    beam = design.job.frame.beam_mm
    if beam is not None:
        wedge = (far - beam[0] + 4.0, beam_top(design) - 4.0)
        cut = design.job.frame.rafter_notch_mm
        found.append(leader(wedge, (-7.0, 5.0), f"birdsmouth {cut:g}" if cut else "wedge"))
    return (*found, *_drip(design, slope, place))


def _label_left(tip: Point, to: Point, words: str, weight: int) -> Pinned:
    """A leader whose label ends at the bend though the tip lies left of it."""
    made = leader(tip, to, "", weight=weight)
    lines = tuple(p for p in made.content if not isinstance(p, Text))
    x, y = to
    label = Text(at=(x - 2.4, y + 1.25), text=words, weight=weight, anchor="end", halo=True)
    return Pinned(at=tip, content=(*lines, label))


def _drip(design: Design, slope: Slope, place: Lengths) -> tuple[Primitive, ...]:
    """The line that the drip falls on, its distance from the beam, and the window of the gutter."""
    gutter, far = design.parts.gutter, design.shape.projection_mm
    drip = design.setting_out.drip_mm
    start = slope.at(place.end, SEAT_MM - ARM_MM - 8.0)
    low = gutter_top(design, section_bay(design).number) + (gutter.depth_mm if gutter is not None else 30.0)
    line = Line(a=start, b=(far + drip, low - 10.0), style="narrow dashed")
    size = Dimension(a=(far, low), b=(far + drip, low), text=whole(drip), offset_mm=-6.0, kind="overall")
    words = ["drip line"]
    if gutter is not None:
        near, most = (share * gutter.width_mm for share in design.job.gutter.drip_window)
        words.append(f"{whole(near)} to {whole(most)} will do")
    rows = tuple(
        Text(at=(1.6, 10.8 + 4.5 * k), text=text, weight=700 if k == 0 else 400)
        for k, text in enumerate(words)
    )
    return (line, size, Pinned(at=(far, low), content=rows))
