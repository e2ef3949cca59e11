"""What a cutting plan aims at and how well it is proven, in words for papers and screens."""

from __future__ import annotations

from collections.abc import Callable

from pentice.cutting.shop import Shop
from pentice.cutting.values import CutPlan


def proof_words(plan: CutPlan, shop: Shop, money: Callable[[int], str]) -> str:
    """The aim of a plan, what its rests count for, and what no plan can do better.

    Parameters
    ----------
    plan, shop
        The plan, and the rules it was made by.
    money
        Shows an amount in the smallest unit of money.

    Returns
    -------
    str
        One sentence or more.

    Examples
    --------
    >>> plan = CutPlan(sheets=(), lengths=(), cost=4000, bound=3000, proven=False, waste_area_m2=0.0, offcuts=())
    >>> proof_words(plan, Shop(), str)
    'Aim: least cost, then few sheets and few cuts. No plan can cost over 33.3 % less (bound).'
    """
    if plan.aim == "fewest sheets":
        aim = "Aim: fewest sheets and lengths bought, then least cost."
        if plan.proven:
            return f"{aim} No plan from this stock buys fewer, or as many for less (proven)."
        return f"{aim} Not proven: fewer, or as many for less, may be possible."
    if not shop.keep_share and not plan.credit:
        aim = "Aim: least cost, then few sheets and few cuts."
        if plan.proven:
            return f"{aim} No plan from this stock costs less (proven)."
        return f"{aim} No plan can cost over {_over(plan):.1f} % less (bound)."
    less = f"{money(plan.cost)} less {money(plan.credit)} of rests is {money(plan.net)}"
    if plan.credit < 0:
        less = f"{money(plan.cost)} and {money(-plan.credit)} of offcuts used is {money(plan.net)}"
    share = f" at {float(shop.keep_share):.0%} of their price" if shop.keep_share else ""
    aim = f"Aim: least cost, rests kept counted{share}: {less}."
    if plan.proven:
        return f"{aim} No plan from this stock comes to less (proven)."
    return f"{aim} No plan can come to over {_over(plan):.1f} % less (bound)."


def _over(plan: CutPlan) -> float:
    """By how much of the bound the plan lies above it, in per cent."""
    return (plan.net - plan.bound) / max(plan.bound, 1) * 100.0
