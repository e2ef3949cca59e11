"""quote.pdf read back: what a customer must read, and what they must never see."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pypdfium2
import pytest

from pentice.advice.options import solve_options
from pentice.pack.drawings import roof_picture
from pentice.pack.quote import quote_pdf
from pentice.pack.words import demo_notice, demo_order_notice, invented, money
from pentice.pipeline import solve
from tests.designs import EXAMPLES, catalogue, changed, design_of
from tests.unit.pack.reading import own_firm, own_goods


def text_of(data: bytes) -> str:
    """All text of a PDF, lines run together."""
    document = pypdfium2.PdfDocument(data)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in document).split())


@pytest.mark.parametrize("name", EXAMPLES)
def test_cost_margin_and_hours_never_stand_on_the_quote(name: str) -> None:
    """None of the amounts that make up the price can be read, net apart from tax neither. Exact: printed amounts."""
    design = design_of(name)
    price = design.price
    text = text_of(quote_pdf(design))
    hidden = (price.cost, price.materials, price.labour, price.overhead, price.net, price.gross - price.cost)
    assert money(price.gross, price.currency) in text
    for amount in hidden:
        assert f"{amount:,.2f}" not in text
    for word in ("margin", "markup", "overheads", "overhead per", "profit", "hours"):
        assert word not in text.lower()


def test_stages_and_tax_stand_on_it() -> None:
    """Each stage, their total and the tax in it, to the cent. Exact: money."""
    price = design_of("potting-bay").price
    text = text_of(quote_pdf(design_of("potting-bay")))
    for _, amount in price.stages:
        assert money(amount, price.currency) in text
    assert f"Tax in it, 20 % {money(price.tax, price.currency)}" in text
    assert sum((amount for _, amount in price.stages), Decimal(0)) == price.gross


def test_options_stand_side_by_side_with_price_light_and_checks() -> None:
    """A, B and C with their names and what light they let through; rows that are alike for all are left out."""
    design = design_of("potting-bay")
    options = solve_options(design)
    text = text_of(quote_pdf(design, options, picture=roof_picture(design)))
    assert "A As drawn" in text
    for (name, option), letter in zip(options, "BC", strict=True):
        assert f"{letter} {name}" in text
        optics = option.parts.sheet.optics[option.parts.tint]
        assert f"{optics.light * 100:.0f} %" in text
    assert text.count("Every check holds.") >= 3
    assert "Sheets 5 5 5" not in text


def test_more_options_than_three_are_all_there() -> None:
    """Seven columns need three tables: none is dropped."""
    design = design_of("potting-bay")
    options = [(f"Choice {k}", design) for k in range(1, 7)]
    text = text_of(quote_pdf(design, options))
    for k, letter in enumerate("BCDEFG", 1):
        assert f"{letter} Choice {k}" in text


def test_an_option_that_fails_says_so_in_its_column() -> None:
    """The carport fails; offered beside the potting bay its column reads "fail"."""
    design = design_of("potting-bay")
    text = text_of(quote_pdf(design, [("Carport", design_of("snow-carport"))]))
    assert "sheet: fail." in text
    assert "fail." not in text_of(quote_pdf(design))


@pytest.mark.parametrize(
    "words",
    [
        "drums", "hot under it in full sun", "Nobody may ever stand on it", "water and a soft brush", "Mist",
        "Not in the price", "Our survey on 22 Feb 2027", "Good until 31 Mar 2027", "Check local law",
        "right to cancel", "Holds on typical values",
    ],
)  # fmt: skip
def test_honest_words_stand_on_it(words: str) -> None:
    """Heat, noise, cleaning, mist, not a walkway, exclusions, survey, validity, cancellation."""
    assert words in text_of(quote_pdf(design_of("potting-bay")))


def test_an_open_question_stands_on_the_first_page() -> None:
    """The cycle shelter has an overhead line nobody has answered for; the answered air brick is not repeated."""
    first = pypdfium2.PdfDocument(quote_pdf(design_of("cycle-shelter")))[0].get_textpage().get_text_range()
    assert "overhead line" in first
    first = pypdfium2.PdfDocument(quote_pdf(design_of("potting-bay")))[0].get_textpage().get_text_range()
    assert "air brick" not in first


def test_what_is_invented_is_called_so_until_all_of_it_is_the_users_own() -> None:
    """Rates by the firm, prices and products by the catalogue: each is named while it is the demo's. Exact: words."""
    design = design_of("potting-bay")
    assert "Rates, prices and products here are invented. This is not an offer." in text_of(quote_pdf(design))
    assert "Prices and products here are invented." in text_of(quote_pdf(own_firm(design)))
    assert "Rates here are invented." in text_of(quote_pdf(own_goods(design)))
    assert "invented" not in text_of(quote_pdf(own_goods(own_firm(design))))
    assert demo_notice(own_goods(own_firm(design))) == demo_order_notice(own_goods(design)) == ""


def test_one_invented_price_is_enough() -> None:
    """Firm and products are the user's own but for one seal with the demo's price: prices are invented."""
    design = own_goods(own_firm(design_of("potting-bay")))
    path = "seals.seal-base.price"
    marks = {path: design_of("potting-bay").catalogue.marks[path]}
    mixed = replace(design, catalogue=design.catalogue.model_copy(update={"marks": marks}))
    assert invented(mixed) == ("prices",)
    assert demo_order_notice(mixed).startswith("Prices here are invented.")


def test_what_does_not_hold_and_what_is_not_drawn_stand_on_the_front_and_in_the_price() -> None:
    """The carport fails: its front says that it is changed first. Without plate, beam and posts the price says so."""
    first = pypdfium2.PdfDocument(quote_pdf(design_of("snow-carport")))[0].get_textpage().get_text_range()
    assert "As drawn it is not shown to hold: sheet and bar cap." in " ".join(first.split())
    bare = changed("potting-bay", frame__beam_mm=None, frame__post_mm=None, frame__posts_at_mm=[])
    text = text_of(quote_pdf(solve(bare, catalogue())))
    assert "Eaves beam and posts: not drawn yet." in text
    assert "Timber frame" not in text
    assert "Wall plate and rafters" in text


def test_a_firm_that_gives_little_leaves_no_stray_marks() -> None:
    """No address, no telephone, no numbers, no terms: nothing but its name and the paper's own words."""
    design = design_of("potting-bay")
    bare = {"address": (), "telephone": "", "email": "", "numbers": {}, "terms": (), "exclusions": ()}
    text = text_of(quote_pdf(replace(design, firm=design.firm.model_copy(update=bare))))
    assert "Your firm's name Quote PB-0311" in text.replace("\u2019", "'")
    assert "Payment as on this page." in text
    assert ". . " not in text


def test_the_clear_height_is_never_rounded_up() -> None:
    """2017.3 clear reads 2.01 m, as the picture says it too."""
    text = text_of(quote_pdf(design_of("potting-bay")))
    assert "2.01 m clear" in text
    assert "2.02" not in text


@pytest.mark.parametrize("name", EXAMPLES)
def test_two_pages_and_the_same_bytes_twice(name: str) -> None:
    """The front with the price, the back with the notes; nothing spills over, with the picture in."""
    design = design_of(name)
    options = solve_options(design)
    data = quote_pdf(design, options, picture=roof_picture(design))
    assert data == quote_pdf(design, options, picture=roof_picture(design).encode())
    assert len(pypdfium2.PdfDocument(data)) == 2
