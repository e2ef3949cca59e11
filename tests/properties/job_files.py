"""Random job files: raw data as a TOML reader gives it, of every key of the model, with and without marks.

Not every one makes sense; the tests keep those that the reader takes.
"""

from __future__ import annotations

import types
import typing
from datetime import date
from decimal import Decimal
from typing import Any, Literal

from hypothesis import strategies as st
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from pentice.job.fields import Table
from pentice.job.model import Job
from pentice.marks import MARK_WORDS

TEXT = st.text(max_size=8)
# A number that most ranges of the model take, whole or not.
NUMBERS = st.one_of(st.integers(1, 9), st.floats(0.05, 0.9), st.integers(20, 6000))
LENGTHS = st.one_of(NUMBERS, st.sampled_from(["2.95 m", "8' 4 1/2\"", "120 mm", "3-1-1/4", "1:6"]))
SETTINGS = st.dictionaries(
    st.one_of(st.sampled_from(["frame.bay_count", "glazing.sheet"]), TEXT),
    st.one_of(st.integers(-(2**40), 2**40), TEXT, st.booleans(), st.lists(st.integers(0, 9), max_size=3)),
    max_size=3,
)


def marked(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """A bare value, or now and then the same in a table with its mark."""
    table = st.fixed_dictionaries(
        {"value": values},
        optional={
            "mark": st.sampled_from(MARK_WORDS),
            "readings": st.lists(st.integers(1, 6000), max_size=3),
            "note": TEXT,
            "source": TEXT,
            "by": TEXT,
            "on": st.one_of(TEXT, st.dates()),
        },
    )
    return st.one_of(values, values, values, table)


def tables(model: type[BaseModel]) -> st.SearchStrategy[dict[str, Any]]:
    """Raw data of one table of the model: what it needs, and some of what it may have."""
    needed: dict[str, st.SearchStrategy[Any]] = {}
    other: dict[str, st.SearchStrategy[Any]] = {}
    for name, field in model.model_fields.items():
        if name != "format":
            (needed if field.is_required() else other)[name] = _of_field(name, field)
    return st.fixed_dictionaries(needed, optional=other)


def _of_field(name: str, field: FieldInfo) -> st.SearchStrategy[Any]:
    values = _of(field.annotation, name)
    return values if _has_tables(field.annotation) else marked(values)


def _has_tables(annotation: Any) -> bool:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return True
    return any(_has_tables(part) for part in typing.get_args(annotation))


def _of(annotation: Any, name: str) -> st.SearchStrategy[Any]:
    origin, parts = typing.get_origin(annotation), typing.get_args(annotation)
    if origin is Literal:
        return st.sampled_from(parts)
    if origin is typing.Annotated:
        return _of(parts[0], name)
    if origin in (typing.Union, types.UnionType):
        return st.one_of([_of(part, name) for part in parts if part is not type(None)])
    if origin is tuple:
        if len(parts) == 2 and parts[1] is Ellipsis:
            return st.lists(_of(parts[0], name), max_size=3)
        return st.tuples(*[_of(part, name) for part in parts]).map(list)
    if origin is dict:
        return SETTINGS
    if isinstance(annotation, type) and issubclass(annotation, Table):
        return tables(annotation)
    return _of_plain(annotation, name)


def _of_plain(kind: Any, name: str) -> st.SearchStrategy[Any]:
    if kind is bool:
        return st.booleans()
    if kind is int:
        return st.integers(1, 9)
    if kind is float:
        return LENGTHS if name.endswith("_mm") else NUMBERS
    if kind is date:
        return st.one_of(st.dates(), st.dates().map(date.isoformat))
    if kind is Decimal:
        return st.one_of(st.integers(0, 10**6), st.floats(0, 1e6), st.sampled_from(["12.50", "0.1"]))
    return TEXT


JOB_FILES = tables(Job)
"""Raw data of whole job files, most of them with something that the reader refuses."""


def small_files() -> st.SearchStrategy[dict[str, Any]]:
    """Raw data of job files with one table of one or two keys, which the reader mostly takes."""
    names = [name for name in Job.model_fields if name != "format"]
    return st.sampled_from(names).flatmap(_only)


def _only(name: str) -> st.SearchStrategy[dict[str, Any]]:
    field = Job.model_fields[name]
    model = _table_of(field.annotation)
    if model is None:
        return st.fixed_dictionaries({name: _of_field(name, field)})
    is_list = typing.get_origin(field.annotation) is tuple
    one = st.sampled_from(sorted(model.model_fields)).flatmap(lambda key: _with(model, key))
    return st.fixed_dictionaries({name: st.lists(one, max_size=2) if is_list else one})


def _with(model: type[BaseModel], key: str) -> st.SearchStrategy[dict[str, Any]]:
    keys = {k for k, field in model.model_fields.items() if field.is_required() or k == key}
    return st.fixed_dictionaries({k: _of_field(k, model.model_fields[k]) for k in sorted(keys)})


def _table_of(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in typing.get_args(annotation) if (found := _table_of(part))), None)
