"""Rows of tables and bounds at which a clause changes over, each on both sides of the bound.

Timber by EN 1995-1-1:2004+A1, metal by EN 1993-1-1 and EN 1999-1-1, water by EN 12056-3; rows of tables are recalled,
not read, unless the test says otherwise. Formulas are written out here, nothing is taken from src/. Exact but for
rounding.
"""

from __future__ import annotations

import math

import pytest

from pentice.errors import OutsideScope
from pentice.mechanics.bracing import braced_bay, knee_braced_post
from pentice.standards import en1993
from pentice.standards.en1991_1_4_roofs import friction_counts
from pentice.standards.en1993 import Part, part_class, steel
from pentice.standards.en1995 import (
    bending_utilisation,
    k_c,
    k_c_90,
    k_crit,
    size_factor,
)
from pentice.standards.en1995_deflection import final_limit_mm, instant_limit_mm
from pentice.standards.en1995_dowels import (
    bolt_embedment_n_mm2,
    nail_embedment_n_mm2,
    nail_yield_moment_n_mm,
    screw_effective_diameter_mm,
    screw_embedment_n_mm2,
)
from pentice.standards.en1995_johansen import Fastener, Rope, rope_effect_n, steel_single_shear
from pentice.standards.en1995_members import (
    TimberForces,
    TimberSection,
    TimberStrengths,
    bowing_post,
    pushed_member,
)
from pentice.standards.en1995_notch import Notch, notch_factor
from pentice.standards.en1995_screws import declared_withdrawal_n, inside_screw_formula
from pentice.standards.en1995_slip import ULTIMATE, mean_of_two, slip_modulus_n_mm
from pentice.standards.en1995_spacing import (
    Distances,
    bolt_distances,
    bolts_in_row,
    dowel_distances,
    nail_distances,
    nails_in_row,
)
from pentice.standards.en1999 import aluminium_chi_sideways, aluminium_post_share, aluminium_shear_n
from pentice.standards.en12056 import bend_factor, outlet_flow_l_s
from pentice.standards.en12056_gutters import outlet_head_mm, rectangular_pipe_diameter_mm


def _diameters(ours: Distances, d_mm: float) -> tuple[float, ...]:
    """a1, a2, a3,t, a3,c, a4,t, a4,c over the diameter."""
    ends = (ours.loaded_end_mm, ours.free_end_mm, ours.loaded_edge_mm, ours.free_edge_mm)
    return tuple(x / d_mm for x in (ours.along_mm, ours.across_mm, *ends))


@pytest.mark.parametrize(
    ("d", "density", "predrilled", "along_grain", "across_grain"),
    [
        pytest.param(4.9, 350.0, False, (10, 5, 15, 10, 5, 5), (5, 5, 10, 10, 7, 5), id="thin"),
        pytest.param(5.0, 420.0, False, (12, 5, 15, 10, 5, 5), (5, 5, 10, 10, 10, 5), id="thick"),
        pytest.param(4.9, 421.0, False, (15, 7, 20, 15, 7, 7), (7, 7, 15, 15, 9, 7), id="thin, dense"),
        pytest.param(5.0, 500.0, False, (15, 7, 20, 15, 7, 7), (7, 7, 15, 15, 12, 7), id="thick, dense"),
        pytest.param(4.9, 350.0, True, (5, 3, 12, 7, 3, 3), (4, 4, 7, 7, 5, 3), id="thin, drilled"),
        pytest.param(5.0, 500.0, True, (5, 3, 12, 7, 3, 3), (4, 4, 7, 7, 7, 3), id="thick, drilled"),
    ],
)
def test_distances_of_nails(
    d: float,
    density: float,
    predrilled: bool,
    along_grain: tuple[float, ...],
    across_grain: tuple[float, ...],
) -> None:
    """Table 8.2 in diameters with the force along the grain and across it."""
    for angle, row in ((0.0, along_grain), (90.0, across_grain)):
        ours = nail_distances(d, density, angle, predrilled=predrilled)
        assert _diameters(ours, d) == pytest.approx(row)


