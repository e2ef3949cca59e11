"""An independent checker of cutting plans: knows the values of a plan and nothing of how it was made."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product
from math import floor

from pentice.cutting.shop import USUAL, Shop
from pentice.cutting.values import (
    LengthPiece,
    LengthPlans,
    LengthStock,
    Placement,
    SheetPiece,
    SheetPlan,
    SheetPlans,
    SheetStock,
)

Box = tuple[int, int, int, int]


def faults_of_sheets(
    plans: SheetPlans,
    pieces: Sequence[SheetPiece],
    stocks: Sequence[SheetStock],
    kerf: int,
    shop: Shop = USUAL,
) -> list[str]:
    """Everything that is wrong with sheet plans; empty where nothing is."""
    wanted = {p.id: p for p in pieces}
    known = {(s.item, s.id): s for s in stocks}
    placed = [p.piece for plan in plans.sheets for p in plan.placements]
    faults = [f"{id} is cut {placed.count(id)} times" for id in wanted if placed.count(id) != 1]
    faults += [f"{id} is not wanted" for id in placed if id not in wanted]
    used = Counter((plan.item, plan.stock) for plan in plans.sheets)
    for key, count in used.items():
        limit = known[key].count
        if limit is not None and count > limit:
            faults.append(f"{key} is used {count} times")
    for plan in plans.sheets:
        faults += _faults_of_sheet(plan, wanted, known[plan.item, plan.stock], kerf)
        if shop.stages is not None and stages(plan, kerf) > shop.stages:
            faults.append(f"{plan.stock} is cut in {stages(plan, kerf)} stages")
    cost = credit = 0
    for plan in plans.sheets:
        stock = known[plan.item, plan.stock]
        cost += 0 if stock.offcut else stock.price
        area = sum(
            w * h for w, h in rests(plan, kerf) if w >= shop.keep_sheet_mm[0] and h >= shop.keep_sheet_mm[1]
        )
        credit += _credit(stock, Fraction(area, stock.width_mm * stock.length_mm), shop)
    return faults + list(_faults_of_cost(cost, credit, plans, shop))


def _credit(stock: SheetStock | LengthStock, kept: Fraction, shop: Shop) -> int:
    """What is kept of one piece of stock counts for, less what an offcut was worth."""
    whole = stock.worth if stock.offcut else stock.price
    share = shop.keep_share if shop.aim == "least cost" else 0
    return floor(share * whole * kept) - (stock.worth if stock.offcut else 0)


def _faults_of_cost(cost: int, credit: int, said: SheetPlans | LengthPlans, shop: Shop) -> Iterator[str]:
    if (cost, credit) != (said.cost, said.credit):
        yield f"cost and credit are {cost} and {credit}, not {said.cost} and {said.credit}"
    if said.bound > cost - credit:
        yield f"the bound {said.bound} is above the cost {cost} less {credit}"
    if shop.aim == "least cost" and said.proven != (said.bound == cost - credit):
        yield f"proven is {said.proven}, bound and cost are {said.bound} and {cost - credit}"


def rests(plan: SheetPlan, kerf: int) -> list[tuple[int, int]]:
    """Width and length of what the cuts of a sheet leave besides its pieces."""
    boxes = {(p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm) for p in plan.placements}
    return [(p[2] - p[0], p[3] - p[1]) for p, _ in _followed(plan, kerf) if p not in boxes]


def stages(plan: SheetPlan, kerf: int) -> int:
    """How often the direction changes, the first cut among it, on the way to any part."""
    runs = (
        sum(1 for k, kind in enumerate(way) if k == 0 or way[k - 1] != kind)
        for _, way in _followed(plan, kerf)
    )
    return max(runs)


def _followed(plan: SheetPlan, kerf: int) -> list[tuple[Box, str]]:
    """Every part in hand once all cuts are made, with the directions of the cuts that made it: "r" and "c"."""
    parts: list[tuple[Box, str]] = [((0, 0, plan.width_mm, plan.length_mm), "")]
    for cut in plan.cuts:
        axis = 0 if cut.kind == "rip" else 1
        found = next(
            p
            for p in parts
            if p[0][axis] <= cut.at_mm < p[0][axis + 2] and cut.from_mm <= p[0][1 - axis] < cut.to_mm
        )
        parts.remove(found)
        for start, end in ((found[0][axis], cut.at_mm), (cut.at_mm + kerf, found[0][axis + 2])):
            if start < end:
                sides = list(found[0])
                sides[axis], sides[axis + 2] = start, end
                parts.append(((sides[0], sides[1], sides[2], sides[3]), found[1] + cut.kind[0]))
    return parts


def _faults_of_sheet(
    plan: SheetPlan, wanted: dict[str, SheetPiece], stock: SheetStock, kerf: int
) -> Iterator[str]:
    if (plan.width_mm, plan.length_mm) != (stock.width_mm, stock.length_mm):
        yield f"{plan.stock} has another size"
    trim = stock.edge_trim_mm
    inside = (trim, trim, stock.width_mm - trim, stock.length_mm - trim)
    boxes: list[Box] = []
    for p in plan.placements:
        box = (p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm)
        boxes.append(box)
        if box[0] < inside[0] or box[1] < inside[1] or box[2] > inside[2] or box[3] > inside[3]:
            yield f"{p.piece} lies outside its stock"
        if p.piece in wanted:
            yield from _faults_of_piece(p, wanted[p.piece], stock)
    if not separable(boxes, inside, kerf):
        yield f"{plan.stock} cannot be cut edge to edge with a kerf of {kerf}"
    yield from _faults_of_cuts(plan, boxes, kerf, trim)
    if _claims(boxes, [wanted.get(p.piece) for p in plan.placements], inside, kerf) is False:
        yield f"{plan.stock} does not hold the reserve"


def _faults_of_cuts(plan: SheetPlan, boxes: Sequence[Box], kerf: int, trim: int) -> Iterator[str]:
    """Follows the numbered cuts: each goes edge to edge through one part in hand and leaves enough to hold."""
    parts: list[Box] = [(0, 0, plan.width_mm, plan.length_mm)]
    if [cut.number for cut in plan.cuts] != list(range(1, len(plan.cuts) + 1)):
        yield f"{plan.stock} has cuts that are not numbered in order"
    for k, cut in enumerate(plan.cuts):
        across, along = (0, 1) if cut.kind == "rip" else (1, 0)
        through = [
            p
            for p in parts
            if p[across] <= cut.at_mm < p[across + 2] and cut.from_mm < p[along + 2] and p[along] < cut.to_mm
        ]
        if len(through) != 1 or not cut.from_mm <= through[0][along] < through[0][along + 2] <= cut.to_mm:
            yield f"cut {cut.number} of {plan.stock} does not go through one part"
            return
        part = through[0]
        before, after = list(part), list(part)
        before[across + 2], after[across] = cut.at_mm, min(cut.at_mm + kerf, part[across + 2])
        beyond = part[across + 2] - cut.at_mm
        if beyond < kerf + 2 and not (trim and k < 4):
            yield f"cut {cut.number} of {plan.stock} leaves {beyond}"
        parts.remove(part)
        parts += [(b[0], b[1], b[2], b[3]) for b in (before, after) if b[0] < b[2] and b[1] < b[3]]
    for box in boxes:
        if box not in parts:
            yield f"no part of {plan.stock} is {box} once it is cut"


def _claims(boxes: Sequence[Box], pieces: Sequence[SheetPiece | None], inside: Box, kerf: int) -> bool:
    """Whether the same cuts would still do if each cut piece were longer and wider by its reserve."""
    width, length = inside[2] - inside[0], inside[3] - inside[1]
    claims: list[tuple[Box, tuple[int, int]]] = []
    for box, piece in zip(boxes, pieces, strict=True):
        if piece is None:
            continue
        uncut_w, uncut_l = box[2] - box[0] == width, box[3] - box[1] == length
        wide = width if uncut_w else piece.width_mm + piece.reserve_mm[0]
        long = length if uncut_l else piece.length_mm + piece.reserve_mm[1]
        claims.append((box, (wide, long)))
    return not claims or any(w <= width and n <= length for w, n in _extents(claims, kerf))


def _extents(claims: Sequence[tuple[Box, tuple[int, int]]], kerf: int) -> set[tuple[int, int]]:
    """Width and length that the claims take together: parted side by side, or one below the other."""
    if len(claims) == 1:
        return {claims[0][1]}
    found = set()
    for axis in (0, 1):
        parts: list[list[tuple[Box, tuple[int, int]]]] = []
        end = -1
        for claim in sorted(claims, key=lambda c: c[0][axis]):
            if not parts or claim[0][axis] >= end + kerf:
                parts.append([])
            parts[-1].append(claim)
            end = max(end, claim[0][axis + 2])
        if len(parts) == 1:
            continue
        for sizes in product(*(_extents(part, kerf) for part in parts)):
            total = sum(size[axis] for size in sizes) + kerf * (len(parts) - 1)
            across = max(size[1 - axis] for size in sizes)
            found.add((total, across) if axis == 0 else (across, total))
    return found


def _faults_of_piece(p: Placement, piece: SheetPiece, stock: SheetStock) -> Iterator[str]:
    if not piece.least_width_mm <= p.width_mm <= piece.most_width_mm:
        yield f"{p.piece} is {p.width_mm} wide"
    if not piece.least_length_mm <= p.length_mm <= piece.most_length_mm:
        yield f"{p.piece} is {p.length_mm} long"
    uncut = p.width_mm == stock.width_mm - 2 * stock.edge_trim_mm
    limit = tuple(at - (piece.width_mm - p.width_mm) for at in piece.rib_at_most_mm)
    ribs = [stock.first_rib_mm + k * stock.rib_pitch_mm for k in range(4000)]
    within = [r for r in ribs if p.x_mm + 1 <= r <= p.x_mm + p.width_mm - 1]
    if not uncut and within and limit[0] != float("inf"):
        left, right = within[0] - p.x_mm, p.x_mm + p.width_mm - within[-1]
        if left > limit[0] + 1e-9 or right > limit[1] + 1e-9:
            yield f"{p.piece} has ribs at {left:g} and {right:g}"


def separable(boxes: Sequence[Box], room: Box, kerf: int) -> bool:
    """True where edge-to-edge cuts free every box, each cut a kerf wide."""
    if len(boxes) <= 1:
        return True
    for axis in (0, 1):
        for at in sorted({box[axis + 2] for box in boxes}):
            if at + kerf > room[axis + 2]:
                continue
            before = [b for b in boxes if b[axis + 2] <= at]
            after = [b for b in boxes if b[axis] >= at + kerf]
            if before and after and len(before) + len(after) == len(boxes):
                first, second = list(room), list(room)
                first[axis + 2], second[axis] = at, at + kerf
                if separable(before, tuple(first), kerf) and separable(after, tuple(second), kerf):  # type: ignore[arg-type]  # four numbers stay four
                    return True
    return False


def faults_of_lengths(
    plans: LengthPlans,
    pieces: Sequence[LengthPiece],
    stocks: Sequence[LengthStock],
    kerf: int,
    shop: Shop = USUAL,
) -> list[str]:
    """Everything that is wrong with length plans; empty where nothing is."""
    wanted = {p.id: p for p in pieces}
    known = {(s.item, s.id): s for s in stocks}
    placed = [p.piece for plan in plans.lengths for p in plan.pieces]
    faults = [f"{id} is cut {placed.count(id)} times" for id in wanted if placed.count(id) != 1]
    used = Counter((plan.item, plan.stock) for plan in plans.lengths)
    for key, count in used.items():
        limit = known[key].count
        if limit is not None and count > limit:
            faults.append(f"{key} is used {count} times")
    cost = credit = 0
    for plan in plans.lengths:
        stock = known[plan.item, plan.stock]
        at = stock.trim_mm
        for p in sorted(plan.pieces, key=lambda p: p.at_mm):
            if p.at_mm < at:
                faults.append(f"{p.piece} overlaps or leaves no kerf")
            if p.piece in wanted and p.length_mm != wanted[p.piece].length_mm:
                faults.append(f"{p.piece} is {p.length_mm} long")
            at = p.at_mm + p.length_mm + kerf
        if at - kerf > stock.length_mm - stock.trim_mm:
            faults.append(f"{plan.stock} is too short")
        left = stock.length_mm - stock.trim_mm - at
        cost += 0 if stock.offcut else stock.price
        credit += _credit(stock, Fraction(left if left >= shop.keep_length_mm else 0, stock.length_mm), shop)
    return faults + list(_faults_of_cost(cost, credit, plans, shop))
