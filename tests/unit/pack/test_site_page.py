"""The site page as a file: whole in itself, readable without script, and nothing in a job's name can break it."""

from __future__ import annotations

import dataclasses
import json
import re
from html.parser import HTMLParser
from xml.etree import ElementTree as ET

import pytest

from pentice.pack.site_page import HoldLine, SiteLine, hold_lines, site_page_html
from pentice.pack.site_page.page import bay_names, shown
from pentice.pack.site_page.strip import key_strip
from pentice.pack.site_sheet import site_page_of
from tests.browser.site_pages import site_page
from tests.designs import EXAMPLES, design_of


class Reader(HTMLParser):
    """Texts, elements and addresses of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.addresses: list[str] = []
        self.tags: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.addresses += [
            value or "" for name, value in attrs if name in ("src", "href", "action", "srcset", "data")
        ]

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def read(text: str) -> Reader:
    """The page as a reader without script sees it."""
    reader = Reader()
    reader.feed(text)
    return reader


def test_the_page_asks_for_nothing_outside_itself() -> None:
    """Every address points within the page; the only others are names of XML and drawings held in the style."""
    page = site_page_html(site_page())
    assert [address for address in read(page).addresses if not address.startswith("#")] == []
    addresses = set(re.findall(r"https?://[^\s'\"<>]*", page))
    assert addresses <= {"http://www.w3.org/2000/svg"}
    assert "default-src 'none'" in page


def test_every_size_stands_in_the_page_without_script() -> None:
    """Drawn sizes, sheets, gap card rows, holds, cautions and what is not proved."""
    text = " ".join(read(site_page_html(site_page())).texts)
    for word in (
        "1003",
        "2575.5",
        "997",
        "2610",
        "11.4",
        "4912",
        "least 14",
        "Stop: a flue.",
        "Wall fixings, beam and posts",
    ):
        assert word in text
    assert "Bays 1 to 3: gaps by the temperature of the sheet" in text
    for letter in "ABCD":
        assert f"Hold {letter}: " in text


def test_rafter_centres_stand_in_the_page_in_one_column_where_head_and_foot_agree() -> None:
    """23.5 and then every 1015; of a frame that runs apart both ends are shown; bars are called bars."""
    text = " ".join(read(site_page_html(site_page())).texts)
    assert (
        "Centres of the rafters as drawn, from the outer face of the left one seen from outside, mm" in text
    )
    assert "R1 23.5 R2 1038.5 R3 2053.5 R4 3068.5 R5 4083.5" in text
    line = SiteLine(name="R1", centre_mm=(30.0, 31.5))
    apart = dataclasses.replace(site_page(), lines=(line,), bars_carry=True)
    assert "Bar At the head At the foot R1 30 31.5" in " ".join(read(site_page_html(apart)).texts)


@pytest.mark.parametrize("name", EXAMPLES)
def test_rafter_centres_are_those_of_the_setting_out(name: str) -> None:
    """To the half mm, as the marks on the drawing are: at most a quarter off the design's own."""
    design = design_of(name)
    rafters, page = design.setting_out.plane.rafters, site_page_of(design)
    assert [line.name for line in page.lines] == [f"R{rafter.number}" for rafter in rafters]
    for line, rafter in zip(page.lines, rafters, strict=True):
        assert line.centre_mm == pytest.approx((rafter.centre_head_mm, rafter.centre_foot_mm), abs=0.2501)


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("Not proved: of 9 checks 1 fail. Do not order or build before they are.", "stop"),
        ("Holds on typical values: 5 of 9 checks. Put your products in before you order.", "care"),
    ],
)
def test_only_what_is_not_proved_stands_under_the_sign_of_a_failure(says: str, kind: str) -> None:
    """Red means fails; a value that stands for no product is a caution. The sentence begins with a capital."""
    page = site_page_html(dataclasses.replace(site_page(), not_proved=says))
    assert f'<div class="box {kind}" role="note">' in page
    assert f"<p>{says.split(': ')[1][0].upper()}" in page


def test_an_answered_question_names_nobody() -> None:
    """Whom to ask is not who answered."""
    text = " ".join(read(site_page_html(site_page())).texts)
    assert "Answered." in text and "the council" not in text.split("{")[0]


