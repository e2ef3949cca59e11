"""Order lines for everything that is cut: the cutting plan says which stock is bought and what comes out of it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from pentice.catalogue.model import Product
from pentice.cutting.values import LengthPlan, SheetPlan
from pentice.takeoff.roof import Roof
from pentice.takeoff.values import OrderLine

CENT = Decimal("0.01")

Plan = SheetPlan | LengthPlan


def stock_lines(roof: Roof) -> Iterator[OrderLine]:
    """One line for each stock size of each product that the cutting plan uses; offcuts in hand cost nothing.

    Parameters
    ----------
    roof
        The job with its cutting plan.

    Yields
    ------
    OrderLine
        In the order of the plan.
    """
    found: dict[tuple[str, str, int, int], list[Plan]] = {}
    plans: tuple[Plan, ...] = (*roof.cutting.sheets, *roof.cutting.lengths)
    for plan in plans:
        width = plan.width_mm if isinstance(plan, SheetPlan) else 0
        found.setdefault((plan.item, plan.stock, width, plan.length_mm), []).append(plan)
    for (_, _, width, length), alike in found.items():
        yield _stock_line(roof, alike, width, length)


def _stock_line(roof: Roof, alike: list[Plan], width_mm: int, length_mm: int) -> OrderLine:
    first, count = alike[0], len(alike)
    kind, _, name = first.item.partition(".")
    id, _, more = name.partition(" ")
    product = roof.catalogue.table(kind)[id]
    in_hand = first.stock in _marks_in_hand(roof, kind, id)
    unit_price = (Decimal(first.price) / 100).quantize(CENT)
    size = f"{width_mm} x {length_mm} mm" if width_mm else f"{length_mm} mm"
    described = ", ".join(t for t in (product.name, more, _tint(roof, kind), size) if t)
    return OrderLine(
        item=first.item,
        code=_code(product, width_mm, length_mm),
        description=f"{described} (in hand: {first.stock})" if in_hand else described,
        group=_GROUPS[kind],
        quantity=Decimal(count),
        unit="set" if kind == "bars" and not roof.parts.bar.cap_lengths else "each",
        pack=Decimal(1),
        packs=0 if in_hand else count,
        spare=Decimal(0),
        unit_price=unit_price,
        price=unit_price * count,
        price_on=_price_on(product),
        pieces=tuple(p for plan in alike for p in _pieces_of(plan)),
        why=_why(roof, kind, in_hand),
        part=_part(roof, kind, id, more),
    )


_GROUPS = {
    "sheets": "Sheets",
    "bars": "Bars",
    "profiles": "Profiles",
    "timbers": "Timber",
    "gutters": "Water",
}


def _pieces_of(plan: Plan) -> tuple[str, ...]:
    if isinstance(plan, SheetPlan):
        return tuple(p.piece for p in plan.placements)
    return tuple(p.piece for p in plan.pieces)


def _marks_in_hand(roof: Roof, kind: str, id: str) -> frozenset[str]:
    """Names of the offcuts in hand of one product, as the cutting calls them."""
    return frozenset(
        o.mark or f"offcut {k}"
        for k, o in enumerate(roof.job.stock.offcuts, 1)
        if o.item == id and (o.width_mm is not None) == (kind == "sheets")
    )


def _tint(roof: Roof, kind: str) -> str:
    return roof.parts.tint if kind == "sheets" else ""


def _code(product: Product, width_mm: int, length_mm: int) -> str:
    """The supplier's code of this size, or of the product."""
    sizes: Any = getattr(product, "stock", None) or getattr(product, "lengths", ())
    for size in sizes:
        if int(size.length_mm) == length_mm and int(getattr(size, "width_mm", 0)) == width_mm:
            return getattr(size, "code", None) or product.code or ""
    return product.code or ""


def _price_on(product: Product) -> str:
    return product.price_on.isoformat() if product.price_on else ""


def _why(roof: Roof, kind: str, in_hand: bool) -> str:
    if in_hand:
        return "in hand: nothing to buy; look at its face and its film before it is cut"
    if kind == "sheets":
        return "cheapest by the cutting plan; one batch, all with the same face; no spare sheet"
    if kind == "bars" and not roof.parts.bar.cap_lengths:
        return "cheapest by the cutting plan; a length is a base with its cap, both cut to the same pieces"
    return "cheapest by the cutting plan"


def _part(roof: Roof, kind: str, id: str, more: str) -> str:
    if kind == "profiles":
        use = roof.catalogue.profiles[id].use
        return {"head": "head profile", "foot": "foot profile"}.get(use, "verge trims")
    if kind == "bars":
        return "cap" if more == "cap" else "bar base"
    return {"sheets": "sheets", "gutters": "gutter", "timbers": "timber"}[kind]
