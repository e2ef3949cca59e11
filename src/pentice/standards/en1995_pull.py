"""EN 1995-1-1, 8.3.2, 8.5.2 and 8.7.3: nails and bolts pulled along their axis, and any fastener pulled and sheared.

Smooth nails never carry a lasting pull, and none at all in end grain. Screws along their axis: en1995_screws.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.errors import OutsideScope, require_within

_NAILS = "EN 1995-1-1, 8.3.2"


@dataclass(frozen=True, slots=True, kw_only=True)
class NailPull:
    """How a nail gives along its axis [N]: the point draws out, or the head pulls through; the lesser holds."""

    strength_n_mm2: float
    draws_out_n: float
    head_through_n: float
    resistance_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltPull:
    """How a bolt gives along its axis [N]: the timber under the washer, or the steel; the lesser holds."""

    washer_area_mm2: float
    washer_n: float
    steel_n: float
    resistance_n: float


def smooth_nail_pull(
    *, d_mm: float, head_mm: float, point_mm: float, head_side_mm: float, rho_k_kg_m3: float
) -> NailPull:
    """Characteristic resistance of a smooth round nail along its axis, driven across the grain.

    Parameters
    ----------
    d_mm
        Diameter, up to 8 [mm].
    head_mm
        Diameter of the head [mm].
    point_mm
        Penetration of the point in its member, at least 8 d [mm].
    head_side_mm
        Thickness of the member with the head [mm].
    rho_k_kg_m3
        Characteristic density of the timber, up to 500 [kg/m3].

    Returns
    -------
    NailPull
        Withdrawal strength 20e-6 rho2 [N/mm2], both ways of giving and the lesser [N].

    Raises
    ------
    OutsideScope
        The point grips less than 8 d, or diameter or density lies outside the rule.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.24 to 8.26 and 8.3.2(7) (less from 12 d down to 8 d), from memory. Not for timber that is
    fixed near fibre saturation and dries in place: then two thirds of it (8.3.2(8)).

    Examples
    --------
    >>> pull = smooth_nail_pull(d_mm=2.5, head_mm=5.0, point_mm=43.0, head_side_mm=12.0, rho_k_kg_m3=385.0)
    >>> round(pull.draws_out_n), round(pull.head_through_n)
    (319, 348)
    """
    require_within("d_mm", d_mm, 1.0, 8.0, unit="mm", source=_NAILS)
    require_within("rho_k_kg_m3", rho_k_kg_m3, 100.0, 500.0, unit="kg/m3", source=_NAILS)
    do = "Use a longer nail."
    require_within("point in the timber", point_mm, 8.0 * d_mm, math.inf, unit="mm", source=_NAILS, do=do)
    strength = 20e-6 * rho_k_kg_m3**2 * min(1.0, point_mm / (4.0 * d_mm) - 2.0)
    draws = strength * d_mm * point_mm
    through = strength * d_mm * head_side_mm + 70e-6 * rho_k_kg_m3**2 * head_mm**2
    return NailPull(
        strength_n_mm2=strength,
        draws_out_n=draws,
        head_through_n=through,
        resistance_n=min(draws, through),
    )


def bolt_pull(
    *, hole_mm: float, washer_mm: float, f_c_90_k_n_mm2: float, stress_area_mm2: float, f_u_n_mm2: float
) -> BoltPull:
    """Characteristic resistance of a bolt along its axis: washers pressed into the timber, or steel in tension.

    Parameters
    ----------
    hole_mm
        Diameter of the hole under the washer [mm].
    washer_mm
        Diameter of the round washer, or for a steel plate the lesser of 12 times its thickness and 4 d [mm].
    f_c_90_k_n_mm2
        Characteristic strength of the timber across the grain [N/mm2].
    stress_area_mm2
        Stress area of the thread [mm2].
    f_u_n_mm2
        Tensile strength of the bolt [N/mm2].

    Returns
    -------
    BoltPull
        3 f_c,90,k on the washer's area, 0.9 f_u A_s in the steel, and the lesser [N].

    Raises
    ------
    OutsideScope
        The washer is not wider than the hole.

    Source
    ------
    EN 1995-1-1:2004, 8.5.2 (3 f_c,90 under the washer); EN 1993-1-8, Table 3.4 for the steel, without its gamma_M2 of
    1.25, which belongs to the design value.

    Examples
    --------
    >>> pull = bolt_pull(
    ...     hole_mm=13.0, washer_mm=24.0, f_c_90_k_n_mm2=2.5, stress_area_mm2=84.3, f_u_n_mm2=400.0
    ... )
    >>> round(pull.washer_n), round(pull.steel_n)
    (2397, 30348)
    """
    if not washer_mm > hole_mm > 0.0:
        raise OutsideScope(
            f"washer is {washer_mm:g} mm over a hole of {hole_mm:g} mm; expected it wider than the hole "
            f"(EN 1995-1-1, 8.5.2). Take a larger washer."
        )
    require_within("stress_area_mm2", stress_area_mm2, 1.0, math.inf, unit="mm2", source="EN 1993-1-8, 3.6")
    area = math.pi / 4.0 * (washer_mm**2 - hole_mm**2)
    washer, steel = 3.0 * f_c_90_k_n_mm2 * area, 0.9 * f_u_n_mm2 * stress_area_mm2
    return BoltPull(washer_area_mm2=area, washer_n=washer, steel_n=steel, resistance_n=min(washer, steel))


def pull_and_shear_share(
    *, pull_n: float, shear_n: float, pull_resistance_n: float, shear_resistance_n: float, smooth_nail: bool
) -> float:
    """Share used by a fastener that is pulled along its axis and sheared across it.

    Parameters
    ----------
    pull_n, shear_n
        Design forces on one fastener [N].
    pull_resistance_n, shear_resistance_n
        Design resistances [N].
    smooth_nail
        True for smooth nails, which add up in a straight line; all others by squares [-].

    Returns
    -------
    float
        Eq. 8.27 for smooth nails, 8.28 for other nails, bolts and screws [-].

    Raises
    ------
    OutsideScope
        A resistance is not positive.

    Source
    ------
    EN 1995-1-1:2004, 8.3.3 and 8.7.3.

    Examples
    --------
    >>> shares = {"pull_n": 300.0, "shear_n": 400.0, "pull_resistance_n": 1000.0, "shear_resistance_n": 1000.0}
    >>> round(pull_and_shear_share(**shares, smooth_nail=True), 3)
    0.7
    >>> round(pull_and_shear_share(**shares, smooth_nail=False), 3)
    0.25
    """
    for name, value in {
        "pull_resistance_n": pull_resistance_n,
        "shear_resistance_n": shear_resistance_n,
    }.items():
        require_within(name, value, 1e-9, math.inf, unit="N", source="EN 1995-1-1, 8.3.3")
    pull, shear = max(pull_n, 0.0) / pull_resistance_n, abs(shear_n) / shear_resistance_n
    return pull + shear if smooth_nail else pull**2 + shear**2
