"""Sizes that no roof has: metres typed for mm, a fall typed upside down. Each in a sentence that says what to write."""

from __future__ import annotations

import pytest

from pentice.job.model import Job
from pentice.job.sense import sense


def said(**roof: float) -> list[str]:
    """What is said about a roof."""
    return [problem.says for problem in sense(Job.model_validate({"roof": roof}))]


@pytest.mark.parametrize("key", ["width_mm", "projection_mm"])
def test_metres_typed_for_mm_are_asked_about(key: str) -> None:
    """4.15 is no roof: the sentence shows how metres are written. Exact: words."""
    assert said(**{key: 4.15}) == [
        f'roof.{key} is 4.15 mm, less than any roof; was it metres? Write "4.15 m".'
    ]
    assert said(**{key: 300.0}) == []


def test_a_fall_typed_upside_down_is_asked_about() -> None:
    """5:1 is 78.7 degrees; what is meant is 1:5. Exact: words."""
    (says,) = said(pitch_deg=78.69)
    assert says.startswith("roof.pitch_deg is 78.7°")
    assert '"1:5"' in says
    assert said(pitch_deg=60.0) == []
