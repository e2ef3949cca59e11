"""Sizes on drawings, drawn in mm of paper: running from one origin, chain, overall.

Open origin circle of 3 mm, one kind of arrowhead, an oblique stroke where an arrow does not fit (ISO
129-1, read on a public page; the rest is common practice). Values stand above their line and read from
below or from the right.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.drawing.lettering import text_width_mm
from pentice.drawing.placing import DIGIT_SHARE, Placed, stand_over_marks
from pentice.drawing.scene import Area, Circle, Dimension, Line, Point, Primitive, Running, Text

ORIGIN_MM = 3.0
ARROW_MM = 2.8
STROKE_MM = 2.4
NEAR_ORIGIN_MM = 4.0
GAP_MM = 1.5
BEYOND_MM = 1.6
VALUE_UP_MM = 1.1
_HEIGHT = {"chain": (2.5, 400), "overall": (3.5, 600)}


@dataclass(frozen=True, slots=True)
class Frame:
    """A line of dimensions: a point on it, the unit vector along it and the one to its left as seen."""

    start: Point
    along: Point
    left: Point

    def at(self, along_mm: float, left_mm: float = 0.0) -> Point:
        """The point so far along and so far to the left."""
        (ax, ay), (lx, ly) = self.along, self.left
        return (self.start[0] + ax * along_mm + lx * left_mm, self.start[1] + ay * along_mm + ly * left_mm)


def left_of(along: Point) -> Point:
    """The unit vector to the left as seen (y runs down).

    Examples
    --------
    >>> left_of((1.0, 0.0))
    (0.0, -1.0)
    """
    return (along[1], -along[0] + 0.0)


def turn_of(along: Point) -> float:
    """Angle at which lettering along a line is read from below or from the right [deg].

    Examples
    --------
    >>> turn_of((1.0, 0.0)), turn_of((0.0, 1.0)), turn_of((0.0, -1.0))
    (0.0, 90.0, 90.0)
    """
    angle = math.degrees(math.atan2(-along[1], along[0]))
    if angle <= -89.999:
        return angle + 180.0
    return angle - 180.0 if angle > 90.001 else angle + 0.0


def arrowhead(tip: Point, along: Point, size_mm: float = ARROW_MM, colour: str = "ink") -> Area:
    """A filled arrowhead whose tip is at ``tip``, pointing ``along`` (a unit vector)."""
    frame = Frame(tip, along, left_of(along))
    wing = size_mm * 0.17
    return Area(points=(tip, frame.at(-size_mm, wing), frame.at(-size_mm, -wing)), fill=colour)


def oblique(at: Point, along: Point, colour: str = "ink") -> Line:
    """An oblique stroke across a dimension line."""
    frame = Frame(at, along, left_of(along))
    half = STROKE_MM / 2 * math.sqrt(0.5)
    return Line(a=frame.at(-half, -half), b=frame.at(half, half), style="wide", colour=colour)


def dimension(d: Dimension) -> tuple[Primitive, ...]:
    """A chain or overall dimension, drawn. Its points are in mm of paper."""
    frame, length, feet = _line_of(d)
    ends = [frame.at(0.0), frame.at(length)]
    parts: list[Primitive] = []
    side = math.copysign(1.0, d.offset_mm)
    for end, foot in zip(ends, feet, strict=True):
        if foot > GAP_MM:
            a = (
                end[0] - frame.left[0] * side * (foot - GAP_MM),
                end[1] - frame.left[1] * side * (foot - GAP_MM),
            )
            b = (end[0] + frame.left[0] * side * BEYOND_MM, end[1] + frame.left[1] * side * BEYOND_MM)
            parts.append(Line(a=a, b=b, style="narrow", colour=d.colour))
    parts.append(
        Line(a=frame.at(-BEYOND_MM), b=frame.at(length + BEYOND_MM), style="narrow", colour=d.colour)
    )
    parts += [oblique(end, frame.along, d.colour) for end in ends]
    return (*parts, _value(d, frame, length)) if d.text else tuple(parts)


def _line_of(d: Dimension) -> tuple[Frame, float, tuple[float, float]]:
    """The dimension's line, its length and how far each point lies from it."""
    dx, dy = d.b[0] - d.a[0], d.b[1] - d.a[1]
    if d.axis == "x":
        along = (math.copysign(1.0, dx), 0.0)
    elif d.axis == "y":
        along = (0.0, math.copysign(1.0, dy))
    else:
        whole = math.hypot(dx, dy) or 1.0
        along = (dx / whole, dy / whole)
    left = left_of(along)
    heights = [p[0] * left[0] + p[1] * left[1] for p in (d.a, d.b)]
    level = (max(heights) if d.offset_mm > 0 else min(heights)) + d.offset_mm
    shift = level - heights[0]
    start = (d.a[0] + left[0] * shift, d.a[1] + left[1] * shift)
    feet = (abs(level - heights[0]), abs(level - heights[1]))
    return Frame(start, along, left), dx * along[0] + dy * along[1], feet


