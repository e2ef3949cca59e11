"""A free-standing roof braced across by knee braces: its pairs of posts by the force method, none of it from src/.

One level force at a foot is not known by equilibrium; it is the one that makes the work of bending and pulling least.
Members are integrated by Gauss points between breaks, exact for what acts here. Swaying away: posts in nine pieces.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from pentice.checks.knee_values import KneeLine
from pentice.checks.knees_across import KneesAcross
from pentice.checks.point_load import cases_of
from pentice.checks.rafter_loads import combinations_on, rafter_lines
from pentice.checks.rafter_model import rafter_models
from pentice.checks.values import Check
from tests.designs import assessed, changed
from tests.worked.test_free_standing import NAME, PITCH, rows_of

KNEES: dict[str, Any] = {
    "frame__bracing_across": "knee braces",
    "frame__post_foot_knm": None,
    "frame__bay_count": 8,
    "frame__posts_at_mm": [72.5, 2490.0, 4907.5],
    "frame__beam_mm": [95.0, 195.0],
    "frame__knee_hole_mm": 1.0,
    "frame__sway_limit": None,
}
"""Rafters of 70 at every eighth of 4910 from 35 to 4945: over the posts of 145."""
STRONG: dict[str, Any] = {
    **KNEES,
    "site__vb0_m_s": 18.0,
    "frame__rafter_mm": [95.0, 220.0],
    "frame__post_mm": [195.0, 195.0],
    "frame__posts_at_mm": [97.5, 2490.0, 4882.5],
    "frame__knee_across_mm": [900.0, 900.0],
    "frame__brace_across_kn": 40.0,
    "frame__brace_across_n_mm": 4000.0,
    "frame__knee_tie_kn": 30.0,
    "frame__knee_head_kn": 60.0,
    "frame__knee_head_knm": 20.0,
    "frame__knee_hole_mm": 0.0,
    "frame__sway_limit": 100.0,
    "frame__post_tie_kn": 30.0,
    "frame__post_base_kn": 20.0,
    "frame__noggins_at_mm": [900.0, 1700.0],
    "frame__pad_mm": [1300.0, 1300.0, 1000.0],
}
E_MEAN = 11000.0
SERVICE = 420.0**1.5 * 12.0 / 23.0
"""Both ends of a brace, two bolts of 12 in C24 at each: half of twice K_ser, EN 1995-1-1, Table 7.1, from memory."""
GIVES = 2.0 / 3.0 * SERVICE


def knees_of(**changes: Any) -> tuple[Any, KneesAcross]:
    """The inputs of every check, and the braced pairs."""
    ground, _, push = rows_of(**{**KNEES, **changes})
    assert push.knees is not None, push.refused
    return ground, push.knees


def checks_of(**changes: Any) -> dict[tuple[str, int | None], Check]:
    """Checks of the roof by rule and post."""
    found = assessed(changed(NAME, **{**KNEES, **changes})).checks
    return {(c.id, c.place.post): c for c in found}


# The second route


@dataclass(frozen=True, kw_only=True)
class Pair:
    """A pair of posts by hand: x from the head post, z from its crossing with the rafter; head first [mm, N/mm, N]."""

    depth: float
    tan: float
    high: tuple[float, float]
    above: tuple[float, float]
    down: float
    reach: float
    post: tuple[float, float]
    rafter: tuple[float, float]
    give: tuple[float, float]
    below: bool
    line: tuple[tuple[float, float], ...] = ()
    tip: float = 0.0
    long: float = 0.0

    @property
    def rise(self) -> tuple[float, float]:
        """Of each brace."""
        return self.down - self.reach * self.tan, self.down + self.reach * self.tan

    @property
    def brace(self) -> tuple[float, float]:
        """Length of each brace."""
        return math.hypot(self.reach, self.rise[0]), math.hypot(self.reach, self.rise[1])

    @property
    def hinge(self) -> tuple[float, float]:
        """Of each post below the crossing."""
        return self.above if self.below else (0.0, 0.0)


def load_on(pair: Pair, until: float) -> tuple[float, float]:
    """What lies on the rafter up to a place along it, and its moment about that place, both of loads straight down."""
    whole = turned = 0.0
    cos = 1.0 / math.hypot(1.0, pair.tan)
    for (a, qa), (b, qb) in pairwise(pair.line):
        end = min(b, until)
        if end <= a:
            continue
        q_end = qa + (qb - qa) * (end - a) / (b - a)
        for at, q in ((a + (end - a) / 3.0, qa), (a + (end - a) * 2.0 / 3.0, q_end)):
            force = q * (end - a) / 2.0
            whole += force
            turned += force * (until - at) * cos
    return whole, turned


def state(pair: Pair, level: float, push: tuple[float, float]) -> Any:
    """Everything by equilibrium, from the level force of the eaves post's foot on the post and pushes to the eaves."""
    cos = 1.0 / math.hypot(1.0, pair.tan)
    whole, turned = load_on(pair, pair.long)
    drop = pair.depth * pair.tan
    foot = (-pair.high[0], -drop - pair.high[1])
    x_head = -level - sum(push)
    # About the head post's foot, down and to the eaves turning alike.
    arm = pair.long * cos
    about = (whole + pair.tip) * arm - turned + push[0] * -foot[0] + push[1] * (-drop - foot[0])
    about += level * (foot[1] - foot[0])
    up_eaves = about / pair.depth
    up_head = whole + pair.tip - up_eaves
    brace = []
    for s, (x, sign) in enumerate(((x_head, 1.0), (level, -1.0))):
        h, c = pair.high[s] - pair.hinge[s], pair.down - pair.hinge[s]
        brace.append(-x * h / c * pair.brace[s] / pair.reach / sign)
    return (x_head, level), (up_head, up_eaves), tuple(brace)


