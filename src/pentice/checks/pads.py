"""A pad on the ground: pressed off its middle, turned over and pushed along, by what the post brings level and down.

The post stands on the pad, so a level force at its foot turns the pad by its depth. Earth beside it is not counted.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from pentice.checks.beam_shown import on_post_step
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.onto_posts import blown
from pentice.checks.pads_values import AtFoot, Rise, Standing, Turned, Turns, pad_weight_step
from pentice.checks.passed_on import Combined
from pentice.checks.posts import post_weight_step
from pentice.checks.rests import Row, of_frame, of_posts
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.records import quickly_made
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


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class _Pressed:
    """A pad under one push in one combination."""

    down_kn: float
    turned: Turned
    steps: Callable[[], tuple[Step, ...]]
    """The lines that lead to what presses down."""
    case: Combined

    def off_share(self, wide_mm: float, long_mm: float) -> float:
        """How far the force stands off the middle, in widths; endless where nothing presses."""
        if self.down_kn <= 0.0:
            return math.inf
        return max(self.turned[0].knm / wide_mm, self.turned[1].knm / long_mm) / self.down_kn * 1000.0


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
    EN 1997-1:2004, 6.5.3 and 6.5.4 with the effective area of Annex D, from memory; EN 1990, Table A1.2(A) for turning
    and (B) for the pressure, where weight that helps counts once; a door open by accident keeps the 0.9 of its
    combination and the level force of 1.5 W, on the safe side, judgement. Wind along the roof, across it and onto the
    front do not blow at once: the worst counts. Pushed both ways at once, a stiff block turns over as soon as the force
    leaves it on either side: each way by itself, statics. Which way the pad lies is not known: the greater moment
    counts over its smaller side, the worse for limit and area.
    """
    place = Place(post=forces.beam.posts[k].number)
    if pushes is None:
        why = "What pushes the foot level is not known: see why the bracing, or the post on its base, is refused."
        for rule in GROUND_RULES:
            yield open_check(rule, place, "refused", Shown(says=why))
        return
    acting = (*pushes, *blown(ground, forces, k))
    turned = _turned_by(ground, acting)
    yield _pressure(ground, forces, k, on, turned)
    yield _turning(
        ground, forces.beam.row, place, on, max((each[0] for each in turned), key=lambda turns: turns.knm)
    )
    yield _sliding(ground, forces.beam.row, place, on, acting)


def _turned_by(ground: Ground, pushes: Sequence[AtFoot]) -> list[Turned]:
    """What each push makes at the underside of the pad, the greater of both ways first."""
    assert ground.job.frame.pad_mm is not None  # asked only where the pad is given
    deep, found = ground.job.frame.pad_mm[2], []
    for push in pushes:
        both = bool((push.along_kn or push.along_knm) and (push.square_kn or push.square_knm))
        along, square = (
            Turns(push=push, level_kn=level, moment_knm=moment, deep_mm=deep, way=way if both else "")
            for level, moment, way in (
                (push.along_kn, push.along_knm, "along the row"),
                (push.square_kn, push.square_knm, "square to the row"),
            )
        )
        found.append((square, along) if square.knm > along.knm else (along, square))
    return found


def _presses(
    ground: Ground, forces: EavesForces, k: int, on: Standing, turned: Sequence[Turned]
) -> Iterator[_Pressed]:
    """Each push with the greatest load and with the least of every combination.

    Between the two the pressure is never greater than at one of them: V / ((B - 2 M / V) (L - 2 M' / V)) is convex.
    """
    acting = [
        i for i in forces.most_pressed[k] if forces.cases[i].combination.kind in ("strength", "accidental")
    ]
    stands = on.post_kn + on.pad_kn

    def beam_and_below(n: int) -> float:
        return float(forces.reactions_n[n, k]) / 1000.0 + forces.cases[n].combination.dead * stands

    i = max(acting, key=beam_and_below)
    case, g = forces.cases[i], forces.cases[i].combination.dead
    force = max(float(forces.reactions_n[i, k]), 0.0) / 1000.0
    down = force + on.pair.kn + g * stands
    weights = partial(_weights, ground, forces.beam.posts[k])

    def most() -> tuple[Step, ...]:
        of_pair = (f" + {on.pair.says}", f" + {on.pair.kn:.4f}") if on.pair.kn else ("", "")
        return (
            on_post_step(case, force * 1000.0),
            *on.pair.steps(),
            *weights(g),
            Step(
                says="Down on the ground",
                formula=f"V = R of the beam{of_pair[0]} + gamma (G_post + G_pad)",
                numbers=f"{force:.4f}{of_pair[1]} + {g * on.post_kn:.4f} + {g * on.pad_kn:.4f}; "
                f"{case.combination.name}",
                result=down,
                unit="kN",
                clause=case.combination.clause,
            ),
        )

    for each in turned:
        yield _Pressed(down_kn=down, turned=each, steps=most, case=case)
        for rise in on.rises:
            yield _Pressed(
                down_kn=_least_kn(on, rise),
                turned=each,
                steps=partial(_least, on, rise, weights),
                case=rise.case,
            )


