"""A plan of lengths at once: longest first, each into the stock where it leaves least; then all on cheaper stock."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Sequence

from pentice.cutting.pricing import NEVER, Taken, Whole, costs_of

Chosen = tuple[int, Taken]


def first_plan(
    lengths: Sequence[int], counts: Sequence[int], costs: Sequence[Whole], numbers: Sequence[int | None]
) -> list[Chosen] | None:
    """The cheapest of several plans: one for each stock without limit that is opened throughout.

    Limited stock is filled first where it costs least for its length.

    Parameters
    ----------
    lengths, counts
        Of each kind, the kerf added.
    costs, numbers
        Of each room, at every use, and how many there are.

    Returns
    -------
    list or None
        Room and number of each kind, once for each piece of stock; None where the stock does not do in this way.

    Examples
    --------
    >>> import numpy as np
    >>> first_plan([6, 4], [1, 2], [np.full(11, 5), np.full(5, 2)], [None, None])
    [(0, (1, 1)), (1, (0, 1))]
    """
    order = sorted((k for k, n in enumerate(counts) if n), key=lambda k: -lengths[k])
    open_ended = [r for r, n in enumerate(numbers) if n is None]
    unit = min((int(costs[r][-1]) / (len(costs[r]) - 1) for r in open_ended), default=float(NEVER))
    held = [
        r
        for r, n in enumerate(numbers)
        for _ in range(min(n or 0, sum(counts)))
        if int(costs[r][-1]) <= unit * (len(costs[r]) - 1)
    ]
    best: tuple[int, list[Chosen]] | None = None
    for room in open_ended or [-1]:
        plan = _filled(lengths, counts, costs, order, held, room)
        if plan is None:
            continue
        chosen = _cheaper(lengths, costs, numbers, plan)
        cost = sum(int(costs[r][_used(lengths, taken)]) for r, taken in chosen)
        if best is None or cost < best[0]:
            best = (cost, chosen)
    return best[1] if best is not None else None


def _filled(
    lengths: Sequence[int],
    counts: Sequence[int],
    costs: Sequence[Whole],
    order: Sequence[int],
    held: Sequence[int],
    room: int,
) -> list[Chosen] | None:
    """Best fit; a new one of the room where nothing opened has place."""
    rooms = list(held)
    fills: list[dict[int, int]] = [{} for _ in rooms]
    places = sorted((len(costs[r]) - 1, i) for i, r in enumerate(rooms))
    for k in order:
        for _ in range(counts[k]):
            at = bisect_left(places, (lengths[k], -1))
            if at < len(places):
                left, i = places.pop(at)
            elif room < 0 or len(costs[room]) <= lengths[k]:
                return None
            else:
                left, i = len(costs[room]) - 1, len(rooms)
                rooms.append(room)
                fills.append({})
            fills[i][k] = fills[i].get(k, 0) + 1
            insort(places, (left - lengths[k], i))
    return [
        (r, tuple(fill.get(k, 0) for k in range(len(lengths))))
        for r, fill in zip(rooms, fills, strict=True)
        if fill
    ]


def _cheaper(
    lengths: Sequence[int], costs: Sequence[Whole], numbers: Sequence[int | None], plan: Sequence[Chosen]
) -> list[Chosen]:
    """Each on the cheapest stock without limit that holds it; limited stock stays."""
    if all(numbers[r] is not None for r, _ in plan):
        return list(plan)
    every = costs_of(list(zip(costs, numbers, strict=True)))[0]
    return [
        (r if numbers[r] is not None else int(every.rooms[_used(lengths, taken)]), taken) for r, taken in plan
    ]


def _used(lengths: Sequence[int], taken: Taken) -> int:
    return sum(n * length for n, length in zip(taken, lengths, strict=True) if n)
