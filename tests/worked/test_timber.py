"""Timber and screws by a second route: the arithmetic of each clause is written out here, nothing is taken from src/.

Clauses of EN 1995-1-1:2004+A1, strengths of EN 338. Where a number stands alone it was worked by hand from the formula
beside it and is given to the digits shown.
"""

from __future__ import annotations

import math

import pytest

from pentice.standards.en1995 import (
    bearing_length_mm,
    bearing_stress_n_mm2,
    bending_slenderness,
    column_slenderness,
    critical_stress_n_mm2,
    design_strength_n_mm2,
    gravity_buckling_length_mm,
    k_c,
    k_c_90,
    k_crit,
    shear_stress_n_mm2,
    shortest_duration,
    size_factor,
    uplift_buckling_length_mm,
)
from pentice.standards.en1995_deflection import (
    VariableSag,
    final_deflection_mm,
    final_limit_mm,
    instant_limit_mm,
)
from pentice.standards.en1995_screws import (
    declared_withdrawal_n,
    group_factor,
    inside_screw_formula,
    least_timber_mm,
    prying_factor,
    pull_through_n,
    screw_design_n,
    screw_distances,
    screw_pull_n,
    widest_hole_gauge_mm,
    withdrawal_n,
    withdrawal_strength_n_mm2,
)


@pytest.mark.parametrize(
    ("depth", "factor"),
    [
        (40.0, 1.3),
        (47.0, 1.26124),
        (97.0, 1.0911),
        (100.0, 1.08447),
        (147.0, 1.00405),
        (150.0, 1.0),
        (200.0, 1.0),
    ],
)
def test_size_factor_of_solid_timber(depth: float, factor: float) -> None:
    """(150/h)^0.2, at most 1.3, only below 150 mm. Tolerance: half the last digit written."""
    assert size_factor(depth) == pytest.approx(factor, abs=1e-5)


@pytest.mark.parametrize(
    ("uplift", "length", "critical", "slenderness", "factor"),
    [(False, 2994.0, 21.1405, 0.869966, 0.907525), (True, 2626.5, 24.0985, 0.814827, 0.94888)],
)
def test_lateral_buckling_of_a_c16_rafter(
    uplift: bool, length: float, critical: float, slenderness: float, factor: float
) -> None:
    """47 x 147 over 3 m: 0.9 x 3000 + 2 x 147, or - 0.5 x 147. Tolerance: the digits written."""
    ours = (uplift_buckling_length_mm if uplift else gravity_buckling_length_mm)(3000.0, 147.0)
    assert ours == pytest.approx(length)
    stress = critical_stress_n_mm2(47.0, 147.0, ours, 5400.0)
    assert stress == pytest.approx(critical, abs=1e-3)
    assert bending_slenderness(16.0, stress) == pytest.approx(slenderness, abs=1e-5)
    assert k_crit(bending_slenderness(16.0, stress)) == pytest.approx(factor, abs=1e-5)


@pytest.mark.parametrize(("length", "factor"), [(0.9 * 3000 + 2 * 145, 0.882), (0.9 * 3000 - 145 / 2, 0.925)])
def test_lateral_buckling_of_a_c24_rafter(length: float, factor: float) -> None:
    """47 x 145 over 3 m: 1.56 - 0.75 sqrt(24 h l / (0.78 b2 7400)). Tolerance: half the last digit."""
    by_hand = 1.56 - 0.75 * math.sqrt(24.0 * 145.0 * length / (0.78 * 47.0**2 * 7400.0))
    assert by_hand == pytest.approx(factor, abs=5e-4)
    ours = k_crit(bending_slenderness(24.0, critical_stress_n_mm2(47.0, 145.0, length, 7400.0)))
    assert ours == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.parametrize(
    ("slenderness", "factor"), [(0.5, 1.0), (0.75, 1.0), (1.0, 0.81), (1.4, 0.51), (2.0, 0.25)]
)
def test_k_crit_on_each_branch(slenderness: float, factor: float) -> None:
    """1; 1.56 - 0.75 x 1.0; 1.56 - 1.05; 1/4. Tolerance: rounding of floating point."""
    assert k_crit(slenderness) == pytest.approx(factor, rel=1e-9)


