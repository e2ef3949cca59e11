"""Sills under the side sheets of an end, which lie on floor, kerb or low wall: bent level between their fixings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.posts import POST_SERVICE_CLASS
from pentice.checks.rafter_shown import EDITION
from pentice.checks.side_members_model import (
    Bent,
    asked,
    inputs_of,
    of_mullion,
    timber_of,
    worst_winds,
)
from pentice.checks.side_members_shown import Answer, at_ends, wind_steps
from pentice.checks.timber_shown import bending_steps, shear_steps, strength_in
from pentice.checks.values import Check, Place, Shown
from pentice.checks.walls import OnWall
from pentice.loads.combine import Combination
from pentice.setting_out.side_frames import Sill
from pentice.standards.en338 import StrengthClass
from pentice.standards.en1995 import bending_stress_n_mm2, shear_stress_n_mm2, size_factor
from pentice.working import Step

BENDING = Rule(
    id="sill-bending",
    name="Sill, bending by wind",
    member="sill",
    clause="EN 1995-1-1, 6.1.6",
    unit="N/mm2",
    edition=EDITION,
)
SHEAR = Rule(
    id="sill-shear",
    name="Sill, shear",
    member="sill",
    clause="EN 1995-1-1, 6.1.7",
    unit="N/mm2",
    edition=EDITION,
)
FIXINGS = Rule(
    id="sill-fixings",
    name="Sill, each fixing held level",
    member="sill",
    clause="EN 1990, 6.10",
    unit="kN",
)
_STATICS = "statics"


@dataclass(frozen=True, slots=True, kw_only=True)
class OnSill:
    """What comes level to a sill, in one combination."""

    sill: Sill
    size_mm: tuple[float, float]
    """In the wall's thickness, and upright [mm]."""
    spacing_mm: float
    on: OnWall
    combination: Combination
    foot: Bent | None
    """The mullion whose foot brings most; None: there is none."""
    foot_kn: float
    foot_line_kn_m: float

    @property
    def line_kn_m(self) -> float:
        """Wind on its strip of the sheets [kN/m]."""
        return self.combination.wind * abs(self.on.net) * self.sill.strip_mm / 1000.0

    def steps(self) -> tuple[Step, ...]:
        """The lines that lead to both."""
        wind = wind_steps(self.sill.strip_mm, self.on, self.combination)
        if self.foot is None:
            return wind
        at_foot = Step(
            says=f"At the foot of {self.foot.words}",
            formula="F = w l / 2",
            numbers=f"{self.foot_line_kn_m:.5f} x {self.foot.span_mm / 1000.0:.4f} / 2",
            result=self.foot_kn,
            unit="kN",
            clause="see its own check",
        )
        return (*wind, at_foot)


def sill_checks(ground: Ground, sills: Sequence[Sill], size: tuple[float, float]) -> Iterator[Check]:
    """Bending, shear and fixings of the sill that uses most.

    Parameters
    ----------
    ground, sills, size
        The inputs of every check, the sills, and their width and height [mm].

    Yields
    ------
    Check
        Refused where no spacing of its fixings is given; the fixings where nothing is declared for one of them.

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.6, 6.1.7. What bears it all along carries the weight on it: judgement.
    """
    spacing, timber = ground.job.frame.sill_fixing_spacing_mm, timber_of(ground)
    if spacing is None:
        why = "Say how the sills are fixed down: give frame.sill_fixing_spacing_mm."
        for rule in (BENDING, FIXINGS):
            yield open_check(rule, Place(), "refused", Shown(says=why, rests_on=inputs_of(ground, BENDING)))
        return
    found = [on for sill in sills for on in _on_sill(ground, sill, size, spacing)]
    for rule, answer_of in ((BENDING, _bent), (SHEAR, _sheared)):
        both = [(on, answer_of(timber, on)) for on in found]
        on, answer = max(both, key=lambda b: b[1].demand / b[1].capacity)
        yield compared(
            rule,
            Place(side_sheet=on.sill.sheets[0]),
            demand=answer.demand,
            capacity=answer.capacity,
            case=_words(on),
            shown=partial(_shown, ground, on, answer),
        )
    yield _held(ground, found)


def _on_sill(ground: Ground, sill: Sill, size: tuple[float, float], spacing: float) -> Iterator[OnSill]:
    section = ground.job.frame.mullion_mm or (0.0, 0.0)
    feet = [of_mullion(ground, mullion, section) for mullion in sill.mullions]
    reach = min(spacing, sill.length_mm)  # the stretch of one fixing is the area that loads it
    for n, (on, combination) in enumerate(worst_winds(ground, sill.side, sill.strip_mm, reach)):
        foot, force, line = None, 0.0, 0.0
        for mullion in feet:
            wind = mullion.lines[n][0]
            brings = at_ends(mullion, wind, combination).demand
            if brings > force:
                foot, force, line = mullion, brings, combination.wind * mullion.level_n_mm(wind)
        yield OnSill(
            sill=sill,
            size_mm=size,
            spacing_mm=spacing,
            on=on,
            combination=combination,
            foot=foot,
            foot_kn=force,
            foot_line_kn_m=line,
        )


