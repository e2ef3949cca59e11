"""Plans the rest after damage: some stock is cut, some pieces are spoiled, the others must come out of what is left.

What is there: kept rests of stock that is cut, bought stock that is still whole, offcuts on the rack that no plan used,
and whatever more is bought. Sheets that are still whole keep their tickets unless cutting them anew is cheaper. Smaller
rests than are kept count as gone.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from pentice.cutting.lengths import cut_lengths, rest_mm
from pentice.cutting.rests import rests_left
from pentice.cutting.sheets import cut_sheets
from pentice.cutting.shop import USUAL, Shop
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


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSoFar:
    """Where the saw stands.

    Attributes
    ----------
    cut
        Places in the plan, from 0, of the stock that is cut.
    spoiled
        Ids of pieces of that stock that must be made again.
    """

    cut: frozenset[int]
    spoiled: frozenset[str]


def _for_money(shop: Shop) -> Shop:
    """The rules of a shop that only wants to buy as little as can be."""
    return replace(shop, aim="least cost", keep_share=Fraction(0))


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
        Which of them are cut, and what is spoiled.
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
        Sheets that are still to be cut; cost and bound are those of what must be bought more, in the smallest unit of
        money. Stock that is whole is called "stock 3", a rest "rest 1 of stock 2".

    Raises
    ------
    NoSolution
        A piece fits nothing that is left or can be bought.
    """
    wanted = {p.id: replace(p, reserve_mm=(0, 0)) for p in pieces}
    whole = [(n, sheet) for n, sheet in enumerate(plan, 1) if n - 1 not in so_far.cut]
    shop, used = _for_money(shop), {sheet.stock for sheet in plan}
    more = [replace(s, worth=0) for s in stocks if not s.offcut or s.id not in used]
    known = {(s.item, s.id): s for s in stocks}
    rests = {
        n: [*_rests(n, sheet, known[sheet.item, sheet.stock], shop.keep_sheet_mm)]
        for n, sheet in enumerate(plan, 1)
    }
    again = [wanted[id] for id in wanted if id in so_far.spoiled]
    as_planned = [replace(sheet, stock=f"stock {n}", price=0) for n, sheet in whole]
    kept = cut_sheets(
        again,
        [*more, *(r for some in rests.values() for r in some)],
        kerf_mm=kerf_mm,
        any_cuts=True,
        shop=shop,
    )
    kept = replace(kept, sheets=(*as_planned, *kept.sheets))
    if kept.cost == 0:
        return kept
    waiting = [wanted[p.piece] for _, sheet in whole for p in sheet.placements]
    held = [replace(known[s.item, s.stock], id=f"stock {n}", price=0, worth=0, count=1) for n, s in whole]
    left = [r for n, some in rests.items() if n - 1 in so_far.cut for r in some]
    anew = cut_sheets([*again, *waiting], [*more, *held, *left], kerf_mm=kerf_mm, any_cuts=True, shop=shop)
    bound = min(anew.bound, kept.cost)
    if anew.cost < kept.cost:
        return anew
    return replace(kept, bound=bound, proven=bound == kept.cost)


def _rests(
    number: int, sheet: SheetPlan, stock: SheetStock, least_mm: tuple[int, int]
) -> Iterator[SheetStock]:
    """What the cuts of a sheet leave that is kept: an offcut that knows where its first rib stands."""
    for k, part in enumerate(rests_left(sheet, stock, least_mm), 1):
        first = stock.first_rib_mm
        steps = 0 if math.isnan(first) else max(0, math.ceil((part[0] - first) / stock.rib_pitch_mm))
        yield replace(
            stock,
            id=f"rest {k} of stock {number}",
            width_mm=part[2] - part[0],
            length_mm=part[3] - part[1],
            price=0,
            worth=0,
            count=1,
            offcut=True,
            first_rib_mm=first + steps * stock.rib_pitch_mm - part[0],
        )


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
        Which of them are cut, and what is spoiled.
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

    Raises
    ------
    NoSolution
        A piece is longer than anything that is left or can be bought.
    """
    wanted = {p.id: replace(p, reserve_mm=0) for p in pieces}
    whole = [(n, length) for n, length in enumerate(plan, 1) if n - 1 not in so_far.cut]
    shop, used = _for_money(shop), {length.stock for length in plan}
    more = [replace(s, worth=0) for s in stocks if not s.offcut or s.id not in used]
    known = {(s.item, s.id): s for s in stocks}
    rests = {
        n: [*_rest(n, length, known[length.item, length.stock], shop)] for n, length in enumerate(plan, 1)
    }
    again = [wanted[id] for id in wanted if id in so_far.spoiled]
    as_planned = [replace(length, stock=f"length {n}", price=0) for n, length in whole]
    kept = cut_lengths(
        again, [*more, *(r for some in rests.values() for r in some)], kerf_mm=kerf_mm, shop=shop
    )
    kept = replace(kept, lengths=(*as_planned, *kept.lengths))
    if kept.cost == 0:
        return kept
    items = {p.item for p in again}
    waiting = [wanted[p.piece] for _, n in whole if n.item in items for p in n.pieces]
    held = [replace(known[s.item, s.stock], id=f"length {n}", price=0, worth=0, count=1) for n, s in whole]
    left = [r for n, some in rests.items() if n - 1 in so_far.cut for r in some]
    anew = cut_lengths([*again, *waiting], [*more, *held, *left], kerf_mm=kerf_mm, shop=shop)
    bound = min(anew.bound, kept.cost)
    if anew.cost < kept.cost:
        others = tuple(length for length in as_planned if length.item not in items)
        return replace(anew, lengths=(*others, *anew.lengths))
    return replace(kept, bound=bound, proven=bound == kept.cost)


def _rest(number: int, plan: LengthPlan, stock: LengthStock, shop: Shop) -> Iterator[LengthStock]:
    left = rest_mm(plan, stock, shop)
    if left:
        yield replace(
            stock, id=f"rest of length {number}", length_mm=left, price=0, worth=0, count=1, offcut=True
        )
