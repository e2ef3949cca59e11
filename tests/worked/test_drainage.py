"""Rainwater by a second route: the arithmetic is written out here, nothing is taken from src/.

Formulas of EN 12056-3:2000, some of them from memory; the roof of 4.875 m by 2.95 m at 10 degrees is invented.
"""

from __future__ import annotations

import math

import pytest

from pentice.standards.en12056 import (
    bend_factor,
    box_flow_l_s,
    downpipe_flow_l_s,
    effective_area_m2,
    half_round_area_mm2,
    half_round_flow_l_s,
    long_gutter_factor,
    outlet_flow_l_s,
    runoff_l_s,
)
from pentice.standards.en12056_gutters import (
    WallAbove,
    gutter_runs,
    gutter_section,
    outlet_head_mm,
    rectangular_pipe_diameter_mm,
    wall_share_m2,
)


def test_area_of_a_roof_with_and_without_a_wall() -> None:
    """5 (3.5 + 0.937822/2) = 19.8446; with half of 5 x 2.5 m of wall 26.0945. Tolerance: the digits written."""
    assert effective_area_m2(length_m=5.0, depth_m=3.5, rise_m=0.937822) == pytest.approx(19.8446, abs=1e-4)
    wall = effective_area_m2(length_m=5.0, depth_m=3.5, rise_m=0.9378, wall_above_m=2.5)
    assert wall == pytest.approx(26.0945, abs=1e-4)


def test_flow_from_a_roof() -> None:
    """0.021 x 19.8445 = 0.4167. Tolerance: the digits written."""
    assert runoff_l_s(19.8445, 0.021) == pytest.approx(0.416735, abs=1e-6)
    assert runoff_l_s(10.0, 0.02, 1.5) == pytest.approx(0.3)


@pytest.mark.parametrize(("wall", "flow"), [(0.0, 0.329), (2.4, 0.451)])
def test_flow_from_a_small_lean_to(wall: float, flow: float) -> None:
    """4.875 (2.95 + 2.95 tan 10/2) x 0.021, plus 4.875 x 2.4/2 x 0.021. Tolerance: half the last digit."""
    rise = 2.95 * math.tan(math.radians(10.0))
    area = effective_area_m2(length_m=4.875, depth_m=2.95, rise_m=rise, wall_above_m=wall)
    assert runoff_l_s(area, 0.021) == pytest.approx(flow, abs=5e-4)


@pytest.mark.parametrize(("size", "area", "full"), [(75.0, 2208.93, 0.420991), (150.0, 8835.73, 2.38148)])
def test_half_round_gutters(size: float, area: float, full: float) -> None:
    """pi b2/8, and 0.9 of 2.78e-5 A^1.25. Tolerance: the digits written."""
    ours = half_round_area_mm2(size)
    assert ours == pytest.approx(area, abs=0.01)
    assert half_round_flow_l_s(ours) == pytest.approx(0.9 * full, rel=1e-5)


def test_a_box_gutter() -> None:
    """0.9 x 3.48e-5 x exp(1.25 ln 7500) x 0.95 x 0.9. Tolerance: floating point."""
    by_hand = 0.9 * 3.48e-5 * math.exp(1.25 * math.log(7500.0)) * 0.95 * 0.9
    assert box_flow_l_s(7500.0, depth_factor=0.95, shape_factor=0.9) == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.parametrize(("ratio", "factor"), [(20.0, 1.0), (75.0, 0.965), (125.0, 0.895), (175.0, 0.83)])
def test_long_gutters_between_the_rows(ratio: float, factor: float) -> None:
    """Halfway between 1.0, 0.93, 0.86 and 0.80. Tolerance: floating point."""
    assert long_gutter_factor(ratio * 60.0, 60.0) == pytest.approx(factor, rel=1e-9)


def test_bends() -> None:
    """Up to 10 degrees nothing is lost, beyond it 15 %. Exact."""
    assert (bend_factor(10.0), bend_factor(-45.0)) == (1.0, 0.85)


