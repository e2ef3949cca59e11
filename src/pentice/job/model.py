"""The job file as a frozen model: one file is one roof.

Values are plain; the mark of each (given, measured, declared, chosen, typical) stands in `Job.marks` by key path.
A key left out is None (or its stated default) and is filled by `advice.complete` or asked for.
"""

from __future__ import annotations

from decimal import Decimal
from types import MappingProxyType
from typing import Annotated, Any, Literal

from pydantic import Field, PrivateAttr

from pentice.job.fasteners import Fasteners
from pentice.job.fields import (
    Day,
    Fall,
    Length,
    MaybeSize,
    Money,
    NotNegative,
    Number,
    Pair,
    Pitch,
    Share,
    Side,
    Size,
    Table,
    Wall,
    Whole,
    YesNo,
)
from pentice.marks import Given, Marks

Use = Literal["lean-to", "veranda", "canopy", "carport"]
Terrain = Literal["0", "I", "II", "III", "IIIa", "IIIb", "IV"]
Part = Annotated[Number, Field(ge=0, le=1)]
Factor = Annotated[Number, Field(ge=0.5, le=2)]
WallKind = Literal["brick", "block", "stone", "timber frame", "insulated render"]


class Dates(Table):
    """When things happen. The engine has no clock: every date on a paper comes from here."""

    quoted_on: Day | None = None
    """Date of the quote; its validity counts from here."""
    order_on: Day | None = None
    """Day the order goes out."""
    deliver_on: Day | None = None
    """Day the sheets and bars arrive."""
    start_on: Day | None = None
    """First day on site."""
    working_days: Annotated[Whole, Field(ge=1, le=60)] | None = None
    """Days on site."""


class People(Table):
    """For the quote and the handover only."""

    client: str = ""
    """Who the roof is for."""
    address: str = ""
    """Where it is built."""
    telephone: str = ""
    """How to reach the client."""
    surveyed_by: str = ""
    """Who measured."""
    surveyed_on: Day | None = None
    """When."""


class WindZone(Table):
    """One of the user's own wind zones: a rectangle on the roof and its net coefficients."""

    name: str
    """Name of the zone as its source calls it."""
    x_mm: tuple[Length, Length] | None = None
    """From and to along the wall [mm]; absent: over the whole width."""
    y_mm: tuple[Length, Length] | None = None
    """From and to on plan from the wall [mm]; absent: over the whole projection."""
    down: Number
    """Net pressure coefficient towards the roof [-], 0 or more."""
    up: Number
    """Net pressure coefficient away from the roof [-], 0 or less."""


class WindCoefficients(Table):
    """Net pressure coefficients of the user's own, with their source, where the annex has none to offer."""

    source: str
    """Document, table and who read it."""
    zones: tuple[WindZone, ...]
    """Zones that together cover the roof."""
    whole_down: NotNegative | None = None
    """Force coefficient of the whole roof towards it [-], for beams, posts and feet; absent: the zones count."""
    whole_up: Number | None = None
    """Force coefficient of the whole roof away from it [-], 0 or less."""
    whole_at: Annotated[Number, Field(gt=0, lt=1)] = 0.25
    """Where that force acts: share of the depth behind the windward edge [-]."""
    open_door_zones: tuple[WindZone, ...] = ()
    """Zones with the worst door or window below the roof standing open; they cover the roof as well."""


Inwards = Annotated[Number, Field(ge=0, le=5)]
Outwards = Annotated[Number, Field(ge=-5, le=0)]
OwnSide = tuple[Inwards, Outwards]


class SideWind(Table):
    """Wind on the closed sides of a roof that has an open side, or wind coefficients of your own: from an engineer.

    Net pressure coefficients, outside less inside, of the peak pressure that the roof is checked with. EN 1991-1-4 has
    none for such sides; a closed room needs none.
    """

    source: str
    """Who gave them, and in which document."""
    inwards: Inwards
    """Net pressure coefficient that presses a closed side in [-], 0 or more: the most of any wind and place."""
    outwards: Outwards
    """The same that draws it out [-], 0 or less."""
    left: OwnSide | None = None
    """[inwards, outwards] of the left end, where it has its own [-]."""
    right: OwnSide | None = None
    """The same of the right end [-]."""
    front: OwnSide | None = None
    """The same of the front [-]."""
    back: OwnSide | None = None
    """The same of the high side of a free-standing roof [-]."""

    def of(self, wall: Wall) -> OwnSide:
        """Inwards and outwards on one wall [-].

        Examples
        --------
        >>> wind = SideWind(source="an engineer", inwards=1.2, outwards=-1.0, left=(1.3, -1.1))
        >>> wind.of("left"), wind.of("front")
        ((1.3, -1.1), (1.2, -1.0))
        """
        own: OwnSide | None = getattr(self, wall)
        return (self.inwards, self.outwards) if own is None else own


