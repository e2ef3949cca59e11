"""A roof on two rows of posts: what wind and snow bring to both, and the push across. By hand, none from src/."""

from __future__ import annotations

import math
import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.checks.across import Across, across
from pentice.checks.eaves import EavesForces, eaves_forces
from pentice.checks.ground import Ground
from pentice.checks.passed_on import passed_on
from pentice.checks.values import Check
from pentice.job.model import Job
from pentice.job.sense import sense
from tests.designs import assessed, changed, design_of
from tests.tries import tries
from tests.worked.test_frame import ground_of_job
from tests.worked.test_printed_lines import wrong_lines

NAME = "boat-rack"
WIDTH, DEPTH, RISE = 4.98, 2.6, 0.38
PITCH = math.atan(RISE / DEPTH)
SLOPE = DEPTH / math.cos(PITCH) + 0.052
# EN 1991-1-4, 4.3 to 4.5 by hand: 22 m/s, terrain II, 2.86 m.
KR = 0.19
PEAK = 0.5 * 1.25 * (KR * math.log(2.86 / 0.05) * 22.0) ** 2 * (1.0 + 7.0 / math.log(2.86 / 0.05)) / 1000.0


def rows_of(**changes: Any) -> tuple[Ground, tuple[EavesForces, EavesForces], Across]:
    """Both beams with their posts, and the push across, of a changed example."""
    ground = ground_of_job(changed(NAME, **changes))
    assert ground.frame.beam is not None
    assert ground.frame.head_beam is not None
    loads = passed_on(ground)
    eaves = eaves_forces(ground, ground.frame.beam, loads)
    head = eaves_forces(ground, ground.frame.head_beam, loads)
    return ground, (eaves, head), across(ground, (eaves, head))


def checks_of(**changes: Any) -> dict[tuple[str, int | None, str], Check]:
    """Checks of a changed example by rule, post and place."""
    found = assessed(changed(NAME, **changes)).checks
    return {(c.id, c.place.post, c.place.at): c for c in found if c.place.bay is None}


def test_the_wind_is_that_of_a_roof_on_its_own() -> None:
    """Its own height, and no house: q_p by hand; no drift in the snow, no wind from the house."""
    ground, _, _ = rows_of()
    wind = ground.loads.wind
    assert wind.reference_height_m == pytest.approx(2.86)
    assert wind.peak_pressure_kn_m2 == pytest.approx(PEAK, rel=1e-6)
    assert [case.name for case in ground.loads.snow.cases] == ["snow, even"]
    names = [*(w.name for w in wind.whole), *(w.name for w in wind.cases)]
    assert not [name for name in names if "house" in name or "wall" in name]


def test_what_stands_on_the_posts_is_what_lies_on_the_roof() -> None:
    """Even snow, mu 0.8, over the whole plan: posts of both rows together; the eaves' share by its lever."""
    _, rows, _ = rows_of()
    snow = 0.8 * 0.5
    # The barge boards, 22 wide, carry snow too.
    total = snow * (WIDTH + 0.044) * SLOPE * math.cos(PITCH)
    found = []
    for row in rows:
        names = [load.name for load in row.loads.all]
        points = sum(part.points_n[names.index("snow, even")].sum() for part in row.parts)
        found.append(float(points) / 1000.0)
    assert sum(found) == pytest.approx(total, rel=1e-6)
    span = DEPTH - 0.095
    eaves = total * (SLOPE * math.cos(PITCH) / 2.0 - 0.095 / 2.0) / span
    assert found[0] == pytest.approx(eaves, rel=1e-6)


