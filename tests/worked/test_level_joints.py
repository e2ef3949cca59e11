"""Joints pushed level, by hand from sizes, wind and the forces that other checks print.

A wind square to the slope lifts with F cos(pitch) in all and pulls level with F sin(pitch): so what pulls is tan(pitch)
times what lifts at both ends of the rafter. Coefficient 2.4 for sharp edges, 1.5 on wind; C24 has 350 kg/m3.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from itertools import pairwise
from math import cos, hypot, pi, radians, sqrt, tan
from typing import Any

import pytest

from pentice.advice.cures import cures
from pentice.checks.eaves import eaves_forces
from pentice.checks.level_heads import at_heads
from pentice.checks.passed_on import passed_on
from pentice.checks.racking import racking
from pentice.checks.values import Check
from pentice.errors import InputError
from pentice.pipeline import Assessed, solve
from tests.designs import assessed, catalogue, changed
from tests.worked.test_fasteners_of_joints import BOLTS, NAILS
from tests.worked.test_frame import ground_of_job
from tests.worked.test_printed_lines import wrong_lines

LEVEL = ("hanger-level", "rafter-tie-level", "rafter-tie-head-level", "post-tie-level", "post-base-level")
KEYS = {
    "hanger-level": "hanger_level_kn",
    "rafter-tie-level": "rafter_tie_level_kn",
    "post-tie-level": "post_tie_level_kn",
    "post-base-level": "post_base_level_kn",
}


def the(of: Assessed, rule: str, post: int | None = None) -> Check:
    """The check of a rule, of one post where it has several."""
    (found,) = (c for c in of.checks if c.id == rule and post in (None, c.place.post))
    return found


def line(check: Check, says: str) -> float:
    """A line of its working."""
    (found,) = (float(step.result) for step in check.working if step.says == says)
    return found


def peak(of: Assessed) -> float:
    """Peak pressure [kN/m2]."""
    assert of.loads.wind.peak_pressure_kn_m2 is not None
    return of.loads.wind.peak_pressure_kn_m2


def tall_m(of: Assessed) -> float:
    """Each of the four even posts of the cycle shelter, from what the bracing prints of wind on their upper halves."""
    return line(the(of, "bracing"), "Upper half of the posts") * 2.0 / (2.4 * peak(of) * 0.095) / 4.0


def wide_m(of: Assessed, rafter: int, barge: float) -> tuple[float, float]:
    """Half of each bay beside a rafter, and the whole width with both barge boards [m]."""
    centres = [r.centre_foot_mm for r in of.setting_out.plane.rafters]
    whole = centres[-1] - centres[0] + of.setting_out.plane.rafters[0].width_mm + 2.0 * barge
    return (centres[rafter] - centres[rafter - 2]) / 2000.0, whole / 1000.0


def test_hanger_and_tie_of_an_open_roof_on_a_wall() -> None:
    """Cycle shelter: pull of the rafter's own wind, drag down and along, wind onto beam and posts. By hand."""
    of = assessed(changed("cycle-shelter"))
    hanger, tie = the(of, "hanger-level"), the(of, "rafter-tie-level")
    up, down = the(of, "hanger-up"), the(of, "rafter-tie")
    assert hanger.place.rafter == tie.place.rafter == up.place.rafter == down.place.rafter == 2
    assert hanger.case == up.case == down.case
    lifts = (up.demand or 0.0) + (down.demand or 0.0)
    b, whole = wide_m(of, 2, 22.0)
    drag = max(w.drag_kn for w in of.loads.wind.whole) * b / whole
    onto = 1.5 * 2.4 * peak(of) * (0.170 + 4.0 * 0.095 * tall_m(of) / 2.0 / whole) * b
    out = lifts * tan(radians(of.shape.pitch_deg)) + 1.5 * drag + onto
    along = 1.5 * drag / 2.0
    assert line(hanger, "Level here, square") == pytest.approx(out, rel=1e-6)
    assert line(hanger, "Level here, along") == pytest.approx(along, rel=1e-6)
    net = (up.demand or 0.0) - ((up.capacity or 0.0) - 4.0)
    assert hanger.demand == pytest.approx(hypot(out, along) / 4.0 + net / 4.0, rel=1e-6)
    net = (down.demand or 0.0) - ((down.capacity or 0.0) - 4.0)
    assert line(tie, "Level here, square") == pytest.approx(onto, rel=1e-6)
    assert tie.demand == pytest.approx(hypot(onto, along) / 4.0 + net / 4.0, rel=1e-6)


