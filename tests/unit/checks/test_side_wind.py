"""Wind declared on closed sides beside an open one: refused without it, bad values told, more is never less."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.advice.complete import complete
from pentice.advice.options import changed_job, solve_options
from pentice.checks.values import Check
from pentice.errors import InputError
from pentice.job.reading import job_from_text
from pentice.pack.calculations.asked import engineer, enquiry
from pentice.pipeline import solve
from tests.designs import EXAMPLES, assessed, catalogue, changed, example
from tests.tries import tries
from tests.worked.test_declared_side_wind import CLOSED_FRONT, NAME, SHEETS, VERANDA
from tests.worked.test_printed_lines import wrong_lines

WITHOUT = {key: value for key, value in VERANDA.items() if key != "site__side_wind"}
WALLED = (
    "side-wind-down",
    "side-wind-up",
    "mullion-bending",
    "sill-bending",
    "rafter-sideways",
    "post-walls",
)


def worst_of(**changes: Any) -> dict[str, Check]:
    """The worst place of each rule of the veranda with other values."""
    found: dict[str, Check] = {}
    for check in assessed(changed(NAME, **{**VERANDA, **changes})).checks:
        if check.id not in found or (check.demand or 0.0) > (found[check.id].demand or 0.0):
            found[check.id] = check
    return found


def test_without_it_all_of_the_closed_end_is_refused_and_the_key_is_named() -> None:
    """Each with the way out; so are plate and fixings where a closed front is drawn out."""
    refused = {c.id: c for c in assessed(changed(NAME, **WITHOUT)).checks if c.verdict == "refused"}
    assert set(WALLED) <= set(refused)
    for rule in WALLED:
        assert "Ask an engineer: give site.side_wind." in refused[rule].says, rule
    beside = {
        c.id: c
        for c in assessed(changed(NAME, **{**WITHOUT, **CLOSED_FRONT})).checks
        if c.verdict == "refused"
    }
    for rule in (*WALLED, "wall-plate", "wall-fixings"):
        assert "give site.side_wind." in beside[rule].says, rule


def test_own_wind_coefficients_ask_for_it_too() -> None:
    """A closed room whose roof has coefficients of its own: the walls are asked for by the same key."""
    own = {"source": "A. Wren", "zones": [{"name": "all", "down": 0.8, "up": -1.2}]}
    found = {c.id: c for c in assessed(changed(NAME, site__wind_coefficients=own)).checks}
    assert "Ask who gave them for the walls too: give site.side_wind." in found["post-walls"].says


def test_the_papers_ask_for_it_once_and_not_when_it_is_there() -> None:
    """Enquiry: which wall, and what it is referred to; notes on the loads: what was declared, and by whom."""
    without, given_ = (solve(changed(NAME, **changes), catalogue()) for changes in (WITHOUT, VERANDA))
    asked = "".join(str(block) for block in enquiry(without))
    assert "Wind on the left end: which net pressure coefficients" in asked
    assert "peak wind pressure 0.60 kN/m2" in asked
    assert "site.side_wind" in asked
    assert "give site.side_wind" in "".join(str(block) for block in engineer(without, without.checks))
    assert "site.side_wind" not in "".join(str(block) for block in enquiry(given_))
    (note,) = [note for note in given_.loads.notes if "closed sides" in note]
    assert "left +1.3 in, -1.1 out" in note
    assert "A. Wren, letter of 3 May 2027" in note
    for name in EXAMPLES:
        assert not any("closed sides" in note for note in assessed(example(name)).loads.notes)


OPEN = '[roof]\nleft = "closed"\nright = "open"\nfront = "open"\n'
ROOM = '[roof]\nleft = "closed"\nright = "wall"\nfront = "closed"\n'


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            OPEN + '[site.side_wind]\nsource = "A"\ninwards = 1\noutwards = 0.5',
            "outwards is 0.5; expected 0 or less",
        ),
        (
            OPEN + '[site.side_wind]\nsource = "A"\ninwards = -1\noutwards = -1',
            "inwards is -1; expected 0 or more",
        ),
        (OPEN + "[site.side_wind]\ninwards = 1\noutwards = -1", "site.side_wind.source is missing; give it"),
        (
            OPEN + '[site.side_wind]\nsource = " "\ninwards = 1\noutwards = -1',
            "source is empty; name who gave",
        ),
        (
            OPEN + '[site.side_wind]\nsource = "A"\ninwards = 0\noutwards = 0',
            "side_wind is 0 both inwards and outw",
        ),
        (
            OPEN + '[site.side_wind]\nsource = "A"\ninwards = 1\noutwards = -1\nleft = [0, 0]',
            "side_wind.left is 0 both inwards and outwards",
        ),
        (
            OPEN + '[site.side_wind]\nsource = "A"\ninwards = 1\noutwards = -1\nleft = [1, 1]',
            r"side_wind.left\[1\] is 1; expected 0 or less",
        ),
        (
            OPEN + '[site.side_wind]\nsource = "A"\ninwards = 1\noutwards = -1\nback = [1, -1]',
            "side_wind.back is the high side of a free-standing roof",
        ),
        (
            ROOM + '[site.side_wind]\nsource = "A"\ninwards = 1\noutwards = -1',
            "side_wind is for a roof with an open side; this one is closed all round",
        ),
    ],
)
def test_bad_values_are_told_in_one_sentence(text: str, says: str) -> None:
    """Place, value, what was expected: one problem, no more."""
    with pytest.raises(InputError, match=says) as fault:
        job_from_text(text)
    assert len(fault.value.problems) == 1


def test_an_option_that_closes_the_room_drops_it() -> None:
    """The walls of a closed room are the standard's; the option is solved as the same room without the table."""
    closes = {"roof.front": "closed", "roof.right": "closed", "glazing.tint": "opal"}
    job = changed(NAME, **VERANDA, options=[{"name": "Closed", "set": closes}])
    ((_, closed),) = solve_options(solve(job, catalogue()))
    assert closed.job.site.side_wind is None
    assert not [c.id for c in closed.checks if "side_wind" in c.says]
    assert changed_job(job, {"roof.front": "closed"}).site.side_wind is not None


