"""Writes a job: as a file of its own, as the same job with other values, or into a text that people wrote.

What is written reads back as the same job with the same marks.
"""

from __future__ import annotations

import copy
import tomllib
from collections import Counter
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from pentice import units
from pentice.errors import InputError
from pentice.job.fields import NOT_READ
from pentice.job.model import Job
from pentice.job.paths import PLACES, Parts, parts_of
from pentice.job.reading import job_from_data
from pentice.job.toml_text import inline_toml, toml_of
from pentice.marks import Given, Marks, MarkWord

_LONGEST_LIST = 1000


def job_toml(job: Job) -> str:
    """The job as the text of a job file.

    Parameters
    ----------
    job
        Any job that was read or made by `with_keys`.

    Returns
    -------
    str
        TOML: plain values, marked ones as tables, and nothing that stands at its default.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> print(job_toml(job_from_text('name = "Porch"\\n[roof]\\nwidth_mm = "4.8 m"')), end="")
    format = 1
    name = "Porch"
    <BLANKLINE>
    [roof]
    width_mm = 4800
    """
    return toml_of({"format": job.format, **job_data(job)})


def job_data(job: Job, *, whole: bool = False) -> dict[str, Any]:
    """The job as raw data, as its file would give it; with `whole` every default stands in it too."""
    data = _data(job, "", job.marks, whole)
    assert isinstance(data, dict)
    return data


def with_keys(job: Job, changes: Mapping[str, Any], mark: MarkWord = "given", reason: str = "") -> Job:
    """The same job with other values at some key paths.

    Parameters
    ----------
    job
        The job to start from; it stays as it is.
    changes
        New value by key path, as a job file would give it; None leaves the key out again.
    mark
        Where the new values come from: "chosen" for what the program picked.
    reason
        Why, in a few words; stands as the note beside each of them.

    Returns
    -------
    Job
        The changed job, checked as a file is.

    Raises
    ------
    InputError
        A path is not known or a value cannot be used: every problem at once.

    Examples
    --------
    >>> porch = with_keys(Job(), {"frame.bay_count": 5}, mark="chosen", reason="fewest bays under 1000")
    >>> porch.frame.bay_count, porch.mark_of("frame.bay_count").note
    (5, 'fewest bays under 1000')
    """
    data = job_data(job, whole=True)
    for path, value in changes.items():
        _put(data, parts_of(path), _marked_value(value, mark, reason), path)
    return job_from_data(data)


def set_keys(text: str, changes: Mapping[str, Any]) -> str:
    """The text of a job file with other values at some key paths; comments and order stay.

    Parameters
    ----------
    text
        TOML that people wrote.
    changes
        New value by key path, as a job file would give it; None takes the key out.

    Returns
    -------
    str
        The new text.

    Raises
    ------
    InputError
        The text is not TOML, or it is laid out so that the value cannot be set without losing something.

    Examples
    --------
    >>> print(set_keys("[roof]\\nwidth_mm = 4800  # twice\\n", {"roof.width_mm": 4805}), end="")
    [roof]
    width_mm = 4805  # twice
    """
    import tomlkit  # late: only this function needs it

    try:
        wanted = tomllib.loads(text)
        document: Any = tomlkit.parse(text)
    except ValueError as fault:
        raise InputError(f"The job file is not TOML: {fault}. Look at that line.") from fault
    comments = _comments_in(document)
    for path, value in changes.items():
        parts = parts_of(path)
        _put(wanted, parts, value, path)
        _put_in_document(document, parts, wanted)
    changed: str = tomlkit.dumps(document)
    if not _same(changed, wanted) or comments - _comments_in(tomlkit.parse(changed)):
        raise InputError(
            f"The file is laid out so that {', '.join(changes)} cannot be set in it without losing something. "
            "Set it by hand, or write every table once under its own [heading]."
        )
    return changed


def _comments_in(table: Any) -> Counter[str]:
    """Comments that stand on lines of their own, in a TOML document and its tables.

    One that stands after a table belongs to it: where a value takes the place of the whole table, it would go.
    """
    from tomlkit.items import AoT, Comment, Table

    found: Counter[str] = Counter()
    for _, item in (table.value if isinstance(table, Table) else table).body:
        if isinstance(item, Comment):
            found[item.as_string().strip()] += 1
        elif isinstance(item, Table):
            found += _comments_in(item)
        elif isinstance(item, AoT):
            for part in item.body:
                found += _comments_in(part)
    return found


def _same(text: str, wanted: Mapping[str, Any]) -> bool:
    try:
        return tomllib.loads(text) == wanted
    except tomllib.TOMLDecodeError:
        return False


# --- a job as data ---


def _data(node: Any, path: str, marks: Marks, whole: bool) -> Any:
    if path in marks:
        return _marked(marks[path], as_written(node))
    if isinstance(node, BaseModel):
        return _table(node, path, marks, whole)
    if isinstance(node, Mapping):  # an option's values: free data, as it was read
        return {key: _data(value, f"{path}.{key}", marks, whole) for key, value in node.items()}
    if isinstance(node, list | tuple):
        return [_data(value, f"{path}[{i}]", marks, whole) for i, value in enumerate(node)]
    return as_written(node)


def _table(table: BaseModel, path: str, marks: Marks, whole: bool) -> dict[str, Any]:
    data: dict[str, Any] = {}
    for name, field in type(table).model_fields.items():
        value = getattr(table, name)
        if value is None:
            continue
        found = _data(value, f"{path}.{name}" if path else name, marks, whole)
        if isinstance(value, BaseModel):
            # An empty [house] still says that there is a house.
            if found or field.default is None or whole:
                data[name] = found
        elif whole or field.is_required() or found != _data(field.get_default(), "", {}, whole):
            data[name] = found
    return data


