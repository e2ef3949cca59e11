"""EN 1995-1-1, 8.3 to 8.7: what timber and steel of a nail, bolt, dowel or screw set against being sheared.

Embedment strength is how hard the hole's edge can be pressed, yield moment how hard the fastener can be bent. Both feed
the Johansen equations. Softwood only.
"""

from __future__ import annotations

import math

from pentice.errors import OutsideScope, require_within

_NAILS = "EN 1995-1-1, 8.3.1.1"
_BOLTS = "EN 1995-1-1, 8.5.1.1"


def nail_embedment_n_mm2(d_mm: float, rho_k_kg_m3: float, *, predrilled: bool) -> float:
    """Embedment strength of softwood under a nail of up to 8 mm, at any angle to the grain.

    Parameters
    ----------
    d_mm
        Diameter of the nail, or effective diameter of a thin screw, up to 8 [mm].
    rho_k_kg_m3
        Characteristic density of the timber [kg/m3].
    predrilled
        Whether a hole was drilled first [-].

    Returns
    -------
    float
        f_h,k [N/mm2]: 0.082 rho d^-0.3 driven, 0.082 (1 - 0.01 d) rho predrilled.

    Raises
    ------
    OutsideScope
        The nail is thicker than 8 mm, or the timber denser than 500 kg/m3 and not predrilled.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.15 and 8.16; 8.3.1.1(2) for the density.

    Examples
    --------
    >>> round(nail_embedment_n_mm2(5.0, 350.0, predrilled=False), 4)
    17.7089
    """
    require_within("d_mm", d_mm, 1.0, 8.0, unit="mm", source=_NAILS, do="Use the rule for bolts.")
    most = math.inf if predrilled else 500.0
    do = "Drill the hole first."
    require_within("rho_k_kg_m3", rho_k_kg_m3, 1.0, most, unit="kg/m3", source=_NAILS, do=do)
    if predrilled:
        return 0.082 * (1.0 - 0.01 * d_mm) * rho_k_kg_m3
    return float(0.082 * rho_k_kg_m3 * d_mm**-0.3)


def bolt_embedment_n_mm2(d_mm: float, rho_k_kg_m3: float, angle_deg: float = 0.0) -> float:
    """Embedment strength of softwood under a bolt, a dowel or a thick screw, by the angle of the force to the grain.

    Parameters
    ----------
    d_mm
        Diameter, up to 30 [mm].
    rho_k_kg_m3
        Characteristic density of the timber [kg/m3].
    angle_deg
        Angle between force and grain, 0 to 90 [deg].

    Returns
    -------
    float
        f_h,alpha,k [N/mm2].

    Raises
    ------
    OutsideScope
        The bolt is thicker than 30 mm, or the angle is not between 0 and 90 degrees.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.31 to 8.33, k_90 = 1.35 + 0.015 d for softwood.

    Examples
    --------
    >>> round(bolt_embedment_n_mm2(12.0, 380.0, 39.0), 1)
    22.7
    """
    require_within("d_mm", d_mm, 1.0, 30.0, unit="mm", source=_BOLTS)
    require_within("angle_deg", angle_deg, 0.0, 90.0, unit="deg", source=_BOLTS)
    along = 0.082 * (1.0 - 0.01 * d_mm) * rho_k_kg_m3
    angle = math.radians(angle_deg)
    return along / ((1.35 + 0.015 * d_mm) * math.sin(angle) ** 2 + math.cos(angle) ** 2)


def nail_yield_moment_n_mm(d_mm: float, f_u_n_mm2: float, *, square: bool = False) -> float:
    """Yield moment of a nail of drawn wire.

    Parameters
    ----------
    d_mm
        Diameter, or side of a square nail [mm].
    f_u_n_mm2
        Tensile strength of the wire, at least 600 [N/mm2].
    square
        Whether the nail is square or grooved [-].

    Returns
    -------
    float
        M_y,Rk = 0.3 f_u d^2.6 round, 0.45 f_u d^2.6 square [N mm].

    Raises
    ------
    OutsideScope
        The wire is softer than 600 N/mm2: then the declared yield moment is needed.

    Source
    ------
    EN 1995-1-1:2004+A1, eq. 8.14.

    Examples
    --------
    >>> round(nail_yield_moment_n_mm(5.0, 600.0), 1)
    11819.4
    """
    do = "Give the declared yield moment."
    require_within("f_u_n_mm2", f_u_n_mm2, 600.0, 2500.0, unit="N/mm2", source=_NAILS, do=do)
    return float((0.45 if square else 0.3) * f_u_n_mm2 * d_mm**2.6)


