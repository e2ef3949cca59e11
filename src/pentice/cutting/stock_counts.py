"""Lengths of several stocks: how many of each are bought, tried in the order of their cost.

The relaxation takes parts of a length, so where a longer length costs little more its bound lies well below any plan.
Whole numbers of each stock leave no parts: of every choice that costs less than the plan at hand, the relaxation says
whether the pieces fit at all. What the worths of one choice exclude they exclude of many others at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from pentice.cutting.columns import Relaxation
from pentice.cutting.pricing import FINE, Table

_CHOICES_MOST = 20_000


@dataclass(frozen=True, slots=True)
class _Cut:
    """Worths that no choice can break: the pieces are worth so much, and one more of each stock so little."""

    worth: int
    limits: tuple[int, ...]


class Excluded:
    """What is known to be too little, from every relaxation so far."""

    def __init__(self) -> None:
        self._cuts: list[_Cut] = []

    def learn(self, found: Relaxation) -> None:
        """Keep the worths of a relaxation that has come to its end.

        Parameters
        ----------
        found
            The relaxation.
        """
        worth = sum(n * v for n, v in zip(found.counts, found.values, strict=True))
        self._cuts.append(_Cut(worth - found.over_all(), _limits(found)))

    def holds(self, numbers: Sequence[int], cost: int) -> bool:
        """Whether these numbers of stock are known to be too little.

        Parameters
        ----------
        numbers, cost
            Of each stock, and what they cost together.

        Returns
        -------
        bool
            True where some worths say so.
        """
        return any(
            cut.worth - sum(n * v for n, v in zip(numbers, cut.limits, strict=True)) > cost * FINE
            for cut in self._cuts
        )


def _limits(found: Relaxation) -> tuple[int, ...]:
    """The worth of one more of each stock; of those that it had none of, which were not priced, from a table."""
    limits = list(found.limits)
    absent = [r for r, n in enumerate(found.numbers) if n == 0]
    if absent:
        size = max(len(found.costs[r]) for r in absent)
        table = Table(found.lengths, found.counts, found.values, size, np.zeros(size, dtype=np.int64))
        for r in absent:
            costs = found.costs[r]
            limits[r] = max(0, int(table.best[len(costs) - 1]) - int(costs.max()) * FINE)
    return tuple(limits)


def choices(
    need: int,
    sizes: Sequence[int],
    costs: Sequence[int],
    numbers: Sequence[int | None],
    between: tuple[int, int],
) -> list[tuple[int, tuple[int, ...]]] | None:
    """Every choice of stock that is long enough and costs no less than one and less than another amount.

    Parameters
    ----------
    need
        Length of all pieces, each with a kerf.
    sizes, costs, numbers
        Of each stock: its length and a kerf, its cost, and how many there are.
    between
        Least cost, and the cost to stay below.

    Returns
    -------
    list or None
        Cost and number of each stock, the cheapest first; None where they are too many.

    Examples
    --------
    >>> choices(10, [6, 4], [5, 3], [None, None], (0, 11))
    [(8, (1, 1)), (9, (0, 3)), (10, (2, 0))]
    """
    if any(cost == 0 and number is None for cost, number in zip(costs, numbers, strict=True)):
        return None
    order = sorted(range(len(sizes)), key=lambda r: costs[r] / sizes[r])
    found: list[tuple[int, tuple[int, ...]]] = []

    def fill(at: int, left: int, spent: int, taken: tuple[int, ...]) -> Iterator[tuple[int, tuple[int, ...]]]:
        if at == len(order):
            if left <= 0 and spent >= between[0]:
                yield spent, taken
            return
        r, room = order[at], between[1] - 1 - spent
        # From here on nothing is cheaper for its length.
        if left > 0 and costs[r] and room * sizes[r] < left * costs[r]:
            return
        most = room // costs[r] if costs[r] else _CHOICES_MOST
        number = numbers[r]
        for n in range(most if number is None else min(most, number), -1, -1):
            now = (*taken[:r], n, *taken[r + 1 :])
            yield from fill(at + 1, left - n * sizes[r], spent + n * costs[r], now)

    for choice in fill(0, need, 0, (0,) * len(sizes)):
        found.append(choice)
        if len(found) > _CHOICES_MOST:
            return None
    return sorted(found)
