"""Every pattern that a plan cheaper than the best one can have, with what each costs above the worth of its pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pentice.cutting.columns import Relaxation
from pentice.cutting.pricing import FINE, Whole, costs_of, every


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """The kinds that are wanted; for each pattern the number of each of them, its room and its cost."""

    usable: tuple[int, ...]
    taken: Whole
    rooms: Whole
    costs: Whole

    def whole(self, pattern: int, kinds: int) -> tuple[int, tuple[int, ...]]:
        """Room and number of each of all kinds.

        Parameters
        ----------
        pattern
            Which row [-].
        kinds
            How many kinds there are, those not wanted among them [-].

        Returns
        -------
        tuple
            As plans of lengths tell a pattern.
        """
        taken = dict(zip(self.usable, self.taken[pattern].tolist(), strict=True))
        return int(self.rooms[pattern]), tuple(taken.get(k, 0) for k in range(kinds))


def listed(found: Relaxation, below: int, most: int) -> Listed | None:
    """Every pattern that can be in a plan that costs less than what is known.

    Parameters
    ----------
    found
        The relaxation, brought to its end.
    below
        The cost to beat.
    most
        How many patterns there may be [-].

    Returns
    -------
    Listed or None
        None where there are more.

    Examples
    --------
    >>> found = Relaxation([6, 5], [2, 2], [np.full(11, 3)], [None])
    >>> found.improve()
    >>> listed(found, 10, 9).taken.tolist()
    [[0, 2], [1, 0]]
    """
    usable = tuple(k for k, n in enumerate(found.counts) if n)
    lengths = [found.lengths[k] for k in usable]
    counts = [found.counts[k] for k in usable]
    values = [found.values[k] for k in usable]
    slack = found.slack(below - 1)
    parts, number = [], 0
    for c in costs_of(list(zip(found.costs, found.numbers, strict=True))):
        limit = found.limits[int(c.rooms[0])] if c.count is not None else 0
        costs = c.least[: c.top + 1] * FINE
        got = every(lengths, counts, values, costs, slack - limit, most - number)
        if got is None:
            return None
        number += len(got)
        used = _used(got, lengths)
        parts.append((got, c.rooms[used].astype(np.int64), c.least[used]))
    taken, rooms, prices = (np.concatenate(one) for one in zip(*parts, strict=True))
    return Listed(usable=usable, taken=taken, rooms=rooms, costs=prices)


def _used(taken: Whole, lengths: Sequence[int]) -> Whole:
    used: Whole = taken @ np.array(lengths, dtype=np.int64)
    return used
