"""Posts in closed walls of steel and aluminium, and feet of a closed free-standing roof held against turning. By hand.

Steel 70 x 70 x 3, cold formed, S235: A = 70^2 - 64^2 = 804 mm2, I = (70^4 - 64^4) / 12, W_pl = (70^3 - 64^3) / 4.
Aluminium 60 x 120 x 4, 6060-T66 over 3 mm, f_o 150, class 3: A = 60 x 120 - 52 x 112 = 1376 mm2, elastic moduli.
EN 1993-1-1, 6.2.3, 6.3.1.2 curve c, 6.3.3 with 1 + 1.4 n; EN 1999-1-1, 6.3.1 class A, 6.3.3 with n^0.8: as the code
cites them, from memory. Only what beam and bracing bring is the engine's.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, NamedTuple

import pytest

from pentice.checks.across import across
from pentice.checks.eaves import EavesForces, eaves_forces
from pentice.checks.passed_on import passed_on
from pentice.checks.racking import racking
from tests.designs import assessed, changed
from tests.worked.test_bracing import row_of
from tests.worked.test_closed_ends import TALL, at_area, moments
from tests.worked.test_frame import ground_of_job
from tests.worked.test_free_standing import PEAK, PITCH
from tests.worked.test_metal_frame import factor
from tests.worked.test_printed_lines import wrong_lines

NAME = "plant-lobby"


class Tube(NamedTuple):
    """What a section carries [N, N mm], its weight [kN/m], and the exponent of the push."""

    push: float
    pull: float
    square: float
    along: float
    weight: float
    exponent: float


def bowed(area: float, second: float, f: float, e: float, long: float) -> float:
    """Relative slenderness, 6.3.1.2 of either code: sqrt(A f l^2 / (pi^2 E I))."""
    return math.sqrt(area * f * long**2 / (math.pi**2 * e * second))


def steel(lengths: float) -> Tube:
    """The square tube, bowing over so many lengths of the post; gamma_M 1, 7850 kg/m3."""
    area, second, plastic = 70.0**2 - 64.0**2, (70.0**4 - 64.0**4) / 12.0, (70.0**3 - 64.0**3) / 4.0
    chi = factor(bowed(area, second, 235.0, 210e3, lengths * TALL), 0.49, 0.2)
    weight = area * 1e-6 * 7850.0 * 9.81e-3
    return Tube(chi * area * 235.0, area * 235.0, plastic * 235.0, plastic * 235.0, weight, 1.0)


def aluminium(lengths: float) -> Tube:
    """The deep tube, 60 along its row: elastic moduli of both ways, gamma_M1 1.1, 2700 kg/m3."""
    area = 60.0 * 120.0 - 52.0 * 112.0
    weak, strong = (120.0 * 60.0**3 - 112.0 * 52.0**3) / 12.0, (60.0 * 120.0**3 - 52.0 * 112.0**3) / 12.0
    chi = factor(bowed(area, weak, 150.0, 70e3, lengths * TALL), 0.20, 0.10)
    f_d = 150.0 / 1.1
    weight = area * 1e-6 * 2700.0 * 9.81e-3
    return Tube(chi * area * f_d, area * f_d, strong / 60.0 * f_d, weak / 30.0 * f_d, weight, 0.8)


STEEL = {"frame__post_section": "tube-steel-70", "frame__post_mm": [70.0, 70.0]}
ALUMINIUM = {"frame__post_section": "tube-alu-60x120", "frame__post_mm": [60.0, 120.0]}


def both(name: str) -> tuple[dict[str, Any], Tube]:
    """The job's change of a metal, braced by a diagonal: its posts stay straight along the row and bow once."""
    braced = {"frame__bracing": "diagonal", "frame__brace_kn": 9.0}
    return ({**STEEL, **braced}, steel(1.0)) if name == "steel" else ({**ALUMINIUM, **braced}, aluminium(1.0))


