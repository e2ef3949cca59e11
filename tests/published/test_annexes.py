"""National choices that were read somewhere, country by country, against what was printed there.

Second-hand all of it:
- EN 1990:2002+A1:2005, Table A1.1 as given alike in two public transcriptions, and a Norwegian handbook of glulam;
- a worked-example handbook for concrete structures with UK values;
- a public implementation of the French annexes with its tests, and one of the wind with the French factors;
- a public implementation of SIA 261;
- EN 1991-1-3, 5.2(7), from memory;
- limits of sag in a public Dutch worksheet, and on a page about IS 10439:1983, glazing, withdrawn.
"""

from __future__ import annotations

import pytest

from pentice.standards._tables import toml_of
from pentice.standards.annex import Annex, annex_from, annex_names, load_annex
from pentice.standards.en1991_1_3 import exposure_coefficient

EN, UK = load_annex("EN"), load_annex("UK")


def _annex(name: str) -> Annex:
    """A country's file, with stand-ins for what every rule needs and the file does not hold."""
    data = toml_of(f"annex_{name}.toml")
    stand_ins = {"factors": EN.factors} | {
        psi: (9.0, 9.0, 9.0) for psi in ("psi_snow_low", "psi_snow_high", "psi_wind")
    }
    held = [key for key, choice in data["choices"].items() if "value" in choice]
    return annex_from(data, {key: (value, "a test") for key, value in stand_ins.items() if key not in held})


def test_snow_and_wind_go_together_in_norway_as_printed() -> None:
    """Table A1.1: snow in Finland, Iceland, Norway and Sweden at any height, and wind; exact."""
    norway = _annex("NO")
    for snow in (norway.psi_snow_low, norway.psi_snow_high):
        assert (snow.psi_0, snow.psi_1, snow.psi_2) == (0.7, 0.5, 0.2)
    wind = norway.psi_wind
    assert (wind.psi_0, wind.psi_1, wind.psi_2) == (0.6, 0.2, 0.0)


def test_snow_in_the_uk_has_the_psi_factors_of_table_a1_1() -> None:
    """Up to 1000 m and above; exact. Category H has 0 beside psi_0."""
    low, high, imposed = UK.psi_snow_low, UK.psi_snow_high, UK.psi_imposed
    assert (low.psi_0, low.psi_1, low.psi_2) == (0.5, 0.2, 0.0)
    assert (high.psi_0, high.psi_1, high.psi_2) == (0.7, 0.5, 0.2)
    assert (imposed.psi_1, imposed.psi_2) == (0.0, 0.0)
    assert UK.snow_boundary_m == EN.snow_boundary_m == 1000.0


def test_the_uk_lifts_with_the_factors_of_table_a1_2_a() -> None:
    """EQU 1.10, 0.90, 1.5, as printed in the RFCS handbook for the recommended values; exact."""
    factors = UK.factors
    printed = (1.1, 0.9, 1.5)
    assert (factors.equ_permanent_up, factors.equ_permanent_down, factors.equ_variable) == printed


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        pytest.param("EN", {"windswept": 0.8, "normal": 1.0, "sheltered": 1.2}, id="Table 5.1"),
        pytest.param("UK", {"windswept": 0.8, "normal": 1.0, "sheltered": 1.2}, id="UK, as Table 5.1"),
        pytest.param("CH", {"windswept": 0.8, "normal": 1.0, "sheltered": 1.2}, id="SIA 261, 5.2.4"),
        pytest.param("FR", {"normal": 1.0, "sheltered": 1.25}, id="French annex"),
    ],
)
def test_exposures_are_the_printed_ones(name: str, printed: dict[str, float]) -> None:
    """C_e; exact."""
    annex = _annex(name)
    assert {exposure: exposure_coefficient(annex, exposure) for exposure in printed} == printed
    assert len(annex.exposures) == len(printed)


@pytest.mark.parametrize("name", ["DE", "ES", "IT", "NL", "NO", "PL"])
def test_where_the_annex_was_not_read_no_wind_sweeps_snow_off(name: str) -> None:
    """5.2(7): 1.0, and 1.2 of Table 5.1 for a sheltered roof; the reduction of 0.8 is not taken. Exact."""
    assert dict(_annex(name).exposures) == {"normal": 1.0, "sheltered": 1.2}


@pytest.mark.parametrize(("name", "printed"), [("EN", (0.2, 0.5)), ("FR", (0.15, 0.5))])
def test_rarer_winds_by_the_k_and_n_of_the_country(name: str, printed: tuple[float, float]) -> None:
    """4.2(2), note 4; of France the printed factors for 2 to 25 years are those of K 0.15. Exact."""
    assert _annex(name).wind_probability == printed


def test_french_air_and_french_flat_roofs() -> None:
    """1.225 kg/m3; below 3 % of fall 0.2 kN/m2 of snow more. Exact: printed."""
    france = _annex("FR")
    assert france.air_density_kg_m3 == 1.225
    assert france.flat_addition == (0.03, 0.2)
    assert EN.flat_addition == UK.flat_addition == (0.0, 0.0)


def test_exceptional_falls_are_twice_the_ground_snow() -> None:
    """EN 1991-1-3, 4.3(1): C_esl 2.0 as recommended. Exact: printed."""
    assert EN.exceptional_fall_factor == 2.0


def test_openings_that_nobody_knows_let_the_same_in_with_the_uk_annex() -> None:
    """EN 1991-1-4, 7.2.9(6), note 2: it is not a national choice. Exact."""
    assert UK.cpi_unknown == (0.2, -0.3)


@pytest.mark.parametrize("name", annex_names())
def test_limits_of_sag_are_those_of_dutch_practice(name: str) -> None:
    """L/300 at once and L/250 in the end, chosen for every country; 20 mm as a code for glazing bars has it. Exact."""
    annex = _annex(name)
    assert annex.limit_w_inst == 300.0
    assert annex.limit_w_fin == 250.0
    assert annex.limit_cap_mm == 20.0
