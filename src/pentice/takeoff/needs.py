"""From what is needed to a line of the order: spare by rule, packs rounded up, the reason beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from pentice.catalogue.goods import Packed
from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.cutting.values import CutPlan
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.values import Piece
from pentice.setting_out.values import SettingOut
from pentice.takeoff.values import OrderLine

NOT_HERE = "not in this roof: "


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """What every part of the take-off counts on."""

    job: Job
    shape: RoofShape
    parts: Parts
    catalogue: Catalogue
    setting_out: SettingOut
    pieces: tuple[Piece, ...]
    cutting: CutPlan

    def pieces_like(self, *starts: str) -> tuple[Piece, ...]:
        """Pieces whose names begin so."""
        return tuple(piece for piece in self.pieces if piece.id.startswith(starts))

    def sundry(self, part: str, *, having: str = "") -> str | None:
        """Id of the sundry that is a part of a finished roof; of several the one whose id holds a word."""
        found = [s.id for s in self.catalogue.sundries.values() if s.part == part]
        return next(
            (id for id in found if having and having in id), found[0] if found and not having else None
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One thing that is needed, before it is packed."""

    part: str
    """In the words of the list of parts of a finished roof."""
    group: str
    quantity: float
    unit: str
    why: str
    item: str | None = None
    """Key of the catalogue; None where the catalogue holds no such thing."""
    spare: float = 0.0
    pieces: tuple[str, ...] = ()
    mark: str = ""


def line_of(need: Need, catalogue: Catalogue) -> OrderLine:
    """The order line of a need.

    Parameters
    ----------
    need
        What is needed.
    catalogue
        For the pack and its price.

    Returns
    -------
    OrderLine
        Packs cover need and spare; nothing needed, nothing bought.
    """
    quantity, spare = _exact(need.quantity), _exact(need.spare)
    product = _product(need.item, catalogue)
    if need.quantity <= 0.0 or product is None:
        why = need.why if need.quantity <= 0.0 else f"{need.why} No product in the catalogue: buy it."
        return OrderLine(
            item=need.item or need.part,
            code="",
            description=need.part.capitalize(),
            group=need.group,
            quantity=quantity,
            unit=need.unit,
            pack=Decimal(1),
            packs=0,
            spare=spare if need.quantity > 0.0 else Decimal(0),
            unit_price=Decimal(0),
            price=Decimal(0),
            pieces=need.pieces,
            why=why,
            mark=need.mark,
        )
    packs = math.ceil((need.quantity + need.spare) / product.pack - 1e-9)
    return OrderLine(
        item=need.item or need.part,
        code=product.code or "",
        description=product.name,
        group=need.group,
        quantity=quantity,
        unit=need.unit,
        pack=_exact(product.pack),
        packs=packs,
        spare=spare,
        unit_price=product.price,
        price=product.price * packs,
        price_on=product.price_on.isoformat() if product.price_on is not None else "",
        pieces=need.pieces,
        why=need.why,
        mark=need.mark,
    )


def not_here(part: str, group: str, because: str) -> Need:
    """A part that this roof does not have, with the reason.

    Parameters
    ----------
    part, group
        What it is.
    because
        Why it is not there.

    Returns
    -------
    Need
        Quantity 0.
    """
    return Need(part=part, group=group, quantity=0.0, unit="each", why=f"{NOT_HERE}{because}")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pack:
    name: str
    code: str | None
    pack: float
    price: Decimal
    price_on: object


def _product(item: str | None, catalogue: Catalogue) -> Packed | None:
    if item is None:
        return None
    kind, _, id = item.partition(".")
    product = catalogue.table(kind).get(id)
    return product if product is not None and hasattr(product, "pack") else None  # type: ignore[return-value]  # buttons and screws pack alike


def _exact(value: float) -> Decimal:
    """A quantity to the thousandth: what nobody can measure closer."""
    return Decimal(str(round(value, 3))).normalize() + Decimal(0)


def stock_lines(roof: Roof) -> Iterator[OrderLine]:
    """Sheets and lengths to buy, one line for each stock size of the cutting plan; offcuts in hand cost nothing.

    Parameters
    ----------
    roof
        What the take-off counts on.

    Yields
    ------
    OrderLine
        In the order of the plan.
    """
    found: dict[tuple[str, str], list[tuple[int, tuple[str, ...]]]] = {}
    for sheet in roof.cutting.sheets:
        used = tuple(p.piece for p in sheet.placements)
        found.setdefault((sheet.item, sheet.stock), []).append((sheet.price, used))
    for length in roof.cutting.lengths:
        used = tuple(p.piece for p in length.pieces)
        found.setdefault((length.item, length.stock), []).append((length.price, used))
    for (item, stock), uses in found.items():
        price = Decimal(uses[0][0]) / 100
        kind, _, rest = item.partition(".")
        product = roof.catalogue.table(kind).get(rest.partition(" ")[0])
        in_hand = uses[0][0] == 0
        size = _size_of(stock, rest)
        name = product.name if product is not None else rest
        tint = f", {roof.parts.tint}" if kind == "sheets" else ""
        section = f" {rest.partition(' ')[2]}" if kind == "timbers" else ""
        what = f"{name}{section}{tint}, {stock if in_hand else size}"
        yield OrderLine(
            item=item,
            code=(product.code or "") if product is not None else "",
            description=f"{what}, in hand" if in_hand else what,
            group=_GROUPS[kind],
            quantity=Decimal(len(uses)),
            unit="sheet" if kind == "sheets" else "set" if kind == "bars" else "length",
            pack=Decimal(1),
            packs=0 if in_hand else len(uses),
            spare=Decimal(0),
            unit_price=price,
            price=price * len(uses),
            price_on=product.price_on.isoformat()
            if product is not None and product.price_on is not None
            else "",
            pieces=tuple(id for _, used in uses for id in used),
            why=_stock_why(kind, in_hand, roof),
        )


def _size_of(stock: str, rest: str) -> str:
    return stock.removeprefix(rest).strip() or stock


_GROUPS = {
    "sheets": "Sheets",
    "bars": "Bars",
    "profiles": "Profiles",
    "timbers": "Timber",
    "gutters": "Water",
}


def _stock_why(kind: str, in_hand: bool, roof: Roof) -> str:
    if in_hand:
        return "From the rack."
    if kind == "sheets":
        return "From the cutting plan. One batch, one face; cut from the frame as measured, not from the drawing."
    if kind == "bars":
        return "From the cutting plan: base and cap of one bar from one set."
    return "From the cutting plan."
