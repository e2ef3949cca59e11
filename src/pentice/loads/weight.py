"""Self-weight, and category H: what people and the roof itself put on it."""

from __future__ import annotations

from dataclasses import replace

from pentice.catalogue.parts import Parts
from pentice.errors import OutsideScope
from pentice.job.model import Job
from pentice.job.shape import RoofShape
from pentice.loads.values import Dead, Imposed
from pentice.standards.annex import Annex
from pentice.standards.en338 import strength_class
from pentice.standards.en1991_1_1 import category_h_kn_m2, category_h_point_kn
from pentice.working import Step

GRAVITY = 9.81e-3
"""kN per kg."""


def weights_of(job: Job, parts: Parts) -> Dead:
    """Self-weight of sheet, bar, rafter and barge board.

    Parameters
    ----------
    job, parts
        Sections, and the mass of each product.

    Returns
    -------
    Dead
        Per slope area [kN/m2] and per length [kN/m].

    Source
    ------
    Mass times 9.81 m/s2; timber by its mean density, EN 338.

    Examples
    --------
    >>> round(2.7 * GRAVITY, 4)
    0.0265
    """
    rho = strength_class(parts.timber.strength_class).rho_mean_kg_m3
    b, h = (0.0, 0.0) if parts.bar.carries else job.frame.rafter_mm or (0.0, 0.0)
    barge = job.frame.barge_board_mm or (0.0, 0.0)
    sheet = parts.sheet.mass_kg_m2 * GRAVITY
    bar, timber, board = parts.bar.mass_kg_m, b * h * 1e-6, barge[0] * barge[1] * 1e-6
    lines = [
        ("bar, cap and seals", f"{bar:g} x 9.81 / 1000", bar * GRAVITY, "mass of the product"),
        (
            "rafter",
            f"{b / 1000.0:g} x {h / 1000.0:g} x {rho:g} x 9.81 / 1000",
            timber * rho * GRAVITY,
            "EN 338, mean density",
        ),
        (
            "barge board",
            f"{barge[0] / 1000.0:g} x {barge[1] / 1000.0:g} x {rho:g} x 9.81 / 1000",
            board * rho * GRAVITY,
            "EN 338, mean density",
        ),
    ]
    first = Step(
        says="Weight of the sheet",
        formula="g = mass x 9.81",
        numbers=f"{parts.sheet.mass_kg_m2:g} x 9.81 / 1000",
        result=sheet,
        unit="kN/m2 of slope",
        clause="mass of the product",
    )
    return Dead(
        sheet_kn_m2=sheet,
        bar_kn_m=bar * GRAVITY,
        rafter_kn_m=timber * rho * GRAVITY,
        barge_kn_m=board * rho * GRAVITY,
        working=(
            first,
            *(
                Step(
                    says=f"Weight of the {says}",
                    formula="mass x 9.81" if says.startswith("bar,") else "b h rho x 9.81",
                    numbers=numbers,
                    result=value,
                    unit="kN/m",
                    clause=clause,
                )
                for says, numbers, value, clause in lines
                if value
            ),
        ),
    )


def imposed_on(job: Job, shape: RoofShape, annex: Annex) -> Imposed:
    """Category H: given in the job, or the annex's; refused where the annex has none.

    Parameters
    ----------
    job, shape, annex
        The job, its geometry and the national choices.

    Returns
    -------
    Imposed
        Area load [kN/m2 of plan] and point load [kN].

    Source
    ------
    EN 1991-1-1:2002, 6.3.4, Table 6.10.
    """
    found = Imposed(area_kn_m2=job.site.imposed_kn_m2, point_kn=job.site.imposed_point_kn)
    reasons = []
    if found.area_kn_m2 is None:
        try:
            found = replace(found, area_kn_m2=category_h_kn_m2(annex, shape.pitch_deg))
        except OutsideScope as refusal:
            reasons.append(str(refusal))
    if found.point_kn is None:
        try:
            found = replace(found, point_kn=category_h_point_kn(annex))
        except OutsideScope as refusal:
            reasons.append(str(refusal))
    return replace(found, refused=" ".join(reasons))
