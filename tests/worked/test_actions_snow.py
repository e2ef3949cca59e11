"""Snow, worked by a second route.

Expected values are plain arithmetic here, often by another way than the clause is written (a drift as the weight of
a triangle, a return period by the Gumbel distribution); pentice is imported only for the result under test.
Tolerance: rounding of binary fractions, unless the test says otherwise.
"""

from __future__ import annotations

import math

import pytest

from pentice.standards.annex import load_annex, snow_duration
from pentice.standards.en1991_1_3 import (
    drift_length_m,
    guard_load_kn_m,
    mu_1,
    obstruction_coefficient,
    overhang_load_kn_m,
    return_period_factor,
    roof_snow_kn_m2,
)
from pentice.standards.en1991_1_3_annex_b import (
    drift_at_obstruction,
    drift_at_taller_wall,
    drift_behind_parapet,
)
from pentice.standards.en1991_1_3_drift import (
    Drift,
    UpperRoof,
    drift_at_wall,
    drifts_between,
    sliding_coefficient,
    wind_drift_coefficient,
    worst_drift,
    worst_mu_at,
    worst_step_m,
)
from pentice.standards.en1991_1_3_ground import ground_snow_kn_m2

HOUSE = UpperRoof(width_m=8.0, pitch_deg=35.0, slope_plan_m=4.0)
SHALLOW = UpperRoof(width_m=8.0, pitch_deg=10.0, slope_plan_m=4.0)


@pytest.mark.parametrize(
    ("pitch_deg", "expected"),
    [
        (0.0, 0.8),
        (15.0, 0.8),
        (30.0, 0.8),
        (30.3, 0.792),
        (40.0, 8 / 15),
        (45.0, 0.4),
        (60.0, 0.0),
        (75.0, 0.0),
    ],
)
def test_shape_coefficient_falls_by_0_8_in_30_deg(pitch_deg: float, expected: float) -> None:
    """0.8 less 0.8/30 for each degree above 30."""
    assert mu_1(pitch_deg) == pytest.approx(expected, abs=1e-12)


def test_guard_keeps_the_snow_on_a_steep_roof() -> None:
    """5.3.2(2): not below 0.8."""
    assert mu_1(45.0, obstructed=True) == 0.8


def test_windswept_steep_roof() -> None:
    """35 deg: 0.8 x 25/30 = 2/3; 2/3 x 0.8 x 1.5 = 0.8 kN/m2."""
    found = roof_snow_kn_m2(mu=mu_1(35.0), ground_kn_m2=1.5, c_e=0.8)
    assert found == pytest.approx(2 / 3 * 0.8 * 1.5, rel=1e-12)


def test_warm_roof_takes_its_thermal_coefficient() -> None:
    """0.8 x 1.0 x 0.9 x 1.0 = 0.72 kN/m2."""
    assert roof_snow_kn_m2(mu=0.8, ground_kn_m2=1.0, c_t=0.9) == pytest.approx(0.72, rel=1e-12)


@pytest.mark.parametrize(("zone", "altitude_m"), [(1, 0.0), (2, 200.0), (3, 400.0), (4, 1000.0)])
def test_alpine_snow_by_its_formula(zone: int, altitude_m: float) -> None:
    """Table C.1: (0.642 Z + 0.009)(1 + (A/728)^2); the file holds the first factor by zone."""
    expected = (0.642 * zone + 0.009) * (1.0 + altitude_m * altitude_m / 529984.0)
    assert ground_snow_kn_m2("Alpine", zone, altitude_m) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("region", "zone", "altitude_m"),
    [("SI", "A1", 728.0), ("SI", "A4", 728.0), ("SI coast", "M1", 452.0), ("GR", 1, 917.0), ("GR", 3, 917.0)],
)
def test_snow_by_a_square_doubles_at_its_own_height(region: str, zone: str | int, altitude_m: float) -> None:
    """c (1 + (A/728)^2) in Slovenia, 452 on its coast, 917 in Greece: 2 c at that height, 1.25 c halfway."""
    least = ground_snow_kn_m2(region, zone, 0.0)
    assert ground_snow_kn_m2(region, zone, altitude_m) == pytest.approx(2.0 * least, rel=1e-12)
    assert ground_snow_kn_m2(region, zone, altitude_m / 2.0) == pytest.approx(1.25 * least, rel=1e-12)


