"""The catalogue as a page of text and as data."""

from __future__ import annotations

import json

from pentice.catalogue import products_data, products_text, read_catalogue, read_catalogue_text
from pentice.catalogue.model import KINDS

SEAL = '[seals.s]\nname = "Seal"\nuse = "cap"\nunit = "m"\npack = 50\nprice = "29.00"\nsize = "coil"\n'


def test_each_product_has_its_line() -> None:
    """What is not listed cannot be named in a job."""
    catalogue = read_catalogue()
    lines = products_text(catalogue).splitlines()
    for kind in KINDS:
        assert kind.upper() in lines
        for id, product in catalogue.table(kind).items():
            assert sum(line.startswith(f"  {id} ") and product.name in line for line in lines) == 1


def test_a_line_counts_typical_values_without_prices() -> None:
    """A typical price builds no unsafe roof; a typical cap hold may."""
    line = next(x for x in products_text(read_catalogue()).splitlines() if x.startswith("  button-16 "))
    assert line.endswith("sheet 16, shank 10; 3 typical values")
    text = products_text(read_catalogue_text(SEAL))
    assert text.splitlines()[:2] == ["SEALS", "  s  Seal: coil"]
    assert "Prices of: no day given." in text


def test_data_is_plain_json_with_money_as_text_and_marks_by_path() -> None:
    """Other programs read it: nothing may be lost or rounded on the way."""
    catalogue = read_catalogue()
    data = json.loads(json.dumps(products_data(catalogue), allow_nan=False))
    assert [key for key in data if key in KINDS] == list(KINDS)
    assert data["buttons"]["button-16"]["price"] == "8.78"
    assert data["buttons"]["button-16"]["price_on"] == "2026-11-02"
    assert data["timbers"]["timber-c24"]["class"] == "C24"
    assert data["marks"]["bars.bar-60-16.cap_hold_n_m"] == {
        "mark": "typical",
        "source": "invented for the demo, no product",
    }
    assert len(data["marks"]) == len(catalogue.marks)


def test_keys_that_say_nothing_are_left_out_of_the_data() -> None:
    """A missing declared value must not look like a value."""
    assert "f_ax_n_mm2" not in products_data(read_catalogue())["screws"]["screw-5x60"]


def test_prices_that_are_invented_are_called_so_and_a_users_own_are_not() -> None:
    """The shipped price list is a demo; prices given bare say nothing. Exact: words."""
    text = products_text(read_catalogue())
    assert text.endswith("Prices that stand for no product: invented for the demo.\n")
    bare = read_catalogue().model_copy(update={"marks": {}})
    assert "stand for no product:" not in products_text(bare)
