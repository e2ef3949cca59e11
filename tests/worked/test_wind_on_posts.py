"""Wind that bends posts between foot and beam, held feet with all at once, and how far such feet let a roof sway.

By hand: w l^2 / 8 on a post held at both ends; a cantilever on a spring. 2.4 for sharp edges, from memory of EN
1991-1-4, Figure 7.23.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from pentice.checks.eaves import eaves_forces
from pentice.checks.onto_posts import blown
from pentice.checks.passed_on import passed_on
from pentice.checks.post_winds import front_winds
from pentice.checks.values import Check
from pentice.frame.values import Post
from pentice.pipeline import Assessed
from tests.designs import assessed, changed
from tests.worked.test_frame import bowing_factor, ground_of_job
from tests.worked.test_printed_lines import wrong_lines

DOOR = {
    "wall": "front",
    "kind": "door",
    "x_mm": 200,
    "width_mm": 900,
    "height_mm": 1900,
    "dominant_factor": 0.9,
}
OPEN = {**DOOR, "shut_in_storms": False}


def the(of: Assessed, rule: str, post: int | None = None) -> Check:
    """The check of a rule, at one post where it has several."""
    (found,) = (c for c in of.checks if c.id == rule and post in (None, c.place.post))
    return found


def line(check: Check, says: str) -> float:
    """A line of its working."""
    (found,) = (float(step.result) for step in check.working if step.says == says)
    return found


def rows_of(name: str, **changes: Any) -> tuple[Post, ...]:
    """Posts of both rows."""
    frame = ground_of_job(changed(name, **changes)).frame
    return (*frame.posts, *frame.head_posts)


def tall_m(name: str, **changes: Any) -> float:
    """Length of post 2 [m]."""
    return (rows_of(name, **changes)[1].length_mm or 0.0) / 1000.0


def test_wind_on_a_post_of_an_open_front_by_hand() -> None:
    """Uneven veranda: 2.4 q_p 0.095 on each metre of a post of 95 x 95; bowing and bending of C24 added, eq. 6.23."""
    of = assessed(changed("uneven-veranda"))
    peak = of.loads.wind.peak_pressure_kn_m2 or 0.0
    check = the(of, "post-bowing", 2)
    tall = tall_m("uneven-veranda")
    assert rows_of("uneven-veranda")[1].size_mm == (95.0, 95.0)
    assert check.case.startswith("1.35 G + 1.5 W down")
    moment = 1.5 * 2.4 * peak * 0.095 * tall**2 / 8.0
    assert line(check, "Wind on the post itself, square to its row") == pytest.approx(moment, rel=1e-9)
    force, k_c = line(check, "On the post in all"), bowing_factor(tall * 1000.0)
    k_mod = 0.7  # Table 3.1: service class 3, short-term
    pressed = force * 1000.0 / 95.0**2 / (k_c * k_mod * 21.0 / 1.3)
    bent = 6.0 * moment * 1e6 / 95.0**3 / (k_mod * (150.0 / 95.0) ** 0.2 * 24.0 / 1.3)
    assert check.demand == pytest.approx(pressed + bent, rel=1e-6)


def test_a_narrow_post_is_bent_along_its_row_where_an_end_is_open() -> None:
    """70 x 195 along a row that a diagonal holds: wind on the wide side bends the thin one; not in a closed end."""
    diagonal = {"frame__bracing": "diagonal", "frame__brace_kn": 20.0, "frame__post_mm": [70.0, 195.0]}
    of = assessed(changed("uneven-veranda", **diagonal))
    check = the(of, "post-bowing", 2)
    tall, peak = tall_m("uneven-veranda", **diagonal), of.loads.wind.peak_pressure_kn_m2 or 0.0
    moment = line(check, "Wind on the post itself, along its row")
    assert moment == pytest.approx(1.5 * 2.4 * peak * 0.195 * tall**2 / 8.0, rel=1e-9)
    braced = assessed(changed("cycle-shelter", frame__post_mm=[70.0, 195.0]))
    words = [step.says for step in the(braced, "post-bowing", 2).working]
    assert "Wind on the post itself, square to its row" in words
    assert (
        "Wind on the post itself, along its row" not in words
    )  # knee braces make more of it: "post-racking"


def test_a_closed_front_is_blown_at_with_what_gets_in_at_its_openings() -> None:
    """A door that may stand open: inside 0.9 of D outside it, 0.72, against A of the sides, and not + 0.2."""
    plain = assessed(changed("potting-bay", roof__openings=[]))
    opened = assessed(changed("potting-bay", roof__openings=[OPEN]))
    insides = {case.inside for case in opened.loads.wind.cases}
    assert max(insides) == pytest.approx(0.72)
    before, after = (the(of, "post-bowing", 2) for of in (plain, opened))
    peak = opened.loads.wind.peak_pressure_kn_m2 or 0.0
    tall = tall_m("potting-bay")
    area = 2.107 * tall
    outside = -1.4 + 0.2 * math.log10(area)  # zone A between 1 and 10 m2
    most = max(abs(c - i) for c in (outside, 0.8 + 0.2 * (1.0 - math.log10(area))) for i in insides)
    assert line(after, "On each metre of the post's height") == pytest.approx(most * peak * 2.107, rel=1e-4)
    assert line(before, "On each metre of the post's height") == pytest.approx(
        (0.2 - outside) * peak * 2.107, rel=1e-4
    )
    assert (after.demand or 0.0) > (before.demand or 0.0)
    assert wrong_lines(opened) == []


def test_a_door_that_is_shut_in_storms_blows_on_its_front_by_accident_alone() -> None:
    """What lasts is the closed room's; with the door open as much as one that may stand open, in an accident."""
    winds = {}
    cases: dict[str, list[dict[str, Any]]] = {"none": [], "shut": [DOOR], "open": [OPEN]}
    for name, doors in cases.items():
        ground = ground_of_job(changed("potting-bay", roof__openings=doors))
        assert ground.frame.beam is not None
        forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
        winds[name] = {wind.accidental: wind.line_n_mm for wind in front_winds(ground, forces, 1)}
    assert winds["shut"][False] == winds["none"][False]
    assert winds["shut"][True] == winds["open"][False]
    assert winds["open"].keys() == {False}


