"""Random jobs that share: never dearer than apart, every piece once, checked plans, an order that covers."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from functools import partial
from typing import Any

from hypothesis import assume, example, given
from hypothesis import strategies as st

from pentice.cutting.values import LengthPiece, LengthStock, SheetPiece, SheetStock
from pentice.design import Design
from pentice.errors import InputError, NoSolution
from pentice.pieces.names import job_of, labelled, own_name
from pentice.together import plan_together
from pentice.together.cutting import cut_lengths_done, cut_sheets_done
from pentice.together.lots import Ask, Wanted, best_choice, each_alone, groups_of, pieces_on
from tests.cutting_checker import faults_of_lengths, faults_of_sheets
from tests.jobs import faults_of_shared, length_plans, sheet_plans, solved_job
from tests.tries import tries

KERF = 4
BARS = tuple(
    LengthStock(id=f"bar {n}", item="bars.b", length_mm=n, price=price, count=None, offcut=False)
    for n, price in ((3000, 310), (5000, 480), (6000, 620))
)
RACK = tuple(
    LengthStock(id=f"R-{n}", item="bars.b", length_mm=n, price=0, count=1, offcut=True) for n in (900, 2200)
)
SHEETS = tuple(
    SheetStock(
        id=f"{w}x{n}",
        item="sheets.s opal",
        width_mm=w,
        length_mm=n,
        price=w * n // 1000,
        count=None,
        offcut=False,
        rib_pitch_mm=16.0,
        first_rib_mm=8.0,
    )
    for w, n in ((980, 3000), (1200, 3500), (2100, 6000))
)

LENGTHS = st.lists(st.integers(300, 2950), min_size=1, max_size=4)
SIZES = st.lists(st.tuples(st.integers(400, 950), st.integers(1500, 2900)), min_size=1, max_size=3)
NAMES = st.frozensets(st.sampled_from([o.id for o in RACK]))


@tries(30)
@given(st.lists(st.tuples(LENGTHS, st.integers(1, 3), NAMES), min_size=2, max_size=3))
def test_lengths_of_several_jobs(jobs: list[tuple[list[int], int, frozenset[str]]]) -> None:
    """Cost at most that of each alone, bound below it, each piece from stock that its job allows, offcuts once."""
    asks = tuple(
        Ask(
            reference=reference,
            pieces=tuple(
                LengthPiece(id=labelled(reference, f"P{k}"), item="bars.b", length_mm=n)
                for k, n in enumerate(lengths)
            ),
            stock=BARS[:sizes],
            names=names,
        )
        for reference, (lengths, sizes, names) in zip("ABC", jobs, strict=False)
    )
    wanted = Wanted(
        item="bars.b", kerf_mm=KERF, asks=asks, offcuts=RACK, cut=partial(cut_lengths_done, kerf_mm=KERF)
    )
    alone, found = each_alone(wanted, frozenset()), best_choice(wanted, frozenset())
    pieces = [piece for ask in asks for piece in ask.pieces]
    for choice in (alone, found):
        assert faults_of_lengths(length_plans(choice.done), pieces, [*BARS, *RACK], KERF) == []
    assert found.done.bound <= found.done.cost <= alone.done.cost
    allowed = {ask.reference: {s.id for s in (*ask.stock, *RACK)} for ask in asks}
    for plan in found.done.plans:
        assert all(plan.stock in allowed[job_of(id)] for id in pieces_on(plan))
    groups = groups_of(wanted.jobs, found.done.plans)
    assert Counter(job for group in groups for job in group) == Counter(wanted.jobs)


@tries(12)
@example(  # two pieces of a lower row touch in width where the row above ends: no saw fits between
    [
        [(889, 2534), (672, 2491), (475, 1532)],
        [(717, 1504), (950, 1500)],
        [(889, 2534), (672, 2491), (475, 1532)],
    ]
)
@given(st.lists(SIZES, min_size=2, max_size=3))
def test_sheets_of_several_jobs(jobs: list[list[tuple[int, int]]]) -> None:
    """Cost at most that of each alone, and the independent checker finds no fault in the joint plan."""
    asks = tuple(
        Ask(
            reference=reference,
            pieces=tuple(_sheet(labelled(reference, f"S{k}"), *size) for k, size in enumerate(sizes)),
            stock=SHEETS,
            names=frozenset(),
        )
        for reference, sizes in zip("ABC", jobs, strict=False)
    )
    wanted: Wanted[SheetPiece, SheetStock] = Wanted(
        item="sheets.s opal", kerf_mm=3, asks=asks, offcuts=(), cut=partial(cut_sheets_done, kerf_mm=3)
    )
    try:
        alone, found = each_alone(wanted, frozenset()), best_choice(wanted, frozenset())
    except NoSolution as refusal:
        assert str(refusal).endswith(".")
        return
    pieces = [piece for ask in asks for piece in ask.pieces]
    assert faults_of_sheets(sheet_plans(found.done), pieces, SHEETS, 3) == []
    assert found.done.bound <= found.done.cost <= alone.done.cost


def _sheet(id: str, width: int, length: int) -> SheetPiece:
    return SheetPiece(
        id=id,
        item="sheets.s opal",
        width_mm=width,
        length_mm=length,
        least_width_mm=width - 4,
        least_length_mm=length - 4,
        most_width_mm=width,
        most_length_mm=length,
        rib_at_most_mm=(math.inf, math.inf),
    )


ROOFS = st.fixed_dictionaries(
    {
        "name": st.sampled_from(["cycle-shelter", "potting-bay"]),
        "frame__bay_count": st.integers(1, 6),
        "bay_mm": st.integers(500, 1050),
        "roof__projection_mm": st.integers(1200, 3200),
        "stock__sheet_kerf_mm": st.sampled_from([3, 3, 4]),
        "stock__bar_kerf_mm": st.sampled_from([4, 4, 3]),
        "stock__longest_mm": st.sampled_from([None, None, 4000]),
        "marks": st.lists(st.sampled_from(["R-1", "R-2"]), max_size=2, unique=True),
    }
)
_RACKED = {"R-1": 2400, "R-2": 3300}


def _solved(reference: str, roof: dict[str, Any]) -> Design:
    keys = {key: value for key, value in roof.items() if key not in ("name", "bay_mm", "marks")}
    free: dict[str, list[float]] = {
        "frame__posts_at_mm": [],
        "gutter__outlets_at_mm": [],
        "roof__wall_offsets_mm": [],
    }
    offcuts = [
        {
            "item": "sheet-35-multi",
            "mark": mark,
            "width_mm": 980,
            "length_mm": _RACKED[mark],
            "first_rib_mm": 8,
        }
        for mark in roof["marks"]
    ]
    width = roof["bay_mm"] * roof["frame__bay_count"] + 70
    try:
        return solved_job(
            roof["name"], reference, roof__width_mm=width, stock__offcuts=offcuts, **free, **keys
        )
    except (InputError, NoSolution):
        assume(False)
        raise


@tries(10)
@given(st.lists(ROOFS, min_size=2, max_size=3))
def test_whole_jobs(roofs: Sequence[dict[str, Any]]) -> None:
    """Never dearer than apart; the checker passes every lot; the order buys the plan and covers need and spare."""
    designs = tuple(_solved(reference, roof) for reference, roof in zip("ABC", roofs, strict=False))
    shared = plan_together(designs)
    assert shared.saves >= 0
    assert shared.cutting.bound <= shared.cutting.cost <= shared.alone
    assert faults_of_shared(shared) == []
    cut = Counter(p.piece for plan in shared.cutting.sheets for p in plan.placements)
    cut += Counter(p.piece.partition("/")[0] for plan in shared.cutting.lengths for p in plan.pieces)
    wanted = {labelled(d.job.reference, piece.id) for d in designs for piece in d.pieces}
    assert set(cut) == wanted == {piece.id for piece in shared.pieces}
    _covers(shared.order, [line for d in designs for line in d.order])
    lines = [line for line in shared.order if line.item.partition(".")[0] in _CUT]
    stock = [line for line in lines if line.part != "spare lengths"]
    assert sum(line.price for line in stock) * 100 == shared.cutting.cost
    assert Counter(p for line in stock for p in line.pieces) == Counter(
        [id for plan in shared.cutting.sheets for id in pieces_on(plan)]
        + [id for plan in shared.cutting.lengths for id in pieces_on(plan)]
    )
    assert {job_of(p) for line in stock for p in line.pieces} == {d.job.reference for d in designs}
    assert all(own_name(p) for line in stock for p in line.pieces)


_CUT = ("sheets", "bars", "profiles", "timbers", "gutters")


def _covers(order: Sequence[Any], alone: Sequence[Any]) -> None:
    """What each job needs apart from stock adds up in the shared order; packs cover it and never exceed the sum."""
    needed: Counter[tuple[str, str]] = Counter()
    packs: Counter[tuple[str, str]] = Counter()
    for line in alone:
        if line.item.partition(".")[0] not in _CUT:
            needed[line.part, line.item] += line.quantity
            packs[line.part, line.item] += line.packs
    for line in order:
        assert line.packs * line.pack >= line.quantity + line.spare or not line.packs
        assert line.why
        if line.item.partition(".")[0] not in _CUT and line.quantity:
            key = (line.part, line.item)
            assert abs(line.quantity - needed.pop(key)) < 0.01
            assert line.packs <= packs[key]
    assert not any(needed.values())
