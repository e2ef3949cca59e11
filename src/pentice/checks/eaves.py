"""Forces in the eaves beam and on its posts: each load once by stiffness, every combination by superposition."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.checks.ground import Ground
from pentice.checks.metal import Metal, metal_of
from pentice.checks.passed_on import Combined, PassedOn, strengths_in
from pentice.checks.timber_shown import service_class
from pentice.frame.values import EavesBeam, Post
from pentice.loads.combine import Combination
from pentice.loads.weight import GRAVITY
from pentice.mechanics.beam import rectangle_stiffness
from pentice.mechanics.continuous import (
    ContinuousAnswer,
    ContinuousBeam,
    continuous_beam,
    merged_places,
    nearest_node,
)
from pentice.standards.en338 import StrengthClass, strength_class

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamPart:
    """One part of the beam between its ends: its nodes, and what each combination does to it."""

    model: ContinuousBeam
    posts: tuple[Post, ...]
    points_n: Array
    """Point load of each characteristic load on each node, shape (loads, nodes) [N]."""
    each: ContinuousAnswer
    """What each of those loads does, the beam's own weight with the dead; other cases stand behind them."""
    moments_n_mm: Array
    """At each node, shape (combinations, nodes) [N mm]; sagging positive."""
    within_n_mm: Array
    """Extreme between two nodes, shape (combinations, stretches) [N mm]."""
    shears_n: Array
    """Greatest in size of each stretch, shape (combinations, stretches) [N]."""

    def span_of(self, stretch: int) -> tuple[float, bool]:
        """Clear distance between the posts around a stretch [mm], and whether it runs past the last post instead."""
        nodes, held = self.model.nodes_mm, self.model.held
        before = bisect_right(held, stretch)
        start = nodes[held[before - 1]] if before else nodes[0]
        end = nodes[held[before]] if before < len(held) else nodes[-1]
        return end - start, not 0 < before < len(held)

    def where(self, stretch: int) -> str:
        """A stretch in words: "between posts 1 and 2", "left of post 1"."""
        before = bisect_right(self.model.held, stretch)
        if 0 < before < len(self.posts):
            return f"between posts {self.posts[before - 1].number} and {self.posts[before].number}"
        return f"right of post {self.posts[-1].number}" if before else f"left of post {self.posts[0].number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class EavesForces:
    """The beam and what stands under it, in every combination."""

    beam: EavesBeam
    timber: StrengthClass
    """Of a timber beam."""
    metal: Metal | None
    """Of a metal beam; None: timber."""
    line_n_mm: float
    """Own weight of the beam along it [N/mm]."""
    loads: PassedOn
    cases: tuple[Combined, ...]
    holds: Array
    """What a timber beam of strength 1 holds for so long, shape (combinations) [-]."""
    parts: tuple[BeamPart, ...]
    reactions_n: Array
    """On each post, shape (combinations, posts), down on the post positive [N]."""
    most_pressed: tuple[tuple[int, ...], ...]
    """For each post, of each combination but those of sag the case that presses most on it: its place in `cases`.

    All else is alike in a combination, and more push is never less used, EN 1995-1-1, 6.3.2.
    """
    least_pressed: tuple[tuple[int, ...], ...]
    """The same of the case that presses least, or lifts most."""
    dead_lifts_n: Array
    """What of the dead weight lifts each post, its place being such: 0 or more, characteristic [N]."""

    def on_post_n(self, k: int) -> dict[Combination, tuple[float, float]]:
        """What stands on a post at least and at most in each combination but those of sag [N]."""
        places = zip(self.least_pressed[k], self.most_pressed[k], strict=True)
        return {
            self.cases[most].combination: (
                float(self.reactions_n[least, k]),
                float(self.reactions_n[most, k]),
            )
            for least, most in places
        }


def why_not_solved(beam: EavesBeam) -> str:
    """Why a beam cannot be calculated; empty where it can.

    Parameters
    ----------
    beam
        As laid out.

    Returns
    -------
    str
        A sentence with the key to give.

    Source
    ------
    Statics: each part rests on two posts or more.
    """
    if len(beam.posts) < 2:
        return f"The posts are not named: give frame.post_mm and frame.{posts_key(beam)}."
    for part in beam.parts_mm:
        if len(beam.posts_under(part)) < 2:
            return (
                f"The part of the beam from {part[0]:.0f} to {part[1]:.0f} mm does not rest on two posts: move a post "
                f"in frame.{posts_key(beam)}."
            )
    return ""


def posts_key(beam: EavesBeam) -> str:
    """The key of the job that places the posts of a row.

    Parameters
    ----------
    beam
        As laid out.

    Returns
    -------
    str
        Without its table.

    Source
    ------
    None: a name.
    """
    return "head_posts_at_mm" if beam.row == "head" else "posts_at_mm"


