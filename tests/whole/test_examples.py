"""The examples tell what they are for: what passes, what cures the others, and what stands on knee braces."""

from __future__ import annotations

import math
from functools import cache

import pytest

from pentice.advice.complete import complete
from pentice.advice.cures import cures
from pentice.advice.proposal import Proposal
from pentice.checks.values import Check, Verdict
from pentice.drawing.scene import Line
from pentice.job.reading import job_from_text
from pentice.job.template import example_text
from pentice.job.writing import with_keys
from pentice.pack.drawings.knees import knee_braces_across
from pentice.pipeline import assess, solve
from tests.designs import EXAMPLES, catalogue, design_of, example
from tests.worked.test_printed_lines import wrong_lines


def verdicts(checks: tuple[Check, ...]) -> set[Verdict]:
    """The verdicts that there are."""
    return {check.verdict for check in checks}


@cache
def cures_of(name: str) -> tuple[Proposal, ...]:
    """What is advised for an example."""
    return cures(design_of(name))


def cured(name: str, proposal: Proposal) -> tuple[Check, ...]:
    """Every check after a proposal."""
    return assess(with_keys(example(name), dict(proposal.set)), catalogue()).checks


@pytest.mark.parametrize("name", ["potting-bay", "cycle-shelter"])
def test_two_examples_pass_everything(name: str) -> None:
    """Exact: verdicts."""
    assert verdicts(design_of(name).checks) == {"passes"}
    assert cures_of(name) == ()


def test_the_veranda_is_refused_and_purlins_cure_it_while_the_table_holds_its_uplift_without_them() -> None:
    """Snow: no row so wide. Uplift: passes before and after at the bay as it is, by the same row. Exact: verdicts."""
    before = design_of("uneven-veranda").checks
    assert verdicts(before) == {"passes", "refused"}
    assert {c.id for c in before if c.verdict == "refused"} == {"sheet-down", "bite-loaded"}
    assert all("load table ends" in c.says for c in before if c.id == "sheet-down")
    purlins = next(p for p in cures_of("uneven-veranda") if "frame.purlins_at_mm" in p.set)
    after = cured("uneven-veranda", purlins)
    assert verdicts(after) == {"passes"}
    lifts = [[(c.demand, c.capacity) for c in checks if c.id == "sheet-up"] for checks in (before, after)]
    assert lifts[0] == lifts[1]


def test_the_carport_fails_and_closer_bars_cure_it() -> None:
    """The change that cures the sheet cures the whole roof. Exact: verdicts."""
    before = design_of("snow-carport").checks
    assert verdicts(before) == {"passes", "fails"}
    closer = next(
        p for p in cures_of("snow-carport") if p.check == "sheet-down" and "frame.bay_count" in p.set
    )
    assert verdicts(cured("snow-carport", closer)) == {"passes"}


@pytest.mark.parametrize("name", EXAMPLES)
def test_rafters_are_seventy_wide(name: str) -> None:
    """Room for two rows of screws of 6; no example is about narrow rafters. Exact: mm."""
    assert {rafter.width_mm for rafter in design_of(name).setting_out.plane.rafters} == {70.0}


def test_the_log_store_is_held_across_by_knee_braces_and_holds() -> None:
    """Every rule of the braces across is asked, nothing fails or is refused, each line gives its result."""
    design = solve(complete(job_from_text(example_text("log-store")), catalogue()), catalogue())
    assert verdicts(design.checks) == {"passes"}
    asked = {
        "bracing-across",
        "knee-head",
        "knee-rafter-tie",
        "knee-bearing",
        "post-across",
        "post-across-shear",
    }
    asked |= {"post-both-ways", "post-pulled", "rafter-across", "beam-across", "head-beam-across"}
    assert asked <= {check.id for check in design.checks}
    assert wrong_lines(design) == []
    drawn = [p for p in knee_braces_across(design, 20.0) if isinstance(p, Line)]
    low, top = drawn[0].a, drawn[0].b
    # Middle line of the head's post: 145 / 2 in; crossing the rafter's by half of 195 / cos below the roof line.
    rise, half = 310.0 / 2100.0, 97.5 * math.hypot(1.0, 310.0 / 2100.0)
    assert low == pytest.approx((72.5, 72.5 * rise + half + 800.0), abs=0.5)
    assert top == pytest.approx((872.5, 872.5 * rise + half), abs=0.5)
    assert drawn[1].a[0] == pytest.approx(2100.0 - 72.5, abs=1.0)
    assert knee_braces_across(design_of("boat-rack"), 20.0) == ()
