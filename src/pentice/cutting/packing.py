"""Cuts rectangles from sheets by any straight edge-to-edge cuts: no limit on stages, several stocks, kerf, trims.

A plan stands at once and gets better for as long as it may: sheets are built in several orders, then ruined in part and
built anew towards a cost that is not reached yet (`rebuild`). It ends when the plan meets its bound.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from pentice.cutting import trees
from pentice.cutting.compiled import COMPILED, Table, table
from pentice.cutting.planted import Lies, planted
from pentice.cutting.rebuild import FREE_SHARE, close_one, even, recreate, search, search_net
from pentice.told import asked_to_stop

Stop = Callable[[], bool]
Progress = Callable[[int, int], None]

_STARTS, _FEW_STARTS = 12, 2
_MANY = 3_000
"""Pieces that are placed in all first plans together; beyond, fewer plans are made."""
_AT_ONCE, _AT_A_STOP = 250, 250 if COMPILED else 10
"""Rounds between two looks at what was found, the same whether compiled or not; fewer where a stop is asked for."""
_SLACK = 7
"""From its best plan on, a search that begins anew goes through plans that are dearer by up to 1/128."""
_IN_VAIN, _EACH = 20_000, 100
"""Rounds without a better plan until the other way is tried: so many, or so many for each piece."""
_LOOKS = 60
"""Free parts that are looked at for one piece once a first plan stands; only plans of many hundred pieces have more."""
_ANY_COST = 1 << 60
_ORDERS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How long to search: by work (``rounds``: the same plan each time), or until ``stop`` is True; one must be given.

    ``seed`` starts another search; ``progress`` is told cost and bound at each better plan. ``stages`` is how many
    times the direction of the cuts may change on one sheet, the first and the last trims of the pieces among them: 3
    for a saw bench, None for no limit. ``least_rest`` is the least width that a cut may leave besides a piece.
    """

    rounds: int | None = None
    stop: Stop | None = None
    seed: int = 1
    progress: Progress | None = None
    stages: int | None = None
    least_rest: int = 0

    @property
    def stopped(self) -> bool:
        """Whether a stop was asked for, of this search or of all."""
        return asked_to_stop() or (self.stop is not None and self.stop())


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


