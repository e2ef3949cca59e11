"""The catalogue as a reader sees it: a page of text, or plain data for other programs."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from pentice.catalogue._base import Product
from pentice.catalogue.bars import Bar, Profile
from pentice.catalogue.fixings import Button, Screw
from pentice.catalogue.gutters import Gutter
from pentice.catalogue.model import KINDS, Catalogue
from pentice.catalogue.sections import Section
from pentice.catalogue.sheets import Sheet
from pentice.catalogue.timbers import Timber

_DAY_UNKNOWN = "no day given"


def products_text(catalogue: Catalogue) -> str:
    """Every product on a line of its own: id, name, sizes, and what about it is typical.

    Parameters
    ----------
    catalogue
        The products.

    Returns
    -------
    str
        Lines, ending in a line break.

    Examples
    --------
    >>> print(products_text(Catalogue()), end="")
    No products.
    """
    lines: list[str] = []
    for kind in KINDS:
        table = catalogue.table(kind)
        if not table:
            continue
        wide = max(len(id) for id in table)
        lines += ["", kind.upper()]
        lines += [_line(kind, product, wide, catalogue) for product in table.values()]
    if not lines:
        return "No products.\n"
    return "\n".join([*lines[1:], "", *_legend(catalogue)]) + "\n"


def _line(kind: str, product: Product, wide: int, catalogue: Catalogue) -> str:
    facts = "; ".join(fact for fact in (_facts(product), _typical_words(kind, product, catalogue)) if fact)
    return f"  {product.id:<{wide}}  {product.name}" + (f": {facts}" if facts else "")


def _facts(product: Product) -> str:
    """The few sizes that a fitter looks for."""
    match product:
        case Sheet():
            widths = ", ".join(f"{w:g}" for w in sorted({s.width_mm for s in product.stock}))
            lengths = sorted({s.length_mm for s in product.stock})
            return f"{', '.join(product.tints)}; {widths} wide, {lengths[0]:g} to {lengths[-1]:g} long" + (
                "" if product.load_table is None else "; load table"
            )
        case Bar():
            return f"stem {product.stem_mm:g}, seat {product.seat_mm:g}, rebate {product.rebate_mm:g}"
        case Profile():
            return f"{product.use}, arm {product.arm_mm:g}"
        case Button():
            return f"sheet {product.depth_mm:g}, shank {product.shank_mm:g}"
        case Screw():
            return f"{product.use}, pack of {product.pack:g}"
        case Timber():
            return f"{product.strength_class}; {', '.join(f'{b:g} x {h:g}' for b, h in product.sizes_mm)}"
        case Section():
            thick = f"{product.web_mm:g}" + (f" and {product.flange_mm:g}" if product.flange_mm else "")
            return f"{product.shape} {product.width_mm:g} x {product.depth_mm:g} x {thick}, {product.metal}"
        case Gutter():
            return f"{product.shape}, {product.area_mm2:g} mm2"
        case _:
            return str(getattr(product, "size", ""))


def _typical_words(kind: str, product: Product, catalogue: Catalogue) -> str:
    stem = f"{kind}.{product.id}."
    prices = tuple(stem + key for key in product.price_keys)
    typical = [
        path
        for path, given in catalogue.marks.items()
        if path.startswith(stem) and given.is_typical and not path.startswith(prices)
    ]
    table = f"{stem}load_table"
    count = len(typical) + (catalogue.is_typical(table) and table not in typical)
    return f"{count} typical value{'s' if count != 1 else ''}" if count else ""


def _legend(catalogue: Catalogue) -> list[str]:
    days = sorted({_day(product) for kind in KINDS for product in catalogue.table(kind).values()})
    sources = sorted(dict.fromkeys(_price_sources(catalogue)))
    lines = [
        "Lengths in mm. A typical value stands for no product: put your supplier's in its place before you build.",
        f"Prices of: {', '.join(days)}.",
    ]
    return [*lines, f"Prices that stand for no product: {'; '.join(sources)}."] if sources else lines


def _price_sources(catalogue: Catalogue) -> Iterator[str]:
    """What stands behind prices that are marked typical."""
    for kind in KINDS:
        for product in catalogue.table(kind).values():
            for key in product.price_keys:
                mark = catalogue.mark_of(f"{kind}.{product.id}.{key}")
                if mark is not None and mark.is_typical and mark.source:
                    yield mark.source


def _day(product: Product) -> str:
    return product.price_on.isoformat() if product.price_on else _DAY_UNKNOWN


def products_data(catalogue: Catalogue) -> dict[str, Any]:
    """The catalogue as plain data: products by kind and id, and the marks of their values by key path.

    Parameters
    ----------
    catalogue
        The products.

    Returns
    -------
    dict
        Fit for JSON; money and days as text, keys that say nothing left out.

    Examples
    --------
    >>> products_data(Catalogue())
    {'format': 1, 'marks': {}}
    """
    data: dict[str, Any] = {"format": 1}
    for kind in KINDS:
        table = {id: _data(product) for id, product in catalogue.table(kind).items()}
        if table:
            data[kind] = table
    data["marks"] = {
        path: {"mark": g.mark}
        | {key: text for key in ("source", "note", "by", "on") if (text := getattr(g, key))}
        for path, g in catalogue.marks.items()
    }
    return data


def _data(value: Any) -> Any:
    if isinstance(value, BaseModel):
        fields = ((f.alias or name, getattr(value, name)) for name, f in type(value).model_fields.items())
        return {key: _data(item) for key, item in fields if item is not None and item != () and item != {}}
    if isinstance(value, Mapping):
        return {str(key): _data(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [_data(item) for item in value]
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, datetime.date):
        return value.isoformat()
    return value
