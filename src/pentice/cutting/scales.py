"""What any cutting must cost at least, from dual feasible functions: sizes rounded so that no stock holds more.

A dual feasible function turns sizes into shares of a stock so that pieces that fit side by side never add up to more
than one. Along both sides together it holds for every way of cutting, by straight cuts or not. The cheapest share
over the stocks, times what is wanted, is a bound. Functions: the size itself; all or nothing near the ends (Fekete and
Schepers 2001); whole multiples of a step (Carlier, Clautiaux and Moukrim 2007). The best pair is found in floating
point and recomputed in fractions, so that the bound is exact.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

import numpy as np
import numpy.typing as npt

Size = tuple[int, int]
Stock = tuple[int, int, int, int | None]
"""Width, height, cost and number of a stock."""

Floats = npt.NDArray[np.float64]
_STEPS_ONE, _STEPS_MANY = 110, 30
_Way = tuple[str, int]
_CLOSE = 1e-9


def least_cost(
    sizes: Sequence[Size], counts: Sequence[int], stocks: Sequence[Stock], *, kept: Fraction | int = 0
) -> int:
    """A cost that no plan can go below.

    Parameters
    ----------
    sizes
        Width and height of each kind of piece, the kerf added (height 1 for lengths).
    counts
        How many of each [-].
    stocks
        What can be had, the kerf added to its usable size; costs in the smallest unit of money.
    kept
        Share of the price that the area left over may at most be worth [-].

    Returns
    -------
    int
        In the unit of the costs, up to the next whole multiple of what all costs have in common (1 where what is
        left over is worth something).

    Examples
    --------
    >>> least_cost([(6, 10)], [3], [(10, 10, 7, None)])
    21
    """
    best = exact_cost(sizes, counts, stocks, kept=kept)
    step = 1 if kept else math.gcd(*(s[2] for s in stocks)) or 1
    return math.ceil(best / step) * step


def exact_cost(
    sizes: Sequence[Size], counts: Sequence[int], stocks: Sequence[Stock], *, kept: Fraction | int = 0
) -> Fraction:
    """The bound of `least_cost` before it is rounded up.

    Parameters
    ----------
    sizes, counts, stocks, kept
        As there.

    Returns
    -------
    Fraction
        In the unit of the costs.

    Examples
    --------
    >>> exact_cost([(4, 10)], [1], [(10, 10, 7, None)], kept=1)
    Fraction(14, 5)
    """
    usable = [s for s in stocks if s[3] != 0]
    wanted = [(size, n) for size, n in zip(sizes, counts, strict=True) if n]
    if not wanted or not usable:
        return Fraction(0)
    found = _with_limits([size for size, _ in wanted], [n for _, n in wanted], usable, kept)
    # What is taken off for limited stock can be more than all the rest; no plan costs less than nothing.
    return max([Fraction(0), *found])


def _with_limits(
    sizes: Sequence[Size], counts: Sequence[int], stocks: Sequence[Stock], kept: Fraction | int
) -> list[Fraction]:
    """One bound for each choice of the limited stocks that are paid for by themselves, the cheapest of them first."""
    few = sorted((s for s in stocks if s[3] is not None), key=lambda s: s[2] / (s[0] * s[1]))
    found = []
    for n in range(len(few) + 1):
        apart = few[:n]
        rest = [s for s in stocks if s not in apart]
        if not rest or any(all(w > s[0] or h > s[1] for s in rest) for w, h in sizes):
            break
        if any(s[2] == 0 for s in rest):
            continue
        found.append(_bound(sizes, counts, rest, apart, kept))
    return found


def _bound(
    sizes: Sequence[Size],
    counts: Sequence[int],
    rest: Sequence[Stock],
    apart: Sequence[Stock],
    kept: Fraction | int,
) -> Fraction:
    widths, heights = [w for w, _ in sizes], [h for _, h in sizes]
    most = _STEPS_ONE if len(rest) == 1 else _STEPS_MANY
    across = _ways(widths, [s[0] for s in rest], most)
    along = _ways(heights, [s[1] for s in rest], most)
    shares: Floats | None = None
    for w, h, cost, _ in rest:
        out = [1 << 40 if wide > w or high > h else 0 for wide, high in sizes]
        a, b = _shares(across, widths, w), _shares(along, heights, h)
        if len(rest) == 1 and not apart:
            totals = (a * np.array(counts)) @ b.T
            i, j = np.unravel_index(int(np.argmax(totals)), totals.shape)
            return _exact(sizes, counts, rest, apart, (across[int(i)], along[int(j)]), kept)
        mine = cost * a[:, None, :] * b[None, :, :] + np.array(out, dtype=float)
        shares = mine if shares is None else np.minimum(shares, mine)
    assert shares is not None
    totals = shares @ np.array(counts, dtype=float)
    areas = np.array([w * h for w, h in sizes], dtype=float)
    dense = (shares / areas).max(axis=2)
    for w, h, cost, number in apart:
        totals = totals - (number or 0) * np.maximum(0.0, dense * (w * h) - cost)
    i, j = np.unravel_index(int(np.argmax(totals)), totals.shape)
    return _exact(sizes, counts, rest, apart, (across[int(i)], along[int(j)]), kept)


def _exact(
    sizes: Sequence[Size],
    counts: Sequence[int],
    rest: Sequence[Stock],
    apart: Sequence[Stock],
    ways: tuple[_Way, _Way],
    kept: Fraction | int,
) -> Fraction:
    """The bound of one pair of functions in fractions; where leftovers are worth a share, that part by area alone."""
    whole = _in_fractions(sizes, counts, rest, apart, ways)
    if not kept:
        return whole
    share = Fraction(kept)
    plain = _in_fractions(sizes, counts, rest, apart, (("size", 0), ("size", 0)))
    return (1 - share) * whole + share * plain


def _in_fractions(
    sizes: Sequence[Size],
    counts: Sequence[int],
    rest: Sequence[Stock],
    apart: Sequence[Stock],
    ways: tuple[_Way, _Way],
) -> Fraction:
    values = [
        min(rest[s][2] * _share(ways[0], wide, rest[s][0]) * _share(ways[1], high, rest[s][1]) for s in cheap)
        for (wide, high), cheap in zip(sizes, _cheapest(sizes, rest, ways), strict=True)
    ]
    total = sum((v * n for v, n in zip(values, counts, strict=True)), Fraction(0))
    dense = max(v / (w * h) for v, (w, h) in zip(values, sizes, strict=True))
    gained = sum(
        ((number or 0) * max(Fraction(0), dense * w * h - cost) for w, h, cost, number in apart), Fraction(0)
    )
    return total - gained


def _cheapest(sizes: Sequence[Size], rest: Sequence[Stock], ways: tuple[_Way, _Way]) -> list[list[int]]:
    """For each piece the stocks of which its share may cost least: those near the least in floating point."""
    widths, heights = [w for w, _ in sizes], [h for _, h in sizes]
    costs = np.array(
        [
            cost * _shares(ways[:1], widths, w)[0] * _shares(ways[1:], heights, h)[0]
            + np.where([wide > w or high > h for wide, high in sizes], np.inf, 0.0)
            for w, h, cost, _ in rest
        ]
    )
    near = costs <= costs.min(axis=0) * (1 + _CLOSE) + _CLOSE
    return [[int(s) for s in np.flatnonzero(column)] for column in near.T]


def _ways(lengths: Sequence[int], rooms: Sequence[int], most: int) -> list[_Way]:
    """The functions that can matter for lengths in these rooms."""
    limits = sorted({n for n in lengths} | {room - n for n in lengths for room in rooms if n < room})
    steps = sorted({n // k + more for n in limits for k in (1, 2, 3) for more in (0, 1)} - {0})
    half = max(rooms) // 2
    steps = [n for n in steps if n <= half]
    ends = [n for n in limits if 0 < n <= half]
    return [
        ("size", 0),
        *(("ends", n) for n in _thinned(ends, most)),
        *(("steps", n) for n in _thinned(steps, most)),
    ]


def _thinned(numbers: Sequence[int], most: int) -> list[int]:
    if len(numbers) <= most:
        return list(numbers)
    return [numbers[i * len(numbers) // most] for i in range(most)]


def _shares(ways: Sequence[_Way], lengths: Sequence[int], room: int) -> Floats:
    """`_share` of every way and length in floating point, rounded as its fraction would be; a row for each way."""
    long = np.array(lengths, dtype=np.int64)
    whole = np.broadcast_to(np.minimum(long, room) / room, (len(ways), len(lengths)))
    step = np.array([n for _, n in ways], dtype=np.int64)[:, None]
    ends, steps = (np.array([kind == name for kind, _ in ways])[:, None] for name in ("ends", "steps"))
    inside = long <= room
    cut = np.where(long < step, 0.0, np.where(long > room - step, 1.0, whole))
    parts = room // np.maximum(step, 1)
    below, above = long // np.maximum(step, 1), parts - (room - long) // np.maximum(step, 1)
    stepped = np.where(2 * long == room, 0.5, np.where(2 * long < room, below, above) / np.maximum(parts, 1))
    found: Floats = np.where(
        ends & inside & (2 * step <= room), cut, np.where(steps & inside & (parts > 0), stepped, whole)
    )
    return found


def _share(way: _Way, length: int, room: int) -> Fraction:
    """The share of a room that a length takes."""
    kind, step = way
    if length > room or kind == "size":
        return Fraction(min(length, room), room)
    if kind == "ends":
        if 2 * step > room:
            return Fraction(length, room)
        if length < step:
            return Fraction(0)
        return Fraction(1) if length > room - step else Fraction(length, room)
    parts = room // step
    if parts == 0:
        return Fraction(length, room)
    if 2 * length < room:
        return Fraction(length // step, parts)
    if 2 * length == room:
        return Fraction(1, 2)
    return Fraction(parts - (room - length) // step, parts)
