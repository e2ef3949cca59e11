"""Cuts rectangles from sheets by any straight edge-to-edge cuts: no limit on stages, several stocks, kerf, trims.

A plan stands at once and gets better for as long as it may: sheets are built in several orders, then ruined in part and
built anew towards a cost that is not reached yet (`rebuild`). It ends when the plan meets its bound.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from pentice.cutting import trees
from pentice.cutting.compiled import COMPILED, Table, table
from pentice.cutting.rebuild import close_one, recreate, search

Stop = Callable[[], bool]
Progress = Callable[[int, int], None]

_STARTS, _FEW_STARTS = 12, 2
_MANY = 3_000
"""Pieces that are placed in all first plans together; beyond, fewer plans are made."""
_AT_ONCE = 250 if COMPILED else 10
_ANEW = 200_000
_ANY_COST = 1 << 60
_ORDERS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How long to search: by work (``rounds``: the same plan each time), or until ``stop`` is True; one must be given.

    ``seed`` starts another search; ``progress`` is told cost and bound at each better plan. ``stages`` is how many
    times the direction of the cuts may change on one sheet, the first and the last trims of the pieces among them: 3
    for a saw bench, None for no limit.
    """

    rounds: int | None = None
    stop: Stop | None = None
    seed: int = 1
    progress: Progress | None = None
    stages: int | None = None

    @property
    def stopped(self) -> bool:
        """Whether a stop was asked for."""
        return self.stop is not None and self.stop()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """Pieces alike that are wanted: never turned."""

    width: int
    height: int
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A sheet that can be had: its size, its cost, how many there are, and what is cut off each edge first.

    ``paid_area`` is what its cost is shared over where a rest is valued: None where it is the size given.
    """

    width: int
    height: int
    cost: int
    count: int | None = None
    trim: int = 0
    paid_area: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where one rectangle of a kind lies on its board; ``kind`` is -1 for what is left free."""

    kind: int
    x: int
    y: int
    width: int
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """One board, what lies on it, and the free rectangles that the same cuts leave."""

    board: int
    places: tuple[Place, ...]
    free: tuple[Place, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """Every board of a plan, what they cost, and what any plan costs at least."""

    boards: tuple[Packed, ...]
    cost: int
    bound: int
    stages: int | None = None
    """The limit of stages that it was made for; None for none."""

    @property
    def proven(self) -> bool:
        """Whether cost and bound meet."""
        return self.cost == self.bound


def pack(
    pieces: Sequence[Rectangle],
    boards: Sequence[Board],
    *,
    kerf: int,
    limits: Limits,
    bound: int = 0,
) -> Packing | None:
    """A plan of low cost.

    Parameters
    ----------
    pieces, boards
        What is wanted and what it can be cut from; whole numbers of one unit.
    kerf
        Width of a cut.
    limits
        How long to search.
    bound
        A cost that no plan can go below [-]; the search ends there.

    Returns
    -------
    Packing or None
        None where no plan was found at all: too few boards.

    Examples
    --------
    >>> found = pack([Rectangle(width=4, height=6, count=4)], [Board(width=9, height=12, cost=5)], kerf=0,
    ...     limits=Limits(rounds=50))
    >>> found.cost, len(found.boards)
    (5, 1)
    """
    if not any(piece.count for piece in pieces):
        return Packing(boards=(), cost=0, bound=0)
    begun = Search.begun(pieces, boards, kerf, limits)
    if begun is None:
        return None
    begun.advance(bound, limits)
    return begun.packing(bound)


class Search:
    """A search that can be gone on with: the tables of the best plan and of the one that is being changed."""

    def __init__(self, layout: Table, best: Table, seed: int) -> None:
        self.layout, self.best, self._seed = layout, best, seed
        self._state, self._kept = best.copy(), table([0] * int(layout[trees.SIZE]))
        self._history = _history(layout)
        self._since = 0
        self._read: tuple[Sequence[int], Sequence[Board], int] = ((), (), 0)
        self._step = 1

    @classmethod
    def begun(
        cls, pieces: Sequence[Rectangle], boards: Sequence[Board], kerf: int, limits: Limits
    ) -> Search | None:
        """A first whole plan; None where none was found."""
        kinds = [k for k, piece in enumerate(pieces) for _ in range(piece.count)]
        sizes = [(pieces[k].width + kerf, pieces[k].height + kerf) for k in kinds]
        stocks = [_stock(board, kerf) for board in boards]
        for nodes_each in (3, 4):
            layout = table(trees.layout_of(sizes, stocks, len(sizes), nodes_each))
            layout[trees.STAGES] = limits.stages or 0
            best = _built(layout, limits.seed)
            if best is not None:
                break
        else:
            return None
        begun = cls(layout, best, limits.seed)
        begun._read, begun._step = (kinds, boards, kerf), math.gcd(*(b.cost for b in boards)) or 1
        return begun

    @property
    def cost(self) -> int:
        """Of the best plan."""
        return int(self.best[trees.COST])

    def packing(self, bound: int) -> Packing:
        """The best plan so far."""
        boards = tuple(_packed(self.best, self.layout, *self._read))
        stages = int(self.layout[trees.STAGES]) or None
        return Packing(boards=boards, cost=self.cost, bound=min(bound, self.cost), stages=stages)

    def advance(self, bound: int, limits: Limits) -> int:
        """Towards ever lower costs until the bound is met or the work is done; the rounds made."""
        done, rounds = 0, limits.rounds
        while self.cost > bound and (rounds is None or done < rounds) and not limits.stopped:
            self._aim(self.cost - self._step)
            part = _AT_ONCE if rounds is None else min(_AT_ONCE, rounds - done)
            made = int(search(self._state, self.layout, self._kept, self._history, part))
            done, self._since = done + max(1, made), self._since + made
            if self._state[trees.WAITING] == 0:
                self.best = self._state.copy()
                if limits.progress is not None:
                    limits.progress(self.cost, bound)
        return done

    def _aim(self, goal: int) -> None:
        """A new goal, or the same one anew where it was not reached for long."""
        if self.layout[trees.BUDGET] == goal and self._since < _ANEW:
            return
        self.layout[trees.BUDGET] = goal
        self._since = 0
        self._state[trees.CHANCE] = (int(self._state[trees.CHANCE]) + self._seed) & trees.MASK
        while self._state[trees.COST] > goal:
            close_one(self._state, self.layout)
        self._history = _history(self.layout)


def _stock(board: Board, kerf: int) -> tuple[int, int, int, int]:
    size = (board.width - 2 * board.trim + kerf, board.height - 2 * board.trim + kerf)
    return (*size, board.cost, -1 if board.count is None else board.count)


def _built(layout: Table, seed: int) -> Table | None:
    """The cheapest of several plans, each built piece after piece in another order; None where none is whole."""
    best: Table | None = None
    layout[trees.BUDGET] = _ANY_COST
    starts = max(_FEW_STARTS, min(_STARTS, _MANY // max(1, int(layout[trees.PIECES]))))
    for start in range(starts):
        state = table([0] * int(layout[trees.SIZE]))
        trees.clear(state, layout, seed * 1000 + start)
        recreate(state, layout, start % _ORDERS)
        if state[trees.WAITING] == 0 and (best is None or state[trees.COST] < best[trees.COST]):
            best = state
    return best if best is not None else _hunted(layout, seed)


def _hunted(layout: Table, seed: int) -> Table | None:
    """A whole plan where stock is short, found by search."""
    state = table([0] * int(layout[trees.SIZE]))
    trees.clear(state, layout, seed)
    recreate(state, layout, 0)
    _search(state, layout, 2_000)
    return state if state[trees.WAITING] == 0 else None


def _history(layout: Table) -> Table:
    """The late acceptance list, in which anything goes at first, and its place at the end."""
    return table([_ANY_COST] * int(layout[trees.LATE]) + [0])


def _search(state: Table, layout: Table, rounds: int) -> int:
    kept = table([0] * int(layout[trees.SIZE]))
    return int(search(state, layout, kept, _history(layout), rounds))


def _packed(
    state: Table, layout: Table, kinds: Sequence[int], boards: Sequence[Board], kerf: int
) -> Iterator[Packed]:
    """Every open sheet, read from its tree."""
    for s in range(int(layout[trees.SHEETS])):
        at = int(layout[trees.SHEET_AT]) + 2 * s
        if state[at] < 0:
            continue
        trim = boards[int(state[at + 1])].trim
        leaves = list(_leaves(state, int(layout[trees.NODE_AT]), int(state[at]), trim, trim))
        places = [
            Place(kind=kinds[piece] if piece >= 0 else -1, x=x, y=y, width=w - kerf, height=h - kerf)
            for piece, x, y, w, h in leaves
        ]
        yield Packed(
            board=int(state[at + 1]),
            places=tuple(p for p in places if p.kind >= 0),
            free=tuple(p for p in places if p.kind < 0 and p.width > 0 and p.height > 0),
        )


def _leaves(state: Table, base: int, node: int, x: int, y: int) -> Iterator[tuple[int, int, int, int, int]]:
    """Piece (-1: free), place and size of every leaf below a node."""
    at = base + trees.FIELDS * node
    kind = int(state[at + trees.KIND])
    size = (int(state[at + trees.WIDTH]), int(state[at + trees.HEIGHT]))
    if kind in (trees.PIECE, trees.FREE):
        yield (int(state[at + trees.EXTRA]) if kind == trees.PIECE else -1, x, y, *size)
        return
    child = int(state[at + trees.FIRST])
    while child >= 0:
        below = base + trees.FIELDS * child
        yield from _leaves(state, base, child, x, y)
        if kind == trees.ALONG_X:
            x += int(state[below + trees.WIDTH])
        else:
            y += int(state[below + trees.HEIGHT])
        child = int(state[below + trees.NEXT])
