"""A free-standing roof, pushed across from head to eaves: wind on roof, edges and posts, and posts out of plumb.

Nothing ties it to a wall, so its two rows of posts hold it upright this way too.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pentice.checks.brought import PAIR_ACROSS, Brought, of_frames
from pentice.checks.eaves import EavesForces
from pentice.checks.foot_sway import HeldPost, alpha_of_feet, held_post
from pentice.checks.ground import JUDGEMENT, Ground
from pentice.checks.knees_across import KneesAcross, knees_across
from pentice.checks.leaning import leaning
from pentice.checks.level import level_line
from pentice.checks.pads_values import AtFoot
from pentice.checks.racking import EDGE_C_F, EDGES, VERGE_MM
from pentice.checks.walls import declared
from pentice.errors import OutsideScope
from pentice.standards.en1991_1_4_roofs import correlation_factor, wall_coefficients
from pentice.standards.en1995_members import (
    out_of_plumb,
)
from pentice.working import Step

_WORDS = "the push across the roof"


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """The push across the whole roof, and what each post takes of it."""

    push_kn: float
    """Design value [kN]."""
    level_kn: tuple[tuple[float, ...], ...]
    """At the foot of each post, row by row [kN]."""
    moments_knm: tuple[tuple[float, ...], ...]
    """In each post above its foot, row by row; 0 where others have shown what holds it [kNm]."""
    pair_kn: tuple[tuple[float, ...], ...]
    """Up and down on each post, row by row; 0 where the feet are held [kN]."""
    wind_kn: float
    """Characteristic wind in it [kN]."""
    parts: str
    """The same as a sum."""
    weight_kn: float
    """What presses on all posts at most, design value [kN]."""
    working: tuple[Step, ...]
    knees: KneesAcross | None = None
    """Knee braces across with what they do."""
    refused: str = ""
    """Why knee braces across are not calculated."""
    pair_numbers: tuple[str, ...] = ()
    """Of each row where its posts share evenly: how `pair_kn` comes about."""

    def pairs(self, r: int) -> list[Brought]:
        """What goes up and down on each post of a row, each with its line."""
        if self.knees is not None:
            return [of_frames(PAIR_ACROSS, kn) for kn in self.pair_kn[r]]
        numbers = self.pair_numbers[r] if self.pair_numbers else ""
        clause = "equilibrium; H: see the bracing across"
        return [
            Brought(says=PAIR_ACROSS, kn=kn, formula="H h / B n", numbers=numbers, clause=clause)
            for kn in self.pair_kn[r]
        ]


def why_no_across(ground: Ground, rows: Sequence[EavesForces]) -> str:
    """Why the push across is not known; empty where it is.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts.

    Returns
    -------
    str
        A sentence.

    Source
    ------
    Definition.
    """
    if len(rows) < 2:
        return "One of the two rows of posts is not known: give its beam and its posts."
    if any(post.length_mm is None for row in rows for post in row.beam.posts):
        return "The posts' length is not known: give roof.head_height_mm, or the eaves height."
    return ""


def across(ground: Ground, rows: Sequence[EavesForces]) -> Across:
    """The push across the roof with its working, shared out over the posts.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts, that of the eaves first.

    Returns
    -------
    Across
        [kN, kNm].

    Source
    ------
    EN 1991-1-4:2005, 7.3(6) for the roof, 7.5 for drag, 7.6 for edges; EN 1995-1-1:2004, 5.4.4. Everything at its
    greatest at once. With feet held, a post takes the greater of an even share and of its share by stiffness, 1 / h^3:
    rafters tie both rows together, and feet give; judgement, on the safe side. Knee braces: `knees_across`; where they
    are not calculated, and where others have shown the bracing, the posts share evenly.
    """
    steps = list(_pushes(ground, rows))
    factor = max(c.wind for c in ground.loads.combinations if c.kind in ("strength", "uplift"))
    weight = sum(_pressed_kn(row) for row in rows)
    heights = _heights(rows)
    low = min(min(row) for row in heights)
    lean = out_of_plumb(low)
    wind = sum(float(step.result) for step in steps)
    push = factor * wind + lean * weight
    parts = " + ".join(f"{float(step.result):.4f}" for step in steps)
    steps += [
        Step(
            says="Posts out of plumb",
            formula="phi = 0.005 sqrt(min(1, 5 / h))",
            numbers=f"0.005 x sqrt(min(1, 5 / {low / 1000.0:.4f}))",
            result=lean,
            unit="",
            clause="EN 1995-1-1, 5.4.4, eq. 5.1, from memory; h of the lowest, to the middle of its beam",
        ),
        Step(
            says="Push across the roof on both rows of posts",
            formula="H = gamma sum W + phi N",
            numbers=f"{factor:g} x ({parts}) + {lean:.5f} x {weight:.4f}",
            result=push,
            unit="kN",
            clause="EN 1990, 6.10; the greatest of each at once, " + JUDGEMENT,
        ),
    ]
    pushed = Across(
        push_kn=push,
        level_kn=(),
        moments_knm=(),
        pair_kn=(),
        wind_kn=wind,
        parts=parts,
        weight_kn=weight,
        working=tuple(steps),
    )
    if ground.job.frame.bracing_across == "fixed feet":
        return _by_held_feet(heights, _leaned(ground, rows, pushed))
    apart = max(ground.shape.projection_mm - sum(row.beam.size_mm[0] for row in rows) / 2.0, 1.0)
    even = _evenly(heights, pushed, apart)
    return even if ground.job.frame.bracing_across is None else _by_knees(ground, rows, even, lean)


Heights = Sequence[Sequence[float]]


def _heights(rows: Sequence[EavesForces]) -> list[list[float]]:
    return [[height_mm(row, k) for k in range(len(row.beam.posts))] for row in rows]


def _nothing(heights: Heights) -> tuple[tuple[float, ...], ...]:
    return tuple((0.0,) * len(row) for row in heights)


def _evenly(heights: Heights, push: Across, apart_mm: float) -> Across:
    """Each post the same: what braces them is shown by others, or not at all."""
    count, high = sum(map(len, heights)), max(map(max, heights))
    return replace(
        push,
        level_kn=tuple((push.push_kn / count,) * len(row) for row in heights),
        moments_knm=_nothing(heights),
        pair_kn=tuple((push.push_kn * high / apart_mm / len(row),) * len(row) for row in heights),
        pair_numbers=tuple(
            f"{push.push_kn:.4f} x {high:.1f} / {apart_mm:.1f} / {len(row)}" for row in heights
        ),
    )


def _shares(heights: Heights) -> tuple[tuple[float, ...], ...]:
    """Of each held post the greater of an even share and of that by stiffness."""
    count, stiff = sum(map(len, heights)), sum(h**-3 for row in heights for h in row)
    return tuple(tuple(max(1.0 / count, h**-3 / stiff) for h in row) for row in heights)


def held_across(ground: Ground, rows: Sequence[EavesForces]) -> list[HeldPost]:
    """The posts of both rows, pushed across, each with its share of the push.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts.

    Returns
    -------
    list of HeldPost
        Row by row.

    Source
    ------
    As `across`.
    """
    heights = _heights(rows)
    return [
        held_post(ground, post, "square", share=share, height_mm=h)
        for row, of_row, tall in zip(rows, _shares(heights), heights, strict=True)
        for post, share, h in zip(row.beam.posts, of_row, tall, strict=True)
    ]


def _leaned(ground: Ground, rows: Sequence[EavesForces], push: Across) -> Across:
    """The push with what leaning adds."""
    alpha = alpha_of_feet(ground, held_across(ground, rows), push.weight_kn)
    pushed, steps = leaning(ground, alpha, push.push_kn)
    return replace(push, push_kn=pushed, working=(*push.working, *steps))


def _by_held_feet(heights: Heights, push: Across) -> Across:
    """Each post stands up by itself."""
    level = tuple(tuple(push.push_kn * share for share in row) for row in _shares(heights))
    moments = tuple(
        tuple(force * h / 1000.0 for force, h in zip(forces, row, strict=True))
        for forces, row in zip(level, heights, strict=True)
    )
    return replace(push, level_kn=level, moments_knm=moments, pair_kn=_nothing(heights))


def _by_knees(ground: Ground, rows: Sequence[EavesForces], push: Across, lean: float) -> Across:
    """What the braced pairs of posts bring; as shared evenly where they are not calculated."""
    try:
        knees = knees_across(ground, rows, push.push_kn, lean)
    except OutsideScope as refusal:
        return replace(push, refused=str(refusal))
    return replace(push, level_kn=knees.level_kn, pair_kn=knees.pair_kn, knees=knees)


def _pressed_kn(row: EavesForces) -> float:
    strength = [i for i, c in enumerate(row.cases) if c.combination.kind == "strength"]
    return float(row.reactions_n[strength].clip(min=0.0).sum(axis=1).max()) / 1000.0


def _pushes(ground: Ground, rows: Sequence[EavesForces]) -> Iterator[Step]:
    """Each part of the wind across the roof, characteristic [kN]."""
    shape, peak = ground.shape, ground.loads.wind.peak_pressure_kn_m2 or 0.0
    sine = math.sin(math.radians(shape.pitch_deg))
    force = _greatest_force_kn(ground)
    drag = max((w.drag_kn for w in ground.loads.wind.whole if w.drag_along == "y"), default=0.0)
    yield Step(
        says="Level part of the wind on the whole roof, and its drag",
        formula="F sin(pitch) + F_fr",
        numbers=f"{force:.4f} x sin({shape.pitch_deg:.3f}) + {drag:.4f}",
        result=force * sine + drag,
        unit="kN",
        clause="EN 1991-1-4, 7.3(6), 7.5; see the loads",
    )
    rafter = ground.setting_out.plane.rafters[0].depth_mm / shape.cos_pitch
    deep = [(row.beam.size_mm[1] + rafter + VERGE_MM) / 1000.0 for row in rows]
    width = shape.width_mm / 1000.0
    yield Step(
        says="Both long edges, facing the wind: beam, rafter and sheet",
        formula="c_f q_p L (d_eaves + d_head)",
        numbers=f"{EDGE_C_F:g} x {peak:.4f} x {width:.4f} x ({deep[0]:.4f} + {deep[1]:.4f})",
        result=EDGE_C_F * peak * width * sum(deep),
        unit="kN",
        clause=EDGES,
    )
    if ground.job.roof.back == "closed":
        yield _walls(ground, peak)
        return
    posts = [post for row in rows for post in row.beam.posts]
    tall = sum(post.length_mm or 0.0 for post in posts) / 1000.0
    wide = max(post.size_mm[0] for post in posts) / 1000.0
    yield Step(
        says="Upper half of the posts",
        formula="c_f q_p b sum h / 2",
        numbers=f"{EDGE_C_F:g} x {peak:.4f} x {wide:.4f} x {tall:.4f} / 2",
        result=EDGE_C_F * peak * wide * tall / 2.0,
        unit="kN",
        clause=EDGES,
    )


def _walls(ground: Ground, peak: float) -> Step:
    """Front and back of a closed room, pushed to windward and drawn to leeward: half the height of the higher one."""
    shape = ground.shape
    head, width = (shape.head_height_mm or 0.0) / 1000.0, shape.width_mm / 1000.0
    depth = shape.depth_on_plan_mm / 1000.0
    if ground.job.site.side_wind is not None:
        return _declared_walls(ground, peak, width, head)
    found = {c.zone: c.cpe_10 for c in wall_coefficients(height_m=head, depth_m=depth)}
    together = correlation_factor(height_m=head, depth_m=depth)
    net = (found["D"] - found["E"]) * together
    return Step(
        says="Front and back, pushed and drawn: half of the higher one's height",
        formula="(c_D - c_E) f q_p L h / 2",
        numbers=f"({found['D']:.4f} - ({found['E']:.4f})) x {together:.4f} x {peak:.4f} x {width:.4f} x {head:.4f} / 2",
        result=net * peak * width * head / 2.0,
        unit="kN",
        clause="EN 1991-1-4, Table 7.1, D and E, 7.2.2(3); walls from ground to beam",
    )


def _declared_walls(ground: Ground, peak: float, width_m: float, head_m: float) -> Step:
    """The same as the job declares it, wind from the worse side."""
    (front_in, front_out), (back_in, back_out) = declared(ground, "front"), declared(ground, "back")
    push, pull = max(((front_in, back_out), (back_in, front_out)), key=lambda pair: pair[0].net - pair[1].net)
    net = push.outside - pull.outside
    return Step(
        says="Front and back, pushed and drawn: half of the higher one's height",
        formula="(c_in - c_out) q_p L h / 2",
        numbers=f"({push.outside:g} - ({pull.outside:g})) x {peak:.4f} x {width_m:.4f} x {head_m:.4f} / 2",
        result=net * peak * width_m * head_m / 2.0,
        unit="kN",
        clause=f"{push.clause()}; both at their worst at once, {JUDGEMENT}; walls from ground to beam",
    )


def _greatest_force_kn(ground: Ground) -> float:
    """The greatest force on the whole roof, in size; by its zones where no force on the whole is given.

    What stands inside a closed room presses on its walls as much as on its roof, and so does not push it across.
    """
    whole = [abs(w.force_kn) for w in ground.loads.wind.whole if w.force_kn is not None]
    if whole:
        return max(whole)
    peak, cos = ground.loads.wind.peak_pressure_kn_m2 or 0.0, ground.shape.cos_pitch
    return max(
        abs(
            sum(
                zone.c_10 * (zone.x_mm[1] - zone.x_mm[0]) * (zone.y_mm[1] - zone.y_mm[0]) * 1e-6
                for zone in case.zones
            )
        )
        * peak
        / cos
        for case in ground.loads.wind.cases
    )


def at_feet(rows: Sequence[EavesForces], push: Across, row: int, k: int, along: AtFoot) -> tuple[AtFoot, ...]:
    """What the push across brings to the foot of one post, and that along with what the braces across push always.

    Parameters
    ----------
    rows, push
        Both beams with their posts, and the push across the roof.
    row, k
        Place of the row, and of the post in it.
    along
        What the push along brings there.

    Returns
    -------
    tuple of AtFoot
        Level, and as a moment where the feet are held.

    Source
    ------
    As `across`.
    """
    level, moment = push.level_kn[row][k], push.moments_knm[row][k]
    if push.knees is None:
        share = level / push.push_kn if push.push_kn else 0.0
        across = AtFoot(
            square_kn=level,
            square_knm=moment,
            says=_WORDS,
            formula="s H",
            numbers=f"{share:.5f} x {push.push_kn:.4f}",
            before=(turned_step(rows, push, row, k),) if moment else (),
        )
        return (along, across)
    thrust = push.knees.thrust_kn[row][k]
    across = AtFoot(square_kn=level, says=_WORDS, before=of_frames("square to the row, H", level).steps())
    both = replace(
        along,
        formula="",
        numbers="",
        square_kn=thrust,
        says=f"{along.says} with the thrust of the braces across",
        before=(
            *along.before,
            replace(
                level_line("along", along.formula, along.numbers, along.along_kn),
                says=f"Along the row by {along.says}",
            ),
            *of_frames("square to the row, thrust of the braces across", thrust).steps(),
        ),
    )
    return (both, across)


def turned_step(rows: Sequence[EavesForces], push: Across, r: int, k: int) -> Step:
    """What the push turns a held foot by, as a line.

    Parameters
    ----------
    rows, push
        Both beams with their posts, and the push across the roof.
    r, k
        Place of the row, and of the post in it.

    Returns
    -------
    Step
        [kNm].

    Source
    ------
    As `across`.
    """
    post, height = rows[r].beam.posts[k], height_mm(rows[r], k)
    share = push.level_kn[r][k] / push.push_kn if push.push_kn else 0.0
    return Step(
        says=f"At the foot of post {post.number}",
        formula="M = s H h",
        numbers=f"{share:.5f} x {push.push_kn:.4f} x {height:.1f} / 1000",
        result=push.moments_knm[r][k],
        unit="kNm",
        clause="equilibrium; s the greater of an even share and of that by 1 over h cubed, " + JUDGEMENT,
    )


def height_mm(row: EavesForces, k: int) -> float:
    """From the foot of a post to the middle of its beam.

    Parameters
    ----------
    row, k
        The beam with its posts, and place of the post.

    Returns
    -------
    float
        [mm].

    Source
    ------
    Geometry.
    """
    return (row.beam.posts[k].length_mm or 0.0) + row.beam.size_mm[1] / 2.0
