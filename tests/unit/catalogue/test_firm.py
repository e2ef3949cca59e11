"""The firm that quotes: the demo firm, the user's own, and what is refused."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from pentice.catalogue import firm_toml, read_firm
from pentice.catalogue.firm import LABOUR_TASKS, Labour, firm_from_text, shipped_firm_text
from pentice.errors import InputError, StoreError


def test_the_demo_firm_is_nobody_and_its_norms_are_seeds() -> None:
    """No real firm, and each norm says that it has no source."""
    firm = read_firm()
    assert firm.name == "Your firm's name"
    assert all(firm.marks[f"labour.{task}"].source == "common practice, no source" for task in LABOUR_TASKS)


def test_every_norm_has_its_words_and_its_unit() -> None:
    """The price names each task; a norm without words would be a blank line on the quote."""
    assert list(LABOUR_TASKS) == list(Labour.model_fields)


def test_money_and_shares_are_exact() -> None:
    """A rate written as 0.20 is a fifth, not a binary near it."""
    firm = read_firm()
    assert (firm.margin, firm.tax_rate, firm.rate_per_h) == (Decimal("0.2"), Decimal("0.2"), Decimal("24.00"))
    assert sum(share for _, share in firm.stages) == 1


def test_written_back_the_firm_is_the_same() -> None:
    """The pack holds a copy of the firm that solves to the same price."""
    firm = read_firm()
    assert firm_from_text(firm_toml(firm)) == firm
    assert firm_toml(firm_from_text(firm_toml(firm))) == firm_toml(firm)


def test_a_firm_is_read_from_its_file(tmp_path: Path) -> None:
    """The user's copy of the demo firm."""
    path = tmp_path / "firm.toml"
    path.write_text(shipped_firm_text().replace("margin = 0.20", "margin = 0.25"), encoding="utf-8")
    assert read_firm(path).margin == Decimal("0.25")
    with pytest.raises(StoreError, match="cannot be read"):
        read_firm(tmp_path / "none.toml")
    path.write_bytes(b"\xff")
    with pytest.raises(InputError, match="is not UTF-8 text"):
        read_firm(path)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("margin = 0.20", "margin = 20", "margin is 20; expected less than 1"),
        ("margin = 0.20", "margn = 0.2", 'margn is not a known key; did you mean "margin"'),
        (
            '["with the order", 0.25]',
            '["with the order", 0.2]',
            "stages do not add up; expected shares .* found 0.95",
        ),
        ("rafter = {", "rafters = {", 'labour.rafters is not a known key; did you mean "rafter"'),
        ("people = 2", 'people = "two"', 'people is "two"; expected a whole number'),
        ("skip = 0", 'skip = "much"', 'extras.skip is "much"; expected an amount of money'),
        ('currency = "GBP"', "marks = 1", "marks is not a known key"),
        ("people = 2", 'people = { value = 2, mark = "guessed" }', "people.mark is 'guessed'"),
        ("people = 2", "people = = 2", "is not TOML"),
    ],
)
def test_what_cannot_be_used_is_refused_with_its_place(old: str, new: str, says: str) -> None:
    """Above all 20 for 0.20: the slip that prices a job at a loss or out of reach."""
    assert old in shipped_firm_text()
    with pytest.raises(InputError, match=says):
        firm_from_text(shipped_firm_text().replace(old, new, 1), file="firm.toml")
