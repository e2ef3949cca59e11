"""What ordered sheets are worth once the frame stands: ranges for uncut ones, and which serve which bay."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pentice.catalogue.model import Catalogue
from pentice.cutting.values import CutPlan
from pentice.job.model import Job
from pentice.job.shape import roof_shape
from pentice.pieces.cut import cut_from_stock
from pentice.pieces.stage import pieces_of
from pentice.setting_out.stage import set_out
from pentice.setting_out.values import SettingOut
from pentice.takeoff.ranges import serving_range
from pentice.takeoff.serves import what_still_serves
from tests.roofs import PARTS, job_of, setting_out_of


def _catalogue() -> Catalogue:
    profiles = {
        p.id: p for p in (PARTS.head_profile, PARTS.foot_profile, PARTS.edge_profile) if p is not None
    }
    return Catalogue(
        sheets={"sheet": PARTS.sheet},
        bars={"bar": PARTS.bar},
        profiles=profiles,
        timbers={"c24": PARTS.timber},
    )


def _cutting(job: Job, setting_out: SettingOut) -> CutPlan:
    pieces = pieces_of(job, roof_shape(job), PARTS, setting_out)
    return cut_from_stock(pieces, job, PARTS, _catalogue(), setting_out)


def test_projection_between_which_a_3000_sheet_serves_uncut() -> None:
    """2925.24 to 2929.5 at 10 degrees with an arm of 40, worked by hand. Tolerance: half the last digit of either."""
    job = job_of(width=4875, rafter=47, bays=5, projection=2927.0)
    bay = setting_out_of(job).plane.bays[0]
    assert bay.length_mm.uncut
    found = serving_range(job, roof_shape(job), PARTS.sheet, setting_out_of(job).temperatures, bay)
    assert found.projection_mm is not None
    least, most = found.projection_mm
    assert least == pytest.approx(2925.24, abs=0.01)
    assert most == pytest.approx(2929.5, abs=0.05)
    assert found.between_stems_mm is None
    assert "2926 to 2929 mm of projection" in found.says


@pytest.mark.parametrize(("edge", "inside"), [(0, 0.05), (1, -0.05)])
def test_a_serving_range_ends_where_the_setting_out_says_it_does(edge: int, inside: float) -> None:
    """Just inside an end of the range the sheet is uncut, just outside it is not. Step: 0.05 mm, bump-free wall."""
    job = job_of(width=4875, rafter=47, bays=5, projection=2927.0)
    setting_out = setting_out_of(job)
    found = serving_range(
        job, roof_shape(job), PARTS.sheet, setting_out.temperatures, setting_out.plane.bays[0]
    )
    assert found.projection_mm is not None
    end = found.projection_mm[edge]
    there, beyond = (
        setting_out_of(job_of(width=4875, rafter=47, bays=5, projection=end + step)).plane.bays[0].length_mm
        for step in (inside, -inside)
    )
    assert there.uncut
    assert not (beyond.uncut and beyond.cut == 3000)


def test_a_width_range_ends_where_the_setting_out_says_it_does() -> None:
    """A 980 sheet uncut in a bay: inside both ends it stays uncut, outside it does not. Step: 0.1 mm a bay."""
    wide = 5 * (980.0 + 6.5 + 12.0) + 70.0
    job = job_of(width=wide, rafter=70, bays=5)
    setting_out = setting_out_of(job)
    bay = setting_out.plane.bays[1]
    assert bay.width_mm.uncut
    found = serving_range(job, roof_shape(job), PARTS.sheet, setting_out.temperatures, bay)
    assert found.between_stems_mm is not None
    for end, step in zip(found.between_stems_mm, (0.1, -0.1), strict=True):
        for by, uncut in ((step, True), (-step, False)):
            other = job_of(width=5 * (end + by + 12.0) + 70.0, rafter=70, bays=5)
            assert setting_out_of(other).plane.bays[1].width_mm.uncut is uncut


def test_an_unchanged_frame_is_served_by_all_that_was_ordered() -> None:
    """Measured as drawn: nothing is to be bought, every sheet serves. Exact: names."""
    job = job_of(width=4875, rafter=47, bays=5)
    drawn = setting_out_of(job)
    cutting = _cutting(job, drawn)
    found = what_still_serves(drawn, drawn, cutting, sheet=PARTS.sheet)
    assert found.without == ()
    assert [s.serves[0] for s in found.sheets] == ["S1", "S2", "S3", "S4", "S5"]
    assert sorted(p for s in found.sheets for p in s.serves) == sorted(
        p for s in found.sheets for p in s.ordered_for
    )


def test_a_bay_too_wide_for_what_was_ordered_is_named() -> None:
    """One bay 60 wider than drawn: its 980 sheet is too narrow, the other bays are served. Exact: names."""
    job = job_of(width=4875, rafter=47, bays=5)
    drawn = setting_out_of(job)
    cutting = _cutting(job, drawn)
    bays = list(drawn.plane.bays)
    wider = replace(bays[2].width_mm, least=1002.0, most=1007.0, cut=1007.0)
    bays[2] = replace(bays[2], width_mm=wider)
    measured = replace(drawn, planes=(replace(drawn.plane, bays=tuple(bays)),))
    assert max(s.width_mm for s in cutting.sheets) == 980
    found = what_still_serves(drawn, measured, cutting)
    assert found.without == ("S3",)
    assert [s.ordered_for for s in found.sheets if not s.serves] == [("S3",)]


def test_a_sheet_that_needs_its_full_width_does_not_serve_where_its_edges_are_trimmed() -> None:
    """A bay that takes 978 of a 980 sheet: it serves, but not with 3 trimmed off each stock edge. Exact: names."""
    job = job_of(width=4875, rafter=47, bays=5)
    drawn = setting_out_of(job)
    cutting = _cutting(job, drawn)
    bays = list(drawn.plane.bays)
    wider = replace(bays[2].width_mm, least=976.0, most=980.0, cut=980.0)
    no_rib = {side: replace(getattr(bays[2].edges, side), rib_at_mm=None) for side in ("left", "right")}
    bays[2] = replace(bays[2], width_mm=wider, edges=replace(bays[2].edges, **no_rib))
    measured = replace(drawn, planes=(replace(drawn.plane, bays=tuple(bays)),))
    trimmed = PARTS.sheet.model_copy(update={"trim_mm": 3.0})
    assert what_still_serves(drawn, measured, cutting, sheet=PARTS.sheet).without == ()
    assert what_still_serves(drawn, measured, cutting, sheet=trimmed).without == ("S3",)


def test_a_width_whose_ribs_nowhere_stand_near_both_edges_does_not_serve() -> None:
    """959 on a pitch of 20: the two first ribs are 19 apart from their edges together, 9 each allowed. Exact: names."""
    job = job_of(width=4875, rafter=47, bays=5)
    drawn = setting_out_of(job)
    cutting = _cutting(job, drawn)
    bays = list(drawn.plane.bays)
    near = {side: replace(getattr(bays[2].edges, side), rib_at_mm=9.0) for side in ("left", "right")}
    window = replace(bays[2].width_mm, least=959.0, most=959.0, cut=959.0)
    bays[2] = replace(bays[2], width_mm=window, edges=replace(bays[2].edges, **near))
    measured = replace(drawn, planes=(replace(drawn.plane, bays=tuple(bays)),))
    assert what_still_serves(drawn, measured, cutting).without == ()
    assert what_still_serves(drawn, measured, cutting, sheet=PARTS.sheet).without == ("S3",)


def test_another_number_of_bays_serves_nothing() -> None:
    """Five bays drawn, six measured: every piece is to be looked at anew. Exact: names."""
    job = job_of(width=4875, rafter=47, bays=5)
    drawn, other = setting_out_of(job), job_of(width=4875, rafter=47, bays=6)
    cutting = _cutting(job, drawn)
    found = what_still_serves(drawn, set_out(other, roof_shape(other), PARTS), cutting)
    assert not any(s.serves for s in found.sheets)
    assert len(found.without) == 7
