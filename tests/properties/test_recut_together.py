"""Random damage of two jobs that are cut together: every piece that is missing is planned once, by checked plans."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from functools import cache
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from pentice.advice.recut import Recut, recut
from pentice.cutting.values import LengthPlan, SheetPlan
from pentice.pieces.names import job_of
from pentice.together import Shared, plan_together
from tests.jobs import solved_job
from tests.plan_checker import faults_of_plan
from tests.tries import tries


@cache
def _two() -> Shared:
    """Two roofs of one sheet and one bar; B may buy bars of 5000 only. Three sheets are shared."""
    return plan_together(
        (
            solved_job("potting-bay", "A", roof__projection_mm=2404),
            solved_job("potting-bay", "B", roof__projection_mm=1800, stock__only=[_ONLY]),
        )
    )


_ONLY = {"item": "bar-60-35", "length_mm": 5000}


def _faults(found: Recut) -> list[str]:
    """What the checker of the bench says of each stock that is cut: stock in hand has the size that its plan names."""
    faults: list[str] = []
    wanted = Counter(p.piece for p in _placed(found.plan.sheets)) + Counter(
        p.piece for n in found.plan.lengths for p in n.pieces
    )
    faults += [f"{id} is cut {times} times" for id, times in wanted.items() if times > 1]
    for sheet in found.plan.sheets:
        items = [{"w": p.width_mm, "h": p.length_mm, "d": 1} for p in sheet.placements]
        placed = [
            {
                "piece": f"{k}.0",
                "x_mm": p.x_mm,
                "y_mm": p.y_mm,
                "width_mm": p.width_mm,
                "length_mm": p.length_mm,
            }
            for k, p in enumerate(sheet.placements)
        ]
        stock: dict[str, Any] = {"w": sheet.width_mm, "h": sheet.length_mm, "cost": sheet.price, "qty": 1}
        used = {"stock": 0, "placements": placed}
        instance = {"kind": "2d", "kerf": sheet.kerf_mm, "items": items, "stock": [stock]}
        result = {"cost": sheet.price, "bound": 0, "proven": False, "plan": {"sheets": [used]}}
        faults += faults_of_plan(instance, result)
    for length in found.plan.lengths:
        lengths = [{"l": p.length_mm, "d": 1} for p in length.pieces]
        put = [
            {"piece": f"{k}.0", "at_mm": p.at_mm, "length_mm": p.length_mm}
            for k, p in enumerate(length.pieces)
        ]
        one = {"kind": "1d", "kerf": length.kerf_mm, "items": lengths}
        one |= {"stock": [{"l": length.length_mm, "cost": length.price, "qty": 1}]}
        plan = {"lengths": [{"stock": 0, "pieces": put}]}
        faults += faults_of_plan(one, {"cost": length.price, "bound": 0, "proven": False, "plan": plan})
    return faults


def _placed(sheets: Sequence[SheetPlan]) -> list[Any]:
    return [p for sheet in sheets for p in sheet.placements]


def _more_than_there_was(found: Recut) -> list[str]:
    """Stock sheets and lengths from which more would be taken than they hold: what is cut and good or spoiled, and what
    is planned from their parts and rests."""
    shared, faults = found.work, []
    free = {*found.in_hand, *found.spoiled}
    for n, sheet in enumerate(shared.cutting.sheets, 1):
        area = sum(p.width_mm * p.length_mm for p in sheet.placements if p.piece in free)
        for plan in found.plan.sheets:
            if plan.price == 0 and plan.stock.endswith(f"stock {n}") and not plan.stock.startswith("rest"):
                area += sum(p.width_mm * p.length_mm for p in plan.placements)
            elif plan.price == 0 and plan.stock.endswith(f"stock {n}"):
                area += plan.width_mm * plan.length_mm
        if area > sheet.width_mm * sheet.length_mm:
            faults.append(f"stock {n} gives more than it is")
    for n, length in enumerate(shared.cutting.lengths, 1):
        taken = sum(p.length_mm for p in length.pieces if p.piece in free)
        taken += sum(
            p.length_mm
            for plan in found.plan.lengths
            if plan.price == 0 and plan.stock.endswith(f"length {n}")
            for p in plan.pieces
        )
        if taken > length.length_mm:
            faults.append(f"length {n} gives more than it is")
    return faults


@tries(12)
@given(st.data())
def test_every_piece_of_every_job_is_cut_or_planned_once(data: st.DataObject) -> None:
    """Of two jobs: good pieces stay, all others stand on exactly one plan; no stock gives more than it is, each job
    buys only what it allows, and to have made fewer cuts never costs more."""
    shared = _two()
    assert sum(len({job_of(p.piece) for p in s.placements}) > 1 for s in shared.cutting.sheets) == 3
    sheets, lengths = shared.cutting.sheets, shared.cutting.lengths
    on_sheets, on_lengths = _ids(sheets), _ids(lengths)
    spoiled = data.draw(st.lists(st.sampled_from(on_sheets), min_size=1, max_size=3, unique=True))
    spoiled += data.draw(st.lists(st.sampled_from(on_lengths), max_size=3, unique=True))
    some = [n for n, s in enumerate(sheets, 1) if len(s.cuts) > 1]
    begun = data.draw(st.lists(st.sampled_from(some), max_size=2, unique=True))
    made = {n: data.draw(st.integers(2, len(sheets[n - 1].cuts))) for n in begun}
    found = recut(shared, spoiled, [f"{n}:{k}" for n, k in made.items()])
    planned = [*_ids(found.plan.sheets), *_ids(found.plan.lengths)]
    assert sorted([*planned, *found.in_hand]) == sorted([*on_sheets, *on_lengths])
    assert set(spoiled) <= set(planned)
    assert _faults(found) == []
    assert _more_than_there_was(found) == []
    assert sum(p.price for p in found.bought) == found.plan.cost >= found.plan.bound
    for plan in found.bought:
        if plan.item == "bars.bar-60-35" and any(job_of(id) == "B" for id in _ids([plan])):
            assert plan.length_mm == 5000
    if begun:
        fewer = recut(shared, spoiled, [f"{n}:{k - 1}" for n, k in made.items()])
        assert fewer.plan.cost <= found.plan.cost


def _ids(plans: Sequence[SheetPlan | LengthPlan]) -> list[str]:
    return [
        p.piece for plan in plans for p in (plan.placements if isinstance(plan, SheetPlan) else plan.pieces)
    ]
