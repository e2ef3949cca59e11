"""Strips, plates, sections and beams by a second route: worked out here, nothing is taken from src/ for the expected.

Sheets are generic and invented, no product: 10 mm twin, 16 mm triple, 25 mm five walls.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from pentice.mechanics.beam import Beam, overhang_beam, rectangle_stiffness
from pentice.mechanics.continuous import ContinuousBeam, continuous_beam
from pentice.mechanics.lines import LineLoad, drift_line, even_line, summed_line
from pentice.mechanics.plate import PlateLoad, plate_at, plate_extremes
from pentice.mechanics.section import (
    Multiwall,
    PlateStiffness,
    local_stress,
    plate_stiffness,
    second_moment_across_mm3,
    shear_stiffness_across_n_m,
    skin_heights_mm,
    skin_stress_n_mm2,
)
from pentice.mechanics.strip import (
    Sag,
    chord_shortening_mm,
    end_rotation_rad,
    grip_draw_mm,
    strip_moment_n,
    strip_sag,
    strip_shear_n_mm,
)
from pentice.mechanics.temperature import sheet_temperature_c

TWIN = Multiwall(depth_mm=10.0, skins_mm=(0.45, 0.45), rib_mm=0.5, pitch_mm=10.5)
TRIPLE = Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=0.65, pitch_mm=20.0)
FIVE = Multiwall(depth_mm=25.0, skins_mm=(0.75, 0.12, 0.12, 0.12, 0.75), rib_mm=0.85, pitch_mm=20.0)

# Worked by an independent calculation of the whole section (finite elements for the second moments, the energy of a
# unit cell for the shear), to the digits shown: Bx, By, B1, Dt [N m], Sy [N/m].
CONSTANTS = [
    (TWIN, (62.9, 55.9, 20.7, 17.6, 1935.0)),
    (TRIPLE, (270.9, 251.9, 93.2, 79.3, 1861.0)),
    (FIVE, (731.0, 624.0, 231.0, 197.0, 2163.0)),
]


@pytest.mark.parametrize(("sheet", "constants"), CONSTANTS)
def test_constants_of_multiwall_sheets(sheet: Multiwall, constants: tuple[float, ...]) -> None:
    """Tolerance 0.15 %: half the last digit shown."""
    ours = plate_stiffness(sheet)
    found = (ours.bx_n_m, ours.by_n_m, ours.b1_n_m, ours.dt_n_m, ours.sy_n_m)
    assert found == pytest.approx(constants, rel=1.5e-3)


def test_a_twin_wall_racks_like_a_row_of_portal_frames() -> None:
    """1/(p2/(24 D_f) + p d/(12 D_r)), slope-deflection of one cell by hand. Tolerance: floating point."""
    modulus = 2350.0 / (1.0 - 0.37**2)
    skin, rib = modulus * 0.45**3 / 12.0, modulus * 0.5**3 / 12.0
    by_hand = 1.0 / (10.5**2 / (24.0 * skin) + 10.5 * 9.55 / (12.0 * rib))
    assert shear_stiffness_across_n_m(TWIN) == pytest.approx(1000.0 * by_hand, rel=1e-9)


def test_shear_along_the_flutes_is_that_of_the_ribs() -> None:
    """G t_r h/p = 857.66 x 0.5 x 9.1/10.5 = 371.65 N/mm. Tolerance: floating point."""
    by_hand = 2350.0 / (2.0 * 1.37) * 0.5 * 9.1 / 10.5 * 1000.0
    assert plate_stiffness(TWIN).sx_n_m == pytest.approx(by_hand, rel=1e-9)


def test_second_moment_and_heights_of_the_skins() -> None:
    """2 (0.8^3/12 + 0.8 x 7.6^2) + 0.15^3/12 = 92.5019. Tolerance: the digits written."""
    assert second_moment_across_mm3(TRIPLE) == pytest.approx(92.5016, abs=5e-4)
    assert skin_heights_mm(TRIPLE) == pytest.approx((-7.6, 0.0, 7.6))
    assert skin_stress_n_mm2(TRIPLE, 61.25) == pytest.approx(61.25 * 8.0 / 92.5016, rel=1e-5)


def test_local_bending_of_a_twin_wall_at_the_bar() -> None:
    """0.7 m, 1 kN/m2: Q 0.35 N/mm; skin 1.5 Q p/t2 = 27.2, rib 3 Q p/t_r2 = 44.1. Tolerance: floating point."""
    stress = local_stress(TWIN, strip_shear_n_mm(1.0, 700.0))
    assert stress.skin_n_mm2 == pytest.approx(1.5 * 0.35 * 10.5 / 0.45**2, rel=1e-9)
    assert stress.rib_n_mm2 == pytest.approx(3.0 * 0.35 * 10.5 / 0.5**2, rel=1e-9)


def test_local_bending_of_a_triple_wall() -> None:
    """Three walls, solved by hand: one turning t of the outer joints, one of the middle. Tolerance: floating point."""
    modulus = 2350.0 / (1.0 - 0.37**2)
    outer, middle, rib = (modulus * t**3 / 12.0 for t in (0.8, 0.15, 0.65))
    p, d = 20.0, 7.6
    # Slope-deflection about a lean of 1: joint balance of the outer and of the middle joint.
    balance = np.array(
        [
            [12.0 * outer / p + 4.0 * rib / d, 2.0 * rib / d],
            [4.0 * rib / d, 12.0 * middle / p + 8.0 * rib / d],
        ]
    )
    turn_outer, turn_middle = np.linalg.solve(balance, [12.0 * outer / p, 12.0 * middle / p])
    skins = [6.0 * stiff / p * (1.0 - turn) for stiff, turn in ((outer, turn_outer), (middle, turn_middle))]
    shear = 2.0 / p * (2.0 * skins[0] + skins[1])
    assert shear_stiffness_across_n_m(TRIPLE) == pytest.approx(1000.0 * shear, rel=1e-9)
    ends = (4.0 * turn_outer + 2.0 * turn_middle, 4.0 * turn_middle + 2.0 * turn_outer)
    stress = local_stress(TRIPLE, 0.35)
    assert stress.rib_n_mm2 == pytest.approx(max(ends) * rib / d * 6.0 / 0.65**2 * 0.35 / shear, rel=1e-9)
    skin = max(skins[0] * 6.0 / 0.8**2, skins[1] * 6.0 / 0.15**2)
    assert stress.skin_n_mm2 == pytest.approx(skin * 0.35 / shear, rel=1e-9)


def test_a_strip_of_round_numbers() -> None:
    """0.7 m, 1 kN/m2, B 1100, S 50000: 5 q b4/384B = 2.84209, q b2/8S = 1.225, q b2/8 = 61.25. Tolerance: digits."""
    sag = strip_sag(1.0, 700.0, 1100.0, 50000.0)
    assert sag.bending_mm == pytest.approx(2.84209, abs=1e-5)
    assert sag.shear_mm == pytest.approx(1.225, abs=1e-9)
    assert sag.total_mm == pytest.approx(4.06709, abs=1e-5)
    assert strip_moment_n(1.0, 700.0) == pytest.approx(61.25)
    assert strip_shear_n_mm(1.0, 700.0) == pytest.approx(0.35)


@pytest.mark.parametrize(
    ("sheet", "narrow", "wide"), [(TWIN, 88.0, 298.0), (TRIPLE, 45.0, 119.0), (FIVE, 33.0, 79.0)]
)
def test_sags_of_generic_sheets(sheet: Multiwall, narrow: float, wide: float) -> None:
    """0.7 and 1.0 m under 1 kN/m2, worked with the constants above. Tolerance: half a millimetre, as written."""
    plate = plate_stiffness(sheet)
    for span, expected in ((700.0, narrow), (1000.0, wide)):
        assert strip_sag(1.0, span, plate.by_n_m, plate.sy_n_m).total_mm == pytest.approx(expected, abs=0.6)


@pytest.mark.parametrize(
    ("span", "sag", "shortening"),
    [(900.0, 20.0, 1.185), (900.0, 45.0, 6.0), (1180.0, 60.0, 8.136), (2000.0, 100.0, 13.333)],
)
def test_a_parabola_draws_in(span: float, sag: float, shortening: float) -> None:
    """8 f2/(3 b). Tolerance: the digits written."""
    assert chord_shortening_mm(Sag(bending_mm=0.0, shear_mm=sag), span) == pytest.approx(shortening, abs=5e-4)


@pytest.mark.parametrize(
    ("share", "shortening", "turn_deg"), [(50.0, 1.0, 3.896), (30.0, 2.8, 6.49), (20.0, 6.2, 9.74)]
)
def test_a_strip_draws_in_and_turns(share: float, shortening: float, turn_deg: float) -> None:
    """b 980, a quarter of the sag from shear; slopes squared and summed in 2000 steps. Tolerance: 1e-5 of the sum."""
    span = 980.0
    sag = Sag(bending_mm=0.75 * span / share, shear_mm=0.25 * span / share)
    at = (np.arange(2000) + 0.5) / 2000.0
    bent = 3.2 * (1.0 - 6.0 * at**2 + 4.0 * at**3) * sag.bending_mm / span
    leant = 4.0 * (1.0 - 2.0 * at) * sag.shear_mm / span
    summed = 0.5 * float(((bent + leant) ** 2).mean()) * span
    assert chord_shortening_mm(sag, span) == pytest.approx(summed, rel=1e-5)
    assert summed == pytest.approx(shortening, abs=0.05)
    turn = end_rotation_rad(sag, span)
    assert turn == pytest.approx(float(bent[0] + leant[0]), rel=1e-3)
    assert math.degrees(turn) == pytest.approx(turn_deg, abs=0.01)


def test_the_gripped_face_draws_in_by_half_the_depth() -> None:
    """16/2 x 0.1. Exact."""
    assert grip_draw_mm(16.0, 0.1) == pytest.approx(0.8)


@pytest.mark.parametrize(
    ("sag", "bite"), [(20.0, 14.562), (45.0, 9.777), (60.0, 5.139), (80.0, -3.106), (44.151, 10.0)]
)
def test_bite_left_under_load(sag: float, bite: float) -> None:
    """Coldest day, hard over 15.738, daylight 905.6, drawn in on one side. Tolerance: 0.0025, from rounded steps."""
    left = 15.738 - chord_shortening_mm(Sag(bending_mm=0.0, shear_mm=sag), 905.6)
    assert left == pytest.approx(bite, abs=2.5e-3)


def test_a_plate_of_two_stiffnesses() -> None:
    """3.0 x 0.7 m, Bx 2200, By 1100, H = sqrt(Bx By), 1 kN/m2: the series summed term by term. Tolerance 1e-6."""
    bx, by = 2200.0, 1100.0
    summed = 0.0
    for m in range(1, 62, 2):
        for n in range(1, 62, 2):
            al, be = m * math.pi / 3.0, n * math.pi / 0.7
            stiff = bx * al**4 + 2.0 * math.sqrt(bx * by) * al**2 * be**2 + by * be**4
            summed += (
                math.sin(m * math.pi / 2) * math.sin(n * math.pi / 2) * 16e3 / (math.pi**2 * m * n * stiff)
            )
    plate = PlateStiffness(bx_n_m=bx, by_n_m=by, b1_n_m=0.0, dt_n_m=math.sqrt(bx * by) / 2.0)
    even = PlateLoad(head_kn_m2=1.0, foot_kn_m2=1.0)
    ours = plate_at(plate, 3000.0, 700.0, even, x_mm=1500.0, y_mm=350.0)
    assert ours.sag_mm == pytest.approx(1e3 * summed, rel=1e-6)
    assert ours.sag_mm == pytest.approx(2.76605, abs=5e-4)


def test_a_plate_with_shear_solves_its_three_equations() -> None:
    """16 triple, 2.0 x 0.9 m, load from 2 to 1 kN/m2: each term's 3 x 3 equations solved by numpy. Tolerance 1e-6."""
    plate = plate_stiffness(TRIPLE)
    sag = across = 0.0
    for m in range(1, 62):
        for n in range(1, 62, 2):
            al, be = m * math.pi / 2.0, n * math.pi / 0.9
            cross = (plate.b1_n_m + plate.dt_n_m) * al * be
            k = np.array(
                [
                    [plate.sx_n_m * al**2 + plate.sy_n_m * be**2, plate.sx_n_m * al, plate.sy_n_m * be],
                    [plate.sx_n_m * al, plate.bx_n_m * al**2 + plate.dt_n_m * be**2 + plate.sx_n_m, cross],
                    [plate.sy_n_m * be, cross, plate.by_n_m * be**2 + plate.dt_n_m * al**2 + plate.sy_n_m],
                ]
            )
            q = 2.0 / (m * math.pi) * (2e3 - 1e3 * (-1.0) ** m) * 4.0 / (n * math.pi)
            w, turn_x, turn_y = np.linalg.solve(k, [q, 0.0, 0.0])
            wave = math.sin(m * math.pi / 2.0) * math.sin(n * math.pi / 2.0)
            sag += w * wave
            across -= (plate.by_n_m * be * turn_y + plate.b1_n_m * al * turn_x) * wave
    load = PlateLoad(head_kn_m2=2.0, foot_kn_m2=1.0)
    ours = plate_at(plate, 2000.0, 900.0, load, x_mm=1000.0, y_mm=450.0)
    assert ours.sag_mm == pytest.approx(1e3 * sag, rel=1e-6)
    assert ours.moment_across_n == pytest.approx(across, rel=1e-6)


