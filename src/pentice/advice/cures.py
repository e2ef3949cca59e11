"""Cures for checks that fail or are refused: the smallest change of each kind that passes and makes nothing worse."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pentice.advice.complete import complete
from pentice.advice.frame_cures import Change, frame_changes
from pentice.advice.options import changed_job
from pentice.advice.proposal import Proposal, glazing_cost, holds, no_worse, verdict_changes
from pentice.advice.side_cures import side_changes
from pentice.checks.bar_screws import zones_asked
from pentice.checks.side_members import DECLARED
from pentice.checks.values import Check
from pentice.design import Design, worst_of_each
from pentice.errors import InputError, NoSolution, OutsideScope
from pentice.job.model import Job
from pentice.pipeline import Assessed, assess, solve
from pentice.setting_out.bars import step_asked

CLOSER_MOST = 8
LEAST_SPACING_MM = 40.0
"""Closer than this the job file refuses screws: the timber splits."""
PURLINS_MOST = 3


def cures(design: Design) -> tuple[Proposal, ...]:
    """For each rule that fails or is refused: closer bars, purlins, a deeper rafter, another sheet, a mullion.

    Parameters
    ----------
    design
        The solved job.

    Returns
    -------
    tuple of Proposal
        Each solved as a whole; only those after which the rule passes everywhere and no other verdict is worse.
    """
    found: list[Proposal] = []
    trials: dict[str, _Trial | None] = {}
    for check in worst_of_each(design.checks):
        if check.verdict in ("fails", "refused"):
            for kind in _kinds(design, check.id):
                cure = next(
                    (c for change in kind if (c := _tried(design, check.id, change, trials)) is not None),
                    None,
                )
                if cure is not None:
                    found.append(cure)
    return tuple(found)


@dataclass(slots=True)
class _Trial:
    """One change of the job: checked at once, cut and priced only when somebody can use it."""

    job: Job
    assessed: Assessed
    solved: Design | None = None


def _tried(design: Design, rule: str, change: Change, trials: dict[str, _Trial | None]) -> Proposal | None:
    title, changes = change
    if title not in trials:
        trials[title] = _trial(design, changes)
    trial = trials[title]
    if trial is None or not _cured(design, trial.assessed.checks, rule):
        return None
    try:
        after = trial.solved = trial.solved or solve(trial.job, design.catalogue, design.firm, trial.assessed)
    except NoSolution:
        trials[title] = None
        return None
    if not _cured(design, after.checks, rule):  # a sheet as it is really cut
        return None
    cost = glazing_cost(after.cutting) - glazing_cost(design.cutting)
    return Proposal(
        id=f"{rule}: {title}",
        title=title,
        set=dict(changes),
        cost_change=cost,
        verdicts_change=verdict_changes(design.checks, after.checks),
        summary=f"{title}. It passes. {_then(design, after)}",
        check=rule,
    )


def _trial(design: Design, changes: Mapping[str, Any]) -> _Trial | None:
    try:
        job = complete(changed_job(design.job, dict(changes)), design.catalogue)
        return _Trial(job=job, assessed=assess(job, design.catalogue))
    except (InputError, OutsideScope, NoSolution):
        return None


def _cured(design: Design, after: tuple[Check, ...], rule: str) -> bool:
    """Whether the rule passes everywhere and no verdict is worse.

    A new rule that passes needs no partner; nor does a new joint whose resistance is still to be declared.
    """
    known = {check.id for check in design.checks}
    new = (
        check
        for check in after
        if check.id not in known
        and (check.verdict == "passes" or (check.id in DECLARED and check.verdict == "refused"))
    )
    return holds(after, rule) and no_worse((*design.checks, *new), after)


def _then(design: Design, after: Design) -> str:
    """What the whole job costs then, and what still does not hold."""
    change, counts = after.price.gross - design.price.gross, after.summary.counts
    costs = f"costs {abs(change):,.2f} {'more' if change > 0 else 'less'}" if change else "costs the same"
    left = f"{counts['fails']} fail and {counts['refused']} are refused then"
    return f"The whole job {costs} with tax; {left}."


def _kinds(design: Design, rule: str) -> Iterator[Iterator[Change]]:
    if rule.startswith(("sheet", "bite", "cap")):
        yield _closer_bars(design)
        yield _purlins(design)
        yield _other_sheets(design)
    if rule.startswith(("rafter", "fall")):
        yield _deeper_rafters(design)
        yield _closer_bars(design)
        yield _noggins(design)
    if rule.startswith("bar-") and design.parts.bar.carries:
        yield _closer_bars(design)
    if rule.startswith("cover"):
        yield _longer_arms(design)
    if rule.startswith("bar-screw"):
        yield _other_screws(design)
    if rule in ("gutter", "downpipe", "drip"):
        yield _other_gutters(design)
    yield from side_changes(design, rule)
    if rule.startswith("side-wind"):
        yield _other_sheets(design)
    yield from frame_changes(design, rule)


def _closer_bars(design: Design) -> Iterator[Change]:
    count = design.job.frame.bay_count
    if count is None or design.job.frame.rafter_centres_mm is not None:
        return
    for more in range(1, CLOSER_MOST + 1):
        yield f"{count + more} bays instead of {count}: closer bars", {"frame.bay_count": count + more}


def _purlins(design: Design) -> Iterator[Change]:
    if design.job.frame.purlins_at_mm:
        return
    slope = design.setting_out.plane.slope_length_mm
    for count in range(1, PURLINS_MOST + 1):
        places = [round(slope * (i + 1) / (count + 1)) for i in range(count)]
        words = "a purlin" if count == 1 else f"{count} purlins"
        yield (
            f"{words.capitalize()} at {', '.join(str(p) for p in places)} from the wall, timber under head and foot",
            {"frame.purlins_at_mm": places, "frame.head_bearer": True, "frame.foot_bearer": True},
        )


def _other_sheets(design: Design) -> Iterator[Change]:
    here = design.parts.sheet
    for sheet in sorted(design.catalogue.sheets.values(), key=lambda s: s.depth_mm):
        if sheet.depth_mm > here.depth_mm and design.parts.tint in sheet.tints:
            opened = {
                f"glazing.{key}": None for key in ("bar", "head_profile", "foot_profile", "edge_profile")
            }
            yield f"{sheet.name} instead of {here.depth_mm:g} mm", {"glazing.sheet": sheet.id, **opened}


def _deeper_rafters(design: Design) -> Iterator[Change]:
    b, h = design.job.frame.rafter_mm or (0.0, 0.0)
    for width, depth in sorted(design.parts.timber.sizes_mm, key=lambda s: s[0] * s[1]):
        if width * depth > b * h and width >= b and depth >= h:
            yield (
                f"Rafters {width:g} x {depth:g} instead of {b:g} x {h:g}",
                {"frame.rafter_mm": [width, depth]},
            )


def _noggins(design: Design) -> Iterator[Change]:
    if design.job.frame.noggins_at_mm:
        return
    middle = round(design.setting_out.plane.slope_length_mm / 2.0)
    yield f"A noggin between the rafters at {middle} from the wall", {"frame.noggins_at_mm": [middle]}


def _longer_arms(design: Design) -> Iterator[Change]:
    head = design.parts.head_profile
    for other in sorted(design.catalogue.profiles.values(), key=lambda p: p.arm_mm):
        if other.use == "head" and other.inside_mm == head.inside_mm and other.arm_mm > head.arm_mm:
            yield f"Head profile with an arm of {other.arm_mm:g}", {"glazing.head_profile": other.id}


def _other_screws(design: Design) -> Iterator[Change]:
    for screw in sorted(design.catalogue.screws.values(), key=lambda s: (s.d_mm, s.length_mm)):
        if screw.use == "bar" and screw.id != design.parts.screw.id:
            yield f"{screw.name}", {"screws.bar_screw": screw.id}
    spacing = design.job.screws.spacing_mm or 400.0
    yield from _closer_by_zone(design, spacing)
    for closer in (300.0, 250.0, 200.0, 150.0):
        if closer < spacing:
            yield f"Bar screws every {closer:g} instead of {spacing:g}", {"screws.spacing_mm": closer}


def _closer_by_zone(design: Design, spacing: float) -> Iterator[Change]:
    """Closer screws in the stretches of the bars that the wind lifts most, not everywhere."""
    job, parts = design.job, design.parts
    if job.screws.closer_mm:
        return
    counted = spacing / step_asked(job, parts, spacing)  # 1, or 2 where the spacing counts along one side
    stretches: list[list[float]] = []
    for _, end, allowed in zones_asked(design.checks, [bar.rafter for bar in design.setting_out.plane.bars]):
        step = min(spacing, 10.0 * math.floor(counted * allowed / 10.0))
        if stretches and stretches[-1][1] == step:
            stretches[-1][0] = math.ceil(end)
        else:
            stretches.append([math.ceil(end), step])
    while stretches and stretches[-1][1] == spacing:
        stretches.pop()
    if stretches and min(step for _, step in stretches) >= LEAST_SPACING_MM:
        said = ", ".join(f"{step:g} up to {end:g} from the foot" for end, step in stretches)
        yield f"Bar screws every {said}, {spacing:g} beyond", {"screws.closer_mm": stretches}


def _other_gutters(design: Design) -> Iterator[Change]:
    here = design.parts.gutter
    for gutter in sorted(design.catalogue.gutters.values(), key=lambda g: g.width_mm):
        if here is None or gutter.width_mm > here.width_mm:
            yield f"{gutter.name}", {"gutter.item": gutter.id}
