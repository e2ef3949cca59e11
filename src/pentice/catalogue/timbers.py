"""Sawn and planed timber: strength class, sections and lengths, priced by volume or by the length."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import ClassVar, Literal

from pydantic import Field, model_validator

from pentice.catalogue._base import Entry, Mm, Money, Product


class TimberLength(Entry):
    """One length that timber is sold in; its price follows from the volume unless it stands."""

    length_mm: Mm
    price: Money | None = None
    """Of one length, whatever its section."""


class Timber(Product):
    """One strength class with its stock sections."""

    price_keys: ClassVar[tuple[str, ...]] = ("price_m3", "lengths")

    strength_class: str = Field(alias="class", min_length=1)
    """EN 338 or EN 14080 class, for example C24 or GL24h."""
    uses: tuple[Literal["rafter", "beam", "post", "wall plate", "noggin", "barge board", "fascia"], ...] = ()
    treated: bool = True
    sizes_mm: tuple[tuple[Mm, Mm], ...] = Field(min_length=1)
    """Width and depth of each section [mm]."""
    price_m3: Money | None = None
    """Price of a cubic metre."""
    lengths: tuple[TimberLength, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _whole(self) -> Timber:
        if self.price_m3 is None and any(piece.price is None for piece in self.lengths):
            raise ValueError("expected price_m3, or a price for every length")
        return self

    def price_of(self, size_mm: tuple[float, float], length_mm: float) -> Decimal:
        """Price of one stock length of a section, to the cent.

        Parameters
        ----------
        size_mm
            Width and depth [mm].
        length_mm
            One of the stock lengths [mm].

        Returns
        -------
        Decimal
            The price [currency of the price list].

        Raises
        ------
        ValueError
            The timber is not sold in that length.
        """
        piece = next((p for p in self.lengths if p.length_mm == length_mm), None)
        if piece is None:
            sold = ", ".join(f"{p.length_mm:g}" for p in self.lengths)
            raise ValueError(f"{self.id} is not sold {length_mm:g} mm long; expected {sold}.")
        if piece.price is not None:
            return piece.price
        cubic_mm = Decimal(str(size_mm[0])) * Decimal(str(size_mm[1])) * Decimal(str(length_mm))
        return (cubic_mm / 10**9 * (self.price_m3 or Decimal(0))).quantize(Decimal("0.01"), ROUND_HALF_UP)
