"""What a post in closed walls uses of its strength, bent both ways: of timber with k_m, of metal in a straight line."""

from __future__ import annotations

from dataclasses import replace

from pentice.checks.ground import Ground, Rule
from pentice.checks.metal import Carries, Metal, bending_carried, class_of, metal_of, push_carried
from pentice.checks.metal_bent import bent_carried
from pentice.checks.post_sideways import Axis, slender_post
from pentice.checks.posts import post_strengths
from pentice.checks.wall_posts_shown import metal_steps, timber_steps
from pentice.checks.wall_posts_values import Acts, BothWays, Braces, HeldPost
from pentice.frame.values import Post
from pentice.standards.en338 import strength_class
from pentice.standards.en1993 import steel_post_share
from pentice.standards.en1995_members import (
    MemberShare,
    TimberForces,
    TimberSection,
    TimberStrengths,
    bowing_post,
    pulled_member,
    pushed_member,
    slender_beam_share,
)
from pentice.standards.en1999 import aluminium_post_share
from pentice.working import Step


class TimberPosts:
    """Posts of timber."""

    def __init__(self, ground: Ground, by: Braces) -> None:
        self._by = by
        self._timber = strength_class(ground.parts.timber_for("post").strength_class)
        self._found: dict[int, HeldPost] = {}

    def rule(self, rule: Rule) -> Rule:
        """As it stands."""
        return rule

    def _held(self, post: Post, both: BothWays) -> HeldPost:
        """How a post bows and gives way, which no load changes."""
        if post.number not in self._found:
            self._found[post.number] = held_post(post, post_strengths(self._timber, both.case), self._by)
        return self._found[post.number]

    def share(self, post: Post, both: BothWays) -> float:
        """Share of its strength that a post uses [-]."""
        strengths = post_strengths(self._timber, both.case)
        return timber_share(strengths, both, self._held(post, both)).utilisation

    def steps(self, acts: Acts, both: BothWays) -> tuple[Step, ...]:
        """The lines that lead to it."""
        held = self._held(acts.at.post, both)
        share = timber_share(post_strengths(self._timber, both.case), both, held)
        return timber_steps(self._timber, acts, both, self._by.along, held, share)


def held_post(post: Post, strengths: TimberStrengths, by: Braces) -> HeldPost:
    """How a timber post bows both ways, and gives way sideways while it is bent.

    Parameters
    ----------
    post, strengths, by
        Its sides and length [mm], strength and stiffness of its class [N/mm2], and how its row is braced.

    Returns
    -------
    HeldPost
        Slenderness and factors [-].

    Raises
    ------
    OutsideScope
        It is too slender.

    Source
    ------
    EN 1995-1-1:2004, 6.3.2, 6.3.3.
    """
    section, length = TimberSection(width_mm=post.size_mm[0], depth_mm=post.size_mm[1]), post.length_mm or 0.0
    axes: tuple[Axis, ...] = ("y", "z")
    slender = {about: slender_post(section, strengths, length_mm=length, about=about) for about in axes}
    return HeldPost(
        section=section,
        bowing=bowing_post(
            section, strengths, length_y_mm=by.lengths_across * length, length_z_mm=by.lengths * length
        ),
        lengths=(by.lengths_across, by.lengths),
        slender=next(((about, found) for about, found in slender.items() if found is not None), None),
        net=by.net,
        beside_holes=(1.0, 1.0) if by.net is None else (by.net.pulled, by.net.bent),
    )


