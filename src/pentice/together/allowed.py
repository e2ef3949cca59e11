"""What is cut anew of one job or several, from stock in hand and stock that is bought: each job buys what it allows.

Stock in hand serves any of the jobs, as offcuts on the rack do (`lots`).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from pentice.cutting.shop import Shop
from pentice.cutting.values import (
    LengthPiece,
    LengthPlan,
    LengthPlans,
    LengthStock,
    SheetPiece,
    SheetPlan,
    SheetPlans,
    SheetStock,
)
from pentice.design import Design
from pentice.pieces.cut import length_pieces, length_stocks, sheet_pieces, sheet_stocks
from pentice.pieces.names import job_of
from pentice.together.cutting import cut_lengths_done, cut_sheets_done, length_lots, sheet_lots
from pentice.together.lots import Ask, Done, P, S, Wanted, best_choice
from pentice.together.offcuts import rack_of

Bought = tuple[str, str]
"""Item and name of a stock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToCut:
    """Every piece that is cut for one job or several, and all stock, each named as the plan names it.

    Attributes
    ----------
    sheets, lengths
        The pieces.
    sheet_stocks, length_stocks
        What can be bought by any of the jobs, and every offcut in hand.
    allowed
        What each job may buy, by its reference; by nothing where the plan is one job's own.
    """

    sheets: tuple[SheetPiece, ...]
    lengths: tuple[LengthPiece, ...]
    sheet_stocks: tuple[SheetStock, ...]
    length_stocks: tuple[LengthStock, ...]
    allowed: Mapping[str, frozenset[Bought]]

    def cut_sheets(
        self, pieces: Sequence[SheetPiece], stocks: Sequence[SheetStock], kerf_mm: int, shop: Shop
    ) -> SheetPlans:
        """Sheets cut from stock that their jobs allow, or that is in hand.

        Parameters
        ----------
        pieces
            Of one item.
        stocks
            What there is one of is in hand.
        kerf_mm, shop
            Width of a cut [mm], and the shop's rules.

        Returns
        -------
        SheetPlans
            At least cost, and a bound for whatever the jobs allow.

        Raises
        ------
        NoSolution
            A piece fits nothing.
        """
        done = self._done(pieces, stocks, kerf_mm, partial(cut_sheets_done, kerf_mm=kerf_mm, shop=shop))
        return SheetPlans(
            sheets=tuple(plan for plan in done.plans if isinstance(plan, SheetPlan)),
            cost=done.cost,
            bound=done.bound,
            proven=done.proven,
            waste_area_m2=done.waste_area_m2,
            offcuts=done.offcuts,
        )

    def cut_lengths(
        self, pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock], kerf_mm: int, shop: Shop
    ) -> LengthPlans:
        """The same for bars, profiles and timber.

        Parameters
        ----------
        pieces, stocks, kerf_mm, shop
            As for `cut_sheets`.

        Returns
        -------
        LengthPlans
            At least cost, and a bound for whatever the jobs allow.

        Raises
        ------
        NoSolution
            A piece is longer than anything.
        """
        done = self._done(pieces, stocks, kerf_mm, partial(cut_lengths_done, kerf_mm=kerf_mm, shop=shop))
        plans = tuple(plan for plan in done.plans if isinstance(plan, LengthPlan))
        taken = sum(piece.length_mm for piece in pieces) + sum(rest.length_mm for rest in done.offcuts)
        return LengthPlans(
            lengths=plans,
            cost=done.cost,
            bound=done.bound,
            proven=done.proven,
            waste_mm=sum(plan.length_mm for plan in plans) - taken,
            offcuts=done.offcuts,
        )

    def _done(
        self,
        pieces: Sequence[P],
        stocks: Sequence[S],
        kerf_mm: int,
        cut: Callable[[Sequence[P], Sequence[S]], Done],
    ) -> Done:
        """The best way to cut pieces of any of the jobs; there is as much of what is bought as anybody wants."""
        if not pieces:
            return cut(pieces, stocks)
        bought = [s for s in stocks if s.count is None]
        in_hand = [s for s in stocks if s.count is not None]
        names = frozenset(s.id for s in in_hand)
        asks = tuple(
            Ask(
                reference=job,
                pieces=tuple(p for p in pieces if job_of(p.id) == job),
                stock=tuple(s for s in bought if (s.item, s.id) in self.allowed[job]),
                names=names,
            )
            for job in dict.fromkeys(job_of(p.id) for p in pieces)
        )
        wanted = Wanted(item=pieces[0].item, kerf_mm=kerf_mm, asks=asks, offcuts=tuple(in_hand), cut=cut)
        return best_choice(wanted, frozenset()).done


def to_cut_alone(design: Design) -> ToCut:
    """What is cut for one job.

    Parameters
    ----------
    design
        The solved job.

    Returns
    -------
    ToCut
        Pieces by their own names; everything that can be bought is allowed.
    """
    job, pieces = design.job, design.pieces
    sheet_stock = sheet_stocks(job, design.parts)
    length_stock = length_stocks(pieces, job, design.catalogue)
    return ToCut(
        sheets=sheet_pieces(pieces, design.setting_out),
        lengths=tuple(length_pieces(pieces, job, design.catalogue)),
        sheet_stocks=sheet_stock,
        length_stocks=length_stock,
        allowed={
            "": frozenset([(s.item, s.id) for s in sheet_stock] + [(s.item, s.id) for s in length_stock])
        },
    )


def to_cut_together(designs: Sequence[Design]) -> ToCut:
    """What is cut for several jobs together.

    Parameters
    ----------
    designs
        Solved jobs, each with a reference of its own; products of one id are the same in all of them.

    Returns
    -------
    ToCut
        Pieces labelled with their job's reference; the item of a sheet names its tint.
    """
    rack = rack_of(designs)
    sheets, lengths = list(sheet_lots(designs, rack)), list(length_lots(designs, rack))
    bought = [
        *((ask.reference, s.item, s.id) for lot in sheets for ask in lot.asks for s in ask.stock),
        *((ask.reference, s.item, s.id) for lot in lengths for ask in lot.asks for s in ask.stock),
    ]
    return ToCut(
        sheets=tuple(p for lot in sheets for ask in lot.asks for p in ask.pieces),
        lengths=tuple(p for lot in lengths for ask in lot.asks for p in ask.pieces),
        sheet_stocks=_every(sheets),
        length_stocks=_every(lengths),
        allowed={
            job: frozenset((item, id) for reference, item, id in bought if reference == job)
            for job in (design.job.reference for design in designs)
        },
    )


def _every(lots: Sequence[Wanted[P, S]]) -> tuple[S, ...]:
    """All stock of some lots, each once."""
    found = {(s.item, s.id): s for lot in lots for ask in lot.asks for s in ask.stock}
    return (*found.values(), *{(s.item, s.id): s for lot in lots for s in lot.offcuts}.values())
