"""What primitives become on paper: scaled geometry, lettering left alone, sizes drawn out, hatches clipped."""

from __future__ import annotations

import itertools
import math

import pytest

from pentice.drawing.dimensions import dimension
from pentice.drawing.hatches import HATCHES, hatch_area, hatch_lines, inside
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import View
from pentice.drawing.placed import on_paper, sheet_scene
from pentice.drawing.scene import (
    Arc,
    Area,
    Box,
    Circle,
    Dimension,
    Group,
    Line,
    Pinned,
    Polyline,
    Primitive,
    Running,
    Scene,
    Text,
)
from pentice.drawing.sketch import text_box

VIEW = View(scale=25.0, origin=(40.0, 60.0))
SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
TINY = 1e-9
"""Rounding of a few float operations on lengths of paper."""


def flat(primitives: tuple[Primitive, ...]) -> list[Primitive]:
    """All primitives without their groups."""
    found: list[Primitive] = []
    for p in primitives:
        found += flat(p.content) if isinstance(p, Group) else [p]
    return found


def only(kind: type, primitives: tuple[Primitive, ...]) -> list[Primitive]:
    """Those of one kind."""
    return [p for p in flat(primitives) if isinstance(p, kind)]


def test_geometry_is_divided_by_the_scale_and_lettering_keeps_its_height() -> None:
    """250 of the model at 1:25 is 10 of paper."""
    made = on_paper(
        [
            Circle(centre=(250.0, 0.0), radius=50.0),
            Arc(centre=(0.0, 0.0), radius=25.0, start_deg=0.0, end_deg=90.0),
            Text(at=(0.0, 250.0), text="WALL", h_mm=3.5),
            Polyline(points=SQUARE, closed=True),
        ],
        VIEW,
    )
    circle, arc, text, polyline = made
    assert isinstance(circle, Circle)
    assert (circle.centre, circle.radius) == ((50.0, 60.0), 2.0)
    assert isinstance(arc, Arc)
    assert arc.radius == 1.0
    assert isinstance(text, Text)
    assert (text.at, text.h_mm) == ((40.0, 70.0), 3.5)
    assert isinstance(polyline, Polyline)
    assert polyline.points[2] == (40.4, 60.4)


def test_a_pinned_symbol_moves_with_its_point_and_keeps_its_size() -> None:
    """Also within another pinned symbol."""
    inner = Pinned(at=(1.0, 0.0), content=(Line(a=(0.0, 0.0), b=(2.0, 0.0)),))
    (line,) = on_paper([Pinned(at=(250.0, 0.0), content=(inner,))], VIEW)
    assert isinstance(line, Line)
    assert (line.a, line.b) == ((51.0, 60.0), (53.0, 60.0))


def test_a_group_keeps_its_part_and_scales_its_clip() -> None:
    """The clip is given in the model."""
    clip = Box(left=0.0, top=0.0, right=100.0, bottom=50.0)
    (group,) = on_paper([Group(content=(), part="bay-1", clip=clip)], VIEW)
    assert isinstance(group, Group)
    assert group.part == "bay-1"
    assert group.clip == Box(left=40.0, top=60.0, right=44.0, bottom=62.0)


def test_a_sheet_holds_each_model_in_its_view_and_the_rest_as_it_is() -> None:
    """One scene of paper from two models."""
    model = Scene(primitives=(Line(a=(0.0, 0.0), b=(250.0, 0.0)),), title="plan", desc="d", scale=25.0)
    sheet = sheet_scene([(model, VIEW)], "Sheet", "d", [Line(a=(1.0, 1.0), b=(2.0, 1.0))])
    group, extra = sheet.primitives
    assert isinstance(group, Group)
    assert group.part == "plan"
    assert group.content == (Line(a=(40.0, 60.0), b=(50.0, 60.0)),)
    assert extra == Line(a=(1.0, 1.0), b=(2.0, 1.0))


@pytest.mark.parametrize(
    ("a", "b", "axis", "where"),
    [
        ((0.0, 0.0), (50.0, 0.0), "along", (25.0, -11.1)),  # above a line to the right
        ((0.0, 40.0), (0.0, 0.0), "along", (-11.1, 20.0)),  # left of a line going up, read from the right
        ((0.0, 0.0), (50.0, 30.0), "x", (25.0, -11.1)),  # the level part only, counted from the higher point
        (
            (0.0, 0.0),
            (50.0, 30.0),
            "y",
            (58.9, 15.0),
        ),  # the upright part going down: its left is to the right
    ],
)
def test_a_size_stands_ten_off_on_the_left_of_its_way_with_its_value_above(
    a: tuple[float, float], b: tuple[float, float], axis: str, where: tuple[float, float]
) -> None:
    """Offset 10 from the point that lies farthest out, value 1.1 above its line as it is read."""
    (text,) = only(Text, dimension(Dimension(a=a, b=b, text="50", axis=axis)))
    assert isinstance(text, Text)
    assert text.at == pytest.approx(where, abs=TINY)
    assert text.turn_deg in (0.0, 90.0)


def test_a_value_too_wide_for_its_size_stands_beyond_the_end() -> None:
    """Between the strokes it would lie on them."""
    (text,) = only(Text, dimension(Dimension(a=(0.0, 0.0), b=(4.0, 0.0), text="965.6")))
    assert isinstance(text, Text)
    assert text.at[0] > 4.0
    assert text.anchor == "start"


