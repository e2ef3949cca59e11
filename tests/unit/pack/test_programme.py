"""programme.ics: read by a reader of our own that follows RFC 5545, 3.1 (folding) and 3.3.11 (escaped text)."""

from __future__ import annotations

from datetime import date

import pytest

from pentice.catalogue.firm import read_firm
from pentice.job.model import Dates
from pentice.job.writing import with_keys
from pentice.pack.programme import inspection_days, order_by, programme, programme_ics, working_days
from pentice.pipeline import solve
from tests.designs import EXAMPLES, catalogue, changed, design_of, example

NO_DATES = {f"dates.{key}": None for key in Dates.model_fields} | {"people.surveyed_on": None}


def read(text: str) -> list[dict[str, str]]:
    """Components of a calendar: unfolded lines, name without parameters to value with its escapes undone."""
    found: list[dict[str, str]] = []
    for line in text.replace("\r\n ", "").split("\r\n"):
        name, _, value = line.partition(":")
        name = name.partition(";")[0]
        if name == "BEGIN" and value != "VCALENDAR":
            found.append({"kind": value})
        elif found and name != "END":
            value = value.replace("\\n", "\n").replace("\\,", ",").replace("\\;", ";").replace("\\\\", "\\")
            found[-1][name] = value
    return found


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_form_of_the_calendar(name: str) -> None:
    """CRLF everywhere and at the end, 75 bytes a line at most, every component closed, each with UID and DTSTAMP."""
    text = programme_ics(design_of(name))
    assert text.startswith("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:")
    assert text.endswith("END:VCALENDAR\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert "\r" not in text.replace("\r\n", "")
    assert max(len(line.encode()) for line in text.split("\r\n")) <= 75
    assert text.count("BEGIN:") == text.count("END:")
    events = read(text)
    assert len({event["UID"] for event in events}) == len(events)
    assert all(len(event["DTSTAMP"]) == len("20270301T000000Z") for event in events)


def test_the_dates_of_the_potting_bay() -> None:
    """As the job file has them; 12 April 2027 is a Monday, four working days end on the 15th. By calendar."""
    days = {event.key: event.day for event in programme(design_of("potting-bay"))}
    assert days["survey"] == date(2027, 2, 22)
    assert days["valid"] == date(2027, 3, 31)
    assert days["order"] == date(2027, 3, 15)
    assert days["deliver"] == date(2027, 4, 5)
    assert [days[f"site-{i}"] for i in (1, 2, 3, 4)] == [date(2027, 4, d) for d in (12, 13, 14, 15)]
    assert days["film"] == date(2027, 4, 15)
    assert days["inspect-5"] == date(2032, 4, 15)
    assert inspection_days(design_of("potting-bay"))[0] == date(2028, 4, 15)


def test_an_event_lasts_its_day() -> None:
    """DTEND of a whole day is the next day, not counted in (RFC 5545, 3.6.1)."""
    event = next(e for e in read(programme_ics(design_of("potting-bay"))) if "survey" in e["UID"])
    assert (event["DTSTART"], event["DTEND"]) == ("20270222", "20270223")
    assert event["DTSTAMP"] == "20270301T000000Z"


def test_a_weekend_is_left_out() -> None:
    """Friday 16 April 2027 and two more: Monday and Tuesday."""
    assert working_days(date(2027, 4, 16), 3) == (date(2027, 4, 16), date(2027, 4, 19), date(2027, 4, 20))


def test_29_february_is_looked_at_on_the_28th() -> None:
    """A last day of 29 February 2028 has no namesake in 2029."""
    job = changed("potting-bay", dates__start_on=date(2028, 2, 29), dates__working_days=1)
    assert inspection_days(solve(job, catalogue()))[0] == date(2029, 2, 28)


def test_the_order_day_follows_from_the_delivery() -> None:
    """15 working days before Monday 5 April 2027 is Monday 15 March: three whole weeks."""
    job = changed("potting-bay", dates__order_on=None)
    assert order_by(solve(job, catalogue())) == date(2027, 3, 15)
    assert read_firm().lead_days == 15


def test_names_stay_when_dates_move_and_the_sequence_tells_the_revision() -> None:
    """The same UIDs, so that a calendar moves its entries; SEQUENCE 1 for revision B."""
    moved = solve(changed("potting-bay", dates__start_on=date(2027, 5, 3), revision="B"), catalogue())
    before, after = read(programme_ics(design_of("potting-bay"))), read(programme_ics(moved))
    assert [event["UID"] for event in before] == [event["UID"] for event in after]
    assert {event["SEQUENCE"] for event in before} == {"0"}
    assert {event["SEQUENCE"] for event in after} == {"1"}


def test_text_is_escaped_and_long_lines_fold_between_characters() -> None:
    """Comma, semicolon, backslash, a line break and letters of two and three bytes come back as they went in."""
    name = "Öl; \\ a, b " + "ü€" * 40
    design = solve(
        with_keys(example("potting-bay"), {"name": name, "people.address": "Hall Lane\nNetherby"}),
        catalogue(),
    )
    text = programme_ics(design)
    event = next(e for e in read(text) if e["UID"].endswith("-survey@pentice.invalid"))
    assert event["SUMMARY"] == f"{name}: survey"
    assert event["LOCATION"] == "Hall Lane\nNetherby"
    assert max(len(line.encode()) for line in text.split("\r\n")) <= 75


def test_what_is_acted_on_says_that_it_is_not_proved() -> None:
    """Order, delivery and the days on site carry it; the survey does not."""
    for event in read(programme_ics(design_of("uneven-veranda"))):
        acted = any(word in event["UID"] for word in ("-order@", "-deliver@", "-site-"))
        assert ("Not proved" in event.get("DESCRIPTION", "")) == acted


def test_a_job_without_dates_is_a_thing_to_do_not_an_empty_calendar() -> None:
    """RFC 5545 wants one component at least."""
    design = solve(
        changed("potting-bay", **{k.replace(".", "__"): v for k, v in NO_DATES.items()}), catalogue()
    )
    assert programme(design) == ()
    (only,) = read(programme_ics(design))
    assert only["kind"] == "VTODO"
    assert "set the dates" in only["SUMMARY"]
