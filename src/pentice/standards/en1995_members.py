"""EN 1995-1-1: timber members under axial force and bending together, posts above all.

Tension (uplift in a post), compression without and with bowing about both axes, and bending that may buckle sideways.
Every equation's own share is given, so that a calculation can print them all. Buckling lengths are the caller's: a
post held at head and foot bows over its whole length, one held by its foot alone over twice that.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.errors import require_within
from pentice.records import quickly_made
from pentice.standards.en1995 import (
    Material,
    bending_stress_n_mm2,
    column_slenderness,
    design_strength_n_mm2,
    k_c,
    size_factor,
)

K_M = 0.7
"""EN 1995-1-1, 6.1.6(2), rectangles of solid timber."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class TimberSection:
    """A rectangle of timber: width across, depth along the stronger way of bending [mm], and how it grew."""

    width_mm: float
    depth_mm: float
    material: Material = "solid"


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class TimberForces:
    """Design forces at one place: pull positive, push negative [N]; bending about the strong and weak axis [N mm]."""

    axial_n: float = 0.0
    moment_y_n_mm: float = 0.0
    moment_z_n_mm: float = 0.0


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class TimberStrengths:
    """Characteristic strengths [N/mm2] of the class, and the factors that make design values of them [-]."""

    f_m_k_n_mm2: float
    f_t_0_k_n_mm2: float
    f_c_0_k_n_mm2: float
    e_0_05_n_mm2: float
    k_mod: float
    gamma_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BowingPost:
    """How a post bows about its two axes: slenderness ratio, relative slenderness and strength factor [-].

    y is bowing in the direction of the depth, z in the direction of the width.
    """

    ratio_y: float
    ratio_z: float
    slenderness_y: float
    slenderness_z: float
    k_c_y: float
    k_c_z: float


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class MemberShare:
    """Stresses [N/mm2], design strengths [N/mm2] and the share used by each equation [-]; the last is the greatest."""

    axial_n_mm2: float
    bending_y_n_mm2: float
    bending_z_n_mm2: float
    axial_strength_n_mm2: float
    strength_y_n_mm2: float
    strength_z_n_mm2: float
    shares: tuple[tuple[str, float], ...]
    utilisation: float


def bowing_post(
    section: TimberSection, strengths: TimberStrengths, *, length_y_mm: float, length_z_mm: float
) -> BowingPost:
    """Slenderness of a rectangular post about both axes, and how much strength bowing leaves it.

    Parameters
    ----------
    section
        Width, depth and material [mm].
    strengths
        Strengths and stiffness of the class [N/mm2].
    length_y_mm, length_z_mm
        Buckling length in the direction of the depth and of the width [mm].

    Returns
    -------
    BowingPost
        Ratios, relative slenderness and k_c about both axes [-].

    Raises
    ------
    OutsideScope
        A slenderness ratio is over 200: such a post is not built.

    Source
    ------
    EN 1995-1-1:2004, 6.3.2, eq. 6.21, 6.22 and 6.25 to 6.29. The end at 200 is common practice, no source.

    Examples
    --------
    >>> c24 = TimberStrengths(
    ...     f_m_k_n_mm2=24.0, f_t_0_k_n_mm2=14.5, f_c_0_k_n_mm2=21.0, e_0_05_n_mm2=7400.0, k_mod=0.9, gamma_m=1.3
    ... )
    >>> post = bowing_post(TimberSection(width_mm=100, depth_mm=100), c24, length_y_mm=2400, length_z_mm=2400)
    >>> round(post.k_c_y, 4)
    0.4217
    """
    root = math.sqrt(12.0)
    ratio_y, ratio_z = length_y_mm * root / section.depth_mm, length_z_mm * root / section.width_mm
    for name, ratio in {"slenderness ratio y": ratio_y, "slenderness ratio z": ratio_z}.items():
        do = "Take a thicker post or hold it between its ends."
        require_within(name, ratio, 0.0, 200.0, source="EN 1995-1-1, 6.3.2, common practice", do=do)
    strength, stiffness = strengths.f_c_0_k_n_mm2, strengths.e_0_05_n_mm2
    slender_y = column_slenderness(length_y_mm, section.depth_mm, strength, stiffness)
    slender_z = column_slenderness(length_z_mm, section.width_mm, strength, stiffness)
    return BowingPost(
        ratio_y=ratio_y,
        ratio_z=ratio_z,
        slenderness_y=slender_y,
        slenderness_z=slender_z,
        k_c_y=k_c(slender_y, section.material),
        k_c_z=k_c(slender_z, section.material),
    )


