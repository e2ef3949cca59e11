"""Heads of mullions: cut square at the saw, on the slope on site, with room for what is over them to sag."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pentice.checks.values import Check
from pentice.design import CutAndOrdered
from pentice.pieces.names import job_of, letters_of
from pentice.pieces.side_timbers import UNDER_BEAM

MORE_MM = 2.0
"""Room beyond what the rafter or the beam sags: judgement, no source."""


def head_room_mm(design: CutAndOrdered, *, under_beam: bool = False) -> float | None:
    """How much a mullion's head stands below the end rafter, or below the beam of its front or back.

    Parameters
    ----------
    design
        One solved job.
    under_beam
        Does it stand in the front or back?

    Returns
    -------
    float or None
        The greater sag in the end of the two end rafters, or of the beams, rounded up, and 2 [mm]; None where it was
        not calculated.
    """
    of_beam = [c for c in design.checks if c.id.removeprefix("head-") == "beam-sag-final"]
    found = of_beam if under_beam else _at_the_ends(design)
    known = [sag for sag in (c.demand for c in found) if sag is not None]
    return math.ceil(max(known) - 1e-9) + MORE_MM if known and len(known) == len(found) else None


def _at_the_ends(design: CutAndOrdered) -> list[Check]:
    """The sags of the two end rafters."""
    sags = [c for c in design.checks if c.id == "rafter-sag-final" and c.place.rafter is not None]
    rafters = [c.place.rafter or 0 for c in sags]
    return [c for c in sags if c.place.rafter in (min(rafters), max(rafters))]


def room_words(design: CutAndOrdered, *, one_job: bool = True, under_beam: bool = False) -> str:
    """What is left between a mullion's head and the rafter or beam over it, in words.

    Parameters
    ----------
    design
        A solved job, or several that are cut together.
    one_job
        False where jobs share the plan: which rafter is whose is not known there.
    under_beam
        Does it stand in the front or back?

    Returns
    -------
    str
        With the room in mm where it is known.
    """
    room = head_room_mm(design, under_beam=under_beam) if one_job else None
    if room is None:
        over = "beam" if under_beam else "end rafter"
        return f"what the {over} sags in the end by the calculations, and {MORE_MM:g} mm"
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
    return " ".join(_head_words(design, text, id) for text, id in said.items())


def _head_words(design: CutAndOrdered, text: str, id: str) -> str:
    under_beam = text == UNDER_BEAM
    each, over = ("Each mullion of front and back", "beam") if under_beam else ("Each mullion", "rafter")
    room = room_words(design, one_job=not job_of(id), under_beam=under_beam)
    return f"{each}: {text}. Left there between head and {over}: {room}."
