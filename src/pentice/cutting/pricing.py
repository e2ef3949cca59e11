"""The pieces of greatest worth that one length can give, when what it costs hangs on how much of it is used.

A rest that is worth keeping makes a length cheaper the less of it is used. So a length is told here by its cost at
every use, and all that can be had without limit by the least of them. One table over the lengths then prices every
stock at once (Gilmore and Gomory 1961, bounded: never more of a kind than is wanted).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from pentice.cutting.compiled import COMPILED, compiled

Whole = npt.NDArray[np.int64]
Taken = tuple[int, ...]
FINE = 1_000_000
NEVER = 10**12
"""The cost of what cannot be had; times `FINE` it is still well within 64 bits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """What it costs to use so much of one length, from nothing to the longest; and which room that is."""

    least: Whole
    rooms: npt.NDArray[np.int32]
    count: int | None

    @property
    def top(self) -> int:
        """The most that can be used of it."""
        return int(np.flatnonzero(self.least < NEVER)[-1])


def costs_of(rooms: Sequence[tuple[Whole, int | None]]) -> tuple[Costs, ...]:
    """All that can be had without limit as one, the least cost at each use; then each limited length by itself.

    Parameters
    ----------
    rooms
        Cost at each use from 0 to the whole length, never falling, and how many there are.

    Returns
    -------
    tuple of Costs
        Those without limit first, where there are any.

    Examples
    --------
    >>> found = costs_of([(np.array([3, 3, 3]), None), (np.array([2, 2]), None), (np.array([0, 0]), 4)])
    >>> [c.least[:3].tolist() for c in found][0], [c.count for c in found]
    ([2, 2, 3], [None, 4])
    """
    size = max(len(costs) for costs, _ in rooms)
    least = np.full(size, NEVER, dtype=np.int64)
    which = np.full(size, -1, dtype=np.int32)
    found = []
    for r, (costs, count) in enumerate(rooms):
        if count is None:
            better = costs < least[: len(costs)]
            least[: len(costs)][better] = costs[better]
            which[: len(costs)][better] = r
        elif count > 0:
            alone = np.full(size, NEVER, dtype=np.int64)
            alone[: len(costs)] = costs
            found.append(Costs(least=alone, rooms=np.full(size, r, dtype=np.int32), count=count))
    if (which >= 0).any():
        found.insert(0, Costs(least=least, rooms=which, count=None))
    return tuple(found)


