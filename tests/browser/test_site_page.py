"""The site page in a real browser, from disk, with the network cut off: typed, kept, saved and read back."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from pentice.job.entries import Entries, apply_entries, entries_from_text
from pentice.job.reading import job_from_text
from pentice.pack.site_page import site_page_html
from tests.browser.site_pages import site_page, with_sides

if TYPE_CHECKING:
    from playwright.sync_api import Page

JOB = 'reference = "BS 12"\nrevision = "B"\n[frame]\nbay_count = 4\n'


@pytest.fixture
def address(page: Page, tmp_path: Path) -> Iterator[str]:
    """The page on disk, open in a browser without a network; no error may come from its script."""
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.on("console", lambda message: errors.append(message.text) if message.type == "error" else None)
    file = tmp_path / "site-sheet.html"
    file.write_text(site_page_html(site_page()), encoding="utf-8")
    page.context.set_offline(True)
    page.goto(file.as_uri())
    yield file.as_uri()
    assert errors == []


def press(page: Page, digits: str) -> None:
    """Press keys of the page's own pad."""
    for digit in digits:
        page.click(f"#pad >> button:text-is('{digit}')")


def saved(page: Page, folder: Path) -> Entries:
    """What the page's own button saves."""
    page.evaluate("location.hash = '#save'")
    with page.expect_download() as download:
        page.click("#save")
    file = folder / download.value.suggested_filename
    download.value.save_as(file)
    assert file.name == "BS-12-B-readings.json"
    return entries_from_text(file.read_text(encoding="utf-8"))


def test_readings_outlast_a_reload_and_go_into_the_job(page: Page, address: str, tmp_path: Path) -> None:
    """The whole way: type, tick, reload, save, read back. Values are exact: they are what was typed."""
    page.fill("#who", "Al")
    page.click("text=Measure the bays")
    press(page, "1003")
    page.click("#pad >> button:text-is('.5')")
    page.click("#keep")
    press(page, "1004")
    page.click("#keep")
    page.evaluate("location.hash = '#hold-A'")
    page.locator("#hold-lines input").nth(1).fill("1.5")
    page.check("input[value=yes]")
    page.evaluate("location.hash = '#gaps'")
    page.fill("#degrees", "15")
    page.goto("about:blank")
    page.goto(address)
    assert page.input_value("#who") == "Al"
    assert page.is_visible("text=2 of 18 read")
    entries = saved(page, tmp_path)
    assert [(r.key, r.value, r.unit, r.by) for r in entries.readings] == [
        ("measured.between_stems_mm[0].head", 1003.5, "mm", "Al"),
        ("measured.between_stems_mm[0].middle", 1004, "mm", "Al"),
        ("measured.sheet_temperature_c", 15, "degC", "Al"),
    ]
    assert [(h.hold, h.item, h.ok, h.reading) for h in entries.holds] == [
        ("A", "Rafter centres off the drawing, worst", True, "1.5 mm"),
        ("A", "Frame braced and fixed", True, ""),
    ]
    job = job_from_text(apply_entries(JOB, entries))
    assert job.measured.between_stems_mm == ((1003.5, 1004.0, None),)
    assert job.measured.sheet_temperature_c == 15.0
    assert len(job.measured.holds) == 2


def test_the_keyboard_alone_measures_a_bay(page: Page, address: str) -> None:
    """Digits and Enter, one number after the other; the next place is asked for at once."""
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    for number in ("1003", "1002.5", "1003", "2575"):
        page.keyboard.type(number)
        page.keyboard.press("Enter")
    assert page.inner_text("#ask") == "Bay 2, at the head"
    page.evaluate("location.hash = '#sizes'")
    page.wait_for_selector("[data-screen=sizes]:not([hidden])")
    cells = page.locator(
        "td[data-key^='measured.between_stems_mm[0]'] b, td[data-key='measured.slope_lengths_mm[0]'] b"
    )
    assert cells.all_inner_texts() == ["1003", "1002.5", "1003", "2575"]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("1003", "As drawn."),
        ("1004.5", "1.5 more than drawn."),
        ("1006", "3 more than drawn."),
        ("998", "Sheet 1 no longer fits. It needs 1002.4 to 1009."),
        ("1010", "Sheet 1 no longer fits. It needs 1002.4 to 1009."),
        ("103", "103 is far from 1003. Read the tape once more."),
    ],
)
def test_a_size_is_judged_while_it_is_typed(page: Page, address: str, typed: str, says: str) -> None:
    """Against the drawn 1003 and the range in which the sheet still serves."""
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    press(page, typed.replace(".5", ""))
    if typed.endswith(".5"):
        page.click("#pad >> button:text-is('.5')")
    assert says in page.inner_text("#says")
    assert page.inner_text("#keep") == f"Keep {typed}"


