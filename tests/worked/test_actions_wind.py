"""Wind, worked by a second route.

Expected values are plain arithmetic here; pentice is imported only for the result under test. Tolerance: rounding of
binary fractions, unless the test says otherwise.
"""

from __future__ import annotations

import math

import pytest

from pentice.standards.annex import load_annex
from pentice.standards.en1991_1_4 import (
    Terrain,
    basic_velocity_m_s,
    displacement_height_m,
    exposure_factor,
    peak_pressure_kn_m2,
    probability_factor,
    roughness_factor,
    terrain,
    terrain_factor,
    turbulence_intensity,
    velocity_pressure_kn_m2,
)
from pentice.standards.en1991_1_4_canopies import canopy_coefficient, canopy_envelope, canopy_resultant
from pentice.standards.en1991_1_4_roofs import (
    Coefficient,
    area_coefficient,
    correlation_factor,
    friction_area_m2,
    friction_force_kn,
    internal_pressure_dominant,
    net_pressure_kn_m2,
    overhang_net_kn_m2,
    roof_coefficients,
    wall_coefficients,
)
from pentice.standards.en1991_1_4_uk import (
    altitude_factor,
    direction_factor,
    exposure_factor_read,
    peak_pressure_read_kn_m2,
    pressure_from_factors_kn_m2,
    town_factor_read,
)
from pentice.standards.en1991_1_4_zones import canopy_zones, roof_zones, wall_zones, zone_measure_m

EN = load_annex("EN")
ROUGH = {"0": (0.003, 1.0), "I": (0.01, 1.0), "II": (0.05, 2.0), "III": (0.3, 5.0), "IV": (1.0, 10.0)}
# N/m2 at 24 m/s and 2.5, 3, 5, 8, 10 m, computed for this project from the same expressions with another program.
PEAK = {
    "0": (809.091, 842.064, 937.55, 1029.45, 1074.43),
    "I": (717.237, 751.709, 851.965, 948.992, 996.662),
    "II": (554.774, 590.331, 694.555, 796.442, 846.824),
    "III": (461.109, 461.109, 461.109, 563.915, 615.308),
    "IV": (423.422, 423.422, 423.422, 423.422, 423.422),
}
HEIGHTS = (2.5, 3.0, 5.0, 8.0, 10.0)


@pytest.mark.parametrize("category", sorted(ROUGH))
def test_peak_pressure_from_mean_speed_and_gusts(category: str) -> None:
    """q_p = rho v^2 / 2 + 7 I rho v^2 / 2 with v = 24 x 0.19 (z_0/0.05)^0.07 ln(z/z_0). Printed places: 0.1 %."""
    z_0, z_min = ROUGH[category]
    ground = terrain(category)
    for z, printed in zip(HEIGHTS, PEAK[category], strict=True):
        log = math.log(max(z, z_min) / z_0)
        k_r = 0.19 * math.exp(0.07 * math.log(z_0 / 0.05))
        mean = 24.0 * k_r * log
        expected = 0.625 * mean**2 + 7.0 * 0.625 * mean**2 / log
        found = 1000.0 * peak_pressure_kn_m2(24.0, z_m=z, ground=ground, air_density_kg_m3=1.25)
        assert found == pytest.approx(expected, rel=1e-9)
        assert found == pytest.approx(printed, rel=1e-4)
        assert roughness_factor(z, ground) == pytest.approx(k_r * log, rel=1e-9)
        assert turbulence_intensity(z, ground) == pytest.approx(1.0 / log, rel=1e-9)
        assert terrain_factor(ground) == pytest.approx(k_r, rel=1e-9)


def test_exposure_in_open_country_at_10_m() -> None:
    """Terrain II: (0.19 ln 200)^2 (1 + 7/ln 200) = 2.35229 (Figure 4.2 reads 2.35)."""
    log = math.log(200.0)
    assert exposure_factor(10.0, terrain("II")) == pytest.approx((0.19 * log) ** 2 * (1 + 7 / log), rel=1e-9)
    assert exposure_factor(10.0, terrain("II")) == pytest.approx(2.35229, rel=1e-5)


