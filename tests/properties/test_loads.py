"""What holds for the loads of any roof: mirrors, more snow is never less, zones tile, refusals name a key."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.errors import InputError
from pentice.job.model import Job
from pentice.job.shape import roof_shape
from pentice.loads.lines import Strip, net_coefficient, wind_line, zone_pressures, zones_over
from pentice.loads.on_sheet import SheetArea, winds_on_sheet
from pentice.loads.values import Loads, Wind, WindCase
from tests.unit.loads.roofs import job_with, loads_of

ROUNDING = 1e-6
"""[mm] or a share: sums of a few numbers of up to 1e4."""

SIDES = st.sampled_from(["open", "closed", "wall"])


@st.composite
def roofs(draw: st.DrawFn, /, **fixed: Any) -> Job:
    """Any rectangular roof on a house, with its site; `fixed` keys of [site] stay."""
    width = draw(st.integers(900, 15000))
    roof: dict[str, Any] = {
        "use": "canopy",
        "width_mm": float(width),
        "projection_mm": float(draw(st.integers(800, 6000))),
        "pitch_deg": float(draw(st.integers(2, 30))),
        "head_height_mm": float(draw(st.integers(2200, 3900))),
        "overhang_on_slope_mm": float(draw(st.sampled_from([0, 50, 150, 400]))),
        "left": draw(SIDES),
        "right": draw(SIDES),
        "front": draw(st.sampled_from(["open", "closed"])),
        "side_wall_top_above_mm": float(draw(st.integers(0, 4000))),
        "side_wall_depth_mm": float(draw(st.integers(2000, 12000))),
    }
    top = draw(st.integers(0, 9000))
    house = {
        "wall_top_above_mm": float(top),
        "lowest_wall_top_above_mm": float(draw(st.integers(0, top))),
        "depth_mm": float(draw(st.integers(3000, 15000))),
        "roof_pitch_deg": float(draw(st.integers(0, 60))),
        "roof_drains_to_us": draw(st.booleans()),
    }
    site = {
        "ground_snow_kn_m2": draw(st.floats(0.0, 6.0)),
        "snow_exposure": draw(st.sampled_from(["windswept", "normal", "sheltered"])),
        "accidental_snow_kn_m2": draw(st.one_of(st.just(0.0), st.floats(0.1, 8.0))),
        **fixed,
    }
    return job_with(site=site, house=house, roof=roof)


def mirrored(job: Job) -> Job:
    """The same roof seen in a mirror: what was left is right."""
    roof = job.roof.model_copy(update={"left": job.roof.right, "right": job.roof.left})
    return job.model_copy(update={"roof": roof})


def worst_snow(loads: Loads, x: float, y: float, situation: str) -> float:
    """The greatest snow load at a place [kN/m2]."""
    return max((c.at(x, y) for c in loads.snow.cases if c.situation == situation), default=0.0)


def felt(cases: list[WindCase], x: float, y: float) -> list[tuple[float, float, float]]:
    """Coefficients and inside pressure of every case at a place, sorted: what is felt there, whatever it is called."""
    found = []
    for case in cases:
        for zone in case.zones:
            if zone.x_mm[0] < x < zone.x_mm[1] and zone.y_mm[0] < y < zone.y_mm[1]:
                below = case.inside if zone.under_10 is None else zone.under_10
                found.append((round(zone.c_10, 9), round(zone.c_1, 9), round(below, 9)))
    return sorted(found)


@given(roofs(), st.floats(0.013, 0.987), st.floats(0.013, 0.987))
def test_a_mirrored_roof_has_mirrored_snow(job: Job, x_share: float, y_share: float) -> None:
    """At the mirrored place the same snow lies, everyday and exceptional; the corners lie mirrored too."""
    loads, other = loads_of(job), loads_of(mirrored(job))
    width, y = roof_shape(job).width_mm, y_share * roof_shape(job).depth_on_plan_mm
    for situation in ("persistent", "accidental"):
        here = worst_snow(loads, x_share * width, y, situation)
        there = worst_snow(other, width - x_share * width, y, situation)
        assert here == pytest.approx(there, rel=ROUNDING, abs=ROUNDING)
    turned = sorted(((width - x[1], width - x[0]), ys) for x, ys in other.snow.corners)
    for one, two in zip(sorted(loads.snow.corners), turned, strict=True):
        assert one[0] == pytest.approx(two[0], abs=ROUNDING)
        assert one[1] == pytest.approx(two[1], abs=ROUNDING)


@given(roofs(), st.floats(0.013, 0.987), st.floats(0.013, 0.987))
def test_a_mirrored_roof_feels_mirrored_wind(job: Job, x_share: float, y_share: float) -> None:
    """At the mirrored place the same set of coefficients is felt."""
    loads, other = loads_of(job), loads_of(mirrored(job))
    assert loads.wind.refused.replace("left", "right") == other.wind.refused.replace("left", "right")
    shape = roof_shape(job)
    x, y = x_share * shape.width_mm, y_share * shape.depth_on_plan_mm
    edges = {e for c in (*loads.wind.cases, *other.wind.cases) for z in c.zones for e in z.x_mm}
    if any(abs(e - x) < ROUNDING or abs(e - shape.width_mm + x) < ROUNDING for e in edges):
        return
    here, there = felt([*loads.wind.cases], x, y), felt([*other.wind.cases], shape.width_mm - x, y)
    assert here == there


@given(roofs(), st.floats(1.001, 3.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_snow_on_the_ground_is_never_less_on_the_roof(
    job: Job, more: float, x_share: float, y_share: float
) -> None:
    """At any place of the roof; the drift's cap 2 h / s_k lets it stay the same, never fall."""
    ground = job.site.ground_snow_kn_m2 or 0.0
    richer = job.model_copy(
        update={"site": job.site.model_copy(update={"ground_snow_kn_m2": min(more * ground, 15.0)})}
    )
    shape = roof_shape(job)
    x, y = x_share * shape.width_mm, y_share * shape.depth_on_plan_mm
    less = worst_snow(loads_of(job), x, y, "persistent")
    assert worst_snow(loads_of(richer), x, y, "persistent") >= less - ROUNDING


