"""Sheets as trees of cuts, in one flat table: what is cut by straight cuts from edge to edge, and what is left free.

Each sheet is a tree. A node is a piece, a free rectangle, or a rectangle cut into children side by side: along x where
its parent was cut along y, and the other way round. A cut rectangle has at most one free child, because free neighbours
are one free rectangle. Pieces and sheets are both larger by the kerf, so that no cut needs room of its own.

The table begins with counts; then come the nodes, the first free node of each class of area, the unused nodes, the
pieces that wait, the node of each piece, the sheets, the unused places for sheets, how many of each stock are used, and
the journal: which cells were written since the state was last settled. ``last`` is a copy of the settled state; to go
back, or to settle anew, only the cells of the journal are copied, so that a round takes no longer where there are more
pieces. ``layout`` says where all this stands, and holds the pieces, the stocks, and what each piece counts for while it
waits. Functions read and write both by place, so that they can be compiled.
"""

from __future__ import annotations

from pentice.cutting.compiled import Table, compiled_lean

# Counts at the beginning of the state.
WRITES, UNUSED, WAITING, WAITING_DUE, COST, CHANCE, WHOLE, WORTH, CLOSED = range(9)
_COUNTS = 12
"""Counts are copied each time; all other cells only where the journal has them."""

# Places in the layout.
PIECES, STOCKS, NODES, SHEETS, BUDGET = 0, 1, 2, 3, 4
NODE_AT, CLASS_AT, UNUSED_AT, WAITING_AT, PIECE_AT, SHEET_AT, CLOSED_AT, USED_AT, JOURNAL_AT, ORDER_AT = (
    range(5, 15)
)
SIZE, STOCK_AT, LARGEST, LARGEST_BITS, LATE, STAGES, JOURNAL = range(15, 22)
KEEP_WIDTH, KEEP_HEIGHT, KEEP_KERF, LOOKS, HOLDS, DEAREST, LEAST_REST, DUE_AT = range(22, 30)
PIECE_DATA = 30

STOCK = 5
"""Cells of a stock: width, height, cost, number, and what a unit of area kept is worth, in steps of `RATE`."""
RATE, HOLD = 1 << 28, 1 << 12
"""Steps of the worth of kept area; steps, coarser so that sums of squares have room, of what area costs."""
CLASSES = 16
"""Free nodes are listed by area, each class half of the one before; the last holds all that are smaller."""

# A node. A free one has no children: FIRST is the next free one of its class, EXTRA the one before.
PARENT, KIND, WIDTH, HEIGHT, FIRST, NEXT, BEFORE, EXTRA = 0, 1, 2, 3, 4, 5, 6, 7
FIELDS = 8
ALONG_X, ALONG_Y, PIECE, FREE = 0, 1, 2, 3

# How long a state is remembered in late acceptance: tried on published data, longer for sheets of one size.
_LATE_ONE, _LATE_MANY = 500, 64
_ANY = 1 << 60

_MULTIPLIER, _STEP, MASK = 25214903917, 11, (1 << 48) - 1


