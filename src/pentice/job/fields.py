"""The kinds of value a job file holds: lengths, pitches, falls, dates, and the base of every table."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from pentice import units

Length = Annotated[float, BeforeValidator(units.length_mm)]
"""A length [mm] of either sign (an offset, a level)."""
Size = Annotated[float, BeforeValidator(units.length_mm), Field(gt=0, le=100_000)]
"""A length [mm] above nothing."""
NotNegative = Annotated[float, BeforeValidator(units.length_mm), Field(ge=0, le=100_000)]
"""A length [mm], nothing allowed."""
Pitch = Annotated[float, BeforeValidator(units.pitch_deg), Field(ge=0, lt=90)]
"""A pitch above the horizontal [deg]."""
Fall = Annotated[float, BeforeValidator(units.fall_share), Field(ge=0, lt=0.2)]
"""A gutter's fall, rise over run [-]."""
Pair = tuple[Size, Size]
"""Width and depth [mm, mm] of a section."""
Money = Annotated[Decimal, Field(ge=0)]
Day = date
Share = Annotated[float, Field(ge=0, lt=1)]
Side = Literal["open", "closed", "wall"]


class Table(BaseModel):
    """A table of the job file: frozen, and no key that is not known."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, use_attribute_docstrings=True)
