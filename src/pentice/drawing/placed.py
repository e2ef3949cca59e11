"""From a model to paper: every primitive scaled by a view, sizes and hatches drawn out, lettering left as
it is.

What comes back holds only Line, Polyline, Circle, Arc, Text, Area with a plain fill, and Group: all that a
simple writer needs.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from pentice.drawing.dimensions import dimension, running
from pentice.drawing.hatches import HATCHES, hatch_area
from pentice.drawing.page import PAPER, View
from pentice.drawing.scene import (
    Arc,
    Area,
    Box,
    Circle,
    Dimension,
    Group,
    Line,
    Pinned,
    Point,
    Polyline,
    Primitive,
    Running,
    Scene,
    Text,
)


def on_paper(primitives: Iterable[Primitive], view: View = PAPER) -> tuple[Primitive, ...]:
    """The primitives in mm of paper, with dimensions, symbols and hatches drawn out.

    Parameters
    ----------
    primitives
        In mm of the model.
    view
        Scale and place; left out for what is in mm of paper already.

    Examples
    --------
    >>> half = View(scale=2.0, origin=(10.0, 0.0))
    >>> on_paper([Line(a=(0.0, 0.0), b=(40.0, 0.0))], half)[0].b
    (30.0, 0.0)
    """
    return tuple(made for primitive in primitives for made in _one(primitive, view))


def sheet_scene(
    parts: Iterable[tuple[Scene, View]], title: str, desc: str, extra: Iterable[Primitive] = ()
) -> Scene:
    """One scene of paper from several models, each in its view, and ``extra`` in mm of paper."""
    placed = tuple(Group(content=on_paper(scene.primitives, view), part=scene.title) for scene, view in parts)
    return Scene(primitives=(*placed, *on_paper(extra)), title=title, desc=desc)


def _one(p: Primitive, view: View) -> tuple[Primitive, ...]:
    """What one primitive becomes on paper."""
    if isinstance(p, Group):
        clip = None if p.clip is None else _box(p.clip, view)
        return (replace(p, content=on_paper(p.content, view), clip=clip),)
    if isinstance(p, Pinned):
        return on_paper(p.content, View(scale=1.0, origin=view.point(p.at)))
    if isinstance(p, Dimension):
        return dimension(replace(p, a=view.point(p.a), b=view.point(p.b)))
    if isinstance(p, Running):
        distances = tuple(view.length(distance) for distance, _ in p.stops)
        return running(replace(p, origin=view.point(p.origin)), distances)
    if isinstance(p, Area):
        return _area(_moved_area(p, view))
    return (_moved(p, view),)


def _moved(p: Line | Polyline | Circle | Arc | Text, view: View) -> Primitive:
    """A plain primitive moved and scaled; lettering keeps its size."""
    if isinstance(p, Line):
        return replace(p, a=view.point(p.a), b=view.point(p.b))
    if isinstance(p, Polyline):
        return replace(p, points=_points(p.points, view))
    if isinstance(p, Text):
        return replace(p, at=view.point(p.at))
    return replace(p, centre=view.point(p.centre), radius=view.length(p.radius))


def _moved_area(p: Area, view: View) -> Area:
    """An area moved and scaled."""
    return replace(p, points=_points(p.points, view), holes=tuple(_points(hole, view) for hole in p.holes))


def _area(p: Area) -> tuple[Primitive, ...]:
    """An area of paper; a hatch becomes white ground, its lines, and the outline over them."""
    if p.fill not in HATCHES:
        return (p,)
    outline = (replace(p, fill=""),) if p.style else ()
    return (replace(p, fill="white", style=""), Group(content=hatch_area(p)), *outline)


def _points(points: tuple[Point, ...], view: View) -> tuple[Point, ...]:
    return tuple(view.point(p) for p in points)


def _box(box: Box, view: View) -> Box:
    (left, top), (right, bottom) = view.point((box.left, box.top)), view.point((box.right, box.bottom))
    return Box(left=left, top=top, right=right, bottom=bottom)
