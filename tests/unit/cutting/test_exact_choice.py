"""The exact choice of patterns: plans without waste are found, and where there is none that is proven."""

from __future__ import annotations

from collections import Counter
from functools import cache
from itertools import product

import numpy as np
import pytest

from pentice.cutting import exact_choice
from pentice.cutting.best_lengths import best_lengths
from pentice.cutting.columns import Relaxation, Room
from pentice.cutting.exact_choice import ExactChoice
from pentice.cutting.first_plan import Chosen
from pentice.cutting.packing import Limits

Found = tuple[Chosen, ...] | None
_NO_FOUR_DO = [(11, 3), (16, 3), (24, 3), (27, 3)]


def _relaxed(pieces: list[tuple[int, int]], stock: int, number: int | None = None) -> Relaxation:
    found = Relaxation(
        [n for n, _ in pieces], [c for _, c in pieces], [np.full(stock + 1, 1, dtype=np.int64)], [number]
    )
    found.improve()
    return found


def _without_waste(bars: int, seed: int) -> list[tuple[int, int]]:
    """Lengths cut three from a bar of 1,000, nothing left."""
    chance = np.random.default_rng(seed)
    cut = [sorted((int(a), int(b), 1000 - int(a) - int(b))) for a, b in chance.integers(250, 450, (bars, 2))]
    return sorted(Counter(n for parts in cut for n in parts).items())


@cache
def _fewest(left: tuple[int, ...]) -> int:
    """The fewest lengths of 60 for so many of each kind of the job that four do not do for."""
    if not any(left):
        return 0
    every = product(*(range(n + 1) for n in left))
    fits = [p for p in every if 0 < sum(n * k[0] for n, k in zip(p, _NO_FOUR_DO, strict=True)) <= 60]
    return 1 + min(_fewest(tuple(a - b for a, b in zip(left, p, strict=True))) for p in fits)


@pytest.mark.parametrize("seed", range(5))
def test_a_plan_without_waste_is_found(seed: int) -> None:
    """Thirty bars cut in three each: thirty bars do, each piece is given once, every bar is full."""
    pieces = _without_waste(30, seed)
    exact = ExactChoice.of(_relaxed(pieces, 1000), 31, most=4000, seed=seed)
    assert exact is not None
    chosen = exact.tried(60)
    assert chosen is not None
    assert exact.ended
    given = np.array([taken for _, taken in chosen])
    assert len(given) == 30
    assert given.sum(axis=0).tolist() == [n for _, n in pieces]
    assert set((given @ np.array([n for n, _ in pieces])).tolist()) == {1000}


def test_the_same_seed_gives_the_same_choice() -> None:
    """Twice alike."""
    pieces = _without_waste(20, 9)
    found: list[Found] = []
    for _ in range(2):
        exact = ExactChoice.of(_relaxed(pieces, 1000), 21, most=4000, seed=3)
        assert exact is not None
        found.append(exact.tried(60))
    assert found[0] == found[1]


def test_what_cannot_be_is_proven() -> None:
    """Four lengths of 60 have more than the pieces need and the relaxation wants no more; five are needed.

    That five are needed is found by trying every pattern at every state of what is left.
    """
    assert _fewest(tuple(n for _, n in _NO_FOUR_DO)) == 5
    found = _relaxed(_NO_FOUR_DO, 60)
    assert found.bound <= 4
    exact = ExactChoice.of(found, 5, most=4000)
    assert exact is not None
    assert exact.tried(1) is None
    assert exact.ended
    assert exact.tried(1) is None


def test_the_proof_is_the_bound_of_the_plan() -> None:
    """Five lengths, proven."""
    plan = best_lengths(_NO_FOUR_DO, [Room(length=60, cost=1)], kerf=0, limits=Limits(rounds=0))
    assert plan is not None
    assert (plan.cost, plan.bound) == (5, 5)


def test_it_can_be_stopped_and_is_then_not_at_its_end() -> None:
    """No try is made once it is to stop."""
    exact = ExactChoice.of(_relaxed(_NO_FOUR_DO, 60), 5, most=4000)
    assert exact is not None
    assert exact.tried(9, stop=lambda: True) is None
    assert not exact.ended


def test_limited_stock_and_too_many_patterns_are_left_alone() -> None:
    """Neither is tried; nor a relaxation that has not come to its end."""
    assert ExactChoice.of(_relaxed(_NO_FOUR_DO, 60, number=4), 5, most=4000) is None
    found = _relaxed(_NO_FOUR_DO, 60)
    assert ExactChoice.of(found, 5, most=2) is None
    found.aim(found.counts, found.numbers)
    assert ExactChoice.of(found, 5, most=4000) is None


def test_a_try_ends_with_its_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    """Too few steps for any plan: none is found, and it is not said that there is none."""
    monkeypatch.setattr(exact_choice, "_STEPS", 9)
    exact = ExactChoice.of(_relaxed(_without_waste(30, 0), 1000), 31, most=4000)
    assert exact is not None
    assert exact.tried(3) is None
    assert not exact.ended
