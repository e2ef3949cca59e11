"""Posts that knee braces across bend, press, pull, shear and twist."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared
from pentice.checks.knee_shown import (
    STATICS,
    Led,
    Spot,
    brace_step,
    greatest,
    inputs,
    level_steps,
    solved_step,
)
from pentice.checks.knee_strength import Held, Strong, Used, design_of, share_steps, strong, used_of
from pentice.checks.knee_values import KneeLine
from pentice.checks.posts import POST_SERVICE_CLASS, post_line_n_mm
from pentice.checks.rafter_shown import EDITION
from pentice.checks.timber_shown import strength_in
from pentice.checks.values import Check, Place, Shown
from pentice.standards.en338 import strength_class
from pentice.standards.en1995 import shear_stress_n_mm2
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

BENT = Rule(
    id="post-across",
    name="Post, bent by its knee brace across",
    member="post",
    clause="EN 1995-1-1, 6.2.3, 6.2.4, 6.3.2, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
BOTH = Rule(
    id="post-both-ways",
    name="Post, bent along and across",
    member="post",
    clause="EN 1995-1-1, 6.2.4, 6.3.2, 6.3.3",
    unit="of 1",
    edition=EDITION,
)
SHEARED = Rule(
    id="post-across-shear",
    name="Post, sheared by its brace across",
    member="post",
    clause="EN 1995-1-1, 6.1.7, 6.1.8",
    unit="of 1",
    edition=EDITION,
)
_CURE = "Thicker posts, or more of them."
TWIST = 0.208
"""T / (b^2 h) over the greatest stress of a square in torsion, the least of any rectangle: elastic theory."""


def _post_strong(ground: Ground, line: KneeLine, s: int) -> Strong:
    """Bowing between foot and beam across, over twice that along; foot and beam keep it from twisting."""
    post = line.sides[s].post
    length, deep = post.length_mm or 0.0, max(post.size_mm)
    held = Held(
        upright_mm=length,
        sideways_mm=2.0 * length,
        effective_mm=length + 2.0 * deep,
        how=f"{length:.1f} + 2 x {deep:g}; l + 2 h, even moment; foot and beam keep it from twisting",
    )
    return strong(strength_class(ground.parts.timber_for("post").strength_class), post.size_mm, held)


def _on_post(row: EavesForces, k: int, line: KneeLine) -> tuple[Array, Array]:
    """What the beam puts on a post at most and at least in the combination of each load, shape (1, loads) [N]."""
    import numpy as np

    on_post = row.on_post_n(k)
    every = float(row.reactions_n[:, k].min()), float(row.reactions_n[:, k].max())
    least, most = zip(*(on_post.get(load.combination, every) for load in line.loads), strict=True)
    return np.array([most]), np.array([least])


def _posts_used(
    ground: Ground, rows: Sequence[EavesForces], line: KneeLine, line_n_mm: float, *, alone: bool
) -> tuple[Used, Array]:
    """Both posts of a pair, shape (8, loads, 2), and what the beam puts on each [N]; alone: what braces bring only."""
    import numpy as np

    full = np.array([load.full for load in line.loads])[None, :]
    design, parts, beams = design_of(line, POST_SERVICE_CLASS)[..., 0], [], []
    for s, side in enumerate(line.sides):
        post, brace = side.post, line.brace_n[:, :, s]
        up = brace * side.rise_mm / side.brace_mm
        own = post_line_n_mm(ground, post) * (post.length_mm or 0.0)
        if alone:
            most, least, dead = np.zeros((3, 1, len(line.loads)))
        else:
            most, least = _on_post(rows[side.at[0]], side.at[1], line)
            dead = np.array([[load.combination.dead for load in line.loads]])
        standing = dead * own + line.more_n[:, :, s]
        pushed = np.maximum(most + standing + np.maximum(up, 0.0), 0.0)
        pulled = np.maximum(-(least + standing + np.minimum(up, 0.0)), 0.0)
        bent = np.abs(line.level_n[:, :, s]) * side.knee_mm
        bent = bent + full * line_n_mm * (post.length_mm or 0.0) ** 2 / 8.0
        used = used_of(
            post.size_mm,
            line.nets[0],
            _post_strong(ground, line, s),
            design,
            pushed,
            pulled,
            bent,
            np.abs(up) * abs(side.aside_mm),
        )
        if alone:
            used = replace(used, share=used.share * ~full)
        parts.append(used)
        beams.append(np.where(used.axial_n > 0.0, least, most) * np.ones_like(used.share))
    joined = [np.stack([getattr(part, name) for part in parts], axis=-1) for name in Used.__slots__]
    return Used(**dict(zip(Used.__slots__, joined, strict=True))), np.stack(beams, axis=-1)


def bent_posts(
    ground: Ground,
    rows: Sequence[EavesForces],
    lines: Sequence[KneeLine],
    line_n_mm: float,
    led: Led,
) -> Check:
    """The post that uses most of its strength, bent across at its brace.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts.
    lines, line_n_mm, led
        The braced pairs, wind on a post itself [N/mm], and the push.

    Returns
    -------
    Check
        [of 1].

    Source
    ------
    EN 1995-1-1:2004, 6.2.3, 6.2.4, 6.3.2, 6.3.3, bowing between foot and beam across, as what leaning adds is in its
    forces; along the beam over twice that.
    """
    used = {id(line): _posts_used(ground, rows, line, line_n_mm, alone=False) for line in lines}
    share, spot = greatest(lines, lambda line: used[id(line)][0].share)

    def shown() -> Shown:
        found, beam = used[id(spot.line)]
        working = _bent_steps(ground, led, spot, found, line_n_mm, spot.of(beam))
        return Shown(rests_on=inputs(ground), working=working, cure=_CURE)

    place = Place(post=spot.side.post.number)
    return compared(BENT, place, demand=share, capacity=1.0, case=spot.words, shown=shown)


def bent_both_ways(
    ground: Ground, rows: Sequence[EavesForces], lines: Sequence[KneeLine], led: Led, racked: float
) -> Check:
    """A post bent along its row by wind, and across by what its brace takes of the roof's load all the while.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts.
    lines, led
        The braced pairs, and the push.
    racked
        Share of its strength that the post bent along its row uses at most [-].

    Returns
    -------
    Check
        [of 1].

    Source
    ------
    EN 1995-1-1:2004, 6.2.4, 6.3.2: the greatest of both, whichever post they are of; judgement, on the safe side.
    """
    used = {id(line): _posts_used(ground, rows, line, 0.0, alone=True) for line in lines}
    share, spot = greatest(lines, lambda line: used[id(line)][0].share)

    def shown() -> Shown:
        found, _ = used[id(spot.line)]
        both = Step(
            says="With the most that the push along uses",
            formula="eta_along + eta_across",
            numbers=f"{racked:.5f} + {share:.5f}",
            result=racked + share,
            unit="of 1",
            clause=f"see the post bent by its bracing along; of whichever post, {JUDGEMENT}",
        )
        working = (*_bent_steps(ground, led, spot, found, 0.0, None), both)
        return Shown(rests_on=inputs(ground), working=working, cure=_CURE)

    place = Place(post=spot.side.post.number)
    return compared(BOTH, place, demand=racked + share, capacity=1.0, case=spot.words, shown=shown)


def _bent_steps(
    ground: Ground, led: Led, spot: Spot, found: Used, line_n_mm: float, beam_n: float | None
) -> tuple[Step, ...]:
    """From the push to the share of its strength that a post uses; beam None: only what braces bring."""
    strengths = _post_strong(ground, spot.line, spot.place)
    return (
        *level_steps(led, spot),
        brace_step(spot),
        _bends(spot, line_n_mm, spot.of(found.moment_n_mm)),
        *_stands(ground, spot, spot.of(found.axial_n), beam_n),
        *share_steps(spot, spot.side.post.size_mm, spot.line.nets[0], strengths, found, POST_SERVICE_CLASS),
    )


def _bends(spot: Spot, line_n_mm: float, moment_n_mm: float) -> Step:
    side, length = spot.side, spot.side.post.length_mm or 0.0
    wind = f" + {line_n_mm:.6f} x {length:.1f}^2 / 8 / 10^6" if spot.acting.full and line_n_mm else ""
    return Step(
        says="Bends the post where the brace meets it",
        formula="M = X (h - a)" + (" + gamma c_f q_p b l^2 / 8, wind on the post" if wind else ""),
        numbers=f"{spot.level_n / 1000.0:.6f} x {side.knee_mm:.1f} / 1000{wind}",
        result=moment_n_mm / 1e6,
        unit="kNm",
        clause=STATICS,
    )


def _stands(ground: Ground, spot: Spot, axial_n: float, beam_n: float | None) -> tuple[Step, ...]:
    """What presses on the post, or pulls at it; beam None: only what braces bring."""
    side, post = spot.side, spot.side.post
    up = spot.of(spot.line.brace_n) * side.rise_mm / side.brace_mm / 1000.0
    own = post_line_n_mm(ground, post) * (post.length_mm or 0.0) / 1000.0
    more = spot.of(spot.line.more_n) / 1000.0
    pulls = axial_n > 0.0
    part = min(up, 0.0) if pulls else max(up, 0.0)
    stands = (
        "" if beam_n is None else f"{beam_n / 1000.0:.5f} + {spot.acting.combination.dead:g} x {own:.5f} + "
    )
    force = f"{stands}({more:.5f}) + ({part:.5f})"
    return (
        *solved_step("Down at its foot by the frame, beyond what its beam brings", "V", more, spot, "kN"),
        Step(
            says="Pulls at the post" if pulls else "On the post",
            formula="-(R + gamma G + V + min(F v / L, 0))" if pulls else "R + gamma G + V + max(F v / L, 0)",
            numbers=f"max(-({force}), 0)" if pulls else f"max({force}, 0)",
            result=abs(axial_n) / 1000.0,
            unit="kN",
            clause=f"{STATICS}; R what its beam brings; F v / L the upright part of its brace; above or below it, the "
            "greater",
        ),
    )


def sheared_posts(ground: Ground, lines: Sequence[KneeLine], line_n_mm: float, led: Led) -> Check:
    """The post that is sheared most above or below its brace, twisted by a rafter that is not over its middle.

    Parameters
    ----------
    ground
        The inputs of every check.
    lines, line_n_mm, led
        The braced pairs, wind on a post itself [N/mm], and the push.

    Returns
    -------
    Check
        [of 1].

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.7, and 6.1.8 with k_shape 1, both added in full; all of the twist on one side of the brace.
    """
    import numpy as np

    timber = strength_class(ground.parts.timber_for("post").strength_class)

    def forces(line: KneeLine) -> tuple[Array, Array]:
        full = np.array([load.full for load in line.loads])[None, :]
        shears, twists = [], []
        for s, side in enumerate(line.sides):
            level = np.abs(line.brace_n[:, :, s]) * side.reach_mm / side.brace_mm
            foot = np.abs(line.level_n[:, :, s])
            own = full * line_n_mm * (side.post.length_mm or 0.0) / 2.0
            shears.append(np.maximum(level - foot, foot) + own)
            twists.append(level * abs(side.aside_mm))
        return np.stack(shears, axis=-1), np.stack(twists, axis=-1)

    def stresses(line: KneeLine) -> tuple[Array, Array]:
        b, d = line.sides[0].post.size_mm
        shear, twist = forces(line)
        return shear_stress_n_mm2(1.0, b, line.nets[0].left_mm) * shear, twist / (
            TWIST * min(b, d) ** 2 * max(b, d)
        )

    share, spot = greatest(
        lines, lambda line: sum(stresses(line)) / (timber.f_v_k_n_mm2 * design_of(line, POST_SERVICE_CLASS))
    )

    def shown() -> Shown:
        side, (b, d), net = spot.side, spot.side.post.size_mm, spot.line.nets[0]
        shear, twist = (spot.of(part) for part in forces(spot.line))
        tau, tau_twist = (spot.of(part) for part in stresses(spot.line))
        strength = strength_in(timber.f_v_k_n_mm2, spot.acting.combination, POST_SERVICE_CLASS)
        force, level = abs(spot.of(spot.line.brace_n)) / 1000.0, spot.level_n / 1000.0
        own = line_n_mm * (side.post.length_mm or 0.0) / 2000.0 if spot.acting.full else 0.0
        across = f"{force:.6f} x {side.reach_mm:g} / {side.brace_mm:.2f}"
        steps = [
            *level_steps(led, spot),
            brace_step(spot),
            Step(
                says="Shear above or below the brace, the greater, with wind on the post",
                formula="max(F b / L - X, X) + gamma c_f q_p b l / 2",
                numbers=f"max({across} - {level:.6f}, {level:.6f}) + {own:.6f}",
                result=shear / 1000.0,
                unit="kN",
                clause=STATICS,
            ),
            Step(
                says="Stress from shear",
                formula="tau = 1.5 V / (k_cr b (h - n D))",
                numbers=f"1.5 x {shear:.1f} / (0.67 x {b:g} x ({d:g} - {len(net.places_mm)} x {net.hole_mm:g}))",
                result=tau,
                unit="N/mm2",
                clause="6.1.7; beside the holes, " + JUDGEMENT,
            ),
        ]
        if twist:
            steps.append(
                Step(
                    says="Stress from twisting, the rafter being beside the post's middle",
                    formula="tau_tor = F b / L e / (0.208 b^2 h)",
                    numbers=f"{across} x 1000 x {abs(side.aside_mm):.3f} / "
                    f"({TWIST:g} x {min(b, d):g}^2 x {max(b, d):g})",
                    result=tau_twist,
                    unit="N/mm2",
                    clause="6.1.8, from memory; elastic theory, the least of any rectangle",
                )
            )
        steps.append(
            Step(
                says="Both together",
                formula="(tau + tau_tor) / f_v,d",
                numbers=f"({tau:.5f} + {tau_twist:.5f}) / "
                f"({strength.k_mod:g} x {timber.f_v_k_n_mm2:g} / {strength.gamma:g})",
                result=share,
                unit="of 1",
                clause="6.1.7, 6.1.8, its shape factor taken as 1; added in full, on the safe side",
            )
        )

        return Shown(rests_on=inputs(ground), working=tuple(steps), cure=_CURE)

    place = Place(post=spot.side.post.number)
    return compared(SHEARED, place, demand=share, capacity=1.0, case=spot.words, shown=shown)
