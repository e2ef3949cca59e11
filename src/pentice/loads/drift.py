"""Snow drifted against the house and against a taller side wall, and where the two meet.

Where the top of a wall rises, or our roof line falls away from a level top, every step between the least and the
greatest counts: the load is the worst of them at each place, and the working names the step that is worst at the wall.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from pentice.job.model import House, Job
from pentice.job.shape import RoofShape
from pentice.loads.values import Situation, SnowCase
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_3 import exposure_coefficient, guard_load_kn_m, mu_1
from pentice.standards.en1991_1_3_annex_b import ExceptionalDrift, drift_at_taller_wall
from pentice.standards.en1991_1_3_drift import Drift, UpperRoof, drifts_between, worst_drift, worst_mu_at
from pentice.working import Step

LEAST_GROUND_KN_M2 = 0.01
"""Less snow than this on the ground drifts nowhere: the drift rule divides by it. Judgement, no source."""

_STATIONS = 8
_STEPS = 20
_LEAST_STEP_M = 0.001


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A wall above our roof: what lies beyond it, how far our roof runs from it, and its steps above our roof."""

    name: str
    upper: UpperRoof
    lower_mm: float
    lowest_m: float
    highest_m: float
    along: Literal["x", "y"] = "y"
    mirrored: bool = False
    """Distances run from the right: a wall at the right-hand end."""
    guard: Step | None = None
    """What a guard on the roof above must hold, where one is counted on."""


def house_wall(job: Job, shape: RoofShape, ground_kn_m2: float) -> Wall | None:
    """The house's wall as the drift rule sees it; None where nothing stands above our roof.

    Parameters
    ----------
    job, shape
        The job and its geometry.
    ground_kn_m2
        Snow on the ground [kN/m2].

    Returns
    -------
    Wall or None
        Lengths [m, mm]. A slope that drains to us slides onto us, unless a guard of declared capacity holds it.
        Where the plan length of that slope is not given it is half the depth of the house: a ridge in its middle.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6.
    """
    house = job.house
    if house is None or not house.wall_top_above_mm or not house.depth_mm:
        return None
    depth, top = house.depth_mm / 1000.0, house.wall_top_above_mm / 1000.0
    low = house.lowest_wall_top_above_mm
    given = house.upper_slope_plan_mm
    slope = given / 1000.0 if given is not None else depth / 2.0
    drains = bool(house.roof_drains_to_us)
    slides = slope if drains and not house.slides_guarded else 0.0
    return Wall(
        name="the house",
        upper=UpperRoof(width_m=depth, pitch_deg=house.roof_pitch_deg or 0.0, slope_plan_m=slides),
        lower_mm=shape.depth_on_plan_mm,
        lowest_m=top if low is None else max(min(low / 1000.0, top), _LEAST_STEP_M),
        highest_m=top,
        guard=_guard(house, slope, ground_kn_m2) if drains and house.slides_guarded else None,
    )


def side_wall(job: Job, shape: RoofShape, side: str) -> Wall | str | None:
    """A taller building beside our roof; a sentence where a length is missing, None where it is no taller.

    Parameters
    ----------
    job, shape
        The job and its geometry.
    side
        "left" or "right".

    Returns
    -------
    Wall, str or None
        Lengths [m, mm]. Its top is level while our roof line falls, so the step grows by the rise of our roof. What
        may slide from the roof beyond is not known and not in it.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6; that the step grows along the wall is not treated there: judgement, no source.
    """
    top, depth = job.roof.side_wall_top_above_mm, job.roof.side_wall_depth_mm
    if top is None or (top > 0.0 and depth is None):
        return "roof.side_wall_top_above_mm and roof.side_wall_depth_mm are needed; measure the side wall"
    if top <= 0.0 or depth is None:
        return None
    return Wall(
        name=f"the {side} side wall",
        upper=UpperRoof(width_m=depth / 1000.0, pitch_deg=0.0),
        lower_mm=shape.width_mm,
        lowest_m=top / 1000.0,
        highest_m=(top + shape.rise_mm) / 1000.0,
        along="x",
        mirrored=side == "right",
    )


