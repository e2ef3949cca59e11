"""Beams over a closed front or back: what mullions under them push and draw level, between two rafters."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.rafter_shown import EDITION
from pentice.checks.side_members_model import Bent, of_mullion
from pentice.checks.side_members_shown import at_ends
from pentice.checks.timber_shown import service_class, strength_in
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.walls import OnWall, why_no_wind_on_walls
from pentice.errors import OutsideScope
from pentice.job.fields import Wall
from pentice.loads.combine import Combination
from pentice.setting_out.side_frames import side_frames
from pentice.standards.en1995 import bending_stress_n_mm2, size_factor
from pentice.standards.en1995_members import K_M
from pentice.working import Step

SIDEWAYS = Rule(
    id="beam-sideways",
    name="Eaves beam, pushed level by mullions",
    member="beam",
    clause="EN 1995-1-1, 6.1.6",
    unit="of 1",
    edition=EDITION,
)
_UPRIGHT = ("beam-bending", "beam-knees")
_CURE = "A wider beam, more mullions, or rafters closer together."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pushed:
    """A beam in one wind on the mullion that pushes it most [kN, kNm, of 1]."""

    mullion: Bent
    on: OnWall
    combination: Combination
    force_kn: float
    field_mm: float
    """Between two rafters."""
    count: int
    """Mullions that may stand in such a field."""
    upright: float
    """Share of its strength that the roof's own load uses at most."""
    stress: float
    strength: float

    @property
    def moment_knm(self) -> float:
        """Each as in the middle of the field."""
        return self.count * self.force_kn * self.field_mm / 4000.0

    @property
    def sums(self) -> tuple[float, float]:
        """Eq. 6.11 and 6.12."""
        level = self.stress / self.strength
        return self.upright + K_M * level, K_M * self.upright + level


def front_beam_checks(ground: Ground, forces: EavesForces, of_row: Sequence[Check]) -> Iterator[Check]:
    """The beam of a row as the mullions under it push it level.

    Parameters
    ----------
    ground, forces, of_row
        The inputs of every check, the row, and its other checks.

    Yields
    ------
    Check
        None where no mullion stands under it.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9; EN 1995-1-1:2004, 6.1.6, eq. 6.11 and 6.12. The rafters hold the beam level;
    each mullion counts as in the middle between two of them; of the roof's own load the most that any combination uses:
    judgement, on the safe side.
    """
    side: Wall = "back" if forces.beam.row == "head" else "front"
    frames, size = side_frames(ground.job, ground.shape), ground.job.frame.mullion_mm
    under = [mullion for mullion in frames.mullions if mullion.side == side]
    if not under or size is None:
        return
    why = _why_not(ground, forces, of_row)
    if not why:
        try:
            least = min(c.width_mm for place, columns in frames.columns if place == side for c in columns)
            apart = least + size[0] if len(under) > 1 else math.inf
            found = [
                pushed
                for mullion in under
                for pushed in _pushed(ground, forces, of_mullion(ground, mullion, size), apart, of_row)
            ]
        except OutsideScope as refusal:
            why = str(refusal)
    if why:
        yield open_check(SIDEWAYS, Place(), "refused", Shown(says=why, rests_on=_inputs(ground)))
        return
    worst = max(found, key=lambda one: max(one.sums))
    yield compared(
        SIDEWAYS,
        Place(),
        demand=max(worst.sums),
        capacity=1.0,
        case=f"{worst.mullion.words}; {worst.on.in_short()}",
        shown=lambda: _shown(ground, forces, worst),
    )


def _why_not(ground: Ground, forces: EavesForces, of_row: Sequence[Check]) -> str:
    why = why_no_wind_on_walls(ground) or ground.loads.wind.refused
    if why:
        return why
    if forces.metal is not None or ground.parts.bar.carries:
        return (
            "What mullions push level into a beam of metal, or into one under bars that carry by themselves, was not "
            "calculated: ask an engineer."
        )
    return (
        ""
        if _upright(of_row) is not None
        else "What the roof bends this beam by is not known: see its bending."
    )


