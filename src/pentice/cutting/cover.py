"""Choosing patterns so that every piece is cut: least cost, then fewest stock pieces, then least stock used.

Small jobs are solved exactly by going through every demand that can be left, and among equals take the fewest cuts;
larger ones by HiGHS, whose proven bound is rounded up to a whole multiple of what all prices have in common.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from pentice.cutting.cover_states import cover_by_states
from pentice.cutting.highs import Amounts, Row, least_amounts
from pentice.cutting.patterns import Cover, Pattern

_SMALL = 60_000
_GUARD = 0.01


def cover(
    patterns: Sequence[Pattern], demand: Sequence[int], limits: Sequence[int | None], *, effort: float = 1.0
) -> Cover | None:
    """The cheapest choice of patterns that gives at least what is asked for.

    Parameters
    ----------
    patterns
        What may be chosen, any number of times within the limits.
    demand
        How many of each kind are wanted [-].
    limits
        How many there are of each stock [-]; None for any number.
    effort
        Scales the work that may be done [-].

    Returns
    -------
    Cover or None
        None when the stock at hand cannot give what is asked for, or when nothing was found within the effort.

    Examples
    --------
    >>> two = Pattern(stock=0, kinds=(0, 0), price=900, size=6000)
    >>> one = Pattern(stock=1, kinds=(0,), price=500, size=3000)
    >>> cover([two, one], [3], [None, None]).cost
    1400
    """
    if is_small(patterns, demand, limits):
        return cover_by_states(patterns, demand, limits)
    return _cover_by_highs(patterns, demand, limits, effort)


def rounded_bound(value: float, prices: Sequence[int]) -> int:
    """A proven real bound made whole: up to the next multiple of what all prices have in common.

    Parameters
    ----------
    value
        The bound [smallest unit of money].
    prices
        Every price that can occur [smallest unit of money].

    Returns
    -------
    int
        The least cost that can really occur [smallest unit of money].

    Examples
    --------
    >>> rounded_bound(901.3, [500, 900]), rounded_bound(900.001, [500, 900])
    (1000, 900)
    """
    step = math.gcd(*prices) or 1
    return max(0, math.ceil((value - _GUARD) / step) * step)


def is_small(patterns: Sequence[Pattern], demand: Sequence[int], limits: Sequence[int | None]) -> bool:
    """Whether `cover` goes through every demand that can be left, which is soon done, or asks HiGHS.

    Parameters
    ----------
    patterns, demand, limits
        As for `cover`.

    Returns
    -------
    bool
        True up to some 60,000 sums.

    Examples
    --------
    >>> two = Pattern(stock=0, kinds=(0, 0), price=900, size=6000)
    >>> is_small([two], [3], [None]), is_small([two], [3] * 10, [None])
    (True, False)
    """
    states = math.prod(d + 1 for d in demand)
    rounds = (min(limits[p.stock] or 1, sum(demand)) for p in patterns)
    return states * sum(rounds) <= _SMALL


def _cover_by_highs(
    patterns: Sequence[Pattern], demand: Sequence[int], limits: Sequence[int | None], effort: float
) -> Cover | None:
    rows = _rows(patterns, demand, limits)
    most = [max(math.ceil(demand[kind] / n) for kind, n in p.counts) for p in patterns]
    whole = [True] * len(patterns)
    costs = [p.price for p in patterns]
    cheapest = least_amounts(costs, most, whole, rows, effort=effort)
    if cheapest is None or not cheapest.values:
        return None
    cost = _cost(patterns, cheapest)
    fewer = _fewest(patterns, demand, most, rows, cost, cheapest, effort)
    times = [round(v) for v in fewer.values]
    chosen = tuple(p for p, n in zip(patterns, times, strict=True) for _ in range(n))
    bound = min(cost, rounded_bound(cheapest.bound, costs))
    return Cover(chosen=chosen, cost=cost, bound=bound)


def _fewest(
    patterns: Sequence[Pattern],
    demand: Sequence[int],
    most: Sequence[int],
    rows: Sequence[Row],
    cost: int,
    start: Amounts,
    effort: float,
) -> Amounts:
    """Among the choices that cost no more: the fewest stock pieces, then the least stock."""
    largest = max(p.size for p in patterns) * sum(demand)
    weights = [1.0 + 0.5 * p.size / largest for p in patterns]
    no_dearer: Row = (0.0, cost + 0.5, tuple((j, p.price) for j, p in enumerate(patterns) if p.price))
    whole = [True] * len(patterns)
    found = least_amounts(weights, most, whole, [*rows, no_dearer], effort=effort)
    if found is None or not found.values or _cost(patterns, found) > cost:
        return start
    return found


def _rows(patterns: Sequence[Pattern], demand: Sequence[int], limits: Sequence[int | None]) -> list[Row]:
    gives: list[list[tuple[int, float]]] = [[] for _ in demand]
    uses: dict[int, list[tuple[int, float]]] = {}
    for j, pattern in enumerate(patterns):
        for kind, n in pattern.counts:
            gives[kind].append((j, float(n)))
        if limits[pattern.stock] is not None:
            uses.setdefault(pattern.stock, []).append((j, 1.0))
    rows: list[Row] = [(float(d), math.inf, tuple(g)) for d, g in zip(demand, gives, strict=True)]
    rows += [(0.0, float(limits[stock] or 0), tuple(terms)) for stock, terms in uses.items()]
    return rows


def _cost(patterns: Sequence[Pattern], amounts: Amounts) -> int:
    return sum(p.price * round(v) for p, v in zip(patterns, amounts.values, strict=True))
