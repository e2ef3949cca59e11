"""What the site page is made from: sizes as drawn, gap cards, hold points and cautions. Nothing here knows of jobs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Hold = Literal["A", "B", "C", "D"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteBay:
    """One bay as drawn, and the sheet that goes into it."""

    number: int
    between_stems_mm: tuple[float, float, float]
    """At the head, in the middle and at the foot [mm]."""
    slope_length_mm: float
    """Wall face, or outside of the head beam, to beam face along the rafter tops [mm]."""
    sheet_width_mm: float
    sheet_length_mm: float
    side_gap_mm: float
    """At each side, at the cutting temperature [mm]."""
    head_gap_mm: float
    bite_mm: float
    """As fitted [mm]."""
    bite_least_mm: float | None = None
    """The least bite that holds [mm]; None where it is not known."""
    serves_mm: tuple[float, float] | None = None
    """Between the stems: at the tightest at least, at the widest at most, for this sheet to serve [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteLine:
    """A rafter, or a bar in its place, as it is set out."""

    name: str
    """ "R1", as on the drawing."""
    centre_mm: tuple[float, float]
    """At the head and at the foot, from the outer face of the left one [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteSide:
    """A side sheet and the opening that it closes, as drawn, seen from outside."""

    number: int
    side: str
    """ "left", "right", "front" or "back"."""
    opening_mm: tuple[float, float, float]
    """Clear width, height at the left end, height at the right end [mm]."""
    sheet_mm: tuple[float, float, float]
    """The sheet as cut for it: width, left edge, right edge [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GapRow:
    """Gaps of a cut sheet at one temperature of the sheet."""

    temperature_c: float
    side_gap_mm: float
    head_gap_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GapCard:
    """The gaps of bays whose sheets are alike."""

    bays: tuple[int, ...]
    rows: tuple[GapRow, ...]
    """By rising temperature."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldLine:
    """One line of a hold point: what to look at or to read, what holds, and what to do if it does not."""

    hold: Hold
    item: str
    """Names the line in the saved file too; short."""
    passes: str
    """What holds, in words."""
    if_not: str
    unit: str = ""
    """Unit of the reading; empty where one only looks."""
    least: float | None = None
    most: float | None = None
    gap: Literal["", "side", "head"] = ""
    """Where the limits follow the gap card: which gap. least and most are then counted from the card's value."""
    made_of: Literal["", "stems", "diagonals"] = ""
    """Readings of the page that make this line's reading."""
    per_bay: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteCaution:
    """One thing to mind on site."""

    text: str
    why: str = ""
    ask: str = ""
    answered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SitePage:
    """Everything the site page shows."""

    name: str
    reference: str
    revision: str
    date: str
    bays: tuple[SiteBay, ...]
    cards: tuple[GapCard, ...]
    holds: tuple[HoldLine, ...]
    cautions: tuple[SiteCaution, ...] = ()
    not_proved: str = ""
    """What no check has shown yet; empty where every check passed."""
    lines: tuple[SiteLine, ...] = ()
    """Rafters, or bars in their place, from the left."""
    bars_carry: bool = False
    """True where the lines are bars."""
    diagonals_mm: float | None = None
    """Corner to corner, level, both alike on a square frame [mm]."""
    sides: tuple[SiteSide, ...] = ()
    """Side sheets, in the order of their numbers."""