def test_outlets_as_weir_and_orifice() -> None:
    """68 x 30^1.5/7500 = 1.4898; 68 x 68 x sqrt(50)/15000 = 2.1798; half with a leaf guard. Tolerance: digits."""
    assert outlet_flow_l_s(68.0, 30.0) == pytest.approx(1.4898, abs=1e-4)
    assert outlet_flow_l_s(68.0, 50.0) == pytest.approx(2.1798, abs=1e-4)
    assert outlet_flow_l_s(68.0, 30.0, strainer=True) == pytest.approx(0.7449, abs=1e-4)


@pytest.mark.parametrize(("size", "flow"), [(63.0, 3.12383), (68.0, 3.82955), (80.0, 5.90728)])
def test_downpipes_between_the_rows(size: float, flow: float) -> None:
    """2.5e-4 d^(8/3) 0.33^(5/3) / 0.25^(1/6). Tolerance 0.5 %: the standard prints the exponents to three digits."""
    assert downpipe_flow_l_s(size) == pytest.approx(flow, rel=0.005)


@pytest.mark.parametrize(
    ("outline", "area", "depth", "width"),
    [
        ([(0, 75), (0, 0), (110, 0), (110, 90)], 8250.0, 75.0, 110.0),
        ([(0, 60), (20, 0), (80, 0), (100, 60)], 60.0 * (100.0 + 60.0) / 2.0, 60.0, 100.0),
        (
            [(0, 60), (20, 0), (80, 0), (100, 90)],
            60.0 * 60.0 + 600.0 + 60.0 * (20.0 * 60.0 / 90.0) / 2.0,
            60.0,
            280.0 / 3.0,
        ),
    ],
)
def test_section_of_a_gutter(
    outline: list[tuple[float, float]], area: float, depth: float, width: float
) -> None:
    """Box, trapezoid, and a trapezoid with a higher back, filled to the front lip. Tolerance: rounding."""
    ours = gutter_section(outline)
    assert (ours.area_mm2, ours.depth_mm, ours.width_mm) == pytest.approx((area, depth, width))


def test_a_half_round_by_its_corners() -> None:
    """pi r2 / 2 from 91 corners. Tolerance 0.03 %: the corners cut the circle."""
    steps = [math.pi * (1.0 + i / 90.0) for i in range(91)]
    ours = gutter_section([(56.0 * math.cos(a), 56.0 * math.sin(a)) for a in steps])
    assert (ours.area_mm2, ours.depth_mm, ours.width_mm) == pytest.approx(
        (math.pi * 56.0**2 / 2.0, 56.0, 112.0), rel=3e-4
    )


def test_how_outlets_share_a_gutter() -> None:
    """Outlets at 1 and 4 m of 6 m part the water at 2.5 m: runs 1.0, 1.5, 1.5, 2.0 m. An end outlet has one. Exact."""
    runs = gutter_runs(6000.0, [4000.0, 1000.0])
    assert [(r.outlet, r.length_mm) for r in runs] == [(1, 1000.0), (1, 1500.0), (2, 1500.0), (2, 2000.0)]
    assert [r.share for r in runs] == pytest.approx([1 / 6, 1 / 4, 1 / 4, 1 / 3])
    assert [r.length_mm for r in gutter_runs(6000.0, [0.0])] == [6000.0]


@pytest.mark.parametrize("strainer", [False, True])
@pytest.mark.parametrize("head", [10.0, 30.0, 50.0])
def test_head_over_an_outlet(head: float, strainer: bool) -> None:
    """The flow at that head by D h^1.5 / 7500 or D2 h^0.5 / 15000, turned about. Tolerance: rounding."""
    flow = 68.0 * head**1.5 / 7500.0 if head <= 34.0 else 68.0**2 * head**0.5 / 15000.0
    assert outlet_head_mm(flow / (2.0 if strainer else 1.0), 68.0, strainer=strainer) == pytest.approx(head)


def test_two_walls_and_a_tall_one() -> None:
    """Half of the greater of 20 and 6 m2; 12 m count as 10. A box pipe of 60 x 80 is 68.6. Tolerance: rounding."""
    two = [WallAbove(length_m=5.0, height_m=4.0), WallAbove(length_m=3.0, height_m=2.0, facing="left")]
    assert wall_share_m2(two) == pytest.approx(10.0)
    assert wall_share_m2([WallAbove(length_m=2.0, height_m=12.0)]) == pytest.approx(10.0)
    assert rectangular_pipe_diameter_mm(60.0, 80.0) == pytest.approx(9600.0 / 140.0)
