"""Spare of what is cut: where the cutting plan leaves less over than the rule asks, a short length more is bought."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from pentice.cutting.values import LengthPlan, LengthStock
from pentice.pieces.cut import length_stocks
from pentice.takeoff.roof import Roof
from pentice.takeoff.values import OrderLine

SPARE: Mapping[str, float] = {"timbers": 0.05, "foot": 0.03}
"""Share of the net length that must be over, of timber and of foot profiles: common practice, no source."""


def spare_lines(
    roofs: Sequence[Roof], lengths: Iterable[LengthPlan], stock: Iterable[OrderLine]
) -> Iterator[OrderLine]:
    """A length more of each section whose plan leaves too little over.

    Parameters
    ----------
    roofs
        The job, or several that are ordered together: a share of spare is of the whole.
    lengths
        What the plan, theirs together, cuts from lengths.
    stock
        The order lines of that plan.

    Yields
    ------
    OrderLine
        The cheapest length that makes up what is missing, or as few as do, with the sum that asks for it.
    """
    bought = {line.item: line for line in stock if line.packs}
    plans: dict[str, list[LengthPlan]] = {}
    for plan in lengths:
        plans.setdefault(plan.item, []).append(plan)
    for item, alike in plans.items():
        share = _share(roofs, item)
        net = sum(_net_mm(plan) for plan in alike)
        over = sum(plan.length_mm for plan in alike) - net
        missing = share * net - over
        sold = _sold(roofs, item) if missing > 0.0 and item in bought else []
        if sold:
            why = (
                f"Spare: the plan leaves {over / 1000:.2f} m over {net / 1000:.2f} m, {share * 100:.0f} % is asked; "
                "for packers, a split end, a slip of the saw."
            )
            length = min(sold, key=lambda s: (math.ceil(missing / s.length_mm), s.price, s.length_mm))
            yield _line(bought[item], length, math.ceil(missing / length.length_mm), why)


def _net_mm(plan: LengthPlan) -> int:
    """What pieces take of a length: the two triangles that leaning ends leave over are no spare [mm]."""
    return sum(p.length_mm for p in plan.pieces) + max((p.lean_mm for p in plan.pieces), default=0)


def _share(roofs: Sequence[Roof], item: str) -> float:
    kind, _, id = item.partition(".")
    feet = {roof.parts.foot_profile.id for roof in roofs}
    return SPARE["foot"] if id in feet else SPARE.get(kind, 0.0)


def _sold(roofs: Sequence[Roof], item: str) -> list[LengthStock]:
    """Lengths of a product that every job which cuts it may take: one gate may be shorter than another."""
    jobs = [
        [s for s in length_stocks(roof.pieces, roof.job, roof.catalogue) if s.item == item and not s.offcut]
        for roof in roofs
        if any(plan.item == item for plan in roof.cutting.lengths)
    ]
    return [s for s in jobs[0] if all(any(s.length_mm == t.length_mm for t in job) for job in jobs)]


def _line(like: OrderLine, stock: LengthStock, count: int, why: str) -> OrderLine:
    price = (Decimal(stock.price) / 100).quantize(Decimal("0.01"))
    named = like.description.rpartition(", ")[0]
    return replace(
        like,
        description=f"{named}, {stock.length_mm} mm",
        code=like.code if like.description.endswith(f" {stock.length_mm} mm") else "",
        quantity=Decimal(count),
        packs=count,
        unit_price=price,
        price=price * count,
        pieces=(),
        why=why,
        part="spare lengths",
    )
