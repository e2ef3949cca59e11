"""The command line: what it prints, its exit codes, and bad input in clear sentences."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pentice.cli.app import run

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
    """Sizes, verdicts, cutting and price; exit 1 while members are not checked."""
    assert run(["solve", str(GOOD)]) == 1
    out = capsys.readouterr().out
    for word in ("SIZES", "CHECKS", "CUTTING", "PRICE", "Not proved", "830 x 2488"):
        assert word in out


def test_check_prints_the_working(capsys: pytest.CaptureFixture[str]) -> None:
    """Formula, numbers, clause."""
    assert run(["check", str(GOOD)]) == 1
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
