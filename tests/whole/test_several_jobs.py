"""Several jobs packed together: shared papers read back, each job's folder, the same bytes twice, and bad input."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
from pathlib import Path

import pypdfium2
import pytest

from pentice.advice.recut import recut
from pentice.cli import packing
from pentice.cli.app import run
from pentice.together import plan_together
from tests.jobs import solved_job
from tests.processes import files_in, run_pentice
from tests.unit.pack.test_side_sheets import paired as with_pairs

BAY, SHELTER = "examples/potting-bay.toml", "examples/cycle-shelter.toml"
SHARED = {"cutting.pdf", "cuts.csv", "order.pdf", "order.csv", "order.xlsx", "shared.json"}
OWN = {
    "quote.pdf",
    "setting-out.pdf",
    "calculations.pdf",
    "method.pdf",
    "site-sheet.pdf",
    "site-sheet.html",
    "handover.pdf",
    "programme.ics",
    "advice.json",
    "job.toml",
    "firm.toml",
    "catalogue.toml",
    "design.json",
    "cutting-and-order.txt",
}


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pack of two examples, made by the command itself."""
    folder = tmp_path_factory.mktemp("several") / "two"
    assert run(["pack", BAY, SHELTER, "--out", str(folder)]) == 0
    return folder


def pages_of(pdf: Path) -> list[str]:
    """Text of a PDF, page by page."""
    document = pypdfium2.PdfDocument(pdf.read_bytes())
    return [document[i].get_textpage().get_text_range() for i in range(len(document))]


def test_what_is_shared_lies_once_and_the_rest_in_a_folder_for_each(two: Path) -> None:
    """No job's folder holds a cutting or an order of its own, and one line says where they are."""
    names = files_in(two).keys()
    assert {name for name in names if "/" not in name} == SHARED
    for reference, other in (("PB-0311", "CS-0427"), ("CS-0427", "PB-0311")):
        own = {name.partition("/")[2] for name in names if name.startswith(f"{reference}/")}
        assert {name for name in own if "/" not in name} == OWN
        assert not any(name.startswith("drawings/stock") for name in own)
        said = (two / reference / "cutting-and-order.txt").read_text(encoding="utf-8")
        assert said.startswith(f"{reference} is cut and ordered together with {other}: ../cutting.pdf")
        assert said.count("\n") == 1
        data = json.loads((two / reference / "design.json").read_text(encoding="utf-8"))
        assert (data["cutting"], data["order"]) == (None, None)
        assert data["shared"] == said.strip()
    assert any(name.startswith("drawings/stock-") for name in names)


def test_a_job_s_data_still_fits_its_schema(two: Path) -> None:
    """What is left out is named in the contract."""
    import jsonschema

    from pentice.design_json import design_schema

    for reference in ("PB-0311", "CS-0427"):
        data = json.loads((two / reference / "design.json").read_text(encoding="utf-8"))
        jsonschema.validate(data, design_schema())


def test_the_shared_data_says_what_is_saved(two: Path) -> None:
    """Costs of the lots add up, in whole cents; every piece carries its job's reference."""
    data = json.loads((two / "shared.json").read_text(encoding="utf-8"))
    pence = {key: round(100 * float(data[key])) for key in ("alone", "saves")}
    cost = round(100 * float(data["cutting"]["cost"]))
    assert (
        pence["alone"] - pence["saves"]
        == cost
        == sum(round(100 * float(lot["cost"])) for lot in data["lots"])
    )
    assert pence["saves"] > 0
    plans = [*data["cutting"]["sheets"], *data["cutting"]["lengths"]]
    ids = [p["piece"] for plan in plans for p in plan.get("placements", plan.get("pieces", []))]
    assert {id.partition(" ")[0] for id in ids} == {"PB-0311", "CS-0427"}
    assert len(ids) == len(set(ids))