@given(roofs())
def test_zones_tile_the_roof_exactly(job: Job) -> None:
    """Every case: areas add up to the roof's, no zone leaves it, no two overlap."""
    shape = roof_shape(job)
    for case in loads_of(job).wind.cases:
        areas = [(z.x_mm[1] - z.x_mm[0]) * (z.y_mm[1] - z.y_mm[0]) for z in case.zones]
        assert math.fsum(areas) == pytest.approx(shape.width_mm * shape.depth_on_plan_mm, rel=1e-9)
        assert min(areas) > 0.0
        for z in case.zones:
            assert z.x_mm[0] >= -ROUNDING and z.x_mm[1] <= shape.width_mm + ROUNDING
            assert z.y_mm[0] >= -ROUNDING and z.y_mm[1] <= shape.depth_on_plan_mm + ROUNDING
        for i, a in enumerate(case.zones):
            for b in case.zones[i + 1 :]:
                in_x = min(a.x_mm[1], b.x_mm[1]) - max(a.x_mm[0], b.x_mm[0])
                in_y = min(a.y_mm[1], b.y_mm[1]) - max(a.y_mm[0], b.y_mm[0])
                assert in_x <= ROUNDING or in_y <= ROUNDING


@given(roofs(), st.integers(1, 7))
def test_strips_carry_all_of_the_wind(job: Job, parts: int) -> None:
    """Cut into strips side by side, each with the same loaded area, the roof is pushed as by one strip."""
    shape, loads = roof_shape(job), loads_of(job)
    peak = loads.wind.peak_pressure_kn_m2 or 0.0

    def push(left: float, right: float, case: WindCase) -> float:
        strip = Strip(
            x_mm=(left, right),
            length_mm=shape.depth_on_plan_mm / shape.cos_pitch,
            cos_pitch=shape.cos_pitch,
        )
        line = wind_line(zones_over(case.reaches, strip), zone_pressures(case, peak, 5.0))
        return math.fsum((b - a) * (qa + qb) / 2.0 for (a, qa), (b, qb) in pairwise(line))

    for case in loads.wind.cases:
        cuts = [shape.width_mm * i / parts for i in range(parts + 1)]
        together = math.fsum(push(a, b, case) for a, b in pairwise(cuts))
        assert together == pytest.approx(push(0.0, shape.width_mm, case), rel=1e-9, abs=ROUNDING)


@given(
    roofs(),
    st.sampled_from(
        [
            ("site", "altitude_m"),
            ("site", "ground_snow_kn_m2"),
            ("site", "vb0_m_s"),
            ("site", "terrain"),
            ("house", "wall_top_above_mm"),
            ("house", "depth_mm"),
        ]
    ),
)
def test_a_blank_is_named_and_never_guessed(job: Job, blank: tuple[str, str]) -> None:
    """Take one key out of any job: the error names it."""
    table, key = blank
    emptied = getattr(job, table).model_copy(update={key: None})
    with pytest.raises(InputError, match=rf"{table}\.{key} is missing"):
        loads_of(job.model_copy(update={table: emptied}))


@given(roofs(annex="UK", distance_to_sea_km=10.0, peak_pressure_kn_m2=0.7))
def test_uk_refusals_say_what_to_give(job: Job) -> None:
    """Whatever the sides: no wind case from figures of the EN, and the sentence names a key of the job."""
    wind = loads_of(job).wind
    assert wind.cases == ()
    assert "site.wind_coefficients" in wind.refused


