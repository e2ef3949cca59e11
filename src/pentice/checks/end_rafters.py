"""Rafters over closed ends: wind on the upper half of the end bends them sideways, beside the roof's own load."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pentice.checks.bent_level import BentLevel, most_used
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.rafter import RafterResult
from pentice.checks.rafter_model import RafterModel, rafter_models
from pentice.checks.rafter_shown import EDITION
from pentice.checks.side_members_model import worst_winds
from pentice.checks.side_members_shown import wind_steps
from pentice.checks.timber_shown import service_class
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.checks.walls import CALLED, OnWall, in_words, why_no_wind_on_walls
from pentice.errors import OutsideScope
from pentice.job.fields import Wall
from pentice.loads.combine import Combination
from pentice.working import Step

SIDEWAYS = Rule(
    id="rafter-sideways",
    name="End rafter, bent by its closed end",
    member="rafter",
    clause="EN 1995-1-1, 6.1.6",
    unit="of 1",
    edition=EDITION,
)
RUNS_ON = 1.25
"""Reaction of a beam over its middle support between two even spans, over its share of the length: statics."""
_UPRIGHT = ("rafter-bending", "rafter-uplift")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pushed:
    """An end rafter in one wind [kN/m, kNm, of 1]."""

    end: Wall
    model: RafterModel
    on: OnWall
    combination: Combination
    strip_mm: float
    count: int
    """Rafters that lines of noggins join; 1: none."""
    line_kn_m: float
    bent: BentLevel


def end_rafter_checks(ground: Ground, results: Sequence[RafterResult]) -> Iterator[Check]:
    """The end rafter that uses most of its strength while its closed end pushes it sideways.

    Parameters
    ----------
    ground, results
        The inputs of every check, and the checks of the rafters as the roof loads them.

    Yields
    ------
    Check
        None where no end is closed.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9; EN 1995-1-1:2004, 6.1.6, eq. 6.11 and 6.12. The end is taken as high all
    along as at its head, in the worst zone, its upper half borne by the rafter between head and beam; of the roof's own
    load the most that any combination uses counts: judgement, on the safe side. Lines of noggins or purlins share it
    among the rafters: as a beam over supports that all rafters carry, 1.25 w L^2 / (8 n), and between them w s^2 / 8.
    """
    roof = ground.job.roof
    ends: list[tuple[Wall, int]] = []
    if roof.left == "closed":
        ends.append(("left", 0))
    if roof.right == "closed":
        ends.append(("right", -1))
    if not ends:
        return
    why = _why_not(ground, [results[k] for _, k in ends])
    if not why:
        try:
            found = [pushed for end, k in ends for pushed in _pushed(ground, end, k, results[k])]
        except OutsideScope as refusal:
            why = str(refusal)
    if why:
        yield open_check(SIDEWAYS, Place(), "refused", Shown(says=why))
        return
    worst = max(found, key=lambda one: one.bent.share)
    yield compared(
        SIDEWAYS,
        Place(rafter=worst.model.rafter.number),
        demand=worst.bent.share,
        capacity=1.0,
        case=f"{CALLED[worst.end]}; {in_words(worst.on)}",
        shown=lambda: _shown(ground, worst),
    )


def _why_not(ground: Ground, results: Sequence[RafterResult]) -> str:
    why = why_no_wind_on_walls(ground) or ground.loads.wind.refused
    if why:
        return why
    if ground.parts.bar.carries:
        return (
            "What a closed end pushes into a bar that carries by itself was not calculated: ask its supplier."
        )
    if ground.shape.head_height_mm is None:
        return "The height of the ends is not known: give roof.eaves_height_mm, or the head height."
    if any(most_used(result.checks, _UPRIGHT) is None for result in results):
        return "What the roof bends its end rafters by is not known: see their bending."
    return ""


def _pushed(ground: Ground, end: Wall, k: int, result: RafterResult) -> Iterator[_Pushed]:
    model = ground.once(rafter_models)[k]
    strip, span = (ground.shape.head_height_mm or 0.0) / 2.0, model.span_mm
    free, cos = model.longest_free_mm, ground.shape.cos_pitch
    count = len(ground.setting_out.plane.rafters) if free < span else 1
    for on, combination in worst_winds(ground, end, strip, ground.shape.projection_mm):
        line = combination.wind * abs(on.net) * strip / 1000.0
        alone = line * cos * span**2 / 8e6
        shared = line * cos * (RUNS_ON * span**2 / count + free**2) / 8e6
        moment = min(alone, shared) if count > 1 else alone
        yield _Pushed(
            end=end,
            model=model,
            on=on,
            combination=combination,
            strip_mm=strip,
            count=count if shared < alone else 1,
            line_kn_m=line,
            bent=BentLevel(
                size_mm=(model.rafter.width_mm, model.rafter.depth_mm),
                timber=model.timber,
                combination=combination,
                service=service_class(ground),
                moment_knm=moment,
                upright=most_used(result.checks, _UPRIGHT) or 0.0,
            ),
        )


def _moment_step(ground: Ground, found: _Pushed) -> Step:
    span, free, cos = (
        found.model.span_mm / 1000.0,
        found.model.longest_free_mm / 1000.0,
        ground.shape.cos_pitch,
    )
    load = f"{found.line_kn_m:.5f} x {cos:.5f}"
    formula, numbers = "M = w cos(pitch) L^2 / 8", f"{load} x {span:.4f}^2 / 8"
    if found.count > 1:
        formula = "M = w cos(pitch) (1.25 L^2 / n + s^2) / 8"
        numbers = f"{load} x ({RUNS_ON:g} x {span:.4f}^2 / {found.count} + {free:.4f}^2) / 8"
    return Step(
        says="Moment sideways" + (", shared through the noggins" if found.count > 1 else ""),
        formula=formula,
        numbers=numbers,
        result=found.bent.moment_knm,
        unit="kNm",
        clause=f"statics; {JUDGEMENT}",
    )


def _shown(ground: Ground, found: _Pushed) -> Shown:
    span = found.model.span_mm
    working = (
        *wind_steps(found.strip_mm, found.on, found.combination),
        _moment_step(ground, found),
        *found.bent.steps("sideways", "that rafter's"),
        Step(
            says="Passes to plate and beam, sideways",
            formula="F = w cos(pitch) L / 2",
            numbers=f"{found.line_kn_m:.5f} x {ground.shape.cos_pitch:.5f} x {span / 1000.0:.4f} / 2",
            result=found.line_kn_m * ground.shape.cos_pitch * span / 2000.0,
            unit="kN",
            clause="statics",
        ),
    )
    says = (
        "Its hanger and tie must hold what each end passes on along the wall, out or in, too. Both ends of the roof "
        "draw against each other through plate and beam; the push along the wall has what is left of both."
    )
    cure = "A line of noggins between the rafters, or a wider rafter."
    return Shown(says=says, rests_on=_inputs(ground, found.end), working=working, cure=cure)


def _inputs(ground: Ground, end: Wall) -> tuple[RestsOn, ...]:
    timber, frame = ground.parts.timber_for("rafter"), ground.job.frame
    found = [
        ground.of_job("frame.rafter_mm", frame.rafter_mm),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        ground.of_wind(),
        *ground.of_side_wind(end),
    ]
    if frame.noggins_at_mm:
        found.append(ground.of_job("frame.noggins_at_mm", frame.noggins_at_mm))
    return tuple(found)