def out_of_plumb(height_mm: float) -> float:
    """How far out of plumb the posts of a frame are taken to lean.

    Parameters
    ----------
    height_mm
        h: height of the frame [mm].

    Returns
    -------
    float
        phi [rad]: 0.005 up to 5 m, less for taller frames.

    Raises
    ------
    OutsideScope
        The frame has no height, or is taller than 20 m.

    Source
    ------
    EN 1995-1-1:2004, 5.4.4(2), eq. 5.1, from memory.

    Examples
    --------
    >>> out_of_plumb(2300.0)
    0.005
    """
    require_within("height of the frame", height_mm, 1.0, 20000.0, unit="mm", source="EN 1995-1-1, 5.4.4")
    return 0.005 * math.sqrt(min(1.0, 5000.0 / height_mm))


def pulled_member(
    section: TimberSection, forces: TimberForces, strengths: TimberStrengths, *, net_share: float = 1.0
) -> MemberShare:
    """Share of its strength that a member uses under pull and bending: a post in uplift, a tie.

    Parameters
    ----------
    section
        Width, depth and material [mm].
    forces
        Pull and moments [N, N mm].
    strengths
        Strengths of the class and its factors [N/mm2].
    net_share
        Share of the area that bolts and cuts leave at that place [-].

    Returns
    -------
    MemberShare
        Stresses, strengths and the shares of eq. 6.1 (pull alone), 6.17 and 6.18.

    Raises
    ------
    OutsideScope
        The force pushes, or less than half of the section is left.

    Source
    ------
    EN 1995-1-1:2004, 6.1.2 and 6.2.3; size factor on f_t,0 by the greater side (3.2(3)). The least share of one half is
    judgement, no source.

    Examples
    --------
    >>> c24 = TimberStrengths(
    ...     f_m_k_n_mm2=24.0, f_t_0_k_n_mm2=14.5, f_c_0_k_n_mm2=21.0, e_0_05_n_mm2=7400.0, k_mod=0.6, gamma_m=1.3
    ... )
    >>> round(pulled_member(TimberSection(width_mm=100, depth_mm=100), TimberForces(axial_n=1e5), c24).utilisation, 3)
    1.378
    """
    require_within("axial_n", forces.axial_n, 0.0, math.inf, unit="N", source="EN 1995-1-1, 6.2.3, pull")
    require_within("net_share", net_share, 0.5, 1.0, source="EN 1995-1-1, 5.2, our limit")
    side = max(section.width_mm, section.depth_mm)
    strength = _design(strengths.f_t_0_k_n_mm2, strengths) * size_factor(side, section.material)
    stress = forces.axial_n / (section.width_mm * section.depth_mm * net_share)
    y, z, f_y, f_z = _bending(section, forces, strengths)
    pull = stress / strength
    shares = (
        ("6.1", pull),
        ("6.17", pull + y / f_y + K_M * z / f_z),
        ("6.18", pull + K_M * y / f_y + z / f_z),
    )
    return _share((stress, y, z), (strength, f_y, f_z), shares)


