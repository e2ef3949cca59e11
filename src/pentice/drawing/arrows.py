"""Arrows and bands that a saw operator looks for: HEAD, FLUTES, WEATHER FACE UP, SOLID and BREATHER tape,
section arrows.

All in mm of paper, pinned at a point; capitals are used here and nowhere else.
"""

from __future__ import annotations

from pentice.drawing.dimensions import Frame, arrowhead, left_of
from pentice.drawing.scene import Area, Box, Circle, Line, Pinned, Point, Primitive, Text
from pentice.drawing.symbols import middle, plate, sun


def block_arrow(at: Point, size_mm: float, along: Point = (0.0, -1.0)) -> Area:
    """A solid arrow with a shaft; its tip is ``size_mm`` from the foot at ``at``. Points up unless told."""
    f = Frame(at, along, left_of(along))
    s = size_mm
    outline = ((0.0, 0.22), (0.48, 0.22), (0.48, 0.5), (1.0, 0.0), (0.48, -0.5), (0.48, -0.22), (0.0, -0.22))
    return Area(points=tuple(f.at(a * s, b * s) for a, b in outline), fill="ink")


def head_arrow(at: Point, size_mm: float = 12.0, h_mm: float = 7.0, *, word_below: bool = False) -> Pinned:
    """HEAD is up: a block arrow standing on ``at``, the word to its right, or under it on a label."""
    if word_below:
        word = Text(at=(0.0, h_mm + 2.4), text="HEAD", h_mm=h_mm, weight=700, anchor="middle")
    else:
        word = Text(at=(size_mm * 0.5 + 2.0, -1.2), text="HEAD", h_mm=h_mm, weight=700)
    return Pinned(at=at, content=(block_arrow((0.0, 0.0), size_mm), word))


def head_triangle(at: Point, h_mm: float = 2.8) -> Pinned:
    """A small HEAD: a triangle pointing up with the word under it, for a layout of several pieces."""
    triangle = Area(points=((0.0, -h_mm * 1.6), (h_mm * 1.4, 0.0), (-h_mm * 1.4, 0.0)), fill="ink")
    word = Text(at=(0.0, h_mm * 2.1), text="HEAD", h_mm=h_mm, weight=700, anchor="middle")
    return Pinned(at=at, content=(triangle, word))


def flutes_arrow(at: Point, length_mm: float = 22.0, h_mm: float = 2.5) -> Pinned:
    """FLUTES run this way: a double arrow up and down the page, the word along its left side."""
    half = length_mm / 2
    shaft = Line(a=(0.0, -half + 3.0), b=(0.0, half - 3.0), style="extra wide")
    tips = tuple(
        Area(points=((0.0, s * half), (1.3, s * (half - 3.8)), (-1.3, s * (half - 3.8))), fill="ink")
        for s in (-1.0, 1.0)
    )
    word = Text(at=(-2.4, 0.0), text="FLUTES", h_mm=h_mm, weight=600, anchor="middle", turn_deg=90.0)
    return Pinned(at=at, content=(shaft, *tips, word))


def flutes_big(at: Point, length_mm: float = 50.0, h_mm: float = 5.0) -> Pinned:
    """The FLUTES sign of a ticket: a broad double arrow with the flutes in it, on a white plate."""
    half, w = length_mm / 2, 6.0
    plate_box = Box(left=-w - h_mm - 3.5, top=-half - 1.5, right=w + 2.0, bottom=half + 1.5)
    content: list[Primitive] = [Area(points=plate_box.corners, fill="white")]
    tall = half - 9.0
    content.append(
        Area(points=Box(left=-w, top=-tall, right=w, bottom=tall).corners, fill="white", style="wide")
    )
    content.append(Area(points=Box(left=-0.8, top=-tall, right=0.8, bottom=tall).corners, fill="ink"))
    for s in (-1.0, 1.0):
        content.append(Area(points=((0.0, s * half), (w + 1.0, s * tall), (-w - 1.0, s * tall)), fill="ink"))
    content.append(
        Text(at=(-w - 2.2, 0.0), text="FLUTES", h_mm=h_mm, weight=700, anchor="middle", turn_deg=90.0)
    )
    return Pinned(at=at, content=tuple(content))


