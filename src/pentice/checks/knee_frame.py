"""Pairs of posts braced across by knee braces to the rafter over them: each as a plane frame, in every combination.

Post, brace and rafter are joined where their middle lines cross; feet turn freely. How stiff the joints are is not
known, so each pair is solved eight times and the worst counts: a post hinged at the rafter or under its beam, and
either brace giving at its ends or not. Sheets brace nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import Ground
from pentice.checks.knee_bolts import net_section, slip_across
from pentice.checks.knee_pairs import braced_pairs, shares_of_push
from pentice.checks.knee_values import ROWS, Even, KneeLine, KneeLoad, KneeSide, Shares
from pentice.checks.point_load import cases_of
from pentice.checks.posts import post_line_n_mm
from pentice.checks.rafter_loads import RafterCase, combinations_on, rafter_lines
from pentice.checks.rafter_model import RafterModel
from pentice.errors import OutsideScope
from pentice.mechanics.beam import rectangle_stiffness
from pentice.mechanics.continuous import merged_places, nearest_node
from pentice.mechanics.lines import LineLoad, stretches
from pentice.mechanics.plane_frame import (
    FrameAnswer,
    FrameMember,
    PlaneFrame,
    buckling_factors,
    plane_frames,
)
from pentice.standards.en338 import strength_class
from pentice.standards.en1995 import gamma_m

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

STIFF_N_MM = 1e6
"""A brace that gives next to nothing."""
LEAST_ALPHA = 3.0
"""Below this a frame is too soft for the simple factor: EN 1993-1-1, 5.2.2(5), from memory."""
_PUSHED = (("eaves", "head"), ("eaves", "eaves"), ("head", "head"), ("head", "eaves"))
"""Pushed towards, and at which row's rafter end."""


def knee_lines(
    ground: Ground, rows: Sequence[EavesForces], push_kn: float, lean: float
) -> tuple[KneeLine, ...]:
    """Every pair of posts with its brace forces and all that follows from them.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts, that of the eaves first.
    push_kn, lean
        The push across on the whole roof, design value [kN], and how far posts lean [rad].

    Returns
    -------
    tuple of KneeLine
        From the left.

    Raises
    ------
    OutsideScope
        A post has no rafter over it or no post opposite, the braces do not fit, or the frame sways too easily.

    Source
    ------
    Stiffness method; second order by 1 / (1 - 1 / alpha), EN 1993-1-1:2005, 5.2.2(5)B, from memory; for timber
    judgement, with stiffness over gamma_M as EN 1995-1-1, 2.4.1(2).
    """
    pairs = braced_pairs(ground, rows)
    shared = shares_of_push(ground, [sides[0].post.x_mm for _, sides in pairs])
    asked = [combinations_on(ground, model, rafter_lines(ground, model)) for model, _ in pairs]
    on_rafters, _ = cases_of(asked, [], 0)
    found, weight = [], weight_n(rows)
    for cases, (model, sides), (even, shares) in zip(on_rafters, pairs, shared, strict=True):
        share = max(shares)
        loads = tuple(_loads(cases, share * push_kn * 1000.0, share * lean * weight))
        found.append(_line(ground, rows, model, sides, shares, even, cases, loads))
    return tuple(found)


def weight_n(rows: Sequence[EavesForces]) -> float:
    """What presses on both rows of posts at most.

    Parameters
    ----------
    rows
        Both beams with their posts.

    Returns
    -------
    float
        [N], each row in its own worst combination.

    Source
    ------
    Definition.
    """
    return sum(_most(row) for row in rows)


def _most(row: EavesForces) -> float:
    strength = [i for i, c in enumerate(row.cases) if c.combination.kind == "strength"]
    return float(row.reactions_n[strength].clip(min=0.0).sum(axis=1).max())


def _loads(cases: Sequence[RafterCase], push_n: float, lean_n: float) -> Iterator[KneeLoad]:
    """Each combination on the rafter with each push; the place of the case is that of the load over eight, or four."""
    for case in cases:
        c = case.combination
        if c.kind == "characteristic":
            continue
        for full in (True, False) if c.wind > 0.0 else (False,):
            for towards, at in _PUSHED:
                yield KneeLoad(
                    combination=c,
                    words=case.words,
                    full=full,
                    towards=towards,
                    at=at,
                    push_n=push_n if full else lean_n,
                )


# The frame


@dataclass(frozen=True, slots=True, kw_only=True)
class _Built:
    """A pair as frames that differ in hinges and in stiffness: which nodes and members are which."""

    frames: tuple[PlaneFrame, ...]
    """Nodes and members of the rafter come first."""
    ends: tuple[int, int]
    """Nodes where eaves post and head post meet the rafter's line."""
    braces: tuple[int, int]
    links: tuple[int, int]
    """Members between post and rafter, after the two of the post."""

    def pressed_by(self, posts_n: Sequence[float]) -> list[float]:
        """What presses each member where something presses both posts [N]."""
        found = [0.0] * len(self.frames[0].members)
        for link, push in zip(self.links, posts_n, strict=True):
            found[link - 2 : link + 1] = [push] * 3
        return found


