"""A first plan of lengths: what it does where there is no stock left."""

from __future__ import annotations

import numpy as np

from pentice.cutting.best_lengths import best_lengths
from pentice.cutting.columns import Room
from pentice.cutting.first_plan import first_plan
from pentice.cutting.packing import Limits


def test_nothing_is_cut_from_no_stock() -> None:
    """Nothing wanted, nothing there: an empty plan; something wanted: none."""
    assert first_plan([9], [0], [np.full(11, 5)], [0]) == []
    assert first_plan([9], [1], [np.full(11, 5)], [0]) is None


def test_one_piece_takes_the_one_length_there_is() -> None:
    """Found in use: where the relaxation took the last limited length, the rest of the plan broke off."""
    plan = best_lengths([(900, 1)], [Room(length=1000, cost=5, count=1)], kerf=0, limits=Limits(rounds=4))
    assert plan is not None
    assert (plan.cost, len(plan.boards)) == (5, 1)
