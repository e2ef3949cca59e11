"""Jobs as text, jobs with other values, and texts that people wrote with other values in them."""

from __future__ import annotations

import pytest

from pentice.errors import InputError
from pentice.job.model import Job
from pentice.job.paths import parts_of
from pentice.job.reading import job_from_text
from pentice.job.writing import job_toml, set_keys, with_keys

WRITTEN = """\
# Porch at the back
format = 1
[roof] # as surveyed
width_mm = {value = "4.8 m", mark = "measured", readings = [4800, 4801]} # twice
[[found]]
kind = "flue"
x_mm = 500 # to its middle
[glazing]
sheet = "a"
"""


def test_a_written_job_keeps_the_words_a_size_was_given_in() -> None:
    """The value stands as it was typed, with its mark and readings."""
    text = job_toml(job_from_text(WRITTEN))
    assert 'width_mm = { value = "4.8 m", mark = "measured", readings = [4800, 4801] }' in text


def test_a_value_that_changed_behind_its_mark_is_written_as_it_is() -> None:
    """A copy made by other means than with_keys never writes the old size."""
    job = job_from_text(WRITTEN)
    other = job.model_copy(update={"roof": job.roof.model_copy(update={"width_mm": 4700.0})})
    assert job_from_text(job_toml(other.with_marks(job.marks))).roof.width_mm == 4700.0


def test_a_house_without_keys_is_still_a_house() -> None:
    """An empty [house] says that there is one; leaving it out says that there is none."""
    assert job_from_text(job_toml(job_from_text("[house]"))).house is not None


def test_chosen_values_carry_their_mark_and_reason() -> None:
    """Several at once, a list among them; the job they came from stays as it was."""
    job = Job()
    other = with_keys(
        job, {"frame.rafter_mm": (70, 170), "glazing.sheet": "x"}, mark="chosen", reason="least b × h"
    )
    assert other.frame.rafter_mm == (70.0, 170.0)
    assert other.mark_of("frame.rafter_mm").mark == "chosen"
    assert other.mark_of("glazing.sheet").note == "least b × h"
    assert job == Job()


def test_a_new_value_drops_the_mark_of_the_old_one() -> None:
    """Readings of the old width must not stand beside a given one."""
    job = with_keys(job_from_text(WRITTEN), {"roof.width_mm": 4750})
    assert job.mark_of("roof.width_mm").mark == "given"
    assert job.mark_of("roof.width_mm").readings == ()


def test_nothing_leaves_a_key_out_again() -> None:
    """None is how an option takes a value back."""
    assert (
        with_keys(job_from_text(WRITTEN), {"glazing.sheet": None, "house.wall": None}).glazing.sheet is None
    )


def test_one_item_of_a_list_that_stands_at_its_default_can_be_set() -> None:
    """The other item keeps its default."""
    assert with_keys(Job(), {"glazing.gap_residual_mm[1]": 5}).glazing.gap_residual_mm == (1.0, 5.0)


def test_a_reading_by_its_place_goes_into_its_triple() -> None:
    """Bays before it that were not read stand as not read."""
    job = with_keys(
        Job(), {"measured.between_stems_mm[2].head": 949, "measured.slope_lengths_mm[1]": "9' 10\""}
    )
    assert job.measured.between_stems_mm == ((None,) * 3, (None,) * 3, (949.0, None, None))
    assert job.measured.slope_lengths_mm == (None, 2997.2)


@pytest.mark.parametrize(
    ("path", "says"),
    [
        ("glazing.shet", 'glazing.shet is not a known key; did you mean "sheet"'),
        ("glazng.sheet", 'glazng is not a known key; did you mean "glazing"'),
        ("roof.width_mm.left", "roof.width_mm.left is no place in a job file"),
        ("roof..width_mm", "expected a key path"),
        ("", "expected a key path"),
        ("measured.between_stems_mm[0].top", "expected one of head, middle, foot"),
        ("frame.posts_at_mm[4]", "is number 4 of a list; the list has 0"),
    ],
)
def test_a_path_that_leads_nowhere_is_refused(path: str, says: str) -> None:
    """In a sentence that names it."""
    with pytest.raises(InputError, match=says.replace("[", r"\[").replace(".", r"\.")):
        with_keys(job_from_text("[roof]\nwidth_mm = 4800"), {path: 1})


def test_every_wrong_change_is_named_at_once() -> None:
    """Two slips, two problems."""
    with pytest.raises(InputError, match=r"bay_count is 0; expected 1 or more") as fault:
        with_keys(Job(), {"frame.bay_count": 0, "roof.pitch_deg": "steep"})
    assert len(fault.value.problems) == 2


def test_a_text_keeps_its_comments_when_keys_are_set_in_it() -> None:
    """New keys, changed keys and keys taken out, in tables, in lists of tables and where there was no table."""
    changes = {
        "roof.width_mm": 4805,
        "roof.pitch_deg": 7,
        "found[0].x_mm": None,
        "found[0].asked": "me",
        "found[1].kind": "drain",
        "roof.openings[0].kind": "door",
        "measured.between_stems_mm[1].foot": 950,
        "name": "Porch",
    }
    text = set_keys(WRITTEN, changes)
    for line in ("# Porch at the back", "[roof] # as surveyed", "width_mm = 4805 # twice"):
        assert line in text
    door = 'kind = "door"\nwall = "front"\nx_mm = 0\nwidth_mm = 900\nheight_mm = 2000'
    job = job_from_text(text.replace('kind = "door"', door))
    assert (job.roof.width_mm, job.roof.pitch_deg, job.name) == (4805.0, 7.0, "Porch")
    assert [(f.kind, f.x_mm, f.asked) for f in job.found] == [("flue", None, "me"), ("drain", None, "")]
    assert job.measured.between_stems_mm[1] == (None, None, 950.0)


def test_a_text_that_is_no_toml_is_refused() -> None:
    """With the line where it breaks."""
    with pytest.raises(InputError, match=r"The job file is not TOML: .*line 1"):
        set_keys("roof = \n", {"name": "x"})


def test_key_paths_step_through_names_and_positions() -> None:
    """Written as in a design."""
    assert parts_of("roof.openings[0].x_mm") == ("roof", "openings", 0, "x_mm")
    assert parts_of("measured.rafter_centres_mm[5].foot") == ("measured", "rafter_centres_mm", 5, 1)


def test_a_comment_after_a_table_is_never_lost_with_it() -> None:
    """It belongs to the table before it: a value in place of that table is refused, with the way out."""
    text = '[name]\nvalue = "Porch"\n# ask the owner\n'
    with pytest.raises(InputError, match="cannot be set in it without losing something"):
        set_keys(text, {"name": "Veranda", "roof.width_mm": 5})
    assert "# ask the owner" in set_keys(text, {"roof.width_mm": 5})
