"""Inputs that many checks rest on: sizes, heights and places that the job gives, each with its mark."""

from __future__ import annotations

from typing import Literal

from pentice.checks.ground import Ground
from pentice.checks.values import RestsOn

Row = Literal["eaves", "head"]
ROWS: tuple[Row, ...] = ("eaves", "head")


def of_frame(ground: Ground, *keys: str) -> tuple[RestsOn, ...]:
    """Values of the frame that the job gives.

    Parameters
    ----------
    ground
        The inputs of every check.
    keys
        Without their table: "post_mm".

    Returns
    -------
    tuple of RestsOn
        None for a key that is not given.

    Source
    ------
    Definition.
    """
    return ground.once(_of_frame, *keys)


def _of_frame(ground: Ground, *keys: str) -> tuple[RestsOn, ...]:
    given = ((key, getattr(ground.job.frame, key)) for key in keys)
    return tuple(ground.of_job(f"frame.{key}", value) for key, value in given if value not in (None, ()))


def of_roof(ground: Ground, *keys: str) -> tuple[RestsOn, ...]:
    """Measures of the roof that the job gives; its pitch also where that comes from two heights.

    Parameters
    ----------
    ground
        The inputs of every check.
    keys
        Without their table: "width_mm".

    Returns
    -------
    tuple of RestsOn
        None for a key that is not given.

    Source
    ------
    Definition.
    """
    return ground.once(_of_roof, *keys)


def _of_roof(ground: Ground, *keys: str) -> tuple[RestsOn, ...]:
    own = {"pitch_deg": ground.shape.pitch_deg}
    given = ((key, own.get(key, getattr(ground.job.roof, key))) for key in keys)
    return tuple(ground.of_job(f"roof.{key}", value) for key, value in given if value not in (None, ()))


def of_posts(ground: Ground, *rows: Row) -> tuple[RestsOn, ...]:
    """Where the posts of some rows stand, and how thick they are.

    Parameters
    ----------
    ground
        The inputs of every check.
    rows
        Absent: of every row that there is.

    Returns
    -------
    tuple of RestsOn
        One for each row; where the head's row has no places of its own it has those of the eaves, and their mark.

    Source
    ------
    Definition.
    """
    return ground.once(_of_posts, *rows)


def _of_posts(ground: Ground, *rows: Row) -> tuple[RestsOn, ...]:
    frame, found = ground.job.frame, []
    for row in rows or ROWS:
        posts = ground.frame.head_posts if row == "head" else ground.frame.posts
        if not posts:
            continue
        own = row == "head" and bool(frame.head_posts_at_mm)
        mark = ground.job.mark_of(f"frame.{'head_posts_at_mm' if own else 'posts_at_mm'}").mark
        path = "frame.head_posts_at_mm" if row == "head" else "frame.posts_at_mm"
        found.append(RestsOn(input=path, value=tuple(post.x_mm for post in posts), mark=mark))
    return (*found, *of_frame(ground, "post_mm"))


def of_beam(ground: Ground, row: Row) -> tuple[RestsOn, ...]:
    """Width and depth of the beam of a row.

    Parameters
    ----------
    ground, row
        The inputs of every check, and which row.

    Returns
    -------
    tuple of RestsOn
        The head's own where the job gives one, else that of the eaves.

    Source
    ------
    Definition.
    """
    own = row == "head" and ground.job.frame.head_beam_mm is not None
    return of_frame(ground, "head_beam_mm" if own else "beam_mm")


def of_post_material(ground: Ground) -> RestsOn:
    """The strength class of the posts, or their metal.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    RestsOn
        With its mark.

    Source
    ------
    Definition.
    """
    section, timber = ground.parts.post_section, ground.parts.timber_for("post")
    if section is not None:
        return ground.of_catalogue(f"sections.{section.id}.metal", section.metal)
    return ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class)
