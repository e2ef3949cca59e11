"""Comparisons with other people's programs: where the program is not installed they skip, on a build machine they fail.

Each test records how far the worst of its random cases is off; the list is printed when pytest is done.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.oracle.comparing import Worst


@pytest.fixture
def worst(record_property: Any) -> Worst:
    """Keeps the greatest deviation of each quantity, for the list at the end."""
    return Worst(record=record_property)


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Print the worst deviations that the tests recorded."""
    lines = [
        f"{name}: {value}"
        for kind in ("passed", "failed")
        for report in terminalreporter.stats.get(kind, [])
        for name, value in getattr(report, "user_properties", [])
    ]
    if lines:
        terminalreporter.section("worst deviation from another program")
        for line in lines:
            terminalreporter.write_line(line)
