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
            formula="pitch - 0.3 - 57.3 * 3.2 w_fin / L",
            numbers=f"{pitch:.3f} - {BUILT_OFF_DEG:g} - 57.3 x 3.2 x {sag:.3f} / {worst.span_mm:.1f}",
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
    try:
        yield _gutter(ground, flow * share, run, (area_step, _flow_step(rain, area, flow, share)), inputs)
    except OutsideScope as refusal:
        yield open_check(_GUTTER, Place(at="foot"), "refused", Shown(says=str(refusal), rests_on=inputs))
    try:
        each = _flow_step(rain, area, flow, 1.0 / outlets)
        yield _pipe(ground, flow / outlets, (area_step, each), inputs)
    except OutsideScope as refusal:
        yield open_check(_PIPE, Place(at="foot"), "refused", Shown(says=str(refusal), rests_on=inputs))


def _flow_step(rain: float, area: float, flow: float, share: float) -> Step:
    return Step(
        says="Water that comes",
        formula="Q = r A * share",
        numbers=f"{rain:g} x {area:.3f} x {share:.4f}; the share of the longest run, or of one outlet",
        result=flow * share,
        unit="l/s",
        clause="EN 12056-3, 4.2",
    )


def _area(ground: Ground) -> tuple[float, Step]:
    """Roof with half its rise, half the wall above, and the plan of the house slope that drains to us [m2]."""
    shape, house = ground.shape, ground.job.house
    wall = (house.wall_top_above_mm or 0.0) / 1000.0 if house is not None else 0.0
    long, deep, rise = shape.width_mm / 1000.0, shape.depth_on_plan_mm / 1000.0, shape.rise_mm / 1000.0
    area = effective_area_m2(length_m=long, depth_m=deep, rise_m=rise, wall_above_m=wall)
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
        formula="L (B + rise / 2) + L * wall above / 2 + house roof",
        numbers=f"{long:.3f} x ({deep:.3f} + {rise:.3f} / 2) + {long:.3f} x {wall:g} / 2 + {upper:.3f}",
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
        capacity, factor = 0.9 * half_round_flow_l_s(gutter.area_mm2), 2.78
    else:
        capacity, factor = 0.9 * box_flow_l_s(gutter.area_mm2, depth_factor=1.0, shape_factor=1.0), 3.48
    long = long_gutter_factor(run, gutter.depth_mm)
    step = Step(
        says="What the gutter takes",
        formula=f"0.9 * 0.9 x {factor} * 10^(-5) A^1.25 F_L",
        numbers=f"0.81 x {factor} x 10^(-5) x {gutter.area_mm2:g}^1.25 x {long:.4f}; F_L read at {run:.0f} mm of run",
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
    head, d = gutter.depth_mm / 2.0, gutter.outlet_mm
    weir = head <= d / 2.0
    clause = "EN 12056-3, 5.3 and 6, from memory"
    outlet_step = Step(
        says="What the outlet takes, water half the gutter deep",
        formula="D h^1.5 / 7500" if weir else "D^2 h^0.5 / 15000",
        numbers=f"{d:g} x {head:g}^1.5 / 7500" if weir else f"{d:g}^2 x {head:g}^0.5 / 15000",
        result=outlet,
        unit="l/s",
        clause=clause,
    )
    pipe_step = Step(
        says="What the downpipe takes, a third full",
        formula="2.5 * 10^(-4) k_b^(-0.167) d^2.667 f^1.667",
        numbers=f"2.5 x 10^(-4) x 0.25^(-0.167) x {gutter.downpipe_mm:g}^2.667 x 0.33^1.667",
        result=pipe,
        unit="l/s",
        clause=clause,
    )
    least = Step(
        says="What outlet and pipe take",
        formula="the less of the two",
        numbers=f"min({outlet:.4f}, {pipe:.4f})",
        result=min(outlet, pipe),
        unit="l/s",
        clause=clause,
    )
    shown = Shown(
        rests_on=inputs,
        working=(*steps, outlet_step, pipe_step, least),
        cure="A larger outlet or one more downpipe.",
    )
    return compared(
        _PIPE, Place(at="foot"), demand=flow, capacity=min(outlet, pipe), case="each outlet", shown=shown
    )
