"""EN 12056-3:2000 and Approved Document H3 (England): roof drainage.

Second hand or from memory: the 100 mm gutter and the 37 m2 are quoted in a book chapter on Approved Document H3; the
other four sizes of its Table 2, the long-gutter factors and Table 8 of EN 12056-3 are recalled. Factors of Table 1 of
H3 are quoted in a handbook. The share of the wall also stands in the New Zealand metal roof code of practice.
"""

from __future__ import annotations

import math

import pytest

from pentice.standards.en12056 import (
    bend_factor,
    downpipe_flow_l_s,
    effective_area_m2,
    half_round_area_mm2,
    half_round_flow_l_s,
    long_gutter_factor,
    runoff_l_s,
)
from pentice.standards.en12056_gutters import WallAbove, outlet_head_mm, wall_share_m2

TABLE_2 = [(75, 0.38, 18), (100, 0.78, 37), (115, 1.11, 53), (125, 1.37, 65), (150, 2.16, 103)]


@pytest.mark.parametrize(("size", "flow", "area"), TABLE_2)
def test_half_round_gutters_carry_the_flow_of_table_2(size: int, flow: float, area: int) -> None:
    """H3, Table 2. Tolerance 1.3 %: the printed flows are rounded to 0.01 and the areas to 1 m2."""
    ours = half_round_flow_l_s(half_round_area_mm2(float(size)))
    assert ours == pytest.approx(flow, rel=0.013)


@pytest.mark.parametrize(("size", "flow", "area"), TABLE_2)
def test_the_area_that_a_gutter_drains_makes_its_flow(size: int, flow: float, area: int) -> None:
    """H3, Table 2 at 75 mm/h. Tolerance: a whole square metre (0.0208), and half of 0.01 l/s."""
    assert runoff_l_s(float(area), 75.0 / 3600.0) == pytest.approx(flow, abs=0.0208 + 0.005)


@pytest.mark.parametrize(("pitch", "factor"), [(30, 1.29), (45, 1.5), (60, 1.87)])
def test_effective_area_of_a_slope_is_table_1(pitch: int, factor: float) -> None:
    """H3, Table 1. Tolerance: half the last printed digit, and the table cuts 1.866 and 1.289."""
    rise = math.tan(math.radians(pitch))
    assert effective_area_m2(length_m=1.0, depth_m=1.0, rise_m=rise) == pytest.approx(factor, abs=0.005)


def test_half_the_wall_above_counts() -> None:
    """New Zealand code of practice: 20 m2 of wall, 4 m high, add 10 m2. Exact."""
    assert effective_area_m2(length_m=5.0, depth_m=0.0, rise_m=0.0, wall_above_m=4.0) == pytest.approx(10.0)


@pytest.mark.parametrize(("ratio", "factor"), [(50, 1.0), (100, 0.93), (150, 0.86), (200, 0.80)])
def test_long_gutters_are_table_6(ratio: int, factor: float) -> None:
    """EN 12056-3, Table 6, level (from memory). Exact: printed."""
    assert long_gutter_factor(ratio * 50.0, 50.0) == pytest.approx(factor, abs=1e-9)


def test_a_bend_takes_fifteen_percent() -> None:
    """EN 12056-3, 5.1.7 (from memory). Exact: printed."""
    assert bend_factor(90.0) == 0.85


@pytest.mark.parametrize(("size", "flow"), [(50, 1.7), (75, 5.0), (100, 10.7), (150, 31.6)])
def test_downpipes_are_table_8(size: int, flow: float) -> None:
    """EN 12056-3, Table 8, filling 0.33 (from memory). Tolerance: half the last printed digit."""
    assert downpipe_flow_l_s(float(size)) == pytest.approx(flow, abs=0.05)


def test_a_hundred_square_metres_need_a_150_mm_gutter() -> None:
    """Building handbook on H3: 100 m2 effective, end outlet, level: 150 mm half round, and 125 mm is too small."""
    asked = runoff_l_s(100.0, 75.0 / 3600.0)
    flow = {size: half_round_flow_l_s(half_round_area_mm2(size)) for size in (125.0, 150.0)}
    assert flow[125.0] < asked < flow[150.0]


def test_half_the_wall_above_counts_by_its_own_rule_too() -> None:
    """New Zealand code of practice: 20 m2 of wall, 4 m high, add 10 m2; up to 10 m high. Exact."""
    assert wall_share_m2([WallAbove(length_m=5.0, height_m=4.0)]) == pytest.approx(10.0)


@pytest.mark.parametrize(("gutter", "flow", "outlet"), [(100.0, 0.78, 63.0), (150.0, 2.16, 90.0)])
def test_the_outlets_of_table_2_take_the_flow_of_their_gutters(
    gutter: float, flow: float, outlet: float
) -> None:
    """H3, Table 2: 63 and 90 mm sharp outlets. A bound: the head that they need is less than the gutter holds."""
    head = outlet_head_mm(flow, outlet)
    assert 0.3 * gutter / 2.0 < head < 0.5 * gutter / 2.0