@pytest.mark.parametrize(
    ("angle", "bolts", "dowels"),
    [
        (0.0, (5, 4, 7, 4, 3, 3), (5, 3, 7, 3, 3, 3)),
        (90.0, (4, 4, 7, 7, 4, 3), (3, 3, 7, 7, 4, 3)),
    ],
)
def test_distances_of_bolts_and_dowels(
    angle: float, bolts: tuple[float, ...], dowels: tuple[float, ...]
) -> None:
    """Tables 8.4 and 8.5 in diameters, 12 mm: 84 mm to a loaded end; of 10 mm 80, which is 8 d."""
    assert _diameters(bolt_distances(12.0, angle), 12.0) == pytest.approx(bolts)
    assert _diameters(dowel_distances(12.0, angle), 12.0) == pytest.approx(dowels)
    assert bolt_distances(10.0, angle).loaded_end_mm == dowel_distances(10.0, angle).loaded_end_mm == 80.0


@pytest.mark.parametrize(
    ("apart", "driven", "drilled"),
    [(4.0, None, 0.5), (7.0, 0.7, 0.7), (10.0, 0.85, 0.85), (12.0, 0.925, 0.925), (14.0, 1.0, 1.0)],
)
def test_nails_that_count(apart: float, driven: float | None, drilled: float) -> None:
    """Table 8.1: six nails, n^k; straight between the rows; more than 14 d apart all of them."""
    assert nails_in_row(6, apart * 4.0, 4.0, predrilled=True) == pytest.approx(6.0**drilled)
    if driven is not None:
        assert nails_in_row(6, apart * 4.0, 4.0, predrilled=False) == pytest.approx(6.0**driven)
    assert nails_in_row(6, 80.0, 4.0, predrilled=False) == pytest.approx(6.0)


def test_bolts_that_count() -> None:
    """One alone; two at 3 d (2^0.9 (3/13)^0.25), nearer refused."""
    assert bolts_in_row(1, 0.0, 12.0) == 1.0
    assert bolts_in_row(2, 36.0, 12.0) == pytest.approx(2.0**0.9 * math.sqrt(math.sqrt(3.0 / 13.0)))
    with pytest.raises(OutsideScope, match="along_mm is 35"):
        bolts_in_row(2, 35.9, 12.0)


@pytest.mark.parametrize(
    ("rope", "share"),
    [
        ("round nail", 0.15),
        ("square nail", 0.25),
        ("other nail", 0.5),
        ("screw", 1.0),
        ("bolt", 0.25),
        ("dowel", 0.0),
    ],
)
def test_rope_effect_at_its_most(rope: Rope, share: float) -> None:
    """8.2.2(2): a quarter of a withdrawal beyond any limit, on 1000 N; nails, bolts and screws as read second hand."""
    endless = Fastener(d_mm=6.0, yield_moment_n_mm=1.0, rope=rope, withdrawal_n=1e9)
    assert rope_effect_n(1000.0, endless) == pytest.approx(1000.0 * share)


def test_a_plate_is_thin_up_to_half_a_diameter() -> None:
    """8.2.3(1): at 0.5 d as thin as at 0.1; at 0.51 d a fiftieth of the way to the thick plate of 1 d."""
    nail = Fastener(d_mm=5.0, yield_moment_n_mm=11819.4)
    thinnest, half, more, thick = (
        steel_single_shear(nail, t_mm=50.0, f_h_n_mm2=17.7089, plate_mm=plate).resistance_n
        for plate in (0.5, 2.5, 2.55, 5.0)
    )
    assert half == thinnest
    assert more == pytest.approx(half + (thick - half) / 50.0)


def test_nails_and_screws_where_their_rules_change() -> None:
    """8.14: square 0.45 f d^2.6. 8.7.1: 4 d of smooth shank; a nail's rule up to 6 mm. 8.3.1.1(2): 500 kg/m3."""
    assert nail_yield_moment_n_mm(4.0, 600.0, square=True) == pytest.approx(0.45 * 600.0 * 4.0**2.6)
    screw = {"thread_mm": 8.0, "root_mm": 5.0, "smooth_mm": 5.8}
    assert screw_effective_diameter_mm(**screw, smooth_in_point_mm=23.2) == 5.8
    assert screw_effective_diameter_mm(**screw, smooth_in_point_mm=23.1) == pytest.approx(5.5)
    assert screw_embedment_n_mm2(6.0, 350.0, predrilled=True) == pytest.approx(0.082 * 0.94 * 350.0)
    thick = bolt_embedment_n_mm2(6.1, 350.0, 90.0)
    assert screw_embedment_n_mm2(6.1, 350.0, angle_deg=90.0, predrilled=True) == pytest.approx(thick)
    with pytest.raises(OutsideScope, match="not predrilled"):
        screw_embedment_n_mm2(6.1, 350.0)
    assert nail_embedment_n_mm2(4.0, 500.0, predrilled=False) == pytest.approx(41.0 * 4.0**-0.3)
    with pytest.raises(OutsideScope, match="rho_k_kg_m3 is 501"):
        nail_embedment_n_mm2(4.0, 501.0, predrilled=False)


