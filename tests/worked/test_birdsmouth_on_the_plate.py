"""A rafter's birdsmouth over the wall plate by hand: EN 1995-1-1, 6.5.2, with the reaction that the checks print."""

from __future__ import annotations

from math import radians, sin, sqrt
from typing import Any

import pytest

from pentice.checks.values import Check
from pentice.pipeline import solve
from tests.designs import assessed, catalogue, changed
from tests.worked.test_printed_lines import wrong_lines

CUT: dict[str, Any] = {"frame__head_notch_mm": 40.0}
PITCH = 11.309932474020215  # 1 in 5


def worst(rule: str, **changes: Any) -> Check:
    """The check of the carport that uses most."""
    found = assessed(changed("snow-carport", **CUT, **changes)).checks
    return max((c for c in found if c.id == rule), key=lambda c: c.utilisation or 0.0)


def line(check: Check, says: str) -> float:
    """The result of a line of working."""
    return next(float(step.result) for step in check.working if step.says.startswith(says))


def test_shear_on_the_depth_left() -> None:
    """70 x 220 cut 40: alpha 180/220, x half of min(70, 40 / sin) = 35; k_v by hand; stress of the head's reaction."""
    check = worst("rafter-head-notch")
    alpha, x, h = 180.0 / 220.0, min(70.0, 40.0 / sin(radians(PITCH))) / 2.0, 220.0
    assert x == 35.0
    k_v = 5.0 / (sqrt(h) * (sqrt(alpha * (1 - alpha)) + 0.8 * x / h * sqrt(1 / alpha - alpha**2)))
    assert line(check, "Factor of the cut") == pytest.approx(min(1.0, k_v), rel=1e-9)
    force = line(check, "Head bearing takes") * 1000.0
    assert check.demand == pytest.approx(1.5 * force / (0.67 * 70.0 * 180.0), rel=1e-3)
    assert check.capacity == pytest.approx(k_v * 0.9 * 4.0 / 1.3, rel=1e-6)


def test_bending_and_bearing_beside_it() -> None:
    """R x / W of the depth left; the plate's seat of 70 takes the reaction across the grain."""
    bending, bearing = worst("rafter-head-notch-bending"), worst("rafter-bearing-plate")
    force = line(bending, "Head bearing takes") * 1000.0
    assert bending.demand == pytest.approx(force * 35.0 * 6.0 / (70.0 * 180.0**2), rel=1e-3)
    force = line(bearing, "Head bearing takes") * 1000.0
    assert bearing.demand == pytest.approx(force / (70.0 * (70.0 + 30.0)), rel=2e-3)


def test_its_hanger_is_neither_asked_nor_ordered() -> None:
    """The rafter lies on the plate: no seat to declare, two straps, no hanger; the piece says what to cut."""
    job = changed("snow-carport", **CUT)
    design = solve(job, catalogue())
    assert "hanger-down" not in {c.id for c in design.checks}
    lines = {order.part: order for order in design.order}
    rafters = len(design.setting_out.plane.rafters)
    assert lines["hangers"].quantity == 0
    assert "lie on the wall plate" in lines["hangers"].why
    assert lines["straps"].quantity == 2 * rafters
    marks = next(p for p in design.pieces if p.id == "RF1").marks
    assert any("birdsmouth 40 deep, heel 70" in mark.text for mark in marks)
    assert wrong_lines(assessed(job)) == []


def test_deeper_is_never_better_and_too_deep_is_refused() -> None:
    """Utilisation grows with the cut; beyond half of the depth the rule ends."""
    used = []
    for cut in (20.0, 40.0, 60.0, 80.0):
        found = assessed(changed("snow-carport", frame__head_notch_mm=cut)).checks
        used.append(max(c.utilisation or 0.0 for c in found if c.id == "rafter-head-notch"))
    assert used == sorted(used)
    deep = assessed(changed("snow-carport", frame__head_notch_mm=150.0)).checks
    assert {c.verdict for c in deep if c.id == "rafter-head-notch"} == {"refused"}
