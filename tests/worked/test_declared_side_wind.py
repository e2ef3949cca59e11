"""A veranda with its left end closed under a declared wind: sheets, mullion, sill, end rafter, post, push, by hand.

The plant lobby with front and right end open, q_p 0.6 kN/m2, and c_p,net +1.3 inwards and -1.1 outwards: 0.78 and
0.66 kN/m2 on every part of the end. Only what beam and bracing bring is the engine's.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from pentice.checks.pads_values import AtFoot
from pentice.checks.racking import pushes_along
from pentice.checks.values import Check
from pentice.checks.wall_posts import acting_on_posts, feet_in_walls
from pentice.checks.wall_posts_values import Braces
from tests.designs import assessed, changed
from tests.worked.test_bracing import row_of
from tests.worked.test_closed_ends import DEEP, EAVES, HEAD, SHORT, TALL, beside_hole, k_c
from tests.worked.test_frame import ground_of_job
from tests.worked.test_printed_lines import wrong_lines

NAME = "plant-lobby"
SHEETS = [
    {"side": "left", "width_mm": 767, "left_mm": 2471, "right_mm": 2265},
    {"side": "left", "width_mm": 767, "left_mm": 2246, "right_mm": 2041},
]
WIND = {"source": "A. Wren, letter of 3 May 2027", "inwards": 1.3, "outwards": -1.1}
VERANDA: dict[str, Any] = {
    "roof__use": "veranda",
    "roof__front": "open",
    "roof__right": "open",
    "roof__openings": [],
    "side_sheets": SHEETS,
    "frame__pad_mm": [1000, 1000, 800],
    "site__peak_pressure_kn_m2": 0.6,
    "site__side_wind": WIND,
}
CLOSED_FRONT: dict[str, Any] = {
    "roof__front": "closed",
    "roof__openings": [
        {
            "wall": "right",
            "kind": "vent",
            "x_mm": 0,
            "width_mm": 900,
            "height_mm": 1900,
            "dominant_factor": 0.9,
        }
    ],
}
"""Its right end alone open, which needs what gets in there."""
IN, OUT = 0.78, 0.66
"""1.3 x 0.6 and 1.1 x 0.6 [kN/m2]."""


def checks_of(**changes: Any) -> dict[tuple[str, int | None], Check]:
    """Checks of the veranda with other values, by rule and post."""
    return {(c.id, c.place.post): c for c in assessed(changed(NAME, **{**VERANDA, **changes})).checks}


def of_rule(rule: str, **changes: Any) -> Check:
    """The only check of a rule, or the last of several places."""
    return [check for (id, _), check in checks_of(**changes).items() if id == rule][-1]


def test_nothing_of_the_veranda_is_refused_and_every_line_gives_its_result() -> None:
    """With the declared value all of the closed end is calculated; its source stands in the working."""
    result = assessed(changed(NAME, **VERANDA))
    assert [check.id for check in result.checks if check.verdict == "refused"] == []
    assert wrong_lines(result) == []
    for rule in (
        "post-walls",
        "rafter-sideways",
        "mullion-bending",
        "side-wind-up",
        "sill-bending",
        "bracing",
    ):
        check = next(c for c in result.checks if c.id == rule)
        assert any("declared: A. Wren, letter of 3 May 2027" in step.clause for step in check.working), rule
        assert "site.side_wind.inwards" in [given.input for given in check.rests_on], rule


def test_side_sheets_carry_what_is_declared() -> None:
    """The table has 1.5 in hand, as has the wind: 0.78 in and 0.66 out are asked of it as they stand."""
    assert of_rule("side-wind-down").demand == pytest.approx(IN, rel=1e-9)
    assert of_rule("side-wind-up").demand == pytest.approx(OUT, rel=1e-9)


def test_mullion_and_sill_by_hand() -> None:
    """0.78 x 0.837 = 0.65286 kN/m: M = 1.5 x 0.65286 x 2.265^2 / 8 = 0.62800 kNm over 70 x 95^2 / 6; ends 1.10905 kN.

    Sill 95 x 47: 1.5 x 0.78 x 2.471 / 2 = 1.44554 kN/m; 1.44554 x 0.4^2 / 8 + 1.10905 x 0.4 / 4 = 0.13982 kNm.
    """
    bending = of_rule("mullion-bending")
    assert bending.demand == pytest.approx(5.964359, rel=1e-6)
    assert bending.capacity == pytest.approx(SHORT * 24.0 * (150.0 / 95.0) ** 0.2, rel=1e-6)
    assert of_rule("mullion-ends").demand == pytest.approx(1.109046, rel=1e-6)
    second = 70.0 * 95.0**3 / 12.0
    sag = (
        5.0 * 0.65286 * 2265.0**4 / (384.0 * 11000.0 * second)
        + 1.2 * 0.65286 * 2265.0**2 / 8.0 / 690.0 / 6650.0
    )
    assert of_rule("mullion-sag").demand == pytest.approx(sag, rel=1e-6)
    assert of_rule("sill-bending").demand == pytest.approx(1.977702, rel=1e-6)
    assert of_rule("sill-fixings").demand == pytest.approx(1.445535 * 0.4 + 1.109046, rel=1e-6)


def test_the_end_rafter_by_hand() -> None:
    """w = 1.5 x 0.78 x 2.65551 / 2 = 1.55348 kN/m; M = 1.55348 cos(15) 1.6994^2 / 8 = 0.54169 kNm on 120 x 70^2 / 6.

    eta_y is the most that bending, or bending in uplift, uses of the same rafter.
    """
    result = checks_of()
    upright = max(
        c.utilisation or 0.0
        for c in assessed(changed(NAME, **VERANDA)).checks
        if c.place.rafter == 1 and c.id in ("rafter-bending", "rafter-uplift")
    )
    sideways = 6e6 * 0.541688 / (120.0 * 70.0**2) / (0.9 / 1.3 * 24.0 * (150.0 / 70.0) ** 0.2)
    check = result["rafter-sideways", None]
    assert check.place.rafter == 1
    assert check.demand == pytest.approx(max(upright + 0.7 * sideways, 0.7 * upright + sideways), rel=1e-4)


def test_the_corner_post_by_hand() -> None:
    """Its front is open: bent along the row alone, 1.5 x 0.78 x 0.4795 x 1.90577^2 / 8 = 0.25470 kNm and the
    knee brace's; this has wind on the free post of the row in it, on the safe side: H_p = 1.5 x 2.4 x 0.6 x 0.095 x
    1.90577 / 2 = 0.195532 kN.

    Eq. 6.24 over twice its length beside one bolt of 12, 95 x 95; post 2 holds no wall and is not asked.
    """
    forces, push, pairs = row_of(NAME, **VERANDA)
    arm = push.height_mm - 600.0
    racked = (push.push_kn / 2.0 + 0.195532 * (1.0 - arm / TALL)) * arm / 1000.0
    f_m, f_c = SHORT * (150.0 / 95.0) ** 0.2 * 24.0, SHORT * 21.0
    weight = 0.095 * 0.095 * 420.0 * 9.81e-3 * TALL / 1000.0
    most = 0.0
    for i, case in enumerate(forces.cases):
        c = case.combination
        if c.kind != "strength" or not c.wind:
            continue
        down = float(forces.reactions_n[i, 0]) / 1000.0 + c.dead * weight + pairs[0]
        axial = max(down, 0.0) * 1000.0 / 95.0**2 / f_c
        m_z = 0.254697 * c.wind / 1.5 + racked
        _, bent = beside_hole(95.0, 95.0, 12.0, 0.0, m_z)
        most = max(
            most, axial / k_c(TALL, 95.0) + 0.7 * bent / f_m, axial / k_c(2.0 * TALL, 95.0) + bent / f_m
        )
    found = checks_of()
    assert found["post-walls", 1].demand == pytest.approx(most, rel=1e-4)
    assert ("post-walls", 2) not in found


def test_what_comes_to_the_corner_post_s_foot() -> None:
    """1.5 x 0.37401 x 1.90577 / 2 = 0.53458 kN along the row, and the share of the push that the job's braces bring."""
    ground = ground_of_job(changed(NAME, **VERANDA))
    forces, push, _ = row_of(NAME, **VERANDA)
    by = Braces(level=[AtFoot(says="the push along", along_kn=push.push_kn / 2.0)] * 2)
    acting, why = acting_on_posts(ground, forces, by)
    assert why == ""
    feet = feet_in_walls(ground, forces, by, acting)
    assert max(foot.along_kn for foot in feet[0]) == pytest.approx(0.534582 + push.push_kn / 2.0, rel=1e-5)
    assert all(foot.square_kn == 0.0 for foot in feet[0])
    assert feet[1] == []


