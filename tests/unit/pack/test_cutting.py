"""cutting.pdf read back: stock, lengths, one ticket a sheet, one drilling ticket for alike bars."""

from __future__ import annotations

import io

import pikepdf
import pypdfium2
import pytest

from pentice.pack.cutting import cutting_pdf, sheets_of, ticket_acts
from pentice.pack.drawings.cut_rows import together
from pentice.pack.drawings.tickets import alike_bars, placed
from tests.designs import EXAMPLES, band_of, design_of
from tests.jobs import solved_job


def pages(data: bytes) -> list[str]:
    """The text of each page."""
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_sheet_has_one_ticket_with_its_two_sizes(name: str) -> None:
    """The page that begins with the sheet's name holds width, length and the words an operator looks for."""
    design = design_of(name)
    read = pages(cutting_pdf(design))
    for piece in sheets_of(design):
        tickets = [t for t in read if "WEATHER" in t and f"\n{piece.name}\r" in f"\n{t}"]
        assert len(tickets) == 1, piece.name
        _, p = placed(design, piece)
        for word in (
            str(p.width_mm),
            str(p.length_mm),
            "FLUTES",
            "HEAD",
            "SOLID TAPE",
            "BREATHER TAPE",
            "Vacuum",
        ):
            assert word.replace(" ", "") in "".join(tickets[0].split()), (
                word
            )  # turned words come letter by letter


@pytest.mark.parametrize("name", EXAMPLES)
def test_bars_that_are_alike_have_one_landscape_ticket(name: str) -> None:
    """As many landscape pages as patterns; each counts from the FOOT."""
    design = design_of(name)
    data = cutting_pdf(design)
    flat = [page for page in pypdfium2.PdfDocument(data) if page.get_width() > page.get_height()]
    assert len(flat) == len(alike_bars(design))
    for page in flat:
        text = page.get_textpage().get_text_range()
        assert "hook the tape here" in text
        assert "FOOT" in text


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_page_carries_the_band_and_the_file_is_tagged(name: str) -> None:
    """Old or unproved sheets kill jobs: the band, job, revision and page stand on each."""
    design = design_of(name)
    data = cutting_pdf(design)
    read = pages(data)
    for number, text in enumerate(read, 1):
        assert band_of(design) in text
        assert f"page {number} of {len(read)}" in text
        assert f"rev {design.job.revision}" in text
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.Root.MarkInfo.Marked


def test_every_piece_is_named_somewhere_on_the_cutting_pages() -> None:
    """Each stock length's pieces are there; a size that stands on no page would not be cut."""
    design = design_of("potting-bay")
    text = " ".join(pages(cutting_pdf(design)))
    for plan in design.cutting.lengths:
        for piece in plan.pieces:
            assert str(piece.length_mm) in text
    for sheet in design.cutting.sheets:
        for cut in sheet.cuts:
            assert str(cut.number) in text


def test_acts_follow_the_cuts_of_the_plan() -> None:
    """Saw and knife name the cut numbers that free this sheet; then vacuum, drill, peel, tape, stick."""
    design = design_of("potting-bay")
    piece = sheets_of(design)[0]
    words = [word for word, _ in ticket_acts(design, piece)]
    assert words == ["Saw", "Knife", "Vacuum", "Drill", "Peel", "Tape", "Stick"]


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["Sheet 3", "Sheet 4", "Sheet 5"], "sheets 3 to 5"),
        (["Bar base R1", "Bar base R2"], "bar bases R1, R2"),
        (["Noggin under button 1", "Noggin under button 4"], "noggins under button 1, 4"),
        (["Eaves beam"], "eaves beam"),
    ],
)
def test_names_of_alike_pieces_are_read_in_one_breath(names: list[str], said: str) -> None:
    """As a person would say them."""
    assert together(names) == said


def test_a_row_too_low_for_two_lines_gives_its_size_in_one() -> None:
    """Four rows on a sheet: the size of each piece stands in its row, not across the cut below. The aim is stated."""
    few = solved_job("cycle-shelter", "CS-1", stock__aim="fewest sheets", roof__projection_mm=1300)
    first = pages(cutting_pdf(few))[0]
    assert "654 × 1363" in first
    assert "654 wide" not in first
    assert "Aim: fewest sheets and lengths bought, then least cost." in first.replace("\n", " ").replace(
        "\r", ""
    )
