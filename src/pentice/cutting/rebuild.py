"""Ruin and recreate: some pieces are taken off their sheets and put back another way.

After Gardeyn and Wauters 2022 (over trees of guillotine cuts, towards a goal) and Burke and Bykov 2017
(late acceptance). There are two ways. Towards a goal, a cost that the best plan does not reach yet: sheets are only
opened within it, and the search is for the pieces still waiting to come to nothing. Where it stands still, the pieces
that wait count for more (as absences do in Christiaens and Vanden Berghe 2020). By cost: every piece always has its
place, and the search is for less cost, net of the rests worth keeping.
"""

from __future__ import annotations

from pentice.cutting.compiled import Table, compiled_lean
from pentice.cutting.trees import (
    ALONG_X,
    BUDGET,
    CLASS_AT,
    COST,
    DEAREST,
    DUE_AT,
    FIELDS,
    FIRST,
    HEIGHT,
    HOLD,
    HOLDS,
    JOURNAL_AT,
    KEEP_KERF,
    KIND,
    LATE,
    LEAST_REST,
    LOOKS,
    NODE_AT,
    ORDER_AT,
    PARENT,
    PIECE_AT,
    PIECE_DATA,
    PIECES,
    RATE,
    STAGES,
    STOCK,
    STOCK_AT,
    STOCKS,
    UNUSED,
    USED_AT,
    WAITING,
    WAITING_AT,
    WAITING_DUE,
    WHOLE,
    WIDTH,
    WORTH,
    chance,
    class_of,
    close_sheet,
    go_back,
    open_sheet,
    put,
    settle,
    sheet_of,
    stage_of,
    take_out,
    write,
)

_BLINK = 50
FREE_SHARE = 16
_NODES_SPARE = 8
_PATIENCE, _MORE, _FAR = 6, 8, 256
"""After six times the late acceptance list without anything better, what waits counts for an eighth more; where one
counts for 256 times its area, all pieces go half way back to theirs."""


@compiled_lean
def search(state: Table, layout: Table, last: Table, history: Table, rounds: int) -> int:
    """Rounds of ruin and recreate; ends at once when nothing waits and the cost is within the budget.

    Parameters
    ----------
    state, layout, last
        The tables of `trees`; the state is settled.
    history
        The late acceptance list; then its place, the rounds since the best, and how bad that was.
    rounds
        How many may be made [-].

    Returns
    -------
    int
        How many were made [-].
    """
    done = 0
    now = _badness(state, layout)
    late = layout[LATE]
    while done < rounds and (state[WAITING] > 0 or state[COST] - state[WORTH] > layout[BUDGET]):
        done += 1
        _ruin(state, layout)
        recreate(state, layout, chance(state, 6 * 1009))
        new = _badness(state, layout)
        place = history[late]
        if new <= now or new <= history[place]:
            now = new
            settle(state, layout, last)
        else:
            go_back(state, layout, last)
        history[place] = now
        history[late] = (place + 1) % late
        history[late + 1] += 1
        if now < history[late + 2]:
            history[late + 1], history[late + 2] = 0, now
        elif history[late + 1] >= _PATIENCE * late:
            _press(state, layout, last)
            now = _badness(state, layout)
            history[late + 1], history[late + 2] = 0, now
    return done


@compiled_lean
def _press(state: Table, layout: Table, last: Table) -> None:
    """What waits counts for more from now on, so that other pieces come to wait in its place; the state is settled."""
    far = False
    for i in range(state[WAITING]):
        piece = state[layout[WAITING_AT] + i]
        at = layout[DUE_AT] + piece
        layout[at] += 1 + layout[at] // _MORE
        if layout[at] > _FAR * layout[PIECE_DATA + 3 * piece + 2]:
            far = True
    if far:
        for piece in range(layout[PIECES]):
            at = layout[DUE_AT] + piece
            layout[at] = (layout[at] + layout[PIECE_DATA + 3 * piece + 2]) // 2
    _sum_up(state, layout)
    last[WAITING_DUE] = state[WAITING_DUE]


