"""Posts, notches, joints, metal bars and pads by a second route: arithmetic written out here, nothing taken from src/.

Clauses of EN 1995-1-1:2004+A1, EN 1993-1-1, EN 1999-1-1 and EN 1990. Where a number stands alone it was worked from the
formula beside it, to the digits shown.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from pentice.standards.en1993 import part_class, steel, steel_beam, steel_chi, steel_post, steel_post_share
from pentice.standards.en1995_dowels import (
    bolt_embedment_n_mm2,
    nail_embedment_n_mm2,
    nail_yield_moment_n_mm,
    screw_effective_diameter_mm,
    screw_embedment_n_mm2,
)
from pentice.standards.en1995_johansen import (
    Fastener,
    rope_effect_n,
    steel_inside_double_shear,
    steel_outside_double_shear,
    steel_single_shear,
    timber_single_shear,
)
from pentice.standards.en1995_members import (
    TimberForces,
    TimberSection,
    TimberStrengths,
    bowing_post,
    out_of_plumb,
    pulled_member,
    pushed_member,
    slender_beam_share,
)
from pentice.standards.en1995_notch import Notch, notch_factor, notched_shear
from pentice.standards.en1995_pull import bolt_pull, pull_and_shear_share, smooth_nail_pull
from pentice.standards.en1995_spacing import (
    Distances,
    bolt_distances,
    bolts_in_row,
    nail_distances,
    nails_in_row,
    splitting_force_n,
    too_near,
)
from pentice.standards.en1999 import aluminium_bar, aluminium_chi, aluminium_chi_sideways, aluminium_post
from pentice.standards.pads import (
    bearing_under_pad,
    overturning_of_pad,
    pad_weight_kn,
    uplift_of_pad,
)

C24 = TimberStrengths(
    f_m_k_n_mm2=24.0, f_t_0_k_n_mm2=14.5, f_c_0_k_n_mm2=21.0, e_0_05_n_mm2=7400.0, k_mod=0.9, gamma_m=1.3
)
C16 = TimberStrengths(
    f_m_k_n_mm2=16.0, f_t_0_k_n_mm2=8.5, f_c_0_k_n_mm2=17.0, e_0_05_n_mm2=5400.0, k_mod=0.9, gamma_m=1.3
)


@pytest.mark.parametrize(
    ("strengths", "side", "length", "ratio", "slender", "k_c", "force_kn"),
    [
        (C24, 100.0, 2400.0, 83.1384, 1.40976, 0.42172, 61.3116),
        (C16, 100.0, 2400.0, 83.1384, 1.48484, 0.385998, 45.429),
        (C24, 95.0, 2100.0, 76.5749, 1.29846, 0.482628, 63.3255),
    ],
)
def test_a_square_post_bows(
    strengths: TimberStrengths,
    side: float,
    length: float,
    ratio: float,
    slender: float,
    k_c: float,
    force_kn: float,
) -> None:
    """l sqrt 12 / b; /pi sqrt(f/E); 1/(k + sqrt(k2 - l2)), beta_c 0.2; k_c A 0.9 f / 1.3. Tolerance: digits written."""
    post = TimberSection(width_mm=side, depth_mm=side)
    bowing = bowing_post(post, strengths, length_y_mm=length, length_z_mm=length)
    assert (bowing.ratio_y, bowing.ratio_z) == pytest.approx((ratio, ratio), abs=1e-4)
    assert bowing.slenderness_z == pytest.approx(slender, abs=1e-5)
    assert bowing.k_c_y == pytest.approx(k_c, abs=1e-5)
    share = pushed_member(post, TimberForces(axial_n=-force_kn * 1e3), strengths, bowing)
    assert share.utilisation == pytest.approx(1.0, rel=1e-5)


def test_a_post_pushed_and_bent_both_ways() -> None:
    """100 x 150 C24, 20 kN, 1.0 and 0.4 kNm, bowing 2400: eq. 6.23 and 6.24 written out. Tolerance: rounding."""
    post = TimberSection(width_mm=100.0, depth_mm=150.0)
    bowing = bowing_post(post, C24, length_y_mm=2400.0, length_z_mm=2400.0)
    share = pushed_member(post, TimberForces(axial_n=-2e4, moment_y_n_mm=1e6, moment_z_n_mm=4e5), C24, bowing)
    push = 2e4 / 15000.0 / (21.0 * 0.9 / 1.3)
    y = 1e6 / (100.0 * 150.0**2 / 6.0) / (24.0 * 0.9 / 1.3)
    z = 4e5 / (150.0 * 100.0**2 / 6.0) / (24.0 * 0.9 / 1.3 * 1.5**0.2)
    k_c = []
    for depth in (150.0, 100.0):
        slender = 2400.0 * math.sqrt(12.0) / depth / math.pi * math.sqrt(21.0 / 7400.0)
        k = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
        k_c.append(1.0 / (k + math.sqrt(k**2 - slender**2)))
    by_hand = {"6.2": push, "6.23": push / k_c[0] + y + 0.7 * z, "6.24": push / k_c[1] + 0.7 * y + z}
    assert dict(share.shares) == pytest.approx(by_hand, rel=1e-9)
    assert share.utilisation == pytest.approx(max(by_hand.values()), rel=1e-9)
    assert share.axial_n_mm2 == pytest.approx(-4.0 / 3.0, rel=1e-9)


def test_a_short_post_is_checked_by_squares() -> None:
    """150 x 150 C24 over 150 mm does not bow: (sigma/f)2 + m. Tolerance: rounding."""
    post = TimberSection(width_mm=150.0, depth_mm=150.0)
    bowing = bowing_post(post, C24, length_y_mm=150.0, length_z_mm=150.0)
    share = pushed_member(post, TimberForces(axial_n=-1e5, moment_y_n_mm=3e6), C24, bowing)
    push, bent = 1e5 / 22500.0 / (21.0 * 0.9 / 1.3), 3e6 / 562500.0 / (24.0 * 0.9 / 1.3)
    assert dict(share.shares) == pytest.approx(
        {"6.2": push, "6.19": push**2 + bent, "6.20": push**2 + 0.7 * bent}, rel=1e-9
    )


def test_a_post_in_uplift_pulled_and_bent() -> None:
    """100 x 100 C24, 10 kN up, 0.5 kNm, one fifth of the area bored away: eq. 6.17. Tolerance: rounding."""
    post = TimberSection(width_mm=100.0, depth_mm=100.0)
    share = pulled_member(post, TimberForces(axial_n=1e4, moment_y_n_mm=5e5), C24, net_share=0.8)
    pull = 1e4 / 8000.0 / (14.5 * 0.9 / 1.3 * 1.5**0.2)
    bent = 5e5 / (1e6 / 6.0) / (24.0 * 0.9 / 1.3 * 1.5**0.2)
    assert dict(share.shares) == pytest.approx(
        {"6.1": pull, "6.17": pull + bent, "6.18": pull + 0.7 * bent}, rel=1e-9
    )


def test_a_slender_beam_with_and_without_push() -> None:
    """6/(0.8 x 15) = 0.5; 0.25 + 0.2. Tolerance: rounding."""
    bent = {"bending_n_mm2": 6.0, "strength_n_mm2": 15.0, "k_crit": 0.8}
    assert slender_beam_share(**bent) == pytest.approx(0.5)
    assert slender_beam_share(**bent, push_share=0.2) == pytest.approx(0.45)


@pytest.mark.parametrize(
    ("depth", "left", "off", "slope", "material", "k_n"),
    [
        (150.0, 100.0, 50.0, 0.0, "solid", 5.0),
        (195.0, 146.0, 30.0, 2.0, "solid", 5.0),
        (300.0, 200.0, 60.0, 0.0, "glulam", 6.5),
    ],
)
def test_a_notch_at_a_support(
    depth: float, left: float, off: float, slope: float, material: str, k_n: float
) -> None:
    """Eq. 6.60 to 6.63 written out in powers of one half. Tolerance: rounding."""
    notch = Notch(left_mm=left, to_force_mm=off, slope=slope)
    alpha, root = left / depth, depth**0.5
    below = (alpha - alpha**2) ** 0.5 + 0.8 * off / depth * (1.0 / alpha - alpha * alpha) ** 0.5
    by_hand = min(1.0, k_n * (1.0 + 1.1 * slope**1.5 / root) / root / below)
    ours = notch_factor(notch, depth, side="support", material="glulam" if material == "glulam" else "solid")
    assert ours == pytest.approx(by_hand, rel=1e-9)
    if material == "solid":
        shear = notched_shear(2000.0, notch, (50.0, depth), strength_n_mm2=2.77)
        assert shear.utilisation == pytest.approx(3000.0 / (0.67 * 50.0 * left) / (by_hand * 2.77), rel=1e-9)
        assert shear.stress_n_mm2 == pytest.approx(3000.0 / (0.67 * 50.0 * left), rel=1e-9)


def test_a_notch_on_the_other_side_only_takes_depth() -> None:
    """k_v = 1. Exact."""
    notch = Notch(left_mm=100.0, to_force_mm=50.0)
    assert notch_factor(notch, 150.0, side="other", material="solid") == 1.0


def test_a_nail_of_five_on_thin_and_thick_steel() -> None:
    """d 5, f_u 600, rho 350, 50 mm: 0.082 rho d^-0.3; the five modes worked by hand. Tolerance: digits written."""
    f_h, bent = nail_embedment_n_mm2(5.0, 350.0, predrilled=False), nail_yield_moment_n_mm(5.0, 600.0)
    assert (f_h, bent) == pytest.approx((17.7089, 11819.4), rel=1e-5)
    nail = Fastener(d_mm=5.0, yield_moment_n_mm=bent)
    thin = steel_single_shear(nail, t_mm=50.0, f_h_n_mm2=f_h, plate_mm=2.5)
    assert {m.letter: m.resistance_n for m in thin.modes} == pytest.approx(
        {"a": 1770.89, "b": 1663.76}, rel=1e-5
    )
    thick = steel_single_shear(nail, t_mm=50.0, f_h_n_mm2=f_h, plate_mm=5.0)
    by_hand = {"c": 4427.22, "d": 2159.64, "e": 2352.91}
    assert {m.letter: m.resistance_n for m in thick.modes} == pytest.approx(by_hand, rel=1e-5)
    between = steel_single_shear(nail, t_mm=50.0, f_h_n_mm2=f_h, plate_mm=3.75)
    assert between.resistance_n == pytest.approx((1663.76 + 2159.64) / 2.0, rel=1e-5)
    loose = steel_single_shear(nail, t_mm=50.0, f_h_n_mm2=f_h, plate_mm=5.0, tight=False)
    assert loose.resistance_n == pytest.approx(1663.76, rel=1e-5)


def test_a_nail_of_five_between_two_timbers() -> None:
    """d 5, f_u 600, rho 350, 45 and 50 mm: the six modes worked by hand. Tolerance: digits written."""
    nail = Fastener(d_mm=5.0, yield_moment_n_mm=11819.4)
    plane = timber_single_shear(nail, t_1_mm=45.0, f_h_1_n_mm2=17.7089, t_2_mm=50.0, f_h_2_n_mm2=17.7089)
    by_hand = {"a": 3984.5, "b": 4427.22, "c": 1746.24, "d": 1657.93, "e": 1788.52, "f": 1663.76}
    assert {m.letter: m.resistance_n for m in plane.modes} == pytest.approx(by_hand, rel=1e-5)
    assert plane.governing == "d"
    assert plane.resistance_n == pytest.approx(1657.93, rel=1e-5)


def test_the_modes_follow_from_equilibrium_when_the_timbers_differ() -> None:
    """f_h 20 and 30, 40 and 60 mm: each mode by balance of moments on the two halves, no formula of the code.

    Mode c: each half is pressed over a length on one side and the rest on the other; the moments at the shear plane
    balance. Found by bisection. Mode d and e: hinge in one member, times 1.05; f: two hinges, times 1.15.
    """
    d, bent = 6.0, 30000.0
    (f_1, t_1), (f_2, t_2) = (20.0, 40.0), (30.0, 60.0)

    def stiff(f: float, t: float, force: float) -> float:
        # Pressed over a outer and b inner lengths, b - a = force/(f d), a + b = t: moment at the shear plane.
        b = (t + force / (f * d)) / 2.0
        a = t - b
        return f * d * (a * (t - a / 2.0) - b**2 / 2.0)

    def hinged(f: float, force: float) -> float:
        return bent - force**2 / (2.0 * f * d)

    def balance(one: object, two: object) -> float:
        low, high = 0.0, min(f_1 * t_1, f_2 * t_2) * d
        for _ in range(200):
            force = (low + high) / 2.0
            m_1 = stiff(f_1, t_1, force) if one == "stiff" else hinged(f_1, force)
            m_2 = stiff(f_2, t_2, force) if two == "stiff" else hinged(f_2, force)
            low, high = (force, high) if m_1 + m_2 > 0.0 else (low, force)
        return low

    fastener = Fastener(d_mm=d, yield_moment_n_mm=bent)
    plane = timber_single_shear(fastener, t_1_mm=t_1, f_h_1_n_mm2=f_1, t_2_mm=t_2, f_h_2_n_mm2=f_2)
    assert plane.mode("c").johansen_n == pytest.approx(balance("stiff", "stiff"), rel=1e-6)
    # The 1.05 stands outside the whole expression, so the balanced force is simply raised by it.
    assert plane.mode("d").johansen_n == pytest.approx(1.05 * balance("stiff", "hinged"), rel=1e-6)
    assert plane.mode("e").johansen_n == pytest.approx(1.05 * balance("hinged", "stiff"), rel=1e-6)
    assert plane.mode("f").johansen_n == pytest.approx(1.15 * balance("hinged", "hinged"), rel=1e-6)


def test_steel_outside_and_inside() -> None:
    """M12 4.6, f_h 27.782, 100 mm: half of f t d, 1.15 sqrt(2 M f d), 2.3 sqrt(M f d). Tolerance: rounding."""
    bolt = Fastener(d_mm=12.0, yield_moment_n_mm=76745.4)
    whole, root = 27.782 * 100.0 * 12.0, (76745.4 * 27.782 * 12.0) ** 0.5
    thin = steel_outside_double_shear(bolt, t_mm=100.0, f_h_n_mm2=27.782, plate_mm=5.0)
    assert [m.resistance_n for m in thin.modes] == pytest.approx([whole / 2.0, 1.15 * 2.0**0.5 * root])
    thick = steel_outside_double_shear(bolt, t_mm=30.0, f_h_n_mm2=27.782, plate_mm=12.0)
    assert thick.governing == "l"
    assert thick.resistance_n == pytest.approx(0.3 * whole / 2.0)
    assert thick.mode("m").resistance_n == pytest.approx(2.3 * root)
    inside = steel_inside_double_shear(bolt, t_mm=30.0, f_h_n_mm2=27.782)
    short = 0.3 * whole
    by_hand = [short, short * ((2.0 + 4.0 * 76745.4 / (short * 30.0)) ** 0.5 - 1.0), 2.3 * root]
    assert [m.resistance_n for m in inside.modes] == pytest.approx(by_hand)


@pytest.mark.parametrize(
    ("rope", "most"), [("round nail", 150.0), ("bolt", 250.0), ("screw", 500.0), ("dowel", 0.0)]
)
def test_the_rope_effect_has_its_limit(rope: str, most: float) -> None:
    """A quarter of 2000 N on 1000 N, at most 15, 25, 100 and 0 %. Exact."""
    kinds = {"round nail": "round nail", "bolt": "bolt", "screw": "screw", "dowel": "dowel"}
    fastener = Fastener(d_mm=6.0, yield_moment_n_mm=1.0, rope=kinds[rope], withdrawal_n=2000.0)  # type: ignore[arg-type]  # a plain str here
    assert rope_effect_n(1000.0, fastener) == pytest.approx(most)


def test_embedment_of_screws() -> None:
    """Written out. Tolerance: rounding."""
    assert screw_effective_diameter_mm(thread_mm=8.0, root_mm=5.0) == pytest.approx(5.5)
    assert (
        screw_effective_diameter_mm(thread_mm=8.0, root_mm=5.0, smooth_mm=5.8, smooth_in_point_mm=24.0) == 5.8
    )
    assert screw_embedment_n_mm2(5.5, 350.0) == pytest.approx(28.7 / 5.5**0.3)
    assert screw_embedment_n_mm2(8.0, 350.0, angle_deg=90.0, predrilled=True) == pytest.approx(26.404 / 1.47)
    assert nail_embedment_n_mm2(4.0, 350.0, predrilled=True) == pytest.approx(27.552)
    assert bolt_embedment_n_mm2(16.0, 350.0, 90.0) == pytest.approx(24.108 / 1.59)


def test_distances_of_nails_and_bolts() -> None:
    """Table 8.2 and 8.4 in diameters, worked at 0 and 90 degrees. Exact."""

    def in_diameters(ours: Distances, d: float) -> tuple[float, ...]:
        first = (ours.along_mm, ours.across_mm, ours.loaded_end_mm, ours.free_end_mm)
        return tuple(x / d for x in (*first, ours.loaded_edge_mm, ours.free_edge_mm))

    light = {"rho_k_kg_m3": 350.0, "predrilled": False}
    assert in_diameters(nail_distances(4.0, **light), 4.0) == pytest.approx((10, 5, 15, 10, 5, 5))  # type: ignore[arg-type]  # two kinds of value
    assert in_diameters(nail_distances(6.0, 350.0, 90.0, predrilled=False), 6.0) == pytest.approx(
        (5, 5, 10, 10, 10, 5)
    )
    assert in_diameters(nail_distances(4.0, 450.0, predrilled=False), 4.0) == pytest.approx(
        (15, 7, 20, 15, 7, 7)
    )
    assert in_diameters(nail_distances(5.0, 350.0, predrilled=True), 5.0) == pytest.approx(
        (5, 3, 12, 7, 3, 3)
    )
    assert in_diameters(bolt_distances(10.0, 90.0), 10.0) == pytest.approx((4, 4, 8, 7, 4, 3))


def test_a_joint_that_is_too_tight_says_where() -> None:
    """The end is 60 mm where 84 is needed; the rest is far enough. Exact."""
    far = math.inf
    there = Distances(
        along_mm=60, across_mm=48, loaded_end_mm=60, free_end_mm=far, loaded_edge_mm=far, free_edge_mm=40
    )
    faults = too_near(there, bolt_distances(12.0))
    assert [(f.distance, f.there_mm, f.needed_mm) for f in faults] == [("loaded end", 60, 84.0)]


def test_how_many_of_a_row_count() -> None:
    """4^0.85 at 10 d; 4^0.7 at 7 d; half way 4^0.775; 3^0.5 at 4 d drilled; all at 14 d. Bolts at 45 deg half way."""
    assert nails_in_row(4, 40.0, 4.0, predrilled=False) == pytest.approx(4.0**0.85)
    assert nails_in_row(4, 34.0, 4.0, predrilled=False) == pytest.approx(4.0**0.775)
    assert nails_in_row(3, 16.0, 4.0, predrilled=True) == pytest.approx(3.0**0.5)
    assert nails_in_row(5, 60.0, 4.0, predrilled=False) == pytest.approx(5.0)
    along = 3.0**0.9 * (60.0 / 156.0) ** 0.25
    assert bolts_in_row(3, 60.0, 12.0, 45.0) == pytest.approx((along + 3.0) / 2.0)


def test_a_beam_pulled_across_its_grain() -> None:
    """14 x 50 sqrt(100/0.5). Tolerance: rounding."""
    assert splitting_force_n(width_mm=50.0, depth_mm=200.0, to_far_fastener_mm=100.0) == pytest.approx(
        700.0 * 200.0**0.5
    )


def test_nails_and_bolts_along_their_axis() -> None:
    """20e-6 x 3502 = 2.45; x 4 x 60; short point at 10 d half of it. Washer 3 x 2.5 x area; steel 0.9 x 400 x 84.3."""
    pull = smooth_nail_pull(d_mm=4.0, head_mm=8.0, point_mm=60.0, head_side_mm=30.0, rho_k_kg_m3=350.0)
    assert (pull.draws_out_n, pull.head_through_n) == pytest.approx((588.0, 294.0 + 8.575 * 64.0))
    short = smooth_nail_pull(d_mm=4.0, head_mm=8.0, point_mm=40.0, head_side_mm=30.0, rho_k_kg_m3=350.0)
    assert short.draws_out_n == pytest.approx(2.45 / 2.0 * 160.0)
    bolt = bolt_pull(hole_mm=13.0, washer_mm=40.0, f_c_90_k_n_mm2=2.5, stress_area_mm2=84.3, f_u_n_mm2=400.0)
    assert (bolt.washer_n, bolt.steel_n) == pytest.approx((7.5 * math.pi * (400.0 - 42.25), 30348.0))
    forces = {"pull_n": 300.0, "shear_n": -400.0, "pull_resistance_n": 1000.0, "shear_resistance_n": 1000.0}
    assert pull_and_shear_share(**forces, smooth_nail=True) == pytest.approx(0.7)
    assert pull_and_shear_share(**forces, smooth_nail=False) == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("curve", "alpha"), [("a0", 0.13), ("a", 0.21), ("b", 0.34), ("c", 0.49), ("d", 0.76)]
)
def test_steel_curves_solve_ayrton_and_perry(curve: str, alpha: float) -> None:
    """chi is the root of chi + eta chi / (1 - chi l2) = 1, eta = alpha (l - 0.2). Tolerance: rounding."""
    for slender in (0.3, 1.0, 2.5):
        chi = steel_chi(slender, curve)  # type: ignore[arg-type]  # a plain str here
        assert chi + alpha * (slender - 0.2) * chi / (1.0 - chi * slender**2) == pytest.approx(1.0, rel=1e-9)


def test_a_steel_tube_as_a_post_and_a_beam() -> None:
    """60 x 60 x 3, S235, 2.4 m, curve c: Euler's force, then the curve. Tolerance: rounding."""
    area, second = 684.0, (60.0**4 - 54.0**4) / 12.0
    post = steel_post(area_mm2=area, second_moment_mm4=second, length_mm=2400.0, f_y_n_mm2=235.0, curve="c")
    euler = math.pi**2 * 210e3 * second / 2400.0**2
    slender = (684.0 * 235.0 / euler) ** 0.5
    phi = 0.5 * (1.0 + 0.49 * (slender - 0.2) + slender**2)
    chi = 1.0 / (phi + (phi**2 - slender**2) ** 0.5)
    assert (post.critical_n, post.slenderness, post.chi) == pytest.approx((euler, slender, chi))
    assert post.resistance_n == pytest.approx(chi * 684.0 * 235.0)
    beam = steel_beam(modulus_mm3=2e4, critical_n_mm=4.7e6, f_y_n_mm2=235.0)
    assert beam.resistance_n_mm == pytest.approx(4.7e6 / (1.304 + (1.304**2 - 1.0) ** 0.5))
    assert steel_post_share(push_share=0.3, bending_y_share=0.4, bending_z_share=0.1) == pytest.approx(
        0.3 + 1.42 * 0.5
    )


