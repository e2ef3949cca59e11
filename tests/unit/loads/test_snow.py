"""Snow: even, drifted, exceptional, and what is refused. Expected numbers are worked out by hand in each test."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import pytest

from pentice.errors import InputError
from pentice.job.model import Job
from pentice.job.shape import roof_shape
from pentice.loads.drift import corner_of, drift_case, side_wall
from pentice.loads.values import Loads, SnowCase
from pentice.standards.annex import load_annex
from tests.unit.loads.roofs import OPEN, job_with, loads_of

EXACT = 1e-9
"""Both sides are the same arithmetic in another order."""


def case_named(loads: Loads, start: str) -> SnowCase:
    """The one snow case whose name begins so."""
    (found,) = [case for case in loads.snow.cases if case.name.startswith(start)]
    return found


def test_even_snow_is_four_fifths_of_the_ground() -> None:
    """mu_1 = 0.8 up to 30 degrees: 0.8 x 0.6 = 0.48, the same everywhere."""
    even = case_named(loads_of(job_with()), "snow, even")
    assert even.at(0.0, 0.0) == pytest.approx(0.48, rel=EXACT)
    assert even.at(5000.0, 3000.0) == pytest.approx(0.48, rel=EXACT)


def test_the_drift_at_the_house_is_blown_and_slid() -> None:
    """mu_w = 11.5/5 = 2.3, mu_s = 0.8 x 25/30 x 4/5 = 0.5333, l_s = 5 m: 0.6 x 2.8333 = 1.70 at the wall."""
    drift = case_named(loads_of(job_with()), "snow drift against the house")
    assert drift.at(0.0, 0.0) == pytest.approx(0.6 * (2.3 + 0.8 * 25 / 30 * 4 / 5), rel=EXACT)


def test_the_drift_is_read_at_the_foot_and_never_shortened() -> None:
    """2.8333 falls to 0.8 at 5 m; at the foot, 3.5 m, mu = 1.41 and s = 0.846."""
    drift = case_named(loads_of(job_with()), "snow drift against the house")
    assert drift.at(0.0, 3500.0) == pytest.approx(0.6 * (2.833333333 - 2.033333333 * 0.7), rel=1e-8)
    assert drift.reach_mm == pytest.approx(3500.0)


def test_a_windswept_roof_keeps_all_of_a_drift() -> None:
    """The reduction for wind may lessen the even snow only: C_e is 1.0 at least whenever a drift acts."""
    loads = loads_of(job_with(site={"snow_exposure": "windswept"}))
    assert case_named(loads, "snow, even").at(0.0, 0.0) == pytest.approx(0.8 * 0.48, rel=EXACT)
    assert case_named(loads, "snow drift").at(0.0, 0.0) == pytest.approx(1.70, rel=1e-8)


def test_a_guarded_roof_slides_nothing_and_says_what_the_guard_must_hold() -> None:
    """Without mu_s 0.6 x 2.3 = 1.38; the guard holds 0.8 x 0.6 x 4 x sin 35 = 1.101 kN/m."""
    drift = case_named(loads_of(job_with(house={"slides_guarded": True})), "snow drift")
    assert drift.at(0.0, 0.0) == pytest.approx(1.38, rel=EXACT)
    guard = next(step for step in drift.working if "guard" in step.says)
    assert guard.result == pytest.approx(1.1013, abs=0.00005)


def test_under_a_gable_the_worst_step_counts_and_is_named() -> None:
    """Between 0.5 and 2.5 m the blown drift is highest where 11.5/(2h) = 2h/0.6: h = 1.3134 m, mu_w = 4 (cap)."""
    drift = case_named(loads_of(job_with(house={"lowest_wall_top_above_mm": 500.0})), "snow drift")
    assert drift.at(0.0, 0.0) == pytest.approx(0.6 * (4.0 + 0.533333333), rel=1e-8)
    assert "0.50 to 2.50 m" in drift.working[0].numbers
    assert 1.2 <= float(drift.working[0].result) <= 11.5 / 8


def test_under_a_gable_no_single_step_is_worse_anywhere() -> None:
    """The case lies above the drift of every step between, at every place: it is an envelope."""
    gable = case_named(loads_of(job_with(house={"lowest_wall_top_above_mm": 300.0})), "snow drift")
    for top in (300.0, 700.0, 1100.0, 1500.0, 1900.0, 2300.0, 2500.0):
        level = case_named(loads_of(job_with(house={"wall_top_above_mm": top})), "snow drift")
        for y in (0.0, 437.0, 1000.0, 2111.0, 3500.0):
            assert gable.at(0.0, y) >= level.at(0.0, y) - EXACT


def test_a_wall_no_higher_than_the_roof_makes_no_drift() -> None:
    """A step of nothing: only the even snow is left."""
    loads = loads_of(job_with(house={"wall_top_above_mm": 0.0}))
    assert [case.name for case in loads.snow.cases] == ["snow, even"]


@pytest.mark.parametrize("ground", [0.0, 0.005])
def test_a_place_without_snow_has_a_case_all_the_same(ground: float) -> None:
    """Checks need a snow case; the drift rule divides by the ground snow and is left out."""
    (even,) = loads_of(job_with(site={"ground_snow_kn_m2": ground})).snow.cases
    assert even.at(0.0, 0.0) == pytest.approx(0.8 * ground, abs=EXACT)


def test_snow_by_region_is_the_map_s_own_rule() -> None:
    """UK zone 3 at 100 m: 0.15 + 0.3 + 0.05 + 0 = 0.50, and the source is named."""
    site = {"ground_snow_kn_m2": None, "snow_region": "UK", "snow_zone": "3", "annex": "UK"}
    snow = loads_of(job_with(site=site)).snow
    assert snow.ground_kn_m2 == pytest.approx(0.5, rel=EXACT)
    assert "NA.1" in snow.working[0].clause


def side_job(side: str, top: float = 3000.0) -> Job:
    """The plain roof with a taller building at one end."""
    return job_with(roof={side: "wall", "side_wall_top_above_mm": top, "side_wall_depth_mm": 6000.0})


def test_a_side_wall_drifts_from_its_own_end() -> None:
    """b 6 + 5.2 m over twice 3.0 m: mu_w = 1.8667, 1.12 kN/m2 at the left wall, 0.48 where the drift has ended."""
    drift = case_named(loads_of(side_job("left")), "snow drift against the left side wall")
    assert drift.along == "x"
    assert drift.at(0.0, 0.0) == pytest.approx(0.6 * 11.2 / 6.0, rel=EXACT)
    assert drift.at(5200.0, 0.0) < drift.at(2000.0, 0.0) < drift.at(0.0, 0.0)


def test_the_step_at_a_side_wall_grows_as_our_roof_falls() -> None:
    """A wall 0.5 m above the head is 0.5 + 3.5 tan 10 = 1.117 m above the foot, and 2 h/s_k = 3.72 holds there."""
    job = side_job("left", top=500.0)
    drift = case_named(loads_of(job), "snow drift against the left side wall")
    rise = 3.5 * 0.17632698
    assert drift.at(0.0, 0.0) == pytest.approx(0.6 * 2.0 * (0.5 + rise) / 0.6, rel=1e-6)


def test_right_is_left_in_the_mirror() -> None:
    """The same wall at the other end: the same loads, counted from the other end."""
    left = case_named(loads_of(side_job("left")), "snow drift against the left")
    right = case_named(loads_of(side_job("right")), "snow drift against the right")
    for x in (0.0, 800.0, 2600.0, 5200.0):
        assert left.at(x, 0.0) == pytest.approx(right.at(5200.0 - x, 0.0), rel=EXACT)
    assert [p for p, _ in right.points] == sorted(p for p, _ in right.points)


def test_the_corner_of_two_walls_is_marked_where_both_drifts_reach() -> None:
    """House l_s = 5 m beyond the foot at 3.5; side wall 1.0 to 1.617 m: l_s = 5 m of 5.2."""
    ((xs, ys),) = loads_of(side_job("right", top=1000.0)).snow.corners
    assert xs == pytest.approx((200.0, 5200.0))
    assert ys == pytest.approx((0.0, 3500.0))


def test_without_a_drift_at_the_house_there_is_no_corner() -> None:
    """Where the house is no higher than our roof, the side wall's drift stands alone."""
    job = side_job("left")
    assert job.house is not None
    low = job.model_copy(update={"house": job.house.model_copy(update={"wall_top_above_mm": 0.0})})
    assert loads_of(low).snow.corners == ()


