"""What is said about a job beside its design: in words for a page, and as the data that lies in the pack."""

from __future__ import annotations

import json
import re

import pytest

from pentice.advice.moves import moves
from pentice.advice.stage import Advice, quick_advice
from pentice.advice.writing import WIDTH, advice_data, advice_text
from pentice.pack.contents import pack_files
from tests.designs import EXAMPLES, design_of


def whole(name: str) -> Advice:
    """All advice on an example, moves too."""
    design = design_of(name)
    quick = quick_advice(design)
    return Advice(design=design, moves=moves(design), cures=quick.cures, options=quick.options)


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_line_runs_off_the_page(name: str) -> None:
    """Every line of the text is at most 100 characters. Exact: counts."""
    assert max(len(line) for line in advice_text(whole(name)).splitlines()) <= WIDTH


def test_a_cure_is_said_once_with_every_rule_it_is_for_and_what_the_whole_job_costs_then() -> None:
    """The veranda's purlin cures sheet and bite: one entry; its timber costs, although sheets and bars do not."""
    text = " ".join(advice_text(whole("uneven-veranda")).split())
    assert text.count("A purlin at 1337") == 1
    assert "Sheet between bars, snow and wind down; Bite under load, coldest day: A purlin" in text
    assert re.search(r"job costs [1-9][0-9.,]* more with tax; 0 fail and 0 are refused then\. \(frame", text)
    assert "frame.head_bearer = true" in text


def test_where_the_frame_stands_no_move_is_looked_for_and_the_text_says_why() -> None:
    """No "saves nothing" for a roof of which nothing can be moved. Exact: words."""
    text = advice_text(whole("uneven-veranda"))
    assert "None: the frame stands" in text
    assert "None is needed." not in text


def test_a_job_without_faults_and_with_all_named_says_so() -> None:
    """The potting bay needs no cure; its three ways stand side by side with their prices. Exact: words."""
    text = advice_text(whole("potting-bay"))
    assert "None is needed." in text
    for name in ("As drawn", "Clear", "Bronze"):
        assert f"  {name}: GBP " in text


def test_the_pack_holds_advice_without_moves_and_says_that_none_were_looked_for() -> None:
    """Moves take a hundred and more trials: null, not an empty list that would read as "none saves". Exact: JSON."""
    advice = quick_advice(design_of("snow-carport"))
    data = json.loads(pack_files(advice)["advice.json"])
    assert data == json.loads(json.dumps(advice_data(advice)))
    assert data["moves"] is None
    assert {cure["check"] for cure in data["cures"]} == {"bite-loaded", "sheet-down", "cap-hold"}
    assert list(data) == ["format", "job", "choices", "moves", "cures", "options"]