Psi = tuple[Part, Part, Part]
"""psi_0, psi_1, psi_2 of a variable action [-]."""


class PartialFactors(Table):
    """Partial factors on actions, read in a national annex that is not held."""

    permanent_up: Factor
    """gamma_G,sup for strength [-]."""
    permanent_down: Factor
    """gamma_G,inf for strength [-]."""
    variable: Factor
    """gamma_Q for strength [-]."""
    equ_permanent_up: Factor
    """gamma_G,sup against lifting off [-]."""
    equ_permanent_down: Factor
    """gamma_G,inf against lifting off [-]."""
    equ_variable: Factor
    """gamma_Q against lifting off [-]."""
    source: str
    """Document, table and who read it."""


class Site(Table):
    """Where the roof stands, and what weather that means."""

    annex: str = "EN"
    """National choices: "EN" (recommended values) or a country, "UK" … as far as its values were read."""
    partial_factors: PartialFactors | None = None
    """Partial factors, where the annex's were not read: expression 6.10 is used with them."""
    psi_snow: Psi | None = None
    """psi_0, psi_1, psi_2 of snow at this site, where the annex's were not read; write {value = …, source = …}."""
    psi_wind: Psi | None = None
    """psi_0, psi_1, psi_2 of wind, where the annex's were not read; write {value = …, source = …}."""
    exceptional_drifts: YesNo | None = None
    """Does the annex ask for exceptional snow drifts (EN 1991-1-3, Annex B)? Where that was not read."""
    altitude_m: Annotated[Number, Field(ge=-50, le=4000)] | None = None
    """Height of the site above the sea [m]."""
    terrain: Terrain | None = None
    """Terrain of EN 1991-1-4, 4.3: "0" sea, "I" open, "II" farmland, "III" suburb (France IIIa, IIIb), "IV" town."""
    vb0_m_s: Annotated[Number, Field(gt=0, le=60)] | None = None
    """Fundamental basic wind velocity [m/s], from the wind map."""
    peak_pressure_kn_m2: Annotated[Number, Field(gt=0, le=5)] | None = None
    """Peak velocity pressure [kN/m2], if it is known: replaces terrain and velocity."""
    reference_height_m: Annotated[Number, Field(gt=0, le=200)] | None = None
    """A lower reference height [m] than the house's wall top; give its reason as the note of this value."""
    distance_to_sea_km: Annotated[Number, Field(gt=0)] | None = None
    """Distance to the shore upwind [km]; UK only."""
    distance_in_town_km: Annotated[Number, Field(ge=0)] | None = None
    """Distance inside town upwind [km]; UK only."""
    ground_snow_kn_m2: Annotated[Number, Field(ge=0, le=20)] | None = None
    """Snow load on the ground [kN/m2]; or give snow_region and snow_zone."""
    snow_region: str | None = None
    """Region of the snow map ("Alpine", "UK", "DE", …)."""
    snow_zone: Annotated[str, Field(coerce_numbers_to_str=True)] | None = None
    """Zone of the snow map."""
    snow_exposure: Literal["windswept", "normal", "sheltered"] = "normal"
    """How wind clears the roof (EN 1991-1-3, Table 5.1)."""
    thermal_coefficient: Annotated[Number, Field(gt=0, le=1)] = 1.0
    """Thermal coefficient C_t [-]: below 1 for an enclosed room heated for good; say why as its note."""
    accidental_snow_kn_m2: Annotated[Number, Field(ge=0, le=20)] | None = None
    """Exceptional snow on the ground [kN/m2], where the country has it."""
    imposed_kn_m2: Annotated[Number, Field(ge=0, le=5)] | None = None
    """Imposed load on a roof that is not accessible [kN/m2]; absent: the annex's category H."""
    ground_bearing_kn_m2: Annotated[Number, Field(gt=0, le=1000)] | None = None
    """Pressure the ground under the pads may take, as a design value [kN/m2]."""
    ground_friction: Annotated[Number, Field(gt=0, le=1)] | None = None
    """Friction between pad and ground as a design value, tan delta [-]."""
    imposed_point_kn: Annotated[Number, Field(ge=0, le=5)] | None = None
    """Imposed point load [kN]; absent: the annex's category H."""
    wind_coefficients: WindCoefficients | None = None
    """Net pressure coefficients of your own, where the annex has none to offer."""
    side_wind: SideWind | None = None
    """Wind on closed sides of a roof with an open one, or with coefficients of your own."""
    wind_direction_factor: Annotated[Number, Field(ge=0.5, le=1)] = 1.0
    """Direction factor [-]; 1 unless the annex allows less and you can show it."""
    wind_season_factor: Annotated[Number, Field(ge=0.5, le=1)] = 1.0
    """Season factor [-] of a roof that stands for part of the year; below 1 say why as its note."""
    wind_return_years: Annotated[Number, Field(ge=2, le=1000)] = 50.0
    """Return period of the wind [years]; below 50 say why as its note."""
    orography_factor: Annotated[Number, Field(ge=1, le=2)] = 1.0
    """Orography factor c_o [-] on a hill, a ridge or a scarp (EN 1991-1-4, 4.3.3): ask; 1 on flat ground."""
    neighbours_height_m: Annotated[Number, Field(gt=0, le=100)] | None = None
    """Average height of close-set houses upwind [m], in a town; they lift the wind (EN 1991-1-4, A.5)."""
    neighbours_distance_m: Annotated[Number, Field(ge=0)] | None = None
    """Distance to them upwind, in the worst direction [m]."""
    wind_instantaneous: YesNo = False
    """UK only: take wind as an instantaneous action in timber."""
    rain_l_s_m2: Annotated[Number, Field(gt=0, le=0.2)] | None = None
    """Rainfall [l/s per m2] from the local map."""
    air_min_c: Annotated[Number, Field(ge=-60, le=20)] = -10.0
    """Coldest winter air [degC]."""
    air_max_c: Annotated[Number, Field(ge=0, le=60)] = 32.0
    """Hottest summer air in the shade [degC]: for the hottest sheet, where its absorptivity is given."""
    latitude_deg: Annotated[Number, Field(ge=-90, le=90)] | None = None
    """Latitude [deg]."""
    orientation_deg: Annotated[Number, Field(ge=0, lt=360)] | None = None
    """Compass direction that the roof falls towards [deg]; 180 is south."""


