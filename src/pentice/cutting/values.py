"""What the cutting stage takes and gives: pieces, stock, and the plan that cuts one from the other.

All sizes are whole mm, money is a whole number of the smallest unit (pence). x runs across the flutes, y along
them; the origin is the head left corner of the stock. Nothing here knows of jobs or catalogues.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Aim = Literal["least cost", "fewest sheets"]
"""Least cost, less what kept rests count for; or as few sheets and lengths bought as can be, then least cost."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPiece:
    """A rectangle that must be cut from a sheet, flutes along its length.

    Attributes
    ----------
    id, item
        The piece and the product it is cut from.
    width_mm, length_mm
        The size to cut when the stock is cut in that direction [mm].
    least_width_mm, least_length_mm, most_width_mm, most_length_mm
        The window in which a stock size is used as it comes, uncut [mm].
    rib_at_most_mm
        How far the first upright rib may stand inside the left and the right edge, at ``width_mm`` [mm]. A cut that
        is d narrower may only have ``rib_at_most_mm - d``. ``inf`` where no rib is asked for. Two uncut edges
        (stock width inside the window) are taken as they come.
    reserve_mm
        What the stock must have over the piece in width and in length where it is to be cut [mm].
    """

    id: str
    item: str
    width_mm: int
    length_mm: int
    least_width_mm: int
    least_length_mm: int
    most_width_mm: int
    most_length_mm: int
    rib_at_most_mm: tuple[float, float]
    reserve_mm: tuple[int, int] = (0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStock:
    """A size of sheet that can be bought, or an offcut in hand.

    Attributes
    ----------
    id, item
        The stock and its product.
    width_mm, length_mm
        Its size [mm].
    price
        Price of one [smallest unit of money].
    count
        How many there are; None for as many as wanted.
    offcut
        Already in hand: it is not trimmed.
    trim_mm
        What is cut off each edge of new stock before anything else, kerf included [mm].
    worth
        What an offcut in hand would be worth on the rack [smallest unit of money].
    rib_pitch_mm, first_rib_mm
        Upright ribs stand at first + k * pitch from the left edge [mm]; a first of ``nan`` is not known.
    """

    id: str
    item: str
    width_mm: int
    length_mm: int
    price: int
    count: int | None
    offcut: bool
    rib_pitch_mm: float
    first_rib_mm: float
    trim_mm: int = 0
    worth: int = 0

    @property
    def edge_trim_mm(self) -> int:
        """What is really trimmed off each edge [mm]: nothing from an offcut."""
        return 0 if self.offcut else self.trim_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Slant:
    """Two ends that lean alike, as the plumb cuts of a rafter: how far from square [deg], over which depth [mm].

    Seen with the head at the left and the back above, the lower end of each cut lies to the right. What a cut takes
    along the length is rounded up to whole mm.
    """

    deg: float
    depth_mm: int

    @property
    def lean_mm(self) -> int:
        """How far a cut leans along the length over the depth [mm]."""
        return math.ceil(self.depth_mm * math.tan(math.radians(self.deg)) - 1e-9)

    def kerf_mm(self, kerf_mm: int) -> int:
        """What a cut of this width, square to the cut [mm], takes along the length [mm]."""
        return math.ceil(kerf_mm / math.cos(math.radians(self.deg)) - 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPiece:
    """A bar, profile or timber that must be cut to a length [mm], with what its stock must have over it [mm].

    Where both ends lean alike (``slant``) the length is that along either edge.
    """

    id: str
    item: str
    length_mm: int
    reserve_mm: int = 0
    slant: Slant | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthStock:
    """A length that can be bought, or an offcut in hand.

    Attributes
    ----------
    id, item
        The stock and its product.
    length_mm
        Its length, along the upper edge where its left end leans [mm].
    price
        Price of one [smallest unit of money].
    count
        How many there are; None for as many as wanted.
    offcut
        Already in hand: it is not trimmed.
    end_trim_mm
        What comes off each end of new stock [mm].
    worth
        What an offcut would be worth on the rack [smallest unit of money].
    slant
        How its left end leans where a leaning cut has left it; None: square.
    lost_mm
        What leaning ends take of it besides its pieces and the cuts between them [mm]; set while it is cut.
    """

    id: str
    item: str
    length_mm: int
    price: int
    count: int | None
    offcut: bool
    end_trim_mm: int = 0
    worth: int = 0
    slant: Slant | None = None
    lost_mm: int = 0

    @property
    def trim_mm(self) -> int:
        """What is really trimmed off each end [mm]: nothing from an offcut."""
        return 0 if self.offcut else self.end_trim_mm

    @property
    def room_mm(self) -> int:
        """What there is for pieces and the cuts between them [mm]."""
        return self.length_mm - 2 * self.trim_mm - self.lost_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """Where a piece lies on its sheet, as cut [mm]; ``rib_at_mm`` is left and right of the piece itself."""

    piece: str
    x_mm: int
    y_mm: int
    width_mm: int
    length_mm: int
    turned_180: bool
    rib_at_mm: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One straight cut, edge to edge of the part in hand.

    A rip runs along the flutes at x = ``at_mm`` from y = ``from_mm`` to ``to_mm``; a crosscut runs across them at
    y = ``at_mm``. ``at_mm`` is the near side of the kerf. What it is cut from, and what comes of it, is told by
    `pentice.cutting.followed`.
    """

    number: int
    kind: str
    at_mm: int
    from_mm: int
    to_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """One sheet of stock: what is cut from it with which kerf [mm], and in which order."""

    stock: str
    item: str
    width_mm: int
    length_mm: int
    kerf_mm: int
    price: int
    placements: tuple[Placement, ...]
    cuts: tuple[Cut, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPlacement:
    """Where a piece begins on its stock length [mm], and how long it is [mm]; both along the upper edge where its ends
    lean (``slant``). Its lower edge then lies ``lean_mm`` further on."""

    piece: str
    at_mm: int
    length_mm: int
    slant: Slant | None = None

    @property
    def lean_mm(self) -> int:
        """How far its ends lean to the right on their way down [mm]."""
        return self.slant.lean_mm if self.slant is not None else 0

    @property
    def end_deg(self) -> float:
        """How far its ends lean from square [deg]."""
        return self.slant.deg if self.slant is not None else 0.0

    def kerf_mm(self, kerf_mm: int) -> int:
        """What a cut of this width at its end takes along the length [mm]."""
        return self.slant.kerf_mm(kerf_mm) if self.slant is not None else kerf_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPlan:
    """One length of stock and what is cut from it with which kerf [mm]."""

    stock: str
    item: str
    length_mm: int
    kerf_mm: int
    price: int
    pieces: tuple[LengthPlacement, ...]

    @property
    def beyond_mm(self) -> int:
        """From its left end to beyond the last cut [mm]: what lies further is a rest with square ends."""
        ends = (p.at_mm + p.length_mm + p.lean_mm + p.kerf_mm(self.kerf_mm) for p in self.pieces)
        return max(ends, default=self.kerf_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """What is left and worth keeping; a bar has no width, and an unknown or absent first rib is None."""

    item: str
    width_mm: int | None
    length_mm: int
    first_rib_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlans:
    """All sheets, their cost, what they must cost at least net of credit, and whether none does better by the aim."""

    sheets: tuple[SheetPlan, ...]
    cost: int
    bound: int
    proven: bool
    waste_area_m2: float
    offcuts: tuple[Offcut, ...]
    credit: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPlans:
    """All lengths, with the same figures as `SheetPlans`."""

    lengths: tuple[LengthPlan, ...]
    cost: int
    bound: int
    proven: bool
    waste_mm: int
    offcuts: tuple[Offcut, ...]
    credit: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """Sheets and lengths together: the cutting of a whole job.

    Attributes
    ----------
    cost
        Price of the stock that is bought [smallest unit of money].
    credit
        By the shop's rule: worth of the rests that are kept, less that of the offcuts in hand that are used [the same].
    bound
        No plan from this stock, with this aim, costs less net of its credit [the same].
    proven
        Whether no plan does better by the aim.
    """

    sheets: tuple[SheetPlan, ...]
    lengths: tuple[LengthPlan, ...]
    cost: int
    bound: int
    proven: bool
    waste_area_m2: float
    offcuts: tuple[Offcut, ...]
    credit: int = 0
    aim: Aim = "least cost"

    @property
    def net(self) -> int:
        """Cost less credit [smallest unit of money]."""
        return self.cost - self.credit


def cut_plan(sheets: SheetPlans, lengths: LengthPlans, aim: Aim = "least cost") -> CutPlan:
    """Sheets and lengths as one plan: costs and bounds add up, and it is proven when both are.

    Parameters
    ----------
    sheets, lengths
        The two halves, as `cut_sheets` and `cut_lengths` give them.
    aim
        What both were made for.

    Returns
    -------
    CutPlan
        The plan of the whole job.
    """
    return CutPlan(
        sheets=sheets.sheets,
        lengths=lengths.lengths,
        cost=sheets.cost + lengths.cost,
        bound=sheets.bound + lengths.bound,
        proven=sheets.proven and lengths.proven,
        waste_area_m2=sheets.waste_area_m2,
        offcuts=sheets.offcuts + lengths.offcuts,
        credit=sheets.credit + lengths.credit,
        aim=aim,
    )
