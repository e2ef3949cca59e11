"""A pad on the ground: pressed off its middle, turned over and pushed along, by what the post brings level and down.

The post stands on the pad, so a level force at its foot turns the pad by its depth. Earth beside it is not counted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.passed_on import Combined
from pentice.checks.posts import front_line_n_mm
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.standards.pads import Bearing, bearing_under_pad, overturning_of_pad
from pentice.working import Step

_EQU = "EN 1990, Table A1.2(A)"
PRESSURE = Rule(
    id="pad-pressure",
    name="Pad, pressure on the ground",
    member="base",
    clause="EN 1997-1, 6.5.4 and Annex D; ground value given",
    unit="kN/m2",
)
TURNING = Rule(id="pad-turning", name="Pad, turning over", member="base", clause=_EQU, unit="kNm")
SLIDING = Rule(
    id="pad-sliding", name="Pad, sliding", member="base", clause="EN 1997-1, 6.5.3; friction given", unit="kN"
)
GROUND_RULES = (PRESSURE, TURNING, SLIDING)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What stands on a pad and what lifts it [kN]."""

    pad_kn: float
    post_kn: float
    pair_kn: float
    """From what pushes the posts level, down on one post and up on another."""
    up_kn: float
    """What lifts in the worst combination, the pair in it."""
    weight_kn: float
    """Of roof, post and pad against it, with its factor."""
    lift: Callable[[], Step]
    case: Combined


