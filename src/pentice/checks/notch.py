"""A rafter's birdsmouths at head and foot to EN 1995-1-1, 6.5: shear and bending on the depth that a cut leaves."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.point_load import PointCase
from pentice.checks.rafter_loads import RafterCase
from pentice.checks.rafter_model import RafterModel
from pentice.checks.rafter_shown import (
    EDITION,
    beyond_steps,
    inputs_of,
    line_steps,
    rafter_picture,
    reaction_steps,
)
from pentice.checks.timber_shown import Strength, bending_steps, held_for
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.frame.stage import birdsmouth_seat_mm, head_seat_mm, head_support_mm
from pentice.standards.en1995 import bending_stress_n_mm2, size_factor
from pentice.standards.en1995_notch import Notch, NotchShear, notched_shear
from pentice.working import Step

SHEAR = Rule(
    id="rafter-notch",
    name="Rafter, shear at the birdsmouth",
    member="rafter",
    clause="EN 1995-1-1, 6.5.2",
    unit="N/mm2",
    edition=EDITION,
)
BENDING = Rule(
    id="rafter-notch-bending",
    name="Rafter, bending over the birdsmouth",
    member="rafter",
    clause="EN 1995-1-1, 6.1.6, 6.5.1",
    unit="N/mm2",
    edition=EDITION,
)
RULES = (SHEAR, BENDING)
HEAD = replace(SHEAR, id="rafter-head-notch", name="Rafter, shear at the birdsmouth on the plate")
HEAD_BENDING = replace(
    BENDING, id="rafter-head-notch-bending", name="Rafter, bending beside the birdsmouth on the plate"
)
HEAD_RULES = (HEAD, HEAD_BENDING)
BEAM_HEAD = replace(HEAD, name="Rafter, shear at the birdsmouth on the head beam")
BEAM_HEAD_BENDING = replace(HEAD_BENDING, name="Rafter, bending beside the birdsmouth on the head beam")
BEAM_HEAD_RULES = (BEAM_HEAD, BEAM_HEAD_BENDING)
TENSION_SHARE = 0.1
"""Share of the strength up to which tension at the cut counts as none: judgement, no source."""
_CURE = "A shallower birdsmouth, or a deeper rafter."
_IN_UPLIFT = (
    "In uplift the tie must hold the rafter above the cut: over its top, or through its side above it."
)


OnIt = RafterCase | PointCase
"""Weather, or a person's weight. A load beside a cut support counts in full: EN 1995-1-1, 6.1.7(3)."""


def notch_checks(ground: Ground, model: RafterModel, cases: Sequence[OnIt], place: Place) -> Iterator[Check]:
    """Shear and bending of one rafter over the beam, where the job gives the depth of its birdsmouth.

    Parameters
    ----------
    ground, model, place
        The inputs of every check, and the rafter.
    cases
        Strength, accidental and uplift combinations, and a person's weight at each place.

    Yields
    ------
    Check
        None without a birdsmouth; refused where it is deeper than the rule reaches, or where uplift pulls it open.

    Source
    ------
    EN 1995-1-1:2004+A1:2008, 6.5.1 and 6.5.2. The cut counts as square and the force as in the middle of the seat, both
    on the safe side.
    """
    cut = ground.job.frame.rafter_notch_mm
    if not cut:
        return
    if ground.job.frame.beam_mm is None:
        for rule in RULES:
            yield open_check(rule, place, "refused", Shown(says="The beam is not named: give frame.beam_mm."))
        return
    notch = Notch(
        left_mm=model.rafter.depth_mm - cut, to_force_mm=birdsmouth_seat_mm(ground.job, ground.shape) / 2.0
    )
    yield from _made_or_refused(
        RULES,
        place,
        _inputs(ground),
        lambda: (
            _shear(ground, model, notch, cases, place),
            _bending(ground, model, notch.left_mm, cases, place),
        ),
    )


