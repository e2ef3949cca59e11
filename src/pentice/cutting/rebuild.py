"""Ruin and recreate: some pieces are taken off their sheets and put back another way, within a budget.

After Gardeyn and Wauters 2022 (goal-driven ruin and recreate over trees of guillotine cuts) and Burke and Bykov 2017
(late acceptance). The goal is a cost that the best plan does not reach yet: sheets are only opened within it, and the
search is for the pieces still waiting to come to nothing.
"""

from __future__ import annotations

from pentice.cutting.compiled import Table, compiled
from pentice.cutting.trees import (
    ALONG_X,
    BUDGET,
    CHANCE,
    COST,
    FIELDS,
    FREE_AT,
    FREES,
    HEIGHT,
    KIND,
    LARGEST,
    LATE,
    NODE_AT,
    PARENT,
    PIECE_AT,
    PIECE_DATA,
    PIECES,
    SIZE,
    STAGES,
    STOCK_AT,
    STOCKS,
    UNUSED,
    USED_AT,
    WAITING,
    WAITING_AREA,
    WAITING_AT,
    WIDTH,
    chance,
    close_sheet,
    open_sheet,
    put,
    sheet_of,
    stage_of,
    take_out,
)

_BLINK = 50
_FREE_SHARE = 16
_NODES_SPARE = 8


@compiled
def search(state: Table, layout: Table, kept: Table, history: Table, rounds: int) -> int:
    """Rounds of ruin and recreate; ends at once when nothing waits.

    Parameters
    ----------
    state, layout
        The tables of `trees`.
    kept
        Room for a copy of the state, to go back to.
    history
        The late acceptance list, with its place at the end.
    rounds
        How many may be made [-].

    Returns
    -------
    int
        How many were made [-].
    """
    done = 0
    now = _badness(state, layout)
    size, late = layout[SIZE], layout[LATE]
    for i in range(size):
        kept[i] = state[i]
    while done < rounds and state[WAITING] > 0:
        done += 1
        _ruin(state, layout)
        recreate(state, layout, chance(state, 6 * 1009))
        new = _badness(state, layout)
        place = history[late]
        if new <= now or new <= history[place]:
            now = new
            for i in range(size):
                kept[i] = state[i]
        else:
            number = state[CHANCE]
            for i in range(size):
                state[i] = kept[i]
            state[CHANCE] = number
        history[place] = now
        history[late] = (place + 1) % late
    return done


@compiled
def _badness(state: Table, layout: Table) -> int:
    """Area that waits, less a little for free area in large parts."""
    whole = 0
    for j in range(state[FREES]):
        at = layout[NODE_AT] + FIELDS * state[layout[FREE_AT] + j]
        area = state[at + WIDTH] * state[at + HEIGHT]
        whole += area * area // layout[LARGEST]
    return _FREE_SHARE * state[WAITING_AREA] - whole  # type: ignore[no-any-return]  # a whole number


@compiled
def _ruin(state: Table, layout: Table) -> None:
    """Some pieces here and there, some with what was cut together with them, or whole sheets."""
    way = chance(state, 8)
    if way == 0:
        close_one(state, layout)
        if chance(state, 2) == 0:
            close_one(state, layout)
        return
    for _ in range(1 + chance(state, 2 + 2 * way)):
        node = _some_piece(state, layout)
        if node < 0:
            return
        while chance(state, 3) == 0:
            parent = state[layout[NODE_AT] + FIELDS * node + PARENT]
            if state[layout[NODE_AT] + FIELDS * parent + PARENT] < 0:
                break
            node = parent
        take_out(state, layout, node)


@compiled
def close_one(state: Table, layout: Table) -> None:
    """Give back a sheet, found by one of its pieces."""
    node = _some_piece(state, layout)
    if node >= 0:
        close_sheet(state, layout, sheet_of(state, layout, node))


@compiled
def _some_piece(state: Table, layout: Table) -> int:
    """The node of a piece that lies on a sheet, or -1 where there is none."""
    for _ in range(32):
        node = state[layout[PIECE_AT] + chance(state, layout[PIECES])]
        if node >= 0:
            return node  # type: ignore[no-any-return]  # a whole number
    return -1


@compiled
def recreate(state: Table, layout: Table, order: int) -> None:
    """Put back what waits, the largest first (by area, width, height, longer side, sum of sides, or by chance)."""
    count = state[WAITING]
    base = layout[WAITING_AT]
    for i in range(1, count):
        piece = state[base + i]
        key = _key(state, layout, piece, order)
        j = i - 1
        while j >= 0 and _key(state, layout, state[base + j], order) < key:
            state[base + j + 1] = state[base + j]
            j -= 1
        state[base + j + 1] = piece
    way = chance(state, 4)
    left = 0
    for i in range(count):
        piece = state[base + i]
        if _place(state, layout, piece, way):
            state[WAITING_AREA] -= layout[PIECE_DATA + 3 * piece + 2]
        else:
            state[base + left] = piece
            left += 1
    state[WAITING] = left


