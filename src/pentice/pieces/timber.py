"""Timber and gutter: rafters, plate, beam, posts, noggins, purlins and barge boards."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from pentice.catalogue.parts import Parts
from pentice.catalogue.timbers import Timber
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
    yield from _cross_timbers(job, parts, plane)
    if frame.barge_board_mm is not None:
        yield from _barge_boards(job, parts, setting_out)
    if parts.gutter is not None:
        size = (parts.gutter.width_mm, float(math.ceil(shape.width_mm)))
        yield length_piece("G", "Gutter", f"gutters.{parts.gutter.id}", plane.id, size, joined=True)


def _carrying(job: Job, shape: RoofShape, parts: Parts, setting_out: SettingOut) -> Iterator[Piece]:
    """Wall plate, posts, beam and rafters of a new frame."""
    frame, plane, width = job.frame, setting_out.plane, shape.width_mm
    if frame.wall_plate_mm is not None:
        item = timber_item(parts.timber_for("wall plate"), frame.wall_plate_mm)
        yield _timber(("WP", "Wall plate"), item, plane, (frame.wall_plate_mm[0], width), joined=True)
    for k, (size, length) in enumerate(_posts(job, shape, setting_out), 1):
        item = timber_item(parts.timber_for("post"), size)
        yield _timber((f"PO{k}", f"Post {k}"), item, plane, (size[0], length))
    if frame.beam_mm is not None:
        yield from _beam(job, parts, plane, frame.beam_mm, width)
    yield from _rafters(shape, parts, plane)


def _beam(
    job: Job, parts: Parts, plane: Plane, size_mm: tuple[float, float], width_mm: float
) -> Iterator[Piece]:
    """The eaves beam in one length, or in lengths that meet over posts where none is sold long enough."""
    timber = parts.timber_for("beam")
    item, longest = timber_item(timber, size_mm), max(t.length_mm for t in timber.lengths)
    longest = min(longest, job.stock.longest_mm or longest)
    joints = beam_joints(width_mm, job.frame.posts_at_mm, longest)
    if not joints:
        free = not job.frame.posts_at_mm and width_mm > longest
        called = "Eaves beam, joints only over posts: name them" if free else "Eaves beam"
        yield _timber(("EB", called), item, plane, (size_mm[0], width_mm), joined=free)
        return
    for k, (start, end) in enumerate(pairwise((0.0, *joints, width_mm)), 1):
        name = (f"EB{k}", f"Eaves beam {k}, joint over a post")
        yield _timber(name, item, plane, (size_mm[0], end - start))


def beam_joints(width_mm: float, posts_at_mm: tuple[float, ...], longest_mm: float) -> tuple[float, ...]:
    """Post centres over which a beam is joined, so that no part is longer than what is sold.

    Parameters
    ----------
    width_mm
        Length of the beam [mm].
    posts_at_mm
        Centres of the posts along it [mm].
    longest_mm
        Longest length that can be had [mm].

    Returns
    -------
    tuple of float
        Each joint over the furthest post that one length reaches; none where one length does, or no posts help.

    Examples
    --------
    >>> beam_joints(6120.0, (48.0, 2056.0, 4064.0, 6072.0), 6000.0)
    (4064.0,)
    >>> beam_joints(5000.0, (48.0, 4952.0), 6000.0), beam_joints(7000.0, (48.0, 6952.0), 6000.0)
    ((), ())
    """
    joints: list[float] = []
    start = 0.0
    while width_mm - start > longest_mm:
        inner = [at for at in posts_at_mm if start + 1.0 < at <= start + longest_mm and width_mm - at > 600.0]
        if not inner or max(inner) - start < 600.0:
            return ()
        start = max(inner)
        joints.append(start)
    return tuple(joints)


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
            item=timber_item(parts.timber_for("rafter"), size),
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
    item = timber_item(parts.timber_for("noggin"), size)
    upright, purlins = len(job.frame.noggins_at_mm), len(job.frame.purlins_at_mm)
    for bay in plane.bays:
        n = bay.number
        names = [(f"N{n}", f"Noggin under button {n}")]
        names += [(f"N{n}-{k}", f"Noggin {k} in bay {n}") for k in range(1, upright + 1)]
        names += [(f"Q{n}-{k}", f"Purlin {k} in bay {n}") for k in range(1, purlins + 1)]
        for name in names:
            yield _timber(name, item, plane, (size[0], _between_rafters(plane, bay)), bay=n)


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
            yield _timber(name, item, plane, (size[0], length))


def _timber(
    piece: tuple[str, str],
    item: str,
    plane: Plane,
    size_mm: tuple[float, float],
    *,
    joined: bool = False,
    bay: int | None = None,
) -> Piece:
    length = float(math.ceil(size_mm[1] - 1e-9))
    return length_piece(*piece, item, plane.id, (size_mm[0], length), bay=bay, joined=joined)
