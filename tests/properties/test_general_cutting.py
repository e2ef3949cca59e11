"""The general search on random jobs: valid by the independent checker, never under its bound, the same plan again."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.best import best_sheets
from pentice.cutting.best_lengths import best_lengths
from pentice.cutting.columns import Room, relaxed
from pentice.cutting.keep import Keep, kept_of
from pentice.cutting.packing import Board, Limits, Packing, Rectangle
from pentice.cutting.pricing import fill_one_by_one, fill_rows
from pentice.cutting.scales import least_cost
from pentice.cutting.slices import least_sheets
from tests.plan_checker import faults_of_plan
from tests.properties.test_sheet_bound import _with
from tests.tries import tries

_Sizes = list[tuple[int, int, int]]
_SIZES = st.lists(
    st.tuples(st.integers(3, 30), st.integers(3, 40), st.integers(1, 3)), min_size=1, max_size=6
)


def _plan_of(found: Packing, keep: Keep | None) -> dict[str, Any]:
    given: dict[int, int] = {}
    sheets = []
    for packed in found.boards:
        placements = []
        for p in packed.places:
            given[p.kind] = given.get(p.kind, -1) + 1
            placements.append(
                {
                    "piece": f"{p.kind}.{given[p.kind]}",
                    "x_mm": p.x,
                    "y_mm": p.y,
                    "width_mm": p.width,
                    "length_mm": p.height,
                }
            )
        kept = [
            {"x_mm": p.x, "y_mm": p.y, "width_mm": p.width, "length_mm": p.height}
            for p in (kept_of(packed, keep) if keep else ())
        ]
        sheets.append({"stock": packed.board, "placements": placements, "offcuts": kept})
    plan = {"cost": found.cost, "bound": found.bound, "proven": found.proven, "plan": {"sheets": sheets}}
    return {**plan, "stages": found.stages}


@tries(40)
@given(_SIZES, st.integers(0, 3), st.integers(0, 2), st.booleans(), st.sampled_from([None, 2, 3]))
def test_every_plan_of_sheets_can_be_cut_and_is_not_under_its_bound(
    sizes: _Sizes, kerf: int, trim: int, valued: bool, stages: int | None
) -> None:
    """Kerf, trims, an offcut in hand, what is left and stages, recomputed by the checker; twice the same."""
    keep = Keep(width=8, height=8, share=Fraction(1, 2)) if valued else None
    boards = [
        Board(width=35, height=45, cost=700, trim=trim),
        Board(width=60, height=50, cost=1300, trim=trim),
        Board(width=20, height=30, cost=0, count=1),
    ]
    instance = {
        "kind": "2d_guillotine_oriented",
        "kerf": kerf,
        "trim_edge": trim,
        "stock": [
            {"w": b.width, "h": b.height, "cost": b.cost, "qty": b.count, "offcut": b.count is not None}
            for b in boards
        ],
        "items": [{"w": w, "h": h, "d": d} for w, h, d in sizes],
        "offcut_rule": {"min_w": 8, "min_h": 8, "value_fraction": 0.5} if valued else None,
    }
    pieces = [Rectangle(width=w, height=h, count=d) for w, h, d in sizes]
    limits = Limits(rounds=30, stages=stages)
    found = best_sheets(pieces, boards, kerf=kerf, keep=keep, limits=limits)
    assert found is not None
    assert found.stages == stages
    assert faults_of_plan(instance, _plan_of(found, keep)) == []
    assert best_sheets(pieces, boards, kerf=kerf, keep=keep, limits=limits) == found


def _boxes(sizes: list[tuple[int, int]]) -> list[set[tuple[int, int]]]:
    """For each set of pieces (as bits), the sizes of rectangles from which straight cuts free it; no kerf."""
    boxes: list[set[tuple[int, int]]] = [set()]
    for bits in range(1, 1 << len(sizes)):
        found = {sizes[bits.bit_length() - 1]} if bits & (bits - 1) == 0 else set()
        one = (bits - 1) & bits
        while one:
            for w, h in boxes[one]:
                for v, g in boxes[bits ^ one]:
                    found |= {(w + v, max(h, g)), (max(w, v), h + g)}
            one = (one - 1) & bits
        boxes.append(found)
    return boxes


@tries(40)
@given(st.lists(st.tuples(st.integers(2, 10), st.integers(2, 10)), min_size=1, max_size=5), st.integers(0, 2))
def test_no_bound_is_above_what_trying_everything_finds(sizes: list[tuple[int, int]], in_hand: int) -> None:
    """Dual feasible functions with limited offcuts, and the linear program over slices, against brute force."""
    stocks = [(10, 10, 7, None), (14, 11, 11, None), (8, 9, 0, in_hand)]
    boxes = _boxes(sizes)
    every = (1 << len(sizes)) - 1
    costs = [0, *[10**9] * every]
    for w, h, price, number in stocks:
        sets = [bits for bits, fit in enumerate(boxes) if any(v <= w and g <= h for v, g in fit)]
        for _ in range(len(sizes) if number is None else number):
            costs = _with(costs, sets, price)
    assert least_cost(sizes, [1] * len(sizes), stocks) <= costs[every]
    alone = [0, *[10**9] * every]
    sets = [bits for bits, fit in enumerate(boxes) if any(v <= 10 and g <= 10 for v, g in fit)]
    for _ in sizes:
        alone = _with(alone, sets, 1)
    assert least_sheets(sizes, [1] * len(sizes), (10, 10), enough=99) <= alone[every]


@tries(40)
@given(st.lists(st.integers(2, 12), min_size=1, max_size=6), st.integers(0, 2))
def test_the_relaxation_of_lengths_is_a_bound(lengths: list[int], in_hand: int) -> None:
    """Against every way to put each length on a stock, a limited one among them; the plan meets the checker's sums."""
    rooms = [Room(length=12, cost=6), Room(length=17, cost=8), Room(length=9, cost=1, count=in_hand)]
    every = (1 << len(lengths)) - 1
    costs = [0, *[10**9] * every]
    totals = [sum(n for i, n in enumerate(lengths) if bits >> i & 1) for bits in range(every + 1)]
    for room in rooms:
        sets = [bits for bits in range(1, every + 1) if totals[bits] <= room.length]
        for _ in range(len(lengths) if room.count is None else room.count):
            costs = _with(costs, sets, room.cost)
    found = relaxed(lengths, [1] * len(lengths), rooms)
    assert found is not None
    assert found.bound <= costs[every]
    plan = best_lengths([(n, 1) for n in lengths], rooms, kerf=0, limits=Limits(rounds=40))
    assert plan is not None
    assert plan.bound <= costs[every] <= plan.cost
    assert all(sum(p.width for p in b.places) <= rooms[b.board].length for b in plan.boards)


