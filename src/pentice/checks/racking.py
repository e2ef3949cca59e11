"""What pushes the row of posts along the wall: wind on ends, posts and roof, and posts that stand out of plumb.

Half of what pushes the roof goes into the wall plate, half into the eaves beam and so into the posts: the roof is no
diaphragm, its sheets slide in their bars.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground
from pentice.checks.rests import Row, of_frame, of_posts, of_roof
from pentice.checks.values import RestsOn
from pentice.checks.walls import declared
from pentice.job.fields import Wall
from pentice.loads.wind import open_sides
from pentice.standards.en1991_1_4_roofs import correlation_factor, wall_coefficients
from pentice.standards.en1995_members import out_of_plumb
from pentice.working import Step

EDGE_C_F = 2.4
"""Force coefficient of an edge with sharp corners: the greatest of EN 1991-1-4, Figure 7.23, from memory."""
VERGE_MM = 40.0
"""What bar, sheet and trim add to the depth of an end rafter: judgement, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Racking:
    """The push along the wall on the row of posts, at the height of the beam."""

    push_kn: float
    """Design value, whole row [kN]."""
    height_mm: float
    """Of the beam over the feet: the longest post and the beam [mm]."""
    pair_kn: float
    """Pull up on the outermost post to windward, and as much more down on the one to leeward [kN]."""
    wind_kn: float
    """Characteristic wind in it [kN]."""
    parts: str
    """The same as a sum."""
    weight_kn: float
    """What presses on the row at most, design value [kN]."""
    working: tuple[Step, ...]


def why_no_racking(ground: Ground, forces: EavesForces) -> str:
    """Why the push along the wall is not known; empty where it is.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        The beam with its posts.

    Returns
    -------
    str
        A sentence.

    Source
    ------
    Definition.
    """
    if any(post.length_mm is None for post in forces.beam.posts):
        return "The posts' length is not known: give roof.eaves_height_mm, or the head height."
    return ""


def racking(ground: Ground, forces: EavesForces) -> Racking:
    """The push along the wall, with its working.

    Parameters
    ----------
    ground
        The inputs of every check.
    forces
        What each combination puts on the posts.

    Returns
    -------
    Racking
        [kN, mm].

    Raises
    ------
    OutsideScope
        The roof is more than five times as high as it is wide.

    Source
    ------
    EN 1991-1-4:2005, 7.2.2 for ends that are closed, or as the job declares; 7.6 for edges, 7.5 for drag;
    EN 1995-1-1:2004, 5.4.4 for posts out of plumb. Everything is taken at its greatest at once, on the safe side.
    """
    lengths = [post.length_mm or 0.0 for post in forces.beam.posts]
    height = max(lengths) + forces.beam.size_mm[1] / 2.0
    at_head = forces.beam.row == "head"
    steps = [*pushes_along(ground, "wall" if at_head else "beam"), *_on_posts(ground, forces)]
    wind = sum(float(step.result) for step in steps)
    factor = max(c.wind for c in ground.loads.combinations if c.kind in ("strength", "uplift"))
    strength = [i for i, c in enumerate(forces.cases) if c.combination.kind == "strength"]
    weight = float(forces.reactions_n[strength].clip(min=0.0).sum(axis=1).max()) / 1000.0
    lean = out_of_plumb(height)
    push = factor * wind + lean * weight
    parts = " + ".join(f"{float(step.result):.4f}" for step in steps)
    steps += [
        Step(
            says="Posts out of plumb",
            formula="phi = 0.005 sqrt(min(1, 5 / h))",
            numbers=f"0.005 x sqrt(min(1, 5 / {height / 1000.0:.4f}))",
            result=lean,
            unit="",
            clause="EN 1995-1-1, 5.4.4, eq. 5.1, from memory; h to the middle of the beam",
        ),
        Step(
            says=f"Push {ground.along} on the row of posts",
            formula="H = gamma sum W + phi N",
            numbers=f"{factor:g} x ({parts}) + {lean:.5f} x {weight:.4f}",
            result=push,
            unit="kN",
            clause="EN 1990, 6.10; the greatest of both at once, " + JUDGEMENT,
        ),
    ]
    posts = forces.beam.posts
    apart = max(posts[-1].x_mm - posts[0].x_mm, 1.0)
    return Racking(
        push_kn=push,
        height_mm=height,
        pair_kn=push * height / apart,
        wind_kn=wind,
        parts=parts or "0",
        weight_kn=weight,
        working=tuple(steps),
    )


