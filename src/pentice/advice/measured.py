"""What the ordered sheets are worth once the frame is measured, bay by bay: cut to what, from which, or not at all.

Two solves of one job: as it was ordered, before anybody measured the frame, and as the frame stands.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from pentice.advice.complete import complete
from pentice.advice.measured_sides import SideNews, news_of_sides
from pentice.catalogue.model import Catalogue
from pentice.checks.values import WORST_FIRST, Check
from pentice.cutting.values import Placement
from pentice.design import Design
from pentice.job.model import Job, Measured
from pentice.pieces.as_cut import rib_places, sides_as_cut
from pentice.pieces.names import letters_of
from pentice.pipeline import Assessed, assess, assess_as_cut, solve
from pentice.setting_out.sheets import least_width_covered_mm
from pentice.setting_out.values import Bay, CutSheet
from pentice.takeoff.serves import OrderedSheet, what_still_serves

State = Literal["stays", "cut", "no window", "to buy", "not carried"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BayNews:
    """What the frame as it stands means for the sheet of one bay."""

    bay: int
    state: State
    """ "stays": the size is as drawn. "cut": another size, out of what was ordered. "no window": no size fits the bay.
    "to buy": nothing ordered serves. "not carried": it fits, but a check of it is worse than as drawn."""
    read: bool
    """True where this bay was measured, in its width or in its length."""
    says: str
    """The part first, then what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameNews:
    """What a measured frame means for the sheets that were ordered."""

    bays: tuple[BayNews, ...]
    worse: tuple[str, ...]
    """Checks away from the sheets, by name and place, that are worse than as drawn."""
    cut_at_c: float
    """Temperature of the sheet at which the sizes hold [degC]."""
    sides_without: tuple[str, ...] = ()
    """Side sheets that no longer come out of what was ordered."""
    sides: tuple[SideNews, ...] = ()
    """Side sheets by the openings as they were read; none where none was."""


def news_of_frame(job: Job, catalogue: Catalogue) -> FrameNews:
    """What the sheets that were ordered for a job still serve, now that its frame is measured.

    Parameters
    ----------
    job
        The job with its [measured]. What was ordered is what the same job gives without it.
    catalogue
        Products by id.

    Returns
    -------
    FrameNews
        Bays from the left. A sheet serves only where it fits its bay, keeps the edge cover of its load table, and no
        check of it is worse than as drawn.

    Raises
    ------
    PenticeError
        The job cannot be solved, as drawn or as measured.
    """
    drawn_job = complete(_as_ordered(job), catalogue)
    marks = {path: given for path, given in job.marks.items() if path.startswith("measured")}
    measured_job = drawn_job.model_copy(update={"measured": job.measured})
    measured_job = measured_job.with_marks({**drawn_job.marks, **marks})
    drawn, measured = solve(drawn_job, catalogue), assess(measured_job, catalogue)
    found = what_still_serves(
        drawn.setting_out,
        measured.setting_out,
        drawn.cutting,
        sheet=drawn.parts.sheet,
        kerf_mm=job.stock.sheet_kerf_mm,
    )
    placed = {p.piece: (ordered, p) for ordered in found.sheets for p in ordered.cut_to}
    cut = {
        bay.number: _cut_sheet(*placed[f"S{bay.number}"])
        for bay in measured.setting_out.plane.bays
        if f"S{bay.number}" in placed
    }
    cut |= sides_as_cut(drawn.pieces, {id: p for id, (_, p) in placed.items()})
    checks = assess_as_cut(measured, measured_job, catalogue, cut).checks
    return FrameNews(
        bays=tuple(
            _news(bay, placed.get(f"S{bay.number}"), drawn, measured, checks)
            for bay in measured.setting_out.plane.bays
        ),
        worse=_worse_elsewhere(drawn.checks, checks),
        cut_at_c=measured.setting_out.temperatures.fit_c,
        sides_without=tuple(p.name for p in drawn.pieces if p.side_parts and p.id in found.without),
        sides=news_of_sides(job, drawn.setting_out, measured.setting_out),
    )


def _cut_sheet(ordered: OrderedSheet, placed: Placement) -> CutSheet:
    return CutSheet(
        width_mm=placed.width_mm,
        length_mm=placed.length_mm,
        stock_x_mm=placed.x_mm,
        ribs_mm=rib_places(placed),
        uncut=(placed.width_mm == ordered.width_mm, placed.length_mm == ordered.length_mm),
    )


def _as_ordered(job: Job) -> Job:
    """The job as it was before its frame was measured."""
    marks = {path: given for path, given in job.marks.items() if not path.startswith("measured")}
    return job.model_copy(update={"measured": Measured()}).with_marks(marks)


_Placed = tuple[OrderedSheet, Placement]


