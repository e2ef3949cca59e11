"""How far a sheet without a load table sags: strip between bars, or a panel held on four edges."""

from __future__ import annotations

from dataclasses import dataclass

from pentice.checks.ground import Ground
from pentice.checks.values import RestsOn
from pentice.loads.on_sheet import SheetLoad
from pentice.mechanics.plate import PURLIN_FACTOR, PlateLoad, plate_extremes
from pentice.mechanics.section import Multiwall, PlateStiffness, plate_stiffness
from pentice.mechanics.strip import FREE_END_FACTOR, Sag, strip_sag


@dataclass(frozen=True, slots=True, kw_only=True)
class Stiffness:
    """Stiffness of the job's sheet, and what it rests on."""

    plate: PlateStiffness
    rests_on: tuple[RestsOn, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Creep:
    """What divides the stiffness under each kind of load [-]."""

    dead: float
    snow: float
    wind: float


def sheet_stiffness(ground: Ground) -> Stiffness | None:
    """Stiffness across the flutes, declared or from the section; None where the sheet gives neither.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    Stiffness or None
        [N m] and [N/m] per width.

    Source
    ------
    Declared values, or the section by mechanics: an estimate.
    """
    sheet = ground.parts.sheet
    from_section = None
    if sheet.skins_mm and sheet.rib_mm is not None and sheet.e_n_mm2 is not None:
        section = Multiwall(
            depth_mm=sheet.depth_mm,
            skins_mm=sheet.skins_mm,
            rib_mm=sheet.rib_mm,
            pitch_mm=sheet.rib_pitch_mm,
            e_n_mm2=sheet.e_n_mm2,
        )
        from_section = plate_stiffness(section)
    if sheet.by_n_m is not None and sheet.sy_n_m is not None:
        whole = sheet.bx_n_m is not None and sheet.b1_n_m is not None and sheet.dt_n_m is not None
        plate = PlateStiffness(
            bx_n_m=sheet.bx_n_m or sheet.by_n_m,
            by_n_m=sheet.by_n_m,
            b1_n_m=sheet.b1_n_m if whole and sheet.b1_n_m is not None else 0.0,
            dt_n_m=sheet.dt_n_m if whole and sheet.dt_n_m is not None else 0.0,
            sy_n_m=sheet.sy_n_m,
        )
        return Stiffness(plate=plate, rests_on=(ground.of_sheet("by_n_m"), ground.of_sheet("sy_n_m")))
    if from_section is None:
        return None
    inputs = (ground.of_sheet("skins_mm"), ground.of_sheet("rib_mm"), ground.of_sheet("e_n_mm2"))
    return Stiffness(plate=from_section, rests_on=inputs)


def creep_of(ground: Ground) -> tuple[Creep, tuple[RestsOn, ...]]:
    """Creep factors of the job's sheet at the site's altitude, and their marks.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple
        Factors [-] and inputs.

    Source
    ------
    The catalogue; typical unless the supplier declares them. Ageing and heat are left out: no value has a source.
    """
    high = (ground.job.site.altitude_m or 0.0) > ground.annex.snow_boundary_m
    key = "creep_snow_high" if high else "creep_snow"
    sheet = ground.parts.sheet
    creep = Creep(dead=sheet.creep_dead, snow=getattr(sheet, key), wind=sheet.creep_wind)
    return creep, (ground.of_sheet(key), ground.of_sheet("creep_dead"), ground.of_sheet("creep_wind"))


def crept_load(load: SheetLoad, creep: Creep) -> float:
    """A load as a fresh sheet would feel it: each part times its creep factor [kN/m2].

    Parameters
    ----------
    load
        One combination on one place.
    creep
        Factors [-].

    Returns
    -------
    float
        Equivalent short-term load [kN/m2], down positive.

    Source
    ------
    Linear creep: sag grows with load over (stiffness / factor).
    """
    c = load.combination
    return c.dead * load.dead * creep.dead + c.snow * load.snow * creep.snow + c.wind * load.wind * creep.wind


def strip_sag_of(
    load: SheetLoad, creep: Creep, plate: PlateStiffness, span_mm: float, *, free_end: bool
) -> Sag:
    """Sag of a strip between two bars, 25 % more at a free end.

    Parameters
    ----------
    load, creep, plate
        Load, creep factors, stiffness.
    span_mm
        Clear span between the seats [mm].
    free_end
        True at a head or foot with no timber declared under it.

    Returns
    -------
    Sag
        Bending and shear part [mm], both of the sign of the load.

    Source
    ------
    Mechanics of a strip; 25 % at a free end from a series solution (own calculation, an upper bound).
    """
    sag = strip_sag(crept_load(load, creep), span_mm, plate.by_n_m, plate.sy_n_m)
    factor = FREE_END_FACTOR if free_end else 1.0
    return Sag(bending_mm=sag.bending_mm * factor, shear_mm=sag.shear_mm * factor)


def panel_sag_mm(load_kn_m2: float, plate: PlateStiffness, *, panel_mm: float, span_mm: float) -> float:
    """Sag of a panel between two purlins, held on four edges, 5 % more for the loose bearing.

    Parameters
    ----------
    load_kn_m2
        Equivalent short-term load [kN/m2].
    plate
        Stiffness along and across the flutes.
    panel_mm
        Between supports along the flutes [mm].
    span_mm
        Clear span between the seats [mm].

    Returns
    -------
    float
        Sag [mm].

    Source
    ------
    Navier's series with shear; 5 % from a finite-element comparison (own calculation).
    """
    even = PlateLoad(head_kn_m2=load_kn_m2, foot_kn_m2=load_kn_m2)
    return PURLIN_FACTOR * plate_extremes(plate, panel_mm, span_mm, even).sag_mm
