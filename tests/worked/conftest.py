"""The mark of the tests that test the tests."""

from __future__ import annotations

import pytest


def pytest_configure(config: pytest.Config) -> None:
    """Make the mark known, so that a misspelt one is still an error."""
    config.addinivalue_line("markers", "meta: makes each function wrong in turn; the other tests must notice")