def head_notch_checks(
    ground: Ground, model: RafterModel, cases: Sequence[OnIt], place: Place
) -> Iterator[Check]:
    """Shear and bending of one rafter on wall plate or head beam, where it has a birdsmouth there.

    Parameters
    ----------
    ground, model, place
        The inputs of every check, and the rafter.
    cases
        Strength, accidental and uplift combinations, and a person's weight at each place.

    Yields
    ------
    Check
        None without such a birdsmouth; refused where it is deeper than the rule reaches.

    Source
    ------
    EN 1995-1-1:2004+A1:2008, 6.5.1 and 6.5.2. The corner of the cut stands over the inner face of plate or beam, the
    force in the middle of the seat; all of the force passes the corner: on the safe side. Pressed down, the cut lies on
    the side of the support; lifted, on the other, and the bending closes it.
    """
    cut = ground.job.frame.head_notch_mm
    if not cut:
        return
    rules = head_rules(ground)
    if head_support_mm(ground.job) is None:
        lacks = ("wall plate", "wall_plate_mm") if ground.job.roof.attached else ("head beam", "head_beam_mm")
        for rule in rules:
            why = f"The {lacks[0]} is not named: give frame.{lacks[1]}."
            yield open_check(rule, place, "refused", Shown(says=why))
        return
    notch = Notch(
        left_mm=model.rafter.depth_mm - cut, to_force_mm=head_seat_mm(ground.job, ground.shape) / 2.0
    )
    yield from _made_or_refused(
        rules,
        place,
        _head_inputs(ground),
        lambda: (
            _head_shear(ground, model, notch, cases, place),
            _head_bending(ground, model, notch, cases, place),
        ),
    )


def head_rules(ground: Ground) -> tuple[Rule, Rule]:
    """The two rules of a birdsmouth at the head, named for what it lies on.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of Rule
        Shear and bending.

    Source
    ------
    None: names.
    """
    return HEAD_RULES if ground.job.roof.attached else BEAM_HEAD_RULES


def _made_or_refused(
    rules: Sequence[Rule], place: Place, rests: tuple[RestsOn, ...], make: Callable[[], tuple[Check, ...]]
) -> tuple[Check, ...]:
    """Both checks of a cut; both refused where it lies outside the rule."""
    try:
        return make()
    except OutsideScope as refusal:
        shown = Shown(says=str(refusal), rests_on=rests)
        return tuple(open_check(rule, place, "refused", shown) for rule in rules)


def _head_inputs(ground: Ground) -> tuple[RestsOn, ...]:
    frame = ground.job.frame
    key = "wall_plate_mm"
    if not ground.job.roof.attached:
        key = "head_beam_mm" if frame.head_beam_mm is not None else "beam_mm"
    return (
        *ground.once(inputs_of),
        ground.of_job("frame.head_notch_mm", frame.head_notch_mm),
        ground.of_job(f"frame.{key}", getattr(frame, key)),
    )


def _head_lines(ground: Ground, model: RafterModel, notch: Notch) -> tuple[Step, Step]:
    frame, pitch = ground.job.frame, ground.shape.pitch_deg
    plate, called = (
        head_support_mm(ground.job) or (0.0, 0.0),
        "plate" if ground.job.roof.attached else "head beam",
    )
    return (
        Step(
            says=f"Depth left over the {called}",
            formula="h_ef = h - cut",
            numbers=f"{model.rafter.depth_mm:g} - {frame.head_notch_mm:g}",
            result=notch.left_mm,
            unit="mm",
            clause="6.5.2",
        ),
        Step(
            says="Force to the corner of the cut",
            formula=f"x = half of the seat: cut / sin(pitch), at most the {called}",
            numbers=f"min({plate[0]:g}, {frame.head_notch_mm:g} / sin({pitch:.4f})) / 2"
            if pitch > 0.0
            else f"{plate[0]:g} / 2",
            result=notch.to_force_mm,
            unit="mm",
            clause="6.5.2; geometry",
        ),
    )


def _head_shear(
    ground: Ground, model: RafterModel, notch: Notch, cases: Sequence[OnIt], place: Place
) -> Check:
    return _sheared(
        ground,
        model,
        notch,
        cases,
        place,
        _Sheared(
            rule=head_rules(ground)[0],
            symbol="|R_A|",
            force_n=lambda case: abs(case.answer.head_reaction_n),
            lifts=lambda case: case.answer.head_reaction_n < 0.0,
            before=lambda case: (
                *reaction_steps(model, case.line, case.answer, case.point)[:2],
                *_head_lines(ground, model, notch),
            ),
            rests_on=_head_inputs(ground),
        ),
    )


