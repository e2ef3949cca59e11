"""Where side sheets stand, by hand: from the wall, from the post, under the rafter, between posts; or not known."""

from __future__ import annotations

import math
from typing import Any

import pytest

from pentice.design import Design
from pentice.frame.side_places import (
    OFF_LINE,
    TOO_HIGH,
    TOO_WIDE,
    UNPLACED,
    SidePlaces,
    long_mm,
    side_places,
)
from pentice.job.shape import roof_shape
from pentice.setting_out.side_frames import Place
from tests.closed import laid_out
from tests.designs import changed, design_of, example


def of(design: Design, side: Place) -> SidePlaces:
    """The places of a side."""
    found = side_places(design.job, design.shape, design.setting_out, side)
    assert found is not None
    return found


def lobby(**keys: Any) -> Design:
    """The plant lobby with other values."""
    return laid_out(changed("plant-lobby", **keys))


def test_the_left_end_of_the_lobby() -> None:
    """1700 deep, post 95: 767 + 70 + 767 from the wall, 1 mm left. Sill 47 on the floor, roof line 2200 at the beam.

    Head of the roof line 2200 + 1700 tan 15 = 2655.51; rafter 120 / cos 15 = 124.23 upright. Tops of the openings by
    the floor: 47 + 2471 = 2518 at the wall; under the rafter there are 2655.51 - 124.23 = 2531.28, 13.28 more, and as
    much at the three other edges, to 1 mm: heights are whole mm.
    """
    design = design_of("plant-lobby")
    places, head = of(design, "left"), 2200.0 + 1700.0 * math.tan(math.radians(15.0))
    assert design.shape.head_height_mm == pytest.approx(head, abs=0.6)  # 1701 is the mean of the readings
    assert [(o.left_mm, o.width_mm) for o in places.openings] == [(0.0, 767.0), (837.0, 767.0)]
    assert [(m.left_mm, m.width_mm, m.number) for m in places.mullions] == [(767.0, 70.0, 1)]
    assert places.sill is not None
    assert (places.sill.left_mm, places.sill.length_mm, places.sill.deep_mm) == (0.0, 1604.0, 47.0)
    assert places.over_datum_mm == pytest.approx(0.0)
    assert places.why == ""
    for o in places.openings:
        for x, below in zip((o.left_mm, o.left_mm + o.width_mm), o.heads_mm, strict=True):
            rafter = x * math.tan(math.radians(15.0)) + 120.0 / math.cos(math.radians(15.0))
            assert below - rafter == pytest.approx(13.28, abs=1.0)


def test_the_right_end_counts_from_the_post() -> None:
    """Seen from outside the eaves are at its left: post 95 and what is left, then 767, 70, 767 up to the wall."""
    places = of(design_of("plant-lobby"), "right")
    start = 1700.0 - 1604.0
    assert [o.left_mm for o in places.openings] == [start, start + 837.0]
    assert places.openings[-1].left_mm + places.openings[-1].width_mm == 1700.0
    assert [m.number for m in places.mullions] == [2]


def test_what_is_left_stands_at_the_wall() -> None:
    """Openings 60 narrower each leave 121: more than 25, so a timber stands at the wall, and openings begin there.

    Their heads fall 707 tan 15 = 189, and 19 over the mullion.
    """
    narrower = [
        {"side": "left", "width_mm": 707, "left_mm": 2438, "right_mm": 2249},
        {"side": "left", "width_mm": 707, "left_mm": 2230, "right_mm": 2041},
    ]
    places = of(lobby(side_sheets=narrower), "left")
    assert places.why == ""
    assert places.rest_mm == pytest.approx(121.0)
    assert [o.left_mm for o in places.openings] == [121.0, 121.0 + 777.0]


def test_a_low_wall_under_the_sill_is_as_high_as_the_heights_leave() -> None:
    """All heights 600 less: 613 over the floor, 600 and the 13.28 that stood over the heads."""
    lower = [
        s.model_dump() | {"left_mm": s.left_mm - 600.0, "right_mm": s.right_mm - 600.0}
        for s in example("plant-lobby").side_sheets
    ]
    places = of(lobby(side_sheets=lower), "left")
    assert places.over_datum_mm == pytest.approx(613.28, abs=1.0)
    assert places.why == ""


