"""The sheet of each bay: its window of width and length, what it is cut to, and how its edges are held."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from pentice.catalogue.parts import Parts
from pentice.catalogue.sheets import Sheet, StockSheet
from pentice.cutting.ribs import best_rip_offset, rib_at, ribs_hold
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.mechanics.movement import (
    BITE_LEAST_MM,
    BUTTON_DROP_MM,
    cold_bite_mm,
    cover_needed_mm,
    least_length_mm,
    least_width_mm,
    most_length_mm,
    most_width_mm,
    movement_mm,
)
from pentice.setting_out.bays import HeldBy, Strip
from pentice.setting_out.values import (
    Bay,
    BetweenStems,
    Cover,
    CutSheet,
    EdgeFit,
    Edges,
    Temperatures,
    Window,
)
from pentice.setting_out.working import Ground, Sizes, bay_working


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """Width of a sheet and where on its stock it is taken from."""

    window: Window
    stock_x_mm: float
    ribs_mm: tuple[float | None, float | None]


def sheet_stock(job: Job, parts: Parts) -> tuple[StockSheet, ...]:
    """The stock sizes of the job's sheet that may be used: of its tint, of [stock] only, that reach the site.

    Parameters
    ----------
    job, parts
        The job and its products.

    Returns
    -------
    tuple of StockSheet
        In the order of the catalogue.
    """
    only = [(s.width_mm, s.length_mm) for s in job.stock.only if s.item == parts.sheet.id]
    longest = job.stock.longest_mm or math.inf
    return tuple(
        s
        for s in parts.sheet.stock
        if s.tint in (None, parts.tint)
        and s.length_mm <= longest
        and (not only or any(w in (None, s.width_mm) and n in (None, s.length_mm) for w, n in only))
    )


def fit_sheet(
    job: Job,
    shape: RoofShape,
    parts: Parts,
    temps: Temperatures,
    strip: Strip,
    as_cut: CutSheet | None = None,
) -> Bay:
    """The bay with its sheet: window, cut size, gaps, three bites and cover.

    Parameters
    ----------
    job, shape, parts
        The job, its geometry and its products.
    temps
        Sheet temperatures.
    strip
        What the bay offers.
    as_cut
        The sheet that a cutting plan gives; absent: the sheet that would be cut for the bay.

    Returns
    -------
    Bay
        Sizes [mm]. A window whose least is above its most is a result: the sheet is cut to the most and a check fails.

    Source
    ------
    Movement with temperature; 3 a side, 10 of bite and 15 of lap are common practice or judgement, no source. A load
    table's edge cover is the supplier's.
    """
    stock = sheet_stock(job, parts)
    depths = (_depth(parts, strip.held_left), _depth(parts, strip.held_right))
    plan = _width_plan(job, parts, temps, strip, depths, stock)
    raw = tuple(s + _slope_to_raw(shape, parts) for s in strip.slope_mm)
    length = _length_window(job, parts, temps, (raw[0], raw[1]), stock)
    if as_cut is not None:
        plan = _Plan(
            window=replace(plan.window, cut=as_cut.width_mm, uncut=as_cut.uncut[0]),
            stock_x_mm=as_cut.stock_x_mm,
            ribs_mm=as_cut.ribs_mm,
        )
        length = replace(length, cut=as_cut.length_mm, uncut=as_cut.uncut[1])
    edges = _edges(parts, temps, strip, depths, plan, length, (raw[0], raw[1]))
    xs = (strip.left, strip.right)
    bottom = strip.slope_mm[1] + shape.overhang_mm
    return Bay(
        id=f"B{strip.number}",
        number=strip.number,
        outline_mm=(
            (xs[0].centre_head_mm, 0.0),
            (xs[1].centre_head_mm, 0.0),
            (xs[1].centre_foot_mm, bottom),
            (xs[0].centre_foot_mm, bottom),
        ),
        between_stems_mm=strip.between,
        daylight_mm=strip.daylight_mm,
        centres_mm=strip.centres_mm,
        projection_mm=strip.projection_mm,
        width_mm=plan.window,
        length_mm=length,
        edges=edges,
        stock_x_mm=plan.stock_x_mm,
        measured=strip.measured,
        length_measured=strip.length_measured,
        working=bay_working(
            Sizes(width=plan.window, length=length, edges=edges, raw_mm=(raw[0], raw[1])),
            strip,
            temps,
            Ground(job=job, shape=shape, parts=parts),
        ),
    )


def _depth(parts: Parts, held_by: HeldBy) -> float:
    if held_by == "bar" or parts.edge_profile is None:
        return parts.bar.rebate_mm
    return parts.edge_profile.arm_mm


def _slope_to_raw(shape: RoofShape, parts: Parts) -> float:
    """What turns the slope length into the room a sheet has along the flutes (F5)."""
    foot, head = parts.foot_profile, parts.head_profile
    return shape.overhang_mm - foot.back_mm - foot.drain_gap_mm - head.back_mm


def _width_plan(
    job: Job,
    parts: Parts,
    temps: Temperatures,
    strip: Strip,
    depths: tuple[float, float],
    stock: tuple[StockSheet, ...],
) -> _Plan:
    rise, fall = temps.most_c - temps.fit_c, temps.fit_c - temps.least_c
    own_gap = job.glazing.gap_mm
    if own_gap is None:
        most = most_width_mm(strip.between.least, job.glazing.gap_residual_mm[0], temps.alpha_per_k, rise)
    else:
        most = math.floor(strip.between.least - 2.0 * own_gap + 1e-9)
    sheet = parts.sheet
    least = least_width(sheet, temps, strip.between.greatest, min(depths), most)

    def rib_limits(width: int) -> tuple[float, float]:
        left, right = (
            cold_bite_mm(strip.between.greatest, d, width, temps.alpha_per_k, fall) - 1.0 for d in depths
        )
        return left, right

    for width in sorted({int(s.width_mm) for s in stock if least <= s.width_mm <= most}, reverse=True):
        ribs = rib_at(0, width, sheet.first_rib_mm, sheet.rib_pitch_mm)
        if ribs_hold(ribs, rib_limits(width)):
            return _Plan(
                window=Window(least=least, most=most, cut=width, uncut=True), stock_x_mm=0.0, ribs_mm=ribs
            )
    width, x, ribs = widest_held(job, parts, (least, most), measured=strip.measured, rib_limits=rib_limits)
    return _Plan(window=Window(least=least, most=most, cut=width), stock_x_mm=x, ribs_mm=ribs)


def widest_held(
    job: Job,
    parts: Parts,
    window: tuple[int, int],
    *,
    measured: bool,
    rib_limits: Callable[[int], tuple[float, float]],
) -> tuple[int, float, tuple[float, float]]:
    """The widest sheet that stock gives, ripped from it or as wide as it comes, with a rib near enough to either edge.

    Parameters
    ----------
    job, parts
        The stock, the saw's kerf, the ribs of the sheet.
    window
        Least and most width [mm].
    measured
        Whether what it fills is measured: then no reserve is ordered.
    rib_limits
        Of a width: how far the first rib may stand inside the left and the right edge [mm].

    Returns
    -------
    tuple
        Width, its left edge on the stock, and its ribs from left and right [mm]. Where no place holds, the most width
        from the edge of a sheet, left or right, whose ribs miss by less: a check fails.
    """
    sheet, kerf, (least, most) = parts.sheet, job.stock.sheet_kerf_mm, window
    reserve = 0.0 if measured else job.stock.order_reserve_mm[0]
    widths = sorted({int(s.width_mm) for s in sheet_stock(job, parts) if s.width_mm >= least + reserve})
    for width in range(most, least - 1, -1):
        for stock_width in widths:
            limits, as_it_comes = rib_limits(width), rib_at(0, width, sheet.first_rib_mm, sheet.rib_pitch_mm)
            if stock_width == width and ribs_hold(as_it_comes, limits):
                return width, 0.0, as_it_comes
            if stock_width < width + max(reserve, kerf + 2):
                continue
            x = best_rip_offset(width, stock_width, sheet.first_rib_mm, sheet.rib_pitch_mm, limits, kerf)
            if x is not None:
                return width, x, rib_at(x, width, sheet.first_rib_mm, sheet.rib_pitch_mm)
    limits, from_left = rib_limits(most), rib_at(0, most, sheet.first_rib_mm, sheet.rib_pitch_mm)
    ribs = min(
        (from_left, (from_left[1], from_left[0])),
        key=lambda at: max(a - b for a, b in zip(at, limits, strict=True)),
    )
    return most, 0.0, ribs


def least_width(sheet: Sheet, temps: Temperatures, between_mm: float, depth_mm: float, most_mm: int) -> int:
    """Least width that keeps its bite, and its load table's edge cover where a sheet can have it at all.

    Parameters
    ----------
    sheet
        The product.
    temps
        Sheet temperatures.
    between_mm
        Clear between what stands at its sides, at its widest [mm].
    depth_mm
        What can hold its edges: the smaller rebate or arm [mm].
    most_mm
        Its most width [mm].

    Returns
    -------
    int
        At the temperature of cutting [mm].

    Source
    ------
    Movement with temperature; 10 of bite is judgement, no source.
    """
    fall = temps.fit_c - temps.least_c
    bite = least_width_mm(between_mm, depth_mm, BITE_LEAST_MM, temps.alpha_per_k, fall)
    covered = math.ceil(least_width_covered_mm(sheet, temps, between_mm, depth_mm) - 1e-9)
    return max(bite, covered) if covered <= most_mm else bite


def least_width_covered_mm(sheet: Sheet, temps: Temperatures, between_mm: float, depth_mm: float) -> float:
    """Least width of a sheet at which the edge cover of its load table is still there.

    Parameters
    ----------
    sheet
        The product.
    temps
        Sheet temperatures.
    between_mm
        Clear between the stems, at its widest [mm].
    depth_mm
        What can hold its edges: the smaller rebate or arm [mm].

    Returns
    -------
    float
        At the temperature of cutting [mm]; 0 without a table or a cover.

    Source
    ------
    r - (D - W) / 2 >= cover as fitted; r - (D - W (1 - alpha dT)) >= cover at least: movement.
    """
    table = sheet.load_table
    if table is None or table.edge_cover_mm is None:
        return 0.0
    spare = depth_mm - table.edge_cover_mm
    if table.edge_cover_is == "as fitted":
        return between_mm - 2.0 * spare
    return (between_mm - spare) / (1.0 - temps.alpha_per_k * (temps.fit_c - temps.least_c))


def _length_window(
    job: Job, parts: Parts, temps: Temperatures, raw: tuple[float, float], stock: tuple[StockSheet, ...]
) -> Window:
    rise, fall = temps.most_c - temps.fit_c, temps.fit_c - temps.least_c
    most = most_length_mm(raw[0], job.glazing.gap_residual_mm[1], temps.alpha_per_k, rise)
    least = least_length_mm(raw[1], parts.head_profile.arm_mm, temps.alpha_per_k, fall)
    trim = 2.0 * parts.sheet.trim_mm
    uncut = [int(s.length_mm) for s in stock if trim == 0.0 and least <= s.length_mm <= most]
    return Window(least=least, most=most, cut=max(uncut, default=most), uncut=bool(uncut))


def _edges(
    parts: Parts,
    temps: Temperatures,
    strip: Strip,
    depths: tuple[float, float],
    plan: _Plan,
    length: Window,
    raw: tuple[float, float],
) -> Edges:
    width, foot = plan.window.cut, parts.foot_profile
    held, between = (strip.held_left, strip.held_right), strip.between
    left, right = (
        _side(by, depth, rib, between, width, temps)
        for by, depth, rib in zip(held, depths, plan.ribs_mm, strict=True)
    )
    return Edges(
        left=left,
        right=right,
        head=_head(parts.head_profile.arm_mm, raw[1], length.cut, temps),
        foot=EdgeFit(
            held_by="foot profile",
            depth_mm=foot.arm_mm,
            gap_mm=foot.drain_gap_mm,
            bite_fitted_mm=foot.arm_mm - foot.drain_gap_mm,
            bite_cold_mm=foot.arm_mm - foot.drain_gap_mm,
        ),
    )


def _side(
    held_by: str, depth: float, rib: float | None, between: BetweenStems, width: float, temps: Temperatures
) -> EdgeFit:
    fall = temps.fit_c - temps.least_c
    return EdgeFit(
        held_by=held_by,
        depth_mm=depth,
        gap_mm=(between.least - width) / 2.0,
        bite_fitted_mm=depth - (between.greatest - width) / 2.0,
        bite_cold_mm=cold_bite_mm(between.greatest, depth, width, temps.alpha_per_k, fall),
        rib_at_mm=rib,
    )


def _head(arm: float, raw: float, length: float, temps: Temperatures) -> EdgeFit:
    gap, fall = raw - length, temps.fit_c - temps.least_c
    cold_gap = gap + movement_mm(length, temps.alpha_per_k, fall) + BUTTON_DROP_MM
    needed = cover_needed_mm(gap, length, temps.alpha_per_k, fall)
    return EdgeFit(
        held_by="head profile",
        depth_mm=arm,
        gap_mm=gap,
        bite_fitted_mm=arm - gap,
        bite_cold_mm=arm - cold_gap,
        cover_mm=Cover(needed=needed, there=arm),
    )
