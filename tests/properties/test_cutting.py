"""Cutting of random small jobs: always valid, never below its bound, and equal to brute force where proven."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import floor, inf, nan

from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.shop import Shop
from pentice.cutting.values import LengthPiece, LengthStock, SheetPiece, SheetStock
from pentice.errors import NoSolution
from tests.cutting_checker import faults_of_lengths, faults_of_sheets
from tests.tries import tries

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


@tries(25)
@given(st.lists(st.integers(300, 2900), min_size=1, max_size=4))
def test_small_jobs_of_lengths_equal_brute_force(lengths: list[int]) -> None:
    """Proven plans cost what trying everything costs."""
    pieces = [LengthPiece(id=f"P{i}", item="bar", length_mm=n) for i, n in enumerate(lengths)]
    plans = cut_lengths(pieces, _STOCKS, kerf_mm=KERF)
    assert faults_of_lengths(plans, pieces, _STOCKS, KERF) == []
    assert plans.proven
    assert plans.cost == _brute(lengths)


@tries(10)
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


@tries(15)
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


_WANTED = st.lists(st.tuples(st.integers(250, 1000), st.integers(400, 1900)), min_size=1, max_size=6)
_SHOPS = st.builds(
    Shop,
    aim=st.sampled_from(["least cost", "fewest sheets"]),
    keep_sheet_mm=st.tuples(st.integers(100, 500), st.integers(100, 800)),
    keep_length_mm=st.integers(100, 900),
    keep_share=st.sampled_from([Fraction(0), Fraction(1, 3), Fraction(1, 2), Fraction(9, 10)]),
    stages=st.sampled_from([None, 3]),
)


def _wanted(sizes: list[tuple[int, int]], rib: float, reserve: tuple[int, int]) -> list[SheetPiece]:
    return [
        SheetPiece(
            id=f"S{i}",
            item="sheet",
            width_mm=w,
            length_mm=n,
            least_width_mm=w - 4,
            most_width_mm=w,
            least_length_mm=n - 3,
            most_length_mm=n,
            rib_at_most_mm=(rib, rib),
            reserve_mm=reserve,
        )
        for i, (w, n) in enumerate(sizes)
    ]


def _offered(prices: list[int], worth: int) -> list[SheetStock]:
    sizes = ((700, 2000), (1000, 2500), (1250, 4000))
    new = [
        SheetStock(
            id=f"{w}x{n}",
            item="sheet",
            width_mm=w,
            length_mm=n,
            price=price,
            count=None,
            offcut=False,
            rib_pitch_mm=16.0,
            first_rib_mm=8.0,
        )
        for (w, n), price in zip(sizes, prices, strict=True)
    ]
    return [*new, replace(new[0], id="rack", price=0, worth=worth, count=1, offcut=True)]


@tries(12)
@given(
    _WANTED,
    st.sampled_from([13.0, inf]),
    st.sampled_from([(0, 0), (5, 15)]),
    st.tuples(st.integers(100, 4000), st.integers(100, 6000), st.integers(100, 9000)),
    st.integers(0, 3000),
    _SHOPS,
)
def test_whatever_a_shop_aims_at_and_keeps_its_plan_is_sound(
    sizes: list[tuple[int, int]],
    rib: float,
    reserve: tuple[int, int],
    prices: tuple[int, int, int],
    worth: int,
    shop: Shop,
) -> None:
    """Pieces as wanted, cuts that can be followed, cost, credit and bound as counted anew; by the aim no worse than the
    plan of the usual shop, which takes no more money than that of another aim where it is proven."""
    pieces, stocks = _wanted(sizes, rib, reserve), _offered(list(prices), worth)
    try:
        found = cut_sheets(pieces, stocks, kerf_mm=3, any_cuts=True, shop=shop)
        plain = replace(shop, keep_share=Fraction(0), aim="least cost")
        usual = cut_sheets(pieces, stocks, kerf_mm=3, any_cuts=True, shop=plain)
    except NoSolution as refusal:
        assert str(refusal).endswith(".")
        return
    assert faults_of_sheets(found, pieces, stocks, 3, shop) == []
    bought, usually = (sum(1 for p in plans.sheets if p.price) for plans in (found, usual))
    if shop.aim == "least cost":
        assert found.cost - found.credit <= usual.cost - usual.credit
    elif found.proven:
        assert bought <= usually
    if usual.proven:
        racked = [sum(worth for p in plans.sheets if p.stock == "rack") for plans in (found, usual)]
        assert found.cost + racked[0] >= usual.cost + racked[1]


@tries(25)
@given(
    st.lists(st.integers(300, 2900), min_size=1, max_size=5),
    st.tuples(st.integers(1, 900), st.integers(1, 900)),
    st.integers(0, 600),
    _SHOPS,
)
def test_lengths_of_any_shop_cost_what_trying_everything_costs(
    lengths: list[int], prices: tuple[int, int], worth: int, shop: Shop
) -> None:
    """Every way to put each piece on a stock of its own or on one in use, counted by the rules of the shop."""
    stocks = [
        replace(_STOCKS[0], price=prices[0]),
        replace(_STOCKS[1], price=prices[1]),
        replace(_STOCKS[2], worth=worth),
    ]
    pieces = [LengthPiece(id=f"P{i}", item="bar", length_mm=n) for i, n in enumerate(lengths)]
    found = cut_lengths(pieces, stocks, kerf_mm=KERF, shop=shop)
    assert faults_of_lengths(found, pieces, stocks, KERF, shop) == []
    assert found.proven
    bought = sum(1 for p in found.lengths if p.price) if shop.aim == "fewest sheets" else 0
    assert (bought, found.cost - found.credit) == _least_by_trying(lengths, stocks, shop)


def _least_by_trying(lengths: list[int], stocks: list[LengthStock], shop: Shop) -> tuple[int, int]:
    """Number bought (0 where that is not the aim) and net cost of the best plan."""

    def of_one(kind: int, used: int) -> tuple[int, int]:
        stock = stocks[kind]
        left = stock.length_mm - used - KERF
        whole = stock.worth if stock.offcut else stock.price
        kept = left if left >= shop.keep_length_mm and shop.aim == "least cost" else 0
        few = int(shop.aim == "fewest sheets" and not stock.offcut)
        return few, whole - floor(shop.keep_share * whole * Fraction(kept, stock.length_mm))

    def best(i: int, bars: tuple[tuple[int, int], ...]) -> tuple[int, int]:
        if i == len(lengths):
            counted = [of_one(kind, used) for kind, used in bars]
            return sum(c[0] for c in counted), sum(c[1] for c in counted)
        found = [(10**9, 10**9)]
        for k, (kind, used) in enumerate(bars):
            if used + KERF + lengths[i] <= stocks[kind].length_mm:
                found.append(best(i + 1, (*bars[:k], (kind, used + KERF + lengths[i]), *bars[k + 1 :])))
        for kind, stock in enumerate(stocks):
            if lengths[i] <= stock.length_mm and not (stock.offcut and any(b[0] == kind for b in bars)):
                found.append(best(i + 1, (*bars, (kind, lengths[i]))))
        return min(found)

    return best(0, ())