def test_one_over_another_with_a_transom_between() -> None:
    """1100, transom 70, 1301: together 2471 as one; the transom's top is the foot of the upper one."""
    stacked = [
        {"side": "left", "width_mm": 767, "left_mm": 1100, "right_mm": 1100},
        {"side": "left", "width_mm": 767, "left_mm": 1301, "right_mm": 1095, "over": True},
        {"side": "left", "width_mm": 767, "left_mm": 1100, "right_mm": 1100},
        {"side": "left", "width_mm": 767, "left_mm": 1076, "right_mm": 871, "over": True},
    ]
    places = of(lobby(side_sheets=stacked), "left")
    low, high = places.openings[:2]
    assert low.foot_mm - high.foot_mm == pytest.approx(1100.0 + 70.0)
    assert high.heads_mm[0] == pytest.approx(low.foot_mm - 2471.0)
    assert [(t.number, t.deep_mm) for t in places.transoms] == [(1, 70.0), (2, 70.0)]
    assert [t.top_mm for t in places.transoms] == pytest.approx([high.foot_mm] * 2)


def test_sheets_in_the_front_stand_in_the_field_that_they_fill() -> None:
    """Fields of 809, 851 (a door in it) and 819 clear: 800 can only stand in the first, 815 only in the last."""
    front = [{"side": "front", "width_mm": w, "left_mm": 1850, "right_mm": 1850} for w in (800, 815)]
    door = [{"wall": "front", "kind": "door", "x_mm": 1005.0, "width_mm": 840.0, "height_mm": 1880.0}]
    keys = {"frame__posts_at_mm": [48, 952, 1898, 2812], "side_sheets": front, "roof__openings": door}
    places = of(lobby(**keys), "front")
    first, last = 95.5, 1945.5
    assert [o.left_mm for o in places.openings] == [first + (809.0 - 800.0) / 2, last + (819.0 - 815.0) / 2]
    assert places.why == ""
    # Roof line 2200 at the beam, rafter 124.23 and beam 170 over the openings: 1905.77 to the floor, 1850 high.
    assert places.over_datum_mm == pytest.approx(1905.77 - 1850.0, abs=0.01)


@pytest.mark.parametrize(
    ("sheets", "why"),
    [
        ([(767, 2471, 2265), (900, 2246, 2005)], TOO_WIDE),
        ([(600, 2471, 2310), (600, 2292, 2131)], UNPLACED),
        ([(767, 2800, 2594), (767, 2575, 2370)], TOO_HIGH),
        ([(767, 2000, 2000), (767, 2000, 2000)], OFF_LINE),
        ([(1604, 2000, 2000)], OFF_LINE),
    ],
)
def test_what_does_not_fit_is_not_known(sheets: list[tuple[int, int, int]], why: str) -> None:
    """Too wide by 132; 335 left; 329 too high; level heads under a slope. The last two as one and as two openings."""
    job = changed(
        "plant-lobby",
        side_sheets=[{"side": "left", "width_mm": w, "left_mm": a, "right_mm": b} for w, a, b in sheets],
    )
    setting_out = design_of("plant-lobby").setting_out  # rafters alone count, which are the same
    places = side_places(job, roof_shape(job), setting_out, "left")
    assert places is not None
    # Two level openings beside one another have no mullion of 70 between them by their heights.
    assert places.why == (UNPLACED if why == OFF_LINE and len(sheets) == 2 else why)
    assert bool(places.openings) == (why != TOO_WIDE)


def test_a_bumpy_wall_shortens_its_end_alone() -> None:
    """8 mm proud at the left: 1692 there from wall face to beam, 1700 at the right."""
    job = changed("plant-lobby", roof__wall_offsets_mm=[[0.0, 8.0], [1400.0, 0.0]])
    shape = roof_shape(job)
    assert long_mm(shape, "right") - long_mm(shape, "left") == pytest.approx(8.0)