def test_the_same_data_gives_the_same_page() -> None:
    """No clock and no chance in it."""
    assert site_page_html(site_page()) == site_page_html(site_page())


@pytest.mark.parametrize("name", ["</script><b>", "{{script}}", "A & B <i>", '"><img src=x>', "Ünïcode ’"])
def test_no_name_can_end_an_element_or_stand_for_a_part(name: str) -> None:
    """The name comes out as it was given, and the page has the same elements as ever."""
    plain = read(site_page_html(site_page()))
    page = site_page_html(dataclasses.replace(site_page(), name=name, reference=name, not_proved=name))
    odd = read(page)
    assert odd.tags == plain.tags
    assert name in odd.texts
    data = re.search(r'<script type="application/json" id="data">(.*?)</script>', page, flags=re.DOTALL)
    assert data is not None
    assert json.loads(data.group(1))["name"] == name


def test_nothing_not_proved_leaves_no_box() -> None:
    """A box that always stands there is no longer read."""
    assert "Not proved" not in site_page_html(dataclasses.replace(site_page(), not_proved=""))


def test_the_strip_shows_every_bay_and_says_what_it_is() -> None:
    """Valid XML, one group a bay, the wall on top, a title for those who cannot see it."""
    svg = ET.fromstring(key_strip((1, 2, 3)))
    bays = svg.findall("g[@class='bay']")
    assert [bay.get("data-bay") for bay in bays] == ["1", "2", "3"]
    assert "bays 1 to 3 from the left" in (svg.findtext("title") or "")
    wall = svg.find("line[@class='wall']")
    assert wall is not None
    assert (wall.get("y1"), wall.get("x1"), wall.get("x2")) == ("2", "0", "360")


def test_many_bays_keep_their_size() -> None:
    """Beyond seven each has 52 px, so a number stays readable and the strip slides."""
    assert ET.fromstring(key_strip(tuple(range(1, 31)))).get("width") == str(30 * 52)


@pytest.mark.parametrize(
    ("bays", "says"), [((1,), "Bay 1"), ((1, 2), "Bays 1, 2"), ((1, 2, 3, 7, 9, 10), "Bays 1 to 3, 7, 9, 10")]
)
def test_bays_are_named_in_runs(bays: tuple[int, ...], says: str) -> None:
    """Two neighbours are named, three and more drawn together."""
    assert bay_names(bays) == says


@pytest.mark.parametrize(
    ("value", "says"), [(953.64, "953.6"), (3000.0, "3000"), (-0.04, "0"), (-4.5, "−4.5"), (100.0, "100")]
)
def test_numbers_are_shown_to_a_tenth_at_most(value: float, says: str) -> None:
    """Trailing noughts of whole numbers stay."""
    assert shown(value) == says


def line(item: str, pitch_deg: float = 10.0, diagonals_mm: float | None = 5000.0) -> HoldLine:
    """One of the usual lines."""
    return next(one for one in hold_lines(diagonals_mm=diagonals_mm, pitch_deg=pitch_deg) if one.item == item)


@pytest.mark.parametrize(
    ("diagonals_mm", "most_mm"), [(5000.0, 5.0), (7500.0, 7.5), (None, 5.0), (600.0, 1.0)]
)
def test_diagonals_may_differ_by_5_in_5_m(diagonals_mm: float | None, most_mm: float) -> None:
    """To the half millimetre, and never asked closer than a tape reads."""
    assert line("Diagonals differ by", diagonals_mm=diagonals_mm).most == most_mm


def test_the_fall_may_be_a_little_less_than_drawn() -> None:
    """0.3 degrees, and never below level."""
    assert line("Fall").least == 9.7
    assert line("Fall", pitch_deg=0.1).least == 0.0


def test_gap_limits_follow_the_card() -> None:
    """A side 1 more or less, the head up to 3 more."""
    assert (line("Gap each side").least, line("Gap each side").most, line("Gap each side").gap) == (
        -1.0,
        1.0,
        "side",
    )
    assert (line("Gap at the head").least, line("Gap at the head").most, line("Gap at the head").gap) == (
        0.0,
        3.0,
        "head",
    )
