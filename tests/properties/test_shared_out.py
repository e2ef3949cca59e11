"""Small jobs with rests that are worth something: the exact way against trying every cut at every millimetre."""

from __future__ import annotations

import math
from collections import Counter
from fractions import Fraction
from functools import cache

from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.best import best_sheets
from pentice.cutting.keep import Keep
from pentice.cutting.most_kept import NO_ROOM, MostKept
from pentice.cutting.packing import Board, Limits, Packing, Rectangle
from pentice.cutting.shared_out import SharedOut, small_enough
from tests.plan_checker import faults_of_plan
from tests.tries import tries

_Sizes = tuple[tuple[int, int], ...]
_NONE = -(10**9)
_PIECES = st.lists(st.tuples(st.integers(2, 6), st.integers(2, 6)), min_size=1, max_size=3)


def _kept_by_trying(sizes: _Sizes, kerf: int, least: tuple[int, int], width: int, height: int) -> int:
    """The most area worth keeping of a part that gives these pieces: real sizes, a cut a kerf wide at every place."""

    @cache
    def most(w: int, h: int, bits: int) -> int:
        if bits == 0:
            best = w * h if w >= least[0] and h >= least[1] else 0
        else:
            best = 0 if [sizes[i] for i in range(len(sizes)) if bits == 1 << i] == [(w, h)] else _NONE
        sub = bits
        while True:
            for at in range(1, w):
                best = max(best, most(at, h, sub) + most(max(0, w - at - kerf), h, bits ^ sub))
            for at in range(1, h):
                best = max(best, most(w, at, sub) + most(w, max(0, h - at - kerf), bits ^ sub))
            if sub == 0:
                return best
            sub = (sub - 1) & bits

    return most(width, height, (1 << len(sizes)) - 1)


@tries(60)
@given(
    _PIECES,
    st.integers(0, 2),
    st.tuples(st.integers(1, 5), st.integers(1, 5)),
    st.integers(5, 11),
    st.integers(5, 11),
)
def test_the_most_kept_is_what_trying_every_cut_finds(
    sizes: list[tuple[int, int]], kerf: int, least: tuple[int, int], width: int, height: int
) -> None:
    """Whatever the kerf and the least rest; where nothing fits, both say so. The cells lie apart and add up."""
    kinds = Counter(sizes)
    grown = [(w + kerf, h + kerf) for w, h in kinds]
    solver = MostKept(grown, kerf, least, (width + kerf, height + kerf))
    solver.work = 10**6
    taken = tuple(kinds.values())
    found = solver.of(width + kerf, height + kerf, taken)
    tried = _kept_by_trying(tuple(sizes), kerf, least, width, height)
    assert found == (tried if tried >= 0 else NO_ROOM)
    if found == NO_ROOM:
        return
    cells = solver.cells(width + kerf, height + kerf, taken)
    covered = [(x + i, y + j) for _, x, y, w, h in cells for i in range(w) for j in range(h)]
    assert len(covered) == len(set(covered)) <= (width + kerf) * (height + kerf)
    rests = [(w - kerf, h - kerf) for k, _, _, w, h in cells if k < 0]
    assert sum(w * h for w, h in rests if w >= least[0] and h >= least[1]) == found


_STOCKS = ((9, 7, 700, None), (8, 10, 850, None), (7, 5, 0, 1), (6, 6, 90, 1))


def _least_by_trying(sizes: _Sizes, kerf: int, keep: Keep) -> int:
    """The least net cost of any plan: every way to share the pieces out, every way to cut each sheet."""
    costs: dict[frozenset[int], int] = {frozenset(): 0}
    every = range(len(sizes))
    slots = [s for s in _STOCKS for _ in range(s[3] or len(sizes))]

    @cache
    def net(stock: tuple[int, int, int, int | None], part: frozenset[int]) -> int | None:
        w, h, price, _ = stock
        kept = _kept_by_trying(tuple(sizes[i] for i in part), kerf, (keep.width, keep.height), w, h)
        return None if kept < 0 else math.ceil(price - keep.share * price * Fraction(kept, w * h))

    for slot in slots:
        more = dict(costs)
        for done, cost in costs.items():
            left = [i for i in every if i not in done]
            for bits in range(1, 1 << len(left)):
                part = frozenset(i for k, i in enumerate(left) if bits >> k & 1)
                paid = net(slot, part)
                if paid is not None:
                    more[done | part] = min(more.get(done | part, 10**9), cost + paid)
        costs = more
    return costs.get(frozenset(every), 10**9)


