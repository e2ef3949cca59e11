"""Wind: peak pressure, zones, what stands inside, open roofs, own coefficients, refusals."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.job.shape import roof_shape
from pentice.loads.inside import wall_coefficients_at
from pentice.loads.values import Loads, WindCase, WindZone
from pentice.standards.annex import load_annex
from tests.unit.loads.roofs import OPEN, job_with, loads_of

EXACT = 1e-9
"""Both sides are the same arithmetic in another order."""


def cases_with(loads: Loads, *words: str) -> list[WindCase]:
    """Every wind case whose name holds all the words."""
    return [case for case in loads.wind.cases if all(word in case.name for word in words)]


def zone_named(case: WindCase, name: str) -> WindZone:
    """The first zone of that name."""
    return next(zone for zone in case.zones if zone.name == name)


def test_the_reference_height_is_the_top_of_the_house_s_wall() -> None:
    """2.9 m at the head and 2.5 m of wall above: 5.4 m."""
    assert loads_of(job_with()).wind.reference_height_m == pytest.approx(5.4)


def test_the_peak_pressure_comes_from_velocity_terrain_and_height() -> None:
    """Terrain III below 5 m, 24 m/s: 0.4611 kN/m2 (EN 1991-1-4, 4.5, worked by hand with z_min); 5.4 m gives more."""
    low = loads_of(job_with(house={"wall_top_above_mm": 1500.0})).wind.peak_pressure_kn_m2
    high = loads_of(job_with()).wind.peak_pressure_kn_m2
    assert low == pytest.approx(0.4611, abs=0.00005)
    assert high is not None and high > 0.4611


def test_a_peak_pressure_that_is_given_replaces_the_rest() -> None:
    """Neither velocity nor terrain is then asked for."""
    site = {"peak_pressure_kn_m2": 0.71, "vb0_m_s": None, "terrain": None}
    assert loads_of(job_with(site=site)).wind.peak_pressure_kn_m2 == 0.71


def test_a_direction_factor_acts_on_the_velocity() -> None:
    """0.8 on the velocity is 0.64 on the pressure."""
    full = loads_of(job_with()).wind.peak_pressure_kn_m2 or 0.0
    less = loads_of(job_with(site={"wind_direction_factor": 0.8})).wind.peak_pressure_kn_m2
    assert less == pytest.approx(0.64 * full, rel=EXACT)


def test_a_lower_reference_height_shows_its_reason() -> None:
    """Given with a note: the note stands in the working."""
    site = {
        "reference_height_m": {"value": 3.2, "note": "free-standing for the wind, agreed with the engineer"}
    }
    wind = loads_of(job_with(site=site)).wind
    assert wind.reference_height_m == 3.2
    assert "agreed with the engineer" in wind.working[0].numbers


def test_a_closed_roof_has_every_wind_with_both_pressures_inside() -> None:
    """Four winds, onto the eaves both signs: five outside cases, times +0.2 and -0.3 inside."""
    cases = loads_of(job_with()).wind.cases
    assert len(cases) == 10
    assert {case.inside for case in cases} == {0.2, -0.3}
    assert {case.kind for case in cases} == {"outside and inside"}


def test_wind_from_the_house_side_is_kept_and_said_to_be_a_bound() -> None:
    """Table 7.3 has 180 degrees; the house shelters it, no clause says by how much."""
    assert cases_with(loads_of(job_with()), "from the house side", "kept as a bound")


def test_outside_coefficients_are_those_between_5_and_15_degrees() -> None:
    """Table 7.3 at 10 deg, wind onto the eaves, zone F: halfway -1.7/-2.5 and -0.9/-2.0, so -1.3/-2.25."""
    case = cases_with(loads_of(job_with()), "onto the eaves", "suction", "+0.2")[0]
    assert zone_named(case, "F").c_10 == pytest.approx(-1.3, rel=EXACT)
    assert zone_named(case, "F").c_1 == pytest.approx(-2.25, rel=EXACT)
    assert "F -1.30 / -2.25" in case.working[0].numbers


def test_the_strip_at_the_eaves_is_a_tenth_of_e() -> None:
    """e = min(5.2; 2 x 2.9) = 5.2: F and G from 3.5 - 0.52 to 3.5 m, F 1.3 m long at each end."""
    case = cases_with(loads_of(job_with()), "onto the eaves", "suction", "+0.2")[0]
    f = zone_named(case, "F")
    assert f.y_mm == pytest.approx((2980.0, 3500.0))
    assert f.x_mm == pytest.approx((0.0, 1300.0))


@pytest.mark.parametrize("pitch", [3.0, 10.0, 44.0])
def test_zones_tile_the_roof(pitch: float) -> None:
    """Areas add up to the roof for every closed case, overhang and all; the tolerance is rounding."""
    job = job_with(roof={"pitch_deg": pitch, "overhang_on_slope_mm": 250.0})
    shape = roof_shape(job)
    for case in loads_of(job).wind.cases:
        area = sum((z.x_mm[1] - z.x_mm[0]) * (z.y_mm[1] - z.y_mm[0]) for z in case.zones)
        assert area == pytest.approx(shape.width_mm * shape.depth_on_plan_mm, rel=1e-9)


def test_under_an_overhang_stands_the_pressure_on_the_wall() -> None:
    """Wind onto the front: D presses up from below (0.8 at h/d 0.78), the pressure inside has no say there."""
    loads = loads_of(job_with(roof={"overhang_on_slope_mm": 300.0}))
    case = cases_with(loads, "onto the eaves", "suction", "-0.3")[0]
    lip = zone_named(case, "F overhang")
    assert lip.y_mm[0] == pytest.approx(3500.0)
    assert lip.under_10 is not None and 0.7 < lip.under_10 <= 0.8
    assert lip.under_1 == 1.0
    assert any("7.2.1(3)" in note for note in loads.notes)


def test_wind_along_the_wall_sucks_under_the_overhang_most_at_its_windward_end() -> None:
    """A -1.2 over e/5, then B -0.8; from the right the same from the other end."""
    loads = loads_of(job_with(roof={"overhang_on_slope_mm": 300.0}))
    for words, end in (("from the left", 0.0), ("from the right", 5200.0)):
        case = cases_with(loads, words, "+0.2")[0]
        under = {zone.x_mm: zone.under_10 for zone in case.zones if zone.under_10 is not None}
        first = min(under, key=lambda x: abs((x[0] + x[1]) / 2.0 - end))
        assert under[first] == pytest.approx(-1.2)
        assert min(under.values()) == pytest.approx(-1.2) and max(under.values()) >= -0.8


def test_a_roof_that_ends_at_the_beam_has_no_zone_beyond_it() -> None:
    """No sliver from rounding: every zone ends at the beam or before."""
    assert not [z for case in loads_of(job_with()).wind.cases for z in case.zones if z.under_10 is not None]


def test_above_45_degrees_wind_is_refused_and_says_so() -> None:
    """The table is not held there; the peak pressure is still shown."""
    wind = loads_of(job_with(roof={"pitch_deg": 50.0})).wind
    assert wind.cases == ()
    assert "pitch_deg is 50 deg" in wind.refused
    assert wind.peak_pressure_kn_m2 is not None


def test_an_open_roof_has_net_coefficients_for_both_blockages() -> None:
    """Square to the wall and along it; down, up free and up blocked: six cases that hold both faces."""
    cases = loads_of(job_with(roof=OPEN)).wind.cases
    assert len(cases) == 6
    assert {case.inside for case in cases} == {0.0}
    assert {case.kind for case in cases} == {"net both faces"}


def test_net_coefficients_are_those_of_the_table() -> None:
    """Table 7.6 at 10 deg: A +1.2, -1.5 free, -2.1 blocked; B +2.4."""
    loads = loads_of(job_with(roof=OPEN))
    down, free, blocked = cases_with(loads, "square to the wall")
    assert zone_named(down, "A").c_10 == zone_named(down, "A").c_1 == pytest.approx(1.2)
    assert zone_named(down, "B").c_10 == pytest.approx(2.4)
    assert zone_named(free, "A").c_10 == pytest.approx(-1.5)
    assert zone_named(blocked, "A").c_10 == pytest.approx(-2.1)


def test_the_strips_of_an_open_roof_turn_with_the_wind() -> None:
    """Square to the wall B lies along the ends, b/10 = 520 mm; along the wall it lies at head and foot, 350 mm."""
    square, along = (cases_with(loads_of(job_with(roof=OPEN)), w, "down")[0] for w in ("square", "along"))
    assert zone_named(square, "B").x_mm == pytest.approx((0.0, 520.0))
    assert zone_named(along, "B").y_mm == pytest.approx((0.0, 350.0))


def test_an_open_roof_steeper_than_30_degrees_is_refused() -> None:
    """Table 7.6 ends there."""
    assert "expected 0 to 30 deg" in loads_of(job_with(roof={**OPEN, "pitch_deg": 35.0})).wind.refused


def test_two_open_sides_make_an_open_roof_and_one_does_not() -> None:
    """Two or three free sides: net coefficients; one: inside and outside, with the factor that must be given."""
    two = loads_of(job_with(roof={"left": "open", "front": "open"})).wind
    assert {case.kind for case in two.cases} == {"net both faces"}
    one = loads_of(job_with(roof={"front": "open"})).wind
    assert one.cases == ()
    assert "dominant_factor" in one.refused


def front_opening(**keys: object) -> dict[str, object]:
    """The front with one opening."""
    opening = {"wall": "front", "kind": "door", "x_mm": 500.0, "width_mm": 900.0, "height_mm": 2000.0, **keys}
    return {"openings": [opening]}


def test_one_open_side_lets_in_its_share_of_what_stands_there() -> None:
    """Front open, factor 0.9: wind onto it 0.9 D; along it e = 3.5 of 5.2 m, so A to C: 0.9 x -1.2 and 0.9 x -0.5."""
    loads = loads_of(job_with(roof={"front": "open", **front_opening(dominant_factor=0.9)}))
    onto = {case.inside for case in cases_with(loads, "onto the eaves")}
    assert len(onto) == 1 and 0.63 <= min(onto) <= 0.72
    along = sorted({case.inside for case in cases_with(loads, "from the left")})
    assert along == [pytest.approx(-1.08), pytest.approx(-0.45)]
    assert loads.wind.refused == ""


def test_a_door_that_is_shut_in_storms_is_open_by_accident() -> None:
    """The case is accidental; the closed cases stay as they were."""
    cases = loads_of(job_with(roof=front_opening(dominant_factor=0.75))).wind.cases
    door = [case for case in cases if "door in the front open" in case.name]
    assert {case.situation for case in door} == {"accidental"}
    assert len([case for case in cases if case.situation == "persistent"]) == 10


def test_a_door_that_stays_open_is_an_everyday_case() -> None:
    """Not shut in storms: persistent, with the full factor of a variable action."""
    roof = front_opening(dominant_factor=0.75, shut_in_storms=False)
    door = cases_with(loads_of(job_with(roof=roof)), "door in the front open")
    assert door and {case.situation for case in door} == {"persistent"}


def test_a_door_without_its_factor_is_refused_alone() -> None:
    """The other cases stand; the sentence names the key."""
    wind = loads_of(job_with(roof=front_opening())).wind
    ((name, why),) = wind.cases_refused
    assert name == "door in the front open"
    assert "roof.openings[0].dominant_factor" in why
    assert len(wind.cases) == 10


@pytest.mark.parametrize("keys", [{"opens": False}, {"wall": "house"}, {"kind": "window"}])
def test_what_does_not_open_in_a_storm_makes_no_case(keys: dict[str, object]) -> None:
    """A fixed door, a door to the house, a window that is shut in storms."""
    wind = loads_of(job_with(roof=front_opening(**keys))).wind
    assert wind.cases_refused == () and len(wind.cases) == 10


def test_walls_take_pressure_in_front_and_suction_behind_and_beside() -> None:
    """Left wall: D with wind from the left, E from the right, A first with wind along it."""
    shape = roof_shape(job_with())
    assert wall_coefficients_at(shape, "left", "from left")[0] > 0.7
    assert wall_coefficients_at(shape, "left", "from right")[0] < 0.0
    assert wall_coefficients_at(shape, "left", "onto foot")[0] == pytest.approx(-1.2)
    assert wall_coefficients_at(shape, "front", "onto head")[0] < 0.0


@pytest.mark.parametrize(("roof", "table"), [({}, "NA.5 to NA.7"), (OPEN, "PD 6688-1-4")])
def test_figures_of_the_standard_are_not_passed_off_as_the_uk_s(roof: dict[str, str], table: str) -> None:
    """The UK annex has tables of its own that are not held: refused, with what to give."""
    wind = loads_of(job_with(site={"annex": "UK"}, roof=roof)).wind
    assert wind.cases == ()
    assert "site.wind_coefficients" in wind.refused and table in wind.refused


def test_the_uk_peak_pressure_is_read_from_figures_and_typical() -> None:
    """24 x 1.1 = 26.4 m/s, q_b = 0.613 x 26.4^2 = 427 N/m2; c_e at 5.4 m, 10 km is between 2.037 and 2.152; + 3 %."""
    wind = loads_of(job_with(site={"annex": "UK"})).wind
    assert wind.typical
    assert wind.peak_pressure_kn_m2 == pytest.approx(
        0.613e-3 * 26.4**2 * (2.037 + 0.4 * 0.115) * 1.03, rel=1e-6
    )
    assert any("digitised" in note for note in loads_of(job_with(site={"annex": "UK"})).notes)


def test_a_given_peak_pressure_is_not_typical_in_the_uk() -> None:
    """Whoever has the printed figures gives the value."""
    assert not loads_of(job_with(site={"annex": "UK", "peak_pressure_kn_m2": 0.8})).wind.typical


def test_beyond_the_digitised_curves_wind_is_refused() -> None:
    """A tall house at 12.9 m: the curves end at 10 m."""
    wind = loads_of(job_with(site={"annex": "UK"}, house={"wall_top_above_mm": 10000.0})).wind
    assert wind.peak_pressure_kn_m2 is None and "12.9" in wind.refused


def own(*zones: dict[str, object]) -> dict[str, object]:
    """The UK site with coefficients of its own."""
    return {"annex": "UK", "wind_coefficients": {"source": "our engineer, sheet 4", "zones": list(zones)}}


def test_own_coefficients_tile_the_roof_and_the_worse_counts_where_they_overlap() -> None:
    """A whole-roof zone and a worse edge on top: in the edge the edge's, elsewhere the field's; nothing twice."""
    site = own(
        {"name": "field", "down": 0.4, "up": -0.8},
        {"name": "edge", "x_mm": [0.0, 600.0], "down": 0.2, "up": -1.6},
    )
    down, up = loads_of(job_with(site=site)).wind.cases
    assert sum((z.x_mm[1] - z.x_mm[0]) * (z.y_mm[1] - z.y_mm[0]) for z in up.zones) == pytest.approx(
        5200 * 3500
    )
    assert {(z.name, z.c_10) for z in up.zones} == {("edge", -1.6), ("field", -0.8)}
    assert {z.c_10 for z in down.zones} == {0.4}
    assert down.kind == "own coefficients" and "our engineer, sheet 4" in down.name


def test_own_coefficients_that_leave_a_part_bare_refuse_the_wind() -> None:
    """The bare part is named; two zones on the same half do not stand for the other."""
    half = {"name": "left half", "x_mm": [0.0, 2600.0], "down": 0.2, "up": -1.0}
    wind = loads_of(job_with(site=own(half, half))).wind
    assert wind.cases == ()
    assert "leave x 2600 to 5200" in wind.refused


def test_another_annex_may_replace_the_table_for_closed_roofs() -> None:
    """An annex without Table 7.3 refuses closed roofs and leaves open ones alone."""
    base = load_annex("EN")
    annex = replace(base, table_7_3=None, absent=(*base.absent, ("table_7_3", "its own tables. Give them.")))
    assert "Give them" in loads_of(job_with(), annex).wind.refused
    assert loads_of(job_with(roof=OPEN), annex).wind.refused == ""