def eaves_forces(ground: Ground, beam: EavesBeam, loads: PassedOn) -> EavesForces:
    """Moments, shears, sags and reactions of the beam in every combination.

    Parameters
    ----------
    ground
        The inputs of every check.
    beam
        A beam that `why_not_solved` has nothing against.
    loads
        What the rafters pass on.

    Returns
    -------
    EavesForces
        Posts count as supports that do not give; a joint over a post carries no moment.

    Source
    ------
    Stiffness method and superposition, both exact for straight members in bending.
    """
    import numpy as np

    timber = strength_class(ground.parts.timber_for("beam").strength_class)
    section = ground.parts.beam_section
    metal = metal_of(section) if section is not None else None
    b, h = beam.size_mm
    if metal is None:
        ei, _ = rectangle_stiffness(b, h, timber.e_0_mean_n_mm2, timber.g_mean_n_mm2)
        line = b * h * 1e-6 * timber.rho_mean_kg_m3 * GRAVITY
    else:
        ei, line = metal.e_n_mm2 * metal.profile.i_y_mm4, metal.line_n_mm
    cases, factors = loads.cases, loads.factors
    reactions = np.zeros((len(cases), len(beam.posts)))
    lifts = np.zeros(len(beam.posts))
    parts = []
    for part_mm in beam.parts_mm:
        last = part_mm is beam.parts_mm[-1]
        carried = [
            k
            for k, x in enumerate(loads.on(beam.row)[0])
            if part_mm[0] <= x < part_mm[1] or (last and x >= part_mm[1]) or (part_mm[0] == 0.0 and x < 0.0)
        ]
        part, held, lifting = _part(beam, part_mm, (ei, line), loads, carried, factors)
        parts.append(part)
        on = [beam.posts.index(post) for post in part.posts]
        reactions[:, on] += held
        lifts[on] += lifting
    return EavesForces(
        beam=beam,
        timber=timber,
        metal=metal,
        line_n_mm=line,
        loads=loads,
        cases=cases,
        holds=np.array(strengths_in(1.0, cases, service_class(ground))),
        parts=tuple(parts),
        reactions_n=reactions,
        most_pressed=_first_greatest(reactions, loads.at_their_most_by_combination),
        least_pressed=_first_greatest(-reactions, loads.at_their_most_by_combination),
        dead_lifts_n=lifts,
    )


def _first_greatest(amounts: Array, groups: Sequence[range]) -> tuple[tuple[int, ...], ...]:
    """For each column the row of the greatest amount in each group of rows."""
    import numpy as np

    found = [rows.start + amounts[rows.start : rows.stop].argmax(axis=0) for rows in groups]
    return tuple(map(tuple, np.transpose(found).tolist()))


def _part(
    beam: EavesBeam,
    part_mm: tuple[float, float],
    stiff_and_heavy: tuple[float, float],
    loads: PassedOn,
    carried: list[int],
    factors: Array,
) -> tuple[BeamPart, Array, Array]:
    """A part of the beam, what each combination puts on its posts, and what of the dead weight lifts each of them."""
    import numpy as np

    posts = beam.posts_under(part_mm)
    start, end = part_mm
    places, passed = loads.on(beam.row)
    forces = np.array(passed)
    at = [min(max(places[k], start), end) for k in carried]
    nodes = merged_places((start, end, *(p.x_mm for p in posts), *at))
    ei, weight = stiff_and_heavy
    held = tuple(nearest_node(nodes, p.x_mm) for p in posts)
    model = ContinuousBeam(nodes_mm=nodes, held=held, ei_n_mm2=ei)
    # Behind the loads the dead weight once more, every point load and stretch by itself: some of them lift a post.
    count, apart = len(loads.all), 2 * len(nodes) - 1
    points, lines = np.zeros((count + apart, len(nodes))), np.zeros((count + apart, len(nodes) - 1, 2))
    for k, x in zip(carried, at, strict=True):
        points[:count, nearest_node(nodes, x)] += forces[:, k]
    lines[0] = weight
    points[range(count, count + len(nodes)), range(len(nodes))] = points[0]
    lines[range(count + len(nodes), count + apart), range(len(nodes) - 1)] = weight
    each = continuous_beam(model, lines, points)
    moments = factors @ each.node_moments_n_mm[:count]
    lengths = np.diff(np.array(nodes))
    even = factors[:, :1] * weight
    level = np.diff(moments, axis=1) / lengths
    near, far = level + even * lengths / 2.0, level - even * lengths / 2.0
    turns = (near > 0.0) & (far < 0.0)
    tops = moments[:, :-1] + np.where(turns, near**2 / (2.0 * np.maximum(even, 1e-12)), 0.0)
    ends = np.where(np.abs(moments[:, 1:]) > np.abs(moments[:, :-1]), moments[:, 1:], moments[:, :-1])
    part = BeamPart(
        model=model,
        posts=posts,
        points_n=points[:count],
        each=each,
        moments_n_mm=moments,
        within_n_mm=np.where(turns & (np.abs(tops) > np.abs(ends)), tops, ends),
        shears_n=np.maximum(np.abs(near), np.abs(far)),
    )
    lifting = -np.minimum(each.reactions_n[count:], 0.0).sum(axis=0)
    return part, factors @ each.reactions_n[:count], lifting
