"""Another program to compare with; how far the two are apart, case by case, and the worst of it."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import pytest

from tests.conftest import ON_BUILD_MACHINE

CASES = 400


def other_program(name: str) -> Any:
    """The module of another program; without it the test is skipped, or failed on a build machine."""
    try:
        return importlib.import_module(name)
    except ImportError as missing:
        reason = f"{name} is not there to compare with ({missing}): make oracles installs it."
        if ON_BUILD_MACHINE:
            pytest.fail(reason, pytrace=False)
        pytest.skip(reason)


@dataclass(slots=True)
class Worst:
    """Greatest relative deviation per quantity over all cases, recorded with the test."""

    record: Callable[[str, object], None]
    found: dict[str, float] = field(default_factory=dict)
    cases: dict[str, int] = field(default_factory=dict)

    def compare(self, name: str, ours: float, theirs: float, *, size: float | None = None) -> None:
        """Take one pair, related to the size given or to the other program's own value."""
        scale = abs(theirs) if size is None else size
        off = abs(ours - theirs) / scale if scale > 0.0 else abs(ours - theirs)
        # Not a number is off without end.
        self.found[name] = max(self.found.get(name, 0.0), off if off == off else float("inf"))
        self.cases[name] = self.cases.get(name, 0) + 1

    def is_within(self, tolerance: float, *, cases: int) -> bool:
        """Record the worst of each quantity; whether all are within the tolerance and there were enough cases."""
        for name, off in self.found.items():
            self.record(name, f"{off:.1e} in {self.cases[name]} cases")
        enough = all(count >= cases for count in self.cases.values())
        return bool(self.found) and enough and max(self.found.values()) <= tolerance
