"""Sheets that close a side below the roof: cut sizes from the opening, room to grow, bites on the coldest day, ribs.

A profile holds an upright edge by a rib in its bite, as a bar does on the roof.
"""

from __future__ import annotations

from collections.abc import Mapping

from pentice.catalogue.parts import Parts
from pentice.job.model import Job, SideSheet
from pentice.mechanics.movement import cold_bite_mm, most_length_mm, most_width_mm, movement_mm
from pentice.setting_out.sheets import least_width, widest_held
from pentice.setting_out.values import CutSheet, SideFit, Temperatures, side_key
from pentice.working import Step


def fit_side_sheets(
    job: Job, parts: Parts, temps: Temperatures, as_cut: Mapping[int, CutSheet] | None = None
) -> tuple[SideFit, ...]:
    """What each side sheet is cut to, so that it has room on the hottest day.

    Parameters
    ----------
    job, parts
        The openings, and the profile that holds the sheets all round: the roof's foot profile.
    temps
        Sheet temperatures.
    as_cut
        Sheets that a cutting plan has settled, by `side_key`; the others get what would be cut for them.

    Returns
    -------
    tuple of SideFit
        In the order of the job, numbered from 1. Both heights lose the same, so the head keeps its slope. Where a sheet
        of the most width has no rib near enough to its edges, a narrower one that has.

    Source
    ------
    Movement with temperature; 3 a side is common practice, no source.

    Examples
    --------
    >>> from types import SimpleNamespace as Made
    >>> from pentice.job.model import SideSheet
    >>> sheet = SideSheet(side="left", width_mm=800, left_mm=2000, right_mm=2100)
    >>> foot = Made(id="foot-16", back_mm=2.0, arm_mm=30.0, drain_gap_mm=3.0)
    >>> board = Made(width_mm=1050.0, length_mm=6000.0, tint=None)
    >>> walls = Made(id="s", stock=(board,), rib_pitch_mm=16.0, first_rib_mm=8.0, load_table=None)
    >>> temps = Temperatures(least_c=-10.0, fit_c=12.0, most_c=60.0, alpha_per_k=70e-6)
    >>> parts = Made(foot_profile=foot, sheet=walls, tint="clear")
    >>> (fit,) = fit_side_sheets(Job(side_sheets=(sheet,)), parts, temps)
    >>> fit.width_mm, fit.left_mm, fit.right_mm, round(fit.bite_side_cold_mm, 2), round(fit.bite_head_cold_mm, 2)
    (790, 1983, 2083, 22.78, 16.79)
    >>> fit.ribs_mm
    (4.0, 2.0)
    """
    cut = as_cut or {}
    return tuple(
        _fit(job, parts, temps, number, cut.get(side_key(number)))
        for number in range(1, len(job.side_sheets) + 1)
    )


def as_read(job: Job, number: int) -> SideSheet:
    """The opening of a side sheet as it was read on site; what was not read, as the survey has it.

    Parameters
    ----------
    job
        The openings, and its [measured].
    number
        Of the side sheet, from 1.

    Returns
    -------
    SideSheet
        [mm].

    Source
    ------
    Definition.

    Examples
    --------
    >>> from pentice.job.model import Measured
    >>> job = Job(
    ...     side_sheets=(SideSheet(side="left", width_mm=800, left_mm=2000, right_mm=2100),),
    ...     measured=Measured(side_openings_mm=((797, "-", 2104),)),
    ... )
    >>> read = as_read(job, 1)
    >>> read.width_mm, read.left_mm, read.right_mm
    (797.0, 2000.0, 2104.0)
    """
    sheet, openings = job.side_sheets[number - 1], job.measured.side_openings_mm
    if number > len(openings):
        return sheet
    keys = ("width_mm", "left_mm", "right_mm")
    read = {key: mm for key, mm in zip(keys, openings[number - 1], strict=True) if mm is not None}
    return sheet.model_copy(update=read)


def opening_measured(job: Job, number: int) -> bool:
    """Whether all three sizes of an opening were read on site or are marked as measured.

    Parameters
    ----------
    job
        The job.
    number
        Of its side sheet, from 1.

    Returns
    -------
    bool
        True where nothing needs to be ordered in reserve.
    """
    openings = job.measured.side_openings_mm
    read = openings[number - 1] if number <= len(openings) else (None, None, None)
    keys = (f"side_sheets[{number - 1}].{key}" for key in ("width_mm", "left_mm", "right_mm"))
    return all(
        mm is not None or job.mark_of(key).mark == "measured" for key, mm in zip(keys, read, strict=True)
    )


def _fit(job: Job, parts: Parts, temps: Temperatures, number: int, as_cut: CutSheet | None) -> SideFit:
    sheet = as_read(job, number)
    profile, alpha = parts.foot_profile, temps.alpha_per_k
    rise, fall = temps.most_c - temps.fit_c, temps.fit_c - temps.least_c
    side_left, head_left = job.glazing.gap_residual_mm
    between = sheet.width_mm - 2.0 * profile.back_mm
    takes = 2.0 * profile.back_mm + profile.drain_gap_mm
    shorter, longer = sorted((sheet.left_mm, sheet.right_mm))
    most = most_width_mm(between, side_left, alpha, rise)

    def bite_mm(width: int) -> float:
        return cold_bite_mm(between, profile.arm_mm, width, alpha, fall)

    width, _, ribs = widest_held(
        job,
        parts,
        (least_width(parts.sheet, temps, between, profile.arm_mm, most), most),
        measured=opening_measured(job, number),
        rib_limits=lambda width: (bite_mm(width) - 1.0, bite_mm(width) - 1.0),
    )
    if as_cut is not None:
        unknown = parts.sheet.rib_pitch_mm + 1.0
        left_rib, right_rib = (unknown if at is None else at for at in as_cut.ribs_mm)
        ribs = (left_rib, right_rib)
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
        bite_side_cold_mm=bite_mm(width),
        bite_head_cold_mm=profile.arm_mm - (shorter - takes - short) - movement_mm(length, alpha, fall),
        ribs_mm=ribs,
        working=(
            Step(
                says="Most width",
                formula="W = floor(min((D - 2 g) / (1 + a dT), D - 6)), D = opening - 2 backs",
                numbers=f"floor(min(({between:.1f} - 2 x {side_left:g}) / (1 + {alpha:.3g} x {rise:g}), "
                f"{between:.1f} - 6))",
                result=most,
                unit="mm",
                clause="movement; 3 a side is common practice, no source",
            ),
            *_narrower(most, width),
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


def _narrower(most: int, width: int) -> tuple[Step, ...]:
    """A line where the sheet is cut narrower, for its stock or its ribs."""
    if width == most:
        return ()
    return (
        Step(
            says="Width that stock gives with a rib in either bite",
            formula="most width - what is taken off",
            numbers=f"{most} - {most - width}",
            result=width,
            unit="mm",
            clause="10 mm and one rib: judgement, no source",
        ),
    )
