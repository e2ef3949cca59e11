"""Multiwall sheets: section, stiffness, tints, stock sizes and a supplier's load table."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field, model_validator

from pentice.catalogue._base import (
    Count,
    Degrees,
    Entry,
    Mm,
    MmFromZero,
    Money,
    PerKelvin,
    Positive,
    Product,
    Share,
    typical,
)
from pentice.marks import Given

CREEP = (
    "power law of creep (J. Soc. Mater. Sci. Japan 25(275), 706) through E(1 h) 2200, E(1000 h) 1900 N/mm2, "
    "both from memory"
)


class StockSheet(Entry):
    """One size that a sheet is sold in. The flutes run along its length."""

    width_mm: Mm
    length_mm: Mm
    price: Money
    tint: str | None = None
    """The one tint this size comes in; left out: every tint of the sheet."""
    code: str | None = None


class Tint(Entry):
    """What the colour of a sheet does to light and heat."""

    light: Share
    """Light transmittance tau_v [-]."""
    absorptance: Share
    """Solar absorptance [-]."""
    solar_g: Share | None = None
    """Total solar energy transmittance g [-]."""
    sheet_most_c: Annotated[float, Field(ge=30, le=120, strict=True)] = 60.0
    """Hottest sheet to allow for [deg C]."""


class LoadRow(Entry):
    """One line of a load table: what the sheet carries at one span."""

    span_mm: Mm
    """Span across the flutes [mm], clear or centres as the table says."""
    length_between_supports_mm: Mm | None = None
    """Along the flutes between cross supports [mm]; left out: any length."""
    supports: Literal["two edges", "four edges"]
    sign: Literal["down", "up"]
    load_kn_m2: Positive
    """Normal to the sheet, a magnitude [kN/m2]."""
    sag_mm: MmFromZero | None = None
    """Sag at that load [mm], where the table prints it."""


class LoadTable(Entry):
    """A supplier's table of carried loads, with what it takes for granted."""

    span_is: Literal["clear", "centres"]
    """Between seats, or between the middles of the bars."""
    basis: Literal["characteristic", "design"]
    duration: Literal["wind only", "snow and wind"]
    edge_cover_mm: Mm | None = None
    """Edge cover that the table asks for [mm]."""
    edge_cover_is: Literal["as fitted", "least"] | None = None
    source: str = Field(min_length=1)
    mark: Literal["declared", "typical", "from memory"]
    rows: tuple[LoadRow, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _honest(self) -> LoadTable:
        if self.mark == "declared" and "invented" in self.source.lower():
            raise ValueError('expected mark "typical": an invented table is never declared')
        if self.edge_cover_mm is not None and self.edge_cover_is is None:
            raise ValueError('expected edge_cover_is = "as fitted" or "least" beside edge_cover_mm')
        _require_falling(self.rows)
        return self


def _require_falling(rows: tuple[LoadRow, ...]) -> None:
    """Refuse a table that names a case twice, or carries more at a wider span: a slip of typing."""
    cases: dict[tuple[str, str, float], list[LoadRow]] = {}
    for row in rows:
        cases.setdefault((row.supports, row.sign, row.length_between_supports_mm or 0.0), []).append(row)
    for case in cases.values():
        case.sort(key=lambda row: row.span_mm)
        for narrow, wide in pairwise(case):
            where = f"{wide.supports}, {wide.sign}, span {wide.span_mm:g}"
            if narrow.span_mm == wide.span_mm:
                raise ValueError(f"expected one row for each case, but {where} stands twice")
            if wide.load_kn_m2 > narrow.load_kn_m2:
                raise ValueError(f"expected less load at a wider span, but {where} has more")


class Sheet(Product):
    """A multiwall sheet. Its stiffness: by_n_m with sy_n_m, or skins_mm, rib_mm and e_n_mm2, or none."""

    price_keys: ClassVar[tuple[str, ...]] = ("stock",)
    typical: ClassVar[Mapping[str, Given[Any]]] = {
        "alpha_per_k": typical(70e-6, "handbook value for polycarbonate, rounded up; from memory"),
        "creep_snow": typical(1.23, CREEP),
        "creep_snow_high": typical(1.26, CREEP),
        "creep_dead": typical(1.41, CREEP),
        "creep_wind": typical(1.03, CREEP),
    }

    depth_mm: Mm
    walls: Annotated[int, Field(ge=1, strict=True)]
    rib_pitch_mm: Mm
    first_rib_mm: MmFromZero
    """From the stock edge to the middle of the first upright rib [mm]."""
    trim_mm: MmFromZero = 0.0
    """To cut off each stock end before it counts as good [mm]."""
    may_turn: bool = False
    """Does the supplier allow pieces to be turned end for end, so that two with sloping ends share a cut?"""
    mass_kg_m2: Positive
    alpha_per_k: PerKelvin = 70e-6
    by_n_m: Positive | None = None
    """Bending stiffness across the flutes, per unit width [N m]."""
    sy_n_m: Positive | None = None
    """Shear stiffness across the flutes, per unit width [N/m]."""
    bx_n_m: Positive | None = None
    """Bending stiffness along the flutes [N m]; with b1_n_m and dt_n_m for a sheet on four edges."""
    b1_n_m: Positive | None = None
    """Coupling stiffness nu_y Bx [N m]."""
    dt_n_m: Positive | None = None
    """Twisting stiffness, Mxy = Dt (psi_x,y + psi_y,x) [N m]."""
    skins_mm: tuple[Mm, ...] = ()
    """Thickness of each wall from the weather face down [mm], evenly spaced over the depth."""
    rib_mm: Mm | None = None
    """Thickness of the upright ribs [mm]."""
    e_n_mm2: Positive | None = None
    """Modulus of elasticity [N/mm2]."""
    my_nm_m: Positive | None = None
    """Characteristic bending resistance across the flutes [N m/m]; a declared value only."""
    mx_nm_m: Positive | None = None
    """Characteristic bending resistance along the flutes [N m/m]; a declared value only."""
    creep_snow: Annotated[float, Field(ge=1, strict=True)] = 1.23
    """Divides By and Sy under snow up to 1000 m of altitude [-]."""
    creep_snow_high: Annotated[float, Field(ge=1, strict=True)] = 1.26
    """The same above 1000 m [-]."""
    creep_dead: Annotated[float, Field(ge=1, strict=True)] = 1.41
    """The same under own weight [-]."""
    creep_wind: Annotated[float, Field(ge=1, strict=True)] = 1.03
    """The same under wind [-]."""
    tints: tuple[str, ...] = Field(min_length=1)
    optics: Mapping[str, Tint] = {}
    """By tint: light and heat."""
    one_face: bool = True
    """True where only the printed face may go to the sky."""
    u_w_m2k: Positive | None = None
    """Heat loss U of the sheet standing upright [W/m2K]; a sloping roof loses more."""
    film_days: Count | None = None
    """Days in the open after which the film bakes on."""
    bend_radius_least_mm: Mm | None = None
    """Least radius of cold bending along the flutes [mm]."""
    fall_least_deg: Degrees | None = None
    """Least fall that the supplier asks for [deg]."""
    fire_class: str | None = None
    """Reaction to fire, EN 13501-1, as declared."""
    stock: tuple[StockSheet, ...] = Field(min_length=1)
    load_table: LoadTable | None = None

    @model_validator(mode="after")
    def _whole(self) -> Sheet:
        if (self.by_n_m is None) != (self.sy_n_m is None):
            raise ValueError("expected by_n_m and sy_n_m together, or neither")
        section = (bool(self.skins_mm), self.rib_mm is not None, self.e_n_mm2 is not None)
        if any(section) and not all(section):
            raise ValueError("expected skins_mm, rib_mm and e_n_mm2 together, or none of them")
        if self.skins_mm and len(self.skins_mm) != self.walls:
            raise ValueError(f"expected as many skins_mm as walls ({self.walls})")
        if self.first_rib_mm > self.rib_pitch_mm:
            raise ValueError("expected first_rib_mm no more than rib_pitch_mm")
        unknown = sorted(({*self.optics} | {s.tint for s in self.stock if s.tint}) - {*self.tints})
        if unknown:
            raise ValueError(f"expected only its own tints in optics and stock, found {', '.join(unknown)}")
        return self
