"""What a job file leaves out: blanks that only its author can fill, and keys that the program may choose.

Loads have blanks of their own; they are asked for where the loads are made.
"""

from __future__ import annotations

from collections.abc import Iterator

from pentice.errors import Problem
from pentice.job.model import Job


def blanks(job: Job, *, file: str = "") -> tuple[Problem, ...]:
    """Every key about the roof and its house that nothing can stand for and that is not given.

    Parameters
    ----------
    job
        The job as read.
    file
        Name of the file, for the sentences.

    Returns
    -------
    tuple of Problem
        One sentence each: which key, and how to come by it. Empty where nothing is missing.

    Examples
    --------
    >>> [problem.place for problem in blanks(Job())][:3]
    ['roof.use', 'roof.width_mm', 'roof.projection_mm']
    """
    return tuple(
        Problem(path, f"{path} is missing. {do}", file) for path, do in (*_of_roof(job), *_of_house(job))
    )


def _of_roof(job: Job) -> Iterator[tuple[str, str]]:
    roof = job.roof
    if roof.use is None:
        yield "roof.use", 'Say what it is: "lean-to" (enclosed), "veranda", "canopy" or "carport".'
    if roof.width_mm is None:
        yield (
            "roof.width_mm",
            "Measure from the outer face of the first to the outer face of the last rafter.",
        )
    if roof.projection_mm is None:
        yield (
            "roof.projection_mm",
            "Measure level, from the string line at the wall to the beam's outer face.",
        )
    if roof.pitch_deg is None and (roof.head_height_mm is None or roof.eaves_height_mm is None):
        yield "roof.pitch_deg", "Give it, or both head_height_mm and eaves_height_mm over one datum mark."
    for side in ("left", "right", "front"):
        if getattr(roof, side) is None:
            kinds = '"open" or "closed"' if side == "front" else '"open", "closed" or "wall"'
            yield f"roof.{side}", f"Say what closes that side: {kinds}."
    if "wall" in (roof.left, roof.right):
        yield from _of_side_wall(job)


def _of_side_wall(job: Job) -> Iterator[tuple[str, str]]:
    if job.roof.side_wall_top_above_mm is None:
        yield "roof.side_wall_top_above_mm", "Measure from our roof line up to the top of the side wall."
    if job.roof.side_wall_depth_mm is None:
        yield "roof.side_wall_depth_mm", "Measure the building behind the side wall, square to that wall."


def _of_house(job: Job) -> Iterator[tuple[str, str]]:
    house = job.house
    if house is None:
        if job.roof.attached:
            yield (
                "house",
                "A roof on a wall needs [house]: its depth, and how far its wall top stands above our head.",
            )
        return
    if house.depth_mm is None:
        yield "house.depth_mm", "Measure the house square to our wall: snow drifts off its whole depth."
    if house.wall_top_above_mm is None:
        yield (
            "house.wall_top_above_mm",
            "Measure from our roof line at the head up to the top of the wall above.",
        )
    if house.roof_drains_to_us is None:
        yield (
            "house.roof_drains_to_us",
            "Say true or false: does the house roof drain and slide its snow onto ours?",
        )
    if house.roof_drains_to_us:
        if house.roof_pitch_deg is None:
            yield "house.roof_pitch_deg", "Snow slides off the house roof onto ours: give its pitch."
        if house.upper_slope_plan_mm is None:
            yield (
                "house.upper_slope_plan_mm",
                "Give the plan length of the house slope that falls towards us.",
            )


def fillable(job: Job) -> tuple[str, ...]:
    """Key paths left out that have a safe choice, in the order in which they are chosen.

    Parameters
    ----------
    job
        The job as read.

    Returns
    -------
    tuple of str
        Empty where the author left nothing to choose.

    Examples
    --------
    >>> fillable(Job())[:3]
    ('frame.bay_count', 'glazing.bar', 'glazing.sheet')
    """
    return tuple(path for path in _CHOSEN if _is_open(job, path))


_CHOSEN = (
    "frame.bay_count",
    "glazing.bar",
    "glazing.sheet",
    "glazing.tint",
    "glazing.left_edge",
    "glazing.right_edge",
    "glazing.head_profile",
    "glazing.foot_profile",
    "glazing.edge_profile",
    "glazing.verge_trim",
    "frame.timber",
    "frame.service_class",
    "frame.rafter_mm",
    "frame.beam_mm",
    "frame.wall_plate_mm",
    "frame.post_mm",
    "frame.barge_board_mm",
    "screws.bar_screw",
    "screws.spacing_mm",
    "gutter.item",
    "gutter.fall",
)


def _is_open(job: Job, path: str) -> bool:
    table, key = path.split(".")
    if getattr(getattr(job, table), key) is not None:
        return False
    if path == "frame.bay_count":
        return job.frame.rafter_centres_mm is None
    edges = (job.glazing.left_edge, job.glazing.right_edge)
    if path == "glazing.edge_profile":
        return "edge profile" in edges or "wall" in edges or "wall" in (job.roof.left, job.roof.right)
    if path == "glazing.verge_trim":
        return not all(edge in ("edge profile", "wall") for edge in edges)
    return True
