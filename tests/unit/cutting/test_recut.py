"""What is still to be cut after damage: rests first, tickets kept, new stock only where nothing else does."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import cut_sheets
from pentice.cutting.recut import CutSoFar, recut_lengths, recut_sheets
from pentice.cutting.values import (
    LengthPiece,
    LengthPlacement,
    LengthPlan,
    LengthStock,
    SheetPiece,
    SheetStock,
)
from pentice.errors import NoSolution
from tests.cutting_checker import separable
from tests.tries import tries
from tests.unit.cutting.fixed import fixed_piece

KERF = 4
BAR = LengthStock(id="bar 6000", item="bar", length_mm=6000, price=4000, count=None, offcut=False)
SHEET = SheetStock(
    id="s 2100x3000",
    item="sheet",
    width_mm=2100,
    length_mm=3000,
    price=9000,
    count=None,
    offcut=False,
    rib_pitch_mm=20.0,
    first_rib_mm=10.0,
)


def _piece(id: str, width: int, length: int) -> SheetPiece:
    return fixed_piece(id, width, length, reserve=(5, 15))


def test_a_spoiled_piece_comes_out_of_a_kept_rest_and_the_other_tickets_stay() -> None:
    """By hand: 2000 x 1500 leaves 2100 x 1496 of its sheet; 900 x 1400 made again fits there, without reserve."""
    pieces = [_piece("A", 2000, 1500), _piece("B", 2000, 2900)]
    plan = cut_sheets(pieces, [SHEET], kerf_mm=KERF).sheets
    first = next(k for k, s in enumerate(plan) if s.placements[0].piece == "A")
    small = [replace(pieces[0], width_mm=900, least_width_mm=900, most_width_mm=900, length_mm=1490,
                     least_length_mm=1490, most_length_mm=1490), pieces[1]]  # fmt: skip
    so_far = CutSoFar(cut=frozenset({first}), spoiled=frozenset({"A"}))
    found = recut_sheets(plan, so_far, small, [SHEET])
    other = plan[1 - first]
    assert (found.cost, found.bound, found.proven) == (0, 0, True)
    assert [(s.stock, s.placements) for s in found.sheets[:1]] == [(f"stock {2 - first}", other.placements)]
    assert found.sheets[1].stock == f"rest 1 of stock {first + 1}"
    assert (found.sheets[1].width_mm, found.sheets[1].length_mm) == (2100, 1496)


def test_a_new_sheet_is_bought_only_where_nothing_else_does() -> None:
    """The one sheet is cut and gives no rest that holds the piece again."""
    pieces = [_piece("A", 2000, 2900)]
    plan = cut_sheets(pieces, [SHEET], kerf_mm=KERF).sheets
    so_far = CutSoFar(cut=frozenset({0}), spoiled=frozenset({"A"}))
    found = recut_sheets(plan, so_far, pieces, [SHEET])
    assert (found.cost, found.proven, [s.stock for s in found.sheets]) == (9000, True, [SHEET.id])
    with pytest.raises(NoSolution, match="fits no stock"):
        recut_sheets(plan, so_far, pieces, [replace(SHEET, price=0, count=1, offcut=True)])


def _length(*lengths: tuple[str, int]) -> LengthPlan:
    at, placed = 0, []
    for id, length in lengths:
        placed.append(LengthPlacement(piece=id, at_mm=at, length_mm=length))
        at += length + KERF
    return LengthPlan(
        stock=BAR.id, item="bar", length_mm=6000, kerf_mm=KERF, price=BAR.price, pieces=tuple(placed)
    )


def test_whole_lengths_are_cut_anew_where_that_saves_a_purchase() -> None:
    """By hand: 5000 fits beside neither 2000 on its own length, but both 2000 fit on one and 5000 on the other.

    Only B changes its place, to what C leaves of its length; C is cut as it was to be.
    """
    plan = [_length(("A", 5000)), _length(("B", 2000)), _length(("C", 2000))]
    pieces = [
        LengthPiece(id=id, item="bar", length_mm=n) for id, n in (("A", 5000), ("B", 2000), ("C", 2000))
    ]
    so_far = CutSoFar(cut=frozenset({0}), spoiled=frozenset({"A"}))
    found = recut_lengths(plan, so_far, pieces, [BAR])
    assert (found.cost, found.proven) == (0, True)
    assert sorted((n.stock, [p.piece for p in n.pieces]) for n in found.lengths) == [
        ("length 2", ["A"]),
        ("length 3", ["C"]),
        ("rest of length 3", ["B"]),
    ]
    all_cut = CutSoFar(cut=frozenset({0, 1, 2}), spoiled=frozenset({"A"}))
    bought = recut_lengths(plan, all_cut, pieces, [BAR])
    assert (bought.cost, bought.proven) == (4000, True)
    small = [replace(pieces[0], length_mm=990), *pieces[1:]]
    rest = recut_lengths(plan, so_far, small, [BAR])
    assert [n.stock for n in rest.lengths] == ["length 2", "length 3", "rest of length 1"]


def test_no_more_tickets_change_than_must() -> None:
    """By hand: of four sheets with one piece each A, 2000 x 2900, is spoiled. B, C and D are 1050 x 1480: there is no
    room for one beside another (2100 - 1050 - 4) but below it (3000 - 1480 - 4). One moves, two keep their tickets."""
    pieces = [_piece("A", 2000, 2900), *(_piece(id, 1050, 1480) for id in "BCD")]
    plan = tuple(sheet for p in pieces for sheet in cut_sheets([p], [SHEET], kerf_mm=KERF).sheets)
    so_far = CutSoFar(cut=frozenset({0}), spoiled=frozenset({"A"}))
    found = recut_sheets(plan, so_far, pieces, [SHEET])
    assert (found.cost, found.proven) == (0, True)
    kept = [s for s in found.sheets if any(s.placements == old.placements for old in plan[1:])]
    assert [s.stock for s in kept if s.stock.startswith("stock")] == ["stock 3", "stock 4"]
    assert ("stock 2", ["A"]) in [(s.stock, [p.piece for p in s.placements]) for s in found.sheets]


@tries(25)
@given(
    st.lists(st.tuples(st.integers(300, 1000), st.integers(500, 2800)), min_size=2, max_size=7),
    st.data(),
)
def test_every_missing_piece_is_planned_once_and_nothing_is_cut_twice(
    sizes: list[tuple[int, int]], data: st.DataObject
) -> None:
    """Random damage: what is missing is made, whole sheets are used once, and buying it alone is never cheaper."""
    # Up to 10 shorter is allowed, as on a roof: else two lengths that differ by less than a cut can hold are refused.
    pieces = [replace(_piece(f"P{i}", w, n), least_length_mm=n - 10) for i, (w, n) in enumerate(sizes)]
    plan = cut_sheets(pieces, [SHEET], kerf_mm=KERF).sheets
    cut = data.draw(st.sets(st.integers(0, len(plan) - 1), min_size=1))
    on_cut = sorted(p.piece for k in cut for p in plan[k].placements)
    spoiled = data.draw(st.sets(st.sampled_from(on_cut), min_size=1))
    so_far = CutSoFar(cut=frozenset(cut), spoiled=frozenset(spoiled))
    found = recut_sheets(plan, so_far, pieces, [SHEET])
    made = sorted(p.piece for s in found.sheets for p in s.placements)
    waiting = [p.piece for k, s in enumerate(plan) if k not in cut for p in s.placements]
    assert made == sorted([*spoiled, *waiting])
    used = [s.stock for s in found.sheets if s.price == 0]
    assert len(used) == len(set(used))
    assert not {f"stock {k + 1}" for k in cut} & set(used)
    for sheet in found.sheets:
        boxes = [(p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm) for p in sheet.placements]
        assert separable(boxes, (0, 0, sheet.width_mm, sheet.length_mm), KERF)
        assert all(b[2] <= sheet.width_mm and b[3] <= sheet.length_mm for b in boxes)
    alone = cut_sheets(
        [replace(p, reserve_mm=(0, 0)) for p in pieces if p.id in spoiled], [SHEET], kerf_mm=KERF
    )
    assert found.bound <= found.cost <= alone.cost
