"""Checks: tables are read between their rows and never beyond, what is missing is refused with its name."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from pydantic import ValidationError

from pentice.catalogue.sheets import LoadRow, LoadTable
from pentice.checks.sheet_table import TableRead, read_table
from pentice.checks.values import Check
from pentice.pipeline import assess
from tests.designs import assessed, catalogue, changed, example


def table(**changes: Any) -> LoadTable:
    """A small table: 600 carries 2, 800 carries 1, down; with purlins at 1000 more."""
    rows: tuple[LoadRow, ...] = (
        LoadRow(span_mm=600.0, supports="two edges", sign="down", load_kn_m2=2.0, sag_mm=10.0),
        LoadRow(span_mm=800.0, supports="two edges", sign="down", load_kn_m2=1.0, sag_mm=20.0),
        LoadRow(
            span_mm=600.0,
            supports="four edges",
            sign="down",
            load_kn_m2=3.0,
            length_between_supports_mm=1000.0,
        ),
        LoadRow(
            span_mm=800.0,
            supports="four edges",
            sign="down",
            load_kn_m2=2.0,
            length_between_supports_mm=1000.0,
        ),
    )
    known: dict[str, Any] = {
        "span_is": "clear",
        "basis": "characteristic",
        "duration": "snow and wind",
        "source": "a test",
        "mark": "declared",
        "rows": rows,
    }
    return LoadTable(**{**known, **changes})


def found(checks: tuple[Check, ...], id: str) -> list[Check]:
    """Every check of one rule."""
    return [check for check in checks if check.id == id]


def test_a_table_is_read_in_a_straight_line_between_its_rows() -> None:
    """Half way between 600 and 800: half way between 2 and 1, and between 10 and 20 of sag."""
    read = read_table(table(), span_mm=700.0, sign="down")
    assert isinstance(read, TableRead)
    assert read.load_kn_m2 == pytest.approx(1.5)
    assert read.sag_mm == pytest.approx(15.0)


@pytest.mark.parametrize("span", [599.0, 801.0])
def test_a_table_is_never_read_beyond_its_rows(span: float) -> None:
    """One mm beyond either end is refused with the range."""
    says = read_table(table(), span_mm=span, sign="down")
    assert isinstance(says, str)
    assert "it holds 600 to 800" in says


def test_a_table_without_rows_for_uplift_says_so() -> None:
    """No row, no answer."""
    assert "no rows for upward load" in str(read_table(table(), span_mm=700.0, sign="up"))


def test_purlin_rows_need_their_own_spacing() -> None:
    """At 1000 between supports the purlin rows count; at 1200 the table ends."""
    read = read_table(table(), span_mm=700.0, sign="down", between_mm=1000.0)
    assert isinstance(read, TableRead)
    assert read.load_kn_m2 == pytest.approx(2.5)
    assert "between supports" in str(read_table(table(), span_mm=700.0, sign="down", between_mm=1200.0))


def test_an_invented_table_is_never_declared() -> None:
    """The model refuses the mark."""
    with pytest.raises(ValidationError, match="an invented table is never declared"):
        table(source="invented for a test")


def test_purlins_without_timber_under_head_and_foot_are_refused() -> None:
    """They count only where the ends lie on timber too."""
    checks = assessed(changed("uneven-veranda", frame__purlins_at_mm=[1337])).checks
    assert all("head_bearer" in check.says for check in found(checks, "sheet-down"))


def test_purlins_cure_the_refused_veranda() -> None:
    """With timber under head and foot every sheet passes, uplift still by the table without purlins."""
    job = changed(
        "uneven-veranda", frame__purlins_at_mm=[1337], frame__head_bearer=True, frame__foot_bearer=True
    )
    checks = assessed(job).checks
    assert {check.verdict for check in found(checks, "sheet-down")} == {"passes"}
    assert {check.verdict for check in found(checks, "sheet-up")} == {"passes"}


def test_closer_bars_cure_the_failing_carport() -> None:
    """Nine bays instead of six."""
    checks = assessed(changed("snow-carport", frame__bay_count=9)).checks
    assert not [check for check in checks if check.verdict == "fails"]


def test_a_sheet_without_a_table_is_estimated_or_refused() -> None:
    """Close bars: an estimate by its sag. Wide bars: refused, not shown to carry, with the cure."""
    thin = {
        "glazing__sheet": "sheet-25-multi",
        "glazing__head_profile": "head-25-50",
        "glazing__foot_profile": "foot-25",
    }
    calm = {"site__ground_snow_kn_m2": 0.1, "site__peak_pressure_kn_m2": 0.15}
    close = assessed(changed("cycle-shelter", frame__bay_count=20, **calm, **thin)).checks
    wide = assessed(changed("cycle-shelter", frame__bay_count=6, **thin)).checks
    assert {c.verdict for c in found(close, "sheet-down")} == {"passes"}
    assert all(c.says.startswith("Estimated") for c in found(close, "sheet-down"))
    refused = found(wide, "sheet-down")
    assert {c.verdict for c in refused} == {"refused"}
    assert all("not shown to carry" in c.says and "purlins" in c.cure for c in refused)
    assert {c.verdict for c in found(close, "sheet-strength")} == {"refused"}


def test_uk_wind_is_asked_for_and_en_figures_never_stand_in() -> None:
    """Without the user's own coefficients every check that needs wind is refused and names them."""
    job = changed("cycle-shelter", site__annex="UK", site__peak_pressure_kn_m2=0.7)
    result = assessed(job)
    assert result.loads.wind.cases == ()
    for id in ("sheet-down", "sheet-up", "bar-screw-uplift", "cap-hold", "rafter-bending", "rafter-uplift"):
        for check in found(result.checks, id):
            assert check.verdict == "refused"
            assert "wind_coefficients" in check.says


