"""Beams over a closed front or back: what posts and mullions under them push and draw level, between two rafters."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from pentice.checks.bent_level import BentLevel, MetalBentLevel, most_used
from pentice.checks.eaves import EavesForces
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.post_winds import share_mm
from pentice.checks.rafter_shown import EDITION
from pentice.checks.side_members_model import Bent, of_mullion, worst_winds
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
    name="Eaves beam, pushed level by its front",
    member="beam",
    clause="EN 1995-1-1, 6.1.6",
    unit="of 1",
    edition=EDITION,
)
_UPRIGHT = ("beam-bending", "beam-knees")
_CURE = "A wider beam, more mullions, or rafters closer together."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Under:
    """Posts or mullions that push a beam in one field between two rafters: how many, and the moment of each [mm]."""

    member: Bent
    count: int
    field_mm: float
    place_mm: float | None = None
    """Of a post from the rafter before it; None: as in the middle."""

    @property
    def arm_mm(self) -> float:
        """Moment level of one for each newton."""
        if self.place_mm is None:
            return self.field_mm / 4.0
        return max(self.place_mm * (self.field_mm - self.place_mm) / self.field_mm, 0.0)

    def moment_step(self, force_kn: float) -> Step:
        """As a line."""
        s, many = self.field_mm / 1000.0, f"{self.count} x " if self.place_mm is None else ""
        formula, numbers = "M = n R s / 4", f"{many}{force_kn:.5f} x {s:.5f} / 4"
        clause = "R what each brings, in the middle"
        if self.place_mm is not None:
            a = self.place_mm / 1000.0
            formula, numbers = (
                "M = R a (s - a) / s",
                f"{force_kn:.5f} x {a:.5f} x ({s:.5f} - {a:.5f}) / {s:.5f}",
            )
            clause = "R what it brings, a from the rafter beside it, s between two"
        return Step(
            says=f"Moment level between two rafters, by {self.member.words}",
            formula=formula,
            numbers=numbers,
            result=self.count * force_kn * self.arm_mm / 1000.0,
            unit="kNm",
            clause=f"statics; {clause}, rafters hold the beam level, {JUDGEMENT}",
        )


class _BentLevel(Protocol):
    """Of timber or of metal."""

    @property
    def share(self) -> float:
        """Of its strength, with what the roof bends it by."""

    def steps(self, way: str, first: str) -> tuple[Step, ...]:
        """From the moment to the share."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pushed:
    """A beam in one field between two rafters, in one wind [of 1]."""

    pushes: tuple[tuple[_Under, OnWall], ...]
    combination: Combination
    bent: _BentLevel


def front_beam_checks(ground: Ground, forces: EavesForces, of_row: Sequence[Check]) -> Iterator[Check]:
    """The beam of a row as posts and mullions under it push it level.

    Parameters
    ----------
    ground, forces, of_row
        The inputs of every check, the row, and its other checks.

    Yields
    ------
    Check
        None where its front, or back, is open.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9; EN 1995-1-1:2004, 6.1.6, eq. 6.11 and 6.12; of metal shares in a straight
    line. The rafters hold the beam level; each post pushes where it stands, each mullion as in the middle between two
    rafters; of the roof's own load the most that any combination uses: judgement, on the safe side.
    """
    side: Wall = "back" if forces.beam.row == "head" else "front"
    if getattr(ground.job.roof, side) != "closed":
        return
    why, found = _why_not(ground, forces, of_row), list[_Pushed]()
    if not why:
        try:
            found = list(_all_pushed(ground, forces, side, most_used(of_row, _UPRIGHT) or 0.0))
        except OutsideScope as refusal:
            why = str(refusal)
    if why:
        yield open_check(
            SIDEWAYS, Place(), "refused", Shown(says=why, rests_on=_inputs(ground, forces, side))
        )
        return
    worst = max(found, key=lambda one: one.bent.share)
    yield compared(
        SIDEWAYS,
        Place(),
        demand=worst.bent.share,
        capacity=1.0,
        case=f"{' and '.join(under.member.words for under, _ in worst.pushes)}; {worst.pushes[0][1].in_short()}",
        shown=lambda: _shown(ground, forces, side, worst),
    )


def _why_not(ground: Ground, forces: EavesForces, of_row: Sequence[Check]) -> str:
    why = why_no_wind_on_walls(ground) or ground.loads.wind.refused
    if why:
        return why
    if any(post.length_mm is None for post in forces.beam.posts):
        return "The posts' length is not known: give roof.eaves_height_mm, or the head height."
    if ground.parts.bar.carries:
        return (
            "What posts and mullions push level into a beam under bars that carry by themselves was not calculated: "
            "ask an engineer."
        )
    if most_used(of_row, _UPRIGHT) is None:
        return "What the roof bends this beam by is not known: see its bending."
    return ""