def test_bars_that_are_not_parallel_are_told_once_two_places_are_read(page: Page, address: str) -> None:
    """1003 and 1006 run 3 apart; the list then names no sheet, for both are within 1002.4 to 1009."""
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    page.keyboard.type("1003")
    page.keyboard.press("Enter")
    page.keyboard.type("1006")
    assert "The bars run 3 apart, 2 is allowed." in page.inner_text("#says")
    page.keyboard.press("Enter")
    page.evaluate("location.hash = '#home'")
    page.wait_for_selector("text=2 of 18 read")
    assert page.is_hidden("#misfits")


def test_a_sheet_that_no_longer_fits_is_named_on_the_list(page: Page, address: str) -> None:
    """Before anybody cuts it."""
    page.evaluate("location.hash = '#measure-5'")
    page.wait_for_selector("text=Bay 2, at the head")
    page.keyboard.type("998")
    page.keyboard.press("Enter")
    page.evaluate("location.hash = '#home'")
    page.wait_for_selector("#misfits:not([hidden])")
    assert "Sheet 2 no longer fits. Bay 2 reads 998; sheet 997 needs 1002.4 to 1009." in page.inner_text(
        "#misfits"
    )


def test_an_empty_or_silly_number_is_not_kept(page: Page, address: str) -> None:
    """The button waits, dashed, and pressing it goes nowhere."""
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    assert page.get_attribute("#keep", "aria-disabled") == "true"
    page.keyboard.type("abc")
    page.click("#keep", force=True)
    assert page.inner_text("#ask") == "Bay 1, at the head"


def test_the_gap_card_shows_the_gaps_between_its_rows(page: Page, address: str) -> None:
    """By hand: 4.5 − 0.04 × 15 = 3.9 and 13 − 0.2 × 15 = 10.0; the wider last sheet 4.9 and 11.0."""
    page.evaluate("location.hash = '#gaps'")
    page.fill("#degrees", "15")
    assert page.locator(".gap-card b").all_inner_texts() == ["3.9", "10.0", "4.9", "11.0"]
    assert page.locator("tr.here").count() == 4
    page.click("#warmer")
    assert page.input_value("#degrees") == "16"
    page.fill("#degrees", "45")
    assert "Not on the card" in page.inner_text("#gap-now")
    assert page.locator("tr.here").count() == 2
    page.fill("#degrees", "46")
    assert page.locator("tr.here").count() == 0


def test_gap_lines_of_hold_c_wait_for_the_temperature_and_follow_it(page: Page, address: str) -> None:
    """At 15 degrees the last sheet's side is 4.9, so 3.9 to 5.9 holds."""
    page.evaluate("location.hash = '#hold-C-4'")
    page.wait_for_selector("text=Before you lift sheet 4")
    gap = page.locator("input[aria-label='Gap each side, mm']")
    assert gap.is_disabled()
    page.evaluate("location.hash = '#gaps'")
    page.fill("#degrees", "15")
    page.evaluate("location.hash = '#hold-C-4'")
    page.wait_for_selector("text=3.9 to 5.9 mm at 15 °C")
    gap.fill("5.9")
    assert page.is_visible("text=Holds.")
    for wrong in ("6", "3.8"):
        gap.fill("5")
        assert page.is_hidden("text=Shift the sheet, or cut it anew.")
        gap.fill(wrong)
        assert page.is_visible("text=Shift the sheet, or cut it anew.")


def test_a_hold_takes_what_the_readings_make(page: Page, address: str, tmp_path: Path) -> None:
    """1003, 1004 and 1005.5 make 2.5, which is more than 2: the line does not hold and is saved so."""
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    for number in ("1003", "1004", "1005.5"):
        page.keyboard.type(number)
        page.keyboard.press("Enter")
    page.evaluate("location.hash = '#hold-B-1'")
    page.click("text=Your readings make 2.5")
    assert page.is_visible("text=Screw one bar anew.")
    hold = saved(page, tmp_path).holds[0]
    assert (hold.item, hold.ok, hold.reading) == (
        "Stem to stem, widest less tightest, bay 1",
        False,
        "2.5 mm",
    )


def test_one_diagonal_alone_stays_on_the_phone(page: Page, address: str, tmp_path: Path) -> None:
    """It says so, and the file can be read."""
    page.evaluate("location.hash = '#measure-17'")
    page.wait_for_selector("text=Diagonal, left head to right foot")
    page.keyboard.type("4911")
    page.keyboard.press("Enter")
    entries = saved(page, tmp_path)
    assert entries.readings == ()
    assert "One diagonal alone says nothing" in page.inner_text("#save-says")
    assert "1 reading is on this phone only." in page.inner_text("#band")


