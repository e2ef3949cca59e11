"""EN 1991-1-3:2003: snow on the ground, drifts and local effects as printed outside this project.

Sources, all second-hand unless said:
- RFCS handbook Steel Buildings in Europe, Part 3: Actions, App. A (read): drift at a taller part, parapets;
- a verification text on Annex B after examples of a digest of a British research body (read): obstructions;
- tests of a public Polish implementation, some marked as examples of a Polish textbook on loads to Eurocodes;
- a concise web text on the Eurocodes: the zones of the UK at 100 m;
- public copies of the German, Spanish, French, Greek, Slovenian, Dutch and Polish rules and of NTC 2018;
- a Norwegian handbook of glulam, worked example 9.
"""

from __future__ import annotations

import math

import pytest

from pentice.standards._tables import toml_of
from pentice.standards.annex import annex_from, load_annex
from pentice.standards.en1991_1_3 import (
    drift_length_m,
    exceptional_snow_kn_m2,
    exposure_coefficient,
    guard_load_kn_m,
    mu_1,
    obstruction_coefficient,
    roof_snow_kn_m2,
    snow_density_kn_m3,
)
from pentice.standards.en1991_1_3_annex_b import (
    drift_at_obstruction,
    drift_at_taller_wall,
    drift_behind_parapet,
)
from pentice.standards.en1991_1_3_drift import UpperRoof, drift_at_wall, wind_drift_coefficient
from pentice.standards.en1991_1_3_ground import accidental_ground_snow_kn_m2, ground_snow_kn_m2

HALL = UpperRoof(width_m=40.0, pitch_deg=8.5, slope_plan_m=20.0)


@pytest.mark.parametrize(
    ("region", "zone", "altitude_m", "printed"),
    [
        pytest.param("ES", 4, 560.0, 0.46, id="Spain 4, tested in a public library"),
        pytest.param("PL", 1, 350.0, 1.05, id="Poland 1"),
        pytest.param("PL", 3, 360.0, 1.56, id="Poland 3"),
        pytest.param("PL", 1, 0.0, 0.7, id="Poland 1, least"),
        pytest.param("PL", 2, 600.0, 0.9, id="Poland 2, at any height"),
        pytest.param("PL", 3, 0.0, 1.2, id="Poland 3, least"),
        pytest.param("FR", "A1", 200.0, 0.45, id="France A1"),
        pytest.param("FR", "A2", 200.0, 0.45, id="France A2"),
        pytest.param("FR", "B1", 200.0, 0.55, id="France B1"),
        pytest.param("FR", "C1", 200.0, 0.65, id="France C1"),
        pytest.param("FR", "D", 200.0, 0.90, id="France D"),
        pytest.param("FR", "E", 200.0, 1.40, id="France E"),
        pytest.param("DE", "1", 0.0, 0.65, id="Germany 1, least"),
        pytest.param("DE", "2", 0.0, 0.85, id="Germany 2, least"),
        pytest.param("DE", "3", 0.0, 1.10, id="Germany 3, least"),
        pytest.param("UK", 2, 100.0, 0.40, id="UK 2, concise text"),
        pytest.param("UK", 3, 100.0, 0.50, id="UK 3, concise text"),
        pytest.param("UK", 4, 100.0, 0.60, id="UK 4, concise text"),
        pytest.param("UK", 5, 100.0, 0.70, id="UK 5, concise text"),
        pytest.param("IT", "I-A", 200.0, 1.5, id="Italy I-A"),
        pytest.param("IT", "III", 200.0, 0.6, id="Italy III"),
        pytest.param("SI", "A1", 0.0, 0.651, id="Slovenia A1"),
        pytest.param("SI", "A2", 0.0, 1.293, id="Slovenia A2"),
        pytest.param("SI", "A3", 0.0, 1.935, id="Slovenia A3"),
        pytest.param("SI", "A4", 0.0, 2.577, id="Slovenia A4"),
        pytest.param("SI coast", "M1", 0.0, 0.289, id="Slovenia M1"),
        pytest.param("GR", 1, 0.0, 0.4, id="Greece 1"),
        pytest.param("GR", 2, 0.0, 0.8, id="Greece 2"),
        pytest.param("GR", 3, 0.0, 1.7, id="Greece 3"),
    ],
)
def test_ground_snow_is_the_printed_value(
    region: str, zone: str | int, altitude_m: float, printed: float
) -> None:
    """National values as printed; tolerance: rounding of binary fractions."""
    assert ground_snow_kn_m2(region, zone, altitude_m) == pytest.approx(printed, rel=1e-6)


