"""What cannot be true of a job file though each value alone could be: lists out of order, keys that clash."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pentice.errors import Problem
from pentice.job.model import Job

ROOF_LEAST_MM = 300.0
"""Least width or projection that is taken for one: judgement, no source."""
SIDE_LEAST_MM = 100.0
"""Least side of an opening that a side sheet closes: judgement, no source."""
PITCH_MOST_DEG = 60.0
"""Steepest pitch of EN 1991-1-3, 5.3.2, that still carries snow; no other rule here reaches so far."""


def sense(job: Job, *, file: str = "") -> list[Problem]:
    """Contradictions within a job file, each with its place and the way out.

    Parameters
    ----------
    job
        The job as read.
    file
        Name of the file, for the sentences.

    Returns
    -------
    list of Problem
        Empty where nothing contradicts.

    Examples
    --------
    >>> sense(Job())
    []
    """
    found = [
        *_roof(job),
        *_sizes(job),
        *_frame(job),
        *_posts_beyond(job),
        *_free_standing(job),
        *_own_wind(job),
        *_side_wind(job),
        *_joints(job),
        *_screws(job),
        *_glazing(job),
        *_side_sheets(job),
        *_measured(job),
        *_options(job),
    ]
    return [Problem(place, f"{place} {says}", file) for place, says in found]


def _rising(values: Sequence[float]) -> bool:
    return all(a < b for a, b in pairwise(values))


def _roof(job: Job) -> Iterator[tuple[str, str]]:
    roof = job.roof
    if roof.outline_mm is not None:
        yield "roof.outline_mm", "is a shape that is not laid out yet; leave it out for a rectangle."
    if not roof.attached and job.house is not None:
        yield "roof.attached", "is false though [house] stands in the file; take one of the two out."
    both = (roof.head_height_mm, roof.eaves_height_mm)
    if roof.pitch_deg is None and both[0] is not None and both[1] is not None and both[0] <= both[1]:
        yield (
            "roof.head_height_mm",
            f"is {both[0]:g}, not above eaves_height_mm {both[1]:g}; the roof falls outwards.",
        )
    if not _rising([x for x, _ in roof.wall_offsets_mm]):
        yield "roof.wall_offsets_mm", "is out of order; list the points from left to right, each x once."
    drip = job.gutter.drip_window
    if drip[0] >= drip[1]:
        yield "gutter.drip_window", f"is {list(drip)}; expected the lower share first."
    for i, opening in enumerate(roof.openings):
        if opening.wall == "house" and job.house is None:
            yield (
                f"roof.openings[{i}].wall",
                'is "house" though there is no [house]; give [house] or another wall.',
            )


def _side_sheets(job: Job) -> Iterator[tuple[str, str]]:
    for i, sheet in enumerate(job.side_sheets):
        closed = getattr(job.roof, sheet.side)
        if closed not in (None, "closed"):
            yield (
                f"side_sheets[{i}].side",
                f'is "{sheet.side}" but roof.{sheet.side} is "{closed}"; set roof.{sheet.side} = "closed", '
                "or take the sheet out.",
            )
        if sheet.over:
            yield from _over(job, i)
        for key in ("width_mm", "left_mm", "right_mm"):
            size = getattr(sheet, key)
            if size < SIDE_LEAST_MM:
                yield (
                    f"side_sheets[{i}].{key}",
                    f"is {size:g} mm; expected {SIDE_LEAST_MM:g} or more, for profiles to hold four edges.",
                )


def _over(job: Job, i: int) -> Iterator[tuple[str, str]]:
    """A sheet over another one: which, and whether a level transom fits between them."""
    sheet = job.side_sheets[i]
    below = job.side_sheets[i - 1] if i else None
    if below is None or below.side != sheet.side:
        yield (
            f"side_sheets[{i}].over",
            f'is true but no side sheet of the side "{sheet.side}" stands right before it in the list; list the one '
            "below it first.",
        )
    elif below.left_mm != below.right_mm:
        yield (
            f"side_sheets[{i}].over",
            f"is true but the opening below it is {below.left_mm:g} and {below.right_mm:g} high; expected a level head "
            "there, under a transom.",
        )


def _sizes(job: Job) -> Iterator[tuple[str, str]]:
    """Sizes that no roof has: another unit, or a fall upside down."""
    roof = job.roof
    for key in ("width_mm", "projection_mm"):
        size = getattr(roof, key)
        if size is not None and size < ROOF_LEAST_MM:
            yield f"roof.{key}", f'is {size:g} mm, less than any roof; was it metres? Write "{size:g} m".'
    if roof.pitch_deg is not None and roof.pitch_deg > PITCH_MOST_DEG:
        yield (
            "roof.pitch_deg",
            f'is {roof.pitch_deg:.1f}°, steeper than any rule here reaches; a fall is written rise to run, "1:5".',
        )


def _frame(job: Job) -> Iterator[tuple[str, str]]:
    frame = job.frame
    centres = frame.rafter_centres_mm
    if centres is not None:
        if len(centres) < 2 or not _rising(centres):
            yield "frame.rafter_centres_mm", "is out of order; give two or more centres from left to right."
        if frame.bay_count is not None and frame.bay_count != len(centres) - 1:
            yield (
                "frame.bay_count",
                f"is {frame.bay_count} but {len(centres)} centres make {len(centres) - 1} bays.",
            )
        if any(size is not None for size in frame.end_bay_mm):
            yield "frame.end_bay_mm", "goes with rafters set out from the width, not with rafter_centres_mm."
    for key in ("purlins_at_mm", "noggins_at_mm", "posts_at_mm", "wall_fixings_at_mm"):
        if not _rising(getattr(frame, key)):
            yield f"frame.{key}", "is out of order; list the places in rising order, each once."
    if frame.post_feet_mm and len(frame.post_feet_mm) != len(frame.posts_at_mm):
        yield (
            "frame.post_feet_mm",
            f"has {len(frame.post_feet_mm)} levels for {len(frame.posts_at_mm)} posts.",
        )
    if frame.wall_fixings_at_mm and frame.wall_fixing_spacing_mm is not None:
        yield (
            "frame.wall_fixing_spacing_mm",
            "goes with even fixings, not with wall_fixings_at_mm; give one of them.",
        )
    if len(frame.wall_fixings_at_mm) == 1:
        yield "frame.wall_fixings_at_mm", "has one place; a plate needs two fixings or more."


def _posts_beyond(job: Job) -> Iterator[tuple[str, str]]:
    """Posts that would stand under no beam."""
    width = job.roof.width_mm
    for key in ("posts_at_mm", "head_posts_at_mm"):
        beyond = [x for x in getattr(job.frame, key) if width is not None and x > width]
        if beyond:
            places = " and ".join(f"{x:g}" for x in beyond)
            yield (
                f"frame.{key}",
                f"has {places}, beyond the roof's width of {width:g} mm; expected every post between 0 and {width:g}, "
                "from the outer face of the left rafter to its middle. Measure again, or correct roof.width_mm.",
            )


def _own_wind(job: Job) -> Iterator[tuple[str, str]]:
    own = job.site.wind_coefficients
    if own is None:
        return
    if (own.whole_down is None) != (own.whole_up is None):
        yield "site.wind_coefficients.whole_down", "and whole_up go together; give both, or none."
    if own.whole_up is not None and own.whole_up > 0.0:
        yield "site.wind_coefficients.whole_up", f"is {own.whole_up:g}; expected 0 or less, it lifts."


def _side_wind(job: Job) -> Iterator[tuple[str, str]]:
    """Coefficients of closed sides without a source, without wind, or on a closed room that the standard covers."""
    site, roof = job.site, job.roof
    own = site.side_wind
    if own is None:
        return
    if not own.source.strip():
        yield "site.side_wind.source", "is empty; name who gave the coefficients, and in which document."
    for place in ("", ".left", ".right", ".front", ".back"):
        pair = (own.inwards, own.outwards) if not place else getattr(own, place[1:])
        if pair is not None and not any(pair):
            yield f"site.side_wind{place}", "is 0 both inwards and outwards; give what blows, or take it out."
    if own.back is not None and roof.attached:
        yield "site.side_wind.back", "is the high side of a free-standing roof; here the house stands there."
    sides = (roof.left, roof.right, roof.front)
    if site.wind_coefficients is None and None not in sides and "open" not in sides:
        yield (
            "site.side_wind",
            "is for a roof with an open side; this one is closed all round and EN 1991-1-4, 7.2 has its walls: take "
            "the table out.",
        )


def _free_standing(job: Job) -> Iterator[tuple[str, str]]:
    """Keys of a wall on a roof without one, and of a second row of posts on a roof with a wall."""
    if job.roof.attached:
        yield from _second_row_on_a_wall(job)
        return
    for key in ("wall_plate_mm", "wall_fixing_spacing_mm", "wall_fixings_at_mm"):
        if _stands(job, key):
            yield f"frame.{key}", "is for a roof on a wall; take it out of a free-standing one."
    if job.roof.wall_offsets_mm:
        yield "roof.wall_offsets_mm", "is for a roof on a wall; take it out of a free-standing one."
    sides = {side: getattr(job.roof, side) for side in ("left", "right", "front", "back")}
    if "wall" in sides.values():
        wall = next(side for side, closed in sides.items() if closed == "wall")
        yield f"roof.{wall}", 'is "wall"; a roof beside a house wall is not free-standing.'
    elif None not in sides.values() and len(set(sides.values())) > 1:
        said = ", ".join(f"{side} {closed}" for side, closed in sides.items())
        yield (
            "roof.back",
            f"and the other sides are {said}; a free-standing roof is covered with all sides open or all closed.",
        )
    yield from _head_row(job)


_SECOND_ROW = (
    "head_beam_mm", "head_posts_at_mm", "head_post_feet_mm", "bracing_across", "bracing_across_kn", "knee_across_mm",
    "brace_across_kn", "brace_across_n_mm", "knee_tie_kn", "knee_head_kn", "knee_head_knm",
)  # fmt: skip


def _second_row_on_a_wall(job: Job) -> Iterator[tuple[str, str]]:
    for key in _SECOND_ROW:
        if _stands(job, key):
            yield (
                f"frame.{key}",
                "is for a free-standing roof; take it out, or set roof.attached to false.",
            )
    if job.roof.back == "closed" or any(opening.wall == "back" for opening in job.roof.openings):
        yield "roof.back", "is the high side of a free-standing roof; here the house stands there."


def _stands(job: Job, key: str) -> bool:
    """Does a key of [frame] stand in the file?"""
    return bool(getattr(job.frame, key) != type(job.frame).model_fields[key].default)


def _head_row(job: Job) -> Iterator[tuple[str, str]]:
    frame = job.frame
    if not _rising(frame.head_posts_at_mm):
        yield "frame.head_posts_at_mm", "is out of order; list the places in rising order, each once."
    posts = frame.head_posts_at_mm or frame.posts_at_mm
    if frame.head_post_feet_mm and len(frame.head_post_feet_mm) != len(posts):
        yield (
            "frame.head_post_feet_mm",
            f"has {len(frame.head_post_feet_mm)} levels for {len(posts)} posts.",
        )


def _screws(job: Job) -> Iterator[tuple[str, str]]:
    if not _rising([end for end, _ in job.screws.closer_mm]):
        yield "screws.closer_mm", "is out of order; list the stretches from the foot, each with its own end."


def _joints(job: Job) -> Iterator[tuple[str, str]]:
    """A joint described twice, or described and declared."""
    frame = job.frame
    declared = {"hanger": "hanger_up_kn", "rafter tie": "rafter_tie_kn", "post tie": "post_tie_kn"}
    joints = [f.joint for f in frame.fasteners]
    for i, joint in enumerate(joints):
        if joint in joints[:i]:
            yield f"frame.fasteners[{i}].joint", f'is "{joint}" a second time; describe each joint once.'
        elif getattr(frame, declared[joint]) is not None:
            yield (
                f"frame.fasteners[{i}].joint",
                f'is "{joint}", which frame.{declared[joint]} declares already; give one of the two.',
            )


def _glazing(job: Job) -> Iterator[tuple[str, str]]:
    for side in ("left", "right"):
        is_wall = getattr(job.roof, side) == "wall"
        edge = getattr(job.glazing, f"{side}_edge")
        if edge is not None and (edge == "wall") != is_wall:
            yield (
                f"glazing.{side}_edge",
                f'is "{edge}" but roof.{side} is "{getattr(job.roof, side)}"; they go together.',
            )


def _measured(job: Job) -> Iterator[tuple[str, str]]:
    measured = job.measured
    if len(measured.side_openings_mm) > len(job.side_sheets):
        yield (
            "measured.side_openings_mm",
            f"has {len(measured.side_openings_mm)} openings, but [[side_sheets]] has {len(job.side_sheets)}.",
        )
    for i, opening in enumerate(measured.side_openings_mm):
        for place, size in zip(("width", "left", "right"), opening, strict=True):
            if size is not None and size < SIDE_LEAST_MM:
                yield (
                    f"measured.side_openings_mm[{i}].{place}",
                    f"is {size:g} mm; expected {SIDE_LEAST_MM:g} or more, for profiles to hold four edges.",
                )
    heads = [head for head, _ in measured.rafter_centres_mm]
    feet = [foot for _, foot in measured.rafter_centres_mm]
    if not (_rising(heads) and _rising(feet)):
        yield "measured.rafter_centres_mm", "is out of order; give the rafters from left to right."
    if measured.diagonals_mm is not None and job.roof.width_mm is not None:
        shortest = min(measured.diagonals_mm)
        if shortest <= job.roof.width_mm / 2.0:
            yield (
                "measured.diagonals_mm",
                f"has {shortest:g}, less than half the width; measure corner to corner.",
            )


def _options(job: Job) -> Iterator[tuple[str, str]]:
    names = [option.name for option in job.options]
    for i, name in enumerate(names):
        if name in names[:i]:
            yield f"options[{i}].name", f'is "{name}" a second time; give each option its own name.'
