"""The take-off stage: everything to order, and everything that is not in this roof, with reasons."""

from __future__ import annotations

from pentice.catalogue.model import Catalogue
from pentice.catalogue.parts import Parts
from pentice.cutting.values import CutPlan
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.pieces.values import Piece
from pentice.setting_out.values import SettingOut
from pentice.takeoff.roof import Roof
from pentice.takeoff.stock import stock_lines
from pentice.takeoff.values import OrderLine


def take_off(
    job: Job,
    shape: RoofShape,
    parts: Parts,
    catalogue: Catalogue,
    setting_out: SettingOut,
    pieces: tuple[Piece, ...],
    cutting: CutPlan,
) -> tuple[OrderLine, ...]:
    """Every line of the order.

    Parameters
    ----------
    job, shape, parts, catalogue
        The job, its geometry and its products.
    setting_out, pieces, cutting
        Sizes, what must exist, and what it is cut from.

    Returns
    -------
    tuple of OrderLine
        What is cut comes first, as the cutting plan buys it.
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
    return tuple(stock_lines(roof))
