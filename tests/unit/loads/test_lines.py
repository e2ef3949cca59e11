"""Loads on a strip: converted once, exact at every step, and which of them can govern."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from pentice.loads.lines import (
    Strip,
    net_coefficient,
    snow_line,
    undominated,
    wind_line,
    zone_pressures,
    zones_over,
)
from pentice.loads.values import SnowCase, WindCase, WindZone, spread
from pentice.mechanics.lines import LineLoad, stretches

EXACT = 1e-9
"""Straight lines integrated by trapezoids: only rounding is left."""


def total(line: LineLoad) -> float:
    """Force of a line load [N]."""
    return math.fsum((b - a) * (qa + qb) / 2.0 for (a, qa), (b, qb) in pairwise(line))


def strip(left: float = 0.0, right: float = 1000.0, length: float = 4000.0, pitch: float = 0.0) -> Strip:
    """A strip of the roof."""
    return Strip(x_mm=(left, right), length_mm=length, cos_pitch=math.cos(math.radians(pitch)))


def line_of(case: WindCase, peak: float, on: Strip) -> LineLoad:
    """A wind on a strip, by 10 m2 of loaded area."""
    return wind_line(zones_over(case.reaches, on), zone_pressures(case, peak, 10.0))


def zone(name: str, x: tuple[float, float], y: tuple[float, float], c: float) -> WindZone:
    """A zone with one coefficient for every area."""
    return WindZone(name=name, x_mm=x, y_mm=y, c_10=c, c_1=c)


def wind(*zones: WindZone, inside: float = 0.0) -> WindCase:
    """A wind case of these zones."""
    return WindCase(name="wind", situation="persistent", zones=zones, inside=inside)


def test_snow_on_plan_is_square_to_the_slope_by_the_cosine_twice() -> None:
    """0.5 kN/m2 on plan, 1 m wide, at 60 deg (cos 0.5): 0.5 x 0.25 = 0.125 N/mm of slope."""
    even = SnowCase(name="even", situation="persistent", along="y", points=((0.0, 0.5),))
    line = snow_line(even, strip(pitch=60.0))
    assert [x for x, _ in line] == [0.0, 4000.0]
    assert [q for _, q in line] == pytest.approx([0.125, 0.125])


def test_a_drift_bends_where_it_ends_on_the_slope() -> None:
    """A drift that ends 1 m from the wall on plan ends 2 m down a slope of 60 deg."""
    drift = SnowCase(
        name="d", situation="persistent", along="y", points=((0.0, 2.0), (1000.0, 1.0), (2000.0, 1.0))
    )
    line = snow_line(drift, strip(pitch=60.0))
    assert [x for x, _ in line] == pytest.approx([0.0, 2000.0, 4000.0])
    assert line[0][1] == pytest.approx(2.0 * 0.25)


def test_a_drift_along_the_wall_is_integrated_over_the_strip() -> None:
    """From 2.0 at x = 0 straight to 1.0 at 1000, then level: over 500 to 1500 the mean is (1.25 + 1.0)/2."""
    side = SnowCase(
        name="s", situation="persistent", along="x", points=((0.0, 2.0), (1000.0, 1.0), (5000.0, 1.0))
    )
    line = snow_line(side, strip(500.0, 1500.0))
    assert line[0][1] == pytest.approx(0.5 * 1.25 + 0.5 * 1.0)


def test_wind_steps_where_its_zones_do() -> None:
    """Two zones down the slope: a double point at the step, square to the slope without any cosine."""
    case = wind(
        zone("H", (0.0, 5000.0), (0.0, 1500.0), -0.5), zone("F", (0.0, 5000.0), (1500.0, 2000.0), -2.0)
    )
    line = line_of(case, 0.5, strip(1000.0, 2000.0, pitch=60.0))
    assert [x for x, _ in line] == pytest.approx([0.0, 3000.0, 3000.0, 4000.0])
    assert [q for _, q in line] == pytest.approx([-0.25, -0.25, -1.0, -1.0])


def test_wind_is_integrated_over_the_zones_across_a_strip() -> None:
    """A strip half in one zone and half in the next takes half of each."""
    case = wind(zone("F", (0.0, 500.0), (0.0, 4000.0), -2.0), zone("G", (500.0, 5000.0), (0.0, 4000.0), -1.0))
    assert total(line_of(case, 1.0, strip())) == pytest.approx(-1.5 * 4000.0, rel=EXACT)


def test_the_pressure_inside_is_taken_off_once_per_area() -> None:
    """-1.0 outside and +0.2 inside: -1.2 over the whole strip, however many zones there are."""
    case = wind(
        zone("F", (0.0, 500.0), (0.0, 4000.0), -1.0),
        zone("G", (500.0, 5000.0), (0.0, 4000.0), -1.0),
        inside=0.2,
    )
    assert total(line_of(case, 1.0, strip())) == pytest.approx(-1.2 * 4000.0, rel=EXACT)


def test_a_barge_board_takes_the_edge_zone_s_pressure() -> None:
    """A strip that reaches 25 mm past the roof is loaded over its whole width."""
    case = wind(zone("F", (0.0, 5000.0), (0.0, 4000.0), -1.0))
    assert total(line_of(case, 1.0, strip(-25.0, 500.0))) == pytest.approx(-525.0 * 4.0, rel=EXACT)


def test_a_roof_deeper_than_its_zones_is_loaded_to_its_foot() -> None:
    """Where the wall is hollow the slope is longer than the zones on plan: the last one goes on."""
    case = wind(zone("F", (0.0, 5000.0), (0.0, 3990.0), -1.0))
    assert total(line_of(case, 1.0, strip())) == pytest.approx(-4000.0, rel=EXACT)


def test_rounding_at_an_edge_does_not_hide_it() -> None:
    """A zone that ends a hair before the roof's edge is still an edge zone."""
    ends = (5000.0, 5000.0 - 1e-9)
    reaches = spread(
        tuple(zone("F", (0.0, end), (i * 10.0, i * 10.0 + 10.0), -1.0) for i, end in enumerate(ends))
    )
    assert all(x_mm[1] > 5999.0 for x_mm, _ in reaches)


