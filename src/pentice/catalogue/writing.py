"""Writes a catalogue back as TOML, so that it can be read again without any other file."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from pentice.catalogue.firm import Firm
from pentice.catalogue.model import KINDS, Catalogue
from pentice.marks import Given, Marks

_HEADER = """\
# Products with every value, its mark and its source. Each stands for itself: it replaces a product of the same id.
format = 1
whole_products = true
"""


def catalogue_toml(catalogue: Catalogue) -> str:
    """The catalogue as TOML; reading it gives an equal catalogue.

    Parameters
    ----------
    catalogue
        What to write, for example the products that one job uses.

    Returns
    -------
    str
        TOML, the same for the same catalogue.

    Examples
    --------
    >>> print(catalogue_toml(Catalogue()).splitlines()[-1])
    whole_products = true
    """
    lines = [_HEADER.rstrip()]
    for kind in KINDS:
        for id, product in catalogue.table(kind).items():
            lines += ["", *_table(f"{kind}.{id}", _plain(product), catalogue.marks)]
    return "\n".join(lines) + "\n"


def firm_toml(firm: Firm) -> str:
    """The firm as TOML; reading it gives an equal firm.

    Parameters
    ----------
    firm
        What to write.

    Returns
    -------
    str
        TOML, the same for the same firm.

    Examples
    --------
    >>> from pentice.catalogue import read_firm
    >>> print(firm_toml(read_firm()).splitlines()[5])
    currency = "GBP"
    """
    return "\n".join(["format = 1", *_table("", _plain(firm), firm.marks)]) + "\n"


def _plain(entry: BaseModel) -> dict[str, Any]:
    """Keys and values of an entry that say something; a marked value that equals its default is kept by _table."""
    model = type(entry)
    return {
        field.alias or name: getattr(entry, name)
        for name, field in model.model_fields.items()
        if name not in ("id", "marks")
    }


def _table(path: str, values: Mapping[str, Any], marks: Marks) -> list[str]:
    """One [table]: single values first, then the tables inside it."""
    lines, inner = ([f"[{path}]"] if path else []), list[str]()
    for key, value in values.items():
        at = f"{path}.{key}" if path else key
        if at not in marks and _says_nothing(value):
            continue
        if isinstance(value, BaseModel | Mapping) and at not in marks:
            inner += ["", *_table(f"{path}.{_key(key)}" if path else _key(key), _entries(value), marks)]
        else:
            lines.append(f"{_key(key)} = {_text(value, at, marks)}")
    return lines + inner


def _entries(value: BaseModel | Mapping[str, Any]) -> Mapping[str, Any]:
    return _plain(value) if isinstance(value, BaseModel) else value


def _says_nothing(value: object) -> bool:
    """Absent, or empty: every key of that kind may be left out."""
    return value is None or (isinstance(value, str | tuple | Mapping) and not value)


def _text(value: Any, path: str, marks: Marks) -> str:
    """A value as TOML, with its mark around it where it has one."""
    bare = _bare(value, path, marks)
    given = marks.get(path)
    return bare if given is None else "{ " + ", ".join([f"value = {bare}", *_mark(given)]) + " }"


def _mark(given: Given[Any]) -> list[str]:
    said = {"mark": given.mark, "note": given.note, "source": given.source, "by": given.by, "on": given.on}
    parts = [f"{key} = {_quoted(text)}" for key, text in said.items() if text]
    if given.readings:
        parts.append(f"readings = [{', '.join(_number(r) for r in given.readings)}]")
    return parts


def _bare(value: Any, path: str, marks: Marks) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return _number(value)
    if isinstance(value, str | Decimal):
        return _quoted(str(value))
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, tuple):
        return _list([_text(item, f"{path}[{i}]", marks) for i, item in enumerate(value)], value)
    entries = _entries(value)
    parts = [
        f"{_key(key)} = {_text(item, f'{path}.{key}', marks)}"
        for key, item in entries.items()
        if f"{path}.{key}" in marks or not _says_nothing(item)
    ]
    return "{ " + ", ".join(parts) + " }"


def _list(items: list[str], values: tuple[Any, ...]) -> str:
    """Tables stand one to a line, anything else side by side."""
    if values and isinstance(values[0], BaseModel):
        return "[\n" + "".join(f"  {item},\n" for item in items) + "]"
    return f"[{', '.join(items)}]"


def _number(value: float) -> str:
    return str(int(value)) if float(value).is_integer() else repr(value)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else _quoted(key)