def as_written(value: Any) -> Any:
    """A value of the model as a file would hold it: whole numbers without a point, a dash for nothing."""
    if value is None:
        return NOT_READ[0]
    if isinstance(value, Decimal):
        return _amount(value)
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return int(value)
    if isinstance(value, BaseModel | list | tuple | Mapping):
        return _data(value, "", {}, False)
    return value


def _amount(value: Decimal) -> int | float | str:
    if value == value.to_integral_value() and abs(value) < 10**15:
        return int(value)
    return float(value) if Decimal(repr(float(value))) == value else str(value)


def _marked(given: Given[Any], plain: Any) -> dict[str, Any]:
    """The table of a marked value; the words it was given in are kept while they still mean the same."""
    value = given.value if _means(given.value, plain) else plain
    table: dict[str, Any] = {"value": value, "mark": given.mark}
    if given.readings:
        table["readings"] = [as_written(reading) for reading in given.readings]
    for key in ("note", "source", "by", "on"):
        if text := getattr(given, key):
            table[key] = text
    return table


def _means(written: Any, plain: Any) -> bool:
    if isinstance(written, list) and isinstance(plain, list):
        return len(written) == len(plain) and all(map(_means, written, plain))
    if isinstance(written, str) and isinstance(plain, int | float):
        return any(
            _reads_as(read, written, plain) for read in (units.length_mm, units.pitch_deg, units.fall_share)
        )
    return bool(written == plain) or str(written) == str(plain)


def _reads_as(read: Any, written: str, plain: float) -> bool:
    try:
        return bool(read(written) == plain)
    except ValueError:
        return False


def _marked_value(value: Any, mark: MarkWord, reason: str) -> Any:
    if value is None or isinstance(value, Mapping) or (mark == "given" and not reason):
        return value
    marked = {"value": list(value) if isinstance(value, tuple) else value, "mark": mark}
    return {**marked, "note": reason} if reason else marked


# --- putting a value in its place ---


def _put(data: dict[str, Any], parts: Parts, value: Any, path: str) -> None:
    """Put a value (a copy of it) into raw data; None takes the key out."""
    node: Any = data
    for i, part in enumerate(parts[:-1]):
        if value is None and isinstance(node, dict) and part not in _inside_mark(node):
            return
        node = _step(node, part, parts[i + 1], parts[:i], path)
    last = parts[-1]
    node = _inside_mark(node)
    if isinstance(last, str) and isinstance(node, dict):
        if value is None:
            node.pop(last, None)
        else:
            node[last] = copy.deepcopy(value)
    elif isinstance(last, int) and isinstance(node, list):
        _pad(node, last, parts[:-1], path)
        node[last] = copy.deepcopy(NOT_READ[0] if value is None else value)
    else:
        raise _no_such_place(path)


def _step(node: Any, part: str | int, following: str | int, before: Parts, path: str) -> Any:
    node = _inside_mark(node)
    if isinstance(part, str) and isinstance(node, dict):
        return node.setdefault(part, [] if isinstance(following, int) else {})
    if isinstance(part, int) and isinstance(node, list):
        _pad(node, part, before, path)
        return node[part]
    raise _no_such_place(path)


def _inside_mark(node: Any) -> Any:
    return node["value"] if isinstance(node, dict) and "value" in node and "mark" in node else node


def _pad(items: list[Any], position: int, before: Parts, path: str) -> None:
    """Make room in a list of readings: what was not read stands as a dash."""
    name = ".".join(str(part) for part in before)
    is_reading = name in PLACES or name == "measured.slope_lengths_mm"
    if position < len(items):
        return
    if position > (_LONGEST_LIST if is_reading else len(items)):
        there = f"the list has {len(items)}, counted from 0"
        raise InputError.of(path, f"number {position} of a list", there)
    while len(items) <= position:
        items.append(
            [NOT_READ[0]] * len(PLACES[name]) if name in PLACES else NOT_READ[0] if is_reading else {}
        )


def _no_such_place(path: str) -> InputError:
    return InputError.of(path, "no place in a job file", 'expected a key path such as "glazing.sheet"')


def _put_in_document(node: Any, parts: Parts, data: Any) -> None:
    """Bring one place of the written document to what the data wants; a list of values is written anew as a whole."""
    import tomlkit

    if isinstance(data, dict) and _inside_mark(data) is not data:
        parts = ("value", *parts)  # a place within a marked value
    part, rest = parts[0], parts[1:]
    value = data.get(part) if isinstance(data, dict) else data[part]
    is_missing = part not in node if isinstance(part, str) else part >= len(node)
    if value is None:
        node.pop(part, None)
    elif is_missing:
        _add(node, part, value, is_heading=bool(rest))
    elif rest and (isinstance(value, dict) or _has_tables(value)):
        _put_in_document(node[part], rest, value)
    else:
        node[part] = tomlkit.value(inline_toml(value))


def _add(node: Any, part: str | int, value: Any, *, is_heading: bool) -> None:
    from tomlkit import aot, items
    from tomlkit import value as item_of

    within_line = isinstance(node, items.InlineTable | items.Array)
    if is_heading and not within_line and isinstance(value, dict):
        new: Any = _heading(value)
    elif is_heading and not within_line and _has_tables(value):
        new = aot()
        for table in value:
            new.append(_heading(table))
    else:
        new = item_of(inline_toml(value))
    if isinstance(part, int):
        node.append(new)
    else:
        node[part] = new


def _heading(values: Mapping[str, Any]) -> Any:
    from tomlkit import table, value

    new = table()
    for key, inner in values.items():
        new.add(key, value(inline_toml(inner)))
    return new


def _has_tables(value: Any) -> bool:
    return isinstance(value, list) and any(isinstance(item, dict) for item in value)
