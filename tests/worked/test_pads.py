"""Pads turned, slid and pressed off their middle, by sums written out; only the forces that arrive are the engine's."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.eaves import EavesForces
from pentice.checks.values import Check
from pentice.frame.values import Post
from pentice.standards.pads import overturning_of_pad
from tests.designs import EXAMPLES, assessed, changed
from tests.tries import tries
from tests.worked.test_bracing import row_of
from tests.worked.test_printed_lines import wrong_lines

CONCRETE = 24.0


def pads_of(name: str, **changes: Any) -> dict[tuple[str, int | None], Check]:
    """The checks of the pads by rule and post."""
    checks = assessed(changed(name, **changes)).checks
    return {(c.id, c.place.post): c for c in checks if c.id.startswith("pad-")}


def onto(name: str, post: Post, **changes: Any) -> float:
    """Wind on half of a post that stands free: 1.5 c_f q_p b l / 2, c_f 2.4 (EN 1991-1-4, 7.6, from memory) [kN]."""
    peak = assessed(changed(name, **changes)).loads.wind.peak_pressure_kn_m2 or 0.0
    return 1.5 * 2.4 * peak * post.size_mm[0] * (post.length_mm or 0.0) * 1e-6 / 2.0


def test_the_cycle_shelter_by_hand() -> None:
    """Four pads of 750 x 750 x 700 in C: 24 x 0.39375 = 9.45. H / 4 and wind on half of the post at the foot turn by
    0.7; B' = 0.75 - 2 M / V.

    Post 3: no joint stands over it.
    """
    forces, push, pairs = row_of("cycle-shelter")
    pads = pads_of("cycle-shelter")
    each = push.push_kn / 4.0 + onto("cycle-shelter", forces.beam.posts[2])
    moment = each * 0.7
    dead = next(i for i, c in enumerate(forces.cases) if c.combination.name == "G")
    post = 95.0 * 95.0 * 1e-9 * 420.0 * 9.81e-3 * (forces.beam.posts[2].length_mm or 0.0)
    lifts = [
        (0.9 * forces.reactions_n[dead, 2] - forces.reactions_n[i, 2]) / 1000.0
        for i, c in enumerate(forces.cases)
        if c.combination.name == "0.9 G + 1.5 W up"
    ]
    weight = 0.9 * (float(forces.reactions_n[dead, 2]) / 1000.0 + post + CONCRETE * 0.75**2 * 0.7)
    turning, sliding = pads["pad-turning", 3], pads["pad-sliding", 3]
    assert turning.demand == pytest.approx(moment + max(lifts) * 0.375, rel=1e-4)
    assert turning.capacity == pytest.approx(weight * 0.375, rel=1e-4)
    assert sliding.demand == pytest.approx(each, rel=1e-6)
    assert sliding.capacity == pytest.approx((weight - max(lifts)) * 0.5, rel=1e-4)
    pressure = pads["pad-pressure", 3]
    down = max(
        float(forces.reactions_n[i, 2]) / 1000.0
        for i, c in enumerate(forces.cases)
        if c.combination.kind in ("strength", "accidental")
    )
    down += 1.35 * (post + CONCRETE * 0.75**2 * 0.7)
    assert pressure.demand == pytest.approx(down / (0.75 * (0.75 - 2.0 * moment / down)), rel=1e-4)
    # An end post also has the pair of the row, up and down.
    step = next(s for s in pads["pad-pressure", 1].working if s.says == "Down on the ground")
    parts = [float(part) for part in step.numbers.partition(";")[0].split(" + ")]
    assert step.result == pytest.approx(sum(parts), rel=1e-4)
    assert parts[1] == pytest.approx(pairs[0], abs=1e-4)
    assert parts[3] == pytest.approx(1.35 * CONCRETE * 0.75**2 * 0.7, abs=1e-4)


def test_held_feet_turn_their_pads_by_their_moment() -> None:
    """H (h + d) / n at the underside, wind on the lower half of the post level, no pair: by hand.

    The upper half, at the head, turns the foot by as much as all of the wind at half the height: nothing to add for
    the lower.
    """
    changes = {"frame__bracing": "fixed feet", "frame__post_foot_knm": 9.0}
    forces, push, _ = row_of("cycle-shelter", **changes)
    pads, post = pads_of("cycle-shelter", **changes), forces.beam.posts[1]
    by_push = push.push_kn / 4.0 * (push.height_mm + 700.0) / 1000.0
    by_wind = onto("cycle-shelter", post, **changes) * 700.0 / 1000.0
    (turned,) = (
        s.result for s in pads["pad-turning", 2].working if s.says == "Turned by the push along the wall"
    )
    assert turned == pytest.approx(by_push + by_wind, rel=1e-6)


def by_the_walls(peak: float, push_kn: float) -> tuple[float, float]:
    """Level at post 2 of 3 of the potting bay, square to the front and along it [kN].

    Zone A: c_pe = -1.4 + 0.2 log10(2.107 x 2.0173), +0.2 inside; half of 1.5 w l goes to the foot; the push over three.
    """
    front = 1.5 * (1.4 - 0.2 * math.log10(2.107 * 2.017319) + 0.2) * peak * 2.107 * 2.017319 / 2.0
    return front, push_kn / 3.0


def test_wind_along_a_closed_room_draws_its_front_and_pushes_the_row() -> None:
    """Slid by sqrt(V_y^2 + (H / n)^2); turned over either edge by its own part times the depth of 600, and U B / 2."""
    forces, push, _ = row_of("potting-bay")
    design = assessed(changed("potting-bay"))
    pads = pads_of("potting-bay")
    square, along = by_the_walls(design.loads.wind.peak_pressure_kn_m2 or 0.0, push.push_kn)
    sliding, turning = pads["pad-sliding", 2], pads["pad-turning", 2]
    assert sliding.demand == pytest.approx(math.hypot(square, along), rel=1e-4)
    turned = next(step for step in turning.working if step.says.startswith("Turned"))
    assert turned.says == "Turned square to the row by wind along the row and on its walls"
    assert turned.result == pytest.approx(0.6 * square, rel=1e-4)
    up = up_at(forces, 1)
    assert turning.demand == pytest.approx(0.6 * square + up * 0.35, rel=1e-4)
    lines = [step for step in sliding.working if step.says.startswith("Level at the foot: ")]
    assert len({step.says for step in lines}) == len(lines) == 4
    assert max(float(step.result) for step in lines) == sliding.demand


def up_at(forces: EavesForces, k: int) -> float:
    """What 1.5 W lifts at a post at most [kN]: the factored weight less what arrives."""
    dead = next(i for i, c in enumerate(forces.cases) if c.combination.name == "G")
    return max(
        float(forces.reactions_n[dead, k] - forces.reactions_n[i, k]) / 1000.0
        for i, c in enumerate(forces.cases)
        if c.combination.name == "1 G + 1.5 W up"
    )


def test_a_pad_pushed_both_ways_presses_on_what_both_leave() -> None:
    """A' = (0.7 - 2 e_y) (0.7 - 2 e_x) under the greatest load; as one push of both together it would be less."""
    forces, push, _ = row_of("potting-bay")
    peak = assessed(changed("potting-bay")).loads.wind.peak_pressure_kn_m2 or 0.0
    m_y, m_x = (0.6 * level for level in by_the_walls(peak, push.push_kn))
    down = max(
        float(forces.reactions_n[i, 1]) / 1000.0
        for i, c in enumerate(forces.cases)
        if c.combination.kind in ("strength", "accidental")
    )
    post = 95.0 * 95.0 * 1e-9 * 420.0 * 9.81e-3 * (forces.beam.posts[1].length_mm or 0.0)
    down += 1.35 * (post + CONCRETE * 0.7 * 0.7 * 0.6)
    by_hand = down / ((0.7 - 2.0 * m_y / down) * (0.7 - 2.0 * m_x / down))
    pressure = pads_of("potting-bay")["pad-pressure", 2]
    assert pressure.demand == pytest.approx(by_hand, rel=1e-3)
    assert by_hand > 1.02 * down / (0.7 * (0.7 - 2.0 * math.hypot(m_y, m_x) / down))


