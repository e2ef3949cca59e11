"""EN 12056-3: gutters of real section, how outlets share the flow, how deep the water must stand over an outlet.

Flow of the section itself: en12056. Here is what comes before it (section from a drawing or tape, runs between outlets)
and after it (head over each outlet). Walls above a roof count half, and of several walls only the most exposed side.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from pentice.errors import InputError, OutsideScope, require_within

_MEMORY = "EN 12056-3, from memory"
_WALL_MOST_M = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GutterSection:
    """A gutter as it will hold water: full area [mm2], depth from sole to lip and width at the lip [mm]."""

    area_mm2: float
    depth_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GutterRun:
    """A stretch of gutter that falls to one outlet from one side [mm], and its share of the whole flow [-]."""

    outlet: int
    from_mm: float
    to_mm: float
    share: float

    @property
    def length_mm(self) -> float:
        """Length of the run [mm]."""
        return abs(self.to_mm - self.from_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallAbove:
    """A wall that rain drives against and that sheds onto the roof: length and height above the roof [m].

    facing tells walls apart that the same wind cannot strike: of two directions only the greater counts.
    """

    length_m: float
    height_m: float
    facing: str = "house"


def gutter_section(outline_mm: Sequence[tuple[float, float]]) -> GutterSection:
    """Area, depth and width of a gutter from the corners of its inside.

    Parameters
    ----------
    outline_mm
        Corners (across, up) of the inside from the front lip down, along the sole and up to the back [mm].

    Returns
    -------
    GutterSection
        What is filled up to the lower of the two lips [mm, mm2].

    Raises
    ------
    InputError
        There are fewer than three corners, or no water can stand in the shape.

    Source
    ------
    Geometry: the area below a level line through the lower lip. Nominal sizes are not water sizes.

    Examples
    --------
    >>> box = gutter_section([(0.0, 75.0), (0.0, 0.0), (110.0, 0.0), (110.0, 90.0)])
    >>> box.area_mm2, box.depth_mm, box.width_mm
    (8250.0, 75.0, 110.0)
    """
    if len(outline_mm) < 3:
        raise InputError.of("outline_mm", f"{len(outline_mm)} corners", "expected three or more")
    sole = min(z for _, z in outline_mm)
    level = min(outline_mm[0][1], outline_mm[-1][1])
    area, wet = 0.0, []
    for (x0, z0), (x1, z1) in pairwise(outline_mm):
        low, high = min(z0, z1), max(z0, z1)
        if low >= level:
            continue
        # Only the part of this side that is under water counts.
        share = 1.0 if high <= level else (level - low) / (high - low)
        if z0 > level:
            x0, z0 = x1 + (x0 - x1) * share, level
        elif z1 > level:
            x1, z1 = x0 + (x1 - x0) * share, level
        area += (x1 - x0) * (level - (z0 + z1) / 2.0)
        wet += [x0, x1]
    if abs(area) < 1.0:
        raise InputError.of("outline_mm", f"{abs(area):g} mm2 of water", "expected a shape that holds water")
    return GutterSection(area_mm2=abs(area), depth_mm=level - sole, width_mm=abs(wet[-1] - wet[0]))


def gutter_runs(length_mm: float, outlets_mm: Sequence[float]) -> tuple[GutterRun, ...]:
    """The stretches of a level gutter that each outlet drains, and their shares of the flow.

    Parameters
    ----------
    length_mm
        Length of the gutter between its stop ends [mm].
    outlets_mm
        Places of the outlets from the left end [mm].

    Returns
    -------
    tuple[GutterRun, ...]
        From left to right. Between two outlets the water parts half way; an outlet at an end has one run only.

    Raises
    ------
    InputError
        There is no outlet, or one stands beyond the gutter.

    Source
    ------
    EN 12056-3:2000, 5.1: a level gutter parts midway between outlets (from memory).

    Examples
    --------
    >>> [(run.outlet, run.length_mm, run.share) for run in gutter_runs(6000.0, [3000.0])]
    [(1, 3000.0, 0.5), (1, 3000.0, 0.5)]
    """
    places = sorted(outlets_mm)
    if not places:
        raise InputError.of("outlets_mm", "empty", "expected the place of at least one outlet")
    for place in places:
        if not 0.0 <= place <= length_mm:
            raise InputError.of(
                "outlet", f"at {place:g} mm", f"expected 0 to {length_mm:g} mm along the gutter"
            )
    parts = [0.0, *((a + b) / 2.0 for a, b in pairwise(places)), length_mm]
    runs = []
    for i, place in enumerate(places):
        for start in (parts[i], parts[i + 1]):
            if start != place:
                share = abs(start - place) / length_mm
                runs.append(GutterRun(outlet=i + 1, from_mm=start, to_mm=place, share=share))
    return tuple(runs)


def outlet_head_mm(flow_l_s: float, diameter_mm: float, *, strainer: bool = False) -> float:
    """Depth of water that must stand over a round outlet for it to take a flow.

    Parameters
    ----------
    flow_l_s
        Flow to the outlet, from both sides together [l/s].
    diameter_mm
        Effective diameter D of the outlet's mouth [mm].
    strainer
        True with a leaf guard, which halves what passes [-].

    Returns
    -------
    float
        Head h: (7500 Q / k D)^(2/3) up to D/2, above it (15000 Q / k D2)2 [mm]; to be less than the gutter holds.

    Raises
    ------
    OutsideScope
        Diameter or flow is not positive.

    Source
    ------
    EN 12056-3:2000, 5.3, turned about for the head (from memory).

    Examples
    --------
    >>> round(outlet_head_mm(1.49, 68.0), 1), round(outlet_head_mm(2.18, 68.0), 1)
    (30.0, 50.0)
    """
    require_within("flow_l_s", flow_l_s, 0.0, inf, unit="l/s", source=_MEMORY)
    require_within("diameter_mm", diameter_mm, 1.0, inf, unit="mm", source=_MEMORY)
    flow = flow_l_s / (0.5 if strainer else 1.0)
    weir = (7500.0 * flow / diameter_mm) ** (2.0 / 3.0)
    return float(weir if weir <= diameter_mm / 2.0 else (15000.0 * flow / diameter_mm**2) ** 2)


def wall_share_m2(walls: Sequence[WallAbove]) -> float:
    """Area to be added for the walls that shed driving rain onto a roof.

    Parameters
    ----------
    walls
        Walls above the roof that rain can drive against [m].

    Returns
    -------
    float
        Half the area of the walls on the most exposed side, each counted up to 10 m of height [m2].

    Raises
    ------
    OutsideScope
        A size is negative.

    Source
    ------
    EN 12056-3:2000, 4.3.4; of several walls half the greatest area that faces one way (a building handbook); walls
    up to 10 m high (New Zealand metal roof and wall cladding code of practice).

    Examples
    --------
    >>> wall_share_m2([WallAbove(length_m=5.0, height_m=4.0), WallAbove(length_m=3.0, height_m=2.0, facing="left")])
    10.0
    """
    sides: dict[str, float] = {}
    for wall in walls:
        for name, size in {"length_m": wall.length_m, "height_m": wall.height_m}.items():
            require_within(name, size, 0.0, inf, unit="m", source="EN 12056-3, 4.3.4")
        area = wall.length_m * min(wall.height_m, _WALL_MOST_M)
        sides[wall.facing] = sides.get(wall.facing, 0.0) + area
    return max(sides.values(), default=0.0) / 2.0


def rectangular_pipe_diameter_mm(width_mm: float, depth_mm: float) -> float:
    """Diameter of the round pipe that a rectangular downpipe may count as.

    Parameters
    ----------
    width_mm, depth_mm
        Inside size [mm].

    Returns
    -------
    float
        Diameter by hydraulic radius, 2 a b / (a + b), on the safe side of the one by area [mm].

    Raises
    ------
    OutsideScope
        The pipe is more than twice as wide as deep, or the other way round.

    Source
    ------
    Hydraulic diameter 4 A / P, any textbook of hydraulics. The ratio of 2 is judgement, no source.

    Examples
    --------
    >>> rectangular_pipe_diameter_mm(65.0, 65.0)
    65.0
    """
    ratio = width_mm / depth_mm
    if not 0.5 <= ratio <= 2.0:
        raise OutsideScope(
            f"downpipe is {width_mm:g} x {depth_mm:g} mm; expected sides within a ratio of 2 (judgement). "
            f"Take a squarer pipe, or the maker's flow."
        )
    return 2.0 * width_mm * depth_mm / (width_mm + depth_mm)
