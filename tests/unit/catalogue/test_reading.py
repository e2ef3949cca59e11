"""Catalogue files laid over each other, with every problem at once and the file that holds it."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from pentice.catalogue import catalogue_toml, read_catalogue, read_catalogue_text, select
from pentice.catalogue.model import KINDS
from pentice.errors import InputError, StoreError

Writer = Callable[..., Path]
"""Writes text as a catalogue file, under a name if one is given."""


@pytest.fixture
def own(tmp_path: Path) -> Writer:
    """Writes a user's catalogue file."""

    def write(text: str, name: str = "our-list.toml") -> Path:
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_one_key_of_a_product_is_replaced_and_the_rest_stays(own: Writer) -> None:
    """A declared mass takes the place of the typical one; nothing else of the sheet moves."""
    path = own(
        '[sheets.sheet-16-triple]\nmass_kg_m2 = { value = 2.8, mark = "declared", source = "their list" }'
    )
    before, after = read_catalogue(), read_catalogue([path])
    sheet = after.sheets["sheet-16-triple"]
    assert sheet == before.sheets["sheet-16-triple"].model_copy(update={"mass_kg_m2": 2.8})
    mark = after.mark_of("sheets.sheet-16-triple.mass_kg_m2")
    assert mark is not None and (mark.value, mark.mark, mark.source) == (2.8, "declared", "their list")


def test_a_bare_value_loses_the_mark_of_the_value_it_replaces(own: Writer) -> None:
    """Otherwise a user's own number would go on being called typical."""
    path = own("[sheets.sheet-16-triple]\nmass_kg_m2 = 2.8")
    assert read_catalogue().is_typical("sheets.sheet-16-triple.mass_kg_m2")
    assert read_catalogue([path]).mark_of("sheets.sheet-16-triple.mass_kg_m2") is None


def test_a_replaced_list_loses_the_marks_inside_it(own: Writer) -> None:
    """New optics without marks do not inherit the old ones."""
    path = own("[sheets.sheet-16-triple.optics]\nclear = { light = 0.7, absorptance = 0.1 }")
    found = read_catalogue([path])
    assert list(found.sheets["sheet-16-triple"].optics) == ["clear"]
    assert not found.is_typical("sheets.sheet-16-triple.optics.clear.light")


def test_the_last_file_counts_most(own: Writer) -> None:
    """Shipped, then the job's, then the command line's."""
    one = own("[screws.screw-6x60]\nprice = 20", "one.toml")
    two = own("[screws.screw-6x60]\nprice = 21", "two.toml")
    assert read_catalogue([one, two]).screws["screw-6x60"].price == Decimal(21)
    assert read_catalogue([two, one]).screws["screw-6x60"].price == Decimal(20)


def test_a_new_price_never_keeps_the_old_day(own: Writer) -> None:
    """An undated price must not look as if it were of the day of the one it replaces."""
    bare = own("[screws.screw-6x60]\nprice = 20", "bare.toml")
    dated = own("[prices]\non = 2026-12-01\n[screws.screw-6x60]\nprice = 20", "dated.toml")
    other = own("[screws.screw-6x60]\nf_tens_n = 7000", "other.toml")
    assert read_catalogue([bare]).screws["screw-6x60"].price_on is None
    assert read_catalogue([dated]).screws["screw-6x60"].price_on == datetime.date(2026, 12, 1)
    assert read_catalogue([other]).screws["screw-6x60"].price_on == datetime.date(2026, 11, 2)


def test_a_product_of_a_new_id_is_added(own: Writer) -> None:
    """A user's own button stands beside the shipped ones."""
    path = own('[buttons.ours]\nname = "Ours"\nshank_mm = 8\ndepth_mm = 20\nprice = "4.20"')
    assert list(read_catalogue([path]).buttons) == [*read_catalogue().buttons, "ours"]


def test_every_problem_of_every_file_is_told_at_once_with_its_file_and_place(own: Writer) -> None:
    """Nobody should mend one line only to be shown the next."""
    one = own("[sheets.sheet-16-triple]\nmas_kg_m2 = 3\ndepth_mm = -1\n[shets.x]\n", "one.toml")
    two = own(
        '[bars.bar-60-16]\nstem_mm = "wide"\nend_cap = "end-cap-17"\n[buttons.b]\nname = "B"', "two.toml"
    )
    with pytest.raises(InputError) as caught:
        read_catalogue([one, two])
    said = {(p.file.rpartition("/")[2], p.place): p.says for p in caught.value.problems}
    assert said["one.toml", "shets"] == 'shets is not a known table. Did you mean "sheets"?'
    assert 'did you mean "mass_kg_m2"?' in said["one.toml", "sheets.sheet-16-triple.mas_kg_m2"]
    assert "is -1; expected more than 0" in said["one.toml", "sheets.sheet-16-triple.depth_mm"]
    assert "expected a length in mm" in said["two.toml", "bars.bar-60-16.stem_mm"]
    assert said["two.toml", "buttons.b.price"] == "buttons.b.price is missing; give it."
    assert {"buttons.b.shank_mm", "buttons.b.depth_mm"} <= {place for _, place in said}