def test_classes_of_steel_parts() -> None:
    """c/t 18 within 33; 12 between 10 and 14; S355 shrinks 38 to 30.9; a tube of 60 at 235 within 70. Exact."""
    assert steel("S355", 10.0).f_y_n_mm2 == 355.0
    assert part_class("inside, pushed", 54.0, 3.0, 235.0) == 1
    assert part_class("outstand, pushed", 60.0, 5.0, 235.0) == 3
    assert part_class("inside, pushed", 90.0, 3.0, 355.0) == 2
    assert part_class("round tube", 180.0, 3.0, 235.0) == 2
    assert part_class("inside, bent", 240.0, 2.0, 235.0) == 3


def test_aluminium_buckling_factors() -> None:
    """phi = 1.09: 1/(1.09 + sqrt 0.1881); 1.16; 1.02; 1.06. Tolerance: the digits written."""
    assert aluminium_chi(1.0, "A") == pytest.approx(1.0 / (1.09 + 0.1881**0.5))
    assert aluminium_chi(1.0, "A") == pytest.approx(0.6563, abs=5e-5)
    assert aluminium_chi(1.0, "B") == pytest.approx(0.5721, abs=5e-5)
    assert aluminium_chi_sideways(1.0, 2) == pytest.approx(0.819, abs=5e-5)
    assert aluminium_chi_sideways(1.0, 3) == pytest.approx(0.7084, abs=5e-5)


