"""Lengths of the pieces of a stack of strips, so that no crosscut has to take off less than can be sawn."""

from __future__ import annotations

from collections.abc import Sequence

from pentice.cutting.ribs import leaves_well
from pentice.cutting.strips import SheetKind, SheetStrip, cut_length
from pentice.cutting.values import SheetStock

Lengths = tuple[tuple[int, ...], ...]


def settled(
    strips: Sequence[SheetStrip], kinds: Sequence[SheetKind], stock: SheetStock, kerf: int
) -> Lengths | None:
    """Length of each piece of each strip [mm]: as wanted, or shorter where a cut would leave a sliver.

    Parameters
    ----------
    strips
        Strips one below the other, head first.
    kinds
        Kinds of piece.
    stock
        The sheet.
    kerf
        Width of a cut [mm].

    Returns
    -------
    tuple or None
        None where the windows do not allow it: a crosscut would leave more than nothing and less than kerf + 2.
    """
    room = stock.length_mm - 2 * stock.edge_trim_mm
    rest = room - sum(strip.height_mm for strip in strips) - kerf * (len(strips) - 1)
    short = 0 if leaves_well(rest, kerf) else kerf + 2 - rest
    for shortened in reversed(range(len(strips))):
        lengths = [
            _within(strip, strip.height_mm - (short if i == shortened else 0), kinds, stock, kerf)
            for i, strip in enumerate(strips)
        ]
        if None not in lengths:
            return tuple(n for n in lengths if n is not None)
        if short == 0:
            break
    return None


def stands(strip: SheetStrip, kinds: Sequence[SheetKind], stock: SheetStock, kerf: int) -> bool:
    """Whether the pieces of one strip can stand side by side: none is longer than another by less than can be sawn off.

    Parameters
    ----------
    strip, kinds, stock, kerf
        As for `settled`.

    Returns
    -------
    bool
        False where the window of a piece does not allow it.
    """
    return _within(strip, strip.height_mm, kinds, stock, kerf) is not None


def _within(
    strip: SheetStrip, height: int, kinds: Sequence[SheetKind], stock: SheetStock, kerf: int
) -> tuple[int, ...] | None:
    """Lengths of the pieces of one strip of a given height."""
    lengths = []
    for lying in strip.pieces:
        piece = kinds[lying.kind].piece
        length = min(cut_length(piece, stock), height)
        if not leaves_well(height - length, kerf):
            length = height - kerf - 2
        if length < piece.least_length_mm:
            return None
        lengths.append(length)
    return tuple(lengths)
