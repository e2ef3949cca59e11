"""Choosing patterns exactly, in whole numbers, by going through every demand that can be left (small jobs)."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence

from pentice.cutting.patterns import Counts, Cover, Key, Pattern

State = tuple[int, ...]
_Counted = tuple[Pattern, Counts]
_Table = dict[State, tuple[Key, _Counted | None]]
_NOTHING: Key = (0, 0, 0, 0)


def cover_by_states(
    patterns: Sequence[Pattern], demand: Sequence[int], limits: Sequence[int | None]
) -> Cover | None:
    """The cheapest choice, then the fewest stock pieces, least stock, fewest cuts, proven by trying every state.

    Parameters
    ----------
    patterns
        What may be chosen.
    demand
        How many of each kind are wanted [-].
    limits
        How many there are of each stock [-]; None for any number.

    Returns
    -------
    Cover or None
        None when the stock at hand cannot give what is asked for.

    Examples
    --------
    >>> free = Pattern(stock=0, kinds=(0,), price=0, size=3000)
    >>> two = Pattern(stock=1, kinds=(0, 0), price=900, size=6000)
    >>> cover_by_states([free, two], [3], [1, None]).cost
    900
    """
    counted = [(p, p.counts) for p in patterns]
    wanted = tuple(demand)
    tables = [_unlimited([c for c in counted if limits[c[0].stock] is None], wanted)]
    for stock, limit in enumerate(limits):
        mine = [c for c in counted if c[0].stock == stock]
        for _ in range(min(limit or 0, sum(wanted)) if mine else 0):
            tables.append(_with_one(tables[-1], mine, wanted))
    if wanted not in tables[-1]:
        return None
    cost = tables[-1][wanted][0][0]
    return Cover(chosen=tuple(_followed(tables, wanted)), cost=cost, bound=cost)


def _unlimited(free: Sequence[_Counted], wanted: State) -> _Table:
    """Least key and first pattern for every state, from stock without limit; absent where none serves."""
    table: _Table = {}
    for left in _states(wanted):
        first = next((i for i, d in enumerate(left) if d), None)
        if first is None:
            table[left] = (_NOTHING, None)
            continue
        best = _best(table, [c for c in free if first in c[0].kinds], left)
        if best is not None:
            table[left] = best
    return table


def _with_one(before: _Table, mine: Sequence[_Counted], wanted: State) -> _Table:
    """The table when one more piece of a limited stock may be used, or not."""
    table: _Table = {}
    for left in _states(wanted):
        unused = (before[left][0], None) if left in before else None
        used = _best(before, mine, left) if any(left) else None
        if used is not None and (unused is None or used[0] < unused[0]):
            table[left] = used
        elif unused is not None:
            table[left] = unused
    return table


def _best(
    table: Mapping[State, tuple[Key, _Counted | None]], choice: Sequence[_Counted], left: State
) -> tuple[Key, _Counted] | None:
    best: tuple[Key, _Counted] | None = None
    for counted in choice:
        rest = table.get(_less(left, counted[1]))
        if rest is None:
            continue
        key = _plus(counted[0].key, rest[0])
        if best is None or key < best[0]:
            best = (key, counted)
    return best


def _followed(tables: Sequence[_Table], wanted: State) -> list[Pattern]:
    """The patterns that lead to the least key: limited stock from the last table down, then the rest."""
    chosen: list[Pattern] = []
    left = wanted
    for table in reversed(tables[1:]):
        step = table[left][1]
        if step is not None:
            chosen.append(step[0])
            left = _less(left, step[1])
    while (step := tables[0][left][1]) is not None:
        chosen.append(step[0])
        left = _less(left, step[1])
    return chosen


def _states(wanted: State) -> itertools.product[State]:
    return itertools.product(*(range(d + 1) for d in wanted))


def _less(left: State, counts: Counts) -> State:
    rest = list(left)
    for kind, count in counts:
        rest[kind] = max(0, rest[kind] - count)
    return tuple(rest)


def _plus(one: Key, other: Key) -> Key:
    return (one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3])
