"""Stock sheets with their numbered cuts: scrap hatched, kept offcuts dashed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import hypot

from pentice.cutting.values import Placement, SheetPlan
from pentice.design import CutAndOrdered
from pentice.drawing.arrows import flutes_arrow, head_triangle
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import Area, Line, Pinned, Point, Polyline, Primitive, Scene, Text
from pentice.drawing.symbols import disc, stacked
from pentice.pack.drawings.cut_rows import Alike, Rest, rests
from pentice.pack.drawings.values import part, runs
from pentice.pieces.names import job_of, own_name


def stock_scene(
    design: CutAndOrdered, group: Alike, across: float, along: float, *, scale: float = 1.0
) -> Scene:
    """One stock sheet and its cuts.

    Parameters
    ----------
    design, group
        The sheets.
    across, along
        Drawing units to one mm of stock, across and along the flutes. Both 1 make a model.
    scale
        n of 1:n where the drawing units are mm of the stock.
    """
    plan = group.plan

    def at(x: float, y: float) -> Point:
        return (x * across, y * along)

    def paper(x_mm: float) -> float:
        return x_mm * across / scale

    left_over = [q for rest in rests(design, group) for q in _rest(rest, at, paper, along / scale)]
    lines, numbers = _cuts(plan, at, scale, [box for q in left_over for box in _lettered(q, scale)])
    content = (
        part("left over", *left_over),
        part(
            "pieces",
            *(q for k, p in enumerate(plan.placements) for q in _piece(design, group, k, p, at, paper)),
        ),
        part("flutes", *_flutes(plan, at, scale)),
        part("cuts", *lines),
        part("numbers", *numbers),
    )
    count = f"{len(group.plans)} alike. " if len(group.plans) > 1 else ""
    desc = f"{group.title}. {count}{plan.width_mm} by {plan.length_mm}, {len(plan.cuts)} cuts."
    return Scene(primitives=content, title=group.title, desc=desc, scale=scale)


_UNDER_MM = 27.3
"""From the head of a piece to the end of its size, but for the height of its number [mm of paper]."""
At = Callable[[float, float], Point]
Lettered = tuple[Point, tuple[float, float]]
"""Middle of some words, and half their width and height."""
Paper = Callable[[float], float]


def _box(at: At, left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    return (at(left, top), at(right, top), at(right, bottom), at(left, bottom))


def _rest(rest: Rest, at: At, paper: Paper, per_mm: float) -> tuple[Primitive, ...]:
    """Scrap hatched, a kept offcut white and dashed, with its size where it can be read."""
    corners = _box(at, rest.left, rest.top, rest.right, rest.bottom)
    wide, tall = paper(rest.right - rest.left), (rest.bottom - rest.top) * per_mm
    centre = at((rest.left + rest.right) / 2, (rest.top + rest.bottom) / 2)
    if rest.kept:
        outline: tuple[Primitive, ...] = (Polyline(points=corners, closed=True, style="wide dashed"),)
        size = rest.words.removesuffix(" keep")
        if tall >= 10.0 and wide >= text_width_mm(size, 2.5, 600) + 2.0:
            return (*outline, _up(stacked(centre, ((size, 2.5, 600), ("keep", 2.5, 400))), -3.3))
        if tall >= 4.5 and wide >= text_width_mm(rest.words, 2.5, 600) + 2.0:
            words = Text(at=(0.0, 1.25), text=rest.words, weight=600, anchor="middle")
            return (*outline, Pinned(at=centre, content=(words,)))
        return outline
    hatched = Area(points=corners, fill="scrap", style="wide")
    said = rest.words
    if wide >= 5.0 and tall >= text_width_mm(said, 2.5, 600) + 4.0:
        label = Text(at=(1.25, 0.0), text=said, weight=600, anchor="middle", turn_deg=90.0, halo=True)
        return (hatched, Pinned(at=centre, content=(label,)))
    if tall >= 5.0 and wide >= text_width_mm(said, 2.5, 600) + 4.0:
        label = Text(at=(0.0, 1.25), text=said, weight=600, anchor="middle", halo=True)
        return (hatched, Pinned(at=centre, content=(label,)))
    return (hatched,)


def _up(pinned: Pinned, by: float) -> Pinned:
    return Pinned(at=pinned.at, content=(Pinned(at=(0.0, by), content=pinned.content),))


def _piece(
    design: CutAndOrdered, group: Alike, k: int, p: Placement, at: At, paper: Paper
) -> tuple[Primitive, ...]:
    """A piece: heavy outline, HEAD, its number large, its size, the way of the flutes."""
    corners = _box(at, p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm)
    found: list[Primitive] = [Area(points=corners, fill="white", style="extra wide")]
    whole = next(piece for piece in design.pieces if piece.id == p.piece)
    for sheet in whole.side_parts:
        outline = tuple(at(p.x_mm + x, p.y_mm + y) for x, y in sheet.outline_mm)
        found.append(Polyline(points=outline, closed=True, style="wide"))
    wide = paper(p.width_mm)
    down = (corners[1][0] - corners[0][0]) / wide  # drawing units to one mm of paper
    tall = (corners[2][1] - corners[1][1]) / down
    numbers = [_number(design, id) for id in group.pieces(k)]
    name = "  ".join(numbers) if len(numbers) <= 3 else runs([int(n) for n in numbers if n.isdigit()])
    if wide < 24.0:
        return (*found, *_narrow(name, p, corners, wide, tall))
    size: tuple[tuple[str, float, int], ...] = (
        (f"{p.width_mm} wide", 3.5, 600),
        (f"{p.length_mm} long", 3.5, 600),
    )
    job = job_of(p.piece)
    both = f"{p.width_mm} × {p.length_mm}"
    h_both = next((h for h in (3.5, 2.5) if text_width_mm(both, h, 600) < wide - 4.0), 0.0)
    if not job and tall < _UNDER_MM + 7.0 and h_both:
        size = ((both, h_both, 600),)
    if job:
        h_job = 3.5 if text_width_mm(job, 3.5, 700) < wide - 4.0 else 2.5
        said = (_shortened(job, h_job, wide - 4.0), h_job, 700)
        size = (said, (both, h_both, 600)) if tall < 45.0 and h_both else (said, *size)
    most = 10.0 if tall > 80.0 else 7.0 if tall > 45.0 else 5.0
    h = next((h for h in (10.0, 7.0, 5.0, 3.5, 2.5) if h <= most and _name_fits(name, h, wide, tall)), 2.5)
    x, y = corners[0]
    top = (x + wide * down / 2, y + 7.0 * down)
    turned = p.turned_180 or len(whole.side_parts) > 1
    found.append(foot_up(top) if turned else head_triangle(top))
    found.append(_up(stacked(top, ((name, h, 700), *size), 2.4), 8.5))
    end = _UNDER_MM + h + 5.9 * (len(size) - 2)
    room = tall - end - 4.0
    if room >= 13.0:
        found.append(flutes_arrow((top[0], y + (end + 2.0 + min(room, 20.0) / 2) * down), min(room, 20.0)))
    elif tall >= 20.0 and wide - max(text_width_mm(t, s, w) for t, s, w in size) >= 26.0:
        found.append(flutes_arrow((x + 9.5 * down, y + tall / 2 * down), min(16.0, tall - 8.0)))
    return tuple(found)


def _narrow(
    name: str, p: Placement, corners: Sequence[Point], wide: float, tall: float
) -> tuple[Primitive, ...]:
    """What a narrow piece has room for: its number over its size, which stands upright."""
    found: list[Primitive] = []
    (left, top), (right, low) = corners[0], corners[2]
    middle, size = (left + right) / 2, f"{p.width_mm} × {p.length_mm}"
    if text_width_mm(name, 5.0, 700) < wide - 2.0 and tall >= 10.0:
        at = (middle, top + 9.5 * (right - left) / wide)
        found.append(
            Pinned(at=at, content=(Text(at=(0.0, 0.0), text=name, h_mm=5.0, weight=700, anchor="middle"),))
        )
    if wide >= 5.0 and tall >= text_width_mm(size, 2.5, 600) + 13.0:
        label = Text(at=(1.25, 0.0), text=size, weight=600, anchor="middle", turn_deg=90.0, halo=True)
        found.append(Pinned(at=(middle, (top + low) / 2 + 4.0 * (right - left) / wide), content=(label,)))
    return tuple(found)


def _name_fits(name: str, h: float, wide: float, tall: float) -> bool:
    """True where a piece's number has room: over the arrow, or else right of it."""
    under = tall - _UNDER_MM - h - 4.0 >= 13.0
    return text_width_mm(name, h, 700) < wide - (5.0 if under else 26.0)


