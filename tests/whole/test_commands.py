"""The command line: what it prints, its exit codes, and bad input in clear sentences."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pentice.cli.app import run
from pentice.job.template import example_names

GOOD = Path("examples/potting-bay.toml")


def broken(tmp_path: Path, *changes: tuple[str, str]) -> str:
    """A copy of the example with some text changed."""
    text = GOOD.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    file = tmp_path / "job.toml"
    file.write_text(text, encoding="utf-8")
    return str(file)


def test_solve_prints_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    """Sizes, verdicts, cutting and price; exit 0: every requirement was checked and passed."""
    assert run(["solve", str(GOOD)]) == 0
    out = capsys.readouterr().out
    for word in ("SIZES", "CHECKS", "CUTTING", "PRICE", "some on typical values", "830 x 2488"):
        assert word in out


def test_check_prints_the_working(capsys: pytest.CaptureFixture[str]) -> None:
    """Formula, numbers, clause."""
    assert run(["check", str(GOOD)]) == 0
    out = capsys.readouterr().out
    assert "sigma = 6 M / (b h^2)" in out
    assert "EN 1995-1-1" in out


def test_advise_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    """Moves, cures and options as JSON."""
    assert run(["advise", "examples/uneven-veranda.toml", "--json"]) == 1
    advice = json.loads(capsys.readouterr().out)
    assert advice["moves"] == []
    assert any("purlin" in cure["title"].lower() for cure in advice["cures"])


def test_a_carport_that_fails_is_offered_closer_bars(capsys: pytest.CaptureFixture[str]) -> None:
    """The cure was solved as a whole job."""
    run(["advise", "examples/snow-carport.toml", "--json"])
    cures = json.loads(capsys.readouterr().out)["cures"]
    assert any(cure["check"] == "sheet-down" and cure["set"] == {"frame.bay_count": 9} for cure in cures)


def test_moves_save_and_make_nothing_worse(capsys: pytest.CaptureFixture[str]) -> None:
    """Each saves more than 10."""
    run(["advise", str(GOOD), "--json"])
    moves = json.loads(capsys.readouterr().out)["moves"]
    assert 1 <= len(moves) <= 3
    assert all(float(move["cost_change"]) < -10.0 for move in moves)


def test_every_problem_is_reported_at_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Three faults, three sentences with their places, exit 2."""
    path = broken(
        tmp_path,
        ("pitch_deg = 12", "pitch_deg = 97"),
        ("eaves_height_mm", "eavs_height_mm"),
        ('terrain = "III"', 'terrain = "V"'),
    )
    assert run(["solve", path]) == 2
    err = capsys.readouterr().err
    assert "roof.pitch_deg is 97" in err
    assert 'did you mean "eaves_height_mm"' in err
    assert "site.terrain" in err


