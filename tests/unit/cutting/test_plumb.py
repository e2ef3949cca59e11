"""Lengths whose ends lean alike share their cuts: what fits, what is left, and that no piece touches another."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import cut_lengths
from pentice.cutting.mitred import cut_mitred
from pentice.cutting.mitres import MitredPiece
from pentice.cutting.recut import CutSoFar, begun_lengths, recut_lengths
from pentice.cutting.shop import Shop
from pentice.cutting.values import LengthPiece, LengthPlan, LengthStock, Slant
from pentice.errors import NoSolution
from tests.tries import tries

KERF = 4
PLUMB = Slant(deg=12.0, depth_mm=145)
LONG = LengthStock(id="r 4800", item="r", length_mm=4800, price=3000, count=None, offcut=False)


def _rafters(*lengths: int, slant: Slant | None = PLUMB) -> list[LengthPiece]:
    letter = "R" if slant is not None else "Q"
    return [
        LengthPiece(id=f"{letter}{i}", item="r", length_mm=n, slant=slant) for i, n in enumerate(lengths, 1)
    ]


def _ids(plan: LengthPlan) -> list[str]:
    return [p.piece for p in plan.pieces]


def test_what_is_left_of_a_length_is_square() -> None:
    """By hand: 2380 along the back; its lower end lies 145 tan 12 = 30.8 further, the cut takes 4 / cos 12 = 4.1, both
    rounded up: 4800 - 2380 - 31 - 5 = 2384 is left with square ends, at a quarter of 3000 per 4800 it counts 372."""
    shop = Shop(keep_share=Fraction(1, 4))
    found = cut_lengths(_rafters(2380), [LONG], kerf_mm=KERF, shop=shop)
    (placed,) = found.lengths[0].pieces
    assert (placed.at_mm, placed.length_mm, placed.lean_mm, placed.end_deg) == (0, 2380, 31, 12.0)
    assert [o.length_mm for o in found.offcuts] == [2384]
    assert (found.credit, found.proven) == (3000 * 2384 // (4 * 4800), True)


def test_an_offcut_in_hand_is_used_with_leaning_ends() -> None:
    """By hand: 2420 on the rack holds 2380 and its lean of 31 with 9 over; 2410 does not."""
    for held, cost in ((2420, 0), (2410, 3000)):
        rack = LengthStock(id="rack", item="r", length_mm=held, price=0, count=1, offcut=True)
        found = cut_lengths(_rafters(2380), [LONG, rack], kerf_mm=KERF)
        assert (found.cost, found.proven) == (cost, True)


def test_the_cheapest_of_several_lengths_holds_the_rafters() -> None:
    """By hand: three of 1500 need 4500 + 2 x 5 + 31 = 4541: one of 4550 for 2800 holds them, one of 4540 does not."""
    short = LengthStock(id="r 4550", item="r", length_mm=4550, price=2800, count=None, offcut=False)
    found = cut_lengths(_rafters(1500, 1500, 1500), [LONG, short], kerf_mm=KERF)
    assert (found.cost, found.proven, [n.stock for n in found.lengths]) == (2800, True, ["r 4550"])
    shorter = LengthStock(id="r 4540", item="r", length_mm=4540, price=2800, count=None, offcut=False)
    assert cut_lengths(_rafters(1500, 1500, 1500), [LONG, shorter], kerf_mm=KERF).cost == 3000


def test_square_pieces_of_the_same_timber_come_before_the_leaning_ones() -> None:
    """By hand: a square 2383, the leaning cut of 5 and 2380 with its lean of 31 are 4799; 2385 is two too long. So a
    length loses one lean, however many pieces of both kinds it holds."""
    found = cut_lengths([*_rafters(2380), *_rafters(2383, slant=None)], [LONG], kerf_mm=KERF)
    (plan,) = found.lengths
    assert [(p.piece, p.at_mm, p.lean_mm) for p in plan.pieces] == [("Q1", 0, 0), ("R1", 2388, 31)]
    assert (found.cost, found.bound, found.proven) == (3000, 3000, True)
    apart = cut_lengths([*_rafters(2380), *_rafters(2385, slant=None)], [LONG], kerf_mm=KERF)
    assert sorted(_ids(n) for n in apart.lengths) == [["Q1"], ["R1"]]
    assert apart.bound <= apart.cost == 6000


def test_two_pitches_of_one_timber_lie_in_the_order_of_their_leans() -> None:
    """Two roofs cut together, by hand: 2000 at 12 deg, a cut of 4 / cos 20 = 4.3, and 2000 at 20 deg, which leans
    145 tan 20 = 52.8: 2000 + 5 + 2000 + 53 = 4058. At 12 deg again 744 more would need 4058 + 5 + 744 = 4807."""
    steep = LengthPiece(id="T1", item="r", length_mm=2000, slant=Slant(deg=20.0, depth_mm=145))
    found = cut_lengths([*_rafters(2000), steep], [LONG], kerf_mm=KERF)
    (plan,) = found.lengths
    assert [(p.piece, p.at_mm, p.lean_mm) for p in plan.pieces] == [("R1", 0, 31), ("T1", 2005, 53)]
    assert (found.cost, found.proven) == (3000, True)
    assert len(cut_lengths([*_rafters(2000, 744), steep], [LONG], kerf_mm=KERF).lengths) == 2
    three = cut_lengths([*_rafters(2000), *_rafters(700, slant=None), steep], [LONG], kerf_mm=KERF)
    assert [_ids(n) for n in three.lengths] == [["Q1", "R1", "T1"]]


def test_what_is_kept_of_mixed_lengths_counts_as_it_really_is() -> None:
    """Square pieces alone on a length lose no lean: what is kept of it counts in full, and credit is of the rests."""
    shop = Shop(keep_share=Fraction(1, 2))
    found = cut_lengths([*_rafters(4000), *_rafters(3000, slant=None)], [LONG], kerf_mm=KERF, shop=shop)
    rests = sorted(o.length_mm for o in found.offcuts)
    assert rests == [4800 - 4000 - 31 - 5, 4800 - 3000 - 4]
    assert found.credit == sum(3000 * n // (2 * 4800) for n in rests)
    assert found.bound <= found.cost - found.credit


def test_fewest_lengths_is_aimed_at_with_leaning_ends_too() -> None:
    """By hand: two of 2380 on one 4800 for 30.00, or on two of 2420 for 13.00 each."""
    half = LengthStock(id="r 2420", item="r", length_mm=2420, price=1300, count=None, offcut=False)
    cheap = cut_lengths(_rafters(2380, 2380), [LONG, half], kerf_mm=KERF)
    few = cut_lengths(_rafters(2380, 2380), [LONG, half], kerf_mm=KERF, shop=Shop(aim="fewest sheets"))
    assert (cheap.cost, len(cheap.lengths)) == (2600, 2)
    assert (few.cost, len(few.lengths), few.proven) == (3000, 1, True)
    mixed = [*_rafters(2380), *_rafters(2300, slant=None)]
    few = cut_lengths(mixed, [LONG, half], kerf_mm=KERF, shop=Shop(aim="fewest sheets"))
    assert (few.cost, len(few.lengths), few.proven) == (3000, 1, True)


def test_a_rafter_longer_than_its_stock_is_refused_with_what_there_is() -> None:
    """4780 along the back would fit 4800 square, not with a lean of 31."""
    with pytest.raises(
        NoSolution, match="R1 needs 4780 mm of r; the longest stock gives 4769 beside its plumb ends"
    ):
        cut_lengths(_rafters(4780), [LONG], kerf_mm=KERF)


def test_stock_that_is_too_little_is_refused() -> None:
    """One length in hand for two rafters and nothing to buy."""
    rack = LengthStock(id="rack", item="r", length_mm=3000, price=0, count=1, offcut=True)
    with pytest.raises(NoSolution, match="fits no stock that is left"):
        cut_lengths([*_rafters(2380), *_rafters(2300, slant=None)], [rack], kerf_mm=KERF)


def test_a_length_cut_in_part_begins_with_the_leaning_end_that_is_there() -> None:
    """By hand: R1 of three spoiled on 6000: 6000 - 1900 - 5 = 4095 is left along the back; R2 and R3 go on as they were
    to be (1900 + 5 + 1900 + 31 = 3836), and 250 are left square: less than is kept. R1 again costs a length."""
    bar = LengthStock(id="r 6000", item="r", length_mm=6000, price=3500, count=None, offcut=False)
    rafters = _rafters(1900, 1900, 1900)
    plan = cut_lengths(rafters, [bar], kerf_mm=KERF).lengths
    first = plan[0].pieces[0].piece
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({first}), begun={0: 1})
    _, stock = begun_lengths(plan, so_far, [bar])[1]
    assert (stock.length_mm, stock.slant) == (4095, PLUMB)
    found = recut_lengths(plan, so_far, rafters, [bar])
    left = found.lengths[0]
    assert (left.stock, left.length_mm) == ("what is left of length 1", 4095)
    assert [(p.at_mm, p.lean_mm) for p in left.pieces] == [(0, 31), (1905, 31)]
    assert left.length_mm - left.beyond_mm == 4095 - 3836 - 5
    assert (found.cost, found.proven) == (3500, True)


def test_what_is_left_beside_a_leaning_end_loses_the_lean_for_square_pieces_only() -> None:
    """By hand: 2419 left along the back beside a leaning end: 2419 - 31 = 2388 for one rafter or one square piece."""
    left = LengthStock(id="left", item="r", length_mm=2419, price=0, count=1, offcut=True, slant=PLUMB)
    for slant in (PLUMB, None):
        for length, cost in ((2388, 0), (2389, 3000)):
            found = cut_lengths(_rafters(length, slant=slant), [left, LONG], kerf_mm=KERF)
            assert found.cost == cost
            at = found.lengths[0].pieces[0].at_mm
            assert at == (31 if slant is None and cost == 0 else 0)


jobs = st.tuples(
    st.lists(st.integers(600, 2300), min_size=1, max_size=5),
    st.lists(st.integers(300, 1500), max_size=2),
    st.lists(st.integers(300, 1500), max_size=2),
    st.floats(1.0, 45.0),
    st.integers(95, 245),
    st.integers(0, 6),
)


@tries(60)
@given(jobs)
def test_pieces_with_their_kerf_do_not_overlap_and_lie_within_the_stock(
    job: tuple[list[int], list[int], list[int], float, int, int],
) -> None:
    """Random rafters of one or two pitches and square pieces: as polygons, along both edges of the timber neighbours
    stand apart by what the cut takes there, and each lies where its length has timber. What is left is square."""
    backs, squares, others, deg, depth, kerf = job
    slant, other = Slant(deg=deg, depth_mm=depth), Slant(deg=20.0, depth_mm=depth)
    pieces = [*_rafters(*backs, slant=slant), *_rafters(*squares, slant=None)]
    pieces += [replace(p, id=f"T{p.id}") for p in _rafters(*others, slant=other)]
    stocks = [LONG, LengthStock(id="r 3000", item="r", length_mm=3000, price=1900, count=None, offcut=False)]
    found = cut_lengths(pieces, stocks, kerf_mm=kerf)
    assert sorted(p for n in found.lengths for p in _ids(n)) == sorted(p.id for p in pieces)
    wanted = {p.id: p for p in pieces}
    for plan in found.lengths:
        ends = [*_polygons(plan, wanted, depth)]
        for ((_, before), (following, _)), angles in zip(pairwise(ends), _angles(plan, wanted), strict=True):
            cut = max(kerf / math.cos(math.radians(a)) for a in angles)
            assert all(b - a >= cut - 1e-6 for a, b in zip(before, following, strict=True))
        assert all(x >= -1e-6 for left, _ in ends for x in left)
        assert all(x <= plan.length_mm + 1e-6 for _, right in ends for x in right)
        assert max(x for _, right in ends for x in right) <= plan.beyond_mm
    assert found.bound <= found.cost


def _polygons(
    plan: LengthPlan, wanted: dict[str, LengthPiece], depth: int
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Left and right end of each piece: along the upper and the lower edge, with the true lean."""
    for p in plan.pieces:
        slant = wanted[p.piece].slant
        lean = depth * math.tan(math.radians(slant.deg)) if slant is not None else 0.0
        length = wanted[p.piece].length_mm
        yield (p.at_mm, p.at_mm + lean), (p.at_mm + length, p.at_mm + length + lean)


