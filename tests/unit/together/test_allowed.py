"""What is cut anew of several jobs: each buys what it allows, stock in hand serves any of them; counted by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from pentice.cutting.recut import CutSoFar, recut_lengths, recut_sheets
from pentice.cutting.values import (
    LengthPiece,
    LengthPlacement,
    LengthPlan,
    LengthStock,
    Placement,
    SheetPiece,
    SheetPlan,
    SheetStock,
)
from pentice.errors import NoSolution
from pentice.together.allowed import ToCut

KERF = 4
LONG = LengthStock(id="bar 6000", item="bars.b", length_mm=6000, price=1000, count=None, offcut=False)
SHORT = LengthStock(id="bar 3000", item="bars.b", length_mm=3000, price=700, count=None, offcut=False)


def _pieces(**lengths: int) -> tuple[LengthPiece, ...]:
    """A1=2900 is piece 1 of job A."""
    return tuple(LengthPiece(id=f"{k[0]} {k[1:]}", item="bars.b", length_mm=n) for k, n in lengths.items())


def _plan(stock: LengthStock, *lengths: tuple[str, int], kerf: int = KERF) -> LengthPlan:
    at, placed = 0, []
    for id, length in lengths:
        placed.append(LengthPlacement(piece=id, at_mm=at, length_mm=length))
        at += length + kerf
    return LengthPlan(
        stock=stock.id,
        item=stock.item,
        length_mm=stock.length_mm,
        kerf_mm=kerf,
        price=stock.price,
        pieces=tuple(placed),
    )


def _to_cut(pieces: tuple[LengthPiece, ...], **allowed: tuple[LengthStock, ...]) -> ToCut:
    stocks = dict.fromkeys(s for some in allowed.values() for s in some)
    return ToCut(
        sheets=(),
        lengths=pieces,
        sheet_stocks=(),
        length_stocks=tuple(stocks),
        allowed={job: frozenset((s.item, s.id) for s in some) for job, some in allowed.items()},
    )


def test_a_length_is_bought_for_two_jobs_only_where_both_allow_it() -> None:
    """2900 of A and of B are spoiled and nothing is left. One of 6000 gives both for 1000; where B's gate lets 3000
    through at most each needs one of its own, 1400."""
    pieces = _pieces(A1=2900, B1=2900)
    plan = [_plan(LONG, ("A 1", 2900), ("B 1", 2900))]
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({"A 1", "B 1"}), begun={0: 2})
    costs = []
    for of_b in ((LONG, SHORT), (SHORT,)):
        asked = _to_cut(pieces, A=(LONG, SHORT), B=of_b)
        found = recut_lengths(plan, so_far, pieces, asked.length_stocks, cut=asked.cut_lengths)
        costs.append((found.cost, [[p.piece for p in n.pieces] for n in found.lengths]))
    assert costs == [(1000, [["A 1", "B 1"]]), (1400, [["A 1"], ["B 1"]])]


def test_what_is_left_of_one_job_s_length_serves_the_other() -> None:
    """B's 2000 is spoiled; behind A's 2900, cut and good, 6000 - 2900 - 4 = 3096 is left of a length that B may not
    buy: it is in hand, so nothing is bought. A's 500 on it goes on as it was: 3096 - 500 - 4 = 2592 hold 2000."""
    pieces = _pieces(A1=2900, A2=500, B1=2000)
    plan = [_plan(LONG, ("A 1", 2900), ("A 2", 500)), _plan(SHORT, ("B 1", 2000))]
    asked = _to_cut(pieces, A=(LONG,), B=(SHORT,))
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset({"B 1"}), begun={0: 1, 1: 1})
    found = recut_lengths(plan, so_far, pieces, asked.length_stocks, cut=asked.cut_lengths)
    assert (found.cost, found.proven) == (0, True)
    assert [(n.stock, n.length_mm, [p.piece for p in n.pieces]) for n in found.lengths] == [
        ("what is left of length 1", 3096, ["A 2"]),
        ("rest of length 1", 2592, ["B 1"]),
    ]


