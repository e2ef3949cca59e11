"""Sections, slender bars, bracing and wall fixings by a second route that takes nothing from src/.

Sections: strips of the shape summed in a fine grid or as rectangles by the parallel-axis rule. Slender bars: finite
differences. Bracing and fixings: joints cut free and balanced.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from pentice.mechanics.beam import Beam, overhang_beam
from pentice.mechanics.bracing import braced_bay, cantilever_foot_moment_n_mm, knee_braced_post
from pentice.mechanics.continuous import merged_places, nearest_node
from pentice.mechanics.lateral import SlenderBar, critical_moment_n_mm, tee_monosymmetry_mm
from pentice.mechanics.lines import even_line
from pentice.mechanics.profiles import (
    angle_outline,
    channel_outline,
    open_torsion_mm4,
    profile,
    rectangle_outline,
    round_tube_outline,
    tee_outline,
    tube_torsion_mm4,
)
from pentice.mechanics.wall_fixings import (
    LedgerLoad,
    fixing_utilisation,
    ledger_pull,
)

Plate = tuple[float, float, float, float]  # left, bottom, width, height


def _by_parts(plates: list[Plate]) -> tuple[float, float, float, float, float, float]:
    """Area, centroid, I_y, I_z, I_yz of rectangles by the parallel-axis rule; a negative width is a hole."""
    area = sum(b * h for _, _, b, h in plates)
    y = sum(b * h * (left + b / 2) for left, _, b, h in plates) / area
    z = sum(b * h * (low + h / 2) for _, low, b, h in plates) / area
    i_y = sum(b * h**3 / 12 + b * h * (low + h / 2 - z) ** 2 for _, low, b, h in plates)
    i_z = sum(h * b**3 / 12 + b * h * (left + b / 2 - y) ** 2 for left, _, b, h in plates)
    i_yz = sum(b * h * (left + b / 2 - y) * (low + h / 2 - z) for left, low, b, h in plates)
    return area, y, z, i_y, i_z, i_yz


@pytest.mark.parametrize(
    ("outline", "plates"),
    [
        (rectangle_outline(47.0, 147.0), [(0, 0, 47, 147)]),
        (angle_outline(60.0, 90.0, 6.0), [(0, 0, 60, 6), (0, 6, 6, 84)]),
        (tee_outline(60.0, 60.0, 2.0, 2.0), [(0, 0, 60, 2), (29, 2, 2, 58)]),
        (channel_outline(50.0, 100.0, 6.0, 5.0), [(0, 0, 50, 6), (0, 6, 5, 88), (0, 94, 50, 6)]),
    ],
)
def test_a_section_is_the_sum_of_its_plates(
    outline: tuple[tuple[float, float], ...], plates: list[Plate]
) -> None:
    """Parallel-axis rule over rectangles. Tolerance: rounding."""
    ours = profile(outline)
    found = (ours.area_mm2, ours.centroid_y_mm, ours.centroid_z_mm, ours.i_y_mm4, ours.i_z_mm4, ours.i_yz_mm4)
    assert found == pytest.approx(_by_parts(plates), rel=1e-9, abs=1e-6)


def test_a_channel_and_an_angle_by_their_areas() -> None:
    """50 x 100 with 6 and 5: 2 x 300 + 88 x 5; 60 x 90 x 6: 360 + 504. Exact."""
    assert profile(channel_outline(50.0, 100.0, 6.0, 5.0)).area_mm2 == pytest.approx(1040.0)
    assert profile(angle_outline(60.0, 90.0, 6.0)).area_mm2 == pytest.approx(864.0)


def test_the_tee_of_a_glazing_bar() -> None:
    """60 x 60 x 2: A 236, 44.254 from the tip, I 85 643.4, W 1935.26. Tolerance: the digits written."""
    tee = profile(tee_outline(60.0, 60.0, 2.0, 2.0))
    assert (tee.area_mm2, 60.0 - tee.centroid_z_mm) == pytest.approx((236.0, 44.254), abs=5e-4)
    assert (tee.i_y_mm4, tee.w_y_mm3) == pytest.approx((85643.4, 1935.26), rel=1e-5)


def test_a_glazing_bar_of_that_tee_bends_and_sags() -> None:
    """1.2 m under 0.42 kN/m: q L2/8 = 0.0756 kNm, 5 q L4/384 E I = 1.89156 mm with E 70 000. Digits written."""
    stiffness = 70e3 * profile(tee_outline(60.0, 60.0, 2.0, 2.0)).i_y_mm4
    bent = overhang_beam(Beam(span_mm=1200.0, ei_n_mm2=stiffness), even_line(1200.0, 0.42))
    assert bent.sagging_n_mm / 1e6 == pytest.approx(0.0756, abs=1e-9)
    assert bent.span_sag_mm == pytest.approx(1.89156, abs=5e-5)


def test_tubes_square_and_round() -> None:
    """(B4 - b4)/12; pi (D4 - d4)/64; Wpl (B3 - b3)/4 and (D3 - d3)/6; Bredt. Tolerance: the round one by 180 sides."""
    square = profile(rectangle_outline(60.0, 60.0), [rectangle_outline(60.0, 60.0, 3.0)])
    assert (square.i_y_mm4, square.w_pl_z_mm3) == pytest.approx(((60**4 - 54**4) / 12, (60**3 - 54**3) / 4))
    ring = profile(round_tube_outline(60.0), [round_tube_outline(54.0)])
    assert ring.area_mm2 == pytest.approx(math.pi / 4 * (60**2 - 54**2), rel=1e-9)
    assert ring.i_y_mm4 == pytest.approx(math.pi / 64 * (60**4 - 54**4), rel=2e-4)
    assert ring.w_pl_y_mm3 == pytest.approx((60**3 - 54**3) / 6, rel=2e-4)
    round_middle = tube_torsion_mm4(math.pi / 4 * 57**2, math.pi * 57, 3.0)
    assert round_middle == pytest.approx(math.pi * 57**3 * 3 / 4, rel=1e-9)
    narrow = 160.0 * (1.0 - 0.63 / 30.0) + 522.0 * (1.0 - 1.89 / 58.0)
    assert open_torsion_mm4([(60.0, 2.0), (58.0, 3.0)]) == pytest.approx(narrow)


def test_principal_axes_and_plastic_modulus_of_an_angle() -> None:
    """Equal legs: axes at 45 degrees. Plastic modulus from a grid of small squares. Tolerance 0.5 %: the grid."""
    equal = profile(angle_outline(60.0, 60.0, 6.0))
    assert abs(equal.angle_deg) == pytest.approx(45.0)
    assert equal.i_1_mm4 + equal.i_2_mm4 == pytest.approx(equal.i_y_mm4 + equal.i_z_mm4)
    assert equal.i_1_mm4 == pytest.approx(equal.i_y_mm4 + abs(equal.i_yz_mm4))
    uneven = profile(angle_outline(60.0, 90.0, 6.0))
    turned = math.radians(uneven.angle_deg)
    y, z = _grid(lambda y, z: (z < 6) | (y < 6), 60.0, 90.0)
    along = (z - z.mean()) * math.cos(turned) - (y - y.mean()) * math.sin(turned)
    assert (along**2).sum() * 0.01 == pytest.approx(uneven.i_1_mm4, rel=0.002)
    assert np.abs(z - np.median(z)).sum() * 0.01 == pytest.approx(uneven.w_pl_y_mm3, rel=0.005)
    assert np.abs(y - np.median(y)).sum() * 0.01 == pytest.approx(uneven.w_pl_z_mm3, rel=0.005)


def _grid(inside: object, width: float, depth: float) -> tuple[np.ndarray, np.ndarray]:
    y, z = np.meshgrid(np.arange(0.05, width, 0.1), np.arange(0.05, depth, 0.1))
    kept = inside(y, z)  # type: ignore[operator]  # a small function
    return y[kept], z[kept]


def _by_differences(bar: SlenderBar, *, even_load: bool) -> float:
    """Greatest moment at buckling by finite differences of the twist alone, the sideways bending put in beforehand.

    By bisection the least moment at which E Iw phi'''' - ((G It + 2 zj M) phi')' - (M2 / E Iz + q zg) phi gives way.
    """
    n = 80
    step = bar.length_mm / n
    first = (np.eye(n, n - 1) - np.eye(n, n - 1, k=-1)) / step  # slope in the middle of each of the n pieces
    second = first.T @ first * -1.0
    inside, middle = np.arange(1, n) * step, (np.arange(n) + 0.5) * step

    def shape(x: np.ndarray) -> np.ndarray:
        return 4.0 * x * (bar.length_mm - x) / bar.length_mm**2 if even_load else np.ones_like(x)

    load = 8.0 / bar.length_mm**2 if even_load else 0.0

    def stands(moment: float) -> bool:
        twist = bar.g_n_mm2 * bar.i_t_mm4 + 2.0 * bar.z_j_mm * moment * shape(middle)
        lean = (moment * shape(inside)) ** 2 / (bar.e_n_mm2 * bar.i_z_mm4)
        lean = lean + load * moment * bar.load_above_shear_centre_mm
        whole = (
            first.T @ (twist[:, None] * first) + bar.e_n_mm2 * bar.i_w_mm6 * second @ second - np.diag(lean)
        )
        try:
            np.linalg.cholesky(whole)
        except np.linalg.LinAlgError:
            return False
        return True

    low, high = 0.0, 1.0
    while stands(high):
        high *= 2.0
    for _ in range(30):
        moment = (low + high) / 2.0
        low, high = (moment, high) if stands(moment) else (low, moment)
    return low


_TEE_MM4 = {"i_z_mm4": 36039.0, "i_t_mm4": 314.7}


@pytest.mark.parametrize("above", [-20.0, 0.0, 20.0])
@pytest.mark.parametrize("even_load", [True, False])
def test_a_bar_with_two_axes_of_symmetry(above: float, even_load: bool) -> None:
    """An I-like bar against finite differences. Tolerance 0.2 %: 80 pieces."""
    bar = SlenderBar(
        length_mm=2500.0,
        e_n_mm2=7e4,
        g_n_mm2=2.7e4,
        i_z_mm4=3e4,
        i_t_mm4=2e3,
        i_w_mm6=4e7,
        load_above_shear_centre_mm=above,
    )
    ours = critical_moment_n_mm(bar, "even load" if even_load else "even moment")
    assert ours == pytest.approx(_by_differences(bar, even_load=even_load), rel=0.002)


@pytest.mark.parametrize("above", [-20.0, 0.0, 20.0])
def test_the_usual_factors_for_an_even_load(above: float) -> None:
    """C1 1.132 and C2 0.459 (from memory), two axes of symmetry. Tolerance 2 %: the factors are rounded."""
    bar = SlenderBar(
        length_mm=2500.0,
        e_n_mm2=7e4,
        g_n_mm2=2.7e4,
        i_z_mm4=3e4,
        i_t_mm4=2e3,
        load_above_shear_centre_mm=above,
    )
    euler = math.pi**2 * 7e4 * 3e4 / 2500.0**2
    height = 0.459 * above
    by_factors = 1.132 * euler * (math.sqrt(2.7e4 * 2e3 / euler + height**2) - height)
    assert critical_moment_n_mm(bar, "even load") == pytest.approx(by_factors, rel=0.02)


@pytest.mark.parametrize("sign", [-1.0, 1.0])
def test_a_tee_under_an_even_moment(sign: float) -> None:
    """Flange or tip in compression: pi2 E Iz/L2 (sqrt(L2 G It/(pi2 E Iz) + zj2) + zj). Tolerance: rounding."""
    z_j = sign * tee_monosymmetry_mm(60.0, 60.0, 2.0, 2.0)
    bar = SlenderBar(length_mm=2000.0, e_n_mm2=7e4, g_n_mm2=2.7e4, z_j_mm=z_j, **_TEE_MM4)
    euler = math.pi**2 * 7e4 * 36039.0 / 2000.0**2
    closed = euler * (math.sqrt(2.7e4 * 314.7 / euler + z_j**2) + z_j)
    assert critical_moment_n_mm(bar, "even moment") == pytest.approx(closed, rel=1e-8)


@pytest.mark.parametrize("length", [900.0, 2000.0, 3500.0])
@pytest.mark.parametrize("sign", [-1.0, 1.0])
@pytest.mark.parametrize("above", [-10.0, 45.0])
def test_a_tee_under_an_even_load(length: float, sign: float, above: float) -> None:
    """A glazing bar with its tip or its seat in compression, against finite differences. Tolerance 0.7 %: pieces."""
    z_j = sign * tee_monosymmetry_mm(60.0, 60.0, 2.0, 2.0)
    bar = SlenderBar(
        length_mm=length,
        e_n_mm2=7e4,
        g_n_mm2=2.7e4,
        z_j_mm=z_j,
        load_above_shear_centre_mm=above,
        **_TEE_MM4,
    )
    assert critical_moment_n_mm(bar, "even load") == pytest.approx(
        _by_differences(bar, even_load=True), rel=0.007
    )


def test_monosymmetry_of_a_tee_from_a_grid() -> None:
    """z_s less half the integral of (y2 + z2) z over I_y. Tolerance 0.2 %: squares of 0.1 mm."""
    y, z = _grid(lambda y, z: (z < 4) | (abs(y - 30.0) < 2.0), 60.0, 60.0)
    up = z.mean() - z  # from the centroid towards the flange
    side = y - 30.0
    second = (up**2).sum()
    by_grid = (z.mean() - 2.0) - ((side**2 + up**2) * up).sum() / (2.0 * second)
    assert tee_monosymmetry_mm(60.0, 60.0, 4.0, 4.0) == pytest.approx(by_grid, rel=0.002)


def test_a_diagonal_in_one_bay() -> None:
    """3-4-5: 2250 high, 3000 wide, 3000 N along: 3750 N in the diagonal, 2250 N up and down. Tolerance: rounding."""
    bay = braced_bay(3000.0, bay_mm=3000.0, height_mm=2250.0)
    assert (bay.diagonal_length_mm, bay.diagonal_n) == pytest.approx((3750.0, 3750.0))
    assert (bay.post_pair_n, bay.foot_horizontal_n) == pytest.approx((2250.0, 3000.0))


def test_a_post_with_a_knee_brace() -> None:
    """The post cut free: foot 1000, brace across 1000 x 2400/600 = 4000, head 3000. Tolerance: rounding."""
    post = knee_braced_post(2000.0, posts=2, bay_mm=3000.0, height_mm=2400.0, knee_mm=600.0, reach_mm=450.0)
    assert post.brace_length_mm == pytest.approx(750.0)
    assert post.brace_n == pytest.approx(4000.0 * 750.0 / 450.0)
    assert post.head_horizontal_n + 1000.0 == pytest.approx(4000.0)
    assert post.post_moment_n_mm == pytest.approx(1000.0 * 1800.0)
    assert post.head_horizontal_n * 600.0 == pytest.approx(post.post_moment_n_mm)
    assert post.post_pair_n == pytest.approx(1600.0)
    assert cantilever_foot_moment_n_mm(900.0, 2300.0, 3) == pytest.approx(690e3)


def test_a_ledger_turns_about_its_lower_edge() -> None:
    """2000 x 45 and 300 x 10 over 200 / 3: 1350 and 45; uplift turns about the top: 500 x 45 / 30. To rounding."""
    load = LedgerLoad(down_n=2000.0, offset_mm=45.0, outward_n=300.0, outward_above_mm=10.0)
    pull = ledger_pull(load, above_heel_mm=100.0, below_top_mm=45.0)
    assert (pull.lever_n, pull.prying_n) == pytest.approx((1350.0, 45.0))
    assert (pull.pull_n, pull.press_n) == pytest.approx((1695.0, 1395.0))
    assert pull.heel == "bottom"
    lifted = ledger_pull(LedgerLoad(down_n=-500.0, offset_mm=45.0), above_heel_mm=100.0, below_top_mm=45.0)
    assert lifted.pull_n == pytest.approx(500.0 * 45.0 / 30.0)
    assert lifted.heel == "top"
    pressed = ledger_pull(
        LedgerLoad(down_n=0.0, offset_mm=0.0, outward_n=-400.0), above_heel_mm=100.0, below_top_mm=45.0
    )
    assert (pressed.pull_n, pressed.press_n) == pytest.approx((0.0, 400.0))
    assert pressed.heel == "none"


def test_shear_and_pull_on_a_fixing() -> None:
    """0.5 + 0.3; sqrt(0.25 + 0.09). Tolerance: rounding."""
    shares = {"shear_n": 500.0, "pull_n": 300.0, "shear_resistance_n": 1000.0, "pull_resistance_n": 1000.0}
    assert fixing_utilisation(**shares) == pytest.approx(0.8)
    assert fixing_utilisation(**shares, power=2.0) == pytest.approx(0.34**0.5)


def test_places_that_are_one_lie_in_their_middle() -> None:
    """900.0 and 900.2 are one at 900.1; both ends stay where they are; the nearest of them to 1300 is 900.1."""
    places = merged_places((900.0, 0.0, 0.3, 900.2, 1800.0, 1799.6))
    assert places == pytest.approx((0.0, 900.1, 1800.0))
    assert nearest_node(places, 1300.0) == 1
