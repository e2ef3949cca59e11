"""What all tests share: how hypothesis searches, and a real browser where one is installed.

Browser tests use the machine's own Chromium. Without one they skip and say so; on a build machine (CI=true) they fail,
so that a missing browser never passes for a tested page.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page, Playwright

ON_BUILD_MACHINE = os.environ.get("CI", "").lower() in {"1", "true", "yes"}

# Machines differ in speed, so no deadline per example. A build machine tries the same examples each time: a change
# is judged by what it changed. Elsewhere each run tries new ones.
settings.register_profile("pentice", deadline=None, print_blob=True, derandomize=ON_BUILD_MACHINE)
settings.load_profile("pentice")

BROWSER_NAMES = ("chromium", "chromium-browser", "google-chrome")
BROWSER_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PHONE_WIDTH_PX, PHONE_HEIGHT_PX = 390, 844


def browser_or_reason(*, on_build_machine: bool) -> str:
    """Path of the machine's browser; without one skips the test, or fails it on a build machine."""
    path = next((found for name in BROWSER_NAMES if (found := shutil.which(name))), None)
    if path is not None:
        return path
    reason = (
        f"No browser here: none of {', '.join(BROWSER_NAMES)} is on the PATH. Install chromium to run it."
    )
    if on_build_machine:
        pytest.fail(reason, pytrace=False)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """Path of the browser that is installed on this machine."""
    return browser_or_reason(on_build_machine=ON_BUILD_MACHINE)


@pytest.fixture(scope="session")
def playwright_driver(chromium_path: str) -> Iterator[Playwright]:
    """The one driver of a test process."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        yield driver


@pytest.fixture
def browser_context(
    playwright_driver: Playwright, chromium_path: str, tmp_path: Path
) -> Iterator[BrowserContext]:
    """A browser of the size of a phone that remembers nothing: its folder is new and empty."""
    context = playwright_driver.chromium.launch_persistent_context(
        tmp_path / "browser",
        executable_path=chromium_path,
        args=list(BROWSER_FLAGS),
        headless=True,
        accept_downloads=True,
        viewport={"width": PHONE_WIDTH_PX, "height": PHONE_HEIGHT_PX},
    )
    context.set_default_timeout(15_000)
    yield context
    context.close()


@pytest.fixture
def page(browser_context: BrowserContext) -> Page:
    """An empty page. `page.context.set_offline(True)` cuts the network off; `set_viewport_size` makes it a desktop."""
    return browser_context.pages[0] if browser_context.pages else browser_context.new_page()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The tests of the tests take minutes: first, so that no worker is left alone with them at the end."""
    items.sort(key=lambda item: item.get_closest_marker("meta") is None)