def test_hill_raises_the_mean_and_not_the_gust() -> None:
    """With c_o the mean goes up and the gust part stays: (c_o^2 + 7 c_o / ln) c_r^2."""
    log = math.log(200.0)
    expected = (0.19 * log) ** 2 * (1.2**2 + 7.0 * 1.2 / log)
    assert exposure_factor(10.0, terrain("II"), c_o=1.2) == pytest.approx(expected, rel=1e-9)


def test_any_terrain_can_be_described() -> None:
    """A terrain of z_0 0.2 m and 5 m, as a national annex may have: k_r 0.19 x 4^0.07."""
    own = Terrain(category="IIIa", z_0_m=0.2, z_min_m=5.0)
    assert terrain_factor(own) == pytest.approx(0.19 * 4.0**0.07, rel=1e-12)


def test_basic_velocity_takes_both_factors() -> None:
    """24 x 0.8 x 0.9 = 17.28 m/s."""
    assert basic_velocity_m_s(24.0, c_dir=0.8, c_season=0.9) == pytest.approx(17.28, rel=1e-12)


@pytest.mark.parametrize("years", [2.0, 5.0, 10.0, 25.0, 50.0, 100.0])
def test_probability_factor_by_the_gumbel_distribution(years: float) -> None:
    """The square of the factor grows as a Gumbel fractile: (1 + 0.2 y)/(1 + 0.2 y_50), y = -ln(-ln(1 - 1/n))."""
    y, y_50 = (-math.log(-math.log(1.0 - 1.0 / n)) for n in (years, 50.0))
    assert probability_factor(years) == pytest.approx(math.sqrt((1 + 0.2 * y) / (1 + 0.2 * y_50)), rel=1e-9)


@pytest.mark.parametrize(
    ("distance_m", "height_m", "expected"),
    [
        (10.0, 9.0, 4.8),
        (12.0, 9.0, 4.8),
        (12.3, 9.0, 4.74),
        (20.0, 9.0, 3.2),
        (20.0, 4.0, 2.4),
        (35.9, 9.0, 0.02),
        (36.5, 9.0, 0.0),
        (40.0, 9.0, 0.0),
        (10.0, 3.0, 1.8),
    ],
)
def test_displacement_height_behind_neighbours_of_6_m(
    distance_m: float, height_m: float, expected: float
) -> None:
    """0.8 x 6 up to 12 m away, then 7.2 - 0.2 x to 36 m; never above 0.6 h."""
    found = displacement_height_m(distance_m=distance_m, neighbours_m=6.0, height_m=height_m)
    assert found == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(
    ("altitude_m", "z_m", "expected"),
    [
        (100.0, 5.0, 1.1),
        (150.0, 10.0, 1.15),
        (1000.0, 10.2, 1.0 + (10.0 / 10.2) ** 0.2),
        (150.0, 20.0, 1.0 + 0.15 * 0.5**0.2),
    ],
)
def test_uk_altitude_factor(altitude_m: float, z_m: float, expected: float) -> None:
    """A thousandth for each metre, less above 10 m of height."""
    assert altitude_factor(altitude_m=altitude_m, z_m=z_m) == pytest.approx(expected, rel=1e-12)


def test_uk_direction_between_two_printed_ones() -> None:
    """225 deg is halfway between 0.93 and 1.00."""
    assert direction_factor(225.0) == pytest.approx(0.965, rel=1e-12)


def test_uk_basic_pressure() -> None:
    """22.5 m/s at 100 m: 24.75 m/s, 0.613 x 24.75^2 = 375.50 N/m2."""
    velocity = basic_velocity_m_s(22.5) * altitude_factor(altitude_m=100.0, z_m=4.0)
    assert velocity == pytest.approx(24.75, rel=1e-12)
    density = load_annex("UK").air_density_kg_m3
    assert velocity_pressure_kn_m2(velocity, air_density_kg_m3=density) == pytest.approx(0.375501, rel=1e-5)


def test_uk_hill() -> None:
    """375.5 x 2.0 x (1.7/1.6)^2 = 847.8 N/m2."""
    found = pressure_from_factors_kn_m2(0.3755, c_e=2.0, c_o=1.1)
    assert found == pytest.approx(0.3755 * 2.0 * 1.12890625, rel=1e-12)