def test_shear_in_a_cracked_section() -> None:
    """1.5 x 3290.62 / (0.67 x 75 x 200) over 0.8 x 4 / 1.3. Tolerance: the digits written."""
    stress = shear_stress_n_mm2(3290.62, 75.0, 200.0)
    assert stress == pytest.approx(0.491138, abs=1e-6)
    assert stress / design_strength_n_mm2(4.0, 0.8, 1.3) == pytest.approx(0.199525, abs=1e-6)


def test_bearing_at_an_end() -> None:
    """5 kN on 47 x 47 of C16: l_ef 47 + 30, against 1.5 x 0.9 x 2.2 / 1.3. Tolerance: the digits written."""
    length = bearing_length_mm(47.0, free_before_mm=0.0, free_after_mm=3000.0)
    assert length == 77.0
    assert bearing_stress_n_mm2(5000.0, 47.0, length) == pytest.approx(1.3816, abs=1e-4)
    factor = k_c_90("solid", to_next_mm=2900.0, depth_mm=147.0, contact_mm=47.0)
    assert factor * design_strength_n_mm2(2.2, 0.9, 1.3) == pytest.approx(2.28462, abs=1e-5)


@pytest.mark.parametrize(
    ("contact", "before", "after", "following", "length"),
    [
        (50.0, 10.0, 500.0, 1000.0, 50.0 + 10.0 + 30.0),
        (20.0, 100.0, 100.0, 1000.0, 20.0 + 20.0 + 20.0),
        (50.0, 100.0, 100.0, 40.0, 50.0 + 20.0 + 20.0),
    ],
)
def test_what_helps_a_bearing(
    contact: float, before: float, after: float, following: float, length: float
) -> None:
    """Each side adds the least of 30 mm, the free timber, the contact and half the distance to the next. Exact."""
    ours = bearing_length_mm(contact, free_before_mm=before, free_after_mm=after, to_next_mm=following)
    assert ours == pytest.approx(length)


@pytest.mark.parametrize(
    ("material", "following", "contact", "continuous", "factor"),
    [
        ("solid", 200.0, 50.0, False, 1.0),
        ("solid", 400.0, 50.0, False, 1.5),
        ("solid", 400.0, 50.0, True, 1.25),
        ("glulam", 400.0, 500.0, False, 1.0),
        ("glulam", 400.0, 50.0, True, 1.5),
    ],
)
def test_crushing_factor(
    material: str, following: float, contact: float, continuous: bool, factor: float
) -> None:
    """Twice the depth of 147 is 294: nearer contacts get no help. Exact: the clause gives these numbers."""
    ours = k_c_90(
        material,  # type: ignore[arg-type]  # the parameters above are plain text
        to_next_mm=following,
        depth_mm=147.0,
        contact_mm=contact,
        continuous=continuous,
    )
    assert ours == factor


@pytest.mark.parametrize(
    ("permanent", "snow", "k_def", "low", "high"), [(2.0, 6.0, 0.6, 9.2, 9.92), (2.0, 6.0, 0.8, 9.6, 10.56)]
)
def test_sag_in_the_end(permanent: float, snow: float, k_def: float, low: float, high: float) -> None:
    """2 (1 + k) + 6 (1 + psi2 k), psi2 0 up to 1000 m and 0.2 above. Tolerance: rounding of floating point."""
    for psi_2, expected in ((0.0, low), (0.2, high)):
        leading = VariableSag(sag_mm=snow, psi_0=0.5, psi_2=psi_2)
        assert final_deflection_mm(permanent, leading, k_def=k_def) == pytest.approx(expected, rel=1e-9)


