"""Tags, signs, arrows, leaders and furniture: the words on them, where they point, what is black."""

from __future__ import annotations

import itertools

import pytest

from pentice.drawing import arrows, furniture, leaders, symbols
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import View, bare_page
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Area, Box, Circle, Group, Line, Pinned, Primitive, Scene, Text
from pentice.drawing.sketch import extent
from pentice.drawing.svg import render_svg

BAND = Box(left=0.0, top=0.0, right=60.0, bottom=5.5)


def flat(primitives: tuple[Primitive, ...]) -> list[Primitive]:
    """Everything on paper, without groups."""
    found: list[Primitive] = []
    for p in on_paper(primitives):
        found += flat(p.content) if isinstance(p, Group) else [p]
    return found


def words(*primitives: Primitive) -> list[str]:
    """The lettering in the order it is drawn."""
    return [p.text for p in flat(primitives) if isinstance(p, Text)]


@pytest.mark.parametrize(
    ("made", "expected"),
    [
        (symbols.bay_number((0.0, 0.0), "12"), ["12"]),
        (symbols.box_tag((0.0, 0.0), "R10"), ["R10"]),
        (symbols.disc((0.0, 0.0), "10"), ["10"]),
        (symbols.plate((0.0, 0.0), "WALL", turn_deg=90.0), ["WALL"]),
        (symbols.stacked((0.0, 0.0), (("947", 5.0, 700), ("wide", 2.5, 400))), ["947", "wide"]),
        (symbols.detail_circle((0.0, 0.0), 300.0, "B", (250.0, 0.0)), ["B"]),
        (symbols.ask_ring((0.0, 0.0)), ["?"]),
        (arrows.head_arrow((0.0, 0.0)), ["HEAD"]),
        (arrows.head_arrow((0.0, 0.0), word_below=True), ["HEAD"]),
        (arrows.head_triangle((0.0, 0.0)), ["HEAD"]),
        (arrows.flutes_arrow((0.0, 0.0)), ["FLUTES"]),
        (arrows.flutes_big((0.0, 0.0)), ["FLUTES"]),
        (arrows.weather_face((0.0, 0.0)), ["WEATHER", "FACE UP"]),
        (arrows.section_arrow((0.0, 0.0), "A"), ["A"]),
        (furniture.north_arrow((0.0, 0.0), 90.0), ["N"]),
        (furniture.pitch_triangle((0.0, 0.0), 176.3, "10°", "fall 520"), ["176", "1000", "10°", "fall 520"]),
        (furniture.scale_bar((0.0, 0.0), 25.0, 500.0), ["0", "500", "1000", "1500", "2000 mm"]),
        (furniture.check_rule((0.0, 0.0)), ["100 mm: check your print"]),
    ],
)
def test_each_symbol_says_its_words_and_can_be_drawn(made: Primitive, expected: list[str]) -> None:
    """The words, and SVG text that holds them."""
    assert words(made) == expected
    svg = render_svg(Scene(primitives=(made,), title="t", desc="d"), bare_page(100.0, 100.0))
    assert all(f">{word}</text>" in svg for word in expected)


@pytest.mark.parametrize("text", ["1", "12", "123", "R10-14"])
def test_a_number_stays_within_its_circle_disc_or_box(text: str) -> None:
    """The width of the lettering against the shape round it."""
    for made in (symbols.bay_number((0.0, 0.0), text), symbols.disc((0.0, 0.0), text)):
        (circle,) = (p for p in made.content if isinstance(p, Circle))
        (letters,) = (p for p in made.content if isinstance(p, Text))
        assert 2 * circle.radius > text_width_mm(text, letters.h_mm, letters.weight)
    box = symbols.box_tag((0.0, 0.0), text).content[0]
    assert isinstance(box, Area)
    assert 2 * box.points[1][0] > text_width_mm(text, 2.5, 600)