class Search:
    """A search that can be gone on with: the tables of the best plan and of the one that is being changed.

    Boards of one cost are saved one by one: each goal is a plan with one board less. Where boards differ in cost, or
    rests are worth something, every plan has its own cost and the search goes by that.
    """

    def __init__(self, layout: Table, best: Table, seed: int) -> None:
        self.layout, self.best, self._seed = layout, best, seed
        self._state, self._last = best.copy(), best.copy()
        self._since = 0
        self._read: tuple[Sequence[int], Sequence[Board], int] = ((), (), 0)
        self._step, self._goal = 1, -1
        self._only_goals = self._by_goals = int(layout[trees.STOCKS]) == 1 and not layout[trees.KEEP_WIDTH]
        self._history = self._begun()

    @classmethod
    def begun(
        cls,
        pieces: Sequence[Rectangle],
        boards: Sequence[Board],
        kerf: int,
        limits: Limits,
        kept: tuple[int, int, Sequence[Fraction]] | None = None,
    ) -> Search | None:
        """A first whole plan; None where none was found. `kept`: least size of a rest worth keeping, and what a unit of
        its area is worth on each board."""
        kinds = [k for k, piece in enumerate(pieces) for _ in range(piece.count)]
        sizes = [(pieces[k].width + kerf, pieces[k].height + kerf) for k in kinds]
        rates = kept[2] if kept is not None else [Fraction(0)] * len(boards)
        stocks = [_stock(board, kerf, rate) for board, rate in zip(boards, rates, strict=True)]
        least = (max(1, kept[0] + kerf), kept[1] + kerf, kerf) if kept is not None else (0, 0, 0)
        for nodes_each in (3, 4):
            layout = table(trees.layout_of(sizes, stocks, len(sizes), nodes_each, least))
            layout[trees.STAGES] = limits.stages or 0
            layout[trees.LEAST_REST] = limits.least_rest
            best = _built(layout, limits.seed)
            if best is not None:
                break
        else:
            return None
        layout[trees.LOOKS] = _LOOKS
        begun = cls(layout, best, limits.seed)
        begun._read = (kinds, boards, kerf)
        begun._step = 1 if kept is not None else math.gcd(*(b.cost for b in boards)) or 1
        return begun

    def _begun(self) -> Table:
        """What goes at first: anything on the way to a goal, nothing dearer than the plan by cost."""
        return _history(self.layout, _ANY_COST if self._by_goals else FREE_SHARE * self.net)

    @property
    def cost(self) -> int:
        """Of the best plan."""
        return int(self.best[trees.COST])

    @property
    def net(self) -> int:
        """Of the best plan, less what its rests are worth."""
        return _net(self.best)

    def plant(self, sheets: Sequence[tuple[int, Sequence[Lies]]]) -> bool:
        """Go on from a plan at hand (number of the board and every piece on it) where it costs less, and say so."""
        state = planted(self.layout, sheets, self._seed)
        if state is None or _net(state) >= self.net:
            return False
        self.best, self._state, self._last = state, state.copy(), state.copy()
        self._history = self._begun()
        return True

    def packing(self, bound: int) -> Packing:
        """The best plan so far."""
        boards = tuple(_packed(self.best, self.layout, *self._read))
        stages = int(self.layout[trees.STAGES]) or None
        return Packing(boards=boards, cost=self.cost, bound=min(bound, self.cost), stages=stages)

    def advance(self, bound: int, limits: Limits) -> int:
        """Towards ever lower costs (net of rests) until the bound is met or the work is done; the rounds made."""
        done, rounds = 0, limits.rounds
        most = _AT_ONCE if limits.stop is None else _AT_A_STOP
        while self.net > bound and (rounds is None or done < rounds) and not limits.stopped:
            before = self.net
            part = most if rounds is None else min(most, rounds - done)
            self._turn()
            made = self._towards_goal(part) if self._by_goals else self._by_cost(part)
            done, self._since = done + made, self._since + made
            if self.net < before:
                self._since = 0
                if limits.progress is not None:
                    limits.progress(self.net, bound)
        return done

    def _turn(self) -> None:
        """The other way, from the best plan, where this one found nothing better for long."""
        if self._only_goals or self._since < max(_IN_VAIN, _EACH * int(self.layout[trees.PIECES])):
            return
        self._since, number = 0, int(self._state[trees.CHANCE])
        self._by_goals = not self._by_goals
        self.layout[trees.BUDGET], self._goal = _ANY_COST, -1
        self._state = self.best.copy()
        self._last = self._state.copy()
        self._state[trees.CHANCE] = number
        self._history = _history(self.layout, FREE_SHARE * (self.net + (self.net >> _SLACK)))

    def _towards_goal(self, rounds: int) -> int:
        """Rounds towards a plan that costs one step less; one more is counted than made where none is needed."""
        if self._goal != self.net - self._step:
            self._aim(self.net - self._step)
        made = int(search(self._state, self.layout, self._last, self._history, rounds))
        if self._state[trees.WAITING] == 0 and _net(self._state) <= self._goal:
            self.best = self._state.copy()
        return max(1, made)

    def _by_cost(self, rounds: int) -> int:
        return int(search_net(self._state, self.layout, self._last, self.best, self._history, rounds))

    def _aim(self, goal: int) -> None:
        """A new goal, or the same one anew; every piece counts for its area again."""
        self.layout[trees.BUDGET] = self._goal = goal
        self._state[trees.CHANCE] = (int(self._state[trees.CHANCE]) + self._seed) & trees.MASK
        while _net(self._state) > goal and self._state[trees.COST] > 0:
            close_one(self._state, self.layout)
        even(self._state, self.layout)
        trees.settle(self._state, self.layout, self._last)
        self._history = _history(self.layout, _ANY_COST)


def _stock(board: Board, kerf: int, rate: Fraction) -> tuple[int, int, int, int, int]:
    size = (board.width - 2 * board.trim + kerf, board.height - 2 * board.trim + kerf)
    return (*size, board.cost, -1 if board.count is None else board.count, math.floor(rate * trees.RATE))


def _built(layout: Table, seed: int) -> Table | None:
    """The cheapest of several plans, each built piece after piece in another order; None where none is whole."""
    best: Table | None = None
    layout[trees.BUDGET] = _ANY_COST
    starts = max(_FEW_STARTS, min(_STARTS, _MANY // max(1, int(layout[trees.PIECES]))))
    for start in range(starts):
        state = table([0] * int(layout[trees.SIZE]))
        trees.clear(state, layout, seed * 1000 + start)
        recreate(state, layout, start % _ORDERS)
        state[trees.WRITES] = 0
        if state[trees.WAITING] == 0 and (best is None or _net(state) < _net(best)):
            best = state
    return best if best is not None else _hunted(layout, seed)


def _net(state: Table) -> int:
    return int(state[trees.COST]) - int(state[trees.WORTH])


def _hunted(layout: Table, seed: int) -> Table | None:
    """A whole plan where stock is short, found by search."""
    state = table([0] * int(layout[trees.SIZE]))
    trees.clear(state, layout, seed)
    recreate(state, layout, 0)
    state[trees.WRITES] = 0
    search(state, layout, state.copy(), _history(layout, _ANY_COST), 2_000)
    return state if state[trees.WAITING] == 0 else None


def _history(layout: Table, first: int) -> Table:
    """The late acceptance list, filled with what goes at first; its place, rounds since the best, how bad that was."""
    return table([first] * int(layout[trees.LATE]) + [0, 0, _ANY_COST])


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
