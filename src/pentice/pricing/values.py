"""The price: cost, margin beside markup, tax, stages to the cent."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourLine:
    """One task of the work: how much, at which norm, how many hours."""

    task: str
    amount: Decimal
    unit: str
    norm_h: Decimal
    hours: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """The quote in figures. Net is rounded first, tax is taken on the rounded net, then they are added."""

    currency: str
    materials: Decimal
    """With waste, discount, delivery and minimum order."""
    labour_hours: Decimal
    labour: Decimal
    overhead: Decimal
    extra: Decimal
    """Travel, hire, skip, permits."""
    cost: Decimal
    margin: Decimal
    """Profit as a share of net."""
    markup: Decimal
    """Profit as a share of cost."""
    net: Decimal
    tax_rate: Decimal
    tax: Decimal
    gross: Decimal
    stages: tuple[tuple[str, Decimal], ...]
    valid_until: str = ""
    labour_lines: tuple[LabourLine, ...] = ()
    material_lines: tuple[tuple[str, Decimal], ...] = ()
    extra_lines: tuple[tuple[str, Decimal], ...] = ()
