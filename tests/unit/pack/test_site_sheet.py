"""site-sheet.pdf and what the site page is filled with; the gap card by a second route."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2
import pytest

from pentice.catalogue.sheets import LoadTable
from pentice.design import Design
from pentice.pack.gaps import CARD_C, gap_card, gap_cards, safe_until_c
from pentice.pack.site_page import site_page_html
from pentice.pack.site_sheet import (
    down_tenth,
    site_page_of,
    site_sheet_pdf,
    up_tenth,
)
from pentice.setting_out.values import Bay
from pentice.takeoff.ranges import between_stems_served
from tests.designs import EXAMPLES, band_of, design_of


def text_of(data: bytes) -> str:
    """All text of a PDF, lines run together."""
    document = pypdfium2.PdfDocument(data)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in document).split())


def with_table(design: Design, **changes: object) -> Design:
    """The design with another load table of its sheet."""
    sheet = design.parts.sheet
    table = sheet.load_table
    assert isinstance(table, LoadTable)
    other = sheet.model_copy(update={"load_table": table.model_copy(update=changes)})
    return replace(design, parts=replace(design.parts, sheet=other))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_gap_card_by_a_second_route(name: str) -> None:
    """The sheet's edges as lengths at each temperature, L(T) = L (1 + a (T - Tf)); the bay does not move.

    Second route: sizes at temperature against the space, not gap less movement. Tolerance: rounding of floats.
    """
    design = design_of(name)
    temps = design.setting_out.temperatures
    for bay in design.setting_out.plane.bays:
        raw = bay.length_mm.cut + bay.edges.head.gap_mm
        for row in gap_card(design, bay).rows:
            grown = 1.0 + temps.alpha_per_k * (row.temperature_c - temps.fit_c)
            assert row.side_gap_mm == pytest.approx(
                (bay.between_stems_mm.least - bay.width_mm.cut * grown) / 2.0, abs=1e-9
            )
            assert row.head_gap_mm == pytest.approx(raw - bay.length_mm.cut * grown, abs=1e-9)


def test_the_card_runs_from_minus_5_to_40() -> None:
    """In steps of 5, for each bay of the design once."""
    assert CARD_C == (-5, 0, 5, 10, 15, 20, 25, 30, 35, 40)
    cards = gap_cards(design_of("uneven-veranda"))
    assert sorted(n for card in cards for n in card.bays) == [1, 2, 3, 4]


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_sheet_lies_free_up_to_its_safe_temperature_and_not_two_degrees_above(name: str) -> None:
    """At the whole degree printed no gap is closed; 1 K on, one is. Exact: sign of a length."""
    design = design_of(name)
    temps = design.setting_out.temperatures
    for bay in design.setting_out.plane.bays:
        until = safe_until_c(bay, temps)

        def left(at_c: float, bay: Bay = bay) -> float:
            grown = 1.0 + temps.alpha_per_k * (at_c - temps.fit_c)
            side = bay.between_stems_mm.least - bay.width_mm.cut * grown
            return min(side, bay.length_mm.cut + bay.edges.head.gap_mm - bay.length_mm.cut * grown)

        assert left(until) >= -1e-9
        assert left(until + 1.0) < 0.0
        assert until >= temps.most_c


def test_a_sheet_that_jams_before_the_hottest_day_says_so() -> None:
    """A head gap of 2 is used up at 12 + 2 / (70e-6 x 2488) = 23.48: 23 °C."""
    design = design_of("potting-bay")
    plane = design.setting_out.plane
    tight = tuple(
        replace(bay, edges=replace(bay.edges, head=replace(bay.edges.head, gap_mm=2.0))) for bay in plane.bays
    )
    changed = replace(design, setting_out=replace(design.setting_out, planes=(replace(plane, bays=tight),)))
    assert "Jams at 23 °C" in text_of(site_sheet_pdf(changed))
    assert "Jams" not in text_of(site_sheet_pdf(design))


def served(design: Design) -> tuple[float, float] | None:
    """The range of the first bay."""
    bay, temps = design.setting_out.plane.bays[0], design.setting_out.temperatures
    return between_stems_served(design.job, design.parts.sheet, temps, bay)


def test_a_bay_at_the_ends_of_its_range_still_fits_and_beyond_it_does_not() -> None:
    """Room of 6 at the least, cold bite of 10 at the most. Second route: the sheet's own cold width in the bay."""
    found = served(with_table(design_of("potting-bay"), edge_cover_mm=None, edge_cover_is=None))
    assert found is not None
    cold = 830.0 * (1.0 - 70e-6 * (12.0 + 15.0))
    for between, holds in ((found[1] - 0.01, True), (found[1] + 0.01, False)):
        assert (24.0 - (between - cold) >= 10.0) == holds
    assert found[0] - 830.0 == pytest.approx(6.0)


