"""Small jobs solved exactly, the worth of what is left among it: which pieces come from which sheet.

Every choice of pieces that one sheet may give is listed with a cost that it cannot be below, by area. The cheapest way
to share all pieces out over sheets is found, the sheets of it are solved exactly (`most_kept`), and the sharing is done
again, until it uses no cost that is only an estimate: then it is the optimum. Each sharing before is a bound.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
import numpy.typing as npt

from pentice.cutting.guillotine import Size
from pentice.cutting.keep import Keep, net_cost, sheet_of
from pentice.cutting.most_kept import NO_ROOM, MostKept, Spent, Taken
from pentice.cutting.packing import Board, Packing, Rectangle, Stop
from pentice.told import asked_to_stop

_Whole = npt.NDArray[np.int64]
_NEVER = 1 << 60
_CHOICES_MOST = 4_000
_PAIRS_MOST = 500_000
_PAIRS_A_PART = 2_000
"""Pairs that are gone through in about the time in which one part of a sheet is looked into."""
_AT_ONCE = 500
"""Parts of sheets that are looked into between two looks at the clock."""


def small_enough(pieces: Sequence[Rectangle]) -> bool:
    """Whether the choices of pieces are few enough to be listed.

    Parameters
    ----------
    pieces
        What is wanted.

    Returns
    -------
    bool
        At most 4,000 choices and 500,000 pairs of a choice and a part of it.

    Examples
    --------
    >>> small_enough([Rectangle(width=6, height=9, count=12)])
    True
    """
    choices = math.prod(p.count + 1 for p in pieces)
    pairs = math.prod((p.count + 1) * (p.count + 2) // 2 for p in pieces)
    return choices <= _CHOICES_MOST and pairs <= _PAIRS_MOST


@dataclass(frozen=True, slots=True, kw_only=True)
class _Level:
    """Choices with one number of pieces: each with its parts, and what is left without the part, one after another."""

    choices: _Whole
    parts: _Whole
    left: _Whole
    begins: _Whole


class SharedOut:
    """Pieces shared out over sheets; it can be stopped and goes on from there.

    Parameters
    ----------
    pieces, boards, kerf, keep
        As in `best.best_sheets`; `small_enough` must hold.
    sizes
        Width and height of each kind on each board, where they are not the same on all [without kerf].
    claims
        The same for what a board must have room for, where that is more than is cut from it; then a bound only.
    """

    def __init__(
        self,
        pieces: Sequence[Rectangle],
        boards: Sequence[Board],
        *,
        kerf: int,
        keep: Keep | None,
        sizes: Sequence[Sequence[Size]] | None = None,
        claims: Sequence[Sequence[Size]] | None = None,
    ) -> None:
        self._pieces, self._boards, self._kerf, self._keep = pieces, boards, kerf, keep
        self._counts = [p.count for p in pieces]
        self._rooms = [(b.width - 2 * b.trim + kerf, b.height - 2 * b.trim + kerf) for b in boards]
        alike = [[(p.width, p.height) for p in pieces]] * len(boards)
        self._solvers = self._all_solvers(alike if sizes is None else sizes, keep)
        self._fits = self._solvers if claims is None else self._all_solvers(claims, None)
        self._choices: list[Taken] = list(product(*(range(n + 1) for n in self._counts)))
        self._table = np.array(self._choices, dtype=np.int64)
        self._levels = self._all_levels()
        limited = sum(min(b.count, sum(self._counts)) for b in boards if b.count is not None)
        pairs = sum(len(level.parts) for level in self._levels)
        self._sharing = 1 + pairs * (1 + limited) // _PAIRS_A_PART
        self._costs = [self._estimates(s) for s in range(len(boards))]
        self._exact = [costs >= _NEVER for costs in self._costs]
        self.bound = 0
        """What no plan costs less than, net of what is kept."""
        self.ended = False
        """Whether the optimum is known."""

    def _all_solvers(self, of_each: Sequence[Sequence[Size]], keep: Keep | None) -> list[MostKept]:
        """One for each board; boards on which all pieces have the same sizes share one."""
        least = None if keep is None else (keep.width, keep.height)
        sizes = [tuple((w + self._kerf, h + self._kerf) for w, h in of) for of in of_each]
        longest = (max(w for w, _ in self._rooms), max(h for _, h in self._rooms))
        made = {of: MostKept(of, self._kerf, least, longest) for of in dict.fromkeys(sizes)}
        return [made[of] for of in sizes]

    def _all_levels(self) -> list[_Level]:
        strides = [math.prod(n + 1 for n in self._counts[k + 1 :]) for k in range(len(self._counts))]
        levels: dict[int, list[tuple[int, _Whole]]] = {}
        for at, taken in enumerate(self._choices):
            parts = np.zeros(1, dtype=np.int64)
            for n, stride in zip(taken, strides, strict=True):
                if n:
                    parts = (parts[:, None] + np.arange(n + 1) * stride).ravel()
            if at:
                levels.setdefault(sum(taken), []).append((at, parts[parts > 0]))
        made = []
        for number in sorted(levels):
            rows = levels[number]
            lengths = [len(parts) for _, parts in rows]
            parts = np.concatenate([parts for _, parts in rows])
            choices = np.array([at for at, _ in rows], dtype=np.int64)
            begins = np.concatenate(([0], np.cumsum(lengths)[:-1])).astype(np.int64)
            made.append(
                _Level(choices=choices, parts=parts, left=np.repeat(choices, lengths) - parts, begins=begins)
            )
        return made

    def _estimates(self, s: int) -> _Whole:
        """What a board costs at least for each choice of pieces."""
        solver, room, board = self._solvers[s], self._rooms[s], self._boards[s]
        if min(board.width, board.height) <= 2 * board.trim:
            return np.full(len(self._choices), _NEVER, dtype=np.int64)
        fits = self._fits[s]
        kept = (
            solver.at_most(*room, taken) if fits.at_most(*room, taken) > NO_ROOM else NO_ROOM
            for taken in self._choices
        )
        return np.array([self._net(s, area) for area in kept], dtype=np.int64)

    def _net(self, s: int, kept: int) -> int:
        """Cost of a board less the worth of an area of it."""
        if kept <= NO_ROOM:
            return _NEVER
        board, keep = self._boards[s], self._keep
        if keep is None:
            return board.cost
        share, paid = keep.share, board.paid_area or board.width * board.height
        return board.cost - share.numerator * board.cost * kept // (share.denominator * paid)

    def advance(self, work: int | None, stop: Stop | None = None) -> None:
        """Solves sheets and shares out anew, until the optimum is known, the work is done, or a stop is asked for.

        Parameters
        ----------
        work
            Parts of sheets that may be looked into; None for no limit.
        stop
            Asked now and then.
        """
        left = _NEVER if work is None else work

        def goes_on() -> bool:
            return left > 0 and not asked_to_stop() and not (stop is not None and stop())

        while not self.ended and goes_on():
            self.bound, path = self._cheapest(self._costs)
            left -= self._sharing
            estimated = [(s, t) for s, t in dict.fromkeys(path) if not self._exact[s][t]]
            self.ended = not estimated
            for s, t in estimated:
                while goes_on() and not self._exact[s][t]:
                    left -= self._solved(s, t, min(left, _AT_ONCE))

    def _solved(self, s: int, t: int, work: int) -> int:
        """Tries to solve one sheet exactly; the work that was done."""
        solver, fits, room, taken = self._solvers[s], self._fits[s], self._rooms[s], self._choices[t]
        solver.work = fits.work = work
        try:
            lies = fits is solver or fits.of(*room, taken) > NO_ROOM
            cost = self._net(s, solver.of(*room, taken)) if lies else _NEVER
        except Spent:
            return work
        # A sheet that gives more leaves no more: nothing that has these pieces among it costs less.
        more = np.all(self._table >= self._table[t], axis=1)
        self._costs[s][more] = np.maximum(self._costs[s][more], cost)
        self._exact[s][t] = True
        self._exact[s][self._costs[s] >= _NEVER] = True
        return max(1, 2 * work - solver.work - fits.work if fits is not solver else work - solver.work)

    def _cheapest(self, costs: Sequence[_Whole]) -> tuple[int, list[tuple[int, int]]]:
        """The cheapest sharing of all pieces at these costs: what it costs, and board and choice of each sheet."""
        free = [s for s, b in enumerate(self._boards) if b.count is None]
        limited = [s for s, b in enumerate(self._boards) for _ in range(min(b.count or 0, sum(self._counts)))]
        end = len(self._choices) - 1
        least = np.full(len(self._choices), _NEVER, dtype=np.int64)
        which = np.zeros(len(self._choices), dtype=np.int64)
        for s in free:
            cheaper = costs[s] < least
            least[cheaper], which[cheaper] = costs[s][cheaper], s
        table = np.full(len(self._choices), _NEVER, dtype=np.int64)
        table[0] = 0
        for level in self._levels:
            table[level.choices] = self._of_level(level, least, table)
        tables = [table]
        for s in limited:
            more = table.copy()
            for level in self._levels:
                found = self._of_level(level, costs[s], table)
                more[level.choices] = np.minimum(more[level.choices], found)
            table = more
            tables.append(table)
        if table[end] >= _NEVER:
            return _NEVER, []
        path, left = [], end
        for s, before, after in zip(
            reversed(limited), reversed(tables[:-1]), reversed(tables[1:]), strict=True
        ):
            if after[left] < before[left]:
                part = self._part(left, costs[s], before, int(after[left]))
                path.append((s, part))
                left -= part
        while left:
            part = self._part(left, least, tables[0], int(tables[0][left]))
            path.append((int(which[part]), part))
            left -= part
        return int(table[end]), path

    @staticmethod
    def _of_level(level: _Level, costs: _Whole, table: _Whole) -> _Whole:
        both = np.minimum(costs[level.parts] + table[level.left], _NEVER)
        return np.minimum.reduceat(both, level.begins)

    def _part(self, left: int, costs: _Whole, table: _Whole, total: int) -> int:
        """The first part of a choice by which a sum comes about."""
        level = self._levels[sum(self._choices[left]) - 1]
        at = int(np.searchsorted(level.choices, left))
        ends = level.begins[at + 1] if at + 1 < len(level.begins) else len(level.parts)
        parts = level.parts[level.begins[at] : ends]
        return int(parts[np.argmax(costs[parts] + table[left - parts] == total)])

    def packing(self) -> Packing | None:
        """The best plan of sheets that are solved, at its net cost; None where there is none yet.

        Returns
        -------
        Packing or None
            With the bound.
        """
        known = [
            np.where(exact, costs, _NEVER) for costs, exact in zip(self._costs, self._exact, strict=True)
        ]
        cost, path = self._cheapest(known)
        if cost >= _NEVER:
            return None
        sheets = []
        for s, t in path:
            solver = self._solvers[s]
            solver.work = _NEVER
            cells = solver.cells(*self._rooms[s], self._choices[t])
            sheets.append(sheet_of(cells, s, self._boards[s], self._kerf))
        net = net_cost(Packing(boards=tuple(sheets), cost=0, bound=0), self._boards, self._keep)
        return Packing(boards=tuple(sheets), cost=net, bound=min(self.bound, net))
