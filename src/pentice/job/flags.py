"""Red flags of the survey: measurements that do not agree with each other, and things outside the sketch.

A flag is a sentence, never an error: the job is solved all the same, and the flag stands on page 1. The limits are
judgement, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from pentice.job.found import kind_of
from pentice.job.model import Job, Opening

CLOSURE_MM = 5.0
"""Diagonals against width and depth."""
SKEW_MM_PER_M = 1.0
"""How far diagonals may differ: 5 mm in 5 m."""
RUNNING_MM = 3.0
"""Running sizes against the width."""
HEIGHTS_MM = 5.0
"""Heights against the pitch."""
SPREAD_MM = 10.0
"""Several readings of one size."""
LEAST_PITCH_DEG = 5.0
"""Usual floor of a pitch, common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag:
    """One red flag: the key path it is about, what does not agree, and what to do or what is used."""

    place: str
    says: str
    do: str

    def __str__(self) -> str:
        return f"{self.says} {self.do}"


def red_flags(job: Job) -> tuple[Flag, ...]:
    """Everything in a survey that does not agree with itself.

    Parameters
    ----------
    job
        The job as read.

    Returns
    -------
    tuple of Flag
        In the order in which a survey is made; empty where all agrees.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> text = "[roof]\\nwidth_mm = 4800\\nprojection_mm = 3000\\ndiagonals_mm = [5700, 5620]"
    >>> print(red_flags(job_from_text(text))[0].says)
    The diagonals 5700 and 5620 differ by 80, 5.7 is allowed: the foot lies 47.2 to the side of the head.
    """
    parts = (_readings, _diagonals, _running, _heights, _offsets, _frame, _openings, _finds, _house)
    return tuple(chain.from_iterable(part(job) for part in parts))


def _n(value: float) -> str:
    """A length as people read it: tenths where there are any."""
    return f"{value:.1f}".removesuffix(".0")


def _readings(job: Job) -> Iterator[Flag]:
    uses = {"roof.width_mm": "the mean", "roof.projection_mm": "the least"}
    for place, rule in uses.items():
        readings = job.mark_of(place).readings
        if len(readings) < 2 or max(readings) - min(readings) <= SPREAD_MM:
            continue
        value = job.roof.width_mm if place == "roof.width_mm" else job.roof.projection_mm
        name = "width" if place == "roof.width_mm" else "projection"
        kind = (
            f"{rule} of them"
            if value in (min(readings), math.fsum(readings) / len(readings))
            else "the value given"
        )
        yield Flag(
            place=place,
            says=f"The readings of the {name} run from {_n(min(readings))} to {_n(max(readings))}, "
            f"{_n(max(readings) - min(readings))} apart; {_n(SPREAD_MM)} is usual at most.",
            do=f"Measure again. We use {_n(value or 0.0)}, {kind}.",
        )


def _diagonals(job: Job) -> Iterator[Flag]:
    roof = job.roof
    if roof.diagonals_mm is None or roof.width_mm is None:
        return
    first, second = roof.diagonals_mm
    allowed = SKEW_MM_PER_M * max(first, second) / 1000.0
    if abs(first - second) > allowed:
        aside = abs(first**2 - second**2) / (4.0 * roof.width_mm)
        yield Flag(
            place="roof.diagonals_mm",
            says=f"The diagonals {_n(first)} and {_n(second)} differ by {_n(abs(first - second))}, {_n(allowed)} is "
            f"allowed: the foot lies {_n(aside)} to the side of the head.",
            do="Rack the frame square. We lay out a rectangle from the sizes given.",
        )
    if roof.projection_mm is not None:
        measured = math.hypot(first, second) / math.sqrt(2.0)
        drawn = math.hypot(roof.width_mm, roof.projection_mm)
        if abs(measured - drawn) > CLOSURE_MM:
            yield Flag(
                place="roof.diagonals_mm",
                says=f"The diagonals make {_n(measured)}, but width {_n(roof.width_mm)} and projection "
                f"{_n(roof.projection_mm)} make {_n(drawn)}: {_n(abs(measured - drawn))} apart, "
                f"{_n(CLOSURE_MM)} at most.",
                do="One of the four is misread: measure again. We use width and projection.",
            )