def bolt_yield_moment_n_mm(d_mm: float, f_u_n_mm2: float) -> float:
    """Yield moment of a bolt or dowel, and of a screw by its effective diameter.

    Parameters
    ----------
    d_mm
        Diameter [mm].
    f_u_n_mm2
        Tensile strength of the steel, 240 to 1200 [N/mm2].

    Returns
    -------
    float
        M_y,Rk = 0.3 f_u d^2.6 [N mm].

    Raises
    ------
    OutsideScope
        The strength is not that of a steel bolt.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.30.

    Examples
    --------
    >>> round(bolt_yield_moment_n_mm(12.0, 400.0), 1)
    76745.4
    """
    require_within("f_u_n_mm2", f_u_n_mm2, 240.0, 1200.0, unit="N/mm2", source=_BOLTS)
    return float(0.3 * f_u_n_mm2 * d_mm**2.6)


def screw_effective_diameter_mm(
    *, thread_mm: float, root_mm: float, smooth_mm: float = 0.0, smooth_in_point_mm: float = 0.0
) -> float:
    """Diameter with which a screw counts in shear.

    Parameters
    ----------
    thread_mm
        Outer diameter of the thread [mm].
    root_mm
        Root diameter of the thread [mm].
    smooth_mm
        Diameter of the smooth shank, 0 for a screw threaded to its head [mm].
    smooth_in_point_mm
        Length of smooth shank in the member with the point [mm].

    Returns
    -------
    float
        The smooth diameter where at least 4 d of it stands in the member with the point, else 1.1 of the root [mm].

    Raises
    ------
    OutsideScope
        The root is not smaller than the thread.

    Source
    ------
    EN 1995-1-1:2004+A1, 8.7.1(2) and (3).

    Examples
    --------
    >>> round(screw_effective_diameter_mm(thread_mm=6.0, root_mm=4.0), 2)
    4.4
    """
    require_within("root_mm", root_mm, 0.1, thread_mm, unit="mm", source="EN 1995-1-1, 8.7.1")
    if smooth_mm > 0.0 and smooth_in_point_mm >= 4.0 * smooth_mm:
        return smooth_mm
    return 1.1 * root_mm


def screw_embedment_n_mm2(
    d_ef_mm: float, rho_k_kg_m3: float, *, angle_deg: float = 0.0, predrilled: bool = False
) -> float:
    """Embedment strength of softwood under a screw: as a nail up to an effective 6 mm, as a bolt beyond.

    Parameters
    ----------
    d_ef_mm
        Effective diameter, from screw_effective_diameter_mm [mm].
    rho_k_kg_m3
        Characteristic density of the timber [kg/m3].
    angle_deg
        Angle between force and grain; counts for screws over 6 mm [deg].
    predrilled
        Whether a hole was drilled first; screws over 6 mm need it in any case [-].

    Returns
    -------
    float
        f_h,k [N/mm2].

    Raises
    ------
    OutsideScope
        A screw over 6 mm is not predrilled.

    Source
    ------
    EN 1995-1-1:2004+A1, 8.7.1(4) and (5), 10.4.5(2).

    Examples
    --------
    >>> round(screw_embedment_n_mm2(4.4, 350.0), 3)
    18.401
    """
    if d_ef_mm <= 6.0:
        return nail_embedment_n_mm2(d_ef_mm, rho_k_kg_m3, predrilled=predrilled)
    if not predrilled:
        raise OutsideScope(
            f"screw with an effective diameter of {d_ef_mm:g} mm is not predrilled; expected a drilled hole above 6 mm "
            f"(EN 1995-1-1, 10.4.5). Drill it first, or use a screw approved without."
        )
    return bolt_embedment_n_mm2(d_ef_mm, rho_k_kg_m3, angle_deg)