def test_an_end_rafter_takes_the_edge_of_its_open_end() -> None:
    """With wide bays and little lift the end rafter governs: 1.5 x 2.4 q d L / 2 and its share of drag. By hand."""
    of = assessed(changed("cycle-shelter", frame__rafter_tie_kn=400.0, frame__hanger_up_kn=400.0))
    tie = the(of, "rafter-tie-level")
    assert tie.place.rafter == 1
    slope = of.setting_out.plane.slope_length_mm / 1000.0
    centres = [r.centre_foot_mm for r in of.setting_out.plane.rafters]
    b, (_, whole) = (35.0 + 22.0 + (centres[1] - centres[0]) / 2.0) / 1000.0, wide_m(of, 2, 22.0)
    drag = max(w.drag_kn for w in of.loads.wind.whole) * b / whole / 2.0
    edge = 2.4 * peak(of) * (0.145 + 0.040) * slope / 2.0
    assert line(tie, "Level here, along") == pytest.approx(1.5 * (drag + edge), rel=1e-6)


def test_a_closed_end_pushes_its_rafter_along_the_wall() -> None:
    """Potting bay: what the check of the end rafter passes on, counted again with bare numbers."""
    of = assessed(changed("potting-bay"))
    hanger, sideways = the(of, "hanger-level"), the(of, "rafter-sideways")
    strip, span = 2820.6 / 2000.0, 2.3959
    along = 1.5 * 0.6327 * strip * cos(radians(12.0)) * span / 2.0
    assert line(hanger, "Level here, along") == pytest.approx(along, rel=1e-3)
    assert line(hanger, "Level here, along") == pytest.approx(
        line(sideways, "Passes to plate and beam, sideways"), rel=1e-9
    )


def test_ties_of_a_free_standing_roof_pass_on_the_push_across() -> None:
    """Boat rack: each rafter its share by width of all that pushes across, and its own wind where that is more."""
    of = assessed(changed("boat-rack"))
    push = line(the(of, "bracing-across"), "Push across the roof on both rows of posts")
    b, whole = wide_m(of, 2, 22.0)
    for rule in ("rafter-tie-level", "rafter-tie-head-level"):
        tie = the(of, rule)
        assert tie.place.rafter == 2
        assert line(tie, "Level here, square") == pytest.approx(push * b / whole, rel=1e-6)
    strong = assessed(changed("boat-rack", frame__rafter_tie_kn=400.0))
    assert the(strong, "rafter-tie-level").place.rafter == 2


def test_head_and_foot_of_a_post_with_knee_braces() -> None:
    """Moments about the foot: (H / n) (h / a - 1) at the head; H / n and half of the post's own wind at the foot, where
    it slides the pad, 700 deep, and turns it."""
    of = assessed(changed("cycle-shelter"))
    bracing = the(of, "bracing")
    push = line(bracing, "Push along the wall on the row of posts")
    height = tall_m(of) * 1000.0 + 85.0
    head, foot = the(of, "post-tie-level"), the(of, "post-base-level")
    assert head.place.post == foot.place.post == 3
    for post in (3,):
        at_head = push / 4.0 * (height / 600.0 - 1.0)
        at_foot = push / 4.0 + 1.5 * 2.4 * peak(of) * 0.095 * tall_m(of) / 2.0
        assert line(head, "Level here, along") == pytest.approx(at_head, rel=1e-6)
        assert line(foot, "Level here, along") == pytest.approx(at_foot, rel=1e-6)
        slides, turns = the(of, "pad-sliding", post), the(of, "pad-turning", post)
        assert slides.demand == pytest.approx(at_foot, rel=1e-6)
        assert line(turns, "Turned by the push along the wall") == pytest.approx(at_foot * 0.700, rel=1e-6)
        for check, up, declared, level in (
            (head, the(of, "post-tie", post), 10.0, at_head / 12.0),
            (foot, the(of, "post-base", post), 8.0, at_foot / 8.0),
        ):
            net = (up.demand or 0.0) - ((up.capacity or 0.0) - declared)
            assert check.demand == pytest.approx(level + net / declared, rel=1e-6)


