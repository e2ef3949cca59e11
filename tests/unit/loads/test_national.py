"""Annexes whose values were read only in part: the rest is asked for, all at once, and nothing is borrowed."""

from __future__ import annotations

from typing import Any

import pytest

from pentice.errors import InputError
from pentice.loads.national import annex_for, annex_to_ask, author_sources
from pentice.loads.needed import missing_loads
from pentice.standards.annex import annex_names, load_annex
from tests.unit.loads.roofs import OPEN, job_with, loads_of

FACTORS = {
    "permanent_up": 1.35,
    "permanent_down": 1.0,
    "variable": 1.5,
    "equ_permanent_up": 1.1,
    "equ_permanent_down": 0.9,
    "equ_variable": 1.5,
    "source": "the annex on the desk of a test",
}
READ: dict[str, Any] = {
    "partial_factors": FACTORS,
    "psi_snow": {"value": [0.5, 0.2, 0.0], "source": "annex to EN 1990, Table A1.1"},
    "psi_wind": {"value": [0.6, 0.2, 0.0], "source": "annex to EN 1990, Table A1.1"},
    "exceptional_drifts": {"value": False, "source": "annex to EN 1991-1-3"},
}
PARTLY = tuple(name for name in annex_names() if name not in ("EN", "UK"))


def asked(site: dict[str, Any]) -> dict[str, str]:
    """What a plain job is asked with these keys of [site], by place."""
    return {problem.place: problem.says for problem in missing_loads(job_with(site=site))}


def test_eight_countries_are_held_in_part() -> None:
    """Each by its file."""
    assert PARTLY == ("CH", "DE", "ES", "FR", "IT", "NL", "NO", "PL")


@pytest.mark.parametrize("name", PARTLY)
def test_factors_are_asked_for_and_never_borrowed(name: str) -> None:
    """No country's factors were read: the key is named, with the table to read."""
    found = asked({"annex": name})
    assert "site.partial_factors" in found
    assert "Tables A1.2(A) and A1.2(B)" in found["site.partial_factors"]
    with pytest.raises(InputError, match=r"site\.partial_factors is missing; annex " + name):
        annex_for(job_with(site={"annex": name}))


def test_everything_an_annex_lacks_is_asked_for_in_one_answer() -> None:
    """Germany: factors, psi and its own profile of the wind."""
    found = asked({"annex": "DE", "vb0_m_s": None, "terrain": None})
    wanted = {
        "site.partial_factors",
        "site.psi_snow",
        "site.psi_wind",
        "site.peak_pressure_kn_m2",
    }
    assert set(found) == wanted
    assert "the profile of annex DE is not held" in found["site.peak_pressure_kn_m2"]


def test_a_dutch_wind_is_not_asked_for_its_psi() -> None:
    """It was read: 0 beside snow. With the factors and the snow's psi the loads stand."""
    site = {**READ, "annex": "NL", "psi_wind": None, "peak_pressure_kn_m2": 0.6}
    loads = loads_of(job_with(site=site), annex_for(job_with(site=site)))
    assert any(c.name == "1.35 G + 1.5 S + 0 W down" for c in loads.combinations)
    assert "Table 7.3" not in loads.wind.refused and "site.wind_coefficients" in loads.wind.refused


def test_what_the_author_read_is_used_and_named() -> None:
    """Factors of the job stand in the combinations, and the notes say whose they are."""
    site = {
        **READ,
        "annex": "DE",
        "peak_pressure_kn_m2": 0.6,
        "partial_factors": {**FACTORS, "variable": 1.6},
    }
    job = job_with(site=site)
    loads = loads_of(job, annex_for(job))
    assert any(c.name == "1.35 G + 1.6 S" for c in loads.combinations)
    assert dict(author_sources(job))["site.partial_factors"] == FACTORS["source"]
    assert any("site.psi_wind is the author's" in note for note in loads.notes)


