"""Advice on one job: moves that save stock, cures for what does not hold, options side by side."""

from __future__ import annotations

from dataclasses import dataclass

from pentice.advice.complete import complete
from pentice.advice.cures import cures
from pentice.advice.moves import moves
from pentice.advice.options import solve_options
from pentice.advice.proposal import Proposal
from pentice.catalogue.firm import Firm
from pentice.catalogue.model import Catalogue
from pentice.design import Design
from pentice.job.model import Job
from pentice.pipeline import solve


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What can be said about a job beside its design."""

    design: Design
    moves: tuple[Proposal, ...] | None
    """None where nobody looked for any."""
    cures: tuple[Proposal, ...]
    options: tuple[tuple[str, Design], ...]


def advise(job: Job, catalogue: Catalogue, firm: Firm | None = None) -> Advice:
    """Complete and solve a job, then look for moves and cures and solve its options.

    Parameters
    ----------
    job, catalogue, firm
        As for `solve`.

    Returns
    -------
    Advice
        Each proposal was solved as a whole job.

    Raises
    ------
    InputError
        The job or one of its options cannot be used.
    """
    design = solve(complete(job, catalogue), catalogue, firm)
    quick = quick_advice(design)
    return Advice(design=design, moves=moves(design), cures=quick.cures, options=quick.options)


def quick_advice(design: Design) -> Advice:
    """Advice without moves, which take a hundred and more trials: what a pack can wait for.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    Advice
        Cures and options, each solved as a whole job; its moves are None.

    Raises
    ------
    InputError
        An option cannot be used.
    """
    return Advice(design=design, moves=None, cures=cures(design), options=solve_options(design))