def test_a_post_in_a_closed_front_is_pushed_at_both_its_ends() -> None:
    """Potting bay, middle post: half of what it holds of the front at head and foot, as its pad has it."""
    of = assessed(changed("potting-bay"))
    head, foot = the(of, "post-tie-level"), the(of, "post-base-level")
    assert head.place.post == foot.place.post == 2
    square = line(foot, "Level here, square")
    assert line(head, "Level here, square") == pytest.approx(square, rel=1e-9)
    along = line(the(of, "bracing"), "Push along the wall on the row of posts") / 3.0
    pad = the(of, "pad-sliding", 2).demand
    assert pad == pytest.approx(hypot(along, square), rel=1e-3)


@pytest.mark.parametrize(
    ("frame", "share"),
    [
        ({"frame__bracing": "diagonal", "frame__brace_kn": 40.0}, 1.0),
        ({"frame__bracing": "fixed feet", "frame__post_foot_knm": 40.0, "frame__brace_kn": None}, 0.25),
        ({"frame__bracing": None, "frame__bracing_kn": 40.0, "frame__brace_kn": None}, 0.25),
    ],
)
def test_heads_under_other_bracing(frame: dict[str, Any], share: float) -> None:
    """A diagonal brings all of the push to either head of its field; held feet and others' bracing an even share."""
    of = assessed(changed("cycle-shelter", frame__knee_hole_mm=None, frame__sway_limit=None, **frame))
    push = line(the(of, "bracing"), "Push along the wall on the row of posts")
    leaning = [s.result for s in the(of, "bracing").working if s.says == "What leaning adds to the push"]
    assert bool(leaning) == (frame["frame__bracing"] == "fixed feet")  # feet that give: test_sway
    push *= float(leaning[0]) if leaning else 1.0
    assert line(the(of, "post-tie-level"), "Level here, along") == pytest.approx(share * push, rel=1e-6)


def test_a_head_beside_the_braced_field_takes_wind_on_its_own_post() -> None:
    """The first field is the narrower one, so its outer post is not braced: 1.5 x 2.4 q b l / 2. By hand."""
    job = changed(
        "cycle-shelter",
        frame__bracing="diagonal",
        frame__brace_kn=40.0,
        frame__posts_at_mm=[48, 1800, 4064, 6072],
        frame__knee_hole_mm=None,
        frame__sway_limit=None,
    )
    of, ground = assessed(job), ground_of_job(job)
    assert ground.frame.beam is not None
    row = eaves_forces(ground, ground.frame.beam, passed_on(ground))
    push = line(the(of, "bracing"), "Push along the wall on the row of posts")
    onto = 1.5 * 2.4 * peak(of) * 0.095 * tall_m(of) / 2.0
    heads = [head.along_kn for head in at_heads(ground, row, racking(ground, row))]
    assert heads == pytest.approx([onto, push, push, onto], rel=1e-6)


def test_knee_braces_across_leave_the_head_across_to_their_own_check() -> None:
    """Log store: along the eaves at the cap; across at the joint of post, beam and rafter, which is declared apart."""
    of = assessed(changed("log-store"))
    head = next(c for c in of.checks if c.id == "post-tie-level")
    assert [step.says for step in head.working if step.says.startswith("Level")] == ["Level here, along"]
    assert the(of, "knee-head").verdict == "passes"