def _news(
    bay: Bay, placed: _Placed | None, drawn: Design, measured: Assessed, checks: tuple[Check, ...]
) -> BayNews:
    number, read = bay.number, bay.measured or bay.length_measured
    if bay.width_mm.least > bay.width_mm.most or bay.length_mm.least > bay.length_mm.most:
        return BayNews(bay=number, state="no window", read=read, says=_no_window(bay))
    if placed is None:
        return BayNews(bay=number, state="to buy", read=read, says=_to_buy(bay, measured))
    worse = _worse_in(drawn.checks, checks, number)
    if worse is not None:
        return BayNews(bay=number, state="not carried", read=read, says=_not_carried(number, worse))
    before = _size_drawn(number, drawn)
    if _size(placed[1]) == before:
        says = f"Sheet {number} stays {before[0]} by {before[1]}."
        return BayNews(bay=number, state="stays", read=read, says=says)
    return BayNews(bay=number, state="cut", read=read, says=_cut(number, before, placed))


def _size(piece: Placement) -> tuple[int, int]:
    return piece.width_mm, piece.length_mm


def _size_drawn(bay: int, drawn: Design) -> tuple[int, int]:
    """As the plan that was ordered cuts it."""
    name = f"S{bay}"
    return next(_size(p) for plan in drawn.cutting.sheets for p in plan.placements if p.piece == name)


# Words


def _cut(bay: int, before: tuple[int, int], placed: _Placed) -> str:
    ordered, piece = placed
    width, length = _size(piece)
    if width == before[0]:
        to = f"{length} long, was {before[1]}; {width} wide, as before"
    elif length == before[1]:
        to = f"{width}, was {before[0]}; {length} long, as before"
    else:
        to = f"{width} by {length}, was {before[0]} by {before[1]}"
    if f"S{bay}" in ordered.ordered_for:
        return f"Cut sheet {bay} to {to}. The sheet you ordered still serves."
    others = [name.removeprefix("S") for name in ordered.ordered_for if letters_of(name) == "S"]
    whose = f"the sheet you ordered for {' and '.join(others)}" if others else "another sheet you ordered"
    return f"Cut sheet {bay} to {to}. It comes out of {whose}: {ordered.width_mm} by {ordered.length_mm}."


def _no_window(bay: Bay) -> str:
    number, between, width, length = bay.number, bay.between_stems_mm, bay.width_mm, bay.length_mm
    if width.least > width.most:
        return (
            f"No sheet fits bay {number}: it reads {between.least:g} to {between.greatest:g} between the stems. "
            f"Do not cut sheet {number}. Screw one bar anew, then read bay {number} again."
        )
    return (
        f"No length fits bay {number}: {length.most:.0f} is the most for the hottest day, {length.least:.0f} the least "
        f"for the coldest. Do not cut sheet {number}. Read the slope again, or take a head profile with a longer arm."
    )


def _to_buy(bay: Bay, measured: Assessed) -> str:
    between = bay.between_stems_mm.greatest
    depth = min(bay.edges.left.depth_mm, bay.edges.right.depth_mm)
    covered = least_width_covered_mm(measured.parts.sheet, measured.setting_out.temperatures, between, depth)
    wide = f"{bay.width_mm.least:.0f} to {bay.width_mm.most:.0f} wide"
    if covered > bay.width_mm.most:
        wide = f"{bay.width_mm.most:.0f} wide, and that has less edge cover than its load table asks for"
    long = f"{bay.length_mm.least:.0f} to {bay.length_mm.most:.0f} long"
    return (
        f"Nothing you ordered serves bay {bay.number}. It takes a sheet {long} and {wide}. "
        f"Read bay {bay.number} once more before you buy one."
    )


def _not_carried(bay: int, check: Check) -> str:
    why = check.says
    if not why and check.demand is not None and check.capacity is not None:
        apart = next((n for n in range(2, 6) if round(check.demand, n) != round(check.capacity, n)), 6)
        why = f"{check.demand:.{apart}f} {check.unit} is needed, {check.capacity:.{apart}f} is there."
    cure = f" {check.cure}" if check.cure else ""
    return f"Do not cut sheet {bay}: as the bay stands it is not shown to hold. {check.name}: {why}{cure}"


# Checks that are worse than as drawn


def _worst(checks: Iterable[Check]) -> dict[tuple[str, int | None, int | None], Check]:
    """The worst check of each rule in each bay and at each rafter."""
    found: dict[tuple[str, int | None, int | None], Check] = {}
    for check in checks:
        key = (check.id, check.place.bay, check.place.rafter or check.place.bar)
        if key not in found or _rank(check) < _rank(found[key]):
            found[key] = check
    return found


def _rank(check: Check) -> int:
    return WORST_FIRST.index(check.verdict)


def _worse(before: Iterable[Check], after: Iterable[Check]) -> list[Check]:
    old = _worst(before)
    return [check for key, check in _worst(after).items() if key in old and _rank(check) < _rank(old[key])]


def _worse_in(before: Iterable[Check], after: Iterable[Check], bay: int) -> Check | None:
    """The worst of those checks of one bay that are worse than as drawn; None where none is."""
    fallen = [check for check in _worse(before, after) if check.place.bay == bay]
    return min(fallen, key=_rank, default=None)


def _worse_elsewhere(before: Iterable[Check], after: Iterable[Check]) -> tuple[str, ...]:
    fallen = [check for check in _worse(before, after) if check.place.bay is None]
    return tuple(
        f"{c.name}{f', rafter {c.place.rafter}' if c.place.rafter else ''}: {c.verdict}" for c in fallen
    )
