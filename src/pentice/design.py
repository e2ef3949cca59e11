"""The design: everything that one job comes to, and its summary."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Protocol

from pentice.catalogue.firm import Firm
from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.checks.values import WORST_FIRST, Check, Verdict
from pentice.cutting.values import CutPlan
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.values import Loads
from pentice.marks import Given
from pentice.pieces.values import Piece
from pentice.pricing.values import Price
from pentice.setting_out.values import SettingOut
from pentice.standards.annex import Annex
from pentice.takeoff.values import OrderLine

GOVERNING_MOST = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """The verdicts in one glance."""

    verdict: Verdict
    """The worst there is."""
    counts: Mapping[str, int]
    complete: bool
    """False while any member is refused, not checked, or rests on a typical value."""
    governing: tuple[Check, ...]
    """The checks that are used most, one for each rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """One solved job."""

    job: Job
    catalogue: Catalogue
    firm: Firm
    annex: Annex
    shape: RoofShape
    parts: Parts
    loads: Loads
    setting_out: SettingOut
    checks: tuple[Check, ...]
    pieces: tuple[Piece, ...]
    cutting: CutPlan
    order: tuple[OrderLine, ...]
    price: Price
    engine: str

    @property
    def summary(self) -> Summary:
        """Worst verdict, counts, completeness and what governs."""
        return summary_of(self.checks)

    @property
    def parts_used(self) -> tuple[Parts, ...]:
        """The products of the roof, as those of several jobs are asked for."""
        return (self.parts,)

    @property
    def proved(self) -> bool:
        """True where every requirement was checked and passed; only then may `pack` end with exit code 0."""
        counts = self.summary.counts
        return bool(self.checks) and counts["passes"] == len(self.checks)

    @property
    def choices(self) -> Mapping[str, Given[Any]]:
        """What was chosen for the job because nobody gave it, by key path, with the reason as its note."""
        return {path: given for path, given in self.job.marks.items() if given.mark == "chosen"}


class Billed(Protocol):
    """What materials come to."""

    @property
    def currency(self) -> str: ...
    @property
    def materials(self) -> Decimal: ...
    @property
    def material_lines(self) -> tuple[tuple[str, Decimal], ...]: ...


class CutAndOrdered(Protocol):
    """What the papers of cutting and order are made of: one design, or several jobs that share both."""

    @property
    def job(self) -> Job: ...
    @property
    def catalogue(self) -> Catalogue: ...
    @property
    def firm(self) -> Firm: ...
    @property
    def parts_used(self) -> tuple[Parts, ...]: ...
    @property
    def checks(self) -> tuple[Check, ...]: ...
    @property
    def summary(self) -> Summary: ...
    @property
    def proved(self) -> bool: ...
    @property
    def pieces(self) -> tuple[Piece, ...]: ...
    @property
    def cutting(self) -> CutPlan: ...
    @property
    def order(self) -> tuple[OrderLine, ...]: ...
    @property
    def price(self) -> Billed: ...


def summary_of(checks: tuple[Check, ...]) -> Summary:
    """Sum up the verdicts of a design.

    Parameters
    ----------
    checks
        Every requirement.

    Returns
    -------
    Summary
        The worst verdict is the design's.

    Examples
    --------
    >>> summary_of(()).verdict
    'not checked'
    """
    counted = Counter(check.verdict for check in checks)
    worst: Verdict = next((v for v in WORST_FIRST if counted[v]), "not checked")
    clean = not (counted["fails"] or counted["refused"] or counted["not checked"])
    return Summary(
        verdict=worst,
        counts={
            "passes": counted["passes"],
            "fails": counted["fails"],
            "refused": counted["refused"],
            "not_checked": counted["not checked"],
        },
        complete=clean and bool(checks) and not any(check.typical for check in checks),
        governing=worst_of_each(checks)[:GOVERNING_MOST],
    )


def worst_of_each(checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """The worst check of each rule, failures first, then by how much is used.

    Of a rule that is refused everywhere it is the one that needs most: what a supplier is asked for must do everywhere.

    Parameters
    ----------
    checks
        Every requirement, at each of its places.

    Returns
    -------
    tuple of Check
        One for each rule.

    Examples
    --------
    >>> worst_of_each(())
    ()
    """
    best: dict[str, Check] = {}
    for check in checks:
        held = best.get(check.id)
        if held is None or (_badness(check), _asked(check)) > (_badness(held), _asked(held)):
            best[check.id] = check
    return tuple(sorted(best.values(), key=_badness, reverse=True))


def _asked(check: Check) -> float:
    """What a check without a capacity needs; 0 where it has one."""
    return (check.demand or 0.0) if check.capacity is None else 0.0


def _badness(check: Check) -> tuple[int, float]:
    rank = len(WORST_FIRST) - WORST_FIRST.index(check.verdict)
    if check.demand is not None and check.capacity is not None and check.capacity <= 0.0:
        return rank, float("inf")
    return rank, check.utilisation or 0.0
