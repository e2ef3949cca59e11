"""Numbers, tags and signs of the drawings, in mm of paper, each pinned at a point of the model or of the paper.

Bay = number in a circle, rafter and its bar = R number in a box, cut = number in a black disc, detail = capital letter.
The signs for holds, fails, ask and caution read without colour.
"""

from __future__ import annotations

import math

from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import Area, Box, Circle, Group, Line, Pinned, Point, Polyline, Primitive, Text


def middle(at: Point, text: str, h_mm: float, weight: int = 400, colour: str = "ink") -> Text:
    """Lettering whose middle, across and up, is the point ``at`` (of paper, or within a Pinned).

    Examples
    --------
    >>> middle((0.0, 0.0), "3", 5.0).at
    (0.0, 2.5)
    """
    x, y = at
    return Text(at=(x, y + h_mm / 2), text=text, h_mm=h_mm, weight=weight, anchor="middle", colour=colour)


def stacked(at: Point, lines: tuple[tuple[str, float, int], ...], gap_mm: float = 1.6) -> Pinned:
    """Lines of lettering under each other, centred on ``at``, whose first capital tops lie at ``at``.

    Parameters
    ----------
    at
        Where to pin it.
    lines
        (text, height of a capital [mm], weight) of each line.
    gap_mm
        White between a line's foot and the next line's capitals [mm of paper].

    Examples
    --------
    >>> len(stacked((0.0, 0.0), (("947", 5.0, 700), ("wide", 2.5, 400))).content)
    2
    """
    content: list[Primitive] = []
    y = 0.0
    for text, h, weight in lines:
        y += h
        content.append(Text(at=(0.0, y), text=text, h_mm=h, weight=weight, anchor="middle", halo=True))
        y += gap_mm
    return Pinned(at=at, content=tuple(content))


def plate(at: Point, text: str, h_mm: float = 2.8, weight: int = 600, turn_deg: float = 0.0) -> Pinned:
    """Lettering on a white plate, for a hatched ground; its middle is at ``at``. Turned by 0 or 90 degrees."""
    half, tall = text_width_mm(text, h_mm, weight) / 2 + 1.2, h_mm / 2 + 1.0
    w, h = (tall, half) if turn_deg else (half, tall)
    ground = Area(points=Box(left=-w, top=-h, right=w, bottom=h).corners, fill="white")
    foot = (h_mm / 2, 0.0) if turn_deg else (0.0, h_mm / 2)
    words = Text(at=foot, text=text, h_mm=h_mm, weight=weight, anchor="middle", turn_deg=turn_deg)
    return Pinned(at=at, content=(ground, words))


def bay_number(at: Point, text: str, h_mm: float = 5.0) -> Pinned:
    """A bay: its number in a circle."""
    radius = max(h_mm * 1.06, text_width_mm(text, h_mm, 700) / 2 + 1.6)
    circle = Circle(centre=(0.0, 0.0), radius=radius, style="wide", fill="white")
    return Pinned(at=at, content=(circle, middle((0.0, 0.0), text, h_mm, 700)))


def box_tag(at: Point, text: str, h_mm: float = 2.5) -> Pinned:
    """A rafter and its bar: R and a number in a box."""
    half = text_width_mm(text, h_mm, 600) / 2 + 1.9
    tall = h_mm / 2 + 1.5
    box = Area(
        points=Box(left=-half, top=-tall, right=half, bottom=tall).corners, fill="white", style="narrow"
    )
    return Pinned(at=at, content=(box, middle((0.0, 0.0), text, h_mm, 600)))


def disc(at: Point, text: str, h_mm: float = 3.5, *, filled: bool = True) -> Pinned:
    """A letter or number in a disc: black for a cut or for the left, open for the right."""
    radius = max(h_mm * 1.05, text_width_mm(text, h_mm, 700) / 2 + 1.2)
    circle = Circle(centre=(0.0, 0.0), radius=radius, style="wide", fill="ink" if filled else "white")
    letter = middle((0.0, 0.0), text, h_mm, 700, "white" if filled else "ink")
    return Pinned(at=at, content=(circle, letter))


