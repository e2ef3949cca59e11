"""Sheets as a cutting plan settles them: where they lie, how large the saw leaves them, where their ribs stand."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

from pentice.cutting.values import CutPlan, Placement
from pentice.pieces.glazing import box
from pentice.pieces.values import Piece, SidePart
from pentice.setting_out.values import Bay, CutSheet, SettingOut, side_key


def placements_of(plan: CutPlan) -> Mapping[str, Placement]:
    """Where each piece of sheet lies on its stock, by the name of the piece.

    Parameters
    ----------
    plan
        A cutting plan.

    Returns
    -------
    mapping of str to Placement
        Sizes [mm].
    """
    return {p.piece: p for sheet in plan.sheets for p in sheet.placements}


def sheets_as_cut(pieces: Iterable[Piece], plan: CutPlan) -> Mapping[int, CutSheet]:
    """The sheet of each bay as the plan takes it from its stock, by the number of the bay; side sheets by `side_key`.

    Parameters
    ----------
    pieces
        What must exist, packing strips among them: these are no bay's sheet.
    plan
        Its cutting.

    Returns
    -------
    mapping of int to CutSheet
        Sizes and ribs [mm].
    """
    pieces = tuple(pieces)
    bays = {p.id: p.bay for p in pieces if p.bay is not None and p.rib_at_mm is not None}
    of_bays = {
        bays[p.piece]: CutSheet(
            width_mm=float(p.width_mm),
            length_mm=float(p.length_mm),
            stock_x_mm=float(p.x_mm),
            ribs_mm=rib_places(p),
            uncut=(p.width_mm == sheet.width_mm, p.length_mm == sheet.length_mm),
        )
        for sheet in plan.sheets
        for p in sheet.placements
        if bays.get(p.piece) is not None
    }
    return {**of_bays, **sides_as_cut(pieces, placements_of(plan))}


def sides_as_cut(pieces: Iterable[Piece], placed: Mapping[str, Placement]) -> dict[int, CutSheet]:
    """Side sheets with their ribs where their blanks have them.

    Parameters
    ----------
    pieces
        What must exist.
    placed
        Where blanks lie on their stock, by their names.

    Returns
    -------
    dict of int to CutSheet
        By `side_key`. An edge that is cut within the blank, of the narrower of two, has no rib that is known.
    """
    return {
        side_key(number_of_side(part)): _side_as_cut(part, placed[piece.id])
        for piece in pieces
        if piece.id in placed
        for part in piece.side_parts
    }


def number_of_side(part: SidePart) -> int:
    """The number of a side sheet.

    Parameters
    ----------
    part
        Of a blank.

    Returns
    -------
    int
        From 1, in the order of the job.
    """
    return int(part.id.removeprefix("SS"))


def _side_as_cut(part: SidePart, placed: Placement) -> CutSheet:
    """Its edges are those of the blank, but for an inner one; turned by half a turn they change places."""
    xs = [x for x, _ in part.outline_mm]
    left, right = rib_places(placed)
    at = (left if min(xs) < 1e-6 else None, right if max(xs) > placed.width_mm - 1e-6 else None)
    return CutSheet(
        width_mm=part.width_mm,
        length_mm=max(part.left_mm, part.right_mm),
        stock_x_mm=placed.x_mm + min(xs),
        ribs_mm=(at[1], at[0]) if part.turned else at,
        uncut=(False, False),
    )


def rib_places(placed: Placement) -> tuple[float | None, float | None]:
    """Left and right edge of a cut piece to its first upright rib [mm]; None where no rib is known."""
    left, right = (None if math.isnan(at) else at for at in placed.rib_at_mm)
    return left, right


def settled(setting_out: SettingOut, cut: Mapping[int, CutSheet]) -> bool:
    """Whether every bay and every side already has the sheet that the plan gives it.

    Parameters
    ----------
    setting_out
        True sizes.
    cut
        Sheets as cut, by the number of their bay; side sheets by `side_key`.

    Returns
    -------
    bool
        True where nothing has to be set out again.
    """
    bays = all(_as_set_out(bay) == cut.get(bay.number, _as_set_out(bay)) for bay in setting_out.plane.bays)
    sides = ((fit, cut.get(side_key(fit.number))) for fit in setting_out.side_sheets)
    return bays and all(sheet is None or sheet.ribs_mm == fit.ribs_mm for fit, sheet in sides)


def _as_set_out(bay: Bay) -> CutSheet:
    return CutSheet(
        width_mm=bay.width_mm.cut,
        length_mm=bay.length_mm.cut,
        stock_x_mm=bay.stock_x_mm,
        ribs_mm=(bay.edges.left.rib_at_mm, bay.edges.right.rib_at_mm),
        uncut=(bay.width_mm.uncut, bay.length_mm.uncut),
    )


def pieces_as_cut(pieces: Iterable[Piece], plan: CutPlan) -> tuple[Piece, ...]:
    """The same pieces, each piece of sheet as large as the plan leaves it.

    Parameters
    ----------
    pieces
        What must exist; the sheets of bays are set out with the same plan.
    plan
        Its cutting.

    Returns
    -------
    tuple of Piece
        Sizes [mm]. What changes here is packing strips: they lie beside a sheet of their bay and may be cut apart.
    """
    placed = placements_of(plan)
    return tuple(_as_placed(piece, placed.get(piece.id)) for piece in pieces)


def _as_placed(piece: Piece, placed: Placement | None) -> Piece:
    if placed is None or (piece.width_mm, piece.length_mm) == (placed.width_mm, placed.length_mm):
        return piece
    width, length = float(placed.width_mm), float(placed.length_mm)
    return replace(piece, width_mm=width, length_mm=length, outline_mm=box(width, length))
