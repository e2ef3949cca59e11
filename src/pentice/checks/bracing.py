"""What holds the row of posts upright along the wall: braces or feet, and the posts they bend."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.braced_beam import braced_beam
from pentice.checks.bracing_posts import BENT, BentPosts, bent_posts_along
from pentice.checks.brought import Braced
from pentice.checks.eaves import EavesForces
from pentice.checks.foot_sway import Blown, held_row, sway_of_feet
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.knee_bolts import Net, bolt_inputs, net_section
from pentice.checks.onto_posts import along_the_row
from pentice.checks.pulled_posts import Bends
from pentice.checks.racking import Racking, push_inputs
from pentice.checks.rests import Row, of_beam
from pentice.checks.sway import ALONG as SWAY_ALONG
from pentice.checks.sway import sway_along
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.mechanics.bracing import braced_bay, cantilever_foot_moment_n_mm, knee_braced_post
from pentice.working import Step

BRACING = Rule(
    id="bracing", name="Bracing along the wall", member="frame", clause="statics; EN 1990, 6.10", unit="kN"
)
RULES = (BRACING, BENT)
_STATICS = "equilibrium"
_CURE = "Stronger or more braces, or a stiffer frame: ask a structural engineer."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    """What one kind of bracing makes of the push: the force to compare, its working, and how it bends a post."""

    demand: float
    capacity: float | None
    key: str
    unit: str
    step: Step
    moment_kn_m: float
    """In each post along the wall; 0 where it stays straight."""
    moment: Step | None
    bowing: float
    """Buckling length of a post along the wall, in its own lengths."""
    net: Net | None = None
    """What the bolts of a knee brace leave of its post; None where no timber is bolted."""


def bracing_checks(ground: Ground, forces: EavesForces, push: Racking) -> Iterator[Check]:
    """Bracing along the wall, and the posts that it bends.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination puts on the posts.
    push
        Along the wall.

    Yields
    ------
    Check
        Refused, with the force that is needed, where nothing says what holds the row upright.

    Source
    ------
    Equilibrium, as `pentice.mechanics.bracing`; EN 1995-1-1:2004, 6.3.2.
    """
    frame = ground.job.frame
    if frame.bracing is None:
        yield _declared(ground, forces, push)
        return
    try:
        held = _KINDS[frame.bracing](ground, forces, push)
    except OutsideScope as refusal:
        for rule in RULES:
            yield open_check(rule, Place(), "refused", Shown(says=str(refusal)), demand=None)
        return
    yield _braces(ground, forces, push, held)
    if frame.bracing == "knee braces":
        timber = ground.parts.timber_for("post")
        of_class = ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class)
        rests = (*of_beam(ground, forces.beam.row), of_class, *_inputs(ground, forces.beam.row))
        yield sway_along(ground, forces, push, rests)
        yield braced_beam(ground, forces, push)
    elif frame.bracing == "fixed feet":
        yield _sway_of_feet(ground, forces, push)
    bent = _bent_posts(ground, forces, held)
    if bent is not None:
        yield bent_posts_along(ground, forces, push, bent)


def _sway_of_feet(ground: Ground, forces: EavesForces, push: Racking) -> Check:
    held = held_row(ground, forces.beam.posts, push.height_mm)
    on = Blown(wind_kn=push.wind_kn, parts=push.parts, weight_kn=push.weight_kn)
    return sway_of_feet(ground, SWAY_ALONG, held, on, _inputs(ground, forces.beam.row))


def _bent_posts(ground: Ground, forces: EavesForces, held: _Held) -> BentPosts | None:
    """What the bracing does to each post; None where they stay straight."""
    if held.moment is None:
        return None
    return BentPosts(
        moment_knm=held.moment_kn_m,
        bowing=held.bowing,
        net=held.net,
        step=held.moment,
        rests_on=_inputs(ground, forces.beam.row),
    )


def bends_along(ground: Ground, forces: EavesForces, push: Racking) -> BentPosts | None:
    """What the bracing along the wall bends each post by.

    Parameters
    ----------
    ground, forces, push
        As in `bracing_checks`.

    Returns
    -------
    BentPosts or None
        None where the posts stay straight, or where nobody says what braces them.

    Raises
    ------
    OutsideScope
        The bracing lies outside what is covered.

    Source
    ------
    As `bracing_checks`.
    """
    kind = ground.job.frame.bracing
    return None if kind is None else _bent_posts(ground, forces, _KINDS[kind](ground, forces, push))


def bent_along(ground: Ground, forces: EavesForces, push: Racking, lifts: Sequence[Braced]) -> Bends | None:
    """What the bracing along the wall bends the posts of a row by while uplift pulls at them.

    Parameters
    ----------
    ground, forces, push
        As in `bracing_checks`.
    lifts
        What the push along lifts at the head of each post, its knee brace counted.

    Returns
    -------
    Bends or None
        None where the posts stay straight, or where nobody says what braces them.

    Raises
    ------
    OutsideScope
        The bracing lies outside what is covered.

    Source
    ------
    As `bracing_checks`.
    """
    bent = bends_along(ground, forces, push)
    if bent is None:
        return None
    return Bends(
        about="z",
        moment_knm=lambda k, case: bent.moment_knm,
        lifts=lifts,
        steps=lambda k, case: (bent.step,),
        net=bent.net,
    )


def _declared(ground: Ground, forces: EavesForces, push: Racking) -> Check:
    declared = ground.job.frame.bracing_kn
    if declared is None:

        def refusal() -> Shown:
            why = (
                f"The row of posts must hold {push.push_kn:.2f} kN {ground.along} at the height of the beam. Say how: "
                "frame.bracing, or frame.bracing_kn where others have shown it."
            )
            return Shown(
                says=why,
                rests_on=_inputs(ground, forces.beam.row),
                working=push.working,
                cure="Knee braces at the posts.",
            )

        return open_check(BRACING, Place(), "refused", refusal, demand=push.push_kn)

    def shown() -> Shown:
        return Shown(
            says=_level(push, _feet_take(ground, forces, push)),
            rests_on=(*_inputs(ground, forces.beam.row), ground.of_job("frame.bracing_kn", declared)),
            working=push.working,
            cure=_CURE,
        )

    return compared(BRACING, Place(), demand=push.push_kn, capacity=declared, shown=shown)


def _level(push: Racking, feet: str) -> str:
    pair = f"Its outermost posts also take {push.pair_kn:.2f} kN up and down, counted with what lifts and presses."
    return f"{feet} {pair}"


def _braces(ground: Ground, forces: EavesForces, push: Racking, held: _Held) -> Check:
    rule = BRACING if held.unit == BRACING.unit else Rule(
        id=BRACING.id, name=BRACING.name, member=BRACING.member, clause=BRACING.clause, unit=held.unit
    )  # fmt: skip
    working = (*push.working, held.step)
    if held.capacity is None:

        def refusal() -> Shown:
            more = (
                ", and more as it is pushed and lifted at once: see the post's base"
                if held.unit == "kNm"
                else ""
            )
            give = f"Give frame.{held.key}, declared or shown by others."
            why = f"Each must hold {held.demand:.2f} {held.unit}{more}. {give}"
            return Shown(says=why, rests_on=_inputs(ground, forces.beam.row), working=working)

        return open_check(rule, Place(), "refused", refusal, demand=held.demand)

    def shown() -> Shown:
        return Shown(
            says=_also_takes(ground, forces, push),
            rests_on=(*_inputs(ground, forces.beam.row), ground.of_job(f"frame.{held.key}", held.capacity)),
            working=working,
            cure=_CURE,
        )

    return compared(rule, Place(), demand=held.demand, capacity=held.capacity, shown=shown)


def _also_takes(ground: Ground, forces: EavesForces, push: Racking) -> str:
    """What feet, joints and posts take beside the bracing itself, in words."""
    feet = _feet_take(ground, forces, push)
    if ground.job.frame.bracing == "knee braces":
        each = push.push_kn / len(forces.beam.posts)
        head = each * (push.height_mm / ground.job.frame.knee_mm[0] - 1.0)
        feet = f"{feet} The joint of each post with its beam also takes {head:.2f} kN level."
    if ground.job.frame.bracing == "diagonal":
        pair = max(pairs_kn(ground, forces, push))
        return (
            f"The foot of the diagonal also takes {push.push_kn:.2f} kN level, and the posts of its field "
            f"{pair:.2f} kN up and down, counted with what lifts and presses."
        )
    return _level(push, feet) if ground.job.frame.bracing != "fixed feet" else feet


def _feet_take(ground: Ground, forces: EavesForces, push: Racking) -> str:
    """What each foot takes level of the push, in words: an even share, as `bracing_brings.feet_along` has it."""
    each = push.push_kn / len(forces.beam.posts)
    closed = "closed" in (ground.job.roof.left, ground.job.roof.right)
    return (
        f"Every foot also takes about {each:.2f} kN level from this push. Wind on the "
        f"{'walls' if closed else 'posts'} brings more: see the bases and pads."
    )


def _knees(ground: Ground, forces: EavesForces, push: Racking) -> _Held:
    frame, posts = ground.job.frame, forces.beam.posts
    knee, reach = frame.knee_mm
    found = knee_braced_post(
        push.push_kn * 1000.0,
        posts=len(posts),
        bay_mm=posts[-1].x_mm - posts[0].x_mm,
        height_mm=push.height_mm,
        knee_mm=knee,
        reach_mm=reach,
    )
    share, (b, d) = f"{push.push_kn:.4f} / {len(posts)}", posts[0].size_mm
    bends = _bends(ground, forces, push, found.post_moment_n_mm / 1e6)
    of_timber = ground.parts.post_section is None
    return _Held(
        demand=found.brace_n / 1000.0,
        capacity=frame.brace_kn,
        key="brace_kn",
        unit="kN",
        step=Step(
            says="In each knee brace, pulled or pressed",
            formula="(H / n) (h / a) sqrt(a^2 + b^2) / b",
            numbers=f"{share} x {push.height_mm:.1f} / {knee:g} x sqrt({knee:g}^2 + {reach:g}^2) / {reach:g}",
            result=found.brace_n / 1000.0,
            unit="kN",
            clause=f"{_STATICS}; one brace at each post counts; a, b from faces, as if from middle lines: safe side",
        ),
        moment_kn_m=float(bends.result),
        moment=bends,
        bowing=2.0,
        net=net_section(ground, d, b) if of_timber else None,
    )


def _bends(ground: Ground, forces: EavesForces, push: Racking, pushed_knm: float) -> Step:
    """What bends a post where its knee brace meets it; with wind on the post itself where an end is open."""
    count, arm = len(forces.beam.posts), push.height_mm - ground.job.frame.knee_mm[0]
    formula, numbers = "(H / n) (h - a)", f"{push.push_kn:.4f} / {count} x {arm:.1f} / 1000"
    of_post = [_own_wind(ground, post, arm) for post in forces.beam.posts]
    own, tall, moment = max(of_post, key=lambda one: one[2], default=(0.0, 0.0, 0.0))
    if not moment:
        return _moment_where_braced(formula, numbers, pushed_knm, _STATICS)
    return _moment_where_braced(
        "(H / n + H_p) (h - a) - H_p (h - a)^2 / l",
        f"({push.push_kn:.4f} / {count} + {own:.5f}) x {arm:.1f} / 1000 - {own:.5f} x {arm:.1f}^2 / {tall:.1f} / 1000",
        pushed_knm + moment,
        f"{_STATICS}; with wind on half of the post, as at its base",
    )


def _moment_where_braced(formula: str, numbers: str, moment_knm: float, clause: str) -> Step:
    return Step(
        says="Bends the post where the brace meets it",
        formula=f"M = {formula}",
        numbers=numbers,
        result=moment_knm,
        unit="kNm",
        clause=clause,
    )


def _own_wind(ground: Ground, post: Post, arm_mm: float) -> tuple[float, float, float]:
    """Wind on half of a post that stands free [kN], its length [mm], and what that adds where it is braced [kNm]."""
    wind = along_the_row(ground, post)
    if wind is None or not post.length_mm:
        return 0.0, 0.0, 0.0
    half = float(wind.result)
    return half, post.length_mm, half * arm_mm * (1.0 - arm_mm / post.length_mm) / 1000.0


def _diagonal(ground: Ground, forces: EavesForces, push: Racking) -> _Held:
    bay = widest_bay_mm(forces)
    found = braced_bay(push.push_kn * 1000.0, bay_mm=bay, height_mm=push.height_mm)
    return _Held(
        demand=found.diagonal_n / 1000.0,
        capacity=ground.job.frame.brace_kn,
        key="brace_kn",
        unit="kN",
        step=Step(
            says="In the diagonal of the widest bay, pulled or pressed",
            formula="H sqrt(b^2 + h^2) / b",
            numbers=f"{push.push_kn:.4f} x sqrt({bay:.1f}^2 + {push.height_mm:.1f}^2) / {bay:.1f}",
            result=found.diagonal_n / 1000.0,
            unit="kN",
            clause=_STATICS,
        ),
        moment_kn_m=0.0,
        moment=None,
        bowing=1.0,
    )


def _feet(ground: Ground, forces: EavesForces, push: Racking) -> _Held:
    count = len(forces.beam.posts)
    moment = cantilever_foot_moment_n_mm(push.push_kn * 1000.0, push.height_mm, count) / 1e6
    step = Step(
        says="At the foot of each post",
        formula="M = H h / n",
        numbers=f"{push.push_kn:.4f} x {push.height_mm:.1f} / 1000 / {count}",
        result=moment,
        unit="kNm",
        clause=f"{_STATICS}; the ground under it must hold it too",
    )
    return _Held(
        demand=moment,
        capacity=ground.job.frame.post_foot_knm,
        key="post_foot_knm",
        unit="kNm",
        step=step,
        moment_kn_m=moment,
        moment=step,
        bowing=2.0,
    )


_KINDS: Mapping[str, Callable[[Ground, EavesForces, Racking], _Held]] = {
    "knee braces": _knees,
    "diagonal": _diagonal,
    "fixed feet": _feet,
}


def pairs_kn(ground: Ground, forces: EavesForces, push: Racking) -> list[float]:
    """What the push along the wall lifts at each post, and presses on another one.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        The beam with its posts.
    push
        Along the wall.

    Returns
    -------
    list of float
        For each post [kN]: the outermost ones of a row; with a diagonal both posts of each field as wide as the widest,
        since any of these may be the braced one; none where the feet are held against turning.

    Source
    ------
    Equilibrium, as `pentice.mechanics.bracing`.
    """
    posts = forces.beam.posts
    pairs = [0.0] * len(posts)
    if ground.job.frame.bracing == "diagonal":
        bay = widest_bay_mm(forces)
        for k, (a, b) in enumerate(pairwise(posts)):
            if b.x_mm - a.x_mm > bay - 1.0:
                pairs[k] = pairs[k + 1] = push.push_kn * push.height_mm / bay
    elif ground.job.frame.bracing != "fixed feet":
        pairs[0] = pairs[-1] = push.pair_kn
    return pairs


def knee_n(ground: Ground, forces: EavesForces, push: Racking) -> float:
    """What a knee brace pulls its beam off the post, or presses it on, beside what stands over the post.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        The beam with its posts.
    push
        Along the wall.

    Returns
    -------
    float
        [N]; 0 where no knee braces hold the row.

    Source
    ------
    Equilibrium: the upright part of the brace, (H / n) h / b, pushes the beam up or down at its reach b; the joint over
    the post takes as much the other way, and the beam between them is sheared by it. One brace at each post counts: of
    two, the one would undo the other, judgement, on the safe side.
    """
    if ground.job.frame.bracing != "knee braces":
        return 0.0
    reach = ground.job.frame.knee_mm[1]
    return push.push_kn * 1000.0 / len(forces.beam.posts) * push.height_mm / reach


def widest_bay_mm(forces: EavesForces) -> float:
    """The widest field between two posts [mm].

    Parameters
    ----------
    forces
        The beam with its posts.

    Returns
    -------
    float
        [mm].

    Source
    ------
    Definition.
    """
    return max(b.x_mm - a.x_mm for a, b in pairwise(forces.beam.posts))


def _inputs(ground: Ground, row: Row) -> tuple[RestsOn, ...]:
    frame, found = ground.job.frame, list(push_inputs(ground, row))
    if frame.bracing is not None:
        found.append(ground.of_job("frame.bracing", frame.bracing))
    if frame.bracing == "knee braces":
        found += [ground.of_job("frame.knee_mm", frame.knee_mm), *bolt_inputs(ground)]
    return tuple(found)
