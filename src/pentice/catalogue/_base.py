"""What every product of the catalogue shares: an id, a name, a code to order by, number types with limits.

Lengths accept what `pentice.units.length_mm` accepts, money numbers and text; nothing else is guessed.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from pentice.marks import Given
from pentice.units import length_mm


def money(value: object) -> Decimal:
    """An amount of money from text ("12.50") or a number, exactly as written.

    Parameters
    ----------
    value
        Text or a number [currency of the price list].

    Returns
    -------
    Decimal
        The amount [currency of the price list].

    Raises
    ------
    ValueError
        The value is no amount of money.

    Examples
    --------
    >>> money("12.50"), money(12.5)
    (Decimal('12.50'), Decimal('12.5'))
    """
    expected = 'expected an amount of money such as "12.50"'
    if isinstance(value, bool) or not isinstance(value, str | int | float | Decimal):
        raise ValueError(expected)
    try:
        amount = Decimal(str(value).strip())
    except InvalidOperation:
        raise ValueError(expected) from None
    if not amount.is_finite():
        raise ValueError(expected)
    return amount


Mm = Annotated[float, BeforeValidator(length_mm), Field(gt=0)]
"""A length above nothing [mm]."""
MmFromZero = Annotated[float, BeforeValidator(length_mm), Field(ge=0)]
"""A length that may be nothing [mm]."""
Positive = Annotated[float, Field(gt=0, strict=True, allow_inf_nan=False)]
"""A number above nothing, in the unit that its key names."""
Share = Annotated[float, Field(ge=0, le=1, strict=True)]
"""A part of one [-]."""
Degrees = Annotated[float, Field(ge=0, le=60, strict=True)]
"""An angle above the horizontal [deg]."""
PerKelvin = Annotated[float, Field(gt=0, lt=5e-4, strict=True)]
"""Growth per kelvin [1/K]: 70e-6, not 70."""
Count = Annotated[int, Field(ge=0, strict=True)]
"""A whole number."""
Money = Annotated[Decimal, BeforeValidator(money), Field(ge=0)]
"""An amount of money [currency of the price list]."""


class Entry(BaseModel):
    """A frozen table that refuses unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_by_name=True, validate_by_alias=True)


class Product(Entry):
    """One thing that can be named in a job and ordered."""

    typical: ClassVar[Mapping[str, Given[Any]]] = {}
    """Values that stand in for a key left out; they are marked typical, never given."""
    price_keys: ClassVar[tuple[str, ...]] = ("price",)
    """The keys of this kind that hold prices."""
    reference_keys: ClassVar[tuple[str, ...]] = ()
    """The keys of this kind that name other products."""

    id: str = Field(min_length=1)
    """The name by which a job calls it."""
    name: str = Field(min_length=1)
    """What an order line calls it."""
    code: str | None = None
    """The supplier's code."""
    note: str = ""
    """Anything a reader must know, for example that it is invented."""
    price_on: datetime.date | None = None
    """Day of the price."""


class StockLength(Entry):
    """One length that a bar, profile, gutter or timber is sold in."""

    length_mm: Mm
    price: Money
    """Price of the whole length; with a set, of the whole set."""
    code: str | None = None


def typical(value: object, source: str) -> Given[Any]:
    """A stand-in value with its mark.

    Examples
    --------
    >>> typical(70e-6, "handbook order of size").mark
    'typical'
    """
    return Given(value=value, mark="typical", source=source)
