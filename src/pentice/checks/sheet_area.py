"""Where each sheet lies, what it spans, and which loads come to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.ground import Ground, snow_refusal
from pentice.loads.on_sheet import (
    SheetArea,
    SheetLoad,
    SheetWinds,
    combined_on_sheet,
    snows_on_sheet,
)
from pentice.loads.on_sheet import winds_on_sheets as on_sheets
from pentice.setting_out.values import Bay


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedSheet:
    """One bay's sheet with its spans and loads."""

    bay: Bay
    daylight_mm: float
    centres_mm: float
    panels_mm: tuple[float, ...]
    """Between supports along the slope, head and foot included [mm]; empty without purlins."""
    down: tuple[SheetLoad, ...]
    up: tuple[SheetLoad, ...]
    refused_down: str = ""
    refused_up: str = ""


def loaded_sheet(ground: Ground, bay: Bay) -> LoadedSheet:
    """The loads on one sheet, or the reason why there are none.

    Parameters
    ----------
    ground
        The inputs of every check.
    bay
        The bay.

    Returns
    -------
    LoadedSheet
        Loads square to the sheet [kN/m2]. Loaded area of the wind: bay width times slope length between supports.
        What lifts is that of the middle, and that of the foot where the overhang is lifted more.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(1) for the area, 7.2.1(3) for an overhang; purlins carry downward load only:
    judgement, no source.
    """
    down, up = ground.once(_loads_on_sheets)[bay.number]
    wind, area = ground.loads.wind.refused, sheet_area(ground, bay)
    return LoadedSheet(
        bay=bay,
        daylight_mm=bay.daylight_mm,
        centres_mm=bay.centres_mm,
        panels_mm=_panels(ground, bay),
        down=down,
        up=up,
        refused_down=snow_refusal(ground.loads.snow, area.x_mm, area.y_mm) or wind,
        refused_up=wind,
    )


def _loads_on_sheets(ground: Ground) -> dict[int, tuple[tuple[SheetLoad, ...], tuple[SheetLoad, ...]]]:
    """What presses and what lifts each sheet, by the number of its bay: sheets alike, to a billionth, only once."""
    loads, winds = ground.loads, ground.once(winds_on_sheets)
    dead = loads.dead.sheet_kn_m2 * ground.shape.cos_pitch
    found, different = {}, {}
    for bay in ground.setting_out.plane.bays:
        snows = snows_on_sheet(loads, sheet_area(ground, bay))
        blown = (wind for pair in winds[bay.number].values() for wind in pair or (None, None))
        key = tuple(named and (named[0], round(named[1], 9)) for named in (*blown, *snows.values()))
        if key not in different:
            different[key] = _down_and_up(combined_on_sheet(loads, dead, winds[bay.number], snows))
        found[bay.number] = different[key]
    return found


def _down_and_up(found: Sequence[SheetLoad]) -> tuple[tuple[SheetLoad, ...], tuple[SheetLoad, ...]]:
    """What presses and what lifts. Where no overhang is lifted more, the middle stands for head and foot in uplift."""
    lifting = [load for load in found if load.combination.wind_sense == "up"]
    return (
        tuple(load for load in found if load.combination.wind_sense != "up"),
        tuple(load for load in lifting if load.at == "middle" or load.is_beyond_beam),
    )


def sheet_area(ground: Ground, bay: Bay) -> SheetArea:
    """Where a sheet lies, from the wall face to its foot.

    Parameters
    ----------
    ground
        The inputs of every check.
    bay
        The bay.

    Returns
    -------
    SheetArea
        [mm], and its loaded area: bay width times slope length [m2].

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(1) for the area.
    """
    xs, slope = [x for x, _ in bay.outline_mm], bay.outline_mm[2][1]
    return SheetArea(
        x_mm=(min(xs), max(xs)),
        y_mm=(0.0, slope * ground.shape.cos_pitch),
        cos_pitch=ground.shape.cos_pitch,
        area_m2=bay.centres_mm * slope * 1e-6,
    )


def winds_on_sheets(ground: Ground) -> dict[int, SheetWinds]:
    """The worst winds on every sheet.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    dict
        By the number of the bay.

    Source
    ------
    As `pentice.loads.on_sheet.winds_on_sheets`.
    """
    bays = ground.setting_out.plane.bays
    winds = on_sheets(ground.loads, [sheet_area(ground, bay) for bay in bays])
    return {bay.number: found for bay, found in zip(bays, winds, strict=True)}


def _panels(ground: Ground, bay: Bay) -> tuple[float, ...]:
    """Lengths along the slope between the head, the purlins and the beam."""
    purlins = ground.job.frame.purlins_at_mm
    if not purlins:
        return ()
    foot = bay.projection_mm[1] / ground.shape.cos_pitch
    places = [0.0, *(p for p in purlins if p < foot), foot]
    return tuple(b - a for a, b in pairwise(places))
