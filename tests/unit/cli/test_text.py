"""A design as a page of text: what is counted, what is asked, what it costs, and nothing empty."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.cli.text import WIDTH, checks_text, design_text, place_text
from pentice.design import worst_of_each
from pentice.pipeline import solve
from tests.designs import EXAMPLES, SEVEN, catalogue, changed, design_of
from tests.unit.pack.reading import own_firm, own_goods, proved_copy


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_line_is_wider_than_a_terminal_and_no_head_stands_alone(name: str) -> None:
    """At most 100 characters; no part of the page is a head alone. Exact: counts."""
    text = design_text(design_of(name))
    parts = text.split("\n\n")
    assert all(len(part.splitlines()) > 1 for part in parts)
    assert max(len(line) for line in text.splitlines()) <= WIDTH


@pytest.mark.parametrize("name", SEVEN)
def test_every_verdict_stands_in_one_row_under_the_heads_of_its_columns(name: str) -> None:
    """Names, places and numbers begin where their heads do, and no row goes on below. Exact: places of letters."""
    rows = design_text(design_of(name)).partition("CHECKS")[2].partition("\n\n")[0].splitlines()
    head = next(row for row in rows if row.split()[:1] == ["what"])
    at, asked = (head.index(word) for word in ("worst at", "needed of"))
    for check in worst_of_each(design_of(name).checks):
        row = next(row for row in rows if row[head.index("what") :].startswith(f"{check.name}  "))
        place = place_text(check.place)
        assert row[at:].startswith(place or " "), row
        assert row[at - 2 : at] == "  ", row
        if check.utilisation is not None:
            assert row[asked:].startswith(f"{check.demand:.4g} of "), row
            assert row.endswith(f"{check.utilisation:.0%}"), row


def test_a_job_without_open_questions_has_no_cautions() -> None:
    """The air brick of the potting bay was answered; the overhead line of the shelter was not. Exact: words."""
    assert "CAUTIONS" not in design_text(design_of("potting-bay"))
    shelter = " ".join(design_text(design_of("cycle-shelter")).split())
    assert "Ask the network that owns the line, before anything long is carried in." in shelter


def test_timber_that_the_job_does_not_name_is_asked_for_by_its_key() -> None:
    """It is neither drawn nor ordered nor priced, which nobody must learn on site. Exact: words."""
    bare = changed("potting-bay", frame__beam_mm=None, frame__post_mm=None, frame__posts_at_mm=[])
    text = " ".join(design_text(solve(bare, catalogue())).split())
    assert "Not drawn, ordered or priced: eaves beam and posts." in text
    assert "name frame.beam_mm and frame.post_mm with frame.posts_at_mm." in text
    assert "Not drawn, ordered" not in design_text(design_of("uneven-veranda"))


def test_what_makes_the_price_adds_up_on_the_page() -> None:
    """Cost by its parts, with hours; the demo is named until nothing of it is left. Exact: money and words."""
    design = design_of("potting-bay")
    price, text = design.price, design_text(design)
    assert f"cost {price.cost:,.2f}: materials {price.materials:,.2f}, labour {price.labour:,.2f}" in text
    assert price.materials + price.labour + price.overhead + price.extra == price.cost
    assert "This is not an offer." in text
    assert "This is not an offer." not in design_text(own_goods(own_firm(design)))


def test_failing_checks_are_counted_and_lead_to_advice() -> None:
    """One fails, many fail; a design with neither is not sent to look for cures. Exact: words."""
    carport = design_text(design_of("snow-carport"))
    assert f"Not proved: of {len(design_of('snow-carport').checks)} checks 18 fail." in carport
    assert "pentice advise" in carport
    assert "pentice advise" not in design_text(design_of("potting-bay"))
    one = next(c for c in design_of("snow-carport").checks if c.verdict == "fails")
    proved = proved_copy(design_of("snow-carport"))
    single = replace(proved, checks=(one,))
    assert "Not proved: of 1 check 1 fails." in design_text(single)
    assert "Not proved" not in design_text(proved)


def test_a_share_of_one_has_no_unit_and_one_place_is_one_place() -> None:
    """No "0.33 of 1 of 1", no "1 places". Exact: words."""
    both = design_text(design_of("potting-bay")) + checks_text(design_of("potting-bay"))
    assert "of 1 of 1" not in both
    assert "1 places" not in both
    assert "(whole roof; 1 place)" in both


def test_a_bar_is_as_long_as_on_its_ticket() -> None:
    """Whole mm, down, as on paper: a bar of 1969.6 is cut to 1969."""
    for name in ("cycle-shelter", "potting-bay"):
        design = design_of(name)
        bar = design.setting_out.plane.bars[0]
        assert f"  bars {int(bar.base_mm)} long," in design_text(design)
