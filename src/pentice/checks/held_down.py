"""What is held down and how: beam to post, post to base, pad in the ground; EQU, as a light roof flies first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from pentice.checks.brought import KNEE, Braced, Brought, brought_kn
from pentice.checks.eaves import EavesForces
from pentice.checks.fasteners import NOT_HERE, fastened
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.level_posts import LEVEL_RULES, Lifted, post_level_checks
from pentice.checks.pads import GROUND_RULES, ground_checks
from pentice.checks.pads_values import AtFoot, Rise, Standing, pad_weight_step
from pentice.checks.passed_on import Combined
from pentice.checks.posts import post_line_n_mm, post_weight_step
from pentice.checks.rests import of_frame
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.frame.values import Post
from pentice.records import quickly_made
from pentice.standards.pads import CONCRETE_KN_M3, pad_weight_kn
from pentice.working import Step

_EQU = "EN 1990, Table A1.2(A)"
_HAIR_KN = 1e-6
TIE = Rule(id="post-tie", name="Beam held down to the post", member="post", clause=_EQU, unit="kN")
BASE = Rule(id="post-base", name="Post held down to its base", member="base", clause=_EQU, unit="kN")
PAD = Rule(id="pad-uplift", name="Pad, weight against uplift", member="base", clause=_EQU, unit="kN")
RULES = (TIE, BASE, *LEVEL_RULES, PAD, *GROUND_RULES)


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """The uplift combination that asks most of one joint [kN]."""

    case: Combined
    up_kn: float
    """What lifts: the variable part with its factor; never below 0."""
    weight_kn: float
    """What the roof's own weight holds, with its factor."""
    arrives_kn: float
    """What arrives in all, down positive."""
    roof_kn: float
    """Of it the roof's weight with its factor."""
    own_lift_kn: float = 0.0
    """Of the roof's weight what lifts here, its place being such, characteristic: counted with the greater factor."""
    more: float = 0.0
    """By how much that factor is the greater [-]."""
    braced: Braced = ()
    """Of what lifts, what bracing does."""

    def steps(self) -> tuple[Step, ...]:
        """What bracing brings, then the lift as a line of working."""
        return (*(step for part in self.braced for step in part.steps()), self.step())

    def step(self) -> Step:
        """The lift alone."""
        acting = [part for part in self.braced if part.kn]
        return Step(
            says="What lifts",
            formula=" + ".join(("gamma G - R", *(part.says for part in acting))),
            numbers=f"max({self.roof_kn:.4f} - ({self.arrives_kn:.4f}), 0)"
            f"{''.join(f' + {part.kn:.4f}' for part in acting)}; {self.case.combination.name}",
            result=self.up_kn,
            unit="kN",
            clause=f"{self.case.combination.clause}; R all that arrives here in it, down positive; before it "
            "the roof's own weight of that",
        )

    def weight_steps(self) -> tuple[Step, ...]:
        """The weight that holds, where some of it lifts."""
        if not self.own_lift_kn:
            return ()
        low = self.case.combination.dead
        return (
            Step(
                says="Weight that holds, what of it lifts here taken with the greater factor",
                formula="gamma_inf G - (gamma_sup - gamma_inf) G_lifts",
                numbers=f"{self.roof_kn:.4f} - ({low + self.more:g} - {low:g}) x {self.own_lift_kn:.5f}",
                result=self.roof_kn - self.more * self.own_lift_kn,
                unit="kN",
                clause=f"{self.case.combination.clause}; first the roof's weight, last what of it lifts by itself",
            ),
        )


