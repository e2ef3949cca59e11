"""Screws by zone along the bar: what the wind allows by hand, stretches drilled closer, the cure that asks for them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from pentice.advice.cures import cures
from pentice.checks.bar_screws import PRYING, zones_asked
from pentice.job.writing import with_keys
from pentice.pipeline import assess, solve
from tests.designs import EXAMPLES, assessed, catalogue, changed, design_of

UP = "bar-screw-uplift"


def screw_capacity(name: str) -> float:
    """Design resistance of one screw of an example [N]."""
    return next(c.capacity or 0.0 for c in design_of(name).checks if c.id == UP)


@pytest.mark.parametrize("name", EXAMPLES)
def test_screws_as_close_as_the_wind_allows_hold_just_so(name: str) -> None:
    """A bar drilled at the told spacing in its worst stretch: R / (1.5 s) is the uplift there, and no more is used."""
    design = design_of(name)
    for bar in design.setting_out.plane.bars:
        zones = zones_asked(design.checks, [bar.rafter])
        check = next(c for c in design.checks if c.id == UP and c.place.rafter == bar.rafter)
        assert check.capacity is not None
        assert check.demand is not None
        tightest = min(spacing for _, _, spacing in zones)
        # The worst screw holds at most the greatest uplift over its own length.
        reach = max(b - a for a, b in pairwise([0.0, *(h.at_mm for h in bar.holes), bar.base_mm]))
        assert check.demand <= check.capacity / (tightest + 1.0) * reach * 1.5 + 1.0
        assert all(a[1] <= b[0] for a, b in pairwise(zones))


def test_the_told_spacing_is_the_resistance_over_the_uplift() -> None:
    """Open canopy, no weight: c_p,net of each zone for 1 m2 from the loads, by hand. Tolerance: whole mm."""
    design = design_of("cycle-shelter")
    check = next(c for c in design.checks if c.id == UP and c.place.rafter == 5)
    steps = [s for s in check.working if s.says.startswith("Holes at most")]
    assert steps
    for step in steps:
        assert float(step.result) == pytest.approx(
            float(step.numbers.split(" / ")[0]) / (PRYING * float(step.numbers.split("x ")[1].rstrip(")"))),
            rel=1e-5,
        )
    # Inner rafter, bays of 672.2: suction of zones C (head and foot tenth) and A between, blockage 1, less 0.9 g.
    peak, share = design.loads.wind.peak_pressure_kn_m2 or 0.0, 0.6722
    nets = {
        z.name: z.c_10 for case in design.loads.wind.cases if "blockage 1" in case.name for z in case.zones
    }
    weight = (
        0.9 * ((design.loads.dead.sheet_kn_m2 * share) + design.loads.dead.bar_kn_m) * design.shape.cos_pitch
    )
    capacity = check.capacity or 0.0
    by_hand = sorted(capacity / (PRYING * (-1.5 * nets[z] * peak * share - weight)) for z in ("A", "C"))
    told = sorted({round(float(step.result), 3) for step in steps})
    assert told[0] == pytest.approx(by_hand[0], rel=2e-2)
    assert told[-1] == pytest.approx(by_hand[-1], rel=2e-2)


def test_stretches_are_drilled_closer_and_ordered() -> None:
    """200 up to 700 from the foot, 300 beyond: no step longer than its stretch allows, a hole at 700, more screws."""
    closer = solve(changed("cycle-shelter", screws__closer_mm=[[700, 200]]), catalogue())
    bar = closer.setting_out.plane.bars[0]
    marks = [hole.at_mm for hole in bar.holes]
    assert any(abs(mark - 700.0) < 1e-6 for mark in marks)
    for a, b in pairwise(marks):
        assert b - a <= (200.0 if b <= 700.0 + 1e-6 else 300.0) + 1e-6
    assert len(marks) > len(design_of("cycle-shelter").setting_out.plane.bars[0].holes)
    before, after = (
        next(line.quantity for line in d.order if line.item == f"screws.{d.parts.screw.id}")
        for d in (design_of("cycle-shelter"), closer)
    )
    assert after > before


def test_closer_screws_are_never_pulled_more() -> None:
    """Spacing by spacing. Exact but for floating point."""
    last = float("inf")
    for spacing in (400, 300, 200, 100):
        checks = assessed(changed("cycle-shelter", screws__spacing_mm=spacing)).checks
        pull = max(c.demand or 0.0 for c in checks if c.id == UP)
        assert pull <= last + 1e-9
        last = pull


def test_too_few_screws_are_cured_where_the_wind_asks_for_them() -> None:
    """Every 900 fails; the cure puts closer screws into stretches, and passes."""
    job = changed("cycle-shelter", screws__spacing_mm=900)
    design = solve(job, catalogue())
    assert "fails" in {c.verdict for c in design.checks if c.id == UP}
    cure = next((p for p in cures(design) if "screws.closer_mm" in p.set), None)
    if cure is None:  # all stretches need the same: then one spacing everywhere is the cure
        assert len({s for _, _, s in zones_asked(design.checks, range(1, 11))}) == 1
        return
    after = assess(with_keys(job, dict(cure.set)), catalogue())
    assert {c.verdict for c in after.checks if c.id == UP} == {"passes"}


def test_stretches_out_of_order_are_refused() -> None:
    """One sentence that names the key."""
    with pytest.raises(Exception, match=r"screws.closer_mm.*out of order"):
        changed("cycle-shelter", screws__closer_mm=[[700, 200], [500, 100]])
