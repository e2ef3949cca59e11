"""Full sheets first: all sheets but the last two as full as a table finds them, what is left by search.

For sheets of one size and pieces of which there are several alike. Each try gives the pieces other worths: a little
chance, and more for kinds that came to lie on sheets with much waste (sequential value correction, after Belov,
Scheithauer and Mukhacheva 2008).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pentice.cutting import trees
from pentice.cutting.compiled import table
from pentice.cutting.full_sheets import FullSheets
from pentice.cutting.packing import Board, Limits, Packed, Packing, Rectangle, Search
from pentice.cutting.sheet_choice import joined

_LAST, _ROUNDS = 2, 4_000
"""Sheets that are left to the search, and its rounds."""
_A_ROUND = 800
"""Sums of a table that take about as long as a round of the search, compiled or not (measured)."""
_ALIKE, _TABLE = 2, 2_000
"""Pieces of a kind in the mean; the largest table, in rounds."""
_WHOLE, _CHANCE, _WASTE = 1_000, 20, 500
"""Worth of a unit of area; what chance adds at most; what waste as large as what is used adds."""
_KEPT, _TENTHS = 9, 10
"""What of the worths stays from one try to the next."""


def full_first(
    pieces: Sequence[Rectangle], boards: Sequence[Board], *, kerf: int, seed: int
) -> FullFirst | None:
    """The way for a job, where it may be of use: boards of one size without limit, kinds of several pieces, no large
    table. Where hardly two pieces are alike the search does more in the same time (measured).

    Parameters
    ----------
    pieces, boards, kerf, seed
        As `FullFirst` takes them.

    Returns
    -------
    FullFirst or None
        None with fewer than two of a kind in the mean, or more sums for a sheet than two thousand rounds take.

    Examples
    --------
    >>> full_first([Rectangle(width=6, height=5, count=1)], [Board(width=12, height=10, cost=1)], kerf=0, seed=1)
    """
    if len(boards) > 1 or boards[0].count is not None or boards[0].cost <= 0:
        return None
    if sum(p.count for p in pieces) < _ALIKE * sum(p.count > 0 for p in pieces):
        return None
    full = FullSheets(pieces, boards[0], kerf=kerf)
    return FullFirst(pieces, boards[0], kerf, full, seed) if full.work <= _TABLE * _A_ROUND else None


class FullFirst:
    """Tries towards fewer sheets than a plan has; it can be stopped and goes on from there.

    Parameters
    ----------
    pieces, board, kerf
        As in `packing.Search`; there are as many boards as are wanted.
    full
        The table that fills a board.
    seed
        Where chance begins.
    """

    def __init__(
        self, pieces: Sequence[Rectangle], board: Board, kerf: int, full: FullSheets, seed: int
    ) -> None:
        self._pieces, self._board, self._kerf, self._full = pieces, board, kerf, full
        self._room = full.room[0] * full.room[1]
        self._areas = [(p.width + kerf) * (p.height + kerf) for p in pieces]
        self._rates = [_WHOLE] * len(pieces)
        self._usual = 0
        """What the full sheets of the last tries left, by area: where there is more the search hardly ends well."""
        self._state = table([0] * (trees.CHANCE + 1))
        trees.begin_chance(self._state, seed)

    def advance(self, goal: int, limits: Limits) -> tuple[Packing | None, int]:
        """Tries until a plan has so few sheets, or the work is done.

        Parameters
        ----------
        goal
            Number of sheets [-].
        limits
            Rounds, to which the tables count too, or a stop.

        Returns
        -------
        tuple
            The plan with bound 0, or None; the rounds made, the last try made to its end.
        """
        done = 0
        while (limits.rounds is None or done < limits.rounds) and not limits.stopped:
            found, made = self._tried(goal, limits)
            done += made
            if found is not None:
                return found, done
        return None, done

    def _tried(self, goal: int, limits: Limits) -> tuple[Packing | None, int]:
        left, wastes = [p.count for p in self._pieces], [0] * len(self._pieces)
        worths = [
            area * rate * (_WHOLE + trees.chance(self._state, _CHANCE))
            for area, rate in zip(self._areas, self._rates, strict=True)
        ]
        sheets: list[Packed] = []
        while len(sheets) < goal - _LAST and any(left):
            if limits.stopped:
                return None, 0
            sheets.append(self._full.filled(left, worths))
            taken = [0] * len(left)
            for place in sheets[-1].places:
                taken[place.kind] += 1
            left = [n - t for n, t in zip(left, taken, strict=True)]
            self._note(wastes, taken, 1)
        made = len(sheets) * max(1, self._full.work // _A_ROUND)
        kinds = [k for k, n in enumerate(left) if n]
        if not kinds:
            return joined(sheets, Packing(boards=(), cost=0, bound=0), kinds, [self._board]), made
        area = sum(n * a for n, a in zip(left, self._areas, strict=True))
        usual = self._usual or area
        self._usual = (_KEPT * usual + (_TENTHS - _KEPT) * area) // _TENTHS
        if area > usual:
            self._learn(wastes, left, max(_LAST, -(-area // self._room)))
            return None, made
        rest = [replace(self._pieces[k], count=left[k]) for k in kinds]
        short = replace(limits, rounds=_ROUNDS, seed=trees.chance(self._state, 1 << 20))
        search = Search.begun(rest, [self._board], self._kerf, short)
        if search is None:
            return None, max(1, made)
        enough = (goal - len(sheets)) * self._board.cost
        made += search.advance(enough, short)
        found = search.packing(0)
        self._learn(wastes, left, len(found.boards))
        return (joined(sheets, found, kinds, [self._board]) if found.cost <= enough else None), made

    def _learn(self, wastes: list[int], left: Sequence[int], sheets: int) -> None:
        """The worths of the next try, from the full sheets and from those that took what was left."""
        self._note(wastes, left, sheets)
        for k, piece in enumerate(self._pieces):
            if piece.count:
                new = _WHOLE + wastes[k] // piece.count
                self._rates[k] = (_KEPT * self._rates[k] + (_TENTHS - _KEPT) * new) // _TENTHS

    def _note(self, wastes: list[int], taken: Sequence[int], sheets: int) -> None:
        """Every piece on these sheets has a part in their waste."""
        used = sum(n * area for n, area in zip(taken, self._areas, strict=True))
        more = _WASTE * (sheets * self._room - used) // used
        for k, n in enumerate(taken):
            wastes[k] += n * more
