"""The relaxation over patterns of sheets against trying every way to cut: never above, whatever is left being worth."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting import best, coarse_sheets
from pentice.cutting.best import best_sheets
from pentice.cutting.guillotine import Worths, cuts_of, fill_rows, grid_of
from pentice.cutting.keep import Keep, net_cost
from pentice.cutting.packing import Board, Limits, Rectangle
from pentice.cutting.sheet_columns import Effort, priced
from tests.tries import tries

_Sizes = list[tuple[int, int]]
_SIZES = st.lists(st.tuples(st.integers(2, 7), st.integers(2, 7)), min_size=1, max_size=4)
_NONE = -(10**9)


def _most_kept(sizes: _Sizes, least: tuple[int, int], width: int, height: int) -> list[int]:
    """For each set of pieces (as bits), the greatest area worth keeping beside them; by trying every cut."""

    @cache
    def most(w: int, h: int, bits: int) -> int:
        if bits == 0:
            best = w * h if w >= least[0] and h >= least[1] else 0
        else:
            fits = [sizes[i] for i in range(len(sizes)) if bits == 1 << i]
            best = 0 if fits == [(w, h)] else _NONE
        if bits == 0 and best:
            return best
        sub = bits
        while True:
            for at in range(1, w):
                best = max(best, most(at, h, sub) + most(w - at, h, bits ^ sub))
            for at in range(1, h):
                best = max(best, most(w, at, sub) + most(w, h - at, bits ^ sub))
            if sub == 0:
                return best
            sub = (sub - 1) & bits

    return [most(width, height, bits) for bits in range(1 << len(sizes))]


def _least_net(sizes: _Sizes, boards: list[tuple[int, int, int, int | None]], keep: Keep | None) -> int:
    """The least net cost of any plan."""
    every = (1 << len(sizes)) - 1
    costs = [0, *[10**9] * every]
    least = (keep.width, keep.height) if keep else (10**6, 10**6)
    share = keep.share if keep else Fraction(0)
    for w, h, price, number in boards:
        kept = _most_kept(sizes, least, w, h)
        nets = [
            math.ceil(price - share * price * Fraction(area, w * h)) if area >= 0 else 10**9 for area in kept
        ]
        for _ in range(len(sizes) if number is None else number):
            costs = [
                min(
                    [costs[bits]]
                    + [costs[bits ^ part] + nets[part] for part in range(1, bits + 1) if part & bits == part]
                )
                for bits in range(every + 1)
            ]
    return costs[every]


@tries(12)
@given(_SIZES, st.integers(0, 2), st.booleans(), st.sampled_from([40, 400, 10**7]))
def test_no_bound_is_above_what_trying_every_cut_finds(
    sizes: _Sizes, in_hand: int, valued: bool, work: int
) -> None:
    """An offcut in hand, rests that are worth something, and tables in a coarser unit; the plan is no cheaper."""
    boards = [(7, 9, 700, None), (9, 8, 790, None), (8, 5, 0, in_hand)]
    least = _least_net(sizes, boards, Keep(width=3, height=4, share=Fraction(1, 2)) if valued else None)
    mm = 21
    keep = Keep(width=3 * mm, height=4 * mm, share=Fraction(1, 2)) if valued else None
    pieces = [Rectangle(width=w * mm, height=h * mm, count=1) for w, h in sizes]
    stock = [Board(width=w * mm, height=h * mm, cost=c, count=n) for w, h, c, n in boards]
    found = priced(pieces, stock, kerf=0, keep=keep, effort=Effort(work=work))
    if found is not None:
        assert found.bound <= least
    plan = best_sheets(pieces, stock, kerf=0, keep=keep, limits=Limits(rounds=60))
    assert plan is not None
    assert plan.bound <= least <= plan.cost
    assert plan.cost == net_cost(plan, stock, keep)


@tries(25)
@given(
    _SIZES,
    st.integers(0, 2),
    st.sampled_from([Fraction(1, 2), Fraction(0), Fraction(9, 10)]),
    st.sampled_from([(5, 4), (9, 13), (100, 100)]),
    st.integers(1, 3),
)
def test_no_coarse_bound_is_above_what_trying_every_cut_finds(
    sizes: _Sizes, in_hand: int, share: Fraction, parts: tuple[int, int], mm: int
) -> None:
    """Few units to a board or many, an offcut in hand that is free; from the coarsest tables to the finest."""
    boards = [(7, 9, 700, None), (9, 8, 790, None), (8, 5, 0, in_hand)]
    least = _least_net(sizes, boards, Keep(width=3, height=4, share=share))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(coarse_sheets, "_ACROSS", parts[0])
        patch.setattr(coarse_sheets, "_ALONG", parts[1])
        patch.setattr(coarse_sheets, "_LEAST_UNITS", 1)
        found = coarse_sheets.CoarseSheets(
            [Rectangle(width=w * mm, height=h * mm, count=1) for w, h in sizes],
            [Board(width=w * mm, height=h * mm, cost=c, count=n) for w, h, c, n in boards],
            kerf=0,
            keep=Keep(width=3 * mm, height=4 * mm, share=share),
        )
        found.advance()
        assert found.bound <= least
        found.advance(200_000)
        assert found.bound <= least
        assert found.bound > 0 or in_hand


@tries(12)
@given(_SIZES, st.integers(0, 1), st.integers(1, 60), st.booleans())
def test_a_search_that_is_stopped_has_a_bound_below_every_plan(
    sizes: _Sizes, in_hand: int, asked: int, small: bool
) -> None:
    """The way of compiled loops, wherever it is stopped, with and without the exact way of small jobs."""
    boards = [(7, 9, 700, None), (9, 8, 790, None), (8, 5, 0, in_hand)]
    keep = Keep(width=3, height=4, share=Fraction(1, 2))
    least = _least_net(sizes, boards, keep)
    times = iter(range(asked))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(best, "COMPILED", True)
        if not small:
            patch.setattr(best, "small_enough", lambda _pieces: False)
        stock = [Board(width=w, height=h, cost=c, count=n) for w, h, c, n in boards]
        plan = best_sheets(
            [Rectangle(width=w, height=h, count=1) for w, h in sizes],
            stock,
            kerf=0,
            keep=keep,
            limits=Limits(stop=lambda: next(times, None) is None),
        )
    assert plan is not None
    assert plan.bound <= least <= plan.cost == net_cost(plan, stock, keep)


@tries(25)
@given(_SIZES, st.lists(st.integers(0, 50), min_size=4, max_size=4))
def test_the_table_gives_what_its_plan_is_worth(sizes: _Sizes, worths: list[int]) -> None:
    """The cells add up to the worth and to the area of the sheet; row by row gives the same table."""
    grid = grid_of(sizes, [3] * len(sizes), (14, 15))
    worth = Worths(grid, cuts_of(grid), sizes, worths[: len(sizes)], None)
    cells = worth.cells((14, 15))
    assert sum(worths[k] for k, *_ in cells if k >= 0) == worth.most((14, 15))
    assert sum(w * h for *_, w, h in cells) == 14 * 15
    again = worth.table.copy()
    fill_rows(again, len(grid.widths), len(grid.heights), *cuts_of(grid))
    assert (again == worth.table).all()


def test_pieces_that_each_need_a_sheet_of_their_own_are_all_cut() -> None:
    """Twenty of 20 x 20 on sheets of 30 x 40: two do not fit side by side with the kerf (2 x 20 + 1 = 41)."""
    plan = best_sheets(
        [Rectangle(width=20, height=20, count=20)],
        [Board(width=30, height=40, cost=12)],
        kerf=1,
        limits=Limits(rounds=5),
    )
    assert plan is not None
    assert (plan.cost, plan.bound) == (240, 240)


@tries(10)
@given(
    st.lists(st.tuples(st.integers(4, 20), st.integers(4, 20), st.integers(5, 40)), min_size=1, max_size=5)
)
def test_many_alike_are_cut_once_each_and_again_the_same(sizes: list[tuple[int, int, int]]) -> None:
    """Whole parts of the relaxation and the search for the rest give every piece once; same work, same plan."""
    pieces = [Rectangle(width=w, height=h, count=n) for w, h, n in sizes]
    boards = [Board(width=30, height=40, cost=12), Board(width=25, height=25, cost=7, count=3)]
    plan = best_sheets(pieces, boards, kerf=1, limits=Limits(rounds=40))
    assert plan is not None
    for kind, (_, _, n) in enumerate(sizes):
        assert sum(p.kind == kind for b in plan.boards for p in b.places) == n
    assert sum(b.board == 1 for b in plan.boards) <= 3
    assert plan == best_sheets(pieces, boards, kerf=1, limits=Limits(rounds=40))