def test_a_closed_front_between_open_ends_asks_for_the_wind_on_it() -> None:
    """The standard has none: refused with the key; with it every post carries what is declared."""
    ends = {"roof__left": "open", "roof__right": "open", "roof__openings": []}
    of = assessed(changed("potting-bay", **ends))
    for rule in ("post-bowing", "post-pulled", "pad-pressure", "post-base-level"):
        found = [c for c in of.checks if c.id == rule]
        assert found and {c.verdict for c in found} == {"refused"}, rule
    assert "give site.side_wind" in the(of, "post-bowing", 2).says
    wind = {"source": "A. Wren, letter of 3 May 2027", "inwards": 1.3, "outwards": -1.1}
    told = assessed(changed("potting-bay", **ends, site__side_wind=wind))
    check, peak = the(told, "post-bowing", 2), told.loads.wind.peak_pressure_kn_m2 or 0.0
    assert line(check, "On each metre of the post's height") == pytest.approx(1.3 * peak * 2.107, rel=1e-4)
    assert wrong_lines(told) == []


def test_moment_level_force_and_uplift_of_a_held_foot_are_added() -> None:
    """Boat rack: M / 14 + H / 16 + U / 16, of the push across and what lifts most; refused without one of them."""
    of = assessed(changed("boat-rack"))
    check, across = the(of, "post-base-level", 2), the(of, "bracing-across")
    push = line(across, "Push across the roof on both rows of posts")
    posts = [(p.length_mm or 0.0) + 195.0 / 2.0 for p in rows_of("boat-rack")]
    k, post = next((n, p) for n, p in enumerate(rows_of("boat-rack")) if p.number == 2)
    share = max(1.0 / 6.0, posts[k] ** -3 / sum(h**-3 for h in posts))
    own = 1.5 * 2.4 * (of.loads.wind.peak_pressure_kn_m2 or 0.0) * 0.145 * (post.length_mm or 0.0) / 2000.0
    base = the(of, "post-base", 2)
    up = (base.demand or 0.0) - ((base.capacity or 0.0) - 16.0)
    by_hand = share * push * posts[k] / 1000.0 / 14.0 + (share * push + own) / 16.0 + up / 16.0
    assert check.demand == pytest.approx(by_hand, rel=1e-6)
    assert check.name == "Post on its base, level and turned"
    for key in ("post_foot_knm", "post_base_kn", "post_base_level_kn"):
        less = the(assessed(changed("boat-rack", **{f"frame__{key}": None})), "post-base-level", 2)
        assert less.verdict == "refused"
        assert f"frame.{key}" in less.says
        assert "kNm turn it" in less.says