def _built(
    ground: Ground,
    model: RafterModel,
    sides: tuple[KneeSide, KneeSide],
    along: Sequence[float],
    ways: Sequence[int],
    gives: float,
) -> _Built:
    """A pair in some of the eight ways, a brace that gives doing so by ``gives`` [N/mm]."""
    shape = ground.shape
    cos, sin = shape.cos_pitch, math.sin(math.radians(shape.pitch_deg))
    nodes = [(s * cos, -s * sin) for s in along]
    ea, ei = _timber(model.rafter.width_mm, model.rafter.depth_mm, model.timber.e_0_mean_n_mm2)
    rafter = [FrameMember(start=i, end=i + 1, ea_n=ea, ei_n_mm2=ei) for i in range(len(along) - 1)]
    members = [list(rafter) for _ in ways]
    timber = strength_class(ground.parts.timber_for("post").strength_class)
    ends, braces, links, feet = [], [], [], []
    for side, bit in zip(sides, (2, 1), strict=True):
        at_head = side.row == "head"
        place = 0.0 if at_head else model.span_mm
        step = side.reach_mm / cos
        top, on_rafter = (
            nearest_node(along, place),
            nearest_node(along, place + step if at_head else place - step),
        )
        x, z = nodes[top]
        foot, knee, head = len(nodes), len(nodes) + 1, len(nodes) + 2
        nodes += [(x, z - side.height_mm), (x, z - side.down_mm), (x, z - side.above_mm)]
        ea, ei = _timber(side.post.size_mm[0], side.post.size_mm[1], timber.e_0_mean_n_mm2)
        links.append(len(members[0]) + 2)
        braces.append(len(members[0]) + 3)
        lower = FrameMember(start=foot, end=knee, ea_n=ea, ei_n_mm2=ei)
        for way, found in zip(ways, members, strict=True):
            below, stiff = way >= 4, gives if way % 4 & bit else STIFF_N_MM
            found += [
                lower,
                FrameMember(start=knee, end=head, ea_n=ea, ei_n_mm2=ei, hinge_end=below),
                FrameMember(start=head, end=top, ea_n=100.0 * ea, ei_n_mm2=100.0 * ei, hinge_end=not below),
                FrameMember(
                    start=knee,
                    end=on_rafter,
                    ea_n=stiff * side.brace_mm,
                    ei_n_mm2=ei,
                    hinge_start=True,
                    hinge_end=True,
                ),
            ]
        ends.append(top)
        feet.append(foot)
    return _Built(
        frames=tuple(
            PlaneFrame(nodes_mm=tuple(nodes), members=tuple(found), pinned=tuple(feet)) for found in members
        ),
        ends=(ends[0], ends[1]),
        braces=(braces[0], braces[1]),
        links=(links[0], links[1]),
    )


def _timber(width_mm: float, depth_mm: float, e_n_mm2: float) -> tuple[float, float]:
    return e_n_mm2 * width_mm * depth_mm, rectangle_stiffness(width_mm, depth_mm, e_n_mm2, 1.0)[0]


def _along(ground: Ground, model: RafterModel, lines: Sequence[LineLoad], reach: float) -> tuple[float, ...]:
    """Nodes of the rafter: bearings, braces, tip, and every break of a load."""
    step = reach / ground.shape.cos_pitch
    breaks = {x for line in lines for x, _ in line if 0.0 <= x <= model.length_mm}
    wanted = (0.0, step, model.span_mm - step, model.span_mm, model.length_mm, *breaks)
    return merged_places(wanted)


