"""Papers of a roof braced across by knee braces: order of work, order, calculations, and the cures of a weak one."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import Any

import pytest

from pentice.advice.cures import cures
from pentice.advice.frame_cures import frame_changes
from pentice.design import Design
from pentice.job.writing import with_keys
from pentice.pack.calculations import calculations_pdf
from pentice.pack.method import method_pdf, order_of_work
from pentice.pipeline import assess, solve
from tests.designs import catalogue, changed, design_of
from tests.unit.pack.test_method import text_of
from tests.worked.test_free_standing import NAME
from tests.worked.test_knees_across import STRONG


@cache
def braced() -> Design:
    """The roof that is strong enough."""
    return solve(changed(NAME, **STRONG), catalogue())


def test_rafters_and_braces_come_together_and_the_props_out_last() -> None:
    """Not before the beams: there is nothing to brace to. A roof with held feet keeps its words."""
    steps = order_of_work(braced())
    (props,) = (n for n, step in enumerate(steps) if "prop across until the knee braces" in step)
    assert "no beam can roll. Then the props come out" in steps[props + 1]
    assert "Brace along both rows and across" in " ".join(order_of_work(design_of(NAME)))
    assert "not shown to hold: ask" not in text_of(method_pdf(braced()))
    weak = solve(changed(NAME, **{**STRONG, "frame__knee_head_kn": 1.0}), catalogue())
    assert "not shown to hold: ask" in text_of(method_pdf(weak))


def test_a_brace_more_is_ordered_for_every_post() -> None:
    """Two rows of three posts: 8 along, 6 across."""
    (line,) = (line for line in braced().order if line.part == "bracing")
    assert (line.quantity, "across, one at each post" in line.why) == (Decimal(14), True)
    (line,) = (line for line in design_of(NAME).order if line.part == "bracing")
    assert (line.quantity, "across" in line.why) == (Decimal(8), False)


def test_the_calculations_name_what_is_taken_and_what_is_typical() -> None:
    """Each new rule with its name, the joint's force for the engineer, the key of the stiffness with its unit."""
    design = solve(changed(NAME, **{**STRONG, "frame__brace_across_n_mm": None}), catalogue())
    text = text_of(calculations_pdf(design))
    for words in (
        "Knee braces across, with their ends",
        "Head joint at a knee brace across",
        "Post, bent by its knee brace across",
        "Rafter, bent by its knee braces",
        "Head beam, bent level across",
        "Holes of their bolts are taken off",
        "Knee braces, diameter of a bolt",
        "Sway across",
    ):
        assert words in text, words
    rests = {r.input: r for c in design.checks if c.id == "bracing-across" for r in c.rests_on}
    assert rests["frame.knee_bolt_mm"].mark == "typical"


@pytest.mark.parametrize(
    ("rule", "keys", "title"),
    [
        ("bracing-across", {"frame__posts_at_mm": [130.0, 2600.0, 4850.0]}, "Posts under rafters, at "),
        ("bracing-across", {"frame__brace_across_kn": 20.0}, "Knee braces across 1000 down and 1000 along"),
        ("post-across", {"site__vb0_m_s": 26.0}, "Knee braces across 1000 down"),
    ],
)
def test_a_weak_one_is_cured(rule: str, keys: dict[str, Any], title: str) -> None:
    """Proposed, and it holds then."""
    job = changed(NAME, **{**STRONG, **keys})
    design = solve(job, catalogue())
    assert "passes" not in {c.verdict for c in design.checks if c.id == rule}
    offered = [words for kind in frame_changes(design, rule) for words, _ in kind]
    assert [words for words in offered if words.startswith(title)], offered
    found = [cure for cure in cures(design) if cure.check == rule]
    assert found, offered
    after = assess(with_keys(job, dict(found[0].set)), catalogue()).checks
    assert {c.verdict for c in after if c.id == rule} == {"passes"}
