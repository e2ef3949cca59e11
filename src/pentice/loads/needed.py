"""What the loads need and only the author can give: asked for all at once."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.errors import InputError, OutsideScope, Problem
from pentice.job.model import Job
from pentice.standards.annex import Annex, annex_names, load_annex
from pentice.standards.en1991_1_3_ground import ground_snow_kn_m2


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
    if annex is None and job.site.annex in annex_names():
        annex = load_annex(job.site.annex)
    missing = tuple(Problem(place, f"{place} is missing; {what}.") for place, what in _missing(job, annex))
    return (*missing, *_of_the_map(job, annex))


def _of_the_map(job: Job, annex: Annex | None) -> tuple[Problem, ...]:
    """A snow region that is not of this annex, or a region or zone that does not exist."""
    site = job.site
    if site.ground_snow_kn_m2 is not None or site.snow_region is None or site.snow_zone is None:
        return ()
    if annex is not None and site.snow_region not in annex.snow_regions:
        known = ", ".join(annex.snow_regions)
        says = f'site.snow_region is "{site.snow_region}"; expected one of {known} with annex "{annex.name}".'
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
    if site.peak_pressure_kn_m2 is None:
        if site.vb0_m_s is None:
            yield "site.vb0_m_s", "give the wind map's velocity in m/s, or peak_pressure_kn_m2"
        if annex is not None and annex.peak_pressure == "UK figures":
            if site.distance_to_sea_km is None:
                yield "site.distance_to_sea_km", "give the distance upwind to the sea, or peak_pressure_kn_m2"
        elif site.terrain is None:
            yield "site.terrain", 'give "0", "I", "II", "III" or "IV", or peak_pressure_kn_m2'
    if job.roof.attached:
        yield from _missing_of_house(job)


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