def _running(job: Job) -> Iterator[Flag]:
    centres, width = job.frame.rafter_centres_mm, job.roof.width_mm
    if centres is None or width is None:
        return
    half = job.frame.rafter_mm[0] / 2.0 if job.frame.rafter_mm is not None else centres[0]
    for place, there, wanted in (
        ("first", centres[0], half),
        ("last", centres[-1], width - half),
    ):
        if abs(there - wanted) > RUNNING_MM:
            yield Flag(
                place="frame.rafter_centres_mm",
                says=f"The {place} rafter's centre is {_n(there)}, but the width {_n(width)} and half a rafter "
                f"{_n(half)} put it at {_n(wanted)}: {_n(abs(there - wanted))} apart, {_n(RUNNING_MM)} at most.",
                do="Measure again, running from the outer face of the left rafter. We use the centres.",
            )


def _heights(job: Job) -> Iterator[Flag]:
    roof = job.roof
    rise = _rise_mm(job)
    both = roof.head_height_mm is not None and roof.eaves_height_mm is not None
    if both and roof.pitch_deg is not None and rise is not None:
        fall = (roof.head_height_mm or 0.0) - (roof.eaves_height_mm or 0.0)
        if abs(fall - rise) > HEIGHTS_MM:
            yield Flag(
                place="roof.pitch_deg",
                says=f"The heights fall by {_n(fall)}, but {roof.pitch_deg:.1f}° over {_n(roof.projection_mm or 0.0)} "
                f"falls by {_n(rise)}: {_n(abs(fall - rise))} apart, {_n(HEIGHTS_MM)} at most.",
                do="Measure the heights again from one datum mark. We use the pitch and the head height.",
            )
    pitch = _pitch_deg(job)
    if pitch is not None and pitch < LEAST_PITCH_DEG:
        yield Flag(
            place="roof.pitch_deg",
            says=f"The pitch is {pitch:.1f}°; {LEAST_PITCH_DEG:.0f}° is the usual floor and 10° the better choice.",
            do="Lift the head or drop the beam: water and leaves lie on a flatter roof.",
        )


def _pitch_deg(job: Job) -> float | None:
    roof = job.roof
    if roof.pitch_deg is not None:
        return roof.pitch_deg
    if roof.head_height_mm is None or roof.eaves_height_mm is None or roof.projection_mm is None:
        return None
    return math.degrees(math.atan((roof.head_height_mm - roof.eaves_height_mm) / roof.projection_mm))


def _rise_mm(job: Job) -> float | None:
    pitch = _pitch_deg(job)
    if pitch is None or job.roof.projection_mm is None:
        return None
    return job.roof.projection_mm * math.tan(math.radians(pitch))


def _offsets(job: Job) -> Iterator[Flag]:
    roof = job.roof
    readings = job.mark_of("roof.projection_mm").readings
    if roof.wall_offsets_mm and len(readings) > 1:
        yield Flag(
            place="roof.wall_offsets_mm",
            says=f"The projection has {len(readings)} readings and the wall has offsets: its bumps may count twice.",
            do="Give readings off the wall face without offsets, or one size off the string line with them.",
        )
    beyond = [
        x for x, _ in roof.wall_offsets_mm if roof.width_mm is not None and not 0.0 <= x <= roof.width_mm
    ]
    if beyond:
        yield _outside(
            "roof.wall_offsets_mm", "A wall offset", "x", beyond[0], roof.width_mm or 0.0, "roof's width"
        )


def _outside(place: str, name: str, axis: str, value: float, limit: float, what: str) -> Flag:
    return Flag(
        place=place,
        says=f"{name} lies at {axis} {_n(value)}, outside the {what} of {_n(limit)}.",
        do="Is it measured from the outer face of the left rafter, facing the wall? We leave it where it is.",
    )


def _frame(job: Job) -> Iterator[Flag]:
    width, frame = job.roof.width_mm, job.frame
    pipe = None if job.house is None else job.house.drains_at_mm
    for key, name, places in (
        ("house.drains_at_mm", "The pipe of the roof above", () if pipe is None else (pipe,)),
        ("frame.wall_fixings_at_mm", "A wall fixing", frame.wall_fixings_at_mm),
        ("gutter.outlets_at_mm", "An outlet", job.gutter.outlets_at_mm),
    ):
        beyond = [x for x in places if width is not None and x > width]
        if beyond:
            yield _outside(key, name, "x", beyond[0], width or 0.0, "roof's width")
    yield from _along_slope(job)
    eaves = job.roof.eaves_height_mm
    high = [foot for foot in frame.post_feet_mm if eaves is not None and foot >= eaves]
    if high:
        yield Flag(
            place="frame.post_feet_mm",
            says=f"A post's foot stands at {_n(high[0])}, not below the eaves height {_n(eaves or 0.0)}.",
            do="Levels count from the same datum mark, downwards with a minus. Measure again.",
        )