def test_an_aluminium_tee_in_bending() -> None:
    """W 1935.26, f_o 140: 0.246306 kNm held; with M_cr = W f_o the chi of slenderness 1. Tolerance: digits written."""
    held = aluminium_bar(
        elastic_modulus_mm3=1935.26, f_o_n_mm2=140.0, critical_n_mm=math.inf, section_class=3
    )
    assert held.resistance_n_mm / 1e6 == pytest.approx(0.246306, abs=1e-6)
    free = aluminium_bar(
        elastic_modulus_mm3=1935.26, f_o_n_mm2=140.0, critical_n_mm=1935.26 * 140.0, section_class=3
    )
    assert free.resistance_n_mm / 1e6 == pytest.approx(0.246306 * 0.7084, rel=1e-4)


def test_an_aluminium_tube_as_a_post() -> None:
    """60 x 60 x 3, f_o 160, 2.4 m, class A. Tolerance: rounding."""
    second = (60.0**4 - 54.0**4) / 12.0
    post = aluminium_post(
        area_mm2=684.0,
        second_moment_mm4=second,
        length_mm=2400.0,
        f_o_n_mm2=160.0,
        buckling_class="A",
        symmetrical=True,
    )
    euler = math.pi**2 * 70e3 * second / 2400.0**2
    slender = (684.0 * 160.0 / euler) ** 0.5
    phi = 0.5 * (1.0 + 0.2 * (slender - 0.1) + slender**2)
    assert post.resistance_n == pytest.approx(684.0 * 160.0 / 1.1 / (phi + (phi**2 - slender**2) ** 0.5))


