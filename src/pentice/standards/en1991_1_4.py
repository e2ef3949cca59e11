"""Wind: from the basic velocity to the peak velocity pressure (EN 1991-1-4, section 4 and A.5).

Below the least height of a terrain the pressure is that of the least height: a low roof in town gets no less.
The United Kingdom has a method of its own: see en1991_1_4_uk.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.errors import InputError, require_within
from pentice.standards._tables import rows_of

_TERRAIN = {"EN": "terrain.csv", "FR": "terrain_FR.csv"}
_HIGHEST_M = 200.0  # 4.3.2(1): the logarithmic profile ends there


@dataclass(frozen=True, slots=True, kw_only=True)
class Terrain:
    """A terrain category: its roughness length and the height below which nothing gets less [m]."""

    category: str
    z_0_m: float
    z_min_m: float


def terrain_categories(table: str = "EN") -> tuple[str, ...]:
    """Terrain categories of a table, from the sea to the town.

    Parameters
    ----------
    table
        "EN" for Table 4.1 with its recommended values, "FR" for the French one.

    Returns
    -------
    tuple of str
        Names.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, Table 4.1; the annexes named in the data files.

    Examples
    --------
    >>> terrain_categories("FR")
    ('0', 'II', 'IIIa', 'IIIb', 'IV')
    """
    return tuple(row["category"] for row in rows_of(_TERRAIN[table]))


def terrain(category: str, *, table: str = "EN") -> Terrain:
    """A terrain category of Table 4.1.

    Parameters
    ----------
    category
        "0" sea, "I" lakes and flat empty land, "II" low vegetation, "III" villages and suburbs, "IV" town.
    table
        "EN" for the recommended values, "FR" for the French ones, which split III into IIIa and IIIb.

    Returns
    -------
    Terrain
        Roughness length and least height [m].

    Raises
    ------
    InputError
        There is no such category.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, Table 4.1.

    Examples
    --------
    >>> terrain("III").z_min_m
    5.0
    """
    known = {row["category"]: row for row in rows_of(_TERRAIN[table])}
    if category not in known:
        raise InputError.of(
            "terrain", category, f"expected one of {', '.join(known)} (EN 1991-1-4, Table 4.1)"
        )
    row = known[category]
    return Terrain(category=category, z_0_m=float(row["z_0_m"]), z_min_m=float(row["z_min_m"]))


def basic_velocity_m_s(
    fundamental_m_s: float, *, c_dir: float = 1.0, c_season: float = 1.0, c_prob: float = 1.0
) -> float:
    """Basic wind velocity.

    Parameters
    ----------
    fundamental_m_s
        v_b,0 of the national map [m/s].
    c_dir, c_season
        Direction and season factor [-]; 1.0 unless the annex allows less.
    c_prob
        Probability factor [-] for another return period than 50 years.

    Returns
    -------
    float
        v_b [m/s].

    Raises
    ------
    OutsideScope
        The velocity is no basic wind velocity, or a factor is out of its range.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.2(2)P, expression 4.1, and its note 4 for c_prob.

    Examples
    --------
    >>> basic_velocity_m_s(24.0)
    24.0
    """
    # The range is a guard against km/h and against zero, no clause sets it.
    do = "Give v_b,0 in m/s from the national map."
    require_within("vb0_m_s", fundamental_m_s, 10.0, 60.0, unit="m/s", source="judgement, no source", do=do)
    require_within("c_dir", c_dir, 0.5, 1.0, source="EN 1991-1-4, 4.2(2)")
    require_within("c_season", c_season, 0.5, 1.0, source="EN 1991-1-4, 4.2(2)")
    require_within("c_prob", c_prob, 0.5, 1.5, source="EN 1991-1-4, 4.2(2) note 4")
    return c_dir * c_season * c_prob * fundamental_m_s


def probability_factor(years: float, *, shape: float = 0.2, exponent: float = 0.5) -> float:
    """Wind velocity of another return period as a share of the 50-year value.

    Parameters
    ----------
    years
        Mean return period [years], 2 to 1000.
    shape, exponent
        K and n of the national annex [-]; recommended 0.2 and 0.5.

    Returns
    -------
    float
        c_prob [-]; it acts on the velocity, so its square acts on the pressure.

    Raises
    ------
    OutsideScope
        The period is not between 2 and 1000 years.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.2(2)P note 4, expression 4.2.

    Examples
    --------
    >>> round(probability_factor(10.0), 3)
    0.902
    """
    require_within("years", years, 2.0, 1000.0, unit="years", source="EN 1991-1-4, 4.2")
    numerator = 1.0 - shape * math.log(-math.log(1.0 - 1.0 / years))
    return float((numerator / (1.0 - shape * math.log(-math.log(0.98)))) ** exponent)


def terrain_factor(ground: Terrain) -> float:
    """Terrain factor.

    Parameters
    ----------
    ground
        Terrain category.

    Returns
    -------
    float
        k_r [-].

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.3.2(1), expression 4.5.

    Examples
    --------
    >>> round(terrain_factor(terrain("III")), 4)
    0.2154
    """
    return float(0.19 * (ground.z_0_m / 0.05) ** 0.07)


def roughness_factor(z_m: float, ground: Terrain) -> float:
    """Roughness factor: mean wind at a height as a share of the basic velocity.

    Parameters
    ----------
    z_m
        Height above the ground [m], up to 200.
    ground
        Terrain category.

    Returns
    -------
    float
        c_r [-].

    Raises
    ------
    OutsideScope
        The height is not between 0 and 200 m.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.3.2(1), expression 4.4.

    Examples
    --------
    >>> round(roughness_factor(8.0, terrain("III")), 4)
    0.7072
    """
    return terrain_factor(ground) * math.log(_effective_m(z_m, ground) / ground.z_0_m)


def turbulence_intensity(z_m: float, ground: Terrain, *, c_o: float = 1.0) -> float:
    """Turbulence intensity at a height.

    Parameters
    ----------
    z_m
        Height above the ground [m], up to 200.
    ground
        Terrain category.
    c_o
        Orography factor [-], 1.0 on flat ground.

    Returns
    -------
    float
        I_v [-].

    Raises
    ------
    OutsideScope
        The height is not between 0 and 200 m, or the orography factor below 1.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.4(1), expression 4.7, with k_I = 1.

    Examples
    --------
    >>> round(turbulence_intensity(8.0, terrain("III")), 4)
    0.3046
    """
    require_within("c_o", c_o, 1.0, 2.0, source="EN 1991-1-4, 4.3.3 and A.3")
    return 1.0 / (c_o * math.log(_effective_m(z_m, ground) / ground.z_0_m))


def velocity_pressure_kn_m2(velocity_m_s: float, *, air_density_kg_m3: float) -> float:
    """Velocity pressure of a steady wind.

    Parameters
    ----------
    velocity_m_s
        Wind velocity [m/s].
    air_density_kg_m3
        rho of the national annex [kg/m3]; recommended 1.25.

    Returns
    -------
    float
        q [kN/m2].

    Raises
    ------
    OutsideScope
        The density is not that of air.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.5(1), expression 4.10.

    Examples
    --------
    >>> round(velocity_pressure_kn_m2(26.0, air_density_kg_m3=1.25), 4)
    0.4225
    """
    require_within(
        "air_density_kg_m3", air_density_kg_m3, 1.0, 1.4, unit="kg/m3", source="EN 1991-1-4, 4.5(1)"
    )
    pascal_per_kn_m2 = 1000.0
    return 0.5 * air_density_kg_m3 * velocity_m_s**2 / pascal_per_kn_m2


def exposure_factor(z_m: float, ground: Terrain, *, c_o: float = 1.0) -> float:
    """Exposure factor: peak pressure as a multiple of the basic pressure.

    Parameters
    ----------
    z_m
        Height above the ground [m], up to 200.
    ground
        Terrain category.
    c_o
        Orography factor [-], 1.0 on flat ground.

    Returns
    -------
    float
        c_e [-].

    Raises
    ------
    OutsideScope
        The height is not between 0 and 200 m, or the orography factor below 1.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.5(1), expressions 4.8 and 4.9.

    Examples
    --------
    >>> round(exposure_factor(10.0, terrain("II")), 4)
    2.3523
    """
    gust = 1.0 + 7.0 * turbulence_intensity(z_m, ground, c_o=c_o)
    return gust * (roughness_factor(z_m, ground) * c_o) ** 2


def peak_pressure_kn_m2(
    basic_m_s: float, *, z_m: float, ground: Terrain, air_density_kg_m3: float, c_o: float = 1.0
) -> float:
    """Peak velocity pressure.

    Parameters
    ----------
    basic_m_s
        v_b, basic wind velocity [m/s].
    z_m
        Reference height above the ground [m]. Of a roof on a house it is the height of the house.
    ground
        Terrain category.
    air_density_kg_m3
        rho of the national annex [kg/m3].
    c_o
        Orography factor [-], 1.0 on flat ground.

    Returns
    -------
    float
        q_p [kN/m2].

    Raises
    ------
    OutsideScope
        The height is not between 0 and 200 m, or a factor is out of its range.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 4.5(1), expression 4.8; RFCS handbook Steel Buildings in Europe, Part 3, App. B.

    Examples
    --------
    >>> round(peak_pressure_kn_m2(26.0, z_m=8.0, ground=terrain("III"), air_density_kg_m3=1.25), 4)
    0.6618
    """
    basic = velocity_pressure_kn_m2(basic_m_s, air_density_kg_m3=air_density_kg_m3)
    return exposure_factor(z_m, ground, c_o=c_o) * basic


def displacement_height_m(*, distance_m: float, neighbours_m: float, height_m: float) -> float:
    """How far close-set neighbours lift the wind off the ground.

    A row of houses shelters only from its own side, never a roof on the open edge of a garden.

    Parameters
    ----------
    distance_m
        x: distance to the neighbours upwind [m].
    neighbours_m
        h_ave: their average height [m]; 15 in terrain IV when it is not known.
    height_m
        h: height of the building itself [m].

    Returns
    -------
    float
        h_dis [m], to take from the height above the ground; 0 beyond six times the neighbours' height.

    Raises
    ------
    OutsideScope
        A length is negative, or there are no neighbours.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, A.5(1), expression A.15; second-hand, read in two public implementations.

    Examples
    --------
    >>> round(displacement_height_m(distance_m=20.0, neighbours_m=6.0, height_m=9.0), 3)
    3.2
    """
    require_within("distance_m", distance_m, 0.0, 1e6, unit="m", source="EN 1991-1-4, A.5")
    require_within("neighbours_m", neighbours_m, 0.1, 300.0, unit="m", source="EN 1991-1-4, A.5")
    require_within("height_m", height_m, 0.1, _HIGHEST_M, unit="m", source="EN 1991-1-4, A.5")
    if distance_m <= 2.0 * neighbours_m:
        return min(0.8 * neighbours_m, 0.6 * height_m)
    if distance_m < 6.0 * neighbours_m:
        return min(1.2 * neighbours_m - 0.2 * distance_m, 0.6 * height_m)
    return 0.0


def _effective_m(z_m: float, ground: Terrain) -> float:
    require_within("z_m", z_m, 0.0, _HIGHEST_M, unit="m", source="EN 1991-1-4, 4.3.2")
    return max(z_m, ground.z_min_m)
