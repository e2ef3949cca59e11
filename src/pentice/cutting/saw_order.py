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
    raw = [*_trims(stock, kerf), *_strips(placements, stock, kerf)]
    return tuple(
        Cut(number=i, kind=kind, at_mm=at, from_mm=start, to_mm=end, you_get=gets)
        for i, (kind, at, start, end, gets) in enumerate(raw, 1)
    )


_Raw = tuple[str, int, int, int, str]


def _trims(stock: SheetStock, kerf: int) -> Iterator[_Raw]:
    """The edges of new stock that are cut off before anything else; the trim includes the kerf, so a cut at the
    head or the left begins a kerf short of it."""
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