def acts_of(post: str, factor_: float, racked: float, name: str) -> Iterator[tuple[bool, float, float]]:
    """In winds along the row or not: moments square to it and along it [kNm], the end's strip made the post's own."""
    strips = {"steel": 479.5, "aluminium": 120.0 + 767.0 / 2.0}
    for n, (m_y, m_z) in enumerate(moments(post, factor_, 0.0)):
        along = n < 4
        yield along, m_y, m_z * strips[name] / 479.5 + (racked if along else 0.0)


@pytest.mark.parametrize("name", ["steel", "aluminium"])
@pytest.mark.parametrize(("post", "end"), [(1, "left"), (2, "right")])
def test_a_metal_corner_post_pressed_and_bent_both_ways(name: str, post: int, end: str) -> None:
    """n^x + (1 + 1.4 n) (M_y / M_y,Rd + M_z / M_z,Rd), n = N / (chi A f / gamma): x 1 of steel, 0.8 of aluminium.

    Of aluminium the strip of the end is 120 + 383.5 = 503.5, so zone areas differ by 5 %: Table 7.1 to 0.5 % there.
    """
    changes, tube = both(name)
    forces, _, pairs = row_of(NAME, **changes)
    most = 0.0
    for i, case in enumerate(forces.cases):
        c = case.combination
        if c.kind != "strength" or not c.wind:
            continue
        down = float(forces.reactions_n[i, post - 1]) / 1000.0 + c.dead * tube.weight * TALL / 1000.0
        n = (max(down + pairs[post - 1], 0.0)) * 1000.0 / tube.push
        for _, m_y, m_z in acts_of(end, c.wind, 0.0, name):
            m = m_y * 1e6 / tube.square + m_z * 1e6 / tube.along
            most = max(most, n**tube.exponent + (1.0 + 1.4 * n) * m)
    found = [
        c for c in assessed(changed(NAME, **changes)).checks if c.id == "post-walls" and c.place.post == post
    ]
    (check,) = found
    assert check.demand == pytest.approx(most, rel=1e-4 if name == "steel" else 5e-3)
    assert 0.1 < most < 1.5
    assert check.clause == ("EN 1993-1-1" if name == "steel" else "EN 1999-1-1") + ", 6.3.1, 6.3.3"


def test_a_steel_corner_post_with_knee_braces_bows_over_twice_its_length() -> None:
    """M of the brace, (H / 2) (h - 600), in winds along; the push on the whole section over 2 l."""
    tube = steel(2.0)
    forces, push, pairs = row_of(NAME, **STEEL)
    racked = push.push_kn / 2.0 * (push.height_mm - 600.0) / 1000.0
    most = 0.0
    for i, case in enumerate(forces.cases):
        c = case.combination
        if c.kind != "strength" or not c.wind:
            continue
        down = float(forces.reactions_n[i, 0]) / 1000.0 + c.dead * tube.weight * TALL / 1000.0 + pairs[0]
        n = max(down, 0.0) * 1000.0 / tube.push
        for _, m_y, m_z in acts_of("left", c.wind, racked, "steel"):
            most = max(most, n + (1.0 + 1.4 * n) * (m_y + m_z) * 1e6 / tube.square)
    (check,) = [
        c for c in assessed(changed(NAME, **STEEL)).checks if (c.id, c.place.post) == ("post-walls", 1)
    ]
    assert check.demand == pytest.approx(most, rel=1e-4)