def held_down_checks(
    ground: Ground,
    forces: EavesForces,
    pairs: Sequence[Brought],
    pushes: Sequence[Sequence[AtFoot]] | None,
    ties: Sequence[Braced] = (),
    heads: Sequence[Sequence[AtFoot]] | None = None,
    unknown: str = "",
) -> Iterator[Check]:
    """Beam to post, post to base and pad, for every post.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination puts on the posts.
    pairs
        What the pushes on the posts lift at each post besides, and press on another one [kN].
    pushes
        What they bring to each foot, level and turning; None where it is not known.
    ties
        What bracing lifts at the joint of each post with its beam; none: the pairs.
    heads
        What the pushes bring level to that joint; None where it is not known.
    unknown
        Why what closed walls bring to the posts is not known; empty where it is, or where there are none.

    Yields
    ------
    Check
        Where weight alone does not hold and no resistance is declared: refused, with the force it needs.

    Source
    ------
    EN 1990:2002, 6.4.1(1)a and Table A1.2(A): 0.9 G against 1.5 W.
    """
    frame = ground.job.frame
    base = "Posts that stand already: find out what holds them." if _stand_already(ground) else ""
    lifted: list[tuple[Lifted, Lifted]] = []
    for k, post in enumerate(forces.beam.posts):
        bare, place = _lift(ground, forces, k), Place(post=post.number)
        lift = braced(bare, (pairs[k],))
        favourable = lift.case.combination.dead
        own = favourable * _post_kn(ground, post)
        on_tie = braced(bare, ties[k]) if ties else lift
        yield held(ground, TIE, place, on_tie, "frame.post_tie_kn", joint="post tie")
        on_base = replace(lift, weight_kn=lift.weight_kn + own)
        yield held(ground, BASE, place, on_base, "frame.post_base_kn", base)
        lifted.append((_lifted(on_tie), _lifted(on_base)))
        if frame.pad_mm is None:
            need = max(lift.up_kn - lift.weight_kn - own, 0.0)
            size = need / (favourable * CONCRETE_KN_M3)
            weigh = f"{need / favourable:.2f} kN or more ({size:.2f} m3 of concrete)"
            why = f"Each pad must weigh {weigh}: give frame.pad_mm."
            yield open_check(PAD, place, "refused", Shown(says=why), demand=need, case=lift.case.words)
            for rule in GROUND_RULES:
                yield open_check(rule, place, "refused", Shown(says="Give frame.pad_mm."))
            continue
        pad = pad_weight_kn(*frame.pad_mm)
        weighs = partial(_weighs, ground, post, lift, frame.pad_mm)
        yield _pad_uplift(ground, place, lift, lift.weight_kn + own + favourable * pad, weighs)
        standing = Standing(
            pad_kn=pad,
            post_kn=_post_kn(ground, post),
            roof_kn=_dead_kn(forces, k)[1],
            pair=pairs[k],
            weight_kn=lift.weight_kn + own + favourable * pad,
            weighs=weighs,
            lift=_rise(lift),
            rises=[_rise(braced(one, (pairs[k],))) for one in _on_ground(ground, forces, k)],
        )
        yield from ground_checks(ground, forces, k, standing, None if pushes is None else pushes[k])
    yield from post_level_checks(ground, forces, heads, pushes, lifted, unknown)


def _lifted(lift: Lift) -> Lifted:
    return Lifted(
        up_kn=lift.up_kn,
        weight_kn=lift.weight_kn,
        case=lift.case.words,
        clause=lift.case.combination.clause,
    )


def _rise(lift: Lift) -> Rise:
    return Rise(up_kn=lift.up_kn, steps=lift.steps, case=lift.case)


def _on_ground(ground: Ground, forces: EavesForces, k: int) -> list[Lift]:
    """What lifts where the ground under a pad is looked at: 0.9 G is for loss of equilibrium alone."""
    found = [lift for lift in lifts_on(ground, forces, k) if lift.case.combination.clause != _EQU]
    return found or [_weight_alone(ground, forces, k)]


def _stand_already(ground: Ground) -> bool:
    return ground.job.frame.rafter_centres_mm is not None


