"""What a product table accepts, and the sentences with which it refuses the rest."""

from __future__ import annotations

from decimal import Decimal

import pytest

from pentice.catalogue import read_catalogue, read_catalogue_text
from pentice.catalogue.timbers import Timber
from pentice.errors import InputError

SHEET = """
[sheets.s]
name = "Sheet"
depth_mm = 16
walls = 3
rib_pitch_mm = 20
first_rib_mm = 10
mass_kg_m2 = 2.7
tints = ["clear"]
stock = [{ width_mm = 980, length_mm = "3.5 m", price = 75.5 }]
"""
BAR = """
[bars.b]
name = "Bar"
kind = "rafter-supported"
stem_mm = 12
seat_mm = 60
rebate_mm = 24
hole_gauge_mm = 22
sheet_depths_mm = [16]
mass_kg_m = 1.2
lengths = [{ length_mm = 3000, price = "50" }]
"""


def table(rows: str, head: str = 'mark = "typical"\nsource = "a test"') -> str:
    """A sheet with a load table of these rows."""
    return (
        f"{SHEET}\n[sheets.s.load_table]\n"
        f'span_is = "clear"\nbasis = "characteristic"\nduration = "snow and wind"\n{head}\nrows = [{rows}]\n'
    )


def row(span: int, load: float, sign: str = "down") -> str:
    """One row of a load table, between two edges."""
    return f'{{ span_mm = {span}, supports = "two edges", sign = "{sign}", load_kn_m2 = {load} }},'


def test_lengths_and_prices_are_read_as_people_write_them() -> None:
    """Metres become mm and a bare number becomes exact money; exact because nothing is computed."""
    stock = read_catalogue_text(SHEET).sheets["s"].stock[0]
    assert (stock.length_mm, stock.price) == (3500.0, Decimal("75.5"))


def test_a_key_left_out_stands_as_a_typical_value_never_as_a_given_one() -> None:
    """Expansion and creep have stand-ins; what rests on them must be seen to rest on them."""
    catalogue = read_catalogue_text(SHEET)
    assert catalogue.sheets["s"].alpha_per_k == 70e-6
    assert catalogue.is_typical("sheets.s.alpha_per_k")
    assert catalogue.is_typical("sheets.s.creep_snow")
    assert not catalogue.is_typical("sheets.s.mass_kg_m2")


def test_a_table_carries_its_own_mark_down_to_each_row() -> None:
    """A row asks its table who says so; a price asks its list."""
    catalogue = read_catalogue_text(table(row(600, 1.0)))
    mark = catalogue.mark_of("sheets.s.load_table.rows[0].load_kn_m2")
    assert mark is not None and (mark.mark, mark.source) == ("typical", "a test")
    assert catalogue.mark_of("sheets.s.depth_mm") is None
    assert read_catalogue_text(SHEET).mark_of("sheets.s.load_table") is None


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (SHEET + "by_n_m = 250", "expected by_n_m and sy_n_m together"),
        (SHEET + "skins_mm = [0.8, 0.8, 0.8]", "expected skins_mm, rib_mm and e_n_mm2 together"),
        (SHEET + "skins_mm = [0.8]\nrib_mm = 1\ne_n_mm2 = 2350", r"as many skins_mm as walls \(3\)"),
        (
            SHEET.replace("first_rib_mm = 10", "first_rib_mm = 30"),
            "expected first_rib_mm no more than rib_pitch_mm",
        ),
        (
            SHEET + "[sheets.s.optics.blue]\nlight = 0.5\nabsorptance = 0.5",
            "only its own tints .* found blue",
        ),
        (SHEET + "alpha_per_k = 70", r"sheets\.s\.alpha_per_k is 70; expected less than 0\.0005"),
        (SHEET.replace("75.5", '"dear"'), 'sheets.s.stock.0..price is "dear"; expected an amount of money'),
        (SHEET.replace("75.5", "nan"), "expected an amount of money"),
        (SHEET.replace("75.5", "true"), "expected an amount of money"),
        (SHEET.replace('"3.5 m"', '"long"'), 'length_mm is "long"; expected a length in mm'),
        (SHEET.replace("walls = 3", "walls = true"), "sheets.s.walls is true; expected a whole number"),
        (table(row(600, 1.0) + row(600, 0.9)), "expected one row for each case"),
        (table(row(600, 1.0) + row(700, 1.1)), "expected less load at a wider span"),
        (
            table(row(600, 1.0), 'mark = "declared"\nsource = "Invented"'),
            "an invented table is never declared",
        ),
        (
            table(row(600, 1.0), 'mark = "typical"\nsource = "x"\nedge_cover_mm = 20'),
            "expected edge_cover_is",
        ),
        (
            table(row(600, 1.0), 'mark = "given"\nsource = "x"'),
            "load_table.mark is \"given\"; expected 'declared'",
        ),
        (BAR.replace("stem_mm = 12", "stem_mm = 60"), "expected seat_mm greater than stem_mm"),
        (
            BAR.replace("rebate_mm = 24", "rebate_mm = 25"),
            "expected rebate_mm within half of seat_mm less stem_mm",
        ),
        (BAR.replace("hole_gauge_mm = 22", "hole_gauge_mm = 60"), "expected hole_gauge_mm less than seat_mm"),
        (
            '[profiles.p]\nname = "P"\nuse = "head"\nback_mm = 3\narm_mm = 40\n'
            "lengths = [{length_mm = 3000, price = 9}]",
            "expected inside_mm for a profile of use head",
        ),
        (
            '[screws.w]\nname = "W"\nd_mm = 6\nroot_mm = 6\nlength_mm = 60\nthread_mm = 40\nprice = 9',
            "expected root_mm less than d_mm",
        ),
        (
            '[screws.w]\nname = "W"\nd_mm = 6\nroot_mm = 4\nlength_mm = 60\nthread_mm = 70\nprice = 9',
            "expected thread_mm no more than length_mm",
        ),
        (
            '[screws.w]\nname = "W"\nd_mm = 5\nroot_mm = 3\nlength_mm = 60\nthread_mm = 40\n'
            "f_ax_n_mm2 = 14\nprice = 9",
            "expected rho_a_kg_m3 beside f_ax_n_mm2",
        ),
        (
            '[timbers.t]\nname = "T"\nclass = "C24"\nsizes_mm = [[47, 145]]\nlengths = [{length_mm = 3000}]',
            "expected price_m3, or a price for every length",
        ),
    ],
)
def test_what_cannot_be_right_is_refused_with_what_was_expected(text: str, says: str) -> None:
    """Each slip of typing gets the sentence that mends it."""
    with pytest.raises(InputError, match=says):
        read_catalogue_text(text)


