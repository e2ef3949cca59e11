"""Sheets filled by a table from pieces of limited number, and plans that begin with them."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import best, full_first
from pentice.cutting.best import best_sheets
from pentice.cutting.full_sheets import FullSheets
from pentice.cutting.guillotine import Worths, cuts_of, grid_of
from pentice.cutting.packing import Board, Limits, Packed, Packing, Rectangle
from tests.plan_checker import faults_of_plan
from tests.properties.test_general_cutting import _plan_of
from tests.tries import tries

_Sizes = list[tuple[int, int, int, int]]
_KINDS = st.lists(
    st.tuples(st.integers(3, 20), st.integers(3, 25), st.integers(0, 9), st.integers(1, 40)),
    min_size=1,
    max_size=14,
)

"""Width, height, number and worth of each kind; enough of them for more than one word of counts."""


def _faults(packed: Packed, sizes: _Sizes, board: Board, kerf: int) -> list[str]:
    """What the checker says of one sheet as a whole plan."""
    taken = [sum(p.kind == k for p in packed.places) for k in range(len(sizes))]
    instance: dict[str, Any] = {
        "kind": "2d_guillotine_oriented",
        "kerf": kerf,
        "trim_edge": board.trim,
        "stock": [{"w": board.width, "h": board.height, "cost": board.cost, "qty": None}],
        "items": [{"w": w, "h": h, "d": n} for (w, h, _, _), n in zip(sizes, taken, strict=True)],
        "offcut_rule": None,
    }
    return faults_of_plan(instance, _plan_of(Packing(boards=(packed,), cost=board.cost, bound=0), None))


@tries(60)
@given(_KINDS, st.integers(0, 3), st.integers(0, 2))
def test_a_full_sheet_can_be_cut_and_takes_no_more_than_there_is(sizes: _Sizes, kerf: int, trim: int) -> None:
    """By the independent checker; what is free and what is cut off fill the sheet."""
    board = Board(width=41, height=52, cost=1, trim=trim)
    pieces = [Rectangle(width=w, height=h, count=n) for w, h, n, _ in sizes]
    full = FullSheets(pieces, board, kerf=kerf)
    found = full.filled([n for _, _, n, _ in sizes], [worth for *_, worth in sizes])
    if not found.places:
        assert not any(n for _, _, n, _ in sizes)
        return
    assert _faults(found, sizes, board, kerf) == []
    assert all(sum(p.kind == k for p in found.places) <= n for k, (_, _, n, _) in enumerate(sizes))
    if kerf == 0:
        area = sum(p.width * p.height for p in (*found.places, *found.free))
        assert area == (board.width - 2 * trim) * (board.height - 2 * trim)


@tries(60)
@given(_KINDS, st.integers(0, 3))
def test_with_pieces_enough_a_full_sheet_is_worth_the_most_there_is(sizes: _Sizes, kerf: int) -> None:
    """Against the exact table for pieces without limit, which knows nothing of counts."""
    board, enough = Board(width=41, height=52, cost=1), 221  # 13 x 17 of the least fill it
    pieces = [Rectangle(width=w, height=h, count=enough) for w, h, _, _ in sizes]
    worths = [worth for *_, worth in sizes]
    found = FullSheets(pieces, board, kerf=kerf).filled([enough] * len(sizes), worths)
    grown, room = [(w + kerf, h + kerf) for w, h, _, _ in sizes], (41 + kerf, 52 + kerf)
    grid = grid_of(grown, [enough] * len(sizes), room)
    most = Worths(grid, cuts_of(grid), grown, worths, None).most(room)
    assert sum(worths[p.kind] for p in found.places) == most


def _cut_up(width: int, height: int, cuts: list[tuple[bool, int]]) -> list[tuple[int, int]]:
    """A sheet parted again and again, always the largest part; the same cuts give the same pieces."""
    parts = [(width, height)]
    for across, share in cuts:
        parts.sort(key=lambda part: part[0] * part[1])
        w, h = parts.pop()
        length = w if across else h
        at = min(max(3, length * share // 10), length - 3)
        parts += [(at, h), (w - at, h)] if across else [(w, at), (w, h - at)]
    return parts


@tries(15)
@given(
    st.lists(st.tuples(st.booleans(), st.integers(2, 8)), min_size=5, max_size=9),
    st.integers(3, 4),
    st.integers(1, 3),
)
def test_full_sheets_first_and_the_search_by_turns_give_a_plan_that_holds(
    cuts: list[tuple[bool, int]], copies: int, seed: int
) -> None:
    """Sheets all cut up alike: a plan is known that has no waste. It begins early here, to be tried at all."""
    parts = _cut_up(60, 60, cuts)
    sizes = {size: parts.count(size) * copies for size in parts}
    pieces = [Rectangle(width=w, height=h, count=n) for (w, h), n in sizes.items()]
    instance = {
        "kind": "2d_guillotine_oriented",
        "kerf": 0,
        "trim_edge": 0,
        "stock": [{"w": 60, "h": 60, "cost": 3, "qty": None}],
        "items": [{"w": w, "h": h, "d": n} for (w, h), n in sizes.items()],
        "offcut_rule": None,
    }
    board, limits = Board(width=60, height=60, cost=3), Limits(rounds=400, seed=seed)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(best, "_ALIKE", 99)
        patch.setattr(best, "_SOONER", 20)
        patch.setattr(best, "_SECOND", 100)
        patch.setattr(full_first, "_ROUNDS", 40)
        found = best_sheets(pieces, [board], kerf=0, limits=limits)
        again = best_sheets(pieces, [board], kerf=0, limits=limits)
    assert found is not None
    assert found == again
    assert faults_of_plan(instance, _plan_of(found, None)) == []
    assert found.bound == 3 * copies <= found.cost


def test_no_table_where_pieces_are_not_alike_or_boards_differ() -> None:
    """There the search is left alone."""
    alike = [Rectangle(width=6, height=5, count=3)]
    board = Board(width=12, height=10, cost=1)
    assert full_first.full_first(alike, [board], kerf=0, seed=1) is not None
    for pieces, boards in (
        ([Rectangle(width=6, height=5, count=1)], [board]),
        (alike, [board, board]),
        (alike, [Board(width=12, height=10, cost=1, count=4)]),
        (
            [Rectangle(width=n, height=n, count=2) for n in range(301, 340)],
            [Board(width=3000, height=6000, cost=1)],
        ),
    ):
        assert full_first.full_first(pieces, boards, kerf=0, seed=1) is None
