"""Plain data as TOML text, always the same bytes: values first, then tables, then lists of tables.

Where a text that people wrote is to be changed, comments and all, see `writing.set_keys`.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping
from datetime import date, time
from typing import Any

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def toml_of(data: Mapping[str, Any]) -> str:
    """TOML text of a table.

    Parameters
    ----------
    data
        Texts, numbers, dates, lists and tables, as a TOML reader gives them.

    Returns
    -------
    str
        The text. A table with a `mark` stands on one line, as do tables within lists that hold other things.

    Examples
    --------
    >>> print(toml_of({"name": "Porch", "roof": {"width_mm": {"value": 5210, "mark": "measured"}}}), end="")
    name = "Porch"
    <BLANKLINE>
    [roof]
    width_mm = { value = 5210, mark = "measured" }
    """
    return "\n".join(_lines(data, "")).lstrip("\n") + "\n"


def inline_toml(value: Any) -> str:
    """One value as TOML on one line.

    Examples
    --------
    >>> inline_toml({"glazing.sheet": 'the "clear" one', "at": [1, 2.5, True]})
    '{ "glazing.sheet" = "the \\\\"clear\\\\" one", at = [1, 2.5, true] }'
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, float):
        return repr(value) if math.isfinite(value) else str(value).replace("+", "")
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        inner = ", ".join(f"{_key(str(k))} = {inline_toml(v)}" for k, v in value.items())
        return f"{{ {inner} }}" if inner else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(inline_toml(item) for item in value)}]"
    return str(value)


def _lines(table: Mapping[str, Any], path: str) -> Iterator[str]:
    later = []
    for key, value in table.items():
        if _is_table(value) or _is_list_of_tables(value):
            later.append((key, value))
        else:
            yield f"{_key(key)} = {inline_toml(value)}"
    for key, value in later:
        name = f"{path}.{_key(key)}" if path else _key(key)
        if isinstance(value, Mapping):
            yield from ("", f"[{name}]", *_lines(value, name))
        else:
            for item in value:
                yield from ("", f"[[{name}]]", *_lines(item, name))


def _is_table(value: Any) -> bool:
    return isinstance(value, Mapping) and "mark" not in value and all(_BARE.fullmatch(str(k)) for k in value)


def _is_list_of_tables(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(_is_table(item) for item in value)


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _text(key)


def _text(text: str) -> str:
    # JSON escapes all that TOML wants escaped but the last control character.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
