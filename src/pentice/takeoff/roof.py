"""What every module of the take-off looks at: the job with all that has been worked out of it so far."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.cutting.values import CutPlan
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.names import letters_of
from pentice.pieces.values import Piece
from pentice.setting_out.values import Bar, Bay, Plane, SettingOut

MASONRY = ("brick", "block", "stone")
"""Walls that take anchors and plugs."""


@dataclass(frozen=True, kw_only=True)
class Roof:
    """One job, its products, sizes, pieces and cutting. Not slotted: it keeps what it has counted."""

    job: Job
    shape: RoofShape
    parts: Parts
    catalogue: Catalogue
    setting_out: SettingOut
    pieces: tuple[Piece, ...]
    cutting: CutPlan

    @property
    def plane(self) -> Plane:
        """The roof plane."""
        return self.setting_out.plane

    @property
    def bays(self) -> tuple[Bay, ...]:
        """Bays from the left."""
        return self.plane.bays

    @property
    def bars(self) -> tuple[Bar, ...]:
        """Bars from the left."""
        return self.plane.bars

    @property
    def width_m(self) -> float:
        """Width over the outer rafters [m]."""
        return self.shape.width_mm / 1000.0

    @property
    def standing(self) -> bool:
        """True where the rafters stand already: the job names their centres as built."""
        return self.job.frame.rafter_centres_mm is not None

    @cached_property
    def bar_m(self) -> float:
        """All bar bases together [m]."""
        return sum(bar.base_mm for bar in self.bars) / 1000.0

    def pieces_like(self, *letters: str) -> tuple[Piece, ...]:
        """Pieces whose letters are one of these."""
        return tuple(piece for piece in self.pieces if letters_of(piece.id) in letters)

    def sundry(self, part: str, *, having: str = "") -> str | None:
        """Key of the sundry that is a part of a finished roof; of several the one whose id holds a word."""
        depth = self.parts.sheet.depth_mm
        for s in self.catalogue.sundries.values():
            if s.part == part and having in s.id and (not s.sheet_depths_mm or depth in s.sheet_depths_mm):
                return f"sundries.{s.id}"
        return None

    def ids(self, *starts: str) -> tuple[str, ...]:
        """Names of the pieces whose letters are one of these: "RF" finds RF1, RF2 … and nothing else."""
        return tuple(p.id for p in self.pieces if letters_of(p.id) in starts)

    def total_m(self, *starts: str) -> float:
        """Length of those pieces together [m]."""
        return sum(p.length_mm for p in self.pieces if letters_of(p.id) in starts) / 1000.0