def _along_slope(job: Job) -> Iterator[Flag]:
    pitch, projection = _pitch_deg(job), job.roof.projection_mm
    if pitch is None or projection is None:
        return
    slope = projection / math.cos(math.radians(pitch))
    for key, name, places in (
        ("frame.purlins_at_mm", "A purlin", job.frame.purlins_at_mm),
        ("frame.noggins_at_mm", "A noggin", job.frame.noggins_at_mm),
    ):
        if places and places[-1] >= slope:
            yield Flag(
                place=key,
                says=f"{name} lies {_n(places[-1])} down the slope, but the slope is {_n(slope)} long.",
                do="Measure along the rafter tops from the wall face. We leave it where it is.",
            )


# --- doors and windows below the roof ---


def _openings(job: Job) -> Iterator[Flag]:
    for i, opening in enumerate(job.roof.openings):
        place = f"roof.openings[{i}]"
        yield from _beside(job, opening, place)
        yield from _too_high(job, opening, place)
        side = None if opening.wall == "house" else getattr(job.roof, opening.wall)
        if side == "open":
            yield Flag(
                place=f"{place}.wall",
                says=f"A {opening.kind} stands in the {opening.wall} side, which is open.",
                do=f'Set roof.{opening.wall} to "closed", or take the {opening.kind} out.',
            )


def _beside(job: Job, opening: Opening, place: str) -> Iterator[Flag]:
    is_end = opening.wall in ("left", "right")
    length = job.roof.projection_mm if is_end else job.roof.width_mm
    far = opening.x_mm + opening.width_mm
    if length is not None and far > length:
        what = "projection" if is_end else "width"
        yield Flag(
            place=f"{place}.x_mm",
            says=f"A {opening.kind} in the {opening.wall} wall ends at {_n(far)}, outside the {what} of {_n(length)}.",
            do="Measure from that wall's left end as seen from outside. We leave it where it is.",
        )


def _too_high(job: Job, opening: Opening, place: str) -> Iterator[Flag]:
    line = _roof_line_over(job, opening)
    top = opening.sill_mm + opening.height_mm
    if line is not None and top > line:
        yield Flag(
            place=f"{place}.height_mm",
            says=f"The top of a {opening.kind} in the {opening.wall} wall is at {_n(top)}, above the roof line there "
            f"at {_n(line)}.",
            do="Raise the roof, or check that sill and heights count from one floor level.",
        )


def _roof_line_over(job: Job, opening: Opening) -> float | None:
    """Height of the roof line at the lowest place over an opening [mm]."""
    roof, rise = job.roof, _rise_mm(job)
    head = roof.head_height_mm
    if head is None and roof.eaves_height_mm is not None and rise is not None:
        head = roof.eaves_height_mm + rise
    if head is None or rise is None or not roof.projection_mm:
        return None
    # Seen from outside, the left end begins at the wall and the right end at the foot.
    down = {
        "house": 0.0,
        "back": 0.0,
        "front": roof.projection_mm,
        "left": opening.x_mm + opening.width_mm,
        "right": roof.projection_mm - opening.x_mm,
    }[opening.wall]
    return head - rise * min(max(down, 0.0), roof.projection_mm) / roof.projection_mm


# --- what was found, and the house ---


def _finds(job: Job) -> Iterator[Flag]:
    width = job.roof.width_mm
    for i, find in enumerate(job.found):
        if width is None or find.x_mm is None or kind_of(find.kind).outside:
            continue
        if not 0.0 <= find.x_mm <= width:
            name = f"{find.kind[:1].upper()}{find.kind[1:]}"
            yield _outside(f"found[{i}].x_mm", name, "x", find.x_mm, width, "roof's width")


def _house(job: Job) -> Iterator[Flag]:
    house = job.house
    if house is None:
        return
    pairs: Sequence[tuple[str, str, float | None, str, float | None]] = (
        (
            "house.lowest_wall_top_above_mm",
            "The wall top's lowest point",
            house.lowest_wall_top_above_mm,
            "its highest",
            house.wall_top_above_mm,
        ),
        (
            "house.upper_slope_plan_mm",
            "The house slope on plan",
            house.upper_slope_plan_mm,
            "the depth of the house",
            house.depth_mm,
        ),
    )
    for place, name, small, other, large in pairs:
        if small is not None and large is not None and small > large:
            yield Flag(
                place=place,
                says=f"{name} is {_n(small)}, more than {other}, {_n(large)}.",
                do="Measure again. We use both as they stand.",
            )
