"""Gap card, gust limits, snow to clear, calendar and money: the small sums on the papers."""

from __future__ import annotations

from decimal import Decimal

import pytest

from pentice.pack.care import snow_depths_mm
from pentice.pack.gaps import gap_cards
from pentice.pack.handling import general_stop_mph, gust_limit_m_s, handling_gust_m_s, people_for
from pentice.pack.handover import handover_pdf
from pentice.pack.programme import programme_ics
from pentice.pack.site_sheet import site_page_of
from pentice.pack.words import money
from tests.designs import design_of


def test_the_gap_card_by_hand() -> None:
    """A sheet of 830 by 2488 cut at 12: at 32 it is 20 K warmer, so each gap is less by what it grew.

    Source: alpha L dT by hand with 70e-6: 830 grows 1.162, half of it at each side; 2488 grows 3.483 at the head.
    """
    design = design_of("potting-bay")
    bay = design.setting_out.plane.bays[0]
    card = gap_cards(design)[0]
    at = {row.temperature_c: row for row in card.rows}
    assert at[10.0].side_gap_mm - at[30.0].side_gap_mm == pytest.approx(830 * 70e-6 * 20 / 2)
    assert at[10.0].head_gap_mm - at[30.0].head_gap_mm == pytest.approx(2488 * 70e-6 * 20)
    assert at[10.0].side_gap_mm == pytest.approx((bay.between_stems_mm.least - 830) / 2 + 830 * 70e-6 * 2 / 2)
    assert card.bays == (1, 2, 3, 4, 5)


def test_gusts() -> None:
    """150 N on 2.9 m2: 8.4 m/s. Source: F = 0.613 v2 1.2 A by hand."""
    assert gust_limit_m_s(2.9) ** 2 * 0.613 * 1.2 * 2.9 == pytest.approx(150.0)
    assert (general_stop_mph(5001.0), general_stop_mph(5000.0)) == ((17.0, 26.0), (23.0, 35.0))
    assert people_for(design_of("potting-bay").setting_out.plane.bays[0]) == 2


def test_the_handover_holds_a_sheet_to_the_limit_of_its_own_area() -> None:
    """830 by 2488 is 2.065 m2: the root of 150 / (0.613 x 1.2 x 2.065) is 9.94 m/s, 22 mph; the general stop is 35.

    Source: by hand from F = 0.613 v2 1.2 A; 1 mph is 0.44704 m/s.
    """
    import pypdfium2  # the reader takes long to import

    design = design_of("potting-bay")
    assert min(handling_gust_m_s(bay) for bay in design.setting_out.plane.bays) == pytest.approx(
        9.94, abs=0.01
    )
    paper = pypdfium2.PdfDocument(handover_pdf(design))
    text = " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in paper)
    assert "gusts of 9.9 m/s (22 mph)" in text
    assert "35 mph" not in text


def test_snow_at_which_to_clear() -> None:
    """Known where every check of sheet and rafter passes, deeper at the wall; not known where one does not."""
    depths = snow_depths_mm(design_of("potting-bay"))
    assert depths is not None
    (_, wall, wet), (_, foot, _) = depths
    assert wall > foot > 0.0
    assert wall == pytest.approx(2.0 * wet)
    # Never above what was calculated: mu = 2 h / s_k = 2 x 0.9 / 0.45 = 4, so 4 x 0.45 = 1.8 kN/m2, over 2.0 kN/m3.
    # Source: EN 1991-1-3, 5.3.6 and Annex E, by hand.
    assert wall == pytest.approx(900.0)
    assert snow_depths_mm(design_of("snow-carport")) is None
    assert snow_depths_mm(design_of("uneven-veranda")) is None


def test_the_calendar() -> None:
    """CRLF, no line over 75 bytes, working days only, unique names, no clock."""
    text = programme_ics(design_of("cycle-shelter"))
    lines = text.split("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert max(len(line.encode()) for line in lines) <= 75
    names = [line for line in lines if line.startswith("UID:")]
    assert len(names) == len(set(names)) >= 10
    assert "DTSTART;VALUE=DATE:20270517" in lines
    assert {line for line in lines if line.startswith("DTSTAMP")} == {"DTSTAMP:20270405T000000Z"}


def test_money_as_papers_have_it() -> None:
    """Sign, comma thousands, two decimals, a true minus."""
    assert money(Decimal("-1234.5"), "EUR") == "−€1,234.50"


def test_the_site_page_asks_for_every_bay() -> None:
    """One entry a bay, the warning with it."""
    page = site_page_of(design_of("uneven-veranda"))
    assert [bay.number for bay in page.bays] == [1, 2, 3, 4]
    assert page.not_proved.startswith("Not proved")
