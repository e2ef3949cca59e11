"""One lot: the same product of several jobs, cut together where that costs less and each by itself where it does not.

Pieces of a job may come only from stock that the job allows (stock.only, stock.longest_mm) and from offcuts in hand,
whichever job names them. The bound is that of all pieces from all stock that any of the jobs allows: no plan that
minds more can go below it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Generic, TypeVar

from pentice.cutting.values import (
    LengthPiece,
    LengthPlan,
    LengthStock,
    Offcut,
    SheetPiece,
    SheetPlan,
    SheetStock,
)
from pentice.errors import NoSolution
from pentice.pieces.names import job_of
from pentice.together.values import Lot

P = TypeVar("P", bound=SheetPiece | LengthPiece)
S = TypeVar("S", bound=SheetStock | LengthStock)
Names = frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """Stock that is cut: plans of one kind, what they cost, the worth of what they keep, what any plan of the same
    pieces costs at least net of that, and whether none does better by the aim."""

    plans: tuple[SheetPlan | LengthPlan, ...]
    cost: int
    bound: int
    waste_area_m2: float
    offcuts: tuple[Offcut, ...]
    credit: int = 0
    proven: bool = False
    fewest: bool = False
    """Whether the aim is to buy as few as can be."""

    @property
    def net(self) -> int:
        """Cost less credit."""
        return self.cost - self.credit

    @property
    def by_aim(self) -> tuple[int, int]:
        """What is made least: number bought where that is the aim, then net cost."""
        return (sum(1 for plan in self.plans if plan.price) if self.fewest else 0, self.net)

    @property
    def racked(self) -> Names:
        """Names of the stock used that cost nothing."""
        return frozenset(plan.stock for plan in self.plans if plan.price == 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask(Generic[P, S]):
    """What one job wants of a lot: labelled pieces, the stock it may buy, and the offcuts that it names."""

    reference: str
    pieces: tuple[P, ...]
    stock: tuple[S, ...]
    names: Names


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted(Generic[P, S]):
    """One lot before it is cut: what each job wants, the offcuts in hand, and how such a thing is cut."""

    item: str
    kerf_mm: int
    asks: tuple[Ask[P, S], ...]
    offcuts: tuple[S, ...]
    cut: Callable[[Sequence[P], Sequence[S]], Done]

    @property
    def jobs(self) -> tuple[str, ...]:
        """References."""
        return tuple(ask.reference for ask in self.asks)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One way to cut a lot: what comes of it, and what there is to say."""

    done: Done
    why: str = ""


def each_alone(wanted: Wanted[P, S], gone: Names) -> Choice:
    """Each job by itself, from its own stock and the offcuts that it names, the first job first.

    Parameters
    ----------
    wanted
        The lot.
    gone
        Names of offcuts that are used up.

    Returns
    -------
    Choice
        No piece of stock is shared.
    """
    parts: list[Done] = []
    for ask in wanted.asks:
        racked: list[S] = [o for o in wanted.offcuts if o.id in ask.names and o.id not in gone]
        parts.append(wanted.cut(ask.pieces, [*ask.stock, *racked]))
        gone |= parts[-1].racked
    return Choice(done=_joined(parts))


def best_choice(wanted: Wanted[P, S], gone: Names) -> Choice:
    """The best way to cut a lot by the aim, then the one with the fewest pieces of stock, then each job by itself.

    Parameters
    ----------
    wanted
        The lot.
    gone
        Names of offcuts that are used up.

    Returns
    -------
    Choice
        Its bound holds for every way of cutting these pieces from stock that the jobs allow.
    """
    alone = each_alone(wanted, gone)
    if len(wanted.asks) == 1:
        return alone
    widest = wanted.cut(_all_pieces(wanted), [*_allowed(wanted, any), *wanted.offcuts])
    ways = [alone, *_ways_together(wanted, gone, widest)]
    best = min(ways, key=lambda way: (way.done.by_aim, len(way.done.plans)))
    why = _why_apart(wanted) if best is alone else best.why
    if best is not alone and best.done.by_aim == alone.done.by_aim:
        why = f"The same cost from fewer pieces of stock. {why}".rstrip()
    bound = min(best.done.net, widest.bound)
    # Nothing does better than a proven plan from all stock that any job allows.
    proven = best.done.by_aim == widest.by_aim and widest.proven
    done = replace(best.done, bound=bound, proven=proven or (bound == best.done.net and not best.done.fewest))
    return Choice(done=done, why=why)


def lot_of(wanted: Wanted[P, S], choice: Choice, alone: int) -> Lot:
    """The lot as it is cut.

    Parameters
    ----------
    wanted, choice
        What was wanted, and the way that was chosen.
    alone
        Cost where each job is cut by itself, less what it keeps [pence].

    Returns
    -------
    Lot
        For the papers.
    """
    return Lot(
        item=wanted.item,
        kerf_mm=wanted.kerf_mm,
        jobs=wanted.jobs,
        groups=groups_of(wanted.jobs, choice.done.plans),
        alone=alone,
        cost=choice.done.net,
        bound=choice.done.bound,
        why=choice.why,
    )


