"""Products as data: sheets, bars, profiles, tapes, screws, timber, gutters, each value with its source."""

from __future__ import annotations

from pentice.catalogue.model import Catalogue

__all__ = ["Catalogue"]
