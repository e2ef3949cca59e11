"""Sheet temperatures: coldest, when it is cut, hottest."""

from __future__ import annotations

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.setting_out.values import Temperatures

FIT_TYPICAL_C = 12.0
MOST_C = 60.0
MOST_DARK_OR_ENCLOSED_C = 75.0
CLEAR_SKY_K = 5.0


def sheet_temperatures(job: Job, parts: Parts) -> Temperatures:
    """The sheet's temperatures for this job: measured before given before chosen.

    Parameters
    ----------
    job
        The job; [measured] counts before [glazing].
    parts
        Products, for the tint and the expansion.

    Returns
    -------
    Temperatures
        [degC] and [1/K].

    Source
    ------
    Hottest sheet 60, or 75 when dark or enclosed, and 5 K below the coldest air: judgement, from heat balance.
    """
    g = job.glazing
    measured = job.measured.sheet_temperature_c
    read = measured if measured is not None else g.sheet_temperature_c
    fit = read if read is not None else (g.sheet_fit_c if g.sheet_fit_c is not None else FIT_TYPICAL_C)
    tint = parts.sheet.optics.get(parts.tint)
    hot = max(MOST_C, tint.sheet_most_c) if tint is not None else MOST_C
    if parts.tint.lower() in ("bronze", "dark", "grey") or job.roof.use == "lean-to":
        hot = max(hot, MOST_DARK_OR_ENCLOSED_C)
    return Temperatures(
        least_c=g.sheet_least_c if g.sheet_least_c is not None else job.site.air_min_c - CLEAR_SKY_K,
        fit_c=fit,
        most_c=g.sheet_most_c if g.sheet_most_c is not None else hot,
        alpha_per_k=parts.sheet.alpha_per_k,
        fit_measured=read is not None,
    )
