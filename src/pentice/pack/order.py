"""order.pdf, order.csv and order.xlsx: what to buy, in packs, with the reason of each quantity."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from pentice.design import CutAndOrdered
from pentice.pack.drawings.values import not_proved
from pentice.pack.order_book import HEADS, grouped, order_xlsx, priced
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of
from pentice.pack.words import demo_order_notice, money
from pentice.takeoff.needs import NOT_HERE
from pentice.takeoff.values import OrderLine

__all__ = ["bought", "order_csv", "order_pdf", "order_xlsx"]


def bought(design: CutAndOrdered) -> tuple[OrderLine, ...]:
    """Lines that are bought.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of OrderLine
        In the order of the take-off.
    """
    return tuple(line for line in design.order if line.packs)


def order_csv(design: CutAndOrdered) -> str:
    """The order as CSV, every line of it, those of quantity 0 too.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        CRLF lines; a first line that says what is not proved and what is invented, where something is.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    warning = " ".join(x for x in (not_proved(design), demo_order_notice(design)) if x)
    if warning:
        writer.writerow([warning])
    writer.writerow(HEADS)
    for line in design.order:
        writer.writerow(_row(line))
    return out.getvalue()


def _row(line: OrderLine) -> list[str]:
    return [
        line.group,
        line.item,
        line.code,
        line.description,
        f"{line.quantity:f}",
        f"{line.spare:f}",
        line.unit,
        f"{line.pack:f}",
        str(line.packs),
        f"{line.unit_price:.2f}",
        f"{line.price:.2f}",
        line.price_on,
        line.mark,
        line.why,
    ]


def order_pdf(design: CutAndOrdered, notes: Sequence[str] = ()) -> bytes:
    """The order on paper: a box to tick for each article, packs with what is in one, and the reason.

    Parameters
    ----------
    design
        A solved job, or several that share an order.
    notes
        Sentences before the lines.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    lines = bought(design)
    currency = design.price.currency
    notice = demo_order_notice(design)
    body: list[b.Block] = [b.cautions([("Demo.", notice)], h_mm=2.8)] if notice else []
    body += [b.paragraph(note) for note in notes]
    for group, members in grouped(lines):
        body += [b.heading(group), _table(members, currency)]
    body += [b.keep((b.heading("What it comes to"), _totals(design))), *_left_out(design)]
    about = meta("Order", **heading_of(design), warning=not_proved(design))
    return make_pdf(DOCUMENT, {"meta": about, "sections": [section("Order", body, result=_result(design))]})


def _result(design: CutAndOrdered) -> str:
    """How many lines, what they cost, and how many have no price yet."""
    lines = bought(design)
    asked = sum(not priced(line) for line in lines)
    total = money(sum((line.price for line in lines), Decimal(0)), design.price.currency)
    ask = f" {asked} without a price: ask." if asked else ""
    count = "1 line" if len(lines) == 1 else f"{len(lines)} lines"
    return f"{count}, {total} at list prices, before discount and delivery.{ask}"


def _table(lines: list[OrderLine], currency: str) -> b.Block:
    rows = [
        (
            b.sign_cell("box", ""),
            f"*{line.description}*" + (f" {line.code}" if line.code else ""),
            _needed(line),
            _packs(line),
            money(line.price, currency) if priced(line) else "*ask*",
            _why(line),
        )
        for line in lines
    ]
    return b.table(
        ("", "Article", "Need + spare", "Buy", "Price", "Why"),
        rows,
        widths=(8, "1fr", 27, 21, 18.5, 62),
        align=("left", "left", "right", "right", "right", "left"),
        h=2.5,
        row_mm=1.9,
    )


def _why(line: OrderLine) -> str:
    why = f"{line.why[:1].upper()}{line.why[1:]}".replace(" %", "\u00a0%")
    return f"~{line.mark.capitalize()}~. {why}" if line.mark else why


def _needed(line: OrderLine) -> str:
    spare = f" + {_short(line.spare)}" if line.spare else ""
    return f"{_short(line.quantity)}{spare} {line.unit}"


def _packs(line: OrderLine) -> str:
    """Packs, with what is in one where that is not one piece: 2 × 50 m."""
    unit = "" if line.unit == "each" else f" {line.unit}"
    return f"*{line.packs}*" if line.pack == 1 else f"*{line.packs}* × {_short(line.pack)}{unit}"


def _short(amount: Decimal) -> str:
    """At most two decimals, no zeros behind.

    Examples
    --------
    >>> _short(Decimal("30.092")), _short(Decimal("3.00")), _short(Decimal("100"))
    ('30.09', '3', '100')
    """
    return f"{amount:.2f}".rstrip("0").rstrip(".")


def _totals(design: CutAndOrdered) -> b.Block:
    price = design.price
    rows = [(name, money(amount, price.currency)) for name, amount in price.material_lines]
    rows.append(("*Materials in the price*", f"*{money(price.materials, price.currency)}*"))
    days = sorted({line.price_on for line in bought(design) if line.price_on})
    when = " to ".join(dict.fromkeys(day(date.fromisoformat(d)) for d in (days[0], days[-1]))) if days else ""
    note = f"List prices of {when}, before tax. Ask what holds on the day." if when else "Before tax."
    return b.table((), rows, widths=("1fr", 40), align=("left", "right"), h=2.5, row_mm=1.3, note=note)


def _left_out(design: CutAndOrdered) -> list[b.Block]:
    rows = [(line.description, _because(line)) for line in design.order if not line.packs]
    if not rows:
        return []
    table = b.table(("Part", "Because"), rows, widths=(60, "1fr"), h=2.5, row_mm=1.3)
    return [b.heading("Not in this roof, or not to buy"), table]


def _because(line: OrderLine) -> str:
    """The reason alone: the head of the table has said that the part is not in this roof."""
    why = line.why.removeprefix(NOT_HERE)
    return f"{why[:1].upper()}{why[1:]}"