def test_wind_on_the_whole_roof_stands_on_both_rows_whichever_holds_it_level() -> None:
    """F cos(pitch) down, F sin(pitch) level in every wind; the two shares of a row differ by F sin tan of its end."""
    ground, rows, _ = rows_of()
    for wind in ground.loads.wind.whole:
        assert wind.force_kn is not None
        both = [w for w in rows[0].loads.wind if w.name.startswith(f"whole roof, {wind.name}, level")]
        assert len(both) == 2
        for load in both:
            down = (sum(load.foot_n) + sum(load.head_n)) / 1000.0
            assert down == pytest.approx(wind.force_kn * math.cos(PITCH), rel=1e-9)
        level = sum(both[0].pull_n) / 1000.0
        if wind.drag_along == "x" or "onto the eaves" in wind.name:
            assert level == pytest.approx(-wind.force_kn * math.sin(PITCH), rel=1e-9)
        at_head, at_eaves = (sum(load.foot_n) / 1000.0 for load in both)
        # Turning about the head: the level force at the eaves stands lower than the head by the rise between bearings.
        lower = (DEPTH - 0.095) * math.tan(PITCH)
        moved = wind.force_kn * math.sin(PITCH) * lower / (DEPTH - 0.095)
        assert at_head - at_eaves == pytest.approx(moved, rel=1e-6)


def test_the_push_across_by_hand() -> None:
    """Roof, edges, posts and lean; shares by the greater of 1 / n and stiffness; moments at the feet."""
    ground, rows, push = rows_of()
    # Table 7.6, overall: 5 deg 0.4 / -0.7 / -1.4; 10 deg 0.5 / -0.9 / -1.4; blocked -1.4 at both.
    most_down, most_up = 0.4 + (math.degrees(PITCH) - 5.0) / 5.0 * 0.1, 1.4
    force = max(most_down, most_up) * PEAK * WIDTH * SLOPE
    roof = force * math.sin(PITCH) + 0.04 * PEAK * 2.0 * WIDTH * SLOPE
    over = 0.145 / math.cos(PITCH)
    edges = 2.4 * PEAK * WIDTH * 2.0 * (0.195 + over + 0.04)
    eaves_post = 2.48 - over - 0.195
    head_post = 2.86 - over - 0.095 * math.tan(PITCH) - 0.195
    posts = 2.4 * PEAK * 0.145 * 3.0 * (eaves_post + head_post) / 2.0
    down = sum(max(float(r.clip(min=0.0).sum()) for r in _strength(row)) for row in rows) / 1000.0
    expected = 1.5 * (roof + edges + posts) + 0.005 * down
    assert push.push_kn == pytest.approx(expected, rel=1e-6)
    low, high = eaves_post + 0.0975, head_post + 0.0975
    stiff = 3.0 / low**3 + 3.0 / high**3
    assert push.level_kn[0][0] == pytest.approx(expected / low**3 / stiff)
    assert push.level_kn[1][0] == pytest.approx(expected / 6.0)
    assert push.moments_knm[0][0] == pytest.approx(expected / low**3 / stiff * low)
    assert push.moments_knm[1][0] == pytest.approx(expected / 6.0 * high)
    assert sum(map(sum, push.level_kn)) >= expected
    assert ground.frame.head_posts[0].number == 4


def _strength(row: EavesForces) -> list[Any]:
    kinds = [c.combination.kind for c in row.cases]
    return [row.reactions_n[i] for i, kind in enumerate(kinds) if kind == "strength"]


def test_bracing_shown_by_others_lifts_one_row_and_presses_the_other() -> None:
    """H h over the distance of the rows and the posts of one; without a figure it is refused with the force."""
    changes: dict[str, Any] = {"frame__bracing_across": None, "frame__bracing_across_kn": 20.0}
    _, rows, push = rows_of(**changes)
    high = max((p.length_mm or 0.0) for p in rows[1].beam.posts) / 1000.0 + 0.0975
    assert push.pair_kn[0] == pytest.approx([push.push_kn * high / (DEPTH - 0.095) / 3.0] * 3)
    assert push.moments_knm == ((0.0,) * 3, (0.0,) * 3)
    across_check = checks_of(**changes)["bracing-across", None, ""]
    assert (across_check.verdict, across_check.capacity) == ("passes", 20.0)
    refused = checks_of(frame__bracing_across=None)["bracing-across", None, ""]
    assert refused.verdict == "refused"
    assert f"{refused.demand:.2f} kN across" in refused.says


