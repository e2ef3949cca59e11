"""The setting-out stage: a job and its products to true sizes."""

from __future__ import annotations

import math
from collections.abc import Mapping

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.setting_out.bars import set_out_bars
from pentice.setting_out.bays import strips
from pentice.setting_out.rafters import set_out_rafters, support_mm
from pentice.setting_out.sheets import fit_sheet
from pentice.setting_out.side_sheets import fit_side_sheets
from pentice.setting_out.temperatures import sheet_temperatures
from pentice.setting_out.values import CutSheet, Plane, SettingOut
from pentice.working import Step


def set_out(
    job: Job, shape: RoofShape, parts: Parts, as_cut: Mapping[int, CutSheet] | None = None
) -> SettingOut:
    """True sizes of the whole roof: rafters, bays with their sheets, bars with their holes.

    Parameters
    ----------
    job
        A job whose blanks are filled.
    shape
        Its plain geometry.
    parts
        Its products.
    as_cut
        Sheets of bays, by number, and of sides, by `side_key`, that a cutting plan has settled; the others get what
        would be cut for them.

    Returns
    -------
    SettingOut
        One plane in its own frame; lengths [mm].

    Raises
    ------
    InputError
        Sizes that the job names do not go together.

    Source
    ------
    Geometry and movement with temperature; practice is marked in each bay's working.
    """
    rafters = set_out_rafters(job, parts)
    temps = sheet_temperatures(job, parts)
    bays_found = strips(job, shape, parts, rafters)
    cut = as_cut or {}
    depth = shape.projection_between(0.0, shape.width_mm)[0]
    slope = depth / shape.cos_pitch
    bottom = slope + shape.overhang_mm
    plane = Plane(
        id="P1",
        pitch_deg=shape.pitch_deg,
        origin_mm=(0.0, 0.0, shape.head_height_mm or 0.0),
        slope_length_mm=slope,
        outline_mm=((0.0, 0.0), (shape.width_mm, 0.0), (shape.width_mm, bottom), (0.0, bottom)),
        rafters=rafters,
        bays=tuple(fit_sheet(job, shape, parts, temps, strip, cut.get(strip.number)) for strip in bays_found),
        bars=set_out_bars(job, shape, parts, rafters, bays_found),
    )
    return SettingOut(
        planes=(plane,),
        temperatures=temps,
        diagonals_mm=math.hypot(shape.width_mm, depth),
        diagonals_slope_mm=math.hypot(shape.width_mm, slope),
        head_height_mm=shape.head_height_mm,
        eaves_height_mm=shape.eaves_height_mm,
        clear_height_mm=_clear_height(job, shape, parts),
        drip_mm=shape.overhang_level_mm,
        side_sheets=fit_side_sheets(job, parts, temps, cut),
        working=_working(shape, slope, depth, len(plane.bays), job, rafters[0].width_mm),
    )


def _clear_height(job: Job, shape: RoofShape, parts: Parts) -> float | None:
    """Under the beam [mm]: the roof line over it, less what stands of the rafter upright, less the beam."""
    frame, size = job.frame, support_mm(job, parts)
    if shape.eaves_height_mm is None or size is None or frame.beam_mm is None:
        return None
    ground = max(frame.post_feet_mm, default=0.0)
    over = size[1] - frame.rafter_notch_mm
    return shape.eaves_height_mm - over / shape.cos_pitch - frame.beam_mm[1] - ground


def _working(
    shape: RoofShape, slope: float, depth: float, bays: int, job: Job, rafter: float
) -> tuple[Step, ...]:
    steps = [
        Step(
            says="Slope length",
            formula="P / cos(pitch)",
            numbers=f"{depth:.1f} / cos({shape.pitch_deg:.2f})",
            result=slope,
            unit="mm",
            clause="geometry",
        ),
        Step(
            says="Diagonals, level",
            formula="sqrt(width^2 + P^2)",
            numbers=f"sqrt({shape.width_mm:g}^2 + {depth:.1f}^2)",
            result=math.hypot(shape.width_mm, depth),
            unit="mm",
            clause="geometry",
        ),
    ]
    if job.frame.rafter_centres_mm is None and job.frame.end_bay_mm == (None, None):
        centres = Step(
            says="Centres",
            formula="c = (width - rafter) / bays",
            numbers=f"({shape.width_mm:g} - {rafter:g}) / {bays}",
            result=(shape.width_mm - rafter) / bays,
            unit="mm",
            clause="geometry",
        )
        steps.insert(0, centres)
    return tuple(steps)
