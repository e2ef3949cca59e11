"""Which posts knee braces across hold in pairs, how each brace lies, and how the push is shared among the pairs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground
from pentice.checks.knee_bolts import net_section
from pentice.checks.knee_values import ROWS, Even, KneeSide, Shares
from pentice.checks.rafter_model import RafterModel, rafter_models
from pentice.errors import OutsideScope, require_within
from pentice.frame.stage import row_places
from pentice.mechanics.continuous import ContinuousBeam, continuous_beam, merged_places, nearest_node

_HALF_BRACE_MM = 50.0
"""Room between the middle line of a brace and the edge of the beam that it passes: judgement, no source."""


def braced_pairs(
    ground: Ground, rows: Sequence[EavesForces]
) -> list[tuple[RafterModel, tuple[KneeSide, KneeSide]]]:
    """Every pair of posts opposite each other with the rafter over them, from the left.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts, that of the eaves first.

    Returns
    -------
    list
        Rafter, eaves post, head post [mm].

    Raises
    ------
    OutsideScope
        Something that is not calculated: the sentence names it and the way out.

    Source
    ------
    Geometry; ranges of a brace are common practice, no source.
    """
    _require_scope(ground)
    return [_pair(ground, rows, k) for k in range(_opposite(rows))]


def _require_scope(ground: Ground) -> None:
    """What this calculation leaves out is refused."""
    do = "Give frame.bracing_across_kn where others have shown what braces it."
    if ground.parts.bar.carries:
        raise OutsideScope(f"Knee braces across need rafters; here the bars carry by themselves. {do}")
    if ground.parts.post_section is not None:
        raise OutsideScope(
            f"Knee braces across are calculated for timber posts, not for posts of metal. {do}"
        )
    for key in ("rafter_notch_mm", "head_notch_mm"):
        cut = getattr(ground.job.frame, key)
        if cut:
            raise OutsideScope(
                f"Knee braces across are calculated for rafters without birdsmouths: frame.{key} is {cut:g}. Wedge the "
                "rafters on the beam, or give frame.bracing_across_kn."
            )
    if "closed" in (ground.job.roof.front, ground.job.roof.back):
        raise OutsideScope(
            f"Knee braces across are calculated for a roof with open sides; walls bend its posts too. {do}"
        )


def _opposite(rows: Sequence[EavesForces]) -> int:
    """How many posts stand in each row, one opposite the other."""
    eaves, head = (row.beam.posts for row in rows)
    for here, there in ((eaves, head), (head, eaves)):
        for post in here:
            near = min(there, key=lambda p: abs(p.x_mm - post.x_mm))
            if abs(near.x_mm - post.x_mm) > 1.0 or len(here) != len(there):
                raise OutsideScope(
                    f"Knee braces across need posts opposite each other: post {post.number} at {post.x_mm:g} mm has "
                    f"post {near.number} at {near.x_mm:g} mm nearest to it in the other row. Give both rows the same "
                    "places: frame.posts_at_mm alone."
                )
    return len(eaves)


def _pair(
    ground: Ground, rows: Sequence[EavesForces], k: int
) -> tuple[RafterModel, tuple[KneeSide, KneeSide]]:
    post = rows[0].beam.posts[k]
    models = ground.once(rafter_models)
    model = min(models, key=lambda m: abs(m.rafter.centre_foot_mm - post.x_mm))
    asides = [model.rafter.centre_foot_mm - post.x_mm, model.rafter.centre_head_mm - post.x_mm]
    aside, width = max(asides, key=abs), model.rafter.width_mm
    room = (post.size_mm[0] - width) / 2.0
    if room < 0.0:
        raise OutsideScope(
            f"Knee braces across need posts as wide as the rafters over them: post {post.number} is "
            f"{post.size_mm[0]:g} wide, the rafter {width:g}. Take wider posts in frame.post_mm."
        )
    if abs(aside) > room + 1.0:
        raise OutsideScope(
            f"Knee braces across need a rafter over every post, within its width: at post {post.number}, "
            f"{post.size_mm[0]:g} wide at {post.x_mm:g} mm, the nearest rafter, {width:g} wide, stands "
            f"{abs(aside):.0f} mm from its middle. Move the post in frame.posts_at_mm, to {post.x_mm + aside:.0f}, or "
            "change frame.bay_count; a rafter beside the post would twist it and is not calculated."
        )
    down, reach = ground.job.frame.knee_across_mm
    depth = model.span_mm * ground.shape.cos_pitch
    sides = [_side(ground, rows, r, k, model, aside) for r in (0, 1)]
    for side in sides:
        where = f"knee brace across at post {side.post.number}: "
        low, high = 0.577 * reach, 1.733 * reach
        do = "Let it stand at 30 to 60 degrees: frame.knee_across_mm."
        require_within(f"{where}its rise", side.rise_mm, low, high, unit="mm", source=_USUAL, do=do)
        do = "Take less in frame.knee_across_mm."
        require_within(f"{where}down", down, 1.0, side.height_mm / 2.0, unit="mm", source=_USUAL, do=do)
        require_within(f"{where}along", reach, 1.0, 0.45 * depth, unit="mm", source=_USUAL, do=do)
        beam = rows[side.at[0]].beam.size_mm[0] / 2.0
        room = down - side.above_mm - beam * side.rise_mm / reach
        if room < _HALF_BRACE_MM:
            raise OutsideScope(
                f"The knee brace across at post {side.post.number} would run into the beam: its middle line passes "
                f"{room:.0f} mm below it; {_HALF_BRACE_MM:g} or more is needed. Take more down the post in "
                "frame.knee_across_mm."
            )
    net_section(ground, *post.size_mm)
    net_section(ground, width, model.rafter.depth_mm)
    return model, (sides[0], sides[1])


_USUAL = "common practice, no source"


def _side(
    ground: Ground, rows: Sequence[EavesForces], r: int, k: int, model: RafterModel, aside: float
) -> KneeSide:
    """A post with its brace: level heights of the crossing from the roof line over the head beam's middle."""
    shape, post = ground.shape, rows[r].beam.posts[k]
    tan = math.tan(math.radians(shape.pitch_deg))
    down, reach = ground.job.frame.knee_across_mm
    rafter = model.rafter.depth_mm / 2.0 / shape.cos_pitch
    crossing = (shape.head_height_mm or 0.0) - model.start_mm * shape.cos_pitch * tan - rafter
    if r == 0:
        crossing -= model.span_mm * shape.cos_pitch * tan
    feet = row_places(ground.job, head=r == 1)[1]
    height = crossing - feet[k]
    return KneeSide(
        row=ROWS[r],
        at=(r, k),
        post=post,
        height_mm=height,
        above_mm=height - (post.length_mm or 0.0),
        down_mm=down,
        reach_mm=reach,
        rise_mm=down + (reach if r == 0 else -reach) * tan,
        aside_mm=aside,
    )


