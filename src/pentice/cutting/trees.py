"""Sheets as trees of cuts, in one flat table: what is cut by straight cuts from edge to edge, and what is left free.

Each sheet is a tree. A node is a piece, a free rectangle, or a rectangle cut into children side by side: along x where
its parent was cut along y, and the other way round. A cut rectangle has at most one free child, because free neighbours
are one free rectangle. Pieces and sheets are both larger by the kerf, so that no cut needs room of its own.

The table begins with counts; then come the nodes, the list of free nodes, the unused nodes, the pieces that wait, the
node of each piece, the sheets, and how many of each stock are used. ``layout`` (the other table) says where, and holds
the pieces and the stocks. Functions read and write both by place, so that they can be compiled.
"""

from __future__ import annotations

from pentice.cutting.compiled import Table, compiled

# Counts at the beginning of the state.
FREES, UNUSED, WAITING, WAITING_AREA, COST, CHANCE = 0, 1, 2, 3, 4, 5
_COUNTS = 8

# Places in the layout.
PIECES, STOCKS, NODES, SHEETS, BUDGET = 0, 1, 2, 3, 4
NODE_AT, FREE_AT, UNUSED_AT, WAITING_AT, PIECE_AT, SHEET_AT, USED_AT = range(5, 12)
SIZE, STOCK_AT, LARGEST, LATE, STAGES = range(12, 17)
PIECE_DATA = 17

# A node.
PARENT, KIND, WIDTH, HEIGHT, FIRST, NEXT, BEFORE, EXTRA = 0, 1, 2, 3, 4, 5, 6, 7
FIELDS = 8
ALONG_X, ALONG_Y, PIECE, FREE = 0, 1, 2, 3

# How long a state is remembered in late acceptance: tried on published data, longer for sheets of one size.
_LATE_ONE, _LATE_MANY = 1500, 64

_MULTIPLIER, _STEP, MASK = 25214903917, 11, (1 << 48) - 1


def layout_of(
    pieces: list[tuple[int, int]], stocks: list[tuple[int, int, int, int]], sheets: int, nodes_each: int = 3
) -> list[int]:
    """The fixed table of a problem.

    Parameters
    ----------
    pieces
        Width and height of each piece, the kerf added.
    stocks
        Width and height (kerf added), cost and number (-1: any number) of each stock.
    sheets
        How many sheets may be open at once.
    nodes_each
        Nodes for each piece: 4 are always enough, 3 where most sheets hold several, and the table is smaller [-].

    Returns
    -------
    list of int
        To be made a table.
    """
    nodes = nodes_each * len(pieces) + 2 * sheets + 16
    stock_at = PIECE_DATA + 3 * len(pieces)
    places, at = [], _COUNTS
    for length in (FIELDS * nodes, nodes, nodes, len(pieces), len(pieces), 2 * sheets, len(stocks)):
        places.append(at)
        at += length
    largest = max(w * h for w, h, _, _ in stocks)
    late = _LATE_ONE if len(stocks) == 1 else _LATE_MANY
    head = [len(pieces), len(stocks), nodes, sheets, 0, *places, at, stock_at, largest, late, 0]
    sizes = [n for w, h in pieces for n in (w, h, w * h)]
    return [*head, *sizes, *(n for stock in stocks for n in stock)]


@compiled
def clear(state: Table, layout: Table, seed: int) -> None:
    """Every piece waits, no sheet is open, every node is unused."""
    for i in range(layout[SIZE]):
        state[i] = 0
    state[CHANCE] = (seed * _MULTIPLIER + 12345) & MASK
    nodes = layout[NODES]
    state[UNUSED] = nodes
    for i in range(nodes):
        state[layout[UNUSED_AT] + i] = nodes - 1 - i
    for s in range(layout[SHEETS]):
        state[layout[SHEET_AT] + 2 * s] = -1
    for p in range(layout[PIECES]):
        _wait(state, layout, p)


@compiled
def chance(state: Table, below: int) -> int:
    """A number from 0 up to, not including, ``below``: the same each time for the same seed."""
    state[CHANCE] = (state[CHANCE] * _MULTIPLIER + _STEP) & MASK
    return (state[CHANCE] >> 17) % below  # type: ignore[no-any-return]  # a whole number


@compiled
def _wait(state: Table, layout: Table, piece: int) -> None:
    state[layout[WAITING_AT] + state[WAITING]] = piece
    state[WAITING] += 1
    state[WAITING_AREA] += layout[PIECE_DATA + 3 * piece + 2]
    state[layout[PIECE_AT] + piece] = -1


