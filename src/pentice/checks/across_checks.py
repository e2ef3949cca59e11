"""What holds a free-standing roof upright across: feet held against turning or knee braces, and the posts they bend."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pentice.checks.across import Across, held_across, turned_step
from pentice.checks.brought import Brought
from pentice.checks.eaves import EavesForces
from pentice.checks.foot_sway import Blown, sway_of_feet
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.knee_shown import Led
from pentice.checks.knees_across import knee_checks
from pentice.checks.metal import metal_of
from pentice.checks.metal_bent import BentRow, bent_metal_post
from pentice.checks.passed_on import Combined
from pentice.checks.post_sideways import (
    Slender,
    bowing_line,
    bows_along,
    governing,
    sideways_lines,
    slender_post,
    strength_lines,
    sum_step,
    with_sideways,
)
from pentice.checks.posts import (
    POST_SERVICE_CLASS,
    post_line_n_mm,
    post_strengths,
    pressed_while_pushed,
    push_steps,
)
from pentice.checks.pulled_posts import Bends
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_beam, of_frame, of_post_material, of_posts, of_roof
from pentice.checks.sway import ACROSS as SWAY_ACROSS
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.standards.en338 import strength_class
from pentice.standards.en1995_members import (
    BowingPost,
    MemberShare,
    TimberForces,
    TimberSection,
    bowing_post,
    pushed_member,
)
from pentice.working import Step

ACROSS = Rule(
    id="bracing-across",
    name="Bracing across, from head to eaves",
    member="frame",
    clause="statics; EN 1990, 6.10",
    unit="kN",
)
FEET = Rule(
    id="bracing-across",
    name="Feet held against turning across",
    member="frame",
    clause="statics; EN 1990, 6.10",
    unit="kNm",
)
BENT = Rule(
    id="post-across",
    name="Post, bent across the roof",
    member="post",
    clause="EN 1995-1-1, 6.3.2, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
RULES = (ACROSS, BENT)


def across_checks(
    ground: Ground, rows: Sequence[EavesForces], push: Across, racked: float | None
) -> Iterator[Check]:
    """What holds the roof upright across, and the posts that it bends.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts.
    push
        Across the roof.
    racked
        Share of its strength that the post bent along its row uses at most; None where none is bent [-].

    Yields
    ------
    Check
        Refused, with the force that is needed, where nothing says what holds it.

    Source
    ------
    Equilibrium; EN 1995-1-1:2004, 6.3.2, 6.3.3(6).
    """
    frame = ground.job.frame
    if push.knees is not None:
        knees = push.knees
        led = Led(
            push_kn=push.push_kn,
            lean=knees.lean,
            weight_kn=knees.weight_kn,
            wind_kn=push.wind_kn,
            parts=push.parts,
        )
        yield from knee_checks(ground, rows, knees, push.working, led, racked)
        return
    if push.refused:
        shown = Shown(says=push.refused, rests_on=_inputs(ground), working=push.working)
        yield open_check(ACROSS, Place(), "refused", shown, demand=push.push_kn)
        return
    if frame.bracing_across is not None:
        yield _feet(ground, rows, push)
        yield _sway(ground, rows, push)
        yield _bent(ground, rows, push)
        return
    rests, declared = _inputs(ground), frame.bracing_across_kn
    pair = max(map(max, push.pair_kn))
    says = f"The posts also take up to {pair:.2f} kN up and down, counted with what lifts and presses."
    if declared is None:
        why = (
            f"Both rows together must hold {push.push_kn:.2f} kN across at the height of the beams. Say how: "
            "frame.bracing_across, or frame.bracing_across_kn where others have shown it."
        )
        shown = Shown(says=why, rests_on=rests, working=push.working, cure="Feet held against turning.")
        yield open_check(ACROSS, Place(), "refused", shown, demand=push.push_kn)
        return
    shown = Shown(
        says=says,
        rests_on=(*rests, ground.of_job("frame.bracing_across_kn", declared)),
        working=push.working,
        cure="Stronger bracing: ask a structural engineer.",
    )
    yield compared(ACROSS, Place(), demand=push.push_kn, capacity=declared, shown=shown)


def _worst(push: Across) -> tuple[int, int]:
    """Row and place of the post whose foot is turned most."""
    places = [(r, k) for r, row in enumerate(push.moments_knm) for k in range(len(row))]
    return max(places, key=lambda at: push.moments_knm[at[0]][at[1]])


def _feet(ground: Ground, rows: Sequence[EavesForces], push: Across) -> Check:
    r, k = _worst(push)
    post, need, holds = rows[r].beam.posts[k], push.moments_knm[r][k], ground.job.frame.post_foot_knm
    working, rests = (*push.working, turned_step(rows, push, r, k)), _inputs(ground)
    place = Place(post=post.number)
    if holds is None:
        why = (
            f"Each foot must hold {need:.2f} kNm, and more as it is pushed and lifted at once: see the post's base. "
            "Give frame.post_foot_knm, declared or shown by others."
        )
        shown = Shown(says=why, rests_on=rests, working=working)
        return open_check(FEET, place, "refused", shown, demand=need)
    shown = Shown(
        says=f"This foot also takes {push.level_kn[r][k]:.2f} kN level from this push. Wind on the post brings more; "
        "all at once, with what lifts, is asked with the post's base.",
        rests_on=(*rests, ground.of_job("frame.post_foot_knm", holds)),
        working=working,
        cure="Stronger feet, or more posts: ask a structural engineer.",
    )
    return compared(FEET, place, demand=need, capacity=holds, shown=shown)


def _sway(ground: Ground, rows: Sequence[EavesForces], push: Across) -> Check:
    held = held_across(ground, rows)
    on = Blown(wind_kn=push.wind_kn, parts=push.parts, weight_kn=push.weight_kn)
    return sway_of_feet(ground, SWAY_ACROSS, held, on, _inputs(ground))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bent:
    """One post in one combination."""

    share: MemberShare
    bowing: BowingPost
    slender: Slender | None
    force_n: float
    beam_n: float
    """What its beam brings."""
    case: Combined
    post: Post
    at: tuple[int, int]


def _bent(ground: Ground, rows: Sequence[EavesForces], push: Across) -> Check:
    """The post that uses most of its strength, bent across and bowing as a post whose head can sway."""
    if ground.parts.post_section is not None:
        bent = [
            BentRow(forces=row, moments_knm=moments, pairs_kn=(0.0,) * len(moments))
            for row, moments in zip(rows, push.moments_knm, strict=True)
        ]
        return bent_metal_post(
            BENT,
            metal_of(ground.parts.post_section),
            bent,
            way="across",
            lengths=2.0,
            before=(*push.working, turned_step(rows, push, *_worst(push))),
            rests_on=_inputs(ground),
        )
    try:
        worst = max(_all_bent(ground, rows, push), key=lambda found: found.share.utilisation)
    except OutsideScope as refusal:
        return open_check(BENT, Place(), "refused", Shown(says=str(refusal)))
    share, timber = worst.share, strength_class(ground.parts.timber_for("post").strength_class)

    def shown() -> Shown:
        b, d = worst.post.size_mm
        section, strengths = TimberSection(width_mm=b, depth_mm=d), post_strengths(timber, worst.case)
        along, length = bows_along(governing(share), "y"), 2.0 * (worst.post.length_mm or 0.0)
        moment = push.moments_knm[worst.at[0]][worst.at[1]]
        working = (
            *push.working,
            turned_step(rows, push, *worst.at),
            *push_steps(ground, worst.post, worst.case, worst.beam_n, Brought(says="", kn=0.0)),
            Step(
                says="Stress from the push down",
                formula="sigma_c = N / (b d)",
                numbers=f"{worst.force_n:.1f} / ({b:g} x {d:g})",
                result=-share.axial_n_mm2,
                unit="N/mm2",
                clause="6.1.4",
            ),
            Step(
                says="Stress from bending across",
                formula="sigma_m = 6 M / (b d^2)",
                numbers=f"6 x {moment:.6f} x 10^6 / ({b:g} x {d:g}^2)",
                result=share.bending_y_n_mm2,
                unit="N/mm2",
                clause="6.1.6",
            ),
            *strength_lines(share, section, timber, strengths, "y"),
            bowing_line(worst.bowing, section, timber, length_mm=length, along=along, twice=True),
            *sideways_lines(share, worst.slender, timber),
            sum_step(
                "Both together",
                share,
                worst.bowing,
                worst.slender,
                "y",
                more=f"service class {POST_SERVICE_CLASS}; all at its greatest at once",
            ),
        )
        rests_on = (*_inputs(ground), of_post_material(ground))
        return Shown(rests_on=rests_on, working=working, cure="Thicker posts, or more of them.")

    place = Place(post=worst.post.number)
    return compared(BENT, place, demand=share.utilisation, capacity=1.0, case=worst.case.words, shown=shown)


def _all_bent(ground: Ground, rows: Sequence[EavesForces], push: Across) -> Iterator[_Bent]:
    timber = strength_class(ground.parts.timber_for("post").strength_class)
    for r, row in enumerate(rows):
        for k, post in enumerate(row.beam.posts):
            length, moment = post.length_mm or 0.0, push.moments_knm[r][k] * 1e6
            section = TimberSection(width_mm=post.size_mm[0], depth_mm=post.size_mm[1])
            weight = post_line_n_mm(ground, post) * length
            strengths = post_strengths(timber, row.cases[0])
            bowing = bowing_post(section, strengths, length_y_mm=2.0 * length, length_z_mm=2.0 * length)
            slender = slender_post(section, strengths, length_mm=length, about="y")
            for i in pressed_while_pushed(row, k):
                case = row.cases[i]
                beam = float(row.reactions_n[i, k])
                force = max(beam + case.combination.dead * weight, 0.0)
                acts = TimberForces(axial_n=-force, moment_y_n_mm=moment)
                share = pushed_member(section, acts, post_strengths(timber, case), bowing)
                share = with_sideways(share, bowing, slender, "y")
                yield _Bent(
                    share=share,
                    bowing=bowing,
                    slender=slender,
                    force_n=force,
                    beam_n=beam,
                    case=case,
                    post=post,
                    at=(r, k),
                )


def bent_across(rows: Sequence[EavesForces], push: Across, r: int) -> Bends | None:
    """What feet held against turning bend the posts of a row by while uplift pulls at them.

    Parameters
    ----------
    rows, push
        Both beams with their posts, and the push across.
    r
        Place of the row.

    Returns
    -------
    Bends or None
        None where the feet are not held; what knee braces do is with them.

    Source
    ------
    As `across`: held feet lift no post.
    """
    moments = push.moments_knm[r]
    if not any(moments):
        return None
    return Bends(
        about="y",
        moment_knm=lambda k, case: moments[k],
        lifts=((),) * len(moments),
        steps=lambda k, case: (turned_step(rows, push, r, k),),
    )


def _inputs(ground: Ground) -> tuple[RestsOn, ...]:
    frame = ground.job.frame
    beams = dict.fromkeys((*of_beam(ground, "eaves"), *of_beam(ground, "head")))
    sizes = (*of_posts(ground), *beams, *of_frame(ground, "rafter_mm"))
    roof = of_roof(ground, "width_mm", "pitch_deg", "head_height_mm")
    found = [*sizes, *roof, ground.of_snow(), ground.of_wind(), *ground.of_side_wind()]
    if frame.bracing_across is not None:
        found.append(ground.of_job("frame.bracing_across", frame.bracing_across))
    return tuple(found)
