"""The plan of what is still to be cut, as a page of text and as data."""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterator
from typing import Any

from pentice.advice.recut import Recut
from pentice.cutting.followed import Held, Turn, followed
from pentice.cutting.values import LengthPlacement, LengthPlan, SheetPlan
from pentice.design_json import cutting_data
from pentice.pieces.names import job_of, own_name
from pentice.together import Shared
from pentice.together.lots import pieces_on

WIDTH = 100


def recut_data(found: Recut) -> dict[str, Any]:
    """A plan of the rest as plain data for JSON.

    Parameters
    ----------
    found
        The plan.

    Returns
    -------
    dict
        Its cutting has the shape that it has in a design; its cost is what must be bought more.
    """
    work, job = found.work, found.work.job
    designs = work.designs if isinstance(work, Shared) else (work,)
    return {
        "format": 1,
        "job": job.reference,
        "revision": job.revision,
        "jobs": [{"reference": d.job.reference, "revision": d.job.revision} for d in designs],
        "spoiled": list(found.spoiled),
        "in_hand": list(found.in_hand),
        "first": [{"sheet": number, "cuts": list(cuts)} for number, cuts in found.first],
        "to_buy": [
            {"item": item, "stock": stock, "quantity": count, "for": [name or job.reference for name in jobs]}
            for (item, stock, jobs), count in _to_buy(found).items()
        ],
        "cutting": cutting_data(found.plan),
    }


def recut_text(found: Recut) -> str:
    """A page: what must be bought, and stock by stock what is cut from it.

    Parameters
    ----------
    found
        The plan.

    Returns
    -------
    str
        Lines of up to 100 characters.
    """
    job, plan = found.work.job, found.plan
    lines = [
        f"{job.name or 'Job without a name'}   {job.reference} revision {job.revision}".rstrip(),
        f"Make again: {', '.join(_names(found, found.spoiled))}.",
        f"Cut and good: {', '.join(_names(found, found.in_hand)) or 'nothing yet'}.",
        _buy(found),
    ]
    page = [line for text in lines for line in textwrap.wrap(text, WIDTH, subsequent_indent="  ")]
    if plan.sheets or found.first:
        page += ["", "SHEETS", *(line for number, cuts in found.first for line in _first(number, cuts))]
        page += [line for sheet in plan.sheets for line in _sheet(found, sheet)]
    if plan.lengths:
        page += ["", "LENGTHS", *(line for length in plan.lengths for line in _length(found, length))]
        page.append("  The others as they were to be cut.")
    return "\n".join(page)


def _to_buy(found: Recut) -> Counter[tuple[str, str, tuple[str, ...]]]:
    """Item, stock and the jobs that it is bought for, with their number."""
    return Counter(
        (p.item, p.stock, tuple(dict.fromkeys(job_of(id) for id in pieces_on(p)))) for p in found.bought
    )


def _buy(found: Recut) -> str:
    bought, plan = _to_buy(found), found.plan
    if not bought:
        return "Nothing must be bought: rests and stock in hand do."
    said = ", ".join(
        f"{count} x {stock}" + (f" for {' and '.join(jobs)}" if any(jobs) else "")
        for (_, stock, jobs), count in bought.items()
    )
    proof = (
        "no plan buys for less (proven)" if plan.proven else f"no plan buys for under {plan.bound / 100:,.2f}"
    )
    return f"Buy {said}, {plan.cost / 100:,.2f}: {proof}."


def _names(found: Recut, ids: tuple[str, ...] | list[str]) -> list[str]:
    """What pieces are called, and their ids; of several jobs with the reference before."""
    names = {p.id: p.name for p in found.work.pieces}
    said = [(job_of(id), names.get(id.partition("/")[0], own_name(id)), own_name(id)) for id in ids]
    return [f"{f'{job} ' if job else ''}{name} ({id})" for job, name, id in said]