@tries(60)
@given(
    st.lists(st.integers(2, 12), min_size=1, max_size=6),
    st.integers(0, 2),
    st.integers(0, 2),
    st.integers(0, 2),
    st.sampled_from([Fraction(0), Fraction(1, 2), Fraction(9, 10)]),
)
def test_lengths_with_valued_rests_and_offcuts_against_trying_everything(
    lengths: list[int], kerf: int, trim: int, in_hand: int, share: Fraction
) -> None:
    """Every way to put each length on a stock, net of its rest: no bound above, no plan below, the checker content."""
    keep = Keep(width=4, height=1, share=share)
    stock = [(14, 60, None), (20, 80, None), (9, 0, in_hand), (11, 7, in_hand)]
    rooms = [Room(length=n - 2 * trim * (c is None), cost=p, count=c, paid=n) for n, p, c in stock]
    every = (1 << len(lengths)) - 1
    costs = [0, *[10**9] * every]
    totals = [sum(n + kerf for i, n in enumerate(lengths) if bits >> i & 1) for bits in range(every + 1)]
    for room in rooms:
        for _ in range(len(lengths) if room.count is None else room.count):
            before = list(costs)
            for done in range(every + 1):
                for bits in range(1, every + 1):
                    rest = room.length - totals[bits]
                    if bits & done or rest < -kerf:
                        continue
                    worth = share * room.cost * Fraction(rest, room.paid or 1) if rest >= keep.width else 0
                    costs[done | bits] = min(costs[done | bits], before[done] + ceil(room.cost - worth))
    if costs[every] >= 10**9:
        return
    found = best_lengths([(n, 1) for n in lengths], rooms, kerf=kerf, keep=keep, limits=Limits(rounds=40))
    assert found is not None
    assert found.bound <= costs[every] <= found.cost
    assert found.cost == costs[every]
    given: dict[int, int] = {}
    bars = []
    for packed in found.boards:
        off = trim if rooms[packed.board].count is None else 0
        pieces = []
        for p in packed.places:
            given[p.kind] = given.get(p.kind, -1) + 1
            name = f"{p.kind}.{given[p.kind]}"
            pieces.append({"piece": name, "at_mm": p.x + off, "length_mm": p.width})
        kept = [{"at_mm": p.x + off, "length_mm": p.width} for p in kept_of(packed, keep)]
        bars.append({"stock": packed.board, "pieces": pieces, "offcuts": kept})
    instance = {
        "kind": "1d",
        "kerf": kerf,
        "end_trim": trim,
        "stock": [{"l": n, "cost": p, "qty": c, "offcut": c is not None} for n, p, c in stock],
        "items": [{"l": n, "d": 1} for n in lengths],
        "offcut_rule": {"min_l": 4, "value_fraction": str(share)},
    }
    result = {"cost": found.cost, "bound": found.bound, "proven": found.proven, "plan": {"lengths": bars}}
    assert faults_of_plan(instance, result) == []


@tries(40)
@given(
    st.lists(st.tuples(st.integers(1, 9), st.integers(0, 50)), min_size=1, max_size=7),
    st.lists(st.integers(0, 30), min_size=14, max_size=30),
)
def test_both_ways_to_price_give_the_same(lots: list[tuple[int, int]], steps: list[int]) -> None:
    """Row by row without a compiler, number by number with one: the same tables, so the same plans."""
    against = np.cumsum(np.array(steps, dtype=np.int64))
    longs, worths = (np.array(one, dtype=np.int64) for one in zip(*lots, strict=True))
    tables = []
    for fill in (fill_rows, fill_one_by_one):
        best = np.zeros(len(against), dtype=np.int64)
        last = np.full((len(lots) + 1, len(against)), -1, dtype=np.int16)
        ends = np.zeros((len(lots), 2), dtype=np.int64)
        fill(longs, worths, against, best, last, ends)
        tables.append([best.tolist(), last.tolist(), ends.tolist()])
    assert tables[0] == tables[1]
