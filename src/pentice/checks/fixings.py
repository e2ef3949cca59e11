"""What holds the glazing down: bar screws by zone, their distances in the rafter, the cap, the edge profile."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.ground import JUDGEMENT, PRACTICE, Ground, Rule, Shown, compared, open_check
from pentice.checks.rafter_loads import strip_of
from pentice.checks.rafter_shown import service_class
from pentice.checks.sheet_area import loaded_sheet
from pentice.checks.values import Check, LoadPicture, Place, RestsOn
from pentice.errors import OutsideScope
from pentice.loads.combine import Combination
from pentice.loads.lines import wind_line
from pentice.loads.on_sheet import SheetArea, worst_wind
from pentice.mechanics.lines import LineLoad, even_line, summed_line
from pentice.setting_out.values import Bar, BarHole, Rafter
from pentice.standards.en338 import strength_class
from pentice.standards.en1995 import Duration, k_mod
from pentice.standards.en1995_screws import (
    declared_withdrawal_n,
    inside_screw_formula,
    least_timber_mm,
    screw_design_n,
    screw_distances,
    screw_pull_n,
    widest_hole_gauge_mm,
    withdrawal_n,
)
from pentice.working import Step

PRYING = 1.5
"""How much harder a screw beside the stem is pulled: typical, judgement, no source."""
GAMMA_CAP = 1.25
"""Partial factor on a declared hold of aluminium: as gamma_M2 of EN 1999-1-1; that a cap takes it is judgement."""

_SCREW = Rule(
    id="bar-screw-uplift",
    name="Bar screw, uplift by zone",
    member="bar screw",
    clause="EN 1995-1-1, 8.7.2",
    unit="N",
    edition="EN 1995-1-1:2004+A1:2008",
)
_EDGE = Rule(
    id="bar-screw-edge",
    name="Rafter width for the bar's holes",
    member="bar screw",
    clause="EN 1995-1-1, Table 8.6",
    unit="mm",
)
_END = Rule(
    id="bar-screw-end",
    name="Bar screw, end distance",
    member="bar screw",
    clause="EN 1995-1-1, Table 8.6",
    unit="mm",
)
_REACH = Rule(
    id="bar-screw-foot",
    name="First screw to the sheet's foot",
    member="bar screw",
    clause="common practice, no source",
    unit="mm",
)
_SPACING = Rule(
    id="bar-screw-spacing",
    name="What the screw spacing is counted between",
    member="bar screw",
    clause="supplier's instructions",
    unit="mm",
)
_CAP = Rule(
    id="cap-hold", name="Cap hold, uplift", member="bar cap", clause="declared hold / 1.25", unit="N/m"
)
_EDGE_PROFILE = Rule(
    id="edge-hold",
    name="Edge profile hold, uplift",
    member="edge profile",
    clause="declared hold / 1.25",
    unit="N/m",
)


def fixing_checks(ground: Ground) -> Iterator[Check]:
    """Every check of screws, caps and edge profiles.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        Forces [N], [N/m], distances [mm].

    Source
    ------
    EN 1995-1-1, 8.7.2; declared holds; prying by judgement.
    """
    plane = ground.setting_out.plane
    rafters = {rafter.number: rafter for rafter in plane.rafters}
    for bar in plane.bars:
        yield _screws(ground, bar, rafters[bar.rafter])
    yield from _distances(ground)
    for bay in plane.bays:
        yield _cap(ground, bay.number)
    for rafter, bay in ((plane.rafters[0], plane.bays[0]), (plane.rafters[-1], plane.bays[-1])):
        if not rafter.has_bar:
            yield _edge_hold(ground, bay.number, rafter)


# Screws


def _uplift_combinations(ground: Ground) -> tuple[Combination, ...]:
    return tuple(c for c in ground.loads.combinations if c.kind == "uplift")


def _screws(ground: Ground, bar: Bar, rafter: Rafter) -> Check:
    place = Place(rafter=bar.rafter)
    if ground.loads.wind.refused:
        return open_check(_SCREW, place, "refused", Shown(says=ground.loads.wind.refused))
    pull = _greatest_pull(ground, bar, rafter)
    inputs = (
        ground.of_screw("d_mm"),
        ground.of_screw("thread_mm"),
        RestsOn(input="prying factor", value=PRYING, mark="typical"),
        ground.of_wind(),
    )
    held = _screw_resistance(ground, k_mod(service_class(ground), pull.duration))
    if isinstance(held, str):
        shown = Shown(says=held, rests_on=inputs, cure="A 6 mm screw with declared values.")
        return open_check(_SCREW, place, "refused", shown, demand=pull.newton, case=pull.words)
    resistance, steps, more = held
    shown = Shown(
        rests_on=(*inputs, *more),
        working=(*_pull_steps(pull), *steps),
        picture=_pull_picture(bar, pull),
        cure="Closer screws, a longer screw, or a bar with more hold.",
    )
    return compared(_SCREW, place, demand=pull.newton, capacity=resistance, case=pull.words, shown=shown)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pull:
    """The most that any one screw of a bar is pulled, and how it comes about."""

    newton: float
    hole: BarHole
    length_mm: float
    """Of bar that this screw holds."""
    words: str
    duration: Duration
    dead: tuple[float, float] = (0.0, 0.0)
    """Factor and weight along the bar [kN/m]."""
    wind: tuple[float, float] = (0.0, 0.0)
    """Factor and mean wind along the bar [kN/m], down positive."""
    line: LineLoad = ()
    """The whole of it along the bar from the wall face [mm, kN/m]."""


def _pull_steps(pull: _Pull) -> tuple[Step, ...]:
    (f_g, g), (f_w, w) = pull.dead, pull.wind
    along = -(f_g * g + f_w * w)
    return (
        Step(
            says="Uplift along the bar at the worst screw",
            formula=f"{f_w:g} w - {f_g:g} g",
            numbers=f"{f_w:g} x {-w:.4f} - {f_g:g} x {g:.4f}; w the mean over its own length, both bays",
            result=along,
            unit="kN/m",
            clause="EN 1990; wind for 1 m²",
        ),
        Step(
            says="Uplift that this screw holds",
            formula="uplift * its own length * prying",
            numbers=f"{along:.4f} x {pull.length_mm:.1f} x {PRYING:g}; the hole {pull.hole.at_mm:.0f} from the foot",
            result=pull.newton,
            unit="N",
            clause=f"each screw its own length; prying {JUDGEMENT}",
        ),
    )


def _pull_picture(bar: Bar, pull: _Pull) -> LoadPicture:
    """Along the bar from the head, with its screws and what the worst one holds."""
    end = max((x for x, _ in pull.line), default=0.0)
    held = tuple(sorted(end - hole.at_mm for hole in bar.holes if hole.at_mm < end))
    force = (end - pull.hole.at_mm, pull.newton / 1000.0, "kN") if pull.newton > 0.0 else None
    return LoadPicture(
        says="Along the bar, uplift on it and its screws",
        line=pull.line,
        unit="kN/m",
        held_mm=held,
        ends=("head", "foot"),
        force=force,
    )


def _greatest_pull(ground: Ground, bar: Bar, rafter: Rafter) -> _Pull:
    """The most that any one screw of a bar is pulled, by which case, and for how long it lasts."""
    strip = strip_of(ground, rafter, area_m2=1.0)
    dead = ground.loads.dead
    weight = (dead.sheet_kn_m2 * strip.width_mm * 1e-3 + dead.bar_kn_m) * ground.shape.cos_pitch
    peak = ground.loads.wind.peak_pressure_kn_m2 or 0.0
    first = bar.holes[0]
    best = _Pull(
        newton=0.0, hole=first, length_mm=_own_length(bar, first), words="no uplift here", duration="short"
    )
    for c in _uplift_combinations(ground):
        for case in ground.loads.wind.cases:
            if (case.situation == "accidental") != c.wind_accidental:
                continue
            blown = wind_line(case, peak, strip)
            line = summed_line([(c.dead, even_line(strip.length_mm, weight)), (c.wind, blown)])
            for hole in bar.holes:
                low, high = _own_reach(bar, hole)
                lift = -_over(line, strip.length_mm - high, strip.length_mm - low)
                newton = screw_pull_n(lift / (high - low), high - low, PRYING)
                if newton > best.newton:
                    part = -lift / (high - low)
                    best = _Pull(
                        newton=newton,
                        hole=hole,
                        length_mm=high - low,
                        words=f"{c.name}: {case.name}",
                        duration=c.duration,
                        dead=(c.dead, weight),
                        wind=(c.wind, (part - c.dead * weight) / c.wind),
                        line=line,
                    )
    return best


def _over(line: LineLoad, start_mm: float, end_mm: float) -> float:
    """Integral of a line load between two places from the wall face [N]."""
    total = 0.0
    for (a, qa), (b, qb) in pairwise(line):
        low, high = max(a, start_mm), min(b, end_mm)
        if high > low and b > a:
            slope = (qb - qa) / (b - a)
            total += (high - low) * (qa + slope * ((low + high) / 2.0 - a))
    return total


def _screw_resistance(
    ground: Ground, factor: float
) -> tuple[float, tuple[Step, ...], tuple[RestsOn, ...]] | str:
    """Design resistance of one screw: withdrawal, pull-through of the seat, tension; or what is missing."""
    screw, bar, timber = (
        ground.parts.screw,
        ground.parts.bar,
        strength_class(ground.parts.timber.strength_class),
    )
    grip = min(screw.thread_mm, screw.length_mm - (bar.seat_thickness_mm or 0.0))
    missing = [
        f"{name} ({key})"
        for name, key, value in (
            ("screw tension", f"screws.{screw.id}.f_tens_n", screw.f_tens_n),
            ("pull-through of the seat", f"bars.{bar.id}.pull_through_n", bar.pull_through_n),
        )
        if value is None
    ]
    depth = ground.setting_out.plane.rafters[0].depth_mm
    if depth < least_timber_mm(screw.d_mm):
        needed = least_timber_mm(screw.d_mm)
        return f"The rafter is {depth:g} deep; {needed:g} (12 d) is needed for these rules. A deeper rafter."
    try:
        withdrawal, numbers, more = _withdrawal(ground, grip, timber.rho_k_kg_m3)
    except OutsideScope as refusal:
        return str(refusal)
    if missing or screw.f_tens_n is None or bar.pull_through_n is None:
        return f"Refused: not declared: {', '.join(missing)}. Ask the supplier."
    timber_part = screw_design_n(timber_n=withdrawal, steel_n=screw.f_tens_n, k_mod=factor)
    seat = bar.pull_through_n / GAMMA_CAP
    steps = (
        Step(
            says="Withdrawal",
            formula="F_ax,Rk = f_ax,k d l_ef (rho_k / rho_a)^{0.8}"
            if screw.f_ax_n_mm2 is not None and screw.rho_a_kg_m3 is not None
            else "F_ax,Rk = 0.52 d^{-0.5} l_ef^{-0.1} rho_k^{0.8} d l_ef k_d",
            numbers=numbers,
            result=withdrawal,
            unit="N",
            clause="EN 1995-1-1, 8.7.2",
        ),
        Step(
            says="Design resistance of one screw",
            formula="the least of withdrawal, tension and pull-through",
            numbers=(
                f"min({factor:g} x {withdrawal:.1f} / 1.3, {screw.f_tens_n:g} x min({factor:g} / 1.3, 1 / 1.25), "
                f"{bar.pull_through_n:g} / 1.25)"
            ),
            result=min(timber_part, seat),
            unit="N",
            clause="EN 1995-1-1, 2.4.3, 8.7.2",
        ),
    )
    return (
        min(timber_part, seat),
        steps,
        (*more, ground.of_screw("f_tens_n"), ground.of_bar("pull_through_n")),
    )


def _withdrawal(ground: Ground, grip: float, rho_k: float) -> tuple[float, str, tuple[RestsOn, ...]]:
    """Characteristic withdrawal [N], its arithmetic, and what it rests on."""
    screw = ground.parts.screw
    if screw.f_ax_n_mm2 is not None and screw.rho_a_kg_m3 is not None:
        declared = declared_withdrawal_n(
            thread_mm=screw.d_mm,
            length_mm=grip,
            f_ax_n_mm2=screw.f_ax_n_mm2,
            rho_a_kg_m3=screw.rho_a_kg_m3,
            rho_k_kg_m3=rho_k,
        )
        numbers = (
            f"{screw.f_ax_n_mm2:g} x {screw.d_mm:g} x {grip:g} x ({rho_k:g} / {screw.rho_a_kg_m3:g})^0.8"
        )
        return declared, numbers, (ground.of_screw("f_ax_n_mm2"),)
    if not inside_screw_formula(screw.d_mm, screw.root_mm):
        raise OutsideScope(
            f"The screw, {screw.d_mm:g} mm with a root of {screw.root_mm:g}, is outside 6 to 12 mm and 0.6 to 0.75 "
            f"(EN 1995-1-1, 8.7.2): declare screws.{screw.id}.f_ax_n_mm2, or take a 6 mm screw."
        )
    formula = withdrawal_n(thread_mm=screw.d_mm, root_mm=screw.root_mm, length_mm=grip, rho_k_kg_m3=rho_k)
    d = screw.d_mm
    numbers = f"0.52 x {d:g}^(-0.5) x {grip:g}^(-0.1) x {rho_k:g}^0.8 x {d:g} x {grip:g} x min({d:g} / 8, 1)"
    return formula, numbers, (ground.of_screw("root_mm"),)


def _distances(ground: Ground) -> Iterator[Check]:
    """Edge and end distances, the reach of the first screw, and what the spacing means."""
    parts, plane = ground.parts, ground.setting_out.plane
    screw, bar, rafter = parts.screw, parts.bar, plane.rafters[0]
    least = screw_distances(screw.d_mm)
    yield compared(
        _EDGE,
        Place(),
        demand=bar.hole_gauge_mm,
        capacity=widest_hole_gauge_mm(rafter.width_mm, screw.d_mm),
        case="holes on both sides of the stem",
        shown=Shown(
            rests_on=(ground.of_bar("hole_gauge_mm"), ground.of_screw("d_mm")),
            working=(
                Step(
                    says="Widest gauge",
                    formula="rafter width - 2 * 4 d",
                    numbers=f"{rafter.width_mm:g} - 8 x {screw.d_mm:g}",
                    result=widest_hole_gauge_mm(rafter.width_mm, screw.d_mm),
                    unit="mm",
                    clause="EN 1995-1-1, Table 8.6",
                ),
            ),
            cure="A wider rafter, or a thinner screw with a declared withdrawal.",
        ),
    )
    first = min(b.holes[0].at_mm for b in plane.bars) - ground.shape.overhang_mm
    yield compared(
        _END,
        Place(at="foot"),
        demand=least.end_mm,
        capacity=first,
        case="first hole from the rafter's end",
        shown=Shown(
            rests_on=(ground.of_screw("d_mm"),),
            working=(
                _step(
                    "Distance needed", "10 d", f"10 x {screw.d_mm:g}", least.end_mm, "EN 1995-1-1, Table 8.6"
                ),
                _step(
                    "Distance there",
                    "first hole - overhang",
                    f"{first + ground.shape.overhang_mm:.2f} - {ground.shape.overhang_mm:g}",
                    first,
                    "geometry",
                ),
            ),
            cure="Move the first hole up the slope.",
        ),
    )
    foot = parts.foot_profile
    sheet_foot = foot.back_mm + foot.drain_gap_mm
    reach = max(b.holes[0].at_mm for b in plane.bars) - sheet_foot
    asked = max(b.asked_mm for b in plane.bars)
    yield compared(
        _REACH,
        Place(at="foot"),
        demand=reach,
        capacity=asked / 2.0,
        case="not more than half a spacing",
        shown=Shown(
            working=(
                _step(
                    "From the sheet's foot to the first screw",
                    "first hole - back of the foot profile - drain gap",
                    f"{reach + sheet_foot:.2f} - {foot.back_mm:g} - {foot.drain_gap_mm:g}",
                    reach,
                    "geometry",
                ),
                _step("Half a spacing", "spacing / 2", f"{asked:g} / 2", asked / 2.0, PRACTICE),
            ),
            cure="Less overhang, or a first hole nearer to the foot.",
        ),
    )
    if ground.job.screws.spacing_between is None and bar.screw_spacing_between is None:
        says = (
            f"{ground.job.screws.spacing_mm or bar.screw_spacing_mm or 400:g} mm, but between successive holes, or on "
            "one side? Ask the supplier. Drawn and ordered by the closer reading."
        )
        yield open_check(_SPACING, Place(), "refused", Shown(says=says, cure="Give screws.spacing_between."))


def _step(says: str, formula: str, numbers: str, result: float, clause: str) -> Step:
    return Step(says=says, formula=formula, numbers=numbers, result=result, unit="mm", clause=clause)


# Caps and edge profiles


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lift:
    """Design uplift on a sheet, its case in words, and its arithmetic."""

    kn_m2: float
    words: str
    steps: tuple[Step, ...] = ()


def _lift_kn_m2(ground: Ground, bay_number: int, *, end_area: bool = False) -> _Lift:
    """Design uplift on the sheet of a bay, worst zone that touches it, and its case."""
    bay = ground.setting_out.plane.bays[bay_number - 1]
    xs = [x for x, _ in bay.outline_mm]
    slope, cos = bay.outline_mm[2][1], ground.shape.cos_pitch
    area = SheetArea(
        x_mm=(min(xs), max(xs)),
        y_mm=(0.0, slope * cos),
        cos_pitch=cos,
        area_m2=1.0 if end_area else bay.centres_mm * slope * 1e-6,
    )
    best = _Lift(kn_m2=0.0, words="no uplift here")
    weight = ground.loads.dead.sheet_kn_m2 * cos
    for c in _uplift_combinations(ground):
        wind = worst_wind(
            ground.loads, area, upward=True, situation="accidental" if c.wind_accidental else "persistent"
        )
        if wind is None:
            continue
        lift = -(c.dead * weight + c.wind * wind[1])
        if lift > best.kn_m2:
            step = Step(
                says="Uplift on the sheet",
                formula=f"{c.wind:g} w - {c.dead:g} g",
                numbers=f"{c.wind:g} x {-wind[1]:.4f} - {c.dead:g} x {weight:.4f}; w = c q_p of the worst zone",
                result=lift,
                unit="kN/m2",
                clause="EN 1990; worst zone on the whole sheet",
            )
            best = _Lift(kn_m2=lift, words=f"{c.name}: {wind[0]}", steps=(step,))
    return best


def _half_bays(left_mm: float, right_mm: float, kn_m2: float, held: str) -> LoadPicture:
    """Uplift on half a bay at each side of what holds them."""
    whole = (left_mm + right_mm) / 2.0
    return LoadPicture(
        says=f"Across the {held}, uplift on half of each bay beside it",
        line=((0.0, -kn_m2), (whole, -kn_m2)),
        unit="kN/m2",
        held_mm=(left_mm / 2.0,),
        ends=("half a bay", "half a bay" if right_mm else ""),
        force=(left_mm / 2.0, kn_m2 * whole / 1000.0, "kN/m"),
    )


def _cap(ground: Ground, bay_number: int) -> Check:
    """The cap between this bay and the wider of its neighbours takes half of both sheets."""
    place, bar = Place(bay=bay_number), ground.parts.bar
    if ground.loads.wind.refused:
        return open_check(_CAP, place, "refused", Shown(says=ground.loads.wind.refused))
    found = _lift_kn_m2(ground, bay_number)
    lift, words = found.kn_m2, found.words
    bays = ground.setting_out.plane.bays
    here = bays[bay_number - 1].centres_mm
    beside = max((b.centres_mm for b in bays if abs(b.number - bay_number) == 1), default=0.0)
    demand = lift * (here + beside) / 2.0
    if bar.cap_hold_n_m is None:
        says = f"No cap hold is declared (bars.{bar.id}.cap_hold_n_m): ask. {demand:.0f} N/m is needed."
        return open_check(_CAP, place, "refused", Shown(says=says), demand=demand, case=words)
    working = (
        *found.steps,
        Step(
            says="Uplift along the cap",
            formula="uplift * half of both bays",
            numbers=f"{lift:.4f} x ({here:.1f} + {beside:.1f}) / 2",
            result=demand,
            unit="N/m",
            clause="geometry",
        ),
        Step(
            says="Hold of the cap",
            formula="declared / 1.25",
            numbers=f"{bar.cap_hold_n_m:g} / {GAMMA_CAP:g}",
            result=bar.cap_hold_n_m / GAMMA_CAP,
            unit="N/m",
            clause=f"declared; factor {JUDGEMENT}",
        ),
    )
    shown = Shown(
        rests_on=(
            ground.of_bar("cap_hold_n_m"),
            ground.of_wind(),
        ),
        working=working,
        picture=_half_bays(here, beside, lift, "cap"),
        cure="Closer bars, or a bar whose cap holds more.",
    )
    return compared(
        _CAP, place, demand=demand, capacity=bar.cap_hold_n_m / GAMMA_CAP, case=words, shown=shown
    )


def _edge_hold(ground: Ground, bay_number: int, rafter: Rafter) -> Check:
    """The verge has the highest suction: an edge profile needs a declared hold, else this is refused."""
    place, profile = Place(bay=bay_number, rafter=rafter.number), ground.parts.edge_profile
    if ground.loads.wind.refused:
        return open_check(_EDGE_PROFILE, place, "refused", Shown(says=ground.loads.wind.refused))
    found = _lift_kn_m2(ground, bay_number, end_area=True)
    lift, words = found.kn_m2, found.words
    centres = loaded_sheet(ground, ground.setting_out.plane.bays[bay_number - 1]).centres_mm
    demand = lift * centres / 2.0
    if profile is None or profile.hold_n_m is None:
        says = (
            f"The edge profile declares no hold; {demand:.0f} N/m is needed. Ask, or end the roof on a bar."
        )
        return open_check(_EDGE_PROFILE, place, "refused", Shown(says=says), demand=demand, case=words)
    path = f"profiles.{profile.id}.hold_n_m"
    working = (
        *found.steps,
        Step(
            says="Uplift along the profile",
            formula="uplift * half a bay",
            numbers=f"{lift:.4f} x {centres:.1f} / 2",
            result=demand,
            unit="N/m",
            clause="geometry",
        ),
        Step(
            says="Hold of the profile",
            formula="declared / 1.25",
            numbers=f"{profile.hold_n_m:g} / {GAMMA_CAP:g}",
            result=profile.hold_n_m / GAMMA_CAP,
            unit="N/m",
            clause=f"declared; factor {JUDGEMENT}",
        ),
    )
    shown = Shown(
        rests_on=(ground.of_catalogue(path, profile.hold_n_m),),
        working=working,
        picture=_half_bays(centres, 0.0, lift, "edge profile"),
        cure="End the roof on a bar.",
    )
    return compared(
        _EDGE_PROFILE, place, demand=demand, capacity=profile.hold_n_m / GAMMA_CAP, case=words, shown=shown
    )


def _own_length(bar: Bar, hole: BarHole) -> float:
    """Length of bar that a screw holds: half way to its neighbours, or to the end [mm]."""
    low, high = _own_reach(bar, hole)
    return high - low


def _own_reach(bar: Bar, hole: BarHole) -> tuple[float, float]:
    marks = [h.at_mm for h in bar.holes]
    i = marks.index(hole.at_mm)
    low = 0.0 if i == 0 else (marks[i - 1] + marks[i]) / 2.0
    high = bar.base_mm if i == len(marks) - 1 else (marks[i] + marks[i + 1]) / 2.0
    return low, high
