"""Beams over a closed front or back: what mullions under them push and draw level, between two rafters."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.bent_level import BentLevel, most_used
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.rafter_shown import EDITION
from pentice.checks.side_members_model import Bent, of_mullion
from pentice.checks.side_members_shown import at_ends
from pentice.checks.timber_shown import service_class
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.walls import OnWall, why_no_wind_on_walls
from pentice.errors import OutsideScope
from pentice.job.fields import Wall
from pentice.loads.combine import Combination
from pentice.setting_out.side_frames import side_frames
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
    bent: BentLevel
    """Each as in the middle of the field."""


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
        yield open_check(SIDEWAYS, Place(), "refused", Shown(says=why, rests_on=_inputs(ground, side)))
        return
    worst = max(found, key=lambda one: one.bent.share)
    yield compared(
        SIDEWAYS,
        Place(),
        demand=worst.bent.share,
        capacity=1.0,
        case=f"{worst.mullion.words}; {worst.on.in_short()}",
        shown=lambda: _shown(ground, side, worst),
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
    if most_used(of_row, _UPRIGHT) is None:
        return "What the roof bends this beam by is not known: see its bending."
    return ""


def _pushed(
    ground: Ground, forces: EavesForces, mullion: Bent, apart_mm: float, of_row: Sequence[Check]
) -> Iterator[_Pushed]:
    rafters, at_head = ground.setting_out.plane.rafters, forces.beam.row == "head"
    places = [r.centre_head_mm if at_head else r.centre_foot_mm for r in rafters]
    field = max(right - left for left, right in pairwise(places))
    count = max(math.ceil(field / apart_mm), 1)
    for on, combination in mullion.lines:
        force = at_ends(mullion, on, combination).demand
        yield _Pushed(
            mullion=mullion,
            on=on,
            combination=combination,
            force_kn=force,
            field_mm=field,
            count=count,
            bent=BentLevel(
                size_mm=forces.beam.size_mm,
                timber=forces.timber,
                combination=combination,
                service=service_class(ground),
                moment_knm=count * force * field / 4000.0,
                upright=most_used(of_row, _UPRIGHT) or 0.0,
            ),
        )


def _shown(ground: Ground, side: Wall, found: _Pushed) -> Shown:
    working = (
        *at_ends(found.mullion, found.on, found.combination).steps(),
        Step(
            says="Moment level between two rafters",
            formula="M = n R s / 4",
            numbers=f"{found.count} x {found.force_kn:.5f} x {found.field_mm / 1000.0:.4f} / 4",
            result=found.bent.moment_knm,
            unit="kNm",
            clause=f"statics; each mullion in the middle, rafters hold the beam level, {JUDGEMENT}",
        ),
        *found.bent.steps("level", "the beam's"),
    )
    says = (
        "The rafters beside a mullion hold the beam there: their joints with it, and those at their other ends, must "
        "hold what it brings, in and out; they were not checked for that."
    )
    return Shown(says=says, rests_on=_inputs(ground, side), working=working, cure=_CURE)


def _inputs(ground: Ground, side: Wall) -> tuple[RestsOn, ...]:
    frame, timber = ground.job.frame, ground.parts.timber_for("beam")
    key = "head_beam_mm" if side == "back" and frame.head_beam_mm is not None else "beam_mm"
    return (
        ground.of_job(f"frame.{key}", getattr(frame, key)),
        ground.of_job("frame.mullion_mm", frame.mullion_mm),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        ground.of_wind(),
        *ground.of_side_wind(side),
    )
