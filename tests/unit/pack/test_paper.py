"""The paper base, read back from the PDF it makes: pages, words, tags, the same bytes with two hash seeds."""

from __future__ import annotations

import io
import os
import subprocess
import sys

import pikepdf
import pypdfium2
import pytest

from pentice.errors import PenticeError
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section, title_block
from pentice.pack.paper import blocks as b
from tests.processes import ROOT
from tests.unit.pack.demo_paper import WARNING, demo_pdf

MM = 72.0 / 25.4
"""Points of a PDF to one mm."""


@pytest.fixture(scope="module")
def pdf() -> bytes:
    """The demo, made once."""
    return demo_pdf()


@pytest.fixture(scope="module")
def pages(pdf: bytes) -> list[str]:
    """The words of each page of the demo, spaces and line ends made alike."""
    document = pypdfium2.PdfDocument(pdf)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def one_page(*blocks: b.Block, warning: str = "") -> str:
    """The words of a document of one section."""
    about = meta(
        "Note", job="Hall", number="P-1", revision="A", issued=(2027, 3, 9), firm="F", warning=warning
    )
    made = make_pdf(DOCUMENT, {"meta": about, "sections": [section("Title", blocks)]})
    return " ".join(pypdfium2.PdfDocument(made)[0].get_textpage().get_text_range().split())


def test_the_demo_has_five_a4_pages_and_one_a3_sheet(pdf: bytes) -> None:
    """Sizes in whole mm, because a PDF rounds points; the long table takes a second page."""
    sizes = [tuple(round(v / MM) for v in page.get_size()) for page in pypdfium2.PdfDocument(pdf)]
    assert sizes == [(210, 297)] * 3 + [(297, 210)] * 2 + [(420, 297)]


def test_every_a4_page_has_its_number_revision_date_and_check_rule(pages: list[str]) -> None:
    """Old sheets kill jobs, so a page without its revision is a fault. The customer's page has its own foot."""
    for k in (0, 1, 3, 4):
        assert "Potting bay, demo hall P-0417 rev B 9 Mar 2027" in pages[k]
        assert "100 mm: check your print" in pages[k]
        assert f"Demo papers page {k + 1} of 6" in pages[k]
    assert "We measure again before anything is cut." in pages[2]
    assert "page 3 of 6" in pages[2]
    assert "6 of 6" in pages[5]


def test_the_warning_stands_on_every_page(pages: list[str]) -> None:
    """It is there because something is not proved: no page that people act on may lose it."""
    assert all(WARNING in page for page in pages)


def test_a_long_table_repeats_its_head_and_its_page_says_what_goes_on(pages: list[str]) -> None:
    """The second page of the table must be readable by itself."""
    assert "Bar base, R1 to R6, continued" not in pages[3]
    assert "Bar base, R1 to R6, continued" in pages[4]
    assert "Bar Hole at Side" in pages[3]
    assert "Bar Hole at Side" in pages[4]
    assert "R44" in pages[4]


@pytest.mark.parametrize(
    ("page", "words"),
    [
        (
            0,
            (
                "Sheet 3",
                "947",
                "3025",
                "WEATHER",
                "FLUTES",
                "SOLID TAPE",
                "BREATHER TAPE",
                "Knife",
                "HEAD",
                "film off",
            ),
        ),
        (1, ("Checks", "FAILS", "holds", "ask", "1.634 kN/m", "EN 1990 6.10", "84 % is used.", "Fragile.")),
        (2, ("Quote Q-0417", "£4,410.75", "Tick one", "Calm", "Total with tax")),
        (
            5,
            (
                "Setting-out: lean-to over the east wall",
                "4875 over the outer rafters",
                "4851.5",
                "P-0417",
                "Hold A.",
            ),
        ),
    ],
)
def test_each_page_says_what_its_data_says(pages: list[str], page: int, words: tuple[str, ...]) -> None:
    """Text of blocks and text within pictures is real text, so that it can be searched and read aloud."""
    # Lettering that reads from the side comes back with a line for each letter.
    found = pages[page].replace(" ", "")
    assert [word for word in words if word.replace(" ", "") not in found] == []


