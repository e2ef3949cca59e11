"""EN 12056-3: rain from a roof and the wall above it, and what gutter, outlet and downpipe carry away.

Coefficients of gutters, long-gutter factors, bends and outlets are recalled, not read; they reproduce a published
table of half-round gutters to 1.2 %. Falls flatter than 1:333 count as level.
"""

from __future__ import annotations

import math
from itertools import pairwise

from pentice.errors import require_within

_LONG_GUTTER = ((50.0, 1.0), (100.0, 0.93), (150.0, 0.86), (200.0, 0.80))
_MEMORY = "EN 12056-3, from memory"


def effective_area_m2(*, length_m: float, depth_m: float, rise_m: float, wall_above_m: float = 0.0) -> float:
    """Roof area that counts for driving rain, with the share of the wall above it.

    Parameters
    ----------
    length_m
        Length of the roof along the gutter [m].
    depth_m
        Depth of the roof on plan, from gutter to wall [m].
    rise_m
        Height of the roof from gutter to wall [m].
    wall_above_m
        Height of wall above the roof that rain can drive against [m].

    Returns
    -------
    float
        A = L (B + H/2) + half the wall's area [m2].

    Raises
    ------
    OutsideScope
        A size is negative.

    Source
    ------
    EN 12056-3:2000, 4.3 (rain driven at 26 degrees: two down, one across).

    Examples
    --------
    >>> round(effective_area_m2(length_m=5.0, depth_m=3.5, rise_m=0.9378, wall_above_m=2.5), 4)
    26.0945
    """
    sizes = {"length_m": length_m, "depth_m": depth_m, "rise_m": rise_m, "wall_above_m": wall_above_m}
    for name, size in sizes.items():
        require_within(name, size, 0.0, math.inf, unit="m", source="EN 12056-3, 4.3")
    return length_m * (depth_m + rise_m / 2.0) + length_m * wall_above_m / 2.0


def runoff_l_s(area_m2: float, rain_l_s_m2: float, risk_factor: float = 1.0) -> float:
    """Flow from a roof that lets all rain run off.

    Parameters
    ----------
    area_m2
        Effective area [m2].
    rain_l_s_m2
        Rainfall intensity [l/(s m2)]; 75 mm/h is 0.0208.
    risk_factor
        1.0 for an eaves gutter, 1.5 where overflow is a nuisance, 2 to 3 inside a building [-].

    Returns
    -------
    float
        Q = r A C with C = 1 [l/s].

    Raises
    ------
    OutsideScope
        The risk factor is below 1 or above 3.

    Source
    ------
    EN 12056-3:2000, 4.2 and Table 2 (risk factors from memory).

    Examples
    --------
    >>> round(runoff_l_s(19.8445, 0.021), 4)
    0.4167
    """
    require_within("risk_factor", risk_factor, 1.0, 3.0, source="EN 12056-3, Table 2")
    return area_m2 * rain_l_s_m2 * risk_factor


def half_round_area_mm2(width_mm: float) -> float:
    """Section of a true half-round gutter, full to the brim.

    Parameters
    ----------
    width_mm
        Inside width at the brim [mm], not the nominal size.

    Returns
    -------
    float
        A_E [mm2].

    Source
    ------
    Half a circle.

    Examples
    --------
    >>> round(half_round_area_mm2(100.0), 2)
    3926.99
    """
    return math.pi * width_mm**2 / 8.0


def half_round_flow_l_s(area_mm2: float) -> float:
    """Design flow of a short level half-round eaves gutter with a free outlet at one end.

    Parameters
    ----------
    area_mm2
        Full section A_E [mm2].

    Returns
    -------
    float
        Q_L = 0.9 x 2.78e-5 A_E^1.25 [l/s].

    Source
    ------
    EN 12056-3:2000, 5.1.2 (coefficient from memory; reproduces Approved Document H3, Table 2).

    Examples
    --------
    >>> round(half_round_flow_l_s(3926.99), 3)
    0.778
    """
    return float(0.9 * 2.78e-5 * area_mm2**1.25)