def timber_share(strengths: TimberStrengths, both: BothWays, held: HeldPost) -> MemberShare:
    """What a timber post uses of its strength, bent both ways.

    Parameters
    ----------
    strengths, both, held
        Strengths of its class with its factors [N/mm2], forces and moments [N, N mm], and how it is held.

    Returns
    -------
    MemberShare
        [N/mm2] and [-].

    Raises
    ------
    OutsideScope
        Never for a post that `held_post` takes.

    Source
    ------
    EN 1995-1-1:2004, 6.2.3, 6.2.4, 6.3.2 with k_m 0.7. A post that may give way sideways: pressed, eq. 6.35 with the
    bending about the weaker axis added in full; pulled, k_crit on the strengths of eq. 6.17 and 6.18: judgement, on the
    safe side. Bolt holes off where it is pulled or bent, 5.2, from memory.
    """
    acts = _beside_holes(both, held)
    if both.axial_n > 0.0:
        share = pulled_member(held.section, acts, strengths)
        if held.slender is None:
            return share
        y, z = acts.moment_y_n_mm / held.k_crit("y"), acts.moment_z_n_mm / held.k_crit("z")
        more = pulled_member(held.section, replace(acts, moment_y_n_mm=y, moment_z_n_mm=z), strengths)
        return replace(share, shares=more.shares, utilisation=more.utilisation)
    share = pushed_member(held.section, acts, strengths, held.bowing)
    if held.slender is None:
        return share
    about, slender = held.slender
    ways = (
        (share.bending_y_n_mm2, share.strength_y_n_mm2, held.bowing.k_c_y),
        (share.bending_z_n_mm2, share.strength_z_n_mm2, held.bowing.k_c_z),
    )
    strong, weak = ways if about == "y" else ways[::-1]
    used = weak[0] / weak[1] + slender_beam_share(
        bending_n_mm2=strong[0],
        strength_n_mm2=strong[1],
        k_crit=slender.k_crit,
        push_share=-share.axial_n_mm2 / (weak[2] * share.axial_strength_n_mm2),
    )
    shares = (*share.shares, ("6.35" if share.axial_n_mm2 else "6.33", used))
    return replace(share, shares=shares, utilisation=max(share.utilisation, used))


def _beside_holes(both: BothWays, held: HeldPost) -> TimberForces:
    """Forces that stress a whole section as much as these do what bolts leave of it, through it square to the row."""
    pulled, bent = held.beside_holes
    axial = both.axial_n * (pulled if both.axial_n > 0.0 else 1.0)
    return TimberForces(axial_n=axial, moment_y_n_mm=both.y_n_mm * pulled, moment_z_n_mm=both.z_n_mm * bent)


class MetalPosts:
    """Posts of steel or aluminium."""

    def __init__(self, ground: Ground, by: Braces) -> None:
        section = ground.parts.post_section
        assert section is not None  # asked only of metal posts
        self._metal, self._by = metal_of(section), by
        self._class = class_of(self._metal, pushed=True)
        self._carries: dict[int, tuple[Carries, Carries, Carries]] = {}

    def rule(self, rule: Rule) -> Rule:
        """With the clauses of its metal."""
        clauses = "6.3.1, 6.3.3" if "pulled" not in rule.id else "6.2, 6.3.2"
        return replace(rule, clause=f"{self._metal.standard}, {clauses}", edition=self._metal.edition)

    def _of(self, post: Post) -> tuple[Carries, Carries, Carries]:
        """What it carries pushed, bent square to its row and bent along its row."""
        length = post.length_mm or 0.0
        if post.number not in self._carries:
            lengths = max(self._by.lengths, self._by.lengths_across)
            self._carries[post.number] = (
                push_carried(self._metal, lengths * length),
                bending_carried(self._metal, number=self._class, free_mm=length),
                bent_carried(self._metal, "along", self._class, length),
            )
        return self._carries[post.number]

    def share(self, post: Post, both: BothWays) -> float:
        """Share of its strength that a post uses [-]."""
        push, y, z = self._of(post)
        bent = both.y_n_mm / y.value + both.z_n_mm / z.value
        if both.axial_n > 0.0:
            return both.axial_n / pull_carried(self._metal) + bent
        n = -both.axial_n / push.value
        if self._metal.is_steel:
            return steel_post_share(push_share=n, bending_y_share=bent)
        return aluminium_post_share(push_share=n, bending_share=bent)

    def steps(self, acts: Acts, both: BothWays) -> tuple[Step, ...]:
        """The lines that lead to it."""
        share = self.share(acts.at.post, both)
        return metal_steps(self._metal, acts, both, self._by.along, self._of(acts.at.post), share)


def pull_carried(metal: Metal) -> float:
    """What the whole section of a post carries pulled.

    Parameters
    ----------
    metal
        The section.

    Returns
    -------
    float
        [N].

    Source
    ------
    EN 1993-1-1:2005, 6.2.3; EN 1999-1-1:2007, 6.2.3, the general yielding of the section.
    """
    return metal.profile.area_mm2 * metal.strength_n_mm2 / metal.gamma


Member = TimberPosts | MetalPosts
