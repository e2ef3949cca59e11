"""The most that one sheet can be worth, whatever the cuts: an exact table over the places where a cut can matter.

Every edge-to-edge plan can be pushed to the left and to the head until each cut lies at a sum of piece sizes
(normal patterns: Herz 1972; Cintra, Miyazawa, Wakabayashi and Xavier 2008). Where a rest is worth something its least
size counts among the pieces, and one part of each cut may be what is left of the sheet: with the sizes along one side
held, the worth is linear in those along the other, so that a best plan has no more than one slack part at each cut.
Worths are whole numbers, so the greatest is exact. Pieces are taken without limit, which can only make it greater.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pentice.cutting.compiled import COMPILED, compiled

Size = tuple[int, int]
Whole = npt.NDArray[np.int64]
Cell = tuple[int, int, int, int, int]
"""Kind (-1: free), left, head, width and height, the kerf among them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """The widths and heights that parts of a sheet can have, and those of them that pieces fill."""

    widths: tuple[int, ...]
    heights: tuple[int, ...]
    tight_widths: tuple[int, ...]
    tight_heights: tuple[int, ...]
    slack: bool
    """Whether a part may be what is left of the sheet and not filled by pieces."""

    @property
    def work(self) -> int:
        """About how many sums a table takes [-]."""
        across, along = len(self.tight_widths), len(self.tight_heights)
        return len(self.widths) * len(self.heights) * (across + along) // (2 if self.slack else 4)


