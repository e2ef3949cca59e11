"""How a sheet is handled: the gust at which it stops, and how many people lift it."""

from __future__ import annotations

import math

from pentice.setting_out.values import Bay

FORCE_N = 150.0
"""Push of the wind that two people can hold on a sheet: judgement, no source."""
DRAG = 1.2
"""Drag of a flat plate: handbook order of size, from memory."""
HALF_RHO = 0.613
"""Half the density of air [kg/m3]."""
LONG_SHEET_MM = 5000.0
MPH = 0.44704
"""m/s in one mile an hour."""


def gust_limit_m_s(area_m2: float) -> float:
    """Gust at which two people can no longer hold a sheet.

    Parameters
    ----------
    area_m2
        Area of the sheet [m2].

    Returns
    -------
    float
        [m/s].

    Source
    ------
    F = 0.613 v^2 1.2 A with 150 N: flat plate, from memory; the force is judgement, no source.

    Examples
    --------
    >>> round(gust_limit_m_s(2.9), 1)
    8.4
    """
    return math.sqrt(FORCE_N / (HALF_RHO * DRAG * area_m2))


def general_stop_mph(length_mm: float) -> tuple[float, float]:
    """Mean wind and gust at which handling stops whatever the area.

    Parameters
    ----------
    length_mm
        Length of the sheet [mm].

    Returns
    -------
    tuple of float
        Mean and gust [mph].

    Source
    ------
    Roofers' safety guidance, second-hand: 17 and 26 for sheets over 5 m, else 23 and 35.

    Examples
    --------
    >>> general_stop_mph(6000.0)
    (17.0, 26.0)
    """
    return (17.0, 26.0) if length_mm > LONG_SHEET_MM else (23.0, 35.0)


def area_m2(bay: Bay) -> float:
    """Area of a bay's sheet [m2]."""
    return bay.width_mm.cut * bay.length_mm.cut * 1e-6


def handling_gust_m_s(bay: Bay) -> float:
    """Gust at which handling a bay's sheet stops: by its area, never above the general stop.

    Parameters
    ----------
    bay
        The bay.

    Returns
    -------
    float
        [m/s], at working height.

    Source
    ------
    The lower of `gust_limit_m_s` and `general_stop_mph`.
    """
    return min(gust_limit_m_s(area_m2(bay)), general_stop_mph(bay.length_mm.cut)[1] * MPH)


def gust_words(bay: Bay) -> str:
    """The stop of a bay's sheet in words: gusts in m/s and mph, both rounded down."""
    metric, imperial = (speed.replace(" ", "\u00a0") for speed in gust_speeds(handling_gust_m_s(bay)))
    return f"stop at gusts of {metric} ({imperial})"


def gust_speeds(gust_m_s: float) -> tuple[str, str]:
    """A limit of gusts [m/s] in m/s and mph, both rounded down.

    Examples
    --------
    >>> gust_speeds(8.38)
    ('8.3 m/s', '18 mph')
    """
    return f"{_down(gust_m_s)} m/s", f"{math.floor(gust_m_s / MPH):d} mph"


def _down(speed_m_s: float) -> str:
    """A speed limit to a tenth, down."""
    return f"{math.floor(speed_m_s * 10.0 + 1e-9) / 10.0:.1f}"


def people_for(bay: Bay) -> int:
    """People who lift a sheet: two, or three for one over 4 m or 4 m2.

    Parameters
    ----------
    bay
        The bay.

    Returns
    -------
    int
        People.

    Source
    ------
    Judgement, no source.
    """
    area = bay.width_mm.cut * bay.length_mm.cut * 1e-6
    return 3 if bay.length_mm.cut > 4000.0 or area > 4.0 else 2