def test_a_drift_that_is_no_drift_reaches_nowhere() -> None:
    """A step of 0.2 m holds mu 0.667 only, the floor 0.8 is the even snow: no reach, so no corner."""
    job = side_job("left", top=1000.0)
    wall = side_wall(job, roof_shape(job), "left")
    assert wall is not None and not isinstance(wall, str)
    low = replace(wall, lowest_m=0.1, highest_m=0.2)
    case = drift_case(job, load_annex("EN"), low, 0.6)
    assert case.reach_mm == 0.0
    assert corner_of(case, case, roof_shape(job))[1] == (0.0, 0.0)


def test_a_side_wall_without_its_sizes_refuses_its_drift_only() -> None:
    """The even snow and the drift of the house stay; the sentence names both keys."""
    snow = loads_of(job_with(roof={"left": "wall"})).snow
    ((name, why),) = snow.refused
    assert name == "drift from the left side wall"
    assert "roof.side_wall_top_above_mm and roof.side_wall_depth_mm" in why
    assert len(snow.cases) == 2


def test_a_side_wall_no_taller_than_our_roof_drifts_nothing() -> None:
    """Nothing stands above us there, so its depth is not asked for either."""
    job = job_with(roof={"left": "wall", "side_wall_top_above_mm": 0.0})
    assert loads_of(job).snow.refused == ()
    assert len(loads_of(job).snow.cases) == 2


