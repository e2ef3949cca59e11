"""Hatches for cut faces, as plain lines and dots that every writer can draw.

The set is ours, in the spirit of the usual building hatches. Spacings are mm of paper. Neighbouring parts
change angle: a name with "-turned" at its end is the same hatch leaning the other way.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pentice.drawing.scene import Area, Line, Point, Polyline, Primitive


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """Families of parallel lines (angle in degrees anticlockwise from the right, spacing in mm of paper)."""

    families: tuple[tuple[float, float], ...] = ()
    special: str = ""


_BASE: dict[str, Hatch] = {
    "brick": Hatch(families=((45.0, 2.2),)),
    "blockwork": Hatch(families=((45.0, 3.2), (-45.0, 3.2))),
    "concrete": Hatch(special="concrete"),
    "timber end": Hatch(special="diagonals"),
    "timber along": Hatch(special="waves"),
    "metal": Hatch(families=((45.0, 1.0),)),
    "insulation": Hatch(families=((60.0, 3.0), (-60.0, 3.0))),
    "scrap": Hatch(families=((45.0, 3.6),)),
}
HATCHES: dict[str, Hatch] = _BASE | {
    f"{name}-turned": Hatch(families=tuple((-angle, gap) for angle, gap in hatch.families))
    for name, hatch in _BASE.items()
    if hatch.families
}
"""Hatches by name."""


def hatch_lines(rings: Sequence[Sequence[Point]], angle_deg: float, spacing_mm: float) -> tuple[Line, ...]:
    """Parallel lines clipped to an outline with holes (inside by the even-odd rule).

    Parameters
    ----------
    rings
        The outline and its holes.
    angle_deg
        Direction of the lines, anticlockwise from the right.
    spacing_mm
        Distance between lines.

    Examples
    --------
    >>> len(hatch_lines([((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))], 0.0, 2.5))
    4
    """
    c, s = math.cos(math.radians(angle_deg)), -math.sin(math.radians(angle_deg))
    turned = [[(x * c + y * s, y * c - x * s) for x, y in ring] for ring in rings]
    heights = [y for ring in turned for _, y in ring]
    first = math.ceil(min(heights) / spacing_mm - 0.5)
    last = math.floor(max(heights) / spacing_mm - 0.5)
    lines: list[Line] = []
    for k in range(first, last + 1):
        y = (k + 0.5) * spacing_mm
        xs = sorted(x for ring in turned for x in _crossings(ring, y))
        for left, right in zip(xs[::2], xs[1::2], strict=False):
            a, b = ((x * c - y * s, x * s + y * c) for x in (left, right))
            lines.append(Line(a=a, b=b, style="narrow"))
    return tuple(lines)


def _crossings(ring: Sequence[Point], y: float) -> list[float]:
    """Where a level line at ``y`` crosses the ring."""
    xs = []
    for (x1, y1), (x2, y2) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (y1 <= y) != (y2 <= y):
            xs.append(x1 + (y - y1) / (y2 - y1) * (x2 - x1))
    return xs


def inside(rings: Sequence[Sequence[Point]], p: Point) -> bool:
    """Whether a point lies inside the outline and outside its holes.

    Examples
    --------
    >>> inside([((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))], (1.0, 1.0))
    True
    """
    return sum(1 for ring in rings for x in _crossings(ring, p[1]) if x > p[0]) % 2 == 1


def hatch_area(area: Area) -> tuple[Primitive, ...]:
    """What fills an area of paper whose ``fill`` names a hatch.

    Parameters
    ----------
    area
        In mm of paper.

    Examples
    --------
    >>> square = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    >>> len(hatch_area(Area(points=square, fill="timber end")))
    2
    """
    rings = (area.points, *area.holes)
    hatch = HATCHES[area.fill]
    if hatch.special == "concrete":
        return _concrete(rings)
    if hatch.special == "diagonals":
        return _diagonals(area.points)
    if hatch.special == "waves":
        return _waves(rings)
    return tuple(line for angle, gap in hatch.families for line in hatch_lines(rings, angle, gap))


def _diagonals(points: Sequence[Point]) -> tuple[Line, ...]:
    """Two diagonals: the sign of timber cut across."""
    n = len(points)
    if n == 4:
        return tuple(Line(a=points[i], b=points[i + 2], style="narrow") for i in (0, 1))
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    a, b, c, d = min(xs), min(ys), max(xs), max(ys)
    return (Line(a=(a, b), b=(c, d), style="narrow"), Line(a=(c, b), b=(a, d), style="narrow"))


def _waves(rings: Sequence[Sequence[Point]]) -> tuple[Polyline, ...]:
    """Waving lines along the longer side of the outline: timber cut along the grain."""
    xs, ys = [p[0] for p in rings[0]], [p[1] for p in rings[0]]
    level = max(xs) - min(xs) >= max(ys) - min(ys)
    low, high = (min(ys), max(ys)) if level else (min(xs), max(xs))
    start, end = (min(xs), max(xs)) if level else (min(ys), max(ys))
    rows = max(1, round((high - low) / 2.4))
    runs: list[Polyline] = []
    for row in range(rows):
        middle = low + (row + 0.5) * (high - low) / rows
        run: list[Point] = []
        for k in range(int((end - start) / 0.75) + 2):
            along = min(start + 0.75 * k, end)
            across = middle + 0.45 * math.sin(along / 2.1 + 1.7 * row)
            p = (along, across) if level else (across, along)
            if inside(rings, p):
                run.append(p)
            elif len(run) > 1:
                runs.append(Polyline(points=tuple(run), style="narrow"))
                run = []
            else:
                run = []
        if len(run) > 1:
            runs.append(Polyline(points=tuple(run), style="narrow"))
    return tuple(runs)


def _concrete(rings: Sequence[Sequence[Point]]) -> tuple[Primitive, ...]:
    """Dots, and a small triangle for every sixth, strewn by a fixed row of numbers so that each print is the same."""
    xs, ys = [p[0] for p in rings[0]], [p[1] for p in rings[0]]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    found: list[Primitive] = []
    state = 7
    for k in range(max(6, round(width * height / 5.0))):
        # A whole-number row (multiply, add, remainder): looks strewn, and has no chance in it.
        state = (1103515245 * state + 12345) % 2147483648
        across = (state >> 8) % 9973 / 9973
        state = (1103515245 * state + 12345) % 2147483648
        p = (min(xs) + width * across, min(ys) + height * ((state >> 8) % 9973 / 9973))
        size = 0.8 if k % 6 == 0 else 0.2
        corners = tuple(
            (p[0] + dx * size, p[1] + dy * size) for dx, dy in ((-0.9, 0.6), (0.9, 0.5), (0.1, -0.9))
        )
        if all(inside(rings, corner) for corner in corners):
            if size > 0.5:
                found.append(Polyline(points=corners, closed=True, style="narrow"))
            else:
                found.append(Area(points=corners, fill="ink"))
    return tuple(found)