def from_the_end(*, at_beam: bool) -> float:
    """Upper half of the end strip by strip, each borne at head and beam as by a lever, for 1 kN/m2 [kN]."""
    count, deep = 20000, DEEP / 1000.0
    found = 0.0
    for k in range(count):
        share = (k + 0.5) / count
        high = (HEAD - (HEAD - EAVES) * share) / 1000.0
        found += high / 2.0 * (share if at_beam else 1.0 - share) * deep / count
    return found


@pytest.mark.parametrize(
    ("changes", "coefficient"),
    [
        ({}, 1.3),
        ({"site__side_wind": {**WIND, "outwards": -1.6}}, 1.6),
        ({"site__side_wind": {**WIND, "left": [0.4, -0.9]}}, 0.9),
    ],
)
def test_the_push_along_the_wall_by_strips(changes: dict[str, Any], coefficient: float) -> None:
    """The greater of both ways, of its own wall where it has its own: at beam and wall plate."""
    ground = ground_of_job(changed(NAME, **{**VERANDA, **changes}))
    for found, is_beam in ((pushes_along(ground, "beam"), True), (pushes_along(ground, "wall"), False)):
        (step,) = [s for s in found if s.says.startswith("Closed ends")]
        assert step.result == pytest.approx(coefficient * 0.6 * from_the_end(at_beam=is_beam), rel=1e-6)


