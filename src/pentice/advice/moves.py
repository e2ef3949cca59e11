"""Moves that save stock: a little less projection, another overhang or bay count, other end bays, a deeper profile."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from pentice.advice.options import changed_job
from pentice.advice.proposal import Proposal, glazing_cost, no_worse, verdict_changes
from pentice.catalogue.parts import parts_for
from pentice.design import Design
from pentice.errors import InputError, NoSolution, OutsideScope
from pentice.job.model import Job
from pentice.job.shape import roof_shape
from pentice.pieces.cut import cut_from_stock
from pentice.pieces.stage import pieces_of
from pentice.pipeline import solve
from pentice.setting_out.stage import set_out

PROJECTION_MM = 60
SAVES_SHARE = Decimal("0.01")
SAVES_LEAST = Decimal(10)
OFFERED = 3
TRIED = 12

Change = tuple[str, str, Mapping[str, Any]]


def moves(design: Design) -> tuple[Proposal, ...]:
    """The best three moves that save more than 1 % and 10 of sheets, bars and profiles with no verdict worse.

    Parameters
    ----------
    design
        The solved job.

    Returns
    -------
    tuple of Proposal
        Each solved as a whole job; none where the frame stands.
    """
    before = glazing_cost(design.cutting)
    needed = max(before * SAVES_SHARE, SAVES_LEAST)
    cheap = sorted(_cheaper(design, before - needed), key=lambda found: (found[0], found[1][0]))
    offered: list[Proposal] = []
    kinds: set[str] = set()
    for _, (kind, title, changes) in cheap[: TRIED * 4]:
        if kind in kinds:
            continue
        found = _whole(design, kind, title, changes, before)
        if found is not None and -found.cost_change > needed:
            offered.append(found)
            kinds.add(kind)
        if len(offered) == OFFERED:
            break
    return tuple(offered)


def _cheaper(design: Design, limit: Decimal) -> Iterator[tuple[Decimal, Change]]:
    """Changes whose stock alone costs less than the limit: sizes and cutting only, no checks yet."""
    for change in _changes(design):
        try:
            job = changed_job(design.job, dict(change[2]))
            cost = _stock_cost(job, design)
        except (InputError, OutsideScope, NoSolution):
            continue
        if cost < limit:
            yield cost, change


def _stock_cost(job: Job, design: Design) -> Decimal:
    parts, shape = parts_for(job, design.catalogue), roof_shape(job)
    sizes = set_out(job, shape, parts)
    pieces = tuple(
        p for p in pieces_of(job, shape, parts, sizes) if p.item.startswith(("sheets", "bars", "profiles"))
    )
    return glazing_cost(cut_from_stock(pieces, job, parts, design.catalogue, sizes))


def _whole(
    design: Design, kind: str, title: str, changes: Mapping[str, Any], before: Decimal
) -> Proposal | None:
    try:
        after = solve(changed_job(design.job, dict(changes)), design.catalogue, design.firm)
    except (InputError, OutsideScope, NoSolution):
        return None
    if not no_worse(design.checks, after.checks):
        return None
    change = glazing_cost(after.cutting) - before
    return Proposal(
        id=f"{kind}-{'-'.join(str(value) for value in changes.values())}",
        title=title,
        set=dict(changes),
        cost_change=change,
        verdicts_change=verdict_changes(design.checks, after.checks),
        summary=f"{title}: sheets, bars and profiles cost {-change:,.2f} less.",
    )


# What is tried


def _changes(design: Design) -> Iterator[Change]:
    job = design.job
    if (
        job.frame.rafter_centres_mm is not None
        or job.measured.rafter_centres_mm
        or job.measured.between_stems_mm
    ):
        return  # the frame stands: only the stock is free, and cutting has chosen among it already
    yield from _projections(job)
    yield from _overhangs(design)
    yield from _bays(job)
    yield from _end_bays(design)
    yield from _profiles(design)


def _projections(job: Job) -> Iterator[Change]:
    projection = job.roof.projection_mm
    if projection is None or job.measured.slope_lengths_mm:
        return
    for by in sorted(range(-PROJECTION_MM, PROJECTION_MM + 1), key=abs):
        if by:
            word = "less" if by < 0 else "more"
            changes: dict[str, Any] = {"roof.projection_mm": projection + by}
            if job.roof.pitch_deg is None:
                continue  # two heights make the pitch: moving the beam would change it
            yield "projection", f"Projection {projection + by:.0f}, {abs(by)} {word}", changes


def _overhangs(design: Design) -> Iterator[Change]:
    gutter = design.parts.gutter
    if gutter is None:
        return
    low, high = (share * gutter.width_mm / design.shape.cos_pitch for share in design.job.gutter.drip_window)
    for overhang in range(int(low) + 1, int(high) + 1):
        if overhang != design.shape.overhang_mm:
            yield (
                "overhang",
                f"Overhang {overhang} on the slope, still in the drip's window",
                {"roof.overhang_on_slope_mm": overhang},
            )


def _bays(job: Job) -> Iterator[Change]:
    count = job.frame.bay_count
    if count is None:
        return
    for other in (count - 1, count + 1):
        if other >= 1:
            yield "bays", f"{other} bays instead of {count}", {"frame.bay_count": other}


def _end_bays(design: Design) -> Iterator[Change]:
    """End bays that take a stock width as it comes, the bays between sharing the rest."""
    count = design.job.frame.bay_count
    if count is None or count < 3 or any(size is not None for size in design.job.frame.end_bay_mm):
        return
    bar, least_gap = design.parts.bar, 6.0
    for width in sorted({s.width_mm for s in design.parts.sheet.stock}):
        centres = width + bar.stem_mm + least_gap + 1.0
        yield (
            "end bays",
            f"End bays {centres:.0f} wide, so that they take a {width:.0f} sheet uncut",
            {"frame.end_bay_mm": [centres, centres]},
        )


def _profiles(design: Design) -> Iterator[Change]:
    head = design.parts.head_profile
    for other in design.catalogue.profiles.values():
        if other.use == "head" and other.inside_mm == head.inside_mm and other.arm_mm > head.arm_mm:
            yield (
                "profile",
                f"Head profile with an arm of {other.arm_mm:.0f}",
                {"glazing.head_profile": other.id},
            )