def pushes_along(ground: Ground, at: Literal["beam", "wall"]) -> Iterator[Step]:
    """Each part of the wind on the roof along the wall that goes into the beam, or into the wall plate.

    Parameters
    ----------
    ground
        The inputs of every check.
    at
        "beam" for the share of the row of posts, "wall" for that of the wall plate.

    Yields
    ------
    Step
        Characteristic values [kN].

    Source
    ------
    As `racking`.
    """
    peak = ground.loads.wind.peak_pressure_kn_m2 or 0.0
    drags = [w for w in ground.loads.wind.whole if w.drag_along == "x"]
    if drags:
        drag = max(w.drag_kn for w in drags)
        yield Step(
            says="Half of the drag along the roof",
            formula="F_fr / 2",
            numbers=f"{drag:.4f} / 2",
            result=drag / 2.0,
            unit="kN",
            clause="EN 1991-1-4, 7.5; see the loads",
        )
    if any(side == "closed" for side in _ends(ground)):
        yield _closed_ends(ground, peak, at)
    open_ends = sum(side == "open" for side in _ends(ground))
    if open_ends:
        slope, deep = ground.setting_out.plane.slope_length_mm / 1000.0, verge_m(ground)
        yield Step(
            says=f"Half of the edge of {'both ends' if open_ends == 2 else 'the open end'}, facing the wind",
            formula="n c_f q_p d L / 2",
            numbers=f"{open_ends} x {EDGE_C_F:g} x {peak:.4f} x {deep:.4f} x {slope:.4f} / 2",
            result=open_ends * EDGE_C_F * peak * deep * slope / 2.0,
            unit="kN",
            clause=EDGES,
        )


def push_inputs(ground: Ground, row: Row | None) -> tuple[RestsOn, ...]:
    """What the push along rests on.

    Parameters
    ----------
    ground, row
        The inputs of every check, and the row that is pushed; None: the wall plate.

    Returns
    -------
    tuple of RestsOn
        Posts, what faces the wind at open ends, the walls of closed ones, snow and wind.

    Source
    ------
    As `racking`.
    """
    ends = _ends(ground)
    edge = "rafter_mm" if ground.job.frame.barge_board_mm is None else "barge_board_mm"
    posts = () if row is None else of_posts(ground, row)
    return (
        *posts,
        *(of_frame(ground, edge) if "open" in ends else ()),
        *(of_roof(ground, "projection_mm", "head_height_mm", "eaves_height_mm") if "closed" in ends else ()),
        ground.of_snow(),
        ground.of_wind(),
        *ground.of_side_wind(),
    )


EDGES = "EN 1991-1-4, 7.6, the greatest coefficient of Figure 7.23, from memory"


def verge_m(ground: Ground) -> float:
    """Depth of an end of the roof that faces the wind: rafter or barge board, with bar, sheet and trim.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    float
        [m].

    Source
    ------
    What is added to the timber is judgement, no source.
    """
    barge = ground.job.frame.barge_board_mm
    rafter = ground.setting_out.plane.rafters[0].depth_mm
    return (max(rafter, barge[1] if barge is not None else 0.0) + VERGE_MM) / 1000.0


def _ends(ground: Ground) -> tuple[str | None, str | None]:
    return ground.job.roof.left, ground.job.roof.right


def _on_posts(ground: Ground, forces: EavesForces) -> Iterator[Step]:
    """Posts that stand free: the upper half of each."""
    if "open" not in _ends(ground):
        return
    peak = ground.loads.wind.peak_pressure_kn_m2 or 0.0
    tall = sum(post.length_mm or 0.0 for post in forces.beam.posts) / 1000.0
    wide = max(post.size_mm[1] for post in forces.beam.posts) / 1000.0
    yield Step(
        says="Upper half of the posts",
        formula="c_f q_p b sum h / 2",
        numbers=f"{EDGE_C_F:g} x {peak:.4f} x {wide:.4f} x {tall:.4f} / 2",
        result=EDGE_C_F * peak * wide * tall / 2.0,
        unit="kN",
        clause=EDGES,
    )


