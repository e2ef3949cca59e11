"""Sheets as a cutting plan settles them: where they lie, how large the saw leaves them, where their ribs stand."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

from pentice.cutting.values import CutPlan, Placement
from pentice.pieces.glazing import box
from pentice.pieces.values import Piece
from pentice.setting_out.values import Bay, CutSheet, SettingOut


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
    """The sheet of each bay as the plan takes it from its stock, by the number of the bay.

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
    bays = {p.id: p.bay for p in pieces if p.bay is not None and p.rib_at_mm is not None}
    return {
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


def rib_places(placed: Placement) -> tuple[float | None, float | None]:
    """Left and right edge of a cut piece to its first upright rib [mm]; None where no rib is known."""
    left, right = (None if math.isnan(at) else at for at in placed.rib_at_mm)
    return left, right


def settled(setting_out: SettingOut, cut: Mapping[int, CutSheet]) -> bool:
    """Whether every bay already has the sheet that the plan gives it.

    Parameters
    ----------
    setting_out
        True sizes.
    cut
        Sheets as cut, by the number of their bay.

    Returns
    -------
    bool
        True where nothing has to be set out again.
    """
    return all(_as_set_out(bay) == cut.get(bay.number, _as_set_out(bay)) for bay in setting_out.plane.bays)


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
