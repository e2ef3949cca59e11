"""Where a value comes from: its mark travels beside it, the engine sees the plain value.

In a job file or a catalogue a value stands bare (mark "given") or as a table with value, mark, readings, note,
source, by, on. `take_marks` lifts those tables out of the raw data and leaves the plain values.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Generic, Literal, TypeVar, cast

from pentice.errors import Problem

T = TypeVar("T")

MarkWord = Literal["given", "measured", "declared", "chosen", "typical", "from memory"]
MARK_WORDS: tuple[MarkWord, ...] = ("given", "measured", "declared", "chosen", "typical", "from memory")
ReadingRule = Literal["least", "mean", "greatest"]
_KEYS = frozenset({"value", "mark", "readings", "note", "source", "by", "on"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(Generic[T]):
    """One value with its mark: who says so, and on what ground."""

    value: T
    mark: MarkWord = "given"
    readings: tuple[float, ...] = ()
    note: str = ""
    source: str = ""
    by: str = ""
    on: str = ""

    @property
    def is_typical(self) -> bool:
        """True where the value stands for no product and no measurement: typical, or recalled from memory."""
        return self.mark in ("typical", "from memory")


Marks = Mapping[str, Given[Any]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmarked:
    """Raw data with its marks lifted out: plain values, marks by key path, and what was wrong."""

    plain: dict[str, Any]
    marks: dict[str, Given[Any]]
    problems: tuple[Problem, ...]


def take_marks(
    raw: Mapping[str, Any], rules: Mapping[str, ReadingRule] | None = None, *, file: str = ""
) -> Unmarked:
    """Lift every {value = …, mark = …} table out of raw TOML data.

    Parameters
    ----------
    raw
        The data as tomllib read it.
    rules
        By key path: which of several readings counts where no value stands (least, mean or greatest).
    file
        Name of the file, for the problems.

    Returns
    -------
    Unmarked
        Plain data for the model, marks by key path ("roof.width_mm"; list items as "openings[0].x_mm").

    Examples
    --------
    >>> found = take_marks({"roof": {"width_mm": {"readings": [5211, 5210], "mark": "measured"}}},
    ...                    {"roof.width_mm": "mean"})
    >>> found.plain["roof"]["width_mm"], found.marks["roof.width_mm"].mark
    (5210.5, 'measured')
    """
    marks: dict[str, Given[Any]] = {}
    problems: list[Problem] = []

    def plain_of(node: object, path: str) -> object:
        if isinstance(node, Mapping):
            if ("value" in node or "readings" in node) and set(node) - {"value", "readings"} <= _KEYS:
                given, found = _one(node, path, (rules or {}).get(path), file)
                problems.extend(found)
                if given is None:
                    return None
                marks[path] = given
                return given.value
            return {k: plain_of(v, f"{path}.{k}" if path else str(k)) for k, v in node.items()}
        if isinstance(node, list):
            return [plain_of(v, f"{path}[{i}]") for i, v in enumerate(node)]
        return node

    plain = cast(dict[str, Any], plain_of(raw, ""))
    return Unmarked(plain=plain, marks=marks, problems=tuple(problems))


def _one(
    node: Mapping[str, Any], path: str, rule: ReadingRule | None, file: str
) -> tuple[Given[Any] | None, list[Problem]]:
    problems: list[Problem] = []
    mark = node.get("mark", "measured" if "readings" in node else "given")
    if mark not in MARK_WORDS:
        words = ", ".join(MARK_WORDS)
        problems.append(Problem(path, f"{path}.mark is {mark!r}; expected one of {words}.", file))
        mark = "given"
    readings = node.get("readings", [])
    good = isinstance(readings, list) and all(_is_number(r) for r in readings)
    if not good:
        problems.append(Problem(path, f"{path}.readings is {readings!r}; expected a list of numbers.", file))
        readings = []
    value = node.get("value")
    if value is None:
        value = _value_of(readings, rule)
    if value is None:
        says = f"{path} has no value and its readings do not settle one; give value = … beside them."
        return None, [*problems, Problem(path, says, file)] if good else problems
    given: Given[Any] = Given(
        value=value,
        mark=mark,
        readings=tuple(float(r) for r in readings),
        note=str(node.get("note", "")),
        source=str(node.get("source", "")),
        by=str(node.get("by", "")),
        on=str(node.get("on", "")),
    )
    return given, problems


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def _value_of(readings: list[float], rule: ReadingRule | None) -> float | None:
    if not readings or rule is None:
        return None
    if rule == "least":
        return min(readings)
    if rule == "greatest":
        return max(readings)
    return math.fsum(readings) / len(readings)
