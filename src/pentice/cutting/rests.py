"""What the cuts of a sheet leave and what it counts for; and the plan of a small job that costs least net of that."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from pentice.cutting.free_cuts import can_be_held
from pentice.cutting.general import Terms, better_sheets, boards_of, laid_sheets, rectangles_of
from pentice.cutting.ribs import fits_uncut
from pentice.cutting.saw_order import Part, cuts_of, fewest_cuts_of, parts_of, room_of, turns_of
from pentice.cutting.shop import rest_worth
from pentice.cutting.strips import SheetKind
from pentice.cutting.values import SheetPlan, SheetStock

if TYPE_CHECKING:
    from pentice.cutting.keep import Keep
    from pentice.cutting.packing import Rectangle

_WORK = 20_000


def rests_left(plan: SheetPlan, stock: SheetStock, least_mm: tuple[int, int]) -> list[Part]:
    """What the cuts of a sheet leave besides its pieces and is worth keeping.

    Parameters
    ----------
    plan, stock
        The sheet and what it is cut from.
    least_mm
        Least width and length [mm].

    Returns
    -------
    list of tuple
        Left, head, right and foot of each [mm].
    """
    taken = {(p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm) for p in plan.placements}
    return [
        part
        for part in parts_of(room_of(stock), plan.cuts, plan.kerf_mm)
        if part not in taken and part[2] - part[0] >= least_mm[0] and part[3] - part[1] >= least_mm[1]
    ]


def rest_of(plan: SheetPlan, stock: SheetStock, keep: Keep) -> int:
    """What the kept rests of a sheet are worth.

    Parameters
    ----------
    plan, stock
        The sheet and what it is cut from, at the number by which it is chosen.
    keep
        The rule.

    Returns
    -------
    int
        In the unit of the price, rounded down.
    """
    area = sum((p[2] - p[0]) * (p[3] - p[1]) for p in rests_left(plan, stock, (keep.width, keep.height)))
    return rest_worth(stock.price, keep.share, area, stock.width_mm * stock.length_mm)


def exactly(
    plans: Sequence[SheetPlan],
    kinds: Sequence[SheetKind],
    stocks: Sequence[SheetStock],
    kerf: int,
    terms: Terms,
    *,
    any_cuts: bool,
    known_least: int | None = None,
) -> tuple[list[SheetPlan], int]:
    """The plan that costs least net of its rests, and what none can be below: exact where the job is small.

    Parameters
    ----------
    plans
        Sheets at hand that give every piece.
    kinds, stocks, kerf
        What is wanted, what it can be cut from, and the width of a cut [mm].
    terms
        How it may be cut, what counts, and how long is looked.
    any_cuts
        Whether another plan than the one at hand may be taken.
    known_least
        What `least_of_few` has found under the same terms; absent: not asked yet.

    Returns
    -------
    tuple
        Sheets, and a bound that takes pieces at the size at which they are planned [smallest unit of money].
    """
    from pentice.cutting.shared_out import small_enough

    known, keep, stages = {s.id: s for s in stocks}, terms.keep, terms.stages

    def net(sheets: Sequence[SheetPlan]) -> int:
        return sum(p.price - (rest_of(p, known[p.stock], keep) if keep else 0) for p in sheets)

    best = [_most_kept(plan, known[plan.stock], kerf, keep, stages) for plan in plans]
    small = small_enough(rectangles_of(kinds, reserve=False))
    if not small and keep is None:
        return best, 0
    if any_cuts:
        # The plan without rests too: one that keeps more may break a rule of the trade where that one does not.
        if small:
            rules = dict.fromkeys((keep, None))
            ways = [_shared(kinds, stocks, kerf, replace(terms, keep=rule)) for rule in rules]
        else:
            ways = [better_sheets(best, kinds, stocks, kerf, 0, terms)]
        for laid in ways:
            laid = [_most_kept(plan, known[plan.stock], kerf, keep, stages) for plan in laid or ()]
            if laid and net(laid) < net(best):
                best = laid
    least = _least(kinds, stocks, kerf, terms, small=small) if known_least is None else known_least
    return best, min(net(best), least)


def least_of_few(
    kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int, terms: Terms
) -> int | None:
    """What no plan of a few pieces costs less than, net of its rests: the least cost itself, the work permitting.

    Parameters
    ----------
    kinds, stocks, kerf
        What is wanted, what it can be cut from, and the width of a cut [mm].
    terms
        What counts, and how long is looked.

    Returns
    -------
    int or None
        For pieces at the size at which they are planned [smallest unit of money]; None where they are too many.
    """
    from pentice.cutting.shared_out import small_enough

    small = small_enough(rectangles_of(kinds, reserve=False))
    return _least(kinds, stocks, kerf, terms, small=True) if small else None


def cut_otherwise(
    plan: SheetPlan, stock: SheetStock, kerf: int, least_mm: tuple[int, int], stages: int | None
) -> Iterator[SheetPlan]:
    """A sheet by the fewest cuts, by those that keep most, and ripped first; the pieces stay where they are.

    Parameters
    ----------
    plan, stock, kerf
        The sheet, what it is cut from, and the width of a cut [mm].
    least_mm
        Least width and length of a rest that is kept [mm].
    stages
        How many times the direction of the cuts may change; None for no limit.

    Yields
    ------
    SheetPlan
        Those that keep the limit and leave nothing too narrow to be held.
    """
    ways = [
        fewest_cuts_of(plan.placements, stock, kerf, least_mm, rests_first=rests_first)
        for rests_first in (False, True)
    ]
    for cuts in (*ways, cuts_of(plan.placements, stock, kerf, rips_first=True)):
        if cuts is None or (stages is not None and turns_of(cuts, room_of(stock), kerf) > stages):
            continue
        if can_be_held(cuts, stock, kerf):
            yield replace(plan, cuts=cuts)


def _most_kept(
    plan: SheetPlan, stock: SheetStock, kerf: int, keep: Keep | None, stages: int | None
) -> SheetPlan:
    """A sheet cut in another way where that leaves rests that are worth more; the pieces stay where they are."""
    if keep is None:
        return plan
    others = cut_otherwise(plan, stock, kerf, (keep.width, keep.height), stages)
    return max((plan, *others), key=lambda way: rest_of(way, stock, keep))


def _sizes(
    kinds: Sequence[SheetKind], stock: SheetStock, rectangles: Sequence[Rectangle]
) -> list[tuple[int, int]]:
    """Size of each kind on one stock: that of the stock itself where it serves uncut and a cut would need more."""
    left, head, right, foot = room_of(stock)
    sizes = []
    for kind, rectangle in zip(kinds, rectangles, strict=True):
        piece, (wide, long) = kind.piece, (rectangle.width, rectangle.height)
        if fits_uncut(right - left, piece.least_width_mm, piece.most_width_mm):
            wide = min(wide, right - left)
        if fits_uncut(foot - head, piece.least_length_mm, piece.most_length_mm):
            long = min(long, foot - head)
        sizes.append((wide, long))
    return sizes


def _shared(
    kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int, terms: Terms
) -> list[SheetPlan] | None:
    from pentice.cutting.shared_out import SharedOut

    claims = rectangles_of(kinds, reserve=True)
    sizes = [_sizes(kinds, s, claims) for s in stocks]
    way = SharedOut(claims, boards_of(stocks), kerf=kerf, keep=terms.keep, sizes=sizes)
    way.advance(_WORK * terms.effort)
    found = way.packing()
    return None if found is None else laid_sheets(found, kinds, stocks, kerf, terms.stages)


def _least(
    kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int, terms: Terms, *, small: bool
) -> int:
    """What no plan costs less than, net of its rests."""
    from pentice.cutting.scales import least_cost
    from pentice.cutting.shared_out import SharedOut

    pieces, keep = rectangles_of(kinds, reserve=False), terms.keep
    if small:
        wanted = rectangles_of(kinds, reserve=True)
        sizes, claims = ([_sizes(kinds, s, of) for s in stocks] for of in (pieces, wanted))
        way = SharedOut(pieces, boards_of(stocks), kerf=kerf, keep=keep, sizes=sizes, claims=claims)
        way.advance(_WORK * terms.effort)
        return way.bound
    least = [(k.piece.least_width_mm + kerf, k.piece.least_length_mm + kerf) for k in kinds]
    rooms = [(r[2] - r[0] + kerf, r[3] - r[1] + kerf) for r in (room_of(s) for s in stocks)]
    held = [(*room, s.price, s.count) for room, s in zip(rooms, stocks, strict=True)]
    return least_cost(least, [p.count for p in pieces], held, kept=keep.share if keep else 0)
