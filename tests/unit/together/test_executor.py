"""Products are cut where the caller says: the plan is the same, and what cannot be cut is told as before."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

import pytest

from pentice.errors import NoSolution
from pentice.together.cutting import made_by
from pentice.together.stage import plan_together
from tests.designs import design_of


def _refuse() -> int:
    raise NoSolution("S1 fits no stock.")


def test_a_pool_of_processes_gives_the_same_plan() -> None:
    """Two jobs, product by product in two processes, against one after another here."""
    designs = (design_of("potting-bay"), design_of("cycle-shelter"))
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        there = plan_together(designs, pool)
        with pytest.raises(NoSolution, match=r"S1 fits no stock\."):
            made_by(pool, [_refuse])
    assert there.cutting == plan_together(designs).cutting