@pytest.mark.parametrize(("zone", "printed"), [("1a", 0.81), ("2a", 1.06)])
def test_german_zones_1a_and_2a_have_a_quarter_more_at_their_least(zone: str, printed: float) -> None:
    """German annex of 2019: 0.81 and 1.06 kN/m2. Half the last printed place (1.25 x 0.65, 1.25 x 0.85)."""
    assert ground_snow_kn_m2("DE", zone, 0.0) == pytest.approx(printed, abs=0.005)


@pytest.mark.parametrize(
    ("zone", "printed"),
    [
        (1, [0.3, 0.5, 0.6, 0.7, 0.9, 1.0, 1.2, 1.4, 1.7, 2.3, 3.2, 4.3]),
        (2, [0.4, 0.5, 0.6, 0.7, 0.9, 1.0, 1.1, 1.3, 1.5, 2.0, 2.6, 3.5, 4.6]),
        (3, [0.2, 0.2, 0.2, 0.3, 0.3, 0.4, 0.5, 0.6, 0.7, 1.1, 1.7, 2.6, 4.0]),
        (4, [0.2, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.9, 3.0, 4.6]),
        (5, [0.2, 0.3, 0.4, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.3, 1.8, 2.5]),
    ],
)
def test_spanish_table_is_held_as_printed(zone: int, printed: list[float]) -> None:
    """Spanish annex, Table AN.2, second-hand; exact. The end value repeated by the copy at 1800 m is not held."""
    heights = [0, 200, 400, 500, 600, 700, 800, 900, 1000, 1200, 1400, 1600, 1800]
    assert [
        ground_snow_kn_m2("ES", zone, float(h)) for h, _ in zip(heights, printed, strict=False)
    ] == printed


@pytest.mark.parametrize(
    ("zone", "altitude_m", "pitch_deg", "printed"), [(2, 0.0, 10.0, 0.72), (3, 360.0, 5.0, 1.248)]
)
def test_polish_roofs_carry_the_printed_snow(
    zone: int, altitude_m: float, pitch_deg: float, printed: float
) -> None:
    """Examples marked as those of a Polish textbook; tolerance: rounding of binary fractions."""
    ground = ground_snow_kn_m2("PL", zone, altitude_m)
    assert roof_snow_kn_m2(mu=mu_1(pitch_deg), ground_kn_m2=ground) == pytest.approx(printed, rel=1e-6)


def test_dutch_flat_roof_carries_the_printed_snow() -> None:
    """0.8 x 1 x 1 x 0.7 = 0.56 kN/m2 in a public Dutch report; tolerance: rounding of binary fractions."""
    ground = ground_snow_kn_m2("NL", 1, 0.0)
    assert roof_snow_kn_m2(mu=mu_1(0.0), ground_kn_m2=ground) == pytest.approx(0.56, rel=1e-6)


def test_snow_acts_on_plan() -> None:
    """Norwegian handbook, example 9: 3.0 m of slope at 23.6 deg under s_k 1.5 carry 3.3 kN/m. Two printed places."""
    snow = roof_snow_kn_m2(mu=mu_1(23.6), ground_kn_m2=1.5)
    assert snow * 3.0 * math.cos(math.radians(23.6)) == pytest.approx(3.3, rel=0.002)


@pytest.mark.parametrize(("exposure", "printed"), [("windswept", 0.8), ("normal", 1.0), ("sheltered", 1.2)])
def test_exposure_has_the_printed_coefficient(exposure: str, printed: float) -> None:
    """Table 5.1 as given in a public transcription; exact."""
    assert exposure_coefficient(load_annex("EN"), exposure) == printed