class House(Table):
    """The building behind the roof. Left out altogether for a free-standing roof."""

    depth_mm: Size | None = None
    """Depth of the house, square to our wall [mm]."""
    length_mm: Size | None = None
    """Length of the house along our wall [mm]."""
    wall_top_above_mm: NotNegative | None = None
    """From our roof line at the head up to the top of the wall above us: eaves, with a gable its apex [mm]."""
    lowest_wall_top_above_mm: NotNegative | None = None
    """Where the wall top rises: its lowest point over our width [mm]."""
    upper_slope_plan_mm: NotNegative | None = None
    """Plan length of the house slope that falls towards us [mm]."""
    roof_pitch_deg: Pitch | None = None
    """Pitch of the house roof [deg]."""
    roof_drains_to_us: YesNo | None = None
    """Does the house roof drain, and slide its snow, onto ours?"""
    drains_area_m2: NotNegative | None = None
    """Plan area of the house roof that drains onto ours [m2]; absent: its slope over our width."""
    drains_at_mm: Length | None = None
    """Where a pipe of it ends on our roof, from the outer face of the left rafter [mm]; absent: all along the head."""
    slides_guarded: YesNo = False
    """Is there a snow guard of declared capacity on the house roof?"""
    wall: WallKind | None = None
    """What our wall plate is fixed to."""


class Opening(Table):
    """A door, window or vent in one of the walls below."""

    wall: Literal["left", "right", "front", "back", "house"]
    """Which wall it is in; back: the high side of a free-standing roof."""
    kind: Literal["door", "window", "vent"]
    """What it is."""
    x_mm: NotNegative
    """From the wall's left end as seen from outside [mm]."""
    sill_mm: NotNegative = 0.0
    """Height of its foot over the floor [mm]."""
    width_mm: Size
    """Clear width [mm]."""
    height_mm: Size
    """Clear height [mm]."""
    opens: YesNo = True
    """Can it be opened?"""
    shut_in_storms: YesNo = True
    """Will it be shut in a storm? Then it being open is an accident."""
    dominant_factor: Annotated[Number, Field(ge=0.5, le=1)] | None = None
    """Share of the outside pressure that this opening lets in (EN 1991-1-4, 7.2.9) [-]."""


