"""The section, wall or head at the left: heights over the datum mark where known, pitch, slope, clear height."""

from __future__ import annotations

import math

from pentice.catalogue.sections import Section
from pentice.design import Design
from pentice.drawing.free import first_free
from pentice.drawing.furniture import pitch_triangle
from pentice.drawing.leaders import leader
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import (
    Arc,
    Area,
    Circle,
    Dimension,
    Line,
    Pinned,
    Polyline,
    Primitive,
    Scene,
    Text,
)
from pentice.drawing.symbols import detail_circle, plate
from pentice.frame.stage import (
    birdsmouth_seat_mm,
    head_beam_below_mm,
    head_seat_mm,
    head_support_mm,
    row_places,
)
from pentice.job.called import head_called
from pentice.pack.drawings.knees import knee_braces_across, knee_labels
from pentice.pack.drawings.plan import section_bay
from pentice.pack.drawings.slope import SEAT_MM, lengths_of, slope_of
from pentice.pack.drawings.values import half, part, rectangle, whole

WALL_MM = 10.0
UNKNOWN_POST_MM = 1100.0
"""How much of a post is drawn where the heights are not known: a break line ends it."""


def section_model(design: Design, n: float) -> Scene:
    """Section A-A, to be printed 1:n.

    Parameters
    ----------
    design
        A solved job.
    n
        The scale it will be printed at.
    """
    shape = design.shape
    desc = (
        f"Section with {head_called(design.job)} at the left. The roof falls {whole(shape.rise_mm)} in "
        f"{whole(shape.projection_mm)}, {shape.pitch_deg:.1f} degrees."
    )
    content = (
        part("wall", *_wall(design, n)),
        part("ground", *_ground(design, n)),
        part("frame", *_frame(design)),
        part("knees", *knee_braces_across(design, n)),
        part("glazing", *_glazing(design)),
        part("gutter", *gutter_section(design)),
        part("details", *_details(design, n)),
        part("sizes", *_sizes(design, n)),
        part("names", *_names(design, n)),
        part("pitch", _pitch(design, n)),
    )
    return Scene(primitives=content, title="Section A–A", desc=desc, scale=n)


def floor_y(design: Design) -> float:
    """The datum below the roof line at the wall [mm]; where it is not known, where the drawing ends."""
    if design.shape.head_height_mm is not None:
        return design.shape.head_height_mm
    return beam_bottom(design) + UNKNOWN_POST_MM


def beam_top(design: Design) -> float:
    """Top of the eaves beam below the roof line at the wall [mm]."""
    rafter = design.setting_out.plane.rafters[0]
    over = rafter.depth_mm - design.job.frame.rafter_notch_mm
    return design.shape.rise_mm + over / design.shape.cos_pitch


def beam_bottom(design: Design) -> float:
    """Underside of the eaves beam below the roof line at the wall [mm]."""
    beam = design.job.frame.beam_mm
    return beam_top(design) + (beam[1] if beam is not None else 0.0)


def _wall(design: Design, n: float) -> tuple[Primitive, ...]:
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
        _break_level(-thick - 1.5 * n, 1.5 * n, top, n),
    )


def _break_level(left: float, right: float, y: float, n: float) -> Polyline:
    """A level break line whose zigzag keeps its size on paper."""
    middle = (left + right) / 2
    zig = ((-1.2, 0.0), (-0.4, -1.6), (0.4, 1.6), (1.2, 0.0))
    return Polyline(
        points=((left, y), *((middle + dx * n, y + dy * n) for dx, dy in zig), (right, y)), style="narrow"
    )


def _ground(design: Design, n: float) -> tuple[Primitive, ...]:
    """The ground, where heights are known, with three strokes here and there."""
    if design.shape.head_height_mm is None:
        return ()
    y = floor_y(design) - min((*design.job.frame.post_feet_mm, 0.0))
    left, right = -WALL_MM * n - 3.0 * n, design.shape.projection_mm + 12.0 * n
    found: list[Primitive] = [Line(a=(left, y), b=(right, y), style="extra wide")]
    k = 0.0
    while left + k + 6.0 * n < right:
        for step in (0.0, 1.6, 3.2):
            x = left + k + (step + 2.0) * n
            found.append(Line(a=(x, y), b=(x - 2.0 * n, y + 2.0 * n), style="narrow"))
        k += 14.0 * n
    return tuple(found)


