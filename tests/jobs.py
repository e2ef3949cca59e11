"""Jobs that share for tests: small changes of the examples, solved, and what the checker needs of their shared plan."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pentice.advice.complete import complete
from pentice.cutting.values import (
    LengthPlan,
    LengthPlans,
    LengthStock,
    SheetPlan,
    SheetPlans,
    SheetStock,
)
from pentice.design import Design
from pentice.job.model import Job
from pentice.pipeline import solve
from pentice.together import Lot, Shared
from pentice.together.cutting import length_lots, sheet_lots
from pentice.together.lots import Done
from pentice.together.offcuts import rack_of
from tests.cutting_checker import faults_of_lengths, faults_of_sheets
from tests.designs import catalogue, changed


def solved_job(name: str, reference: str, **changes: Any) -> Design:
    """An example under another reference, with other values; two underscores stand for the dot of a key path."""
    job: Job = changed(name, reference=reference, **changes)
    return solve(complete(job, catalogue()), catalogue())


def sheets_done(plans: Sequence[SheetPlan], *, cost: int, bound: int) -> SheetPlans:
    """Plans of sheets as the checker takes them."""
    return SheetPlans(
        sheets=tuple(plans),
        cost=cost,
        bound=bound,
        proven=cost == bound,
        waste_area_m2=0.0,
        offcuts=(),
    )


def lengths_done(plans: Sequence[LengthPlan], *, cost: int, bound: int) -> LengthPlans:
    """Plans of lengths as the checker takes them."""
    return LengthPlans(
        lengths=tuple(plans), cost=cost, bound=bound, proven=cost == bound, waste_mm=0, offcuts=()
    )


def sheet_plans(done: Done) -> SheetPlans:
    """What was cut from sheets, as the checker takes it."""
    plans = [plan for plan in done.plans if isinstance(plan, SheetPlan)]
    return sheets_done(plans, cost=done.cost, bound=done.bound)


def length_plans(done: Done) -> LengthPlans:
    """What was cut from lengths, as the checker takes it."""
    plans = [plan for plan in done.plans if isinstance(plan, LengthPlan)]
    return lengths_done(plans, cost=done.cost, bound=done.bound)


def faults_of_shared(shared: Shared) -> list[str]:
    """Everything that the independent checker finds wrong with a shared plan, lot by lot."""
    rack = rack_of(shared.designs)
    said: dict[tuple[str, int], Lot] = {(lot.item, lot.kerf_mm): lot for lot in shared.lots}
    faults: list[str] = []
    for sheets in sheet_lots(shared.designs, rack):
        lot = said[sheets.item, sheets.kerf_mm]
        stocks: list[SheetStock] = list(dict.fromkeys(s for ask in sheets.asks for s in ask.stock))
        cut = [p for p in shared.cutting.sheets if (p.item, p.kerf_mm) == (lot.item, lot.kerf_mm)]
        plans = sheets_done(cut, cost=lot.cost, bound=lot.bound)
        pieces = [piece for ask in sheets.asks for piece in ask.pieces]
        faults += faults_of_sheets(plans, pieces, [*stocks, *sheets.offcuts], lot.kerf_mm)
    for lengths in length_lots(shared.designs, rack):
        lot = said[lengths.item, lengths.kerf_mm]
        bars: list[LengthStock] = list(dict.fromkeys(s for ask in lengths.asks for s in ask.stock))
        sawn = [p for p in shared.cutting.lengths if (p.item, p.kerf_mm) == (lot.item, lot.kerf_mm)]
        long = lengths_done(sawn, cost=lot.cost, bound=lot.bound)
        runs = [piece for ask in lengths.asks for piece in ask.pieces]
        faults += faults_of_lengths(long, runs, [*bars, *lengths.offcuts], lot.kerf_mm)
    return faults
