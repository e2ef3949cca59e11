"""What the site page saved goes into [measured], or is refused with every reason at once."""

from __future__ import annotations

import json
from typing import Any

import pytest

from pentice.errors import InputError
from pentice.job.entries import NO_REFERENCE, Entries, Reading, apply_entries, entries_from_text
from pentice.job.reading import job_from_text

JOB = """\
reference = "P-7" # on every label
revision = "B"
[roof]
width_mm = 4830 # twice
[frame]
bay_count = 3
"""


def saved(*readings: tuple[str, float], job: str = "P-7", unit: str = "mm", **more: Any) -> Entries:
    """Entries with these readings, all by one fitter."""
    lines = [{"key": k, "value": v, "unit": unit, "by": "Al", "on": "2027-03-02T10:05"} for k, v in readings]
    return entries_from_text(
        json.dumps({"format": 1, "job": job, "revision": "B", "readings": lines, **more})
    )


def test_readings_go_into_measured_and_the_survey_stays() -> None:
    """Places that were not read stand as not read; what was typed before is kept with its comment."""
    text = apply_entries(
        JOB, saved(("measured.between_stems_mm[1].foot", 949.5), ("measured.slope_lengths_mm[0]", 2990))
    )
    job = job_from_text(text)
    assert job.measured.between_stems_mm == ((None,) * 3, (None, None, 949.5))
    assert job.measured.slope_lengths_mm == (2990.0,)
    assert job.mark_of("measured.between_stems_mm").mark == "measured"
    assert (job.measured.by, job.measured.on) == ("Al", "2027-03-02T10:05")
    assert text.startswith(JOB.rstrip())


def test_a_second_visit_adds_to_the_first() -> None:
    """New places fill in, the same place takes the newer reading, and twice the same file changes nothing."""
    first = apply_entries(
        JOB, saved(("measured.between_stems_mm[0].head", 950), ("measured.between_stems_mm[0].foot", 951))
    )
    later = saved(("measured.between_stems_mm[0].foot", 949), ("measured.between_stems_mm[0].middle", 950.5))
    second = apply_entries(first, later)
    assert job_from_text(second).measured.between_stems_mm == ((950.0, 950.5, 949.0),)
    assert apply_entries(second, later) == second


def test_holds_go_in_and_a_line_ticked_again_replaces_the_older_one() -> None:
    """By hold and line."""
    line = {"hold": "A", "item": "fall", "ok": False, "reading": "2.1", "by": "Al", "on": "2027-03-02T10:05"}
    other = {"hold": "B", "item": "seals, bay 1", "ok": True}
    first = apply_entries(JOB, saved(holds=[line, other]))
    second = job_from_text(apply_entries(first, saved(holds=[{**line, "ok": True, "reading": "10.2"}])))
    assert [(h.hold, h.item, h.ok, h.reading) for h in second.measured.holds] == [
        ("A", "fall", True, "10.2"),
        ("B", "seals, bay 1", True, ""),
    ]


def test_the_sheet_temperature_goes_in() -> None:
    """In degrees, negative ones too."""
    text = apply_entries(JOB, saved(("measured.sheet_temperature_c", -3.5), unit="degC"))
    assert job_from_text(text).measured.sheet_temperature_c == -3.5


def test_readings_fit_into_a_measured_that_is_there_with_its_holds() -> None:
    """Lists of tables that people wrote stay readable."""
    written = JOB + '[measured]\nby = "Jo"\n[[measured.holds]]\nhold = "A"\nitem = "fall"\nok = true\n'
    job = job_from_text(apply_entries(written, saved(("measured.slope_lengths_mm[0]", 2990))))
    assert job.measured.holds[0].item == "fall"
    assert job.measured.slope_lengths_mm == (2990.0,)
    assert job.measured.by == "Al"


@pytest.mark.parametrize(
    ("entries", "says"),
    [
        (saved(job="P-8"), 'belong to job "P-8", not to "P-7"'),
        (saved(("roof.width_mm", 4800)), '"roof.width_mm" is not a key of the site page'),
        (saved(("measured.between_stems_mm[0].top", 950)), "is not a key of the site page"),
        (saved(("measured.between_stems_mm[3].head", 950)), r"is bay 4, but the roof has 3 bays"),
        (saved(("measured.rafter_centres_mm[4].head", 950)), r"is rafter 5, but the roof has 4 rafters"),
        (saved(("measured.slope_lengths_mm[0]", 2990), unit="in"), 'is in "in"; expected mm'),
        (saved(("measured.slope_lengths_mm[0]", -5)), "is -5; expected a length"),
        (saved(("measured.sheet_temperature_c", 75), unit="degC"), "is 75; expected -20 to 60 degC"),
        (saved(("measured.diagonals_mm[0]", 5600)), r"diagonals_mm\[0\] stands alone"),
        (saved(("measured.slope_lengths_mm[0]", 1), ("measured.slope_lengths_mm[0]", 2)), "stands twice"),
        (saved(("measured.rafter_centres_mm[1].head", 950)), 'is "-"; expected a length'),
    ],
)
def test_entries_that_cannot_be_meant_are_refused(entries: Entries, says: str) -> None:
    """One slip of each kind."""
    with pytest.raises(InputError, match=says):
        apply_entries(JOB, entries)


