"""Knee braces across as the section shows them: their middle lines, and where these begin."""

from __future__ import annotations

from pentice.design import Design
from pentice.drawing.leaders import leader
from pentice.drawing.scene import Circle, Line, Primitive
from pentice.pack.drawings.slope import slope_of


def knee_braces_across(design: Design, n: float) -> tuple[Primitive, ...]:
    """The braces from both posts to the rafter over them; nothing where no knee braces hold the roof across.

    Their timber is not the job's: who makes them declares what they hold, so their middle lines are drawn.

    Parameters
    ----------
    design
        A solved job.
    n
        The scale it will be printed at.

    Returns
    -------
    tuple of Primitive
        In the section's own mm, the roof line at the head at its origin.
    """
    frame = design.job.frame
    if frame.bracing_across != "knee braces" or frame.post_mm is None:
        return ()
    (down, along), deep, far = frame.knee_across_mm, frame.post_mm[1], design.shape.projection_mm
    slope, half = (
        slope_of(design),
        design.setting_out.plane.rafters[0].depth_mm / 2.0 / design.shape.cos_pitch,
    )
    found: list[Primitive] = []
    for post, side in ((deep / 2.0, 1.0), (far - deep / 2.0, -1.0)):
        crossing, top = slope.level(post, half), slope.level(post + side * along, half)
        low = (post, crossing[1] + down)
        found.append(Line(a=low, b=top, style="extra wide"))
        found += [Circle(centre=end, radius=0.7 * n, style="", fill="ink") for end in (low, top)]
    return tuple(found)


def knee_labels(design: Design, n: float) -> tuple[Primitive, ...]:
    """What the braces are, at the head's one, in places where it may stand; nothing where there are none.

    Parameters
    ----------
    design, n
        As `knee_braces_across`.

    Returns
    -------
    tuple of Primitive
        The best place first.
    """
    drawn = [p for p in knee_braces_across(design, n) if isinstance(p, Line)]
    if not drawn:
        return ()
    down, along = design.job.frame.knee_across_mm
    low, top = drawn[0].a, drawn[0].b
    tip = ((low[0] + top[0]) / 2.0, (low[1] + top[1]) / 2.0)
    right, under = max(4.0, (low[0] - tip[0]) / n + 8.0), (low[1] - tip[1]) / n + 6.0
    long = f"knee braces\n{down:g} down, {along:g} along\nfrom where middle lines cross"
    slim = f"knee braces\n{down:g} down\n{along:g} along\nfrom where\nmiddle lines\ncross"
    return tuple(
        leader(tip, (right, under + lower), words)
        for words in (long, slim)
        for lower in (0.0, 8.0, 16.0, 24.0)
    )
