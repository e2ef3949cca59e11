"""Screws and fixing buttons."""

from __future__ import annotations

from typing import Literal

from pydantic import model_validator

from pentice.catalogue._base import Mm, Money, Positive, Product


class Button(Product):
    """A fixing button that holds a sheet at the middle of its low end."""

    shank_mm: Mm
    depth_mm: Mm
    """Depth of the sheet it fits [mm]."""
    washer_mm: Mm | None = None
    """Diameter of its cap [mm]."""
    pack: Positive = 1.0
    """Buttons in a pack."""
    price: Money
    """Of one pack."""


class Screw(Product):
    """A wood screw with the values that EN 14592 has the maker declare."""

    use: Literal["bar", "profile", "button", "frame"] = "bar"
    d_mm: Mm
    """Outer thread diameter [mm]."""
    root_mm: Mm
    """Inner thread diameter [mm]."""
    length_mm: Mm
    thread_mm: Mm
    """Length of thread [mm]."""
    head_mm: Mm | None = None
    """Diameter of the head [mm]."""
    washer_mm: Mm | None = None
    """Diameter of its washer [mm]."""
    f_ax_n_mm2: Positive | None = None
    """Withdrawal parameter, declared [N/mm2]."""
    rho_a_kg_m3: Positive | None = None
    """Density that f_ax_n_mm2 belongs to [kg/m3]."""
    f_head_n_mm2: Positive | None = None
    """Head pull-through parameter, declared [N/mm2]."""
    f_tens_n: Positive | None = None
    """Characteristic tension resistance of the screw [N]."""
    coating: str = ""
    pack: Positive = 1.0
    """Screws in a pack."""
    price: Money
    """Of one pack."""

    @model_validator(mode="after")
    def _whole(self) -> Screw:
        if self.root_mm >= self.d_mm:
            raise ValueError("expected root_mm less than d_mm")
        if self.thread_mm > self.length_mm:
            raise ValueError("expected thread_mm no more than length_mm")
        if self.f_ax_n_mm2 is not None and self.rho_a_kg_m3 is None:
            raise ValueError("expected rho_a_kg_m3 beside f_ax_n_mm2")
        return self
