"""Stock sheets with their numbered cuts: alike ones once, scrap hatched, kept offcuts dashed.

Also what each cut needs in words: the tool, where the stop is set, what comes off and what is left over.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pentice.cutting.values import Cut, Placement, SheetPlan
from pentice.design import CutAndOrdered
from pentice.drawing.arrows import flutes_arrow, head_triangle
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import Area, Line, Pinned, Point, Polyline, Primitive, Scene, Text
from pentice.drawing.symbols import disc, stacked
from pentice.pack.drawings.values import part, runs
from pentice.pieces.names import job_of, own_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Sheets of stock that are cut in the same way."""

    numbers: tuple[int, ...]
    """Of the stock sheets, from 1."""
    plans: tuple[SheetPlan, ...]
    offcut: bool
    """From the rack, not new."""

    @property
    def plan(self) -> SheetPlan:
        """The first: all are cut like it."""
        return self.plans[0]

    def pieces(self, k: int) -> tuple[str, ...]:
        """Ids of the pieces at the k-th place, sheet by sheet."""
        return tuple(plan.placements[k].piece for plan in self.plans)

    @property
    def title(self) -> str:
        """Its name on paper."""
        return f"Stock {runs(list(self.numbers))}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """What is left of a stock sheet: a rectangle [mm], kept or scrap, and the cut that frees it."""

    left: float
    top: float
    right: float
    bottom: float
    kept: bool
    cut: int

    @property
    def words(self) -> str:
        """Its size and what becomes of it."""
        size = f"{self.right - self.left:.0f} × {self.bottom - self.top:.0f}"
        return f"{size} keep" if self.kept else f"{size} scrap"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """One cut in words."""

    stock: str
    cut: int
    tool: str
    stop_mm: int
    you_get: str
    left_over: str


def alike_sheets(design: CutAndOrdered) -> tuple[Alike, ...]:
    """Stock sheets of a design, alike ones together, in the order of the plan."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for k, plan in enumerate(design.cutting.sheets, 1):
        groups.setdefault(_pattern(plan), []).append(k)
    sheets = design.cutting.sheets
    racked = {o.mark for o in design.job.stock.offcuts if o.mark}
    return tuple(
        Alike(
            numbers=tuple(numbers),
            plans=tuple(sheets[k - 1] for k in numbers),
            offcut=sheets[numbers[0] - 1].stock in racked
            or sheets[numbers[0] - 1].stock.startswith("offcut "),
        )
        for numbers in groups.values()
    )


def _pattern(plan: SheetPlan) -> tuple[object, ...]:
    places = tuple((p.x_mm, p.y_mm, p.width_mm, p.length_mm, p.turned_180) for p in plan.placements)
    cuts = tuple((c.kind, c.at_mm, c.from_mm, c.to_mm) for c in plan.cuts)
    jobs = tuple(job_of(p.piece) for p in plan.placements)
    return (plan.item, plan.stock, plan.width_mm, plan.length_mm, plan.kerf_mm, jobs, places, cuts)


def rests(design: CutAndOrdered, group: Alike) -> tuple[Rest, ...]:
    """What is left of a sheet, by the cut that frees it: strips beside the pieces of each row, and below the last."""
    plan, kerf = group.plan, group.plan.kerf_mm
    kept = Counter(
        (o.width_mm, o.length_mm)
        for o in design.cutting.offcuts
        if o.item == plan.item and o.width_mm is not None
    )
    found: list[Rest] = []

    def add(box: tuple[float, float, float, float], kind: str, at: float, start: float) -> None:
        left, top, right, bottom = box
        if right - left < 0.5 or bottom - top < 0.5:
            return
        cut = next(
            (
                c.number
                for c in plan.cuts
                if c.kind == kind and c.at_mm == at and c.from_mm <= start <= c.to_mm
            ),
            0,
        )
        size = (round(right - left), round(bottom - top))
        found.append(Rest(left=left, top=top, right=right, bottom=bottom, kept=kept[size] > 0, cut=cut))

    rows: dict[int, list[Placement]] = {}
    for p in plan.placements:
        rows.setdefault(p.y_mm, []).append(p)
    for y, row in sorted(rows.items()):
        end = y + max(p.length_mm for p in row)
        at = 0
        for p in sorted(row, key=lambda p: p.x_mm):
            low = p.y_mm + p.length_mm
            add((at, y, p.x_mm - kerf, end), "rip", p.x_mm - kerf, y)
            add((p.x_mm, low + kerf, p.x_mm + p.width_mm, end), "crosscut", low, p.x_mm)
            at = p.x_mm + p.width_mm + kerf
        add((at, y, plan.width_mm, end), "rip", at - kerf, y)
    if rows:
        bottom = max(p.y_mm + p.length_mm for p in plan.placements)
        add((0, bottom + kerf, plan.width_mm, plan.length_mm), "crosscut", bottom, 0)
    return tuple(found)


