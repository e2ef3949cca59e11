"""Hottest sheet of EN 1991-1-5, Table 5.2 (from memory): hottest air and 18, 30 or 42 K, by hand."""

from __future__ import annotations

import pytest

from pentice.errors import OutsideScope
from pentice.standards.en1991_1_5 import hottest_face_c
from tests.designs import assessed, changed


@pytest.mark.parametrize(
    ("air", "kept", "hot"),
    [(34.0, 0.7, 64.0), (32.0, 0.5, 50.0), (32.0, 0.2, 50.0), (30.0, 0.9, 72.0), (30.0, 0.6, 54.0)],
)
def test_sun_adds_to_the_hottest_air(air: float, kept: float, hot: float) -> None:
    """Rows of the table, half way between two, and below the brightest."""
    assert hottest_face_c(air_most_c=air, absorptivity=kept) == pytest.approx(hot)


def test_a_blacker_face_than_the_table_is_refused() -> None:
    """0.9 is the darkest."""
    with pytest.raises(OutsideScope, match="absorptivity"):
        hottest_face_c(air_most_c=30.0, absorptivity=0.95)


def test_a_hotter_sheet_is_cut_narrower_and_says_why() -> None:
    """35 degC air, 0.9 kept: 77 in place of 60; length by the movement of 65 K; a cool one changes nothing."""
    plain = assessed(changed("cycle-shelter"))
    hot = assessed(changed("cycle-shelter", glazing__sheet_absorptivity=0.9, site__air_max_c=35.0))
    cool = assessed(changed("cycle-shelter", glazing__sheet_absorptivity=0.3, site__air_max_c=35.0))
    temps = hot.setting_out.temperatures
    assert (temps.most_c, cool.setting_out.temperatures.most_c) == (77.0, 60.0)
    assert hot.setting_out.plane.bays[0].length_mm.most < plain.setting_out.plane.bays[0].length_mm.most
    room = next(c for c in hot.checks if c.id == "room-length")
    grown = next(step for step in room.working if step.says == "The sheet grows by")
    assert "EN 1991-1-5" in grown.clause
    length = hot.setting_out.plane.bays[0].length_mm.cut
    assert grown.result == pytest.approx(70e-6 * length * (77.0 - 12.0), rel=1e-6)
    assert {r.input: r.mark for r in room.rests_on}["glazing.sheet_most_c"] == "typical"
