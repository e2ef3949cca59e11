"""Furniture of a page: key strip, scale bar, north, pitch triangle, check rule, check bar. In mm of paper, pinned.

The key strip is this roof from above: the thick line is the wall, the black bay is what the page is about.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import replace
from itertools import pairwise

from pentice.drawing.hatches import hatch_lines
from pentice.drawing.scene import Area, Box, Circle, Line, Pinned, Point, Polyline, Primitive, Text
from pentice.drawing.symbols import middle

STRIP_WIDTH_MM = 46.0
STRIP_HEIGHT_MM = 13.0


def key_strip(
    widths: Sequence[float], active_bays: Collection[int] = (), active_bars: Collection[int] = (),
    *, width_mm: float = STRIP_WIDTH_MM, height_mm: float = STRIP_HEIGHT_MM,
) -> tuple[Primitive, ...]:  # fmt: skip
    """The roof from above, from its top left corner: bays in their true proportion, the wall thick at the top.

    Parameters
    ----------
    widths
        Width of each bay, any unit.
    active_bays, active_bars
        Numbers from 1 of the bays shown black and of the bars (R1 at the left end) shown heavy.
    width_mm, height_mm
        Size of the strip [mm].

    Examples
    --------
    >>> len(key_strip((1.0, 1.0), active_bays=(2,)))
    9
    """
    edges = [0.0]
    for w in widths:
        edges.append(edges[-1] + w * width_mm / sum(widths))
    parts: list[Primitive] = []
    for k, (a, b) in enumerate(pairwise(edges), start=1):
        black = k in active_bays
        cell = Box(left=a, top=0.0, right=b, bottom=height_mm)
        parts.append(Area(points=cell.corners, fill="ink" if black else "white"))
        colour = "white" if black else "ink"
        if b - a >= 4.5:
            parts.append(middle(cell.centre, str(k), 2.8, 600, colour))
        elif b - a >= 3.4:  # too narrow for two figures side by side: they stand on end
            x, y = cell.centre
            said = Text(
                at=(x + 1.4, y),
                text=str(k),
                h_mm=2.8,
                weight=600,
                anchor="middle",
                turn_deg=90.0,
                colour=colour,
            )
            parts.append(said)
    for k, x in enumerate(edges, start=1):
        style = "extra wide" if k in active_bars else "narrow"
        parts.append(Line(a=(x, 0.0), b=(x, height_mm), style=style))
    parts.append(Line(a=(0.0, height_mm), b=(width_mm, height_mm), style="narrow"))
    return (*parts, Line(a=(-0.5, 0.0), b=(width_mm + 0.5, 0.0), style="extra wide"))


def scale_bar(at: Point, n: float, step_mm: float, steps: int = 4) -> Pinned:
    """A bar of ``steps`` black and white steps, its lengths named in mm of the model, from its top left corner.

    Examples
    --------
    >>> scale_bar((0.0, 0.0), 25.0, 500.0).content[-1].text
    '2000 mm'
    """
    parts: list[Primitive] = []
    one = step_mm / n
    for k in range(steps):
        cell = Box(left=one * k, top=3.2, right=one * (k + 1), bottom=4.6)
        parts.append(Area(points=cell.corners, fill="white" if k % 2 else "ink", style="narrow"))
    for k in range(steps + 1):
        text = f"{step_mm * k:g}" + (" mm" if k == steps else "")
        parts.append(Text(at=(one * k, 1.9), text=text, h_mm=1.8, anchor="middle"))
    return Pinned(at=at, content=tuple(parts))


def north_arrow(at: Point, turn_deg: float = 0.0, radius_mm: float = 5.0) -> Pinned:
    """North: a ring, a black needle and an N. ``turn_deg`` is from the top of the page, clockwise as a bearing."""
    a = math.radians(turn_deg)
    ux, uy = math.sin(a), -math.cos(a)
    r = radius_mm
    shape = ((1.05, 0.0), (-0.6, 0.45), (-0.25, 0.0), (-0.6, -0.45))
    needle = tuple(((ux * p - uy * q) * r, (uy * p + ux * q) * r) for p, q in shape)
    ring = Circle(centre=(0.0, 0.0), radius=r, style="narrow")
    name = middle((ux * (r + 3.4), uy * (r + 3.4)), "N", 3.5, 700)
    return Pinned(at=at, content=(ring, Area(points=needle, fill="ink"), name))


def pitch_triangle(
    at: Point,
    rise_per_1000: float,
    degrees: str,
    fall: str,
    *,
    width_mm: float = 28.0,
    down_to_right: bool = True,
) -> Pinned:
    """The pitch: a triangle 1000 level, its rise, the degrees large, and the fall in words.

    Parameters
    ----------
    at
        Top of the upright side.
    rise_per_1000
        Rise on 1000 level [mm], rounded here to whole mm.
    degrees, fall
        Ready texts, for example "10°" and "fall 520 in 2950".
    width_mm
        Length of the level side on paper [mm].
    down_to_right
        Whether the roof falls to the right in this view.
    """
    s = 1.0 if down_to_right else -1.0
    rise = width_mm * rise_per_1000 / 1000.0
    w = s * width_mm
    side, far = ("end", "start") if down_to_right else ("start", "end")
    return Pinned(at=at, content=(
        Polyline(points=((0.0, 0.0), (0.0, rise), (w, rise)), closed=True, style="narrow"),
        Text(at=(-s * 1.2, rise / 2 + 1.25), text=f"{rise_per_1000:.0f}", anchor=side),
        Text(at=(w / 2, rise + 3.7), text="1000", anchor="middle"),
        Text(at=(w + s * 3.0, rise / 2 + 1.4), text=degrees, h_mm=5.0, weight=700, anchor=far),
        Text(at=(w + s * 3.0, rise / 2 + 6.2), text=fall, anchor=far),
    ))  # fmt: skip


def check_rule(at: Point) -> Pinned:
    """A rule of 100 mm with a stroke each 10, for checking the size of a print. From its top left end."""
    parts: list[Primitive] = [Line(a=(0.0, 0.0), b=(100.0, 0.0), style="narrow")]
    for k in range(11):
        deep = 3.0 if k % 5 == 0 else 1.6
        parts.append(Line(a=(10.0 * k, 0.0), b=(10.0 * k, deep), style="narrow"))
    parts.append(Text(at=(101.6, 3.0), text="100 mm: check your print", h_mm=1.8))
    return Pinned(at=at, content=tuple(parts))


def check_bar(at: Point, used: float, *, full_mm: float = 25.0, colour: str = "ink") -> Pinned:
    """How much of a limit is used: a black bar, a tall stroke at the limit, hatched beyond it (drawn up to 140 %).

    Parameters
    ----------
    at
        Left end, middle of the bar.
    used
        1.0 is the limit.
    full_mm
        Length of the bar at the limit [mm].
    colour
        Of what is beyond the limit.
    """
    bar = Box(left=0.0, top=-0.8, right=full_mm * min(max(used, 0.0), 1.0), bottom=0.8)
    parts: list[Primitive] = [Area(points=bar.corners, fill="ink")]
    if used > 1.0:
        over = Box(left=full_mm, top=-0.8, right=full_mm * min(used, 1.4), bottom=0.8)
        parts.append(Area(points=over.corners, fill="white", style="narrow", colour=colour))
        parts += [replace(line, colour=colour) for line in hatch_lines([over.corners], 60.0, 0.7)]
    parts.append(Line(a=(full_mm, -1.9), b=(full_mm, 1.9), style="wide"))
    return Pinned(at=at, content=tuple(parts))