@given(roofs(), st.floats(0.5, 1.0), st.floats(1.0, 2.0))
def test_the_force_on_the_whole_roof_goes_with_the_square_of_the_wind(
    job: Job, share: float, more: float
) -> None:
    """Faster wind, same coefficients and places: force and drag grow as v^2, so never less."""
    slow = job.model_copy(update={"site": job.site.model_copy(update={"vb0_m_s": 24.0 * share})})
    fast = job.model_copy(update={"site": job.site.model_copy(update={"vb0_m_s": 24.0 * share * more})})
    for a, b in zip(loads_of(slow).wind.whole, loads_of(fast).wind.whole, strict=True):
        assert (a.name, a.at_mm) == (b.name, b.at_mm)
        assert b.drag_kn == pytest.approx(more**2 * a.drag_kn, rel=1e-9)
        assert (b.force_kn or 0.0) == pytest.approx(more**2 * (a.force_kn or 0.0), rel=1e-9)


@given(roofs())
def test_a_mirrored_roof_has_its_force_mirrored(job: Job) -> None:
    """Left and right change places; the force stays, its place is mirrored."""
    shape = roof_shape(job)
    other = {case.name: case for case in loads_of(mirrored(job)).wind.whole}
    for case in loads_of(job).wind.whole:
        swap = {"left,": "right,", "right,": "left,"}
        there = other[" ".join(swap.get(word, word) for word in case.name.split(" "))]
        assert (case.force_kn, case.drag_kn) == (there.force_kn, there.drag_kn)
        if case.at_mm is not None and there.at_mm is not None:
            assert case.at_mm[0] == pytest.approx(shape.width_mm - there.at_mm[0], abs=ROUNDING)
            assert case.at_mm[1] == there.at_mm[1]


@given(roofs())
def test_the_force_acts_on_the_roof_and_in_its_windward_half(job: Job) -> None:
    """Never off the roof; a quarter of the depth from an edge."""
    shape = roof_shape(job)
    for case in loads_of(job).wind.whole:
        if case.at_mm is not None:
            assert 0.0 < case.at_mm[0] < shape.width_mm
            assert 0.0 < case.at_mm[1] < shape.depth_on_plan_mm


@given(roofs(), st.floats(0.0, 0.9), st.floats(0.02, 0.1), st.booleans())
def test_the_worst_wind_on_a_sheet_holds_every_case_and_names_one(
    job: Job, left: float, width: float, upward: bool
) -> None:
    """No case in any zone that the sheet touches is worse; the words are of a case and a zone that are there."""
    shape, loads = roof_shape(job), loads_of(job)
    x = (left * shape.width_mm, min(left + width, 1.0) * shape.width_mm)
    area = SheetArea(
        x_mm=x, y_mm=(0.0, shape.depth_on_plan_mm), cos_pitch=shape.cos_pitch, area_m2=x[1] * 1e-3 + 0.1
    )
    winds = winds_on_sheet(loads, area)["persistent", True]
    if winds is None:
        assert loads.wind.refused
        return
    found = winds[0] if upward else winds[1]
    words = {f"{case.name}, zone {zone.name}" for case in loads.wind.cases for zone in case.zones}
    assert found[0] in words
    peak, sign = loads.wind.peak_pressure_kn_m2 or 0.0, -1.0 if upward else 1.0
    for case in loads.wind.cases:
        for zone in case.zones:
            lip = zone.under_10 is not None and zone.y_mm[1] - zone.y_mm[0] < 100.0
            touched = min(zone.x_mm[1], x[1]) - max(zone.x_mm[0], x[0]) > 2.0 * ROUNDING
            if case.situation == "persistent" and touched and not lip:
                one = peak * net_coefficient(zone, case.inside, area.area_m2)
                assert sign * found[1] >= sign * one - 1e-9


@given(roofs(annex="UK", distance_to_sea_km=10.0, peak_pressure_kn_m2=0.7))
def test_a_uk_roof_below_a_wall_has_both_drifts_and_says_so(job: Job) -> None:
    """For each wall 5.3.6 as a lasting load and Annex B as an accident; the note names both."""
    loads = loads_of(job)
    lasting = {c.name.partition(" against ")[2] for c in loads.snow.cases if c.name.startswith("snow drift")}
    rare = {
        c.name.partition(" against ")[2]
        for c in loads.snow.cases
        if c.name.startswith("exceptional snow drift")
    }
    assert lasting == rare
    assert any("both drifts" in note for note in loads.notes) == bool(
        [c for c in loads.snow.cases if c.situation == "accidental"]
    )


@pytest.mark.parametrize(
    ("sides", "most_deg"), [("open", 30.0), ("closed", 45.0)], ids=["open roof", "closed roof"]
)
def test_wind_is_refused_just_past_the_end_of_its_table(sides: str, most_deg: float) -> None:
    """At the last pitch there are cases, a hundredth of a degree past it none, and a sentence with the range."""

    def wind(pitch_deg: float) -> Wind:
        roof = {
            "left": sides,
            "right": sides,
            "front": sides,
            "pitch_deg": pitch_deg,
            "head_height_mm": 6000.0,
        }
        return loads_of(job_with(roof=roof)).wind

    assert wind(most_deg).cases and not wind(most_deg).refused
    past = wind(most_deg + 0.01)
    assert not past.cases and not past.whole
    assert f"expected 0 to {most_deg:g} deg" in past.refused
