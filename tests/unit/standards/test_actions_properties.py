"""What must hold for any site and any roof: more is never less, tables have no steps, zones tile the roof."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pentice.standards.annex import load_annex
from pentice.standards.en1991_1_3 import mu_1, overhang_load_kn_m, return_period_factor
from pentice.standards.en1991_1_3_annex_b import drift_at_taller_wall
from pentice.standards.en1991_1_3_drift import (
    UpperRoof,
    drift_at_wall,
    drifts_between,
    worst_drift,
    worst_mu_at,
)
from pentice.standards.en1991_1_3_ground import ground_snow_kn_m2, ground_snow_source, snow_regions
from pentice.standards.en1991_1_4 import peak_pressure_kn_m2, terrain
from pentice.standards.en1991_1_4_canopies import ZONES, canopy_coefficient, canopy_envelope
from pentice.standards.en1991_1_4_roofs import WINDS, Wind, area_coefficient, roof_coefficients
from pentice.standards.en1991_1_4_zones import Zone, canopy_zones, roof_zones

EN = load_annex("EN")
lengths = st.floats(0.5, 20.0)
steps = st.floats(0.1, 15.0)
snows = st.floats(0.1, 8.0)
winds = st.sampled_from(WINDS)
houses = st.builds(
    UpperRoof, width_m=lengths, pitch_deg=st.floats(0.0, 60.0), slope_plan_m=st.floats(0.0, 10.0)
)


@given(houses, lengths, steps, snows, st.floats(0.0, 3.0), st.floats(0.0, 20.0))
def test_more_snow_is_never_less_on_a_drifted_roof(
    house: UpperRoof, lower_m: float, step_m: float, ground: float, more: float, at_m: float
) -> None:
    """At every distance from the wall; a hair for rounding."""
    little = drift_at_wall(house, lower_m=lower_m, step_m=step_m, ground_kn_m2=ground)
    much = drift_at_wall(house, lower_m=lower_m, step_m=step_m, ground_kn_m2=ground + more)
    assert (ground + more) * much.mu_at(at_m) >= ground * little.mu_at(at_m) - 1e-9


@given(lengths, lengths, steps, snows, st.floats(0.0, 3.0), st.floats(0.0, 20.0))
def test_more_snow_is_never_less_in_an_exceptional_drift(
    upper_m: float, lower_m: float, step_m: float, ground: float, more: float, at_m: float
) -> None:
    """At every distance from the wall; a hair for rounding."""
    little = drift_at_taller_wall(upper_m=upper_m, lower_m=lower_m, step_m=step_m, ground_kn_m2=ground)
    much = drift_at_taller_wall(upper_m=upper_m, lower_m=lower_m, step_m=step_m, ground_kn_m2=ground + more)
    assert much.at_kn_m2(at_m) >= little.at_kn_m2(at_m) - 1e-9


@given(houses, lengths, steps, snows)
def test_drift_is_never_below_the_even_snow(
    house: UpperRoof, lower_m: float, step_m: float, ground: float
) -> None:
    """0.8 at least at the wall, exactly 0.8 at the end of the drift, no step there."""
    drift = drift_at_wall(house, lower_m=lower_m, step_m=step_m, ground_kn_m2=ground)
    assert drift.mu_2 >= 0.8
    assert drift.mu_at(drift.length_m) == 0.8
    assert drift.mu_at(drift.length_m * (1.0 - 1e-9)) == pytest.approx(0.8, abs=1e-6)


@given(houses, lengths, steps, steps, snows, st.floats(0.0, 1.0))
def test_no_step_of_a_gable_is_worse_than_the_worst(
    house: UpperRoof, lower_m: float, one_m: float, other_m: float, ground: float, share: float
) -> None:
    """Any step between lowest and highest against the corners found: at the wall they are exact."""
    lowest, highest = min(one_m, other_m), max(one_m, other_m)
    drifts = drifts_between(
        house, lower_m=lower_m, lowest_step_m=lowest, highest_step_m=highest, ground_kn_m2=ground
    )
    any_step = lowest + share * (highest - lowest)
    tried = drift_at_wall(house, lower_m=lower_m, step_m=any_step, ground_kn_m2=ground)
    # Between its corners mu_2 rises plus falls as a convex curve, so its greatest value lies at a corner.
    assert tried.mu_2 <= worst_drift(drifts).mu_2 + 1e-9
    assert worst_mu_at(drifts, 0.0) == worst_drift(drifts).mu_2


@given(st.floats(0.0, 90.0), st.floats(0.0, 90.0))
def test_steeper_never_holds_more_snow(one_deg: float, other_deg: float) -> None:
    """mu_1 falls with the pitch."""
    assert mu_1(max(one_deg, other_deg)) <= mu_1(min(one_deg, other_deg))


@pytest.mark.parametrize("corner_deg", [30.0, 60.0])
def test_shape_coefficient_has_no_steps(corner_deg: float) -> None:
    """On both sides of a corner of Table 5.2; the slope there is 0.027 per degree."""
    assert mu_1(corner_deg + 1e-6) == pytest.approx(mu_1(corner_deg - 1e-6), abs=1e-7)


@given(snows, st.floats(0.0, 3.0))
def test_more_snow_is_never_less_over_an_edge(snow: float, more: float) -> None:
    """Also where k changes over; no snow, no load."""
    assert overhang_load_kn_m(snow + more) >= overhang_load_kn_m(snow) - 1e-12
    assert overhang_load_kn_m(0.0) == 0.0


@given(st.floats(5.0, 1000.0), st.floats(5.0, 1000.0))
def test_rarer_snow_is_deeper(one: float, other: float) -> None:
    """A longer return period never gives less."""
    assert return_period_factor(max(one, other)) >= return_period_factor(min(one, other))


REGION_ZONES = [
    ("Alpine", "2"), ("SI", "A1"), ("SI coast", "M1"), ("GR", "3"), ("DE", "2a"), ("PL", "3"), ("HU", "1"),
    ("UK", "3"), ("FR", "E"), ("ES", "2"), ("IT", "III"), ("NL", "1"),
    ("CH", "+200"),
]  # fmt: skip


def test_every_region_is_tried_and_says_its_source() -> None:
    """The list above is whole."""
    assert {region for region, _ in REGION_ZONES} == set(snow_regions())
    assert all(ground_snow_source(region) for region in snow_regions())


@given(st.sampled_from(REGION_ZONES), st.floats(0.0, 200.0), st.floats(0.0, 200.0))
def test_higher_ground_never_has_less_snow(place: tuple[str, str], one_m: float, other_m: float) -> None:
    """Within the heights that every region holds."""
    low, high = (ground_snow_kn_m2(*place, altitude_m) for altitude_m in sorted((one_m, other_m)))
    assert high >= low


@given(st.sampled_from(["0", "I", "II", "III", "IV"]), st.floats(0.0, 199.0), st.floats(0.0, 1.0))
def test_higher_up_the_wind_is_never_weaker(category: str, z_m: float, more_m: float) -> None:
    """No step at the least height, none anywhere."""
    low, high = (
        peak_pressure_kn_m2(24.0, z_m=z, ground=terrain(category), air_density_kg_m3=1.25)
        for z in (z_m, z_m + more_m)
    )
    assert high >= low - 1e-12


@given(st.floats(0.01, 100.0))
def test_area_coefficient_stays_between_its_ends(area_m2: float) -> None:
    """Between 1 and 10 m2 and beyond."""
    assert -2.5 <= area_coefficient(cpe_10=-1.7, cpe_1=-2.5, area_m2=area_m2) <= -1.7


@pytest.mark.parametrize("pitch_deg", [15.0, 30.0])
@pytest.mark.parametrize("wind", WINDS)
def test_roof_coefficients_have_no_steps_at_printed_pitches(pitch_deg: float, wind: Wind) -> None:
    """On both sides of a row; the steepest line falls 0.15 per degree."""
    below, above = (roof_coefficients(EN, pitch_deg=pitch_deg + d, wind=wind) for d in (-1e-6, 1e-6))
    assert [(c.zone, c.sign) for c in below] == [(c.zone, c.sign) for c in above]
    assert [c.cpe_10 for c in below] == pytest.approx([c.cpe_10 for c in above], abs=1e-6)
    assert [c.cpe_1 for c in below] == pytest.approx([c.cpe_1 for c in above], abs=1e-6)


@given(st.floats(0.0, 45.0), winds)
def test_signs_are_never_mixed(pitch_deg: float, wind: Wind) -> None:
    """Suction is never positive, pressure never negative, and a small area never gets less of either."""
    for c in roof_coefficients(EN, pitch_deg=pitch_deg, wind=wind):
        sign = -1.0 if c.sign == "suction" else 1.0
        assert sign * c.cpe_1 >= sign * c.cpe_10 - 1e-12
        assert sign * c.cpe_10 >= 0.0


@given(st.floats(0.0, 30.0), st.floats(0.0, 1.0), st.sampled_from(ZONES))
def test_envelope_holds_every_blockage(pitch_deg: float, blockage: float, zone: str) -> None:
    """phi 0 and 1 are the worst, whatever stands below; the corner is the worse of its neighbours."""
    one = canopy_coefficient(EN, pitch_deg=pitch_deg, blockage=blockage, zone=zone)
    both = canopy_envelope(EN, pitch_deg=pitch_deg, zone=zone)
    assert both.least <= one.least + 1e-12
    assert both.greatest == one.greatest
    corner = canopy_envelope(EN, pitch_deg=pitch_deg, zone="BC")
    if zone in ("B", "C"):
        assert corner.least <= both.least
        assert corner.greatest >= both.greatest


def _tiles(zones: tuple[Zone, ...], width_m: float, depth_m: float) -> bool:
    """Same area as the roof, all within it, and no two overlap."""
    whole = sum(z.area_m2 for z in zones) == pytest.approx(width_m * depth_m, rel=1e-9)
    within = all(
        -1e-9 <= z.x_0_m < z.x_1_m <= width_m + 1e-9 and -1e-9 <= z.y_0_m < z.y_1_m <= depth_m + 1e-9
        for z in zones
    )
    overlap = any(
        min(a.x_1_m, b.x_1_m) - max(a.x_0_m, b.x_0_m) > 1e-9
        and min(a.y_1_m, b.y_1_m) - max(a.y_0_m, b.y_0_m) > 1e-9
        for i, a in enumerate(zones)
        for b in zones[:i]
    )
    return whole and within and not overlap


@given(lengths, lengths, st.floats(1.0, 8.0), st.floats(0.0, 45.0), winds)
def test_zones_tile_the_roof(
    width_m: float, depth_m: float, height_m: float, pitch_deg: float, wind: Wind
) -> None:
    """No gap and no overlap, and every zone has its coefficients."""
    found = roof_zones(width_m=width_m, depth_m=depth_m, height_m=height_m, pitch_deg=pitch_deg, wind=wind)
    assert _tiles(found, width_m, depth_m)
    assert {z.name for z in found} <= {c.zone for c in roof_coefficients(EN, pitch_deg=pitch_deg, wind=wind)}


@given(lengths, lengths, winds)
def test_canopy_zones_tile_the_roof(width_m: float, depth_m: float, wind: Wind) -> None:
    """No gap and no overlap, and every zone has its coefficients."""
    found = canopy_zones(width_m=width_m, depth_m=depth_m, wind=wind)
    assert _tiles(found, width_m, depth_m)
    assert {z.name for z in found} <= set(ZONES)


@given(lengths, lengths, st.floats(1.0, 8.0), st.floats(0.0, 45.0))
def test_winds_from_left_and_right_mirror_each_other(
    width_m: float, depth_m: float, height_m: float, pitch_deg: float
) -> None:
    """A mirrored roof has mirrored zones; a hair for rounding."""
    left, right = (
        roof_zones(width_m=width_m, depth_m=depth_m, height_m=height_m, pitch_deg=pitch_deg, wind=wind)
        for wind in ("from left", "from right")
    )
    for a, b in zip(left, right, strict=True):
        assert a.name == b.name
        assert (a.x_0_m, a.x_1_m) == pytest.approx((width_m - b.x_1_m, width_m - b.x_0_m), abs=1e-9)
        assert (a.y_0_m, a.y_1_m) == (b.y_0_m, b.y_1_m)
