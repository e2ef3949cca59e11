"""Bolts of knee braces: slip, play, holes, and how far a row sways along by them; by slices, geometry and frames.

Nothing of `pentice.checks.sway` or of `pentice.checks.knee_bolts` is used for what is expected; the plane frames that a
row is held against are themselves compared with another program (tests/oracle).
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from pentice.advice.cures import cures
from pentice.checks.knee_bolts import net_section
from pentice.checks.values import Check
from pentice.errors import OutsideScope
from pentice.job.writing import with_keys
from pentice.mechanics.plane_frame import FrameMember, PlaneFrame, plane_frame
from pentice.pipeline import assess, solve
from pentice.standards.en1995_slip import mean_of_two, slip_modulus_n_mm
from tests.designs import assessed, catalogue, changed
from tests.worked.test_frame import ground_of_job
from tests.worked.test_printed_lines import wrong_lines

K_SER = 420.0**1.5 * 12.0 / 23.0


def sway_of(name: str, **changes: Any) -> Check:
    """The check of a changed example."""
    (check,) = (c for c in assessed(changed(name, **changes)).checks if c.id == "sway-along")
    return check


def result_of(check: Check, says: str) -> float:
    """The result of one of its lines."""
    return next(float(step.result) for step in check.working if step.says == says)


def test_slip_of_a_bolt() -> None:
    """M12 and M16 in C24, mean density 420 kg/m3: 4.49 and 5.99 kN/mm, by hand; from memory of Table 7.1."""
    assert slip_modulus_n_mm(12.0, 420.0) == pytest.approx(4490.9, abs=0.1)
    assert slip_modulus_n_mm(16.0, 420.0) == pytest.approx(420.0 * math.sqrt(420.0) * 16.0 / 23.0)
    assert mean_of_two(350.0, 504.0) == pytest.approx(420.0)


@pytest.mark.parametrize(
    ("depth", "count", "d", "beside"),
    [(145.0, 2, 12.0, 2), (95.0, 2, 12.0, 1), (195.0, 4, 12.0, 3), (170.0, 2, 16.0, 2), (72.0, 1, 12.0, 1)],
)
def test_what_holes_leave_of_a_section(depth: float, count: int, d: float, beside: int) -> None:
    """By 400000 slices: area, and the moment of inertia over half the depth. Holes even between 3 d from the edges."""
    job = changed("boat-rack", frame__knee_bolts=count, frame__knee_bolt_mm=d, frame__knee_hole_mm=1.0)
    net = net_section(ground_of_job(job), 95.0, depth)
    z = (np.arange(400_000) + 0.5) / 400_000 * depth - depth / 2.0
    far = depth / 2.0 - 3.0 * d
    places = np.linspace(-far, far, beside) if beside > 1 else np.zeros(1)
    wood = np.ones_like(z)
    for place in places:
        wood[np.abs(z - place) < (d + 1.0) / 2.0] = 0.0
    assert all(b - a >= 4.0 * d - 1e-9 for a, b in pairwise(places))
    assert net.area_mm2 == pytest.approx(95.0 * depth * wood.mean(), rel=1e-4)
    assert net.modulus_mm3 == pytest.approx(95.0 * depth * (wood * z**2).mean() / (depth / 2.0), rel=1e-4)
    assert net.step().result == net.modulus_mm3


def test_a_timber_without_room_for_a_bolt_is_refused() -> None:
    """Six diameters: 24 mm in 143."""
    ground = ground_of_job(changed("boat-rack", frame__knee_bolt_mm=24.0))
    with pytest.raises(OutsideScope, match=r"143 mm; expected 144 .*frame.knee_bolt_mm, or a deeper timber"):
        net_section(ground, 95.0, 143.0)


def test_play_leans_a_post_as_far_as_geometry_has_it() -> None:
    """A stiff post that turns about its foot under a level beam until its brace is 2 x 1 mm longer: to 3 %."""
    height, a, b = 2236.0, 600.0, 600.0
    play = result_of(sway_of("boat-rack", frame__knee_hole_mm=1.0), "Play of the bolts in their holes")
    low, high = 0.0, 50.0
    for _ in range(60):
        lean = (low + high) / 2.0
        turn = math.asin(lean / height)
        knee = ((height - a) * math.sin(turn), (height - a) * math.cos(turn))
        # The beam goes with the head: level, and down by what the turned post loses.
        on_beam = (lean - b, height * math.cos(turn))
        longer = math.hypot(a, b) - math.hypot(on_beam[0] - knee[0], on_beam[1] - knee[1])
        low, high = (lean, high) if longer < 2.0 else (low, lean)
    assert play == pytest.approx((low + high) / 2.0, rel=0.03)


def framed_mm_n(
    height: float, a: float, b: float, places: list[float], post: Any, beam: Any, give: float
) -> float:
    """How far the beam of a row moves along for 1 N, as a plane frame with one brace at each post."""
    e = 11000.0
    marks = sorted({x for i, at in enumerate(places) for x in (at, at + (b if i < len(places) - 1 else -b))})
    nodes = [(x, height) for x in marks]
    i_beam, i_post = beam[0] * beam[1] ** 3 / 12.0, post[1] * post[0] ** 3 / 12.0
    # Stiff along: sag of the posts and pull along the beam are left out by hand too.
    members = [FrameMember(start=i, end=i + 1, ea_n=1e9, ei_n_mm2=e * i_beam) for i in range(len(marks) - 1)]
    feet = []
    for i, at in enumerate(places):
        foot, knee = len(nodes), len(nodes) + 1
        nodes += [(at, 0.0), (at, height - a)]
        feet.append(foot)
        on = marks.index(at + (b if i < len(places) - 1 else -b))
        long = math.hypot(a, b)
        members += [
            FrameMember(start=foot, end=knee, ea_n=1e9, ei_n_mm2=e * i_post),
            FrameMember(start=knee, end=marks.index(at), ea_n=1e9, ei_n_mm2=e * i_post, hinge_end=True),
            FrameMember(start=knee, end=on, ea_n=give * long, ei_n_mm2=1e9, hinge_start=True, hinge_end=True),
        ]
    frame = PlaneFrame(nodes_mm=tuple(nodes), members=tuple(members), pinned=tuple(feet))
    forces = np.zeros((1, len(nodes), 2))
    forces[0, 0, 0] = 1.0
    return float(plane_frame(frame, forces, np.zeros((1, len(members), 2))).moves_mm[0, 0, 0])


@pytest.mark.parametrize(
    ("name", "post", "beam"),
    [
        ("boat-rack", (145.0, 145.0), (95.0, 195.0)),
        ("cycle-shelter", (95.0, 95.0), (70.0, 170.0)),
        ("plant-lobby", (95.0, 95.0), (70.0, 170.0)),
    ],
)
def test_a_row_leans_no_further_than_is_said(
    name: str, post: tuple[float, float], beam: tuple[float, float]
) -> None:
    """A frame of beam, posts and braces moves 70 to 100 % of what equilibrium alone says, two, three or four posts."""
    check = sway_of(name)
    job = changed(name)
    places = list(job.frame.posts_at_mm)
    slips = next(step for step in check.working if step.says == "Leans for each kN by slip of the bolts")
    height = float(slips.numbers.split("(")[1].split(" / ")[0])
    said = result_of(check, "Leans for each kN")
    frame = 1000.0 * framed_mm_n(height, 600.0, 600.0, places, post, beam, K_SER)
    assert 0.7 * said < frame <= said * (1.0 + 1e-9)


def test_two_posts_by_the_work_of_their_forces() -> None:
    """The lobby: half a kN at each post; brace, post and beam by Simpson's rule; the beam's moment as it truly runs.

    Said on the safe side: brace and post alike to 1e-6, the beam's part up to half as much again.
    """
    check = sway_of("plant-lobby")
    slips = next(step for step in check.working if step.says == "Leans for each kN by slip of the bolts")
    h = float(slips.numbers.split("(")[1].split(" / ")[0])
    a = b = 600.0
    long = float(changed("plant-lobby").frame.posts_at_mm[1] - changed("plant-lobby").frame.posts_at_mm[0])
    v = 500.0
    brace = v * h / a * math.hypot(a, b) / b
    of_brace = 2.0 * brace**2 / K_SER / 1000.0
    assert result_of(check, "Leans for each kN by slip of the bolts") == pytest.approx(of_brace, rel=1e-4)
    z = np.linspace(0.0, h, 20_001)
    moment = np.where(z < h - a, v * z, v * (h - a) * (h - z) / a)
    e_post = 11000.0 * 95.0**4 / 12.0
    of_post = 2.0 * float(np.trapezoid(moment**2, z)) / e_post / 1000.0
    assert result_of(check, "Leans for each kN by bending of the posts") == pytest.approx(of_post, rel=1e-4)
    x = np.linspace(0.0, long, 20_001)
    up = v * h / b
    pair = 2.0 * v * h / long
    bends = (up - pair) * x - up * np.maximum(x - b, 0.0) + up * np.maximum(x - long + b, 0.0)
    assert abs(bends[-1]) < 1e-6 * abs(bends).max()
    e_beam = 11000.0 * 70.0 * 170.0**3 / 12.0
    of_beam = float(np.trapezoid(bends**2, x)) / e_beam / 1000.0
    said = result_of(check, "Leans for each kN by bending of the beam")
    assert of_beam < said < 4.0 * of_beam


def test_the_sway_by_its_own_parts_and_its_limit() -> None:
    """Characteristic wind, 1.5 times less than in the push; N h / alpha; 1 / (1 - 1 / alpha); the limit of the job."""
    check = sway_of("potting-bay", frame__knee_hole_mm=1.0, frame__sway_limit=200.0)
    each, alpha = (
        result_of(check, "Leans for each kN"),
        result_of(check, "Load under which the row sways away, over its load"),
    )
    wind = result_of(check, "Wind that pushes, characteristic")
    play = 2.0 * math.sqrt(2.0) * 2102.3 / 600.0
    assert check.demand == pytest.approx((wind * each + play) / (1.0 - 1.0 / alpha), rel=1e-3)
    assert check.capacity == pytest.approx(2102.3 / 200.0, rel=1e-4)
    bracing = next(c for c in assessed(changed("potting-bay")).checks if c.id == "bracing")
    push = next(step for step in bracing.working if step.says.startswith("Push along"))
    lean, weight = (float(n) for n in push.numbers.split(" + ")[-1].split(" x "))
    assert wind == pytest.approx((float(push.result) - lean * weight) / 1.5, rel=1e-3)
    assert alpha == pytest.approx(2102.3 / (weight * each), rel=1e-3)


def test_what_makes_a_row_stiffer_and_softer() -> None:
    """More or thicker bolts, two shear planes, tight holes, longer braces: each sways less."""
    soft = sway_of("potting-bay", frame__knee_hole_mm=1.0).demand or 0.0
    for keys in (
        {"frame__knee_bolts": 3},
        {"frame__knee_bolt_mm": 14.0},
        {"frame__knee_bolt_planes": 2},
        {"frame__knee_hole_mm": 0.5},
        {"frame__knee_mm": [700.0, 700.0]},
        {"frame__post_mm": [120.0, 120.0]},
    ):
        assert (sway_of("potting-bay", **{"frame__knee_hole_mm": 1.0, **keys}).demand or 0.0) < soft, keys


def test_typical_bolts_say_so_and_the_limit_too() -> None:
    """Nothing given: four typical values of the bolts and the limit."""
    nothing = {"frame__knee_hole_mm": None, "frame__sway_limit": None}
    check = sway_of("cycle-shelter", **nothing)
    typical = {r.input: r.value for r in check.rests_on if r.mark == "typical"}
    keys = ("knee_bolts", "knee_bolt_mm", "knee_bolt_planes", "knee_hole_mm", "sway_limit")
    assert [typical[f"frame.{key}"] for key in keys] == [2, 12.0, 1, 1.0, 150.0]
    assert check.verdict == "fails"
    assert "two bars a metre apart slide" in check.says
    assert wrong_lines(assessed(changed("cycle-shelter", **nothing))) == []


def test_a_row_too_soft_and_one_of_metal_are_refused() -> None:
    """Thin posts under much snow: alpha below 3.9; metal: whoever declares the braces knows."""
    soft = sway_of(
        "cycle-shelter",
        frame__post_mm=[95.0, 95.0],
        frame__knee_mm=[150.0, 150.0],
        site__ground_snow_kn_m2=2.5,
    )
    assert soft.verdict == "refused"
    assert "The row sways away along under" in soft.says
    metal = sway_of("cycle-shelter", frame__post_section="tube-steel-70", frame__post_mm=[70.0, 70.0])
    assert metal.verdict == "refused"
    assert "ask who declares them" in metal.says


def test_leaning_adds_to_the_push_along() -> None:
    """Below 10 by design stiffness (EN 1993-1-1, 5.2.1(3), 5.2.2(5), from memory), here by leaning on and on.

    The push leans the row by e h_d, what stands on it pushes on by N u / h; refused below 3.
    """
    seen = set()
    for snow in (0.5, 1.5, 3.0, 5.0, 7.0, 9.0):
        of = assessed(changed("cycle-shelter", site__ground_snow_kn_m2=snow, frame__sway_limit=50.0))
        row, bracing = (next(c for c in of.checks if c.id == rule) for rule in ("sway-along", "bracing"))
        alpha = result_of(row, "Load under which the row sways away, over its load") / 1.3
        pushed = result_of(bracing, "Push along the wall on the row of posts")
        said = [float(s.result) for s in bracing.working if s.says == "Push with leaning"]
        seen.add((alpha >= 3.0) + (alpha >= 10.0))
        assert (row.verdict == "refused") == (alpha < 3.0)
        if alpha >= 10.0:
            assert said == []
            continue
        alpha = max(alpha, 3.0)
        whole = pushed
        for _ in range(400):
            whole = pushed + whole / alpha  # leans by whole e, N over h of which is whole / alpha
        assert said == [pytest.approx(whole, rel=1e-9)]
        if row.capacity is None:
            continue
        knee = changed("cycle-shelter").frame.knee_mm
        rise = row.capacity * 50.0 / knee[0] * math.hypot(*knee) / knee[1]
        assert bracing.demand == pytest.approx(whole / 4.0 * rise, rel=1e-9)
    assert seen == {0, 1, 2}


def test_a_job_without_knee_braces_asks_none_of_it() -> None:
    """A diagonal, held feet: no holes; of a diagonal no sway."""
    for keys in (
        {"frame__bracing": "diagonal"},
        {"frame__bracing": "fixed feet", "frame__post_foot_knm": 5.0},
    ):
        checks = assessed(changed("potting-bay", **keys)).checks
        assert [c.id for c in checks if "sway" in c.id] == (
            ["sway-along"] if keys["frame__bracing"] == "fixed feet" else []
        )
        assert not [c for c in checks if any(r.input.startswith("frame.knee_") for r in c.rests_on)]


def test_a_roof_that_sways_too_far_is_cured() -> None:
    """Holes no wider than the bolts, or longer braces: proposed, and it holds then."""
    job = changed("potting-bay", frame__knee_hole_mm=None)
    design = solve(job, catalogue())
    assert {c.verdict for c in design.checks if c.id == "sway-along"} == {"fails"}
    found = [cure for cure in cures(design) if cure.check == "sway-along"]
    assert any(dict(cure.set) == {"frame.knee_hole_mm": 0.0} for cure in found)
    assert any("frame.knee_mm" in cure.set for cure in found)
    for cure in found:
        after = assess(with_keys(job, dict(cure.set)), catalogue()).checks
        assert {c.verdict for c in after if c.id == "sway-along"} == {"passes"}
