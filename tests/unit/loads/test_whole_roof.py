"""Wind on the whole roof: where the force acts in each wind, and when the wind drags.

Expected values: plain products of the coefficients of Table 7.6 at 10 deg, by hand.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from pentice.loads.values import WholeRoofWind
from tests.unit.loads.roofs import OPEN, job_with, loads_of

EXACT = 1e-9
COEFFICIENTS = [{"name": "all", "down": 0.8, "up": -1.4}]


def whole(**roof: object) -> dict[str, WholeRoofWind]:
    """Cases of a plain roof by name, at 0.5 kN/m2."""
    loads = loads_of(job_with(site={"peak_pressure_kn_m2": 0.5}, roof=dict(roof)))
    return {case.name: case for case in loads.wind.whole}


def test_every_wind_has_its_three_forces_on_an_open_roof() -> None:
    """Down at any blockage, up without and with: in words, for four directions."""
    found = whole(**OPEN)
    assert len(found) == 12
    assert "wind from the right, up, blockage 1" in found
    assert "wind onto the eaves, down, any blockage" in found


def test_the_force_is_the_coefficient_times_the_slope() -> None:
    """c_f +0.5, -0.9, -1.4 at 10 deg; 5.2 m by 3.5 m on plan."""
    area = 5.2 * 3.5 / math.cos(math.radians(10.0))
    found = whole(**OPEN)
    for words, c_f in (("down, any blockage", 0.5), ("up, blockage 0", -0.9), ("up, blockage 1", -1.4)):
        force = found[f"wind onto the eaves, {words}"].force_kn
        assert force == pytest.approx(c_f * 0.5 * area, rel=EXACT)


@pytest.mark.parametrize(
    ("wind", "x", "y"),
    [
        ("wind onto the eaves", 2600.0, 2625.0),
        ("wind from the house side", 2600.0, 875.0),
        ("wind from the left", 1300.0, 1750.0),
        ("wind from the right", 3900.0, 1750.0),
    ],
)
def test_the_force_sits_a_quarter_behind_the_windward_edge(wind: str, x: float, y: float) -> None:
    """It turns with the wind, so posts and head feel it unevenly."""
    found = whole(**OPEN)[f"{wind}, up, blockage 1"]
    assert found.at_mm == pytest.approx((x, y), rel=EXACT)


def test_wind_drags_along_both_faces_of_an_open_roof() -> None:
    """0.04 x 0.5 x 2 x 5.2 x 3.5 / cos 10 kN, the way it blows."""
    found = whole(**OPEN)
    along, square = found["wind from the left, up, blockage 0"], found["wind onto the eaves, up, blockage 0"]
    expected = 0.04 * 0.5 * 2.0 * 5.2 * 3.5 / math.cos(math.radians(10.0))
    assert (along.drag_kn, square.drag_kn) == pytest.approx((expected, expected), rel=EXACT)
    assert (along.drag_along, square.drag_along) == ("x", "y")


def test_a_short_lean_to_is_not_dragged_and_a_long_one_is() -> None:
    """Beyond twice its depth from the end: 20 m less 2 x 3.5 / cos 10; the force by zones is not repeated."""
    assert whole() == {}
    found = whole(width_mm=20000.0)
    assert set(found) == {"wind from the left, drag", "wind from the right, drag"}
    slope = 3.5 / math.cos(math.radians(10.0))
    drag = found["wind from the left, drag"]
    assert drag.drag_kn == pytest.approx(0.04 * 0.5 * (20.0 - 2.0 * slope) * slope, rel=EXACT)
    assert drag.force_kn is None and drag.at_mm is None


def test_a_lean_to_with_much_wall_in_the_wind_is_not_dragged() -> None:
    """9 m: roof and front are less than four times its ends, so friction does not count (5.3(4))."""
    assert whole(width_mm=9000.0) == {}


def test_coefficients_of_the_users_own_drag_and_give_no_force_unless_asked() -> None:
    """By zone nothing is made up for the whole, but the wind drags by 7.5; with c_f and a place there is a force."""
    own: dict[str, Any] = {"source": "a wind tunnel", "zones": COEFFICIENTS}
    plain = loads_of(job_with(site={"wind_coefficients": own}, roof=OPEN)).wind
    assert [w.force_kn for w in plain.whole] == [None] * 4
    table = loads_of(job_with(roof=OPEN)).wind
    drags = {w.name.split(",")[0]: w.drag_kn for w in table.whole}
    assert {w.name.split(",")[0]: w.drag_kn for w in plain.whole} == drags
    own |= {"whole_down": 0.6, "whole_up": -1.1, "whole_at": 0.3}
    given = loads_of(job_with(site={"wind_coefficients": own}, roof=OPEN)).wind
    (up,) = (w for w in given.whole if w.name.startswith("wind onto the eaves, up"))
    width, depth = 5.2, 3.5
    assert up.at_mm == pytest.approx((2600.0, 3500.0 * 0.7))
    area = next(w for w in table.whole if w.force_kn).drag_kn / (
        0.04 * (table.peak_pressure_kn_m2 or 0.0) * 2.0
    )
    assert up.force_kn == pytest.approx(-1.1 * (given.peak_pressure_kn_m2 or 0.0) * area)
    assert area > width * depth


def test_a_door_beside_coefficients_of_the_users_own_is_asked_for() -> None:
    """A closed roof with a door: refused by name until zones with it open are given; then an accident."""
    own: dict[str, Any] = {"source": "a wind tunnel", "zones": COEFFICIENTS}
    door = {"wall": "front", "kind": "door", "x_mm": 900.0, "width_mm": 900.0, "height_mm": 2000.0}
    roof = {"left": "closed", "right": "closed", "front": "closed", "openings": [door]}
    lacking = loads_of(job_with(site={"wind_coefficients": own}, roof=roof)).wind
    assert [case for case, _ in lacking.cases_refused] == ["door in the front open"]
    assert "open_door_zones" in lacking.cases_refused[0][1]
    own["open_door_zones"] = [{"name": "all", "down": 0.3, "up": -2.0}]
    given = loads_of(job_with(site={"wind_coefficients": own}, roof=roof)).wind
    assert given.cases_refused == ()
    opened = [case for case in given.cases if "a door open" in case.name]
    assert [(c.situation, c.zones[0].c_10) for c in opened] == [("accidental", 0.3), ("accidental", -2.0)]


def test_the_uk_has_no_overall_force_of_table_7_6() -> None:
    """Refused with the rest of the table."""
    assert loads_of(job_with(site={"annex": "UK", "peak_pressure_kn_m2": 0.7}, roof=OPEN)).wind.whole == ()
