"""What is cut from what after damage: the words of the saw operator to stock and pieces, and the plan of the rest."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from pentice.cutting.recut import CutSoFar, begun_lengths, begun_sheets, recut_lengths, recut_sheets
from pentice.cutting.values import CutPlan, LengthPlacement, LengthPlan, SheetPlan, cut_plan
from pentice.design import Design
from pentice.errors import InputError, Problem
from pentice.pieces.cut import shop_of
from pentice.pieces.names import job_of, labelled, own_name
from pentice.pieces.side_sheets import blank_of_one
from pentice.pieces.values import Piece
from pentice.together import Shared
from pentice.together.allowed import to_cut_alone, to_cut_together

Work = Design | Shared
"""One job, or several that are cut together: then pieces and names carry the reference of their job."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recut:
    """The rest of the cutting of a job, or of several that are cut together.

    Attributes
    ----------
    work
        What was to be cut.
    spoiled, in_hand
        Ids of pieces that must be made again, and of those that are cut and good.
    plan
        What is still to be cut, whole stock, parts and rests at no price; its cost is what must be bought more [pence].
    first
        Number of a stock sheet that is cut in part, and the cuts of its ticket that are still made before all else.
    parts
        Parts of stock that is cut in part with what their tickets still have for them.
    """

    work: Work
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


def recut(work: Work, spoiled: Sequence[str], cut: Sequence[str] = ()) -> Recut:
    """Plans what is still to be cut once pieces are spoiled.

    Parameters
    ----------
    work
        The solved job, or the jobs that are cut together, whose tickets the shop cuts by.
    spoiled
        Pieces that must be made again, as their tickets name them: "S3" or "sheet 3"; of several jobs with their
        job's reference, "PB-0311 S3" or "sheet 3, PB-0311". The sheet that they come from is taken as cut to the end,
        unless ``cut`` says how far; a length up to and with them.
    cut
        What else is cut: "2", stock sheet 2 to the end; "2:4", stock sheet 2 up to and with cut 4 of its ticket; or a
        piece, which is cut from its length as everything on its left is.

    Returns
    -------
    Recut
        Good pieces stay; the others come from parts and rests, stock that is whole and, where that does not do, new
        stock. Stock in hand serves any job, stock to buy those that allow it.

    Raises
    ------
    InputError
        A name or a cut that is not on the tickets, each in one sentence with those that are.
    NoSolution
        A piece fits nothing that is left or can be bought.
    """
    work = _with_halves(work, spoiled)
    places = _places(work)
    problems: list[Problem] = []
    again = _found(work, spoiled, places, problems)
    if not spoiled:
        problems.append(Problem("spoiled", f"No spoiled piece is named; {_such_as(work, places)}."))
    said = _Said()
    for word in cut:
        if re.fullmatch(r"\d+(:\d*)?", word):
            _sheet_said(work, word, said, problems)
        else:
            said.pieces.extend(_found(work, [word], places, problems))
    if problems:
        raise InputError(problems)
    cutting, shop = work.cutting, shop_of(work.job)
    to_cut = to_cut_together(work.designs) if isinstance(work, Shared) else to_cut_alone(work)
    on_sheets, on_lengths = _sheets_so_far(cutting, said, again), _lengths_so_far(cutting, said, again)
    there = begun_sheets(cutting.sheets, on_sheets, to_cut.sheet_stocks, shop)
    left = begun_lengths(cutting.lengths, on_lengths, to_cut.length_stocks)
    free = {id for half in there.values() for id in half.free}
    free |= {p.piece for k, n in enumerate(cutting.lengths) for p in _cut_from(n, on_lengths, k)}
    sheets = recut_sheets(
        cutting.sheets, on_sheets, to_cut.sheets, to_cut.sheet_stocks, shop=shop, cut=to_cut.cut_sheets
    )
    lengths = recut_lengths(
        cutting.lengths, on_lengths, to_cut.lengths, to_cut.length_stocks, shop=shop, cut=to_cut.cut_lengths
    )
    return Recut(
        work=work,
        spoiled=again,
        in_hand=tuple(id for id in places if id in free and id not in again),
        plan=cut_plan(sheets, lengths),
        first=tuple((n, half.first) for n, half in there.items() if half.first),
        parts=(*(p for half in there.values() for p in half.parts), *(p for p, _ in left.values())),
    )


@dataclass(slots=True)
class _Said:
    """What is cut in the operator's words: sheets to the end, sheets up to a cut, by their numbers, and pieces."""

    whole: set[int] = field(default_factory=set)
    up_to: dict[int, int] = field(default_factory=dict)
    pieces: list[str] = field(default_factory=list)


def _sheet_said(work: Work, word: str, said: _Said, problems: list[Problem]) -> None:
    """Takes "2" or "2:4"; says what is wrong with it."""
    sheet, part, cut = word.partition(":")
    number, there = int(sheet), work.cutting.sheets
    if not 1 <= number <= len(there):
        problems.append(Problem(f"cut {word}", _no_sheet(sheet, len(there), _of(work))))
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


