"""EQU with both factors on the weight: 0.9 on what holds, 1.1 on what lifts by its place. Levers by hand."""

from __future__ import annotations

import pytest

from pentice.checks.eaves import eaves_forces
from pentice.checks.passed_on import passed_on
from tests.designs import assessed, changed
from tests.worked.test_frame import ground_of_job
from tests.worked.test_printed_lines import wrong_lines

POSTS = [1300.0, 3100.0]
CHANGES = {"frame__posts_at_mm": POSTS}
DENSITY = 420.0 * 9.81 * 1e-9
"""Mean weight of C24, EN 338 [N/mm3]."""


def test_a_beam_on_two_posts_with_both_ends_free() -> None:
    """What stands beyond one post lifts the other by its lever; the beam's own end too."""
    ground = ground_of_job(changed("potting-bay", **CHANGES))
    assert ground.frame.beam is not None
    loads = passed_on(ground)
    forces = eaves_forces(ground, ground.frame.beam, loads)
    left, right = POSTS
    width, (b, h) = ground.shape.width_mm, ground.frame.beam.size_mm
    line = b * h * DENSITY
    span = right - left
    over = [(x - right) / span for x in loads.places_mm]
    lifts = sum(g * max(lever, 0.0) for g, lever in zip(loads.dead.foot_n, over, strict=True))
    lifts += line * (width - right) ** 2 / 2.0 / span
    assert forces.dead_lifts_n[0] == pytest.approx(lifts, rel=1e-6)
    under = [(left - x) / span for x in loads.places_mm]
    lifts = sum(g * max(lever, 0.0) for g, lever in zip(loads.dead.foot_n, under, strict=True))
    lifts += line * left**2 / 2.0 / span
    assert forces.dead_lifts_n[1] == pytest.approx(lifts, rel=1e-6)


def test_the_joint_counts_them_apart_and_shows_it() -> None:
    """0.9 (G_down - G_up) - 0.2 G_up less: the printed line, and the capacity."""
    design = assessed(changed("potting-bay", **CHANGES))
    ground = ground_of_job(changed("potting-bay", **CHANGES))
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    dead = next(i for i, c in enumerate(forces.cases) if c.combination.name == "G")
    (tie,) = (c for c in design.checks if c.id == "post-tie" and c.place.post == 1)
    whole, lifting = float(forces.reactions_n[dead, 0]) / 1000.0, float(forces.dead_lifts_n[0]) / 1000.0
    held = next(float(s.result) for s in tie.working if s.says.startswith("Weight that holds, what of it"))
    assert held == pytest.approx(0.9 * (whole + lifting) - 1.1 * lifting, rel=1e-6)
    assert tie.capacity == pytest.approx(held + 8.0, rel=1e-6)
    assert wrong_lines(design) == []


def test_a_long_overhang_lifts_the_heads() -> None:
    """g o^2 / (2 L) of each rafter, by hand; none of it at the foot."""
    ground = ground_of_job(changed("cycle-shelter", roof__overhang_on_slope_mm=500.0))
    loads, shape = passed_on(ground), ground.shape
    plate, beam = 47.0 / 2.0, 70.0 / 2.0
    span = (shape.projection_mm - plate - beam) / shape.cos_pitch
    over = 500.0 + beam / shape.cos_pitch
    for k, head in enumerate(loads.dead.head_n):
        foot = loads.dead.foot_n[k]
        line = (head + foot) / (plate / shape.cos_pitch + span + over)
        assert loads.dead_lifts_n[k] == pytest.approx(line * over**2 / (2.0 * span), rel=1e-6)