class Roof(Table):
    """The roof as it was measured or is wanted. Left and right as seen from outside, facing the wall."""

    use: Use | None = None
    """lean-to (enclosed), veranda, canopy or carport."""
    attached: YesNo = True
    """Is it fixed to a wall at the head? false: free-standing, its head on a beam with posts of its own."""
    width_mm: Size | None = None
    """Outer face of the first to the outer face of the last rafter [mm]."""
    projection_mm: Size | None = None
    """Level, from the string line at the wall, or the head beam's outer face, to the eaves beam's outer face [mm]."""
    pitch_deg: Pitch | None = None
    """Pitch [deg]; or give head_height_mm and eaves_height_mm."""
    head_height_mm: Size | None = None
    """Height of the roof line at the wall face over the datum mark [mm]."""
    eaves_height_mm: Size | None = None
    """Height of the roof line above the beam's outer face over the datum mark [mm]."""
    left: Side | None = None
    """What closes the left end: open, closed or wall (a house wall)."""
    right: Side | None = None
    """What closes the right end."""
    front: Literal["open", "closed"] | None = None
    """What closes the front under the beam."""
    back: Literal["open", "closed"] = "open"
    """What closes the high side of a free-standing roof: closed only where all sides are."""
    overhang_on_slope_mm: NotNegative = 50.0
    """Beam's outer face to the outside of the foot profile, along the slope [mm]."""
    diagonals_mm: tuple[Size, Size] | None = None
    """[left head to right foot, right head to left foot], level [mm]."""
    wall_offsets_mm: tuple[tuple[Length, Length], ...] = ()
    """Bumps of the wall: [x, offset], proud +, hollow - [mm]."""
    outline_mm: tuple[tuple[Length, Length], ...] | None = None
    """An outline other than a rectangle [[x, depth]…]; a later shape."""
    snow_held_at_foot: YesNo = False
    """Does a guard, a parapet or anything else at our foot keep the snow from sliding off?"""
    side_wall_top_above_mm: NotNegative | None = None
    """From our roof line up to the top of a side wall [mm]."""
    side_wall_depth_mm: Size | None = None
    """Depth of the building behind the side wall, square to that wall [mm]."""
    openings: tuple[Opening, ...] = ()
    """Doors, windows and vents below the roof."""


Force = Annotated[Number, Field(gt=0, le=500)]
"""A resistance [kN]."""


