"""The plant lobby's closed ends by a second route: corner posts bent both ways, mullions, sills, end rafters, by hand.

Only what beam and bracing bring is the engine's. Table 7.1 over h/d: D between 0.7 and 0.8, E -0.3 and -0.5 up to 1,
-0.7 at 5; A -1.2 and -1.4; for 1 m2 D 1.0.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import pytest

from pentice.checks.values import Check
from pentice.pipeline import Assessed
from tests.designs import assessed, changed
from tests.worked.test_bracing import row_of

NAME = "plant-lobby"
HEAD, EAVES, WIDE, DEEP = 2200.0 + 1700.0 * math.tan(math.radians(15.0)), 2200.0, 2861.3333, 1700.0
ON_PLAN = DEEP + 55.0 * math.cos(math.radians(15.0))
TALL = EAVES - 120.0 / math.cos(math.radians(15.0)) - 170.0
"""Of a post: under beam and rafter."""
FRONT = {"left": 1430.0, "right": WIDE - 1430.0}
"""Of the front to the middle between the posts at 48 and 2812, for the post at either end."""
END = 95.0 + 767.0 / 2.0 + (1700.0 - 2.0 * 767.0 - 70.0 - 95.0)
"""Itself, half of the opening beside it, and the rest of 1 mm."""
C24 = {"m": 24.0, "t": 14.5, "c": 21.0, "v": 4.0, "E": 7400.0}
SHORT = 0.7 / 1.3
"""k_mod of service class 3 over gamma_M, for wind of short duration."""


def found(**changes: Any) -> tuple[Assessed, dict[tuple[str, int | None], Check]]:
    """The plant lobby with other values, and its checks by rule and post."""
    assessed_ = assessed(changed(NAME, **changes))
    return assessed_, {(check.id, check.place.post): check for check in assessed_.checks}


def peak() -> float:
    """The peak pressure of the example [kN/m2]; its own tests check it."""
    return found()[0].loads.wind.peak_pressure_kn_m2 or 0.0


def at_area(ten: float, one: float, area: float) -> float:
    """Figure 7.2: a straight line over the logarithm between 1 and 10 m2."""
    return one - (one - ten) * math.log10(min(max(area, 1.0), 10.0))


def outside(zone: str, deep_mm: float, area: float) -> float:
    """Table 7.1 over h/d, by hand."""
    ratio = max(HEAD / deep_mm, 0.25)
    if zone == "A":
        return at_area(-1.2, -1.4, area)
    if zone == "D":
        return at_area(0.7 + 0.1 * (min(ratio, 1.0) - 0.25) / 0.75, 1.0, area)
    return -0.3 - 0.2 * (ratio - 0.25) / 0.75 if ratio <= 1.0 else -0.5 - 0.2 * (ratio - 1.0) / 4.0


def winds(end: str) -> Iterator[tuple[bool, float, float]]:
    """Along the row or not, and what stands on front and end over the peak: four winds, two pressures inside."""
    front, side = FRONT[end] * TALL * 1e-6, END * TALL * 1e-6
    zones = {
        "left": ("A", "D" if end == "left" else "E", WIDE),
        "right": ("A", "D" if end == "right" else "E", WIDE),
        "onto": ("D", "A", ON_PLAN),
        "behind": ("E", "A", ON_PLAN),
    }
    for name, (on_front, on_end, deep) in zones.items():
        for inside in (0.2, -0.3):
            yield (
                name in ("left", "right"),
                abs(outside(on_front, deep, front) - inside),
                abs(outside(on_end, deep, side) - inside),
            )


def k_c(length: float, side: float) -> float:
    """EN 1995-1-1, 6.3.2, by hand."""
    slender = length * math.sqrt(12.0) / side / math.pi * math.sqrt(C24["c"] / C24["E"])
    k = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
    return 1.0 / (k + math.sqrt(k**2 - slender**2))


def moments(end: str, factor: float, racked: float) -> Iterator[tuple[float, float]]:
    """Square to the front and along it [kNm]: gamma w l^2 / 8 each, and what the knee braces do in winds along."""
    square = factor * peak() * (TALL / 1000.0) ** 2 / 8.0
    for along, front, side in winds(end):
        yield square * front * FRONT[end] / 1000.0, square * side * END / 1000.0 + (racked if along else 0.0)


def beside_hole(b: float, d: float, hole: float, m_y: float, m_z: float) -> tuple[float, float]:
    """Stresses from moments square to the row and along it [kNm]; the hole goes through the middle, square to it."""
    i_z = d * (b**3 - hole**3) / 12.0
    return 6e6 * m_y / ((b - hole) * d**2), m_z * 1e6 * (b / 2.0) / i_z


@pytest.mark.parametrize(("post", "end"), [(1, "left"), (2, "right")])
def test_a_corner_post_pressed_and_bent_both_ways(post: int, end: str) -> None:
    """Eq. 6.23 and 6.24 with k_m 0.7: l along the front once, along the row twice, 95 x 95 of C24.

    M of the knee brace (H / 2) (h - 600); N the beam's reaction, 1.35 of the post's weight, and the pair of the row.
    One bolt of 12 goes through the middle, square to the row: 95 - 12 is left where it is bent square to the row.
    """
    forces, push, pairs = row_of(NAME)
    racked = push.push_kn / 2.0 * (push.height_mm - 600.0) / 1000.0
    k_h = (150.0 / 95.0) ** 0.2
    f_m, f_c = SHORT * k_h * C24["m"], SHORT * C24["c"]
    weight = 0.095 * 0.095 * 420.0 * 9.81e-3 * TALL / 1000.0
    most = 0.0
    for i, case in enumerate(forces.cases):
        c = case.combination
        if c.kind != "strength" or not c.wind:
            continue
        down = float(forces.reactions_n[i, post - 1]) / 1000.0 + c.dead * weight + pairs[post - 1]
        axial = max(down, 0.0) * 1000.0 / 95.0**2
        for m_y, m_z in moments(end, c.wind, racked):
            y, z = beside_hole(95.0, 95.0, 12.0, m_y, m_z)
            y, z = y / f_m, z / f_m
            most = max(
                most,
                axial / (k_c(TALL, 95.0) * f_c) + y + 0.7 * z,
                axial / (k_c(2.0 * TALL, 95.0) * f_c) + 0.7 * y + z,
            )
    check = found()[1]["post-walls", post]
    assert check.demand == pytest.approx(most, rel=1e-4)
    assert 0.5 < most < 0.7


def test_a_corner_post_pulled_and_bent_both_ways() -> None:
    """Eq. 6.17 and 6.18: the pull at its head with pair and knee brace, H h / 2 b, its own weight not counted."""
    forces, push, pairs = row_of(NAME)
    racked = push.push_kn / 2.0 * (push.height_mm - 600.0) / 1000.0
    k_h = (150.0 / 95.0) ** 0.2
    f_m, f_t = SHORT * k_h * C24["m"], SHORT * k_h * C24["t"]
    knee = push.push_kn / 2.0 * push.height_mm / 600.0
    dead = next(i for i, c in enumerate(forces.cases) if c.combination.name == "G")
    most = 0.0
    for post, end in ((1, "left"), (2, "right")):
        own = float(forces.reactions_n[dead, post - 1]) / 1000.0
        lifts = float(forces.dead_lifts_n[post - 1]) / 1000.0
        for i, case in enumerate(forces.cases):
            if case.combination.name != "0.9 G + 1.5 W up":
                continue
            up = max(0.9 * own - float(forces.reactions_n[i, post - 1]) / 1000.0, 0.0)
            holds = 0.9 * own - 0.2 * lifts
            for n, (m_y, m_z) in enumerate(moments(end, 1.5, racked)):
                along = n < 4
                pull = up + pairs[post - 1] + (knee if along else 0.0) - holds
                if pull <= 0.0:
                    continue
                axial = pull * 1000.0 / (95.0 * (95.0 - 12.0)) / f_t
                y, z = beside_hole(95.0, 95.0, 12.0, m_y, m_z)
                y, z = y / f_m, z / f_m
                most = max(most, axial + y + 0.7 * z, axial + 0.7 * y + z)
    check = next(c for (id, _), c in found()[1].items() if id == "post-walls-pulled")
    assert check.demand == pytest.approx(most, rel=1e-4)


@pytest.mark.parametrize(
    ("size", "bracing", "lengths"), [((70.0, 145.0), "knee braces", 2.0), ((45.0, 220.0), "diagonal", 1.0)]
)
def test_a_deep_post_gives_way_sideways_while_bent_both_ways(
    size: tuple[float, float], bracing: str, lengths: float
) -> None:
    """Eq. 6.23, 6.24, and (s_y / (k_crit f))^2 + s_c / (k_c,z f_c) + s_z / f_z: the greatest of them.

    lambda = sqrt(24 h (l + 2 h) / (0.78 b^2 7400)): 0.52 and 1.03, so k_crit is 1 and 1.56 - 0.75 lambda. Under a
    diagonal the posts stay straight and bow over their own length.
    """
    b, d = size
    hole = 10.0 if bracing == "knee braces" else 0.0  # bolts of 12 need more than 70
    changes = {"frame__post_mm": [b, d], "frame__bracing": bracing, "frame__knee_bolt_mm": 10.0}
    forces, push, pairs = row_of(NAME, **changes)
    racked = push.push_kn / 2.0 * (push.height_mm - 600.0) / 1000.0 if lengths > 1.0 else 0.0
    end_mm = d + 767.0 / 2.0  # the deeper post leaves nothing beside the openings
    weight = b * d * 1e-6 * 420.0 * 9.81e-3 * TALL / 1000.0
    f_c, f_y = SHORT * C24["c"], SHORT * C24["m"] * (150.0 / min(d, 150.0)) ** 0.2
    f_z = SHORT * C24["m"] * min((150.0 / b) ** 0.2, 1.3)
    slender = math.sqrt(24.0 * d * (TALL + 2.0 * d) / (0.78 * b**2 * 7400.0))
    k_crit = 1.0 if slender <= 0.75 else 1.56 - 0.75 * slender
    most = {"6.23": 0.0, "6.24": 0.0, "6.35": 0.0}
    for i, case in enumerate(forces.cases):
        c = case.combination
        if c.kind != "strength" or not c.wind:
            continue
        down = float(forces.reactions_n[i, 1]) / 1000.0 + c.dead * weight + pairs[1]
        axial = max(down, 0.0) * 1000.0 / (b * d)
        square = c.wind * peak() * (TALL / 1000.0) ** 2 / 8.0
        for along, front, _ in winds("right"):
            on_end = _on_end(end_mm, along, front)
            m_y = square * front * FRONT["right"] / 1000.0
            m_z = square * on_end * end_mm / 1000.0 + (racked if along else 0.0)
            y, z = beside_hole(b, d, hole, m_y, m_z)
            y, z = y / f_y, z / f_z
            bowing_y, bowing_z = axial / (k_c(TALL, d) * f_c), axial / (k_c(lengths * TALL, b) * f_c)
            most["6.23"] = max(most["6.23"], bowing_y + y + 0.7 * z)
            most["6.24"] = max(most["6.24"], bowing_z + 0.7 * y + z)
            most["6.35"] = max(most["6.35"], (y / k_crit) ** 2 + bowing_z + z)
    check = found(**changes)[1]["post-walls", 2]
    assert check.demand == pytest.approx(max(most.values()), rel=2e-3)
    assert f"eq. {max(most, key=lambda equation: most[equation])}" in check.working[-1].clause


def _on_end(strip_mm: float, along: bool, front: float) -> float:
    """What stands on the right end in the wind and with the pressure inside that bring this to the front."""
    area, on_front = strip_mm * TALL * 1e-6, FRONT["right"] * TALL * 1e-6
    for inside in (0.2, -0.3):
        if along and math.isclose(front, abs(outside("A", WIDE, on_front) - inside)):
            return max(abs(outside(zone, WIDE, area) - inside) for zone in "DE")
        for zone in "DE":
            if not along and math.isclose(front, abs(outside(zone, ON_PLAN, on_front) - inside)):
                return abs(outside("A", ON_PLAN, area) - inside)
    raise AssertionError(front)


def of_rule(rule: str, **changes: Any) -> Check:
    """The only check of a rule."""
    (check,) = [c for (id, _), c in found(**changes)[1].items() if id == rule]
    return check


MULLION = {"long": 2265.0, "strip": 767.0 + 70.0}


def on_mullion() -> float:
    """Zone A with +0.2 inside on 0.837 x 2.265 = 1.8958 m2 [kN/m]: (1.4 - 0.2 x 0.27779 + 0.2) q_p x 0.837."""
    area = MULLION["long"] * MULLION["strip"] * 1e-6
    return (-at_area(-1.2, -1.4, area) + 0.2) * peak() * MULLION["strip"] / 1000.0


def test_a_mullion_by_hand() -> None:
    """70 x 95 over 2265: M = 1.5 w l^2 / 8, V = 1.5 w l / 2, sag of w with shear; l_ef is short enough for k_crit 1."""
    w, long = on_mullion(), MULLION["long"] / 1000.0
    assert w == pytest.approx(1.5444 * 0.837 * peak(), rel=1e-4)
    moment, force = 1.5 * w * long**2 / 8.0, 1.5 * w * long / 2.0
    bending, shear = of_rule("mullion-bending"), of_rule("mullion-shear")
    assert bending.demand == pytest.approx(6e6 * moment / (70.0 * 95.0**2), rel=1e-6)
    assert bending.capacity == pytest.approx(SHORT * 24.0 * (150.0 / 95.0) ** 0.2, rel=1e-6)
    assert shear.demand == pytest.approx(1500.0 * force / (0.67 * 70.0 * 95.0), rel=1e-6)
    assert shear.capacity == pytest.approx(SHORT * 4.0, rel=1e-6)
    second = 70.0 * 95.0**3 / 12.0
    sag = 5.0 * w * 2265.0**4 / (384.0 * 11000.0 * second) + 1.2 * w * 2265.0**2 / (8.0 * 690.0 * 70.0 * 95.0)
    for rule, limit in (("mullion-sag", 300.0), ("mullion-sag-final", 250.0)):
        assert of_rule(rule).demand == pytest.approx(sag, rel=1e-6)
        assert of_rule(rule).capacity == pytest.approx(2265.0 / limit, rel=1e-9)
    ends = of_rule("mullion-ends")
    assert ends.demand == pytest.approx(force, rel=1e-6)
    assert ends.capacity == 3.0


def test_a_thin_mullion_gives_way_sideways() -> None:
    """47 x 170: lambda = sqrt(24 x 170 x (0.9 l + 340) / (0.78 x 47^2 x 7400)) = 0.871, k_crit = 1.56 - 0.75 lambda."""
    openings = [
        {"side": "left", "width_mm": 767, "left_mm": 2471, "right_mm": 2265},
        {"side": "left", "width_mm": 767, "left_mm": 2252, "right_mm": 2047},
    ]
    check = of_rule("mullion-bending", frame__mullion_mm=[47.0, 170.0], side_sheets=openings)
    slender = math.sqrt(24.0 * 170.0 * (0.9 * 2265.0 + 340.0) / (0.78 * 47.0**2 * 7400.0))
    assert 0.75 < slender < 1.4
    assert check.capacity == pytest.approx((1.56 - 0.75 * slender) * SHORT * 24.0, rel=1e-6)


def test_a_sill_by_hand() -> None:
    """95 x 47, fixed every 400: w of half of 2471 in zone A, the mullion's foot in the middle of a field.

    One fixing's stretch is 0.4 x 1.2355 = 0.49 m2, less than 1: -1.4.
    """
    w = 1.5 * (1.4 + 0.2) * peak() * 2.471 / 2.0
    foot = 1.5 * on_mullion() * 2.265 / 2.0
    moment, shear = w * 0.4**2 / 8.0 + foot * 0.4 / 4.0, w * 0.4 / 2.0 + foot
    assert of_rule("sill-bending").demand == pytest.approx(6e6 * moment / (47.0 * 95.0**2), rel=1e-6)
    assert of_rule("sill-shear").demand == pytest.approx(1500.0 * shear / (0.67 * 95.0 * 47.0), rel=1e-6)
    assert of_rule("sill-fixings").demand == pytest.approx(w * 0.4 + foot, rel=1e-6)


def test_a_transom_by_hand() -> None:
    """70 x 95 over 767, sheets of 1000 below and 1401 above: wind level, the sheet's weight down, eq. 6.11 and 6.12."""
    openings = [
        {"side": "left", "width_mm": 767, "left_mm": 1000, "right_mm": 1000},
        {"side": "left", "width_mm": 767, "left_mm": 1401, "right_mm": 1195, "over": True},
        {"side": "left", "width_mm": 767, "left_mm": 2246, "right_mm": 2041},
    ]
    strip = (1.0 + 1.401) / 2.0 + 0.07
    area = strip * 0.767
    level = 1.5 * (-at_area(-1.2, -1.4, area) + 0.2) * peak() * strip
    down = 1.35 * (4.2 * 9.81e-3 * 1.401 + 0.07 * 0.095 * 420.0 * 9.81e-3)
    s_y = 6e6 * level * 0.767**2 / 8.0 / (70.0 * 95.0**2) / (SHORT * 24.0 * (150.0 / 95.0) ** 0.2)
    s_z = 6e6 * down * 0.767**2 / 8.0 / (95.0 * 70.0**2) / (SHORT * 24.0 * (150.0 / 70.0) ** 0.2)
    check = of_rule("transom-bending", side_sheets=openings)
    assert check.demand == pytest.approx(max(s_y + 0.7 * s_z, 0.7 * s_y + s_z), rel=1e-6)
    ends = of_rule("transom-ends", side_sheets=openings)
    assert ends.demand == pytest.approx(math.hypot(level, down) * 0.767 / 2.0, rel=1e-6)


