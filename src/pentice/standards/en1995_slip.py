"""EN 1995-1-1, 2.2.2 and 7.1: how far a joint slips under load before anything breaks."""

from __future__ import annotations

import math

from pentice.errors import require_within

_SOURCE = "EN 1995-1-1, Table 7.1"
ULTIMATE = 2.0 / 3.0
"""K_u over K_ser: EN 1995-1-1, 2.2.2(2), eq. 2.1, from memory."""


def slip_modulus_n_mm(d_mm: float, rho_mean_kg_m3: float) -> float:
    """Stiffness of one bolt, dowel, screw or predrilled nail in one shear plane, in service.

    Parameters
    ----------
    d_mm
        Diameter, 6 to 30 [mm].
    rho_mean_kg_m3
        Mean density of the timber, of two as `mean_of_two` [kg/m3].

    Returns
    -------
    float
        K_ser = rho_m^1.5 d / 23 [N/mm]; the play of a bolt in its hole comes on top.

    Raises
    ------
    OutsideScope
        The diameter is out of range, or the density nothing.

    Source
    ------
    EN 1995-1-1:2004, Table 7.1 with its footnote, from memory.

    Examples
    --------
    >>> round(slip_modulus_n_mm(12.0, 420.0), 1)
    4490.8
    """
    require_within("d_mm", d_mm, 6.0, 30.0, unit="mm", source=_SOURCE, do="Declare the joint's stiffness.")
    require_within("rho_mean_kg_m3", rho_mean_kg_m3, 1.0, math.inf, unit="kg/m3", source=_SOURCE)
    return float(rho_mean_kg_m3**1.5 * d_mm / 23.0)


def mean_of_two(rho_kg_m3: float, other_kg_m3: float) -> float:
    """Density that counts for the slip between two timbers.

    Parameters
    ----------
    rho_kg_m3, other_kg_m3
        Mean density of either [kg/m3].

    Returns
    -------
    float
        sqrt(rho_1 rho_2) [kg/m3].

    Source
    ------
    EN 1995-1-1:2004, 7.1(2), eq. 7.1, from memory.

    Examples
    --------
    >>> mean_of_two(400.0, 441.0)
    420.0
    """
    return math.sqrt(rho_kg_m3 * other_kg_m3)