class Frame(Table):
    """Timber under the glazing."""

    timber: str | None = None
    """Timber of the catalogue ("timber-c24")."""
    service_class: Annotated[Whole, Field(ge=1, le=3)] | None = None
    """EN 1995-1-1, 2.3.1.3; posts are taken one wetter."""
    rafter_mm: Pair | None = None
    """[width, depth] of a rafter [mm]."""
    rafter_centres_mm: tuple[Length, ...] | None = None
    """Centres of existing rafters from the outer face of the left one [mm]: as built."""
    bay_count: Annotated[Whole, Field(ge=1, le=400)] | None = None
    """Number of bays."""
    max_bay_mm: Size | None = None
    """Widest centres wanted [mm]."""
    end_bay_mm: tuple[MaybeSize, MaybeSize] = (None, None)
    """Centres of the left and the right end bay where they differ from the rest, "-" where not [mm]."""
    purlins_at_mm: tuple[Size, ...] = ()
    """Purlins under the sheet, along the slope from the wall face [mm]."""
    head_bearer: YesNo = False
    """Is there timber under the sheet's head?"""
    foot_bearer: YesNo = False
    """Is there timber under the sheet's foot?"""
    wall_plate_mm: Pair | None = None
    """[width, depth] of the wall plate [mm]."""
    beam_mm: Pair | None = None
    """[width, depth] of the eaves beam [mm]."""
    beam_section: str | None = None
    """Steel or aluminium section of the eaves beam (catalogue); beam_mm must be its size. Absent: timber."""
    beam_web_kn: Force | None = None
    """Design resistance of a metal beam's web over a post, its end closed or stiffened: declared [kN]."""
    post_mm: Pair | None = None
    """[width, depth] of a post [mm]."""
    post_section: str | None = None
    """Steel or aluminium section of the posts (catalogue); post_mm must be its size. Absent: timber."""
    rafter_notch_mm: NotNegative = 0.0
    """Depth of a rafter's birdsmouth over the beam, square to the rafter, 0 where it has none [mm]."""
    head_notch_mm: NotNegative = 0.0
    """Depth of a rafter's birdsmouth over wall plate or head beam, square to the rafter; 0 where it has none [mm]."""
    noggin_mm: Pair | None = None
    """[width, depth] of a noggin between rafters [mm]."""
    noggins_at_mm: tuple[Size, ...] = ()
    """Noggins that hold the rafters upright, along the slope from the wall face [mm]."""
    purlin_end_kn: Force | None = None
    """Design resistance of a purlin's end on the rafter, down: declared [kN]."""
    barge_board_mm: Pair | None = None
    """[thickness, depth] of the barge board [mm]."""
    mullion_mm: Pair | None = None
    """[width seen from outside, depth] of the mullions and transoms between side sheets, of timber [mm]."""
    mullion_end_kn: Force | None = None
    """Design resistance of one end of a mullion or a transom, level, in and out: declared [kN]."""
    sill_mm: Pair | None = None
    """[width in the wall's thickness, height] of the sill under the side sheets of an end, of timber [mm]."""
    sill_fixing_spacing_mm: Size | None = None
    """Widest spacing of what fixes that sill to floor, kerb or low wall, on which it lies all along [mm]."""
    sill_fixing_kn: Force | None = None
    """Design resistance of one of these fixings, level, in and out: declared [kN]."""
    posts_at_mm: tuple[NotNegative, ...] = ()
    """Centres of the posts along the beam from the outer face of the left rafter [mm]."""
    post_feet_mm: tuple[Length, ...] = ()
    """Level of each post's foot over the datum mark [mm]."""
    head_beam_mm: Pair | None = None
    """[width, depth] of the beam under the head of a free-standing roof [mm]; absent: as beam_mm."""
    head_posts_at_mm: tuple[NotNegative, ...] = ()
    """Centres of the posts under it, as posts_at_mm [mm]; absent: as posts_at_mm."""
    head_post_feet_mm: tuple[Length, ...] = ()
    """Level of each of their feet over the datum mark [mm]."""
    wall_fixings_at_mm: tuple[NotNegative, ...] = ()
    """Fixings of the wall plate into the wall, from the outer face of the left rafter [mm]."""
    wall_fixing_spacing_mm: Size | None = None
    """Widest spacing of even wall fixings, where their places are not given [mm]."""
    wall_fixing_shear_kn: Force | None = None
    """Design resistance of one wall fixing, along the wall's face: declared, or from a pull test [kN]."""
    wall_fixing_pull_kn: Force | None = None
    """Design resistance of one wall fixing, out of the wall: declared, or from a pull test [kN]."""
    hanger_down_kn: Force | None = None
    """Design resistance of a rafter's seat or hanger at the wall plate, down: declared [kN]."""
    hanger_up_kn: Force | None = None
    """Design resistance of a rafter's hanger or tie at the wall plate, up: declared [kN]."""
    hanger_level_kn: Force | None = None
    """Design resistance of a rafter's hanger at the wall plate to a force level, out or along: declared [kN]."""
    rafter_tie_kn: Force | None = None
    """Design resistance of the tie between a rafter and the beam, up: declared [kN]."""
    rafter_tie_level_kn: Force | None = None
    """Design resistance of that tie to a force level, along the beam or square to it: declared [kN]."""
    post_tie_kn: Force | None = None
    """Design resistance of the tie between beam and post, up: declared [kN]."""
    post_tie_level_kn: Force | None = None
    """Design resistance of that tie to a force level, along the beam or square to it: declared [kN]."""
    post_base_kn: Force | None = None
    """Design resistance of a post base, up: declared [kN]."""
    post_base_level_kn: Force | None = None
    """Design resistance of a post base to a force level, whichever way: declared [kN]."""
    fasteners: tuple[Fasteners, ...] = ()
    """Nails, screws or bolts of a joint, in place of its declared resistance."""
    pad_mm: tuple[Size, Size, Size] | None = None
    """Concrete pad under each post: length, width, depth [mm]."""
    bracing: Literal["knee braces", "diagonal", "fixed feet"] | None = None
    """What holds the row of posts upright along the wall, where it is not shown by others."""
    bracing_kn: Force | None = None
    """Design resistance of the bracing along the wall at the height of the beam: declared, or shown by others [kN]."""
    bracing_across: Literal["knee braces", "fixed feet"] | None = None
    """What holds a free-standing roof upright across, from head to eaves, where it is not shown by others."""
    bracing_across_kn: Force | None = None
    """Design resistance of the bracing across at the height of the beams: declared, or shown by others [kN]."""
    knee_mm: Pair = (600.0, 600.0)
    """Knee brace, from faces: [down the post from the beam, along the beam from the post] [mm]."""
    brace_kn: Force | None = None
    """Design resistance of one brace with both its ends and holes, pulled and pressed: declared [kN]."""
    knee_bolts: Annotated[Whole, Field(ge=1, le=8)] | None = None
    """Bolts at each end of a knee brace; absent: 2, typical."""
    knee_bolt_mm: Annotated[Size, Field(ge=8, le=24)] | None = None
    """Diameter of these bolts; absent: 12, typical [mm]."""
    knee_bolt_planes: Annotated[Whole, Field(ge=1, le=2)] | None = None
    """Shear planes of each: 1 for a brace beside the post, 2 for one between two timbers; absent: 1, typical."""
    knee_brace_mm: Annotated[Size, Field(ge=20, le=200)] | None = None
    """Thickness of a knee brace, as far as its bolts go through it; absent: 47, typical [mm]."""
    knee_hole_mm: Annotated[NotNegative, Field(le=1)] | None = None
    """How much wider their holes are than they; 0 where they fit tight; absent: 1, typical [mm]."""
    sway_limit: Annotated[Number, Field(ge=50, le=1000)] | None = None
    """Height of the posts over how far knee braces or held feet let their heads sway; absent: 150, typical [-]."""
    knee_across_mm: Pair = (800.0, 800.0)
    """Knee brace from post to rafter, from where their middle lines cross: [down the post, level along] [mm]."""
    brace_across_kn: Force | None = None
    """Design resistance of one knee brace across with both its ends and holes, pulled and pressed: declared [kN]."""
    brace_across_n_mm: Annotated[Number, Field(ge=100, le=100_000)] | None = None
    """Stiffness of one knee brace across with both its ends: declared; absent: from the bolts [N/mm]."""
    knee_tie_kn: Force | None = None
    """Design resistance of the tie between a rafter with knee braces and its beam: declared; absent: rafter_tie_kn."""
    knee_head_kn: Force | None = None
    """Design resistance of the joint of post, beam and rafter to a force level across: declared [kN]."""
    knee_head_knm: Force | None = None
    """Design moment resistance of that joint against the beam rolling between post and rafter: declared [kNm]."""
    post_foot_knm: Force | None = None
    """Design moment resistance of the foot of one post, held against turning: declared [kNm]."""
    post_foot_knm_rad: Annotated[Number, Field(ge=1, le=1_000_000)] | None = None
    """Stiffness of such a foot against turning, with its pad in the ground: declared [kNm/rad]."""


