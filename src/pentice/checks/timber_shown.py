"""Lines of working that the timber checks of rafter, beam, post and plate have alike, and their design strengths."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import cast

from pentice.checks.ground import Ground
from pentice.loads.combine import Combination
from pentice.records import quickly_made
from pentice.standards.en338 import StrengthClass
from pentice.standards.en1995 import Duration, ServiceClass, design_strength_n_mm2, gamma_m, k_mod
from pentice.working import Step


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Design strength for one combination [N/mm2] and the factors in it [-]."""

    k_mod: float
    gamma: float
    value: float


def service_class(ground: Ground) -> ServiceClass:
    """Service class of the rafters: given, or 2 under a roof [-].

    Source
    ------
    EN 1995-1-1:2004, 2.3.1.3; an open carport rafter under sheet is class 2.
    """
    return cast(ServiceClass, ground.job.frame.service_class or 2)


def strength_in(value_n_mm2: float, combination: Combination, service: int) -> Strength:
    """A characteristic strength as a design value in a combination.

    Parameters
    ----------
    value_n_mm2
        Characteristic strength, size factor included [N/mm2].
    combination
        Its duration, and whether it is an accident.
    service
        Service class, 1 to 3 [-].

    Returns
    -------
    Strength
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, 2.4.1 with Tables 2.3 and 3.1.
    """
    accidental = combination.kind == "accidental" or combination.wind_accidental
    return strength_for(value_n_mm2, combination.duration, service, accidental)


@lru_cache(maxsize=1024)
def strength_for(value_n_mm2: float, duration: Duration, service: int, accidental: bool = False) -> Strength:
    """A characteristic strength as a design value for a duration.

    Parameters
    ----------
    value_n_mm2
        Characteristic strength, size factor included [N/mm2].
    duration
        Of the shortest load.
    service
        Service class, 1 to 3 [-].
    accidental
        In an accident.

    Returns
    -------
    Strength
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, 2.4.1 with Tables 2.3 and 3.1.
    """
    # Asked again for each member and each arrangement of a load: few are different.
    factor = k_mod(cast(ServiceClass, service), duration)
    gamma = gamma_m("solid", accidental=accidental)
    return Strength(k_mod=factor, gamma=gamma, value=design_strength_n_mm2(value_n_mm2, factor, gamma))


def held_for(value_n_mm2: float, holds: Strength) -> Strength:
    """A characteristic strength as a design value for as long as a case lasts.

    Parameters
    ----------
    value_n_mm2
        Characteristic strength, size factor included [N/mm2].
    holds
        What timber of strength 1 holds for so long.

    Returns
    -------
    Strength
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, 2.4.1.
    """
    value = design_strength_n_mm2(value_n_mm2, holds.k_mod, holds.gamma)
    return Strength(k_mod=holds.k_mod, gamma=holds.gamma, value=value)


def figures(value: float) -> str:
    """A number for a line of arithmetic: four places, and four figures where it is small [-].

    Source
    ------
    None: printing.

    Examples
    --------
    >>> figures(1.23456), figures(0.0035579)
    ('1.2346', '0.003558')
    """
    return f"{value:.4f}" if abs(value) >= 0.1 or not value else f"{value:.4g}"


