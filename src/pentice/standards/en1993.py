"""EN 1993-1-1: small steel posts and beams of simple sections, in bending, shear, push and buckling.

Sections of class 1 to 3 only; a section of class 4 is refused. Welds, bolts and end plates are not here. Section
properties come from mechanics.profiles, critical moments from mechanics.lateral.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi, sqrt
from typing import Literal

from pentice.errors import InputError, OutsideScope, require_within
from pentice.standards._buckling import buckling_factor, slenderness_of
from pentice.standards._tables import toml_of

Part = Literal["inside, bent", "inside, pushed", "outstand, pushed", "round tube"]
Curve = Literal["a0", "a", "b", "c", "d"]

E_N_MM2 = 210_000.0
G_N_MM2 = 81_000.0

_RULE = "EN 1993-1-1"
# Greatest width over thickness of classes 1, 2, 3 for f_y 235, from memory of Table 5.2.
_WIDEST: dict[str, tuple[float, float, float]] = {
    "inside, bent": (72.0, 83.0, 124.0),
    "inside, pushed": (33.0, 38.0, 42.0),
    "outstand, pushed": (9.0, 10.0, 14.0),
    "round tube": (50.0, 70.0, 90.0),
}
_IMPERFECTION: dict[str, float] = {"a0": 0.13, "a": 0.21, "b": 0.34, "c": 0.49, "d": 0.76}
_PLATEAU = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Steel:
    """A grade of steel at one thickness: yield and tensile strength [N/mm2]."""

    grade: str
    f_y_n_mm2: float
    f_u_n_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelBuckling:
    """A steel post that may bow: critical force [N], relative slenderness and chi [-], resistance [N]."""

    critical_n: float
    slenderness: float
    chi: float
    resistance_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelTwisting:
    """A steel beam that may buckle sideways: relative slenderness and chi_LT [-], resistance [N mm]."""

    slenderness: float
    chi: float
    resistance_n_mm: float


def steel(grade: str, thickness_mm: float) -> Steel:
    """Yield and tensile strength of a grade of structural steel.

    Parameters
    ----------
    grade
        "S235", "S275" or "S355" [-].
    thickness_mm
        Thickness of the thickest part, up to 80 [mm].

    Returns
    -------
    Steel
        f_y and f_u [N/mm2].

    Raises
    ------
    InputError
        The grade is not held.
    OutsideScope
        The part is thicker than 80 mm.

    Source
    ------
    EN 1993-1-1:2005, Table 3.1 (S235 second hand, S275 and S355 from memory).

    Examples
    --------
    >>> steel("S235", 20.0).f_y_n_mm2
    235.0
    """
    grades = toml_of("en1993.toml")
    if grade not in grades:
        raise InputError.of("steel grade", grade, f"expected one of {', '.join(grades)}")
    require_within("thickness_mm", thickness_mm, 0.1, 80.0, unit="mm", source=f"{_RULE}, Table 3.1")
    f_y, f_u = grades[grade]["to_40_mm" if thickness_mm <= 40.0 else "to_80_mm"]
    return Steel(grade=grade, f_y_n_mm2=float(f_y), f_u_n_mm2=float(f_u))


def part_class(part: Part, width_mm: float, thickness_mm: float, f_y_n_mm2: float) -> int:
    """Class of a flat part or of a round tube: whether it can bend plastically before it buckles by itself.

    Parameters
    ----------
    part
        "inside, bent" (a web in bending), "inside, pushed" (a tube's side), "outstand, pushed" (a leg or half a
        flange), "round tube" [-].
    width_mm
        Flat width c, or the diameter of a round tube [mm].
    thickness_mm
        Thickness [mm].
    f_y_n_mm2
        Yield strength [N/mm2].

    Returns
    -------
    int
        1, 2 or 3 [-].

    Raises
    ------
    InputError
        The kind of part is unknown.
    OutsideScope
        The part is of class 4: it buckles before it yields.

    Source
    ------
    EN 1993-1-1:2005, Table 5.2 (from memory); epsilon = sqrt(235 / f_y), squared for round tubes.

    Examples
    --------
    >>> part_class("inside, pushed", 54.0, 3.0, 235.0), part_class("outstand, pushed", 60.0, 5.0, 235.0)
    (1, 3)
    """
    if part not in _WIDEST:
        raise InputError.of("part", part, f"expected one of {', '.join(_WIDEST)}")
    epsilon_2 = 235.0 / f_y_n_mm2
    factor = epsilon_2 if part == "round tube" else sqrt(epsilon_2)
    limits = [limit * factor for limit in _WIDEST[part]]
    slender = width_mm / thickness_mm
    for number, limit in enumerate(limits, start=1):
        if slender <= limit:
            return number
    raise OutsideScope(
        f"width over thickness of the part is {slender:.1f}; expected at most {limits[-1]:.1f} ({_RULE}, Table 5.2). "
        f"Take a thicker section: class 4 is not covered."
    )


def steel_bending_n_mm(modulus_mm3: float, f_y_n_mm2: float, gamma_m0: float = 1.0) -> float:
    """Bending resistance of a section that does not buckle sideways.

    Parameters
    ----------
    modulus_mm3
        Plastic modulus for class 1 and 2, elastic for class 3 [mm3].
    f_y_n_mm2
        Yield strength [N/mm2].
    gamma_m0
        Partial factor, 1.0 recommended [-].

    Returns
    -------
    float
        M_c,Rd [N mm].

    Raises
    ------
    OutsideScope
        The partial factor is below 1.

    Source
    ------
    EN 1993-1-1:2005, eq. 6.13 and 6.14.

    Examples
    --------
    >>> steel_bending_n_mm(20000.0, 235.0)
    4700000.0
    """
    require_within("gamma_m0", gamma_m0, 1.0, 2.0, source=f"{_RULE}, 6.1")
    return modulus_mm3 * f_y_n_mm2 / gamma_m0


def steel_shear_n(shear_area_mm2: float, f_y_n_mm2: float, gamma_m0: float = 1.0) -> float:
    """Plastic shear resistance of a section.

    Parameters
    ----------
    shear_area_mm2
        A_v: the web, or the two sides of a tube that stand along the force [mm2].
    f_y_n_mm2
        Yield strength [N/mm2].
    gamma_m0
        Partial factor, 1.0 recommended [-].

    Returns
    -------
    float
        V_pl,Rd = A_v f_y / sqrt 3 [N].

    Raises
    ------
    OutsideScope
        The partial factor is below 1.

    Source
    ------
    EN 1993-1-1:2005, eq. 6.18.

    Examples
    --------
    >>> round(steel_shear_n(500.0, 235.0), 1)
    67838.7
    """
    require_within("gamma_m0", gamma_m0, 1.0, 2.0, source=f"{_RULE}, 6.1")
    return shear_area_mm2 * f_y_n_mm2 / sqrt(3.0) / gamma_m0


def steel_bending_with_shear_n_mm(bending_n_mm: float, shear_n: float, shear_resistance_n: float) -> float:
    """Bending resistance that is left where the shear is more than half of what the section can carry.

    Parameters
    ----------
    bending_n_mm
        Resistance without shear [N mm].
    shear_n
        Design shear [N].
    shear_resistance_n
        V_pl,Rd [N].

    Returns
    -------
    float
        M (1 - (2 V/V_pl - 1)2), the whole of it up to half the shear [N mm].

    Raises
    ------
    OutsideScope
        The shear is more than the section carries.

    Source
    ------
    EN 1993-1-1:2005, 6.2.8(2) and (3), the yield strength lowered on the whole section.

    Examples
    --------
    >>> round(steel_bending_with_shear_n_mm(4.7e6, 40e3, 67838.66))
    4548955
    """
    used = abs(shear_n) / shear_resistance_n
    require_within("shear over its resistance", used, 0.0, 1.0, source=f"{_RULE}, 6.2.6")
    return bending_n_mm * (1.0 - max(0.0, 2.0 * used - 1.0) ** 2)


def steel_chi(slenderness: float, curve: Curve) -> float:
    """Factor on the strength of a steel member that may buckle.

    Parameters
    ----------
    slenderness
        Relative slenderness [-].
    curve
        a for hot-finished tubes, b for angles, c for cold-formed tubes, channels, tees and flats [-].

    Returns
    -------
    float
        chi, or chi_LT by the general case [-].

    Raises
    ------
    InputError
        The curve is unknown.
    OutsideScope
        The slenderness is negative or over 3.

    Source
    ------
    EN 1993-1-1:2005, 6.3.1.2 with Tables 6.1 and 6.2, and 6.3.2.2. The end at 3 is common practice, no source.

    Examples
    --------
    >>> round(steel_chi(0.655, "b"), 3)
    0.809
    """
    if curve not in _IMPERFECTION:
        raise InputError.of("buckling curve", curve, f"expected one of {', '.join(_IMPERFECTION)}")
    require_within("slenderness", slenderness, 0.0, 3.0, source=f"{_RULE}, 6.3, common practice")
    return buckling_factor(slenderness, _IMPERFECTION[curve], _PLATEAU)


def steel_post(
    *, area_mm2: float, second_moment_mm4: float, length_mm: float, f_y_n_mm2: float, curve: Curve
) -> SteelBuckling:
    """Resistance of a steel post that may bow about one axis.

    Parameters
    ----------
    area_mm2
        Area of the section, class 1 to 3 [mm2].
    second_moment_mm4
        Second moment about the axis it bows about [mm4].
    length_mm
        Buckling length about that axis [mm].
    f_y_n_mm2
        Yield strength [N/mm2].
    curve
        Buckling curve of the section [-].

    Returns
    -------
    SteelBuckling
        Critical force, slenderness, chi and N_b,Rd with gamma_M1 1.0.

    Raises
    ------
    OutsideScope
        The post is too slender or has no length.

    Source
    ------
    EN 1993-1-1:2005, 6.3.1.1 to 6.3.1.3; Euler's force; gamma_M1 1.0 recommended.

    Examples
    --------
    >>> post = steel_post(
    ...     area_mm2=684.0, second_moment_mm4=371412.0, length_mm=2400.0, f_y_n_mm2=235.0, curve="c"
    ... )
    >>> round(post.slenderness, 3), round(post.chi, 3), round(post.resistance_n)
    (1.097, 0.486, 78121)
    """
    require_within("length_mm", length_mm, 1.0, inf, unit="mm", source=f"{_RULE}, 6.3.1")
    critical = pi**2 * E_N_MM2 * second_moment_mm4 / length_mm**2
    slenderness = slenderness_of(area_mm2 * f_y_n_mm2, critical)
    chi = steel_chi(slenderness, curve)
    return SteelBuckling(
        critical_n=critical,
        slenderness=slenderness,
        chi=chi,
        resistance_n=chi * area_mm2 * f_y_n_mm2,
    )


def steel_beam(
    *, modulus_mm3: float, critical_n_mm: float, f_y_n_mm2: float, curve: Curve = "d"
) -> SteelTwisting:
    """Bending resistance of a steel beam that may buckle sideways.

    Parameters
    ----------
    modulus_mm3
        Plastic modulus for class 1 and 2, elastic for class 3 [mm3].
    critical_n_mm
        Elastic critical moment, from mechanics.lateral [N mm].
    f_y_n_mm2
        Yield strength [N/mm2].
    curve
        d for any section; a or b for rolled I-shapes no deeper, or deeper, than twice their width [-].

    Returns
    -------
    SteelTwisting
        Slenderness, chi_LT and M_b,Rd with gamma_M1 1.0.

    Raises
    ------
    OutsideScope
        The beam is too slender.

    Source
    ------
    EN 1993-1-1:2005, 6.3.2.2, the general case with its plateau of 0.2; Table 6.4 (from memory).

    Examples
    --------
    >>> beam = steel_beam(modulus_mm3=20000.0, critical_n_mm=4.7e6, f_y_n_mm2=235.0)
    >>> round(beam.slenderness, 3), round(beam.chi, 3)
    (1.0, 0.467)
    """
    slenderness = slenderness_of(modulus_mm3 * f_y_n_mm2, critical_n_mm)
    chi = steel_chi(slenderness, curve)
    return SteelTwisting(slenderness=slenderness, chi=chi, resistance_n_mm=chi * modulus_mm3 * f_y_n_mm2)


def steel_post_share(
    *, push_share: float, bending_y_share: float = 0.0, bending_z_share: float = 0.0
) -> float:
    """Share used by a steel post under push and bending about both axes.

    Parameters
    ----------
    push_share
        Push over N_b,Rd of the weaker axis [-].
    bending_y_share, bending_z_share
        Moment over its own resistance about each axis, sideways buckling counted [-].

    Returns
    -------
    float
        n + (1 + 1.4 n) (m_y + m_z) [-].

    Raises
    ------
    OutsideScope
        A share is negative.

    Source
    ------
    EN 1993-1-1:2005, eq. 6.61 and 6.62 with 1 + 1.4 n for every interaction factor, the greatest that Annex B gives
    for an even moment (from memory): on the safe side.

    Examples
    --------
    >>> round(steel_post_share(push_share=0.3, bending_y_share=0.4), 3)
    0.868
    """
    shares = {"push": push_share, "bending y": bending_y_share, "bending z": bending_z_share}
    for name, share in shares.items():
        require_within(name, share, 0.0, inf, source=f"{_RULE}, 6.3.3")
    return push_share + (1.0 + 1.4 * push_share) * (bending_y_share + bending_z_share)
