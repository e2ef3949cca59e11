"""Reads a job file: every problem at once, each with file, key path, value, what was expected and what to do."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from pentice.errors import InputError
from pentice.faults import problems_of
from pentice.job.model import Job
from pentice.job.sense import sense
from pentice.marks import ReadingRule, take_marks
from pentice.texts import file_text, toml_data

READING_RULES: Mapping[str, ReadingRule] = {
    "roof.width_mm": "mean",
    "roof.projection_mm": "least",
    "roof.head_height_mm": "mean",
    "roof.eaves_height_mm": "mean",
    "roof.pitch_deg": "mean",
    "house.wall_top_above_mm": "greatest",
    "house.depth_mm": "greatest",
}


def read_job(path: str | Path) -> Job:
    """A job from its file.

    Parameters
    ----------
    path
        The TOML file.

    Returns
    -------
    Job
        Plain values, with their marks beside them.

    Raises
    ------
    InputError
        Every problem found, one sentence each.
    StoreError
        The file cannot be read.
    """
    return job_from_text(file_text(path), file=str(path))


def job_from_text(text: str, *, file: str = "") -> Job:
    """A job from the text of its file.

    Parameters
    ----------
    text
        TOML.
    file
        Name of the file, for the sentences.

    Returns
    -------
    Job
        Plain values, with their marks beside them.

    Raises
    ------
    InputError
        Every problem found, one sentence each.

    Examples
    --------
    >>> job_from_text('format = 1\\n[roof]\\nwidth_mm = "16 ft"').roof.width_mm
    4876.8
    >>> job_from_text('[roof]\\nwitdh_mm = 5000')
    Traceback (most recent call last):
    pentice.errors.InputError: roof.witdh_mm is not a known key; did you mean "width_mm"?
    """
    return job_from_data(toml_data(text, file=file), file=file)


def job_from_data(raw: Mapping[str, Any], *, file: str = "") -> Job:
    """A job from raw data as TOML gives it; see job_from_text."""
    taken = take_marks(raw, READING_RULES, file=file)
    problems = list(taken.problems)
    try:
        job = Job.model_validate(taken.plain)
    except ValidationError as fault:
        known = {p.place for p in problems}
        problems += [p for p in problems_of(fault, Job, file=file) if p.place not in known]
        raise InputError(problems) from fault
    problems += sense(job, file=file)
    if problems:
        raise InputError(problems)
    return job.with_marks(taken.marks)
