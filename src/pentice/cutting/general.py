"""Asks the general search for a cheaper plan where the way of strips or patterns could not prove its own.

The work is limited by rounds, so the same job gives the same plan, compiled or not. What it gives is only taken where
it is cheaper and keeps every rule of the trade.
"""

from __future__ import annotations

from collections.abc import Sequence

from pentice.cutting.free_cuts import placed
from pentice.cutting.strips import SheetKind, claim_width
from pentice.cutting.values import SheetPlan, SheetStock

_WORK = 8_000


def better_sheets(
    kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int, cost: int, bound: int
) -> tuple[list[SheetPlan] | None, int]:
    """A plan that costs less than one that is at hand, by cuts in any order.

    Parameters
    ----------
    kinds, stocks
        What is wanted and what it can be cut from.
    kerf
        Width of a cut [mm].
    cost, bound
        Of the plan at hand [smallest unit of money].

    Returns
    -------
    tuple
        The sheets, or None where none was found, and the greater of the bounds.
    """
    from pentice.cutting.packing import Board, Limits, Rectangle, pack

    bound = max(bound, _bound(kinds, stocks, kerf))
    if bound >= cost:
        return None, min(bound, cost)
    claims = [
        Rectangle(
            width=claim_width(k.piece), height=k.piece.length_mm + k.piece.reserve_mm[1], count=len(k.ids)
        )
        for k in kinds
    ]
    boards = [
        Board(width=s.width_mm, height=s.length_mm, cost=s.price, count=s.count, trim=s.edge_trim_mm)
        for s in stocks
    ]
    number = sum(c.count for c in claims)
    fits = [
        any(c.width <= b.width - 2 * b.trim and c.height <= b.height - 2 * b.trim for b in boards)
        for c in claims
    ]
    if not all(fits):
        return None, bound
    found = pack(claims, boards, kerf=kerf, bound=bound, limits=Limits(rounds=max(40, _WORK // number)))
    if found is None or found.cost >= cost:
        return None, bound
    waiting = [list(k.ids) for k in kinds]
    plans = []
    for packed in found.boards:
        stock = stocks[packed.board]
        names = [waiting[place.kind].pop(0) for place in packed.places]
        cut = placed(packed.places, kinds, names, stock, kerf)
        if cut is None:
            return None, bound
        plans.append(
            SheetPlan(
                stock=stock.id,
                item=stock.item,
                width_mm=stock.width_mm,
                length_mm=stock.length_mm,
                price=stock.price,
                placements=cut[0],
                cuts=cut[1],
            )
        )
    return plans, bound


def _bound(kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int) -> int:
    """Every piece at the least size that its window allows: no plan of any kind goes below."""
    from pentice.cutting.scales import least_cost

    sizes = [(k.piece.least_width_mm + kerf, k.piece.least_length_mm + kerf) for k in kinds]
    rooms = [
        (s.width_mm - 2 * s.edge_trim_mm + kerf, s.length_mm - 2 * s.edge_trim_mm + kerf, s.price, s.count)
        for s in stocks
    ]
    return least_cost(sizes, [len(k.ids) for k in kinds], rooms)