def braced(lift: Lift, by: Braced) -> Lift:
    """A lift with what bracing adds to it.

    Parameters
    ----------
    lift, by
        Without it, and its parts [kN].

    Returns
    -------
    Lift
        [kN].

    Source
    ------
    Equilibrium: all of it at once, on the safe side.
    """
    return replace(lift, up_kn=lift.up_kn + brought_kn(by), braced=by)


def _lift(ground: Ground, forces: EavesForces, k: int) -> Lift:
    """The lift that asks most; only weight where no wind lifts anything."""
    found = lifts_on(ground, forces, k)
    if not found:
        return _weight_alone(ground, forces, k)
    return max(found, key=lambda lift: lift.up_kn - lift.weight_kn)


def _weight_alone(ground: Ground, forces: EavesForces, k: int) -> Lift:
    dead, weight = _dead_kn(forces, k)
    return lift_of(ground, dead, weight, weight, 0.0)


def _dead_kn(forces: EavesForces, k: int) -> tuple[Combined, float]:
    dead = forces.loads.dead_alone
    return forces.cases[dead], float(forces.reactions_n[dead, k]) / 1000.0


def lifts_on(ground: Ground, forces: EavesForces, k: int) -> list[Lift]:
    """What each combination for uplift lifts at the head of a post, in the case of it that lifts most.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination puts on the posts.
    k
        Place of the post in the row.

    Returns
    -------
    list of Lift
        One for each combination [kN]; without what bracing lifts.

    Source
    ------
    As `lift_of`: in one combination all but what arrives is alike.
    """
    (_, weight), lifts = _dead_kn(forces, k), float(forces.dead_lifts_n[k]) / 1000.0
    found = []
    for of, least in zip(forces.loads.at_their_most_by_combination, forces.least_pressed[k], strict=True):
        combination = forces.cases[least].combination
        if combination.kind == "uplift":
            holds, arrives = combination.dead * weight, float(forces.reactions_n[least, k]) / 1000.0
            if arrives >= holds:  # none of them lifts: the first stands for all
                least, arrives = of[0], float(forces.reactions_n[of[0], k]) / 1000.0
            found.append(lift_of(ground, forces.cases[least], arrives, holds, lifts))
    return found


def lift_of(ground: Ground, case: Combined, arrives_kn: float, roof_kn: float, lifts_kn: float) -> Lift:
    """What lifts in a combination.

    Parameters
    ----------
    ground
        The inputs of every check.
    case
        The combination.
    arrives_kn
        What arrives at the joint, down positive [kN].
    roof_kn
        Of it the roof's own weight, with its factor [kN].
    lifts_kn
        What of that weight lifts here by itself, characteristic, 0 or more [kN].

    Returns
    -------
    Lift
        [kN].

    Source
    ------
    EN 1990:2002, 6.4.1(1)a and Table A1.2(A): the two sides apart, weight that lifts with gamma_G,sup.
    """
    factors = ground.annex.factors
    more = (
        max(factors.equ_permanent_up - case.combination.dead, 0.0)
        if case.combination.kind == "uplift"
        else 0.0
    )
    lifts_kn = lifts_kn if lifts_kn > _HAIR_KN else 0.0
    return Lift(
        case=case,
        up_kn=max(roof_kn - arrives_kn, 0.0),
        weight_kn=roof_kn - more * lifts_kn,
        arrives_kn=arrives_kn,
        roof_kn=roof_kn,
        own_lift_kn=lifts_kn,
        more=more,
    )