@pytest.mark.parametrize(
    ("zone", "altitude_m", "expected"),
    [
        (1, 100.0, 0.3),
        (3, 100.0, 0.5),
        (4, 90.0, 0.6 - 10 / 525),
        (3, 200.0, 0.5 + 100 / 525),
        (2, 50.0, 0.4 - 50 / 525),
    ],
)
def test_uk_snow_from_the_zone_value_at_100_m(zone: int, altitude_m: float, expected: float) -> None:
    """0.30, 0.40, 0.50, 0.60 at 100 m in zones 1, 2, 3, 4, and 1/525 for each metre up or down."""
    assert ground_snow_kn_m2("UK", zone, altitude_m) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("zone", "altitude_m", "expected"),
    [
        ("1", 300.0, 0.65),
        ("2", 300.0, 0.25 + 1.91 * (440 / 760) ** 2),
        ("2", 600.0, 0.25 + 1.91 * (740 / 760) ** 2),
        ("3", 600.0, 0.31 + 2.91 * (740 / 760) ** 2),
        ("1", 620.0, 0.19 + 0.91),
        ("2", 620.0, 0.25 + 1.91),
        ("3", 620.0, 0.31 + 2.91),
        ("1a", 1000.0, 1.25 * (0.19 + 0.91 * (1140 / 760) ** 2)),
        ("2a", 600.0, 1.25 * (0.25 + 1.91 * (740 / 760) ** 2)),
    ],
)
def test_german_snow_by_its_formula(zone: str, altitude_m: float, expected: float) -> None:
    """The greater of the least value and the parabola, which is a + b at 620 m."""
    assert ground_snow_kn_m2("DE", zone, altitude_m) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("altitude_m", "rise", "rise_e"),
    [
        (0.0, 0.0, 0.0),
        (100.0, 0.0, 0.0),
        (400.0, 0.4 - 0.2, 0.6 - 0.3),
        (600.0, 0.9 - 0.45, 2.1 - 1.3),
        (1000.0, 1.05, 2.2),
        (1500.0, 2.8, 5.7),
    ],
)
def test_french_snow_rises_with_height(altitude_m: float, rise: float, rise_e: float) -> None:
    """Nothing up to 200 m; A/1000 - 0.2, 1.5A/1000 - 0.45, 3.5A/1000 - 2.45 by turns.

    In E 1.5A/1000 - 0.3, 3.5A/1000 - 1.3, 7A/1000 - 4.8.
    """
    assert ground_snow_kn_m2("FR", "C1", altitude_m) - 0.65 == pytest.approx(rise, rel=1e-9)
    assert ground_snow_kn_m2("FR", "E", altitude_m) - 1.40 == pytest.approx(rise_e, rel=1e-9)


@pytest.mark.parametrize(
    ("altitude_m", "correction", "expected"),
    [
        (700.0, "0", 0.4 * 5.0),
        (500.0, "+200", 0.4 * 5.0),
        (300.0, "+400", 0.4 * 5.0),
        (200.0, "+500", 0.4 * 5.0),
        (900.0, "-200", 0.4 * 5.0),
        (300.0, "-200", 0.9),
    ],
)
def test_swiss_snow_by_the_reference_height(altitude_m: float, correction: str, expected: float) -> None:
    """0.4 (1 + (700/350)^2) = 2.0, the map's correction on the height; 0.9 at least. Rounding of binary fractions."""
    assert ground_snow_kn_m2("CH", correction, altitude_m) == pytest.approx(expected, rel=1e-12)


def test_hungarian_snow_rises_above_400_m() -> None:
    """1.25 + (500 - 400)/400 = 1.5."""
    assert ground_snow_kn_m2("HU", 1, 500.0) == pytest.approx(1.25 + 0.25, rel=1e-12)
    assert ground_snow_kn_m2("HU", 1, 300.0) == 1.25


