"""Finds the value at a key path inside validated tables."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel


def value_at(here: Any, path: str) -> Any:
    """The value at a key path, so that a mark holds what the engine reads.

    Parameters
    ----------
    here
        A model, a mapping or a tuple.
    path
        Key path from there, for example "stock[0].price".

    Returns
    -------
    Any
        The validated value.

    Examples
    --------
    >>> value_at({"a": (1, {"b": 2})}, "a[1].b")
    2
    """
    for step in re.findall(r"[^.\[\]]+", path):
        if isinstance(here, BaseModel):
            here = getattr(here, _field_name(type(here), step))
        elif isinstance(here, Mapping):
            here = here[step]
        else:
            here = here[int(step)]
    return here


def _field_name(model: type[BaseModel], key: str) -> str:
    return next((name for name, known in model.model_fields.items() if known.alias == key), key)
