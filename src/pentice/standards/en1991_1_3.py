"""Snow on a single-slope roof: shape, local effects, rare and accidental snow (EN 1991-1-3, sections 4 to 6).

Snow acts on plan. The drift against the taller wall stands in en1991_1_3_drift, exceptional drifts in
en1991_1_3_annex_b, snow on the ground in en1991_1_3_ground. Snow that falls from an upper roof in one mass is an
impact, which this standard does not cover.
"""

from __future__ import annotations

import math

from pentice.errors import InputError, require_within
from pentice.standards._tables import rows_of
from pentice.standards.annex import Annex

SNOW_ON_FLAT = 0.8  # mu_1 up to 30 deg: EN 1991-1-3, Table 5.2
DRIFTED_KN_M3 = 2.0  # weight of drifted snow: 5.3.6(1) and 6.2(2)
OVERHANG_KN_M3 = 3.0  # weight of snow that hangs over an edge: 6.3(2)


def mu_1(pitch_deg: float, *, obstructed: bool = False) -> float:
    """Snow shape coefficient of a single-slope roof.

    Parameters
    ----------
    pitch_deg
        Slope above the horizontal [deg], 0 to 90.
    obstructed
        A guard, a parapet or anything else at the foot keeps the snow from sliding off.

    Returns
    -------
    float
        mu_1 [-]: 0.8 up to 30 deg, then straight down to nothing at 60 deg; not below 0.8 when obstructed.

    Raises
    ------
    OutsideScope
        The slope is not between 0 and 90 deg.

    Source
    ------
    EN 1991-1-3:2003, 5.3.2 with Table 5.2; second-hand, read in a public transcription.

    Examples
    --------
    >>> round(mu_1(45.0), 4)
    0.4
    >>> mu_1(45.0, obstructed=True)
    0.8
    """
    require_within("pitch_deg", pitch_deg, 0.0, 90.0, unit="deg", source="EN 1991-1-3, 5.3.2")
    if obstructed or pitch_deg <= 30.0:
        return SNOW_ON_FLAT
    return max(SNOW_ON_FLAT * (60.0 - pitch_deg) / 30.0, 0.0)


def exposure_coefficient(annex: Annex, exposure: str) -> float:
    """Exposure coefficient: how much of its snow the wind leaves on a roof.

    Parameters
    ----------
    annex
        National choices: which exposures there are, and their coefficients.
    exposure
        "windswept", "normal" or "sheltered".

    Returns
    -------
    float
        C_e [-]. Whenever a drift acts, 1.0 at least must be used.

    Raises
    ------
    InputError
        The annex has no such exposure.

    Source
    ------
    EN 1991-1-3:2003, 5.2(7), Table 5.1; a national choice.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> exposure_coefficient(load_annex("EN"), "sheltered")
    1.2
    """
    known = dict(annex.exposures)
    if exposure not in known:
        expected = f'expected one of {", ".join(known)} with annex "{annex.name}"'
        raise InputError.of("snow_exposure", exposure, expected)
    return known[exposure]


def roof_snow_kn_m2(*, mu: float, ground_kn_m2: float, c_e: float = 1.0, c_t: float = 1.0) -> float:
    """Snow load on the roof, on plan.

    Parameters
    ----------
    mu
        Shape coefficient [-].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].
    c_e
        Exposure coefficient [-], 0.8 to 1.2.
    c_t
        Thermal coefficient [-], at most 1.0; below 1.0 only for a room heated for good, never for a carport.

    Returns
    -------
    float
        s [kN/m2] on plan.

    Raises
    ------
    OutsideScope
        A factor or the load is out of its range.

    Source
    ------
    EN 1991-1-3:2003, 5.2(3)P, expression 5.1.

    Examples
    --------
    >>> round(roof_snow_kn_m2(mu=0.8, ground_kn_m2=0.6), 3)
    0.48
    """
    require_within("mu", mu, 0.0, 8.0, source="EN 1991-1-3, 5.2 and Annex B")
    require_within("ground_kn_m2", ground_kn_m2, 0.0, 25.0, unit="kN/m2", source="judgement, no source")
    require_within("c_e", c_e, 0.8, 1.25, source="EN 1991-1-3, Table 5.1; 1.25 in the French annex")
    require_within("c_t", c_t, 0.1, 1.0, source="EN 1991-1-3, 5.2(8)")
    return mu * c_e * c_t * ground_kn_m2


def snow_density_kn_m3(state: str) -> float:
    """Mean bulk weight of lying snow.

    Parameters
    ----------
    state
        "fresh", "settled" (hours or days), "old" (weeks or months) or "wet".

    Returns
    -------
    float
        Weight [kN/m3].

    Raises
    ------
    InputError
        There is no such state.

    Source
    ------
    EN 1991-1-3:2003, Annex E, Table E.1.

    Examples
    --------
    >>> snow_density_kn_m3("settled")
    2.0
    """
    known = {row["state"]: float(row["kn_m3"]) for row in rows_of("snow_densities.csv")}
    if state not in known:
        raise InputError.of("state", state, f"expected one of {', '.join(known)}")
    return known[state]


