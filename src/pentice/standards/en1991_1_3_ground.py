"""Snow on the ground by region, zone and height above the sea (EN 1991-1-3, Annex C, and national rules as read).

Only rows that were read are held. The others refuse and ask for the value of the national map, which is always the
better answer: a fitter who has it gives it and needs none of this.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from pentice.errors import InputError, OutsideScope, require_within
from pentice.standards._tables import interpolate, toml_of

_FILE = "ground_snow.toml"
_LOWEST_M = -10.0
_DO = "Give site.ground_snow_kn_m2 from the national map."


def ground_snow_kn_m2(region: str, zone: str | int, altitude_m: float) -> float:
    """Characteristic snow load on the ground.

    Parameters
    ----------
    region
        "Alpine" for that row of Annex C, or a country: see snow_regions().
    zone
        Zone of the region's map.
    altitude_m
        Height of the site above the sea [m].

    Returns
    -------
    float
        s_k [kN/m2], with a return period of 50 years.

    Raises
    ------
    InputError
        The region or its zone is not known.
    OutsideScope
        The row was never read, or the site is higher than the rule goes.

    Source
    ------
    EN 1991-1-3:2003, 4.1 with Annex C, Table C.1, and the national annexes named in the data file.

    Examples
    --------
    >>> round(ground_snow_kn_m2("Alpine", 2, 200.0), 4)
    1.3906
    >>> round(ground_snow_kn_m2("UK", 3, 100.0), 3)
    0.5
    """
    data = _region(region)
    name = str(zone)
    if name not in data["zones"]:
        raise InputError.of(
            "snow_zone", zone, f"expected one of {', '.join(data['zones'])} in region {region}"
        )
    source = f"region {region}"
    require_within("altitude_m", altitude_m, _LOWEST_M, data["most_m"], unit="m", source=source, do=_DO)
    return _FORMS[data["form"]](data, name, altitude_m)


def accidental_ground_snow_kn_m2(region: str, zone: str | int) -> float | None:
    """Exceptional snow on the ground of a zone, an accidental action.

    Parameters
    ----------
    region, zone
        As for ground_snow_kn_m2.

    Returns
    -------
    float or None
        s_Ad [kN/m2]; None where no value was read: not the same as none.

    Raises
    ------
    InputError
        The region is not known.
    OutsideScope
        The row was never read.

    Source
    ------
    EN 1991-1-3:2003, 4.3, with the national annexes named in the data file.

    Examples
    --------
    >>> accidental_ground_snow_kn_m2("FR", "D"), accidental_ground_snow_kn_m2("FR", "E")
    (1.8, None)
    """
    found = _region(region).get("accidental", {}).get(str(zone))
    return None if found is None else float(found)


def ground_snow_source(region: str) -> str:
    """Where the rule of a region was printed.

    Parameters
    ----------
    region
        See snow_regions().

    Returns
    -------
    str
        One sentence.

    Raises
    ------
    InputError
        The region is not known.
    OutsideScope
        The row was never read.

    Source
    ------
    The data file of ground snow.

    Examples
    --------
    >>> ground_snow_source("NL")[:23]
    'Dutch annex to EN 1991-'
    """
    return str(_region(region)["source"])


def snow_regions() -> tuple[str, ...]:
    """Regions whose rule is held.

    Returns
    -------
    tuple
        Names in the order of the data file.

    Source
    ------
    The data file of ground snow.

    Examples
    --------
    >>> snow_regions()[0]
    'Alpine'
    """
    return tuple(toml_of(_FILE)["regions"])


def _region(region: str) -> Mapping[str, Any]:
    data = toml_of(_FILE)
    if region in data["refused"]:
        raise OutsideScope(f"snow_region {region} is not held here: {data['refused'][region]}. {_DO}")
    if region not in data["regions"]:
        raise InputError.of("snow_region", region, f"expected one of {', '.join(data['regions'])}", _DO)
    found: Mapping[str, Any] = data["regions"][region]
    return found


def _square(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    return float(data["zones"][zone] * (1.0 + (altitude_m / data["divisor_m"]) ** 2))


def _german(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    row = data["zones"][zone]
    by_height = row["a"] + row["b"] * ((altitude_m + 140.0) / 760.0) ** 2
    return float(row["factor"] * max(row["floor"], by_height))


def _linear(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    row = data["zones"][zone]
    return float(max(row["floor"], row["a"] + row["b"] * altitude_m))


def _uk(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    # Below 100 m the last term is negative and stays so: the equation is used as it is printed.
    return float(0.15 + (0.1 * data["zones"][zone] + 0.05) + (altitude_m - 100.0) / 525.0)


def _french(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    rise = data["rise_of_E"] if zone == "E" else data["rise"]
    return float(data["zones"][zone] + interpolate("altitude_m", altitude_m, rise, unit="m"))


def _table(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    # A zone may end below the last height of the table, where nothing is printed.
    points = [(float(a), float(s)) for a, s in zip(data["heights_m"], data["zones"][zone], strict=False)]
    return interpolate("altitude_m", altitude_m, points, unit="m", source="Table AN.2", do=_DO)


def _constant(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    return float(data["zones"][zone])


def _swiss(data: Mapping[str, Any], zone: str, altitude_m: float) -> float:
    reference_m = max(altitude_m + data["zones"][zone], 0.0)
    return float(max(data["floor"], data["a"] * (1.0 + (reference_m / data["divisor_m"]) ** 2)))


_FORMS: Mapping[str, Callable[[Mapping[str, Any], str, float], float]] = {
    "square": _square,
    "german": _german,
    "linear": _linear,
    "uk": _uk,
    "french": _french,
    "table": _table,
    "constant": _constant,
    "swiss": _swiss,
}
