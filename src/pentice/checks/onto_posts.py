"""Wind straight onto posts: onto those of a closed front, and onto posts that stand free.

Of wind on a post that stands free the upper half is in what pushes its row; the lower half goes to its foot.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground
from pentice.checks.level import blowing
from pentice.checks.pads_values import AtFoot
from pentice.checks.post_winds import FREE_FOOT, HELD_FOOT, Way, lasting_front
from pentice.checks.racking import EDGE_C_F, EDGES
from pentice.frame.values import Post
from pentice.working import Step


def onto_post(ground: Ground, post: Post, way: Way) -> Step | None:
    """Wind on one half of a post that stands free.

    Parameters
    ----------
    ground, post
        The inputs of every check, and the post.
    way
        "along" its row or "square" to it.

    Returns
    -------
    Step or None
        Design value [kN]; none where nothing blows.

    Source
    ------
    EN 1991-1-4:2005, 7.6, from memory.
    """
    tall = post.length_mm or 0.0
    peak, wide = ground.loads.wind.peak_pressure_kn_m2 or 0.0, post.size_mm[1 if way == "along" else 0]
    factor = blowing(ground).wind
    force = factor * EDGE_C_F * peak * wide * tall * 1e-6 / 2.0
    if not force:
        return None
    return Step(
        says=f"Wind on half of the post, {way}",
        formula="H_p = gamma c_f q_p b l / 2",
        numbers=f"{factor:g} x {EDGE_C_F:g} x {peak:.5f} x {wide / 1000.0:g} x {tall / 1000.0:.5f} / 2",
        result=force,
        unit="kN",
        clause=EDGES,
    )


def along_the_row(ground: Ground, post: Post) -> Step | None:
    """Wind along its row on one half of a post, where an end of the roof is open.

    Parameters
    ----------
    ground, post
        The inputs of every check, and the post.

    Returns
    -------
    Step or None
        As `onto_post`; none where both ends are closed.

    Source
    ------
    As `onto_post`.
    """
    is_open = "open" in (ground.job.roof.left, ground.job.roof.right)
    return onto_post(ground, post, "along") if is_open else None


def with_lower_half(ground: Ground, post: Post, push: AtFoot) -> AtFoot:
    """What a push brings to a foot, with wind on the lower half of a post that stands free: it goes straight down.

    Parameters
    ----------
    ground, post
        The inputs of every check, and the post.
    push
        On the row, without it. What knee braces across bring has it already.

    Returns
    -------
    AtFoot
        [kN, kNm]; as it was where the post stands in a wall, or nothing blows.

    Source
    ------
    EN 1991-1-4:2005, 7.6, from memory; statics. A foot held against turning has its whole moment in the push: the upper
    half at the head turns it by as much as all of the wind at half its height.
    """
    roof = ground.job.roof
    across = not roof.attached and roof.back == "open" and ground.job.frame.bracing_across != "knee braces"
    along = along_the_row(ground, post) if push.along_kn else None
    square = onto_post(ground, post, "square") if push.square_kn and across else None
    if along is None and square is None:
        return push
    more = [0.0 if step is None else float(step.result) for step in (along, square)]
    one = sum(more)
    plain = "" if push.along_kn and push.square_kn else f"{push.along_kn or push.square_kn:.5f}"
    numbers = f"({push.numbers or plain} + {one:.5f})" if plain else ""
    return replace(
        push,
        along_kn=push.along_kn + more[0],
        square_kn=push.square_kn + more[1],
        formula=f"({push.formula or 'H'} + H_p)" if numbers else "",
        numbers=numbers,
        before=(
            *push.before,
            *(step for step in (along, square) if step is not None),
            *(() if plain else _both_with_it(push, more)),
        ),
    )


def _both_with_it(push: AtFoot, more_kn: Sequence[float]) -> Iterator[Step]:
    """Of a push that comes both ways, either way with wind on the post."""
    for way, level, half in zip(("along", "square"), (push.along_kn, push.square_kn), more_kn, strict=True):
        if half:
            yield Step(
                says=f"Level here with wind on the post, {way}",
                formula="H + H_p",
                numbers=f"{level:.5f} + {half:.5f}",
                result=level + half,
                unit="kN",
                clause="statics; H as above",
            )


def blown(ground: Ground, forces: EavesForces, k: int, *, of_foot: bool = True) -> Iterator[AtFoot]:
    """What wind straight onto a post brings to its foot, or to its head.

    Parameters
    ----------
    ground, forces, k
        The inputs of every check, the beam with its posts, and the number of the post.
    of_foot
        False at its head, which turns freely and is looked at for half, held foot or not.

    Yields
    ------
    AtFoot
        Of wind onto a closed front, or back, nothing where it is open; then of wind square to a post of an open front.
        That across a free-standing roof is in the push across.

    Raises
    ------
    OutsideScope
        As `pentice.checks.post_winds.front_winds`.

    Source
    ------
    Statics: half of what the post holds, 5 / 8 and w l^2 / 8 where its foot is held against turning across.
    EN 1991-1-4:2005, 7.6, from memory.
    """
    post, roof = forces.beam.posts[k], ground.job.roof
    front, factor = lasting_front(ground, forces, k), blowing(ground).wind
    line, tall = front.line_n_mm, post.length_mm or 0.0
    if line:
        held = of_foot and ground.job.frame.bracing_across == "fixed feet"
        force = factor * line * (HELD_FOOT if held else FREE_FOOT) * tall / 1000.0
        turned = Step(
            says="Turns the foot, the head held",
            formula="M = gamma w l^2 / 8",
            numbers=f"{factor:g} x {line:.6f} x {tall / 1000.0:.5f}^2 / 8",
            result=factor * line * tall**2 / 8e6,
            unit="kNm",
            clause="statics",
        )
        yield AtFoot(
            says="wind onto the front",
            square_kn=force,
            square_knm=float(turned.result) if held else 0.0,
            formula="5 gamma w l / 8" if held else "gamma w l / 2",
            numbers=f"{'5 x ' if held else ''}{factor:g} x {line:.6f} x {tall / 1000.0:.5f} / {8 if held else 2}",
            before=(*front.before, turned) if held else front.before,
        )
    if roof.attached and roof.front == "open" and forces.beam.row == "eaves":
        onto = onto_post(ground, post, "square")
        if onto is not None:
            force = float(onto.result)
            yield AtFoot(
                says="wind onto the post",
                square_kn=force,
                formula="H_p",
                numbers=f"{force:.5f}",
                before=(onto,),
            )
