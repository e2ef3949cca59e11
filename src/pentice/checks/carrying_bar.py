"""Bars that carry the roof themselves, without a rafter below, to EN 1999-1-1: bending both ways, shear, sag.

Section values are the supplier's: what is not declared is asked for. Sheets hold the bar's top sideways only where the
supplier says so.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pentice.checks.bare_roof import without_the_snow
from pentice.checks.ground import Ground, Rule, Shown, compared, open_check, snow_refusal
from pentice.checks.rafter import RafterResult
from pentice.checks.rafter_loads import RafterCase, RafterModel, rafter_cases, rafter_lines, rafter_model
from pentice.checks.rafter_shown import line_steps, moment_step, rafter_picture, reaction_steps, shear_step
from pentice.checks.values import Check, Place, RestsOn
from pentice.errors import InputError, OutsideScope
from pentice.mechanics.lateral import SlenderBar, critical_moment_n_mm
from pentice.standards.en1999 import (
    E_N_MM2,
    G_N_MM2,
    GAMMA_M1,
    aluminium,
    aluminium_bar,
    aluminium_shear_n,
    glazing_bar_sag_limit_mm,
)
from pentice.working import Step

EDITION = "EN 1999-1-1:2007"
BENDING = Rule(
    id="bar-bending",
    name="Bar, bending",
    member="bar",
    clause="EN 1999-1-1, 6.2.5, 6.3.2",
    unit="kNm",
    edition=EDITION,
)
UPLIFT = replace(BENDING, id="bar-uplift", name="Bar, bending in uplift")
SHEAR = Rule(
    id="bar-shear", name="Bar, shear", member="bar", clause="EN 1999-1-1, 6.2.6", unit="kN", edition=EDITION
)
SAG = Rule(
    id="bar-sag",
    name="Bar, sag",
    member="bar",
    clause="IS 10439:1983, a withdrawn rule for patent glazing: a soft limit",
    unit="mm",
)
RULES = (BENDING, UPLIFT, SHEAR, SAG)
_CURE = "A deeper bar, or closer bars."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Carries:
    """A resistance with its lines; or why there is none."""

    value: float = 0.0
    working: tuple[Step, ...] = ()
    refused: str = ""


def bar_results(ground: Ground) -> tuple[RafterResult, ...]:
    """Every bar's checks, from the left; sag in the end for the fall that is left.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RafterResult
        One for each bar. Without the second moment of its section every check is refused.

    Source
    ------
    EN 1999-1-1:2007, 6.2 and 6.3.2; aluminium does not creep.
    """
    found = []
    bar = ground.parts.bar
    for line in ground.setting_out.plane.rafters:
        place, model = Place(bar=line.number), rafter_model(ground, line)
        why = ground.loads.wind.refused
        if bar.i_mm4 is None:
            why = f"bars.{bar.id}.i_mm4 is not declared: ask the supplier for the section of the bar."
        snow = snow_refusal(ground.loads.snow, model.strip.x_mm)
        if why:
            refused = tuple(open_check(rule, place, "refused", Shown(says=why)) for rule in RULES)
            found.append(RafterResult(checks=refused, final_sag_mm=None, span_mm=model.span_mm))
        elif snow:
            bare = _result(ground.without_snow(), model, place)
            checks = tuple(without_the_snow(c, snow, lifts=c.id == UPLIFT.id) for c in bare.checks)
            found.append(replace(bare, checks=checks, final_sag_mm=None))
        else:
            found.append(_result(ground, model, place))
    return tuple(found)


def _result(ground: Ground, model: RafterModel, place: Place) -> RafterResult:
    cases = tuple(rafter_cases(ground, model, rafter_lines(ground, model)))
    strength = [c for c in cases if c.combination.kind in ("strength", "accidental")]
    uplift = [c for c in cases if c.combination.kind == "uplift"]
    service = [c for c in cases if c.combination.kind == "characteristic"]
    checks = [
        _bending(ground, model, place, BENDING, strength),
        _shear(ground, model, place, [*strength, *uplift]),
    ]
    if uplift:
        checks.append(_bending(ground, model, place, UPLIFT, uplift))
    sag = max(service, key=lambda c: abs(c.answer.span_sag_mm))
    checks.append(_sag(ground, model, place, sag))
    return RafterResult(checks=tuple(checks), final_sag_mm=abs(sag.answer.span_sag_mm), span_mm=model.span_mm)


def _inputs(ground: Ground, *keys: str) -> tuple[RestsOn, ...]:
    return (*(ground.of_bar(key) for key in keys), ground.of_snow(), ground.of_wind())


def _moment(case: RafterCase) -> float:
    answer = case.answer
    return max(answer.sagging_n_mm, -answer.hogging_n_mm, abs(answer.support_moment_n_mm))


def _bending(
    ground: Ground, model: RafterModel, place: Place, rule: Rule, cases: Sequence[RafterCase]
) -> Check:
    upward = rule is UPLIFT
    worst = max(cases, key=_moment)
    amount = _moment(worst)
    lead = (
        *line_steps(ground, model, worst),
        *reaction_steps(model, worst.line, worst.answer, worst.point),
        moment_step(model, worst.line, worst.answer, worst.point),
    )
    carries = _bent(ground, model, upward=upward)
    keys = (
        ("bending_up_knm" if upward else "bending_down_knm",)
        if _declared(ground, upward)
        else ("i_mm4", "w_mm3")
    )
    rests = _inputs(ground, *keys)
    if carries.refused:
        shown = Shown(says=carries.refused, rests_on=rests, working=lead)
        return open_check(rule, place, "refused", shown, demand=amount / 1e6, case=worst.words)
    shown = Shown(
        rests_on=rests,
        working=(*lead, *carries.working),
        picture=rafter_picture(model, worst.line, worst.point),
        cure=_CURE,
    )
    return compared(
        rule, place, demand=amount / 1e6, capacity=carries.value / 1e6, case=worst.words, shown=shown
    )


def _declared(ground: Ground, upward: bool) -> float | None:
    bar = ground.parts.bar
    return bar.bending_up_knm if upward else bar.bending_down_knm


def _bent(ground: Ground, model: RafterModel, *, upward: bool) -> _Carries:
    """Declared by the supplier, or of the section with what holds it sideways [N mm]."""
    bar, declared = ground.parts.bar, _declared(ground, upward)
    if declared is not None:
        step = Step(
            says="Bending resistance, declared",
            formula="M_Rd",
            numbers=f"{declared:g}",
            result=declared,
            unit="kNm",
            clause="the supplier's declared design value",
        )
        return _Carries(value=declared * 1e6, working=(step,))
    key = f"bars.{bar.id}"
    if bar.w_mm3 is None or bar.alloy is None or bar.wall_mm is None or bar.section_class is None:
        lacks = [k for k in ("w_mm3", "alloy", "wall_mm", "section_class") if getattr(bar, k) is None]
        other = "bending_up_knm" if upward else "bending_down_knm"
        return _Carries(refused=f"Give {', '.join(lacks)} of {key}, or its {other}: ask the supplier.")
    try:
        strength = aluminium(bar.alloy.replace(" ", "-"), bar.wall_mm).f_o_n_mm2
        critical, lines = _sideways(ground, model, upward=upward)
        found = aluminium_bar(
            elastic_modulus_mm3=bar.w_mm3,
            f_o_n_mm2=strength,
            critical_n_mm=critical,
            section_class=bar.section_class,
        )
    except (OutsideScope, InputError) as refusal:
        return _Carries(refused=str(refusal))
    steps = (
        *lines,
        Step(
            says="Bending resistance of the section",
            formula="M_o,Rd = W f_o / gamma_M1",
            numbers=f"{bar.w_mm3:g} x {strength:g} / {GAMMA_M1:g} / 10^6",
            result=found.section_n_mm / 1e6,
            unit="kNm",
            clause="EN 1999-1-1, 6.2.5.1, shape factor 1",
        ),
        Step(
            says="Bending resistance",
            formula="M_b,Rd = chi_LT M_o,Rd",
            numbers=f"{found.chi:.5f} x {found.section_n_mm / 1e6:.6f}"
            + (f"; lambda_LT {found.slenderness:.4f}" if lines else "; held sideways by the sheets"),
            result=found.resistance_n_mm / 1e6,
            unit="kNm",
            clause="EN 1999-1-1, 6.3.2",
        ),
    )
    return _Carries(value=found.resistance_n_mm, working=steps)


def _sideways(ground: Ground, model: RafterModel, *, upward: bool) -> tuple[float, tuple[Step, ...]]:
    """Critical moment; without end where sheets hold the pressed edge."""
    bar = ground.parts.bar
    if bar.held_by_sheets and not upward:
        return math.inf, ()
    need = ("i_z_mm4", "i_t_mm4", "z_j_mm")
    lacks = [key for key in need if getattr(bar, key) is None]
    if lacks:
        raise OutsideScope(
            f"Nothing is said to hold bars.{bar.id} sideways: give {', '.join(lacks)}, or its declared resistance."
        )
    slender = SlenderBar(
        length_mm=model.span_mm,
        e_n_mm2=E_N_MM2,
        g_n_mm2=G_N_MM2,
        i_z_mm4=bar.i_z_mm4 or 0.0,
        i_t_mm4=bar.i_t_mm4 or 0.0,
        i_w_mm6=bar.i_w_mm6 or 0.0,
        load_above_shear_centre_mm=0.0 if upward else min(bar.below_mm or 0.0, model.span_mm / 10.0),
        z_j_mm=0.0 if not bar.z_j_mm else -bar.z_j_mm if upward else bar.z_j_mm,
    )
    critical = min(critical_moment_n_mm(slender, "even moment"), critical_moment_n_mm(slender, "even load"))
    step = Step(
        says="Critical moment sideways",
        formula="M_cr, free between its bearings",
        numbers=f"integrated by energy; free {model.span_mm:.0f} mm, I_z {bar.i_z_mm4:g}, I_t {bar.i_t_mm4:g} mm4, "
        f"I_w {bar.i_w_mm6 or 0.0:g} mm6, z_j {slender.z_j_mm:g} mm",
        result=critical / 1e6,
        unit="kNm",
        clause="elastic stability",
    )
    return critical, (step,)


def _shear(ground: Ground, model: RafterModel, place: Place, cases: Sequence[RafterCase]) -> Check:
    bar = ground.parts.bar
    worst = max(cases, key=lambda c: c.answer.greatest_shear_n)
    force = worst.answer.greatest_shear_n
    lead = (
        *line_steps(ground, model, worst),
        *reaction_steps(model, worst.line, worst.answer, worst.point),
        shear_step(model, worst.line, worst.answer, worst.point),
    )
    if bar.shear_area_mm2 is None or bar.alloy is None or bar.wall_mm is None:
        why = f"Give shear_area_mm2, alloy and wall_mm of bars.{bar.id}: ask the supplier."
        shown = Shown(says=why, working=lead)
        return open_check(SHEAR, place, "refused", shown, demand=force / 1000.0, case=worst.words)
    try:
        strength = aluminium(bar.alloy.replace(" ", "-"), bar.wall_mm).f_o_n_mm2
    except (OutsideScope, InputError) as refusal:
        return open_check(
            SHEAR, place, "refused", Shown(says=str(refusal), working=lead), demand=force / 1000.0
        )
    holds = aluminium_shear_n(bar.shear_area_mm2, strength)
    step = Step(
        says="Shear resistance",
        formula="V_Rd = A_v f_o / (sqrt(3) gamma_M1)",
        numbers=f"{bar.shear_area_mm2:g} x {strength:g} / (sqrt(3) x {GAMMA_M1:g}) / 1000",
        result=holds / 1000.0,
        unit="kN",
        clause="EN 1999-1-1, 6.2.6",
    )
    shown = Shown(rests_on=_inputs(ground, "shear_area_mm2", "alloy"), working=(*lead, step), cure=_CURE)
    return compared(
        SHEAR, place, demand=force / 1000.0, capacity=holds / 1000.0, case=worst.words, shown=shown
    )


def _sag(ground: Ground, model: RafterModel, place: Place, case: RafterCase) -> Check:
    limit, value = glazing_bar_sag_limit_mm(model.span_mm), abs(case.answer.span_sag_mm)
    steps = (
        *line_steps(ground, model, case),
        Step(
            says="Sag at once",
            formula="w_inst between the bearings",
            numbers=f"integrated along the bar; E {E_N_MM2:g} N/mm2, I {ground.parts.bar.i_mm4:g} mm4",
            result=value,
            unit="mm",
            clause="statics",
        ),
        Step(
            says="Limit",
            formula="min(span / 175, 20)",
            numbers=f"min({model.span_mm:.1f} / 175, 20)",
            result=limit,
            unit="mm",
            clause="IS 10439:1983, withdrawn, for glass; the supplier may ask for less",
        ),
    )
    shown = Shown(
        says="A soft limit: ask the supplier of sheet and bar for theirs.",
        rests_on=_inputs(ground, "i_mm4"),
        working=steps,
        cure=_CURE,
    )
    return compared(SAG, place, demand=value, capacity=limit, case=case.words, shown=shown)