def _instance(sizes: _Sizes, kerf: int, keep: Keep) -> dict[str, object]:
    return {
        "kind": "2d",
        "kerf": kerf,
        "items": [{"w": w, "h": h, "d": 1} for w, h in sizes],
        "stock": [{"w": w, "h": h, "cost": c, "qty": n} for w, h, c, n in _STOCKS],
        "offcut_rule": {"min_w": keep.width, "min_h": keep.height, "value_fraction": float(keep.share)},
    }


def _result(found: Packing, keep: Keep) -> dict[str, object]:
    """The plan as the checker reads it."""
    given_: Counter[int] = Counter()
    sheets = []
    for packed in found.boards:
        placed = []
        for p in packed.places:
            name = f"{p.kind}.{given_[p.kind]}"
            placed.append(
                {"piece": name, "x_mm": p.x, "y_mm": p.y, "width_mm": p.width, "length_mm": p.height}
            )
            given_[p.kind] += 1
        rests = [
            {"x_mm": p.x, "y_mm": p.y, "width_mm": p.width, "length_mm": p.height}
            for p in packed.free
            if p.width >= keep.width and p.height >= keep.height
        ]
        sheets.append({"stock": packed.board, "placements": placed, "offcuts": rests})
    return {"cost": found.cost, "bound": found.bound, "proven": found.proven, "plan": {"sheets": sheets}}


@tries(30)
@given(_PIECES, st.integers(0, 1), st.sampled_from([Fraction(1, 4), Fraction(1, 2), Fraction(9, 10)]))
def test_the_exact_way_finds_what_trying_everything_finds(
    sizes: list[tuple[int, int]], kerf: int, share: Fraction
) -> None:
    """New stock and offcuts in hand, one free and one of some worth; stopped early, the bound holds all the same."""
    keep = Keep(width=3, height=2, share=share)
    pieces = [Rectangle(width=w, height=h, count=1) for w, h in sizes]
    boards = [Board(width=w, height=h, cost=c, count=n) for w, h, c, n in _STOCKS]
    least = _least_by_trying(tuple(sizes), kerf, keep)
    way = SharedOut(pieces, boards, kerf=kerf, keep=keep)
    for _ in range(3):
        way.advance(5)
        early = way.packing()
        assert way.bound <= least
        assert early is None or early.cost >= least
    way.advance(None)
    assert way.ended
    found = way.packing()
    assert found is not None
    assert (found.cost, found.bound, found.proven) == (least, least, True)
    assert faults_of_plan(_instance(tuple(sizes), kerf, keep), _result(found, keep)) == []
    best = best_sheets(pieces, boards, kerf=kerf, limits=Limits(rounds=5_000), keep=keep)
    assert best is not None
    assert (best.cost, best.bound) == (least, least)


def test_pieces_alike_are_one_kind() -> None:
    """Four of 4 by 6 from 9 by 12, kerf 1: 4 + 1 + 4 = 9 wide, 6 + 1 + 6 = 13 high, so two on a sheet. By hand."""
    way = SharedOut(
        [Rectangle(width=4, height=6, count=4)], [Board(width=9, height=12, cost=5)], kerf=1, keep=None
    )
    way.advance(None)
    found = way.packing()
    assert found is not None
    assert (found.cost, found.bound, way.ended) == (10, 10, True)


def test_too_many_choices_are_not_small() -> None:
    """Eleven different pieces have 2,048 choices and 177,147 pairs; twelve have 4,096, too many. Exact: powers."""
    kinds = [Rectangle(width=10 + i, height=10, count=1) for i in range(12)]
    assert small_enough(kinds[:11])
    assert not small_enough(kinds)


def test_a_board_that_has_no_room_for_the_reserve_is_not_counted() -> None:
    """Two of 5 by 5 lie on 10 by 5 as they are; with 1 in reserve for each they do not, so two boards are needed."""
    pieces, board = [Rectangle(width=5, height=5, count=2)], Board(width=10, height=6, cost=3)
    costs = []
    for claims in (None, [[(6, 5)]]):
        way = SharedOut(pieces, [board], kerf=0, keep=None, claims=claims)
        way.advance(None)
        costs.append(way.bound)
    assert costs == [3, 6]