def test_the_band_counts_what_is_not_saved(page: Page, address: str, tmp_path: Path) -> None:
    """It comes with the first reading and goes with the file."""
    assert page.is_hidden("#band")
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    page.keyboard.type("1003")
    page.keyboard.press("Enter")
    assert page.inner_text("#band") == "1 reading is on this phone only."
    saved(page, tmp_path)
    page.wait_for_selector("#band", state="hidden")


def test_a_phone_that_keeps_nothing_says_so_and_still_saves(page: Page, address: str, tmp_path: Path) -> None:
    """Storage refused: what is typed lives as long as the page, and the band is there from the start."""
    page.add_init_script("Storage.prototype.setItem = () => { throw new Error('refused'); }")
    page.reload()
    assert "keeps nothing for this page" in page.inner_text("#band")
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    page.keyboard.type("1003")
    page.keyboard.press("Enter")
    assert [reading.value for reading in saved(page, tmp_path).readings] == [1003]


def test_another_revision_begins_with_an_empty_page(page: Page, address: str, tmp_path: Path) -> None:
    """Readings belong to one reference and revision; spoilt storage does not stop the page either."""
    page.evaluate("localStorage.setItem('pentice/BS 12/B', '{not json')")
    page.reload()
    assert page.is_visible("text=0 of 18 read")
    page.evaluate(
        "localStorage.setItem('pentice/BS 12/A', JSON.stringify({readings: {'measured.slope_lengths_mm[0]':"
        " {value: 1, unit: 'mm', by: '', on: ''}}, holds: {}, by: ''}))"
    )
    page.reload()
    assert page.is_visible("text=0 of 18 read")


SCREENS = ("home", "measure-1", "hold-A", "hold-B-1", "hold-C-4", "gaps", "sizes", "cautions", "save")


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_targets_are_large_and_nothing_runs_out_sideways(page: Page, address: str, width: int) -> None:
    """What is touched is 44 px or more each way, on the pad and for answers 64 px high (least sizes of the look)."""
    page.set_viewport_size({"width": width, "height": 844})
    for screen in SCREENS:
        page.evaluate(f"location.hash = '#{screen}'")
        page.wait_for_selector(f"[data-screen={screen.split('-')[0]}]:not([hidden])")
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), screen
        small = page.evaluate(
            """[...document.querySelectorAll('button, a, input, textarea')].map(e => [e, (e.closest('label') &&
            e.type === 'radio' ? e.closest('label') : e).getBoundingClientRect()])
            .filter(([e, r]) => r.width > 0 && (r.width < 44 || r.height < 44)).map(([e]) => e.outerHTML)"""
        )
        assert small == [], screen
        low = page.evaluate(
            """[...document.querySelectorAll('#pad button, .acts > *, .answers label, .reading input, .tasks a')]
            .filter(e => e.offsetWidth > 0 && e.getBoundingClientRect().height < 64).map(e => e.outerHTML)"""
        )
        assert low == [], screen


def test_what_goes_on_sideways_says_so(page: Page, tmp_path: Path) -> None:
    """Twelve bays run out of a phone, not out of a desk; four fit both. The words are there just then."""
    for bays, width, says in ((12, 390, True), (12, 1280, False), (4, 390, False)):
        file = tmp_path / f"{bays}.html"
        file.write_text(site_page_html(site_page(bays)), encoding="utf-8")
        page.set_viewport_size({"width": width, "height": 844})
        page.goto(file.as_uri())
        assert page.is_visible("text=Slide the strip sideways") is says
        page.goto(file.as_uri() + "#save")
        assert not page.is_visible("text=Slide the strip sideways")


def test_every_screen_begins_with_one_heading_of_the_first_level(page: Page, address: str) -> None:
    """Screen readers are told where they are; no level is left out."""
    for screen in SCREENS:
        page.evaluate(f"location.hash = '#{screen}'")
        page.wait_for_selector(f"[data-screen={screen.split('-')[0]}]:not([hidden])")
        levels = page.evaluate(
            """[...document.querySelectorAll('h1, h2, h3')].filter(e => e.offsetParent)
            .map(e => Number(e.getAttribute('aria-level') || e.tagName[1]))"""
        )
        assert levels == [1], screen


