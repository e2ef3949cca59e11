"""The papers that several jobs share: what is cut together and what it saves, the order, and where to find both."""

from __future__ import annotations

from decimal import Decimal
from functools import partial

from pentice.cutting.proof import proof_words
from pentice.design_json import cutting_data, order_data
from pentice.pack.cutting import shared_cutting_pdf
from pentice.pack.drawings.length_strips import item_words
from pentice.pack.order import order_pdf
from pentice.pack.paper import blocks as b
from pentice.pack.paper import section
from pentice.pack.words import listed, money
from pentice.pieces.cut import shop_of
from pentice.together import Lot, Shared


def together_pdf(shared: Shared) -> bytes:
    """cutting.pdf of several jobs: what is cut together, stock, lengths, and the tickets of every job.

    Parameters
    ----------
    shared
        The jobs.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same jobs.
    """
    return shared_cutting_pdf(shared, shared.views, [together_section(shared)])


def together_section(shared: Shared) -> b.Block:
    """The first page: what is saved, how well that is proven, and lot by lot who is cut with whom and why not.

    Parameters
    ----------
    shared
        The jobs.
    """
    lots = [lot for lot in shared.lots if len(lot.jobs) > 1 or lot.why]
    rows = [(f"{d.job.reference} rev {d.job.revision}", d.job.name or "no name") for d in shared.designs]
    blocks = [b.table(("Job", "Roof"), rows, widths=("auto", "1fr"), row_mm=1.3)]
    if lots:
        blocks += [b.heading("What two jobs or more need"), _lots(shared, lots)]
    blocks.append(b.paragraph(_rest(shared, lots), h_mm=2.5))
    return section("Cut together", blocks, result=f"{saving(shared)} {proof(shared)}")


def saving(shared: Shared) -> str:
    """What cutting together saves, in a sentence."""
    if shared.saves < 0:
        return (
            f"Fewer sheets and lengths are bought, for {_pence(shared, -shared.saves)} more than job by job."
        )
    if not shared.saves:
        return "Cutting together saves nothing here: each job is cut by itself."
    return f"{_pence(shared, shared.saves)} less than each job cut by itself."


def proof(shared: Shared) -> str:
    """What the bound says, in a sentence."""
    return proof_words(shared.cutting, shop_of(shared.job), partial(_pence, shared))


def _lots(shared: Shared, lots: list[Lot]) -> b.Block:
    rows = [
        (
            item_words(shared, lot.item),
            _who(lot),
            _pence(shared, lot.alone),
            _pence(shared, lot.cost),
            _pence(shared, lot.saves) if lot.saves else "",
        )
        for lot in lots
    ]
    total = [_pence(shared, n) for n in (shared.alone, shared.cutting.net, shared.saves)]
    rows.append(("*All stock*", "", total[0], total[1], total[2]))
    return b.table(
        ("Product", "How", "Alone", "Here", "Saves"),
        rows,
        widths=(52, "1fr", 20, 20, 18),
        align=("left", "left", "right", "right", "right"),
        h=2.5,
        row_mm=1.3,
        strong_rows=(len(rows) - 1,),
    )


def _who(lot: Lot) -> str:
    """Which jobs are cut together, and why others are not."""
    joint = [f"{listed(group)} together." for group in lot.groups if len(group) > 1]
    apart = [group[0] for group in lot.groups if len(group) == 1]
    if joint and apart:
        joint.append(f"{listed(apart)} by {'itself' if len(apart) == 1 else 'themselves'}.")
    if not joint and len(lot.jobs) == 1:
        joint.append(f"{lot.jobs[0]} by itself.")
    return " ".join([*joint, lot.why]).strip() or "Each job by itself, offcuts shared."


def _rest(shared: Shared, lots: list[Lot]) -> str:
    others = len(shared.lots) - len(lots)
    rest = f" {others} more product{'s are' if others > 1 else ' is'} of one job alone." if others else ""
    net = " Amounts are less what kept rests count for." if shop_of(shared.job).keep_share else ""
    paired = any(len(piece.side_parts) > 1 for piece in shared.pieces)
    pairs = " Which side sheets share a blank was settled job by job." if paired else ""
    return (
        "Alone: each job cut by itself, an offcut that two jobs name used once. Every piece carries its job's "
        f"reference: never swap two that look alike.{pairs}{net}{rest}"
    )


def shared_order_pdf(shared: Shared) -> bytes:
    """order.pdf of several jobs.

    Parameters
    ----------
    shared
        The jobs.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same jobs.
    """
    return order_pdf(shared, order_notes(shared))


def order_notes(shared: Shared) -> tuple[str, ...]:
    """What the reader of a shared order is told first: for whom it is, what it saves, what the quotes rest on."""
    alone = sum((line.price for design in shared.designs for line in design.order), Decimal(0))
    here = sum((line.price for line in shared.order), Decimal(0))
    packs = alone - here - (sum(d.cutting.cost for d in shared.designs) - shared.cutting.cost) / Decimal(100)
    currency = shared.price.currency
    said = f"One order for {listed(shared.references)}. Each line says for whom."
    more = f" Shared packs and spare save {money(packs, currency)} more." if packs else ""
    return (
        f"{said} {saving(shared)}{more}",
        "Each job's quote is reckoned as if it were ordered alone. If a job falls away, pack the others again.",
    )


def where_text(shared: Shared, reference: str) -> str:
    """One line for the reader of a job's folder: where its cutting and order are.

    Parameters
    ----------
    shared
        The jobs.
    reference
        Of the job.

    Returns
    -------
    str
        A sentence.
    """
    others = [name for name in shared.references if name != reference]
    where = "../cutting.pdf, ../order.pdf, ../shared.json"
    return f"{reference} is cut and ordered together with {listed(others)}: {where}."


def shared_data(shared: Shared) -> dict[str, object]:
    """What jobs share as plain data: references, cutting, lots, order. Money as text.

    Parameters
    ----------
    shared
        The jobs.

    Returns
    -------
    dict
        In a fixed order; pieces carry their job's reference, a space, and their own name.
    """
    return {
        "format": 1,
        "engine": shared.designs[0].engine,
        "jobs": [{"reference": d.job.reference, "revision": d.job.revision} for d in shared.designs],
        "proved": shared.proved,
        "cutting": cutting_data(shared.cutting),
        "alone": _money(shared.alone),
        "saves": _money(shared.saves),
        "lots": [
            {
                "item": lot.item,
                "kerf_mm": lot.kerf_mm,
                "groups": [list(group) for group in lot.groups],
                "alone": _money(lot.alone),
                "cost": _money(lot.cost),
                "bound": _money(lot.bound),
                "why": lot.why,
            }
            for lot in shared.lots
        ],
        "order": order_data(shared.order),
    }


def _money(pence: int) -> str:
    return str((Decimal(pence) / 100).quantize(Decimal("0.01")))


def _pence(shared: Shared, pence: int) -> str:
    return money(Decimal(pence) / 100, shared.price.currency)