def sums(
    lengths: Sequence[int], counts: Sequence[int], room: int, least_rest: int | None = None
) -> list[int]:
    """What pieces side by side can come to.

    Parameters
    ----------
    lengths, counts
        Of each kind [-].
    room
        What they must fit in.
    least_rest
        A length that counts as a piece of any number; None where there is none.

    Returns
    -------
    list of int
        Ascending, 0 among them.

    Examples
    --------
    >>> sums([4, 6], [2, 1], 12)
    [0, 4, 6, 8, 10]
    """
    within, reached = (1 << (room + 1)) - 1, 1
    kinds = [*zip(lengths, counts, strict=True)]
    if least_rest is not None:
        kinds.append((least_rest, room // least_rest))
    for length, count in kinds:
        for _ in range(min(count, room // length)):
            more = (reached | (reached << length)) & within
            if more == reached:
                break
            reached = more
    return [n for n, bit in enumerate(reversed(f"{reached:b}")) if bit == "1"]


def grid_of(sizes: Sequence[Size], counts: Sequence[int], room: Size, least_rest: Size | None = None) -> Grid:
    """The grid of a sheet, or of all sheets up to a size where no rest is worth anything.

    Parameters
    ----------
    sizes, counts
        Width and height of each kind, the kerf added, and how many one sheet may have of it.
    room
        Width and height of the sheet, the kerf added.
    least_rest
        Least width and height of a rest that is worth something, the kerf added.

    Returns
    -------
    Grid
        In ascending order.
    """
    tight = [
        sums([s[a] for s in sizes], counts, room[a], None if least_rest is None else least_rest[a])
        for a in (0, 1)
    ]
    every = [
        t if least_rest is None else sorted({*t, *(room[a] - n for n in t)}) for a, t in enumerate(tight)
    ]
    return Grid(
        widths=tuple(every[0]),
        heights=tuple(every[1]),
        tight_widths=tuple(tight[0][1:]),
        tight_heights=tuple(tight[1][1:]),
        slack=least_rest is not None,
    )


def cuts_of(grid: Grid) -> tuple[Whole, Whole]:
    """Where the widths and the heights of a grid can be cut.

    Parameters
    ----------
    grid
        Of a sheet.

    Returns
    -------
    tuple of array
        As `halved` gives them.
    """
    return (
        np.array(halved(grid.widths, grid.tight_widths, not grid.slack), dtype=np.int64),
        np.array(halved(grid.heights, grid.tight_heights, not grid.slack), dtype=np.int64),
    )


class Worths:
    """The table of one grid for one set of worths: `table` holds the greatest worth of each cell."""

    def __init__(
        self,
        grid: Grid,
        cuts: tuple[Whole, Whole],
        sizes: Sequence[Size],
        worths: Sequence[int],
        rests: Whole | None,
    ) -> None:
        self._grid, self._sizes, self._worths = grid, sizes, worths
        self._rests = rests
        self._rows = len(grid.heights)
        best = rests.copy() if rests is not None else np.zeros(len(grid.widths) * self._rows, dtype=np.int64)
        for (w, h), worth in zip(sizes, worths, strict=True):
            i, j = bisect_left(grid.widths, w), bisect_left(grid.heights, h)
            if worth > 0 and i < len(grid.widths) and j < self._rows:
                best[i * self._rows + j] = max(best[i * self._rows + j], worth)
        (fill if COMPILED else fill_rows)(best, len(grid.widths), self._rows, *cuts)
        self.table = best

    def most(self, room: Size) -> int:
        """The greatest worth that a part of a size can have."""
        return self._at(*self._cell(room))

    def _cell(self, room: Size) -> tuple[int, int]:
        return bisect_right(self._grid.widths, room[0]) - 1, bisect_right(self._grid.heights, room[1]) - 1

    def _at(self, i: int, j: int) -> int:
        return int(self.table[i * self._rows + j])

    def cells(self, room: Size) -> list[Cell]:
        """A plan of the greatest worth: its pieces, and the free parts that its cuts leave."""
        done: list[Cell] = []
        waiting = [(0, 0, *room)]
        while waiting:
            waiting += self._parted(waiting.pop(), done)
        return done

    def _parted(self, part: tuple[int, int, int, int], done: list[Cell]) -> list[tuple[int, int, int, int]]:
        """What a part is cut into; nothing where it is a piece or free."""
        x, y, w, h = part
        i, j = self._cell((w, h))
        worth = self._at(i, j)
        free = 0 if self._rests is None else int(self._rests[i * self._rows + j])
        if worth <= free:
            done.append((-1, *part))
            return []
        if self._is_piece(part, worth, done):
            return []
        for n in self._grid.tight_widths:
            if n >= w:
                break
            if self.most((n, h)) + self.most((w - n, h)) == worth:
                return [(x, y, n, h), (x + n, y, w - n, h)]
        for n in self._grid.tight_heights:
            if n >= h:
                break
            if self.most((w, n)) + self.most((w, h - n)) == worth:
                return [(x, y, w, n), (x, y + n, w, h - n)]
        return self._narrower(part, worth, done)

    def _is_piece(self, part: tuple[int, int, int, int], worth: int, done: list[Cell]) -> bool:
        """Whether a piece alone is worth as much as the part; it and what is left beside and below it are listed."""
        x, y, w, h = part
        for k, (wide, high) in enumerate(self._sizes):
            if self._worths[k] == worth and wide <= w and high <= h:
                done.append((k, x, y, wide, high))
                rests = [(x + wide, y, w - wide, h), (x, y + high, wide, h - high)]
                if (w - wide) * high < (h - high) * wide:
                    rests = [(x + wide, y, w - wide, high), (x, y + high, w, h - high)]
                done += [(-1, *rest) for rest in rests if rest[2] and rest[3]]
                return True
        return False

    def _narrower(
        self, part: tuple[int, int, int, int], worth: int, done: list[Cell]
    ) -> list[tuple[int, int, int, int]]:
        """The least part of the same worth, and the strips that come off beside and below it."""
        x, y, w, h = part
        i, j = self._cell((w, h))
        while i > 0 and self._at(i - 1, j) == worth:
            i -= 1
        while j > 0 and self._at(i, j - 1) == worth:
            j -= 1
        wide, high = self._grid.widths[i], self._grid.heights[j]
        if (wide, high) == (w, h):
            raise AssertionError("a worth has a part that it comes from")
        done += [
            (-1, *rest)
            for rest in ((x + wide, y, w - wide, h), (x, y + high, wide, h - high))
            if rest[2] and rest[3]
        ]
        return [(x, y, wide, high)]


@compiled
def fill(best: Whole, columns: int, rows: int, across: Whole, along: Whole) -> None:
    """Raise each cell to the most that any cut of it gives.

    Parameters
    ----------
    best
        What each cell is worth uncut, row after row of heights; changed in place.
    columns, rows
        How many widths and heights there are [-].
    across, along
        Where widths and heights can be cut, as `halved` gives it.
    """
    for i in range(columns):
        base = i * rows
        if i > 0:
            for j in range(rows):
                best[base + j] = max(best[base + j], best[base - rows + j])
        for at in range(across[i], across[i + 1], 2):
            one, two = across[at] * rows, across[at + 1] * rows
            for j in range(rows):
                both = best[one + j] + best[two + j]
                if both > best[base + j]:
                    best[base + j] = both
        for j in range(rows):
            most = best[base + j]
            if j > 0:
                most = max(most, best[base + j - 1])
            for at in range(along[j], along[j + 1], 2):
                both = best[base + along[at]] + best[base + along[at + 1]]
                most = max(most, both)
            best[base + j] = most


def fill_rows(best: Whole, columns: int, rows: int, across: Whole, along: Whole) -> None:
    """The same as `fill`, row by row: faster where nothing is compiled.

    Parameters
    ----------
    best, columns, rows, across, along
        As there.
    """
    cells = best.reshape(columns, rows)
    parts = [along[along[j] : along[j + 1]].reshape(-1, 2).T for j in range(rows)]
    for i in range(columns):
        row = cells[i]
        if i > 0:
            np.maximum(row, cells[i - 1], out=row)
        for at in range(int(across[i]), int(across[i + 1]), 2):
            np.maximum(row, cells[across[at]] + cells[across[at + 1]], out=row)
        for j in range(1, rows):
            one, two = parts[j]
            if len(one):
                row[j] = max(row[j], row[j - 1], (row[one] + row[two]).max())
            else:
                row[j] = max(row[j], row[j - 1])


def halved(lengths: Sequence[int], tight: Sequence[int], halves: bool) -> list[int]:
    """Where each length can be cut, as one list: where the cuts of each begin, then the two parts of each by number.

    Parameters
    ----------
    lengths
        Ascending.
    tight
        What the first part of a cut can be, all of them among ``lengths``.
    halves
        Whether cuts up to the middle are enough, because both parts are tight.

    Returns
    -------
    list of int
        Its first ``len(lengths) + 1`` numbers are places in the list itself.

    Examples
    --------
    >>> halved([0, 4, 8], [4, 8], True)
    [4, 4, 4, 6, 1, 1]
    """
    place = {n: i for i, n in enumerate(lengths)}
    starts, parts = [len(lengths) + 1], []
    for length in lengths:
        rest = len(lengths) - 1
        for n in tight:
            if n >= length or (halves and 2 * n > length):
                break
            while lengths[rest] > length - n:
                rest -= 1
            parts += [place[n], rest]
        starts.append(len(lengths) + 1 + len(parts))
    return [*starts, *parts]