def test_sag_of_actions_that_come_along() -> None:
    """2 x 1.8 + 6 (1 + 0.2 x 0.8) + 1 (0.6 + 0 x 0.8) = 11.16; at once 2 + 6 + 0.6. Tolerance: floating point."""
    leading = VariableSag(sag_mm=6.0, psi_0=0.7, psi_2=0.2)
    wind = VariableSag(sag_mm=1.0, psi_0=0.6, psi_2=0.0)
    assert final_deflection_mm(2.0, leading, (wind,), k_def=0.8) == pytest.approx(11.16, rel=1e-9)


def test_limits_of_sag_of_a_span_and_a_tip() -> None:
    """3000/300, 3000/250, and twice that of its length for a tip of 200: 400/300, 400/250. Exact."""
    assert (instant_limit_mm(3000.0), final_limit_mm(3000.0)) == (10.0, 12.0)
    assert instant_limit_mm(200.0, overhang=True) == pytest.approx(4.0 / 3.0)
    assert final_limit_mm(200.0, overhang=True) == pytest.approx(1.6)


@pytest.mark.parametrize(
    ("size", "length", "strength", "e_0_05", "slenderness", "factor", "load"),
    [
        (100.0, 2400.0, 21.0, 7400.0, 1.40976, 0.42172, 61.3116),
        (100.0, 2400.0, 17.0, 5400.0, 1.48484, 0.385998, 45.429),
        (95.0, 2100.0, 21.0, 7400.0, 1.29846, 0.482628, 63.3255),
    ],
)
def test_square_posts(
    size: float, length: float, strength: float, e_0_05: float, slenderness: float, factor: float, load: float
) -> None:
    """k = (1 + 0.2 (l - 0.3) + l2)/2, k_c = 1/(k + sqrt(k2 - l2)), k_mod 0.9. Tolerance: the digits written."""
    ours = column_slenderness(length, size, strength, e_0_05)
    assert ours == pytest.approx(slenderness, abs=1e-5)
    assert k_c(ours) == pytest.approx(factor, abs=1e-5)
    carried = k_c(ours) * design_strength_n_mm2(strength, 0.9, 1.3) * size**2 / 1e3
    assert carried == pytest.approx(load, abs=1e-3)


def test_the_shortest_action_sets_the_duration() -> None:
    """Snow (short) with wind (instantaneous) and self weight."""
    assert shortest_duration(("permanent", "short", "instantaneous")) == "instantaneous"
    assert shortest_duration(("permanent",)) == "permanent"


@pytest.mark.parametrize(
    ("length", "strength", "pull", "design_2", "design_3"),
    [(40.0, 15.92, 2866.0, 1984.0, 1543.0), (60.0, 15.2886, 4127.92, 2858.0, 2223.0)],
)
def test_withdrawal_of_a_6_mm_screw_from_c24(
    length: float, strength: float, pull: float, design_2: float, design_3: float
) -> None:
    """0.52 6^-0.5 l^-0.1 350^0.8, times 6 l 6/8, times 0.9 or 0.7 over 1.3. Tolerance: the digits written."""
    assert withdrawal_strength_n_mm2(6.0, length, 350.0) == pytest.approx(strength, rel=5e-4)
    ours = withdrawal_n(thread_mm=6.0, root_mm=4.0, length_mm=length, rho_k_kg_m3=350.0)
    assert ours == pytest.approx(pull, rel=5e-4)
    for k_mod, design in ((0.9, design_2), (0.7, design_3)):
        made = screw_design_n(timber_n=ours, steel_n=1e6, k_mod=k_mod)
        assert made == pytest.approx(design, rel=5e-4)


def test_four_screws_at_45_degrees() -> None:
    """4^0.9 x 4127.92 / (1.2 x 0.5 + 0.5) = 13067.5 N. Tolerance: the digits written."""
    one = withdrawal_n(thread_mm=6.0, root_mm=4.0, length_mm=60.0, rho_k_kg_m3=350.0, angle_deg=45.0)
    assert group_factor(4) * one == pytest.approx(13067.5, abs=0.1)


