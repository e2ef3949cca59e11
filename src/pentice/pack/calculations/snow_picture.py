"""Snow cases as small pictures: the roof from the side, wall at the left if any, arrows as long as the load, values."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from pentice.design import Design
from pentice.drawing.dimensions import arrowhead
from pentice.drawing.page import bare_page
from pentice.drawing.scene import Line, Point, Polyline, Primitive, Scene, Text
from pentice.drawing.svg import render_svg
from pentice.loads.values import SnowCase
from pentice.pack.calculations.figures import minus

WIDE_MM, HIGH_MM = 86.0, 36.0
_LEFT, _RIGHT, _ROOF, _TALL = 8.0, 78.0, 24.5, 16.0
_ARROWS = 11
_HEAD_MM = 1.8


def picture_name(place: int) -> str:
    """File name of the picture of a snow case by its place in the loads."""
    return f"snow-{place}.svg"


def snow_pictures(design: Design) -> dict[str, str]:
    """The picture of each snow case, all to one scale of load.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    dict
        SVG by file name.
    """
    cases = design.loads.snow.cases
    most = max((load for case in cases for _, load in case.points), default=0.0)
    wall = design.job.roof.attached
    return {
        picture_name(i): _svg(case, _length_mm(design, case), most, wall=wall) for i, case in enumerate(cases)
    }


def snow_words(case: SnowCase) -> str:
    """A snow case in words, for those who cannot see it.

    Parameters
    ----------
    case
        The case.

    Returns
    -------
    str
        Loads with their distances.
    """
    if len(case.points) == 1:
        return f"{case.points[0][1]:.3f} kN/m² all over"
    start = "from the head" if case.along == "y" else "along the eaves"
    return minus(f"{start}: " + ", ".join(f"{load:.3f} at {at / 1000:.2f} m" for at, load in case.points))


def _length_mm(design: Design, case: SnowCase) -> float:
    """From the wall to the outermost point of the roof on plan, or along the wall."""
    shape = design.shape
    least = shape.projection_mm if case.along == "y" else shape.width_mm
    return max(least, max(at for at, _ in case.points))


def _svg(case: SnowCase, length_mm: float, most: float, *, wall: bool) -> str:
    content = tuple(_content(case, length_mm, most, wall=wall))
    scene = Scene(primitives=content, title=case.name.capitalize(), desc=snow_words(case))
    return render_svg(scene, bare_page(WIDE_MM, HIGH_MM))


def _content(case: SnowCase, length_mm: float, most: float, *, wall: bool) -> Iterator[Primitive]:
    def top(place_mm: float) -> Point:
        load = case.at(place_mm, place_mm)
        x = _LEFT + (_RIGHT - _LEFT) * place_mm / length_mm
        return x, _ROOF - 1.0 - (_TALL * load / most if most > 0.0 else 0.0)

    if case.along == "y" and wall:
        yield Line(a=(_LEFT - 1.0, 2.0), b=(_LEFT - 1.0, _ROOF + 3.0), style="extra wide")
    yield Line(a=(_LEFT, _ROOF), b=(_RIGHT, _ROOF), style="wide")
    inner = [at for at, _ in case.points if 0.0 < at < length_mm]
    stops = [0.0, *inner, length_mm]
    yield Polyline(
        points=((_LEFT, _ROOF - 1.0), *(top(at) for at in stops), (_RIGHT, _ROOF - 1.0)),
        style="narrow dashed",
    )
    for i in range(_ARROWS):
        x, y = top(length_mm * i / (_ARROWS - 1))
        if _ROOF - 1.0 - y > _HEAD_MM:
            yield Line(a=(x, y), b=(x, _ROOF - 1.0 - _HEAD_MM), style="narrow")
            yield arrowhead((x, _ROOF - 1.0), (0.0, 1.0), _HEAD_MM)
    shown = stops if len(case.points) > 1 else [0.0]
    yield from _values(case, shown, top)
    yield from _places(case, shown if len(shown) > 1 else stops, length_mm)


def _values(case: SnowCase, stops: list[float], top: Callable[[float], Point]) -> Iterator[Primitive]:
    for at in _apart(stops):
        x, y = top(at)
        anchor = "start" if at == stops[0] else "end" if at == stops[-1] else "middle"
        text = f"{case.at(at, at):.2f}"
        yield Text(at=(x, y - 1.4), text=text, weight=600, anchor=anchor, halo=True)


def _places(case: SnowCase, stops: list[float], length_mm: float) -> Iterator[Primitive]:
    for at in _apart(stops):
        x = _LEFT + (_RIGHT - _LEFT) * at / length_mm
        yield Line(a=(x, _ROOF + 1.0), b=(x, _ROOF + 3.0), style="narrow")
        anchor = "middle" if 0.0 < at < length_mm else "start" if at == 0.0 else "end"
        yield Text(at=(x, _ROOF + 6.4), text=f"{at / 1000:.2f} m" if at else "0", anchor=anchor)
    way = "from the head" if case.along == "y" else "along the eaves, from the left"
    yield Text(at=((_LEFT + _RIGHT) / 2, _ROOF + 10.6), text=f"kN/m² on plan, {way}", anchor="middle")


def _apart(stops: list[float]) -> list[float]:
    """The stops whose lettering does not meet: both ends, and those a fifth away from their neighbours."""
    room = (stops[-1] - stops[0]) / 5.0
    kept = [stops[0]]
    for at in stops[1:-1]:
        if at - kept[-1] >= room and stops[-1] - at >= room:
            kept.append(at)
    return [*kept, stops[-1]] if len(stops) > 1 else kept
