"""Lengths of several stocks against trying every partition of a few pieces: cost and bound meet the least there is."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from hypothesis import example, given
from hypothesis import strategies as st

from pentice.cutting.best_lengths import best_lengths
from pentice.cutting.columns import Room
from pentice.cutting.packing import Limits
from pentice.cutting.stock_counts import choices
from tests.tries import tries

NEVER = 1 << 40


def partitions(pieces: list[int]) -> Iterator[list[list[int]]]:
    """Every way to put pieces into groups."""
    if not pieces:
        yield []
        return
    first, rest = pieces[0], pieces[1:]
    for groups in partitions(rest):
        for i in range(len(groups)):
            yield [*groups[:i], [first, *groups[i]], *groups[i + 1 :]]
        yield [[first], *groups]


def least(pieces: list[int], rooms: list[Room], kerf: int) -> int:
    """The cheapest partition; a group goes into the cheapest stock that holds it."""

    def price(group: list[int]) -> int:
        long = sum(group) + kerf * (len(group) - 1)
        return min((room.cost for room in rooms if room.length >= long), default=NEVER)

    return min(sum(price(group) for group in groups) for groups in partitions(pieces))


@tries(60)
@example([33, 33, 35, 68, 69], [(68, 31), (102, 89)], 0)  # a choice without the middle stock fails first
@given(
    st.lists(st.integers(20, 95), min_size=1, max_size=6),
    st.lists(st.tuples(st.integers(60, 160), st.integers(30, 120)), min_size=2, max_size=3, unique=True),
    st.integers(0, 3),
)
def test_plan_and_bound_of_several_stocks_meet_the_least(
    pieces: list[int], stocks: list[tuple[int, int]], kerf: int
) -> None:
    """Prices of any relation to the lengths, so that long stock is cheap or dear for its length."""
    rooms = [Room(length=length, cost=cost) for length, cost in [*stocks, (100, 60)]]
    wanted = sorted(set(pieces))
    plan = best_lengths([(n, pieces.count(n)) for n in wanted], rooms, kerf=kerf, limits=Limits(rounds=2000))
    assert plan is not None
    best = least(pieces, rooms, kerf)
    assert plan.bound <= best <= plan.cost
    assert plan.bound == plan.cost


@tries(60)
@given(
    st.lists(st.tuples(st.integers(3, 9), st.integers(1, 6)), min_size=1, max_size=3),
    st.integers(1, 40),
    st.integers(1, 30),
    st.booleans(),
)
def test_every_choice_of_stock_is_tried(
    stocks: list[tuple[int, int]], need: int, below: int, limited: bool
) -> None:
    """All that are long enough and cheap enough, each once, by trying all numbers."""
    numbers = [3 if limited else None] * len(stocks)
    found = choices(need, [n for n, _ in stocks], [c for _, c in stocks], numbers, (2, below))
    assert found is not None
    tops = [min(3, below // c) if limited else below // c for _, c in stocks]
    every = []
    for taken in product(*(range(top + 1) for top in tops)):
        cost = sum(n * c for n, (_, c) in zip(taken, stocks, strict=True))
        if 2 <= cost < below and sum(n * long for n, (long, _) in zip(taken, stocks, strict=True)) >= need:
            every.append((cost, taken))
    assert found == sorted(every)
