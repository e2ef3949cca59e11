"""Which actions stand together, and with which factors (EN 1990).

Each function is one expression. Actions may be in any unit (kN/m2, kN/m, kN, kNm) as long as it is one unit,
and they are added with their sign: down is positive, up negative. Factors are national choices: arguments.
"""

from __future__ import annotations

from dataclasses import dataclass

from pentice.errors import require_within

# A variable action that goes along with the leading one: its characteristic value and its psi factor.
Accompanying = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Psi:
    """The three psi factors of a variable action [-]: combination, frequent, quasi-permanent value."""

    psi_0: float
    psi_1: float
    psi_2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PartialFactors:
    """Partial factors on actions [-] and the reduction factor xi [-]: Tables A1.2(A) and A1.2(B)."""

    permanent_up: float  # gamma_G,sup, set B
    permanent_down: float  # gamma_G,inf, set B
    variable: float  # gamma_Q
    xi: float
    equ_permanent_up: float  # gamma_G,sup, set A
    equ_permanent_down: float  # gamma_G,inf, set A
    equ_variable: float  # gamma_Q, set A


def _weighted(accompanying: tuple[Accompanying, ...]) -> float:
    for _, psi in accompanying:
        require_within("psi", psi, 0.0, 1.0, source="EN 1990, A1.2.2", do="Give a factor of Table A1.1.")
    return sum(value * psi for value, psi in accompanying)


def combination_6_10(
    *,
    factors: PartialFactors,
    unfavourable: float = 0.0,
    favourable: float = 0.0,
    leading: float = 0.0,
    accompanying: tuple[Accompanying, ...] = (),
) -> float:
    """Design effect for strength (set B) by expression 6.10.

    Parameters
    ----------
    factors
        Partial factors [-] of the national annex.
    unfavourable, favourable
        Permanent action that adds to the effect, and that works against it [same unit].
    leading
        Leading variable action, characteristic [same unit].
    accompanying
        (characteristic value [same unit], psi_0 [-]) of each further variable action.

    Returns
    -------
    float
        Design value [same unit].

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.4.3.2(3), expression 6.10, with Table A1.2(B).

    Examples
    --------
    >>> recommended = PartialFactors(permanent_up=1.35, permanent_down=1.0, variable=1.5, xi=0.85,
    ...     equ_permanent_up=1.1, equ_permanent_down=0.9, equ_variable=1.5)
    >>> wind = ((0.2, 0.6),)
    >>> round(combination_6_10(factors=recommended, unfavourable=0.25, leading=0.6, accompanying=wind), 4)
    1.4175
    """
    return (
        factors.permanent_up * unfavourable
        + factors.permanent_down * favourable
        + factors.variable * (leading + _weighted(accompanying))
    )


def combination_6_10a(
    *,
    factors: PartialFactors,
    unfavourable: float = 0.0,
    favourable: float = 0.0,
    variable: tuple[Accompanying, ...] = (),
) -> float:
    """Design effect for strength by expression 6.10a: every variable action takes its psi_0.

    Parameters
    ----------
    factors
        Partial factors [-] of the national annex.
    unfavourable, favourable
        Permanent action that adds to the effect, and that works against it [same unit].
    variable
        (characteristic value [same unit], psi_0 [-]) of every variable action.

    Returns
    -------
    float
        Design value [same unit]. The worse of 6.10a and 6.10b counts.

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.4.3.2(3), expression 6.10a, with Table A1.2(B).

    Examples
    --------
    >>> uk = PartialFactors(permanent_up=1.35, permanent_down=1.0, variable=1.5, xi=0.925,
    ...     equ_permanent_up=1.1, equ_permanent_down=0.9, equ_variable=1.5)
    >>> round(combination_6_10a(factors=uk, unfavourable=0.25, variable=((0.6, 0.5), (0.2, 0.5))), 4)
    0.9375
    """
    return combination_6_10(
        factors=factors, unfavourable=unfavourable, favourable=favourable, accompanying=variable
    )


def combination_6_10b(
    *,
    factors: PartialFactors,
    unfavourable: float = 0.0,
    favourable: float = 0.0,
    leading: float = 0.0,
    accompanying: tuple[Accompanying, ...] = (),
) -> float:
    """Design effect for strength by expression 6.10b: the unfavourable permanent action takes xi.

    Parameters
    ----------
    factors
        Partial factors [-] of the national annex.
    unfavourable, favourable
        Permanent action that adds to the effect, and that works against it [same unit].
    leading
        Leading variable action, characteristic [same unit].
    accompanying
        (characteristic value [same unit], psi_0 [-]) of each further variable action.

    Returns
    -------
    float
        Design value [same unit]. The worse of 6.10a and 6.10b counts.

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.4.3.2(3), expression 6.10b, with Table A1.2(B).

    Examples
    --------
    >>> uk = PartialFactors(permanent_up=1.35, permanent_down=1.0, variable=1.5, xi=0.925,
    ...     equ_permanent_up=1.1, equ_permanent_down=0.9, equ_variable=1.5)
    >>> round(combination_6_10b(factors=uk, unfavourable=0.25, leading=0.6, accompanying=((0.2, 0.5),)), 4)
    1.3622
    """
    return combination_6_10(
        factors=factors,
        unfavourable=factors.xi * unfavourable,
        favourable=favourable,
        leading=leading,
        accompanying=accompanying,
    )


