"""From a path to a solved design: job, catalogue and firm read, blanks filled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from pentice.catalogue.firm import Firm, read_firm
from pentice.catalogue.model import Catalogue
from pentice.catalogue.reading import read_catalogue
from pentice.job.model import Job
from pentice.job.reading import read_job

if TYPE_CHECKING:
    from pentice.design import Design


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """One job with everything it names, as read."""

    path: Path
    job: Job
    catalogue: Catalogue
    firm: Firm


def load(path: Path, catalogues: Sequence[Path] = ()) -> Loaded:
    """A job with its catalogue and firm. Paths inside the job file are relative to it; `catalogues` win."""
    job = read_job(path)
    own = [path.parent / name for name in job.catalogues]
    firm = read_firm(path.parent / job.firm if job.firm is not None else None)
    return Loaded(path=path, job=job, catalogue=read_catalogue([*own, *catalogues]), firm=firm)


def solved(loaded: Loaded) -> Design:
    """The design of a job whose blanks are filled first."""
    from pentice.advice.complete import complete
    from pentice.pipeline import solve

    return solve(complete(loaded.job, loaded.catalogue), loaded.catalogue, loaded.firm)