def test_coefficients_fall_with_the_logarithm_of_the_area() -> None:
    """-2.5 at 1 m2, -1.7 at 10 m2: -2.118 at 3 m2."""
    found = WindZone(name="F", x_mm=(0.0, 1.0), y_mm=(0.0, 1.0), c_10=-1.7, c_1=-2.5)
    assert net_coefficient(found, 0.0, 3.0) == pytest.approx(-2.1183, abs=0.00005)


def test_over_an_overhang_the_wall_stands_in_for_the_inside() -> None:
    """-2.5 above and 0.8 below: -3.3, whatever the pressure inside."""
    lip = WindZone(name="F", x_mm=(0.0, 1.0), y_mm=(0.0, 1.0), c_10=-2.5, c_1=-2.5, under_10=0.8, under_1=1.0)
    assert net_coefficient(lip, 0.2, 10.0) == pytest.approx(-3.3)
    assert net_coefficient(lip, -0.3, 1.0) == pytest.approx(-3.5)


def test_a_line_has_two_values_at_its_step() -> None:
    """Just before and just after."""
    step = ((0.0, 1.0), (5.0, 1.0), (5.0, 3.0), (9.0, 3.0))
    assert stretches(step, (0.0, 5.0, 9.0)) == ([1.0, 3.0], [1.0, 3.0])


def test_loads_that_cross_are_both_kept() -> None:
    """One is worse at the head, the other at the foot: either may govern."""
    head, foot = ((0.0, 2.0), (9.0, 1.0)), ((0.0, 1.0), (9.0, 2.0))
    assert len(undominated([("head", head), ("foot", foot)])) == 2


def test_a_later_worse_load_drives_out_the_earlier() -> None:
    """Whatever the order; upward the more negative is the worse."""
    small, great = ((0.0, -1.0), (9.0, -1.0)), ((0.0, -2.0), (9.0, -2.0))
    assert [n for n, _ in undominated([("small", small), ("great", great)], upward=True)] == ["great"]
    assert [n for n, _ in undominated([("small", small), ("great", great)])] == ["small"]


def test_a_load_that_is_worse_on_the_overhang_only_does_not_hide_the_other() -> None:
    """More on the foot's overhang lifts the span: the load without it may bend the span more, so both are kept."""
    even, tipped = ((0.0, 1.0), (9.0, 1.0)), ((0.0, 1.0), (8.0, 1.0), (8.0, 5.0), (9.0, 5.0))
    assert len(undominated([("tipped", tipped), ("even", even)])) == 2
    headed = ((0.0, 5.0), (1.0, 5.0), (1.0, 1.0), (9.0, 1.0))
    assert [n for n, _ in undominated([("headed", headed), ("even", even)])] == ["headed"]
