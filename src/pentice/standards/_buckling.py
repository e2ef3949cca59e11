"""The buckling curve that steel and aluminium share, each with its own numbers."""

from __future__ import annotations

from math import sqrt


def buckling_factor(slenderness: float, imperfection: float, plateau: float) -> float:
    """Factor chi on the strength of a member that may buckle.

    Parameters
    ----------
    slenderness
        Relative slenderness [-].
    imperfection
        alpha of the curve [-].
    plateau
        Slenderness up to which nothing is lost [-].

    Returns
    -------
    float
        chi = 1 / (phi + sqrt(phi2 - lambda2)), phi = (1 + alpha (lambda - lambda_0) + lambda2) / 2, at most 1 [-].

    Source
    ------
    EN 1993-1-1, eq. 6.49 and EN 1999-1-1, eq. 6.50.

    Examples
    --------
    >>> round(buckling_factor(0.655, 0.34, 0.2), 3)
    0.809
    """
    if slenderness <= plateau:
        return 1.0
    phi = 0.5 * (1.0 + imperfection * (slenderness - plateau) + slenderness**2)
    return min(1.0, 1.0 / (phi + sqrt(phi**2 - slenderness**2)))


def slenderness_of(strength: float, critical: float) -> float:
    """Relative slenderness from what the section would carry and what it would buckle at, in one unit.

    Parameters
    ----------
    strength
        Force or moment of the section without buckling.
    critical
        Elastic critical force or moment.

    Returns
    -------
    float
        sqrt(strength / critical) [-].

    Source
    ------
    EN 1993-1-1, 6.3.1.2 and 6.3.2.2; EN 1999-1-1, 6.3.1.2 and 6.3.2.2.

    Examples
    --------
    >>> slenderness_of(9.0, 4.0)
    1.5
    """
    return sqrt(strength / critical)
