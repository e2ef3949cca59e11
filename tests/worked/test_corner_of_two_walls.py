"""Where two drifts meet the snow is not known; what lifts is, since it lifts most on a bare roof."""

from __future__ import annotations

from typing import Any

import pytest

from tests.designs import assessed, changed
from tests.worked.test_printed_lines import wrong_lines

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