def pushed_member(
    section: TimberSection, forces: TimberForces, strengths: TimberStrengths, bowing: BowingPost
) -> MemberShare:
    """Share of its strength that a post uses under push and bending about both axes.

    Parameters
    ----------
    section
        Width, depth and material [mm].
    forces
        Push (negative) and moments [N, N mm].
    strengths
        Strengths of the class and its factors [N/mm2].
    bowing
        How the post bows about both axes, from bowing_post [-].

    Returns
    -------
    MemberShare
        Stresses, strengths and the shares of eq. 6.2 (push alone), then 6.19 and 6.20 where neither axis bows, else
        6.23 and 6.24.

    Raises
    ------
    OutsideScope
        The force pulls.

    Source
    ------
    EN 1995-1-1:2004, 6.1.4, 6.2.4 and 6.3.2(2) and (3); k_m 0.7 for a rectangle.

    Examples
    --------
    >>> c24 = TimberStrengths(
    ...     f_m_k_n_mm2=24.0, f_t_0_k_n_mm2=14.5, f_c_0_k_n_mm2=21.0, e_0_05_n_mm2=7400.0, k_mod=0.9, gamma_m=1.3
    ... )
    >>> post = TimberSection(width_mm=100.0, depth_mm=100.0)
    >>> bowing = bowing_post(post, c24, length_y_mm=2400.0, length_z_mm=2400.0)
    >>> pushed_member(post, TimberForces(axial_n=-61311.6), c24, bowing).shares[1][0]
    '6.23'
    >>> round(pushed_member(post, TimberForces(axial_n=-61311.6), c24, bowing).utilisation, 4)
    1.0
    """
    push = -forces.axial_n
    require_within("push", push, 0.0, math.inf, unit="N", source="EN 1995-1-1, 6.2.4")
    strength = _design(strengths.f_c_0_k_n_mm2, strengths)
    stress = push / (section.width_mm * section.depth_mm)
    y, z, f_y, f_z = _bending(section, forces, strengths)
    alone = stress / strength
    shares: tuple[tuple[str, float], ...]
    if bowing.slenderness_y <= 0.3 and bowing.slenderness_z <= 0.3:
        shares = (
            ("6.2", alone),
            ("6.19", alone**2 + y / f_y + K_M * z / f_z),
            ("6.20", alone**2 + K_M * y / f_y + z / f_z),
        )
    else:
        shares = (
            ("6.2", alone),
            ("6.23", alone / bowing.k_c_y + y / f_y + K_M * z / f_z),
            ("6.24", alone / bowing.k_c_z + K_M * y / f_y + z / f_z),
        )
    return _share((-stress, y, z), (strength, f_y, f_z), shares)


def slender_beam_share(
    *, bending_n_mm2: float, strength_n_mm2: float, k_crit: float, push_share: float = 0.0
) -> float:
    """Share used by a member that is bent about its strong axis and may buckle sideways, with or without push.

    Parameters
    ----------
    bending_n_mm2
        Bending stress about the strong axis [N/mm2].
    strength_n_mm2
        Design bending strength [N/mm2].
    k_crit
        Factor for buckling sideways [-].
    push_share
        Push over what bowing sideways leaves, sigma_c / (k_c,z f_c,0,d) [-].

    Returns
    -------
    float
        Eq. 6.33 without push, 6.35 with it: (sigma_m / (k_crit f_m))2 + sigma_c / (k_c,z f_c,0,d) [-].

    Raises
    ------
    OutsideScope
        k_crit is not above 0 and at most 1, or the push is negative.

    Source
    ------
    EN 1995-1-1:2004, 6.3.3(3) and (6).

    Examples
    --------
    >>> slender_beam_share(bending_n_mm2=6.0, strength_n_mm2=15.0, k_crit=0.8)
    0.5
    >>> round(slender_beam_share(bending_n_mm2=6.0, strength_n_mm2=15.0, k_crit=0.8, push_share=0.2), 3)
    0.45
    """
    require_within("k_crit", k_crit, 1e-6, 1.0, source="EN 1995-1-1, 6.3.3")
    require_within("push_share", push_share, 0.0, math.inf, source="EN 1995-1-1, 6.3.3")
    bent = abs(bending_n_mm2) / (k_crit * strength_n_mm2)
    return bent if push_share == 0.0 else bent**2 + push_share


def _design(strength_n_mm2: float, strengths: TimberStrengths) -> float:
    return design_strength_n_mm2(strength_n_mm2, strengths.k_mod, strengths.gamma_m)


def _bending(
    section: TimberSection, forces: TimberForces, strengths: TimberStrengths
) -> tuple[float, float, float, float]:
    """Bending stress and strength about both axes, each with the size factor of its own depth."""
    b, h = section.width_mm, section.depth_mm
    f_m = _design(strengths.f_m_k_n_mm2, strengths)
    return (
        abs(bending_stress_n_mm2(forces.moment_y_n_mm, b, h)),
        abs(bending_stress_n_mm2(forces.moment_z_n_mm, h, b)),
        f_m * size_factor(h, section.material),
        f_m * size_factor(b, section.material),
    )


def _share(
    stresses: tuple[float, float, float],
    strengths: tuple[float, float, float],
    shares: tuple[tuple[str, float], ...],
) -> MemberShare:
    return MemberShare(
        axial_n_mm2=stresses[0],
        bending_y_n_mm2=stresses[1],
        bending_z_n_mm2=stresses[2],
        axial_strength_n_mm2=strengths[0],
        strength_y_n_mm2=strengths[1],
        strength_z_n_mm2=strengths[2],
        shares=shares,
        utilisation=max(share for _, share in shares),
    )