@compiled
def _node(state: Table, layout: Table, parent: int, kind: int, width: int, height: int) -> int:
    """A node from the unused, as the first child of its parent where it has one."""
    state[UNUSED] -= 1
    node = state[layout[UNUSED_AT] + state[UNUSED]]
    at = layout[NODE_AT] + FIELDS * node
    state[at + PARENT] = parent
    state[at + WIDTH] = width
    state[at + HEIGHT] = height
    state[at + FIRST] = -1
    state[at + NEXT] = -1
    state[at + BEFORE] = -1
    if parent >= 0:
        above = layout[NODE_AT] + FIELDS * parent
        head = state[above + FIRST]
        state[at + NEXT] = head
        if head >= 0:
            state[layout[NODE_AT] + FIELDS * head + BEFORE] = node
        state[above + FIRST] = node
    state[at + KIND] = kind
    if kind == FREE:
        _enlist(state, layout, node)
    return node  # type: ignore[no-any-return]  # a whole number


@compiled
def _enlist(state: Table, layout: Table, node: int) -> None:
    """The node is free from now on."""
    at = layout[NODE_AT] + FIELDS * node
    state[at + KIND] = FREE
    state[at + EXTRA] = state[FREES]
    state[layout[FREE_AT] + state[FREES]] = node
    state[FREES] += 1


@compiled
def _strike(state: Table, layout: Table, node: int) -> None:
    """The node is free no more."""
    place = state[layout[NODE_AT] + FIELDS * node + EXTRA]
    state[FREES] -= 1
    last = state[layout[FREE_AT] + state[FREES]]
    state[layout[FREE_AT] + place] = last
    state[layout[NODE_AT] + FIELDS * last + EXTRA] = place


@compiled
def _discard(state: Table, layout: Table, node: int) -> None:
    """Take a leaf from its parent and put it back with the unused."""
    at = layout[NODE_AT] + FIELDS * node
    before, after, parent = state[at + BEFORE], state[at + NEXT], state[at + PARENT]
    if before >= 0:
        state[layout[NODE_AT] + FIELDS * before + NEXT] = after
    elif parent >= 0:
        state[layout[NODE_AT] + FIELDS * parent + FIRST] = after
    if after >= 0:
        state[layout[NODE_AT] + FIELDS * after + BEFORE] = before
    state[layout[UNUSED_AT] + state[UNUSED]] = node
    state[UNUSED] += 1


@compiled
def open_sheet(state: Table, layout: Table, stock: int) -> int:
    """A new sheet of a stock; its free node, or -1 where no place is left."""
    for s in range(layout[SHEETS]):
        if state[layout[SHEET_AT] + 2 * s] < 0:
            data = layout[STOCK_AT] + 4 * stock
            root = _node(state, layout, -1 - s, ALONG_X, layout[data], layout[data + 1])
            state[layout[SHEET_AT] + 2 * s] = root
            state[layout[SHEET_AT] + 2 * s + 1] = stock
            state[layout[USED_AT] + stock] += 1
            state[COST] += layout[data + 2]
            return _node(state, layout, root, FREE, layout[data], layout[data + 1])
    return -1


@compiled
def close_sheet(state: Table, layout: Table, sheet: int) -> None:
    """Empty a sheet and give it back."""
    root = state[layout[SHEET_AT] + 2 * sheet]
    _empty(state, layout, root)
    _discard(state, layout, root)
    stock = state[layout[SHEET_AT] + 2 * sheet + 1]
    state[layout[SHEET_AT] + 2 * sheet] = -1
    state[layout[USED_AT] + stock] -= 1
    state[COST] -= layout[layout[STOCK_AT] + 4 * stock + 2]


@compiled
def _empty(state: Table, layout: Table, top: int) -> None:
    """Discard all that lies below a node; its pieces wait."""
    node = state[layout[NODE_AT] + FIELDS * top + FIRST]
    while node >= 0:
        at = layout[NODE_AT] + FIELDS * node
        if state[at + FIRST] >= 0:
            node = state[at + FIRST]
            continue
        parent, after = state[at + PARENT], state[at + NEXT]
        if state[at + KIND] == PIECE:
            _wait(state, layout, state[at + EXTRA])
        elif state[at + KIND] == FREE:
            _strike(state, layout, node)
        _discard(state, layout, node)
        node = after
        if node < 0 and parent != top:
            node = parent


