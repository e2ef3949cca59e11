"""What a shop aims at and what it keeps, counted by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.proof import proof_words
from pentice.cutting.shop import Shop
from pentice.cutting.values import CutPlan, LengthPiece, LengthStock, SheetStock, cut_plan
from tests.cutting_checker import faults_of_lengths, faults_of_sheets, stages
from tests.unit.cutting.fixed import fixed_piece

KERF = 4
HALF = Shop(keep_share=Fraction(1, 2))


def _bar(length: int, price: int, *, worth: int | None = None) -> LengthStock:
    return LengthStock(
        id=f"{length}" if worth is None else f"rack {length}",
        item="bar",
        length_mm=length,
        price=price,
        count=None if worth is None else 1,
        offcut=worth is not None,
        worth=worth or 0,
    )


def _bars(*lengths: int) -> list[LengthPiece]:
    return [LengthPiece(id=f"R{k}", item="bar", length_mm=n) for k, n in enumerate(lengths)]


def _sheet(width: int, length: int, price: int) -> SheetStock:
    return SheetStock(
        id=f"{width}x{length}",
        item="sheet",
        width_mm=width,
        length_mm=length,
        price=price,
        count=None,
        offcut=False,
        rib_pitch_mm=20.0,
        first_rib_mm=math.nan,
    )


def test_fewest_buys_two_long_bars_where_four_short_ones_are_cheaper() -> None:
    """Four of 2900: four of 3000 at 15 cost 60; two of 6000 at 40 cost 80 and are the fewest there can be."""
    stocks, pieces = [_bar(3000, 1500), _bar(6000, 4000)], _bars(*[2900] * 4)
    cheap = cut_lengths(pieces, stocks, kerf_mm=KERF)
    few = cut_lengths(pieces, stocks, kerf_mm=KERF, shop=Shop(aim="fewest sheets"))
    assert (cheap.cost, len(cheap.lengths), cheap.proven) == (6000, 4, True)
    assert (few.cost, len(few.lengths), few.bound, few.proven) == (8000, 2, 8000, True)


def test_fewest_counts_what_is_bought_and_not_what_is_in_hand() -> None:
    """Two of 2900 and two offcuts of 3000: nothing is bought, though one bar of 6000 would be one piece less."""
    rack = [replace(_bar(3000, 0, worth=0), id=f"rack {k}") for k in (1, 2)]
    few = cut_lengths(
        _bars(2900, 2900), [_bar(6000, 4000), *rack], kerf_mm=KERF, shop=Shop(aim="fewest sheets")
    )
    assert (few.cost, sorted(p.stock for p in few.lengths), few.proven) == (0, ["rack 1", "rack 2"], True)


def test_a_rest_that_counts_half_its_price_does_not_pay_for_a_longer_bar() -> None:
    """One of 3000. From 5000 at 50.00 a rest of 1996 counts 9.98, so 40.02; from 6000 at 54.00 one of 2996 counts
    13.48, so 40.52. At nine tenths: 50 - 17.96 = 32.04, and 54 - 24.26 = 29.74: the longer one."""
    stocks, pieces = [_bar(5000, 5000), _bar(6000, 5400)], _bars(3000)
    half = cut_lengths(pieces, stocks, kerf_mm=KERF, shop=HALF)
    assert (half.cost, half.credit, half.bound, half.proven) == (5000, 998, 4002, True)
    most = cut_lengths(pieces, stocks, kerf_mm=KERF, shop=Shop(keep_share=Fraction(9, 10)))
    assert (most.cost, most.credit, most.bound, most.proven) == (5400, 2426, 2974, True)
    assert [o.length_mm for o in most.offcuts] == [2996]


def test_a_rest_shorter_than_the_rule_counts_for_nothing() -> None:
    """A rest of 1996 where 2000 is the least: neither kept nor counted."""
    shop = replace(HALF, keep_length_mm=2000)
    found = cut_lengths(_bars(3000), [_bar(5000, 5000)], kerf_mm=KERF, shop=shop)
    assert (found.credit, found.offcuts, found.waste_mm) == (0, (), 2000)


def test_many_lengths_with_rests_lie_between_their_material_and_a_plan_by_hand() -> None:
    """Forty lengths of 1700 to 1817, too many patterns to list: 70,340 mm bare. Three in each of fourteen bars of 6000
    and all rests kept at nine tenths: 0.1 x 84,000 + 0.9 x (70,340 + 40 kerfs of 4) = 71,850, and rounding up."""
    pieces, stocks = _bars(*[1700 + 3 * k for k in range(40)]), [_bar(6000, 6000)]
    most = Shop(keep_share=Fraction(9, 10), keep_length_mm=1)
    found = cut_lengths(pieces, stocks, kerf_mm=KERF, shop=most)
    assert faults_of_lengths(found, pieces, stocks, KERF, most) == []
    assert 70340 <= found.bound <= found.cost - found.credit <= 71850 + 14


def test_an_offcut_is_used_where_new_stock_costs_more_than_it_is_worth() -> None:
    """One of 2900: an offcut worth 20.00 stays on the rack beside a new bar at 15.00; one worth 10.00 is used, nothing
    is bought, and the plan comes to those 10.00."""
    new, pieces = _bar(3000, 1500), _bars(2900)
    kept = cut_lengths(pieces, [new, _bar(3000, 0, worth=2000)], kerf_mm=KERF)
    used = cut_lengths(pieces, [new, _bar(3000, 0, worth=1000)], kerf_mm=KERF)
    assert (kept.cost, kept.credit, [p.stock for p in kept.lengths]) == (1500, 0, ["3000"])
    assert (used.cost, used.credit, used.bound, used.proven) == (0, -1000, 1000, True)
    assert [p.price for p in used.lengths] == [0]


def test_a_sheet_is_ripped_first_where_that_leaves_more_to_keep() -> None:
    """600 by 2000 from 1000 by 2200 at 44.00, kerf 3: cut across first the rest beside is 397 by 2000 and what is below
    is too short to keep; ripped first it is 397 by 2200, and counts 0.5 x 44.00 x 0.397 = 8.73."""
    found = cut_sheets([fixed_piece("A", 600, 2000)], [_sheet(1000, 2200, 4400)], kerf_mm=3, shop=HALF)
    assert [(o.width_mm, o.length_mm) for o in found.offcuts] == [(397, 2200)]
    assert (found.cost, found.credit, found.bound, found.proven) == (4400, 873, 3527, True)
    plain = cut_sheets([fixed_piece("A", 600, 2000)], [_sheet(1000, 2200, 4400)], kerf_mm=3)
    assert [(o.width_mm, o.length_mm) for o in plain.offcuts] == [(397, 2000)]


def test_a_larger_sheet_is_bought_where_its_rest_counts_for_more_than_it_costs() -> None:
    """600 by 2000: from 700 by 2000 at 30.00 nothing is kept; from 1000 by 2000 at 36.00 a rest of 397 by 2000 counts,
    at half, 7.14 (rounded down): 28.86."""
    stocks = [_sheet(700, 2000, 3000), _sheet(1000, 2000, 3600)]
    found = cut_sheets([fixed_piece("A", 600, 2000)], stocks, kerf_mm=3, any_cuts=True, shop=HALF)
    assert (found.cost, found.credit, found.bound, found.proven) == (3600, 714, 2886, True)


def test_a_saw_bench_changes_direction_twice_at_most() -> None:
    """Columns of 550 (one of 550 by 1050 over one of 530 by 910) and 440 beside them are ripped, cut across and trimmed
    along: three stages on one sheet, and 580 by 1100 on another. Cut across at the foot first it would be four."""
    pieces = [fixed_piece(f"P{w}", w, n) for w, n in ((550, 1050), (440, 1100), (580, 1100), (530, 910))]
    shop, stocks = Shop(stages=3), [_sheet(1000, 2000, 4000)]
    found = cut_sheets(pieces, stocks, kerf_mm=3, any_cuts=True, shop=shop)
    assert faults_of_sheets(found, pieces, stocks, 3, shop) == []
    assert (found.cost, found.proven, max(stages(p, 3) for p in found.sheets)) == (8000, True, 3)


def _money(amount: int) -> str:
    return f"{amount / 100:.2f}"


def _plan(shop: Shop, pieces: list[LengthPiece], stocks: list[LengthStock]) -> CutPlan:
    lengths = cut_lengths(pieces, stocks, kerf_mm=KERF, shop=shop)
    assert faults_of_lengths(lengths, pieces, stocks, KERF, shop) == []
    return cut_plan(cut_sheets([], [], kerf_mm=3, shop=shop), lengths, shop.aim)


def test_a_plan_says_what_it_aims_at() -> None:
    """Least cost alone says what it always did; the others say their aim, what rests count for, and what is proven."""
    stocks = [_bar(5000, 5000), _bar(6000, 5400)]
    few = Shop(aim="fewest sheets")
    assert proof_words(_plan(Shop(), _bars(3000), stocks), Shop(), _money) == (
        "Aim: least cost, then few sheets and few cuts. No plan from this stock costs less (proven)."
    )
    assert proof_words(_plan(few, _bars(3000), stocks), few, _money) == (
        "Aim: fewest sheets and lengths bought, then least cost. No plan from this stock buys fewer, or as many for "
        "less (proven)."
    )
    assert proof_words(_plan(HALF, _bars(3000), stocks), HALF, _money) == (
        "Aim: least cost, rests kept counted at 50% of their price: 50.00 less 9.98 of rests is 40.02. No plan from "
        "this stock comes to less (proven)."
    )
    racked = _plan(Shop(), _bars(2900), [_bar(3000, 1500), _bar(3000, 0, worth=1000)])
    assert proof_words(racked, Shop(), _money) == (
        "Aim: least cost, rests kept counted: 0.00 and 10.00 of offcuts used is 10.00. No plan from this stock comes "
        "to less (proven)."
    )


def test_rests_never_make_a_plan_worse_than_the_one_without_them() -> None:
    """At one price for every sheet all four come out of the largest; the way that would keep more of it breaks the rule
    of the bench, so the other one is taken, not two sheets."""
    sizes = ((328, 932), (771, 1883), (264, 1679), (992, 565))
    pieces = [replace(fixed_piece(f"S{w}", w, n), rib_at_most_mm=(13.0, 13.0)) for w, n in sizes]
    stocks = [
        replace(_sheet(w, n, 100), rib_pitch_mm=16.0, first_rib_mm=8.0)
        for w, n in ((700, 2000), (1000, 2500), (1250, 4000))
    ]
    bench = Shop(stages=3)
    keeps = replace(bench, keep_sheet_mm=(100, 100), keep_share=Fraction(1, 3))
    plain, found = (
        cut_sheets(pieces, stocks, kerf_mm=3, any_cuts=True, shop=shop) for shop in (bench, keeps)
    )
    assert found.cost - found.credit <= plain.cost == 100
    assert faults_of_sheets(found, pieces, stocks, 3, keeps) == []
