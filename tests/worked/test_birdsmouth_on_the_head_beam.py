"""A rafter's birdsmouth over the head beam of a free-standing roof, by hand: EN 1995-1-1, 6.5.2, and plain geometry."""

from __future__ import annotations

import json
from dataclasses import asdict
from math import atan, cos, sin, sqrt, tan
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.values import Check
from pentice.pack.drawings.details import wall_detail
from pentice.pack.drawings.frame_lines import head_beam_outline, rafter_head
from pentice.pack.method import order_of_work
from pentice.pipeline import solve
from tests.designs import assessed, catalogue, changed
from tests.tries import tries
from tests.worked.test_frame import ground_of_job
from tests.worked.test_printed_lines import wrong_lines

CUT: dict[str, Any] = {"frame__head_notch_mm": 30.0}
PITCH = atan(380.0 / 2600.0)
H, LEFT = 145.0, 115.0


def checks_of(rule: str, **changes: Any) -> list[Check]:
    """The checks of the canoe rack, rafter by rafter."""
    return [c for c in assessed(changed("boat-rack", **{**CUT, **changes})).checks if c.id == rule]


def worst(rule: str, **changes: Any) -> Check:
    """The one that uses most."""
    return max(checks_of(rule, **changes), key=lambda c: c.utilisation or 0.0)


def line(check: Check, says: str) -> float:
    """The result of a line of working."""
    return next(float(step.result) for step in check.working if step.says.startswith(says))


def k_v(left: float, x: float) -> float:
    """Eq. 6.62 and 6.63 for solid timber and a square corner."""
    a = left / H
    return min(1.0, 5.0 / (sqrt(H) * (sqrt(a * (1 - a)) + 0.8 * x / H * sqrt(1 / a - a**2))))


def test_a_person_beside_the_bearing_governs_under_little_snow() -> None:
    """1.5 x 1 kN cos(pitch) counts in full beside a cut support (6.1.7(3)); shear and bending on 115 of 145."""
    shear, bending = worst("rafter-head-notch"), worst("rafter-head-notch-bending")
    assert "G + Q at the head bearing" in shear.case
    assert shear.name.endswith("on the head beam")
    x = min(95.0, 30.0 / sin(PITCH)) / 2.0
    force = line(shear, "Head bearing takes") * 1000.0
    assert force > 1500.0 * cos(PITCH)
    assert shear.demand == pytest.approx(1.5 * force / (0.67 * 70.0 * LEFT), rel=1e-4)
    assert shear.capacity == pytest.approx(k_v(LEFT, x) * 0.9 * 4.0 / 1.3, rel=1e-9)
    assert bending.demand == pytest.approx(force * x * 6.0 / (70.0 * LEFT**2), rel=1e-4)
    assert wrong_lines(assessed(changed("boat-rack", **CUT))) == []


def test_lifted_the_cut_lies_on_the_other_side() -> None:
    """Wind alone, strong: eq. 6.61, k_v 1 on the depth left; the tie is told to hold above the cut."""
    check = worst(
        "rafter-head-notch", site__vb0_m_s=60.0, site__ground_snow_kn_m2=0.0, frame__head_notch_mm=5.0
    )
    assert "W up" in check.case
    assert line(check, "Head bearing takes") < 0.0
    assert check.capacity == pytest.approx(0.9 * 4.0 / 1.3)
    assert check.demand == pytest.approx(
        1.5 * abs(line(check, "Head bearing takes")) * 1000.0 / (0.67 * 70.0 * 140.0), rel=1e-3
    )
    assert "hold the rafter above the cut" in check.says


