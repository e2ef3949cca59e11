"""Posts to EN 1995-1-1: bowing under load with the wind that blows on them, or on the closed front that they hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from pentice.checks.beam_shown import on_post_step
from pentice.checks.brought import Brought
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.metal import metal_of
from pentice.checks.passed_on import Combined
from pentice.checks.post_sideways import (
    Axis,
    bowing_line,
    bows_along,
    governing,
    sideways_lines,
    slender_post,
    strength_lines,
    sum_step,
    with_sideways,
)
from pentice.checks.post_winds import PostWind, Way, blows_in, winds_on_post
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_post_material, of_posts
from pentice.checks.timber_shown import Strength, strength_in
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.worst import not_outdone
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.loads.weight import GRAVITY
from pentice.records import quickly_made
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1995_members import (
    MemberShare,
    TimberForces,
    TimberSection,
    TimberStrengths,
    bowing_post,
    pushed_member,
)
from pentice.working import Step

POST_SERVICE_CLASS: Final = 3
"""A post stands in the weather: judgement, no source."""
BOWING = Rule(
    id="post-bowing",
    name="Post, bowing under load",
    member="post",
    clause="EN 1995-1-1, 6.3.2, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
BENT_ABOUT: Mapping[Way, Axis] = {"square": "y", "along": "z"}
"""The axis of a post about which wind on it bends it."""
LENGTH_UNKNOWN = "The post's length is not known: give roof.eaves_height_mm, or the head height."
_CURE = "A wider post, or one more post."


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class _Bowing:
    """One post in one combination."""

    case: Combined
    beam_n: float
    """What its beam brings; up is negative."""
    force_n: float
    wind: PostWind
    share: MemberShare


class _Acts(NamedTuple):
    """What acts on one post in one combination."""

    case: Combined
    beam_n: float
    force_n: float
    wind: PostWind
    moment_n_mm: float


def post_checks(ground: Ground, forces: EavesForces, pairs: Sequence[Brought]) -> Iterator[Check]:
    """Bowing of every post.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination puts on the posts.
    pairs
        What the push along the wall, or across the roof, presses on each post besides.

    Yields
    ------
    Check
        One for each post; refused where its length is not known.

    Source
    ------
    EN 1995-1-1:2004, 6.3.2, both ends pinned. Wind on a closed front, or on a post that stands free, bends it between
    foot and beam, one way at a time.
    """
    timber = strength_class(ground.parts.timber_for("post").strength_class)
    for k, post in enumerate(forces.beam.posts):
        place = Place(post=post.number)
        if post.length_mm is None:
            yield open_check(BOWING, place, "refused", Shown(says=LENGTH_UNKNOWN))
            continue
        yield _bowing(ground, forces, timber, k, post.length_mm, pairs[k])


def post_holds(case: Combined) -> Strength:
    """What a post of strength 1 holds in one combination.

    Parameters
    ----------
    case
        The combination, for the duration of its loads.

    Returns
    -------
    Strength
        [-], with its factors.

    Source
    ------
    As `pentice.checks.timber_shown.strength_in`.
    """
    return strength_in(1.0, case.combination, POST_SERVICE_CLASS)


def post_strengths(timber: StrengthClass, case: Combined) -> TimberStrengths:
    """Strengths of a post in one combination.

    Parameters
    ----------
    timber
        The strength class.
    case
        The combination, for the duration of its loads.

    Returns
    -------
    TimberStrengths
        [N/mm2], with the factors of a post in the weather.

    Source
    ------
    EN 1995-1-1:2004, 2.4.1, 3.1.3.
    """
    of = post_holds(case)
    return TimberStrengths(
        f_m_k_n_mm2=timber.f_m_k_n_mm2,
        f_t_0_k_n_mm2=timber.f_t_0_k_n_mm2,
        f_c_0_k_n_mm2=timber.f_c_0_k_n_mm2,
        e_0_05_n_mm2=timber.e_0_05_n_mm2,
        k_mod=of.k_mod,
        gamma_m=of.gamma,
    )


def _bowing(
    ground: Ground, forces: EavesForces, timber: StrengthClass, k: int, length: float, pair: Brought
) -> Check:
    post = forces.beam.posts[k]
    b, d = post.size_mm
    section = TimberSection(width_mm=b, depth_mm=d)
    weight = post_line_n_mm(ground, post) * length

    try:
        winds = winds_on_post(ground, forces, k)
        bowing = bowing_post(
            section, post_strengths(timber, forces.cases[0]), length_y_mm=length, length_z_mm=length
        )
    except OutsideScope as refusal:
        return open_check(BOWING, Place(post=post.number), "refused", Shown(says=str(refusal)))

    sideways = {
        about: slender_post(section, post_strengths(timber, forces.cases[0]), length_mm=length, about=about)
        for about in {BENT_ABOUT[wind.way] for wind in winds}
    }

    def acts(i: int, wind: PostWind) -> _Acts:
        case, beam = forces.cases[i], float(forces.reactions_n[i, k])
        racked = pair.kn * 1000.0 if case.combination.kind == "strength" else 0.0
        force = max(beam + case.combination.dead * weight + racked, 0.0)
        return _Acts(case, beam, force, wind, wind.moment_n_mm(case.combination.wind, length))

    def used(acting: _Acts) -> _Bowing:
        case, beam, force, wind, moment = acting
        about = BENT_ABOUT[wind.way]
        y, z = (moment, 0.0) if about == "y" else (0.0, moment)
        on = TimberForces(axial_n=-force, moment_y_n_mm=y, moment_z_n_mm=z)
        pushed = pushed_member(section, on, post_strengths(timber, case), bowing)
        share = with_sideways(pushed, bowing, sideways[about], about)
        return _Bowing(case=case, beam_n=beam, force_n=force, wind=wind, share=share)

    acting = not_outdone(
        (
            acts(i, wind)
            for i in forces.most_pressed[k]
            for wind in blows_in(winds, forces.cases[i].combination)
        ),
        kind=lambda one: (one.wind.way, post_holds(one.case)),
        amounts=lambda one: (one.force_n, one.moment_n_mm),
    )
    worst = max(map(used, acting), key=lambda w: w.share.utilisation)

    def shown() -> Shown:
        wind, about = worst.wind, BENT_ABOUT[worst.wind.way]
        along = bows_along(governing(worst.share), about)
        working = (
            *push_steps(ground, post, worst.case, worst.beam_n, pair),
            *wind.steps(worst.case.combination.wind, length),
            *_stress_lines(post, worst, about),
            *strength_lines(worst.share, section, timber, post_strengths(timber, worst.case), about),
            bowing_line(bowing, section, timber, length_mm=length, along=along),
            *sideways_lines(worst.share, sideways[about], timber),
            sum_step("Both together", worst.share, bowing, sideways[about], about, more="service class 3"),
        )
        return Shown(
            says=beside_a_drive(ground),
            rests_on=_inputs(ground, forces),
            working=working,
            cure=_CURE,
        )

    return compared(
        BOWING,
        Place(post=post.number),
        demand=worst.share.utilisation,
        capacity=1.0,
        case=worst.case.words,
        shown=shown,
    )


def _stress_lines(post: Post, worst: _Bowing, about: Axis) -> Iterator[Step]:
    """From what presses and bends a post to its stresses."""
    b, d = post.size_mm
    yield Step(
        says="Stress from the push down",
        formula="sigma_c = N / (b d)",
        numbers=f"{worst.force_n:.1f} / ({b:g} x {d:g})",
        result=-worst.share.axial_n_mm2,
        unit="N/mm2",
        clause="6.1.4",
    )
    y = about == "y"
    bent = worst.share.bending_y_n_mm2 if y else worst.share.bending_z_n_mm2
    if bent:
        thin, deep = (b, d) if y else (d, b)
        moment = worst.wind.moment_n_mm(worst.case.combination.wind, post.length_mm or 0.0)
        yield Step(
            says="Stress from bending",
            formula="sigma_m = 6 M / (b d^2)" if y else "sigma_m = 6 M / (d b^2)",
            numbers=f"6 x {moment / 1e6:.6f} x 10^6 / ({thin:g} x {deep:g}^2)",
            result=bent,
            unit="N/mm2",
            clause="6.1.6",
        )


def pressed_while_pushed(forces: EavesForces, k: int) -> list[int]:
    """Of each strength combination in which wind blows the case that presses most; of all where it does in none.

    Parameters
    ----------
    forces
        What each case puts on the posts.
    k
        Place of the post in the row.

    Returns
    -------
    list of int
        Places in `forces.cases`.

    Source
    ------
    The push along a row or across is the wind's: it lasts as long as the combinations with it.
    """
    strength = [i for i in forces.most_pressed[k] if forces.cases[i].combination.kind == "strength"]
    return [i for i in strength if forces.cases[i].combination.wind > 0.0] or strength


def push_steps(ground: Ground, post: Post, case: Combined, beam_n: float, pair: Brought) -> tuple[Step, ...]:
    """What presses on a post, its own weight and the pair of what pushes it among it.

    Parameters
    ----------
    ground, post, case, beam_n, pair
        The inputs of every check, the post, combination, what the beam brings in it [N], and the pair, which counts
        where strength is asked.

    Returns
    -------
    tuple of Step
        Each part, then the sum [kN]; nothing where the post is pulled.

    Source
    ------
    Equilibrium.
    """
    beam, weight = beam_n / 1000.0, post_weight_step(ground, post, case.combination.dead)
    own, counts = float(weight.result), pair.kn and case.combination.kind == "strength"
    added = (f" + {pair.says}", f" + {pair.kn:.4f}") if counts else ("", "")
    return (
        on_post_step(case, beam_n),
        weight,
        *(pair.steps() if counts else ()),
        Step(
            says="On the post in all",
            formula=f"N = R of the beam + own weight{added[0]}",
            numbers=f"max({beam:.4f} + {own:.4f}{added[1]}, 0); {case.combination.name}",
            result=max(beam + own + (pair.kn if counts else 0.0), 0.0),
            unit="kN",
            clause=case.combination.clause,
        ),
    )


def post_weight_step(ground: Ground, post: Post, factor: float) -> Step:
    """What a post weighs.

    Parameters
    ----------
    ground, post, factor
        The inputs of every check, the post, and the factor of dead load [-].

    Returns
    -------
    Step
        [kN]; 0 where its length is not known.

    Source
    ------
    As `post_line_n_mm`.
    """
    long, section = (post.length_mm or 0.0) / 1000.0, ground.parts.post_section
    if section is None:
        b, d = (side / 1000.0 for side in post.size_mm)
        rho = strength_class(ground.parts.timber_for("post").strength_class).rho_mean_kg_m3
        formula, of = "gamma b d l rho x 9.81", f"{b:g} x {d:g} x {long:.4f} x {rho:g}"
        clause = "EN 338, mean density"
    else:
        metal = metal_of(section)
        formula, clause = "gamma A l rho x 9.81", "area of the section, density of the metal"
        of = f"{metal.profile.area_mm2:.1f} x 10^(-6) x {long:.4f} x {metal.density_kg_m3:g}"
    return Step(
        says="Weight of the post",
        formula=formula,
        numbers=f"{factor:g} x {of} x 9.81 / 1000",
        result=factor * post_line_n_mm(ground, post) * long,
        unit="kN",
        clause=clause,
    )


def beside_a_drive(ground: Ground) -> str:
    """What a post of a carport needs besides; empty elsewhere.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    str
        A sentence.

    Source
    ------
    Judgement, no source.
    """
    guard = "A post beside a drive also needs a guard against vehicles: not checked here."
    return guard if ground.job.roof.use == "carport" else ""


def post_line_n_mm(ground: Ground, post: Post) -> float:
    """Own weight of a post along its length, of timber or metal.

    Parameters
    ----------
    ground, post
        The inputs of every check, and the post.

    Returns
    -------
    float
        [N/mm].

    Source
    ------
    Mean density of the strength class; of metal its own.
    """
    section = ground.parts.post_section
    if section is not None:
        return metal_of(section).line_n_mm
    timber = strength_class(ground.parts.timber_for("post").strength_class)
    return post.size_mm[0] * post.size_mm[1] * 1e-6 * timber.rho_mean_kg_m3 * GRAVITY


def _inputs(ground: Ground, forces: EavesForces) -> tuple[RestsOn, ...]:
    return (
        *of_posts(ground, forces.beam.row),
        of_post_material(ground),
        ground.of_snow(),
        ground.of_wind(),
        *ground.of_side_wind(),
    )
