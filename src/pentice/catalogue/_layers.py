"""Catalogue files laid over each other: plain values, marks, and which file said what.

A later file adds products by id, or replaces single keys of a product that is there already. A key that is
replaced loses the mark it had.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from pentice.catalogue._base import Product
from pentice.catalogue._near import nearest
from pentice.catalogue.model import KINDS
from pentice.errors import Problem
from pentice.marks import MARK_WORDS, Given, take_marks
from pentice.texts import toml_data

_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")
_SINGLE: Mapping[str, tuple[Callable[[object], bool], str]] = {
    "format": (lambda value: value == 1 and not isinstance(value, bool), "1"),
    "name": (lambda value: isinstance(value, str), "text in quotes"),
    "whole_products": (lambda value: isinstance(value, bool), "true or false"),
}
"""What may stand at the top of the file beside the tables: a test, and what was expected."""
_TOP = (*_SINGLE, "prices")
_PRICE_KEYS = ("on", "mark", "source")


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One catalogue file, read but not yet validated."""

    file: str
    products: Mapping[tuple[str, str], Mapping[str, Any]]
    """By kind and id: plain values."""
    marks: Mapping[str, Given[Any]]
    prices: Mapping[str, Any]
    """Day, mark and source of every price that stands bare."""
    whole_products: bool
    """True where a product replaces an earlier one of the same id entirely."""
    problems: tuple[Problem, ...]


@dataclass(slots=True, kw_only=True)
class Pile:
    """The layers so far."""

    products: dict[tuple[str, str], dict[str, Any]] = field(default_factory=dict)
    marks: dict[str, Given[Any]] = field(default_factory=dict)
    said_by: dict[str, str] = field(default_factory=dict)
    """By key path of a product or of one of its keys: the file."""

    def lay(self, layer: Layer) -> None:
        """Lay one more file over those that are there."""
        for (kind, id), values in layer.products.items():
            path = f"{kind}.{id}"
            if layer.whole_products:
                # Emptied, not taken out: what comes first in a catalogue is what is chosen first.
                self.products.get((kind, id), {}).clear()
                self._forget(path)
            product = self.products.setdefault((kind, id), {})
            self.said_by[path] = layer.file
            for key, value in values.items():
                self._forget(f"{path}.{key}")
                product[key] = value
                self.said_by[f"{path}.{key}"] = layer.file
            self._date(path, product, values, layer.prices, KINDS[kind])
        self.marks.update(layer.marks)

    def _forget(self, path: str) -> None:
        inside = (path + ".", path + "[")
        for known in [p for p in self.marks if p == path or p.startswith(inside)]:
            del self.marks[known]

    def _date(
        self,
        path: str,
        product: dict[str, Any],
        values: Mapping[str, Any],
        prices: Mapping[str, Any],
        model: type[Product],
    ) -> None:
        """Give the prices that one file sets the day, mark and source that the file states for them."""
        set_here = [key for key in model.price_keys if key in values]
        if not set_here:
            return
        if "price_on" not in values:
            product.pop("price_on", None)
            if "on" in prices:
                product["price_on"] = prices["on"]
        if "mark" in prices:
            for key in set_here:
                self.marks[f"{path}.{key}"] = Given(
                    value=values[key],
                    mark=prices["mark"],
                    source=str(prices.get("source", "")),
                    on=str(prices.get("on", "")),
                )


def layer_of(text: str, file: str) -> Layer:
    """One catalogue file from its text; what is wrong with its outline stands in `problems`.

    Parameters
    ----------
    text
        TOML.
    file
        Name of the file, for the sentences.

    Returns
    -------
    Layer
        Its products with plain values, and their marks.

    Raises
    ------
    InputError
        The text is not TOML.
    """
    raw = toml_data(text, file=file)
    taken = take_marks({key: value for key, value in raw.items() if key != "prices"}, file=file)
    problems = [*taken.problems, *_wrong_at_top(raw, file)]
    products: dict[tuple[str, str], Mapping[str, Any]] = {}
    for kind in KINDS:
        table = taken.plain.get(kind, {})
        if not isinstance(table, Mapping):
            problems.append(Problem(kind, f"{kind} is {table!r}; expected tables [{kind}.ID].", file))
            continue
        for id, values in table.items():
            wrong = _wrong_product(kind, str(id), values, file)
            problems += wrong
            if not wrong:
                products[kind, str(id)] = values
    prices = raw.get("prices", {})
    return Layer(
        file=file,
        products=products,
        marks={path: given for path, given in taken.marks.items() if path.count(".") >= 2},
        prices=prices if isinstance(prices, Mapping) else {},
        whole_products=raw.get("whole_products") is True,
        problems=tuple(problems),
    )


def _wrong_at_top(raw: Mapping[str, Any], file: str) -> list[Problem]:
    problems = []
    known = {key: None for key in (*KINDS, *_TOP)}
    for key in raw:
        if key not in known:
            problems.append(Problem(key, f"{key} is not a known table. {nearest(known, key)}", file))
    for key, (good, expected) in _SINGLE.items():
        if key in raw and not good(raw[key]):
            shown = f'"{raw[key]}"' if isinstance(raw[key], str) else raw[key]
            problems.append(Problem(key, f"{key} is {shown}; expected {expected}.", file))
    return [*problems, *_wrong_prices(raw.get("prices", {}), file)]


def _wrong_prices(prices: object, file: str) -> list[Problem]:
    problems: list[Problem] = []
    if not isinstance(prices, Mapping):
        return [Problem("prices", f"prices is {prices!r}; expected a table [prices].", file)]
    for key in prices:
        if key not in _PRICE_KEYS:
            says = f"prices.{key} is not a known key. {nearest(dict.fromkeys(_PRICE_KEYS), key)}"
            problems.append(Problem(f"prices.{key}", says, file))
    if prices.get("mark", "given") not in MARK_WORDS:
        says = f"prices.mark is {prices['mark']!r}; expected one of {', '.join(MARK_WORDS)}."
        problems.append(Problem("prices.mark", says, file))
    return problems


def _wrong_product(kind: str, id: str, values: object, file: str) -> list[Problem]:
    path = f"{kind}.{id}"
    if not _ID.fullmatch(id):
        return [Problem(path, f'{kind} has "{id}"; expected an id of letters, digits, - and _.', file)]
    if not isinstance(values, Mapping):
        return [Problem(path, f"{path} is {values!r}; expected a table [{path}].", file)]
    if "id" in values:
        return [Problem(f"{path}.id", f"{path}.id stands in the table's own name; leave it out.", file)]
    return []