def test_closed_ends_beside_an_open_front_leave_it_unknown() -> None:
    """EN 1991-1-4 has no wind for such walls: each of the four joints says so, none is compared without it."""
    of = assessed(changed("potting-bay", roof__right="open", roof__front="open", roof__openings=[]))
    said = {
        c.id: (c.verdict, "no net pressure for a closed side" in c.says) for c in of.checks if c.id in LEVEL
    }
    assert said == dict.fromkeys(KEYS, ("refused", True))


@pytest.mark.parametrize("rule", KEYS)
def test_what_is_not_declared_is_refused_with_the_force(rule: str) -> None:
    """The force and the key stand in the sentence; a value declared to the hair passes, a hair less fails."""
    name = f"frame__{KEYS[rule]}"
    of = assessed(changed("cycle-shelter", **{name: None}))
    asked = max((c for c in of.checks if c.id == rule), key=lambda c: c.demand or 0.0)
    assert (asked.verdict, asked.unit) == ("refused", "kN")
    assert asked.says.startswith(f"Needs {asked.demand:.2f} kN level")
    assert f"ive frame.{KEYS[rule]}" in asked.says
    assert asked.working
    if asked.place.post is None:  # of rafters another one may govern once something is declared
        return

    def declared(kn: float) -> Check:
        return the(assessed(changed("cycle-shelter", **{name: kn})), rule)

    known, level = declared(500.0), asked.demand or 0.0
    assert known.place == asked.place
    need = level / (1.0 - ((known.demand or 0.0) - level / 500.0))
    assert (declared(need * 1.0001).verdict, declared(need * 0.9999).verdict) == ("passes", "fails")


def test_what_lifts_at_once_must_be_known_too() -> None:
    """A base declared level alone: refused while wind lifts it, with both forces."""
    of = assessed(changed("cycle-shelter", frame__post_base_kn=None))
    base = the(of, "post-base-level")
    assert base.verdict == "refused"
    assert base.says.startswith("Needs 0.95 kN level while 5.6")
    assert base.says.endswith("What lifts it at once is not held by anything known: give frame.post_base_kn.")


def test_a_hanger_carries_what_presses_it_and_what_pushes_it_level() -> None:
    """Under heavy snow down and level count together in the hanger; on a birdsmouth over the plate by contact."""
    snowy = {"site__ground_snow_kn_m2": 3.0, "site__snow_zone": None}
    hung = the(assessed(changed("potting-bay", **snowy)), "hanger-level")
    down = line(hung, "Presses here at once")
    level = [float(s.result) for s in hung.working if s.says.startswith("Level here")]
    assert level
    assert hung.demand == pytest.approx(down / 6.0 + hypot(*level) / 4.0, rel=1e-5)
    notched = the(
        assessed(
            changed("potting-bay", **snowy, frame__head_notch_mm=25.0, frame__wall_plate_mm=[70.0, 145.0])
        ),
        "hanger-level",
    )
    assert not [s for s in notched.working if s.says == "Presses here at once"]


# Fasteners that the job describes


def described(fasteners: Mapping[str, Any], **other: Any) -> Check:
    """The level check of a joint of the old-rafter veranda whose fasteners are described."""
    keys = {k: v for k, v in {**fasteners, **other}.items() if v is not None}
    name = str(keys["joint"]).replace(" ", "_").replace("hanger", "hanger_up")
    level = str(keys["joint"]).replace(" ", "_") + "_level_kn"
    of = assessed(
        changed(
            "uneven-veranda",
            **{f"frame__{name}_kn": None, f"frame__{level}": None},
            frame__fasteners=[keys],
            site__vb0_m_s=24.0,
        )
    )
    assert wrong_lines(of) == []
    found = [c for c in of.checks if c.id == level.removesuffix("_kn").replace("_", "-")]
    return max(found, key=lambda c: c.demand or 0.0)