def _head_bending(
    ground: Ground, model: RafterModel, notch: Notch, cases: Sequence[OnIt], place: Place
) -> Check:
    b, k_h = model.rafter.width_mm, size_factor(notch.left_mm)

    def moment(case: OnIt) -> float:
        return abs(case.answer.head_reaction_n) * notch.to_force_mm

    def strength_of(case: OnIt) -> Strength:
        return held_for(model.timber.f_m_k_n_mm2 * k_h, case.holds)

    case = max(cases, key=lambda c: moment(c) / strength_of(c).value)
    amount, strength = moment(case), strength_of(case)
    stress = bending_stress_n_mm2(amount, b, notch.left_mm)

    def shown() -> Shown:
        working = (
            *_load_steps(ground, model, case),
            *reaction_steps(model, case.line, case.answer, case.point)[:2],
            *_head_lines(ground, model, notch),
            Step(
                says="Moment at the corner of the cut",
                formula="M = |R_A| x",
                numbers=f"{abs(case.answer.head_reaction_n):.1f} x {notch.to_force_mm:.4f} / 10^6",
                result=amount / 1e6,
                unit="kNm",
                clause="statics",
            ),
            *bending_steps(amount, (b, notch.left_mm), stress, k_h, model.timber.f_m_k_n_mm2, strength),
        )
        return Shown(rests_on=_head_inputs(ground), working=working, cure=_CURE)

    return compared(
        head_rules(ground)[1], place, demand=stress, capacity=strength.value, case=case.words, shown=shown
    )


def _load_steps(ground: Ground, model: RafterModel, case: OnIt) -> tuple[Step, ...]:
    return case.steps if isinstance(case, PointCase) else line_steps(ground, model, case)


def _inputs(ground: Ground) -> tuple[RestsOn, ...]:
    return (*ground.once(inputs_of), ground.of_job("frame.rafter_notch_mm", ground.job.frame.rafter_notch_mm))


