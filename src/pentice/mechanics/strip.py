"""A strip of sheet between two glazing bars, free to slide in them: how far it sags, bends and draws in.

Exact away from the ends of a long bay. Both edges are held in height and turn freely. An end of the bay with nothing
under it sags more (FREE_END_FACTOR). Small deflections: beyond about a twentieth of the span the answer is only a flag.
"""

from __future__ import annotations

from dataclasses import dataclass

_N_MM2_PER_KN_M2 = 1e-3
_MM_PER_M = 1000.0

# A series solution with a free end gave 1.10 (25 mm sheet) to 1.25 (10 mm sheet) of the strip (own calculation).
FREE_END_FACTOR = 1.25

# The bow under an even load: integrals of the squared slope of the bending curve, of both, and of the parabola.
_BENDING2, _BOTH, _SHEAR2 = 17.0 / 35.0 * 128.0 / 25.0, 128.0 / 25.0, 8.0 / 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """Sag in the middle of a strip, parted into what bending and what shear gives [mm]."""

    bending_mm: float
    shear_mm: float

    @property
    def total_mm(self) -> float:
        """Bending and shear together [mm]."""
        return self.bending_mm + self.shear_mm


def strip_sag(load_kn_m2: float, span_mm: float, by_n_m: float, sy_n_m: float) -> Sag:
    """Sag of a long sheet between two bars under an even load.

    Parameters
    ----------
    load_kn_m2
        Load across the sheet's plane, downward positive [kN/m2].
    span_mm
        Clear span between the bars [mm].
    by_n_m
        Bending stiffness across the flutes per width [N m]; divide by a creep factor for lasting loads.
    sy_n_m
        Shear stiffness across the flutes per width [N/m], likewise.

    Returns
    -------
    Sag
        5 q b4 / (384 B_y) from bending and q b2 / (8 S_y) from shear [mm].

    Source
    ------
    Beam tables, simple span under an even load, with the deflection from shear of a beam of constant shear stiffness.

    Examples
    --------
    >>> sag = strip_sag(1.0, 700.0, 1100.0, 50000.0)
    >>> round(sag.bending_mm, 3), round(sag.shear_mm, 3)
    (2.842, 1.225)
    """
    load = load_kn_m2 * _N_MM2_PER_KN_M2
    return Sag(
        bending_mm=5.0 * load * span_mm**4 / (384.0 * by_n_m * _MM_PER_M),
        shear_mm=load * span_mm**2 / (8.0 * sy_n_m / _MM_PER_M),
    )


def strip_moment_n(load_kn_m2: float, span_mm: float) -> float:
    """Bending moment per width in the middle of a strip under an even load.

    Parameters
    ----------
    load_kn_m2
        Load across the sheet's plane [kN/m2].
    span_mm
        Clear span between the bars [mm].

    Returns
    -------
    float
        q b2 / 8 [N mm/mm, the same number in N m/m].

    Source
    ------
    Beam tables, simple span under an even load.

    Examples
    --------
    >>> round(strip_moment_n(1.0, 700.0), 2)
    61.25
    """
    return load_kn_m2 * _N_MM2_PER_KN_M2 * span_mm**2 / 8.0


def strip_shear_n_mm(load_kn_m2: float, span_mm: float) -> float:
    """Shear force per width at a bar under an even load: what the bar or its cap holds on that side.

    Parameters
    ----------
    load_kn_m2
        Load across the sheet's plane [kN/m2].
    span_mm
        Clear span between the bars [mm].

    Returns
    -------
    float
        q b / 2 [N/mm].

    Source
    ------
    Equilibrium.

    Examples
    --------
    >>> round(strip_shear_n_mm(1.0, 700.0), 3)
    0.35
    """
    return load_kn_m2 * _N_MM2_PER_KN_M2 * span_mm / 2.0


def chord_shortening_mm(sag: Sag, span_mm: float) -> float:
    """How much nearer the two edges of a strip come together when it sags, its length unchanged.

    Parameters
    ----------
    sag
        Sag from bending and from shear [mm].
    span_mm
        Clear span between the bars [mm].

    Returns
    -------
    float
        Whole shortening, both edges together [mm].

    Source
    ------
    Half the integral of the squared slope (own derivation): (2.487 w_b2 + 5.12 w_b w_s + 2.667 w_s2) / b. Against the
    exact curve of a bar that cannot stretch it is high by 1 % at span/30 and 4 % at span/15, so on the safe side.

    Examples
    --------
    >>> round(chord_shortening_mm(Sag(bending_mm=0.0, shear_mm=45.0), 900.0), 3)
    6.0
    """
    b, s = sag.bending_mm, sag.shear_mm
    return (_BENDING2 * b * b + _BOTH * b * s + _SHEAR2 * s * s) / span_mm


def end_rotation_rad(sag: Sag, span_mm: float) -> float:
    """Slope of a sagging strip at its edges.

    Parameters
    ----------
    sag
        Sag from bending and from shear [mm].
    span_mm
        Clear span between the bars [mm].

    Returns
    -------
    float
        (3.2 w_b + 4 w_s) / b [rad].

    Source
    ------
    Slope at the end of the bending curve and of the parabola under an even load.

    Examples
    --------
    >>> round(end_rotation_rad(Sag(bending_mm=10.0, shear_mm=0.0), 1000.0), 4)
    0.032
    """
    return (3.2 * sag.bending_mm + 4.0 * sag.shear_mm) / span_mm


def grip_draw_mm(depth_mm: float, rotation_rad: float) -> float:
    """How far the gripped face of a sheet draws inward because its edge turns.

    Parameters
    ----------
    depth_mm
        Depth of the sheet [mm].
    rotation_rad
        Slope at the edge [rad].

    Returns
    -------
    float
        Half the depth times the slope [mm].

    Source
    ------
    Geometry, small angles.

    Examples
    --------
    >>> round(grip_draw_mm(16.0, 0.1), 2)
    0.8
    """
    return depth_mm / 2.0 * abs(rotation_rad)