def test_bolts_of_a_post_tie_sheared_along_and_pulled_square() -> None:
    """Two M10 through beam and post: embedment along the beam's grain and across the post's, then under the washers.

    Modes of EN 1995-1-1, 8.2.2 with bare numbers; service class 3: k_mod 0.7. The post may split.
    """
    check = described(BOLTS, end_mm=80, apart_mm=60)
    f_1, f_2 = 0.082 * 0.9 * 350, 0.082 * 0.9 * 350 / 1.5
    ratio, moment, t_1, t_2, d = f_2 / f_1, 0.3 * 400 * 10**2.6, 70.0, 95.0, 10.0
    thick = t_2 / t_1
    rope = min(3 * 2.5 * pi / 4 * (30**2 - 11**2), 0.9 * 400 * 58) / 4
    modes = [
        f_1 * t_1 * d,
        f_2 * t_2 * d,
        f_1 * t_1 * d / (1 + ratio) * (
            sqrt(ratio + 2 * ratio**2 * (1 + thick + thick**2) + ratio**3 * thick**2) - ratio * (1 + thick)
        ),
        1.05 * f_1 * t_1 * d / (2 + ratio) * (
            sqrt(2 * ratio * (1 + ratio) + 4 * ratio * (2 + ratio) * moment / (f_1 * d * t_1**2)) - ratio
        ),
        1.05 * f_1 * t_2 * d / (1 + 2 * ratio) * (
            sqrt(2 * ratio**2 * (1 + ratio) + 4 * ratio * (1 + 2 * ratio) * moment / (f_1 * d * t_2**2)) - ratio
        ),
        1.15 * sqrt(2 * ratio / (1 + ratio)) * sqrt(2 * moment * f_1 * d),
    ]  # fmt: skip
    one = min(*modes[:2], *(mode + min(rope, 0.25 * mode) for mode in modes[2:]))
    beam = min(2.0, 2**0.9 * (60 / 130) ** 0.25) * one
    splitting = 14 * 95 * sqrt(45 / (1 - 45 / 95))
    along_kn = min(beam, 2 * one, splitting) * 0.7 / 1.3 / 1000.0
    square_kn = 2 * min(3 * 2.5 * pi / 4 * (30**2 - 11**2), 0.9 * 400 * 58) * 0.7 / 1.3 / 1000.0
    assert line(check, "All of them pulled along their axes") == pytest.approx(square_kn, rel=1e-6)
    along = line(check, "Level here, along")
    up = line(check, "Lifts here at once")
    holds = [float(s.result) for s in check.working if s.says == "The joint holds"]
    assert holds[1] == pytest.approx(along_kn, rel=1e-5)
    assert check.demand == pytest.approx(along / along_kn + up / holds[0], rel=1e-5)


SCREWS = {
    **NAILS, "kind": "screw", "d_mm": 6, "root_mm": 4, "f_u_n_mm2": 800, "plates": "none", "plate_mm": None,
    "upper_mm": 40, "lower_mm": 40, "count": 4, "axial_kn": 1.6, "apart_mm": 80, "end_mm": 90, "edge_mm": 60,
}  # fmt: skip


@pytest.mark.parametrize("joint", ["rafter tie", "hanger"])
def test_screws_whose_way_is_not_described_hold_the_least_of_three(joint: str) -> None:
    """Shear along the one grain or the other, alike here, or pull: n^0.9 x 1.6 x 0.9 / 1.3."""
    check = described(SCREWS, joint=joint)
    pulled = 4**0.9 * 1600.0 * 0.9 / 1.3 / 1000.0
    assert line(check, "All of them pulled along their axes") == pytest.approx(pulled, rel=1e-6)
    least = line(check, "Level, whichever way they lie")
    sheared = [float(s.result) for s in check.working if s.says == "The joint holds"]
    assert least == pytest.approx(min(sheared[-1], pulled), rel=1e-9)
    level = sum(float(s.result) for s in check.working if s.says.startswith("Level here"))
    up = line(check, "Lifts here at once")
    assert check.demand == pytest.approx(level / least + up / sheared[0], rel=1e-5)


def test_more_or_thicker_screws_never_hold_less_level() -> None:
    """Count, pull and distance one after the other: the share that is used never grows."""
    for key, values in {"count": (2, 3, 4, 6), "axial_kn": (0.4, 0.8, 1.6), "edge_mm": (60, 65, 70)}.items():
        used = [described(SCREWS, **{key: value}).demand or 0.0 for value in values]
        assert all(a >= b - 1e-9 for a, b in pairwise(used)), (key, used)


