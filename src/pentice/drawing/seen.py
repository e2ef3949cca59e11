"""The same lines along another axis: shifted level, or seen from the other side, where left and right change places."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from pentice.drawing.scene import Arc, Area, Circle, Line, Point, Polyline, Primitive


def seen_along(primitives: Iterable[Primitive], start: float, way: float) -> tuple[Primitive, ...]:
    """Lines and areas with x counted from another place, the same way or the other way round.

    Parameters
    ----------
    primitives
        Without lettering, sizes or symbols: these read from below or from the right wherever they stand.
    start
        Where their x 0 lies [mm].
    way
        1.0 for the same way, -1.0 where left and right change places.

    Raises
    ------
    TypeError
        Lettering, sizes, symbols or groups are among them: a mistake in the program that draws.

    Examples
    --------
    >>> seen_along([Line(a=(0.0, 0.0), b=(40.0, 9.0))], 100.0, -1.0)[0].b
    (60.0, 9.0)
    """
    return tuple(_one(p, start, way) for p in primitives)


def _one(p: Primitive, start: float, way: float) -> Primitive:
    def at(point: Point) -> Point:
        return (start + way * point[0], point[1])

    if isinstance(p, Line):
        return replace(p, a=at(p.a), b=at(p.b))
    if isinstance(p, Polyline):
        return replace(p, points=tuple(at(q) for q in p.points))
    if isinstance(p, Area):
        holes = tuple(tuple(at(q) for q in hole) for hole in p.holes)
        return replace(p, points=tuple(at(q) for q in p.points), holes=holes)
    if isinstance(p, Circle):
        return replace(p, centre=at(p.centre))
    if isinstance(p, Arc):
        turned = way < 0.0
        angles = (180.0 - p.end_deg, 180.0 - p.start_deg) if turned else (p.start_deg, p.end_deg)
        return replace(p, centre=at(p.centre), start_deg=angles[0], end_deg=angles[1])
    raise TypeError(f"Only lines and areas are seen from another side, not {type(p).__name__}.")
