"""Fitting to paper: sheet sizes, margins, the choice of a scale and where a view lies. Pure arithmetic, no
format.

Only scales from a standard list. Sheet sizes ISO 216; filing margin 20 and border 10 of A3 by ISO 5457
(border seen, the rest from memory); margins of A4 are ours.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pentice.drawing.scene import Box, Point
from pentice.errors import NoSolution

SCALES: tuple[float, ...] = (1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0)
"""Standard scales, the n of 1:n."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A sheet of paper and its margins [mm]."""

    name: str
    width_mm: float
    height_mm: float
    left_mm: float = 18.0
    right_mm: float = 12.0
    top_mm: float = 10.0
    bottom_mm: float = 12.0

    @property
    def inside(self) -> Box:
        """The part within the margins, from the top left corner of the paper."""
        return Box(
            left=self.left_mm,
            top=self.top_mm,
            right=self.width_mm - self.right_mm,
            bottom=self.height_mm - self.bottom_mm,
        )


A4 = Page(name="A4", width_mm=210.0, height_mm=297.0)
A4_LANDSCAPE = Page(name="A4", width_mm=297.0, height_mm=210.0)
A3_LANDSCAPE = Page(
    name="A3", width_mm=420.0, height_mm=297.0, left_mm=20.0, right_mm=10.0, top_mm=10.0, bottom_mm=10.0
)


def bare_page(width_mm: float, height_mm: float) -> Page:
    """A page without margins: a picture to be set into a paper, or a screen drawing (4 px to the mm).

    Examples
    --------
    >>> bare_page(100.0, 50.0).inside.right
    100.0
    """
    return Page(
        name="picture",
        width_mm=width_mm,
        height_mm=height_mm,
        left_mm=0.0,
        right_mm=0.0,
        top_mm=0.0,
        bottom_mm=0.0,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Where a model lies on paper: model (0, 0) at ``origin`` of the paper, drawn 1:``scale``."""

    scale: float
    origin: Point

    def x(self, x_mm: float) -> float:
        """Paper x of a model x [mm]."""
        return self.origin[0] + x_mm / self.scale

    def y(self, y_mm: float) -> float:
        """Paper y of a model y [mm]."""
        return self.origin[1] + y_mm / self.scale

    def point(self, p: Point) -> Point:
        """Paper point of a model point."""
        return (self.x(p[0]), self.y(p[1]))

    def length(self, mm: float) -> float:
        """Length on paper of a model length [mm]."""
        return mm / self.scale

    def model_point(self, p: Point) -> Point:
        """Model point of a paper point."""
        return ((p[0] - self.origin[0]) * self.scale, (p[1] - self.origin[1]) * self.scale)


PAPER = View(scale=1.0, origin=(0.0, 0.0))
"""The view of what is drawn in mm of paper already."""


def bounds(points: Iterable[Point]) -> Box:
    """The smallest upright box round the points.

    Examples
    --------
    >>> bounds([(0.0, 0.0), (4.0, -2.0)])
    Box(left=0.0, top=-2.0, right=4.0, bottom=0.0)
    """
    xs, ys = zip(*points, strict=True)
    return Box(left=min(xs), top=min(ys), right=max(xs), bottom=max(ys))


def choose_scale(width_mm: float, height_mm: float, room: Box, scales: tuple[float, ...] = SCALES) -> float:
    """The n of the largest standard scale 1:n at which a model fits a part of the paper.

    Parameters
    ----------
    width_mm, height_mm
        Size of the model [mm].
    room
        The part of the paper that is free for it.
    scales
        The n allowed, in rising order.

    Raises
    ------
    NoSolution
        Too large even at the smallest scale.

    Examples
    --------
    >>> choose_scale(4875.0, 2950.0, Box(left=0.0, top=0.0, right=200.0, bottom=150.0))
    25.0
    """
    for n in scales:
        if width_mm <= room.width * n + 1e-9 and height_mm <= room.height * n + 1e-9:
            return n
    raise NoSolution(
        f"A drawing of {width_mm:.0f} by {height_mm:.0f} mm does not fit "
        f"{room.width:.0f} by {room.height:.0f} mm of paper at 1:{scales[-1]:g}. Draw it in parts."
    )


def fit_view(
    model: Box, room: Box, *, scale: float | None = None, across: float = 0.5, down: float = 0.5
) -> View:
    """A view that puts the model's box into a part of the paper at a standard scale.

    Parameters
    ----------
    model
        Bounds of the model [mm].
    room
        The free part of the paper [mm].
    scale
        n of 1:n when it is already settled; otherwise the largest that fits.
    across, down
        Where the spare room goes: 0 puts the model at the left or top, 0.5 in the middle, 1 at the right
        or bottom.

    Raises
    ------
    NoSolution
        Too large even at the smallest scale.

    Examples
    --------
    >>> room = Box(left=10.0, top=10.0, right=70.0, bottom=30.0)
    >>> fit_view(Box(left=0.0, top=0.0, right=500.0, bottom=100.0), room)
    View(scale=10.0, origin=(15.0, 15.0))
    """
    n = choose_scale(model.width, model.height, room) if scale is None else scale
    x = room.left + (room.width - model.width / n) * across - model.left / n
    y = room.top + (room.height - model.height / n) * down - model.top / n
    return View(scale=n, origin=(x, y))


def fit_screen(model: Box, room: Box) -> View:
    """A view that fills a part of a screen drawing: any scale, because nobody measures on a screen.

    Examples
    --------
    >>> room = Box(left=0.0, top=0.0, right=60.0, bottom=60.0)
    >>> fit_screen(Box(left=0.0, top=0.0, right=300.0, bottom=100.0), room).scale
    5.0
    """
    n = max(model.width / room.width, model.height / room.height)
    return fit_view(model, room, scale=n)
