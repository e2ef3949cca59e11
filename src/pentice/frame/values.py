"""What carries the rafters down to the ground and into the wall."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Section = tuple[float, float]
"""Width and depth [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Post:
    """One post under the eaves beam, or under the head beam of a free-standing roof."""

    number: int
    x_mm: float
    """Centre from the outer face of the left rafter [mm]."""
    size_mm: Section
    """Along the wall, and square to it [mm]."""
    length_mm: float | None
    """From its foot to the underside of the beam [mm]; None where no heights are known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EavesBeam:
    """The beam under the feet of the rafters, or under their heads: whole, or in parts that meet over posts."""

    size_mm: Section
    parts_mm: tuple[tuple[float, float], ...]
    """From and to of each part, from the left [mm]."""
    posts: tuple[Post, ...]
    row: Literal["eaves", "head"] = "eaves"
    """Head: under the head of a free-standing roof."""

    def posts_under(self, part_mm: tuple[float, float]) -> tuple[Post, ...]:
        """The posts under one part, those at its joints counted."""
        return tuple(p for p in self.posts if part_mm[0] - 1e-6 <= p.x_mm <= part_mm[1] + 1e-6)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallPlate:
    """The timber on the wall that carries the heads of the rafters."""

    size_mm: Section
    """Out from the wall, and upright [mm]."""
    length_mm: float
    fixings_mm: tuple[float, ...]
    """Places of the fixings into the wall from the outer face of the left rafter [mm]; none where not given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The members that the job names."""

    beam: EavesBeam | None
    posts: tuple[Post, ...]
    plate: WallPlate | None
    head_beam: EavesBeam | None = None
    """Under the head of a free-standing roof."""
    head_posts: tuple[Post, ...] = ()
