"""Fasteners of a joint as the job describes them, where no resistance is declared for it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from pentice.job.fields import NotNegative, Number, Size, Table, Whole, YesNo

Joint = Literal["hanger", "rafter tie", "post tie"]
Plates = Literal["one", "two", "inside", "none"]


class Fasteners(Table):
    """Nails, screws or bolts that hold one joint down; resistance by EN 1995-1-1, section 8."""

    joint: Joint
    """hanger (rafter to wall plate, up), rafter tie (rafter to beam) or post tie (beam to post)."""
    kind: Literal["nail", "screw", "bolt"]
    """Smooth round nails, screws, or bolts."""
    item: str | None = None
    """Screw or other part of the catalogue that is ordered for them; absent: an order line without a price."""
    length_mm: Size | None = None
    """Length of one, for the order [mm]."""
    count: Annotated[Whole, Field(ge=1, le=50)]
    """Fasteners in each of the two timbers; with plates "none" those through both."""
    d_mm: Annotated[Size, Field(le=30)]
    """Diameter; of a screw, outside its thread [mm]."""
    root_mm: Size | None = None
    """Root of a screw's thread [mm]."""
    f_u_n_mm2: Annotated[Number, Field(gt=0, le=2500)]
    """Tensile strength of the steel: 400 for bolts 4.6, 800 for 8.8, at least 600 for nails [N/mm2]."""
    predrilled: YesNo = False
    """Are holes drilled for nails or screws? Bolts always are."""
    plates: Plates
    """Steel on one side (strap, angle), on two sides, inside in a slot, or none: timber on timber."""
    plate_mm: Size | None = None
    """Thickness of the steel [mm]."""
    upper_mm: Size
    """Thickness of the upper timber, or how far a point reaches into it; beside a slot, of the thinner side [mm]."""
    lower_mm: Size
    """The same for the lower timber [mm]."""
    apart_mm: NotNegative = 0.0
    """Least distance between two of them [mm]."""
    end_mm: Size
    """Least distance to an end of either timber [mm]."""
    edge_mm: Size
    """Least distance to an edge of either timber [mm]."""
    washer_mm: Size | None = None
    """Washer under head and nut of a bolt, for the rope effect [mm]."""
    axial_kn: Annotated[Number, Field(gt=0, le=100)] | None = None
    """Declared characteristic pull of one nail or screw along its axis, for the rope effect [kN]."""