def _shortened(words: str, h_mm: float, room_mm: float) -> str:
    """Words, or their beginning where there is no room; the table beside says them whole."""
    if text_width_mm(words, h_mm, 700) <= room_mm:
        return words
    fits = (words[:n] + "…" for n in range(len(words) - 1, 0, -1))
    return next((said for said in fits if text_width_mm(said, h_mm, 700) <= room_mm), "…")


def foot_up(at: Point) -> Pinned:
    """This end is the FOOT: the piece lies turned by 180 degrees.

    Parameters
    ----------
    at
        Where the triangle stands [mm of paper].
    """
    triangle = Area(points=((0.0, 0.0), (3.9, -4.5), (-3.9, -4.5)), fill="ink")
    word = Text(at=(0.0, 5.9), text="FOOT", h_mm=2.8, weight=700, anchor="middle")
    return Pinned(at=at, content=(triangle, word))


def _number(design: CutAndOrdered, id: str) -> str:
    piece = next(p for p in design.pieces if p.id == id)
    if piece.side_parts:
        return f"side {', '.join(sorted(part.name.rpartition(' ')[2] for part in piece.side_parts))}"
    return str(piece.bay) if piece.kind == "sheet" and piece.name.startswith("Sheet") else own_name(id)


def _flutes(plan: SheetPlan, at: At, scale: float) -> tuple[Primitive, ...]:
    """Hair lines at the head of each piece that is wide enough: the way of the flutes."""
    found: list[Primitive] = []
    for p in plan.placements:
        if p.width_mm < 200:
            continue
        for k in range(1, 12):
            x = p.x_mm + p.width_mm * k / 12
            a, b = at(x, p.y_mm + p.length_mm * 0.015), at(x, p.y_mm + p.length_mm * 0.075)
            # They end above the word HEAD, however tall the piece stands on paper.
            found.append(Line(a=a, b=(b[0], min(b[1], a[1] + 4.0 * scale)), style="hair"))
    return tuple(found)


