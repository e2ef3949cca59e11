"""What holds the glazing down: bar screws by zone, their distances in the rafter, the cap, the edge profile."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pentice.checks.ground import JUDGEMENT, Ground, Rule, Shown, compared, open_check
from pentice.checks.rafter_loads import strip_of
from pentice.checks.rafter_shown import service_class
from pentice.checks.sheet_area import loaded_sheet
from pentice.checks.values import Check, Place, RestsOn
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
    pull, hole, words, duration = _greatest_pull(ground, bar, rafter)
    inputs = (
        ground.of_screw("d_mm"),
        ground.of_screw("thread_mm"),
        RestsOn(input="prying factor", value=PRYING, mark="typical"),
        ground.of_wind(),
    )
    held = _screw_resistance(ground, k_mod(service_class(ground), duration))
    if isinstance(held, str):
        shown = Shown(says=held, rests_on=inputs, cure="A 6 mm screw with declared values.")
        return open_check(_SCREW, place, "refused", shown, demand=pull, case=words)
    resistance, steps, more = held
    length = _own_length(bar, hole)
    working = (
        Step(
            says="Uplift that one screw holds",
            formula="(1.5 w - 0.9 g) over its own length x prying",
            numbers=f"hole at {hole.at_mm:.0f} from the foot, {length:.0f} mm of bar, prying {PRYING:g}",
            result=pull,
            unit="N",
            clause=f"EN 1990; each screw its own length, c_pe,1; prying {JUDGEMENT}",
        ),
        *steps,
    )
    shown = Shown(
        rests_on=(*inputs, *more),
        working=working,
        cure="Closer screws, a longer screw, or a bar with more hold.",
    )
    return compared(_SCREW, place, demand=pull, capacity=resistance, case=words, shown=shown)


def _greatest_pull(ground: Ground, bar: Bar, rafter: Rafter) -> tuple[float, BarHole, str, Duration]:
    """The most that any one screw of a bar is pulled, by which case, and for how long it lasts."""
    strip = strip_of(ground, rafter, area_m2=1.0)
    dead = ground.loads.dead
    weight = (dead.sheet_kn_m2 * strip.width_mm * 1e-3 + dead.bar_kn_m) * ground.shape.cos_pitch
    peak = ground.loads.wind.peak_pressure_kn_m2 or 0.0
    best: tuple[float, BarHole, str, Duration] = (0.0, bar.holes[0], "no uplift here", "short")
    for c in _uplift_combinations(ground):
        for case in ground.loads.wind.cases:
            if (case.situation == "accidental") != c.wind_accidental:
                continue
            parts = [(c.dead, even_line(strip.length_mm, weight)), (c.wind, wind_line(case, peak, strip))]
            line = summed_line(parts)
            for hole in bar.holes:
                low, high = _own_reach(bar, hole)
                lift = -_over(line, strip.length_mm - high, strip.length_mm - low)
                pull = screw_pull_n(lift / (high - low), high - low, PRYING)
                if pull > best[0]:
                    best = (pull, hole, f"{c.name}: {case.name}", c.duration)
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
        withdrawal, more = _withdrawal(ground, grip, timber.rho_k_kg_m3)
    except OutsideScope as refusal:
        return str(refusal)
    if missing or screw.f_tens_n is None or bar.pull_through_n is None:
        return f"Refused: not declared: {', '.join(missing)}. Ask the supplier."
    timber_part = screw_design_n(timber_n=withdrawal, steel_n=screw.f_tens_n, k_mod=factor)
    seat = bar.pull_through_n / GAMMA_CAP
    steps = (
        Step(
            says="Withdrawal",
            formula="F_ax,Rk, thread in the timber",
            numbers=f"d {screw.d_mm:g}, l_ef {grip:g} mm, rho_k {timber.rho_k_kg_m3:g} kg/m3",
            result=withdrawal,
            unit="N",
            clause="EN 1995-1-1, 8.7.2",
        ),
        Step(
            says="Design resistance of one screw",
            formula="min(k_mod F_ax,Rk / 1.3, tension / 1.25, pull-through / 1.25)",
            numbers=f"{factor:g} x {withdrawal:.0f} / 1.3, {screw.f_tens_n:g} / 1.25, {bar.pull_through_n:g} / 1.25",
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


def _withdrawal(ground: Ground, grip: float, rho_k: float) -> tuple[float, tuple[RestsOn, ...]]:
    screw = ground.parts.screw
    if screw.f_ax_n_mm2 is not None and screw.rho_a_kg_m3 is not None:
        declared = declared_withdrawal_n(
            thread_mm=screw.d_mm,
            length_mm=grip,
            f_ax_n_mm2=screw.f_ax_n_mm2,
            rho_a_kg_m3=screw.rho_a_kg_m3,
            rho_k_kg_m3=rho_k,
        )
        return declared, (ground.of_screw("f_ax_n_mm2"),)
    if not inside_screw_formula(screw.d_mm, screw.root_mm):
        raise OutsideScope(
            f"The screw, {screw.d_mm:g} mm with a root of {screw.root_mm:g}, is outside 6 to 12 mm and 0.6 to 0.75 "
            f"(EN 1995-1-1, 8.7.2): declare screws.{screw.id}.f_ax_n_mm2, or take a 6 mm screw."
        )
    formula = withdrawal_n(thread_mm=screw.d_mm, root_mm=screw.root_mm, length_mm=grip, rho_k_kg_m3=rho_k)
    return formula, (ground.of_screw("root_mm"),)


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
                    formula="rafter width - 2 x 4 d",
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
        shown=Shown(rests_on=(ground.of_screw("d_mm"),), cure="Move the first hole up the slope."),
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
        shown=Shown(cure="Less overhang, or a first hole nearer to the foot."),
    )
    if ground.job.screws.spacing_between is None and bar.screw_spacing_between is None:
        says = (
            f"{ground.job.screws.spacing_mm or bar.screw_spacing_mm or 400:g} mm, but between successive holes, or on "
            "one side? Ask the supplier. Drawn and ordered by the closer reading."
        )
        yield open_check(_SPACING, Place(), "refused", Shown(says=says, cure="Give screws.spacing_between."))


# Caps and edge profiles


def _lift_kn_m2(ground: Ground, bay_number: int, *, end_area: bool = False) -> tuple[float, str]:
    """Design uplift on the sheet of a bay, worst zone that touches it [kN/m2], and its case."""
    bay = ground.setting_out.plane.bays[bay_number - 1]
    xs = [x for x, _ in bay.outline_mm]
    slope, cos = bay.outline_mm[2][1], ground.shape.cos_pitch
    area = SheetArea(
        x_mm=(min(xs), max(xs)),
        y_mm=(0.0, slope * cos),
        cos_pitch=cos,
        area_m2=1.0 if end_area else bay.centres_mm * slope * 1e-6,
    )
    best = (0.0, "no uplift here")
    for c in _uplift_combinations(ground):
        wind = worst_wind(
            ground.loads, area, upward=True, situation="accidental" if c.wind_accidental else "persistent"
        )
        if wind is None:
            continue
        lift = -(c.dead * ground.loads.dead.sheet_kn_m2 * cos + c.wind * wind[1])
        if lift > best[0]:
            best = (lift, f"{c.name}: {wind[0]}")
    return best


def _cap(ground: Ground, bay_number: int) -> Check:
    """The cap between this bay and the wider of its neighbours takes half of both sheets."""
    place, bar = Place(bay=bay_number), ground.parts.bar
    if ground.loads.wind.refused:
        return open_check(_CAP, place, "refused", Shown(says=ground.loads.wind.refused))
    lift, words = _lift_kn_m2(ground, bay_number)
    bays = ground.setting_out.plane.bays
    here = bays[bay_number - 1].centres_mm
    beside = max((b.centres_mm for b in bays if abs(b.number - bay_number) == 1), default=0.0)
    demand = lift * (here + beside) / 2.0
    if bar.cap_hold_n_m is None:
        says = f"No cap hold is declared (bars.{bar.id}.cap_hold_n_m): ask. {demand:.0f} N/m is needed."
        return open_check(_CAP, place, "refused", Shown(says=says), demand=demand, case=words)
    working = (
        Step(
            says="Uplift along the cap",
            formula="(1.5 w - 0.9 g) x half of both bays",
            numbers=f"{lift:.3f} x ({here:.0f} + {beside:.0f}) / 2",
            result=demand,
            unit="N/m",
            clause="EN 1990; worst zone on the whole sheet",
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
    lift, words = _lift_kn_m2(ground, bay_number, end_area=True)
    demand = lift * loaded_sheet(ground, ground.setting_out.plane.bays[bay_number - 1]).centres_mm / 2.0
    if profile is None or profile.hold_n_m is None:
        says = (
            f"The edge profile declares no hold; {demand:.0f} N/m is needed. Ask, or end the roof on a bar."
        )
        return open_check(_EDGE_PROFILE, place, "refused", Shown(says=says), demand=demand, case=words)
    path = f"profiles.{profile.id}.hold_n_m"
    shown = Shown(rests_on=(ground.of_catalogue(path, profile.hold_n_m),), cure="End the roof on a bar.")
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
