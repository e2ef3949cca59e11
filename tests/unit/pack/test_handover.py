"""handover.pdf: snow to clear, inspection days, warranty, the notice."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2
import pytest

from pentice.checks.values import Check, Shown, Told, Verdict
from pentice.design import Design
from pentice.loads.values import SnowCase
from pentice.pack.care import counts_on, limits, snow_depths_mm
from pentice.pack.cutting import cutting_pdf
from pentice.pack.handover import handover_pdf
from pentice.pack.method import method_pdf
from pentice.pack.order import order_pdf
from pentice.pack.site_sheet import site_sheet_pdf
from tests.designs import EXAMPLES, band_of, design_of
from tests.unit.pack.reading import own_goods


def text_of(data: bytes) -> str:
    """All text of a PDF, lines run together."""
    document = pypdfium2.PdfDocument(data)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in document).split())


def with_checks(design: Design, **changes: Check) -> Design:
    """A design whose checks of these rules (underscore for dash) are others."""
    new = {rule.replace("_", "-"): check for rule, check in changes.items()}
    return replace(design, checks=tuple(new.get(check.id, check) for check in design.checks))


def proved(design: Design) -> Design:
    """The same design with every member passed."""
    return replace(design, checks=tuple(replace(c, verdict="passes") for c in design.checks))


def the(design: Design, rule: str) -> Check:
    """The first check of a rule."""
    return next(check for check in design.checks if check.id == rule)


def test_snow_to_clear_is_never_more_than_was_calculated_while_the_frame_is_not_checked() -> None:
    """1.8 kN/m2 at the wall: 900 of settled snow, 450 of wet. Source: 1.8 / 2.0 and 1.8 / 4.0 by hand. Exact."""
    depths = snow_depths_mm(design_of("potting-bay"))
    assert depths is not None
    assert [place for place, _, _ in depths] == ["at the wall", "at the foot"]
    assert depths[0][1:] == pytest.approx((900.0, 450.0))
    assert depths[1][1] == pytest.approx(1.0927301420043765 / 2.0 * 1000.0)


def test_snow_to_clear_is_not_raised_by_what_sheet_and_rafter_have_to_spare() -> None:
    """Even with every verdict passed: the calculated snow is what was checked as one."""
    assert snow_depths_mm(proved(design_of("potting-bay"))) == snow_depths_mm(design_of("potting-bay"))


@pytest.mark.parametrize(
    "rule", ["sheet-down", "rafter-bending", "rafter-shear", "rafter-bearing", "bite-loaded"]
)
@pytest.mark.parametrize("verdict", ["fails", "refused", "not checked"])
def test_snow_to_clear_is_not_known_when_a_check_did_not_pass(rule: str, verdict: Verdict) -> None:
    """One of them is enough: a depth would be a guess."""
    design = design_of("potting-bay")
    bad = replace(the(design, rule), verdict=verdict)
    changed = with_checks(design, **{rule.replace("-", "_"): bad})
    assert snow_depths_mm(changed) is None
    assert "not known" in text_of(handover_pdf(changed))


@pytest.mark.parametrize(
    "says", ["Estimated: sag 9.0 over 800.", "Estimated, get the supplier's table: sag 20."]
)
def test_snow_to_clear_is_not_known_when_the_sheet_is_an_estimate(says: str) -> None:
    """It passes, but by an estimate."""
    design = design_of("potting-bay")
    told = Told(Shown(says=says))
    estimate = replace(the(design, "sheet-down"), told=told)
    assert snow_depths_mm(with_checks(design, sheet_down=estimate)) is None


def test_snow_to_clear_is_not_known_without_a_check_of_the_sheet() -> None:
    """No check, no depth."""
    design = design_of("potting-bay")
    left = tuple(check for check in design.checks if check.id != "sheet-down")
    assert snow_depths_mm(replace(design, checks=left)) is None


def test_both_places_come_from_one_arrangement_of_snow() -> None:
    """A second case with more at the foot, less at the wall, is not mixed in: 546.4 at the foot stays."""
    design = design_of("potting-bay")
    other = SnowCase(name="other", situation="persistent", along="y", points=((0.0, 0.1), (9000.0, 9.0)))
    loads = replace(design.loads, snow=replace(design.loads.snow, cases=(*design.loads.snow.cases, other)))
    assert snow_depths_mm(replace(design, loads=loads)) == snow_depths_mm(design)


def test_depths_are_printed_down_to_a_centimetre() -> None:
    """546.4 reads 540 mm, 900.0 stays 900 in spite of the last bit."""
    text = text_of(handover_pdf(design_of("potting-bay")))
    assert "900 mm" in text
    assert "540 mm" in text
    assert "1070" not in text


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_sheet_and_the_notice_stand_on_it(name: str) -> None:
    """Sizes, care, inspection, warranty in two halves, no step, not proved."""
    design = design_of(name)
    text = text_of(handover_pdf(design))
    for bay in design.setting_out.plane.bays:
        assert f"{bay.number} {bay.width_mm.cut:.0f} {bay.length_mm.cut:.0f}" in text
    for words in (
        "NO STEP",
        "Material",
        "Workmanship",
        "Who to call",
        "soft brush",
        band_of(design),
        "Wall fixings too" if design.job.roof.attached else "Post feet too",
    ):
        assert words in text, words


def test_inspections_have_their_days() -> None:
    """Last of four working days from Monday 12 April 2027 is the 15th: a year on, and five. By calendar."""
    text = text_of(handover_pdf(design_of("potting-bay")))
    for words in ("15 Apr 2028", "15 Apr 2032"):
        assert words in text


def test_the_gust_is_the_one_of_the_method_sheet() -> None:
    """A loose sheet is handled at its own limit, 9.9 m/s for 830 by 2488, not at the general stop of 16."""
    text = text_of(handover_pdf(design_of("potting-bay"))).replace("\u00a0", " ")
    assert "stop at gusts of 9.9 m/s (22 mph)" in text
    assert "35 mph" not in text


def test_drawn_sizes_are_not_called_as_built() -> None:
    """Nothing was measured on the frame of the example."""
    text = text_of(handover_pdf(design_of("potting-bay")))
    assert "As drawn: write in what was built differently" in text
    assert "not measured on the frame" in text


def test_what_the_roof_counts_on_is_told_to_whoever_owns_it() -> None:
    """The bay: its door shut in storms, its air brick free. The shelter: its sides open. Exact: words."""
    bay, shelter = (list(counts_on(design_of(name))) for name in ("potting-bay", "cycle-shelter"))
    assert "Shut the door in front before a storm: the roof counts on it." in bay
    assert "Air brick: stays open: the bay is vented at both ends." in bay
    assert not any("open sides" in text for text in bay)
    assert any(text.startswith("Leave its open sides open.") for text in shelter)
    assert not any("Shut the" in text or "closed room" in text for text in shelter)
    assert all(any("soften and drip" in text for text in texts) for texts in (bay, shelter))


def test_snow_from_the_house_roof_is_spoken_of_where_no_guard_holds_it() -> None:
    """The carport lies below a steep house roof without guards. Exact: words."""
    assert any("strikes it" in text for text in counts_on(design_of("snow-carport")))
    assert not any("strikes it" in text for text in counts_on(design_of("potting-bay")))


def test_products_of_the_demo_are_not_handed_over_as_built() -> None:
    """The shipped catalogue names no products; the user's own are named without that word. Exact: words."""
    design = design_of("potting-bay")
    notice = "The products named here are invented"
    assert notice in text_of(handover_pdf(design))
    assert notice not in text_of(handover_pdf(own_goods(design)))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_roof_its_care_and_the_notice_take_a_page_each(name: str) -> None:
    """Nothing spills onto a page of its own. Exact: a count."""
    assert len(pypdfium2.PdfDocument(handover_pdf(design_of(name)))) == 3


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_gust_to_stop_at_and_the_snow_to_clear_stand_wherever_people_act(name: str) -> None:
    """Method, site sheet, tickets and order say what the handover says. Exact: words."""
    design = design_of(name)
    gust, snow = limits(design)
    order = text_of(order_pdf(design, limits(design)))
    tickets = text_of(cutting_pdf(design))
    for text in (order, tickets, text_of(method_pdf(design)), text_of(site_sheet_pdf(design))):
        assert snow in text
        assert " ".join(gust.split()) in text or gust.rpartition("gusts of ")[2].split()[0] in text
    assert tickets.count(snow) == len(design.setting_out.plane.bays)
    depths = snow_depths_mm(design)
    assert ("not known" in snow) == (depths is None)
