"""The design as JSON: a contract. Its schema is made from these models and shipped."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict


class Part(BaseModel):
    """A frozen table of the design that refuses what it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


Verdict = Literal["passes", "fails", "refused", "not checked"]
Point = tuple[float, float]


class Choice(Part):
    """Something that was chosen because nobody gave it."""

    what: str
    value: Any
    why: str


class Summary(Part):
    """The verdicts in one glance."""

    verdict: Verdict
    counts: dict[str, int]
    complete: bool
    governing: list[str]


class SnowPoint(Part):
    """Snow at one place of a plane [kN/m2 of plan]."""

    plane: str
    x_mm: float
    y_mm: float
    kn_m2: float


class SnowCase(Part):
    """One arrangement of snow."""

    name: str
    situation: str
    points: list[SnowPoint]


class Snow(Part):
    """Snow on the ground and on the roof."""

    ground_kn_m2: float
    cases: list[SnowCase]


class ZoneCase(Part):
    """Pressure in one zone in one wind: coefficients for 10 and 1 m2 with the inside taken off, and pressures."""

    name: str
    situation: str
    c_10: float
    c_1: float
    kn_m2_10: float
    kn_m2_1: float


class Zone(Part):
    """A rectangle of the roof on plan."""

    name: str
    plane: str
    outline_mm: list[Point]
    cases: list[ZoneCase]


class WholeRoofWind(Part):
    """Wind on the whole roof at once: a force square to the slope [kN] and where, on plan; a drag along it [kN]."""

    name: str
    force_kn: float | None
    at_mm: Point | None
    drag_kn: float
    drag_along: str


class Wind(Part):
    """Wind on the roof; refused names what is missing."""

    peak_pressure_kn_m2: float | None
    reference_height_m: float | None
    refused: str
    zones: list[Zone]
    whole: list[WholeRoofWind]


class Dead(Part):
    """Self-weight."""

    sheet_kn_m2: float
    bar_kn_m: float
    rafter_kn_m: float


class Imposed(Part):
    """Category H."""

    area_kn_m2: float | None
    point_kn: float | None
    refused: str


class Combination(Part):
    """Factors of one combination."""

    name: str
    clause: str
    kind: str


class Loads(Part):
    """What acts on the roof."""

    snow: Snow
    wind: Wind
    dead: Dead
    imposed: Imposed
    combinations: list[Combination]


class Step(Part):
    """One line of working."""

    says: str
    formula: str
    numbers: str
    result: float | str
    unit: str
    clause: str


class Window(Part):
    """Least, most and cut size [mm]."""

    least: float
    most: float
    cut: float
    uncut: bool


class Cover(Part):
    """Lap at the head [mm]."""

    needed: float
    there: float


class EdgeFit(Part):
    """How an edge is held [mm]."""

    held_by: str
    gap_mm: float
    bite_fitted_mm: float
    bite_cold_mm: float
    bite_loaded_mm: float | None
    cover_mm: Cover | None
    rib_at_mm: float | None


class Edges(Part):
    """The four edges of a bay's sheet."""

    left: EdgeFit
    right: EdgeFit
    head: EdgeFit
    foot: EdgeFit


class BetweenStems(Part):
    """Clear width of a bay [mm]."""

    head: float
    middle: float
    foot: float


class Bay(Part):
    """One bay."""

    id: str
    number: int
    outline_mm: list[Point]
    between_stems_mm: BetweenStems
    width_mm: Window
    length_mm: Window
    edges: Edges
    working: list[Step]


class Rafter(Part):
    """One rafter."""

    number: int
    centre_head_mm: float
    centre_foot_mm: float
    width_mm: float


class BarHole(Part):
    """One hole of a bar, from its FOOT [mm]."""

    at_mm: float
    side: Literal["L", "R"]


class Bar(Part):
    """One bar."""

    id: str
    rafter: int
    base_mm: float
    cap_mm: float
    holes: list[BarHole]


class Plane(Part):
    """One roof plane in its own frame."""

    id: str
    pitch_deg: float
    origin_mm: tuple[float, float, float]
    slope_length_mm: float
    outline_mm: list[Point]
    rafters: list[Rafter]
    bays: list[Bay]
    bars: list[Bar]


class SettingOut(Part):
    """True sizes."""

    planes: list[Plane]


class Place(Part):
    """Where a check looks."""

    plane: str
    bay: int | None
    rafter: int | None
    bar: int | None
    """A bar that carries by itself, in a rafter's place."""
    post: int | None
    side_sheet: int | None
    at: str


class RestsOn(Part):
    """One input of a check with its mark."""

    input: str
    value: Any
    mark: str


class Check(Part):
    """One requirement."""

    id: str
    name: str
    member: str
    place: Place
    clause: str
    edition: str
    case: str
    demand: float | None
    capacity: float | None
    unit: str
    utilisation: float | None
    verdict: Verdict
    typical: bool
    says: str
    rests_on: list[RestsOn]
    working: list[Step]
    cure: str