def _upright(of_row: Sequence[Check]) -> float | None:
    used = [check.utilisation for check in of_row if check.id in _UPRIGHT]
    known = [share for share in used if share is not None]
    return max(known) if known and len(known) == len(used) else None


def _pushed(
    ground: Ground, forces: EavesForces, mullion: Bent, apart_mm: float, of_row: Sequence[Check]
) -> Iterator[_Pushed]:
    (b, h), rafters = forces.beam.size_mm, ground.setting_out.plane.rafters
    at_head = forces.beam.row == "head"
    places = [r.centre_head_mm if at_head else r.centre_foot_mm for r in rafters]
    field = max(right - left for left, right in pairwise(places))
    count = max(math.ceil(field / apart_mm), 1)
    for on, combination in mullion.lines:
        force = at_ends(mullion, on, combination).demand
        moment = count * force * field * 1000.0 / 4.0
        strength = strength_in(forces.timber.f_m_k_n_mm2 * size_factor(b), combination, service_class(ground))
        yield _Pushed(
            mullion=mullion,
            on=on,
            combination=combination,
            force_kn=force,
            field_mm=field,
            count=count,
            upright=_upright(of_row) or 0.0,
            stress=bending_stress_n_mm2(moment, h, b),
            strength=strength.value,
        )


def _shown(ground: Ground, forces: EavesForces, found: _Pushed) -> Shown:
    (b, h), f_m_k = forces.beam.size_mm, forces.timber.f_m_k_n_mm2
    holds = strength_in(1.0, found.combination, service_class(ground))
    first, second = ((1.0, K_M), (K_M, 1.0))[found.sums.index(max(found.sums))]
    working = (
        *at_ends(found.mullion, found.on, found.combination).steps(),
        Step(
            says="Moment level between two rafters",
            formula="M = n R s / 4",
            numbers=f"{found.count} x {found.force_kn:.5f} x {found.field_mm / 1000.0:.4f} / 4",
            result=found.moment_knm,
            unit="kNm",
            clause=f"statics; each mullion in the middle, rafters hold the beam level, {JUDGEMENT}",
        ),
        Step(
            says="Stress from bending level",
            formula="sigma_z = 6 M / (h b^2)",
            numbers=f"6 x {found.moment_knm:.6f} x 10^6 / ({h:g} x {b:g}^2)",
            result=found.stress,
            unit="N/mm2",
            clause="6.1.6",
        ),
        Step(
            says="Strength in bending level",
            formula="f_m,z,d = k_mod k_h f_m,k / gamma_M",
            numbers=f"{holds.k_mod:g} x {size_factor(b):.4f} x {f_m_k:g} / {holds.gamma:g}",
            result=found.strength,
            unit="N/mm2",
            clause="2.4.1, 3.2",
        ),
        Step(
            says="With the most that the roof's own load uses",
            formula="k_m,y eta_y + k_m,z sigma_z / f_m,z,d",
            numbers=f"{first:g} x {found.upright:.5f} + {second:g} x {found.stress:.5f} / {found.strength:.4f}",
            result=max(found.sums),
            unit="of 1",
            clause=f"eq. 6.11, 6.12; the first share: the beam's bending, of any combination, {JUDGEMENT}",
        ),
    )
    says = (
        "The rafters beside a mullion hold the beam there: their joints with it, and those at their other ends, must "
        "hold what it brings, in and out; they were not checked for that."
    )
    return Shown(says=says, rests_on=_inputs(ground), working=working, cure=_CURE)


def _inputs(ground: Ground) -> tuple[RestsOn, ...]:
    frame, timber = ground.job.frame, ground.parts.timber_for("beam")
    return (
        ground.of_job("frame.beam_mm", frame.beam_mm),
        ground.of_job("frame.mullion_mm", frame.mullion_mm),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        ground.of_wind(),
        *ground.of_side_wind("front"),
    )
