"""The plan from above, wall or head at the top: marks over the wall from one origin, each bay's sheet, what lies
under it dashed, diagonals to tape.

Model coordinates: x right from the outer face of the left rafter, y level out from the string line [mm].
"""

from __future__ import annotations

import math
from itertools import pairwise

from pentice.design import Design
from pentice.drawing.arrows import section_arrow
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import (
    Area,
    Circle,
    Dimension,
    Line,
    Pinned,
    Point,
    Polyline,
    Primitive,
    Running,
    Scene,
    Text,
)
from pentice.drawing.symbols import bay_number, box_tag, plate, stacked
from pentice.frame.stage import row_places
from pentice.job.called import head_called
from pentice.pack.drawings.plan_diagonals import diagonals, foot_y
from pentice.pack.drawings.values import down, half, part, rectangle, tenth, whole
from pentice.setting_out.values import Bay, Rafter

WALL_MM = 9.0
"""Thickness of the wall on paper: it is not measured, so a break line ends it."""


def plan_model(design: Design, n: float) -> Scene:
    """The roof from above, to be printed 1:n.

    Parameters
    ----------
    design
        A solved job.
    n
        The scale it will be printed at: lettering keeps its size on paper.
    """
    shape, head = design.shape, head_called(design.job)
    title = "Plan from above"
    desc = (
        f"Plan of a roof {whole(shape.width_mm)} wide and {whole(shape.projection_mm)} out from {head}, "
        f"{len(design.setting_out.plane.bays)} bays, {head} at the top."
    )
    content = (
        part("wall", *(_wall(design, n) if design.job.roof.attached else _free_head(design, n))),
        part("marks", *_marks(design, n)),
        part("sheets", *(p for bay in design.setting_out.plane.bays for p in _sheet(design, bay, n))),
        part("beam", *_below(design)),
        part("bars", *(p for rafter in design.setting_out.plane.rafters for p in _rafter(design, rafter))),
        part("diagonals", *diagonals(design, n)),
        part("bays", *(p for bay in design.setting_out.plane.bays for p in _bay(design, bay, n))),
        part("gutter", *_gutter(design, n)),
        part("section mark", *_section_mark(design, n)),
        part("sizes", *_sizes(design, n)),
    )
    return Scene(primitives=content, title=title, desc=desc, scale=n)


