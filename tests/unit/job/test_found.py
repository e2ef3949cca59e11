"""Finds carry their caution and whom to ask; every roof carries the usual ones."""

from __future__ import annotations

import pytest

from pentice.job.found import KINDS, cautions, kind_of
from pentice.job.model import Found, Job
from pentice.job.reading import job_from_text


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_says_what_why_and_whom_to_ask(name: str) -> None:
    """Short sentences without exclamation marks."""
    kind = kind_of(name)
    assert kind.text.endswith(".")
    assert kind.why.endswith(".")
    assert kind.ask
    assert "!" not in kind.text + kind.why
    assert len(kind.text) <= 120


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("flue", "carbon monoxide"),
        ("Boiler terminal", "carbon monoxide"),
        ("air-brick", "carbon monoxide"),
        ("unknown board", "asbestos"),
        ("overhead wires", "current jumps"),
        ("escape window", "climb out"),
    ],
)
def test_the_finds_that_kill_say_why(name: str, word: str) -> None:
    """Also where the name is written another way."""
    assert word in kind_of(name).why


def test_a_kind_nobody_foresaw_has_a_general_caution() -> None:
    """It is named as it was typed."""
    assert kind_of("badger sett").text.startswith("Badger sett: find out what it is")


def test_an_open_find_stands_first_and_an_answered_one_counts_as_answered() -> None:
    """Page 1 lists what is still open."""
    job = Job(
        found=(
            Found(kind="tree", answered_by="council, 3 March"),
            Found(kind="flue", x_mm=700.0, action="move it"),
        )
    )
    first, second, *others = cautions(job)
    assert first.is_open
    assert first.text.endswith("At x 700. To do: move it.")
    assert second.answered
    assert not second.is_open
    assert not any(caution.is_open for caution in others)


def test_every_roof_carries_the_usual_cautions() -> None:
    """Fragile, handling in wind, boards, snow off our own foot, timber treatment."""
    text = " ".join(caution.text + caution.why for caution in cautions(Job()))
    for word in (
        "fragile",
        "Boards bear on rafters",
        "gusts",
        "Snow slides off the foot",
        "copper-treated",
        "braced",
    ):
        assert word in text


def test_a_closed_room_and_a_sliding_house_roof_add_theirs() -> None:
    """And only these do."""
    job = job_from_text("[roof]\nuse = 'lean-to'\n[house]\nwall = 'brick'\nroof_drains_to_us = true")
    text = " ".join(caution.text + caution.why for caution in cautions(job))
    assert "carbon monoxide" in text
    assert "slides its snow onto ours" in text
    plain = " ".join(caution.text + caution.why for caution in cautions(Job()))
    assert "carbon monoxide" not in plain
    assert "slides its snow" not in plain


def test_an_unknown_wall_has_to_be_asked_about() -> None:
    """A brick wall is known; insulated render and no word at all are not."""
    asked = [
        bool(cautions(job_from_text(f"[house]\n{wall}"))[-1].ask)
        for wall in ("", 'wall = "insulated render"')
    ]
    assert asked == [True, True]
    assert not cautions(job_from_text('[house]\nwall = "brick"'))[-1].ask


def test_boards_bear_on_rafters_and_never_on_bars_that_carry_by_themselves() -> None:
    def words(*, bars_carry: bool) -> str:
        return " ".join(c.text for c in cautions(Job(), bars_carry=bars_carry))

    assert "Boards bear on rafters" in words(bars_carry=False)
    assert "No boards on bars" in words(bars_carry=True)
    assert "Boards bear" not in words(bars_carry=True)