def _frame(design: Design) -> tuple[Primitive, ...]:
    """Wall plate, rafter, beam and post."""
    shape, frame, slope = design.shape, design.job.frame, slope_of(design)
    depth = design.setting_out.plane.rafters[0].depth_mm / shape.cos_pitch
    bearer = frame.wall_plate_mm
    start = bearer[0] if bearer is not None and not frame.head_notch_mm else 0.0
    far = shape.projection_mm
    found: list[Primitive] = []
    if not design.job.roof.attached:
        found += _head_row(design)
    if bearer is not None:
        found.append(Area(points=plate_outline(design), fill="timber end", style="wide"))
    head = rafter_head(design) if frame.head_notch_mm else (slope.level(start, depth),)
    outline = (slope.level(start), slope.level(far), *rafter_foot(design), *head)
    found.append(Area(points=outline, fill="white", style="wide"))
    if frame.beam_mm is not None:
        corners = rectangle(far - frame.beam_mm[0], beam_top(design), far, beam_bottom(design))
        found.append(Area(points=corners, fill=beam_fill(design), style="wide"))
    if frame.post_mm is not None and frame.posts_at_mm:
        found += _post(design, (far - frame.post_mm[1], far), beam_bottom(design), frame.post_feet_mm)
    return tuple(found)


def head_beam_outline(design: Design) -> tuple[tuple[float, float], ...]:
    """The head beam of a free-standing roof under its rafters; nothing where the job does not name it."""
    size = None if design.job.roof.attached else head_support_mm(design.job)
    if size is None:
        return ()
    top = _seat_level(design)
    return rectangle(0.0, top, size[0], top + size[1])


def _head_row(design: Design) -> tuple[Primitive, ...]:
    """Head beam and its post."""
    frame, corners = design.job.frame, head_beam_outline(design)
    if not corners:
        return ()
    found: tuple[Primitive, ...] = (Area(points=corners, fill=beam_fill(design), style="wide"),)
    places, feet = row_places(design.job, head=True)
    if frame.post_mm is not None and places:
        found += _post(design, (0.0, frame.post_mm[1]), max(y for _, y in corners), feet)
    return found


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


def _metal_words(section: Section | None) -> str:
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


def _post(
    design: Design, sides: tuple[float, float], top: float, feet_mm: tuple[float, ...]
) -> tuple[Primitive, ...]:
    """A post under its beam, with its centre line; a break line where the ground is not known."""
    known = design.shape.head_height_mm is not None
    bottom = floor_y(design) - (min((*feet_mm, 0.0)) if known else 0.0)
    left, right = sides
    middle = (left + right) / 2
    return (
        Area(points=rectangle(left, top, right, bottom), fill="white"),
        Line(a=(left, top), b=(left, bottom), style="wide"),
        Line(a=(right, top), b=(right, bottom), style="wide"),
        Line(a=(middle, top), b=(middle, bottom), style="chain"),
    )


def _glazing(design: Design) -> tuple[Primitive, ...]:
    """Sheet, upstand at the wall and foot profile."""
    slope, place = slope_of(design), lengths_of(design, section_bay(design).number)
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


def gutter_section(design: Design) -> tuple[Primitive, ...]:
    """The gutter across, its top edge below the drip."""
    gutter, far = design.parts.gutter, design.shape.projection_mm
    if gutter is None:
        return ()
    y = gutter_top(design)
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


def gutter_top(design: Design) -> float:
    """Top edge of the gutter as drawn: 12 below the lowest point of the foot profile."""
    slope = slope_of(design)
    end = lengths_of(design, section_bay(design).number).end
    return slope.at(end, SEAT_MM)[1] + 12.0


def _details(design: Design, n: float) -> tuple[Primitive, ...]:
    """Circles round what is drawn larger."""
    far, radius = design.shape.projection_mm, 11.0 * n
    foot = (far, beam_top(design) - 2.0 * n)
    letters = [
        detail_circle(foot, radius, "C", (far + radius * right, foot[1] + radius * down))
        for right, down in ((0.9, -1.0), (1.25, 0.3), (0.9, 1.0))
    ]
    return (
        Circle(centre=(2.0 * n, 1.0 * n), radius=radius, style="chain"),
        plate((-WALL_MM * n / 2, radius + 3.5 * n), "B", 3.5, 700),
        first_free(letters, _sizes(design, n), n),
    )


def _sizes(design: Design, n: float) -> tuple[Primitive, ...]:
    """Level depth, slope, and heights over the datum."""
    shape, slope = design.shape, slope_of(design)
    far, ground = shape.projection_mm, _ground_y(design, n)
    found: list[Primitive] = [
        Dimension(
            a=(0.0, ground),
            b=(far, ground),
            text=f"{whole(far)} to outside of beam",
            offset_mm=-10.0,
            kind="overall",
        ),
        Dimension(
            a=slope.at(0.0, 60.0),
            b=slope.at(design.setting_out.plane.slope_length_mm, 60.0),
            text=f"{half(design.setting_out.plane.slope_length_mm)} on the slope",
            offset_mm=8.0,
        ),
    ]
    return (*found, *_heights(design, n))