def equilibrium(
    *,
    factors: PartialFactors,
    destabilising: float = 0.0,
    stabilising: float = 0.0,
    leading: float = 0.0,
    accompanying: tuple[Accompanying, ...] = (),
) -> float:
    """Net effect in the check against lifting off or turning over (EQU, set A).

    Parameters
    ----------
    factors
        Partial factors [-] of the national annex.
    destabilising, stabilising
        Permanent action that helps the lifting, and that holds down [same unit].
    leading
        Leading variable action, characteristic [same unit]; uplift is negative.
    accompanying
        (characteristic value [same unit], psi_0 [-]) of each further variable action.

    Returns
    -------
    float
        Net design value [same unit]; negative means that something must hold the roof down.

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.4.3.2(3), expression 6.10, with Table A1.2(A).

    Examples
    --------
    >>> recommended = PartialFactors(permanent_up=1.35, permanent_down=1.0, variable=1.5, xi=0.85,
    ...     equ_permanent_up=1.1, equ_permanent_down=0.9, equ_variable=1.5)
    >>> round(equilibrium(factors=recommended, stabilising=0.25, leading=-0.8), 4)
    -0.975
    """
    return (
        factors.equ_permanent_up * destabilising
        + factors.equ_permanent_down * stabilising
        + factors.equ_variable * (leading + _weighted(accompanying))
    )


def accidental_6_11b(
    *, permanent: float, accidental: float, accompanying: tuple[Accompanying, ...] = ()
) -> float:
    """Design effect in an accidental situation, for example an exceptional snow drift.

    Parameters
    ----------
    permanent
        Permanent action, characteristic [same unit].
    accidental
        Accidental action A_d [same unit]; it takes no partial factor.
    accompanying
        (characteristic value [same unit], psi [-]): psi_1 or psi_2 for the main variable action as the annex
        says, psi_2 for the others.

    Returns
    -------
    float
        Design value [same unit].

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.4.3.3, expression 6.11b.

    Examples
    --------
    >>> round(accidental_6_11b(permanent=0.25, accidental=2.742857), 5)
    2.99286
    """
    return permanent + accidental + _weighted(accompanying)


def characteristic_6_14b(
    *, permanent: float, leading: float = 0.0, accompanying: tuple[Accompanying, ...] = ()
) -> float:
    """Effect in the characteristic combination, for what cannot be undone: deflection at once.

    Parameters
    ----------
    permanent
        Permanent action, characteristic [same unit].
    leading
        Leading variable action, characteristic [same unit].
    accompanying
        (characteristic value [same unit], psi_0 [-]) of each further variable action.

    Returns
    -------
    float
        Effect [same unit].

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.5.3(2)a, expression 6.14b.

    Examples
    --------
    >>> round(characteristic_6_14b(permanent=0.25, leading=0.6, accompanying=((0.2, 0.6),)), 4)
    0.97
    """
    return permanent + leading + _weighted(accompanying)


def frequent_6_15b(
    *, permanent: float, leading: Accompanying, accompanying: tuple[Accompanying, ...] = ()
) -> float:
    """Effect in the frequent combination.

    Parameters
    ----------
    permanent
        Permanent action, characteristic [same unit].
    leading
        (characteristic value [same unit], psi_1 [-]) of the leading variable action.
    accompanying
        (characteristic value [same unit], psi_2 [-]) of each further variable action.

    Returns
    -------
    float
        Effect [same unit].

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.5.3(2)b, expression 6.15b.

    Examples
    --------
    >>> round(frequent_6_15b(permanent=0.25, leading=(0.6, 0.2)), 4)
    0.37
    """
    return permanent + _weighted((leading, *accompanying))


def quasi_permanent_6_16b(*, permanent: float, variable: tuple[Accompanying, ...] = ()) -> float:
    """Effect in the quasi-permanent combination, the one that makes timber and plastic creep.

    Parameters
    ----------
    permanent
        Permanent action, characteristic [same unit].
    variable
        (characteristic value [same unit], psi_2 [-]) of every variable action.

    Returns
    -------
    float
        Effect [same unit].

    Raises
    ------
    OutsideScope
        A psi factor is not between 0 and 1.

    Source
    ------
    EN 1990:2002+A1:2005, 6.5.3(2)c, expression 6.16b.

    Examples
    --------
    >>> round(quasi_permanent_6_16b(permanent=0.25, variable=((0.6, 0.2),)), 4)
    0.37
    """
    return permanent + _weighted(variable)
