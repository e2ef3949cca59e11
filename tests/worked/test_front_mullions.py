"""Side sheets beside one another in the front: which have a mullion between them, and what it does, by hand.

The plant lobby with a post in the middle of its front: posts of 95 at 48, 1430 and 2812 leave two fields of
1382 - 95 = 1287; two sheets of 608 and a mullion of 70 fill one to 1 mm. The door stands in the other.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from pentice.advice.cures import cures
from pentice.advice.options import changed_job
from pentice.checks.values import Check
from pentice.pack.calculations.asked import engineer
from pentice.pack.drawings.mullion_heads import head_room_mm, heads_words
from pentice.pack.method import order_of_work
from pentice.pipeline import assess, solve
from pentice.setting_out.front_fields import Field, fields_of, parted
from pentice.setting_out.side_frames import side_frames
from tests.designs import assessed, catalogue, changed, example
from tests.worked.test_closed_ends import HEAD, SHORT, WIDE, at_area, peak
from tests.worked.test_printed_lines import wrong_lines

NAME = "plant-lobby"
DOOR = {
    "wall": "front",
    "kind": "door",
    "x_mm": 1500,
    "width_mm": 900,
    "height_mm": 1900,
    "dominant_factor": 0.75,
}


def front(*widths: float, high: float = 1880.0) -> list[dict[str, Any]]:
    """The ends' sheets as they are, and others in the front from left to right."""
    ends = [sheet.model_dump() for sheet in example(NAME).side_sheets]
    return ends + [{"side": "front", "width_mm": w, "left_mm": high, "right_mm": high} for w in widths]


FRONT: dict[str, Any] = {
    "frame__posts_at_mm": [48, 1430, 2812],
    "roof__openings": [DOOR],
    "side_sheets": front(608, 608),
}


def of_rule(rule: str, **changes: Any) -> Check:
    """The only check of a rule."""
    (check,) = [c for c in assessed(changed(NAME, **{**FRONT, **changes})).checks if c.id == rule]
    return check


def mullions_of(**changes: Any) -> tuple[list[tuple[tuple[int, int], float, float]], list[str]]:
    """Of the front: the sheets beside each mullion, its length and strip; and why what is not known."""
    job = changed(NAME, **{**FRONT, **changes})
    frames = side_frames(job, assessed(job).shape)
    found = [(m.between, m.length_mm, m.strip_mm) for m in frames.mullions if m.side == "front"]
    return found, [why for _, why in frames.unknown]


def test_a_mullion_stands_in_the_field_that_two_sheets_fill() -> None:
    """1287 - 2 x 608 = 71, one more than 70; as long as the opening, a strip of 608 + 70."""
    assert mullions_of() == ([((5, 6), 1880.0, 678.0)], [])


NO_DOOR: dict[str, Any] = {"roof__openings": []}


@pytest.mark.parametrize(
    ("widths", "between"),
    [
        ((608.0, 608.0, 1285.0), [(5, 6)]),
        ((1285.0, 608.0, 608.0), [(6, 7)]),
        ((1285.0, 1285.0), []),
        ((382.0, 382.0, 382.0, 608.0, 608.0), [(5, 6), (6, 7), (8, 9)]),
    ],
)
def test_posts_part_what_stands_in_two_fields(
    widths: tuple[float, ...], between: list[tuple[int, int]]
) -> None:
    """1285 fills a field alone to 2; 3 x 382 + 2 x 70 = 1286 fills one too. Between two fields stands the post."""
    found, why = mullions_of(**NO_DOOR, side_sheets=front(*widths))
    assert why == []
    assert [pair for pair, _, _ in found] == between


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        (
            {"side_sheets": front(608, 560)},
            "608, 560 wide; between its posts there is 1287, 1287 with a door.",
        ),
        ({"side_sheets": front(608, 608, 1285)}, "What stands beside a door or a window is not calculated."),
        ({**NO_DOOR, "side_sheets": front(640, 640)}, "they do not fill these: list them from left to right"),
        ({"frame__posts_at_mm": []}, "give frame.post_mm and frame.posts_at_mm"),
        ({"side_sheets": front(608) + front(608, high=1800)[4:]}, "1880 and 1800 high: measure both again"),
    ],
)
def test_what_stands_there_is_refused_where_it_is_not_known(changes: dict[str, Any], says: str) -> None:
    """No mullion; the check of mullions is refused with the way out."""
    job = changed(NAME, **{**FRONT, **changes})
    frames = side_frames(job, assessed(job).shape)
    assert not [m for m in frames.mullions if m.side == "front"]
    refused = [c.says for c in assessed(job).checks if c.id == "mullion-bending" and c.verdict == "refused"]
    assert any(says in why for why in refused)


