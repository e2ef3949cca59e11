"""Closed ends at their edges: what is refused in one sentence, what stays as it was, and more wind is never less."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.advice.cures import cures
from pentice.advice.options import changed_job
from pentice.checks.values import Check
from pentice.errors import InputError
from pentice.job.reading import job_from_text
from pentice.pack.calculations.asked import engineer
from pentice.pack.method import order_of_work
from pentice.pieces.names import letters_of
from pentice.pipeline import assess, solve
from tests.designs import assessed, catalogue, changed, design_of
from tests.tries import tries
from tests.worked.test_printed_lines import METAL, wrong_lines

NAME = "plant-lobby"
RULES = ("post-walls", "rafter-sideways", "mullion", "transom", "sill")
LOW = {"side": "left", "width_mm": 767, "left_mm": 1000, "right_mm": 1000}
HIGH = {"side": "left", "width_mm": 767, "left_mm": 1401, "right_mm": 1195, "over": True}
BESIDE = {"side": "left", "width_mm": 767, "left_mm": 2246, "right_mm": 2041}


def checks_of(name: str = NAME, **changes: Any) -> dict[str, Check]:
    """The worst check of each new rule."""
    found: dict[str, Check] = {}
    for check in assessed(changed(name, **changes)).checks:
        if check.id.startswith(RULES) and (check.demand or 0.0) >= (
            found[check.id].demand or 0.0 if check.id in found else 0.0
        ):
            found[check.id] = check
    return found


@pytest.mark.parametrize(
    ("changes", "rule", "says"),
    [
        ({"frame__mullion_mm": None}, "mullion-bending", "give frame.mullion_mm. None is ordered"),
        ({"frame__mullion_end_kn": None}, "mullion-ends", "Give frame.mullion_end_kn"),
        ({"frame__sill_fixing_kn": None}, "sill-fixings", "Give frame.sill_fixing_kn"),
        ({"frame__sill_fixing_spacing_mm": None}, "sill-bending", "give frame.sill_fixing_spacing_mm"),
        ({"roof__front": "open"}, "post-walls", "no net pressure for a closed side"),
        ({"roof__front": "open"}, "mullion-bending", "no net pressure for a closed side"),
        ({"roof__front": "open"}, "rafter-sideways", "no net pressure for a closed side"),
        ({"frame__posts_at_mm": [400, 2400]}, "post-walls", "Post 1 stands 400 from the left end"),
        ({"side_sheets": [BESIDE, LOW]}, "mullion-bending", "List them from left to right"),
        (
            {"side_sheets": [{"side": "front", "width_mm": 600, "left_mm": 1900, "right_mm": 1900}] * 2},
            "mullion-bending",
            "What stands beside a door or a window is not calculated.",
        ),
        ({"frame__bracing": "fixed feet"}, "post-walls-foot", "Give frame.post_foot_knm"),
    ],
)
def test_what_cannot_be_known_is_refused_in_one_sentence(
    changes: dict[str, Any], rule: str, says: str
) -> None:
    """The rule is refused, and its sentence names the way out."""
    check = checks_of(**changes)[rule]
    assert check.verdict == "refused"
    assert says in check.says


def test_a_roof_without_a_closed_end_has_none_of_it() -> None:
    """Open examples: no new rule, and no new piece."""
    for name in ("boat-rack", "cycle-shelter", "snow-carport", "uneven-veranda"):
        design = design_of(name)
        assert not [check.id for check in design.checks if check.id.startswith(RULES)]
        assert not {letters_of(piece.id) for piece in design.pieces} & {"MU", "TM", "SI"}


@given(slow=st.floats(15.0, 30.0), more=st.floats(0.1, 5.0))
@tries(12)
def test_more_wind_is_never_less_demand(slow: float, more: float) -> None:
    """Of every new rule, posts, rafters, mullions, transoms and sills."""
    sheets = [LOW, HIGH, BESIDE]
    one, two = (
        checks_of(side_sheets=sheets, site__vb0_m_s=speed)
        for speed in (round(slow, 2), round(slow + more, 2))
    )
    assert set(one) <= set(two)
    for rule, check in one.items():
        assert (two[rule].demand or 0.0) >= (check.demand or 0.0) * (1.0 - 1e-9)


@pytest.mark.parametrize(
    "changes",
    [
        METAL,
        {**METAL, "frame__post_section": "tube-alu-60x120", "frame__post_mm": [60.0, 120.0]},
        {"frame__post_mm": [45.0, 220.0], "frame__bracing": "diagonal"},
        {"frame__post_mm": [220.0, 45.0], "frame__bracing": "diagonal"},
        {"frame__bracing": "fixed feet", "frame__post_foot_knm": 5.0},
    ],
)
def test_metal_thin_and_held_posts_show_how_they_are_found(changes: dict[str, Any]) -> None:
    """Every printed line gives its result; the posts are calculated, not refused."""
    found = assessed(changed("potting-bay", **changes))
    assert wrong_lines(found) == []
    mine = [check for check in found.checks if check.id == "post-walls"]
    assert len(mine) == 3
    assert all(check.demand is not None for check in mine)


def test_transoms_show_how_they_are_found() -> None:
    """Every printed line gives its result."""
    assert wrong_lines(assessed(changed(NAME, side_sheets=[LOW, HIGH, BESIDE]))) == []


def test_pieces_order_and_hours_by_hand() -> None:
    """Two mullions of 2265, two sills of 2 x 767 + 70 = 1604; four brackets; five fixings a sill; half an hour each."""
    design = design_of(NAME)
    lengths = {piece.id: piece.length_mm for piece in design.pieces if letters_of(piece.id) in ("MU", "SI")}
    assert lengths == {"MU1": 2265.0, "MU2": 2265.0, "SI1": 1604.0, "SI2": 1604.0}
    order = {line.part: line for line in design.order}
    assert order["mullion brackets"].quantity == 4
    # 1604 - 2 x 75 = 1454 in fields of 400 at most: four, so five fixings.
    assert order["sill fixings"].quantity == 10
    hours = [line.hours for line in design.price.labour_lines if line.task == "Mullion, transom or sill"]
    assert [float(h) for h in hours] == [2.0]


def test_without_sections_the_papers_say_that_none_is_ordered() -> None:
    """No piece; one line of the order, one sentence of the calculations and one of the method."""
    design = solve(changed(NAME, frame__mullion_mm=None, frame__sill_mm=None), catalogue())
    assert not [piece for piece in design.pieces if letters_of(piece.id) in ("MU", "TM", "SI")]
    (line,) = [line for line in design.order if line.part == "mullions"]
    assert line.quantity == 0
    assert "frame.mullion_mm names no section" in line.why
    text = "".join(str(block) for block in engineer(design, ()))
    assert "Mullions are not named: none is calculated or ordered." in text
    assert any("Mullions are not named" in step for step in order_of_work(design))


def test_with_them_the_method_sets_sills_and_mullions() -> None:
    """Before the sheets; and what is taken for granted names the room over their heads."""
    design = design_of(NAME)
    steps = order_of_work(design)
    assert any("sills and mullions" in step for step in steps)
    assert "Mullions bear no roof" in "".join(str(block) for block in engineer(design, ()))


@pytest.mark.parametrize(
    ("changes", "rule", "title"),
    [
        ({"frame__mullion_mm": [70.0, 70.0], "site__vb0_m_s": 30}, "mullion-sag", "Mullions 70 x 95 instead"),
        ({"frame__sill_fixing_kn": 1.2}, "sill-fixings", "Sill fixings every 300 instead of 400"),
        (
            {"frame__post_mm": [70.0, 70.0], "frame__knee_bolt_mm": 10.0},
            "post-walls",
            "Posts 95 x 95 instead of 70 x 70",
        ),
    ],
)
def test_cures_name_the_smallest_change(changes: dict[str, Any], rule: str, title: str) -> None:
    """Solved as a whole job: with it the rule passes everywhere."""
    job = changed(NAME, **changes)
    design = solve(job, catalogue())
    assert any(check.id == rule and check.verdict == "fails" for check in design.checks)
    found = [proposal for proposal in cures(design) if proposal.check == rule]
    proposal = next(p for p in found if p.title.startswith(title))
    after = assess(changed_job(job, dict(proposal.set)), catalogue()).checks
    assert {check.verdict for check in after if check.id == rule} == {"passes"}


@pytest.mark.parametrize(
    ("sheets", "says"),
    [
        ("over = true", "no side sheet of the side"),
        (
            "\n[[side_sheets]]\nside = 'left'\nwidth_mm = 700\nleft_mm = 900\nright_mm = 800\nover = true",
            "level head",
        ),
    ],
)
def test_a_sheet_over_none_or_over_a_slope_is_named(sheets: str, says: str) -> None:
    """One clear sentence with its place."""
    first = "[[side_sheets]]\nside = 'left'\nwidth_mm = 700\nleft_mm = 900\nright_mm = 800"
    text = f"[roof]\nleft = 'closed'\n{first}\n{sheets}"
    with pytest.raises(InputError, match=says):
        job_from_text(text)