def _line(  # noqa: PLR0913 -- one pair, each of its things by name
    ground: Ground,
    rows: Sequence[EavesForces],
    model: RafterModel,
    sides: tuple[KneeSide, KneeSide],
    shares: Shares,
    even: Even,
    cases: Sequence[RafterCase],
    loads: tuple[KneeLoad, ...],
) -> KneeLine:
    import numpy as np

    acting = [case for case in cases if case.combination.kind != "characteristic"]
    on_rafter = [case.line for case in acting]
    along = _along(ground, model, on_rafter, sides[0].reach_mm)
    pressed = tuple(_pressed_n(ground, rows[side.at[0]], side.at[1]) for side in sides)
    plain = _along(ground, model, (), sides[0].reach_mm)
    slip = ground.once(slip_across)
    served = _built(ground, model, sides, plain, (3, 7), slip.service_n_mm)
    soft = _built(ground, model, sides, plain, (3, 7), slip.ultimate_n_mm)
    sways_at = min(buckling_factors(soft.frames, soft.pressed_by(pressed)))
    alpha = sways_at / gamma_m("solid")
    if alpha < LEAST_ALPHA:
        raise OutsideScope(
            f"The posts {sides[0].post.number} and {sides[1].post.number} with their knee braces across sway away "
            f"under {alpha:.1f} times their load; {LEAST_ALPHA:g} or more is needed here. Take thicker posts, deeper "
            "rafters or longer braces."
        )
    factor = 1.0 / (1.0 - 1.0 / alpha)
    built, last = _built(ground, model, sides, along, range(8), slip.ultimate_n_mm), len(along) - 1
    # Each load is that of a combination on the rafter, and a push at one end: these are solved, each by itself.
    forces = np.zeros((len(acting) + 2, len(built.frames[0].nodes_mm), 2))
    forces[: len(acting), last, 1] = [-case.acting.hanging_n / ground.shape.cos_pitch for case in acting]
    forces[(-2, -1), built.ends, 0] = 1.0
    full = np.zeros((len(forces), len(built.frames[0].members), 2))
    full[: len(acting), :last] = _lines(ground, on_rafter, along)
    of_case = [n for n, c in enumerate(acting) for _ in range(8 if c.combination.wind > 0.0 else 4)]
    sums = np.zeros((len(loads), len(forces)))
    sums[range(len(loads)), of_case] = 1.0
    for i, load in enumerate(loads):
        sums[i, len(acting) + ROWS.index(load.at)] = load.push_n if load.towards == "eaves" else -load.push_n
    answer = plane_frames(built.frames, forces, full, sums)
    simple = np.array([(c.answer.foot_reaction_n, c.answer.head_reaction_n) for c in acting])[of_case]
    found = _of(built, answer, simple / ground.shape.cos_pitch, last)
    feet, brace, seat, more, axial, moment, shear = (factor * part for part in found)
    sway, pulls = ground.once(_each_newton, served)
    return KneeLine(
        rafter=model,
        sides=sides,
        shares=shares,
        even=even,
        loads=loads,
        along_mm=along,
        nets=(
            net_section(ground, *sides[0].post.size_mm),
            net_section(ground, model.rafter.width_mm, model.rafter.depth_mm),
        ),
        sway_mm_n=sway,
        pulls_n_n=pulls,
        sways_at=sways_at,
        pressed_n=(pressed[0], pressed[1]),
        level_n=feet,
        brace_n=brace,
        seat_n=seat,
        more_n=more,
        axial_n=axial,
        moment_n_mm=moment,
        shear_n=shear,
    )


def _each_newton(_: Ground, built: _Built) -> tuple[float, float]:
    """How far a pair leans for 1 N at either end, and what both braces take of it together, in size: the most.

    By virtual work the latter is what play in the braces makes of the lean.
    """
    import numpy as np

    forces = np.zeros((2, len(built.frames[0].nodes_mm), 2))
    forces[(0, 1), built.ends, 0] = 1.0
    answer = plane_frames(built.frames, forces, np.zeros((2, len(built.frames[0].members), 2)))
    leans, pulls = np.abs(answer.moves_mm[:, :, built.ends, 0]), np.abs(answer.axial_n[:, :, built.braces, 0])
    return float(leans.max()), float(pulls.sum(axis=-1).max())


def _pressed_n(ground: Ground, row: EavesForces, k: int) -> float:
    """Greatest push on a post with its own weight [N]."""
    own = post_line_n_mm(ground, row.beam.posts[k]) * (row.beam.posts[k].length_mm or 0.0)
    acting = [i for i, c in enumerate(row.cases) if c.combination.kind in ("strength", "accidental")]
    return max(max(float(row.reactions_n[i, k]), 0.0) + row.cases[i].combination.dead * own for i in acting)


def _lines(ground: Ground, on_rafter: Sequence[LineLoad], along: Sequence[float]) -> Array:
    """What each load brings straight down on each member of the rafter: that square to it over cos."""
    import numpy as np

    found = []
    for line in on_rafter:
        at_nodes = tuple((along[nearest_node(along, x)], q) for x, q in line)
        found.append(stretches(at_nodes, along))
    return np.array(found).transpose(0, 2, 1) / ground.shape.cos_pitch


def _of(built: _Built, answer: FrameAnswer, simple: Array, rafter: int) -> tuple[Array, ...]:
    """Level at the feet, braces, seats, more at the feet, and the rafter's members."""
    import numpy as np

    along = answer.first(rafter)
    axial = along.axial_n
    most = np.take_along_axis(axial, np.abs(axial).argmax(axis=-1)[..., None], axis=-1)[..., 0]
    return (
        answer.reactions_n[..., 0],
        answer.axial_n[:, :, built.braces, 0],
        -answer.axial_n[:, :, built.links, 1],
        answer.reactions_n[..., 1] - simple,
        most,
        along.most_moment_n_mm,
        along.most_shear_n,
    )
