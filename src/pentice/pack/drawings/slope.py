"""The roof's own frame in a section: along the slope from the wall face, and square out of it.

Shared by the section and the details, so that they cannot disagree. x level out from the wall, y down, both 0
where the roof line meets the wall face [mm].
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pentice.design import Design
from pentice.drawing.scene import Area, Line, Point, Primitive

SEAT_MM = 6.0
"""Seal and seat under the sheet as drawn: the catalogue does not say, so no size is written at it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """The roof line as a frame."""

    pitch_deg: float

    def at(self, along_mm: float, out_mm: float = 0.0) -> Point:
        """The point so far down the slope and so far out of the roof."""
        c, s = math.cos(math.radians(self.pitch_deg)), math.sin(math.radians(self.pitch_deg))
        return (along_mm * c + out_mm * s, along_mm * s - out_mm * c)

    def box(self, along: tuple[float, float], out: tuple[float, float]) -> tuple[Point, ...]:
        """Corners of a piece that lies along the slope."""
        (a, b), (low, high) = along, out
        return (self.at(a, high), self.at(b, high), self.at(b, low), self.at(a, low))

    def level(self, x_mm: float, below_mm: float = 0.0) -> Point:
        """The point under the roof line at a level distance from the wall."""
        return (x_mm, x_mm * math.tan(math.radians(self.pitch_deg)) + below_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """Places along the slope from the wall face, in one bay [mm]."""

    sheet_head: float
    sheet_foot: float
    back: float
    """Inside of the foot profile's back."""
    end: float
    """Outside of the foot profile."""
    hole: float | None
    """Middle of the button."""


def slope_of(design: Design) -> Slope:
    """The frame of the design's one plane."""
    return Slope(pitch_deg=design.shape.pitch_deg)


def lengths_of(design: Design, bay_number: int) -> Lengths:
    """Where the sheet of a bay begins and ends along the slope.

    Parameters
    ----------
    design
        A solved job.
    bay_number
        From 1.
    """
    bay = design.setting_out.plane.bays[bay_number - 1]
    foot = design.parts.foot_profile
    end = min(bay.projection_mm) / design.shape.cos_pitch + design.shape.overhang_mm
    sheet_foot = end - foot.back_mm - foot.drain_gap_mm
    head = sheet_foot - bay.length_mm.cut
    piece = next((p for p in design.pieces if p.kind == "sheet" and p.bay == bay_number), None)
    hole = head + piece.holes[0].y_mm if piece is not None and piece.holes else None
    return Lengths(sheet_head=head, sheet_foot=sheet_foot, back=end - foot.back_mm, end=end, hole=hole)


def sheet_walls(design: Design, slope: Slope, along: tuple[float, float]) -> tuple[Primitive, ...]:
    """A sheet cut along its flutes: outline, and its inner walls as lines; never hatched."""
    sheet = design.parts.sheet
    low, high = SEAT_MM, SEAT_MM + sheet.depth_mm
    found: list[Primitive] = [Area(points=slope.box(along, (low, high)), fill="white", style="wide")]
    for k in range(1, sheet.walls - 1):
        out = low + sheet.depth_mm * k / (sheet.walls - 1)
        found.append(Line(a=slope.at(along[0], out), b=slope.at(along[1], out), style="narrow"))
    return tuple(found)
