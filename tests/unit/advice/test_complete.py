"""Filling blanks: a trial that runs only some groups of checks chooses what a whole trial would choose."""

from __future__ import annotations

import pytest

from pentice.advice import complete as filling
from pentice.checks.stage import GROUPS
from pentice.job.reading import job_from_text
from pentice.job.template import example_text
from pentice.job.writing import with_keys
from pentice.pipeline import assess
from tests.designs import EXAMPLES, catalogue, example

BLANK = {
    "glazing.sheet": None,
    "glazing.bar": None,
    "glazing.head_profile": None,
    "frame.rafter_mm": None,
    "screws.bar_screw": None,
    "gutter.item": None,
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_same_is_chosen_as_by_running_every_check(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Everything that may be chosen is left blank."""
    job = with_keys(job_from_text(example_text(name)), BLANK)
    chosen = filling.complete(job, catalogue())
    monkeypatch.setattr(filling, "assess", lambda job, catalogue, only: assess(job, catalogue))
    assert filling.complete(job, catalogue()) == chosen


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_groups_together_are_all_the_checks(name: str) -> None:
    """No check is lost by asking in parts, and none is made twice."""
    job = example(name)
    found = [check for group in GROUPS for check in assess(job, catalogue(), (group,)).checks]
    assert tuple(found) == assess(job, catalogue()).checks
