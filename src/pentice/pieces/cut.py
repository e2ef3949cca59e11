"""Hands the pieces and the stock of a job to the cutting core, in whole mm and whole pence."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from pentice.catalogue.model import Catalogue, StockLength
from pentice.catalogue.parts import Parts
from pentice.cutting import cut_lengths, cut_sheets
from pentice.cutting.shop import Shop
from pentice.cutting.values import (
    CutPlan,
    LengthPiece,
    LengthPlans,
    LengthStock,
    SheetPiece,
    SheetPlans,
    SheetStock,
    Slant,
    cut_plan,
)
from pentice.errors import NoSolution
from pentice.job.model import Job, StockSize
from pentice.mechanics.movement import BITE_LEAST_MM
from pentice.pieces.as_cut import number_of_side
from pentice.pieces.values import Piece
from pentice.setting_out.sheets import sheet_stock
from pentice.setting_out.values import Bay, EdgeFit, SettingOut, SideFit


def cut_from_stock(
    pieces: tuple[Piece, ...], job: Job, parts: Parts, catalogue: Catalogue, setting_out: SettingOut
) -> CutPlan:
    """The cutting of a whole job: sheets and lengths at least cost, with a proven bound.

    Parameters
    ----------
    pieces
        What must exist.
    job, parts, catalogue
        Stock sizes, offcuts in hand, kerfs, and what reaches the site.
    setting_out
        Bites of each bay, which say how near to its edge a sheet's first rib must stand.

    Returns
    -------
    CutPlan
        Sheets and lengths together; money in pence.

    Raises
    ------
    NoSolution
        A piece fits no stock: names the piece, its size and the longest there is.
    """
    sheets = _sheets_of(pieces, job, parts, setting_out)
    return cut_plan(sheets, _lengths_of(pieces, job, catalogue), job.stock.aim)


def cut_best_of(
    ways: Sequence[tuple[Piece, ...]],
    least: tuple[Piece, ...],
    job: Job,
    parts: Parts,
    catalogue: Catalogue,
    setting_out: SettingOut,
) -> tuple[tuple[Piece, ...], CutPlan]:
    """The way to make blanks for a roof that is cut best, and its cutting.

    Parameters
    ----------
    ways
        All pieces, with blanks of sheet in one way or another; everything that is not sheet is the same in all.
    least
        The same with blanks that need no more than those of any way: what they must cost, every way must.
    job, parts, catalogue, setting_out
        As for `cut_from_stock`.

    Returns
    -------
    tuple
        The first of the best ways, and the plan; its bound holds for every way.

    Raises
    ------
    NoSolution
        A piece fits no stock.
    """
    plans = [(pieces, _sheets_of(pieces, job, parts, setting_out)) for pieces in ways]

    def rank(plan: SheetPlans) -> tuple[int, int]:
        bought = sum(sheet.price > 0 for sheet in plan.sheets)
        return (bought if job.stock.aim == "fewest sheets" else 0, plan.cost - plan.credit)

    pieces, sheets = min(plans, key=lambda way: rank(way[1]))
    if len(ways) > 1:
        below = _sheets_of(least, job, parts, setting_out, for_cost=True)
        proven = below.proven and rank(below) == rank(sheets)
        sheets = replace(sheets, bound=min(sheets.bound, below.bound), proven=proven)
    return pieces, cut_plan(sheets, _lengths_of(pieces, job, catalogue), job.stock.aim)


def _sheets_of(
    pieces: tuple[Piece, ...], job: Job, parts: Parts, setting_out: SettingOut, *, for_cost: bool = False
) -> SheetPlans:
    return cut_sheets(
        sheet_pieces(pieces, setting_out),
        sheet_stocks(job, parts),
        kerf_mm=job.stock.sheet_kerf_mm,
        any_cuts=True,
        shop=shop_of(job),
        for_cost=for_cost,
    )


def _lengths_of(pieces: tuple[Piece, ...], job: Job, catalogue: Catalogue) -> LengthPlans:
    return cut_lengths(
        tuple(length_pieces(pieces, job, catalogue)),
        length_stocks(pieces, job, catalogue),
        kerf_mm=job.stock.bar_kerf_mm,
        shop=shop_of(job),
    )


def shop_of(job: Job) -> Shop:
    """The shop's rules that a job is cut by.

    Parameters
    ----------
    job
        Its ``stock``.

    Returns
    -------
    Shop
        Least sizes in whole mm, rounded up; the share exactly as it was written.

    Examples
    --------
    >>> shop_of(Job()).keep_sheet_mm
    (300, 300)
    """
    stock = job.stock
    width, length = stock.keep_mm
    return Shop(
        aim=stock.aim,
        keep_sheet_mm=(math.ceil(width), math.ceil(length)),
        keep_length_mm=math.ceil(stock.keep_length_mm),
        keep_share=Fraction(str(stock.keep_share)),
        stages=3 if stock.saw_bench else None,
        effort=stock.search_effort,
    )


@contextmanager
def limits_named(job: Job) -> Iterator[None]:
    """Where a piece fits no stock, say which keys of the job leave stock out: they are the nearest way out.

    Parameters
    ----------
    job
        Its ``stock.longest_mm`` and ``stock.only``.

    Raises
    ------
    NoSolution
        The same, with the keys named.

    Examples
    --------
    >>> with limits_named(Job()):
    ...     raise NoSolution("S1 fits no stock.")
    Traceback (most recent call last):
    pentice.errors.NoSolution: S1 fits no stock.
    """
    try:
        yield
    except NoSolution as fault:
        longest = job.stock.longest_mm
        keys = [f"stock.longest_mm = {longest:g}"] if longest is not None else []
        keys += ["stock.only"] if job.stock.only else []
        if not keys or "stock.longest_mm" in str(fault):
            raise
        leave = "leave" if len(keys) > 1 else "leaves"
        raise NoSolution(f"{fault} First look at the job: {' and '.join(keys)} {leave} stock out.") from fault


def pence(amount: Decimal) -> int:
    """An amount of money in its smallest unit.

    Examples
    --------
    >>> pence(Decimal("12.50"))
    1250
    """
    return int((amount * 100).to_integral_value())


def sheet_pieces(pieces: Iterable[Piece], setting_out: SettingOut) -> tuple[SheetPiece, ...]:
    """The sheets among the pieces, each with its window and how near its ribs must be.

    Parameters
    ----------
    pieces
        What must exist.
    setting_out
        The bays, for their bites.

    Returns
    -------
    tuple of SheetPiece
        Whole mm, rounded down.
    """
    bays = {bay.number: bay for bay in setting_out.plane.bays}
    sides = {fit.number: fit for fit in setting_out.side_sheets}
    return tuple(_sheet_piece(p, bays, sides) for p in pieces if p.kind == "sheet")


def _sheet_piece(piece: Piece, bays: dict[int, Bay], sides: dict[int, SideFit]) -> SheetPiece:
    width, length = math.floor(piece.width_mm), math.floor(piece.length_mm)
    least, most = piece.least_mm or (width, length), piece.most_mm or (width, length)
    limits = (math.inf, math.inf)
    if piece.rib_at_mm is not None and piece.bay is not None:
        edges = bays[piece.bay].edges
        limits = (rib_at_most(piece.rib_at_mm[0], edges.left), rib_at_most(piece.rib_at_mm[1], edges.right))
    elif piece.rib_at_mm is not None and piece.side_parts:
        most_in = min(side_rib_at_most(sides[number_of_side(part)]) for part in piece.side_parts)
        limits = (most_in, most_in)
    return SheetPiece(
        id=piece.id,
        item=piece.item,
        width_mm=width,
        length_mm=length,
        least_width_mm=min(math.ceil(least[0]), width),
        least_length_mm=min(math.ceil(least[1]), length),
        most_width_mm=max(math.floor(most[0]), width),
        most_length_mm=max(math.floor(most[1]), length),
        rib_at_most_mm=limits,
        reserve_mm=(math.ceil(piece.reserve_mm[0]), math.ceil(piece.reserve_mm[1])),
    )


def rib_at_most(planned_mm: float, edge: EdgeFit) -> float:
    """How far a rib may stand inside an edge so that no check asks for more than it did with the planned one.

    Parameters
    ----------
    planned_mm
        Edge to its first upright rib as the sheet was planned [mm].
    edge
        How that edge is held.

    Returns
    -------
    float
        A distance [mm]; infinite where no place holds.
    """
    if planned_mm + 1.0 > edge.bite_cold_mm:
        return math.inf  # no place holds: the sheet is cut to the most, and the bite check fails it
    return max(planned_mm, BITE_LEAST_MM - 1.0)


def side_rib_at_most(fit: SideFit) -> float:
    """How far a rib may stand inside an upright edge of a side sheet so that it stands in the bite on the coldest day.

    Parameters
    ----------
    fit
        The sheet as it is set out.

    Returns
    -------
    float
        A distance [mm]; infinite where no place holds: then the bite check fails it.

    Source
    ------
    10 mm and one rib: judgement, no source.
    """
    if max(fit.ribs_mm) + 1.0 > fit.bite_side_cold_mm:
        return math.inf
    return fit.bite_side_cold_mm - 1.0


def sheet_stocks(job: Job, parts: Parts) -> tuple[SheetStock, ...]:
    """Sheets that can be bought, and the offcuts in hand.

    Parameters
    ----------
    job, parts
        The job and its products.

    Returns
    -------
    tuple of SheetStock
        Prices in pence; an offcut costs nothing, and has its worth.

    Raises
    ------
    NoSolution
        [stock] leaves no size of the sheet to buy.
    """
    sheet, item = parts.sheet, f"sheets.{parts.sheet.id}"
    bought = sheet_stock(job, parts)
    if not bought:
        raise NoSolution(
            f"{sheet.id} in {parts.tint}: no stock size is left to buy; look at stock.only, stock.longest_mm, the tint."
        )
    new = [
        SheetStock(
            id=f"{sheet.id} {s.width_mm:g}x{s.length_mm:g}",
            item=item,
            width_mm=math.floor(s.width_mm),
            length_mm=math.floor(s.length_mm),
            price=pence(s.price),
            count=None,
            offcut=False,
            rib_pitch_mm=sheet.rib_pitch_mm,
            first_rib_mm=sheet.first_rib_mm,
            trim_mm=math.ceil(sheet.trim_mm),
        )
        for s in bought
    ]
    old = [
        SheetStock(
            id=o.mark or f"offcut {k}",
            item=item,
            width_mm=math.floor(o.width_mm),
            length_mm=math.floor(o.length_mm),
            price=0,
            count=1,
            offcut=True,
            rib_pitch_mm=sheet.rib_pitch_mm,
            first_rib_mm=o.first_rib_mm if o.first_rib_mm is not None else math.nan,
            worth=pence(o.worth),
        )
        for k, o in enumerate(job.stock.offcuts, 1)
        if o.item == sheet.id and o.width_mm is not None and o.tint in (None, parts.tint)
    ]
    return (*new, *old)


def length_pieces(pieces: Iterable[Piece], job: Job, catalogue: Catalogue) -> Iterator[LengthPiece]:
    """The lengths among the pieces; what may be joined is split where no stock is long enough.

    Parameters
    ----------
    pieces
        What must exist.
    job, catalogue
        The lengths that can be bought.

    Yields
    ------
    LengthPiece
        Whole mm.
    """
    for piece in pieces:
        if piece.kind != "length":
            continue
        if piece.back_mm is not None and piece.end_cuts is not None:
            yield _plumb(piece, piece.back_mm, piece.end_cuts[0].across_deg)
            continue
        longest = max((n for n, _ in _lengths(piece.item, job, catalogue)), default=0)
        whole = math.floor(piece.length_mm)
        if piece.one_piece or whole <= longest or longest == 0:
            yield LengthPiece(id=piece.id, item=piece.item, length_mm=whole)
            continue
        for k, part in enumerate(split_length(whole, longest), 1):
            yield LengthPiece(id=f"{piece.id}/{k}", item=piece.item, length_mm=part)


def _plumb(piece: Piece, back_mm: float, across_deg: float) -> LengthPiece:
    """A rafter that is cut plumb at the saw: its length along the back, its ends lean over the depth that is bought."""
    depth = math.ceil(float(piece.item.rpartition("x")[2]))
    slant = Slant(deg=90.0 - across_deg, depth_mm=depth)
    return LengthPiece(
        id=piece.id, item=piece.item, length_mm=math.ceil(back_mm), slant=slant if slant.lean_mm else None
    )


JOINED_LEAST_MM = 600
"""Shortest part of a joined gutter, plate or profile: judgement, no source."""


def split_length(whole_mm: int, longest_mm: int) -> tuple[int, ...]:
    """A length made up of full stock lengths and the rest; the rest is not left shorter than 600 where that can be.

    Parameters
    ----------
    whole_mm
        The whole run [mm].
    longest_mm
        Longest stock there is [mm].

    Returns
    -------
    tuple of int
        Parts in the order of the run [mm]; together the whole.

    Examples
    --------
    >>> split_length(9000, 4000), split_length(4311, 4000), split_length(3000, 4000)
    ((4000, 4000, 1000), (3711, 600), (3000,))
    """
    full, rest = divmod(whole_mm, longest_mm)
    if rest == 0:
        return (longest_mm,) * full
    if full == 0 or rest >= JOINED_LEAST_MM or longest_mm < 2 * JOINED_LEAST_MM:
        return (*(longest_mm,) * full, rest)
    return (*(longest_mm,) * (full - 1), longest_mm + rest - JOINED_LEAST_MM, JOINED_LEAST_MM)


def length_stocks(pieces: Iterable[Piece], job: Job, catalogue: Catalogue) -> tuple[LengthStock, ...]:
    """Lengths that can be bought for these pieces, and the offcuts in hand.

    Parameters
    ----------
    pieces
        What must exist.
    job, catalogue
        The job and its products.

    Returns
    -------
    tuple of LengthStock
        Prices in pence.
    """
    items = dict.fromkeys(p.item for p in pieces if p.kind == "length")
    found = []
    for item in items:
        name = item.split(".", 1)[1]
        for length, price in _lengths(item, job, catalogue):
            found.append(
                LengthStock(
                    id=f"{name} {length}",
                    item=item,
                    length_mm=length,
                    price=pence(price),
                    count=None,
                    offcut=False,
                )
            )
        for k, o in enumerate(job.stock.offcuts, 1):
            if o.width_mm is None and o.item == name:
                mark = o.mark or f"offcut {k}"
                found.append(
                    LengthStock(
                        id=mark,
                        item=item,
                        length_mm=math.floor(o.length_mm),
                        price=0,
                        count=1,
                        offcut=True,
                        worth=pence(o.worth),
                    )
                )
    return tuple(found)


def _lengths(item: str, job: Job, catalogue: Catalogue) -> tuple[tuple[int, Decimal], ...]:
    """Length and price of each stock of one item that reaches the site."""
    longest = job.stock.longest_mm or math.inf
    kind, _, name = item.partition(".")
    id, _, more = name.partition(" ")
    only = tuple(s for s in job.stock.only if s.item == id)
    if kind == "timbers":
        timber = catalogue.timbers[id]
        b, _, h = more.partition("x")
        size = (float(b), float(h))
        rows = [(t.length_mm, timber.price_of(size, t.length_mm)) for t in timber.lengths]
    else:
        rows = [(s.length_mm, s.price) for s in _stock_lengths(kind, id, more, catalogue)]
    return tuple((math.floor(n), price) for n, price in rows if n <= longest and _allowed(n, only))


def _allowed(length_mm: float, only: tuple[StockSize, ...]) -> bool:
    return not only or any(s.length_mm in (None, length_mm) for s in only)


def _stock_lengths(kind: str, id: str, more: str, catalogue: Catalogue) -> tuple[StockLength, ...]:
    if kind == "bars":
        bar = catalogue.bars[id]
        return bar.cap_lengths if more == "cap" else bar.lengths
    if kind == "profiles":
        return catalogue.profiles[id].lengths
    if kind == "sections":
        return catalogue.sections[id].lengths
    return catalogue.gutters[id].lengths
