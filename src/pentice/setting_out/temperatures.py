"""Sheet temperatures: coldest, when it is cut, hottest."""

from __future__ import annotations

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.setting_out.values import Temperatures
from pentice.standards.en1991_1_5 import hottest_face_c

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
    Hottest sheet 60, or 75 when dark or enclosed, and 5 K below the coldest air: judgement, from heat balance. Where
    the job says how much of the sun the sheet keeps, EN 1991-1-5:2003, Table 5.2, where that is hotter. In winter that
    table takes the coldest air itself, from memory: under a clear sky a sheet is colder, so 5 K are on the safe side.
    """
    g = job.glazing
    measured = job.measured.sheet_temperature_c
    read = measured if measured is not None else g.sheet_temperature_c
    fit = read if read is not None else (g.sheet_fit_c if g.sheet_fit_c is not None else FIT_TYPICAL_C)
    most, most_is = (g.sheet_most_c, "given") if g.sheet_most_c is not None else _hottest(job, parts)
    return Temperatures(
        least_c=g.sheet_least_c if g.sheet_least_c is not None else job.site.air_min_c - CLEAR_SKY_K,
        least_is="given" if g.sheet_least_c is not None else _coldest_is(job),
        fit_c=fit,
        most_c=most,
        most_is=most_is,
        alpha_per_k=parts.sheet.alpha_per_k,
        fit_measured=read is not None,
    )


def _coldest_is(job: Job) -> str:
    air, less = job.site.air_min_c, CLEAR_SKY_K
    return f"air {air:g} less {less:g} for a clear sky, judgement; EN 1991-1-5, Table 5.2, the air itself, from memory"


def _hottest(job: Job, parts: Parts) -> tuple[float, str]:
    """The hottest sheet that nobody gave, and where it comes from."""
    tint = parts.sheet.optics.get(parts.tint)
    hot, because = MOST_C, "judgement"
    if tint is not None and tint.sheet_most_c > hot:
        hot, because = tint.sheet_most_c, "the catalogue, for this tint"
    if parts.tint.lower() in ("bronze", "dark", "grey") or job.roof.use == "lean-to":
        hot, because = max((hot, because), (MOST_DARK_OR_ENCLOSED_C, "judgement, dark or enclosed"))
    kept = job.glazing.sheet_absorptivity
    if kept is not None:
        by_code = hottest_face_c(air_most_c=job.site.air_max_c, absorptivity=kept)
        if by_code > hot:
            return by_code, f"air {job.site.air_max_c:g} and sun, EN 1991-1-5, Table 5.2, from memory"
    return hot, because
