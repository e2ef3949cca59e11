"""More work for a cheaper plan: never dearer, the same each time, and whoever watches hears of it."""

from __future__ import annotations

import pytest

from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.shop import Shop
from pentice.cutting.values import LengthPiece, LengthStock, SheetStock
from pentice.told import SearchedFor, stopped_by, told
from tests.cutting_checker import separable
from tests.unit.cutting.fixed import fixed_piece

KERF = 3
PIECES = [fixed_piece(f"S{n}", 310 + 97 * n * n % 640, 700 + 173 * n * n % 1900) for n in range(1, 13)]
STOCKS = [
    SheetStock(
        id=f"sheet {width}x{length}",
        item="sheet",
        width_mm=width,
        length_mm=length,
        price=price,
        count=None,
        offcut=False,
        rib_pitch_mm=20.0,
        first_rib_mm=10.0,
    )
    for width, length, price in ((1250, 3000, 6100), (2100, 3000, 9900), (1250, 6000, 11900))
]


def test_more_work_costs_no_more_and_gives_the_same_plan_again() -> None:
    """On twelve sheets that are not proven; every plan can be cut from edge to edge and gives each piece once."""
    usual = cut_sheets(PIECES, STOCKS, kerf_mm=KERF, any_cuts=True)
    assert not usual.proven
    found = cut_sheets(PIECES, STOCKS, kerf_mm=KERF, any_cuts=True, shop=Shop(effort=3))
    assert found.bound <= found.cost < usual.cost
    assert found == cut_sheets(PIECES, STOCKS, kerf_mm=KERF, any_cuts=True, shop=Shop(effort=3))
    assert sorted(p.piece for s in found.sheets for p in s.placements) == sorted(p.id for p in PIECES)
    for sheet in found.sheets:
        boxes = [(p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm) for p in sheet.placements]
        assert separable(boxes, (0, 0, sheet.width_mm, sheet.length_mm), KERF)


def test_whoever_watches_hears_cost_and_bound_to_the_end() -> None:
    """Costs only fall, the bound is never above them, and the work that is done grows to all of it."""
    heard: list[SearchedFor] = []
    with told(heard.append):
        found = cut_sheets(PIECES, STOCKS, kerf_mm=KERF, any_cuts=True, shop=Shop(effort=2))
    cut_sheets(PIECES[:3], STOCKS, kerf_mm=KERF, any_cuts=True)
    costs, shares = [h.cost for h in heard], [h.share or 0.0 for h in heard]
    assert len(heard) == 12
    assert costs == sorted(costs, reverse=True)
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    assert all(h.item == "sheet" and h.bound <= h.cost for h in heard)
    assert found.cost >= costs[-1]


def test_no_search_is_made_where_the_exact_answer_is_soon_known(monkeypatch: pytest.MonkeyPatch) -> None:
    """Six sheets whose plan of strips no bound by area or strips proves; a search would have found nothing cheaper."""
    heard: list[SearchedFor] = []
    with told(heard.append):
        found = cut_sheets(PIECES[:6], STOCKS, kerf_mm=KERF, any_cuts=True)
        assert not heard
        monkeypatch.setattr("pentice.cutting.sheets.least_of_few", lambda *_: None)
        searched = cut_sheets(PIECES[:6], STOCKS, kerf_mm=KERF, any_cuts=True)
    assert len(heard) == 6
    assert found.proven
    assert found == searched


def test_a_search_that_is_asked_to_stop_gives_the_best_so_far() -> None:
    """After the third look: a whole plan with a bound that holds, no better than all of the work gives."""
    heard: list[SearchedFor] = []
    with told(heard.append), stopped_by(lambda: len(heard) >= 3):
        found = cut_sheets(PIECES, STOCKS, kerf_mm=KERF, any_cuts=True, shop=Shop(effort=3))
    whole = cut_sheets(PIECES, STOCKS, kerf_mm=KERF, any_cuts=True, shop=Shop(effort=3))
    assert len(heard) == 3
    assert found.bound <= whole.cost < found.cost
    assert sorted(p.piece for s in found.sheets for p in s.placements) == sorted(p.id for p in PIECES)


def test_a_search_for_lengths_is_heard_too() -> None:
    """At each better plan."""
    pieces = [
        LengthPiece(id=f"B{n}", item="bar", length_mm=900 + 379 * n * n % 2600, reserve_mm=0)
        for n in range(16)
    ]
    stocks = [
        LengthStock(id=f"bar {n}", item="bar", length_mm=n, price=price, count=None, offcut=False)
        for n, price in ((4000, 3100), (6000, 4400))
    ]
    heard: list[SearchedFor] = []
    with told(heard.append):
        found = cut_lengths(pieces, stocks, kerf_mm=4, shop=Shop(effort=3))
    assert heard
    assert all(h.item == "bar" and h.bound <= h.cost for h in heard)
    assert found.bound <= found.cost
