"""cuts.csv: every cut of sheets and lengths, row by row, for whoever sets the stop."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from pentice.cutting.followed import LengthTurn, followed_length
from pentice.design import CutAndOrdered
from pentice.pack.drawings.cut_rows import alike_sheets, called, cut_rows
from pentice.pack.drawings.length_strips import Strip, degrees_words, item_words, left_of_strip, strips_of
from pentice.pack.drawings.values import not_proved

HEADS = (
    "stock",
    "cut",
    "tool",
    "cut_from",
    "width_mm",
    "length_mm",
    "stop_mm",
    "you_get",
    "what_remains",
    "angle_deg",
    "product",
)


def cuts_csv(design: CutAndOrdered) -> str:
    """The cuts of every stock sheet and every stock length as CSV, in the order in which they are made.

    Parameters
    ----------
    design
        A solved job, or several that are cut together.

    Returns
    -------
    str
        CRLF lines; a first line that says what is not proved, where something is. Lengths are numbered L1, L2 and have
        no width; where ends lean, sizes are along the upper edge, and the angle is that from square.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    if warning := not_proved(design):
        writer.writerow([warning])
    writer.writerow(HEADS)
    writer.writerows(_of_sheets(design))
    for strips in strips_of(design).values():
        for strip in strips:
            writer.writerows(_of_strip(design, strip))
    return out.getvalue()


def _of_sheets(design: CutAndOrdered) -> Iterator[tuple[object, ...]]:
    for group in alike_sheets(design):
        product = item_words(design, group.plan.item)
        for row in cut_rows(design, group):
            said = (row.you_get, row.remains)
            yield (row.stock, row.cut, row.tool, row.part, *row.part_mm, row.stop_mm, *said, "", product)


def _of_strip(design: CutAndOrdered, strip: Strip) -> Iterator[tuple[object, ...]]:
    turns = followed_length(strip.plan)
    names = {p.at_mm: called(design, strip.pieces(k)) for k, p in enumerate(strip.plan.pieces)}
    for number, turn in enumerate(turns, 1):
        tool = "saw left of stop" if turn.left_of_mark else "saw right of stop"
        gets = names[turn.piece.at_mm] if turn.piece is not None else "scrap"
        remains = _rest(design, strip, turn) if number == len(turns) else f"length, {turn.remains_mm}"
        angle = degrees_words(turn.end_deg) if turn.end_deg else ""
        sizes = ("", turn.hand_mm, turn.stop_mm)
        product = item_words(design, strip.item)
        yield (strip.called, number, tool, "length", *sizes, gets, remains, angle, product)


def _rest(design: CutAndOrdered, strip: Strip, turn: LengthTurn) -> str:
    """What is left beyond the last cut: of a leaning end what has square ends; a piece that ends with the stock."""
    if turn.left_of_mark:
        return called(design, strip.pieces(len(strip.plan.pieces) - 1))
    rest, kept = left_of_strip(design, strip)
    if rest:
        return f"{rest} {'keep' if kept else 'scrap'}"
    return "scrap" if turn.end_deg else ""
