"""Each bay its own strip: clear width at head, middle and foot, and its least and greatest depth."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from pentice.catalogue.parts import Parts
from pentice.errors import InputError
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.setting_out.values import BetweenStems, Rafter

HeldBy = Literal["bar", "edge profile"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What a bay offers before a sheet is chosen for it."""

    number: int
    left: Rafter
    right: Rafter
    held_left: HeldBy
    held_right: HeldBy
    between: BetweenStems
    centres_mm: float
    daylight_mm: float
    projection_mm: tuple[float, float]
    slope_mm: tuple[float, float]
    measured: bool
    length_measured: bool


def strips(job: Job, shape: RoofShape, parts: Parts, rafters: tuple[Rafter, ...]) -> tuple[Strip, ...]:
    """The bays of a roof, from the left.

    Parameters
    ----------
    job, shape, parts
        The job, its geometry and its products.
    rafters
        Rafters from the left.

    Returns
    -------
    tuple of Strip
        One fewer than rafters; all lengths [mm].

    Raises
    ------
    InputError
        A list of [measured] has not one entry for each bay.
    """
    count = len(rafters) - 1
    for key in ("between_stems_mm", "slope_lengths_mm"):
        given = len(getattr(job.measured, key))
        if given > count:
            raise InputError.of(
                f"measured.{key}", f"{given} entries", f"expected one for each of the {count} bays"
            )
    return tuple(_strip(job, shape, parts, left, right) for left, right in pairwise(rafters))


def _strip(job: Job, shape: RoofShape, parts: Parts, left: Rafter, right: Rafter) -> Strip:
    number = left.number
    added = _added_to_centres(job, parts, left, right)
    drawn = [
        right.centre_head_mm - left.centre_head_mm + added,
        0.5 * (right.centre_head_mm + right.centre_foot_mm - left.centre_head_mm - left.centre_foot_mm)
        + added,
        right.centre_foot_mm - left.centre_foot_mm + added,
    ]
    stems = job.measured.between_stems_mm
    read = stems[number - 1] if number <= len(stems) else (None, None, None)
    # A difference of places carries the dust of floating point: 961.9999999999 would leave 5.9999999999 of room for a
    # sheet of 956 and fail, while its mirror image passes.
    head, middle, foot = (round(d, 6) if r is None else r for d, r in zip(drawn, read, strict=True))
    between = BetweenStems(head=head, middle=middle, foot=foot)
    depth = shape.projection_between(
        min(left.centre_head_mm, left.centre_foot_mm), max(right.centre_head_mm, right.centre_foot_mm)
    )
    slopes = job.measured.slope_lengths_mm
    slope = slopes[number - 1] if number <= len(slopes) else None
    if slope is not None:
        depth = (slope * shape.cos_pitch,) * 2
    if depth[0] <= 0.0:
        raise InputError.of(
            "roof.wall_offsets_mm", f"as deep as bay {number}", "expected bumps far smaller than the roof"
        )
    return Strip(
        number=number,
        left=left,
        right=right,
        held_left="bar" if left.has_bar else "edge profile",
        held_right="bar" if right.has_bar else "edge profile",
        between=between,
        centres_mm=between.greatest - added,
        daylight_mm=between.greatest - added - _bearing(parts, left) - _bearing(parts, right),
        projection_mm=depth,
        slope_mm=(depth[0] / shape.cos_pitch, depth[1] / shape.cos_pitch),
        measured=any(r is not None for r in read) or bool(job.measured.rafter_centres_mm),
        length_measured=slope is not None,
    )


def _added_to_centres(job: Job, parts: Parts, left: Rafter, right: Rafter) -> float:
    """What turns rafter centres into the clear width that the sheet lies in: less half stems, plus verges."""
    barge = job.frame.barge_board_mm[0] if job.frame.barge_board_mm is not None else 0.0
    total = 0.0
    for rafter in (left, right):
        total += -parts.bar.stem_mm / 2.0 if rafter.has_bar else rafter.width_mm / 2.0 + barge
    return total


def _bearing(parts: Parts, rafter: Rafter) -> float:
    """Half of what carries the sheet at a rafter: the bar's seat, or the rafter itself under an edge profile."""
    return (parts.bar.seat_mm if rafter.has_bar else rafter.width_mm) / 2.0