@pytest.mark.parametrize("years", [5.0, 10.0, 25.0, 50.0, 100.0])
def test_return_period_by_the_gumbel_distribution(years: float) -> None:
    """Mean 1, deviation 0.6: u - a ln(-ln(1 - 1/n)) over the same for 50 years. The clause rounds: 0.01 %."""

    def fractile(n: float) -> float:
        a = 0.6 * math.sqrt(6.0) / math.pi
        mode = 1.0 - 0.5772156649 * a
        return mode - a * math.log(-math.log(1.0 - 1.0 / n))

    assert return_period_factor(years) == pytest.approx(fractile(years) / fractile(50.0), rel=1e-4)


def test_drift_on_a_lean_to_as_a_triangle_of_slid_snow() -> None:
    """House 8 m, 35 deg, 4 m drains to us; ours 3.5 m, 2.5 m below, s_k 0.6.

    The wind gives 11.5 / 5 = 2.3. Half of the snow on 4 m of slope (0.8 x 25/30 each) lies as a triangle of 5 m.
    """
    slid = 0.5 * (0.8 * 25.0 / 30.0) * 4.0
    mu_s = 2.0 * slid / 5.0
    drift = drift_at_wall(HOUSE, lower_m=3.5, step_m=2.5, ground_kn_m2=0.6)
    assert drift.mu_w == pytest.approx(11.5 / 5.0, rel=1e-12)
    assert drift.mu_s == pytest.approx(mu_s, rel=1e-12)
    assert drift.mu_2 == pytest.approx(2.3 + mu_s, rel=1e-12)
    assert drift.length_m == 5.0
    at_foot = 0.8 + (2.3 + mu_s - 0.8) * (5.0 - 3.5) / 5.0
    assert drift.mu_at(3.5) == pytest.approx(at_foot, rel=1e-12)
    assert 0.6 * drift.mu_at(0.0) == pytest.approx(1.7, rel=1e-9)
    assert 0.6 * (drift.mu_at(0.0) + drift.mu_at(3.5)) / 2.0 == pytest.approx(1.273, rel=1e-9)


def test_drift_with_0_8_on_the_upper_slope() -> None:
    """The other wording: 0.8 x 4 / 5 = 0.64; 2.94 at the wall, 1.442 at the foot."""
    drift = drift_at_wall(HOUSE, lower_m=3.5, step_m=2.5, ground_kn_m2=0.6, wording="0.8")
    assert sliding_coefficient(HOUSE, length_m=5.0, wording="0.8") == pytest.approx(0.64, rel=1e-12)
    assert drift.mu_2 == pytest.approx(2.94, rel=1e-12)
    assert drift.mu_at(3.5) == pytest.approx(1.442, rel=1e-12)


def test_low_step_holds_only_what_fits() -> None:
    """0.4 m of drifted snow at 2 kN/m3 weighs 0.8 kN/m2: mu 0.8/0.6; at 3 m of 5 m it is 1.01333."""
    drift = drift_at_wall(SHALLOW, lower_m=3.0, step_m=0.4, ground_kn_m2=0.6)
    assert drift.mu_2 == pytest.approx(0.8 / 0.6, rel=1e-12)
    assert drift.mu_at(3.0) == pytest.approx(0.8 + (0.8 / 0.6 - 0.8) * 2.0 / 5.0, rel=1e-12)


def test_lowest_step_leaves_the_even_snow() -> None:
    """0.2 m would hold 0.667, less than lies there anyway: 0.8."""
    assert wind_drift_coefficient(upper_m=8.0, lower_m=3.0, step_m=0.2, ground_kn_m2=0.6) == 0.8


@pytest.mark.parametrize(("step_m", "expected"), [(1.0, 5.0), (3.0, 6.0), (20.0, 15.0)])
def test_drift_reaches_twice_the_step(step_m: float, expected: float) -> None:
    """5 m at least, 15 m at most."""
    assert drift_length_m(step_m) == expected


def test_worst_step_is_where_both_limits_meet() -> None:
    """Found by trying steps of 0.1 mm between 1 and 2 m; tolerance: that step."""

    def piled(h: float) -> float:
        return min(11.5 / (2.0 * h), 2.0 * h / 0.6)

    tried = [1.0 + i / 10000.0 for i in range(10001)]
    best = max(tried, key=piled)
    assert worst_step_m(upper_m=8.0, lower_m=3.5, ground_kn_m2=0.6) == pytest.approx(best, abs=1e-4)