def test_a_pad_held_down() -> None:
    """0.6 x 0.6 x 0.7 x 24 = 6.048; 0.9 x 7.048 against 1.5 x 6. Tolerance: digits written."""
    pad = pad_weight_kn(600.0, 600.0, 700.0)
    assert pad == pytest.approx(6.048, abs=1e-9)
    held = uplift_of_pad(wind_up_kn=6.0, roof_kn=1.0, pad_kn=pad)
    assert (held.capacity, held.demand) == pytest.approx((6.3432, 9.0))
    assert held.utilisation == pytest.approx(1.41884, abs=1e-5)


def test_a_pad_turned_over() -> None:
    """0.9 x 8 x 0.35 = 2.52 against 1.5 x 0.5 x 2.3 = 1.725; 1 kN up adds 1.5 x 0.35. Tolerance: rounding."""
    turned: dict[str, Any] = {"horizontal_kn": 0.5, "height_mm": 2300.0, "weight_kn": 8.0, "width_mm": 700.0}
    held = overturning_of_pad(**turned)
    assert (held.capacity, held.demand) == pytest.approx((2.52, 1.725))
    assert overturning_of_pad(**turned, up_kn=1.0).demand == pytest.approx(1.725 + 0.525)


@pytest.mark.parametrize(("moment", "effective"), [(0.5, 500.0), (1.5, 300.0)])
def test_what_a_pad_presses_on_the_ground(moment: float, effective: float) -> None:
    """10 kN on 0.6 x 0.6: e 50 mm within the middle third, e 150 beyond. Tolerance: rounding."""
    ground = bearing_under_pad(vertical_kn=10.0, moment_knm=moment, length_mm=600.0, width_mm=600.0)
    assert ground.effective_width_mm == pytest.approx(effective)
    assert ground.even_kn_m2 == pytest.approx(10.0 / (0.6 * effective / 1e3))


