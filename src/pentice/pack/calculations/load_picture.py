"""The picture of the load of a check: the load over the part that carries it, and what holds the part."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from pentice.checks.values import LoadPicture
from pentice.drawing.dimensions import arrowhead
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import bare_page
from pentice.drawing.scene import Area, Line, Point, Polyline, Primitive, Scene, Text
from pentice.drawing.svg import render_svg
from pentice.pack.calculations.figures import minus, unit_words

WIDE_MM, HIGH_MM = 82.0, 41.0
_LEFT, _RIGHT, _PART, _TALL = 9.0, 73.0, 26.0, 13.0
_ARROWS = 13
_HEAD_MM = 1.8
_GAP_MM = 1.2
_ROOM_MM = 18.0
"""Between two loads that are written: closer ones stand in the lines of working alone."""
_OVER_MM = 8.5
"""A single force begins so far over the load: its size stands over that of the load."""
_BESIDE_MM = 1.8
"""From the line of a single force to the size of a load that begins there."""

Across = Callable[[float], float]
Top = Callable[[float, float], Point]


def load_svg(picture: LoadPicture) -> str:
    """The picture as SVG.

    Parameters
    ----------
    picture
        The load and what holds it.

    Returns
    -------
    str
        SVG of `WIDE_MM` by `HIGH_MM`.
    """
    return render_svg(load_scene(picture), bare_page(WIDE_MM, HIGH_MM))


def load_scene(picture: LoadPicture) -> Scene:
    """The picture as lines and letters.

    Parameters
    ----------
    picture
        The load and what holds it.

    Returns
    -------
    Scene
        In mm of paper.
    """
    return Scene(primitives=tuple(_content(picture)), title=f"{picture.says}.", desc=load_words(picture))


def load_words(picture: LoadPicture) -> str:
    """The same in words, for those who cannot see it.

    Parameters
    ----------
    picture
        The load and what holds it.

    Returns
    -------
    str
        Loads with their places.
    """
    loads = ", ".join(f"{q:.3f} at {at:.0f} mm" for at, q in picture.line)
    force = picture.force
    single = f"; {force[1]:.3f} {force[2]} at {force[0]:.0f} mm" if force else ""
    return minus(f"{picture.says}: {loads} {unit_words(picture.unit)}{single}.")


def _content(picture: LoadPicture) -> Iterator[Primitive]:
    line = picture.line
    long = max((at for at, _ in line), default=1.0) or 1.0
    most = max((abs(q) for _, q in line), default=0.0) or 1.0

    def at(place_mm: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * place_mm / long

    def top(place_mm: float, load: float) -> Point:
        return at(place_mm), _PART - _GAP_MM - _TALL * abs(load) / most

    yield Line(a=(_LEFT, _PART), b=(_RIGHT, _PART), style="extra wide")
    if line:
        edge = tuple(top(x, q) for x, q in line)
        base = _PART - _GAP_MM
        yield Polyline(points=((edge[0][0], base), *edge, (edge[-1][0], base)), style="narrow dashed")
        yield from _arrows(line, long, top)
        yield from _loads(picture, most, top)
    pulled = picture.force[0] if picture.force is not None else None
    for place in picture.held_mm:
        if place == pulled:
            continue
        x = at(place)
        yield Area(points=((x, _PART + 0.6), (x - 1.7, _PART + 3.8), (x + 1.7, _PART + 3.8)), fill="ink")
    yield from _places(picture, long, at)
    if picture.force is not None:
        up = sum(q for _, q in line) < 0.0
        yield from _single(picture.force, at, holds=up)


def _arrows(line: tuple[tuple[float, float], ...], long: float, top: Top) -> Iterator[Primitive]:
    for i in range(_ARROWS):
        place = long * (i + 0.5) / _ARROWS
        (a, qa), (b, qb) = next(
            ((p, q) for p, q in pairwise(line) if p[0] <= place <= q[0] and q[0] > p[0]), (line[0], line[-1])
        )
        load = qa + (qb - qa) * (place - a) / (b - a) if b > a else qa
        x, y = top(place, load)
        base = _PART - _GAP_MM
        if base - y <= _HEAD_MM:
            continue
        if load > 0.0:
            yield Line(a=(x, y), b=(x, base - _HEAD_MM), style="narrow")
            yield arrowhead((x, base), (0.0, 1.0), _HEAD_MM)
        else:
            yield Line(a=(x, base), b=(x, y + _HEAD_MM), style="narrow")
            yield arrowhead((x, y), (0.0, -1.0), _HEAD_MM)


def _loads(picture: LoadPicture, most: float, top: Top) -> Iterator[Primitive]:
    """The load at both ends and at the bends that have room; an even load once. The first has the unit."""
    line, unit = picture.line, unit_words(picture.unit)
    even = all(abs(q - line[0][1]) < 5e-4 * most for _, q in line)
    ends = (line[0],) if even else (line[0], *line[1:-1], line[-1])
    taken: list[float] = [top(*line[-1])[0]] if not even else []
    edge = [top(x, q) for x, q in line]
    for k, (place, load) in enumerate(ends):
        x, y = top(place, load)
        last = not even and k == len(ends) - 1
        if not last and k and any(abs(x - other) < _ROOM_MM for other in taken):
            continue
        taken.append(x)
        anchor = "start" if k == 0 else "end" if last else "middle"
        if picture.force is not None and abs(picture.force[0] - place) < 1.0:
            x += _BESIDE_MM if k == 0 else -_BESIDE_MM if last else 0.0
        text = minus(f"{load:.3f}" + (f" {unit}" if k == 0 else ""))
        wide = text_width_mm(text, 2.5, 600)
        left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[anchor]
        yield Text(
            at=(x, min(y, _highest(edge, left, left + wide)) - 1.5),
            text=text,
            weight=600,
            anchor=anchor,
            halo=True,
        )


def _highest(edge: Sequence[Point], left: float, right: float) -> float:
    """The highest point of the load's edge between two places on paper [mm]."""
    found = [y for x, y in edge if left <= x <= right]
    for (a, ya), (b, yb) in pairwise(edge):
        found += [ya + (yb - ya) * (x - a) / (b - a) for x in (left, right) if a < x < b]
    return min(found, default=_PART)


