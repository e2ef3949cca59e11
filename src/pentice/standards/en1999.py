"""EN 1999-1-1: aluminium bars, posts and beams that carry loads by themselves, unwelded.

Bending is elastic: what a section of class 3 carries, on the safe side for classes 1 and 2. Whoever knows the section
says its class; slender upstands (class 4) are refused. Next to a weld the metal is far weaker: not here.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi, sqrt
from typing import Literal

from pentice.errors import InputError, OutsideScope, require_within
from pentice.standards._buckling import buckling_factor, slenderness_of
from pentice.standards._tables import toml_of

BucklingClass = Literal["A", "B"]
SectionClass = Literal[1, 2, 3, 4]

E_N_MM2 = 70_000.0
G_N_MM2 = 27_000.0
ALPHA_PER_K = 23e-6
DENSITY_KG_M3 = 2700.0
GAMMA_M1 = 1.1
GAMMA_M2 = 1.25

_RULE = "EN 1999-1-1"
# alpha and plateau of the two buckling classes, and of sideways buckling for classes 1 and 2, and 3.
_BUCKLING: dict[str, tuple[float, float]] = {"A": (0.20, 0.10), "B": (0.32, 0.0)}
_SIDEWAYS = {1: (0.10, 0.6), 2: (0.10, 0.6), 3: (0.20, 0.4)}
_SAG_DIVISOR, _SAG_MOST_MM = 175.0, 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Aluminium:
    """An extruded alloy at one thickness: proof and tensile strength [N/mm2]."""

    alloy: str
    f_o_n_mm2: float
    f_u_n_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AluminiumBending:
    """A bar in bending: resistance without sideways buckling, slenderness and chi_LT [-], resistance with it [N mm]."""

    section_n_mm: float
    slenderness: float
    chi: float
    resistance_n_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AluminiumBuckling:
    """A post that may bow: critical force [N], relative slenderness and chi [-], resistance [N]."""

    critical_n: float
    slenderness: float
    chi: float
    resistance_n: float


def aluminium(alloy: str, thickness_mm: float) -> Aluminium:
    """Design strengths of an extruded alloy and temper.

    Parameters
    ----------
    alloy
        Alloy and temper, such as "6060-T66" [-].
    thickness_mm
        Thickness of the part [mm].

    Returns
    -------
    Aluminium
        f_o (0.2 % proof) and f_u [N/mm2].

    Raises
    ------
    InputError
        The alloy is not held.
    OutsideScope
        The table has no value for that thickness.

    Source
    ------
    EN 1999-1-1, Table 3.2b, extruded profiles (EP).

    Examples
    --------
    >>> aluminium("6060-T66", 2.0).f_o_n_mm2, aluminium("6060-T66", 4.0).f_o_n_mm2
    (160.0, 150.0)
    """
    alloys = toml_of("en1999.toml")
    if alloy not in alloys:
        raise InputError.of("alloy", alloy, f"expected one of {', '.join(alloys)}")
    rows = alloys[alloy]["rows"]
    for above, up_to, f_o, f_u in rows:
        if above < thickness_mm <= up_to:
            return Aluminium(alloy=alloy, f_o_n_mm2=f_o, f_u_n_mm2=f_u)
    raise OutsideScope(
        f"thickness of {alloy} is {thickness_mm:g} mm; expected more than 0 and at most {rows[-1][1]:g} mm "
        f"({_RULE}, Table 3.2b). Take the strength from the supplier's papers."
    )


def aluminium_chi(slenderness: float, buckling_class: BucklingClass) -> float:
    """Factor on the strength of an aluminium post that may bow.

    Parameters
    ----------
    slenderness
        Relative slenderness [-].
    buckling_class
        "A" for heat-treated alloys in T6 and the like, "B" for others [-].

    Returns
    -------
    float
        chi [-].

    Raises
    ------
    InputError
        The class is neither A nor B.
    OutsideScope
        The slenderness is negative or over 3.

    Source
    ------
    EN 1999-1-1, 6.3.1.2 with Table 6.6. The end at 3 is common practice, no source.

    Examples
    --------
    >>> round(aluminium_chi(1.0, "A"), 4), round(aluminium_chi(1.0, "B"), 4)
    (0.6563, 0.5721)
    """
    if buckling_class not in _BUCKLING:
        raise InputError.of("buckling class", buckling_class, "expected A or B")
    require_within("slenderness", slenderness, 0.0, 3.0, source=f"{_RULE}, 6.3.1, common practice")
    return buckling_factor(slenderness, *_BUCKLING[buckling_class])


def aluminium_chi_sideways(slenderness: float, section_class: SectionClass) -> float:
    """Factor on the bending strength of an aluminium bar that may buckle sideways.

    Parameters
    ----------
    slenderness
        Relative slenderness for sideways buckling [-].
    section_class
        Class of the section as its maker or a calculation states, 1 to 3 [-].

    Returns
    -------
    float
        chi_LT [-].

    Raises
    ------
    OutsideScope
        The section is of class 4, or the slenderness is negative or over 3.

    Source
    ------
    EN 1999-1-1, 6.3.2.2: alpha 0.10 and plateau 0.6 for classes 1 and 2, 0.20 and 0.4 for class 3.

    Examples
    --------
    >>> round(aluminium_chi_sideways(1.0, 1), 4), round(aluminium_chi_sideways(1.0, 3), 4)
    (0.819, 0.7084)
    """
    do = "Take a stockier section, or ask for its effective values."
    require_within("section class", section_class, 1, 3, source=f"{_RULE}, 6.1.4", do=do)
    require_within("slenderness", slenderness, 0.0, 3.0, source=f"{_RULE}, 6.3.2, common practice")
    return buckling_factor(slenderness, *_SIDEWAYS[section_class])


def aluminium_bar(
    *, elastic_modulus_mm3: float, f_o_n_mm2: float, critical_n_mm: float, section_class: SectionClass
) -> AluminiumBending:
    """Bending resistance of an aluminium bar, with sideways buckling.

    Parameters
    ----------
    elastic_modulus_mm3
        Lesser elastic modulus of the section [mm3].
    f_o_n_mm2
        0.2 % proof strength [N/mm2].
    critical_n_mm
        Elastic critical moment, from mechanics.lateral; infinite where the bar is held sideways all along [N mm].
    section_class
        Class of the section, 1 to 3 [-].

    Returns
    -------
    AluminiumBending
        M_o,Rd = W_el f_o / 1.1, slenderness, chi_LT and M_b,Rd.

    Raises
    ------
    OutsideScope
        The section is of class 4 or too slender, or it has no modulus.

    Source
    ------
    EN 1999-1-1, 6.2.5.1 with shape factor 1.0 (class 3, on the safe side for 1 and 2) and 6.3.2; gamma_M1 1.1.

    Examples
    --------
    >>> from math import inf
    >>> bar = aluminium_bar(elastic_modulus_mm3=1935.26, f_o_n_mm2=140.0, critical_n_mm=inf, section_class=3)
    >>> round(bar.resistance_n_mm)
    246306
    """
    require_within("elastic_modulus_mm3", elastic_modulus_mm3, 1e-6, inf, unit="mm3", source=_RULE)
    require_within("critical_n_mm", critical_n_mm, 1e-6, inf, unit="N mm", source=_RULE)
    slenderness = slenderness_of(elastic_modulus_mm3 * f_o_n_mm2, critical_n_mm)
    chi = aluminium_chi_sideways(slenderness, section_class)
    section = elastic_modulus_mm3 * f_o_n_mm2 / GAMMA_M1
    return AluminiumBending(
        section_n_mm=section, slenderness=slenderness, chi=chi, resistance_n_mm=chi * section
    )


def aluminium_post(
    *,
    area_mm2: float,
    second_moment_mm4: float,
    length_mm: float,
    f_o_n_mm2: float,
    buckling_class: BucklingClass,
    symmetrical: bool,
) -> AluminiumBuckling:
    """Resistance of an aluminium post that may bow about one axis.

    Parameters
    ----------
    area_mm2
        Area of the section, class 1 to 3 [mm2].
    second_moment_mm4
        Second moment about the axis it bows about [mm4].
    length_mm
        Buckling length about that axis [mm].
    f_o_n_mm2
        0.2 % proof strength [N/mm2].
    buckling_class
        "A" or "B", by the alloy [-].
    symmetrical
        Whether the section is alike on both sides of that axis; only such sections are covered [-].

    Returns
    -------
    AluminiumBuckling
        Critical force, slenderness, chi and N_b,Rd with gamma_M1 1.1.

    Raises
    ------
    OutsideScope
        The section is not symmetrical about the axis, or too slender.

    Source
    ------
    EN 1999-1-1, 6.3.1.1 and 6.3.1.2; Euler's force. The factor k_1 for lopsided sections was not seen: refused.

    Examples
    --------
    >>> post = aluminium_post(
    ...     area_mm2=684.0,
    ...     second_moment_mm4=371412.0,
    ...     length_mm=2400.0,
    ...     f_o_n_mm2=160.0,
    ...     buckling_class="A",
    ...     symmetrical=True,
    ... )
    >>> round(post.slenderness, 3), round(post.resistance_n)
    (1.567, 34257)
    """
    if not symmetrical:
        raise OutsideScope(
            f"section is not symmetrical about the axis it bows about; expected it alike on both sides "
            f"({_RULE}, 6.3.1.2). Take a tube, or ask the supplier for its resistance."
        )
    require_within("length_mm", length_mm, 1.0, inf, unit="mm", source=_RULE)
    critical = pi**2 * E_N_MM2 * second_moment_mm4 / length_mm**2
    slenderness = slenderness_of(area_mm2 * f_o_n_mm2, critical)
    chi = aluminium_chi(slenderness, buckling_class)
    return AluminiumBuckling(
        critical_n=critical,
        slenderness=slenderness,
        chi=chi,
        resistance_n=chi * area_mm2 * f_o_n_mm2 / GAMMA_M1,
    )


def aluminium_shear_n(web_area_mm2: float, f_o_n_mm2: float) -> float:
    """Shear resistance of webs that do not buckle.

    Parameters
    ----------
    web_area_mm2
        Height times thickness of all webs, or 0.6 of the area of a round tube [mm2].
    f_o_n_mm2
        0.2 % proof strength [N/mm2].

    Returns
    -------
    float
        V_Rd = A_v f_o / (sqrt 3 gamma_M1), gamma_M1 1.1 [N].

    Raises
    ------
    OutsideScope
        The area is not positive.

    Source
    ------
    EN 1999-1-1, 6.2.6 (from memory).

    Examples
    --------
    >>> round(aluminium_shear_n(648.0, 160.0))
    54418
    """
    require_within("web_area_mm2", web_area_mm2, 1e-6, inf, unit="mm2", source=f"{_RULE}, 6.2.6")
    return web_area_mm2 * f_o_n_mm2 / (sqrt(3.0) * GAMMA_M1)


def aluminium_post_share(*, push_share: float, bending_share: float) -> float:
    """Share used by an aluminium post under push and bending about one axis.

    Parameters
    ----------
    push_share
        Push over N_b,Rd of the weaker axis [-].
    bending_share
        Moment over its resistance, sideways buckling counted [-].

    Returns
    -------
    float
        n^0.8 + (1 + 1.4 n) m [-].

    Raises
    ------
    OutsideScope
        A share is negative.

    Source
    ------
    EN 1999-1-1, 6.3.3.1, was not seen: its exponent 0.8 on the push (from memory), with the moment grown as in steel,
    which is more than it asks for: judgement, on the safe side.

    Examples
    --------
    >>> round(aluminium_post_share(push_share=0.3, bending_share=0.4), 3)
    0.95
    """
    require_within("push_share", push_share, 0.0, inf, source=f"{_RULE}, 6.3.3")
    require_within("bending_share", bending_share, 0.0, inf, source=f"{_RULE}, 6.3.3")
    return float(push_share**0.8 + (1.0 + 1.4 * push_share) * bending_share)


def glazing_bar_sag_limit_mm(span_mm: float) -> float:
    """Sag of a glazing bar under wind that an old rule for patent glazing allowed: a soft limit.

    Parameters
    ----------
    span_mm
        Span of the bar between its bearings [mm].

    Returns
    -------
    float
        The lesser of span/175 and 20 mm [mm].

    Raises
    ------
    OutsideScope
        The span is not positive.

    Source
    ------
    IS 10439:1983, code of practice for patent glazing, withdrawn, written for glass: the only published limit found.
    Whoever makes the sheet or bar may ask for less.

    Examples
    --------
    >>> round(glazing_bar_sag_limit_mm(3000.0), 2), glazing_bar_sag_limit_mm(4000.0)
    (17.14, 20.0)
    """
    require_within("span_mm", span_mm, 1.0, inf, unit="mm", source="IS 10439:1983")
    return min(span_mm / _SAG_DIVISOR, _SAG_MOST_MM)