def detail_circle(centre: Point, radius_mm: float, letter: str, letter_at: Point) -> Group:
    """The circle round a part drawn larger elsewhere; ``radius_mm`` and the points are mm of the model."""
    name = middle((0.0, 0.0), letter, 3.5, 700)
    return Group(
        content=(
            Circle(centre=centre, radius=radius_mm, style="chain"),
            Pinned(at=letter_at, content=(name,)),
        )
    )


def hole(at: Point, radius_mm: float) -> Group:
    """A drilled hole with its centre lines; ``radius_mm`` is of the model, the cross is paper."""
    cross = tuple(Line(a=(-dx, -dy), b=(dx, dy), style="narrow") for dx, dy in ((3.2, 0.0), (0.0, 3.2)))
    circle = Circle(centre=at, radius=radius_mm, style="wide", fill="white")
    return Group(content=(circle, Pinned(at=at, content=cross)))


def screw_hole(at: Point, radius_mm: float = 1.5) -> Pinned:
    """A screw hole larger than life, so that it can be seen: a ring with a dot, mm of paper."""
    ring = Circle(centre=(0.0, 0.0), radius=radius_mm, style="frame", fill="white")
    return Pinned(at=at, content=(ring, Circle(centre=(0.0, 0.0), radius=0.22, style="", fill="ink")))


def tick(at: Point, size_mm: float = 4.0) -> Pinned:
    """Holds: a tick, no colour."""
    s = size_mm
    points = ((-0.42 * s, 0.05 * s), (-0.12 * s, 0.35 * s), (0.42 * s, -0.32 * s))
    return Pinned(at=at, content=(Polyline(points=points, style="frame"),))


def crossed_square(at: Point, size_mm: float = 4.0, colour: str = "ink") -> Pinned:
    """Fails: a filled square with a white cross."""
    h, c = size_mm / 2, size_mm * 0.24
    square = Area(points=Box(left=-h, top=-h, right=h, bottom=h).corners, fill=colour)
    strokes = (
        Line(a=(-c, -c), b=(c, c), style="frame", colour="white"),
        Line(a=(-c, c), b=(c, -c), style="frame", colour="white"),
    )
    return Pinned(at=at, content=(square, *strokes))


def ask_ring(at: Point, size_mm: float = 4.4) -> Pinned:
    """Ask: a ring with a question mark."""
    ring = Circle(centre=(0.0, 0.0), radius=size_mm / 2, style="wide", fill="white")
    return Pinned(at=at, content=(ring, middle((0.0, 0.0), "?", size_mm * 0.55, 700)))


def caution(at: Point, size_mm: float = 4.6) -> Pinned:
    """Caution: a filled triangle with an exclamation bar."""
    s = size_mm
    triangle = Area(points=((0.0, -0.52 * s), (0.56 * s, 0.44 * s), (-0.56 * s, 0.44 * s)), fill="ink")
    bar = Area(
        points=((-0.06 * s, -0.2 * s), (0.06 * s, -0.2 * s), (0.04 * s, 0.16 * s), (-0.04 * s, 0.16 * s)),
        fill="white",
    )
    dot = Circle(centre=(0.0, 0.29 * s), radius=0.06 * s, style="", fill="white")
    return Pinned(at=at, content=(triangle, bar, dot))


def sun(at: Point, size_mm: float = 14.0) -> Pinned:
    """The weather face: a sun with eight rays."""
    s = size_mm
    rays = []
    for k in range(8):
        c, d = math.cos(k * math.pi / 4), math.sin(k * math.pi / 4)
        rays.append(Line(a=(0.36 * s * c, 0.36 * s * d), b=(0.5 * s * c, 0.5 * s * d), style="extra wide"))
    circle = Circle(centre=(0.0, 0.0), radius=0.24 * s, style="extra wide", fill="white")
    return Pinned(at=at, content=(circle, *rays))
