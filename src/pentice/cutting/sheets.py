"""Cuts sheets from stock at least cost: strips across the stock, pieces side by side in each strip.

Small jobs: every stack of strips that one sheet can give, then the cheapest choice of them. The bound holds for every
guillotine plan: pieces are taken as no longer than the shortest, and pieces of one length always stand in strips.
Jobs with too many different pieces are filled by hand, longest first, with the bare area as the bound. Where cost and
bound do not meet, a better bound is sought and, where asked for, a cheaper plan by cuts in any order (`general`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from pentice.cutting.cover import cover, rounded_bound
from pentice.cutting.fewer_cuts import with_fewer_cuts
from pentice.cutting.general import Terms, better_sheets, greater_bound
from pentice.cutting.patterns import Pattern
from pentice.cutting.rests import exactly, least_of_few, rest_of, rests_left
from pentice.cutting.saw_order import cuts_of
from pentice.cutting.settle import Lengths, settled, stands
from pentice.cutting.shop import USUAL, Counted, Shop, counted, weighed
from pentice.cutting.strips import (
    SheetKind,
    SheetStrip,
    claim_width,
    cut_length,
    laid,
    length_claim,
    strips_of,
)
from pentice.cutting.values import Offcut, Placement, SheetPiece, SheetPlan, SheetPlans, SheetStock
from pentice.errors import NoSolution

STACKS_MOST = 3000
BOUNDS_MOST = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stack:
    """Strips one below the other on one sheet; without lengths where a crosscut would leave a sliver."""

    stock: int
    strips: tuple[SheetStrip, ...]
    lengths: Lengths | None


def cut_sheets(
    pieces: Sequence[SheetPiece],
    stocks: Sequence[SheetStock],
    *,
    kerf_mm: int,
    any_cuts: bool = False,
    shop: Shop = USUAL,
    for_cost: bool = False,
) -> SheetPlans:
    """The best way to cut pieces from sheets by the shop's aim, then the fewest sheets, then the least sheet.

    Parameters
    ----------
    pieces
        What is wanted; never turned.
    stocks
        What can be bought, and offcuts in hand, each once.
    kerf_mm
        Width of a cut [mm].
    any_cuts
        Whether a cheaper plan may be taken whose cuts are in any order, not strips across the sheet.
    shop
        What to aim at, and which rests are kept.
    for_cost
        Whether only cost, credit and bound are asked: then no cut is saved where that changes none of them.

    Returns
    -------
    SheetPlans
        Plans with placements and numbered cuts; cost and bound in the smallest unit of money. The bound takes pieces
        at the size at which they are planned.

    Raises
    ------
    NoSolution
        A piece fits no stock of its item.
    """
    plans: list[SheetPlan] = []
    counts: list[Counted] = []
    for item in dict.fromkeys(piece.item for piece in pieces):
        mine = [p for p in pieces if p.item == item]
        held = [s for s in stocks if s.item == item]
        _require_room(mine, held, kerf_mm)
        found, count = _cut_by_aim(mine, held, kerf_mm, any_cuts, shop, for_cost)
        plans += found
        counts.append(count)
    offcuts = tuple(o for plan in plans for o in _offcuts(plan, stocks, shop))
    used = sum(p.width_mm * p.length_mm for plan in plans for p in plan.placements)
    kept = sum((o.width_mm or 0) * o.length_mm for o in offcuts)
    whole = sum(plan.width_mm * plan.length_mm for plan in plans)
    return SheetPlans(
        sheets=tuple(plans),
        cost=sum(c.cost for c in counts),
        bound=sum(c.bound for c in counts),
        proven=all(c.proven for c in counts),
        waste_area_m2=(whole - used - kept) * 1e-6,
        offcuts=offcuts,
        credit=sum(c.credit for c in counts),
    )


def _cut_by_aim(
    pieces: Sequence[SheetPiece],
    stocks: Sequence[SheetStock],
    kerf: int,
    any_cuts: bool,
    shop: Shop,
    for_cost: bool,
) -> tuple[list[SheetPlan], Counted]:
    """Plans of one item at their real prices, and what they come to."""
    kinds, (held, each) = _kinds(pieces), weighed(stocks, shop, len(pieces))
    terms = Terms(stages=shop.stages, effort=shop.effort)
    found, least = _cut_item(pieces, held, kerf)
    at_most = sum(plan.price for plan in found)
    if least < at_most:
        least = greater_bound(kinds, held, kerf, (least, at_most))
    fewest = None
    if least < at_most and any_cuts:
        # A few pieces are soon known exactly: where nothing is below the plan at hand, a search would find nothing.
        fewest = least_of_few(kinds, held, kerf, terms)
        if fewest is not None and fewest >= at_most:
            least = at_most
    if least < at_most and any_cuts:
        named = {p.id: p for p in pieces}

        def by_strips(ids: Sequence[str], left: Sequence[SheetStock]) -> list[SheetPlan] | None:
            try:
                return _cut_item([named[id] for id in ids], left, kerf)[0]
            except NoSolution:  # offcuts that were needed are used up
                return None

        better = better_sheets(found, kinds, held, kerf, least, replace(terms, by_strips=by_strips))
        if better is not None and sum(plan.price for plan in better) < at_most:
            found = better
    known = {s.id: s for s in held}
    rests = shop.sheet_rests
    if rests is not None or least < sum(plan.price for plan in found):
        terms = replace(terms, keep=rests)
        known_least = fewest if rests is None else None
        found, exact = exactly(found, kinds, held, kerf, terms, any_cuts=any_cuts, known_least=known_least)
        least = exact if rests is not None else max(least, exact)
    if any_cuts and not (for_cost and rests is None):
        found = with_fewer_cuts(found, kinds, held, kerf, replace(terms, keep=rests), shop.keep_sheet_mm)
    prices = {s.id: 0 if s.offcut else s.price for s in stocks}
    costs = [
        (prices[p.stock], p.price, 0 if rests is None else rest_of(p, known[p.stock], rests)) for p in found
    ]
    return [replace(p, price=prices[p.stock]) for p in found], counted(costs, least, each)


def _require_room(pieces: Sequence[SheetPiece], stocks: Sequence[SheetStock], kerf: int) -> None:
    for piece in pieces:
        if not any(_fits(piece, stock) for stock in stocks):
            widest = max((s.width_mm for s in stocks), default=0)
            longest = max((s.length_mm for s in stocks), default=0)
            raise NoSolution(
                f"{piece.id}, {piece.width_mm} by {piece.length_mm} mm (with {piece.reserve_mm[0]} and "
                f"{piece.reserve_mm[1]} in reserve), fits no stock of {piece.item}: the widest is {widest}, "
                f"the longest {longest}. Closer bars, a shorter roof, or add a stock size to the catalogue."
            )
        kind = (SheetKind(piece=piece, ids=(piece.id,)),)
        if not any(_fits(piece, s) and _alone(kind, s, kerf) for s in stocks):
            left, right = piece.rib_at_most_mm
            raise NoSolution(
                f"{piece.id}, {piece.width_mm} by {piece.length_mm} mm, can be cut from no stock of {piece.item} so "
                f"that its first ribs stand within {left:g} and {right:g} mm of its edges and no cut leaves less than "
                f"{kerf + 2} mm. Another bay width, or another stock size."
            )


def _fits(piece: SheetPiece, stock: SheetStock) -> bool:
    room = stock.width_mm - 2 * stock.edge_trim_mm
    wide = piece.least_width_mm <= room <= piece.most_width_mm or claim_width(piece) <= room
    return wide and length_claim(piece, stock) is not None


def _alone(kind: Sequence[SheetKind], stock: SheetStock, kerf: int) -> bool:
    """Whether a piece can be cut from a stock when it is all that is cut from it."""
    strip = laid(kind, (0,), stock, kerf)
    return strip is not None and settled([strip], kind, stock, kerf) is not None


def _kinds(pieces: Sequence[SheetPiece]) -> tuple[SheetKind, ...]:
    """Pieces alike together, the widest first."""
    groups: dict[SheetPiece, list[str]] = {}
    for piece in pieces:
        groups.setdefault(replace(piece, id=""), []).append(piece.id)
    order = sorted(groups.items(), key=lambda g: (-g[0].width_mm, -g[0].length_mm))
    return tuple(SheetKind(piece=p, ids=tuple(ids)) for p, ids in order)


def _cut_item(
    pieces: Sequence[SheetPiece], stocks: Sequence[SheetStock], kerf: int
) -> tuple[list[SheetPlan], int]:
    kinds = _kinds(pieces)
    stacks = _all_stacks(kinds, stocks, kerf)
    if stacks is None:
        return _by_hand(kinds, stocks, kerf)
    clean = _clean(stacks, kinds, stocks, kerf)
    found = _chosen(clean, kinds, stocks, kerf)
    if found is None:
        return _by_hand(kinds, stocks, kerf)
    waiting = [list(kind.ids) for kind in kinds]
    plans = [_plan(stack, stocks, kinds, waiting, kerf) for stack in found[0]]
    bound = found[1]
    if not _strips_are_all(kinds, stocks, kerf):
        bound = _bound(kinds, stocks, kerf)
    elif len(clean) != len(stacks) or any(stack.lengths is None for stack in stacks):
        # Another arrangement of the same pieces may leave no sliver: the bound counts them all.
        every = _chosen(stacks, kinds, stocks, kerf)
        bound = every[1] if every is not None else 0
    cost = sum(stocks[stack.stock].price for stack in found[0])
    return [plan for plan in plans if plan.placements], min(bound, cost)


def _chosen(
    stacks: Sequence[_Stack], kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int
) -> tuple[list[_Stack], int] | None:
    """The cheapest choice of stacks, and what any choice costs at least."""
    patterns = [
        Pattern(
            stock=stack.stock,
            kinds=tuple(sorted(lying.kind for strip in stack.strips for lying in strip.pieces)),
            price=stocks[stack.stock].price,
            size=stocks[stack.stock].width_mm * stocks[stack.stock].length_mm // 100,
            cuts=_number_of_cuts(stack, stocks[stack.stock], kerf),
        )
        for stack in stacks
    ]
    found = cover(patterns, [len(k.ids) for k in kinds], [s.count for s in stocks])
    if found is None:
        return None
    at = {id(pattern): stack for pattern, stack in zip(patterns, stacks, strict=True)}
    return [at[id(p)] for p in found.chosen], found.bound


def _number_of_cuts(stack: _Stack, stock: SheetStock, kerf: int) -> int:
    """How many cuts free every piece of a stack: across between and below strips, along beside pieces, and off what is
    longer than its piece."""
    lengths = stack.lengths or tuple((strip.height_mm,) * len(strip.pieces) for strip in stack.strips)
    used = sum(max(long) for long in lengths) + kerf * (len(lengths) - 1)
    number = len(lengths) - (used >= stock.length_mm - 2 * stock.edge_trim_mm)
    for strip, long in zip(stack.strips, lengths, strict=True):
        at = stock.edge_trim_mm
        for lying in strip.pieces:
            number += (lying.x_mm > at) + 1
            at = lying.x_mm + lying.width_mm + kerf
        number -= at - kerf >= stock.width_mm - stock.edge_trim_mm
        number += sum(1 for n in long if n < max(long))
    return number


def _clean(
    stacks: Sequence[_Stack], kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int
) -> list[_Stack]:
    """The stacks that leave no sliver; one that does is replaced by what is left of it without one strip, or without
    one piece of a strip whose pieces differ by less than can be sawn off."""
    clean: list[_Stack] = []
    tried: set[tuple[int, tuple[tuple[int, ...], ...]]] = set()
    known: _Fewer = {}

    def add(stack: _Stack) -> None:
        key = (stack.stock, tuple(tuple(lying.kind for lying in strip.pieces) for strip in stack.strips))
        if key in tried or len(tried) > STACKS_MOST:
            return
        tried.add(key)
        if stack.lengths is not None:
            clean.append(stack)
            return
        stock = stocks[stack.stock]
        for i, other in _mended(stack.strips, kinds, stock, kerf, known):
            changed = (*stack.strips[:i], *other, *stack.strips[i + 1 :])
            lengths = settled(changed, kinds, stock, kerf)
            add(_Stack(stock=stack.stock, strips=changed, lengths=lengths))

    for stack in stacks:
        add(stack)
    return clean


_Fewer = dict[tuple[SheetStock, tuple[int, ...]], tuple[SheetStrip, ...]]


def _mended(
    strips: Sequence[SheetStrip], kinds: Sequence[SheetKind], stock: SheetStock, kerf: int, known: _Fewer
) -> Iterator[tuple[int, tuple[SheetStrip, ...]]]:
    """What may stand in place of one strip of a stack that leaves a sliver: nothing, or the strip with a piece less.

    A strip whose own pieces differ too little has to change whatever else does, so it is the only one tried.
    """
    bad = next((i for i, strip in enumerate(strips) if not stands(strip, kinds, stock, kerf)), None)
    for i in range(len(strips)) if bad is None else (bad,):
        if len(strips) > 1:
            yield i, ()
        if bad is not None:
            for fewer in _with_one_less(strips[i], kinds, stock, kerf, known):
                yield i, (fewer,)


def _with_one_less(
    strip: SheetStrip, kinds: Sequence[SheetKind], stock: SheetStock, kerf: int, known: _Fewer
) -> tuple[SheetStrip, ...]:
    taken = tuple(sorted(lying.kind for lying in strip.pieces))
    if (stock, taken) not in known:
        fewer = {taken[:i] + taken[i + 1 :] for i in range(len(taken))} - {()}
        made = (laid(kinds, kept, stock, kerf) for kept in sorted(fewer))
        known[stock, taken] = tuple(strip for strip in made if strip is not None)
    return known[stock, taken]


# Stacks


def _all_stacks(kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int) -> list[_Stack] | None:
    stacks: list[_Stack] = []
    known: _Known = {}
    for s, stock in enumerate(stocks):
        strips = _strips(kinds, stock, kerf, known)
        if strips is None:
            return None
        for chosen in _stacked(strips, stock.length_mm - 2 * stock.edge_trim_mm, kerf):
            stacks.append(_Stack(stock=s, strips=chosen, lengths=settled(chosen, kinds, stock, kerf)))
            if len(stacks) > STACKS_MOST:
                return None
    return stacks


_Known = dict[tuple[object, ...], tuple[SheetStrip, ...] | None]


def _strips(
    kinds: Sequence[SheetKind], stock: SheetStock, kerf: int, known: _Known
) -> tuple[SheetStrip, ...] | None:
    """The strips of a stock, found once for stocks that differ only in a length that is cut off anyway."""
    lengths = tuple((length_claim(k.piece, stock), cut_length(k.piece, stock)) for k in kinds)
    ribs = (None if stock.first_rib_mm != stock.first_rib_mm else stock.first_rib_mm, stock.rib_pitch_mm)
    key = (stock.width_mm, stock.edge_trim_mm, ribs, lengths)
    if key not in known:
        known[key] = strips_of(kinds, stock, kerf)
    return known[key]


def _stacked(strips: Sequence[SheetStrip], room: int, kerf: int) -> Iterator[tuple[SheetStrip, ...]]:
    """Every stack of strips to which none can be added."""
    least = min((strip.claim_mm for strip in strips), default=room + 1)

    def fill(start: int, left: int, taken: tuple[SheetStrip, ...]) -> Iterator[tuple[SheetStrip, ...]]:
        if taken and left < least:
            yield taken
            return
        fitted = False
        for i in range(start, len(strips)):
            if strips[i].claim_mm <= left:
                fitted = True
                yield from fill(i, left - strips[i].claim_mm - kerf, (*taken, strips[i]))
        if not fitted and taken:
            yield taken

    yield from fill(0, room, ())


# Bounds


def _shelves(stock: SheetStock, claim: int, kerf: int) -> int:
    return (stock.length_mm - 2 * stock.edge_trim_mm + kerf) // (claim + kerf)


def _strips_are_all(kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int) -> bool:
    """True where as many of the longest strips fit on each stock as of the shortest: then no plan can do better than
    strips, because pieces that all cross one of so many lines across the sheet stand in so many strips."""
    for stock in stocks:
        claims = [c for k in kinds if (c := length_claim(k.piece, stock)) is not None]
        if claims and _shelves(stock, min(claims), kerf) != _shelves(stock, max(claims), kerf):
            return False
        if claims and len(claims) < len(kinds) and _shelves(stock, max(claims), kerf) > 1:
            return False
    return True


def _bound(kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int) -> int:
    """The greatest of several, each valid by itself: the bare area at the best price, and, for the pieces from each
    length up, strips as short as the shortest of them."""
    lengths = sorted({k.piece.length_mm + k.piece.reserve_mm[1] for k in kinds})
    best = _area_bound(kinds, stocks)
    for least in lengths[:BOUNDS_MOST]:
        longer = tuple(k for k in kinds if k.piece.length_mm + k.piece.reserve_mm[1] >= least)
        best = max(best, _strip_bound(longer, stocks, kerf))
    return best


def _strip_bound(kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int) -> int:
    patterns = []
    known: _Known = {}
    for s, stock in enumerate(stocks):
        strips = _strips(kinds, stock, kerf, known)
        claims = [c for k in kinds if (c := length_claim(k.piece, stock)) is not None]
        if strips is None or not claims:
            if strips is None:
                return 0
            continue
        level = min(claims)
        alike = tuple(replace(strip, claim_mm=level, height_mm=level) for strip in strips)
        for chosen in _stacked(alike, stock.length_mm - 2 * stock.edge_trim_mm, kerf):
            ids = tuple(sorted(lying.kind for strip in chosen for lying in strip.pieces))
            patterns.append(Pattern(stock=s, kinds=ids, price=stock.price, size=1))
            if len(patterns) > STACKS_MOST:
                return 0
    found = cover(patterns, [len(k.ids) for k in kinds], [s.count for s in stocks])
    return found.bound if found is not None else 0


def _area_bound(kinds: Sequence[SheetKind], stocks: Sequence[SheetStock]) -> int:
    need = sum(k.piece.least_width_mm * k.piece.least_length_mm * len(k.ids) for k in kinds)
    if any(s.price == 0 and s.count is None for s in stocks):
        return 0
    free = sum(s.width_mm * s.length_mm * (s.count or 0) for s in stocks if s.price == 0)
    bought = [s for s in stocks if s.price > 0]
    if not bought or need <= free:
        return 0
    unit = min(s.price / (s.width_mm * s.length_mm) for s in bought)
    return rounded_bound((need - free) * unit, [s.price for s in bought])


# By hand


def _by_hand(
    kinds: Sequence[SheetKind], stocks: Sequence[SheetStock], kerf: int
) -> tuple[list[SheetPlan], int]:
    """Longest first: each sheet in turn is the one that gives the most piece for its price."""
    singles = tuple(SheetKind(piece=k.piece, ids=(id,)) for k in kinds for id in k.ids)
    waiting = sorted(
        range(len(singles)), key=lambda i: (-singles[i].piece.length_mm, -singles[i].piece.width_mm)
    )
    counts = [s.count for s in stocks]
    plans: list[SheetPlan] = []
    while waiting:
        best: tuple[float, _Stack, set[int]] | None = None
        for s, stock in enumerate(stocks):
            if counts[s] == 0:
                continue
            strips = _filled(singles, waiting, stock, kerf)
            while strips and (lengths := settled(strips, singles, stock, kerf)) is None:
                strips = strips[:-1]
            used = {lying.kind for strip in strips for lying in strip.pieces}
            if waiting[0] not in used:
                continue
            area = sum(singles[i].piece.width_mm * singles[i].piece.length_mm for i in used)
            worth = stock.price / area
            if best is None or worth < best[0]:
                best = (worth, _Stack(stock=s, strips=strips, lengths=lengths), used)
        if best is None:
            raise NoSolution(
                f"{singles[waiting[0]].ids[0]} fits no stock that is left; add stock or offcuts."
            )
        _, stack, used = best
        counts[stack.stock] = None if counts[stack.stock] is None else (counts[stack.stock] or 1) - 1
        plans.append(_plan(stack, stocks, singles, [list(k.ids) for k in singles], kerf))
        waiting = [i for i in waiting if i not in used]
    return plans, min(_area_bound(kinds, stocks), sum(plan.price for plan in plans))


def _filled(
    singles: Sequence[SheetKind], waiting: Sequence[int], stock: SheetStock, kerf: int
) -> tuple[SheetStrip, ...]:
    """Strips filled greedily, the longest waiting piece opening each."""
    room, left, strips = stock.length_mm - 2 * stock.edge_trim_mm, list(waiting), []
    while left:
        opened: SheetStrip | None = None
        taken: tuple[int, ...] = ()
        for i in left:
            claim = length_claim(singles[i].piece, stock)
            if claim is None or claim > room or (opened is not None and claim > opened.claim_mm):
                continue
            tried = laid(singles, (*taken, i), stock, kerf)
            if tried is not None and stands(tried, singles, stock, kerf):
                opened, taken = tried, (*taken, i)
        if opened is None:
            break
        strips.append(opened)
        room -= opened.claim_mm + kerf
        left = [i for i in left if i not in taken]
    return tuple(strips)


# Plans


def _plan(
    stack: _Stack,
    stocks: Sequence[SheetStock],
    kinds: Sequence[SheetKind],
    waiting: list[list[str]],
    kerf: int,
) -> SheetPlan:
    stock = stocks[stack.stock]
    named = _named(stack, kinds, waiting)
    strips, lengths = _without_surplus(stack, named, kinds, stock, kerf)
    y = stock.edge_trim_mm
    placements: list[Placement] = []
    for strip, long, ids in zip(strips, lengths, named, strict=True):
        left, row = list(ids), []
        for lying, length in zip(strip.pieces, long, strict=True):
            name = next((n for k, n in left if k == lying.kind), None)
            if name is not None:
                left.remove((lying.kind, name))
                row.append(
                    Placement(
                        piece=name,
                        x_mm=lying.x_mm,
                        y_mm=y,
                        width_mm=lying.width_mm,
                        length_mm=length,
                        turned_180=False,
                        rib_at_mm=lying.rib_at_mm,
                    )
                )
        placements += row
        y += max(p.length_mm for p in row) + kerf
    return SheetPlan(
        stock=stock.id,
        item=stock.item,
        width_mm=stock.width_mm,
        length_mm=stock.length_mm,
        kerf_mm=kerf,
        price=stock.price,
        placements=tuple(placements),
        cuts=cuts_of(placements, stock, kerf),
    )


_Named = list[tuple[tuple[int, str], ...]]


def _named(stack: _Stack, kinds: Sequence[SheetKind], waiting: list[list[str]]) -> _Named:
    """Kind and name of what each strip really gives: a pattern may give more than is still wanted."""
    return [
        tuple((p.kind, waiting[p.kind].pop(0)) for p in strip.pieces if waiting[p.kind])
        for strip in stack.strips
    ]


def _without_surplus(
    stack: _Stack, named: _Named, kinds: Sequence[SheetKind], stock: SheetStock, kerf: int
) -> tuple[list[SheetStrip], Lengths]:
    """The strips laid anew for what is really wanted of them, so that no cut is made for nothing."""
    assert stack.lengths is not None
    wanted = [
        (strip, long, ids) for strip, long, ids in zip(stack.strips, stack.lengths, named, strict=True) if ids
    ]
    named[:] = [ids for _, _, ids in wanted]
    fewer = [
        strip
        if len(ids) == len(strip.pieces)
        else laid(kinds, tuple(sorted(k for k, _ in ids)), stock, kerf) or strip
        for strip, _, ids in wanted
    ]
    lengths = settled(fewer, kinds, stock, kerf)
    if lengths is None:
        return [strip for strip, _, _ in wanted], tuple(long for _, long, _ in wanted)
    return fewer, lengths


def _offcuts(plan: SheetPlan, stocks: Sequence[SheetStock], shop: Shop) -> Iterator[Offcut]:
    """What the cuts leave besides the pieces, where it is worth keeping; the first rib is known where its left edge is
    that of the stock."""
    stock = next(s for s in stocks if s.id == plan.stock and s.item == plan.item)
    left, right = stock.edge_trim_mm, stock.width_mm - stock.edge_trim_mm
    for part in rests_left(plan, stock, shop.keep_sheet_mm):
        known = part[0] == left and part[2] == right and stock.first_rib_mm == stock.first_rib_mm
        first = stock.first_rib_mm if known else None
        wide, long = part[2] - part[0], part[3] - part[1]
        yield Offcut(item=plan.item, width_mm=wide, length_mm=long, first_rib_mm=first)
