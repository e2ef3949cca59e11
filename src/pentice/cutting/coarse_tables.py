"""The most that a sheet can be worth with its rests, from a table in coarse units that loses little.

A part of a sheet is known by its width and height rounded down to whole units. What it can be worth is held against
what its own area would be kept for, so that a piece counts with its true area, a kept rest with nothing but its kerf,
and waste with at least its rounded area; rounding then costs only what pieces gain by being rounded down. In a best
plan the waste of a part can be taken off first, once across and once along (two wastes of one row are no less as one),
and what is left is a piece, a rest, or two parts that are no mere waste. The two parts of a cut come to the units of the
part or to one less.
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


class CoarseTable:
    """What parts of boards of one rate can be worth, and how."""

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
        self._columns, self._rows = room[0] // units[0] + 1, room[1] // units[1] + 1
        fits = [k for k, (w, h) in enumerate(sizes) if w <= room[0] and h <= room[1]]
        inside = [sizes[k] for k in fits]
        self._kinds = np.array(fits, dtype=np.int64)
        self._at = np.array([w // units[0] * self._rows + h // units[1] for w, h in inside], dtype=np.int64)
        if rate:
            inside.append(least)
        self._least = (
            max(1, min((w for w, _ in inside), default=room[0]) // units[0]),
            max(1, min((h for _, h in inside), default=room[1]) // units[1]),
        )
        self._rest = (least[0] // units[0], least[1] // units[1])
        size = self._columns * self._rows
        self._leaf, self._owner = np.empty(size, dtype=np.int32), np.empty(size, dtype=np.int32)
        self._proper = np.empty(size, dtype=np.int32)
        self._along = np.empty(size, dtype=np.int32)
        self._most = np.empty(size, dtype=np.int32)
        self._wide = np.empty(size, dtype=np.int32)
        self._fine = self._waste = 0
        self._areas = self._at
        self._kept = self._leaf

    def fill(self, worths: Whole, fine: int) -> None:
        """Make the table for worths in parts of a unit of money, ``fine`` to one."""
        if fine != self._fine:
            self._measure(fine)
        self._leaf[:] = self._kept
        self._owner.fill(-1)
        place(self._leaf, self._owner, self._at, self._kinds, worths[self._kinds] - self._areas)
        fill(
            self._leaf,
            self._proper,
            self._along,
            self._most,
            self._wide,
            self._columns,
            self._rows,
            self._least[0],
            self._least[1],
            self._waste,
        )

    def _measure(self, fine: int) -> None:
        """What areas are worth in parts of a unit of money: those of pieces, of a unit, and of the kerf of rests."""
        self._fine = fine
        rate = self._rate * fine
        u, v = self._units
        self._waste = int(rate * u * v)
        self._areas = np.array(
            [int(rate * self._sizes[k][0] * self._sizes[k][1]) for k in self._kinds], dtype=np.int64
        )
        cells = np.full((self._columns, self._rows), _NEVER, dtype=np.int32)
        i, j = self._rest
        if self._rate and i < self._columns and j < self._rows:
            wide = np.arange(i, self._columns, dtype=np.int64)[:, None] * u
            high = np.arange(j, self._rows, dtype=np.int64)[None, :] * v
            edge = self._kerf * np.maximum(0, wide + high - self._kerf)
            cells[i:, j:] = -(edge * rate.numerator // rate.denominator)
        self._kept = cells.ravel()

    def most(self, room: Size) -> int:
        """What a board of this size, the kerf added, can be worth less what its whole area is worth kept."""
        return int(self._most[room[0] // self._units[0] * self._rows + room[1] // self._units[1]])

    def best(self, room: Size, many: int) -> tuple[Whole, Whole]:
        """The best ways for a board of this size to begin: what it is then worth, and how many of each kind it gives.

        The first is the best of all; the others begin with another cut, ``many`` across and ``many`` along.
        """
        worth = np.empty(1 + 2 * many, dtype=np.int64)
        counts = np.zeros((1 + 2 * many, len(self._sizes)), dtype=np.int64)
        i, j = room[0] // self._units[0], room[1] // self._units[1]
        found = begun(
            self._leaf,
            self._owner,
            self._proper,
            self._along,
            self._most,
            self._rows,
            self._least[0],
            self._least[1],
            self._waste,
            i,
            j,
            worth,
            counts,
        )
        if found < 0:
            raise AssertionError("a worth has parts that it comes from")
        return worth[:found], counts[:found]


@compiled
def place(leaf: Numbers, owner: Numbers, at: Whole, kinds: Whole, nets: Whole) -> None:
    """Put the pieces in their places, each where it is worth more than what is there.

    Parameters
    ----------
    leaf, owner
        What each part is worth uncut, and the kind of its piece; changed in place.
    at, kinds, nets
        Place, kind and worth less area of each piece.
    """
    for n in range(len(at)):
        if nets[n] > leaf[at[n]]:
            leaf[at[n]] = nets[n]
            owner[at[n]] = kinds[n]


@compiled
def fill(
    leaf: Numbers,
    proper: Numbers,
    along: Numbers,
    most: Numbers,
    wide: Numbers,
    columns: int,
    rows: int,
    least_wide: int,
    least_high: int,
    waste: int,
) -> None:
    """Fill the tables of a board, row after row of heights.

    Parameters
    ----------
    leaf
        What each part is worth as a piece or as a rest, less what its area is worth.
    proper, along, most
        Filled: as a piece, a rest or two parts; with waste taken off along; with waste taken off across as well.
    wide
        Filled: the greater of ``most`` for this width and one unit less.
    columns, rows
        How many widths and heights there are [-].
    least_wide, least_high
        Least width and height of a part that is no mere waste, in units.
    waste
        What the area of one unit is worth.
    """
    # Sums are kept to 32 bits and rows are taken apart, so that several are compared at once.
    low, unit = np.int32(-(1 << 29)), np.int32(waste)
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
def followed(
    leaf: Numbers,
    owner: Numbers,
    proper: Numbers,
    along: Numbers,
    most: Numbers,
    rows: int,
    least_wide: int,
    least_high: int,
    waste: int,
    column: int,
    row: int,
    counts: Whole,
) -> bool:
    """Count the pieces of a part of greatest worth.

    Parameters
    ----------
    leaf, owner
        As in `fill`, and the kind of piece of each (-1: a rest).
    proper, along, most, rows, least_wide, least_high, waste
        As in `fill`.
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
        value = most[i * rows + j]
        while value != -waste * i * j and value != along[i * rows + j]:
            if i == 0:
                return False
            i -= 1
            if value != along[i * rows + j]:
                value += waste * j
        if value == -waste * i * j:
            continue
        while value != proper[i * rows + j]:
            if j == 0:
                return False
            j -= 1
            if value != proper[i * rows + j]:
                value += waste * i
        if value == leaf[i * rows + j]:
            if owner[i * rows + j] >= 0:
                counts[owner[i * rows + j]] += 1
            continue
        found = False
        for n in range(least_wide, i // 2 + 1):
            for lost in range(2):
                if i - n - lost >= least_wide and value == (
                    most[n * rows + j] + most[(i - n - lost) * rows + j]
                ):
                    waiting.append((n, j))
                    waiting.append((i - n - lost, j))
                    found = True
                    break
            if found:
                break
        if found:
            continue
        for n in range(least_high, j // 2 + 1):
            for lost in range(2):
                if j - n - lost >= least_high and value == (
                    most[i * rows + n] + most[i * rows + j - n - lost]
                ):
                    waiting.append((i, n))
                    waiting.append((i, j - n - lost))
                    found = True
                    break
            if found:
                break
        if not found:
            return False
    return True


@compiled
def begun(
    leaf: Numbers,
    owner: Numbers,
    proper: Numbers,
    along: Numbers,
    most: Numbers,
    rows: int,
    least_wide: int,
    least_high: int,
    waste: int,
    column: int,
    row: int,
    worth: Whole,
    counts: Whole,
) -> int:
    """The best way to cut a part, and the best with other first cuts.

    Parameters
    ----------
    leaf, owner, proper, along, most, rows, least_wide, least_high, waste, column, row
        As in `followed`.
    worth, counts
        Filled: what each is worth, and how many of each kind it gives.

    Returns
    -------
    int
        How many were found; -1 where one does not come to its worth.
    """
    worth[0] = most[column * rows + row]
    if not followed(
        leaf, owner, proper, along, most, rows, least_wide, least_high, waste, column, row, counts[0]
    ):
        return -1
    found = 1
    many = (len(worth) - 1) // 2
    for side in range(2):
        least = least_wide if side == 0 else least_high
        whole = column if side == 0 else row
        ends = whole // 2 + 1
        values = np.empty(max(0, ends - least), dtype=np.int64)
        for n in range(least, ends):
            m = whole - n
            if side == 0:
                values[n - least] = most[n * rows + row] + most[m * rows + row]
                if m > least:
                    values[n - least] = max(
                        values[n - least], most[n * rows + row] + most[(m - 1) * rows + row]
                    )
            else:
                values[n - least] = most[column * rows + n] + most[column * rows + m]
                if m > least:
                    values[n - least] = max(
                        values[n - least], most[column * rows + n] + most[column * rows + m - 1]
                    )
        for _ in range(min(many, len(values))):
            at = 0
            for n in range(len(values)):
                if values[n] > values[at]:
                    at = n
            worth[found] = values[at]
            values[at] = -(1 << 60)
            n, m = at + least, whole - at - least
            if side == 0:
                if most[n * rows + row] + most[m * rows + row] != worth[found]:
                    m -= 1
                took = followed(
                    leaf, owner, proper, along, most, rows, least_wide, least_high, waste, n, row, counts[found]
                ) and followed(
                    leaf, owner, proper, along, most, rows, least_wide, least_high, waste, m, row, counts[found]
                )
            else:
                if most[column * rows + n] + most[column * rows + m] != worth[found]:
                    m -= 1
                took = followed(
                    leaf, owner, proper, along, most, rows, least_wide, least_high, waste, column, n, counts[found]
                ) and followed(
                    leaf, owner, proper, along, most, rows, least_wide, least_high, waste, column, m, counts[found]
                )
            if not took:
                return -1
            found += 1
    return found
