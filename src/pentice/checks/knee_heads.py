"""The joint of post, beam and rafter at a knee brace across: pushed level, lifted, and the beam turned over in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from pentice.checks.fasteners import fastened
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.knee_shown import Led, brace_step, greatest, inputs, level_steps, solved_step
from pentice.checks.knee_values import KneeLine
from pentice.checks.level import blowing
from pentice.checks.values import Check, Place, Shown
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

HEADS = Rule(
    id="knee-head",
    name="Head joint at a knee brace across",
    member="frame",
    clause="statics; EN 1990, 6.10",
    unit="of 1",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _HeadHolds:
    """What holds the joint of post, beam and rafter: level [kN], against the beam rolling [kNm], up [kN]."""

    level_kn: float | None
    roll_knm: float | None
    up_kn: float | None
    up_key: str

    @property
    def missing(self) -> str:
        """The keys to give."""
        keys = {
            "frame.knee_head_kn": self.level_kn,
            "frame.knee_head_knm": self.roll_knm,
            self.up_key: self.up_kn,
        }
        return " and ".join(key for key, value in keys.items() if value is None)


def _head_holds(ground: Ground) -> _HeadHolds:
    frame = ground.job.frame
    up, key = frame.knee_tie_kn, "frame.knee_tie_kn"
    if up is None and frame.rafter_tie_kn is not None:
        up, key = frame.rafter_tie_kn, "frame.rafter_tie_kn"
    if up is None:
        by = fastened(ground, "rafter tie", blowing(ground))
        if by is not None and not by.refused:
            up, key = by.resistance_kn, "frame.fasteners"
    return _HeadHolds(level_kn=frame.knee_head_kn, roll_knm=frame.knee_head_knm, up_kn=up, up_key=key)


def _level_n(line: KneeLine) -> Array:
    """Level between post, beam and rafter, in size, shape (8, loads, 2)."""
    import numpy as np

    reach = np.array([side.reach_mm / side.brace_mm for side in line.sides])
    push = np.array([load.push_n for load in line.loads])[None, :, None]
    force: Array = np.abs(line.brace_n) * reach - np.abs(line.level_n) + line.factor * push
    return force


def head_joint(ground: Ground, lines: Sequence[KneeLine], led: Led) -> Check:
    """The joint of post, beam and rafter that uses most of what holds it.

    Parameters
    ----------
    ground, lines, led
        The inputs of every check, the braced pairs, and the push.

    Returns
    -------
    Check
        [of 1]; refused, with the forces, where nothing is declared for it.

    Source
    ------
    Equilibrium; shares added in a straight line, judgement.
    """
    import numpy as np

    holds, inputs_of = _head_holds(ground), inputs(ground)
    level, up, roll = holds.level_kn, holds.up_kn, holds.roll_knm
    lifts = any(float(line.seat_n.min()) < 0.0 for line in lines)

    def used(line: KneeLine) -> Array:
        force = _level_n(line)
        if level is None or roll is None:
            return force
        arms = np.array([side.above_mm for side in line.sides])
        share: Array = force / (level * 1e3) + force * arms / (roll * 1e6)
        return share if up is None else share + np.clip(-line.seat_n, 0.0, None) / (up * 1e3)

    share, spot = greatest(lines, used)
    need, side = float(spot.of(_level_n(spot.line))) / 1000.0, spot.side
    turned, lift = need * side.above_mm / 1000.0, max(-spot.of(spot.line.seat_n), 0.0) / 1000.0

    def lines_to_it() -> tuple[Step, ...]:
        brace, push = abs(spot.of(spot.line.brace_n)) / 1000.0, spot.acting.push_n / 1000.0
        step = Step(
            says="Level between post, beam and rafter",
            formula="F b / L - X + k H",
            numbers=f"{brace:.6f} x {side.reach_mm:g} / {side.brace_mm:.2f} - {spot.level_n / 1000.0:.6f} + "
            f"{spot.line.factor:.5f} x {push:.5f}",
            result=need,
            unit="kN",
            clause="equilibrium; the push of this pair may come in between them",
        )
        turns = Step(
            says="Turns the beam over between them",
            formula="M = V d, d from the underside of the beam to the middle of the rafter over the post",
            numbers=f"{need:.6f} x {side.above_mm:.2f} / 1000",
            result=turned,
            unit="kNm",
            clause="equilibrium",
        )
        up_lines = solved_step("What lifts the rafter there at once", "U", lift, spot, "kN") if lift else ()
        return (*level_steps(led, spot), brace_step(spot), step, turns, *up_lines)

    place = Place(post=side.post.number)
    if level is None or roll is None or (lifts and up is None):

        def refused() -> Shown:
            while_it = f" while {lift:.2f} kN lift the rafter" if lift else ""
            why = (
                f"Each must hold {need:.2f} kN level across, and {turned:.2f} kNm that turn the beam over between post "
                f"and rafter{while_it}. Give {holds.missing}, declared or shown by others."
            )
            return Shown(says=why, rests_on=inputs_of, working=lines_to_it())

        return open_check(replace(HEADS, unit="kN"), place, "refused", refused, demand=need, case=spot.words)
    formula, numbers = "V / V_d + M / M_d", f"{need:.6f} / {level:g} + {turned:.6f} / {roll:g}"
    if lift and up is not None:
        formula, numbers = f"{formula} + U / U_d", f"{numbers} + {lift:.6f} / {up:.5g}"

    def shown() -> Shown:
        last = Step(
            says="All at once",
            formula=formula,
            numbers=numbers,
            result=share,
            unit="of 1",
            clause=f"linear, {JUDGEMENT}; or as its maker says",
        )
        rests = [ground.of_job("frame.knee_head_kn", level), ground.of_job("frame.knee_head_knm", roll)]
        if up is not None and lifts:
            rests.append(ground.of_job(holds.up_key, "rafter tie" if "fasteners" in holds.up_key else up))
        return Shown(
            rests_on=(*inputs_of, *rests),
            working=(*lines_to_it(), last),
            cure="A stronger joint, or longer braces.",
        )

    return compared(HEADS, place, demand=share, capacity=1.0, case=spot.words, shown=shown)
