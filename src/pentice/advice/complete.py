"""Fills the blanks of a job by the smallest catalogue size that passes, each choice marked with its reason."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pentice.catalogue.model import Catalogue
from pentice.catalogue.sheets import Sheet
from pentice.checks.values import Check
from pentice.errors import InputError, NoSolution, OutsideScope
from pentice.job.model import Job
from pentice.job.writing import with_keys
from pentice.pipeline import assess
from pentice.standards.en1995_screws import widest_hole_gauge_mm

MAX_BAY_MM = 1000.0
"""Widest centres where the job names none: common practice, no source."""
RAFTER_WIDTH_MM = 70.0
"""Width of a rafter under a 60 mm seat that leaves room for staggered screws: common practice, no source."""

_NONE_HOLDS = "none of the catalogue is shown to hold:"

T = TypeVar("T")


def complete(job: Job, catalogue: Catalogue) -> Job:
    """The same job with its blanks filled where there is a safe choice.

    Parameters
    ----------
    job
        The job as read.
    catalogue
        Products by id.

    Returns
    -------
    Job
        Each filled key is marked "chosen" with its reason. What only the author can give stays open: `solve` asks.

    Raises
    ------
    InputError
        A value that stands in the job cannot be used.
    """
    for fill in (_plain, _bays, _sheet, _sheet_parts, _rafter, _screw, _gutter):
        changes = fill(job, catalogue)
        for (path, value), why in changes.items():
            job = with_keys(job, {path: _plain_value(value)}, mark="chosen", reason=why)
    return job


_Changes = Mapping[tuple[str, Any], str]


def _plain_value(value: Any) -> Any:
    return list(value) if isinstance(value, tuple) else value


# What needs no trial


def _plain(job: Job, catalogue: Catalogue) -> _Changes:
    found: dict[tuple[str, Any], str] = {}
    frame, glazing = job.frame, job.glazing
    if frame.timber is None:
        first = next(
            (t.id for t in catalogue.timbers.values() if "rafter" in t.uses and "24" in t.strength_class),
            None,
        )
        if first is not None:
            found["frame.timber", first] = "the usual strength class of the catalogue"
    if frame.service_class is None:
        found["frame.service_class", 2] = "under cover, not heated"
    for side in ("left", "right"):
        if getattr(glazing, f"{side}_edge") is None and getattr(job.roof, side) is not None:
            edge = "wall" if getattr(job.roof, side) == "wall" else "bar"
            found[f"glazing.{side}_edge", edge] = (
                "the roof ends at a wall" if edge == "wall" else "an end rafter carries a bar"
            )
    if frame.noggin_mm is None:
        found["frame.noggin_mm", (47, 70)] = "something under each button, common practice"
    return found


def _bays(job: Job, catalogue: Catalogue) -> _Changes:
    frame, width = job.frame, job.roof.width_mm
    if frame.bay_count is not None or frame.rafter_centres_mm is not None or width is None:
        return {}
    rafter = frame.rafter_mm[0] if frame.rafter_mm is not None else RAFTER_WIDTH_MM
    widest = frame.max_bay_mm or MAX_BAY_MM
    count = max(1, math.ceil((width - rafter) / widest - 1e-9))
    why = f"fewest bays with centres up to {widest:g}" + ("" if frame.max_bay_mm else ", common practice")
    return {("frame.bay_count", count): why}


# Sheet, and what goes with it


def _sheet(job: Job, catalogue: Catalogue) -> _Changes:
    if job.glazing.sheet is not None:
        return _bar_for(job, catalogue, catalogue.sheets.get(job.glazing.sheet))
    sheets = sorted(catalogue.sheets.values(), key=lambda s: s.depth_mm)
    fitting = [s for s in sheets if job.glazing.tint in (None, *s.tints)]
    trial = _with_stand_ins(job, catalogue, ("frame.rafter_mm", "screws.bar_screw"))

    def holds(sheet: Sheet) -> bool:
        candidate = _with_sheet(trial, catalogue, sheet)
        return candidate is not None and _passes(
            candidate, catalogue, ("fit", "sheet"), lambda c: c.member == "sheet"
        )

    found = _first(fitting, holds)
    if found is None:
        return {}
    why = "least depth that passes" if found.holds else f"{_NONE_HOLDS} the deepest, see its checks"
    return {("glazing.sheet", found.value.id): why, **_bar_for(job, catalogue, found.value)}


def _bar_for(job: Job, catalogue: Catalogue, sheet: Sheet | None) -> dict[tuple[str, Any], str]:
    if sheet is None or job.glazing.bar is not None:
        return {}
    bar = next((b for b in catalogue.bars.values() if sheet.depth_mm in b.sheet_depths_mm), None)
    return {} if bar is None else {("glazing.bar", bar.id): f"takes a sheet {sheet.depth_mm:g} deep"}


def _sheet_parts(job: Job, catalogue: Catalogue) -> _Changes:
    """Tint, and the profiles that take the sheet; of the head profiles the shortest arm that covers."""
    found: dict[tuple[str, Any], str] = {}
    glazing = job.glazing
    sheet = catalogue.sheets.get(glazing.sheet or "")
    if sheet is None:
        return {}
    if glazing.tint is None:
        found["glazing.tint", sheet.tints[0]] = "the first of the sheet"
    for use in ("foot", "edge"):
        if getattr(glazing, f"{use}_profile") is not None:
            continue
        if use == "edge" and "edge profile" not in (glazing.left_edge, glazing.right_edge):
            continue
        fits = _profiles(catalogue, use, sheet)
        if fits:
            found[f"glazing.{use}_profile", fits[0]] = f"takes a sheet {sheet.depth_mm:g} deep"
    if glazing.verge_trim is None and _needs_trim(job):
        trims = [
            p.id for p in catalogue.profiles.values() if p.use == "verge trim" and (p.leg_mm or 0.0) >= 40.0
        ]
        if trims:
            found["glazing.verge_trim", trims[0]] = "covers the end of the sheets, leg 40 or more"
    if glazing.head_profile is None:
        found.update(_head(job, catalogue, sheet, found))
    return found


def _needs_trim(job: Job) -> bool:
    return any(
        getattr(job.glazing, f"{side}_edge") == "bar" and getattr(job.roof, side) != "wall"
        for side in ("left", "right")
    )


def _profiles(catalogue: Catalogue, use: str, sheet: Sheet) -> list[str]:
    fits = [
        p
        for p in catalogue.profiles.values()
        if p.use == use and p.inside_mm is not None and p.inside_mm >= sheet.depth_mm + 1.0
    ]
    return [p.id for p in sorted(fits, key=lambda p: (p.inside_mm or 0.0, p.arm_mm))]


def _head(job: Job, catalogue: Catalogue, sheet: Sheet, known: _Changes) -> dict[tuple[str, Any], str]:
    fits = [catalogue.profiles[id] for id in _profiles(catalogue, "head", sheet)]
    if not fits:
        return {}
    narrowest = min(p.inside_mm or 0.0 for p in fits)
    fits = sorted((p for p in fits if p.inside_mm == narrowest), key=lambda p: p.arm_mm)
    trial = with_keys(job, {path: _plain_value(value) for path, value in known})
    trial = _with_stand_ins(trial, catalogue, ("frame.rafter_mm", "screws.bar_screw"))
    found = _first(
        [p.id for p in fits],
        lambda id: _passes(
            with_keys(trial, {"glazing.head_profile": id}),
            catalogue,
            ("fit",),
            lambda c: c.id == "cover-head",
        ),
    )
    if found is None:
        return {}
    why = "shortest arm that covers on the coldest day" if found.holds else "the longest arm of the catalogue"
    return {("glazing.head_profile", found.value): why}


def _with_sheet(job: Job, catalogue: Catalogue, sheet: Sheet) -> Job | None:
    """A trial with one sheet and whatever of the catalogue goes with it; None where nothing does."""
    changes: dict[str, Any] = {"glazing.sheet": sheet.id}
    if job.glazing.bar is None:
        bar = next((b.id for b in catalogue.bars.values() if sheet.depth_mm in b.sheet_depths_mm), None)
        if bar is None:
            return None
        changes["glazing.bar"] = bar
    for use in ("head", "foot", "edge"):
        if getattr(job.glazing, f"{use}_profile") is None:
            fits = _profiles(catalogue, use, sheet)
            changes[f"glazing.{use}_profile"] = (
                fits[-1] if use == "head" and fits else (fits[0] if fits else None)
            )
    return with_keys(job, changes)


# Rafter, screw, gutter


def _rafter_sizes(job: Job, catalogue: Catalogue) -> list[tuple[float, float]]:
    timber = catalogue.timbers.get(job.frame.timber or "")
    return sorted(timber.sizes_mm, key=lambda s: (s[0] * s[1], s[1])) if timber is not None else []


def _rafter(job: Job, catalogue: Catalogue) -> _Changes:
    carrying = catalogue.bars.get(job.glazing.bar or "")
    if job.frame.rafter_mm is not None or (carrying is not None and carrying.carries):
        return {}
    trial = _with_stand_ins(job, catalogue, ("screws.bar_screw",))
    screw = catalogue.screws.get(trial.screws.bar_screw or "")
    bar = catalogue.bars.get(job.glazing.bar or "")
    sizes = [
        size
        for size in _rafter_sizes(job, catalogue)
        if size[1] >= size[0]
        and (screw is None or bar is None or widest_hole_gauge_mm(size[0], screw.d_mm) >= bar.hole_gauge_mm)
    ]

    def holds(size: tuple[float, float]) -> bool:
        candidate = with_keys(trial, {"frame.rafter_mm": list(size)})
        return _passes(
            candidate,
            catalogue,
            ("rafter", "fixings"),
            lambda c: c.member == "rafter" or c.id in ("fall", "bar-screw-edge"),
        )

    found = _first(sizes, holds)
    if found is None:
        return {}
    why = "smallest section that passes" if found.holds else f"{_NONE_HOLDS} the largest, see its checks"
    return {("frame.rafter_mm", found.value): why}


def _screw(job: Job, catalogue: Catalogue) -> _Changes:
    if job.screws.bar_screw is not None:
        return {}
    screws = sorted(
        (s for s in catalogue.screws.values() if s.use == "bar"), key=lambda s: (s.d_mm, s.length_mm)
    )
    found = _first(
        [s.id for s in screws],
        lambda id: _passes(
            with_keys(job, {"screws.bar_screw": id}),
            catalogue,
            ("fixings",),
            lambda c: c.member == "bar screw" and c.id != "bar-screw-spacing",
        ),
    )
    if found is None:
        return {}
    why = "smallest screw that passes" if found.holds else f"{_NONE_HOLDS} the largest, see its checks"
    return {("screws.bar_screw", found.value): why}


def _gutter(job: Job, catalogue: Catalogue) -> _Changes:
    if job.gutter.item is not None:
        return {}
    gutters = [g.id for g in sorted(catalogue.gutters.values(), key=lambda g: g.width_mm)]
    found = _first(
        gutters,
        lambda id: _passes(
            with_keys(job, {"gutter.item": id}),
            catalogue,
            ("fit", "water"),
            lambda c: c.member in ("gutter", "downpipe"),
            allow_refused=True,
        ),
    )
    if found is None:
        return {}
    why = (
        "smallest gutter that takes the water and the drip"
        if found.holds
        else f"{_NONE_HOLDS} the largest, see its checks"
    )
    return {("gutter.item", found.value): why}


# Trials


def _with_stand_ins(job: Job, catalogue: Catalogue, paths: Iterable[str]) -> Job:
    """A trial in which blanks that are chosen later hold something ample."""
    changes: dict[str, Any] = {}
    sizes = _rafter_sizes(job, catalogue)
    wide = [s for s in sizes if s[0] >= RAFTER_WIDTH_MM] or sizes
    screws = [s.id for s in catalogue.screws.values() if s.use == "bar" and s.d_mm >= 6.0]
    for path in paths:
        if path == "frame.rafter_mm" and job.frame.rafter_mm is None and wide:
            changes[path] = list(max(s for s in wide if s[0] == wide[0][0]))
        if path == "screws.bar_screw" and job.screws.bar_screw is None and screws:
            changes[path] = screws[0]
    return with_keys(job, changes) if changes else job


@dataclass(frozen=True, slots=True)
class _Found(Generic[T]):
    """A candidate, and whether it holds."""

    value: T
    holds: bool


def _first(candidates: Iterable[T], holds: Callable[[T], bool]) -> _Found[T] | None:
    """The first candidate that holds; else the last one; None where there is none."""
    last: _Found[T] | None = None
    for candidate in candidates:
        last = _Found(candidate, holds(candidate))
        if last.holds:
            return last
    return last


def _passes(
    job: Job,
    catalogue: Catalogue,
    groups: Collection[str],
    concerns: Callable[[Check], bool],
    *,
    allow_refused: bool = False,
) -> bool:
    """Do all checks of one kind, found in these groups, pass? A trial that cannot be solved does not."""
    try:
        checks = assess(job, catalogue, groups).checks
    except (InputError, OutsideScope, NoSolution):
        return False
    good = ("passes", "refused", "not checked") if allow_refused else ("passes",)
    return all(check.verdict in good for check in checks if concerns(check))