def test_the_cover_that_a_table_asks_for_cuts_the_range() -> None:
    """18 as fitted in a rebate of 24: 6 a side at most, 830 + 12 = 842.0; 18 at least: 828.43 + 24 - 18 = 834.43,
    less than the room of 836 needs: no width will do."""
    design = design_of("potting-bay")
    assert served(design) == pytest.approx((836.0, 842.0))
    assert served(with_table(design, edge_cover_is="least")) is None


def test_the_range_ends_with_the_widest_row_of_the_table() -> None:
    """Rows up to 3 more than the clear span as drawn leave 3 more between the stems. By hand: both move together."""
    design = design_of("potting-bay")
    bay, table = design.setting_out.plane.bays[0], design.parts.sheet.load_table
    assert table is not None
    last = bay.daylight_mm + 3.0
    rows = [r for r in table.rows if r.length_between_supports_mm is None and r.span_mm < bay.daylight_mm]
    ends = [next(r for r in rows if r.sign == s).model_copy(update={"span_mm": last}) for s in ("down", "up")]
    found = served(with_table(design, rows=(*rows, *ends)))
    assert found is not None
    assert found[1] == pytest.approx(bay.between_stems_mm.greatest + 3.0)


def test_limits_are_printed_to_the_safe_side() -> None:
    """A lower limit up, an upper one down; what is exact stays."""
    assert (up_tenth(836.01), up_tenth(836.0), down_tenth(842.09), down_tenth(842.1)) == (
        "836.1",
        "836.0",
        "842.0",
        "842.1",
    )


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_paper_carries_sizes_cards_boxes_holds_and_cautions(name: str) -> None:
    """What the crew builds from, and what is not proved."""
    design = design_of(name)
    text = text_of(site_sheet_pdf(design))
    for bay in design.setting_out.plane.bays:
        assert f"{bay.number} {bay.width_mm.cut:.0f} {bay.length_mm.cut:.0f}" in text
    for words in (
        "Sheet °C", "head", "middle", "foot", "Hold A", "Hold B", "Hold C", "Hold D", "Nobody stands", "stop at gusts",
        "Lies free until", band_of(design),
    ):  # fmt: skip
        assert words in text, words


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_page_is_filled_from_the_design(name: str) -> None:
    """Every bay, its drawn widths inside its range, each hold, each caution; and the page can be made of it."""
    design = design_of(name)
    page = site_page_of(design)
    assert len(page.bays) == len(design.setting_out.plane.bays)
    for bay in page.bays:
        assert bay.serves_mm is not None
        assert (
            bay.serves_mm[0] - 1e-9
            <= min(bay.between_stems_mm)
            <= max(bay.between_stems_mm)
            <= bay.serves_mm[1]
        )
        assert bay.bite_least_mm is not None
        assert bay.bite_mm >= bay.bite_least_mm
    assert {line.hold for line in page.holds} == {"A", "B", "C", "D"}
    assert band_of(design) in site_page_html(page)


def test_the_same_bytes_twice() -> None:
    """No clock, no chance."""
    assert site_sheet_pdf(design_of("cycle-shelter")) == site_sheet_pdf(design_of("cycle-shelter"))