def test_the_back_is_seen_from_behind() -> None:
    """Head posts of 145 at 110, 1500 and 4870: seen from behind first 3370 - 145 = 3225, then 1390 - 145 = 1245.

    A vent at 100 from the left as seen from there stands in the first: 4980 - 4870 - 72.5 = 37.5 is where it begins.
    """
    closed = {f"roof__{side}": "closed" for side in ("left", "right", "front", "back")}
    vent = {"wall": "back", "kind": "vent", "x_mm": 100, "width_mm": 600, "height_mm": 600}
    job = changed("boat-rack", **closed, frame__head_posts_at_mm=[110, 1500, 4870], roof__openings=[vent])
    shape = assessed(job).shape
    found = fields_of(job, shape, "back")
    assert [(round(field.clear_mm, 6), field.opening) for field in found] == [(3225.0, "vent"), (1245.0, "")]
    assert [field.clear_mm for field in fields_of(job, shape, "front")] == [2235.0, 2235.0]


def test_two_ways_are_not_one() -> None:
    """900 and 880 may share a field of 1850 beside a mullion of 70, or fill fields of 905 and 900 by themselves."""
    fields = [Field(905.0, ""), Field(900.0, ""), Field(1850.0, "")]
    assert parted([900.0, 880.0], fields, 70.0) == {(2,), (1, 1)}


def test_no_section_is_asked_for_where_posts_part_all() -> None:
    """Two sheets in two fields and none at the ends: no mullion is missed, and none is ordered."""
    sheets = front(1285, 1285)[4:]
    job = changed(NAME, **{**FRONT, **NO_DOOR, "side_sheets": sheets, "frame__mullion_mm": None})
    assert not side_frames(job, assessed(job).shape).needs_mullion
    assert not [c for c in assessed(job).checks if c.id.startswith("mullion")]
    needed = changed(NAME, **{**FRONT, "side_sheets": front(608, 608)[4:], "frame__mullion_mm": None})
    (check,) = [c for c in assessed(needed).checks if c.id == "mullion-bending"]
    assert "give frame.mullion_mm" in check.says


def on_front(strip: float, long: float) -> float:
    """Zone A with +0.2 inside on what one mullion holds [kN/m]."""
    return (-at_area(-1.2, -1.4, strip * long) + 0.2) * peak() * strip


def test_the_mullion_of_a_front_alone_by_hand() -> None:
    """70 x 95 over 1.88 with a strip of 0.678: (1.4 - 0.2 log10(1.27464) + 0.2) q_p x 0.678, M = 1.5 w l^2 / 8."""
    only = {"side_sheets": front(608, 608)[4:]}
    w = on_front(0.678, 1.88)
    assert w == pytest.approx(1.578922 * 0.678 * peak(), rel=1e-5)
    moment = 1.5 * w * 1.88**2 / 8.0
    assert of_rule("mullion-bending", **only).demand == pytest.approx(
        6e6 * moment / (70.0 * 95.0**2), rel=1e-6
    )
    assert of_rule("mullion-bending", **only).capacity == pytest.approx(
        SHORT * 24.0 * (150 / 95) ** 0.2, rel=1e-6
    )
    assert of_rule("mullion-ends", **only).demand == pytest.approx(1.5 * w * 0.94, rel=1e-6)


BAY = (WIDE - 70.0) / 4000.0
"""Between two rafters: (2861.33 - 70) / 4 [m]."""


def test_the_beam_pushed_level_by_hand() -> None:
    """70 x 170: a mullion's R in the middle of a bay of 697.83, R s / 4 on 170 x 70^2 / 6; eq. 6.11, 6.12.

    The middle post, at 1430 near the third rafter at 1430.67, bends it less, though it brings more.
    """
    check = of_rule("beam-sideways")
    bay = BAY
    reaction = 1.5 * on_front(0.678, 1.88) * 0.94
    level = 6e6 * reaction * bay / 4.0 / (170.0 * 70.0**2) / (0.9 / 1.3 * 24.0 * (150.0 / 70.0) ** 0.2)
    used = [
        c.utilisation or 0.0
        for c in assessed(changed(NAME, **FRONT)).checks
        if c.id in ("beam-bending", "beam-knees")
    ]
    assert check.demand == pytest.approx(max(max(used) + 0.7 * level, 0.7 * max(used) + level), rel=1e-5)
    assert math.isclose(HEAD, 2655.5136, rel_tol=1e-6)  # of the zones, as at the ends
    assert wrong_lines(assessed(changed(NAME, **FRONT))) == []


def test_several_mullions_in_one_bay_push_together() -> None:
    """Three sheets of 382 in one field: mullions 452 apart, so two may stand in a bay of 698; each as in its middle."""
    check = of_rule("beam-sideways", side_sheets=front(382, 382, 382))
    (line,) = [s for s in check.working if s.says.startswith("Moment level between two rafters")]
    reaction = 1.5 * on_front(0.452, 1.88) * 0.94
    assert line.result == pytest.approx(2.0 * reaction * (WIDE - 70.0) / 4000.0 / 4.0, rel=1e-5)


