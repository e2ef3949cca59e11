"""A job whose shop cuts rafters plumb at the saw: from the key to the order, the data, the tickets and a re-cut."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from pentice.cli.app import run
from pentice.cli.loading import load, solved
from pentice.design import Design
from pentice.pack.cutting import cutting_pdf
from pentice.pack.drawings.length_strips import marks_words, strips_of, strips_scene
from pentice.together.stage import plan_together

EXAMPLE = Path("examples/potting-bay.toml")


def _job(tmp_path: Path, where: str | None, *changes: tuple[str, str]) -> Path:
    """The example with rafters that two of 4800 just do not hold as square blanks: P = 2328, 12 deg, 120 deep."""
    text = EXAMPLE.read_text(encoding="utf-8").replace(
        "readings = [2405, 2402, 2404]", "readings = [2328]", 1
    )
    if where is not None:
        text = text.replace("[gutter]", f'[stock]\nplumb_cuts = "{where}"\n\n[gutter]', 1)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    file = tmp_path / f"{(where or 'as it was').replace(' ', '-')}.toml"
    file.write_text(text, encoding="utf-8")
    return file


def _design(tmp_path: Path, where: str | None) -> Design:
    return solved(load(_job(tmp_path, where), ()))


def _rafter_lengths(design: Design) -> list[int]:
    return [n.length_mm for n in design.cutting.lengths if any(p.piece.startswith("RF") for p in n.pieces)]


def test_rafters_cut_at_the_saw_come_from_shorter_lengths(tmp_path: Path) -> None:
    """By hand: the back is 2328 / cos 12 = 2380.01, 2381; a blank is 120 tan 12 = 25.5 longer, 2406. Two blanks and a
    cut are 4816: 5100 each. At the saw 2381 + 4.1 + 2381 + 25.5 = 4791.6: 4800 each, three of either."""
    on_site, at_saw = _design(tmp_path, "on site"), _design(tmp_path, "at the saw")
    assert _rafter_lengths(on_site) == [5100] * 3
    assert _rafter_lengths(at_saw) == [4800] * 3
    assert at_saw.cutting.cost < on_site.cutting.cost
    assert at_saw.cutting.proven
    (line,) = [line for line in at_saw.order if "RF1" in line.pieces]
    assert (line.packs, line.description.rpartition(", ")[2]) == (3, "4800 mm")
    assert line.why.startswith("Gives 6 pieces, 14.29 m (rafters).")
    rafter = next(p for p in at_saw.pieces if p.id == "RF1")
    assert (rafter.back_mm, rafter.length_mm) == (2381.0, 2406.0)
    assert rafter.marks[0].text == "plumb cut at the saw; trim to the wall plate on site"


def test_nothing_changes_where_plumb_cuts_are_made_on_site(tmp_path: Path) -> None:
    """The default is as it was: the same pieces and the same plan."""
    plain, said = _design(tmp_path, None), _design(tmp_path, "on site")
    assert plain.cutting == said.cutting
    assert plain.pieces == said.pieces
    assert all(p.slant is None for n in plain.cutting.lengths for p in n.pieces)


def test_the_data_says_where_each_rafter_lies_and_how_it_leans(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One begins at 0, one beyond a cut of 4 / cos 12 along the back, at 2386; lower edges 26 on, 12 deg off square."""
    run(["solve", str(_job(tmp_path, "at the saw")), "--json"])
    data = json.loads(capsys.readouterr().out)
    lengths = [n for n in data["cutting"]["lengths"] if n["pieces"][0]["piece"].startswith("RF")]
    assert lengths[0]["pieces"] == [
        {"piece": "RF1", "at_mm": 0, "length_mm": 2381, "lean_mm": 26, "end_deg": 12.0},
        {"piece": "RF2", "at_mm": 2386, "length_mm": 2381, "lean_mm": 26, "end_deg": 12.0},
    ]
    pieces = {p["id"]: p for p in data["pieces"]}
    assert (pieces["RF1"]["back_mm"], pieces["WP"]["back_mm"]) == (2381.0, None)
    assert pieces["RF1"]["end_cuts"][0]["across_deg"] == 78.0


