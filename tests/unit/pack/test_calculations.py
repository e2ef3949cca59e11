"""The calculations read back: verdict first, each rule once, loads as the checks use them, working, other places."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as Tree
from dataclasses import replace
from typing import Any

import pikepdf
import pypdfium2
import pytest

from pentice.checks.values import Check, Place, RestsOn, Shown, Told, Verdict
from pentice.design import Design, worst_of_each
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.scene import Line, Text
from pentice.loads.values import SnowCase
from pentice.pack.calculations import calculations_pdf
from pentice.pack.calculations.asked import engineer
from pentice.pack.calculations.load_picture import load_scene, load_svg, load_words
from pentice.pack.calculations.loads import loads_blocks
from pentice.pack.calculations.snow_picture import snow_pictures, snow_words
from pentice.pack.calculations.working import PLACES_MOST, load_pictures
from pentice.pack.drawings.elevation import crossed_by_braces
from pentice.pipeline import solve
from pentice.working import Step
from tests.designs import EXAMPLES, SEVEN, band_of, catalogue, changed, design_of
from tests.unit.pack.reading import proved_copy


def check(**changes: Any) -> Check:
    """One check that passes at 0.84."""
    given: dict[str, Any] = {
        "id": "rafter-bending", "name": "Rafter, bending", "member": "rafter", "place": Place(rafter=2),
        "clause": "EN 1995-1-1, 6.1.6", "case": "snow drift", "demand": 14.5, "capacity": 17.25, "unit": "N/mm2",
        "verdict": "passes",
    }  # fmt: skip
    shown = {key: changes.pop(key) for key in [*changes] if key in Shown.__slots__}
    return Check(**{**given, **changes}, told=Told(Shown(**shown)))


def with_checks(*checks: Check) -> Design:
    """The potting bay with other checks."""
    return replace(design_of("potting-bay"), checks=checks)


def pages_of(design: Design) -> list[str]:
    """The words of each page, spaces and line ends made alike."""
    document = pypdfium2.PdfDocument(calculations_pdf(design))
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def words_of(design: Design) -> str:
    """All words."""
    return " ".join(pages_of(design))


@pytest.mark.parametrize(
    ("verdict", "said"),
    [
        ("fails", "FAILS. Do not build this. These fail: rafter, bending."),
        ("refused", "Not proved. Not shown to hold: rafter, bending."),
        ("not checked", "Not proved. What was checked holds."),
        ("passes", "Holds. Every requirement was checked and holds."),
    ],
)
def test_page_1_says_the_worst_verdict_in_one_sentence(verdict: Verdict, said: str) -> None:
    """Never more than was shown: only where every check passed the page says that it holds."""
    first = pages_of(with_checks(check(id="other", name="Other"), check(verdict=verdict)))[0]
    assert said in first
    assert ("Do not order or build" in first) is (verdict != "passes")


def test_page_1_lists_each_loose_value_once_with_the_checks_that_rest_on_it() -> None:
    """Typical and recalled values have to be replaced; given ones stand elsewhere. Worst rule is number 1."""
    loose = (
        RestsOn(input="bars.demo.rebate_mm", value=24.0, mark="typical"),
        RestsOn(input="runoff factors", value=None, mark="from memory"),
        RestsOn(input="site.vb0_m_s", value=23.0, mark="given"),
    )
    checks = (
        check(rests_on=loose[:1]),
        check(id="gutter", name="Gutter", demand=1.0, capacity=9.0, rests_on=loose),
    )
    first = pages_of(with_checks(*checks))[0]
    assert "Bar, rebate bars.demo.rebate_mm 24 mm typical 1, 2" in first
    assert "Runoff factors from memory 2" in first
    assert "site.vb0_m_s" not in first
    assert "Nothing rests on a typical value" in pages_of(with_checks(check()))[0]


def test_page_1_carries_what_nobody_answered_and_what_does_not_agree() -> None:
    """A flue without an answer, and diagonals that do not close."""
    assert "Stop: a flue under or beside the roof." in pages_of(design_of("snow-carport"))[0]
    assert "The diagonals 4899 and 4893 differ by 6" in pages_of(design_of("uneven-veranda"))[0]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_table_of_checks_has_every_rule(name: str) -> None:
    """From page 2 on, worst first, each with its number; the note under the table stands there too."""
    design = design_of(name)
    page = " ".join(pages_of(design)[1:4])
    at = [page.find(f" {i} {c.name}".replace("  ", " ")) for i, c in enumerate(_rules(design), 1)]
    assert min(at) > 0
    assert at == sorted(at)
    assert "Tall stroke: the limit, 1.00." in page


def _rules(design: Design) -> list[Check]:
    return sorted(worst_of_each(design.checks), key=lambda c: c.verdict == "not checked")


def test_a_row_has_needs_has_unit_used_and_word() -> None:
    """As by hand: 14.5 / 17.25 = 0.84."""
    assert "R2 EN 1995-1-1, 6.1.6 14.5 17.25 N/mm² 0.84 holds" in pages_of(with_checks(check()))[1]


def test_a_failure_by_a_hair_never_reads_1_00_or_100_percent() -> None:
    """1.002 is over the limit and has to look so; a hair more, and what is needed no longer reads as what is there."""
    words = words_of(with_checks(check(demand=17.28, verdict="fails")))
    assert "1.002 FAILS" in words
    assert "100.2 % is used" in words
    hair = words_of(with_checks(check(demand=17.250001, verdict="fails")))
    assert "1.0000001 FAILS" in hair
    assert "Needs 17.250001, has 17.25 N/mm². 100.00001 % is used." in hair


def test_a_check_with_nothing_left_fails_and_says_so() -> None:
    """No capacity: there is no share to print."""
    words = words_of(
        with_checks(check(demand=3.0, capacity=-2.5671, unit="mm", verdict="fails", cure="Closer bars."))
    )
    assert "FAILS. Needs 3, has −2.567 mm. Nothing is left." in words
    assert "Closer bars." in words


def test_working_shows_formula_numbers_result_unit_and_clause() -> None:
    """Powers raised, a true minus; a word of multiplication becomes its sign."""
    step = Step(
        says="Fall left",
        formula="p - 2 x 4 d",
        numbers="12 - 2 x 4",
        result=-4.0,
        unit="deg",
        clause="statics",
    )
    words = words_of(with_checks(check(working=(step,))))
    for said in ("Fall left", "p − 2 × 4 d = 12 − 2 × 4", "= −4°", "statics"):
        assert said in words


def test_a_refused_check_gives_its_reason_and_its_cure() -> None:
    """Both, once each, and the word ask."""
    refused = check(
        verdict="refused", demand=None, capacity=None, says="The table ends at 900.", cure="Closer bars."
    )
    words = words_of(with_checks(refused))
    assert "Refused: ask." in words
    assert "The table ends at 900. Closer bars." in words


def test_other_places_stand_worst_first_and_none_is_dropped_in_silence() -> None:
    """More than fit: the least used are counted, never the worst."""
    many = tuple(check(place=Place(rafter=n), demand=17.25 * n / 100) for n in range(1, 41))
    words = words_of(with_checks(*many))
    elsewhere = words[words.index("Elsewhere Needs") :]
    assert elsewhere.index("R39 ") < elsewhere.index("R38 ") < elsewhere.index("R24 ")
    assert "R23 " not in elsewhere
    assert f"{40 - 1 - PLACES_MOST} more places are used no more than the last of these" in elsewhere


def test_alike_places_share_a_row() -> None:
    """Bays in a row are drawn together."""
    same = tuple(check(place=Place(bay=n, at="head"), demand=14.0) for n in (2, 3, 4, 5))
    assert "bays 2 to 5, head 14 17.25 0.81 holds" in words_of(with_checks(check(), *same))


def test_over_an_overhang_the_paper_shows_the_pressure_that_the_checks_use() -> None:
    """Zone F with the wall's pressure below: (c − under) q for 10 m2 and 1 m2, the inside plays no part.

    By hand from the zone's own coefficients; three decimals are printed.
    """
    design = design_of("potting-bay")
    wind = design.loads.wind
    case = next(c for c in wind.cases if c.name == "wind onto the eaves, suction, +0.2 inside")
    zone = next(z for z in case.zones if z.name == "F overhang")
    assert wind.peak_pressure_kn_m2 is not None
    assert zone.under_10 is not None
    assert zone.under_1 is not None
    ten, one = (
        (c - u) * wind.peak_pressure_kn_m2 for c, u in ((zone.c_10, zone.under_10), (zone.c_1, zone.under_1))
    )
    expected = f"{ten:.3f} / {one:.3f}".replace("-", "−")
    rows = [row for block in loads_blocks(design) for row in _rows(block) if row[0] == "F overhang"]
    assert expected in rows[0]
    under = f"{zone.under_10:.2f} / {zone.under_1:.2f}".replace("-", "−")
    assert under in rows[0]
    assert f"{zone.c_10:.2f} / {zone.c_1:.2f}".replace("-", "−") in rows[0]
    assert f"{(zone.c_10 - case.inside) * wind.peak_pressure_kn_m2:.3f}".replace("-", "−") not in " ".join(
        rows[0]
    )


def _rows(block: dict[str, Any]) -> list[list[Any]]:
    """Rows of all tables in a block."""
    inner = [row for one in block.get("blocks", []) for row in _rows(one)]
    return [*inner, *(block["rows"] if block["kind"] == "table" else [])]


def test_every_wind_case_stands_in_a_table_once() -> None:
    """Cases that differ only inside share a table, one column each."""
    design = design_of("potting-bay")
    assert sum(_pressures(design)) == len(design.loads.wind.cases)


def test_no_more_than_two_pressures_inside_stand_side_by_side() -> None:
    """Seven cases with the same zones: 2, 2, 2 and 1, so that each column keeps its width."""
    design = design_of("potting-bay")
    one = design.loads.wind.cases[0]
    alike = tuple(replace(one, name=f"wind, {n} inside", inside=n / 10) for n in range(7))
    wind = replace(design.loads.wind, cases=alike)
    assert _pressures(replace(design, loads=replace(design.loads, wind=wind))) == [2, 2, 2, 1]


def _pressures(design: Design) -> list[int]:
    """Columns of pressure in each table of wind."""
    inner = [one for block in loads_blocks(design) for one in block.get("blocks", [])]
    return [len(one["heads"]) - 5 for one in inner if one.get("heads", [])[:1] == ["Zone"]]


def test_snow_pictures_show_loads_at_their_places_and_say_them() -> None:
    """Both ends of the drift as in the loads, two decimals; the words have three."""
    design = design_of("potting-bay")
    drift = design.loads.snow.cases[1]
    assert {"1.80", "1.09", "0", "2.46 m"} <= set(_texts(design))
    assert snow_words(drift) == "from the head: 1.800 at 0.00 m, 1.093 at 2.46 m"


def _texts(design: Design) -> list[str]:
    root = Tree.fromstring(snow_pictures(design)["snow-1.svg"])
    return [element.text or "" for element in root.iter() if element.tag.endswith(("text", "tspan"))]


def test_zones_of_one_coefficient_share_a_row_and_show_it() -> None:
    """An open roof: nine rectangles in four rows, each with its net coefficient and one pressure: c q by hand."""
    design = design_of("snow-carport")
    peak, case = design.loads.wind.peak_pressure_kn_m2, design.loads.wind.cases[0]
    assert peak is not None
    table = next(one for block in loads_blocks(design) for one in block.get("blocks", []) if "rows" in one)
    assert [row[0] for row in table["rows"]] == ["BC", "C", "B", "A"]
    middle = next(zone for zone in case.zones if zone.name == "A")
    assert table["rows"][3][3:] == [f"{middle.c_10:.2f}", f"{middle.c_10 * peak:.3f}"]


def test_every_rule_with_a_load_has_its_picture() -> None:
    """Sheet, rafter, screw and cap show their load; the picture is said in words for those who cannot see it."""
    design = design_of("potting-bay")
    rules = _rules(design)
    drawn = {c.id for c in rules if c.picture is not None}
    loaded = {
        "sheet-down",
        "sheet-up",
        "bar-screw-uplift",
        "cap-hold",
        "rafter-shear",
        "rafter-sag",
        "rafter-point",
    }
    assert loaded <= drawn
    pictures = load_pictures(rules)
    assert len(pictures) == len(drawn)
    point = next(c for c in rules if c.id == "rafter-point")
    assert point.picture is not None
    assert "1.467 kN at" in load_words(point.picture)
    texts = [e.text for e in Tree.fromstring(load_svg(point.picture)).iter() if e.tag.endswith("text")]
    assert "1.467 kN" in texts


def _box(text: Text) -> tuple[float, float, float, float]:
    """Left, top, right and foot of a line of letters [mm]."""
    wide = text_width_mm(text.text, text.h_mm, text.weight)
    left = text.at[0] - {"start": 0.0, "middle": wide / 2.0, "end": wide}[text.anchor]
    return left, text.at[1] - text.h_mm, left + wide, text.at[1]


@pytest.mark.parametrize("name", SEVEN)
def test_no_two_labels_of_a_load_lie_on_each_other_and_no_line_of_it_strikes_one(name: str) -> None:
    """Sizes of loads and of a single force at a bearing, at mid-span or past the foot. Exact: no overlap."""
    seen = 0
    for check in design_of(name).checks:
        if check.picture is None:
            continue
        parts = load_scene(check.picture).primitives
        texts = [part for part in parts if isinstance(part, Text)]
        upright = [part for part in parts if isinstance(part, Line) and abs(part.a[0] - part.b[0]) < 1e-9]
        for i, text in enumerate(texts):
            seen += 1
            left, top, right, foot = _box(text)
            for other in texts[:i]:
                a, b, c, d = _box(other)
                assert min(right, c) <= max(left, a) or min(foot, d) <= max(top, b), (
                    check.id,
                    text.text,
                    other.text,
                )
            for line in upright:
                low, high = sorted((line.a[1], line.b[1]))
                struck = left < line.a[0] < right and max(top, low) < min(foot, high)
                assert not struck, (check.id, text.text, line)
    assert seen > 10


def test_an_input_is_named_in_words_with_its_key_beside_it() -> None:
    """Words first; the key, where somebody has to edit it, on the page of inputs."""
    page = " ".join(pages_of(design_of("potting-bay"))[2:5])
    assert "Snow on the ground site.ground_snow_kn_m2 0.45 kN/m² given" in page
    assert "Pitch of the roof roof.pitch_deg 12° given" in page


def test_snow_of_nothing_has_a_picture_too() -> None:
    """No load: nothing is divided by it."""
    design = design_of("potting-bay")
    case = SnowCase(name="none", situation="persistent", along="x", points=((0.0, 0.0), (500.0, 0.0)))
    bare = replace(design, loads=replace(design.loads, snow=replace(design.loads.snow, cases=(case,))))
    assert "0.00" in snow_pictures(bare)["snow-0.svg"]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_calculations_stay_readable_tagged_and_marked(name: str) -> None:
    """At most 56 pages, two braced rows too; structure, language, title; the warning on each page; no false minus."""
    design = design_of(name)
    pages = pages_of(design)
    assert len(pages) <= 56
    assert all(band_of(design) in page for page in pages)
    assert " -0" not in " ".join(pages)
    with pikepdf.open(io.BytesIO(calculations_pdf(design))) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in pdf.Root
        assert str(pdf.Root.Lang).startswith("en")
        assert str(pdf.docinfo["/Title"]).startswith("Calculations, ")


def test_a_proved_design_carries_no_warning() -> None:
    """The band goes when nothing is open."""
    assert "Not proved" not in words_of(proved_copy(design_of("potting-bay")))


def test_what_arrives_at_a_pad_is_its_demand_and_at_a_joint_each_force_once() -> None:
    """Potting bay: sliding by one number; the lines that lead to it have level forces of several winds."""
    checks = worst_of_each(design_of("potting-bay").checks)
    said = " ".join(str(block) for block in engineer(design_of("potting-bay"), checks))
    sliding = next(check for check in checks if check.id == "pad-sliding")
    assert f"{sliding.demand:.4g} kN" in said
    assert not re.search(r"kN square, [0-9.]+ kN along, [0-9.]+ kN square", said)


def test_a_door_that_a_brace_crosses_is_an_open_question() -> None:
    """The potting bay's door stands where its braces come down; one moved to the middle of a field does not."""
    crossed = crossed_by_braces(design_of("potting-bay"))
    assert [(o.kind, o.wall) for o in crossed] == [("door", "front")]
    said = " ".join(str(block) for block in engineer(design_of("potting-bay"), ()))
    assert "A brace crosses the door" in said
    assert "None: every requirement holds" not in said
    doors = [{**o.model_dump(exclude_none=True), "x_mm": 2800.0, "width_mm": 700.0} for o in crossed]
    moved = solve(changed("potting-bay", roof__openings=doors), catalogue())
    assert crossed_by_braces(moved) == ()
    assert "A brace crosses" not in " ".join(str(block) for block in engineer(moved, ()))