@compiled
def _key(state: Table, layout: Table, piece: int, order: int) -> int:
    at = PIECE_DATA + 3 * piece
    order, salt = order % 6, order // 6
    if order == 0:
        return layout[at + 2]  # type: ignore[no-any-return]  # a whole number
    if order == 1:
        return layout[at]  # type: ignore[no-any-return]  # a whole number
    if order == 2:
        return layout[at + 1]  # type: ignore[no-any-return]  # a whole number
    if order == 3:
        return max(layout[at], layout[at + 1])  # type: ignore[no-any-return]  # a whole number
    if order == 4:
        return layout[at] + layout[at + 1]  # type: ignore[no-any-return]  # a whole number
    return (piece + 1) * (salt + 1) * 7919 % 1009


@compiled
def _place(state: Table, layout: Table, piece: int, way: int) -> int:
    """Cut the piece from the free node that suits best, else from a new sheet within the budget; 0 where neither."""
    if state[UNUSED] < _NODES_SPARE:
        return 0
    width, height = layout[PIECE_DATA + 3 * piece], layout[PIECE_DATA + 3 * piece + 1]
    best, best_free = 1 << 62, -1
    for j in range(state[FREES]):
        free = state[layout[FREE_AT] + j]
        at = layout[NODE_AT] + FIELDS * free
        w, h = state[at + WIDTH], state[at + HEIGHT]
        if w < width or h < height or not _in_stages(state, layout, free, width, height, 0):
            continue
        if chance(state, _BLINK) == 0:
            continue
        if way < 2:
            score = w * h
        elif way == 2:
            score = min(w - width, h - height)
        else:
            score = min((w - width) * h, (h - height) * w)
        if score < best:
            best, best_free = score, free
    if best_free < 0:
        best_free = _new_sheet(state, layout, width, height)
        if best_free < 0:
            return 0
    across = _across(state, layout, best_free, width, height)
    across *= _in_stages(state, layout, best_free, width, height, across)
    put(state, layout, piece, best_free, across)
    return 1


@compiled
def _in_stages(state: Table, layout: Table, free: int, width: int, height: int, across: int) -> int:
    """Whether a piece can be cut from a free node within the stages allowed: the cut along its parent's, then one the
    other way; or (``across``) the other way first, and then once more."""
    if layout[STAGES] == 0:
        return 1
    at = layout[NODE_AT] + FIELDS * free
    axis = state[layout[NODE_AT] + FIELDS * state[at + PARENT] + KIND]
    rest_x, rest_y = state[at + WIDTH] > width, state[at + HEIGHT] > height
    along, other = (rest_x, rest_y) if axis == ALONG_X else (rest_y, rest_x)
    stage = stage_of(state, layout, free)
    if other:
        stage += 1
        if across and along:
            stage += 1
    return 1 if stage <= layout[STAGES] else 0


@compiled
def _across(state: Table, layout: Table, free: int, width: int, height: int) -> int:
    """Whether the first cut goes across those of the parent: the way that leaves the larger rest, mostly."""
    at = layout[NODE_AT] + FIELDS * free
    axis = state[layout[NODE_AT] + FIELDS * state[at + PARENT] + 1]
    beside = (state[at + WIDTH] - width) * state[at + HEIGHT]
    below = (state[at + HEIGHT] - height) * state[at + WIDTH]
    cut_x_first = beside > below
    if chance(state, 10) == 0:
        cut_x_first = not cut_x_first
    return 1 if cut_x_first == (axis != 0) else 0


@compiled
def _new_sheet(state: Table, layout: Table, width: int, height: int) -> int:
    """The free node of a new sheet that the budget allows, chosen by chance among those that the piece fits."""
    count, chosen = 0, -1
    for s in range(layout[STOCKS]):
        at = layout[STOCK_AT] + 4 * s
        if layout[at] < width or layout[at + 1] < height or state[COST] + layout[at + 2] > layout[BUDGET]:
            continue
        if layout[at + 3] >= 0 and state[layout[USED_AT] + s] >= layout[at + 3]:
            continue
        count += 1
        if chance(state, count) == 0:
            chosen = s
    if chosen < 0:
        return -1
    return open_sheet(state, layout, chosen)