def test_cutting_says_first_what_is_saved_and_every_ticket_carries_its_reference(two: Path) -> None:
    """Ten sheets of one job and five of the other have a ticket each, with the reference in title and label."""
    pages = pages_of(two / "cutting.pdf")
    data = json.loads((two / "shared.json").read_text(encoding="utf-8"))
    assert f"£{data['saves']} less than each job cut by itself" in pages[0]
    assert all("Holds on typical values" in page for page in pages)
    tickets = [re.search(r"Sheet (\d+), (\S+)\s", page) for page in pages]
    found = [(match[2], int(match[1])) for match in tickets if match is not None]
    assert found == [("PB-0311", n) for n in range(1, 6)] + [("CS-0427", n) for n in range(1, 10)]
    for page, match in zip(pages, tickets, strict=True):
        if match is not None:
            assert f"{match[2]} rev A" in page
    bars = [page for page in pages if "Bar base, R1" in page]
    assert {r for page in bars for r in ("PB-0311", "CS-0427") if f"{r} R1 to" in page} == {
        "PB-0311",
        "CS-0427",
    }


def test_the_shared_cuts_name_each_piece_with_its_job(two: Path) -> None:
    """By hand: on the length of 5100 lie 4311 of one job, then 600 of the other; 5100 - 4311 - 4 = 785 are in hand for
    the second cut, 785 - 600 - 4 = 181 are left. Every length in the data has its rows."""
    text = (two / "cuts.csv").read_text(encoding="utf-8").partition("\n")[2]
    rows = [row for row in csv.DictReader(io.StringIO(text)) if row["cut_from"] == "length"]
    plate = [row for row in rows if "wall plate" in row["you_get"] and row["length_mm"] in ("5100", "785")]
    assert [(r["stop_mm"], r["you_get"], r["what_remains"]) for r in plate] == [
        ("4311", "PB-0311: wall plate", "length, 785"),
        ("600", "CS-0427: wall plate, part 2", "181 scrap"),
    ]
    data = json.loads((two / "shared.json").read_text(encoding="utf-8"))
    whole = [n for n in data["cutting"]["lengths"] if n["pieces"][0]["length_mm"] == n["length_mm"]]
    numbered = set()
    for row in rows:
        for run_ in row["stock"].replace("L", "").split(", "):
            first, _, last = run_.partition(" to ")
            numbered |= set(range(int(first), int(last or first) + 1))
    assert len(numbered) == len(data["cutting"]["lengths"]) - len(whole)


def test_the_shared_order_reads_back(two: Path) -> None:
    """CSV and XLSX hold the same lines and the same total, and every line says for whom."""
    import openpyxl

    rows = list(
        csv.DictReader(io.StringIO((two / "order.csv").read_text(encoding="utf-8").partition("\n")[2]))
    )
    data = json.loads((two / "shared.json").read_text(encoding="utf-8"))
    assert len(rows) == len(data["order"])
    assert all(re.search("PB-0311|CS-0427", row["why"]) for row in rows)
    total = sum(round(100 * float(row["price"])) for row in rows)
    book = openpyxl.load_workbook(two / "order.xlsx", data_only=True)
    column = [row[10] for row in book.active.iter_rows(min_row=5, values_only=True)]
    assert column[-1] == pytest.approx(total / 100)
    text = "\n".join(pages_of(two / "order.pdf"))
    assert "One order for PB-0311 and CS-0427" in text


def test_two_processes_with_two_hash_seeds_write_the_same_bytes(two: Path, tmp_path: Path) -> None:
    """Nothing depends on the order of a set; the other process is this one."""
    done = run_pentice("pack", BAY, SHELTER, "--out", str(tmp_path / "other"), hash_seed=1)
    assert done.returncode == 0, done.stderr.decode()
    other, here = files_in(tmp_path / "other"), files_in(two)
    assert other.keys() == here.keys()
    assert [name for name in other if other[name] != here[name]] == []


def test_the_pack_can_be_made_again_from_itself(two: Path) -> None:
    """The jobs, the firm and the catalogues that lie in the folders give the same cutting and order."""
    again = two.with_name("from-itself")
    jobs = [str(two / reference / "job.toml") for reference in ("PB-0311", "CS-0427")]
    assert run(["pack", *jobs, "--out", str(again)]) == 0
    assert (again / "shared.json").read_bytes() == (two / "shared.json").read_bytes()


def _job(tmp_path: Path, name: str, reference: str, *changes: tuple[str, str]) -> str:
    text = Path(BAY).read_text(encoding="utf-8")
    for old, new in (('reference = "PB-0311"', f'reference = "{reference}"' if reference else ""), *changes):
        assert old in text
        text = text.replace(old, new, 1)
    (tmp_path / name).write_text(text, encoding="utf-8")
    return str(tmp_path / name)


