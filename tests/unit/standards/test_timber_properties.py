"""What must hold for any timber, screw and gutter: no steps in a curve, more load is never less demand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.standards.en1995 import (
    DURATIONS,
    ServiceClass,
    bearing_length_mm,
    bending_utilisation,
    k_c,
    k_crit,
    k_mod,
)
from pentice.standards.en1995_screws import prying_factor, screw_design_n, widest_hole_gauge_mm
from pentice.standards.en12056 import long_gutter_factor

SLENDER = st.floats(min_value=0.0, max_value=5.0)


@given(SLENDER, SLENDER)
def test_the_more_slender_the_weaker(a: float, b: float) -> None:
    """Beams and posts; both factors lie between 0 and 1. Tolerance 3e-4: the standard's own step up at 1.4."""
    low, high = sorted((a, b))
    assert 0.0 < k_crit(high) <= k_crit(low) + 3e-4 <= 1.0 + 3e-4
    assert 0.0 < k_c(high) <= k_c(low) <= 1.0


@pytest.mark.parametrize("at", [0.75, 1.4])
def test_k_crit_has_no_step(at: float) -> None:
    """The branches meet. Tolerance 3e-3: the standard leaves 0.9975 against 1, and 0.5102 against 0.51."""
    assert k_crit(at - 1e-9) == pytest.approx(k_crit(at + 1e-9), abs=3e-3)


@pytest.mark.parametrize("service_class", [1, 2, 3])
def test_a_shorter_load_is_carried_better(service_class: ServiceClass) -> None:
    """The rows of the table rise."""
    row = [k_mod(service_class, duration) for duration in DURATIONS]
    assert row == sorted(row)


@given(st.floats(min_value=1.0, max_value=300.0), st.floats(min_value=0.0, max_value=500.0))
def test_free_timber_never_hurts_a_bearing(contact: float, free: float) -> None:
    """And it never adds more than 60 mm in all."""
    ours = bearing_length_mm(contact, free_before_mm=free, free_after_mm=free)
    assert contact <= ours <= contact + 60.0


@given(st.floats(min_value=-20.0, max_value=20.0), st.floats(min_value=-20.0, max_value=20.0))
def test_two_way_bending_does_not_ask_for_the_sign(y: float, z: float) -> None:
    """Uplift uses a rafter as much as the same load downward."""
    used = bending_utilisation(
        stress_y_n_mm2=y, strength_y_n_mm2=10.0, stress_z_n_mm2=z, strength_z_n_mm2=12.0
    )
    turned = bending_utilisation(
        stress_y_n_mm2=-y, strength_y_n_mm2=10.0, stress_z_n_mm2=-z, strength_z_n_mm2=12.0
    )
    assert used == turned >= 0.0


@given(st.floats(min_value=0.0, max_value=200.0), st.floats(min_value=0.0, max_value=200.0))
def test_a_longer_gutter_never_carries_more(a: float, b: float) -> None:
    """Between 1.0 and 0.80."""
    low, high = sorted((a, b))
    assert 0.80 <= long_gutter_factor(high * 50.0, 50.0) <= long_gutter_factor(low * 50.0, 50.0) <= 1.0


@given(st.floats(min_value=0.0, max_value=100.0), st.floats(min_value=1.0, max_value=100.0))
def test_prying_never_helps(offset: float, heel: float) -> None:
    """The screw holds at least the uplift itself."""
    assert prying_factor(offset, heel) >= 1.0


def test_a_narrow_rafter_leaves_no_gauge() -> None:
    """47 mm with 6 mm screws: negative, a failed check and never an error."""
    assert widest_hole_gauge_mm(47.0, 6.0) == -1.0


def test_a_screw_is_as_good_as_its_weakest_part() -> None:
    """Stronger steel does not help weak timber."""
    assert screw_design_n(timber_n=1e3, steel_n=1e4, k_mod=0.9) == screw_design_n(
        timber_n=1e3, steel_n=1e5, k_mod=0.9
    )
