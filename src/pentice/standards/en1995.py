"""EN 1995-1-1 (first generation, 2004 with A1 and A2): solid timber members in bending, shear, bearing and compression.

One function per clause, units N and mm. Lateral buckling goes by eq. 6.32 (the short form for softwood of solid
rectangular section), not by the longer 6.31. Timber to the second generation (2025) has other factors: not here.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal, TypeVar

from pentice.errors import InputError, require_within

ServiceClass = Literal[1, 2, 3]
Duration = Literal["permanent", "long", "medium", "short", "instantaneous"]
Material = Literal["solid", "glulam"]

DURATIONS: tuple[Duration, ...] = ("permanent", "long", "medium", "short", "instantaneous")
_Row = TypeVar("_Row")
_K_MOD: dict[int, tuple[float, ...]] = {
    1: (0.6, 0.7, 0.8, 0.9, 1.1),
    2: (0.6, 0.7, 0.8, 0.9, 1.1),
    3: (0.5, 0.55, 0.65, 0.7, 0.9),
}
_K_DEF: dict[int, float] = {1: 0.6, 2: 0.8, 3: 2.0}
_GAMMA_M = {"solid": 1.3, "glulam": 1.25, "connection": 1.3}


def k_mod(service_class: ServiceClass, duration: Duration) -> float:
    """Factor on the strength of solid timber for moisture and for how long the load lasts.

    Parameters
    ----------
    service_class
        1 heated indoors, 2 under cover, 3 exposed to the weather [-].
    duration
        Load-duration class of the shortest action in the combination [-].

    Returns
    -------
    float
        k_mod [-].

    Raises
    ------
    InputError
        The service class or the duration is not one of the standard's.

    Source
    ------
    EN 1995-1-1:2004, 3.1.3 with Table 3.1, solid timber.

    Examples
    --------
    >>> k_mod(2, "short")
    0.9
    """
    row = _of_service_class(_K_MOD, service_class)
    return row[_place_of(duration)]


def shortest_duration(durations: Iterable[Duration]) -> Duration:
    """Shortest of the load-duration classes in one combination: the one that sets k_mod.

    Parameters
    ----------
    durations
        Load-duration classes of the actions that are present [-].

    Returns
    -------
    Duration
        The shortest class [-].

    Raises
    ------
    InputError
        No duration was given, or one is unknown.

    Source
    ------
    EN 1995-1-1:2004, 3.1.3(2).

    Examples
    --------
    >>> shortest_duration(("permanent", "short"))
    'short'
    """
    places = [_place_of(duration) for duration in durations]
    if not places:
        raise InputError.of("durations", "empty", "expected at least one load-duration class")
    return DURATIONS[max(places)]


def k_def(service_class: ServiceClass) -> float:
    """Creep factor of solid timber.

    Parameters
    ----------
    service_class
        1 heated indoors, 2 under cover, 3 exposed to the weather [-].

    Returns
    -------
    float
        k_def [-].

    Raises
    ------
    InputError
        The service class is not 1, 2 or 3.

    Source
    ------
    EN 1995-1-1:2004, Table 3.2, solid timber.

    Examples
    --------
    >>> k_def(2)
    0.8
    """
    return _of_service_class(_K_DEF, service_class)


def gamma_m(what: Literal["solid", "glulam", "connection"], *, accidental: bool = False) -> float:
    """Partial factor on the strength of timber and of its connections (recommended values).

    Parameters
    ----------
    what
        "solid", "glulam" or "connection" [-].
    accidental
        True in an accidental combination, where the factor is 1.0 [-].

    Returns
    -------
    float
        gamma_M [-].

    Raises
    ------
    InputError
        The material is not one of the three.

    Source
    ------
    EN 1995-1-1:2004, Table 2.3.

    Examples
    --------
    >>> gamma_m("solid"), gamma_m("solid", accidental=True)
    (1.3, 1.0)
    """
    if what not in _GAMMA_M:
        raise InputError.of("material", what, f"expected one of {', '.join(_GAMMA_M)}")
    return 1.0 if accidental else _GAMMA_M[what]


def design_strength_n_mm2(strength_n_mm2: float, k_mod: float, gamma_m: float) -> float:
    """Design value of a strength (or of a resistance, in its own unit).

    Parameters
    ----------
    strength_n_mm2
        Characteristic strength [N/mm2].
    k_mod
        Factor for moisture and duration [-].
    gamma_m
        Partial factor of the material [-].

    Returns
    -------
    float
        Design strength [N/mm2].

    Source
    ------
    EN 1995-1-1:2004, eq. 2.14.

    Examples
    --------
    >>> round(design_strength_n_mm2(24.0, 0.8, 1.3), 4)
    14.7692
    """
    return k_mod * strength_n_mm2 / gamma_m


def size_factor(depth_mm: float, material: Material = "solid") -> float:
    """Factor k_h by which shallow sections are stronger in bending (depth) and in tension (width).

    Parameters
    ----------
    depth_mm
        Depth in bending, width in tension [mm].
    material
        "solid" (reference 150 mm) or "glulam" (reference 600 mm) [-].

    Returns
    -------
    float
        k_h [-], 1.0 from the reference depth upwards.

    Raises
    ------
    OutsideScope
        The depth is not positive.

    Source
    ------
    EN 1995-1-1:2004, eq. 3.1 and 3.2.

    Examples
    --------
    >>> round(size_factor(97.0), 4), size_factor(200.0)
    (1.0911, 1.0)
    """
    require_within("depth_mm", depth_mm, 1.0, math.inf, unit="mm", source="EN 1995-1-1, 3.2")
    if material == "glulam":
        return float(max(1.0, min((600.0 / depth_mm) ** 0.1, 1.1)))
    return float(max(1.0, min((150.0 / depth_mm) ** 0.2, 1.3)))


def bending_stress_n_mm2(moment_n_mm: float, width_mm: float, depth_mm: float) -> float:
    """Bending stress at the edge of a rectangular section.

    Parameters
    ----------
    moment_n_mm
        Bending moment [N mm].
    width_mm, depth_mm
        Section across and along the plane of bending [mm].

    Returns
    -------
    float
        Stress [N/mm2], of the sign of the moment.

    Source
    ------
    EN 1995-1-1:2004, 6.1.6; elementary bending, W = b h2 / 6.

    Examples
    --------
    >>> round(bending_stress_n_mm2(3.70195e6, 75.0, 200.0), 4)
    7.4039
    """
    return 6.0 * moment_n_mm / (width_mm * depth_mm**2)


def bending_utilisation(
    *,
    stress_y_n_mm2: float,
    strength_y_n_mm2: float,
    stress_z_n_mm2: float = 0.0,
    strength_z_n_mm2: float = 1.0,
) -> float:
    """Share of the bending strength used, bending about both axes of a rectangular section.

    Parameters
    ----------
    stress_y_n_mm2, stress_z_n_mm2
        Bending stress about the strong and the weak axis [N/mm2].
    strength_y_n_mm2, strength_z_n_mm2
        Design bending strength about each axis, with its own size factor [N/mm2].

    Returns
    -------
    float
        The greater of eq. 6.11 and 6.12 [-]; 1.0 is all of it.

    Source
    ------
    EN 1995-1-1:2004, 6.1.6, k_m = 0.7 for rectangular solid timber.

    Examples
    --------
    >>> bending_utilisation(stress_y_n_mm2=6.0, strength_y_n_mm2=12.0)
    0.5
    """
    y, z = abs(stress_y_n_mm2) / strength_y_n_mm2, abs(stress_z_n_mm2) / strength_z_n_mm2
    return max(y + 0.7 * z, 0.7 * y + z)


def gravity_buckling_length_mm(span_mm: float, depth_mm: float) -> float:
    """Effective length for lateral buckling of a beam with an even load on its compressed edge.

    Parameters
    ----------
    span_mm
        Distance between points held sideways [mm].
    depth_mm
        Depth of the beam [mm].

    Returns
    -------
    float
        l_ef = 0.9 L + 2 h [mm].

    Source
    ------
    EN 1995-1-1:2004, Table 6.1 with its footnote.

    Examples
    --------
    >>> gravity_buckling_length_mm(3000.0, 147.0)
    2994.0
    """
    return 0.9 * span_mm + 2.0 * depth_mm


def uplift_buckling_length_mm(span_mm: float, depth_mm: float) -> float:
    """Effective length for lateral buckling of a beam with an even load on its stretched edge (wind uplift).

    Parameters
    ----------
    span_mm
        Distance between points held sideways [mm].
    depth_mm
        Depth of the beam [mm].

    Returns
    -------
    float
        l_ef = 0.9 L - 0.5 h [mm].

    Raises
    ------
    OutsideScope
        The beam is so short and deep that the length would not be positive.

    Source
    ------
    EN 1995-1-1:2004, Table 6.1 with its footnote.

    Examples
    --------
    >>> uplift_buckling_length_mm(3000.0, 147.0)
    2626.5
    """
    require_within("span_mm", span_mm, depth_mm, math.inf, unit="mm", source="EN 1995-1-1, Table 6.1")
    return 0.9 * span_mm - 0.5 * depth_mm


def critical_stress_n_mm2(width_mm: float, depth_mm: float, length_mm: float, e_0_05_n_mm2: float) -> float:
    """Bending stress at which a slender rectangular softwood beam would buckle sideways.

    Parameters
    ----------
    width_mm, depth_mm
        Section [mm].
    length_mm
        Effective length l_ef [mm].
    e_0_05_n_mm2
        Lower-twentieth stiffness along the grain [N/mm2].

    Returns
    -------
    float
        sigma_m,crit [N/mm2].

    Source
    ------
    EN 1995-1-1:2004, eq. 6.32 (solid rectangular softwood).

    Examples
    --------
    >>> round(critical_stress_n_mm2(50.0, 200.0, 4900.0, 7400.0), 3)
    14.724
    """
    return 0.78 * width_mm**2 * e_0_05_n_mm2 / (depth_mm * length_mm)


def bending_slenderness(f_m_k_n_mm2: float, critical_n_mm2: float) -> float:
    """Relative slenderness of a beam for buckling sideways.

    Parameters
    ----------
    f_m_k_n_mm2
        Characteristic bending strength [N/mm2].
    critical_n_mm2
        sigma_m,crit of eq. 6.32 [N/mm2].

    Returns
    -------
    float
        lambda_rel,m [-].

    Source
    ------
    EN 1995-1-1:2004, eq. 6.30.

    Examples
    --------
    >>> round(bending_slenderness(24.0, 14.7245), 3)
    1.277
    """
    return math.sqrt(f_m_k_n_mm2 / critical_n_mm2)


def k_crit(slenderness: float) -> float:
    """Factor on the bending strength of a beam that may buckle sideways.

    Parameters
    ----------
    slenderness
        lambda_rel,m of eq. 6.30 [-].

    Returns
    -------
    float
        k_crit [-]: 1 up to 0.75, then a straight line, then 1/lambda2 beyond 1.4.

    Raises
    ------
    OutsideScope
        The slenderness is negative.

    Source
    ------
    EN 1995-1-1:2004, eq. 6.34.

    Examples
    --------
    >>> round(k_crit(1.277), 3)
    0.602
    """
    require_within("slenderness", slenderness, 0.0, math.inf, source="EN 1995-1-1, 6.3.3")
    if slenderness <= 0.75:
        return 1.0
    if slenderness <= 1.4:
        return 1.56 - 0.75 * slenderness
    return 1.0 / slenderness**2


def shear_stress_n_mm2(shear_n: float, width_mm: float, depth_mm: float, k_cr: float = 0.67) -> float:
    """Shear stress in the middle of a rectangular section that may be cracked.

    Parameters
    ----------
    shear_n
        Shear force [N].
    width_mm, depth_mm
        Section [mm].
    k_cr
        Share of the width that is sound; 0.67 recommended for solid timber [-].

    Returns
    -------
    float
        tau [N/mm2], of the sign of the force.

    Raises
    ------
    OutsideScope
        k_cr is not between 0.1 and 1.

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.7, eq. 6.13a.

    Examples
    --------
    >>> round(shear_stress_n_mm2(3290.62, 75.0, 200.0), 4)
    0.4911
    """
    require_within("k_cr", k_cr, 0.1, 1.0, source="EN 1995-1-1, 6.1.7")
    return 1.5 * shear_n / (k_cr * width_mm * depth_mm)


def bearing_length_mm(
    contact_mm: float, *, free_before_mm: float, free_after_mm: float, to_next_mm: float = math.inf
) -> float:
    """Length along the grain over which a bearing presses: the contact and what helps it on either side.

    Parameters
    ----------
    contact_mm
        Contact length along the grain [mm].
    free_before_mm, free_after_mm
        Timber that runs on beyond the contact on either side, 0 at an end [mm].
    to_next_mm
        Clear distance l_1 to the next contact [mm].

    Returns
    -------
    float
        l_ef [mm]: each side adds at most 30 mm, the free timber, the contact length, and half the distance l_1.

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.5(1).

    Examples
    --------
    >>> bearing_length_mm(47.0, free_before_mm=0.0, free_after_mm=2000.0)
    77.0
    """
    most = min(30.0, contact_mm, to_next_mm / 2.0)
    return contact_mm + min(most, free_before_mm) + min(most, free_after_mm)


def k_c_90(
    material: Material, *, to_next_mm: float, depth_mm: float, contact_mm: float, continuous: bool = False
) -> float:
    """Factor on the crushing strength across the grain at a bearing.

    Parameters
    ----------
    material
        "solid" or "glulam" softwood [-].
    to_next_mm
        Clear distance l_1 to the next contact [mm].
    depth_mm
        Depth of the member [mm].
    contact_mm
        Contact length along the grain [mm].
    continuous
        True for a member lying on its whole length [-].

    Returns
    -------
    float
        k_c,90 [-], 1.0 where the contacts lie nearer than twice the depth.

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.5(2) to (4).

    Examples
    --------
    >>> k_c_90("solid", to_next_mm=2500.0, depth_mm=147.0, contact_mm=47.0)
    1.5
    """
    if to_next_mm < 2.0 * depth_mm:
        return 1.0
    if material == "glulam":
        return 1.5 if continuous else (1.75 if contact_mm <= 400.0 else 1.0)
    return 1.25 if continuous else 1.5


def bearing_stress_n_mm2(force_n: float, width_mm: float, length_mm: float) -> float:
    """Stress across the grain at a bearing.

    Parameters
    ----------
    force_n
        Force on the bearing [N].
    width_mm
        Width of the contact [mm].
    length_mm
        Effective length l_ef along the grain [mm].

    Returns
    -------
    float
        sigma_c,90 [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, eq. 6.4.

    Examples
    --------
    >>> round(bearing_stress_n_mm2(5000.0, 47.0, 77.0), 4)
    1.3816
    """
    return force_n / (width_mm * length_mm)


def column_slenderness(length_mm: float, width_mm: float, f_c_0_k_n_mm2: float, e_0_05_n_mm2: float) -> float:
    """Relative slenderness of a rectangular post about the axis across the given width.

    Parameters
    ----------
    length_mm
        Buckling length [mm].
    width_mm
        Size of the section in the direction in which it bows [mm].
    f_c_0_k_n_mm2
        Characteristic compressive strength along the grain [N/mm2].
    e_0_05_n_mm2
        Lower-twentieth stiffness along the grain [N/mm2].

    Returns
    -------
    float
        lambda_rel [-].

    Source
    ------
    EN 1995-1-1:2004, eq. 6.21; lambda = l / (b / sqrt 12).

    Examples
    --------
    >>> round(column_slenderness(2400.0, 100.0, 21.0, 7400.0), 3)
    1.41
    """
    slenderness = length_mm * math.sqrt(12.0) / width_mm
    return slenderness / math.pi * math.sqrt(f_c_0_k_n_mm2 / e_0_05_n_mm2)


def k_c(slenderness: float, material: Material = "solid") -> float:
    """Factor on the compressive strength of a post that may bow.

    Parameters
    ----------
    slenderness
        lambda_rel of eq. 6.21 [-].
    material
        "solid" (straightness 0.2) or "glulam" (0.1) [-].

    Returns
    -------
    float
        k_c [-], 1.0 up to a slenderness of 0.3.

    Raises
    ------
    OutsideScope
        The slenderness is negative.

    Source
    ------
    EN 1995-1-1:2004, 6.3.2, eq. 6.25 to 6.29.

    Examples
    --------
    >>> round(k_c(1.40976), 4)
    0.4217
    """
    require_within("slenderness", slenderness, 0.0, math.inf, source="EN 1995-1-1, 6.3.2")
    if slenderness <= 0.3:
        return 1.0
    beta_c = 0.2 if material == "solid" else 0.1
    k = 0.5 * (1.0 + beta_c * (slenderness - 0.3) + slenderness**2)
    return min(1.0, 1.0 / (k + math.sqrt(k**2 - slenderness**2)))


def _place_of(duration: str) -> int:
    if duration not in DURATIONS:
        raise InputError.of("duration", duration, f"expected one of {', '.join(DURATIONS)}")
    return DURATIONS.index(duration)


def _of_service_class(table: dict[int, _Row], service_class: int) -> _Row:
    if service_class not in table:
        raise InputError.of("service_class", service_class, "expected 1, 2 or 3 (EN 1995-1-1, 2.3.1.3)")
    return table[service_class]
