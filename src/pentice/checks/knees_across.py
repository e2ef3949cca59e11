"""What knee braces across ask: of themselves, of their joints, and of what stands under or lies on their posts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pentice.checks.eaves import EavesForces
from pentice.checks.fasteners import NOT_HERE, fastened
from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.knee_beams import level_beam, pressed_beam
from pentice.checks.knee_bolts import slip_across, ultimate_step
from pentice.checks.knee_frame import knee_lines, weight_n
from pentice.checks.knee_heads import head_joint
from pentice.checks.knee_posts import bent_both_ways, bent_posts, sheared_posts
from pentice.checks.knee_rafters import bent_rafter, sheared_rafter
from pentice.checks.knee_shown import (
    Led,
    brace_step,
    greatest,
    inputs,
    level_steps,
    solved_step,
    to_the_pair,
)
from pentice.checks.knee_values import KneeLine
from pentice.checks.passed_on import strengths_in
from pentice.checks.racking import EDGE_C_F
from pentice.checks.rafter_shown import EDITION
from pentice.checks.sway import sway_across
from pentice.checks.timber_shown import crushing_step, service_class, strength_in
from pentice.checks.values import Check, Place, Shown
from pentice.frame.stage import birdsmouth_seat_mm
from pentice.standards.en1995 import bearing_length_mm, bearing_stress_n_mm2, k_c_90
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_STATICS = "statics; EN 1990, 6.10"
BRACES = Rule(
    id="bracing-across",
    name="Knee braces across, with their ends",
    member="frame",
    clause=_STATICS,
    unit="kN",
)
TIED = Rule(
    id="knee-rafter-tie",
    name="Braced rafter held down to its beam",
    member="frame",
    clause=_STATICS,
    unit="kN",
)
PRESSED = Rule(
    id="knee-bearing",
    name="Braced rafter, bearing on its beam",
    member="rafter",
    clause="EN 1995-1-1, 6.1.5",
    unit="N/mm2",
    edition=EDITION,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class KneesAcross:
    """Every pair of posts braced across, and what it brings to the feet, row by row [kN]."""

    lines: tuple[KneeLine, ...]
    push_kn: float
    lean: float
    weight_kn: float
    on_post_n_mm: float
    """Wind on a post itself, design value [N/mm]."""
    level_kn: tuple[tuple[float, ...], ...]
    thrust_kn: tuple[tuple[float, ...], ...]
    """Of the level force what stands there without wind across."""
    pair_kn: tuple[tuple[float, ...], ...]
    lift_kn: tuple[tuple[float, ...], ...]
    """What braces lift the beam off each post beyond what lifts it without them, or all that lifts the rafter there."""
    lift_always_kn: tuple[tuple[float, ...], ...]
    """Of it what stands there without wind across."""


def knees_across(ground: Ground, rows: Sequence[EavesForces], push_kn: float, lean: float) -> KneesAcross:
    """Every pair of posts braced across.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts, that of the eaves first.
    push_kn, lean
        The push across on the whole roof, design value [kN], and how far posts lean [rad].

    Returns
    -------
    KneesAcross
        [kN].

    Raises
    ------
    OutsideScope
        As `knee_lines`.

    Source
    ------
    As `knee_lines`. Wind on the lower half of a post goes straight to its foot: EN 1991-1-4, 7.6, from memory.
    """
    lines = knee_lines(ground, rows, push_kn, lean)
    factor = max(c.wind for c in ground.loads.combinations if c.kind in ("strength", "uplift"))
    wide = max(post.size_mm[0] for row in rows for post in row.beam.posts)
    line = factor * EDGE_C_F * (ground.loads.wind.peak_pressure_kn_m2 or 0.0) * wide / 1000.0
    found = [[_foot(pair, s, line) for pair in lines] for s in (0, 1)]
    level, thrust, pair, lift, always = (tuple(tuple(of[i] for of in row) for row in found) for i in range(5))
    return KneesAcross(
        lines=lines,
        push_kn=push_kn,
        lean=lean,
        weight_kn=weight_n(rows) / 1000.0,
        on_post_n_mm=line,
        level_kn=level,
        thrust_kn=thrust,
        pair_kn=pair,
        lift_kn=lift,
        lift_always_kn=always,
    )


def _foot(pair: KneeLine, s: int, line_n_mm: float) -> tuple[float, ...]:
    """Level force, thrust, pair, and lift of the beam at one post, with and without wind across [kN]."""
    import numpy as np

    side, level = pair.sides[s], np.abs(pair.level_n[:, :, s])
    full = np.array([load.full for load in pair.loads])
    uplift = np.array([load.combination.kind == "uplift" for load in pair.loads])
    own = line_n_mm * (side.post.length_mm or 0.0) / 2.0
    # Under loads that press, all else on the beam presses too: only the rafter's own end can rise.
    braced = -(pair.more_n[:, :, s] + pair.brace_n[:, :, s] * side.rise_mm / side.brace_mm)
    rises = np.maximum(np.where(uplift, braced, -pair.seat_n[:, :, s]), 0.0)
    forces = (
        max(level.max(), float((level * full).max()) + own),
        (level * ~full).max(),
        np.abs(pair.more_n[:, :, s]).max(),
        rises.max(),
        (rises * ~full).max(),
    )
    return tuple(float(force) / 1000.0 for force in forces)


def knee_checks(
    ground: Ground,
    rows: Sequence[EavesForces],
    knees: KneesAcross,
    before: tuple[Step, ...],
    led: Led,
    racked: float | None,
) -> Iterator[Check]:
    """Braces, joints, posts, rafters and beams of a roof that knee braces hold across.

    Parameters
    ----------
    ground, rows
        The inputs of every check, and both beams with their posts.
    knees, before, led
        Every braced pair, the lines that lead to the push across, and the push.
    racked
        Share of its strength that the post bent along its row uses at most; None where none is bent [-].

    Yields
    ------
    Check
        Refused, with the force that is needed, where nothing is declared for it.

    Source
    ------
    As `knee_lines`; EN 1995-1-1:2004, 6.1.5 to 6.1.8, 6.2.3, 6.2.4, 6.3.2, 6.3.3.
    """
    lines, wind = knees.lines, knees.on_post_n_mm
    yield _braces(ground, knees, before, led)
    yield sway_across(ground, lines, led)
    yield head_joint(ground, lines, led)
    yield from _tied(ground, lines, led)
    yield _pressed(ground, lines, led)
    yield bent_posts(ground, rows, lines, wind, led)
    yield sheared_posts(ground, lines, wind, led)
    if racked is not None:
        yield bent_both_ways(ground, rows, lines, led, racked)
    yield bent_rafter(ground, lines, led)
    yield sheared_rafter(ground, lines, led)
    yield pressed_beam(ground, rows, lines, led)
    for row in rows:
        check = level_beam(ground, row, knees.push_kn)
        if row.beam.row == "head":
            check = replace(check, id=f"head-{check.id}", name=check.name.replace("Eaves beam", "Head beam"))
        yield check


def _braces(ground: Ground, knees: KneesAcross, before: tuple[Step, ...], led: Led) -> Check:
    """The brace that takes most."""
    import numpy as np

    lines = knees.lines
    force, spot = greatest(lines, lambda line: np.abs(line.brace_n))
    need, holds = force / 1000.0, ground.job.frame.brace_across_kn

    def working() -> tuple[Step, ...]:
        slip = ultimate_step(ground.once(slip_across))
        return (*before, *slip, *level_steps(led, spot), brace_step(spot))

    def refused() -> Shown:
        give = "Give frame.brace_across_kn, declared or shown by others."
        why = f"Each must hold {need:.2f} kN, pulled and pressed. {give}"
        return Shown(says=why, rests_on=inputs(ground), working=working())

    def shown() -> Shown:
        feet, pair, rise = (max(map(max, of)) for of in (knees.level_kn, knees.pair_kn, knees.lift_kn))
        return Shown(
            says=f"Feet take up to {feet:.2f} kN level and {pair:.2f} kN up and down, and the braces lift beams off "
            f"their posts with up to {rise:.2f} kN: each is counted where it acts.",
            rests_on=(*inputs(ground), ground.of_job("frame.brace_across_kn", holds)),
            working=working(),
            cure="Stronger braces, longer ones, or one more pair of posts: ask a structural engineer.",
        )

    place = Place(post=spot.side.post.number)
    if holds is None:
        return open_check(BRACES, place, "refused", refused, demand=need, case=spot.words)
    return compared(BRACES, place, demand=need, capacity=holds, case=spot.words, shown=shown)


def _tied(ground: Ground, lines: Sequence[KneeLine], led: Led) -> Iterator[Check]:
    """The end of a braced rafter that its brace lifts most; none where none is lifted."""
    lift, spot = greatest(lines, lambda line: -line.seat_n)
    if lift <= 0.0:
        return
    need, side, declared = lift / 1000.0, spot.side, ground.job.frame.knee_tie_kn
    key = "frame.knee_tie_kn"
    if declared is None and ground.job.frame.rafter_tie_kn is not None:
        declared, key = ground.job.frame.rafter_tie_kn, "frame.rafter_tie_kn"
    place = Place(rafter=spot.line.rafter.rafter.number, at="head" if side.row == "head" else "foot")
    by = fastened(ground, "rafter tie", spot.acting.combination) if declared is None else None

    def working() -> tuple[Step, ...]:
        lifts = "What lifts the rafter off its beam, its load and its brace together"
        return (*to_the_pair(led, spot), *solved_step(lifts, "U", need, spot, "kN"))

    def refused() -> Shown:
        more = by.refused if by is not None else (
            "Give frame.knee_tie_kn, the declared design resistance of what you fit there, or what fastens all "
            "rafters: frame.fasteners."
        )  # fmt: skip
        why = f"Needs {need:.2f} kN to hold it down. {more}"
        return Shown(says=why, rests_on=inputs(ground), working=working())

    def shown() -> Shown:
        return Shown(
            says=NOT_HERE if by is not None else "",
            rests_on=(
                *inputs(ground),
                ground.of_job(key, declared)
                if by is None
                else ground.of_job("frame.fasteners", "rafter tie"),
            ),
            working=(*working(), *(by.working if by is not None else ())),
            cure="A stronger tie.",
        )

    if declared is None and (by is None or by.refused):
        yield open_check(TIED, place, "refused", refused, demand=need, case=spot.words)
        return
    holds = declared if by is None else by.resistance_kn
    yield compared(TIED, place, demand=need, capacity=holds or 0.0, case=spot.words, shown=shown)


def _pressed(ground: Ground, lines: Sequence[KneeLine], led: Led) -> Check:
    """Crushing across the grain where a braced rafter lies on its beam, which its brace pulls it down on."""
    import numpy as np

    service, head = service_class(ground), ground.frame.head_beam
    seats = (birdsmouth_seat_mm(ground.job, ground.shape), head.size_mm[0] if head is not None else 0.0)

    def contact(line: KneeLine, s: int) -> tuple[float, float]:
        """Length that counts [mm], and k_c,90."""
        free = max(line.sides[s].reach_mm / ground.shape.cos_pitch - seats[s] / 2.0, 0.0)
        length = bearing_length_mm(seats[s], free_before_mm=free, free_after_mm=0.0, to_next_mm=free)
        depth = line.rafter.rafter.depth_mm
        return length, k_c_90("solid", to_next_mm=free, depth_mm=depth, contact_mm=seats[s])

    def used(line: KneeLine) -> Array:
        f_c = line.rafter.timber.f_c_90_k_n_mm2
        holds = np.array(strengths_in(f_c, line.loads, service))
        areas = np.array(
            [line.rafter.rafter.width_mm * length * k for length, k in (contact(line, s) for s in (0, 1))]
        )
        share: Array = line.seat_n / (areas * holds[None, :, None])
        return share

    _, spot = greatest(lines, used)
    (length, factor), model = contact(spot.line, spot.place), spot.line.rafter
    force, b = max(spot.of(spot.line.seat_n), 0.0), model.rafter.width_mm
    stress = bearing_stress_n_mm2(force, b, length)
    f_c = model.timber.f_c_90_k_n_mm2
    strength = strength_in(f_c, spot.acting.combination, service)

    def shown() -> Shown:
        working = (
            *to_the_pair(led, spot),
            *solved_step(
                "Rafter on its beam, its load and its brace together", "R", force / 1000.0, spot, "kN"
            ),
            Step(
                says="Pressure on the beam",
                formula="sigma = R / (b l_ef)",
                numbers=f"{force:.1f} / ({b:g} x {length:.2f})",
                result=stress,
                unit="N/mm2",
                clause="6.1.5; R what presses there",
            ),
            crushing_step(factor, f_c, strength),
        )
        return Shown(rests_on=inputs(ground), working=working, cure="A wider beam or a wider rafter.")

    place = Place(rafter=model.rafter.number, at="head" if spot.side.row == "head" else "foot")
    return compared(
        PRESSED, place, demand=stress, capacity=factor * strength.value, case=spot.words, shown=shown
    )