def test_the_ticket_draws_the_leaning_ends_and_says_marks_and_angle(tmp_path: Path) -> None:
    """Outlines lean by 26 of 4800, in the scale of the page; the words stand on the paper."""
    design = _design(tmp_path, "at the saw")
    strips = next(s for item, s in strips_of(design).items() if item.endswith("70x120"))
    (strip,) = strips
    words = "Saw at 12° from square, marks on the back from the left: 0 (cut left of it), 2381, 4767."
    assert marks_words(strip.plan) == words
    areas = [a for a in _areas(strips_scene(design, strips)) if len(a) == 4]
    scale = 160.0 / 4800.0
    for a in areas[:2]:
        (x0, _), (x1, _), (x2, _), (x3, _) = a
        assert (x3 - x0, x2 - x1, x1 - x0) == pytest.approx((26 * scale, 26 * scale, 2381 * scale), abs=1e-9)
    paper = pypdfium2.PdfDocument(cutting_pdf(design))
    text = " ".join(" ".join(page.get_textpage().get_text_range() for page in paper).split())
    assert words in text
    assert "backs up, heads to the left" in text
    assert "the lower end lies to the right" in text


def _areas(scene: object) -> list[tuple[tuple[float, float], ...]]:
    found: list[tuple[tuple[float, float], ...]] = []
    waiting = [scene]
    while waiting:
        one = waiting.pop(0)
        waiting += list(getattr(one, "primitives", ())) + list(getattr(one, "content", ()))
        if type(one).__name__ == "Area":
            found.append(one.points)  # type: ignore[attr-defined]  # an area has them
    return found


def test_a_spoiled_rafter_is_cut_again_with_its_leaning_ends(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """RF1 spoiled: RF2 goes on from what is left of its length; RF1 again costs the shortest length that holds 2407."""
    path = str(_job(tmp_path, "at the saw"))
    assert run(["recut", path, "RF1"]) == 0
    page = capsys.readouterr().out
    said = "timber-c24 70x120, NEW timber-c24 70x120 2700: Rafter 1 (RF1) 2381 along its back, ends 12° from square"
    assert said in " ".join(page.split())
    assert "RF2" not in page
    assert "Buy 1 x timber-c24 70x120 2700" in page


def test_a_pitch_that_no_saw_leans_to_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One sentence with the way out."""
    job = _job(tmp_path, "at the saw", ("pitch_deg = 12", "head_height_mm = 7200"))
    assert run(["solve", str(job)]) == 2
    assert 'stock.plumb_cuts is "at the saw" and the pitch' in capsys.readouterr().err


def test_a_word_that_is_none_of_the_two_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The key is told with what it takes."""
    assert run(["solve", str(_job(tmp_path, "at home"))]) == 2
    err = capsys.readouterr().err
    assert "stock.plumb_cuts" in err
    assert "at the saw" in err


def test_rafters_of_two_jobs_are_cut_together(tmp_path: Path) -> None:
    """Two roofs of one pitch: their twelve rafters lean alike on the lengths of one plan."""
    one = _job(tmp_path, "at the saw")
    text = one.read_text(encoding="utf-8").replace('reference = "PB-0311"', 'reference = "PB-0312"')
    two = tmp_path / "two.toml"
    two.write_text(text, encoding="utf-8")
    day = plan_together([solved(load(one, ())), solved(load(two, ()))])
    rafters = [n for n in day.cutting.lengths if any("RF" in p.piece for p in n.pieces)]
    assert sum(len(n.pieces) for n in rafters) == 12
    assert all(p.lean_mm == 26 for n in rafters for p in n.pieces)
    assert all(n.pieces[-1].at_mm + 2381 + 26 <= n.length_mm for n in rafters)