def test_every_printed_line_of_it_gives_its_result() -> None:
    """With feet held, with bracing shown by others, with a row of its own at the head."""
    own: dict[str, Any] = {
        "frame__head_beam_mm": [95, 220],
        "frame__head_posts_at_mm": [110, 1696, 3283, 4870],
        "frame__head_post_feet_mm": [40, 40, 0, 0],
    }
    for changes in ({}, {"frame__bracing_across": None, "frame__bracing_across_kn": 20.0}, own):
        assert wrong_lines(assessed(changed(NAME, **changes))) == []


def test_a_row_of_its_own_at_the_head() -> None:
    """Numbers go on after the eaves; lengths by the roof line, the wedge and the feet."""
    ground, _, _ = rows_of(
        frame__head_beam_mm=[95, 220],
        frame__head_posts_at_mm=[110, 2490, 4870],
        frame__head_post_feet_mm=[40, 0, 0],
    )
    posts = ground.frame.head_posts
    assert [p.number for p in posts] == [4, 5, 6]
    under = 2860.0 - 145.0 / math.cos(PITCH) - 95.0 * math.tan(PITCH) - 220.0
    assert [p.length_mm for p in posts] == pytest.approx([under - 40.0, under, under])


def test_the_order_has_both_rows() -> None:
    """Two beams, six posts, bases and pads; two straps a rafter, no hanger, nothing of a wall."""
    lines = {line.part: line for line in design_of(NAME).order}
    pieces = [piece.id for piece in design_of(NAME).pieces]
    assert {"EB", "HB", "PO1", "PO6"} <= set(pieces)
    assert lines["straps"].quantity == 16.0
    assert lines["bases"].quantity == 6.0
    for part in ("hangers", "plate fixings", "chase sealant", "wall plate"):
        assert lines[part].quantity == 0.0
        assert "free of any wall" in lines[part].why


@tries(6)
@given(wind=st.floats(18.0, 24.0), more=st.floats(1.02, 1.2))
def test_more_wind_is_never_less(wind: float, more: float) -> None:
    """Of every check of the frame that passes or fails."""
    less, greater = (checks_of(site__vb0_m_s=round(v, 2)) for v in (wind, wind * more))
    for at, check in less.items():
        if check.member in ("beam", "post", "base", "frame") and check.demand is not None and at in greater:
            if at[0] == "pad-pressure" and greater[at].verdict == "refused":
                continue  # off the middle by too much: no pressure stands any more
            assert (greater[at].demand or 0.0) >= check.demand - 1e-9, at


def test_the_mirrored_roof_is_the_same() -> None:
    """Posts mirrored: the same demands, post by post from the other end."""
    places = [110.0, 2000.0, 4870.0]
    there = checks_of(frame__posts_at_mm=places)
    back = checks_of(frame__posts_at_mm=[4980.0 - x for x in reversed(places)])
    for post in (1, 2, 3):
        for rule in ("post-bowing", "post-tie", "pad-turning", "pad-pressure"):
            here, mirrored = there[rule, post, ""], back[rule, 4 - post, ""]
            assert here.demand == pytest.approx(mirrored.demand, rel=1e-9), rule


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ('[roof]\nattached = false\nleft = "closed"\nright = "open"\nfront = "open"', "roof.back"),
        ('[roof]\nattached = false\nright = "wall"', "roof.right"),
        ('[roof]\nback = "closed"', "roof.back"),
        ("[roof]\nattached = false\n[frame]\nwall_plate_mm = [47, 145]", "frame.wall_plate_mm"),
        ("[frame]\nhead_beam_mm = [70, 170]", "frame.head_beam_mm"),
        ("[roof]\nattached = false\n[frame]\nhead_posts_at_mm = [900, 100]", "frame.head_posts_at_mm"),
        (
            "[roof]\nattached = false\n[frame]\nposts_at_mm = [100, 900]\nhead_post_feet_mm = [0]",
            "frame.head_post_feet_mm",
        ),
        ("[roof]\nattached = false\nwall_offsets_mm = [[0, 0], [500, 8]]", "roof.wall_offsets_mm"),
    ],
)
def test_keys_that_do_not_go_together_are_named(text: str, place: str) -> None:
    """A wall's keys without a wall, a second row with one, closed sides, and rows out of order."""
    assert place in [problem.place for problem in sense(Job.model_validate(tomllib.loads(text)))]


