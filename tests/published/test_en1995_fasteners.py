"""EN 1995-1-1:2004 with A1, chapter 8: fasteners in shear, against worked examples that other people printed.

References, all second hand:
[NTNU] Norwegian University of Science and Technology, course TKT4211 Timber Structures 1, worked examples C1 to C5, as
       kept in the public repository Anthrazit68/NODEMaple.
[DE]   German simplified rule (national annex), values of Schneider, Bautabellen, in the test workbook of the public
       repository knippershelbig/StructuralDesignKit_Holz. It leaves out the standard's factor 1.15 on two hinges.
[OUR]  Test values of the public repository AnthonyPrst/ourocode.
"""

from __future__ import annotations

import pytest

from pentice.standards.en1995_dowels import (
    bolt_embedment_n_mm2,
    bolt_yield_moment_n_mm,
    nail_yield_moment_n_mm,
)
from pentice.standards.en1995_johansen import (
    Fastener,
    steel_inside_double_shear,
    steel_single_shear,
    timber_double_shear,
    timber_single_shear,
)
from pentice.standards.en1995_pull import bolt_pull
from pentice.standards.en1995_spacing import bolt_distances, bolts_in_row, dowel_distances


def test_a_dowel_through_three_timbers() -> None:
    """[NTNU] C1: dowel 12, f_u 600, C24, 36 and 48 thick. Tolerance 0.3 %: printed steps are rounded."""
    f_h, bent = bolt_embedment_n_mm2(12.0, 350.0), bolt_yield_moment_n_mm(12.0, 600.0)
    assert f_h == pytest.approx(25.3, rel=0.003)
    assert bent == pytest.approx(115118.0, rel=1e-5)
    dowel = Fastener(d_mm=12.0, yield_moment_n_mm=bent, rope="dowel")
    plane = timber_double_shear(dowel, t_1_mm=36.0, f_h_1_n_mm2=f_h, t_2_mm=48.0, f_h_2_n_mm2=f_h)
    printed = {"g": 10930.0, "h": 7286.0, "j": 6657.0, "k": 9614.0}
    assert {mode.letter: mode.resistance_n for mode in plane.modes} == pytest.approx(printed, rel=0.003)
    assert plane.governing == "j"


def test_six_dowels_in_two_rows() -> None:
    """[NTNU] C1: two planes, six dowels, rows of three at 60 mm. Tolerance 0.5 %: printed steps are rounded."""
    f_h = bolt_embedment_n_mm2(12.0, 350.0)
    dowel = Fastener(d_mm=12.0, yield_moment_n_mm=bolt_yield_moment_n_mm(12.0, 600.0), rope="dowel")
    plane = timber_double_shear(dowel, t_1_mm=36.0, f_h_1_n_mm2=f_h, t_2_mm=48.0, f_h_2_n_mm2=f_h)
    design = plane.resistance_n * 0.9 / 1.3
    count = bolts_in_row(3, 60.0, 12.0)
    assert design == pytest.approx(4609.0, rel=0.005)
    assert count == pytest.approx(2.11, rel=0.005)
    assert 6 * 2 * design == pytest.approx(55.3e3, rel=0.005)
    assert 2 * count * 2 * design == pytest.approx(38.9e3, rel=0.005)


def test_distances_of_dowels_along_the_grain() -> None:
    """[NTNU] C2, Table 8.5 at 0 degrees. Exact: printed."""
    least = dowel_distances(12.0)
    assert (least.along_mm, least.across_mm, least.loaded_end_mm, least.free_edge_mm) == pytest.approx(
        (60.0, 36.0, 84.0, 36.0)
    )


def test_distances_of_dowels_across_the_grain() -> None:
    """[NTNU] C2, Table 8.5 at 70 degrees. Tolerance 0.2 %: printed to 0.1 mm, the sine rounded."""
    least = dowel_distances(12.0, 70.0)
    assert least.along_mm == pytest.approx(44.2, rel=0.002)
    assert least.loaded_edge_mm == pytest.approx(46.5, rel=0.002)


def test_bolts_at_an_angle_between_two_timbers() -> None:
    """[NTNU] C3: M12 8.8, C30 at 39 degrees between GL30h. Tolerance 0.5 %: printed steps are rounded."""
    f_h_1, f_h_2 = bolt_embedment_n_mm2(12.0, 380.0, 39.0), bolt_embedment_n_mm2(12.0, 430.0, 39.0)
    assert (f_h_1, f_h_2) == pytest.approx((22.6, 25.6), rel=0.005)
    bent = bolt_yield_moment_n_mm(12.0, 800.0)
    assert bent == pytest.approx(153491.0, rel=1e-5)
    bolt = Fastener(d_mm=12.0, yield_moment_n_mm=bent)
    plane = timber_double_shear(bolt, t_1_mm=75.0, f_h_1_n_mm2=f_h_1, t_2_mm=115.0, f_h_2_n_mm2=f_h_2)
    printed = {"g": 20340.0, "h": 17664.0, "j": 9330.0, "k": 10808.0}
    assert {mode.letter: mode.resistance_n for mode in plane.modes} == pytest.approx(printed, rel=0.005)


