"""EN 1991-1-4:2005+A1:2010: pressures, coefficients and UK factors as printed outside this project.

Sources, all second-hand unless said:
- RFCS handbook Steel Buildings in Europe, Part 3: Actions, App. B (read): peak pressure, dominant opening, friction;
- the same handbook for buildings of several storeys, App. A (read): when friction counts;
- Tables 4.1, 7.1, 7.2, 7.3, 7.6, 7.10 as given in public transcriptions, two or three alike where said in the data;
- tests of a public Polish implementation: interpolated pitch, displacement height;
- a public test of canopy coefficients; the French annex's c_prob in a public copy;
- a British steel design guide's example of peak pressure, as quoted in a public implementation;
- a Norwegian handbook of glulam, worked examples 3 and 5;
- curves of Figures NA.7 and NA.8 of the UK annex, digitised in a public implementation (about 2 %).
"""

from __future__ import annotations

import pytest

from pentice.standards.annex import load_annex
from pentice.standards.en1990 import combination_6_10
from pentice.standards.en1991_1_4 import (
    basic_velocity_m_s,
    displacement_height_m,
    exposure_factor,
    peak_pressure_kn_m2,
    probability_factor,
    roughness_factor,
    terrain,
    terrain_factor,
    velocity_pressure_kn_m2,
)
from pentice.standards.en1991_1_4_canopies import canopy_coefficient
from pentice.standards.en1991_1_4_roofs import (
    Coefficient,
    Wind,
    friction_area_m2,
    friction_coefficient,
    friction_counts,
    friction_force_kn,
    internal_pressure_dominant,
    net_pressure_kn_m2,
    roof_coefficients,
    wall_coefficients,
)
from pentice.standards.en1991_1_4_uk import (
    altitude_factor,
    direction_factor,
    exposure_factor_read,
    pressure_from_factors_kn_m2,
    town_factor_read,
)

EN = load_annex("EN")
UK = load_annex("UK")


def _coefficient(pitch_deg: float, wind: Wind, zone: str, sign: str = "suction") -> Coefficient:
    found = roof_coefficients(EN, pitch_deg=pitch_deg, wind=wind)
    (one,) = (c for c in found if (c.zone, c.sign) == (zone, sign))
    return one


@pytest.mark.parametrize(
    ("category", "z_0_m", "z_min_m", "k_r"),
    [
        ("0", 0.003, 1.0, 0.156036),
        ("I", 0.01, 1.0, 0.169756),
        ("II", 0.05, 2.0, 0.19),
        ("III", 0.3, 5.0, 0.215389),
        ("IV", 1.0, 10.0, 0.234329),
    ],
)
def test_terrain_is_the_printed_one(category: str, z_0_m: float, z_min_m: float, k_r: float) -> None:
    """Table 4.1, exact; k_r follows from expression 4.5 and is printed to six places in one of the copies."""
    ground = terrain(category)
    assert (ground.z_0_m, ground.z_min_m) == (z_0_m, z_min_m)
    assert terrain_factor(ground) == pytest.approx(k_r, abs=1e-6)


@pytest.mark.parametrize(
    ("category", "z_0_m", "z_min_m"),
    [("0", 0.005, 1.0), ("II", 0.05, 2.0), ("IIIa", 0.2, 5.0), ("IIIb", 0.5, 9.0), ("IV", 1.0, 15.0)],
)
def test_french_terrain_is_the_printed_one(category: str, z_0_m: float, z_min_m: float) -> None:
    """French annex in a public implementation with its tests; exact."""
    ground = terrain(category, table="FR")
    assert (ground.z_0_m, ground.z_min_m) == (z_0_m, z_min_m)


def test_dominant_door_of_the_steel_handbook() -> None:
    """Sheet 3-53: a door wholly in zone B, c_pe -0.8, lets in 0.90 of it: c_pi -0.72. Rounding only."""
    assert internal_pressure_dominant(cpe_at_opening=-0.8, factor=0.9) == pytest.approx(-0.72, rel=1e-12)