def test_a_product_that_names_another_which_is_not_there_is_refused(own: Writer) -> None:
    """A bar without its end caps would leave them out of the order."""
    path = own('[bars.bar-60-16]\nend_cap = "end-cap-17"')
    with pytest.raises(
        InputError, match=r'bars.bar-60-16.end_cap is "end-cap-17"; .* Did you mean "end-cap-1'
    ):
        read_catalogue([path])


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("depth = = 3", "is not TOML"),
        ("sheets = 5", r"sheets is 5; expected tables \[sheets.ID\]"),
        ("[sheets]\nx = 5", r"sheets.x is 5; expected a table \[sheets.x\]"),
        ('[seals."a.b"]\nname = "S"', 'seals has "a.b"; expected an id of letters'),
        ('[seals.s]\nid = "t"', "seals.s.id stands in the table's own name"),
        ("prices = 3", r"prices is 3; expected a table \[prices\]"),
        ("[prices]\nday = 3", "prices.day is not a known key"),
        ('[prices]\nmark = "guessed"', "prices.mark is 'guessed'; expected one of given"),
        ('[seals.s]\nprice = { value = 3, mark = "guessed" }', "seals.s.price.mark is 'guessed'"),
        ('whole_products = "yes"', 'whole_products is "yes"; expected true or false'),
        (
            '[seals.s]\nwdth = 3\nname = "S"\nuse = "cap"\nunit = "m"\nprice = 1',
            "wdth is not a known key; seals.s knows",
        ),
        (
            '[seals.s]\nname = "S"\nuse = "cap"\nunit = "m"\nprice = 1\n'
            '[buttons.s]\nname = "B"\nshank_mm = 8\ndepth_mm = 16\nprice = 1',
            "has the id of .*; expected an id of its own",
        ),
    ],
)
def test_a_file_of_the_wrong_outline_is_refused(text: str, says: str) -> None:
    """Outline first: a wrong table is named, not passed over."""
    with pytest.raises(InputError, match=says):
        read_catalogue_text(text)


def test_a_file_that_is_not_there_is_a_matter_of_files(tmp_path: Path) -> None:
    """The path is wrong, not the values."""
    with pytest.raises(StoreError, match="cannot be read"):
        read_catalogue([tmp_path / "none.toml"])


def test_a_file_that_is_not_text_is_refused(tmp_path: Path) -> None:
    """A spreadsheet saved under the wrong name."""
    path = tmp_path / "list.toml"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputError, match="is not UTF-8 text"):
        read_catalogue([path])


def test_written_back_and_read_alone_the_catalogue_is_the_same() -> None:
    """Products and marks: a job must be solved again from its own copy. Exact: the same values in the same types."""
    catalogue = read_catalogue()
    text = catalogue_toml(catalogue)
    again = read_catalogue_text(text)
    assert again == catalogue
    assert catalogue_toml(again) == text


def test_selected_products_bring_along_what_they_name_and_nothing_else() -> None:
    """A bar without its seals and end caps could not be ordered from the copy."""
    part = select(read_catalogue(), ["bar-60-16", "sheets.sheet-10-twin"])
    found = {kind: list(part.table(kind)) for kind in KINDS if part.table(kind)}
    assert found == {
        "sheets": ["sheet-10-twin"],
        "bars": ["bar-60-16"],
        "seals": ["seal-base", "seal-cap"],
        "sundries": ["end-cap-16", "cap-stop"],
    }
    assert {path.split(".")[1] for path in part.marks} == {id for ids in found.values() for id in ids}
    assert read_catalogue_text(catalogue_toml(part)) == part


def test_selecting_what_is_not_there_names_the_nearest() -> None:
    """A name lost on the way must not just be left out of the copy."""
    with pytest.raises(
        InputError, match=r'"bar-60-17" is no product of the catalogue\. Did you mean "bar-60-1'
    ):
        select(read_catalogue(), ["bar-60-17"])


def test_a_copy_replaces_a_shipped_product_entirely(own: Writer) -> None:
    """Keys that a later shipped catalogue adds to a product must not creep into an old job's copy."""
    part = select(read_catalogue(), ["sheet-16-triple"])
    bare = part.sheets["sheet-16-triple"].model_copy(update={"load_table": None})
    copy = own(catalogue_toml(part.model_copy(update={"sheets": {"sheet-16-triple": bare}})))
    found = read_catalogue([copy])
    assert found.sheets["sheet-16-triple"].load_table is None
    assert "sheet-10-twin" in found.sheets


def test_marks_keep_their_note_author_day_and_readings() -> None:
    """All that stands beside a value survives writing and reading."""
    text = (
        '[buttons.b]\nname = "B \\"x\\" \\u007f"\nprice = "4.20"\ndepth_mm = 16\nshank_mm = { value = 8, '
        'mark = "measured", readings = [8.1, 8], note = "n", source = "s", by = "b", on = 2026-11-02 }'
    )
    catalogue = read_catalogue_text(text)
    mark = catalogue.mark_of("buttons.b.shank_mm")
    assert mark is not None
    assert (mark.note, mark.source, mark.by, mark.on, mark.readings) == (
        "n",
        "s",
        "b",
        "2026-11-02",
        (8.1, 8.0),
    )
    assert read_catalogue_text(catalogue_toml(catalogue)) == catalogue
