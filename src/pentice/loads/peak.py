"""The peak wind pressure on the roof: velocity with its factors, the height it is read at, terrain or figures."""

from __future__ import annotations

from pentice.errors import InputError
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.peak_shown import peak_steps, peak_steps_uk
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_4 import (
    basic_velocity_m_s,
    displacement_height_m,
    peak_pressure_kn_m2,
    probability_factor,
    terrain,
    velocity_pressure_kn_m2,
)
from pentice.standards.en1991_1_4_uk import altitude_factor, peak_pressure_read_kn_m2
from pentice.working import Step

_USUAL_YEARS = 50.0


def peak_of(job: Job, shape: RoofShape, annex: Annex) -> tuple[float, float, tuple[Step, ...]]:
    """Peak velocity pressure, the reference height, and how both were found.

    Parameters
    ----------
    job, shape, annex
        The job, its geometry and the national choices.

    Returns
    -------
    tuple
        q_p [kN/m2], z_e [m], working. A pressure that is given stands alone: no factor of the velocity touches it.

    Raises
    ------
    OutsideScope
        A factor, a height or a distance is beyond what is held.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.2 to 4.5 and A.5; the United Kingdom by its annex.
    """
    site = job.site
    height, steps = _reference_height(job, shape)
    if site.peak_pressure_kn_m2 is not None:
        value = site.peak_pressure_kn_m2
        clause = job.mark_of("site.peak_pressure_kn_m2").source or "given in the job file"
        step = Step(
            says="Peak pressure", formula="q_p", numbers="given", result=value, unit="kN/m2", clause=clause
        )
        return value, height, (*steps, step)
    annex.require("peak_pressure")
    if site.vb0_m_s is None:
        raise InputError("site.vb0_m_s is missing; give the wind map's velocity in m/s.")
    above, lifted = _above_neighbours(job, height)
    by_figures = annex.peak_pressure == "UK figures"
    basic, velocity = _basic_velocity(job, annex, height if by_figures else None)
    value, shown = (_by_figures if by_figures else _by_terrain)(job, annex, basic, above)
    return value, height, (*steps, *lifted, velocity, *shown)


def _basic_velocity(job: Job, annex: Annex, uk_height_m: float | None) -> tuple[float, Step]:
    """v_b with every factor on it."""
    site = job.site
    c_alt = (
        1.0 if uk_height_m is None else altitude_factor(altitude_m=site.altitude_m or 0.0, z_m=uk_height_m)
    )
    c_prob = 1.0
    if site.wind_return_years != _USUAL_YEARS:
        annex.require("wind_probability")
        shape, exponent = annex.wind_probability or (0.0, 1.0)
        c_prob = probability_factor(site.wind_return_years, shape=shape, exponent=exponent)
    map_m_s = site.vb0_m_s or 0.0
    basic = basic_velocity_m_s(
        map_m_s * c_alt, c_dir=site.wind_direction_factor, c_season=site.wind_season_factor, c_prob=c_prob
    )
    altitude = f"{c_alt:.4f} x " if uk_height_m is not None else ""
    return basic, Step(
        says="Basic wind velocity",
        formula="v_b = c_dir c_season c_prob v_b,0",
        numbers=(
            f"{site.wind_direction_factor:g} x {site.wind_season_factor:g} x {c_prob:.4f} x {altitude}{map_m_s:g}; "
            f"{site.wind_return_years:g} years"
        ),
        result=basic,
        unit="m/s",
        clause="EN 1991-1-4, 4.2(2)P" + ("; NA.2.5" if uk_height_m is not None else ""),
    )


def _by_terrain(job: Job, annex: Annex, basic: float, height: float) -> tuple[float, tuple[Step, ...]]:
    site, rho = job.site, annex.air_density_kg_m3
    ground = terrain(site.terrain or "", table=annex.terrain_table or "EN")
    value = peak_pressure_kn_m2(
        basic,
        z_m=height,
        ground=ground,
        air_density_kg_m3=rho,
        c_o=site.orography_factor,
    )
    return value, peak_steps(
        basic_m_s=basic, z_m=height, ground=ground, air_density_kg_m3=rho, c_o=site.orography_factor
    )


def _by_figures(job: Job, annex: Annex, basic: float, height: float) -> tuple[float, tuple[Step, ...]]:
    site = job.site
    if site.distance_to_sea_km is None or site.altitude_m is None:
        raise InputError("site.distance_to_sea_km is missing; give it, or peak_pressure_kn_m2.")
    rho = annex.air_density_kg_m3
    q_b = velocity_pressure_kn_m2(basic, air_density_kg_m3=rho)
    value = peak_pressure_read_kn_m2(
        q_b,
        z_m=height,
        km_to_sea=site.distance_to_sea_km,
        km_in_town=site.distance_in_town_km or None,
        c_o=site.orography_factor,
    )
    return value, peak_steps_uk(
        site, basic_m_s=basic, basic_kn_m2=q_b, peak_kn_m2=value, z_m=height, air_density_kg_m3=rho
    )


def _above_neighbours(job: Job, height: float) -> tuple[float, tuple[Step, ...]]:
    """The height less what close-set neighbours lift the wind, where the job names them."""
    site = job.site
    if site.neighbours_height_m is None or site.neighbours_distance_m is None:
        return height, ()
    lifted = displacement_height_m(
        distance_m=site.neighbours_distance_m, neighbours_m=site.neighbours_height_m, height_m=height
    )
    step = Step(
        says="Height above the wind lifted by the neighbours; never for a wind over open ground",
        formula="z = z_e - h_dis",
        numbers=(
            f"{height:.3f} - {lifted:.3f}; neighbours {site.neighbours_height_m:g} m high, "
            f"{site.neighbours_distance_m:g} m away"
        ),
        result=height - lifted,
        unit="m",
        clause="EN 1991-1-4, A.5, expression A.15",
    )
    return height - lifted, (step,)


def _reference_height(job: Job, shape: RoofShape) -> tuple[float, tuple[Step, ...]]:
    site = job.site
    if site.reference_height_m is not None:
        why = job.mark_of("site.reference_height_m").note
        step = Step(
            says="Reference height",
            formula="given with its reason",
            numbers=f"given: {why}",
            result=site.reference_height_m,
            unit="m",
            clause="the author's reason",
        )
        return site.reference_height_m, (step,)
    head = shape.head_height_mm or 0.0
    top = (job.house.wall_top_above_mm or 0.0) if job.house is not None else 0.0
    height = max((head + top) / 1000.0, 0.1)
    attached = job.roof.attached
    step = Step(
        says="Reference height",
        formula="z_e = head height + wall above" if attached else "z_e = head height",
        numbers=f"({head:.1f} + {top:.0f}) / 1000" if attached else f"{head:.1f} / 1000",
        result=height,
        unit="m",
        clause="the height of the house an attached roof belongs to"
        if attached
        else "the highest point of a free-standing roof: EN 1991-1-4, 7.3(6), Figure 7.16",
    )
    return height, (step,)
