"""Loads as one sheet feels them: the worst at head, middle and foot, square to it, kept apart by kind [kN/m2]."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import Literal, NamedTuple

from pentice.loads.alike import numbers_alike
from pentice.loads.combine import Combination
from pentice.loads.lines import net_of_share
from pentice.loads.overhang import OVERHANG
from pentice.loads.values import HAIR_MM, Loads, Reach, Situation, SnowCase
from pentice.records import quickly_made
from pentice.standards.en1991_1_4_roofs import area_share

At = Literal["head", "middle", "foot"]
_SITUATIONS: tuple[Situation, ...] = ("persistent", "accidental")
PLACES: tuple[At, ...] = ("head", "middle", "foot")
NamedWind = tuple[str, float]
"""A wind in words, and its pressure [kN/m2]."""
SheetWinds = dict[tuple[str, bool], tuple[NamedWind, NamedWind] | None]
"""The least and the greatest by situation, and whether what lies beyond the beam counts too."""
SheetSnows = dict[tuple[str, At], tuple[str, float] | None]
"""The worst snow in words and square to the sheet [kN/m2], by situation and place."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class SheetArea:
    """One sheet on the roof, or the panel of it between two supports."""

    x_mm: tuple[float, float]
    y_mm: tuple[float, float]
    """On plan from the wall [mm]."""
    cos_pitch: float
    area_m2: float


class SheetLoad(NamedTuple):
    """One combination on one place of a sheet: its parts and what they are, square to the sheet [kN/m2]."""

    combination: Combination
    at: At
    dead: float
    snow: float
    wind: float
    snow_name: str = ""
    wind_name: str = ""

    @property
    def total(self) -> float:
        """Factored sum [kN/m2], down positive."""
        c = self.combination
        return c.dead * self.dead + c.snow * self.snow + c.wind * self.wind

    @property
    def is_beyond_beam(self) -> bool:
        """Does the zone of its wind lie over an overhang, with the wall's pressure below?"""
        return self.wind_name.endswith(OVERHANG)

    @property
    def words(self) -> str:
        """The case in words."""
        named = [
            n
            for n, f in ((self.snow_name, self.combination.snow), (self.wind_name, self.combination.wind))
            if n and f
        ]
        return f"{self.combination.name}: {'; '.join(named)}" if named else self.combination.name


def winds_on_sheet(loads: Loads, area: SheetArea) -> SheetWinds:
    """The worst winds on one sheet.

    Parameters
    ----------
    loads, area
        What acts on the roof, and the sheet.

    Returns
    -------
    SheetWinds
        As `winds_on_sheets`.

    Source
    ------
    As `winds_on_sheets`.
    """
    return winds_on_sheets(loads, [area])[0]


def winds_on_sheets(loads: Loads, areas: Iterable[SheetArea]) -> list[SheetWinds]:
    """The least and the greatest wind on some sheets, of every case and every zone that touches each.

    Parameters
    ----------
    loads
        What acts on the roof.
    areas
        Where each sheet lies [mm], and its loaded area [m2].

    Returns
    -------
    list of SheetWinds
        By situation, and whether the part beyond the beam counts too, where it is 100 mm or more: a shorter lip lies
        in the foot profile. Case and zone in words, and the pressure square to the sheet [kN/m2], down positive; None
        where there is no such case, or the wind is not known.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.2; the worst zone that touches a sheet loads all of it: judgement, no source.
    Under an overhang stands the wall's pressure, 7.2.1(3).
    """
    cases, alike = loads.wind.cases, numbers_alike(loads.wind.cases)
    all_of_it = [(numbers, cases[numbers[0]].sheet_zones) for numbers in alike]
    to_beam = all_of_it
    if any(zone.under_10 is not None for case in cases for zone in case.zones):
        to_beam = [(numbers, cases[numbers[0]].zones_to_the_beam) for numbers in alike]
    found = []
    for area in areas:
        whole = _worst_winds(loads, area, all_of_it)
        short = whole if to_beam is all_of_it else _worst_winds(loads, area, to_beam)
        found.append(
            {
                (situation, is_whole): of[situation]
                for situation in whole
                for is_whole, of in ((True, whole), (False, short))
            }
        )
    return found


