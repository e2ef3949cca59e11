"""Closed ends for tests: openings that fill an end between wall and post, by trigonometry of their own; not cut."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from pentice.design import Design
from pentice.job.model import Job
from pentice.pieces.stage import pieces_of
from pentice.pipeline import assess
from tests.designs import catalogue, design_of, example

ROOM_MM = 10.0
"""Over every opening."""


def closed_end_keys(
    *,
    width: float = 2861.0,
    out: float = 1700.0,
    pitch: float = 15.0,
    eaves: float = 2200.0,
    mullions: int = 1,
    low_wall: float = 0.0,
    door_at: float | None = None,
) -> dict[str, Any]:
    """The plant lobby with other sizes, both its ends closed.

    Parameters
    ----------
    width, out, pitch, eaves
        Of the roof [mm, deg].
    mullions
        In each end.
    low_wall
        What the sills lie on, over the floor [mm].
    door_at
        Left edge of a door in the front [mm]; None without one.
    """
    frame = example("plant-lobby").frame
    assert frame.post_mm is not None and frame.mullion_mm is not None and frame.sill_mm is not None
    post, thick, sill, depth = frame.post_mm[1], frame.mullion_mm[0], frame.sill_mm[1], 120.0
    wide = math.floor((out - post - mullions * thick) / (mullions + 1))
    tan, cos = math.tan(math.radians(pitch)), math.cos(math.radians(pitch))

    def height(from_wall: float) -> int:
        under = eaves + (out - from_wall) * tan - depth / cos
        return math.floor(under - low_wall - sill - ROOM_MM)

    left = [
        {"width_mm": wide, "left_mm": height(a), "right_mm": height(a + wide)}
        for a in (k * (wide + thick) for k in range(mullions + 1))
    ]
    right = [{"width_mm": wide, "left_mm": s["right_mm"], "right_mm": s["left_mm"]} for s in reversed(left)]
    door = {"wall": "front", "kind": "door", "width_mm": 700.0, "height_mm": 1200.0, "dominant_factor": 0.75}
    return {
        "roof__width_mm": width,
        "roof__projection_mm": out,
        "roof__pitch_deg": pitch,
        "roof__eaves_height_mm": eaves,
        "roof__openings": [] if door_at is None else [{**door, "x_mm": door_at}],
        "frame__bay_count": max(1, round(width / 700.0)),
        "frame__posts_at_mm": [post / 2.0, width - post / 2.0],
        "side_sheets": [{"side": "left", **s} for s in left] + [{"side": "right", **s} for s in right],
    }


def laid_out(job: Job) -> Design:
    """A job set out, with its pieces, neither checked nor cut: what elevations show. All else is the plant lobby's."""
    found = assess(job, catalogue(), only=())
    pieces = pieces_of(job, found.shape, found.parts, found.setting_out, sides="alone")
    return replace(
        design_of("plant-lobby"),
        job=job,
        shape=found.shape,
        parts=found.parts,
        setting_out=found.setting_out,
        pieces=pieces,
    )
