"""The offcuts in hand of several jobs: one that two jobs name is one offcut, and is used once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.design import Design
from pentice.errors import InputError, Problem
from pentice.job.model import Job, Offcut

Known = tuple[str, str]
"""Product and name of an offcut: as the cutting calls it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """Every offcut in hand once, and which job names which."""

    offcuts: tuple[Offcut, ...]
    named_by: tuple[frozenset[str], ...]
    """References, offcut by offcut."""

    def names(self, reference: str) -> frozenset[Known]:
        """The offcuts that a job names.

        Parameters
        ----------
        reference
            Of the job.

        Returns
        -------
        frozenset of (str, str)
            Product and name.
        """
        return frozenset(
            (offcut.item, offcut.mark or f"offcut {k}")
            for k, (offcut, by) in enumerate(zip(self.offcuts, self.named_by, strict=True), 1)
            if reference in by
        )

    def laid_before(self, job: Job) -> Job:
        """The job with every offcut on the rack, under the names that all jobs use for them.

        Parameters
        ----------
        job
            One of the jobs.

        Returns
        -------
        Job
            It may cut from all of them.
        """
        return job.model_copy(update={"stock": job.stock.model_copy(update={"offcuts": self.offcuts})})


def rack_of(designs: Sequence[Design]) -> Rack:
    """All offcuts in hand. One mark is one offcut; without a mark, offcuts of one size in two jobs are taken as one.

    Parameters
    ----------
    designs
        Solved jobs, each with a reference of its own.

    Returns
    -------
    Rack
        In the order of the jobs.

    Raises
    ------
    InputError
        One mark stands for two sizes: every such mark.
    """
    found: list[tuple[Offcut, set[str]]] = []
    problems: list[Problem] = []
    for design in designs:
        reference = design.job.reference
        for offcut in design.job.stock.offcuts:
            held = next(((o, by) for o, by in found if _same(o, offcut) and _free(o, by, reference)), None)
            if held is None:
                found.append((offcut, {reference}))
                continue
            held[1].add(reference)
            if held[0] != offcut:
                problems.append(_two_sizes(held[0], offcut, sorted(held[1])))
    if problems:
        raise InputError(problems)
    return Rack(offcuts=tuple(o for o, _ in found), named_by=tuple(frozenset(by) for _, by in found))


def _same(one: Offcut, other: Offcut) -> bool:
    if one.mark or other.mark:
        return (one.item, one.mark, one.width_mm is None) == (other.item, other.mark, other.width_mm is None)
    return one == other


def _free(offcut: Offcut, by: set[str], reference: str) -> bool:
    """A job that names two offcuts alike without a mark has two."""
    return bool(offcut.mark) or reference not in by


def _two_sizes(one: Offcut, other: Offcut, references: Sequence[str]) -> Problem:
    says = (
        f'{" and ".join(references)} both name the offcut "{one.mark}" of {one.item}, but not alike: {_said(one)}, and '
        f"{_said(other)}. Measure it, and write the same in both jobs, or give each offcut its own mark."
    )
    return Problem("stock.offcuts", says)


def _said(offcut: Offcut) -> str:
    size = f"{offcut.width_mm:g} x {offcut.length_mm:g}" if offcut.width_mm else f"{offcut.length_mm:g}"
    rib = f", first rib {offcut.first_rib_mm:g}" if offcut.first_rib_mm is not None else ""
    return f"{size}{rib}{f', {offcut.tint}' if offcut.tint else ''}"
