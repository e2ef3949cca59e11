"""Posts that hold closed walls: at a corner wind on both walls bends a post both ways, beside what its bracing does.

Timber to EN 1995-1-1, 6.2.3, 6.2.4, 6.3.2 with k_m; metal by shares in a straight line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from pentice.checks.brought import Braced, brought_kn
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.held_down import lifts_on
from pentice.checks.knee_bolts import bolt_inputs
from pentice.checks.pads_values import AtFoot
from pentice.checks.post_winds import FREE_FOOT, HELD_FOOT, share_mm
from pentice.checks.posts import post_holds, post_line_n_mm, push_steps
from pentice.checks.pulled_posts import lift_steps
from pentice.checks.rafter_shown import EDITION
from pentice.checks.rests import of_frame, of_post_material, of_posts
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.wall_posts_shown import foot_steps, level_steps, words_of
from pentice.checks.wall_posts_strength import Member, MetalPosts, TimberPosts
from pentice.checks.wall_posts_values import Acts, BothWays, Braces, WallPost
from pentice.checks.walls import ALONG, OnWall, in_each_wind, why_no_wind_on_walls
from pentice.checks.worst import not_outdone
from pentice.errors import OutsideScope
from pentice.frame.values import Post
from pentice.job.fields import Wall
from pentice.setting_out.side_frames import beside_the_post_mm, side_frames
from pentice.standards.en1991_1_4_roofs import Wind
from pentice.working import Step

PRESSED = Rule(
    id="post-walls",
    name="Post in closed walls, bent both ways",
    member="post",
    clause="EN 1995-1-1, 6.2.4, 6.3.2, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
PULLED = Rule(
    id="post-walls-pulled",
    name="Post in closed walls, pulled and bent",
    member="post",
    clause="EN 1995-1-1, 6.2.3, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
TURNED = Rule(
    id="post-walls-foot",
    name="Foot of a post in closed walls, turned",
    member="base",
    clause="statics; EN 1990, 6.10",
    unit="kNm",
)
RULES = (PRESSED, PULLED)
_CURE = "Thicker posts, or one more mullion or post beside it."
_PASSES = (
    "What it passes to its head along its row is in the push along it; what it passes on square to it goes through the "
    "beam into the rafters: look at those joints. How far it sags was not limited."
)
_NO_BRACING = " What braces the row is not named: how that bends it is not in here."


def has_closed_end(ground: Ground) -> bool:
    """Whether an end of the roof is closed.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    bool
        The left or the right one.

    Source
    ------
    Definition.
    """
    return "closed" in (ground.job.roof.left, ground.job.roof.right)


def why_not_posts(ground: Ground, forces: EavesForces) -> str:
    """Why the posts of closed walls cannot be calculated; empty where they can.

    Parameters
    ----------
    ground, forces
        The inputs of every check, and the row.

    Returns
    -------
    str
        A sentence.

    Source
    ------
    Definition; EN 1991-1-4:2005, 7.2, has walls of closed rooms only.
    """
    why = why_no_wind_on_walls(ground)
    if why:
        return why
    if any(post.length_mm is None for post in forces.beam.posts):
        return "The posts' length is not known: give roof.eaves_height_mm, or the head height."
    for end, k in (("left", 0), ("right", -1)):
        post = forces.beam.posts[k]
        x = post.x_mm if end == "left" else ground.shape.width_mm - post.x_mm
        if getattr(ground.job.roof, end) == "closed" and x > 1.5 * post.size_mm[0]:
            return (
                f"Post {post.number} stands {x:.0f} from the {end} end: what holds the edge of the closed end there is "
                "not named. Move the post to the end, or ask an engineer."
            )
    return ""


def posts_in_walls(ground: Ground, forces: EavesForces) -> list[WallPost]:
    """The posts of a row that hold closed walls, and how wide a strip of each wall comes to them.

    Parameters
    ----------
    ground, forces
        The inputs of every check, and the row.

    Returns
    -------
    list of WallPost
        Of the front, or the back, half of each field beside the post; of an end half of the way to the next mullion,
        or to the house wall or the other row where no mullion is known.

    Source
    ------
    Statics.
    """
    roof, posts = ground.job.roof, forces.beam.posts
    front: Wall = "back" if forces.beam.row == "head" else "front"
    is_closed = (roof.back if front == "back" else roof.front) == "closed"
    ends: dict[int, Wall] = {}
    if roof.left == "closed":
        ends[0] = "left"
    if roof.right == "closed":
        ends[len(posts) - 1] = "right"
    found = []
    for k, post in enumerate(posts):
        end = ends.get(k)
        if is_closed or end is not None:
            found.append(
                WallPost(
                    k=k,
                    post=post,
                    front=front if is_closed else None,
                    front_mm=share_mm(posts, k, ground.shape.width_mm) if is_closed else 0.0,
                    end=end,
                    end_mm=0.0 if end is None else _of_the_end_mm(ground, post, end, forces.beam.row),
                )
            )
    return found


def _of_the_end_mm(ground: Ground, post: Post, end: Wall, row: str) -> float:
    """Strip of a closed end that comes to the post at its edge [mm]."""
    x = 0.0 if end == "left" else ground.shape.width_mm
    deep = ground.shape.projection_between(x, x)[1]
    next_mm = beside_the_post_mm(
        side_frames(ground.job, ground.shape), end, deep_mm=deep, post_mm=post.size_mm[1], row=row
    )
    return deep / 2.0 if next_mm is None else min(deep / 2.0, next_mm)


def wall_post_checks(
    ground: Ground, forces: EavesForces, by: Braces, acting: Acting, why: str
) -> Iterator[Check]:
    """Every post of a row in closed walls, pressed and pulled.

    Parameters
    ----------
    ground, forces, by
        The inputs of every check, what each combination puts on the posts, and what else bends, presses and lifts them.
    acting, why
        The winds on each of them, and why they are not known: `acting_on_posts`.

    Yields
    ------
    Check
        Of the posts pulled that which uses most, where any is.

    Source
    ------
    EN 1991-1-4:2005, 7.2.2, 7.2.9; EN 1995-1-1:2004, 6.2.3, 6.2.4, 6.3.2, 6.3.3; EN 1993-1-1, 6.2.1(7), 6.3.3;
    EN 1999-1-1, 6.3.3. In one wind all is at its greatest at once, judgement, on the safe side.
    """
    pressed: list[_Used | None] = []
    pulled: list[_Found] = []
    lifted: _Used | None = None
    try:
        is_metal = ground.parts.post_section is not None
        member: Member = MetalPosts(ground, by) if is_metal else TimberPosts(ground, by)
        for at, acts in acting:
            pressed.append(_pressed(ground, forces, at, acts, by, member))
            pulled += _pulled(ground, forces, at, acts, by)
        lifted = _most_used(pulled, member)
    except OutsideScope as refusal:
        why = str(refusal)
    if why:
        yield open_check(PRESSED, Place(), "refused", Shown(says=why, rests_on=_inputs(ground, forces)))
        return
    for most in (found for found in pressed if found is not None):
        yield _check(ground, forces, member.rule(PRESSED), most, member)
    if lifted is not None:
        yield _check(ground, forces, member.rule(PULLED), lifted, member)
    if "fixed feet" in (ground.job.frame.bracing, ground.job.frame.bracing_across):
        yield _turned(ground, forces, [one for _, acts in acting for one in acts], by)


# What acts


Acting = Sequence[tuple[WallPost, Sequence[Acts]]]


def acting_on_posts(ground: Ground, forces: EavesForces, by: Braces) -> tuple[Acting, str]:
    """The winds on each post of a row that holds closed walls.

    Parameters
    ----------
    ground, forces, by
        The inputs of every check, what each combination puts on the posts, and what else bends, presses and lifts them.

    Returns
    -------
    tuple
        Of each post those winds that no other of the same kind reaches both ways; and why they are not known.

    Source
    ------
    EN 1991-1-4:2005, 7.2.2, 7.2.9.
    """
    why = by.refused or why_not_posts(ground, forces)
    if why:
        return (), why
    try:
        return [(at, _acts(ground, at, by)) for at in posts_in_walls(ground, forces)], ""
    except OutsideScope as refusal:
        return (), str(refusal)


def _acts(ground: Ground, at: WallPost, by: Braces) -> list[Acts]:
    """Every wind on the walls of one post that no other of the same kind reaches both ways."""
    tall = at.post.length_mm or 0.0
    areas: dict[Wall, float] = {}
    if at.front is not None:
        areas[at.front] = at.front_mm * tall * 1e-6
    if at.end is not None:
        areas[at.end] = at.end_mm * tall * 1e-6
    kinds: dict[tuple[bool, bool], list[Acts]] = {}
    for wind, on in in_each_wind(ground, areas):
        one = _of_wind(at, wind, on, by)
        kinds.setdefault((one.accidental, one.wind in ALONG), []).append(one)
    found = []
    for kind in kinds.values():
        most = -1.0
        for one in sorted(kind, key=lambda acts: (-acts.y_n_mm, -acts.z_n_mm)):
            if one.z_n_mm > most:
                found.append(one)
                most = one.z_n_mm
    return found


def _of_wind(at: WallPost, wind: Wind, on: Mapping[Wall, OnWall], by: Braces) -> Acts:
    front = on[at.front] if at.front is not None else None
    end = on[at.end] if at.end is not None else None
    along = wind in ALONG
    across = by.across_knm[at.k] if by.across_knm and not along else 0.0
    return Acts(
        at=at,
        wind=wind,
        on_front=front,
        on_end=end,
        y_n_mm=abs(front.net) * at.front_mm * 1e-3 if front is not None else 0.0,
        z_n_mm=abs(end.net) * at.end_mm * 1e-3 if end is not None else 0.0,
        y_knm=across,
        z_knm=by.along_knm if along else 0.0,
        accidental=next(iter(on.values())).situation == "accidental",
        to_foot=(HELD_FOOT if by.held[0] else FREE_FOOT, HELD_FOOT if by.held[1] else FREE_FOOT),
    )


def feet_in_walls(ground: Ground, forces: EavesForces, by: Braces, acting: Acting) -> list[list[AtFoot]]:
    """What wind on the walls brings to the foot of each post of a row, with what its bracing does.

    Parameters
    ----------
    ground, forces, by, acting
        As in `wall_post_checks`.

    Returns
    -------
    list
        For each post in each wind of `acting`, none where no wall is known [kN, kNm].

    Source
    ------
    Statics: half of what a post holds of a wall, along the row and square to it at once; 5 / 8 where its foot is held
    against turning that way.
    """
    found: list[list[AtFoot]] = [[] for _ in forces.beam.posts]
    factor = max(c.wind for c in ground.loads.combinations if c.kind in ("strength", "uplift"))
    for _, acts in acting:
        for one in (one for one in acts if not one.accidental):
            along, square = one.level_kn(factor, by)
            along_knm, square_knm = _at_foot_knm(ground, one, factor)
            blows = "along the row" if one.wind in ALONG else "across the row"
            foot = AtFoot(
                says=f"wind {blows} and on its walls",
                along_kn=along,
                square_kn=square,
                along_knm=along_knm,
                square_knm=square_knm,
                before=(*level_steps(one, factor, by), *_turning_steps(ground, one, factor)),
            )
            found[one.at.k].append(foot)
    return found


def _at_foot_knm(ground: Ground, one: Acts, factor: float) -> tuple[float, float]:
    """What turns a foot along the row and square to it; 0 where it is not held against turning that way [kNm]."""
    frame, square = ground.job.frame, factor * one.tall_mm**2 / 8e6
    return (
        one.z_knm + one.z_n_mm * square if frame.bracing == "fixed feet" else 0.0,
        one.y_knm + one.y_n_mm * square if frame.bracing_across == "fixed feet" else 0.0,
    )


def _turning_steps(ground: Ground, one: Acts, factor: float) -> Iterator[Step]:
    """The same as lines."""
    along, square = _at_foot_knm(ground, one, factor)
    for way, turned, braces, line in (
        ("along", along, one.z_knm, one.z_n_mm),
        ("square", square, one.y_knm, one.y_n_mm),
    ):
        if turned:
            yield Step(
                says=f"Turns the foot, {way}",
                formula="M of its bracing + gamma w l^2 / 8",
                numbers=f"{braces:.6f} + {factor:g} x {line:.6f} x {one.tall_mm / 1000.0:.5f}^2 / 8",
                result=turned,
                unit="kNm",
                clause="statics; the head held",
            )


def _with_wind_knm(ground: Ground, one: Acts, factor: float) -> float:
    """Of both what turns it the way in which the wind blows [kNm]."""
    return _at_foot_knm(ground, one, factor)[0 if one.wind in ALONG else 1]


def _turned(ground: Ground, forces: EavesForces, acts: Sequence[Acts], by: Braces) -> Check:
    """The foot that is held against turning, by what pushes the row and by wind on its walls."""
    factor = max(c.wind for c in ground.loads.combinations if c.kind in ("strength", "uplift"))
    most = max(
        (one for one in acts if not one.accidental), key=lambda one: _with_wind_knm(ground, one, factor)
    )
    need, holds = _with_wind_knm(ground, most, factor), ground.job.frame.post_foot_knm
    place, lines = Place(post=most.at.post.number), foot_steps(most, factor, need)
    working = (*by.along, *lines) if most.wind in ALONG else lines
    if holds is None:
        why = f"This foot must hold {need:.2f} kNm. Give frame.post_foot_knm, declared or shown by others."
        shown = Shown(says=why, rests_on=_inputs(ground, forces), working=working)
        return open_check(TURNED, place, "refused", shown, demand=need)
    shown = Shown(
        rests_on=(*_inputs(ground, forces), ground.of_job("frame.post_foot_knm", holds)),
        working=working,
        cure="Stronger feet, or more posts: ask a structural engineer.",
    )
    return compared(TURNED, place, demand=need, capacity=holds, case=words_of(most), shown=shown)


# Pressed and pulled


class _Found(NamedTuple):
    """One post in one wind and one combination."""

    acts: Acts
    both: BothWays
    steps: Callable[[], tuple[Step, ...]]
    """The lines that lead to what presses on it, or pulls at it."""


class _Used(NamedTuple):
    """The same, and the share of its strength that the post uses."""

    found: _Found
    share: float


def _pressed(
    ground: Ground, forces: EavesForces, at: WallPost, acts: Sequence[Acts], by: Braces, member: Member
) -> _Used | None:
    """What uses most of a post that is pressed; None where wind blows in no combination."""
    weight = post_line_n_mm(ground, at.post) * at.tall_mm
    found: list[_Found] = []
    for i in forces.most_pressed[at.k]:
        case = forces.cases[i]
        c = case.combination
        if c.wind <= 0.0 or c.kind not in ("strength", "accidental"):
            continue
        pair = by.pairs[at.k]
        beam = float(forces.reactions_n[i, at.k])
        racked = pair.kn * 1000.0 if c.kind == "strength" else 0.0
        push = max(beam + c.dead * weight + racked, 0.0)
        for one in acts:
            if one.accidental != c.wind_accidental:
                continue
            both = BothWays(case=case, axial_n=-push, **_moments(one, c.wind))
            found.append(_Found(one, both, partial(push_steps, ground, at.post, case, beam, pair)))
    return _most_used(found, member)


def _most_used(found: Sequence[_Found], member: Member) -> _Used | None:
    """That which uses most of its post, all pressed or all pulled: more of either, and of what bends, uses more."""
    asking = not_outdone(
        found,
        kind=lambda one: (one.acts.at.k, post_holds(one.both.case)),
        amounts=lambda one: (abs(one.both.axial_n), one.both.y_n_mm, one.both.z_n_mm),
    )
    used = (_Used(one, member.share(one.acts.at.post, one.both)) for one in asking)
    return max(used, key=lambda one: one.share, default=None)


def _moments(one: Acts, wind: float) -> dict[str, float]:
    square = wind * one.tall_mm**2 / 8.0
    return {
        "y_n_mm": square * one.y_n_mm + one.y_knm * 1e6,
        "z_n_mm": square * one.z_n_mm + one.z_knm * 1e6,
    }


def _pulled(
    ground: Ground, forces: EavesForces, at: WallPost, acts: Sequence[Acts], by: Braces
) -> Iterator[_Found]:
    """Every wind and combination in which uplift pulls at a post."""
    for lift in lifts_on(ground, forces, at.k):
        for one in acts:
            if one.accidental:
                continue
            more: Braced = by.lifts[at.k] if one.wind in ALONG else (by.pairs[at.k],)
            up = lift.up_kn + brought_kn(more)
            pull = (up - lift.weight_kn) * 1000.0
            if pull <= 0.0:
                continue
            both = BothWays(case=lift.case, axial_n=pull, **_moments(one, lift.case.combination.wind))
            yield _Found(one, both, partial(lift_steps, lift, more, pull))


def _check(ground: Ground, forces: EavesForces, rule: Rule, most: _Used, member: Member) -> Check:
    found, post = most.found, most.found.acts.at.post

    def shown() -> Shown:
        working = (*found.steps(), *member.steps(found.acts, found.both))
        frame = ground.job.frame
        unnamed = frame.bracing is None and frame.bracing_kn is None
        return Shown(
            says=_PASSES + (_NO_BRACING if unnamed else ""),
            rests_on=_inputs(ground, forces),
            working=working,
            cure=_CURE,
        )

    return compared(
        rule,
        Place(post=post.number),
        demand=most.share,
        capacity=1.0,
        case=f"{found.both.case.combination.name}; {words_of(found.acts)}",
        shown=shown,
    )


def _inputs(ground: Ground, forces: EavesForces) -> tuple[RestsOn, ...]:
    frame = ground.job.frame
    found = [
        *of_posts(ground, forces.beam.row),
        of_post_material(ground),
        ground.of_snow(),
        ground.of_wind(),
        *ground.of_side_wind(),
    ]
    if ground.parts.post_section is None and frame.bracing == "knee braces":
        found += (*of_frame(ground, "knee_mm"), *bolt_inputs(ground))
    if frame.mullion_mm is not None and ground.job.side_sheets:
        found.append(ground.of_job("frame.mullion_mm", frame.mullion_mm))
    return tuple(found)