def test_the_exceptional_drift_of_annex_b_is_an_accident() -> None:
    """UK: l_s = min(12.5; 3.5; 15) = 3.5, mu_3 = min(8.33; 16/3.5; 8) = 4.571, 2.743 at the wall, 0 at the foot."""
    drift = case_named(loads_of(job_with(site={"annex": "UK"})), "exceptional snow drift against the house")
    assert drift.situation == "accidental"
    assert drift.at(0.0, 0.0) == pytest.approx(0.6 * 16 / 3.5, rel=EXACT)
    assert drift.at(0.0, 3500.0) == pytest.approx(0.0, abs=EXACT)


def test_under_a_gable_the_exceptional_drift_takes_the_worst_step() -> None:
    """At h = 0.5 m: l_s = 2.5, min(1.67; 6.4; 8) = 1.67; the highest step is worse at the wall and must not be lost;
    at h = 0.65, l_s = 3.25. No level wall between is worse anywhere by more than the gap between tried steps."""
    gable = case_named(
        loads_of(job_with(site={"annex": "UK"}, house={"lowest_wall_top_above_mm": 400.0})),
        "exceptional snow drift",
    )
    for top in (400.0, 505.0, 1030.0, 2500.0):
        level = case_named(
            loads_of(job_with(site={"annex": "UK"}, house={"wall_top_above_mm": top})),
            "exceptional snow drift",
        )
        for y in (0.0, 1000.0, 2600.0):
            assert gable.at(0.0, y) >= level.at(0.0, y) - EXACT


def test_a_side_wall_has_its_exceptional_drift_too() -> None:
    """Every roof that abuts a taller building: the UK annex makes no difference between house and side wall."""
    job = job_with(
        site={"annex": "UK"},
        roof={"left": "wall", "side_wall_top_above_mm": 3000.0, "side_wall_depth_mm": 6000.0},
    )
    assert case_named(loads_of(job), "exceptional snow drift against the left side wall").along == "x"


def test_exceptional_snow_that_is_given_falls_even_and_drifted() -> None:
    """0.8 x 1.5 = 1.2 even; against the house 1.5 x (min(2.3; 3.33; 4) + 0.5333) = 4.25."""
    loads = loads_of(job_with(site={"accidental_snow_kn_m2": 1.5}))
    even = case_named(loads, "exceptional snow, even")
    drifted = case_named(loads, "exceptional snow, drifted")
    assert even.situation == drifted.situation == "accidental"
    assert even.at(0.0, 0.0) == pytest.approx(1.2, rel=EXACT)
    assert drifted.at(0.0, 0.0) == pytest.approx(1.5 * (2.3 + 0.533333333), rel=1e-8)


def test_a_sheltered_roof_keeps_more_of_exceptional_snow() -> None:
    """C_e = 1.2 acts on the drift too: it is more than 1.0."""
    site = {"accidental_snow_kn_m2": 1.5, "snow_exposure": "sheltered"}
    drifted = case_named(loads_of(job_with(site=site)), "exceptional snow, drifted")
    assert drifted.at(0.0, 0.0) == pytest.approx(1.2 * 1.5 * (2.3 + 0.533333333), rel=1e-8)


def test_where_the_country_is_not_known_to_have_it_exceptional_snow_is_refused() -> None:
    """UK: the case that applies was only remembered, so the key is named and nothing assumed."""
    refused = dict(loads_of(job_with(site={"annex": "UK"})).snow.refused)
    assert "site.accidental_snow_kn_m2" in refused["exceptional snow falls"]


def test_a_country_with_exceptional_falls_takes_its_factor() -> None:
    """C_esl = 2: 2 x 0.6 on the ground, 0.96 even on the roof."""
    annex = replace(load_annex("EN"), exceptional_falls=True, exceptional_fall_factor=2.0)
    even = case_named(loads_of(job_with(), annex), "exceptional snow, even")
    assert even.at(0.0, 0.0) == pytest.approx(0.96, rel=EXACT)


