"""What is said of stock sheets: alike ones once, each cut in words, and what is left over.

Each cut has the part that it is cut from with its size, where the stop is set, what comes off and what remains.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from pentice.cutting.followed import Held, followed
from pentice.cutting.values import SheetPlan
from pentice.design import CutAndOrdered
from pentice.pack.drawings.values import runs
from pentice.pieces.names import job_of


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
    """One cut in words; the stop is set from the head of the part (saw) or from its left edge (knife)."""

    stock: str
    cut: int
    tool: str
    part: str
    part_mm: tuple[int, int]
    stop_mm: int
    you_get: str
    remains: str

    @property
    def cut_from(self) -> str:
        """The part in hand and its size."""
        return f"{self.part}, {self.part_mm[0]} × {self.part_mm[1]}"


def alike_sheets(design: CutAndOrdered) -> tuple[Alike, ...]:
    """Stock sheets of a design, alike ones together, in the order of the plan."""
    groups: dict[tuple[object, ...], list[int]] = {}
    shapes = {p.id: tuple(part.outline_mm for part in p.side_parts) for p in design.pieces}
    for k, plan in enumerate(design.cutting.sheets, 1):
        outlines = tuple(shapes.get(p.piece, ()) for p in plan.placements)
        groups.setdefault((*_pattern(plan), outlines), []).append(k)
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
    """What is left of a sheet, by the cut that frees it."""
    kept = _kept(design, group.plan)
    left = [
        (held, turn.cut.number)
        for turn in followed(group.plan)
        for held in (turn.gets, turn.leaves)
        if held is not None and not held.name
    ]
    return tuple(
        Rest(
            left=held.box[0],
            top=held.box[1],
            right=held.box[2],
            bottom=held.box[3],
            kept=kept[held.width_mm, held.length_mm] > 0,
            cut=number,
        )
        for held, number in left
    )


def _kept(design: CutAndOrdered, plan: SheetPlan) -> Counter[tuple[int | None, int]]:
    return Counter((o.width_mm, o.length_mm) for o in design.cutting.offcuts if o.item == plan.item)


def cut_rows(design: CutAndOrdered, group: Alike) -> tuple[CutRow, ...]:
    """The cuts of a group of sheets, in order, each with its stop from the head or the left edge of its part."""
    left = {(rest.left, rest.top): rest.words for rest in rests(design, group)}

    def named(held: Held | None) -> str:
        if held is None:
            return ""
        if held.piece:
            k = next(k for k, p in enumerate(group.plan.placements) if p.piece == held.name)
            return called(design, group.pieces(k))
        if held.name:
            return f"{held.name}, {held.width_mm} × {held.length_mm}"
        return left[held.box[0], held.box[1]]

    return tuple(
        CutRow(
            stock=runs(list(group.numbers)),
            cut=turn.cut.number,
            tool="saw across" if turn.cut.kind == "crosscut" else "knife along",
            part=turn.part.name,
            part_mm=(turn.part.width_mm, turn.part.length_mm),
            stop_mm=turn.stop_mm,
            you_get=named(turn.gets),
            remains=named(turn.leaves),
        )
        for turn in followed(group.plan)
    )


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


def stock_line(design: CutAndOrdered, group: Alike) -> str:
    """Where the sheets come from."""
    plan = group.plan
    alike = {1: "", 2: "Two alike. ", 3: "Three alike. ", 4: "Four alike. "}
    many = alike.get(len(group.plans), f"{len(group.plans)} alike. ")
    source = f"From your rack, {plan.stock}." if group.offcut else "New,"
    size = f"{plan.width_mm} × {plan.length_mm}"
    return f"{many}{source} {size}."
