"""Cuts bars, profiles and timber from stock lengths at least cost.

Small jobs: every pattern that one stock length can give, then the cheapest choice of them, proven. Jobs with too many
different lengths: longest first into the cheapest stock, with the material itself as the bound. Where cost and bound do
not meet, the general search and the linear relaxation are asked for a cheaper plan and a better bound (`best`). Jobs in
between, such as a dozen bays no two alike, are first tried that way too: where it proves its plan there is no need to
choose among thousands of patterns.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate, combinations_with_replacement
from typing import TYPE_CHECKING

from pentice.cutting.cover import cover, is_small, rounded_bound
from pentice.cutting.patterns import Pattern
from pentice.cutting.plumb import cut_slanted, lost_mm
from pentice.cutting.shop import USUAL, Counted, Shop, counted, rest_mm, rest_worth, weighed
from pentice.cutting.values import LengthPiece, LengthPlacement, LengthPlan, LengthPlans, LengthStock, Offcut
from pentice.errors import NoSolution
from pentice.told import SearchedFor, tell

if TYPE_CHECKING:
    pass

PATTERNS_MOST = 8000
KINDS_MOST = 400
CHOICES_MOST = 20_000
_WORK = 40_000


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """Pieces alike: their length, what the stock must have for one of them, and their names."""

    length_mm: int
    claim_mm: int
    ids: tuple[str, ...]


def cut_lengths(
    pieces: Sequence[LengthPiece],
    stocks: Sequence[LengthStock],
    *,
    kerf_mm: int,
    shop: Shop = USUAL,
) -> LengthPlans:
    """The best way to cut pieces from stock lengths by the shop's aim, then the fewest stock pieces.

    Parameters
    ----------
    pieces
        What is wanted; each is cut from stock of its own item. Neighbours whose ends lean alike share a cut (`plumb`).
    stocks
        What can be bought, and offcuts in hand, each once.
    kerf_mm
        Width of a cut [mm].
    shop
        What to aim at, and which rests are kept.

    Returns
    -------
    LengthPlans
        Plans in the order of the items, cost and bound in the smallest unit of money.

    Raises
    ------
    NoSolution
        A piece is longer than any stock of its item.

    Examples
    --------
    >>> bar = LengthStock(id="6 m", item="bar", length_mm=6000, price=4000, count=None, offcut=False)
    >>> found = cut_lengths([LengthPiece(id=f"R{i}", item="bar", length_mm=2900) for i in range(4)], [bar], kerf_mm=4)
    >>> len(found.lengths), found.cost, found.proven
    (2, 8000, True)
    """
    items = dict.fromkeys(piece.item for piece in pieces)
    plans: list[LengthPlan] = []
    counts: list[Counted] = []
    for item in items:
        mine = [p for p in pieces if p.item == item]
        held = [s for s in stocks if s.item == item]
        _require_room(mine, held)
        if any(p.slant for p in mine) or any(s.slant for s in held):
            found, count = cut_slanted(mine, held, kerf_mm, shop, _cut_by_aim)
        else:
            found, count = _cut_by_aim(mine, held, kerf_mm, shop)
        plans += found
        counts.append(count)
    known = {(s.item, s.id): s for s in stocks}
    rests = [rest_mm(plan, known[plan.item, plan.stock], shop) for plan in plans]
    return LengthPlans(
        lengths=tuple(plans),
        cost=sum(c.cost for c in counts),
        bound=sum(c.bound for c in counts),
        proven=all(c.proven for c in counts),
        waste_mm=sum(p.length_mm - sum(q.length_mm for q in p.pieces) for p in plans) - sum(rests),
        offcuts=tuple(
            Offcut(item=p.item, width_mm=None, length_mm=n) for p, n in zip(plans, rests, strict=True) if n
        ),
        credit=sum(c.credit for c in counts),
    )


def _cut_by_aim(
    pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock], kerf: int, shop: Shop
) -> tuple[list[LengthPlan], Counted]:
    """Plans of one item at their real prices, and what they come to."""
    held, each = weighed(stocks, shop, len(pieces))
    known = {s.id: s for s in held}

    def kept(plan: LengthPlan) -> int:
        if shop.length_rests is None:
            return 0
        stock = known[plan.stock]
        return rest_worth(stock.price, shop.keep_share, rest_mm(plan, stock, shop), stock.length_mm)

    found, least = _cut_item(pieces, held, kerf, shop)
    at_most = sum(plan.price - kept(plan) for plan in found)
    if least < at_most:
        better, least = _searched(_kinds(pieces), held, kerf, (least, at_most), shop)
        found = better if better is not None else found
    prices = {s.id: 0 if s.offcut else s.price for s in stocks}
    costs = [(prices[p.stock], p.price, kept(p)) for p in found]
    return [replace(p, price=prices[p.stock]) for p in found], counted(costs, least, each)


def _require_room(pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock]) -> None:
    for piece in pieces:
        longest = max((s.room_mm - lost_mm(s, [piece.slant]) for s in stocks), default=0)
        if piece.length_mm + piece.reserve_mm > longest:
            ends = " beside its plumb ends" if piece.slant is not None else ""
            raise NoSolution(
                f"{piece.id} needs {piece.length_mm + piece.reserve_mm} mm of {piece.item}; the longest stock gives "
                f"{longest}{ends}. Add a longer stock to the catalogue, or make the piece shorter: a smaller or lower "
                "roof, one more post under a beam."
            )


def _kinds(pieces: Sequence[LengthPiece]) -> tuple[_Kind, ...]:
    """Pieces alike together, the longest first."""
    groups: dict[tuple[int, int], list[str]] = {}
    for piece in pieces:
        groups.setdefault((piece.length_mm, piece.length_mm + piece.reserve_mm), []).append(piece.id)
    order = sorted(groups.items(), reverse=True)
    return tuple(_Kind(length_mm=n, claim_mm=c, ids=tuple(ids)) for (n, c), ids in order)


def _cut_item(
    pieces: Sequence[LengthPiece], stocks: Sequence[LengthStock], kerf: int, shop: Shop
) -> tuple[list[LengthPlan], int]:
    """Plans at the numbers by which stock is chosen, and what no plan's numbers, less what it keeps, can be below."""
    kinds = _kinds(pieces)
    if len(kinds) > KINDS_MOST:
        return _by_hand(kinds, stocks, kerf, shop)
    patterns: list[Pattern] = []
    for s, stock in enumerate(stocks):
        room = stock.room_mm
        for filled in _fillings(kinds, room, kerf, full=shop.length_rests is None):
            left = room + kerf - sum(kinds[k].claim_mm + kerf for k in filled)
            patterns.append(
                Pattern(
                    stock=s,
                    kinds=filled,
                    price=stock.price - _worth(filled, kinds, stock, kerf, shop),
                    size=stock.length_mm,
                    cuts=len(filled) - (left == 0),
                )
            )
            if len(patterns) > PATTERNS_MOST:
                return _by_hand(kinds, stocks, kerf, shop)
    demand, limits = [len(k.ids) for k in kinds], [s.count for s in stocks]
    if shop.length_rests is None and not is_small(patterns, demand, limits):
        plans, bound = _proven_soon(kinds, stocks, kerf, shop)
        if plans:
            return plans, bound
    found = cover(patterns, demand, limits)
    if found is None:
        return _by_hand(kinds, stocks, kerf, shop)
    waiting = [list(kind.ids) for kind in kinds]
    plans = []
    for pattern in found.chosen:
        taken = [(k, waiting[k].pop(0)) for k in pattern.kinds if waiting[k]]
        plans.append(_plan(stocks[pattern.stock], [(id, kinds[k].length_mm) for k, id in taken], kerf))
    return [plan for plan in plans if plan.pieces], found.bound