def test_a_brace_across_crosses_a_door_of_an_end() -> None:
    """Log store: from 800 down its post to 800 along; a door beside the post is crossed, a low window is not."""
    door = {"wall": "left", "kind": "door", "x_mm": 200.0, "width_mm": 700.0, "height_mm": 1900.0}
    window = {"wall": "right", "kind": "window", "x_mm": 700.0, "width_mm": 400.0, "height_mm": 500.0}
    design = solve(changed("log-store", roof__openings=[door, window]), catalogue())
    assert [(o.kind, o.wall) for o in crossed_by_braces(design)] == [("door", "left")]


def test_the_last_pages_ask_the_engineer_and_the_authorities() -> None:
    """What is open stands there with what is known; forces at joints; each question has room for day and answer."""
    carport, bay = (words_of(design_of(name)) for name in ("snow-carport", "potting-bay"))
    assert "Fails: needs" in carport
    assert "None: every requirement holds." in words_of(design_of("plant-lobby"))
    assert "None: every requirement holds." not in bay
    for words in (
        "A brace crosses the door",
        "along the wall, ",
        "Taken for granted",
        "Asked on",
        "Answered by, and what",
        "Building control",
    ):
        assert words in bay
    assert "Stop: a flue" in carport[carport.rindex("Enquiry") :]
