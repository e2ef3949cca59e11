"""The cuts of one sheet in an order that can be followed: crosscuts by saw first, then rips along the flutes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pentice.cutting.values import Cut, Placement, SheetStock


def cuts_of(placements: Sequence[Placement], stock: SheetStock, kerf: int) -> tuple[Cut, ...]:
    """Numbered cuts that free every piece of a sheet of strips.

    Parameters
    ----------
    placements
        Pieces on the sheet, strip by strip.
    stock
        The sheet.
    kerf
        Width of a cut [mm].

    Returns
    -------
    tuple of Cut
        Positions in stock coordinates [mm]; at_mm is the near side of the kerf.
    """
    raw = [*trims_of(stock, kerf), *_strips(placements, stock, kerf)]
    return tuple(
        Cut(number=i, kind=kind, at_mm=at, from_mm=start, to_mm=end, you_get=gets)
        for i, (kind, at, start, end, gets) in enumerate(raw, 1)
    )


_Raw = tuple[str, int, int, int, str]
Part = tuple[int, int, int, int]


def parts_of(room: Part, cuts: Sequence[Cut], kerf: int) -> list[Part]:
    """What is in hand once every cut is made.

    Parameters
    ----------
    room
        Left, head, right and foot of the sheet once it is trimmed [mm].
    cuts
        Its cuts; those that trim it go through nothing of the room.
    kerf
        Width of a cut [mm].

    Returns
    -------
    list of tuple
        Left, head, right and foot of each part [mm].
    """
    parts = [room]
    for cut in cuts:
        axis = 0 if cut.kind == "rip" else 1
        for part in parts:
            inside = part[axis] < cut.at_mm < part[axis + 2]
            if inside and cut.from_mm <= part[1 - axis] and part[3 - axis] <= cut.to_mm:
                parts.remove(part)
                parts += _cut_in_two(part, axis, cut.at_mm, kerf)
                break
    return parts


def _cut_in_two(part: Part, axis: int, at: int, kerf: int) -> list[Part]:
    if axis == 0:
        return [(part[0], part[1], at, part[3]), (at + kerf, part[1], part[2], part[3])]
    return [(part[0], part[1], part[2], at), (part[0], at + kerf, part[2], part[3])]


def trims_of(stock: SheetStock, kerf: int) -> Iterator[_Raw]:
    """The edges of new stock that are cut off before anything else.

    The trim includes the kerf, so a cut at the head or the left begins a kerf short of it.

    Parameters
    ----------
    stock
        The sheet.
    kerf
        Width of a cut [mm].

    Yields
    ------
    tuple
        Kind, place, both ends and what comes off.
    """
    trim = stock.edge_trim_mm
    near = max(0, trim - kerf)
    if trim:
        yield "crosscut", near, 0, stock.width_mm, "trimmed head"
        yield "crosscut", stock.length_mm - trim, 0, stock.width_mm, "trimmed foot"
        yield "rip", near, trim, stock.length_mm - trim, "trimmed left edge"
        yield "rip", stock.width_mm - trim, trim, stock.length_mm - trim, "trimmed right edge"


def _strips(placements: Sequence[Placement], stock: SheetStock, kerf: int) -> Iterator[_Raw]:
    left, right = stock.edge_trim_mm, stock.width_mm - stock.edge_trim_mm
    bottom = stock.length_mm - stock.edge_trim_mm
    rows: dict[int, list[Placement]] = {}
    for p in placements:
        rows.setdefault(p.y_mm, []).append(p)
    ends = {y: y + max(p.length_mm for p in row) for y, row in rows.items()}
    for end in ends.values():
        if end < bottom:
            yield "crosscut", end, left, right, "one strip" if len(rows) > 1 else "a strip and what is left"
    for y, row in rows.items():
        yield from _rips(sorted(row, key=lambda p: p.x_mm), (left, right), (y, ends[y]), kerf)


def _rips(
    row: Sequence[Placement], sides: tuple[int, int], ends: tuple[int, int], kerf: int
) -> Iterator[_Raw]:
    at = sides[0]
    for p in row:
        if p.x_mm > at:
            yield "rip", p.x_mm - kerf, ends[0], ends[1], "a strip to clear the rib"
        if p.x_mm + p.width_mm < sides[1]:
            yield "rip", p.x_mm + p.width_mm, ends[0], ends[1], p.piece
        if p.y_mm + p.length_mm < ends[1]:
            yield "crosscut", p.y_mm + p.length_mm, p.x_mm, p.x_mm + p.width_mm, f"{p.piece} to length"
        at = p.x_mm + p.width_mm + kerf
