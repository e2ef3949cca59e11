"""Sheets that grow and shrink, by a second route: the arithmetic is written out here, nothing is taken from src/.

The roof is invented: 4875 over the rafters, bars with a stem of 12 and a rebate of 24, sheets cut at 12 degC, 60 at the
hottest and -15 at the coldest, 65e-6 per K, 1 mm left a side and 3 at the head. Slope: 2950 level at 10 degrees, 50
beyond, back wall 2, drain gap 3, upstand 3.
"""

from __future__ import annotations

import math

import pytest

from pentice.mechanics.movement import (
    cold_bite_mm,
    cover_needed_mm,
    least_length_mm,
    least_width_mm,
    most_length_mm,
    most_width_mm,
    movement_mm,
)

ALPHA, RISE, FALL = 65e-6, 48.0, 27.0
RAW = 2950.0 / math.cos(math.radians(10.0)) + 50.0 - 2.0 - 3.0 - 3.0


@pytest.mark.parametrize(
    ("length", "alpha", "change", "moved"),
    [
        (4000.0, 65e-6, 50.0, 13.0),
        (4000.0, 70e-6, 50.0, 14.0),
        (3500.0, 65e-6, 40.0, 9.1),
        (3500.0, 65e-6, -40.0, -9.1),
        (3500.0, 65e-6 - 23e-6, 40.0, 5.88),
        (3025.0, ALPHA, RISE, 9.438),
        (3025.0, ALPHA, FALL, 5.309),
        (3042.509, 23e-6, RISE, 3.359),
    ],
)
def test_free_movement(length: float, alpha: float, change: float, moved: float) -> None:
    """alpha L dT, sheet, bar, and one against the other. Tolerance: the digits written."""
    assert movement_mm(length, alpha, change) == pytest.approx(moved, abs=5e-4)


@pytest.mark.parametrize(
    ("rafter", "bays", "between", "most", "gap", "bite"),
    [
        (47.0, 5, 953.6, 947, 3.3, 15.738),
        (47.0, 4, 1195.0, 1189, 3.0, 15.913),
        (47.0, 6, 792.667, 786, 3.333, 15.954),
        (70.0, 5, 949.0, 943, 3.0, 16.345),
    ],
)
def test_widths_and_bites_of_the_bays(
    rafter: float, bays: int, between: float, most: int, gap: float, bite: float
) -> None:
    """D = (4875 - r)/n - 12; W the less of (D - 2)/(1 + a 48) and D - 6; 24 - D + W (1 - a 27). Tolerance: digits."""
    clear = (4875.0 - rafter) / bays - 12.0
    assert clear == pytest.approx(between, abs=1e-3)
    width = most_width_mm(clear, 1.0, ALPHA, RISE)
    assert width == most
    assert (clear - width) / 2.0 == pytest.approx(gap, abs=1e-3)
    assert cold_bite_mm(clear, 24.0, width, ALPHA, FALL) == pytest.approx(bite, abs=1e-3)


@pytest.mark.parametrize(("between", "least"), [(953.6, 942), (949.0, 937)])
def test_least_width_for_a_bite_of_ten(between: float, least: int) -> None:
    """W >= (D - 24 + 10)/(1 - a 27): 941.25 and 936.64, rounded up. Exact: whole millimetres."""
    assert least_width_mm(between, 24.0, 10.0, ALPHA, FALL) == least


def test_heat_rules_a_wide_sheet() -> None:
    """D 2110, hotter by 48: (2110 - 2)/(1.00312) = 2101.4, less than 2104. Exact: whole millimetres."""
    assert most_width_mm(2110.0, 1.0, ALPHA, RISE) == 2101


def test_length_and_gap_at_the_head() -> None:
    """raw 3037.509; (raw - 3)/1.00312 = 3025.07; gap 12.509; lap 12.509 + 5.309 + 3 + 15. Tolerance: the digits."""
    assert pytest.approx(3037.509, abs=1e-3) == RAW
    length = most_length_mm(RAW, 3.0, ALPHA, RISE)
    assert length == 3025
    assert RAW - length == pytest.approx(12.509, abs=1e-3)
    assert cover_needed_mm(RAW - length, length, ALPHA, FALL) == pytest.approx(35.818, abs=1e-3)


@pytest.mark.parametrize(("projection", "arm"), [(2929.5, 40.0), (2939.4, 50.0), (2949.2, 60.0)])
def test_a_stock_sheet_of_three_metres_serves_uncut(projection: float, arm: float) -> None:
    """P = (arm - 18 - 42 + 3000 (1 - a 27)) cos 10. Tolerance: the digit written; 3000 serves up to there."""
    by_hand = (arm - 60.0 + 3000.0 * (1.0 - ALPHA * FALL)) * math.cos(math.radians(10.0))
    assert by_hand == pytest.approx(projection, abs=0.05)
    for shift, least in ((-0.01, 3000), (0.01, 3001)):
        raw = (by_hand + shift) / math.cos(math.radians(10.0)) + 42.0
        assert least_length_mm(raw, arm, ALPHA, FALL) == least


@pytest.mark.parametrize(("width", "rise"), [(980.0, 78.5), (1250.0, 61.5), (1600.0, 48.1), (2100.0, 36.6)])
def test_how_far_three_millimetres_a_side_reach(width: float, rise: float) -> None:
    """5 mm of room over a W, with 1 mm left: the rise that uses it up. Tolerance: the digits."""
    assert movement_mm(width, ALPHA, rise) == pytest.approx(5.0, abs=0.006)
