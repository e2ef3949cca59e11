"""External and internal pressure coefficients of a closed lean-to (EN 1991-1-4, section 7.2) and friction.

Suction and pressure are separate cases and are never mixed: between two pitches a coefficient is read only from
values of the same sign. Positive is onto the surface. Where the national annex has tables of its own, and they are
not held, every table here refuses.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import product
from typing import Literal

from pentice.errors import InputError, require_within
from pentice.records import quickly_made
from pentice.standards._tables import interpolate, rows_of
from pentice.standards.annex import Annex

Points = tuple[tuple[float, float], ...]
"""A column of a table over another, rising."""
Wind = Literal["onto foot", "onto head", "from left", "from right"]
WINDS: tuple[Wind, ...] = ("onto foot", "onto head", "from left", "from right")
THETA_DEG = {"onto foot": 0, "onto head": 180, "from left": 90, "from right": 90}
FLAT_BELOW_DEG = 5.0  # below this pitch a roof is flat: 7.2.3(1)


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Coefficient:
    """External pressure coefficients [-] of one zone in one case ("suction" or "pressure")."""

    zone: str
    sign: str
    cpe_10: float
    cpe_1: float

    def at_area(self, area_m2: float) -> float:
        """Coefficient for a loaded area.

        Parameters
        ----------
        area_m2
            Area that loads the part in question [m2].

        Returns
        -------
        float
            c_pe [-].

        Raises
        ------
        OutsideScope
            The area is not positive.

        Source
        ------
        EN 1991-1-4:2005+A1:2010, 7.2.1(1), Figure 7.2.

        Examples
        --------
        >>> round(Coefficient(zone="F", sign="suction", cpe_10=-1.7, cpe_1=-2.5).at_area(5.0), 3)
        -1.941
        """
        return self.at_share(area_share(area_m2))

    def at_share(self, share: float) -> float:
        """The same where the way from 1 m2 to 10 m2 is known.

        Parameters
        ----------
        share
            `area_share` of the loaded area [-].

        Returns
        -------
        float
            c_pe [-].

        Source
        ------
        As `at_area`.

        Examples
        --------
        >>> round(Coefficient(zone="F", sign="suction", cpe_10=-1.7, cpe_1=-2.5).at_share(0.5), 3)
        -2.1
        """
        return self.cpe_1 - (self.cpe_1 - self.cpe_10) * share


def area_coefficient(*, cpe_10: float, cpe_1: float, area_m2: float) -> float:
    """External pressure coefficient between those for 1 m2 and for 10 m2.

    Parameters
    ----------
    cpe_10, cpe_1
        Coefficients [-] for 10 m2 and more, and for 1 m2 and less.
    area_m2
        Area that loads the part in question [m2]: a sheet its bay, a screw less than 1 m2.

    Returns
    -------
    float
        c_pe [-].

    Raises
    ------
    OutsideScope
        The area is not positive.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(1), Figure 7.2, recommended; second-hand, read in a public transcription.

    Examples
    --------
    >>> round(area_coefficient(cpe_10=-1.7, cpe_1=-2.5, area_m2=3.0), 4)
    -2.1183
    """
    return cpe_1 - (cpe_1 - cpe_10) * area_share(area_m2)


def area_share(area_m2: float) -> float:
    """How far a loaded area lies from 1 m2 to 10 m2 on the scale of the pressure coefficients.

    Parameters
    ----------
    area_m2
        Area that loads the part in question [m2].

    Returns
    -------
    float
        log10 of the area [-], 0 to 1.

    Raises
    ------
    OutsideScope
        The area is not positive.

    Source
    ------
    As `area_coefficient`.

    Examples
    --------
    >>> area_share(0.5), round(area_share(3.0), 4), area_share(20.0)
    (0.0, 0.4771, 1.0)
    """
    require_within("area_m2", area_m2, 1e-6, 1e6, unit="m2", source="EN 1991-1-4, 7.2.1")
    return min(max(math.log10(area_m2), 0.0), 1.0)


def roof_coefficients(annex: Annex, *, pitch_deg: float, wind: Wind) -> tuple[Coefficient, ...]:
    """External pressure coefficients of a single-slope roof by zone, both signs where there are two.

    Parameters
    ----------
    annex
        National choices: may replace this table.
    pitch_deg
        Slope above the horizontal [deg], 0 to 45; below 5 deg the roof is flat.
    wind
        "onto foot" (the low eaves), "onto head" (the high eaves: of a lean-to, the house; kept as a bound),
        "from left" or "from right".

    Returns
    -------
    tuple
        One Coefficient per zone and sign.

    Raises
    ------
    OutsideScope
        The pitch is not between 0 and 45 deg, or the annex has tables of its own that are not held.
    InputError
        There is no such wind.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.3 with Table 7.2 (sharp eaves) and 7.2.4 with Tables 7.3a and 7.3b. The table
    goes on to 75 deg; above 45 deg this is refused: judgement, nobody glazes a lean-to so steep.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> found = roof_coefficients(load_annex("EN"), pitch_deg=10.0, wind="onto foot")
    >>> [(c.zone, c.sign, round(c.cpe_10, 3)) for c in found][:2]
    [('F', 'suction', -1.3), ('F', 'pressure', 0.1)]
    """
    annex.require("table_7_3")
    if wind not in WINDS:
        raise InputError.of("wind", wind, f"expected one of {', '.join(WINDS)}")
    require_within("pitch_deg", pitch_deg, 0.0, 45.0, unit="deg", source="EN 1991-1-4, 7.2.4, as far as held")
    if pitch_deg < FLAT_BELOW_DEG:
        return tuple(
            Coefficient(
                zone=row["zone"], sign=row["sign"], cpe_10=float(row["cpe_10"]), cpe_1=float(row["cpe_1"])
            )
            for row in rows_of("table_7_2.csv")
        )
    return tuple(
        Coefficient(
            zone=zone,
            sign=sign,
            cpe_10=interpolate("pitch_deg", pitch_deg, ten),
            cpe_1=interpolate("pitch_deg", pitch_deg, one),
        )
        for zone, sign, ten, one in _over_pitch(THETA_DEG[wind])
    )


@cache
def _over_pitch(theta_deg: int) -> tuple[tuple[str, str, Points, Points], ...]:
    """Table 7.3 for one wind: zone and sign, and its coefficients for 10 m2 and 1 m2 over the pitch."""
    rows = [row for row in rows_of("table_7_3.csv") if int(row["theta"]) == theta_deg]
    found = []
    for zone, sign in product(sorted({row["zone"] for row in rows}), ("suction", "pressure")):
        of_case = [row for row in rows if (row["zone"], row["sign"]) == (zone, sign)]
        if of_case:
            found.append((zone, sign, *_columns(of_case, "pitch_deg")))
    return tuple(found)


def _columns(rows: Sequence[Mapping[str, str]], over: str) -> tuple[Points, Points]:
    """The coefficients of some rows for 10 m2 and for 1 m2, over another column."""
    ten, one = (tuple((float(row[over]), float(row[size])) for row in rows) for size in ("cpe_10", "cpe_1"))
    return ten, one


@lru_cache(maxsize=64)
def wall_coefficients(*, height_m: float, depth_m: float) -> tuple[Coefficient, ...]:
    """External pressure coefficients of vertical walls by zone.

    Parameters
    ----------
    height_m
        h: height of the building [m].
    depth_m
        d: its length along the wind [m].

    Returns
    -------
    tuple
        Zones A, B, C along the wind, D windward, E leeward.

    Raises
    ------
    OutsideScope
        The building is more than five times as high as it is deep.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2(2), Table 7.1; at and below h/d = 0.25 the last row, straight lines between.

    Examples
    --------
    >>> [c.cpe_10 for c in wall_coefficients(height_m=3.0, depth_m=3.0)]
    [-1.2, -0.8, -0.5, 0.8, -0.5]
    """
    require_within("depth_m", depth_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, 7.2.2")
    slender = max(height_m / depth_m, 0.25)
    return tuple(
        Coefficient(
            zone=zone,
            sign="pressure" if zone == "D" else "suction",
            cpe_10=interpolate("h_over_d", slender, ten, source="Table 7.1"),
            cpe_1=interpolate("h_over_d", slender, one, source="Table 7.1"),
        )
        for zone, ten, one in _over_slenderness()
    )


@cache
def _over_slenderness() -> tuple[tuple[str, Points, Points], ...]:
    """Table 7.1, zone by zone: its coefficients for 10 m2 and 1 m2 over h/d."""
    rows = rows_of("table_7_1.csv")
    return tuple(
        (zone, *_columns([row for row in rows if row["zone"] == zone], "h_over_d")) for zone in "ABCDE"
    )


def correlation_factor(*, height_m: float, depth_m: float) -> float:
    """Factor for the lack of correlation between windward and leeward wall, for the push on the whole building.

    Parameters
    ----------
    height_m
        h: height of the building [m].
    depth_m
        d: its length along the wind [m].

    Returns
    -------
    float
        Factor [-]: 0.85 up to h/d = 1, 1.0 from h/d = 5, straight between.

    Raises
    ------
    OutsideScope
        The building has no depth.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2(3); second-hand, read in a public implementation.

    Examples
    --------
    >>> round(correlation_factor(height_m=6.0, depth_m=3.0), 4)
    0.8875
    """
    require_within("depth_m", depth_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, 7.2.2")
    slender = min(max(height_m / depth_m, 1.0), 5.0)
    return 0.85 + 0.15 * (slender - 1.0) / 4.0


def internal_pressure_dominant(*, cpe_at_opening: float, factor: float) -> float:
    """Internal pressure coefficient when one face has most of the openings.

    Parameters
    ----------
    cpe_at_opening
        External coefficient [-] of the zone in which the openings lie.
    factor
        Share of it that gets in [-], from the standard or the annex: depends on how much the face dominates. It
        has no default here, because the two values of the standard were only remembered.

    Returns
    -------
    float
        c_pi [-].

    Raises
    ------
    OutsideScope
        The factor is not between 0 and 1.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.9(5), expressions 7.1 and 7.2.

    Examples
    --------
    >>> round(internal_pressure_dominant(cpe_at_opening=0.7, factor=0.75), 3)
    0.525
    """
    require_within("dominant_factor", factor, 0.0, 1.0, source="EN 1991-1-4, 7.2.9(5)")
    return factor * cpe_at_opening


def net_pressure_kn_m2(peak_kn_m2: float, *, c_pe: float, c_pi: float = 0.0) -> float:
    """Net pressure on a surface: outside less inside.

    Parameters
    ----------
    peak_kn_m2
        q_p, peak velocity pressure [kN/m2].
    c_pe, c_pi
        External and internal coefficient [-]. Under an overhang the wall's coefficient takes the place of c_pi.
        A net coefficient of Table 7.6 stands alone: it already holds both faces.

    Returns
    -------
    float
        w [kN/m2] at right angles to the surface; negative lifts.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.2(3), expressions 5.1 and 5.2.

    Examples
    --------
    >>> round(net_pressure_kn_m2(0.75, c_pe=-0.7, c_pi=0.2), 3)
    -0.675
    """
    return peak_kn_m2 * (c_pe - c_pi)


def overhang_net_kn_m2(peak_kn_m2: float, *, roof_cpe: float, wall_cpe: float) -> float:
    """Net pressure on a roof overhang: the zone of the roof above, the pressure of the wall below.

    Parameters
    ----------
    peak_kn_m2
        q_p, peak velocity pressure [kN/m2].
    roof_cpe, wall_cpe
        External coefficient [-] of the roof zone on top and of the adjoining wall zone underneath.

    Returns
    -------
    float
        w [kN/m2]; negative lifts.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(3); second-hand, read in words.

    Examples
    --------
    >>> round(overhang_net_kn_m2(0.6, roof_cpe=-2.5, wall_cpe=0.8), 3)
    -1.98
    """
    return net_pressure_kn_m2(peak_kn_m2, c_pe=roof_cpe, c_pi=wall_cpe)


def friction_coefficient(surface: str) -> float:
    """Friction coefficient of wind along a surface.

    Parameters
    ----------
    surface
        "smooth", "rough" or "ribbed".

    Returns
    -------
    float
        c_fr [-].

    Raises
    ------
    InputError
        There is no such surface.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, Table 7.10.

    Examples
    --------
    >>> friction_coefficient("ribbed")
    0.04
    """
    known = {row["surface"]: float(row["c_fr"]) for row in rows_of("surface_friction.csv")}
    if surface not in known:
        raise InputError.of("surface", surface, f"expected one of {', '.join(known)}")
    return known[surface]


def friction_counts(*, parallel_m2: float, square_m2: float) -> bool:
    """Whether the drag of the wind along a building has to be counted.

    Parameters
    ----------
    parallel_m2, square_m2
        Area of all outside surfaces along the wind, and of those square to it, windward and leeward [m2].

    Returns
    -------
    bool
        True where the first is more than four times the second.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.3(4); RFCS handbook Steel Buildings in Europe, Part 3, App. B, sheet 3-53.

    Examples
    --------
    >>> friction_counts(parallel_m2=2700.0, square_m2=448.0)
    True
    """
    return parallel_m2 > 4.0 * square_m2


def friction_area_m2(*, along_m: float, girth_m: float, crosswind_m: float, height_m: float) -> float:
    """Part of a surface parallel to the wind on which friction counts: what lies far enough behind its windward edge.

    Parameters
    ----------
    along_m
        Length of the surface along the wind [m].
    girth_m
        Its breadth across the wind, measured on the surface [m].
    crosswind_m, height_m
        b and h of the building: across the wind, and its height [m].

    Returns
    -------
    float
        A_fr [m2]: beyond the lesser of 2 b and 4 h from the windward edge.

    Raises
    ------
    OutsideScope
        A length is not positive.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.5(3), Figure 7.22; RFCS handbook Steel Buildings in Europe, Part 3, 8.2.2.

    Examples
    --------
    >>> friction_area_m2(along_m=12.0, girth_m=3.1, crosswind_m=3.0, height_m=2.8)
    18.6
    """
    for place, value in (("along_m", along_m), ("girth_m", girth_m), ("height_m", height_m)):
        require_within(place, value, 0.01, 1000.0, unit="m", source="EN 1991-1-4, 7.5")
    require_within("crosswind_m", crosswind_m, 0.01, 1000.0, unit="m", source="EN 1991-1-4, 7.5")
    return max(along_m - min(2.0 * crosswind_m, 4.0 * height_m), 0.0) * girth_m


def friction_force_kn(peak_kn_m2: float, *, c_fr: float, area_m2: float) -> float:
    """Drag of wind along a surface.

    Parameters
    ----------
    peak_kn_m2
        q_p, peak velocity pressure [kN/m2].
    c_fr
        Friction coefficient [-].
    area_m2
        Area swept, both faces of a canopy [m2].

    Returns
    -------
    float
        F_fr [kN].

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.3(3), expression 5.7.

    Examples
    --------
    >>> round(friction_force_kn(0.6, c_fr=0.04, area_m2=15.0), 3)
    0.36
    """
    return c_fr * peak_kn_m2 * area_m2
