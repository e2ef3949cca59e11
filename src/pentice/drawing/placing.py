"""Placing labels so that none stands on another: pure arithmetic on centres and widths along one line.

A running mark is never left out, because somebody marks from it. Labels first move a little, then stand in
two or three rows, then turn to read from the right.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

CLEAR_MM = 1.2
"""Least white between two labels (judgement)."""
MOST_ROWS = 3
MOVES = 0.4
"""Share of its own width by which a label may leave its mark."""
LINE_MM = 0.5
"""Least white between a label and the line that goes down beside it (judgement)."""
DIGIT_SHARE = 0.8
"""Width of a digit as a share of the height of a capital: less white than that, and two numbers read as one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Where one label stands: its centre along the line, its row (0 lowest), and whether it is turned."""

    centre: float
    row: int = 0
    turned: bool = False


def spread(
    centres: Sequence[float],
    widths: Sequence[float],
    clear_mm: float = CLEAR_MM,
    least_mm: float = -math.inf,
) -> tuple[float, ...]:
    """Move labels along their line as little as needed so that none overlaps; their order stays.

    Parameters
    ----------
    centres
        Where each label would like its centre, rising [mm].
    widths
        Width of each label [mm].
    clear_mm
        Least white between neighbours [mm].
    least_mm
        No label begins before this place on the line [mm].

    Returns
    -------
    tuple of float
        The centres (least squares of the moves; labels that touch move as one block).

    Examples
    --------
    >>> spread((0.0, 4.0, 50.0), (10.0, 10.0, 10.0), 0.0)
    (-3.0, 7.0, 50.0)
    """
    blocks: list[tuple[float, int]] = []  # mean of the wished start of the block, members
    reach = [0.0]
    for before, after in zip(widths, list(widths)[1:], strict=False):
        reach.append(reach[-1] + (before + after) / 2 + clear_mm)
    for wished, at in zip(centres, reach, strict=True):
        mean, count = wished - at, 1
        while blocks and blocks[-1][0] > mean:
            other, members = blocks.pop()
            mean, count = (mean * count + other * members) / (count + members), count + members
        blocks.append((mean, count))
    floor = least_mm + widths[0] / 2 if widths else 0.0
    starts = [max(mean, floor) for mean, count in blocks for _ in range(count)]
    return tuple(start + at for start, at in zip(starts, reach, strict=True))


def stand_over_marks(
    centres: Sequence[float],
    widths: Sequence[float],
    clear_mm: float = CLEAR_MM,
    least_mm: float = -math.inf,
) -> tuple[Placed, ...]:
    """Places for labels that must stay over their own marks: one row, else two or three, else turned.

    A label may move by up to 40 % of its own width, so that its mark is still under it. The line from a label of a
    higher row down to its mark keeps clear of the labels under it, where these can move so far.

    Parameters
    ----------
    centres, widths, clear_mm, least_mm
        As in `spread`.

    Examples
    --------
    >>> [p.row for p in stand_over_marks((0.0, 5.0, 10.0, 15.0), (9.0, 9.0, 9.0, 9.0))]
    [0, 1, 2, 0]
    """
    for struck in (False, True):
        for rows in range(1, min(MOST_ROWS, len(centres)) + 1):
            placed = _in_rows(centres, widths, clear_mm, least_mm, rows)
            if placed and not struck:
                placed = _beside_lines(placed, centres, widths, clear_mm)
            if placed:
                return tuple(placed)
    return tuple(Placed(centre=centre, turned=True) for centre in centres)


def _in_rows(
    centres: Sequence[float], widths: Sequence[float], clear_mm: float, least_mm: float, rows: int
) -> list[Placed]:
    """Labels in so many rows in turn; none where one would leave its mark."""
    placed: dict[int, Placed] = {}
    for row in range(rows):
        mine = range(row, len(centres), rows)
        moved = spread([centres[i] for i in mine], [widths[i] for i in mine], clear_mm, least_mm)
        for i, centre in zip(mine, moved, strict=True):
            if abs(centre - centres[i]) <= MOVES * widths[i]:
                placed[i] = Placed(centre=centre, row=row)
    return [placed[i] for i in range(len(centres))] if len(placed) == len(centres) else []


def _beside_lines(
    placed: Sequence[Placed], centres: Sequence[float], widths: Sequence[float], clear_mm: float
) -> list[Placed]:
    """The same with each label moved off the lines of higher rows that go down beside it; none where one cannot."""
    found: list[Placed] = []
    for k, place in enumerate(placed):
        lines = [centres[i] for i, other in enumerate(placed) if other.row > place.row]
        half, at = widths[k] / 2.0 + LINE_MM, place.centre
        for line in lines:
            if abs(line - at) < half - 1e-9:
                at = line - half if centres[k] <= line else line + half
        if any(abs(line - at) < half - 1e-9 for line in lines) or abs(at - centres[k]) > MOVES * widths[k]:
            return []
        found.append(Placed(centre=at, row=place.row))
    for row in {place.row for place in found}:
        mine = [(place.centre, widths[k]) for k, place in enumerate(found) if place.row == row]
        if any(b - a < (v + w) / 2.0 + clear_mm - 1e-6 for (a, v), (b, w) in pairwise(mine)):
            return []
    return found


def overlap(a: tuple[float, float], b: tuple[float, float]) -> bool:
    """Whether two stretches (from, to) share more than a point.

    Examples
    --------
    >>> overlap((0.0, 2.0), (1.0, 3.0)), overlap((0.0, 1.0), (1.0, 2.0))
    (True, False)
    """
    return a[0] < b[1] and b[0] < a[1]
