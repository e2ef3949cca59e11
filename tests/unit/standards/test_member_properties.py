"""What must hold for any post, joint or pad: more timber is never weaker, more load never less demand, units scale."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.standards.en1993 import steel_chi
from pentice.standards.en1995_johansen import (
    Fastener,
    steel_single_shear,
    timber_double_shear,
    timber_single_shear,
)
from pentice.standards.en1995_notch import Notch, notch_factor
from pentice.standards.en1995_spacing import bolts_in_row
from pentice.standards.en1999 import aluminium_chi, aluminium_chi_sideways
from pentice.standards.pads import bearing_under_pad, uplift_of_pad

SIZE = st.floats(min_value=20.0, max_value=150.0)
STRENGTH = st.floats(min_value=10.0, max_value=50.0)
MORE = st.floats(min_value=1.0, max_value=2.0)


@given(SIZE, SIZE, STRENGTH, STRENGTH, MORE)
def test_thicker_or_stronger_timber_is_never_weaker(
    t_1: float, t_2: float, f_1: float, f_2: float, more: float
) -> None:
    """Single and double shear, each of the four values raised in turn; a stronger fastener too."""
    for shear in (timber_single_shear, timber_double_shear):
        base = {"t_1_mm": t_1, "f_h_1_n_mm2": f_1, "t_2_mm": t_2, "f_h_2_n_mm2": f_2}
        nail = Fastener(d_mm=6.0, yield_moment_n_mm=3e4)
        plain = shear(nail, **base).resistance_n
        for name in ("t_1_mm", "t_2_mm"):
            assert shear(nail, **(base | {name: base[name] * more})).resistance_n >= plain * (1.0 - 1e-9)
        strong = shear(nail, t_1_mm=t_1, f_h_1_n_mm2=f_1 * more, t_2_mm=t_2, f_h_2_n_mm2=f_2 * more)
        assert strong.resistance_n >= plain * (1.0 - 1e-9)
        stiffer = Fastener(d_mm=6.0, yield_moment_n_mm=3e4 * more)
        assert shear(stiffer, **base).resistance_n >= plain * (1.0 - 1e-9)


@given(SIZE, SIZE, STRENGTH, STRENGTH, st.floats(min_value=0.5, max_value=3.0))
def test_a_joint_that_is_larger_all_round_is_stronger_by_the_square(
    t_1: float, t_2: float, f_1: float, f_2: float, k: float
) -> None:
    """Lengths times k, yield moment times k3: forces times k2."""
    small = timber_single_shear(
        Fastener(d_mm=6.0, yield_moment_n_mm=3e4), t_1_mm=t_1, f_h_1_n_mm2=f_1, t_2_mm=t_2, f_h_2_n_mm2=f_2
    )
    large = timber_single_shear(
        Fastener(d_mm=6.0 * k, yield_moment_n_mm=3e4 * k**3),
        t_1_mm=t_1 * k,
        f_h_1_n_mm2=f_1,
        t_2_mm=t_2 * k,
        f_h_2_n_mm2=f_2,
    )
    assert large.resistance_n == pytest.approx(small.resistance_n * k**2, rel=1e-6)


@given(SIZE, STRENGTH, st.floats(min_value=1.0, max_value=12.0), st.floats(min_value=1.0, max_value=12.0))
def test_a_thicker_plate_is_never_weaker(t: float, f_h: float, a: float, b: float) -> None:
    """From thin through the straight line to thick, for timber thick enough that the plate helps at all."""
    nail = Fastener(d_mm=6.0, yield_moment_n_mm=3e4)
    thin, thick = (
        steel_single_shear(nail, t_mm=t, f_h_n_mm2=f_h, plate_mm=plate) for plate in sorted((a, b))
    )
    assert thick.resistance_n >= thin.resistance_n * (1.0 - 1e-9)


@given(st.floats(min_value=0.0, max_value=3.0), st.floats(min_value=0.0, max_value=3.0))
def test_the_more_slender_the_weaker_in_metal(a: float, b: float) -> None:
    """Steel and aluminium; every factor lies between 0 and 1."""
    low, high = sorted((a, b))
    for weak, strong in (
        (steel_chi(high, "c"), steel_chi(low, "c")),
        (aluminium_chi(high, "B"), aluminium_chi(low, "B")),
        (aluminium_chi_sideways(high, 3), aluminium_chi_sideways(low, 3)),
    ):
        assert 0.0 < weak <= strong <= 1.0


@given(st.integers(min_value=1, max_value=12), st.floats(min_value=60.0, max_value=300.0))
def test_no_row_counts_for_more_than_it_has(count: int, along: float) -> None:
    """And one more bolt never makes the row weaker."""
    assert bolts_in_row(count, along, 12.0) <= count + 1e-9
    assert bolts_in_row(count + 1, along, 12.0) >= bolts_in_row(count, along, 12.0)


@given(st.floats(min_value=0.5, max_value=1.0), st.floats(min_value=0.5, max_value=1.0))
def test_a_deeper_notch_is_weaker(a: float, b: float) -> None:
    """The strength left, k_v times the depth left, never rises with the cut."""
    left = [
        share
        * notch_factor(
            Notch(left_mm=150.0 * share, to_force_mm=40.0), 150.0, side="support", material="solid"
        )
        for share in sorted((a, b))
    ]
    assert left[0] <= left[1] + 1e-9


@given(st.floats(min_value=0.0, max_value=10.0), st.floats(min_value=0.0, max_value=2.0))
def test_more_uplift_and_more_lean_are_never_less_demand(wind: float, moment: float) -> None:
    """A pad under 10 kN, up to a third of its width off the middle."""
    less = uplift_of_pad(wind_up_kn=wind, roof_kn=1.0, pad_kn=6.0).utilisation
    more = uplift_of_pad(wind_up_kn=wind + 0.1, roof_kn=1.0, pad_kn=6.0).utilisation
    assert less is not None and more is not None and less < more
    pad = {"vertical_kn": 10.0, "length_mm": 600.0, "width_mm": 600.0}
    even = bearing_under_pad(**pad, moment_knm=0.0)
    leaning = bearing_under_pad(**pad, moment_knm=moment * 0.99)
    both = bearing_under_pad(**pad, moment_knm=moment * 0.99, moment_along_length_knm=wind / 10.0)
    assert both.even_kn_m2 >= leaning.even_kn_m2 - 1e-9
    assert leaning.even_kn_m2 >= even.even_kn_m2 - 1e-9
