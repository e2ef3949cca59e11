"""Beam, posts and wall by a second route: the potting bay's drift by slices, the beam by the force method.

Sizes are those of the example: 2402 out, 12 degrees, overhang 55 on the slope, plate 47 and beam 70 wide, six rafters
of 70 over the mean of three widths, barge board 20. Snow 1.8 kN/m2 at the wall falling straight to 0.36 at 5 m
(EN 1991-1-3, 5.3.6). Nothing of the engine is used to find what is expected.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest

from pentice.checks.beam import beam_checks
from pentice.checks.bracing import bracing_checks
from pentice.checks.brought import Brought
from pentice.checks.eaves import eaves_forces
from pentice.checks.ground import Ground
from pentice.checks.held_down import held_down_checks
from pentice.checks.passed_on import HANGING, passed_on
from pentice.checks.posts import post_checks
from pentice.checks.racking import racking
from pentice.checks.values import Check
from pentice.checks.wall import wall_checks
from pentice.frame.stage import frame_of
from pentice.job.model import Job
from tests.designs import assessed, catalogue, changed, design_of

COS = math.cos(math.radians(12.0))
WIDTH = (4310.0 + 4308.0 + 4313.0) / 3.0
PITCH = (WIDTH - 70.0) / 5.0
MARKS = tuple(35.0 + PITCH * k for k in range(6))
EDGES = (-20.0, *(35.0 + PITCH * (k + 0.5) for k in range(5)), WIDTH + 20.0)
POSTS = (48.0, 2155.0, 4262.0)
NO_PAIR = (Brought(says="pair of the row", kn=0.0),) * 3
PEAK = 0.423484
"""Peak pressure of the example [kN/m2], which has tests of its own."""


def ground_of(name: str = "potting-bay") -> Ground:
    """The inputs of every check of an example."""
    return ground_of_job(design_of(name).job)


def ground_of_job(job: Job) -> Ground:
    """The inputs of every check of a job."""
    design = assessed(job)
    return Ground(
        job=job,
        shape=design.shape,
        parts=design.parts,
        catalogue=catalogue(),
        annex=design.annex,
        loads=design.loads,
        setting_out=design.setting_out,
        frame=frame_of(job, design.shape, design.parts, design.setting_out),
    )


def foot_by_slices(width: float) -> tuple[float, float]:
    """Vertical force on beam and plate from the drift on one strip [N]: thin slices, moments about the head."""
    start, foot, tip = 23.5, 2402.0 - 35.0, 2402.0 + 55.0 * COS
    n = 20000
    step = tip / n
    whole = turning = 0.0
    for i in range(n):
        y = (i + 0.5) * step
        force = (1.8 + (0.36 - 1.8) * y / 5000.0) * 1e-3 * width * step
        whole += force
        turning += force * (y - start)
    at_foot = turning / (foot - start)
    return at_foot, whole - at_foot


def test_a_drift_passes_on_what_slices_give() -> None:
    """Six rafters. Tolerance 1e-6: thin slices."""
    loads = passed_on(ground_of())
    drift = next(load for load in loads.snow if "drift" in load.name)
    for k, (a, b) in enumerate(pairwise(EDGES)):
        at_foot, at_head = foot_by_slices(b - a)
        assert drift.foot_n[k] == pytest.approx(at_foot, rel=1e-4)
        assert drift.head_n[k] == pytest.approx(at_head, rel=1e-4)
        assert drift.pull_n[k] == 0.0


def test_snow_over_the_foot_weighs_on_the_beam_and_eases_the_wall() -> None:
    """At 900 m: the tip stands 55 + 35 / cos 12 beyond the middle of the beam; span 2343.5 / cos 12. By hand. Exact."""
    ground = ground_of_job(changed("potting-bay", site__altitude_m=900.0))
    line = ground.loads.snow.foot_line_kn_m
    assert line > 0.0
    loads = passed_on(ground)
    bare, over = (
        next(load for load in loads.snow if "drift" in load.name and (HANGING in load.name) == hangs)
        for hangs in (False, True)
    )
    span, beyond = (2402.0 - 35.0 - 23.5) / COS, 55.0 + 35.0 / COS
    for k, (a, b) in enumerate(pairwise(EDGES)):
        force = line * (b - a)
        assert over.foot_n[k] - bare.foot_n[k] == pytest.approx(force * (span + beyond) / span, rel=1e-6)
        assert over.head_n[k] - bare.head_n[k] == pytest.approx(-force * beyond / span, rel=1e-6)


def test_suction_square_to_the_slope_keeps_the_roof_in_balance() -> None:
    """Whatever lifts as w square to the slope: down adds to -W cos, and W sin pulls at the wall."""
    loads = passed_on(ground_of())
    for load in loads.wind:
        down = sum(load.foot_n) + sum(load.head_n)
        assert down * math.sin(math.radians(12.0)) == pytest.approx(-sum(load.pull_n) * COS, abs=1e-6)


def simple_moment(points: list[tuple[float, float]], w: float, ends: tuple[float, float], x: float) -> float:
    """Moment at x of a beam on the outer posts only, by the loads left of x [N mm]."""
    a, b = POSTS[0], POSTS[2]
    length, middle = ends[1] - ends[0], (ends[0] + ends[1]) / 2.0
    right = (sum(p * (at - a) for at, p in points) + w * length * (middle - a)) / (b - a)
    left = sum(p for _, p in points) + w * length - right
    m = -sum(p * (x - at) for at, p in points if at < x) - w * (x - ends[0]) ** 2 / 2.0
    return m + (left * (x - a) if x > a else 0.0) + (right * (x - b) if x > b else 0.0)


def test_the_beam_is_what_the_force_method_gives() -> None:
    """The middle post as the unknown: its force undoes the sag there. Integrals by 40,000 slices."""
    ground = ground_of()
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    i = next(
        i for i, c in enumerate(forces.cases) if c.combination.name == "1.35 G + 1.5 S" and "drift" in c.words
    )
    case = forces.cases[i]
    feet = [sum(factor * forces.loads.all[load].foot_n[k] for load, factor in case.acting) for k in range(6)]
    points = list(zip(MARKS, feet, strict=True))
    w, ends = 1.35 * 70 * 170 * 1e-6 * 420 * 9.81e-3, (0.0, WIDTH)
    span = POSTS[2] - POSTS[0]

    def unit(x: float) -> float:
        return min(x - POSTS[0], POSTS[2] - x) / 2.0

    n = 40000
    xs = [POSTS[0] + (j + 0.5) * span / n for j in range(n)]
    sag = sum(simple_moment(points, w, ends, x) * unit(x) for x in xs)
    give = sum(unit(x) ** 2 for x in xs)
    middle = sag / give
    assert forces.reactions_n[i, 1] == pytest.approx(middle, rel=1e-5)
    assert sum(forces.reactions_n[i]) == pytest.approx(sum(feet) + w * WIDTH, rel=1e-9)
    over = simple_moment(points, w, ends, POSTS[1]) - middle * span / 4.0
    part = forces.parts[0]
    node = part.model.nodes_mm.index(POSTS[1])
    assert part.moments_n_mm[i, node] == pytest.approx(over, rel=1e-5)


def test_bending_of_the_beam_by_hand() -> None:
    """0.9 x 1.0 x 24 / 1.3 over 70 x 170 with l_ef 0.9 x 2107 + 340 = 2236: lambda 0.60, no loss. f_m,d 16.615."""
    ground = ground_of()
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    bending = next(c for c in beam_checks(ground, forces) if c.id == "beam-bending")
    assert bending.capacity == pytest.approx(0.9 * 24.0 / 1.3, rel=1e-9)
    moment = float(
        abs(forces.parts[0].within_n_mm[[c.combination.kind != "characteristic" for c in forces.cases]]).max()
    )
    assert bending.demand == pytest.approx(6.0 * moment / (70.0 * 170.0**2))


def bowing_factor(length_mm: float, thick_mm: float = 95.0) -> float:
    """k_c of eq. 6.21 to 6.27 for C24: f_c 21, E_0,05 7400, beta_c 0.2."""
    lam = length_mm * math.sqrt(12.0) / thick_mm / math.pi * math.sqrt(21.0 / 7400.0)
    k = 0.5 * (1.0 + 0.2 * (lam - 0.3) + lam**2)
    return 1.0 / (k + math.sqrt(k**2 - lam**2))


def test_a_post_bows_as_by_hand() -> None:
    """Post 2, 95 x 95, from the floor to 2310 - 120 / cos 12 - 170 = 2017.3: lambda and k_c of eq. 6.21 to 6.25."""
    ground = ground_of()
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    length = 2310.0 - 120.0 / COS - 170.0
    k_c = bowing_factor(length)
    check = list(post_checks(ground, forces, NO_PAIR))[1]
    step = next(s for s in check.working if s.says == "Bowing factor")
    assert step.result == pytest.approx(k_c, rel=1e-9)
    # The governing case: wind on the front with the snow beside it; worst zone A at h/d = 1.14, area 4.25 m2.
    area = 2.107 * length / 1000.0
    h_d = (2310.0 + 2402.0 * math.tan(math.radians(12.0))) / (2402.0 + 55.0 * COS)
    assert h_d > 1.0
    c_a = -1.2 - (1.4 - 1.2) * (1.0 - math.log10(area))
    q = 0.423484
    bend = (abs(c_a) + 0.2) * q * 2.107 * (length / 1000.0) ** 2 / 8.0
    moment = next(s for s in check.working if s.says.startswith("Wind on the front"))
    assert moment.result == pytest.approx(bend * float(moment.numbers.split(" ")[0]), rel=1e-3)


def test_a_pad_holds_by_its_weight_as_published_sums_go() -> None:
    """0.9 x 24 x 0.7 x 0.7 x 0.6 = 6.3504 kN of concrete stands beside 0.9 G of roof and post in the capacity."""
    ground = ground_of()
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    checks = [c for c in held_down_checks(ground, forces, NO_PAIR, None) if c.place.post == 2]
    tie, base, pad = (next(c for c in checks if c.id == i) for i in ("post-tie", "post-base", "pad-uplift"))
    assert tie.capacity is not None and base.capacity is not None and pad.capacity is not None
    post = 0.9 * 0.095**2 * (2310.0 - 120.0 / COS - 170.0) / 1000.0 * 420 * 9.81e-3
    assert base.capacity - tie.capacity == pytest.approx(post, rel=1e-6)
    assert pad.capacity - (base.capacity - 8.0) == pytest.approx(6.3504, rel=1e-9)
    assert tie.demand == pad.demand


def test_fixings_of_a_plate_share_what_hangs_on_it() -> None:
    """Shear and pull of the worst fixing come from the printed sum; prying 23.5 / (145 / 3) of the shear."""
    ground = ground_of()
    assert ground.frame.plate is not None
    fixing = list(wall_checks(ground, ground.frame.plate, passed_on(ground)))[1]
    along, shear_step, pull, both = fixing.working[-4:]
    level, down = float(pull.numbers.split(" ")[0]), float(pull.numbers.split(" ")[2])
    assert pull.result == pytest.approx(level + down * 23.5 / (145.0 / 3.0), abs=2e-3)
    # Closed ends: pressure and suction on half their height, the wall's share of it, over the fixings.
    head = 2310.0 + 2402.0 * math.tan(math.radians(12.0))
    ends = closed_ends_kn(near=2310.0, far=head)
    assert along.result == pytest.approx(1.5 * ends / len(ground.frame.plate.fixings_mm), rel=1e-3)
    shear = math.hypot(down, float(along.result))
    assert shear_step.result == pytest.approx(shear, abs=1e-3)
    assert both.result == pytest.approx(shear / 5.0 + float(pull.result) / 4.0, abs=1e-3)
    assert fixing.demand == both.result


def test_what_is_not_declared_is_refused_with_the_force_it_needs() -> None:
    """The force that stands in the sentence is what the declared value is compared with."""
    keys = ("post_tie_kn", "post_base_kn", "hanger_down_kn", "hanger_up_kn", "rafter_tie_kn", "pad_mm")
    bare = assessed(changed("potting-bay", **{f"frame__{key}": None for key in keys}))
    found = {c.id: c for c in bare.checks if c.verdict == "refused"}
    assert set(found) == {
        "post-tie", "post-base", "hanger-down", "hanger-up", "rafter-tie", "pad-uplift", "pad-pressure",
        "pad-turning", "pad-sliding", "post-tie-level", "post-base-level", "hanger-level", "rafter-tie-level",
    }  # fmt: skip
    full = {
        c.id: c
        for c in design_of("potting-bay").checks
        if c.place.rafter == found["hanger-down"].place.rafter
    }
    assert found["hanger-down"].demand == full["hanger-down"].demand
    assert f"{found['hanger-down'].demand:.2f} kN" in found["hanger-down"].says


def closed_ends_kn(near: float, far: float) -> float:
    """Wind along the wall on closed ends [kN]: D and E of Table 7.1 between the rows h/d 0.25 and 1, in thin slices.

    Half of the height at each place goes up; of that an edge takes the share of its lever. ``far`` is the height at
    the edge that is asked about, ``near`` that at the other one [mm].
    """
    head = 2310.0 + 2402.0 * math.tan(math.radians(12.0))
    h_d = head / WIDTH
    windward = 0.7 + (0.8 - 0.7) * (h_d - 0.25) / 0.75
    leeward = -0.3 - (0.5 - 0.3) * (h_d - 0.25) / 0.75
    n, force = 20000, 0.0
    for i in range(n):
        share = (i + 0.5) / n
        force += (near + (far - near) * share) / 2.0 * share * 2402.0 / n
    return (windward - leeward) * 0.85 * PEAK * force * 1e-6


def test_the_push_along_the_wall_on_the_row_of_posts() -> None:
    """Closed ends by slices, 0.005 of the greatest weight on the posts; feet, braces and pair by equilibrium."""
    ground = ground_of()
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    push = racking(ground, forces)
    head = 2310.0 + 2402.0 * math.tan(math.radians(12.0))
    strength = [i for i, c in enumerate(forces.cases) if c.combination.kind == "strength"]
    weight = max(sum(max(r, 0.0) for r in forces.reactions_n[i]) for i in strength) / 1000.0
    expected = 1.5 * closed_ends_kn(near=head, far=2310.0) + 0.005 * weight
    assert push.push_kn == pytest.approx(expected, rel=1e-4)
    height = 2310.0 - 120.0 / COS - 170.0 + 85.0
    assert push.pair_kn == pytest.approx(expected * height / (4262.0 - 48.0), rel=1e-4)
    checks = {c.id: c for c in bracing_checks(ground, forces, push)}
    assert checks["bracing"].demand == pytest.approx(expected / 3 * height / 600.0 * math.sqrt(2.0), rel=1e-4)
    bent = checks["post-racking"]
    moment = expected / 3 * (height - 600.0) / 1000.0
    assert bent.working[0].result == pytest.approx(moment, rel=1e-4)
    length = 2.0 * (2310.0 - 120.0 / COS - 170.0)
    k_c = bowing_factor(length)
    # Wind blows: k_mod 0.7 or 0.9 in service class 3; k_h of a depth of 95 for bending.
    k_h = (150.0 / 95.0) ** 0.2
    stress = next(float(s.result) for s in bent.working if s.says == "Stress from the push down")
    used = [
        stress / (k_c * k_mod * 21.0 / 1.3) + moment * 6e6 / 95.0**3 / (k_mod * k_h * 24.0 / 1.3)
        for k_mod in (0.7, 0.9)
    ]
    assert any(bent.demand == pytest.approx(share, rel=1e-3) for share in used)


@pytest.mark.parametrize(
    ("kind", "demand"),
    [
        ("diagonal", lambda h, z: h * math.hypot(2107.0, z) / 2107.0),
        ("fixed feet", lambda h, z: h * z / 3.0 / 1000.0),
    ],
)
def test_other_ways_to_hold_the_row(kind: str, demand: Callable[[float, float], float]) -> None:
    """A diagonal in the field of 2107: H / cos of its slope; three feet: a third of H h each, with nothing declared."""
    ground = ground_of_job(changed("potting-bay", frame__bracing=kind))
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    push = racking(ground, forces)
    check = next(iter(bracing_checks(ground, forces, push)))
    height = 2310.0 - 120.0 / COS - 170.0 + 85.0
    assert check.demand == pytest.approx(demand(push.push_kn, height), rel=1e-6)
    assert check.verdict == ("passes" if kind == "diagonal" else "refused")


def test_the_pair_of_the_row_lifts_its_outermost_posts() -> None:
    """What lifts grows by the pair at posts 1 and 3, not at post 2; by nothing where feet are held against turning.

    Over each post a knee brace also pulls the beam up by (H / 3) h / 600: that ends in the post, not in its base.
    """
    feet = assessed(changed("potting-bay", frame__bracing="fixed feet", frame__post_foot_knm=5.0))
    ground = ground_of()
    assert ground.frame.beam is not None
    push = racking(ground, eaves_forces(ground, ground.frame.beam, passed_on(ground)))
    knee = push.push_kn / 3.0 * (2310.0 - 120.0 / COS - 170.0 + 85.0) / 600.0
    for rule, brace in (("post-tie", knee), ("post-base", 0.0)):
        held = {c.place.post: c for c in design_of("potting-bay").checks if c.id == rule}
        alone = {c.place.post: c for c in feet.checks if c.id == rule}
        for post, more in ((1, push.pair_kn), (2, 0.0), (3, push.pair_kn)):
            assert held[post].demand == pytest.approx((alone[post].demand or 0.0) + more + brace, rel=1e-6)


def test_a_knee_brace_shears_its_beam_and_presses_it_on_the_post() -> None:
    """(H / 3) h / 600 more in 1.5 V / (0.67 x 70 x 170), and in what lies on the post, where wind blows."""
    feet = assessed(changed("potting-bay", frame__bracing="fixed feet", frame__post_foot_knm=5.0))
    ground = ground_of()
    assert ground.frame.beam is not None
    push = racking(ground, eaves_forces(ground, ground.frame.beam, passed_on(ground)))
    knee = push.push_kn * 1000.0 / 3.0 * (2310.0 - 120.0 / COS - 170.0 + 85.0) / 600.0
    braced = {c.id: c for c in design_of("potting-bay").checks}
    free = {c.id: c for c in feet.checks}
    shear, bearing = braced["beam-shear"], braced["beam-bearing"]
    carried = next(float(s.result) for s in shear.working if s.says.startswith("Shear of the continuous"))
    assert shear.demand == pytest.approx(1.5 * (carried * 1000.0 + knee) / (0.67 * 70.0 * 170.0), rel=1e-6)
    assert (shear.demand or 0.0) > (free["beam-shear"].demand or 0.0)
    on_post = next(float(s.result) for s in bearing.working if s.says.startswith("On the post with"))
    assert bearing.demand == pytest.approx(on_post * 1000.0 / (70.0 * _length(bearing)), rel=1e-3)
    without = next(s.numbers for s in bearing.working if s.says.startswith("On the post with")).split(" + ")
    assert float(without[1]) == pytest.approx(knee / 1000.0, abs=1e-4)
    assert "W down" in shear.case and "W down" in bearing.case


def _length(bearing: Check) -> float:
    """The effective length that the line of the pressure prints."""
    numbers = next(s.numbers for s in bearing.working if s.says == "Pressure on the post")
    return float(numbers.split(" x ")[1].rstrip(")"))


def test_knee_braces_bend_the_beam_too() -> None:
    """A third of H h more than the greatest moment of what it carries, on 70 x 170 less two holes of 12 mm.

    By equilibrium; the holes stand 36 mm from the edges.
    """
    ground = ground_of()
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    push = racking(ground, forces)
    check = next(c for c in bracing_checks(ground, forces, push) if c.id == "beam-knees")
    windy = [c.combination.kind == "strength" and c.combination.wind > 0.0 for c in forces.cases]
    carried = float(abs(forces.parts[0].within_n_mm[windy]).max())
    height = 2310.0 - 120.0 / COS - 170.0 + 85.0
    turned = push.push_kn * 1000.0 * height / 3.0
    net = 70.0 * (170.0**3 - 2.0 * 12.0**3 - 24.0 * 12.0 * (85.0 - 36.0) ** 2) / 12.0 / 85.0
    assert check.demand == pytest.approx((carried + turned) / net, rel=1e-6)
    metal = assessed(changed("potting-bay", frame__bracing="diagonal"))
    assert not [c for c in metal.checks if c.id == "beam-knees"]