_DISC_MM = 6.6
"""Numbers of cuts stand this far apart [mm of paper]."""


def _lettered(one: Primitive, scale: float) -> Iterator[Lettered]:
    """Where the words of a left over stand."""
    if not isinstance(one, Pinned):
        return
    for text in one.content:
        if isinstance(text, Text):
            turned, half_h = abs(text.turn_deg) == 90.0, text.h_mm / 2
            half_w = text_width_mm(text.text, text.h_mm, text.weight) / 2
            dx, dy = (text.at[0] - half_h, text.at[1]) if turned else (text.at[0], text.at[1] - half_h)
            half = (half_h, half_w) if turned else (half_w, half_h)
            yield (one.at[0] + dx * scale, one.at[1] + dy * scale), (half[0] * scale, half[1] * scale)


def _cuts(
    plan: SheetPlan, at: At, scale: float, lettered: Sequence[Lettered]
) -> tuple[list[Primitive], list[Primitive]]:
    """Each cut from edge to edge of its part, beyond the sheet where it ends there, and its number in a black disc."""
    lines: list[Primitive] = []
    discs: list[Point] = []
    for cut in plan.cuts:
        ends = (cut.from_mm, cut.to_mm)
        if cut.kind == "crosscut":
            a, b = (at(end, cut.at_mm) for end in ends)
            # The trim of an edge is hardly to be seen: a cut that ends at it ends outside.
            out = [3.0 * scale if edge < EDGE_MM else 0.0 for edge in (ends[0], plan.width_mm - ends[1])]
            lines.append(Line(a=(a[0] - out[0], a[1]), b=(b[0] + out[1], b[1]), style="extra wide"))
            places = _along(a, b, scale, beyond=out[1] > 0.0)
        else:
            a, b = (at(cut.at_mm, end) for end in ends)
            lines.append(Line(a=a, b=b, style="extra wide"))
            places = _up_from(a, b, scale)
        discs.append(_free_place(places, discs, _DISC_MM * scale, lettered))
    numbers = [disc(place, str(cut.number), 2.8) for place, cut in zip(discs, plan.cuts, strict=True)]
    return lines, [*numbers]


EDGE_MM = 25
"""Nearer to the edge of a sheet than this a cut is drawn beyond it [mm]."""


def _along(a: Point, b: Point, scale: float, *, beyond: bool) -> list[Point]:
    """Places for the number of a crosscut: right of the sheet, else on the line from its left end on, else over it.

    A cut that is narrower than its number has it over or under the line where another stands beside it.
    """
    steps = int((b[0] - a[0] - 6.0 * scale) / (3.5 * scale))
    on_it = [(a[0] + (3.0 + 3.5 * k) * scale, a[1] - up * scale) for up in (0.0, 3.5) for k in range(steps)]
    if not on_it:
        middle = (a[0] + b[0]) / 2.0
        on_it = [(middle, a[1] + away * scale) for away in (0.0, 7.0, -7.0, 14.0, -14.0)]
    return [(b[0] + 6.5 * scale, b[1]), *on_it] if beyond else on_it


def _up_from(a: Point, b: Point, scale: float) -> list[Point]:
    """Places for the number of a rip: on its line, from the foot up."""
    steps = int((b[1] - a[1] - 10.0 * scale) / (3.5 * scale))
    return [(a[0], b[1] - (6.0 + 3.5 * k) * scale) for k in range(max(1, steps))]


def _free_place(
    places: Sequence[Point], taken: Sequence[Point], apart: float, lettered: Sequence[Lettered]
) -> Point:
    """The first place that is clear of those taken and hides no words, else one clear of those, else the furthest."""

    def room(place: Point) -> float:
        return min((hypot(place[0] - t[0], place[1] - t[1]) for t in taken), default=apart)

    def hides(place: Point) -> bool:
        return any(
            abs(place[0] - x) < half_w + apart / 2 and abs(place[1] - y) < half_h + apart / 2
            for (x, y), (half_w, half_h) in lettered
        )

    clear = [place for place in places if room(place) >= apart]
    open_ = [place for place in clear if not hides(place)]
    return next(iter((*open_, *clear)), max(places, key=room))
