"""Plans the rest after damage: some stock is cut, whole or in part, some pieces are spoiled, the others must come out
of what is left.

What is there: parts of stock that is cut in part, kept rests, bought stock that is still whole, offcuts on the rack
that no plan used, and whatever more is bought. Sheets that are still whole, and parts, keep their tickets unless
cutting them anew is cheaper, and then one is cut anew alone where that saves as much as all would. Smaller rests than
are kept count as gone. Pieces of one item that are cut with one kerf are planned together: no others fit their stock.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from pentice.cutting.half_cut import HalfCut, cut_from_left, half_cut, rests_of_plan
from pentice.cutting.lengths import cut_lengths
from pentice.cutting.recut_lots import Held, Key, Lot, give_spoiled, lot_by_lot
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


CutSheets = Callable[[Sequence[SheetPiece], Sequence[SheetStock], int, Shop], SheetPlans]
CutLengths = Callable[[Sequence[LengthPiece], Sequence[LengthStock], int, Shop], LengthPlans]
"""How pieces of one item are cut from stock with a kerf [mm] and the rules of a shop."""


def any_sheets(
    pieces: Sequence[SheetPiece], stocks: Sequence[SheetStock], kerf_mm: int, shop: Shop
) -> SheetPlans:
    """Sheets cut from any stock at all.

    Parameters
    ----------
    pieces, stocks, kerf_mm, shop
        As for `pentice.cutting.cut_sheets`.

    Returns
    -------
    SheetPlans
        By any cuts.
    """
    return cut_sheets(pieces, stocks, kerf_mm=kerf_mm, any_cuts=True, shop=shop)


def any_lengths(
    pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock], kerf_mm: int, shop: Shop
) -> LengthPlans:
    """Lengths cut from any stock at all.

    Parameters
    ----------
    pieces, stocks, kerf_mm, shop
        As for `pentice.cutting.cut_lengths`.

    Returns
    -------
    LengthPlans
        The cheapest.
    """
    return cut_lengths(pieces, stocks, kerf_mm=kerf_mm, shop=shop)


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
    shop: Shop = USUAL,
    cut: CutSheets = any_sheets,
) -> SheetPlans:
    """How to cut what is still missing, buying as little as can be.

    Parameters
    ----------
    plan
        The sheets as they were to be cut, each with its kerf.
    so_far
        Which of them are cut, whole or in part, and what is spoiled.
    pieces
        Every piece of the plan; what is cut now needs no reserve.
    stocks
        What can be bought, and the offcuts that were in hand before.
    shop
        Which rests it keeps and how its saw cuts; what must be bought is as cheap as can be, whatever else it aims at.
    cut
        How pieces of one item are cut from stock; several jobs may buy differently.

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
    shop, known = _for_money(shop), {(s.item, s.id): s for s in stocks}
    lots: dict[Key, Lot[SheetPiece, SheetPlan, SheetStock]] = {}
    lot_of: dict[str, Key] = {}
    for n, sheet in enumerate(plan, 1):
        key = (sheet.item, sheet.kerf_mm)
        lot = lots.setdefault(key, Lot())
        lot_of |= {p.piece: key for p in sheet.placements}
        whole = replace(known[sheet.item, sheet.stock], id=f"stock {n}", price=0, worth=0, count=1)
        begun = [(replace(sheet, stock=whole.id, price=0), whole)]
        if n in there:
            lot.left += there[n].rests
            begun = list(zip(there[n].parts, there[n].stock, strict=True))
        for goes_on, stock in begun:
            rests = tuple(rests_of_plan(goes_on.stock, goes_on, stock, shop.keep_sheet_mm))
            held = tuple(wanted[p.piece] for p in goes_on.placements)
            lot.held.append(Held(goes_on=goes_on, pieces=held, stock=stock, rests=rests))
    give_spoiled(lots, lot_of, so_far.spoiled, wanted)
    # Of a sheet the item names the tint too, and an offcut of unknown tint serves any.
    used = {(_product(sheet.item), sheet.stock) for sheet in plan}
    more = [replace(s, worth=0) for s in stocks if not s.offcut or (_product(s.item), s.id) not in used]

    found = lot_by_lot(
        lots,
        more,
        cut=lambda pieces, stocks, kerf_mm: cut(pieces, stocks, kerf_mm, shop),
        joined=lambda goes_on, plans: replace(plans, sheets=(*goes_on, *plans.sheets)),
        used=lambda plans: {sheet.stock for sheet in plans.sheets},
        product=_product,
    )
    cost, bound = sum(plans.cost for plans in found), sum(plans.bound for plans in found)
    return SheetPlans(
        sheets=tuple(sheet for plans in found for sheet in plans.sheets),
        cost=cost,
        bound=bound,
        proven=all(plans.proven for plans in found),
        waste_area_m2=sum(plans.waste_area_m2 for plans in found),
        offcuts=tuple(offcut for plans in found for offcut in plans.offcuts),
    )