def test_every_problem_is_named_at_once() -> None:
    """Another job and two unknown keys: three problems."""
    with pytest.raises(InputError, match=r"P-8") as fault:
        apply_entries(JOB, saved(("roof.a", 1), ("roof.b", 1), job="P-8"))
    assert len(fault.value.problems) == 3


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("readings: 5", "x.json: is not what the site page saves"),
        ("[1, 2]", "expected a table"),
        ('{"format": 2, "job": "P-7"}', "format is 2; expected 1"),
        ('{"format": 1}', "job is missing"),
        ('{"format": 1, "job": "P-7", "reading": []}', 'reading is not a known key; did you mean "readings"'),
        (
            '{"format": 1, "job": "P-7", "readings": [{"key": "a", "value": "x", "unit": "mm"}]}',
            "expected a number",
        ),
        (
            '{"format": 1, "job": "P-7", "holds": [{"hold": "E", "item": "x", "ok": true}]}',
            "expected 'A', 'B', 'C' or 'D'",
        ),
        (
            '{"format": 1, "job": "P-7", "readings": [{"key": "a", "value": NaN, "unit": "mm"}]}',
            "expected a number",
        ),
    ],
)
def test_a_file_that_is_not_what_the_page_saves_is_refused(text: str, says: str) -> None:
    """With its name and what was expected."""
    with pytest.raises(InputError, match=says):
        entries_from_text(text, file="x.json")


def test_another_revision_is_refused_with_both_and_taken_where_that_is_wanted() -> None:
    """Bays may have been numbered anew: the person who measured decides."""
    older = saved(("measured.slope_lengths_mm[0]", 2990)).model_copy(update={"revision": "A"})
    with pytest.raises(InputError, match=r"revision A; the job is at revision B.*--use-file"):
        apply_entries(JOB, older)
    taken = job_from_text(apply_entries(JOB, older, use_file=True))
    assert taken.measured.slope_lengths_mm == (2990.0,)


def test_a_job_without_a_reference_takes_the_readings_of_its_page() -> None:
    """The page says "no reference" for it, and so does what it saves; another job still refuses them."""
    bare = JOB.replace('reference = "P-7" # on every label\n', "")
    entries = saved(("measured.slope_lengths_mm[0]", 2990), job=NO_REFERENCE)
    assert job_from_text(apply_entries(bare, entries)).measured.slope_lengths_mm == (2990.0,)
    with pytest.raises(InputError, match='belong to job "no reference", not to "P-7"'):
        apply_entries(JOB, entries)


SIDES = """
reference = "P-7"
[roof]
left = "closed"
[[side_sheets]]
side = "left"
width_mm = 767
left_mm = { value = 2471, mark = "measured", by = "E. Reed" }
right_mm = 2265
[[side_sheets]]
side = "left"
width_mm = 767
left_mm = 2246
right_mm = 2041
"""


def side_reading(key: str, value: float) -> Reading:
    """One size of a side opening."""
    return Reading(
        key=f"measured.side_openings_mm{key}", value=value, unit="mm", by="Al", on="2027-05-01T09:00"
    )


def test_openings_of_side_sheets_go_in_and_the_survey_stays() -> None:
    """By number and place; what was not read stays open; a second visit adds. Exact: they are what was typed."""
    first = Entries(format=1, job="P-7", readings=(side_reading("[1].width", 765.5),))
    text = apply_entries(SIDES, first)
    second = Entries(
        format=1, job="P-7", readings=(side_reading("[0].right", 2263), side_reading("[1].left", 2248))
    )
    job = job_from_text(apply_entries(text, second))
    assert job.measured.side_openings_mm == ((None, None, 2263.0), (765.5, 2248.0, None))
    assert [sheet.width_mm for sheet in job.side_sheets] == [767.0, 767.0]
    assert job.mark_of("measured.side_openings_mm").mark == "measured"
    assert job.measured.by == "Al"
    assert SIDES.strip() in text


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("[2].width", 700.0, "is side sheet 3, but the job has 2 side sheets"),
        ("[0].width", 40.0, "is 40; expected 100 or more, as for any side sheet"),
        ("[0].depth", 700.0, "is not a key of the site page"),
    ],
)
def test_an_opening_that_is_not_there_is_refused(key: str, value: float, says: str) -> None:
    """By number, by size, by name."""
    entries = Entries(format=1, job="P-7", readings=(side_reading(key, value),))
    with pytest.raises(InputError) as fault:
        apply_entries(SIDES, entries)
    assert says in str(fault.value)


def test_more_openings_than_side_sheets_are_refused_in_a_job() -> None:
    """And one too small for its profiles: both named at once."""
    with pytest.raises(InputError) as fault:
        job_from_text(
            SIDES + '[measured]\nside_openings_mm = [["-", "-", 50], ["-", 800, "-"], [700, 800, 900]]\n'
        )
    assert {problem.place for problem in fault.value.problems} == {
        "measured.side_openings_mm", "measured.side_openings_mm[0].right",
    }  # fmt: skip
