"""Snow on the roof: even, drifted against the house and against a side wall, exceptional."""

from __future__ import annotations

import math

from pentice.errors import OutsideScope
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.drift import (
    LEAST_GROUND_KN_M2,
    Wall,
    corner_of,
    drift_case,
    exceptional_drift_case,
    house_wall,
    side_wall,
)
from pentice.loads.values import Situation, Snow, SnowCase
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_3 import (
    exceptional_snow_kn_m2,
    exposure_coefficient,
    guard_load_kn_m,
    mu_1,
    overhang_load_kn_m,
    roof_snow_kn_m2,
)
from pentice.standards.en1991_1_3_ground import (
    accidental_ground_snow_kn_m2,
    ground_snow_kn_m2,
    ground_snow_source,
)
from pentice.working import Step

CORNER = "corner of two walls: where two drifts meet no rule says how they add; ask a structural engineer"

_HANGS_ABOVE_M = 800.0  # recommended height for snow over the edge: EN 1991-1-3, 6.3(1) note, from memory


def snow_on(job: Job, shape: RoofShape, annex: Annex) -> Snow:
    """Every arrangement of snow on the roof.

    Parameters
    ----------
    job, shape, annex
        The job, its geometry and the national choices.

    Returns
    -------
    Snow
        Cases per plan area [kN/m2], and the ones that could not be made with what is missing.

    Raises
    ------
    OutsideScope
        The region, zone or altitude is outside the snow map held.

    Source
    ------
    EN 1991-1-3:2003, 5.2, 5.3.2, 5.3.6, and Annex B where the annex asks for it.
    """
    ground, step = _ground(job)
    even = _even(job, shape, annex, ground)
    if ground < LEAST_GROUND_KN_M2:
        return Snow(ground_kn_m2=ground, cases=(even,), working=(step,))
    house = house_wall(job, shape, ground)
    sides, refused = _side_walls(job, shape)
    walls = ((house,) if house is not None else ()) + sides
    drifts = tuple(drift_case(job, annex, wall, ground) for wall in walls)
    rare, unknown = _exceptional_drifts(annex, ground, walls)
    falls, why = _exceptional_falls(job, shape, annex, ground, walls)
    hanging, hangs = _over_the_foot(job, even)
    return Snow(
        ground_kn_m2=ground,
        cases=(even, *drifts, *rare, *falls),
        refused=(*refused, *unknown, *why, *_edge_under_snow(hanging)),
        corners=_corners((*drifts, *rare, *falls), shape),
        working=(step, *hangs),
        foot_line_kn_m=hanging,
    )


def _ground(job: Job) -> tuple[float, Step]:
    site = job.site
    if site.ground_snow_kn_m2 is not None:
        mark = job.mark_of("site.ground_snow_kn_m2")
        value, clause = site.ground_snow_kn_m2, mark.source or "given in the job file"
        numbers = "given"
    else:
        region, zone, altitude = site.snow_region or "", site.snow_zone or "", site.altitude_m or 0.0
        value, clause = ground_snow_kn_m2(region, zone, altitude), ground_snow_source(region)
        numbers = f"read from the map: {region}, zone {zone}, {altitude:g} m"
    return value, Step(
        says="Snow on the ground", formula="s_k", numbers=numbers, result=value, unit="kN/m2", clause=clause
    )


def _even(
    job: Job,
    shape: RoofShape,
    annex: Annex,
    ground: float,
    *,
    name: str = "snow, even",
    situation: Situation = "persistent",
) -> SnowCase:
    held = job.roof.snow_held_at_foot
    mu, c_e = mu_1(shape.pitch_deg, obstructed=held), exposure_coefficient(annex, job.site.snow_exposure)
    # Exceptional snow falls in one night: no warm room melts it.
    c_t = job.site.thermal_coefficient if situation == "persistent" else 1.0
    load = roof_snow_kn_m2(mu=mu, ground_kn_m2=ground, c_e=c_e, c_t=c_t)
    below, more = annex.flat_addition
    extra = more if math.tan(math.radians(shape.pitch_deg)) < below else 0.0
    step = Step(
        says="Snow on the roof",
        formula="s = mu_1 C_e C_t s_k" + (" + the addition for a flat roof" if extra else ""),
        numbers=f"{mu:.4f} x {c_e:g} x {c_t:g} x {ground:.4f}"
        + (f" + {extra:g}" if extra else "")
        + f"; mu_1 at {shape.pitch_deg:.1f} deg",
        result=load + extra,
        unit="kN/m2 on plan",
        clause="EN 1991-1-3, 5.2(3), 5.3.2" + (f"; annex {annex.name}" if extra else ""),
    )
    guard = _guard_at_foot(shape, load + extra) if held else ()
    return SnowCase(
        name=name, situation=situation, along="y", points=((0.0, load + extra),), working=(step, *guard)
    )


