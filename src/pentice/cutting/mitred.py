"""Cuts lengths with sloping ends from bars at least cost, neighbours with parallel ends sharing a cut.

Every piece claims its length at half depth and half of what each of its cuts takes: no order of pieces can do with
less, so the bound of these claims (`best_lengths`) holds for every real plan. Each bar of their plan is then laid out
really: the order and the way to lie that takes least, tried out in full for a few pieces, else one after
another. What does not fit is laid on other bars.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pentice.cutting.best_lengths import best_lengths
from pentice.cutting.columns import Room
from pentice.cutting.mitres import (
    Lying,
    MitredPiece,
    MitredPlacement,
    after,
    ends_at,
    first_at,
    kerf_along,
    lean_mm,
    require_mitres,
    ways_to_lie,
)
from pentice.cutting.packing import Limits
from pentice.cutting.values import LengthStock
from pentice.errors import NoSolution

_IN_FULL = 6
_ROUNDS = 200
_NONE = 1e-6

Laid = tuple[tuple[Lying, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MitredPlan:
    """One bar and what is cut from it, from its left end on."""

    stock: str
    item: str
    length_mm: int
    kerf_mm: int
    price: int
    pieces: tuple[MitredPlacement, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MitredPlans:
    """All bars, what they cost, what they must cost at least, whether the two meet, and how many cuts are shared."""

    lengths: tuple[MitredPlan, ...]
    cost: int
    bound: int
    proven: bool
    shared_cuts: int


def cut_mitred(
    pieces: Sequence[MitredPiece], stocks: Sequence[LengthStock], *, kerf_mm: int, depth_mm: int
) -> MitredPlans:
    """A plan of low cost for lengths with sloping ends.

    Parameters
    ----------
    pieces
        What is wanted, all of one item.
    stocks
        What can be bought, and offcuts in hand; their ends are square.
    kerf_mm
        Width of a cut, square to the cut [mm].
    depth_mm
        Depth of the bar in the plane of the angles [mm].

    Returns
    -------
    MitredPlans
        With a valid bound; money in its smallest unit.

    Raises
    ------
    InputError
        Angles or sizes that cannot be cut; one sentence for each.
    NoSolution
        A piece is longer than any stock, or the stock is too little.

    Examples
    --------
    >>> plumb = [MitredPiece(id=f"R{i}", item="r", length_mm=990, left_deg=45.0, right_deg=45.0) for i in (1, 2)]
    >>> bar = LengthStock(id="2.1 m", item="r", length_mm=2100, price=500, count=None, offcut=False)
    >>> found = cut_mitred(plumb, [bar], kerf_mm=4, depth_mm=100)
    >>> len(found.lengths), found.shared_cuts, found.proven
    (1, 1, True)
    """
    require_mitres(pieces, kerf_mm, depth_mm)
    bars = _Bars(pieces, stocks, kerf_mm, depth_mm)
    bars.require_room()
    best: list[tuple[int, Laid]] | None = None
    bound = 0
    sets, bound = bars.claimed()
    for plan in (bars.kept(sets), bars.filled([], range(len(pieces)))):
        if plan is not None and (best is None or bars.cost(plan) < bars.cost(best)):
            best = plan
    if best is None:
        raise NoSolution("The pieces do not fit on the stock that there is; add stock or offcuts.")
    plans = tuple(bars.plan(s, laid) for s, laid in best)
    cost = bars.cost(best)
    bound = min(bound, cost)
    shared = sum(p.shares_cut for plan in plans for p in plan.pieces)
    return MitredPlans(lengths=plans, cost=cost, bound=bound, proven=cost == bound, shared_cuts=shared)


class _Bars:
    """The pieces in every way they may lie, the stock, and what fits on it."""

    def __init__(
        self, pieces: Sequence[MitredPiece], stocks: Sequence[LengthStock], kerf: int, depth: int
    ) -> None:
        self.pieces, self.stocks, self.kerf, self.depth = pieces, stocks, kerf, depth
        self.ways = [ways_to_lie(piece, i, depth) for i, piece in enumerate(pieces)]
        self._misfits: set[tuple[tuple[MitredPiece, ...], int]] = set()

    def require_room(self) -> None:
        for i, piece in enumerate(self.pieces):
            if not any(self.laid((i,), s) for s in range(len(self.stocks))):
                longest = max((s.length_mm - 2 * s.trim_mm for s in self.stocks), default=0)
                raise NoSolution(
                    f"{piece.id} is {piece.length_mm} mm on its long side and does not fit with its sloping ends; "
                    f"the longest stock gives {longest} mm. Add a longer stock."
                )

    def cost(self, plan: Iterable[tuple[int, Laid]]) -> int:
        return sum(self.stocks[s].price for s, _ in plan)

    def claimed(self) -> tuple[list[tuple[int, tuple[int, ...]]], int]:
        """Stock and pieces of each bar where every piece claims the least it can, and the bound of that."""
        claims: dict[tuple[int, MitredPiece], list[int]] = {}
        for i, piece in enumerate(self.pieces):
            left, right = (lean_mm(deg, self.depth) for deg in (piece.left_deg, piece.right_deg))
            middle = piece.length_mm - abs(right - left) / 2.0
            cuts = [kerf_along(lean, self.kerf, self.depth) / 2.0 for lean in (left, right)]
            claims.setdefault((math.floor(middle + sum(cuts)), _unnamed(piece)), []).append(i)
        half = [
            kerf_along(lean_mm(deg, self.depth), self.kerf, self.depth) / 2.0
            for piece in self.pieces
            for deg in (piece.left_deg, piece.right_deg)
        ]
        # The first and the last cut take half of their kerf from no piece.
        more = math.ceil(2.0 * max(half, default=0.0))
        found = best_lengths(
            [(claim, len(which)) for (claim, _), which in claims.items()],
            [
                Room(length=s.length_mm - 2 * s.trim_mm + more, cost=s.price, count=s.count)
                for s in self.stocks
            ],
            kerf=0,
            limits=Limits(rounds=_ROUNDS),
        )
        if found is None:
            raise NoSolution("The pieces do not fit on the stock that there is; add stock or offcuts.")
        waiting = [list(which) for which in claims.values()]
        sets = [(b.board, tuple(waiting[p.kind].pop(0) for p in b.places)) for b in found.boards]
        return sets, found.bound

    def kept(self, sets: Sequence[tuple[int, tuple[int, ...]]]) -> list[tuple[int, Laid]] | None:
        """The bars that can really be cut so; what is too much on the others is laid anew."""
        plan: list[tuple[int, Laid]] = []
        over: list[int] = []
        for s, which in sets:
            held = sorted(which, key=lambda i: -self.pieces[i].length_mm)
            while held:
                laid = self.laid(tuple(held), s)
                if laid is not None:
                    plan.append((s, laid))
                    break
                over.append(held.pop())
        return self.filled(plan, over)

    def filled(self, plan: Sequence[tuple[int, Laid]], which: Iterable[int]) -> list[tuple[int, Laid]] | None:
        """Longest first, each on the first bar that takes it, else on the new one that costs least for its length."""
        bars = list(plan)
        for i in sorted(which, key=lambda i: -self.pieces[i].length_mm):
            for b, (s, laid) in enumerate(bars):
                more = self.laid((*(lying.piece for lying, _ in laid), i), s)
                if more is not None:
                    bars[b] = (s, more)
                    break
            else:
                new = [
                    (stock.price / stock.length_mm, s, laid)
                    for s, stock in enumerate(self.stocks)
                    if (stock.count is None or sum(b[0] == s for b in bars) < stock.count)
                    for laid in [self.laid((i,), s)]
                    if laid is not None
                ]
                if not new:
                    return None
                _, s, alone = min(new, key=lambda one: one[:2])
                bars.append((s, alone))
        return [self._cheaper(bars, b) for b in range(len(bars))]

    def _cheaper(self, bars: Sequence[tuple[int, Laid]], b: int) -> tuple[int, Laid]:
        """A bar's pieces on the cheapest stock without limit that holds them."""
        s, laid = bars[b]
        which = tuple(lying.piece for lying, _ in laid)
        for other in sorted(range(len(self.stocks)), key=lambda o: self.stocks[o].price):
            stock = self.stocks[other]
            if stock.price >= self.stocks[s].price:
                break
            less = self.laid(which, other) if stock.count is None else None
            if less is not None:
                return other, less
        return s, laid

    def laid(self, which: tuple[int, ...], s: int) -> Laid | None:
        """The pieces on one stock in the order and the way that takes least; None where they do not fit."""
        stock = self.stocks[s]
        if sum(self.pieces[i].length_mm for i in which) > 3 * stock.length_mm:
            return None
        key = (tuple(sorted((_unnamed(self.pieces[i]) for i in which), key=repr)), s)
        if key in self._misfits:
            return None
        laid = self._in_full(which, stock) if len(which) <= _IN_FULL else self._one_by_one(which, stock)
        if laid is None or ends_at(*laid[-1]) > stock.length_mm - stock.trim_mm + _NONE:
            self._misfits.add(key)
            return None
        return laid

    def _in_full(self, which: Sequence[int], stock: LengthStock) -> Laid | None:
        """Every set of pieces with every one of them last: where that ends at the earliest."""
        best: dict[tuple[int, Lying], Laid] = {}
        for j, i in enumerate(which):
            for lying in self.ways[i]:
                best[(1 << j, lying)] = ((lying, first_at(lying, stock.trim_mm)),)
        for bits in range(1, 1 << len(which)):
            ends = [(lying, laid) for (b, lying), laid in best.items() if b == bits]
            for lying, laid in ends:
                for j, i in enumerate(which):
                    if bits >> j & 1:
                        continue
                    for following in self.ways[i]:
                        at, _ = after(lying, laid[-1][1], following, self.kerf, self.depth)
                        key = (bits | 1 << j, following)
                        if key not in best or at < best[key][-1][1]:
                            best[key] = (*laid, (following, at))
        whole = [laid for (b, _), laid in best.items() if b == (1 << len(which)) - 1]
        return min(whole, key=lambda laid: ends_at(*laid[-1]), default=None)

    def _one_by_one(self, which: Sequence[int], stock: LengthStock) -> Laid | None:
        """Next to each piece the one that loses least there."""
        waiting = list(which)
        laid: list[tuple[Lying, float]] = []
        while waiting:
            lost: list[tuple[float, int, Lying, float]] = []
            for n, i in enumerate(waiting):
                for w in self.ways[i]:
                    if laid:
                        at, _ = after(*laid[-1], w, self.kerf, self.depth)
                        loses = at - ends_at(*laid[-1]) + min(0.0, w.left_mm)
                    else:
                        at = first_at(w, stock.trim_mm)
                        loses = abs(w.left_mm)
                    lost.append((loses, n, w, at))
            _, n, lying, at = min(lost, key=lambda one: one[:2])
            laid.append((lying, at))
            waiting.pop(n)
        return tuple(laid) or None

    def plan(self, s: int, laid: Laid) -> MitredPlan:
        """A bar as it is cut."""
        stock = self.stocks[s]
        placed = []
        for n, (lying, at) in enumerate(laid):
            piece = self.pieces[lying.piece]
            left, right = (
                math.degrees(math.atan(lean / self.depth)) for lean in (lying.left_mm, lying.right_mm)
            )
            shares = n > 0 and after(*laid[n - 1], lying, self.kerf, self.depth)[1]
            placed.append(
                MitredPlacement(
                    piece=piece.id,
                    foot_mm=at,
                    head_mm=at + lying.left_mm,
                    length_mm=piece.length_mm,
                    left_deg=left,
                    right_deg=right,
                    turned=lying.turned,
                    over=lying.over,
                    shares_cut=shares,
                )
            )
        return MitredPlan(
            stock=stock.id,
            item=stock.item,
            length_mm=stock.length_mm,
            kerf_mm=self.kerf,
            price=stock.price,
            pieces=tuple(placed),
        )


def _unnamed(piece: MitredPiece) -> MitredPiece:
    return MitredPiece(
        id="",
        item=piece.item,
        length_mm=piece.length_mm,
        left_deg=piece.left_deg,
        right_deg=piece.right_deg,
        may_turn=piece.may_turn,
    )
