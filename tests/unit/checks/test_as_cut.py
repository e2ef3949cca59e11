"""Sheets cut to other sizes: what looks at no sheet is not checked again, and comes to the same as if it were."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.checks.stage import GROUPS, OF_NO_SHEET
from pentice.pipeline import assess_as_cut
from pentice.setting_out.values import CutSheet
from tests.designs import assessed, catalogue, example


@pytest.mark.parametrize("name", ("plant-lobby", "log-store", "potting-bay", "uneven-veranda"))
def test_checks_that_look_at_no_sheet_stay_as_they_were(name: str) -> None:
    """Every bay 3 mm narrower and 7 mm shorter: verdicts, numbers and all that is shown. Exact."""
    job, before = example(name), assessed(example(name))
    cut = {
        bay.number: CutSheet(
            width_mm=round(bay.width_mm.cut) - 3,
            length_mm=round(bay.length_mm.cut) - 7,
            stock_x_mm=0.0,
            ribs_mm=(bay.edges.left.rib_at_mm, bay.edges.right.rib_at_mm),
            uncut=(False, False),
        )
        for bay in before.setting_out.plane.bays
    }
    kept = assess_as_cut(before, job, catalogue(), cut)
    anew = assess_as_cut(replace(before, by_group={}), job, catalogue(), cut)
    assert list(kept.by_group) == list(anew.by_group) == list(GROUPS)
    for group in OF_NO_SHEET:
        assert kept.by_group[group] is before.by_group[group]
    assert kept.checks == anew.checks
    assert kept.setting_out == anew.setting_out != before.setting_out
