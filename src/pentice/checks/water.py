"""The way of the water: gutter, outlet, downpipe."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.catalogue.gutters import Gutter
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.rain import Rain, RunFlow, rain_on
from pentice.checks.rests import of_roof
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.standards.en12056 import (
    bend_factor,
    box_flow_l_s,
    downpipe_flow_l_s,
    half_round_flow_l_s,
    long_gutter_factor,
    outlet_flow_l_s,
)
from pentice.standards.en12056_gutters import GutterSection, gutter_section, rectangular_pipe_diameter_mm
from pentice.working import Step

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


def water_checks(ground: Ground) -> Iterator[Check]:
    """Gutter, outlet and downpipe for the rain on the roof, the walls above and the house roof if it drains to us.

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
    water = rain_on(ground, rain)
    inputs = (
        ground.of_job("site.rain_l_s_m2", rain),
        *of_roof(ground, "width_mm"),
        *_of_house(ground),
        *_of_gutter(ground, gutter),
        RestsOn(input="EN 12056-3 factors", value="", mark="from memory"),
    )
    try:
        yield _gutter(ground, gutter, water, inputs)
    except OutsideScope as refusal:
        yield open_check(_GUTTER, Place(at="foot"), "refused", Shown(says=str(refusal), rests_on=inputs))
    try:
        yield _pipe(ground, gutter, water, inputs)
    except OutsideScope as refusal:
        yield open_check(_PIPE, Place(at="foot"), "refused", Shown(says=str(refusal), rests_on=inputs))


def _of_house(ground: Ground) -> tuple[RestsOn, ...]:
    """What of the house sheds water onto the roof: its wall, and its roof where that drains to us."""
    house = ground.job.house
    if house is None:
        return ()
    keys = ["wall_top_above_mm"]
    if house.roof_drains_to_us:
        plan = "upper_slope_plan_mm" if house.drains_area_m2 is None else "drains_area_m2"
        keys += ["roof_drains_to_us", plan, "roof_pitch_deg"]
    return tuple(ground.of_job(f"house.{key}", getattr(house, key)) for key in keys)


def _of_gutter(ground: Ground, gutter: Gutter) -> tuple[RestsOn, ...]:
    keys = ["outline_mm"] if gutter.outline_mm is not None else ["area_mm2", "depth_mm"]
    keys = ["flow_l_s", keys[-1]] if gutter.flow_l_s is not None else keys
    keys += [key for key in ("depth_factor", "shape_factor") if getattr(gutter, key) is not None]
    return tuple(ground.of_catalogue(f"gutters.{gutter.id}.{key}", getattr(gutter, key)) for key in keys)


def _section(gutter: Gutter) -> GutterSection:
    """What holds water: as the catalogue has it, or of the measured outline up to its lower lip."""
    if gutter.outline_mm is not None:
        return gutter_section(gutter.outline_mm)
    assert gutter.area_mm2 is not None  # the catalogue's reader sees to it
    return GutterSection(area_mm2=gutter.area_mm2, depth_mm=gutter.depth_mm, width_mm=gutter.width_mm)


def _short_level(gutter: Gutter) -> tuple[float, Step]:
    """What a short level length takes with its outlet at one end [l/s]."""
    area = _section(gutter).area_mm2
    if gutter.flow_l_s is not None:
        value, formula, numbers, clause = gutter.flow_l_s, "0.9 Q, as declared", "", "declared value"
        return 0.9 * value, Step(
            says="What a short level length takes",
            formula=formula,
            numbers=f"0.9 x {value:g}",
            result=0.9 * value,
            unit="l/s",
            clause=f"{clause}; EN 12056-3, 5.1, from memory",
        )
    if gutter.shape == "half round":
        value, factors = half_round_flow_l_s(area), ""
        numbers = f"0.81 x 2.78 x 10^(-5) x {area:g}^1.25"
    else:
        if gutter.depth_factor is None or gutter.shape_factor is None:
            raise OutsideScope(
                f"gutters.{gutter.id} is {gutter.shape}: its depth_factor and shape_factor are read from figures of "
                "EN 12056-3, 5.1.3, which are not held. Give them, or flow_l_s as its maker declares it."
            )
        value = box_flow_l_s(area, depth_factor=gutter.depth_factor, shape_factor=gutter.shape_factor)
        factors = " F_d F_s"
        numbers = f"0.81 x 3.48 x 10^(-5) x {area:g}^1.25 x {gutter.depth_factor:g} x {gutter.shape_factor:g}"
    step = Step(
        says="What a short level length takes",
        formula=f"0.9 * 0.9 * {'2.78' if gutter.shape == 'half round' else '3.48'} * 10^(-5) A^1.25{factors}",
        numbers=numbers,
        result=0.9 * value,
        unit="l/s",
        clause="EN 12056-3, 5.1, from memory",
    )
    return 0.9 * value, step


