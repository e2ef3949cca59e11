"""Where the upright ribs of a multiwall sheet come to stand inside the edges of a piece.

A bar can only hold a sheet by a rib that lies inside its bite, so where a piece is ripped from its stock matters.
Ribs stand at first_rib + k * pitch from the left edge of the stock.
"""

from __future__ import annotations

import math

_CLOSE = 1e-9


def fits_uncut(stock_mm: int, least_mm: int, most_mm: int) -> bool:
    """Whether a stock size may be used as it comes.

    Parameters
    ----------
    stock_mm
        Width or length of the stock [mm].
    least_mm, most_mm
        The window of the piece in that direction [mm].

    Returns
    -------
    bool
        True when the stock lies inside the window, its ends included.

    Examples
    --------
    >>> fits_uncut(980, 976, 982), fits_uncut(1050, 976, 982)
    (True, False)
    """
    return least_mm <= stock_mm <= most_mm


def rib_at(x_mm: float, width_mm: float, first_rib_mm: float, pitch_mm: float) -> tuple[float, float]:
    """Distance from each edge of a piece to the first upright rib inside it, at least 1 mm from the edge.

    Parameters
    ----------
    x_mm, width_mm
        Left edge of the piece on its stock, and its width [mm].
    first_rib_mm, pitch_mm
        First rib of the stock from its left edge and the rib pitch [mm]. A first rib of ``nan`` is not known: then
        the worst that can be is given, pitch + 1 (a rib less than 1 mm inside the edge does not count).

    Returns
    -------
    tuple of float
        Left and right distance [mm].

    Examples
    --------
    >>> rib_at(0, 943, 10, 20), rib_at(946, 943, 10, 20), rib_at(955, 943, 10, 20)
    ((10, 13), (4, 19), (15, 8))
    """
    if math.isnan(first_rib_mm):
        return (pitch_mm + 1.0, pitch_mm + 1.0)
    right_mm = x_mm + width_mm
    first = math.ceil((x_mm + 1.0 - first_rib_mm) / pitch_mm - _CLOSE)
    last = math.floor((right_mm - 1.0 - first_rib_mm) / pitch_mm + _CLOSE)
    return (first_rib_mm + first * pitch_mm - x_mm, right_mm - first_rib_mm - last * pitch_mm)


def ribs_hold(at_mm: tuple[float, float], at_most_mm: tuple[float, float]) -> bool:
    """Whether both ribs stand near enough to their edges.

    Parameters
    ----------
    at_mm, at_most_mm
        Left and right distance, and the greatest that each may be [mm].

    Returns
    -------
    bool
        True when both hold.

    Examples
    --------
    >>> ribs_hold((10, 13), (14, 14)), ribs_hold((4, 19), (14, 14))
    (True, False)
    """
    (left, right), (most_left, most_right) = at_mm, at_most_mm
    return left <= most_left + _CLOSE and right <= most_right + _CLOSE


def best_rip_offset(
    width_mm: int,
    stock_width_mm: int,
    first_rib_mm: float,
    pitch_mm: float,
    rib_at_most_mm: tuple[float, float],
    kerf_mm: int,
) -> int | None:
    """Left edge on the stock at which one piece, ripped from it, has its ribs where they must be.

    At an edge of the stock where that holds: one rip is enough. Else both edges are ripped. Of several such places the
    one whose ribs leave most to what is allowed, so that a mirrored piece gets the mirrored place; then the leftmost. A
    rip leaves nothing or at least kerf + 2 on either side.

    Parameters
    ----------
    width_mm, stock_width_mm
        Width of the piece and of the stock [mm].
    first_rib_mm, pitch_mm
        Ribs of the stock [mm].
    rib_at_most_mm
        The greatest rib distance left and right [mm].
    kerf_mm
        Width of the cut [mm].

    Returns
    -------
    int or None
        The left edge x [mm]; None when no place holds.

    Examples
    --------
    >>> best_rip_offset(943, 1050, 10, 20, (14, 14), 3)
    0
    >>> best_rip_offset(943, 1050, 10, 20, (12, 12), 3)
    8
    """
    room = stock_width_mm - width_mm
    # Where the pitch is whole, ribs stand again as they did a pitch further left.
    last = kerf_mm + 2 + int(pitch_mm) if pitch_mm == int(pitch_mm) else room
    for places in ((0, room), range(min(last, room) + 1)):
        best: tuple[float, int] | None = None
        for x in places:
            if _leaves(x, kerf_mm) and _leaves(room - x, kerf_mm):
                left, right = rib_at(x, width_mm, first_rib_mm, pitch_mm)
                past = max(left - rib_at_most_mm[0], right - rib_at_most_mm[1])
                if past <= _CLOSE and (best is None or round(past, 6) < best[0]):
                    best = (round(past, 6), x)
        if best is not None:
            return best[1]
    return None


def _leaves(room_mm: int, kerf_mm: int) -> bool:
    """Whether a cut may leave this much: nothing, or the kerf and at least 2 mm that can be held and cut off."""
    return room_mm == 0 or room_mm >= kerf_mm + 2


leaves_well = _leaves