def _product(item: str) -> str:
    return item.partition(" ")[0]


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
    shop: Shop = USUAL,
    cut: CutLengths = any_lengths,
) -> LengthPlans:
    """The same for bars, profiles and timber; the rest of a length is what lies beyond its last piece.

    Parameters
    ----------
    plan
        The lengths as they were to be cut, each with its kerf.
    so_far
        Which of them are cut, whole or in part, and what is spoiled; what is spoiled is cut.
    pieces
        Every piece of the plan.
    stocks
        What can be bought, and the offcuts that were in hand before.
    shop
        Which rests it keeps and how its saw cuts; what must be bought is as cheap as can be, whatever else it aims at.
    cut
        How pieces of one item are cut from stock; several jobs may buy differently.

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
    shop, known = _for_money(shop), {(s.item, s.id): s for s in stocks}
    parts = begun_lengths(plan, so_far, stocks)
    lots: dict[Key, Lot[LengthPiece, LengthPlan, LengthStock]] = {}
    lot_of: dict[str, Key] = {}
    for n, length in enumerate(plan, 1):
        key = (length.item, length.kerf_mm)
        lot = lots.setdefault(key, Lot())
        lot_of |= {p.piece: key for p in length.pieces}
        whole = replace(known[length.item, length.stock], id=f"length {n}", price=0, worth=0, count=1)
        over = rest_mm(length, whole, shop)
        rests = (replace(whole, id=f"rest of length {n}", length_mm=over, offcut=True),) if over else ()
        if so_far.touched(n - 1) and n not in parts:
            lot.left += rests
        else:
            goes_on, stock = parts.get(n, (replace(length, stock=whole.id, price=0), whole))
            held = tuple(wanted[p.piece] for p in goes_on.pieces)
            lot.held.append(Held(goes_on=goes_on, pieces=held, stock=stock, rests=rests))
    give_spoiled(lots, lot_of, so_far.spoiled, wanted)
    used = {(length.item, length.stock) for length in plan}
    more = [replace(s, worth=0) for s in stocks if not s.offcut or (s.item, s.id) not in used]

    found = lot_by_lot(
        lots,
        more,
        cut=lambda pieces, stocks, kerf_mm: cut(pieces, stocks, kerf_mm, shop),
        joined=lambda goes_on, plans: replace(plans, lengths=(*goes_on, *plans.lengths)),
        used=lambda plans: {length.stock for length in plans.lengths},
        product=str,
    )
    cost, bound = sum(plans.cost for plans in found), sum(plans.bound for plans in found)
    return LengthPlans(
        lengths=tuple(length for plans in found for length in plans.lengths),
        cost=cost,
        bound=bound,
        proven=all(plans.proven for plans in found),
        waste_mm=sum(plans.waste_mm for plans in found),
        offcuts=tuple(offcut for plans in found for offcut in plans.offcuts),
    )
