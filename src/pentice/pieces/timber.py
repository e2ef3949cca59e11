"""Timber and gutter: rafters, plate, beam, posts, noggins, purlins and barge boards."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pentice.catalogue.parts import Parts
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.glazing import box, length_piece
from pentice.pieces.values import EndCut, Piece, PieceMark
from pentice.setting_out.values import Bay, Plane, SettingOut

POST_CUT_ON_SITE_MM = 100.0
"""Post ordered longer than drawn, cut to the ground on site: common practice, no source."""


def timber_item(parts: Parts, size_mm: tuple[float, float]) -> str:
    """Key of one section of the job's timber.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> timber_item(SimpleNamespace(timber=SimpleNamespace(id="c24")), (70.0, 145.0))
    'timbers.c24 70x145'
    """
    return f"timbers.{parts.timber.id} {size_mm[0]:g}x{size_mm[1]:g}"


def frame_pieces(job: Job, shape: RoofShape, parts: Parts, setting_out: SettingOut) -> Iterator[Piece]:
    """Every timber that the job names, and the gutter, in the order of the work.

    Parameters
    ----------
    job, shape, parts
        The job, its geometry and its products.
    setting_out
        True sizes.

    Yields
    ------
    Piece
        Lengths rounded up to whole mm [mm]. Ends of a rafter are plumb cuts.
    """
    frame, plane = job.frame, setting_out.plane
    if frame.wall_plate_mm is not None:
        yield _timber(("WP", "Wall plate"), parts, plane, frame.wall_plate_mm, shape.width_mm, joined=True)
    for k, (at, size) in enumerate(_posts(job, shape, setting_out), 1):
        yield _timber((f"PO{k}", f"Post {k}"), parts, plane, at, size)
    if frame.beam_mm is not None:
        yield _timber(("EB", "Eaves beam"), parts, plane, frame.beam_mm, shape.width_mm)
    yield from _rafters(shape, parts, plane)
    yield from _cross_timbers(job, parts, plane)
    if frame.barge_board_mm is not None:
        yield from _barge_boards(job, parts, setting_out)
    if parts.gutter is not None:
        gutter = _timber(
            ("G", "Gutter"), parts, plane, (parts.gutter.width_mm, parts.gutter.depth_mm), shape.width_mm
        )
        yield Piece(
            id="G",
            name="Gutter",
            plane=plane.id,
            bay=None,
            item=f"gutters.{parts.gutter.id}",
            kind="length",
            outline_mm=gutter.outline_mm,
            width_mm=gutter.width_mm,
            length_mm=gutter.length_mm,
            one_piece=False,
        )


def _posts(
    job: Job, shape: RoofShape, setting_out: SettingOut
) -> Iterator[tuple[tuple[float, float], float]]:
    """Section and length of each post: from its foot to the underside of the beam, and a little to cut."""
    frame = job.frame
    if frame.post_mm is None or frame.beam_mm is None or shape.eaves_height_mm is None:
        return
    under = shape.eaves_height_mm - setting_out.plane.rafters[0].depth_mm / shape.cos_pitch - frame.beam_mm[1]
    feet = frame.post_feet_mm or (0.0,) * len(frame.posts_at_mm)
    for foot in feet:
        yield frame.post_mm, max(1.0, under - foot) + POST_CUT_ON_SITE_MM


def _rafters(shape: RoofShape, parts: Parts, plane: Plane) -> Iterator[Piece]:
    """Rafters over the whole slope: plumb cuts at both ends need depth x tan(pitch) more timber."""
    tan = math.tan(math.radians(shape.pitch_deg))
    for rafter in plane.rafters:
        left = min(rafter.centre_head_mm, rafter.centre_foot_mm) - rafter.width_mm / 2.0
        right = max(rafter.centre_head_mm, rafter.centre_foot_mm) + rafter.width_mm / 2.0
        slope = shape.projection_between(left, right)[1] / shape.cos_pitch
        cut = EndCut(across_deg=90.0 - shape.pitch_deg)
        size = (rafter.width_mm, rafter.depth_mm)
        yield Piece(
            id=f"RF{rafter.number}",
            name=f"Rafter {rafter.number}",
            plane=plane.id,
            bay=None,
            item=timber_item(parts, size),
            kind="length",
            outline_mm=box(size[0], math.ceil(slope + size[1] * tan)),
            width_mm=size[0],
            length_mm=math.ceil(slope + size[1] * tan),
            end_cuts=(cut, cut),
            marks=(PieceMark(at_mm=0.0, edge="head", text="plumb cut; trim to the wall plate on site"),),
        )


def _cross_timbers(job: Job, parts: Parts, plane: Plane) -> Iterator[Piece]:
    """Noggins under the buttons, noggins that hold the rafters upright, and purlins, bay by bay."""
    size = job.frame.noggin_mm
    if size is None:
        return
    for bay in plane.bays:
        clear = _between_rafters(plane, bay)
        yield _timber(
            (f"N{bay.number}", f"Noggin under button {bay.number}"), parts, plane, size, clear, bay=bay.number
        )
        for k, _ in enumerate(job.frame.noggins_at_mm, 1):
            yield _timber(
                (f"N{bay.number}-{k}", f"Noggin {k} in bay {bay.number}"),
                parts,
                plane,
                size,
                clear,
                bay=bay.number,
            )
        for k, _ in enumerate(job.frame.purlins_at_mm, 1):
            yield _timber(
                (f"Q{bay.number}-{k}", f"Purlin {k} in bay {bay.number}"),
                parts,
                plane,
                size,
                clear,
                bay=bay.number,
            )


def _between_rafters(plane: Plane, bay: Bay) -> float:
    left, right = plane.rafters[bay.number - 1], plane.rafters[bay.number]
    widest = max(right.centre_head_mm - left.centre_head_mm, right.centre_foot_mm - left.centre_foot_mm)
    return widest - left.width_mm / 2.0 - right.width_mm / 2.0


def _barge_boards(job: Job, parts: Parts, setting_out: SettingOut) -> Iterator[Piece]:
    plane, size = setting_out.plane, job.frame.barge_board_mm
    if size is None:
        return
    for side, number in (("left", 1), ("right", len(plane.rafters))):
        if getattr(job.roof, side) != "wall":
            length = plane.outline_mm[2][1] + size[1] * math.tan(math.radians(plane.pitch_deg))
            yield _timber(
                (f"BG{side[0].upper()}", f"Barge board {side}, R{number}"), parts, plane, size, length
            )


def _timber(
    piece: tuple[str, str],
    parts: Parts,
    plane: Plane,
    size_mm: tuple[float, float],
    length_mm: float,
    *,
    joined: bool = False,
    bay: int | None = None,
) -> Piece:
    length = float(math.ceil(length_mm - 1e-9))
    item = timber_item(parts, size_mm)
    return length_piece(*piece, item, plane.id, (size_mm[0], length), bay=bay, joined=joined)
