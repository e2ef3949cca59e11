"""Loads along a line that change in straight pieces: an even load, a snow drift, several of them together.

A load is a tuple of breakpoints (place [mm], load per length [N/mm]); two points at one place make a step, and there
is nothing before the first or beyond the last.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from pentice.errors import InputError, require_within

LineLoad = tuple[tuple[float, float], ...]
Stretches = tuple[list[float], list[float]]
"""A load at the starts and at the ends of some stretches."""


def even_line(length_mm: float, load_n_mm: float) -> LineLoad:
    """The same load from the head to the end of a member.

    Parameters
    ----------
    length_mm
        Length of the member, overhang and all [mm].
    load_n_mm
        Load per length, downward positive [N/mm].

    Returns
    -------
    LineLoad
        Breakpoints [mm, N/mm].

    Source
    ------
    Definition.

    Examples
    --------
    >>> even_line(3000.0, 0.5)
    ((0.0, 0.5), (3000.0, 0.5))
    """
    return ((0.0, load_n_mm), (length_mm, load_n_mm))


def drift_line(length_mm: float, even_n_mm: float, drift_n_mm: float, drift_length_mm: float) -> LineLoad:
    """An even load with a drift on top that is deepest at the head and falls in a straight line to nothing.

    Parameters
    ----------
    length_mm
        Length of the member along the slope, overhang and all [mm].
    even_n_mm
        Even load per length [N/mm].
    drift_n_mm
        What the drift adds at the head [N/mm].
    drift_length_mm
        Length of the drift along the slope; it may run past the end of the member [mm].

    Returns
    -------
    LineLoad
        Breakpoints [mm, N/mm]; a drift that is longer than the member is cut off at its end, not squeezed into it.

    Raises
    ------
    OutsideScope
        A length is not positive.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> drift_line(3000.0, 0.8, 1.0, 6000.0)
    ((0.0, 1.8), (3000.0, 1.3))
    """
    require_within("length_mm", length_mm, 1e-6, 1e6, unit="mm", source="a member has a length")
    require_within("drift_length_mm", drift_length_mm, 1e-6, 1e6, unit="mm", source="a drift has a length")
    head = (0.0, even_n_mm + drift_n_mm)
    if drift_length_mm >= length_mm:
        return (head, (length_mm, even_n_mm + drift_n_mm * (1.0 - length_mm / drift_length_mm)))
    return (head, (drift_length_mm, even_n_mm), (length_mm, even_n_mm))


def summed_line(parts: Sequence[tuple[float, LineLoad]]) -> LineLoad:
    """Several line loads, each times its factor, as one.

    Parameters
    ----------
    parts
        Pairs of a factor [-] and a load [mm, N/mm].

    Returns
    -------
    LineLoad
        Breakpoints [mm, N/mm] with the steps of every part.

    Source
    ------
    Superposition.

    Examples
    --------
    >>> summed_line(((1.35, ((0.0, 1.0), (2.0, 1.0))), (1.5, ((0.0, 2.0), (1.0, 0.0)))))
    ((0.0, 4.35), (1.0, 1.35), (2.0, 1.35))
    """
    places = sorted({x for _, load in parts for x, _ in load})
    read = [(factor, *stretches(load, places)) for factor, load in parts]
    points: list[tuple[float, float]] = []
    for i, (a, b) in enumerate(pairwise(places)):
        start = sum(factor * starts[i] for factor, starts, _ in read)
        if not points or start != points[-1][1]:
            points.append((a, start))
        points.append((b, sum(factor * ends[i] for factor, _, ends in read)))
    return tuple(points)


def stretches(line: LineLoad, places_mm: Sequence[float]) -> Stretches:
    """A line load just after the start and just before the end of each stretch between some places.

    Parameters
    ----------
    line
        Breakpoints [mm, N/mm].
    places_mm
        Rising; every break of the load is among them [mm].

    Returns
    -------
    tuple of list
        At the starts and at the ends [N/mm]; nothing beyond the load.

    Source
    ------
    Straight lines between breakpoints.

    Examples
    --------
    >>> stretches(((0.0, 1.0), (10.0, 2.0)), (0.0, 5.0, 10.0, 12.0))
    ([1.0, 1.5, 0.0], [1.5, 2.0, 0.0])
    """
    starts, ends = [0.0] * (len(places_mm) - 1), [0.0] * (len(places_mm) - 1)
    i = 0
    for (x0, q0), (x1, q1) in pairwise(line):
        long = x1 - x0
        while i < len(starts) and places_mm[i] < x1:
            if places_mm[i] >= x0:
                if q0 == q1:
                    starts[i] = ends[i] = q0
                else:  # in the form that gives the very numbers of the breakpoints back
                    near, far = (places_mm[i] - x0) / long, (places_mm[i + 1] - x0) / long
                    starts[i], ends[i] = q0 * (1.0 - near) + q1 * near, q0 * (1.0 - far) + q1 * far
            i += 1
    return starts, ends


def require_ordered(load: LineLoad, length_mm: float) -> None:
    """Raise InputError unless the breakpoints run from 0 to the end of the member in order.

    Parameters
    ----------
    load
        Breakpoints [mm, N/mm].
    length_mm
        Length of the member [mm].

    Raises
    ------
    InputError
        A breakpoint lies outside the member or before the one in front of it.

    Source
    ------
    Definition.
    """
    for (x, _), (further, _) in pairwise(load):
        if further < x:
            raise InputError.of("line load", f"{further:g} mm after {x:g} mm", "expected places in order")
    if load and not (load[0][0] >= -1e-6 and load[-1][0] <= length_mm + 1e-6):
        ends = f"{load[0][0]:g} to {load[-1][0]:g} mm"
        raise InputError.of("line load", ends, f"expected places from 0 to {length_mm:g} mm")
