"""Rules of timber, screws and drainage refuse outside their range, in one sentence."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

import pytest

from pentice.errors import InputError, OutsideScope, PenticeError
from pentice.standards import en1995, en1995_deflection, en1995_screws, en12056
from pentice.standards.en338 import strength_class

Refusal = tuple[Callable[[], object], type[PenticeError], str]

REFUSALS: dict[str, Refusal] = {
    "unknown class": (
        lambda: strength_class("C99"),
        OutsideScope,
        r"timber class is C99; expected one of C16, C24",
    ),
    "service class": (
        lambda: en1995.k_def(cast("en1995.ServiceClass", 4)),
        InputError,
        r"service_class is 4; expected 1, 2 or 3",
    ),
    "duration": (
        lambda: en1995.k_mod(1, cast("en1995.Duration", "weekly")),
        InputError,
        r"duration is weekly; expected one of permanent",
    ),
    "no duration": (
        lambda: en1995.shortest_duration(()),
        InputError,
        r"durations is empty; expected at least one",
    ),
    "material": (
        lambda: en1995.gamma_m(cast("Any", "steel")),
        InputError,
        r"material is steel; expected one of solid",
    ),
    "no depth": (lambda: en1995.size_factor(0.0), OutsideScope, r"depth_mm is 0 mm"),
    "deep short beam": (
        lambda: en1995.uplift_buckling_length_mm(100.0, 200.0),
        OutsideScope,
        r"span_mm is 100 mm",
    ),
    "slenderness": (lambda: en1995.k_crit(-0.1), OutsideScope, r"slenderness is -0.1"),
    "column": (lambda: en1995.k_c(-0.1), OutsideScope, r"slenderness is -0.1"),
    "k_cr": (
        lambda: en1995.shear_stress_n_mm2(1.0, 1.0, 1.0, 1.2),
        OutsideScope,
        r"k_cr is 1.2; expected 0.1 to 1",
    ),
    "sag at once": (
        lambda: en1995_deflection.instant_limit_mm(1.0, divisor=250.0),
        OutsideScope,
        r"divisor is 250; expected 300 to 500",
    ),
    "sag in the end": (
        lambda: en1995_deflection.final_limit_mm(1.0, divisor=150.0),
        OutsideScope,
        r"divisor is 150; expected 250 to 350",
    ),
    "thin screw": (
        lambda: en1995_screws.withdrawal_n(thread_mm=5.0, root_mm=3.3, length_mm=40.0, rho_k_kg_m3=350.0),
        OutsideScope,
        r"screw 5 mm with root 3.3 mm is outside the withdrawal formula.*Give the declared",
    ),
    "thin screw's strength": (
        lambda: en1995_screws.withdrawal_strength_n_mm2(5.0, 40.0, 350.0),
        OutsideScope,
        r"thread_mm is 5 mm; expected 6 to 12 mm",
    ),
    "short screw": (
        lambda: en1995_screws.withdrawal_n(thread_mm=6.0, root_mm=4.0, length_mm=30.0, rho_k_kg_m3=350.0),
        OutsideScope,
        r"thread in the timber is 30 mm; expected 36 to inf mm.*Use a longer screw",
    ),
    "screw along the grain": (
        lambda: en1995_screws.declared_withdrawal_n(
            thread_mm=5.0,
            length_mm=40.0,
            f_ax_n_mm2=12.0,
            rho_a_kg_m3=350.0,
            rho_k_kg_m3=350.0,
            angle_deg=15.0,
        ),
        OutsideScope,
        r"angle_deg is 15 deg; expected 30 to 90 deg",
    ),
    "no screw": (lambda: en1995_screws.group_factor(0), OutsideScope, r"count is 0"),
    "no heel": (lambda: en1995_screws.prying_factor(5.0, 0.0), OutsideScope, r"heel_mm is 0 mm"),
    "negative roof": (
        lambda: en12056.effective_area_m2(length_m=1.0, depth_m=-1.0, rise_m=0.0),
        OutsideScope,
        r"depth_m is -1 m",
    ),
    "risk": (
        lambda: en12056.runoff_l_s(1.0, 0.02, 0.5),
        OutsideScope,
        r"risk_factor is 0.5; expected 1 to 3",
    ),
    "very long gutter": (
        lambda: en12056.long_gutter_factor(10500.0, 50.0),
        OutsideScope,
        r"is 210; expected 0 to 200.*Add an outlet",
    ),
    "depth factor": (
        lambda: en12056.box_flow_l_s(1.0, depth_factor=2.0, shape_factor=1.0),
        OutsideScope,
        r"depth_factor is 2",
    ),
    "shape factor": (
        lambda: en12056.box_flow_l_s(1.0, depth_factor=1.0, shape_factor=-1.0),
        OutsideScope,
        r"shape_factor is -1",
    ),
    "no outlet": (lambda: en12056.outlet_flow_l_s(0.0, 10.0), OutsideScope, r"diameter_mm is 0 mm"),
    "no water": (lambda: en12056.outlet_flow_l_s(68.0, -1.0), OutsideScope, r"head_mm is -1 mm"),
    "full pipe": (
        lambda: en12056.downpipe_flow_l_s(68.0, 0.9),
        OutsideScope,
        r"filling is 0.9; expected 0.2 to 0.33",
    ),
}


@pytest.mark.parametrize("name", REFUSALS)
def test_outside_its_range_a_rule_refuses(name: str) -> None:
    """The message says what, its value, what was expected."""
    call, kind, says = REFUSALS[name]
    with pytest.raises(kind, match=says):
        call()


def test_a_value_that_is_no_number_is_outside_every_range() -> None:
    """Not a number compares with nothing, so it must not slip through."""
    with pytest.raises(OutsideScope, match=r"slenderness is nan"):
        en1995.k_crit(float("nan"))
