"""Glazing bars on rafters or self-supporting, and the profiles that close the head, the foot and the verge."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar, Literal

from pydantic import Field, model_validator

from pentice.catalogue._base import (
    Count,
    Degrees,
    Mm,
    MmFromZero,
    PerKelvin,
    Positive,
    Product,
    StockLength,
    typical,
)
from pentice.marks import Given

_ALUMINIUM = typical(23e-6, "EN 1999-1-1:2007, 3.2.5, from memory")


class Bar(Product):
    """A two-part glazing bar, base and cap: its base screwed to a rafter, or carrying by itself."""

    @property
    def carries(self) -> bool:
        """Does it carry the roof itself, with no rafter below it?"""
        return self.kind == "self-supporting"

    price_keys: ClassVar[tuple[str, ...]] = ("lengths", "cap_lengths")
    reference_keys: ClassVar[tuple[str, ...]] = ("base_seal", "cap_seal", "end_cap", "cap_stop")
    typical: ClassVar[Mapping[str, Given[Any]]] = {"alpha_per_k": _ALUMINIUM}

    kind: Literal["rafter-supported", "self-supporting", "snap-down cap", "screw-down cap"]
    stem_mm: Mm
    """Thickness of the upright [mm]."""
    seat_mm: Mm
    """Width on the rafter [mm]."""
    rebate_mm: Mm
    """Depth that the sheet can enter, stem to flange tip [mm]."""
    hole_gauge_mm: MmFromZero
    """Across the bar between the left and the right row of screws [mm]."""
    sheet_depths_mm: tuple[Mm, ...] = Field(min_length=1)
    cap_hold_n_m: Positive | None = None
    """Force per metre of bar at which the cap lets go, characteristic [N/m]."""
    cap_allowance_mm: MmFromZero = 0.0
    """Cap beyond the base at the foot, for the end cap [mm]."""
    cap_cut_back_mm: MmFromZero = 0.0
    """Cap short of the base at the head, to slide under the flashing [mm]."""
    mass_kg_m: Positive
    """Base and cap together [kg/m]."""
    alpha_per_k: PerKelvin = 23e-6
    fix_at: Literal["head", "middle", "foot"] = "middle"
    """The one place where a long bar is held; elsewhere its holes are slotted."""
    seat_thickness_mm: Mm | None = None
    """Aluminium under the screw head [mm]."""
    pull_through_n: Positive | None = None
    """Force at which a screw head pulls through the seat, characteristic [N]."""
    screw_spacing_mm: Mm | None = None
    """Greatest screw spacing that the supplier allows [mm]."""
    screw_spacing_between: Literal["successive holes", "holes on one side"] | None = None
    fall_least_deg: Degrees | None = None
    """Least fall that the supplier asks for [deg]."""
    below_mm: Mm | None = None
    """How far a self-supporting bar reaches below the seat of its sheets [mm]."""
    i_mm4: Positive | None = None
    """Second moment of area of a self-supporting bar, bent in the plane of its stem [mm4]."""
    w_mm3: Positive | None = None
    """Its lesser elastic section modulus [mm3]."""
    i_z_mm4: Positive | None = None
    """Its second moment of area sideways [mm4]."""
    i_t_mm4: Positive | None = None
    """Its torsion constant [mm4]."""
    i_w_mm6: Positive | None = None
    """Its warping constant; left out: none [mm6]."""
    z_j_mm: float | None = None
    """Its monosymmetry with the upper edge pressed, 0 where it is alike above and below [mm]."""
    shear_area_mm2: Positive | None = None
    """Its webs that stand along the load [mm2]."""
    wall_mm: Mm | None = None
    """Its thickest wall, for the strength of the alloy [mm]."""
    section_class: Literal[1, 2, 3] | None = None
    """Class of its section, as the supplier states it (EN 1999-1-1, 6.1.4)."""
    held_by_sheets: bool = False
    """Does the supplier state that the sheets hold its upper edge sideways?"""
    bending_down_knm: Positive | None = None
    """Design bending resistance under downward load that the supplier declares, in place of the section's [kNm]."""
    bending_up_knm: Positive | None = None
    """The same under uplift [kNm]."""
    web_kn: Positive | None = None
    """What its webs bear over one bearing, as its supplier declares it, design value [kN]."""
    alloy: str | None = None
    """Alloy and temper, for example "6060 T66"."""
    base_seals: Count = 2
    """Runs of seal in the base."""
    cap_seals: Count = 2
    """Runs of seal in the cap."""
    seals_in_set: bool = False
    """True where the price of a length includes its seals."""
    base_seal: str | None = None
    cap_seal: str | None = None
    end_cap: str | None = None
    cap_stop: str | None = None
    lengths: tuple[StockLength, ...] = Field(min_length=1)
    """Base and cap as one set, or the base alone where cap_lengths stands too."""
    cap_lengths: tuple[StockLength, ...] = ()

    @model_validator(mode="after")
    def _whole(self) -> Bar:
        if self.seat_mm <= self.stem_mm:
            raise ValueError("expected seat_mm greater than stem_mm")
        if self.rebate_mm > (self.seat_mm - self.stem_mm) / 2:
            raise ValueError("expected rebate_mm within half of seat_mm less stem_mm")
        if self.kind == "self-supporting" and self.below_mm is None:
            raise ValueError("expected below_mm of a self-supporting bar")
        if self.hole_gauge_mm >= self.seat_mm:
            raise ValueError("expected hole_gauge_mm less than seat_mm")
        return self


class Profile(Product):
    """An F, U or angle that closes one edge of the roof."""

    price_keys: ClassVar[tuple[str, ...]] = ("lengths",)
    typical: ClassVar[Mapping[str, Given[Any]]] = {"alpha_per_k": _ALUMINIUM}

    use: Literal["head", "foot", "edge", "verge trim"]
    back_mm: Mm
    """Thickness of its back [mm]."""
    arm_mm: Mm
    """How far an arm laps the sheet from the inside of the back [mm]; of an angle trim its top leg."""
    inside_mm: Mm | None = None
    """Clear between the arms [mm]; an angle trim has none."""
    leg_mm: Mm | None = None
    """The leg that reaches down or up the wall [mm]."""
    drain_gap_mm: MmFromZero = 0.0
    """Left between the sheet's foot and the back, so that it drains [mm]."""
    hold_n_m: Positive | None = None
    """Force per metre at which a sheet pulls out, characteristic [N/m]."""
    mass_kg_m: Positive | None = None
    alpha_per_k: PerKelvin = 23e-6
    lengths: tuple[StockLength, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _whole(self) -> Profile:
        if self.use != "verge trim" and self.inside_mm is None:
            raise ValueError(f"expected inside_mm for a profile of use {self.use}")
        return self
