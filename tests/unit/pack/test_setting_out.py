"""setting-out.pdf read back: A3, tagged, with its text, and the band while something is not proved."""

from __future__ import annotations

import io

import pikepdf
import pypdfium2
import pytest

from pentice.pack.setting_out import cautions_of, setting_out_pdf
from tests.designs import EXAMPLES, design_of


def read(data: bytes) -> list[str]:
    """The text of each page."""
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_pages_are_a3_and_tagged(name: str) -> None:
    """420 by 297 mm to 0.5 mm: points are rounded. Tagged with a language and a title."""
    data = setting_out_pdf(design_of(name))
    for page in pypdfium2.PdfDocument(data):
        width, height = (side * 25.4 / 72.0 for side in page.get_size())
        assert (width, height) == pytest.approx((420.0, 297.0), abs=0.5)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in pdf.Root
        assert "Setting-out" in str(pdf.docinfo.get("/Title", pdf.open_metadata().get("dc:title", "")))


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_page_says_what_is_not_proved(name: str) -> None:
    """An example that holds does so on typical values; the others are not proved."""
    design = design_of(name)
    band = (
        ("Holds on typical values", "before you order")
        if design.proved
        else ("Not proved", "Do not order or build")
    )
    for text in read(setting_out_pdf(design)):
        for words in band:
            assert words in text
        assert "Fragile." in text


def test_names_of_checks_that_have_commas_are_kept_apart() -> None:
    """The third caution: three names, of which some are "bite under load, coldest day"; the rest are counted."""
    asked = cautions_of(design_of("uneven-veranda"))[2][1]
    assert "bite under load, coldest day; " in asked


def test_the_sheet_holds_its_numbers_as_text() -> None:
    """Searchable: overall width, bay sizes, the reference and the revision."""
    design = design_of("potting-bay")
    text = " ".join(read(setting_out_pdf(design)))
    for bay in design.setting_out.plane.bays:
        assert str(int(bay.width_mm.cut)) in text
        assert str(int(bay.length_mm.cut)) in text
    assert "over the outer rafters" in text
    assert design.job.reference in text
    assert "Section A–A" in text


def test_the_plan_names_the_size_that_the_ticket_has() -> None:
    """The saw takes sheet 2 of the old rafters 2 mm shorter, so that no sliver is left: plan and ticket agree."""
    design = design_of("uneven-veranda")
    placed = {p.piece: p for plan in design.cutting.sheets for p in plan.placements}
    text = " ".join(read(setting_out_pdf(design))[0].split())
    for piece in design.pieces:
        if piece.name.startswith("Sheet"):
            assert str(placed[piece.id].length_mm) in text
    assert design.setting_out.plane.bays[1].length_mm.cut == placed["S2"].length_mm < 2703