@compiled_lean
def even(state: Table, layout: Table) -> None:
    """Every piece counts for its area again while it waits."""
    for piece in range(layout[PIECES]):
        layout[layout[DUE_AT] + piece] = layout[PIECE_DATA + 3 * piece + 2]
    _sum_up(state, layout)


@compiled_lean
def _sum_up(state: Table, layout: Table) -> None:
    state[WAITING_DUE] = 0
    for i in range(state[WAITING]):
        state[WAITING_DUE] += layout[layout[DUE_AT] + state[layout[WAITING_AT] + i]]


@compiled_lean
def search_net(state: Table, layout: Table, last: Table, best: Table, history: Table, rounds: int) -> int:
    """Rounds of ruin and recreate towards the least cost net of rests; `best` gets the best state that they come by.

    Parameters
    ----------
    state, layout, last
        The tables of `trees`; the state is settled.
    best
        A state, changed where a better one is found.
    history
        The late acceptance list, then its place.
    rounds
        How many may be made [-].

    Returns
    -------
    int
        How many were made [-].
    """
    done, late = 0, layout[LATE]
    now, least = _net(state, layout), _net(best, layout)
    while done < rounds:
        done += 1
        _ruin(state, layout)
        recreate(state, layout, chance(state, 6 * 1009))
        new = _net(state, layout)
        place = history[late]
        if new > now and now < least:
            # The best so far is copied only when it is about to be left.
            go_back(state, layout, last)
            least = now
            for i in range(layout[JOURNAL_AT]):
                best[i] = state[i]
        elif new <= now or new <= history[place]:
            now = new
            settle(state, layout, last)
        else:
            go_back(state, layout, last)
        history[place] = now
        history[late] = (place + 1) % late
    if now < least:
        for i in range(layout[JOURNAL_AT]):
            best[i] = state[i]
    return done


@compiled_lean
def _badness(state: Table, layout: Table) -> int:
    """What waits, by area or more, and the area of what is above the budget, less a little for large free parts."""
    above = max(0, state[COST] - state[WORTH] - layout[BUDGET]) * HOLD // layout[HOLDS]
    return FREE_SHARE * (state[WAITING_DUE] + above) - state[WHOLE]  # type: ignore[no-any-return]  # a whole number


@compiled_lean
def _net(state: Table, layout: Table) -> int:
    """Cost net of what is kept, a little less for free area in large parts; what waits costs more than any sheet."""
    cost = state[COST] - state[WORTH] + layout[DEAREST] * state[WAITING]
    return FREE_SHARE * cost - state[WHOLE] * layout[HOLDS] // HOLD  # type: ignore[no-any-return]  # a whole number


@compiled_lean
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


@compiled_lean
def close_one(state: Table, layout: Table) -> None:
    """Give back a sheet, found by one of its pieces."""
    node = _some_piece(state, layout)
    if node >= 0:
        close_sheet(state, layout, sheet_of(state, layout, node))


@compiled_lean
def _some_piece(state: Table, layout: Table) -> int:
    """The node of a piece that lies on a sheet, or -1 where there is none."""
    for _ in range(32):
        node = state[layout[PIECE_AT] + chance(state, layout[PIECES])]
        if node >= 0:
            return node  # type: ignore[no-any-return]  # a whole number
    return -1


