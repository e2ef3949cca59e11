"""A job file to fill in, every key explained from the model itself, and the examples that come with the program."""

from __future__ import annotations

import difflib
import textwrap
import typing
from collections.abc import Iterator
from importlib.resources import files
from typing import Any, Literal

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from pentice.errors import InputError
from pentice.faults import model_in
from pentice.job.model import Job
from pentice.job.toml_text import inline_toml
from pentice.job.writing import as_written

NEEDED: tuple[str, ...] = (
    "name",
    "reference",
    "roof.use",
    "roof.width_mm",
    "roof.projection_mm",
    "roof.pitch_deg",
    "roof.left",
    "roof.right",
    "roof.front",
    "site.altitude_m",
    "site.terrain",
    "site.vb0_m_s",
    "site.ground_snow_kn_m2",
    "house.depth_mm",
    "house.wall_top_above_mm",
    "house.upper_slope_plan_mm",
    "house.roof_pitch_deg",
    "house.roof_drains_to_us",
    "house.wall",
)
"""Keys to give first: nothing can stand for them."""

_HEAD = """\
## A job file: one roof. Lengths in mm, or as text: "2.95 m", "8' 4 1/2\\"". Falls as text: "1:6".
## Stand outside and face the wall: left is left, x runs right from the outer face of the left end rafter.
## Take the # away from a key to give it. Keys with (needed) have no safe choice; what else is left out is
## chosen for you, or the check that needs it says so.
## A value may stand in a table with its mark and its readings:
##   width_mm = { value = 5210, mark = "measured", readings = [5210, 5212], by = "…", on = 2027-03-02 }
"""


def new_job_text(example: str | None = None) -> str:
    """The text of a new job file.

    Parameters
    ----------
    example
        Name of an example to begin with; None for a file in which every key waits behind a #.

    Returns
    -------
    str
        TOML that can be read as it is.

    Raises
    ------
    InputError
        There is no example of that name.

    Examples
    --------
    >>> "# width_mm =    # (needed)" in new_job_text()
    True
    """
    if example is not None:
        return example_text(example)
    tables = _tables_first(Job)
    lines = [_HEAD, "format = 1", *_keys(Job, "", skip=("format", *(name for name, _, _ in tables)))]
    for name, table, is_list in tables:
        lines += ["", *_heading(name, table, is_list), *_keys(table, name)]
    return "\n".join(lines) + "\n"


def example_names() -> tuple[str, ...]:
    """Names of the examples that come with the program, in the order of the alphabet."""
    folder = files("pentice") / "examples"
    if not folder.is_dir():
        return ()
    found = (entry.name for entry in folder.iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in found if name.endswith(".toml")))


def example_text(name: str) -> str:
    """The text of one example.

    Parameters
    ----------
    name
        Its name, with or without ".toml".

    Returns
    -------
    str
        TOML as its author wrote it.

    Raises
    ------
    InputError
        There is no example of that name.
    """
    plain = name.removesuffix(".toml")
    names = example_names()
    if plain not in names:
        near = difflib.get_close_matches(plain, names, n=1, cutoff=0.4)
        do = f'Did you mean "{near[0]}"?' if near else ""
        raise InputError.of("The example", f'"{name}"', f"there is {', '.join(names) or 'none'}", do)
    return (files("pentice") / "examples" / f"{plain}.toml").read_text(encoding="utf-8")


def _tables_first(model: type[BaseModel]) -> list[tuple[str, type[BaseModel], bool]]:
    """The tables of a model: those with needed keys first, in the order in which these are asked for."""
    found = []
    for name, field in model.model_fields.items():
        table = model_in(field.annotation)
        if table is not None:
            found.append((name, table, typing.get_origin(field.annotation) is tuple))
    asked = [path.split(".")[0] for path in NEEDED]
    return sorted(found, key=lambda t: asked.index(t[0]) if t[0] in asked else len(asked))


def _heading(name: str, table: type[BaseModel], is_list: bool) -> list[str]:
    says = _comment(" ".join((table.__doc__ or "").split()))
    # A heading is live only where an empty table changes nothing: [house] alone would put up a house.
    behind = "# " if is_list or name in ("house", "site.wind_coefficients") or "." in name else ""
    return [*says, f"{behind}[[{name}]]" if is_list else f"{behind}[{name}]"]


def _keys(table: type[BaseModel], path: str, skip: tuple[str, ...] = ()) -> Iterator[str]:
    names = [name for name in table.model_fields if name not in skip]
    order = {key: i for i, key in enumerate(NEEDED)}
    names.sort(key=lambda name: order.get(f"{path}.{name}" if path else name, len(order)))
    inner = []
    for name in names:
        field = table.model_fields[name]
        model = model_in(field.annotation)
        if model is not None:
            inner.append((name, field, model))
            continue
        key = f"{path}.{name}" if path else name
        yield from _comment(field.description or "")
        yield f"# {name} = {_shown(field)}{_needed(key, field)}"
    for name, field, model in inner:
        is_list = typing.get_origin(field.annotation) is tuple
        yield from ("", *_heading(f"{path}.{name}", model, is_list), *_keys(model, f"{path}.{name}"))


def _needed(key: str, field: FieldInfo) -> str:
    return "   # (needed)" if key in NEEDED or field.is_required() else ""


def _shown(field: FieldInfo) -> str:
    """What stands behind a key: its default, the words to choose from, or nothing."""
    words = _words(field.annotation)
    if words:
        chosen = f"{inline_toml(field.default)}   # or " if field.default in words else ""
        others = [word for word in words if word != field.default]
        return chosen + (" | " if not chosen else ", ").join(inline_toml(word) for word in others)
    if field.is_required() or field.default is None or field.default == "":
        return ""
    return inline_toml(as_written(field.default))


def _words(annotation: Any) -> tuple[Any, ...]:
    if typing.get_origin(annotation) is Literal:
        return typing.get_args(annotation)
    for part in typing.get_args(annotation):
        if typing.get_origin(part) is Literal:
            return typing.get_args(part)
    return ()


def _comment(says: str) -> list[str]:
    return [f"## {line}" for line in textwrap.wrap(says, 106)]
