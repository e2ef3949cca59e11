"""Loads as a rafter or a bar feels them: per length along the slope, square to it [N/mm], exact for every step."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.loads.values import HAIR_MM, Reach, SnowCase, WindCase, WindZone
from pentice.mechanics.lines import LineLoad, Stretches, stretches
from pentice.standards.en1991_1_4_roofs import area_share

_NOTHING_N_MM = 1e-12
ZonesOver = tuple[tuple[float, float, tuple[tuple[int, float], ...]], ...]
"""A wind over a strip in stretches along the slope [mm]: the zones over each, how far they reach across it [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What one member carries: a strip of the roof from x to x, and the slope under it."""

    x_mm: tuple[float, float]
    length_mm: float
    """Along the slope from the wall face to the foot [mm]."""
    cos_pitch: float

    @property
    def width_mm(self) -> float:
        """Width of the strip [mm]."""
        return self.x_mm[1] - self.x_mm[0]

    @property
    def area_m2(self) -> float:
        """Of roof, on the slope [m2]."""
        return self.width_mm * self.length_mm * 1e-6


def snow_line(case: SnowCase, strip: Strip) -> LineLoad:
    """Snow on a strip, square to the slope.

    Parameters
    ----------
    case
        Load per plan area [kN/m2].
    strip
        The strip [mm].

    Returns
    -------
    LineLoad
        Breakpoints along the slope from the wall face [mm, N/mm].

    Source
    ------
    Per plan area s, per slope area s cos, square to the slope s cos2: geometry.

    Examples
    --------
    >>> even = SnowCase(name="even", situation="persistent", along="y", points=((0.0, 0.5),))
    >>> strip = Strip(x_mm=(0.0, 1000.0), length_mm=3000.0, cos_pitch=1.0)
    >>> snow_line(even, strip)
    ((0.0, 0.5), (3000.0, 0.5))
    """
    square = strip.cos_pitch**2
    if case.along == "x":
        line = square * _along_x(case, strip) * 1e-3
        return ((0.0, line), (strip.length_mm, line))
    places = {0.0, strip.length_mm, *_within(strip, [y for y, _ in case.points])}
    width = strip.width_mm
    return tuple((y, square * case.at(0.0, y * strip.cos_pitch) * width * 1e-3) for y in sorted(places))


def _within(strip: Strip, on_plan_mm: Iterable[float]) -> set[float]:
    """Places on plan, along the slope, where they lie clear of both ends of the strip."""
    along = (y / strip.cos_pitch for y in on_plan_mm)
    return {y for y in along if HAIR_MM < y < strip.length_mm - HAIR_MM}


def _along_x(case: SnowCase, strip: Strip) -> float:
    """Integral of a load that changes along x over a strip [kN/m2 x mm]: trapezoids between its points."""
    left, right = strip.x_mm
    places = sorted({left, right, *(x for x, _ in case.points if left < x < right)})
    return sum((b - a) * (case.at(a, 0.0) + case.at(b, 0.0)) / 2.0 for a, b in pairwise(places))


def zones_over(reaches: Sequence[Reach], strip: Strip) -> ZonesOver:
    """Where the zones of a wind lie over a strip, for any loaded area.

    Parameters
    ----------
    reaches
        How far its zones reach, those at the roof's edges carried on past them: `WindCase.reaches` [mm].
    strip
        The strip [mm].

    Returns
    -------
    ZonesOver
        From the wall face to the foot.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> zones_over([((0.0, 1000.0), (0.0, 3000.0))], Strip(x_mm=(500.0, 900.0), length_mm=3000.0, cos_pitch=1.0))
    ((0.0, 3000.0, ((0, 400.0),)),)
    """
    left, right = strip.x_mm
    over: list[
        tuple[float, float, int, float]
    ] = []  # from and to on plan, which zone, how far across the strip
    for n, ((start, end), along) in enumerate(reaches):
        across = min(end, right) - max(start, left)
        if across > 0.0:
            over.append((*along, n, across))
    places = {0.0, strip.length_mm, *_within(strip, [y for start, end, _, _ in over for y in (start, end)])}
    found = []
    for top, bottom in pairwise(sorted(places)):
        middle = (top + bottom) / 2.0 * strip.cos_pitch
        here = tuple((n, across) for start, end, n, across in over if start <= middle <= end)
        found.append((top, bottom, here))
    return tuple(found)


def wind_line(over: ZonesOver, pressures_kn_m2: Sequence[float]) -> LineLoad:
    """Wind on a strip, square to the slope: zones integrated over its width, in steps along the slope.

    Parameters
    ----------
    over
        Where the zones lie over it [mm].
    pressures_kn_m2
        Of each zone, towards the roof positive: `zone_pressures` [kN/m2].

    Returns
    -------
    LineLoad
        Breakpoints along the slope from the wall face, two at each step [mm, N/mm].

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.2 and 7.2.1(1), integrated exactly: geometry.

    Examples
    --------
    >>> wind_line(((0.0, 3000.0, ((0, 600.0), (1, 400.0))),), [-0.6, -1.0])
    ((0.0, -0.76), (3000.0, -0.76))
    """
    points: list[tuple[float, float]] = []
    for top, bottom, zones in over:
        line = 0.0
        for n, across in zones:
            line += pressures_kn_m2[n] * across * 1e-3
        points += [(top, line), (bottom, line)]
    return tuple(points)


def zone_pressures(case: WindCase, peak_kn_m2: float, area_m2: float) -> list[float]:
    """Pressure of each zone of a wind.

    Parameters
    ----------
    case
        Zones and the pressure inside.
    peak_kn_m2
        Peak velocity pressure [kN/m2].
    area_m2
        Loaded area of the member [m2].

    Returns
    -------
    list of float
        [kN/m2], towards the roof positive.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.2.

    Examples
    --------
    >>> zone = WindZone(name="G", x_mm=(0.0, 1000.0), y_mm=(0.0, 3000.0), c_10=-1.2, c_1=-2.0)
    >>> zone_pressures(WindCase(name="suction", situation="persistent", zones=(zone,)), 0.5, 10.0)
    [-0.6]
    """
    return [net * peak_kn_m2 for net in net_coefficients(case.zones, case.inside, area_m2)]


def net_coefficient(zone: WindZone, inside: float, area_m2: float) -> float:
    """Outside less inside for a loaded area [-].

    Parameters
    ----------
    zone
        Coefficients for 10 m2 and 1 m2 [-].
    inside
        Internal coefficient [-].
    area_m2
        Loaded area [m2].

    Returns
    -------
    float
        Net coefficient [-], towards the roof positive.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.2(3), 7.2.1(1) and, over an overhang, 7.2.1(3): the wall's coefficient below.

    Examples
    --------
    >>> zone = WindZone(name="F", x_mm=(0.0, 1.0), y_mm=(0.0, 1.0), c_10=-1.7, c_1=-2.5)
    >>> round(net_coefficient(zone, 0.2, 1.0), 3)
    -2.7
    """
    return net_coefficients((zone,), inside, area_m2)[0]


def net_coefficients(zones: Iterable[WindZone], inside: float, area_m2: float) -> list[float]:
    """The same for several zones and one loaded area.

    Parameters
    ----------
    zones, inside, area_m2
        As `net_coefficient`.

    Returns
    -------
    list of float
        Net coefficients [-], towards the roof positive.

    Source
    ------
    As `net_coefficient`.

    Examples
    --------
    >>> zone = WindZone(name="F", x_mm=(0.0, 1.0), y_mm=(0.0, 1.0), c_10=-1.7, c_1=-2.5)
    >>> net_coefficients([zone, zone], 0.2, 10.0)
    [-1.9, -1.9]
    """
    share = area_share(area_m2)
    return [net_of_share(zone, inside, share) for zone in zones]


def net_of_share(zone: WindZone, inside: float, share: float) -> float:
    """The same for one zone, where the way from 1 m2 to 10 m2 is known.

    Parameters
    ----------
    zone, inside
        As `net_coefficient`.
    share
        `area_share` of the loaded area [-].

    Returns
    -------
    float
        Net coefficient [-], towards the roof positive.

    Source
    ------
    As `net_coefficient`.

    Examples
    --------
    >>> zone = WindZone(name="F", x_mm=(0.0, 1.0), y_mm=(0.0, 1.0), c_10=-1.5, c_1=-2.5)
    >>> net_of_share(zone, 0.2, 0.5)
    -2.2
    """
    above = zone.c_1 - (zone.c_1 - zone.c_10) * share
    if zone.under_10 is None or zone.under_1 is None:
        return above - inside
    return above - (zone.under_1 - (zone.under_1 - zone.under_10) * share)


def undominated(
    lines: Iterable[tuple[str, LineLoad]], *, upward: bool = False
) -> tuple[tuple[str, LineLoad], ...]:
    """The loads of a kind of which none is at every place as bad as another: only these can govern.

    Parameters
    ----------
    lines
        Name and line load of each case [mm, N/mm].
    upward
        The most negative is the worst.

    Returns
    -------
    tuple
        What is left, in the order given.

    Source
    ------
    Superposition: on a beam on two bearings with an overhang at the foot, what one load has more than another makes
    every reaction, shear and moment greater, unless it lies towards the foot, where it would ease the span. Then
    both are kept.

    Examples
    --------
    >>> light, heavy = ((0.0, 1.0), (9.0, 1.0)), ((0.0, 2.0), (9.0, 2.0))
    >>> [name for name, _ in undominated([("light", light), ("heavy", heavy)])]
    ['heavy']
    """
    sign = -1.0 if upward else 1.0
    found = tuple(lines)
    if len(found) < 2:
        return found
    places = sorted({x for _, line in found for x, _ in line})
    read = [stretches(line, places) for _, line in found]
    kept: list[int] = []
    for n, one in enumerate(read):
        if any(_covers(read[other], one, places, sign) for other in kept):
            continue
        kept = [other for other in kept if not _covers(one, read[other], places, sign)]
        kept.append(n)
    return tuple(found[n] for n in kept)


def _covers(one: Stretches, other: Stretches, places: Sequence[float], sign: float) -> bool:
    """True where the first load is at every place at least as bad, and what it has more lies no nearer to the foot."""
    more = moment = 0.0
    for (a, b), one_a, one_b, other_a, other_b in zip(pairwise(places), *one, *other, strict=True):
        # What the first has more, just after a and just before b.
        d_a, d_b = sign * (one_a - other_a), sign * (one_b - other_b)
        if d_a < -_NOTHING_N_MM or d_b < -_NOTHING_N_MM:
            return False
        more += (b - a) * (d_a + d_b) / 2.0
        moment += (b - a) * (d_a * (2.0 * a + b) + d_b * (a + 2.0 * b)) / 6.0
    return moment <= more * (places[0] + places[-1]) / 2.0 + _NOTHING_N_MM * places[-1] ** 2
