"""The bar of each rafter: base, cap, and the holes in its seat, counted from the FOOT."""

from __future__ import annotations

import math

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.setting_out.bays import Strip
from pentice.setting_out.values import Bar, BarHole, Rafter

SPACING_USUAL_MM = 400.0
"""Screws of a bar along the rafter: common practice, no source."""
END_LEAST_MM = 75.0
"""First and last screw inside the rafter's ends, with 10 d: common practice, no source."""


def hole_marks(first_mm: float, last_mm: float, step_most_mm: float) -> tuple[float, ...]:
    """Equal steps from the first to the last hole, none longer than asked.

    Parameters
    ----------
    first_mm, last_mm
        First and last hole from the foot of the bar [mm].
    step_most_mm
        Longest step [mm].

    Returns
    -------
    tuple of float
        Marks from the foot [mm]; one in the middle where there is no room for two.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    >>> [round(x, 1) for x in hole_marks(125.0, 2970.509, 400.0)]
    [125.0, 480.7, 836.4, 1192.1, 1547.8, 1903.4, 2259.1, 2614.8, 2970.5]
    """
    if last_mm <= first_mm:
        return ((first_mm + last_mm) / 2.0,)
    steps = max(1, math.ceil((last_mm - first_mm) / step_most_mm - 1e-9))
    return tuple(first_mm + (last_mm - first_mm) * i / steps for i in range(steps + 1))


def step_asked(job: Job, parts: Parts, spacing_mm: float | None = None) -> float:
    """Longest step from hole to hole [mm]: half the spacing where it counts, or may count, along one side.

    Parameters
    ----------
    job, parts
        The job and its products.
    spacing_mm
        Of a stretch with closer screws; absent: that of the job, the bar, or the usual one.

    Returns
    -------
    float
        Step between successive holes [mm].

    Source
    ------
    400 where nobody says more: common practice, no source. What the spacing is counted between must be asked;
    until it is answered the closer reading is taken.
    """
    bar = parts.bar
    spacing = spacing_mm or job.screws.spacing_mm or bar.screw_spacing_mm or SPACING_USUAL_MM
    between = job.screws.spacing_between
    if between is None and job.screws.spacing_mm is None:
        between = bar.screw_spacing_between
    return spacing if between == "successive holes" else spacing / 2.0


def stretched_marks(job: Job, parts: Parts, first_mm: float, last_mm: float) -> tuple[float, ...]:
    """Holes of a bar, in stretches of one spacing each: a hole stands where one ends and the next begins.

    Parameters
    ----------
    job, parts
        The job, with the stretches whose screws are closer, and its products.
    first_mm, last_mm
        First and last hole from the foot of the bar [mm].

    Returns
    -------
    tuple of float
        Marks from the foot [mm]; no two further apart than their stretch allows.

    Source
    ------
    Common practice, no source.
    """
    stretches: list[tuple[float, float, float | None]] = []
    start = first_mm
    for end, spacing in (*job.screws.closer_mm, (math.inf, None)):
        stop = min(end, last_mm)
        if stop > start:
            stretches.append((start, stop, spacing))
            start = stop
    if not stretches:
        return hole_marks(first_mm, last_mm, step_asked(job, parts))
    marks = [first_mm]
    for start, stop, spacing in stretches:
        marks += hole_marks(start, stop, step_asked(job, parts, spacing))[1:]
    return tuple(marks)


def set_out_bars(
    job: Job, shape: RoofShape, parts: Parts, rafters: tuple[Rafter, ...], strips: tuple[Strip, ...]
) -> tuple[Bar, ...]:
    """The bars of a roof, one for each rafter that carries one.

    Parameters
    ----------
    job, shape, parts
        The job, its geometry and its products.
    rafters, strips
        Rafters and bays from the left.

    Returns
    -------
    tuple of Bar
        Lengths and marks [mm]. A bar takes the least depth over its seat.
    """
    asked = step_asked(job, parts)
    end = max(10.0 * parts.screw.d_mm, END_LEAST_MM)
    bars = []
    for i, rafter in enumerate(rafters):
        if not rafter.has_bar:
            continue
        slope = _slope_at(shape, parts, rafter, strips[max(i - 1, 0) : i + 1])
        base = slope + shape.overhang_mm - parts.head_profile.back_mm
        if job.glazing.head == "continuous":
            base -= parts.head_profile.arm_mm
        last = min(shape.overhang_mm + slope - end, base - 2.0 * parts.screw.d_mm)
        # A bar that carries by itself is held at its two ends, by what its supplier sells for that.
        marks = () if parts.bar.carries else stretched_marks(job, parts, shape.overhang_mm + end, last)
        bars.append(
            Bar(
                id=f"R{rafter.number}",
                rafter=rafter.number,
                base_mm=base,
                cap_mm=base + parts.bar.cap_allowance_mm - parts.bar.cap_cut_back_mm,
                holes=tuple(BarHole(at_mm=at, side="L" if k % 2 == 0 else "R") for k, at in enumerate(marks)),
                asked_mm=asked,
            )
        )
    return tuple(bars)


def _slope_at(shape: RoofShape, parts: Parts, rafter: Rafter, beside: tuple[Strip, ...]) -> float:
    """Slope length at a bar [mm]: the least over its seat, or of the measured bays beside it."""
    measured = [s.slope_mm[0] for s in beside if s.length_measured]
    if measured:
        return min(measured)
    half = parts.bar.seat_mm / 2.0
    left = min(rafter.centre_head_mm, rafter.centre_foot_mm) - half
    right = max(rafter.centre_head_mm, rafter.centre_foot_mm) + half
    return shape.projection_between(left, right)[0] / shape.cos_pitch