SIZES = st.floats(0.1, 2.5).map(lambda c: round(c, 3))


@given(inwards=SIZES, outwards=SIZES, more=st.floats(0.0, 1.0), end=st.booleans(), front=st.booleans())
@tries(10)
def test_a_greater_coefficient_is_never_less_demand(
    inwards: float, outwards: float, more: float, end: bool, front: bool
) -> None:
    """Of every check that there is, inwards and outwards, of all walls or of one."""
    greater = [round(inwards + more * end, 3), round(outwards + more * (not end), 3)]
    changes = CLOSED_FRONT if front else {}
    one = worst_of(**changes, site__side_wind={"source": "A", "inwards": inwards, "outwards": -outwards})
    two = worst_of(**changes, site__side_wind={"source": "A", "inwards": greater[0], "outwards": -greater[1]})
    own = worst_of(
        **changes,
        site__side_wind={
            "source": "A",
            "inwards": inwards,
            "outwards": -outwards,
            "left": [greater[0], -greater[1]],
        },
    )
    for rule, check in one.items():
        for other in (two, own):
            if rule in other and check.unit == other[rule].unit:
                least = (check.demand or 0.0) * (1.0 - 1e-9)
                assert (other[rule].demand or 0.0) >= least, rule


@given(left=st.tuples(SIZES, SIZES), front=st.tuples(SIZES, SIZES), closed=st.booleans())
@tries(6)
def test_a_mirrored_veranda_has_the_mirrored_results(
    left: tuple[float, float], front: tuple[float, float], closed: bool
) -> None:
    """Left for right: the same worst demand of every rule, and the same verdicts."""
    wide = example(NAME).roof.width_mm or 0.0
    wind = {"source": "A", "inwards": 0.5, "outwards": -0.5, "front": [front[0], -front[1]]}
    one = {"site__side_wind": {**wind, "left": [left[0], -left[1]]}}
    mirrored: list[dict[str, Any]] = [
        {"side": "right", "width_mm": s["width_mm"], "left_mm": s["right_mm"], "right_mm": s["left_mm"]}
        for s in reversed(SHEETS)
    ]
    other = {
        "site__side_wind": {**wind, "right": [left[0], -left[1]]},
        "roof__left": "open",
        "roof__right": "closed",
        "side_sheets": mirrored,
        "frame__posts_at_mm": [wide - 2812.0, wide - 48.0],
    }
    if closed:
        one |= CLOSED_FRONT
        other |= {**CLOSED_FRONT, "roof__openings": [{**CLOSED_FRONT["roof__openings"][0], "wall": "left"}]}
    here, there = worst_of(**one), worst_of(**other)
    assert set(here) == set(there)
    for rule, check in here.items():
        assert there[rule].verdict == check.verdict, rule
        assert there[rule].demand == pytest.approx(check.demand, rel=1e-6), rule


@pytest.mark.parametrize(
    "changes",
    [
        {"frame__bracing": "fixed feet", "frame__post_foot_knm": 5.0},
        {"frame__bracing": "diagonal"},
        {"frame__bracing": None, "frame__bracing_kn": 9.0},
        {"frame__post_section": "tube-steel-70", "frame__post_mm": [70.0, 70.0]},
        CLOSED_FRONT,
    ],
)
def test_every_line_of_such_a_veranda_gives_its_result(changes: dict[str, Any]) -> None:
    """Bracing of each kind, posts of metal, a closed front; the post at the closed end is calculated."""
    found = assessed(complete(changed(NAME, **{**VERANDA, **changes}), catalogue()))
    assert wrong_lines(found) == []
    assert all(check.verdict != "refused" for check in found.checks if check.id in WALLED)