def test_lengths_that_are_cut_with_two_kerfs_keep_their_own() -> None:
    """A's saw takes 4, B's 3: 1498 + 4 + 1498 is 3000, and 1498.5 twice with 3 would be; each is planned by its own."""
    pieces = _pieces(A1=1498, A2=1498, B1=1498, B2=1498)
    plan = [
        _plan(SHORT, ("A 1", 1498), ("A 2", 1498)),
        _plan(SHORT, ("B 1", 1498), ("B 2", 1498), kerf=3),
    ]
    asked = _to_cut(pieces, A=(SHORT,), B=(SHORT,))
    so_far = CutSoFar(cut=frozenset(), spoiled=frozenset(p.id for p in pieces), begun={0: 2, 1: 2})
    found = recut_lengths(plan, so_far, pieces, asked.length_stocks, cut=asked.cut_lengths)
    assert found.cost == 1400
    assert [(n.kerf_mm, [p.at_mm for p in n.pieces]) for n in found.lengths] == [
        (4, [0, 1502]),
        (3, [0, 1501]),
    ]


def _sheet(id: str, item: str, length: int, price: int, *, offcut: bool = False) -> SheetStock:
    return SheetStock(
        id=id,
        item=item,
        width_mm=1000,
        length_mm=length,
        price=price,
        count=1 if offcut else None,
        offcut=offcut,
        rib_pitch_mm=20.0,
        first_rib_mm=10.0,
    )


def _wide(id: str, item: str, length: int) -> SheetPiece:
    return SheetPiece(
        id=id,
        item=item,
        width_mm=1000,
        length_mm=length,
        least_width_mm=1000,
        most_width_mm=1000,
        least_length_mm=length,
        most_length_mm=length,
        rib_at_most_mm=(math.inf, math.inf),
    )


def test_an_offcut_that_two_tints_could_use_is_used_once_and_where_it_saves_most() -> None:
    """An offcut of 2500 whose tint nobody wrote down holds either piece. A's 1500 is bought for 500, B's 2500 for 900:
    B takes it, 500 is spent; the other way round 900. Without anything to buy one must be told."""
    pieces = (_wide("A 1", "s clear", 1500), _wide("B 1", "s opal", 2500))
    small = [_sheet("small", item, 1500, 500) for item in ("s clear", "s opal")]
    large = [_sheet("large", item, 2500, 900) for item in ("s clear", "s opal")]
    rack = [_sheet("R-1", item, 2500, 0, offcut=True) for item in ("s clear", "s opal")]
    plan = [
        SheetPlan(
            stock=stock.id,
            item=stock.item,
            width_mm=1000,
            length_mm=stock.length_mm,
            kerf_mm=3,
            price=stock.price,
            placements=(
                Placement(
                    piece=p.id,
                    x_mm=0,
                    y_mm=0,
                    width_mm=1000,
                    length_mm=p.length_mm,
                    turned_180=False,
                    rib_at_mm=(10.0, 10.0),
                ),
            ),
            cuts=(),
        )
        for stock, p in zip((small[0], large[1]), pieces, strict=True)
    ]
    so_far = CutSoFar(cut=frozenset({0, 1}), spoiled=frozenset({"A 1", "B 1"}))
    allowed = {job: frozenset((s.item, s.id) for s in (*small, *large)) for job in "AB"}
    asked = ToCut(
        sheets=pieces, lengths=(), sheet_stocks=(*small, *large, *rack), length_stocks=(), allowed=allowed
    )
    for order in ((0, 1), (1, 0)):
        found = recut_sheets(
            [plan[k] for k in order], so_far, pieces, asked.sheet_stocks, cut=asked.cut_sheets
        )
        assert (found.cost, found.bound, found.proven) == (500, 0, False)
        assert {s.stock: s.placements[0].piece for s in found.sheets} == {"small": "A 1", "R-1": "B 1"}
    gone = [replace(s, price=0, count=1, offcut=True) for s in (small[0], large[1])]
    used = replace(asked, sheet_stocks=(*gone, *rack))
    with pytest.raises(NoSolution, match="R-1 on the rack would have to be used twice"):
        recut_sheets(plan, so_far, pieces, used.sheet_stocks, cut=used.cut_sheets)