def section_bay(design: Design) -> Bay:
    """The bay that the section is cut through: right of the middle."""
    bays = design.setting_out.plane.bays
    return bays[min(len(bays) - 1, len(bays) // 2 + 1)]


def _wall(design: Design, n: float) -> tuple[Primitive, ...]:
    """The wall: its face as measured, a hatch, break lines at its ends."""
    shape, beyond, thick = design.shape, 6.0 * n, WALL_MM * n
    left, right = -beyond, shape.width_mm + beyond
    inner = [(x, o) for x, o in shape.wall_offsets_mm if left < x < right]
    face = [(left, shape.offset_at(left)), *inner, (right, shape.offset_at(right))]
    hatch = {"block": "blockwork", "timber frame": "timber along", "insulated render": "insulation"}
    kind = design.job.house.wall if design.job.house is not None else None
    area = Area(points=(*face, (right, -thick), (left, -thick)), fill=hatch.get(kind or "", "brick"))
    ends = tuple(_break((x, -thick - 1.5 * n), (x, 1.5 * n), n) for x in (left, right))
    return (
        area,
        Line(a=(left, -thick), b=(right, -thick), style="narrow"),
        Polyline(points=tuple(face), style="extra wide"),
        *ends,
        _head_plate(design, "WALL", n),
    )


def _free_head(design: Design, n: float) -> tuple[Primitive, ...]:
    """The head of a free-standing roof: the line that its sizes count from."""
    width = design.shape.width_mm
    return (
        Line(a=(0.0, 0.0), b=(width, 0.0), style="extra wide"),
        _head_plate(design, "HEAD, HIGH SIDE", n),
    )


def _head_plate(design: Design, words: str, n: float) -> Pinned:
    """What the head is, in the middle of its band, or clear of a section mark that stands in it."""
    at, half_mm = design.shape.width_mm / 2, (text_width_mm(words, 3.5, 600) / 2 + 2.4) * n
    mark = _mark_in_the_band(design, n)
    if mark is not None:
        left, right = mark - 2.0 * n - half_mm, mark + 11.0 * n + half_mm
        if left < at < right:
            at = right if right + half_mm <= design.shape.width_mm else left
    return plate((at, -WALL_MM * n / 2), words, 3.5, 600)


def _mark_in_the_band(design: Design, n: float) -> float | None:
    """Where the section mark stands over the head, its bay having no room for it; None where it has [mm]."""
    (x1, _), (x2, _), *_ = section_bay(design).outline_mm
    roomy = (x2 - x1) / n >= 24.0 and foot_y(design) / n >= 75.0
    return None if roomy else x1 + (x2 - x1) * 0.38


def _break(a: Point, b: Point, n: float) -> Polyline:
    """An upright break line whose zigzag keeps its size on paper."""
    x, middle = a[0], (a[1] + b[1]) / 2
    zig = ((0.0, -1.2), (-1.6, -0.4), (1.6, 0.4), (0.0, 1.2))
    return Polyline(points=(a, *((x + dx * n, middle + dy * n) for dx, dy in zig), b), style="narrow")


def _marks(design: Design, n: float) -> tuple[Primitive, ...]:
    """Rafter centres from one end, over the wall; the overall width outermost."""
    rafters, width = design.setting_out.plane.rafters, design.shape.width_mm
    stops = tuple((r.centre_head_mm, half(r.centre_head_mm)) for r in rafters)
    top = -WALL_MM * n
    high = 8.0 + _rows(design, n) * 4.8
    level = top - (high + 5.0) * n  # above the values, so that no line runs through them
    text = f"{whole(width)} over the outer {'bars' if design.parts.bar.carries else 'rafters'}"
    overall = Dimension(a=(0.0, level), b=(width, level), text=text, offset_mm=4.0, kind="overall")
    return (Running(origin=(0.0, top), stops=stops, offset_mm=8.0, noun="marks"), overall)


def _rows(design: Design, n: float) -> float:
    """How many more rows of marks than one there will be."""
    from pentice.drawing.placing import DIGIT_SHARE, stand_over_marks

    centres = [r.centre_head_mm / n for r in design.setting_out.plane.rafters]
    widths = [text_width_mm(half(r.centre_head_mm), 3.5, 700) for r in design.setting_out.plane.rafters]
    placed = stand_over_marks(centres, widths, DIGIT_SHARE * 3.5)
    if any(p.turned for p in placed):
        return max(widths) / 4.8
    return float(max(p.row for p in placed))


def _rafter(design: Design, rafter: Rafter) -> tuple[Primitive, ...]:
    """A rafter with its bar: what is seen from above, and the centre line that is set out."""
    head, foot = design.shape.offset_at(rafter.centre_head_mm), foot_y(design)
    wide = design.parts.bar.seat_mm if rafter.has_bar else rafter.width_mm
    bottom = foot if rafter.has_bar else design.shape.projection_mm
    a, b = rafter.centre_head_mm, rafter.centre_foot_mm
    outline = ((a - wide / 2, head), (a + wide / 2, head), (b + wide / 2, bottom), (b - wide / 2, bottom))
    return (
        Area(points=outline, fill="white", style="wide"),
        Line(a=(a, head), b=(b, bottom), style="chain"),
    )


def _sheet(design: Design, bay: Bay, n: float) -> tuple[Primitive, ...]:
    """A sheet's foot, and flutes at both ends as hair lines."""
    (x1, _), (x2, _), (x3, _), (x4, _) = bay.outline_mm
    foot = foot_y(design)
    deep = min(8.0 * n, foot * 0.12)
    count = max(3, min(12, int((x2 - x1) / n / 2.6)))
    inset = design.parts.bar.seat_mm / 2 + 2.0 * n
    lines: list[Primitive] = [Line(a=(x4, foot), b=(x3, foot), style="wide")]
    for k in range(count):
        share = k / (count - 1)
        top = x1 + inset + (x2 - x1 - 2 * inset) * share
        low = x4 + inset + (x3 - x4 - 2 * inset) * share
        for y1, y2 in ((2.5 * n, 2.5 * n + deep), (foot - 3.0 * n - deep, foot - 3.0 * n)):
            lines.append(
                Line(a=(_mix(top, low, y1 / foot), y1), b=(_mix(top, low, y2 / foot), y2), style="hair")
            )
    return tuple(lines)


def _mix(a: float, b: float, share: float) -> float:
    return a + (b - a) * share


def _bay(design: Design, bay: Bay, n: float) -> tuple[Primitive, ...]:
    """Number of a bay, the sizes of its sheet, and which way the flutes run."""
    (x1, _), (x2, _), (x3, _), (x4, _) = bay.outline_mm
    x, tall = (x1 + x2 + x3 + x4) / 4, foot_y(design) / n
    room = (min(x2 - x1, x3 - x4) - design.parts.bar.seat_mm) / n - 1.0
    width, length = bay.width_mm.cut, bay.length_mm.cut
    wide, long = down(width), down(length)
    h = next((h for h in (5.0, 3.5) if text_width_mm(long, h, 700) <= room - 1.0), 0.0)
    number_h = 5.0 if room > 14.0 else 3.5 if room > 9.5 else 2.5
    ring = max(number_h * 1.06, text_width_mm(str(bay.number), number_h, 700) / 2 + 1.6)
    turned = f"{wide} × {long}"
    turned_h = next((k for k in (3.5, 2.5) if text_width_mm(turned, k, 700) < tall - 22.0), 2.5)
    size = 2 * h + 10.0 if h else text_width_mm(turned, turned_h, 700)
    top = max(14.0, min(0.36 * tall, tall - size - ring - 9.0))
    side_by_side = top + ring + 2.2 + size > tall - 1.0
    if side_by_side:
        size = max(text_width_mm(words, 2.5, 700) for words in (wide, f"× {long}"))
        top = max(ring + 2.0, min(14.0, tall - size - ring - 4.2))
    low, apart, every = top, (x2 - x1) / n - 0.4, 1
    if 2.0 * ring > apart:  # rings wider than their bays stand in two rows, or not in every bay
        low = min(top + 2.0 * ring + 0.6, tall - ring - 0.6)
        if low < top + 2.0 * ring:
            low, every = top, math.ceil(2.0 * ring / apart)
    if (bay.number - 1) % every:
        return ()
    at = low if bay.number % 2 == 0 else top
    found: list[Primitive] = [bay_number((x, at * n), str(bay.number), number_h)]
    start = low + ring + 2.2
    if low > top and start + size > tall - 1.0:
        return tuple(found)
    if side_by_side:
        if start + size <= tall - 1.0 and room >= _BOTH_MM:
            found += [
                _turned((x + aside * n, start * n), words, 2.5)
                for words, aside in ((wide, -_BOTH_MM / 4), (f"× {long}", _BOTH_MM / 4))
            ]
    elif h:
        lines = ((wide, h, 700), ("wide", 2.5, 400), (long, h, 700), ("long", 2.5, 400))
        found.append(stacked((x, start * n), lines))
    else:
        found.append(_turned((x, start * n), turned, turned_h))
    return (*found, *_flutes(x, (start + size + 3.5, tall - 13.0), room, n))


_BOTH_MM = 6.6
"""Width that two turned lines of 2.5 mm side by side take [mm of paper]."""


def _turned(at: Point, text: str, h_mm: float) -> Pinned:
    """Sizes of a narrow bay, read from the right."""
    foot = text_width_mm(text, h_mm, 700)
    words = Text(at=(h_mm / 2, foot), text=text, h_mm=h_mm, weight=700, turn_deg=90.0, halo=True)
    return Pinned(at=at, content=(words,))


def _flutes(x: float, between: tuple[float, float], room: float, n: float) -> tuple[Primitive, ...]:
    """A double arrow for the flutes where there is room for it, with its word."""
    top, bottom = between
    length = min(20.0, bottom - top)
    if length < 6.0:
        return ()
    y = (top + length / 2) * n
    tips = tuple(
        Area(
            points=((0.0, s * length / 2), (0.9, s * (length / 2 - 2.6)), (-0.9, s * (length / 2 - 2.6))),
            fill="ink",
        )
        for s in (-1.0, 1.0)
    )
    shaft = Line(a=(0.0, -length / 2 + 2.0), b=(0.0, length / 2 - 2.0), style="wide")
    word: tuple[Primitive, ...] = ()
    if length >= text_width_mm("FLUTES", 2.5, 600) and room >= 9.0:
        word = (
            Text(
                at=(-1.8, 0.0), text="FLUTES", h_mm=2.5, weight=600, anchor="middle", turn_deg=90.0, halo=True
            ),
        )
    return (Pinned(at=(x, y), content=(shaft, *tips, *word)),)


def _below(design: Design) -> tuple[Primitive, ...]:
    """Hidden but to be set out: the beam narrow dashed, the posts wide dashed."""
    frame, shape = design.job.frame, design.shape
    face = shape.projection_mm
    found = _row_below(design, row_places(design.job)[0], frame.beam_mm, face, -1.0)
    if not design.job.roof.attached:
        places, size = row_places(design.job, head=True)[0], frame.head_beam_mm or frame.beam_mm
        found += _row_below(design, places, size, 0.0, 1.0)
    return tuple(found)


def _row_below(
    design: Design,
    places: tuple[float, ...],
    beam_mm: tuple[float, float] | None,
    face: float,
    inwards: float,
) -> list[Primitive]:
    """One beam with its posts, flush with its outer face."""
    found: list[Primitive] = []
    if beam_mm is not None:
        for y in (face + inwards * beam_mm[0], face):
            found.append(Line(a=(0.0, y), b=(design.shape.width_mm, y), style="narrow dashed"))
    post = design.job.frame.post_mm
    if post is not None:
        for x in places:
            corners = rectangle(x - post[0] / 2, face, x + post[0] / 2, face + inwards * post[1])
            found.append(Polyline(points=corners, closed=True, style="wide dashed"))
    return found


def _gutter(design: Design, n: float) -> tuple[Primitive, ...]:
    """The gutter under the foot, its outlets, and which way it falls."""
    gutter, shape = design.parts.gutter, design.shape
    if gutter is None:
        return ()
    top, bottom = shape.projection_mm + 3.0, shape.projection_mm + 3.0 + gutter.width_mm
    edge = foot_y(design)
    found: list[Primitive] = [
        Polyline(
            points=((0.0, edge), (0.0, bottom), (shape.width_mm, bottom), (shape.width_mm, edge)),
            style="wide",
        ),
        Line(a=(0.0, top), b=(shape.width_mm, top), style="narrow dashed"),
    ]
    y = (max(top, edge) + bottom) / 2
    outlets = design.job.gutter.outlets_at_mm
    found += [
        Circle(centre=(x, y), radius=min(gutter.outlet_mm, bottom - edge) / 2, style="wide") for x in outlets
    ]
    words = _gutter_words(design)
    label = Text(at=(0.0, 3.9), text=words, h_mm=2.5, anchor="middle")
    return (*found, Pinned(at=(shape.width_mm / 2, bottom), content=(label,)))


def _gutter_words(design: Design) -> str:
    """What the gutter is and how it falls."""
    gutter = design.parts.gutter
    if gutter is None:
        return ""
    words = f"gutter {gutter.width_mm:g}"
    fall, outlets = design.job.gutter.fall, design.job.gutter.outlets_at_mm
    if fall or len(outlets) == 1:
        words += ", falls"
    if fall:
        words += f" 1 in {1.0 / fall:.0f}"
    if len(outlets) == 1:
        words += f" to the {'right' if outlets[0] > design.shape.width_mm / 2 else 'left'}"
    if outlets:
        words += f", outlet{'s' if len(outlets) > 1 else ''} at {', '.join(half(x) for x in outlets)}"
    return words


def _section_mark(design: Design, n: float) -> tuple[Primitive, ...]:
    """Where the section is cut, looking right, beside the numbers of a bay or over the head."""
    (x1, _), (x2, _), _, (x4, _) = section_bay(design).outline_mm
    mark, foot = _mark_in_the_band(design, n), foot_y(design)
    if mark is not None:
        return (section_arrow((mark, -WALL_MM * n / 2), "A", ahead=True),)
    x = x1 + ((x2 - x1) / n - 9.5) * n
    return (section_arrow((x, 13.0 * n), "A"), section_arrow((x4 + x - x1, foot - 15.0 * n), "A"))


def _sizes(design: Design, n: float) -> tuple[Primitive, ...]:
    """Depth at the left, rafter tags, centres to compare and posts below, gutter left free."""
    shape, plane = design.shape, design.setting_out.plane
    gutter = design.parts.gutter
    base = shape.projection_mm + 3.0 + (gutter.width_mm if gutter is not None else 0.0)
    base = max(base, foot_y(design))
    tag_y = base + (10.5 if _near(design, n) else 8.5) * n
    start = "wall face" if not shape.wall_offsets_mm else "string line"
    start = start if design.job.roof.attached else "outside of head beam"
    size = whole(shape.projection_mm)
    words = (f"{size} {start} to outside of beam", f"{size} {start} to beam", size)
    room = shape.projection_mm / n - 2.0
    text = next((t for t in words if text_width_mm(t, 3.5, 600) < room), size)
    depth = Dimension(a=(0.0, shape.projection_mm), b=(0.0, 0.0), text=text, offset_mm=12.0, kind="overall")
    found: list[Primitive] = [depth, *_tags(design, tag_y, n)]
    chain_y = tag_y + (6.0 if _near(design, n) else 3.0) * n
    found += _centres(design, chain_y, n)
    posts = design.job.frame.posts_at_mm
    if posts:
        stops = tuple((x, half(x)) for x in posts)
        y = chain_y + 13.0 * n
        found.append(Running(origin=(0.0, y), stops=stops, offset_mm=0.0, h_mm=2.5, weight=400, noun="posts"))
    return tuple(found) if plane.rafters else ()


def _tags(design: Design, y: float, n: float) -> tuple[Primitive, ...]:
    """R1, R2 … under their rafters, in two rows where they are near."""
    rafters, near = design.setting_out.plane.rafters, _near(design, n)
    return tuple(
        box_tag(
            (r.centre_foot_mm, y + (3.0 * n if near and k % 2 else -1.5 * n if near else 0.0)), f"R{r.number}"
        )
        for k, r in enumerate(rafters)
    )


def _near(design: Design, n: float) -> bool:
    """Whether tags in one row would touch."""
    rafters = design.setting_out.plane.rafters
    return min((b.centre_foot_mm - a.centre_foot_mm for a, b in pairwise(rafters)), default=9e9) / n < 11.5


def _centres(design: Design, y: float, n: float) -> tuple[Primitive, ...]:
    """Centres between rafters to compare; where head and foot differ, marks at the foot instead."""
    rafters = design.setting_out.plane.rafters
    if any(abs(r.centre_head_mm - r.centre_foot_mm) > 0.25 for r in rafters):
        stops = tuple((r.centre_foot_mm, half(r.centre_foot_mm)) for r in rafters)
        return (
            Running(
                origin=(0.0, y + 8.0 * n), stops=stops, offset_mm=0.0, noun="marks at the foot", h_mm=2.5
            ),
        )
    found: list[Primitive] = []
    for k, (a, b) in enumerate(pairwise(rafters)):
        text = tenth(b.centre_foot_mm - a.centre_foot_mm).removesuffix(".0")
        if text_width_mm(text, 2.5) > (b.centre_foot_mm - a.centre_foot_mm) / n - 1.0:
            text = "" if k else f"{text} each"
        found.append(Dimension(a=(a.centre_foot_mm, y), b=(b.centre_foot_mm, y), text=text, offset_mm=-5.5))
    noun = Text(at=(2.5, 6.6), text="centres", h_mm=2.5)
    return (*found, Pinned(at=(rafters[-1].centre_foot_mm, y), content=(noun,)))
