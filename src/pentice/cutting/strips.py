"""One strip of a sheet: pieces side by side, flutes along them, each with its ribs where its edges can hold them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from pentice.cutting.ribs import fits_uncut, leaves_well, rib_at, ribs_hold
from pentice.cutting.values import SheetPiece, SheetStock

STRIPS_MOST = 600
ORDERS_MOST = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetKind:
    """Pieces alike: one of them as the pattern, and their names."""

    piece: SheetPiece
    ids: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """One piece of a strip: its kind, where it begins on the stock and how wide it is cut [mm]."""

    kind: int
    x_mm: int
    width_mm: int
    rib_at_mm: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStrip:
    """Pieces side by side on one width of stock."""

    pieces: tuple[Lying, ...]
    height_mm: int
    """Length of the longest piece as cut [mm]."""
    claim_mm: int
    """Length that the stock must have for it [mm]."""


def strips_of(kinds: Sequence[SheetKind], stock: SheetStock, kerf: int) -> tuple[SheetStrip, ...] | None:
    """Every strip of a stock to which no further piece can be added.

    Parameters
    ----------
    kinds
        Kinds of piece, widest first.
    stock
        The sheet.
    kerf
        Width of a cut [mm].

    Returns
    -------
    tuple or None
        None when there are too many to list.
    """
    found: dict[tuple[int, ...], SheetStrip | None] = {}
    for taken in _choices(kinds, stock, kerf):
        _add(found, kinds, taken, stock, kerf)
        if len(found) > STRIPS_MOST:
            return None
    return tuple(strip for strip in found.values() if strip is not None)


def _add(
    found: dict[tuple[int, ...], SheetStrip | None],
    kinds: Sequence[SheetKind],
    taken: tuple[int, ...],
    stock: SheetStock,
    kerf: int,
) -> None:
    """A choice, or, where its ribs do not hold, what remains of it with one piece fewer. Each is tried once."""
    if not taken or taken in found:
        return
    found[taken] = laid(kinds, taken, stock, kerf)
    if found[taken] is None:
        for i in range(len(taken)):
            _add(found, kinds, taken[:i] + taken[i + 1 :], stock, kerf)


def _choices(kinds: Sequence[SheetKind], stock: SheetStock, kerf: int) -> Iterator[tuple[int, ...]]:
    """Full choices by width alone; a stock used uncut in its width is a choice of one."""
    room = stock.width_mm - 2 * stock.edge_trim_mm
    usable = [k for k, kind in enumerate(kinds) if length_claim(kind.piece, stock) is not None]

    def fill(i: int, left: int, taken: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        if i == len(usable):
            full = not any(
                claim_width(kinds[k].piece) <= left and taken.count(k) < len(kinds[k].ids) for k in usable
            )
            if taken and full:
                yield taken
            return
        k = usable[i]
        claim = claim_width(kinds[k].piece)
        most = min(len(kinds[k].ids), max(0, (left + kerf) // (claim + kerf)))
        for n in range(most, -1, -1):
            yield from fill(i + 1, left - n * (claim + kerf), taken + (k,) * n)

    seen = set()
    for k in usable:
        piece = kinds[k].piece
        if fits_uncut(room, piece.least_width_mm, piece.most_width_mm):
            seen.add((k,))
            yield (k,)
    for taken in fill(0, room, ()):
        if taken not in seen:
            yield taken


def claim_width(piece: SheetPiece) -> int:
    """Width that a stock to be ripped must have for a piece.

    Parameters
    ----------
    piece
        The piece, with its reserve [mm].

    Returns
    -------
    int
        [mm].

    Examples
    --------
    >>> piece = SheetPiece(id="S1", item="s", width_mm=688, length_mm=2488, least_width_mm=683, most_width_mm=688,
    ...     least_length_mm=2486, most_length_mm=2488, rib_at_most_mm=(15.0, 15.0), reserve_mm=(5, 15))
    >>> claim_width(piece)
    693
    """
    return piece.width_mm + piece.reserve_mm[0]


def length_claim(piece: SheetPiece, stock: SheetStock) -> int | None:
    """Length that a piece takes of a stock [mm]: all of it uncut, else its own and the reserve; None: too long.

    Parameters
    ----------
    piece, stock
        The piece and the sheet.

    Returns
    -------
    int or None
        [mm].
    """
    room = stock.length_mm - 2 * stock.edge_trim_mm
    if fits_uncut(room, piece.least_length_mm, piece.most_length_mm):
        return room
    claim = piece.length_mm + piece.reserve_mm[1]
    return claim if claim <= room else None


def cut_length(piece: SheetPiece, stock: SheetStock) -> int:
    """Length to which a piece comes from a stock [mm]: the stock's own where it serves uncut.

    Parameters
    ----------
    piece, stock
        The piece and the sheet.

    Returns
    -------
    int
        [mm].
    """
    room = stock.length_mm - 2 * stock.edge_trim_mm
    return room if fits_uncut(room, piece.least_length_mm, piece.most_length_mm) else piece.length_mm


def laid(
    kinds: Sequence[SheetKind], taken: tuple[int, ...], stock: SheetStock, kerf: int
) -> SheetStrip | None:
    """The choice laid on the stock in an order in which every rib holds.

    Parameters
    ----------
    kinds, taken
        Kinds of piece, and which of them.
    stock
        The sheet.
    kerf
        Width of a cut [mm].

    Returns
    -------
    SheetStrip or None
        None where no order holds every rib.
    """
    pieces = [kinds[k].piece for k in taken]
    claims = [length_claim(p, stock) or 0 for p in pieces]
    height = max(cut_length(p, stock) for p in pieces)
    orders = list(islice(_orders(taken), ORDERS_MOST))
    for order in [taken, *[o for o in orders if o != taken]]:
        lying = _side_by_side(kinds, order, stock, kerf)
        if lying is not None:
            return SheetStrip(pieces=lying, height_mm=height, claim_mm=max(claims))
    return None


def _orders(taken: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Every order of a choice, equal pieces not told apart."""
    if not taken:
        yield ()
    for first in dict.fromkeys(taken):
        i = taken.index(first)
        for rest in _orders(taken[:i] + taken[i + 1 :]):
            yield (first, *rest)


