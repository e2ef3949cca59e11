"""Loads as a sheet feels them: the worst at head, middle and foot, never averaged away."""

from __future__ import annotations

import math

import pytest

from pentice.loads.on_sheet import SheetArea, SheetLoad, sheet_loads, winds_on_sheet
from pentice.loads.values import Loads
from tests.unit.loads.roofs import OPEN, job_with, loads_of

COS_10 = math.cos(math.radians(10.0))
HEAD_TO_FOOT = (0.0, 3500.0)


def area(x: tuple[float, float] = (2000.0, 2700.0), y: tuple[float, float] = HEAD_TO_FOOT) -> SheetArea:
    """A sheet of the plain roof with 2.5 m2 of loaded area."""
    return SheetArea(x_mm=x, y_mm=y, cos_pitch=COS_10, area_m2=2.5)


def the(loads: Loads, name: str, at: str, where: SheetArea | None = None) -> SheetLoad:
    """The one load of a combination at a place."""
    (found,) = [
        load
        for load in sheet_loads(loads, where or area())
        if load.combination.name == name and load.at == at
    ]
    return found


def test_the_head_takes_the_peak_of_the_drift() -> None:
    """1.70 on plan at the wall, cos squared of 10 deg square to the sheet, times 1.5; its own weight by one cosine."""
    load = the(loads_of(job_with()), "1.35 G + 1.5 S", "head")
    assert load.snow == pytest.approx(1.70 * COS_10**2, rel=1e-8)
    assert load.total == pytest.approx(1.35 * 0.03 * COS_10 + 1.5 * 1.70 * COS_10**2, rel=1e-8)
    assert "snow drift against the house" in load.words


def test_the_foot_takes_what_is_left_of_the_drift() -> None:
    """0.846 on plan at 3.5 m."""
    load = the(loads_of(job_with()), "1.35 G + 1.5 S", "foot")
    assert load.snow == pytest.approx(0.846 * COS_10**2, rel=1e-8)


def test_a_panel_between_two_purlins_takes_the_drift_at_its_own_head() -> None:
    """From 1.0 m on: mu = 2.8333 - 2.0333/5 = 2.4267, s = 1.456."""
    load = the(loads_of(job_with()), "1.35 G + 1.5 S", "head", area(y=(1000.0, 2000.0)))
    assert load.snow == pytest.approx(1.456 * COS_10**2, rel=1e-8)


def test_a_bend_of_the_drift_within_a_sheet_is_not_missed() -> None:
    """From a right-hand side wall the worst is at the sheet's right edge, wherever the points lie."""
    roof = {"right": "wall", "side_wall_top_above_mm": 3000.0, "side_wall_depth_mm": 6000.0}
    loads = loads_of(job_with(roof=roof, house={"wall_top_above_mm": 0.0}))
    drift = next(case for case in loads.snow.cases if case.along == "x")
    load = the(loads, "1.35 G + 1.5 S", "middle", area(x=(4500.0, 5200.0)))
    assert load.snow == pytest.approx(drift.at(5200.0, 0.0) * COS_10**2, rel=1e-9)


def test_the_worst_zone_that_touches_a_sheet_loads_all_of_it() -> None:
    """Open roof, 10 deg: a sheet at the end touches the corner strips: -2.7 there, -2.1 in the field never less."""
    loads = loads_of(job_with(roof=OPEN, site={"peak_pressure_kn_m2": 1.0}))
    end = winds_on_sheet(loads, area(x=(0.0, 700.0)))["persistent", True]
    inner = winds_on_sheet(loads, area(y=(1000.0, 2000.0)))["persistent", True]
    assert end is not None and end[0][1] == pytest.approx(-2.7)
    assert inner is not None and inner[0][1] == pytest.approx(-2.1)


def test_a_zone_that_only_touches_at_its_edge_does_not_count() -> None:
    """A sheet that begins where strip B ends, at 520 mm, is not in it."""
    loads = loads_of(job_with(roof=OPEN, site={"peak_pressure_kn_m2": 1.0}))
    found = winds_on_sheet(loads, area(x=(520.0, 1200.0), y=(1000.0, 2000.0)))["persistent", True]
    assert found is not None and found[0][1] == pytest.approx(-2.1)


def test_uplift_takes_nine_tenths_of_the_weight() -> None:
    """0.9 G + 1.5 W up at the foot; no snow in it."""
    load = the(loads_of(job_with()), "0.9 G + 1.5 W up", "foot")
    assert load.snow == 0.0 and load.wind < 0.0
    assert load.total == pytest.approx(0.9 * 0.03 * COS_10 + 1.5 * load.wind)


def test_nobody_stands_on_a_sheet() -> None:
    """No combination with imposed load is among them."""
    assert not [load for load in sheet_loads(loads_of(job_with()), area()) if load.combination.imposed]


def test_where_wind_is_refused_the_combinations_with_wind_are_left_out() -> None:
    """The check that needs them is refused elsewhere; nothing is taken as no wind."""
    loads = loads_of(job_with(site={"annex": "UK", "accidental_snow_kn_m2": 0.0}))
    assert winds_on_sheet(loads, area())["persistent", True] is None
    assert not [load for load in sheet_loads(loads, area()) if load.combination.wind]


@pytest.mark.parametrize(("overhang", "counts"), [(60.0, False), (300.0, True)])
def test_an_overhang_counts_at_the_foot_from_100_mm_on(overhang: float, counts: bool) -> None:
    """A shorter lip lies in the foot profile; a longer one has the wall's pressure below and is felt at the foot."""
    loads = loads_of(job_with(roof={"overhang_on_slope_mm": overhang}))
    where = area(y=(0.0, 3500.0 + overhang * COS_10))
    foot, middle = (the(loads, "0.9 G + 1.5 W up", at, where) for at in ("foot", "middle"))
    assert (foot.wind < middle.wind) is counts
    assert ("overhang" in foot.wind_name) is counts


def test_an_accident_without_a_case_is_left_out() -> None:
    """No door and no exceptional snow: no combination with either."""
    loads = sheet_loads(loads_of(job_with()), area())
    assert not [x for x in loads if x.combination.snow_accidental or x.combination.wind_accidental]
