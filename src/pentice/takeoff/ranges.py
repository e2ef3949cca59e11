"""Between which sizes of its bay a sheet still serves: room on the hottest day, hold on the coldest, its load table."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.catalogue.sheets import Sheet
from pentice.checks.fit import bite_needed_mm
from pentice.checks.sheet_table import span_ends_mm
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.mechanics.movement import WIDTH_ROOM_LEAST_MM, cover_needed_mm, movement_mm
from pentice.setting_out.values import Bay, Temperatures

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ServingRange:
    """Sizes of the bay between which an uncut sheet serves; None in a direction in which it is cut [mm]."""

    bay: int
    between_stems_mm: Range | None
    projection_mm: Range | None

    @property
    def says(self) -> str:
        """The two ranges in a sentence, rounded inward to the mm; nothing where the sheet is cut both ways."""
        told = []
        if self.between_stems_mm is not None:
            told.append(f"{_inward(self.between_stems_mm)} between the stems")
        if self.projection_mm is not None:
            told.append(f"{_inward(self.projection_mm)} of projection")
        return f"Uncut it serves a bay of {' and '.join(told)}." if told else ""


def _inward(range_mm: Range) -> str:
    low, high = math.ceil(range_mm[0] - 1e-6), math.floor(range_mm[1] + 1e-6)
    return f"{low} to {high} mm" if low <= high else f"exactly {range_mm[0]:.1f} mm"


def serving_range(job: Job, shape: RoofShape, sheet: Sheet, temps: Temperatures, bay: Bay) -> ServingRange:
    """Width and projection of the bay between which its uncut sheet needs no saw.

    Parameters
    ----------
    job, shape
        Gaps that stay on the hottest day, the pitch.
    sheet
        The product, for what its load table asks for.
    temps
        Sheet temperatures.
    bay
        The bay as it is set out.

    Returns
    -------
    ServingRange
        Least from the hottest day, greatest from the coldest (bite at the sides, lap at the head) [mm].
    """
    width = between_stems_served(job, sheet, temps, bay) if bay.width_mm.uncut else None
    projection = _projection_range(job, shape, temps, bay) if bay.length_mm.uncut else None
    return ServingRange(bay=bay.number, between_stems_mm=width, projection_mm=projection)


def between_stems_served(job: Job, sheet: Sheet, temps: Temperatures, bay: Bay) -> Range | None:
    """Between the stems: at the tightest at least, at the widest at most, for the bay's sheet to serve as it is cut.

    Parameters
    ----------
    job
        Gaps that stay on the hottest day, purlins.
    sheet
        The product: its load table asks for an edge cover, and ends at some span.
    temps
        Sheet temperatures.
    bay
        The bay as it is set out.

    Returns
    -------
    tuple or None
        Least and greatest [mm]; None where no width between the stems would do.

    Source
    ------
    The windows of setting-out turned round. A table's load holds only with its edge cover: as fitted with the sheet
    in the middle of its bay, at least on the coldest day, pushed to the other side. It holds up to its widest row.

    Notes
    -----
    Whether the table still carries the load of the place at the wider span is for the checks to say.
    """
    ends = (_room(job, temps, bay), _hold(temps, bay), _cover(sheet, temps, bay), *_spans(job, sheet, bay))
    least, most = max(low for low, _ in ends), min(high for _, high in ends)
    return (least, most) if least <= most else None


def _room(job: Job, temps: Temperatures, bay: Bay) -> Range:
    """Room to grow until the hottest day; a side gap that was asked for stays."""
    width, own = bay.width_mm.cut, job.glazing.gap_mm
    growth = movement_mm(width, temps.alpha_per_k, temps.most_c - temps.fit_c)
    asked = WIDTH_ROOM_LEAST_MM if own is None else 2.0 * own
    return width + max(asked, growth + 2.0 * job.glazing.gap_residual_mm[0]), math.inf


def _hold(temps: Temperatures, bay: Bay) -> Range:
    """What an edge can give away before its bite is less than the rule or its first rib asks for."""
    spare = min(edge.depth_mm - bite_needed_mm(edge) for edge in (bay.edges.left, bay.edges.right))
    return 0.0, _cold_width(temps, bay) + spare


def _cover(sheet: Sheet, temps: Temperatures, bay: Bay) -> Range:
    table = sheet.load_table
    if table is None or table.edge_cover_mm is None:
        return 0.0, math.inf
    spare = min(edge.depth_mm for edge in (bay.edges.left, bay.edges.right)) - table.edge_cover_mm
    if table.edge_cover_is == "as fitted":
        return 0.0, bay.width_mm.cut + 2.0 * spare
    return 0.0, _cold_width(temps, bay) + spare


def _cold_width(temps: Temperatures, bay: Bay) -> float:
    """The sheet on the coldest day [mm]."""
    width = bay.width_mm.cut
    return width - movement_mm(width, temps.alpha_per_k, temps.fit_c - temps.least_c)


def _spans(job: Job, sheet: Sheet, bay: Bay) -> tuple[Range, ...]:
    """The first and the last span of the load table, for each sign that the table tells of this bay as drawn."""
    table = sheet.load_table
    if table is None:
        return ()
    span = bay.daylight_mm if table.span_is == "clear" else bay.centres_mm
    wider = bay.between_stems_mm.greatest - span
    purlins = bool(job.frame.purlins_at_mm)
    ends = (span_ends_mm(table, sign="down", purlins=purlins), span_ends_mm(table, sign="up", purlins=False))
    return tuple((e[0] + wider, e[1] + wider) for e in ends if e is not None and e[0] <= span <= e[1])


def _projection_range(job: Job, shape: RoofShape, temps: Temperatures, bay: Bay) -> Range:
    length, head = bay.length_mm.cut, bay.edges.head
    hot, cold = temps.most_c - temps.fit_c, temps.fit_c - temps.least_c
    least_gap = length * temps.alpha_per_k * hot + job.glazing.gap_residual_mm[1]
    most_gap = head.depth_mm - cover_needed_mm(0.0, length, temps.alpha_per_k, cold)
    # head.gap_mm belongs to the greatest projection of the bay: a gap more or less is a projection more or less
    at = bay.projection_mm[1]
    return at + (least_gap - head.gap_mm) * shape.cos_pitch, at + (most_gap - head.gap_mm) * shape.cos_pitch
