"""Imposed load on a roof that is walked on for repair only: category H (EN 1991-1-1).

It is not combined with snow or wind (EN 1991-1-1, 3.3.2(1)). The point load stands alone, with the own weight,
on one rafter, and never on the sheet: multiwall sheet is not a walkway.
"""

from __future__ import annotations

from pentice.standards._tables import interpolate
from pentice.standards.annex import Annex


def category_h_kn_m2(annex: Annex, pitch_deg: float) -> float:
    """Area load of a roof not accessible except for maintenance, on plan.

    Parameters
    ----------
    annex
        National choices; the load by pitch is one of them.
    pitch_deg
        Slope above the horizontal [deg].

    Returns
    -------
    float
        q_k [kN/m2].

    Raises
    ------
    OutsideScope
        The annex has no value here, or the pitch is beyond its table.

    Source
    ------
    EN 1991-1-1:2002, 6.3.4.2 with Table 6.10.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> category_h_kn_m2(load_annex("EN"), 12.0)
    0.4
    """
    annex.require("imposed_kn_m2")
    points = annex.imposed_kn_m2 or ()
    return interpolate("pitch_deg", pitch_deg, points, unit="deg", source="EN 1991-1-1, Table 6.10")


def category_h_point_kn(annex: Annex) -> float:
    """Point load of a roof not accessible except for maintenance: a person with tools.

    Parameters
    ----------
    annex
        National choices.

    Returns
    -------
    float
        Q_k [kN].

    Raises
    ------
    OutsideScope
        The annex has no value here.

    Source
    ------
    EN 1991-1-1:2002, 6.3.4.2 with Table 6.10.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> category_h_point_kn(load_annex("EN"))
    1.0
    """
    annex.require("imposed_point_kn")
    return annex.imposed_point_kn or 0.0


def category_h_area_m2(annex: Annex) -> float:
    """Area on which the area load of category H acts, wherever it is worst.

    Parameters
    ----------
    annex
        National choices.

    Returns
    -------
    float
        Area [m2].

    Raises
    ------
    OutsideScope
        The annex has no value here.

    Source
    ------
    EN 1991-1-1:2002, Table 6.10, note 2.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> category_h_area_m2(load_annex("EN"))
    10.0
    """
    annex.require("imposed_area_m2")
    return annex.imposed_area_m2 or 0.0
