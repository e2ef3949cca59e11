"""What is bought in packs: tapes, seals, sealants, flashings and sundries."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from pentice.catalogue._base import Mm, MmFromZero, Money, Positive, Product

Unit = Literal["each", "pair", "set", "m", "m2", "tube", "can", "bag", "kg", "l"]


class Packed(Product):
    """Sold by the pack: quantity in units, packs rounded up, one price for a pack."""

    size: str = ""
    """Its size in words."""
    unit: Unit
    pack: Positive = 1.0
    """Units in a pack."""
    price: Money
    """Of one pack."""
    spare_share: Annotated[float, Field(ge=0, le=1, strict=True)] | None = None
    """Spare to order on top of the need [-]; left out: the rule of the take-off."""


class Tape(Packed):
    """Tape over sheet ends or under bars."""

    use: Literal["solid", "breather", "separating"]
    width_mm: Mm
    sheet_depths_mm: tuple[Mm, ...] = ()
    """Depths of sheet that it covers with both legs; none: any."""


class Seal(Packed):
    """A rubber seal from a coil."""

    use: Literal["base", "cap", "profile"]


class Sealant(Packed):
    """A tube of sealant that does not attack polycarbonate."""

    use: Literal["general", "chase"] = "general"
    volume_ml: Positive
    """In one tube [ml]."""
    yield_share: Annotated[float, Field(gt=0, le=1, strict=True)] = 0.9
    """Part of a tube that ends up in the bead [-]."""


class Flashing(Packed):
    """Flashing tape or lead at the wall."""

    kind: Literal["tape", "lead"]
    width_mm: Mm
    lap_mm: MmFromZero = 100.0


class Sundry(Packed):
    """Any other part of a finished roof."""

    part: str = Field(min_length=1)
    """The part of a finished roof that it is, in the words of the take-off ("foot end cap")."""
    hand: Literal["", "left", "right"] = ""
    bolt_mm: tuple[Mm, Mm] | None = None
    """Diameter and length, of a bolt; left out: it is none, or of no known size."""
    brace_mm: Mm | None = None
    """Thickness, of a knee brace; left out: it is none, or of no known thickness."""
    sheet_depths_mm: tuple[Mm, ...] = ()
    """Depths of sheet that it goes with; none: any."""