@pytest.mark.parametrize(
    ("fasteners", "other", "says"),
    [
        (
            NAILS,
            {},
            "What the steel of straps and plates holds level is not calculated. Or give frame.rafter_tie",
        ),
        (BOLTS, {"washer_mm": None}, "Give washer_mm of these bolts"),
        (SCREWS, {"axial_kn": None}, "Give axial_kn of these screws"),
        (BOLTS, {"edge_mm": 39.9}, "loaded edge is 39.9 mm; expected 40"),
        (BOLTS, {"end_mm": 79.9}, "loaded end is 79.9 mm; expected 80"),
    ],
)
def test_what_no_rule_covers_is_refused_level(
    fasteners: Mapping[str, Any], other: dict[str, Any], says: str
) -> None:
    """With the force that is needed, the reason, and the key that declares it instead."""
    check = described(fasteners, **other)
    assert check.verdict == "refused"
    assert check.says.startswith("Needs ")
    assert says in check.says, check.says


# More wind, orders, cures


@pytest.mark.parametrize("name", ["cycle-shelter", "boat-rack", "log-store", "potting-bay", "plant-lobby"])
def test_more_wind_is_never_less_demand(name: str) -> None:
    """Peak pressures one after the other: each joint uses as much or more of what holds it."""
    before: dict[str, float] = {}
    for pressure in (0.3, 0.5, 0.7, 0.9, 1.2):
        of = assessed(changed(name, site__peak_pressure_kn_m2=pressure))
        level: dict[str, float] = {}
        for check in (c for c in of.checks if c.id in LEVEL):
            level[check.id] = max(level.get(check.id, 0.0), check.demand or 0.0)
        assert len(level) >= 4
        for key, demand in level.items():
            assert demand >= before.get(key, 0.0) - 1e-9, (pressure, key)
        before = level


def test_a_connector_is_typical_in_the_order_until_it_is_declared_level_too() -> None:
    """What is ordered counts on what is declared, every way. Exact."""
    parts = {"post_base_level_kn": "bases", "post_tie_level_kn": "post caps", "hanger_level_kn": "hangers"}
    for key, part in parts.items():
        for value, mark in ((None, "typical"), (20.0, "")):
            design = solve(changed("cycle-shelter", **{f"frame__{key}": value}), catalogue())
            assert {line.part: line.mark for line in design.order}[part] == mark, (key, value)


def test_more_screws_are_proposed_and_ordered() -> None:
    """Too few screws at each rafter: the cure takes as many as hold, and the order has them for every joint."""
    few = {**SCREWS, "count": 2, "axial_kn": 0.5, "length_mm": 120.0}
    job = changed(
        "cycle-shelter", frame__rafter_tie_kn=None, frame__rafter_tie_level_kn=None, frame__fasteners=[few]
    )
    design = solve(job, catalogue())
    assert {c.verdict for c in design.checks if c.id == "rafter-tie-level"} == {"fails"}
    cure = next(p for p in cures(design) if p.check == "rafter-tie-level")
    count = cure.set["frame.fasteners"][0]["count"]
    assert cure.title.startswith(f"{count} screws instead of 2 in each rafter tie")
    cured = solve(changed("cycle-shelter", **{k.replace(".", "__", 1): v for k, v in cure.set.items()},
        frame__rafter_tie_kn=None, frame__rafter_tie_level_kn=None), catalogue())  # fmt: skip
    assert {c.verdict for c in cured.checks if c.id == "rafter-tie-level"} == {"passes"}
    ordered = {line.part: line.quantity for line in cured.order}["fasteners of rafter ties"]
    assert ordered == Decimal(count * len(cured.setting_out.plane.rafters))


@pytest.mark.parametrize("value", [0, -1.0])
def test_a_resistance_is_more_than_nothing(value: float) -> None:
    """Just outside what can be declared: refused by its key."""
    with pytest.raises(InputError, match="post_base_level_kn"):
        changed("cycle-shelter", frame__post_base_level_kn=value)