def test_a_pad_that_uplift_leaves_off_its_middle_by_more_than_a_third_is_refused() -> None:
    """The boat rack on pads of 1050 x 1050 x 900, foot held: e = (H (h + d) + H_p (l / 4 + d)) / (G - U) = 413 of 350
    mm, G counted once.

    Turning over, with 0.9 G, holds; a wider pad cures it.
    """
    pads = pads_of("boat-rack", frame__pad_mm=[1050, 1050, 900])
    off = pads["pad-pressure", 2]
    assert off.verdict == "refused"
    assert "Widen the pad" in off.says
    assert off.case.startswith("1 G + 1.5 W up")
    forces, _, _ = row_of("boat-rack")
    post = forces.beam.posts[1]
    tall, level = (post.length_mm or 0.0) / 1000.0, pads["pad-sliding", 2].demand or 0.0
    dead = next(i for i, c in enumerate(forces.cases) if c.combination.name == "G")
    weight = float(forces.reactions_n[dead, 1]) / 1000.0 + CONCRETE * 1.05**2 * 0.9
    weight += post.size_mm[0] * post.size_mm[1] * 1e-6 * tall * 420.0 * 9.81e-3
    wind = onto("boat-rack", post)
    turns = (level - wind) * (tall + forces.beam.size_mm[1] / 2000.0 + 0.9) + wind * 0.9
    off_mm = turns / (weight - up_at(forces, 1)) * 1000.0
    assert off.working[-1].result == pytest.approx(off_mm, rel=0.01)
    assert off_mm > 350.0
    assert any("least load, G x 1.0" in step.numbers for step in off.working)
    assert pads["pad-turning", 2].verdict == "passes"
    assert all(check.verdict == "passes" for check in pads_of("boat-rack").values())


