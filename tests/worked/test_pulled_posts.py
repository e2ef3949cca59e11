"""Posts that uplift pulls while something bends them: EN 1995-1-1, 6.2.3 by hand, none from src/.

6.2.3: sigma_t / f_t,0,d + sigma_m / f_m,d <= 1. C24: f_t,0,k 14.5, f_m,k 24, E_0.05 7400 (EN 338); wind is short,
service class 3: k_mod 0.7 (EN 1995-1-1, Table 3.1), gamma_M 1.3; k_h = (150 / h)^0.2 below 150 mm (3.2(3)), of the
greater side in tension. Uplift: 0.9 G + 1.5 W (EN 1990, Table A1.2(A)).
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.held_down import lift_of, lifts_on
from pentice.checks.values import Check
from tests.designs import EXAMPLES, assessed, changed
from tests.tries import tries
from tests.worked.test_bracing import row_of
from tests.worked.test_free_standing import PEAK, PITCH, SLOPE, WIDTH, rows_of
from tests.worked.test_printed_lines import wrong_lines


def pulled(name: str, **changes: Any) -> Check:
    """The check of the post that uses most."""
    found = [c for c in assessed(changed(name, **changes)).checks if c.id == "post-pulled"]
    return max(found, key=lambda c: c.demand or 0.0)


def line(check: Check, says: str) -> float:
    """The result of a line of working."""
    return next(float(step.result) for step in check.working if step.says.startswith(says))


def strength(characteristic: float, side: float) -> float:
    """Design strength of C24 in short wind, with the size factor of a side."""
    k_h: float = min((150.0 / min(side, 150.0)) ** 0.2, 1.3)
    return 0.7 * characteristic / 1.3 * k_h


def test_what_pulls_at_all_posts_is_what_wind_lifts_off_the_roof() -> None:
    """1.5 x 1.4 q_p A cos(pitch), the roof's weight beside it: upright equilibrium of both rows together."""
    ground, rows, _ = rows_of()
    # Table 7.6, overall, blocked: -1.4 at 5 and at 10 deg; the force lies square to the slope.
    expected = 1.5 * 1.4 * PEAK * WIDTH * SLOPE * math.cos(PITCH)
    words = "0.9 G + 1.5 W up: whole roof, wind onto the eaves, up, blockage 1, level force at the eaves"
    assert rows[0].cases[0].combination.name == "1.35 G"
    lifts = [
        lift_of(
            ground, case, row.reactions_n[i, k] / 1000.0, 0.9 / 1.35 * row.reactions_n[0, k] / 1000.0, 0.0
        )
        for row in rows
        for i, case in enumerate(row.cases)
        if case.words == words
        for k in range(len(row.beam.posts))
    ]
    assert len(lifts) == 6
    assert sum(lift.up_kn for lift in lifts) == pytest.approx(expected, rel=1e-6)


def test_of_each_combination_the_case_that_lifts_most_stands_for_it() -> None:
    """At every post the greatest of gamma G - R over all its winds, R the sum of its loads with their factors."""
    ground, rows, _ = rows_of()
    for row in rows:
        for k in range(len(row.beam.posts)):
            most: dict[str, float] = {}
            for i, case in enumerate(row.cases):
                if case.combination.kind == "uplift":
                    weight = case.combination.dead / 1.35 * row.reactions_n[0, k]
                    up = (weight - row.reactions_n[i, k]) / 1000.0
                    most[case.combination.name] = max(most.get(case.combination.name, 0.0), up)
            found = lifts_on(ground, row, k)
            assert {lift.case.combination.name: lift.up_kn for lift in found} == pytest.approx(most, rel=1e-9)
            assert len(found) == len(most) > 0


def test_a_post_held_at_its_foot_is_pulled_and_bent_across() -> None:
    """145 x 145 at the canoe rack: M = H h / n or by stiffness, no size factor but of 145."""
    check = pulled("boat-rack")
    _, rows, push = rows_of()
    post = check.place.post
    assert post is not None
    row, k = divmod(post - 1, 3)
    moment = push.moments_knm[row][k]
    assert line(check, "At the foot of post") == pytest.approx(moment)
    pull = line(check, "Pulls at the head of the post")
    lifts = (lift for lift in lifts_on(rows_of()[0], rows[row], k))
    assert pull == pytest.approx(max(lift.up_kn - lift.weight_kn for lift in lifts), rel=1e-9)
    used = pull * 1e3 / 145.0**2 / strength(14.5, 145.0) + moment * 1e6 * 6.0 / 145.0**3 / strength(
        24.0, 145.0
    )
    assert check.demand == pytest.approx(used, rel=1e-9)
    assert check.working[-1].clause.startswith("eq. 6.17")
    assert check.verdict == "passes"


