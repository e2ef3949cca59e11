"""From costs to a price: pure arithmetic in Decimal, each amount rounded to the cent where it is written down."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal

from pentice.errors import InputError
from pentice.pricing.values import LabourLine, Price

CENT = Decimal("0.01")
ZERO = Decimal("0.00")
SHARE_STEP = Decimal("0.0001")
Named = tuple[str, Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """What the job costs the firm, before any profit."""

    materials: tuple[Named, ...]
    """List price of the order and what comes on or off it [currency]."""
    labour: tuple[LabourLine, ...]
    rate_per_h: Decimal
    overhead_per_h: Decimal
    extra: tuple[Named, ...] = ()
    """Travel, hire, skip, permits [currency]."""
    contingency_share: Decimal = Decimal(0)
    """On all the rest, for what a survey cannot see [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What the firm wants to earn, the tax, and when it is paid."""

    currency: str
    margin: Decimal
    """Profit as a share of the net price [-]."""
    tax_rate: Decimal
    stages: tuple[Named, ...]
    """Name and share of the gross."""
    quoted_on: date | None = None
    valid_days: int = 0


def cents(amount: Decimal) -> Decimal:
    """An amount of money to the cent, a half going up.

    Examples
    --------
    >>> cents(Decimal("3675.625"))
    Decimal('3675.63')
    """
    return amount.quantize(CENT, ROUND_HALF_UP)


def price_from(costs: Costs, terms: Terms) -> Price:
    """The price of a job. Net is rounded, tax is taken on the rounded net, then they are added.

    Parameters
    ----------
    costs
        Materials, hours and extras.
    terms
        Margin, tax and stages. A margin of 0.20 is a markup of 0.25: both are shown.

    Returns
    -------
    Price
        Every amount to the cent [currency]; shares to four places [-].

    Raises
    ------
    InputError
        The margin is 1 or more, or below 0: nothing can be sold at that.

    Examples
    --------
    >>> hours = LabourLine(task="all", amount=Decimal(31), unit="h", norm_h=Decimal(1), hours=Decimal(31))
    >>> costs = Costs(materials=(("order", Decimal(1722)),), labour=(hours,), rate_per_h=Decimal(24),
    ...               overhead_per_h=Decimal("9.5"), extra=(("travel", Decimal(180)),))
    >>> price = price_from(costs, Terms(currency="GBP", margin=Decimal("0.2"), tax_rate=Decimal("0.2"), stages=()))
    >>> price.cost, price.net, price.tax, price.gross, price.markup
    (Decimal('2940.50'), Decimal('3675.63'), Decimal('735.13'), Decimal('4410.76'), Decimal('0.2500'))
    """
    if not 0 <= terms.margin < 1:
        raise InputError.of(
            "price.margin",
            str(terms.margin),
            "expected 0 or more and less than 1",
            "0.2 is 20 % of the net price",
        )
    hours = sum((line.hours for line in costs.labour), Decimal(0))
    materials, labour = _total(costs.materials), cents(hours * costs.rate_per_h)
    overhead = cents(hours * costs.overhead_per_h)
    extras = tuple((name, cents(amount)) for name, amount in costs.extra)
    if costs.contingency_share:
        before = materials + labour + overhead + _total(extras)
        extras += (("Contingency", cents(before * costs.contingency_share)),)
    cost = materials + labour + overhead + _total(extras)
    net = cents(cost / (1 - terms.margin))
    tax = cents(net * terms.tax_rate)
    return Price(
        currency=terms.currency,
        materials=materials,
        labour_hours=hours,
        labour=labour,
        overhead=overhead,
        extra=_total(extras),
        cost=cost,
        margin=terms.margin,
        markup=(terms.margin / (1 - terms.margin)).quantize(SHARE_STEP, ROUND_HALF_UP),
        net=net,
        tax_rate=terms.tax_rate,
        tax=tax,
        gross=net + tax,
        stages=stages_of(net + tax, terms.stages),
        valid_until=_valid_until(terms),
        labour_lines=costs.labour,
        material_lines=tuple((name, cents(amount)) for name, amount in costs.materials),
        extra_lines=extras,
    )


def _total(amounts: tuple[Named, ...]) -> Decimal:
    return sum((cents(amount) for _, amount in amounts), ZERO)


def stages_of(gross: Decimal, stages: tuple[Named, ...]) -> tuple[Named, ...]:
    """Payments to the cent; the last takes what is left, so that they add up.

    Parameters
    ----------
    gross
        The price with tax [currency].
    stages
        Name and share of each payment; the share of the last is what the others leave [-].

    Returns
    -------
    tuple of (str, Decimal)
        Name and amount [currency].

    Examples
    --------
    >>> stages_of(Decimal("10.00"), (("a", Decimal("0.333")), ("b", Decimal("0.333")), ("c", Decimal("0.334"))))
    (('a', Decimal('3.33')), ('b', Decimal('3.33')), ('c', Decimal('3.34')))
    """
    due: list[Named] = [(name, cents(gross * share)) for name, share in stages]
    if due:
        due[-1] = (due[-1][0], gross - sum((amount for _, amount in due[:-1]), ZERO))
    return tuple(due)


def _valid_until(terms: Terms) -> str:
    if terms.quoted_on is None:
        return ""
    return (terms.quoted_on + timedelta(days=terms.valid_days)).isoformat()