def held(
    ground: Ground,
    rule: Rule,
    place: Place,
    lift: Lift,
    key: str,
    more: str = "",
    joint: str = "",
) -> Check:
    """Weight and a resistance, declared or of the fasteners, against what lifts.

    Parameters
    ----------
    ground, rule, place
        What is asked, and where.
    lift
        What lifts and what weight holds.
    key
        Key of the job that holds the declared resistance [kN].
    more
        A sentence to add.
    joint
        Name of the joint whose fasteners the job may describe instead; empty: none.

    Returns
    -------
    Check
        Refused, with the force that is needed, where weight does not do and nothing is declared.

    Source
    ------
    EN 1990:2002, Table A1.2(A).
    """
    case, up_kn, weight_kn = lift.case, lift.up_kn, lift.weight_kn
    declared = getattr(ground.job.frame, key.partition(".")[2])
    need = up_kn - weight_kn
    by = fastened(ground, joint, case.combination) if declared is None else None
    if declared is None and (by is None or by.refused) and need > 0.0:
        why = f"Needs {need:.2f} kN to hold it down. "
        if by is not None:
            why += by.refused
        else:
            why += f"Give {key}, the declared design resistance of what you fit"
            why += ", or what fastens it: frame.fasteners." if joint else "."
        return open_check(
            rule,
            place,
            "refused",
            lambda: Shown(says=f"{why} {more}".strip(), rests_on=_inputs(ground, lift)),
            demand=up_kn,
            case=case.words,
        )
    fixed = by.resistance_kn if by is not None else declared or 0.0

    def shown() -> Shown:
        step = Step(
            says="Held down by",
            formula="gamma G + R_d",
            numbers=f"{weight_kn:.4f} + {fixed:.4g}",
            result=weight_kn + fixed,
            unit="kN",
            clause=f"{_EQU}; {case.combination.name}",
        )
        says, rests = more, _inputs(ground, lift)
        if declared is not None:
            rests = (*rests, ground.of_job(key, declared))
        if by is not None and not by.refused:
            says, rests = f"{NOT_HERE} {more}".strip(), (*rests, ground.of_job("frame.fasteners", joint))
        return Shown(
            says=says,
            rests_on=rests,
            working=(*lift.steps(), *lift.weight_steps(), *(by.working if by is not None else ()), step),
            cure="A stronger tie, or more weight below it.",
        )

    return compared(rule, place, demand=up_kn, capacity=weight_kn + fixed, case=case.words, shown=shown)


def _pad_uplift(
    ground: Ground, place: Place, lift: Lift, holds_kn: float, weighs: Callable[[], tuple[Step, ...]]
) -> Check:
    def shown() -> Shown:
        return Shown(
            rests_on=(*_weather(ground), *of_frame(ground, "post_mm", "pad_mm")),
            working=(*lift.steps(), *weighs()),
            cure="A bigger pad.",
        )

    return compared(PAD, place, demand=lift.up_kn, capacity=holds_kn, case=lift.case.words, shown=shown)


def _weighs(ground: Ground, post: Post, lift: Lift, size_mm: tuple[float, float, float]) -> tuple[Step, ...]:
    """What of roof, post and pad holds against a lift, with its factor; the last line is all of it."""
    factor = lift.case.combination.dead
    own, pad = post_weight_step(ground, post, factor), pad_weight_step(size_mm, factor)
    parts = (lift.weight_kn, float(own.result), float(pad.result))
    return (
        *lift.weight_steps(),
        own,
        pad,
        Step(
            says="Weight that holds",
            formula="gamma (G_roof + G_post + G_pad)",
            numbers=" + ".join(f"{part:.4f}" for part in parts),
            result=sum(parts),
            unit="kN",
            clause=f"{_EQU}; soil beside it not counted",
        ),
    )


def _post_kn(ground: Ground, post: Post) -> float:
    """Weight of a post; nothing where its length is not known [kN]."""
    return post_line_n_mm(ground, post) * (post.length_mm or 0.0) / 1000.0


def _inputs(ground: Ground, lift: Lift) -> tuple[RestsOn, ...]:
    knees = any(part.kn and part.numbers and part.says == KNEE for part in lift.braced)
    return (*_weather(ground), *(of_frame(ground, "knee_mm") if knees else ()))


def _weather(ground: Ground) -> tuple[RestsOn, ...]:
    return (ground.of_snow(), ground.of_wind(), *ground.of_side_wind())