def test_uk_town_factor_multiplies() -> None:
    """0.4 x 2.0 x 0.8 = 0.64 kN/m2."""
    assert pressure_from_factors_kn_m2(0.4, c_e=2.0, c_e_town=0.8) == pytest.approx(0.64, rel=1e-12)


def test_uk_curves_between_points() -> None:
    """3.5 m at 1 km is halfway between 1.898 and 2.088; sqrt(10) km is halfway between the curves of 1 and 10 km."""
    assert exposure_factor_read(km_to_sea=1.0, z_m=3.5) == pytest.approx(1.993, rel=1e-12)
    assert exposure_factor_read(km_to_sea=math.sqrt(10.0), z_m=4.0) == pytest.approx(
        (2.088 + 1.895) / 2, rel=1e-9
    )
    assert town_factor_read(km_in_town=math.sqrt(5.0), z_m=4.0) == pytest.approx(
        (0.801 + 0.719) / 2, rel=1e-9
    )


def test_uk_pressure_read_off_the_figures_is_raised_by_3_percent() -> None:
    """1.03 x 0.4 x 1.895 in the country, x 0.719 in town."""
    country = peak_pressure_read_kn_m2(0.4, z_m=4.0, km_to_sea=10.0)
    town = peak_pressure_read_kn_m2(0.4, z_m=4.0, km_to_sea=10.0, km_in_town=5.0)
    assert country == pytest.approx(1.03 * 0.4 * 1.895, rel=1e-12)
    assert town == pytest.approx(1.03 * 0.4 * 1.895 * 0.719, rel=1e-12)


@pytest.mark.parametrize(
    ("area_m2", "expected"),
    [(0.5, -2.5), (1.0, -2.5), (3.0, -2.118303), (5.0, -1.940824), (10.0, -1.7), (30.0, -1.7)],
)
def test_area_lies_on_a_logarithmic_line(area_m2: float, expected: float) -> None:
    """-2.5 + 0.8 log10 A between 1 and 10 m2 (log10 3 = 0.4771213, log10 5 = 0.69897). Six places."""
    assert area_coefficient(cpe_10=-1.7, cpe_1=-2.5, area_m2=area_m2) == pytest.approx(expected, abs=1e-6)
    zone = Coefficient(zone="F", sign="suction", cpe_10=-1.7, cpe_1=-2.5)
    assert zone.at_area(area_m2) == pytest.approx(expected, abs=1e-6)


def test_pitch_lies_on_a_straight_line_for_both_sizes() -> None:
    """20 deg is a third of the way from 15 to 30: F -0.9 + 0.4/3 and -2.0 + 0.5/3; pressure 0.2 + 0.5/3."""
    found = {
        (c.zone, c.sign): (c.cpe_10, c.cpe_1) for c in roof_coefficients(EN, pitch_deg=20.0, wind="onto foot")
    }
    assert found["F", "suction"] == pytest.approx((-0.9 + 0.4 / 3, -2.0 + 0.5 / 3), rel=1e-12)
    assert found["F", "pressure"] == pytest.approx((0.2 + 0.5 / 3, 0.2 + 0.5 / 3), rel=1e-12)


def test_walls_between_two_rows() -> None:
    """h/d 0.625 is halfway from 0.25 to 1: D 0.75 and 1.0, E -0.4; at 0.1 the row of 0.25."""
    found = {c.zone: c for c in wall_coefficients(height_m=2.5, depth_m=4.0)}
    assert (found["D"].cpe_10, found["D"].cpe_1) == pytest.approx((0.75, 1.0), rel=1e-12)
    assert found["E"].cpe_10 == pytest.approx(-0.4, rel=1e-12)
    assert [c.cpe_10 for c in wall_coefficients(height_m=0.1, depth_m=1.0)][3:] == [0.7, -0.3]


@pytest.mark.parametrize(("height_m", "expected"), [(0.5, 0.85), (2.0, 0.8875), (7.0, 1.0)])
def test_windward_and_leeward_do_not_peak_together(height_m: float, expected: float) -> None:
    """0.85 to h/d 1, 1.0 from 5: at 2 a quarter of the way."""
    assert correlation_factor(height_m=height_m, depth_m=1.0) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("factor", "expected"), [(0.75, 0.525), (0.9, 0.63)])
