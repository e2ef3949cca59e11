"""Spare of what is cut: where the cutting plan leaves less over than the rule asks, one short length more is bought."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from decimal import Decimal

from pentice.cutting.values import LengthPlan, LengthStock
from pentice.pieces.cut import length_stocks
from pentice.takeoff.roof import Roof
from pentice.takeoff.values import OrderLine

SPARE: Mapping[str, float] = {"timbers": 0.05, "foot": 0.03}
"""Share of the net length that must be over, of timber and of foot profiles: common practice, no source."""


def spare_lines(roof: Roof, stock: Iterable[OrderLine]) -> Iterator[OrderLine]:
    """A length more of each section whose plan leaves too little over.

    Parameters
    ----------
    roof
        The job with its cutting plan.
    stock
        The order lines of that plan.

    Yields
    ------
    OrderLine
        The cheapest length that makes up what is missing, with the sum that asks for it.
    """
    bought = {line.item: line for line in stock if line.packs}
    sold = [s for s in length_stocks(roof.pieces, roof.job, roof.catalogue) if not s.offcut]
    plans: dict[str, list[LengthPlan]] = {}
    for plan in roof.cutting.lengths:
        plans.setdefault(plan.item, []).append(plan)
    for item, alike in plans.items():
        share = _share(roof, item)
        net = sum(p.length_mm for plan in alike for p in plan.pieces)
        over = sum(plan.length_mm for plan in alike) - net
        missing = share * net - over
        fits = [s for s in sold if s.item == item and s.length_mm >= missing]
        if missing > 0.0 and fits and item in bought:
            why = (
                f"Spare: the plan leaves {over / 1000:.2f} m over {net / 1000:.2f} m, {share * 100:.0f} % is asked; "
                "for packers, a split end, a slip of the saw."
            )
            yield _line(bought[item], min(fits, key=lambda s: (s.price, s.length_mm)), why)


def _share(roof: Roof, item: str) -> float:
    kind, _, id = item.partition(".")
    return SPARE["foot"] if id == roof.parts.foot_profile.id else SPARE.get(kind, 0.0)


def _line(like: OrderLine, stock: LengthStock, why: str) -> OrderLine:
    price = (Decimal(stock.price) / 100).quantize(Decimal("0.01"))
    named = like.description.rpartition(", ")[0]
    return replace(
        like,
        description=f"{named}, {stock.length_mm} mm",
        code=like.code if like.description.endswith(f" {stock.length_mm} mm") else "",
        quantity=Decimal(1),
        packs=1,
        unit_price=price,
        price=price,
        pieces=(),
        why=why,
        part="spare lengths",
    )