def test_what_is_missing_is_asked_for_in_one_go(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Wind, snow and wall: one error names all."""
    path = broken(
        tmp_path,
        ("vb0_m_s = 23\n", ""),
        ("ground_snow_kn_m2 = 0.45\n", ""),
        ("wall_top_above_mm = 900\n", ""),
    )
    assert run(["solve", path]) == 2
    err = capsys.readouterr().err
    for key in ("site.vb0_m_s", "site.ground_snow_kn_m2", "house.wall_top_above_mm"):
        assert key in err


def test_a_sheet_longer_than_any_stock_ends_with_3(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """No design can be made: exit 3 with the piece and the way out."""
    path = broken(tmp_path, ("readings = [2405, 2402, 2404]", "readings = [7600]"))
    assert run(["solve", path]) == 3
    assert "fits no stock" in capsys.readouterr().err


def test_a_file_that_is_not_there_ends_with_4(capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 4."""
    assert run(["solve", "nowhere.toml"]) == 4
    assert "cannot be read" in capsys.readouterr().err


def test_new_writes_a_file_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every key explained; a file that is there is left alone."""
    file = tmp_path / "mine.toml"
    assert run(["new", str(file)]) == 0
    assert "width_mm" in file.read_text(encoding="utf-8")
    assert run(["new", str(file)]) == 2
    assert "is there already" in capsys.readouterr().err


def test_readings_go_into_the_job_and_the_sizes_follow(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A narrower bay 3 gives a narrower sheet 3; the old file is kept."""
    path = broken(tmp_path)
    readings = [
        {
            "key": f"measured.between_stems_mm[2].{at}",
            "value": 830.0,
            "unit": "mm",
            "by": "T",
            "on": "2027-04-14",
        }
        for at in ("head", "middle", "foot")
    ]
    entries = {
        "format": 1,
        "job": "PB-0311",
        "revision": "A",
        "saved_at": "2027-04-14T10:00:00",
        "readings": readings,
        "holds": [],
    }
    file = tmp_path / "readings.json"
    file.write_text(json.dumps(entries), encoding="utf-8")
    assert run(["measure", path, str(file)]) == 0
    capsys.readouterr()
    run(["solve", path, "--json"])
    bays = json.loads(capsys.readouterr().out)["setting_out"]["planes"][0]["bays"]
    assert bays[2]["width_mm"]["cut"] < bays[1]["width_mm"]["cut"]
    assert (tmp_path / "job.before-1.toml").exists()


@pytest.mark.parametrize(
    "words",
    [["schema"], ["schema", "--design"], ["products"], ["products", "--json"], ["--version"], ["--help"]],
)
def test_plain_commands_end_with_0(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """They print something and end well."""
    assert run(words) == 0
    assert capsys.readouterr().out.strip()


@pytest.mark.parametrize(
    "command", ["new", "solve", "check", "advise", "pack", "measure", "recut", "schema", "products"]
)
def test_the_help_of_a_command_shows_no_values_of_the_program(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """It says what each word is for; "[default: ()]" tells nobody anything. `new` names its examples."""
    assert run([command, "--help"]) == 0
    out = " ".join(capsys.readouterr().out.replace("│", " ").split())
    assert "default" not in out
    if command == "new":
        assert all(name in out for name in example_names())


@pytest.mark.parametrize(
    ("stock", "says"),
    [
        ("longest_mm = 2400", "First look at the job: stock.longest_mm = 2400 leaves stock out."),
        (
            'only = [{ item = "sheet-35-multi", length_mm = 2000 }]',
            "First look at the job: stock.only leaves stock out.",
        ),
    ],
)
def test_a_piece_that_fits_no_stock_names_what_the_job_leaves_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], stock: str, says: str
) -> None:
    """Sheets of 2488 are sold up to 7000; a gate of 2400 or a list of sizes is the reason, and the first way out."""
    job = broken(tmp_path, ("[gutter]", f"[stock]\n{stock}\n\n[gutter]"))
    assert run(["solve", job]) == 3
    assert says in capsys.readouterr().err


def measured(tmp_path: Path, widths: dict[int, float], *, revision: str = "A") -> tuple[str, str]:
    """A copy of the example, and a file of readings: bay by bay the same width at head, middle and foot."""
    readings = [
        {"key": f"measured.between_stems_mm[{bay - 1}].{at}", "value": width, "unit": "mm"}
        for bay, width in widths.items()
        for at in ("head", "middle", "foot")
    ]
    file = tmp_path / "readings.json"
    saved = {"format": 1, "job": "PB-0311", "revision": revision, "readings": readings}
    file.write_text(json.dumps(saved), encoding="utf-8")
    return broken(tmp_path), str(file)


def test_measuring_says_what_the_ordered_sheets_still_serve(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A bay of 842: at 836 the edge cover is 24 - (842 - 836) / 2 = 21, of 18 asked: the ordered sheet serves.

    A bay of 960 is wider between its seats than the table carries; the other bays stay as drawn, and are not read.
    """
    job, file = measured(tmp_path, {4: 842.0, 5: 960.0})
    assert run(["measure", job, file]) == 0
    out = capsys.readouterr().out
    assert "Cut sheet 4 to 836, was 830; 2488 long, as before. The sheet you ordered still serves." in out
    assert "Do not cut sheet 5: as the bay stands it is not shown to hold. Sheet between bars" in out
    assert "Sheets 1, 2, 3 stay 830 by 2488." in out
    assert "Not read: bays 1, 2, 3." in out


def test_a_bay_wider_than_every_ordered_sheet_names_what_to_buy(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Takes (1300 - 2) / (1 + 70e-6 x 63) = 1292.3 at most; (1300 - 24 + 10) / (1 - 70e-6 x 27) = 1288.4 or more."""
    job, file = measured(tmp_path, {1: 1300.0})
    run(["measure", job, file])
    out = capsys.readouterr().out
    assert "Nothing you ordered serves bay 1. It takes a sheet" in out
    assert "1289 to 1292 wide" in out


def test_bars_that_are_not_parallel_leave_no_width(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """826 to 850: the hottest day takes 820 at most, the coldest 10 of bite at 850, which is 836 and more."""
    job, file = measured(tmp_path, {2: 850.0})
    text = Path(file).read_text(encoding="utf-8").replace("850.0", "826.0", 1)
    Path(file).write_text(text, encoding="utf-8")
    run(["measure", job, file])
    assert "No sheet fits bay 2: it reads 826 to 850 between the stems." in capsys.readouterr().out


def test_readings_of_another_revision_are_refused_with_both(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit 2 and the job file as it was; --use-file takes them."""
    job, file = measured(tmp_path, {4: 838.0}, revision="Z")
    before = Path(job).read_text(encoding="utf-8")
    assert run(["measure", job, file]) == 2
    assert "of revision Z; the job is at revision A" in capsys.readouterr().err
    assert Path(job).read_text(encoding="utf-8") == before
    assert run(["measure", job, file, "--use-file"]) == 0


def test_readings_stand_even_where_nothing_can_be_said_of_the_order(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A job without its wind cannot be solved: the readings are in, and the sentence asks for the wind."""
    _, file = measured(tmp_path, {4: 838.0})
    job = broken(tmp_path, ("vb0_m_s = 23\n", ""))
    assert run(["measure", job, file]) == 0
    found = capsys.readouterr()
    assert "cannot be said before this is put right" in found.err
    assert "site.vb0_m_s" in found.err
    assert "838" in Path(job).read_text(encoding="utf-8")


def test_the_rest_is_planned_after_damage(capsys: pytest.CaptureFixture[str]) -> None:
    """Sheet 3 is spoiled and stock 2 cut with it: sheet 2 is good, one sheet is bought, stock 3 keeps its ticket."""
    path = str(GOOD)
    assert run(["recut", path, "sheet 3", "R2-base", "--cut", "1"]) == 0
    page = capsys.readouterr().out
    assert "Make again: Sheet 3 (S3), Bar base R2 (R2-base)." in page
    assert "stock 3, as on its ticket: Sheet 4 (S4), Sheet 5 (S5)" in page
    assert "bar-60-35, NEW bar-60-35" in page
    assert all(len(line) <= 100 for line in page.splitlines())
    assert run(["recut", path, "S3", "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert (data["spoiled"], "S2" in data["in_hand"], "S1" in data["in_hand"]) == (["S3"], True, False)
    assert data["to_buy"][0]["quantity"] == 1
    bought = [s for s in data["cutting"]["sheets"] if s["price"] != "0.00"]
    assert [p["piece"] for s in bought for p in s["placements"]] == ["S3"]
    assert bought[0]["cuts"][0]["part"] == "sheet"


def test_a_sheet_that_is_cut_in_part_is_stock_in_parts(capsys: pytest.CaptureFixture[str]) -> None:
    """Cuts 1 to 3 of stock 1 part the two sheets from the packing strips: with sheet 1 spoiled cut 5 takes it off sheet
    2, the strips go on with their ticket. By hand: 7000 - 556 - 3 = 6441 long, 980 - 2 - 3 - 910 - 3 = 62 wide. Up to
    its last cut it is what the whole sheet is. R1 spoiled leaves R2 to cut.
    """
    path = "examples/snow-carport.toml"
    run(["recut", path, "S1", "--cut", "1:3"])
    page = capsys.readouterr().out
    assert "stock 1, before anything else cut 5 as on its ticket" in page
    assert "sheet of stock 1, 62 x 6441, on with its ticket, cuts 4, 6: Packing strip left (KL)" in page
    assert "Cut and good: Sheet 2 (S2)." in page
    run(["recut", path, "S1", "--cut", "1:3", "--json"])
    data = json.loads(capsys.readouterr().out)
    assert data["first"] == [{"sheet": 1, "cuts": [5]}]
    part = next(s for s in data["cutting"]["sheets"] if s["stock"] == "sheet of stock 1")
    assert ([c["number"] for c in part["cuts"]], part["length_mm"]) == ([4, 6], 6441)
    pages = []
    for words in (["1:6"], ["1"], []):
        run(["recut", path, "S1", *(["--cut", *words] if words else [])])
        pages.append(capsys.readouterr().out)
    assert pages[0] == pages[1] == pages[2]
    path = str(GOOD)
    run(["recut", path, "R1-base"])
    page = capsys.readouterr().out
    assert "Cut and good: nothing yet." in page
    assert page.count("R2-base") == 0
    run(["recut", path, "R1-base", "--cut", "R2-base"])
    assert "Cut and good: Bar base R2 (R2-base)." in capsys.readouterr().out


def test_parts_that_are_cut_anew_get_letters_of_their_own(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One sheet gives all; after its sixth cut two sheets and a strip are spoiled. By hand: 6000 - 2 (1163 + 3) = 3668
    is left of part A for three sheets; two of 1163 and a strip come from a new one of 2500. The part on the bench keeps
    its A, what is cut anew gets small letters."""
    path = broken(tmp_path, ("readings = [2405, 2402, 2404]", "readings = [1100]"))
    run(["recut", path, "S1", "S2", "KL", "--cut", "1:6"])
    page = capsys.readouterr().out
    assert (
        "part A of stock 1, 830 x 3668, on with its ticket, cuts 8, 9, 10: Sheet 3 (S3), Sheet 4 (S4)" in page
    )
    assert (
        "2 knife along sheet, 975 x 2500, stop at 830: part a, 830 x 2500; sheet, 142 x 2500 remains" in page
    )
    assert page.count("part A") == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["2:99"], "Stock sheet 2 has cuts 1 to 4 on its ticket, not 99."),
        (["2:0"], "Stock sheet 2 has cuts 1 to 4 on its ticket, not 0."),
        (["2:"], "Stock sheet 2 has cuts 1 to 4 on its ticket, as in --cut 2:4."),
        (["9:1"], "There is no stock sheet 9 on the tickets of this job; they are 1 to 3."),
        (["2:1", "2:2"], "Stock sheet 2 is said to be cut up to 1 and up to 2; say one."),
        (["2", "2:2"], "Stock sheet 2 is said to be cut to the end and up to cut 2; say one."),
        (["2:x"], 'There is no piece "2:x" in this job'),
    ],
)
def test_a_cut_that_a_sheet_does_not_have_is_told(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """One sentence each, exit 2."""
    assert run(["recut", str(GOOD), "S2", "--cut", *words]) == 2
    assert says in capsys.readouterr().err


def test_names_that_a_job_does_not_have_are_told_with_those_it_has(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """One sentence each, all at once; without a spoiled piece there is nothing to plan."""
    path = str(GOOD)
    assert run(["recut", path, "S99", "--cut", "7", "X"]) == 2
    told = capsys.readouterr().err
    assert 'There is no piece "S99" in this job; the pieces are S1,' in told
    assert 'There is no piece "X" in this job' in told
    assert "There is no stock sheet 7 on the tickets of this job; they are 1 to 3." in told
    assert run(["recut", path]) == 2
    assert "No spoiled piece is named; the pieces are S1," in capsys.readouterr().err
