"""Wind by the user's own net coefficients, laid as rectangles that tile the roof: the worst where two overlap."""

from __future__ import annotations

from itertools import pairwise, product

from pentice.errors import OutsideScope
from pentice.job.model import WindCoefficients
from pentice.job.model import WindZone as GivenZone
from pentice.job.shape import RoofShape
from pentice.loads.values import Situation, WindCase, WindZone
from pentice.working import Step

Reach = tuple[float, float]


def own_cases(
    own: WindCoefficients, zones: tuple[GivenZone, ...], shape: RoofShape, situation: Situation = "persistent"
) -> tuple[WindCase, ...]:
    """One case down and one up from the net coefficients that the job gives.

    Parameters
    ----------
    own, zones
        The coefficients with their source, and those of their zones that are meant.
    shape
        The roof's geometry [mm].
    situation
        "accidental" where a door stands open that is shut in a storm.

    Returns
    -------
    tuple of WindCase
        Zones that tile the roof. They hold both faces: nothing inside is added.

    Raises
    ------
    OutsideScope
        A part of the roof lies in no zone.

    Source
    ------
    The document that the job names beside them; where zones overlap the worse counts: judgement, no source.
    """
    cells = tuple(_cells(zones, shape))
    down = tuple(_zone(cell, found, down=True) for cell, found in cells)
    up = tuple(_zone(cell, found, down=False) for cell, found in cells)
    door = ", a door open" if zones is own.open_door_zones else ""
    return tuple(
        WindCase(
            name=f"wind {word}{door}, {own.source}",
            situation=situation,
            zones=placed,
            kind="own coefficients",
            working=(
                Step(
                    says="Net coefficients of your own",
                    formula="c_p,net",
                    numbers="given: "
                    + "; ".join(f"{z.name} {z.down if word == 'down' else z.up:+g}" for z in zones),
                    result=max((zone.c_10 for zone in placed), key=abs),
                    clause=own.source,
                ),
            ),
        )
        for word, placed in (("down", down), ("up", up))
    )


def _reach(zone: GivenZone, shape: RoofShape) -> tuple[Reach, Reach]:
    return zone.x_mm or (0.0, shape.width_mm), zone.y_mm or (0.0, shape.depth_on_plan_mm)


def _edges(reaches: list[Reach], end: float) -> list[float]:
    return sorted({0.0, end, *(place for reach in reaches for place in reach if 0.0 < place < end)})


def _cells(
    zones: tuple[GivenZone, ...], shape: RoofShape
) -> list[tuple[tuple[Reach, Reach], tuple[GivenZone, ...]]]:
    """The grid of all edges; each cell with the zones that cover it."""
    reaches = [_reach(zone, shape) for zone in zones]
    xs = _edges([x for x, _ in reaches], shape.width_mm)
    ys = _edges([y for _, y in reaches], shape.depth_on_plan_mm)
    found = []
    for x, y in product(pairwise(xs), pairwise(ys)):
        over = tuple(z for z, (zx, zy) in zip(zones, reaches, strict=True) if _in(x, zx) and _in(y, zy))
        if not over:
            raise OutsideScope(
                f"site.wind_coefficients.zones leave x {x[0]:.0f} to {x[1]:.0f}, y {y[0]:.0f} to {y[1]:.0f} mm bare "
                f"(the roof is {shape.width_mm:.0f} by {shape.depth_on_plan_mm:.0f} mm on plan); add zones."
            )
        found.append(((x, y), over))
    return found


def _in(cell: Reach, zone: Reach) -> bool:
    return zone[0] <= (cell[0] + cell[1]) / 2.0 <= zone[1]


def _zone(cell: tuple[Reach, Reach], over: tuple[GivenZone, ...], *, down: bool) -> WindZone:
    worst = max(over, key=lambda zone: zone.down) if down else min(over, key=lambda zone: zone.up)
    value = worst.down if down else worst.up
    return WindZone(name=worst.name, x_mm=cell[0], y_mm=cell[1], c_10=value, c_1=value)
