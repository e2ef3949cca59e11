"""The browser that other tests rely on really scripts, has the width of a phone and can be cut off the network."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.conftest import PHONE_WIDTH_PX, browser_or_reason

if TYPE_CHECKING:
    from playwright.sync_api import Page


def test_a_page_from_disk_runs_its_script_with_the_network_cut_off(page: Page, tmp_path: Path) -> None:
    """A file page works without network, keeps what is typed, and its width is a phone's (exact: integers)."""
    file = tmp_path / "page.html"
    file.write_text(
        "<!doctype html><title>t</title><meta name=viewport content='width=device-width'>"
        "<p id=out></p><script>localStorage.setItem('a', '7');"
        "out.textContent = localStorage.getItem('a') + ' ' + innerWidth + ' ' + navigator.onLine</script>",
        encoding="utf-8",
    )
    page.context.set_offline(True)
    page.goto(file.as_uri())
    assert page.inner_text("#out") == f"7 {PHONE_WIDTH_PX} false"


def test_a_missing_browser_skips_here_and_fails_on_a_build_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither outcome is silent: both name the programs that were looked for."""
    monkeypatch.setattr(shutil, "which", lambda name: None)
    with pytest.raises(pytest.skip.Exception, match="none of chromium, chromium-browser, google-chrome"):
        browser_or_reason(on_build_machine=False)
    with pytest.raises(pytest.fail.Exception, match="none of chromium, chromium-browser, google-chrome"):
        browser_or_reason(on_build_machine=True)