def test_up_and_down_rows_are_cases_of_their_own() -> None:
    """More load upward at a wider span than downward at a narrow one is no contradiction."""
    found = read_catalogue_text(table(row(600, 1.0) + row(700, 1.4, "up"))).sheets["s"].load_table
    assert found is not None and len(found.rows) == 2


def timber(**more: object) -> Timber:
    """C24 in one section and one length."""
    values = {
        "id": "t",
        "name": "T",
        "class": "C24",
        "sizes_mm": [[47, 145]],
        "lengths": [{"length_mm": 3000}],
    }
    return Timber.model_validate({**values, **more})


def test_timber_is_priced_by_volume_to_the_cent() -> None:
    """0.047 x 0.145 x 3 m = 0.020445 m3 at 660 gives 13.4937, so 13.49; exact decimals."""
    assert timber(price_m3="660").price_of((47, 145), 3000) == Decimal("13.49")


def test_a_price_for_the_length_counts_before_the_volume() -> None:
    """A list that prices whole lengths is taken at its word."""
    priced = timber(price_m3="660", lengths=[{"length_mm": 3000, "price": "15"}])
    assert priced.price_of((47, 145), 3000) == Decimal("15")


def test_a_length_that_is_not_sold_has_no_price() -> None:
    """A wrong length must not be priced as if it could be bought."""
    with pytest.raises(ValueError, match="t is not sold 3100 mm long; expected 3000"):
        timber(price_m3="660").price_of((47, 145), 3100)


@pytest.mark.parametrize(
    ("find", "id", "says"),
    [
        (
            "sheet",
            "sheet-16-tripple",
            'glazing.sheet is "sheet-16-tripple"; .* Did you mean "sheet-16-triple"',
        ),
        ("bar", "zzz", 'glazing.bar is "zzz"; .* It knows bar-60-10, bar-60-16, bar-60-35'),
        ("profile", "head-16-45", "Did you mean"),
        ("screw", "6x60", "Did you mean"),
        ("gutter", "gutter-115", "Did you mean"),
        ("timber", "C24", "expected one of the timbers of the catalogue"),
    ],
)
def test_an_unknown_id_names_the_place_and_the_nearest_known_one(find: str, id: str, says: str) -> None:
    """A job that names a product wrongly is told where and which it may have meant."""
    with pytest.raises(InputError, match=says):
        getattr(read_catalogue(), find)(id)


def test_products_cannot_be_changed_after_they_are_read() -> None:
    """The shipped catalogue is shared between jobs: nobody may write into it."""
    with pytest.raises(ValueError, match="frozen"):
        read_catalogue().sheets["sheet-16-triple"].depth_mm = 20
