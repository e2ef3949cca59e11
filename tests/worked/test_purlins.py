"""A purlin between two rafters, by hand: its strip of snow and sheet, moment, shear, sag and ends."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.values import Check
from tests.designs import assessed, changed
from tests.tries import tries
from tests.worked.test_printed_lines import wrong_lines

PURLINS: dict[str, Any] = {
    "frame__purlins_at_mm": [1000.0, 2000.0],
    "frame__noggin_mm": [47.0, 95.0],
    "frame__head_bearer": True,
    "frame__foot_bearer": True,
}
# C24: f_m,k 24, f_v,k 4, E 11000, G 690 N/mm2, 420 kg/m3 (EN 338, from memory).


def purlins(**changes: Any) -> dict[str, Check]:
    """The checks of the purlins of a changed carport by rule."""
    found = assessed(changed("snow-carport", **PURLINS, **changes)).checks
    return {c.id: c for c in found if c.member == "purlin"}


def result(check: Check, says: str) -> float:
    """A line of working."""
    return next(float(s.result) for s in check.working if s.says.startswith(says))


def test_a_purlin_by_hand() -> None:
    """Even snow only (no house roof): 1.25 x 1 m of it; governed by snow with wind or wind with snow as found."""
    found = purlins(house__wall_top_above_mm=0.0, house__roof_drains_to_us=False, site__ground_snow_kn_m2=1.3)
    check = found["purlin-bending"]
    cos = 1.0 / (1.0 + 0.2**2) ** 0.5
    span = (5640.0 - 70.0) / 6.0 - 70.0
    own = 47.0 * 95.0 * 1e-6 * 420.0 * 9.81e-0 * cos
    line = result(check, "On the purlin")
    assert own == pytest.approx(18.0, abs=0.5)  # N/m
    moment = line * span**2 / 8.0
    stress = 6.0 * moment / (47.0 * 95.0**2)
    assert check.demand == pytest.approx(stress, rel=1e-6)
    strength = 0.9 * 24.0 * (150.0 / 95.0) ** 0.2 / 1.3
    assert check.capacity == pytest.approx(strength, rel=1e-4)
    # 1.35 G + 1.5 S: never less than that, whatever wind is beside it.
    snow = 0.8 * 1.3 * cos**2
    assert line >= 1.25 * 1.5 * snow - 1e-9
    assert f"{line * span / 2000.0:.2f} kN into its rafter" in found["purlin-shear"].says
    assert "purlin-ends" not in found
    shear = found["purlin-shear"]
    assert shear.demand == pytest.approx(1.5 * line * span / 2.0 / (0.67 * 47.0 * 95.0), rel=1e-6)


def test_the_sag_by_hand() -> None:
    """5 w l^4 / 384 E I and the shear's share; in the end with k_def of service class 2, 0.8."""
    found = purlins(house__wall_top_above_mm=0.0, house__roof_drains_to_us=False)
    now, end = found["purlin-sag"], found["purlin-sag-final"]
    span = (5640.0 - 70.0) / 6.0 - 70.0
    inertia, area = 47.0 * 95.0**3 / 12.0, 47.0 * 95.0
    line = result(now, "On the purlin")
    one = 5.0 * span**4 / (384.0 * 11000.0 * inertia) + 1.2 * span**2 / (8.0 * 690.0 * area)
    assert now.demand == pytest.approx(line * one, rel=1e-6)
    assert end.demand == pytest.approx(result(end, "Load that counts in the end") * one, rel=1e-6)
    assert (end.demand or 0.0) > (now.demand or 0.0)
    assert wrong_lines(assessed(changed("snow-carport", **PURLINS))) == []


def test_no_purlins_no_checks_and_a_declared_end() -> None:
    """Nothing is asked where there is none; a declared end is compared."""
    assert not [c for c in assessed(changed("snow-carport")).checks if c.member == "purlin"]
    found = purlins(frame__purlin_end_kn=5.0)
    ends, shear = found["purlin-ends"], found["purlin-shear"]
    assert ends.capacity == 5.0
    assert f"{ends.demand:.2f} kN into its rafter" in shear.says


@tries(10)
@given(snow=st.floats(0.2, 3.0), more=st.floats(1.05, 2.0))
def test_more_snow_is_never_less(snow: float, more: float) -> None:
    """Every demand of the purlins."""
    less, greater = (purlins(site__ground_snow_kn_m2=round(s, 3)) for s in (snow, snow * more))
    for rule, check in less.items():
        assert (greater[rule].demand or 0.0) >= (check.demand or 0.0) - 1e-12, rule