def test_a_knee_brace_pulls_at_the_post_above_it_and_bends_it_along() -> None:
    """The carport: (H / 4) (h - a) along and wind on the post itself, 120 wide, c_f 2.4; (H / 4) h / b pulled off; the
    outermost posts with H h / L besides."""
    check = pulled("snow-carport")
    design = assessed(changed("snow-carport"))
    bracing = next(c for c in design.checks if c.id == "bracing")
    push = line(bracing, "Push with leaning")
    length = float(
        next(s for s in bracing.working if s.says.startswith("In each knee"))
        .numbers.split(" x ")[1]
        .split(" / ")[0]
    )
    arm, peak = length - 600.0, design.loads.wind.peak_pressure_kn_m2 or 0.0
    talls = [post.length_mm or 0.0 for post in row_of("snow-carport")[0].beam.posts]
    own = max(1.5 * 2.4 * peak * 0.12 * tall / 2000.0 * arm * (1.0 - arm / tall) / 1000.0 for tall in talls)
    moment = push / 4.0 * arm / 1000.0 + own
    assert line(check, "Bends the post") == pytest.approx(moment, rel=1e-4)
    tie = next(c for c in design.checks if c.id == "post-tie" and c.place.post == check.place.post)
    lifts = next(s for s in check.working if s.says == "What lifts")
    assert float(lifts.result) == pytest.approx(tie.demand)
    pull = line(check, "Pulls at the head of the post")
    # Two holes of 12 mm, 36 mm from the edges of 120.
    net = 120.0 * (120.0**3 - 2.0 * 12.0**3 - 24.0 * 12.0 * (60.0 - 36.0) ** 2) / 12.0 / 60.0
    used = pull * 1e3 / (120.0 * 96.0) / strength(14.5, 120.0) + moment * 1e6 / net / strength(24.0, 120.0)
    assert check.demand == pytest.approx(used, rel=1e-4)
    assert check.working[-1].clause.startswith("eq. 6.18")


def test_a_closed_front_bends_a_post_that_the_roof_lifts() -> None:
    """The potting bay: 1.5 w l^2 / 8 with its own line of wind, pulled in suction."""
    check = pulled("potting-bay", frame__bracing="diagonal")
    (wind,) = (s for s in check.working if s.says == "Wind on the front it holds")
    factor, load, rest = wind.numbers.split(" x ")
    length = float(rest.split("^")[0])
    moment = float(factor) * float(load) * length**2 / 8.0
    assert float(factor) == 1.5
    pull = line(check, "Pulls at the head of the post")
    used = pull * 1e3 / 95.0**2 / strength(14.5, 95.0) + moment * 1e6 * 6.0 / 95.0**3 / strength(24.0, 95.0)
    assert check.demand == pytest.approx(used, rel=1e-3)


def test_a_deep_narrow_post_gives_way_sideways_too() -> None:
    """50 x 170, 5 m tall: k_crit by eq. 6.32 and 6.34, l_ef = l + 2 h, added to the pull in full; k_h 1 of 170."""
    job = {"frame__post_mm": [50.0, 170.0], "roof__head_height_mm": 5380.0, "roof__eaves_height_mm": 5000.0,
        "frame__bracing": None, "frame__bracing_kn": 20.0}  # fmt: skip
    check = pulled("boat-rack", **job)
    slender = math.sqrt(24.0 * 170.0 * line(check, "Effective length") / (0.78 * 50.0**2 * 7400.0))
    assert slender > 0.75
    k_crit = 1.56 - 0.75 * slender if slender <= 1.4 else 1.0 / slender**2
    pull, moment = line(check, "Pulls at the head of the post"), line(check, "At the foot of post")
    bent = 6.0 * moment * 1e6 / (50.0 * 170.0**2) / (k_crit * 0.7 * 24.0 / 1.3)
    assert check.demand == pytest.approx(pull * 1e3 / (50.0 * 170.0) / (0.7 * 14.5 / 1.3) + bent, rel=1e-9)
    assert check.verdict == "fails"
    assert wrong_lines(assessed(changed("boat-rack", **job))) == []


def test_where_nothing_pulls_nothing_is_asked() -> None:
    """Hardly any wind: the weight of the roof holds every post down, and what presses is checked by itself."""
    calm = {
        "site__vb0_m_s": None,
        "site__peak_pressure_kn_m2": 0.01,
        "frame__bracing": None,
        "frame__bracing_kn": 5.0,
    }
    found = assessed(changed("uneven-veranda", **calm)).checks
    assert {c.verdict for c in found if c.id == "post-bowing"} == {"passes"}
    assert "post-pulled" not in {c.id for c in found}


def test_where_the_wind_is_not_known_it_is_refused_by_name() -> None:
    """A basic velocity out of range: nothing is passed over in silence."""
    found = assessed(changed("uneven-veranda", site__vb0_m_s=6.0)).checks
    assert {c.verdict for c in found if c.id == "post-pulled"} == {"refused"}


@tries(8)
@given(name=st.sampled_from(EXAMPLES), wind=st.floats(20.0, 30.0), more=st.floats(1.02, 1.2))
def test_more_wind_is_never_less_pull(name: str, wind: float, more: float) -> None:
    """Monotonic: each row's post that uses most."""
    less, greater = (
        [
            c.demand or 0.0
            for c in assessed(changed(name, site__vb0_m_s=round(v, 2))).checks
            if c.id == "post-pulled"
        ]
        for v in (wind, wind * more)
    )
    assert len(greater) >= len(less)
    assert sum(greater) >= sum(less) * (1.0 - 1e-9)
