"""Sheets that close a side below the roof: cut sizes from the opening, room to grow, bites on the coldest day."""

from __future__ import annotations

from pentice.catalogue.parts import Parts
from pentice.job.model import Job, SideSheet
from pentice.mechanics.movement import cold_bite_mm, most_length_mm, most_width_mm, movement_mm
from pentice.setting_out.values import SideFit, Temperatures
from pentice.working import Step


def fit_side_sheets(job: Job, parts: Parts, temps: Temperatures) -> tuple[SideFit, ...]:
    """What each side sheet is cut to, so that it has room on the hottest day.

    Parameters
    ----------
    job, parts
        The openings, and the profile that holds the sheets all round: the roof's foot profile.
    temps
        Sheet temperatures.

    Returns
    -------
    tuple of SideFit
        In the order of the job, numbered from 1. Both heights lose the same, so the head keeps its slope.

    Source
    ------
    Movement with temperature; 3 a side is common practice, no source.

    Examples
    --------
    >>> from types import SimpleNamespace as Made
    >>> sheet = SideSheet(side="left", width_mm=800, left_mm=2000, right_mm=2100)
    >>> foot = Made(id="foot-16", back_mm=2.0, arm_mm=30.0, drain_gap_mm=3.0)
    >>> temps = Temperatures(least_c=-10.0, fit_c=12.0, most_c=60.0, alpha_per_k=70e-6)
    >>> (fit,) = fit_side_sheets(Job(side_sheets=(sheet,)), Made(foot_profile=foot), temps)
    >>> fit.width_mm, fit.left_mm, fit.right_mm, round(fit.bite_side_cold_mm, 2), round(fit.bite_head_cold_mm, 2)
    (790, 1983, 2083, 22.78, 16.79)
    """
    return tuple(_fit(job, parts, temps, number, sheet) for number, sheet in enumerate(job.side_sheets, 1))


def _fit(job: Job, parts: Parts, temps: Temperatures, number: int, sheet: SideSheet) -> SideFit:
    profile, alpha = parts.foot_profile, temps.alpha_per_k
    rise, fall = temps.most_c - temps.fit_c, temps.fit_c - temps.least_c
    side_left, head_left = job.glazing.gap_residual_mm
    between = sheet.width_mm - 2.0 * profile.back_mm
    takes = 2.0 * profile.back_mm + profile.drain_gap_mm
    shorter, longer = sorted((sheet.left_mm, sheet.right_mm))
    width = most_width_mm(between, side_left, alpha, rise)
    raw = longer - takes
    length = most_length_mm(raw, head_left, alpha, rise)
    short = int(shorter - longer + length)
    gap = raw - length
    left, right = (length, short) if sheet.left_mm >= sheet.right_mm else (short, length)
    return SideFit(
        number=number,
        side=sheet.side,
        opening_mm=(sheet.width_mm, sheet.left_mm, sheet.right_mm),
        width_mm=width,
        left_mm=left,
        right_mm=right,
        arm_mm=profile.arm_mm,
        gap_head_mm=gap,
        bite_side_cold_mm=cold_bite_mm(between, profile.arm_mm, width, alpha, fall),
        bite_head_cold_mm=profile.arm_mm - (shorter - takes - short) - movement_mm(length, alpha, fall),
        working=(
            Step(
                says="Most width",
                formula="W = floor(min((D - 2 g) / (1 + a dT), D - 6)), D = opening - 2 backs",
                numbers=f"floor(min(({between:.1f} - 2 x {side_left:g}) / (1 + {alpha:.3g} x {rise:g}), "
                f"{between:.1f} - 6))",
                result=width,
                unit="mm",
                clause="movement; 3 a side is common practice, no source",
            ),
            Step(
                says="Most length, on the longer side",
                formula="L = floor((opening - 2 backs - drain gap - g) / (1 + a dT))",
                numbers=f"floor(({longer:.1f} - {takes:g} - {head_left:g}) / (1 + {alpha:.3g} x {rise:g}))",
                result=length,
                unit="mm",
                clause="movement",
            ),
        ),
    )
