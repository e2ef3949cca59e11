"""A sheet or a length cut by cut: which part is in hand, where the stop is set, what comes off and what remains.

The sheet keeps its name as it gets smaller. Where both sides of a cut are cut again, the one at the stop gets a letter.
A length is cut from its left end on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pentice.cutting.saw_order import Part, cut_in_two, goes_through
from pentice.cutting.values import Cut, LengthPlacement, LengthPlan, Placement, SheetPlan

SHEET = "sheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A part in hand: a piece, the sheet or a lettered part that is still cut, or a rest, which has no name.

    Attributes
    ----------
    name
        The id of a piece, "sheet", "part A"; empty for a rest.
    box
        Left, head, right and foot on the stock [mm].
    piece
        Whether it is a piece as wanted.
    """

    name: str
    box: Part
    piece: bool

    @property
    def goes_on(self) -> bool:
        """Whether it is cut again."""
        return bool(self.name) and not self.piece

    @property
    def width_mm(self) -> int:
        """Across the flutes."""
        return self.box[2] - self.box[0]

    @property
    def length_mm(self) -> int:
        """Along the flutes."""
        return self.box[3] - self.box[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One cut as it is made.

    Attributes
    ----------
    cut
        The cut on the stock.
    part
        What it is cut from.
    stop_mm
        From the head (crosscut) or the left edge (rip) of that part to the near side of the kerf [mm].
    gets, leaves
        The part at the stop, and the part beyond the kerf; None where nothing is left of it.
    """

    cut: Cut
    part: Held
    stop_mm: int
    gets: Held | None
    leaves: Held | None


def followed(plan: SheetPlan) -> tuple[Turn, ...]:
    """The cuts of a sheet one after another.

    Parameters
    ----------
    plan
        The sheet; its cuts stand in an order in which they can be made.

    Returns
    -------
    tuple of Turn
        One for each cut.
    """
    pieces = {_box(p): p.piece for p in plan.placements}
    hand = [Held(name=SHEET, box=(0, 0, plan.width_mm, plan.length_mm), piece=False)]
    turns: list[Turn] = []
    letters = 0
    for k, cut in enumerate(plan.cuts):
        part = next(held for held in hand if goes_through(cut, held.box))
        hand.remove(part)
        near, far = cut_in_two(part.box, cut, plan.kerf_mm)
        later = plan.cuts[k + 1 :]
        leaves = _held(far, pieces, later, part.name)
        both = leaves is not None and leaves.goes_on
        gets = _held(near, pieces, later, f"part {_letter(letters)}" if both else part.name)
        letters += both and gets is not None and gets.goes_on
        hand += [held for held in (gets, leaves) if held is not None]
        stop = cut.at_mm - part.box[0 if cut.kind == "rip" else 1]
        turns.append(Turn(cut=cut, part=part, stop_mm=stop, gets=gets, leaves=leaves))
    return tuple(turns)


def cuts_at(plan: SheetPlan, placement: Placement) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Numbers of the cuts that make the edges of a piece: crosscuts, rips.

    Parameters
    ----------
    plan, placement
        The sheet, and a piece on it.

    Returns
    -------
    tuple
        Empty where an edge is that of the stock.
    """
    box = _box(placement)
    found: tuple[list[int], list[int]] = ([], [])
    for cut in plan.cuts:
        axis = 0 if cut.kind == "rip" else 1
        beside = cut.from_mm <= box[1 - axis] and box[3 - axis] <= cut.to_mm
        if beside and (cut.at_mm == box[axis + 2] or cut.at_mm + plan.kerf_mm == box[axis]):
            found[1 - axis].append(cut.number)
    return tuple(found[0]), tuple(found[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthTurn:
    """One cut across a length as it is made; sizes are along the upper edge where ends lean [mm].

    Attributes
    ----------
    mark_mm
        Where the cut stands, from the left end of the stock [mm].
    left_of_mark
        Whether the kerf lies left of the mark: a new left end is cut; else the kerf lies right of it.
    end_deg
        How far the cut leans from square [deg].
    hand_mm
        Length of the part in hand [mm].
    stop_mm
        From the left end of that part to the mark [mm]: the size of what comes off, where that is a piece.
    piece
        What comes off; None where it is waste.
    remains_mm
        Length of what remains [mm].
    """

    mark_mm: int
    left_of_mark: bool
    end_deg: float
    hand_mm: int
    stop_mm: int
    piece: LengthPlacement | None
    remains_mm: int


def followed_length(plan: LengthPlan) -> tuple[LengthTurn, ...]:
    """The cuts of a length one after another, from its left end on.

    Parameters
    ----------
    plan
        The length; its left end is square.

    Returns
    -------
    tuple of LengthTurn
        One for each cut: a new left end where stock is trimmed or the next piece leans more, and beyond each piece
        unless that ends with the stock.

    Examples
    --------
    >>> two = tuple(LengthPlacement(piece=id, at_mm=at, length_mm=2900) for id, at in (("R1", 0), ("R2", 2904)))
    >>> plan = LengthPlan(stock="6 m", item="bar", length_mm=6000, kerf_mm=4, price=4000, pieces=two)
    >>> [(t.hand_mm, t.stop_mm, t.piece.piece, t.remains_mm) for t in followed_length(plan)]
    [(6000, 2900, 'R1', 3096), (3096, 2900, 'R2', 192)]
    """
    start, leans = 0, 0.0
    turns: list[LengthTurn] = []
    for p in sorted(plan.pieces, key=lambda p: p.at_mm):
        end = p.at_mm + p.length_mm
        if p.at_mm > start or p.end_deg != leans:
            turns.append(
                LengthTurn(
                    mark_mm=p.at_mm,
                    left_of_mark=True,
                    end_deg=p.end_deg,
                    hand_mm=plan.length_mm - start,
                    stop_mm=p.at_mm - start,
                    piece=None,
                    remains_mm=plan.length_mm - p.at_mm,
                )
            )
        start, leans = min(end + p.kerf_mm(plan.kerf_mm), plan.length_mm), p.end_deg
        if end < plan.length_mm:
            turns.append(
                LengthTurn(
                    mark_mm=end,
                    left_of_mark=False,
                    end_deg=p.end_deg,
                    hand_mm=plan.length_mm - p.at_mm,
                    stop_mm=p.length_mm,
                    piece=p,
                    remains_mm=plan.length_mm - start,
                )
            )
    return tuple(turns)


def _held(box: Part, pieces: dict[Part, str], later: Sequence[Cut], name: str) -> Held | None:
    if box[0] >= box[2] or box[1] >= box[3]:
        return None
    if box in pieces:
        return Held(name=pieces[box], box=box, piece=True)
    return Held(name=name if any(goes_through(cut, box) for cut in later) else "", box=box, piece=False)


def _letter(n: int) -> str:
    """A to Z, then AA, AB and so on.

    Examples
    --------
    >>> _letter(0), _letter(25), _letter(26)
    ('A', 'Z', 'AA')
    """
    return (_letter(n // 26 - 1) if n >= 26 else "") + chr(ord("A") + n % 26)


def _box(p: Placement) -> Part:
    return (p.x_mm, p.y_mm, p.x_mm + p.width_mm, p.y_mm + p.length_mm)