def _least_kn(on: Standing, rise: Rise) -> float:
    return rise.case.combination.dead * (on.roof_kn + on.post_kn + on.pad_kn) - rise.up_kn


def _weights(ground: Ground, post: Post, factor: float) -> tuple[Step, Step]:
    """What post and pad weigh."""
    assert ground.job.frame.pad_mm is not None  # asked only where the pad is given
    return post_weight_step(ground, post, factor), pad_weight_step(ground.job.frame.pad_mm, factor)


def _least(on: Standing, rise: Rise, weights: Callable[[float], tuple[Step, Step]]) -> tuple[Step, ...]:
    g = rise.case.combination.dead
    return (
        *rise.steps(),
        *weights(g),
        Step(
            says="Least down on the ground",
            formula="V = gamma_inf (G_roof + G_post + G_pad) - U",
            numbers=f"{g:g} x {on.roof_kn:.4f} + {g * on.post_kn:.4f} + {g * on.pad_kn:.4f} - {rise.up_kn:.4f}; "
            f"least load, G x {g:.1f}",
            result=_least_kn(on, rise),
            unit="kN",
            clause=f"{rise.case.combination.clause}; weight helps",
        ),
    )


def _pressure(ground: Ground, forces: EavesForces, k: int, on: Standing, turned: Sequence[Turned]) -> Check:
    size, place = ground.job.frame.pad_mm, Place(post=forces.beam.posts[k].number)
    assert size is not None  # asked only where the pad is given
    wide, long = sorted(size[:2])
    rests = _inputs(ground, forces.beam.row)
    found: list[tuple[Bearing, _Pressed]] = []
    beyond: list[tuple[str, _Pressed]] = []
    for at in _presses(ground, forces, k, on, turned):
        greater, less = (turns.knm for turns in at.turned)
        if at.down_kn <= 0.0:
            why = f"Nothing presses on the ground: {-at.down_kn:.2f} kN lift beyond all weight. Enlarge the pad."
            beyond.append((why, at))
            continue
        try:
            bearing = bearing_under_pad(
                vertical_kn=at.down_kn,
                moment_knm=greater,
                length_mm=long,
                width_mm=wide,
                moment_along_length_knm=less,
            )
        except OutsideScope as refusal:
            beyond.append((str(refusal), at))
        else:
            found.append((bearing, at))
    if beyond:
        why, off = max(beyond, key=lambda one: one[1].off_share(wide, long))

        def off_lines() -> Shown:
            return Shown(says=why, rests_on=rests, working=_off_steps(off, wide, long))

        return open_check(PRESSURE, place, "refused", off_lines, case=off.case.words)
    bearing, worst = max(found, key=lambda one: one[0].even_kn_m2)
    pressure, limit = bearing.even_kn_m2, ground.job.site.ground_bearing_kn_m2

    def working() -> tuple[Step, ...]:
        return (*_off_steps(worst, wide, long), _pressure_step(worst, wide, long, pressure))

    if limit is None:
        why = f"Presses {pressure:.0f} kN/m2 on the ground. Give site.ground_bearing_kn_m2, what it may take: ask."
        return open_check(
            PRESSURE,
            place,
            "refused",
            lambda: Shown(says=why, rests_on=rests, working=working()),
            demand=pressure,
            case=worst.case.words,
        )

    def shown() -> Shown:
        return Shown(
            rests_on=(*rests, ground.of_job("site.ground_bearing_kn_m2", limit)),
            working=working(),
            cure="A wider pad.",
        )

    return compared(PRESSURE, place, demand=pressure, capacity=limit, case=worst.case.words, shown=shown)


def _off_steps(at: _Pressed, wide: float, long: float) -> tuple[Step, ...]:
    """What presses down, what turns, and how far off the middle that is."""
    steps = [*at.steps(), *at.turned[0].push.before]
    for turns, side, name in zip(at.turned, (wide, long), ("B", "L"), strict=True):
        if name == "L" and not turns.knm:
            continue
        steps.append(turns.step())
        if at.down_kn > 0.0:
            steps.append(
                Step(
                    says=f"Off the middle of its {side:.0f} mm, at most {side / 3.0:.0f}",
                    formula="e = M / V",
                    numbers=f"{turns.knm:.5f} / {at.down_kn:.4f} x 1000",
                    result=turns.knm / at.down_kn * 1000.0,
                    unit="mm",
                    clause="EN 1997-1, 6.5.4, from memory",
                )
            )
    return tuple(steps)


