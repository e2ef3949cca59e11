"""The last step to a plan as cheap as its bound: patterns that give exactly what is wanted, found by going back and on.

Where a plan may waste next to nothing, few patterns can be in it, and each piece has few of them. So the piece with the
fewest patterns left is served first, by the pattern that the relaxation uses most, a little chance mixed in; a piece
without any turns the search back and is served sooner from then on (Boussemart, Hemery, Lecoutre and Sais 2004). It
starts again after a thousand steps with other chance, which does more than patience (Gomes, Selman and Kautz 1998). A
search that comes to its end has proven that there is no such plan: its sums are whole, so that the proof is exact.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

from pentice.cutting.columns import Relaxation
from pentice.cutting.compiled import Table, blank, compiled, table
from pentice.cutting.first_plan import Chosen
from pentice.cutting.listed import Listed, listed
from pentice.cutting.packing import Stop
from pentice.cutting.pricing import FINE

_STEPS = 1000
_NOISE = 0.5
_PART = 1000
_HELD_MOST = 4_000_000
_NONE, _ENOUGH = -1, -2
_SERVED, _STUCK = -1, -2


class Patterns(NamedTuple):
    """Flat tables (named tuples, which the compiler knows): the kinds of each pattern and how many of each, one after
    another; where each pattern begins; what it costs above its worth, in fine units, never below 0."""

    kinds: Table
    numbers: Table
    starts: Table
    over: Table


class Levels(NamedTuple):
    """What a try writes: the patterns as they are tried, and after them those that still fit at each level, which begin
    at ``begins``; at each level the pattern taken, the kind it serves, and where the next may stand; what is left of
    each kind, how many patterns have it, and how often it had none, which stays from try to try."""

    held: Table
    begins: Table
    picked: Table
    serves: Table
    at: Table
    left: Table
    ways: Table
    missed: Table


class ExactChoice:
    """A search that can be taken up again, each try with other chance."""

    def __init__(self, found: Relaxation, listed_: Listed, below: int, seed: int = 0) -> None:
        """The relaxation at its end, no stock of it limited; every pattern of a plan that costs less than ``below``."""
        self.below, self.listed = below, listed_
        self.ended = False
        """Whether there is no plan that costs less, or it has been found."""
        self._kinds = len(found.counts)
        self._wanted = [found.counts[k] for k in listed_.usable]
        values = np.array([found.values[k] for k in listed_.usable], dtype=np.int64)
        # Pricing may leave a pattern worth a little more than it costs: so much is added to all, and to the slack.
        spare = found.over_all() // max(1, sum(self._wanted))
        over = listed_.costs * FINE - listed_.taken @ values + spare
        self._slack = found.slack(below - 1)
        rows, kinds = np.nonzero(listed_.taken)
        starts = np.searchsorted(rows, np.arange(len(over) + 1))
        numbers = listed_.taken[rows, kinds]
        self._patterns = Patterns(*(table(one) for one in (kinds, numbers, starts, over)))
        self._likely = _likely(found, listed_)
        # A short congruential generator for each pattern, all moved at once; the high halves look like chance.
        first = np.arange(len(over), dtype=np.uint64) + np.uint64(seed % (1 << 32) * 1_000_003 + 1)
        self._state = first * np.uint64(0x9E3779B97F4A7C15)
        deep = sum(self._wanted) + 2
        sizes = (deep * len(over), deep + 1, deep, deep, deep, len(values), len(values), len(values))
        self._levels = Levels(*(blank(size) for size in sizes))

    @staticmethod
    def of(found: Relaxation, below: int, most: int, seed: int = 0) -> ExactChoice | None:
        """The search for a plan of a relaxation brought to its end.

        Parameters
        ----------
        found
            No stock of it limited.
        below
            The cost to beat.
        most
            How many patterns there may be [-].
        seed
            Of its chance [-].

        Returns
        -------
        ExactChoice or None
            None where there are too many patterns, or stock is limited.
        """
        if not found.done or any(n is not None for n in found.numbers):
            return None
        patterns = listed(found, below, min(most, _HELD_MOST // (sum(found.counts) + 2)))
        return ExactChoice(found, patterns, below, seed) if patterns is not None else None

    def tried(self, tries: int, stop: Stop | None = None) -> tuple[Chosen, ...] | None:
        """Some tries more.

        Parameters
        ----------
        tries
            At most so many [-].
        stop
            Ends it, asked before each.

        Returns
        -------
        tuple or None
            Room and number of each kind, once for each piece of stock; None where no plan was found.

        Examples
        --------
        >>> found = Relaxation([6, 4], [2, 2], [np.full(11, 3)], [None])
        >>> found.improve()
        >>> ExactChoice.of(found, 7, most=9).tried(1)
        ((0, (1, 1)), (0, (1, 1)))
        """
        for _ in range(tries):
            if self.ended or (stop is not None and stop()):
                return None
            depth = self._once()
            self.ended = depth != _ENOUGH
            if depth >= 0:
                picked = [int(p) for p in self._levels.picked[:depth]]
                return tuple(self.listed.whole(p, self._kinds) for p in picked)
        return None

    def _once(self) -> int:
        order = np.argsort(self._noise() - self._likely, kind="stable")
        levels = self._levels
        levels.held[: len(order)] = table(order)
        levels.begins[1] = len(order)
        levels.left[:] = table(self._wanted)
        return int(search(self._patterns, levels, self._slack, _STEPS))

    def _noise(self) -> npt.NDArray[np.float64]:
        self._state = self._state * np.uint64(6364136223846793005) + np.uint64(1442695040888963407)
        shares: npt.NDArray[np.float64] = (self._state >> np.uint64(33)).astype(np.float64) * (
            _NOISE / (1 << 31)
        )
        return shares


def _likely(found: Relaxation, patterns: Listed) -> npt.NDArray[np.float64]:
    """How often the relaxation uses each pattern."""
    uses = {taken: n for (_, taken), n in zip(found.patterns, found.times(), strict=True) if n > 0.0}
    likely = np.zeros(len(patterns.costs))
    at = {row.tobytes(): j for j, row in enumerate(np.ascontiguousarray(patterns.taken, dtype=np.int64))}
    for taken, n in uses.items():
        row = np.array([taken[k] for k in patterns.usable], dtype=np.int64)
        if (j := at.get(row.tobytes())) is not None:
            likely[j] = n
    return likely


@compiled
def search(patterns: Patterns, levels: Levels, slack: int, steps: int) -> int:
    """One try: patterns whose costs above worth stay within a slack together and that give exactly what is left.

    Parameters
    ----------
    patterns
        What may be taken.
    levels
        With the order in which patterns are tried and what is wanted; written.
    slack, steps
        For all patterns together, in fine units; how many levels may be entered [-].

    Returns
    -------
    int
        How many patterns were taken; -1 where there is no such choice, -2 where the steps were used up.
    """
    begins, picked, serves, at = levels.begins, levels.picked, levels.serves, levels.at
    level = 0
    enters = True
    while True:
        if enters:
            if steps == 0:
                return _ENOUGH
            steps -= 1
            begins[level + 2] = _that_fit(patterns, levels, begins[level], begins[level + 1], slack)
            serves[level] = _scarcest(levels.left, levels.ways, levels.missed)
            if serves[level] == _SERVED:
                return level
            at[level] = begins[level + 1]
        place = _next_with(patterns, levels.held, at[level], begins[level + 2], serves[level])
        enters = place >= 0
        if enters:
            picked[level] = levels.held[place]
            at[level] = place + 1
            slack -= patterns.over[picked[level]]
            _give(patterns, levels.left, picked[level], 1)
            level += 1
        elif level == 0:
            return _NONE
        else:
            level -= 1
            slack += patterns.over[picked[level]]
            _give(patterns, levels.left, picked[level], -1)


@compiled
def _that_fit(patterns: Patterns, levels: Levels, begin: int, end: int, slack: int) -> int:
    """Those of a level that give nothing too much go to the next; where it ends. Counts the ways of each kind."""
    kinds, numbers, starts, over = patterns
    held, left, ways = levels.held, levels.left, levels.ways
    for kind in range(len(ways)):
        ways[kind] = 0
    last = end
    for i in range(begin, end):
        pattern = held[i]
        fits = over[pattern] <= slack
        for j in range(starts[pattern], starts[pattern + 1]):
            if numbers[j] > left[kinds[j]]:
                fits = False
                break
        if fits:
            held[last] = pattern
            last += 1
            for j in range(starts[pattern], starts[pattern + 1]):
                ways[kinds[j]] += 1
    return last


@compiled
def _scarcest(left: Any, ways: Any, missed: Any) -> int:
    """The kind with the fewest ways for each piece and each time it was missed; -1 where nothing is left, -2 where one
    has none."""
    best, fewest = _SERVED, 0
    for kind in range(len(left)):
        if left[kind] > 0:
            if ways[kind] == 0:
                missed[kind] += 1
                return _STUCK
            number = _PART * ways[kind] // (left[kind] * (1 + missed[kind]))
            if best == _SERVED or number < fewest:
                best, fewest = kind, number
    return best


@compiled
def _next_with(patterns: Patterns, held: Any, begin: int, end: int, kind: int) -> int:
    """Where the next pattern with a kind stands; -1 where there is none."""
    if kind >= 0:
        for i in range(begin, end):
            for j in range(patterns.starts[held[i]], patterns.starts[held[i] + 1]):
                if patterns.kinds[j] == kind:
                    return i
    return -1


@compiled
def _give(patterns: Patterns, left: Any, pattern: int, times: int) -> None:
    """What a pattern gives is no longer wanted (or is again: -1)."""
    for j in range(patterns.starts[pattern], patterns.starts[pattern + 1]):
        left[patterns.kinds[j]] -= times * patterns.numbers[j]
