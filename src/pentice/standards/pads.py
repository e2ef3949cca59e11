"""Pad foundations of posts: held down against uplift, upright against overturning, and what they press on the ground.

EN 1990, set A (EQU) with 0.9 on the holding weight and 1.5 on the wind. Ground strength is never assumed: what the
ground bears is declared by whoever saw it. Friction and earth on the sides of the pad are left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from pentice.errors import require_within
from pentice.records import quickly_made

CONCRETE_KN_M3 = 24.0
FAVOURABLE = 0.9
UNFAVOURABLE = 1.5

_EQU = "EN 1990, Table A1.2(A)"
_GROUND = "EN 1997-1, 6.5.4"


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What pulls or turns a pad over and what holds it, in one unit, with the share used.

    utilisation is None where nothing holds it at all.
    """

    demand: float
    capacity: float
    utilisation: float | None


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """How a pad presses on the ground under a vertical force off its middle, across and along its length.

    even_kn_m2 spreads the force evenly over the effective area, as a bearing check wants it.
    """

    eccentricity_mm: float
    effective_width_mm: float
    eccentricity_along_mm: float
    effective_length_mm: float
    even_kn_m2: float


def pad_weight_kn(
    length_mm: float, width_mm: float, depth_mm: float, density_kn_m3: float = CONCRETE_KN_M3
) -> float:
    """Weight of a block of concrete.

    Parameters
    ----------
    length_mm, width_mm, depth_mm
        Size of the pad [mm].
    density_kn_m3
        Weight per volume, 24 for plain concrete of normal weight [kN/m3].

    Returns
    -------
    float
        Weight [kN].

    Raises
    ------
    OutsideScope
        The density is not that of concrete, 18 to 25 kN/m3.

    Source
    ------
    Volume times weight; 24 kN/m3 is EN 1991-1-1, Table A.1 (from memory).

    Examples
    --------
    >>> round(pad_weight_kn(600.0, 600.0, 700.0), 3)
    6.048
    """
    require_within("density_kn_m3", density_kn_m3, 18.0, 25.0, unit="kN/m3", source="EN 1991-1-1, Table A.1")
    return density_kn_m3 * length_mm * width_mm * depth_mm / 1e9


def uplift_of_pad(*, wind_up_kn: float, roof_kn: float, pad_kn: float) -> Holding:
    """Whether the weight of roof and pad holds a post down.

    Parameters
    ----------
    wind_up_kn
        Characteristic pull of the wind on the post, upward positive [kN].
    roof_kn
        Permanent weight of roof and post that certainly stands on it [kN].
    pad_kn
        Weight of the pad, and only such earth over it as will stay [kN].

    Returns
    -------
    Holding
        1.5 W against 0.9 G [kN].

    Raises
    ------
    OutsideScope
        A weight is negative.

    Source
    ------
    EN 1990:2002, Table A1.2(A), EQU: 0.9 for what holds, 1.5 for the wind.

    Examples
    --------
    >>> round(uplift_of_pad(wind_up_kn=6.0, roof_kn=1.0, pad_kn=6.048).utilisation, 4)
    1.4188
    """
    require_within("roof_kn", roof_kn, 0.0, inf, unit="kN", source=_EQU)
    require_within("pad_kn", pad_kn, 0.0, inf, unit="kN", source=_EQU)
    return _holding(UNFAVOURABLE * max(wind_up_kn, 0.0), FAVOURABLE * (roof_kn + pad_kn))


