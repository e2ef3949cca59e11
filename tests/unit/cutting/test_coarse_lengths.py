"""Lengths in coarse steps: a plan in steps is a plan, and very long stock has a good one soon."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from pentice.cutting.best_lengths import best_lengths
from pentice.cutting.coarse_lengths import coarse
from pentice.cutting.columns import Room
from pentice.cutting.keep import Keep
from pentice.cutting.packing import Limits


def _drawn(number: int, seed: int) -> list[tuple[int, int]]:
    """Different lengths of 20 to 35 m in mm, one or two of each."""
    chance = np.random.default_rng(seed)
    lengths = chance.choice(np.arange(20_000, 35_000), number, replace=False)
    return [(int(n), int(c)) for n, c in zip(lengths, chance.integers(1, 3, number), strict=True)]


@pytest.mark.parametrize("seed", range(4))
def test_what_fills_a_length_in_steps_fits_it_in_mm(seed: int) -> None:
    """Any pieces whose steps fit the stock in steps fit the stock; every piece stands for itself once."""
    pieces = _drawn(60, seed)
    stocks = [100_000, 61_000]
    found = coarse([n for n, _ in pieces], [c for _, c in pieces], stocks)
    assert found is not None
    chance = np.random.default_rng(seed)
    plan = []
    waiting = [kind for kind, (_, n) in enumerate(found.lengths) for _ in range(n)]
    while waiting:
        room, taken = int(chance.integers(2)), [0] * len(found.lengths)
        for kind in chance.permutation(waiting).tolist():
            if (
                sum(n * k for n, (k, _) in zip(taken, found.lengths, strict=True)) + found.lengths[kind][0]
                <= (found.rooms[room])
            ):
                taken[kind] += 1
                waiting.remove(kind)
        plan.append((room, tuple(taken)))
    exact = found.exactly(plan)
    given = np.array([taken for _, taken in exact])
    assert given.sum(axis=0).tolist() == [c for _, c in pieces]
    used = given @ np.array([n for n, _ in pieces])
    assert all(u <= stocks[room] for u, (room, _) in zip(used.tolist(), exact, strict=True))


def test_usual_stock_is_left_as_it_is() -> None:
    """Nothing is rounded on bars of some metres, nor where nothing is wanted."""
    assert coarse([900], [4], [12_000]) is None
    assert coarse([900], [0], [100_000]) is None


def test_a_plan_of_very_long_stock_is_near_its_bound_at_once() -> None:
    """Stopped before the relaxation in mm has begun: a plan of 60 lengths is at most one length above its bound."""
    asked = [0]

    def stop() -> bool:
        asked[0] += 1
        return asked[0] > 60

    plan = best_lengths(_drawn(60, 1), [Room(length=100_000, cost=1)], kerf=4, limits=Limits(stop=stop))
    assert plan is not None
    assert plan.cost - plan.bound <= 1
    for board in plan.boards:
        assert sum(place.width for place in board.places) + 4 * (len(board.places) - 1) <= 100_000


@pytest.mark.parametrize(
    ("count", "keep"), [(1, None), (None, Keep(width=9_000, height=1, share=Fraction(1, 2)))]
)
def test_limited_stock_and_rests_worth_keeping_go_without(count: int | None, keep: Keep | None) -> None:
    """A piece that only just fits is longer than the stock in steps; with rests worth keeping nothing is rounded."""
    rooms = [Room(length=100_030, cost=5, count=count)]
    plan = best_lengths([(100_029, 1)], rooms, kerf=0, limits=Limits(rounds=4), keep=keep)
    assert plan is not None
    assert len(plan.boards) == 1
