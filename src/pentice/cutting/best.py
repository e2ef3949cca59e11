"""The best plan for the time or the work allowed, with its bound: search and bounds in turn, the cheap ones first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pentice.cutting.compiled import COMPILED
from pentice.cutting.keep import Cheapest, Keep
from pentice.cutting.packing import Board, Limits, Packing, Progress, Rectangle, Search
from pentice.cutting.scales import least_cost
from pentice.cutting.sheet_choice import chosen, joined, whole_part
from pentice.cutting.sheet_columns import WORK, Priced, priced
from pentice.cutting.slices import least_sheets

_SECOND = 100_000
_THIRD = 2_000
_ALIKE = 4
_WORKS = (10_000_000, 100_000_000)
"""What a pass over the tables may take, first and then; a coarse bound stands soon, a finer one follows."""


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
    begun = Search.begun(pieces, boards, kerf, limits)
    if begun is None:
        return None
    if _by_patterns(pieces, keep):
        best = Cheapest(begun, boards, keep)
        limits = replace(
            limits, progress=_told(best, limits.progress) if keep is not None else limits.progress
        )
        net = least_cost(sizes, counts, stocks, kept=keep.share) if keep is not None else bound
        return _patterned(_Asked(pieces, boards, kerf, keep, limits), begun, best, (bound, net))
    done = begun.advance(bound, replace(limits, rounds=_less(limits.rounds, _SECOND)))
    if begun.cost > bound and len(boards) == 1 and boards[0].count is None and boards[0].cost > 0:
        enough = begun.cost // boards[0].cost
        bound = max(
            bound,
            boards[0].cost * least_sheets(sizes, counts, stocks[0][:2], enough=enough, stop=limits.stop),
        )
    left = None if limits.rounds is None else max(0, limits.rounds - done)
    begun.advance(bound, replace(limits, rounds=left))
    return begun.packing(bound)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What `best_sheets` was asked for."""

    pieces: Sequence[Rectangle]
    boards: Sequence[Board]
    kerf: int
    keep: Keep | None
    limits: Limits


def _by_patterns(pieces: Sequence[Rectangle], keep: Keep | None) -> bool:
    """Whether the relaxation over patterns is worth its time: many pieces alike, or rests that are worth something.

    Where hardly two pieces are alike the search does more with the same time (measured).
    """
    wanted = [p.count for p in pieces if p.count]
    return bool(wanted) and (keep is not None or sum(wanted) >= _ALIKE * len(wanted))


def _patterned(asked: _Asked, begun: Search, best: Cheapest, bounds: tuple[int, int]) -> Packing:
    """Search, relaxation over patterns, a choice of them, and a search for what the whole part of it leaves."""
    limits, boards, pieces = asked.limits, asked.boards, asked.pieces
    bound, net = bounds
    done = begun.advance(bound, replace(limits, rounds=_less(limits.rounds, _THIRD)))
    best.look()
    known = begun.packing(0).boards
    for work in _WORKS if limits.rounds is None and COMPILED else (WORK,):
        if best.cost <= net or limits.stopped:
            break
        found = priced(
            pieces, boards, kerf=asked.kerf, keep=asked.keep, known=known, work=work, stop=limits.stop
        )
        if found is None:
            continue
        step = 1 if asked.keep is not None else math.gcd(*(b.cost for b in boards)) or 1
        net = max(net, math.ceil(found.bound / step) * step)
        bound = max(bound, net)
        if limits.stages is None:
            done += _from_patterns(asked, found, best, net, done)
        if found.finest:
            break
        known = (*known, *(c.packed for c in found.columns if c.packed is not None))
    left = None if limits.rounds is None else max(0, limits.rounds - done)
    if best.cost > net:
        begun.advance(bound, replace(limits, rounds=left))
        best.look()
    return best.net(net)


def _from_patterns(asked: _Asked, found: Priced, best: Cheapest, net: int, done: int) -> int:
    """Plans made of the patterns are looked at; the rounds that this took."""
    limits, boards, pieces = asked.limits, asked.boards, asked.pieces
    stand, left, had = whole_part(found, pieces, boards)
    kinds = [k for k, n in enumerate(left) if n]
    if 2 * sum(left) > sum(p.count for p in pieces) or asked.keep is not None:
        sheets = chosen(found, pieces, boards)
        if sheets is not None:
            best.take(Packing(boards=tuple(sheets), cost=sum(boards[b.board].cost for b in sheets), bound=0))
    if not stand or best.cost <= net:
        return 0
    if not kinds:
        best.take(joined(stand, Packing(boards=(), cost=0, bound=0), kinds, boards))
        return 0
    rest = Search.begun([replace(pieces[k], count=left[k]) for k in kinds], had, asked.kerf, limits)
    if rest is None:
        return 0
    begins = sum(boards[b.board].cost for b in stand)

    def look(_cost: int, _bound: int) -> None:
        if asked.keep is not None or limits.progress is not None:
            best.take(joined(stand, rest.packing(0), kinds, boards))
        if limits.progress is not None:
            limits.progress(best.cost, net)

    rounds = None if limits.rounds is None else max(0, limits.rounds - done) // 2
    made = rest.advance(max(0, net - begins), replace(limits, rounds=rounds, progress=look))
    best.take(joined(stand, rest.packing(0), kinds, boards))
    return made


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
