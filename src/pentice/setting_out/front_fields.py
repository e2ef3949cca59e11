"""Which side sheets of a front or back stand in which field between its posts: a mullion parts those in one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from pentice.job.model import Job
from pentice.job.shape import RoofShape

OFF_MM = 10.0
"""How much wider than a field what stands in it may be, and what each mullion may leave of it: judgement, no source."""
REST_MM = 25.0
"""What one sheet may leave of a field; more is something else: judgement, no source."""


class Field(NamedTuple):
    """The clear way between two posts, or between a house wall at the side and the post beside it."""

    clear_mm: float
    opening: str
    """The door, window or vent in it; empty: none."""


def fields_of(job: Job, shape: RoofShape, side: Literal["front", "back"]) -> tuple[Field, ...]:
    """The fields of a front or back, from left to right as seen from outside.

    Parameters
    ----------
    job, shape
        Posts, openings and what stands at the ends; the width of the roof.
    side
        Which.

    Returns
    -------
    tuple of Field
        [mm]; none where the posts, or how wide they are, are not known.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> from pentice.job.reading import job_from_text
    >>> from pentice.job.shape import roof_shape
    >>> job = job_from_text('''
    ... [roof]
    ... width_mm = 4000
    ... projection_mm = 2000
    ... pitch_deg = 15
    ... openings = [{wall = "front", kind = "door", x_mm = 2400, width_mm = 900, height_mm = 2000}]
    ... [frame]
    ... post_mm = [95, 95]
    ... posts_at_mm = [48, 2000, 3952]
    ... ''')
    >>> fields_of(job, roof_shape(job), "front")
    (Field(clear_mm=1857.0, opening=''), Field(clear_mm=1857.0, opening='door'))
    """
    frame, roof = job.frame, job.roof
    places = (frame.head_posts_at_mm or frame.posts_at_mm) if side == "back" else frame.posts_at_mm
    if frame.post_mm is None or not places:
        return ()
    half = frame.post_mm[0] / 2.0
    solid = [(x - half, x + half) for x in places]
    if roof.left == "wall":
        solid.insert(0, (0.0, 0.0))
    if roof.right == "wall":
        solid.append((shape.width_mm, shape.width_mm))
    if side == "back":  # seen from outside, its left is the right of the roof
        solid = [(shape.width_mm - b, shape.width_mm - a) for a, b in reversed(solid)]
    return tuple(
        Field(clear_mm=end - start, opening=_opening_in(job, side, start, end))
        for (_, start), (end, _) in pairwise(solid)
    )


def _opening_in(job: Job, side: str, start_mm: float, end_mm: float) -> str:
    for opening in job.roof.openings:
        if opening.wall == side and opening.x_mm < end_mm and opening.x_mm + opening.width_mm > start_mm:
            return opening.kind
    return ""


def parted(
    widths_mm: Sequence[float], fields: Sequence[Field], mullion_mm: float | None
) -> frozenset[tuple[int, ...]]:
    """Every way in which openings beside one another may stand in the fields, a mullion between those in one.

    Parameters
    ----------
    widths_mm
        Of the openings from left to right [mm].
    fields
        In the same order; none of the sheets stands in one with a door or a window in it.
    mullion_mm
        Width of a mullion [mm]; None: not known, so each field holds one opening.

    Returns
    -------
    frozenset
        How many openings stand in each field that has any, for each way.

    Source
    ------
    Geometry; how much may be left is judgement.

    Examples
    --------
    >>> plain = [Field(1857.0, ""), Field(900.0, ""), Field(1857.0, "door")]
    >>> parted([890.0, 890.0, 895.0], plain, 70.0)
    frozenset({(2, 1)})
    >>> parted([890.0, 890.0, 895.0], plain, None)
    frozenset()
    """
    return frozenset(_ways(tuple(widths_mm), [f.clear_mm for f in fields if not f.opening], mullion_mm))


def _ways(
    widths: tuple[float, ...], clear: Sequence[float], thick: float | None
) -> Iterator[tuple[int, ...]]:
    if not widths:
        yield ()
        return
    for k, wide in enumerate(clear):  # fields before it have no sheet
        for count in range(1, len(widths) + 1 if thick is not None else 2):
            rest = wide - sum(widths[:count]) - (count - 1) * (thick or 0.0)
            if rest < -OFF_MM:
                break
            if rest <= (REST_MM if count == 1 else (count - 1) * OFF_MM):
                for ways in _ways(widths[count:], clear[k + 1 :], thick):
                    yield (count, *ways)


def why_not_parted(side: str, fields: Sequence[Field], widths_mm: Sequence[float], ways: int) -> str:
    """Why it is not known what stands between the sheets of a front or back.

    Parameters
    ----------
    side, fields, widths_mm
        Which, its fields, and the widths of its openings [mm].
    ways
        In how many ways they may stand.

    Returns
    -------
    str
        A sentence with the way out.

    Source
    ------
    None: words.

    Examples
    --------
    >>> why_not_parted("front", (), (900.0,), 0)[:51]
    'Where the posts of the front stand is not known: gi'
    """
    if not fields:
        return f"Where the posts of the {side} stand is not known: give frame.post_mm and frame.posts_at_mm."
    sheets = ", ".join(f"{width:.0f}" for width in widths_mm)
    clear = ", ".join(f"{f.clear_mm:.0f}{f' with a {f.opening}' if f.opening else ''}" for f in fields)
    between = f"The side sheets in the {side} are {sheets} wide; between its posts there is {clear}."
    if ways > 1:
        return (
            f"{between} They fit in more than one way: measure the widths again, or list those of one field by "
            "themselves."
        )
    doors = (
        " What stands beside a door or a window is not calculated." if any(f.opening for f in fields) else ""
    )
    return (
        f"{between} With mullions of frame.mullion_mm between them they do not fill these: list them from left to "
        f"right as seen from outside, give that width, and show what else stands there.{doors}"
    )