def test_gable_is_worst_inside_its_height() -> None:
    """Steps 0.5 to 4 m, s_k 2.0: the peak lies at sqrt(11.5 x 2 / 4) = 2.398 m and is that number, 2h/s_k = h."""
    peak = math.sqrt(11.5 * 2.0 / 4.0)
    drifts = drifts_between(SHALLOW, lower_m=3.5, lowest_step_m=0.5, highest_step_m=4.0, ground_kn_m2=2.0)
    worst = worst_drift(drifts)
    assert worst.step_m == pytest.approx(peak, rel=1e-12)
    assert worst.mu_2 == pytest.approx(peak, rel=1e-12)
    assert worst_mu_at(drifts, 0.0) == pytest.approx(peak, rel=1e-12)


def test_gable_with_little_snow_reaches_the_cap() -> None:
    """Steps 0.5 to 4 m, s_k 0.6: 4 from 4 x 0.6 / 2 = 1.2 m on; the lowest such step is named."""
    drifts = drifts_between(SHALLOW, lower_m=3.5, lowest_step_m=0.5, highest_step_m=4.0, ground_kn_m2=0.6)
    worst = worst_drift(drifts)
    assert (worst.mu_2, worst.step_m) == pytest.approx((4.0, 1.2), rel=1e-12)


def test_worst_of_two_drifts_at_a_distance() -> None:
    """2.0 falling over 5 m and 1.5 falling over 8 m: at 4 m 1.04 and 1.15."""
    low = Drift(step_m=1.0, mu_w=1.5, mu_s=0.5, length_m=5.0)
    high = Drift(step_m=4.0, mu_w=1.5, mu_s=0.0, length_m=8.0)
    assert worst_mu_at((low, high), 4.0) == pytest.approx(1.5 - 0.7 * 4.0 / 8.0, rel=1e-12)
    assert low.mu_at(4.0) == pytest.approx(2.0 - 1.2 * 4.0 / 5.0, rel=1e-12)
    assert worst_drift((low, high)).mu_2 == 2.0


def test_exceptional_drift_on_a_lean_to() -> None:
    """3.5 m on a house of 8 m, 2.5 m below, s_k 0.6: 3.5 m long, 2 x 8/3.5 = 32/7, nothing at the foot."""
    found = drift_at_taller_wall(upper_m=8.0, lower_m=3.5, step_m=2.5, ground_kn_m2=0.6)
    assert found.length_m == 3.5
    assert found.mu == pytest.approx(32 / 7, rel=1e-12)
    assert found.peak_kn_m2 == pytest.approx(0.6 * 32 / 7, rel=1e-12)
    assert found.at_kn_m2(3.5) == 0.0
    assert found.at_kn_m2(1.75) == pytest.approx(0.3 * 32 / 7, rel=1e-12)


@pytest.mark.parametrize(("zone", "altitude_m", "ground"), [(3, 100.0, 0.5), (4, 200.0, 0.6 + 100 / 525)])
def test_exceptional_drift_at_a_uk_site(zone: int, altitude_m: float, ground: float) -> None:
    """4 m on a house of 7 m, 3 m below: 2 x 7/4 = 3.5 over 4 m."""
    s_k = ground_snow_kn_m2("UK", zone, altitude_m)
    found = drift_at_taller_wall(upper_m=7.0, lower_m=4.0, step_m=3.0, ground_kn_m2=s_k)
    assert (found.length_m, found.mu) == (4.0, 3.5)
    assert found.peak_kn_m2 == pytest.approx(3.5 * ground, rel=1e-12)


def test_obstruction_holds_no_more_than_fits() -> None:
    """0.6 m at 2 kN/m3 over s_k 0.9: 4/3; a low one leaves 0.8, a high one 2.0."""
    assert obstruction_coefficient(step_m=0.6, ground_kn_m2=0.9) == pytest.approx(4 / 3, rel=1e-12)
    assert obstruction_coefficient(step_m=0.2, ground_kn_m2=0.9) == 0.8
    assert obstruction_coefficient(step_m=2.0, ground_kn_m2=0.9) == 2.0


