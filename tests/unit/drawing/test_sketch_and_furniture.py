"""Bounds of what is drawn, and the furniture: key strip, scale bar, arrows, leaders."""

from __future__ import annotations

import itertools

import pytest

from pentice.drawing.arrows import head_arrow, section_arrow, tape_band
from pentice.drawing.furniture import key_strip, north_arrow, scale_bar
from pentice.drawing.leaders import label_column
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import View
from pentice.drawing.placed import on_paper
from pentice.drawing.placing import overlap, stand_over_marks
from pentice.drawing.scene import Area, Box, Line, Text
from pentice.drawing.sketch import extent, text_box


def test_turned_lettering_takes_height_for_width() -> None:
    """Read from the right, a text is as tall as it was wide. To 1e-9: only a rotation."""
    box = extent([Text(at=(0.0, 0.0), text="2950 clear", h_mm=3.5, turn_deg=90.0)])
    assert box.height == pytest.approx(text_width_mm("2950 clear", 3.5), abs=1e-9)
    assert box.width == pytest.approx(3.5, abs=1e-9)


def test_the_middle_of_a_centred_text_is_its_point() -> None:
    """Half to each side. To 1e-9 as above."""
    corners = text_box(Text(at=(10.0, 5.0), text="WALL", anchor="middle"))
    assert sum(x for x, _ in corners) / 4 == pytest.approx(10.0, abs=1e-9)


def test_the_key_strip_blackens_the_bay_of_the_page() -> None:
    """One black cell, and it is the second."""
    cells = [p for p in key_strip((1.0, 2.0, 1.0), active_bays=(2,)) if isinstance(p, Area)]
    assert [c.fill for c in cells] == ["white", "ink", "white"]


def test_the_key_strip_keeps_the_proportion_of_the_bays() -> None:
    """A bay twice as wide is drawn twice as wide. To 1e-9: plain division."""
    cells = [p for p in key_strip((1.0, 2.0, 1.0), width_mm=40.0) if isinstance(p, Area)]
    widths = [c.points[1][0] - c.points[0][0] for c in cells]
    assert widths == pytest.approx([10.0, 20.0, 10.0], abs=1e-9)


def test_a_scale_bar_is_as_long_as_it_says() -> None:
    """4 steps of 500 at 1:25 are 80 mm of paper."""
    cells = [p for p in scale_bar((0.0, 0.0), 25.0, 500.0).content if isinstance(p, Area)]
    assert extent(cells).width == pytest.approx(80.0, abs=1e-9)


@pytest.mark.parametrize(("bearing", "place"), [(0.0, (0.0, -1.0)), (90.0, (1.0, 0.0)), (180.0, (0.0, 1.0))])
def test_north_points_by_its_bearing_from_the_top_of_the_page(
    bearing: float, place: tuple[float, float]
) -> None:
    """The tip of the needle is 1.05 radii out. To 1e-9: sine and cosine of right angles."""
    needle = next(p for p in north_arrow((0.0, 0.0), bearing, 10.0).content if isinstance(p, Area))
    assert needle.points[0] == pytest.approx((10.5 * place[0], 10.5 * place[1]), abs=1e-9)


def test_labels_in_a_column_never_stand_on_each_other() -> None:
    """Five tips at one height still give five rows."""
    labels = [((float(k), 50.0), f"part {k}", 400) for k in range(5)]
    made = on_paper(label_column(labels, 40.0), View(scale=1.0, origin=(0.0, 0.0)))
    rows = sorted(p.at[1] for p in made if isinstance(p, Text))
    assert min(b - a for a, b in itertools.pairwise(rows)) > 2.5


def test_marks_of_narrow_bays_do_not_overlap_in_their_rows() -> None:
    """Fourteen marks 8.5 mm apart with labels 14 wide: rows are used, and each row is clear."""
    centres, widths = [8.5 * k for k in range(15)], [14.0] * 15
    placed = stand_over_marks(centres, widths)
    assert not any(p.turned for p in placed)
    for row in {p.row for p in placed}:
        spans = sorted((p.centre - 7.0, p.centre + 7.0) for p in placed if p.row == row)
        assert not any(overlap(a, b) for a, b in itertools.pairwise(spans))


def test_tapes_say_which_they_are_in_capitals() -> None:
    """A saw operator looks for the words."""
    band = Box(left=0.0, top=0.0, right=60.0, bottom=5.0)
    words = [
        p.text
        for kind in ("solid", "breather")
        for p in on_paper(tape_band(band, kind))
        if isinstance(p, Text)
    ]
    assert words == ["SOLID TAPE", "BREATHER TAPE"]


def test_head_points_up_and_a_section_shows_its_way_of_looking() -> None:
    """The arrow's tip is above its foot; the section's shaft runs right when one looks right."""
    arrow = next(p for p in head_arrow((0.0, 0.0)).content if isinstance(p, Area))
    assert min(y for _, y in arrow.points) == pytest.approx(-12.0, abs=1e-9)
    lines = [p for p in section_arrow((0.0, 0.0), "A").content if isinstance(p, Line)]
    assert lines[1].b[0] > lines[1].a[0]