def test_the_number_box_shows_that_it_has_the_focus(page: Page, address: str) -> None:
    """Its line grows from 3 to 6 px, without moving what stands below."""
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    look = """(() => { const box = document.getElementById('number'), style = getComputedStyle(box);
        return [style.borderBottomWidth, box.getBoundingClientRect().bottom + parseFloat(style.marginBottom)]; })()"""
    focused, stays = page.evaluate(look)
    page.evaluate("document.getElementById('number').blur()")
    assert (focused, page.evaluate(look)[0]) == ("6px", "3px")
    assert page.evaluate(look)[1] == pytest.approx(stays, abs=0.5)


def test_every_control_has_a_name_and_no_id_stands_twice(page: Page, address: str) -> None:
    """Names as the browser's own accessibility tree would make them: label, text or aria-label."""
    page.evaluate("location.hash = '#hold-A'")
    page.wait_for_selector("#hold-title:has-text('Hold A')")
    nameless = page.evaluate(
        """[...document.querySelectorAll('button, a, input, textarea')].filter(e =>
        !(e.getAttribute('aria-label') || e.getAttribute('aria-labelledby') || (e.labels && e.labels.length) ||
        e.textContent.trim())).map(e => e.outerHTML)"""
    )
    assert nameless == []
    twice = page.evaluate(
        """[...document.querySelectorAll('[id]')].map(e => e.id).filter((id, i, all) => all.indexOf(id) !== i)"""
    )
    assert twice == []
    assert page.evaluate("document.documentElement.lang") == "en-GB"
    assert page.title() == "BS 12 B · Site sheet"


def test_the_strip_blackens_the_bay_in_hand(page: Page, address: str) -> None:
    """You are here: the bay whose number is asked for."""
    page.evaluate("location.hash = '#measure-9'")
    page.wait_for_selector("text=Bay 3, at the head")
    assert page.locator("#strip .here").get_attribute("data-bay") == "3"


def test_going_back_shows_what_was_typed(page: Page, address: str) -> None:
    """Back from the second place shows the first reading; taking it out leaves it unread."""
    page.evaluate("location.hash = '#measure-1'")
    page.wait_for_selector("text=Bay 1, at the head")
    page.keyboard.type("1003")
    page.keyboard.press("Enter")
    page.click("#previous")
    page.wait_for_selector("text=Bay 1, at the head")
    assert page.input_value("#number") == "1003"
    page.click("[aria-label='Take the last digit back']")
    assert page.inner_text("#keep") == "Take it out"
    page.click("#keep")
    page.evaluate("location.hash = '#home'")
    page.wait_for_selector("text=0 of 18 read")


SIDES = """
reference = "BS 12"
revision = "B"
[frame]
bay_count = 4
[[side_sheets]]
side = "left"
width_mm = 767
left_mm = 2471
right_mm = 2265
[[side_sheets]]
side = "left"
width_mm = 767
left_mm = 2246
right_mm = 2041
"""


def test_openings_of_side_sheets_are_read_after_the_diagonals(page: Page, tmp_path: Path) -> None:
    """Asked by number and side; less than drawn is said; saved and read back into the job. Exact: as typed."""
    file = tmp_path / "sides.html"
    file.write_text(site_page_html(with_sides()), encoding="utf-8")
    page.context.set_offline(True)
    page.goto(file.as_uri())
    assert page.is_visible("text=0 of 24 read")
    page.evaluate("location.hash = '#measure-19'")
    page.wait_for_selector("text=Side sheet 1: width")
    assert "Least of three readings; left side" in page.inner_text("#hint")
    page.keyboard.type("764")
    assert "Less than side sheet 1 is drawn for" in page.inner_text("#says")
    for _ in range(2):
        page.keyboard.press("Enter")
        page.keyboard.type("2472")
    assert page.inner_text("#ask") == "Side sheet 1: right"
    page.keyboard.press("Control+A")
    page.keyboard.type("2265")
    assert "As drawn." in page.inner_text("#says")
    page.keyboard.press("Enter")
    page.evaluate("location.hash = '#sizes'")
    page.wait_for_selector("[data-screen=sizes]:not([hidden])")
    cells = page.locator("td[data-key^='measured.side_openings_mm[0]'] b")
    assert cells.all_inner_texts() == ["764", "2472", "2265"]
    entries = saved(page, tmp_path)
    assert [(r.key, r.value) for r in entries.readings] == [
        ("measured.side_openings_mm[0].width", 764),
        ("measured.side_openings_mm[0].left", 2472),
        ("measured.side_openings_mm[0].right", 2265),
    ]
    job = job_from_text(apply_entries(SIDES, entries))
    assert job.measured.side_openings_mm == ((764.0, 2472.0, 2265.0),)


def test_a_page_without_side_sheets_asks_for_none(page: Page, address: str) -> None:
    """As many places as before, and no table of them."""
    assert page.is_visible("text=0 of 18 read")
    assert "ide sheet" not in page.inner_text("body")
