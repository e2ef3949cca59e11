"""Side sheets by a second route: sizes, bites and wind of one sheet by hand, the pair in its blank by points."""

from __future__ import annotations

import math

import pytest

from pentice.advice.complete import complete
from pentice.checks.values import Check
from pentice.cutting.values import Placement
from pentice.design import Design
from pentice.job.model import Job
from pentice.pieces.side_sheets import side_sheet_pieces
from pentice.pipeline import Assessed, assess, solve
from tests.designs import assessed, catalogue, changed


def _job(sheets: list[dict[str, object]]) -> Job:
    """The potting bay with these side sheets."""
    return changed("potting-bay", side_sheets=sheets)


def _first(**changes: object) -> tuple[Assessed, dict[str, Check]]:
    """The potting bay with one side sheet, and that sheet's checks by rule."""
    one = {"side": "left", "width_mm": 722, "left_mm": 2637, "right_mm": 2484}
    job = changed("potting-bay", side_sheets=[one], **changes)
    found = assess(job, catalogue())
    return found, {check.id: check for check in found.checks if check.id.startswith("side-")}


def test_sizes_and_bites_by_hand() -> None:
    """Backs 2, arms 30, drain gap 3; 75, 12, -15 degC; 70e-6 per K.

    Width: 722 - 4 = 718 between backs; (718 - 2 x 1) / (1 + 70e-6 x 63) = 712.9, and 718 - 6 = 712. Length of the
    longer side: 2637 - 4 - 3 = 2630; (2630 - 3) / 1.00441 = 2615.5. The shorter side is 153 less, as its opening is.
    Bites on the coldest day: 30 - (718 - 712 x (1 - 70e-6 x 27)) = 22.654; at the head 30 - 15 - 2615 x 70e-6 x 27 =
    10.058.
    """
    found, checks = _first()
    (fit,) = found.setting_out.side_sheets
    assert (fit.width_mm, fit.left_mm, fit.right_mm) == (712, 2615, 2462)
    assert checks["side-bite"].capacity == pytest.approx(22.654, abs=5e-4)
    assert checks["side-bite-head"].capacity == pytest.approx(10.058, abs=5e-4)


def _with_arms(arm_mm: float, sheets: list[dict[str, object]], **changes: object) -> Design:
    """The potting bay with these side sheets, held by arms so long; ribs of its sheet stand at 10 + 20 k."""
    profiles = catalogue().profiles
    foot = profiles["foot-35"].model_copy(update={"arm_mm": arm_mm})
    other = catalogue().model_copy(update={"profiles": {**profiles, "foot-35": foot}})
    return solve(complete(changed("potting-bay", side_sheets=sheets, **changes), other), other)


def _placed(design: Design, id: str) -> Placement:
    return next(p for sheet in design.cutting.sheets for p in sheet.placements if p.piece == id)


def test_ribs_stand_in_the_bites_by_hand() -> None:
    """712 wide, as above. With arms of 18 the bite is 10.654, so a rib may stand 9.654 inside an edge.

    At the left edge of a stock sheet the first rib stands 10 inside, at its right edge, 980, the last, 970, too:
    neither will do. Ripped 5 off first (kerf 3 and 2 to hold) ribs stand 10 - 5 = 5 and 717 - 710 = 7 inside: max(10,
    7 + 1). With arms of 30, bite 22.654, any place does (ribs are 20 apart): cut from the edge, max(10, 10 + 1) is
    needed.
    """
    one: dict[str, object] = {"side": "left", "width_mm": 722, "left_mm": 2637, "right_mm": 2484}
    for arm, ribs, needed in ((18.0, (5.0, 7.0), 10.0), (30.0, (10.0, 2.0), 11.0)):
        design = _with_arms(arm, [one])
        (fit,) = design.setting_out.side_sheets
        (check,) = [c for c in design.checks if c.id == "side-bite"]
        assert (fit.width_mm, fit.ribs_mm, check.demand) == (712, ribs, needed)
        assert check.capacity == pytest.approx(arm - 7.346, abs=5e-4)
        assert _placed(design, "SS1").rib_at_mm == ribs
        assert check.verdict == "passes"


def test_a_rib_that_cannot_stand_in_either_bite_fails_by_hand() -> None:
    """729 gives 725 between backs, 719 wide; arms of 18: bite 18 - (725 - 719 x (1 - 70e-6 x 27)) = 10.641. 719 is 700
    + 19: the two ribs stand 19 inside together, so one at 10 or more, where 9.641 is allowed; narrower, 718 leaves
    9.643 of bite, below 10."""
    design = _with_arms(18.0, [{"side": "left", "width_mm": 729, "left_mm": 2637, "right_mm": 2484}])
    (check,) = [c for c in design.checks if c.id == "side-bite"]
    assert check.verdict == "fails"
    assert check.capacity == pytest.approx(10.641, abs=5e-4)
    assert (check.demand or 0.0) >= 11.0


