"""Lengths whose two ends lean alike, as the plumb cuts of rafters: neighbours share a cut.

Seen along the leaning cuts such a length is like one with square ends: pieces come one after another along the upper
edge, each cut takes kerf / cos(angle), and only what the first and the last cut leave over as two triangles, together
one lean, is lost once for each length of stock. So plans, bounds, rests and aims are those of square ends, on stock
that is one lean shorter. Pieces of one item that lean differently, square ones among them, lie on a length in the order
of their leans: then no more is lost than the greatest of them. Other ends (mitres of a frame) are cut by `mitred`.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace

from pentice.cutting.shop import Counted, Shop, rest_mm, rest_worth
from pentice.cutting.values import LengthPiece, LengthPlacement, LengthPlan, LengthStock, Slant
from pentice.errors import NoSolution

CutSquare = Callable[
    [Sequence[LengthPiece], Sequence[LengthStock], int, Shop], tuple[list[LengthPlan], Counted]
]


def lost_mm(stock: LengthStock, slants: Collection[Slant | None]) -> int:
    """What leaning ends take of a length at most.

    Parameters
    ----------
    stock
        The length; its left end may lean already.
    slants
        Of the pieces that may lie on it, None for square ones; at least one.

    Returns
    -------
    int
        [mm].

    Examples
    --------
    >>> bar = LengthStock(id="4.8 m", item="r", length_mm=4800, price=9, count=None, offcut=False)
    >>> lost_mm(bar, [Slant(deg=12.0, depth_mm=145)]), lost_mm(bar, [None])
    (31, 0)
    """
    leans = [slant.lean_mm if slant is not None else 0 for slant in slants]
    own = stock.slant.lean_mm if stock.slant is not None else 0
    return max(0, own - min(leans)) + max(leans)


def cut_slanted(
    pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock], kerf: int, shop: Shop, cut: CutSquare
) -> tuple[list[LengthPlan], Counted]:
    """Cuts one item whose pieces, some or all, have ends that lean alike.

    Parameters
    ----------
    pieces, stocks
        Of one item.
    kerf
        Width of a cut, square to the cut [mm].
    shop
        What to aim at, and which rests are kept.
    cut
        How lengths with square ends are cut.

    Returns
    -------
    tuple
        Plans at their real prices, and what they come to. Where pieces lean differently the bound is that of the same
        lengths with square ends.

    Raises
    ------
    NoSolution
        Stock is too little.
    """
    groups = {
        slant: [p for p in pieces if p.slant == slant] for slant in dict.fromkeys(p.slant for p in pieces)
    }
    known, slants = {s.id: s for s in stocks}, {p.id: p.slant for p in pieces}
    ways: list[tuple[list[LengthPlan], list[Counted]]] = []
    fault: NoSolution | None = None
    for shares in _ways(groups):
        try:
            plans, counts = _in_turn(shares, stocks, kerf, shop, cut)
        except NoSolution as none:  # another way may do with stock that is limited
            fault = none
        else:
            ways.append(([_laid(plan, known[plan.stock], slants, kerf) for plan in plans], counts))
    if fault is not None and not ways:
        raise fault

    def by_aim(plans: Sequence[LengthPlan]) -> tuple[int, int]:
        return _bought(plans, shop), sum(p.price for p in plans) - _credit(plans, known, shop)

    plans, counts = min(ways, key=lambda way: (by_aim(way[0]), len(way[0])))
    if len(groups) == 1 and all(s.slant is None or s.slant in groups for s in stocks):
        return plans, counts[0]
    square, least = cut(pieces, [replace(s, lost_mm=0) for s in stocks], kerf, shop)
    bought, net = by_aim(plans)
    bound = min(least.bound, net)
    # No real plan needs less than one of the same lengths with square ends.
    as_good = least.proven and (bought, net) == (_bought(square, shop), least.cost - least.credit)
    proven = as_good or (bound == net and shop.aim == "least cost")
    cost = sum(plan.price for plan in plans)
    return plans, Counted(cost=cost, credit=cost - net, bound=bound, proven=proven)


_Shares = list[list[LengthPiece]]


def _ways(groups: dict[Slant | None, list[LengthPiece]]) -> Iterator[_Shares]:
    """Which pieces come from stock together: each lean by itself, all of them, or square ones with one lean."""
    yield list(groups.values())
    if len(groups) > 1:
        yield [[p for some in groups.values() for p in some]]
    square = groups.get(None, [])
    leans = [some for slant, some in groups.items() if slant is not None]
    for host in leans if square and len(leans) > 1 else []:
        yield [[*some, *(square if some is host else [])] for some in leans]


def _in_turn(
    shares: _Shares, stocks: Sequence[LengthStock], kerf: int, shop: Shop, cut: CutSquare
) -> tuple[list[LengthPlan], list[Counted]]:
    """Plans as with square ends on stock that is shorter by what leaning ends take, share by share."""
    plans: list[LengthPlan] = []
    counts: list[Counted] = []
    for some in shares:
        slants = {p.slant for p in some}
        used = [plan.stock for plan in plans]
        left = [s for s in stocks if s.count is None or s.count > used.count(s.id)]
        held = [
            replace(
                s,
                lost_mm=lost_mm(s, slants),
                count=None if s.count is None else s.count - used.count(s.id),
            )
            for s in left
        ]
        along = max(slant.kerf_mm(kerf) if slant is not None else kerf for slant in slants)
        found, count = cut(some, [s for s in held if s.room_mm > 0], along, shop)
        plans += found
        counts.append(count)
    return plans, counts


def _bought(plans: Sequence[LengthPlan], shop: Shop) -> int:
    """How many are bought, where that is the aim."""
    return sum(1 for plan in plans if plan.price) if shop.aim == "fewest sheets" else 0


def _credit(plans: Sequence[LengthPlan], known: dict[str, LengthStock], shop: Shop) -> int:
    """Worth of the rests that are kept, less that of the offcuts that are used."""
    credit = 0
    for plan in plans:
        stock = known[plan.stock]
        credit -= stock.worth if stock.offcut else 0
        if shop.length_rests is not None:
            price = stock.worth if stock.offcut else stock.price
            credit += rest_worth(price, shop.keep_share, rest_mm(plan, stock, shop), stock.length_mm)
    return credit


def _laid(plan: LengthPlan, stock: LengthStock, slants: dict[str, Slant | None], kerf: int) -> LengthPlan:
    """A length as it is really cut from its left end on, the pieces in the order of their leans."""
    placed: list[LengthPlacement] = []
    leans = {p.piece: slant.lean_mm if (slant := slants[p.piece]) is not None else 0 for p in plan.pieces}
    own = stock.slant.lean_mm if stock.slant is not None else 0
    for p in sorted(plan.pieces, key=lambda p: leans[p.piece]):
        made = LengthPlacement(piece=p.piece, at_mm=0, length_mm=p.length_mm, slant=slants[p.piece])
        if placed:
            before = placed[-1]
            gap = max(before.kerf_mm(kerf), made.kerf_mm(kerf))
            at = before.at_mm + before.length_mm + gap
        else:
            at = stock.trim_mm + max(0, own - made.lean_mm)
        placed.append(replace(made, at_mm=at))
    return replace(plan, kerf_mm=kerf, pieces=tuple(placed))
