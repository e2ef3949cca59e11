"""Reads the catalogue: the shipped one with others laid over it, every problem at once, each with its place."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache
from importlib import resources
from pathlib import Path

from pydantic import ValidationError

from pentice.catalogue._base import Product
from pentice.catalogue._layers import Layer, Pile, layer_of
from pentice.catalogue._near import nearest
from pentice.catalogue._paths import value_at
from pentice.catalogue.model import KINDS, Catalogue
from pentice.errors import InputError, Problem
from pentice.faults import key_path, problems_of
from pentice.texts import file_text

SHIPPED = "the shipped catalogue"


def read_catalogue(paths: Sequence[str | Path] = ()) -> Catalogue:
    """The shipped catalogue with each file laid over it in turn: later files add by id, or replace single keys.

    Parameters
    ----------
    paths
        The user's own catalogue files, the last one counting most.

    Returns
    -------
    Catalogue
        Products with plain values, and the marks of the values.

    Raises
    ------
    InputError
        Every problem found in any file, one sentence each.
    StoreError
        A file cannot be read.

    Examples
    --------
    >>> read_catalogue().sheets["sheet-16-triple"].depth_mm
    16.0
    """
    if not paths:
        return _shipped()
    return _catalogue((_shipped_layer(), *(_layer_in(Path(path)) for path in paths)))


def read_catalogue_text(text: str, *, file: str = "") -> Catalogue:
    """A catalogue from text alone, without the shipped one.

    Parameters
    ----------
    text
        TOML.
    file
        Name of the file, for the sentences.

    Returns
    -------
    Catalogue
        Products with plain values, and the marks of the values.

    Raises
    ------
    InputError
        Every problem found, one sentence each.

    Examples
    --------
    >>> read_catalogue_text('[seals.s]\\nname = "Seal"\\nuse = "bse"\\nunit = "m"\\nprice = 4')
    Traceback (most recent call last):
    pentice.errors.InputError: seals.s.use is "bse"; expected 'base', 'cap' or 'profile'.
    """
    return _catalogue((layer_of(text, file),))


@cache
def _shipped() -> Catalogue:
    return _catalogue((_shipped_layer(),))


@cache
def _shipped_layer() -> Layer:
    data = resources.files("pentice.catalogue").joinpath("data/catalogue.toml")
    return layer_of(data.read_text(encoding="utf-8"), SHIPPED)


def _layer_in(path: Path) -> Layer:
    return layer_of(file_text(path), str(path))


def _catalogue(layers: Iterable[Layer]) -> Catalogue:
    """Validate the layers as one catalogue."""
    pile, problems = Pile(), list[Problem]()
    for layer in layers:
        problems += layer.problems
        pile.lay(layer)
    tables: dict[str, dict[str, Product]] = {kind: {} for kind in KINDS}
    for (kind, id), values in pile.products.items():
        model = KINDS[kind]
        try:
            tables[kind][id] = model.model_validate({**values, "id": id})
        except ValidationError as fault:
            problems += _problems_in(fault, model, f"{kind}.{id}", pile.said_by)
            continue
        for key, given in model.typical.items():
            if key not in values:
                pile.marks[f"{kind}.{id}.{key}"] = given
    problems += _clashes(pile) + _dangling(tables, pile)
    if problems:
        raise InputError(problems)
    marks = {path: replace(given, value=value_at(tables, path)) for path, given in sorted(pile.marks.items())}
    return Catalogue.model_validate({**tables, "marks": marks})


def _problems_in(
    fault: ValidationError, model: type[Product], path: str, said_by: Mapping[str, str]
) -> list[Problem]:
    """What is wrong with one product, each with the file that said it."""
    whole: dict[str, str] = {}
    for error in fault.errors(include_url=False):
        if error["type"] == "value_error" and isinstance(error["input"], Mapping):
            at = key_path(error["loc"])
            whole[at] = f"{path}{'.' + at if at else ''} does not fit together; {error['ctx']['error']}."
    problems = []
    for found in problems_of(fault, model):
        place = f"{path}.{found.place}" if found.place else path
        says = whole.get(found.place) or f"{path}.{found.says}".replace("the top of the file", path)
        key = re.split(r"[.\[]", found.place, maxsplit=1)[0]
        problems.append(Problem(place, says, said_by.get(f"{path}.{key}") or said_by[path]))
    return problems


def _clashes(pile: Pile) -> list[Problem]:
    """One id in two tables: an order line could mean either."""
    seen: dict[str, str] = {}
    problems = []
    for kind, id in pile.products:
        if id in seen:
            says = f"{kind}.{id} has the id of {seen[id]}.{id}; expected an id of its own."
            problems.append(Problem(f"{kind}.{id}", says, pile.said_by[f"{kind}.{id}"]))
        seen.setdefault(id, kind)
    return problems


def _dangling(tables: Mapping[str, Mapping[str, Product]], pile: Pile) -> list[Problem]:
    """Products that name others that are not there."""
    known = [id for kind in KINDS for id in tables[kind]]
    broken = {id for _, id in pile.products}
    problems = []
    for kind in KINDS:
        for id, product in tables[kind].items():
            for place, named in references_of(product):
                if named not in broken:
                    path = f"{kind}.{id}.{place}"
                    says = (
                        f'{path} is "{named}"; expected a product of the catalogue. {nearest(known, named)}'
                    )
                    problems.append(Problem(path, says, pile.said_by[f"{kind}.{id}"]))
    return problems


def references_of(product: Product) -> list[tuple[str, str]]:
    """The other products that one product names: key and id, in the order of its keys.

    Parameters
    ----------
    product
        Any product.
    """
    found: list[tuple[str, str]] = []
    for key in product.reference_keys:
        value = getattr(product, key)
        if isinstance(value, Mapping):
            found += [(f"{key}.{part}", str(id)) for part, id in value.items()]
        elif value is not None:
            found.append((key, str(value)))
    return found


def select(catalogue: Catalogue, ids: Iterable[str]) -> Catalogue:
    """The named products and those that they name in turn, in the catalogue's own order.

    Parameters
    ----------
    catalogue
        Where they stand.
    ids
        Ids, bare ("bar-60-16") or with their kind ("bars.bar-60-16").

    Returns
    -------
    Catalogue
        Just these products, with their marks.

    Raises
    ------
    InputError
        Ids that the catalogue does not hold.

    Examples
    --------
    >>> list(select(read_catalogue(), ["sheet-16-triple"]).sheets)
    ['sheet-16-triple']
    """
    known = {id: (kind, product) for kind in KINDS for id, product in catalogue.table(kind).items()}
    waiting = [id.rpartition(".")[2] for id in ids]
    unknown = sorted({id for id in waiting if id not in known})
    if unknown:
        says = [f'"{id}" is no product of the catalogue. {nearest(known, id)}' for id in unknown]
        raise InputError([Problem(id, text) for id, text in zip(unknown, says, strict=True)])
    wanted: set[str] = set()
    while waiting:
        id = waiting.pop()
        if id not in wanted:
            wanted.add(id)
            waiting += [named for _, named in references_of(known[id][1])]
    tables = {
        kind: {id: product for id, product in catalogue.table(kind).items() if id in wanted} for kind in KINDS
    }
    marks = {path: given for path, given in catalogue.marks.items() if path.split(".")[1] in wanted}
    return Catalogue.model_validate({**tables, "marks": marks})
