"""Peak wind pressure by the figures of the United Kingdom annex (NA to BS EN 1991-1-4).

The two figures are held as digitised points, good to about 2 %. What is read from them is raised by 3 %, is typical
and not declared, and is never carried beyond its points. Whoever has the printed figures gives the peak pressure.
"""

from __future__ import annotations

import math

from pentice.errors import OutsideScope, require_within
from pentice.standards._tables import interpolate, rows_of

DIGITISED = 1.03  # covers what was lost in reading the curves off the page; judgement, no source
_DO = "Give site.peak_pressure_kn_m2 from the printed figures."


def altitude_factor(*, altitude_m: float, z_m: float) -> float:
    """Altitude factor on the map velocity.

    Parameters
    ----------
    altitude_m
        A: height of the site above the sea [m].
    z_m
        Height of the roof above the ground [m].

    Returns
    -------
    float
        c_alt [-].

    Raises
    ------
    OutsideScope
        The site or the height is out of range.

    Source
    ------
    NA to BS EN 1991-1-4, NA.2.5, expressions NA.2a and NA.2b; second-hand, read in a public digest.

    Examples
    --------
    >>> round(altitude_factor(altitude_m=100.0, z_m=5.0), 3)
    1.1
    """
    require_within("altitude_m", altitude_m, 0.0, 1350.0, unit="m", source="judgement: highest ground there")
    require_within("z_m", z_m, 0.0, 200.0, unit="m", source="EN 1991-1-4, 4.3.2")
    share = 1.0 if z_m <= 10.0 else (10.0 / z_m) ** 0.2
    return float(1.0 + 0.001 * altitude_m * share)


def direction_factor(azimuth_deg: float) -> float:
    """Direction factor.

    Parameters
    ----------
    azimuth_deg
        Direction the wind comes from, clockwise from north [deg], 0 to 360.

    Returns
    -------
    float
        c_dir [-].

    Raises
    ------
    OutsideScope
        The direction is not between 0 and 360 deg.

    Source
    ------
    NA to BS EN 1991-1-4, Table NA.1, straight lines between; second-hand, two public copies alike.

    Examples
    --------
    >>> round(direction_factor(225.0), 3)
    0.965
    """
    points = [(float(row["azimuth_deg"]), float(row["c_dir"])) for row in rows_of("uk_direction.csv")]
    return interpolate("azimuth_deg", azimuth_deg, points, unit="deg", source="Table NA.1")


def exposure_factor_read(*, km_to_sea: float, z_m: float) -> float:
    """Exposure factor as read off the figure, without the 3 %.

    Parameters
    ----------
    km_to_sea
        Distance upwind to the sea [km], 0.1 to 100.
    z_m
        Height above the ground less the displacement height [m]; the curves end at 2 or 3 and at 10.

    Returns
    -------
    float
        c_e [-].

    Raises
    ------
    OutsideScope
        A point beyond the digitised curves.

    Source
    ------
    NA to BS EN 1991-1-4, Figure NA.7, digitised; straight in height and in the logarithm of distance.

    Examples
    --------
    >>> exposure_factor_read(km_to_sea=1.0, z_m=4.0)
    2.088
    """
    return _read("uk_exposure.csv", "distance_to_sea_km", km_to_sea, z_m, "Figure NA.7")


def town_factor_read(*, km_in_town: float, z_m: float) -> float:
    """Factor for shelter within a town as read off the figure, without the 3 %.

    Parameters
    ----------
    km_in_town
        Distance upwind to the edge of the town [km], 0.1 to 20.
    z_m
        Height above the ground less the displacement height [m]; the curves end at 2 or 3 and at 4 or 10.

    Returns
    -------
    float
        c_e,T [-].

    Raises
    ------
    OutsideScope
        A point beyond the digitised curves.

    Source
    ------
    NA to BS EN 1991-1-4, Figure NA.8, digitised; straight in height and in the logarithm of distance.

    Examples
    --------
    >>> town_factor_read(km_in_town=5.0, z_m=4.0)
    0.719
    """
    return _read("uk_town.csv", "distance_in_town_km", km_in_town, z_m, "Figure NA.8")


