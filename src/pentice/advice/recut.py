"""What is cut from what after damage: the words of the saw operator to stock and pieces, and the plan of the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.cutting.recut import CutSoFar, recut_lengths, recut_sheets
from pentice.cutting.values import CutPlan, LengthPlan, SheetPlan, cut_plan
from pentice.design import Design
from pentice.errors import InputError, Problem
from pentice.pieces.cut import length_pieces, length_stocks, sheet_pieces, sheet_stocks, shop_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Recut:
    """The rest of a job's cutting.

    Attributes
    ----------
    design
        The job as it was to be cut.
    spoiled, in_hand
        Ids of pieces that must be made again, and of those that are cut and good.
    plan
        What is still to be cut, whole stock and rests at no price; its cost is what must be bought more [pence].
    """

    design: Design
    spoiled: tuple[str, ...]
    in_hand: tuple[str, ...]
    plan: CutPlan

    @property
    def bought(self) -> tuple[SheetPlan | LengthPlan, ...]:
        """Stock that must be bought more."""
        plans: tuple[SheetPlan | LengthPlan, ...] = (*self.plan.sheets, *self.plan.lengths)
        return tuple(plan for plan in plans if plan.price > 0)


def recut(design: Design, spoiled: Sequence[str], cut: Sequence[str] = ()) -> Recut:
    """Plans what is still to be cut once pieces are spoiled.

    Parameters
    ----------
    design
        The solved job whose tickets the shop cuts by.
    spoiled
        Pieces that must be made again, as their tickets name them: "S3" or "sheet 3". The stock that they come from is
        taken as cut.
    cut
        What else is cut: numbers of stock sheets as on the tickets, or any piece that was cut from a length.

    Returns
    -------
    Recut
        Good pieces stay; the others come from kept rests, stock that is whole and, where that does not do, new stock.

    Raises
    ------
    InputError
        A name that the job does not have, each in one sentence with those that it has.
    NoSolution
        A piece fits nothing that is left or can be bought.
    """
    places = _places(design)
    problems: list[Problem] = []
    again = _found(design, spoiled, places, problems)
    if not spoiled:
        problems.append(Problem("spoiled", f"No spoiled piece is named; the pieces are {', '.join(places)}."))
    done = {places[id] for id in again}
    for word in cut:
        if word.isdigit():
            if 1 <= int(word) <= len(design.cutting.sheets):
                done.add(("sheets", int(word) - 1))
            else:
                problems.append(Problem(f"cut {word}", _no_sheet(word, len(design.cutting.sheets))))
        else:
            done |= {places[id] for id in _found(design, [word], places, problems)}
    if problems:
        raise InputError(problems)
    stock = {kind: frozenset(k for what, k in done if what == kind) for kind in ("sheets", "lengths")}
    return Recut(
        design=design,
        spoiled=again,
        in_hand=tuple(id for id, place in places.items() if place in done and id not in again),
        plan=_planned(design, stock, frozenset(again)),
    )


def _planned(design: Design, cut: dict[str, frozenset[int]], spoiled: frozenset[str]) -> CutPlan:
    job, pieces = design.job, design.pieces
    sheets = recut_sheets(
        design.cutting.sheets,
        CutSoFar(cut=cut["sheets"], spoiled=spoiled),
        sheet_pieces(pieces, design.setting_out),
        sheet_stocks(job, design.parts),
        kerf_mm=job.stock.sheet_kerf_mm,
        shop=shop_of(job),
    )
    lengths = recut_lengths(
        design.cutting.lengths,
        CutSoFar(cut=cut["lengths"], spoiled=spoiled),
        tuple(length_pieces(pieces, job, design.catalogue)),
        length_stocks(pieces, job, design.catalogue),
        kerf_mm=job.stock.bar_kerf_mm,
        shop=shop_of(job),
    )
    return cut_plan(sheets, lengths)


_Place = tuple[str, int]


def _places(design: Design) -> dict[str, _Place]:
    """The stock, from 0, that each piece is cut from."""
    sheets = {p.piece: ("sheets", k) for k, s in enumerate(design.cutting.sheets) for p in s.placements}
    lengths = {p.piece: ("lengths", k) for k, n in enumerate(design.cutting.lengths) for p in n.pieces}
    return sheets | lengths


def _found(
    design: Design, words: Sequence[str], places: dict[str, _Place], problems: list[Problem]
) -> tuple[str, ...]:
    """Ids of the pieces that words name, by id or by name."""
    known = {id.casefold(): id for id in places}
    known |= {p.name.casefold(): p.id for p in design.pieces if p.id in places}
    for word in words:
        if word.casefold() not in known:
            says = f'There is no piece "{word}" in this job; the pieces are {", ".join(places)}.'
            problems.append(Problem(f"piece {word}", says))
    return tuple(dict.fromkeys(known[w.casefold()] for w in words if w.casefold() in known))


def _no_sheet(word: str, count: int) -> str:
    have = "there is one, 1" if count == 1 else f"they are 1 to {count}"
    return f"There is no stock sheet {word} on the tickets of this job; {have}."