def box_flow_l_s(area_mm2: float, *, depth_factor: float, shape_factor: float) -> float:
    """Design flow of a short level rectangular or trapezoidal eaves gutter with a free outlet at one end.

    Parameters
    ----------
    area_mm2
        Full section A_E [mm2].
    depth_factor, shape_factor
        F_d and F_s read from the standard's figures for this gutter, 0 to 1.2 [-]; there is no default.

    Returns
    -------
    float
        Q_L = 0.9 x 3.48e-5 A_E^1.25 F_d F_s [l/s].

    Raises
    ------
    OutsideScope
        A factor is not between 0 and 1.2.

    Source
    ------
    EN 12056-3:2000, 5.1.3 (coefficient from memory).

    Examples
    --------
    >>> round(box_flow_l_s(6000.0, depth_factor=1.0, shape_factor=1.0), 3)
    1.654
    """
    require_within("depth_factor", depth_factor, 0.0, 1.2, source=_MEMORY)
    require_within("shape_factor", shape_factor, 0.0, 1.2, source=_MEMORY)
    return float(0.9 * 3.48e-5 * area_mm2**1.25 * depth_factor * shape_factor)


def long_gutter_factor(run_mm: float, water_depth_mm: float) -> float:
    """Factor on the flow of a level gutter that is long for its depth.

    Parameters
    ----------
    run_mm
        Drainage length to the outlet, L [mm].
    water_depth_mm
        Design depth of water, W [mm].

    Returns
    -------
    float
        F_L [-]: 1.0 up to L = 50 W, by straight lines down to 0.80 at 200 W.

    Raises
    ------
    OutsideScope
        The gutter is longer than 200 times its depth.

    Source
    ------
    EN 12056-3:2000, Table 6, level gutter (from memory).

    Examples
    --------
    >>> round(long_gutter_factor(5000.0, 50.0), 3)
    0.93
    """
    ratio = run_mm / water_depth_mm
    require_within("gutter length over depth", ratio, 0.0, 200.0, source=_MEMORY, do="Add an outlet.")
    rows = pairwise(_LONG_GUTTER)
    (low, f_low), (high, f_high) = next((a, b) for a, b in rows if ratio <= b[0])
    return min(1.0, f_low + (f_high - f_low) * (ratio - low) / (high - low))


def bend_factor(bend_deg: float) -> float:
    """Factor on the flow of a gutter with a change of direction.

    Parameters
    ----------
    bend_deg
        Sharpest change of direction on the way to the outlet [deg].

    Returns
    -------
    float
        0.85 for more than 10 degrees, otherwise 1.0 [-].

    Source
    ------
    EN 12056-3:2000, 5.1.7 (from memory).

    Examples
    --------
    >>> bend_factor(90.0)
    0.85
    """
    return 0.85 if abs(bend_deg) > 10.0 else 1.0


def outlet_flow_l_s(diameter_mm: float, head_mm: float, *, strainer: bool = False) -> float:
    """Flow into a round outlet in the sole of a gutter.

    Parameters
    ----------
    diameter_mm
        Effective diameter D of the outlet's mouth [mm].
    head_mm
        Depth of water h over it [mm].
    strainer
        True with a leaf guard, which halves the flow [-].

    Returns
    -------
    float
        As a weir, k D h^1.5 / 7500, up to h = D/2; above, as an orifice, k D2 h^0.5 / 15000 [l/s].

    Raises
    ------
    OutsideScope
        Diameter or head is not positive.

    Source
    ------
    EN 12056-3:2000, 5.3 (from memory).

    Examples
    --------
    >>> round(outlet_flow_l_s(68.0, 30.0), 3), round(outlet_flow_l_s(68.0, 50.0), 3)
    (1.49, 2.18)
    """
    require_within("diameter_mm", diameter_mm, 1.0, math.inf, unit="mm", source=_MEMORY)
    require_within("head_mm", head_mm, 0.0, math.inf, unit="mm", source=_MEMORY)
    k_o = 0.5 if strainer else 1.0
    if head_mm <= diameter_mm / 2.0:
        return float(k_o * diameter_mm * head_mm**1.5 / 7500.0)
    return float(k_o * diameter_mm**2 * head_mm**0.5 / 15000.0)


def downpipe_flow_l_s(diameter_mm: float, filling: float = 0.33) -> float:
    """Flow down a vertical round rainwater pipe.

    Parameters
    ----------
    diameter_mm
        Inside diameter d_i [mm].
    filling
        Degree of filling f, 0.20 to 0.33 [-].

    Returns
    -------
    float
        Q = 2.5e-4 k_b^-0.167 d_i^2.667 f^1.667, roughness k_b 0.25 mm [l/s].

    Raises
    ------
    OutsideScope
        The degree of filling lies outside the range.

    Source
    ------
    EN 12056-3:2000, 6.1, the formula behind its Table 8 (after Wyly and Eaton).

    Examples
    --------
    >>> round(downpipe_flow_l_s(68.0), 2)
    3.83
    """
    require_within("filling", filling, 0.20, 0.33, source="EN 12056-3, Table 8")
    return float(2.5e-4 * 0.25**-0.167 * diameter_mm**2.667 * filling**1.667)
