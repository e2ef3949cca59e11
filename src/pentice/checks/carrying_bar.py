"""Bars that carry the roof themselves, without a rafter below, to EN 1999-1-1: bending both ways, shear, sag.

A person's weight and what presses their webs stand beside. Section values are the supplier's: what is not declared is
asked for. Sheets hold the bar's top sideways only where the supplier says so.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from pentice.checks.bare_roof import without_the_snow
from pentice.checks.carrying_bar_bent import EDGES, bent_bar, one_way
from pentice.checks.carrying_bar_web import WEB, web_check
from pentice.checks.ground import Ground, Rule, compared, open_check, snow_refusal
from pentice.checks.point_load import (
    HALF_SQUARE_MM,
    PointCase,
    a_person_on,
    cases_of,
    point_inputs,
    why_no_point,
)
from pentice.checks.rafter import RafterResult
from pentice.checks.rafter_loads import RafterCase, combinations_on, rafter_lines
from pentice.checks.rafter_model import RafterModel, rafter_models
from pentice.checks.rafter_shown import line_steps, moment_step, rafter_picture, reaction_steps, shear_step
from pentice.checks.values import Check, Place, RestsOn, Shown, Told
from pentice.errors import InputError, OutsideScope
from pentice.mechanics.beam import BeamAnswer
from pentice.standards.en1999 import (
    E_N_MM2,
    GAMMA_M1,
    aluminium,
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
POINT = Rule(
    id="bar-point",
    name="Bar, bending under a person's weight",
    member="bar",
    clause="EN 1991-1-1, 6.3.4; EN 1999-1-1, 6.2.5, 6.3.2",
    unit="kNm",
    edition="EN 1999-1-1:2007",
)
POINT_SHEAR = replace(
    POINT,
    id="bar-point-shear",
    name="Bar, shear under a person's weight",
    clause="EN 1991-1-1, 6.3.4; EN 1999-1-1, 6.2.6",
    unit="kN",
)
_OF_WEATHER = (BENDING, UPLIFT, SHEAR, SAG, WEB)
_OF_A_PERSON = (POINT, POINT_SHEAR)
RULES = (*_OF_WEATHER, *_OF_A_PERSON)
_CURE = "A deeper bar, or closer bars."
_NEVER_ON_A_SHEET = (
    "On one bar of the finished roof. Never on a sheet, and nobody on a bar while the roof is built."
)
_SHEAR_THAT_WEAKENS = 0.5
"""Share of the shear resistance above which bending is weakened: EN 1999-1-1, 6.2.8(2), from memory."""
_DUST_N_MM = 1.0
"""Less is the rounding of a bar that ends on its beam, no moment."""


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
    models = ground.once(rafter_models)
    _, standing = cases_of([], a_person_on(ground, models, "bar", lambda _: HALF_SQUARE_MM), len(models))
    return tuple(_of_bar(ground, model, points) for model, points in zip(models, standing, strict=True))


def _of_bar(ground: Ground, model: RafterModel, points: Sequence[PointCase]) -> RafterResult:
    """One bar; what a person asks of it is known without wind and snow."""
    bar, place = ground.parts.bar, Place(bar=model.rafter.number)
    if bar.i_mm4 is None:
        why = f"bars.{bar.id}.i_mm4 is not declared: ask the supplier for the section of the bar."
        return RafterResult(
            checks=tuple(_refused(RULES, place, why)), final_sag_mm=None, span_mm=model.span_mm
        )
    person = tuple(_person(ground, model, place, points))
    wind, snow = ground.loads.wind.refused, snow_refusal(ground.loads.snow, model.strip.x_mm)
    if wind:
        checks = tuple(_refused(_OF_WEATHER, place, wind))
        return RafterResult(checks=(*checks, *person), final_sag_mm=None, span_mm=model.span_mm)
    if not snow:
        whole = _result(ground, model, place, points)
        return replace(whole, checks=(*whole.checks, *person))
    bare = _result(ground.without_snow(), model, place, points)
    checks = tuple(without_the_snow(c, snow, lifts=c.id == UPLIFT.id) for c in bare.checks)
    return replace(bare, checks=(*checks, *person), final_sag_mm=None)


def _refused(rules: Sequence[Rule], place: Place, why: str) -> Iterator[Check]:
    for rule in rules:
        yield open_check(rule, place, "refused", Shown(says=why))


def _result(ground: Ground, model: RafterModel, place: Place, points: Sequence[PointCase]) -> RafterResult:
    [cases], _ = cases_of([combinations_on(ground, model, rafter_lines(ground, model))], [], 0)
    strength = [c for c in cases if c.combination.kind in ("strength", "accidental")]
    uplift = [c for c in cases if c.combination.kind == "uplift"]
    service = [c for c in cases if c.combination.kind == "characteristic"]
    shear = _shear(ground, model, place, SHEAR, [*strength, *uplift])
    checks = [_beside_shear(_bending(ground, model, place, BENDING, strength), shear), shear]
    if uplift:
        checks.append(_beside_shear(_bending(ground, model, place, UPLIFT, uplift), shear))
    checks.append(web_check(ground, model, place, strength, points, why_no_point(ground)))
    sag = max(service, key=lambda c: abs(c.answer.span_sag_mm))
    checks.append(_sag(ground, model, place, sag))
    return RafterResult(checks=tuple(checks), final_sag_mm=abs(sag.answer.span_sag_mm), span_mm=model.span_mm)


def _person(ground: Ground, model: RafterModel, place: Place, points: Sequence[PointCase]) -> Iterator[Check]:
    why = why_no_point(ground)
    if why:
        yield from _refused(_OF_A_PERSON, place, why)
        return
    shear = _shear(ground, model, place, POINT_SHEAR, points)
    yield _beside_shear(_bending(ground, model, place, POINT, points), shear)
    yield shear


def _inputs(ground: Ground, *keys: str, rule: Rule = BENDING) -> tuple[RestsOn, ...]:
    if rule in _OF_A_PERSON:
        return point_inputs(ground, *keys)
    return (*(ground.of_bar(key) for key in keys), ground.of_snow(), ground.of_wind())


def _load_steps(ground: Ground, model: RafterModel, case: RafterCase | PointCase) -> tuple[Step, ...]:
    return case.steps if isinstance(case, PointCase) else line_steps(ground, model, case)


def _bending(
    ground: Ground, model: RafterModel, place: Place, rule: Rule, cases: Sequence[RafterCase | PointCase]
) -> Check:
    """Both edges: one is pressed between the bearings, the other over the beam where the foot runs past it."""
    found = []
    over_seat = ground.parts.sheet.depth_mm if rule is POINT else 0.0
    for pressed in EDGES:
        bent = [one_way(case.answer, pressed) for case in cases]
        i = max(range(len(bent)), key=lambda k: _moment(bent[k]))
        if _moment(bent[i]) > _DUST_N_MM:
            carries = bent_bar(ground, model, pressed, upward=rule is UPLIFT, over_seat_mm=over_seat)
            found.append((cases[i], bent[i], pressed, carries))
    case, answer, pressed, carries = max(
        found, key=lambda f: math.inf if f[3].refused else _moment(f[1]) / f[3].value
    )
    amount = _moment(answer) / 1e6
    lead = (
        *_load_steps(ground, model, case),
        *reaction_steps(model, case.line, answer, case.point),
        moment_step(model, case.line, answer, case.point),
    )
    rests = _inputs(ground, *carries.keys, rule=rule)
    if carries.refused:
        shown = Shown(says=carries.refused, rests_on=rests, working=lead)
        return open_check(rule, place, "refused", shown, demand=amount, case=case.words)
    shown = Shown(
        says=_NEVER_ON_A_SHEET if rule is POINT else "",
        rests_on=rests,
        working=(*lead, *carries.working),
        picture=rafter_picture(model, case.line, case.point),
        cure=_CURE,
    )
    return compared(rule, place, demand=amount, capacity=carries.value / 1e6, case=case.words, shown=shown)


def _beside_shear(bending: Check, shear: Check) -> Check:
    """Bending that great shear would weaken is refused: EN 1999-1-1, 6.2.8, is not covered."""
    used = shear.utilisation or 0.0
    if bending.verdict != "passes" or used <= _SHEAR_THAT_WEAKENS:
        return bending
    says = (
        f"Shear uses {100.0 * used:.0f} % of this bar: above {100.0 * _SHEAR_THAT_WEAKENS:.0f} % it weakens it in "
        "bending (EN 1999-1-1, 6.2.8), which is not covered here. A bar with more web, or ask its supplier."
    )
    told = Told(lambda: replace(bending.told.shown, says=says, cure=""))
    return replace(bending, verdict="refused", capacity=None, told=told)


def _moment(answer: BeamAnswer) -> float:
    return max(answer.sagging_n_mm, -answer.hogging_n_mm, abs(answer.support_moment_n_mm))


def _shear(
    ground: Ground, model: RafterModel, place: Place, rule: Rule, cases: Sequence[RafterCase | PointCase]
) -> Check:
    bar = ground.parts.bar
    worst = max(cases, key=lambda c: c.answer.greatest_shear_n)
    force = worst.answer.greatest_shear_n
    lead = (
        *_load_steps(ground, model, worst),
        *reaction_steps(model, worst.line, worst.answer, worst.point),
        shear_step(model, worst.line, worst.answer, worst.point),
    )
    if bar.shear_area_mm2 is None or bar.alloy is None or bar.wall_mm is None:
        why = f"Give shear_area_mm2, alloy and wall_mm of bars.{bar.id}: ask the supplier."
        shown = Shown(says=why, working=lead)
        return open_check(rule, place, "refused", shown, demand=force / 1000.0, case=worst.words)
    try:
        strength = aluminium(bar.alloy.replace(" ", "-"), bar.wall_mm).f_o_n_mm2
    except (OutsideScope, InputError) as refusal:
        return open_check(
            rule, place, "refused", Shown(says=str(refusal), working=lead), demand=force / 1000.0
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
    rests = _inputs(ground, "shear_area_mm2", "alloy", rule=rule)
    shown = Shown(rests_on=rests, working=(*lead, step), cure=_CURE)
    return compared(
        rule, place, demand=force / 1000.0, capacity=holds / 1000.0, case=worst.words, shown=shown
    )


def _sag(ground: Ground, model: RafterModel, place: Place, case: RafterCase) -> Check:
    limit, value = glazing_bar_sag_limit_mm(model.span_mm), abs(case.answer.span_sag_mm)

    def shown() -> Shown:
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
        return Shown(
            says="A soft limit: ask the supplier of sheet and bar for theirs.",
            rests_on=_inputs(ground, "i_mm4"),
            working=steps,
            cure=_CURE,
        )

    return compared(SAG, place, demand=value, capacity=limit, case=case.words, shown=shown)