def test_one_reference_twice_or_none_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One clear sentence, exit 2, nothing written."""
    out = tmp_path / "out"
    assert run(["pack", BAY, BAY, "--out", str(out)]) == 2
    assert 'is given twice, "PB-0311"; each job needs its own.' in capsys.readouterr().err
    nameless = _job(tmp_path, "a.toml", "")
    assert run(["pack", nameless, BAY, "--out", str(out)]) == 2
    assert "a.toml has no reference" in capsys.readouterr().err
    assert not out.exists()


def test_what_is_wrong_with_any_job_is_told_at_once_and_the_worst_code_counts(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One job cannot be read, one has a wrong key: both sentences, exit 4. A sheet that fits no stock: exit 3."""
    wrong = _job(tmp_path, "b.toml", "B", ("pitch_deg = 12", "pitch_deg = 97"))
    assert run(["pack", "nowhere.toml", wrong, BAY, "--out", str(tmp_path / "out")]) == 4
    err = capsys.readouterr().err
    assert "nowhere.toml" in err
    assert "b.toml: roof.pitch_deg is 97" in err
    long = _job(tmp_path, "c.toml", "C", ("readings = [2405, 2402, 2404]", "readings = [7600]"))
    assert run(["pack", long, BAY, "--out", str(tmp_path / "out")]) == 3
    assert re.search(r"c\.toml: S1, .* fits no stock", capsys.readouterr().err)
    assert not (tmp_path / "out").exists()


def test_two_catalogues_with_one_id_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The sentence names the product, its key and both jobs; exit 2."""
    (tmp_path / "ours.toml").write_text("[sheets.sheet-35-multi]\ntrim_mm = 5\n", encoding="utf-8")
    other = _job(tmp_path, "d.toml", "D", ("format = 1", 'format = 1\ncatalogues = ["ours.toml"]'))
    assert run(["pack", BAY, other, "--out", str(tmp_path / "out")]) == 2
    err = capsys.readouterr().err
    assert "sheets.sheet-35-multi is not the same in PB-0311 and D: trim_mm is 0.0 and 5.0" in err


def test_a_stop_half_way_leaves_the_good_pack(
    two: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Ctrl-C while the papers are written: exit 130, the pack before stands, nothing lies beside it."""
    good = files_in(two)
    before = sorted(path.name for path in two.parent.iterdir())
    written = 0
    real = packing._write

    def stopped(file: Path, data: bytes) -> None:
        nonlocal written
        written += 1
        if written > 7:
            raise KeyboardInterrupt
        real(file, data)

    monkeypatch.setattr(packing, "_write", stopped)
    monkeypatch.setattr(packing, "shared_files", lambda *_, **__: dict.fromkeys(map(str, range(20)), b""))
    assert run(["pack", BAY, SHELTER, "--out", str(two)]) == 130
    assert "nothing half written" in capsys.readouterr().err
    assert files_in(two) == good
    assert sorted(path.name for path in two.parent.iterdir()) == before


def test_a_stop_between_the_two_swaps_puts_the_good_pack_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The old folder is aside and the new one not yet in its place: the old one comes back."""
    import os

    folder = tmp_path / "pack"
    packing.write_folder(folder, {"shared.json": b"old"})
    real = os.replace

    def stopped(source: Path, target: Path) -> None:
        if ".new-" in str(source):
            raise KeyboardInterrupt
        real(source, target)

    monkeypatch.setattr(os, "replace", stopped)
    with pytest.raises(KeyboardInterrupt):
        packing.write_folder(folder, {"shared.json": b"new"})
    assert files_in(folder) == {"shared.json": b"old"}
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]


def test_the_pack_of_one_job_never_replaces_that_of_several(
    two: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """And the other way round: exit 4, nothing changed."""
    assert run(["pack", BAY, "--out", str(two)]) == 4
    assert (
        "holds the pack of several jobs; give the pack of one job another folder" in capsys.readouterr().err
    )
    (tmp_path / "design.json").write_text("{}", encoding="utf-8")
    assert run(["pack", BAY, SHELTER, "--out", str(tmp_path)]) == 4
    assert (
        "holds the pack of one job; give the pack of several jobs another folder" in capsys.readouterr().err
    )


def test_progress_is_told_line_by_line(two: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each job, the cutting, each paper, and at the end where the pack lies; a whole new pack may replace it."""
    shutil.copytree(two, two.with_name("again"))
    capsys.readouterr()
    assert run(["pack", SHELTER, BAY, "--out", str(two.with_name("again"))]) == 0
    said = capsys.readouterr().err.splitlines()
    assert said[:3] == [f"{SHELTER}: solving", f"{BAY}: solving", "Cutting 2 jobs together"]
    assert "  cutting.pdf" in said
    assert "  CS-0427/quote.pdf" in said
    assert said[-1].startswith("The pack of CS-0427 and PB-0311 lies in ")


