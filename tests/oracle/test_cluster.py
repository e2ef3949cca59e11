"""The shop's day on a cluster: a local one of two workers gives the plan that is made here."""

from __future__ import annotations

import pytest

from pentice.together.stage import plan_together
from tests.designs import design_of
from tests.oracle.comparing import other_program

pytestmark = pytest.mark.oracle


def test_a_local_cluster_gives_the_same_plan() -> None:
    """Each product is cut by a worker of its own; jobs, lots and refusals travel there and back."""
    distributed = other_program("distributed")
    designs = (design_of("potting-bay"), design_of("cycle-shelter"))
    with (
        distributed.LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster,
        distributed.Client(cluster) as client,
    ):
        there = plan_together(designs, client.get_executor())
    assert there.cutting == plan_together(designs).cutting
