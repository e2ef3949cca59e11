"""order.xlsx: the order as a workbook, grouped, prices by formula with the value beside each."""

from __future__ import annotations

import io
from collections.abc import Iterable
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from pentice.design import CutAndOrdered
from pentice.pack.drawings.values import not_proved
from pentice.pack.setting_out import file_date
from pentice.pack.words import demo_order_notice
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
"""Columns of the order, in the workbook and in the CSV."""

_WIDTHS = (16, 34, 10, 48, 10, 8, 8, 8, 8, 11, 12, 11, 10, 70)
_HEAD_ROW = 3
_LAST = len(HEADS) - 1


def grouped(lines: Iterable[OrderLine]) -> list[tuple[str, list[OrderLine]]]:
    """Lines by their group, groups in the order in which they come first.

    Parameters
    ----------
    lines
        Lines of an order.

    Returns
    -------
    list of (str, list of OrderLine)
        Every line once.
    """
    groups: dict[str, list[OrderLine]] = {}
    for line in lines:
        groups.setdefault(line.group, []).append(line)
    return list(groups.items())


def priced(line: OrderLine) -> bool:
    """False for something to buy that has no price in the catalogue.

    Parameters
    ----------
    line
        A line of an order.

    Returns
    -------
    bool
        True also where nothing is bought.
    """
    return not line.packs or line.unit_price > 0


def order_xlsx(design: CutAndOrdered) -> bytes:
    """The order as a workbook. Change packs or a price, and its line, its group and the total follow.

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
    options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    book = xlsxwriter.Workbook(out, options)
    day = file_date(design)
    book.set_properties({"title": "Order", "created": datetime(day.year, day.month, day.day, tzinfo=UTC)})
    sheet = book.add_worksheet("Order")
    forms = _forms(book)
    _page(sheet, design)
    _head(design, sheet, forms)
    row = _HEAD_ROW
    for group, lines in grouped(design.order):
        row = _group(sheet, row + 1, group, lines, forms)
    total = sum((line.price for line in design.order), Decimal(0))
    sheet.write_string(row + 1, 9, "Total", forms["bold"])
    sheet.write_formula(row + 1, 10, f"=SUBTOTAL(9,K{_HEAD_ROW + 2}:K{row + 1})", forms["sum"], float(total))
    book.close()
    return out.getvalue()


def _forms(book: Any) -> dict[str, Any]:
    """Ink on white: weight and rules, no colour that means something alone."""
    return {
        "bold": book.add_format({"bold": True}),
        "head": book.add_format({"bold": True, "bottom": 1, "valign": "top", "text_wrap": True}),
        "warning": book.add_format({"bold": True, "font_color": "#FFFFFF", "bg_color": "#14171A"}),
        "top": book.add_format({"valign": "top"}),
        "cash": book.add_format({"num_format": "#,##0.00", "valign": "top"}),
        "sum": book.add_format({"num_format": "#,##0.00", "bold": True, "top": 1}),
        "wrap": book.add_format({"text_wrap": True, "valign": "top"}),
    }


def _page(sheet: Any, design: CutAndOrdered) -> None:
    """Columns, and a print that fits an A4 page across with its head on each page."""
    for column, width in enumerate(_WIDTHS):
        sheet.set_column(column, column, width)
    sheet.freeze_panes(_HEAD_ROW + 1, 0)
    sheet.outline_settings(True, True, True, False)
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0, _HEAD_ROW)
    reference = f"{design.job.reference} revision {design.job.revision}".replace("&", "&&")
    sheet.set_footer(f"&L{reference}&ROrder page &P of &N")


def _head(design: CutAndOrdered, sheet: Any, forms: dict[str, Any]) -> None:
    job = design.job
    sheet.write_string(0, 0, f"Order, {job.name}, {job.reference} revision {job.revision}", forms["bold"])
    warning = not_proved(design)
    if warning:
        sheet.write_string(1, 0, warning, forms["warning"])
        for column in range(1, len(HEADS)):
            sheet.write_blank(1, column, None, forms["warning"])
    basis = f"Prices in {design.price.currency}, before discount, delivery and tax."
    sheet.write_string(2, 0, " ".join(x for x in (basis, demo_order_notice(design)) if x))
    for column, head in enumerate(HEADS):
        sheet.write_string(_HEAD_ROW, column, head.capitalize(), forms["head"])


def _group(sheet: Any, row: int, group: str, lines: list[OrderLine], forms: dict[str, Any]) -> int:
    """Its lines, which fold away, and under them their sum. Gives the row of the sum."""
    for i, line in enumerate(lines):
        sheet.set_row(row + i, None, None, {"level": 1})
        _line(sheet, row + i, line, forms)
    last = row + len(lines)
    total = sum((line.price for line in lines), Decimal(0))
    sheet.write_string(last, 9, group, forms["bold"])
    sheet.write_formula(last, 10, f"=SUBTOTAL(9,K{row + 1}:K{last})", forms["sum"], float(total))
    return last


def _line(sheet: Any, row: int, line: OrderLine, forms: dict[str, Any]) -> None:
    for column, text in enumerate((line.group, line.item, line.code)):
        sheet.write_string(row, column, text, forms["top"])
    sheet.write_string(row, 3, line.description, forms["wrap"])
    for column, amount in ((4, line.quantity), (5, line.spare), (7, line.pack), (8, line.packs)):
        sheet.write_number(row, column, float(amount), forms["top"])
    sheet.write_string(row, 6, line.unit, forms["top"])
    if priced(line):
        sheet.write_number(row, 9, float(line.unit_price), forms["cash"])
    else:
        sheet.write_string(row, 9, "ask", forms["bold"])
    formula = f"=IF(ISNUMBER(J{row + 1}),I{row + 1}*J{row + 1},0)"
    sheet.write_formula(row, 10, formula, forms["cash"], float(line.price))
    for column, text in ((11, line.price_on), (12, line.mark)):
        sheet.write_string(row, column, text, forms["top"])
    sheet.write_string(row, _LAST, line.why, forms["wrap"])
