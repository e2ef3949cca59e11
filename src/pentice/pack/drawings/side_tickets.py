"""The blank of side sheets with its sloping ends: where the marks go, how each sheet stands, what its sides measure."""

from __future__ import annotations

from collections.abc import Sequence

from pentice.design import Design
from pentice.drawing.arrows import flutes_arrow, head_triangle
from pentice.drawing.scene import (
    Area,
    Dimension,
    Pinned,
    Point,
    Polyline,
    Primitive,
    Scene,
    Text,
)
from pentice.pack.drawings.stock_sheets import foot_up
from pentice.pack.drawings.values import down, part, rectangle
from pentice.pieces.values import Piece, SidePart

LONG_MM = 114.0
"""Height of a blank on its ticket [mm of paper]."""


def slope_marks(piece: Piece) -> tuple[tuple[str, float, float], ...]:
    """Where the saw goes for each sloping end: which sheet, and its marks on the left and right edge of the blank.

    Parameters
    ----------
    piece
        A blank of side sheets.

    Returns
    -------
    tuple
        Name, along the edge that lies left and along that which lies right in the blank [mm], both from the sheet's own
        foot: from the blank's head where it lies turned. The cut is beyond the marks.
    """
    return tuple(
        (sheet.name, _true(sheet, at_left=True), _true(sheet, at_left=False))
        for sheet in piece.side_parts
        if sheet.left_mm != sheet.right_mm
    )


def side_ticket_scene(piece: Piece, size_mm: tuple[float, float]) -> Scene:
    """The drawing on the ticket of a blank, on paper as wide and tall as that of a roof sheet.

    Parameters
    ----------
    piece
        A blank of side sheets.
    size_mm
        Width and length as cut [mm].
    """
    width, length = size_mm
    wide = min(58.0, max(46.0, LONG_MM * width / length))
    left, top = 18.0, 16.0
    across, along = wide / width, LONG_MM / length

    def at(x: float, y: float) -> Point:
        return (left + x * across, top + y * along)

    blank = rectangle(left, top, left + wide, top + LONG_MM)
    found: list[Primitive] = [Area(points=blank, fill="scrap", style="wide")]
    for sheet in piece.side_parts:
        found += _sheet(sheet, [at(x, y) for x, y in sheet.outline_mm])
    desc = (
        f"{piece.name}: a blank {width:.0f} wide and {length:.0f} along the flutes; "
        + "; ".join(_said(sheet) for sheet in piece.side_parts)
        + "."
    )
    return Scene(
        primitives=(part("sheets", *found), part("sizes", *_overall(blank, width, length))),
        title=piece.name,
        desc=desc,
    )


def _said(sheet: SidePart) -> str:
    turned = ", turned in the blank" if sheet.turned else ""
    sides = f"{sheet.left_mm:.0f} at its left and {sheet.right_mm:.0f} at its right"
    return f"{sheet.name} {sheet.width_mm:.0f} wide, {sides}{turned}"


def _sheet(sheet: SidePart, corners: Sequence[Point]) -> list[Primitive]:
    """A sheet in its blank: outline, number, which end is its head, its sides."""
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    left, right, middle = min(xs), max(xs), (min(xs) + max(xs)) / 2
    # Corners run from the level end: its own, then the sloping one.
    level = corners[0][1]
    slope = (corners[2][1], corners[3][1])
    centre = (level + sum(slope) / 2) / 2
    number = sheet.name.rpartition(" ")[2]
    sides = [(left + 4.2, _side_of(corners, left)), (right - 1.6, _side_of(corners, right))]
    found: list[Primitive] = [
        Area(points=tuple(corners), fill="white", style="extra wide"),
        Text(at=(middle, centre + 5.0), text=number, h_mm=10.0, weight=700, anchor="middle"),
        Text(at=(middle, centre + 10.0), text=f"{sheet.side} side", h_mm=2.8, weight=600, anchor="middle"),
    ]
    if max(ys) - min(ys) > 80.0:
        found.append(flutes_arrow((middle, centre + 25.0), 20.0))
    edge = sum(slope) / 2
    found.append(foot_up((middle, level + 7.0)) if sheet.turned else head_triangle((middle, edge + 9.0)))
    for x, (low, high) in sides:
        words = down(_true(sheet, at_left=x < middle))
        found.append(
            Text(
                at=(x, (low + high) / 2),
                text=words,
                h_mm=3.5,
                weight=700,
                anchor="middle",
                turn_deg=90.0,
                halo=True,
            )
        )
    return found


def _true(sheet: SidePart, *, at_left: bool) -> float:
    """Length of the side that lies at the left or the right of the blank [mm]."""
    return sheet.left_mm if at_left != sheet.turned else sheet.right_mm


def _side_of(corners: Sequence[Point], x: float) -> tuple[float, float]:
    ys = [y for at, y in corners if abs(at - x) < 1e-6]
    return min(ys), max(ys)


def _overall(blank: Sequence[Point], width: float, length: float) -> tuple[Primitive, ...]:
    (left, top), _, (right, low), _ = blank
    return (
        Dimension(a=(left, low), b=(right, low), text=down(width), offset_mm=-10.0, kind="overall"),
        Dimension(a=(left, low), b=(left, top), text=down(length), offset_mm=9.0, kind="overall"),
    )


def side_model(piece: Piece) -> Scene:
    """A blank as a model 1:1: the blank, each sheet in it, its sides.

    Parameters
    ----------
    piece
        A blank of side sheets.
    """
    width, length = piece.width_mm, piece.length_mm
    blank = rectangle(0.0, 0.0, width, length)
    content: list[Primitive] = [
        Polyline(points=blank, closed=True, style="narrow"),
        Dimension(a=(0.0, length), b=(width, length), text=down(width), offset_mm=-12.0, kind="overall"),
        Dimension(a=(0.0, length), b=(0.0, 0.0), text=down(length), offset_mm=20.0, kind="overall"),
    ]
    for sheet in piece.side_parts:
        corners = sheet.outline_mm
        content.append(Polyline(points=corners, closed=True, style="extra wide"))
        xs = [x for x, _ in corners]
        for x, at_left in ((min(xs), True), (max(xs), False)):
            low, high = _side_of(corners, x)
            offset = 8.0 if at_left else -8.0
            content.append(
                Dimension(
                    a=(x, high),
                    b=(x, low),
                    text=down(_true(sheet, at_left=at_left)),
                    axis="y",
                    offset_mm=offset,
                )
            )
        middle = (sum(xs) / len(xs), sum(y for _, y in corners) / len(corners))
        name = Text(at=(0.0, 0.0), text=sheet.name, h_mm=3.5, weight=700, anchor="middle")
        content.append(Pinned(at=middle, content=(name,)))
    return Scene(primitives=tuple(content), title=piece.name, desc=f"{piece.name}, blank.", scale=20.0)


def blanks_of(design: Design) -> tuple[Piece, ...]:
    """Blanks of side sheets, one ticket each.

    Parameters
    ----------
    design
        A solved job.
    """
    return tuple(piece for piece in design.pieces if piece.side_parts)
