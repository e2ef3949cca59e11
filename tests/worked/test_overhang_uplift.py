"""Uplift over an overhang as the papers and design.json state it, worked by hand for the potting bay at 12 degrees.

EN 1991-1-4:2005, Table 7.3a, zone F in wind onto the eaves: c_pe,10 -1.7 at 5 and -0.9 at 15 degrees, c_pe,1 -2.5 and
-2.0 (from memory). At 12 degrees: -1.7 + 0.7 x 0.8 = -1.14 and -2.5 + 0.7 x 0.5 = -2.15. Below stands the wall's
zone D, +0.8 and +1.0 (Table 7.1, from memory), 7.2.1(3): net -1.94 and -3.15, whatever the pressure inside.
"""

from __future__ import annotations

import math

import pytest

from pentice.checks.values import Check
from pentice.design_json import design_data
from pentice.pack.calculations import calculations_pdf
from tests.designs import assessed, changed, design_of


def test_design_json_takes_the_wall_below_for_the_pressure_under_an_overhang() -> None:
    """Every case of wind onto the eaves in suction, doors open or shut."""
    zones = design_data(design_of("potting-bay"))["loads"]["wind"]["zones"]
    cases = [
        case
        for zone in zones
        if zone["name"] == "F overhang"
        for case in zone["cases"]
        if case["name"].startswith("wind onto the eaves, suction")
    ]
    assert len(cases) >= 4
    for case in cases:
        assert (case["c_10"], case["c_1"]) == pytest.approx((-1.94, -3.15))


def test_the_calculations_print_the_same_uplift() -> None:
    """Read back from the paper: zone F overhang, over 10 and 1 m2, at 0.4235 kN/m2: -0.822 and -1.334 by hand."""
    import pypdfium2  # the reader takes long to import

    paper = pypdfium2.PdfDocument(calculations_pdf(design_of("potting-bay")))
    text = " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in paper)
    table = text.split("Wind onto the eaves, suction")[1].split("Wind onto the eaves")[0]
    row = table.split("F overhang")[1][:90].replace("\u2212", "-")
    assert "-0.822 / -1.334" in row


def sheet_uplift(overhang_mm: float) -> Check:
    """What lifts the middle sheet of the potting bay, between the strips of zone F."""
    checks = assessed(changed("potting-bay", roof__overhang_on_slope_mm=overhang_mm)).checks
    (check,) = [c for c in checks if c.id == "sheet-up" and c.place.bay == 3]
    return check


def test_a_sheet_is_lifted_at_its_foot_by_the_wind_on_the_wall_below_an_overhang() -> None:
    """Zone G: -1.2 and -0.8, for 1 m2 -2.0 and -1.5: at 12 degrees -0.92 and -1.65, with the wall -1.72 and -2.65.

    The sheet is 848.07 wide and (2402 + 300 cos 12) / cos 12 = 2755.66 long: 2.3370 m2, c = -2.65 + 0.93 lg 2.3370 =
    -2.3071. Against 0.4235 kN/m2 and 4.2 kg/m2 x 9.81: 1.5 x 0.9770 - 0.9 x 0.0412 cos 12, of which a characteristic
    table has 1.5 in hand.
    """
    check = sheet_uplift(300.0)
    assert check.place.at == "foot" and check.case.endswith("zone G overhang")
    square = 848.0667 * (2402.0 / math.cos(math.radians(12.0)) + 300.0) * 1e-6
    net = -2.65 + 0.93 * math.log10(square)
    dead = 4.2 * 9.81 / 1000.0 * math.cos(math.radians(12.0))
    assert check.demand == pytest.approx((-1.5 * net * 0.42348417 - 0.9 * dead) / 1.5, rel=1e-5)
    assert any("7.2.1(3)" in step.clause for step in check.working)


def test_a_lip_of_less_than_100_mm_lifts_no_sheet_more() -> None:
    """It lies in the foot profile: what lifts the rest of the sheet governs."""
    check = sheet_uplift(95.0)
    assert check.place.at == "middle" and "overhang" not in check.case
    lifted = sheet_uplift(105.0)
    assert (check.demand or 0.0) < 0.9 * (lifted.demand or 0.0)