def _proven_soon(
    kinds: Sequence[_Kind], stocks: Sequence[LengthStock], kerf: int, shop: Shop
) -> tuple[list[LengthPlan], int]:
    """A plan that is proven cheapest and of as few stock pieces as can be, without choosing patterns; else none."""
    plans, bound = _by_hand(kinds, stocks, kerf, shop)
    cost = sum(plan.price for plan in plans)
    if bound < cost:
        better, bound = _searched(
            kinds, stocks, kerf, (bound, cost), replace(shop, keep_share=Fraction(0), effort=1)
        )
        plans = better if better is not None else plans
    cost = sum(plan.price for plan in plans)
    if bound < cost or _fewer_may_do(kinds, stocks, kerf, cost, len(plans)):
        return [], bound
    return plans, bound


def _fewer_may_do(
    kinds: Sequence[_Kind], stocks: Sequence[LengthStock], kerf: int, cost: int, number: int
) -> bool:
    """Whether fewer stock pieces for no more money may hold all, by length and by number; True where it takes long."""
    short_first = list(accumulate(sorted(k.claim_mm + kerf for k in kinds for _ in k.ids)))
    need = sum((k.length_mm + kerf) * len(k.ids) for k in kinds)
    if math.comb(len(stocks) + number - 1, len(stocks)) > CHOICES_MOST:
        return True
    rooms = [s.room_mm + kerf for s in stocks]
    given = [(room, bisect_right(short_first, room), s.price) for room, s in zip(rooms, stocks, strict=True)]
    enough = (need, len(short_first))
    return any(
        sum(price for _, _, price in chosen) <= cost
        and all(sum(one[i] for one in chosen) >= enough[i] for i in range(2))
        for fewer in range(1, number)
        for chosen in combinations_with_replacement(given, fewer)
    )


def _worth(filled: tuple[int, ...], kinds: Sequence[_Kind], stock: LengthStock, kerf: int, shop: Shop) -> int:
    """What the rest of a filled length is worth."""
    if shop.length_rests is None:
        return 0
    left = stock.room_mm - sum(kinds[k].length_mm + kerf for k in filled)
    return rest_worth(stock.price, shop.keep_share, shop.kept_length_mm(left), stock.length_mm)