def test_own_coefficients_take_their_place() -> None:
    """With them the same checks are made."""
    zones = [{"name": "all", "down": 0.8, "up": -1.6}]
    own = {"source": "a test", "zones": zones}
    job = changed(
        "cycle-shelter", site__annex="UK", site__peak_pressure_kn_m2=0.7, site__wind_coefficients=own
    )
    checks = assessed(job).checks
    assert "refused" not in {c.verdict for c in found(checks, "bar-screw-uplift")}
    assert {c.verdict for c in found(checks, "bracing")} <= {"passes", "fails"}


def test_rain_that_is_not_given_refuses_the_gutter() -> None:
    """The key is named."""
    checks = assessed(changed("potting-bay", site__rain_l_s_m2=None)).checks
    assert all("site.rain_l_s_m2" in c.says for c in (*found(checks, "gutter"), *found(checks, "downpipe")))


def test_a_five_millimetre_screw_needs_a_declared_value() -> None:
    """Outside 6 to 12 mm the formula is refused."""
    checks = assessed(changed("potting-bay", screws__bar_screw="screw-5x60")).checks
    assert {c.verdict for c in found(checks, "bar-screw-uplift")} == {"refused"}
    assert "f_ax_n_mm2" in found(checks, "bar-screw-uplift")[0].says


def test_a_cap_without_a_declared_hold_is_refused() -> None:
    """The demand is shown all the same."""

    job, held = example("potting-bay"), catalogue()
    bar = held.bars["bar-60-35"].model_copy(update={"cap_hold_n_m": None})
    without = held.model_copy(update={"bars": {**held.bars, "bar-60-35": bar}})
    checks = found(assess(job, without).checks, "cap-hold")
    assert {c.verdict for c in checks} == {"refused"}
    assert all((c.demand or 0.0) > 0.0 for c in checks)


def test_a_spacing_without_its_meaning_is_refused_and_drawn_closer() -> None:
    """Half the spacing is drawn, and the question stands."""
    result = assessed(changed("cycle-shelter", screws__spacing_between=None, screws__spacing_mm=400))
    bar = result.setting_out.plane.bars[0]
    meaning = found(result.checks, "bar-screw-spacing")
    if meaning:
        assert meaning[0].verdict == "refused"
    assert bar.steps_mm[1] <= 400.0


def test_a_narrow_rafter_fails_the_edge_distance() -> None:
    """47 - 8 x 6 is less than nothing: a failed check, not an error."""
    checks = found(assessed(changed("potting-bay", frame__rafter_mm=[47, 145])).checks, "bar-screw-edge")
    assert checks[0].verdict == "fails"
    assert checks[0].utilisation is None


def test_a_door_without_its_factor_is_refused() -> None:
    """The case stands as a refused check of its own."""
    opening = [{"wall": "front", "kind": "door", "x_mm": 1600, "width_mm": 900, "height_mm": 2000}]
    checks = assessed(changed("potting-bay", roof__openings=opening)).checks
    assert [c for c in checks if c.id.startswith("case-") and "dominant_factor" in c.says]


def test_a_check_that_rests_on_a_typical_value_says_so() -> None:
    """The demo table is typical, and so is every check by it."""
    assert all(check.typical for check in found(assessed(example("potting-bay")).checks, "sheet-down"))