def test_a_turned_foot_that_fails_is_told_what_to_strengthen() -> None:
    """Boat rack with feet for 6 kNm: what turns them asks most, so more level alone is no way out."""
    check = the(assessed(changed("boat-rack", frame__post_foot_knm=6.0)), "post-base-level", 2)
    assert check.verdict == "fails"
    assert "against turning" in check.cure


def sway(**changes: Any) -> Check:
    """The sway of the boat rack across."""
    return the(assessed(changed("boat-rack", **changes)), "sway-across")


def tip_mm(height_mm: float, force_n: float, e: float, i: float, spring_knm_rad: float) -> float:
    """How far a cantilever on a spring leans, its curvature added up over a thousand slices."""
    x = (np.arange(1000) + 0.5) / 1000.0 * height_mm
    arm = height_mm - x
    bent = float((force_n * arm / (e * i) * arm).sum() * height_mm / 1000.0)
    return bent + force_n * height_mm / (spring_knm_rad * 1e6) * height_mm


def test_posts_on_held_feet_sway_as_by_slices() -> None:
    """Post of 145 x 145, E 11000, 900 kNm/rad; all the wind times its share, and second order by a row of swayings."""
    of, check = assessed(changed("boat-rack")), sway()
    tall = [(p.length_mm or 0.0) + 195.0 / 2.0 for p in rows_of("boat-rack")]
    wind = line(check, "Wind that pushes, characteristic")
    pushes = next(s for s in the(of, "bracing-across").working if s.says.startswith("Push across the roof"))
    weight = float(pushes.numbers.rsplit(" x ", 1)[1])
    leans = []
    for h in tall:
        share = max(1.0 / 6.0, h**-3 / sum(t**-3 for t in tall))
        leans.append(tip_mm(h, share * 1000.0, 11000.0, 145.0**4 / 12.0, 900.0))
    one = max(leans)
    by_steps = 0.0
    for _ in range(50):  # what stands on the posts leans with them and pushes on
        by_steps = one * (wind + weight * by_steps / min(tall))
    assert check.demand == pytest.approx(by_steps, rel=1e-4)
    assert check.capacity == pytest.approx(min(tall) / 75.0, rel=1e-9)


def test_feet_that_are_as_stiff_as_asked_keep_the_limit() -> None:
    """Without their stiffness it is refused with what they need; that much passes, a little less fails."""
    asked = sway(frame__post_foot_knm_rad=None)
    assert asked.verdict == "refused"
    need = float(asked.says.split(" kNm/rad")[0].rsplit(" ", 1)[1])
    assert sway(frame__post_foot_knm_rad=need + 1.0).verdict == "passes"
    assert sway(frame__post_foot_knm_rad=need - 1.0).verdict == "fails"


def test_posts_that_bend_too_far_fail_however_stiff_their_feet_are() -> None:
    """height / 1000: the posts alone bend more; taken as stiff the feet do not help, and softer is never less."""
    alone = sway(frame__post_foot_knm_rad=None, frame__sway_limit=1000.0)
    assert alone.verdict == "fails"
    assert "taken as stiff" in alone.says
    found = [sway(frame__post_foot_knm_rad=k).demand or 0.0 for k in (1e6, 5000.0, 900.0, 500.0)]
    assert found == sorted(found)
    assert found[0] == pytest.approx(alone.demand or 0.0, rel=1e-3)
    soft = sway(frame__post_foot_knm_rad=5.0)
    assert soft.verdict == "refused"
    assert "sway away" in soft.says


