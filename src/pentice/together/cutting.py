"""The shared cutting plan of several jobs: lot by lot, never dearer than each job cut by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, TypeVar

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.shop import USUAL, Shop
from pentice.cutting.values import (
    CutPlan,
    LengthPiece,
    LengthPlan,
    LengthStock,
    SheetPiece,
    SheetPlan,
    SheetStock,
)
from pentice.design import Design
from pentice.pieces.cut import length_pieces, length_stocks, sheet_pieces, sheet_stocks, shop_of
from pentice.pieces.names import labelled
from pentice.together.lots import Ask, Choice, Done, Names, P, S, Wanted, best_choice, each_alone, lot_of
from pentice.together.offcuts import Rack
from pentice.together.values import Lot

if TYPE_CHECKING:
    from concurrent.futures import Executor


R = TypeVar("R")


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedCutting:
    """The plan and the lots that it is made of."""

    plan: CutPlan
    lots: tuple[Lot, ...]


def cut_together(designs: Sequence[Design], rack: Rack, executor: Executor | None = None) -> SharedCutting:
    """One plan for all pieces of all jobs, each labelled with its job's reference.

    Parameters
    ----------
    designs
        Solved jobs, each with a reference of its own; products of one id are the same in all of them.
    rack
        Offcuts in hand.
    executor
        Where products are cut at the same time; absent: here, one after another. The plan is the same.

    Returns
    -------
    SharedCutting
        Pieces that differ in product, tint or kerf are lots of their own. The cost is never above that of cutting
        each job by itself; money in pence.

    Raises
    ------
    NoSolution
        A piece fits no stock.
    """
    works = [
        *(partial(cut_family, family) for family in _families([*sheet_lots(designs, rack)])),
        *(partial(cut_family, family) for family in _families([*length_lots(designs, rack)])),
    ]
    cut = [row for rows in made_by(executor, works) for row in rows]
    made = [done for done, _ in cut]
    plans = [plan for done in made for plan in done.plans]
    cost, bound = sum(done.cost for done in made), sum(done.bound for done in made)
    plan = CutPlan(
        sheets=tuple(plan for plan in plans if isinstance(plan, SheetPlan)),
        lengths=tuple(plan for plan in plans if isinstance(plan, LengthPlan)),
        cost=cost,
        bound=bound,
        proven=all(done.proven for done in made),
        waste_area_m2=sum(done.waste_area_m2 for done in made),
        offcuts=tuple(offcut for done in made for offcut in done.offcuts),
        credit=sum(done.credit for done in made),
        aim=shop_of(designs[0].job).aim,
    )
    return SharedCutting(plan=plan, lots=_with_kerfs([lot for _, lot in cut]))


def made_by(executor: Executor | None, works: Sequence[Callable[[], R]]) -> list[R]:
    """What works give that know nothing of each other, in their order, wherever they were done.

    Parameters
    ----------
    executor
        A pool of processes, or that of a cluster; absent: here, one after another.
    works
        Functions without arguments that can be sent to another process.

    Returns
    -------
    list
        The same whatever the executor.
    """
    if executor is None:
        return [work() for work in works]
    waiting = [executor.submit(work) for work in works]
    return [future.result() for future in waiting]


def cut_family(family: Sequence[Wanted[P, S]]) -> list[tuple[Done, Lot]]:
    """Lots that share offcuts: together where that is no dearer over all of them, else each job by itself.

    Parameters
    ----------
    family
        Lots of one product.

    Returns
    -------
    list of (Done, Lot)
        Lot by lot.
    """
    alone, together = _in_turn(family, each_alone), _in_turn(family, best_choice)
    if _by_aim(together) > _by_aim(alone):
        together = [_apart(choice, other.done.bound) for choice, other in zip(alone, together, strict=True)]
    rows = zip(family, together, alone, strict=True)
    return [(choice.done, lot_of(wanted, choice, by_itself.done.net)) for wanted, choice, by_itself in rows]


def _by_aim(choices: Sequence[Choice]) -> tuple[int, int]:
    bought, net = zip(*(choice.done.by_aim for choice in choices), strict=True)
    return sum(bought), sum(net)


def _apart(choice: Choice, bound: int) -> Choice:
    """Each job by itself where together is dearer; the bound of all pieces together holds."""
    done, bound = choice.done, min(bound, choice.done.net)
    return Choice(done=replace(done, bound=bound, proven=bound == done.net and not done.fewest), why=_DEARER)


_DEARER = "Each job by itself: together is dearer, since an offcut can be used once only."


def _in_turn(family: Sequence[Wanted[P, S]], choose: Callable[[Wanted[P, S], Names], Choice]) -> list[Choice]:
    gone: Names = frozenset()
    found = []
    for wanted in family:
        found.append(choose(wanted, gone))
        gone |= found[-1].done.racked
    return found


def _families(lots: Sequence[Wanted[P, S]]) -> list[list[Wanted[P, S]]]:
    """Lots of one product, in other tints or with other kerfs: an offcut may serve any of them."""
    found: dict[str, list[Wanted[P, S]]] = {}
    for wanted in lots:
        sheet = wanted.item.startswith("sheets.")
        found.setdefault(wanted.item.partition(" ")[0] if sheet else wanted.item, []).append(wanted)
    return list(found.values())


def _with_kerfs(lots: Sequence[Lot]) -> tuple[Lot, ...]:
    """A word at each lot whose product is cut with another kerf in another job."""
    kerfs: dict[str, set[int]] = {}
    for lot in lots:
        kerfs.setdefault(lot.item, set()).add(lot.kerf_mm)
    said = "Kerfs differ: cut apart from jobs with another one."
    return tuple(
        replace(lot, why=" ".join(t for t in (said, lot.why) if t)) if len(kerfs[lot.item]) > 1 else lot
        for lot in lots
    )


def sheet_lots(designs: Sequence[Design], rack: Rack) -> Iterator[Wanted[SheetPiece, SheetStock]]:
    """Sheets of several jobs in lots that could come from the same stock.

    Parameters
    ----------
    designs, rack
        The jobs, and every offcut in hand.

    Yields
    ------
    Wanted
        One for each product and kerf, and for each tint of a sheet.
    """
    shop = shop_of(designs[0].job)
    groups: dict[tuple[str, int], list[tuple[Ask[SheetPiece, SheetStock], tuple[SheetStock, ...]]]] = {}
    for design in designs:
        reference, tint, id = design.job.reference, design.parts.tint, design.parts.sheet.id
        item = f"sheets.{id} {tint}"
        stock = [replace(s, item=item) for s in sheet_stocks(rack.laid_before(design.job), design.parts)]
        pieces = [
            replace(p, id=labelled(reference, p.id), item=item)
            for p in sheet_pieces(design.pieces, design.setting_out)
        ]
        key = (item, design.job.stock.sheet_kerf_mm)
        groups.setdefault(key, []).append(_ask(reference, pieces, stock, _named(rack, reference, id)))
    for (item, kerf), asks in groups.items():
        yield _wanted(item, kerf, asks, partial(cut_sheets_done, kerf_mm=kerf, shop=shop))


def length_lots(designs: Sequence[Design], rack: Rack) -> Iterator[Wanted[LengthPiece, LengthStock]]:
    """Lengths of several jobs in lots that could come from the same stock.

    Parameters
    ----------
    designs, rack
        The jobs, and every offcut in hand.

    Yields
    ------
    Wanted
        One for each product and kerf.
    """
    shop = shop_of(designs[0].job)
    groups: dict[tuple[str, int], list[tuple[Ask[LengthPiece, LengthStock], tuple[LengthStock, ...]]]] = {}
    for design in designs:
        reference, job = design.job.reference, rack.laid_before(design.job)
        wanted = tuple(length_pieces(design.pieces, job, design.catalogue))
        stocks = length_stocks(design.pieces, job, design.catalogue)
        for item in dict.fromkeys(piece.item for piece in wanted):
            pieces = [replace(p, id=labelled(reference, p.id)) for p in wanted if p.item == item]
            stock = [s for s in stocks if s.item == item]
            names = _named(rack, reference, item.partition(".")[2])
            key = (item, job.stock.bar_kerf_mm)
            groups.setdefault(key, []).append(_ask(reference, pieces, stock, names))
    for (item, kerf), asks in groups.items():
        yield _wanted(item, kerf, asks, partial(cut_lengths_done, kerf_mm=kerf, shop=shop))


def _named(rack: Rack, reference: str, product: str) -> Names:
    return frozenset(name for item, name in rack.names(reference) if item == product)


def _ask(
    reference: str, pieces: Iterable[P], stock: Sequence[S], names: Names
) -> tuple[Ask[P, S], tuple[S, ...]]:
    """What a job wants, with its stock parted into what is bought and what is in hand."""
    bought, racked = (tuple(s for s in stock if s.offcut is old) for old in (False, True))
    return Ask(reference=reference, pieces=tuple(pieces), stock=bought, names=names), racked


def _wanted(
    item: str,
    kerf_mm: int,
    asks: Sequence[tuple[Ask[P, S], tuple[S, ...]]],
    cut: Callable[[Sequence[P], Sequence[S]], Done],
) -> Wanted[P, S]:
    racked = {offcut.id: offcut for _, offcuts in asks for offcut in offcuts}
    return Wanted(
        item=item,
        kerf_mm=kerf_mm,
        asks=tuple(ask for ask, _ in asks),
        offcuts=tuple(racked.values()),
        cut=cut,
    )


def cut_sheets_done(
    pieces: Sequence[SheetPiece], stocks: Sequence[SheetStock], *, kerf_mm: int, shop: Shop = USUAL
) -> Done:
    """What `pentice.cutting.cut_sheets` gives, in the shape that lots compare.

    Parameters
    ----------
    pieces, stocks
        What is wanted, and what it may be cut from.
    kerf_mm, shop
        Width of a cut [mm], and the shop's rules.

    Returns
    -------
    Done
        Money in the smallest unit.
    """
    found = cut_sheets(pieces, stocks, kerf_mm=kerf_mm, any_cuts=True, shop=shop)
    return Done(
        plans=found.sheets,
        cost=found.cost,
        bound=found.bound,
        waste_area_m2=found.waste_area_m2,
        offcuts=found.offcuts,
        credit=found.credit,
        proven=found.proven,
        fewest=shop.aim == "fewest sheets",
    )


def cut_lengths_done(
    pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock], *, kerf_mm: int, shop: Shop = USUAL
) -> Done:
    """What `pentice.cutting.cut_lengths` gives, in the shape that lots compare.

    Parameters
    ----------
    pieces, stocks
        What is wanted, and what it may be cut from.
    kerf_mm, shop
        Width of a cut [mm], and the shop's rules.

    Returns
    -------
    Done
        Money in the smallest unit.
    """
    found = cut_lengths(pieces, stocks, kerf_mm=kerf_mm, shop=shop)
    return Done(
        plans=found.lengths,
        cost=found.cost,
        bound=found.bound,
        waste_area_m2=0.0,
        offcuts=found.offcuts,
        credit=found.credit,
        proven=found.proven,
        fewest=shop.aim == "fewest sheets",
    )
