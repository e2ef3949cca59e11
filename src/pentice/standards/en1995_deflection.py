"""EN 1995-1-1, 2.2.3 and 7.2: how far timber sags at once, how far in the end, and how far it may.

The divisors 300 and 250 are a choice from the range of Table 7.2 (recalled, not read); a national annex may override.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.errors import require_within

INSTANT_DIVISOR = 300.0
FINAL_DIVISOR = 250.0
INSTANT_RANGE = (300.0, 500.0)
FINAL_RANGE = (250.0, 350.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class VariableSag:
    """Instantaneous sag under one variable action, with its combination factors."""

    sag_mm: float
    psi_0: float
    psi_2: float


def final_deflection_mm(
    permanent_mm: float, leading: VariableSag, others: Sequence[VariableSag] = (), *, k_def: float
) -> float:
    """Sag in the end, creep included, of a member of one material.

    Parameters
    ----------
    permanent_mm
        Instantaneous sag under permanent actions [mm].
    leading
        Instantaneous sag under the leading variable action [mm].
    others
        Instantaneous sag under each variable action that goes with it [mm].
    k_def
        Creep factor [-].

    Returns
    -------
    float
        w_fin = w_G (1 + k_def) + w_Q1 (1 + psi_2 k_def) + sum of w_Qi (psi_0 + psi_2 k_def) [mm].

    Source
    ------
    EN 1995-1-1:2004, eq. 2.2 to 2.5.

    Examples
    --------
    >>> snow = VariableSag(sag_mm=6.0, psi_0=0.5, psi_2=0.0)
    >>> round(final_deflection_mm(2.0, snow, k_def=0.8), 3)
    9.6
    """
    lasting = permanent_mm * (1.0 + k_def) + leading.sag_mm * (1.0 + leading.psi_2 * k_def)
    return lasting + sum(other.sag_mm * (other.psi_0 + other.psi_2 * k_def) for other in others)


def instant_limit_mm(span_mm: float, *, overhang: bool = False, divisor: float = INSTANT_DIVISOR) -> float:
    """Most sag at once that a span (or the tip of an overhang) may have.

    Parameters
    ----------
    span_mm
        Span, or length of the overhang [mm].
    overhang
        True for the tip of an overhang, which may move twice as far for its length [-].
    divisor
        Span over sag, 300 to 500 [-].

    Returns
    -------
    float
        Limit of w_inst [mm].

    Raises
    ------
    OutsideScope
        The divisor lies outside the range of the table.

    Source
    ------
    EN 1995-1-1:2004, Table 7.2 (from memory); 300 is a choice within its range.

    Examples
    --------
    >>> instant_limit_mm(3000.0), instant_limit_mm(300.0, overhang=True)
    (10.0, 2.0)
    """
    return _limit_mm(span_mm, overhang, divisor, INSTANT_RANGE)


def final_limit_mm(span_mm: float, *, overhang: bool = False, divisor: float = FINAL_DIVISOR) -> float:
    """Most sag in the end that a span (or the tip of an overhang) may have.

    Parameters
    ----------
    span_mm
        Span, or length of the overhang [mm].
    overhang
        True for the tip of an overhang, which may move twice as far for its length [-].
    divisor
        Span over sag, 250 to 350 [-].

    Returns
    -------
    float
        Limit of w_net,fin, without camber [mm].

    Raises
    ------
    OutsideScope
        The divisor lies outside the range of the table.

    Source
    ------
    EN 1995-1-1:2004, Table 7.2 (from memory); 250 is a choice within its range.

    Examples
    --------
    >>> final_limit_mm(3000.0)
    12.0
    """
    return _limit_mm(span_mm, overhang, divisor, FINAL_RANGE)


def _limit_mm(span_mm: float, overhang: bool, divisor: float, limits: tuple[float, float]) -> float:
    require_within("divisor", divisor, *limits, source="EN 1995-1-1, Table 7.2")
    return (2.0 if overhang else 1.0) * span_mm / divisor
