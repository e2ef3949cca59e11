"""Wind on walls below the roof: every zone with every pressure inside, and what blows on several walls at once.

Inwards is positive. The zones of a closed room are those of EN 1991-1-4, Table 7.1; beside the wind A stands for A, B
and C. Closed sides beside an open one have what the job declares.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from operator import itemgetter
from typing import NamedTuple

from pentice.checks.ground import JUDGEMENT, Ground
from pentice.job.fields import Wall
from pentice.loads.inside import LEEWARD, WINDWARD
from pentice.loads.wind import open_sides
from pentice.standards.en1991_1_4_roofs import (
    WINDS,
    Coefficient,
    Wind,
    area_share,
    wall_coefficients,
)
from pentice.working import Step

ALONG: tuple[Wind, ...] = ("from left", "from right")
"""Winds along the wall of the house, which push the row of posts along it."""
CALLED: Mapping[Wall, str] = {
    "left": "left end",
    "right": "right end",
    "front": "front",
    "back": "back",
}
"""The walls in words."""


class OnWall(NamedTuple):
    """Wind on a part of a wall: outside less inside, times the peak pressure; declared: net, nothing inside."""

    outside: float
    inside: float
    peak: float
    """[kN/m2]."""
    zone: str
    """Of Table 7.1; declared: inwards or outwards."""
    situation: str
    """An accident where a door stands open by accident."""
    source: str = ""
    """Who declared it; empty: Table 7.1."""

    @property
    def net(self) -> float:
        """Characteristic [kN/m2], inwards positive."""
        return (self.outside - self.inside) * self.peak

    def in_short(self) -> str:
        """Its zone and the pressure inside in words, or which way the declared coefficient acts."""
        if self.source:
            return f"declared, {self.zone}"
        by_accident = ", a door open by accident" if self.situation == "accidental" else ""
        return f"zone {self.zone}, {self.inside:+.2f} inside{by_accident}"

    def step(self) -> Step:
        """The net pressure as a line of working."""
        if self.source:
            return Step(
                says="Wind, inwards positive",
                formula="w = c_p,net q_p",
                numbers=f"{self.outside:g} x {self.peak:.4f}",
                result=self.net,
                unit="kN/m2",
                clause=self.clause(),
            )
        return Step(
            says="Wind, inwards positive",
            formula="w = (c_pe - c_pi) q_p",
            numbers=f"({self.outside:.4f} - ({self.inside:.4f})) x {self.peak:.4f}",
            result=self.net,
            unit="kN/m2",
            clause="EN 1991-1-4, 7.2.2, Table 7.1, 7.2.9; 7.2.1(1) for its area",
        )

    def clause(self) -> str:
        """Where its coefficient comes from, where several walls are looked at at once."""
        if self.source:
            return f"declared: {self.source}"
        return f"EN 1991-1-4, Table 7.1, zone {self.zone}, 7.2.9; A, B and C as A, {JUDGEMENT}"

    def worst(self) -> str:
        """What is taken of it, to stand behind a clause."""
        return "" if self.source else f"; the worst zone, {JUDGEMENT}"


def in_words(on: OnWall) -> str:
    """A wind in the words of a case.

    Parameters
    ----------
    on
        Of any wall.

    Returns
    -------
    str
        "worst zone of a wall, A, +0.20 inside"; "declared, inwards".

    Source
    ------
    None: words.

    Examples
    --------
    >>> in_words(OnWall(outside=-1.4, inside=0.2, peak=0.6, zone="A", situation="persistent"))
    'worst zone of a wall, A, +0.20 inside'
    """
    return on.in_short() if on.source else f"worst zone of a wall, {on.in_short().removeprefix('zone ')}"


def why_no_wind_on_walls(ground: Ground) -> str:
    """Why no wind on a wall is known; nothing where one is.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    str
        Why, and the key to give.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2 has walls of closed rooms only.
    """
    site = ground.job.site
    if site.side_wind is not None:
        return ""
    if site.wind_coefficients is not None:
        return (
            "The job's own wind coefficients are for the roof. Ask who gave them for the walls too: give "
            "site.side_wind."
        )
    if open_sides(ground.job):
        return (
            "EN 1991-1-4 has no net pressure for a closed side of a roof with an open one. Ask an engineer: give "
            "site.side_wind."
        )
    return ""


def declared(ground: Ground, wall: Wall) -> tuple[OnWall, ...]:
    """Wind on a closed wall as the job declares it, inwards and outwards; none where it declares nothing.

    Parameters
    ----------
    ground, wall
        The inputs of every check, and the wall.

    Returns
    -------
    tuple of OnWall
        [kN/m2]. It stands for doors however they stand, and so for no accident.

    Source
    ------
    The document that the job names.
    """
    own, peak = ground.job.site.side_wind, ground.loads.wind.peak_pressure_kn_m2 or 0.0
    if own is None:
        return ()
    return tuple(
        OnWall(outside=c, inside=0.0, peak=peak, zone=way, situation="persistent", source=own.source)
        for c, way in zip(own.of(wall), ("inwards", "outwards"), strict=True)
    )


def insides(ground: Ground) -> tuple[tuple[float, str], ...]:
    """Every pressure inside that the roof is checked with, and whether it is an accident.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple
        c_pi [-] and "persistent" or "accidental", the least first.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.9.
    """
    return ground.once(_insides)


def _insides(ground: Ground) -> tuple[tuple[float, str], ...]:
    return tuple(sorted({(case.inside, case.situation) for case in ground.loads.wind.cases}))


def in_any_zone(ground: Ground, wall: Wall, *, area_m2: float, tallest_mm: float) -> tuple[OnWall, ...]:
    """Wind on a part of any wall, of every zone with every pressure inside those that press or draw most.

    Parameters
    ----------
    ground, wall
        The inputs of every check, and the wall: where the job declares the wind on it, that alone.
    area_m2
        Area that loads the part [m2].
    tallest_mm
        Height of the room where the roof's is not known [mm].

    Returns
    -------
    tuple of OnWall
        [kN/m2]: the first that presses most and the first that draws most, lasting and by accident.

    Raises
    ------
    OutsideScope
        The roof is more than five times as high as it is deep.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(1), 7.2.2, 7.2.9; or the document that the job names. Outside less inside is
    greatest and least with the greatest and the least of both.
    """
    known = declared(ground, wall)
    if known:
        return known
    shape, peak = ground.shape, ground.loads.wind.peak_pressure_kn_m2 or 0.0
    share = area_share(max(area_m2, 0.01))
    height = (shape.head_height_mm or tallest_mm) / 1000.0
    walls = [
        (c.zone, c.at_share(share))
        for depth in (shape.depth_on_plan_mm, shape.width_mm)
        for c in wall_coefficients(height_m=height, depth_m=depth / 1000.0)
    ]
    worst = {most(walls, key=itemgetter(1)) for most in (min, max)}
    return tuple(
        OnWall(outside=outside, inside=inside, peak=peak, zone=zone, situation=situation)
        for zone, outside in sorted(worst, key=walls.index)
        for inside, situation in ground.once(_worst_insides)
    )


def _worst_insides(ground: Ground) -> tuple[tuple[float, str], ...]:
    """The least and the greatest of `insides`, lasting and by accident, in their order."""
    every = insides(ground)
    of_each = [[one for one in every if one[1] == situation] for situation in {one[1] for one in every}]
    return tuple(sorted({one for found in of_each for one in (found[0], found[-1])}))


def in_each_wind(
    ground: Ground, areas_m2: Mapping[Wall, float]
) -> Iterator[tuple[Wind, Mapping[Wall, OnWall]]]:
    """Wind on parts of several walls at once: of each direction with each pressure inside.

    Parameters
    ----------
    ground
        The inputs of every check; the height of the roof is known.
    areas_m2
        Area that loads each part [m2].

    Yields
    ------
    tuple
        The direction, and the wind on each wall: D where it blows onto it, E behind, A beside it. Declared: every sign
        of each wall with every one of the others, in each direction.

    Raises
    ------
    OutsideScope
        The roof is more than five times as high as it is deep.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.1(1), 7.2.2, 7.2.9. Beside the wind a post may stand in A, B or C: A draws most and
    stands for all; declared winds on several walls may stand together: judgement, on the safe side.
    """
    if ground.job.site.side_wind is not None:
        pairs = [[(wall, on) for on in declared(ground, wall)] for wall in areas_m2]
        for wind in WINDS:
            for both in product(*pairs):
                yield wind, dict(both)
        return
    peak = ground.loads.wind.peak_pressure_kn_m2 or 0.0
    tables, shares = ground.once(_by_direction), {w: area_share(max(a, 0.01)) for w, a in areas_m2.items()}
    for wind in WINDS:
        found = tables[wind]
        outside = {
            wall: (_zone_of(wall, wind), found[_zone_of(wall, wind)].at_share(share))
            for wall, share in shares.items()
        }
        for inside, situation in insides(ground):
            yield (
                wind,
                {
                    wall: OnWall(outside=cpe, inside=inside, peak=peak, zone=zone, situation=situation)
                    for wall, (zone, cpe) in outside.items()
                },
            )


def why_no_drawn_front(ground: Ground) -> str:
    """Why what draws a closed front beside a closed end outwards is not known; empty where it is, or nothing does.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    str
        Why, and the key to give.

    Source
    ------
    As `why_no_wind_on_walls`.
    """
    roof = ground.job.roof
    if roof.front != "closed" or "closed" not in (roof.left, roof.right):
        return ""
    return why_no_wind_on_walls(ground)


def drawn_front(ground: Ground) -> Mapping[str, OnWall]:
    """What draws a closed front outwards while wind blows along it; nothing where it is open, or stands between ends
    that are open and no wind on it is declared.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    Mapping
        The most that draws, lasting and by accident.

    Raises
    ------
    OutsideScope
        The roof is more than five times as high as it is deep.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.2.2, 7.2.9: zone A all along, judgement, on the safe side.
    """
    roof, shape = ground.job.roof, ground.shape
    has_own = ground.job.site.side_wind is not None
    if roof.front != "closed" or not (has_own or "closed" in (roof.left, roof.right)):
        return {}
    if why_no_wind_on_walls(ground) or shape.eaves_height_mm is None:
        return {}
    area: dict[Wall, float] = {"front": shape.width_mm * shape.eaves_height_mm / 2.0 * 1e-6}
    found: dict[str, OnWall] = {}
    for _, on in in_each_wind(ground, area):
        here = on["front"]
        if here.net < min(0.0, found[here.situation].net if here.situation in found else 0.0):
            found[here.situation] = here
    return found


def _zone_of(wall: Wall, wind: Wind) -> str:
    if WINDWARD[wind] == wall:
        return "D"
    return "E" if LEEWARD[wind] == wall else "A"


def _by_direction(ground: Ground) -> dict[Wind, dict[str, Coefficient]]:
    """Coefficients of the walls by zone, for each direction of the wind."""
    height, shape = (ground.shape.head_height_mm or 0.0) / 1000.0, ground.shape
    found = {}
    for wind in WINDS:
        depth = shape.width_mm if wind in ALONG else shape.depth_on_plan_mm
        found[wind] = {c.zone: c for c in wall_coefficients(height_m=height, depth_m=depth / 1000.0)}
    return found
