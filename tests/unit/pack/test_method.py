"""method.pdf: gust limits by hand, holds, cautions."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2
import pytest

from pentice.pack.handling import general_stop_mph, gust_limit_m_s, gust_words, handling_gust_m_s, people_for
from pentice.pack.method import method_pdf, order_of_work
from pentice.pack.site_page import hold_lines
from pentice.pipeline import solve
from pentice.setting_out.values import Bay
from tests.designs import EXAMPLES, catalogue, changed, design_of


def text_of(data: bytes) -> str:
    """All text of a PDF, lines run together."""
    document = pypdfium2.PdfDocument(data)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in document).split())


def bay_of(width_mm: float, length_mm: float) -> Bay:
    """A bay with a sheet of another size."""
    bay = design_of("potting-bay").setting_out.plane.bays[0]
    return replace(
        bay, width_mm=replace(bay.width_mm, cut=width_mm), length_mm=replace(bay.length_mm, cut=length_mm)
    )


@pytest.mark.parametrize(
    ("area_m2", "gust_m_s"),
    [(1.0, 14.28), (2.9, 8.39), (6.0, 5.83)],
)
def test_gust_limit_by_hand(area_m2: float, gust_m_s: float) -> None:
    """150 / (0.613 x 1.2 x A): 203.91, 70.31, 33.99; their roots by pocket calculator. Tolerance: the digit written."""
    assert gust_limit_m_s(area_m2) == pytest.approx(gust_m_s, abs=0.005)


def test_the_general_stop_rules_small_sheets() -> None:
    """0.2 m2 could be held to 31.9 m/s, but 35 mph is 15.65 m/s; 6 m long and narrow: 26 mph is 11.62 m/s."""
    assert handling_gust_m_s(bay_of(400.0, 500.0)) == pytest.approx(15.6464, abs=1e-4)
    assert handling_gust_m_s(bay_of(200.0, 6000.0)) == pytest.approx(11.6230, abs=1e-4)


def test_a_limit_in_words_is_rounded_down() -> None:
    """2.9 m2: 8.385 m/s and 18.76 mph read 8.3 and 18: more wind is never allowed than the sum gives."""
    assert gust_words(bay_of(1000.0, 2900.0)) == "stop at gusts of 8.3\u00a0m/s (18\u00a0mph)"


def test_people() -> None:
    """Two up to 4 m and 4 m2, three above either."""
    assert people_for(bay_of(1000.0, 4000.0)) == 2
    assert people_for(bay_of(500.0, 4001.0)) == 3
    assert people_for(bay_of(1200.0, 3900.0)) == 3
    assert general_stop_mph(5000.1) == (17.0, 26.0)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_hold_with_its_limit_stands_on_the_method_sheet(name: str) -> None:
    """Each line of holds A to D, with what holds."""
    design = design_of(name)
    text = text_of(method_pdf(design))
    sizes = design.setting_out
    for line in hold_lines(diagonals_mm=sizes.diagonals_mm, pitch_deg=sizes.plane.pitch_deg):
        assert line.item in text
        assert line.passes in text
        assert line.if_not in text


@pytest.mark.parametrize(
    "words",
    [
        "Hold A.", "Hold B.", "Hold C", "Hold D.", "Gutter brackets while you can reach them", "Nobody stands",
        "Nobody works alone at height", "tower", "ladder", "FFP3", "30 mA", "asbestos", "Fence off", "Burn nothing",
        "first aider", "signature", "m/s", "mph", "Holds on typical values", "air brick",
    ],
)  # fmt: skip
def test_order_and_cautions(words: str) -> None:
    """What a crew must have read before it starts."""
    assert words in text_of(method_pdf(design_of("potting-bay")))


def test_what_is_not_shown_to_hold_stands_before_the_work() -> None:
    """The veranda's sheet is refused; a row of posts that nothing is said to brace is asked about."""
    text = text_of(method_pdf(design_of("uneven-veranda")))
    assert "Not shown to hold" in text
    assert "Not proved" in text
    assert "What braces it is not shown to hold" not in text
    bare = solve(changed("uneven-veranda", frame__bracing_kn=None), catalogue())
    assert "What braces it is not shown to hold: ask." in text_of(method_pdf(bare))


def test_brackets_come_before_sheets_and_bracing_before_both() -> None:
    """The common miss: brackets after the sheets are on."""
    text = text_of(method_pdf(design_of("potting-bay")))
    places = [
        text.index(w) for w in ("Rafters from one end", "Gutter brackets", "Bar bases", "Hold C for each")
    ]
    assert places == sorted(places)


def test_a_frame_that_stands_is_looked_at_and_not_built() -> None:
    """Nobody sets out rafters that stand already: no plate, no posts, no running marks. Exact: words."""
    standing = " ".join(order_of_work(design_of("uneven-veranda")))
    new = " ".join(order_of_work(design_of("potting-bay")))
    for words in ("Fix the wall plate", "Posts and bases", "Rafters from one end"):
        assert words in new
        assert words not in standing
    assert "look how each is held at the wall and on the beam" in standing
    assert "stand already" not in new


def test_a_roof_without_a_gutter_has_no_brackets_to_fix() -> None:
    """The film comes off all the same. Exact: words."""
    design = design_of("potting-bay")
    bare = " ".join(order_of_work(replace(design, parts=replace(design.parts, gutter=None))))
    assert "Gutter" not in bare
    assert "All film off." in bare


def test_an_open_question_names_whom_to_ask() -> None:
    """The overhead line of the cycle shelter."""
    assert "Ask the network that owns the line" in text_of(method_pdf(design_of("cycle-shelter")))
