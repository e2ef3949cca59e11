"""Blanks that only the author can fill are asked for all at once; what has a safe choice is not."""

from __future__ import annotations

import pytest

from pentice.job.blanks import blanks, fillable
from pentice.job.model import Job
from pentice.job.reading import job_from_text

WHOLE = """\
[roof]
use = "carport"
width_mm = 4830
projection_mm = 3000
pitch_deg = 10
left = "open"
right = "open"
front = "open"
[house]
depth_mm = 7000
wall_top_above_mm = 2400
roof_drains_to_us = false
"""


def places(text: str) -> list[str]:
    """Key paths that are missing."""
    return [problem.place for problem in blanks(job_from_text(text))]


def test_a_whole_job_has_no_blank() -> None:
    """Everything that the roof and its house need is there."""
    assert places(WHOLE) == []


def test_an_empty_job_names_everything_at_once() -> None:
    """Each with a sentence that begins with its key path and tells how to come by it."""
    found = blanks(Job(), file="porch.toml")
    assert [p.place.split(".")[0] for p in found] == ["roof"] * 7 + ["house"]
    assert all(p.says.startswith(f"{p.place} is missing. ") and p.file == "porch.toml" for p in found)


@pytest.mark.parametrize("line", [line for line in WHOLE.splitlines() if "=" in line])
def test_every_line_of_the_whole_job_is_missed_when_it_is_gone(line: str) -> None:
    """One key left out, one blank."""
    assert len(places(WHOLE.replace(line + "\n", ""))) == 1


def test_two_heights_stand_for_a_pitch() -> None:
    """One height alone does not."""
    assert places(WHOLE.replace("pitch_deg = 10", "head_height_mm = 2800\neaves_height_mm = 2300")) == []
    assert places(WHOLE.replace("pitch_deg = 10", "head_height_mm = 2800")) == ["roof.pitch_deg"]


def test_a_house_that_drains_onto_us_and_a_side_wall_ask_for_more() -> None:
    """Snow slides and drifts from there."""
    assert places(WHOLE.replace("to_us = false", "to_us = true")) == [
        "house.roof_pitch_deg",
        "house.upper_slope_plan_mm",
    ]
    side = ["roof.side_wall_top_above_mm", "roof.side_wall_depth_mm"]
    assert places(WHOLE.replace('left = "open"', 'left = "wall"')) == side


def test_a_free_standing_roof_needs_no_house() -> None:
    """It says so itself."""
    text = WHOLE.split("[house]")[0].replace("[roof]", "[roof]\nattached = false")
    assert places(text) == []


def test_a_given_key_is_not_chosen() -> None:
    """Existing rafters leave no bay count to choose; edge profiles leave no verge trim."""
    assert "frame.bay_count" not in fillable(job_from_text("[frame]\nrafter_centres_mm = [35, 900]"))
    assert "glazing.sheet" not in fillable(job_from_text('[glazing]\nsheet = "x"'))
    edges = fillable(job_from_text('[glazing]\nleft_edge = "edge profile"\nright_edge = "edge profile"'))
    assert "glazing.edge_profile" in edges
    assert "glazing.verge_trim" not in edges


def test_keys_are_chosen_bays_first_then_sheet_then_rafter_then_screws() -> None:
    """Each rests on those before it."""
    order = fillable(Job())
    wanted = ["frame.bay_count", "glazing.sheet", "frame.rafter_mm", "screws.bar_screw"]
    assert sorted(wanted, key=order.index) == wanted
