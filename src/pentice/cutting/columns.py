"""Patterns priced out: the linear bound of cutting lengths, and the patterns that a good plan is made of.

After Gilmore and Gomory 1961: what a piece is worth is found so that no pattern is worth more than its stock costs; the
patterns that break this most are added until none does. The worth is then rounded down to whole numbers and checked by
a last exact knapsack, so that the bound does not hang on the arithmetic of the solver (Farley 1990). A pattern never
has more of a piece than is wanted, which makes the bound stronger; a rest worth keeping makes it cheaper.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np
import numpy.typing as npt

from pentice.cutting.packing import Stop
from pentice.cutting.pricing import FINE, Costs, Table, Taken, Whole, costs_of

_PASSES = 600
_TABLE_MOST = 60_000_000
_AT_ONCE = 40
_STEPS = 20_000
_STEADY = 1
_NEAR = 2
_FREE = 1e30


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A length that can be had: what fits in it, its cost, how many there are, and the length that was paid for."""

    length: int
    cost: int
    count: int | None = None
    paid: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """What each kind of piece is worth, and the bound that follows."""

    worth: tuple[Fraction, ...]
    bound: Fraction


def relaxed(
    lengths: Sequence[int],
    counts: Sequence[int],
    rooms: Sequence[Room],
    *,
    weights: Sequence[float] | None = None,
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
    flat = [np.full(room.length + 1, room.cost, dtype=np.int64) for room in rooms]
    if too_large(lengths, flat):
        return None
    found = Relaxation(lengths, counts, flat, [room.count for room in rooms], weights=weights)
    found.improve(stop)
    return Relaxed(worth=found.worth, bound=found.bound)


def too_large(lengths: Sequence[int], costs: Sequence[Whole]) -> bool:
    """Whether the tables of pricing would take too much memory.

    Parameters
    ----------
    lengths
        Of each kind.
    costs
        Of each room, at every use.

    Returns
    -------
    bool
        True where they would.
    """
    return max(len(c) for c in costs) * len(lengths) > _TABLE_MOST


class Relaxation:
    """The worth of the pieces as a linear program; each pattern is a row, and how often it is used is its dual.

    What is wanted can be changed (`aim`): the patterns stay, those that give too much of a kind rest meanwhile.
    """

    def __init__(
        self,
        lengths: Sequence[int],
        counts: Sequence[int],
        costs: Sequence[Whole],
        numbers: Sequence[int | None],
        *,
        weights: Sequence[float] | None = None,
    ) -> None:
        from pentice.cutting.highs import quiet

        self.lengths, self.costs = tuple(lengths), tuple(costs)
        self.patterns: list[tuple[int, Taken]] = []
        self.prices: list[int] = []
        """Of each pattern."""
        self.bound, self.worth = Fraction(-1), tuple([Fraction(0)] * len(lengths))
        self.values: tuple[int, ...] = ()
        self.limits: tuple[int, ...] = ()
        """The worth of each kind, and of one of each room more, in fine units; exact where ``done``."""
        self.work = 0
        """Numbers of all tables so far: how much was done, whatever the clock says."""
        self._over = 0
        self._steady: tuple[int, ...] | None = None
        self.done = False
        self._solver: Any = quiet()
        self._seen: set[tuple[int, Taken]] = set()
        self._givers = np.zeros((256, len(lengths)), dtype=np.int64)
        self._resting = np.zeros(0, dtype=bool)
        self._limit = {r: len(lengths) + i for i, r in enumerate(_limited(numbers))}
        # No piece is worth more than this; it keeps the sums whole where the stock is too short.
        most = 100.0 * max(1, *(int(c.max()) for c in costs))
        for _ in range(len(lengths) + len(self._limit)):
            self._solver.addCol(0.0, 0.0, most, 0, [], [])
        self.aim(counts, numbers, weights)
        self._add_alone()

    def aim(
        self, counts: Sequence[int], numbers: Sequence[int | None], weights: Sequence[float] | None = None
    ) -> None:
        """Change what is wanted and what there is; the bound begins anew.

        Parameters
        ----------
        counts, numbers, weights
            Of each kind, of each room, and of each kind where that differs from the counts.
        """
        self.counts, self.numbers = tuple(counts), tuple(numbers)
        self._target: tuple[int | Fraction, ...] = tuple(counts)
        if weights is not None:
            self._target = tuple(Fraction(n) for n in weights)
        self._classes = costs_of(list(zip(self.costs, self.numbers, strict=True)))
        costs = [-float(n) for n in self._target]
        costs += [float(self.numbers[r] or 0) for r in self._limit]
        at = np.arange(len(costs), dtype=np.int32)
        self._solver.changeColsCost(len(costs), at, np.array(costs))
        resting = self._too_much(0)
        for j in np.flatnonzero(resting != self._resting):
            top = _FREE if resting[j] else float(self.prices[j])
            self._solver.changeRowBounds(int(j), -_FREE, top)
        self._resting = resting
        self.bound, self.done = Fraction(-1), False

    def add(self, patterns: Iterable[tuple[int, Taken]]) -> int:
        """Patterns that are not there yet; how many these were.

        Parameters
        ----------
        patterns
            Room and number of each kind.

        Returns
        -------
        int
            [-].
        """
        fresh = [p for p in dict.fromkeys(patterns) if p not in self._seen]
        new, first = len(fresh), len(self.patterns)
        if new == 0:
            return 0
        self._seen.update(fresh)
        self.patterns += fresh
        while len(self.patterns) > len(self._givers):
            self._givers = np.concatenate([self._givers, np.zeros_like(self._givers)])
        givers = np.array([taken for _, taken in fresh], dtype=np.int64)
        self._givers[first : first + new] = givers
        used = (givers @ np.array(self.lengths)).tolist()
        self.prices += [int(self.costs[room][u]) for (room, _), u in zip(fresh, used, strict=True)]
        resting = self._too_much(first)
        self._resting = np.concatenate([self._resting, resting])
        factors = np.zeros((new, len(self.lengths) + len(self._limit)))
        factors[:, : len(self.lengths)] = givers
        for i, (room, _) in enumerate(fresh):
            if room in self._limit:
                factors[i, self._limit[room]] = -1.0
        rows, at = np.nonzero(factors)
        self._solver.addRows(
            new,
            np.full(new, -_FREE),
            np.where(resting, _FREE, np.array(self.prices[first:], dtype=float)),
            len(at),
            np.searchsorted(rows, np.arange(new)).astype(np.int32),
            at.astype(np.int32),
            factors[rows, at],
        )
        return new

    def improve(self, stop: Stop | None = None, *, enough: float | None = None) -> None:
        """Add patterns until none is missing, or until stopped.

        Parameters
        ----------
        stop
            Ends it early; the bound is valid all the same, only lower.
        enough
            A bound at which nothing more is wanted.
        """
        for _ in range(_PASSES):
            if not self._solved():
                return
            if self._price():
                self.done = True
                return
            if (enough is not None and float(self.bound) >= enough) or (stop is not None and stop()):
                return

    def slack(self, cost: int) -> int:
        """By how much the cost of a pattern may be above its worth in a plan of no more than a cost; where ``done``.

        Parameters
        ----------
        cost
            In whole units.

        Returns
        -------
        int
            In fine units.
        """
        worth = sum(n * v for n, v in zip(self.counts, self.values, strict=True))
        worth -= sum((n or 0) * v for n, v in zip(self.numbers, self.limits, strict=True))
        return cost * FINE - worth + self.over_all()

    def over_all(self) -> int:
        """What the worths of all wanted pieces may be too high together, since prices are whole; where ``done``.

        Returns
        -------
        int
            In fine units.
        """
        return max(0, self._over) * sum(self.counts)

    def times(self) -> list[float]:
        """How often each pattern is used.

        Returns
        -------
        list of float
            In the order of the patterns [-].
        """
        return [abs(float(v)) for v in self._solver.getSolution().row_dual]

    def _too_much(self, first: int) -> npt.NDArray[np.bool_]:
        """Which patterns from one on give more of a kind than is wanted."""
        found: npt.NDArray[np.bool_] = np.any(
            self._givers[first : len(self.patterns)] > np.array(self.counts), axis=1
        )
        return found

    def _add_alone(self) -> None:
        """The patterns of one kind only, one of it and as many as fit, so that every kind always has its worth."""
        found = []
        for k, length in enumerate(self.lengths):
            for c in self._classes:
                if length <= c.top and self.counts[k]:
                    most = min(self.counts[k], c.top // length)
                    found += [self._pattern([(k, n)], c) for n in (1, most)]
        self.add(found)

    def _solved(self) -> bool:
        """The worths of the patterns at hand."""
        self._solver.run()
        worth = self._solver.getSolution().col_value
        if len(worth) == 0:
            return False
        fine = [max(0, int(v * FINE)) for v in worth]
        self.values = tuple(fine[: len(self.lengths)])
        self.limits = tuple(fine[self._limit[r]] if r in self._limit else 0 for r in range(len(self.costs)))
        return True

    def _price(self) -> bool:
        """Add patterns that are worth more than they cost, and get a bound; True where there are none.

        They are looked for at worths between the newest and those of the best bound first, which takes fewer passes
        (smoothing: Wentges 1997), and for long stock in rounded steps, before all is priced exactly.
        """
        size = max(len(c.least) for c in self._classes)
        step = -(-size // _STEPS)
        if self._steady is not None and self._steady != self.values:
            mixed = tuple(
                (_STEADY * a + b) // (_STEADY + 1) for a, b in zip(self._steady, self.values, strict=True)
            )
            if self.add(self._gaining(self._found(mixed, step))):
                return False
        if step > 1 and self.add(self._gaining(self._found(self.values, step))):
            return False
        return self.add(self._found(self.values, 1)) == 0

    def _found(self, values: tuple[int, ...], step: int) -> list[tuple[int, Taken]]:
        """The best patterns at these worths; with a step, lengths are rounded up and stock is rounded down to it."""
        lengths = [-(-length // step) for length in self.lengths] if step > 1 else self.lengths
        fine = [c.least[::step] * FINE for c in self._classes]
        table = Table(lengths, self.counts, values, len(fine[0]), fine[0])
        self.work += table.size
        gains = [table.best - costs for costs in fine]
        tops = [int(gain.argmax()) for gain in gains]
        if step == 1:
            self._certify(values, table.best, gains, tops)
        found: list[tuple[int, Taken]] = []
        over = []
        for c, gain, at in zip(self._classes, gains, tops, strict=True):
            limit = self.limits[int(c.rooms[0])] if c.count is not None else 0
            over.append(int(gain[at]) - limit)
            if over[-1] > _NEAR:
                found.append(self._pattern(table.taken(at), c))
        self._over = max(over)
        if self._classes[0].count is None:
            ends = sorted((end for end in table.ends if end[0] > _NEAR), reverse=True)
            found += [self._pattern(table.ending(j, at), self._classes[0]) for _, j, at in ends[:_AT_ONCE]]
        return found

    def _gaining(self, patterns: Iterable[tuple[int, Taken]]) -> list[tuple[int, Taken]]:
        """Those that are worth more than they cost at the newest worths."""
        found = []
        for room, taken in patterns:
            parts = [(k, n) for k, n in enumerate(taken) if n]
            cost = int(self.costs[room][sum(n * self.lengths[k] for k, n in parts)]) * FINE
            if sum(n * self.values[k] for k, n in parts) > cost + self.limits[room] + _NEAR:
                found.append((room, taken))
        return found

    def _pattern(self, parts: Iterable[tuple[int, int]], costs: Costs) -> tuple[int, Taken]:
        taken, used = [0] * len(self.lengths), 0
        for k, n in parts:
            taken[k] += n
            used += n * self.lengths[k]
        return int(costs.rooms[used]), tuple(taken)

    def _certify(
        self, values: tuple[int, ...], best: Whole, gains: Sequence[Whole], tops: Sequence[int]
    ) -> None:
        """A bound from any worth of the pieces, however it was found: what limited stock gives beyond its cost is taken
        off; where stock without limit gives more than it costs, all are scaled down."""
        scale = Fraction(1)
        total: int | Fraction = sum(n * v for n, v in zip(self._target, values, strict=True))
        for c, gain, at in zip(self._classes, gains, tops, strict=True):
            if c.count is None and gain[at] > 0:
                over = np.flatnonzero(gain > 0)
                ratios = c.least[over] / best[over]
                # Floating point only picks out those that may be the least; they are compared exactly.
                near = over[ratios <= ratios.min() * (1 + 1e-12)]
                scale = min(Fraction(int(c.least[u]) * FINE, int(best[u])) for u in near)
            elif c.count is not None:
                # Scaled worths less the whole cost are at most the scaled gain.
                total -= c.count * max(0, int(gain[at]))
        bound = scale * Fraction(total) / FINE
        if bound > self.bound:
            self.bound, self.worth = bound, tuple(Fraction(v, FINE) * scale for v in values)
            self._steady = values


def _limited(numbers: Sequence[int | None]) -> list[int]:
    return [r for r, n in enumerate(numbers) if n is not None]
