"""The bound of cutting sheets whose rests count, soon: the relaxation over patterns on coarse tables.

As in `sheet_columns` each kind has a worth, and no sheet with its rests may be worth more than it costs; the tables are
those of `coarse_tables`. Patterns are priced at worths between the best that are known to hold and those that the
linear program would have (in-out: Ben-Ameur and Neto 2007), several of each board at once. What is learnt in coarse
units is the beginning in finer ones: the worths, and the patterns at a little more than they cost, until their true
costs are found. Every bound is computed in whole numbers from worths that hold (Farley 1990).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import numpy as np
import numpy.typing as npt

from pentice.cutting.coarse_tables import MOST, CoarseTable, Whole
from pentice.cutting.guillotine import Size
from pentice.cutting.keep import Keep, rate_of
from pentice.cutting.packing import Board, Rectangle, Stop

Floats = npt.NDArray[np.float64]
_Row = tuple[int, Whole, float]
"""A pattern: its board, how many of each kind it gives, and what it costs net of its rests."""

_ACROSS, _ALONG = 105, 140
"""Units across and along the largest board in the coarsest tables; those of finer ones are whole multiples."""
_ABOUT = 0.15
"""Share by which units may be longer or shorter than that."""
_LEAST_UNITS = 6
"""No side of a piece or of a rest has fewer units: rounded down, it would lose too much."""
_WORK = 600_000_000
"""Sums that one pass may take: about 0.1 s where compiled."""
_INWARD = 0.75
_BEGINNINGS = 8
_LOOSER = 1.03
"""What a pattern may cost more in finer units until its cost there is known: more than finer units gain."""
NEAR = 2e-4
"""Share of the linear program that the bound is below it when a level ends."""
_FILLED = 3
_ALONE = 0.2
_HELD, _OFTEN = 4, 5
"""How many rows for each kind are held, and after how many runs the others are let go."""
_FURTHER = 1e-3
_PASSES = 400


class CoarseSheets:
    """The bound of one job as far as it has come.

    Examples
    --------
    >>> keep = Keep(width=20, height=20, share=Fraction(1, 2))
    >>> found = CoarseSheets([Rectangle(width=60, height=100, count=3)],
    ...     [Board(width=100, height=100, cost=70)], kerf=0, keep=keep)
    >>> found.advance()
    >>> found.bound
    Fraction(168, 1)
    """

    def __init__(
        self, pieces: Sequence[Rectangle], boards: Sequence[Board], *, kerf: int, keep: Keep
    ) -> None:
        """
        Parameters
        ----------
        pieces, boards, kerf, keep
            As in `sheet_columns.priced`.
        """
        wanted = [p for p in pieces if p.count]
        self._boards = [b for b in boards if b.count != 0 and min(b.width, b.height) > 2 * b.trim]
        self._wanted = np.array([p.count for p in wanted], dtype=np.int64)
        self._sizes = [(p.width + kerf, p.height + kerf) for p in wanted]
        self._areas = np.array([w * h for w, h in self._sizes], dtype=float)
        self._kerf = kerf
        self._least = (keep.width + kerf, keep.height + kerf)
        self._nets = [(b.width - 2 * b.trim, b.height - 2 * b.trim) for b in self._boards]
        self._rooms = [(w + kerf, h + kerf) for w, h in self._nets]
        rates = [rate_of(b, keep) for b in self._boards]
        self._rates = list(dict.fromkeys(rates))
        self._group = [self._rates.index(rate) for rate in rates]
        self._finer, self._done = 1, (0, 0)
        self._rows = _Rows(self._wanted, self._boards)
        self._inner = self._begun()
        self.bound = Fraction(0)
        """A cost that no plan can go below, net of what is kept."""

    def _begun(self) -> Floats:
        """Boards filled with one kind each are the first rows; worths to begin with, between area alone and those."""
        dear = [b.cost / (w * h) for b, (w, h) in zip(self._boards, self._nets, strict=True) if b.cost]
        begun = self._areas * min(dear, default=0.0)
        rows: list[_Row] = []
        for k, (w, h) in enumerate(self._sizes):
            fits = []
            for s, (wide, high) in enumerate(self._rooms):
                number = (wide // w) * (high // h)
                if number:
                    board = self._boards[s]
                    fits.append((board.count is not None, board.cost / number, s, number))
            # Those without limit come first: a kind that had none but limited ones would be worth anything.
            for _, cost, s, number in sorted(fits)[:_FILLED]:
                counts = np.zeros(len(self._sizes), dtype=np.int64)
                counts[k] = number
                rows.append((s, counts, cost * number))
            alone = min((cost for _, cost, *_ in fits if cost), default=0.0)
            if alone > begun[k]:
                begun[k] *= (alone / begun[k]) ** _ALONE if begun[k] else 0.0
        self._rows.add(rows)
        return begun

    def advance(
        self,
        effort: int = 0,
        *,
        within: float = NEAR,
        enough: int | None = None,
        stop: Stop | None = None,
    ) -> None:
        """Go on with ever finer tables, from the coarsest on.

        Parameters
        ----------
        effort
            About how many sums the tables of one unit may take in all [-]; the coarsest may always be filled.
        within
            A level ends where bound and linear program are no further apart than this share.
        enough
            A cost at which to end.
        stop
            Ends it early; the bound is valid all the same.
        """
        while self._boards and self._sizes and self._done != (1, 1) and not (stop is not None and stop()):
            if enough is not None and self.bound >= enough:
                return
            units = (self._unit(0), self._unit(1))
            if units != self._done:
                tables = self._tables(units, effort)
                if tables is None or not self._settled(tables, within, enough, stop) or within > NEAR:
                    return
                self._done = units
                self._rows.loosen(_LOOSER)
            self._finer += 1

    def _tables(self, units: Size, effort: int) -> list[CoarseTable] | None:
        """A table for the boards of each rate; None where they would take too long."""
        largest = []
        for group in range(len(self._rates)):
            rooms = [r for r, mine in zip(self._rooms, self._group, strict=True) if mine == group]
            largest.append((max(w for w, _ in rooms), max(h for _, h in rooms)))
        work = 0
        for room in largest:
            columns, rows = room[0] // units[0], room[1] // units[1]
            work += columns * rows * (columns + rows) // 4
        if work > _WORK or (self._finer > 1 and work * len(self._sizes) > effort):
            return None
        return [
            CoarseTable(self._sizes, room, units, rate, self._least, self._kerf)
            for rate, room in zip(self._rates, largest, strict=True)
        ]

    def _unit(self, side: int) -> int:
        """The unit along a side: of those about as long as it should be the one that takes least off the pieces."""
        room = max(r[side] for r in self._rooms)
        shortest = min(self._least[side], *(s[side] for s in self._sizes))
        about = min(room // (_ACROSS, _ALONG)[side], shortest // _LEAST_UNITS) // self._finer
        weights = self._areas * self._wanted
        lengths = np.array([s[side] for s in self._sizes], dtype=np.int64)

        def lost(unit: int) -> float:
            return float((lengths % unit / lengths) @ weights)

        units = range(max(1, math.ceil(about * (1 - _ABOUT))), max(1, int(about * (1 + _ABOUT))) + 1)
        return min(units, key=lost)

    def _settled(
        self, tables: Sequence[CoarseTable], within: float, enough: int | None, stop: Stop | None
    ) -> bool:
        """Passes over the tables until bound and linear program all but meet; whether they did."""
        outer, limits, objective = self._rows.solved()
        if not len(outer):
            return False
        at, best, idle = self._inner, Fraction(-1), 0
        for _ in range(_PASSES):
            fine = self._fine(at)
            if not fine:
                return False
            worths = np.floor(at * fine).astype(np.int64)
            for table in tables:
                table.fill(worths, fine)
            whole = self._kept(self._rooms, fine)
            most = [
                tables[group].most(room) + kept
                for group, room, kept in zip(self._group, self._rooms, whole, strict=True)
            ]
            bound, scale = self._certified(worths, most, fine)
            if bound > best:
                best = bound
                self._inner = worths.astype(np.float64) * (float(scale) / fine)
                self.bound = max(self.bound, bound)
            broken: list[_Row] = []
            for s, (group, room) in enumerate(zip(self._group, self._rooms, strict=True)):
                worth, counts = tables[group].best(room, _BEGINNINGS)
                costs = self._boards[s].cost - (whole[s] + worth - counts @ worths) / fine
                over = np.flatnonzero(counts @ outer - costs - limits[s] > _FURTHER)
                broken += [(s, counts[n], float(costs[n])) for n in over]
            new = self._rows.add(broken)
            idle = 0 if new else idle + 1
            if idle > 1 or float(best) >= objective * (1 - within):
                return True
            if (enough is not None and best >= enough) or (stop is not None and stop()):
                return False
            if new:
                outer, limits, objective = self._rows.solved()
            at = outer if idle else _INWARD * self._inner + (1 - _INWARD) * outer
        return False

    def _fine(self, worths: Floats) -> int:
        """Parts of a unit of money in which no sheet is worth more than a table holds; 0 where one is in whole units.

        What is rounded down leaves room for less than half as much again: tables hold twice as much.
        """
        dense = max(float((worths / self._areas).max()), float(max(self._rates)))
        most = max(1.0, dense * max(w * h for w, h in self._rooms))
        return 1 << math.floor(math.log2(MOST / most)) if most <= MOST else 0

    def _kept(self, sizes: Sequence[Size], fine: int) -> list[int]:
        """The most that a size of each board is worth kept, rounded up."""
        rates = [self._rates[group] for group in self._group]
        return [
            -(-r.numerator * fine * w * h // r.denominator) for r, (w, h) in zip(rates, sizes, strict=True)
        ]

    def _certified(self, worths: Whole, most: Sequence[int], fine: int) -> tuple[Fraction, Fraction]:
        """A bound from any worths, and what they are scaled down by: as in `sheet_columns`."""
        over, under = 1, 1
        kept = self._kept(self._nets, fine)
        for board, gives, rest in zip(self._boards, most, kept, strict=True):
            spent = max(0, board.cost * fine - rest)
            if board.count is None and gives > board.cost * fine and spent * under < over * (gives - rest):
                over, under = spent, gives - rest
        total = over * int(self._wanted @ worths)
        for board, gives, rest in zip(self._boards, most, kept, strict=True):
            if board.count is not None:
                more = over * gives + (under - over) * rest - under * board.cost * fine
                total -= board.count * max(0, more)
        return Fraction(total, under * fine), Fraction(over, under)


class _Rows:
    """The worths as a linear program; a row for each pattern."""

    def __init__(self, wanted: Whole, boards: Sequence[Board]) -> None:
        from pentice.cutting.highs import quiet

        self._solver: Any = quiet()
        self._solver.setOptionValue("simplex_dual_edge_weight_strategy", 1)
        self._kinds, self._boards = len(wanted), len(boards)
        for number in wanted:
            self._solver.addCol(-float(number), 0.0, 1e15, 0, [], [])
        self._limits: dict[int, int] = {}
        for s, board in enumerate(boards):
            if board.count is not None:
                self._limits[s] = self._kinds + len(self._limits)
                self._solver.addCol(float(board.count), 0.0, 1e15, 0, [], [])
        self._costs: list[float] = []
        self._seen: dict[tuple[int, bytes], float] = {}
        self._runs = 0

    def add(self, rows: Sequence[_Row]) -> bool:
        """Patterns; whether any is new or cheaper than it was."""
        at: list[int] = []
        factors: list[float] = []
        starts, new = [], []
        for board, counts, cost in rows:
            key = (board, counts.tobytes())
            if self._seen.get(key, math.inf) <= cost + _FURTHER / 2:
                continue
            self._seen[key] = cost
            starts.append(len(at))
            new.append(cost)
            kinds = counts.nonzero()[0]
            at += kinds.tolist()
            factors += counts[kinds].tolist()
            if board in self._limits:
                at.append(self._limits[board])
                factors.append(-1.0)
        if new:
            self._solver.addRows(
                len(new),
                np.full(len(new), -1e30),
                np.array(new),
                len(at),
                np.array(starts, dtype=np.int32),
                np.array(at, dtype=np.int32),
                np.array(factors, dtype=float),
            )
            self._costs += new
        return bool(new)

    def loosen(self, factor: float) -> None:
        """Every pattern is dearer by a factor, until it is found again."""
        self._costs = [cost * factor for cost in self._costs]
        for i, cost in enumerate(self._costs):
            self._solver.changeRowBounds(i, -1e30, cost)
        self._seen = {}

    def solved(self) -> tuple[Floats, list[float], float]:
        """The worth of each kind and of one of each board more, and the objective."""
        self._solver.run()
        found = self._solver.getSolution()
        worth, objective = np.array(found.col_value), -self._solver.getInfo().objective_function_value
        if len(worth) == 0:
            return worth, [], 0.0
        self._runs += 1
        if self._runs % _OFTEN == 0:
            self._let_go(np.array(found.row_value))
        limits = [float(worth[self._limits[s]]) if s in self._limits else 0.0 for s in range(self._boards)]
        return np.maximum(0.0, worth[: self._kinds]), limits, objective

    def _let_go(self, values: Floats) -> None:
        """Rows that are far from being broken leave the program; where they matter again they are found again."""
        many = _HELD * self._kinds
        if len(self._costs) <= many:
            return
        far = np.array(self._costs) - values
        gone = np.flatnonzero(far > max(1.0, float(np.partition(far, many)[many])))
        if len(gone):
            self._solver.deleteRows(len(gone), gone.astype(np.int32))
            self._costs = [float(cost) for cost in np.delete(np.array(self._costs), gone)]
            self._seen = {}
