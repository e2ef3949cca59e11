"""Where two drifts meet the snow is not known; what lifts is, since it lifts most on a bare roof."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.values import Check
from tests.designs import assessed, changed
from tests.tries import tries
from tests.worked.test_carrying_bars import checked as on_carrying_bars
from tests.worked.test_printed_lines import wrong_lines
from tests.worked.test_purlins import PURLINS

CORNER: dict[str, Any] = {
    "roof__right": "wall",
    "roof__side_wall_top_above_mm": 2500.0,
    "roof__side_wall_depth_mm": 6000.0,
    "glazing__right_edge": "wall",
}
LIFTED = (
    "post-tie", "post-base", "pad-uplift", "pad-turning", "pad-sliding", "rafter-tie", "hanger-up", "rafter-uplift",
)  # fmt: skip
PRESSED = (
    "beam-bending", "bracing", "post-bowing", "wall-plate", "wall-fixings", "pad-pressure", "hanger-down",
)  # fmt: skip

NOTCHED: dict[str, Any] = {"frame__rafter_notch_mm": 30.0, "frame__head_notch_mm": 40.0}
ENDS: dict[str, Any] = {**PURLINS, "frame__purlin_end_kn": 2.0}
NO_WIND: dict[str, Any] = {"site__annex": "UK", "site__peak_pressure_kn_m2": 0.7}
"""The UK's tables of wind are not known: refused until the user gives own coefficients."""


def by_place(**changes: Any) -> dict[tuple[str, int | None, int | None], Any]:
    """Checks of the carport beside two walls by rule, post and rafter."""
    found = assessed(changed("snow-carport", **CORNER, **changes)).checks
    return {(c.id, c.place.post, c.place.rafter): c for c in found if c.place.bay is None}


def test_what_lifts_is_checked_as_on_a_bare_roof() -> None:
    """The same demands as with snow too little for a drift: every one of them, post by post."""
    deep, bare = by_place(), by_place(site__ground_snow_kn_m2=0.0)
    compared = 0
    for at, check in deep.items():
        if at[0] in LIFTED:
            assert check.verdict in ("passes", "fails"), check
            assert check.demand == pytest.approx(bare[at].demand, rel=1e-9), at
            compared += 1
    assert {id for id, _, _ in deep} >= set(LIFTED)
    assert compared > 25


def test_what_presses_is_refused_with_the_corner() -> None:
    """Beam, posts, bracing, pads and plate: the sentence names the corner."""
    for (id, _, _), check in by_place().items():
        if id in PRESSED:
            assert check.verdict == "refused", check
            assert "Corner of two walls" in check.says
    assert wrong_lines(assessed(changed("snow-carport", **CORNER))) == []


def rules(**changes: Any) -> set[str]:
    """The rules that a changed carport is asked by."""
    return {c.id for c in assessed(changed("snow-carport", **changes)).checks}


@pytest.mark.parametrize("unknown", [CORNER, NO_WIND], ids=["snow", "wind"])
@pytest.mark.parametrize("more", [{}, NOTCHED, ENDS], ids=["plain", "birdsmouths", "purlins"])
def test_no_check_vanishes_where_a_load_is_not_known(unknown: dict[str, Any], more: dict[str, Any]) -> None:
    """Birdsmouths, bearings and the ends of purlins are refused by name, never passed over in silence."""
    # Own rules of braces, and of a wind case, need that wind.
    braces = {"beam-knees", "post-racking", "sway-along"}
    lost = {id for id in rules(**more) - rules(**more, **unknown) if not id.startswith("case-")}
    assert lost <= (braces if unknown is NO_WIND else set())


def test_a_refused_check_tells_what_the_bare_roof_uses() -> None:
    """Demand over capacity of the same job with hardly any snow, in whole per cent; no number stands alone."""
    deep, bare = by_place(**NOTCHED), by_place(**NOTCHED, site__ground_snow_kn_m2=0.0)
    told = 0
    for at, check in deep.items():
        if "With no snow it uses" not in check.says:
            continue
        alike = [c for (id, post, rafter), c in bare.items() if id == at[0] and (post, rafter) == at[1:]]
        assert check.verdict == "refused"
        assert (check.demand, check.capacity, check.working) == (None, None, ())
        for other in alike:
            assert other.demand is not None
            assert other.capacity is not None
            assert check.says.endswith(f"With no snow it uses {100.0 * other.demand / other.capacity:.0f} %.")
            told += 1
    assert told > 50


def test_what_fails_on_the_bare_roof_fails() -> None:
    """Weak fixings and a short brace fail in the wind alone, whatever the snow is: with their forces and working."""
    weak: dict[str, Any] = {"frame__wall_fixing_pull_kn": 0.2, "frame__knee_mm": [200.0, 200.0]}
    deep, bare = by_place(**weak), by_place(**weak, site__ground_snow_kn_m2=0.0)
    for id in ("wall-fixings", "bracing"):
        found, alone = (next(c for at, c in d.items() if at[0] == id) for d in (deep, bare))
        assert found.verdict == alone.verdict == "fails"
        assert found.demand == pytest.approx(alone.demand, rel=1e-9)
        assert found.says.startswith("Fails with no snow at all. Corner of two walls")
        assert found.working
    assert wrong_lines(assessed(changed("snow-carport", **CORNER, **weak))) == []


def test_bars_that_carry_are_held_down_all_the_same() -> None:
    """Uplift of each bar as on a bare roof; what presses is refused."""
    corner = CORNER | {"house__wall_top_above_mm": 1500.0}
    deep = on_carrying_bars(**corner, site__ground_snow_kn_m2=2.0).checks
    bare = on_carrying_bars(**corner, site__ground_snow_kn_m2=0.0).checks
    alone = {c.place.bar: c.demand for c in bare if c.id == "bar-uplift"}
    near = {c.place.bar for c in deep if c.id == "bar-bending" and c.verdict == "refused"}
    assert near
    for check in deep:
        if check.id == "bar-uplift":
            assert check.verdict in ("passes", "fails")
            assert check.demand == pytest.approx(alone[check.place.bar], rel=1e-9)
        if check.place.bar in near and check.id in ("bar-shear", "bar-sag", "bar-web"):
            assert check.verdict == "refused"
            assert "Corner of two walls" in check.says
        if check.id in ("bar-point", "bar-point-shear"):
            assert check.verdict == "passes"


def most_used(checks: tuple[Check, ...]) -> dict[str, float]:
    """Demand over capacity of each rule, the greatest; endless where it is refused."""
    found: dict[str, float] = {}
    for check in checks:
        used = math.inf
        if check.demand is not None and check.capacity:
            used = check.demand / check.capacity
        found[check.id] = max(found.get(check.id, 0.0), used)
    return found


@tries(6)
@given(st.floats(0.1, 5.0), st.floats(0.1, 5.0))
def test_more_snow_never_eases_what_presses(one: float, other: float) -> None:
    """Why a check that fails on the bare roof fails in any snow: none of these asks less under more of it."""
    depths = (0.0, min(one, other), max(one, other))
    used = [
        most_used(assessed(changed("snow-carport", **NOTCHED, site__ground_snow_kn_m2=depth)).checks)
        for depth in depths
    ]
    rules = {
        id
        for id in used[0]
        if id.startswith(("rafter-", "beam-", "post-", "wall-", "bracing", "pad-pressure"))
    }
    assert len(rules) > 12
    for less, more in pairwise(used):
        assert {id for id in rules if more[id] < less[id] * (1.0 - 1e-9)} == set()