# How the push is shared


def shares_of_push(ground: Ground, places: Sequence[float]) -> list[tuple[Even, Shares]]:
    """The share of the push across that each pair of posts takes, in three ways.

    Parameters
    ----------
    ground, places
        The inputs of every check, and the places of the pairs along the beams [mm].

    Returns
    -------
    list of tuple
        What the first way comes from, and the shares: beams stiff, pairs stiff, field by field [-].

    Source
    ------
    Statics of beams bent level over pairs of posts; the greatest counts: judgement, on the safe side.
    """
    rest = zip(_by_stiff_posts(ground, places), _by_fields(ground, places), strict=True)
    found = []
    for n, (posts, fields) in enumerate(rest):
        even, share = _by_stiff_beams(ground, places, n)
        found.append((even, (share, posts, fields)))
    return found


def _by_stiff_beams(ground: Ground, places: Sequence[float], n: int) -> tuple[Even, float]:
    """Pairs that give alike under beams that do not: even, and more where the push stands off their middle."""
    count, middle = len(places), sum(places) / len(places)
    off, here = abs(ground.shape.width_mm / 2.0 - middle), abs(places[n] - middle)
    squares = sum((x - middle) ** 2 for x in places)
    return (count, off, here, squares), 1.0 / count + off * here / squares


def _by_stiff_posts(ground: Ground, places: Sequence[float]) -> list[float]:
    """Beams that bend over pairs that do not give."""
    import numpy as np

    width = ground.shape.width_mm
    nodes = merged_places((0.0, width, *places))
    held = tuple(nearest_node(nodes, x) for x in places)
    lines = np.full((1, len(nodes) - 1, 2), 1.0 / width)
    found = continuous_beam(ContinuousBeam(nodes_mm=nodes, held=held, ei_n_mm2=1.0), lines).reactions_n[0]
    return [float(share) for share in found]


def _by_fields(ground: Ground, places: Sequence[float]) -> list[float]:
    """Half of each field beside a pair, and all beyond the outermost."""
    halves = [0.0, *((a + b) / 2.0 for a, b in pairwise(places)), ground.shape.width_mm]
    return [(b - a) / ground.shape.width_mm for a, b in pairwise(halves)]