@pytest.mark.parametrize(("length", "share"), [(1000.0, 0.24), (3000.0, 0.93), (5000.0, 0.99)])
def test_ends_help_a_short_bay_and_not_a_long_one(length: float, share: float) -> None:
    """16 triple, 1.0 m: sag over that of the strip, from another solution (single series). Tolerance 0.01."""
    plate = plate_stiffness(TRIPLE)
    even = PlateLoad(head_kn_m2=1.0, foot_kn_m2=1.0)
    strip = strip_sag(1.0, 1000.0, plate.by_n_m, plate.sy_n_m).total_mm
    assert plate_extremes(plate, length, 1000.0, even).sag_mm / strip == pytest.approx(share, abs=0.01)


@pytest.mark.parametrize(("bay", "sag"), [(1500.0, 103.0), (1000.0, 51.0), (750.0, 24.0)])
def test_purlins_stiffen_a_deep_snow_bay(bay: float, sag: float) -> None:
    """16 triple softened by 1.23, 0.9 m, 1.59 kN/m2: from another series solution. Tolerance: half a mm."""
    made = plate_stiffness(TRIPLE)
    creep = 1.23
    soft = PlateStiffness(
        bx_n_m=made.bx_n_m / creep,
        by_n_m=made.by_n_m / creep,
        b1_n_m=made.b1_n_m / creep,
        dt_n_m=made.dt_n_m / creep,
        sx_n_m=made.sx_n_m / creep,
        sy_n_m=made.sy_n_m / creep,
    )
    even = PlateLoad(head_kn_m2=1.59, foot_kn_m2=1.59)
    assert plate_extremes(soft, bay, 900.0, even).sag_mm == pytest.approx(sag, abs=0.5)