def cut_rows(design: CutAndOrdered, group: Alike) -> tuple[CutRow, ...]:
    """The cuts of a group of sheets, in order, each with its stop from the edge that was cut before."""
    left = {rest.cut: rest.words for rest in rests(design, group) if rest.cut}
    return tuple(
        CutRow(
            stock=runs(list(group.numbers)),
            cut=cut.number,
            tool="saw across" if cut.kind == "crosscut" else "knife along a flute",
            stop_mm=stop_of(group.plan, cut),
            you_get=_gets(design, group, cut),
            left_over=left.get(cut.number, ""),
        )
        for cut in group.plan.cuts
    )


def stop_of(plan: SheetPlan, cut: Cut) -> int:
    """Where the stop is set: from the edge that the cut before made, so that nobody subtracts."""
    kerf = plan.kerf_mm
    if cut.you_get == "trimmed foot":
        return plan.length_mm - cut.at_mm
    if cut.you_get == "trimmed right edge":
        return plan.width_mm - cut.at_mm
    if cut.you_get.endswith(" to length"):
        return next(p.length_mm for p in plan.placements if p.piece == cut.you_get.removesuffix(" to length"))
    start = 0
    for before in plan.cuts:
        if before.number >= cut.number:
            break
        if before.kind != cut.kind or before.at_mm >= cut.at_mm or before.you_get.endswith(" to length"):
            continue
        if before.you_get.startswith("trimmed"):
            start = max(start, before.at_mm)
        elif cut.kind == "crosscut" or before.from_mm == cut.from_mm:
            start = max(start, before.at_mm + kerf)
    return cut.at_mm - start


def _gets(design: CutAndOrdered, group: Alike, cut: Cut) -> str:
    """What comes off, in the names of the pieces, all alike sheets together."""
    id = cut.you_get.removesuffix(" to length")
    found = next((k for k, p in enumerate(group.plan.placements) if p.piece == id), None)
    if found is None:
        return cut.you_get
    return called(design, group.pieces(found)) + cut.you_get.removeprefix(id)


def called(design: CutAndOrdered, ids: Sequence[str]) -> str:
    """What pieces are called, together; where jobs share a plan, job by job with the reference before."""
    names = {p.id: p.name for p in design.pieces}
    by_job: dict[str, list[str]] = {}
    for id in ids:
        whole, _, number = id.partition("/")
        name = names.get(whole, whole) + (f", part {number}" if number else "")
        by_job.setdefault(job_of(id), []).append(name)
    return "; ".join(f"{job}: {together(said)}" if job else together(said) for job, said in by_job.items())


def _low(name: str) -> str:
    return name[:1].lower() + name[1:]


def _plural(head: str) -> str:
    """Many of a thing: only its last noun, or the one before "under" and "in", changes."""
    noun, joint, rest = head.partition(" under ")
    return f"{noun}s{joint}{rest}"


def together(names: list[str]) -> str:
    """Names that differ in their number only, as one: "sheets 3, 4".

    Examples
    --------
    >>> together(["Sheet 3", "Sheet 4"]), together(["Sheet 3"])
    ('sheets 3, 4', 'sheet 3')
    """
    heads = {name.rpartition(" ")[0] for name in names}
    tails = [name.rpartition(" ")[2] for name in names]
    digits = [t.removeprefix("R") for t in tails]
    if len(names) > 1 and len(heads) == 1 and all(d.isdigit() for d in digits):
        mark = "R" if tails[0].startswith("R") else ""
        said = runs([int(d) for d in digits])
        if mark:
            said = re.sub(r"(\d+)", r"R\1", said)
        return f"{_plural(_low(next(iter(heads))))} {said}"
    return ", ".join(_low(n) for n in names)


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

    content = (
        part(
            "left over", *(q for rest in rests(design, group) for q in _rest(rest, at, paper, along / scale))
        ),
        part(
            "pieces",
            *(q for k, p in enumerate(plan.placements) for q in _piece(design, group, k, p, at, paper)),
        ),
        part("flutes", *_flutes(plan, at, scale)),
        part("cuts", *(_cut(plan, cut, at, scale)[0] for cut in plan.cuts)),
        part("numbers", *(_cut(plan, cut, at, scale)[1] for cut in plan.cuts)),
    )
    count = f"{len(group.plans)} alike. " if len(group.plans) > 1 else ""
    desc = f"{group.title}. {count}{plan.width_mm} by {plan.length_mm}, {len(plan.cuts)} cuts."
    return Scene(primitives=content, title=group.title, desc=desc, scale=scale)


