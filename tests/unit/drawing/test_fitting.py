"""Fitting to paper and placing labels: arithmetic, checked against what is asked of it rather than against itself."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.drawing.page import (
    A3_LANDSCAPE,
    A4,
    SCALES,
    View,
    bare_page,
    bounds,
    choose_scale,
    fit_screen,
    fit_view,
)
from pentice.drawing.placing import CLEAR_MM, overlap, spread, stand_over_marks
from pentice.drawing.scene import Box
from pentice.errors import NoSolution

ROOM = Box(left=20.0, top=30.0, right=220.0, bottom=180.0)
TINY = 1e-9
"""Rounding of a few float operations on lengths of paper."""


def test_a4_leaves_18_for_filing_and_a3_has_a_border_of_10() -> None:
    """Papers are filed at the left."""
    assert A4.inside == Box(left=18.0, top=10.0, right=198.0, bottom=285.0)
    assert A3_LANDSCAPE.inside == Box(left=20.0, top=10.0, right=410.0, bottom=287.0)
    assert bare_page(30.0, 20.0).inside == Box(left=0.0, top=0.0, right=30.0, bottom=20.0)


@pytest.mark.parametrize(
    ("width", "n"), [(200.0, 1.0), (200.1, 2.0), (5000.0, 25.0), (5000.1, 50.0), (20000.0, 100.0)]
)
def test_the_largest_standard_scale_that_fits_is_taken(width: float, n: float) -> None:
    """200 of paper: 5000 fits at 1:25 to the last mm, a tenth more does not."""
    assert choose_scale(width, 100.0, ROOM) == n


def test_height_decides_when_it_is_the_tighter() -> None:
    """150 of paper for 1600 of height: 1:10 is too large, 1:20 fits."""
    assert choose_scale(100.0, 1600.0, ROOM) == 20.0


def test_what_fits_at_no_scale_is_refused_with_its_size() -> None:
    """Nobody gets a drawing at a scale without a rule for it."""
    with pytest.raises(
        NoSolution, match=r"20001 by 100 mm does not fit 200 by 150 mm of paper at 1:100.*in parts"
    ):
        choose_scale(20001.0, 100.0, ROOM)


@given(
    left=st.floats(-5000, 5000),
    top=st.floats(-5000, 5000),
    width=st.floats(1, 15000),
    height=st.floats(1, 15000),
    across=st.floats(0, 1),
    down=st.floats(0, 1),
)
def test_a_fitted_view_keeps_the_model_within_its_room_at_a_standard_scale(
    left: float, top: float, width: float, height: float, across: float, down: float
) -> None:
    """Whatever the model and wherever the spare room goes; tolerance for floats of a few thousand mm."""
    model = Box(left=left, top=top, right=left + width, bottom=top + height)
    view = fit_view(model, ROOM, across=across, down=down)
    placed = bounds(view.point(corner) for corner in model.corners)
    assert view.scale in SCALES
    assert placed.left >= ROOM.left - 1e-6
    assert placed.right <= ROOM.right + 1e-6
    assert placed.top >= ROOM.top - 1e-6
    assert placed.bottom <= ROOM.bottom + 1e-6


def test_a_view_and_its_way_back_agree() -> None:
    """Paper to model is the inverse of model to paper."""
    view = View(scale=25.0, origin=(44.0, 62.0))
    assert view.point((2500.0, -250.0)) == (144.0, 52.0)
    assert view.model_point((144.0, 52.0)) == pytest.approx((2500.0, -250.0), abs=TINY)
    assert view.length(50.0) == 2.0


def test_a_screen_view_fills_its_room_at_any_scale() -> None:
    """The tighter side touches both edges."""
    view = fit_screen(Box(left=0.0, top=0.0, right=4875.0, bottom=100.0), ROOM)
    assert view.x(0.0) == pytest.approx(ROOM.left, abs=TINY)
    assert view.x(4875.0) == pytest.approx(ROOM.right, abs=TINY)


LABELS = st.lists(st.tuples(st.floats(0, 400), st.floats(1, 15)), min_size=1, max_size=12)


@given(labels=LABELS)
def test_spread_labels_never_overlap_and_keep_their_order(labels: list[tuple[float, float]]) -> None:
    """At least the asked white between neighbours, to a rounding error."""
    centres, widths = zip(*sorted(labels), strict=True)
    moved = spread(centres, widths)
    for (a, wa), (b, wb) in pairwise(zip(moved, widths, strict=True)):
        assert (b - wb / 2) - (a + wa / 2) >= CLEAR_MM - 1e-6


@given(labels=LABELS)
def test_labels_that_have_room_are_left_where_they_are(labels: list[tuple[float, float]]) -> None:
    """Nothing moves without need."""
    centres = tuple(20.0 * k for k, _ in enumerate(labels))
    assert spread(centres, tuple(w for _, w in labels)) == pytest.approx(centres, abs=1e-6)


def test_no_label_begins_before_the_least_place() -> None:
    """The first running value keeps clear of the 0 at the origin; the next make room for it."""
    assert spread((1.0, 50.0), (10.0, 10.0), 1.0, -0.5) == (4.5, 50.0)
    assert spread((1.0, 12.0), (10.0, 10.0), 1.0, -0.5) == (4.5, 15.5)


@given(labels=LABELS)
def test_running_values_never_overlap_in_their_row_and_stay_over_their_marks(
    labels: list[tuple[float, float]],
) -> None:
    """A mark is never left out; a value in a row lies within half its width of its mark."""
    centres, widths = zip(*sorted(labels), strict=True)
    placed = stand_over_marks(centres, widths)
    assert len(placed) == len(labels)
    for row in range(3):
        mine = [(p, w) for p, w in zip(placed, widths, strict=True) if p.row == row and not p.turned]
        for (a, wa), (b, wb) in pairwise(mine):
            assert not overlap((a.centre - wa / 2, a.centre + wa / 2), (b.centre - wb / 2, b.centre + wb / 2))
    for p, mark, w in zip(placed, centres, widths, strict=True):
        assert abs(p.centre - mark) <= w / 2


def test_crowded_marks_take_rows_and_very_crowded_ones_turn() -> None:
    """One row, two rows, turned: by how close the marks are."""
    tens = (10.0,) * 9
    assert {p.row for p in stand_over_marks(tuple(12.0 * k for k in range(9)), tens)} == {0}
    assert {p.row for p in stand_over_marks(tuple(6.0 * k for k in range(9)), tens)} == {0, 1}
    assert all(p.turned for p in stand_over_marks(tuple(1.0 * k for k in range(9)), tens))