def test_an_overhang_of_half_a_metre() -> None:
    """3 m + 0.5 m, 1 kN/m: R 1.45833 and 2.04167, M 1.06337 and -0.125. Tolerance: the digits written."""
    answer = overhang_beam(Beam(span_mm=3000.0, overhang_mm=500.0, ei_n_mm2=1e11), even_line(3500.0, 1.0))
    assert answer.head_reaction_n == pytest.approx(1458.33, abs=0.01)
    assert answer.foot_reaction_n == pytest.approx(2041.67, abs=0.01)
    assert answer.sagging_n_mm == pytest.approx(1063368.0, abs=1.0)
    assert answer.sagging_at_mm == pytest.approx(1458.33, abs=0.01)
    assert answer.support_moment_n_mm == pytest.approx(-125e3)


def test_a_free_end_under_a_load_that_turns_its_sign() -> None:
    """-1 to 2 N/mm over 3 m: M = t2/2 - t3/6000, greatest at 2 m: 2e6 - 8e6/6. Tolerance: rounding."""
    beam = ContinuousBeam(nodes_mm=(0.0, 3000.0, 6000.0), held=(1, 2), ei_n_mm2=1e10)
    answer = continuous_beam(beam, np.array([[[-1.0, 2.0], [0.0, 0.0]]]))
    assert answer.stretch_moments_n_mm[0, 0] == pytest.approx(2e6 - 8e6 / 6.0, rel=1e-9)


