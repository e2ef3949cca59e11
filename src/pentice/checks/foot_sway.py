"""How far wind lets the heads of posts sway whose feet are held against turning: the posts bend, and the feet give."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.metal import metal_of
from pentice.checks.post_winds import Way
from pentice.checks.rests import of_post_material
from pentice.checks.sway import (
    LEAST_ALPHA,
    SWAY_LIMIT,
    limit_input,
    limit_step,
    stiffness_gamma,
    wind_step,
)
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.frame.values import Post
from pentice.standards.en338 import strength_class
from pentice.working import Step

_KEY = "frame.post_foot_knm_rad"
_CURE = "Stiffer feet, thicker posts, or more of them."
_FOLLOW = "How far bars and sheets can follow is not calculated: ask their makers."


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldPost:
    """A post that stands by its foot, what it takes of the push and how stiff it is the way it is pushed."""

    post: Post
    share: float
    """Of the push on all of them [-]."""
    height_mm: float
    """From the foot to the middle of the beam [mm]."""
    e_n_mm2: float
    i_mm4: float
    inertia: str
    """The same in numbers."""

    @property
    def bends_mm_kn(self) -> float:
        """How far its head leans for each kN on all of them, the foot stiff [mm/kN]."""
        return self.share * 1000.0 * self.height_mm**3 / (3.0 * self.e_n_mm2 * self.i_mm4)

    def gives_mm_kn(self, foot_knm_rad: float) -> float:
        """The same by the foot alone [mm/kN]."""
        return self.share * self.height_mm**2 / (1000.0 * foot_knm_rad)

    def leans_mm_kn(self, foot_knm_rad: float | None) -> float:
        """Both together; the foot stiff where nothing says how far it gives [mm/kN]."""
        return self.bends_mm_kn + (0.0 if foot_knm_rad is None else self.gives_mm_kn(foot_knm_rad))


def held_post(ground: Ground, post: Post, way: Way, *, share: float, height_mm: float) -> HeldPost:
    """A post of the job as it stands by its foot.

    Parameters
    ----------
    ground, post, way
        The inputs of every check, the post, and which way it is pushed.
    share, height_mm
        Of the push [-], and from the foot to the middle of the beam [mm].

    Returns
    -------
    HeldPost
        Timber by the mean modulus of its class.

    Source
    ------
    EN 1995-1-1:2004, 2.2.3(4): mean stiffness in service.
    """
    section = ground.parts.post_section
    if section is not None:
        metal = metal_of(section)
        inertia = metal.profile.i_y_mm4 if way == "square" else metal.profile.i_z_mm4
        return HeldPost(
            post=post,
            share=share,
            height_mm=height_mm,
            e_n_mm2=metal.e_n_mm2,
            i_mm4=inertia,
            inertia=f"{inertia:.1f}",
        )
    wide, deep = post.size_mm if way == "square" else post.size_mm[::-1]
    return HeldPost(
        post=post,
        share=share,
        height_mm=height_mm,
        e_n_mm2=strength_class(ground.parts.timber_for("post").strength_class).e_0_mean_n_mm2,
        i_mm4=wide * deep**3 / 12.0,
        inertia=f"({wide:g} x {deep:g}^3 / 12)",
    )


def held_row(ground: Ground, posts: Sequence[Post], height_mm: float) -> list[HeldPost]:
    """The posts of a row, pushed along it: each the same share.

    Parameters
    ----------
    ground, posts, height_mm
        The inputs of every check, the row, and the height of the middle of its beam over the feet [mm].

    Returns
    -------
    list of HeldPost
        In their order.

    Source
    ------
    As the moment of their feet: judgement.
    """
    share = 1.0 / len(posts)
    return [held_post(ground, post, "along", share=share, height_mm=height_mm) for post in posts]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blown:
    """Wind that pushes the posts, characteristic [kN], what presses on all of them at most, design value [kN]."""

    wind_kn: float
    parts: str
    """The wind as a sum."""
    weight_kn: float


def sway_of_feet(
    ground: Ground, rule: Rule, posts: Sequence[HeldPost], on: Blown, rests: Sequence[RestsOn]
) -> Check:
    """How far the heads of posts sway in wind that stand by their feet, of the post that leans most.

    Parameters
    ----------
    ground, rule
        The inputs of every check, and what is asked.
    posts, on
        All that the push is shared by, and the push.
    rests
        What the push rests on.

    Returns
    -------
    Check
        [mm]; refused, with the stiffness that the feet need, where nothing says how far they give, and where the posts
        are too soft for their load.

    Source
    ------
    Statics: a cantilever on a spring; EN 1990, A1.4.3 for the limit, left to client and annex. Second order as
    EN 1993-1-1, 5.2.1(4), from memory.
    """
    foot = ground.job.frame.post_foot_knm_rad
    low = min(post.height_mm for post in posts)
    limit = low / (ground.job.frame.sway_limit or SWAY_LIMIT)
    of = _Sways(
        on=on, low_mm=low, limit_mm=limit, foot_knm_rad=foot, least=LEAST_ALPHA * stiffness_gamma(ground)
    )
    worst = max(posts, key=of.leans)
    rests_on = (*rests, *_inputs(ground), limit_input(ground))
    if of.stiff(worst) < of.least:
        why = (
            f"The posts sway away under {of.stiff(worst):.1f} times what presses on them; {of.least:.2g} or more is "
            "needed here. Take stiffer feet, or thicker posts."
        )
        return open_check(
            rule,
            Place(),
            "refused",
            lambda: Shown(says=why, rests_on=rests_on, working=of.steps(worst), cure=_CURE),
        )
    sway = of.sways(worst)
    if foot is None and sway < limit:
        need = max(of.needed_knm_rad(post) for post in posts)
        says = (
            f"The posts bend {sway:.1f} mm of {limit:.1f}; how far their feet give is not known. Give {_KEY}, declared "
            f"or shown by others, with the pad in its ground: {need:.0f} kNm/rad or more keeps them within it."
        )
        return open_check(
            rule,
            Place(post=worst.post.number),
            "refused",
            lambda: Shown(says=says, rests_on=rests_on, working=of.steps(worst), cure=_CURE),
        )

    def shown() -> Shown:
        limits = limit_step(ground, low, limit)
        says = (
            _FOLLOW if foot is not None else f"The feet are taken as stiff, and that is not enough. {_FOLLOW}"
        )
        return Shown(says=says, rests_on=rests_on, working=(*of.steps(worst), limits), cure=_CURE)

    return compared(
        rule,
        Place(post=worst.post.number),
        demand=sway,
        capacity=limit,
        case="wind, characteristic",
        shown=shown,
    )


def alpha_of_feet(ground: Ground, posts: Sequence[HeldPost], weight_kn: float) -> float:
    """Load under which posts on held feet sway away, over their load, by mean stiffness.

    Parameters
    ----------
    ground, posts, weight_kn
        The inputs of every check, all that the push is shared by, and what presses on them, design value [kN].

    Returns
    -------
    float
        [-]; the feet stiff where nothing says how far they give: how far they sway is refused then.

    Source
    ------
    As `sway_of_feet`.
    """
    low, foot = min(post.height_mm for post in posts), ground.job.frame.post_foot_knm_rad
    return _alpha(low, weight_kn, max(post.leans_mm_kn(foot) for post in posts))


def _alpha(low_mm: float, weight_kn: float, leans_mm_kn: float) -> float:
    """Load under which posts sway away, over their load [-]."""
    return low_mm / (weight_kn * leans_mm_kn) if weight_kn > 0.0 else 1e9


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sways:
    """Posts on their feet in wind."""

    on: Blown
    low_mm: float
    limit_mm: float
    foot_knm_rad: float | None
    least: float
    """What `stiff` has to be [-]."""

    def leans(self, post: HeldPost) -> float:
        """For each kN of the push [mm/kN]."""
        return post.leans_mm_kn(self.foot_knm_rad)

    def stiff(self, post: HeldPost) -> float:
        """Load under which all sway away, over their load [-]."""
        return _alpha(self.low_mm, self.on.weight_kn, self.leans(post))

    def factor(self, post: HeldPost) -> float:
        """Of second order [-]."""
        return 1.0 / (1.0 - 1.0 / self.stiff(post))

    def sways(self, post: HeldPost) -> float:
        """[mm]."""
        return self.on.wind_kn * self.leans(post) * self.factor(post)

    def needed_knm_rad(self, post: HeldPost) -> float:
        """What keeps a post within its limit and far enough from swaying away: solved for the lean for each kN."""
        most = self.limit_mm / (self.on.wind_kn + self.limit_mm * self.on.weight_kn / self.low_mm)
        if self.on.weight_kn > 0.0:
            most = min(most, self.low_mm / (self.least * self.on.weight_kn))
        return post.gives_mm_kn(1.0) / (most - post.bends_mm_kn)

    def steps(self, post: HeldPost) -> tuple[Step, ...]:
        """The lines of one post."""
        h, s, e = post.height_mm, post.share, self.leans(post)
        lines = [
            wind_step(self.on.parts, self.on.wind_kn),
            Step(
                says="Leans for each kN by bending of the post",
                formula="e_1 = s h^3 / (3 E I)",
                numbers=f"{s:.6f} x 1000 x {h:.1f}^3 / (3 x {post.e_n_mm2:g} x {post.inertia})",
                result=post.bends_mm_kn,
                unit="mm",
                clause=f"statics; s the post's share of the push, as in its moment, {JUDGEMENT}",
            ),
        ]
        if self.foot_knm_rad is not None:
            lines += [
                Step(
                    says="Leans for each kN by give of its foot",
                    formula="e_2 = s h^2 / k",
                    numbers=f"{s:.6f} x {h:.1f}^2 / ({self.foot_knm_rad:g} x 1000)",
                    result=post.gives_mm_kn(self.foot_knm_rad),
                    unit="mm",
                    clause="statics",
                ),
                Step(
                    says="Leans for each kN",
                    formula="e = e_1 + e_2",
                    numbers=f"{post.bends_mm_kn:.6f} + {post.gives_mm_kn(self.foot_knm_rad):.6f}",
                    result=e,
                    unit="mm",
                    clause="both",
                ),
            ]
        return (
            *lines,
            Step(
                says="Load under which they sway away, over their load",
                formula="alpha = h / (N e), h the lowest",
                numbers=f"{self.low_mm:.1f} / ({self.on.weight_kn:.4f} x {e:.6f})"
                if self.on.weight_kn > 0.0
                else "10^9; no load",
                result=self.stiff(post),
                unit="",
                clause="as EN 1993-1-1, 5.2.1(4), from memory; N the design value",
            ),
            Step(
                says="Sways at the height of the beam",
                formula="W e / (1 - 1 / alpha)",
                numbers=f"{self.on.wind_kn:.5f} x {e:.6f} / (1 - 1 / {self.stiff(post):.4f})",
                result=self.sways(post),
                unit="mm",
                clause="statics" if self.foot_knm_rad is not None else "statics; the foot stiff",
            ),
        )


def _inputs(ground: Ground) -> tuple[RestsOn, ...]:
    frame = ground.job.frame
    foot = frame.post_foot_knm_rad
    return (
        ground.of_job("frame.post_mm", frame.post_mm),
        of_post_material(ground),
        *(() if foot is None else (ground.of_job(_KEY, foot),)),
    )