def weather_face(at: Point, h_mm: float = 5.0) -> Pinned:
    """WEATHER FACE UP under a sun, on a white plate; ``at`` is the middle of the sun."""
    ground = Box(left=-h_mm * 3.6, top=-h_mm * 1.6, right=h_mm * 3.6, bottom=h_mm * 4.6)
    words = tuple(
        Text(at=(0.0, y * h_mm), text=text, h_mm=h_mm, weight=700, anchor="middle")
        for text, y in (("WEATHER", 2.75), ("FACE UP", 4.2))
    )
    return Pinned(
        at=at, content=(Area(points=ground.corners, fill="white"), sun((0.0, 0.0), h_mm * 2.8), *words)
    )


def tape_band(band: Box, kind: str, h_mm: float = 2.5) -> tuple[Primitive, ...]:
    """A tape along an end of a sheet: "solid" is a black band, "breather" an open one with dots.

    Parameters
    ----------
    band
        The band in mm of paper.
    kind
        "solid" or "breather".
    h_mm
        Height of the capitals [mm].

    Examples
    --------
    >>> len(tape_band(Box(left=0.0, top=0.0, right=40.0, bottom=5.0), "solid"))
    2
    """
    if kind == "solid":
        word = middle(band.centre, "SOLID TAPE", h_mm, 700, "white")
        return (Area(points=band.corners, fill="ink"), word)
    count = max(2, int(band.width / 3.2))
    step = band.width / count
    row = band.bottom - 0.95
    dots = tuple(
        Circle(centre=(band.left + step * (k + 0.5), row), radius=0.42, style="", fill="ink")
        for k in range(count)
    )
    clear = plate((band.centre[0], band.top + 0.4 + h_mm / 2), "BREATHER TAPE", h_mm, 700).content[1:]
    words = Pinned(at=(band.centre[0], band.top + 0.7 + h_mm / 2), content=clear)
    return (Area(points=band.corners, fill="white", style="wide"), *dots, words)


def section_arrow(at: Point, letter: str, look: Point = (1.0, 0.0), *, ahead: bool = False) -> Pinned:
    """The end of a section plane: a heavy stroke, an arrow in the way of looking, the letter beside it.

    Parameters
    ----------
    at
        A point on the plane.
    letter
        Name of the section.
    look
        Unit vector of the way of looking.
    ahead
        The letter before the arrow's tip, where there is no room beside it.
    """
    f = Frame((0.0, 0.0), look, left_of(look))
    stroke = Line(a=f.at(0.0, 2.2), b=f.at(0.0, -2.2), style="cutting plane")
    shaft = Line(a=f.at(0.0), b=f.at(4.4), style="wide")
    name = plate(f.at(8.0) if ahead else f.at(1.2, -5.2), letter, 3.5, 700)
    return Pinned(at=at, content=(stroke, shaft, arrowhead(f.at(5.2), look), name))


def load_arrows(outline: tuple[Point, Point, Point, Point], count: int = 10) -> tuple[Primitive, ...]:
    """A load as a dashed outline with arrows down: corners from the foot of the left arrow, clockwise
    (paper mm).

    Parameters
    ----------
    outline
        Lower left, upper left, upper right, lower right.
    count
        Number of gaps between arrows.
    """
    (x1, y1), (_, t1), (x2, t2), (_, y2) = outline
    edge = [
        Line(a=a, b=b, style="narrow dashed")
        for a, b in zip(outline, (*outline[1:], outline[0]), strict=True)
    ]
    made: list[Primitive] = list(edge)
    for k in range(count + 1):
        u = k / count
        x, top, foot = x1 + (x2 - x1) * u, t1 + (t2 - t1) * u, y1 + (y2 - y1) * u
        made.append(Line(a=(x, top), b=(x, foot - 1.5), style="narrow"))
        made.append(arrowhead((x, foot), (0.0, 1.0), 2.2))
    return tuple(made)
