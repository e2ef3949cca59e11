"""Drift of snow on a roof against a taller wall: the governing case of a lean-to (EN 1991-1-3, 5.3.6).

The drift is highest at the wall and falls in a straight line to 0.8 at its length. A roof shorter than the drift is
read at its foot; the drift is never shortened to fit. Where the top of the wall rises (a gable), every step between
the lowest and the highest counts.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.errors import InputError, require_within
from pentice.standards.en1991_1_3 import DRIFTED_KN_M3, SNOW_ON_FLAT, drift_length_m, mu_1

SLIDES_FROM_DEG = 15.0  # below and at this pitch nothing slides from the upper roof: 5.3.6(1)
OWN_SLOPE = "own slope"
FLAT_LOAD = "0.8"
_STEPS_BETWEEN = 40  # steps tried between the lowest and the highest, besides the exact corners


@dataclass(frozen=True, slots=True, kw_only=True)
class UpperRoof:
    """The roof of the house above the wall: its width across, its pitch, and the slope that drains to us."""

    width_m: float  # b_1, across the wall
    pitch_deg: float
    slope_plan_m: float = 0.0  # plan length of the slope that drains to us; 0 when none does


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """A drift for one step between the roofs: coefficients [-] and length."""

    step_m: float
    mu_w: float
    mu_s: float
    length_m: float

    @property
    def mu_2(self) -> float:
        """Shape coefficient at the wall [-]."""
        return self.mu_s + self.mu_w

    def mu_at(self, distance_m: float) -> float:
        """Shape coefficient at a distance from the wall.

        Parameters
        ----------
        distance_m
            Distance from the wall on plan [m].

        Returns
        -------
        float
            mu [-]: straight from mu_2 at the wall to 0.8 at the end of the drift, 0.8 beyond.

        Raises
        ------
        OutsideScope
            The distance is negative.

        Source
        ------
        EN 1991-1-3:2003, 5.3.6, Figure 5.7.

        Examples
        --------
        >>> round(Drift(step_m=2.5, mu_w=2.3, mu_s=0.0, length_m=5.0).mu_at(3.5), 3)
        1.25
        """
        require_within("distance_m", distance_m, 0.0, 1000.0, unit="m", source="EN 1991-1-3, 5.3.6")
        if distance_m >= self.length_m:
            return SNOW_ON_FLAT
        return self.mu_2 + (SNOW_ON_FLAT - self.mu_2) * distance_m / self.length_m


def wind_drift_coefficient(*, upper_m: float, lower_m: float, step_m: float, ground_kn_m2: float) -> float:
    """Part of the drift that the wind piles up.

    Parameters
    ----------
    upper_m, lower_m
        b_1 and b_2: widths of the upper and of the lower roof, across the wall [m].
    step_m
        h: height of the wall above the lower roof [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].

    Returns
    -------
    float
        mu_w [-], 0.8 to 4. The floor 0.8 wins where the step is too low to hold more.

    Raises
    ------
    OutsideScope
        There is no step, no snow or no roof.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6(1), expression 5.8, recommended limits; RFCS handbook Steel Buildings in Europe,
    Part 3, App. A.

    Examples
    --------
    >>> round(wind_drift_coefficient(upper_m=8.0, lower_m=3.5, step_m=2.5, ground_kn_m2=0.6), 3)
    2.3
    """
    require_within("upper_m", upper_m, 0.1, 1000.0, unit="m", source="EN 1991-1-3, 5.3.6")
    require_within("lower_m", lower_m, 0.1, 1000.0, unit="m", source="EN 1991-1-3, 5.3.6")
    require_within("step_m", step_m, 0.001, 1000.0, unit="m", source="EN 1991-1-3, 5.3.6")
    require_within("ground_kn_m2", ground_kn_m2, 0.01, 25.0, unit="kN/m2", source="EN 1991-1-3, 5.3.6")
    raw = (upper_m + lower_m) / (2.0 * step_m)
    held = DRIFTED_KN_M3 * step_m / ground_kn_m2
    return max(min(raw, held, 4.0), 0.8)


def sliding_coefficient(upper: UpperRoof, *, length_m: float, wording: str = OWN_SLOPE) -> float:
    """Part of the drift that slides from the upper roof.

    Half of the greatest load on the slope that drains to us, spread as a triangle over the length of the drift.

    Parameters
    ----------
    upper
        The roof above.
    length_m
        l_s, length of the drift [m].
    wording
        "own slope": the load has the mu_1 of that slope. "0.8": it has 0.8 whatever the pitch (Czech change Z2).

    Returns
    -------
    float
        mu_s [-] at the wall; 0 up to 15 deg, or when no slope drains to us. A guard on the upper roof changes
        nothing unless it is designed for the push of the snow.

    Raises
    ------
    InputError
        The wording is not known.
    OutsideScope
        The pitch of the upper roof is not between 0 and 90 deg.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6(1); second-hand, read in a public implementation and in a Czech commentary.

    Examples
    --------
    >>> house = UpperRoof(width_m=8.0, pitch_deg=35.0, slope_plan_m=4.0)
    >>> round(sliding_coefficient(house, length_m=5.0), 4)
    0.5333
    """
    if wording not in (OWN_SLOPE, FLAT_LOAD):
        raise InputError.of("sliding_wording", wording, f'expected "{OWN_SLOPE}" or "{FLAT_LOAD}"')
    on_slope = mu_1(upper.pitch_deg) if wording == OWN_SLOPE else SNOW_ON_FLAT
    if upper.pitch_deg <= SLIDES_FROM_DEG:
        return 0.0
    return on_slope * upper.slope_plan_m / length_m


def drift_at_wall(
    upper: UpperRoof, *, lower_m: float, step_m: float, ground_kn_m2: float, wording: str = OWN_SLOPE
) -> Drift:
    """The drift for one step between the roofs.

    Parameters
    ----------
    upper
        The roof above.
    lower_m
        b_2: our roof from the wall to its foot, on plan [m].
    step_m
        h: height of the wall above our roof [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].
    wording
        How mu_s is worded: see sliding_coefficient.

    Returns
    -------
    Drift
        Coefficients [-] and length [m].

    Raises
    ------
    OutsideScope
        There is no step, no snow or no roof.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6, expressions 5.6 to 5.9.

    Examples
    --------
    >>> house = UpperRoof(width_m=8.0, pitch_deg=35.0, slope_plan_m=4.0)
    >>> round(drift_at_wall(house, lower_m=3.5, step_m=2.5, ground_kn_m2=0.6).mu_2, 3)
    2.833
    """
    length_m = drift_length_m(step_m)
    mu_w = wind_drift_coefficient(
        upper_m=upper.width_m, lower_m=lower_m, step_m=step_m, ground_kn_m2=ground_kn_m2
    )
    mu_s = sliding_coefficient(upper, length_m=length_m, wording=wording)
    return Drift(step_m=step_m, mu_w=mu_w, mu_s=mu_s, length_m=length_m)


def worst_step_m(*, upper_m: float, lower_m: float, ground_kn_m2: float) -> float:
    """Step at which the wind piles up most: what the step can hold meets what the roofs can give.

    Parameters
    ----------
    upper_m, lower_m
        b_1 and b_2: widths of the upper and of the lower roof, across the wall [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].

    Returns
    -------
    float
        Step [m].

    Source
    ------
    Derived from EN 1991-1-3:2003, expression 5.8: (b_1 + b_2)/2h = gamma h / s_k.

    Examples
    --------
    >>> round(worst_step_m(upper_m=8.0, lower_m=3.5, ground_kn_m2=0.6), 4)
    1.3134
    """
    return math.sqrt((upper_m + lower_m) * ground_kn_m2 / (2.0 * DRIFTED_KN_M3))


def drifts_between(
    upper: UpperRoof,
    *,
    lower_m: float,
    lowest_step_m: float,
    highest_step_m: float,
    ground_kn_m2: float,
    wording: str = OWN_SLOPE,
) -> tuple[Drift, ...]:
    """Drifts for the steps between the lowest and the highest top of a wall.

    Parameters
    ----------
    upper
        The roof above.
    lower_m
        b_2: our roof from the wall to its foot, on plan [m].
    lowest_step_m, highest_step_m
        Height of the wall above our roof where it is lowest and where it is highest [m].
    ground_kn_m2
        s_k, characteristic snow on the ground [kN/m2].
    wording
        How mu_s is worded: see sliding_coefficient.

    Returns
    -------
    tuple
        One Drift per step tried, rising: both ends, every corner of the rule between them, and 40 even steps.

    Raises
    ------
    OutsideScope
        There is no step, or the lowest is above the highest.

    Source
    ------
    EN 1991-1-3:2003, 5.3.6. That the step varies along a gable is not treated there: judgement, no source.

    Examples
    --------
    >>> house = UpperRoof(width_m=8.0, pitch_deg=10.0)
    >>> level = drifts_between(house, lower_m=3.5, lowest_step_m=2.5, highest_step_m=2.5, ground_kn_m2=0.6)
    >>> [round(drift.mu_2, 3) for drift in level]
    [2.3]
    """
    require_within(
        "lowest_step_m", lowest_step_m, 0.001, highest_step_m, unit="m", source="EN 1991-1-3, 5.3.6"
    )
    both_m = upper.width_m + lower_m
    corners = (
        worst_step_m(upper_m=upper.width_m, lower_m=lower_m, ground_kn_m2=ground_kn_m2),
        both_m / (2.0 * 4.0),
        both_m / (2.0 * 0.8),
        4.0 * ground_kn_m2 / DRIFTED_KN_M3,
        0.8 * ground_kn_m2 / DRIFTED_KN_M3,
        5.0 / 2.0,
        15.0 / 2.0,
    )
    span = highest_step_m - lowest_step_m
    even = tuple(lowest_step_m + span * i / _STEPS_BETWEEN for i in range(_STEPS_BETWEEN))
    within = {h for h in (*corners, *even) if lowest_step_m <= h <= highest_step_m}
    steps = sorted(within | {lowest_step_m, highest_step_m})
    return tuple(
        drift_at_wall(upper, lower_m=lower_m, step_m=h, ground_kn_m2=ground_kn_m2, wording=wording)
        for h in steps
    )


def worst_drift(drifts: tuple[Drift, ...]) -> Drift:
    """The drift that is highest at the wall; of equals the longest.

    Parameters
    ----------
    drifts
        Drifts for several steps.

    Returns
    -------
    Drift
        The worst at the wall. Further out another may be worse: see worst_mu_at.

    Source
    ------
    Plain comparison.

    Examples
    --------
    >>> low = Drift(step_m=1.0, mu_w=2.0, mu_s=0.0, length_m=5.0)
    >>> high = Drift(step_m=4.0, mu_w=2.0, mu_s=0.0, length_m=8.0)
    >>> worst_drift((low, high)).step_m
    4.0
    """
    return max(drifts, key=lambda drift: (drift.mu_2, drift.length_m))


def worst_mu_at(drifts: tuple[Drift, ...], distance_m: float) -> float:
    """Greatest shape coefficient of several drifts at a distance from the wall.

    Parameters
    ----------
    drifts
        Drifts for several steps.
    distance_m
        Distance from the wall on plan [m].

    Returns
    -------
    float
        mu [-].

    Raises
    ------
    OutsideScope
        The distance is negative.

    Source
    ------
    Plain comparison.

    Examples
    --------
    >>> low = Drift(step_m=1.0, mu_w=2.0, mu_s=0.0, length_m=5.0)
    >>> high = Drift(step_m=4.0, mu_w=1.5, mu_s=0.0, length_m=8.0)
    >>> worst_mu_at((low, high), 0.0), round(worst_mu_at((low, high), 4.0), 3)
    (2.0, 1.15)
    """
    return max(drift.mu_at(distance_m) for drift in drifts)
