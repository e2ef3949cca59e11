"""Rafters to EN 1995-1-1: bending with lateral buckling, shear, bearing, sag, uplift, and a person's weight."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from pentice.checks.bare_roof import without_the_snow
from pentice.checks.ground import Ground, Rule, compared, open_check, snow_refusal
from pentice.checks.notch import RULES as NOTCH_RULES
from pentice.checks.notch import head_notch_checks, head_rules, notch_checks
from pentice.checks.point_load import PointCase, a_person_on, cases_of, why_no_point
from pentice.checks.rafter_loads import RafterCase, RafterLines, combinations_on, rafter_lines
from pentice.checks.rafter_model import RafterModel, rafter_models
from pentice.checks.rafter_sag import FINAL, INSTANT, sag_checks
from pentice.checks.rafter_shown import (
    EDITION,
    inputs_of,
    line_steps,
    moment_step,
    rafter_picture,
    reaction_steps,
    shear_step,
)
from pentice.checks.rafter_winds import zones_on_rafters
from pentice.checks.rests import of_beam, of_frame
from pentice.checks.timber_shown import (
    Sideways,
    Strength,
    bending_steps,
    crushing_step,
    held_for,
    shear_steps,
    sideways_steps,
)
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.frame.stage import birdsmouth_seat_mm, head_seat_mm
from pentice.loads.lines import snow_line
from pentice.mechanics.beam import BeamAnswer
from pentice.standards.en1995 import (
    bearing_length_mm,
    bearing_stress_n_mm2,
    bending_slenderness,
    bending_stress_n_mm2,
    critical_stress_n_mm2,
    gravity_buckling_length_mm,
    k_c_90,
    k_crit,
    shear_stress_n_mm2,
    size_factor,
    uplift_buckling_length_mm,
)
from pentice.working import Step

_BENDING = Rule(
    id="rafter-bending",
    name="Rafter, bending",
    member="rafter",
    clause="EN 1995-1-1, 6.1.6, 6.3.3",
    unit="N/mm2",
    edition=EDITION,
)
_UPLIFT = Rule(
    id="rafter-uplift",
    name="Rafter, bending in uplift",
    member="rafter",
    clause="EN 1995-1-1, 6.1.6, 6.3.3",
    unit="N/mm2",
    edition=EDITION,
)
_SHEAR = Rule(
    id="rafter-shear",
    name="Rafter, shear",
    member="rafter",
    clause="EN 1995-1-1, 6.1.7",
    unit="N/mm2",
    edition=EDITION,
)
_BEARING = Rule(
    id="rafter-bearing",
    name="Rafter, bearing on the beam",
    member="rafter",
    clause="EN 1995-1-1, 6.1.5",
    unit="N/mm2",
    edition=EDITION,
)
_BEARING_HEAD = replace(_BEARING, id="rafter-bearing-head", name="Rafter, bearing on the head beam")
_BEARING_PLATE = replace(_BEARING, id="rafter-bearing-plate", name="Rafter, bearing on the wall plate")
_POINT = Rule(
    id="rafter-point",
    name="Rafter, a person's weight",
    member="rafter",
    clause="EN 1991-1-1, 6.3.4; EN 1995-1-1, 6.1.6, 6.1.7",
    unit="of 1",
    edition=EDITION,
)
_PRESSED = {
    _BEARING.id: "Pressure on the beam",
    _BEARING_HEAD.id: "Pressure on the head beam",
    _BEARING_PLATE.id: "Pressure on the wall plate",
}
_ALL_DOWN = (_BENDING, _SHEAR, INSTANT, FINAL)


@dataclass(frozen=True, slots=True, kw_only=True)
class RafterResult:
    """The checks of one rafter, and its sag in the end for the fall that is left."""

    checks: tuple[Check, ...]
    final_sag_mm: float | None
    span_mm: float


def rafter_results(ground: Ground) -> tuple[RafterResult, ...]:
    """Every rafter's checks, from the left.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RafterResult
        One for each rafter.

    Source
    ------
    EN 1995-1-1:2004+A1:2008 with EN 1990 combinations.
    """
    wind = ground.loads.wind.refused
    different: dict[tuple[object, ...], tuple[RafterModel, RafterLines | None, str]] = {}
    keys = []
    for model, zones in zip(ground.once(rafter_models), zones_on_rafters(ground), strict=True):
        why = snow_refusal(ground.loads.snow, model.strip.x_mm)
        here = ground.without_snow() if why else ground
        keys.append((why, zones, *_key_of(here, model)))
        if keys[-1] not in different:
            different[keys[-1]] = model, None if wind else rafter_lines(here, model), why
    loaded = [combinations_on(ground, m, lines) for m, lines, _ in different.values() if lines is not None]
    models = [model for model, _, _ in different.values()]
    people = a_person_on(ground, models, "rafter", lambda m: min(m.rafter.depth_mm, m.span_mm / 4.0))
    found, standing = cases_of(loaded, people, len(models))
    cases, points = iter(found), _point_checks(ground, models, standing)
    results = {
        key: _refused(ground, model, why or wind, point)
        if lines is None
        else _result(ground.without_snow() if why else ground, model, why, next(cases), people, point)
        for (key, (model, lines, why)), people, point in zip(different.items(), standing, points, strict=True)
    }
    return tuple(
        _at(results[key], rafter.number)
        for key, rafter in zip(keys, ground.setting_out.plane.rafters, strict=True)
    )


def _key_of(ground: Ground, model: RafterModel) -> tuple[object, ...]:
    """What a rafter's checks come from but for its place and its wind: rafters alike are worked out once.

    Sizes to a millionth, and the snow that changes along the wall to a billionth.
    """
    strip, snow = model.strip, ground.loads.snow.cases
    drifted = tuple(round(snow_line(case, strip)[0][1], 9) for case in snow if case.along == "x")
    rafter, free = model.rafter, model.longest_free_mm
    lengths = (strip.width_mm, model.start_mm, model.span_mm, model.overhang_mm, free)
    sizes = (rafter.width_mm, rafter.depth_mm, rafter.has_bar, bool(rafter.end))
    return (*sizes, *(round(length, 6) for length in lengths), drifted)


def _at(result: RafterResult, number: int) -> RafterResult:
    """The same checks at another rafter."""
    if result.checks[0].place.rafter == number:
        return result
    there = {check.place for check in result.checks}
    places = {place: replace(place, rafter=number) for place in there}
    return replace(result, checks=tuple(replace(check, place=places[check.place]) for check in result.checks))


def _refused(ground: Ground, model: RafterModel, why: str, point: Check) -> RafterResult:
    place = Place(rafter=model.rafter.number)
    rules = (*_ALL_DOWN, *_on_named_timber(ground), _UPLIFT)
    refused = [open_check(rule, place, "refused", Shown(says=why)) for rule in rules]
    return RafterResult(checks=(*refused, point), final_sag_mm=None, span_mm=model.span_mm)


def _result(
    ground: Ground,
    model: RafterModel,
    why: str,
    cases: tuple[RafterCase, ...],
    people: Sequence[PointCase],
    point: Check,
) -> RafterResult:
    place = Place(rafter=model.rafter.number)
    uplift = [c for c in cases if c.combination.kind == "uplift"]
    strength = [c for c in cases if c.combination.kind in ("strength", "accidental")]
    final, sags = sag_checks(ground, model, cases, place)
    checks = [
        _bending(ground, model, strength, place, _BENDING, gravity_buckling_length_mm),
        _shear(ground, model, [*strength, *uplift], place),
        *_bearings(ground, model, (*strength, *people), place),
        *notch_checks(ground, model, [*strength, *uplift, *people], place),
        *head_notch_checks(ground, model, [*strength, *uplift, *people], place),
        *sags,
    ]
    if uplift:
        checks.append(_bending(ground, model, uplift, place, _UPLIFT, uplift_buckling_length_mm))
    if why:  # of the snow: what lifts is known all the same
        checks = [without_the_snow(check, why, lifts=check.id == _UPLIFT.id) for check in checks]
    return RafterResult(checks=(*checks, point), final_sag_mm=None if why else final, span_mm=model.span_mm)


def _on_named_timber(ground: Ground) -> Iterator[Rule]:
    """Rules of the bearings and birdsmouths that the job gives."""
    frame = ground.job.frame
    if frame.beam_mm is not None:
        yield _BEARING
    if ground.frame.head_beam is not None:
        yield _BEARING_HEAD
    elif frame.head_notch_mm and frame.wall_plate_mm is not None:
        yield _BEARING_PLATE
    if frame.rafter_notch_mm:
        yield from NOTCH_RULES
    if frame.head_notch_mm:
        yield from head_rules(ground)


# Strength


def _strength_of(value_n_mm2: float, case: RafterCase | PointCase) -> Strength:
    return held_for(value_n_mm2, case.holds)


def _moment(answer: BeamAnswer) -> float:
    """The greatest moment either way [N mm]."""
    return max(answer.sagging_n_mm, -answer.hogging_n_mm, abs(answer.support_moment_n_mm))


def _bending(
    ground: Ground,
    model: RafterModel,
    cases: Iterable[RafterCase],
    place: Place,
    rule: Rule,
    effective_length: Callable[[float, float], float],
) -> Check:
    b, h = model.rafter.width_mm, model.rafter.depth_mm
    free = max(model.longest_free_mm, h)
    l_ef = effective_length(free, h)
    critical = critical_stress_n_mm2(b, h, l_ef, model.timber.e_0_05_n_mm2)
    slender = bending_slenderness(model.timber.f_m_k_n_mm2, critical)
    factor, k_h = k_crit(slender), size_factor(h)

    case = max(cases, key=lambda c: _moment(c.answer) / c.holds.value)
    moment, strength = _moment(case.answer), _strength_of(model.timber.f_m_k_n_mm2 * k_h, case)
    stress = bending_stress_n_mm2(moment, b, h)

    def shown() -> Shown:
        sideways = Sideways(
            free_mm=free,
            upward=rule is _UPLIFT,
            length_mm=l_ef,
            slenderness=slender,
            k_crit=factor,
            held=f"held every {free:.0f}",
            why="sheets slide and hold nothing",
        )
        working = (
            *line_steps(ground, model, case),
            *reaction_steps(model, case.line, case.answer, case.point)[:2],
            moment_step(model, case.line, case.answer, case.point),
            *bending_steps(moment, (b, h), stress, k_h, model.timber.f_m_k_n_mm2, strength),
            *sideways_steps(sideways, (b, h), model.timber, strength.value),
        )
        return Shown(
            rests_on=ground.once(inputs_of),
            working=working,
            picture=rafter_picture(model, case.line, case.point),
            cure="A deeper or wider rafter, closer rafters, or a noggin at mid-span.",
        )

    return compared(
        rule, place, demand=stress, capacity=factor * strength.value, case=case.words, shown=shown
    )


def _shear(ground: Ground, model: RafterModel, cases: Iterable[RafterCase], place: Place) -> Check:
    b, h = model.rafter.width_mm, model.rafter.depth_mm
    case = max(cases, key=lambda c: c.answer.greatest_shear_n / c.holds.value)
    stress = shear_stress_n_mm2(case.answer.greatest_shear_n, b, h)
    strength = _strength_of(model.timber.f_v_k_n_mm2, case)

    def shown() -> Shown:
        working = (
            *line_steps(ground, model, case),
            *reaction_steps(model, case.line, case.answer, case.point)[:2],
            shear_step(model, case.line, case.answer, case.point),
            *shear_steps(case.answer.greatest_shear_n, (b, h), stress, model.timber.f_v_k_n_mm2, strength),
        )
        return Shown(
            rests_on=ground.once(inputs_of),
            working=working,
            picture=rafter_picture(model, case.line, case.point),
            cure="A deeper rafter or closer rafters.",
        )

    return compared(_SHEAR, place, demand=stress, capacity=strength.value, case=case.words, shown=shown)


def _bearings(
    ground: Ground, model: RafterModel, cases: Sequence[RafterCase | PointCase], place: Place
) -> Iterator[Check]:
    """Crushing across the grain on each beam that the job names."""
    frame = ground.job.frame
    if frame.beam_mm is not None:
        seat = birdsmouth_seat_mm(ground.job, ground.shape)
        yield _bearing(ground, model, cases, place, _BEARING, seat)
    seat = head_seat_mm(ground.job, ground.shape)
    if ground.frame.head_beam is not None:
        yield _bearing(ground, model, cases, place, _BEARING_HEAD, seat)
    elif frame.head_notch_mm and frame.wall_plate_mm is not None:
        yield _bearing(ground, model, cases, place, _BEARING_PLATE, seat)


def _bearing(
    ground: Ground,
    model: RafterModel,
    cases: Sequence[RafterCase | PointCase],
    place: Place,
    rule: Rule,
    contact: float,
) -> Check:
    b, h = model.rafter.width_mm, model.rafter.depth_mm
    foot = rule is _BEARING
    free = max(model.span_mm - contact, 0.0)
    length = bearing_length_mm(contact, free_before_mm=free, free_after_mm=0.0, to_next_mm=free)
    factor = k_c_90("solid", to_next_mm=free, depth_mm=h, contact_mm=contact)

    def pressed(case: RafterCase | PointCase) -> float:
        return case.answer.foot_reaction_n if foot else max(case.answer.head_reaction_n, 0.0)

    case = max(cases, key=lambda c: pressed(c) / c.holds.value)
    stress = bearing_stress_n_mm2(pressed(case), b, length)
    strength = _strength_of(model.timber.f_c_90_k_n_mm2, case)

    def shown() -> Shown:
        working = (
            *(case.steps if isinstance(case, PointCase) else line_steps(ground, model, case)),
            *reaction_steps(model, case.line, case.answer, case.point),
            Step(
                says=f"{_PRESSED[rule.id]}{_wedged(ground) if rule is _BEARING_HEAD else ''}",
                formula="sigma = R_B / (b l_ef)" if foot else "sigma = R_A / (b l_ef)",
                numbers=f"{pressed(case):.1f} / ({b:g} x {length:.1f}); seat {contact:.4g} on the beam, and 30 at most",
                result=stress,
                unit="N/mm2",
                clause="6.1.5",
            ),
            crushing_step(factor, model.timber.f_c_90_k_n_mm2, strength),
        )
        return Shown(
            rests_on=(*ground.once(inputs_of), *_lies_on(ground, rule)),
            working=working,
            picture=rafter_picture(model, case.line, case.point),
            cure="A wider beam or a wider rafter.",
        )

    return compared(
        rule, place, demand=stress, capacity=factor * strength.value, case=case.words, shown=shown
    )


def _lies_on(ground: Ground, rule: Rule) -> tuple[RestsOn, ...]:
    """The timber that a rafter is pressed on."""
    if rule is _BEARING_PLATE:
        return of_frame(ground, "wall_plate_mm")
    return of_beam(ground, "eaves" if rule is _BEARING else "head")


def _wedged(ground: Ground) -> str:
    return "" if ground.job.frame.head_notch_mm else ", wedged over its width"


# A person's weight


def _point_checks(
    ground: Ground, models: Sequence[RafterModel], points: Sequence[tuple[PointCase, ...]]
) -> list[Check]:
    """The check of each of some rafters."""
    why = why_no_point(ground)
    if why:
        return [open_check(_POINT, Place(rafter=m.rafter.number), "refused", Shown(says=why)) for m in models]
    return [_point(ground, model, cases) for model, cases in zip(models, points, strict=True)]


def _point(ground: Ground, model: RafterModel, cases: Sequence[PointCase]) -> Check:
    """The worst of the places."""
    b, h = model.rafter.width_mm, model.rafter.depth_mm
    l_ef = gravity_buckling_length_mm(max(model.longest_free_mm, h), h)
    slender = bending_slenderness(
        model.timber.f_m_k_n_mm2, critical_stress_n_mm2(b, h, l_ef, model.timber.e_0_05_n_mm2)
    )
    strength_m = _strength_of(model.timber.f_m_k_n_mm2 * size_factor(h), cases[0]).value * k_crit(slender)
    strength_v = _strength_of(model.timber.f_v_k_n_mm2, cases[0]).value
    found = []
    for one in cases:
        stress = bending_stress_n_mm2(_moment(one.answer), b, h)
        shear = shear_stress_n_mm2(one.answer.greatest_shear_n, b, h)
        found.append((max(stress / strength_m, shear / strength_v), stress, shear, one))
    used, sigma, tau, worst = max(found, key=lambda f: f[0])

    def shown() -> Shown:
        line, answer, point = worst.line, worst.answer, worst.point
        working = (
            *worst.steps,
            *reaction_steps(model, line, answer, point)[:2],
            moment_step(model, line, answer, point),
            shear_step(model, line, answer, point),
            Step(
                says="Bending stress",
                formula="sigma = 6 M / (b h^2)",
                numbers=f"6 x {_moment(answer) / 1e6:.4f} x 10^6 / ({b:g} x {h:g}^2)",
                result=sigma,
                unit="N/mm2",
                clause="6.1.6",
            ),
            Step(
                says="Shear stress",
                formula="tau = 1.5 V / (k_cr b h)",
                numbers=f"1.5 x {answer.greatest_shear_n:.1f} / (0.67 x {b:g} x {h:g})",
                result=tau,
                unit="N/mm2",
                clause="6.1.7",
            ),
            Step(
                says="Used at the worst place",
                formula="max(sigma / (k_crit f_m,d), tau / f_v,d)",
                numbers=f"max({sigma:.4f} / {strength_m:.4f}, {tau:.4f} / {strength_v:.4f}); {worst.words}",
                result=used,
                unit="",
                clause="6.1.6, 6.1.7, 6.3.3",
            ),
        )
        return Shown(
            says="On boards across rafters, before the sheets are on. Never on a sheet.",
            rests_on=ground.once(inputs_of),
            working=working,
            picture=rafter_picture(model, line, point),
            cure="A deeper rafter.",
        )

    place = Place(rafter=model.rafter.number)
    return compared(_POINT, place, demand=used, capacity=1.0, case=worst.words, shown=shown)