def _places(picture: LoadPicture, long: float, at: Across) -> Iterator[Primitive]:
    """The span under the part; many bearings alike are only counted."""
    held, y = picture.held_mm, _PART + 8.2
    if len(held) == 2 and held[1] - held[0] > 0.3 * long:
        a, b = at(held[0]), at(held[1])
        yield Line(a=(a, y), b=(b, y), style="narrow")
        for x in (a, b):
            yield Line(a=(x, y - 1.6), b=(x, y + 1.6), style="narrow")
            yield Line(a=(x - 1.0, y + 1.0), b=(x + 1.0, y - 1.0), style="wide")
        text = f"{held[1] - held[0]:.0f}"
        yield Text(at=((a + b) / 2, y - 0.9), text=text, weight=600, anchor="middle", halo=True)
    left, right = picture.ends
    yield Text(at=(_LEFT, y + 5.6), text=left)
    yield Text(at=(_RIGHT, y + 5.6), text=right, anchor="end")


def _single(force: tuple[float, float, str], at: Across, *, holds: bool) -> Iterator[Primitive]:
    """One single force: onto the part from above, or where a screw or a cap holds it down, below it."""
    place, size, unit = force
    x, head = at(place), _HEAD_MM * 1.4
    start, end = (
        (_PART + 0.6, _PART + 9.5) if holds else (_PART - _GAP_MM - _TALL - _OVER_MM, _PART - _GAP_MM)
    )
    yield Line(a=(x, start), b=(x, end - head), style="wide")
    yield arrowhead((x, end), (0.0, 1.0), head)
    text = f"{size:.3f} {unit_words(unit)}"
    right = x < WIDE_MM * 0.6
    y = end - 0.6 if holds else start + 2.0
    yield Text(
        at=(x + (2.0 if right else -2.0), y),
        text=text,
        weight=700,
        anchor="start" if right else "end",
        halo=True,
    )