@pytest.mark.parametrize(
    ("name", "changes"),
    [
        ("boat-rack", {"frame__pad_mm": [1050, 1050, 900]}),
        ("log-store", {"frame__bracing": "diagonal"}),
        ("log-store", {"frame__bracing": "diagonal", "frame__pad_mm": [500, 700, 500]}),
        ("potting-bay", {"frame__pad_mm": [400, 700, 600]}),
    ],
)
def test_lines_of_pads_off_their_middle_give_their_results(name: str, changes: dict[str, Any]) -> None:
    """Refused or not, pushed both ways or one, each printed line by its own numbers."""
    assert wrong_lines(assessed(changed(name, **changes))) == []


def test_the_least_load_counts_weight_once_and_passes_where_0_9_would_not() -> None:
    """The cycle shelter's post 3 on 725: 0.662 / (9.32 - 6.05) = 203 of 242 mm; with 0.9 G it would be 283."""
    forces, push, _ = row_of("cycle-shelter")
    dead = next(i for i, c in enumerate(forces.cases) if c.combination.name == "G")
    post = 95.0 * 95.0 * 1e-9 * 420.0 * 9.81e-3 * (forces.beam.posts[2].length_mm or 0.0)
    weight = float(forces.reactions_n[dead, 2]) / 1000.0 + post + CONCRETE * 0.725**2 * 0.7
    at_foot = push.push_kn / 4.0 + onto("cycle-shelter", forces.beam.posts[2])
    moment, up = at_foot * 0.7, up_at(forces, 2)
    assert moment / (weight - up) < 0.725 / 3.0 < moment / (0.9 * weight - up)
    assert pads_of("cycle-shelter", frame__pad_mm=[725, 725, 700])["pad-pressure", 3].verdict == "passes"