def bending_steps(
    moment_n_mm: float, size_mm: tuple[float, float], stress_n_mm2: float, k_h: float, f_m_k_n_mm2: float,
    strength: Strength,
) -> tuple[Step, Step]:  # fmt: skip
    """Stress of a moment, and the strength against it.

    Parameters
    ----------
    moment_n_mm, size_mm, stress_n_mm2
        Moment [N mm], width and depth [mm], and the stress they make [N/mm2].
    k_h, f_m_k_n_mm2, strength
        Size factor [-], characteristic and design strength [N/mm2].

    Returns
    -------
    tuple of Step
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004, 6.1.6, 2.4.1, 3.2.
    """
    b, h = size_mm
    return (
        Step(
            says="Bending stress",
            formula="sigma = 6 M / (b h^2)",
            numbers=f"6 x {figures(moment_n_mm / 1e6)} x 10^6 / ({b:g} x {h:g}^2)",
            result=stress_n_mm2,
            unit="N/mm2",
            clause="6.1.6",
        ),
        Step(
            says="Design strength",
            formula="f_m,d = k_mod k_h f_m,k / gamma_M",
            numbers=f"{strength.k_mod:g} x {k_h:.4f} x {f_m_k_n_mm2:g} / {strength.gamma:g}"
            + (f"; k_h = (150 / {h:g})^0.2" if k_h > 1.0 else ""),
            result=strength.value,
            unit="N/mm2",
            clause="2.4.1, 3.2",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Sideways:
    """Buckling sideways of a bent member: effective length [mm], slenderness and k_crit [-], and how it is held."""

    free_mm: float
    upward: bool
    length_mm: float
    slenderness: float
    k_crit: float
    held: str
    why: str


def sideways_steps(
    found: Sideways, size_mm: tuple[float, float], timber: StrengthClass, strength_n_mm2: float
) -> tuple[Step, ...]:
    """From the free length to the strength that buckling sideways leaves.

    Parameters
    ----------
    found, size_mm, timber
        What was found, width and depth [mm], strength class.
    strength_n_mm2
        Design bending strength [N/mm2].

    Returns
    -------
    tuple of Step
        Effective length [mm], slenderness, k_crit [-], and the strength left [N/mm2].

    Source
    ------
    EN 1995-1-1:2004, 6.3.3 and Table 6.1.
    """
    _, h = size_mm
    return (
        Step(
            says="Effective length",
            formula="l_ef = 0.9 l - 0.5 h" if found.upward else "l_ef = 0.9 l + 2 h",
            numbers=f"0.9 x {found.free_mm:.1f} {'- 0.5' if found.upward else '+ 2'} x {h:g}; {found.held}",
            result=found.length_mm,
            unit="mm",
            clause=f"Table 6.1; {found.why}",
        ),
        *slender_steps(size_mm, found.length_mm, timber, found.slenderness, found.k_crit),
        Step(
            says="Strength that is left",
            formula="k_crit f_m,d",
            numbers=f"{found.k_crit:.4f} x {strength_n_mm2:.4f}",
            result=found.k_crit * strength_n_mm2,
            unit="N/mm2",
            clause="6.3.3",
        ),
    )


def slender_steps(
    size_mm: tuple[float, float], length_mm: float, timber: StrengthClass, slenderness: float, k_crit: float
) -> tuple[Step, Step]:
    """From the effective length of a bent member to its k_crit.

    Parameters
    ----------
    size_mm, length_mm, timber
        Its thickness and the depth that is bent [mm], effective length [mm], strength class.
    slenderness, k_crit
        As found [-].

    Returns
    -------
    tuple of Step
        Slenderness and k_crit [-].

    Source
    ------
    EN 1995-1-1:2004, 6.3.3.
    """
    b, h = size_mm
    if slenderness <= 0.75:
        formula, numbers = "k_crit = 1 up to 0.75", "1"
    elif slenderness <= 1.4:
        formula, numbers = "k_crit = 1.56 - 0.75 lambda", f"1.56 - 0.75 x {slenderness:.4f}"
    else:
        formula, numbers = "k_crit = 1 / lambda^2", f"1 / {slenderness:.4f}^2"
    return (
        Step(
            says="Slenderness",
            formula="lambda = sqrt(f_m,k h l_ef / (0.78 b^2 E_{0.05}))",
            numbers=(
                f"sqrt({timber.f_m_k_n_mm2:g} x {h:g} x {length_mm:.1f} / "
                f"(0.78 x {b:g}^2 x {timber.e_0_05_n_mm2:g}))"
            ),
            result=slenderness,
            unit="",
            clause="6.3.3",
        ),
        Step(
            says="Buckling sideways",
            formula=formula,
            numbers=numbers,
            result=k_crit,
            unit="",
            clause="6.3.3",
        ),
    )


def shear_steps(
    shear_n: float, size_mm: tuple[float, float], stress_n_mm2: float, f_v_k_n_mm2: float, strength: Strength
) -> tuple[Step, Step]:
    """Shear stress, and the strength against it.

    Parameters
    ----------
    shear_n, size_mm, stress_n_mm2
        Shear [N], width and depth [mm], and the stress they make [N/mm2].
    f_v_k_n_mm2, strength
        Characteristic and design strength [N/mm2].

    Returns
    -------
    tuple of Step
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.7, 2.4.1.
    """
    b, h = size_mm
    return (
        Step(
            says="Shear stress",
            formula="tau = 1.5 V / (k_cr b h)",
            numbers=f"1.5 x {shear_n:.1f} / (0.67 x {b:g} x {h:g})",
            result=stress_n_mm2,
            unit="N/mm2",
            clause="6.1.7",
        ),
        Step(
            says="Design strength",
            formula="f_v,d = k_mod f_v,k / gamma_M",
            numbers=f"{strength.k_mod:g} x {f_v_k_n_mm2:g} / {strength.gamma:g}",
            result=strength.value,
            unit="N/mm2",
            clause="2.4.1",
        ),
    )


def crushing_step(k_c_90: float, f_c_90_k_n_mm2: float, strength: Strength) -> Step:
    """Strength across the grain at a bearing.

    Parameters
    ----------
    k_c_90
        Factor of the bearing [-].
    f_c_90_k_n_mm2, strength
        Characteristic and design strength, without that factor [N/mm2].

    Returns
    -------
    Step
        [N/mm2].

    Source
    ------
    EN 1995-1-1:2004+A1, 6.1.5, 2.4.1.
    """
    return Step(
        says="Strength across the grain",
        formula="k_c,90 k_mod f_c,90,k / gamma_M",
        numbers=f"{k_c_90:g} x {strength.k_mod:g} x {f_c_90_k_n_mm2:g} / {strength.gamma:g}",
        result=k_c_90 * strength.value,
        unit="N/mm2",
        clause="6.1.5, 2.4.1",
    )


def limit_step(span_mm: float, limit_mm: float, *, tip: bool = False) -> Step:
    """The sag that is allowed.

    Parameters
    ----------
    span_mm
        Span, or what runs past its last support [mm].
    limit_mm
        Most sag [mm].
    tip
        True past the last support, where twice the length counts.

    Returns
    -------
    Step
        [mm].

    Source
    ------
    EN 1995-1-1:2004, 7.2, chosen in its range.
    """
    return Step(
        says="Limit",
        formula="span / divisor" + ("; past a support twice that" if tip else ""),
        numbers=f"{'2 x ' if tip else ''}{span_mm:.1f} / {span_mm * (2.0 if tip else 1.0) / limit_mm:.0f}",
        result=limit_mm,
        unit="mm",
        clause="EN 1995-1-1, 7.2",
    )
