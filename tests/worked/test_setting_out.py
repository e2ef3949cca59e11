"""Worked roofs: a lean-to of 4875 by 2950, its bays, windows and lengths, by arithmetic written out here.

The expected values come from the formulas of movement and geometry in this file, which imports nothing of the engine
for them: a second route. Tolerance: 1e-6 of a mm where both routes are exact, whole mm where the size is whole.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

import pytest

from pentice.catalogue.sheets import LoadRow, LoadTable
from pentice.job.shape import roof_shape
from pentice.setting_out.stage import set_out
from tests.roofs import BAR, PARTS, bay_of, job_of, setting_out_of

ALPHA, FIT, HOT, COLD = 65e-6, 12.0, 60.0, -15.0


def test_five_bays_on_narrow_rafters() -> None:
    """4875 over 47 rafters in five bays: centres, clear width, sheet, gap, worst bite, marks."""
    setting_out = setting_out_of(job_of(width=4875, rafter=47, bays=5))
    centres = (4875 - 47) / 5
    between = centres - BAR.stem_mm
    width = math.floor(min((between - 2) / (1 + ALPHA * (HOT - FIT)), between - 6))
    bay = setting_out.plane.bays[0]
    assert [centres, between] == pytest.approx([965.6, 953.6])
    assert width == 947
    assert bay.width_mm.cut == width
    assert bay.edges.left.gap_mm == pytest.approx((between - width) / 2)
    worst = 24 - (between - width * (1 - ALPHA * (FIT - COLD)))
    assert bay.edges.left.bite_cold_mm == pytest.approx(worst) == pytest.approx(15.738, abs=0.0005)
    assert bay.width_mm.least == math.ceil((between - 14) / (1 - ALPHA * 27)) == 942
    marks = [rafter.centre_head_mm for rafter in setting_out.plane.rafters]
    assert marks == pytest.approx([23.5 + i * centres for i in range(6)])


@pytest.mark.parametrize(("bays", "width"), [(4, 1189), (6, 786)])
def test_other_bay_counts(bays: int, width: int) -> None:
    """The same roof in four and in six bays."""
    between = (4875 - 47) / bays - 12
    assert math.floor(min((between - 2) / (1 + ALPHA * 48), between - 6)) == width
    assert bay_of(job_of(width=4875, rafter=47, bays=bays)).width_mm.cut == width


def test_wide_rafters_take_a_narrower_sheet() -> None:
    """The same roof on 70 mm rafters: window 937 to 943, gap 3, worst bite 16.35, marks from 35."""
    setting_out = setting_out_of(job_of(width=4875, rafter=70, bays=5))
    bay = setting_out.plane.bays[2]
    between = (4875 - 70) / 5 - 12
    assert (bay.width_mm.least, bay.width_mm.most, bay.width_mm.cut) == (937, 943, 943)
    assert bay.edges.right.gap_mm == pytest.approx(3.0)
    assert bay.edges.left.bite_cold_mm == pytest.approx(24 - (between - 943 * (1 - ALPHA * 27)))
    assert [r.centre_head_mm for r in setting_out.plane.rafters] == pytest.approx(
        [35, 996, 1957, 2918, 3879, 4840]
    )


def test_edge_profiles_at_both_ends() -> None:
    """With edge profiles the end bays are measured to the outer faces: 983.1 clear, sheet 977, four bars."""
    setting_out = setting_out_of(job_of(width=4875, rafter=47, bays=5, edges="edge profile"))
    centres = (4875 - 47) / 5
    clear = centres + 47 / 2 - 12 / 2
    assert clear == pytest.approx(983.1)
    width = math.floor(min((clear - 2) / (1 + ALPHA * 48), clear - 6))
    assert setting_out.plane.bays[0].width_mm.most == width == 977
    assert len(setting_out.plane.bars) == 4


def test_length_on_the_slope() -> None:
    """2950 out at 10 degrees, 50 over: slope, room, length, head gap, cold lap, base bar."""
    setting_out = setting_out_of(job_of(width=4875, rafter=47, bays=5))
    slope = 2950 / math.cos(math.radians(10))
    raw = slope + 50 - 2 - 3 - 3
    length = math.floor((raw - 3) / (1 + ALPHA * 48))
    assert [slope, raw] == pytest.approx([2995.509, 3037.509], abs=5e-4)
    assert length == 3025
    bay = setting_out.plane.bays[0]
    assert bay.length_mm.most == length
    assert bay.edges.head.gap_mm == pytest.approx(raw - bay.length_mm.cut)
    assert bay.edges.head.cover_mm is not None
    needed = raw - length + ALPHA * length * 27 + 3 + 15
    assert bay.edges.head.cover_mm.needed == pytest.approx(needed) == pytest.approx(35.8, abs=0.05)
    bar = setting_out.plane.bars[0]
    assert bar.base_mm == pytest.approx(slope + 50 - 3) == pytest.approx(3042.509, abs=5e-4)


def test_holes_run_from_the_foot_in_equal_steps() -> None:
    """5 mm screws every 400: nine holes from 125 to 75 inside the rafter's head end, sides changing."""
    bar = setting_out_of(job_of(width=4875, rafter=47, bays=5)).plane.bars[0]
    last = 50 + 2950 / math.cos(math.radians(10)) - 75
    expected = [125 + (last - 125) * i / 8 for i in range(9)]
    assert [hole.at_mm for hole in bar.holes] == pytest.approx(expected)
    assert "".join(hole.side for hole in bar.holes) == "LRLRLRLRL"