def test_a_side_sheet_is_no_wider_than_stock_gives() -> None:
    """988 gives 984 between backs, (984 - 2) / 1.00441 = 977.7: 977. Of sheets of 980 alone, 5 in reserve: 975."""
    wide: dict[str, object] = {"side": "left", "width_mm": 988, "left_mm": 1700, "right_mm": 1600}
    only = [{"item": "sheet-35-multi", "width_mm": 980}]
    (fit,) = _with_arms(30.0, [wide], stock__only=only).setting_out.side_sheets
    assert fit.width_mm == 975
    assert [step.result for step in fit.working if "Width" in step.says] == [975]


@pytest.mark.parametrize("arm", [30.0, 18.0])
def test_both_sheets_of_a_pair_have_their_ribs_in_their_bites(arm: float) -> None:
    """Two of one hand, 712 wide, from one blank: the second lies turned, its left edge is the blank's right one. Ribs
    are counted anew from where the blank lies on its stock, in both sheets at most the bite less 1 inside."""
    two: list[dict[str, object]] = [
        {"side": "left", "width_mm": 722, "left_mm": 1700, "right_mm": 1200} for _ in range(2)
    ]
    only = [{"item": "sheet-35-multi", "length_mm": 3000}]
    design = _with_arms(arm, two, stock__only=only)
    at = _placed(design, "SS1-2")
    ribs = [10.0 + 20.0 * k for k in range(49)]
    inside = [r for r in ribs if at.x_mm + 1 <= r <= at.x_mm + 711]
    left, right = inside[0] - at.x_mm, at.x_mm + 712 - inside[-1]
    assert [fit.ribs_mm for fit in design.setting_out.side_sheets] == [(left, right), (right, left)]
    assert max(left, right) <= arm - 7.346 - 1.0
    assert all(c.verdict == "passes" for c in design.checks if c.id == "side-bite")


def test_sheets_of_two_widths_share_a_blank_only_where_any_rib_will_do() -> None:
    """The narrower has an edge within the blank. Bites of some 22 hold wherever ribs 20 apart stand; with arms of 20
    they do not, so each has a blank of its own."""
    sheets: list[dict[str, object]] = [
        {"side": "left", "width_mm": 740, "left_mm": 1700, "right_mm": 1200},
        {"side": "left", "width_mm": 620, "left_mm": 1120, "right_mm": 700},
    ]
    for arm, count in ((30.0, 1), (20.0, 2)):
        profiles = catalogue().profiles
        foot = profiles["foot-35"].model_copy(update={"arm_mm": arm})
        other = catalogue().model_copy(update={"profiles": {**profiles, "foot-35": foot}})
        found = assess(_job(sheets), other)
        pieces = side_sheet_pieces(_job(sheets), found.parts, found.setting_out, sides="in pairs")
        assert sum(p.kind == "sheet" for p in pieces) == count


def test_wind_by_hand() -> None:
    """Table 7.1 at h/d above 1 (2.8 m high, 2.4 m deep): A -1.2 and -1.4, D +0.8 and +1.0 for 10 and 1 m2.

    The sheet is 0.722 x 2.5605 = 1.8487 m2: log10 of it 0.26686, so A -1.4 + 0.2 x 0.26686 = -1.34663 and D 1.0 - 0.2 x
    0.26686 = 0.94663. With +0.2 and -0.3 inside: 1.54663 q_p out, 1.24663 q_p in. The door that is open by accident
    makes 0.75 x 0.8 = 0.6 inside: (1.34663 + 0.6) / 1.5 = 1.298 q_p, less. At h/d above 1 the lee side is at most -0.7.
    """
    found, checks = _first()
    peak = found.loads.wind.peak_pressure_kn_m2
    assert peak is not None
    assert checks["side-wind-up"].demand == pytest.approx(1.54663 * peak, rel=1e-5)
    assert checks["side-wind-down"].demand == pytest.approx(1.24663 * peak, rel=1e-5)


def test_a_door_that_stays_open_in_storms_governs() -> None:
    """Then 0.6 inside is no accident: 1.34663 + 0.6 = 1.94663 q_p, with 1.5 against a table that has 1.5 in hand."""
    door = {"wall": "front", "kind": "door", "x_mm": 2400, "width_mm": 900, "height_mm": 2000}
    left_open = {**door, "shut_in_storms": False, "dominant_factor": 0.75}
    found, checks = _first(roof__openings=[left_open])
    peak = found.loads.wind.peak_pressure_kn_m2
    assert peak is not None
    assert checks["side-wind-up"].demand == pytest.approx(1.94663 * peak, rel=1e-5)