@pytest.mark.parametrize(("exposure", "printed"), [("normal", 1.0), ("sheltered", 1.25)])
def test_french_exposure_has_the_printed_coefficient(exposure: str, printed: float) -> None:
    """French annex in a public implementation with its tests: no reduction, 1.25 where sheltered; exact."""
    factors, psi = load_annex("EN").factors, (0.5, 0.2, 0.0)
    given = {name: (psi, "a test") for name in ("psi_snow_low", "psi_snow_high", "psi_wind")}
    france = annex_from(toml_of("annex_FR.toml"), {"factors": (factors, "a test"), **given})
    assert exposure_coefficient(france, exposure) == printed


@pytest.mark.parametrize(("zone", "printed"), [("A2", 1.0), ("B1", 1.0), ("D", 1.8)])
def test_french_accidental_snow_is_the_printed_one(zone: str, printed: float) -> None:
    """French annex, s_Ad by region, in a public implementation with its tests; exact."""
    assert accidental_ground_snow_kn_m2("FR", zone) == printed


@pytest.mark.parametrize(("state", "printed"), [("fresh", 1.0), ("settled", 2.0), ("old", 3.5), ("wet", 4.0)])
def test_lying_snow_has_the_printed_weight(state: str, printed: float) -> None:
    """Annex E, Table E.1 as given in a public transcription (old snow 2.5 to 3.5); exact."""
    assert snow_density_kn_m3(state) == printed


@pytest.mark.parametrize(("step_m", "length_m"), [(3.0, 6.0), (4.25, 8.5)])
def test_drift_of_the_steel_handbook(step_m: float, length_m: float) -> None:
    """App. A: b 10 + 40 m, s_k 0.65, upper roof 8.5 deg. mu_w 4, mu_s 0, 2.60 and 0.52 kN/m2. Half a last place."""
    drift = drift_at_wall(HALL, lower_m=10.0, step_m=step_m, ground_kn_m2=0.65)
    assert (drift.mu_w, drift.mu_s) == (4.0, 0.0)
    assert drift.mu_2 == 4.0
    assert drift.length_m == length_m == drift_length_m(step_m)
    assert roof_snow_kn_m2(mu=drift.mu_at(0.0), ground_kn_m2=0.65) == pytest.approx(2.60, abs=0.005)
    assert roof_snow_kn_m2(mu=drift.mu_at(length_m), ground_kn_m2=0.65) == pytest.approx(0.52, abs=0.005)
    assert wind_drift_coefficient(upper_m=40.0, lower_m=10.0, step_m=step_m, ground_kn_m2=0.65) == 4.0


@pytest.mark.parametrize(
    ("along_m", "beyond_m", "length_m", "mu", "load"),
    [
        pytest.param(12.5, 25.0, 12.5, 4.00, 2.60, id="eaves"),
        pytest.param(40.0, 25.0, 15.0, 5.33, 3.46, id="gable"),
    ],
)
def test_parapet_of_the_steel_handbook(
    along_m: float, beyond_m: float, length_m: float, mu: float, load: float
) -> None:
    """App. A sheet 3-43: h 3.0 m, s_k 0.65. Tolerance: the book goes on from mu rounded to two places."""
    found = drift_behind_parapet(along_m=along_m, beyond_m=beyond_m, step_m=3.0, ground_kn_m2=0.65)
    assert found.length_m == length_m
    assert found.mu == pytest.approx(mu, abs=0.005)
    assert found.peak_kn_m2 == pytest.approx(load, abs=0.008)
    assert found.at_kn_m2(0.0) == found.peak_kn_m2


@pytest.mark.parametrize(
    ("step_m", "along_m", "mu", "load"),
    [
        pytest.param(1.0, 75.0, 3.33, 2.0, id="a and c1"),
        pytest.param(3.0, 2.0, 5.0, 3.0, id="b, canopy of 2 m"),
        pytest.param(0.8, 75.0, 2.67, 1.6, id="c2"),
    ],
)
def test_obstructions_of_the_verification_text(step_m: float, along_m: float, mu: float, load: float) -> None:
    """Annex B.4: s_k 0.60, a roof of 75 m. Tolerance: half the last printed place of mu."""
    found = drift_at_obstruction(along_m=along_m, beyond_m=75.0, step_m=step_m, ground_kn_m2=0.6)
    assert found.mu == pytest.approx(mu, abs=0.005)
    assert found.peak_kn_m2 == pytest.approx(load, rel=1e-6)


