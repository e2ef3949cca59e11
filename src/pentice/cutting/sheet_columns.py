"""Patterns of sheets priced out: the linear bound of cutting sheets, and the sheets that a good plan is made of.

After Gilmore and Gomory 1965, the sheets found by an exact table (`guillotine`): what each piece is worth is found so
that no sheet is worth more than it costs, what is left over and worth keeping among it; the sheet that breaks this most
is added until none does. The worths are whole numbers and the last table is exact, so that the bound does not hang on
the arithmetic of the solver (Farley 1990). Where a table would be too large, sizes are rounded down to a coarser unit
for the bound only, or all that is left over counts as kept.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Any

import numpy as np

from pentice.cutting.guillotine import Cell, Grid, Size, Whole, Worths, cuts_of, grid_of
from pentice.cutting.keep import Keep, net_of, rate_of, sheet_of
from pentice.cutting.packing import Board, Packed, Rectangle, Stop

_FINE = 100_000
_PASSES = 400
_COARSEST = 10
"""No side of a piece has fewer units: rounded down, it would lose too much."""
WORK = 4_000_000
"""What one pass over all tables may take where nothing else is said."""
_WAYS = (
    (1, False),
    (2, False),
    (5, False),
    (10, False),
    (1, True),
    (2, True),
    (5, True),
    (10, True),
    (20, True),
)
"""Unit of the table, and whether all that is left over counts as kept; the first that is small enough is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """What one pass over all tables may take [-], and whether coarser units, whose patterns are not sheets, are of use
    where it would be more."""

    work: int = WORK
    rounded: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One sheet: how many of each kind it gives, a cost that it cannot go below, and, where the table is of whole
    units, the sheet itself with its net cost."""

    board: int
    taken: tuple[int, ...]
    cost: int
    packed: Packed | None = None
    net: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """The bound, the columns, and how often the relaxation uses each."""

    bound: Fraction
    columns: tuple[Column, ...]
    times: tuple[float, ...]
    finest: bool
    """Whether the tables were exact: larger ones would give no more."""
    ended: bool = True
    """Whether nothing broke it off: no sheet of these tables is worth more than it costs."""


def priced(
    pieces: Sequence[Rectangle],
    boards: Sequence[Board],
    *,
    kerf: int,
    keep: Keep | None = None,
    known: Sequence[Packed] = (),
    effort: Effort = Effort(),
    stop: Stop | None = None,
) -> Priced | None:
    """The linear relaxation over all sheets that edge-to-edge cuts can give.

    Parameters
    ----------
    pieces, boards, kerf
        As in `best.best_sheets`.
    keep
        What is left over and worth keeping; the bound is then net of it.
    known
        Sheets to begin with.
    effort
        How much one pass over all tables may be.
    stop
        Ends it early; the bound is valid all the same, only lower.

    Returns
    -------
    Priced or None
        None where no table is small enough.

    Examples
    --------
    >>> found = priced([Rectangle(width=6, height=10, count=3)], [Board(width=10, height=10, cost=7)], kerf=0)
    >>> found.bound
    Fraction(21, 1)
    """
    tables = _tables(pieces, boards, kerf, keep, effort)
    if tables is None:
        return None
    master = _Master(pieces, boards)
    for packed in known:
        master.add(tables.column(packed))
    for column in tables.alone():
        master.add(column)
    bound = Fraction(-(10**18))
    ended = False
    for _ in range(_PASSES):
        worths, limits, objective = master.solved()
        if not worths:
            return None
        found = tables.filled(worths)
        bound = max(bound, tables.certificate(worths, [most for most, _ in found]))
        if stop is not None and stop():
            break
        new = False
        for s, (most, worth) in enumerate(found):
            if most > (boards[s].cost * _FINE + limits[s]) + 2 * len(pieces):
                cells = worth.cells(tables.rooms[s])
                new = master.add(tables.of_cells(s, cells, worths, most)) or new
        if not new or float(bound) >= objective - 1e-6:
            ended = True
            break
    return Priced(
        bound=bound,
        columns=tuple(master.columns),
        times=tuple(master.times()),
        finest=tables.finest,
        ended=ended,
    )


class _Tables:
    """Rooms, grids and rests of the boards; which boards share a table."""

    def __init__(
        self,
        pieces: Sequence[Rectangle],
        boards: Sequence[Board],
        kerf: int,
        keep: Keep | None,
        units: Size,
        whole: bool,
    ) -> None:
        self._pieces, self._boards, self._kerf, self._keep = pieces, boards, kerf, keep
        self._units, self._whole = units, whole
        self._counts = [p.count for p in pieces]
        self._full = [(p.width + kerf, p.height + kerf) for p in pieces]
        self._sizes = [(w // units[0], h // units[1]) for w, h in self._full]
        self._trimmed = [(b.width - 2 * b.trim + kerf, b.height - 2 * b.trim + kerf) for b in boards]
        self.rooms = [(w // units[0], h // units[1]) for w, h in self._trimmed]
        self._rates = [rate_of(b, keep) for b in boards]
        self._least = None
        if keep is not None and not whole:
            self._least = (
                max(1, (keep.width + kerf) // units[0]),
                max(1, (keep.height + kerf) // units[1]),
            )
        self._cuts: dict[int, tuple[Whole, Whole]] = {}
        self._rests: dict[int, Whole] = {}

    def _group(self, s: int) -> int:
        """-1: the table of boards whose rests are worth nothing; else the first board alike."""
        if self._rates[s] == 0 or self._keep is None:
            return -1
        if self._whole:
            return next(t for t in range(s + 1) if self._rates[t] == self._rates[s])
        same = (self.rooms[s], self._rates[s])
        return next(t for t in range(s + 1) if (self.rooms[t], self._rates[t]) == same)

    @cached_property
    def grids(self) -> dict[int, Grid]:
        """The grid of each table."""
        groups: dict[int, list[int]] = {}
        for s in range(len(self._boards)):
            groups.setdefault(self._group(s), []).append(s)
        grids = {}
        for group, members in groups.items():
            room = (max(self.rooms[s][0] for s in members), max(self.rooms[s][1] for s in members))
            least = self._least if group >= 0 else None
            grids[group] = grid_of(self._sizes, self._counts, room, least)
        return grids

    @property
    def finest(self) -> bool:
        """Whether nothing is rounded or taken as kept that is not."""
        return self._units == (1, 1) and not self._whole

    @property
    def work(self) -> int:
        """What one pass over all tables takes [-]."""
        return sum(grid.work for grid in self.grids.values())

    def filled(self, worths: Sequence[int]) -> list[tuple[int, Worths]]:
        """The most that each board can be worth in fine units, rests among it, and its table."""
        made: dict[int, Worths] = {}
        found = []
        for s, room in enumerate(self.rooms):
            group = self._group(s)
            if group not in made:
                made[group] = Worths(
                    self.grids[group],
                    self._cuts_of(group),
                    self._sizes,
                    self._net(worths, s),
                    self._rests_of(group),
                )
            most = made[group].most(room)
            if self._whole:
                most += self._all_kept(s)
            found.append((most, made[group]))
        return found

    def _cuts_of(self, group: int) -> tuple[Whole, Whole]:
        if group not in self._cuts:
            self._cuts[group] = cuts_of(self.grids[group])
        return self._cuts[group]

    def _net(self, worths: Sequence[int], s: int) -> list[int]:
        """Worths of the pieces; where all that is left counts as kept, less what their area would be kept for."""
        if not self._whole or self._rates[s] == 0:
            return list(worths)
        rate = self._rates[s]
        return [
            v - math.floor(rate * p.width * p.height * _FINE)
            for v, p in zip(worths, self._pieces, strict=True)
        ]

    def _all_kept(self, s: int) -> int:
        """What a board would be worth kept as it is, in fine units."""
        return self._kept(self._rates[s], *self._trimmed[s])

    def _kept(self, rate: Fraction, width: int, height: int) -> int:
        """The most that a rest of a size is worth, the kerf among the size."""
        area = max(0, width - self._kerf) * max(0, height - self._kerf)
        return -(-rate.numerator * area * _FINE // rate.denominator)

    def _rests_of(self, group: int) -> Whole | None:
        """What each cell of a table is worth when it is left free: in a coarser unit, the most that it may be."""
        if group < 0 or self._least is None:
            return None
        if group not in self._rests:
            rate, grid, (u, v) = self._rates[group], self.grids[group], self._units
            worth = [
                self._kept(rate, (w + 1) * u - 1, (h + 1) * v - 1)
                if w >= self._least[0] and h >= self._least[1]
                else 0
                for w in grid.widths
                for h in grid.heights
            ]
            self._rests[group] = np.array(worth, dtype=np.int64)
        return self._rests[group]

    def certificate(self, worths: Sequence[int], most: Sequence[int]) -> Fraction:
        """A bound from any worths: a limited board that gives more than it costs is taken off; where a board
        without limit does, all worths are scaled down, while what is kept of it is not."""
        scale = Fraction(1)
        kept = [self._all_kept(s) for s in range(len(self._boards))]
        for s, board in enumerate(self._boards):
            paid = board.cost * _FINE
            if board.count is None and most[s] > paid:
                scale = min(scale, Fraction(max(0, paid - kept[s]), most[s] - kept[s]))
        total = scale * sum(n * v for n, v in zip(self._counts, worths, strict=True))
        for s, board in enumerate(self._boards):
            if board.count is not None:
                gives = scale * most[s] + (1 - scale) * kept[s]
                total -= board.count * max(Fraction(0), gives - board.cost * _FINE)
        return total / _FINE

    def of_cells(self, s: int, cells: Sequence[Cell], worths: Sequence[int], most: int) -> Column:
        """A column from the cells of a table, at the cost that the table has it at."""
        taken = [0] * len(self._pieces)
        for k, *_ in cells:
            if k >= 0:
                taken[k] += 1
        if self.finest:
            return self.column(self._laid(s, cells))
        kept = most - sum(n * v for n, v in zip(taken, worths, strict=True))
        cost = (self._boards[s].cost * _FINE - kept) // _FINE
        if self._units != (1, 1):
            return Column(board=s, taken=tuple(taken), cost=cost)
        return replace(self.column(self._laid(s, cells)), cost=cost)

    def _laid(self, s: int, cells: Sequence[Cell]) -> Packed:
        """The sheet that cells in whole units make."""
        return sheet_of(cells, s, self._boards[s], self._kerf)

    def column(self, packed: Packed) -> Column:
        """A column from a sheet of a plan."""
        taken = [0] * len(self._pieces)
        for place in packed.places:
            taken[place.kind] += 1
        net = net_of(packed, self._boards[packed.board], self._keep)
        return Column(board=packed.board, taken=tuple(taken), cost=net, packed=packed, net=net)

    def alone(self) -> list[Column]:
        """Sheets of one piece only, so that every kind has its worth."""
        found = []
        for k, (w, h) in enumerate(self._full):
            for s, room in enumerate(self._trimmed):
                if w <= room[0] and h <= room[1]:
                    rests = [(-1, w, 0, room[0] - w, room[1]), (-1, 0, h, w, room[1] - h)]
                    found.append(self.column(self._laid(s, [(k, 0, 0, w, h), *rests])))
        return found


def _tables(
    pieces: Sequence[Rectangle], boards: Sequence[Board], kerf: int, keep: Keep | None, effort: Effort
) -> _Tables | None:
    """The finest tables that are not too large."""
    for unit, whole in _WAYS:
        if (keep is None and whole) or (unit > 1 and not effort.rounded):
            continue
        if unit > 1 and min(min(p.width, p.height) for p in pieces) < _COARSEST * unit:
            break
        made = _Tables(pieces, boards, kerf, keep, (unit, unit), whole)
        if made.work <= effort.work:
            return made
    return None


class _Master:
    """The worth of the pieces as a linear program; each sheet is a row, and how often it is used is its dual."""

    def __init__(self, pieces: Sequence[Rectangle], boards: Sequence[Board]) -> None:
        from pentice.cutting.highs import quiet

        self.solver: Any = quiet()
        self.columns: list[Column] = []
        self._kinds, self._boards = len(pieces), boards
        self._seen: dict[tuple[int, tuple[int, ...]], int] = {}
        for piece in pieces:
            self.solver.addCol(-float(piece.count), 0.0, 1e15, 0, [], [])
        self._limits: dict[int, int] = {}
        for s, board in enumerate(boards):
            if board.count is not None:
                self._limits[s] = self._kinds + len(self._limits)
                self.solver.addCol(float(board.count), 0.0, 1e15, 0, [], [])

    def add(self, column: Column) -> bool:
        """A sheet; False where one that is no dearer gives the same."""
        key = (column.board, column.taken)
        if key in self._seen and self._seen[key] <= column.cost:
            return False
        self._seen[key] = column.cost
        self.columns.append(column)
        at = [k for k, n in enumerate(column.taken) if n]
        factors = [float(column.taken[k]) for k in at]
        if column.board in self._limits:
            at, factors = [*at, self._limits[column.board]], [*factors, -1.0]
        self.solver.addRow(-1e30, float(column.cost), len(at), at, factors)
        return True

    def solved(self) -> tuple[list[int], list[int], float]:
        """The worth of each kind and of one of each board more, in whole fine units, and the objective."""
        self.solver.run()
        worth = self.solver.getSolution().col_value
        if len(worth) == 0:
            return [], [], 0.0
        fine = [max(0, int(v * _FINE)) for v in worth]
        limit = [fine[self._limits[s]] if s in self._limits else 0 for s in range(len(self._boards))]
        return fine[: self._kinds], limit, -self.solver.getInfo().objective_function_value

    def times(self) -> list[float]:
        """How often each sheet is used in the relaxation."""
        return [abs(float(v)) for v in self.solver.getSolution().row_dual]
