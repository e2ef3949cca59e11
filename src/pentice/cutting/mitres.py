"""Lengths with sloping ends: two neighbours whose ends are parallel share one cut.

The ends of a piece lean: ``left_deg`` and ``right_deg`` say how far, from square, each end leans to the right going
up the bar. A plumb cut at both ends leans the same way twice; a frame's mitres lean apart. The length is that of the
long side. A saw cut that leans takes kerf / cos(angle) along the bar.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from pentice.errors import InputError, Problem

MOST_DEG = 60.0
"""Steeper cuts than this are not made on a mitre saw: common practice, no source."""
_SAME = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class MitredPiece:
    """A length with an angle at each end.

    Attributes
    ----------
    id, item
        The piece and the bar it is cut from.
    length_mm
        Of the long side [mm].
    left_deg, right_deg
        How far each end leans to the right going up the bar, from square [deg]; within 60 either way.
    may_turn
        Whether the bar is alike both ways (sawn timber, a rectangular tube), so that the piece may be cut lying end for
        end or on its other side.
    """

    id: str
    item: str
    length_mm: int
    left_deg: float = 0.0
    right_deg: float = 0.0
    may_turn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class MitredPlacement:
    """Where a piece lies on its bar.

    Attributes
    ----------
    piece
        Its id.
    foot_mm, head_mm
        Where its left end begins along the lower and along the upper edge of the bar [mm].
    length_mm
        Of the long side [mm].
    left_deg, right_deg
        As it lies [deg].
    turned, over
        End for end; lying on its other side.
    shares_cut
        Its left end is made by the cut that made the right end of the piece before it.
    """

    piece: str
    foot_mm: float
    head_mm: float
    length_mm: int
    left_deg: float
    right_deg: float
    turned: bool
    over: bool
    shares_cut: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """A piece as it may lie: which one, its left and right lean along the bar over its whole depth, its lower side."""

    piece: int
    left_mm: float
    right_mm: float
    foot_mm: float
    turned: bool
    over: bool


def ways_to_lie(piece: MitredPiece, number: int, depth_mm: int) -> tuple[Lying, ...]:
    """Every way a piece may lie on the bar that differs from the others.

    Turned end for end within its plane, the leans keep their sense and change places; turned over along the bar they
    change sense.

    Parameters
    ----------
    piece
        The piece.
    number
        Its place among all.
    depth_mm
        Of the bar, in the plane of the angles [mm].

    Returns
    -------
    tuple of Lying
        One where it may not be turned, else four at most.

    Examples
    --------
    >>> plumb = MitredPiece(id="R1", item="rafter", length_mm=3000, left_deg=5.0, right_deg=5.0)
    >>> len(ways_to_lie(plumb, 0, 145))
    1
    """
    found: dict[tuple[float, float], Lying] = {}
    for over, turned in product((False, True) if piece.may_turn else (False,), repeat=2):
        sense = -1.0 if over else 1.0
        left, right = (sense * lean_mm(deg, depth_mm) for deg in (piece.left_deg, piece.right_deg))
        a, b = (right, left) if turned else (left, right)
        lower = piece.length_mm - max(0.0, b - a)
        found.setdefault(
            (a, b), Lying(piece=number, left_mm=a, right_mm=b, foot_mm=lower, turned=turned, over=over)
        )
    return tuple(found.values())


def lean_mm(deg: float, depth_mm: int) -> float:
    """How far an end leans along the bar over its depth.

    Parameters
    ----------
    deg
        From square [deg].
    depth_mm
        Of the bar [mm].

    Returns
    -------
    float
        [mm], negative to the left.

    Examples
    --------
    >>> round(lean_mm(45.0, 100), 6)
    100.0
    """
    return depth_mm * math.tan(math.radians(deg))


def kerf_along(lean: float, kerf_mm: int, depth_mm: int) -> float:
    """What a leaning cut takes along the bar: kerf / cos(angle).

    Parameters
    ----------
    lean
        How far the cut leans along the bar over its depth [mm].
    kerf_mm, depth_mm
        Width of a cut and depth of the bar [mm].

    Returns
    -------
    float
        [mm].

    Examples
    --------
    >>> round(kerf_along(100.0, 4, 100), 3)
    5.657
    """
    return kerf_mm * math.hypot(1.0, lean / depth_mm)


def after(before: Lying, at: float, following: Lying, kerf_mm: int, depth_mm: int) -> tuple[float, bool]:
    """Where the next piece may begin on the lower edge, and whether both ends are made by one cut.

    Neither cut may touch the other piece: at every height they stand apart by what the wider of the two cuts takes.
    Ends that are parallel have one cut between them.

    Parameters
    ----------
    before, at
        The piece on the left and where it begins on the lower edge [mm].
    following
        The piece on the right.
    kerf_mm, depth_mm
        Width of a cut and depth of the bar [mm].

    Returns
    -------
    tuple
        [mm], and True for a cut that is shared.

    Examples
    --------
    >>> square = ways_to_lie(MitredPiece(id="A", item="bar", length_mm=1000), 0, 50)[0]
    >>> after(square, 0.0, square, 4, 50)
    (1004.0, True)
    """
    gap = max(kerf_along(lean, kerf_mm, depth_mm) for lean in (before.right_mm, following.left_mm))
    foot = at + before.foot_mm + gap
    head = foot + before.right_mm - following.left_mm
    return max(foot, head), abs(before.right_mm - following.left_mm) < _SAME


def first_at(lying: Lying, trim_mm: int) -> float:
    """Where a piece begins on the lower edge at the left end of the bar [mm].

    Parameters
    ----------
    lying
        The piece.
    trim_mm
        What comes off the end of the bar first [mm].

    Returns
    -------
    float
        [mm].
    """
    return trim_mm + max(0.0, -lying.left_mm)


def ends_at(lying: Lying, at: float) -> float:
    """The furthest point of a piece along the bar [mm].

    Parameters
    ----------
    lying, at
        The piece, and where it begins on the lower edge [mm].

    Returns
    -------
    float
        [mm].
    """
    return at + lying.foot_mm + max(0.0, lying.right_mm)


def require_mitres(pieces: Sequence[MitredPiece], kerf_mm: int, depth_mm: int) -> None:
    """Refuses what cannot be cut.

    Parameters
    ----------
    pieces
        What is wanted.
    kerf_mm, depth_mm
        Width of a cut and depth of the bar [mm].

    Raises
    ------
    InputError
        An angle beyond 60 deg, a piece whose short side would be nothing, a depth below 1 mm, a kerf below 0, or pieces
        of several items; one sentence for each.

    Examples
    --------
    >>> require_mitres([MitredPiece(id="A", item="bar", length_mm=500, left_deg=45.0)], 3, 50)
    """
    problems = []
    if depth_mm < 1:
        problems.append(Problem("depth_mm", f"depth_mm is {depth_mm}; expected at least 1."))
    if kerf_mm < 0:
        problems.append(Problem("kerf_mm", f"kerf_mm is {kerf_mm}; expected at least 0."))
    items = sorted({piece.item for piece in pieces})
    if len(items) > 1:
        problems.append(
            Problem(
                "item",
                f"item is {' and '.join(items)}; expected one. Cut the pieces of each item by themselves.",
            )
        )
    for piece in pieces:
        steep = [deg for deg in (piece.left_deg, piece.right_deg) if not abs(deg) <= MOST_DEG]
        for deg in steep:
            says = (
                f"{piece.id} has an end at {deg:g} deg from square; expected {MOST_DEG:g} at most either way."
            )
            problems.append(
                Problem(piece.id, says + " Cut it by hand, or turn the piece so that the end is less steep.")
            )
        if not steep and depth_mm >= 1:
            short = piece.length_mm - abs(
                lean_mm(piece.right_deg, depth_mm) - lean_mm(piece.left_deg, depth_mm)
            )
            if short <= 0.0:
                says = f"{piece.id} is {piece.length_mm} mm on its long side; its ends meet before the short side."
                problems.append(Problem(piece.id, says + " Make it longer, or its ends less steep."))
    if problems:
        raise InputError(problems)
