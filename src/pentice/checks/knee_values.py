"""Pairs of posts braced across by knee braces: what they are, the loads on them, and what these do to them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.checks.knee_bolts import Net
from pentice.checks.rafter_model import RafterModel
from pentice.frame.values import Post
from pentice.loads.combine import Combination
from pentice.records import quickly_made
from pentice.standards.en1995 import gamma_m

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

ROWS = ("eaves", "head")
Shares = tuple[float, float, float]
"""Of the push on the whole roof: beams stiff, posts stiff, field by field."""
Even = tuple[int, float, float, float]
"""Number of pairs, the push off their middle, a pair off it, sum of squares [-, mm, mm, mm2]."""
_HINGES = ("hinged at the rafter", "hinged under the beam")
_GIVES = ("no brace gives", "the one at the head gives", "the one at the eaves gives", "both braces give")


@dataclass(frozen=True, slots=True, kw_only=True)
class KneeSide:
    """One post of a pair with its brace."""

    row: str
    at: tuple[int, int]
    """Places of the row and of the post in it, as in `Across`."""
    post: Post
    height_mm: float
    """From the foot to where the middle lines of post and rafter cross."""
    above_mm: float
    """From the underside of the beam, where the post ends, to that crossing."""
    down_mm: float
    """From the crossing down to the brace."""
    reach_mm: float
    """Level from the crossing to the brace on the rafter."""
    rise_mm: float
    """The brace's own, from post to rafter."""
    aside_mm: float
    """Of the rafter's middle from the post's, along the beam."""

    @property
    def brace_mm(self) -> float:
        """Length of the brace between the middle lines."""
        return math.hypot(self.reach_mm, self.rise_mm)

    @property
    def knee_mm(self) -> float:
        """Of the brace over the foot."""
        return self.height_mm - self.down_mm


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class KneeLoad:
    """One load of a pair: a combination on its rafter, and a push at the top of one post."""

    combination: Combination
    words: str
    full: bool
    """Pushed by wind and lean; else by lean alone, while the wind blows along or not at all."""
    towards: str
    at: str
    push_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class KneeLine:
    """A pair of posts with its rafter, and what every load does to it, second order counted.

    Arrays: first the eight ways to solve it, then the loads; sides are eaves and head.
    """

    rafter: RafterModel
    sides: tuple[KneeSide, KneeSide]
    shares: Shares
    even: Even
    loads: tuple[KneeLoad, ...]
    along_mm: tuple[float, ...]
    """Ends of the members of the rafter from its head bearing."""
    nets: tuple[Net, Net]
    """Of its posts and of its rafter beside the holes of the braces' bolts, bent across."""
    sway_mm_n: float
    """How far the softest leans for each newton, in service."""
    pulls_n_n: float
    """In both braces together for each newton: so far it leans for each millimetre of play in either."""
    sways_at: float
    """Load under which the softest sways away, over the load, with mean stiffness."""
    pressed_n: tuple[float, float]
    """Greatest push down on each post, for alpha."""
    level_n: Array
    """At the foot, on the post, towards the eaves positive, shape (8, loads, 2)."""
    brace_n: Array
    """Pull positive, shape (8, loads, 2)."""
    seat_n: Array
    """Rafter on its beam, down positive, shape (8, loads, 2)."""
    more_n: Array
    """Down at the foot beyond what the rafter as a beam on two bearings brings, shape (8, loads, 2)."""
    axial_n: Array
    """In each member of the rafter, of the greater size at its ends, shape (8, loads, members)."""
    moment_n_mm: Array
    """Greatest in size in each member of the rafter."""
    shear_n: Array

    @property
    def share(self) -> float:
        """The greatest of the shares."""
        return max(self.shares)

    @property
    def alpha(self) -> float:
        """Load under which it sways away, over the load, with stiffness over gamma_M [-]."""
        return self.sways_at / gamma_m("solid")

    @property
    def factor(self) -> float:
        """What leaning adds to first order [-]."""
        return 1.0 / (1.0 - 1.0 / self.alpha)


def way_words(way: int) -> str:
    """One of the eight ways in words.

    Parameters
    ----------
    way
        Its number, from 0.

    Returns
    -------
    str
        Where the post is hinged, and which brace gives.

    Source
    ------
    None: words.

    Examples
    --------
    >>> way_words(5)
    'hinged under the beam, the one at the head gives'
    """
    return f"{_HINGES[way // 4]}, {_GIVES[way % 4]}"


def hinge_mm(side: KneeSide, way: int) -> float:
    """How far below the crossing the post is hinged in one of the eight ways.

    Parameters
    ----------
    side, way
        The post, and the number of the way.

    Returns
    -------
    float
        0, or as far as the post ends below it [mm].

    Source
    ------
    Definition.
    """
    return side.above_mm if way >= 4 else 0.0
