"""EN 1993-1-1 and EN 1999-1-1: steel and aluminium members, against values printed outside the project.

References, all second hand:
[SSB]  Steel Buildings in Europe, Part 4 (RFCS design handbook), p. 96.
[T32b] EN 1999-1-1, Table 3.2b, as reproduced on a public site of normative documents.
[PAM]  Constants of EN 1999-1-1, 3.2.5 and 6.1.3, as printed in the tables of pamd-eurocodes 0.3.0.
[OUR]  Test values of the public repository AnthonyPrst/ourocode (steel, second hand from EN 1993-1-1).
[IS]   Quick-reference page of IS 10439:1983, code of practice for patent glazing, withdrawn.
"""

from __future__ import annotations

import pytest

from pentice.errors import OutsideScope
from pentice.standards import en1999
from pentice.standards.en1993 import (
    steel,
    steel_bending_n_mm,
    steel_bending_with_shear_n_mm,
    steel_chi,
    steel_shear_n,
)
from pentice.standards.en1999 import aluminium, glazing_bar_sag_limit_mm


def test_buckling_by_curve_b() -> None:
    """[SSB] slenderness 0.655: chi 0.808. Tolerance 0.2 %: phi was rounded to 0.792 on the way."""
    assert steel_chi(0.655, "b") == pytest.approx(0.808, rel=0.002)


@pytest.mark.parametrize(
    ("grade", "thickness", "yields", "breaks"),
    [
        pytest.param("S235", 20.0, 235.0, 360.0, id="S235"),
        pytest.param("S235", 50.0, 215.0, 360.0, id="S235 over 40 mm"),
        pytest.param("S275", 40.0, 275.0, 430.0, id="S275, from memory"),
        pytest.param("S275", 80.0, 255.0, 410.0, id="S275 over 40 mm, from memory"),
        pytest.param("S355", 40.0, 355.0, 490.0, id="S355, from memory"),
        pytest.param("S355", 80.0, 335.0, 470.0, id="S355 over 40 mm, from memory"),
    ],
)
def test_strengths_of_structural_steel(grade: str, thickness: float, yields: float, breaks: float) -> None:
    """EN 1993-1-1:2005, Table 3.1: S235 [OUR]; S275 and S355 were not read but remembered. Exact."""
    ours = steel(grade, thickness)
    assert (ours.f_y_n_mm2, ours.f_u_n_mm2) == (yields, breaks)


def test_a_steel_section_in_shear_and_bending() -> None:
    """[OUR] S235, A_v 500, W 20 000, V 40 kN: 67 838.7 N, 4.7 and 4.54895 kNm. Exact: printed."""
    shear = steel_shear_n(500.0, 235.0)
    assert shear == pytest.approx(67838.65662978104, rel=1e-9)
    bending = steel_bending_n_mm(20000.0, 235.0)
    assert bending == pytest.approx(4.7e6)
    left = steel_bending_with_shear_n_mm(bending, 40e3, shear)
    assert left / 1e3 == pytest.approx(4548.954955674857, rel=1e-9)


@pytest.mark.parametrize(
    ("alloy", "thickness", "f_o", "f_u"),
    [
        ("6060-T5", 5.0, 120.0, 160.0),
        ("6060-T5", 5.1, 100.0, 140.0),
        ("6060-T5", 25.0, 100.0, 140.0),
        ("6060-T6", 15.0, 140.0, 170.0),
        ("6060-T64", 15.0, 120.0, 180.0),
        ("6060-T66", 3.0, 160.0, 215.0),
        ("6060-T66", 3.01, 150.0, 195.0),
        ("6060-T66", 25.0, 150.0, 195.0),
        ("6063-T5", 3.0, 130.0, 175.0),
        ("6063-T5", 3.01, 110.0, 160.0),
        ("6063-T5", 25.0, 110.0, 160.0),
        ("6063-T6", 25.0, 160.0, 195.0),
        ("6063-T66", 10.0, 200.0, 245.0),
        ("6063-T66", 10.01, 180.0, 225.0),
        ("6063-T66", 25.0, 180.0, 225.0),
        ("6005A-T6 open", 5.0, 225.0, 270.0),
        ("6005A-T6 hollow", 5.0, 215.0, 255.0),
    ],
)
def test_strengths_of_extruded_aluminium(alloy: str, thickness: float, f_o: float, f_u: float) -> None:
    """[T32b] Extruded profiles. Exact: printed."""
    ours = aluminium(alloy, thickness)
    assert (ours.f_o_n_mm2, ours.f_u_n_mm2) == (f_o, f_u)


@pytest.mark.parametrize(
    ("alloy", "thickest"),
    [
        ("6060-T5", 25.0),
        ("6060-T6", 15.0),
        ("6060-T64", 15.0),
        ("6060-T66", 25.0),
        ("6063-T5", 25.0),
        ("6063-T6", 25.0),
        ("6063-T66", 25.0),
        ("6005A-T6 open", 5.0),
        ("6005A-T6 hollow", 5.0),
    ],
)
def test_the_table_of_aluminium_ends_where_it_is_printed(alloy: str, thickest: float) -> None:
    """[T32b] Greatest thickness of each row that was read; thicker is refused."""
    assert aluminium(alloy, thickest).f_o_n_mm2 > 0.0
    with pytest.raises(OutsideScope, match=f"at most {thickest:g} mm"):
        aluminium(alloy, thickest + 0.1)


def test_constants_of_aluminium() -> None:
    """[PAM] E, G, expansion, density, partial factors. Exact: printed."""
    assert (en1999.E_N_MM2, en1999.G_N_MM2) == (70000.0, 27000.0)
    assert (en1999.ALPHA_PER_K, en1999.DENSITY_KG_M3) == (2.3e-5, 2700.0)
    assert (en1999.GAMMA_M1, en1999.GAMMA_M2) == (1.1, 1.25)


@pytest.mark.parametrize(("span", "printed"), [(3000.0, 17.14), (4000.0, 20.0)])
def test_sag_of_a_glazing_bar(span: float, printed: float) -> None:
    """[IS] span/175 or 20 mm. Tolerance: half the last printed digit."""
    assert glazing_bar_sag_limit_mm(span) == pytest.approx(printed, abs=0.005)
