"""Where each sheet lies, what it spans, and which loads come to it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.ground import Ground, snow_refusal
from pentice.loads.on_sheet import SheetArea, SheetLoad, SheetWinds, sheet_loads, winds_on_sheet
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
    panels, area = _panels(ground, bay), sheet_area(ground, bay)
    found = sheet_loads(ground.loads, area, ground.once(winds_on_sheets)[bay.number])
    wind = ground.loads.wind.refused
    return LoadedSheet(
        bay=bay,
        daylight_mm=bay.daylight_mm,
        centres_mm=bay.centres_mm,
        panels_mm=panels,
        down=tuple(load for load in found if load.combination.wind_sense != "up"),
        # Where no overhang is lifted more, head and foot are lifted as the middle is: it stands for them.
        up=tuple(
            load
            for load in found
            if load.combination.wind_sense == "up" and (load.at == "middle" or load.is_beyond_beam)
        ),
        refused_down=snow_refusal(ground.loads.snow, area.x_mm, area.y_mm) or wind,
        refused_up=wind,
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
    As `pentice.loads.on_sheet.worst_winds`.
    """
    bays = ground.setting_out.plane.bays
    return {bay.number: winds_on_sheet(ground.loads, sheet_area(ground, bay)) for bay in bays}


def _panels(ground: Ground, bay: Bay) -> tuple[float, ...]:
    """Lengths along the slope between the head, the purlins and the beam."""
    purlins = ground.job.frame.purlins_at_mm
    if not purlins:
        return ()
    foot = bay.projection_mm[1] / ground.shape.cos_pitch
    places = [0.0, *(p for p in purlins if p < foot), foot]
    return tuple(b - a for a, b in pairwise(places))
