"""Rain of whole jobs to the gutter, its runs, outlets and pipes; sections, walls and roofs above. By hand."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.catalogue.gutters import Gutter
from pentice.checks.values import Check
from pentice.job.model import Job
from pentice.pipeline import assess
from tests.designs import assessed, catalogue, changed
from tests.tries import tries
from tests.worked.test_printed_lines import wrong_lines

CARPORT_M = (5.64, 3.12 + 0.06 / (1.0 + 0.2**2) ** 0.5, 3.12 * 0.2)
"""Width, depth on plan and rise of the carport."""
ABOVE = 1.0 + math.tan(math.radians(38.0)) / 2.0
"""What the roof above catches over its plan, at 38 deg: rain falls two down and one across."""


def water(job: Job, **gutter: Any) -> tuple[Check, Check]:
    """Gutter and downpipe of a job whose gutter has other values."""
    shipped = catalogue()
    if gutter:
        id = job.gutter.item or ""
        raw = shipped.gutters[id].model_dump() | gutter
        shipped = shipped.model_copy(update={"gutters": {**shipped.gutters, id: Gutter.model_validate(raw)}})
    found = assess(job, shipped, ("water",)).checks
    return (
        next(c for c in found if c.id == "gutter"),
        next(c for c in found if c.id == "downpipe"),
    )


def test_the_carport_below_a_roof_that_drains_to_it() -> None:
    """Own roof, half of 3.9 m of wall, 4.4 m of slope over the width with its rise; two outlets, each run half."""
    wide, deep, rise = CARPORT_M
    area = wide * (deep + rise / 2.0) + wide * 3.9 / 2.0 + 4.4 * wide * ABOVE
    gutter, pipe = water(changed("snow-carport"))
    between = (5570.0 - 70.0) / 2.0 / 5640.0
    assert gutter.demand == pytest.approx(0.024 * area * between, rel=1e-6)
    assert pipe.demand == pytest.approx(0.024 * area / 2.0, rel=1e-6)


def test_a_pipe_of_the_roof_above_stays_in_its_run() -> None:
    """60 m2 at 4300: all of it goes right; the left outlet has only its own share."""
    wide, deep, rise = CARPORT_M
    own = 0.024 * (wide * (deep + rise / 2.0) + wide * 3.9 / 2.0)
    job = changed("snow-carport", house__drains_area_m2=60.0, house__drains_at_mm=4300.0)
    gutter, pipe = water(job)
    between = (5570.0 - 70.0) / 2.0 / 5640.0
    assert gutter.demand == pytest.approx(own * between + 0.024 * 60.0 * ABOVE, rel=1e-6)
    assert pipe.demand == pytest.approx(own / 2.0 + 0.024 * 60.0 * ABOVE, rel=1e-6)
    assert "outlet 2" in pipe.case
    assert "a jet wears sheets" in gutter.says
    mirrored = changed("snow-carport", house__drains_area_m2=60.0, house__drains_at_mm=5640.0 - 4300.0)
    assert water(mirrored)[0].demand == pytest.approx(gutter.demand, rel=1e-9)
    assert "outlet 1" in water(mirrored)[1].case


def test_of_two_walls_the_greater_counts() -> None:
    """A side wall of 9 m beside 3.9 m of house: half of 3.179 x 9 is more than half of 5.64 x 3.9 only above 6.9."""
    wide, deep, rise = CARPORT_M
    walls: dict[str, Any] = {
        "roof__right": "wall",
        "roof__side_wall_depth_mm": 5000.0,
        "glazing__right_edge": "wall",
    }
    low = water(changed("snow-carport", **walls, roof__side_wall_top_above_mm=2000.0))[1]
    high = water(changed("snow-carport", **walls, roof__side_wall_top_above_mm=9000.0))[1]
    roof = wide * (deep + rise / 2.0) + 4.4 * wide * ABOVE
    assert low.demand == pytest.approx(0.024 * (roof + wide * 3.9 / 2.0) / 2.0, rel=1e-6)
    assert high.demand == pytest.approx(0.024 * (roof + deep * 9.0 / 2.0) / 2.0, rel=1e-6)


def test_a_measured_box_needs_its_factors() -> None:
    """110 x 75 to the lower lip: 0.81 x 3.48e-5 x 8250^1.25 F_d F_s, F_L of the run; without factors refused."""
    box: dict[str, Any] = {
        "shape": "rectangular", "area_mm2": None, "depth_mm": 75.0,
        "outline_mm": ((0.0, 75.0), (0.0, 0.0), (110.0, 0.0), (110.0, 90.0)),
    }  # fmt: skip
    refused, _ = water(changed("snow-carport"), **box)
    assert refused.verdict == "refused"
    assert "depth_factor and shape_factor" in refused.says
    gutter, _ = water(changed("snow-carport"), **box, depth_factor=0.96, shape_factor=0.9)
    run = 2750.0 / 75.0
    assert run < 50.0
    assert gutter.capacity == pytest.approx(0.81 * 3.48e-5 * 8250.0**1.25 * 0.96 * 0.9, rel=1e-9)
    declared, _ = water(changed("snow-carport", gutter__bend_deg=90.0), **box, flow_l_s=2.0)
    assert declared.capacity == pytest.approx(0.9 * 2.0 * 0.85, rel=1e-9)


def test_the_outline_says_how_deep_the_water_stands() -> None:
    """A box 40 deep beside a depth_mm of 90: run of 2750 is 68.75 deep, F_L 1 - 0.07 x 18.75 / 50; outlet under 20."""
    box: dict[str, Any] = {
        "shape": "rectangular", "area_mm2": None, "depth_mm": 90.0, "flow_l_s": 2.0,
        "outline_mm": ((0.0, 40.0), (0.0, 0.0), (150.0, 0.0), (150.0, 90.0)),
    }  # fmt: skip
    gutter, pipe = water(changed("snow-carport", gutter__fall=1.0 / 350.0), **box)
    assert gutter.capacity == pytest.approx(1.8 * (1.0 - 0.07 * 18.75 / 50.0), rel=1e-9)
    assert pipe.capacity == pytest.approx(80.0 * 20.0**1.5 / 7500.0, rel=1e-9)
    assert "its fall of 1 in 350 counted as level" in gutter.working[-1].says


@tries(20)
@given(near=st.floats(0.0, 2800.0), more=st.floats(1.0, 2800.0))
def test_a_longer_run_never_takes_more_and_mirrored_outlets_are_the_same(near: float, more: float) -> None:
    """One outlet moved from an end towards the middle of 5640: less water in the worst run, and it takes no less."""
    near, far = round(near, 1), round(min(near + more, 2820.0), 1)
    end, middle, mirrored = (
        water(changed("snow-carport", gutter__outlets_at_mm=[x])) for x in (near, far, 5640.0 - near)
    )
    assert (end[0].demand or 0.0) >= (middle[0].demand or 0.0) - 1e-9
    assert (end[0].capacity or 0.0) <= (middle[0].capacity or 0.0) + 1e-9
    assert end[1].demand == pytest.approx(middle[1].demand)
    for k in (0, 1):
        assert (end[k].demand, end[k].capacity) == pytest.approx((mirrored[k].demand, mirrored[k].capacity))


def test_a_leaf_guard_and_a_square_pipe() -> None:
    """The guard halves the outlet; 65 x 65 counts as 65; lines add up."""
    plain = water(changed("snow-carport"))[1]
    guarded = water(changed("snow-carport", gutter__leaf_guard=True))[1]
    outlets = [
        next(float(s.result) for s in check.working if s.says.startswith("What the outlet takes"))
        for check in (plain, guarded)
    ]
    assert outlets[1] == pytest.approx(outlets[0] / 2.0)
    square = water(changed("snow-carport"), downpipe_mm=65.0, downpipe_depth_mm=65.0)[1]
    takes = next(float(s.result) for s in square.working if s.says.startswith("What the downpipe takes"))
    assert takes == pytest.approx(2.5e-4 * 0.25**-0.167 * 65.0**2.667 * 0.33**1.667, rel=1e-9)
    everything: dict[str, Any] = {
        "gutter__leaf_guard": True, "gutter__bend_deg": 90.0,
        "house__drains_area_m2": 30.0, "house__drains_at_mm": 900.0,
    }  # fmt: skip
    assert wrong_lines(assessed(changed("snow-carport", **everything))) == []


@tries(20)
@given(
    rain=st.floats(0.005, 0.05),
    more=st.floats(1.01, 2.0),
    at=st.floats(0.0, 5640.0),
    area=st.floats(0.0, 90.0),
)
def test_more_rain_or_a_larger_roof_above_is_never_less(
    rain: float, more: float, at: float, area: float
) -> None:
    """Both demands grow with the rain and with the roof above, wherever its pipe ends."""
    job: dict[str, Any] = {"house__drains_at_mm": round(at, 1), "house__drains_area_m2": round(area, 2)}
    less = water(changed("snow-carport", site__rain_l_s_m2=round(rain, 5), **job))
    wetter = water(changed("snow-carport", site__rain_l_s_m2=round(rain * more, 5), **job))
    job["house__drains_area_m2"] = round(area * more + 0.01, 2)
    larger = water(changed("snow-carport", site__rain_l_s_m2=round(rain, 5), **job))
    for k in (0, 1):
        assert (wetter[k].demand or 0.0) >= (less[k].demand or 0.0) - 1e-12
        assert (larger[k].demand or 0.0) >= (less[k].demand or 0.0) - 1e-12


@pytest.mark.parametrize("both", [True, False])
def test_a_gutter_has_an_area_or_an_outline(both: bool) -> None:
    """One of the two: said in one sentence."""
    raw = catalogue().gutters["gutter-112"].model_dump()
    raw |= {"outline_mm": ((0.0, 50.0), (40.0, 0.0), (80.0, 50.0))} if both else {"area_mm2": None}
    with pytest.raises(ValueError, match="area_mm2 or outline_mm"):
        Gutter.model_validate(raw)