def test_the_rest_of_several_jobs_is_planned_after_damage(capsys: pytest.CaptureFixture[str]) -> None:
    """By hand: PB-0311's wall plate, 4311, lies on a length of 5100 before 600 of CS-0427's. It is spoiled: 5100 - 4311
    - 4 = 785 is left for the 600, and 4311 comes from the shortest length that holds it, 4500. Bar base R1 of CS-0427
    lies behind that of PB-0311 on one length, so that one is cut and good."""
    words = ["PB-0311 WP", "Bar base R1, CS-0427", "cs-0427 s2"]
    assert run(["recut", BAY, SHELTER, *words]) == 0
    page = capsys.readouterr().out
    flat = " ".join(page.split())
    assert page.startswith("2 jobs together   PB-0311 + CS-0427 revision A")
    assert "1 x timber-c24 47x145 4500 for PB-0311" in flat
    assert "1 x bar-60-35 2500 for CS-0427" in flat
    assert "1 x sheet-35-multi 700x2000 for CS-0427" in flat
    assert "timber-c24 47x145, NEW timber-c24 47x145 4500: PB-0311 Wall plate (WP) 4311" in flat
    good = flat.partition("Cut and good: ")[2].partition(".")[0]
    assert "PB-0311 Bar base R1 (R1-base)" in good
    assert "WP" not in good
    assert all(len(line) <= 100 for line in page.splitlines())
    assert run(["recut", BAY, SHELTER, *words, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert [job["reference"] for job in data["jobs"]] == ["PB-0311", "CS-0427"]
    assert data["spoiled"] == ["PB-0311 WP", "CS-0427 R1-base", "CS-0427 S2"]
    assert {tuple(line["for"]) for line in data["to_buy"]} == {("PB-0311",), ("CS-0427",)}
    on = {n["length_mm"]: [p["piece"] for p in n["pieces"]] for n in data["cutting"]["lengths"]}
    assert on[785] == ["CS-0427 WP/2"]


def test_a_piece_of_several_jobs_is_named_with_its_job(capsys: pytest.CaptureFixture[str]) -> None:
    """One sentence for each name, all at once; what there is to choose from is that job's alone."""
    assert run(["recut", BAY, SHELTER, "S3", "PB-0311 S9", "X", "--cut", "88"]) == 2
    said = capsys.readouterr().err
    assert 'say of which "S3" is, as in "PB-0311 S3".' in said
    assert 'There is no piece "PB-0311 S9"; the pieces of PB-0311 are S1, KL, KR, S2, S3, S4, S5, WP' in said
    assert 'There is no piece "X" in these jobs; name one with its job, PB-0311 and CS-0427, as in' in said
    assert "There is no stock sheet 88 on the tickets of these jobs; they are 1 to 12." in said
    assert run(["recut", BAY, BAY, "PB-0311 S3"]) == 2
    assert "is given twice" in capsys.readouterr().err


def test_one_of_a_pair_of_side_sheets_is_made_again_alone_among_several_jobs() -> None:
    """By hand: of the blank of two, 2868 long, only side sheet 2 is spoiled, 1682 (as in the pack's own test)."""
    paired, other = with_pairs(), solved_job("cycle-shelter", "CS-0427")
    shared = plan_together((paired, other))
    for word in ("side sheet 2, PB-0311", "PB-0311 SS2"):
        alone = recut(shared, [word])
        placed = [p for s in alone.plan.sheets for p in s.placements if p.piece == "PB-0311 SS1-2"]
        assert [p.length_mm for p in placed] == [1682]
