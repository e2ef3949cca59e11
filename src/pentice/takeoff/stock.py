"""Order lines for everything that is cut: the cutting plan says which stock is bought and what comes out of it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from pentice.catalogue.model import Product
from pentice.cutting.values import CutPlan, LengthPlan, SheetPlan
from pentice.pieces.names import letters_of
from pentice.takeoff.needs import NO_PRODUCT
from pentice.takeoff.ranges import serving_range
from pentice.takeoff.roof import Roof
from pentice.takeoff.values import OrderLine

CENT = Decimal("0.01")

Plan = SheetPlan | LengthPlan
Key = tuple[str, str, int, int]


def stock_lines(roof: Roof) -> Iterator[OrderLine]:
    """One line for each stock size of each product that the cutting plan uses; offcuts in hand cost nothing.

    Parameters
    ----------
    roof
        The job with its cutting plan.

    Yields
    ------
    OrderLine
        In the order of the plan.
    """
    for (_, _, width, length), alike in stock_groups(roof.cutting).items():
        yield _stock_line(roof, alike, width, length)


def stock_groups(cutting: CutPlan) -> dict[Key, list[Plan]]:
    """Plans of a cutting by what is bought for them: product, name of the stock, width and length.

    Parameters
    ----------
    cutting
        Of one job or of several.

    Returns
    -------
    dict
        In the order of the plan; a length has no width [mm].
    """
    found: dict[Key, list[Plan]] = {}
    plans: tuple[Plan, ...] = (*cutting.sheets, *cutting.lengths)
    for plan in plans:
        width = plan.width_mm if isinstance(plan, SheetPlan) else 0
        found.setdefault((plan.item, plan.stock, width, plan.length_mm), []).append(plan)
    return found


def _stock_line(roof: Roof, alike: list[Plan], width_mm: int, length_mm: int) -> OrderLine:
    first, count = alike[0], len(alike)
    kind, _, name = first.item.partition(".")
    id, _, more = name.partition(" ")
    product = roof.catalogue.table(kind)[id]
    in_hand = first.stock in _marks_in_hand(roof, kind, id if kind == "sheets" else name)
    unit_price = (Decimal(first.price) / 100).quantize(CENT)
    size = f"{width_mm} x {length_mm} mm" if width_mm else f"{length_mm} mm"
    # Where jobs share a plan, the tint of a sheet is part of its item and so stands in `more`.
    named = dict.fromkeys((product.name, more, _tint(roof, kind), size))
    described = ", ".join(text for text in named if text)
    pieces = tuple(p for plan in alike for p in pieces_of_plan(plan))
    part = _part(pieces)
    if part == "bar base" and not roof.parts.bar.cap_lengths:
        part = "bar base, cap"
    return OrderLine(
        item=first.item,
        code=_code(product, width_mm, length_mm),
        description=f"{described} (in hand: {first.stock})" if in_hand else described,
        group=_GROUPS[kind],
        quantity=Decimal(count),
        unit="set" if kind == "bars" and not roof.parts.bar.cap_lengths else "each",
        pack=Decimal(1),
        packs=0 if in_hand else count,
        spare=Decimal(0),
        unit_price=unit_price,
        price=unit_price * count,
        price_on=_price_on(product),
        pieces=pieces,
        why=_why(roof, kind, alike, in_hand),
        part=part,
    )


_GROUPS = {
    "sheets": "Sheets",
    "bars": "Bars",
    "profiles": "Profiles",
    "timbers": "Timber",
    "sections": "Posts and beams of metal",
    "gutters": "Water",
}


def pieces_of_plan(plan: Plan) -> tuple[str, ...]:
    """Names of the pieces that one piece of stock gives.

    Parameters
    ----------
    plan
        A sheet or a length.

    Returns
    -------
    tuple of str
        In the order of the plan.
    """
    if isinstance(plan, SheetPlan):
        return tuple(p.piece for p in plan.placements)
    return tuple(p.piece for p in plan.pieces)


def _marks_in_hand(roof: Roof, kind: str, id: str) -> frozenset[str]:
    """Names of the offcuts in hand of one product, as the cutting calls them."""
    return frozenset(
        o.mark or f"offcut {k}"
        for k, o in enumerate(roof.job.stock.offcuts, 1)
        if o.item == id and (o.width_mm is not None) == (kind == "sheets")
    )


def _tint(roof: Roof, kind: str) -> str:
    return roof.parts.tint if kind == "sheets" else ""


def _code(product: Product, width_mm: int, length_mm: int) -> str:
    """The supplier's code of this size, or of the product."""
    sizes: Any = getattr(product, "stock", None) or getattr(product, "lengths", ())
    for size in sizes:
        if int(size.length_mm) == length_mm and int(getattr(size, "width_mm", 0)) == width_mm:
            return getattr(size, "code", None) or product.code or ""
    return product.code or ""


