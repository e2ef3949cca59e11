"""Fall left after the rafters sag, and the way of the water: gutter, outlet, downpipe."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pentice.checks.ground import JUDGEMENT, Ground, Rule, Shown, compared, open_check
from pentice.checks.rafter import RafterResult
from pentice.checks.values import Check, Place, RestsOn
from pentice.errors import OutsideScope
from pentice.standards.en12056 import (
    box_flow_l_s,
    downpipe_flow_l_s,
    effective_area_m2,
    half_round_flow_l_s,
    long_gutter_factor,
    outlet_flow_l_s,
    runoff_l_s,
)
from pentice.working import Step

LEAST_FALL_DEG = 3.0
"""Least fall after sag where the supplier names none: judgement, no source."""
BUILT_OFF_DEG = 0.3
"""How much flatter a roof may be built than drawn: judgement, no source."""
_END_SLOPE_DEG = 57.29577951308232 * 3.2

_FALL = Rule(
    id="fall",
    name="Fall after sag",
    member="roof",
    clause=f"end slope 3.2 w / L; limits {JUDGEMENT}",
    unit="deg",
)
_GUTTER = Rule(
    id="gutter",
    name="Gutter",
    member="gutter",
    clause="EN 12056-3, 5.1; formula from memory",
    unit="l/s",
    edition="EN 12056-3:2000",
)
_PIPE = Rule(
    id="downpipe",
    name="Outlet and downpipe",
    member="downpipe",
    clause="EN 12056-3, 5.3, 6; from memory",
    unit="l/s",
    edition="EN 12056-3:2000",
)


def fall_checks(ground: Ground, results: tuple[RafterResult, ...]) -> Iterator[Check]:
    """The fall that is left at each rafter's foot when it has sagged.

    Parameters
    ----------
    ground
        The inputs of every check.
    results
        Each rafter's sag in the end.

    Yields
    ------
    Check
        Angles [deg]; the flattest rafter.

    Source
    ------
    theta = 3.2 w / L at the ends of an evenly loaded simple span; limits are judgement, no source.
    """
    known = [r for r in results if r.final_sag_mm is not None]
    if len(known) < len(results) or not known:
        yield open_check(
            _FALL, Place(), "refused", Shown(says="The sag of the rafters is not known: see the rafters.")
        )
        return
    worst = max(known, key=lambda r: (r.final_sag_mm or 0.0) / r.span_mm)
    number = known.index(worst) + 1
    sag = worst.final_sag_mm or 0.0
    lost = _END_SLOPE_DEG * sag / worst.span_mm
    pitch = ground.shape.pitch_deg
    sheet, bar = ground.parts.sheet, ground.parts.bar
    declared = [d for d in (sheet.fall_least_deg, bar.fall_least_deg) if d is not None]
    inputs = [ground.of_job("roof.pitch_deg", pitch)]
    if sheet.fall_least_deg is not None:
        inputs.append(ground.of_sheet("fall_least_deg"))
    note = (
        "Below 5 deg as built: water and dirt lie longer, ask the supplier."
        if pitch - BUILT_OFF_DEG < 5.0
        else ""
    )
    working = (
        Step(
            says="Fall left",
            formula="pitch - 0.3 - 57.3 x 3.2 w_fin / L",
            numbers=f"{pitch:.2f} - {BUILT_OFF_DEG:g} - 57.3 x 3.2 x {sag:.1f} / {worst.span_mm:.0f}",
            result=pitch - BUILT_OFF_DEG - lost,
            unit="deg",
            clause="statics",
        ),
    )
    yield compared(
        _FALL,
        Place(rafter=number, at="foot"),
        demand=max(declared, default=LEAST_FALL_DEG),
        capacity=pitch - BUILT_OFF_DEG - lost,
        case="built 0.3 deg flat, sagged for good",
        shown=Shown(
            says=note, rests_on=tuple(inputs), working=working, cure="More pitch or stiffer rafters."
        ),
    )


def water_checks(ground: Ground) -> Iterator[Check]:
    """Gutter, outlet and downpipe for the rain on the roof, half the wall above and the house roof if it drains to us.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        Flows [l/s].

    Source
    ------
    EN 12056-3:2000; several factors from memory.
    """
    gutter, rain = ground.parts.gutter, ground.job.site.rain_l_s_m2
    if gutter is None:
        says = "No gutter in this job: say where the water goes, away from doors, paths and the neighbour."
        yield open_check(_GUTTER, Place(at="foot"), "not checked", Shown(says=says))
        return
    if rain is None:
        says = "site.rain_l_s_m2 is needed: read it from the local rainfall map."
        for rule in (_GUTTER, _PIPE):
            yield open_check(
                rule, Place(at="foot"), "refused", Shown(says=says, cure="Give site.rain_l_s_m2.")
            )
        return
    area, area_step = _area(ground)
    flow = runoff_l_s(area, rain)
    outlets = len(ground.job.gutter.outlets_at_mm) or 1
    run, share = _longest_run(ground)
    inputs = (
        ground.of_job("site.rain_l_s_m2", rain),
        RestsOn(input="EN 12056-3 factors", value="", mark="from memory"),
    )
    flow_step = Step(
        says="Water that comes",
        formula="Q = r A",
        numbers=f"{rain:g} x {area:.2f}, {share:.0%} of it in the longest run",
        result=flow * share,
        unit="l/s",
        clause="EN 12056-3, 4.2",
    )
    try:
        yield _gutter(ground, flow * share, run, (area_step, flow_step), inputs)
    except OutsideScope as refusal:
        yield open_check(_GUTTER, Place(at="foot"), "refused", Shown(says=str(refusal), rests_on=inputs))
    try:
        yield _pipe(ground, flow / outlets, (area_step, flow_step), inputs)
    except OutsideScope as refusal:
        yield open_check(_PIPE, Place(at="foot"), "refused", Shown(says=str(refusal), rests_on=inputs))


def _area(ground: Ground) -> tuple[float, Step]:
    """Roof with half its rise, half the wall above, and the plan of the house slope that drains to us [m2]."""
    shape, house = ground.shape, ground.job.house
    wall = (house.wall_top_above_mm or 0.0) / 1000.0 if house is not None else 0.0
    area = effective_area_m2(
        length_m=shape.width_mm / 1000.0,
        depth_m=shape.depth_on_plan_mm / 1000.0,
        rise_m=shape.rise_mm / 1000.0,
        wall_above_m=wall,
    )
    upper = 0.0
    if house is not None and house.roof_drains_to_us:
        slope = (
            house.upper_slope_plan_mm
            if house.upper_slope_plan_mm is not None
            else (house.depth_mm or 0.0) / 2.0
        )
        upper = slope * shape.width_mm * 1e-6
    step = Step(
        says="Area that drains to the gutter",
        formula="L (B + rise / 2) + wall / 2 + house roof",
        numbers=(
            f"L {shape.width_mm / 1000:.2f}, B {shape.depth_on_plan_mm / 1000:.2f}, "
            f"wall {wall:.2f} m, above {upper:.2f} m2"
        ),
        result=area + upper,
        unit="m2",
        clause="EN 12056-3, 4.3",
    )
    return area + upper, step


def _longest_run(ground: Ground) -> tuple[float, float]:
    """Longest stretch of gutter to an outlet [mm], and its share of the water; no outlets: the whole length."""
    width = ground.shape.width_mm
    outlets = ground.job.gutter.outlets_at_mm
    if not outlets:
        return width, 1.0
    cuts = [0.0, *((a + b) / 2.0 for a, b in pairwise(outlets)), width]
    runs = [run for i, at in enumerate(outlets) for run in (at - cuts[i], cuts[i + 1] - at)]
    return max(runs), max(runs) / width


def _gutter(
    ground: Ground, flow: float, run: float, steps: tuple[Step, ...], inputs: tuple[RestsOn, ...]
) -> Check:
    gutter = ground.parts.gutter
    assert gutter is not None
    if gutter.shape == "half round":
        capacity = 0.9 * half_round_flow_l_s(gutter.area_mm2)
    else:
        capacity = 0.9 * box_flow_l_s(gutter.area_mm2, depth_factor=1.0, shape_factor=1.0)
    long = long_gutter_factor(run, gutter.depth_mm)
    step = Step(
        says="What the gutter takes",
        formula="0.9 Q_N F_L",
        numbers=f"section {gutter.area_mm2:g} mm2, run {run:.0f} mm, F_L {long:.3f}",
        result=capacity * long,
        unit="l/s",
        clause="EN 12056-3, 5.1, from memory",
    )
    shown = Shown(
        rests_on=inputs, working=(*steps, step), cure="A larger gutter, or an outlet in the middle."
    )
    return compared(
        _GUTTER, Place(at="foot"), demand=flow, capacity=capacity * long, case="longest run", shown=shown
    )


def _pipe(ground: Ground, flow: float, steps: tuple[Step, ...], inputs: tuple[RestsOn, ...]) -> Check:
    gutter = ground.parts.gutter
    assert gutter is not None
    outlet = outlet_flow_l_s(gutter.outlet_mm, gutter.depth_mm / 2.0)
    pipe = downpipe_flow_l_s(gutter.downpipe_mm)
    step = Step(
        says="What outlet and pipe take",
        formula="min(outlet, downpipe at 0.33)",
        numbers=f"outlet {gutter.outlet_mm:g} mm {outlet:.2f}, pipe {gutter.downpipe_mm:g} mm {pipe:.2f} l/s",
        result=min(outlet, pipe),
        unit="l/s",
        clause="EN 12056-3, 5.3 and 6, from memory",
    )
    shown = Shown(rests_on=inputs, working=(*steps, step), cure="A larger outlet or one more downpipe.")
    return compared(
        _PIPE, Place(at="foot"), demand=flow, capacity=min(outlet, pipe), case="each outlet", shown=shown
    )
