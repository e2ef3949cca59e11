"""The order: one line per article, with its reason."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One line: what is needed, what is spare, how many packs, at what price, and why."""

    item: str
    """Key of the catalogue, or of the part where it is not in this roof."""
    code: str
    description: str
    group: str
    """Sheets, Bars, Profiles, Fixings, Tapes and seals, Timber, Wall, Water, Sundries."""
    quantity: Decimal
    """Net need, in `unit`."""
    unit: str
    pack: Decimal
    """Units in one pack."""
    packs: int
    spare: Decimal
    unit_price: Decimal
    """Of one pack."""
    price: Decimal
    price_on: str = ""
    pieces: tuple[str, ...] = ()
    why: str = ""
    mark: str = ""
    """ "typical" where nobody has calculated the number."""
    part: str = ""
    """The part of a finished roof that it is, in the words of the list of parts."""

    @property
    def in_this_roof(self) -> bool:
        """False for a part that this roof has no need of; its reason stands in `why`."""
        return self.quantity > 0