def test_two_closed_ends_push_and_draw_at_once() -> None:
    """Left 1.3 in and right 0.5 out, 1.8, or right 0.9 in and left 1.1 out, 2.0: the greater, with no share off."""
    both = {
        "roof__right": "closed",
        "roof__openings": [
            {
                "wall": "front",
                "kind": "vent",
                "x_mm": 0,
                "width_mm": 900,
                "height_mm": 1900,
                "dominant_factor": 0.9,
            }
        ],
        "site__side_wind": {**WIND, "right": [0.9, -0.5]},
    }
    ground = ground_of_job(changed(NAME, **{**VERANDA, **both}))
    (step,) = [s for s in pushes_along(ground, "beam") if s.says.startswith("Closed ends")]
    assert step.result == pytest.approx(2.0 * 0.6 * from_the_end(at_beam=True), rel=1e-6)
    assert "both ends at their worst at once" in step.clause


def test_a_closed_front_is_drawn_out_and_bends_its_posts_both_ways() -> None:
    """Front -1.4 x 0.6 = 0.84 out: 1.5 x 0.84 x 2.2 / 2 = 1.386 kN/m at the plate, or 0.9 in place of 1.5.

    Post 1 holds 1.43 of it and the end: 1.5 x 0.84 x 1.43 x 1.90577^2 / 8 = 0.81801 kNm square to its row.
    """
    front = {**CLOSED_FRONT, "site__side_wind": {**WIND, "front": [0.8, -1.4]}}
    found = checks_of(**front)
    says = "Upper half of the closed front, drawn out through the rafters: in what pulls"
    (line,) = [float(s.result) for s in found["wall-fixings", None].working if s.says == says]
    assert any(line == pytest.approx(factor * 0.84 * 1.1, rel=1e-9) for factor in (0.9, 1.5))
    check = found["post-walls", 1]
    assert check.verdict != "refused"
    square = next(float(s.result) for s in check.working if s.says == "Bends it square to its row")
    assert any(square == pytest.approx(0.818008 * factor / 1.5, rel=1e-5) for factor in (0.9, 1.5))
    assert any("both walls at their worst at once" in step.clause for step in check.working)
    assert "front outwards, left end inwards" in check.case
    # Bowing under the roof's load counts the front as declared too: the same moment on the same post.
    bowing = next(s for s in found["post-bowing", 1].working if s.says == "Wind on the front it holds")
    assert float(bowing.result) == pytest.approx(
        0.818008 * float(bowing.numbers.split(" x ")[0]) / 1.5, rel=1e-5
    )


