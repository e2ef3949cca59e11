"""order.pdf, order.csv and order.xlsx: what to buy, in packs, with the reason of each quantity."""

from __future__ import annotations

import csv
import io
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from pentice.design import Design
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section
from pentice.pack.paper import blocks as b
from pentice.pack.quote import money
from pentice.pack.setting_out import heading_of, issued
from pentice.takeoff.values import OrderLine

HEADS = (
    "group",
    "item",
    "code",
    "description",
    "needed",
    "spare",
    "unit",
    "pack",
    "packs",
    "unit price",
    "price",
    "price on",
    "mark",
    "why",
)


def bought(design: Design) -> tuple[OrderLine, ...]:
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


def order_csv(design: Design) -> str:
    """The order as CSV, every line of it, those of quantity 0 too.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        CRLF lines; a first line that says what is not proved, where something is not.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    warning = not_proved(design)
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


def order_xlsx(design: Design) -> bytes:
    """The order as a workbook: prices follow from packs by formula, with the value beside it.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        XLSX; the same for the same design.
    """
    import xlsxwriter

    out = io.BytesIO()
    book = xlsxwriter.Workbook(
        out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    day = issued(design)
    book.set_properties({"title": "Order", "created": datetime(day.year, day.month, day.day, tzinfo=UTC)})
    sheet = book.add_worksheet("Order")
    bold = book.add_format({"bold": True, "bottom": 1})
    cash, wrap = (
        book.add_format({"num_format": "#,##0.00"}),
        book.add_format({"text_wrap": True, "valign": "top"}),
    )
    row = _head(design, sheet, book)
    for column, head in enumerate(HEADS):
        sheet.write_string(row, column, head.capitalize(), bold)
    first = row + 1
    for line in design.order:
        row += 1
        _write_line(sheet, row, line, cash, wrap)
    total = sum((line.price for line in design.order), Decimal(0))
    sheet.write_string(row + 1, 9, "Total", bold)
    sheet.write_formula(row + 1, 10, f"=SUM(K{first + 1}:K{row + 1})", cash, float(total))
    for column, width in enumerate((16, 34, 10, 48, 10, 8, 8, 8, 8, 11, 12, 11, 10, 70)):
        sheet.set_column(column, column, width)
    sheet.freeze_panes(first, 0)
    book.close()
    return out.getvalue()


def _head(design: Design, sheet: Any, book: Any) -> int:
    job = design.job
    sheet.write_string(
        0, 0, f"Order, {job.name}, {job.reference} revision {job.revision}", book.add_format({"bold": True})
    )
    warning = not_proved(design)
    if warning:
        sheet.write_string(1, 0, warning, book.add_format({"bold": True, "font_color": "#B00020"}))
    return 3


def _write_line(sheet: Any, row: int, line: OrderLine, cash: Any, wrap: Any) -> None:
    for column, text in ((0, line.group), (1, line.item), (2, line.code), (3, line.description)):
        sheet.write_string(row, column, text)
    sheet.write_number(row, 4, float(line.quantity))
    sheet.write_number(row, 5, float(line.spare))
    sheet.write_string(row, 6, line.unit)
    sheet.write_number(row, 7, float(line.pack))
    sheet.write_number(row, 8, line.packs)
    sheet.write_number(row, 9, float(line.unit_price), cash)
    sheet.write_formula(row, 10, f"=I{row + 1}*J{row + 1}", cash, float(line.price))
    for column, text in ((11, line.price_on), (12, line.mark)):
        sheet.write_string(row, column, text)
    sheet.write_string(row, 13, line.why, wrap)


def order_pdf(design: Design) -> bytes:
    """The order on paper.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    lines = bought(design)
    total = sum((line.price for line in lines), Decimal(0))
    currency = design.price.currency
    groups: dict[str, list[OrderLine]] = {}
    for line in lines:
        groups.setdefault(line.group, []).append(line)
    body: list[b.Block] = []
    for group, members in groups.items():
        body.append(b.heading(group))
        body.append(_table(members, currency))
    body.append(b.heading("Not in this roof, or not to buy"))
    body.append(
        b.table(
            ("Part", "Because"),
            [(line.description, line.why) for line in design.order if not line.packs],
            widths=(60, "1fr"),
            h=2.5,
        )
    )
    result = f"{len(lines)} lines, {money(total, currency)} at list prices, before discount and delivery."
    about = meta("Order", **heading_of(design), warning=not_proved(design))
    return make_pdf(DOCUMENT, {"meta": about, "sections": [section("Order", body, result=result)]})


def _table(lines: list[OrderLine], currency: str) -> b.Block:
    rows = []
    for line in lines:
        need = f"{line.quantity.normalize():f}" + (f" + {line.spare.normalize():f}" if line.spare else "")
        says = f"~{line.why}~" if line.mark == "typical" else line.why
        rows.append(
            (
                b.sign_cell("box", ""),
                f"*{line.description}*",
                f"{need} {line.unit}",
                f"{line.packs}",
                money(line.price, currency),
                says,
            )
        )
    return b.table(
        ("", "Article", "Needed + spare", "Packs", "Price", "Why"),
        rows,
        widths=(8, "1fr", 24, 12, 20, 56),
        align=("left", "left", "right", "right", "right", "left"),
        h=2.5,
    )