def test_an_8_mm_screw_has_no_reduction_for_its_size() -> None:
    """k_d = min(8/8, 1) and min(10/8, 1): f_ax d l. Tolerance: rounding of floating point."""
    for d in (8.0, 10.0):
        by_hand = 0.52 * d**-0.5 * 100.0**-0.1 * 350.0**0.8 * d * 100.0
        ours = withdrawal_n(thread_mm=d, root_mm=0.7 * d, length_mm=100.0, rho_k_kg_m3=350.0)
        assert ours == pytest.approx(by_hand, rel=1e-9)


def test_a_declared_5_mm_screw_in_lighter_timber() -> None:
    """12 x 5 x 40 x (310/350)^0.8 = 2177.9 N, no k_d. Tolerance: the digits written."""
    ours = declared_withdrawal_n(
        thread_mm=5.0, length_mm=40.0, f_ax_n_mm2=12.0, rho_a_kg_m3=350.0, rho_k_kg_m3=310.0
    )
    assert ours == pytest.approx(2400.0 * math.exp(0.8 * math.log(310.0 / 350.0)), rel=1e-9)


def test_head_pull_through_in_c16() -> None:
    """10 x 12 x 12 x (310/350)^0.8 = 1306.76 N. Tolerance: the digits written."""
    ours = pull_through_n(f_head_n_mm2=10.0, head_mm=12.0, rho_a_kg_m3=350.0, rho_k_kg_m3=310.0)
    assert ours == pytest.approx(1306.76, abs=0.01)


def test_steel_governs_a_deep_screw() -> None:
    """Steel 3000 N: 0.9/1.3 is less than 1/1.25, so 2076.9; at k_mod 1.1, 1/1.25 is less, so 2400. Exact to 0.1 N."""
    assert screw_design_n(timber_n=9e3, steel_n=3e3, k_mod=0.9) == pytest.approx(2076.92, abs=0.01)
    assert screw_design_n(timber_n=9e3, steel_n=3e3, k_mod=1.1) == pytest.approx(2400.0)


def test_screw_distances_and_the_gauge_a_rafter_leaves() -> None:
    """7, 5, 10, 4 and 12 times 6 mm; 70 - 8 x 6 and 70 - 8 x 5. Exact."""
    d = screw_distances(6.0)
    assert (d.along_mm, d.across_mm, d.end_mm, d.edge_mm) == (42.0, 30.0, 60.0, 24.0)
    assert least_timber_mm(6.0) == 72.0
    assert (widest_hole_gauge_mm(70.0, 6.0), widest_hole_gauge_mm(70.0, 5.0)) == (22.0, 30.0)


@pytest.mark.parametrize(
    ("pressure", "spacing"), [(1.0, 1006.0), (1.5, 671.0), (2.0, 503.0), (2.5, 402.0), (4.0, 252.0)]
)
def test_spacing_that_a_screw_allows(pressure: float, spacing: float) -> None:
    """1509 N over 1.0 m of width and prying 1.5: 1509 / (w x 1.5) mm. Tolerance: the digits written."""
    assert screw_pull_n(pressure, spacing) == pytest.approx(1509.0, rel=0.002)


def test_prying_by_the_lever() -> None:
    """A line of load 8 mm from the screw, the heel 22 mm beyond it: 30/22. Tolerance: floating point."""
    assert prying_factor(8.0, 22.0) == pytest.approx(30.0 / 22.0, rel=1e-12)


@pytest.mark.parametrize(
    ("thread", "root", "inside"),
    [(6.0, 3.6, True), (6.0, 4.5, True), (5.0, 3.3, False), (6.0, 3.5, False), (12.5, 8.0, False)],
)
def test_the_range_of_the_withdrawal_formula(thread: float, root: float, inside: bool) -> None:
    """6 to 12 mm, root 0.6 to 0.75 of the thread."""
    assert inside_screw_formula(thread, root) is inside
