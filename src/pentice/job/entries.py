"""Reads the small file that the site page saves, and writes its readings into [measured] of a job file.

The survey is never touched. Another job's file, an unknown key or a value that cannot be is refused, every problem
at once.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from pydantic import TypeAdapter, ValidationError

from pentice.errors import InputError, Problem
from pentice.faults import problems_of
from pentice.job.fields import NOT_READ, Number, Table
from pentice.job.model import HoldReading, Job
from pentice.job.paths import parts_of
from pentice.job.reading import job_from_text
from pentice.job.sense import SIDE_LEAST_MM
from pentice.job.writing import job_data, set_keys

KEYS: tuple[tuple[str, str], ...] = (
    (r"measured\.between_stems_mm\[\d{1,3}\]\.(head|middle|foot)", "mm"),
    (r"measured\.rafter_centres_mm\[\d{1,3}\]\.(head|foot)", "mm"),
    (r"measured\.slope_lengths_mm\[\d{1,3}\]", "mm"),
    (r"measured\.diagonals_mm\[[01]\]", "mm"),
    (r"measured\.side_openings_mm\[\d{1,3}\]\.(width|left|right)", "mm"),
    (r"measured\.sheet_temperature_c", "degC"),
)
"""Keys that may be read on site, and the unit of each."""


class Reading(Table):
    """One number read on site."""

    key: str
    """Key path below [measured]."""
    value: Number
    """What was read."""
    unit: str
    """mm or degC."""
    by: str = ""
    """Who read it."""
    on: str = ""
    """When."""


class Entries(Table):
    """What the site page saved."""

    format: Literal[1]
    """Version of the file's format."""
    job: str
    """Reference of the job."""
    revision: str = ""
    """Revision of the site page."""
    saved_at: str = ""
    """When it was saved."""
    readings: tuple[Reading, ...] = ()
    """Numbers read."""
    holds: tuple[HoldReading, ...] = ()
    """Hold points ticked."""


NO_REFERENCE = "no reference"
"""What stands for the reference of a job that has none, on its site page and in what that saves."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What a job knows of its bays, how many, where that is settled, and of its side sheets."""

    reference: str
    bays: int | None
    sides: int = 0


def entries_from_text(text: str, *, file: str = "") -> Entries:
    """What the site page saved, from the text of its file.

    Parameters
    ----------
    text
        JSON.
    file
        Name of the file, for the sentences.

    Returns
    -------
    Entries
        As saved; nothing is compared with a job yet.

    Raises
    ------
    InputError
        Every problem found, one sentence each.

    Examples
    --------
    >>> entries_from_text('{"format": 1, "job": "P-7", "readings": [], "holds": []}').job
    'P-7'
    """
    try:
        raw = json.loads(text)
    except (json.JSONDecodeError, RecursionError) as fault:
        says = f"is not what the site page saves: {fault}. Save it again on the phone and send that file."
        raise InputError((Problem("", says, file),)) from fault
    try:
        return TypeAdapter(Entries).validate_python(raw)
    except ValidationError as fault:
        raise InputError(problems_of(fault, Entries, file=file)) from fault


def apply_entries(
    job_text: str, entries: Entries, *, file: str = "", bays: int | None = None, use_file: bool = False
) -> str:
    """The text of a job file with what was read on site in its [measured].

    Parameters
    ----------
    job_text
        The job file as it stands. Keep a copy of it: the new text replaces earlier readings of the same places.
    entries
        What the site page saved.
    file
        Name of the job file, for the sentences.
    bays
        Number of bays, where it is known from a design.
    use_file
        Take readings that were typed on a page of another revision all the same.

    Returns
    -------
    str
        The new text; everything but [measured] is as it was.

    Raises
    ------
    InputError
        Another job's reference or revision, an unknown key, a wrong unit, a bay that is not there, one diagonal alone:
        every problem at once.

    Examples
    --------
    >>> saved = entries_from_text('{"format": 1, "job": "P-7", "readings": [{"key": "measured.sheet_temperature_c",'
    ...                           ' "value": 18.5, "unit": "degC"}]}')
    >>> print(apply_entries('reference = "P-7"\\n', saved), end="")
    reference = "P-7"
    <BLANKLINE>
    [measured]
    sheet_temperature_c = { value = 18.5, mark = "measured" }
    """
    job = job_from_text(job_text, file=file)
    known = Known(
        reference=job.reference or NO_REFERENCE,
        bays=bays if bays is not None else _bays_of(job),
        sides=len(job.side_sheets),
    )
    problems = [*_other_job(entries, known), *_bad_readings(entries, known)]
    if not use_file:
        problems += _other_revision(job, entries)
    if problems:
        raise InputError(problems)
    measured = _merged(job, entries)
    text = set_keys(job_text, {f"measured.{key}": value for key, value in measured.items()})
    job_from_text(text, file=file)
    return text


def _bays_of(job: Job) -> int | None:
    centres = job.frame.rafter_centres_mm
    return len(centres) - 1 if centres is not None else job.frame.bay_count


def _other_job(entries: Entries, known: Known) -> Iterator[Problem]:
    if entries.job != known.reference:
        says = f'The readings belong to job "{entries.job}", not to "{known.reference}". Take the file of this job.'
        yield Problem("job", says)


