"""Where the rafters stand: set out from the width, as built, or as measured after the frame was up."""

from __future__ import annotations

from itertools import pairwise

from pentice.catalogue.parts import Parts
from pentice.errors import InputError
from pentice.job.model import Job
from pentice.setting_out.values import Rafter


def rafter_centres(
    width_mm: float,
    rafter_width_mm: float,
    bay_count: int,
    ends_mm: tuple[float | None, float | None] = (None, None),
) -> tuple[float, ...]:
    """Rafter centres from one end, equal bays but for end bays that are given.

    Parameters
    ----------
    width_mm
        Over the outer faces of the outer rafters [mm].
    rafter_width_mm
        Width of a rafter [mm].
    bay_count
        Number of bays.
    ends_mm
        Centres of the left and the right end bay where they differ [mm].

    Returns
    -------
    tuple of float
        bay_count + 1 marks from the left outer face [mm].

    Raises
    ------
    InputError
        End bays leave nothing for the bays between.

    Source
    ------
    Running marks from one end, never stepped: common practice, no source.

    Examples
    --------
    >>> [round(x, 1) for x in rafter_centres(4875.0, 47.0, 5)]
    [23.5, 989.1, 1954.7, 2920.3, 3885.9, 4851.5]
    """
    between = width_mm - rafter_width_mm
    given = [size for size in ends_mm[: min(2, bay_count)] if size is not None]
    rest = bay_count - len(given)
    if (rest > 0 and sum(given) >= between) or (rest == 0 and abs(sum(given) - between) > 0.5):
        raise InputError.of(
            "frame.end_bay_mm",
            list(ends_mm),
            f"expected end bays that leave room within {between:g} between the outer centres",
        )
    even = (between - sum(given)) / rest if rest else 0.0
    bays = [even] * bay_count
    if ends_mm[0] is not None:
        bays[0] = ends_mm[0]
    if ends_mm[1] is not None and bay_count > 1:
        bays[-1] = ends_mm[1]
    marks = [rafter_width_mm / 2.0]
    for i in range(1, bay_count + 1):
        marks.append(rafter_width_mm / 2.0 + sum(bays[:i]) if given else rafter_width_mm / 2.0 + i * even)
    return tuple(marks)


def support_mm(job: Job, parts: Parts) -> tuple[float, float] | None:
    """Width and depth of what stands under the sheets' edges: a rafter, or a bar that carries by itself.

    Parameters
    ----------
    job, parts
        The job and its products.

    Returns
    -------
    tuple or None
        [mm]; None where the job names no rafter.

    Source
    ------
    None: a choice between two sizes.
    """
    bar = parts.bar
    return (bar.seat_mm, bar.below_mm or 0.0) if bar.carries else job.frame.rafter_mm


def set_out_rafters(job: Job, parts: Parts) -> tuple[Rafter, ...]:
    """The rafters of a job: measured before as built before set out from the width.

    Parameters
    ----------
    job, parts
        A job whose blanks are filled, and its products: a bar that carries itself stands in the rafter's place.

    Returns
    -------
    tuple of Rafter
        From the left, each with its centre at head and foot [mm] and whether it carries a bar.

    Raises
    ------
    InputError
        What the job names does not go together.
    """
    frame, roof = job.frame, job.roof
    size = support_mm(job, parts)
    if size is None or roof.width_mm is None:
        raise InputError("frame.rafter_mm and roof.width_mm are needed to set out rafters.")
    width, depth = size
    if frame.rafter_centres_mm is not None:
        drawn = frame.rafter_centres_mm
    elif frame.bay_count is not None:
        drawn = rafter_centres(roof.width_mm, width, frame.bay_count, frame.end_bay_mm)
    else:
        raise InputError(
            "frame.bay_count is missing; give it, or frame.max_bay_mm, or frame.rafter_centres_mm."
        )
    measured = job.measured.rafter_centres_mm
    if measured and len(measured) != len(drawn):
        raise InputError.of(
            "measured.rafter_centres_mm",
            f"{len(measured)} rafters",
            f"expected {len(drawn)}, one pair each",
            "Measure all.",
        )
    pairs = measured or tuple((x, x) for x in drawn)
    if min(b[e] - a[e] for a, b in pairwise(pairs) for e in (0, 1)) <= width:
        raise InputError(
            "Two rafters stand closer than their width; look at the centres and at frame.rafter_mm."
        )
    last = len(pairs) - 1
    edges = {0: job.glazing.left_edge, last: job.glazing.right_edge}
    return tuple(
        Rafter(
            number=i + 1,
            centre_head_mm=head,
            centre_foot_mm=foot,
            width_mm=width,
            depth_mm=depth,
            has_bar=edges.get(i) != "edge profile",
            end="left" if i == 0 else "right" if i == last else "",
            is_bar=parts.bar.carries,
        )
        for i, (head, foot) in enumerate(pairs)
    )