def drift_case(
    job: Job,
    annex: Annex,
    wall: Wall,
    ground_kn_m2: float,
    *,
    name: str = "snow drift",
    situation: Situation = "persistent",
) -> SnowCase:
    """Snow drifted against a wall, by the rule for roofs that abut taller works.

    Parameters
    ----------
    job, annex
        The job and the national choices.
    wall
        The wall.
    ground_kn_m2
        Snow on the ground [kN/m2], 0.01 or more.
    name, situation
        How the case is called, and whether it is an accident.

    Returns
    -------
    SnowCase
        Load on plan [kN/m2]. The exposure coefficient is 1.0 at least whenever a drift acts.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6, expressions 5.6 to 5.9.
    """
    c_e = max(1.0, exposure_coefficient(annex, job.site.snow_exposure))
    drifts = drifts_between(
        wall.upper,
        lower_m=wall.lower_mm / 1000.0,
        lowest_step_m=wall.lowest_m,
        highest_step_m=wall.highest_m,
        ground_kn_m2=ground_kn_m2,
        wording=annex.sliding_wording,
    )
    drifted = [d for d in drifts if d.mu_2 > d.mu_at(d.length_m)]
    return SnowCase(
        name=f"{name} against {wall.name}",
        situation=situation,
        along=wall.along,
        points=_profile(wall, drifts, lambda y: c_e * ground_kn_m2 * worst_mu_at(drifts, y)),
        working=_drift_working(wall, worst_drift(drifts), ground_kn_m2, c_e),
        reach_mm=min(max((d.length_m * 1000.0 for d in drifted), default=0.0), wall.lower_mm),
    )


def exceptional_drift_case(wall: Wall, ground_kn_m2: float) -> SnowCase:
    """An exceptional drift against a wall: an accident, with all other snow gone.

    Parameters
    ----------
    wall
        The wall.
    ground_kn_m2
        Snow on the ground [kN/m2], 0.01 or more.

    Returns
    -------
    SnowCase
        Load on plan [kN/m2], falling to nothing at the end of the drift.

    Source
    ------
    EN 1991-1-3:2003, Annex B, B.3, at any pitch of a roof that falls away from the wall.
    """
    span = wall.highest_m - wall.lowest_m
    steps = sorted({wall.lowest_m + span * i / _STEPS for i in range(_STEPS)} | {wall.highest_m})
    found = [
        (
            h,
            drift_at_taller_wall(
                upper_m=wall.upper.width_m,
                lower_m=wall.lower_mm / 1000.0,
                step_m=h,
                ground_kn_m2=ground_kn_m2,
            ),
        )
        for h in steps
    ]
    drifts = [drift for _, drift in found]
    step, worst = max(found, key=lambda pair: (pair[1].peak_kn_m2, pair[1].length_m))
    return SnowCase(
        name=f"exceptional snow drift against {wall.name}",
        situation="accidental",
        along=wall.along,
        points=_profile(wall, drifts, lambda y: max(drift.at_kn_m2(y) for drift in drifts)),
        working=(
            Step(
                says="Exceptional drift at the wall",
                formula="s = min(2 h / s_k, 2 b / l_s, 8) s_k",
                numbers=(
                    f"min(2 x {step:.4f} / {ground_kn_m2:.4f}, "
                    f"2 x {max(wall.upper.width_m, wall.lower_mm / 1000.0):.4f} / {worst.length_m:.4f}, 8) "
                    f"x {ground_kn_m2:.4f}; over l_s = {worst.length_m:.2f} m"
                ),
                result=worst.peak_kn_m2,
                unit="kN/m2 on plan",
                clause="EN 1991-1-3, Annex B, B.3",
            ),
        ),
        reach_mm=min(max(drift.length_m for drift in drifts) * 1000.0, wall.lower_mm),
    )


def corner_of(
    house: SnowCase, side: SnowCase, shape: RoofShape
) -> tuple[tuple[float, float], tuple[float, float]]:
    """The rectangle of the roof that the drift of the house and the one of a side wall both reach.

    Parameters
    ----------
    house, side
        The two cases.
    shape
        The roof's geometry.

    Returns
    -------
    tuple
        ((x from, to), (y from, to)) on plan [mm]; without area where one of them does not drift.

    Source
    ------
    No rule says how two drifts add: refused there, judgement, no source.
    """
    right = side.name.endswith("right side wall")
    xs = (shape.width_mm - side.reach_mm, shape.width_mm) if right else (0.0, side.reach_mm)
    return xs, (0.0, house.reach_mm)


