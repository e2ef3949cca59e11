"""The bound of cutting sheets whose rests count, soon: the relaxation over patterns on coarse tables.

As in `sheet_columns` each piece has a worth, and no sheet with its rests may be worth more than it costs; the tables are
those of `coarse_tables`. Patterns are priced at worths between the best that are known to hold and those that the
linear program would have (in-out: Ben-Ameur and Neto 2007), several of each board at once. What is learnt in coarse
units is the beginning in finer ones: the worths, and the patterns at a little more than their cost, until their true
ones are found. Each bound is computed in whole numbers from worths that hold.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import numpy as np
import numpy.typing as npt

from pentice.cutting.coarse_tables import MOST, CoarseTable
from pentice.cutting.guillotine import Size
from pentice.cutting.keep import Keep, rate_of
from pentice.cutting.packing import Board, Packed, Rectangle, Stop

Floats = npt.NDArray[np.float64]
Whole = npt.NDArray[np.int64]

_UNITS = ((20, 50), (10, 25), (5, 12))
_INWARD = 0.7
_BEGINNINGS = 3
_PASSES = 400
_SLACK = 1.01
"""What a pattern of coarser units may cost more in finer ones, until its cost there is known."""
_NEAR = 1e-4
"""Share of the objective that the bound may be below it when finer units begin."""


class CoarseSheets:
    """The relaxation of one job, and the bound as far as it has come."""

    def __init__(
        self, pieces: Sequence[Rectangle], boards: Sequence[Board], *, kerf: int, keep: Keep
    ) -> None:
        """
        Parameters
        ----------
        pieces, boards, kerf, keep
            As in `sheet_columns.priced`.
        """
        self._wanted = np.array([p.count for p in pieces], dtype=np.int64)
        self._sizes = [(p.width + kerf, p.height + kerf) for p in pieces]
        self._areas = np.array([w * h for w, h in self._sizes], dtype=float)
        self._boards = [b for b in boards if min(b.width, b.height) > 2 * b.trim]
        self._kerf, self._keep = kerf, keep
        self._rooms = [(b.width - 2 * b.trim + kerf, b.height - 2 * b.trim + kerf) for b in self._boards]
        self._rates = [rate_of(b, keep) for b in self._boards]
        self.bound = Fraction(0)

    def begin(self, worths):
        self._inner = np.array(worths, dtype=float)
        self._rows = _Rows(self._wanted, self._boards)
        self._alone()

    def _alone(self) -> None:
        """Boards filled with one kind of piece only."""
        counts, costs, boards = [], [], []
        for k, (w, h) in enumerate(self._sizes):
            for s, room in enumerate(self._rooms):
                if w <= room[0] and h <= room[1]:
                    row = np.zeros(len(self._sizes), dtype=np.int64)
                    row[k] = (room[0] // w) * (room[1] // h)
                    counts.append(row)
                    costs.append(float(self._boards[s].cost))
                    boards.append(s)
        self._rows.add(np.array(counts), np.array(costs), boards)

    def known(self, sheets: Sequence[tuple[int, Whole, float]]):
        self._rows.add(np.array([c for _,c,_ in sheets]), np.array([c for _,_,c in sheets]), [s for s,_,_ in sheets])

    def advance(self, units: Size, stop: Stop | None, many=3, inward=_INWARD, log=None) -> bool:
        """Go on with tables of these units; whether no pattern of theirs is worth more than it costs."""
        tables = self._tables(units)
        best = Fraction(-1)
        idle = 0
        outer, limits, objective = self._rows.solved()
        passes = 0
        first = True
        while True:
            at = self._inner if first else outer if idle else inward * self._inner + (1 - inward) * outer
            first = False
            fine = self._fine(at)
            worths = np.maximum(0, np.floor(at * fine)).astype(np.int64)
            for table in tables.values():
                table.fill(worths, fine)
            base = [-(-r.numerator * fine * w * h // r.denominator) for r, (w, h) in zip(self._rates, self._rooms)]
            most = [b + tables[r].most(room) for b, r, room in zip(base, self._rates, self._rooms)]
            bound, scale = self._certified(worths, most, fine)
            passes += 1
            if bound > best:
                best = bound
                self._inner = worths * (float(scale) / fine)
            new = False
            for s, r in enumerate(self._rates):
                worth, counts = tables[r].best(self._rooms[s], len(self._sizes), many)
                cost = self._boards[s].cost - (base[s] + worth - counts @ worths) / fine
                over = counts @ outer - cost - limits[s] > 1e-3
                if over.any():
                    new = self._rows.add(counts[over], cost[over], [s] * int(over.sum())) or new
            self.bound = max(self.bound, best)
            idle = 0 if new else idle + 1
            if log: log(passes, float(best), objective)
            if float(best) >= objective * (1 - 1e-6) or idle > 1:
                return True
            if stop is not None and stop():
                return False
            if new:
                outer, limits, objective = self._rows.solved()

    def _tables(self, units: Size) -> dict[Fraction, CoarseTable]:
        least = (self._keep.width + self._kerf, self._keep.height + self._kerf)
        tables = {}
        for rate in dict.fromkeys(self._rates):
            rooms = [room for room, r in zip(self._rooms, self._rates, strict=True) if r == rate]
            room = (max(w for w, _ in rooms), max(h for _, h in rooms))
            tables[rate] = CoarseTable(self._sizes, room, units, rate, least, self._kerf)
        return tables

    def _fine(self, worths: Floats) -> int:
        """Parts of a unit of money in which no sheet is worth more than a table can hold."""
        dense = max(float((worths / self._areas).max()), float(max(self._rates)))
        most = max(1.0, dense * max(w * h for w, h in self._rooms))
        return 1 << max(0, math.floor(math.log2(MOST / most)))

    def _certified(self, worths: Whole, most: Sequence[int], fine: int) -> tuple[Fraction, Fraction]:
        scale = Fraction(1)
        kept = []
        for board, rate in zip(self._boards, self._rates):
            area = (board.width - 2 * board.trim) * (board.height - 2 * board.trim)
            kept.append(-(-rate.numerator * fine * area // rate.denominator))
        for board, gives, rest in zip(self._boards, most, kept):
            paid = board.cost * fine
            if board.count is None and gives > paid:
                scale = min(scale, Fraction(max(0, paid - rest), gives - rest))
        total = scale * int(self._wanted @ worths)
        for board, gives, rest in zip(self._boards, most, kept):
            if board.count is not None:
                total -= board.count * max(Fraction(0), scale * gives + (1 - scale) * rest - board.cost * fine)
        return total / fine, scale


class _Rows:
    """The worths as a linear program; a row for each pattern."""

    def __init__(self, wanted: Whole, boards: Sequence[Board]) -> None:
        from pentice.cutting.highs import quiet

        self.solver: Any = quiet()
        self._kinds = len(wanted)
        for n in wanted:
            self.solver.addCol(-float(n), 0.0, 1e15, 0, [], [])
        self._limits: dict[int, int] = {}
        self._boards = len(boards)
        for s, board in enumerate(boards):
            if board.count is not None:
                self._limits[s] = self._kinds + len(self._limits)
                self.solver.addCol(float(board.count), 0.0, 1e15, 0, [], [])
        self._seen: dict[tuple[int, bytes], float] = {}
        self.costs: list[float] = []

    def add(self, counts: Whole, costs: Floats, boards: Sequence[int]) -> bool:
        new = False
        for row, cost, s in zip(counts, costs, boards, strict=True):
            key = (s, row.tobytes())
            if key in self._seen and self._seen[key] <= cost + 1e-9:
                continue
            self._seen[key] = float(cost)
            at = np.flatnonzero(row)
            factors = row[at].astype(float)
            if s in self._limits:
                at, factors = np.append(at, self._limits[s]), np.append(factors, -1.0)
            self.solver.addRow(-1e30, float(cost), len(at), at.astype(np.int32), factors)
            self.costs.append(float(cost))
            new = True
        return new

    def loosened(self, factor):
        n = len(self.costs)
        for i in range(n):
            self.costs[i]*=factor
            self.solver.changeRowBounds(i, -1e30, self.costs[i])
        self._seen = {}

    def solved(self) -> tuple[Floats, list[float], float]:
        self.solver.run()
        worth = np.array(self.solver.getSolution().col_value)
        limits = [float(worth[self._limits[s]]) if s in self._limits else 0.0 for s in range(self._boards)]
        return np.maximum(0.0, worth[: self._kinds]), limits, -self.solver.getInfo().objective_function_value
