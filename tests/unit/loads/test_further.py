"""Further combinations: psi of Table A1.1 as the annex files hold them, by hand. Exact products."""

from __future__ import annotations

import pytest

from pentice.loads.further import accidents_with_main, service_combinations
from pentice.standards.annex import load_annex
from tests.unit.loads.roofs import job_with, loads_of

EN, UK = load_annex("EN"), load_annex("UK")


def test_an_accident_keeps_the_frequent_value_of_the_main_action() -> None:
    """G + A + 0.2 W, and G + A + 0.2 S; above 1000 m 0.5 S. No partial factor."""
    snow, door = accidents_with_main(EN, 100.0)
    assert (snow.dead, snow.snow, snow.wind, snow.snow_accidental) == (1.0, 1.0, 0.2, True)
    assert (door.dead, door.snow, door.wind, door.wind_accidental) == (1.0, 0.2, 1.0, True)
    assert accidents_with_main(EN, 1200.0)[1].snow == 0.5
    assert {c.kind for c in (snow, door)} == {"accidental"}


def test_the_shortest_load_rules_an_accident() -> None:
    """Snow above 1000 m is medium, but an exceptional fall is short; a door with snow is as short as its wind."""
    assert [c.duration for c in accidents_with_main(UK, 1200.0)] == ["short", "short"]


@pytest.mark.parametrize(("altitude_m", "snow", "lasting"), [(100.0, 0.2, 0.0), (1200.0, 0.5, 0.2)])
def test_frequent_and_quasi_permanent_values(altitude_m: float, snow: float, lasting: float) -> None:
    """psi_1 leads with psi_2 beside it; the quasi-permanent roof carries psi_2 S and no wind."""
    found = service_combinations(EN, altitude_m)
    by_snow, by_wind, up, always = found
    assert (by_snow.snow, by_snow.wind) == (snow, 0.0)
    assert (by_wind.snow, by_wind.wind, by_wind.wind_sense) == (lasting, 0.2, "down")
    assert (up.snow, up.wind, up.wind_sense) == (0.0, 0.2, "up")
    assert (always.kind, always.dead, always.snow, always.wind) == ("quasi-permanent", 1.0, lasting, 0.0)
    assert [c.kind for c in found[:3]] == ["frequent"] * 3


def test_the_stage_carries_both() -> None:
    """Accidents among those that are checked, the others beside them."""
    loads = loads_of(job_with())
    assert any(c.name == "G + A, exceptional snow + 0.2 W down" for c in loads.combinations)
    assert {c.kind for c in loads.service} == {"frequent", "quasi-permanent"}
