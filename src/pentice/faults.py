"""Turns what a model reports into sentences of the trade: place, value, what was expected, what to do."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel, ValidationError

from pentice.errors import Problem


def key_path(loc: Iterable[int | str]) -> str:
    """A key path as people write it: roof.openings[0].x_mm.

    Examples
    --------
    >>> key_path(("roof", "openings", 0, "x_mm"))
    'roof.openings[0].x_mm'
    """
    path = ""
    for part in loc:
        path += f"[{part}]" if isinstance(part, int) else (f".{part}" if path else part)
    return path


def problems_of(fault: ValidationError, model: type[BaseModel], *, file: str = "") -> tuple[Problem, ...]:
    """Every fault of a ValidationError as one Problem each, unknown keys with the nearest known one.

    Parameters
    ----------
    fault
        What pydantic raised.
    model
        The model that was validated, for the names of its keys.
    file
        Name of the file, for the sentence.

    Returns
    -------
    tuple of Problem
        In the order of the model; alternatives of one value are reported once.
    """
    seen: dict[str, Problem] = {}
    for error in fault.errors(include_url=False):
        path = key_path(_without_alternatives(error["loc"], model))
        says = _sentence(path, dict(error), model)
        seen.setdefault(path, Problem(path, says, file))
    return tuple(seen.values())


def _without_alternatives(loc: tuple[int | str, ...], model: type[BaseModel]) -> tuple[int | str, ...]:
    """Drop the names that pydantic adds for the branches of a union: they are no keys."""
    return tuple(part for part in loc if not (isinstance(part, str) and ("[" in part or part in _BRANCHES)))


_BRANCHES = frozenset({"float", "int", "str", "bool", "list", "dict", "tuple"})

_EXPECTED = {
    "greater_than": "expected more than {gt}",
    "greater_than_equal": "expected {ge} or more",
    "less_than": "expected less than {lt}",
    "less_than_equal": "expected {le} or less",
    "literal_error": "expected {expected}",
    "too_short": "expected {min_length} or more values",
    "too_long": "expected at most {max_length} values",
    "string_type": "expected text in quotes",
    "bool_type": "expected true or false",
    "bool_parsing": "expected true or false",
    "float_type": "expected a number",
    "float_parsing": "expected a number",
    "int_type": "expected a whole number",
    "int_parsing": "expected a whole number",
    "int_from_float": "expected a whole number",
    "finite_number": "expected a number",
    "model_type": "expected a table",
    "dict_type": "expected a table",
    "tuple_type": "expected a list",
    "list_type": "expected a list",
    "date_type": "expected a date (2027-03-02)",
    "date_from_datetime_parsing": "expected a date (2027-03-02)",
    "date_parsing": "expected a date (2027-03-02)",
    "decimal_parsing": "expected an amount of money",
    "decimal_type": "expected an amount of money",
}


def _sentence(path: str, error: Mapping[str, Any], model: type[BaseModel]) -> str:
    kind, context = str(error["type"]), _plain(error.get("ctx") or {})
    if kind == "extra_forbidden":
        return _unknown_key(path, error, model)
    if kind == "missing":
        return f"{path} is missing; give it."
    shown = _shown(error.get("input"))
    if kind == "value_error":
        return f"{path} is {shown}; {context.get('error', error['msg'])}."
    template = _EXPECTED.get(kind)
    expected = template.format(**context) if template else str(error["msg"]).lower()
    return f"{path} is {shown}; {expected}."


def _plain(context: Mapping[str, Any]) -> dict[str, Any]:
    """What goes into a sentence, whole numbers without a point."""
    return {key: f"{value:g}" if isinstance(value, float) else value for key, value in context.items()}


def _shown(value: object) -> str:
    text = (
        f'"{value}"'
        if isinstance(value, str)
        else str(value).lower()
        if isinstance(value, bool)
        else f"{value}"
    )
    return text if len(text) <= 60 else text[:57] + "…"


def _unknown_key(path: str, error: Mapping[str, Any], model: type[BaseModel]) -> str:
    loc = tuple(error["loc"])
    known = _keys_at(model, loc[:-1])
    near = difflib.get_close_matches(str(loc[-1]), known, n=1, cutoff=0.5)
    place = key_path(loc[:-1]) or "the top of the file"
    if near:
        return f'{path} is not a known key; did you mean "{near[0]}"?'
    return f"{path} is not a known key; {place} knows {', '.join(known) or 'no keys'}."


def _keys_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> list[str]:
    """Names of the keys that the model knows at a place."""
    here: type[BaseModel] | None = model
    for part in loc:
        if isinstance(part, int) or here is None:
            continue
        field = next((f for n, f in here.model_fields.items() if part in (n, f.alias)), None)
        here = model_in(field.annotation) if field is not None else here
    return [] if here is None else [f.alias or n for n, f in here.model_fields.items()]


def model_in(annotation: Any) -> type[BaseModel] | None:
    """The model that an annotation holds: alone, in a tuple, or beside None.

    Parameters
    ----------
    annotation
        Of a field.

    Returns
    -------
    type or None
        The first model in it; None where there is none.

    Examples
    --------
    >>> model_in(tuple[int, ...]) is None
    True
    """
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for part in getattr(annotation, "__args__", ()):
        found = model_in(part)
        if found is not None:
            return found
    return None