def test_what_has_no_net_pressure_is_refused_with_whom_to_ask() -> None:
    """The front open: EN 1991-1-4 has no value for the closed side."""
    _, checks = _first(roof__front="open")
    for id in ("side-wind-up", "side-wind-down"):
        assert checks[id].verdict == "refused"
        assert "Ask an engineer: give site.side_wind" in checks[id].says


def test_a_sheet_without_a_load_table_is_refused() -> None:
    """Stiffness says how far it bends, not what it carries as a wall."""
    fits = {"sheet": "sheet-25-multi", "bar": None, "head_profile": None, "foot_profile": None}
    job = changed("plant-lobby", **{f"glazing__{key}": value for key, value in fits.items()})
    found = assessed(complete(job, catalogue()))
    said = [check for check in found.checks if check.id == "side-wind-up"]
    assert len(said) == len(job.side_sheets)
    assert all(check.verdict == "refused" and "no load table" in check.says for check in said)


def test_more_wind_and_wider_sheets_are_never_less_demand() -> None:
    """At 20, 23, 26 m/s; and what a table carries falls with the width."""
    demands = []
    for speed in (20.0, 23.0, 26.0):
        _, checks = _first(site__vb0_m_s=speed)
        demands.append(checks["side-wind-up"].demand or 0.0)
    assert demands == sorted(demands)
    assert demands[0] < demands[2]


def _inside(polygon: tuple[tuple[float, float], ...], x: float, y: float) -> bool:
    """Whether a point lies in a polygon, by crossings of its edges to the right."""
    crossings = 0
    for (ax, ay), (bx, by) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        if (ay > y) != (by > y) and ax + (y - ay) * (bx - ax) / (by - ay) > x:
            crossings += 1
    return crossings % 2 == 1


def test_sheets_of_a_pair_share_no_point_of_their_blank() -> None:
    """A grid of points of the blank: none in both sheets, and as many in each as its area says."""
    sheets = [
        {"side": "left", "width_mm": 740, "left_mm": 1700, "right_mm": 1200},
        {"side": "left", "width_mm": 620, "left_mm": 1120, "right_mm": 700},
    ]
    found = assessed(_job(sheets))
    pieces = [*side_sheet_pieces(_job(sheets), found.parts, found.setting_out, sides="in pairs")]
    (blank,) = [p for p in pieces if p.kind == "sheet"]
    assert [part.name for part in blank.side_parts] == ["Side sheet 1", "Side sheet 2"]
    held = [0, 0]
    step = 4.0
    for i in range(int(blank.width_mm / step)):
        for j in range(int(blank.length_mm / step)):
            point = ((i + 0.5) * step, (j + 0.5) * step)
            within = [_inside(part.outline_mm, *point) for part in blank.side_parts]
            assert not all(within)
            held = [n + int(w) for n, w in zip(held, within, strict=True)]
    for count, part in zip(held, blank.side_parts, strict=True):
        area = part.width_mm * (part.left_mm + part.right_mm) / 2.0
        assert count * step**2 == pytest.approx(area, rel=0.01)


def test_profiles_go_all_round() -> None:
    """Of 740 by 1700 and 1200: across 740 - 2 x 30 - 2 = 678, the head over 678 x 500 / 740 = 458.1 of rise: 818.2."""
    sheets = [{"side": "left", "width_mm": 740, "left_mm": 1700, "right_mm": 1200}]
    found = assessed(_job(sheets))
    pieces = side_sheet_pieces(_job(sheets), found.parts, found.setting_out, sides="alone")
    lengths = {p.id: p.length_mm for p in pieces if p.kind == "length"}
    assert math.hypot(678.0, 458.1) == pytest.approx(818.2, abs=0.1)
    assert lengths == {"SSU1": 678.0, "SSH1": 818.0, "SSL1": 1700.0, "SSR1": 1200.0}


def test_an_opening_that_is_measured_needs_no_reserve() -> None:
    """All three sizes marked measured: nothing over the blank; one of them bare: the job's reserve."""
    bare: dict[str, object] = {"side": "left", "width_mm": 740, "left_mm": 1700, "right_mm": 1200}
    keys = ("width_mm", "left_mm", "right_mm")
    read: dict[str, object] = {
        "side": "left",
        **{key: {"value": bare[key], "mark": "measured"} for key in keys},
    }
    found = assessed(_job([bare]))
    for sheet, reserve in ((read, (0.0, 0.0)), (bare, (5.0, 15.0))):
        pieces = side_sheet_pieces(_job([sheet]), found.parts, found.setting_out, sides="alone")
        assert next(p for p in pieces if p.kind == "sheet").reserve_mm == reserve
