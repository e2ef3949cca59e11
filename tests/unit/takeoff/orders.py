"""Orders for tests: the shipped potting bay as it is, or with some of its keys set otherwise."""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import Any

from pentice.advice.complete import complete
from pentice.catalogue.model import Catalogue
from pentice.catalogue.reading import read_catalogue
from pentice.design import Design
from pentice.job.model import Job
from pentice.job.reading import job_from_text
from pentice.pipeline import solve
from pentice.takeoff.stage import take_off
from pentice.takeoff.values import OrderLine


@cache
def shipped_design(name: str = "potting-bay") -> Design:
    """A shipped example, solved once for all tests."""
    text = resources.files("pentice.examples").joinpath(f"{name}.toml").read_text(encoding="utf-8")
    catalogue = read_catalogue()
    return solve(complete(job_from_text(text), catalogue), catalogue)


def job_with(job: Job, **tables: dict[str, Any]) -> Job:
    """The job with keys of its tables set otherwise: job_with(job, roof={"front": "open"})."""
    changed = {name: getattr(job, name).model_copy(update=keys) for name, keys in tables.items()}
    return job.model_copy(update=changed)


def order_of(
    design: Design, *, job: Job | None = None, catalogue: Catalogue | None = None
) -> tuple[OrderLine, ...]:
    """The take-off of a solved design, with another job or catalogue put in its place."""
    return take_off(
        job or design.job,
        design.shape,
        design.parts,
        catalogue or design.catalogue,
        design.setting_out,
        design.pieces,
        design.cutting,
    )


def line_for(order: tuple[OrderLine, ...], part: str) -> OrderLine:
    """The first line of a part."""
    return next(line for line in order if part in line.part.split(", "))