class Glazing(Table):
    """Sheets, bars and what closes their edges."""

    sheet: str | None = None
    """Sheet of the catalogue."""
    bar: str | None = None
    """Bar of the catalogue."""
    tint: str | None = None
    """clear, opal, bronze … as the sheet has it."""
    left_edge: Literal["bar", "edge profile", "wall"] | None = None
    """How the roof ends on the left."""
    right_edge: Literal["bar", "edge profile", "wall"] | None = None
    """How the roof ends on the right."""
    head: Literal["between bars", "continuous"] = "between bars"
    """Head profile in pieces between the bar seats, or in one run."""
    head_profile: str | None = None
    """Head profile of the catalogue."""
    foot_profile: str | None = None
    """Foot profile of the catalogue."""
    edge_profile: str | None = None
    """Edge profile of the catalogue, where an edge has one."""
    verge_trim: str | None = None
    """Angle trim at a verge that ends on a bar."""
    sheet_least_c: Annotated[Number, Field(ge=-80, le=30)] | None = None
    """Coldest sheet [degC]; absent: air_min_c less 5."""
    sheet_fit_c: Annotated[Number, Field(ge=-20, le=60)] | None = None
    """Sheet while it is cut [degC]; absent: 12, typical."""
    sheet_most_c: Annotated[Number, Field(ge=20, le=100)] | None = None
    """Hottest sheet [degC]; absent: 60, or 75 for bronze, dark or enclosed."""
    sheet_absorptivity: Annotated[Number, Field(ge=0, le=0.9)] | None = None
    """Share of the sun that the sheet keeps [-]: then EN 1991-1-5 with air_max_c counts too, if it is hotter."""
    sheet_temperature_c: Annotated[Number, Field(ge=-20, le=60)] | None = None
    """Measured on the sheet while cutting [degC]: replaces sheet_fit_c."""
    gap_residual_mm: tuple[NotNegative, NotNegative] = (1.0, 3.0)
    """Gap left on the hottest day at a side and at the head [mm]."""
    gap_mm: NotNegative | None = None
    """A gap of your own at each side [mm]: replaces the computed one and is then checked."""


