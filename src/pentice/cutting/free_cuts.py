"""From a packing of claims to sheets that can be cut: real sizes, ribs, slivers and numbered cuts, or nothing.

The general search knows rectangles only. Here each is laid at its real size where the same cuts put it, and the trade's
rules are asked: a rib inside every edge that a bar holds, and no cut that leaves less than can be held. A sheet that
breaks one is refused; the plan of strips stands then.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.cutting.ribs import fits_uncut, rib_at, ribs_hold
from pentice.cutting.saw_order import cuts_of, parts_of, room_of, turns_of
from pentice.cutting.strips import SheetKind
from pentice.cutting.values import Cut, Placement, SheetPiece, SheetStock

if TYPE_CHECKING:
    from pentice.cutting.packing import Place

HELD_MM = 2
"""The least that a cut may leave beside its kerf [mm]: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Box:
    """A piece at its real size."""

    kind: int
    x: int
    y: int
    width: int
    height: int


def placed(
    places: Sequence[Place],
    kinds: Sequence[SheetKind],
    names: Sequence[str],
    stock: SheetStock,
    kerf: int,
    stages: int | None = None,
) -> tuple[tuple[Placement, ...], tuple[Cut, ...]] | None:
    """Placements and cuts of one sheet.

    Parameters
    ----------
    places
        The claims as they were packed, in the order of ``names``.
    kinds
        Kinds of piece.
    names
        The piece that each claim is for.
    stock
        The sheet.
    kerf
        Width of a cut [mm].
    stages
        How many times the direction of the cuts may change; None for no limit.

    Returns
    -------
    tuple or None
        None where a rib would not hold, a cut would leave a sliver, or there are too many stages.
    """
    left, head, right, foot = room_of(stock)
    boxes, ends = _laid(list(enumerate(places)), kinds, (left, head), stock, kerf)
    if ends[0] > right or ends[1] > foot:
        return None
    placements = []
    for i, box in sorted(boxes, key=lambda b: (b[1].y, b[1].x)):
        at = rib_at(box.x, box.width, stock.first_rib_mm, stock.rib_pitch_mm)
        if not ribs_hold(at, kinds[box.kind].piece.rib_at_most_mm):
            return None
        placements.append(
            Placement(
                piece=names[i],
                x_mm=box.x,
                y_mm=box.y,
                width_mm=box.width,
                length_mm=box.height,
                turned_180=False,
                rib_at_mm=at,
            )
        )
    cuts = cuts_of(placements, stock, kerf)
    if stages is not None and turns_of(cuts, room_of(stock), kerf) > stages:
        cuts = cuts_of(placements, stock, kerf, rips_first=True)
        if turns_of(cuts, room_of(stock), kerf) > stages:
            return None
    return (tuple(placements), cuts) if can_be_held(cuts, stock, kerf) else None


def can_be_held(cuts: Sequence[Cut], stock: SheetStock, kerf: int) -> bool:
    """Whether every cut of a sheet parts something, and leaves nothing too narrow to be held while it is sawn off.

    Parameters
    ----------
    cuts, stock
        The sheet.
    kerf
        Width of a cut [mm].

    Returns
    -------
    bool
        True where every part is at least 2 mm wide and long. False where a piece stands less than a kerf from the edge
        of the part that it is cut from: a neighbour in another row, moved less to reach its rib, can make it so.
    """
    parts = parts_of(room_of(stock), cuts, kerf)
    if len(parts) < 1 + len(cuts) - (4 if stock.edge_trim_mm else 0):
        return False
    return all(min(p[2] - p[0], p[3] - p[1]) >= HELD_MM for p in parts)


_Laid = list[tuple[int, _Box]]


def _laid(
    places: Sequence[tuple[int, Place]],
    kinds: Sequence[SheetKind],
    at: tuple[int, int],
    stock: SheetStock,
    kerf: int,
) -> tuple[_Laid, tuple[int, int]]:
    """Claims laid at real size from one corner on, part after part, and where they end."""
    if len(places) == 1:
        i, place = places[0]
        box = _box(place, kinds[place.kind].piece, at, stock, kerf)
        return [(i, box)], (box.x + box.width, box.y + box.height)
    for axis in (1, 0):
        parts = _parts(places, axis, kerf)
        if len(parts) == 1:
            continue
        laid: _Laid = []
        corner, furthest = list(at), list(at)
        for part in parts:
            more, ends = _laid(part, kinds, (corner[0], corner[1]), stock, kerf)
            laid += more
            corner[axis] = ends[axis] + kerf
            furthest = [max(furthest[0], ends[0]), max(furthest[1], ends[1])]
        return laid, (furthest[0], furthest[1])
    raise AssertionError("a packing can always be parted")


def _box(place: Place, piece: SheetPiece, at: tuple[int, int], stock: SheetStock, kerf: int) -> _Box:
    """A claim at its real size; as wide or as long as the sheet, within its window, where it was claimed so.

    Where no rib would hold at its left edge, a strip is ripped off first: the least with which one does.
    """
    left, head, right, foot = room_of(stock)
    wide, long = piece.width_mm, piece.length_mm
    if place.width == right - left and fits_uncut(right - left, piece.least_width_mm, piece.most_width_mm):
        wide = right - left
    if place.height == foot - head and fits_uncut(foot - head, piece.least_length_mm, piece.most_length_mm):
        long = foot - head
    furthest = math.ceil(stock.rib_pitch_mm) + kerf + HELD_MM
    for x in (at[0], *range(at[0] + kerf + HELD_MM, at[0] + furthest + 1)):
        if ribs_hold(rib_at(x, wide, stock.first_rib_mm, stock.rib_pitch_mm), piece.rib_at_most_mm):
            return _Box(kind=place.kind, x=x, y=at[1], width=wide, height=long)
    return _Box(kind=place.kind, x=at[0], y=at[1], width=wide, height=long)


def _parts(places: Sequence[tuple[int, Place]], axis: int, kerf: int) -> list[list[tuple[int, Place]]]:
    """Claims that no cut across the axis parts stand together: between two parts there is room for the saw."""

    def begins(p: Place) -> int:
        return p.x if axis == 0 else p.y

    def ends(p: Place) -> int:
        return p.x + p.width if axis == 0 else p.y + p.height

    parts: list[list[tuple[int, Place]]] = []
    end = -kerf
    for i, place in sorted(places, key=lambda p: begins(p[1])):
        if begins(place) >= end + kerf:
            parts.append([])
        parts[-1].append((i, place))
        end = max(end, ends(place))
    return parts
