"""A timber post that is pressed and bent: which equation governs, with buckling sideways of a deep narrow one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from pentice.checks.timber_shown import slender_steps
from pentice.standards.en338 import StrengthClass
from pentice.standards.en1995 import bending_slenderness, critical_stress_n_mm2, k_crit, size_factor
from pentice.standards.en1995_members import (
    K_M,
    BowingPost,
    MemberShare,
    TimberSection,
    TimberStrengths,
    slender_beam_share,
)
from pentice.working import Step

Axis = Literal["y", "z"]
"""y: bent in the direction of the depth, square to the beam; z: in that of the width, along it."""
SIDEWAYS = ("6.33", "6.35")
"""Equations of giving way sideways."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slender:
    """A post bent about its stronger axis: sides, free and effective length [mm], lambda_m and k_crit [-]."""

    thin_mm: float
    deep_mm: float
    free_mm: float
    length_mm: float
    slenderness: float
    k_crit: float


def slender_post(
    section: TimberSection, strengths: TimberStrengths, *, length_mm: float, about: Axis
) -> Slender | None:
    """How easily a post gives way sideways when it is bent about one axis.

    Parameters
    ----------
    section, strengths
        Its sides [mm], strength and stiffness of its class [N/mm2].
    length_mm
        Between foot and beam, which keep it from twisting [mm].
    about
        The axis that it is bent about.

    Returns
    -------
    Slender or None
        None where that is its weaker axis, or where it is square: it cannot give way sideways.

    Source
    ------
    EN 1995-1-1:2004, 6.3.3 and Table 6.1: an even moment, 1.0 l, and 2 h more for a load on the compressed side, which
    is no less than any moment here asks for.
    """
    sides = (section.width_mm, section.depth_mm)
    thin, deep = sides if about == "y" else sides[::-1]
    if deep <= thin:
        return None
    length = length_mm + 2.0 * deep
    critical = critical_stress_n_mm2(thin, deep, length, strengths.e_0_05_n_mm2)
    slenderness = bending_slenderness(strengths.f_m_k_n_mm2, critical)
    return Slender(
        thin_mm=thin,
        deep_mm=deep,
        free_mm=length_mm,
        length_mm=length,
        slenderness=slenderness,
        k_crit=k_crit(slenderness),
    )


def with_sideways(
    share: MemberShare, bowing: BowingPost, slender: Slender | None, about: Axis
) -> MemberShare:
    """The shares of a pressed and bent post with that of buckling sideways.

    Parameters
    ----------
    share, bowing
        Without it, and how the post bows.
    slender
        How easily it gives way; None where it cannot.
    about
        The axis that it is bent about.

    Returns
    -------
    MemberShare
        With eq. 6.35, or 6.33 where nothing presses.

    Source
    ------
    EN 1995-1-1:2004, 6.3.3(3) and (6).
    """
    bent = share.bending_y_n_mm2 if about == "y" else share.bending_z_n_mm2
    if slender is None or bent == 0.0:
        return share
    k_c = bowing.k_c_z if about == "y" else bowing.k_c_y
    pressed = -share.axial_n_mm2 / (k_c * share.axial_strength_n_mm2)
    used = slender_beam_share(
        bending_n_mm2=bent,
        strength_n_mm2=share.strength_y_n_mm2 if about == "y" else share.strength_z_n_mm2,
        k_crit=slender.k_crit,
        push_share=pressed,
    )
    shares = (*share.shares, ("6.35" if pressed else "6.33", used))
    return replace(share, shares=shares, utilisation=max(share.utilisation, used))


def governing(share: MemberShare) -> str:
    """The equation that governs; where two are alike the one with bowing in it says more.

    Parameters
    ----------
    share
        Of a post.

    Returns
    -------
    str
        Its number.

    Source
    ------
    Definition.
    """
    return max(reversed(share.shares), key=lambda found: found[1])[0]