def test_two_spans_of_three_metres() -> None:
    """1 kN/m on E 70000, I 50000: R 1.125, 3.75, M -1.125, +0.6328, w L4/184.6EI = 125.368. Tolerance: the digits."""
    beam = ContinuousBeam(nodes_mm=(0.0, 3000.0, 6000.0), held=(0, 1, 2), ei_n_mm2=70000.0 * 50000.0)
    answer = continuous_beam(beam, np.ones((1, 2, 2)))
    assert answer.reactions_n[0] == pytest.approx([1125.0, 3750.0, 1125.0])
    assert answer.node_moments_n_mm[0, 1] == pytest.approx(-1.125e6)
    assert answer.stretch_moments_n_mm[0] == pytest.approx([632812.5, 632812.5])
    assert answer.stretch_sags_mm[0] == pytest.approx([125.368, 125.368], abs=0.05)


def _closed_form(
    span: float, o: float, even: float, drift: float, drift_length: float
) -> tuple[float, float]:
    """Head reaction and span moment of a rafter with an even load and a drift, from integrals done by hand."""
    total, qu, qd, ls = span + o, even, drift, drift_length
    if ls > total:
        qu, qd, ls = qu + qd * (1.0 - total / ls), qd * total / ls, total
    head = qu * span / 2.0 - qu * o**2 / (2.0 * span) + qd * ls / 2.0 * (1.0 - ls / (3.0 * span))
    x = span / 2.0
    for _ in range(60):
        t = min(x, ls)
        x -= (qu * x + qd * (t - t**2 / (2.0 * ls)) - head) / (qu + qd * max(0.0, 1.0 - x / ls))
    t = min(x, ls)
    heap = qd * (t - t**2 / (2.0 * ls))
    moment = head * x - qu * x**2 / 2.0 - qd * (t**2 / 2.0 - t**3 / (6.0 * ls)) - heap * (x - t)
    return head, moment