def test_an_end_rafter_pushed_sideways_by_hand() -> None:
    """70 x 120: w = 1.5 x 1.529 q_p x half the height at the head; M = w cos(15) L^2 / 8; k_mod 0.9, service class 2.

    eta_y is the most that bending, or bending in uplift, uses of the same rafter.
    """
    result, _ = found()
    area = HEAD / 2.0 * DEEP * 1e-6
    w = 1.5 * (-at_area(-1.2, -1.4, area) + 0.2) * peak() * HEAD / 2000.0
    first = [c for c in result.checks if c.place.rafter == 1 and c.id in ("rafter-bending", "rafter-uplift")]
    upright = max(c.utilisation or 0.0 for c in first)
    span = 1.6994
    strength = 0.9 / 1.3 * 24.0 * (150.0 / 70.0) ** 0.2
    sideways = 6e6 * w * math.cos(math.radians(15.0)) * span**2 / 8.0 / (120.0 * 70.0**2) / strength
    check = of_rule("rafter-sideways")
    assert check.demand == pytest.approx(max(upright + 0.7 * sideways, 0.7 * upright + sideways), rel=1e-4)
    # A line of noggins half way: five rafters share 1.25 w L^2 / 8, and w s^2 / 8 between the lines stays its own.
    shared = of_rule("rafter-sideways", frame__noggins_at_mm=[880.0])
    numbers = next(s.numbers for s in shared.working if s.says.startswith("Moment sideways"))
    assert "1.25 x 1.6994^2 / 5" in numbers
    assert (shared.demand or 0.0) < 0.7 * (check.demand or 0.0)