def test_friction_of_the_steel_handbook() -> None:
    """Sheet 3-53, wind on the gable: 60 m long, girth 2 x (6 + 2 x 8.25), b 32, h 8: 1260 m2, 8.316 kN at 0.66."""
    area = friction_area_m2(along_m=60.0, girth_m=2.0 * (6.0 + 2.0 * 8.25), crosswind_m=32.0, height_m=8.0)
    assert area == pytest.approx(1260.0, rel=1e-12)
    force = friction_force_kn(0.66, c_fr=friction_coefficient("smooth"), area_m2=area)
    assert force == pytest.approx(8.316, abs=0.0005)


@pytest.mark.parametrize(
    ("parallel_m2", "square_m2", "counts"),
    [(2700.0, 448.0, True), (1900.0, 8400.0, False), (9600.0, 700.0, True)],
)
def test_friction_counts_where_the_handbooks_say(parallel_m2: float, square_m2: float, counts: bool) -> None:
    """Sheet 3-53 of the single-storey book, sheet 3-35 of the other: four times the area square to the wind."""
    assert friction_counts(parallel_m2=parallel_m2, square_m2=square_m2) is counts


def test_peak_pressure_of_the_steel_handbook() -> None:
    """App. B: 26 m/s, terrain III, 8 m: q_b 422.5, c_r 0.706, c_e 1.56, q_p 659 N/m2. The book rounds k_r: 0.6 %."""
    ground = terrain("III")
    basic = basic_velocity_m_s(26.0)
    density = EN.air_density_kg_m3
    assert velocity_pressure_kn_m2(basic, air_density_kg_m3=density) == pytest.approx(0.4225, rel=1e-6)
    assert roughness_factor(8.0, ground) == pytest.approx(0.706, rel=0.006)
    assert exposure_factor(8.0, ground) == pytest.approx(1.56, rel=0.006)
    found = peak_pressure_kn_m2(basic, z_m=8.0, ground=ground, air_density_kg_m3=density)
    assert found == pytest.approx(0.659, rel=0.006)


@pytest.mark.parametrize(("years", "printed"), [(25.0, 0.97), (10.0, 0.92), (5.0, 0.88), (2.0, 0.82)])
def test_probability_factor_of_the_french_annex(years: float, printed: float) -> None:
    """Printed to two places; K 0.15 was inferred from all four. Tolerance: half the last place and a little."""
    assert probability_factor(years, shape=0.15) == pytest.approx(printed, abs=0.006)


@pytest.mark.parametrize(("distance_m", "neighbours_m", "printed"), [(10.0, 12.0, 6.0), (11.0, 5.0, 3.8)])
def test_displacement_height_of_the_polish_tests(
    distance_m: float, neighbours_m: float, printed: float
) -> None:
    """A.5, a building of 10 m. Rounding of binary fractions."""
    found = displacement_height_m(distance_m=distance_m, neighbours_m=neighbours_m, height_m=10.0)
    assert found == pytest.approx(printed, rel=1e-6)