@pytest.mark.parametrize(
    ("thread", "root", "inside"),
    [(6.0, 4.5, True), (6.0, 4.51, False), (12.0, 8.0, True), (12.1, 8.0, False), (5.9, 4.0, False)],
)
def test_screws_that_the_withdrawal_formula_covers(thread: float, root: float, inside: bool) -> None:
    """8.7.2(4): 6 to 12 mm, root 0.6 to 0.75 of the thread; read second hand."""
    assert inside_screw_formula(thread, root) is inside


@pytest.mark.parametrize(
    ("length", "angle", "says"), [(35.9, 90.0, "thread in the timber"), (36.0, 29.9, "angle")]
)
def test_screws_that_grip_too_little_are_refused(length: float, angle: float, says: str) -> None:
    """8.7.2: 6 d of thread, 30 degrees to the grain; at just that 12 x 6 x 36/(1.2 x 0.75 + 0.25) N."""
    screw = {"thread_mm": 6.0, "f_ax_n_mm2": 12.0, "rho_a_kg_m3": 350.0, "rho_k_kg_m3": 350.0}
    with pytest.raises(OutsideScope, match=says):
        declared_withdrawal_n(**screw, length_mm=length, angle_deg=angle)
    held = declared_withdrawal_n(**screw, length_mm=36.0, angle_deg=30.0)
    assert held == pytest.approx(12.0 * 6.0 * 36.0 / 1.15)


def test_joints_slip() -> None:
    """Table 7.1: rho^1.5 d/23 of two timbers of 400 and 441, sqrt 420^3 x 12/23; two thirds of it at the last."""
    density = mean_of_two(400.0, 441.0)
    assert density == pytest.approx(420.0)
    assert slip_modulus_n_mm(12.0, density) == pytest.approx(math.sqrt(420.0**3) * 12.0 / 23.0)
    assert pytest.approx(2.0 / 3.0) == ULTIMATE


@pytest.mark.parametrize(
    ("y", "z", "rule"), [(0.295, 0.295, "6.19"), (0.305, 0.295, "6.23"), (0.295, 0.305, "6.23")]
)
def test_posts_bow_where_either_axis_is_slender(y: float, z: float, rule: str) -> None:
    """6.3.2(2): up to 0.3 both ways no bowing; lengths from l = lambda pi i sqrt(E/f), i = 100/sqrt 12."""
    strengths = TimberStrengths(
        f_m_k_n_mm2=24.0, f_t_0_k_n_mm2=14.5, f_c_0_k_n_mm2=21.0, e_0_05_n_mm2=7400.0, k_mod=0.9, gamma_m=1.3
    )
    post = TimberSection(width_mm=100.0, depth_mm=100.0)
    one = math.pi * 100.0 / math.sqrt(12.0) * math.sqrt(7400.0 / 21.0)
    bowing = bowing_post(post, strengths, length_y_mm=y * one, length_z_mm=z * one)
    assert (bowing.slenderness_y, bowing.slenderness_z) == pytest.approx((y, z))
    assert pushed_member(post, TimberForces(axial_n=-1e4), strengths, bowing).shares[1][0] == rule


def test_bending_both_ways_counts_0_7_of_the_other() -> None:
    """6.11 and 6.12: 12/24 + 0.7 x 6/24 = 0.675, and the same with the axes turned."""
    strong = {"strength_y_n_mm2": 24.0, "strength_z_n_mm2": 24.0}
    assert bending_utilisation(stress_y_n_mm2=12.0, stress_z_n_mm2=6.0, **strong) == pytest.approx(0.675)
    assert bending_utilisation(stress_y_n_mm2=6.0, stress_z_n_mm2=12.0, **strong) == pytest.approx(0.675)


