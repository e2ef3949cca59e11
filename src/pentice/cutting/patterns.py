"""A pattern: which kinds of piece one piece of stock gives. Shared by sheets and lengths."""

from __future__ import annotations

from dataclasses import dataclass

Key = tuple[int, int, int, int]
Counts = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """What one piece of stock gives: kinds of piece (ascending, repeated), price, stock used up, number of cuts."""

    stock: int
    kinds: tuple[int, ...]
    price: int
    size: int
    cuts: int = 0

    @property
    def key(self) -> Key:
        """Cost, number and size of the stock, and its cuts: compared in this order."""
        return (self.price, 1, self.size, self.cuts)

    @property
    def counts(self) -> Counts:
        """Each kind with how many of it there are."""
        return tuple((kind, self.kinds.count(kind)) for kind in dict.fromkeys(self.kinds))


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """The chosen patterns (one entry per stock piece), what they cost, and what any choice costs at least."""

    chosen: tuple[Pattern, ...]
    cost: int
    bound: int
