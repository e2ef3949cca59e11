"""The part of an enclosed roof beyond its beam: above it the roof's zone, under it the pressure on the wall below."""

from __future__ import annotations

from dataclasses import replace

from pentice.job.shape import RoofShape
from pentice.loads.values import WindZone
from pentice.standards.en1991_1_4_roofs import Coefficient, wall_coefficients
from pentice.standards.en1991_1_4_roofs import Wind as Direction
from pentice.standards.en1991_1_4_zones import wall_zones

FrontBand = tuple[float, float, Coefficient]
OVERHANG = " overhang"
"""What the name of a zone beyond the beam ends with."""
_HAIR_MM = 1e-6  # rounding: less than this is no length


def front_bands(shape: RoofShape, direction: Direction) -> tuple[FrontBand, ...]:
    """Coefficients along the front wall in one wind.

    Parameters
    ----------
    shape
        The roof's geometry.
    direction
        The wind.

    Returns
    -------
    tuple
        (x from, x to [mm], coefficient): the whole wall when the wind blows onto it or from behind, zones from the
        windward end when it blows along it.

    Raises
    ------
    OutsideScope
        The building is more than five times as high as it is deep.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, Table 7.1 and Figure 7.5.
    """
    width, depth = shape.width_mm / 1000.0, shape.depth_on_plan_mm / 1000.0
    height = (shape.head_height_mm or 0.0) / 1000.0
    if direction in ("onto foot", "onto head"):
        found = {c.zone: c for c in wall_coefficients(height_m=height, depth_m=depth)}
        return ((0.0, shape.width_mm, found["D" if direction == "onto foot" else "E"]),)
    found = {c.zone: c for c in wall_coefficients(height_m=height, depth_m=width)}
    bands = wall_zones(crosswind_m=depth, depth_m=width, height_m=height)
    along = tuple((start * 1000.0, end * 1000.0, found[name]) for name, start, end in bands)
    if direction == "from left":
        return along
    return tuple((shape.width_mm - end, shape.width_mm - start, c) for start, end, c in reversed(along))


def with_overhang(
    zones: tuple[WindZone, ...], shape: RoofShape, front: tuple[FrontBand, ...]
) -> tuple[WindZone, ...]:
    """Zones of a roof, cut at the beam: beyond it each carries the wall's coefficient underneath.

    Parameters
    ----------
    zones
        Zones that tile the roof.
    shape
        The roof's geometry [mm].
    front
        Coefficients along the front wall.

    Returns
    -------
    tuple of WindZone
        Zones that tile the roof; those beyond the beam have `under_10` and `under_1`.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(3); second-hand, read in words.
    """
    beam, found = shape.projection_mm, []
    for zone in zones:
        if beam - zone.y_mm[0] > _HAIR_MM:
            found.append(replace(zone, y_mm=(zone.y_mm[0], min(zone.y_mm[1], beam))))
        if zone.y_mm[1] - beam > _HAIR_MM:
            found += _beyond(zone, max(zone.y_mm[0], beam), front)
    return tuple(found)


def _beyond(zone: WindZone, start: float, front: tuple[FrontBand, ...]) -> list[WindZone]:
    return [
        replace(
            zone,
            name=f"{zone.name}{OVERHANG}",
            x_mm=(max(zone.x_mm[0], left), min(zone.x_mm[1], right)),
            y_mm=(start, zone.y_mm[1]),
            under_10=wall.cpe_10,
            under_1=wall.cpe_1,
        )
        for left, right, wall in front
        if min(zone.x_mm[1], right) - max(zone.x_mm[0], left) > _HAIR_MM
    ]
