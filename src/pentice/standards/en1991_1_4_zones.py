"""Where the zones of a roof lie: rectangles on the plan (EN 1991-1-4, Figures 7.5 to 7.8 and Table 7.6).

Plan coordinates in metres: x along the wall from the left, y from the wall (head) to the foot. The rectangles of
one wind tile the roof: no gap, no overlap. The labels turn with the wind.
"""

from __future__ import annotations

from dataclasses import dataclass

from pentice.errors import InputError, require_within
from pentice.records import quickly_made
from pentice.standards.en1991_1_4_roofs import FLAT_BELOW_DEG, WINDS, Wind

Band = tuple[str, float, float]  # a name and where it begins and ends


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A rectangle of the roof on plan, in metres."""

    name: str
    x_0_m: float
    x_1_m: float
    y_0_m: float
    y_1_m: float

    @property
    def area_m2(self) -> float:
        """Area on plan [m2]."""
        return (self.x_1_m - self.x_0_m) * (self.y_1_m - self.y_0_m)


def zone_measure_m(*, crosswind_m: float, height_m: float) -> float:
    """The length that sets the size of zones.

    Parameters
    ----------
    crosswind_m
        b: width of the roof across the wind [m].
    height_m
        h: height of the roof [m]; of a lean-to, its head.

    Returns
    -------
    float
        e [m]: the lesser of b and 2h.

    Raises
    ------
    OutsideScope
        A length is not positive.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, Figures 7.5, 7.6 and 7.7.

    Examples
    --------
    >>> zone_measure_m(crosswind_m=6.0, height_m=2.6)
    5.2
    """
    require_within("crosswind_m", crosswind_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, Figure 7.7")
    require_within("height_m", height_m, 0.01, 200.0, unit="m", source="EN 1991-1-4, Figure 7.7")
    return min(crosswind_m, 2.0 * height_m)


def roof_zones(
    *, width_m: float, depth_m: float, height_m: float, pitch_deg: float, wind: Wind
) -> tuple[Zone, ...]:
    """Zones of a closed single-slope roof for one wind.

    Parameters
    ----------
    width_m, depth_m
        The roof along the wall and out from it, on plan [m].
    height_m
        Height of its head above the ground [m].
    pitch_deg
        Slope [deg]; below 5 deg the roof is flat and has the zones of Figure 7.6.
    wind
        "onto foot", "onto head", "from left" or "from right".

    Returns
    -------
    tuple
        Rectangles that tile the roof.

    Raises
    ------
    OutsideScope
        A length is not positive, or the pitch not between 0 and 45 deg.
    InputError
        There is no such wind.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, Figure 7.6 (flat) and Figure 7.7 (single slope).

    Examples
    --------
    >>> found = roof_zones(width_m=6.0, depth_m=3.0, height_m=2.6, pitch_deg=10.0, wind="onto foot")
    >>> [(z.name, round(z.y_0_m, 2)) for z in found]
    [('F', 2.48), ('G', 2.48), ('F', 2.48), ('H', 0.0)]
    """
    if wind not in WINDS:
        raise InputError.of("wind", wind, f"expected one of {', '.join(WINDS)}")
    require_within("pitch_deg", pitch_deg, 0.0, 45.0, unit="deg", source="EN 1991-1-4, 7.2.4, as far as held")
    across = wind in ("onto foot", "onto head")
    crosswind_m, along_m = (width_m, depth_m) if across else (depth_m, width_m)
    e = zone_measure_m(crosswind_m=crosswind_m, height_m=height_m)
    flat = pitch_deg < FLAT_BELOW_DEG
    corners = ("F", "F") if flat or across else ("Fup", "Flow")
    front = _bands(
        ((corners[0], e / 4.0), ("G", crosswind_m - e / 4.0), (corners[1], crosswind_m)), crosswind_m
    )
    # Behind the windward strip: H to the end, or H to e/2 and I beyond (flat roofs, and wind along the wall).
    behind = (("H", along_m),) if across and not flat else (("H", e / 2.0), ("I", along_m))
    strips = _bands((("edge", e / 10.0), *behind), along_m)
    cells = [
        (name if strip == "edge" else strip, c_0, c_1, a_0, a_1)
        for strip, a_0, a_1 in strips
        for name, c_0, c_1 in (front if strip == "edge" else ((strip, 0.0, crosswind_m),))
    ]
    return tuple(_placed(cell, wind, along_m) for cell in cells)


def canopy_zones(*, width_m: float, depth_m: float, wind: Wind) -> tuple[Zone, ...]:
    """Zones of an open canopy for one wind.

    Parameters
    ----------
    width_m, depth_m
        The roof along the wall and out from it, on plan [m].
    wind
        "onto foot", "onto head", "from left" or "from right".

    Returns
    -------
    tuple
        Rectangles that tile the roof: B along the two sides parallel to the wind, C along the windward and the
        leeward edge, BC in the corners (the worse of both), A within.

    Raises
    ------
    OutsideScope
        A length is not positive.
    InputError
        There is no such wind.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, key plan of Table 7.6: strips of b/10 and d/10. That a corner takes the worse of B
    and C is judgement, no source.

    Examples
    --------
    >>> [z.name for z in canopy_zones(width_m=5.0, depth_m=3.0, wind="onto foot")]
    ['BC', 'C', 'BC', 'B', 'A', 'B', 'BC', 'C', 'BC']
    """
    if wind not in WINDS:
        raise InputError.of("wind", wind, f"expected one of {', '.join(WINDS)}")
    require_within("width_m", width_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, Table 7.6")
    require_within("depth_m", depth_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, Table 7.6")
    in_x, in_y = ("B", "C") if wind in ("onto foot", "onto head") else ("C", "B")
    columns = _bands(((in_x, width_m / 10.0), ("", width_m * 0.9), (in_x, width_m)), width_m)
    rows = _bands(((in_y, depth_m / 10.0), ("", depth_m * 0.9), (in_y, depth_m)), depth_m)
    return tuple(
        Zone(
            name="BC" if row and column else row or column or "A", x_0_m=x_0, x_1_m=x_1, y_0_m=y_0, y_1_m=y_1
        )
        for row, y_0, y_1 in rows
        for column, x_0, x_1 in columns
    )


def wall_zones(*, crosswind_m: float, depth_m: float, height_m: float) -> tuple[Band, ...]:
    """Zones along a wall that is parallel to the wind.

    Parameters
    ----------
    crosswind_m
        b: width of the building across the wind [m].
    depth_m
        d: length of the wall along the wind [m].
    height_m
        h: height of the building [m].

    Returns
    -------
    tuple
        (name, beginning, end) from the windward edge [m].

    Raises
    ------
    OutsideScope
        A length is not positive.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, Figure 7.5; from memory.

    Examples
    --------
    >>> wall_zones(crosswind_m=5.0, depth_m=3.0, height_m=3.0)
    (('A', 0.0, 1.0), ('B', 1.0, 3.0))
    """
    require_within("depth_m", depth_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, Figure 7.5")
    e = zone_measure_m(crosswind_m=crosswind_m, height_m=height_m)
    return _bands((("A", e / 5.0), ("B", e), ("C", depth_m)), depth_m)


def _bands(ends: tuple[tuple[str, float], ...], length_m: float) -> tuple[Band, ...]:
    """Bands one after the other, cut off at the end of the roof; what is left of nothing is dropped."""
    found: list[Band] = []
    start = 0.0
    for name, end in ends:
        stop = min(end, length_m)
        if stop > start:
            found.append((name, start, stop))
            start = stop
    return tuple(found)


def _placed(cell: tuple[str, float, float, float, float], wind: Wind, along_m: float) -> Zone:
    """A cell counted from the windward edge, laid on the plan."""
    name, c_0, c_1, a_0, a_1 = cell
    if wind in ("onto foot", "from right"):
        # The windward edge lies at the far end of the axis.
        a_0, a_1 = along_m - a_1, along_m - a_0
    if wind in ("onto foot", "onto head"):
        return Zone(name=name, x_0_m=c_0, x_1_m=c_1, y_0_m=a_0, y_1_m=a_1)
    return Zone(name=name, x_0_m=a_0, x_1_m=a_1, y_0_m=c_0, y_1_m=c_1)
