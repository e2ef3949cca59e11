"""The tests of the tests: a clause or a formula that is 3 % wrong must be noticed by a published or a worked value."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.felt import ROOT, has_number, public_functions, scaled, swapped

pytestmark = pytest.mark.meta


def test_every_function_that_is_three_percent_wrong_is_noticed(tmp_path: Path) -> None:
    """Every public function of standards and mechanics; a process of its own, because the code of all is swapped."""
    found = tmp_path / "felt.json"
    command = [sys.executable, "-m", "tests.felt", str(found)]
    paths = {"PYTHONPATH": os.pathsep.join((str(ROOT / "src"), str(ROOT)))}
    ran = subprocess.run(
        command, cwd=ROOT, env=os.environ | paths, capture_output=True, text=True, timeout=900
    )
    assert ran.returncode == 0, ran.stderr
    report = json.loads(found.read_text(encoding="utf-8"))
    assert int(report["cases"][0]) > 100, "the tests were not collected"
    assert report["not noticed"] == []
    assert report["not called"] == []


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    name: str
    size_mm: float


def test_numbers_are_made_wrong_wherever_they_stand() -> None:
    """Floats, tuples, frozen values; truths and texts stay. Exact: a factor of 2."""
    assert scaled((1.5, "a", True, (2,)), 2.0) == (3.0, "a", True, (4,))
    assert scaled(_Pair(name="x", size_mm=4.0), 2.0) == _Pair(name="x", size_mm=8.0)
    assert scaled({"a": None, "b": 1.0}, 2.0) == {"a": None, "b": 2.0}
    assert has_number(_Pair(name="x", size_mm=4.0))
    assert not has_number(("a", False, None))


def test_a_swapped_function_is_wrong_wherever_it_was_imported_to() -> None:
    """The name that this test imported is the same function, and it is right again afterwards."""
    from pentice.standards.en1995 import k_crit

    with swapped(public_functions()["pentice.standards.en1995.k_crit"], scaled):
        assert k_crit(0.5) == pytest.approx(1.03)
    assert k_crit(0.5) == 1.0