class GutterKeys(Table):
    """Water off the foot."""

    item: str | None = None
    """Gutter of the catalogue."""
    drip_window: tuple[Share, Share] = (0.333, 0.5)
    """Where the drip may fall: shares of the gutter's inside width from the beam's outer face."""
    outlets_at_mm: tuple[NotNegative, ...] = ()
    """Outlets from the outer face of the left rafter [mm]."""
    fall: Fall | None = None
    """Fall of the gutter, "1:350"."""
    bend_deg: Annotated[Number, Field(ge=0, le=180)] | None = None
    """Sharpest turn of the gutter on the way to an outlet [deg]; absent: straight."""
    leaf_guard: YesNo = False
    """Is there a guard over the outlets? It halves what they take."""


class Screws(Table):
    """Bar to rafter."""

    bar_screw: str | None = None
    """Screw of the catalogue."""
    spacing_mm: Annotated[Size, Field(ge=40, le=2000)] | None = None
    """Spacing of the screws [mm]; closer than 40 the timber splits (7 d: EN 1995-1-1, Table 8.6)."""
    closer_mm: tuple[tuple[Size, Annotated[Size, Field(ge=40, le=2000)]], ...] = ()
    """Stretches with closer screws, from a bar's foot: [up to so far from the foot, spacing]; beyond: spacing_mm."""
    spacing_between: Literal["successive holes", "holes on one side"] | None = None
    """What the spacing is counted between; ask."""


class Offcut(Table):
    """A sheet or length already on the rack."""

    item: str
    """Product of the catalogue it was cut from."""
    mark: str = ""
    """What is written on it."""
    width_mm: Size | None = None
    """Width [mm]; absent for a length."""
    length_mm: Size
    """Length [mm]."""
    first_rib_mm: NotNegative | None = None
    """From its left edge to the first upright rib [mm]."""
    tint: str | None = None
    """Its tint."""
    worth: Money = Decimal(0)
    """What it is worth on the rack: used only where that saves more."""


class StockSize(Table):
    """One stock size that may be used."""

    item: str
    """Product of the catalogue."""
    width_mm: Size | None = None
    """Width [mm]; absent for a length."""
    length_mm: Size | None = None
    """Length [mm]."""


class Stock(Table):
    """What there is to cut from, and how."""

    offcuts: tuple[Offcut, ...] = ()
    """Offcuts in hand."""
    only: tuple[StockSize, ...] = ()
    """Only these sizes of the products named here."""
    longest_mm: Size | None = None
    """Longest piece that reaches the site: gate, stairs, van [mm]."""
    sheet_kerf_mm: Annotated[Whole, Field(ge=0, le=20)] = 3
    """Saw kerf in sheet [mm]."""
    bar_kerf_mm: Annotated[Whole, Field(ge=0, le=20)] = 4
    """Saw kerf in bars, profiles and timber [mm]."""
    plumb_cuts: Literal["on site", "at the saw"] = "on site"
    """Where rafters get their plumb cuts: square blanks, cut on site; or at the saw, where neighbours share a cut."""
    order_reserve_mm: tuple[NotNegative, NotNegative] = (5.0, 15.0)
    """What a stock size to be cut must exceed the piece by, [width, length], until the frame is measured [mm]."""
    aim: Literal["least cost", "fewest sheets"] = "least cost"
    """What the cutting aims at; fewest sheets: as few sheets and lengths bought as can be, then least cost."""
    keep_mm: Pair = (300.0, 300.0)
    """Least width and length of a rest of sheet worth keeping [mm]; 300: common practice, no source."""
    keep_length_mm: Size = 300.0
    """Least length of a rest of a bar, profile or timber worth keeping [mm]; 300: common practice, no source."""
    keep_share: Share = 0.0
    """What a kept rest counts for, as a share of what its area or length costs to buy [-]; 0: nothing."""
    saw_bench: bool = False
    """Whether the direction of the cuts may change only twice on a sheet."""
    search_effort: Annotated[Whole, Field(ge=1, le=1000)] = 1
    """Times the usual work with which a cheaper cutting plan is looked for, and up to so many times as long [-]."""


class PriceKeys(Table):
    """Overrides of the firm's figures for this job."""

    margin: Share | None = None
    """Profit as a share of the net price [-]."""
    tax_rate: Annotated[Number, Field(ge=0, le=1)] | None = None
    """Tax on the net price [-]."""
    currency: str | None = None
    """Sign before an amount."""
    stages: tuple[tuple[str, Share], ...] | None = None
    """Payments: name and share."""
    extra: tuple[tuple[str, Money], ...] = ()
    """Further costs of this job: travel, hire, skip, permits."""


