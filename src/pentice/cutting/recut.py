"""Plans the rest after damage: some stock is cut, whole or in part, some pieces are spoiled, the others must come out
of what is left.

What is there: parts of stock that is cut in part, kept rests, bought stock that is still whole, offcuts on the rack
that no plan used, and whatever more is bought. Sheets that are still whole, and parts, keep their tickets unless
cutting them anew is cheaper, and then one is cut anew alone where that saves as much as all would. Smaller rests than
are kept count as gone.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Generic, TypeVar

from pentice.cutting.half_cut import HalfCut, cut_from_left, half_cut, rests_of_plan
from pentice.cutting.lengths import cut_lengths
from pentice.cutting.sheets import cut_sheets
from pentice.cutting.shop import USUAL, Shop, rest_mm
from pentice.cutting.values import (
    LengthPiece,
    LengthPlan,
    LengthPlans,
    LengthStock,
    SheetPiece,
    SheetPlan,
    SheetPlans,
    SheetStock,
)
from pentice.errors import NoSolution


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSoFar:
    """Where the saw stands.

    Attributes
    ----------
    cut
        Places in the plan, from 0, of the stock that is cut to the end.
    spoiled
        Ids of pieces that must be made again.
    begun
        Places of stock that is cut in part, with how many cuts of its ticket are made (of a length: how many pieces are
        cut from its left end on), 1 or more [-].
    """

    cut: frozenset[int]
    spoiled: frozenset[str]
    begun: Mapping[int, int] = field(default_factory=dict)

    def touched(self, place: int) -> bool:
        """Whether the saw was on this stock."""
        return place in self.cut or place in self.begun


def _for_money(shop: Shop) -> Shop:
    """The rules of a shop that only wants to buy as little as can be."""
    return replace(shop, aim="least cost", keep_share=Fraction(0))


def begun_sheets(
    plan: Sequence[SheetPlan], so_far: CutSoFar, stocks: Sequence[SheetStock], shop: Shop = USUAL
) -> dict[int, HalfCut]:
    """What is there of each sheet that the saw was on, by its number on the tickets.

    Parameters
    ----------
    plan, so_far, stocks, shop
        As for `recut_sheets`.

    Returns
    -------
    dict
        Numbers from 1.
    """
    known = {(s.item, s.id): s for s in stocks}
    return {
        n: half_cut(
            n,
            sheet,
            known[sheet.item, sheet.stock],
            made=so_far.begun.get(n - 1, len(sheet.cuts)),
            spoiled=so_far.spoiled,
            least_mm=shop.keep_sheet_mm,
        )
        for n, sheet in enumerate(plan, 1)
        if so_far.touched(n - 1)
    }


def recut_sheets(
    plan: Sequence[SheetPlan],
    so_far: CutSoFar,
    pieces: Sequence[SheetPiece],
    stocks: Sequence[SheetStock],
    *,
    kerf_mm: int,
    shop: Shop = USUAL,
) -> SheetPlans:
    """How to cut what is still missing, buying as little as can be.

    Parameters
    ----------
    plan
        The sheets as they were to be cut.
    so_far
        Which of them are cut, whole or in part, and what is spoiled.
    pieces
        Every piece of the plan; what is cut now needs no reserve.
    stocks
        What can be bought, and the offcuts that were in hand before.
    kerf_mm
        Width of a cut [mm].
    shop
        Which rests it keeps and how its saw cuts; what must be bought is as cheap as can be, whatever else it aims at.

    Returns
    -------
    SheetPlans
        Sheets and parts that are still to be cut; cost and bound are those of what must be bought more, in the smallest
        unit of money. Stock that is whole is called "stock 3", a part "part A of stock 2" or, while it keeps its name,
        "sheet of stock 2", a rest "rest 1 of stock 2". Cuts that are made first (`HalfCut.first`) are not among theirs.

    Raises
    ------
    NoSolution
        A piece fits nothing that is left or can be bought.
    """
    there = begun_sheets(plan, so_far, stocks, shop)
    wanted = {p.id: replace(p, reserve_mm=(0, 0)) for p in pieces}
    shop, used = _for_money(shop), {sheet.stock for sheet in plan}
    more = [replace(s, worth=0) for s in stocks if not s.offcut or s.id not in used]
    known = {(s.item, s.id): s for s in stocks}
    left = [rest for half in there.values() for rest in half.rests]
    begun = [pair for half in there.values() for pair in zip(half.parts, half.stock, strict=True)]
    held: list[_Held[SheetPlan, SheetStock]] = []
    for n, sheet in enumerate(plan, 1):
        if n not in there:
            whole = replace(known[sheet.item, sheet.stock], id=f"stock {n}", price=0, worth=0, count=1)
            begun.append((replace(sheet, stock=whole.id, price=0), whole))
    for goes_on, stock in begun:
        rests = tuple(rests_of_plan(goes_on.stock, goes_on, stock, shop.keep_sheet_mm))
        held.append(_Held(goes_on=goes_on, stock=stock, rests=rests))
    again = [wanted[id] for id in wanted if id in so_far.spoiled]

    def planned(anew: Collection[int]) -> SheetPlans:
        free = [h for k, h in enumerate(held) if k in anew]
        fixed = [h for k, h in enumerate(held) if k not in anew]
        found = cut_sheets(
            [*again, *(wanted[p.piece] for h in free for p in h.goes_on.placements)],
            [*more, *(h.stock for h in free), *left, *(rest for h in fixed for rest in h.rests)],
            kerf_mm=kerf_mm,
            any_cuts=True,
            shop=shop,
        )
        return replace(found, sheets=(*(h.goes_on for h in fixed), *found.sheets))

    return _cheapest(planned, range(len(held)))


def begun_lengths(
    plan: Sequence[LengthPlan], so_far: CutSoFar, stocks: Sequence[LengthStock]
) -> dict[int, tuple[LengthPlan, LengthStock]]:
    """What is left of each length that still holds pieces, by its number in the plan.

    Parameters
    ----------
    plan, so_far, stocks
        As for `recut_lengths`.

    Returns
    -------
    dict
        Numbers from 1: how it was to be cut on, and the same as stock in hand.
    """
    known = {(s.item, s.id): s for s in stocks}
    found = {
        n: cut_from_left(n, length, known[length.item, length.stock], so_far.begun[n - 1])
        for n, length in enumerate(plan, 1)
        if n - 1 in so_far.begun
    }
    return {n: part for n, part in found.items() if part is not None}


def recut_lengths(
    plan: Sequence[LengthPlan],
    so_far: CutSoFar,
    pieces: Sequence[LengthPiece],
    stocks: Sequence[LengthStock],
    *,
    kerf_mm: int,
    shop: Shop = USUAL,
) -> LengthPlans:
    """The same for bars, profiles and timber; the rest of a length is what lies beyond its last piece.

    Parameters
    ----------
    plan
        The lengths as they were to be cut.
    so_far
        Which of them are cut, whole or in part, and what is spoiled; what is spoiled is cut.
    pieces
        Every piece of the plan.
    stocks
        What can be bought, and the offcuts that were in hand before.
    kerf_mm
        Width of a cut [mm].
    shop
        Which rests it keeps and how its saw cuts; what must be bought is as cheap as can be, whatever else it aims at.

    Returns
    -------
    LengthPlans
        Lengths that are still to be cut; cost and bound are those of what must be bought more [smallest unit of money].
        A whole one is called "length 3", one that is cut in part "what is left of length 3", a rest "rest of length 3".

    Raises
    ------
    NoSolution
        A piece is longer than anything that is left or can be bought.
    """
    wanted = {p.id: replace(p, reserve_mm=0) for p in pieces}
    shop, used = _for_money(shop), {length.stock for length in plan}
    more = [replace(s, worth=0) for s in stocks if not s.offcut or s.id not in used]
    known, parts = {(s.item, s.id): s for s in stocks}, begun_lengths(plan, so_far, stocks)
    left: list[LengthStock] = []
    held: list[_Held[LengthPlan, LengthStock]] = []
    for n, length in enumerate(plan, 1):
        whole = replace(known[length.item, length.stock], id=f"length {n}", price=0, worth=0, count=1)
        over = rest_mm(length, whole, shop)
        rests = (replace(whole, id=f"rest of length {n}", length_mm=over, offcut=True),) if over else ()
        if so_far.touched(n - 1) and n not in parts:
            left += rests
        else:
            goes_on, stock = parts.get(n, (replace(length, stock=whole.id, price=0), whole))
            held.append(_Held(goes_on=goes_on, stock=stock, rests=rests))
    again = [wanted[id] for id in wanted if id in so_far.spoiled]

    def planned(anew: Collection[int]) -> LengthPlans:
        free = [h for k, h in enumerate(held) if k in anew]
        fixed = [h for k, h in enumerate(held) if k not in anew]
        found = cut_lengths(
            [*again, *(wanted[p.piece] for h in free for p in h.goes_on.pieces)],
            [*more, *(h.stock for h in free), *left, *(rest for h in fixed for rest in h.rests)],
            kerf_mm=kerf_mm,
            shop=shop,
        )
        return replace(found, lengths=(*(h.goes_on for h in fixed), *found.lengths))

    items = {p.item for p in again}
    return _cheapest(planned, [k for k, h in enumerate(held) if h.stock.item in items])


_Plan = TypeVar("_Plan", SheetPlan, LengthPlan)
_Stock = TypeVar("_Stock", SheetStock, LengthStock)
_Plans = TypeVar("_Plans", SheetPlans, LengthPlans)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held(Generic[_Plan, _Stock]):
    """Stock in hand that holds pieces: as it was to be cut, the same as stock, and what that will leave."""

    goes_on: _Plan
    stock: _Stock
    rests: tuple[_Stock, ...]


def _cheapest(planned: Callable[[Collection[int]], _Plans], held: Sequence[int]) -> _Plans:
    """The plan that buys least and changes few tickets: none, else one alone where that does, else all of them.

    planned: cuts the held stock of these places anew, the others as they were to be.
    """
    kept = _or_none(planned, ())
    if kept is not None and (kept.cost == 0 or not held):
        return kept
    anew = planned(held)
    if kept is not None and kept.cost <= anew.cost:
        return _known_bound(kept, anew)
    for place in held if len(held) > 1 else ():
        one = _or_none(planned, (place,))
        if one is not None and one.cost <= anew.cost:
            return _known_bound(one, anew)
    return anew


def _or_none(planned: Callable[[Collection[int]], _Plans], anew: Collection[int]) -> _Plans | None:
    try:
        return planned(anew)
    except NoSolution:  # more of the stock may do
        return None


def _known_bound(found: _Plans, anew: _Plans) -> _Plans:
    """Only a plan in which everything may be cut anew bounds them all."""
    bound = min(anew.bound, found.cost)
    return replace(found, bound=bound, proven=bound == found.cost)
