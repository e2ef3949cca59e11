"""Where the openings of a side stand, and the mullions, transoms and sill around them, as elevations show them.

A job gives the sizes of openings and their order. At an end they stand between wall and post with their mullions, in
the front each between two posts; their heads lie under end rafter or beam. Where that leaves more than one place, they
count as not known.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pentice.frame.stage import beam_below_mm, head_beam_below_mm, head_support_mm, row_places
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.setting_out.side_frames import (
    NO_TIMBER_MM,
    REST_MOST_MM,
    Column,
    Place,
    SideFrames,
    columns_of,
    rest_mm,
    side_frames,
)
from pentice.setting_out.side_sheets import as_read
from pentice.setting_out.values import SettingOut

ROOM_MM = 50.0
"""An opening in the front has at most so much room between its posts, and so much over it when it stands on the floor:
judgement, no source."""
OFF_MM = 10.0
"""How much too large an opening may be by its measured sizes: judgement, no source."""
HEADS_OFF_MM = 30.0
"""How far heads of openings may be off one line under what is over them: judgement, no source."""
NARROW_MM = 50.0
"""No sheet stands in a stretch of the front as narrow as this: judgement, no source."""
UNPLACED = "Where the dashed openings stand the job does not say: only their order."
NOT_SAID = "Where the side sheets of this side stand the job does not say: they are not drawn."
TOO_WIDE = "The openings are wider than what is free for them: they are not drawn."
TOO_HIGH = "By their heights the dashed openings do not fit under what is over them."
OFF_LINE = (
    "The heads of the dashed openings do not follow what is over them: how high they stand is not known."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StoodUpright:
    """An opening, or a mullion, as it stands."""

    number: int
    """Of the side sheet, or of the mullion."""
    left_mm: float
    """Its left edge from the side's left end, seen from outside [mm]."""
    width_mm: float
    foot_mm: float
    """Its foot below the roof line at the head [mm]."""
    heads_mm: tuple[float, float]
    """Its upper corners, left and right, below that line [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StoodLevel:
    """A transom or a sill as it lies."""

    number: int
    left_mm: float
    """Its left end from the side's left end, seen from outside [mm]."""
    length_mm: float
    top_mm: float
    """Below the roof line at the head [mm]."""
    deep_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SidePlaces:
    """What closes one side, as it stands."""

    side: Place
    openings: tuple[StoodUpright, ...]
    mullions: tuple[StoodUpright, ...] = ()
    transoms: tuple[StoodLevel, ...] = ()
    sill: StoodLevel | None = None
    over_datum_mm: float | None = None
    """How high the sill, or the openings without one, stand over the datum mark [mm]; None where that is not known."""
    rest_mm: float = 0.0
    """What openings and mullions leave of an end, at the wall or the head post [mm]."""
    why: str = ""
    """Why the places are not known; nothing where they are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """Left edges of the columns, and why they are not known."""

    lefts: tuple[float, ...]
    rest_mm: float
    why: str


def side_places(job: Job, shape: RoofShape, setting_out: SettingOut, side: Place) -> SidePlaces | None:
    """Where the sheets of a side and the timber between them stand.

    Parameters
    ----------
    job, shape, setting_out
        Openings, mullions, posts and beams as the job names them, and the sizes of the roof.
    side
        Which side.

    Returns
    -------
    SidePlaces or None
        [mm]; None where no sheet closes the side. It has no openings where these are wider than what is free, or
        where in a row, or beside a door, they stand is not known.

    Source
    ------
    Geometry; what may be off is judgement.
    """
    columns = columns_of(job, side)
    if not columns:
        return None
    end = side in ("left", "right")
    row = _along_an_end(job, shape, side, columns) if end else _along_a_row(job, shape, side, columns)
    if not row.lefts:
        return SidePlaces(side=side, openings=(), why=row.why)
    deep = 0.0
    sills = [
        (n, sill) for n, sill in enumerate(side_frames(job, shape).sills, 1) if sill.side == side
    ]  # one at most
    if sills and job.frame.sill_mm is not None:
        deep = job.frame.sill_mm[1]
    under = [
        (_under_mm(job, shape, setting_out, side, x), height)
        for column, left in zip(columns, row.lefts, strict=True)
        for x, height in ((left, column.left_mm), (left + column.width_mm, column.right_mm))
    ]
    foot, why = _foot_mm(under, None if shape.head_height_mm is None else shape.head_height_mm - deep)
    thick = job.frame.mullion_mm[0] if job.frame.mullion_mm is not None else 0.0
    openings = {o.number: o for o in _stacked(job, columns, row.lefts, (foot, thick))}
    frames = side_frames(job, shape)
    return SidePlaces(
        side=side,
        openings=tuple(openings.values()),
        mullions=tuple(_mullions(frames, side, openings, columns)),
        transoms=tuple(
            StoodLevel(
                number=t.number,
                left_mm=openings[t.between[0]].left_mm,
                length_mm=t.length_mm,
                top_mm=openings[t.between[1]].foot_mm,
                deep_mm=thick,
            )
            for t in frames.transoms
            if t.side == side
        ),
        sill=None
        if not sills
        else StoodLevel(
            number=sills[0][0],
            left_mm=row.lefts[0],
            length_mm=sills[0][1].length_mm,
            top_mm=foot,
            deep_mm=deep,
        ),
        over_datum_mm=None if shape.head_height_mm is None else shape.head_height_mm - foot - deep,
        rest_mm=row.rest_mm,
        why=row.why or why,
    )


def long_mm(shape: RoofShape, side: Place) -> float:
    """How long a side is: an end from the wall's face, or the head beam's, to the eaves beam's outer face.

    Parameters
    ----------
    shape
        The roof's sizes.
    side
        Which side.

    Returns
    -------
    float
        [mm].

    Source
    ------
    Geometry.

    Examples
    --------
    >>> roof = RoofShape(width_mm=5000.0, projection_mm=3000.0, wall_offsets_mm=((0.0, 8.0), (5000.0, 0.0)),
    ...                  pitch_deg=10.0, overhang_mm=50.0, head_height_mm=None, eaves_height_mm=None)
    >>> [long_mm(roof, side) for side in ("left", "front", "right")]
    [2992.0, 5000.0, 3000.0]
    """
    if side in ("front", "back"):
        return shape.width_mm
    x = 0.0 if side == "left" else shape.width_mm
    return shape.projection_between(x, x)[1]


def row_seen(job: Job, shape: RoofShape, side: Place) -> tuple[tuple[float, float], ...]:
    """Posts of the front or the back from left to right as seen from outside.

    Parameters
    ----------
    job, shape
        Posts and width.
    side
        "front" or "back".

    Returns
    -------
    tuple of pairs
        Centre from the left end, and foot over the datum mark [mm].

    Source
    ------
    Geometry.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> job = job_from_text("[roof]\\nattached = false\\nwidth_mm = 3000\\nprojection_mm = 2000\\npitch_deg = 8\\n"
    ...     "[frame]\\nposts_at_mm = [48, 2900]")
    >>> from pentice.job.shape import roof_shape
    >>> row_seen(job, roof_shape(job), "back")
    ((100.0, 0.0), (2952.0, 0.0))
    """
    places, feet = row_places(job, head=side == "back")
    if job.frame.post_mm is None and not places:
        return ()
    if side == "front":
        return tuple(zip(places, feet, strict=True))
    return tuple((shape.width_mm - x, foot) for x, foot in zip(places[::-1], feet[::-1], strict=True))


def _under_mm(job: Job, shape: RoofShape, setting_out: SettingOut, side: Place, x_mm: float) -> float:
    """Underside of end rafter or beam over a place of a side, below the roof line at the head [mm]."""
    frame = job.frame
    if side == "front":
        return beam_below_mm(job, shape, setting_out) + (frame.beam_mm[1] if frame.beam_mm else 0.0)
    depth = setting_out.plane.rafters[0].depth_mm
    if side == "back":
        size = head_support_mm(job) or (0.0, 0.0)
        return head_beam_below_mm(shape, depth - frame.head_notch_mm, size) + size[1]
    # From the eaves beam's face, which both ends share, wherever the wall's own face is.
    out = shape.projection_mm - (long_mm(shape, side) - x_mm if side == "left" else x_mm)
    return out * math.tan(math.radians(shape.pitch_deg)) + depth / shape.cos_pitch


def _along_an_end(job: Job, shape: RoofShape, side: Place, columns: tuple[Column, ...]) -> _Row:
    """Against the post at the eaves, what is left over at the wall; little of it is left at the post."""
    deep = job.frame.post_mm[1] if job.frame.post_mm is not None else 0.0
    posts = [deep if row_places(job)[0] else 0.0, 0.0]
    if not job.roof.attached:
        posts[1] = deep if row_places(job, head=True)[0] else 0.0
    frames = side_frames(job, shape)
    thick = job.frame.mullion_mm[0] if job.frame.mullion_mm is not None else 0.0
    whole = sum(column.width_mm for column in columns) + (len(columns) - 1) * thick
    free = long_mm(shape, side) - sum(posts)
    known = rest_mm(frames, side, free)
    rest = free - whole if known is None else known
    if rest < -NO_TIMBER_MM:
        return _Row(lefts=(), rest_mm=rest, why=TOO_WIDE)
    # What reaches the wall within that tolerance lies at it, as its fixings are counted.
    at_head = posts[1] + (rest if rest > NO_TIMBER_MM else 0.0)
    start = at_head if side == "left" else long_mm(shape, side) - at_head - whole
    lefts = tuple(start + sum(c.width_mm + thick for c in columns[:k]) for k in range(len(columns)))
    placed = known is not None and rest <= REST_MOST_MM
    if not placed and any(o.wall == side for o in job.roof.openings):
        return _Row(lefts=(), rest_mm=rest, why=NOT_SAID)  # beside a door, or both sides of it
    return _Row(lefts=lefts, rest_mm=rest, why="" if placed else UNPLACED)


def _along_a_row(job: Job, shape: RoofShape, side: Place, columns: tuple[Column, ...]) -> _Row:
    """Each between two posts, or post and door, where the widths leave one way to do that."""
    stretches = _stretches(job, shape, side)
    ways = list(_ways(tuple(c.width_mm for c in columns), stretches))
    if len(ways) == 1:
        placed = [
            a + max(0.0, (b - a - column.width_mm) / 2.0)
            for column, (a, b) in zip(columns, ways[0], strict=True)
        ]
        return _Row(lefts=tuple(placed), rest_mm=0.0, why="")
    return _Row(lefts=(), rest_mm=0.0, why=NOT_SAID)


Stretch = tuple[float, float]


def _stretches(job: Job, shape: RoofShape, side: Place) -> tuple[Stretch, ...]:
    """What posts, doors and windows leave free of a row, from and to [mm]."""
    wide = job.frame.post_mm[0] if job.frame.post_mm is not None else 0.0
    taken = [(x - wide / 2.0, x + wide / 2.0) for x, _ in row_seen(job, shape, side)]
    taken += [(o.x_mm, o.x_mm + o.width_mm) for o in job.roof.openings if o.wall == side]
    edges = [0.0, *(mm for pair in sorted(taken) for mm in pair), shape.width_mm]
    free = zip(edges[::2], edges[1::2], strict=True)
    return tuple((a, b) for a, b in free if b - a > NARROW_MM)


def _ways(widths: tuple[float, ...], stretches: tuple[Stretch, ...]) -> Iterator[tuple[Stretch, ...]]:
    """The first two ways at most to give each width a stretch of its own that it fills, in their order."""
    found = 0
    if not widths:
        yield ()
        return
    for k, (a, b) in enumerate(stretches[: len(stretches) - len(widths) + 1]):
        if -OFF_MM <= b - a - widths[0] <= ROOM_MM:
            for rest in _ways(widths[1:], stretches[k + 1 :]):
                yield ((a, b), *rest)
                found += 1
                if found == 2:
                    return


def _foot_mm(under: Sequence[tuple[float, float]], floor_mm: float | None) -> tuple[float, str]:
    """Foot of the openings below the roof line at the head [mm], and why it is not known.

    The heads stand under what is over them; on the floor where that leaves little room over them.
    """
    hung = [top + height for top, height in under]
    foot = max(hung)
    if foot - min(hung) > HEADS_OFF_MM:
        return (foot if floor_mm is None else floor_mm), OFF_LINE
    if floor_mm is None:
        return foot, ""
    if foot - floor_mm > OFF_MM:
        return foot, TOO_HIGH
    return (floor_mm if floor_mm - foot <= ROOM_MM else foot), ""


def _stacked(
    job: Job, columns: tuple[Column, ...], lefts: tuple[float, ...], stands: tuple[float, float]
) -> Iterator[StoodUpright]:
    """Openings one over another from a foot, a transom of a thickness between them."""
    foot, thick = stands
    for column, left in zip(columns, lefts, strict=True):
        low = foot
        for number in column.numbers:
            sheet = as_read(job, number)
            heads = (low - sheet.left_mm, low - sheet.right_mm)
            yield StoodUpright(
                number=number, left_mm=left, width_mm=sheet.width_mm, foot_mm=low, heads_mm=heads
            )
            low = min(heads) - thick


def _mullions(
    frames: SideFrames, side: Place, openings: dict[int, StoodUpright], columns: tuple[Column, ...]
) -> Iterator[StoodUpright]:
    """Between two columns, as high as these at its edges."""
    of = {column.numbers[0]: column for column in columns}
    for m in frames.mullions:
        if m.side == side:
            before, after = of[m.between[0]], of[m.between[1]]
            stands = openings[m.between[0]]
            left = stands.left_mm + before.width_mm
            yield StoodUpright(
                number=m.number,
                left_mm=left,
                width_mm=openings[m.between[1]].left_mm - left,
                foot_mm=stands.foot_mm,
                heads_mm=(stands.foot_mm - before.right_mm, stands.foot_mm - after.left_mm),
            )
