"""The shop's own rules for a cutting plan: what it aims at, which rests it keeps, what they are worth, and its saw.

The search knows one number for each piece of stock. It is made here: the price, for an offcut in hand what it is worth
on the rack, and, where the aim is fewest sheets, so much more for each one bought that no saving outweighs it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, TypeVar

from pentice.cutting.values import Aim, LengthPlan, LengthStock, SheetStock

if TYPE_CHECKING:
    from pentice.cutting.keep import Keep

S = TypeVar("S", SheetStock, LengthStock)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """How a shop wants its stock cut.

    Attributes
    ----------
    aim
        Least cost, less what kept rests are worth; or as few sheets and lengths bought as can be, then least cost.
    keep_sheet_mm, keep_length_mm
        Least width and length of a rest of a sheet, least length of a rest of a bar, worth keeping [mm]. 300: common
        practice, no source.
    keep_share
        What a kept rest is worth, as a share of what its area or length costs to buy, 0 to 1 [-].
    stages
        How many times the direction of the cuts may change on a sheet, 3 on a saw bench; None for no limit.
    effort
        Times the usual work with which a cheaper plan is looked for, at least 1 [-].
    """

    aim: Aim = "least cost"
    keep_sheet_mm: tuple[int, int] = (300, 300)
    keep_length_mm: int = 300
    keep_share: Fraction = Fraction(0)
    stages: int | None = None
    effort: int = 1

    @property
    def sheet_rests(self) -> Keep | None:
        """The rule by which rests of sheets count in the aim; None where they count for nothing."""
        return self._rule(*self.keep_sheet_mm)

    @property
    def length_rests(self) -> Keep | None:
        """The same for bars, profiles and timber, as rectangles of height 1."""
        return self._rule(self.keep_length_mm, 1)

    def kept_length_mm(self, left_mm: int) -> int:
        """What is kept of the rest of a bar, profile or timber: all of it, or nothing [mm]."""
        return left_mm if left_mm >= max(self.keep_length_mm, 1) else 0

    def _rule(self, width: int, height: int) -> Keep | None:
        from pentice.cutting.keep import Keep

        counts = self.aim == "least cost" and self.keep_share > 0
        return Keep(width=width, height=height, share=self.keep_share) if counts else None


USUAL = Shop()
"""Least cost, and nothing that is left counts."""


def weighed(stocks: Sequence[S], shop: Shop, pieces: int) -> tuple[list[S], int]:
    """Stock with the number by which it is chosen in place of its price.

    Parameters
    ----------
    stocks
        What there is to cut from.
    shop
        The rules.
    pieces
        How many pieces are wanted; no plan takes more stock [-].

    Returns
    -------
    tuple
        The stock, and what was added for each one bought [smallest unit of money].

    Examples
    --------
    >>> bar = LengthStock(id="6 m", item="bar", length_mm=6000, price=4000, count=None, offcut=False)
    >>> weighed([bar], Shop(aim="fewest sheets"), 3)[1]
    12001
    """
    each = (
        1 + pieces * max((s.price + s.worth for s in stocks), default=0) if shop.aim == "fewest sheets" else 0
    )
    return [replace(s, price=s.worth if s.offcut else s.price + each) for s in stocks], each


def rest_worth(price: int, share: Fraction, kept: int, whole: int) -> int:
    """What is kept of one piece of stock is worth, rounded down.

    Parameters
    ----------
    price
        What the whole of it counts for [smallest unit of money].
    share
        Share of that [-].
    kept, whole
        Area or length kept, and all of it.

    Returns
    -------
    int
        In the unit of the price.

    Examples
    --------
    >>> rest_worth(4000, Fraction(1, 2), 1500, 6000)
    500
    """
    return math.floor(share * price * Fraction(kept, whole))


def rest_mm(plan: LengthPlan, stock: LengthStock, shop: Shop) -> int:
    """What lies beyond the last piece of a length, where that is worth keeping; else 0.

    Parameters
    ----------
    plan, stock
        The length and what it is cut from.
    shop
        Its rule.

    Returns
    -------
    int
        [mm].
    """
    return shop.kept_length_mm(plan.length_mm - stock.trim_mm - stock.lost_mm - plan.beyond_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What plans of one item come to.

    Attributes
    ----------
    cost
        Price of the stock that is bought [smallest unit of money].
    credit
        Worth of the rests that are kept, less that of the offcuts in hand that are used up [the same].
    bound
        What no plan from this stock with this aim can cost less than, net of credit [the same].
    proven
        Whether none does better by the aim.
    """

    cost: int
    credit: int
    bound: int
    proven: bool


def counted(costs: Sequence[tuple[int, int, int]], least: int, each: int) -> Counted:
    """Cost, credit and proof of the plans of one item.

    Parameters
    ----------
    costs
        For each piece of stock used: its price, the number it was chosen by, and the worth of what is kept of it.
    least
        What no plan's numbers, less what it keeps, can be below.
    each
        What was added to the number of each one bought.

    Returns
    -------
    Counted
        Where fewer might do and the aim is fewest sheets, nothing bounds the cost: the bound is 0.

    Examples
    --------
    >>> counted([(4000, 4000, 500), (0, 700, 0)], 4100, 0)
    Counted(cost=4000, credit=-200, bound=4100, proven=False)
    """
    cost, number = sum(c[0] for c in costs), sum(c[1] for c in costs)
    kept = sum(c[2] for c in costs)
    added = each * sum(1 for price, chosen_by, _ in costs if chosen_by >= each > 0)
    credit = kept - (number - added - cost)
    least = min(least, number - kept)
    return Counted(cost=cost, credit=credit, bound=max(0, least - added), proven=least == number - kept)
