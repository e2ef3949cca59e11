"""What is cut from what after damage: the words of the saw operator to stock and pieces, and the plan of the rest."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from pentice.cutting.recut import CutSoFar, begun_lengths, begun_sheets, recut_lengths, recut_sheets
from pentice.cutting.values import CutPlan, LengthPlacement, LengthPlan, SheetPlan, cut_plan
from pentice.design import Design
from pentice.errors import InputError, Problem
from pentice.pieces.cut import length_pieces, length_stocks, sheet_pieces, sheet_stocks, shop_of
from pentice.pieces.side_sheets import blank_of_one
from pentice.pieces.values import Piece


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
        What is still to be cut, whole stock, parts and rests at no price; its cost is what must be bought more [pence].
    first
        Number of a stock sheet that is cut in part, and the cuts of its ticket that are still made before all else.
    parts
        Parts of stock that is cut in part with what their tickets still have for them.
    """

    design: Design
    spoiled: tuple[str, ...]
    in_hand: tuple[str, ...]
    plan: CutPlan
    first: tuple[tuple[int, tuple[int, ...]], ...] = ()
    parts: tuple[SheetPlan | LengthPlan, ...] = ()

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
        Pieces that must be made again, as their tickets name them: "S3" or "sheet 3". The sheet that they come from is
        taken as cut to the end, unless ``cut`` says how far; a length up to and with them.
    cut
        What else is cut: "2", stock sheet 2 to the end; "2:4", stock sheet 2 up to and with cut 4 of its ticket; or a
        piece, which is cut from its length as everything on its left is.

    Returns
    -------
    Recut
        Good pieces stay; the others come from parts and rests, stock that is whole and, where that does not do, new
        stock.

    Raises
    ------
    InputError
        A name or a cut that the job does not have, each in one sentence with those that it has.
    NoSolution
        A piece fits nothing that is left or can be bought.
    """
    design = _with_halves(design, spoiled)
    places = _places(design)
    problems: list[Problem] = []
    again = _found(design, spoiled, places, problems)
    if not spoiled:
        problems.append(Problem("spoiled", f"No spoiled piece is named; the pieces are {', '.join(places)}."))
    said = _Said()
    for word in cut:
        if re.fullmatch(r"\d+(:\d*)?", word):
            _sheet_said(design, word, said, problems)
        else:
            said.pieces.extend(_found(design, [word], places, problems))
    if problems:
        raise InputError(problems)
    sheets = _sheets_so_far(design, said, again)
    lengths = _lengths_so_far(design, said, again)
    job, cutting = design.job, design.cutting
    there = begun_sheets(cutting.sheets, sheets, sheet_stocks(job, design.parts), shop_of(job))
    stocks = length_stocks(design.pieces, job, design.catalogue)
    left = begun_lengths(cutting.lengths, lengths, stocks)
    free = {id for half in there.values() for id in half.free}
    free |= {p.piece for k, n in enumerate(cutting.lengths) for p in _cut_from(n, lengths, k)}
    return Recut(
        design=design,
        spoiled=again,
        in_hand=tuple(id for id in places if id in free and id not in again),
        plan=_planned(design, sheets, lengths),
        first=tuple((n, half.first) for n, half in there.items() if half.first),
        parts=(*(p for half in there.values() for p in half.parts), *(p for p, _ in left.values())),
    )


def _planned(design: Design, on_sheets: CutSoFar, on_lengths: CutSoFar) -> CutPlan:
    job, pieces = design.job, design.pieces
    sheets = recut_sheets(
        design.cutting.sheets,
        on_sheets,
        sheet_pieces(pieces, design.setting_out),
        sheet_stocks(job, design.parts),
        kerf_mm=job.stock.sheet_kerf_mm,
        shop=shop_of(job),
    )
    lengths = recut_lengths(
        design.cutting.lengths,
        on_lengths,
        tuple(length_pieces(pieces, job, design.catalogue)),
        length_stocks(pieces, job, design.catalogue),
        kerf_mm=job.stock.bar_kerf_mm,
        shop=shop_of(job),
    )
    return cut_plan(sheets, lengths)


@dataclass(slots=True)
class _Said:
    """What is cut in the operator's words: sheets to the end, sheets up to a cut, by their numbers, and pieces."""

    whole: set[int] = field(default_factory=set)
    up_to: dict[int, int] = field(default_factory=dict)
    pieces: list[str] = field(default_factory=list)