def _shear(ground: Ground, model: RafterModel, notch: Notch, cases: Sequence[OnIt], place: Place) -> Check:
    return _sheared(
        ground,
        model,
        notch,
        cases,
        place,
        _Sheared(
            rule=SHEAR,
            symbol="V",
            force_n=_shear_n,
            lifts=lambda case: case.answer.foot_reaction_n < 0.0,
            before=lambda case: (
                *reaction_steps(model, case.line, case.answer, case.point),
                beyond_steps(model, case.line, case.answer, case.point)[0],
                _shear_step(case),
                _left_step(ground, model, notch.left_mm),
                _corner_step(ground, notch),
            ),
            rests_on=_inputs(ground),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheared:
    """What differs between the two ends of a rafter: the force at the cut, and the lines that lead to it."""

    rule: Rule
    symbol: str
    force_n: Callable[[OnIt], float]
    """In size [N]."""
    lifts: Callable[[OnIt], bool]
    """Does it lift the rafter, so that the cut lies on the other side?"""
    before: Callable[[OnIt], tuple[Step, ...]]
    rests_on: tuple[RestsOn, ...]


def _sheared(
    ground: Ground,
    model: RafterModel,
    notch: Notch,
    cases: Sequence[OnIt],
    place: Place,
    end: _Sheared,
) -> Check:
    b, h = model.rafter.width_mm, model.rafter.depth_mm

    def used(case: OnIt) -> tuple[NotchShear, Strength]:
        strength = held_for(model.timber.f_v_k_n_mm2, case.holds)
        side: Literal["support", "other"] = "other" if end.lifts(case) else "support"
        found = notched_shear(end.force_n(case), notch, (b, h), strength_n_mm2=strength.value, side=side)
        return found, strength

    case = max(cases, key=lambda c: used(c)[0].utilisation)
    found, strength = used(case)

    def shown() -> Shown:
        working = (
            *_load_steps(ground, model, case),
            *end.before(case),
            _factor_step(notch, h, found, lifts=end.lifts(case)),
            Step(
                says="Shear stress on the depth left",
                formula=f"tau = 1.5 {end.symbol} / (k_cr b h_ef)",
                numbers=f"1.5 x {end.force_n(case):.1f} / (0.67 x {b:g} x {notch.left_mm:g})",
                result=found.stress_n_mm2,
                unit="N/mm2",
                clause="eq. 6.60",
            ),
            Step(
                says="Design strength",
                formula="k_v k_mod f_v,k / gamma_M",
                numbers=f"{found.k_v:.4f} x {strength.k_mod:g} x {model.timber.f_v_k_n_mm2:g} / {strength.gamma:g}",
                result=found.strength_n_mm2,
                unit="N/mm2",
                clause="eq. 6.60, 2.4.1",
            ),
        )
        return Shown(
            says=_IN_UPLIFT,
            rests_on=end.rests_on,
            working=working,
            picture=rafter_picture(model, case.line, case.point),
            cure=_CURE,
        )

    return compared(
        end.rule,
        place,
        demand=found.stress_n_mm2,
        capacity=found.strength_n_mm2,
        case=case.words,
        shown=shown,
    )


def _shear_n(case: OnIt) -> float:
    """The greater shear on either side of the beam, in size [N]."""
    return max(abs(case.answer.shear_before_foot_n), abs(case.answer.shear_beyond_foot_n))


def _shear_step(case: OnIt) -> Step:
    taken, beyond = case.answer.foot_reaction_n / 1000.0, case.answer.shear_beyond_foot_n / 1000.0
    return Step(
        says="Shear beside the beam",
        formula="V = max(|R_B - beyond|, |beyond|)",
        numbers=f"max(|{taken:.4f} - ({beyond:.4f})|, |{beyond:.4f}|)",
        result=_shear_n(case) / 1000.0,
        unit="kN",
        clause="statics",
    )


def _left_step(ground: Ground, model: RafterModel, left_mm: float) -> Step:
    return Step(
        says="Depth left over the beam",
        formula="h_ef = h - cut",
        numbers=f"{model.rafter.depth_mm:g} - {ground.job.frame.rafter_notch_mm:g}",
        result=left_mm,
        unit="mm",
        clause="6.5.2",
    )


def _corner_step(ground: Ground, notch: Notch) -> Step:
    beam, pitch = ground.job.frame.beam_mm, ground.shape.pitch_deg
    assert beam is not None  # asked before
    cut = f"min({beam[0]:g}, {ground.job.frame.rafter_notch_mm:g} / sin({pitch:.4f})) / 2"
    return Step(
        says="Force to the corner of the cut",
        formula="x = half of the seat: cut / sin(pitch), at most the beam",
        numbers=cut if pitch > 0.0 else f"{beam[0]:g} / 2",
        result=notch.to_force_mm,
        unit="mm",
        clause="6.5.2; geometry",
    )


def _factor_step(notch: Notch, depth_mm: float, found: NotchShear, *, lifts: bool) -> Step:
    alpha, near = notch.left_mm / depth_mm, f"{notch.left_mm:g} / {depth_mm:g}"
    root, far = f"sqrt({near} x (1 - {near}))", f"sqrt(1 / ({near}) - ({near})^2)"
    sum_of = f"{root} + 0.8 x {notch.to_force_mm:.4f} / {depth_mm:g} x {far}"
    held = "the force lifts: the cut lies on the other side"
    return Step(
        says="Factor of the cut",
        formula="k_v = k_n / (sqrt(h) (sqrt(a (1 - a)) + 0.8 x/h sqrt(1/a - a^2))), a = h_ef / h, k_n 5",
        numbers=f"1; {held}" if lifts else f"min(1, 5 / (sqrt({depth_mm:g}) x ({sum_of}))); a {alpha:.3f}",
        result=found.k_v,
        unit="",
        clause="eq. 6.61" if lifts else "eq. 6.62, 6.63, square corner",
    )


def _bending(
    ground: Ground, model: RafterModel, left_mm: float, cases: Sequence[OnIt], place: Place
) -> Check:
    b, k_h = model.rafter.width_mm, size_factor(left_mm)

    def used(case: OnIt) -> tuple[float, Strength]:
        strength = held_for(model.timber.f_m_k_n_mm2 * k_h, case.holds)
        return bending_stress_n_mm2(abs(case.answer.support_moment_n_mm), b, left_mm), strength

    def share(case: OnIt) -> float:
        stress, strength = used(case)
        return stress / strength.value

    opened = [c for c in cases if c.answer.support_moment_n_mm > 0.0 and share(c) > TENSION_SHARE]
    case = max(opened or cases, key=share)
    stress, strength = used(case)

    def shown() -> Shown:
        working = (
            *_load_steps(ground, model, case),
            beyond_steps(model, case.line, case.answer, case.point)[1],
            _left_step(ground, model, left_mm),
            *bending_steps(
                abs(case.answer.support_moment_n_mm),
                (b, left_mm),
                stress,
                k_h,
                model.timber.f_m_k_n_mm2,
                strength,
            ),
        )
        why = (
            f"Uplift bends the foot up and pulls the cut open with {stress:.2f} N/mm2, over {TENSION_SHARE:.0%} of the "
            f"strength ({JUDGEMENT}): no rule here covers a cut in tension. Shorten the overhang, or leave out the "
            f"birdsmouth and wedge the seat: frame.rafter_notch_mm = 0."
        )
        return Shown(
            says=why if opened else "",
            rests_on=_inputs(ground),
            working=working,
            picture=rafter_picture(model, case.line, case.point),
            cure=_CURE,
        )

    if opened:
        return open_check(BENDING, place, "refused", shown, demand=stress, case=case.words)
    return compared(BENDING, place, demand=stress, capacity=strength.value, case=case.words, shown=shown)