def test_a_steel_corner_post_pulled_and_bent_both_ways() -> None:
    """EN 1993-1-1, 6.2.1(7): N / (A f_y) + (M_y + M_z) / (W_pl f_y); pair and H h / 2 b of the brace in the pull."""
    tube = steel(2.0)
    forces, push, pairs = row_of(NAME, **STEEL)
    racked = push.push_kn / 2.0 * (push.height_mm - 600.0) / 1000.0
    knee = push.push_kn / 2.0 * push.height_mm / 600.0
    dead = next(i for i, c in enumerate(forces.cases) if c.combination.name == "G")
    most = 0.0
    for k, end in enumerate(("left", "right")):
        own, lifts = float(forces.reactions_n[dead, k]) / 1000.0, float(forces.dead_lifts_n[k]) / 1000.0
        for i, case in enumerate(forces.cases):
            if case.combination.name != "0.9 G + 1.5 W up":
                continue
            up = max(0.9 * own - float(forces.reactions_n[i, k]) / 1000.0, 0.0)
            for along, m_y, m_z in acts_of(end, 1.5, racked, "steel"):
                pull = up + pairs[k] + (knee if along else 0.0) - (0.9 * own - 0.2 * lifts)
                if pull > 0.0:
                    most = max(most, pull * 1000.0 / tube.pull + (m_y + m_z) * 1e6 / tube.square)
    (check,) = [c for c in assessed(changed(NAME, **STEEL)).checks if c.id == "post-walls-pulled"]
    assert check.demand == pytest.approx(most, rel=1e-4)
    assert check.clause == "EN 1993-1-1, 6.2, 6.3.2"


def test_the_numbers_of_both_posts_written_out() -> None:
    """Steel: lambda = sqrt(804 x 235 x 1905.77^2 / (pi^2 x 210000 x 602 732)) = 0.74116, phi = 0.90724, chi = 0.69907.

    N_b,Rd = 0.69907 x 804 x 235 = 132 082 N; M_Rd = 20 214 x 235 = 4.75029 kNm. Aluminium: lambda = 1.13140,
    chi = 0.56871, N_b,Rd = 0.56871 x 1376 x 150 / 1.1 = 106 711 N; M_Rd 5.79995 and 3.85299 kNm.
    """
    assert steel(1.0).push == pytest.approx(132_082.0, rel=1e-5)
    assert steel(1.0).square == pytest.approx(4.75029e6, rel=1e-6)
    assert aluminium(1.0).push == pytest.approx(106_711.0, rel=2e-5)
    assert aluminium(1.0).square == pytest.approx(5.79995e6, rel=1e-5)
    assert aluminium(1.0).along == pytest.approx(3.85299e6, rel=1e-5)
    for name, tube in (("steel", steel(1.0)), ("aluminium", aluminium(1.0))):
        (check,) = [
            c
            for c in assessed(changed(NAME, **both(name)[0])).checks
            if (c.id, c.place.post) == ("post-walls", 1)
        ]
        (line,) = [s for s in check.working if s.says == "Push it carries"]
        assert line.result == pytest.approx(tube.push / 1000.0, rel=1e-6)


# Feet held against turning, of the boat rack closed all round: three posts of 145 in either row.

CLOSED: dict[str, Any] = {
    **{f"roof__{side}": "closed" for side in ("left", "right", "front", "back")},
    "frame__bracing": "fixed feet",
    "frame__bracing_across": "fixed feet",
    "frame__post_foot_knm": 9.0,
}
STRIPS = (1300.0, 2380.0, 1300.0)
"""Of front or back: to the middles between 110, 2490 and 4870, and to the ends of 4980."""
END_STRIP = 1300.0
"""Half of 2600: no mullion parts the end."""
LOW = 2480.0 - 145.0 / math.cos(PITCH) - 195.0
"""Of the posts at the eaves: under beam and rafter."""
HIGH = 2860.0 - 145.0 / math.cos(PITCH) - 195.0 - 95.0 * math.tan(PITCH)
"""Of those at the head, whose beam is lowest at its inner face, 95 down the slope."""
ON_PLAN = 2600.0 + 52.0 * math.cos(PITCH)


def outside(zone: str, deep_mm: float, area: float) -> float:
    """Table 7.1 for the head's 2.86 m over a depth, by hand: D 0.8 above 1, E -0.5 and -0.7 between 1 and 5."""
    ratio = max(2860.0 / deep_mm, 0.25)
    if zone == "A":
        return at_area(-1.2, -1.4, area)
    if zone == "D":
        return at_area(0.7 + 0.1 * (min(ratio, 1.0) - 0.25) / 0.75, 1.0, area)
    return -0.3 - 0.2 * (ratio - 0.25) / 0.75 if ratio <= 1.0 else -0.5 - 0.2 * (ratio - 1.0) / 4.0