def _price_on(product: Product) -> str:
    return product.price_on.isoformat() if product.price_on else ""


def _why(roof: Roof, kind: str, alike: list[Plan], in_hand: bool) -> str:
    if in_hand:
        return "In hand: nothing to buy. Look at its face and its film before it is cut."
    chosen = f"{'Fewest' if roof.cutting.aim == 'fewest sheets' else 'Cheapest'} by the cutting plan."
    if kind == "sheets":
        return f"{chosen} One batch, all with the same face; no spare sheet.{_ranges(roof, alike)}"
    why = f"{_gives(alike)} {chosen}"
    if kind == "bars" and not roof.parts.bar.cap_lengths:
        return f"{why} Each length is a base with its cap; a bar cut short is a trip."
    return f"{why}{_planed(roof, alike)}{_unposted(alike)}" if kind == "timbers" else why


def _gives(alike: list[Plan]) -> str:
    """What comes out of these lengths: how many pieces of what, and their length together."""
    placed = [p for plan in alike if isinstance(plan, LengthPlan) for p in plan.pieces]
    count, net_m = len(placed), sum(p.length_mm for p in placed) / 1000.0
    words = _part(tuple(p.piece for p in placed))
    return f"Gives {count} piece{'' if count == 1 else 's'}, {net_m:.2f} m ({words})."


def _ranges(roof: Roof, alike: list[Plan]) -> str:
    """Between which sizes of its bay uncut stock still serves; for stock to be cut, what it has over its piece."""
    used = {piece for plan in alike for piece in pieces_of_plan(plan)}
    said: dict[str, None] = {}
    for bay in roof.bays:
        if f"S{bay.number}" in used:
            temps, sheet = roof.setting_out.temperatures, roof.parts.sheet
            said.setdefault(serving_range(roof.job, roof.shape, sheet, temps, bay).says)
    width, length = roof.job.stock.order_reserve_mm
    if not all(bay.measured and bay.length_measured for bay in roof.bays):
        over = f"{width:g} in width and {length:g} in length"
        said[f"Where it is cut, it has {over} over the piece at least until the frame is measured."] = None
    return "".join(f" {text}" for text in said if text)


def _planed(roof: Roof, alike: list[Plan]) -> str:
    """A word where the section that is bought is not the one that is drawn."""
    bought = alike[0].item.rpartition(" ")[2]
    timber = roof.catalogue.timbers[alike[0].item.partition(".")[2].partition(" ")[0]]
    if bought not in {f"{b:g}x{h:g}" for b, h in timber.sizes_mm}:
        return f" {NO_PRODUCT}{bought}: {timber.name} is not sold in that section, the price is by volume."
    used = {id.partition("/")[0] for plan in alike for id in pieces_of_plan(plan)}
    width = float(bought.partition("x")[0])
    if any(p.width_mm < width for p in roof.pieces if p.id in used):
        return " The drawn section is no stock size: buy this one and plane it, or draw this one."
    return ""


def _unposted(alike: list[Plan]) -> str:
    """A warning where a beam is longer than its stock and nobody has said where posts stand."""
    if any(id.startswith(("EB/", "HB/")) for plan in alike for id in pieces_of_plan(plan)):
        return (
            " STOP: the beam is longer than any stock. It is joined only over a post, and no post is named: "
            "name frame.posts_at_mm before you order or cut it."
        )
    return ""


_LETTERS = {
    "WP": "wall plate",
    "RF": "rafters",
    "EB": "beam",
    "HB": "beam",
    "PO": "posts",
    "MU": "mullions",
    "TM": "transoms",
    "SI": "sills",
    "BGL": "barge boards",
    "BGR": "barge boards",
    "N": "noggin under each button",
    "Q": "purlins",
    "G": "gutter",
    "S": "sheets",
    "SS": "side sheets",
    "SSU": "profiles of side sheets",
    "SSH": "profiles of side sheets",
    "SSL": "profiles of side sheets",
    "SSR": "profiles of side sheets",
    "KL": "packing strips",
    "KR": "packing strips",
    "H": "head profile",
    "U": "foot profile with drain holes",
    "TL": "verge trims",
    "TR": "verge trims",
    "EL": "edge profiles",
    "ER": "edge profiles",
}


def _part(pieces: tuple[str, ...]) -> str:
    """What the pieces are, in the words of the list of parts; several where one length gives several."""
    words = dict.fromkeys(_word(id) for id in pieces)
    return ", ".join(words)


def _word(id: str) -> str:
    if id.endswith("-cap"):
        return "cap"
    return _LETTERS.get(letters_of(id), "bar base" if id.endswith("-base") else id)
