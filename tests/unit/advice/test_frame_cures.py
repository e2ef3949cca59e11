"""Cures of beam, posts, pads and wall: the smallest step that passes, nothing worse; none that nobody can order."""

from __future__ import annotations

from typing import Any

import pytest

from pentice.advice.cures import cures
from pentice.advice.frame_cures import frame_changes
from pentice.checks.values import Check
from pentice.job.writing import with_keys
from pentice.pipeline import assess, solve
from tests.designs import catalogue, changed, design_of

WEAK: dict[str, tuple[str, dict[str, Any]]] = {
    "beam": ("beam-sag", {"frame__beam_mm": [70, 95]}),
    "post": ("post-racking", {"frame__post_mm": [90, 90]}),
    "pad": ("pad-uplift", {"frame__pad_mm": [250, 250, 500]}),
    "fixings": ("wall-fixings", {"frame__wall_fixing_spacing_mm": 1900}),
}


def failing(checks: tuple[Check, ...]) -> set[str]:
    """Rules that fail somewhere."""
    return {check.id for check in checks if check.verdict == "fails"}


@pytest.mark.parametrize("member", WEAK)
def test_a_weak_member_is_cured_by_the_smallest_step(member: str) -> None:
    """It fails before; the proposal passes; the step before it in the same row does not. Exact: verdicts."""
    rule, keys = WEAK[member]
    job = changed("cycle-shelter", **keys)
    design = solve(job, catalogue())
    assert "fails" in {c.verdict for c in design.checks if c.id == rule}
    found = [p for p in cures(design) if p.check == rule]
    assert found
    tried = [dict(change) for kind in frame_changes(design, rule) for _, change in kind]
    for cure in found:
        after = assess(with_keys(job, dict(cure.set)), catalogue()).checks
        assert {c.verdict for c in after if c.id == rule} == {"passes"}
        before = [c for c in tried[: tried.index(dict(cure.set))] if c.keys() == cure.set.keys()]
        for smaller in before[-1:]:
            still = assess(with_keys(job, smaller), catalogue()).checks
            holds = {c.verdict for c in still if c.id == rule} == {"passes"}
            assert not holds or failing(still) - failing(design.checks)


def test_nothing_is_proposed_for_a_frame_that_stands() -> None:
    """The veranda's posts are not ours to change."""
    assert list(frame_changes(design_of("uneven-veranda"), "beam-bending")) == []
