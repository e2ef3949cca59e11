"""The hand calculation of the peak velocity pressure, line by line, from the functions of the standard."""

from __future__ import annotations

from pentice.job.model import Site
from pentice.standards.en1991_1_4 import (
    Terrain,
    peak_pressure_kn_m2,
    roughness_factor,
    terrain_factor,
    turbulence_intensity,
)
from pentice.standards.en1991_1_4_uk import DIGITISED, exposure_factor_read, town_factor_read
from pentice.working import Step


def peak_steps(
    *, basic_m_s: float, z_m: float, ground: Terrain, air_density_kg_m3: float, c_o: float = 1.0
) -> tuple[Step, ...]:
    """From the basic velocity to the peak pressure.

    Parameters
    ----------
    basic_m_s
        v_b [m/s].
    z_m
        Reference height [m].
    ground
        Terrain category.
    air_density_kg_m3
        rho [kg/m3].
    c_o
        Orography factor [-], 1 in flat country.

    Returns
    -------
    tuple of Step
        c_r and I_v [-], velocities [m/s], and the peak pressure [kN/m2].

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.2 to 4.5.
    """
    used = max(z_m, ground.z_min_m)
    roughness, gust = roughness_factor(z_m, ground), turbulence_intensity(z_m, ground, c_o=c_o)
    factor, mean = terrain_factor(ground), roughness * c_o * basic_m_s
    peak = peak_pressure_kn_m2(
        basic_m_s, z_m=z_m, ground=ground, air_density_kg_m3=air_density_kg_m3, c_o=c_o
    )
    lowest = f"; not below {ground.z_min_m:g} m" if z_m < ground.z_min_m else ""
    return (
        Step(
            says=f"Roughness, terrain {ground.category}",
            formula="c_r = 0.19 (z_0 / 0.05)^{0.07} ln(z / z_0)",
            numbers=f"{factor:.4f} x ln({used:.3f} / {ground.z_0_m:g}){lowest}",
            result=roughness,
            clause="EN 1991-1-4, 4.3.2",
        ),
        Step(
            says="Mean velocity",
            formula="v_m = c_r c_o v_b",
            numbers=f"{roughness:.4f} x {c_o:g} x {basic_m_s:.3f}" + ("; flat country" if c_o == 1.0 else ""),
            result=mean,
            unit="m/s",
            clause="EN 1991-1-4, 4.3.1",
        ),
        Step(
            says="Turbulence",
            formula="I_v = 1 / (c_o ln(z / z_0))",
            numbers=f"1 / ({c_o:g} x ln({used:.3f} / {ground.z_0_m:g}))",
            result=gust,
            clause="EN 1991-1-4, 4.4",
        ),
        Step(
            says="Peak pressure",
            formula="q_p = (1 + 7 I_v) rho v_m^2 / 2",
            numbers=f"(1 + 7 x {gust:.4f}) x {air_density_kg_m3:g} x {mean:.3f}^2 / 2 / 1000",
            result=peak,
            unit="kN/m2",
            clause="EN 1991-1-4, 4.5, expression 4.8",
        ),
    )


def peak_steps_uk(
    site: Site,
    *,
    basic_m_s: float,
    basic_kn_m2: float,
    peak_kn_m2: float,
    z_m: float,
    air_density_kg_m3: float,
) -> tuple[Step, ...]:
    """From the map's velocity to the peak pressure by the figures of the United Kingdom.

    Parameters
    ----------
    site
        Distances to the sea and into town [km].
    basic_m_s, basic_kn_m2, peak_kn_m2
        v_b [m/s], q_b and q_p [kN/m2].
    z_m
        Reference height [m].
    air_density_kg_m3
        rho [kg/m3].

    Returns
    -------
    tuple of Step
        Pressures [kN/m2].

    Source
    ------
    NA to BS EN 1991-1-4, NA.2.17, digitised: typical.
    """
    sea, town = site.distance_to_sea_km or 0.0, site.distance_in_town_km
    c_e = exposure_factor_read(km_to_sea=sea, z_m=z_m)
    c_t = town_factor_read(km_in_town=town, z_m=z_m) if town else 1.0
    clause = "NA to BS EN 1991-1-4, NA.2.17, digitised: typical"
    return (
        Step(
            says="Basic pressure",
            formula="q_b = rho v_b^2 / 2",
            numbers=f"{air_density_kg_m3:g} x {basic_m_s:.3f}^2 / 2 / 1000",
            result=basic_kn_m2,
            unit="kN/m2",
            clause="EN 1991-1-4, 4.5",
        ),
        Step(
            says="Peak pressure",
            formula="q_p = c_e c_e,T q_b, + 3 %",
            numbers=(
                f"{c_e:.4f} x {c_t:.4f} x {basic_kn_m2:.4f} x {DIGITISED:g}; figures read at z {z_m:.2f} m, "
                f"{sea:g} km from the sea" + (f", {town:g} km in town" if town else "")
            ),
            result=peak_kn_m2,
            unit="kN/m2",
            clause=clause,
        ),
    )
