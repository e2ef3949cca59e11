"""How a sheet moves with temperature, and what that leaves at its edges: gaps, bites, windows, lap at the head.

All lengths in mm, temperatures as differences in K, expansion per K.
"""

from __future__ import annotations

import math

WIDTH_ROOM_LEAST_MM = 6.0
"""Room to move that every sheet gets in its width, 3 a side: common practice, no source."""
BUTTON_DROP_MM = 3.0
"""How far the sheet can drop within its button's clearance: common practice, no source."""
BITE_LEAST_MM = 10.0
"""Bite that a sheet keeps at its sides: judgement, no source."""
LAP_LEFT_MM = 15.0
"""Lap left over the head on the coldest day: judgement, no source."""


def movement_mm(length_mm: float, alpha_per_k: float, rise_k: float) -> float:
    """Free expansion of a length.

    Parameters
    ----------
    length_mm
        Length [mm].
    alpha_per_k
        Linear expansion [1/K].
    rise_k
        Change of temperature [K]; negative shrinks.

    Returns
    -------
    float
        Growth [mm].

    Source
    ------
    Physics: alpha L dT.

    Examples
    --------
    >>> round(movement_mm(4000.0, 65e-6, 50.0), 3)
    13.0
    """
    return alpha_per_k * length_mm * rise_k


def most_width_mm(between_mm: float, gap_left_mm: float, alpha_per_k: float, rise_k: float) -> int:
    """Greatest whole width that still has room on the hottest day, and 3 a side when it is cut.

    Parameters
    ----------
    between_mm
        Clear between the stems, at its narrowest [mm].
    gap_left_mm
        Gap left at each side on the hottest day [mm].
    alpha_per_k
        Linear expansion [1/K].
    rise_k
        Hottest sheet above the sheet at cutting [K].

    Returns
    -------
    int
        Width, rounded down [mm].

    Source
    ------
    W (1 + alpha dT) + 2 g = D, and W <= D - 6: movement, with common practice for the 3 a side (no source).

    Examples
    --------
    >>> most_width_mm(953.6, 1.0, 65e-6, 48.0)
    947
    """
    thermal = (between_mm - 2.0 * gap_left_mm) / (1.0 + alpha_per_k * rise_k)
    return math.floor(min(thermal, between_mm - WIDTH_ROOM_LEAST_MM) + 1e-9)


def least_width_mm(
    between_mm: float, depth_mm: float, bite_mm: float, alpha_per_k: float, fall_k: float
) -> int:
    """Least whole width that keeps its bite on the coldest day, pushed hard to the other side.

    Parameters
    ----------
    between_mm
        Clear between the stems, at its widest [mm].
    depth_mm
        What can hold the edge: rebate or arm [mm].
    bite_mm
        Bite that must be left [mm].
    alpha_per_k
        Linear expansion [1/K].
    fall_k
        Sheet at cutting above the coldest sheet [K].

    Returns
    -------
    int
        Width, rounded up [mm].

    Source
    ------
    r - (D - W (1 - alpha dT)) >= bite: movement.

    Examples
    --------
    >>> least_width_mm(953.6, 24.0, 10.0, 65e-6, 27.0)
    942
    """
    return math.ceil((between_mm - depth_mm + bite_mm) / (1.0 - alpha_per_k * fall_k) - 1e-9)


def cold_bite_mm(
    between_mm: float, depth_mm: float, width_mm: float, alpha_per_k: float, fall_k: float
) -> float:
    """Bite left on the coldest day at the edge that a sheet has been pushed away from.

    Parameters
    ----------
    between_mm
        Clear between the stems, at its widest [mm].
    depth_mm
        What can hold the edge: rebate or arm [mm].
    width_mm
        Width of the sheet as cut [mm].
    alpha_per_k
        Linear expansion [1/K].
    fall_k
        Sheet at cutting above the coldest sheet [K].

    Returns
    -------
    float
        Bite [mm]; negative where the edge is out.

    Source
    ------
    r - (D - W (1 - alpha dT)): movement.

    Examples
    --------
    >>> round(cold_bite_mm(953.6, 24.0, 947.0, 65e-6, 27.0), 3)
    15.738
    """
    return depth_mm - (between_mm - width_mm * (1.0 - alpha_per_k * fall_k))


def most_length_mm(raw_mm: float, gap_left_mm: float, alpha_per_k: float, rise_k: float) -> int:
    """Greatest whole length that still has room at the head on the hottest day.

    Parameters
    ----------
    raw_mm
        From the foot of the sheet to the back of the head profile, at its shortest [mm].
    gap_left_mm
        Gap left at the head on the hottest day [mm].
    alpha_per_k
        Linear expansion [1/K].
    rise_k
        Hottest sheet above the sheet at cutting [K].

    Returns
    -------
    int
        Length, rounded down [mm].

    Source
    ------
    L (1 + alpha dT) + g = raw: movement; the button holds the foot.

    Examples
    --------
    >>> most_length_mm(3037.509, 3.0, 65e-6, 48.0)
    3025
    """
    return math.floor((raw_mm - gap_left_mm) / (1.0 + alpha_per_k * rise_k) + 1e-9)


def least_length_mm(raw_mm: float, arm_mm: float, alpha_per_k: float, fall_k: float) -> int:
    """Least whole length whose head stays lapped on the coldest day.

    Parameters
    ----------
    raw_mm
        From the foot of the sheet to the back of the head profile, at its longest [mm].
    arm_mm
        Arm of the head profile [mm].
    alpha_per_k
        Linear expansion [1/K].
    fall_k
        Sheet at cutting above the coldest sheet [K].

    Returns
    -------
    int
        Length, rounded up [mm].

    Source
    ------
    Cover needed <= arm, with 3 for the button and 15 of lap left (judgement, no source).

    Examples
    --------
    >>> least_length_mm(3016.69, 40.0, 65e-6, 27.0)
    3000
    """
    return math.ceil((raw_mm + BUTTON_DROP_MM + LAP_LEFT_MM - arm_mm) / (1.0 - alpha_per_k * fall_k) - 1e-9)


def cover_needed_mm(head_gap_mm: float, length_mm: float, alpha_per_k: float, fall_k: float) -> float:
    """Arm that the head profile needs so that the sheet stays lapped on the coldest day.

    Parameters
    ----------
    head_gap_mm
        Gap at the head when fitted, at its greatest [mm].
    length_mm
        Length of the sheet as cut [mm].
    alpha_per_k
        Linear expansion [1/K].
    fall_k
        Sheet at cutting above the coldest sheet [K].

    Returns
    -------
    float
        Lap needed over the gap [mm].

    Source
    ------
    Gap + alpha L dT + 3 (button) + 15 (lap left: judgement, no source).

    Examples
    --------
    >>> round(cover_needed_mm(12.509, 3025.0, 65e-6, 27.0), 1)
    35.8
    """
    return head_gap_mm + movement_mm(length_mm, alpha_per_k, fall_k) + BUTTON_DROP_MM + LAP_LEFT_MM