def test_two_wall_fixings_share_what_draws_the_front_out() -> None:
    """Two fixings, each with half: 0.9 or 1.5 x 1.5004 q_p x 2.2 / 2 a metre, and half of what pulls level besides.

    What presses the plate to the wall is not counted against it.
    """
    fixings = [400.0, WIDE - 400.0]
    check = of_rule("wall-fixings", frame__wall_fixings_at_mm=fixings, frame__wall_fixing_spacing_mm=None)
    forces, _, _ = row_of(NAME)
    area = WIDE * 2.2e-3 / 2.0
    drawn = (-at_area(-1.2, -1.4, area) + 0.2) * peak() * 2.2 / 2.0
    says = "Upper half of the closed front, drawn out through the rafters: in what pulls"
    line = next(float(s.result) for s in check.working if s.says == says)
    assert any(line == pytest.approx(factor * drawn, rel=1e-4) for factor in (0.9, 1.5))
    level = next(s.numbers for s in check.working if s.says == "Pull with prying").split(" + ")[0]
    factor = line / drawn
    roof = {
        round(sum(f * max(sum(forces.loads.all[load].pull_n), 0.0) for load, f in case.acting) / 2000.0, 3)
        for case in forces.loads.cases
        if case.combination.wind == pytest.approx(factor, rel=1e-3)
    }
    assert any(float(level) == pytest.approx(line * WIDE / 2000.0 + pull, abs=2e-3) for pull in roof)


def test_a_held_foot_in_a_closed_end_by_hand() -> None:
    """H h / 2 by the push, and 1.5 w l^2 / 8 of the end at its foot: held there and borne at the beam."""
    changes = {"frame__bracing": "fixed feet", "frame__post_foot_knm": 5.0}
    _, push, _ = row_of(NAME, **changes)
    area = END * TALL * 1e-6
    w = (outside("D", WIDE, area) + 0.3) * peak() * END / 1000.0
    by_hand = push.push_kn * push.height_mm / 2000.0 + 1.5 * w * (TALL / 1000.0) ** 2 / 8.0
    assert of_rule("post-walls-foot", **changes).demand == pytest.approx(by_hand, rel=1e-5)