def test_a_check_compares_unrounded_values() -> None:
    """A hair over is a failure."""
    check = found(assessed(example("potting-bay")).checks, "rafter-sag")[0]
    assert check.capacity is not None
    over = replace(check, demand=check.capacity * (1 + 1e-12))
    assert over.utilisation is not None
    assert over.utilisation > 1.0


def test_snow_over_the_foot_of_a_roof_above_800_m_stands_on_the_rafters_tips() -> None:
    """EN 1991-1-3, 6.3: s = .8 x 3.0 = 2.4, d = .8 m, k = 2.4, s_e = 2.4 x 2.4^2 / 3 = 4.608 kN/m.

    On rafter 2 of six bays of 924.1667 it adds 1.5 x 4.608 x cos x 924.1667 x (L + c) / L to the beam, by statics;
    L runs between the middles of plate (70) and beam (95), c on to the foot. The bearing presses on 95 x (95 + 30).
    Tolerance: rounding of floating point.
    """
    deep = {"site__ground_snow_kn_m2": 3.0, "frame__rafter_mm": [95, 220], "frame__bay_count": 6}
    low, high = (
        found(assessed(changed("snow-carport", site__altitude_m=a, **deep)).checks, "rafter-bearing")[1]
        for a in (800.0, 801.0)
    )
    cos = math.cos(math.atan(0.2))
    span = (3120.0 - 35.0 - 47.5) / cos
    beyond = 47.5 / cos + 60.0
    more = 1.5 * 4.608 * (5640.0 - 95.0) / 6.0 * cos * (span + beyond) / span
    assert low.demand is not None and high.demand is not None
    assert high.demand - low.demand == pytest.approx(more / (95.0 * 125.0), rel=1e-9)
    assert "hanging over the foot" in high.case and "hanging" not in low.case


def test_what_hanging_snow_does_to_the_sheets_foot_is_asked() -> None:
    """No rule says what sheet, foot profile and gutter bear of it: one refused case."""
    checks = assessed(changed("snow-carport", site__altitude_m=801.0)).checks
    assert [c.verdict for c in found(checks, "case-snow-over-the-foot")] == ["refused"]
    assert (
        found(assessed(changed("snow-carport", site__altitude_m=800.0)).checks, "case-snow-over-the-foot")
        == []
    )


@pytest.mark.parametrize(
    ("cover", "kind", "verdict"),
    [(20.0, "as fitted", "passes"), (20.0, "least", "fails"), (None, None, "refused")],
)
def test_a_table_without_sags_asks_for_its_edge_cover(
    cover: float | None, kind: str | None, verdict: str
) -> None:
    """The bite as fitted (rebate 24 less gap) or the coldest one, hard over; no sag is taken off. Exact: mm."""
    held = catalogue()
    sheet = held.sheets["sheet-35-multi"]
    assert sheet.load_table is not None
    rows = tuple(row.model_copy(update={"sag_mm": None}) for row in sheet.load_table.rows)
    own = sheet.load_table.model_copy(update={"rows": rows, "edge_cover_mm": cover, "edge_cover_is": kind})
    sheets = {**held.sheets, sheet.id: sheet.model_copy(update={"load_table": own})}
    result = assess(example("cycle-shelter"), held.model_copy(update={"sheets": sheets}))
    edges = [edge for bay in result.setting_out.plane.bays for edge in (bay.edges.left, bay.edges.right)]
    checks = found(result.checks, "bite-loaded")
    assert {check.verdict for check in checks} == {verdict}
    if cover is not None:
        there = {e.bite_fitted_mm if kind == "as fitted" else e.bite_cold_mm for e in edges}
        assert {check.demand for check in checks} == {cover}
        assert min(check.capacity or 0.0 for check in checks) == min(there)


def test_room_is_not_lost_in_floating_point() -> None:
    """Rafters at 1700.2 and 2601.2: 901 - 12 = 889 clear, a sheet of 883 and 6 of room, though 2601.2 - 1700.2 is a
    hair less than 901 in floating point. Exact: verdict and mm.
    """
    centres = [35.0, 896.9, 1700.2, 2601.2, 3476.5, 4384.6, 5264.9, 6085.0]
    result = assessed(changed("cycle-shelter", frame__rafter_centres_mm=centres, frame__bay_count=None))
    bay = result.setting_out.plane.bays[2]
    room = found(result.checks, "room-width")[2]
    assert (bay.between_stems_mm.least, bay.width_mm.cut) == (889.0, 883)
    assert (room.verdict, room.capacity) == ("passes", 6.0)
