"""Asks the general search for a cheaper plan where the way of strips or patterns could not prove its own.

The work is limited by rounds, so the same job gives the same plan, compiled or not. What it gives is only taken where
it is cheaper and keeps every rule of the trade.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from pentice.cutting.free_cuts import HELD_MM, placed
from pentice.cutting.strips import SheetKind
from pentice.cutting.values import SheetPlan, SheetStock

if TYPE_CHECKING:
    from pentice.cutting.packing import Board, Packed, Packing, Rectangle

_WORK = 8_000


def greater_bound(
    kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int, between: tuple[int, int]
) -> int:
    """The bound that holds for every plan: each piece at the least size that its window allows.

    Parameters
    ----------
    kinds, stocks
        What is wanted and what it can be cut from.
    kerf
        Width of a cut [mm].
    between
        Bound and cost of the plan at hand [smallest unit of money].

    Returns
    -------
    int
        The greater of the bounds, never above the cost [smallest unit of money].
    """
    from pentice.cutting.scales import least_cost

    sizes = [(k.piece.least_width_mm + kerf, k.piece.least_length_mm + kerf) for k in kinds]
    rooms = [
        (s.width_mm - 2 * s.edge_trim_mm + kerf, s.length_mm - 2 * s.edge_trim_mm + kerf, s.price, s.count)
        for s in stocks
    ]
    least = least_cost(sizes, [len(k.ids) for k in kinds], rooms)
    return min(between[1], max(between[0], least))


def better_sheets(
    kinds: Sequence[SheetKind],
    stocks: Sequence[SheetStock],
    kerf: int,
    between: tuple[int, int],
    stages: int | None = None,
) -> list[SheetPlan] | None:
    """A plan that costs less than one that is at hand, by cuts in any order.

    Parameters
    ----------
    kinds, stocks
        What is wanted and what it can be cut from.
    kerf
        Width of a cut [mm].
    between
        Bound and cost of the plan at hand [smallest unit of money].
    stages
        How many times the direction of the cuts may change on a sheet; None for no limit.

    Returns
    -------
    list or None
        The sheets, or None where none was found that costs less and keeps every rule.
    """
    from pentice.cutting.packing import Limits, pack

    claims, boards = rectangles_of(kinds, reserve=True), boards_of(stocks)
    for claim in claims:
        if not any(
            claim.width <= b.width - 2 * b.trim and claim.height <= b.height - 2 * b.trim for b in boards
        ):
            return None
    rounds = max(40, _WORK // sum(c.count for c in claims))
    limits = Limits(rounds=rounds, stages=stages, least_rest=kerf + HELD_MM)
    found = pack(claims, boards, kerf=kerf, bound=between[0], limits=limits)
    if found is None or found.cost >= between[1]:
        return None
    return laid_sheets(found, kinds, stocks, kerf, stages)


def boards_of(stocks: Sequence[SheetStock]) -> list[Board]:
    """Stock as the search takes it.

    Parameters
    ----------
    stocks
        What there is to cut from.

    Returns
    -------
    list of Board
        In the same order.
    """
    from pentice.cutting.packing import Board

    return [
        Board(width=s.width_mm, height=s.length_mm, cost=s.price, count=s.count, trim=s.edge_trim_mm)
        for s in stocks
    ]


def rectangles_of(kinds: Sequence[SheetKind], *, reserve: bool) -> list[Rectangle]:
    """Pieces as the search takes them.

    Parameters
    ----------
    kinds
        What is wanted.
    reserve
        Whether with what the stock must have over each of them.

    Returns
    -------
    list of Rectangle
        In the same order.
    """
    from pentice.cutting.packing import Rectangle

    return [
        Rectangle(
            width=k.piece.width_mm + reserve * k.piece.reserve_mm[0],
            height=k.piece.length_mm + reserve * k.piece.reserve_mm[1],
            count=len(k.ids),
        )
        for k in kinds
    ]


def laid_sheets(
    found: Packing,
    kinds: Sequence[SheetKind],
    stocks: Sequence[SheetStock],
    kerf: int,
    stages: int | None,
) -> list[SheetPlan] | None:
    """Packed boards as sheets at real sizes.

    Parameters
    ----------
    found
        The boards with their claims, as `boards_of` and `rectangles_of` number them.
    kinds, stocks, kerf, stages
        As for `free_cuts.placed`.

    Returns
    -------
    list or None
        None where one would break a rule of the trade.
    """
    waiting = [list(k.ids) for k in kinds]
    plans = []
    for packed in found.boards:
        names = [waiting[place.kind].pop(0) for place in packed.places]
        plan = _laid_sheet(packed, kinds, names, stocks[packed.board], kerf, stages)
        if plan is None:
            return None
        plans.append(plan)
    return plans


def _laid_sheet(
    packed: Packed,
    kinds: Sequence[SheetKind],
    names: Sequence[str],
    stock: SheetStock,
    kerf: int,
    stages: int | None,
) -> SheetPlan | None:
    cut = placed(packed.places, kinds, names, stock, kerf, stages)
    if cut is None:
        return None
    return SheetPlan(
        stock=stock.id,
        item=stock.item,
        width_mm=stock.width_mm,
        length_mm=stock.length_mm,
        price=stock.price,
        kerf_mm=kerf,
        placements=cut[0],
        cuts=cut[1],
    )
