"""The pieces stage: everything that must be cut, in the order of the work."""

from __future__ import annotations

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.glazing import glazing_pieces
from pentice.pieces.side_sheets import Blanks, side_sheet_pieces
from pentice.pieces.side_timbers import side_timbers
from pentice.pieces.timber import frame_pieces
from pentice.pieces.values import Piece
from pentice.setting_out.values import SettingOut


def pieces_of(
    job: Job, shape: RoofShape, parts: Parts, setting_out: SettingOut, *, sides: Blanks = "alone"
) -> tuple[Piece, ...]:
    """Every sheet, bar, profile and timber of the roof.

    Parameters
    ----------
    job, shape, parts
        The job, its geometry and its products.
    setting_out
        True sizes.
    sides
        How the blanks of side sheets are made.

    Returns
    -------
    tuple of Piece
        Timber first, then the glazing, then what closes the sides.
    """
    return (
        *frame_pieces(job, shape, parts, setting_out),
        *side_timbers(job, shape, parts, setting_out.plane),
        *glazing_pieces(job, shape, parts, setting_out),
        *side_sheet_pieces(job, parts, setting_out, sides=sides),
    )