TABLE_7_3 = {
    # pitch: cpe,10 and cpe,1 of F0 G0 H0 F180 G180 H180 Fup Flow G90 H90 I90, then F0 G0 H0 in pressure
    5.0: (
        (-1.7, -1.2, -0.6, -2.3, -1.3, -0.8, -2.1, -2.1, -1.8, -0.6, -0.5, 0.0, 0.0, 0.0),
        (-2.5, -2.0, -1.2, -2.5, -2.0, -1.2, -2.6, -2.4, -2.0, -1.2, -0.5, 0.0, 0.0, 0.0),
    ),
    15.0: (
        (-0.9, -0.8, -0.3, -2.5, -1.3, -0.9, -2.4, -1.6, -1.9, -0.8, -0.7, 0.2, 0.2, 0.2),
        (-2.0, -1.5, -0.3, -2.8, -2.0, -1.2, -2.9, -2.4, -2.5, -1.2, -1.2, 0.2, 0.2, 0.2),
    ),
    30.0: (
        (-0.5, -0.5, -0.2, -1.1, -0.8, -0.8, -2.1, -1.3, -1.5, -1.0, -0.8, 0.7, 0.7, 0.4),
        (-1.5, -1.5, -0.2, -2.3, -1.5, -0.8, -2.9, -2.0, -2.0, -1.3, -1.2, 0.7, 0.7, 0.4),
    ),
    45.0: (
        (0.0, 0.0, 0.0, -0.6, -0.5, -0.7, -1.5, -1.3, -1.4, -1.0, -0.9, 0.7, 0.7, 0.6),
        (0.0, 0.0, 0.0, -1.3, -0.5, -0.7, -2.4, -2.0, -2.0, -1.3, -1.2, 0.7, 0.7, 0.6),
    ),
}
CELLS: tuple[tuple[Wind, str, str], ...] = (
    ("onto foot", "F", "suction"),
    ("onto foot", "G", "suction"),
    ("onto foot", "H", "suction"),
    ("onto head", "F", "suction"),
    ("onto head", "G", "suction"),
    ("onto head", "H", "suction"),
    ("from left", "Fup", "suction"),
    ("from left", "Flow", "suction"),
    ("from left", "G", "suction"),
    ("from left", "H", "suction"),
    ("from left", "I", "suction"),
    ("onto foot", "F", "pressure"),
    ("onto foot", "G", "pressure"),
    ("onto foot", "H", "pressure"),
)


@pytest.mark.parametrize("pitch_deg", sorted(TABLE_7_3))
def test_single_slope_roof_has_the_printed_coefficients(pitch_deg: float) -> None:
    """Tables 7.3a and 7.3b, every figure up to 45 deg; exact."""
    found = [_coefficient(pitch_deg, wind, zone, sign) for wind, zone, sign in CELLS]
    assert tuple(c.cpe_10 for c in found) == TABLE_7_3[pitch_deg][0]
    assert tuple(c.cpe_1 for c in found) == TABLE_7_3[pitch_deg][1]


def test_flat_roof_has_the_printed_coefficients() -> None:
    """Table 7.2, sharp eaves, below 5 deg; exact."""
    found = roof_coefficients(EN, pitch_deg=4.0, wind="onto foot")
    assert [(c.zone, c.cpe_10, c.cpe_1) for c in found] == [
        ("F", -1.8, -2.5),
        ("G", -1.2, -2.0),
        ("H", -0.7, -1.2),
        ("I", -0.2, -0.2),
        ("I", 0.2, 0.2),
    ]


@pytest.mark.parametrize(
    ("wind", "zone", "printed"),
    [
        ("onto foot", "F", -0.572),
        ("onto foot", "G", -0.440),
        ("onto foot", "H", -0.198),
        ("onto head", "F", -1.056),
        ("onto head", "G", -0.572),
        ("onto head", "H", -0.374),
    ],
)
def test_pressures_at_10_deg_of_the_polish_tests(wind: Wind, zone: str, printed: float) -> None:
    """q_p 0.440 kN/m2 on a roof halfway between two printed pitches; rounding of the last printed place."""
    found = net_pressure_kn_m2(0.44, c_pe=_coefficient(10.0, wind, zone).cpe_10)
    assert found == pytest.approx(printed, abs=0.0005)


def test_coefficients_at_10_deg_of_the_polish_tests() -> None:
    """F at 10 deg: -1.3 in suction, +0.1 in pressure. Rounding of binary fractions."""
    assert _coefficient(10.0, "onto foot", "F").cpe_10 == pytest.approx(-1.3, rel=1e-6)
    assert _coefficient(10.0, "onto foot", "F", "pressure").cpe_10 == pytest.approx(0.1, rel=1e-6)


