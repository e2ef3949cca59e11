"""EN 1990:2002+A1:2005: factors of Tables A1.1 and A1.2, and combinations printed in handbooks.

Sources, all second-hand (read in a copy, not in the standard itself):
- EN 1990, Table A1.1 and EN 1991-1-3, Table 4.1, as given alike in two public transcriptions;
- a worked-example handbook for concrete structures with UK values (NA to BS EN 1990), walls and a column;
- a Norwegian handbook of glulam, worked examples 1 and 3 (Norwegian gamma_G 1.2).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.standards._tables import toml_of
from pentice.standards.annex import annex_from, load_annex, snow_psi
from pentice.standards.en1990 import (
    PartialFactors,
    Psi,
    characteristic_6_14b,
    combination_6_10,
    combination_6_10a,
    frequent_6_15b,
    quasi_permanent_6_16b,
)

EN = load_annex("EN")
UK = load_annex("UK")
NORWAY = replace(EN.factors, permanent_up=1.2)


@pytest.mark.parametrize(("altitude_m", "printed"), [(500.0, (0.5, 0.2, 0.0)), (1200.0, (0.7, 0.5, 0.2))])
def test_snow_has_the_psi_factors_of_its_height(
    altitude_m: float, printed: tuple[float, float, float]
) -> None:
    """Table A1.1, snow up to and above 1000 m; printed figures, so exact."""
    found = snow_psi(EN, altitude_m)
    assert (found.psi_0, found.psi_1, found.psi_2) == printed


@pytest.mark.parametrize(
    ("psi", "printed"),
    [
        pytest.param(EN.psi_wind, (0.6, 0.2, 0.0), id="wind"),
        pytest.param(UK.psi_wind, (0.5, 0.2, 0.0), id="wind UK"),
        pytest.param(EN.psi_imposed, (0.0, 0.0, 0.0), id="category H"),
    ],
)
def test_wind_and_category_h_have_the_printed_psi_factors(
    psi: Psi, printed: tuple[float, float, float]
) -> None:
    """Table A1.1 and Table NA.A1.1; printed figures, so exact."""
    assert (psi.psi_0, psi.psi_1, psi.psi_2) == printed


def test_category_h_has_psi_0_of_0_7_in_the_uk() -> None:
    """Table NA.A1.1, category H, used as 0.7 x 1.5 x 42.0 in the worked-example handbook; exact."""
    assert UK.psi_imposed.psi_0 == 0.7


def test_partial_factors_are_the_printed_ones() -> None:
    """Tables A1.2(A) and A1.2(B) as printed in the RFCS handbook Steel Buildings in Europe, Part 3; exact."""
    printed = PartialFactors(
        permanent_up=1.35,
        permanent_down=1.0,
        variable=1.5,
        xi=0.85,
        equ_permanent_up=1.1,
        equ_permanent_down=0.9,
        equ_variable=1.5,
    )
    assert EN.factors == printed


def test_xi_is_0_925_in_the_uk() -> None:
    """NA to BS EN 1990: 0.925 x 1.35 in the worked-example handbook; exact."""
    assert UK.factors.xi == 0.925


@pytest.mark.parametrize(
    ("leading", "accompanying", "printed"),
    [
        pytest.param(502.9, (35.7, 0.7), 1149.2, id="wind leads"),
        pytest.param(35.7, (502.9, 0.5), 788.1, id="roof leads"),
    ],
)
def test_wall_of_the_uk_handbook_by_6_10(
    leading: float, accompanying: tuple[float, float], printed: float
) -> None:
    """Foot of a wall, G 214.6 + 50.1 kN, wind 502.9 kN, roof 35.7 kN. Tolerance: half the last printed place."""
    found = combination_6_10(
        factors=UK.factors, unfavourable=214.6 + 50.1, leading=leading, accompanying=(accompanying,)
    )
    assert found == pytest.approx(printed, abs=0.05)


def test_uplift_of_the_uk_handbook_by_6_10() -> None:
    """Same wall lifted: 1.0 x 214.6 holds, 1.35 x 50.1 and 1.5 x 0.5 x 502.9 lift. Handbook rounds each term: 0.1."""
    found = combination_6_10(
        factors=UK.factors, favourable=214.6, unfavourable=-50.1, accompanying=((-502.9, UK.psi_wind.psi_0),)
    )
    assert found == pytest.approx(-230.2, abs=0.15)


def test_column_of_the_uk_handbook_by_6_10a() -> None:
    """G 5553.6 kN, Q 2279.5 kN reduced by alpha_n 0.6. Tolerance: half the last printed place."""
    found = combination_6_10a(factors=UK.factors, unfavourable=5553.6, variable=((0.6 * 2279.5, 0.7),))
    assert found == pytest.approx(8933.4, abs=0.05)


def test_beam_of_the_norwegian_handbook() -> None:
    """Example 1: g 4.35, q 10 kN/m, psi_1 0.5, psi_2 0.3. Tolerance: half the last printed place."""
    assert combination_6_10(factors=NORWAY, unfavourable=4.35, leading=10.0) == pytest.approx(
        20.2, abs=0.0501
    )
    assert characteristic_6_14b(permanent=4.35, leading=10.0) == pytest.approx(14.4, abs=0.0501)
    assert frequent_6_15b(permanent=4.35, leading=(10.0, 0.5)) == pytest.approx(9.4, abs=0.0501)
    assert quasi_permanent_6_16b(permanent=4.35, variable=((10.0, 0.3),)) == pytest.approx(7.4, abs=0.0501)


def test_roof_of_the_norwegian_handbook() -> None:
    """Example 3: g 5.2, snow 21.6, wind 2.3 kN/m, psi_0 0.6. Tolerance: half the last printed place."""
    snow = combination_6_10(factors=NORWAY, unfavourable=5.2, leading=21.6)
    both = combination_6_10(factors=NORWAY, unfavourable=5.2, leading=21.6, accompanying=((2.3, 0.6),))
    assert snow == pytest.approx(38.6, abs=0.0501)
    assert both == pytest.approx(40.7, abs=0.0501)


def test_wind_goes_along_with_nothing_in_the_netherlands() -> None:
    """Dutch annex, Table NB.2-A1.1: psi of wind 0 / 0.2 / 0, in a public worksheet; exact."""
    psi = (0.0, 0.3, 0.2)
    given = {name: (psi, "a test") for name in ("psi_snow_low", "psi_snow_high")}
    found = annex_from(toml_of("annex_NL.toml"), {"factors": (EN.factors, "a test"), **given}).psi_wind
    assert (found.psi_0, found.psi_1, found.psi_2) == (0.0, 0.2, 0.0)