def _ground_y(design: Design, n: float) -> float:
    """What the level depth is measured under [mm]."""
    known = design.shape.head_height_mm is not None
    return floor_y(design) + 3.0 * n if known else beam_bottom(design) + UNKNOWN_POST_MM


def _heights(design: Design, n: float) -> tuple[Primitive, ...]:
    """Heights over the datum mark; nothing where they are not known."""
    shape = design.shape
    if shape.head_height_mm is None or shape.eaves_height_mm is None:
        note = Text(at=(4.0, 0.0), text="heights not known: give head or eaves height", halo=True)
        return (Pinned(at=(0.0, beam_bottom(design) + UNKNOWN_POST_MM / 2), content=(note,)),)
    floor, thick = floor_y(design), WALL_MM * n
    head, eaves = whole(shape.head_height_mm), whole(shape.eaves_height_mm)
    there = head_called(design.job)
    text = _first((f"{head} roof line at {there}", f"{head} at {there}", head), floor / n)
    right = _first(
        (f"{eaves} roof line at the beam face", f"{eaves} at the beam", eaves), (floor - shape.rise_mm) / n
    )
    found: list[Primitive] = [
        Dimension(a=(-thick, floor), b=(-thick, 0.0), text=text, offset_mm=8.0),
        Dimension(
            a=(shape.projection_mm + 13.0 * n, shape.rise_mm),
            b=(shape.projection_mm + 13.0 * n, floor),
            text=right,
            offset_mm=3.0,
        ),
    ]
    clear = design.setting_out.clear_height_mm
    if clear is not None:
        deep = (design.job.frame.post_mm or (0.0, 0.0))[1]
        between = (shape.projection_mm - 2.0 * deep) / n
        x = shape.projection_mm - deep - min(9.0, max(4.5, between / 2.0)) * n
        bottom, words = beam_bottom(design), f"{whole(clear)} clear"
        found.append(
            Dimension(
                a=(x, bottom + clear),
                b=(x, bottom),
                text=words,
                offset_mm=0.0,
                kind="overall" if text_width_mm(words, 3.5, 600) < clear / n - 1.0 else "chain",
            )
        )
        found.append(Line(a=(x - 2.0 * n, bottom), b=(x + 8.0 * n, bottom), style="narrow"))
    return tuple(found)


_ROOM_MM = 5.0
"""A rafter drawn as deep as this has room for its own label [mm on paper]."""


def _first(words: tuple[str, ...], room_mm: float) -> str:
    """The longest of the words that fits along a line."""
    return next((w for w in words if text_width_mm(w, 2.5) < room_mm - 2.0), words[-1])


