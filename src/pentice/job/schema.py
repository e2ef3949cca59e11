"""JSON Schema of the job file, made from the model, for editors that complete and check while one types.

It takes all that the reader takes: lengths as text too, and any value as a table with its mark.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pentice.job.model import Job
from pentice.marks import MARK_WORDS

_MARKED: dict[str, Any] = {
    "type": "object",
    "description": "A value with its mark: who says so, and on what ground.",
    "properties": {
        "value": {},
        "mark": {"enum": list(MARK_WORDS)},
        "readings": {"type": "array", "items": {"type": "number"}},
        "note": {},
        "source": {},
        "by": {},
        "on": {},
    },
    "additionalProperties": False,
    "anyOf": [{"required": ["value"]}, {"required": ["readings"]}],
}
# The model's limits of a length stand beside an alternative of number and text, where they keep their short names.
_LIMITS = {"gt": "exclusiveMinimum", "ge": "minimum", "lt": "exclusiveMaximum", "le": "maximum"}


def job_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a job file; dates are texts such as "2027-03-02".

    Examples
    --------
    >>> job_schema()["properties"]["roof"]["$ref"]
    '#/$defs/Roof'
    """
    schema = Job.model_json_schema(mode="validation")
    tables = {name: _table(table) for name, table in schema.pop("$defs").items()}
    top = _table(schema)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **top,
        "$defs": {**dict(sorted(tables.items())), "Marked": _MARKED},
    }


def _table(table: Mapping[str, Any]) -> dict[str, Any]:
    properties = {key: _value(schema) for key, schema in table["properties"].items()}
    return {**table, "properties": properties}


def _value(schema: Mapping[str, Any]) -> dict[str, Any]:
    """One key: its value, or the table that holds it with its mark. A table of the model stays as it is."""
    if _is_table(schema):
        return _plain(schema)
    words = {key: schema[key] for key in ("title", "description", "default") if key in schema}
    plain = _plain({key: value for key, value in schema.items() if key not in words})
    return {**words, "anyOf": [plain, _marked(plain)]}


def _marked(plain: Mapping[str, Any]) -> dict[str, Any]:
    return {"$ref": "#/$defs/Marked", "properties": {"value": plain}}


def _is_table(schema: Mapping[str, Any]) -> bool:
    return "$ref" in str(schema)


def _plain(schema: Mapping[str, Any]) -> dict[str, Any]:
    """The schema without the word null (TOML has none), its limits by their full names, items with marks."""
    found: dict[str, Any] = {_LIMITS.get(key, key): value for key, value in schema.items()}
    if "anyOf" in found:
        kinds = [_plain(kind) for kind in found["anyOf"] if kind != {"type": "null"}]
        found["anyOf"] = kinds
        if len(kinds) == 1:
            found = {**{k: v for k, v in found.items() if k != "anyOf"}, **kinds[0]}
    if found.get("default", 0) is None:
        del found["default"]
    if "prefixItems" in found:
        found["prefixItems"] = [_item(item) for item in found["prefixItems"]]
    if isinstance(found.get("items"), Mapping):
        found["items"] = _item(found["items"])
    return found


def _item(schema: Mapping[str, Any]) -> dict[str, Any]:
    plain = _plain(schema)
    return plain if _is_table(plain) or plain.get("type") == "array" else {"anyOf": [plain, _marked(plain)]}
