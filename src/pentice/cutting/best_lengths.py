"""The best plan of lengths for the time or the work allowed, with its bound.

A first plan stands at once, for very long stock also one in coarse steps; then the linear relaxation, the exact choice,
all patterns of a small job at a stroke, dives; what is left of the work goes to the search over trees. A rest worth
keeping counts in all but that search and the coarse steps.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np

from pentice.cutting.coarse_lengths import coarse
from pentice.cutting.columns import Relaxation, Room, too_large
from pentice.cutting.compiled import COMPILED
from pentice.cutting.diving import Chance, dived, rounded_off
from pentice.cutting.exact_choice import ExactChoice
from pentice.cutting.first_plan import Chosen, first_plan
from pentice.cutting.keep import Cheapest, Keep
from pentice.cutting.last_pieces import last_pieces
from pentice.cutting.packing import Board, Limits, Packed, Packing, Place, Rectangle, Search
from pentice.cutting.pricing import Whole
from pentice.cutting.stock_counts import Excluded, choices
from pentice.told import asked_to_stop

_DIVES = 3
_DIVES_MOST = 400
_ALL_PATTERNS = 4000
_ALL_WORK = 400_000
_FEW_PATTERNS = 1000
_TABLES_MOST = 300_000_000
"""Where the limit is of work: enough for 400 different lengths on bars of 6 m."""
_LAST = 60
_EXACT = (4000, 20)
"""The most patterns, and the most tries, of the exact choice."""
_EXACT_TIMED = (12_000, 200) if COMPILED else (4000, 2)
"""The same where the clock decides anyhow: plain Python takes some fifty times as long for a try."""


def best_lengths(
    lengths: Sequence[tuple[int, int]],
    rooms: Sequence[Room],
    *,
    kerf: int,
    limits: Limits,
    keep: Keep | None = None,
) -> Packing | None:
    """Lengths cut from lengths at least cost; boards of height 1, places along x.

    Parameters
    ----------
    lengths
        Length and count of each kind.
    rooms
        What they can be cut from: the usable length, trims taken off.
    kerf, limits
        As in `best.best_sheets`; a limit of rounds also limits the dives.
    keep
        What is left over and worth keeping: cost and bound are net of it; heights are 1.

    Returns
    -------
    Packing or None
        With a valid bound; None where the stock was too short or too few.

    Examples
    --------
    >>> best_lengths([(300, 3)], [Room(length=700, cost=5)], kerf=3, limits=Limits(rounds=10)).cost
    10
    """
    pieces = [Rectangle(width=n, height=1, count=c) for n, c in lengths]
    boards = [Board(width=r.length, height=1, cost=r.cost, count=r.count, paid_area=r.paid) for r in rooms]
    plan = _Best(lengths, rooms, kerf, keep)
    begun: Search | None = None
    if not plan.at_once():
        begun = Search.begun(pieces, boards, kerf, limits)
        if begun is None:
            return None
        plan.take(begun.packing(0))
    plan.told(limits)
    if plan.open and not limits.stopped:
        plan.in_steps(limits)
    if plan.open and not limits.stopped:
        plan.by_patterns(limits)
    if plan.open and not limits.stopped and begun is None:
        begun = Search.begun(pieces, boards, kerf, limits)
    if begun is not None and plan.open and not limits.stopped:
        held = Cheapest(begun, boards, keep) if keep is not None else None
        begun.advance(plan.bound, replace(limits, progress=None))
        plan.take(begun.packing(0))
        if held is not None:
            held.look()
            plan.take(held.plan)
        plan.told(limits)
    return replace(plan.packing, cost=plan.cost, bound=min(plan.bound, plan.cost))


class _Best:
    """The best plan so far, net of what is kept, and the bound."""

    def __init__(
        self,
        lengths: Sequence[tuple[int, int]],
        rooms: Sequence[Room],
        kerf: int,
        keep: Keep | None,
    ) -> None:
        self.lengths, self.rooms, self.kerf = lengths, rooms, kerf
        self.packing, self.cost = Packing(boards=(), cost=0, bound=0), 1 << 60
        self._wide = [n + kerf for n, _ in lengths]
        self._counts = [c for _, c in lengths]
        self._costs = [use_costs(room, kerf, keep) for room in rooms]
        self.keeps = keep is not None
        self._step = 1 if keep is not None else math.gcd(*(r.cost for r in rooms)) or 1
        self._numbers = [room.count for room in rooms]
        self.bound = self._rounded(by_length(self._wide, self._counts, self._costs, self._numbers))

    @property
    def open(self) -> bool:
        """Whether a cheaper plan may exist."""
        return self.cost > self.bound

    def _rounded(self, bound: Fraction) -> int:
        """Up to the next cost that can occur; the bound is exact, so nothing is taken off."""
        return max(0, math.ceil(bound / self._step) * self._step)

    def told(self, limits: Limits) -> None:
        """Cost and bound are told to who asked."""
        if limits.progress is not None:
            limits.progress(self.cost, self.bound)

    def at_once(self) -> bool:
        """A first plan; whether there is one."""
        plan = first_plan(self._wide, self._counts, self._costs, self._numbers)
        if plan is not None:
            self.take_chosen(plan)
        return plan is not None

    def take(self, packing: Packing) -> None:
        """A plan, where it is cheaper."""
        self.take_chosen(self._patterns(packing))

    def _patterns(self, packing: Packing) -> list[Chosen]:
        kinds = [[place.kind for place in packed.places] for packed in packing.boards]
        return [
            (packed.board, tuple(held.count(k) for k in range(len(self.lengths))))
            for packed, held in zip(packing.boards, kinds, strict=True)
        ]

    def take_chosen(self, chosen: Iterable[Chosen]) -> None:
        """The same told in patterns; what is too many of a kind is left out."""
        left = list(self._counts)
        boards = []
        for room, taken in chosen:
            given = [min(n, w) for n, w in zip(taken, left, strict=True)]
            left = [w - n for n, w in zip(given, left, strict=True)]
            if any(given):
                boards.append((room, given))
        cost = sum(int(self._costs[room][self._used(given)]) for room, given in boards)
        if cost < self.cost and not any(left):
            self.cost = cost
            self.packing = Packing(
                boards=tuple(self._packed(room, given) for room, given in boards), cost=cost, bound=0
            )

    def in_steps(self, limits: Limits) -> None:
        """For very long stock, a plan of what is rounded to coarse steps first; its bound is none of ours."""
        coarse_ = coarse(self._wide, self._counts, [len(c) - 1 for c in self._costs])
        if coarse_ is None or self.keeps:
            return
        rooms = [
            Room(length=length, cost=room.cost, count=room.count)
            for length, room in zip(coarse_.rooms, self.rooms, strict=True)
        ]
        plan = _Best(coarse_.lengths, rooms, 0, None)
        if plan.at_once():
            plan.bound = max(plan.bound, self.bound)
            if plan.open:
                plan.by_patterns(replace(limits, progress=None), dives=_DIVES)
            self.take_chosen(coarse_.exactly(plan._patterns(plan.packing)))
            self.told(limits)

    def by_patterns(self, limits: Limits, dives: int = _DIVES_MOST) -> None:
        """The relaxation, all patterns where they are few, and dives."""
        if too_large(self._wide, self._costs):
            return
        found = Relaxation(self._wide, self._counts, self._costs, self._numbers)
        if limits.rounds is not None and limits.stop is None:
            limits = replace(limits, stop=lambda: found.work > _TABLES_MOST or asked_to_stop())
        found.add(self._patterns(self.packing))
        found.improve(limits.stop)
        self.bound = max(self.bound, self._rounded(found.bound))
        self._rounded_off(found)
        self.told(limits)
        chance = Chance(limits.seed)
        if self.open and not limits.stopped:
            self._by_stock(found, limits)
        if self.open and not limits.stopped:
            self._exactly(found, limits)
        tried = self.open and not limits.stopped and self._at_a_stroke(found, limits, _FEW_PATTERNS)
        for n in range(_DIVES if limits.rounds else dives):
            if self.open and not limits.stopped:
                self._dive(found, limits, chance if n else None, high=n % 2 == 0)
            if n == 0 and not tried and self.open and not limits.stopped:
                found.aim(self._counts, self._numbers)
                found.improve(limits.stop)
                self._at_a_stroke(found, limits, min(_ALL_PATTERNS, _ALL_WORK // sum(self._counts)))

    def _exactly(self, found: Relaxation, limits: Limits) -> None:
        """A plan that wastes no more than the bound leaves; where there is none, the bound is higher."""
        most, tries = _EXACT_TIMED if limits.rounds is None else _EXACT
        exact = ExactChoice.of(found, self._to_beat(high=True), most, limits.seed)
        if exact is None:
            return
        chosen = exact.tried(tries, limits.stop)
        if chosen is not None:
            self.take_chosen(chosen)
        elif exact.ended:
            self.bound = max(self.bound, min(self.cost, self._rounded(Fraction(exact.below))))
        self.told(limits)

    def _by_stock(self, found: Relaxation, limits: Limits) -> None:
        """Whole numbers of each stock, the cheapest choice first: the first whose pieces fit is the best plan.

        Only where stocks differ in price and rests are worth nothing; a choice that neither fits nor is excluded ends
        the proof, not the search for a plan.
        """
        costs = [int(c.max()) for c in self._costs]
        if self.keeps or len(set(costs)) < 2:
            return
        need = sum(n * c for n, c in zip(self._wide, self._counts, strict=True))
        sizes = [len(c) - 1 for c in self._costs]
        tried = choices(need, sizes, costs, self._numbers, (self.bound, self.cost))
        if tried is None:
            return
        apart = Relaxation(
            self._wide, self._counts, self._costs, [len(self._wide) * max(self._counts)] * len(costs)
        )
        apart.add(found.patterns)
        known, proves = Excluded(), True
        for cost, numbers in tried:
            if limits.stopped or cost >= self.cost:
                break
            if not known.holds(numbers, cost):
                apart.aim(self._counts, numbers)
                apart.improve(limits.stop, enough=cost + 0.5)
                found.work += apart.work
                apart.work = 0
                if apart.bound <= cost and not self._fits(apart, numbers, cost, limits):
                    proves = False
                elif apart.done and apart.bound > cost:
                    known.learn(apart)
            if proves and self.cost > cost:
                self.bound = max(self.bound, self._rounded(Fraction(cost + 1)))
        if proves and not limits.stopped:
            self.bound = self.cost
        self.told(limits)

    def _fits(self, found: Relaxation, numbers: Sequence[int], cost: int, limits: Limits) -> bool:
        """Whether a plan from these numbers of stock is found by dives."""
        chance = Chance(limits.seed)
        for n in range(_DIVES):
            chosen = dived(
                found,
                self._counts,
                numbers,
                cost + 1,
                chance=chance if n else None,
                last_at=_LAST,
                stop=limits.stop,
            )
            if chosen is not None:
                self.take_chosen(chosen)
                return self.cost <= cost
        return False

    def _rounded_off(self, found: Relaxation) -> None:
        """What the relaxation, as far as it has come, uses whole or almost; the rest as in a first plan."""
        chosen, left, have = rounded_off(found, self._counts, self._numbers)
        rest = first_plan(self._wide, left, self._costs, have)
        if rest is not None:
            self.take_chosen([*chosen, *rest])

    def _dive(self, found: Relaxation, limits: Limits, chance: Chance | None, *, high: bool) -> None:
        """The first one goes to the end soon; where all stock costs the same, every other one aims at the bound."""
        below = self._to_beat(high=high)
        last_at = _LAST if chance is not None else _LAST // 2
        chosen = dived(
            found, self._counts, self._numbers, below, chance=chance, last_at=last_at, stop=limits.stop
        )
        if chosen is not None:
            self.take_chosen(chosen)
            self.told(limits)

    def _to_beat(self, *, high: bool) -> int:
        below = self.cost - self._step + 1
        if high and self._step == max(int(c.max()) for c in self._costs):
            return min(below, self.bound + 1)
        return below

    def _at_a_stroke(self, found: Relaxation, limits: Limits, most: int) -> bool:
        """All patterns that a cheaper plan can have, where they are no more than so many; whether that was so."""
        below = self._to_beat(high=True)
        last = last_pieces(found, below, most=most, effort=1.0, stop=limits.stop)
        if last is None:
            return False
        if last.chosen is not None:
            self.take_chosen(last.chosen)
        self.bound = max(self.bound, min(self.cost, self._rounded(Fraction(last.bound))))
        self.told(limits)
        return True

    def _used(self, given: Sequence[int]) -> int:
        return sum(n * wide for n, wide in zip(given, self._wide, strict=True))

    def _packed(self, room: int, given: Sequence[int]) -> Packed:
        """One piece after another."""
        at, places = 0, []
        for kind, n in enumerate(given):
            for _ in range(n):
                places.append(Place(kind=kind, x=at, y=0, width=self.lengths[kind][0], height=1))
                at += self._wide[kind]
        rest = self.rooms[room].length - at
        free = (Place(kind=-1, x=at, y=0, width=rest, height=1),) if rest > 0 else ()
        return Packed(board=room, places=tuple(places), free=free)


def use_costs(room: Room, kerf: int, keep: Keep | None) -> Whole:
    """What one length costs at every use, from nothing to all of it and a kerf: less the worth of the rest, rounded up.

    Parameters
    ----------
    room
        The length.
    kerf
        Width of a cut.
    keep
        The rule; None where what is left is worth nothing.

    Returns
    -------
    array
        Index: the pieces taken, each with a kerf.

    Examples
    --------
    >>> use_costs(Room(length=4, cost=8), 1, Keep(width=2, height=1, share=Fraction(1, 2))).tolist()
    [4, 5, 6, 8, 8, 8]
    """
    costs = np.full(room.length + kerf + 1, room.cost, dtype=np.int64)
    if keep is not None and room.length >= keep.width:
        rests = np.arange(room.length, keep.width - 1, -1, dtype=np.int64)
        share = keep.share * room.cost / (room.paid or room.length)
        costs[: len(rests)] -= rests * share.numerator // share.denominator
    return costs


def by_length(
    lengths: Sequence[int], counts: Sequence[int], costs: Sequence[Whole], numbers: Sequence[int | None]
) -> Fraction:
    """A bound at once: every unit of length is worth the least that stock without limit costs for it.

    Parameters
    ----------
    lengths, counts
        Of each kind, the kerf added.
    costs, numbers
        Of each room, at every use, and how many there are.

    Returns
    -------
    Fraction
        In the unit of the costs; 0 where all stock is limited.

    Examples
    --------
    >>> by_length([3], [5], [np.array([8, 8, 8, 8, 8])], [None])
    Fraction(30, 1)
    """
    uses = [np.arange(1, len(c)) for c in costs]
    units = []
    for cost, use, number in zip(costs, uses, numbers, strict=True):
        if number is None:
            shares = cost[1:] / use
            # Floating point only picks out those that may be the least; they are compared exactly.
            near = np.flatnonzero(shares <= shares.min() * (1 + 1e-12)) + 1
            units.append(min(Fraction(int(cost[u]), int(u)) for u in near))
    if not units:
        return Fraction(0)
    unit = min(units)
    total = unit * sum(n * length for n, length in zip(counts, lengths, strict=True))
    for cost, number in zip(costs, numbers, strict=True):
        if number is not None:
            total -= number * max(Fraction(0), unit * (len(cost) - 1) - int(cost.min()))
    return total