def _pressure_step(at: _Pressed, wide: float, long: float, pressure: float) -> Step:
    down, (greater, less) = at.down_kn, at.turned
    width = f"({wide / 1000:g} - 2 x {greater.knm:.5f} / {down:.4f})"
    formula, length = "V / (L (B - 2 M / V))", f"{long / 1000:g}"
    if less.knm:
        formula = "V / ((L - 2 M_L / V) (B - 2 M_B / V))"
        length = f"({long / 1000:g} - 2 x {less.knm:.5f} / {down:.4f})"
    return Step(
        says="Pressure over what presses",
        formula=formula,
        numbers=f"{down:.4f} / ({length} x {width})",
        result=pressure,
        unit="kN/m2",
        clause="EN 1997-1, Annex D, from memory",
    )


def _turning(ground: Ground, row: Row, place: Place, on: Standing, turns: Turns) -> Check:
    size = ground.job.frame.pad_mm
    assert size is not None  # asked only where the pad is given
    wide, up = min(size[:2]), on.lift.up_kn
    held = overturning_of_pad(
        horizontal_kn=turns.knm,
        height_mm=1000.0,
        weight_kn=max(on.weight_kn, 0.0),
        width_mm=wide,
        up_kn=up,
        factored=True,
    )

    def shown() -> Shown:
        working = (
            *on.lift.steps(),
            *on.weighs(),
            *turns.push.before,
            turns.step(),
            Step(
                says="Turns it over its edge",
                formula="M + U B / 2",
                numbers=f"{turns.knm:.5f} + {up:.4f} x {wide / 1000:g} / 2",
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
            rests_on=_inputs(ground, row),
            working=working,
            cure="A bigger pad.",
        )

    return compared(
        TURNING,
        place,
        demand=held.demand,
        capacity=held.capacity,
        case=on.lift.case.words,
        shown=shown,
    )


_NOTHING = AtFoot(says="nothing")


def _level_steps(pushes: Sequence[AtFoot]) -> tuple[Step, ...]:
    """One line for each source that pushes, then the greatest."""
    greatest: dict[str, AtFoot] = {}
    for push in pushes:
        if push.level_kn > 0.0 and push.level_kn > greatest.get(push.says, _NOTHING).level_kn:
            greatest[push.says] = push
    before = tuple(dict.fromkeys(step for push in greatest.values() for step in push.before))
    lines = tuple(push.level_step() for push in greatest.values()) or (_NOTHING.level_step(),)
    if len(lines) == 1:
        return (*before, *lines)
    levels = ", ".join(f"{float(line.result):.5f}" for line in lines)
    most = Step(
        says="Greatest level force at the foot",
        formula="max(H)",
        numbers=f"max({levels})",
        result=max(float(line.result) for line in lines),
        unit="kN",
        clause="statics; they do not push at once",
    )
    return (*before, *lines, most)


def _sliding(ground: Ground, row: Row, place: Place, on: Standing, pushes: Sequence[AtFoot]) -> Check:
    # The greatest level force slides, whichever turns most.
    friction, down, most = (
        ground.job.site.ground_friction,
        on.weight_kn - on.lift.up_kn,
        max(push.level_kn for push in pushes),
    )
    rests = _inputs(ground, row)
    if friction is None:
        why = (
            f"The foot is pushed level by {most:.2f} kN while {max(down, 0.0):.2f} kN press on the ground. "
            "Give site.ground_friction, the tangent that the ground under the pad has: ask."
        )
        return open_check(
            SLIDING,
            place,
            "refused",
            lambda: Shown(says=why, rests_on=rests, working=_level_steps(pushes)),
            demand=most,
            case=on.lift.case.words,
        )

    def shown() -> Shown:
        step = Step(
            says="Friction that holds it",
            formula="(gamma G - U) tan delta",
            numbers=f"({on.weight_kn:.4f} - {on.lift.up_kn:.4f}) x {friction:g}",
            result=down * friction,
            unit="kN",
            clause="EN 1997-1, 6.5.3, from memory; earth beside it not counted",
        )
        return Shown(
            rests_on=(*rests, ground.of_job("site.ground_friction", friction)),
            working=(*on.lift.steps(), *on.weighs(), *_level_steps(pushes), step),
            cure="A heavier pad, or a floor that holds the foot.",
        )

    return compared(
        SLIDING, place, demand=most, capacity=down * friction, case=on.lift.case.words, shown=shown
    )


def _inputs(ground: Ground, row: Row) -> tuple[RestsOn, ...]:
    weather = (ground.of_snow(), ground.of_wind(), *ground.of_side_wind())
    return (*of_posts(ground, row), *weather, *of_frame(ground, "pad_mm"))