def _profile(
    wall: Wall, drifts: Sequence[Drift] | Sequence[ExceptionalDrift], load: Callable[[float], float]
) -> tuple[tuple[float, float], ...]:
    """Load from the wall to the far edge. Of several steps the worst at each place: between stations a straight line
    lies above that envelope, because each drift falls in straight lines that only bend upwards."""
    far = wall.lower_mm
    places = {0.0, far, *(d.length_m * 1000.0 for d in drifts if d.length_m * 1000.0 < far)}
    if len(drifts) > 1:
        places |= {far * i / _STATIONS for i in range(_STATIONS)}
    points = tuple((y, load(y / 1000.0)) for y in sorted(places))
    return tuple((far - y, s) for y, s in reversed(points)) if wall.mirrored else points


def _guard(house: House, slope_m: float, ground_kn_m2: float) -> Step:
    pitch = house.roof_pitch_deg or 0.0
    load = mu_1(pitch, obstructed=True) * ground_kn_m2
    return Step(
        says="What the guard on the house roof must hold, as declared for it",
        formula="F_s = s b sin a",
        numbers=f"{load:.4f} x {slope_m:.4f} x sin({pitch:g})",
        result=guard_load_kn_m(snow_kn_m2=load, plan_m=slope_m, pitch_deg=pitch),
        unit="kN/m",
        clause="EN 1991-1-3, 6.4",
    )


def _drift_working(wall: Wall, drift: Drift, ground: float, c_e: float) -> tuple[Step, ...]:
    clause, upper, lower = "EN 1991-1-3, 5.3.6", wall.upper, wall.lower_mm / 1000.0
    rising = wall.lowest_m < wall.highest_m
    which = f"the worst from {wall.lowest_m:.2f} to {wall.highest_m:.2f} m" if rising else "the only one"
    on_slope = drift.mu_s * drift.length_m / upper.slope_plan_m if upper.slope_plan_m else 0.0
    return (
        Step(
            says="Step between the roofs that is worst at the wall",
            formula="h",
            numbers=f"given: {which}",
            result=drift.step_m,
            unit="m",
            clause=clause,
        ),
        Step(
            says="Blown drift",
            formula="mu_w = (b_1 + b_2) / (2 h), 0.8 to min(4, 2 h / s_k)",
            numbers=(
                f"max(0.8, min(({upper.width_m:.3f} + {lower:.3f}) / (2 x {drift.step_m:.4f}), "
                f"2 x {drift.step_m:.4f} / {ground:.4f}, 4))"
            ),
            result=drift.mu_w,
            clause=clause,
        ),
        Step(
            says="Length of the drift",
            formula="l_s = 2 h, from 5 to 15",
            numbers=f"max(5, min(2 x {drift.step_m:.4f}, 15))",
            result=drift.length_m,
            unit="m",
            clause=clause,
        ),
        Step(
            says="Slid from the roof above",
            formula="mu_s = mu_1 b_1s / l_s",
            numbers=(
                f"{on_slope:.4f} x {upper.slope_plan_m:.4f} / {drift.length_m:.4f}; "
                f"mu_1 of the roof above at {upper.pitch_deg:g} deg"
                if upper.slope_plan_m
                else "0; nothing slides onto us"
            ),
            result=drift.mu_s,
            clause=clause,
        ),
        *((wall.guard,) if wall.guard is not None else ()),
        Step(
            says="Snow at the wall",
            formula="s = (mu_s + mu_w) C_e s_k",
            numbers=f"({drift.mu_s:.4f} + {drift.mu_w:.4f}) x {c_e:g} x {ground:.4f}",
            result=drift.mu_2 * c_e * ground,
            unit="kN/m2 on plan",
            clause=clause,
        ),
        *(() if rising else (_far_step(wall, drift, ground, c_e),)),
    )


def _far_step(wall: Wall, drift: Drift, ground: float, c_e: float) -> Step:
    """Snow at the far edge of our roof: on the straight line from the wall to the end of the drift."""
    far = wall.lower_mm / 1000.0
    inside = far < drift.length_m
    return Step(
        says="Snow at the far edge",
        formula="s = (mu_2 + (0.8 - mu_2) b_2 / l_s) C_e s_k"
        if inside
        else "s = 0.8 C_e s_k; the drift ends before it",
        numbers=(
            f"({drift.mu_2:.4f} + (0.8 - {drift.mu_2:.4f}) x {far:.4f} / {drift.length_m:.4f}) x {c_e:g} x {ground:.4f}"
            if inside
            else f"0.8 x {c_e:g} x {ground:.4f}"
        ),
        result=drift.mu_at(far) * c_e * ground,
        unit="kN/m2 on plan",
        clause="EN 1991-1-3, Figure 5.7; from slid and blown together at the wall"
        if inside
        else "EN 1991-1-3, Figure 5.7",
    )