_UNDER_MM = 27.3
"""From the head of a piece to the end of its size, but for the height of its number [mm of paper]."""
At = Callable[[float, float], Point]
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
    wide = paper(p.width_mm)
    if wide < 24.0:
        return tuple(found)
    down = (corners[1][0] - corners[0][0]) / wide  # drawing units to one mm of paper
    tall = (corners[2][1] - corners[1][1]) / down
    numbers = [_number(design, id) for id in group.pieces(k)]
    name = "  ".join(numbers) if len(numbers) <= 3 else runs([int(n) for n in numbers if n.isdigit()])
    size: tuple[tuple[str, float, int], ...] = (
        (f"{p.width_mm} wide", 3.5, 600),
        (f"{p.length_mm} long", 3.5, 600),
    )
    job = job_of(p.piece)
    if job:
        both = f"{p.width_mm} × {p.length_mm}"
        h_both = next((h for h in (3.5, 2.5) if text_width_mm(both, h, 600) < wide - 4.0), 0.0)
        h_job = 3.5 if text_width_mm(job, 3.5, 700) < wide - 4.0 else 2.5
        said = (_shortened(job, h_job, wide - 4.0), h_job, 700)
        size = (said, (both, h_both, 600)) if tall < 45.0 and h_both else (said, *size)
    most = 10.0 if tall > 80.0 else 7.0 if tall > 45.0 else 5.0
    h = next((h for h in (10.0, 7.0, 5.0, 3.5, 2.5) if h <= most and _name_fits(name, h, wide, tall)), 2.5)
    x, y = corners[0]
    top = (x + wide * down / 2, y + 7.0 * down)
    found.append(head_triangle(top) if not p.turned_180 else _foot_up(top))
    found.append(_up(stacked(top, ((name, h, 700), *size), 2.4), 8.5))
    end = _UNDER_MM + h + 5.9 * (len(size) - 2)
    room = tall - end - 4.0
    if room >= 13.0:
        found.append(flutes_arrow((top[0], y + (end + 2.0 + min(room, 20.0) / 2) * down), min(room, 20.0)))
    elif tall >= 20.0 and wide >= 36.0:
        found.append(flutes_arrow((x + 9.5 * down, y + tall / 2 * down), min(16.0, tall - 8.0)))
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


def _foot_up(at: Point) -> Pinned:
    """This end is the FOOT: the piece lies turned by 180 degrees."""
    triangle = Area(points=((0.0, 0.0), (3.9, -4.5), (-3.9, -4.5)), fill="ink")
    word = Text(at=(0.0, 5.9), text="FOOT", h_mm=2.8, weight=700, anchor="middle")
    return Pinned(at=at, content=(triangle, word))


def _number(design: CutAndOrdered, id: str) -> str:
    piece = next(p for p in design.pieces if p.id == id)
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


def _cut(plan: SheetPlan, cut: Cut, at: At, scale: float) -> tuple[Primitive, Primitive]:
    """One cut: its line a little beyond the sheet, its number in a black disc."""
    if cut.kind == "crosscut":
        a, b = at(cut.from_mm, cut.at_mm), at(cut.to_mm, cut.at_mm)
        if cut.you_get.endswith(" to length"):
            return (
                Line(a=a, b=b, style="extra wide"),
                disc((a[0] + 5.0 * scale, a[1]), str(cut.number), 2.8),
            )
        line = Line(a=(a[0] - 3.0 * scale, a[1]), b=(b[0] + 3.0 * scale, b[1]), style="extra wide")
        return (line, disc((b[0] + 6.5 * scale, b[1]), str(cut.number), 2.8))
    same = [c for c in plan.cuts if c.kind == "rip" and c.from_mm == cut.from_mm]
    k = same.index(cut)
    a, b = at(cut.at_mm, cut.from_mm), at(cut.at_mm, cut.to_mm)
    low = b[1] - (6.0 + 7.0 * (len(same) - 1 - k)) * scale
    low = max(low, a[1] + 4.0 * scale)
    return (Line(a=a, b=b, style="extra wide"), disc((a[0], low), str(cut.number), 2.8))


def stock_line(design: CutAndOrdered, group: Alike) -> str:
    """Where the sheets come from."""
    plan = group.plan
    alike = {1: "", 2: "Two alike. ", 3: "Three alike. ", 4: "Four alike. "}
    many = alike.get(len(group.plans), f"{len(group.plans)} alike. ")
    source = f"From your rack, {plan.stock}." if group.offcut else "New,"
    size = f"{plan.width_mm} × {plan.length_mm}"
    return f"{many}{source} {size}."