def groups_of(jobs: Sequence[str], plans: Sequence[SheetPlan | LengthPlan]) -> tuple[tuple[str, ...], ...]:
    """Which jobs are cut from the same pieces of stock.

    Parameters
    ----------
    jobs
        References.
    plans
        Stock with labelled pieces.

    Returns
    -------
    tuple of tuple of str
        Every job once; two that share a sheet or a length stand in one group.
    """
    groups = [{job} for job in jobs]
    for plan in plans:
        on_it = {job_of(id) for id in pieces_on(plan)}
        met = [group for group in groups if group & on_it]
        groups = [group for group in groups if not group & on_it]
        groups.append(set().union(*met))
    found = [tuple(job for job in jobs if job in group) for group in groups]
    return tuple(sorted(found, key=lambda group: jobs.index(group[0])))


def _ways_together(wanted: Wanted[P, S], gone: Names, widest: Done) -> Iterator[Choice]:
    """All from what any job allows, where each piece then still comes from what its own job allows; all from what
    every job allows; and jobs that allow the same, group by group."""
    racked = [o for o in wanted.offcuts if o.id not in gone]
    pieces = _all_pieces(wanted)
    if len(racked) < len(wanted.offcuts):
        widest = wanted.cut(pieces, [*_allowed(wanted, any), *racked])
    if _is_allowed(wanted, widest):
        yield Choice(done=widest)
    if _stock_differs(wanted):
        common = _allowed(wanted, all)
        strict = _tried(wanted, pieces, [*common, *racked])
        if strict is not None:
            yield Choice(done=strict, why=_why_strict(common))
        yield from _by_stock(wanted, gone)


def _by_stock(wanted: Wanted[P, S], gone: Names) -> Iterator[Choice]:
    groups: dict[tuple[S, ...], list[Ask[P, S]]] = {}
    for ask in wanted.asks:
        groups.setdefault(ask.stock, []).append(ask)
    if len(groups) == len(wanted.asks):
        return
    parts: list[Done] = []
    for stock, asks in groups.items():
        racked = [o for o in wanted.offcuts if o.id not in gone]
        parts.append(wanted.cut([p for ask in asks for p in ask.pieces], [*stock, *racked]))
        gone |= parts[-1].racked
    yield Choice(done=_joined(parts), why=_DIFFERS)


def _tried(wanted: Wanted[P, S], pieces: Sequence[P], stock: Sequence[S]) -> Done | None:
    try:
        return wanted.cut(pieces, stock)
    except NoSolution:  # what one job needs, another does not allow
        return None


def _all_pieces(wanted: Wanted[P, S]) -> list[P]:
    return [piece for ask in wanted.asks for piece in ask.pieces]


def _allowed(wanted: Wanted[P, S], how: Callable[[Sequence[bool]], bool]) -> list[S]:
    """Stock to buy that any or all of the jobs allow, in the order of the catalogue as the jobs have it."""
    every = dict.fromkeys(s for ask in wanted.asks for s in ask.stock)
    return [s for s in every if how([s in ask.stock for ask in wanted.asks])]


def _stock_differs(wanted: Wanted[P, S]) -> bool:
    return len({ask.stock for ask in wanted.asks}) > 1


def _is_allowed(wanted: Wanted[P, S], done: Done) -> bool:
    racked = {o.id for o in wanted.offcuts}
    ids = {ask.reference: {s.id for s in ask.stock} | racked for ask in wanted.asks}
    return all(plan.stock in ids[job_of(id)] for plan in done.plans for id in pieces_on(plan))


def pieces_on(plan: SheetPlan | LengthPlan) -> tuple[str, ...]:
    """Names of the pieces that one piece of stock gives."""
    placed = plan.placements if isinstance(plan, SheetPlan) else plan.pieces
    return tuple(p.piece for p in placed)


_DIFFERS = "stock.only or stock.longest_mm differ: jobs that allow the same stock are cut together."


def _why_strict(common: Sequence[SheetStock | LengthStock]) -> str:
    longest = max((s.length_mm for s in common), default=0)
    said = f", up to {longest} mm" if longest else ""
    return f"stock.only or stock.longest_mm differ: only sizes that every job allows count{said}."


def _why_apart(wanted: Wanted[P, S]) -> str:
    said = "Each job by itself: together costs no less."
    return f"{said} stock.only or stock.longest_mm differ." if _stock_differs(wanted) else said


def _joined(parts: Sequence[Done]) -> Done:
    return Done(
        plans=tuple(plan for part in parts for plan in part.plans),
        cost=sum(part.cost for part in parts),
        bound=sum(part.bound for part in parts),
        waste_area_m2=sum(part.waste_area_m2 for part in parts),
        offcuts=tuple(offcut for part in parts for offcut in part.offcuts),
        credit=sum(part.credit for part in parts),
        proven=all(part.proven for part in parts),
        fewest=any(part.fewest for part in parts),
    )