def on(zone: str, deep_mm: float, strip: float, tall: float) -> float:
    """The worse sign inside, in size [kN/m]."""
    area = strip * tall * 1e-6
    return max(abs(outside(zone, deep_mm, area) - inside) for inside in (0.2, -0.3)) * PEAK * strip / 1000.0


def rows_of() -> tuple[list[EavesForces], float, list[float]]:
    """Both rows, the push across and the push along each row: the engine's, with tests of their own."""
    ground = ground_of_job(changed("boat-rack", **CLOSED))
    assert ground.frame.beam is not None
    assert ground.frame.head_beam is not None
    loads = passed_on(ground)
    rows = [eaves_forces(ground, beam, loads) for beam in (ground.frame.beam, ground.frame.head_beam)]
    return rows, across(ground, rows).push_kn, [racking(ground, row).push_kn for row in rows]


def shares() -> tuple[float, float]:
    """What a post of either row takes of the push across: a sixth, or h^-3 of the sum, whichever is more."""
    low, high = (LOW + 97.5) ** -3, (HIGH + 97.5) ** -3
    return max(1 / 6, low / (3 * low + 3 * high)), max(1 / 6, high / (3 * low + 3 * high))


def test_feet_of_a_closed_free_standing_roof_by_hand() -> None:
    """s H h and 1.5 w l^2 / 8 of front or back, wind onto it; H h / 3 and 1.5 w l^2 / 8 of an end, wind along.

    Front, post 2: w = (0.85867 + 0.3) x 0.48814 x 2.38 = 1.34611 kN/m.
    """
    assert on("D", ON_PLAN, 2380.0, LOW) == pytest.approx(1.34611, abs=1e-4)
    _, push, along = rows_of()
    checks = {
        c.place.post: c for c in assessed(changed("boat-rack", **CLOSED)).checks if c.id == "post-walls-foot"
    }
    assert set(checks) == {2, 5}
    for r, (tall, number) in enumerate(((LOW, 2), (HIGH, 5))):
        high = (tall + 97.5) / 1000.0
        middle = shares()[r] * push * high + 1.5 * on("D", ON_PLAN, 2380.0, tall) * (tall / 1000.0) ** 2 / 8.0
        corner = along[r] * high / 3.0 + 1.5 * on("D", 4980.0, END_STRIP, tall) * (tall / 1000.0) ** 2 / 8.0
        assert corner < middle
        assert checks[number].demand == pytest.approx(middle, rel=1e-5)
    assert wrong_lines(assessed(changed("boat-rack", **CLOSED))) == []


def test_what_slides_the_pads_of_a_closed_free_standing_roof_by_hand() -> None:
    """Held at its foot and borne at its beam a post leaves 5 / 8 of an even load at its foot, 3 / 8 at its head.

    Post 2: s H + 1.5 x 5 w l / 8. A corner: the same square to its row, the end's 1.5 x 5 w l / 8 along it, at once.
    By slopes: w l^3 / 24 of the load at the foot less M l / 3 is 0, so M = w l^2 / 8 and R = w l / 2 + M / l.
    """
    _, push, _ = rows_of()
    found = {
        c.place.post: c for c in assessed(changed("boat-rack", **CLOSED)).checks if c.id == "pad-sliding"
    }
    for r, (tall, numbers) in enumerate(((LOW, (1, 2, 3)), (HIGH, (4, 5, 6)))):
        for number, strip in zip(numbers, STRIPS, strict=True):
            part = 1.5 * tall / 1000.0 * 5.0 / 8.0
            square = shares()[r] * push + part * on("D", ON_PLAN, strip, tall)
            # Wind square to the row leaves the end in A, with the pressure inside that the front's D has: -0.3.
            end = part * abs(outside("A", ON_PLAN, END_STRIP * tall * 1e-6) + 0.3) * PEAK * END_STRIP / 1000.0
            by_hand = square if strip == 2380.0 else math.hypot(square, end)
            assert found[number].demand == pytest.approx(by_hand, rel=1e-4)
