"""Options side by side: whole alternatives of a job, each solved with its own checks."""

from __future__ import annotations

from pentice.advice.complete import complete
from pentice.design import Design
from pentice.errors import InputError, NoSolution, OutsideScope, Problem
from pentice.job.model import Job
from pentice.job.writing import with_keys
from pentice.loads.wind import open_sides
from pentice.pipeline import solve

FOLLOWS = {
    "glazing.sheet": (
        "glazing.bar",
        "glazing.tint",
        "glazing.head_profile",
        "glazing.foot_profile",
        "glazing.edge_profile",
    ),
    "frame.bay_count": (),
    "frame.max_bay_mm": ("frame.bay_count",),
}
"""Choices that are made again when a key changes, unless somebody gave them."""


def changed_job(job: Job, changes: dict[str, object]) -> Job:
    """The job with other values, and the choices that hung on the old ones left open again.

    Parameters
    ----------
    job
        A job; what was chosen for it carries the mark "chosen".
    changes
        New value by key path.

    Returns
    -------
    Job
        To be completed again. A room that is closed all round loses what was declared for closed sides.
    """
    hanging = [path for key in changes for path in FOLLOWS.get(key, ()) if path not in changes]
    opened = {path: None for path in hanging if job.mark_of(path).mark == "chosen"}
    if _closes_the_room(job, changes):
        opened["site.side_wind"] = None
    return with_keys(job, {**opened, **changes})


def _closes_the_room(job: Job, changes: dict[str, object]) -> bool:
    """Does a change close the last open side? What was declared for closed sides then has no place."""
    if job.site.side_wind is None or not any(f"roof.{side}" in changes for side in open_sides(job)):
        return False
    has_own = changes.get("site.wind_coefficients", job.site.wind_coefficients) is not None
    return not has_own and all(changes.get(f"roof.{side}", "open") != "open" for side in open_sides(job))


def solve_options(design: Design) -> tuple[tuple[str, Design], ...]:
    """Each option of a job as a design of its own.

    Parameters
    ----------
    design
        The solved job.

    Returns
    -------
    tuple
        Name and design, in the order of the job file.

    Raises
    ------
    InputError
        An option cannot be used, or leads to a roof that cannot be made: names it.
    """
    found, problems = [], []
    for i, option in enumerate(design.job.options):
        place = f"options[{i}]"
        try:
            job = complete(changed_job(design.job, dict(option.set)), design.catalogue)
            found.append((option.name, solve(job, design.catalogue, design.firm)))
        except (InputError, OutsideScope, NoSolution) as fault:
            problems.append(Problem(place, f'{place} "{option.name}" cannot be solved: {fault}'))
    if problems:
        raise InputError(problems)
    return tuple(found)