class PieceEdge(Part):
    """One edge of a piece."""

    word: str
    held_by: str
    cut: str
    tape: str


class EndCut(Part):
    """How an end is cut [deg]."""

    across_deg: float
    bevel_deg: float


class PieceMark(Part):
    """A mark on a piece."""

    at_mm: float
    edge: str
    text: str


class Hole(Part):
    """A hole in a piece."""

    x_mm: float
    y_mm: float
    width_mm: float
    length_mm: float
    for_: str


class SidePart(Part):
    """A side sheet within its blank: its outline there, its own sizes as it stands, seen from outside [mm]."""

    id: str
    name: str
    side: str
    outline_mm: list[Point]
    turned: bool
    width_mm: float
    left_mm: float
    right_mm: float


class Piece(Part):
    """One thing to be cut."""

    id: str
    plane: str
    bay: int | None
    item: str
    kind: Literal["sheet", "length"]
    outline_mm: list[Point]
    edges: list[PieceEdge]
    rib_at_mm: tuple[float, float] | None
    width_mm: float
    length_mm: float
    end_cuts: list[EndCut]
    back_mm: float | None
    """Along the back from cut to cut, where both ends are cut plumb at the saw [mm]."""
    one_piece: bool
    marks: list[PieceMark]
    holes: list[Hole]
    side_parts: list[SidePart]


class Placement(Part):
    """Where a piece lies on its sheet [mm]."""

    piece: str
    x_mm: int
    y_mm: int
    width_mm: int
    length_mm: int
    turned_180: bool
    rib_at_mm: tuple[float, float]


class Cut(Part):
    """One cut [mm]; at_mm is its near side, the kerf lies beyond."""

    number: int
    kind: str
    at_mm: int
    from_mm: int
    to_mm: int
    part: str
    """What it is cut from: "sheet", or a part that came off it, "part A"."""
    part_width_mm: int
    part_length_mm: int
    stop_mm: int
    """Where the stop is set: from the head (crosscut) or the left edge (rip) of that part."""
    gets: str
    """What comes off at the stop: a piece, a part that is cut again, or nothing said for a rest."""
    leaves: str
    """What lies beyond the cut, likewise."""


class SheetPlan(Part):
    """One sheet of stock."""

    stock: str
    item: str
    width_mm: int
    length_mm: int
    price: str
    placements: list[Placement]
    cuts: list[Cut]


class LengthPlacement(Part):
    """Where a piece begins on its length and how long it is [mm], along the upper edge; its lower edge lies lean_mm
    further on where its ends lean from square [deg]."""

    piece: str
    at_mm: int
    length_mm: int
    lean_mm: int
    end_deg: float


class LengthPlan(Part):
    """One length of stock."""

    item: str
    length_mm: int
    price: str
    pieces: list[LengthPlacement]


class Offcut(Part):
    """What is left and worth keeping [mm]."""

    item: str
    width_mm: int | None
    length_mm: int


class Cutting(Part):
    """The cutting with its aim and its bound: no plan costs less, net of the credit of its rests."""

    sheets: list[SheetPlan]
    lengths: list[LengthPlan]
    aim: str
    cost: str
    credit: str
    bound: str
    proven: bool
    waste_area_m2: float
    offcuts: list[Offcut]


class OrderLine(Part):
    """One line of the order."""

    item: str
    code: str
    description: str
    quantity: float
    unit: str
    pack: float
    packs: int
    spare: float
    unit_price: str
    price: str
    price_on: str
    pieces: list[str]
    why: str
    mark: str


class Price(Part):
    """The quote in figures; money is the string of a Decimal."""

    materials: str
    labour_hours: float
    labour: str
    overhead: str
    cost: str
    margin: float
    markup: float
    net: str
    tax: str
    gross: str
    stages: list[tuple[str, str]]


class Caution(Part):
    """Something to mind, and whom to ask."""

    text: str
    why: str
    ask: str


class Drawing(Part):
    """A drawing of the pack."""

    name: str
    page: str
    scale: str


class DesignModel(Part):
    """Everything that one job comes to. Numbers are rounded to 1e-6 of their unit."""

    format: Literal[1]
    engine: str
    job: dict[str, Any]
    choices: list[Choice]
    summary: Summary
    loads: Loads
    setting_out: SettingOut
    checks: list[Check]
    pieces: list[Piece]
    cutting: Cutting | None
    """None where it is shared with other jobs: see ``shared``."""
    order: list[OrderLine] | None
    """None where it is shared with other jobs: see ``shared``."""
    shared: str = ""
    """Where the cutting and order lie that several jobs share; nothing where the job has its own."""
    price: Price
    cautions: list[Caution]
    drawings: list[Drawing]
