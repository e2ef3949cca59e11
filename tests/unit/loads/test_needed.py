"""What only the author can give is asked for all at once; what one rule lacks refuses that rule only."""

from __future__ import annotations

import pytest

from pentice.errors import InputError
from pentice.job.model import Job, Roof, Site
from pentice.loads.needed import missing_loads
from tests.unit.loads.roofs import job_with, loads_of


def places(job: Job) -> list[str]:
    """Key paths that are asked for."""
    return [problem.place for problem in missing_loads(job)]


def test_a_whole_job_lacks_nothing() -> None:
    """The plain roof has all that the loads need."""
    assert missing_loads(job_with()) == ()


def test_everything_that_is_missing_is_asked_for_at_once() -> None:
    """An attached roof with nothing given: altitude, snow, velocity, terrain, wall, house, height in one answer."""
    assert places(Job()) == [
        "site.altitude_m",
        "site.ground_snow_kn_m2",
        "site.vb0_m_s",
        "site.terrain",
        "house.wall_top_above_mm",
        "house.depth_mm",
        "roof.head_height_mm",
    ]


@pytest.mark.parametrize(
    ("table", "key", "asked"),
    [
        ("site", "altitude_m", "site.altitude_m"),
        ("site", "ground_snow_kn_m2", "site.ground_snow_kn_m2"),
        ("site", "vb0_m_s", "site.vb0_m_s"),
        ("site", "terrain", "site.terrain"),
        ("house", "wall_top_above_mm", "house.wall_top_above_mm"),
        ("house", "depth_mm", "house.depth_mm"),
        ("house", "roof_drains_to_us", "house.roof_drains_to_us"),
        ("house", "roof_pitch_deg", "house.roof_pitch_deg"),
        ("roof", "head_height_mm", "roof.head_height_mm"),
    ],
)
def test_a_key_that_is_left_out_is_named(table: str, key: str, asked: str) -> None:
    """Each alone, by the loads themselves too: an error that names the key, never a guess."""
    job = job_with(**{table: {key: None}})
    assert places(job) == [asked]
    with pytest.raises(InputError, match=asked):
        loads_of(job)


def test_a_roof_on_no_house_is_not_asked_about_one() -> None:
    """Free-standing: no wall, no drift."""
    job = Job(roof=Roof(attached=False))
    assert not [place for place in places(job) if place.startswith("house")]


def test_the_uk_asks_for_the_sea_and_not_for_the_terrain() -> None:
    """Its peak pressure goes by distance; which annex does is a choice in its file."""
    job = job_with(site={"annex": "UK", "distance_to_sea_km": None, "terrain": None})
    assert places(job) == ["site.distance_to_sea_km"]


def test_an_annex_that_is_not_held_leaves_the_question_to_its_own_error() -> None:
    """The name of the annex is refused elsewhere; here nothing falls over."""
    assert places(Job(site=Site(annex="XX")))[0] == "site.altitude_m"


def test_a_reference_height_without_its_reason_is_asked_for_it() -> None:
    """An attached roof takes the height of the house unless somebody says why not."""
    assert places(job_with(site={"reference_height_m": 3.0})) == ["site.reference_height_m"]


def test_a_region_of_another_country_is_not_taken_silently() -> None:
    """The German map with the UK annex: the sentence lists what the annex knows."""
    site = {"ground_snow_kn_m2": None, "snow_region": "DE", "snow_zone": "2", "annex": "UK"}
    (problem,) = missing_loads(job_with(site=site))
    assert problem.place == "site.snow_region"
    assert 'is "DE"; expected one of UK with annex "UK"' in problem.says


def test_a_zone_that_the_map_has_not_is_named_with_those_it_has() -> None:
    """Alpine has zones 1 to 4."""
    site = {"ground_snow_kn_m2": None, "snow_region": "Alpine", "snow_zone": "7"}
    (problem,) = missing_loads(job_with(site=site))
    assert problem.place == "site.snow_zone"
    assert "1, 2, 3, 4" in problem.says
