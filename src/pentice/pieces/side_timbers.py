"""Timber between the side sheets: mullions, transoms and sills, as the job names them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.timber import stands_already, timber, timber_item
from pentice.pieces.values import Piece, PieceMark
from pentice.setting_out.side_frames import side_frames
from pentice.setting_out.values import Plane

UNDER_BEAM = "cut square, its head shortened on site under the beam"
"""How the head of a mullion in the front or back is cut."""
PLACES = {"left": "left end", "right": "right end", "front": "front", "back": "back"}


def side_timbers(job: Job, shape: RoofShape, parts: Parts, plane: Plane) -> Iterator[Piece]:
    """What stands and lies between the side sheets.

    Parameters
    ----------
    job, shape, parts
        The openings with the sections of mullions and sills, the pitch, and the timber.
    plane
        That they stand under.

    Yields
    ------
    Piece
        Lengths from the measured openings [mm]; none for a frame that stands already, none of a section that the job
        does not name.
    """
    frame, frames = job.frame, side_frames(job, shape)
    if stands_already(job):
        return
    if frame.mullion_mm is not None:
        wide = frame.mullion_mm[0]
        item = timber_item(parts.timber_for("mullion"), _upright(frame.mullion_mm))
        for m in frames.mullions:
            name = f"Mullion {m.number}, {PLACES[m.side]}"
            piece = timber((f"MU{m.number}", name), item, plane, (wide, m.length_mm))
            if m.side in ("left", "right"):
                slope = (
                    f"cut square here, its head on site on the slope, {90.0 - shape.pitch_deg:.1f} deg to its edges; "
                    "longer edge nearer the wall"
                )
                piece = replace(piece, marks=(PieceMark(at_mm=0.0, edge="head", text=slope),))
            else:
                piece = replace(piece, marks=(PieceMark(at_mm=0.0, edge="head", text=UNDER_BEAM),))
            yield piece
        for t in frames.transoms:
            name = f"Transom {t.number}, {PLACES[t.side]}"
            yield timber((f"TM{t.number}", name), item, plane, (wide, t.length_mm))
    if frame.sill_mm is not None:
        item = timber_item(parts.timber_for("sill"), _upright(frame.sill_mm))
        for n, sill in enumerate(frames.sills, 1):
            size = (frame.sill_mm[0], sill.length_mm)
            yield timber((f"SI{n}", f"Sill, {PLACES[sill.side]}"), item, plane, size, joined=True)


def _upright(size_mm: tuple[float, float]) -> tuple[float, float]:
    """A section as timber is sold: its lesser side first."""
    return min(size_mm), max(size_mm)
