"""Pressure inside an enclosed lean-to: a door left open, or one side open for good."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from pentice.errors import OutsideScope
from pentice.job.model import Job, Opening
from pentice.job.shape import RoofShape
from pentice.loads.values import WindCase
from pentice.standards.en1991_1_4_roofs import Wind as Direction
from pentice.standards.en1991_1_4_roofs import internal_pressure_dominant, wall_coefficients
from pentice.standards.en1991_1_4_zones import wall_zones

Outside = Mapping[tuple[Direction, str], WindCase]

WINDWARD: Mapping[Direction, str] = {
    "onto foot": "front",
    "from left": "left",
    "from right": "right",
    "onto head": "back",
}
LEEWARD: Mapping[Direction, str] = {
    "onto foot": "back",
    "from left": "right",
    "from right": "left",
    "onto head": "front",
}


def wall_coefficients_at(shape: RoofShape, wall: str, direction: Direction) -> tuple[float, ...]:
    """Outside coefficients that may stand at one wall below the roof in one wind: every zone it can have.

    Parameters
    ----------
    shape
        The roof's geometry.
    wall
        "left", "right", "front", or "back" where no house stands there.
    direction
        The wind.

    Returns
    -------
    tuple of float
        c_pe,10 [-]: pressure when the wind blows onto it, suction beside and behind.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, Table 7.1 and Figure 7.5.
    """
    along_wall = direction in ("from left", "from right")
    depth, width = shape.depth_on_plan_mm / 1000.0, shape.width_mm / 1000.0
    along, across = (width, depth) if along_wall else (depth, width)
    height = (shape.head_height_mm or 0.0) / 1000.0
    by_zone = {c.zone: c.cpe_10 for c in wall_coefficients(height_m=height, depth_m=along)}
    if WINDWARD[direction] == wall:
        return (by_zone["D"],)
    if LEEWARD[direction] == wall:
        return (by_zone["E"],)
    bands = wall_zones(crosswind_m=across, depth_m=along, height_m=height)
    return tuple(by_zone[name] for name, _, _ in bands)


def one_side_open(job: Job, shape: RoofShape, outside: Outside, side: str) -> Iterator[WindCase]:
    """Wind on a roof with one open side: what stands at that side gets in, by the factor that the job gives.

    Parameters
    ----------
    job, shape, outside
        The job, its geometry and the outside coefficients.
    side
        The open one.

    Returns
    -------
    iterator of WindCase
        Each outside case with the pressure inside, both signs.

    Raises
    ------
    OutsideScope
        No opening of that side carries a dominant factor.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.9.
    """
    factors = [
        o.dominant_factor for o in job.roof.openings if o.wall == side and o.dominant_factor is not None
    ]
    if not factors:
        raise OutsideScope(
            f"one side is open ({side}): give it as an opening with its dominant_factor (EN 1991-1-4, 7.2.9), "
            "or close it, or open another."
        )
    for (direction, _), case in outside.items():
        for inside in _inside_values(shape, side, direction, max(factors)):
            yield replace(case, inside=inside, name=f"{case.name}, {side} side open, {inside:+.2f} inside")


def _inside_values(shape: RoofShape, wall: str, direction: Direction, factor: float) -> tuple[float, ...]:
    outside = wall_coefficients_at(shape, wall, direction)
    inside = {
        internal_pressure_dominant(cpe_at_opening=c, factor=factor) for c in (min(outside), max(outside))
    }
    return tuple(sorted(inside))


def door_cases(
    job: Job, shape: RoofShape, outside: Outside
) -> tuple[tuple[WindCase, ...], tuple[tuple[str, str], ...]]:
    """Wind with one door open; an accident where it will be shut in a storm.

    Parameters
    ----------
    job, shape, outside
        The job, its geometry and the outside coefficients.

    Returns
    -------
    tuple
        Cases, and (case, reason) for a door without its factor.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.9(3): an opening that is open in a storm only by accident is an accidental case.
    """
    cases: list[WindCase] = []
    refused: list[tuple[str, str]] = []
    for i, opening in enumerate(job.roof.openings):
        if not _counts(opening):
            continue
        name = f"{opening.kind} in the {opening.wall} open"
        if opening.dominant_factor is None:
            key = f"roof.openings[{i}].dominant_factor"
            refused.append(
                (
                    name,
                    f"refused: {opening.kind} open. Give {key} (EN 1991-1-4, 7.2.9), or keep it fixed shut.",
                )
            )
            continue
        for (direction, _), case in outside.items():
            for inside in _inside_values(shape, opening.wall, direction, opening.dominant_factor):
                cases.append(
                    replace(
                        case,
                        inside=inside,
                        situation="accidental" if opening.shut_in_storms else "persistent",
                        name=f"{case.name}, {name}, {inside:+.2f} inside",
                    )
                )
    return tuple(cases), tuple(refused)


def doors_of(job: Job) -> tuple[Opening, ...]:
    """The openings below the roof that may stand open in a storm.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    tuple of Opening
        Doors that open, and whatever is not shut in a storm.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.9.
    """
    return tuple(opening for opening in job.roof.openings if _counts(opening))


def _counts(opening: Opening) -> bool:
    """A door that opens, or anything else that is not shut in a storm; the house behind is taken as shut."""
    return (
        opening.wall != "house" and opening.opens and (opening.kind == "door" or not opening.shut_in_storms)
    )