def _value(d: Dimension, frame: Frame, length: float) -> Text:
    """The value: above the middle of its line, or beyond its end when it does not fit between the strokes."""
    h, weight = _HEIGHT[d.kind]
    turn = turn_of(frame.along)
    # "Above" is as the value is read, which is the line's right when the line runs right to left.
    up = (
        VALUE_UP_MM
        if abs(turn - math.degrees(math.atan2(-frame.along[1], frame.along[0]))) < 1.0
        else -VALUE_UP_MM
    )
    fits = text_width_mm(d.text, h, weight) <= length - 1.0
    at = frame.at(length / 2, up) if fits else frame.at(length + 1.5, up)
    anchor = "middle" if fits else ("start" if up > 0 else "end")
    return Text(
        at=at, text=d.text, h_mm=h, weight=weight, anchor=anchor, turn_deg=turn, halo=True, colour=d.colour
    )


def running(r: Running, distances_mm: tuple[float, ...]) -> tuple[Primitive, ...]:
    """Running dimensions, drawn from an origin in mm of paper.

    Parameters
    ----------
    r
        What to draw; its origin in mm of paper.
    distances_mm
        The stops' distances from the origin on paper [mm], rising.
    """
    left = left_of(r.ahead)
    side = math.copysign(1.0, r.offset_mm)
    base = Frame(r.origin, r.ahead, left)
    line = Frame(base.at(0.0, r.offset_mm), r.ahead, left)
    end = max(distances_mm, default=0.0)
    parts: list[Primitive] = [
        Line(a=line.at(ORIGIN_MM / 2), b=line.at(end), style="narrow", colour=r.colour),
        *_stops(r, base, line, distances_mm),
    ]
    turn = turn_of(r.ahead)
    parts += _running_values(r, line, distances_mm, turn)
    parts.append(
        Circle(centre=line.at(0.0), radius=ORIGIN_MM / 2, style="narrow", colour=r.colour, fill="white")
    )
    if abs(r.offset_mm) > GAP_MM + ORIGIN_MM / 2:
        foot, top = base.at(0.0, side * GAP_MM), base.at(0.0, r.offset_mm - side * ORIGIN_MM / 2)
        parts.append(Line(a=foot, b=top, style="narrow", colour=r.colour))
    return tuple(parts)


def _stops(r: Running, base: Frame, line: Frame, distances_mm: tuple[float, ...]) -> list[Primitive]:
    """Extension lines with an arrowhead each, or an oblique stroke within 4 mm of the origin."""
    side = math.copysign(1.0, r.offset_mm)
    parts: list[Primitive] = []
    for distance in distances_mm:
        if abs(r.offset_mm) > GAP_MM:
            a, b = base.at(distance, side * GAP_MM), base.at(distance, r.offset_mm + side * BEYOND_MM * 0.6)
            parts.append(Line(a=a, b=b, style="narrow", colour=r.colour))
        if distance < NEAR_ORIGIN_MM:
            parts.append(oblique(line.at(distance), r.ahead, r.colour))
        else:
            parts.append(arrowhead(line.at(distance), r.ahead, colour=r.colour))
    return parts


def _running_values(r: Running, line: Frame, distances_mm: tuple[float, ...], turn: float) -> list[Primitive]:
    """The values over their marks, the 0 before the origin and the noun after the last."""
    up = 1.0 if r.ahead[0] > 0 or r.ahead[1] < 0 else -1.0
    widths = [text_width_mm(text, r.h_mm, r.weight) for _, text in r.stops]
    rise = r.h_mm + 1.3
    parts: list[Primitive] = []
    # The first value keeps clear of the 0, which stands left of the origin circle.
    places = stand_over_marks(distances_mm, widths, DIGIT_SHARE * r.h_mm, least_mm=-0.6)
    for place, distance, (_, text) in zip(places, distances_mm, r.stops, strict=True):
        parts += _running_value(r, line, (place, distance, text), (turn, up, rise))
    before = -ORIGIN_MM / 2 - 0.9
    zero = line.at(before, -up * r.h_mm / 2)
    anchor = "end" if up > 0 else "start"
    parts.append(
        Text(at=zero, text="0", h_mm=r.h_mm, weight=r.weight, anchor=anchor, turn_deg=turn, colour=r.colour)
    )
    if r.noun:
        beside = max(3.0, (widths[-1] if widths else 0.0) / 2 + 1.2)
        after = line.at(max(distances_mm, default=0.0) + beside, -up * 1.25)
        anchor = "start" if up > 0 else "end"
        parts.append(Text(at=after, text=r.noun, h_mm=2.5, anchor=anchor, turn_deg=turn, colour=r.colour))
    return parts


def _running_value(
    r: Running, line: Frame, what: tuple[Placed, float, str], how: tuple[float, float, float]
) -> list[Primitive]:
    """One value: over its mark, in a higher row with a thin line down to its mark, or turned."""
    (place, distance, text), (turn, up, rise) = what, how
    if place.turned:
        at = line.at(distance + up * r.h_mm / 2, up * 1.8)
        return [_lettering(r, at, text, "start", turn + 90.0)]
    lift = 1.8 + place.row * rise
    parts: list[Primitive] = []
    if place.row:
        a, b = line.at(distance, up * 1.0), line.at(distance, up * (lift - 0.6))
        parts.append(Line(a=a, b=b, style="narrow", colour=r.colour))
    return [*parts, _lettering(r, line.at(place.centre, up * lift), text, "middle", turn)]


def _lettering(r: Running, at: Point, text: str, anchor: str, turn: float) -> Text:
    """A value of running dimensions."""
    return Text(
        at=at,
        text=text,
        h_mm=r.h_mm,
        weight=r.weight,
        anchor=anchor,
        turn_deg=turn,
        halo=True,
        colour=r.colour,
    )
