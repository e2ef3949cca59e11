"""A changed job held against the one it came from: what it costs, and whether any verdict gets worse."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from pentice.checks.values import WORST_FIRST, Check, Place
from pentice.cutting.values import CutPlan

COUNTED = ("sheets.", "bars.", "profiles.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """One change of a job, solved as a whole."""

    id: str
    title: str
    set: Mapping[str, Any]
    cost_change: Decimal
    """Of sheets, bars and profiles; less than nothing saves."""
    verdicts_change: tuple[str, ...]
    summary: str
    check: str = ""
    """The check that a cure is for."""


def glazing_cost(plan: CutPlan) -> Decimal:
    """What sheets, bars and profiles of a cutting plan cost.

    Parameters
    ----------
    plan
        A cutting plan, prices in pence.

    Returns
    -------
    Decimal
        In whole money.
    """
    sheets = sum(sheet.price for sheet in plan.sheets if sheet.item.startswith(COUNTED))
    lengths = sum(length.price for length in plan.lengths if length.item.startswith(COUNTED))
    return Decimal(sheets + lengths) / 100


def no_worse(before: Iterable[Check], after: Iterable[Check]) -> bool:
    """True where no verdict gets worse: rule by rule, and place by place where the places are the same.

    Parameters
    ----------
    before, after
        Every check of the two designs.

    Returns
    -------
    bool
        A new rule that does not pass counts as worse.
    """
    old, new = _ranks(before), _ranks(after)
    worst_old, worst_new = _worst(old), _worst(new)
    for id, rank in worst_new.items():
        if rank > worst_old.get(id, 0):
            return False
    return all(rank <= old[key] for key, rank in new.items() if key in old)


def verdict_changes(before: Iterable[Check], after: Iterable[Check]) -> tuple[str, ...]:
    """Rules whose worst verdict changes, in words.

    Parameters
    ----------
    before, after
        Every check of the two designs.

    Returns
    -------
    tuple of str
        "Sheet between bars, uplift: fails, then passes".
    """
    names = {check.id: check.name for check in (*before, *after)}
    old, new = _worst(_ranks(before)), _worst(_ranks(after))
    words = list(reversed(WORST_FIRST))
    return tuple(
        f"{names[id]}: {words[old[id]]}, then {words[new[id]]}"
        for id in old
        if id in new and old[id] != new[id]
    )


def holds(checks: Iterable[Check], id: str) -> bool:
    """True where every check of one rule passes."""
    return all(check.verdict == "passes" for check in checks if check.id == id)


def _ranks(checks: Iterable[Check]) -> dict[tuple[str, Place], int]:
    """How bad each verdict is: 0 passes."""
    ranks: dict[tuple[str, Place], int] = {}
    for check in checks:
        place = replace(check.place, at="")
        rank = len(WORST_FIRST) - 1 - WORST_FIRST.index(check.verdict)
        ranks[check.id, place] = max(rank, ranks.get((check.id, place), 0))
    return ranks


def _worst(ranks: Mapping[tuple[str, Place], int]) -> dict[str, int]:
    worst: dict[str, int] = {}
    for (id, _), rank in ranks.items():
        worst[id] = max(rank, worst.get(id, 0))
    return worst
