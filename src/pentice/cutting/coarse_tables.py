"""The most that a sheet can be worth with its rests, from a table in coarse units that loses little.

A part of a sheet is known by its width and height rounded down to whole units. What it can be worth is held against
what its own area would be kept for, so that a piece counts with its true area, a kept rest with nothing but its kerf,
and waste with at least its rounded area; rounding then costs only what pieces gain by being rounded down. In a best
plan the waste of a part can be taken off first, once across and once along (two wastes of one row are no less as one),
and what is left is a piece, a rest, or two parts that are no mere waste. The two parts of a cut come to the units of
the part or to one less.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import numpy as np
import numpy.typing as npt

from pentice.cutting.compiled import compiled
from pentice.cutting.guillotine import Size

Numbers = npt.NDArray[np.int32]
Whole = npt.NDArray[np.int64]
_NEVER = -(1 << 29)
MOST = 1 << 28
"""What no board may be worth by the area of its densest piece: twice that, added to as much, fits in 32 bits."""

_LEAF, _PROPER, _ALONG, _MOST, _WIDE, _OWNER = range(6)
"""The tables: each part uncut; as a piece, a rest or two parts; with waste taken off along; with waste taken off across
as well; the greater of that and one unit less across; the kind of piece of each (-1: none)."""
_COLUMNS, _ROWS, _LEAST_WIDE, _LEAST_HIGH, _WASTE = range(5)
"""The shape: how many widths and heights there are; the least of a part that is no mere waste; what a unit is worth."""


class CoarseTable:
    """What parts of boards of one rate can be worth, and how.

    Examples
    --------
    >>> table = CoarseTable([(60, 100)], (100, 100), (10, 10), Fraction(0), (20, 20), 0)
    >>> table.fill(np.array([50]), 1)
    >>> table.most((100, 100)), table.best((100, 100), 0)[1].tolist()
    (50, [[1]])
    """

    def __init__(
        self,
        sizes: Sequence[Size],
        room: Size,
        units: Size,
        rate: Fraction,
        least: Size,
        kerf: int,
    ) -> None:
        """
        Parameters
        ----------
        sizes
            Width and height of each kind, the kerf added.
        room
            Greatest width and height of the boards, the kerf added.
        units
            Width and height of a unit.
        rate
            What a unit of kept area is worth.
        least
            Least width and height of a kept rest, the kerf added.
        kerf
            Width of a cut.
        """
        if any(n < u for size in (least, *sizes) for n, u in zip(size, units, strict=True)):
            raise ValueError(
                f"units of {units[0]} x {units[1]} are longer than a piece or a rest: they must be no longer than any"
            )
        self._units, self._rate, self._kerf = units, rate, kerf
        self._sizes = sizes
        columns, rows = room[0] // units[0] + 1, room[1] // units[1] + 1
        fits = [k for k, (w, h) in enumerate(sizes) if w <= room[0] and h <= room[1]]
        inside = [sizes[k] for k in fits]
        self._kinds = np.array(fits, dtype=np.int64)
        self._at = np.array([w // units[0] * rows + h // units[1] for w, h in inside], dtype=np.int64)
        if rate:
            inside.append(least)
        self._rest = (least[0] // units[0], least[1] // units[1])
        self._shape = np.array(
            [
                columns,
                rows,
                min((w for w, _ in inside), default=room[0]) // units[0],
                min((h for _, h in inside), default=room[1]) // units[1],
                0,
            ],
            dtype=np.int64,
        )
        self._tables = np.empty((6, columns * rows), dtype=np.int32)
        self._fine = 0
        self._areas, self._kept = self._at, self._tables[_LEAF]

    def fill(self, worths: Whole, fine: int) -> None:
        """Make the table for worths in parts of a unit of money, ``fine`` to one."""
        if fine != self._fine:
            self._measure(fine)
        self._tables[_LEAF] = self._kept
        self._tables[_OWNER] = -1
        place(self._tables, self._at, self._kinds, worths[self._kinds] - self._areas)
        fill(self._tables, self._shape)

    def _measure(self, fine: int) -> None:
        """What areas are worth in parts of a unit of money: those of pieces, of a unit, and of the kerf of rests."""
        self._fine = fine
        rate = self._rate * fine
        u, v = self._units
        self._shape[_WASTE] = int(rate * u * v)
        areas = [self._sizes[k][0] * self._sizes[k][1] for k in self._kinds]
        self._areas = np.array([int(rate * area) for area in areas], dtype=np.int64)
        columns, rows = self._shape[:2]
        cells = np.full((columns, rows), _NEVER, dtype=np.int32)
        i, j = self._rest
        if self._rate and i < columns and j < rows:
            wide = np.arange(i, columns, dtype=np.int64)[:, None] * u
            high = np.arange(j, rows, dtype=np.int64)[None, :] * v
            edge = self._kerf * np.maximum(0, wide + high - self._kerf)
            cells[i:, j:] = -(edge * rate.numerator // rate.denominator)
        self._kept = cells.ravel()

    def most(self, room: Size) -> int:
        """What a board of this size, the kerf added, can be worth less what its whole area is worth kept."""
        at = room[0] // self._units[0] * int(self._shape[_ROWS]) + room[1] // self._units[1]
        return int(self._tables[_MOST, at])

    def best(self, room: Size, many: int) -> tuple[Whole, Whole]:
        """The best ways for a board of this size to begin: what it is then worth, and how many of each kind it gives.

        The first is the best of all; the others begin with another cut, ``many`` across and ``many`` along.
        """
        worth = np.empty(1 + 2 * many, dtype=np.int64)
        counts = np.zeros((1 + 2 * many, len(self._sizes)), dtype=np.int64)
        i, j = room[0] // self._units[0], room[1] // self._units[1]
        found = begun(self._tables, self._shape, i, j, worth, counts)
        if found < 0:
            raise AssertionError("a worth has parts that it comes from")
        return worth[:found], counts[:found]


@compiled
def place(tables: Numbers, at: Whole, kinds: Whole, nets: Whole) -> None:
    """Put the pieces in their places, each where it is worth more than what is there.

    Parameters
    ----------
    tables
        Of which the first and the last are changed.
    at, kinds, nets
        Place, kind and worth less area of each piece.
    """
    for n in range(len(at)):
        if nets[n] > tables[_LEAF, at[n]]:
            tables[_LEAF, at[n]] = nets[n]
            tables[_OWNER, at[n]] = kinds[n]


@compiled
def fill(tables: Numbers, shape: Whole) -> None:
    """Fill the tables from what each part is worth uncut, row after row of heights.

    Parameters
    ----------
    tables, shape
        Of one board; all tables but the first and the last are filled.
    """
    # Sums are kept to 32 bits and rows are taken apart, so that several are compared at once.
    columns, rows, least_wide, least_high = (
        shape[_COLUMNS],
        shape[_ROWS],
        shape[_LEAST_WIDE],
        shape[_LEAST_HIGH],
    )
    leaf, proper, along = tables[_LEAF], tables[_PROPER], tables[_ALONG]
    most, wide = tables[_MOST], tables[_WIDE]
    low, unit = np.int32(_NEVER), np.int32(shape[_WASTE])
    turned, best = np.empty(rows + 1, dtype=np.int32), np.empty(rows, dtype=np.int32)
    for i in range(columns):
        base = i * rows
        best[:] = leaf[base : base + rows]
        for n in range(least_wide, i // 2 + 1):
            one, two = most[n * rows : (n + 1) * rows], wide[(i - n) * rows : (i - n + 1) * rows]
            for j in range(rows):
                both = np.int32(one[j] + two[j])
                best[j] = both if both > best[j] else best[j]
        turned[:] = low
        here = most[base : base + rows]
        for j in range(rows):
            value = best[j]
            if j >= 2 * least_high:
                one = here[least_high : j // 2 + 1]
                two = turned[rows - j + least_high : rows - j + j // 2 + 1]
                for n in range(len(one)):
                    both = np.int32(one[n] + two[n])
                    value = both if both > value else value
            proper[base + j] = value
            if j > 0:
                value = max(value, proper[base + j - 1])
                value = max(value, np.int32(along[base + j - 1] - unit * np.int32(i)))
            value = max(value, low)
            along[base + j] = value
            if i > 0:
                value = max(value, along[base - rows + j])
                value = max(value, np.int32(most[base - rows + j] - unit * np.int32(j)))
            value = max(value, np.int32(-unit * np.int32(i) * np.int32(j)))
            most[base + j] = value
            turned[rows - j] = max(value, most[base + j - 1]) if j > least_high else value
            wide[base + j] = max(value, most[base - rows + j]) if i > least_wide else value


@compiled
def without_waste(tables: Numbers, shape: Whole, i: int, j: int) -> tuple[int, int]:
    """What is left of a part when its waste is off.

    Parameters
    ----------
    tables, shape
        Of one board, filled.
    i, j
        The part.

    Returns
    -------
    tuple of int
        The part; (-1, -1) where all of it is waste, and (-2, -2) where nothing comes to its worth.
    """
    rows, waste = shape[_ROWS], shape[_WASTE]
    proper, along = tables[_PROPER], tables[_ALONG]
    value = np.int64(tables[_MOST, i * rows + j])
    while value != -waste * i * j and value != along[i * rows + j]:
        if i == 0:
            return -2, -2
        i -= 1
        if value != along[i * rows + j]:
            value += waste * j
    if value == -waste * i * j:
        return -1, -1
    while value != proper[i * rows + j]:
        if j == 0:
            return -2, -2
        j -= 1
        if value != proper[i * rows + j]:
            value += waste * i
    return i, j


@compiled
def first_cut(tables: Numbers, shape: Whole, i: int, j: int) -> tuple[int, int, int]:
    """The cut of a part into two.

    Parameters
    ----------
    tables, shape
        Of one board, filled.
    i, j
        A part from which no waste comes off first, and which is not worth most uncut.

    Returns
    -------
    tuple of int
        0 across or 1 along, and the two parts of that side; -1 first where there is none.
    """
    rows, most = shape[_ROWS], tables[_MOST]
    value = tables[_PROPER, i * rows + j]
    for n in range(shape[_LEAST_WIDE], i // 2 + 1):
        for m in range(i - n, max(shape[_LEAST_WIDE], i - n - 1) - 1, -1):
            if value == most[n * rows + j] + most[m * rows + j]:
                return 0, n, m
    for n in range(shape[_LEAST_HIGH], j // 2 + 1):
        for m in range(j - n, max(shape[_LEAST_HIGH], j - n - 1) - 1, -1):
            if value == most[i * rows + n] + most[i * rows + m]:
                return 1, n, m
    return -1, 0, 0


@compiled
def followed(tables: Numbers, shape: Whole, column: int, row: int, counts: Whole) -> bool:
    """Count the pieces of a part of greatest worth.

    Parameters
    ----------
    tables, shape
        Of one board, filled.
    column, row
        The part.
    counts
        One more for each piece.

    Returns
    -------
    bool
        Whether all was found.
    """
    waiting = [(column, row)]
    while len(waiting) > 0:
        i, j = waiting.pop()
        i, j = without_waste(tables, shape, i, j)
        if i == -1:
            continue
        if i == -2:
            return False
        at = i * shape[_ROWS] + j
        if tables[_PROPER, at] == tables[_LEAF, at]:
            if tables[_OWNER, at] >= 0:
                counts[tables[_OWNER, at]] += 1
            continue
        side, n, m = first_cut(tables, shape, i, j)
        if side < 0:
            return False
        waiting.append((n, j) if side == 0 else (i, n))
        waiting.append((m, j) if side == 0 else (i, m))
    return True


@compiled
def other(tables: Numbers, shape: Whole, i: int, j: int, side: int, n: int) -> int:
    """The better other part of a cut: what is left of the side, or one unit less.

    Parameters
    ----------
    tables, shape
        Of one board, filled.
    i, j, side, n
        The part, 0 across or 1 along, and its first part on that side.

    Returns
    -------
    int
        In units.
    """
    rows, most = shape[_ROWS], tables[_MOST]
    if side == 0:
        m = i - n
        less = m > shape[_LEAST_WIDE] and most[(m - 1) * rows + j] > most[m * rows + j]
    else:
        m = j - n
        less = m > shape[_LEAST_HIGH] and most[i * rows + m - 1] > most[i * rows + m]
    return m - 1 if less else m


@compiled
def begun(tables: Numbers, shape: Whole, i: int, j: int, worth: Whole, counts: Whole) -> int:
    """The best way to cut a part, and the best with other first cuts.

    Parameters
    ----------
    tables, shape
        Of one board, filled.
    i, j
        The part.
    worth, counts
        Filled: what each is worth, and how many of each kind it gives.

    Returns
    -------
    int
        How many were found; -1 where one does not come to its worth.
    """
    rows, most = shape[_ROWS], tables[_MOST]
    worth[0] = most[i * rows + j]
    if not followed(tables, shape, i, j, counts[0]):
        return -1
    found = 1
    for side in range(2):
        least = shape[_LEAST_WIDE + side]
        values = np.empty(max(0, (i if side == 0 else j) // 2 + 1 - least), dtype=np.int64)
        for at in range(len(values)):
            n = at + least
            m = other(tables, shape, i, j, side, n)
            if side == 0:
                values[at] = np.int64(most[n * rows + j]) + most[m * rows + j]
            else:
                values[at] = np.int64(most[i * rows + n]) + most[i * rows + m]
        for _ in range(min((len(worth) - 1) // 2, len(values))):
            n = np.argmax(values) + least
            m = other(tables, shape, i, j, side, n)
            worth[found] = values[n - least]
            values[n - least] = -(1 << 60)
            for part in (n, m):
                a, b = (part, j) if side == 0 else (i, part)
                if not followed(tables, shape, a, b, counts[found]):
                    return -1
            found += 1
    return found
