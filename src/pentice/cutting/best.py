"""The best plan for the time or the work allowed, with its bound: search and bounds in turn, the cheap ones first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pentice.cutting.coarse_sheets import NEAR, CoarseSheets
from pentice.cutting.compiled import COMPILED
from pentice.cutting.full_first import FullFirst, full_first
from pentice.cutting.keep import Cheapest, Keep, rates_of
from pentice.cutting.packing import Board, Limits, Packed, Packing, Rectangle, Search, Stop
from pentice.cutting.planted import Lies
from pentice.cutting.scales import least_cost
from pentice.cutting.shared_out import SharedOut, small_enough
from pentice.cutting.sheet_choice import chosen, joined, whole_part
from pentice.cutting.sheet_columns import WORK, Effort, Priced, priced
from pentice.cutting.slices import least_sheets

_SECOND, _SOONER, _FULL = 100_000, 20_000, 200_000
"""Rounds of the search before other ways are tried; fewer where pieces come in numbers, where full sheets first then
have so many, by turns."""
_THIRD = 2_000
_MANY_ROUNDS, _LEAST = 200_000, 100
"""With more than a hundred pieces a round takes longer: fewer are made before patterns are priced, unless the plan of
the search is all that there may be in time."""
_BETWEEN, _BESIDE = 10_000, 1_000
"""Rounds of the search after patterns, and between two passes of the coarse tables."""
_FEW, _SOME = 300, 1_500
"""Patterns that the solver chooses among at once, or in a tenth of a second: a moment more that rests are worth."""
_ALIKE = 4
_SHARED = 30_000
"""Parts that are looked into before patterns are priced: most small jobs are solved within."""
_SOON = 0.015
"""How near the coarsest tables come to their end before there is a plan that is worth the name."""
_EFFORTS = (300_000_000, 3_000_000_000, 1 << 60)
"""What finer tables may take before patterns are priced, first and then, and at last."""
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
    pieces, boards
        What is wanted and what it can be cut from; whole numbers of one unit.
    kerf
        Width of a cut.
    limits
        How long to search.
    keep
        What is left over and worth keeping; then cost and bound are net of it.

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
    bound = least_cost(sizes, counts, stocks, kept=keep.share if keep is not None else 0)
    begun = Search.begun(pieces, boards, kerf, limits, rates_of(boards, keep))
    if begun is None:
        return None
    if _by_patterns(pieces, keep):
        best = Cheapest(begun, boards, keep)
        return _patterned(_Asked(pieces, boards, kerf, keep, limits), begun, best, bound)
    full = None if limits.stages else full_first(pieces, boards, kerf=kerf, seed=limits.seed)
    first = _SECOND if full is None else _SOONER
    done = begun.advance(bound, replace(limits, rounds=_less(limits.rounds, first)))
    if begun.cost > bound and limits.stages is None and small_enough(pieces):
        way = SharedOut(pieces, boards, kerf=kerf, keep=None)
        way.advance(limits.rounds, limits.stop)
        found = way.packing()
        bound = max(bound, min(way.bound, begun.cost))
        if found is not None and (way.ended or found.cost < begun.cost):
            return replace(found, bound=bound)
    if begun.cost > bound and len(boards) == 1 and boards[0].count is None and boards[0].cost > 0:
        enough = begun.cost // boards[0].cost
        bound = max(
            bound,
            boards[0].cost * least_sheets(sizes, counts, stocks[0][:2], enough=enough, stop=limits.stop),
        )
    asked = _Asked(pieces, boards, kerf, keep, limits)
    if full is not None:
        done = _in_turn(asked, full, begun, bound, done)
    begun.advance(bound, asked.limits_after(done))
    return begun.packing(bound)


def _in_turn(asked: _Asked, full: FullFirst, begun: Search, bound: int, done: int) -> int:
    """Full sheets first and the search, by turns, each from the best plan there is; the rounds made in the end."""
    first_of = [sum(p.count for p in asked.pieces[:k]) for k in range(len(asked.pieces))]
    while begun.cost > bound and not asked.limits.stopped:
        now = asked.limits_after(done)
        if now.rounds == 0:
            break
        found, made = full.advance(
            begun.cost // asked.boards[0].cost - 1, replace(now, rounds=_less(now.rounds, _FULL))
        )
        done += made
        if found is not None:
            begun.plant(_as_it_lies(found, first_of, asked.kerf))
            if asked.limits.progress is not None:
                asked.limits.progress(begun.net, bound)
        now = asked.limits_after(done)
        done += begun.advance(bound, replace(now, rounds=_less(now.rounds, _SECOND)))
    return done


def _as_it_lies(found: Packing, first_of: Sequence[int], kerf: int) -> list[tuple[int, list[Lies]]]:
    """A plan as the search takes it; pieces of a kind follow each other from a number on."""
    numbers = list(first_of)
    sheets = []
    for sheet in found.boards:
        lies = []
        for p in sheet.places:
            size = (p.width + kerf, p.height + kerf)
            lies.append(Lies(piece=numbers[p.kind], at=(p.x, p.y), size=size, claim=size))
            numbers[p.kind] += 1
        sheets.append((sheet.board, lies))
    return sheets


@dataclass(frozen=True, slots=True)
class _Asked:
    """What `best_sheets` was asked for."""

    pieces: Sequence[Rectangle]
    boards: Sequence[Board]
    kerf: int
    keep: Keep | None
    limits: Limits

    def limits_after(self, done: int) -> Limits:
        """What is left of them after so many rounds."""
        if self.limits.rounds is None:
            return self.limits
        return replace(self.limits, rounds=max(0, self.limits.rounds - done))


def _by_patterns(pieces: Sequence[Rectangle], keep: Keep | None) -> bool:
    """Whether the relaxation over patterns is worth its time: many pieces alike, or rests that are worth something.

    Where hardly two pieces are alike the search does more with the same time (measured).
    """
    wanted = [p.count for p in pieces if p.count]
    return bool(wanted) and (keep is not None or sum(wanted) >= _ALIKE * len(wanted))


def _patterned(asked: _Asked, begun: Search, best: Cheapest, net: int) -> Packing:
    """Search, relaxation over patterns, a choice of them, and a search for what the whole part of it leaves."""
    limits, pieces = asked.limits, asked.pieces
    first = _THIRD
    if asked.keep is None:
        first = max(_LEAST, min(_THIRD, _MANY_ROUNDS // sum(p.count for p in pieces)))
    done = begun.advance(net, replace(limits, rounds=_less(limits.rounds, first)))
    best.look()
    meanwhile = _Meanwhile(begun, limits, net)
    coarse = _Coarse(asked, meanwhile)
    net = coarse.advance(best, net, within=_SOON)
    best.look()
    shared = _Shared(asked) if asked.keep is not None and limits.stages is None else None
    if shared is not None:
        net = shared.advance(best, net, _SHARED)
    net, done = _by_tables(asked, begun.packing(0).boards, best, net, done, coarse)
    if shared is not None and best.cost > net:
        net = shared.advance(best, net, limits.rounds)
    if coarse.stands and best.cost > net:
        net = coarse.advance(best, net, _EFFORTS[2])
    if best.cost > net:
        begun.advance(net, asked.limits_after(done))
    best.look()
    return best.net(net)


class _Meanwhile:
    """A stop that lets the search go on a little each time that it is asked."""

    def __init__(self, begun: Search, limits: Limits, bound: int) -> None:
        self._begun, self._limits, self._bound = begun, replace(limits, rounds=_BESIDE), bound

    def __call__(self) -> bool:
        self._begun.advance(self._bound, self._limits)
        return self._limits.stopped


def _by_tables(
    asked: _Asked, known: tuple[Packed, ...], best: Cheapest, net: int, done: int, coarse: _Coarse
) -> tuple[int, int]:
    """Patterns priced with ever finer tables, and plans made of them; the bound, and the rounds made so far."""
    limits, boards = asked.limits, asked.boards
    patterns: Priced | None = None
    works = _WORKS if limits.rounds is None and COMPILED else (WORK,)
    for n, work in enumerate(works):
        if not small_enough(asked.pieces):
            net = coarse.advance(best, net, _EFFORTS[n])
        if best.cost <= net or limits.stopped:
            break
        found = priced(
            asked.pieces,
            boards,
            kerf=asked.kerf,
            keep=asked.keep,
            known=known,
            effort=Effort(work=work, rounded=not coarse.stands),
            stop=limits.stop,
        )
        if found is None:
            continue
        step = 1 if asked.keep is not None else math.gcd(*(b.cost for b in boards)) or 1
        net = max(net, math.ceil(found.bound / step) * step)
        if patterns is None or found.ended or found.finest:
            patterns = found
        last = found.finest or work == works[-1] or limits.stopped
        if limits.stages is None and (last or asked.keep is not None):
            done += _from_patterns(asked, patterns, best, net, done, last=last)
        if last:
            break
        known = (*known, *(c.packed for c in found.columns if c.packed is not None))
    return net, done


class _Coarse:
    """The bound from coarse tables, as far as it has come: for those who cannot wait, where rests count."""

    def __init__(self, asked: _Asked, stop: Stop) -> None:
        self._stop = stop
        self._way = None
        if asked.keep is not None and asked.limits.rounds is None and COMPILED:
            self._way = CoarseSheets(asked.pieces, asked.boards, kerf=asked.kerf, keep=asked.keep)

    @property
    def stands(self) -> bool:
        """Whether it has any bound."""
        return self._way is not None and self._way.bound > 0

    def advance(self, best: Cheapest, net: int, effort: int = 0, within: float = NEAR) -> int:
        """Goes on with such an effort, or until a stop or the plan's cost; the bound."""
        if self._way is None or best.cost <= net:
            return net
        self._way.advance(effort, within=within, enough=best.cost, stop=self._stop)
        return min(best.cost, max(net, math.ceil(self._way.bound)))


