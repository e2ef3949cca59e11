"""A piece of sheet with no room in its size, for tests that know where everything lies."""

from __future__ import annotations

import math

from pentice.cutting.values import SheetPiece


def fixed_piece(id: str, width: int, length: int, reserve: tuple[int, int] = (0, 0)) -> SheetPiece:
    """A piece of this size and no other [mm], without a rule on ribs."""
    return SheetPiece(
        id=id,
        item="sheet",
        width_mm=width,
        length_mm=length,
        least_width_mm=width,
        most_width_mm=width,
        least_length_mm=length,
        most_length_mm=length,
        rib_at_most_mm=(math.inf, math.inf),
        reserve_mm=reserve,
    )
