"""Beam tables, as in Roark's Formulas for Stress and Strain, Table 8.1, and the Steel Designers' Manual: from memory.

[LIM] is the Norwegian glulam handbook, worked example 3 (two spans of 15 m), second hand.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from pentice.mechanics.beam import Beam, overhang_beam
from pentice.mechanics.continuous import ContinuousBeam, continuous_beam
from pentice.mechanics.lines import drift_line, even_line, summed_line

EI = 1e11
EXACT = 1e-9


def test_simple_span_under_an_even_load() -> None:
    """R = qL/2, M = qL2/8, w = 5qL4/384EI. Tolerance: rounding of floating point."""
    answer = overhang_beam(Beam(span_mm=3000.0, ei_n_mm2=EI), even_line(3000.0, 1.0))
    assert answer.head_reaction_n == pytest.approx(1500.0, rel=EXACT)
    assert answer.greatest_shear_n == pytest.approx(1500.0, rel=EXACT)
    assert answer.sagging_n_mm == pytest.approx(3000.0**2 / 8.0, rel=EXACT)
    assert answer.span_sag_mm == pytest.approx(5.0 * 3000.0**4 / (384.0 * EI), rel=EXACT)
    assert answer.span_sag_at_mm == pytest.approx(1500.0, abs=0.01)


def test_simple_span_under_a_triangle() -> None:
    """M = qL2/(9 sqrt 3), w = 0.00652 qL4/EI, R = qL/6 and qL/3. Tolerance: the printed digits."""
    answer = overhang_beam(Beam(span_mm=1000.0, ei_n_mm2=EI), ((0.0, 0.0), (1000.0, 1.0)))
    assert answer.sagging_n_mm / 1000.0**2 == pytest.approx(1.0 / (9.0 * math.sqrt(3.0)), rel=EXACT)
    assert answer.span_sag_mm * EI / 1000.0**4 == pytest.approx(0.00652, abs=5e-6)
    assert answer.span_sag_at_mm == pytest.approx(519.3, abs=0.1)
    assert answer.head_reaction_n == pytest.approx(1000.0 / 6.0, rel=EXACT)
    assert answer.foot_reaction_n == pytest.approx(1000.0 / 3.0, rel=EXACT)


def test_a_triangle_from_the_head_is_the_mirror_of_it() -> None:
    """A drift that just reaches the foot. Tolerance: the printed digits."""
    answer = overhang_beam(Beam(span_mm=1000.0, ei_n_mm2=EI), drift_line(1000.0, 0.0, 1.0, 1000.0))
    assert answer.head_reaction_n == pytest.approx(1000.0 / 3.0, rel=EXACT)
    assert answer.span_sag_mm * EI / 1000.0**4 == pytest.approx(0.00652, abs=5e-6)


def test_point_load_in_the_middle() -> None:
    """M = PL/4, w = PL3/48EI. Tolerance: rounding of floating point."""
    answer = overhang_beam(Beam(span_mm=2000.0, ei_n_mm2=EI), (), ((1000.0, 500.0),))
    assert answer.sagging_n_mm == pytest.approx(250e3, rel=EXACT)
    assert answer.span_sag_mm == pytest.approx(500.0 * 2000.0**3 / (48.0 * EI), rel=EXACT)


def test_overhang_under_an_even_load() -> None:
    """c = 0.3 L: tip qc(4c2L - L3 + 3c3)/24EI, M = qc2/2, foot q(L + c)2/2L. Tolerance: rounding of floating point."""
    span, c = 1000.0, 300.0
    answer = overhang_beam(Beam(span_mm=span, overhang_mm=c, ei_n_mm2=EI), even_line(span + c, 1.0))
    tip = c * (4.0 * c**2 * span - span**3 + 3.0 * c**3) / (24.0 * EI)
    assert answer.tip_sag_mm == pytest.approx(tip, rel=1e-8)
    assert answer.support_moment_n_mm == pytest.approx(-(c**2) / 2.0, rel=EXACT)
    assert answer.hogging_n_mm == pytest.approx(-(c**2) / 2.0, rel=EXACT)
    assert answer.foot_reaction_n == pytest.approx((span + c) ** 2 / (2.0 * span), rel=EXACT)
    assert answer.shear_beyond_foot_n == pytest.approx(c, rel=EXACT)
    head = (span**2 - c**2) / (2.0 * span)
    assert answer.shear_before_foot_n == pytest.approx(head - span, rel=EXACT)


def test_point_load_on_the_tip() -> None:
    """Tip P c2 (L + c)/3EI, uplift of the head P c/L. Tolerance: rounding of floating point."""
    answer = overhang_beam(Beam(span_mm=1000.0, overhang_mm=200.0, ei_n_mm2=EI), (), ((1200.0, 100.0),))
    assert answer.head_reaction_n == pytest.approx(-20.0, rel=EXACT)
    assert answer.tip_sag_mm == pytest.approx(100.0 * 200.0**2 * 1200.0 / (3.0 * EI), rel=1e-8)


def test_loads_add_up() -> None:
    """The tables are superposed: an even load of 0.5 and a triangle. Tolerance: rounding of floating point."""
    both = summed_line(((0.5, even_line(1000.0, 1.0)), (2.0, ((0.0, 0.0), (1000.0, 1.0)))))
    answer = overhang_beam(Beam(span_mm=1000.0, ei_n_mm2=EI), both)
    assert answer.foot_reaction_n == pytest.approx(0.5 * 500.0 + 2.0 * 1000.0 / 3.0, rel=EXACT)


def test_propped_cantilever() -> None:
    """Fixed end M qL2/8, prop 3qL/8, span 9qL2/128, sag qL4/185EI. Tolerance: the printed digits."""
    beam = ContinuousBeam(nodes_mm=(0.0, 1000.0), held=(0, 1), clamped=(0,), ei_n_mm2=EI)
    answer = continuous_beam(beam, np.ones((1, 1, 2)))
    assert answer.reactions_n[0] == pytest.approx([625.0, 375.0], rel=EXACT)
    assert answer.node_moments_n_mm[0, 0] == pytest.approx(-125e3, rel=EXACT)
    assert answer.stretch_moments_n_mm[0, 0] == pytest.approx(9.0 / 128.0 * 1e6, rel=EXACT)
    assert 1e12 / (answer.stretch_sags_mm[0, 0] * EI) == pytest.approx(185.0, abs=0.5)


def test_two_equal_spans() -> None:
    """R 0.375, 1.25, 0.375; M -1/8 and 9/128; sag at mid-span 1/192. Tolerance: rounding of floating point."""
    nodes = (0.0, 500.0, 1000.0, 1500.0, 2000.0)
    beam = ContinuousBeam(nodes_mm=nodes, held=(0, 2, 4), ei_n_mm2=EI)
    answer = continuous_beam(beam, np.ones((1, 4, 2)))
    assert answer.reactions_n[0] == pytest.approx([375.0, 1250.0, 375.0], rel=EXACT)
    assert answer.node_moments_n_mm[0, 2] == pytest.approx(-125e3, rel=EXACT)
    assert answer.stretch_moments_n_mm[0].max() == pytest.approx(9.0 / 128.0 * 1e6, rel=EXACT)
    assert answer.stretch_sags_mm[0].max() == pytest.approx(1e12 / (185.0 * EI), rel=0.003)


def test_one_span_under_a_triangle_by_the_other_solver() -> None:
    """M = qL2/(9 sqrt 3), w = 0.00652 qL4/EI, R = qL/6 and qL/3, at 0.5193 L. Tolerance: the printed digits."""
    beam = ContinuousBeam(nodes_mm=(0.0, 1000.0), held=(0, 1), ei_n_mm2=EI)
    answer = continuous_beam(beam, np.array([[[0.0, 1.0]]]))
    assert answer.reactions_n[0] == pytest.approx([1000.0 / 6.0, 1000.0 / 3.0], rel=EXACT)
    assert answer.stretch_moments_n_mm[0, 0] / 1e6 == pytest.approx(1.0 / (9.0 * math.sqrt(3.0)), rel=1e-6)
    assert answer.stretch_sags_mm[0, 0] * EI / 1e12 == pytest.approx(0.00652, abs=5e-6)


def test_three_equal_spans() -> None:
    """R 0.4, 1.1, 1.1, 0.4; M -1/10; mid-span sags 0.00677 and 0.00052. Tolerance: the printed digits."""
    nodes = tuple(500.0 * i for i in range(7))
    beam = ContinuousBeam(nodes_mm=nodes, held=(0, 2, 4, 6), ei_n_mm2=EI)
    answer = continuous_beam(beam, np.ones((1, 6, 2)))
    assert answer.reactions_n[0] == pytest.approx([400.0, 1100.0, 1100.0, 400.0], rel=EXACT)
    assert answer.node_moments_n_mm[0, 2] == pytest.approx(-100e3, rel=EXACT)
    assert answer.stretch_sags_mm[0, 2] * EI / 1e12 == pytest.approx(0.00052, abs=5e-6)


def test_two_spans_of_fifteen_metres() -> None:
    """[LIM] 1 kN/m on both, then 1 and 0.5. Tolerance: half the last printed digit, the book rounds its factors."""
    beam = ContinuousBeam(nodes_mm=(0.0, 15000.0, 30000.0), held=(0, 1, 2), ei_n_mm2=EI)
    lines = np.array([[[1.0, 1.0], [1.0, 1.0]], [[1.0, 1.0], [0.5, 0.5]]])
    answer = continuous_beam(beam, lines)
    assert -answer.node_moments_n_mm[:, 1] / 1e6 == pytest.approx([28.12, 21.09], abs=0.01)
    assert answer.stretch_moments_n_mm[:, 0] / 1e6 == pytest.approx([15.82, 18.57], rel=0.003)