def test_a_head_beam_that_is_not_named_is_refused_with_its_key() -> None:
    """No posts: both rows are refused, and so is the push across."""
    found = checks_of(frame__post_mm=None)
    for rule in ("beam-bending", "head-beam-bending", "bracing-across"):
        assert found[rule, None, ""].verdict == "refused"


CLOSED: dict[str, Any] = {
    "roof__left": "closed",
    "roof__right": "closed",
    "roof__front": "closed",
    "roof__back": "closed",
    "roof__use": "lean-to",
}


def test_a_closed_room_is_blown_at_from_its_high_side_too() -> None:
    """No bound there: wind onto the head is a wind like the others; inside 0.2 and -0.3; no open-roof tables."""
    wind = rows_of(**CLOSED)[0].loads.wind
    names = [case.name for case in wind.cases]
    assert [name for name in names if name.startswith("wind onto the head, ")]
    assert not [name for name in names if "bound" in name or "house" in name]
    assert {case.inside for case in wind.cases} == {0.2, -0.3}
    assert {case.kind for case in wind.cases} == {"outside and inside"}


def test_the_push_across_a_closed_room_by_hand() -> None:
    """Table 7.1 at h/d 2.86 / 2.65: D 0.8, E -0.5; 0.85 together; zones of the roof by area; edges; no posts in it."""
    ground, rows, push = rows_of(**CLOSED)
    over = 0.145 / math.cos(PITCH)
    edges = 2.4 * PEAK * WIDTH * 2.0 * (0.195 + over + 0.04)
    deep = DEPTH + 0.052 * math.cos(PITCH)
    ratio = 2.86 / deep
    assert 1.0 < ratio < 5.0
    windward, leeward = 0.8, -0.5 - 0.2 * (ratio - 1.0) / 4.0
    together = 0.85 + 0.15 * (ratio - 1.0) / 4.0
    walls = (windward - leeward) * together * PEAK * WIDTH * 2.86 / 2.0
    most = 0.0
    for case in ground.loads.wind.cases:
        whole = sum(z.c_10 * (z.x_mm[1] - z.x_mm[0]) * (z.y_mm[1] - z.y_mm[0]) for z in case.zones) * 1e-6
        most = max(most, abs(whole) * PEAK / math.cos(PITCH))
    drag = max((w.drag_kn for w in ground.loads.wind.whole if w.drag_along == "y"), default=0.0)
    down = sum(max(float(r.clip(min=0.0).sum()) for r in _strength(row)) for row in rows) / 1000.0
    expected = 1.5 * (most * math.sin(PITCH) + drag + edges + walls) + 0.005 * down
    assert push.push_kn == pytest.approx(expected, rel=1e-6)


def test_each_row_of_a_closed_room_takes_its_share_of_the_ends() -> None:
    """c q P (near + 2 far) / 12: half of what the ends take, half height; and its own wall."""
    checks = checks_of(**CLOSED)
    eaves, head = (
        next(float(s.result) for s in checks[rule, None, ""].working if s.says.startswith("Closed ends"))
        for rule in ("bracing", "head-bracing")
    )
    assert head > eaves
    assert eaves / head == pytest.approx((2.86 + 2.0 * 2.48) / (2.48 + 2.0 * 2.86), rel=1e-9)
    for post in (2, 5):
        bent = next(
            s for s in checks["post-bowing", post, ""].working if s.says == "Wind on the front it holds"
        )
        assert float(bent.result) > 0.0
    assert wrong_lines(assessed(changed(NAME, **CLOSED))) == []


def test_a_roof_of_one_sheet_between_edge_profiles_has_no_bar_and_no_screw() -> None:
    """Nothing is asked of screws that are not there; the rest is checked."""
    found = assessed(
        changed(
            NAME,
            roof__width_mm=1000.0,
            frame__bay_count=1,
            frame__posts_at_mm=[110.0, 890.0],
            glazing__left_edge="edge profile",
            glazing__right_edge="edge profile",
            glazing__edge_profile="edge-35",
        )
    )
    assert not found.setting_out.plane.bars
    ids = {check.id for check in found.checks}
    assert "edge-hold" in ids
    assert not [id for id in ids if id.startswith("bar-screw")]