def test_leaning_adds_to_what_turns_held_feet() -> None:
    """Below 10 by design stiffness every foot takes k = 1 / (1 - 1 / alpha) more; below 3 it is refused.

    EN 1993-1-1, 5.2.1(3), 5.2.2(5), from memory. What is asked for where nothing is declared then reaches 3.
    """
    stiff = the(assessed(changed("boat-rack")), "bracing-across")
    seen = set()
    for k in (20.0, 60.0, 100.0, 150.0, 400.0):
        of = assessed(changed("boat-rack", frame__post_foot_knm_rad=k, frame__sway_limit=50.0))
        check, feet = the(of, "sway-across"), the(of, "bracing-across")
        alpha = line(check, "Load under which they sway away, over their load") / 1.3
        seen.add((alpha >= 3.0) + (alpha >= 10.0))
        assert (check.verdict == "refused") == (alpha < 3.0)
        more = 1.0 / (1.0 - 1.0 / max(alpha, 3.0)) if alpha < 10.0 else 1.0
        assert feet.demand == pytest.approx(more * (stiff.demand or 0.0), rel=1e-9)
        assert wrong_lines(of) == []
    assert seen == {0, 1, 2}
    asked = sway(frame__post_foot_knm_rad=None, frame__sway_limit=50.0)
    need = float(asked.says.split(" kNm/rad")[0].rsplit(" ", 1)[1])
    given = sway(frame__post_foot_knm_rad=need + 1.0, frame__sway_limit=50.0)
    assert line(given, "Load under which they sway away, over their load") >= 3.9


def test_a_row_on_held_feet_sways_along_too() -> None:
    """Cycle shelter on held feet: each of four takes a quarter; e = h^3 / (3 E I) + h^2 / k."""
    keys = {"frame__bracing": "fixed feet", "frame__post_foot_knm": 9.0, "frame__post_foot_knm_rad": 400.0}
    of = assessed(changed("cycle-shelter", **keys))
    check = the(of, "sway-along")
    wind = line(check, "Wind that pushes, characteristic")
    posts, beam = rows_of("cycle-shelter", **keys), ground_of_job(changed("cycle-shelter", **keys)).frame.beam
    assert beam is not None
    height = max(p.length_mm or 0.0 for p in posts) + beam.size_mm[1] / 2.0
    wide, deep = posts[0].size_mm
    lean = tip_mm(height, 250.0, 11000.0, deep * wide**3 / 12.0, 400.0)
    (pushes,) = (s for s in the(of, "bracing").working if s.says == "Push along the wall on the row of posts")
    weight = float(pushes.numbers.rsplit(" x ", 1)[1])
    assert check.demand == pytest.approx(wind * lean / (1.0 - weight * lean / height), rel=1e-4)
    assert wrong_lines(of) == []


def test_a_head_over_a_held_foot_turns_freely() -> None:
    """A closed room on held feet: the foot takes 5 / 8 of the wind on its front and w l^2 / 8, the head half of it."""
    closed = {f"roof__{side}": "closed" for side in ("left", "right", "front", "back")}
    job = changed("boat-rack", **closed)
    of, ground = assessed(job), ground_of_job(job)
    assert "give ." not in " ".join(c.says for c in of.checks)
    assert the(of, "post-tie-level", 2).verdict != "refused"
    assert ground.frame.beam is not None
    forces = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    foot, head = (next(blown(ground, forces, 1, of_foot=at)) for at in (True, False))
    assert foot.square_kn == pytest.approx(1.25 * head.square_kn, rel=1e-9)
    tall = (forces.beam.posts[1].length_mm or 0.0) / 1000.0
    assert foot.square_knm == pytest.approx(head.square_kn * tall / 4.0, rel=1e-9)
    assert head.square_knm == 0.0
    assert wrong_lines(of) == []