def _worst_winds(
    loads: Loads, area: SheetArea, alike: Iterable[tuple[tuple[int, ...], Sequence[tuple[int, Reach]]]]
) -> dict[str, tuple[NamedWind, NamedWind] | None]:
    """The least and the greatest by situation, where winds alike stand with the numbers and reaches of their zones."""
    peak, cases = loads.wind.peak_pressure_kn_m2, loads.wind.cases
    if peak is None or loads.wind.refused:
        return dict.fromkeys(_SITUATIONS)
    left, right, head, foot = (
        area.x_mm[0] + HAIR_MM, area.x_mm[1] - HAIR_MM, area.y_mm[0] + HAIR_MM, area.y_mm[1] - HAIR_MM,
    )  # fmt: skip
    share, touching = area_share(area.area_m2), {}
    for numbers, zones in alike:
        over = [
            n
            for n, ((x_0, x_1), (y_0, y_1)) in zones
            if x_0 < right and left < x_1 and y_0 < foot and head < y_1
        ]
        touching.update(dict.fromkeys(numbers, over))
    worst: dict[str, tuple[NamedWind, NamedWind] | None] = {}
    for situation in _SITUATIONS:
        found = [
            (peak * net_of_share(case.zones[n], case.inside, share), case, n)
            for k, case in enumerate(cases)
            if case.situation == situation
            for n in touching[k]
        ]
        ends = (choose(found, key=itemgetter(0)) for choose in (min, max)) if found else ()
        named = [(f"{case.name}, zone {case.zones[n].name}", kn_m2) for kn_m2, case, n in ends]
        worst[situation] = (named[0], named[1]) if named else None
    return worst


def sheet_loads(loads: Loads, area: SheetArea) -> tuple[SheetLoad, ...]:
    """Every combination at head, middle and foot of a sheet, each with the worst case of its kind.

    Parameters
    ----------
    loads
        What acts on the roof.
    area
        Where the sheet lies [mm], and its loaded area [m2].

    Returns
    -------
    tuple of SheetLoad
        The head takes the drift's peak, the middle the worst anywhere on the sheet; wind is that of the worst zone
        that touches it. A combination without a case of its kind is left out. Nobody stands on a sheet: no imposed
        load.

    Source
    ------
    EN 1990 combinations; a peak is never averaged away: judgement, no source.
    """
    dead = loads.dead.sheet_kn_m2 * area.cos_pitch
    return combined_on_sheet(loads, dead, winds_on_sheet(loads, area), snows_on_sheet(loads, area))


def combined_on_sheet(
    loads: Loads, dead_kn_m2: float, winds: SheetWinds, snows: SheetSnows
) -> tuple[SheetLoad, ...]:
    """The same where the worst of each kind is at hand: few kinds, many combinations.

    Parameters
    ----------
    loads
        What acts on the roof.
    dead_kn_m2
        Weight, square to the sheet [kN/m2].
    winds, snows
        As `winds_on_sheet` and `snows_on_sheet` give them.

    Returns
    -------
    tuple of SheetLoad
        As `sheet_loads`.

    Source
    ------
    As `sheet_loads`.
    """
    found = []
    for combination in loads.combinations:
        if combination.imposed:
            continue
        situation = "accidental" if combination.wind_accidental else "persistent"
        of_snow = "accidental" if combination.snow_accidental else "persistent"
        beyond, to_beam = (_worst_wind(winds[situation, whole], combination) for whole in (True, False))
        for at in PLACES:
            wind, snow = beyond if at == "foot" else to_beam, snows[of_snow, at]
            if (combination.wind and wind is None) or (combination.snow and snow is None):
                continue
            snow_name, snow_kn_m2 = snow or ("", 0.0)
            wind_name, wind_kn_m2 = wind or ("", 0.0)
            parts = (snow_kn_m2 if combination.snow else 0.0, wind_kn_m2)
            found.append(SheetLoad(combination, at, dead_kn_m2, *parts, snow_name, wind_name))
    return tuple(found)


def snows_on_sheet(loads: Loads, area: SheetArea) -> SheetSnows:
    """The worst snow on each place of a sheet.

    Parameters
    ----------
    loads, area
        As `sheet_loads`.

    Returns
    -------
    SheetSnows
        By situation and place; None where there is no such case.

    Source
    ------
    As `sheet_loads`.
    """
    found: SheetSnows = {}
    for situation in _SITUATIONS:
        each = [(c.name, _snow_on(c, area)) for c in loads.snow.cases if c.situation == situation]
        for at in PLACES:
            named = ((name, of[at] * area.cos_pitch**2) for name, of in each)
            found[situation, at] = max(named, key=itemgetter(1), default=None)
    return found


def _snow_on(case: SnowCase, area: SheetArea) -> dict[At, float]:
    """The greatest load on each end of a sheet, and anywhere on it [kN/m2 of plan]: at a corner or at a bend."""
    start, end = area.x_mm if case.along == "x" else area.y_mm
    bends = [kn_m2 for place, kn_m2 in case.points if start < place < end]
    if case.along == "x":
        return dict.fromkeys(PLACES, max(case.at(start, 0.0), case.at(end, 0.0), *bends))
    head, foot = case.at(0.0, start), case.at(0.0, end)
    return {"head": head, "middle": max(head, foot, *bends), "foot": foot}


def _worst_wind(winds: tuple[NamedWind, NamedWind] | None, c: Combination) -> NamedWind | None:
    if not c.wind or winds is None:
        return None
    upward = c.wind_sense == "up"
    found = winds[0] if upward else winds[1]
    if upward != (found[1] < 0.0):
        return None if upward or c.wind_accidental else ("no wind down here", 0.0)
    return found
