"""Lengths again after damage: some bars are cut, a piece is spoiled, the rest is planned from what is there."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from pentice.cutting.lengths import cut_lengths
from pentice.cutting.values import LengthPiece, LengthPlan, LengthPlans, LengthStock
from pentice.errors import InputError, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class RecutLengths:
    """The plan of what is still to be cut (its cost is new money only), and what was in hand for it."""

    plans: LengthPlans
    in_hand: tuple[LengthStock, ...]


def recut_lengths(
    plans: Sequence[LengthPlan],
    pieces: Sequence[LengthPiece],
    stocks: Sequence[LengthStock],
    *,
    made: Collection[str],
    spoiled: Mapping[str, int],
    kerf_mm: int,
) -> RecutLengths:
    """What is still to be cut, from the rests, the bars that are not cut yet, and new stock, at least new cost.

    A bar is cut from its left end: once a piece of it is made or spoiled, all before that piece is used up, and what
    lies behind its cut is a rest in hand. Bars on which nothing was cut are whole and paid for.

    Parameters
    ----------
    plans
        What was planned, each bar in its order of cutting.
    pieces
        All that is wanted, spoiled pieces among them.
    stocks
        What can be bought, as it was for the plan. Offcuts in hand are there again only where the plan left them.
    made
        Pieces that are cut and good.
    spoiled
        Pieces that are cut and no good, each with the length of it that can still be used, 0 for none [mm].
    kerf_mm
        Width of a cut [mm].

    Returns
    -------
    RecutLengths
        Cost in the smallest unit of money.

    Raises
    ------
    InputError
        A piece that is in no plan, is both made and spoiled, or has more left than it was long; one sentence for each.
    NoSolution
        A piece is longer than any stock that is left.

    Examples
    --------
    >>> bar = LengthStock(id="6 m", item="bar", length_mm=6000, price=4000, count=None, offcut=False)
    >>> wanted = [LengthPiece(id=f"R{i}", item="bar", length_mm=1900) for i in range(4)]
    >>> first = cut_lengths(wanted, [bar], kerf_mm=4)
    >>> again = recut_lengths(first.lengths, wanted, [bar], made=["R0"], spoiled={"R1": 0}, kerf_mm=4)
    >>> again.plans.cost, sorted(p.piece for bar in again.plans.lengths for p in bar.pieces)
    (0, ['R1', 'R2', 'R3'])
    """
    _require(plans, made, spoiled)
    known = {(s.item, s.id): s for s in stocks}
    cut = {*made, *spoiled}
    in_hand: list[LengthStock] = []
    used: dict[tuple[str, str], int] = {}
    whole: dict[tuple[str, str], int] = {}
    for number, plan in enumerate(plans, 1):
        key = (plan.item, plan.stock)
        used[key] = used.get(key, 0) + 1
        ends = [p.at_mm + p.length_mm for p in plan.pieces if p.piece in cut]
        if not ends:
            whole[key] = whole.get(key, 0) + 1
            continue
        left = plan.length_mm - known[key].trim_mm - max(ends) - plan.kerf_mm
        if left > 0:
            in_hand.append(_rest(f"rest of bar {number}", plan.item, left))
    lengths = {p.piece: (plan.item, p.length_mm) for plan in plans for p in plan.pieces}
    in_hand += [_rest(f"left of {id}", lengths[id][0], left) for id, left in spoiled.items() if left > 0]
    in_hand += [replace(known[key], id=f"{key[1]}, paid for", price=0, count=n) for key, n in whole.items()]
    to_buy = [
        stock
        if stock.count is None
        else replace(stock, count=stock.count - used.get((stock.item, stock.id), 0))
        for stock in stocks
    ]
    wanted = [piece for piece in pieces if piece.id not in made]
    stock = [*in_hand, *(s for s in to_buy if s.count != 0)]
    return RecutLengths(plans=cut_lengths(wanted, stock, kerf_mm=kerf_mm), in_hand=tuple(in_hand))


def _rest(id: str, item: str, length_mm: int) -> LengthStock:
    return LengthStock(id=id, item=item, length_mm=length_mm, price=0, count=1, offcut=True)


def _require(plans: Sequence[LengthPlan], made: Collection[str], spoiled: Mapping[str, int]) -> None:
    lengths = {p.piece: p.length_mm for plan in plans for p in plan.pieces}
    problems = [
        Problem(
            id, f"{id} is in no plan; expected a piece of the plan. Look at the cutting ticket for its name."
        )
        for id in sorted({*made, *spoiled} - set(lengths))
    ]
    problems += [
        Problem(id, f"{id} is given as made and as spoiled; expected one of them. Take it out of one list.")
        for id in sorted(set(made) & set(spoiled))
    ]
    problems += [
        Problem(
            id,
            f"{left} mm of {id} is given as usable; expected 0 to {lengths[id]}. Measure what is left of it.",
        )
        for id, left in spoiled.items()
        if id in lengths and not 0 <= left <= lengths[id]
    ]
    if problems:
        raise InputError(problems)
