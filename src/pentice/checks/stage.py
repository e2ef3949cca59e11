"""The checks stage: every requirement, and the bites under load written back beside the sizes."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import chain
from types import MappingProxyType

from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.checks.carrying_bar import bar_results
from pentice.checks.end_rafters import end_rafter_checks
from pentice.checks.fall import fall_checks
from pentice.checks.fit import fit_checks
from pentice.checks.fixings import fixing_checks
from pentice.checks.frame import frame_checks
from pentice.checks.ground import Ground, Rule, open_check
from pentice.checks.purlin import purlin_checks
from pentice.checks.rafter import rafter_results
from pentice.checks.sheet import sheet_checks
from pentice.checks.side_members import side_member_checks
from pentice.checks.side_sheets import side_sheet_checks
from pentice.checks.values import Check, Place, Shown
from pentice.checks.water import water_checks
from pentice.frame.stage import frame_of
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.values import Loads
from pentice.setting_out.values import Bay, SettingOut
from pentice.standards.annex import Annex


def _rafter_and_fall(ground: Ground) -> Iterator[Check]:
    rafters = bar_results(ground) if ground.parts.bar.carries else rafter_results(ground)
    yield from (check for result in rafters for check in result.checks)
    yield from end_rafter_checks(ground, rafters)
    yield from purlin_checks(ground)
    yield from fall_checks(ground, rafters)


def _refused_cases(ground: Ground) -> Iterator[Check]:
    """Load cases that could not be made: each stands as a refused check of its own."""
    for case, why in (*ground.loads.snow.refused, *ground.loads.wind.cases_refused):
        rule = Rule(
            id=f"case-{case.replace(' ', '-')}", name=f"Load case: {case}", member="roof", clause="", unit=""
        )
        yield open_check(rule, Place(), "refused", Shown(says=why))


def _sides(ground: Ground) -> Iterator[Check]:
    yield from side_sheet_checks(ground)
    yield from side_member_checks(ground)


GROUPS: Mapping[str, Callable[[Ground], Iterable[Check]]] = {
    "fit": fit_checks,
    "sheet": sheet_checks,
    "rafter": _rafter_and_fall,
    "fixings": fixing_checks,
    "water": water_checks,
    "cases": _refused_cases,
    "frame": frame_checks,
    "sides": _sides,
}
"""The checks by group, in the order in which they are listed."""
OF_NO_SHEET = ("water", "cases", "frame")
"""Groups that look at no sheet: whatever size the sheets are cut to, their checks stay."""


def check_all(  # noqa: PLR0913 -- the stages above it, each by name
    job: Job,
    shape: RoofShape,
    parts: Parts,
    catalogue: Catalogue,
    annex: Annex,
    loads: Loads,
    setting_out: SettingOut,
    only: Collection[str] | None = None,
    known: Mapping[str, tuple[Check, ...]] = MappingProxyType({}),
) -> tuple[SettingOut, dict[str, tuple[Check, ...]]]:
    """Every check of a design.

    Parameters
    ----------
    job, shape, parts, catalogue, annex, loads, setting_out
        What stands above the checks.
    only
        Names of `GROUPS` where a trial asks about some of them; absent: every check.
    known
        Checks of some groups, made before on the same inputs.

    Returns
    -------
    tuple
        The setting-out with the bites under load written in, and every check of the wanted groups, group by group.

    Source
    ------
    Each check names its own.
    """
    ground = Ground(
        job=job,
        shape=shape,
        parts=parts,
        catalogue=catalogue,
        annex=annex,
        loads=loads,
        setting_out=setting_out,
        frame=frame_of(job, shape, parts, setting_out),
    )
    wanted = {name: group for name, group in GROUPS.items() if only is None or name in only}
    checks = {name: known[name] if name in known else tuple(make(ground)) for name, make in wanted.items()}
    return _with_loaded_bites(setting_out, chain.from_iterable(checks.values())), checks


def _with_loaded_bites(setting_out: SettingOut, checks: Iterable[Check]) -> SettingOut:
    left = {c.place.bay: c.capacity for c in checks if c.id == "bite-loaded" and c.capacity is not None}
    plane = setting_out.plane
    bays = tuple(_with_bite(bay, left.get(bay.number)) for bay in plane.bays)
    return replace(setting_out, planes=(replace(plane, bays=bays), *setting_out.planes[1:]))


def _with_bite(bay: Bay, bite: float | None) -> Bay:
    if bite is None:
        return bay
    edges = bay.edges
    return replace(
        bay,
        edges=replace(
            edges,
            left=replace(edges.left, bite_loaded_mm=bite),
            right=replace(edges.right, bite_loaded_mm=bite),
        ),
    )
