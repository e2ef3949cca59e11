"""Loads as a rafter or a bar feels them: per length along the slope, square to it [N/mm], exact for every step."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from pentice.loads.values import SnowCase, WindCase, WindZone
from pentice.mechanics.lines import LineLoad
from pentice.standards.en1991_1_4_roofs import area_coefficient

_PAST_MM = 1000.0
HAIR_MM = 1e-6
"""Rounding of a place: less than this is no length."""
_NOTHING_N_MM = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What one member carries: a strip of the roof from x to x, and the slope under it."""

    x_mm: tuple[float, float]
    length_mm: float
    """Along the slope from the wall face to the foot [mm]."""
    cos_pitch: float
    area_m2: float
    """Loaded area for the wind coefficients [m2]."""

    @property
    def width_mm(self) -> float:
        """Width of the strip [mm]."""
        return self.x_mm[1] - self.x_mm[0]


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
    >>> strip = Strip(x_mm=(0.0, 1000.0), length_mm=3000.0, cos_pitch=1.0, area_m2=3.0)
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


def wind_line(case: WindCase, peak_kn_m2: float, strip: Strip) -> LineLoad:
    """Wind on a strip, square to the slope: zones integrated over its width, in steps along the slope.

    Parameters
    ----------
    case
        Zones and the pressure inside.
    peak_kn_m2
        Peak velocity pressure [kN/m2].
    strip
        The strip [mm] with the member's own loaded area.

    Returns
    -------
    LineLoad
        Breakpoints along the slope from the wall face, two at each step [mm, N/mm].

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.2 and 7.2.1(1), integrated exactly: geometry.
    """
    left, right = strip.x_mm
    zones: list[tuple[float, float, float]] = []  # from and to on plan, and what each brings to the line
    for zone in spread(case.zones):
        across = min(zone.x_mm[1], right) - max(zone.x_mm[0], left)
        if across > 0.0:
            net = net_coefficient(zone, case.inside, strip.area_m2) * peak_kn_m2 * across * 1e-3
            zones.append((*zone.y_mm, net))
    places = {0.0, strip.length_mm, *_within(strip, [y for start, end, _ in zones for y in (start, end)])}
    points: list[tuple[float, float]] = []
    for top, bottom in pairwise(sorted(places)):
        middle = (top + bottom) / 2.0 * strip.cos_pitch
        line = sum((net for start, end, net in zones if start <= middle <= end), 0.0)
        points += [(top, line), (bottom, line)]
    return tuple(points)


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
    below = inside
    if zone.under_10 is not None and zone.under_1 is not None:
        below = area_coefficient(cpe_10=zone.under_10, cpe_1=zone.under_1, area_m2=area_m2)
    return area_coefficient(cpe_10=zone.c_10, cpe_1=zone.c_1, area_m2=area_m2) - below


@lru_cache(maxsize=256)
def spread(zones: tuple[WindZone, ...]) -> tuple[WindZone, ...]:
    """The same zones, those at the roof's edges carried on over whatever reaches past them.

    Parameters
    ----------
    zones
        Zones that tile the roof.

    Returns
    -------
    tuple of WindZone
        Outermost zones widened by 1 m: a barge board, or a roof deeper where the wall is hollow, takes the edge
        zone's pressure.

    Source
    ------
    Judgement, no source.

    Examples
    --------
    >>> spread((WindZone(name="G", x_mm=(0.0, 5000.0), y_mm=(0.0, 1.0), c_10=-1.0, c_1=-1.0),))[0].x_mm
    (-1000.0, 6000.0)
    """
    left, right = min(z.x_mm[0] for z in zones), max(z.x_mm[1] for z in zones)
    head, foot = min(z.y_mm[0] for z in zones), max(z.y_mm[1] for z in zones)
    return tuple(
        replace(z, x_mm=_widened(z.x_mm, left, right), y_mm=_widened(z.y_mm, head, foot)) for z in zones
    )


def _widened(reach: tuple[float, float], first: float, last: float) -> tuple[float, float]:
    at_first, at_last = reach[0] - first < HAIR_MM, last - reach[1] < HAIR_MM
    return reach[0] - _PAST_MM * at_first, reach[1] + _PAST_MM * at_last


def value_on(line: LineLoad, place_mm: float) -> tuple[float, float]:
    """A line load just before and just after a place.

    Parameters
    ----------
    line
        Breakpoints [mm, N/mm].
    place_mm
        Where to read [mm].

    Returns
    -------
    tuple of float
        Before and after [N/mm]; alike unless a step stands there.

    Source
    ------
    Straight lines between breakpoints.

    Examples
    --------
    >>> value_on(((0.0, 1.0), (10.0, 2.0)), 5.0)
    (1.5, 1.5)
    """
    before = after = 0.0
    for (a, qa), (b, qb) in pairwise(line):
        if b <= a:
            continue
        here = qa + (qb - qa) * (place_mm - a) / (b - a)
        if a < place_mm <= b:
            before = here
        if a <= place_mm < b:
            after = here
    return before, after


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
    kept: list[tuple[str, LineLoad]] = []
    for name, line in lines:
        if any(_covers(other, line, sign) for _, other in kept):
            continue
        kept = [(n, o) for n, o in kept if not _covers(line, o, sign)]
        kept.append((name, line))
    return tuple(kept)


def _covers(one: LineLoad, other: LineLoad, sign: float) -> bool:
    """True where the first load is at every place at least as bad, and what it has more lies no nearer to the foot."""
    places = sorted({x for x, _ in one} | {x for x, _ in other})
    more = moment = 0.0
    for a, b in pairwise(places):
        # What the first has more, just after a and just before b.
        d_a = sign * (value_on(one, a)[1] - value_on(other, a)[1])
        d_b = sign * (value_on(one, b)[0] - value_on(other, b)[0])
        if min(d_a, d_b) < -_NOTHING_N_MM:
            return False
        more += (b - a) * (d_a + d_b) / 2.0
        moment += (b - a) * (d_a * (2.0 * a + b) + d_b * (a + 2.0 * b)) / 6.0
    return moment <= more * (places[0] + places[-1]) / 2.0 + _NOTHING_N_MM * places[-1] ** 2