class SideSheet(Table):
    """A sheet of the roof's kind that closes a part of a side below the roof, flutes upright, its foot level.

    Those of a side stand in the list from left to right as seen from outside, one over another right after it.
    """

    side: Wall
    """Which side of the roof it closes."""
    width_mm: Size
    """Clear width of the opening in the frame, level, least of several readings [mm]."""
    left_mm: Size
    """Clear height of the opening at its left end, seen from outside [mm]."""
    right_mm: Size
    """Clear height at its right end [mm]. Once all three bear the mark "measured", stock needs no reserve over it."""
    over: YesNo = False
    """Does it stand over the sheet before it in this list, a transom between them?"""


class Found(Table):
    """Something on or near the wall that has to be dealt with."""

    kind: str
    """flue, air brick, escape window, overhead line, unknown board …"""
    x_mm: Length | None = None
    """From the outer face of the left rafter [mm]."""
    height_mm: Length | None = None
    """Over the datum mark [mm]."""
    action: str = ""
    """What is to be done about it."""
    asked: str = ""
    """Who was asked, and when."""
    answered_by: str = ""
    """Who answered, and when."""


class Option(Table):
    """A whole alternative, solved with its own checks."""

    name: str
    """What the customer calls it."""
    set: dict[str, Any]
    """Key paths and their other values."""
    says: str = ""
    """What it does, in a few words."""


class HoldReading(Table):
    """One line of a hold point, as ticked on the site page."""

    hold: Literal["A", "B", "C", "D"]
    """Which hold."""
    item: str
    """Which line of it."""
    ok: YesNo
    """Held?"""
    reading: str = ""
    """What was read."""
    by: str = ""
    """Who."""
    on: str = ""
    """When."""


class Measured(Table):
    """The frame as it was measured after it stood. Never overwrites the survey."""

    rafter_centres_mm: tuple[tuple[Length, Length], ...] = ()
    """[head, foot] of each rafter's centre [mm]."""
    between_stems_mm: tuple[tuple[MaybeSize, MaybeSize, MaybeSize], ...] = ()
    """[head, middle, foot] between the stems of each bay [mm], "-" where not read; counts before centres."""
    slope_lengths_mm: tuple[MaybeSize, ...] = ()
    """Per bay, wall face to beam face along the rafter tops [mm], "-" where not read."""
    diagonals_mm: tuple[Size, Size] | None = None
    """[left head to right foot, right head to left foot], level [mm]."""
    side_openings_mm: tuple[tuple[MaybeSize, MaybeSize, MaybeSize], ...] = ()
    """[width, left, right] of each opening of [[side_sheets]] [mm], "-" where not read; counts before those."""
    holds: tuple[HoldReading, ...] = ()
    """Hold points."""
    sheet_temperature_c: Annotated[Number, Field(ge=-20, le=60)] | None = None
    """On the sheet while cutting [degC]."""
    by: str = ""
    """Who measured."""
    on: str = ""
    """When."""


_BARE: Given[Any] = Given(value=None)


class Job(Table):
    """One roof: everything that was measured, given and wanted."""

    format: Literal[1] = 1
    """Version of this file's format."""
    name: str = ""
    """What the job is called."""
    reference: str = ""
    """Short reference, on every page and label."""
    revision: str = "A"
    """Revision letter, on every page and label."""
    catalogues: tuple[str, ...] = ()
    """Catalogue files of your own, relative to this file; later ones win."""
    firm: str | None = None
    """Your firm's file, relative to this file: copy firm.toml out of any pack and change all of it."""
    dates: Dates = Dates()
    people: People = People()
    site: Site = Site()
    house: House | None = None
    roof: Roof = Roof()
    frame: Frame = Frame()
    glazing: Glazing = Glazing()
    gutter: GutterKeys = GutterKeys()
    screws: Screws = Screws()
    stock: Stock = Stock()
    side_sheets: tuple[SideSheet, ...] = ()
    price: PriceKeys = PriceKeys()
    found: tuple[Found, ...] = ()
    options: tuple[Option, ...] = ()
    measured: Measured = Measured()

    _marks: Marks = PrivateAttr(default_factory=lambda: MappingProxyType({}))

    @property
    def marks(self) -> Marks:
        """Mark of each value by key path; a value that stands bare is not listed and counts as given."""
        return self._marks

    def mark_of(self, path: str) -> Given[Any]:
        """The mark of one value; "given" where it stands bare.

        Examples
        --------
        >>> Job().mark_of("roof.width_mm").mark
        'given'
        """
        return self._marks.get(path, _BARE)

    def with_marks(self, marks: Marks) -> Job:
        """The same job with these marks beside its values."""
        other = self.model_copy()
        other._marks = MappingProxyType(dict(marks))
        return other
