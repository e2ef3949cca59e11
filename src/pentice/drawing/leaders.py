"""Leaders with their labels, columns of labels that do not cross, and break lines.

An arrow ends on an edge, a dot ends inside a shape. A label begins with the part, then its number. A line
that ends because the paper ends gets a break line, never a bare stop.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from pentice.drawing.dimensions import arrowhead
from pentice.drawing.placing import spread
from pentice.drawing.scene import Circle, Line, Pinned, Point, Polyline, Primitive, Text


def leader(
    tip: Point, to: Point, text: str, *, end: str = "arrow", h_mm: float = 2.5, weight: int = 400
) -> Pinned:
    """A leader from an edge ("arrow") or from inside a shape ("dot") to a label.

    Parameters
    ----------
    tip
        What is meant (model or paper).
    to
        Where the label begins, in mm of paper from the tip; to the left of it the label ends there.
    text
        The label, one line, or several lines parted by a line break.
    end
        "arrow" or "dot".
    h_mm, weight
        Lettering.
    """
    x, y = to
    whole = math.hypot(x, y) or 1.0
    side = 1.0 if x >= 0 else -1.0
    bend = (x - side * 1.4, y)
    content: list[Primitive] = [Line(a=(0.0, 0.0), b=bend, style="narrow")]
    if end == "dot":
        content.append(Circle(centre=(0.0, 0.0), radius=0.6, style="", fill="ink"))
    else:
        reach = math.hypot(*bend) or whole
        content.append(arrowhead((0.0, 0.0), (-bend[0] / reach, -bend[1] / reach)))
    anchor = "start" if side > 0 else "end"
    for row, line in enumerate(text.split("\n")):
        foot = (x - side * 0.3, y + h_mm / 2 + row * h_mm * 1.75)
        content.append(Text(at=foot, text=line, h_mm=h_mm, weight=weight, anchor=anchor, halo=True))
    return Pinned(at=tip, content=tuple(content))


def label_column(
    labels: Sequence[tuple[Point, str, int]],
    x: float,
    *,
    top: float | None = None,
    h_mm: float = 2.5,
    end: str = "arrow",
) -> tuple[Pinned, ...]:
    """Labels in one column at ``x``, in the order of their tips from the top, so that no leader crosses
    another.

    Parameters
    ----------
    labels
        (tip in mm of paper, text of one line, weight).
    x
        Where the labels begin (or end, when the tips lie to the right) [mm of paper].
    top
        Middle of the first label; left out, each label stands as near the height of its tip as it can.
    h_mm
        Height of a capital [mm].
    end
        "arrow" or "dot".

    Examples
    --------
    >>> made = label_column((((0.0, 9.0), "low", 400), ((0.0, 0.0), "high", 400)), 20.0)
    >>> [p.content[-1].text for p in made]
    ['high', 'low']
    """
    ordered = sorted(labels, key=lambda label: (label[0][1], label[0][0]))
    pitch = h_mm * 2.3
    tall = [pitch] * len(ordered)
    if top is None:
        rows = spread([label[0][1] for label in ordered], tall, 0.0)
    else:
        rows = tuple(top + pitch * k for k in range(len(ordered)))
    return tuple(
        leader(tip, (x - tip[0], y - tip[1]), text, end=end, h_mm=h_mm, weight=weight)
        for (tip, text, weight), y in zip(ordered, rows, strict=True)
    )


def break_line(a: Point, b: Point) -> Polyline:
    """A line with a zigzag in its middle: the part goes on beyond.

    Examples
    --------
    >>> len(break_line((0.0, 0.0), (10.0, 0.0)).points)
    6
    """
    dx, dy = b[0] - a[0], b[1] - a[1]
    steps = ((0.0, 0.0), (0.42, 0.0), (0.46, 0.11), (0.54, -0.11), (0.58, 0.0), (1.0, 0.0))
    points = tuple((a[0] + dx * u - dy * v, a[1] + dy * u + dx * v) for u, v in steps)
    return Polyline(points=points, style="narrow")