def _first(number: int, cuts: tuple[int, ...]) -> list[str]:
    """Cuts that a sheet which is begun still needs before it is planned anew: trims, and what frees spoiled pieces."""
    said = f"cut{'s' if len(cuts) > 1 else ''} {', '.join(str(n) for n in cuts)}"
    return _wrapped(f"stock {number}, before anything else {said} as on its ticket")


def _sheet(found: Recut, plan: SheetPlan) -> Iterator[str]:
    names = ", ".join(_names(found, [p.piece for p in plan.placements]))
    whole = {f"stock {n}": sheet for n, sheet in enumerate(found.work.cutting.sheets, 1)}
    old = whole.get(plan.stock)
    if old is not None and old.placements == plan.placements:
        yield from _wrapped(f"{plan.stock}, as on its ticket: {names}")
        return
    if plan in found.parts:
        cuts = ", ".join(str(cut.number) for cut in plan.cuts)
        yield from _wrapped(
            f"{plan.stock}, {plan.width_mm} x {plan.length_mm}, on with its ticket, "
            f"cut{'s' if len(plan.cuts) > 1 else ''} {cuts}: {names}"
        )
        return
    yield from _wrapped(f"{_new(plan)}{plan.stock}, {plan.width_mm} x {plan.length_mm}: {names}")
    for turn in followed(plan):
        yield from _wrapped(_turn(turn, lettered=bool(found.parts)), indent=4)


def _turn(turn: Turn, *, lettered: bool) -> str:
    """One cut; small letters for its parts where parts on the bench carry the capital ones of their tickets."""
    tool = "saw across" if turn.cut.kind == "crosscut" else "knife along"
    held = turn.part
    return (
        f"{turn.cut.number} {tool} {_part_name(held, lettered)}, {held.width_mm} x {held.length_mm}, "
        f"stop at {turn.stop_mm}: {_said(turn.gets, lettered)}; {_said(turn.leaves, lettered)} remains"
    )


def _said(held: Held | None, lettered: bool) -> str:
    if held is None:
        return "nothing"
    size = f"{held.width_mm} x {held.length_mm}"
    return held.name if held.piece else f"{_part_name(held, lettered) or 'a rest'}, {size}"


def _part_name(held: Held, lettered: bool) -> str:
    return held.name.lower() if lettered and not held.piece else held.name


def _length(found: Recut, plan: LengthPlan) -> Iterator[str]:
    """One line for a length that is not cut as it was to be, with its number on the tickets."""
    names = _names(found, [p.piece for p in plan.pieces])
    said = ", ".join(f"{name} {_size(p)}" for name, p in zip(names, plan.pieces, strict=True))
    kind, _, number = plan.stock.rpartition("length ")
    if kind not in _KINDS or not number.isdigit():
        words = f"{_new(plan)}{plan.stock}"
    else:
        old = found.work.cutting.lengths[int(number) - 1]
        if plan in found.parts or (not kind and plan.pieces == old.pieces):
            return
        words = f"L{number}, {_KINDS[kind]} {plan.length_mm}"
        if kind:
            words += f" beside {', '.join(_names(found, [p.piece for p in old.pieces]))}"
    yield from _wrapped(f"{plan.item.partition('.')[2]}, {words}: {said}")


def _size(placed: LengthPlacement) -> str:
    """A length, and how its ends lean."""
    if not placed.lean_mm:
        return str(placed.length_mm)
    deg = f"{placed.end_deg:.1f}".removesuffix(".0")
    return f"{placed.length_mm} along its back, ends {deg}° from square"


_KINDS = {"": "a whole one of", "rest of ": "the rest of", "what is left of ": "what is left,"}


def _new(plan: SheetPlan | LengthPlan) -> str:
    return "NEW " if plan.price else ""


def _wrapped(text: str, indent: int = 2) -> list[str]:
    blank = " " * indent
    return textwrap.wrap(text, WIDTH, initial_indent=blank, subsequent_indent=f"{blank}  ")