def test_the_pdf_is_tagged_titled_dated_and_english(pdf: bytes) -> None:
    """What PDF/UA asks for, and the date of the data, not of the clock."""
    document = pikepdf.open(io.BytesIO(pdf))
    root = document.Root
    assert bool(root.MarkInfo.Marked)
    assert "/StructTreeRoot" in root
    assert str(root.Lang) == "en-GB"
    information = document.open_metadata()
    assert information["pdfuaid:part"] == "1"
    assert str(document.docinfo["/Title"]) == "Demo papers, Potting bay, demo hall, P-0417 revision B"
    assert str(document.docinfo["/Author"]) == "Your firm’s name"
    assert str(document.docinfo["/CreationDate"]).startswith("D:20270309")


def tags_of(node: pikepdf.Object, found: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """(tag, alternative text) of every element below a node of the structure tree."""
    below: list[pikepdf.Object] = list(node.get("/K", pikepdf.Array()))
    for kid in below:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            found.append((str(kid.S), str(kid.get("/Alt", ""))))
            tags_of(kid, found)
    return found


def test_headings_tables_and_pictures_are_tagged_and_each_picture_has_its_words(pdf: bytes) -> None:
    """Five titles of pages, one head of a part, heads of tables as heads, four pictures."""
    document = pikepdf.open(io.BytesIO(pdf))
    found = tags_of(document.Root.StructTreeRoot, [])
    names = [name for name, _ in found]
    assert names.count("/H1") == 5
    assert "/H2" in names
    assert "/Table" in names
    assert "/TH" in names
    pictures = [words for name, words in found if name == "/Figure"]
    assert "Plan and section of the roof." in pictures
    assert "Roof from above, five bays, bay 3 black." in pictures
    assert all(pictures)


def test_only_our_type_family_is_used(pdf: bytes) -> None:
    """A font of the machine would change the look and the widths."""
    names: set[str] = set()
    document = pikepdf.open(io.BytesIO(pdf))
    for page in document.pages:
        for font in page.resources.get("/Font", pikepdf.Dictionary()).values():
            names.add(str(font.BaseFont).split("+")[-1])
    assert names
    assert all(name.startswith("SourceSansPro") for name in names)


def test_two_processes_with_two_hash_seeds_give_the_same_bytes(pdf: bytes) -> None:
    """Same input, same bytes: nothing may hang on a clock, chance or the order of a set."""
    code = "import sys; from tests.unit.pack.demo_paper import demo_pdf; sys.stdout.buffer.write(demo_pdf())"
    path = os.pathsep.join((str(ROOT / "src"), str(ROOT)))
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONPATH": path, "PYTHONHASHSEED": seed}
        run = subprocess.run(
            [sys.executable, "-c", code], env=environment, capture_output=True, check=True, timeout=120
        )
        assert run.stdout == pdf


def test_a_fault_of_the_template_names_itself() -> None:
    """Typst's own message reaches whoever has to mend it."""
    with pytest.raises(PenticeError, match=r"mistake in Pentice.*no such block: poem"):
        one_page({"kind": "poem"})


def test_a_picture_that_was_not_given_is_named() -> None:
    """The message holds the picture's name."""
    with pytest.raises(PenticeError, match=r"missing\.svg"):
        one_page(b.picture("missing.svg", "Nothing."))


def test_a_template_of_ones_own_may_use_the_base() -> None:
    """A document with a shape of its own imports paper.typ and reads data.json."""
    source = (
        '#import "paper.typ": *\n#set document(title: "Own")\n'
        '#set text(font: "Source Sans Pro")\n#json("data.json").word\n'
    )
    made = make_pdf(source, {"word": "Thornby"})
    assert "Thornby" in pypdfium2.PdfDocument(made)[0].get_textpage().get_text_range()


def test_bold_and_typical_words_lose_their_marks() -> None:
    """The marks are for the template; a reader never sees them."""
    assert "It would fail here, typical value." in one_page(
        b.paragraph("It would *fail* here, ~typical~ value.")
    )


def test_a_formula_sets_powers_and_subscripts_and_keeps_every_sign() -> None:
    """Read back as text the characters are all there, in their order."""
    row = b.working_row("Stress", "f_m,d = k_mod (M / W)^2", "= 0.9 * 10^6 - 3", "17.2 N/mm^2", "6.1.6")
    words = one_page(b.working([row])).replace(" ", "")
    assert "f" + "m,d" + "=" + "kmod(M/W)2" in words
    assert "=0.9×106−3" in words
    assert "=17.2N/mm2" in words


@pytest.mark.parametrize(
    ("numbers", "expected"),
    [
        ("0.800 x 1 x 0.300", "0.800 × 1 × 0.300"),
        ("rho 1.25 kg/m3", "ρ 1.25 kg/m3"),
        ("mu_1 = 0.8, psi_0 = 0.5", "μ1 = 0.8, ψ0 = 0.5"),
        ("(150 / 125)^(0.2)", "(150 / 125)0.2"),
        ("10^-6 max", "10−6 max"),
    ],
)
def test_numbers_put_into_a_formula_get_their_signs(numbers: str, expected: str) -> None:
    """Greek letters by name, multiplication, powers and units: every character stays, a small one loses its caret."""
    words = one_page(b.working([b.working_row("Load", "", numbers, "1", "rule")]))
    assert expected.replace(" ", "") in words.replace(" ", "")


def test_every_other_block_reaches_the_page() -> None:
    """Blocks that the demo has no room for."""
    words = one_page(
        b.keep([b.heading("Kept together")]),
        b.page_break(),
        b.rule(),
        b.fill_space(),
        b.paragraph("next page"),
    )
    assert "Kept together" in words
    assert "next page" not in words


def test_an_option_table_row_or_caution_too_many_is_refused() -> None:
    """Mistakes of a document module are caught where it makes them."""
    with pytest.raises(ValueError, match="three cautions at most, not 4"):
        b.cautions([("A", "a")] * 4)
    with pytest.raises(ValueError, match="2 columns has a row of another length"):
        b.table(("A", "B"), (("one",),))
    with pytest.raises(ValueError, match="another number of rows than 2"):
        b.quote_columns(("R", "S"), [b.option("A", "Bright", ("x",), "£1")])


def test_a_long_name_on_a_label_steps_down_so_that_it_stays_in_its_cell() -> None:
    """20, 14 or 7 high by the length of the name; the size 10 or 7."""
    made = [b.label("BAR", name, "947 × 3025", "s", "t", cut_here="c") for name in ("3", "R12", "R10-12")]
    assert [label["number_h"] for label in made] == [20, 14, 7]
    assert b.label("SHEET", "3", "947 × 3025 to 2870", "s", "t", cut_here="c")["size_h"] == 7


def test_dates_are_spoken_dates() -> None:
    """No leading nought, month in letters: nobody takes the 9th of March for the 3rd of September."""
    assert day((2027, 9, 3)) == "3 Sep 2027"


def test_a_title_block_keeps_the_last_three_revisions() -> None:
    """More would not fit; the latest matter."""
    made = title_block(
        ("T",),
        firm=("F",),
        drawn_by="d",
        checked_by="",
        measured="m",
        scale="1:25",
        revisions=("A", "B", "C", "D"),
    )
    assert made["revisions"] == ["B", "C", "D"]


def test_a_long_name_gives_way_and_number_revision_and_date_stay() -> None:
    """An old sheet is known by its number, revision and date: they stand whole on every page, on one line."""
    name = (
        'A carport with "quotes" <and> signs & a name that no foot of a page can hold, '
        + "for it goes on " * 4
    )
    about = meta("Cutting tickets", job=name, number="P-0417", revision="B", issued=(2027, 3, 9), firm="F")
    body = [b.paragraph("Words."), b.page_break(), b.paragraph("More.")]
    made = make_pdf(DOCUMENT, {"meta": about, "sections": [section("Lengths", body)]})
    for page in pypdfium2.PdfDocument(made):
        text = page.get_textpage().get_text_range()
        foot = next(line for line in text.splitlines() if line.startswith("A carport"))
        assert 'A carport with "quotes" <and> signs' in foot
        assert "…" in foot
        assert "P-0417 rev B 9 Mar 2027" in " ".join(text.split())


def test_a_job_without_dates_says_undated_and_the_file_has_no_date() -> None:
    """No clock and no invented day: neither on the page nor in the file, and the same bytes each time."""
    about = meta("Note", job="Hall", number="P-1", revision="A", issued=None, firm="F")
    data = {"meta": about, "sections": [section("Title", [])]}
    made = make_pdf(DOCUMENT, data)
    assert "P-1 rev A undated" in " ".join(
        pypdfium2.PdfDocument(made)[0].get_textpage().get_text_range().split()
    )
    with pikepdf.open(io.BytesIO(made)) as pdf:
        assert "/CreationDate" not in pdf.docinfo
    assert made == make_pdf(DOCUMENT, data)
