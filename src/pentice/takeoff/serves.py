"""Which ordered sheets still serve once the frame stands, and to what each of them is cut then."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pentice.catalogue.sheets import Sheet
from pentice.cutting import cut_sheets
from pentice.cutting.values import CutPlan, Placement, SheetPiece, SheetPlan, SheetStock
from pentice.pieces.cut import rib_at_most, side_rib_at_most
from pentice.pieces.names import letters_of
from pentice.setting_out.values import Bay, EdgeFit, SettingOut, Window

Lot = tuple[Placement, ...]
"""What comes out of one sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderedSheet:
    """One sheet that was ordered: what it was for, and what it can be cut to now."""

    stock: str
    width_mm: int
    length_mm: int
    ordered_for: tuple[str, ...]
    cut_to: tuple[Placement, ...]
    """Pieces that come out of it now, as cut; none: it is left over."""

    @property
    def serves(self) -> tuple[str, ...]:
        """Names of the pieces that come out of it now."""
        return tuple(placed.piece for placed in self.cut_to)


@dataclass(frozen=True, slots=True, kw_only=True)
class StillServes:
    """What the order is worth after the frame was measured."""

    sheets: tuple[OrderedSheet, ...]
    without: tuple[str, ...]
    """Pieces that no ordered sheet gives: to be bought."""


def what_still_serves(
    drawn: SettingOut,
    measured: SettingOut,
    cutting: CutPlan,
    *,
    sheet: Sheet | None = None,
    kerf_mm: int = 3,
) -> StillServes:
    """Which ordered sheets still serve, in which bay, once the frame is measured.

    Parameters
    ----------
    drawn
        Sizes that the order was made from.
    measured
        Sizes of the frame as it stands; as many bays.
    cutting
        The plan that the order was made from. No sheet of it is cut yet: that is what holding the saw is for.
    sheet
        The product, for ribs, edge cover of its load table and trim of its stock; absent: sizes alone.
    kerf_mm
        Saw kerf in sheet [mm].

    Returns
    -------
    StillServes
        As many pieces from the ordered sheets as can be had, each from the sheet that was ordered for it where
        that serves; the rest by name.
    """
    bays = measured.plane.bays
    if len(bays) != len(drawn.plane.bays):
        bays = ()  # another roof: nothing ordered is known to serve
    lost = tuple(id for id in _names(cutting) if not _at_side(id) and _bay_of(id, len(bays)) is None)
    sides = {fit.number: side_rib_at_most(fit) for fit in drawn.side_sheets}
    wanted = tuple(_piece(id, bays, cutting, sides) for id in _names(cutting) if id not in lost)
    if not wanted:
        return StillServes(sheets=tuple(_ordered(plan, ()) for plan in cutting.sheets), without=lost)
    again = cut_sheets(wanted, _stock(cutting, wanted, sheet), kerf_mm=kerf_mm, any_cuts=True)
    got = {plan.stock: plan.placements for plan in again.sheets if plan.stock != _NEW}
    missing = tuple(p.piece for plan in again.sheets if plan.stock == _NEW for p in plan.placements)
    return StillServes(sheets=_each_its_own(cutting.sheets, got), without=(*missing, *lost))


def _each_its_own(plans: tuple[SheetPlan, ...], got: Mapping[str, Lot]) -> tuple[OrderedSheet, ...]:
    """Sheets alike change places until each gives the piece it was ordered for, where any of them does."""
    alike: dict[tuple[str, int, int], list[int]] = {}
    for k, plan in enumerate(plans):
        alike.setdefault((plan.stock, plan.width_mm, plan.length_mm), []).append(k)
    serves: dict[int, Lot] = {}
    for group in alike.values():
        lots = [got[str(k)] for k in group if str(k) in got]
        for k in group:
            if lot := _lot_with(plans[k], lots):
                serves[k] = lot
                lots.remove(lot)
        serves |= dict(zip((k for k in group if k not in serves), lots, strict=False))
    return tuple(_ordered(plan, serves.get(k, ())) for k, plan in enumerate(plans))


def _lot_with(plan: SheetPlan, lots: Sequence[Lot]) -> Lot:
    """The lot that holds a bay's sheet of this plan; a plan of packing strips alone has none of its own."""
    bays = [p.piece for p in plan.placements if p.piece not in _STRIPS]
    return next((lot for bay in bays for lot in lots if bay in {p.piece for p in lot}), ())