def layout_of(
    pieces: list[tuple[int, int]],
    stocks: list[tuple[int, int, int, int, int]],
    sheets: int,
    nodes_each: int = 3,
    keep: tuple[int, int, int] = (0, 0, 0),
) -> list[int]:
    """The fixed table of a problem.

    Parameters
    ----------
    pieces
        Width and height of each piece, the kerf added.
    stocks
        Width and height (kerf added), cost and number (-1: any number) of each stock, and what a unit of area kept of
        it is worth, in steps of `RATE`.
    sheets
        How many sheets may be open at once.
    nodes_each
        Nodes for each piece: 4 are always enough, 3 where most sheets hold several, and the table is smaller [-].
    keep
        Least width and height of a rest worth keeping (kerf added), and the kerf; 0 where no rest is worth anything.

    Returns
    -------
    list of int
        To be made a table.
    """
    nodes = nodes_each * len(pieces) + 2 * sheets + 16
    journal = nodes // 2
    stock_at = PIECE_DATA + 3 * len(pieces)
    places, at = [], _COUNTS
    for length in (
        FIELDS * nodes,
        CLASSES,
        nodes,
        len(pieces),
        len(pieces),
        2 * sheets,
        sheets,
        len(stocks),
        journal,
        2 * len(pieces),
    ):
        places.append(at)
        at += length
    largest, dearest = max(s[0] * s[1] for s in stocks), 1 + max(s[2] for s in stocks)
    late = _LATE_ONE if len(stocks) == 1 else _LATE_MANY
    head = [len(pieces), len(stocks), nodes, sheets, _ANY, *places]
    head += [at, stock_at, largest, largest.bit_length(), late, 0, journal]
    head += [*keep, _ANY, max(1, dearest * HOLD // largest), dearest, 0]
    head += [stock_at + STOCK * len(stocks)]
    sizes = [n for w, h in pieces for n in (w, h, w * h)]
    return [*head, *sizes, *(n for stock in stocks for n in stock), *(w * h for w, h in pieces)]


@compiled_lean
def clear(state: Table, layout: Table, seed: int) -> None:
    """Every piece waits, no sheet is open, every node is unused."""
    for i in range(layout[SIZE]):
        state[i] = 0
    begin_chance(state, seed)
    nodes, sheets = layout[NODES], layout[SHEETS]
    state[UNUSED] = nodes
    for i in range(nodes):
        state[layout[UNUSED_AT] + i] = nodes - 1 - i
    state[CLOSED] = sheets
    for s in range(sheets):
        state[layout[SHEET_AT] + 2 * s] = -1
        state[layout[CLOSED_AT] + s] = sheets - 1 - s
    for c in range(CLASSES):
        state[layout[CLASS_AT] + c] = -1
    for p in range(layout[PIECES]):
        _wait(state, layout, p)


@compiled_lean
def write(state: Table, layout: Table, at: int, value: int) -> None:
    """A cell changes, and the journal says so; cells beyond its room are counted only."""
    done = state[WRITES]
    if done < layout[JOURNAL]:
        state[layout[JOURNAL_AT] + done] = at
    state[WRITES] = done + 1
    state[at] = value


@compiled_lean
def _touch(state: Table, layout: Table, node: int) -> None:
    """The fields of a node change, and the journal says so."""
    done = state[WRITES]
    if done < layout[JOURNAL]:
        state[layout[JOURNAL_AT] + done] = -1 - node
    state[WRITES] = done + 1


@compiled_lean
def settle(state: Table, layout: Table, last: Table) -> None:
    """The state as it is now is the one to go back to."""
    _copy_written(state, layout, state, last)


@compiled_lean
def go_back(state: Table, layout: Table, last: Table) -> None:
    """The state becomes again what it was when it was settled; only the chance goes on."""
    number = state[CHANCE]
    _copy_written(state, layout, last, state)
    state[CHANCE] = number


@compiled_lean
def _copy_written(state: Table, layout: Table, source: Table, target: Table) -> None:
    done = state[WRITES]
    if done > layout[JOURNAL]:
        for i in range(layout[JOURNAL_AT]):
            target[i] = source[i]
    else:
        base = layout[JOURNAL_AT]
        for i in range(base, base + done):
            at = state[i]
            if at >= 0:
                target[at] = source[at]
            else:
                at = layout[NODE_AT] - FIELDS * (at + 1)
                for j in range(at, at + FIELDS):
                    target[j] = source[j]
        for i in range(_COUNTS):
            target[i] = source[i]
    state[WRITES] = 0


@compiled_lean
def begin_chance(state: Table, seed: int) -> None:
    """Where chance begins."""
    state[CHANCE] = (seed * _MULTIPLIER + 12345) & MASK


@compiled_lean
def chance(state: Table, below: int) -> int:
    """A number from 0 up to, not including, ``below``: the same each time for the same seed."""
    state[CHANCE] = (state[CHANCE] * _MULTIPLIER + _STEP) & MASK
    return ((state[CHANCE] >> 17) * below) >> 31  # type: ignore[no-any-return]  # a whole number


@compiled_lean
def _wait(state: Table, layout: Table, piece: int) -> None:
    write(state, layout, layout[WAITING_AT] + state[WAITING], piece)
    state[WAITING] += 1
    state[WAITING_DUE] += layout[layout[DUE_AT] + piece]
    write(state, layout, layout[PIECE_AT] + piece, -1)


@compiled_lean
def new_node(state: Table, layout: Table, parent: int, kind: int, width: int, height: int) -> int:
    """A node from the unused, as the first child of its parent where it has one."""
    state[UNUSED] -= 1
    node = state[layout[UNUSED_AT] + state[UNUSED]]
    at = layout[NODE_AT] + FIELDS * node
    head = -1
    _touch(state, layout, node)
    if parent >= 0:
        above = layout[NODE_AT] + FIELDS * parent
        head = state[above + FIRST]
        if head >= 0:
            _touch(state, layout, head)
            state[layout[NODE_AT] + FIELDS * head + BEFORE] = node
        _touch(state, layout, parent)
        state[above + FIRST] = node
    state[at + PARENT] = parent
    state[at + KIND] = kind
    state[at + WIDTH] = width
    state[at + HEIGHT] = height
    state[at + FIRST] = -1
    state[at + NEXT] = head
    state[at + BEFORE] = -1
    if kind == FREE:
        _enlist(state, layout, node)
    return node  # type: ignore[no-any-return]  # a whole number


@compiled_lean
def class_of(layout: Table, area: int) -> int:
    """The class of free nodes of an area."""
    number = 0
    while number < CLASSES - 1 and area < layout[LARGEST]:
        area *= 2
        number += 1
    return number


@compiled_lean
def _counted(state: Table, layout: Table, node: int, times: int) -> None:
    """A free node counts for what it may still hold, and for what it would be worth kept."""
    at = layout[NODE_AT] + FIELDS * node
    width, height = state[at + WIDTH], state[at + HEIGHT]
    area = width * height
    state[WHOLE] += times * (area * area >> layout[LARGEST_BITS])
    if layout[KEEP_WIDTH] > 0 and width >= layout[KEEP_WIDTH] and height >= layout[KEEP_HEIGHT]:
        sheet = sheet_of(state, layout, node)
        rate = layout[layout[STOCK_AT] + STOCK * state[layout[SHEET_AT] + 2 * sheet + 1] + 4]
        area = (width - layout[KEEP_KERF]) * (height - layout[KEEP_KERF])
        state[WORTH] += times * (area * rate // RATE)


@compiled_lean
def _enlist(state: Table, layout: Table, node: int) -> None:
    """The node, touched before, is free from now on."""
    at = layout[NODE_AT] + FIELDS * node
    head = layout[CLASS_AT] + class_of(layout, state[at + WIDTH] * state[at + HEIGHT])
    after = state[head]
    state[at + KIND] = FREE
    state[at + FIRST] = after
    state[at + EXTRA] = -1
    if after >= 0:
        _touch(state, layout, after)
        state[layout[NODE_AT] + FIELDS * after + EXTRA] = node
    write(state, layout, head, node)
    _counted(state, layout, node, 1)


@compiled_lean
def strike(state: Table, layout: Table, node: int) -> None:
    """The node is free no more; its size is still what it was. It is touched."""
    at = layout[NODE_AT] + FIELDS * node
    before, after = state[at + EXTRA], state[at + FIRST]
    if before >= 0:
        _touch(state, layout, before)
        state[layout[NODE_AT] + FIELDS * before + FIRST] = after
    else:
        head = layout[CLASS_AT] + class_of(layout, state[at + WIDTH] * state[at + HEIGHT])
        write(state, layout, head, after)
    if after >= 0:
        _touch(state, layout, after)
        state[layout[NODE_AT] + FIELDS * after + EXTRA] = before
    _touch(state, layout, node)
    state[at + FIRST] = -1
    _counted(state, layout, node, -1)


@compiled_lean
def discard(state: Table, layout: Table, node: int) -> None:
    """Take a leaf from its parent and put it back with the unused."""
    at = layout[NODE_AT] + FIELDS * node
    before, after, parent = state[at + BEFORE], state[at + NEXT], state[at + PARENT]
    if before >= 0:
        _touch(state, layout, before)
        state[layout[NODE_AT] + FIELDS * before + NEXT] = after
    elif parent >= 0:
        _touch(state, layout, parent)
        state[layout[NODE_AT] + FIELDS * parent + FIRST] = after
    if after >= 0:
        _touch(state, layout, after)
        state[layout[NODE_AT] + FIELDS * after + BEFORE] = before
    write(state, layout, layout[UNUSED_AT] + state[UNUSED], node)
    state[UNUSED] += 1


@compiled_lean
def open_sheet(state: Table, layout: Table, stock: int) -> int:
    """A new sheet of a stock; its free node, or -1 where no place is left."""
    if state[CLOSED] == 0:
        return -1
    state[CLOSED] -= 1
    s = state[layout[CLOSED_AT] + state[CLOSED]]
    data = layout[STOCK_AT] + STOCK * stock
    root = new_node(state, layout, -1 - s, ALONG_X, layout[data], layout[data + 1])
    at = layout[SHEET_AT] + 2 * s
    write(state, layout, at, root)
    write(state, layout, at + 1, stock)
    at = layout[USED_AT] + stock
    write(state, layout, at, state[at] + 1)
    state[COST] += layout[data + 2]
    return new_node(state, layout, root, FREE, layout[data], layout[data + 1])


@compiled_lean
def close_sheet(state: Table, layout: Table, sheet: int) -> None:
    """Empty a sheet and give it back."""
    at = layout[SHEET_AT] + 2 * sheet
    root, stock = state[at], state[at + 1]
    _empty(state, layout, root)
    discard(state, layout, root)
    write(state, layout, at, -1)
    write(state, layout, layout[CLOSED_AT] + state[CLOSED], sheet)
    state[CLOSED] += 1
    at = layout[USED_AT] + stock
    write(state, layout, at, state[at] - 1)
    state[COST] -= layout[layout[STOCK_AT] + STOCK * stock + 2]


@compiled_lean
def _empty(state: Table, layout: Table, top: int) -> None:
    """Discard all that lies below a node; its pieces wait."""
    node = state[layout[NODE_AT] + FIELDS * top + FIRST]
    while node >= 0:
        at = layout[NODE_AT] + FIELDS * node
        kind = state[at + KIND]
        if kind != FREE and state[at + FIRST] >= 0:
            node = state[at + FIRST]
            continue
        parent, after = state[at + PARENT], state[at + NEXT]
        if kind == PIECE:
            _wait(state, layout, state[at + EXTRA])
        elif kind == FREE:
            strike(state, layout, node)
        discard(state, layout, node)
        node = after
        if node < 0 and parent != top:
            node = parent


@compiled_lean
def put(state: Table, layout: Table, piece: int, free: int, across: int) -> None:
    """Cut a piece from a free node: the first cut as its parent is cut, or (``across``) the other way.

    Every node that changes is touched: the free one when it is struck, its parts when they are made.
    """
    at = layout[NODE_AT] + FIELDS * free
    axis = state[layout[NODE_AT] + FIELDS * state[at + PARENT] + KIND]
    width, height = layout[PIECE_DATA + 3 * piece], layout[PIECE_DATA + 3 * piece + 1]
    strike(state, layout, free)
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
    write(state, layout, layout[PIECE_AT] + piece, node)


@compiled_lean
def _sibling_part(state: Table, layout: Table, node: int, width: int, height: int, axis: int) -> int:
    """The node made as long along its parent's cuts as the piece; the rest lies free beside it."""
    at = layout[NODE_AT] + FIELDS * node
    side = WIDTH + axis
    size = width if axis == ALONG_X else height
    rest = state[at + side] - size
    if rest > 0:
        if axis == ALONG_X:
            new_node(state, layout, state[at + PARENT], FREE, rest, state[at + HEIGHT])
        else:
            new_node(state, layout, state[at + PARENT], FREE, state[at + WIDTH], rest)
        state[at + side] = size
    return node


@compiled_lean
def _first_part(state: Table, layout: Table, node: int, width: int, height: int, axis: int) -> int:
    """The node cut along an axis into a part as long as the piece and a free rest; the part, or the node itself."""
    at = layout[NODE_AT] + FIELDS * node
    size = width if axis == ALONG_X else height
    rest = state[at + WIDTH + axis] - size
    if rest == 0:
        return node
    state[at + KIND] = axis
    if axis == ALONG_X:
        new_node(state, layout, node, FREE, rest, state[at + HEIGHT])
        return new_node(state, layout, node, PIECE, size, state[at + HEIGHT])
    new_node(state, layout, node, FREE, state[at + WIDTH], rest)
    return new_node(state, layout, node, PIECE, state[at + WIDTH], size)


@compiled_lean
def take_out(state: Table, layout: Table, node: int) -> None:
    """Take a piece, or all that was cut from a node, off its sheet; what is left free grows together."""
    at = layout[NODE_AT] + FIELDS * node
    if state[at + KIND] == PIECE:
        _wait(state, layout, state[at + EXTRA])
    else:
        _empty(state, layout, node)
    while True:
        at = layout[NODE_AT] + FIELDS * node
        parent = state[at + PARENT]
        above = layout[NODE_AT] + FIELDS * parent
        side = WIDTH + state[above + KIND]
        child, others = state[above + FIRST], 0
        _touch(state, layout, node)
        while child >= 0:
            below = layout[NODE_AT] + FIELDS * child
            after = state[below + NEXT]
            if child != node:
                if state[below + KIND] == FREE:
                    state[at + side] += state[below + side]
                    strike(state, layout, child)
                    discard(state, layout, child)
                else:
                    others += 1
            child = after
        if others > 0:
            _enlist(state, layout, node)
            return
        discard(state, layout, node)
        if state[above + PARENT] < 0:
            close_sheet(state, layout, -1 - state[above + PARENT])
            return
        node = parent


@compiled_lean
def stage_of(state: Table, layout: Table, free: int) -> int:
    """How many times the direction of the cuts has changed, with the first, when a free node is cut beside its kin."""
    stage = 0
    node = state[layout[NODE_AT] + FIELDS * free + PARENT]
    while node >= 0:
        stage += 1
        node = state[layout[NODE_AT] + FIELDS * node + PARENT]
    return stage


@compiled_lean
def sheet_of(state: Table, layout: Table, node: int) -> int:
    """The sheet on which a node lies."""
    while state[layout[NODE_AT] + FIELDS * node + PARENT] >= 0:
        node = state[layout[NODE_AT] + FIELDS * node + PARENT]
    return -1 - state[layout[NODE_AT] + FIELDS * node + PARENT]  # type: ignore[no-any-return]  # a whole number
