"""Pieces of one item and one kerf after damage, and how they are planned: the fewest purchases, then the fewest tickets
that change.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import permutations
from typing import Generic, TypeVar

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
from pentice.errors import NoSolution

Piece = TypeVar("Piece", SheetPiece, LengthPiece)
Plan = TypeVar("Plan", SheetPlan, LengthPlan)
Stock = TypeVar("Stock", SheetStock, LengthStock)
Plans = TypeVar("Plans", SheetPlans, LengthPlans)
Key = tuple[str, int]
"""Item and kerf [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held(Generic[Piece, Plan, Stock]):
    """Stock in hand that holds pieces: as it was to be cut, its pieces, the same as stock, and what that will leave."""

    goes_on: Plan
    pieces: tuple[Piece, ...]
    stock: Stock
    rests: tuple[Stock, ...]


@dataclass(slots=True, kw_only=True)
class Lot(Generic[Piece, Plan, Stock]):
    """Pieces of one item and one kerf: those to be made again, stock that holds others, and rests that hold none."""

    again: list[Piece] = field(default_factory=list)
    held: list[Held[Piece, Plan, Stock]] = field(default_factory=list)
    left: list[Stock] = field(default_factory=list)

    def asked(self, anew: Collection[int], offered: Sequence[Stock]) -> tuple[list[Piece], list[Stock]]:
        """What is cut anew, and from what, where the held stock of some places is and the rest goes on as it was.

        Parameters
        ----------
        anew
            Places in ``held``, from 0.
        offered
            What can be bought, and offcuts on the rack.

        Returns
        -------
        tuple
            Pieces and stock.
        """
        pieces, stocks = list(self.again), list(offered)
        rests = list(self.left)
        for k, held in enumerate(self.held):
            if k in anew:
                pieces.extend(held.pieces)
                stocks.append(held.stock)
            else:
                rests.extend(held.rests)
        return pieces, stocks + rests


def give_spoiled(
    lots: Mapping[Key, Lot[Piece, Plan, Stock]],
    lot_of: Mapping[str, Key],
    spoiled: Collection[str],
    wanted: Mapping[str, Piece],
) -> None:
    """Gives each lot its spoiled pieces, in the order in which pieces are wanted.

    Parameters
    ----------
    lots
        The lots of a plan.
    lot_of
        Which of them each piece is of, by its id.
    spoiled
        Ids of pieces.
    wanted
        Every piece of the plan by its id.
    """
    for id, piece in wanted.items():
        if id in spoiled:
            lots[lot_of[id]].again.append(piece)


def lot_by_lot(
    lots: Mapping[Key, Lot[Piece, Plan, Stock]],
    more: Sequence[Stock],
    *,
    cut: Callable[[Sequence[Piece], Sequence[Stock], int], Plans],
    joined: Callable[[Sequence[Plan], Plans], Plans],
    used: Callable[[Plans], set[str]],
    product: Callable[[str], str],
) -> list[Plans]:
    """Every lot at least cost. Where two take one offcut from the rack, lots of a product are planned one after
    another, in the order that buys least.

    Parameters
    ----------
    lots
        The lots of a plan.
    more
        What can be bought, and offcuts on the rack.
    cut
        Cuts pieces of one item from stock with a kerf [mm].
    joined
        Plans with stock before them that goes on as it was to be cut.
    used
        Names of the stock that plans use.
    product
        Of an item: offcuts of one product may serve any of its items.

    Returns
    -------
    list
        Lot by lot; each bound is that of the lot with all offcuts.

    Raises
    ------
    NoSolution
        A piece fits nothing that is left or can be bought.
    """
    rack = {s.id for s in more if s.offcut}

    def planned(key: Key, anew: Collection[int], gone: Collection[str]) -> Plans:
        item, kerf_mm = key
        offered = [s for s in more if s.item == item and not (s.offcut and s.id in gone)]
        found = cut(*lots[key].asked(anew, offered), kerf_mm)
        return joined([h.goes_on for k, h in enumerate(lots[key].held) if k not in anew], found)

    def best(key: Key, gone: Collection[str] = ()) -> Plans:
        places = range(len(lots[key].held)) if lots[key].again else ()
        return _cheapest(lambda anew: planned(key, anew, gone), places)

    def in_turn(order: Sequence[Key]) -> dict[Key, Plans] | None:
        gone: set[str] = set()
        made: dict[Key, Plans] = {}
        for key in order:
            try:
                made[key] = best(key, gone)
            except NoSolution:  # another order may do
                return None
            gone |= used(made[key]) & rack
        return made

    found = {key: best(key) for key in lots}
    for name in dict.fromkeys(product(item) for item, _ in lots):
        asked = [key for key in lots if product(key[0]) == name and lots[key].again]
        names = [id for key in asked for id in used(found[key]) & rack]
        if len(names) == len(set(names)):
            continue
        ways = [made for made in map(in_turn, permutations(asked)) if made is not None]
        if not ways:
            raise NoSolution(
                f"{', '.join(sorted(set(names)))} on the rack would have to be used twice: nothing else holds the "
                "pieces that are spoiled. Allow more stock in the jobs."
            )
        made = min(ways, key=lambda made: sum(plans.cost for plans in made.values()))
        found |= {key: _known_bound(plans, found[key]) for key, plans in made.items()}
    return list(found.values())


def _cheapest(planned: Callable[[Collection[int]], Plans], held: Sequence[int]) -> Plans:
    """The plan that buys least and changes few tickets: none, else one alone where that does, else all of them.

    planned: cuts the held stock of these places anew, the others as they were to be.
    """
    kept = _or_none(planned, ())
    if kept is not None and (kept.cost == 0 or not held):
        return kept
    anew = planned(held)
    if kept is not None and kept.cost <= anew.cost:
        return _known_bound(kept, anew)
    for place in held if len(held) > 1 else ():
        one = _or_none(planned, (place,))
        if one is not None and one.cost <= anew.cost:
            return _known_bound(one, anew)
    return anew


def _or_none(planned: Callable[[Collection[int]], Plans], anew: Collection[int]) -> Plans | None:
    try:
        return planned(anew)
    except NoSolution:  # more of the stock may do
        return None


def _known_bound(found: Plans, anew: Plans) -> Plans:
    """Only a plan in which everything may be cut anew bounds them all."""
    bound = min(anew.bound, found.cost)
    return replace(found, bound=bound, proven=bound == found.cost)