def _fillings(kinds: Sequence[_Kind], room: int, kerf: int, *, full: bool) -> Iterator[tuple[int, ...]]:
    """Every choice of pieces, longest kinds first; full: those to which no further piece can be added."""

    def fill(k: int, left: int, taken: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        if k == len(kinds):
            if taken and not (
                full
                and any(
                    kind.claim_mm <= left and taken.count(i) < len(kind.ids) for i, kind in enumerate(kinds)
                )
            ):
                yield taken
            return
        claim = kinds[k].claim_mm
        most = min(len(kinds[k].ids), max(0, (left + kerf) // (claim + kerf)))
        for n in range(most, -1, -1):
            yield from fill(k + 1, left - n * (claim + kerf), taken + (k,) * n)

    yield from fill(0, room, ())


def _plan(stock: LengthStock, pieces: Sequence[tuple[str, int]], kerf: int) -> LengthPlan:
    at, placed = stock.trim_mm, []
    for id, length in pieces:
        placed.append(LengthPlacement(piece=id, at_mm=at, length_mm=length))
        at += length + kerf
    return LengthPlan(
        stock=stock.id,
        item=stock.item,
        length_mm=stock.length_mm,
        kerf_mm=kerf,
        price=stock.price,
        pieces=tuple(placed),
    )


def _by_hand(
    kinds: Sequence[_Kind], stocks: Sequence[LengthStock], kerf: int, shop: Shop
) -> tuple[list[LengthPlan], int]:
    """Longest first; each stock is filled in turn by the one that wastes least money. The bound is the material: what
    is kept counts for no more than it cost."""
    waiting = [(id, k.length_mm, k.claim_mm) for k in kinds for id in k.ids]
    counts = [s.count for s in stocks]
    plans: list[LengthPlan] = []
    bound = _material_bound(kinds, stocks, whole=shop.length_rests is None)
    while waiting:
        best: tuple[float, int, list[tuple[str, int, int]]] | None = None
        for s, stock in enumerate(stocks):
            if counts[s] == 0:
                continue
            room, taken = stock.room_mm, []
            for piece in waiting:
                if piece[2] <= room:
                    taken.append(piece)
                    room -= piece[2] + kerf
            if not taken or taken[0] is not waiting[0]:
                continue
            worth = stock.price / sum(p[1] for p in taken)
            if best is None or worth < best[0]:
                best = (worth, s, taken)
        if best is None:
            raise NoSolution(f"{waiting[0][0]} fits no stock that is left; add stock or offcuts.")
        _, s, taken = best
        counts[s] = None if counts[s] is None else (counts[s] or 1) - 1
        plans.append(_plan(stocks[s], [(id, n) for id, n, _ in taken], kerf))
        gone = {id for id, _, _ in taken}
        waiting = [piece for piece in waiting if piece[0] not in gone]
    return plans, min(bound, sum(plan.price for plan in plans))


def _searched(
    kinds: Sequence[_Kind],
    stocks: Sequence[LengthStock],
    kerf: int,
    between: tuple[int, int],
    shop: Shop,
) -> tuple[list[LengthPlan] | None, int]:
    """A cheaper plan by the general search, or None, and the greater of the bounds. Its work is limited by rounds."""
    bound, cost = between
    from pentice.cutting.best_lengths import best_lengths
    from pentice.cutting.columns import Room
    from pentice.cutting.packing import Limits

    rooms = [Room(length=s.room_mm, cost=s.price, count=s.count, paid=s.length_mm) for s in stocks]
    number = sum(len(k.ids) for k in kinds)
    claims = [(k.claim_mm, len(k.ids)) for k in kinds]
    rests, item = shop.length_rests, stocks[0].item

    def look(found: int, least: int) -> None:
        tell(SearchedFor(item, cost=found, bound=least))

    limits = Limits(rounds=shop.effort * max(40, _WORK // number), progress=look)
    found = best_lengths(claims, rooms, kerf=kerf, limits=limits, keep=rests)
    if found is None:
        return None, bound
    if rests is None or all(k.claim_mm == k.length_mm for k in kinds):
        # With a reserve the search sees shorter rests than are really left: then its bound holds for none of them.
        bound = min(cost, max(bound, found.bound))
    if found.cost >= cost:
        return None, bound
    waiting = [list(k.ids) for k in kinds]
    plans = [
        _plan(
            stocks[packed.board],
            [(waiting[p.kind].pop(0), kinds[p.kind].length_mm) for p in packed.places],
            kerf,
        )
        for packed in found.boards
    ]
    return plans, bound


def _material_bound(kinds: Sequence[_Kind], stocks: Sequence[LengthStock], *, whole: bool) -> int:
    """What the bare length costs at the best price per mm, offcuts in hand taken off first; whole: in whole prices."""
    need = sum(k.length_mm * len(k.ids) for k in kinds)
    free = sum(s.length_mm * (s.count or 0) for s in stocks if s.price == 0)
    bought = [s for s in stocks if s.price > 0]
    if not bought or need <= free:
        return 0
    unit = min(s.price / s.length_mm for s in bought)
    return rounded_bound((need - free) * unit, [s.price for s in bought] if whole else [1])
