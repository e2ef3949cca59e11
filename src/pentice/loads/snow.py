"""Snow on the roof: even, drifted against the house and against a side wall, exceptional."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.errors import OutsideScope
from pentice.job.model import House, Job
from pentice.job.shape import RoofShape
from pentice.loads.values import Snow, SnowCase
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_3 import exposure_coefficient, mu_1, roof_snow_kn_m2
from pentice.standards.en1991_1_3_annex_b import drift_at_taller_wall
from pentice.standards.en1991_1_3_drift import Drift, UpperRoof, drifts_between, worst_drift, worst_mu_at
from pentice.standards.en1991_1_3_ground import ground_snow_kn_m2, ground_snow_source
from pentice.working import Step

_STATIONS = 8
CORNER = "corner of two walls: where two drifts meet no rule says how they add; ask a structural engineer"


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
    EN 1991-1-3:2003, 5.2, 5.3.3, 5.3.6, and Annex B where the annex asks for it.
    """
    ground, step = _ground(job)
    steps = [step]
    if ground <= 0.0:
        even = SnowCase(name="snow, even", situation="persistent", along="y", points=((0.0, 0.0),))
        return Snow(ground_kn_m2=0.0, cases=(even,), working=tuple(steps))
    cases = [_even(job, shape, ground), *_house_drifts(job, shape, annex, ground)]
    sides: list[SnowCase] = []
    refused: list[tuple[str, str]] = []
    corners: list[tuple[tuple[float, float], tuple[float, float]]] = []
    for side in ("left", "right"):
        if getattr(job.roof, side) != "wall":
            continue
        found = _side_drift(job, shape, annex, ground, side)
        if isinstance(found, str):
            refused.append((f"drift from the {side} side wall", found))
        elif found is not None:
            sides.append(found)
            corners += _corner(cases, found, shape)
    cases += sides
    exceptional, why = _exceptional(job, shape, annex, ground)
    cases += exceptional
    refused += why
    return Snow(
        ground_kn_m2=ground,
        cases=tuple(cases),
        refused=tuple(refused),
        corners=tuple(corners),
        working=tuple(steps),
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
        numbers = f"{region}, zone {zone}, {altitude:g} m"
    return value, Step(
        says="Snow on the ground", formula="s_k", numbers=numbers, result=value, unit="kN/m2", clause=clause
    )


def _even(job: Job, shape: RoofShape, ground: float) -> SnowCase:
    mu, c_e = mu_1(shape.pitch_deg), exposure_coefficient(job.site.snow_exposure)
    load = roof_snow_kn_m2(mu=mu, ground_kn_m2=ground, c_e=c_e)
    return SnowCase(
        name="snow, even",
        situation="persistent",
        along="y",
        points=((0.0, load),),
        working=(
            Step(
                says="Snow on the roof",
                formula="s = mu_1 C_e C_t s_k",
                numbers=f"{mu:.3f} x {c_e:g} x 1 x {ground:.3f}",
                result=load,
                unit="kN/m2 on plan",
                clause="EN 1991-1-3, 5.2(3), 5.3.3",
            ),
        ),
    )


def _upper(house: House) -> UpperRoof:
    """The house roof as the drift rule sees it; without a guard of declared capacity its slope slides to us."""
    depth = (house.depth_mm or 0.0) / 1000.0
    slides = bool(house.roof_drains_to_us) and not house.slides_guarded
    given = house.upper_slope_plan_mm
    slope = (given / 1000.0 if given is not None else depth / 2.0) if slides else 0.0
    return UpperRoof(width_m=depth, pitch_deg=house.roof_pitch_deg or 0.0, slope_plan_m=slope)


def _steps_m(house: House) -> tuple[float, float]:
    top = (house.wall_top_above_mm or 0.0) / 1000.0
    low = house.lowest_wall_top_above_mm
    return (max(min(low / 1000.0, top), 0.001) if low is not None else top), top


def _house_drifts(job: Job, shape: RoofShape, annex: Annex, ground: float) -> Iterator[SnowCase]:
    house = job.house
    if house is None or (house.wall_top_above_mm or 0.0) <= 0.0:
        return
    lower, (lowest, highest) = shape.depth_on_plan_mm / 1000.0, _steps_m(house)
    c_e = max(1.0, exposure_coefficient(job.site.snow_exposure))
    drifts = drifts_between(
        _upper(house),
        lower_m=lower,
        lowest_step_m=lowest,
        highest_step_m=highest,
        ground_kn_m2=ground,
        wording=annex.sliding_wording,
    )
    worst = worst_drift(drifts)
    yield SnowCase(
        name="snow drift against the house",
        situation="persistent",
        along="y",
        points=_profile(drifts, shape.depth_on_plan_mm, ground * c_e),
        working=_drift_working(worst, _upper(house).width_m, lower, ground, c_e),
    )
    if annex.exceptional_drifts:
        drift = drift_at_taller_wall(
            upper_m=_upper(house).width_m, lower_m=lower, step_m=highest, ground_kn_m2=ground
        )
        length = drift.length_m * 1000.0
        end = min(length, shape.depth_on_plan_mm)
        yield SnowCase(
            name="exceptional snow drift against the house",
            situation="accidental",
            along="y",
            points=((0.0, drift.peak_kn_m2), (end, drift.at_kn_m2(end / 1000.0))),
            working=(
                Step(
                    says="Exceptional drift at the wall",
                    formula="s = min(2 h / s_k, 2 b / l_s, 8) s_k",
                    numbers=f"{drift.mu:.3f} x {ground:.3f}, h {highest:g} m, l_s {drift.length_m:g} m",
                    result=drift.peak_kn_m2,
                    unit="kN/m2 on plan",
                    clause="EN 1991-1-3, Annex B, B.3",
                ),
            ),
        )


def _profile(drifts: tuple[Drift, ...], depth_mm: float, scale: float) -> tuple[tuple[float, float], ...]:
    """Load from the wall to the foot. Of several steps the worst at each place: between stations a straight line
    lies above that envelope, because each drift falls in straight lines that only bend upwards."""
    single = len({(d.mu_2, d.length_m) for d in drifts}) == 1
    ends = {0.0, depth_mm, *(d.length_m * 1000.0 for d in drifts if d.length_m * 1000.0 < depth_mm)}
    places = ends if single else ends | {depth_mm * i / _STATIONS for i in range(_STATIONS)}
    return tuple((y, scale * worst_mu_at(drifts, y / 1000.0)) for y in sorted(places))


def _drift_working(drift: Drift, upper: float, lower: float, ground: float, c_e: float) -> tuple[Step, ...]:
    clause = "EN 1991-1-3, 5.3.6"
    return (
        Step(
            says="Blown drift",
            formula="mu_w = (b_1 + b_2) / (2 h), 0.8 to min(4, 2 h / s_k)",
            numbers=f"({upper:.2f} + {lower:.2f}) / (2 x {drift.step_m:.2f}), 2 x {drift.step_m:.2f} / {ground:.3f}",
            result=drift.mu_w,
            clause=clause,
        ),
        Step(
            says="Slid from the roof above",
            formula="mu_s, spread over l_s",
            numbers=f"l_s = {drift.length_m:.2f} m",
            result=drift.mu_s,
            clause=clause,
        ),
        Step(
            says="Snow at the wall",
            formula="s = (mu_s + mu_w) C_e s_k",
            numbers=f"({drift.mu_s:.3f} + {drift.mu_w:.3f}) x {c_e:g} x {ground:.3f}, step {drift.step_m:.2f} m",
            result=drift.mu_2 * c_e * ground,
            unit="kN/m2 on plan",
            clause=clause,
        ),
    )


def _side_drift(job: Job, shape: RoofShape, annex: Annex, ground: float, side: str) -> SnowCase | str | None:
    """Drift from a taller side wall, from that wall along x; a sentence where a value is missing."""
    top, depth = job.roof.side_wall_top_above_mm, job.roof.side_wall_depth_mm
    if top is None or (top > 0.0 and depth is None):
        return "roof.side_wall_top_above_mm and roof.side_wall_depth_mm are needed; measure the side wall"
    if top <= 0.0 or depth is None:
        return None
    c_e = max(1.0, exposure_coefficient(job.site.snow_exposure))
    upper = UpperRoof(width_m=depth / 1000.0, pitch_deg=0.0)
    drifts = drifts_between(
        upper,
        lower_m=shape.width_mm / 1000.0,
        lowest_step_m=top / 1000.0,
        highest_step_m=top / 1000.0,
        ground_kn_m2=ground,
        wording=annex.sliding_wording,
    )
    points = _profile(drifts, shape.width_mm, ground * c_e)
    if side == "right":
        points = tuple((shape.width_mm - x, s) for x, s in reversed(points))
    return SnowCase(
        name=f"snow drift against the {side} side wall",
        situation="persistent",
        along="x",
        points=points,
        working=_drift_working(worst_drift(drifts), upper.width_m, shape.width_mm / 1000.0, ground, c_e),
        reach_mm=worst_drift(drifts).length_m * 1000.0,
    )


def _corner(
    cases: list[SnowCase], side: SnowCase, shape: RoofShape
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Where the drift of the house and the one of a side wall both reach."""
    for house in cases:
        if house.along == "y" and len(house.points) > 1 and house.situation == "persistent":
            reach = min(side.reach_mm, shape.width_mm)
            xs = (
                (0.0, reach)
                if side.points[0][1] > side.points[-1][1]
                else (shape.width_mm - reach, shape.width_mm)
            )
            yield xs, (0.0, shape.depth_on_plan_mm)


def _exceptional(
    job: Job, shape: RoofShape, annex: Annex, ground: float
) -> tuple[list[SnowCase], list[tuple[str, str]]]:
    """Exceptional snow falls, where the country has them: given in the job, or refused when that is not known."""
    given = job.site.accidental_snow_kn_m2
    if given is None:
        if annex.exceptional_falls is False:
            return [], []
        try:
            annex.require("exceptional_falls")
        except OutsideScope as refusal:
            return [], [("exceptional snow falls", str(refusal))]
        if annex.exceptional_fall_factor is None:
            return [], [("exceptional snow falls", "site.accidental_snow_kn_m2 is needed here")]
        given = annex.exceptional_fall_factor * ground
    if given <= 0.0:
        return [], []
    load = roof_snow_kn_m2(
        mu=mu_1(shape.pitch_deg), ground_kn_m2=given, c_e=exposure_coefficient(job.site.snow_exposure)
    )
    even = SnowCase(name="exceptional snow, even", situation="accidental", along="y", points=((0.0, load),))
    if job.house is None or (job.house.wall_top_above_mm or 0.0) <= 0.0:
        return [even], []
    lowest, highest = _steps_m(job.house)
    drifts = drifts_between(
        _upper(job.house),
        lower_m=shape.depth_on_plan_mm / 1000.0,
        lowest_step_m=lowest,
        highest_step_m=highest,
        ground_kn_m2=given,
        wording=annex.sliding_wording,
    )
    drifted = SnowCase(
        name="exceptional snow, drifted against the house",
        situation="accidental",
        along="y",
        points=_profile(drifts, shape.depth_on_plan_mm, given),
    )
    return [even, drifted], []