def test_a_closed_room_with_wind_coefficients_of_its_own() -> None:
    """Both ends and the front by what is declared for them; nothing stands inside besides.

    The end's corner post: 1.5 x 0.78 x 0.4795 along, 1.5 x 0.66 of the front's own 1.1 square to it.
    """
    own = {"source": "A. Wren", "zones": [{"name": "all", "down": 0.8, "up": -1.2}]}
    room = {
        "site__wind_coefficients": own,
        "site__side_wind": {**WIND, "front": [0.6, -1.1]},
        "site__peak_pressure_kn_m2": 0.6,
        "roof__openings": [],
    }
    found = {(c.id, c.place.post): c for c in assessed(changed(NAME, **room)).checks}
    refused = [id for (id, _), c in found.items() if c.verdict == "refused"]
    assert refused == []
    square = next(
        float(s.result) for s in found["post-walls", 1].working if s.says == "Bends it square to its row"
    )
    by_hand = 0.66 * 1.43 * (TALL / 1000.0) ** 2 / 8.0
    assert any(square == pytest.approx(factor * by_hand, rel=1e-5) for factor in (0.9, 1.5))
    along = next(s for s in found["wall-fixings", None].working if s.says.startswith("Closed ends"))
    assert float(along.result) == pytest.approx((1.3 + 1.1) * 0.6 * from_the_end(at_beam=False), rel=1e-6)


def test_a_free_standing_room_is_pushed_across_by_what_is_declared() -> None:
    """(0.7 + 0.9) x 0.5 x 4.98 x 2.86 / 2 = 5.69712 kN: 0.7 in at the front, 0.9 out at the back; 0.5 is less."""
    own = {"source": "A. Wren", "zones": [{"name": "all", "down": 0.8, "up": -1.2}]}
    closed = {f"roof__{side}": "closed" for side in ("left", "right", "front", "back")}
    wind = {**WIND, "front": [0.7, -0.2], "back": [0.3, -0.9]}
    job = changed(
        "boat-rack",
        site__wind_coefficients=own,
        site__side_wind=wind,
        site__peak_pressure_kn_m2=0.5,
        **closed,
    )
    check = next(c for c in assessed(job).checks if c.id == "bracing-across")
    line = next(s for s in check.working if s.says.startswith("Front and back"))
    assert float(line.result) == pytest.approx(1.6 * 0.5 * 4.98 * 2.86 / 2.0, rel=1e-6)
    assert math.isclose(1.6 * 0.5 * 4.98 * 2.86 / 2.0, 5.69712, rel_tol=1e-6)


def test_a_front_between_open_ends_is_drawn_by_what_is_declared() -> None:
    """1.1 x 0.6 = 0.66 out of 2.2 high: 0.726 kN/m at the plate, times 1.5 or 0.9; 1.3 x 0.6 x 1.43 on post 1.

    With nothing declared its posts are refused, and nothing draws at the plate.
    """
    open_ends = {"roof__left": "open", "roof__front": "closed", "side_sheets": []}
    says = "Upper half of the closed front, drawn out through the rafters: in what pulls"
    found = checks_of(**open_ends)
    (line,) = [float(s.result) for s in found["wall-fixings", None].working if s.says == says]
    assert any(line == pytest.approx(factor * 0.726, rel=1e-9) for factor in (0.9, 1.5))
    bends = next(s for s in found["post-bowing", 1].working if s.says == "Wind on the front it holds")
    factor = float(bends.numbers.split(" x ")[0])
    assert bends.result == pytest.approx(factor * IN * 1.43 * (TALL / 1000.0) ** 2 / 8.0, rel=1e-5)
    first = next(s for s in found["post-bowing", 1].working if s.says == "Wind, inwards positive")
    assert first.clause == "declared: A. Wren, letter of 3 May 2027"
    bare = checks_of(**open_ends, site__side_wind=None)
    assert not [s for s in bare["wall-fixings", None].working if s.says == says]
    assert bare["post-bowing", 1].verdict == "refused"
    assert "give site.side_wind" in bare["post-bowing", 1].says