def _names(design: Design, n: float) -> tuple[Primitive, ...]:
    """What each timber is, beside it."""
    frame, shape, slope = design.job.frame, design.shape, slope_of(design)
    rafter = design.setting_out.plane.rafters[0]
    depth = rafter.depth_mm / shape.cos_pitch
    strength = design.parts.timber.strength_class
    turn = -shape.pitch_deg
    drop = 4.6 / math.cos(math.radians(turn))
    size = f"{rafter.width_mm:g} × {rafter.depth_mm:g}"
    beam_words = f"beam {frame.beam_mm[0]:g} × {frame.beam_mm[1]:g}" if frame.beam_mm is not None else ""
    beam_words += _metal_words(design.parts.beam_section)
    room = shape.projection_mm / n - text_width_mm(beam_words, 2.5) - 9.0
    said = _first((f"rafter {size} {strength}", f"rafter {size}", size), room)
    if design.parts.bar.carries:
        said = _first((f"bar, {rafter.depth_mm:g} below the sheet", f"bar {rafter.depth_mm:g}"), room)
    braces = knee_braces_across(design, n)
    stands: tuple[Primitive, ...] = (
        *_wall(design, n),
        *_ground(design, n),
        *_frame(design),
        *_sizes(design, n),
        *braces,
    )
    # In the middle of what the beam's own label leaves; where that is little, from the wall on.
    choices: list[Primitive] = []
    inside = bool(braces) and depth / n > _ROOM_MM  # clear of where the braces come up to the rafter
    for words in (said, size) if braces else (said,):
        near = text_width_mm(words, 2.5) / 2.0 + 4.0
        places = (near * n, shape.projection_mm / 2.0) if braces else (max(room / 2.0 + 3.0, near) * n,)
        label = Text(at=(0.0, 0.9 if inside else drop), text=words, anchor="middle", turn_deg=turn, halo=True)
        choices += [
            Pinned(at=slope.level(x, depth / 2.0 if inside else depth), content=(label,)) for x in places
        ]
    if braces:
        choices.append(_under_it(design, n, 3, said))
    found: list[Primitive] = [first_free(choices, braces, n)]
    if frame.beam_mm is not None:
        found.append(first_free(_beam_names(design, beam_words, n), (*stands, *found), n))
    if frame.post_mm is not None and frame.posts_at_mm:
        b, h = frame.post_mm
        top, bottom = beam_bottom(design), floor_y(design)
        size = f"{b:g} × {h:g}{_metal_words(design.parts.post_section)}"
        said = _first((f"post {size}", size), (bottom - top) / n)
        label = Text(at=(-1.6, 0.0), text=said, anchor="middle", turn_deg=90.0)
        outside = Text(at=(4.1, 0.0), text=said, anchor="middle", turn_deg=90.0)
        beside = [
            Pinned(at=(shape.projection_mm - inwards, top + (bottom - top) * share), content=(words,))
            for words, inwards in ((label, h), (outside, 0.0))
            for share in (0.5, 0.65, 0.8, 0.4)
        ]
        found.append(first_free(beside, (*stands, *found), n))
    labels = knee_labels(design, n)
    if labels:
        down, along = frame.knee_across_mm
        words = f"knee braces {down:g} down, {along:g} along\nfrom where middle lines cross"
        found.append(first_free((*labels, _under_it(design, n, 1, words)), (*stands, *found), n))
    return tuple(found)


def _beam_names(design: Design, words: str, n: float) -> tuple[Primitive, ...]:
    """The beam's name where it may stand: beside it, under the foot of the roof, on a leader, or under it all."""
    beam, far = design.job.frame.beam_mm or (0.0, 0.0), design.shape.projection_mm
    middle = (beam_top(design) + beam_bottom(design)) / 2
    name, _, size = words.partition(" ")
    beside = (far - beam[0], middle)
    rows = tuple(
        Text(at=(-2.0, y), text=text, anchor="end", halo=True) for text, y in ((name, -1.2), (size, 2.6))
    )
    outside = tuple(Text(at=(1.6, y), text=text, halo=True) for text, y in ((name, 5.0), (size, 8.8)))
    return (
        *(
            Pinned(at=beside, content=(Text(at=(-2.0, y), text=words, anchor="end", halo=True),))
            for y in (0.6, 1.8, 3.0)
        ),
        Pinned(at=beside, content=rows),
        Pinned(at=(far, middle), content=outside),
        *(
            leader((far - beam[0] / 2, middle), to, words, end="dot")
            for to in ((-9.0, 9.0), (-14.0, 14.0), (-14.0, 20.0))
        ),
        _under_it(design, n, 0, words),
    )


def _under_it(design: Design, n: float, row: int, words: str) -> Pinned:
    """Words under the whole section, from a row on: where nothing else stands."""
    rows = tuple(
        Text(at=(0.0, 18.0 + 4.4 * (row + k)), text=text) for k, text in enumerate(words.split("\n"))
    )
    return Pinned(at=(0.0, _ground_y(design, n)), content=rows)


def _pitch(design: Design, n: float) -> Primitive:
    """The pitch triangle, above the roof at the right, clear of the slope's size."""
    shape = design.shape
    tan = math.tan(math.radians(shape.pitch_deg)) * 1000.0
    width = min(28.0, 20000.0 / max(tan, 1.0))
    degrees = f"{shape.pitch_deg:.1f}".removesuffix(".0") + "°"
    fall = f"fall {whole(shape.rise_mm)} in {whole(shape.projection_mm)}"
    places = [
        (shape.projection_mm * 0.5 + right * n, -20.0 * n) for right in (0.0, 8.0, 16.0, 24.0, 32.0, 40.0)
    ]
    choices = [pitch_triangle(at, tan, degrees, fall, width_mm=width) for at in places]
    return first_free(choices, _sizes(design, n), n)


__all__ = [
    "beam_bottom",
    "beam_fill",
    "beam_top",
    "floor_y",
    "gutter_section",
    "gutter_top",
    "head_beam_outline",
    "plate_outline",
    "rafter_foot",
    "rafter_head",
    "section_model",
]