def test_the_beam_rises_into_the_cut_and_the_rafter_lies_on_its_seat() -> None:
    """Posts of the head row are cut / cos(pitch) longer; what is seated is cut / sin(pitch) of a wide beam's width."""
    lengths = []
    for cut in (0.0, 30.0):
        job = changed("boat-rack", frame__head_notch_mm=cut, frame__head_beam_mm=[295.0, 195.0])
        lengths.append({p.number: p.length_mm or 0.0 for p in ground_of_job(job).frame.head_posts})
        design = solve(job, catalogue())
        marks = [m.text for p in design.pieces if p.id == "RF1" for m in p.marks]
        said = "birdsmouth 30 deep, heel 295 level from the head beam's outer face, seat 207 from it inwards"
        assert (said in marks) == (cut > 0.0)
    for number, length in lengths[0].items():
        assert lengths[1][number] - length == pytest.approx(30.0 / cos(PITCH))
        over = 145.0 / cos(PITCH) + 295.0 * tan(PITCH)
        assert length == pytest.approx(2860.0 - over - 195.0, abs=0.6)
    bearing = worst("rafter-bearing-head", frame__head_beam_mm=[295.0, 195.0])
    seat = 30.0 / sin(PITCH)
    force = line(bearing, "Head bearing takes") * 1000.0
    assert bearing.demand == pytest.approx(force / (70.0 * (seat + 30.0)), rel=2e-3)
    assert "wedged" not in str([step.says for step in bearing.working])


def test_both_cuts_stand_beside_each_other_and_deep_ones_are_refused() -> None:
    """Eaves and head each with their own lines; over half of the depth the rule ends, with the way out."""
    found = {c.id for c in assessed(changed("boat-rack", **CUT, frame__rafter_notch_mm=30.0)).checks}
    assert {"rafter-notch", "rafter-notch-bending", "rafter-head-notch", "rafter-head-notch-bending"} <= found
    deep = checks_of("rafter-head-notch", frame__head_notch_mm=80.0)
    assert {c.verdict for c in deep} == {"refused"}
    assert all("Cut less out of the member" in c.says for c in deep)


def test_without_a_beam_there_is_nothing_to_lie_on() -> None:
    """The key is named."""
    (said,) = {c.says for c in checks_of("rafter-head-notch", frame__beam_mm=None)}
    assert said == "The head beam is not named: give frame.head_beam_mm."


def test_knee_braces_across_want_whole_rafters() -> None:
    """A brace meets the rafter near the cut: refused by the key, with the way out."""
    (check,) = checks_of("bracing-across", frame__bracing_across="knee braces", frame__brace_across_kn=20.0)
    assert check.verdict == "refused"
    assert "frame.head_notch_mm is 30" in check.says
    assert "Wedge the rafters on the beam, or give frame.bracing_across_kn" in check.says


@tries(8)
@given(cut=st.floats(5.0, 60.0), more=st.floats(1.0, 10.0))
def test_a_deeper_cut_is_never_better(cut: float, more: float) -> None:
    """Shear and bending at the head, whatever governs."""
    for rule in ("rafter-head-notch", "rafter-head-notch-bending"):
        less, greater = (worst(rule, frame__head_notch_mm=c).utilisation or 0.0 for c in (cut, cut + more))
        assert greater >= less * (1.0 - 1e-9)


def test_the_drawings_and_the_method_show_the_cut() -> None:
    """Seat level on the beam, rafter below it beside it, no wedge where the cut reaches over the whole width."""
    job = changed("boat-rack", frame__head_notch_mm=30.0, frame__rafter_notch_mm=20.0)
    design = solve(job, catalogue())
    corners = rafter_head(design)
    top = head_beam_outline(design)[0][1]
    assert top == pytest.approx(115.0 / cos(PITCH) + 95.0 * tan(PITCH))
    assert corners[0] == pytest.approx((95.0, 145.0 / cos(PITCH) + 95.0 * tan(PITCH)))
    assert corners[1] == pytest.approx((95.0, top))
    assert corners[2] == pytest.approx((0.0, top))
    words = json.dumps([asdict(p) for p in wall_detail(design).primitives], default=str)
    assert "birdsmouth 30" in words
    assert "wedge" not in words
    assert any("set on their birdsmouths and strapped" in step for step in order_of_work(design))
    one = solve(changed("boat-rack", **CUT), catalogue())
    assert any("birdsmouths, wedged at the other beam and strapped" in step for step in order_of_work(one))
