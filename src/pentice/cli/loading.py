"""From a path to a solved design: job, catalogue and firm read, blanks filled."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from pentice.catalogue.firm import Firm, read_firm
from pentice.catalogue.model import Catalogue
from pentice.catalogue.reading import read_catalogue
from pentice.errors import JobsFault, PenticeError
from pentice.job.model import Job
from pentice.job.reading import read_job

if TYPE_CHECKING:
    from pentice.advice.recut import Work
    from pentice.design import Design
    from pentice.together import Shared


T = TypeVar("T")
R = TypeVar("R")


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


def solved_together(jobs: Sequence[Loaded], *, say: Callable[[str], None] = lambda text: None) -> Shared:
    """Several jobs solved, then cut and ordered together; says what it does as it goes."""
    from pentice.together import plan_together
    from pentice.together.agree import require_references

    require_references([(str(loaded.path), loaded.job.reference) for loaded in jobs])

    def solving(loaded: Loaded) -> Design:
        say(f"{loaded.path}: solving")
        return solved(loaded)

    designs = for_each(jobs, solving, lambda loaded: str(loaded.path))
    say(f"Cutting {len(designs)} jobs together")
    return plan_together(designs)


def solved_as_cut(jobs: Sequence[Loaded]) -> Work:
    """What a shop cuts by: the design of one job, or several that are cut together."""
    return solved(jobs[0]) if len(jobs) == 1 else solved_together(jobs)


def jobs_first(first: Path, words: Sequence[str]) -> tuple[tuple[Path, ...], tuple[str, ...]]:
    """Job files, and the words that are none: a first file, and others that are told by their ending.

    Examples
    --------
    >>> files, pieces = jobs_first(Path("one.toml"), ["two.toml", "PB-0311 S3"])
    >>> [file.name for file in files], pieces
    (['one.toml', 'two.toml'], ('PB-0311 S3',))
    """
    others = tuple(Path(word) for word in words if word.lower().endswith(".toml"))
    return (first, *others), tuple(word for word in words if not word.lower().endswith(".toml"))


def for_each(things: Sequence[T], do: Callable[[T], R], name: Callable[[T], str]) -> tuple[R, ...]:
    """Do something with each of several jobs; what goes wrong with any of them is told at once, the worst code counts.

    Parameters
    ----------
    things
        Jobs, or the paths of their files.
    do
        What is done with each.
    name
        What a job is called where a sentence does not name its file.

    Raises
    ------
    JobsFault
        Every sentence of every job, where something went wrong.
    """
    made: list[R] = []
    said: list[str] = []
    code = 0
    for thing in things:
        try:
            made.append(do(thing))
        except PenticeError as fault:
            named = name(thing)
            said += [line if named in line else f"{named}: {line}" for line in str(fault).splitlines()]
            code = max(code, fault.exit_code)
    if said:
        raise JobsFault("\n".join(said), exit_code=code)
    return tuple(made)
