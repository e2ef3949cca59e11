"""Gutters: the section that carries water, and the parts that go with it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from pydantic import Field

from pentice.catalogue._base import Mm, Positive, Product, StockLength

GutterPart = Literal[
    "bracket", "union", "stop end", "outlet", "downpipe", "downpipe clip", "shoe", "leaf guard"
]


class Gutter(Product):
    """An eaves gutter with its outlet and downpipe."""

    price_keys: ClassVar[tuple[str, ...]] = ("lengths",)
    reference_keys: ClassVar[tuple[str, ...]] = ("parts",)

    shape: Literal["half round", "rectangular", "trapezoidal"]
    width_mm: Mm
    """Clear inside at the top [mm]."""
    area_mm2: Positive
    """Full section from sole to lip [mm2]."""
    depth_mm: Mm
    """Sole to lip [mm]."""
    wet_width_mm: Mm | None = None
    """Inside at the top of the section in area_mm2 [mm]; left out: width_mm."""
    outlet_mm: Mm
    """Effective bore at the top of the outlet [mm]."""
    downpipe_mm: Mm
    """Inside diameter of the downpipe [mm]."""
    bracket_spacing_mm: Mm = 800.0
    parts: Mapping[GutterPart, str] = {}
    """By part: the id of the sundry to order."""
    lengths: tuple[StockLength, ...] = Field(min_length=1)