def test_no_exceptional_snow_given_as_nothing_makes_no_case() -> None:
    """0 kN/m2 given says that there is none: not refused and no case."""
    snow = loads_of(job_with(site={"annex": "UK", "accidental_snow_kn_m2": 0.0})).snow
    assert snow.refused == ()
    assert not [case for case in snow.cases if case.name.startswith("exceptional snow,")]


def test_above_800_m_the_snow_over_the_foot_is_worked_out_and_what_it_hangs_on_is_asked() -> None:
    """s = 1.2: d = 0.4, k = min(3/0.4; 1.2) = 1.2, s_e = 1.2 x 1.44/3 = 0.576 kN/m."""
    loads = loads_of(job_with(site={"altitude_m": 900.0, "ground_snow_kn_m2": 1.5}))
    assert loads.snow.foot_line_kn_m == pytest.approx(0.576, rel=EXACT)
    assert [why for case, why in loads.snow.refused if case == "snow over the foot" and "0.58 kN/m" in why]
    low = loads_of(job_with(site={"altitude_m": 800.0})).snow
    assert (low.foot_line_kn_m, low.refused) == (0.0, ())


def test_above_the_map_the_rule_refuses() -> None:
    """The Alpine row ends at 1500 m; the job cannot go on without its snow, and the key to give is named."""
    site = {"ground_snow_kn_m2": None, "snow_region": "Alpine", "snow_zone": "2", "altitude_m": 1600.0}
    with pytest.raises(InputError, match=r"site.ground_snow_kn_m2 is missing; altitude_m is 1600 m"):
        loads_of(job_with(site=site))


def test_a_slope_that_is_not_given_is_half_the_house_and_said() -> None:
    """8 m deep: 4 m slide, as in the plain job where they are given."""
    loads = loads_of(job_with(house={"upper_slope_plan_mm": None}))
    assert case_named(loads, "snow drift").at(0.0, 0.0) == pytest.approx(1.70, rel=1e-8)
    assert any("house.upper_slope_plan_mm" in note for note in loads.notes)


def _even_of(site: Mapping[str, object] | None = None, **roof: object) -> SnowCase:
    """The even snow of the plain roof with changes."""
    return loads_of(job_with(site=dict(site or {}), roof=dict(roof))).snow.cases[0]


def test_a_heated_room_takes_its_thermal_coefficient_on_the_even_snow_only() -> None:
    """0.8 x 0.9 x 0.6; the drift that comes from elsewhere keeps all of its snow."""
    warm = {"thermal_coefficient": {"value": 0.9, "note": "heated for good, U 2.0"}}
    assert _even_of(warm).points[0][1] == pytest.approx(0.8 * 0.9 * 0.6, rel=1e-12)
    drift, other = (loads_of(job_with(site=site)).snow.cases[1] for site in (warm, {}))
    assert drift.points == other.points


def test_an_open_roof_has_no_thermal_coefficient() -> None:
    """Nothing under it warms it: refused with the way out."""
    site = {"thermal_coefficient": {"value": 0.9, "note": "a stove"}}
    with pytest.raises(InputError, match="expected 1 for an open, unheated roof"):
        loads_of(job_with(site=site, roof=OPEN))


def test_what_stands_at_the_foot_keeps_the_snow_and_is_pushed() -> None:
    """At 40 deg 0.533 slides down to; held it is 0.8, and the push is 0.48 x 3.5 x sin 40 kN/m."""
    free, held = _even_of(pitch_deg=40.0), _even_of(pitch_deg=40.0, snow_held_at_foot=True)
    assert free.points[0][1] == pytest.approx(0.8 * 20.0 / 30.0 * 0.6, rel=1e-12)
    assert held.points[0][1] == pytest.approx(0.48, rel=1e-12)
    push = held.working[1].result
    assert push == pytest.approx(0.48 * 3.5 * math.sin(math.radians(40.0)), rel=1e-12)


@pytest.mark.parametrize(
    ("roof", "said"),
    [({"pitch_deg": 40.0}, True), ({"pitch_deg": 40.0, "snow_held_at_foot": True}, False), ({}, False)],
)
def test_a_steep_roof_says_that_it_sheds_its_snow(roof: dict[str, object], said: bool) -> None:
    """Whoever hangs a gutter in the way is told."""
    notes = loads_of(job_with(roof=roof)).notes
    assert any("taken to shed its snow" in note for note in notes) is said
