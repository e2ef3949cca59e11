"""Mullions, transoms and sills around the sheets at the sides, from the measured openings in their order."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from pentice.job.model import Job, SideSheet
from pentice.job.shape import RoofShape
from pentice.setting_out.front_fields import Field, fields_of, parted, why_not_parted
from pentice.setting_out.side_sheets import as_read

Place = Literal["left", "right", "front", "back"]
SIDES: tuple[Place, ...] = ("left", "front", "right", "back")
HEIGHT_OFF_MM = 4.0
"""How far two measured heights may be off together: judgement, no source."""
WIDTH_OFF_MM = 10.0
"""How far a mullion's width as the openings leave it may be off its section: judgement, no source."""
NO_TIMBER_MM = 25.0
"""Less than this beside its openings, mullions and post leaves no timber at the house wall: judgement, no source."""
REST_MOST_MM = 150.0
"""A side with more than this beside its openings, mullions and post has something else in it: judgement, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One opening, or several one over another, from the sill up."""

    numbers: tuple[int, ...]
    """Of its side sheets."""
    width_mm: float
    left_mm: float
    """Height at its left end, transoms counted, seen from outside [mm]."""
    right_mm: float
    each_mm: tuple[float, ...]
    """Greatest height of each opening [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mullion:
    """An upright between two columns, from the sill, or the floor, to what is above."""

    number: int
    side: Place
    between: tuple[int, int]
    """Side sheets to its left and to its right, the lowest ones."""
    length_mm: float
    """Along its longer edge [mm]."""
    strip_mm: float
    """Of the wall, itself counted, that comes to it [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Transom:
    """A level piece between two openings, one over the other."""

    number: int
    side: Place
    between: tuple[int, int]
    """Side sheets below and above."""
    length_mm: float
    strip_mm: float
    above_mm: float
    """Height of the sheet that stands on it [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sill:
    """What the sheets of an end stand on, in one length under all of them."""

    side: Place
    sheets: tuple[int, ...]
    length_mm: float
    strip_mm: float
    """Half of the greatest height over it [mm]."""
    mullions: tuple[Mullion, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SideFrames:
    """What stands and lies between the side sheets."""

    columns: tuple[tuple[Place, tuple[Column, ...]], ...] = ()
    mullions: tuple[Mullion, ...] = ()
    transoms: tuple[Transom, ...] = ()
    sills: tuple[Sill, ...] = ()
    needs_mullion: bool = False
    """Whether any sheet stands beside, or over, another one with no post between."""
    unknown: tuple[tuple[int, str], ...] = ()
    """Side sheets whose side cannot be laid out, and why."""


def side_frames(job: Job, shape: RoofShape) -> SideFrames:
    """The timber between the side sheets.

    Parameters
    ----------
    job
        Its side sheets, and the sections of mullions and sills.
    shape
        The pitch.

    Returns
    -------
    SideFrames
        No mullion, transom or sill whose section the job does not name.

    Source
    ------
    Geometry. At an end the heights of two openings beside one another tell how wide the mullion between them is; in the
    front, and in the back, the posts tell which of them stand in one field.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> from pentice.job.shape import roof_shape
    >>> job = job_from_text('''
    ... [roof]
    ... width_mm = 2861
    ... projection_mm = 1701
    ... pitch_deg = 15
    ... left = "closed"
    ... [frame]
    ... mullion_mm = [70, 95]
    ... [[side_sheets]]
    ... side = "left"
    ... width_mm = 767
    ... left_mm = 2471
    ... right_mm = 2265
    ... [[side_sheets]]
    ... side = "left"
    ... width_mm = 767
    ... left_mm = 2246
    ... right_mm = 2041
    ... ''')
    >>> (mullion,) = side_frames(job, roof_shape(job)).mullions
    >>> mullion.length_mm, mullion.strip_mm, mullion.between
    (2265.0, 837.0, (1, 2))
    """
    openings = tuple(as_read(job, number) for number in range(1, len(job.side_sheets) + 1))
    front, back = fields_of(job, shape, "front"), fields_of(job, shape, "back")
    return _frames(openings, job.frame.mullion_mm, job.frame.sill_mm, shape.pitch_deg, (front, back))


@lru_cache(maxsize=64)
def _frames(
    sheets: tuple[SideSheet, ...],
    mullion_mm: tuple[float, float] | None,
    sill_mm: tuple[float, float] | None,
    pitch_deg: float,
    fields: tuple[tuple[Field, ...], tuple[Field, ...]],
) -> SideFrames:
    tan = math.tan(math.radians(pitch_deg))
    columns: list[tuple[Place, tuple[Column, ...]]] = []
    mullions: list[Mullion] = []
    transoms: list[Transom] = []
    sills: list[Sill] = []
    unknown: list[tuple[int, str]] = []
    needs = False
    for side in SIDES:
        stacks = _stacks(sheets, side)
        if not stacks:
            continue
        thick = mullion_mm[0] if mullion_mm is not None else 0.0
        of_side = tuple(_column(stack, thick) for stack in stacks)
        after, why = set(range(len(of_side) - 1)), ""
        if side in ("left", "right"):
            why = _why_not(side, of_side, mullion_mm, tan)
        elif after:
            after, why = _in_fields(side, of_side, mullion_mm, fields[side == "back"])
        needs = needs or bool(after) or any(len(stack) > 1 for stack in stacks)
        if why:
            unknown.append((of_side[0].numbers[0], why))
            continue
        columns.append((side, of_side))
        here: tuple[Mullion, ...] = ()
        if mullion_mm is not None:
            here = tuple(_mullions(side, of_side, thick, len(mullions), after))
            transoms += _transoms(side, of_side, thick, len(transoms))
        mullions += here
        if (
            sill_mm is not None
            and side in ("left", "right")
            and (mullion_mm is not None or len(of_side) == 1)
        ):
            sills.append(_sill(side, of_side, thick, here))
    return SideFrames(
        columns=tuple(columns),
        mullions=tuple(mullions),
        transoms=tuple(transoms),
        sills=tuple(sills),
        needs_mullion=needs,
        unknown=tuple(unknown),
    )


def _stacks(sheets: tuple[SideSheet, ...], side: Place) -> list[list[tuple[int, SideSheet]]]:
    """The sheets of a side with their numbers, those over another one with it."""
    stacks: list[list[tuple[int, SideSheet]]] = []
    for number, sheet in enumerate(sheets, 1):
        if sheet.side == side:
            if sheet.over and stacks:
                stacks[-1].append((number, sheet))
            else:
                stacks.append([(number, sheet)])
    return stacks


def _column(stack: list[tuple[int, SideSheet]], thick: float) -> Column:
    between = (len(stack) - 1) * thick
    return Column(
        numbers=tuple(number for number, _ in stack),
        width_mm=max(sheet.width_mm for _, sheet in stack),
        left_mm=sum(sheet.left_mm for _, sheet in stack) + between,
        right_mm=sum(sheet.right_mm for _, sheet in stack) + between,
        each_mm=tuple(max(sheet.left_mm, sheet.right_mm) for _, sheet in stack),
    )


def _why_not(
    side: Place, columns: tuple[Column, ...], mullion_mm: tuple[float, float] | None, tan: float
) -> str:
    """Why what stands between the sheets of an end is not known."""
    if mullion_mm is None or tan <= 0.0:
        return ""
    for a, b in pairwise(columns):
        fall = (a.right_mm - b.left_mm) * (1.0 if side == "left" else -1.0)
        gap, off = fall / tan, WIDTH_OFF_MM + HEIGHT_OFF_MM / tan
        if abs(gap - mullion_mm[0]) > off:
            return (
                f"By their heights side sheets {a.numbers[-1]} and {b.numbers[0]} stand {gap:.0f} apart, and "
                f"frame.mullion_mm is {mullion_mm[0]:g} wide. List them from left to right as seen from outside, say "
                "over = true where one stands over the other, and show what else stands between them."
            )
    return ""


def _in_fields(
    side: Place,
    columns: tuple[Column, ...],
    mullion_mm: tuple[float, float] | None,
    fields: tuple[Field, ...],
) -> tuple[set[int], str]:
    """After which columns of a front or back a mullion stands, and not a post; and why that is not known."""
    widths = [column.width_mm for column in columns]
    thick = None if mullion_mm is None else mullion_mm[0]
    ways = parted(widths, fields, thick)
    if not ways and thick is None and fields:
        return set(range(len(columns) - 1)), ""  # the section of what parts them is asked for first
    if len(ways) != 1:
        return set(), why_not_parted(side, fields, widths, len(ways))
    (way,) = ways
    posts = {sum(way[: k + 1]) - 1 for k in range(len(way))}
    after = set(range(len(columns))) - posts
    for k in after:
        a, b = columns[k], columns[k + 1]
        if abs(a.right_mm - b.left_mm) > HEIGHT_OFF_MM:
            return set(), (
                f"Side sheets {a.numbers[-1]} and {b.numbers[0]} stand beside one mullion of the {side}, "
                f"{a.right_mm:.0f} and {b.left_mm:.0f} high: measure both again, or show what else stands there."
            )
    return after, ""


def _mullions(
    side: Place, columns: tuple[Column, ...], thick: float, before: int, after: set[int]
) -> Iterator[Mullion]:
    for k, place in enumerate(sorted(after), before + 1):
        a, b = columns[place], columns[place + 1]
        yield Mullion(
            number=k,
            side=side,
            between=(a.numbers[0], b.numbers[0]),
            length_mm=max(a.right_mm, b.left_mm),
            strip_mm=(a.width_mm + b.width_mm) / 2.0 + thick,
        )


def _transoms(side: Place, columns: tuple[Column, ...], thick: float, before: int) -> Iterator[Transom]:
    k = before
    for column in columns:
        tall = column.each_mm
        for n, (low, high) in enumerate(pairwise(column.numbers)):
            k += 1
            yield Transom(
                number=k,
                side=side,
                between=(low, high),
                length_mm=column.width_mm,
                strip_mm=(tall[n] + tall[n + 1]) / 2.0 + thick,
                above_mm=tall[n + 1],
            )


def _sill(side: Place, columns: tuple[Column, ...], thick: float, mullions: tuple[Mullion, ...]) -> Sill:
    return Sill(
        side=side,
        sheets=tuple(number for column in columns for number in column.numbers),
        length_mm=sum(column.width_mm for column in columns) + (len(columns) - 1) * thick,
        strip_mm=max(column.each_mm[0] for column in columns) / 2.0,
        mullions=mullions,
    )


def columns_of(job: Job, side: Place) -> tuple[Column, ...]:
    """The openings of a side from left to right as seen from outside, known or not what stands between them.

    Parameters
    ----------
    job
        Its side sheets, as read on site where they were.
    side
        Which side.

    Returns
    -------
    tuple of Column
        [mm]; none where no sheet closes the side.

    Source
    ------
    None: the job's own values.

    Examples
    --------
    >>> from pentice.job.model import SideSheet
    >>> below = SideSheet(side="front", width_mm=800, left_mm=900, right_mm=900)
    >>> above = below.model_copy(update={"over": True})
    >>> [column.numbers for column in columns_of(Job(side_sheets=(below, above)), "front")]
    [(1, 2)]
    """
    openings = tuple(as_read(job, number) for number in range(1, len(job.side_sheets) + 1))
    thick = job.frame.mullion_mm[0] if job.frame.mullion_mm is not None else 0.0
    return tuple(_column(stack, thick) for stack in _stacks(openings, side))


def beside_the_post_mm(
    frames: SideFrames, side: Place, *, deep_mm: float, post_mm: float, row: str
) -> float | None:
    """Strip of an end that comes to the post at its edge: itself, and half of the opening beside it.

    Parameters
    ----------
    frames, side
        What stands between the side sheets, and which end.
    deep_mm, post_mm
        Depth of the end, and of the post [mm].
    row
        "eaves" or "head": which of its edges.

    Returns
    -------
    float or None
        [mm]; None where mullions do not part the end, or openings and mullions do not fill it.

    Source
    ------
    Statics. What is left beside the openings counts as the post's, on the safe side.

    Examples
    --------
    >>> beside_the_post_mm(SideFrames(), "left", deep_mm=1701.0, post_mm=95.0, row="eaves") is None
    True
    """
    columns = dict(frames.columns).get(side, ())
    rest = rest_mm(frames, side, deep_mm - post_mm)
    if len(columns) < 2 or rest is None or not -REST_MOST_MM <= rest <= REST_MOST_MM:
        return None
    # Seen from outside the eaves are at the right of the left end, and at the left of the right end.
    at_right = (side == "left") == (row == "eaves")
    return post_mm + (columns[-1] if at_right else columns[0]).width_mm / 2.0 + max(rest, 0.0)


def rest_mm(frames: SideFrames, side: Place, deep_mm: float) -> float | None:
    """What openings and mullions of a side leave of its depth without posts.

    Parameters
    ----------
    frames, side
        What stands between the side sheets, and which end.
    deep_mm
        Depth of the end without its posts [mm].

    Returns
    -------
    float or None
        [mm], below 0 where they are wider; None where they are not known.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> column = Column(numbers=(1,), width_mm=1600.0, left_mm=2471.0, right_mm=2042.0, each_mm=(2471.0,))
    >>> rest_mm(SideFrames(columns=(("left", (column,)),)), "left", 1606.0)
    6.0
    """
    columns = dict(frames.columns).get(side, ())
    mullions = [m for m in frames.mullions if m.side == side]
    if not columns or len(mullions) != len(columns) - 1:
        return None
    between = sum(
        m.strip_mm - (a.width_mm + b.width_mm) / 2.0
        for m, (a, b) in zip(mullions, pairwise(columns), strict=True)
    )
    return deep_mm - sum(c.width_mm for c in columns) - between


def at_the_house_wall(job: Job, shape: RoofShape) -> tuple[tuple[Place, int], ...]:
    """Side sheets whose openings reach the house wall, so that a profile of theirs lies on it.

    Parameters
    ----------
    job, shape
        The openings, mullions and posts, and how deep each end is.

    Returns
    -------
    tuple
        "left" or "right" and the number of the side sheet: at the left end it is its left edge, at the right end its
        right. None where openings, mullions and a post do not fill the depth: something else stands at the wall.

    Source
    ------
    Geometry; how much may be left is judgement.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> job = job_from_text('''
    ... [roof]
    ... width_mm = 2861
    ... projection_mm = 1701
    ... pitch_deg = 15
    ... left = "closed"
    ... [frame]
    ... post_mm = [95, 95]
    ... [[side_sheets]]
    ... side = "left"
    ... width_mm = 1600
    ... left_mm = 2471
    ... right_mm = 2042
    ... ''')
    >>> from pentice.job.shape import roof_shape
    >>> at_the_house_wall(job, roof_shape(job))
    (('left', 1),)
    """
    if not job.roof.attached or job.frame.post_mm is None:
        return ()
    frames, found = side_frames(job, shape), []
    for side, x in (("left", 0.0), ("right", shape.width_mm)):
        for place, columns in frames.columns:
            if place != side:
                continue
            deep = shape.projection_between(x, x)[1]
            rest = rest_mm(frames, place, deep - job.frame.post_mm[1])
            if rest is not None and abs(rest) <= NO_TIMBER_MM:
                at_wall = columns[0] if place == "left" else columns[-1]
                found += [(place, number) for number in at_wall.numbers]
    return tuple(found)
