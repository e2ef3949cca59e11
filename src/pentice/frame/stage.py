"""Wall plate, eaves beam and posts: where they stand and how long they are."""

from __future__ import annotations

import math
from itertools import pairwise

from pentice.catalogue.parts import Parts
from pentice.frame.values import EavesBeam, Frame, Post, WallPlate
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.setting_out.values import SettingOut

END_FIXING_MM = 75.0
"""First fixing of a wall plate from its end where only a spacing is given: common practice, no source."""


def frame_of(job: Job, shape: RoofShape, parts: Parts, setting_out: SettingOut) -> Frame:
    """The members under the rafters.

    Parameters
    ----------
    job, shape, parts, setting_out
        Sections and places as the job names them, and the sizes of the roof.

    Returns
    -------
    Frame
        A member that the job does not name is None, or no post.

    Source
    ------
    Geometry: a post ends under the beam, the beam under the rafters, the rafters under the roof line.
    """
    posts = _posts(job, shape, setting_out)
    return Frame(beam=_beam(job, shape, parts, posts), posts=posts, plate=_plate(job, shape))


def _posts(job: Job, shape: RoofShape, setting_out: SettingOut) -> tuple[Post, ...]:
    frame = job.frame
    if frame.post_mm is None:
        return ()
    under = _under_beam_mm(job, shape, setting_out)
    feet = frame.post_feet_mm or (0.0,) * len(frame.posts_at_mm)
    return tuple(
        Post(
            number=k,
            x_mm=x,
            size_mm=frame.post_mm,
            length_mm=None if under is None else max(1.0, under - foot),
        )
        for k, (x, foot) in enumerate(zip(frame.posts_at_mm, feet, strict=True), 1)
    )


def _under_beam_mm(job: Job, shape: RoofShape, setting_out: SettingOut) -> float | None:
    """Height of the underside of the beam over the datum mark."""
    if job.frame.beam_mm is None or shape.eaves_height_mm is None:
        return None
    over = setting_out.plane.rafters[0].depth_mm - job.frame.rafter_notch_mm
    return shape.eaves_height_mm - over / shape.cos_pitch - job.frame.beam_mm[1]


def birdsmouth_seat_mm(job: Job, shape: RoofShape) -> float:
    """Level length over which a rafter with a birdsmouth lies on the beam, from the beam's outer face.

    Parameters
    ----------
    job, shape
        Depth of the cut, width of the beam, pitch.

    Returns
    -------
    float
        cut / sin(pitch), at most the width of the beam; that width without a birdsmouth, where a wedge fills it [mm].

    Source
    ------
    Geometry.
    """
    width = job.frame.beam_mm[0] if job.frame.beam_mm is not None else 0.0
    cut, sine = job.frame.rafter_notch_mm, math.sin(math.radians(shape.pitch_deg))
    return min(width, cut / sine) if cut and sine > 0.0 else width


def _beam(job: Job, shape: RoofShape, parts: Parts, posts: tuple[Post, ...]) -> EavesBeam | None:
    size, width = job.frame.beam_mm, shape.width_mm
    if size is None:
        return None
    longest = max(parts.lengths_for("beam"))
    joints = beam_joints(width, job.frame.posts_at_mm, min(longest, job.stock.longest_mm or longest))
    return EavesBeam(size_mm=size, parts_mm=tuple(pairwise((0.0, *joints, width))), posts=posts)


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


def _plate(job: Job, shape: RoofShape) -> WallPlate | None:
    frame = job.frame
    if frame.wall_plate_mm is None:
        return None
    places = frame.wall_fixings_at_mm
    if not places and frame.wall_fixing_spacing_mm is not None:
        places = even_places(shape.width_mm, frame.wall_fixing_spacing_mm)
    return WallPlate(size_mm=frame.wall_plate_mm, length_mm=shape.width_mm, fixings_mm=places)


def even_places(length_mm: float, spacing_mm: float) -> tuple[float, ...]:
    """Places of the fixings of a plate, even, no further apart than a spacing, the outer ones near its ends.

    Parameters
    ----------
    length_mm
        Length of the plate [mm].
    spacing_mm
        Widest spacing [mm].

    Returns
    -------
    tuple of float
        From the left end [mm]; at least two.

    Examples
    --------
    >>> even_places(4875.0, 700.0)[:3], len(even_places(4875.0, 700.0))
    ((75.0, 750.0, 1425.0), 8)
    """
    end = min(END_FIXING_MM, length_mm / 4.0)
    run = length_mm - 2.0 * end
    gaps = max(1, math.ceil(run / spacing_mm - 1e-9))
    return tuple(end + run * i / gaps for i in range(gaps + 1))
