"""Wind on the roof: peak pressure at the right height, then zones for an enclosed roof or an open one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pentice.errors import OutsideScope
from pentice.job.model import Job, WindCoefficients
from pentice.job.shape import RoofShape
from pentice.loads.inside import door_cases, doors_of, one_side_open
from pentice.loads.overhang import front_bands, with_overhang
from pentice.loads.peak import peak_of
from pentice.loads.values import WholeRoofWind, Wind, WindCase, WindZone
from pentice.loads.whole_roof import (
    IN_WORDS,
    ONTO_FREE_HEAD,
    on_enclosed_roof,
    on_open_roof,
    on_own_coefficients,
)
from pentice.loads.wind_own import own_cases
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_4_canopies import ZONES, canopy_coefficient
from pentice.standards.en1991_1_4_roofs import FLAT_BELOW_DEG, WINDS, Coefficient, roof_coefficients
from pentice.standards.en1991_1_4_roofs import Wind as Direction
from pentice.standards.en1991_1_4_zones import Zone, canopy_zones, roof_zones, zone_measure_m
from pentice.working import Step


def wind_on(job: Job, shape: RoofShape, annex: Annex) -> Wind:
    """Every direction and sign of wind on the roof.

    Parameters
    ----------
    job, shape, annex
        The job, its geometry and the national choices.

    Returns
    -------
    Wind
        Cases by zone, or the reason why there are none: every check that needs wind is then refused with it.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.5, 7.2, 7.3; the reference height of an attached roof is that of the house.
    """
    try:
        peak, height, steps = peak_of(job, shape, annex)
        figures = annex.peak_pressure == "UK figures" and job.site.peak_pressure_kn_m2 is None
    except OutsideScope as refusal:
        return Wind(peak_pressure_kn_m2=None, reference_height_m=None, cases=(), refused=str(refusal))
    known = Wind(
        peak_pressure_kn_m2=peak, reference_height_m=height, cases=(), working=steps, typical=figures
    )
    try:
        cases, refused = _cases(job, shape, annex)
    except OutsideScope as refusal:
        return replace(known, refused=str(refusal))
    return replace(known, cases=cases, cases_refused=refused, whole=_whole(job, shape, annex, peak))


def open_sides(job: Job) -> tuple[str, ...]:
    """The sides of a roof that nothing closes, that of its head apart.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    tuple of str
        Of "left", "right" and "front" those that are open.

    Source
    ------
    Definition.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> open_sides(job_from_text('[roof]\\nleft = "open"\\nright = "closed"\\nfront = "open"'))
    ('left', 'front')
    """
    return tuple(side for side in ("left", "right", "front") if getattr(job.roof, side) == "open")


def _whole(job: Job, shape: RoofShape, annex: Annex, peak: float) -> tuple[WholeRoofWind, ...]:
    own, is_open = job.site.wind_coefficients, len(open_sides(job)) >= 2
    if own is not None:
        return tuple(on_own_coefficients(shape, own, peak, is_open=is_open, attached=job.roof.attached))
    if is_open:
        return tuple(on_open_roof(shape, annex, peak, attached=job.roof.attached))
    return tuple(on_enclosed_roof(shape, peak, attached=job.roof.attached))


def _cases(
    job: Job, shape: RoofShape, annex: Annex
) -> tuple[tuple[WindCase, ...], tuple[tuple[str, str], ...]]:
    if job.site.wind_coefficients is not None:
        return _own(job, job.site.wind_coefficients, shape)
    free = open_sides(job)
    if len(free) >= 2:
        return tuple(_open_roof(shape, annex, "wall" if job.roof.attached else "eaves")), ()
    outside = _outside(shape, annex, attached=job.roof.attached)
    if len(free) == 1:
        return tuple(one_side_open(job, shape, outside, free[0])), ()
    closed = tuple(
        replace(case, inside=inside, name=f"{case.name}, {inside:+g} inside")
        for case in outside.values()
        for inside in annex.cpi_unknown
    )
    doors, refused = door_cases(job, shape, outside)
    return (*closed, *doors), refused


def _own(
    job: Job, own: WindCoefficients, shape: RoofShape
) -> tuple[tuple[WindCase, ...], tuple[tuple[str, str], ...]]:
    """The user's own zones, and those with a door open where the roof is closed and has one."""
    cases, doors = own_cases(own, own.zones, shape), doors_of(job)
    if len(open_sides(job)) >= 2 or not doors:
        return cases, ()
    if not own.open_door_zones:
        why = "refused: give site.wind_coefficients.open_door_zones too, or keep it fixed shut."
        return cases, ((f"{doors[0].kind} in the {doors[0].wall} open", why),)
    shut = all(door.shut_in_storms for door in doors)
    more = own_cases(own, own.open_door_zones, shape, "accidental" if shut else "persistent")
    return (*cases, *more), ()


