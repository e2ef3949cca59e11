"""What setting-out gives: planes, rafters, bays with their windows, bars with their holes.

Plane coordinates: x right along the wall from the outer face of the left end rafter, y down the slope from the
wall face along the roof line [mm]. Bars count from the FOOT, because they are trimmed at the wall.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from pentice.job.fields import Wall
from pentice.records import quickly_made
from pentice.working import Step

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The least and the most a sheet may measure, and what it is cut to [mm]. least > most is a result."""

    least: float
    most: float
    cut: float
    uncut: bool = False
    """True where a stock size inside the window is used as it comes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSheet:
    """A bay's sheet as a cutting plan really takes it from its stock [mm].

    The saw may leave it shorter within its window where a cut would else leave a sliver, and its ribs stand where the
    stock has them.
    """

    width_mm: float
    length_mm: float
    stock_x_mm: float
    ribs_mm: tuple[float | None, float | None]
    """Left and right edge to the first upright rib; None where no rib is known."""
    uncut: tuple[bool, bool]
    """True where the stock is used as it comes, across and along the flutes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """Lap over the sheet's head on the coldest day: what is needed and what is there [mm]."""

    needed: float
    there: float


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeFit:
    """How one edge of a sheet is held: by what, with which gap at the cutting temperature, and the bites [mm]."""

    held_by: str
    """ "bar", "edge profile", "head profile" or "foot profile"."""
    depth_mm: float
    """What can hold: rebate of the bar or arm of the profile."""
    gap_mm: float
    bite_fitted_mm: float
    bite_cold_mm: float
    bite_loaded_mm: float | None = None
    cover_mm: Cover | None = None
    rib_at_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """The four edges of a bay's sheet."""

    left: EdgeFit
    right: EdgeFit
    head: EdgeFit
    foot: EdgeFit


@dataclass(frozen=True, slots=True, kw_only=True)
class BetweenStems:
    """Clear width between what stands at the two sides of a bay: stems, or the back of an edge profile [mm]."""

    head: float
    middle: float
    foot: float

    @property
    def least(self) -> float:
        """The narrowest of the three [mm]."""
        return min(self.head, self.middle, self.foot)

    @property
    def greatest(self) -> float:
        """The widest of the three [mm]."""
        return max(self.head, self.middle, self.foot)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """One bay: the strip between two bar centres and the sheet that fills it."""

    id: str
    number: int
    outline_mm: tuple[Point, ...]
    between_stems_mm: BetweenStems
    daylight_mm: float
    """Clear width between the seats that carry the sheet, at its widest [mm]."""
    centres_mm: float
    """Between the bar (or edge) lines that carry the sheet, at the widest [mm]."""
    projection_mm: tuple[float, float]
    """Least and greatest level depth, wall to beam face, within the bay [mm]."""
    width_mm: Window
    length_mm: Window
    edges: Edges
    stock_x_mm: float = 0.0
    """Where on its stock the sheet is planned to be taken from [mm]."""
    measured: bool = False
    """True once [measured] covers the bay's width."""
    length_measured: bool = False
    """True once [measured] covers the bay's slope length."""
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rafter:
    """One rafter, numbered from the left; or a bar that carries by itself, in a rafter's place."""

    number: int
    centre_head_mm: float
    centre_foot_mm: float
    width_mm: float
    depth_mm: float
    has_bar: bool
    end: Literal["left", "right", ""] = ""
    is_bar: bool = False
    """A bar that carries by itself: its width is that of its seat, its depth what reaches below it."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class BarHole:
    """One hole in a bar's seat: from the FOOT along the bar, and on which side as seen facing the wall."""

    at_mm: float
    side: Literal["L", "R"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """The bar on one rafter: base and cap lengths, and the drilling pattern."""

    id: str
    rafter: int
    base_mm: float
    cap_mm: float
    holes: tuple[BarHole, ...]
    asked_mm: float
    """The greatest step allowed where no stretch is closer, from hole to hole [mm]."""

    @property
    def steps_mm(self) -> tuple[float, float]:
        """Least and greatest step from hole to hole [mm]; 0 where there is one hole."""
        steps = [b.at_mm - a.at_mm for a, b in pairwise(self.holes)] or [0.0]
        return min(steps), max(steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class Temperatures:
    """Of the sheet [degC]: coldest, when it is cut, hottest, and its expansion."""

    least_c: float
    fit_c: float
    most_c: float
    alpha_per_k: float
    fit_measured: bool = False
    most_is: str = "given"
    """Where the hottest comes from."""
    least_is: str = "given"
    """Where the coldest comes from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """One roof plane in its own frame."""

    id: str
    pitch_deg: float
    origin_mm: tuple[float, float, float]
    slope_length_mm: float
    """Wall line to the beam's outer face along the roof line, from the least projection [mm]."""
    outline_mm: tuple[Point, ...]
    rafters: tuple[Rafter, ...]
    bays: tuple[Bay, ...]
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SideFit:
    """A sheet that closes a part of a side: its opening, what it is cut to, and how its profiles hold it."""

    number: int
    side: Wall
    opening_mm: tuple[float, float, float]
    """Width, height at the left end, height at the right end, seen from outside [mm]."""
    width_mm: int
    left_mm: int
    """Along its left edge as it stands, seen from outside [mm]."""
    right_mm: int
    arm_mm: float
    """How far the arms of its profiles lap it [mm]."""
    gap_head_mm: float
    """Room over it when it is fitted [mm]."""
    bite_side_cold_mm: float
    """Left at the edge it was pushed away from, on the coldest day [mm]."""
    bite_head_cold_mm: float
    ribs_mm: tuple[float, float]
    """Left and right edge to the first upright rib inside it; of an edge of which none is known the furthest [mm]."""
    working: tuple[Step, ...] = ()


def side_key(number: int) -> int:
    """Where a side sheet stands among sheets as cut, which go by the number of their bay.

    Parameters
    ----------
    number
        Of the side sheet, from 1.

    Returns
    -------
    int
        Below 0.

    Examples
    --------
    >>> side_key(2)
    -2
    """
    return -number


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOut:
    """True sizes of the whole roof."""

    planes: tuple[Plane, ...]
    temperatures: Temperatures
    diagonals_mm: float
    """Corner to corner, level: both alike on a square frame [mm]."""
    diagonals_slope_mm: float
    """The same along the rafter tops [mm]."""
    head_height_mm: float | None
    eaves_height_mm: float | None
    clear_height_mm: float | None
    """Under the eaves beam [mm]; None where heights or the beam are not known."""
    drip_mm: float
    """Outside of the foot profile, level from the beam's outer face [mm]."""
    side_sheets: tuple[SideFit, ...] = ()
    working: tuple[Step, ...] = ()

    @property
    def plane(self) -> Plane:
        """The first plane: the whole roof where there is one plane."""
        return self.planes[0]
