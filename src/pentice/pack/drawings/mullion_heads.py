"""Heads of mullions: cut square at the saw and on the slope on site, with room for the rafter over them to sag."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pentice.design import CutAndOrdered
from pentice.pieces.names import job_of, letters_of

MORE_MM = 2.0
"""Room beyond what the rafter sags: judgement, no source."""


def head_room_mm(design: CutAndOrdered) -> float | None:
    """How much a mullion's head stands below the end rafter.

    Parameters
    ----------
    design
        One solved job.

    Returns
    -------
    float or None
        The greater sag in the end of the two end rafters, rounded up, and 2 [mm]; None where it was not calculated.
    """
    sags = [c for c in design.checks if c.id == "rafter-sag-final" and c.place.rafter is not None]
    rafters = [c.place.rafter or 0 for c in sags]
    ends = [c.demand for c in sags if c.place.rafter in (min(rafters), max(rafters))]
    known = [sag for sag in ends if sag is not None]
    return math.ceil(max(known) - 1e-9) + MORE_MM if known and len(known) == len(ends) else None


def room_words(design: CutAndOrdered, *, one_job: bool = True) -> str:
    """What is left between a mullion's head and the rafter, in words.

    Parameters
    ----------
    design
        A solved job, or several that are cut together.
    one_job
        False where jobs share the plan: which rafter is whose is not known there.

    Returns
    -------
    str
        With the room in mm where it is known.
    """
    room = head_room_mm(design) if one_job else None
    if room is None:
        return f"what the end rafter sags in the end by the calculations, and {MORE_MM:g} mm"
    return f"{room:g} mm (its sag in the end, rounded up, and {MORE_MM:g})"


def heads_words(design: CutAndOrdered, ids: Iterable[str]) -> str:
    """How the mullions of a stock length are cut, for the length's ticket; nothing where there is none.

    Parameters
    ----------
    design
        A solved job, or several that are cut together.
    ids
        The pieces that come out of the length.

    Returns
    -------
    str
        One sentence of the cuts, one of the room.
    """
    wanted = {id for id in ids if letters_of(id) == "MU"}
    said = {mark.text: piece.id for piece in design.pieces if piece.id in wanted for mark in piece.marks}
    return " ".join(
        f"Each mullion: {text}. Left there between head and rafter: {room_words(design, one_job=not job_of(id))}."
        for text, id in said.items()
    )