def test_what_a_pad_presses_on_the_ground_when_turned_both_ways() -> None:
    """12 kN on 0.8 x 0.6: e 100 and 50 leave 0.4 x 0.7 = 0.28 m2, 42.857 kN/m2; bent one way by both: 39.854.

    By hand, as Annex D has it. Tolerance: rounding.
    """
    pad: dict[str, float] = {"vertical_kn": 12.0, "length_mm": 800.0, "width_mm": 600.0}
    both = bearing_under_pad(**pad, moment_knm=1.2, moment_along_length_knm=0.6)
    assert (both.eccentricity_mm, both.eccentricity_along_mm) == pytest.approx((100.0, 50.0))
    assert (both.effective_width_mm, both.effective_length_mm) == pytest.approx((400.0, 700.0))
    assert both.even_kn_m2 == pytest.approx(12.0 / 0.28)
    one = bearing_under_pad(**pad, moment_knm=math.hypot(1.2, 0.6))
    assert one.even_kn_m2 == pytest.approx(12.0 / (0.8 * (0.6 - 2.0 * 0.1118034)), rel=1e-6)
    assert both.even_kn_m2 > 1.07 * one.even_kn_m2


def test_how_far_posts_lean_by_their_height() -> None:
    """0.005 up to 5 m; 0.005 sqrt(5 / 7.2) = 0.0041667 at 7.2 m."""
    assert out_of_plumb(2300.0) == out_of_plumb(5000.0) == pytest.approx(0.005)
    assert out_of_plumb(7200.0) == pytest.approx(0.0041666667, rel=1e-6)