def _other_revision(job: Job, entries: Entries) -> Iterator[Problem]:
    """Bays may have been numbered anew between two revisions."""
    if entries.revision and entries.revision != job.revision:
        says = (
            f"The readings were typed on the site page of revision {entries.revision}; the job is at revision "
            f"{job.revision}. Where bays and rafters still mean the same, take them with --use-file."
        )
        yield Problem("revision", says)


def _bad_readings(entries: Entries, known: Known) -> Iterator[Problem]:
    seen: set[str] = set()
    for i, reading in enumerate(entries.readings):
        says = _trouble(reading, known, seen)
        if says:
            yield Problem(f"readings[{i}]", f"readings[{i}]: {says}")
        seen.add(reading.key)
    pair = [key for key in sorted(seen) if key.startswith("measured.diagonals_mm[")]
    if len(pair) == 1:
        yield Problem(
            "readings", f"{pair[0]} stands alone: measure the other diagonal too, one says nothing."
        )


def _trouble(reading: Reading, known: Known, seen: set[str]) -> str:
    key = reading.key
    unit = next((unit for pattern, unit in KEYS if re.fullmatch(pattern, key)), None)
    if unit is None:
        return f'"{key}" is not a key of the site page. Save the readings again from this job\'s page.'
    if reading.unit != unit:
        return f'{key} is in "{reading.unit}"; expected {unit}.'
    if key in seen:
        return f"{key} stands twice. Save the readings again."
    return _out_of_place(reading, known)


def _out_of_place(reading: Reading, known: Known) -> str:
    place, value = parts_of(reading.key), reading.value
    position = place[2] if len(place) > 2 and isinstance(place[2], int) else 0
    if "side_openings" in reading.key:
        if position >= known.sides:
            has = (
                f"{known.sides} side sheet{'' if known.sides == 1 else 's'}"
                if known.sides
                else "no side sheets"
            )
            return f"{reading.key} is side sheet {position + 1}, but the job has {has}."
        if not SIDE_LEAST_MM <= value <= 100_000.0:
            return f"{reading.key} is {value:g}; expected {SIDE_LEAST_MM:g} or more, as for any side sheet."
        return ""
    most = None if known.bays is None else known.bays + ("rafter_centres" in reading.key)
    if most is not None and "diagonals" not in reading.key and position >= most:
        what = "rafters" if "rafter_centres" in reading.key else "bays"
        return f"{reading.key} is {what[:-1]} {position + 1}, but the roof has {most} {what}."
    if reading.unit == "degC" and not -20.0 <= value <= 60.0:
        return f"{reading.key} is {value:g}; expected -20 to 60 degC. Measure on the sheet, in the shade."
    if reading.unit == "mm" and "rafter_centres" not in reading.key and not 0.0 < value <= 100_000.0:
        return f"{reading.key} is {value:g}; expected a length in mm."
    return ""


# --- into [measured] ---


def _merged(job: Job, entries: Entries) -> dict[str, Any]:
    """Values of [measured] that change: new readings beside the old ones, each list with its mark."""
    old: dict[str, Any] = job_data(job).get("measured", {})
    plain = {key: _unmarked(value) for key, value in old.items()}
    changed: dict[str, Any] = {}
    for reading in entries.readings:
        _, name, *place = parts_of(reading.key)
        assert isinstance(name, str)
        value = int(reading.value) if reading.value == int(reading.value) else reading.value
        changed[name] = _with_reading(changed.get(name, plain.get(name)), name, place, value)
    who = _who(entries)
    marked: dict[str, Any] = {
        key: {"value": value, "mark": "measured"} | who for key, value in changed.items()
    }
    if entries.holds:
        marked["holds"] = _holds(plain.get("holds", []), entries)
    return {**marked, **({} if not marked else who)}


def _unmarked(value: Any) -> Any:
    if isinstance(value, list):
        return [_unmarked(item) for item in value]
    return value["value"] if isinstance(value, Mapping) and "mark" in value and "value" in value else value


def _with_reading(old: Any, name: str, place: list[str | int], value: float) -> Any:
    if not place:
        return value
    items: list[Any] = [list(item) if isinstance(item, list) else item for item in old or []]
    width = {"between_stems_mm": 3, "rafter_centres_mm": 2, "side_openings_mm": 3}.get(name)
    position = place[0]
    assert isinstance(position, int)
    while len(items) <= position:
        items.append(NOT_READ[0] if width is None else [NOT_READ[0]] * width)
    if width is None:
        items[position] = value
    else:
        items[position][place[1]] = value
    return items


def _who(entries: Entries) -> dict[str, str]:
    """Who read, each name once in the order of the readings, and when it was last."""
    lines: tuple[Reading | HoldReading, ...] = (*entries.readings, *entries.holds)
    names = list(dict.fromkeys(line.by for line in lines if line.by))
    times = [line.on for line in lines if line.on]
    found = {"by": ", ".join(names), "on": max(times, default="")}
    return {key: value for key, value in found.items() if value}


def _holds(old: list[dict[str, Any]], entries: Entries) -> list[dict[str, Any]]:
    """Hold points: a line ticked again replaces the older one, in its place."""
    lines = {(line["hold"], line["item"]): line for line in old}
    for hold in entries.holds:
        lines[(hold.hold, hold.item)] = {k: v for k, v in hold.model_dump().items() if v != ""}
    return list(lines.values())