def inner(pair: Pair, level: float, push: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """Weight of each Gauss point over the stiffness there, with the moment or the force along: bent, then pulled."""
    xs, ups, brace = state(pair, level, push)
    points, weights = np.polynomial.legendre.leggauss(6)
    ea, ei = pair.post
    for s in (0, 1):
        h, c, above = pair.high[s], pair.down, pair.above[s]
        level_brace = brace[s] * pair.reach / pair.brace[s] * (1.0, -1.0)[s]
        up_brace = brace[s] * pair.rise[s] / pair.brace[s]
        pieces = ((0.0, h - c, 1.0), (h - c, h - above, 1.0), (h - above, h, 100.0))
        for a, b, stiff in pieces:
            for t, w in zip(points, weights, strict=True):
                z = (a + b) / 2.0 + t * (b - a) / 2.0
                over = max(z - (h - c), 0.0)
                moment = xs[s] * z + level_brace * over
                along = -ups[s] - (up_brace if over else 0.0)
                yield w * (b - a) / 2.0 / (stiff * ei), moment
                yield w * (b - a) / 2.0 / (stiff * ea), along
        yield pair.brace[s] / (pair.give[s] * pair.brace[s]), brace[s]
    yield from on_rafter(pair, level, push, points, weights)


def at_place(pair: Pair, at: float, level: float, push: tuple[float, float]) -> tuple[float, float, float]:
    """Moment, force along and force across the rafter at a place along it, of all to its left, the head post's part."""
    cos = 1.0 / math.hypot(1.0, pair.tan)
    sin = pair.tan * cos
    (x_head, x_eaves), (up_head, up_eaves), brace = state(pair, level, push)
    forces = []  # level to the eaves, up, at x, at z
    for s, (x, up, sign) in enumerate(((x_head, up_head, 1.0), (x_eaves, up_eaves, -1.0))):
        place = s * pair.depth
        pull = brace[s] / pair.brace[s]
        z = -place * pair.tan
        forces.append((x + sign * pull * pair.reach, up + pull * pair.rise[s], place, z - pair.hinge[s]))
        forces.append((push[s], 0.0, place, z))
        inside = place + sign * pair.reach
        forces.append((-sign * pull * pair.reach, -pull * pair.rise[s], inside, -inside * pair.tan))
    x, z = at * cos, -at * sin
    right = up = moment = 0.0
    for f_x, f_z, p_x, p_z in forces:
        if p_x < x - 1e-9:
            right, up = right + f_x, up + f_z
            moment += f_z * (x - p_x) - f_x * (z - p_z)
    whole, turned = load_on(pair, at)
    up, moment = up - whole, moment - turned
    return moment, -(right * cos - up * sin), up * cos + right * sin


def on_rafter(
    pair: Pair, level: float, push: tuple[float, float], points: Any, weights: Any
) -> Iterator[tuple[float, float]]:
    cos = 1.0 / math.hypot(1.0, pair.tan)
    marks = {0.0, pair.reach / cos, (pair.depth - pair.reach) / cos, pair.depth / cos, pair.long}
    marks |= {x for x, _ in pair.line if 0.0 < x < pair.long}
    ordered = sorted(marks)
    ea, ei = pair.rafter
    for a, b in pairwise(ordered):
        for t, w in zip(points, weights, strict=True):
            moment, along, _ = at_place(pair, (a + b) / 2.0 + t * (b - a) / 2.0, level, push)
            yield w * (b - a) / 2.0 / ei, moment
            yield w * (b - a) / 2.0 / ea, along


def level_by_least_work(pair: Pair, push: tuple[float, float]) -> float:
    """The level force at the foot of the eaves post: sum of m0 m1 / stiffness over that of m1 squared."""
    rest = list(inner(pair, 0.0, push))
    # The same points: the breaks of the load stay.
    still = replace(pair, line=tuple((x, 0.0) for x, _ in pair.line), tip=0.0)
    unit = list(inner(still, 1.0, (0.0, 0.0)))
    above = sum(w * m0 * m1 for (w, m0), (_, m1) in zip(rest, unit, strict=True))
    return -above / sum(w * m1 * m1 for w, m1 in unit)


def pair_of(ground: Any, line: KneeLine, way: int, give: float, case: Any = None) -> Pair:
    """The pair from the job's own sizes."""
    cos, tan = math.cos(PITCH), math.tan(PITCH)
    b, h = ground.job.frame.rafter_mm
    beam, post = ground.job.frame.beam_mm, ground.job.frame.post_mm
    over = ground.job.frame.head_beam_mm or beam
    depth = 2600.0 - (beam[0] + over[0]) / 2.0
    crossing = 2860.0 - over[0] / 2.0 * tan - h / 2.0 / cos
    lengths = (2860.0 - h / cos - over[0] * tan - over[1], 2480.0 - h / cos - beam[1])
    high = (crossing, crossing - depth * tan)
    down, reach = ground.job.frame.knee_across_mm
    soft = (give if way % 4 & 1 else 1e6, give if way % 4 & 2 else 1e6)
    loads = () if case is None else tuple((x, q / cos) for x, q in case.line)
    return Pair(
        depth=depth,
        tan=tan,
        high=high,
        above=(high[0] - lengths[0], high[1] - lengths[1]),
        down=down,
        reach=reach,
        post=(E_MEAN * post[0] * post[1], E_MEAN * post[0] * post[1] ** 3 / 12.0),
        rafter=(E_MEAN * b * h, E_MEAN * b * h**3 / 12.0),
        give=soft,
        below=way >= 4,
        line=loads,
        tip=0.0 if case is None else case.acting.hanging_n / cos,
        long=line.rafter.length_mm,
    )


SIZES: tuple[dict[str, Any], ...] = (
    {},
    STRONG,
    {
        "frame__knee_across_mm": [750.0, 600.0],
        "frame__post_mm": [145.0, 195.0],
        "roof__overhang_on_slope_mm": 300.0,
    },
    {
        "frame__head_beam_mm": [120.0, 240.0],
        "frame__knee_across_mm": [900.0, 800.0],
        "roof__overhang_on_slope_mm": 0.0,
    },
    {"site__altitude_m": 900.0, "site__ground_snow_kn_m2": 2.0, "frame__rafter_mm": [70.0, 195.0]},
)


@pytest.mark.parametrize("changes", SIZES)
def test_forces_of_every_pair_by_least_work(changes: dict[str, Any]) -> None:
    """All eight ways, loads of every kind: level at the feet, braces, rafter on beams, rafter's greatest moment.

    Tolerance 1e-5 of the greatest in the frame: a brace that does not give gives a little in both.
    """
    ground, knees = knees_of(**changes)
    give = changes.get("frame__brace_across_n_mm", GIVES)
    line = knees.lines[1]
    model = line.rafter
    acting = [
        c for c in cases_of([combinations_on(ground, model, rafter_lines(ground, model))], [], 0)[0][0]
        if c.combination.kind != "characteristic"
    ]  # fmt: skip
    by_words = {(c.combination.name, c.words): c for c in acting}
    chance = np.random.default_rng(7)
    # Both sides of every node, where forces step, and between them.
    places = [
        a + t * (b - a) for a, b in pairwise(line.along_mm) for t in (1e-7, 0.2, 0.4, 0.6, 0.8, 1.0 - 1e-7)
    ]
    for way in range(8):
        for i in chance.choice(len(line.loads), 4, replace=False):
            load = line.loads[int(i)]
            pair = pair_of(ground, line, way, give, by_words[load.combination.name, load.words])
            size = load.push_n if load.towards == "eaves" else -load.push_n
            push = (size, 0.0) if load.at == "head" else (0.0, size)
            level = level_by_least_work(pair, push)
            xs, ups, braces = state(pair, level, push)
            k = line.factor
            most = max(abs(x) for x in xs)
            assert line.level_n[way, i] / k == pytest.approx([level, xs[0]], abs=1e-5 * most)
            pulls = max(abs(b) for b in braces)
            assert line.brace_n[way, i] / k == pytest.approx(braces[::-1], abs=1e-5 * pulls)
            seats = [ups[s] + braces[s] * pair.rise[s] / pair.brace[s] for s in (1, 0)]
            assert line.seat_n[way, i] / k == pytest.approx(seats, abs=1e-5 * max(map(abs, seats)))
            simple = state(pair, 0.0, (0.0, 0.0))[1]
            more = [ups[1] - simple[1], ups[0] - simple[0]]
            assert line.more_n[way, i] / k == pytest.approx(more, abs=1e-5 * max(map(abs, (*ups, *more))))
            moments, shears = [], []
            for at in places:
                moment, _, shear = at_place(pair, float(at), level, push)
                moments.append(abs(moment))
                shears.append(abs(shear))
            assert line.moment_n_mm[way, i].max() / k == pytest.approx(max(moments), rel=0.01)
            assert line.shear_n[way, i].max() / k == pytest.approx(max(shears), rel=0.01)


def lean_by_hand(pair: Pair) -> float:
    """The most that one end moves for 1 N at either: work of the one with the other."""
    bare = [list(inner(pair, level_by_least_work(pair, push), push)) for push in ((1.0, 0.0), (0.0, 1.0))]
    return max(
        sum(w * a * b for (w, a), (_, b) in zip(bare[i], bare[j], strict=True))
        for i, j in ((0, 0), (0, 1), (1, 1))
    )


def sways_at(pair: Pair, loads: tuple[float, float]) -> float:
    """Times the loads on the posts under which the pair sways away: beams by finite pieces, pressed stiffness too."""
    from scipy.linalg import eigh

    cos, tan = 1.0 / math.hypot(1.0, pair.tan), pair.tan
    nodes: list[tuple[float, float]] = []
    pieces: list[tuple[int, int, float, float, float, bool, bool]] = []
    marks = [0.0, pair.reach, pair.depth - pair.reach, pair.depth]
    nodes = [(x, -x * tan) for x in marks]
    for i in range(3):
        pieces.append((i, i + 1, *pair.rafter, 0.0, False, False))
    feet = []
    for s, top in ((0, 0), (1, 3)):
        x, z = nodes[top]
        h, c, above = pair.high[s], pair.down, pair.above[s]
        levels = [*np.linspace(0.0, h - c, 7), *np.linspace(h - c, h - above, 4)[1:]]
        here = [len(nodes) + i for i in range(len(levels))]
        nodes += [(x, z - h + float(up)) for up in levels]
        feet.append(here[0])
        for n, (a, b) in enumerate(pairwise(here)):
            pieces.append((a, b, *pair.post, loads[s], False, pair.below and n == len(here) - 2))
        stiff = (100.0 * pair.post[0], 100.0 * pair.post[1])
        pieces.append((here[-1], top, *stiff, loads[s], False, not pair.below))
        brace = (pair.give[s] * pair.brace[s], pair.post[1])
        pieces.append((here[6], (1, 2)[s], *brace, 0.0, True, True))
    count = 2 * len(nodes)
    turns: dict[int, int] = {}
    places = []
    for a, b, *_, hinge_a, hinge_b in pieces:
        own = []
        for node, hinged in ((a, hinge_a), (b, hinge_b)):
            if hinged:
                own.append(count)
                count += 1
            else:
                if node not in turns:
                    turns[node] = count
                    count += 1
                own.append(turns[node])
        places.append([2 * a, 2 * a + 1, own[0], 2 * b, 2 * b + 1, own[1]])
    stiffness, pressed = np.zeros((count, count)), np.zeros((count, count))
    for (a, b, ea, ei, load, *_), at in zip(pieces, places, strict=True):
        dx, dz = nodes[b][0] - nodes[a][0], nodes[b][1] - nodes[a][1]
        long = math.hypot(dx, dz)
        c_, s_ = dx / long, dz / long
        turn = np.eye(6)
        for k in (0, 3):
            turn[k : k + 2, k : k + 2] = [[c_, s_], [-s_, c_]]
        k_e, k_g = np.zeros((6, 6)), np.zeros((6, 6))
        k_e[np.ix_((0, 3), (0, 3))] = ea / long * np.array([[1, -1], [-1, 1]])
        bend = (1, 2, 4, 5)
        k_e[np.ix_(bend, bend)] = ei / long**3 * np.array(
            [[12, 6 * long, -12, 6 * long], [6 * long, 4 * long**2, -6 * long, 2 * long**2],
             [-12, -6 * long, 12, -6 * long], [6 * long, 2 * long**2, -6 * long, 4 * long**2]]
        )  # fmt: skip
        k_g[np.ix_(bend, bend)] = load / (30.0 * long) * np.array(
            [[36, 3 * long, -36, 3 * long], [3 * long, 4 * long**2, -3 * long, -(long**2)],
             [-36, -3 * long, 36, -3 * long], [3 * long, -(long**2), -3 * long, 4 * long**2]]
        )  # fmt: skip
        stiffness[np.ix_(at, at)] += turn.T @ k_e @ turn
        pressed[np.ix_(at, at)] += turn.T @ k_g @ turn
    bound = {2 * n + i for n in feet for i in (0, 1)}
    free = [i for i in range(count) if i not in bound]
    assert cos > 0.0
    share = eigh(pressed[np.ix_(free, free)], stiffness[np.ix_(free, free)], eigvals_only=True)
    return float(1.0 / share[-1])


@pytest.mark.parametrize("changes", SIZES[1:4:2])
def test_what_leaning_adds(changes: dict[str, Any]) -> None:
    """The softest way leans by unit loads, 1e-5; sways away as posts of nine pieces do, 1e-3; 1 / (1 - 1 / alpha)."""
    ground, knees = knees_of(**changes)
    give = changes.get("frame__brace_across_n_mm", GIVES)
    for line in knees.lines:
        served = [
            pair_of(ground, line, way, changes.get("frame__brace_across_n_mm", SERVICE)) for way in (3, 7)
        ]
        assert line.sway_mm_n == pytest.approx(max(map(lean_by_hand, served)), rel=1e-5)
        ways = [pair_of(ground, line, way, give) for way in (3, 7)]
        pressed = line.pressed_n[::-1]
        sways = min(sways_at(pair, (pressed[0], pressed[1])) for pair in ways)
        assert line.sways_at == pytest.approx(sways, rel=1e-3)
        alpha = sways / 1.3
        assert line.factor == pytest.approx(alpha / (alpha - 1.0), rel=1e-3)
        assert line.factor > 1.0


def test_how_far_a_pair_sways_across_in_wind() -> None:
    """s W e + the play of two holes of 1 mm in each brace: as far as 1 N at either end asks of both. All 1 / (1 - 1/a).

    Wind by its printed parts; the limit the lower post's height over 150.
    """
    ground, knees = knees_of()
    check = next(c for (rule, _), c in checks_of().items() if rule == "sway-across")
    line = next(one for one in knees.lines if one.sides[0].post.number == check.place.post)
    ways = [pair_of(ground, line, way, SERVICE) for way in (3, 7)]
    pulls = max(
        sum(map(abs, state(pair, level_by_least_work(pair, push), push)[2]))
        for pair in ways
        for push in ((1.0, 0.0), (0.0, 1.0))
    )
    wind = sum(float(part) for part in check.working[0].numbers.split(" + "))
    sway = line.factor * (line.share * wind * 1000.0 * max(map(lean_by_hand, ways)) + 2.0 * pulls)
    assert check.demand == pytest.approx(sway, rel=1e-3)
    low = 2480.0 - (ground.job.frame.rafter_mm[1] / 2.0) / math.cos(PITCH) + 95.0 / 2.0 * math.tan(PITCH)
    assert check.capacity == pytest.approx(low / 150.0, rel=1e-3)
    tight = next(c for (rule, _), c in checks_of(frame__knee_hole_mm=0.0).items() if rule == "sway-across")
    assert (check.demand or 0.0) - (tight.demand or 0.0) == pytest.approx(2.0 * line.factor * pulls, rel=1e-3)


def test_what_presses_the_posts() -> None:
    """Middle pair: 1.35 G and 1.5 S or W with the rest, from the beams; own weight of the post, 420 kg/m3."""
    ground, rows, push = rows_of(**KNEES)
    assert push.knees is not None
    for s, row in ((0, rows[0]), (1, rows[1])):
        length = row.beam.posts[1].length_mm or 0.0
        own = 1.35 * 0.145**2 * length / 1000.0 * 420.0 * 9.81
        most = max(
            float(row.reactions_n[i, 1]) for i, c in enumerate(row.cases) if c.combination.kind == "strength"
        )
        assert push.knees.lines[1].pressed_n[s] == pytest.approx(most + own, rel=1e-3)
    assert ground.job.frame.bracing_across == "knee braces"


def test_each_share_of_the_push_by_hand() -> None:
    """Three pairs, two fields of 2417.5: a quarter more in the middle by the beam's own moments.

    Over stiff posts, by the three moments: M2 = -q (a3 + b3) / 8 (a + b), the ends' moments those past the posts.
    """
    _, knees = knees_of()
    a, b, past, width = 2417.5, 2417.5, 72.5, 4980.0
    q = 1.0 / width
    end = -q * past**2 / 2.0
    middle = -(q * (a**3 + b**3) / 4.0 + end * (a + b)) / (2.0 * (a + b))
    share = q * (a + b) / 2.0 + (end - middle) / a + (end - middle) / b
    assert knees.lines[1].shares[1] == pytest.approx(share, rel=1e-9)
    assert knees.lines[1].shares[2] == pytest.approx((a + b) / 2.0 / width)
    places = [72.5, 2490.0, 4907.5]
    mean = sum(places) / 3.0
    for x, line in zip(places, knees.lines, strict=True):
        even = 1.0 / 3.0 + abs(2490.0 - mean) * abs(x - mean) / sum((p - mean) ** 2 for p in places)
        assert line.shares[0] == pytest.approx(even, rel=1e-9)
        assert line.share == max(line.shares)
    assert sum(line.share for line in knees.lines) > 1.0


# Checks


def test_the_post_by_the_printed_forces_and_the_clauses() -> None:
    """Eq. 6.23 and 6.24 with the same forces never use more than the sum that is taken; the strengths by hand.

    C24 in the weather, short: 0.7 / 1.3 of 24, 21 and 14.5; k_c of 6.25 for the length of the post across and twice
    that along.
    """
    check = checks_of()["post-across", 5]
    lines = {s.says: s for s in check.working}
    push = float(lines["On the post"].result) * 1000.0
    moment = float(lines["Bends the post where the brace meets it"].result) * 1e6
    length = 2860.0 - 145.0 / math.cos(PITCH) - 95.0 * math.tan(PITCH) - 195.0

    def k_c(long: float) -> float:
        slender = long * math.sqrt(12.0) / 145.0 / math.pi * math.sqrt(21.0 / 7400.0)
        k = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
        return 1.0 / (k + math.sqrt(k**2 - slender**2))

    f = 0.7 / 1.3
    k_h = (150.0 / 145.0) ** 0.2
    pressed = push / 145.0**2 / (f * 21.0)
    # Two holes of 13 mm, 36 mm from the edges of 145.
    net = 145.0 * (145.0**3 - 2.0 * 13.0**3 - 24.0 * 13.0 * (72.5 - 36.0) ** 2) / 12.0 / 72.5
    bent = moment / net / (f * 24.0 * k_h)
    assert "Stress from the brace beside the post's middle" not in lines
    assert check.demand == pytest.approx(pressed / k_c(2.0 * length) + bent, rel=1e-6)
    assert check.demand >= pressed / k_c(length) + bent
    assert check.demand >= pressed / k_c(2.0 * length) + 0.7 * bent


def test_a_rafter_out_of_the_middle_twists_and_bends_its_post() -> None:
    """The middle posts 20 mm aside: F v / L 20 bends along, F b / L 20 twists; 0.208 of a square by its series.

    The greatest stress of a square under torsion: 1 - 8 / pi^2 sum of 1 / (n^2 cosh), over its stiffness.
    """
    odd = np.arange(1, 60, 2)
    stress = 1.0 - 8.0 / math.pi**2 * sum(1.0 / (n**2 * math.cosh(n * math.pi / 2.0)) for n in odd)
    stiff = (1.0 - 192.0 / math.pi**5 * sum(math.tanh(n * math.pi / 2.0) / n**5 for n in odd)) / 3.0
    assert stiff / stress == pytest.approx(0.208, abs=5e-4)
    there = checks_of()
    aside = checks_of(frame__posts_at_mm=[72.5, 2510.0, 4907.5])
    check = next(c for (rule, _), c in aside.items() if rule == "post-across-shear")
    before = next(c for (rule, _), c in there.items() if rule == "post-across-shear")
    assert (check.demand or 0.0) > (before.demand or 0.0)
    lines = {s.says: s for s in check.working}
    force = next(float(s.result) for s in check.working if s.says.startswith("In its brace"))
    twist = float(lines["Stress from twisting, the rafter being beside the post's middle"].result)
    side = next(s for line in knees_of(frame__posts_at_mm=[72.5, 2510.0, 4907.5])[1].lines for s in line.sides
                if s.post.number == check.place.post)  # fmt: skip
    level = (
        force
        * 1000.0
        * 800.0
        / math.hypot(800.0, 800.0 + 800.0 * math.tan(PITCH) * (-1 if side.row == "head" else 1))
    )
    assert twist == pytest.approx(level * abs(side.aside_mm) / (0.208 * 145.0**3), rel=1e-6)


def test_pads_and_ties_take_what_the_braces_bring() -> None:
    """Level at the foot: the frame's greatest and wind on the lower half of the post; ties: what the end lifts."""
    ground, knees = knees_of()
    line = knees.lines[1]
    peak = ground.loads.wind.peak_pressure_kn_m2
    checks = checks_of()
    for s, number in ((0, 2), (1, 5)):
        full = np.array([load.full for load in line.loads])
        length = line.sides[s].post.length_mm or 0.0
        most = float(np.abs(line.level_n[:, full, s]).max()) / 1000.0
        most += 1.5 * 2.4 * peak * 0.145 * length / 2000.0
        slides = checks["pad-sliding", number]
        assert slides.demand == pytest.approx(most, rel=1e-6)
        uplift = np.array([load.combination.kind == "uplift" for load in line.loads])
        rises = line.more_n[:, :, s] + line.brace_n[:, :, s] * line.sides[s].rise_mm / line.sides[s].brace_mm
        lift = max(float(-rises[:, uplift].min()), float(-line.seat_n[:, ~uplift, s].min())) / 1000.0
        step = next(st_ for st_ in checks["post-tie", number].working if st_.says == "What lifts")
        assert "rise of the beam at a knee brace across" in step.formula
        bare = float(step.numbers.split(", 0) + ")[1].split(";")[0])
        assert bare == pytest.approx(lift, abs=1e-4)


def test_the_head_joint_takes_level_force_rolling_and_lift_at_once() -> None:
    """V / 60 + V d / 20 + U / 30 of every pair, way and load, from their plane frames: the greatest is the check's."""
    _, knees = knees_of(**STRONG)
    found = []
    for line in knees.lines:
        for way in range(8):
            for i, load in enumerate(line.loads):
                for s, side in enumerate(line.sides):
                    level = abs(float(line.brace_n[way, i, s])) * side.reach_mm / side.brace_mm
                    level += line.factor * load.push_n - abs(float(line.level_n[way, i, s]))
                    lift = max(-float(line.seat_n[way, i, s]), 0.0)
                    found.append(level / 60e3 + level * side.above_mm / 20e6 + lift / 30e3)
    check = checks_of(**STRONG)["knee-head", _post_of("knee-head", **STRONG)]
    assert check.demand == pytest.approx(max(found), rel=1e-9)


def _post_of(rule: str, **changes: Any) -> int | None:
    (post,) = (post for (id, post) in checks_of(**changes) if id == rule)
    return post


def test_the_whole_push_ends_in_the_feet() -> None:
    """Every load, every way: level forces at both feet together are the push with what leaning adds; the pair turns."""
    _, knees = knees_of(frame__post_feet_mm=[0.0, 150.0, 0.0], frame__post_mm=[145.0, 195.0])
    for line in knees.lines:
        push = np.array([load.push_n if load.towards == "eaves" else -load.push_n for load in line.loads])
        assert line.level_n.sum(axis=-1) == pytest.approx(
            np.broadcast_to(-line.factor * push, (8, len(push))), abs=1e-3
        )
        assert line.more_n.sum(axis=-1) == pytest.approx(np.zeros((8, len(push))), abs=1e-3)


def test_braces_that_give_less_sway_less() -> None:
    """Stiffer braces: what leaning adds falls towards that of braces that do not give, and never below."""
    (_, soft), (ground, knees) = (knees_of(frame__brace_across_n_mm=give) for give in (1000.0, 1e5))
    line = knees.lines[1]
    assert soft.lines[1].factor > line.factor > 1.0
    rigid = max(lean_by_hand(pair_of(ground, line, way, 1e9)) for way in (0, 4))
    assert rigid < line.sway_mm_n < 1.2 * rigid


def test_every_rafter_over_a_post_is_found() -> None:
    """By its place: the first, the middle and the last of nine."""
    ground, knees = knees_of()
    assert [line.rafter.rafter.number for line in knees.lines] == [1, 5, 9]
    assert len(rafter_models(ground)) == 9