def test_a_size_that_runs_right_to_left_still_reads_from_below() -> None:
    """Never upside down; its value is above the line as read."""
    (text,) = only(Text, dimension(Dimension(a=(50.0, 0.0), b=(0.0, 0.0), text="50", offset_mm=-10.0)))
    assert isinstance(text, Text)
    assert text.turn_deg == 0.0
    assert text.at == pytest.approx((25.0, -11.1), abs=TINY)


def test_running_marks_begin_at_an_open_circle_with_a_nought_and_point_one_way() -> None:
    """Within 4 mm of the origin an oblique stroke replaces the arrow."""
    made = on_paper(
        [Running(origin=(0.0, 0.0), stops=((50.0, "50"), (500.0, "500"), (1000.0, "1000")), noun="marks")],
        VIEW,
    )
    (circle,) = only(Circle, made)
    assert isinstance(circle, Circle)
    assert (circle.centre, circle.radius) == ((40.0, 50.0), 1.5)
    arrows = [p for p in only(Area, made) if isinstance(p, Area) and p.fill == "ink"]
    assert [arrow.points[0] for arrow in arrows] == [(60.0, 50.0), (80.0, 50.0)]
    assert all(point[0] <= arrow.points[0][0] for arrow in arrows for point in arrow.points)
    strokes = [p for p in only(Line, made) if isinstance(p, Line) and p.style == "wide"]
    assert len(strokes) == 1
    assert [p.text for p in only(Text, made) if isinstance(p, Text)] == ["50", "500", "1000", "0", "marks"]


def test_no_running_value_lies_on_another_even_when_marks_crowd() -> None:
    """Screws every 8 mm of paper with values 11 wide: two rows. The corners of the lettering decide."""
    stops = tuple((200.0 * k, f"{1000 + 361.5 * k:g}") for k in range(1, 12))
    made = on_paper([Running(origin=(0.0, 0.0), stops=stops)], VIEW)
    boxes = [text_box(p) for p in only(Text, made) if isinstance(p, Text)]
    for k, one in enumerate(boxes):
        for other in boxes[k + 1 :]:
            apart = [
                min(p[axis] for p in a) >= max(p[axis] for p in b)
                for a, b in ((one, other), (other, one))
                for axis in (0, 1)
            ]
            assert any(apart)


def test_two_running_values_side_by_side_are_never_read_as_one_number() -> None:
    """Marks 35 and 508 of a narrow roof at 1:50: the white between them is a digit wide, or rows part them."""
    view = View(scale=50.0, origin=(0.0, 0.0))
    made = on_paper([Running(origin=(0.0, 0.0), stops=((35.0, "35"), (508.0, "508")))], view)
    values = sorted((p for p in made if isinstance(p, Text) and p.text != "0"), key=lambda p: p.at[0])
    (left, right) = values
    ends = left.at[0] + text_width_mm("35", 3.5, 700) / 2, right.at[0] - text_width_mm("508", 3.5, 700) / 2
    assert left.at[1] != right.at[1] or ends[1] - ends[0] >= text_width_mm("0", 3.5, 700) - 0.05


def test_hatch_lines_are_as_far_apart_as_asked_and_stay_inside() -> None:
    """45 degrees, 2.2 apart, in a square with a hole."""
    hole = ((4.0, 4.0), (6.0, 4.0), (6.0, 6.0), (4.0, 6.0))
    lines = hatch_lines([SQUARE, hole], 45.0, 2.2)
    for line in lines:
        middle = ((line.a[0] + line.b[0]) / 2, (line.a[1] + line.b[1]) / 2)
        assert inside([SQUARE, hole], middle)
        assert line.b[0] > line.a[0]
        assert line.b[1] < line.a[1]  # leaning up to the right as seen
    levels = sorted({round((x + y) / math.sqrt(2), 6) for line in lines for x, y in (line.a,)})
    assert min(b - a for a, b in itertools.pairwise(levels)) == pytest.approx(2.2, abs=1e-5)


@pytest.mark.parametrize("name", sorted(HATCHES))
def test_every_hatch_draws_something_and_only_within_its_outline(name: str) -> None:
    """The box of all its points; narrow lines only."""
    for p in hatch_area(Area(points=SQUARE, fill=name)):
        if isinstance(p, Line):
            points: tuple[tuple[float, float], ...] = (p.a, p.b)
        else:
            assert isinstance(p, (Polyline, Area))
            points = p.points
        assert all(-TINY <= v <= 10.0 + TINY for point in points for v in point)
    assert hatch_area(Area(points=SQUARE, fill=name))


def test_a_hatched_area_is_white_ground_lines_and_outline_in_that_order() -> None:
    """What lies under it is hidden, and its outline is not cut by the hatch."""
    ground, lines, outline = on_paper([Area(points=SQUARE, fill="brick", style="extra wide")])
    assert isinstance(ground, Area)
    assert (ground.fill, ground.style) == ("white", "")
    assert isinstance(lines, Group)
    assert isinstance(outline, Area)
    assert (outline.fill, outline.style) == ("", "extra wide")
