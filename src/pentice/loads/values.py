"""What weather, people and the roof itself put on it, as cases that name themselves.

Positions are on plan: x right along the wall from the outer face of the left rafter, y level from the wall face [mm].
Snow is per plan area; wind is normal to the slope, towards the roof positive; self-weight is per slope area.
"""

from __future__ import annotations

import bisect
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from operator import itemgetter
from typing import Literal

from pentice.loads.combine import Combination
from pentice.records import quickly_made
from pentice.working import Step

Situation = Literal["persistent", "accidental"]
HAIR_MM = 1e-6
"""Rounding of a place: less than this is no length."""
_PAST_MM = 1000.0
_LIP_MM = 100.0  # judgement, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class SnowCase:
    """One arrangement of snow: straight between points along one direction, level beyond them."""

    name: str
    situation: Situation
    along: Literal["x", "y"]
    """Direction in which it changes: from the house wall (y) or from a side wall (x)."""
    points: tuple[tuple[float, float], ...]
    """(position on plan [mm], load [kN/m2 of plan]), rising positions."""
    working: tuple[Step, ...] = ()
    reach_mm: float = 0.0
    """How far a drift from a side wall reaches from that wall [mm]."""

    def at(self, x_mm: float, y_mm: float) -> float:
        """Load at a place on plan [kN/m2 of plan].

        Examples
        --------
        >>> case = SnowCase(name="drift", situation="persistent", along="y", points=((0.0, 1.7), (5000.0, 0.5)))
        >>> round(case.at(0.0, 2500.0), 6)
        1.1
        """
        place = x_mm if self.along == "x" else y_mm
        i = bisect.bisect_right(self.points, place, key=itemgetter(0))
        if i == 0:
            return self.points[0][1]
        if i == len(self.points):
            return self.points[-1][1]
        (p0, s0), (p1, s1) = self.points[i - 1], self.points[i]
        return s0 + (s1 - s0) * (place - p0) / (p1 - p0)


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class WindZone:
    """A rectangle of the roof on plan with its coefficients for 10 m2 and for 1 m2 of loaded area."""

    name: str
    x_mm: tuple[float, float]
    y_mm: tuple[float, float]
    c_10: float
    c_1: float
    under_10: float | None = None
    """Over an overhang: the coefficient of the wall below stands under the roof, in place of the pressure inside."""
    under_1: float | None = None


Reach = tuple[tuple[float, float], tuple[float, float]]
"""Of a zone: from x to x, from y to y on plan [mm]."""


def spread(zones: Sequence[WindZone]) -> tuple[Reach, ...]:
    """How far some zones reach, those at the roof's edges carried on over whatever reaches past them.

    Parameters
    ----------
    zones
        Zones that tile the roof.

    Returns
    -------
    tuple of Reach
        The outermost widened by 1 m [mm]: a barge board, or a roof deeper where the wall is hollow, takes the edge
        zone's pressure.

    Source
    ------
    Judgement, no source.

    Examples
    --------
    >>> spread((WindZone(name="G", x_mm=(0.0, 5000.0), y_mm=(0.0, 1.0), c_10=-1.0, c_1=-1.0),))
    (((-1000.0, 6000.0), (-1000.0, 1001.0)),)
    """
    left, right = min(z.x_mm[0] for z in zones), max(z.x_mm[1] for z in zones)
    head, foot = min(z.y_mm[0] for z in zones), max(z.y_mm[1] for z in zones)
    return tuple((_widened(z.x_mm, left, right), _widened(z.y_mm, head, foot)) for z in zones)


def _widened(reach: tuple[float, float], first: float, last: float) -> tuple[float, float]:
    at_first, at_last = reach[0] - first < HAIR_MM, last - reach[1] < HAIR_MM
    return reach[0] - _PAST_MM * at_first, reach[1] + _PAST_MM * at_last


