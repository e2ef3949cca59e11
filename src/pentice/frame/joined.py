"""Over which posts a long beam is joined: chosen by what is best, not by the end it is counted from."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Literal

from pentice.job.model import Job
from pentice.setting_out.values import SettingOut

LEAST_PART_MM = 600.0
"""Shortest part of a joined beam: judgement, no source."""
_HAIR_MM = 1e-6
_DIGITS = 3
"""Lengths alike to a thousandth of a millimetre are one length: what is left is rounding."""

Seen = tuple[object, ...]
"""What a roof looks like along its beam, counted from one of its ends."""


def beam_joints(
    width_mm: float,
    posts_at_mm: Sequence[float],
    longest_mm: float,
    seen: tuple[Seen, Seen] = ((), ()),
) -> tuple[float, ...]:
    """Post centres over which a beam is joined, so that no part is longer than what is sold.

    Parameters
    ----------
    width_mm
        Length of the beam [mm].
    posts_at_mm
        Centres of the posts along it [mm].
    longest_mm
        Longest length that can be had [mm].
    seen
        The rest of the roof as seen from its left and from its right end, from `seen_from_both_ends`.

    Returns
    -------
    tuple of float
        Of all choices with the fewest parts, each on two posts or more: the one whose widest field that a part spans
        by itself is the narrowest, since a part sags most there; then the one with the shortest longest part, and so
        on down. What is alike then is told apart by the roof as seen from the end that comes first in order, so that
        a mirrored roof has the mirrored joints. None where one length does, or no posts help.

    Source
    ------
    The order of what counts is judgement, no source.

    Examples
    --------
    >>> beam_joints(9000.0, (48.0, 2274.0, 4500.0, 6726.0, 8952.0), 6000.0)
    (4500.0,)
    >>> beam_joints(8000.0, (48.0, 2500.0, 5500.0, 7952.0), 6000.0)
    (2500.0,)
    >>> beam_joints(5000.0, (48.0, 4952.0), 6000.0), beam_joints(7000.0, (48.0, 6952.0), 6000.0)
    ((), ())
    """
    if width_mm <= longest_mm:
        return ()
    posts = sorted(posts_at_mm)
    for two_posts in (True, False):  # a part on one post is left to be refused by its name
        for parts in range(max(2, math.ceil(width_mm / longest_mm - 1e-9)), len(posts) + 2):
            found = list(_choices(0.0, width_mm, posts, longest_mm, parts, two_posts=two_posts))
            if found:
                return min(found, key=lambda joints: _rank(joints, width_mm, posts, seen))
    return ()


def _choices(
    start: float, end: float, posts: Sequence[float], longest: float, parts: int, *, two_posts: bool
) -> Iterator[tuple[float, ...]]:
    """Every choice of joints from one place to the end with so many parts."""
    if end - start > parts * longest + _HAIR_MM:
        return
    if parts == 1:
        if _lies(start, end, posts, longest, two_posts=two_posts):
            yield ()
        return
    for at in posts:
        if start < at < end and _lies(start, at, posts, longest, two_posts=two_posts):
            for rest in _choices(at, end, posts, longest, parts - 1, two_posts=two_posts):
                yield (at, *rest)


def _lies(start: float, end: float, posts: Sequence[float], longest: float, *, two_posts: bool) -> bool:
    """Can it be had, is it no stub, and does it rest on two posts?"""
    if not LEAST_PART_MM <= end - start <= longest + _HAIR_MM:
        return False
    return not two_posts or sum(start - _HAIR_MM <= at <= end + _HAIR_MM for at in posts) >= 2


def _rank(
    joints: tuple[float, ...], width_mm: float, posts: Sequence[float], seen: tuple[Seen, Seen]
) -> tuple[object, ...]:
    """The least is best; the same for a choice and for its image in a mirror."""
    parts = list(pairwise((0.0, *joints, width_mm)))
    alone = [0.0]
    for start, end in parts:
        held = [at for at in posts if start - _HAIR_MM <= at <= end + _HAIR_MM]
        if len(held) == 2:
            alone.append(held[1] - held[0])
    lengths = sorted((round(end - start, _DIGITS) for start, end in parts), reverse=True)
    here = (_rounded(joints), _rounded(posts), seen[0])
    there = (_from_other_end(joints, width_mm), _from_other_end(posts, width_mm), seen[1])
    return round(max(alone), _DIGITS), tuple(lengths), min(here, there)


def _rounded(places: Iterable[float]) -> tuple[float, ...]:
    return tuple(round(at, _DIGITS) for at in places)


def _from_other_end(places: Iterable[float], width_mm: float) -> tuple[float, ...]:
    return tuple(sorted(round(width_mm - at, _DIGITS) for at in places))


def seen_from_both_ends(
    job: Job, setting_out: SettingOut, posts_at_mm: Sequence[float], feet_mm: Sequence[float]
) -> tuple[Seen, Seen]:
    """What loads or carries a beam unevenly, as seen from the left end of the roof and from its right.

    Parameters
    ----------
    job, setting_out
        What closes the ends, openings in them, wind zones of the job's own, and the rafters.
    posts_at_mm, feet_mm
        Centres of the posts along the beam, and levels of their feet [mm].

    Returns
    -------
    tuple
        Both alike where the roof is its own image in a mirror.

    Source
    ------
    Definition.
    """
    posts = tuple(zip(posts_at_mm, feet_mm, strict=True))
    width = setting_out.plane.outline_mm[1][0]
    left = _seen_from(job, setting_out, posts, "left", lambda x: round(x, _DIGITS))
    return left, _seen_from(job, setting_out, posts, "right", lambda x: round(width - x, _DIGITS))


def _seen_from(
    job: Job,
    setting_out: SettingOut,
    posts: Sequence[tuple[float, float]],
    end: Literal["left", "right"],
    at: Callable[[float], float],
) -> Seen:
    roof, glazing, own = job.roof, job.glazing, job.site.wind_coefficients
    closed = (roof.left, glazing.left_edge) if end == "left" else (roof.right, glazing.right_edge)
    side_wind = job.site.side_wind
    zones = () if own is None else (*own.zones, *own.open_door_zones)
    return (
        tuple(map(str, closed)),
        tuple(sorted((at(x), foot) for x, foot in posts)),
        tuple(sorted((at(r.centre_foot_mm), at(r.centre_head_mm)) for r in setting_out.plane.rafters)),
        tuple(sorted((at(x), proud) for x, proud in roof.wall_offsets_mm)),
        tuple(sorted(o.model_dump_json(exclude={"wall", "x_mm"}) for o in roof.openings if o.wall == end)),
        tuple(sorted((*sorted(map(at, z.x_mm or ())), *(z.y_mm or ()), z.down, z.up) for z in zones)),
        () if side_wind is None else side_wind.of(end),
    )