class _Shared:
    """The exact way of small jobs, as far as it has come; nothing where the job is not small."""

    def __init__(self, asked: _Asked) -> None:
        self._stop = asked.limits.stop
        self._way = (
            SharedOut(asked.pieces, asked.boards, kerf=asked.kerf, keep=asked.keep)
            if small_enough(asked.pieces)
            else None
        )

    def advance(self, best: Cheapest, net: int, work: int | None) -> int:
        """Goes on for so many parts of sheets, or until a stop; the plan is looked at, and the bound returned."""
        if self._way is None:
            return net
        self._way.advance(work, self._stop)
        found = self._way.packing()
        if found is not None:
            best.take(found)
        return min(best.cost, max(net, self._way.bound))


def _from_patterns(asked: _Asked, found: Priced, best: Cheapest, net: int, done: int, *, last: bool) -> int:
    """Plans made of the patterns are looked at; the rounds that this took. Before finer tables the search that fills up
    what they leave is short."""
    limits, boards, pieces = asked.limits, asked.boards, asked.pieces
    stand, left, had = whole_part(found, pieces, boards)
    kinds = [k for k, n in enumerate(left) if n]
    few = len(found.columns) <= (_FEW if asked.keep is None else _SOME)
    many_left = asked.keep is not None or 2 * sum(left) > sum(p.count for p in pieces)
    if few or (many_left and not limits.stopped):
        sheets = chosen(found, pieces, boards, None if few else limits.stop)
        if sheets is not None:
            best.take(Packing(boards=tuple(sheets), cost=sum(boards[b.board].cost for b in sheets), bound=0))
    if not stand or best.cost <= net:
        return 0
    if not kinds:
        best.take(joined(stand, Packing(boards=(), cost=0, bound=0), kinds, boards))
        return 0
    rest = Search.begun(
        [replace(pieces[k], count=left[k]) for k in kinds], had, asked.kerf, limits, rates_of(had, asked.keep)
    )
    if rest is None:
        return 0
    begins = sum(boards[b.board].cost for b in stand)

    def look(_cost: int, _bound: int) -> None:
        best.take(joined(stand, rest.packing(0), kinds, boards))
        if limits.progress is not None:
            limits.progress(best.cost, net)

    left_over = asked.limits_after(done).rounds
    rounds = None if left_over is None else left_over // 2
    if not last:
        rounds = _less(rounds, _BETWEEN)
    made = rest.advance(
        max(0, net - begins),
        replace(limits, rounds=rounds, progress=look if limits.progress is not None else None),
    )
    best.take(joined(stand, rest.packing(0), kinds, boards))
    return made


def _less(rounds: int | None, most: int) -> int:
    return most if rounds is None else min(rounds, most)