def bows_along(equation: str, about: Axis) -> bool:
    """Is the bowing factor of an equation the one along the beam?

    Parameters
    ----------
    equation, about
        Its number, and the axis that the post is bent about.

    Returns
    -------
    bool
        False: the one square to the beam.

    Source
    ------
    EN 1995-1-1:2004, 6.3.2 and 6.3.3(6).
    """
    return about == "y" if equation in SIDEWAYS else equation in ("6.20", "6.24")


def sum_step(
    says: str, share: MemberShare, bowing: BowingPost, slender: Slender | None, about: Axis, *, more: str
) -> Step:
    """The line of the equation that governs.

    Parameters
    ----------
    says, more
        What it is called, and what its clause adds.
    share, bowing, slender, about
        As in `with_sideways`.

    Returns
    -------
    Step
        [of 1].

    Source
    ------
    EN 1995-1-1:2004, 6.2.4, 6.3.2, 6.3.3.
    """
    equation = governing(share)
    axis = "z" if bows_along(equation, about) else "y"
    k_c = bowing.k_c_z if axis == "z" else bowing.k_c_y
    push, strength = f"{-share.axial_n_mm2:.4f}", f"{share.axial_strength_n_mm2:.2f}"
    stress, left = (
        (share.bending_y_n_mm2, share.strength_y_n_mm2)
        if about == "y"
        else (share.bending_z_n_mm2, share.strength_z_n_mm2)
    )
    bent, k_m = f"{stress:.4f} / {left:.2f}", "" if axis == about else f"{K_M:g} x "
    pressed, bowed = f"{push} / ({k_c:.4f} x {strength})", f"sigma_c / (k_c,{axis} f_c,d)"
    if equation in SIDEWAYS and slender is not None:
        alone = f"{stress:.4f} / ({slender.k_crit:.4f} x {left:.2f})"
        formula, numbers = "sigma_m / (k_crit f_m,d)", alone
        if equation == "6.35":
            formula, numbers = f"({formula})^2 + {bowed}", f"({alone})^2 + {pressed}"
    elif equation == "6.2":
        formula, numbers = "sigma_c / f_c,d", f"{push} / {strength}"
    elif equation in ("6.19", "6.20"):
        formula, numbers = (
            "(sigma_c / f_c,d)^2 + k_m sigma_m / f_m,d",
            f"({push} / {strength})^2 + {k_m}{bent}",
        )
    elif not stress:
        formula, numbers, more = bowed, pressed, f"nothing bends it; {more}"
    else:
        formula, numbers = f"{bowed} + {'k_m ' if k_m else ''}sigma_m / f_m,d", f"{pressed} + {k_m}{bent}"
    return Step(
        says=says,
        formula=formula,
        numbers=numbers,
        result=share.utilisation,
        unit="of 1",
        clause=f"eq. {equation}; {more}",
    )


def sideways_lines(share: MemberShare, slender: Slender | None, timber: StrengthClass) -> tuple[Step, ...]:
    """The lines that lead to k_crit, where an equation with it governs.

    Parameters
    ----------
    share, slender, timber
        Of the post.

    Returns
    -------
    tuple of Step
        None where it does not govern.

    Source
    ------
    EN 1995-1-1:2004, 6.3.3 and Table 6.1.
    """
    if slender is None or governing(share) not in SIDEWAYS:
        return ()
    return k_crit_lines(slender, timber)


