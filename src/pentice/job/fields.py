"""The kinds of value a job file holds: lengths, pitches, falls, dates, and the base of every table."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, Strict

from pentice import units

Number = Annotated[float, Strict()]
"""A number: no text, and not true or false."""
Whole = Annotated[int, Strict()]
"""A whole number."""
YesNo = Annotated[bool, Strict()]
"""true or false."""


def _day(value: object) -> object:
    """A date, or its text: a bare number is not taken for seconds since 1970."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    if isinstance(value, str):
        try:
            return date.fromisoformat(value.strip())
        except ValueError:
            pass
    raise ValueError("expected a date (2027-03-02)")


def _amount(value: object) -> object:
    if isinstance(value, bool):
        raise ValueError("expected an amount of money")
    return value


def _none_for_dash(value: object) -> object:
    """TOML has no word for nothing, so a list says "-" where there is no reading."""
    return None if isinstance(value, str) and value.strip() in NOT_READ else value


NOT_READ = ("-", "–", "—")

_length = BeforeValidator(units.length_mm, json_schema_input_type=float | str)
Length = Annotated[float, _length]
"""A length [mm] of either sign (an offset, a level)."""
Size = Annotated[float, _length, Field(gt=0, le=100_000)]
"""A length [mm] above nothing."""
NotNegative = Annotated[float, _length, Field(ge=0, le=100_000)]
"""A length [mm], nothing allowed."""
MaybeSize = Annotated[Size | None, BeforeValidator(_none_for_dash, json_schema_input_type=float | str)]
"""A length [mm] in a list, or "-" where there is none."""
Pitch = Annotated[
    float, BeforeValidator(units.pitch_deg, json_schema_input_type=float | str), Field(ge=0, lt=90)
]
"""A pitch above the horizontal [deg]."""
Fall = Annotated[
    float, BeforeValidator(units.fall_share, json_schema_input_type=float | str), Field(ge=0, lt=0.2)
]
"""A gutter's fall, rise over run [-]."""
Pair = tuple[Size, Size]
"""Width and depth [mm, mm] of a section."""
Money = Annotated[Decimal, BeforeValidator(_amount, json_schema_input_type=float | str), Field(ge=0)]
Day = Annotated[date, BeforeValidator(_day, json_schema_input_type=str)]
"""A date, without a time."""
Share = Annotated[Number, Field(ge=0, lt=1)]
Side = Literal["open", "closed", "wall"]
Wall = Literal["left", "right", "front", "back"]
"""A side of the roof; back: the high one of a free-standing roof."""
WALLS: tuple[Wall, ...] = ("left", "right", "front", "back")


class Table(BaseModel):
    """A table of the job file: frozen, and no key that is not known."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, use_attribute_docstrings=True)