def test_the_left_disc_is_black_with_white_letters_and_the_right_one_open() -> None:
    """L and R must differ on a mono print."""
    for filled, ground, letter in ((True, "ink", "white"), (False, "white", "ink")):
        circle, text = symbols.disc((0.0, 0.0), "L", filled=filled).content
        assert isinstance(circle, Circle)
        assert isinstance(text, Text)
        assert (circle.fill, text.colour) == (ground, letter)


def test_signs_differ_by_shape_not_by_colour() -> None:
    """Tick: a stroke; fails: a square with two strokes; ask: a ring; caution: a triangle."""
    shapes = [
        tuple(type(p).__name__ for p in sign((0.0, 0.0)).content)
        for sign in (symbols.tick, symbols.crossed_square, symbols.ask_ring, symbols.caution)
    ]
    assert len(set(shapes)) == 4
    triangle = symbols.caution((0.0, 0.0)).content[0]
    assert isinstance(triangle, Area)
    assert len(triangle.points) == 3


def test_head_points_up_and_north_points_where_it_is_told() -> None:
    """y runs down: the tip has the least y; a bearing of 90 is to the right."""
    arrow = arrows.block_arrow((0.0, 0.0), 10.0)
    assert min(arrow.points, key=lambda p: p[1]) == (0.0, -10.0)
    needle = furniture.north_arrow((0.0, 0.0), 90.0, radius_mm=5.0).content[1]
    assert isinstance(needle, Area)
    assert needle.points[0] == pytest.approx((5.25, 0.0), abs=1e-9)


def test_a_section_arrow_points_in_its_way_of_looking() -> None:
    """Its head lies ahead of its stroke."""
    made = arrows.section_arrow((0.0, 0.0), "A", look=(-1.0, 0.0))
    (head,) = (p for p in made.content if isinstance(p, Area))
    assert head.points[0] == pytest.approx((-5.2, 0.0), abs=1e-9)


def test_solid_tape_is_black_and_breather_tape_is_open_with_dots() -> None:
    """They are told apart from two metres; every dot lies on the band."""
    solid, breather = arrows.tape_band(BAND, "solid"), arrows.tape_band(BAND, "breather")
    assert words(*solid) == ["SOLID TAPE"]
    assert words(*breather) == ["BREATHER TAPE"]
    assert isinstance(solid[0], Area)
    assert solid[0].fill == "ink"
    assert isinstance(breather[0], Area)
    assert breather[0].fill == "white"
    dots = [p for p in breather if isinstance(p, Circle)]
    assert len(dots) == 18
    assert all(BAND.left < d.centre[0] < BAND.right and d.centre[1] + d.radius < BAND.bottom for d in dots)


def test_load_arrows_end_on_the_foot_of_their_outline() -> None:
    """One more arrow than gaps, tips along the lower edge."""
    made = arrows.load_arrows(((0.0, 10.0), (0.0, 0.0), (40.0, 4.0), (40.0, 10.0)), count=4)
    tips = [p.points[0] for p in made if isinstance(p, Area)]
    assert tips == [(0.0, 10.0), (10.0, 10.0), (20.0, 10.0), (30.0, 10.0), (40.0, 10.0)]


def test_a_hole_keeps_its_true_size_and_a_screw_hole_is_drawn_to_be_seen() -> None:
    """16 across at 1:4 is 4 on paper; the ring of a screw is paper."""
    made = on_paper(
        [symbols.hole((0.0, 0.0), 8.0), symbols.screw_hole((100.0, 0.0))], View(scale=4.0, origin=(0.0, 0.0))
    )
    circles = [p for p in flat(made) if isinstance(p, Circle)]
    assert [c.radius for c in circles] == [2.0, 1.5, 0.22]


def test_labels_in_a_column_keep_the_order_of_their_tips_so_no_leader_crosses() -> None:
    """Neither crossing nor overlap: heights rise with the tips, a pitch apart."""
    tips = [((10.0, 30.0), "c", 400), ((0.0, 10.0), "a", 400), ((5.0, 11.0), "b", 700)]
    made = leaders.label_column(tips, 50.0)
    assert words(*made) == ["a", "b", "c"]
    heights = [p.at[1] for p in flat(made) if isinstance(p, Text)]
    assert all(b - a >= 2.5 * 2.3 - 1e-6 for a, b in itertools.pairwise(heights))
    fixed = leaders.label_column(tips, 50.0, top=5.0, end="dot")
    firsts = [p.at[1] for p in flat(fixed) if isinstance(p, Text)]
    assert firsts[0] == pytest.approx(5.0 + 1.25, abs=1e-9)
    assert len([p for p in flat(fixed) if isinstance(p, Circle)]) == 3


