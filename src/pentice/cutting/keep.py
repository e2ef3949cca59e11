"""What is left over and worth keeping: the shop's rule, and what a plan costs net of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from pentice.cutting.guillotine import Cell
from pentice.cutting.packing import Board, Packed, Packing, Place, Search


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep:
    """Least width and height of a rest worth keeping, and the share of its area's price that it is worth."""

    width: int
    height: int
    share: Fraction


def rates_of(boards: Sequence[Board], keep: Keep | None) -> tuple[int, int, tuple[Fraction, ...]] | None:
    """The rule as the search wants it: least width and height, and what a unit of kept area is worth on each board.

    Parameters
    ----------
    boards, keep
        What is cut from, and the rule; None where nothing that is left is worth anything.

    Returns
    -------
    tuple or None
        None where there is no rule.
    """
    if keep is None:
        return None
    return keep.width, keep.height, tuple(rate_of(board, keep) for board in boards)


def kept_of(packed: Packed, keep: Keep) -> tuple[Place, ...]:
    """The free rectangles of a board that are worth keeping.

    Parameters
    ----------
    packed
        One board of a plan.
    keep
        The rule.

    Returns
    -------
    tuple of Place
        As the same cuts leave them.
    """
    return tuple(p for p in packed.free if p.width >= keep.width and p.height >= keep.height)


def rate_of(board: Board, keep: Keep | None) -> Fraction:
    """What a unit of kept area of a board is worth.

    Parameters
    ----------
    board
        What is cut.
    keep
        The rule; None where nothing that is left is worth anything.

    Returns
    -------
    Fraction
        Cost per unit of area.
    """
    if keep is None:
        return Fraction(0)
    return keep.share * board.cost / (board.paid_area or board.width * board.height)


def net_cost(packing: Packing, boards: Sequence[Board], keep: Keep | None) -> int:
    """The cost of a plan less the worth of what is kept of each board, rounded up board by board.

    Parameters
    ----------
    packing, boards
        The plan and what it is cut from.
    keep
        The rule; None where nothing that is left is worth anything.

    Returns
    -------
    int
        In the unit of the costs.
    """
    return sum(net_of(packed, boards[packed.board], keep) for packed in packing.boards)


def net_of(packed: Packed, board: Board, keep: Keep | None) -> int:
    """What one sheet costs less the worth of what is kept of it, rounded up.

    Parameters
    ----------
    packed, board
        The sheet and what it is cut from.
    keep
        The rule; None where nothing that is left is worth anything.

    Returns
    -------
    int
        In the unit of the costs.

    Examples
    --------
    >>> from pentice.cutting.packing import Board, Packed, Place
    >>> left = Place(kind=-1, x=0, y=0, width=5, height=10)
    >>> rule = Keep(width=5, height=5, share=Fraction(1, 2))
    >>> net_of(Packed(board=0, places=(), free=(left,)), Board(width=10, height=10, cost=8), rule)
    6
    """
    if keep is None:
        return board.cost
    area = sum(p.width * p.height for p in kept_of(packed, keep))
    paid = board.paid_area or board.width * board.height
    return math.ceil(board.cost - keep.share * board.cost * Fraction(area, paid))


def sheet_of(cells: Sequence[Cell], number: int, board: Board, kerf: int) -> Packed:
    """The sheet that cells make: pieces without the kerf that was added to them, and what is left free.

    Parameters
    ----------
    cells
        Kind (-1: free), place and size within the trimmed board, the kerf added.
    number, board
        Which board it is.
    kerf
        Width of a cut.

    Returns
    -------
    Packed
        In the coordinates of the board.

    Examples
    --------
    >>> sheet_of([(0, 0, 0, 5, 7), (-1, 5, 0, 1, 7)], 2, Board(width=7, height=8, cost=1, trim=1), kerf=1).places
    (Place(kind=0, x=1, y=1, width=4, height=6),)
    """
    placed = [
        Place(kind=k, x=x + board.trim, y=y + board.trim, width=w - kerf, height=h - kerf)
        for k, x, y, w, h in cells
        if w > kerf and h > kerf
    ]
    return Packed(
        board=number,
        places=tuple(p for p in placed if p.kind >= 0),
        free=tuple(p for p in placed if p.kind < 0),
    )


class Cheapest:
    """Remembers the plan of least net cost among those a search comes by."""

    def __init__(self, begun: Search, boards: Sequence[Board], keep: Keep | None) -> None:
        self._begun, self._boards, self._keep = begun, boards, keep
        self.plan = begun.packing(0)
        self.cost = net_cost(self.plan, boards, keep)

    def look(self) -> None:
        """At the best plan of the search as it stands now."""
        self.take(self._begun.packing(0))

    def take(self, plan: Packing) -> None:
        """A plan from elsewhere."""
        cost = net_cost(plan, self._boards, self._keep)
        if cost < self.cost:
            self.plan, self.cost = plan, cost

    def net(self, bound: int) -> Packing:
        """The plan, at its net cost."""
        return replace(self.plan, cost=self.cost, bound=min(bound, self.cost))