def pressure_from_factors_kn_m2(
    basic_kn_m2: float, *, c_e: float, c_e_town: float = 1.0, c_o: float = 1.0, z_m: float = 0.0
) -> float:
    """Peak velocity pressure from known factors.

    Parameters
    ----------
    basic_kn_m2
        q_b, basic velocity pressure [kN/m2].
    c_e, c_e_town
        Exposure factor and factor for a town [-].
    c_o
        Orography factor [-], 1.0 on flat ground.
    z_m
        Height above the ground [m], up to 50.

    Returns
    -------
    float
        q_p [kN/m2].

    Raises
    ------
    OutsideScope
        The height is above 50 m, where another expression holds.

    Source
    ------
    NA to BS EN 1991-1-4, NA.2.17, for heights up to 50 m; second-hand, read in a public implementation.

    Examples
    --------
    >>> round(pressure_from_factors_kn_m2(0.3755, c_e=2.0, c_o=1.1), 4)
    0.8478
    """
    require_within("z_m", z_m, 0.0, 50.0, unit="m", source="NA to BS EN 1991-1-4, NA.2.17", do=_DO)
    require_within("c_o", c_o, 1.0, 2.0, source="EN 1991-1-4, 4.3.3 and A.3")
    return c_e * c_e_town * basic_kn_m2 * ((c_o + 0.6) / 1.6) ** 2


def peak_pressure_read_kn_m2(
    basic_kn_m2: float, *, z_m: float, km_to_sea: float, km_in_town: float | None = None, c_o: float = 1.0
) -> float:
    """Peak velocity pressure from the digitised figures, raised by 3 %: a typical value.

    Parameters
    ----------
    basic_kn_m2
        q_b, basic velocity pressure [kN/m2].
    z_m
        Height above the ground less the displacement height [m].
    km_to_sea
        Distance upwind to the sea [km].
    km_in_town
        Distance upwind to the edge of the town [km]; None in the country.
    c_o
        Orography factor [-], 1.0 on flat ground.

    Returns
    -------
    float
        q_p [kN/m2].

    Raises
    ------
    OutsideScope
        A point beyond the digitised curves.

    Source
    ------
    NA to BS EN 1991-1-4, NA.2.17 with Figures NA.7 and NA.8, digitised.

    Examples
    --------
    >>> round(peak_pressure_read_kn_m2(0.3755, z_m=4.0, km_to_sea=10.0, km_in_town=5.0), 4)
    0.527
    """
    c_e = exposure_factor_read(km_to_sea=km_to_sea, z_m=z_m)
    town = 1.0 if km_in_town is None else town_factor_read(km_in_town=km_in_town, z_m=z_m)
    found = pressure_from_factors_kn_m2(basic_kn_m2, c_e=c_e, c_e_town=town, c_o=c_o, z_m=z_m)
    return DIGITISED * found


def _read(name: str, place: str, km: float, z_m: float, figure: str) -> float:
    curves: dict[float, list[tuple[float, float]]] = {}
    for row in rows_of(name):
        curves.setdefault(float(row["km"]), []).append((float(row["z_m"]), float(row["factor"])))
    distances = sorted(curves)
    require_within(place, km, distances[0], distances[-1], unit="km", source=figure, do=_DO)
    # Only the curves on either side are read, so that a short curve far away refuses nothing.
    below = max(d for d in distances if d <= km)
    above = min(d for d in distances if d >= km)
    pair = sorted({below, above})
    points = [(math.log(d), _on_curve(curves[d], d, z_m, figure)) for d in pair]
    return points[0][1] if len(pair) == 1 else interpolate(place, math.log(km), points)


def _on_curve(curve: list[tuple[float, float]], km: float, z_m: float, figure: str) -> float:
    lowest, highest = curve[0][0], curve[-1][0]
    if not lowest <= z_m <= highest:
        held = f"the {km:g} km curve of {figure} is held from {lowest:g} to {highest:g} m"
        raise OutsideScope(f"z_m is {z_m:g} m; {held}. {_DO}")
    return interpolate("z_m", z_m, curve)