def return_period_factor(years: float, *, variation: float = 0.6) -> float:
    """Snow of another return period as a share of the 50-year value.

    Parameters
    ----------
    years
        Mean return period [years], 5 to 1000.
    variation
        Coefficient of variation V of the yearly maxima [-], 0 to 1.

    Returns
    -------
    float
        s_n / s_k [-].

    Raises
    ------
    OutsideScope
        The period is shorter than 5 years, or V is not between 0 and 1.

    Source
    ------
    EN 1991-1-3:2003, Annex D, expression D.1; second-hand, read in a public implementation.

    Examples
    --------
    >>> round(return_period_factor(100.0), 3)
    1.128
    """
    require_within("years", years, 5.0, 1000.0, unit="years", source="EN 1991-1-3, Annex D")
    require_within("variation", variation, 0.0, 1.0, source="EN 1991-1-3, Annex D")
    gumbel = math.log(-math.log(1.0 - 1.0 / years)) + 0.57722
    return (1.0 - variation * math.sqrt(6.0) / math.pi * gumbel) / (1.0 + 2.5923 * variation)


def exceptional_snow_kn_m2(ground_kn_m2: float, *, factor: float) -> float:
    """Exceptional snow on the ground, an accidental action.

    Parameters
    ----------
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].
    factor
        C_esl [-] of the national annex; recommended 2.0.

    Returns
    -------
    float
        s_Ad [kN/m2].

    Raises
    ------
    OutsideScope
        The factor is below 1.

    Source
    ------
    EN 1991-1-3:2003, 4.3(1), expression 4.1.

    Examples
    --------
    >>> exceptional_snow_kn_m2(0.9, factor=2.0)
    1.8
    """
    require_within("factor", factor, 1.0, 10.0, source="EN 1991-1-3, 4.3")
    return factor * ground_kn_m2


def obstruction_coefficient(*, step_m: float, ground_kn_m2: float) -> float:
    """Shape coefficient of the drift against something that stands on the roof.

    Parameters
    ----------
    step_m
        Height of the obstruction above the roof [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].

    Returns
    -------
    float
        mu_2 [-] at the obstruction, 0.8 to 2.0, falling straight to 0.8 at drift_length_m(step_m).

    Raises
    ------
    OutsideScope
        There is no step or no snow.

    Source
    ------
    EN 1991-1-3:2003, 6.2(2), expressions 6.1 to 6.3; second-hand, read in a public implementation.

    Examples
    --------
    >>> round(obstruction_coefficient(step_m=0.6, ground_kn_m2=0.9), 4)
    1.3333
    """
    require_within("step_m", step_m, 0.001, 100.0, unit="m", source="EN 1991-1-3, 6.2")
    require_within("ground_kn_m2", ground_kn_m2, 0.01, 25.0, unit="kN/m2", source="EN 1991-1-3, 6.2")
    return min(max(DRIFTED_KN_M3 * step_m / ground_kn_m2, SNOW_ON_FLAT), 2.0)


def drift_length_m(step_m: float) -> float:
    """How far a drift reaches from the wall or the obstruction.

    Parameters
    ----------
    step_m
        Height of the wall or the obstruction above the roof [m].

    Returns
    -------
    float
        l_s [m]: twice the step, 5 to 15 m. A roof shorter than that is cut off, the drift is not shortened.

    Raises
    ------
    OutsideScope
        There is no step.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6, expression 5.9 and 6.2, expression 6.3, recommended limits; RFCS handbook Steel
    Buildings in Europe, Part 3, App. A.

    Examples
    --------
    >>> drift_length_m(2.0), drift_length_m(3.0), drift_length_m(9.0)
    (5.0, 6.0, 15.0)
    """
    require_within("step_m", step_m, 0.001, 1000.0, unit="m", source="EN 1991-1-3, 5.3.6")
    return min(max(2.0 * step_m, 5.0), 15.0)


def overhang_load_kn_m(snow_kn_m2: float) -> float:
    """Load of snow that hangs over the edge of a roof, on the edge itself.

    Parameters
    ----------
    snow_kn_m2
        s, the worst undrifted snow load on the roof [kN/m2].

    Returns
    -------
    float
        s_e [kN/m] along the foot, in addition to the snow on the roof.

    Raises
    ------
    OutsideScope
        The load is negative.

    Source
    ------
    EN 1991-1-3:2003, 6.3(2), expression 6.4, with k = 3/d, not above d times the weight. A national choice;
    recommended for sites above 800 m. Second-hand, read in a public implementation.

    Examples
    --------
    >>> round(overhang_load_kn_m(1.2), 3)
    0.576
    """
    require_within("snow_kn_m2", snow_kn_m2, 0.0, 25.0, unit="kN/m2", source="EN 1991-1-3, 6.3")
    if snow_kn_m2 == 0.0:
        return 0.0
    depth_m = snow_kn_m2 / OVERHANG_KN_M3
    k = min(3.0 / depth_m, depth_m * OVERHANG_KN_M3)
    return k * snow_kn_m2**2 / OVERHANG_KN_M3


def guard_load_kn_m(*, snow_kn_m2: float, plan_m: float, pitch_deg: float) -> float:
    """Push of sliding snow on a snow guard, along the slope; friction is left out.

    Parameters
    ----------
    snow_kn_m2
        s, the worst undrifted snow load on the slope that may slide [kN/m2].
    plan_m
        Plan distance from the guard up to the next guard or the ridge [m].
    pitch_deg
        Slope above the horizontal [deg].

    Returns
    -------
    float
        F_s [kN/m] of guard.

    Raises
    ------
    OutsideScope
        The slope is not between 0 and 90 deg.

    Source
    ------
    EN 1991-1-3:2003, 6.4(1), expression 6.5; second-hand, read in a public implementation.

    Examples
    --------
    >>> round(guard_load_kn_m(snow_kn_m2=0.9, plan_m=10.0, pitch_deg=30.0), 6)
    4.5
    """
    require_within("pitch_deg", pitch_deg, 0.0, 90.0, unit="deg", source="EN 1991-1-3, 6.4")
    return snow_kn_m2 * plan_m * math.sin(math.radians(pitch_deg))
