"""The pricing stage: the order, the firm's norms and its terms to a price."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from pentice.catalogue.firm import Firm
from pentice.job.model import Job
from pentice.pieces.values import Piece
from pentice.pricing.build import Costs, Named, Terms, cents, price_from
from pentice.pricing.labour import labour_lines
from pentice.pricing.values import LabourLine, Price
from pentice.setting_out.values import SettingOut
from pentice.takeoff.values import OrderLine


def price_of(
    job: Job,
    firm: Firm,
    order: tuple[OrderLine, ...],
    setting_out: SettingOut,
    pieces: tuple[Piece, ...],
) -> Price:
    """The price of a job; what [price] of the job says counts before what the firm says.

    Parameters
    ----------
    job, firm
        Overrides, and the firm's rates, norms and terms.
    order
        What has to be bought.
    setting_out, pieces
        What there is to do.

    Returns
    -------
    Price
        Every amount to the cent [currency].
    """
    labour = labour_lines(firm, job, setting_out, pieces)
    costs = Costs(
        materials=material_lines(sum((line.price for line in order), Decimal(0)), firm),
        labour=labour,
        rate_per_h=firm.rate_per_h,
        overhead_per_h=firm.overhead_per_h,
        extra=tuple(_extras(job, firm, labour)),
        contingency_share=firm.contingency_share,
    )
    return price_from(costs, terms_of(job, firm))


def material_lines(list_price: Decimal, firm: Firm) -> tuple[Named, ...]:
    """What the materials come to, step by step.

    Parameters
    ----------
    list_price
        Sum of the order at list prices [currency].
    firm
        Discount, minimum order, waste and delivery.

    Returns
    -------
    tuple of (str, Decimal)
        Name and amount of each step that is not nothing [currency]. Discount comes off first, the order is then
        raised to its minimum, waste is taken on that; an order of nothing has no delivery.

    Examples
    --------
    >>> from pentice.catalogue.firm import read_firm
    >>> material_lines(Decimal("100.00"), read_firm())[1:]
    (('Up to the minimum order', Decimal('50.00')), ('Waste, 5 %', Decimal('7.50')), ('Delivery', Decimal('45.00')))
    """
    off = cents(list_price * firm.discount)
    lift = max(Decimal(0), firm.minimum_order - (list_price - off)) if list_price else Decimal(0)
    waste = cents((list_price - off + lift) * firm.waste_share)
    steps = (
        ("The order at list prices", cents(list_price)),
        (f"Discount, {_percent(firm.discount)} %", -off),
        ("Up to the minimum order", cents(lift)),
        (f"Waste, {_percent(firm.waste_share)} %", waste),
        ("Delivery", cents(firm.delivery) if list_price else Decimal(0)),
    )
    return tuple((name, amount) for k, (name, amount) in enumerate(steps) if amount or k == 0)


def terms_of(job: Job, firm: Firm) -> Terms:
    """Margin, tax, stages and currency: the job's own where it has them, else the firm's.

    Parameters
    ----------
    job, firm
        Overrides, and the firm's terms.

    Returns
    -------
    Terms
        Exact decimals, as they were written.
    """
    own = job.price
    stages = firm.stages if own.stages is None else tuple((n, Decimal(str(s))) for n, s in own.stages)
    return Terms(
        currency=own.currency or firm.currency,
        margin=firm.margin if own.margin is None else Decimal(str(own.margin)),
        tax_rate=firm.tax_rate if own.tax_rate is None else Decimal(str(own.tax_rate)),
        stages=stages,
        quoted_on=job.dates.quoted_on,
        valid_days=firm.valid_days,
    )


def _extras(job: Job, firm: Firm, labour: tuple[LabourLine, ...]) -> Iterator[Named]:
    """Costs that are neither material nor labour: the firm's usual ones, then the job's own."""
    own = firm.extras
    days = int(labour[-1].amount) // firm.people  # loading and travel stand last, in person-days
    usual = (
        (f"Travel, {days} days", own.travel_per_day * days),
        ("Access, tower or staging", own.access_hire),
        ("Skip", own.skip),
        ("Permits", own.permits),
        ("Structural check", own.structural_check),
    )
    yield from ((name, amount) for name, amount in usual if amount)
    yield from ((name, Decimal(str(amount))) for name, amount in job.price.extra)


def _percent(share: Decimal) -> str:
    return f"{(share * 100).normalize():f}"