def test_a_post_pushes_the_beam_where_it_stands() -> None:
    """Moved to 1100, 367.2 past the second rafter at 732.8: R a (s - a) / s of half the front beside it."""
    of = assessed(changed(NAME, frame__posts_at_mm=[48, 1100, 2812], side_sheets=front()))
    (check,) = [c for c in of.checks if c.id == "beam-sideways"]
    strip = (2812 - 48) / 2000.0
    (post,) = [c for c in of.checks if c.id == "post-bowing" and c.place.post == 2]
    (tall,) = [
        s.numbers.split(" x ")[2].split("^")[0]
        for s in post.working
        if s.says == "Wind on the front it holds"
    ]
    force = 1.5 * on_front(strip, float(tall)) * float(tall) / 2.0
    a = 1.1 - (35.0 / 1000.0 + BAY)
    (line,) = [s for s in check.working if s.says == "Moment level between two rafters, by post 2"]
    assert line.result == pytest.approx(force * a * (BAY - a) / BAY, rel=1e-3)
    assert check.case.startswith("post 2; zone A")
    assert wrong_lines(of) == []


def test_a_beam_of_metal_is_bent_about_its_upright_axis_too() -> None:
    """Tube 60 x 120 x 4 turned round: (120 x 60^3 - 112 x 52^3) / 360 mm3 at 150 / 1.1; shares added."""
    metal = {"frame__beam_section": "tube-alu-60x120", "frame__beam_mm": [60.0, 120.0]}
    of = assessed(changed(NAME, **{**FRONT, **metal}))
    (check,) = [c for c in of.checks if c.id == "beam-sideways"]
    upright = max(c.utilisation or 0.0 for c in of.checks if c.id in ("beam-bending", "beam-knees"))
    modulus = (120.0 * 60.0**3 - 112.0 * 52.0**3) / 360.0
    moment = 1.5 * on_front(0.678, 1.88) * 0.94 * BAY / 4.0
    assert check.demand == pytest.approx(upright + moment * 1e6 / (modulus * 150.0 / 1.1), rel=0.02)
    assert wrong_lines(of) == []


def test_an_open_front_pushes_no_beam() -> None:
    """Nothing of it: what wind on its posts brings goes with the rafters' ties."""
    assert not [c for c in assessed(example("uneven-veranda")).checks if c.id == "beam-sideways"]


def test_papers_pieces_and_order_have_the_mullion_of_the_front() -> None:
    """Its length is the opening's; two brackets and half an hour more; its head leaves the beam room to sag."""
    design = solve(changed(NAME, **FRONT), catalogue())
    lengths = {p.name: p.length_mm for p in design.pieces if p.id.startswith("MU")}
    assert lengths == {
        "Mullion 1, left end": 2265.0,
        "Mullion 2, front": 1880.0,
        "Mullion 3, right end": 2265.0,
    }
    order = {line.part: line for line in design.order}
    assert order["mullion brackets"].quantity == 6
    hours = [line.hours for line in design.price.labour_lines if line.task == "Mullion, transom or sill"]
    assert [float(h) for h in hours] == [2.5]
    sag = max(c.demand or 0.0 for c in design.checks if c.id == "beam-sag-final")
    assert head_room_mm(design, under_beam=True) == math.ceil(sag) + 2.0
    words = heads_words(design, ("MU1", "MU2"))
    assert "Each mullion of front and back: cut square, its head shortened on site under the beam." in words
    assert f"Left there between head and beam: {math.ceil(sag) + 2:g} mm" in words
    (step,) = [s for s in order_of_work(design) if "sills and mullions" in s]
    assert "those under a beam stay square, leave between them and the beam" in step
    text = "".join(str(block) for block in engineer(design, ()))
    assert "Mullions of a front leave the beam over them room to sag" in text


def test_a_mullion_cures_a_wide_sheet_of_the_front() -> None:
    """Posts at 48 and 1313 leave 1170. A sheet of 1168 leaves 2: two of 549 and a mullion, and the rule passes.

    One of 1153 leaves 17; parted it still would, more than 10: no such cure.
    """
    for wide, offered in ((1168.0, True), (1153.0, False)):
        changes = {
            "side_sheets": front(wide)[4:],
            "frame__posts_at_mm": [48, 1313, 2812],
            "site__vb0_m_s": 34,
        }
        job = changed(NAME, **{**FRONT, **changes})
        design = solve(job, catalogue())
        assert any(c.id == "side-wind-up" and c.verdict != "passes" for c in design.checks)
        found = [p for p in cures(design) if p.check == "side-wind-up" and "mullion" in p.title]
        assert bool(found) == offered
        if found:
            parts = [s["width_mm"] for s in found[0].set["side_sheets"]]
            assert parts[:2] == [549.0, 549.0]
            after = assess(changed_job(job, dict(found[0].set)), catalogue()).checks
            assert {c.verdict for c in after if c.id == "side-wind-up"} == {"passes"}
