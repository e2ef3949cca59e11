"""Asks the general search for a cheaper plan where the way of strips or patterns could not prove its own.

The work is limited by rounds, so the same job gives the same plan, compiled or not. What it gives is only taken where
it is cheaper and keeps every rule of the trade.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pentice.cutting.free_cuts import HELD_MM, placed
from pentice.cutting.strips import SheetKind
from pentice.cutting.values import SheetPlan, SheetStock
from pentice.told import SearchedFor, asked_to_stop, tell

if TYPE_CHECKING:
    from pentice.cutting.keep import Keep
    from pentice.cutting.packing import Board, Packed, Packing, Rectangle
    from pentice.cutting.planted import Lies

ByStrips = Callable[[Sequence[str], Sequence[SheetStock]], Sequence[SheetPlan] | None]
_WORK, _ROUNDS, _LOOKS = 8_000, 1_500, 6
"""Rounds of the search as usual: so many for all pieces together, or so many, whichever is more; how often it is looked
at in these."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """How sheets may be cut and what counts.

    Attributes
    ----------
    stages
        How many times the direction of the cuts may change on a sheet; None for no limit.
    keep
        The rule for rests, of which costs are net; None where nothing that is left counts.
    by_strips
        Cuts pieces, told by their names, from what is left of the stock, or gives None: for those on sheets that break
        a rule of the trade. None where such a plan is refused as a whole.
    effort
        Times the usual work [-].
    """

    stages: int | None = None
    keep: Keep | None = None
    by_strips: ByStrips | None = None
    effort: int = 1


def better_sheets(
    plans: Sequence[SheetPlan],
    kinds: Sequence[SheetKind],
    stocks: Sequence[SheetStock],
    kerf: int,
    bound: int,
    terms: Terms,
) -> list[SheetPlan] | None:
    """A plan that costs less, by cuts in any order: the search goes on from the plan at hand.

    Parameters
    ----------
    plans
        The plan at hand.
    kinds, stocks
        What is wanted and what it can be cut from.
    kerf
        Width of a cut [mm].
    bound
        What no plan costs less than [smallest unit of money].
    terms
        How it may be cut, what counts, and what becomes of sheets that break a rule of the trade.

    Returns
    -------
    list or None
        The sheets, or None where the search found none that keeps every rule of the trade.
    """
    from pentice.cutting.keep import rates_of
    from pentice.cutting.packing import Limits, Search

    claims, boards = rectangles_of(kinds, reserve=True), boards_of(stocks)
    for claim in claims:
        if not any(
            claim.width <= b.width - 2 * b.trim and claim.height <= b.height - 2 * b.trim for b in boards
        ):
            return None
    rounds = max(_ROUNDS, _WORK // sum(c.count for c in claims))
    limits = Limits(rounds=rounds // _LOOKS, stages=terms.stages, least_rest=kerf + HELD_MM)
    search = Search.begun(claims, boards, kerf, limits, rates_of(boards, terms.keep))
    if search is None:
        return None
    best, cost, whole = None, -1, True
    # Whether the plan at hand keeps a limit of stages is not known here.
    if terms.stages is None and search.plant(_as_it_lies(plans, kinds, stocks, kerf)):
        cost = search.net
    looks = _LOOKS * terms.effort
    for look in range(looks):  # a better plan may break a rule of the trade where the one before it does not
        search.advance(bound, limits)
        tell(SearchedFor(kinds[0].piece.item, cost=search.net, bound=bound, share=(look + 1) / looks))
        if search.net != cost:
            laid = laid_sheets(search.packing(bound), kinds, stocks, kerf, terms.stages)
            best, cost, whole = laid or best, search.net, laid is not None
        if search.net <= bound or asked_to_stop():
            break
    mended = None if whole else _mended(search.packing(bound), kinds, stocks, kerf, terms)
    if best is None or mended is None:
        return best or mended
    return min(best, mended, key=lambda some: sum(plan.price for plan in some))


def _mended(
    found: Packing, kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int, terms: Terms
) -> list[SheetPlan] | None:
    """The sheets that keep every rule, and the pieces of the others by strips."""
    if terms.by_strips is None:
        return None
    plans, again = _laid(found, kinds, stocks, kerf, terms.stages)
    used = Counter(plan.stock for plan in plans)
    left = [s if s.count is None else replace(s, count=s.count - used[s.id]) for s in stocks]
    more = terms.by_strips(again, [s for s in left if s.count is None or s.count > 0])
    return None if more is None else [*plans, *more]


def _as_it_lies(
    plans: Sequence[SheetPlan], kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int
) -> list[tuple[int, list[Lies]]]:
    """A plan as the search takes it: number of each stock, place, size and claim of each piece, the kerf added."""
    from pentice.cutting.planted import Lies

    ids = [(id, kind.piece) for kind in kinds for id in kind.ids]
    number = {id: n for n, (id, _) in enumerate(ids)}
    place = {stock.id: s for s, stock in enumerate(stocks)}
    sheets = []
    for plan in plans:
        lies = []
        for p in plan.placements:
            piece = ids[number[p.piece]][1]
            lies.append(
                Lies(
                    piece=number[p.piece],
                    at=(p.x_mm, p.y_mm),
                    size=(p.width_mm + kerf, p.length_mm + kerf),
                    claim=(
                        _claim(p.width_mm, piece.width_mm, piece.reserve_mm[0]) + kerf,
                        _claim(p.length_mm, piece.length_mm, piece.reserve_mm[1]) + kerf,
                    ),
                )
            )
        sheets.append((place[plan.stock], lies))
    return sheets


def _claim(lies: int, wanted: int, reserve: int) -> int:
    """What a piece claims along one side: its size and reserve, or that of the stock where it lies uncut."""
    return lies if lies != wanted else wanted + reserve


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
    plans, refused = _laid(found, kinds, stocks, kerf, stages)
    return None if refused else plans


def _laid(
    found: Packing,
    kinds: Sequence[SheetKind],
    stocks: Sequence[SheetStock],
    kerf: int,
    stages: int | None,
) -> tuple[list[SheetPlan], list[str]]:
    """The sheets that keep every rule of the trade, and the names of the pieces on those that do not."""
    waiting = [list(k.ids) for k in kinds]
    plans: list[SheetPlan] = []
    refused: list[str] = []
    for packed in found.boards:
        names = [waiting[place.kind].pop(0) for place in packed.places]
        plan = _laid_sheet(packed, kinds, names, stocks[packed.board], kerf, stages)
        if plan is None:
            refused += names
        else:
            plans.append(plan)
    return plans, refused


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