@compiled
def put(state: Table, layout: Table, piece: int, free: int, across: int) -> None:
    """Cut a piece from a free node: the first cut as its parent is cut, or (``across``) the other way."""
    at = layout[NODE_AT] + FIELDS * free
    axis = state[layout[NODE_AT] + FIELDS * state[at + PARENT] + KIND]
    width, height = layout[PIECE_DATA + 3 * piece], layout[PIECE_DATA + 3 * piece + 1]
    _strike(state, layout, free)
    node = free
    if across and (state[at + HEIGHT] > height if axis == ALONG_X else state[at + WIDTH] > width):
        node = _first_part(state, layout, node, width, height, 1 - axis)
        node = _first_part(state, layout, node, width, height, axis)
    else:
        node = _sibling_part(state, layout, node, width, height, axis)
        node = _first_part(state, layout, node, width, height, 1 - axis)
    at = layout[NODE_AT] + FIELDS * node
    state[at + KIND] = PIECE
    state[at + EXTRA] = piece
    state[layout[PIECE_AT] + piece] = node


@compiled
def _sibling_part(state: Table, layout: Table, node: int, width: int, height: int, axis: int) -> int:
    """The node made as long along its parent's cuts as the piece; the rest lies free beside it."""
    at = layout[NODE_AT] + FIELDS * node
    side = WIDTH + axis
    size = width if axis == ALONG_X else height
    rest = state[at + side] - size
    if rest > 0:
        if axis == ALONG_X:
            _node(state, layout, state[at + PARENT], FREE, rest, state[at + HEIGHT])
        else:
            _node(state, layout, state[at + PARENT], FREE, state[at + WIDTH], rest)
        state[at + side] = size
    return node


@compiled
def _first_part(state: Table, layout: Table, node: int, width: int, height: int, axis: int) -> int:
    """The node cut along an axis into a part as long as the piece and a free rest; the part, or the node itself."""
    at = layout[NODE_AT] + FIELDS * node
    size = width if axis == ALONG_X else height
    rest = state[at + WIDTH + axis] - size
    if rest == 0:
        return node
    state[at + KIND] = axis
    if axis == ALONG_X:
        _node(state, layout, node, FREE, rest, state[at + HEIGHT])
        return _node(state, layout, node, PIECE, size, state[at + HEIGHT])
    _node(state, layout, node, FREE, state[at + WIDTH], rest)
    return _node(state, layout, node, PIECE, state[at + WIDTH], size)


@compiled
def take_out(state: Table, layout: Table, node: int) -> None:
    """Take a piece, or all that was cut from a node, off its sheet; what is left free grows together."""
    at = layout[NODE_AT] + FIELDS * node
    if state[at + KIND] == PIECE:
        _wait(state, layout, state[at + EXTRA])
    else:
        _empty(state, layout, node)
    while True:
        at = layout[NODE_AT] + FIELDS * node
        _enlist(state, layout, node)
        parent = state[at + PARENT]
        above = layout[NODE_AT] + FIELDS * parent
        side = WIDTH + state[above + KIND]
        child, others = state[above + FIRST], 0
        while child >= 0:
            below = layout[NODE_AT] + FIELDS * child
            after = state[below + NEXT]
            if child != node:
                if state[below + KIND] == FREE:
                    state[at + side] += state[below + side]
                    _strike(state, layout, child)
                    _discard(state, layout, child)
                else:
                    others += 1
            child = after
        if others > 0:
            return
        if state[above + PARENT] < 0:
            close_sheet(state, layout, -1 - state[above + PARENT])
            return
        _strike(state, layout, node)
        _discard(state, layout, node)
        node = parent


@compiled
def stage_of(state: Table, layout: Table, free: int) -> int:
    """How many times the direction of the cuts has changed, with the first, when a free node is cut beside its kin."""
    stage = 0
    node = state[layout[NODE_AT] + FIELDS * free + PARENT]
    while node >= 0:
        stage += 1
        node = state[layout[NODE_AT] + FIELDS * node + PARENT]
    return stage


@compiled
def sheet_of(state: Table, layout: Table, node: int) -> int:
    """The sheet on which a node lies."""
    while state[layout[NODE_AT] + FIELDS * node + PARENT] >= 0:
        node = state[layout[NODE_AT] + FIELDS * node + PARENT]
    return -1 - state[layout[NODE_AT] + FIELDS * node + PARENT]  # type: ignore[no-any-return]  # a whole number
