"""Sheets as full as a table finds them, from pieces of which there are only so many.

The table stands over the places where a cut can matter, as in `guillotine`, but each part of a sheet keeps one filling
with its count of every kind, and two parts are only put together where that is not more than there is. So what it gives
can be cut as it is; it need not be the most, because only one filling of each part is remembered.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import cached_property

from pentice.cutting.compiled import Table, blank, compiled_lean, table
from pentice.cutting.guillotine import Size, cuts_of, grid_of
from pentice.cutting.packing import Board, Packed, Place, Rectangle

_WORD = 60
"""Bits of a word that counts use: sums of two of them have room in 64."""
_LESSER, _ACROSS, _ALONG, _PIECE = range(4)
"""Where the filling of a part comes from, beside four times a number: the part one narrower (0) or one lower (1), a cut
at the width or the height of that number, the piece of that kind."""


class FullSheets:
    """Fills one board after another.

    Parameters
    ----------
    pieces, board, kerf
        As in `packing.Search`.

    Examples
    --------
    >>> full = FullSheets([Rectangle(width=6, height=5, count=3)], Board(width=12, height=10, cost=1), kerf=0)
    >>> len(full.filled([2], [30]).places)
    2
    """

    def __init__(self, pieces: Sequence[Rectangle], board: Board, *, kerf: int) -> None:
        self._board, self._kerf = board, kerf
        sizes = [(p.width + kerf, p.height + kerf) for p in pieces]
        counts = [p.count for p in pieces]
        self.room: Size = (board.width - 2 * board.trim + kerf, board.height - 2 * board.trim + kerf)
        """Width and height within the trims, the kerf added."""
        self._grid = grid_of(sizes, counts, self.room)
        self._widths, self._heights = self._grid.widths, self._grid.heights
        self._cells = [self._cell(size) for size in sizes]
        self._fields = _fields(counts)
        self._words = 1 + max(word for word, _, _ in self._fields)

    def _cell(self, size: Size) -> int:
        i, j = bisect_right(self._widths, size[0]) - 1, bisect_right(self._heights, size[1]) - 1
        return i * len(self._heights) + j

    @property
    def work(self) -> int:
        """About how many sums a filling takes [-]."""
        return self._grid.work

    @cached_property
    def _cuts(self) -> tuple[Table, Table]:
        """Where widths and heights can be cut: a long list where the table is large."""
        across, along = cuts_of(self._grid)
        return table(across), table(along)

    def filled(self, left: Sequence[int], worths: Sequence[int]) -> Packed:
        """A sheet of as great a worth as the table finds.

        Parameters
        ----------
        left
            How many of each kind there still are; no more than at first.
        worths
            What one of each kind counts for, above 0 [-].

        Returns
        -------
        Packed
            Its pieces and its free parts, on board 0.
        """
        columns, rows, words = len(self._widths), len(self._heights), self._words
        best, came, held = blank(columns * rows), blank(columns * rows), blank(columns * rows * words)
        guards, slacks = [0] * words, [0] * words
        for k, (word, at, bits) in enumerate(self._fields):
            guards[word] |= 1 << (at + bits)
            slacks[word] |= ((1 << bits) - 1 - left[k]) << at
            cell = self._cells[k]
            if left[k] and worths[k] > best[cell]:
                best[cell], came[cell] = worths[k], 4 * k + _PIECE
                for m in range(words):
                    held[cell * words + m] = 1 << at if m == word else 0
        _fill(best, came, held, table([columns, rows, words, *guards, *slacks]), *self._cuts)
        return self._read(best, came)

    def _read(self, best: Table, came: Table) -> Packed:
        """The pieces and the free parts of the whole room."""
        places: list[Place] = []
        trim, kerf, rows = self._board.trim, self._kerf, len(self._heights)

        def place(kind: int, x: int, y: int, w: int, h: int) -> None:
            if w > kerf and h > kerf:
                places.append(Place(kind=kind, x=x + trim, y=y + trim, width=w - kerf, height=h - kerf))

        waiting = [(0, 0, *self.room)]
        while waiting:
            x, y, w, h = waiting.pop()
            cell = self._cell((w, h))
            if not best[cell]:
                place(-1, x, y, w, h)
                continue
            while came[cell] % 4 == _LESSER:
                cell -= 1 if came[cell] // 4 else rows
            # What is beside and below the least part with this filling is free.
            wide, high = self._widths[cell // rows], self._heights[cell % rows]
            place(-1, x + wide, y, w - wide, h)
            place(-1, x, y + high, wide, h - high)
            number, way = divmod(int(came[cell]), 4)
            if way == _PIECE:
                place(number, x, y, wide, high)
            elif way == _ACROSS:
                first = self._widths[number]
                waiting += [(x, y, first, high), (x + first, y, wide - first, high)]
            else:
                first = self._heights[number]
                waiting += [(x, y, wide, first), (x, y + first, wide, high - first)]
        return Packed(
            board=0,
            places=tuple(p for p in places if p.kind >= 0),
            free=tuple(p for p in places if p.kind < 0),
        )


def _fields(counts: Sequence[int]) -> list[tuple[int, int, int]]:
    """Word, lowest bit and bits of the count of each kind; the bit above them tells when there are too many."""
    fields, word, at = [], 0, 0
    for count in counts:
        bits = max(1, count.bit_length())
        if at + bits + 1 > _WORD:
            word, at = word + 1, 0
        fields.append((word, at, bits))
        at += bits + 1
    return fields


@compiled_lean
def _fill(best: Table, came: Table, held: Table, layout: Table, across: Table, along: Table) -> None:
    """Each cell gets the most that a lesser cell or two cells give together; `held` has the counts of each.

    ``layout``: how many widths, heights and words of counts; then a word of guards and one of slacks for each. Two
    counts and the slack of their kind reach its guard where there are more than there may be.
    """
    columns, rows, words = layout[0], layout[1], layout[2]
    for i in range(columns):
        for j in range(rows):
            at = i * rows + j
            most, first, second = best[at], at, -1
            if i > 0 and best[at - rows] > most:
                most, first = best[at - rows], at - rows
                came[at] = _LESSER
            if j > 0 and best[at - 1] > most:
                most, first = best[at - 1], at - 1
                came[at] = 4 + _LESSER
            for n in range(across[i], across[i + 1], 2):
                one, two = across[n] * rows + j, across[n + 1] * rows + j
                if best[one] + best[two] > most and _enough(held, layout, one, two):
                    most, first, second = best[one] + best[two], one, two
                    came[at] = 4 * across[n] + _ACROSS
            for n in range(along[j], along[j + 1], 2):
                one, two = i * rows + along[n], i * rows + along[n + 1]
                if best[one] + best[two] > most and _enough(held, layout, one, two):
                    most, first, second = best[one] + best[two], one, two
                    came[at] = 4 * along[n] + _ALONG
            best[at] = most
            _hold(held, words, at, first, second)


@compiled_lean
def _hold(held: Table, words: int, at: int, first: int, second: int) -> None:
    """A cell holds what another does (or itself), or two together."""
    for m in range(words):
        both = held[first * words + m]
        if second >= 0:
            both += held[second * words + m]
        held[at * words + m] = both


@compiled_lean
def _enough(held: Table, layout: Table, one: int, two: int) -> bool:
    """Whether there are as many of each kind as two cells hold together."""
    words = layout[2]
    for m in range(words):
        both = held[one * words + m] + held[two * words + m] + layout[3 + words + m]
        if both & layout[3 + m]:
            return False
    return True