def _gutter(ground: Ground, gutter: Gutter, water: Rain, inputs: tuple[RestsOn, ...]) -> Check:
    """The run that uses most of what it can lead to its outlet."""
    short, short_step = _short_level(gutter)
    bend = ground.job.gutter.bend_deg or 0.0
    turned, deep = bend_factor(bend), _section(gutter).depth_mm

    def takes(found: RunFlow) -> float:
        return short * turned * long_gutter_factor(found.run.length_mm, deep)

    worst = max(water.runs, key=lambda found: found.flow_l_s / takes(found))
    run, long = worst.run, long_gutter_factor(worst.run.length_mm, deep)

    def shown() -> Shown:
        more = f"; bend of {bend:g} deg" if turned < 1.0 else ""
        fall = ground.job.gutter.fall
        level = f", its fall of 1 in {1.0 / fall:.0f} counted as level" if fall else ""
        working = (
            *water.steps,
            Step(
                says="Water of the run",
                formula="Q = r A share + what comes at one place",
                numbers=f"{_rain(ground):g} x {water.area_m2:.3f} x {run.share:.4f} + "
                f"{worst.at_one_place_l_s:.4f}",
                result=worst.flow_l_s,
                unit="l/s",
                clause="EN 12056-3, 4.2; a level gutter parts half way between outlets",
            ),
            short_step,
            Step(
                says="What the run takes" + level,
                formula="Q_short F_L" + (" 0.85" if turned < 1.0 else ""),
                numbers=f"{short:.4f} x {long:.4f}{' x 0.85' if turned < 1.0 else ''}; F_L read at "
                f"{run.length_mm:.0f} mm of run, {deep:g} deep{more}",
                result=takes(worst),
                unit="l/s",
                clause="EN 12056-3, 5.1, Table 6, from memory",
            ),
        )
        return Shown(
            says=_beside(ground),
            rests_on=inputs,
            working=working,
            cure="A larger gutter, or an outlet in the middle.",
        )

    words = f"run of {run.length_mm:.0f} to outlet {run.outlet}"
    return compared(
        _GUTTER, Place(at="foot"), demand=worst.flow_l_s, capacity=takes(worst), case=words, shown=shown
    )


def _rain(ground: Ground) -> float:
    return ground.job.site.rain_l_s_m2 or 0.0


def _beside(ground: Ground) -> str:
    """What else to mind where a pipe of the house ends on our roof."""
    house = ground.job.house
    if house is None or not house.roof_drains_to_us or house.drains_at_mm is None:
        return ""
    return (
        "Lead the pipe of the roof above into the gutter, or spread it: a jet wears sheets and tears at caps."
    )


def _pipe(ground: Ground, gutter: Gutter, water: Rain, inputs: tuple[RestsOn, ...]) -> Check:
    """The outlet to which most water runs, with its pipe."""
    numbers = sorted({found.run.outlet for found in water.runs})
    worst = max(numbers, key=water.of_outlet)
    flow = water.of_outlet(worst)
    strainer = ground.job.gutter.leaf_guard
    head, d = _section(gutter).depth_mm / 2.0, gutter.outlet_mm
    outlet = outlet_flow_l_s(d, head, strainer=strainer)
    square = gutter.downpipe_depth_mm
    bore = gutter.downpipe_mm if square is None else rectangular_pipe_diameter_mm(gutter.downpipe_mm, square)
    pipe = downpipe_flow_l_s(bore)

    def shown() -> Shown:
        weir = head <= d / 2.0
        half = " x 0.5" if strainer else ""
        clause = "EN 12056-3, 5.3 and 6, from memory"
        comes = Step(
            says="Water of the outlet",
            formula="the runs that lead to it",
            numbers=" + ".join(f"{found.flow_l_s:.4f}" for found in water.runs if found.run.outlet == worst),
            result=flow,
            unit="l/s",
            clause="EN 12056-3, 4.2",
        )
        outlet_step = Step(
            says="What the outlet takes, water half the gutter deep"
            + (", under a leaf guard" if strainer else ""),
            formula=("D h^1.5 / 7500" if weir else "D^2 h^0.5 / 15000") + (" k" if strainer else ""),
            numbers=(f"{d:g} x {head:g}^1.5 / 7500" if weir else f"{d:g}^2 x {head:g}^0.5 / 15000") + half,
            result=outlet,
            unit="l/s",
            clause=clause,
        )
        pipe_step = Step(
            says="What the downpipe takes, a third full",
            formula="2.5 * 10^(-4) k_b^(-0.167) d^2.667 f^1.667",
            numbers=f"2.5 x 10^(-4) x 0.25^(-0.167) x {bore:g}^2.667 x 0.33^1.667"
            + ("" if square is None else f"; d of {gutter.downpipe_mm:g} x {square:g}: 2 a b / (a + b)"),
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
        return Shown(
            rests_on=inputs,
            working=(*water.steps, comes, outlet_step, pipe_step, least),
            cure="A larger outlet or one more downpipe.",
        )

    return compared(
        _PIPE, Place(at="foot"), demand=flow, capacity=min(outlet, pipe), case=f"outlet {worst}", shown=shown
    )
