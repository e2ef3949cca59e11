"""Several solved jobs to what they come to together. Pure: no files, no clock."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from pentice.catalogue.model import KINDS, Catalogue
from pentice.cutting.values import CutPlan, LengthPlan, SheetPlan
from pentice.design import Design
from pentice.errors import InputError
from pentice.job.model import Job
from pentice.pieces.names import job_of, labelled, own_name
from pentice.pieces.values import Piece
from pentice.pipeline import with_cutting
from pentice.pricing.stage import material_lines
from pentice.takeoff.roof import Roof
from pentice.takeoff.values import OrderLine
from pentice.together.agree import require_one_buyer, require_references
from pentice.together.cutting import cut_together
from pentice.together.offcuts import Rack, rack_of
from pentice.together.order import shared_order
from pentice.together.values import Bill, Shared

if TYPE_CHECKING:
    from concurrent.futures import Executor


def plan_together(designs: Sequence[Design], executor: Executor | None = None) -> Shared:
    """Several jobs cut from shared stock and offcuts in hand, and bought in one order.

    Parameters
    ----------
    designs
        Two or more solved jobs.
    executor
        Where products are cut at the same time, a `ProcessPoolExecutor` say; absent: here. The plan is the same.

    Returns
    -------
    Shared
        One plan with one bound, never dearer than each job cut by itself; one order; each job's view of the plan.

    Raises
    ------
    InputError
        A reference is missing or stands twice; firms, currencies, products of one id or offcuts of one mark differ.

    Examples
    --------
    >>> plan_together(())
    Traceback (most recent call last):
    pentice.errors.InputError: 0 jobs cannot share anything; give two or more.
    """
    if len(designs) < 2:
        raise InputError(f"{len(designs)} jobs cannot share anything; give two or more.")
    require_references([(design.job.name or "a job", design.job.reference) for design in designs])
    require_one_buyer(designs)
    rack = rack_of(designs)
    cut = cut_together(designs, rack, executor)
    views = tuple(_view(design, rack, cut.plan) for design in designs)
    order = shared_order(_roofs(views), cut.plan)
    return Shared(
        job=_head(designs, rack),
        designs=tuple(designs),
        views=views,
        catalogue=_all_products([design.catalogue for design in designs]),
        firm=designs[0].firm,
        pieces=tuple(_labelled(view.job.reference, p) for view in views for p in view.pieces),
        cutting=cut.plan,
        lots=cut.lots,
        order=order,
        price=_bill(designs[0], order),
    )


def _labelled(reference: str, piece: Piece) -> Piece:
    return replace(piece, id=labelled(reference, piece.id))


def _bill(first: Design, order: Sequence[OrderLine]) -> Bill:
    lines = material_lines(sum((line.price for line in order), Decimal(0)), first.firm)
    total = sum((amount for _, amount in lines), Decimal(0))
    return Bill(currency=first.price.currency, materials=total, material_lines=lines)


def _view(design: Design, rack: Rack, plan: CutPlan) -> Design:
    """A job with the shared plan, in which its own pieces have their own names."""
    reference = design.job.reference
    cutting = replace(
        plan,
        sheets=tuple(_sheet_for(reference, sheet) for sheet in plan.sheets),
        lengths=tuple(_length_for(reference, length) for length in plan.lengths),
    )
    return replace(with_cutting(design, cutting), job=rack.laid_before(design.job))


def _sheet_for(reference: str, plan: SheetPlan) -> SheetPlan:
    return replace(
        plan, placements=tuple(replace(p, piece=_name_for(reference, p.piece)) for p in plan.placements)
    )


def _length_for(reference: str, plan: LengthPlan) -> LengthPlan:
    return replace(plan, pieces=tuple(replace(p, piece=_name_for(reference, p.piece)) for p in plan.pieces))


def _name_for(reference: str, id: str) -> str:
    return own_name(id) if job_of(id) == reference else id


def _roofs(views: Sequence[Design]) -> Mapping[str, Roof]:
    """What the take-off of each job looks at: its own pieces alone, on the stock that gives them."""
    return {
        view.job.reference: Roof(
            job=view.job,
            shape=view.shape,
            parts=view.parts,
            catalogue=view.catalogue,
            setting_out=view.setting_out,
            pieces=view.pieces,
            cutting=_share(view.cutting),
        )
        for view in views
    }


def _share(plan: CutPlan) -> CutPlan:
    sheets = (
        replace(s, placements=tuple(p for p in s.placements if not job_of(p.piece))) for s in plan.sheets
    )
    lengths = (replace(n, pieces=tuple(p for p in n.pieces if not job_of(p.piece))) for n in plan.lengths)
    return replace(
        plan,
        sheets=tuple(s for s in sheets if s.placements),
        lengths=tuple(n for n in lengths if n.pieces),
    )


def _all_products(catalogues: Sequence[Catalogue]) -> Catalogue:
    """The products of all jobs; what two of them use is the same in both."""
    tables = {
        kind: {id: product for found in reversed(catalogues) for id, product in found.table(kind).items()}
        for kind in KINDS
    }
    return catalogues[0].model_copy(update=tables)


HEADED = 26
"""Letters of references that the foot of a page has room for: judgement."""


def _head(designs: Sequence[Design], rack: Rack) -> Job:
    """Name, references and revisions of all jobs, on the day of the one that was issued last."""
    jobs = [design.job for design in designs]
    latest = max(jobs, key=lambda job: str(job.dates.quoted_on or job.dates.order_on or ""))
    names = [job.reference for job in jobs]
    said = {
        "name": f"{len(jobs)} jobs together",
        "reference": _joined(names),
        "revision": ", ".join(dict.fromkeys(job.revision for job in jobs)),
    }
    return rack.laid_before(latest).model_copy(update=said)


def _joined(references: Sequence[str]) -> str:
    """References in a row; where they are many or long, the rest is counted.

    Examples
    --------
    >>> _joined(["PB-0311", "CS-0427"]), _joined(["A", "A-REFERENCE-THAT-IS-QUITE-LONG", "C"])
    ('PB-0311 + CS-0427', 'A + 2 more')
    """
    shown = len(references)
    while shown > 1 and len(" + ".join(references[:shown])) > HEADED:
        shown -= 1
    more = [f"{len(references) - shown} more"] if shown < len(references) else []
    return " + ".join([*references[:shown], *more])