def _side_by_side(
    kinds: Sequence[SheetKind], order: tuple[int, ...], stock: SheetStock, kerf: int
) -> tuple[Lying, ...] | None:
    """The pieces in one order, each where its ribs hold. Every place is tried that can matter: ribs come back after
    one pitch, so moving on by more than a pitch and a clean rip is never needed."""
    left_edge, right_edge = stock.edge_trim_mm, stock.width_mm - stock.edge_trim_mm
    room = right_edge - left_edge
    if len(order) == 1:
        piece = kinds[order[0]].piece
        if fits_uncut(room, piece.least_width_mm, piece.most_width_mm):
            ribs = rib_at(left_edge, room, stock.first_rib_mm, stock.rib_pitch_mm)
            return (Lying(kind=order[0], x_mm=left_edge, width_mm=room, rib_at_mm=ribs),)
    slack = room - sum(claim_width(kinds[k].piece) for k in order) - kerf * (len(order) - 1)
    if slack < 0:
        return None
    reached: dict[int, tuple[Lying, ...]] = {left_edge: ()}
    at_least = left_edge
    for k in order:
        reached = _next(kinds[k].piece, k, stock, reached, at_least + slack, kerf)
        at_least += kinds[k].piece.width_mm + kerf
    for x in sorted(reached):
        lying = _clean_end(kinds, reached[x], stock, right_edge, kerf)
        if lying is not None:
            return lying
    return None


def _next(
    piece: SheetPiece,
    kind: int,
    stock: SheetStock,
    reached: dict[int, tuple[Lying, ...]],
    last: int,
    kerf: int,
) -> dict[int, tuple[Lying, ...]]:
    """Every place that one more piece can take after the ones that lie: straight on, or after a strip that is ripped
    off. For each place where it can end, the row with the fewest such strips."""
    found: dict[int, tuple[Lying, ...]] = {}
    furthest = math.ceil(stock.rib_pitch_mm) + kerf + 2
    tried: set[int] = set()  # what lies before a place does not move the ribs there
    for x, row in reached.items():
        for at in (x, *range(x + kerf + 2, min(last, x + furthest) + 1)):
            if at in tried:
                continue
            tried.add(at)
            ribs = rib_at(at, piece.width_mm, stock.first_rib_mm, stock.rib_pitch_mm)
            if ribs_hold(ribs, piece.rib_at_most_mm):
                lying = Lying(kind=kind, x_mm=at, width_mm=piece.width_mm, rib_at_mm=ribs)
                found[at + piece.width_mm + kerf] = (*row, lying)
    return found


def _clean_end(
    kinds: Sequence[SheetKind], row: tuple[Lying, ...], stock: SheetStock, right_edge: int, kerf: int
) -> tuple[Lying, ...] | None:
    """A cut leaves nothing, or enough to hold: else the last piece is cut narrower within its window."""
    last = row[-1]
    piece = kinds[last.kind].piece
    for width in range(last.width_mm, piece.least_width_mm - 1, -1):
        rest = right_edge - last.x_mm - width
        if not leaves_well(rest, kerf):
            continue
        ribs = rib_at(last.x_mm, width, stock.first_rib_mm, stock.rib_pitch_mm)
        narrower = last.width_mm - width
        limits = (piece.rib_at_most_mm[0] - narrower, piece.rib_at_most_mm[1] - narrower)
        if ribs_hold(ribs, limits):
            return (*row[:-1], Lying(kind=last.kind, x_mm=last.x_mm, width_mm=width, rib_at_mm=ribs))
    return None