def test_a_thick_plate_on_glulam() -> None:
    """[NTNU] C4: d 12, f_u 400, GL32c, 40 mm. Tolerance 0.3 %: printed steps are rounded."""
    f_h, bent = bolt_embedment_n_mm2(12.0, 400.0), bolt_yield_moment_n_mm(12.0, 400.0)
    assert (f_h, bent) == pytest.approx((28.9, 76745.0), rel=0.002)
    plane = steel_single_shear(
        Fastener(d_mm=12.0, yield_moment_n_mm=bent), t_mm=40.0, f_h_n_mm2=f_h, plate_mm=12.0
    )
    printed = {"c": 13872.0, "d": 8294.0, "e": 11866.0}
    assert {mode.letter: mode.resistance_n for mode in plane.modes} == pytest.approx(printed, rel=0.003)


def test_a_bolt_of_ten_through_three_timbers() -> None:
    """[NTNU] C5: M10 8.8, C30, 50 and 100 thick. Tolerance 0.3 %: printed steps are rounded."""
    f_h, bent = bolt_embedment_n_mm2(10.0, 380.0), bolt_yield_moment_n_mm(10.0, 800.0)
    assert (f_h, bent) == pytest.approx((28.0, 95545.0), rel=0.003)
    bolt = Fastener(d_mm=10.0, yield_moment_n_mm=bent)
    plane = timber_double_shear(bolt, t_1_mm=50.0, f_h_1_n_mm2=f_h, t_2_mm=100.0, f_h_2_n_mm2=f_h)
    printed = {"g": 14000.0, "h": 14000.0, "j": 6734.0, "k": 8412.0}
    assert {mode.letter: mode.resistance_n for mode in plane.modes} == pytest.approx(printed, rel=0.003)


@pytest.mark.parametrize(
    ("d", "printed_kn"), [(8.0, 4.51), (10.0, 6.67), (12.0, 9.15), (20.0, 21.9), (24.0, 29.6)]
)
def test_dowels_in_a_steel_plate_by_the_german_rule(d: float, printed_kn: float) -> None:
    """[DE] 2 sqrt(M f d), C24, f_u 360: our mode h over 1.15. Tolerance 0.6 %: two or three printed figures."""
    dowel = Fastener(d_mm=d, yield_moment_n_mm=bolt_yield_moment_n_mm(d, 360.0))
    plane = steel_inside_double_shear(dowel, t_mm=1000.0, f_h_n_mm2=bolt_embedment_n_mm2(d, 350.0))
    assert plane.governing == "h"
    assert plane.resistance_n / 1.15 / 1e3 == pytest.approx(printed_kn, rel=0.006)


@pytest.mark.parametrize(("d", "printed_kn"), [(10.0, 4.71), (12.0, 6.47), (20.0, 15.5)])
def test_dowels_between_timbers_by_the_german_rule(d: float, printed_kn: float) -> None:
    """[DE] sqrt 2 sqrt(M f d), C24, f_u 360: our mode f over 1.15. Tolerance 0.6 %: two or three printed figures."""
    f_h = bolt_embedment_n_mm2(d, 350.0)
    dowel = Fastener(d_mm=d, yield_moment_n_mm=bolt_yield_moment_n_mm(d, 360.0))
    plane = timber_single_shear(dowel, t_1_mm=900.0, f_h_1_n_mm2=f_h, t_2_mm=900.0, f_h_2_n_mm2=f_h)
    assert plane.governing == "f"
    assert plane.resistance_n / 1.15 / 1e3 == pytest.approx(printed_kn, rel=0.006)


def test_yield_moment_of_a_bolt() -> None:
    """[OUR] M12 4.6: 76.7454 Nm. Tolerance: the printed digits."""
    assert bolt_yield_moment_n_mm(12.0, 400.0) / 1e3 == pytest.approx(76.7454, abs=5e-5)


def test_two_bolts_in_a_row_and_their_distances() -> None:
    """[OUR] M12, two at 100 mm: 1.66973; distances at 0 degrees. Exact: printed."""
    assert bolts_in_row(2, 100.0, 12.0) == pytest.approx(1.6697284479494683, rel=1e-9)
    least = bolt_distances(12.0)
    ours = (least.along_mm, least.across_mm, least.loaded_end_mm, least.free_end_mm)
    assert (*ours, least.loaded_edge_mm, least.free_edge_mm) == pytest.approx((60, 48, 84, 48, 36, 36))


def test_four_bolts_of_a_slotted_plate_with_their_washers() -> None:
    """[OUR] M12 4.6, GL24h 100 mm either side, washers 13/24, two rows of two: 81 704.5 N. Exact: printed.

    Rope effect from the washers, two planes, n_ef 1.66973 in each of two rows. GL24h: rho_k 385, f_c,90 2.5.
    """
    washer = bolt_pull(
        hole_mm=13.0, washer_mm=24.0, f_c_90_k_n_mm2=2.5, stress_area_mm2=84.3, f_u_n_mm2=400.0
    )
    bolt = Fastener(
        d_mm=12.0,
        yield_moment_n_mm=bolt_yield_moment_n_mm(12.0, 400.0),
        rope="bolt",
        withdrawal_n=washer.resistance_n,
    )
    plane = steel_inside_double_shear(bolt, t_mm=100.0, f_h_n_mm2=bolt_embedment_n_mm2(12.0, 385.0))
    whole = plane.resistance_n * 2 * 2 * bolts_in_row(2, 100.0, 12.0)
    assert whole == pytest.approx(81704.51133271086, rel=1e-6)


def test_yield_moment_of_a_nail() -> None:
    """[OUR] nail 2.5, f_u 600: 1.94947 Nm. Tolerance: the printed digits."""
    assert nail_yield_moment_n_mm(2.5, 600.0) / 1e3 == pytest.approx(1.9494698713738494, rel=1e-9)
