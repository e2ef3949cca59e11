"""Gutters: the section that carries water, and the parts that go with it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field, model_validator

from pentice.catalogue._base import Mm, Positive, Product, StockLength

Factor = Annotated[float, Field(gt=0, le=1.2, strict=True)]
"""A factor read from a figure of EN 12056-3 [-]."""

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
    area_mm2: Positive | None = None
    """Full section from sole to lip [mm2]; or its outline_mm."""
    depth_mm: Mm
    """Sole to lip [mm]."""
    outline_mm: tuple[tuple[float, float], ...] | None = None
    """Corners (across, up) of the inside as measured, from the front lip along the sole to the back [mm]."""
    depth_factor: Factor | None = None
    """F_d of EN 12056-3, 5.1.3, read from its figure for a gutter that is not half round [-]."""
    shape_factor: Factor | None = None
    """F_s, likewise [-]."""
    flow_l_s: Positive | None = None
    """What a short level length takes with its outlet at one end, as its maker declares it [l/s]."""
    wet_width_mm: Mm | None = None
    """Inside at the top of the section in area_mm2 [mm]; left out: width_mm."""
    outlet_mm: Mm
    """Effective bore at the top of the outlet [mm]."""
    downpipe_mm: Mm
    """Inside diameter of the downpipe, or one side of a rectangular one [mm]."""
    downpipe_depth_mm: Mm | None = None
    """The other side of a rectangular downpipe [mm]."""
    bracket_spacing_mm: Mm = 800.0
    parts: Mapping[GutterPart, str] = {}
    """By part: the id of the sundry to order."""
    lengths: tuple[StockLength, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _has_a_section(self) -> Gutter:
        if (self.area_mm2 is None) == (self.outline_mm is None):
            raise ValueError("expected area_mm2 or outline_mm, one of the two")
        return self
