"""The exact choice against trying every partition: a plan is found where there is one, else that there is none."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.columns import Relaxation, Room
from pentice.cutting.exact_choice import ExactChoice
from tests.properties.test_stock_counts import least
from tests.tries import tries


@tries(80)
@given(
    st.lists(st.integers(20, 60), min_size=1, max_size=7),
    st.lists(st.tuples(st.integers(60, 160), st.integers(30, 120)), max_size=2, unique=True),
)
def test_a_plan_is_found_or_there_is_none(pieces: list[int], stocks: list[tuple[int, int]]) -> None:
    """One that costs the least there is, and none that costs less."""
    rooms = [Room(length=length, cost=cost) for length, cost in [*stocks, (100, 60)]]
    wanted = sorted(set(pieces))
    best = least(pieces, rooms, 0)
    costs = [np.full(room.length + 1, room.cost, dtype=np.int64) for room in rooms]
    found = Relaxation(wanted, [pieces.count(n) for n in wanted], costs, [None] * len(rooms))
    found.improve()
    enough = ExactChoice.of(found, best + 1, most=4000)
    assert enough is not None
    chosen = enough.tried(200)
    assert chosen is not None
    assert sum(rooms[room].cost for room, _ in chosen) == best
    assert np.array([taken for _, taken in chosen]).sum(axis=0).tolist() == list(found.counts)
    fewer = ExactChoice.of(found, best, most=4000)
    assert fewer is not None
    assert fewer.tried(200) is None
    assert fewer.ended
