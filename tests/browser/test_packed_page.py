"""The site page as the pack writes it, driven without a network; the file it saves goes into the job by the command."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from pentice.cli.app import run
from pentice.job.reading import job_from_text
from pentice.job.template import example_text
from pentice.pack.contents import pack_files
from tests.browser.test_site_page import press
from tests.designs import design_of

if TYPE_CHECKING:
    from playwright.sync_api import Page


@cache
def packed_page(name: str) -> bytes:
    """site-sheet.html out of the pack of an example."""
    from pentice.advice.stage import Advice

    return pack_files(Advice(design=design_of(name), moves=None, cures=(), options=()))["site-sheet.html"]


@pytest.mark.parametrize("name", ["potting-bay", "cycle-shelter"])
@pytest.mark.parametrize("width", [390, 1280])
def test_readings_of_the_packed_page_go_into_the_job_by_measure(
    page: Page, tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str, width: int
) -> None:
    """Typed on the pad of the pack's own page, kept over a reload, saved by its button, read back, solved again."""
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    sheet = tmp_path / "site-sheet.html"
    sheet.write_bytes(packed_page(name))
    page.set_viewport_size({"width": width, "height": 844})
    page.context.set_offline(True)
    page.goto(sheet.as_uri())
    bay = design_of(name).setting_out.plane.bays[0]
    drawn = str(int(bay.between_stems_mm.head))
    page.fill("#who", "Kim")
    page.click("text=Measure the bays")
    for _ in range(3):
        press(page, drawn)
        page.click("#keep")
    page.reload()
    page.evaluate("location.hash = '#home'")
    page.wait_for_selector("text=read")
    assert page.input_value("#who") == "Kim"
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    page.evaluate("location.hash = '#save'")
    with page.expect_download() as download:
        page.click("#save")
    entries = tmp_path / download.value.suggested_filename
    download.value.save_as(entries)
    job = tmp_path / "job.toml"
    job.write_text(example_text(name), encoding="utf-8")
    assert run(["measure", str(job), str(entries)]) == 0
    assert "now holds the readings" in capsys.readouterr().out
    read = job_from_text(job.read_text(encoding="utf-8")).measured
    assert read.between_stems_mm[0] == (float(drawn), float(drawn), float(drawn))
    assert run(["solve", str(job)]) in (0, 1)
    assert errors == []