def _angles(plan: LengthPlan, wanted: dict[str, LengthPiece]) -> Iterator[tuple[float, float]]:
    degs = [s.deg if (s := wanted[p.piece].slant) is not None else 0.0 for p in plan.pieces]
    yield from pairwise(degs)


@tries(40)
@given(
    st.lists(st.integers(700, 2300), min_size=1, max_size=5),
    st.floats(2.0, 30.0),
    st.sampled_from([95, 145, 195]),
)
def test_the_plan_is_the_cheapest_of_all_ways_to_share_the_rafters_out(
    backs: list[int], deg: float, depth: int
) -> None:
    """Second route: every way to share five rafters out over lengths, in true sizes. The plan costs no less than the
    best of them, and no more than the best where each cut and the lean take one mm more: that is the rounding."""
    slant = Slant(deg=deg, depth_mm=depth)
    short = LengthStock(id="r 3000", item="r", length_mm=3000, price=1900, count=None, offcut=False)
    found = cut_lengths(_rafters(*backs, slant=slant), [LONG, short], kerf_mm=KERF)
    lean, cut = depth * math.tan(math.radians(deg)), KERF / math.cos(math.radians(deg))

    def least(more: float) -> int:
        return min(
            sum(
                min((s.price for s in (LONG, short)
                     if sum(some) + (len(some) - 1) * (cut + more) + lean + more <= s.length_mm), default=10**9)
                for some in parts
            )
            for parts in _partitions(backs)
        )  # fmt: skip

    assert least(0.0) <= found.cost <= least(1.0)
    assert found.proven
    mitred = [
        MitredPiece(id=f"R{i}", item="r", length_mm=n, left_deg=deg, right_deg=deg)
        for i, n in enumerate(backs)
    ]
    assert cut_mitred(mitred, [LONG, short], kerf_mm=KERF, depth_mm=depth).bound <= found.cost


def _partitions(of: Sequence[int]) -> Iterator[list[list[int]]]:
    if not of:
        yield []
        return
    for parts in _partitions(of[1:]):
        yield [[of[0]], *parts]
        for k in range(len(parts)):
            yield [*parts[:k], [of[0], *parts[k]], *parts[k + 1 :]]
