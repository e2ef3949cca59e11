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


@pytest.mark.parametrize("key", ["posts_at_mm", "head_posts_at_mm"])
def test_posts_beyond_the_width_are_named(key: str) -> None:
    """A post at the width itself stands; one a millimetre further does not, and the sentence says where. Exact."""

    def posts(*places: float) -> list[str]:
        data = {"roof": {"width_mm": 4800, "attached": False}, "frame": {key: places}}
        return [problem.says for problem in sense(Job.model_validate(data))]

    assert posts(48, 4800) == []
    assert posts(48, 4801, 9000) == [
        f"frame.{key} has 4801 and 9000, beyond the roof's width of 4800 mm; expected every post between 0 and 4800, "
        "from the outer face of the left rafter to its middle. Measure again, or correct roof.width_mm."
    ]


def test_a_fall_typed_upside_down_is_asked_about() -> None:
    """5:1 is 78.7 degrees; what is meant is 1:5. Exact: words."""
    (says,) = said(pitch_deg=78.69)
    assert says.startswith("roof.pitch_deg is 78.7°")
    assert '"1:5"' in says
    assert said(pitch_deg=60.0) == []
