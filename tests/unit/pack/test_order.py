"""The order on paper, as CSV and as a workbook, read back: every line, packs, sums, and what is not proved."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from decimal import Decimal
from typing import Any

import openpyxl
import pikepdf
import pypdfium2
import pytest

from pentice.design import Design
from pentice.pack.order import bought, order_csv, order_pdf, order_xlsx
from pentice.pack.order_book import HEADS, grouped, priced
from pentice.takeoff.values import OrderLine
from tests.designs import EXAMPLES, design_of
from tests.unit.pack.reading import made_elsewhere, own_goods, proved_copy


def line(**changes: Any) -> OrderLine:
    """One line of an order: two rolls of 25 m for 30 m and 3 m spare."""
    given: dict[str, Any] = {
        "item": "tapes.tape-a", "code": "T-7", "description": "Tape 60 mm", "group": "Tapes and seals",
        "quantity": Decimal("30.092"), "unit": "m", "pack": Decimal("25"), "packs": 2, "spare": Decimal("3"),
        "unit_price": Decimal("617.25"), "price": Decimal("1234.50"), "price_on": "2026-11-02",
        "why": "Along the head.",
    }  # fmt: skip
    return OrderLine(**{**given, **changes})


def with_order(*lines: OrderLine) -> Design:
    """The potting bay with another order."""
    return replace(design_of("potting-bay"), order=lines)


def words_of(pdf: bytes) -> str:
    """All words of a PDF, spaces and line ends made alike."""
    pages = pypdfium2.PdfDocument(pdf)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def sheet_of(data: bytes, *, values: bool) -> Any:
    """The sheet of a workbook: values as they were computed, or formulas."""
    return openpyxl.load_workbook(io.BytesIO(data), data_only=values)["Order"]


def test_a_line_says_need_spare_packs_with_what_is_in_one_price_and_why() -> None:
    """Two rolls of 25 m: nobody should have to look up what a pack is."""
    words = words_of(order_pdf(with_order(line())))
    for said in ("Tape 60 mm T-7", "30.09 + 3 m", "2 × 25 m", "£1,234.50", "Along the head."):
        assert said in words
    assert "1 line, £1,234.50 at list prices" in words


def test_an_article_without_a_price_is_asked_for_and_never_costs_nothing() -> None:
    """A price of 0.00 would read as free of charge, on paper and in the workbook."""
    design = with_order(line(), line(description="Odd screws", unit_price=Decimal(0), price=Decimal(0)))
    words = words_of(order_pdf(design))
    assert "1 without a price: ask." in words
    assert "£0.00" not in words
    assert sheet_of(order_xlsx(design), values=True)["J6"].value == "ask"


def test_a_seed_is_marked_typical_and_a_part_left_out_has_its_reason() -> None:
    """What nobody checked is marked; a part that is not bought is no gap in the order."""
    none = {"packs": 0, "quantity": Decimal(0), "spare": Decimal(0), "price": Decimal(0)}
    design = with_order(
        line(mark="typical"), line(description="Fascia", why="not in this roof: no need", **none)
    )
    words = words_of(order_pdf(design))
    assert "Typical. Along the head." in words
    assert "Fascia No need" in words
    assert [x.description for x in bought(design)] == ["Tape 60 mm"]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_line_that_is_bought_stands_on_the_paper(name: str) -> None:
    """Order and paper agree for each example; a description may run over a line end."""
    design = design_of(name)
    words = words_of(order_pdf(design))
    assert [x.description for x in bought(design) if x.description not in words] == []


def test_while_something_is_not_proved_paper_csv_and_workbook_say_so() -> None:
    """People open one file: each of the three carries the warning, and none does when all is proved."""
    design, warning = design_of("uneven-veranda"), "Do not order or build before"
    assert design.proved is False
    assert words_of(order_pdf(design)).count(warning) == len(pypdfium2.PdfDocument(order_pdf(design)))
    assert warning in order_csv(design).splitlines()[0]
    assert warning in sheet_of(order_xlsx(design), values=True)["A2"].value
    proved = proved_copy(design)
    assert proved.proved is True
    assert warning not in words_of(order_pdf(proved))
    assert order_csv(own_goods(proved)).startswith("group,item")
    assert sheet_of(order_xlsx(proved), values=True)["A2"].value is None


def test_invented_prices_and_products_stand_on_paper_csv_and_workbook() -> None:
    """The shipped catalogue is a demo: nobody orders from it. With the user's own goods nothing of it is said."""
    notice = "Prices and products here are invented. Put your supplier's in their place before you order."
    design = design_of("potting-bay")
    own = own_goods(design)
    assert notice in words_of(order_pdf(design))
    assert notice in order_csv(design).splitlines()[0]
    assert notice in sheet_of(order_xlsx(design), values=True)["A3"].value
    assert "invented" not in words_of(order_pdf(own))
    assert "invented" not in order_csv(own)
    assert "invented" not in sheet_of(order_xlsx(own), values=True)["A3"].value