def test_snow_over_the_edge_of_a_roof() -> None:
    """s 1.2: 0.4 m deep, k = min(3/0.4; 0.4 x 3) = 1.2, 1.2 x 1.44 / 3 = 0.576 kN/m."""
    assert overhang_load_kn_m(1.2) == pytest.approx(1.2 * 1.44 / 3.0, rel=1e-12)


def test_deep_snow_over_the_edge_of_a_roof() -> None:
    """s 6: 2 m deep, k = min(1.5; 6) = 1.5, 1.5 x 36 / 3 = 18 kN/m."""
    assert overhang_load_kn_m(6.0) == pytest.approx(18.0, rel=1e-12)


def test_push_on_a_snow_guard() -> None:
    """3.5 m of plan at 15 deg under 0.48: the part of its weight along the slope. sin 15 = (sqrt 6 - sqrt 2)/4."""
    expected = 0.48 * 3.5 * (math.sqrt(6.0) - math.sqrt(2.0)) / 4.0
    assert guard_load_kn_m(snow_kn_m2=0.48, plan_m=3.5, pitch_deg=15.0) == pytest.approx(expected, rel=1e-12)


def test_snow_lies_longer_above_1000_m() -> None:
    """Short up to 1000 m, medium above (a national choice, from memory)."""
    annex = load_annex("EN")
    assert (snow_duration(annex, 1000.0), snow_duration(annex, 1000.1)) == ("short", "medium")


def test_nothing_slides_up_to_15_deg() -> None:
    """15 deg: nothing. 15.3 deg: half of 0.8 on 4 m as a triangle of 5 m, 0.64."""
    at, above = (UpperRoof(width_m=8.0, pitch_deg=pitch, slope_plan_m=4.0) for pitch in (15.0, 15.3))
    assert sliding_coefficient(at, length_m=5.0) == 0.0
    assert sliding_coefficient(above, length_m=5.0) == pytest.approx(0.64, rel=1e-12)


def test_gable_is_tried_at_every_corner_of_the_rule() -> None:
    """b 11.5 m, s_k 0.6. Piled 4 and 0.8: 1.4375 and 7.1875 m; held 4 and 0.8: 1.2 and 0.24 m; length 2.5, 7.5 m."""
    drifts = drifts_between(SHALLOW, lower_m=3.5, lowest_step_m=0.2, highest_step_m=9.0, ground_kn_m2=0.6)
    tried = [drift.step_m for drift in drifts]
    assert tried == sorted(tried)
    assert (tried[0], tried[-1]) == (0.2, 9.0)
    for corner in (1.4375, 7.1875, 1.2, 0.24, 2.5, 7.5):
        assert min(abs(h - corner) for h in tried) < 1e-12


def test_exceptional_drifts_are_capped() -> None:
    """Deep steps: 15, 15 and 5 m long at most; little snow on a long house: 8, 8 and 5 at most."""
    long_wall = drift_at_taller_wall(upper_m=50.0, lower_m=40.0, step_m=4.0, ground_kn_m2=0.6)
    long_parapet = drift_behind_parapet(along_m=40.0, beyond_m=50.0, step_m=4.0, ground_kn_m2=0.6)
    long_block = drift_at_obstruction(along_m=40.0, beyond_m=50.0, step_m=4.0, ground_kn_m2=0.6)
    assert (long_wall.length_m, long_parapet.length_m, long_block.length_m) == (15.0, 15.0, 5.0)
    wall = drift_at_taller_wall(upper_m=50.0, lower_m=3.0, step_m=4.0, ground_kn_m2=0.6)
    parapet = drift_behind_parapet(along_m=3.0, beyond_m=50.0, step_m=4.0, ground_kn_m2=0.6)
    block = drift_at_obstruction(along_m=3.0, beyond_m=50.0, step_m=4.0, ground_kn_m2=0.6)
    assert (wall.mu, parapet.mu, block.mu) == (8.0, 8.0, 5.0)
