"""The ways to lay a few pieces on one board with the fewest cuts: every way to part them, put together from small ones.

Pieces that lie one beside the other need one cut less than there are pieces. Every strip of waste is one more: below a
piece that is lower than its neighbour, beside the last column, below the last row.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from pentice.cutting.ribs import leaves_well

if TYPE_CHECKING:
    from pentice.cutting.packing import Place


class Wanted(NamedTuple):
    """Pieces alike that lie on a board: their kind, size [mm] and how many there are."""

    kind: int
    width: int
    height: int
    number: int


class _Way(NamedTuple):
    """How a part is made: one piece, or two parts beside (axis 0) or below (axis 1) each other."""

    axis: int
    one: tuple[_Taken, _Size]
    other: tuple[_Taken, _Size]


_Taken = tuple[int, ...]
_Size = tuple[int, int]
_Shapes = dict[_Size, tuple[int, _Way | None]]
"""Sizes that a part can have, with the strips of waste inside it and how it is made."""


@dataclass(slots=True)
class Work:
    """How many pairs of parts may still be looked at [-]."""

    left: int


def arranged(
    pieces: Sequence[Wanted], room: tuple[int, int], kerf: int, waste: int, work: Work
) -> Iterator[list[Place]]:
    """Ways to lay pieces on a board with fewer strips of waste than a number, the fewest first.

    Parts are as small as their pieces allow; a way that needs a larger one, as its waste could not be sawn off else, is
    not among them.

    Parameters
    ----------
    pieces
        What lies on it, each kind once.
    room
        Width and height of the board once it is trimmed [mm].
    kerf
        Width of a cut [mm].
    waste
        Only ways with fewer strips of waste are wanted [-].
    work
        Taken from; where it comes to its end nothing is given.

    Yields
    ------
    list of Place
        Where each piece lies, from the board's left and head; in any number of stages, never turned.

    Examples
    --------
    >>> two = [Wanted(0, 500, 900, 2), Wanted(1, 1003, 300, 1)]
    >>> ways = list(arranged(two, (1003, 1203), 3, 1, Work(1000)))
    >>> [(p.kind, p.x, p.y) for p in ways[0]]
    [(0, 0, 0), (0, 503, 0), (1, 0, 903)]
    """
    whole = tuple(p.number for p in pieces)
    known: dict[_Taken, _Shapes] = {}
    for taken in sorted(itertools.product(*(range(n + 1) for n in whole)), key=sum):
        if sum(taken) == 1:
            piece = pieces[taken.index(1)]
            known[taken] = {(piece.width, piece.height): (0, None)}
        elif sum(taken) > 1:
            known[taken] = _shapes(taken, known, room, kerf, waste, work)
        if work.left <= 0:
            return
    ends = [
        (inside + (size[0] < room[0]) + (size[1] < room[1]), size)
        for size, (inside, _) in known[whole].items()
        if leaves_well(room[0] - size[0], kerf) and leaves_well(room[1] - size[1], kerf)
    ]
    for strips, size in sorted(ends):
        if strips < waste:
            yield _places(pieces, known, whole, size, (0, 0), kerf)


def _shapes(
    taken: _Taken, known: dict[_Taken, _Shapes], room: _Size, kerf: int, waste: int, work: Work
) -> _Shapes:
    """Every size that these pieces can have together, each with the least waste inside."""
    found: _Shapes = {}
    for one in itertools.product(*(range(n + 1) for n in taken)):
        other = tuple(n - m for n, m in zip(taken, one, strict=True))
        if one < other or not any(other):
            continue  # each pair of parts once
        first, second = known[one], known[other]
        work.left -= len(first) * len(second)
        if work.left <= 0:
            return found
        for (size, (inside, _)), (size2, (inside2, _)) in itertools.product(first.items(), second.items()):
            for axis in (0, 1):
                lower = abs(size[1 - axis] - size2[1 - axis])
                strips = inside + inside2 + (lower > 0)
                along = size[axis] + kerf + size2[axis]
                if strips >= waste or along > room[axis] or not leaves_well(lower, kerf):
                    continue
                across = max(size[1 - axis], size2[1 - axis])
                both = (along, across) if axis == 0 else (across, along)
                if both not in found or strips < found[both][0]:
                    found[both] = (strips, _Way(axis, (one, size), (other, size2)))
    return found


def _places(
    pieces: Sequence[Wanted],
    known: dict[_Taken, _Shapes],
    taken: _Taken,
    size: _Size,
    at: tuple[int, int],
    kerf: int,
) -> list[Place]:
    from pentice.cutting.packing import Place

    way = known[taken][size][1]
    if way is None:
        piece = pieces[taken.index(1)]
        return [Place(kind=piece.kind, x=at[0], y=at[1], width=piece.width, height=piece.height)]
    # The larger part first: what is left lies together at the foot or on the right.
    larger, smaller = sorted((way.one, way.other), key=lambda part: part[1][1 - way.axis], reverse=True)
    beyond = larger[1][way.axis] + kerf
    then = (at[0] + beyond, at[1]) if way.axis == 0 else (at[0], at[1] + beyond)
    return [
        *_places(pieces, known, larger[0], larger[1], at, kerf),
        *_places(pieces, known, smaller[0], smaller[1], then, kerf),
    ]