def _sheet_said(design: Design, word: str, said: _Said, problems: list[Problem]) -> None:
    """Takes "2" or "2:4"; says what is wrong with it."""
    sheet, part, cut = word.partition(":")
    number, there = int(sheet), design.cutting.sheets
    if not 1 <= number <= len(there):
        problems.append(Problem(f"cut {word}", _no_sheet(sheet, len(there))))
        return
    if not part:
        said.whole.add(number)
    else:
        count = len(there[number - 1].cuts)
        if not cut or not 1 <= int(cut) <= count:
            problems.append(Problem(f"cut {word}", _no_cut(number, cut, count)))
            return
        if said.up_to.setdefault(number, int(cut)) != int(cut):
            says = (
                f"Stock sheet {number} is said to be cut up to {said.up_to[number]} and up to {cut}; say one."
            )
            problems.append(Problem(f"cut {word}", says))
    if number in said.whole and number in said.up_to:
        says = (
            f"Stock sheet {number} is said to be cut to the end and up to cut {said.up_to[number]}; say one."
        )
        problems.append(Problem(f"cut {word}", says))


def _sheets_so_far(design: Design, said: _Said, spoiled: Sequence[str]) -> CutSoFar:
    named = {*said.pieces, *spoiled}
    begun = {n - 1: cut for n, cut in said.up_to.items()}
    cut = {k for k, s in enumerate(design.cutting.sheets) if any(p.piece in named for p in s.placements)}
    whole = (cut | {n - 1 for n in said.whole}) - begun.keys()
    return CutSoFar(cut=frozenset(whole), spoiled=frozenset(spoiled), begun=begun)


def _lengths_so_far(design: Design, said: _Said, spoiled: Sequence[str]) -> CutSoFar:
    """A length is cut from its left end on, so up to the last piece that is named."""
    named = {*said.pieces, *spoiled}
    begun = {
        k: max(i for i, id in enumerate(order, 1) if id in named)
        for k, n in enumerate(design.cutting.lengths)
        for order in [[p.piece for p in n.pieces]]
        if not named.isdisjoint(order)
    }
    return CutSoFar(cut=frozenset(), spoiled=frozenset(spoiled), begun=begun)


def _cut_from(length: LengthPlan, so_far: CutSoFar, place: int) -> tuple[LengthPlacement, ...]:
    return length.pieces[: so_far.begun.get(place, 0)]


def _places(design: Design) -> tuple[str, ...]:
    """Ids of all that is cut, stock by stock."""
    sheets = [p.piece for s in design.cutting.sheets for p in s.placements]
    return (*sheets, *(p.piece for n in design.cutting.lengths for p in n.pieces))


def _with_halves(design: Design, words: Sequence[str]) -> Design:
    """The design, where one side sheet of a pair is spoiled with that one alone in place of the pair."""
    named = {word.casefold() for word in words}

    def piece(p: Piece) -> Piece:
        spoiled = [part for part in p.side_parts if named & {part.id.casefold(), part.name.casefold()}]
        return blank_of_one(p, spoiled[0]) if len(spoiled) == 1 < len(p.side_parts) else p

    return replace(design, pieces=tuple(piece(p) for p in design.pieces))


def _found(
    design: Design, words: Sequence[str], places: Sequence[str], problems: list[Problem]
) -> tuple[str, ...]:
    """Ids of the pieces that words name, by id or by name."""
    known = {id.casefold(): id for id in places}
    known |= {p.name.casefold(): p.id for p in design.pieces if p.id in places}
    known |= {
        name.casefold(): p.id for p in design.pieces for part in p.side_parts for name in (part.id, part.name)
    }
    for word in words:
        if word.casefold() not in known:
            says = f'There is no piece "{word}" in this job; the pieces are {", ".join(places)}.'
            problems.append(Problem(f"piece {word}", says))
    return tuple(dict.fromkeys(known[w.casefold()] for w in words if w.casefold() in known))


def _no_sheet(word: str, count: int) -> str:
    have = "there is one, 1" if count == 1 else f"they are 1 to {count}"
    return f"There is no stock sheet {word} on the tickets of this job; {have}."


def _no_cut(number: int, cut: str, count: int) -> str:
    if not count:
        return f"Stock sheet {number} is used as it comes, its ticket has no cuts; say --cut {number} if it is used."
    have = "one cut, 1" if count == 1 else f"cuts 1 to {count}"
    asked = f"not {cut}" if cut else f"as in --cut {number}:{count}"
    return f"Stock sheet {number} has {have} on its ticket, {asked}."
