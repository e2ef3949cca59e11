"""The loads stage: everything that acts on the roof."""

from __future__ import annotations

from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.combine import combinations_of
from pentice.loads.snow import snow_on
from pentice.loads.values import Dead, Loads
from pentice.loads.weight import imposed_on
from pentice.loads.wind import wind_on
from pentice.standards.annex import Annex


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
    OutsideScope
        The snow map held does not reach the site.

    Source
    ------
    EN 1990, EN 1991-1-1, EN 1991-1-3 and EN 1991-1-4, first generation, with the annex's choices.
    """
    combinations = combinations_of(
        annex, job.site.altitude_m or 0.0, wind_instantaneous=job.site.wind_instantaneous
    )
    return Loads(
        annex=annex.name,
        edition=annex.title,
        snow=snow_on(job, shape, annex),
        wind=wind_on(job, shape, annex),
        dead=dead,
        imposed=imposed_on(job, shape, annex),
        combinations=combinations,
        notes=_notes(job, annex),
    )


def _notes(job: Job, annex: Annex) -> tuple[str, ...]:
    notes = []
    if annex.name == "EN":
        notes.append("Recommended values of the Eurocodes, not those of a country: ask which annex applies.")
    if job.house is not None and job.house.roof_drains_to_us:
        notes.append(
            "Snow that falls from the house roof strikes the sheets: that blow is outside the code. Fit guards."
        )
    if (job.site.altitude_m or 0.0) > 800.0:
        notes.append("Above 800 m snow can hang over the foot (EN 1991-1-3, 6.3): not in these loads, ask.")
    return tuple(notes)
