"""Solved jobs for tests: examples and small changes of them, the shipped catalogue read once."""

from __future__ import annotations

from functools import cache
from typing import Any

from pentice.advice.complete import complete
from pentice.catalogue.model import Catalogue
from pentice.catalogue.reading import read_catalogue
from pentice.design import Design
from pentice.job.model import Job
from pentice.job.reading import job_from_text
from pentice.job.template import example_text
from pentice.job.writing import with_keys
from pentice.pipeline import Assessed, assess, solve

EXAMPLES = ("boat-rack", "cycle-shelter", "potting-bay", "snow-carport", "uneven-veranda")
SEVEN = (*EXAMPLES, "log-store", "plant-lobby")
"""Every job that the program comes with."""


@cache
def catalogue() -> Catalogue:
    """The shipped catalogue."""
    return read_catalogue()


@cache
def example(name: str) -> Job:
    """An example with its blanks filled."""
    return complete(job_from_text(example_text(name)), catalogue())


def changed(name: str, **changes: Any) -> Job:
    """An example with other values; two underscores stand for the dot of a key path."""
    return with_keys(example(name), {path.replace("__", "."): value for path, value in changes.items()})


@cache
def design_of(name: str) -> Design:
    """An example solved whole."""
    return solve(example(name), catalogue())


def assessed(job: Job) -> Assessed:
    """The checks of a job."""
    return assess(job, catalogue())


def band_of(design: Design) -> str:
    """How the band begins that every page of a design carries."""
    return "Holds on typical values" if design.proved else "Not proved"