def test_walls_have_the_printed_coefficients() -> None:
    """Table 7.1, the three rows of h/d; exact."""
    rows = {h: wall_coefficients(height_m=h, depth_m=1.0) for h in (0.25, 1.0, 5.0)}
    assert [(c.zone, c.cpe_10, c.cpe_1) for c in rows[1.0]] == [
        ("A", -1.2, -1.4),
        ("B", -0.8, -1.1),
        ("C", -0.5, -0.5),
        ("D", 0.8, 1.0),
        ("E", -0.5, -0.5),
    ]
    assert [c.cpe_10 for c in rows[0.25]] == [-1.2, -0.8, -0.5, 0.7, -0.3]
    assert [c.cpe_10 for c in rows[5.0]] == [-1.2, -0.8, -0.5, 0.8, -0.7]
    assert [c.cpe_1 for c in rows[0.25]] == [-1.4, -1.1, -0.5, 1.0, -0.3]
    assert [c.cpe_1 for c in rows[5.0]] == [-1.4, -1.1, -0.5, 1.0, -0.7]


TABLE_7_6 = {
    # pitch: zone: greatest, least free, least blocked
    0.0: {"cf": (0.2, -0.5, -1.3), "A": (0.5, -0.6, -1.5), "B": (1.8, -1.3, -1.8), "C": (1.1, -1.4, -2.2)},
    5.0: {"cf": (0.4, -0.7, -1.4), "A": (0.8, -1.1, -1.6), "B": (2.1, -1.7, -2.2), "C": (1.3, -1.8, -2.5)},
    10.0: {"cf": (0.5, -0.9, -1.4), "A": (1.2, -1.5, -2.1), "B": (2.4, -2.0, -2.6), "C": (1.6, -2.1, -2.7)},
    15.0: {"cf": (0.7, -1.1, -1.4), "A": (1.4, -1.8, -1.6), "B": (2.7, -2.4, -2.9), "C": (1.8, -2.5, -3.0)},
    20.0: {"cf": (0.8, -1.3, -1.4), "A": (1.7, -2.2, -1.6), "B": (2.9, -2.8, -2.9), "C": (2.1, -2.9, -3.0)},
    25.0: {"cf": (1.0, -1.6, -1.4), "A": (2.0, -2.6, -1.5), "B": (3.1, -3.2, -2.5), "C": (2.3, -3.2, -2.8)},
    30.0: {"cf": (1.2, -1.8, -1.4), "A": (2.2, -3.0, -1.5), "B": (3.2, -3.8, -2.2), "C": (2.4, -3.6, -2.7)},
}


@pytest.mark.parametrize("pitch_deg", sorted(TABLE_7_6))
def test_canopy_has_the_printed_coefficients(pitch_deg: float) -> None:
    """Table 7.6, three copies alike but for 10 deg, A, blockage 1 (-1.6 or -2.1: the greater); exact."""
    for zone, printed in TABLE_7_6[pitch_deg].items():
        free = canopy_coefficient(EN, pitch_deg=pitch_deg, blockage=0.0, zone=zone)
        blocked = canopy_coefficient(EN, pitch_deg=pitch_deg, blockage=1.0, zone=zone)
        assert (free.greatest, free.least) == printed[:2]
        assert blocked.greatest == printed[0]
        assert blocked.least == pytest.approx(printed[2], rel=1e-12)


def test_canopy_force_coefficient_half_blocked() -> None:
    """20 deg, blockage 0.5: 0.8 and -1.35 in a public test. Rounding of binary fractions."""
    found = canopy_coefficient(EN, pitch_deg=20.0, blockage=0.5, zone="cf")
    assert found.greatest == 0.8
    assert found.least == pytest.approx(-1.35, rel=1e-6)


def test_internal_pressure_with_unknown_openings() -> None:
    """7.2.9(6), note 2: +0.2 and -0.3; exact."""
    assert EN.cpi_unknown == (0.2, -0.3)


@pytest.mark.parametrize(("surface", "printed"), [("smooth", 0.01), ("rough", 0.02), ("ribbed", 0.04)])
def test_friction_has_the_printed_coefficient(surface: str, printed: float) -> None:
    """Table 7.10; exact."""
    assert friction_coefficient(surface) == printed


