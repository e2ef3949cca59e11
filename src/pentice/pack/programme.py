"""programme.ics: the job's dates for a calendar (RFC 5545, from memory). Nothing comes from a clock."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from pentice.design import Design
from pentice.pack.setting_out import issued

INSPECTIONS = 5
"""Years of inspections put into the calendar."""


def programme_ics(design: Design) -> str:
    """The programme as an iCalendar text.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        CRLF lines of at most 75 bytes; an event for each date that the job names.

    Source
    ------
    RFC 5545, 3.1 and 3.6.1, from memory.
    """
    stamp = f"{issued(design):%Y%m%d}T000000Z"
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Pentice//programme//EN", "CALSCALE:GREGORIAN"]
    reference = design.job.reference or "roof"
    for key, start, days, says in _events(design):
        lines += [
            "BEGIN:VEVENT",
            f"UID:{_text(reference)}-{key}@pentice.invalid",
            f"DTSTAMP:{stamp}",
            f"DTSTART;VALUE=DATE:{start:%Y%m%d}",
            f"DTEND;VALUE=DATE:{start + timedelta(days=days):%Y%m%d}",
            f"SUMMARY:{_text(f'{design.job.name or reference}: {says}')}",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in _folded(line))


def working_days(start: date, count: int) -> tuple[date, ...]:
    """Working days from a start, Saturdays and Sundays left out.

    Parameters
    ----------
    start
        The first day.
    count
        How many.

    Returns
    -------
    tuple of date
        The days.

    Examples
    --------
    >>> [d.day for d in working_days(date(2027, 4, 16), 3)]
    [16, 19, 20]
    """
    days: list[date] = []
    day = start
    while len(days) < count:
        if day.weekday() < 5:
            days.append(day)
        day += timedelta(days=1)
    return tuple(days)


def _events(design: Design) -> Iterator[tuple[str, date, int, str]]:
    dates, people = design.job.dates, design.job.people
    if people.surveyed_on is not None:
        yield "survey", people.surveyed_on, 1, "survey"
    if dates.quoted_on is not None:
        yield "quote", dates.quoted_on, 1, "quote goes out"
        yield "valid", dates.quoted_on + timedelta(days=design.firm.valid_days), 1, "quote ends"
    if dates.order_on is not None:
        yield "order", dates.order_on, 1, "order by today"
    if dates.deliver_on is not None:
        yield "deliver", dates.deliver_on, 1, "delivery: check face labels, store level and shaded"
    if dates.start_on is None:
        return
    days = working_days(dates.start_on, dates.working_days or 1)
    for i, day in enumerate(days, 1):
        yield f"site-{i}", day, 1, f"on site, day {i} of {len(days)}: look at wind and rain first"
    yield "film", days[-1], 1, "all film off, hose test, hand over"
    for year in range(1, INSPECTIONS + 1):
        due = _years_later(days[-1], year)
        what = "inspect, wall fixings too" if year == INSPECTIONS else "inspect caps, screws, seals, gutter"
        yield f"inspect-{year}", due, 1, what


def _years_later(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year + years)
    except ValueError:  # 29 February
        return day.replace(year=day.year + years, day=28)


def _text(words: str) -> str:
    return words.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """A line in pieces of at most 75 bytes, the later ones behind a space, no character torn."""
    piece, size, first = "", 0, True
    for letter in line:
        width = len(letter.encode())
        if size + width > 75:
            yield piece if first else f" {piece}"
            piece, size, first = "", 1, False
        piece, size = piece + letter, size + width
    yield piece if first else f" {piece}"