def overturning_of_pad(
    *,
    horizontal_kn: float,
    height_mm: float,
    weight_kn: float,
    width_mm: float,
    up_kn: float = 0.0,
    factored: bool = False,
) -> Holding:
    """Whether the weight on a pad keeps it from turning over its edge.

    Parameters
    ----------
    horizontal_kn
        Characteristic horizontal force of the wind [kN].
    height_mm
        Height of that force above the underside of the pad [mm].
    weight_kn
        Permanent weight of roof, post and pad, in the middle of the pad [kN].
    width_mm
        Width of the pad in the direction of the force [mm].
    up_kn
        Wind uplift acting together with the force, upward positive, in the middle of the pad [kN].
    factored
        The forces hold their factors already, as design values of one combination.

    Returns
    -------
    Holding
        1.5 (H h + W B/2) against 0.9 G B/2 [kNm]; without the factors where the forces hold them.

    Raises
    ------
    OutsideScope
        A size or the weight is negative.

    Source
    ------
    EN 1990:2002, Table A1.2(A), EQU, moments about the edge of the pad.

    Examples
    --------
    >>> held = overturning_of_pad(horizontal_kn=0.5, height_mm=2300.0, weight_kn=8.0, width_mm=700.0)
    >>> round(held.capacity, 3), round(held.demand, 3)
    (2.52, 1.725)
    """
    for name, value in {"height_mm": height_mm, "weight_kn": weight_kn, "width_mm": width_mm}.items():
        require_within(name, value, 0.0, inf, source=_EQU)
    arm = width_mm / 2.0 / 1e3
    turns = abs(horizontal_kn) * height_mm / 1e3 + max(up_kn, 0.0) * arm
    pushed, held = (1.0, 1.0) if factored else (UNFAVOURABLE, FAVOURABLE)
    return _holding(pushed * turns, held * weight_kn * arm)


def bearing_under_pad(
    *,
    vertical_kn: float,
    moment_knm: float,
    length_mm: float,
    width_mm: float,
    moment_along_length_knm: float = 0.0,
) -> Bearing:
    """Pressure under a pad whose load stands off its middle, one way or both at once.

    Parameters
    ----------
    vertical_kn
        Design force on the ground, pad included, downward [kN].
    moment_knm
        Design moment about the middle of the underside that turns the pad in the direction of its width [kNm].
    length_mm, width_mm
        Size of the pad [mm].
    moment_along_length_knm
        The same in the direction of its length, acting at once [kNm].

    Returns
    -------
    Bearing
        Eccentricities [mm], effective width and length [mm], even pressure [kN/m2].

    Raises
    ------
    OutsideScope
        Nothing presses down, or the eccentricity is more than a third of the width, or of the length.

    Source
    ------
    EN 1997-1, 6.5.4 (special care beyond a third of the width; from memory) and the effective area of Annex D,
    A' = (B - 2 e_B) (L - 2 e_L), from memory.

    Examples
    --------
    >>> pad = bearing_under_pad(vertical_kn=10.0, moment_knm=1.0, length_mm=600.0, width_mm=600.0)
    >>> pad.eccentricity_mm, round(pad.even_kn_m2, 2)
    (100.0, 41.67)
    >>> both = bearing_under_pad(
    ...     vertical_kn=10.0, moment_knm=1.0, length_mm=600.0, width_mm=600.0, moment_along_length_knm=1.0
    ... )
    >>> round(both.even_kn_m2, 2)
    62.5
    """
    require_within("vertical_kn", vertical_kn, 1e-9, inf, unit="kN", source=_GROUND, do="Enlarge the pad.")
    require_within("length_mm", length_mm, 1.0, inf, unit="mm", source=_GROUND)
    require_within("width_mm", width_mm, 1.0, inf, unit="mm", source=_GROUND)
    off, along = (abs(knm) / vertical_kn * 1e3 for knm in (moment_knm, moment_along_length_knm))
    do = "Widen the pad in that direction."
    require_within("eccentricity", off, 0.0, width_mm / 3.0, unit="mm", source=_GROUND, do=do)
    require_within("eccentricity along", along, 0.0, length_mm / 3.0, unit="mm", source=_GROUND, do=do)
    width, length = width_mm - 2.0 * off, length_mm - 2.0 * along
    return Bearing(
        eccentricity_mm=off,
        effective_width_mm=width,
        eccentricity_along_mm=along,
        effective_length_mm=length,
        even_kn_m2=vertical_kn / (length * width / 1e6),
    )


def _holding(demand: float, capacity: float) -> Holding:
    used = demand / capacity if capacity > 0.0 else (0.0 if demand == 0.0 else None)
    return Holding(demand=demand, capacity=capacity, utilisation=used)
