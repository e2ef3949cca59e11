"""The bound of cutting sheets of one size from worths of widths and heights that are found by linear programs.

Sizes across are turned into worths so that no row of pieces is worth more than a sheet is wide, and sizes along in the
same way; the products then bound every plan (conservative scales: Fekete and Schepers 2004; the linear program over
slices: Belov, Kartak, Rohling and Scheithauer 2009). Each side is made the best for the other in turn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from pentice.cutting.columns import Room, relaxed
from pentice.cutting.packing import Stop
from pentice.cutting.scales import Size

_TURNS = 6
_LITTLE = Fraction(1, 100)
"""The last turn is one that gives less of a sheet than this: on published instances none after it gave more."""
_COARSE = 10_000


def least_sheets(
    sizes: Sequence[Size], counts: Sequence[int], room: Size, *, enough: int, stop: Stop | None = None
) -> int:
    """A number of sheets that no plan can go below.

    Parameters
    ----------
    sizes, counts
        Width and height of each kind, the kerf added, and how many.
    room
        Width and height of the sheet, the kerf added.
    enough
        The number at which to end.
    stop
        Ends it early; the bound is valid all the same.

    Returns
    -------
    int
        [-].

    Examples
    --------
    >>> least_sheets([(6, 6)], [5], (10, 10), enough=9)
    5
    """
    best, total = 0, Fraction(0)
    scale = [Fraction(size[1], room[1]) for size in sizes]
    for turn in range(_TURNS):
        side = turn % 2
        found = relaxed(
            [size[side] for size in sizes],
            counts,
            [Room(length=room[side], cost=1)],
            weights=[float(n * share) for n, share in zip(counts, scale, strict=True)],
            stop=stop,
        )
        if found is None:
            return best
        before = total
        total = sum(
            (n * w * share for n, w, share in zip(counts, found.worth, scale, strict=True)), Fraction(0)
        )
        best = max(best, math.ceil(total))
        if best >= enough or (turn and total - before < _LITTLE) or (stop is not None and stop()):
            break
        # Rounded down, a scale stays one; it keeps the fractions short.
        scale = [Fraction(math.floor(w * _COARSE), _COARSE) for w in found.worth]
    return best
