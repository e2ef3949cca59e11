"""Products as data: sheets, bars, profiles, tapes, screws, timber, gutters, each value with its source."""

from __future__ import annotations

from pentice.catalogue.firm import Firm, read_firm
from pentice.catalogue.model import Catalogue
from pentice.catalogue.products import products_data, products_text
from pentice.catalogue.reading import read_catalogue, read_catalogue_text, select
from pentice.catalogue.writing import catalogue_toml, firm_toml

__all__ = [
    "Catalogue",
    "Firm",
    "catalogue_toml",
    "firm_toml",
    "products_data",
    "products_text",
    "read_catalogue",
    "read_catalogue_text",
    "read_firm",
    "select",
]