@pytest.mark.parametrize(
    ("c_pe", "c_pi", "printed"),
    [(-0.7, 0.2, -4.1), (0.2, -0.3, 2.3), (0.7, -0.3, 4.5)],
    ids=["H", "I", "wall D"],
)
def test_net_pressures_of_the_norwegian_handbook(c_pe: float, c_pi: float, printed: float) -> None:
    """Examples 3 and 5: q_p 0.75 kN/m2 on 6 m. Tolerance: half the last printed place."""
    assert 6.0 * net_pressure_kn_m2(0.75, c_pe=c_pe, c_pi=c_pi) == pytest.approx(printed, abs=0.0501)


def test_accompanying_wind_of_the_norwegian_handbook() -> None:
    """Example 5: 4.5 kN/m accompanying, psi_0 0.6, gives 4.1. Tolerance: half the last printed place."""
    found = combination_6_10(factors=EN.factors, accompanying=((4.5, EN.psi_wind.psi_0),))
    assert found == pytest.approx(4.1, abs=0.0501)


UK_DIRECTIONS = (0.78, 0.73, 0.73, 0.74, 0.73, 0.80, 0.85, 0.93, 1.0, 0.99, 0.91, 0.82)


def test_uk_direction_factors_are_the_printed_ones() -> None:
    """NA to BS EN 1991-1-4, Table NA.1, every 30 deg from north; exact, and the circle closes."""
    assert tuple(direction_factor(30.0 * i) for i in range(12)) == UK_DIRECTIONS
    assert direction_factor(360.0) == UK_DIRECTIONS[0]


def test_uk_peak_pressure_of_the_design_guide() -> None:
    """Map 22.1 m/s at 105 m, c_e c_e,T 2.9: 1058 N/m2. The guide rounds the factors: 0.5 %."""
    velocity = 22.1 * altitude_factor(altitude_m=105.0, z_m=10.0)
    basic = velocity_pressure_kn_m2(velocity, air_density_kg_m3=UK.air_density_kg_m3)
    assert pressure_from_factors_kn_m2(basic, c_e=2.9) == pytest.approx(1.058, rel=0.005)


NA_7 = {
    0.1: {3: 2.151, 4: 2.304, 5: 2.427, 6: 2.527, 8: 2.687, 10: 2.812},
    1.0: {2: 1.669, 3: 1.898, 4: 2.088, 5: 2.239, 6: 2.367, 8: 2.568, 10: 2.733},
    10.0: {2: 1.506, 3: 1.725, 4: 1.895, 5: 2.037, 6: 2.152, 8: 2.337, 10: 2.483},
    50.0: {3: 1.641, 4: 1.803, 5: 1.932, 6: 2.04, 8: 2.218, 10: 2.362},
    100.0: {3: 1.612, 4: 1.776, 5: 1.902, 6: 2.006, 8: 2.181, 10: 2.322},
}
NA_8 = {
    0.1: {3: 0.956, 4: 1.0},
    1.0: {3: 0.759, 4: 0.801, 5: 0.832, 6: 0.855, 8: 0.892, 10: 0.92},
    5.0: {2: 0.634, 3: 0.684, 4: 0.719, 5: 0.747, 6: 0.77, 8: 0.803, 10: 0.827},
    20.0: {3: 0.639, 4: 0.672, 5: 0.698, 6: 0.718, 8: 0.747, 10: 0.769},
}


@pytest.mark.parametrize("km", sorted(NA_7))
def test_uk_exposure_curve_is_held_as_digitised(km: float) -> None:
    """Figure NA.7, digitised elsewhere (about 2 % from the print); the points themselves are copied exactly."""
    assert {z: exposure_factor_read(km_to_sea=km, z_m=float(z)) for z in NA_7[km]} == NA_7[km]


@pytest.mark.parametrize("km", sorted(NA_8))
def test_uk_town_curve_is_held_as_digitised(km: float) -> None:
    """Figure NA.8, digitised elsewhere (about 2 % from the print); the points themselves are copied exactly."""
    assert {z: town_factor_read(km_in_town=km, z_m=float(z)) for z in NA_8[km]} == NA_8[km]
