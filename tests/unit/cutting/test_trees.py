"""The tables that the search changes: what is counted along the way is what a count from nothing gives."""

from __future__ import annotations

import pytest

from pentice.cutting import rebuild, trees
from pentice.cutting.compiled import Table, table
from pentice.cutting.packing import Board, Limits, Rectangle, Search

_PIECES = [(31 + 7 * (n % 5), 40 + 11 * (n % 7)) for n in range(40)]
_STOCKS = [(100, 200, 90, -1, trees.RATE // 300), (150, 160, 100, -1, trees.RATE // 400), (120, 90, 0, 2, 0)]
_KEEP = (25, 40, 3)


def _begun(seed: int) -> tuple[Table, Table]:
    layout = table(trees.layout_of(_PIECES, _STOCKS, len(_PIECES), keep=_KEEP))
    state = table([0] * int(layout[trees.SIZE]))
    trees.clear(state, layout, seed)
    rebuild.recreate(state, layout, seed % 6)
    state[trees.WRITES] = 0
    return state, layout


def _counted(state: Table, layout: Table) -> tuple[int, int, int, int, list[int]]:
    """Cost, worth of rests, free area in large parts, area that waits, and the classes of the free nodes."""
    cost = worth = whole = 0
    classes = [0] * trees.CLASSES
    for s in range(layout[trees.SHEETS]):
        root, stock = (int(state[layout[trees.SHEET_AT] + 2 * s + k]) for k in (0, 1))
        if root < 0:
            continue
        data = layout[trees.STOCK_AT] + trees.STOCK * stock
        cost += int(layout[data + 2])
        below = [root]
        while below:
            at = layout[trees.NODE_AT] + trees.FIELDS * below.pop()
            w, h, kind = (int(state[at + k]) for k in (trees.WIDTH, trees.HEIGHT, trees.KIND))
            if kind == trees.FREE:
                whole += (w * h) ** 2 >> int(layout[trees.LARGEST_BITS])
                classes[trees.class_of(layout, w * h)] += 1
                if w >= _KEEP[0] and h >= _KEEP[1]:
                    worth += (w - _KEEP[2]) * (h - _KEEP[2]) * int(layout[data + 4]) // trees.RATE
            elif kind != trees.PIECE:
                child = int(state[at + trees.FIRST])
                while child >= 0:
                    below.append(child)
                    child = int(state[layout[trees.NODE_AT] + trees.FIELDS * child + trees.NEXT])
    waits = [int(state[layout[trees.WAITING_AT] + i]) for i in range(state[trees.WAITING])]
    return cost, worth, whole, sum(_PIECES[p][0] * _PIECES[p][1] for p in waits), classes


def _listed(state: Table, layout: Table) -> list[int]:
    """How many free nodes stand in the list of each class."""
    found = []
    for c in range(trees.CLASSES):
        number, free = 0, int(state[layout[trees.CLASS_AT] + c])
        while free >= 0:
            number += 1
            free = int(state[layout[trees.NODE_AT] + trees.FIELDS * free + trees.FIRST])
        found.append(number)
    return found


@pytest.mark.parametrize("seed", range(4))
def test_what_is_counted_along_the_way_is_what_is_there(seed: int) -> None:
    """After many rounds, some taken back: cost, worth, areas and lists are those counted from nothing."""
    state, layout = _begun(seed)
    last, best = state.copy(), state.copy()
    history = table([1 << 60] * int(layout[trees.LATE]) + [0, 0, 1 << 60])
    for _ in range(20):
        assert rebuild.search_net(state, layout, last, best, history, 10) == 10
        for one in (state, best):
            cost, worth, whole, waits, classes = _counted(one, layout)
            told = [int(one[k]) for k in (trees.COST, trees.WORTH, trees.WHOLE, trees.WAITING_DUE)]
            assert told == [cost, worth, whole, waits]
            assert _listed(one, layout) == classes


@pytest.mark.parametrize("journal", [0, 40, 10_000])
def test_going_back_gives_the_settled_state_again(journal: int) -> None:
    """Whether the journal has room for what was written or not."""
    state, layout = _begun(1)
    layout[trees.JOURNAL] = min(journal, int(layout[trees.JOURNAL]))
    last = state.copy()
    for sheet in (0, 1):
        trees.close_sheet(state, layout, sheet)
    rebuild.recreate(state, layout, 2)
    assert _counted(state, layout) != _counted(last, layout)
    trees.go_back(state, layout, last)
    end = int(layout[trees.JOURNAL_AT])
    cells = [k for k in range(end) if k != trees.CHANCE]
    assert [int(state[k]) for k in cells] == [int(last[k]) for k in cells]


def test_no_cut_leaves_less_than_is_said() -> None:
    """With a least rest, whatever lies free beside a piece is nothing or at least that; without, strips are left."""
    pieces = [Rectangle(width=w, height=h, count=2) for w, h in ((92, 60), (40, 41))]
    boards = [Board(width=100, height=101, cost=5), Board(width=96, height=101, cost=4)]
    for least, thin in ((6, False), (0, True)):
        limits = Limits(rounds=200, least_rest=least)
        search = Search.begun(pieces, boards, 2, limits)
        assert search is not None
        search.advance(0, limits)
        rests = [min(p.width, p.height) + 2 for packed in search.packing(0).boards for p in packed.free]
        assert any(rest < 6 for rest in rests) is thin


def test_what_waits_counts_for_more_where_the_search_stands_still() -> None:
    """A windmill that straight cuts cannot make, towards one sheet: what waits is the sum of what each piece counts
    for, which grows from its area on, within a limit, and is its area again for the next goal."""
    pieces, stocks = [(6, 4), (4, 6), (6, 4), (4, 6), (2, 2)], [(10, 10, 1, -1, 0)]
    layout = table(trees.layout_of(pieces, stocks, len(pieces)))
    layout[trees.LATE], layout[trees.BUDGET] = 1, 1
    state = table([0] * int(layout[trees.SIZE]))
    trees.clear(state, layout, 1)
    state[trees.WRITES] = 0
    last, history = state.copy(), table([1 << 60, 0, 0, 1 << 60])
    areas, far = [w * h for w, h in pieces], False
    for _ in range(30):
        assert rebuild.search(state, layout, last, history, 40) == 40
        dues = [int(layout[layout[trees.DUE_AT] + p]) for p in range(len(pieces))]
        waits = [int(state[layout[trees.WAITING_AT] + i]) for i in range(state[trees.WAITING])]
        assert sum(dues[p] for p in waits) == state[trees.WAITING_DUE] == last[trees.WAITING_DUE]
        assert all(area <= due <= 256 * area for due, area in zip(dues, areas, strict=True))
        far = far or max(due / area for due, area in zip(dues, areas, strict=True)) > 20
    assert far
    rebuild.even(state, layout)
    assert [int(layout[layout[trees.DUE_AT] + p]) for p in range(len(pieces))] == areas
    assert state[trees.WAITING_DUE] == sum(areas[p] for p in waits)
