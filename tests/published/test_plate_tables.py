"""Plates on four simple supports.

Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition, Tables 8, 11 and 80: from memory; the
square plate also in a public test of plate elements (0.004062) and in extracts of Roark's Table 11.4. Plates with
shear: values printed in papers on plate elements for h/a = 0.1 and 0.2, from memory.
"""

from __future__ import annotations

import pytest

from pentice.mechanics.plate import PlateLoad, plate_at, plate_extremes
from pentice.mechanics.section import PlateStiffness

EVEN = PlateLoad(head_kn_m2=1.0, foot_kn_m2=1.0)
NU = 0.3
SHORT_MM = 1000.0
# With D = 1000 N m, a = 1 m and 1 kN/m2 the coefficient of the sag is the sag in metres, that of the moment M / 1000 N.
ISOTROPIC = PlateStiffness(bx_n_m=1000.0, by_n_m=1000.0, b1_n_m=1000.0 * NU, dt_n_m=1000.0 * (1.0 - NU) / 2.0)


def _centre(plate: PlateStiffness, ratio: float) -> tuple[float, float, float]:
    """Coefficients of sag, of the moment across and of the moment along, in the middle."""
    long_mm = ratio * SHORT_MM
    answer = plate_at(plate, long_mm, SHORT_MM, EVEN, x_mm=long_mm / 2.0, y_mm=SHORT_MM / 2.0)
    return answer.sag_mm / 1e3, answer.moment_across_n / 1e3, answer.moment_along_n / 1e3


@pytest.mark.parametrize(
    ("ratio", "alpha"),
    [(1.0, 0.00406), (1.5, 0.00772), (2.0, 0.01013), (3.0, 0.01223), (4.0, 0.01282), (5.0, 0.01297)],
)
def test_sag_of_a_plate_is_table_8(ratio: float, alpha: float) -> None:
    """Table 8, even load. Tolerance: half a unit in the last printed place."""
    assert _centre(ISOTROPIC, ratio)[0] == pytest.approx(alpha, abs=5e-6)


@pytest.mark.parametrize(
    ("ratio", "alpha"), [(1.1, 0.00485), (1.2, 0.00564), (1.4, 0.00705), (1.6, 0.00830), (1.8, 0.00931)]
)
def test_sag_between_is_table_8_as_printed_long_ago(ratio: float, alpha: float) -> None:
    """Table 8. Tolerance 3.5e-5: these rows were summed by hand and rounded; later ones (Roark) agree with us."""
    assert _centre(ISOTROPIC, ratio)[0] == pytest.approx(alpha, abs=3.5e-5)


def test_a_square_plate_as_plate_elements_are_tested() -> None:
    """0.004062 p a4/D and moment 0.0479 p a2. Tolerance: half a unit in the last printed place."""
    sag, across, along = _centre(ISOTROPIC, 1.0)
    assert sag == pytest.approx(0.004062, abs=5e-7)
    assert across == pytest.approx(0.0479, abs=5e-5)
    assert along == pytest.approx(0.0479, abs=5e-5)


@pytest.mark.parametrize(("ratio", "beta"), [(1.5, 0.08116), (2.0, 0.10168), (3.0, 0.11886), (4.0, 0.12346)])
def test_moment_of_a_plate_across_its_short_side(ratio: float, beta: float) -> None:
    """A page of plate formulas after Roark and Lekhnitskii. Tolerance 1e-4: the series is cut off."""
    assert _centre(ISOTROPIC, ratio)[1] == pytest.approx(beta, abs=1e-4)


@pytest.mark.parametrize(
    ("share", "sag", "moment"),
    [(0.25, 0.00131, 0.0132), (0.5, 0.00203, 0.0239), (0.6, 0.00201, 0.0264), (0.75, 0.00162, 0.0259)],
)
def test_a_load_that_grows_in_a_straight_line_is_table_11(share: float, sag: float, moment: float) -> None:
    """Table 11, square. Tolerance: 2.5e-5 and 1.5e-4, the last two rows were summed by hand."""
    growing = PlateLoad(head_kn_m2=0.0, foot_kn_m2=1.0)
    answer = plate_at(ISOTROPIC, SHORT_MM, SHORT_MM, growing, x_mm=share * SHORT_MM, y_mm=SHORT_MM / 2.0)
    assert answer.sag_mm / 1e3 == pytest.approx(sag, abs=2.5e-5)
    assert answer.moment_along_n / 1e3 == pytest.approx(moment, abs=1.5e-4)


@pytest.mark.parametrize(
    ("ratio", "alpha", "beta"),
    [
        (1.0, 0.00407, 0.0368),
        (1.5, 0.00772, 0.0728),
        (2.0, 0.01013, 0.0964),
        (2.5, 0.01150, 0.1100),
        (3.0, 0.01223, 0.1172),
        (5.0, 0.01297, 0.1245),
    ],
)
def test_an_orthotropic_plate_is_table_80(ratio: float, alpha: float, beta: float) -> None:
    """Table 80: H = sqrt(Dx Dy), nu = 0, sides as (Dy/Dx)^(1/4). Tolerance 1.1e-5 and 1.5e-4: summed by hand."""
    along, across = 3500.0, 1000.0
    plate = PlateStiffness(bx_n_m=along, by_n_m=across, b1_n_m=0.0, dt_n_m=(along * across) ** 0.5 / 2.0)
    sag, moment, _ = _centre(plate, ratio * (along / across) ** 0.25)
    assert sag == pytest.approx(alpha, abs=1.1e-5)
    assert moment == pytest.approx(beta, abs=1.5e-4)


@pytest.mark.parametrize(("thickness", "alpha"), [(0.1, 0.004273), (0.2, 0.004906)])
def test_a_thick_plate_sags_by_its_shear_too(thickness: float, alpha: float) -> None:
    """Square, shear factor 5/6. Tolerance 2e-6: printed digits, and edges held softly in some of the papers."""
    shear = 5.0 * (1.0 - NU) / thickness**2 * 1000.0
    plate = PlateStiffness(
        bx_n_m=1000.0,
        by_n_m=1000.0,
        b1_n_m=1000.0 * NU,
        dt_n_m=1000.0 * (1.0 - NU) / 2.0,
        sx_n_m=shear,
        sy_n_m=shear,
    )
    assert _centre(plate, 1.0)[0] == pytest.approx(alpha, abs=2e-6)


def test_the_greatest_sag_of_a_square_plate_lies_in_its_middle() -> None:
    """Table 8 again, found by search. Tolerance: half a unit in the last printed place."""
    extremes = plate_extremes(ISOTROPIC, SHORT_MM, SHORT_MM, EVEN)
    assert extremes.sag_mm / 1e3 == pytest.approx(0.00406, abs=5e-6)
    assert extremes.sag_at_mm == pytest.approx(500.0)
    assert extremes.moment_across_n / 1e3 == pytest.approx(0.0479, abs=5e-5)
    assert extremes.moment_along_n / 1e3 == pytest.approx(0.0479, abs=5e-5)