@dataclass(frozen=True, kw_only=True)
class WindCase:
    """One wind direction with one sign of coefficients: zones that cover the roof, and the pressure inside."""

    name: str
    """In words: "wind onto the eaves, suction, pressure inside +0.2"."""
    situation: Situation
    zones: tuple[WindZone, ...]
    inside: float = 0.0
    """Internal pressure coefficient, taken off the outside one [-]; 0 for net coefficients."""
    kind: Literal["outside and inside", "net both faces", "own coefficients"] = "outside and inside"
    working: tuple[Step, ...] = ()

    @cached_property
    def reaches(self) -> tuple[Reach, ...]:
        """How far each zone reaches, those at the edges carried on past them: `spread`."""
        return spread(self.zones)

    @cached_property
    def sheet_zones(self) -> tuple[tuple[int, Reach], ...]:
        """Numbers and reaches of zones, without an overhang under 100 mm: a lip so short lies in the foot profile."""
        return self._some(
            [n for n, z in enumerate(self.zones) if z.under_10 is None or z.y_mm[1] - z.y_mm[0] >= _LIP_MM]
        )

    @cached_property
    def zones_to_the_beam(self) -> tuple[tuple[int, Reach], ...]:
        """The same without what lies over an overhang."""
        return self._some([n for n, z in enumerate(self.zones) if z.under_10 is None])

    def _some(self, some: Sequence[int]) -> tuple[tuple[int, Reach], ...]:
        reaches = self.reaches if len(some) == len(self.zones) else spread([self.zones[n] for n in some])
        return tuple(zip(some, reaches, strict=True))


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class WholeRoofWind:
    """Wind on the whole roof at once, for beam, posts, bases and bracing: a force square to the slope, and a drag."""

    name: str
    """In words: "wind from the right, up, blockage 1"."""
    force_kn: float | None
    """Square to the slope, towards the roof positive [kN]; None on an enclosed roof, whose zones count."""
    at_mm: tuple[float, float] | None
    """Where it acts, on plan [x, y mm]: a quarter of the depth behind the windward edge."""
    drag_kn: float
    """Friction along the roof, the way the wind blows [kN]."""
    drag_along: Literal["x", "y"]
    """Along the wall, or square to it."""
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Wind:
    """Wind on the roof. Where `refused` is set there are no cases and each check that needs wind is refused with it."""

    peak_pressure_kn_m2: float | None
    reference_height_m: float | None
    cases: tuple[WindCase, ...]
    refused: str = ""
    cases_refused: tuple[tuple[str, str], ...] = ()
    """(case, reason) for single cases that could not be made: a door without its factor."""
    typical: bool = False
    """True where the peak pressure was read off digitised figures: every check that rests on it is typical."""
    whole: tuple[WholeRoofWind, ...] = ()
    """On the whole roof by direction; empty with coefficients of the user's own, which are by zone."""
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Snow:
    """Snow on the roof. `refused` names cases that could not be made, each with what is missing."""

    ground_kn_m2: float
    cases: tuple[SnowCase, ...]
    refused: tuple[tuple[str, str], ...] = ()
    """(case, reason)"""
    corners: tuple[tuple[tuple[float, float], tuple[float, float]], ...] = ()
    """((x from, to), (y from, to)) on plan where two drifts meet [mm]: checks of snow are refused there."""
    foot_line_kn_m: float = 0.0
    """Snow that hangs over the foot, along the edge, besides each persistent case; the tips of the rafters carry it."""
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Dead:
    """Self-weight."""

    sheet_kn_m2: float
    """Of the sheet per slope area, with what lies on it."""
    bar_kn_m: float
    """Of base, cap and seals per length of bar."""
    rafter_kn_m: float
    """Of the rafter per its length."""
    barge_kn_m: float = 0.0
    """Of a barge board per its length."""
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Imposed:
    """Category H: a roof nobody walks on but for its upkeep, from boards on the rafters."""

    area_kn_m2: float | None
    point_kn: float | None
    refused: str = ""
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """Everything that acts on the roof, before it is combined."""

    annex: str
    edition: str
    snow: Snow
    wind: Wind
    dead: Dead
    imposed: Imposed
    combinations: tuple[Combination, ...] = ()
    service: tuple[Combination, ...] = ()
    """Frequent and quasi-permanent: shown, and in the sag of timber term by term."""
    notes: tuple[str, ...] = ()