class Table:
    """The greatest worth of pieces within every length, and what gives it.

    ``ends`` are, of each lot taken last: the worth less the cost at best, the lot, and the length left for the others.
    """

    def __init__(
        self, lengths: Sequence[int], counts: Sequence[int], values: Sequence[int], size: int, against: Whole
    ) -> None:
        """Shortest kinds first; ``against`` is the cost at every use, in fine units."""
        self.best: Whole = np.zeros(size, dtype=np.int64)
        order = sorted((k for k, v in enumerate(values) if v > 0 and counts[k] > 0), key=lambda k: lengths[k])
        lots = [(k, lot) for k in order for lot in _lots(min(counts[k], (size - 1) // max(1, lengths[k])))]
        self._lots = [(k, lot, lot * lengths[k]) for k, lot in lots]
        longs = np.array([long for _, _, long in self._lots], dtype=np.int64)
        worths = np.array([lot * values[k] for k, lot in lots], dtype=np.int64)
        self._last = np.empty((len(lots) + 1, size), dtype=np.int16)
        self._last[0] = -1
        ends = np.zeros((len(lots), 2), dtype=np.int64)
        fill = fill_one_by_one if COMPILED else fill_rows
        fill(longs, worths, against, self.best, self._last, ends)
        self.ends = [(gain, j, at) for j, (gain, at) in enumerate(ends.tolist())]

    @property
    def size(self) -> int:
        """How many numbers it has."""
        return int(self._last.size)

    def taken(self, at: int, before: int | None = None) -> list[tuple[int, int]]:
        """Kinds and numbers that give the best within a length, of the first lots only."""
        found = []
        j = len(self._lots) if before is None else before
        while (last := int(self._last[j, at])) >= 0:
            k, lot, long = self._lots[last]
            found.append((k, lot))
            at -= long
            j = last
        return found

    def ending(self, lot: int, at: int) -> list[tuple[int, int]]:
        """The same with one lot taken last."""
        k, n, _ = self._lots[lot]
        return [(k, n), *self.taken(at, lot)]


def fill_rows(longs: Any, worths: Any, against: Any, best: Any, last: Any, ends: Any) -> None:
    """Fills the table lot by lot, whole rows at a time: the fast way without a compiler.

    Parameters
    ----------
    longs, worths
        Of each lot.
    against
        The cost at every use.
    best, last
        The greatest worth within every length, and after each lot the last of those that give it; written.
    ends
        Of each lot taken last, the greatest worth less cost, and the length left for the others; written.
    """
    size = len(best)
    for j in range(len(longs)):
        long = int(longs[j])
        tried = best[: size - long] + worths[j]
        gain = tried - against[long:]
        ends[j, 1] = gain.argmax()
        ends[j, 0] = gain[ends[j, 1]]
        last[j + 1] = last[j]
        np.copyto(last[j + 1, long:], j, where=tried > best[long:])
        np.maximum(best[long:], tried, out=best[long:])


@compiled
def fill_one_by_one(longs: Any, worths: Any, against: Any, best: Any, last: Any, ends: Any) -> None:
    """The same number by number: the fast way with a compiler.

    Parameters
    ----------
    longs, worths, against, best, last, ends
        As in `fill_rows`.
    """
    size = len(best)
    for j in range(len(longs)):
        long, worth = longs[j], worths[j]
        top, at = best[0] + worth - against[long], 0
        for use in range(size - 1, long - 1, -1):
            tried = best[use - long] + worth
            if tried - against[use] >= top:
                top, at = tried - against[use], use - long
            if tried > best[use]:
                best[use] = tried
                last[j + 1, use] = j
            else:
                last[j + 1, use] = last[j, use]
        for use in range(long):
            last[j + 1, use] = last[j, use]
        ends[j, 0], ends[j, 1] = top, at


def _lots(count: int) -> Iterator[int]:
    """1, 2, 4 ... and what remains: any number up to the count is a sum of some of them."""
    lot = 1
    while count > 0:
        lot = min(lot, count)
        yield lot
        count -= lot
        lot *= 2


def every(
    lengths: Sequence[int],
    counts: Sequence[int],
    values: Sequence[int],
    costs: Whole,
    slack: int,
    most: int,
) -> Whole | None:
    """Every choice of pieces whose cost is above its worth by no more than a slack.

    Parameters
    ----------
    lengths, counts, values
        Of each kind, the worth in fine units [-].
    costs
        At each use, in fine units.
    slack
        In fine units.
    most
        How many choices may be given [-].

    Returns
    -------
    array or None
        A row for each choice, the number of each kind in it; None where there are more.

    Examples
    --------
    >>> every([6, 4], [1, 3], [7, 4], np.full(13, 12), 1, 99).tolist()
    [[0, 3], [1, 1]]
    """
    size = len(costs)
    rows: list[Whole] = [-costs]
    for length, count, value in zip(lengths, counts, values, strict=True):
        row = rows[-1].copy()
        for n in range(1, min(count, (size - 1) // length) + 1):
            row[: size - n * length] = np.maximum(
                row[: size - n * length], rows[-1][n * length :] + n * value
            )
        rows.append(row)
    # Each step keeps the number taken and the choice it was added to; whole choices are told at the end only.
    steps: list[tuple[Whole, Whole]] = []
    used = np.zeros(1, dtype=np.int64)
    worth = np.zeros(1, dtype=np.int64)
    for k in reversed(range(len(lengths))):
        parts = []
        for n in range(min(counts[k], (size - 1) // lengths[k]) + 1):
            at = np.flatnonzero(used + n * lengths[k] < size)
            at = at[worth[at] + n * values[k] + rows[k][used[at] + n * lengths[k]] >= -slack]
            if len(at):
                parts.append((at, np.full(len(at), n)))
        if not parts:
            return np.zeros((0, len(lengths)), dtype=np.int64)
        before, number = (np.concatenate(one) for one in zip(*parts, strict=True))
        steps.append((before, number))
        used = used[before] + number * lengths[k]
        worth = worth[before] + number * values[k]
        # Each of these leads to one choice at least.
        if len(used) > most:
            return None
    return _told(steps)[used > 0]


def _told(steps: Sequence[tuple[Whole, Whole]]) -> Whole:
    """The number of each kind in every choice, from the last kind that was looked at, which is the first, back."""
    at = np.arange(len(steps[-1][0]))
    columns = []
    for before, number in reversed(steps):
        columns.append(number[at])
        at = before[at]
    return np.stack(columns, axis=1)
