"""What acts on posts in closed walls: the strips that come to them, the winds, and what braces their row."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.checks.brought import Braced, Brought
from pentice.checks.knee_bolts import Net
from pentice.checks.pads_values import AtFoot
from pentice.checks.passed_on import Combined
from pentice.checks.post_sideways import Axis, Slender
from pentice.checks.post_winds import FREE_FOOT
from pentice.checks.walls import ALONG, OnWall
from pentice.frame.values import Post
from pentice.job.fields import Wall
from pentice.records import quickly_made
from pentice.standards.en1991_1_4_roofs import Wind
from pentice.standards.en1995_members import BowingPost, TimberSection
from pentice.working import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Braces:
    """What holds a row of posts upright and so bends each of them, beside wind on the walls."""

    along_knm: float = 0.0
    """Along the row, in winds along it."""
    along: tuple[Step, ...] = ()
    """The line that leads to it."""
    lengths: float = 1.0
    """For bowing along the row, in lengths of a post."""
    net: Net | None = None
    """What the bolts of knee braces leave of a post of timber."""
    across_knm: Sequence[float] = ()
    """In each post across, in winds across; none: no moment."""
    lengths_across: float = 1.0
    pairs: Sequence[Brought] = ()
    """Presses on a post besides, or lifts at it."""
    lifts: Sequence[Braced] = ()
    """Lifts at the head of each post in winds along the row."""
    level: Sequence[AtFoot] = ()
    """Level at each foot along the row, in winds along it."""
    held: tuple[bool, bool] = (False, False)
    """Whether feet are held against turning: square to the row, and along it."""
    level_across: Sequence[AtFoot] = ()
    """The same across, in winds across; none: nothing."""
    refused: str = ""
    """Why any of it is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WallPost:
    """A post in a closed front or back, in a closed end, or in both."""

    k: int
    """Place in its row."""
    post: Post
    front: Wall | None
    front_mm: float
    """Strip of the front that comes to it [mm]."""
    end: Wall | None
    end_mm: float

    @property
    def tall_mm(self) -> float:
        """Between foot and beam [mm]."""
        return self.post.length_mm or 0.0


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Acts:
    """What one wind does to a post: lines along it [N/mm], characteristic, and moments of its bracing [kNm]."""

    at: WallPost
    wind: Wind
    on_front: OnWall | None
    on_end: OnWall | None
    y_n_mm: float
    """Square to the front, in size."""
    z_n_mm: float
    """Along the wall."""
    y_knm: float
    z_knm: float
    accidental: bool
    to_foot: tuple[float, float] = (FREE_FOOT, FREE_FOOT)
    """What of the wind on the post its foot takes, square to its row and along it [-]."""

    @property
    def tall_mm(self) -> float:
        """Between foot and beam [mm]."""
        return self.at.tall_mm

    def level_kn(self, factor: float, by: Braces) -> tuple[float, float]:
        """Level at the foot along the row and square to it, with what the push on the row, or on both, brings [kN]."""
        whole, k = factor * self.tall_mm / 1000.0, self.at.k
        square, along = whole * self.to_foot[0] * self.y_n_mm, whole * self.to_foot[1] * self.z_n_mm
        if self.wind in ALONG:
            along += by.level[k].along_kn
        elif by.level_across:
            square += by.level_across[k].square_kn
        return along, square


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class BothWays:
    """Design forces in a post: pull positive [N], moments in size [N mm]."""

    case: Combined
    axial_n: float
    y_n_mm: float
    z_n_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldPost:
    """How a timber post bows both ways, and which way it gives way sideways."""

    section: TimberSection
    bowing: BowingPost
    lengths: tuple[float, float]
    """For bowing square to its row and along it, in lengths of the post [-]."""
    slender: tuple[Axis, Slender] | None
    """About its stronger axis; None: a square one cannot."""
    net: Net | None = None
    """What the bolts of knee braces leave of it, wherever it is bent or pulled most: on the safe side."""
    beside_holes: tuple[float, float] = (1.0, 1.0)
    """How much more they make of a pull, and of bending square to its row, and of bending along it [-]."""

    def k_crit(self, axis: Axis) -> float:
        """What giving way sideways leaves of the bending strength about an axis [-]."""
        return self.slender[1].k_crit if self.slender is not None and self.slender[0] == axis else 1.0
