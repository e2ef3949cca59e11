"""Timber and gutter: rafters, plate, beams, posts, noggins, purlins and barge boards."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

from pentice.catalogue.parts import Parts
from pentice.catalogue.timbers import Timber
from pentice.cutting.mitres import MOST_DEG
from pentice.errors import InputError, Problem
from pentice.frame.stage import birdsmouth_seat_mm, frame_of, head_seat_mm, head_support_mm
from pentice.frame.values import EavesBeam
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.glazing import box, length_piece
from pentice.pieces.values import EndCut, Piece, PieceMark
from pentice.setting_out.values import Bay, Plane, SettingOut

POST_CUT_ON_SITE_MM = 100.0
"""Post ordered longer than drawn, cut to the ground on site: common practice, no source."""


def timber_item(timber: Timber, size_mm: tuple[float, float]) -> str:
    """Key of the section that is bought: the drawn one, or the smallest stock section that it can be planed from.

    Parameters
    ----------
    timber
        The product.
    size_mm
        Width and depth as drawn [mm].

    Returns
    -------
    str
        The drawn section where the product has none that holds it: the take-off says so.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> c24 = SimpleNamespace(id="c24", sizes_mm=((22.0, 145.0), (70.0, 145.0)))
    >>> timber_item(c24, (70.0, 145.0)), timber_item(c24, (20.0, 145.0)), timber_item(c24, (95.0, 145.0))
    ('timbers.c24 70x145', 'timbers.c24 22x145', 'timbers.c24 95x145')
    """
    holds = [s for s in timber.sizes_mm if s[0] >= size_mm[0] and s[1] >= size_mm[1]]
    bought = min(holds, key=lambda s: (s[0] * s[1], s), default=size_mm)
    return f"timbers.{timber.id} {bought[0]:g}x{bought[1]:g}"


def stands_already(job: Job) -> bool:
    """True where plate, rafters, beam and posts are there: the job names the centres of existing rafters.

    Examples
    --------
    >>> stands_already(Job())
    False
    """
    return job.frame.rafter_centres_mm is not None


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
    if not stands_already(job):
        yield from _carrying(job, shape, parts, setting_out)
    if not parts.bar.carries:
        yield from _cross_timbers(job, parts, plane)
    if frame.barge_board_mm is not None:
        yield from _barge_boards(job, parts, setting_out)
    if parts.gutter is not None:
        size = (parts.gutter.width_mm, float(math.ceil(shape.width_mm)))
        yield length_piece("G", "Gutter", f"gutters.{parts.gutter.id}", plane.id, size, joined=True)


def _carrying(job: Job, shape: RoofShape, parts: Parts, setting_out: SettingOut) -> Iterator[Piece]:
    """Wall plate, posts, beams and rafters of a new frame."""
    frame, plane = frame_of(job, shape, parts, setting_out), setting_out.plane
    if frame.plate is not None:
        plate = frame.plate
        item = timber_item(parts.timber_for("wall plate"), plate.size_mm)
        yield timber(("WP", "Wall plate"), item, plane, (plate.size_mm[0], plate.length_mm), joined=True)
    for post in (*frame.posts, *frame.head_posts):
        if post.length_mm is not None:
            item = _item(parts, "post", post.size_mm)
            size = (post.size_mm[0], post.length_mm + POST_CUT_ON_SITE_MM)
            yield timber((f"PO{post.number}", f"Post {post.number}"), item, plane, size)
    for beam in (frame.beam, frame.head_beam):
        if beam is not None:
            yield from _beam(parts, plane, beam)
    if not parts.bar.carries:
        yield from _rafters(job, shape, parts, plane)


def _item(parts: Parts, use: Literal["beam", "post"], size_mm: tuple[float, float]) -> str:
    """What a beam or post is bought as: a metal section, or timber."""
    section = parts.section_for(use)
    return timber_item(parts.timber_for(use), size_mm) if section is None else f"sections.{section.id}"


def _beam(parts: Parts, plane: Plane, beam: EavesBeam) -> Iterator[Piece]:
    """A beam in one length, or in lengths that meet over posts where none is sold long enough."""
    lengths = parts.lengths_for("beam")
    item = _item(parts, "beam", beam.size_mm)
    letters, words = ("EB", "Eaves beam") if beam.row == "eaves" else ("HB", "Head beam")
    if len(beam.parts_mm) == 1:
        length = beam.parts_mm[0][1]
        free = not beam.posts and length > max(lengths)
        called = f"{words}, joints only over posts: name them" if free else words
        yield timber((letters, called), item, plane, (beam.size_mm[0], length), joined=free)
        return
    for k, (start, end) in enumerate(beam.parts_mm, 1):
        name = (f"{letters}{k}", f"{words} {k}, joint over a post")
        yield timber(name, item, plane, (beam.size_mm[0], end - start))


def _rafters(job: Job, shape: RoofShape, parts: Parts, plane: Plane) -> Iterator[Piece]:
    """Rafters over the whole slope: plumb cuts at both ends need depth x tan(pitch) more timber."""
    at_saw = job.stock.plumb_cuts == "at the saw"
    if at_saw and shape.pitch_deg > MOST_DEG:
        raise InputError([_too_steep(shape.pitch_deg)])
    tan = math.tan(math.radians(shape.pitch_deg))
    where = "plumb cut at the saw" if at_saw else "plumb cut"
    trim = f"{where}; trim to the {'wall plate' if job.roof.attached else 'head beam'} on site"
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
            item=timber_item(parts.timber_for("rafter"), size),
            kind="length",
            outline_mm=box(size[0], math.ceil(slope + size[1] * tan)),
            width_mm=size[0],
            length_mm=math.ceil(slope + size[1] * tan),
            end_cuts=(cut, cut),
            back_mm=float(math.ceil(slope - 1e-9)) if at_saw else None,
            marks=(
                PieceMark(at_mm=0.0, edge="head", text=trim),
                *_birdsmouths(job, shape),
            ),
        )


def _too_steep(pitch_deg: float) -> Problem:
    says = (
        f'stock.plumb_cuts is "at the saw" and the pitch {pitch_deg:.1f} deg; a saw leans {MOST_DEG:g} at most '
        '(common practice, no source). Say "on site".'
    )
    return Problem("stock.plumb_cuts", says)


def _birdsmouths(job: Job, shape: RoofShape) -> Iterator[PieceMark]:
    """What is cut out over plate and beam; after the check of what it leaves."""
    cut, under = job.frame.head_notch_mm, head_support_mm(job)
    if cut and under is not None:
        end = "from the wall" if job.roof.attached else "from the head beam's outer face"
        seat = head_seat_mm(job, shape)
        text = f"birdsmouth {cut:g} deep, heel {under[0]:g} level {end}, seat {seat:.0f} from it inwards"
        yield PieceMark(at_mm=0.0, edge="head", text=text)
    cut = job.frame.rafter_notch_mm
    if cut and job.frame.beam_mm is not None:
        seat = birdsmouth_seat_mm(job, shape)
        text = f"birdsmouth {cut:g} deep, seat {seat:.0f} level from the plumb cut inwards"
        yield PieceMark(at_mm=0.0, edge="foot", text=text)


def _cross_timbers(job: Job, parts: Parts, plane: Plane) -> Iterator[Piece]:
    """Noggins under the buttons, noggins that hold the rafters upright, and purlins, bay by bay."""
    size = job.frame.noggin_mm
    if size is None:
        return
    item = timber_item(parts.timber_for("noggin"), size)
    upright, purlins = len(job.frame.noggins_at_mm), len(job.frame.purlins_at_mm)
    for bay in plane.bays:
        n = bay.number
        names = [(f"N{n}", f"Noggin under button {n}")]
        names += [(f"N{n}-{k}", f"Noggin {k} in bay {n}") for k in range(1, upright + 1)]
        names += [(f"Q{n}-{k}", f"Purlin {k} in bay {n}") for k in range(1, purlins + 1)]
        for name in names:
            yield timber(name, item, plane, (size[0], _between_rafters(plane, bay)), bay=n)


def _between_rafters(plane: Plane, bay: Bay) -> float:
    left, right = plane.rafters[bay.number - 1], plane.rafters[bay.number]
    widest = max(right.centre_head_mm - left.centre_head_mm, right.centre_foot_mm - left.centre_foot_mm)
    return widest - left.width_mm / 2.0 - right.width_mm / 2.0


def _barge_boards(job: Job, parts: Parts, setting_out: SettingOut) -> Iterator[Piece]:
    plane, size = setting_out.plane, job.frame.barge_board_mm
    if size is None:
        return
    item = timber_item(parts.timber_for("barge board"), size)
    for side, number in (("left", 1), ("right", len(plane.rafters))):
        if getattr(job.roof, side) != "wall":
            length = plane.outline_mm[2][1] + size[1] * math.tan(math.radians(plane.pitch_deg))
            name = (f"BG{side[0].upper()}", f"Barge board {side}, R{number}")
            yield timber(name, item, plane, (size[0], length))


def timber(
    piece: tuple[str, str],
    item: str,
    plane: Plane,
    size_mm: tuple[float, float],
    *,
    joined: bool = False,
    bay: int | None = None,
) -> Piece:
    """One timber, its length rounded up to whole mm.

    Parameters
    ----------
    piece, item, plane
        Mark and name, key of the section that is bought, and the plane it belongs to.
    size_mm
        Width and length [mm].
    joined
        Whether it may be joined from several lengths.
    bay
        That it belongs to; None: no one bay.

    Returns
    -------
    Piece
        Both its ends square.
    """
    length = float(math.ceil(size_mm[1] - 1e-9))
    return length_piece(*piece, item, plane.id, (size_mm[0], length), bay=bay, joined=joined)
