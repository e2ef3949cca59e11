"""Steel and aluminium sections for posts and beams: tubes and I-shapes, by their sizes."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field, model_validator

from pentice.catalogue._base import Mm, Product, StockLength


class Section(Product):
    """One metal section. Its properties follow from its sizes, without radii."""

    price_keys: ClassVar[tuple[str, ...]] = ("lengths",)

    metal: str = Field(min_length=1)
    """Grade of steel ("S235", "S275", "S355") or alloy and temper ("6060-T66")."""
    shape: Literal["tube", "round tube", "I"]
    """Square or oblong tube, round tube, or two alike flanges on a web."""
    width_mm: Mm
    """Level in a beam, along the wall in a post; of a round tube its diameter [mm]."""
    depth_mm: Mm
    """Upright in a beam, out from the wall in a post [mm]."""
    web_mm: Mm
    """Thickness of the web, or of a tube's wall [mm]."""
    flange_mm: Mm | None = None
    """Thickness of the flanges of an I-shape [mm]."""
    made: Literal["hot finished", "cold formed", "rolled", "extruded"]
    """How it was made: it decides how readily a post bows."""
    section_class: Literal[1, 2, 3, 4] | None = None
    """Class in bending and push of an aluminium section, as its maker states it (EN 1999-1-1, 6.1.4)."""
    lengths: tuple[StockLength, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _whole(self) -> Section:
        if (self.shape == "I") != (self.flange_mm is not None):
            raise ValueError("expected flange_mm for an I-shape, and for nothing else")
        if self.shape == "round tube" and self.width_mm != self.depth_mm:
            raise ValueError("expected width_mm and depth_mm alike, the diameter of a round tube")
        if 2.0 * (self.flange_mm or self.web_mm) >= self.depth_mm or 2.0 * self.web_mm >= self.width_mm:
            raise ValueError("expected walls thinner than half of the section")
        return self

    @property
    def is_steel(self) -> bool:
        """True for steel, whose grades begin with S; anything else is an alloy of aluminium."""
        return self.metal.startswith("S")