def _words(on: OnSill) -> str:
    return f"sill, {on.sill.side} end; {on.on.in_short()}"


def _shown(ground: Ground, on: OnSill, answer: Answer) -> Shown:
    says = (
        f"It lies on the floor, a kerb or a low wall all along, which bears the sheets' weight: {JUDGEMENT}. "
        f"Service class {POST_SERVICE_CLASS}, as of posts."
    )
    rests = inputs_of(ground, BENDING, on.sill.sheets[0])
    return Shown(says=says, rests_on=rests, working=answer.steps(), cure="Closer fixings, or a wider sill.")


def _bent(timber: StrengthClass, on: OnSill) -> Answer:
    (wide, high), s = on.size_mm, on.spacing_mm / 1000.0
    moment = on.line_kn_m * s**2 / 8.0 + on.foot_kn * s / 4.0
    k_h = size_factor(wide)
    stress = bending_stress_n_mm2(moment * 1e6, high, wide)
    strength = strength_in(timber.f_m_k_n_mm2 * k_h, on.combination, POST_SERVICE_CLASS)

    def steps() -> tuple[Step, ...]:
        level = Step(
            says="Moment level between two fixings, the foot of a mullion between them",
            formula="M = w s^2 / 8 + F s / 4",
            numbers=f"{on.line_kn_m:.5f} x {s:.4f}^2 / 8 + {on.foot_kn:.5f} x {s:.4f} / 4",
            result=moment,
            unit="kNm",
            clause=f"{_STATICS}; simply borne between them, on the safe side",
        )
        bending = bending_steps(moment * 1e6, (high, wide), stress, k_h, timber.f_m_k_n_mm2, strength)
        return (*on.steps(), level, *bending)

    return Answer(stress, strength.value, steps)


def _sheared(timber: StrengthClass, on: OnSill) -> Answer:
    (wide, high), s = on.size_mm, on.spacing_mm / 1000.0
    shear = on.line_kn_m * s / 2.0 + on.foot_kn
    stress = shear_stress_n_mm2(shear * 1000.0, high, wide)
    strength = strength_in(timber.f_v_k_n_mm2, on.combination, POST_SERVICE_CLASS)

    def steps() -> tuple[Step, ...]:
        beside = Step(
            says="Shear beside a fixing",
            formula="V = w s / 2 + F",
            numbers=f"{on.line_kn_m:.5f} x {s:.4f} / 2 + {on.foot_kn:.5f}",
            result=shear,
            unit="kN",
            clause=_STATICS,
        )
        return (
            *on.steps(),
            beside,
            *shear_steps(shear * 1000.0, (high, wide), stress, timber.f_v_k_n_mm2, strength),
        )

    return Answer(stress, strength.value, steps)


def _held(ground: Ground, found: Sequence[OnSill]) -> Check:
    """One fixing: its stretch of the sill, and the whole foot of a mullion."""

    def force(on: OnSill) -> float:
        return on.line_kn_m * on.spacing_mm / 1000.0 + on.foot_kn

    worst, declared = max(found, key=force), ground.job.frame.sill_fixing_kn
    need, place = force(worst), Place(side_sheet=worst.sill.sheets[0])

    def steps() -> tuple[Step, ...]:
        last = Step(
            says="On one fixing",
            formula="w s + F",
            numbers=f"{worst.line_kn_m:.5f} x {worst.spacing_mm / 1000.0:.4f} + {worst.foot_kn:.5f}",
            result=need,
            unit="kN",
            clause=_STATICS,
        )
        return (*worst.steps(), last)

    rests = partial(inputs_of, ground, BENDING, worst.sill.sheets[0])
    if declared is None:
        why = f"Each needs {need:.2f} kN, in and out. Give frame.sill_fixing_kn, declared or from a test."
        shown = partial(asked, rests, steps, why)
        return open_check(FIXINGS, place, "refused", shown, demand=need, case=_words(worst))

    def told() -> Shown:
        return Shown(
            rests_on=(*rests(), ground.of_job("frame.sill_fixing_kn", declared)),
            working=steps(),
            cure="Closer or stronger fixings.",
        )

    return compared(FIXINGS, place, demand=need, capacity=declared, case=_words(worst), shown=told)
