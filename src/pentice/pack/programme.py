"""programme.ics: the job's dates for a calendar (RFC 5545, from memory). Nothing comes from a clock."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import NamedTuple

from pentice.design import Design
from pentice.pack.drawings.values import not_proved
from pentice.pack.setting_out import file_date

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
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Pentice//programme//EN", "CALSCALE:GREGORIAN"]
    events = programme(design)
    for event in events:
        lines += _component("VEVENT", design, event)
    if not events:  # a calendar without any component is not valid
        lines += _component(
            "VTODO", design, Event("dates", None, "set the dates: survey, order, delivery, start")
        )
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in _folded(line))


class Event(NamedTuple):
    """One entry of the calendar: what names it, its day, what it says."""

    key: str
    day: date | None
    says: str
    more: str = ""


def programme(design: Design) -> tuple[Event, ...]:
    """The dates of a job, in the order of the work.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of Event
        Only what the job's dates say; empty where it has none.
    """
    return tuple(_events(design))


def _component(kind: str, design: Design, event: Event) -> list[str]:
    job = design.job
    title = job.name or job.reference or "Roof"
    lines = [
        f"BEGIN:{kind}",
        f"UID:{_uid(job.reference or job.name or 'roof')}-{event.key}@pentice.invalid",
        f"DTSTAMP:{file_date(design):%Y%m%d}T000000Z",
        f"SEQUENCE:{_sequence(job.revision)}",
    ]
    if event.day is not None:
        lines.append(f"DTSTART;VALUE=DATE:{event.day:%Y%m%d}")
        lines.append(f"DTEND;VALUE=DATE:{event.day + timedelta(days=1):%Y%m%d}")
    lines.append(f"SUMMARY:{_text(f'{title}: {event.says}')}")
    warning = not_proved(design) if event.key in _ACTED_ON or event.key.startswith("site-") else ""
    said = " ".join(x for x in (event.more, warning) if x)
    if said:
        lines.append(f"DESCRIPTION:{_text(said)}")
    if job.people.address:
        lines.append(f"LOCATION:{_text(job.people.address)}")
    return [*lines, f"END:{kind}"]


_ACTED_ON = ("order", "deliver")
"""Entries that cost money or lives if nothing was proved before; the days on site too."""


def _uid(name: str) -> str:
    """A name for an identifier: the same for the same job, letters and figures only."""
    return "".join(c if c.isascii() and c.isalnum() else "-" for c in name).strip("-") or "roof"


def _sequence(revision: str) -> int:
    """How often the job was revised: A 0, B 1, so that calendars replace what they hold."""
    letter = revision.strip().upper()
    return ord(letter) - ord("A") if len(letter) == 1 and "A" <= letter <= "Z" else 0


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


def _events(design: Design) -> Iterator[Event]:
    dates, people, firm = design.job.dates, design.job.people, design.firm
    if people.surveyed_on is not None:
        yield Event("survey", people.surveyed_on, "survey")
    if dates.quoted_on is not None:
        yield Event("quote", dates.quoted_on, "quote goes out")
        yield Event("valid", dates.quoted_on + timedelta(days=firm.valid_days), "quote ends")
    order = order_by(design)
    if order is not None:
        lead = f"{firm.lead_days} working days from order to delivery." if firm.lead_days else ""
        yield Event("order", order, "order by today", lead)
    if dates.deliver_on is not None:
        yield Event(
            "deliver",
            dates.deliver_on,
            "delivery",
            "Check sizes and face labels. Store level, shaded, film up.",
        )
    yield from _on_site(design)


def _on_site(design: Design) -> Iterator[Event]:
    dates = design.job.dates
    if dates.start_on is None:
        return
    days = working_days(dates.start_on, dates.working_days or 1)
    for i, day in enumerate(days, 1):
        more = "Look at wind and rain first. The gust limits stand on the method sheet."
        yield Event(f"site-{i}", day, f"on site, day {i} of {len(days)}", more)
    yield Event(
        "film", days[-1], "all film off, hose test, hand over", "Film that stays in the sun bakes on."
    )
    held_by = "wall fixings" if design.job.roof.attached else "post feet"
    for year, due in enumerate(inspection_days(design), 1):
        what = f"inspect, {held_by} too" if year == INSPECTIONS else "inspect caps, screws, seals, gutter"
        yield Event(f"inspect-{year}", due, what)


def order_by(design: Design) -> date | None:
    """The day the order goes out: as the job says, else the firm's lead time before delivery; None if unknown."""
    dates, lead = design.job.dates, design.firm.lead_days
    if dates.order_on is not None or dates.deliver_on is None or not lead:
        return dates.order_on
    day, left = dates.deliver_on, lead
    while left:
        day -= timedelta(days=1)
        left -= day.weekday() < 5
    return day


def inspection_days(design: Design) -> tuple[date, ...]:
    """When the roof is looked at: each year from the last day on site; none where the start is not known."""
    dates = design.job.dates
    if dates.start_on is None:
        return ()
    last = working_days(dates.start_on, dates.working_days or 1)[-1]
    return tuple(_years_later(last, year) for year in range(1, INSPECTIONS + 1))


def _years_later(day: date, years: int) -> date:
    try:
        return day.replace(year=day.year + years)
    except ValueError:  # 29 February
        return day.replace(year=day.year + years, day=28)


def _text(words: str) -> str:
    words = "".join(c for c in words.replace("\r\n", "\n") if c == "\n" or c.isprintable())
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