@dataclass(frozen=True, slots=True, kw_only=True)
class AtFoot:
    """What a push on the posts brings to one foot."""

    level_kn: float
    moment_knm: float
    says: str
    """The push in words: "the push along the wall"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pushed:
    """A level force at the foot from one side, and what it makes at the underside of the pad."""

    level_kn: float
    level_step: Callable[[], Step]
    turning_knm: float
    step: Callable[[], Step]


def ground_checks(
    ground: Ground, forces: EavesForces, k: int, on: Standing, pushes: Sequence[AtFoot] | None
) -> Iterator[Check]:
    """Pressure, turning over and sliding of the pad under one post.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination puts on the posts.
    k
        Place of the post in the row.
    on
        What stands on the pad.
    pushes
        What each push on the posts brings to the foot; None where it is not known.

    Yields
    ------
    Check
        Turning and sliding refused where the push is not known, or no friction of the ground is given.

    Source
    ------
    EN 1997-1:2004, 6.5.3 and 6.5.4 with the effective width of Annex D, from memory; EN 1990, Table A1.2(A). Wind along
    the roof, across it and onto the front do not blow at once: the worst counts. The smaller side of the pad counts
    both ways.
    """
    place = Place(post=forces.beam.posts[k].number)
    if pushes is None:
        for rule in GROUND_RULES:
            yield open_check(rule, place, "refused", Shown(says="What pushes the foot level is not known."))
        return
    pushed = _pushed(ground, forces, k, pushes)
    yield _pressure(ground, forces, k, on, pushed)
    yield _turning(ground, place, on, pushed)
    yield _sliding(ground, place, on, pushed)


def _pushed(ground: Ground, forces: EavesForces, k: int, pushes: Sequence[AtFoot]) -> _Pushed:
    assert ground.job.frame.pad_mm is not None  # asked only where the pad is given
    deep = ground.job.frame.pad_mm[2]
    factor = max(c.wind for c in ground.loads.combinations if c.kind in ("strength", "uplift"))
    tall = forces.beam.posts[k].length_mm or 0.0
    line = front_line_n_mm(ground, forces, k)
    onto_front = factor * line * tall / 2000.0
    worst = max(pushes, key=lambda push: push.level_kn * deep / 1000.0 + push.moment_knm)
    level, moment = worst.level_kn, worst.moment_knm
    if onto_front * deep / 1000.0 > level * deep / 1000.0 + moment:
        numbers = f"{factor:g} x {line:.5f} x {tall:.3f} / 2000 x {deep:g} / 1000"
        says, formula, level, moment = "Turned by wind onto the front", "gamma w l / 2 d", onto_front, 0.0
    else:
        numbers = f"{level:.5f} x {deep:g} / 1000 + {moment:.5f}"
        says, formula = f"Turned by {worst.says}", "H d + M"
    turning = level * deep / 1000.0 + moment
    # The greatest level force slides, whichever turns most.
    most = max(*(push.level_kn for push in pushes), onto_front)

    def turns() -> Step:
        return Step(
            says=says,
            formula=formula,
            numbers=numbers,
            result=turning,
            unit="kNm",
            clause="statics; at the underside of the pad",
        )

    def slides() -> Step:
        levels = ", ".join(f"{push.level_kn:.5f}" for push in pushes)
        return Step(
            says=f"Level at the foot, from {' or '.join(push.says for push in pushes)} or from wind onto the front",
            formula="max(H, gamma w l / 2)",
            numbers=f"max({levels}, {factor:g} x {line:.5f} x {tall:.3f} / 2000)",
            result=most,
            unit="kN",
            clause="statics",
        )

    return _Pushed(level_kn=most, level_step=slides, turning_knm=turning, step=turns)


def _pressure(ground: Ground, forces: EavesForces, k: int, on: Standing, pushed: _Pushed) -> Check:
    size, place = ground.job.frame.pad_mm, Place(post=forces.beam.posts[k].number)
    assert size is not None  # asked only where the pad is given
    wide, long = sorted(size[:2])
    rests = (*_weather(ground), ground.of_job("frame.pad_mm", size))
    pressed = forces.most_pressed[k]
    acting = [i for i in pressed if forces.cases[i].combination.kind in ("strength", "accidental")]
    i = max(acting, key=lambda n: float(forces.reactions_n[n, k]))
    case, g = forces.cases[i], forces.cases[i].combination.dead
    force = max(float(forces.reactions_n[i, k]), 0.0) / 1000.0
    down = force + on.pair_kn + g * (on.post_kn + on.pad_kn)
    try:
        found: Bearing = bearing_under_pad(
            vertical_kn=down, moment_knm=pushed.turning_knm, length_mm=long, width_mm=wide
        )
    except OutsideScope as refusal:
        return open_check(PRESSURE, place, "refused", Shown(says=str(refusal), rests_on=rests))
    pressure, limit = found.even_kn_m2, ground.job.site.ground_bearing_kn_m2

    def working() -> tuple[Step, ...]:
        return (
            Step(
                says="Down on the ground",
                formula="V = N + gamma (G_post + G_pad)",
                numbers=f"{force:.4f} + {on.pair_kn:.4f} + {g:g} x ({on.post_kn:.4f} + {on.pad_kn:.4f}); "
                f"{case.combination.name}",
                result=down,
                unit="kN",
                clause=case.combination.clause,
            ),
            pushed.step(),
            Step(
                says="Pressure over what presses",
                formula="V / (L (B - 2 M / V))",
                numbers=f"{down:.4f} / ({long / 1000:g} x ({wide / 1000:g} - "
                f"2 x {pushed.turning_knm:.5f} / {down:.4f}))",
                result=pressure,
                unit="kN/m2",
                clause="EN 1997-1, Annex D, from memory",
            ),
        )

    if limit is None:
        why = f"Presses {pressure:.0f} kN/m2 on the ground. Give site.ground_bearing_kn_m2, what it may take: ask."
        return open_check(
            PRESSURE,
            place,
            "refused",
            lambda: Shown(says=why, rests_on=rests, working=working()),
            demand=pressure,
            case=case.words,
        )

    def shown() -> Shown:
        return Shown(
            rests_on=(*rests, ground.of_job("site.ground_bearing_kn_m2", limit)),
            working=working(),
            cure="A wider pad.",
        )

    return compared(PRESSURE, place, demand=pressure, capacity=limit, case=case.words, shown=shown)


def _turning(ground: Ground, place: Place, on: Standing, pushed: _Pushed) -> Check:
    size = ground.job.frame.pad_mm
    assert size is not None  # asked only where the pad is given
    wide = min(size[:2])
    held = overturning_of_pad(
        horizontal_kn=pushed.turning_knm,
        height_mm=1000.0,
        weight_kn=max(on.weight_kn, 0.0),
        width_mm=wide,
        up_kn=on.up_kn,
        factored=True,
    )

    def shown() -> Shown:
        working = (
            on.lift(),
            pushed.step(),
            Step(
                says="Turns it over its edge",
                formula="M + U B / 2",
                numbers=f"{pushed.turning_knm:.5f} + {on.up_kn:.4f} x {wide / 1000:g} / 2",
                result=held.demand,
                unit="kNm",
                clause=_EQU,
            ),
            Step(
                says="Weight that holds it",
                formula="gamma G B / 2",
                numbers=f"{on.weight_kn:.4f} x {wide / 1000:g} / 2",
                result=held.capacity,
                unit="kNm",
                clause=_EQU,
            ),
        )
        return Shown(
            rests_on=(*_weather(ground), ground.of_job("frame.pad_mm", size)),
            working=working,
            cure="A bigger pad.",
        )

    return compared(
        TURNING,
        place,
        demand=held.demand,
        capacity=held.capacity,
        case=on.case.words,
        shown=shown,
    )


def _sliding(ground: Ground, place: Place, on: Standing, pushed: _Pushed) -> Check:
    friction, down = ground.job.site.ground_friction, on.weight_kn - on.up_kn
    rests = (*_weather(ground), ground.of_job("frame.pad_mm", ground.job.frame.pad_mm))
    if friction is None:
        why = (
            f"The foot is pushed level by {pushed.level_kn:.2f} kN while {max(down, 0.0):.2f} kN press on the ground. "
            "Give site.ground_friction, the tangent that the ground under the pad has: ask."
        )
        return open_check(
            SLIDING,
            place,
            "refused",
            lambda: Shown(says=why, rests_on=rests, working=(pushed.level_step(),)),
            demand=pushed.level_kn,
            case=on.case.words,
        )

    def shown() -> Shown:
        step = Step(
            says="Friction that holds it",
            formula="(gamma G - U) tan delta",
            numbers=f"({on.weight_kn:.4f} - {on.up_kn:.4f}) x {friction:g}",
            result=down * friction,
            unit="kN",
            clause="EN 1997-1, 6.5.3, from memory; earth beside it not counted",
        )
        return Shown(
            rests_on=(*rests, ground.of_job("site.ground_friction", friction)),
            working=(on.lift(), pushed.level_step(), step),
            cure="A heavier pad, or a floor that holds the foot.",
        )

    return compared(
        SLIDING, place, demand=pushed.level_kn, capacity=down * friction, case=on.case.words, shown=shown
    )


def _weather(ground: Ground) -> tuple[RestsOn, ...]:
    return (ground.of_snow(), ground.of_wind())