_STRIPS = ("KL", "KR")
_NEW = "to be bought"
_DEAR = 1_000_000
"""Price of a sheet that is not there, against 1 for one that is: as few of them as can be."""


def _names(cutting: CutPlan) -> tuple[str, ...]:
    return tuple(p.piece for plan in cutting.sheets for p in plan.placements)


def _at_side(id: str) -> bool:
    """Whether a piece is a blank of side sheets: the bays that were measured do not change it."""
    return letters_of(id) == "SS"


def _bay_of(id: str, bays: int) -> int | None:
    """Index of the bay of a sheet or of an end's packing strip."""
    if not bays:
        return None
    ends = {"KL": 0, "KR": bays - 1}
    return ends[id] if id in ends else int(id[len(letters_of(id)) :]) - 1


def _piece(id: str, bays: tuple[Bay, ...], cutting: CutPlan, sides: Mapping[int, float]) -> SheetPiece:
    placed = next(p for plan in cutting.sheets for p in plan.placements if p.piece == id)
    if _at_side(id):
        most_in = min(sides[int(number)] for number in id.removeprefix("SS").split("-"))
        return _as_placed(placed, cutting.sheets[0].item, most_in)
    bay = bays[_bay_of(id, len(bays)) or 0]
    strip = id in _STRIPS
    width = (
        Window(least=placed.width_mm, most=placed.width_mm, cut=placed.width_mm) if strip else bay.width_mm
    )
    length = bay.length_mm
    return SheetPiece(
        id=id,
        item=cutting.sheets[0].item,
        width_mm=math.floor(width.cut),
        length_mm=math.floor(length.cut),
        least_width_mm=min(math.ceil(width.least), math.floor(width.cut)),
        least_length_mm=min(math.ceil(length.least), math.floor(length.cut)),
        most_width_mm=max(math.floor(width.most), math.floor(width.cut)),
        most_length_mm=max(math.floor(length.most), math.floor(length.cut)),
        rib_at_most_mm=(math.inf, math.inf) if strip else (_ribs(bay.edges.left), _ribs(bay.edges.right)),
    )


def _as_placed(placed: Placement, item: str, rib_at_most_mm: float) -> SheetPiece:
    """A piece of the size that it was planned with."""
    width, length = placed.width_mm, placed.length_mm
    return SheetPiece(
        id=placed.piece,
        item=item,
        width_mm=width,
        length_mm=length,
        least_width_mm=width,
        least_length_mm=length,
        most_width_mm=width,
        most_length_mm=length,
        rib_at_most_mm=(rib_at_most_mm, rib_at_most_mm),
    )


def _ribs(edge: EdgeFit) -> float:
    return math.inf if edge.rib_at_mm is None else rib_at_most(edge.rib_at_mm, edge)


def _stock(cutting: CutPlan, wanted: tuple[SheetPiece, ...], product: Sheet | None) -> tuple[SheetStock, ...]:
    """The ordered sheets, each once, and one that is not there yet for what they do not give."""
    item = cutting.sheets[0].item
    there = tuple(_ordered_stock(str(k), plan, product) for k, plan in enumerate(cutting.sheets))
    width, length = max(p.width_mm for p in wanted), max(p.length_mm for p in wanted)
    new = SheetStock(
        id=_NEW,
        item=item,
        width_mm=width,
        length_mm=length,
        price=_DEAR,
        count=None,
        offcut=False,
        rib_pitch_mm=1.0,
        first_rib_mm=1.0,
    )
    return (*there, new)


def _ordered_stock(id: str, plan: SheetPlan, product: Sheet | None) -> SheetStock:
    """One ordered sheet; where the product is not named its ribs stand everywhere: sizes alone count."""
    in_hand = plan.price == 0
    return SheetStock(
        id=id,
        item=plan.item,
        width_mm=plan.width_mm,
        length_mm=plan.length_mm,
        price=1,
        count=1,
        offcut=in_hand,
        rib_pitch_mm=1.0 if product is None or in_hand else product.rib_pitch_mm,
        first_rib_mm=1.0 if product is None or in_hand else product.first_rib_mm,
        trim_mm=0 if product is None else math.ceil(product.trim_mm),
    )


def _ordered(plan: SheetPlan, cut_to: Lot) -> OrderedSheet:
    return OrderedSheet(
        stock=plan.stock,
        width_mm=plan.width_mm,
        length_mm=plan.length_mm,
        ordered_for=tuple(p.piece for p in plan.placements),
        cut_to=cut_to,
    )