def test_a_diagonal_puts_its_push_into_one_foot() -> None:
    """Each of the posts that may stand there takes all of H; a smaller pad may be pushed past a third of its width."""
    forces, push, _ = row_of("cycle-shelter", frame__bracing="diagonal")
    pads = pads_of("cycle-shelter", frame__bracing="diagonal")
    own = onto("cycle-shelter", forces.beam.posts[2], frame__bracing="diagonal")
    assert pads["pad-sliding", 3].demand == pytest.approx(push.push_kn + own)
    narrow = pads_of("cycle-shelter", frame__bracing="diagonal", frame__pad_mm=[500, 500, 2000])
    assert narrow["pad-pressure", 1].verdict == "refused"
    assert "eccentricity" in narrow["pad-pressure", 1].says
    light = pads_of("cycle-shelter", frame__bracing="diagonal", frame__pad_mm=[300, 300, 1500])
    assert light["pad-pressure", 1].verdict == "refused"
    assert light["pad-pressure", 1].says.startswith("Nothing presses on the ground: ")


def test_without_friction_or_wind_of_its_own_the_pad_says_what_it_needs() -> None:
    """Exact: words and verdicts."""
    sliding = pads_of("cycle-shelter", site__ground_friction=None)["pad-sliding", 1]
    assert sliding.verdict == "refused"
    assert f"level by {sliding.demand:.2f} kN" in sliding.says
    assert "site.ground_friction" in sliding.says


def test_turning_with_and_without_factors() -> None:
    """1.5 x 0.5 x 2.3 against 0.9 x 8 x 0.35; the same as design values 0.75 and 7.2. By hand."""
    plain = overturning_of_pad(horizontal_kn=0.5, height_mm=2300.0, weight_kn=8.0, width_mm=700.0)
    design = overturning_of_pad(
        horizontal_kn=0.75, height_mm=2300.0, weight_kn=7.2, width_mm=700.0, factored=True
    )
    assert (plain.demand, plain.capacity) == pytest.approx((1.725, 2.52))
    assert (design.demand, design.capacity) == pytest.approx((1.725, 2.52))


@tries(6)
@given(name=st.sampled_from(EXAMPLES), wind=st.floats(18.0, 28.0), more=st.floats(1.02, 1.2))
def test_more_wind_never_leaves_more_against_turning_and_sliding(name: str, wind: float, more: float) -> None:
    """Monotonic: what is left, capacity less demand, at every pad."""
    less, greater = (pads_of(name, site__vb0_m_s=round(v, 2)) for v in (wind, wind * more))
    for key in less:
        if key[0] in ("pad-turning", "pad-sliding"):
            before, after = ((c.capacity or 0.0) - (c.demand or 0.0) for c in (less[key], greater[key]))
            assert after <= before + 1e-9


@tries(6)
@given(
    name=st.sampled_from((*EXAMPLES, "plant-lobby")),
    wind=st.floats(18.0, 28.0),
    more=st.floats(1.02, 1.2),
    side=st.sampled_from((600.0, 800.0, 1150.0)),
)
def test_more_wind_never_presses_less_on_the_ground(name: str, wind: float, more: float, side: float) -> None:
    """Monotonic: what is off the middle by too much stays so, and no other pressure falls."""
    size = [side, side, 700.0]
    less, greater = (
        pads_of(name, site__vb0_m_s=round(v, 2), frame__pad_mm=size) for v in (wind, wind * more)
    )
    for key, check in less.items():
        if key[0] != "pad-pressure":
            continue
        if check.verdict == "refused":
            assert greater[key].verdict == "refused"
        elif greater[key].verdict != "refused":
            assert (greater[key].demand or 0.0) >= (check.demand or 0.0) - 1e-9
