"""Which ordered sheets still serve once the frame stands, and between which sizes an uncut one does."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pentice.catalogue.sheets import Sheet
from pentice.cutting import cut_sheets
from pentice.cutting.values import CutPlan, SheetPiece, SheetPlan, SheetStock
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.mechanics.movement import cover_needed_mm
from pentice.pieces.cut import rib_at_most
from pentice.pieces.names import letters_of
from pentice.setting_out.sheets import BITE_LEAST_MM
from pentice.setting_out.values import Bay, EdgeFit, SettingOut, Temperatures, Window

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ServingRange:
    """Sizes of the bay between which an uncut sheet serves; None in a direction in which it is cut [mm]."""

    bay: int
    between_stems_mm: Range | None
    projection_mm: Range | None

    @property
    def says(self) -> str:
        """The two ranges in a sentence, rounded inward to the mm; nothing where the sheet is cut both ways."""
        told = []
        if self.between_stems_mm is not None:
            told.append(f"{_inward(self.between_stems_mm)} between the stems")
        if self.projection_mm is not None:
            told.append(f"{_inward(self.projection_mm)} of projection")
        return f"Uncut it serves a bay of {' and '.join(told)}." if told else ""


def _inward(range_mm: Range) -> str:
    low, high = math.ceil(range_mm[0] - 1e-6), math.floor(range_mm[1] + 1e-6)
    return f"{low} to {high} mm" if low <= high else f"exactly {range_mm[0]:.1f} mm"


def serving_range(job: Job, shape: RoofShape, temps: Temperatures, bay: Bay) -> ServingRange:
    """Width and projection of the bay between which its uncut sheet needs no saw.

    Parameters
    ----------
    job, shape
        Gaps that stay on the hottest day, the pitch.
    temps
        Sheet temperatures.
    bay
        The bay as it is set out.

    Returns
    -------
    ServingRange
        Least from the hottest day, greatest from the coldest (bite at the sides, lap at the head) [mm].
    """
    width = _width_range(job, temps, bay) if bay.width_mm.uncut else None
    projection = _projection_range(job, shape, temps, bay) if bay.length_mm.uncut else None
    return ServingRange(bay=bay.number, between_stems_mm=width, projection_mm=projection)


def _width_range(job: Job, temps: Temperatures, bay: Bay) -> Range:
    width = bay.width_mm.cut
    hot, cold = temps.most_c - temps.fit_c, temps.fit_c - temps.least_c
    if job.glazing.gap_mm is None:
        grown = width * (1.0 + temps.alpha_per_k * hot) + 2.0 * job.glazing.gap_residual_mm[0]
        least = max(grown, width + 6.0)
    else:
        least = width + 2.0 * job.glazing.gap_mm
    holds = min(_holds(edge) for edge in (bay.edges.left, bay.edges.right))
    return least, width * (1.0 - temps.alpha_per_k * cold) + holds


def _holds(edge: EdgeFit) -> float:
    """What an edge can give away before its bite is less than the rule or its first rib asks for."""
    return edge.depth_mm - max(BITE_LEAST_MM, (edge.rib_at_mm or 0.0) + 1.0)


def _projection_range(job: Job, shape: RoofShape, temps: Temperatures, bay: Bay) -> Range:
    length, head = bay.length_mm.cut, bay.edges.head
    hot, cold = temps.most_c - temps.fit_c, temps.fit_c - temps.least_c
    least_gap = length * temps.alpha_per_k * hot + job.glazing.gap_residual_mm[1]
    most_gap = head.depth_mm - cover_needed_mm(0.0, length, temps.alpha_per_k, cold)
    # head.gap_mm belongs to the greatest projection of the bay: a gap more or less is a projection more or less
    at = bay.projection_mm[1]
    return at + (least_gap - head.gap_mm) * shape.cos_pitch, at + (most_gap - head.gap_mm) * shape.cos_pitch


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderedSheet:
    """One sheet that was ordered: what it was for, and what it can be cut to now."""

    stock: str
    width_mm: int
    length_mm: int
    ordered_for: tuple[str, ...]
    serves: tuple[str, ...]
    """Names of the pieces that come out of it now; none: it is left over."""


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
        The product, for the ribs that each edge must hold and what is trimmed off its stock; absent: sizes alone.
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
    wanted = tuple(_piece(id, bays, cutting) for id in _names(cutting) if _bay_of(id, len(bays)) is not None)
    lost = tuple(id for id in _names(cutting) if _bay_of(id, len(bays)) is None)
    if not wanted:
        return StillServes(sheets=tuple(_ordered(plan, ()) for plan in cutting.sheets), without=lost)
    again = cut_sheets(wanted, _stock(cutting, wanted, sheet), kerf_mm=kerf_mm)
    got = {plan.stock: tuple(p.piece for p in plan.placements) for plan in again.sheets if plan.stock != _NEW}
    missing = tuple(p.piece for plan in again.sheets if plan.stock == _NEW for p in plan.placements)
    return StillServes(sheets=_each_its_own(cutting.sheets, got), without=(*missing, *lost))


def _each_its_own(
    plans: tuple[SheetPlan, ...], got: Mapping[str, tuple[str, ...]]
) -> tuple[OrderedSheet, ...]:
    """Sheets alike change places until each gives the piece it was ordered for, where any of them does."""
    alike: dict[tuple[str, int, int], list[int]] = {}
    for k, plan in enumerate(plans):
        alike.setdefault((plan.stock, plan.width_mm, plan.length_mm), []).append(k)
    serves: dict[int, tuple[str, ...]] = {}
    for group in alike.values():
        lots = [got[str(k)] for k in group if str(k) in got]
        for k in group:
            if lot := _lot_with(plans[k], lots):
                serves[k] = lot
                lots.remove(lot)
        serves |= dict(zip((k for k in group if k not in serves), lots, strict=False))
    return tuple(_ordered(plan, serves.get(k, ())) for k, plan in enumerate(plans))


def _lot_with(plan: SheetPlan, lots: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    """The lot that holds a bay's sheet of this plan; a plan of packing strips alone has none of its own."""
    bays = [p.piece for p in plan.placements if p.piece not in _STRIPS]
    return next((lot for bay in bays for lot in lots if bay in lot), ())


_STRIPS = ("KL", "KR")
_NEW = "to be bought"
_DEAR = 1_000_000
"""Price of a sheet that is not there, against 1 for one that is: as few of them as can be."""


def _names(cutting: CutPlan) -> tuple[str, ...]:
    return tuple(p.piece for plan in cutting.sheets for p in plan.placements)


def _bay_of(id: str, bays: int) -> int | None:
    """Index of the bay of a sheet or of an end's packing strip."""
    if not bays:
        return None
    ends = {"KL": 0, "KR": bays - 1}
    return ends[id] if id in ends else int(id[len(letters_of(id)) :]) - 1


def _piece(id: str, bays: tuple[Bay, ...], cutting: CutPlan) -> SheetPiece:
    bay = bays[_bay_of(id, len(bays)) or 0]
    placed = next(p for plan in cutting.sheets for p in plan.placements if p.piece == id)
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


def _ordered(plan: SheetPlan, serves: tuple[str, ...]) -> OrderedSheet:
    return OrderedSheet(
        stock=plan.stock,
        width_mm=plan.width_mm,
        length_mm=plan.length_mm,
        ordered_for=tuple(p.piece for p in plan.placements),
        serves=serves,
    )
