"""The best plan for the time or the work allowed, with its bound: search and bounds in turn, the cheap ones first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from pentice.cutting.columns import Room, relaxed
from pentice.cutting.diving import Chosen, dived
from pentice.cutting.keep import Cheapest, Keep
from pentice.cutting.packing import Board, Limits, Packed, Packing, Place, Progress, Rectangle, Search
from pentice.cutting.scales import exact_cost, least_cost
from pentice.cutting.slices import least_sheets

_FIRST = 2_000
_SECOND = 100_000


def best_sheets(
    pieces: Sequence[Rectangle],
    boards: Sequence[Board],
    *,
    kerf: int,
    limits: Limits,
    keep: Keep | None = None,
) -> Packing | None:
    """Rectangles cut from boards by straight cuts without limit on stages, at least cost.

    Parameters
    ----------
    pieces, boards, kerf, limits
        As in `packing.pack`.
    keep
        What is left over and worth keeping; then cost and bound are net of it, while the search goes by price.

    Returns
    -------
    Packing or None
        With a valid bound; None where the boards were too few.

    Examples
    --------
    >>> plan = best_sheets([Rectangle(width=6, height=6, count=3)], [Board(width=10, height=10, cost=4)], kerf=0,
    ...     limits=Limits(rounds=10))
    >>> plan.cost, plan.bound, plan.proven
    (12, 12, True)
    """
    sizes, counts = [(p.width + kerf, p.height + kerf) for p in pieces], [p.count for p in pieces]
    stocks = [
        (b.width - 2 * b.trim + kerf, b.height - 2 * b.trim + kerf, b.cost, b.count)
        for b in boards
        if min(b.width, b.height) > 2 * b.trim
    ]
    bound = least_cost(sizes, counts, stocks)
    begun = Search.begun(pieces, boards, kerf, limits.seed)
    if begun is None:
        return None
    cheapest = Cheapest(begun, boards, keep) if keep is not None else None
    limits = replace(limits, progress=_told(cheapest, limits.progress))
    done = begun.advance(bound, replace(limits, rounds=_less(limits.rounds, _SECOND)))
    if begun.cost > bound and len(boards) == 1 and boards[0].count is None and boards[0].cost > 0:
        enough = begun.cost // boards[0].cost
        bound = max(
            bound,
            boards[0].cost * least_sheets(sizes, counts, stocks[0][:2], enough=enough, stop=limits.stop),
        )
    left = None if limits.rounds is None else max(0, limits.rounds - done)
    begun.advance(bound, replace(limits, rounds=left))
    if cheapest is None or keep is None:
        return begun.packing(bound)
    return cheapest.net(least_cost(sizes, counts, stocks, kept=keep.share))


def _told(cheapest: Cheapest | None, progress: Progress | None) -> Progress | None:
    """Each better plan is looked at for its net cost as well."""
    if cheapest is None:
        return progress
    held = cheapest

    def tell(cost: int, bound: int) -> None:
        held.look()
        if progress is not None:
            progress(cost, bound)

    return tell


def _less(rounds: int | None, most: int) -> int:
    return most if rounds is None else min(rounds, most)


def best_lengths(
    lengths: Sequence[tuple[int, int]],
    rooms: Sequence[Room],
    *,
    kerf: int,
    limits: Limits,
    keep: Keep | None = None,
) -> Packing | None:
    """Lengths cut from lengths at least cost; boards of height 1, places along x.

    Parameters
    ----------
    lengths
        Length and count of each kind.
    rooms
        What they can be cut from: the usable length, trims taken off.
    kerf, limits
        As in `packing.pack`.
    keep
        As in `best_sheets`; heights are 1.

    Returns
    -------
    Packing or None
        With a valid bound; None where the stock was too short or too few.

    Examples
    --------
    >>> best_lengths([(300, 3)], [Room(length=700, cost=5)], kerf=3, limits=Limits(rounds=10)).cost
    10
    """
    pieces = [Rectangle(width=n, height=1, count=c) for n, c in lengths]
    boards = [Board(width=r.length, height=1, cost=r.cost, count=r.count, paid_area=r.paid) for r in rooms]
    wide, counts = [n + kerf for n, _ in lengths], [c for _, c in lengths]
    grown = [Room(length=r.length + kerf, cost=r.cost, count=r.count) for r in rooms]
    bound = least_cost([(n, 1) for n in wide], counts, [(r.length, 1, r.cost, r.count) for r in grown])
    begun = Search.begun(pieces, boards, kerf, limits.seed)
    if begun is None:
        return None
    cheapest = Cheapest(begun, boards, keep) if keep is not None else None
    limits = replace(limits, progress=_told(cheapest, limits.progress))
    done = begun.advance(bound, replace(limits, rounds=_less(limits.rounds, _FIRST)))
    other: Packing | None = None
    exact = Fraction(bound)
    if begun.cost > bound and not limits.stopped:
        found = relaxed(wide, counts, grown, stop=limits.stop)
        if found is not None:
            exact = max(exact, found.bound)
            bound = _rounded(exact, rooms)
            if begun.cost > bound:
                other = _from(dived(wide, counts, grown, found, limits.stop), lengths, rooms, kerf)
    if other is None or other.cost > bound:
        left = None if limits.rounds is None else max(0, limits.rounds - done)
        begun.advance(bound, replace(limits, rounds=left))
    if cheapest is not None and keep is not None:
        if other is not None:
            cheapest.take(other)
        return cheapest.net(_net_bound(wide, counts, grown, exact, keep))
    if other is not None and other.cost < begun.cost:
        return Packing(boards=other.boards, cost=other.cost, bound=min(bound, other.cost))
    return begun.packing(bound)


def _net_bound(
    wide: Sequence[int], counts: Sequence[int], rooms: Sequence[Room], gross: Fraction, keep: Keep
) -> int:
    """What is left over is worth at most its share of the bare length, so that share of the bound is by length."""
    plain = exact_cost(
        [(n, 1) for n in wide], counts, [(r.length, 1, r.cost, r.count) for r in rooms], kept=1
    )
    return math.ceil((1 - keep.share) * gross + keep.share * plain)


def _rounded(bound: Fraction, rooms: Sequence[Room]) -> int:
    """Up to the next cost that can occur; the bound is exact, so nothing is taken off."""
    step = math.gcd(*(r.cost for r in rooms)) or 1
    return max(0, math.ceil(bound / step) * step)


def _from(
    chosen: Sequence[Chosen] | None, lengths: Sequence[tuple[int, int]], rooms: Sequence[Room], kerf: int
) -> Packing | None:
    """Patterns laid out one piece after another; what is too many of a kind is left out."""
    if chosen is None:
        return None
    boards = []
    for room, taken in chosen:
        at, places = 0, []
        for kind, n in enumerate(taken):
            for _ in range(n):
                places.append(Place(kind=kind, x=at, y=0, width=lengths[kind][0], height=1))
                at += lengths[kind][0] + kerf
        rest = rooms[room].length - at
        free = (Place(kind=-1, x=at, y=0, width=rest, height=1),) if rest > 0 else ()
        boards.append(Packed(board=room, places=tuple(places), free=free))
    return Packing(boards=tuple(boards), cost=sum(rooms[b.board].cost for b in boards), bound=0)
