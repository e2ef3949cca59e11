"""Combinations of actions, worked by hand.

The expected values are written out as plain products here; pentice is imported only for the result under test.
One roof throughout: G 0.25, snow 0.60, wind down 0.20, wind up -0.80 kN/m2. Tolerance: rounding of binary fractions.
"""

from __future__ import annotations

import pytest

from pentice.standards.annex import load_annex
from pentice.standards.en1990 import (
    accidental_6_11b,
    characteristic_6_14b,
    combination_6_10,
    combination_6_10a,
    combination_6_10b,
    equilibrium,
    frequent_6_15b,
    quasi_permanent_6_16b,
)

G, S, W, UP = 0.25, 0.60, 0.20, -0.80
EN = load_annex("EN").factors
UK = load_annex("UK").factors


def test_snow_leads_with_wind_beside_it() -> None:
    """6.10: 1.35 x 0.25 + 1.5 x 0.60 + 1.5 x 0.6 x 0.20 = 0.3375 + 0.9 + 0.18."""
    found = combination_6_10(factors=EN, unfavourable=G, leading=S, accompanying=((W, 0.6),))
    assert found == pytest.approx(0.3375 + 0.9 + 0.18, rel=1e-12)


def test_wind_leads_with_snow_beside_it() -> None:
    """6.10: 0.3375 + 1.5 x 0.20 + 1.5 x 0.5 x 0.60 = 1.0875."""
    found = combination_6_10(factors=EN, unfavourable=G, leading=W, accompanying=((S, 0.5),))
    assert found == pytest.approx(0.3375 + 0.3 + 0.45, rel=1e-12)


def test_6_10a_reduces_every_variable_action() -> None:
    """UK: 0.3375 + 1.5 x 0.5 x 0.60 + 1.5 x 0.5 x 0.20 = 0.9375."""
    found = combination_6_10a(factors=UK, unfavourable=G, variable=((S, 0.5), (W, 0.5)))
    assert found == pytest.approx(0.3375 + 0.45 + 0.15, rel=1e-12)


def test_6_10b_reduces_the_permanent_action_in_the_uk() -> None:
    """0.925 x 0.3375 + 0.9 + 1.5 x 0.5 x 0.20 = 1.3621875."""
    found = combination_6_10b(factors=UK, unfavourable=G, leading=S, accompanying=((W, 0.5),))
    assert found == pytest.approx(0.3121875 + 0.9 + 0.15, rel=1e-12)


def test_6_10b_reduces_the_permanent_action_as_recommended() -> None:
    """0.85 x 0.3375 + 0.9 + 1.5 x 0.6 x 0.20 = 1.366875."""
    found = combination_6_10b(factors=EN, unfavourable=G, leading=S, accompanying=((W, 0.6),))
    assert found == pytest.approx(0.286875 + 0.9 + 0.18, rel=1e-12)


def test_6_10b_leaves_a_favourable_permanent_action_whole() -> None:
    """1.0 x 0.25 + 1.5 x -0.80: xi is for the unfavourable part only."""
    assert combination_6_10b(factors=EN, favourable=G, leading=UP) == pytest.approx(0.25 - 1.2, rel=1e-12)


def test_uplift_in_equilibrium() -> None:
    """EQU: 0.9 x 0.25 - 1.5 x 0.80 = -0.975."""
    assert equilibrium(factors=EN, stabilising=G, leading=UP) == pytest.approx(0.225 - 1.2, rel=1e-12)


def test_uplift_for_strength() -> None:
    """STR: 1.0 x 0.25 - 1.5 x 0.80 = -0.95; printed, never used to lower the demand."""
    assert combination_6_10(factors=EN, favourable=G, leading=UP) == pytest.approx(0.25 - 1.2, rel=1e-12)


def test_free_post_does_not_turn_over() -> None:
    """EQU about the edge of a pad: 0.9 x 8.0 x 0.35 = 2.52 holds against 1.5 x 0.5 x 2.3 = 1.725 kNm."""
    found = equilibrium(factors=EN, stabilising=8.0 * 0.35, leading=-0.5 * 2.3)
    assert found == pytest.approx(2.52 - 1.725, rel=1e-12)


def test_pad_lifts_off() -> None:
    """EQU: roof 1.0 kN and 0.6 x 0.6 x 0.7 m of concrete at 24 kN/m3 hold 6.3432 against 9.0 kN."""
    found = equilibrium(factors=EN, stabilising=1.0 + 0.252 * 24.0, leading=-6.0)
    assert found == pytest.approx(6.3432 - 9.0, rel=1e-12)


def test_destabilising_permanent_action_takes_1_1() -> None:
    """EQU: 1.10 x 2.0 - 1.5 x 0.6 x 1.0 with accompanying wind."""
    found = equilibrium(factors=EN, destabilising=-2.0, accompanying=((-1.0, 0.6),))
    assert found == pytest.approx(-2.2 - 0.9, rel=1e-12)


def test_exceptional_drift_takes_no_factor() -> None:
    """6.11b: 0.25 + 2.742857; with wind at psi 0.2 another 0.04."""
    assert accidental_6_11b(permanent=G, accidental=2.742857) == pytest.approx(2.992857, rel=1e-12)
    found = accidental_6_11b(permanent=G, accidental=2.742857, accompanying=((W, 0.2),))
    assert found == pytest.approx(3.032857, rel=1e-12)


def test_serviceability_combinations() -> None:
    """Characteristic 0.97; frequent 0.37; quasi-permanent 0.25 low and 0.37 high."""
    assert characteristic_6_14b(permanent=G, leading=S, accompanying=((W, 0.6),)) == pytest.approx(
        0.97, rel=1e-12
    )
    assert frequent_6_15b(permanent=G, leading=(S, 0.2)) == pytest.approx(0.37, rel=1e-12)
    assert frequent_6_15b(permanent=G, leading=(S, 0.2), accompanying=((W, 0.5),)) == pytest.approx(
        0.47, rel=1e-12
    )
    assert quasi_permanent_6_16b(permanent=G, variable=((S, 0.0),)) == pytest.approx(0.25, rel=1e-12)
    assert quasi_permanent_6_16b(permanent=G, variable=((S, 0.2),)) == pytest.approx(0.37, rel=1e-12)
