"""The take-off stage: what the roof is made of to an order that forgets nothing."""

from __future__ import annotations

from collections.abc import Iterable

from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.cutting.values import CutPlan
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.values import Piece
from pentice.setting_out.values import SettingOut
from pentice.takeoff.finished import absent_parts
from pentice.takeoff.frame import frame_needs
from pentice.takeoff.glazing import glazing_needs
from pentice.takeoff.needs import Need, line_of
from pentice.takeoff.roof import Roof
from pentice.takeoff.spare import spare_lines
from pentice.takeoff.stock import stock_lines
from pentice.takeoff.values import OrderLine
from pentice.takeoff.wall_and_water import wall_and_water_needs

GROUPS = (
    "Sheets",
    "Bars",
    "Profiles",
    "Tapes and seals",
    "Fixings",
    "Wall",
    "Timber",
    "Posts and beams of metal",
    "Water",
    "Sundries",
)


def take_off(
    job: Job,
    shape: RoofShape,
    parts: Parts,
    catalogue: Catalogue,
    setting_out: SettingOut,
    pieces: tuple[Piece, ...],
    cutting: CutPlan,
) -> tuple[OrderLine, ...]:
    """The order of a roof.

    Parameters
    ----------
    job, shape, parts, catalogue, setting_out, pieces, cutting
        What stands above the take-off.

    Returns
    -------
    tuple of OrderLine
        By group; a part that is not in this roof is a line of quantity 0 that says why.
    """
    roof = Roof(
        job=job,
        shape=shape,
        parts=parts,
        catalogue=catalogue,
        setting_out=setting_out,
        pieces=pieces,
        cutting=cutting,
    )
    stock = tuple(stock_lines(roof))
    spare = spare_lines((roof,), cutting.lengths, stock)
    return in_groups((*stock, *spare, *(line_of(need, catalogue) for need in needs_of(roof, stock))))


def needs_of(roof: Roof, stock: tuple[OrderLine, ...]) -> tuple[Need, ...]:
    """Everything that is needed beside what is cut, and a word on each part that this roof does not have.

    Parameters
    ----------
    roof
        What the take-off counts on.
    stock
        Lines of what is cut.

    Returns
    -------
    tuple of Need
        In the order of the work; absent parts, with quantity 0, come last.
    """
    needs = (*glazing_needs(roof), *frame_needs(roof), *wall_and_water_needs(roof))
    there = {part for line in stock for part in line.part.split(", ")} | {need.part for need in needs}
    return (*needs, *absent_parts(roof, there))


def in_groups(lines: Iterable[OrderLine]) -> tuple[OrderLine, ...]:
    """Lines of an order, group by group.

    Parameters
    ----------
    lines
        In any order.

    Returns
    -------
    tuple of OrderLine
        Within a group as they came.
    """
    return tuple(sorted(lines, key=lambda line: GROUPS.index(line.group)))