@compiled_lean
def recreate(state: Table, layout: Table, order: int) -> None:
    """Put back what waits, the largest first (by area, width, height, longer side, sum of sides, or by chance)."""
    count = state[WAITING]
    waiting, base = layout[WAITING_AT], layout[ORDER_AT]
    keys = base + layout[PIECES]
    for i in range(count):
        piece = state[waiting + i]
        state[base + i] = piece
        state[keys + i] = _key(layout, piece, order % 6, order // 6)
    gap = 1
    while 3 * gap + 1 < count:
        gap = 3 * gap + 1
    while gap > 0:
        for i in range(gap, count):
            piece, key = state[base + i], state[keys + i]
            j = i - gap
            while j >= 0 and state[keys + j] < key:
                state[base + j + gap] = state[base + j]
                state[keys + j + gap] = state[keys + j]
                j -= gap
            state[base + j + gap] = piece
            state[keys + j + gap] = key
        gap //= 3
    way = chance(state, 4)
    left = 0
    for i in range(count):
        piece = state[base + i]
        if _place(state, layout, piece, way):
            state[WAITING_DUE] -= layout[layout[DUE_AT] + piece]
        else:
            write(state, layout, waiting + left, piece)
            left += 1
    state[WAITING] = left


@compiled_lean
def _key(layout: Table, piece: int, order: int, salt: int) -> int:
    at = PIECE_DATA + 3 * piece
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


@compiled_lean
def _place(state: Table, layout: Table, piece: int, way: int) -> int:
    """Cut the piece from the free node that suits best, else from a new sheet within the budget; 0 where neither."""
    if state[UNUSED] < _NODES_SPARE:
        return 0
    width, height = layout[PIECE_DATA + 3 * piece], layout[PIECE_DATA + 3 * piece + 1]
    free = _best_free(state, layout, width, height, way)
    if free < 0:
        free = _new_sheet(state, layout, width, height)
        if free < 0:
            return 0
    across = _across(state, layout, free, width, height)
    across *= _in_stages(state, layout, free, width, height, across)
    put(state, layout, piece, free, across)
    return 1


@compiled_lean
def _best_free(state: Table, layout: Table, width: int, height: int, way: int) -> int:
    """The free node that suits a piece best, now and then passed over by chance; -1 where there is none.

    By area, or by what is left beside it. Classes of smaller area come first, so that by area the first that has one
    will do.
    """
    best, best_free = 1 << 62, -1
    number, seen = class_of(layout, width * height), 0
    while number >= 0 and seen < layout[LOOKS] and (way >= 2 or best_free < 0):
        free = state[layout[CLASS_AT] + number]
        number -= 1
        while free >= 0 and seen < layout[LOOKS]:
            at = layout[NODE_AT] + FIELDS * free
            w, h = state[at + WIDTH], state[at + HEIGHT]
            this, free, seen = free, state[at + FIRST], seen + 1
            if not _leaves_well(layout, w - width, h - height):
                continue
            if not _in_stages(state, layout, this, width, height, 0):
                continue
            if chance(state, _BLINK) == 0:
                continue
            score = _score(w, h, width, height, way)
            if score < best:
                best, best_free = score, this
    return best_free


@compiled_lean
def _leaves_well(layout: Table, beside: int, below: int) -> bool:
    """Whether a part holds a piece, and what its cuts leave beside and below it is nothing, or enough to be held."""
    if beside < 0 or below < 0:
        return False
    least = layout[LEAST_REST]
    return (beside == 0 or beside >= least) and (below == 0 or below >= least)


@compiled_lean
def _score(w: int, h: int, width: int, height: int, way: int) -> int:
    """How badly a free part suits a piece: by its area, what is left along one side, or the lesser of two rests."""
    if way < 2:
        return w * h
    if way == 2:
        return min(w - width, h - height)
    return min((w - width) * h, (h - height) * w)


@compiled_lean
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


@compiled_lean
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


@compiled_lean
def _new_sheet(state: Table, layout: Table, width: int, height: int) -> int:
    """The free node of a new sheet that the budget allows, chosen by chance among those that the piece fits."""
    count, chosen = 0, -1
    for s in range(layout[STOCKS]):
        at = layout[STOCK_AT] + STOCK * s
        if not _leaves_well(layout, layout[at] - width, layout[at + 1] - height):
            continue
        whole = (
            (layout[at] - layout[KEEP_KERF]) * (layout[at + 1] - layout[KEEP_KERF]) * layout[at + 4] // RATE
        )
        if state[COST] - state[WORTH] + layout[at + 2] - whole > layout[BUDGET]:
            continue
        if layout[at + 3] >= 0 and state[layout[USED_AT] + s] >= layout[at + 3]:
            continue
        count += 1
        if chance(state, count) == 0:
            chosen = s
    if chosen < 0:
        return -1
    return open_sheet(state, layout, chosen)