@pytest.mark.parametrize(
    ("upper_m", "lower_m", "step_m", "ground", "length_m", "load"),
    [
        pytest.param(12.0, 14.6, 4.5, 0.7, 14.6, 1.4, id="textbook"),
        pytest.param(20.0, 10.0, 3.0, 0.9, 10.0, 3.6, id="20-10-3"),
    ],
)
def test_exceptional_drifts_at_a_taller_wall_of_the_polish_tests(
    upper_m: float, lower_m: float, step_m: float, ground: float, length_m: float, load: float
) -> None:
    """Annex B.3. Tolerance: rounding of binary fractions."""
    found = drift_at_taller_wall(upper_m=upper_m, lower_m=lower_m, step_m=step_m, ground_kn_m2=ground)
    assert found.length_m == length_m
    assert found.peak_kn_m2 == pytest.approx(load, rel=1e-6)


@pytest.mark.parametrize(
    ("along_m", "beyond_m", "ground"),
    [
        pytest.param(20.0, 20.0, 0.9, id="one length"),
        pytest.param(5.0, 20.0, 0.9, id="eaves"),
        pytest.param(6.0, 12.0, 1.56, id="text"),
    ],
)
def test_parapets_of_the_polish_tests(along_m: float, beyond_m: float, ground: float) -> None:
    """Annex B.4, 1 m high: 5 m long, 2.0 kN/m2 at the parapet. Tolerance: rounding of binary fractions."""
    found = drift_behind_parapet(along_m=along_m, beyond_m=beyond_m, step_m=1.0, ground_kn_m2=ground)
    assert found.length_m == 5.0
    assert found.peak_kn_m2 == pytest.approx(2.0, rel=1e-6)


def test_obstruction_of_the_polish_tests_by_annex_b() -> None:
    """Annex B.4: s_k 0.9, 15 and 20 m, 1 m high: 5 m long, 2.0 kN/m2. Rounding of binary fractions."""
    found = drift_at_obstruction(along_m=15.0, beyond_m=20.0, step_m=1.0, ground_kn_m2=0.9)
    assert found.length_m == 5.0
    assert found.peak_kn_m2 == pytest.approx(2.0, rel=1e-6)


def test_obstruction_of_the_polish_tests_by_6_2() -> None:
    """s_k 0.9, 4 m high: 1.8 kN/m2, 8 m long, 0.72 where it ends. Rounding of binary fractions."""
    mu = obstruction_coefficient(step_m=4.0, ground_kn_m2=0.9)
    assert roof_snow_kn_m2(mu=mu, ground_kn_m2=0.9) == pytest.approx(1.8, rel=1e-6)
    assert drift_length_m(4.0) == 8.0
    assert roof_snow_kn_m2(mu=mu_1(0.0), ground_kn_m2=0.9) == pytest.approx(0.72, rel=1e-6)


@pytest.mark.parametrize(("snow", "plan_m", "printed"), [(0.9, 10.0, 4.5), (1.0, 1.5, 0.75)])
def test_snow_guards_of_the_polish_tests(snow: float, plan_m: float, printed: float) -> None:
    """6.4 at 30 deg. Rounding of binary fractions."""
    assert guard_load_kn_m(snow_kn_m2=snow, plan_m=plan_m, pitch_deg=30.0) == pytest.approx(printed, rel=1e-6)


def test_exceptional_fall_of_the_polish_tests() -> None:
    """4.3 with C_esl 2.0: 0.983 gives 1.965 (the test rounds s_n). Tolerance: one in the last printed place."""
    assert exceptional_snow_kn_m2(0.983, factor=2.0) == pytest.approx(1.965, abs=0.0015)
