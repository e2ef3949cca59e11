"""From what is needed to a line of the order: spare by rule, packs rounded up, the reason beside it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal

from pentice.catalogue.fixings import Button, Screw
from pentice.catalogue.goods import Packed
from pentice.catalogue.model import Catalogue
from pentice.takeoff.values import OrderLine

NOT_HERE = "not in this roof: "
NO_PRODUCT = "no product in the catalogue: buy "


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """A rule of spare: a share of what is needed, and some more that does not grow with it."""

    share: float = 0.0
    more: float = 0.0
    for_each_job: bool = False
    """Of ``more`` where jobs are ordered together: True, each job has its own; False, the order has it once."""

    def of(self, quantity: float, unit: str) -> float:
        """What is spare of a quantity; whole where things are counted.

        Parameters
        ----------
        quantity
            Net need.
        unit
            "m" is measured, all else is counted.

        Returns
        -------
        float
            In the same unit.

        Examples
        --------
        >>> Spare(share=0.1, more=1).of(12.0, "each"), Spare(share=0.1).of(12.0, "m")
        (3.0, 1.2000000000000002)
        """
        part = self.share * quantity
        return (part if unit == "m" else float(math.ceil(part - 1e-9))) + self.more


NONE = Spare()
ONE_FOR_EACH_JOB = Spare(more=1.0, for_each_job=True)
"""An opened tube sets before the next job begins: judgement, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One thing that is needed, before it is packed."""

    part: str
    """In the words of the list of parts of a finished roof."""
    group: str
    quantity: float
    unit: str
    why: str
    item: str | None = None
    """Key of the catalogue; None where the catalogue holds no such thing."""
    spare: Spare = NONE
    pieces: tuple[str, ...] = ()
    mark: str = ""


def line_of(need: Need, catalogue: Catalogue) -> OrderLine:
    """The order line of a need.

    Parameters
    ----------
    need
        What is needed.
    catalogue
        For the pack and its price.

    Returns
    -------
    OrderLine
        Packs cover need and spare; nothing needed, nothing bought. A product's own share of spare counts before the
        rule. What the catalogue does not hold, or sells by another unit, is a line without price that says so.

    Examples
    --------
    >>> sign = Need(part="sign", group="Sundries", quantity=1.0, unit="each", why="One.")
    >>> line_of(sign, Catalogue()).why
    'no product in the catalogue: buy sign. One.'
    """
    product = _product(need.item, catalogue)
    if need.quantity <= 0.0 or product is None:
        return _without_product(need, f"{NO_PRODUCT}{need.part}. {need.why}")
    need = _in_units_of(need, product)
    if (need.unit == "m") != (_unit(product) == "m"):
        sold = f"the catalogue sells {product.id} by the {_unit(product)}, this counts {need.unit}"
        return _without_product(need, f"{NO_PRODUCT}{need.part}; {sold}. {need.why}")
    share = getattr(product, "spare_share", None)
    quantity = _exact(need.quantity)
    spare = _exact(need.quantity * share if share is not None else _spare(need))
    packs = math.ceil((quantity + spare) / Decimal(str(product.pack)))
    return OrderLine(
        item=need.item or need.part,
        code=product.code or "",
        description=product.name,
        group=need.group,
        quantity=quantity,
        unit=_unit(product),
        pack=_exact(product.pack),
        packs=packs,
        spare=spare,
        unit_price=product.price,
        price=product.price * packs,
        price_on=product.price_on.isoformat() if product.price_on is not None else "",
        pieces=need.pieces,
        why=need.why,
        mark=need.mark,
        part=need.part,
    )


def _without_product(need: Need, why: str) -> OrderLine:
    wanted = need.quantity > 0.0
    return OrderLine(
        item=need.part,
        code="",
        description=need.part[0].upper() + need.part[1:],
        group=need.group,
        quantity=_exact(need.quantity),
        unit=need.unit,
        pack=Decimal(1),
        packs=math.ceil(_exact(need.quantity + _spare(need))) if wanted else 0,
        spare=_exact(_spare(need)) if wanted else Decimal(0),
        unit_price=Decimal(0),
        price=Decimal(0),
        pieces=need.pieces,
        why=why if wanted else need.why,
        mark=need.mark,
        part=need.part,
    )


def _spare(need: Need) -> float:
    return need.spare.of(need.quantity, need.unit)


def _product(item: str | None, catalogue: Catalogue) -> Packed | Button | Screw | None:
    if item is None:
        return None
    kind, _, id = item.partition(".")
    product = catalogue.table(kind).get(id)
    return product if isinstance(product, Packed | Button | Screw) else None


def _unit(product: Packed | Button | Screw) -> str:
    return product.unit if isinstance(product, Packed) else "each"


def _in_units_of(need: Need, product: Packed | Button | Screw) -> Need:
    """A pair is two where the product is sold one by one."""
    if need.unit == "pair" and _unit(product) == "each":
        spare = replace(need.spare, more=2.0 * need.spare.more)
        return replace(need, quantity=2.0 * need.quantity, spare=spare, unit="each")
    return need


def _exact(value: float) -> Decimal:
    """A quantity to the thousandth, as people write it: what nobody can measure closer."""
    return Decimal(f"{round(value, 3):.3f}".rstrip("0").rstrip("."))


def not_here(part: str, group: str, because: str) -> Need:
    """A part that this roof does not have, with the reason.

    Parameters
    ----------
    part, group
        What it is.
    because
        Why it is not there.

    Returns
    -------
    Need
        Quantity 0.
    """
    return Need(part=part, group=group, quantity=0.0, unit="each", why=f"{NOT_HERE}{because}")


SEED = "A typical number until the calculation asks for another."
FORCE = "The force on each stands in the calculations."


def fixing(
    part: str, quantity: float, unit: str, why: str, item: str | None, declared: float | None = None
) -> Need:
    """Fixings by number: marked typical until the job declares what one bears, since the calculations count on it then.

    Parameters
    ----------
    part, quantity, unit, why, item
        As of a need.
    declared
        What one of them bears; None where the job does not say [kN].

    Returns
    -------
    Need
        Without spare; what the number rests on stands in the reason.

    Examples
    --------
    >>> fixing("bases", 2, "each", "One for each post.", None).why
    'One for each post. A typical number until the calculation asks for another.'
    >>> fixing("bases", 2, "each", "One for each post.", None, 8.0).why
    'One for each post. The force on each stands in the calculations.'
    """
    return Need(
        part=part,
        group="Fixings",
        quantity=quantity,
        unit=unit,
        why=f"{why} {SEED if declared is None else FORCE}",
        item=item,
        mark="typical" if declared is None else "",
    )