def test_an_uncut_stock_length_inside_the_window_is_used() -> None:
    """At 2925.3 out the 3000 sheet serves as it comes: its window with a 40 arm holds 3000."""
    bay = bay_of(job_of(width=4875, rafter=47, bays=5, projection=2925.3))
    raw = 2925.3 / math.cos(math.radians(10)) + 42
    assert math.floor((raw - 3) / (1 + ALPHA * 48)) >= 3000 >= math.ceil((raw + 18 - 40) / (1 - ALPHA * 27))
    assert (bay.length_mm.cut, bay.length_mm.uncut) == (3000, True)


def test_the_drip_falls_in_the_gutter() -> None:
    """50 on the slope at 10 degrees is 49.24 level."""
    assert setting_out_of(job_of(width=4875, rafter=47, bays=5)).drip_mm == pytest.approx(
        50 * math.cos(math.radians(10))
    )


@pytest.mark.parametrize(
    ("cover", "cover_is", "least"),
    [
        (20.0, "as fitted", math.ceil(949 - 2 * (24 - 20))),
        (15.0, "least", math.ceil((949 - 24 + 15) / (1 - ALPHA * 27))),
        (20.0, "least", 937),
    ],
)
def test_a_sheet_is_not_narrower_than_its_table_s_edge_cover(
    cover: float, cover_is: Literal["as fitted", "least"], least: int
) -> None:
    """Bays of 949 clear, most 943: a bite of 10 would do with 937, the table asks for 941 or 942. 20 kept on the
    coldest day asks for 947, more than the most: then the window stays that of the bite, and the check of the cover
    fails. Exact."""
    row = LoadRow(span_mm=900, sign="down", load_kn_m2=1.0, supports="two edges")
    table = LoadTable(
        rows=(row,), edge_cover_mm=cover, edge_cover_is=cover_is, span_is="clear", source="invented",
        mark="typical", basis="characteristic", duration="snow and wind",
    )  # fmt: skip
    job = job_of(width=4875, rafter=70, bays=5)
    parts = replace(PARTS, sheet=PARTS.sheet.model_copy(update={"load_table": table}))
    bay = set_out(job, roof_shape(job), parts).plane.bays[2]
    assert (bay.width_mm.least, bay.width_mm.most) == (least, 943)
    assert 937 <= least <= 943
