"""What several jobs come to together: the shared cutting and order, each job's share of it, and what it saves."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from pentice.catalogue.firm import Firm
from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.checks.values import Check
from pentice.cutting.values import CutPlan
from pentice.design import Design, Summary, summary_of
from pentice.job.model import Job
from pentice.pieces.values import Piece
from pentice.pricing.build import Named
from pentice.takeoff.values import OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Pieces of one product that could come from the same stock, whichever jobs they are of. Money in pence, less what
    rests count for."""

    item: str
    """Product of the catalogue; of a sheet with its tint."""
    kerf_mm: int
    jobs: tuple[str, ...]
    """References."""
    groups: tuple[tuple[str, ...], ...]
    """Which jobs are really cut from the same stock."""
    alone: int
    """Cost where each job is cut by itself, an offcut that two of them name used once."""
    cost: int
    bound: int
    why: str
    """Why jobs are kept apart, or what counts where they are not; nothing where there is nothing to say."""

    @property
    def saves(self) -> int:
        """What cutting together saves [pence]; below nothing over all lots only where the aim is fewest sheets."""
        return self.alone - self.cost


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """What the materials of a shared order come to."""

    currency: str
    materials: Decimal
    material_lines: tuple[Named, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """Several jobs that are cut and ordered together."""

    job: Job
    """The head of the shared papers: name, references, revisions, day, and every offcut in hand."""
    designs: tuple[Design, ...]
    """The jobs as they were solved, each with a cutting and an order of its own: its price rests on them."""
    views: tuple[Design, ...]
    """The jobs with the shared cutting, in which their own pieces have their own names: for tickets."""
    catalogue: Catalogue
    firm: Firm
    pieces: tuple[Piece, ...]
    """Of all jobs, each labelled with its job's reference."""
    cutting: CutPlan
    lots: tuple[Lot, ...]
    order: tuple[OrderLine, ...]
    price: Bill

    @property
    def checks(self) -> tuple[Check, ...]:
        """Of all jobs."""
        return tuple(check for view in self.views for check in view.checks)

    @property
    def summary(self) -> Summary:
        """The verdicts of all jobs."""
        return summary_of(self.checks)

    @property
    def parts_used(self) -> tuple[Parts, ...]:
        """The products of each roof."""
        return tuple(design.parts for design in self.designs)

    @property
    def proved(self) -> bool:
        """True where every requirement of every job was checked and passed."""
        return all(view.proved for view in self.views)

    @property
    def alone(self) -> int:
        """Cost of the cutting where each job is cut by itself [pence]."""
        return sum(lot.alone for lot in self.lots)

    @property
    def saves(self) -> int:
        """What cutting together saves [pence]; below nothing only where the aim is fewest sheets."""
        return self.alone - self.cutting.net

    @property
    def references(self) -> tuple[str, ...]:
        """Of the jobs, in their order."""
        return tuple(design.job.reference for design in self.designs)