@pytest.mark.parametrize(
    ("slenderness", "factor"),
    [(0.76, 1.56 - 0.57), (1.39, 1.56 - 1.0425), (1.41, 1.0 / 1.9881)],
)
def test_sideways_buckling_changes_its_formula(slenderness: float, factor: float) -> None:
    """6.34: from 0.75 and from 1.4 on."""
    assert k_crit(slenderness) == pytest.approx(factor)


@pytest.mark.parametrize(("material", "beta"), [("solid", 0.2), ("glulam", 0.1)])
@pytest.mark.parametrize("slenderness", [0.305, 1.0])
def test_columns_bow_from_0_3_on(material: str, beta: float, slenderness: float) -> None:
    """6.25 to 6.29 with beta_c 0.2 and 0.1; up to 0.3 nothing is lost."""
    half = 0.5 * (1.0 + beta * (slenderness - 0.3) + slenderness**2)
    by_hand = 1.0 / (half + math.sqrt(half**2 - slenderness**2))
    assert k_c(slenderness, material) == pytest.approx(by_hand)  # type: ignore[arg-type]  # plain text above
    assert k_c(0.3, material) == 1.0  # type: ignore[arg-type]  # plain text above


def test_bearings_near_each_other_and_long_ones() -> None:
    """6.1.5: 2 x 147 = 294 mm to the next; glulam 1.75 up to 400 mm of contact."""
    near, far = (k_c_90("solid", to_next_mm=x, depth_mm=147.0, contact_mm=50.0) for x in (293.0, 294.0))
    assert (near, far) == (1.0, 1.5)
    short, long = (k_c_90("glulam", to_next_mm=900.0, depth_mm=200.0, contact_mm=x) for x in (400.0, 401.0))
    assert (short, long) == (1.75, 1.0)


def test_deep_glulam_loses_nothing_by_its_size() -> None:
    """3.2: (600/h)^0.1, between 1 and 1.1; 450 deep 1.0292."""
    assert size_factor(700.0, "glulam") == 1.0
    assert size_factor(450.0, "glulam") == pytest.approx(math.exp(0.1 * math.log(4.0 / 3.0)))


def test_limits_of_sag_outside_their_range_are_refused() -> None:
    """Table 7.2: L/300 to L/500 at once, L/250 to L/350 in the end."""
    assert instant_limit_mm(3000.0, divisor=300.0) == 10.0
    assert final_limit_mm(3500.0, divisor=250.0) == 14.0
    for limit, outside in ((instant_limit_mm, (299.0, 501.0)), (final_limit_mm, (249.0, 351.0))):
        for divisor in outside:
            with pytest.raises(OutsideScope, match=f"divisor is {divisor:g}"):
                limit(3000.0, divisor=divisor)


def test_a_notch_reaches_from_its_force() -> None:
    """6.5.2: corner of the cut up to 0.4 h from the force (common practice); whole or on the other side 1."""
    assert notch_factor(Notch(left_mm=100.0, to_force_mm=60.0), 150.0, side="other", material="solid") == 1.0
    assert notch_factor(Notch(left_mm=150.0, to_force_mm=0.0), 150.0, side="support", material="solid") == 1.0
    with pytest.raises(OutsideScope, match="force to corner of the notch is 60"):
        notch_factor(Notch(left_mm=100.0, to_force_mm=60.1), 150.0, side="support", material="solid")


@pytest.mark.parametrize(
    ("part", "limits"),
    [
        ("inside, bent", (72.0, 83.0, 124.0)),
        ("inside, pushed", (33.0, 38.0, 42.0)),
        ("outstand, pushed", (9.0, 10.0, 14.0)),
        ("round tube", (50.0, 70.0, 90.0)),
    ],
)
@pytest.mark.parametrize("yields", [235.0, 355.0])
def test_classes_of_steel_parts_at_their_limits(
    part: Part, limits: tuple[float, float, float], yields: float
) -> None:
    """EN 1993-1-1, Table 5.2, times sqrt(235/f_y), of round tubes times 235/f_y; a hair beyond is the next class."""
    shrinks = 235.0 / yields if part == "round tube" else math.sqrt(235.0 / yields)
    for number, limit in enumerate(limits, start=1):
        assert part_class(part, 0.999 * limit * shrinks, 1.0, yields) == number
        if number < 3:
            assert part_class(part, 1.001 * limit * shrinks, 1.0, yields) == number + 1
    with pytest.raises(OutsideScope, match="class 4 is not covered"):
        part_class(part, 1.001 * limits[2] * shrinks, 1.0, yields)


