"""The national choices a job stands on: those of its annex, and what its author read in an annex that is not held."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pentice.errors import InputError, Problem
from pentice.job.model import Job
from pentice.job.model import PartialFactors as GivenFactors
from pentice.standards._tables import toml_of
from pentice.standards.annex import NEEDED, Annex, annex_from, annex_names, load_annex
from pentice.standards.en1990 import PartialFactors

_SOURCED = ("psi_snow", "psi_wind", "exceptional_drifts")
"""Keys of the job that stand for a choice of the annex: each needs its source beside it."""


def annex_for(job: Job) -> Annex:
    """The annex that a job names, with the values the job gives for it.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    Annex
        National choices, each with its source.

    Raises
    ------
    InputError
        There is no such annex, it lacks what every rule needs, or a value stands without its source: every one at once.

    Source
    ------
    The data files of the annexes, and the document that the job names beside a value of its own.

    Examples
    --------
    >>> annex_for(Job()).name
    'EN'
    """
    problems = list(_without_source(job))
    try:
        annex = _made(job.site.annex, _given(job))
    except InputError as fault:
        problems += fault.problems
    if problems:
        raise InputError(tuple(problems))
    return annex


def annex_to_ask(job: Job) -> Annex | None:
    """The annex of a job for asking only: what it lacks stands as recommended, so that one error names every blank.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    Annex or None
        National choices; None where there is no such annex.

    Source
    ------
    Our own data files: nothing is calculated with it.
    """
    if job.site.annex not in annex_names():
        return None
    whole = toml_of("annex_EN.toml")["choices"]
    stand_in = {name: (whole[name]["value"], "to ask only") for name in NEEDED}
    held = toml_of(f"annex_{job.site.annex}.toml").get("choices", {})
    stand_in = {name: value for name, value in stand_in.items() if "value" not in held.get(name, {})}
    return _made(job.site.annex, stand_in | _given(job))


def author_sources(job: Job) -> tuple[tuple[str, str], ...]:
    """Keys of the job that stand in place of a choice of the annex, each with the document it was read in.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    tuple
        (key path, source).

    Source
    ------
    The job file.
    """
    factors = job.site.partial_factors
    found = [] if factors is None else [("site.partial_factors", factors.source)]
    paths = [f"site.{key}" for key in _SOURCED if getattr(job.site, key) is not None]
    return tuple(found + [(path, job.mark_of(path).source) for path in paths])


def _made(name: str, given: Mapping[str, tuple[Any, str]]) -> Annex:
    if given and name in annex_names():
        return annex_from(toml_of(f"annex_{name}.toml"), given)
    return load_annex(name)


def _given(job: Job) -> dict[str, tuple[Any, str]]:
    """Choices that the job gives, each with its source."""
    site = job.site
    given: dict[str, tuple[Any, str]] = {}
    if site.partial_factors is not None:
        given["factors"] = (_factors(site.partial_factors), site.partial_factors.source)
    for key in _SOURCED:
        value = getattr(site, key)
        if value is not None:
            source = job.mark_of(f"site.{key}").source
            for choice in ("psi_snow_low", "psi_snow_high") if key == "psi_snow" else (key,):
                given[choice] = (value, source or "without a source")
    return given


def _factors(found: GivenFactors) -> PartialFactors:
    return PartialFactors(
        permanent_up=found.permanent_up,
        permanent_down=found.permanent_down,
        variable=found.variable,
        xi=1.0,  # expression 6.10 alone is used with factors of the job's own
        equ_permanent_up=found.equ_permanent_up,
        equ_permanent_down=found.equ_permanent_down,
        equ_variable=found.equ_variable,
    )


def _without_source(job: Job) -> Iterator[Problem]:
    for key in _SOURCED:
        if getattr(job.site, key) is not None and not job.mark_of(f"site.{key}").source:
            says = f"site.{key} has no source; write {{value = …, source = …}} with document, table and who read it."
            yield Problem(f"site.{key}", says)