def _placed(zone: Zone, c_10: float, c_1: float) -> WindZone:
    return WindZone(
        name=zone.name,
        x_mm=(zone.x_0_m * 1000.0, zone.x_1_m * 1000.0),
        y_mm=(zone.y_0_m * 1000.0, zone.y_1_m * 1000.0),
        c_10=c_10,
        c_1=c_1,
    )


def _outside(shape: RoofShape, annex: Annex, *, attached: bool) -> dict[tuple[Direction, str], WindCase]:
    """Outside coefficients of a closed single-slope roof by direction and sign, nothing inside yet."""
    found: dict[tuple[Direction, str], WindCase] = {}
    front = {direction: front_bands(shape, direction) for direction in WINDS}
    for direction in WINDS:
        coefficients = roof_coefficients(annex, pitch_deg=shape.pitch_deg, wind=direction)
        zones = roof_zones(
            width_m=shape.width_mm / 1000.0,
            depth_m=shape.depth_on_plan_mm / 1000.0,
            height_m=(shape.head_height_mm or 0.0) / 1000.0,
            pitch_deg=shape.pitch_deg,
            wind=direction,
        )
        for sign in ("suction", "pressure"):
            by_zone = {c.zone: (c.cpe_10, c.cpe_1) for c in coefficients if c.sign == sign}
            if not by_zone:
                continue
            blows = IN_WORDS[direction]
            if direction == "onto head":
                blows = f"{blows}, kept as a bound" if attached else ONTO_FREE_HEAD
            found[direction, sign] = WindCase(
                name=f"{blows}, {sign}",
                situation="persistent",
                zones=with_overhang(
                    tuple(_placed(z, *by_zone.get(z.name, (0.0, 0.0))) for z in zones),
                    shape,
                    front[direction],
                ),
                working=(_coefficient_step(shape, direction, [c for c in coefficients if c.sign == sign]),),
            )
    return found


def _coefficient_step(shape: RoofShape, direction: Direction, found: Sequence[Coefficient]) -> Step:
    """The coefficients of one case, for 10 m2 and for 1 m2, and the measure e of its zones."""
    width, depth = shape.width_mm / 1000.0, shape.depth_on_plan_mm / 1000.0
    across = width if direction in ("onto foot", "onto head") else depth
    height = (shape.head_height_mm or 0.0) / 1000.0
    flat = shape.pitch_deg < FLAT_BELOW_DEG
    return Step(
        says="Edge zones by e; outside coefficients",
        formula="e = min(b, 2 h)",
        numbers=f"min({across:.3f}, 2 x {height:.3f}); "
        + ", ".join(f"{c.zone} {c.cpe_10:+.2f} / {c.cpe_1:+.2f}" for c in found),
        result=zone_measure_m(crosswind_m=across, height_m=height),
        unit="m",
        clause="EN 1991-1-4, Table 7.2, flat roof" if flat else "EN 1991-1-4, Table 7.3",
    )


def _net_step(pitch_deg: float, phi: float, found: tuple[WindZone, ...]) -> Step:
    named = dict.fromkeys(f"{zone.name} {zone.c_10:+.2f}" for zone in found)
    return Step(
        says="Net coefficients, both faces; B and C are strips of a tenth",
        formula="c_p,net",
        numbers=f"read at {pitch_deg:.1f} deg, blockage {phi:g}: {', '.join(named)}",
        result=max((zone.c_10 for zone in found), key=abs),
        clause="EN 1991-1-4, Table 7.6",
    )


def _open_roof(shape: RoofShape, annex: Annex, line: str) -> Iterator[WindCase]:
    """Net coefficients of an open roof; zones of opposite winds are alike, so two directions stand for four."""
    pitch = shape.pitch_deg
    directions: tuple[tuple[Direction, str], ...] = (
        ("onto foot", f"wind square to the {line}"),
        ("from left", f"wind along the {line}"),
    )
    width, depth = shape.width_mm / 1000.0, shape.depth_on_plan_mm / 1000.0
    strips = [name for name in ZONES if name != "cf"]
    net = {
        phi: {name: canopy_coefficient(annex, pitch_deg=pitch, blockage=phi, zone=name) for name in strips}
        for phi in (0.0, 1.0)
    }
    for direction, words in directions:
        zones = canopy_zones(width_m=width, depth_m=depth, wind=direction)
        for down, phi in ((True, 0.0), (False, 0.0), (False, 1.0)):
            values = {name: c.greatest if down else c.least for name, c in net[phi].items()}
            placed = tuple(_placed(zone, values[zone.name], values[zone.name]) for zone in zones)
            word = "down, any blockage" if down else f"up, blockage {phi:g}"
            yield WindCase(
                name=f"{words}, {word}",
                situation="persistent",
                zones=placed,
                kind="net both faces",
                working=(_net_step(pitch, phi, placed),),
            )
