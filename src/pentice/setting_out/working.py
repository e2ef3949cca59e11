"""The working of one bay: how its sheet's sizes follow, line by line."""

from __future__ import annotations

from dataclasses import dataclass

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.mechanics.movement import BITE_LEAST_MM, least_width_mm
from pentice.setting_out.bays import Strip
from pentice.setting_out.values import Edges, Temperatures, Window
from pentice.working import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """What was found for one bay."""

    width: Window
    length: Window
    edges: Edges
    raw_mm: tuple[float, float]
    """Room along the flutes at its shortest and its longest [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What every bay shares: the job, its geometry and its products."""

    job: Job
    shape: RoofShape
    parts: Parts


def bay_working(sizes: Sizes, strip: Strip, temps: Temperatures, ground: Ground) -> tuple[Step, ...]:
    """Six lines: most and least width, gap, room along the flutes, most length, gap at the head.

    Parameters
    ----------
    sizes
        What was found [mm].
    strip
        What the bay offers [mm].
    temps
        Sheet temperatures.
    ground
        What every bay shares.

    Returns
    -------
    tuple of Step
        In the order of the arithmetic.
    """
    return (*_across(sizes, strip, temps, ground), *_along(sizes, strip, temps, ground))


def _across(sizes: Sizes, strip: Strip, temps: Temperatures, ground: Ground) -> tuple[Step, ...]:
    rise, a = temps.most_c - temps.fit_c, temps.alpha_per_k
    between, edges, own_gap = strip.between, sizes.edges, ground.job.glazing.gap_mm
    left = ground.job.glazing.gap_residual_mm[0]
    if own_gap is None:
        formula = "W = floor(min((D - 2 g) / (1 + a dT), D - 6))"
        thermal = f"({between.least:.1f} - 2 x {left:g}) / (1 + {a:.3g} x {rise:g})"
        numbers = f"floor(min({thermal}, {between.least:.1f} - 6))"
    else:
        formula, numbers = "W = floor(D - 2 g)", f"floor({between.least:.1f} - 2 x {own_gap:g})"
    return (
        Step(
            says="Most width",
            formula=formula,
            numbers=numbers,
            result=sizes.width.most,
            unit="mm",
            clause="movement; 3 a side is common practice, no source",
        ),
        _least_width(sizes, strip, temps, ground),
        Step(
            says="Gap at each side",
            formula="g = (D - W) / 2",
            numbers=f"({between.least:.1f} - {sizes.width.cut:g}) / 2",
            result=edges.left.gap_mm,
            unit="mm",
            clause="geometry",
        ),
    )


def _least_width(sizes: Sizes, strip: Strip, temps: Temperatures, ground: Ground) -> Step:
    """The bite of 10, or the edge cover of the load table where that asks for more."""
    fall, a, between = temps.fit_c - temps.least_c, temps.alpha_per_k, strip.between.greatest
    depth = min(sizes.edges.left.depth_mm, sizes.edges.right.depth_mm)
    table = ground.parts.sheet.load_table
    by_bite = least_width_mm(between, depth, BITE_LEAST_MM, a, fall)
    formula = "W = ceil((D - r + 10) / (1 - a dT))"
    numbers = f"ceil(({between:.1f} - {depth:g} + 10) / (1 - {a:.3g} x {fall:g}))"
    clause = "movement; bite 10 is judgement, no source"
    if sizes.width.least > by_bite and table is not None and table.edge_cover_mm is not None:
        cover, clause = table.edge_cover_mm, "movement; the load table's edge cover"
        if table.edge_cover_is == "as fitted":
            formula, numbers = (
                "W = ceil(D - 2 (r - cover))",
                f"ceil({between:.1f} - 2 x ({depth:g} - {cover:g}))",
            )
        else:
            formula = "W = ceil((D - r + cover) / (1 - a dT))"
            numbers = f"ceil(({between:.1f} - {depth:g} + {cover:g}) / (1 - {a:.3g} x {fall:g}))"
    return Step(
        says="Least width",
        formula=formula,
        numbers=numbers,
        result=sizes.width.least,
        unit="mm",
        clause=clause,
    )


def _along(sizes: Sizes, strip: Strip, temps: Temperatures, ground: Ground) -> tuple[Step, ...]:
    rise, a, shape = temps.most_c - temps.fit_c, temps.alpha_per_k, ground.shape
    foot, head = ground.parts.foot_profile, ground.parts.head_profile
    slope = f"{strip.projection_mm[0]:.1f} / cos({shape.pitch_deg:.2f}°)"
    takes = f"{shape.overhang_mm:g} - {foot.back_mm:g} - {foot.drain_gap_mm:g} - {head.back_mm:g}"
    left = ground.job.glazing.gap_residual_mm[1]
    return (
        Step(
            says="Room along the flutes",
            formula="raw = P / cos(pitch) + o - foot back - drain gap - head back",
            numbers=f"{slope} + {takes}",
            result=sizes.raw_mm[0],
            unit="mm",
            clause="geometry",
        ),
        Step(
            says="Most length",
            formula="L = floor((raw - g) / (1 + a dT))",
            numbers=f"floor(({sizes.raw_mm[0]:.1f} - {left:g}) / (1 + {a:.3g} x {rise:g}))",
            result=sizes.length.most,
            unit="mm",
            clause="movement",
        ),
        Step(
            says="Gap at the head",
            formula="raw - L",
            numbers=f"{sizes.raw_mm[1]:.1f} - {sizes.length.cut:g}",
            result=sizes.edges.head.gap_mm,
            unit="mm",
            clause="geometry",
        ),
    )
