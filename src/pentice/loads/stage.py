"""The loads stage: everything that acts on the roof."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.errors import InputError
from pentice.job.fields import WALLS
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.combine import combinations_of
from pentice.loads.further import accidents_with_main, service_combinations
from pentice.loads.national import author_sources
from pentice.loads.needed import missing_loads
from pentice.loads.snow import snow_on
from pentice.loads.values import Dead, Loads, Snow, Wind
from pentice.loads.weight import imposed_on
from pentice.loads.wind import wind_on
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_3 import SNOW_ON_FLAT, mu_1


def loads_on(job: Job, shape: RoofShape, annex: Annex, dead: Dead) -> Loads:
    """Snow, wind, self-weight and category H on one roof.

    Parameters
    ----------
    job, shape, annex
        The job, its geometry and the national choices.
    dead
        Self-weight, as `weights_of` gives it.

    Returns
    -------
    Loads
        Cases that name themselves. What one rule lacks refuses that rule's checks, with its reason.

    Raises
    ------
    InputError
        Something is missing without which no load can be made: every blank at once.
    OutsideScope
        The altitude is outside what the combinations are held for.

    Source
    ------
    EN 1990, EN 1991-1-1, EN 1991-1-3 and EN 1991-1-4, first generation, with the annex's choices.
    """
    missing = missing_loads(job, annex)
    if missing:
        raise InputError(missing)
    altitude = job.site.altitude_m or 0.0
    combinations = (
        *combinations_of(annex, altitude, wind_instantaneous=job.site.wind_instantaneous),
        *accidents_with_main(annex, altitude),
    )
    snow, wind = snow_on(job, shape, annex), wind_on(job, shape, annex)
    return Loads(
        annex=annex.name,
        edition=annex.title,
        snow=snow,
        wind=wind,
        dead=dead,
        imposed=imposed_on(job, shape, annex),
        combinations=combinations,
        service=service_combinations(annex, altitude),
        notes=(*_national_notes(job, annex, snow), *_notes(job, shape, snow, wind)),
    )


def _national_notes(job: Job, annex: Annex, snow: Snow) -> Iterator[str]:
    if annex.name == "EN":
        yield "Recommended values of the Eurocodes, not those of a country: ask which annex applies."
    if annex.exceptional_drifts and any(case.situation == "accidental" for case in snow.cases):
        yield (
            f"Annex {annex.name} has both drifts run: by EN 1991-1-3, 5.3.6, as a lasting load with its partial "
            "factors, and by Annex B as an accident without them. The worse counts at each place."
        )
    for key, source in author_sources(job):
        yield f"{key} is the author's, in place of the annex: {source}."


def _notes(job: Job, shape: RoofShape, snow: Snow, wind: Wind) -> Iterator[str]:
    house = job.house
    if house is not None and house.roof_drains_to_us:
        yield "Snow that falls from the house roof strikes the sheets: that blow is outside the code. Fit guards."
        if house.upper_slope_plan_mm is None and not house.slides_guarded:
            yield (
                "The slope of the house roof that slides to us is taken as half the depth of the house, a ridge in "
                "its middle. If it falls all one way, give house.upper_slope_plan_mm."
            )
    if mu_1(shape.pitch_deg) < SNOW_ON_FLAT and not job.roof.snow_held_at_foot:
        yield (
            "Steeper than 30 deg, the roof is taken to shed its snow at the foot: nothing may stand in the way there. "
            "With a guard or a gutter that stands proud set roof.snow_held_at_foot."
        )
    if any(case.along == "x" for case in snow.cases):
        yield "What may slide from the roof beyond the side wall is not known and not in the loads: ask."
    own = job.site.side_wind
    if own is not None:
        closed = [wall for wall in WALLS if getattr(job.roof, wall) == "closed"]
        on = ", ".join(f"{wall} {own.of(wall)[0]:+g} in, {own.of(wall)[1]:+g} out" for wall in closed)
        yield f"Wind on closed sides is declared ({own.source}), of the peak pressure: {on or 'none is closed'}."
    if wind.typical:
        yield "The peak wind pressure was read off digitised figures and raised by 3 %: a typical value. " + (
            "Give site.peak_pressure_kn_m2 from the printed figures."
        )
    if any(zone.under_10 is not None for case in wind.cases[:1] for zone in case.zones):
        yield "Under the overhang stands the pressure on the wall below it (EN 1991-1-4, 7.2.1(3))."
