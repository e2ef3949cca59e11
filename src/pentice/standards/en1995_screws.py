"""EN 1995-1-1, 8.7.2: screws pulled along their axis out of softwood.

The formula for withdrawal holds for threads of 6 to 12 mm with a root of 0.6 to 0.75 of the thread; any other
screw needs the value its maker declared. Shear: en1995_johansen.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.errors import OutsideScope, require_within

_RULE = "EN 1995-1-1, 8.7.2"
_REFERENCE_PRYING = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewDistances:
    """Least distances of screws loaded along their axis [mm]."""

    along_mm: float
    across_mm: float
    end_mm: float
    edge_mm: float


def inside_screw_formula(thread_mm: float, root_mm: float) -> bool:
    """Whether the standard's own withdrawal formula covers the screw.

    Parameters
    ----------
    thread_mm
        Outer diameter d of the thread [mm].
    root_mm
        Root diameter d_1 of the thread [mm].

    Returns
    -------
    bool
        True for 6 <= d <= 12 and 0.6 <= d_1/d <= 0.75 [-].

    Source
    ------
    EN 1995-1-1:2004+A1, 8.7.2(4).

    Examples
    --------
    >>> inside_screw_formula(6.0, 4.0), inside_screw_formula(5.0, 3.3)
    (True, False)
    """
    return 6.0 <= thread_mm <= 12.0 and 0.6 <= root_mm / thread_mm <= 0.75


def group_factor(count: int) -> float:
    """Effective number of screws that are pulled together as one group.

    Parameters
    ----------
    count
        Screws in the group [-].

    Returns
    -------
    float
        n_ef = n^0.9 [-].

    Raises
    ------
    OutsideScope
        There is no screw.

    Source
    ------
    EN 1995-1-1:2004+A1, eq. 8.41.

    Examples
    --------
    >>> round(group_factor(4), 4)
    3.4822
    """
    require_within("count", count, 1, math.inf, source=_RULE)
    return float(count**0.9)


def withdrawal_strength_n_mm2(thread_mm: float, length_mm: float, rho_k_kg_m3: float) -> float:
    """Withdrawal strength of a screw by the standard's formula.

    Parameters
    ----------
    thread_mm
        Outer diameter d of the thread, 6 to 12 [mm].
    length_mm
        Length l_ef of thread in the timber, at least 6 d [mm].
    rho_k_kg_m3
        Characteristic density of the timber [kg/m3].

    Returns
    -------
    float
        f_ax,k = 0.52 d^-0.5 l_ef^-0.1 rho_k^0.8 [N/mm2].

    Raises
    ------
    OutsideScope
        The thread lies outside the range of the formula.

    Source
    ------
    EN 1995-1-1:2004+A1, eq. 8.39.

    Examples
    --------
    >>> round(withdrawal_strength_n_mm2(6.0, 60.0, 350.0), 4)
    15.2886
    """
    require_within("thread_mm", thread_mm, 6.0, 12.0, unit="mm", source=_RULE, do="Give the declared value.")
    return float(0.52 * thread_mm**-0.5 * length_mm**-0.1 * rho_k_kg_m3**0.8)


def withdrawal_n(
    *, thread_mm: float, root_mm: float, length_mm: float, rho_k_kg_m3: float, angle_deg: float = 90.0
) -> float:
    """Force that draws one screw out of the timber, by the standard's formula.

    Parameters
    ----------
    thread_mm, root_mm
        Outer and root diameter of the thread [mm].
    length_mm
        Length l_ef of thread in the timber, at least 6 d [mm].
    rho_k_kg_m3
        Characteristic density of the timber [kg/m3].
    angle_deg
        Angle between the screw and the grain, 30 to 90 [deg].

    Returns
    -------
    float
        F_ax,alpha,Rk of one screw [N].

    Raises
    ------
    OutsideScope
        The screw, its angle or its penetration lies outside the range of the formula.

    Source
    ------
    EN 1995-1-1:2004+A1, eq. 8.38 to 8.40, with 8.7.2(3) for the penetration.

    Examples
    --------
    >>> round(withdrawal_n(thread_mm=6.0, root_mm=4.0, length_mm=60.0, rho_k_kg_m3=350.0), 1)
    4127.9
    """
    if not inside_screw_formula(thread_mm, root_mm):
        raise OutsideScope(
            f"screw {thread_mm:g} mm with root {root_mm:g} mm is outside the withdrawal formula; expected 6 to "
            f"12 mm with a root of 0.6 to 0.75 ({_RULE}). Give the declared withdrawal strength."
        )
    _require_grip(thread_mm, length_mm, angle_deg)
    k_d = min(thread_mm / 8.0, 1.0)
    pull = withdrawal_strength_n_mm2(thread_mm, length_mm, rho_k_kg_m3) * thread_mm * length_mm * k_d
    return pull / _angle_divisor(angle_deg)


def declared_withdrawal_n(
    *,
    thread_mm: float,
    length_mm: float,
    f_ax_n_mm2: float,
    rho_a_kg_m3: float,
    rho_k_kg_m3: float,
    angle_deg: float = 90.0,
) -> float:
    """Force that draws one screw out of the timber, from the strength its maker declares.

    Parameters
    ----------
    thread_mm
        Outer diameter d of the thread [mm].
    length_mm
        Length l_ef of thread in the timber, at least 6 d [mm].
    f_ax_n_mm2
        Declared characteristic withdrawal strength, across the grain [N/mm2].
    rho_a_kg_m3
        Density for which it was declared [kg/m3].
    rho_k_kg_m3
        Characteristic density of the timber [kg/m3].
    angle_deg
        Angle between the screw and the grain, 30 to 90 [deg].

    Returns
    -------
    float
        F_ax,alpha,Rk of one screw [N]; no k_d.

    Raises
    ------
    OutsideScope
        The angle or the penetration lies outside the range.

    Source
    ------
    EN 1995-1-1:2004+A1, eq. 8.40a (exponent 0.8), declaration by EN 14592.

    Examples
    --------
    >>> pull = declared_withdrawal_n(
    ...     thread_mm=5.0, length_mm=40.0, f_ax_n_mm2=12.0, rho_a_kg_m3=350.0, rho_k_kg_m3=350.0
    ... )
    >>> round(pull, 6)
    2400.0
    """
    _require_grip(thread_mm, length_mm, angle_deg)
    pull = f_ax_n_mm2 * thread_mm * length_mm * (rho_k_kg_m3 / rho_a_kg_m3) ** 0.8
    return float(pull / _angle_divisor(angle_deg))


def pull_through_n(*, f_head_n_mm2: float, head_mm: float, rho_a_kg_m3: float, rho_k_kg_m3: float) -> float:
    """Force that pulls one screw's head through timber.

    Parameters
    ----------
    f_head_n_mm2
        Declared head pull-through strength [N/mm2].
    head_mm
        Diameter of the head or washer [mm].
    rho_a_kg_m3
        Density for which it was declared [kg/m3].
    rho_k_kg_m3
        Characteristic density of the timber [kg/m3].

    Returns
    -------
    float
        F_ax,Rk of one screw [N].

    Source
    ------
    EN 1995-1-1:2004+A1, eq. 8.40b.

    Examples
    --------
    >>> round(pull_through_n(f_head_n_mm2=10.0, head_mm=12.0, rho_a_kg_m3=350.0, rho_k_kg_m3=310.0), 1)
    1306.8
    """
    return float(f_head_n_mm2 * head_mm**2 * (rho_k_kg_m3 / rho_a_kg_m3) ** 0.8)


def screw_design_n(
    *, timber_n: float, steel_n: float, k_mod: float, gamma_m: float = 1.3, gamma_m_2: float = 1.25
) -> float:
    """Design resistance of one screw along its axis: the least of timber and steel.

    Parameters
    ----------
    timber_n
        Least characteristic resistance that rests on timber: withdrawal, head pull-through [N].
    steel_n
        Characteristic resistance of the steel in tension [N].
    k_mod
        Factor for moisture and duration [-].
    gamma_m
        Partial factor of the connection [-].
    gamma_m_2
        Partial factor of the steel, 1.25; never used to gain over k_mod / gamma_m [-].

    Returns
    -------
    float
        F_ax,Rd [N].

    Source
    ------
    EN 1995-1-1:2004, eq. 2.14 and 2.17 on 8.7.2(2); the steel also by gamma_M2 = 1.25 (on the safe side, our choice).

    Examples
    --------
    >>> round(screw_design_n(timber_n=4127.92, steel_n=11000.0, k_mod=0.9), 1)
    2857.8
    """
    share = k_mod / gamma_m
    return min(timber_n * share, steel_n * min(share, 1.0 / gamma_m_2))


def screw_distances(thread_mm: float) -> ScrewDistances:
    """Least spacings, end and edge distances of screws loaded along their axis.

    Parameters
    ----------
    thread_mm
        Outer diameter d of the thread [mm].

    Returns
    -------
    ScrewDistances
        a_1 = 7 d along the grain, a_2 = 5 d across it, a_1,CG = 10 d to the end, a_2,CG = 4 d to the edge [mm].

    Source
    ------
    EN 1995-1-1:2004+A1, Table 8.6.

    Examples
    --------
    >>> screw_distances(6.0).end_mm
    60.0
    """
    return ScrewDistances(
        along_mm=7.0 * thread_mm, across_mm=5.0 * thread_mm, end_mm=10.0 * thread_mm, edge_mm=4.0 * thread_mm
    )


def least_timber_mm(thread_mm: float) -> float:
    """Least thickness of timber, along the screw, for which the spacings hold.

    Parameters
    ----------
    thread_mm
        Outer diameter d of the thread [mm].

    Returns
    -------
    float
        12 d [mm].

    Source
    ------
    EN 1995-1-1:2004+A1, 8.7.2(2).

    Examples
    --------
    >>> least_timber_mm(6.0)
    72.0
    """
    return 12.0 * thread_mm


def widest_hole_gauge_mm(timber_mm: float, thread_mm: float) -> float:
    """Widest distance between two staggered lines of holes that leaves both edges of a rafter their due.

    Parameters
    ----------
    timber_mm
        Width of the rafter under the bar [mm].
    thread_mm
        Outer diameter d of the thread [mm].

    Returns
    -------
    float
        Rafter width less 4 d on either side [mm]; negative when the rafter is too narrow for any screw.

    Source
    ------
    EN 1995-1-1:2004+A1, Table 8.6, a_2,CG = 4 d.

    Examples
    --------
    >>> widest_hole_gauge_mm(70.0, 6.0), widest_hole_gauge_mm(70.0, 5.0)
    (22.0, 30.0)
    """
    return timber_mm - 2.0 * screw_distances(thread_mm).edge_mm


def prying_factor(offset_mm: float, heel_mm: float) -> float:
    """How much harder a screw beside the line of load is pulled, because the seat pries against its heel.

    Parameters
    ----------
    offset_mm
        Distance e from the line of load to the screw [mm].
    heel_mm
        Distance h from the screw to the far edge of the seat, on which it turns [mm].

    Returns
    -------
    float
        k = 1 + e/h [-].

    Raises
    ------
    OutsideScope
        The heel is not positive.

    Source
    ------
    Equilibrium of a stiff seat (own derivation), no published source.

    Examples
    --------
    >>> prying_factor(10.0, 20.0)
    1.5
    """
    require_within("heel_mm", heel_mm, 0.1, math.inf, unit="mm", source="equilibrium of the seat")
    return 1.0 + offset_mm / heel_mm


def screw_pull_n(line_n_mm: float, length_mm: float, prying: float = _REFERENCE_PRYING) -> float:
    """Pull on one screw of a glazing bar from the uplift along it.

    Parameters
    ----------
    line_n_mm
        Uplift per length of bar [N/mm] (the same number in kN/m).
    length_mm
        Length of bar that the screw holds [mm].
    prying
        Prying factor, 1.5 unless worked out [-].

    Returns
    -------
    float
        Pull [N].

    Source
    ------
    Equilibrium; prying 1.5 is judgement, no source.

    Examples
    --------
    >>> round(screw_pull_n(1.0, 400.0), 6)
    600.0
    """
    return line_n_mm * length_mm * prying


def _require_grip(thread_mm: float, length_mm: float, angle_deg: float) -> None:
    do = "Use a longer screw."
    require_within(
        "thread in the timber", length_mm, 6.0 * thread_mm, math.inf, unit="mm", source=_RULE, do=do
    )
    require_within("angle_deg", angle_deg, 30.0, 90.0, unit="deg", source=_RULE)


def _angle_divisor(angle_deg: float) -> float:
    angle = math.radians(angle_deg)
    return 1.2 * math.cos(angle) ** 2 + math.sin(angle) ** 2
