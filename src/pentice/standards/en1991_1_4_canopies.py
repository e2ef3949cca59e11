"""Net coefficients of an open single-slope canopy (EN 1991-1-4, 7.3, Table 7.6).

The coefficients hold both faces: no internal pressure and no underside is ever added. The pitch counts the same for
every wind direction. A wall behind blocks the wind onto the house and not the wind along it, so both blockages are
run. The table was not made for a canopy on a wall; where the national annex says what to use instead, this refuses.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from pentice.errors import InputError, require_within
from pentice.records import quickly_made
from pentice.standards._tables import interpolate, rows_of
from pentice.standards.annex import Annex

ZONES = ("cf", "A", "B", "C", "BC")
_SOURCE = "EN 1991-1-4, Table 7.6"


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class NetCoefficient:
    """Greatest (down) and least (up) net coefficient [-] of one zone."""

    zone: str
    greatest: float
    least: float


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Resultant:
    """Wind on a whole canopy: one force and where it acts."""

    force_kn: float  # negative lifts
    from_windward_m: float


def canopy_coefficient(annex: Annex, *, pitch_deg: float, blockage: float, zone: str) -> NetCoefficient:
    """Net coefficients of a zone for one degree of blockage.

    Parameters
    ----------
    annex
        National choices: may replace this table.
    pitch_deg
        Slope above the horizontal [deg], 0 to 30.
    blockage
        phi [-]: 0 open below, 1 blocked by what stands there or by a wall. Downwind of the blockage it is 0.
    zone
        "cf" for the canopy as a whole (beams, posts, bases), "A", "B", "C" for sheets, bars and screws, "BC" for a
        corner.

    Returns
    -------
    NetCoefficient
        Greatest and least [-].

    Raises
    ------
    OutsideScope
        The pitch or the blockage is outside the table, or the annex has other rules.
    InputError
        There is no such zone.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.3, Table 7.6, straight lines in pitch and in blockage. BC is the worse of B and C:
    judgement, no source.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> found = canopy_coefficient(load_annex("EN"), pitch_deg=8.0, blockage=0.5, zone="B")
    >>> round(found.greatest, 3), round(found.least, 3)
    (2.28, -2.16)
    """
    annex.require("table_7_6")
    if zone not in ZONES:
        raise InputError.of("zone", zone, f"expected one of {', '.join(ZONES)}")
    require_within("pitch_deg", pitch_deg, 0.0, 30.0, unit="deg", source=_SOURCE)
    require_within("blockage", blockage, 0.0, 1.0, source=_SOURCE)
    if zone == "BC":
        both = [canopy_coefficient(annex, pitch_deg=pitch_deg, blockage=blockage, zone=z) for z in ("B", "C")]
        greatest, least = max(c.greatest for c in both), min(c.least for c in both)
        return NetCoefficient(zone=zone, greatest=greatest, least=least)
    free, blocked = (_read(zone, column, pitch_deg) for column in ("least_free", "least_blocked"))
    least = free + (blocked - free) * blockage
    return NetCoefficient(zone=zone, greatest=_read(zone, "greatest", pitch_deg), least=least)


def canopy_envelope(annex: Annex, *, pitch_deg: float, zone: str) -> NetCoefficient:
    """Net coefficients of a zone, the worse of no blockage and full blockage.

    Parameters
    ----------
    annex
        National choices: may replace this table.
    pitch_deg
        Slope above the horizontal [deg], 0 to 30.
    zone
        "cf", "A", "B", "C" or "BC".

    Returns
    -------
    NetCoefficient
        Greatest and least [-].

    Raises
    ------
    OutsideScope
        The pitch is outside the table, or the annex has other rules.
    InputError
        There is no such zone.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, Table 7.6. That a canopy on a wall takes both: judgement, no source.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> canopy_envelope(load_annex("EN"), pitch_deg=10.0, zone="A").least
    -2.1
    """
    free, blocked = (
        canopy_coefficient(annex, pitch_deg=pitch_deg, blockage=phi, zone=zone) for phi in (0.0, 1.0)
    )
    return NetCoefficient(zone=zone, greatest=free.greatest, least=min(free.least, blocked.least))


def canopy_resultant(peak_kn_m2: float, *, c_f: float, width_m: float, depth_m: float) -> Resultant:
    """Wind on the whole canopy, for beams, posts and bases.

    Parameters
    ----------
    peak_kn_m2
        q_p, peak velocity pressure [kN/m2].
    c_f
        Force coefficient [-] of Table 7.6.
    width_m, depth_m
        The roof across the wind and along it, on its slope [m].

    Returns
    -------
    Resultant
        Force [kN] at right angles to the roof, and its distance from the windward edge [m].

    Raises
    ------
    OutsideScope
        A length is not positive.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.3(6), Figure 7.16, recommended place at a quarter of the depth; from memory.

    Examples
    --------
    >>> found = canopy_resultant(0.5, c_f=-1.4, width_m=5.0, depth_m=3.0)
    >>> round(found.force_kn, 3), found.from_windward_m
    (-10.5, 0.75)
    """
    require_within("width_m", width_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, 7.3")
    require_within("depth_m", depth_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, 7.3")
    return Resultant(force_kn=peak_kn_m2 * c_f * width_m * depth_m, from_windward_m=depth_m / 4.0)


def _read(zone: str, column: str, pitch_deg: float) -> float:
    return interpolate("pitch_deg", pitch_deg, _points(zone, column), unit="deg", source=_SOURCE)


@cache
def _points(zone: str, column: str) -> tuple[tuple[float, float], ...]:
    """A column of the table for one zone over the pitch."""
    rows = [row for row in rows_of("table_7_6.csv") if row["zone"] == zone]
    return tuple((float(row["pitch_deg"]), float(row[column])) for row in rows)
