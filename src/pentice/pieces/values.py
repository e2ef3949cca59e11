"""What must exist: each sheet, bar, profile and timber, with edges, holes and marks.

A piece lives in its own box: origin at the head left, x right, y towards the foot [mm]. Bars are the exception on
paper: their tickets count from the FOOT and say so.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceEdge:
    """One edge of a piece, in the order of its outline: what it is called, what holds it, how it is cut and taped."""

    word: str
    held_by: str
    cut: Literal["stock", "saw", "knife", ""]
    tape: Literal["SOLID", "BREATHER", ""]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole: centre in the piece's box, its size, and what goes through it [mm]."""

    x_mm: float
    y_mm: float
    width_mm: float
    length_mm: float
    for_: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceMark:
    """A mark on a piece: how far along which edge [mm], and what it says."""

    at_mm: float
    edge: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EndCut:
    """How an end is cut: across the length and against the face [deg], 90 is square."""

    across_deg: float = 90.0
    bevel_deg: float = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SidePart:
    """A side sheet within its blank: its outline there [mm], and its own sizes as it stands, seen from outside [mm]."""

    id: str
    name: str
    side: str
    outline_mm: tuple[tuple[float, float], ...]
    turned: bool
    """True where it lies with its foot at the blank's head."""
    width_mm: float
    left_mm: float
    right_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One thing to be cut."""

    id: str
    name: str
    """In the words of the trade: "Sheet 3", "Bar base R2"."""
    plane: str
    bay: int | None
    item: str
    """Key of the catalogue: "sheets.sheet-16-triple"."""
    kind: Literal["sheet", "length"]
    outline_mm: tuple[tuple[float, float], ...]
    width_mm: float
    length_mm: float
    edges: tuple[PieceEdge, ...] = ()
    rib_at_mm: tuple[float, float] | None = None
    end_cuts: tuple[EndCut, EndCut] | None = None
    back_mm: float | None = None
    """Along the back (the upper edge) from cut to cut, where both ends are cut plumb at the saw [mm]."""
    one_piece: bool = True
    """False where it may be joined from several lengths (plates, profiles, gutters)."""
    marks: tuple[PieceMark, ...] = ()
    holes: tuple[Hole, ...] = ()
    tint: str = ""
    """Of a sheet."""
    least_mm: tuple[float, float] | None = None
    """Least width and length of its window, for stock used uncut [mm]."""
    most_mm: tuple[float, float] | None = None
    """Most width and length of its window [mm]."""
    reserve_mm: tuple[float, float] = (0.0, 0.0)
    """What a stock to be cut must exceed it by, until the frame is measured [mm]."""
    side_parts: tuple[SidePart, ...] = ()
    """What is cut from it along sloping lines once it is a rectangle."""
