"""What must hold for any beam, sheet and load: equilibrium, superposition, symmetry, more load is never less sag."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.mechanics.beam import Beam, BeamAnswer, BeamLoads, overhang_beam, overhang_beams
from pentice.mechanics.continuous import ContinuousBeam, continuous_beam
from pentice.mechanics.lines import LineLoad, drift_line, even_line, summed_line
from pentice.mechanics.plate import PlateLoad, plate_at, plate_extremes
from pentice.mechanics.powers import greatest_in_size
from pentice.mechanics.section import Multiwall, local_stress, plate_stiffness, shear_stiffness_across_n_m
from pentice.mechanics.strip import Sag, chord_shortening_mm, strip_sag

SIZES = st.floats(min_value=200.0, max_value=6000.0)
LOADS = st.floats(min_value=-3.0, max_value=3.0)


def _force(load: LineLoad) -> float:
    return sum((x1 - x0) * (q0 + q1) / 2.0 for (x0, q0), (x1, q1) in pairwise(load))


@given(SIZES, st.floats(min_value=0.0, max_value=800.0), LOADS, LOADS, SIZES)
def test_reactions_carry_the_load(
    span: float, overhang: float, even: float, drift: float, length: float
) -> None:
    """Up is down, and the far end is free of moment. Tolerance: rounding of floating point."""
    load = drift_line(span + overhang, even, drift, length)
    ours = overhang_beam(Beam(span_mm=span, overhang_mm=overhang, ei_n_mm2=1e11, shear_n=1e6), load)
    assert ours.head_reaction_n + ours.foot_reaction_n == pytest.approx(_force(load), abs=1e-6)
    assert ours.hogging_n_mm <= 0.0 <= ours.sagging_n_mm
    assert ours.greatest_shear_n >= abs(ours.shear_head_n) - 1e-9


@given(SIZES, st.floats(min_value=0.0, max_value=800.0), LOADS, LOADS, SIZES)
def test_uplift_is_the_mirror_of_load(
    span: float, overhang: float, even: float, drift: float, length: float
) -> None:
    """Every sign turns, sagging becomes hogging. Tolerance: rounding of floating point."""
    load = drift_line(span + overhang, even, drift, length)
    beam = Beam(span_mm=span, overhang_mm=overhang, ei_n_mm2=1e11, shear_n=1e6)
    down, up = overhang_beam(beam, load), overhang_beam(beam, tuple((x, -q) for x, q in load))
    assert up.hogging_n_mm == pytest.approx(-down.sagging_n_mm, abs=1e-6)
    assert up.sagging_n_mm == pytest.approx(-down.hogging_n_mm, abs=1e-6)
    assert up.span_sag_mm == pytest.approx(-down.span_sag_mm, rel=1e-6, abs=1e-9)
    assert up.tip_sag_mm == pytest.approx(-down.tip_sag_mm, rel=1e-6, abs=1e-9)


@given(
    st.lists(
        st.tuples(SIZES, st.floats(0.0, 800.0), LOADS, LOADS, SIZES, st.floats(0.0, 1.0), LOADS), min_size=2
    )
)
def test_beams_together_are_as_each_alone(
    asked: list[tuple[float, float, float, float, float, float, float]],
) -> None:
    """Other beams in the same sweep, with more breaks and cases, change nothing. Tolerance: rounding."""
    loads = []
    for span, overhang, even, drift, length, share, force in asked:
        beam = Beam(span_mm=span, overhang_mm=overhang, ei_n_mm2=1e11, shear_n=1e6)
        lines = (even_line(span + overhang, even), drift_line(span + overhang, 0.0, drift, length))
        point = ((span + overhang) * share, 100.0 * force)
        cases = ((((0, 1.35), (1, 1.5)), ()), (((0, 1.0), (1, 0.5)), (point,)))
        loads.append(BeamLoads(beam=beam, lines=lines, cases=cases))
    for one, answers in zip(loads, overhang_beams(loads), strict=True):
        for (factors, points), answer in zip(one.cases, answers, strict=True):
            alone = overhang_beam(one.beam, summed_line([(f, one.lines[n]) for n, f in factors]), points)
            for name, ours, theirs in zip(BeamAnswer._fields, answer, alone, strict=True):
                if not name.endswith("_at_mm"):  # two places may be worst alike
                    assert ours == pytest.approx(theirs, rel=1e-6, abs=1e-6)


@given(SIZES, LOADS, LOADS)
def test_loads_superpose(span: float, first: float, second: float) -> None:
    """Reactions and tip sag of two loads together are the sums. Tolerance: rounding of floating point."""
    beam = Beam(span_mm=span, overhang_mm=300.0, ei_n_mm2=1e11)
    a, b = even_line(span + 300.0, first), drift_line(span + 300.0, 0.0, second, span / 2.0)
    both = overhang_beam(beam, summed_line(((1.35, a), (1.5, b))))
    one, other = overhang_beam(beam, a), overhang_beam(beam, b)
    assert both.head_reaction_n == pytest.approx(
        1.35 * one.head_reaction_n + 1.5 * other.head_reaction_n, abs=1e-6
    )
    assert both.tip_sag_mm == pytest.approx(
        1.35 * one.tip_sag_mm + 1.5 * other.tip_sag_mm, rel=1e-6, abs=1e-9
    )


@given(st.lists(st.floats(min_value=300.0, max_value=4000.0), min_size=2, max_size=5), LOADS)
def test_two_ways_to_one_beam(spans: list[float], load: float) -> None:
    """The first span alone, by stiffness and by integration. Tolerance 1e-6: the matrix is solved in floating point."""
    beam = ContinuousBeam(nodes_mm=(0.0, spans[0]), held=(0, 1), ei_n_mm2=1e11)
    by_stiffness = continuous_beam(beam, np.full((1, 1, 2), load))
    by_integration = overhang_beam(Beam(span_mm=spans[0], ei_n_mm2=1e11), even_line(spans[0], load))
    sag = by_stiffness.stretch_sags_mm[0, 0]
    assert sag == pytest.approx(by_integration.span_sag_mm, rel=1e-6, abs=1e-12)
    nodes = tuple(float(x) for x in np.concatenate(([0.0], np.cumsum(spans))))
    long = ContinuousBeam(nodes_mm=nodes, held=tuple(range(len(nodes))), ei_n_mm2=1e11)
    answer = continuous_beam(long, np.full((2, len(spans), 2), load))
    assert answer.reactions_n.sum(axis=1) == pytest.approx([load * nodes[-1]] * 2, abs=1e-5)


def test_a_point_load_on_a_support_goes_straight_down() -> None:
    """Nothing bends. Tolerance: rounding of floating point."""
    beam = ContinuousBeam(nodes_mm=(0.0, 1000.0, 2000.0), held=(0, 1, 2), ei_n_mm2=1e11)
    answer = continuous_beam(beam, np.zeros((1, 2, 2)), np.array([[0.0, 500.0, 0.0]]))
    assert answer.reactions_n[0] == pytest.approx([0.0, 500.0, 0.0], abs=1e-9)
    assert answer.stretch_sags_mm[0] == pytest.approx([0.0, 0.0], abs=1e-12)


def test_a_point_load_beside_a_bearing_is_all_shear() -> None:
    """A person next to the head bearing: the shear is the load, the moment next to nothing."""
    answer = overhang_beam(Beam(span_mm=3000.0, ei_n_mm2=1e11), (), ((1.0, 1000.0),))
    assert answer.shear_head_n == pytest.approx(1000.0, rel=1e-3)
    assert answer.sagging_n_mm < 1000.0


def test_a_load_that_turns_about_has_its_greatest_shear_inside() -> None:
    """Pressed at the head, lifted beyond: the shear is least where the load is nothing."""
    load = ((0.0, 1.0), (1000.0, -1.0))
    answer = overhang_beam(Beam(span_mm=1000.0, ei_n_mm2=1e11), load)
    assert answer.head_reaction_n == pytest.approx(1000.0 / 6.0)
    # V at 500: 166.67 - 250
    assert answer.greatest_shear_n == pytest.approx(1000.0 / 6.0)


def test_no_load_moves_nothing() -> None:
    """No division by nothing either."""
    answer = overhang_beam(Beam(span_mm=1000.0, ei_n_mm2=1e11), ())
    assert (answer.span_sag_mm, answer.tip_sag_mm, answer.sagging_n_mm, answer.greatest_shear_n) == (0.0,) * 4


def test_steps_of_a_load_are_kept() -> None:
    """A load on the first half with one on the second: two points at one place."""
    both = summed_line(((1.0, ((0.0, 1.0), (500.0, 1.0))), (1.0, ((500.0, 2.0), (1000.0, 2.0)))))
    assert both == ((0.0, 1.0), (500.0, 1.0), (500.0, 2.0), (1000.0, 2.0))


@given(st.floats(min_value=0.3, max_value=3.0), st.floats(min_value=0.0, max_value=1.0))
def test_a_plate_sags_less_than_its_strip(ratio: float, foot: float) -> None:
    """Two more supports never hurt. Tolerance 1 %: in long bays the two meet, but for the last digits."""
    plate = plate_stiffness(Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=0.65, pitch_mm=20.0))
    ours = plate_extremes(plate, 900.0 * ratio, 900.0, PlateLoad(head_kn_m2=1.0, foot_kn_m2=foot))
    assert 0.0 < ours.sag_mm <= 1.01 * strip_sag(1.0, 900.0, plate.by_n_m, plate.sy_n_m).total_mm


def test_the_sag_leans_towards_the_heavier_end() -> None:
    """A drift at the head, and its mirror at the foot. Tolerance: rounding of floating point."""
    plate = plate_stiffness(Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=0.65, pitch_mm=20.0))
    head = plate_extremes(plate, 1800.0, 900.0, PlateLoad(head_kn_m2=2.0, foot_kn_m2=0.5))
    foot = plate_extremes(plate, 1800.0, 900.0, PlateLoad(head_kn_m2=0.5, foot_kn_m2=2.0))
    assert head.sag_at_mm < 900.0 < foot.sag_at_mm
    assert head.sag_mm == pytest.approx(foot.sag_mm, rel=1e-9)
    edge = plate_at(plate, 1800.0, 900.0, PlateLoad(head_kn_m2=2.0, foot_kn_m2=0.5), x_mm=0.0, y_mm=450.0)
    assert edge.sag_mm == pytest.approx(0.0, abs=1e-9)


@given(st.floats(min_value=0.3, max_value=1.5), st.floats(min_value=8.0, max_value=30.0))
def test_thicker_ribs_nearer_together_rack_less(rib: float, pitch: float) -> None:
    """Shear stiffness across grows with the rib and falls with the pitch; the worst stress falls with the rib."""
    thin = Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=rib, pitch_mm=pitch)
    thick = Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=1.1 * rib, pitch_mm=pitch)
    wide = Multiwall(depth_mm=16.0, skins_mm=(0.8, 0.15, 0.8), rib_mm=rib, pitch_mm=1.1 * pitch)
    assert (
        shear_stiffness_across_n_m(wide)
        < shear_stiffness_across_n_m(thin)
        < shear_stiffness_across_n_m(thick)
    )
    assert local_stress(thick, 1.0).rib_n_mm2 < local_stress(thin, 1.0).rib_n_mm2


@given(st.floats(min_value=0.0, max_value=50.0), st.floats(min_value=0.0, max_value=50.0))
def test_drawing_in_lies_between_the_two_pure_curves(bending: float, shear: float) -> None:
    """For one whole sag f: 2.487 f2/b if all bends, 8/3 f2/b if all shears. Tolerance: floating point."""
    ours = chord_shortening_mm(Sag(bending_mm=bending, shear_mm=shear), 900.0)
    whole = (bending + shear) ** 2 / 900.0
    assert 17.0 / 35.0 * 5.12 * whole - 1e-9 <= ours <= 8.0 / 3.0 * whole + 1e-9


@given(st.lists(st.floats(-10.0, 10.0), min_size=6, max_size=6))
def test_the_greatest_of_a_sum_of_powers_is_no_less_than_any_that_is_sampled(terms: list[float]) -> None:
    """2001 places between 0 and 1, most of them no station. Tolerance: two greatest of near size, half a station apart.

    A sum of powers to the fifth bends by 2 c2 + 6 c3 + 12 c4 + 20 c5 at most: over half a station, squared, halved.
    """
    place, value = greatest_in_size(np.array(terms))
    x = np.linspace(0.0, 1.0, 2001)
    sampled = np.abs(np.polynomial.polynomial.polyval(x, terms)).max()
    bends = sum(abs(c) * k * (k - 1) for k, c in enumerate(terms))
    assert abs(float(value)) >= sampled - bends / 40.0**2 / 2.0
    assert float(value) == pytest.approx(
        float(np.polynomial.polynomial.polyval(float(place), terms)), rel=1e-9, abs=1e-9
    )
