"""From sheets that the relaxation knows to a whole plan: the cheapest choice of them, or most of them and a search.

Few sheets: HiGHS chooses how many of each. Many sheets alike: as many of each as the relaxation uses whole, and what is
then still wanted goes to the search by ruin and recreate.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from pentice.cutting.highs import Row, least_amounts
from pentice.cutting.packing import Board, Packed, Packing, Rectangle, Stop

if TYPE_CHECKING:
    from pentice.cutting.sheet_columns import Column, Priced

_EFFORT = 0.1
_CLOSE = 1e-6


def chosen(
    priced: Priced, pieces: Sequence[Rectangle], boards: Sequence[Board], stop: Stop | None = None
) -> list[Packed] | None:
    """The cheapest choice of whole columns that the solver found; what they give too much of is left out.

    Parameters
    ----------
    priced
        The columns.
    pieces, boards
        What is wanted and what it is cut from.
    stop
        Ends it early, with what has been found until then.

    Returns
    -------
    list or None
        None where nothing was found.
    """
    real = [c for c in priced.columns if c.packed is not None]
    rows: list[Row] = [
        (float(p.count), math.inf, tuple((j, float(c.taken[k])) for j, c in enumerate(real) if c.taken[k]))
        for k, p in enumerate(pieces)
    ]
    for s, board in enumerate(boards):
        if board.count is not None:
            rows.append(
                (0.0, float(board.count), tuple((j, 1.0) for j, c in enumerate(real) if c.board == s))
            )
    most = [_most(c, pieces) for c in real]
    costs = [float(c.net) for c in real]
    found = least_amounts(costs, most, [True] * len(real), rows, effort=_EFFORT, stop=stop)
    if found is None or not found.values:
        return None
    sheets = [c.packed for c, n in zip(real, found.values, strict=True) for _ in range(round(n))]
    return without_surplus([p for p in sheets if p is not None], pieces)


def _most(column: Column, pieces: Sequence[Rectangle]) -> int:
    """How many of a sheet can be of use."""
    return max((-(-p.count // n) for p, n in zip(pieces, column.taken, strict=True) if n), default=0)


def without_surplus(sheets: Sequence[Packed], pieces: Sequence[Rectangle]) -> list[Packed]:
    """The sheets with no more of each kind than is wanted; what is left out becomes free where it lay.

    Parameters
    ----------
    sheets
        With enough of each kind, or less.
    pieces
        What is wanted.

    Returns
    -------
    list of Packed
        Without the sheets on which nothing would be left.
    """
    left = [p.count for p in pieces]
    fewer = []
    for sheet in sorted(sheets, key=lambda p: -len(p.places)):
        places, free = [], list(sheet.free)
        for place in sheet.places:
            if left[place.kind]:
                left[place.kind] -= 1
                places.append(place)
            else:
                free.append(replace(place, kind=-1))
        if places:
            fewer.append(Packed(board=sheet.board, places=tuple(places), free=tuple(free)))
    return fewer


def whole_part(
    priced: Priced, pieces: Sequence[Rectangle], boards: Sequence[Board]
) -> tuple[list[Packed], list[int], list[Board]]:
    """As many of each sheet as the relaxation uses whole, what is still wanted then, and the boards still to be had.

    Parameters
    ----------
    priced
        The columns and how often each is used.
    pieces, boards
        What is wanted and what it is cut from.

    Returns
    -------
    tuple
        Sheets; number of each kind that is still wanted; boards with what is left of their number.
    """
    left, had = [p.count for p in pieces], [b.count for b in boards]
    sheets: list[Packed] = []
    for column, times in zip(priced.columns, priced.times, strict=True):
        if column.packed is None or not column.packed.places:
            continue
        n = math.floor(times + _CLOSE)
        n = min(n, *(more // c for more, c in zip(left, column.taken, strict=True) if c))
        there = had[column.board]
        if there is not None:
            n = min(n, there)
            had[column.board] = there - n
        sheets += [column.packed] * n
        left = [more - n * c for more, c in zip(left, column.taken, strict=True)]
    return sheets, left, [replace(b, count=n) for b, n in zip(boards, had, strict=True)]


def joined(sheets: Sequence[Packed], more: Packing, kinds: Sequence[int], boards: Sequence[Board]) -> Packing:
    """Sheets that stand and a plan for the rest, whose kinds are named by their place among ``kinds``.

    Parameters
    ----------
    sheets, more
        The two parts.
    kinds
        The kind of each kind of the second part.
    boards
        What both are cut from.

    Returns
    -------
    Packing
        At its cost, with the bound 0.
    """
    rest = [replace(b, places=tuple(replace(p, kind=kinds[p.kind]) for p in b.places)) for b in more.boards]
    every = (*sheets, *rest)
    return Packing(boards=every, cost=sum(boards[b.board].cost for b in every), bound=0)
