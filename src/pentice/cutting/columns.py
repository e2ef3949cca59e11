"""Patterns priced out: the linear bound of cutting lengths, and the patterns that a good plan is made of.

After Gilmore and Gomory 1961: what a piece is worth is found so that no pattern is worth more than its stock costs; the
pattern that breaks this most is added until none does. The worth is then rounded down to whole numbers and checked by a
last exact knapsack, so that the bound does not hang on the arithmetic of the solver (Farley 1990). A pattern never has
more of a piece than is wanted, which makes the bound stronger.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np
import numpy.typing as npt

from pentice.cutting.packing import Stop

Whole = npt.NDArray[np.int64]
Taken = tuple[int, ...]
_FINE = 1_000_000
_PASSES = 600
_TABLE_MOST = 60_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A length that can be had: what fits in it, its cost, how many there are, and the length that was paid for."""

    length: int
    cost: int
    count: int | None = None
    paid: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """What each kind of piece is worth, the bound that follows, and how often each pattern is used."""

    worth: tuple[Fraction, ...]
    bound: Fraction
    patterns: tuple[tuple[int, Taken], ...]
    """Room and number of each kind."""
    times: tuple[float, ...]


def fullest(
    lengths: Sequence[int], counts: Sequence[int], values: Sequence[int], room: int
) -> tuple[int, Taken]:
    """The pieces of greatest value that fit side by side.

    Parameters
    ----------
    lengths, counts, values
        Of each kind [-].
    room
        What they must fit in.

    Returns
    -------
    tuple
        The value, and how many of each kind.

    Examples
    --------
    >>> fullest([6, 4], [1, 3], [7, 4], 12)
    (12, (0, 3))
    """
    best: Whole = np.zeros(room + 1, dtype=np.int64)
    steps: list[tuple[int, int, npt.NDArray[np.bool_]]] = []
    for k, (length, count, value) in enumerate(zip(lengths, counts, values, strict=True)):
        left, lot = min(count, room // length), 1
        while left > 0 and value > 0:
            lot = min(lot, left)
            left -= lot
            size = lot * length
            tried = best[: room + 1 - size] + lot * value
            better = tried > best[size:]
            best[size:][better] = tried[better]
            steps.append((k, lot, better))
            lot *= 2
    at, taken = room, [0] * len(lengths)
    for k, lot, better in reversed(steps):
        size = lot * lengths[k]
        if at >= size and better[at - size]:
            taken[k] += lot
            at -= size
    return int(best[room]), tuple(taken)


def relaxed(
    lengths: Sequence[int],
    counts: Sequence[int],
    rooms: Sequence[Room],
    *,
    weights: Sequence[float] | None = None,
    known: Sequence[tuple[int, Taken]] = (),
    stop: Stop | None = None,
) -> Relaxed | None:
    """The linear relaxation over all patterns.

    Parameters
    ----------
    lengths, counts
        Of each kind of piece, the kerf added; a pattern takes no more than ``counts``.
    rooms
        What they can be cut from.
    weights
        What is wanted of each kind where that differs from ``counts`` [-].
    known
        Patterns to begin with.
    stop
        Ends it early; the bound is valid all the same, only lower.

    Returns
    -------
    Relaxed or None
        None where the tables would be too large.

    Examples
    --------
    >>> relaxed([6, 4], [2, 2], [Room(length=10, cost=3)]).bound
    Fraction(6, 1)
    """
    if max(r.length for r in rooms) * len(lengths) > _TABLE_MOST:
        return None
    wanted = [float(n) for n in (weights if weights is not None else counts)]
    master = _Master(wanted, rooms)
    for pattern in (*known, *_alone(lengths, counts, rooms)):
        master.add(*pattern)
    bound, worth = Fraction(-1), tuple([Fraction(0)] * len(lengths))
    target = [Fraction(n) for n in wanted]
    for _ in range(_PASSES):
        values, limit, objective = master.solved()
        if not values:
            return None
        priced = [fullest(lengths, counts, values, room.length) for room in rooms]
        found, scale = _certificate(values, target, rooms, [value for value, _ in priced])
        if found > bound:
            bound, worth = found, tuple(Fraction(v, _FINE) * scale for v in values)
        new = [
            master.add(r, taken)
            for r, (value, taken) in enumerate(priced)
            if value > rooms[r].cost * _FINE + limit[r] + len(lengths)
        ]
        if not any(new) or float(bound) >= objective - 1e-7 or (stop is not None and stop()):
            break
    return Relaxed(worth=worth, bound=bound, patterns=tuple(master.patterns), times=tuple(master.times()))


def _alone(
    lengths: Sequence[int], counts: Sequence[int], rooms: Sequence[Room]
) -> Iterator[tuple[int, Taken]]:
    """The patterns of one kind only, so that every kind has its worth."""
    for k, length in enumerate(lengths):
        for r, room in enumerate(rooms):
            if length <= room.length:
                alone = min(counts[k], room.length // length)
                yield r, tuple(alone if i == k else 0 for i in range(len(lengths)))


def _certificate(
    values: Sequence[int], wanted: Sequence[Fraction], rooms: Sequence[Room], best: Sequence[int]
) -> tuple[Fraction, Fraction]:
    """A bound from any worth of the pieces, however it was found: what a limited room gives beyond its cost is taken
    off; where a room without limit gives more than it costs, all are scaled down."""
    scale = Fraction(1)
    for room, value in zip(rooms, best, strict=True):
        if room.count is None and value > room.cost * _FINE:
            scale = min(scale, Fraction(room.cost * _FINE, value))
    total = scale * sum((n * v for n, v in zip(wanted, values, strict=True)), Fraction(0))
    for room, value in zip(rooms, best, strict=True):
        if room.count is not None:
            total -= room.count * max(Fraction(0), scale * value - room.cost * _FINE)
    return total / _FINE, scale


class _Master:
    """The worth of the pieces as a linear program; each pattern is a row, and how often it is used is its dual."""

    def __init__(self, wanted: Sequence[float], rooms: Sequence[Room]) -> None:
        from pentice.cutting.highs import quiet

        self.solver: Any = quiet()
        self.rooms = rooms
        self.kinds = len(wanted)
        self.patterns: list[tuple[int, Taken]] = []
        self._seen: set[tuple[int, Taken]] = set()
        for n in wanted:
            self.solver.addCol(-n, 0.0, 1e15, 0, [], [])
        self._limits: dict[int, int] = {}
        for r, room in enumerate(rooms):
            if room.count is not None:
                self._limits[r] = self.kinds + len(self._limits)
                self.solver.addCol(float(room.count), 0.0, 1e15, 0, [], [])

    def add(self, room: int, taken: Taken) -> bool:
        """A pattern; False where it is there already."""
        if (room, taken) in self._seen:
            return False
        self._seen.add((room, taken))
        self.patterns.append((room, taken))
        at = [k for k, n in enumerate(taken) if n]
        factors = [float(taken[k]) for k in at]
        if room in self._limits:
            at, factors = [*at, self._limits[room]], [*factors, -1.0]
        self.solver.addRow(-1e30, float(self.rooms[room].cost), len(at), at, factors)
        return True

    def solved(self) -> tuple[list[int], list[int], float]:
        """The worth of each kind and of one of each room more, in whole fine units, and the objective."""
        self.solver.run()
        worth = self.solver.getSolution().col_value
        if len(worth) == 0:
            return [], [], 0.0
        fine = [max(0, int(v * _FINE)) for v in worth]
        limit = [fine[self._limits[r]] if r in self._limits else 0 for r in range(len(self.rooms))]
        return fine[: self.kinds], limit, -self.solver.getInfo().objective_function_value

    def times(self) -> list[float]:
        """How often each pattern is used in the relaxation."""
        return [abs(float(v)) for v in self.solver.getSolution().row_dual]
