"""Lengths after damage: what is made stays, what is spoiled is cut again from what is there."""

from __future__ import annotations

import pytest

from pentice.cutting import cut_lengths
from pentice.cutting.recut_lengths import recut_lengths
from pentice.cutting.values import LengthPiece, LengthPlacement, LengthPlan, LengthStock
from pentice.errors import InputError, NoSolution
from tests.cutting_checker import faults_of_lengths

BAR = LengthStock(id="6 m", item="bar", length_mm=6000, price=4000, count=None, offcut=False, end_trim_mm=10)
SHORT = LengthStock(
    id="3 m", item="bar", length_mm=3000, price=2300, count=None, offcut=False, end_trim_mm=10
)
KERF = 4


def _pieces(*lengths: int) -> list[LengthPiece]:
    return [LengthPiece(id=f"P{i}", item="bar", length_mm=n) for i, n in enumerate(lengths)]


def _planned(pieces: list[LengthPiece], *bars: tuple[str, ...]) -> list[LengthPlan]:
    """Six metre bars with these pieces from the left end on."""
    sizes = {p.id: p.length_mm for p in pieces}
    plans = []
    for names in bars:
        at, placed = 10, []
        for name in names:
            placed.append(LengthPlacement(piece=name, at_mm=at, length_mm=sizes[name]))
            at += sizes[name] + KERF
        plans.append(
            LengthPlan(
                stock="6 m", item="bar", length_mm=6000, kerf_mm=KERF, price=4000, pieces=tuple(placed)
            )
        )
    return plans


def test_a_spoiled_piece_comes_from_the_rest_of_its_bar() -> None:
    """By hand: 10 + 2000 + 4 used, so 6000 - 10 - 2014 = 3976 are left: room for P0 again and for P1 (1900)."""
    pieces = _pieces(2000, 1900)
    again = recut_lengths(
        _planned(pieces, ("P0", "P1")), pieces, [BAR, SHORT], made=[], spoiled={"P0": 0}, kerf_mm=KERF
    )
    assert [s.length_mm for s in again.in_hand] == [3976]
    assert (again.plans.cost, again.plans.proven) == (0, True)
    assert faults_of_lengths(again.plans, pieces, again.in_hand, KERF) == []


def test_bars_not_cut_are_paid_for_and_only_what_is_missing_is_bought() -> None:
    """P0 and P1 fill the first bar, P1 is spoiled; the second bar is whole but full: one short bar more."""
    pieces = _pieces(2990, 2900, 2990, 2900)
    plans = _planned(pieces, ("P0", "P1"), ("P2", "P3"))
    again = recut_lengths(plans, pieces, [BAR, SHORT], made=["P0"], spoiled={"P1": 0}, kerf_mm=KERF)
    assert again.plans.cost == SHORT.price
    assert [(s.id, s.count) for s in again.in_hand] == [("rest of bar 1", 1), ("6 m, paid for", 1)]
    assert faults_of_lengths(again.plans, pieces[1:], [*again.in_hand, BAR, SHORT], KERF) == []


def test_what_is_left_of_a_spoiled_piece_serves_a_shorter_one() -> None:
    pieces = _pieces(5900, 700)
    plans = _planned(pieces, ("P0",))
    plans += [cut_lengths(pieces[1:], [SHORT], kerf_mm=KERF).lengths[0]]
    again = recut_lengths(plans, pieces, [BAR, SHORT], made=[], spoiled={"P0": 800}, kerf_mm=KERF)
    assert again.plans.cost == BAR.price
    assert {p.piece for bar in again.plans.lengths if bar.price == 0 for p in bar.pieces} == {"P1"}


def test_an_offcut_that_is_used_up_is_not_there_again() -> None:
    """The rack offcut made P0, which is spoiled: nothing but new stock is left, and none is long enough for it."""
    rack = LengthStock(id="rack", item="bar", length_mm=6100, price=0, count=1, offcut=True)
    pieces = _pieces(6050)
    first = cut_lengths(pieces, [rack, BAR], kerf_mm=KERF)
    with pytest.raises(NoSolution, match="P0 needs 6050 mm of bar; the longest stock gives 5980"):
        recut_lengths(first.lengths, pieces, [rack, BAR], made=[], spoiled={"P0": 0}, kerf_mm=KERF)


def test_all_that_is_wrong_is_said_at_once() -> None:
    pieces = _pieces(2000)
    with pytest.raises(InputError) as refusal:
        recut_lengths(
            _planned(pieces, ("P0",)), pieces, [BAR], made=["P0", "X"], spoiled={"P0": 2001}, kerf_mm=KERF
        )
    said = str(refusal.value)
    assert "X is in no plan; expected a piece of the plan." in said
    assert "P0 is given as made and as spoiled" in said
    assert "2001 mm of P0 is given as usable; expected 0 to 2000." in said
