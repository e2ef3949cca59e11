"""Cutting of random small jobs: always valid, never below its bound, and equal to brute force where proven."""

from __future__ import annotations

from itertools import product
from math import inf, nan

from hypothesis import given, settings
from hypothesis import strategies as st

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.values import LengthPiece, LengthStock, SheetPiece, SheetStock
from pentice.errors import NoSolution
from tests.cutting_checker import faults_of_lengths, faults_of_sheets

KERF = 4
_STOCKS = [
    LengthStock(id="3000", item="bar", length_mm=3000, price=310, count=None, offcut=False),
    LengthStock(id="5000", item="bar", length_mm=5000, price=480, count=None, offcut=False),
    LengthStock(id="rack", item="bar", length_mm=2200, price=0, count=1, offcut=True),
]


def _brute(lengths: list[int]) -> int:
    """Least cost of cutting lengths: every way to put each piece on one of as many stock pieces as there are pieces."""
    best = 10**9
    slots = [(0, i) for i in range(len(lengths))] + [(1, i) for i in range(len(lengths))] + [(2, 0)]
    for choice in product(range(len(slots)), repeat=len(lengths)):
        used: dict[int, int] = {}
        for piece, slot in zip(lengths, choice, strict=True):
            used[slot] = used.get(slot, -KERF) + piece + KERF
        if all(total <= _STOCKS[slots[s][0]].length_mm for s, total in used.items()):
            best = min(best, sum(_STOCKS[slots[s][0]].price for s in used))
    return best


@settings(max_examples=25)
@given(st.lists(st.integers(300, 2900), min_size=1, max_size=4))
def test_small_jobs_of_lengths_equal_brute_force(lengths: list[int]) -> None:
    """Proven plans cost what trying everything costs."""
    pieces = [LengthPiece(id=f"P{i}", item="bar", length_mm=n) for i, n in enumerate(lengths)]
    plans = cut_lengths(pieces, _STOCKS, kerf_mm=KERF)
    assert faults_of_lengths(plans, pieces, _STOCKS, KERF) == []
    assert plans.proven
    assert plans.cost == _brute(lengths)


@settings(max_examples=20)
@given(
    st.lists(
        st.tuples(st.integers(200, 1100), st.integers(500, 3200), st.sampled_from([9.0, 14.0, float("inf")])),
        min_size=1,
        max_size=8,
    ),
    st.integers(0, 5),
)
def test_random_sheets_are_cut_validly_or_refused(sizes: list[tuple[int, int, float]], kerf: int) -> None:
    """Whatever is asked for: a valid plan, the same one twice, or one sentence."""
    pieces = [
        SheetPiece(
            id=f"S{i}",
            item="sheet",
            width_mm=w,
            length_mm=n,
            least_width_mm=w - 5,
            most_width_mm=w,
            least_length_mm=n,
            most_length_mm=n,
            rib_at_most_mm=(rib, rib),
        )
        for i, (w, n, rib) in enumerate(sizes)
    ]
    stocks = [
        SheetStock(
            id=f"{w}x{n}",
            item="sheet",
            width_mm=w,
            length_mm=n,
            price=w * n // 1000,
            count=None,
            offcut=False,
            rib_pitch_mm=16.0,
            first_rib_mm=8.0,
        )
        for w, n in ((980, 2000), (1050, 3000), (2100, 3500))
    ]
    try:
        plans = cut_sheets(pieces, stocks, kerf_mm=kerf)
    except NoSolution as refusal:
        assert str(refusal).endswith(".")
        return
    assert faults_of_sheets(plans, pieces, stocks, kerf) == []
    assert cut_sheets(pieces, stocks, kerf_mm=kerf) == plans
    free = cut_sheets(pieces, stocks, kerf_mm=kerf, any_cuts=True)
    assert faults_of_sheets(free, pieces, stocks, kerf) == []
    assert plans.bound == free.bound <= free.cost <= plans.cost


@settings(max_examples=15)
@given(
    st.lists(st.tuples(st.integers(500, 506), st.integers(700, 706)), min_size=2, max_size=5),
    st.integers(2, 5),
    st.booleans(),
)
def test_sizes_that_differ_by_less_than_a_saw_takes_off_are_planned(
    sizes: list[tuple[int, int]], kerf: int, any_cuts: bool
) -> None:
    """Each fits a sheet by itself and there are sheets enough: never refused, cut as wanted, sound."""
    pieces = [
        SheetPiece(
            id=f"S{i}",
            item="sheet",
            width_mm=w,
            length_mm=n,
            least_width_mm=w,
            most_width_mm=w,
            least_length_mm=n,
            most_length_mm=n,
            rib_at_most_mm=(inf, inf),
        )
        for i, (w, n) in enumerate(sizes)
    ]
    stock = SheetStock(
        id="2100x3000",
        item="sheet",
        width_mm=2100,
        length_mm=3000,
        price=100,
        count=None,
        offcut=False,
        rib_pitch_mm=16.0,
        first_rib_mm=nan,
    )
    plans = cut_sheets(pieces, [stock], kerf_mm=kerf, any_cuts=any_cuts)
    assert faults_of_sheets(plans, pieces, [stock], kerf) == []
