"""Fewer cuts for the same money: the pieces of a sheet laid anew, and pieces exchanged between two sheets.

Nothing is bought that was not, and no less is kept: a plan is only changed where it takes fewer cuts, keeps every rule
of the trade, and leaves rests that are worth and measure together no less than before. A cut saved is no gain where the
stop must be set and the tool changed once more for it, so these are counted as well.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

from pentice.cutting.followed import followed
from pentice.cutting.free_cuts import placed
from pentice.cutting.general import Terms, rectangles_of
from pentice.cutting.rests import cut_otherwise, rest_of, rests_left
from pentice.cutting.saw_order import room_of
from pentice.cutting.strips import SheetKind
from pentice.cutting.values import SheetPlan, SheetStock
from pentice.told import asked_to_stop

if TYPE_CHECKING:
    from pentice.cutting.arranged import Work

_WORK = 30_000
"""Pairs of parts that are looked at for all sheets together, where the usual work is done."""
_TRIED, _LAID = 6, 150
"""Ways to lay a sheet that are tried at real size; what one of them, or a look at two sheets, counts for in pairs."""

_SHEETS_MOST = 100
"""Sheets of which every two are tried; more than the work is enough for."""


class _Count(NamedTuple):
    """What counts of sheets: cuts, changes of stop and tool, worth of rests [money], kept area [mm2]."""

    cuts: int
    changes: int
    worth: int
    kept: int

    @property
    def rank(self) -> tuple[int, int, int]:
        """Less is better: cuts and changes together, cuts, what is not kept."""
        return (self.cuts + self.changes, self.cuts, -self.kept)

    def better_than(self, other: _Count) -> bool:
        """Less to do, no more cuts, and nothing lost for it."""
        nothing_lost = self.worth >= other.worth and self.kept >= other.kept and self.cuts <= other.cuts
        return nothing_lost and self.rank < other.rank


def with_fewer_cuts(
    plans: Sequence[SheetPlan],
    kinds: Sequence[SheetKind],
    stocks: Sequence[SheetStock],
    kerf: int,
    terms: Terms,
    least_mm: tuple[int, int],
) -> list[SheetPlan]:
    """The same sheets with fewer cuts, where that takes nothing from what is left.

    Parameters
    ----------
    plans
        Sheets that give every piece.
    kinds, stocks, kerf
        What is wanted, what it is cut from, and the width of a cut [mm].
    terms
        How it may be cut, what rests are worth, and how long is looked.
    least_mm
        Least width and length of a rest that is kept [mm].

    Returns
    -------
    list of SheetPlan
        From the same stock, at the same prices, in the same order.
    """
    from pentice.cutting.arranged import Work

    kind_of = {id: k for k, kind in enumerate(kinds) for id in kind.ids}
    sheets = _Sheets(kinds=kinds, stocks={s.id: s for s in stocks}, kerf=kerf, terms=terms, least_mm=least_mm)
    best = [sheets.relaid(plan, kind_of, Work(_WORK * terms.effort // len(plans))) for plan in plans]
    work = Work(_WORK * terms.effort)
    waiting = dict.fromkeys(itertools.combinations(range(min(len(best), _SHEETS_MOST)), 2))
    while waiting and work.left > 0 and not asked_to_stop():
        i, j = next(iter(waiting))
        del waiting[i, j]
        work.left -= _LAID
        pair = sheets.exchanged(best[i], best[j], kind_of, work)
        if pair is not None:
            best[i], best[j] = pair
            others = (k for k in range(min(len(best), _SHEETS_MOST)) if k not in (i, j))
            waiting |= {(min(k, n), max(k, n)): None for k in others for n in (i, j)}
    return best


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheets:
    """What sheets are made of and judged by."""

    kinds: Sequence[SheetKind]
    stocks: dict[str, SheetStock]
    kerf: int
    terms: Terms
    least_mm: tuple[int, int]

    def count(self, plan: SheetPlan) -> _Count:
        """What counts of a sheet."""
        stock = self.stocks[plan.stock]
        kept = sum((p[2] - p[0]) * (p[3] - p[1]) for p in rests_left(plan, stock, self.least_mm))
        worth = rest_of(plan, stock, self.terms.keep) if self.terms.keep else 0
        turns = [(t.cut.kind, t.stop_mm) for t in followed(plan)]
        changes = sum((a[0] != b[0]) + (a != b) for a, b in itertools.pairwise(turns))
        return _Count(len(plan.cuts), changes, worth, kept)

    def relaid(self, plan: SheetPlan, kind_of: dict[str, int], work: Work) -> SheetPlan:
        """A sheet with its own pieces laid anew or cut in another order, where that is better."""
        now = self.count(plan)
        ways = (*self._otherwise(plan), *self._laid(plan, _names(plan, kind_of), now.cuts, work))
        found = [(count, way) for way in ways if (count := self.count(way)).better_than(now)]
        return min(found, key=lambda one: one[0].rank)[1] if found else plan

    def exchanged(
        self, one: SheetPlan, two: SheetPlan, kind_of: dict[str, int], work: Work
    ) -> tuple[SheetPlan, SheetPlan] | None:
        """Two sheets with fewer cuts once a piece of each has gone to the other, or of one; None where none does."""
        names, now = (_names(one, kind_of), _names(two, kind_of)), _both(self.count(one), self.count(two))
        if now.cuts - self._trims(one) - self._trims(two) <= len(names[0]) + len(names[1]) - 2:
            return None  # every cut parts two pieces
        ways = list(_exchanges(*names))
        ways.sort(key=lambda way: not any(self._in_line(*come) for come in zip(way, names, strict=True)))
        for first, second in ways:
            if work.left <= 0:
                break
            mine = min(self._laid(one, first, now.cuts, work), key=self._rank, default=None)
            if mine is None:
                continue
            other = min(
                self._laid(two, second, now.cuts - len(mine.cuts), work), key=self._rank, default=None
            )
            if other is not None and _both(self.count(mine), self.count(other)).better_than(now):
                return mine, other
        return None

    def _rank(self, plan: SheetPlan) -> tuple[int, int, int]:
        return self.count(plan).rank

    def _in_line(self, now: Sequence[tuple[int, str]], before: Sequence[tuple[int, str]]) -> bool:
        """Whether a piece that has come is as wide or as long as another one there: what else would save a cut?"""
        come = [k for k, _ in set(now) - set(before)]
        there = [self.kinds[k].piece for k, _ in set(now) & set(before)]
        sides = {("wide", p.width_mm) for p in there} | {("long", p.length_mm) for p in there}
        return any(
            ("wide", p.width_mm) in sides or ("long", p.length_mm) in sides
            for p in (self.kinds[k].piece for k in come)
        )

    def _trims(self, plan: SheetPlan) -> int:
        return 4 if self.stocks[plan.stock].edge_trim_mm else 0

    def _otherwise(self, plan: SheetPlan) -> Iterator[SheetPlan]:
        """The pieces where they are, by other cuts."""
        return cut_otherwise(plan, self.stocks[plan.stock], self.kerf, self.least_mm, self.terms.stages)

    def _laid(
        self, plan: SheetPlan, names: Sequence[tuple[int, str]], most: int, work: Work
    ) -> Iterator[SheetPlan]:
        """Ways to lay pieces on the stock of a sheet with fewer cuts than a number."""
        from pentice.cutting.arranged import Wanted, arranged

        stock = self.stocks[plan.stock]
        left, head, right, foot = room_of(stock)
        on_it = Counter(kind for kind, _ in names)
        sizes = rectangles_of(self.kinds, reserve=True)
        wanted = [Wanted(kind, sizes[kind].width, sizes[kind].height, on_it[kind]) for kind in sorted(on_it)]
        waste = most - self._trims(plan) - len(names) + 1
        ways = arranged(wanted, (right - left, foot - head), self.kerf, waste, work)
        for places in itertools.islice(ways, _TRIED):
            work.left -= _LAID
            waiting = {kind: [name for k, name in names if k == kind] for kind in on_it}
            called = [waiting[place.kind].pop(0) for place in places]
            laid = placed(places, self.kinds, called, stock, self.kerf, self.terms.stages)
            if laid is None:
                continue
            way = replace(plan, placements=laid[0], cuts=laid[1])
            yield from (made for made in (way, *self._otherwise(way)) if len(made.cuts) < most)


def _both(one: _Count, two: _Count) -> _Count:
    return _Count(*(a + b for a, b in zip(one, two, strict=True)))


def _names(plan: SheetPlan, kind_of: dict[str, int]) -> list[tuple[int, str]]:
    return sorted((kind_of[p.piece], p.piece) for p in plan.placements)


def _exchanges(
    mine: list[tuple[int, str]], other: list[tuple[int, str]]
) -> Iterator[tuple[list[tuple[int, str]], list[tuple[int, str]]]]:
    """Every exchange of one piece for one of another kind, or for none; pieces alike are not told apart."""
    firsts = [list({kind: (kind, name) for kind, name in reversed(side)}.values()) for side in (mine, other)]
    for a, b in itertools.product((None, *firsts[0]), (None, *firsts[1])):
        if (a is None) == (b is None) and (a is None or b is None or a[0] == b[0]):
            continue
        left = [p for p in mine if p != a] + ([b] if b else [])
        right = [p for p in other if p != b] + ([a] if a else [])
        if left and right:
            yield sorted(left), sorted(right)
