"""The peak pressure: every factor of the velocity, neighbours, hills, and what must be explained.

Expected values: the pressure goes with the square of the velocity; expression A.15 by hand.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from pentice.loads.needed import missing_loads
from pentice.standards.en1991_1_4_uk import exposure_factor_read, town_factor_read
from tests.unit.loads.roofs import job_with, loads_of

SHORT = {"value": 10.0, "note": "stands for one summer"}
SUMMER = {"value": 0.8, "note": "May to September only"}


def peak(**site: Any) -> float:
    """Peak pressure of the plain roof [kN/m2]."""
    found = loads_of(job_with(site=site)).wind.peak_pressure_kn_m2
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("site", "velocity"),
    [
        ({"wind_direction_factor": 0.9}, 0.9),
        ({"wind_season_factor": SUMMER}, 0.8),
        ({"wind_return_years": SHORT}, 0.90248),
        ({"wind_return_years": 100.0}, 1.03848),
    ],
)
def test_each_factor_acts_on_the_velocity(site: dict[str, Any], velocity: float) -> None:
    """Direction, season, return period (c_prob of expression 4.2 as computed for this project to five places)."""
    assert peak(**site) == pytest.approx(velocity**2 * peak(), rel=2e-5)


def test_a_hill_raises_the_mean_wind_and_not_the_gust() -> None:
    """(1 + 7 I_v / c_o) c_o^2 with I_v = 1 / ln(z / 0.3) at 5.4 m."""
    turbulence = 1.0 / math.log(5.4 / 0.3)
    expected = (1.0 + 7.0 * turbulence / 1.2) * 1.2**2 / (1.0 + 7.0 * turbulence)
    assert peak(orography_factor=1.2) == pytest.approx(expected * peak(), rel=1e-9)


def test_close_neighbours_lift_the_wind_in_a_town_only() -> None:
    """Terrain IV: nothing gets less below 10 m, but the height is shown; in a suburb it is refused."""
    near = {"neighbours_height_m": 6.0, "neighbours_distance_m": 10.0}
    wind = loads_of(job_with(site={"terrain": "IV", **near})).wind
    (step,) = (s for s in wind.working if s.formula == "z = z_e - h_dis")
    assert step.result == pytest.approx(5.4 - min(0.8 * 6.0, 0.6 * 5.4), rel=1e-9)
    (problem,) = missing_loads(job_with(site=near))
    assert problem.says.startswith("site.neighbours_height_m counts in a town only")


def test_close_neighbours_in_a_uk_town_lower_the_height_of_the_figures() -> None:
    """Houses of 4 m, 8 m away: 5.4 less min(0.8 x 4, 0.6 x 5.4) = 2.2 m on both figures, with 3 % on top."""
    town = {"annex": "UK", "distance_in_town_km": 5.0, "altitude_m": 0.0}
    found = peak(**town, neighbours_height_m=4.0, neighbours_distance_m=8.0)
    basic = 0.5 * 1.226 * 24.0**2 / 1000.0
    c_e = exposure_factor_read(km_to_sea=10.0, z_m=2.2)
    c_town = town_factor_read(km_in_town=5.0, z_m=2.2)
    assert found == pytest.approx(1.03 * c_e * c_town * basic, rel=1e-9)
    assert found < peak(**town)


def test_neighbours_need_both_their_lengths() -> None:
    """One alone is asked for the other."""
    (problem,) = missing_loads(job_with(site={"terrain": "IV", "neighbours_height_m": 6.0}))
    assert "go together; give both, or none" in problem.says


@pytest.mark.parametrize(
    ("key", "value"),
    [("wind_season_factor", 0.8), ("wind_return_years", 10.0), ("thermal_coefficient", 0.9)],
)
def test_what_lightens_a_load_says_why(key: str, value: float) -> None:
    """Bare, its reason is asked for; with a note it stands."""
    (problem,) = missing_loads(job_with(site={key: value}))
    assert f"site.{key} is {value:g}, lighter than usual, and says not why" in problem.says
    assert missing_loads(job_with(site={key: {"value": value, "note": "shown by a test"}})) == ()


def test_the_uk_gives_no_other_return_period() -> None:
    """Its K and n were not read: refused with the way out, never the recommended ones."""
    wind = loads_of(job_with(site={"annex": "UK", "wind_return_years": 100.0})).wind
    assert "leave site.wind_return_years out" in wind.refused


def test_a_pressure_that_is_given_stands_alone() -> None:
    """No factor touches it."""
    assert peak(peak_pressure_kn_m2=0.7, wind_direction_factor=0.8) == 0.7
