"""What the push along a row of posts, and that across the roof, bring level to the joint of each post with its beam."""

from __future__ import annotations

from collections.abc import Sequence

from pentice.checks.bracing import pairs_kn
from pentice.checks.bracing_brings import feet_along
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground
from pentice.checks.onto_posts import along_the_row
from pentice.checks.pads_values import AtFoot
from pentice.checks.racking import Racking
from pentice.frame.values import Post


def at_heads(ground: Ground, forces: EavesForces, push: Racking) -> list[AtFoot]:
    """What the push along a row brings to the joint of each post with its beam.

    Parameters
    ----------
    ground, forces, push
        The inputs of every check, the beam with its posts, and the push along it.

    Returns
    -------
    list of AtFoot
        For each post [kN].

    Source
    ------
    Equilibrium. A knee brace turns the post about its foot, and its head holds against it: (H / n) (h / a - 1). With a
    diagonal all of it at each post whose field may be the braced one, as at the feet, and at any other the wind on its
    own upper half. Else what the foot takes.
    """
    posts, kind = forces.beam.posts, ground.job.frame.bracing
    says = f"the push {ground.along}"
    if kind == "knee braces":
        knee, count = ground.job.frame.knee_mm[0], len(posts)
        at_head = AtFoot(
            says=says,
            along_kn=push.push_kn / count * abs(push.height_mm / knee - 1.0),
            formula="(H / n) |h / a - 1|",
            numbers=f"{push.push_kn:.5f} / {count} x |{push.height_mm:.2f} / {knee:g} - 1|",
        )
        return [at_head] * count
    feet = [foot.along_kn for foot in feet_along(ground, forces, push)]
    if kind == "diagonal":
        lifted = pairs_kn(ground, forces, push)
        whole = AtFoot(says=says, along_kn=push.push_kn, formula="H", numbers=f"{push.push_kn:.5f}")
        return [whole if lifted[k] else _upper_half(ground, post) for k, post in enumerate(posts)]
    return [
        AtFoot(says=says, along_kn=level, formula="H / n", numbers=f"{push.push_kn:.5f} / {len(posts)}")
        for level in feet
    ]


def _upper_half(ground: Ground, post: Post) -> AtFoot:
    """Wind along the row on a post that its field's diagonal does not hold: straight into the beam."""
    wind = along_the_row(ground, post)
    if wind is None:
        return AtFoot(says=f"wind {ground.along}")
    return AtFoot(
        says=f"wind {ground.along} onto the post",
        along_kn=float(wind.result),
        formula=wind.formula.partition(" = ")[2],
        numbers=wind.numbers,
    )


def with_square(along: Sequence[AtFoot], square: Sequence[AtFoot]) -> list[list[AtFoot]]:
    """What comes to each head along its row, and by itself what the push across brings there.

    Parameters
    ----------
    along
        Of each post.
    square
        Of each post, of the push across; empty: nothing, or it is asked of elsewhere [kN].

    Returns
    -------
    list
        For each post.

    Source
    ------
    Wind along the row and across it do not blow at once.

    Examples
    --------
    >>> along = [AtFoot(says="the push along", along_kn=1.0)]
    >>> [push.level_kn for push in with_square(along, [AtFoot(says="the push across", square_kn=0.5)])[0]]
    [1.0, 0.5]
    """
    if not square:
        return [[one] for one in along]
    return [[one, other] for one, other in zip(along, square, strict=True)]