def _all_pushed(ground: Ground, forces: EavesForces, side: Wall, upright: float) -> Iterator[_Pushed]:
    """Each post with the mullions that may stand in its field, and each mullion with its like."""
    at = [r.centre_head_mm if side == "back" else r.centre_foot_mm for r in ground.setting_out.plane.rafters]
    widest = max(right - left for left, right in pairwise(at))
    mullions, count = _mullions(ground, side, widest)
    beside = mullions if count > 1 else []
    for mullion in mullions:
        yield from _in_each_wind(
            ground, forces, upright, (_Under(member=mullion, count=count, field_mm=widest),)
        )
    for k, post in enumerate(forces.beam.posts):
        strip = share_mm(forces.beam.posts, k, ground.shape.width_mm)
        tall = post.length_mm or 0.0
        member = Bent(
            words=f"post {post.number}",
            sheet=0,
            size_mm=post.size_mm,
            span_mm=tall,
            strip_mm=strip,
            down_n_mm=0.0,
            lines=worst_winds(ground, side, strip, tall),
        )
        n = next((n for n in range(1, len(at) - 1) if at[n] >= post.x_mm), len(at) - 1)
        place = min(max(post.x_mm, at[0]), at[-1]) - at[n - 1]
        of_post = _Under(member=member, count=1, field_mm=at[n] - at[n - 1], place_mm=place)
        yield from _in_each_wind(ground, forces, upright, (of_post,))
        for mullion in beside:
            near = _Under(member=mullion, count=count - 1, field_mm=at[n] - at[n - 1])
            yield from _in_each_wind(ground, forces, upright, (of_post, near))


def _mullions(ground: Ground, side: Wall, field_mm: float) -> tuple[list[Bent], int]:
    """The mullions under a beam, and how many may stand between two rafters."""
    frames, size = side_frames(ground.job, ground.shape), ground.job.frame.mullion_mm
    under = [mullion for mullion in frames.mullions if mullion.side == side]
    if not under or size is None:
        return [], 0
    least = min(c.width_mm for place, columns in frames.columns if place == side for c in columns)
    apart = least + size[0] if len(under) > 1 else math.inf
    return [of_mullion(ground, mullion, size) for mullion in under], max(math.ceil(field_mm / apart), 1)


def _in_each_wind(
    ground: Ground, forces: EavesForces, upright: float, under: tuple[_Under, ...]
) -> Iterator[_Pushed]:
    """What they do together in wind that lasts, and by accident."""
    for first, combination in under[0].member.lines:
        pushes = [(under[0], first)]
        for other in under[1:]:
            pushes += [(other, on) for on, _ in other.member.lines if on.situation == first.situation]
        moment = sum(
            one.count * at_ends(one.member, on, combination).demand * one.arm_mm for one, on in pushes
        )
        yield _Pushed(
            pushes=tuple(pushes),
            combination=combination,
            bent=_bent(ground, forces, combination, (moment / 1000.0, under[0].field_mm), upright),
        )


def _bent(
    ground: Ground,
    forces: EavesForces,
    combination: Combination,
    of_field: tuple[float, float],
    upright: float,
) -> _BentLevel:
    """Bent by a moment [kNm] in a field [mm]."""
    moment_knm, field_mm = of_field
    if forces.metal is not None:
        return MetalBentLevel(metal=forces.metal, moment_knm=moment_knm, free_mm=field_mm, upright=upright)
    return BentLevel(
        size_mm=forces.beam.size_mm,
        timber=forces.timber,
        combination=combination,
        service=service_class(ground),
        moment_knm=moment_knm,
        upright=upright,
    )


def _shown(ground: Ground, forces: EavesForces, side: Wall, found: _Pushed) -> Shown:
    lines: list[Step] = []
    moments = []
    for under, on in found.pushes:
        answer = at_ends(under.member, on, found.combination)
        step = under.moment_step(answer.demand)
        moments.append(float(step.result))
        lines += [*answer.steps(), step]
    if len(moments) > 1:
        lines.append(
            Step(
                says="Moment level, of both",
                formula="M_1 + M_2",
                numbers=" + ".join(f"{moment:.6f}" for moment in moments),
                result=sum(moments),
                unit="kNm",
                clause="all at once",
            )
        )
    says = (
        "The rafters beside a mullion hold the beam there: their joints with it, and those at their other ends, must "
        "hold what it brings, in and out; they were not checked for that."
        if any(under.place_mm is None for under, _ in found.pushes)
        else ""
    )
    working = (*lines, *found.bent.steps("level", "the beam's"))
    return Shown(says=says, rests_on=_inputs(ground, forces, side), working=working, cure=_CURE)


def _inputs(ground: Ground, forces: EavesForces, side: Wall) -> tuple[RestsOn, ...]:
    frame, timber = ground.job.frame, ground.parts.timber_for("beam")
    key = "head_beam_mm" if side == "back" and frame.head_beam_mm is not None else "beam_mm"
    made = (
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class)
        if forces.metal is None
        else ground.of_catalogue(f"sections.{forces.metal.section.id}.metal", forces.metal.section.metal)
    )
    found = [
        ground.of_job(f"frame.{key}", getattr(frame, key)),
        ground.of_job("frame.posts_at_mm", frame.posts_at_mm),
        made,
        ground.of_wind(),
        *ground.of_side_wind(side),
    ]
    if frame.mullion_mm is not None and any(sheet.side == side for sheet in ground.job.side_sheets):
        found.append(ground.of_job("frame.mullion_mm", frame.mullion_mm))
    return tuple(found)