def strength_lines(
    share: MemberShare, section: TimberSection, timber: StrengthClass, strengths: TimberStrengths, about: Axis
) -> tuple[Step, ...]:
    """The strengths of a pressed post that the sum divides by.

    Parameters
    ----------
    share, section, timber, strengths, about
        Of the post, its sides, its class, and the factors of the combination; the axis that it is bent about.

    Returns
    -------
    tuple of Step
        In compression, and in bending where it is bent [N/mm2].

    Source
    ------
    EN 1995-1-1:2004, 2.4.1, 3.2(3).
    """
    k_mod, gamma = f"{strengths.k_mod:g}", f"{strengths.gamma_m:g}"
    pressed = Step(
        says="Strength in compression",
        formula="f_c,d = k_mod f_c,0,k / gamma_M",
        numbers=f"{k_mod} x {timber.f_c_0_k_n_mm2:g} / {gamma}",
        result=share.axial_strength_n_mm2,
        unit="N/mm2",
        clause="2.4.1",
    )
    y = about == "y"
    if not (share.bending_y_n_mm2 if y else share.bending_z_n_mm2):
        return (pressed,)
    bent = Step(
        says="Strength in bending",
        formula="f_m,d = k_mod k_h f_m,k / gamma_M",
        numbers=f"{k_mod} x {size_factor(section.depth_mm if y else section.width_mm):.4f} x "
        f"{timber.f_m_k_n_mm2:g} / {gamma}",
        result=share.strength_y_n_mm2 if y else share.strength_z_n_mm2,
        unit="N/mm2",
        clause="2.4.1, 3.2(3)",
    )
    return (pressed, bent)


def bowing_line(
    bowing: BowingPost,
    section: TimberSection,
    timber: StrengthClass,
    *,
    length_mm: float,
    along: bool,
    twice: bool = False,
) -> Step:
    """The bowing factor of a post, one way.

    Parameters
    ----------
    bowing, section, timber
        How it bows both ways, its sides, its class.
    length_mm
        Its buckling length that way [mm].
    along
        Along its beam, over its width; False: square to it.
    twice
        That is twice the post's own.

    Returns
    -------
    Step
        [-].

    Source
    ------
    EN 1995-1-1:2004, 6.3.2, eq. 6.21 to 6.28.
    """
    side = section.width_mm if along else section.depth_mm
    ratio, factor = (bowing.slenderness_z, bowing.k_c_z) if along else (bowing.slenderness_y, bowing.k_c_y)
    return Step(
        says="Bowing factor" + (", bowing over twice the post's length" if twice else ""),
        formula="k_c = 1 / (k + sqrt(k^2 - lambda^2)), k = 0.5 (1 + 0.2 (lambda - 0.3) + lambda^2)",
        numbers=f"{bowing_numbers(ratio)}; lambda = {length_mm:.0f} sqrt(12) / ({side:g} pi) "
        f"sqrt({timber.f_c_0_k_n_mm2:g} / {timber.e_0_05_n_mm2:g})",
        result=factor,
        unit="",
        clause="6.3.2, eq. 6.21, 6.25",
    )


def bowing_numbers(slender: float) -> str:
    """The arithmetic that leads from a relative slenderness to the bowing factor.

    Parameters
    ----------
    slender
        Relative slenderness [-].

    Returns
    -------
    str
        "1" where nothing bows.

    Source
    ------
    EN 1995-1-1:2004, 6.3.2, eq. 6.25 and 6.27 with beta_c 0.2.

    Examples
    --------
    >>> bowing_numbers(1.5)
    '1 / (1.7450 + sqrt(1.7450^2 - 1.5000^2))'
    """
    if slender <= 0.3:
        return "1"
    k = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
    return f"1 / ({k:.4f} + sqrt({k:.4f}^2 - {slender:.4f}^2))"


def k_crit_lines(slender: Slender, timber: StrengthClass) -> tuple[Step, ...]:
    """From the free length of a bent post to its k_crit.

    Parameters
    ----------
    slender, timber
        How easily it gives way, and its strength class.

    Returns
    -------
    tuple of Step
        Effective length, slenderness, k_crit.

    Source
    ------
    EN 1995-1-1:2004, 6.3.3 and Table 6.1.
    """
    length = Step(
        says="Effective length",
        formula="l_ef = l + 2 h",
        numbers=f"{slender.free_mm:.1f} + 2 x {slender.deep_mm:g}; foot and beam keep it from twisting",
        result=slender.length_mm,
        unit="mm",
        clause="Table 6.1, even moment",
    )
    sides = (slender.thin_mm, slender.deep_mm)
    return (length, *slender_steps(sides, slender.length_mm, timber, slender.slenderness, slender.k_crit))
