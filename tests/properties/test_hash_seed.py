"""Same input, same bytes: Python walks sets in another order in each process, and no answer may depend on it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pentice.design_json import design_data
from tests.designs import design_of
from tests.processes import ROOT, run_pentice

EXAMPLES = tuple(sorted((ROOT / "examples").glob("*.toml")))
PARTS_OF_A_DESIGN = {"summary", "loads", "setting_out", "checks", "pieces", "cutting", "order", "price"}


def test_there_are_examples_to_solve() -> None:
    """Without examples the test below would try nothing; the project promises four."""
    assert len(EXAMPLES) >= 4


@pytest.mark.parametrize("job", EXAMPLES, ids=lambda job: job.stem)
def test_a_design_is_the_same_whatever_the_hash_seed(job: Path) -> None:
    """Another process with another hash seed prints the design of this one, byte for byte: it is one computation."""
    there = run_pentice("solve", job, "--json", hash_seed=1)
    assert there.returncode in {0, 1}, there.stderr.decode()
    assert json.loads(there.stdout).keys() >= PARTS_OF_A_DESIGN
    here = json.dumps(design_data(design_of(job.stem)), ensure_ascii=False, indent=2, allow_nan=False)
    assert there.stdout.decode() == f"{here}\n"
