"""A free place for a label: the first of several where it lies on no lettering and on no strong line."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from pentice.drawing.dimensions import STROKE_MM
from pentice.drawing.page import View
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Area, Group, Line, Pinned, Point, Polyline, Primitive, Text
from pentice.drawing.sketch import text_box

WHITE_MM = 1.4
UNDER_MM = 0.2
"""White before and behind a label, and over and under it (judgement)."""
Polygon = tuple[Point, ...]
STRONG = ("wide", "extra wide")
"""Lines that show an edge or a member; thin ones may run through the white round a label."""


def touch(a: Sequence[Point], b: Sequence[Point], by_mm: float = 0.0) -> bool:
    """Whether two convex outlines would have to move by more than ``by_mm`` to part; a line has two points.

    Examples
    --------
    >>> square = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    >>> touch(square, ((1.0, -1.0), (1.0, 3.0))), touch(square, ((3.0, -1.0), (3.0, 3.0)))
    (True, False)
    """
    for outline in (a, b):
        for (x1, y1), (x2, y2) in pairwise((*outline, outline[0])):
            long = math.hypot(x2 - x1, y2 - y1)
            if long < 1e-9:
                continue
            across = ((y1 - y2) / long, (x2 - x1) / long)
            one, other = ([x * across[0] + y * across[1] for x, y in side] for side in (a, b))
            if min(max(one) - min(other), max(other) - min(one)) <= by_mm:
                return False
    return True


def first_free(choices: Sequence[Primitive], stands: Iterable[Primitive], n: float) -> Primitive:
    """The first label that touches nothing, or the one that touches least.

    Parameters
    ----------
    choices
        The same label at several places, the best first; of the model.
    stands
        What is drawn there already; of the model.
    n
        The scale it will be printed at, the n of 1:n.

    Examples
    --------
    >>> words = [Pinned(at=(x, 0.0), content=(Text(at=(0.0, 0.0), text="beam"),)) for x in (0.0, 40.0)]
    >>> first_free(words, [Line(a=(2.0, -9.0), b=(2.0, 9.0))], 1.0) is words[1]
    True
    """
    taken = _taken(stands, n)
    return min(choices, key=lambda choice: _touched(choice, taken, n))


def is_free(label: Primitive, stands: Iterable[Primitive], n: float) -> bool:
    """Whether a label touches nothing.

    Parameters
    ----------
    label, stands, n
        As in `first_free`.

    Examples
    --------
    >>> is_free(Text(at=(0.0, 0.0), text="beam"), [Line(a=(2.0, -9.0), b=(2.0, 9.0))], 1.0)
    False
    """
    return not _touched(label, _taken(stands, n), n)


def _taken(stands: Iterable[Primitive], n: float) -> list[Polygon]:
    """Lettering and strong lines that stand there already, on paper."""
    return list(_outlines(_flat(on_paper(stands, View(scale=n, origin=(0.0, 0.0))))))


def _touched(choice: Primitive, taken: Sequence[Polygon], n: float) -> int:
    """How much of it the lettering of a label touches."""
    made = _flat(on_paper((choice,), View(scale=n, origin=(0.0, 0.0))))
    boxes = [_grown(p) for p in made if isinstance(p, Text) and p.text]
    return sum(touch(box, other) for box in boxes for other in taken)


def _flat(primitives: Iterable[Primitive]) -> Iterator[Primitive]:
    for p in primitives:
        if isinstance(p, Group | Pinned):
            yield from _flat(p.content)
        else:
            yield p


def _outlines(primitives: Iterable[Primitive]) -> Iterator[Polygon]:
    """Boxes of lettering and strong lines, one by one."""
    for p in primitives:
        if isinstance(p, Text) and p.text:
            yield text_box(p)
        elif isinstance(p, Line) and p.style in STRONG and math.dist(p.a, p.b) > STROKE_MM + 0.2:
            yield (p.a, p.b)  # not the strokes that end a size: labels stand beside them
        elif isinstance(p, Polyline) and p.style in STRONG:
            yield from pairwise(p.points)
        elif isinstance(p, Area) and p.style in STRONG:
            yield from pairwise((*p.points, p.points[0]))


def _grown(p: Text) -> Polygon:
    """The box of a line of lettering with white before and behind it and a little over and under."""
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = text_box(p)
    long, tall = math.dist((x1, y1), (x2, y2)) or 1.0, math.dist((x1, y1), (x4, y4)) or 1.0
    ax, ay = (x2 - x1) / long * WHITE_MM, (y2 - y1) / long * WHITE_MM
    ux, uy = (x4 - x1) / tall * UNDER_MM, (y4 - y1) / tall * UNDER_MM
    return (
        (x1 - ax - ux, y1 - ay - uy),
        (x2 + ax - ux, y2 + ay - uy),
        (x3 + ax + ux, y3 + ay + uy),
        (x4 - ax + ux, y4 - ay + uy),
    )
