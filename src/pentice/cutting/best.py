"""The best plan for the time or the work allowed, with its bound: search and bounds in turn, the cheap ones first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pentice.cutting.keep import Cheapest, Keep
from pentice.cutting.packing import Board, Limits, Packing, Progress, Rectangle, Search
from pentice.cutting.scales import least_cost
from pentice.cutting.slices import least_sheets

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
