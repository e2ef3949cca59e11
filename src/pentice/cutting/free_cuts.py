"""From a packing of claims to sheets that can be cut: real sizes, ribs, slivers and numbered cuts, or nothing.

The general search knows rectangles only. Here each is laid at its real size where the same cuts put it, and the trade's
rules are asked: a rib inside every edge that a bar holds, and no cut that leaves less than can be held. A sheet that
breaks one is refused; the plan of strips stands then.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.cutting.ribs import leaves_well, rib_at, ribs_hold
from pentice.cutting.saw_order import trims_of
from pentice.cutting.strips import SheetKind
from pentice.cutting.values import Cut, Placement, SheetStock

if TYPE_CHECKING:
    from pentice.cutting.packing import Place

Part = tuple[int, int, int, int]
_Raw = tuple[str, int, int, int, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Box:
    """A piece at its real size."""

    kind: int
    x: int
    y: int
    width: int
    height: int

    def side(self, axis: int) -> tuple[int, int]:
        """Where it begins and ends along x (0) or y (1)."""
        return (self.x, self.x + self.width) if axis == 0 else (self.y, self.y + self.height)


def placed(
    places: Sequence[Place], kinds: Sequence[SheetKind], names: Sequence[str], stock: SheetStock, kerf: int
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

    Returns
    -------
    tuple or None
        None where a rib would not hold, or a cut would leave a sliver.
    """
    trim = stock.edge_trim_mm
    boxes, _ = _laid(list(enumerate(places)), kinds, (trim, trim), kerf)
    part = (trim, trim, stock.width_mm - trim, stock.length_mm - trim)
    raw = _freed([box for _, box in boxes], {box: names[i] for i, box in boxes}, part, kerf)
    if raw is None:
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
    cuts = [*trims_of(stock, kerf), *raw]
    return tuple(placements), tuple(
        Cut(number=n, kind=kind, at_mm=at, from_mm=start, to_mm=end, you_get=gets)
        for n, (kind, at, start, end, gets) in enumerate(cuts, 1)
    )


_Laid = list[tuple[int, _Box]]


def _laid(
    places: Sequence[tuple[int, Place]], kinds: Sequence[SheetKind], at: tuple[int, int], kerf: int
) -> tuple[_Laid, tuple[int, int]]:
    """Claims laid at real size from one corner on, part after part, and where they end."""
    if len(places) == 1:
        i, place = places[0]
        piece = kinds[place.kind].piece
        box = _Box(kind=place.kind, x=at[0], y=at[1], width=piece.width_mm, height=piece.length_mm)
        return [(i, box)], (at[0] + box.width, at[1] + box.height)
    for axis in (1, 0):
        parts = _parts(places, axis)
        if len(parts) == 1:
            continue
        laid: _Laid = []
        corner, furthest = list(at), list(at)
        for part in parts:
            more, ends = _laid(part, kinds, (corner[0], corner[1]), kerf)
            laid += more
            corner[axis] = ends[axis] + kerf
            furthest = [max(furthest[0], ends[0]), max(furthest[1], ends[1])]
        return laid, (furthest[0], furthest[1])
    raise AssertionError("a packing can always be parted")


def _parts(places: Sequence[tuple[int, Place]], axis: int) -> list[list[tuple[int, Place]]]:
    def begins(p: Place) -> int:
        return p.x if axis == 0 else p.y

    def ends(p: Place) -> int:
        return p.x + p.width if axis == 0 else p.y + p.height

    parts: list[list[tuple[int, Place]]] = []
    end = -1
    for i, place in sorted(places, key=lambda p: begins(p[1])):
        if begins(place) >= end:
            parts.append([])
        parts[-1].append((i, place))
        end = max(end, ends(place))
    return parts


def _freed(boxes: Sequence[_Box], names: dict[_Box, str], part: Part, kerf: int) -> list[_Raw] | None:
    """Cuts that free every box of a part, each leaving nothing or enough to hold; None where there are none such."""
    if len(boxes) == 1 and (boxes[0].x, boxes[0].y) == part[:2]:
        return _to_size(boxes[0], names[boxes[0]], part, kerf)
    for axis in (1, 0):
        for at in sorted({box.side(axis)[1] for box in boxes}):
            before = [b for b in boxes if b.side(axis)[1] <= at]
            after = [b for b in boxes if b.side(axis)[0] >= at + kerf]
            if not after or len(before) + len(after) < len(boxes):
                continue
            first, second = list(part), list(part)
            first[axis + 2], second[axis] = at, at + kerf
            one = _freed(before, names, (first[0], first[1], first[2], first[3]), kerf)
            two = _freed(after, names, (second[0], second[1], second[2], second[3]), kerf)
            if one is not None and two is not None:
                gets = names[before[0]] if len(before) == 1 else "a part"
                return [_cut(axis, at, part, gets), *one, *two]
            return None
    return None


def _to_size(box: _Box, name: str, part: Part, kerf: int) -> list[_Raw] | None:
    """A piece at the corner of its part: crosscut to length, then rip to width."""
    cuts: list[_Raw] = []
    for axis in (1, 0):
        end = box.side(axis)[1]
        if not leaves_well(part[axis + 2] - end, kerf):
            return None
        if end < part[axis + 2]:
            cuts.append(_cut(axis, end, part, name))
            part = (part[0], part[1], part[2], end) if axis == 1 else (part[0], part[1], end, part[3])
    return cuts


def _cut(axis: int, at: int, part: Part, gets: str) -> _Raw:
    if axis == 1:
        return ("crosscut", at, part[0], part[2], gets)
    return ("rip", at, part[1], part[3], gets)
