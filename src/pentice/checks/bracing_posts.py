"""Posts that their bracing along the wall bends while they are pressed: knee braces, or feet held against turning."""

from __future__ import annotations

from dataclasses import dataclass

from pentice.checks.brought import PAIR, Brought
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.knee_bolts import Net
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
from pentice.checks.posts import POST_SERVICE_CLASS, post_strengths, pressed_while_pushed, push_steps
from pentice.checks.racking import Racking
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_post_material
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.loads.weight import GRAVITY
from pentice.standards.en338 import StrengthClass, strength_class
from pentice.standards.en1995_members import (
    BowingPost,
    MemberShare,
    TimberForces,
    TimberSection,
    bowing_post,
    pushed_member,
)
from pentice.working import Step

BENT = Rule(
    id="post-racking",
    name="Post, bent by its bracing",
    member="post",
    clause="EN 1995-1-1, 6.3.2, 6.3.3",
    unit="of 1",
    edition=EDITION,
)

_Bent = tuple[MemberShare, float, BowingPost, Slender | None, Combined, Post, float, Brought]
"""What bends a post most: its share, its force down [N], how it bows, how slender it is, when, and which; what its beam
brings [N], and the pair."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BentPosts:
    """What the bracing does to each post of a row, and the lines and inputs that lead there."""

    moment_knm: float
    bowing: float
    """Buckling length along the wall, in its own lengths."""
    net: Net | None
    """What the bolts of knee braces leave of it; None where nothing is bolted between its ends."""
    step: Step
    rests_on: tuple[RestsOn, ...]


def bent_posts_along(ground: Ground, forces: EavesForces, push: Racking, held: BentPosts) -> Check:
    """The post that uses most of its strength, bent along the wall and bowing as a post whose head can sway.

    Parameters
    ----------
    ground, forces, push
        The inputs of every check, the beam with its posts, and the push along the wall.
    held
        What the bracing does to each post.

    Returns
    -------
    Check
        [of 1].

    Source
    ------
    EN 1995-1-1:2004, 6.3.2, 6.3.3; 5.2 for holes, from memory: off where it is bent, not where it is pressed.
    """
    if ground.parts.post_section is not None:
        count = len(forces.beam.posts)
        pairs = [push.pair_kn if k in (0, count - 1) else 0.0 for k in range(count)]
        return bent_metal_post(
            BENT,
            metal_of(ground.parts.post_section),
            [BentRow(forces=forces, moments_knm=[held.moment_knm] * count, pairs_kn=pairs)],
            way="along",
            lengths=held.bowing,
            before=(*push.working, held.step),
            rests_on=held.rests_on,
        )
    timber = strength_class(ground.parts.timber_for("post").strength_class)
    holes = 1.0 if held.net is None else held.net.bent
    found: list[_Bent] = []
    for k, post in enumerate(forces.beam.posts):
        length = post.length_mm or 0.0
        b, d = post.size_mm
        section, weight = (
            TimberSection(width_mm=b, depth_mm=d),
            b * d * 1e-6 * timber.rho_mean_kg_m3 * GRAVITY * length,
        )
        pair = _pair(forces, push, k)
        strengths = post_strengths(timber, forces.cases[0])
        try:
            bowing = bowing_post(section, strengths, length_y_mm=length, length_z_mm=held.bowing * length)
        except OutsideScope as refusal:
            return open_check(BENT, Place(post=post.number), "refused", Shown(says=str(refusal)))
        slender = slender_post(section, strengths, length_mm=length, about="z")
        for i in pressed_while_pushed(forces, k):
            case = forces.cases[i]
            beam = float(forces.reactions_n[i, k])
            force = max(beam + case.combination.dead * weight, 0.0) + pair.kn * 1000.0
            acts = TimberForces(axial_n=-force, moment_z_n_mm=held.moment_knm * 1e6 * holes)
            share = pushed_member(section, acts, post_strengths(timber, case), bowing)
            share = with_sideways(share, bowing, slender, "z")
            found.append((share, force, bowing, slender, case, post, beam, pair))
    worst = max(found, key=lambda f: f[0].utilisation)
    share, _, _, _, case, post, *_ = worst
    return compared(
        BENT,
        Place(post=post.number),
        demand=share.utilisation,
        capacity=1.0,
        case=case.words,
        shown=lambda: _bent_shown(ground, held, timber, worst),
    )


def _pair(forces: EavesForces, push: Racking, k: int) -> Brought:
    """What the push along presses on one of the outermost posts."""
    posts = forces.beam.posts
    if k not in (0, len(posts) - 1):
        return Brought(says=PAIR, kn=0.0)
    apart = max(posts[-1].x_mm - posts[0].x_mm, 1.0)
    numbers = f"{push.push_kn:.4f} x {push.height_mm:.1f} / {apart:.1f}"
    return Brought(says=PAIR, kn=push.pair_kn, formula="H h / L", numbers=numbers)


def _bent_shown(ground: Ground, held: BentPosts, timber: StrengthClass, worst: _Bent) -> Shown:
    share, force, bowing, slender, case, post, beam, pair = worst
    b, d = post.size_mm
    formula, numbers = "6 M / (d b^2)", f"6 x {held.moment_knm:.6f} x 10^6 / ({d:g} x {b:g}^2)"
    if held.net is not None:
        formula, numbers = "M / W_n", f"{held.moment_knm:.6f} x 10^6 / {held.net.modulus_mm3:.1f}"
    section, strengths = TimberSection(width_mm=b, depth_mm=d), post_strengths(timber, case)
    along = bows_along(governing(share), "z")
    length = (post.length_mm or 0.0) * (held.bowing if along else 1.0)
    working = (
        held.step,
        *push_steps(ground, post, case, beam, pair),
        Step(
            says="Stress from the push down",
            formula="sigma_c = N / (b d)",
            numbers=f"{force:.1f} / ({b:g} x {d:g})",
            result=-share.axial_n_mm2,
            unit="N/mm2",
            clause="6.1.4" if held.net is None else "6.1.4; the whole section, 5.2(3), from memory",
        ),
        *(() if held.net is None else (held.net.step(),)),
        Step(
            says=f"Stress from bending {ground.along}",
            formula=f"sigma_m = {formula}",
            numbers=numbers,
            result=share.bending_z_n_mm2,
            unit="N/mm2",
            clause="6.1.6",
        ),
        *strength_lines(share, section, timber, strengths, "z"),
        bowing_line(
            bowing, section, timber, length_mm=length, along=along, twice=along and held.bowing == 2.0
        ),
        *sideways_lines(share, slender, timber),
        sum_step(
            "Both together",
            share,
            bowing,
            slender,
            "z",
            more=f"service class {POST_SERVICE_CLASS}; all at its greatest at once",
        ),
    )
    return Shown(
        rests_on=(*held.rests_on, of_post_material(ground)),
        working=working,
        cure="Thicker posts, or more of them.",
    )
