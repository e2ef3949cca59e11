"""Rules of snow, wind and combination refuse outside their range, in one sentence."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

import pytest

from pentice.errors import InputError, OutsideScope, PenticeError
from pentice.standards.annex import load_annex
from pentice.standards.en1990 import characteristic_6_14b
from pentice.standards.en1991_1_3 import (
    drift_length_m,
    exceptional_snow_kn_m2,
    exposure_coefficient,
    guard_load_kn_m,
    mu_1,
    obstruction_coefficient,
    overhang_load_kn_m,
    return_period_factor,
    roof_snow_kn_m2,
    snow_density_kn_m3,
)
from pentice.standards.en1991_1_3_annex_b import drift_at_taller_wall
from pentice.standards.en1991_1_3_drift import (
    Drift,
    UpperRoof,
    drift_at_wall,
    drifts_between,
    sliding_coefficient,
    wind_drift_coefficient,
)
from pentice.standards.en1991_1_3_ground import ground_snow_kn_m2, ground_snow_source
from pentice.standards.en1991_1_4 import (
    basic_velocity_m_s,
    displacement_height_m,
    exposure_factor,
    probability_factor,
    roughness_factor,
    terrain,
    velocity_pressure_kn_m2,
)
from pentice.standards.en1991_1_4_canopies import canopy_coefficient, canopy_resultant
from pentice.standards.en1991_1_4_roofs import (
    Wind,
    area_coefficient,
    friction_coefficient,
    internal_pressure_dominant,
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
from pentice.standards.en1991_1_4_zones import canopy_zones, roof_zones, wall_zones, zone_measure_m

EN = load_annex("EN")
HOUSE = UpperRoof(width_m=8.0, pitch_deg=35.0, slope_plan_m=4.0)
NO_WIND = cast(Wind, "from above")
REGIONS = (
    "Mediterranean",
    "Greece",
    "Central East",
    "Iberian",
    "Central West",
    "Sweden, Finland",
    "UK, Ireland",
)

Refusal = tuple[Callable[[], object], type[PenticeError], str]
REFUSALS: dict[str, Refusal] = {
    "psi": (
        lambda: characteristic_6_14b(permanent=1.0, accompanying=((1.0, 1.5),)),
        OutsideScope,
        r"psi is 1\.5",
    ),
    "pitch of snow": (lambda: mu_1(91.0), OutsideScope, r"pitch_deg is 91 deg; expected 0 to 90 deg"),
    "exposure": (
        lambda: exposure_coefficient(EN, "open"),
        InputError,
        r"expected one of windswept, normal, sheltered",
    ),
    "mu": (lambda: roof_snow_kn_m2(mu=-0.1, ground_kn_m2=1.0), OutsideScope, r"mu is -0\.1"),
    "ground": (lambda: roof_snow_kn_m2(mu=0.8, ground_kn_m2=26.0), OutsideScope, "ground_kn_m2 is 26"),
    "c_e": (lambda: roof_snow_kn_m2(mu=0.8, ground_kn_m2=1.0, c_e=0.7), OutsideScope, r"c_e is 0\.7"),
    "c_t": (lambda: roof_snow_kn_m2(mu=0.8, ground_kn_m2=1.0, c_t=1.1), OutsideScope, r"c_t is 1\.1"),
    "state": (lambda: snow_density_kn_m3("dirty"), InputError, "expected one of fresh, settled, old, wet"),
    "years of snow": (
        lambda: return_period_factor(4.0),
        OutsideScope,
        "years is 4 years; expected 5 to 1000",
    ),
    "variation": (lambda: return_period_factor(50.0, variation=1.5), OutsideScope, r"variation is 1\.5"),
    "factor": (lambda: exceptional_snow_kn_m2(1.0, factor=0.5), OutsideScope, r"factor is 0\.5"),
    "step of obstruction": (
        lambda: obstruction_coefficient(step_m=0.0, ground_kn_m2=1.0),
        OutsideScope,
        "step_m is 0",
    ),
    "no snow": (
        lambda: obstruction_coefficient(step_m=1.0, ground_kn_m2=0.0),
        OutsideScope,
        "ground_kn_m2 is 0",
    ),
    "no step": (lambda: drift_length_m(-1.0), OutsideScope, "step_m is -1 m"),
    "overhang": (lambda: overhang_load_kn_m(-1.0), OutsideScope, "snow_kn_m2 is -1"),
    "guard": (
        lambda: guard_load_kn_m(snow_kn_m2=1.0, plan_m=1.0, pitch_deg=95.0),
        OutsideScope,
        "pitch_deg is 95",
    ),
    "region": (
        lambda: ground_snow_kn_m2("Narnia", 1, 0.0),
        InputError,
        "snow_region is Narnia; expected one of Alpine",
    ),
    "zone": (
        lambda: ground_snow_kn_m2("DE", 4, 0.0),
        InputError,
        "snow_zone is 4; expected one of 1, 1a, 2, 2a, 3",
    ),
    "too high": (
        lambda: ground_snow_kn_m2("IT", "III", 300.0),
        OutsideScope,
        r"300 m; .*site\.ground_snow_kn_m2",
    ),
    "off the table": (
        lambda: ground_snow_kn_m2("ES", 1, 1700.0),
        OutsideScope,
        "1700 m; expected 0 to 1600 m",
    ),
    "Norway": (
        lambda: ground_snow_source("Norway"),
        OutsideScope,
        "snow_region Norway is not held here: it goes by",
    ),
    "wording": (
        lambda: sliding_coefficient(HOUSE, length_m=5.0, wording="all"),
        InputError,
        "sliding_wording is all",
    ),
    "upper roof": (
        lambda: wind_drift_coefficient(upper_m=0.0, lower_m=3.0, step_m=1.0, ground_kn_m2=1.0),
        OutsideScope,
        "upper_m is 0 m",
    ),
    "lower roof": (
        lambda: drift_at_wall(HOUSE, lower_m=0.0, step_m=1.0, ground_kn_m2=1.0),
        OutsideScope,
        "lower_m is 0 m",
    ),
    "gable upside down": (
        lambda: drifts_between(HOUSE, lower_m=3.0, lowest_step_m=2.0, highest_step_m=1.0, ground_kn_m2=1.0),
        OutsideScope,
        "lowest_step_m is 2 m",
    ),
    "behind the wall": (
        lambda: Drift(step_m=1.0, mu_w=1.0, mu_s=0.0, length_m=5.0).mu_at(-1.0),
        OutsideScope,
        "distance_m is -1 m",
    ),
    "no exceptional step": (
        lambda: drift_at_taller_wall(upper_m=8.0, lower_m=3.0, step_m=0.0, ground_kn_m2=1.0),
        OutsideScope,
        "step_m is 0 m",
    ),
    "behind the exceptional wall": (
        lambda: drift_at_taller_wall(upper_m=8.0, lower_m=3.0, step_m=2.0, ground_kn_m2=1.0).at_kn_m2(-0.1),
        OutsideScope,
        r"distance_m is -0\.1 m",
    ),
    "km/h": (lambda: basic_velocity_m_s(90.0), OutsideScope, "vb0_m_s is 90 m/s; .*Give v_b,0 in m/s"),
    "c_dir": (lambda: basic_velocity_m_s(24.0, c_dir=1.2), OutsideScope, r"c_dir is 1\.2"),
    "c_season": (lambda: basic_velocity_m_s(24.0, c_season=0.0), OutsideScope, "c_season is 0"),
    "terrain": (lambda: terrain("V"), InputError, "terrain is V; expected one of 0, I, II, III, IV"),
    "years of wind": (lambda: probability_factor(1.0), OutsideScope, "years is 1 years; expected 2 to 1000"),
    "z": (lambda: roughness_factor(201.0, terrain("II")), OutsideScope, "z_m is 201 m; expected 0 to 200 m"),
    "c_o": (lambda: exposure_factor(5.0, terrain("II"), c_o=0.9), OutsideScope, r"c_o is 0\.9"),
    "density": (
        lambda: velocity_pressure_kn_m2(24.0, air_density_kg_m3=1000.0),
        OutsideScope,
        "air_density_kg_m3",
    ),
    "distance": (
        lambda: displacement_height_m(distance_m=-1.0, neighbours_m=6.0, height_m=5.0),
        OutsideScope,
        "distance_m is -1 m",
    ),
    "neighbours": (
        lambda: displacement_height_m(distance_m=1.0, neighbours_m=0.0, height_m=5.0),
        OutsideScope,
        "neighbours_m is 0 m",
    ),
    "UK altitude": (
        lambda: altitude_factor(altitude_m=1500.0, z_m=5.0),
        OutsideScope,
        "altitude_m is 1500 m",
    ),
    "azimuth": (lambda: direction_factor(-1.0), OutsideScope, "azimuth_deg is -1 deg; expected 0 to 360 deg"),
    "sea": (
        lambda: exposure_factor_read(km_to_sea=0.05, z_m=5.0),
        OutsideScope,
        r"distance_to_sea_km is 0\.05 km",
    ),
    "low by the sea": (
        lambda: exposure_factor_read(km_to_sea=0.5, z_m=2.5),
        OutsideScope,
        r"z_m is 2\.5 m; the 0\.1 km curve of Figure NA\.7 is held from 3 to 10 m\. Give site\.peak_pressure_kn_m2",
    ),
    "town": (
        lambda: town_factor_read(km_in_town=30.0, z_m=5.0),
        OutsideScope,
        "distance_in_town_km is 30 km",
    ),
    "UK height": (lambda: pressure_from_factors_kn_m2(0.4, c_e=3.0, z_m=51.0), OutsideScope, "z_m is 51 m"),
    "area": (lambda: area_coefficient(cpe_10=-1.0, cpe_1=-2.0, area_m2=0.0), OutsideScope, "area_m2 is 0 m2"),
    "steep roof": (
        lambda: roof_coefficients(EN, pitch_deg=46.0, wind="onto foot"),
        OutsideScope,
        "pitch_deg is 46 deg; expected 0 to 45 deg",
    ),
    "no such wind": (
        lambda: roof_coefficients(EN, pitch_deg=10.0, wind=NO_WIND),
        InputError,
        "wind is from above; expected one of onto foot",
    ),
    "tower": (
        lambda: wall_coefficients(height_m=6.0, depth_m=1.0),
        OutsideScope,
        "h_over_d is 6; expected 0.25 to 5",
    ),
    "dominant": (
        lambda: internal_pressure_dominant(cpe_at_opening=0.7, factor=1.1),
        OutsideScope,
        r"dominant_factor is 1\.1",
    ),
    "surface": (lambda: friction_coefficient("wavy"), InputError, "expected one of smooth, rough, ribbed"),
    "canopy pitch": (
        lambda: canopy_coefficient(EN, pitch_deg=31.0, blockage=0.0, zone="A"),
        OutsideScope,
        r"pitch_deg is 31 deg; expected 0 to 30 deg \(EN 1991-1-4, Table 7\.6\)",
    ),
    "blockage": (
        lambda: canopy_coefficient(EN, pitch_deg=10.0, blockage=1.5, zone="A"),
        OutsideScope,
        r"blockage is 1\.5",
    ),
    "canopy zone": (
        lambda: canopy_coefficient(EN, pitch_deg=10.0, blockage=0.0, zone="D"),
        InputError,
        "zone is D; expected one of cf, A, B, C, BC",
    ),
    "no canopy": (
        lambda: canopy_resultant(0.5, c_f=1.0, width_m=0.0, depth_m=3.0),
        OutsideScope,
        "width_m is 0 m",
    ),
    "wind on zones": (
        lambda: roof_zones(width_m=6.0, depth_m=3.0, height_m=2.6, pitch_deg=10.0, wind=NO_WIND),
        InputError,
        "wind is from above",
    ),
    "steep zones": (
        lambda: roof_zones(width_m=6.0, depth_m=3.0, height_m=2.6, pitch_deg=50.0, wind="onto foot"),
        OutsideScope,
        "pitch_deg is 50 deg",
    ),
    "no height": (lambda: zone_measure_m(crosswind_m=5.0, height_m=0.0), OutsideScope, "height_m is 0 m"),
    "wind on canopy zones": (
        lambda: canopy_zones(width_m=5.0, depth_m=3.0, wind=NO_WIND),
        InputError,
        "wind is from above",
    ),
    "no depth": (
        lambda: canopy_zones(width_m=5.0, depth_m=0.0, wind="onto foot"),
        OutsideScope,
        "depth_m is 0 m",
    ),
    "no wall": (
        lambda: wall_zones(crosswind_m=5.0, depth_m=0.0, height_m=3.0),
        OutsideScope,
        "depth_m is 0 m",
    ),
}


@pytest.mark.parametrize("case", sorted(REFUSALS))
def test_rule_refuses_outside_its_range(case: str) -> None:
    """What, its value, what was expected: never an extrapolation."""
    act, kind, says = REFUSALS[case]
    with pytest.raises(kind, match=says):
        act()


@pytest.mark.parametrize("region", REGIONS)
def test_rows_only_remembered_are_asked_for(region: str) -> None:
    """Annex C beyond the Alpine row."""
    with pytest.raises(
        OutsideScope, match=rf"snow_region {region} is not held here.*Give site\.ground_snow_kn_m2"
    ):
        ground_snow_kn_m2(region, 2, 200.0)