@pytest.mark.parametrize("key", ["psi_snow", "psi_wind", "exceptional_drifts"])
def test_a_value_in_place_of_the_annex_needs_its_source(key: str) -> None:
    """Bare, it is asked for the document it was read in, with any annex."""
    found = asked({key: READ[key]["value"]})
    assert set(found) == {f"site.{key}"}
    assert "has no source; write {value = …, source = …}" in found[f"site.{key}"]


@pytest.mark.parametrize("name", PARTLY)
def test_drifts_that_were_not_read_refuse_their_case_and_no_more(name: str) -> None:
    """Whether Annex B counts was read for no country but the UK: a refused case, until the job says."""
    site = {**READ, "annex": name, "peak_pressure_kn_m2": 0.6, "exceptional_drifts": None}
    job = job_with(site=site)
    refused = dict(loads_of(job, annex_for(job)).snow.refused)
    assert "Say site.exceptional_drifts = true or false" in refused["exceptional drifts"]
    said = job_with(site={**site, "exceptional_drifts": {"value": True, "source": "the annex"}})
    loads = loads_of(said, annex_for(said))
    assert "exceptional drifts" not in dict(loads.snow.refused)
    assert any(case.name.startswith("exceptional snow drift") for case in loads.snow.cases)


def test_without_a_wall_above_nothing_is_asked_about_drifts() -> None:
    """The top of the house's wall is our head: no drift, no question."""
    site = {**READ, "annex": "DE", "peak_pressure_kn_m2": 0.6, "exceptional_drifts": None}
    job = job_with(site=site, house={"wall_top_above_mm": 0.0})
    assert "exceptional drifts" not in dict(loads_of(job, annex_for(job)).snow.refused)


def test_the_french_annex_knows_its_own_terrain_and_exposure() -> None:
    """IIIa and no III; no reduction where the wind sweeps the roof; accidental snow of region D from its map."""
    site = {**READ, "annex": "FR", "terrain": "III"}
    assert 'expected one of 0, II, IIIa, IIIb, IV with annex "FR"' in asked(site)["site.terrain"]
    assert asked({**site, "terrain": "IIIa"}) == {}
    swept = {**site, "terrain": "IIIa", "snow_exposure": "windswept"}
    assert 'expected one of normal, sheltered with annex "FR"' in asked(swept)["site.snow_exposure"]
    mapped = {**site, "terrain": "IIIa", "ground_snow_kn_m2": None, "snow_region": "FR", "snow_zone": "D"}
    job = job_with(site=mapped)
    (even,) = (c for c in loads_of(job, annex_for(job)).snow.cases if c.name == "exceptional snow, even")
    assert even.points[0][1] == pytest.approx(0.8 * 1.8, rel=1e-12)


def test_a_nearly_flat_french_roof_carries_more() -> None:
    """Below 3 %: 0.2 kN/m2 more, and the working says so; just above nothing."""
    site = {**READ, "annex": "FR", "terrain": "IV"}

    def even(pitch_deg: float) -> float:
        job = job_with(site=site, roof={**OPEN, "pitch_deg": pitch_deg})
        return loads_of(job, annex_for(job)).snow.cases[0].points[0][1]

    assert even(1.71) == pytest.approx(0.48 + 0.2, rel=1e-12)
    assert even(1.72) == pytest.approx(0.48, rel=1e-12)


def test_norway_holds_no_snow_map() -> None:
    """The value by municipality is the answer."""
    site = {**READ, "annex": "NO", "peak_pressure_kn_m2": 0.6, "ground_snow_kn_m2": None}
    found = asked({**site, "snow_region": "Alpine", "snow_zone": "2"})
    assert 'no snow map is held with annex "NO"' in found["site.snow_region"]


def test_an_annex_that_is_not_held_has_nothing_to_ask_with() -> None:
    """Its own error names it."""
    assert annex_to_ask(job_with(site={"annex": "XX"})) is None
    with pytest.raises(InputError, match="annex is XX"):
        annex_for(job_with(site={"annex": "XX"}))


def test_the_recommended_annex_stays_the_one_that_is_loaded() -> None:
    """Without values of the job's own nothing is made anew."""
    assert annex_for(job_with()) is load_annex("EN")
