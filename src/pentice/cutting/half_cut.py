"""What is there of a stock sheet or length that is cut in part: free pieces, parts that still hold some, and rests.

The cuts of a ticket are made in the order of their numbers, those of a length from its left end on. Two kinds of cuts
are still made as the ticket has them before anything is planned anew: the trims of a sheet that is begun, and the cuts
that take a spoiled piece out of the part that holds it, so that no part has a spoiled place in it.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from pentice.cutting.followed import Turn, followed
from pentice.cutting.rests import rests_left
from pentice.cutting.saw_order import Part, parts_of, room_of
from pentice.cutting.values import LengthPlan, LengthStock, Placement, SheetPlan, SheetStock


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfCut:
    """What is there of a stock sheet once some of its cuts are made.

    Attributes
    ----------
    first
        Numbers of the cuts that are still made as its ticket has them, before anything else.
    free
        Ids of the pieces that are cut, good and spoiled ones.
    parts
        Parts that hold pieces which are not free yet, each with the cuts that its ticket still has for it, numbered as
        there; positions in the part [mm], no price.
    stock
        The same parts as stock in hand that knows where its first rib stands.
    rests
        What holds no piece and is kept, as stock in hand.
    """

    first: tuple[int, ...]
    free: tuple[str, ...]
    parts: tuple[SheetPlan, ...]
    stock: tuple[SheetStock, ...]
    rests: tuple[SheetStock, ...]


def half_cut(
    number: int,
    plan: SheetPlan,
    stock: SheetStock,
    *,
    made: int,
    spoiled: Collection[str],
    least_mm: tuple[int, int],
) -> HalfCut:
    """What is there of a sheet once the first cuts of its ticket are made.

    Parameters
    ----------
    number
        Of the stock sheet on the tickets, from 1.
    plan, stock
        The sheet as it was to be cut, and what it is cut from.
    made
        How many cuts are made, from the first on: 1 to all of them; 0 for a sheet that is used without any [-].
    spoiled
        Ids of pieces that are spoiled; those that are not free yet are cut out first.
    least_mm
        Least width and length of a rest that is kept [mm].

    Returns
    -------
    HalfCut
        The kerf of every cut made is taken off.
    """
    turns = followed(plan)
    done = _done(plan, stock, turns, made, spoiled)
    pieces = {_box(p): p for p in plan.placements}
    boxes = parts_of(room_of(stock), [plan.cuts[i] for i in sorted(done)], plan.kerf_mm)
    holding = [b for b in boxes if b not in pieces and any(_inside(box, b) for box in pieces)]
    holding.sort(key=lambda box: min(i for i, t in enumerate(turns) if t.part.box == box))
    parts = [_part(number, plan, turns, box) for box in holding]
    bare = [b for b in boxes if b not in pieces and b not in holding and _kept(b, least_mm)]
    return HalfCut(
        first=tuple(plan.cuts[i].number for i in sorted(done) if i >= made),
        free=tuple(pieces[b].piece for b in boxes if b in pieces),
        parts=tuple(parts),
        stock=tuple(in_hand(stock, part.stock, box) for part, box in zip(parts, holding, strict=True)),
        rests=tuple(in_hand(stock, f"rest {k} of stock {number}", b) for k, b in enumerate(bare, 1)),
    )


def in_hand(stock: SheetStock, id: str, part: Part) -> SheetStock:
    """A part of a sheet as stock in hand: nothing to pay, not trimmed, its first rib where it stands.

    Parameters
    ----------
    stock
        What the part was cut from.
    id
        What the part is called.
    part
        Left, head, right and foot on that stock [mm].

    Returns
    -------
    SheetStock
        There is one of it.

    Examples
    --------
    >>> sheet = SheetStock(id="s", item="sheet", width_mm=1200, length_mm=3000, price=900, count=None, offcut=False,
    ...                    rib_pitch_mm=20.0, first_rib_mm=10.0)
    >>> in_hand(sheet, "rest 1 of stock 2", (603, 0, 1200, 3000)).first_rib_mm
    7.0
    """
    first = stock.first_rib_mm
    steps = 0 if math.isnan(first) else max(0, math.ceil((part[0] - first) / stock.rib_pitch_mm))
    return replace(
        stock,
        id=id,
        width_mm=part[2] - part[0],
        length_mm=part[3] - part[1],
        price=0,
        worth=0,
        count=1,
        offcut=True,
        first_rib_mm=first + steps * stock.rib_pitch_mm - part[0],
    )


def rests_of_plan(
    of: str, plan: SheetPlan, stock: SheetStock, least_mm: tuple[int, int]
) -> Iterator[SheetStock]:
    """What the cuts of a sheet, or of a part of one, will leave that is kept, as stock in hand.

    Parameters
    ----------
    of
        What the sheet or part is called.
    plan, stock
        How it is cut, and what it is cut from.
    least_mm
        Least width and length of a rest that is kept [mm].

    Yields
    ------
    SheetStock
        "rest 1 of stock 2", and so on.
    """
    for k, part in enumerate(rests_left(plan, stock, least_mm), 1):
        yield in_hand(stock, f"rest {k} of {of}", part)


def cut_from_left(
    number: int, plan: LengthPlan, stock: LengthStock, made: int
) -> tuple[LengthPlan, LengthStock] | None:
    """What is left of a length once its first pieces are cut from it, where some are still to be cut.

    Parameters
    ----------
    number
        Of the length in the plan, from 1.
    plan, stock
        The length as it was to be cut, and what it is cut from.
    made
        How many pieces are cut, from the left on, 1 or more [-].

    Returns
    -------
    tuple or None
        The pieces still to be cut from it as they were to be, and the same as stock in hand: what lies beyond the last
        cut, its kerf and the end trim taken off; its left end leans as that cut does. None where every piece is cut.

    Examples
    --------
    >>> from pentice.cutting.values import LengthPlacement
    >>> bar = LengthStock(id="6 m", item="bar", length_mm=6000, price=4000, count=None, offcut=False)
    >>> two = tuple(LengthPlacement(piece=id, at_mm=at, length_mm=2900) for id, at in (("R1", 0), ("R2", 2904)))
    >>> plan = LengthPlan(stock="6 m", item="bar", length_mm=6000, kerf_mm=4, price=4000, pieces=two)
    >>> part, left = cut_from_left(3, plan, bar, 1)
    >>> left.id, left.length_mm, [(p.piece, p.at_mm) for p in part.pieces]
    ('what is left of length 3', 3096, [('R2', 0)])
    """
    order = sorted(plan.pieces, key=lambda p: p.at_mm)
    if made >= len(order):
        return None
    last = order[made - 1]
    start = last.at_mm + last.length_mm + last.kerf_mm(plan.kerf_mm)
    end = plan.length_mm - stock.trim_mm
    id = f"what is left of length {number}"
    held = replace(
        stock, id=id, length_mm=end - start, price=0, worth=0, count=1, offcut=True, slant=last.slant
    )
    pieces = tuple(replace(p, at_mm=p.at_mm - start) for p in order[made:])
    return replace(plan, stock=id, length_mm=end - start, price=0, pieces=pieces), held


def _done(
    plan: SheetPlan, stock: SheetStock, turns: Sequence[Turn], made: int, spoiled: Collection[str]
) -> set[int]:
    """Places of the cuts that are made when the rest is planned: so far, trims, and what frees spoiled pieces."""
    trims = 4 if stock.edge_trim_mm and plan.cuts else 0
    bad = [_box(p) for p in plan.placements if p.piece in spoiled]
    freeing = {i for i, turn in enumerate(turns) if any(_inside(box, turn.part.box) for box in bad)}
    return {*range(max(made, trims)), *freeing}


def _part(number: int, plan: SheetPlan, turns: Sequence[Turn], box: Part) -> SheetPlan:
    """A part with what its ticket still has for it."""
    name = next(turn.part.name for turn in turns if turn.part.box == box)
    left, head, right, foot = box
    return replace(
        plan,
        stock=f"{name} of stock {number}",
        width_mm=right - left,
        length_mm=foot - head,
        price=0,
        placements=tuple(
            replace(p, x_mm=p.x_mm - left, y_mm=p.y_mm - head)
            for p in plan.placements
            if _inside(_box(p), box)
        ),
        cuts=tuple(
            replace(
                turn.cut,
                at_mm=turn.cut.at_mm - (left if turn.cut.kind == "rip" else head),
                from_mm=turn.cut.from_mm - (head if turn.cut.kind == "rip" else left),
                to_mm=turn.cut.to_mm - (head if turn.cut.kind == "rip" else left),
            )
            for turn in turns
            if _inside(turn.part.box, box)
        ),
    )


def _box(p: Placement) -> Part:
    return (p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm)


def _inside(inner: Part, outer: Part) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def _kept(box: Part, least_mm: tuple[int, int]) -> bool:
    return box[2] - box[0] >= max(least_mm[0], 1) and box[3] - box[1] >= max(least_mm[1], 1)
