"""Each example to a full pack: papers read back, drawings reloaded, the pack solved again, the same bytes twice."""

from __future__ import annotations

import csv
import io
import json
import tomllib
from pathlib import Path

import pypdfium2
import pytest

from pentice.cli.app import run
from pentice.design_json import design_data, design_schema
from tests.designs import EXAMPLES, band_of, design_of
from tests.processes import files_in, run_pentice

PAPERS = (
    "quote.pdf",
    "setting-out.pdf",
    "cutting.pdf",
    "calculations.pdf",
    "order.pdf",
    "method.pdf",
    "site-sheet.pdf",
    "handover.pdf",
)


@pytest.fixture(scope="module")
def packs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The packs of all examples, made by the command itself."""
    folder = tmp_path_factory.mktemp("packs")
    for name in EXAMPLES:
        holds = name in ("boat-rack", "potting-bay", "cycle-shelter")
        assert run(["pack", f"examples/{name}.toml", "--out", str(folder / name)]) == (0 if holds else 1)
    return folder


def text_of(pdf: bytes) -> str:
    """All text of a PDF."""
    document = pypdfium2.PdfDocument(pdf)
    return "\n".join(document[i].get_textpage().get_text_range() for i in range(len(document)))


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_document_is_there_and_says_what_is_not_proved(packs: Path, name: str) -> None:
    """Eight papers, order as CSV and XLSX, site page, calendar, drawings, and the files to solve it again."""
    here = {path.relative_to(packs / name).as_posix() for path in (packs / name).rglob("*") if path.is_file()}
    more = {
        "cuts.csv",
        "order.csv",
        "order.xlsx",
        "site-sheet.html",
        "programme.ics",
        "job.toml",
        "firm.toml",
    }
    drawn = {f"drawings/{name}.{kind}" for name in ("plan", "elevation-front") for kind in ("svg", "dxf")}
    assert here >= {*PAPERS, *more, *drawn, "catalogue.toml", "design.json"}
    band = band_of(design_of(name))
    for paper in PAPERS:
        assert band in text_of((packs / name / paper).read_bytes()), paper
    assert band in (packs / name / "order.csv").read_text(encoding="utf-8")
    assert band in (packs / name / "site-sheet.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("paper", PAPERS)
def test_papers_are_tagged(packs: Path, paper: str) -> None:
    """Structure, language and title stand in each PDF."""
    import pikepdf

    with pikepdf.open(packs / "potting-bay" / paper) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in pdf.Root
        assert str(pdf.Root.Lang).startswith("en")
        assert str(pdf.docinfo["/Title"]).endswith("PB-0311 revision A")


@pytest.mark.parametrize("name", EXAMPLES)
def test_papers_carry_the_sizes_of_the_design(packs: Path, name: str) -> None:
    """Sheet sizes stand on the setting-out, the tickets and the site sheet."""
    bay = design_of(name).setting_out.plane.bays[0]
    for paper in ("setting-out.pdf", "cutting.pdf", "site-sheet.pdf"):
        text = text_of((packs / name / paper).read_bytes())
        assert f"{bay.width_mm.cut:.0f}" in text, paper
        assert f"{bay.length_mm.cut:.0f}" in text, paper


def test_a_failing_check_stands_on_the_calculations(packs: Path) -> None:
    """The carport fails and says so first."""
    assert "FAILS" in text_of((packs / "snow-carport" / "calculations.pdf").read_bytes())


@pytest.mark.parametrize("name", EXAMPLES)
def test_drawings_reload_without_a_fault(packs: Path, name: str) -> None:
    """Every DXF is read back and audited; every SVG is well-formed."""
    import xml.etree.ElementTree as Tree

    import ezdxf
    from ezdxf.filemanagement import readfile

    for file in sorted((packs / name / "drawings").glob("*.dxf")):
        drawing = readfile(file)
        assert not drawing.audit().errors, file.name
        assert drawing.units == ezdxf.units.MM
        assert len(drawing.modelspace()) > 0
    for file in sorted((packs / name / "drawings").glob("*.svg")):
        assert Tree.fromstring(file.read_text(encoding="utf-8")).tag.endswith("svg")


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_order_reads_back(packs: Path, name: str) -> None:
    """CSV and XLSX hold the lines of the design, and their totals agree."""
    import openpyxl

    order = design_of(name).order
    rows = list(csv.reader(io.StringIO((packs / name / "order.csv").read_text(encoding="utf-8"))))
    assert len(rows) == len(order) + 2
    book = openpyxl.load_workbook(packs / name / "order.xlsx", data_only=True)
    column = [row[10] for row in book.active.iter_rows(min_row=5, values_only=True)]
    assert column[-1] == pytest.approx(float(sum(line.price for line in order)))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_design_fits_its_schema(packs: Path, name: str) -> None:
    """design.json is valid against the shipped schema and says what `solve` says."""
    import jsonschema

    data = json.loads((packs / name / "design.json").read_text(encoding="utf-8"))
    jsonschema.validate(data, design_schema())
    again = json.loads(json.dumps(design_data(design_of(name))))
    assert data["summary"] == again["summary"]
    assert data["setting_out"] == again["setting_out"]


def test_a_pack_can_be_solved_again_from_itself(packs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """job.toml, firm.toml and catalogue.toml of the pack give the same sizes and price."""
    capsys.readouterr()
    assert run(["solve", str(packs / "uneven-veranda" / "job.toml"), "--json"]) == 1
    again = json.loads(capsys.readouterr().out)
    before = json.loads((packs / "uneven-veranda" / "design.json").read_text(encoding="utf-8"))
    assert again["setting_out"] == before["setting_out"]
    assert again["price"] == before["price"]
    assert tomllib.loads((packs / "uneven-veranda" / "job.toml").read_text(encoding="utf-8"))["catalogues"]


def test_two_processes_with_two_hash_seeds_write_the_same_bytes(packs: Path, tmp_path: Path) -> None:
    """Nothing depends on the order of a set or on the clock; the other process is this one."""
    done = run_pentice("pack", "examples/uneven-veranda.toml", "--out", str(tmp_path / "other"), hash_seed=1)
    assert done.returncode == 1, done.stderr.decode()
    one, two = files_in(tmp_path / "other"), files_in(packs / "uneven-veranda")
    assert one.keys() == two.keys()
    assert [name for name in one if one[name] != two[name]] == []


def test_a_folder_that_is_no_pack_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 4, one sentence, and the file in it stays."""
    (tmp_path / "letters.txt").write_text("mine", encoding="utf-8")
    assert run(["pack", "examples/potting-bay.toml", "--out", str(tmp_path)]) == 4
    assert "is no pack" in capsys.readouterr().err
    assert (tmp_path / "letters.txt").read_text(encoding="utf-8") == "mine"


def test_a_pack_that_cannot_be_finished_leaves_the_good_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A write that fails half way changes nothing."""
    import os

    from pentice.cli.packing import write_folder
    from pentice.errors import StoreError

    folder = tmp_path / "pack"
    write_folder(folder, {"design.json": b"old", "a.txt": b"old"})
    written = 0

    def failing(descriptor: int) -> None:
        nonlocal written
        written += 1
        if written > 1:
            raise OSError("the disk is full")

    monkeypatch.setattr(os, "fsync", failing)
    with pytest.raises(StoreError, match="The pack before is kept"):
        write_folder(folder, {"design.json": b"new", "a.txt": b"new"})
    assert files_in(folder) == {"design.json": b"old", "a.txt": b"old"}
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]