@pytest.mark.parametrize(
    ("span", "o", "even", "drift", "length", "head", "moment"),
    [
        (2850.0, 200.0, 0.8, 1.72, 5200.0, 3132.5, 2.0684e6),
        (2850.0, 200.0, 0.8, 1.72, 2000.0, None, None),
        (3500.0, 0.0, 0.5, 1.2, 3500.0, None, None),
        (2000.0, 600.0, 1.0, 0.4, 2300.0, None, None),
    ],
)
def test_a_rafter_under_a_drift(
    span: float, o: float, even: float, drift: float, length: float, head: float | None, moment: float | None
) -> None:
    """Closed form, written above; a drift that runs past the foot is cut off. Tolerance 1e-9: floating point."""
    by_hand = _closed_form(span, o, even, drift, length)
    ours = overhang_beam(
        Beam(span_mm=span, overhang_mm=o, ei_n_mm2=1e11), drift_line(span + o, even, drift, length)
    )
    assert ours.head_reaction_n == pytest.approx(by_hand[0], rel=1e-9)
    assert ours.sagging_n_mm == pytest.approx(by_hand[1], rel=1e-9)
    if head is not None and moment is not None:
        assert ours.head_reaction_n == pytest.approx(head, abs=0.1)
        assert ours.sagging_n_mm == pytest.approx(moment, rel=5e-5)


def _summed_up(
    beam: Beam, load: LineLoad, points: tuple[tuple[float, float], ...]
) -> tuple[float, float, float, float, float]:
    """Head reaction, greatest moment, support moment, mid-span and tip sag, from 40 000 little forces."""
    total, steps = beam.span_mm + beam.overhang_mm, 40_000
    h = total / steps
    x = (np.arange(steps) + 0.5) * h
    force = np.interp(x, [p[0] for p in load], [p[1] for p in load]) * h
    for place, size in points:
        force[min(int(place / h), steps - 1)] += size
    foot = float((force * x).sum()) / beam.span_mm
    head = float(force.sum()) - foot
    at = np.arange(steps + 1) * h
    shear = head - np.concatenate(([0.0], np.cumsum(force))) + np.where(at > beam.span_mm, foot, 0.0)
    moment = np.concatenate(([0.0], np.cumsum((shear[:-1] + shear[1:]) * h / 2.0)))
    slope = np.concatenate(([0.0], np.cumsum(-(moment[:-1] + moment[1:]) * h / 2.0)))
    bent = np.concatenate(([0.0], np.cumsum((slope[:-1] + slope[1:]) * h / 2.0)))
    sag = bent / beam.ei_n_mm2 + moment / beam.shear_n
    sag = sag - at * float(np.interp(beam.span_mm, at, sag)) / beam.span_mm
    support = float(np.interp(beam.span_mm, at, moment))
    between = np.where(at <= beam.span_mm, sag, 0.0)
    return head, float(moment.max()), support, float(between[np.abs(between).argmax()]), float(sag[-1])


