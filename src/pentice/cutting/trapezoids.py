"""Trapezoids of one hand in pairs: two that are cut from one rectangle by a sloping cut between them.

A piece with one sloping end has two sides along the flutes, one longer than the other. Turned by half a turn its end
still slopes the same way, so that two pieces of the same hand fill a rectangle; pieces of opposite hands do not (they
would have to be turned over, which puts the weather face inside). A piece may be turned only where the product allows
it. Where slopes differ by a few millimetres over the width one cut still parts the two, and the second is trimmed to
its own. The rest go by the rectangle around them. The pairs that save the most area are taken: exactly where few pieces
can pair, the greatest saving first where many can.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from pentice.errors import InputError

_EXACT_MOST = 14
_CLOSE = 1e-9
TRIM_MM = 3.0
"""Ends that run apart by no more than this over the width are still cut as a pair: judgement, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trapezoid:
    """A piece with a square end and a sloping end, as it lies on the sheet, flutes along its length.

    Attributes
    ----------
    id
        Its name.
    width_mm
        Across the flutes [mm].
    left_mm, right_mm
        Length of its left and of its right side, seen on the weather face with the square end at the head [mm].
    """

    id: str
    width_mm: int
    left_mm: int
    right_mm: int

    @property
    def fall(self) -> float:
        """How much longer the right side is, for each mm of width [-]; its sign is the hand of the piece."""
        return (self.right_mm - self.left_mm) / self.width_mm

    @property
    def polygon_mm(self) -> tuple[tuple[float, float], ...]:
        """Its corners, from the left end of the square end round [mm]."""
        w = float(self.width_mm)
        return ((0.0, 0.0), (w, 0.0), (w, float(self.right_mm)), (0.0, float(self.left_mm)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A rectangle to be cut, and the pieces that come from it: one, or two with a sloping cut between them.

    Attributes
    ----------
    width_mm, length_mm
        Of the rectangle [mm].
    pieces
        One or two; the second is turned by half a turn.
    kerf_mm
        Width of the cut between them, measured square to it [mm].
    """

    width_mm: int
    length_mm: int
    pieces: tuple[Trapezoid, ...]
    kerf_mm: int

    @property
    def polygons_mm(self) -> tuple[tuple[tuple[float, float], ...], ...]:
        """Where each piece lies in the rectangle, origin at its head left corner [mm]."""
        first = self.pieces[0].polygon_mm
        if len(self.pieces) == 1:
            return (first,)
        other = self.pieces[1]
        foot = float(self.length_mm)
        # Against the side at which the first piece is shorter.
        left = 0.0 if self.pieces[0].fall > 0 else float(self.width_mm - other.width_mm)
        turned = tuple((left + other.width_mm - x, foot - y) for x, y in other.polygon_mm)
        return (first, turned)


def paired(
    pieces: Sequence[Trapezoid],
    *,
    kerf_mm: int,
    turn_180: bool,
    boards_mm: Sequence[tuple[int, int]] | None = None,
    may_join: Callable[[Trapezoid, Trapezoid], bool] = lambda one, two: True,
) -> tuple[Block, ...]:
    """The rectangles from which all pieces are cut, pairs where they save area.

    Parameters
    ----------
    pieces
        Of one product; rectangles among them stay alone.
    kerf_mm
        Width of a cut, square to it [mm].
    turn_180
        Whether the product may be turned by half a turn; without it nothing pairs.
    boards_mm
        Width and length of the boards that there are: a pair must fit one of them. None: any pair may be cut.
    may_join
        Whether two pieces may come from one rectangle, whatever their slopes.

    Returns
    -------
    tuple of Block
        Every piece once.

    Raises
    ------
    InputError
        A piece has no width, or a side has no length.

    Examples
    --------
    >>> one, two = (Trapezoid(id=n, width_mm=800, left_mm=1000, right_mm=1600) for n in "ab")
    >>> [(b.width_mm, b.length_mm, len(b.pieces)) for b in paired([one, two], kerf_mm=4, turn_180=True)]
    [(800, 2605, 2)]
    >>> [(b.width_mm, b.length_mm, len(b.pieces)) for b in paired([one, two], kerf_mm=4, turn_180=False)]
    [(800, 1600, 1), (800, 1600, 1)]
    """
    for piece in pieces:
        if piece.width_mm < 1 or min(piece.left_mm, piece.right_mm) < 0 or not piece.left_mm + piece.right_mm:
            raise InputError(
                f"{piece.id} is {piece.width_mm} wide with sides of {piece.left_mm} and {piece.right_mm} mm; "
                "expected a width of 1 or more and at least one side with a length. Measure the piece again."
            )
    pairs = _matched(pieces, kerf_mm, boards_mm, may_join) if turn_180 else ()
    taken = {i for pair in pairs for i in pair}
    blocks = [b for i, j in pairs if (b := _pair(pieces[i], pieces[j], kerf_mm)) is not None]
    return (*blocks, *(_alone(p, kerf_mm) for i, p in enumerate(pieces) if i not in taken))


def _alone(piece: Trapezoid, kerf: int) -> Block:
    """The rectangle around a piece."""
    length = max(piece.left_mm, piece.right_mm)
    return Block(width_mm=piece.width_mm, length_mm=length, pieces=(piece,), kerf_mm=kerf)


def _pair(one: Trapezoid, two: Trapezoid, kerf: int) -> Block | None:
    """The least rectangle for two pieces of one hand, the second turned; None where their slopes differ.

    The wider lies at the head, the other against the side at which the wider is shorter, where itself, turned, it is at
    its longest. Their sloping edges must stay a kerf apart, square to them: along the flutes that is the kerf over the
    cosine of the slope. Both edges are straight, so that holds between the sides of the second where it holds at them.
    """
    first, second = (one, two) if one.width_mm >= two.width_mm else (two, one)
    if one.fall * two.fall <= 0.0 or abs(one.fall - two.fall) * second.width_mm > TRIM_MM + _CLOSE:
        return None
    along = kerf * math.hypot(1.0, max(abs(one.fall), abs(two.fall)))
    shorter, longer = sorted((first.left_mm, first.right_mm))
    low, high = sorted((second.left_mm, second.right_mm))
    further = shorter + abs(first.fall) * second.width_mm
    length = max(math.ceil(max(shorter + high, further + low) + along - _CLOSE), longer)
    return Block(width_mm=first.width_mm, length_mm=length, pieces=(first, second), kerf_mm=kerf)


def _fits(block: Block, boards: Sequence[tuple[int, int]]) -> bool:
    return any(block.width_mm <= width and block.length_mm <= length for width, length in boards)


def _claim(block: Block) -> int:
    """The area that a block takes of a sheet, kerfs among it."""
    return (block.width_mm + block.kerf_mm) * (block.length_mm + block.kerf_mm)


def _matched(
    pieces: Sequence[Trapezoid],
    kerf: int,
    boards: Sequence[tuple[int, int]] | None,
    may_join: Callable[[Trapezoid, Trapezoid], bool],
) -> tuple[tuple[int, int], ...]:
    """Pairs that fit a board and together save the most area."""
    saved: dict[tuple[int, int], int] = {}
    for i, one in enumerate(pieces):
        for j in range(i + 1, len(pieces)):
            block = _pair(one, pieces[j], kerf) if may_join(one, pieces[j]) else None
            if block is not None and (boards is None or _fits(block, boards)):
                gain = _claim(_alone(one, kerf)) + _claim(_alone(pieces[j], kerf)) - _claim(block)
                if gain > 0:
                    saved[i, j] = gain
    some = tuple(sorted({i for pair in saved for i in pair}))
    return _most_saved(some, saved) if len(some) <= _EXACT_MOST else _greatest_first(saved)


def _most_saved(some: tuple[int, ...], saved: dict[tuple[int, int], int]) -> tuple[tuple[int, int], ...]:
    """The best pairs of few pieces, by trying all: the first is left alone or pairs with one of the others."""

    @cache
    def best(left: tuple[int, ...]) -> tuple[int, tuple[tuple[int, int], ...]]:
        if not left:
            return 0, ()
        first, others = left[0], left[1:]
        found = best(others)
        for j in others:
            gain = saved.get((first, j), 0)
            if gain:
                rest = best(tuple(n for n in others if n != j))
                found = max(found, (gain + rest[0], ((first, j), *rest[1])), key=lambda f: f[0])
        return found

    return best(some)[1]


def _greatest_first(saved: dict[tuple[int, int], int]) -> tuple[tuple[int, int], ...]:
    """Pairs by their saving, the greatest first."""
    pairs: list[tuple[int, int]] = []
    taken: set[int] = set()
    for pair, _ in sorted(saved.items(), key=lambda s: (-s[1], s[0])):
        if taken.isdisjoint(pair):
            pairs.append(pair)
            taken.update(pair)
    return tuple(pairs)