def _guard_at_foot(shape: RoofShape, load: float) -> tuple[Step, ...]:
    """What stands at our foot and holds the snow is pushed by it."""
    plan_m = shape.depth_on_plan_mm / 1000.0
    return (
        Step(
            says="Push of the snow on what holds it at the foot, as declared for it",
            formula="F_s = s b sin a",
            numbers=f"{load:.4f} x {plan_m:.3f} x sin({shape.pitch_deg:.3f})",
            result=guard_load_kn_m(snow_kn_m2=load, plan_m=plan_m, pitch_deg=shape.pitch_deg),
            unit="kN/m",
            clause="EN 1991-1-3, 6.4",
        ),
    )


def _exceptional_drifts(
    annex: Annex, ground: float, walls: tuple[Wall, ...]
) -> tuple[tuple[SnowCase, ...], tuple[tuple[str, str], ...]]:
    """Drifts by Annex B, where the country has them; refused where that was not read."""
    if not walls:
        return (), ()
    try:
        annex.require("exceptional_drifts")
    except OutsideScope as refusal:
        return (), (("exceptional drifts", str(refusal)),)
    return tuple(exceptional_drift_case(wall, ground) for wall in walls if annex.exceptional_drifts), ()


def _side_walls(job: Job, shape: RoofShape) -> tuple[tuple[Wall, ...], tuple[tuple[str, str], ...]]:
    walls: list[Wall] = []
    refused: list[tuple[str, str]] = []
    for side in ("left", "right"):
        if getattr(job.roof, side) != "wall":
            continue
        found = side_wall(job, shape, side)
        if isinstance(found, str):
            refused.append((f"drift from the {side} side wall", found))
        elif found is not None:
            walls.append(found)
    return tuple(walls), tuple(refused)


def _corners(
    cases: tuple[SnowCase, ...], shape: RoofShape
) -> tuple[tuple[tuple[float, float], tuple[float, float]], ...]:
    houses = [case for case in cases if case.along == "y" and case.reach_mm > 0.0]
    sides = [case for case in cases if case.along == "x" and case.reach_mm > 0.0]
    return tuple(corner_of(h, s, shape) for h in houses for s in sides if h.situation == s.situation)


def _exceptional_falls(
    job: Job, shape: RoofShape, annex: Annex, ground: float, walls: tuple[Wall, ...]
) -> tuple[tuple[SnowCase, ...], tuple[tuple[str, str], ...]]:
    """Exceptional snow falls, where the country has them: given in the job, or refused when that is not known."""
    name = "exceptional snow falls"
    given = job.site.accidental_snow_kn_m2
    if given is None:
        given = _accidental_of_the_map(job)
    if given is None:
        if annex.exceptional_falls is False:
            return (), ()
        try:
            annex.require("exceptional_falls")
            annex.require("exceptional_fall_factor")
        except OutsideScope as refusal:
            return (), ((name, str(refusal)),)
        given = exceptional_snow_kn_m2(ground, factor=annex.exceptional_fall_factor or 1.0)
    if given < LEAST_GROUND_KN_M2:
        return (), ()
    even = _even(job, shape, annex, given, name="exceptional snow, even", situation="accidental")
    drifted = tuple(
        drift_case(job, annex, wall, given, name="exceptional snow, drifted", situation="accidental")
        for wall in walls
    )
    return (even, *drifted), ()


def _accidental_of_the_map(job: Job) -> float | None:
    region, zone = job.site.snow_region, job.site.snow_zone
    return None if region is None or zone is None else accidental_ground_snow_kn_m2(region, zone)


def _over_the_foot(job: Job, even: SnowCase) -> tuple[float, tuple[Step, ...]]:
    """Snow that hangs over the foot of a roof in the mountains, along its edge."""
    if (job.site.altitude_m or 0.0) <= _HANGS_ABOVE_M:
        return 0.0, ()
    load = even.points[0][1]
    hanging = overhang_load_kn_m(load)
    step = Step(
        says="Snow that hangs over the foot, besides the snow on the roof",
        formula="s_e = k s^2 / 3, k = 3 / d, not above 3 d",
        numbers=f"min(3 / {load / 3.0:.4f}, 3 x {load / 3.0:.4f}) x {load:.4f}^2 / 3; d = s / 3 = {load / 3.0:.3f} m",
        result=hanging,
        unit="kN/m",
        clause="EN 1991-1-3, 6.3, recommended above 800 m (height from memory)",
    )
    return hanging, (step,)


def _edge_under_snow(hanging_kn_m: float) -> tuple[tuple[str, str], ...]:
    """The rafters' tips carry what hangs over the foot; what sheet, foot profile and gutter bear of it no rule says."""
    if hanging_kn_m <= 0.0:
        return ()
    why = (
        f"{hanging_kn_m:.2f} kN/m hang on the edge. The rafters are checked with it; what the sheet's foot, the foot "
        "profile and the gutter bear of it no rule here says. Put timber under the foot and ask a structural engineer."
    )
    return (("snow over the foot", why),)
