"""The catalogue: every product by kind and id, and the mark of every value.

The engine reads plain values (`catalogue.sheets["sheet-16-triple"].mass_kg_m2`); who says so is asked for
by key path (`catalogue.mark_of("sheets.sheet-16-triple.mass_kg_m2")`).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from pydantic import Field, SkipValidation

from pentice.catalogue._base import Entry, Money, Product, StockLength
from pentice.catalogue._near import nearest
from pentice.catalogue.bars import Bar, Profile
from pentice.catalogue.fixings import Button, Screw
from pentice.catalogue.goods import Flashing, Packed, Seal, Sealant, Sundry, Tape
from pentice.catalogue.gutters import Gutter
from pentice.catalogue.sections import Section
from pentice.catalogue.sheets import LoadRow, LoadTable, Sheet, StockSheet, Tint
from pentice.catalogue.timbers import Timber, TimberLength
from pentice.errors import InputError
from pentice.marks import Given

__all__ = [
    "KINDS",
    "Bar",
    "Button",
    "Catalogue",
    "Flashing",
    "Gutter",
    "LoadRow",
    "LoadTable",
    "Money",
    "Packed",
    "Product",
    "Profile",
    "Screw",
    "Seal",
    "Sealant",
    "Section",
    "Sheet",
    "StockLength",
    "StockSheet",
    "Sundry",
    "Tape",
    "Timber",
    "TimberLength",
    "Tint",
]

P = TypeVar("P", bound=Product)

KINDS: Mapping[str, type[Product]] = {
    "sheets": Sheet,
    "bars": Bar,
    "profiles": Profile,
    "tapes": Tape,
    "buttons": Button,
    "seals": Seal,
    "screws": Screw,
    "sealants": Sealant,
    "flashings": Flashing,
    "timbers": Timber,
    "sections": Section,
    "gutters": Gutter,
    "sundries": Sundry,
}
"""Tables of the catalogue file, in the order of the work, with the model of one product."""


class Catalogue(Entry):
    """Products by id, and the marks of their values by key path."""

    sheets: Mapping[str, Sheet] = {}
    bars: Mapping[str, Bar] = {}
    profiles: Mapping[str, Profile] = {}
    tapes: Mapping[str, Tape] = {}
    buttons: Mapping[str, Button] = {}
    seals: Mapping[str, Seal] = {}
    screws: Mapping[str, Screw] = {}
    sealants: Mapping[str, Sealant] = {}
    flashings: Mapping[str, Flashing] = {}
    timbers: Mapping[str, Timber] = {}
    sections: Mapping[str, Section] = {}
    gutters: Mapping[str, Gutter] = {}
    sundries: Mapping[str, Sundry] = {}
    marks: SkipValidation[Mapping[str, Given[Any]]] = Field(default_factory=dict)

    def mark_of(self, path: str) -> Given[Any] | None:
        """The mark of a value, or of the nearest table or list around it; None where it stands bare.

        Parameters
        ----------
        path
            Key path, for example "sheets.sheet-16-triple.load_table.rows[2].load_kn_m2".

        Returns
        -------
        Given or None
            Value, mark and source. None: the value was given bare, or is not there.

        Examples
        --------
        >>> marked = Catalogue(marks={"bars.b.lengths": Given(value=(), mark="typical")})
        >>> marked.mark_of("bars.b.lengths[0].price").mark
        'typical'
        """
        while path.count(".") >= 2:
            if path in self.marks:
                return self.marks[path]
            if path.endswith(".load_table"):
                return self._load_table_mark(path.split(".")[1])
            path = path[: path.rfind("[" if path.endswith("]") else ".")]
        return None

    def _load_table_mark(self, id: str) -> Given[Any] | None:
        """A load table carries its mark and source as keys of its own."""
        sheet = self.sheets.get(id)
        if sheet is None or sheet.load_table is None:
            return None
        table = sheet.load_table
        return Given(value=table, mark=table.mark, source=table.source)

    def is_typical(self, path: str) -> bool:
        """True where a value stands for no product: typical, from memory, or invented.

        Parameters
        ----------
        path
            Key path as for `mark_of`.
        """
        mark = self.mark_of(path)
        return mark is not None and mark.is_typical

    def table(self, kind: str) -> Mapping[str, Product]:
        """The products of one kind, by id.

        Parameters
        ----------
        kind
            A key of KINDS.
        """
        found: Mapping[str, Product] = getattr(self, kind)
        return found

    def sheet(self, id: str, place: str = "glazing.sheet") -> Sheet:
        """The sheet of that id; raises InputError naming the place and the nearest known id."""
        return _known(self.sheets, "sheets", id, place)

    def bar(self, id: str, place: str = "glazing.bar") -> Bar:
        """The bar of that id; raises InputError naming the place and the nearest known id."""
        return _known(self.bars, "bars", id, place)

    def profile(self, id: str, place: str = "glazing.head_profile") -> Profile:
        """The profile of that id; raises InputError naming the place and the nearest known id."""
        return _known(self.profiles, "profiles", id, place)

    def screw(self, id: str, place: str = "screws.bar_screw") -> Screw:
        """The screw of that id; raises InputError naming the place and the nearest known id."""
        return _known(self.screws, "screws", id, place)

    def gutter(self, id: str, place: str = "gutter.item") -> Gutter:
        """The gutter of that id; raises InputError naming the place and the nearest known id."""
        return _known(self.gutters, "gutters", id, place)

    def timber(self, id: str, place: str = "frame.timber") -> Timber:
        """The timber of that id; raises InputError naming the place and the nearest known id."""
        return _known(self.timbers, "timbers", id, place)

    def section(self, id: str, place: str = "frame.post_section") -> Section:
        """The metal section of that id; raises InputError naming the place and the nearest known id."""
        return _known(self.sections, "sections", id, place)


def _known(table: Mapping[str, P], kind: str, id: str, place: str) -> P:
    """One product of a table, or one sentence that helps to find it."""
    if id in table:
        return table[id]
    raise InputError.of(place, f'"{id}"', f"expected one of the {kind} of the catalogue", nearest(table, id))
