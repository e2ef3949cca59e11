"""The pipeline: one job and its catalogue to a design. Names the stages in order and calculates nothing."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from importlib.metadata import PackageNotFoundError, version
from itertools import chain
from typing import TypeVar

from pentice.catalogue.firm import Firm, read_firm
from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts, parts_for
from pentice.checks.stage import OF_NO_SHEET, check_all
from pentice.checks.values import Check
from pentice.cutting.values import CutPlan
from pentice.design import Design
from pentice.errors import InputError, Problem
from pentice.job.blanks import blanks
from pentice.job.model import Job
from pentice.job.shape import RoofShape, roof_shape
from pentice.loads.national import annex_for
from pentice.loads.needed import missing_loads
from pentice.loads.stage import loads_on
from pentice.loads.values import Loads
from pentice.loads.weight import weights_of
from pentice.pieces.as_cut import pieces_as_cut, settled, sheets_as_cut
from pentice.pieces.cut import cut_best_of, cut_from_stock, limits_named
from pentice.pieces.side_sheets import Blanks
from pentice.pieces.stage import pieces_of
from pentice.pieces.values import Piece
from pentice.pricing.stage import price_of
from pentice.setting_out.stage import set_out
from pentice.setting_out.values import CutSheet, SettingOut
from pentice.standards.annex import Annex
from pentice.takeoff.stage import take_off

Made = TypeVar("Made")


def solve(
    job: Job, catalogue: Catalogue, firm: Firm | None = None, assessed: Assessed | None = None
) -> Design:
    """The whole design of one job. Pure: no clock, no search.

    Parameters
    ----------
    job
        A whole job: fill blanks first with `pentice.complete`.
    catalogue
        Products by id.
    firm
        Rates, norms and terms; absent: the demo firm.
    assessed
        What `assess` made of the same job with every check, where that is at hand.

    Returns
    -------
    Design
        Loads, sizes, checks, pieces, cutting, order and price.

    Raises
    ------
    InputError
        Every blank and every value that cannot be used, all at once.
    OutsideScope
        The shape is not laid out.
    NoSolution
        A piece is longer than any stock.
    """
    assessed = assessed or assess(job, catalogue)
    shape, parts, setting_out = assessed.shape, assessed.parts, assessed.setting_out
    with limits_named(job):
        pieces, cutting = _cut(assessed, job, catalogue)
    assessed, pieces = _as_cut(assessed, job, catalogue, pieces, cutting)
    setting_out = assessed.setting_out
    order = take_off(job, shape, parts, catalogue, setting_out, pieces, cutting)
    payer = firm or read_firm(None)
    return Design(
        job=job,
        catalogue=catalogue,
        firm=payer,
        annex=assessed.annex,
        shape=shape,
        parts=parts,
        loads=assessed.loads,
        setting_out=setting_out,
        checks=assessed.checks,
        pieces=pieces,
        cutting=cutting,
        order=order,
        price=price_of(job, payer, order, setting_out, pieces),
        engine=engine_version(),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessed:
    """The first half of a design: everything up to the checks, nothing cut or priced yet."""

    annex: Annex
    parts: Parts
    shape: RoofShape
    loads: Loads
    setting_out: SettingOut
    by_group: Mapping[str, tuple[Check, ...]]
    """Its checks by the name of their group, in order."""

    @property
    def checks(self) -> tuple[Check, ...]:
        """All of them."""
        return tuple(chain.from_iterable(self.by_group.values()))


def assess(job: Job, catalogue: Catalogue, only: Collection[str] | None = None) -> Assessed:
    """Loads, sizes and checks of one job.

    Parameters
    ----------
    job, catalogue
        A whole job and its products.
    only
        Groups of checks (`pentice.checks.stage.GROUPS`) that a trial asks about; absent: every check.

    Returns
    -------
    Assessed
        What the rest of the design stands on.

    Raises
    ------
    InputError
        Every blank and every value that cannot be used, all at once.
    OutsideScope
        The shape is not laid out.
    """
    annex, parts = require_whole(job, catalogue)
    shape = roof_shape(job)
    loads = loads_on(job, shape, annex, weights_of(job, parts))
    sizes = set_out(job, shape, parts)
    setting_out, by_group = check_all(job, shape, parts, catalogue, annex, loads, sizes, only)
    return Assessed(
        annex=annex, parts=parts, shape=shape, loads=loads, setting_out=setting_out, by_group=by_group
    )


def _cut(assessed: Assessed, job: Job, catalogue: Catalogue) -> tuple[tuple[Piece, ...], CutPlan]:
    """The pieces and how they are cut; side sheets share blanks only where that costs less."""
    shape, parts, setting_out = assessed.shape, assessed.parts, assessed.setting_out
    alone = pieces_of(job, shape, parts, setting_out, sides="alone")
    turns = parts.sheet.may_turn and len(setting_out.side_sheets) > 1
    pairs = pieces_of(job, shape, parts, setting_out, sides="in pairs") if turns else alone
    if len(alone) == len(pairs):
        return alone, cut_from_stock(alone, job, parts, catalogue, setting_out)
    least = pieces_of(job, shape, parts, setting_out, sides="least")
    return cut_best_of((alone, pairs), least, job, parts, catalogue, setting_out)


def _as_cut(
    assessed: Assessed, job: Job, catalogue: Catalogue, pieces: tuple[Piece, ...], cutting: CutPlan
) -> tuple[Assessed, tuple[Piece, ...]]:
    """The same with each sheet as the saw leaves it, so that every paper names the size that its ticket has."""
    cut = sheets_as_cut(pieces, cutting)
    if not settled(assessed.setting_out, cut):
        assessed = assess_as_cut(assessed, job, catalogue, cut)
        in_pairs = any(len(piece.side_parts) > 1 for piece in pieces)
        sides: Blanks = "in pairs" if in_pairs else "alone"
        pieces = pieces_of(job, assessed.shape, assessed.parts, assessed.setting_out, sides=sides)
    return assessed, pieces_as_cut(pieces, cutting)


def assess_as_cut(
    assessed: Assessed, job: Job, catalogue: Catalogue, cut: Mapping[int, CutSheet]
) -> Assessed:
    """What was assessed, set out and checked again with sheets of other sizes in its bays.

    Parameters
    ----------
    assessed
        What the job comes to with the sheets that would be cut for it.
    job, catalogue
        The same job and its products.
    cut
        Sheets as they are cut, by the number of their bay; the other bays stay.

    Returns
    -------
    Assessed
        Gaps, bites and laps of the sheets as cut, and every check of them.
    """
    sizes = set_out(job, assessed.shape, assessed.parts, cut)
    known = {name: checks for name, checks in assessed.by_group.items() if name in OF_NO_SHEET}
    setting_out, by_group = check_all(
        job, assessed.shape, assessed.parts, catalogue, assessed.annex, assessed.loads, sizes, known=known
    )
    return replace(assessed, setting_out=setting_out, by_group=by_group)


def with_cutting(design: Design, cutting: CutPlan) -> Design:
    """A design with another cutting of the same pieces, its sheets of the sizes that this one gives.

    Parameters
    ----------
    design
        A solved job.
    cutting
        All its pieces cut from stock in another way; pieces of other jobs may lie among them.

    Returns
    -------
    Design
        Set out and checked again where a sheet is cut to another size. Order and price stay.
    """
    before = Assessed(
        annex=design.annex, parts=design.parts, shape=design.shape, loads=design.loads,
        setting_out=design.setting_out, by_group={"every": design.checks},
    )  # fmt: skip
    now, pieces = _as_cut(before, design.job, design.catalogue, design.pieces, cutting)
    return replace(design, cutting=cutting, setting_out=now.setting_out, checks=now.checks, pieces=pieces)


def require_whole(job: Job, catalogue: Catalogue) -> tuple[Annex, Parts]:
    """The national choices and the products of a job that leaves nothing open that a design needs.

    Parameters
    ----------
    job, catalogue
        The job and its products.

    Returns
    -------
    tuple
        As `annex_for` and `parts_for` give them.

    Raises
    ------
    InputError
        One sentence for each blank or unknown name, all at once.
    """
    problems: list[Problem] = [*blanks(job), *missing_loads(job)]
    annex, unknown = _made(lambda: annex_for(job))
    parts, unnamed = _made(lambda: parts_for(job, catalogue))
    problems += (*unknown, *unnamed)
    if annex is None or parts is None or problems:
        unique: dict[str, Problem] = {}
        for problem in problems:
            unique.setdefault(problem.place or problem.says, problem)
        raise InputError(tuple(unique.values()))
    return annex, parts


def _made(attempt: Callable[[], Made]) -> tuple[Made | None, tuple[Problem, ...]]:
    """What comes of an attempt, or why nothing does."""
    try:
        return attempt(), ()
    except InputError as fault:
        return None, fault.problems


def engine_version() -> str:
    """Name and version of the engine, for every paper.

    Examples
    --------
    >>> engine_version().startswith("pentice ")
    True
    """
    try:
        return f"pentice {version('pentice')}"
    except PackageNotFoundError:  # run from a bare checkout
        return "pentice (not installed)"
