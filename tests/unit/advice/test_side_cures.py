"""Cures of side sheets: too wide gets a mullion, too tall a transom; each solved as a whole job."""

from __future__ import annotations

from typing import Any

import pytest

from pentice.advice.cures import cures
from pentice.advice.options import changed_job
from pentice.advice.proposal import Proposal
from pentice.pipeline import assess, solve
from tests.designs import catalogue, changed

WIDE = {"side": "left", "width_mm": 1170, "left_mm": 2300, "right_mm": 2000}
TALL = {"side": "left", "width_mm": 700, "left_mm": 3400, "right_mm": 3200}


def _cures_of(sheet: dict[str, Any], rule: str) -> tuple[Any, list[Proposal]]:
    job = changed("plant-lobby", side_sheets=[sheet], site__vb0_m_s=34)
    design = solve(job, catalogue())
    assert any(c.id == rule and c.verdict in ("fails", "refused") for c in design.checks)
    return job, [proposal for proposal in cures(design) if proposal.check == rule]


@pytest.mark.parametrize(
    ("sheet", "rule", "says", "sizes"),
    [
        # By hand: (1170 - 70) / 2 = 550; 300 of fall over 1170, so 2300 - 550 x 300 / 1170 = 2159.0 at the mullion.
        (WIDE, "side-wind-up", "A mullion in each", [(550.0, 2300.0, 2159.0), (550.0, 2141.0, 2000.0)]),
        # By hand: (3200 - 70) / 2 = 1565 below; 3400 - 1565 - 70 = 1765 and 1565 above.
        (TALL, "side-bite-head", "A transom", [(700.0, 1565.0, 1565.0), (700.0, 1765.0, 1565.0)]),
    ],
)
def test_the_cure_parts_the_opening_and_the_rule_holds(
    sheet: dict[str, Any], rule: str, says: str, sizes: list[tuple[float, float, float]]
) -> None:
    """The sizes of the parts by hand; with them the rule passes everywhere."""
    job, found = _cures_of(sheet, rule)
    proposal = next(p for p in found if p.title.startswith(says))
    parts = [(s["width_mm"], s["left_mm"], s["right_mm"]) for s in proposal.set["side_sheets"]]
    assert parts == sizes
    after = assess(changed_job(job, dict(proposal.set)), catalogue()).checks
    assert {c.verdict for c in after if c.id == rule} == {"passes"}