def test_steel_gets_weaker_beyond_40_mm() -> None:
    """Table 3.1, S235, read second hand: 235 at 40 mm, 215 beyond. G 81 000 N/mm2 by 3.2.6."""
    assert steel("S235", 40.0).f_y_n_mm2 == 235.0
    assert steel("S235", 40.1).f_y_n_mm2 == 215.0
    assert en1993.G_N_MM2 == 81_000.0


def test_aluminium_beside_its_bar() -> None:
    """648 x 160/(1.7320508 x 1.1); 0.3^0.8 + 1.42 x 0.4 = 0.949680; class 1 sideways as class 2."""
    assert aluminium_shear_n(648.0, 160.0) == pytest.approx(103680.0 / (1.7320508 * 1.1), rel=1e-7)
    found = aluminium_post_share(push_share=0.3, bending_share=0.4)
    assert found == pytest.approx(math.exp(0.8 * math.log(0.3)) + 0.568)
    assert aluminium_chi_sideways(1.0, 1) == pytest.approx(1.0 / (1.02 + math.sqrt(1.02**2 - 1.0)))


def test_water_where_its_rules_change() -> None:
    """A bend from 10 degrees on; weir up to half the outlet, 34 mm of 68, orifice beyond; box pipes up to 2 to 1."""
    assert (bend_factor(10.0), bend_factor(10.1)) == (1.0, 0.85)
    weir, orifice = 68.0 * 33.9**1.5 / 7500.0, 68.0**2 * 34.1**0.5 / 15000.0
    assert outlet_flow_l_s(68.0, 33.9) == pytest.approx(weir)
    assert outlet_flow_l_s(68.0, 34.1) == pytest.approx(orifice)
    assert outlet_head_mm(weir, 68.0) == pytest.approx(33.9)
    assert outlet_head_mm(orifice * 1.01, 68.0) == pytest.approx(34.1 * 1.01**2)
    assert rectangular_pipe_diameter_mm(100.0, 50.0) == pytest.approx(20000.0 / 300.0)
    for width, depth in ((100.0, 49.9), (49.9, 100.0)):
        with pytest.raises(OutsideScope, match="sides within a ratio of 2"):
            rectangular_pipe_diameter_mm(width, depth)


def test_a_diagonal_stands_at_20_to_70_degrees() -> None:
    """Common practice, no source: H over the cosine of its slope, outside refused."""
    for slope in (20.1, 69.9):
        by_hand = 1000.0 / math.cos(math.radians(slope))
        height = 3000.0 * math.tan(math.radians(slope))
        assert braced_bay(1000.0, bay_mm=3000.0, height_mm=height).diagonal_n == pytest.approx(by_hand)
    for slope in (19.9, 70.1):
        with pytest.raises(OutsideScope, match="height of the braced bay"):
            braced_bay(1000.0, bay_mm=3000.0, height_mm=3000.0 * math.tan(math.radians(slope)))


def test_a_knee_brace_stands_at_30_to_60_degrees() -> None:
    """Common practice, no source. Moments about the foot: 500 N x 2400/600 along, over the sine of its slope."""
    row = {"bay_mm": 3000.0, "height_mm": 2400.0, "knee_mm": 600.0}
    for slope in (30.1, 59.9):
        reach = 600.0 * math.tan(math.radians(slope))
        by_hand = 2000.0 / math.sin(math.radians(slope))
        assert knee_braced_post(1000.0, posts=2, **row, reach_mm=reach).brace_n == pytest.approx(by_hand)
    for slope in (29.9, 60.1):
        with pytest.raises(OutsideScope, match="reach_mm"):
            knee_braced_post(1000.0, posts=2, **row, reach_mm=600.0 * math.tan(math.radians(slope)))


def test_friction_counts_from_four_times_on() -> None:
    """EN 1991-1-4, 5.3(4), read second hand: faces along the wind more than four times those across it."""
    assert friction_counts(parallel_m2=401.0, square_m2=100.0)
    assert not friction_counts(parallel_m2=400.0, square_m2=100.0)
