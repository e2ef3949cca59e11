"""Wall plate, beams and posts: where they stand and how long they are."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Literal

from pentice.catalogue.parts import Parts
from pentice.frame.joined import beam_joints, seen_from_both_ends
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
    size, longest = job.frame.beam_mm, max(parts.lengths_for("beam"))
    longest = min(longest, job.stock.longest_mm or longest)
    under = _under_beam_mm(job, shape, setting_out)
    eaves = _row(job, shape, setting_out, (size, under, longest))
    if job.roof.attached:
        return Frame(beam=eaves[0], posts=eaves[1], plate=_plate(job, shape))
    size = job.frame.head_beam_mm or size
    under = _under_head_beam_mm(job, shape, setting_out, size)
    head = _row(job, shape, setting_out, (size, under, longest), after=len(eaves[1]))
    return Frame(beam=eaves[0], posts=eaves[1], plate=None, head_beam=head[0], head_posts=head[1])


def _row(
    job: Job,
    shape: RoofShape,
    setting_out: SettingOut,
    beam: tuple[tuple[float, float] | None, float | None, float],
    after: int | None = None,
) -> tuple[EavesBeam | None, tuple[Post, ...]]:
    """A beam (size, height of its underside, longest length) and its posts; the head row's are numbered last."""
    size_mm, under_mm, longest_mm = beam
    places, feet = row_places(job, head=after is not None)
    posts: tuple[Post, ...] = ()
    if job.frame.post_mm is not None:
        posts = tuple(
            Post(
                number=k,
                x_mm=x,
                size_mm=job.frame.post_mm,
                length_mm=None if under_mm is None else max(1.0, under_mm - foot),
            )
            for k, (x, foot) in enumerate(zip(places, feet, strict=True), 1 + (after or 0))
        )
    if size_mm is None:
        return None, posts
    seen = seen_from_both_ends(job, setting_out, places, feet)
    joints = beam_joints(shape.width_mm, places, longest_mm, seen)
    parts_mm = tuple(pairwise((0.0, *joints, shape.width_mm)))
    row: Literal["eaves", "head"] = "eaves" if after is None else "head"
    return EavesBeam(size_mm=size_mm, parts_mm=parts_mm, posts=posts, row=row), posts


def row_places(job: Job, *, head: bool = False) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Places of a row of posts along its beam and levels of their feet.

    Parameters
    ----------
    job
        The job.
    head
        The row under the head of a free-standing roof: as the one at the eaves where the job does not say.

    Returns
    -------
    tuple
        Centres from the outer face of the left rafter, and feet over the datum mark [mm].

    Source
    ------
    None: the job's own values.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> row_places(job_from_text("[frame]\\nposts_at_mm = [48, 2052]"), head=True)
    ((48.0, 2052.0), (0.0, 0.0))
    """
    frame = job.frame
    places, feet = frame.posts_at_mm, frame.post_feet_mm
    if head:
        own = frame.head_posts_at_mm
        feet = frame.head_post_feet_mm or (() if own else feet)
        places = own or places
    return places, feet or (0.0,) * len(places)


def _under_beam_mm(job: Job, shape: RoofShape, setting_out: SettingOut) -> float | None:
    """Height of the underside of the eaves beam over the datum mark."""
    if job.frame.beam_mm is None or shape.eaves_height_mm is None:
        return None
    over = setting_out.plane.rafters[0].depth_mm - job.frame.rafter_notch_mm
    return shape.eaves_height_mm - over / shape.cos_pitch - job.frame.beam_mm[1]


def _under_head_beam_mm(
    job: Job, shape: RoofShape, setting_out: SettingOut, size_mm: tuple[float, float] | None
) -> float | None:
    """Height of the underside of the head beam over the datum mark."""
    if size_mm is None or shape.head_height_mm is None:
        return None
    left = setting_out.plane.rafters[0].depth_mm - job.frame.head_notch_mm
    top = head_beam_below_mm(shape, left, size_mm)
    return shape.head_height_mm - top - size_mm[1]


def beam_below_mm(job: Job, shape: RoofShape, setting_out: SettingOut) -> float:
    """Top of the eaves beam below the roof line at the wall.

    Parameters
    ----------
    job, shape, setting_out
        Depth of the rafters and of their birdsmouths, and the roof's fall.

    Returns
    -------
    float
        Fall + what stands of the rafter, upright [mm].

    Source
    ------
    Geometry.
    """
    over = setting_out.plane.rafters[0].depth_mm - job.frame.rafter_notch_mm
    return shape.rise_mm + over / shape.cos_pitch


def head_beam_below_mm(shape: RoofShape, rafter_mm: float, size_mm: tuple[float, float]) -> float:
    """Top of a head beam below the roof line at its outer face.

    Parameters
    ----------
    shape
        Pitch.
    rafter_mm
        Depth of the rafters over its inner edge: what a birdsmouth leaves [mm].
    size_mm
        Width and depth of the beam [mm].

    Returns
    -------
    float
        d / cos(pitch) + b tan(pitch): rafters touch its inner edge; what no birdsmouth reaches is wedged [mm].

    Source
    ------
    Geometry.
    """
    return rafter_mm / shape.cos_pitch + size_mm[0] * math.tan(math.radians(shape.pitch_deg))


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
    return _seat_mm(width, job.frame.rafter_notch_mm, shape)


def head_seat_mm(job: Job, shape: RoofShape) -> float:
    """Level length over which a rafter lies on wall plate or head beam, from its face to the span back to its end.

    Parameters
    ----------
    job, shape
        Depth of the cut, width of plate or beam, pitch.

    Returns
    -------
    float
        cut / sin(pitch), at most the width; that width without a birdsmouth, where a wedge fills it [mm].

    Source
    ------
    Geometry.
    """
    size = head_support_mm(job)
    return _seat_mm(size[0] if size is not None else 0.0, job.frame.head_notch_mm, shape)


def head_support_mm(job: Job) -> tuple[float, float] | None:
    """Width and depth of what lies under the rafters' heads: the wall plate, or the beam of a free-standing roof.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    tuple or None
        [mm]; None where the job does not name it.

    Source
    ------
    None: the job's own values.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> head_support_mm(job_from_text("[roof]\\nattached = false\\n[frame]\\nbeam_mm = [95, 195]"))
    (95.0, 195.0)
    """
    frame = job.frame
    return frame.wall_plate_mm if job.roof.attached else frame.head_beam_mm or frame.beam_mm


def _seat_mm(width_mm: float, cut_mm: float, shape: RoofShape) -> float:
    sine = math.sin(math.radians(shape.pitch_deg))
    return min(width_mm, cut_mm / sine) if cut_mm and sine > 0.0 else width_mm


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
