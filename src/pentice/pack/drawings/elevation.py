"""The sides of the roof as seen from outside: which of them are drawn, and each as a model."""

from __future__ import annotations

from pentice.design import Design
from pentice.drawing.scene import Scene
from pentice.frame.side_places import side_places
from pentice.frame.stage import row_places
from pentice.job.model import Opening
from pentice.pack.drawings.elevation_end import end_crossed, end_model, end_words
from pentice.pack.drawings.elevation_row import row_crossed, row_model, row_words
from pentice.setting_out.side_frames import SIDES, Place

ENDS: tuple[Place, ...] = ("left", "right")


def sides_drawn(design: Design) -> tuple[Place, ...]:
    """Sides with posts, sheets or openings, from the left end round; none that a house wall closes.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of str
        "left", "front", "right", "back".
    """
    return tuple(side for side in SIDES if _has_anything(design, side))


def _has_anything(design: Design, side: Place) -> bool:
    job = design.job
    if side in ("left", "right") and getattr(job.roof, side) == "wall":
        return False
    if side == "back" and job.roof.attached:
        return False
    posts = job.frame.post_mm is not None and bool(row_places(job, head=side == "back")[0])
    opened = any(o.wall == side for o in job.roof.openings)
    return posts or opened or side_places(job, design.shape, design.setting_out, side) is not None


def elevation_model(design: Design, side: Place, n: float, *, keyed: bool = False) -> Scene:
    """One side as seen from outside, to be printed 1:n.

    Parameters
    ----------
    design
        A solved job.
    side
        Which side.
    n
        The scale it will be printed at.
    keyed
        Whether its key stands under it.
    """
    return (end_model if side in ENDS else row_model)(design, side, n, keyed=keyed)


def elevation_words(design: Design, side: Place) -> tuple[str, ...]:
    """What the drawing of a side has no room to say: short sentences for its key.

    Parameters
    ----------
    design
        A solved job.
    side
        Which side.
    """
    return (end_words if side in ENDS else row_words)(design, side)


def crossed_by_braces(design: Design) -> tuple[Opening, ...]:
    """Doors, windows and vents that a brace crosses as it is drawn, side by side from the left end round.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of Opening
        None where heights are not known: then no braces are drawn there.
    """
    drawn = sides_drawn(design)
    return tuple(o for side in drawn for o in (end_crossed if side in ENDS else row_crossed)(design, side))