def test_dominant_opening_lets_its_share_in(factor: float, expected: float) -> None:
    """Of +0.7 outside; the two shares are from memory and are given by the user, never assumed."""
    assert internal_pressure_dominant(cpe_at_opening=0.7, factor=factor) == pytest.approx(expected, rel=1e-12)


def test_overhang_is_lifted_from_both_faces() -> None:
    """0.6 x (2.5 above + 0.8 below) = 1.98 kN/m2 up."""
    assert overhang_net_kn_m2(0.6, roof_cpe=-2.5, wall_cpe=0.8) == pytest.approx(-1.98, rel=1e-12)


def test_friction_along_a_ribbed_roof() -> None:
    """0.04 x 0.6 kN/m2 x 15 m2 = 0.36 kN."""
    assert friction_force_kn(0.6, c_fr=0.04, area_m2=15.0) == pytest.approx(0.36, rel=1e-12)


def test_friction_lies_behind_the_windward_edge() -> None:
    """14 m long, 3.2 m broad, 3 m across, 2.7 high: 14 - min(6, 10.8) = 8 m times 3.2; a short roof has none."""
    found = friction_area_m2(along_m=14.0, girth_m=3.2, crosswind_m=3.0, height_m=2.7)
    assert found == pytest.approx(8.0 * 3.2, rel=1e-12)
    assert friction_area_m2(along_m=5.0, girth_m=3.2, crosswind_m=3.0, height_m=2.7) == 0.0


def test_zone_measure_is_the_lesser() -> None:
    """min(6, 2 x 2.6) and min(4, 2 x 2.6)."""
    assert zone_measure_m(crosswind_m=6.0, height_m=2.6) == 5.2
    assert zone_measure_m(crosswind_m=4.0, height_m=2.6) == 4.0


def test_zones_with_wind_onto_the_foot() -> None:
    """6 x 3 m, head 2.6: e 5.2, a strip of 0.52 at the foot, its ends 1.3 long."""
    found = roof_zones(width_m=6.0, depth_m=3.0, height_m=2.6, pitch_deg=10.0, wind="onto foot")
    edges = [(z.name, z.x_0_m, z.x_1_m, z.y_0_m, z.y_1_m) for z in found]
    assert [e[0] for e in edges] == ["F", "G", "F", "H"]
    assert edges[0][1:] == pytest.approx((0.0, 1.3, 2.48, 3.0), rel=1e-12)
    assert edges[1][1:] == pytest.approx((1.3, 4.7, 2.48, 3.0), rel=1e-12)
    assert edges[2][1:] == pytest.approx((4.7, 6.0, 2.48, 3.0), rel=1e-12)
    assert edges[3][1:] == pytest.approx((0.0, 6.0, 0.0, 2.48), rel=1e-12)
    assert found[0].area_m2 == pytest.approx(1.3 * 0.52, rel=1e-12)


def test_zones_with_wind_from_the_right() -> None:
    """6 x 3 m, head 2.6: e = 3, a strip of 0.3 at the right, its ends 0.75, H to 1.5 from the right, then I."""
    found = roof_zones(width_m=6.0, depth_m=3.0, height_m=2.6, pitch_deg=10.0, wind="from right")
    edges = [(z.name, z.x_0_m, z.x_1_m, z.y_0_m, z.y_1_m) for z in found]
    assert [e[0] for e in edges] == ["Fup", "G", "Flow", "H", "I"]
    assert edges[0][1:] == pytest.approx((5.7, 6.0, 0.0, 0.75), rel=1e-12)
    assert edges[1][1:] == pytest.approx((5.7, 6.0, 0.75, 2.25), rel=1e-12)
    assert edges[2][1:] == pytest.approx((5.7, 6.0, 2.25, 3.0), rel=1e-12)
    assert edges[3][1:] == pytest.approx((4.5, 5.7, 0.0, 3.0), rel=1e-12)
    assert edges[4][1:] == pytest.approx((0.0, 4.5, 0.0, 3.0), rel=1e-12)