def test_the_csv_holds_every_line_exactly() -> None:
    """Amounts as they are, nothing rounded; commas and marks in a reason survive."""
    rows = list(csv.reader(io.StringIO(order_csv(with_order(line(why='Say "so", then go'))))))
    assert tuple(rows[1]) == HEADS
    assert dict(zip(HEADS, rows[2], strict=True)) == {
        "group": "Tapes and seals", "item": "tapes.tape-a", "code": "T-7", "description": "Tape 60 mm",
        "needed": "30.092", "spare": "3", "unit": "m", "pack": "25", "packs": "2", "unit price": "617.25",
        "price": "1234.50", "price on": "2026-11-02", "mark": "", "why": 'Say "so", then go',
    }  # fmt: skip


def test_the_workbook_computes_prices_groups_and_total_and_keeps_their_values() -> None:
    """A formula in each price with its value beside it; groups fold. Sums in pence by hand: to 1e-9."""
    other = line(group="Bars", packs=3, unit_price=Decimal("10.10"), price=Decimal("30.30"))
    data = order_xlsx(with_order(line(), line(), other))
    formulas, values = sheet_of(data, values=False), sheet_of(data, values=True)
    column = [(formulas[f"K{row}"].value, values[f"K{row}"].value) for row in range(5, 11)]
    assert [f for f, _ in column] == [
        "=IF(ISNUMBER(J5),I5*J5,0)", "=IF(ISNUMBER(J6),I6*J6,0)", "=SUBTOTAL(9,K5:K6)",
        "=IF(ISNUMBER(J8),I8*J8,0)", "=SUBTOTAL(9,K8:K8)", "=SUBTOTAL(9,K5:K9)",
    ]  # fmt: skip
    assert [v for _, v in column] == pytest.approx([1234.5, 1234.5, 2469.0, 30.3, 30.3, 2499.3], abs=1e-9)
    assert [formulas.row_dimensions[row].outlineLevel for row in (5, 6, 7)] == [1, 1, 0]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_workbook_adds_up_to_the_order(name: str) -> None:
    """Total, sums of groups and lines agree with the design to the cent."""
    design = design_of(name)
    sheet = sheet_of(order_xlsx(design), values=True)
    by_row = [[cell.value for cell in row] for row in sheet.iter_rows(min_row=5)]
    sums = {row[9]: row[10] for row in by_row if row[0] is None}
    assert sums.pop("Total") == pytest.approx(float(sum(x.price for x in design.order)), abs=0.005)
    expected = {group: float(sum(x.price for x in lines)) for group, lines in grouped(design.order)}
    assert sums == pytest.approx(expected, abs=0.005)
    assert len([row for row in by_row if row[0] is not None]) == len(design.order)


def test_text_that_looks_like_a_formula_stays_text() -> None:
    """A name out of a user's own catalogue is never computed by the workbook."""
    cell = sheet_of(order_xlsx(with_order(line(description="=1+1"))), values=False)["D5"]
    assert (cell.value, cell.data_type) == ("=1+1", "s")


def test_the_workbook_is_dated_by_the_job() -> None:
    """No clock: the day of issue, and the same bytes from two processes with two hash seeds."""
    book = openpyxl.load_workbook(io.BytesIO(order_xlsx(design_of("potting-bay"))))
    assert str(book.properties.created) == "2027-03-01 00:00:00"
    assert made_elsewhere("pentice.pack.order", "order_xlsx") == order_xlsx(design_of("potting-bay"))


def test_the_paper_is_tagged() -> None:
    """Structure, language, title."""
    pdf = order_pdf(design_of("potting-bay"))
    with pikepdf.open(io.BytesIO(pdf)) as document:
        assert document.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in document.Root
        assert str(document.Root.Lang).startswith("en")
        assert str(document.docinfo["/Title"]).startswith("Order, Potting bay")


def test_groups_keep_their_order_and_every_line() -> None:
    """Lines of one group that stand apart come together under the first."""
    lines = [line(group="B"), line(group="A"), line(group="B", code="2")]
    assert [(name, len(found)) for name, found in grouped(lines)] == [("B", 2), ("A", 1)]
    assert priced(line(packs=0, unit_price=Decimal(0)))
