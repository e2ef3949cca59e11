"""Wind along the wall on one closed end, and a diagonal's pull on the posts of its field: by hand, none from src/."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.bracing import pairs_kn
from pentice.checks.eaves import EavesForces, eaves_forces
from pentice.checks.leaning import leaned_along
from pentice.checks.passed_on import passed_on
from pentice.checks.racking import Racking, pushes_along, racking
from tests.designs import EXAMPLES, assessed, changed
from tests.tries import tries
from tests.worked.test_frame import ground_of_job
from tests.worked.test_printed_lines import wrong_lines

BESIDE_A_WALL: dict[str, Any] = {
    "roof__right": "wall",
    "roof__side_wall_top_above_mm": 900.0,
    "roof__side_wall_depth_mm": 4000.0,
    "glazing__right_edge": "wall",
}


def row_of(name: str, **changes: Any) -> tuple[EavesForces, Racking, list[float]]:
    """Forces of the eaves, push along the wall with what leaning adds, and pairs of a changed example."""
    ground = ground_of_job(changed(name, **changes))
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    push = leaned_along(ground, forces, racking(ground, forces))
    return forces, push, pairs_kn(ground, forces, push)


# Table 7.1 between its rows 0.25 and 1 of h/d, by hand: the potting bay is 2820.6 high and 4310.3 wide.
STEP = (2820.6 / 4310.3 - 0.25) / 0.75
WINDWARD, LEEWARD, SUCKED = 0.7 + 0.1 * STEP, -0.3 - 0.2 * STEP, -1.2


@pytest.mark.parametrize(
    ("changes", "coefficient"),
    [
        (BESIDE_A_WALL | {"roof__openings": []}, 0.2 - SUCKED),
        (BESIDE_A_WALL, WINDWARD - SUCKED),
        ({"roof__right": "open"}, max(WINDWARD - LEEWARD, -SUCKED)),
    ],
)
def test_one_closed_end_keeps_what_is_inside(changes: dict[str, Any], coefficient: float) -> None:
    """Zone A and 0.2 inside where openings are unknown; D and A with a door; D and E with an open end."""
    ground = ground_of_job(changed("potting-bay", **changes))
    (ends,) = (s for s in pushes_along(ground, "beam") if s.says.startswith("Closed ends"))
    found = (
        float(ends.result)
        / 2.402
        * 12.0
        / (2.8206 + 2.0 * 2.31)
        / (ground.loads.wind.peak_pressure_kn_m2 or 0.0)
    )
    assert found == pytest.approx(coefficient, rel=1e-3)


def test_a_diagonal_lifts_and_presses_the_posts_of_its_field() -> None:
    """H h / b with the field's own 2008, not the length of the row; each of four posts may stand in that field."""
    _, push, pairs = row_of("cycle-shelter", frame__bracing="diagonal")
    assert pairs == pytest.approx([push.push_kn * push.height_mm / 2008.0] * 4)
    assert pairs[0] > 2.9 * push.pair_kn
    _, push, pairs = row_of(
        "potting-bay", frame__bracing="diagonal", frame__posts_at_mm=[48.0, 1500.0, 4262.0]
    )
    assert pairs == pytest.approx([0.0] + [push.push_kn * push.height_mm / 2762.0] * 2)


@tries(8)
@given(name=st.sampled_from(EXAMPLES), wind=st.floats(18.0, 28.0), more=st.floats(1.02, 1.2))
def test_more_wind_is_never_less_push_along_the_wall(name: str, wind: float, more: float) -> None:
    """Monotonic: the bracing's demand, and the posts that it bends."""
    less, greater = (
        {(c.id, c.place.post): c.demand for c in assessed(changed(name, site__vb0_m_s=v)).checks}
        for v in (round(wind, 2), round(wind * more, 2))
    )
    assert (greater["bracing", None] or 0.0) >= (less["bracing", None] or 0.0) - 1e-9


def test_the_mirrored_roof_is_pushed_alike() -> None:
    """One closed end on the left or on the right: the same push; every printed line gives its result."""
    pushes = []
    for left, right in (("closed", "open"), ("open", "closed")):
        pushes.append(row_of("cycle-shelter", roof__left=left, roof__right=right)[1].push_kn)
        assert wrong_lines(assessed(changed("cycle-shelter", roof__left=left, roof__right=right))) == []
    assert pushes[0] == pytest.approx(pushes[1])
    assert pushes[0] > row_of("cycle-shelter")[1].push_kn