def _sheets_so_far(cutting: CutPlan, said: _Said, spoiled: Sequence[str]) -> CutSoFar:
    named = {*said.pieces, *spoiled}
    begun = {n - 1: cut for n, cut in said.up_to.items()}
    cut = {k for k, s in enumerate(cutting.sheets) if any(p.piece in named for p in s.placements)}
    whole = (cut | {n - 1 for n in said.whole}) - begun.keys()
    return CutSoFar(cut=frozenset(whole), spoiled=frozenset(spoiled), begun=begun)


def _lengths_so_far(cutting: CutPlan, said: _Said, spoiled: Sequence[str]) -> CutSoFar:
    """A length is cut from its left end on, so up to the last piece that is named."""
    named = {*said.pieces, *spoiled}
    begun = {
        k: max(i for i, id in enumerate(order, 1) if id in named)
        for k, n in enumerate(cutting.lengths)
        for order in [[p.piece for p in n.pieces]]
        if not named.isdisjoint(order)
    }
    return CutSoFar(cut=frozenset(), spoiled=frozenset(spoiled), begun=begun)


def _cut_from(length: LengthPlan, so_far: CutSoFar, place: int) -> tuple[LengthPlacement, ...]:
    return length.pieces[: so_far.begun.get(place, 0)]


def _places(work: Work) -> tuple[str, ...]:
    """Ids of all that is cut, stock by stock."""
    sheets = [p.piece for s in work.cutting.sheets for p in s.placements]
    return (*sheets, *(p.piece for n in work.cutting.lengths for p in n.pieces))


def _with_halves(work: Work, words: Sequence[str]) -> Work:
    """The same, where one side sheet of a pair is spoiled with that one alone in place of the pair."""
    named = {word.casefold() for word in words}

    def piece(p: Piece, job: str) -> Piece:
        spoiled = [part for part in p.side_parts if not named.isdisjoint(_called(job, part.id, part.name))]
        return blank_of_one(p, spoiled[0]) if len(spoiled) == 1 < len(p.side_parts) else p

    def design(d: Design, job: str) -> Design:
        return replace(d, pieces=tuple(piece(p, job) for p in d.pieces))

    if isinstance(work, Shared):
        designs = tuple(design(d, d.job.reference) for d in work.designs)
        return replace(work, designs=designs, pieces=tuple(piece(p, job_of(p.id)) for p in work.pieces))
    return design(work, "")


def _called(job: str, id: str, name: str) -> tuple[str, ...]:
    """What a piece may be called, its id and its name within its job: with the reference before, as in the plan, or
    after, as on the tickets."""
    words = (id, name)
    said = (*(labelled(job, word) for word in words), *(f"{word}, {job}" for word in words)) if job else words
    return tuple(word.casefold() for word in said)


def _found(
    work: Work, words: Sequence[str], places: Sequence[str], problems: list[Problem]
) -> tuple[str, ...]:
    """Ids of the pieces that words name, by id or by name."""
    known = {word: id for id in places for word in _called(job_of(id), own_name(id), own_name(id))}
    for p in work.pieces:
        job = job_of(p.id)
        if p.id in places:
            known |= dict.fromkeys(_called(job, own_name(p.id), p.name), p.id)
        for part in p.side_parts:
            known |= dict.fromkeys(_called(job, part.id, part.name), p.id)
    for word in words:
        if word.casefold() not in known:
            problems.append(Problem(f"piece {word}", _no_piece(work, word, known, places)))
    return tuple(dict.fromkeys(known[w.casefold()] for w in words if w.casefold() in known))


def _no_piece(work: Work, word: str, known: Mapping[str, str], places: Sequence[str]) -> str:
    if isinstance(work, Shared):
        asked = [labelled(job, word) for job in work.references]
        there = [said for said in asked if said.casefold() in known]
        if there:
            return f'Several jobs are cut together: say of which "{word}" is, as in "{there[0]}".'
        low = word.casefold()
        ends = [(job, job.casefold()) for job in work.references]
        job = next((job for job, said in ends if low.startswith(f"{said} ") or low.endswith(f", {said}")), "")
        if not job:
            return f'There is no piece "{word}" in these jobs; {_such_as(work, places)}.'
        mine = ", ".join(own_name(id) for id in places if job_of(id) == job)
        return f'There is no piece "{word}"; the pieces of {job} are {mine}.'
    return f'There is no piece "{word}" in this job; {_such_as(work, places)}.'


def _such_as(work: Work, places: Sequence[str]) -> str:
    """What there is to name: every piece of one job; of several, where they are many, how."""
    if isinstance(work, Shared):
        return f'name one with its job, {" and ".join(work.references)}, as in "{places[0]}"'
    return f"the pieces are {', '.join(places)}"


def _of(work: Work) -> str:
    return "of these jobs" if isinstance(work, Shared) else "of this job"


def _no_sheet(word: str, count: int, of: str) -> str:
    have = "there is one, 1" if count == 1 else f"they are 1 to {count}"
    return f"There is no stock sheet {word} on the tickets {of}; {have}."


def _no_cut(number: int, cut: str, count: int) -> str:
    if not count:
        return f"Stock sheet {number} is used as it comes, its ticket has no cuts; say --cut {number} if it is used."
    have = "one cut, 1" if count == 1 else f"cuts 1 to {count}"
    asked = f"not {cut}" if cut else f"as in --cut {number}:{count}"
    return f"Stock sheet {number} has {have} on its ticket, {asked}."
