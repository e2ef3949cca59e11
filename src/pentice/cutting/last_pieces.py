"""The last pieces of a plan, or all of a small job: every pattern that a cheaper plan can have, and the best choice.

A pattern whose cost is above its worth by more than what the best plan is above the bound is in no cheaper plan. Where
few enough are left, all are listed and chosen from by branch and bound (HiGHS), which can be stopped.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pentice.cutting.columns import Relaxation
from pentice.cutting.first_plan import Chosen
from pentice.cutting.highs import Row, least_amounts
from pentice.cutting.listed import Listed, listed
from pentice.cutting.packing import Stop
from pentice.cutting.pricing import Whole

_ROWS_MOST = 6_000_000
_GUARD = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Last:
    """Room and number of each kind for each piece of stock (None where no cheaper choice was found), their cost, and a
    cost below which there is no choice (the cost to beat, where it was shown that there is none cheaper)."""

    chosen: tuple[Chosen, ...] | None
    cost: int
    bound: int


def last_pieces(
    found: Relaxation, below: int, *, most: int, effort: float, stop: Stop | None = None
) -> Last | None:
    """The cheapest way to cut what a relaxation wants now, where it costs less than what is known.

    Parameters
    ----------
    found
        The relaxation, brought to its end.
    below
        The cost to beat.
    most
        How many patterns may be chosen from [-].
    effort
        Scales the work of the solver [-].
    stop
        Ends it.

    Returns
    -------
    Last or None
        None where there are too many patterns, or where it was stopped before anything was found.
    """
    usable = [k for k, n in enumerate(found.counts) if n]
    size = max(len(c) for c in found.costs)
    if not found.done or (len(usable) + 1) * size > _ROWS_MOST:
        return None
    columns = listed(found, below, most)
    if columns is None:
        return None
    if len(columns.costs) == 0:
        return Last(chosen=None, cost=below, bound=below)
    wanted = np.array([found.counts[k] for k in usable])
    tops = (-(-wanted // np.maximum(1, columns.taken)) * (columns.taken > 0)).max(axis=1)
    rows = _rows(found, wanted, columns)
    got = least_amounts(
        columns.costs.tolist(), tops.tolist(), [True] * len(tops), rows, effort=effort, stop=stop
    )
    if got is None:
        return Last(chosen=None, cost=below, bound=below)
    bound = min(below, int(-((_GUARD - got.bound) // 1)) if got.bound > 0 else 0)
    if not got.values:
        return Last(chosen=None, cost=below, bound=bound) if bound > 0 else None
    chosen: list[Chosen] = []
    cost = 0
    for j, n in enumerate(got.values):
        times = round(n)
        if times:
            chosen += [columns.whole(j, len(found.counts))] * times
            cost += times * int(columns.costs[j])
    return Last(chosen=tuple(chosen), cost=cost, bound=min(bound, cost))


def _rows(found: Relaxation, wanted: Whole, columns: Listed) -> list[Row]:
    rows: list[Row] = []
    for i, number in enumerate(wanted):
        at = np.flatnonzero(columns.taken[:, i])
        terms = tuple(zip(at.tolist(), columns.taken[at, i].astype(float).tolist(), strict=True))
        rows.append((float(number), 1e30, terms))
    for r, most in enumerate(found.numbers):
        at = np.flatnonzero(columns.rooms == r)
        if most is not None and len(at):
            rows.append((0.0, float(most), tuple((int(j), 1.0) for j in at)))
    return rows
