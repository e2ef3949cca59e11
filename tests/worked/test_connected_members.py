"""Checks of whole jobs against arithmetic of our own: birdsmouth.

The second route takes the load of the check's picture, which is drawn from the job, and nothing of the clauses or the
statics of the engine: reactions by the trapezoid rule on a fine grid, clauses written out here once more.
"""

from __future__ import annotations

from math import radians, sin, sqrt
from typing import Any

import numpy as np
import pytest

from pentice.checks.values import Check
from pentice.pack.drawings.details import foot_detail
from pentice.pipeline import Assessed, solve
from tests.designs import assessed, catalogue, changed
from tests.worked.test_printed_lines import wrong_lines


def of(design: Assessed, id: str, **place: Any) -> Check:
    """The one check of a rule at a place."""
    found = [
        c for c in design.checks if c.id == id and all(getattr(c.place, k) == v for k, v in place.items())
    ]
    assert len(found) == 1, (id, place, len(found))
    return found[0]


def beam_forces(check: Check) -> tuple[float, float, float]:
    """Reaction at the foot, what lies beyond it [kN], and its moment over the beam [kNm]: down positive."""
    picture = check.picture
    assert picture is not None
    span = picture.held_mm[1]
    x = np.unique(np.concatenate([np.linspace(0.0, picture.line[-1][0], 200_001), [span]]))
    q = np.interp(x, [at for at, _ in picture.line], [load for _, load in picture.line])
    middle, force = (x[1:] + x[:-1]) / 2.0, (q[1:] + q[:-1]) / 2.0 * np.diff(x)
    past = middle > span
    over = float((force * (middle - span))[past].sum())
    foot, beyond = float((force * middle).sum() / span), float(force[past].sum())
    if picture.force is not None:  # a person, who governs some
        at, kn, _ = picture.force
        foot += kn * 1e3 * at / span
        if at > span:
            beyond, over = beyond + kn * 1e3, over + kn * 1e3 * (at - span)
    return foot / 1e3, beyond / 1e3, over / 1e6


@pytest.mark.parametrize("cut", [10.0, 20.0, 45.0])
def test_shear_at_a_birdsmouth(cut: float) -> None:
    """Eq. 6.60 to 6.63 by hand: 70 x 120 C24 on a beam 70 wide at 12 degrees, k_mod 0.9. Tolerance: the grid, 1e-4."""
    design = assessed(changed("potting-bay", frame__rafter_notch_mm=cut))
    check = of(design, "rafter-notch", rafter=2)
    foot, beyond, _ = beam_forces(check)
    a, x = (120.0 - cut) / 120.0, min(70.0, cut / sin(radians(12.0))) / 2.0
    k_v = min(1.0, 5.0 / (sqrt(120.0) * (sqrt(a * (1 - a)) + 0.8 * x / 120.0 * sqrt(1 / a - a**2))))
    shear = max(abs(foot - beyond), abs(beyond)) * 1e3
    assert check.demand == pytest.approx(1.5 * shear / (0.67 * 70.0 * (120.0 - cut)), rel=1e-4)
    assert check.capacity == pytest.approx(k_v * 0.9 * 4.0 / 1.3, rel=1e-6)
    bending = of(design, "rafter-notch-bending", rafter=2)
    _, _, over = beam_forces(bending)
    assert bending.demand == pytest.approx(6.0 * over * 1e6 / (70.0 * (120.0 - cut) ** 2), rel=1e-3)
    assert wrong_lines(design) == []


def test_the_seat_of_a_birdsmouth_presses_as_far_as_it_is_cut() -> None:
    """A cut of 10 at 12 degrees lies on 48.1 of the beam's 70: pressure rises as the contact falls. By hand."""
    whole = of(assessed(changed("potting-bay")), "rafter-bearing", rafter=2)
    cut = of(assessed(changed("potting-bay", frame__rafter_notch_mm=10.0)), "rafter-bearing", rafter=2)
    seat = 10.0 / sin(radians(12.0))
    assert whole.demand is not None and cut.demand is not None
    assert cut.demand / whole.demand == pytest.approx((70.0 + 30.0) / (seat + 30.0), rel=1e-9)


def test_a_deeper_birdsmouth_is_never_safer() -> None:
    """Use of every rule of the cut against its depth, up to the limit, then refused."""
    uses: dict[str, list[float]] = {}
    for cut in (5.0, 10.0, 20.0, 30.0, 45.0, 60.0):
        design = assessed(changed("snow-carport", frame__rafter_notch_mm=cut))
        for id in ("rafter-notch", "rafter-notch-bending"):
            use = of(design, id, rafter=2).utilisation
            assert use is not None
            uses.setdefault(id, []).append(use)
    for found in uses.values():
        assert found == sorted(found)
    depth = changed("snow-carport").frame.rafter_mm
    assert depth is not None
    deep = assessed(changed("snow-carport", frame__rafter_notch_mm=depth[1] / 2.0 + 1.0))
    refused = of(deep, "rafter-notch", rafter=2)
    assert refused.verdict == "refused" and "expected 0.5 to 1" in refused.says


def test_uplift_that_pulls_the_cut_open_is_refused() -> None:
    """A long overhang in a strong wind on an open roof bends the foot up: tension at the cut has no rule."""
    job = changed(
        "cycle-shelter",
        frame__rafter_notch_mm=30.0,
        roof__overhang_on_slope_mm=700.0,
        site__peak_pressure_kn_m2=2.0,
    )
    checks = [c for c in assessed(job).checks if c.id == "rafter-notch-bending"]
    assert {c.verdict for c in checks} == {"refused"}
    assert all("pulls the cut open" in c.says for c in checks)
    mild = assessed(changed("cycle-shelter", frame__rafter_notch_mm=30.0))
    assert {c.verdict for c in mild.checks if c.id == "rafter-notch-bending"} == {"passes"}


def test_the_foot_detail_and_the_ticket_name_the_birdsmouth() -> None:
    """No wedge where the rafter is cut to the beam; the cut and its seat stand on the rafter's ticket."""
    plain, cut = (solve(changed("potting-bay", frame__rafter_notch_mm=c), catalogue()) for c in (0.0, 12.0))
    before, after = (repr(foot_detail(d)) for d in (plain, cut))
    assert "'wedge'" in before and "birdsmouth" not in before
    assert "'birdsmouth 12'" in after and "wedge" not in after
    marks = [m.text for p in cut.pieces if p.id == "RF2" for m in p.marks]
    assert marks[-1] == "birdsmouth 12 deep, seat 58 level from the plumb cut inwards"


def test_the_beam_stands_higher_by_what_is_cut() -> None:
    """The clear height and the posts grow by cut / cos(pitch). Geometry by hand."""
    plain, cut = (assessed(changed("potting-bay", frame__rafter_notch_mm=c)) for c in (0.0, 20.0))
    rise = 20.0 / sqrt(1.0 - sin(radians(12.0)) ** 2)
    assert cut.setting_out.clear_height_mm is not None and plain.setting_out.clear_height_mm is not None
    assert cut.setting_out.clear_height_mm - plain.setting_out.clear_height_mm == pytest.approx(rise)
