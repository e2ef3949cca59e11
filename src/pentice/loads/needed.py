"""What the loads need and only the author can give: asked for all at once."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.errors import InputError, OutsideScope, Problem
from pentice.job.model import Job
from pentice.loads.national import annex_for, annex_to_ask
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_3_ground import ground_snow_kn_m2
from pentice.standards.en1991_1_4 import terrain_categories


def missing_loads(job: Job, annex: Annex | None = None) -> tuple[Problem, ...]:
    """Every value without which no load can be made.

    Parameters
    ----------
    job
        The job.
    annex
        The national choices; left out: those the job names, where they are held.

    Returns
    -------
    tuple of Problem
        One sentence each; empty where nothing is missing.

    Source
    ------
    EN 1991-1-3 and EN 1991-1-4: loads are given or computed, never typical.

    Examples
    --------
    >>> missing_loads(Job())[0].place
    'site.altitude_m'
    """
    lacking: tuple[Problem, ...] = ()
    if annex is None:
        annex = annex_to_ask(job)
        lacking = _of_the_annex(job) if annex is not None else ()
    missing = tuple(Problem(place, f"{place} is missing; {what}.") for place, what in _missing(job, annex))
    unsaid = tuple(Problem(place, f"{place} {what}.") for place, what in _unsaid(job, annex))
    return (*missing, *lacking, *unsaid, *_of_the_map(job, annex))


def _of_the_annex(job: Job) -> tuple[Problem, ...]:
    try:
        annex_for(job)
    except InputError as fault:
        return fault.problems
    return ()


def _of_the_map(job: Job, annex: Annex | None) -> tuple[Problem, ...]:
    """A snow region that is not of this annex, or a region or zone that does not exist."""
    site = job.site
    if site.ground_snow_kn_m2 is not None or site.snow_region is None or site.snow_zone is None:
        return ()
    if annex is not None and site.snow_region not in annex.snow_regions:
        known = ", ".join(annex.snow_regions)
        expected = f"expected one of {known}" if known else "no snow map is held"
        says = f'site.snow_region is "{site.snow_region}"; {expected} with annex "{annex.name}".'
        return (Problem("site.snow_region", f"{says} Or give site.ground_snow_kn_m2 from the national map."),)
    try:
        ground_snow_kn_m2(site.snow_region, site.snow_zone, site.altitude_m or 0.0)
    except InputError as fault:
        return tuple(Problem(f"site.{p.place}", f"site.{p.says}") for p in fault.problems)
    except OutsideScope as fault:
        return (Problem("site.ground_snow_kn_m2", f"site.ground_snow_kn_m2 is missing; {fault}"),)
    return ()


def _missing(job: Job, annex: Annex | None) -> Iterator[tuple[str, str]]:
    site = job.site
    if site.altitude_m is None:
        yield "site.altitude_m", "give the height of the site above the sea in m, from a map"
    if site.ground_snow_kn_m2 is None and (site.snow_region is None or site.snow_zone is None):
        yield "site.ground_snow_kn_m2", "give it from the snow map, or give snow_region and snow_zone"
    if site.peak_pressure_kn_m2 is None and annex is not None and annex.peak_pressure is None:
        yield (
            "site.peak_pressure_kn_m2",
            f"the profile of annex {annex.name} is not held: give it by that annex",
        )
    elif site.peak_pressure_kn_m2 is None:
        if site.vb0_m_s is None:
            yield "site.vb0_m_s", "give the wind map's velocity in m/s, or peak_pressure_kn_m2"
        if annex is not None and annex.peak_pressure == "UK figures":
            if site.distance_to_sea_km is None:
                yield "site.distance_to_sea_km", "give the distance upwind to the sea, or peak_pressure_kn_m2"
        elif site.terrain is None:
            yield "site.terrain", 'give "0", "I", "II", "III" or "IV", or peak_pressure_kn_m2'
    yield from _missing_of_house(job) if job.roof.attached else _missing_of_free_standing(job)


def _missing_of_free_standing(job: Job) -> Iterator[tuple[str, str]]:
    if job.roof.head_height_mm is None and job.roof.eaves_height_mm is None:
        yield (
            "roof.head_height_mm",
            "measure the roof line at the head over the datum mark; wind needs the height",
        )


def _unsaid(job: Job, annex: Annex | None) -> Iterator[tuple[str, str]]:
    """Values that do not go together, or that lighten a load and say not why."""
    site, roof = job.site, job.roof
    write = "and says not why; write {value = …, note = …}"
    for key, light in (
        ("wind_season_factor", site.wind_season_factor < 1.0),
        ("wind_return_years", site.wind_return_years < 50.0),
        ("thermal_coefficient", site.thermal_coefficient < 1.0),
    ):
        if light and not job.mark_of(f"site.{key}").note:
            yield f"site.{key}", f"is {getattr(site, key):g}, lighter than usual, {write}"
    if site.thermal_coefficient < 1.0 and roof.use != "lean-to":
        yield (
            "site.thermal_coefficient",
            f"is {site.thermal_coefficient:g}; expected 1 for an open, unheated roof",
        )
    if (site.neighbours_height_m is None) != (site.neighbours_distance_m is None):
        yield "site.neighbours_height_m", "and site.neighbours_distance_m go together; give both, or none"
    if annex is None:
        return
    exposures = [name for name, _ in annex.exposures]
    if site.snow_exposure not in exposures:
        known = ", ".join(exposures)
        yield (
            "site.snow_exposure",
            f'is "{site.snow_exposure}"; expected one of {known} with annex "{annex.name}"',
        )
    if site.peak_pressure_kn_m2 is None:
        yield from _unsaid_of_wind(job, annex)


def _unsaid_of_wind(job: Job, annex: Annex) -> Iterator[tuple[str, str]]:
    site = job.site
    if annex.terrain_table is not None and site.terrain is not None:
        known = terrain_categories(annex.terrain_table)
        if site.terrain not in known:
            yield (
                "site.terrain",
                f'is "{site.terrain}"; expected one of {", ".join(known)} with annex "{annex.name}"',
            )
    town = site.terrain == "IV" if annex.terrain_table is not None else bool(site.distance_in_town_km)
    if site.neighbours_height_m is not None and not town:
        yield (
            "site.neighbours_height_m",
            "counts in a town only (EN 1991-1-4, A.5): terrain IV, or distance_in_town_km",
        )


def _missing_of_house(job: Job) -> Iterator[tuple[str, str]]:
    house, roof = job.house, job.roof
    if house is None or house.wall_top_above_mm is None:
        yield "house.wall_top_above_mm", "measure from our roof line at the head up to the top of the wall"
    if house is None or house.depth_mm is None:
        yield "house.depth_mm", "give the depth of the house square to our wall; the drift needs it"
    heights = (roof.head_height_mm, roof.eaves_height_mm)
    if all(height is None for height in heights):
        yield (
            "roof.head_height_mm",
            "measure the roof line at the wall over the datum mark; wind needs the height",
        )
    given = job.site.reference_height_m
    if given is not None and not job.mark_of("site.reference_height_m").note:
        yield (
            "site.reference_height_m",
            "its reason is, since an attached roof takes the height of the house: write {value = …, note = …}",
        )
    if house is None:
        return
    if house.roof_drains_to_us is None and (house.wall_top_above_mm or 0.0) > 0.0:
        yield "house.roof_drains_to_us", "say true or false: does the house roof slide its snow onto ours"
    elif house.roof_drains_to_us and house.roof_pitch_deg is None:
        yield "house.roof_pitch_deg", "give the pitch of the house roof that drains to us"