def test_zones_of_a_flat_roof_end_in_i() -> None:
    """8 x 5 m, head 2.6, 3 deg: e 5.2, H from 0.52 to 2.6 behind the foot, then I up to the wall."""
    found = roof_zones(width_m=8.0, depth_m=5.0, height_m=2.6, pitch_deg=3.0, wind="onto foot")
    assert [z.name for z in found] == ["F", "G", "F", "H", "I"]
    assert (found[3].y_0_m, found[3].y_1_m) == pytest.approx((2.4, 4.48), rel=1e-12)
    assert (found[4].y_0_m, found[4].y_1_m) == pytest.approx((0.0, 2.4), rel=1e-12)


def test_labels_of_a_canopy_turn_with_the_wind() -> None:
    """5 x 3 m: strips of 0.5 at the ends and 0.3 at head and foot; B and C change places with the wind."""
    across = {(z.name, z.x_0_m, z.y_0_m) for z in canopy_zones(width_m=5.0, depth_m=3.0, wind="onto foot")}
    along = {(z.name, z.x_0_m, z.y_0_m) for z in canopy_zones(width_m=5.0, depth_m=3.0, wind="from left")}
    assert {("B", 0.0, 0.3), ("C", 0.5, 0.0), ("A", 0.5, 0.3), ("BC", 0.0, 0.0)} <= across
    assert {("C", 0.0, 0.3), ("B", 0.5, 0.0), ("A", 0.5, 0.3), ("BC", 0.0, 0.0)} <= along
    far = [z for z in canopy_zones(width_m=5.0, depth_m=3.0, wind="onto foot") if z.name == "BC"][-1]
    assert (far.x_0_m, far.y_0_m) == pytest.approx((4.5, 2.7), rel=1e-12)


def test_side_wall_zones() -> None:
    """e 5: A to 1, B to 5, C to the end of an 8 m wall; a wall of 0.9 m is A alone."""
    assert wall_zones(crosswind_m=5.0, depth_m=8.0, height_m=3.0) == (
        ("A", 0.0, 1.0),
        ("B", 1.0, 5.0),
        ("C", 5.0, 8.0),
    )
    assert wall_zones(crosswind_m=5.0, depth_m=0.9, height_m=3.0) == (("A", 0.0, 0.9),)


def test_canopy_between_pitches_and_blockages() -> None:
    """8 deg, half blocked, B: 2.1 + 0.6 x 0.3 = 2.28; (-1.88 - 2.44)/2 = -2.16."""
    found = canopy_coefficient(EN, pitch_deg=8.0, blockage=0.5, zone="B")
    assert (found.greatest, found.least) == pytest.approx((2.28, -2.16), rel=1e-9)


def test_canopy_envelope_takes_the_worse_blockage() -> None:
    """At 10 deg zone A blocked (-2.1), at 30 deg zone C free (-3.6); the corner takes B down and C up at 10 deg."""
    assert canopy_envelope(EN, pitch_deg=10.0, zone="A").least == pytest.approx(-2.1, rel=1e-12)
    assert canopy_envelope(EN, pitch_deg=30.0, zone="C").least == pytest.approx(-3.6, rel=1e-12)
    corner = canopy_envelope(EN, pitch_deg=10.0, zone="BC")
    assert (corner.greatest, corner.least) == pytest.approx((2.4, -2.7), rel=1e-12)


def test_pressure_on_a_free_standing_canopy() -> None:
    """24 m/s, terrain III, 3 m, 10 deg, blocked, C: 461.109 N/m2 x -2.7 and x 1.6. Printed places: 0.01 %."""
    peak = peak_pressure_kn_m2(24.0, z_m=3.0, ground=terrain("III"), air_density_kg_m3=1.25)
    found = canopy_coefficient(EN, pitch_deg=10.0, blockage=1.0, zone="C")
    assert net_pressure_kn_m2(peak, c_pe=found.least) == pytest.approx(-1.2450, rel=1e-4)
    assert net_pressure_kn_m2(peak, c_pe=found.greatest) == pytest.approx(0.737775, rel=1e-4)


def test_resultant_sits_at_a_quarter() -> None:
    """0.5 x -1.4 x 15 m2 = -10.5 kN at 3/4 m (the place is from memory)."""
    found = canopy_resultant(0.5, c_f=-1.4, width_m=5.0, depth_m=3.0)
    assert found.force_kn == pytest.approx(-10.5, rel=1e-12)
    assert found.from_windward_m == 0.75