def _closed_ends(ground: Ground, peak: float, at: Literal["beam", "wall"]) -> Step:
    """The end walls, pushed to windward and drawn to leeward: half their height, the share of one edge."""
    shape = ground.shape
    head, foot = (shape.head_height_mm or 0.0) / 1000.0, (shape.eaves_height_mm or 0.0) / 1000.0
    depth = shape.projection_mm / 1000.0
    place = "head" if at == "wall" else "beam"
    net, numbers, clause = _end_coefficient(ground)
    near, far, words = (
        (head, foot, "h_head + 2 h_eaves") if at == "beam" else (foot, head, "h_eaves + 2 h_head")
    )
    return Step(
        says=f"Closed ends, pushed and drawn: what half their height brings to the {place}",
        formula=f"c q_p P ({words}) / 12",
        numbers=f"{numbers} x {peak:.4f} x {depth:.4f} x ({near:.4f} + 2 x {far:.4f}) / 12",
        result=net * peak * depth * (near + 2.0 * far) / 12.0,
        unit="kN",
        clause=f"{clause}; studs from ground to rafter",
    )


def _end_coefficient(ground: Ground) -> tuple[float, str, str]:
    """Net coefficient of the closed ends together, its arithmetic and its source.

    What is inside pushes at two ends alike; at one closed end it stays, and wind onto the front sucks at that end.
    Declared coefficients are net: that of the end to windward pushes, that of the other draws, the worse way counts.
    """
    if ground.job.site.side_wind is not None:
        return _declared_ends(ground)
    shape, roof = ground.shape, ground.job.roof
    head, width = max((shape.head_height_mm or 0.0) / 1000.0, 0.01), shape.width_mm / 1000.0
    found = {c.zone: c for c in wall_coefficients(height_m=head, depth_m=width)}
    windward, leeward = found["D"].cpe_10, found["E"].cpe_10
    table = "EN 1991-1-4, Table 7.1"
    if _ends(ground) == ("closed", "closed"):
        together = correlation_factor(height_m=head, depth_m=width)
        numbers = f"({windward:.4f} - ({leeward:.4f})) x {together:.4f}"
        return (windward - leeward) * together, numbers, f"{table}, D and E, 7.2.2(3)"
    if len(open_sides(ground.job)) >= 2:
        return EDGE_C_F, f"{EDGE_C_F:g}", f"as an edge of an open roof, {JUDGEMENT}; {EDGES}"
    front = wall_coefficients(height_m=head, depth_m=shape.depth_on_plan_mm / 1000.0)
    sucked = min(c.cpe_10 for c in front)
    pairs: tuple[tuple[float, float], ...]
    if "open" in _ends(ground):
        pairs, inside = ((windward, leeward), (0.0, sucked)), "inside as at the open end"
    elif roof.front == "open" or roof.openings:
        pairs, inside = ((windward, sucked),), "inside as at an opening, in full"
    else:
        low, high = min(ground.annex.cpi_unknown), max(ground.annex.cpi_unknown)
        pairs, inside = ((windward, low), (high, sucked)), "inside as where openings are unknown"
    push, pull = max(pairs, key=lambda pair: pair[0] - pair[1])
    return push - pull, f"({push:.4f} - ({pull:.4f}))", f"{table}, one closed end; {inside}, {JUDGEMENT}"


def _declared_ends(ground: Ground) -> tuple[float, str, str]:
    """Of the closed ends together as the job declares them: pressed in at one end while the other is drawn out."""
    ends: tuple[Wall, ...] = ("left", "right")
    closed = [declared(ground, end) for end in ends if getattr(ground.job.roof, end) == "closed"]
    if len(closed) == 1:
        most = max(closed[0], key=lambda on: abs(on.net))
        return abs(most.outside), f"{abs(most.outside):g}", f"{most.clause()}; {most.zone}"
    (left_in, left_out), (right_in, right_out) = closed
    push, pull = max(((left_in, right_out), (right_in, left_out)), key=lambda pair: pair[0].net - pair[1].net)
    numbers = f"({push.outside:g} - ({pull.outside:g}))"
    clause = f"{push.clause()}; both ends at their worst at once, {JUDGEMENT}"
    return push.outside - pull.outside, numbers, clause
