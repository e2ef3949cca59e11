"""The section, wall or head at the left: heights over the datum mark where known, pitch, slope, clear height."""

from __future__ import annotations

import math

from pentice.design import Design
from pentice.drawing.free import first_free
from pentice.drawing.furniture import pitch_triangle
from pentice.drawing.leaders import leader
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import (
    Area,
    Circle,
    Dimension,
    Line,
    Pinned,
    Primitive,
    Scene,
    Text,
)
from pentice.drawing.symbols import detail_circle, plate
from pentice.frame.stage import row_places
from pentice.job.called import head_called
from pentice.pack.drawings.frame_lines import (
    UNKNOWN_POST_MM,
    WALL_MM,
    beam_bottom,
    beam_fill,
    beam_outline,
    beam_top,
    floor_y,
    glazing_lines,
    ground_lines,
    gutter_section,
    head_beam_outline,
    metal_words,
    plate_outline,
    rafter_outline,
    wall_lines,
)
from pentice.pack.drawings.knees import knee_braces_across, knee_labels
from pentice.pack.drawings.plan import section_bay
from pentice.pack.drawings.slope import slope_of
from pentice.pack.drawings.values import half, part, rectangle, whole


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
        part("wall", *wall_lines(design, n)),
        part("ground", *_ground(design, n)),
        part("frame", *_frame(design)),
        part("knees", *knee_braces_across(design, n)),
        part("glazing", *glazing_lines(design, section_bay(design).number)),
        part("gutter", *gutter_section(design, section_bay(design).number)),
        part("details", *_details(design, n)),
        part("sizes", *_sizes(design, n)),
        part("names", *_names(design, n)),
        part("pitch", _pitch(design, n)),
    )
    return Scene(primitives=content, title="Section A–A", desc=desc, scale=n)


def _ground(design: Design, n: float) -> tuple[Primitive, ...]:
    """The ground, where heights are known."""
    if design.shape.head_height_mm is None:
        return ()
    y = floor_y(design) - min((*design.job.frame.post_feet_mm, 0.0))
    right = design.shape.projection_mm + 12.0 * n
    return ground_lines(((-WALL_MM * n - 3.0 * n, y), (right, y)), n)


def _frame(design: Design) -> tuple[Primitive, ...]:
    """Wall plate, rafter, beam and post."""
    frame, far = design.job.frame, design.shape.projection_mm
    found: list[Primitive] = []
    if not design.job.roof.attached:
        found += _head_row(design)
    if frame.wall_plate_mm is not None:
        found.append(Area(points=plate_outline(design), fill="timber end", style="wide"))
    found.append(Area(points=rafter_outline(design), fill="white", style="wide"))
    if frame.beam_mm is not None:
        found.append(Area(points=beam_outline(design), fill=beam_fill(design), style="wide"))
    if frame.post_mm is not None and frame.posts_at_mm:
        found += _post(design, (far - frame.post_mm[1], far), beam_bottom(design), frame.post_feet_mm)
    return tuple(found)


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
        x, bottom, words = _clear_at(design, n), beam_bottom(design), f"{whole(clear)} clear"
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


def _clear_at(design: Design, n: float) -> float:
    """Where the clear height stands, out from the wall."""
    deep, far = (design.job.frame.post_mm or (0.0, 0.0))[1], design.shape.projection_mm
    between = (far - 2.0 * deep) / n
    return far - deep - min(9.0, max(4.5, between / 2.0)) * n


def _clear_end(design: Design, n: float) -> tuple[Primitive, ...]:
    """What a label must not touch at the upper end of the clear height: its line, its stroke and the level it is read
    to, all of them thin."""
    if design.setting_out.clear_height_mm is None:
        return ()
    x, bottom = _clear_at(design, n), beam_bottom(design)
    over = min(
        2.2 * n, 0.2 * (bottom - beam_top(design))
    )  # beside a low beam its name is as clear as that leaves
    return (
        Line(a=(x, bottom - over), b=(x, bottom + 2.0 * n)),
        Line(a=(x - 2.0 * n, bottom), b=(design.shape.projection_mm, bottom)),
    )


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
    beam_words += metal_words(design.parts.beam_section)
    room = shape.projection_mm / n - text_width_mm(beam_words, 2.5) - 9.0
    said = _first((f"rafter {size} {strength}", f"rafter {size}", size), room)
    if design.parts.bar.carries:
        said = _first((f"bar, {rafter.depth_mm:g} below the sheet", f"bar {rafter.depth_mm:g}"), room)
    braces = knee_braces_across(design, n)
    stands: tuple[Primitive, ...] = (
        *wall_lines(design, n),
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
        found.append(
            first_free(_beam_names(design, beam_words, n), (*stands, *_clear_end(design, n), *found), n)
        )
    if frame.post_mm is not None and frame.posts_at_mm:
        b, h = frame.post_mm
        top, bottom = beam_bottom(design), floor_y(design)
        size = f"{b:g} × {h:g}{metal_words(design.parts.post_section)}"
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
        tuple(
            Text(at=(-2.0, y), text=t, anchor="end", halo=True) for t, y in ((name, low - 3.8), (size, low))
        )
        for low in (2.6, 1.8, 1.0)
    )
    outside = tuple(Text(at=(1.6, y), text=text, halo=True) for text, y in ((name, 5.0), (size, 8.8)))
    return (
        *(
            Pinned(at=beside, content=(Text(at=(-2.0, y), text=words, anchor="end", halo=True),))
            for y in (0.6, 0.8, 1.8, 3.0)
        ),
        *(Pinned(at=beside, content=two) for two in rows),
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