@pytest.mark.parametrize(
    ("overhang", "load", "points"),
    [
        (300.0, ((0.0, 2.4), (1800.0, 0.7), (3300.0, 0.7)), ()),
        (300.0, ((0.0, -1.4), (600.0, -1.4), (3300.0, -0.5)), ()),
        (450.0, ((0.0, 0.2), (3450.0, 0.2)), ((3450.0, 900.0),)),
        (300.0, ((0.0, 0.2), (3300.0, 0.2)), ((1500.0, 900.0),)),
        (0.0, ((0.0, -0.6), (1000.0, 0.9), (3000.0, -0.2)), ()),
    ],
)
def test_a_rafter_cut_into_little_steps(
    overhang: float, load: LineLoad, points: tuple[tuple[float, float], ...]
) -> None:
    """Drift, uplift, a person on the tip, at mid-span, and a load that turns about. Tolerance 2e-3: 40 000 steps."""
    ei, shear = rectangle_stiffness(47.0, 145.0, 11000.0, 690.0)
    assert ei == pytest.approx(11000.0 * 47.0 * 145.0**3 / 12.0)
    assert shear == pytest.approx(690.0 * 5.0 / 6.0 * 47.0 * 145.0)
    beam = Beam(span_mm=3000.0, overhang_mm=overhang, ei_n_mm2=ei, shear_n=shear)
    ours = overhang_beam(beam, load, points)
    head, moment, support, sag, tip = _summed_up(beam, load, points)
    assert ours.head_reaction_n == pytest.approx(head, rel=2e-3)
    assert ours.sagging_n_mm == pytest.approx(moment, rel=2e-3, abs=1.0)
    assert ours.support_moment_n_mm == pytest.approx(support, rel=2e-3, abs=200.0)
    assert ours.span_sag_mm == pytest.approx(sag, rel=2e-3)
    assert ours.tip_sag_mm == pytest.approx(tip, rel=2e-3, abs=2e-3)


def test_factored_loads_as_one() -> None:
    """1.35 x 0.2 + 1.5 (0.8 + drift of 1.0 that ends at 2000), at 0, 1000 and 3000. Tolerance: floating point."""
    both = summed_line(((1.35, even_line(3000.0, 0.2)), (1.5, drift_line(3000.0, 0.8, 1.0, 2000.0))))
    at = dict(both)
    assert at[0.0] == pytest.approx(1.35 * 0.2 + 1.5 * 1.8)
    assert at[2000.0] == pytest.approx(1.35 * 0.2 + 1.5 * 0.8)
    assert at[3000.0] == pytest.approx(1.35 * 0.2 + 1.5 * 0.8)


@pytest.mark.parametrize(
    ("absorbed", "breeze", "calm"), [(0.15, 35, 37), (0.35, 40, 47), (0.55, 46, 57), (0.75, 52, 67)]
)
def test_sheets_in_the_sun(absorbed: float, breeze: float, calm: float) -> None:
    """1000 W/m2, 32 degC, 57 W/m2 to the sky; (a I - 57)/(25 + 10) and /(12 + 8) above the air. Tolerance: whole K."""
    for outside, inside, expected in ((25.0, 10.0, breeze), (12.0, 8.0, calm)):
        ours = sheet_temperature_c(
            absorptance=absorbed,
            sun_w_m2=1000.0,
            outside_c=32.0,
            inside_c=32.0,
            outside_w_m2_k=outside,
            inside_w_m2_k=inside,
            sky_loss_w_m2=57.0,
        )
        assert ours == pytest.approx(expected, abs=0.6)