def test_a_label_to_the_left_ends_at_its_place_and_a_long_one_has_lines() -> None:
    """It grows away from the leader."""
    made = leaders.leader((0.0, 0.0), (-20.0, 5.0), "bolt\n10 spacer")
    texts = [p for p in made.content if isinstance(p, Text)]
    assert [t.anchor for t in texts] == ["end", "end"]
    assert texts[1].at[1] > texts[0].at[1] + 2.5


def test_a_break_line_begins_and_ends_where_it_is_told_and_swings_both_ways() -> None:
    """The zigzag lies to both sides of the line."""
    made = leaders.break_line((0.0, 0.0), (0.0, 20.0))
    assert (made.points[0], made.points[-1]) == ((0.0, 0.0), (0.0, 20.0))
    assert min(p[0] for p in made.points) < 0.0 < max(p[0] for p in made.points)


def test_the_key_strip_keeps_the_proportion_of_the_bays_and_blackens_only_the_active() -> None:
    """Bays 1 : 2 : 1 on 40 mm; bay 2 black with a white number; the bar R1 heavy."""
    made = furniture.key_strip((500.0, 1000.0, 500.0), active_bays=(2,), active_bars=(1,), width_mm=40.0)
    cells = [p for p in made if isinstance(p, Area)]
    assert [cell.points[1][0] - cell.points[0][0] for cell in cells] == [10.0, 20.0, 10.0]
    assert [cell.fill for cell in cells] == ["white", "ink", "white"]
    assert [(p.text, p.colour) for p in made if isinstance(p, Text)] == [
        ("1", "ink"),
        ("2", "white"),
        ("3", "ink"),
    ]
    heavy = [p for p in made if isinstance(p, Line) and p.style == "extra wide"]
    assert [(p.a, p.b) for p in heavy] == [((0.0, 0.0), (0.0, 13.0)), ((-0.5, 0.0), (40.5, 0.0))]


def test_bays_too_narrow_for_a_number_stay_empty() -> None:
    """Thirty bays on 46 mm: no lettering over its edges."""
    assert words(*furniture.key_strip((1.0,) * 30)) == []


def test_a_scale_bar_and_the_check_rule_have_their_true_length() -> None:
    """2000 at 1:25 is 80; the rule is 100. To rounding errors."""
    bar = [p for p in furniture.scale_bar((0.0, 0.0), 25.0, 500.0).content if isinstance(p, Area)]
    assert bar[-1].points[1][0] == pytest.approx(80.0, abs=1e-9)
    rule = furniture.check_rule((0.0, 0.0)).content[0]
    assert isinstance(rule, Line)
    assert (rule.a, rule.b) == ((0.0, 0.0), (100.0, 0.0))


@pytest.mark.parametrize(
    ("used", "black", "over"),
    [(0.0, 0.0, 0.0), (0.64, 16.0, 0.0), (1.0, 25.0, 0.0), (1.26, 25.0, 6.5), (9.0, 25.0, 10.0)],
)
def test_a_check_bar_is_black_up_to_its_limit_and_hatched_beyond(
    used: float, black: float, over: float
) -> None:
    """25 mm is the limit; nothing is drawn beyond 140 %."""
    made = furniture.check_bar((0.0, 0.0), used)
    areas = [p for p in made.content if isinstance(p, Area)]
    lengths = [area.points[1][0] - area.points[0][0] for area in areas]
    assert lengths == pytest.approx([black, over] if over else [black], abs=1e-9)
    assert isinstance(made, Pinned)
    assert extent(on_paper([made])).right <= 35.0 + 1e-9
