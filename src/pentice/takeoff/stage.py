"""The take-off stage: what the roof is made of to an order that forgets nothing."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.cutting.values import CutPlan
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.values import Piece
from pentice.setting_out.values import SettingOut
from pentice.takeoff.frame import frame_needs
from pentice.takeoff.glazing import glazing_needs
from pentice.takeoff.needs import Need, Roof, line_of, not_here, stock_lines
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
    needs = (*glazing_needs(roof), *frame_needs(roof), *wall_and_water_needs(roof), *_absent_pieces(roof))
    lines = (*stock_lines(roof), *(line_of(need, catalogue) for need in needs))
    return tuple(sorted(lines, key=lambda line: GROUPS.index(line.group)))


def _absent_pieces(roof: Roof) -> Iterator[Need]:
    """Pieces that another roof would have, each with the reason why this one has none."""
    absent = (
        ("WP", "wall plate", "Timber", "the job names no wall plate"),
        ("EB", "beam", "Timber", "the job names no beam"),
        ("PO", "posts", "Timber", "the job names no posts, or no heights for them"),
        ("N", "noggin under each button", "Timber", "the job names no noggins"),
        ("K", "packing strips", "Sheets", "no end of the roof carries a bar"),
        ("T", "verge trims", "Profiles", "the ends are closed by edge profiles or walls"),
        ("H", "head profile", "Profiles", "the head is closed otherwise"),
    )
    for start, part, group, because in absent:
        if not roof.pieces_like(start):
            yield not_here(part, group, because)
