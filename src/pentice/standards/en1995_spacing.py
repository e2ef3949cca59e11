"""EN 1995-1-1, 8.3 to 8.6: how near fasteners in shear may stand to each other and to edges, and how many count.

Distances are for timber to timber; a panel's own reduction is not used, which is on the safe side. The angle is the
one between force and grain. A row is a line of fasteners along the grain.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from itertools import pairwise

from pentice.errors import OutsideScope, require_within

_NAIL_RULE = "EN 1995-1-1, Table 8.2"
_BOLT_RULE = "EN 1995-1-1, Table 8.4"
# Spacing over diameter, and the exponent: Table 8.1. The first row is for drilled holes only.
_K_EF = ((4.0, 0.5), (7.0, 0.7), (10.0, 0.85), (14.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Distances:
    """Least distances of fasteners in shear [mm].

    along and across: between fasteners in the direction of the grain and across it (a1, a2); loaded_end and
    loaded_edge: where the force pushes towards that end or edge (a3,t and a4,t); free_end, free_edge: where it pushes
    away from it (a3,c and a4,c).
    """

    along_mm: float
    across_mm: float
    loaded_end_mm: float
    free_end_mm: float
    loaded_edge_mm: float
    free_edge_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TooNear:
    """A distance that is less than it must be [mm]."""

    distance: str
    there_mm: float
    needed_mm: float


def nail_distances(d_mm: float, rho_k_kg_m3: float, angle_deg: float = 0.0, *, predrilled: bool) -> Distances:
    """Least distances of nails, and of screws up to an effective 6 mm.

    Parameters
    ----------
    d_mm
        Diameter, up to 8 [mm].
    rho_k_kg_m3
        Characteristic density of the timber, up to 500 [kg/m3].
    angle_deg
        Angle between force and grain, 0 to 90 [deg].
    predrilled
        Whether holes were drilled first [-].

    Returns
    -------
    Distances
        Least distances [mm].

    Raises
    ------
    OutsideScope
        Diameter, density or angle lies outside the table.

    Source
    ------
    EN 1995-1-1:2004+A1, Table 8.2 (from memory); 8.3.1.2(6): over 420 kg/m3 the column for dense timber.

    Examples
    --------
    >>> nails = nail_distances(4.0, 350.0, predrilled=False)
    >>> nails.along_mm, nails.loaded_end_mm, nails.free_edge_mm
    (40.0, 60.0, 20.0)
    """
    require_within("d_mm", d_mm, 1.0, 8.0, unit="mm", source=_NAIL_RULE)
    require_within("rho_k_kg_m3", rho_k_kg_m3, 100.0, 500.0, unit="kg/m3", source=_NAIL_RULE)
    require_within("angle_deg", angle_deg, 0.0, 90.0, unit="deg", source=_NAIL_RULE)
    cos, sin, thick = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg)), d_mm >= 5.0
    if predrilled:
        times = (4.0 + cos, 3.0 + sin, 7.0 + 5.0 * cos, 7.0, 3.0 + (4.0 if thick else 2.0) * sin, 3.0)
    elif rho_k_kg_m3 <= 420.0:
        along = 5.0 + (7.0 if thick else 5.0) * cos
        times = (along, 5.0, 10.0 + 5.0 * cos, 10.0, 5.0 + (5.0 if thick else 2.0) * sin, 5.0)
    else:
        edge = 7.0 + (5.0 if thick else 2.0) * sin
        times = (7.0 + 8.0 * cos, 7.0, 15.0 + 5.0 * cos, 15.0, edge, 7.0)
    return _times(times, d_mm)


def bolt_distances(d_mm: float, angle_deg: float = 0.0) -> Distances:
    """Least distances of bolts, and of screws over an effective 6 mm.

    Parameters
    ----------
    d_mm
        Diameter, up to 30 [mm].
    angle_deg
        Angle between force and grain, 0 to 90 [deg].

    Returns
    -------
    Distances
        Least distances [mm]; the loaded end is never nearer than 80 mm.

    Raises
    ------
    OutsideScope
        Diameter or angle lies outside the table.

    Source
    ------
    EN 1995-1-1:2004, Table 8.4.

    Examples
    --------
    >>> bolts = bolt_distances(12.0)
    >>> bolts.along_mm, bolts.across_mm, bolts.loaded_end_mm, bolts.free_end_mm
    (60.0, 48.0, 84.0, 48.0)
    """
    require_within("d_mm", d_mm, 1.0, 30.0, unit="mm", source=_BOLT_RULE)
    cos, sin = _cos_sin(angle_deg, _BOLT_RULE)
    free_end = max(4.0, 1.0 + 6.0 * sin)
    times = (4.0 + cos, 4.0, max(7.0, 80.0 / d_mm), free_end, max(2.0 + 2.0 * sin, 3.0), 3.0)
    return _times(times, d_mm)


def dowel_distances(d_mm: float, angle_deg: float = 0.0) -> Distances:
    """Least distances of plain steel dowels.

    Parameters
    ----------
    d_mm
        Diameter, 6 to 30 [mm].
    angle_deg
        Angle between force and grain, 0 to 90 [deg].

    Returns
    -------
    Distances
        Least distances [mm]; the loaded end is never nearer than 80 mm.

    Raises
    ------
    OutsideScope
        Diameter or angle lies outside the table.

    Source
    ------
    EN 1995-1-1:2004, Table 8.5 and 8.6(2); free end max(3 d, a3,t sin alpha) (from memory).

    Examples
    --------
    >>> round(dowel_distances(12.0, 70.0).along_mm, 1), round(dowel_distances(12.0, 70.0).loaded_edge_mm, 1)
    (44.2, 46.6)
    """
    require_within("d_mm", d_mm, 6.0, 30.0, unit="mm", source="EN 1995-1-1, 8.6(2)")
    cos, sin = _cos_sin(angle_deg, "EN 1995-1-1, Table 8.5")
    end = max(7.0, 80.0 / d_mm)
    times = (3.0 + 2.0 * cos, 3.0, end, max(3.0, end * sin), max(2.0 + 2.0 * sin, 3.0), 3.0)
    return _times(times, d_mm)


def too_near(there: Distances, needed: Distances) -> tuple[TooNear, ...]:
    """Which of the distances of a joint are less than they must be.

    Parameters
    ----------
    there
        Distances as drawn; infinite where there is no such neighbour, end or edge [mm].
    needed
        Least distances of the fastener [mm].

    Returns
    -------
    tuple[TooNear, ...]
        One entry for each distance that falls short, none when all are kept.

    Source
    ------
    Comparison, distance by distance.

    Examples
    --------
    >>> needed = bolt_distances(12.0)
    >>> too_near(needed, needed)
    ()
    """
    pairs = [(f.name, getattr(there, f.name), getattr(needed, f.name)) for f in fields(Distances)]
    return tuple(
        TooNear(distance=name.removesuffix("_mm").replace("_", " "), there_mm=has, needed_mm=wants)
        for name, has, wants in pairs
        if has < wants - 1e-6
    )


def nails_in_row(
    count: int, along_mm: float, d_mm: float, *, predrilled: bool, staggered: bool = False
) -> float:
    """How many nails of a row along the grain count.

    Parameters
    ----------
    count
        Nails in the row [-].
    along_mm
        Distance between them along the grain [mm].
    d_mm
        Diameter, up to 8 [mm].
    predrilled
        Whether holes were drilled first [-].
    staggered
        Whether neighbours stand at least one diameter to the side of the line [-].

    Returns
    -------
    float
        n_ef = n^k_ef, between the rows of the table by straight lines; n where the nails are staggered [-].

    Raises
    ------
    OutsideScope
        The nails stand nearer than 7 d, or 4 d predrilled.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.17 with Table 8.1.

    Examples
    --------
    >>> round(nails_in_row(4, 40.0, 4.0, predrilled=False), 4)
    3.249
    """
    require_within("count", count, 1, math.inf, source="EN 1995-1-1, 8.3.1.1(8)")
    if staggered or count == 1:
        return float(count)
    rows = _K_EF if predrilled else _K_EF[1:]
    apart = along_mm / d_mm
    do = "Stand them further apart, or stagger them."
    require_within(
        "spacing over diameter", apart, rows[0][0], math.inf, source="EN 1995-1-1, Table 8.1", do=do
    )
    power = 1.0
    for (low, k_low), (high, k_high) in pairwise(rows):
        if low <= apart <= high:
            power = k_low + (k_high - k_low) * (apart - low) / (high - low)
    return float(count**power)


def bolts_in_row(count: int, along_mm: float, d_mm: float, angle_deg: float = 0.0) -> float:
    """How many bolts or dowels of a row along the grain count.

    Parameters
    ----------
    count
        Bolts in the row [-].
    along_mm
        Distance between them along the grain [mm].
    d_mm
        Diameter, up to 30 [mm].
    angle_deg
        Angle between force and grain: all count at 90, straight line in between [deg].

    Returns
    -------
    float
        n_ef = min(n, n^0.9 (a1 / 13 d)^(1/4)) along the grain [-].

    Raises
    ------
    OutsideScope
        The bolts stand nearer than the table allows.

    Source
    ------
    EN 1995-1-1:2004, eq. 8.34 and 8.5.1.1(4).

    Examples
    --------
    >>> round(bolts_in_row(2, 100.0, 12.0), 5)
    1.66973
    """
    require_within("count", count, 1, math.inf, source="EN 1995-1-1, 8.5.1.1(4)")
    if count == 1:
        return 1.0
    _cos_sin(angle_deg, "EN 1995-1-1, 8.5.1.1(4)")
    least = 3.0 * d_mm
    require_within("along_mm", along_mm, least, math.inf, unit="mm", source=_BOLT_RULE)
    along = min(float(count), count**0.9 * (along_mm / (13.0 * d_mm)) ** 0.25)
    return float(along + (count - along) * angle_deg / 90.0)


def splitting_force_n(
    *, width_mm: float, depth_mm: float, to_far_fastener_mm: float, plate_w: float = 1.0
) -> float:
    """Shear force beside a joint at which a beam splits along the grain, pulled across it.

    Parameters
    ----------
    width_mm, depth_mm
        Section of the beam [mm].
    to_far_fastener_mm
        Distance h_e from the edge that the force pulls towards to the furthest fastener [mm].
    plate_w
        Factor w, 1.0 for all but punched plates [-].

    Returns
    -------
    float
        F_90,Rk, to be compared with the greater shear force on either side of the joint [N].

    Raises
    ------
    OutsideScope
        The fastener lies at or beyond the far edge of the beam, or the factor is below 1.

    Source
    ------
    EN 1995-1-1:2004, 8.1.4(3), eq. 8.4, softwood (from memory).

    Examples
    --------
    >>> round(splitting_force_n(width_mm=50.0, depth_mm=200.0, to_far_fastener_mm=100.0))
    9899
    """
    rule = "EN 1995-1-1, 8.1.4"
    require_within("plate_w", plate_w, 1.0, 3.0, source=rule)
    require_within("width_mm", width_mm, 1.0, math.inf, unit="mm", source=rule)
    if not 0.0 < to_far_fastener_mm < depth_mm:
        raise OutsideScope(
            f"furthest fastener is {to_far_fastener_mm:g} mm from the loaded edge; expected more than 0 and less than "
            f"the depth of {depth_mm:g} mm ({rule}). Move the fastener into the beam."
        )
    return 14.0 * width_mm * plate_w * math.sqrt(to_far_fastener_mm / (1.0 - to_far_fastener_mm / depth_mm))


def _cos_sin(angle_deg: float, rule: str) -> tuple[float, float]:
    require_within("angle_deg", angle_deg, 0.0, 90.0, unit="deg", source=rule)
    return math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))


def _times(times: tuple[float, ...], d_mm: float) -> Distances:
    along, across, loaded_end, free_end, loaded_edge, free_edge = (d_mm * factor for factor in times)
    return Distances(
        along_mm=along,
        across_mm=across,
        loaded_end_mm=loaded_end,
        free_end_mm=free_end,
        loaded_edge_mm=loaded_edge,
        free_edge_mm=free_edge,
    )
