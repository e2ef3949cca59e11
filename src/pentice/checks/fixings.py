"""What holds the glazing down: bar screws by zone, their distances in the rafter, the cap, the edge profile."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from pentice.checks.bar_screws import GAMMA_CAP, screw_check, uplift_combinations
from pentice.checks.ground import JUDGEMENT, PRACTICE, Ground, Rule, compared, open_check
from pentice.checks.rests import of_frame, of_roof
from pentice.checks.sheet_area import sheet_area, winds_on_sheets
from pentice.checks.timber_shown import figures
from pentice.checks.values import Check, LoadPicture, Place, Shown
from pentice.loads.on_sheet import winds_on_sheet
from pentice.setting_out.values import Rafter
from pentice.standards.en1995_screws import (
    screw_distances,
    widest_hole_gauge_mm,
)
from pentice.working import Step

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
    if plane.bars and not ground.parts.bar.carries:
        for bar in plane.bars:
            yield screw_check(ground, bar, rafters[bar.rafter])
        yield from _distances(ground)
    for bay in plane.bays:
        yield _cap(ground, bay.number)
    for rafter, bay in ((plane.rafters[0], plane.bays[0]), (plane.rafters[-1], plane.bays[-1])):
        if not rafter.has_bar:
            yield _edge_hold(ground, bay.number, rafter)


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
        shown=lambda: Shown(
            rests_on=(
                ground.of_bar("hole_gauge_mm"),
                ground.of_screw("d_mm"),
                *of_frame(ground, "rafter_mm"),
            ),
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
        shown=lambda: Shown(
            rests_on=(ground.of_screw("d_mm"), *of_roof(ground, "overhang_on_slope_mm")),
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
    asked, spacing = max(b.asked_mm for b in plane.bars), ground.job.screws.spacing_mm
    yield compared(
        _REACH,
        Place(at="foot"),
        demand=reach,
        capacity=asked / 2.0,
        case="not more than half a spacing",
        shown=lambda: Shown(
            rests_on=() if spacing is None else (ground.of_job("screws.spacing_mm", spacing),),
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
    """Design uplift on a sheet, its case in words, and what it comes from: wind and weight behind their factors."""

    kn_m2: float
    words: str
    parts: tuple[float, float, float, float] | None = None

    def steps(self) -> tuple[Step, ...]:
        """Its arithmetic."""
        if self.parts is None:
            return ()
        of_wind, wind, of_weight, weight = self.parts
        return (
            Step(
                says="Uplift on the sheet",
                formula=f"{of_wind:g} w - {of_weight:g} g",
                numbers=f"{of_wind:g} x {-wind:.4f} - {of_weight:g} x {weight:.4f}; w = c q_p of the worst zone",
                result=self.kn_m2,
                unit="kN/m2",
                clause="EN 1990; worst zone on the whole sheet",
            ),
        )


def _lift_kn_m2(ground: Ground, bay_number: int, *, end_area: bool = False) -> _Lift:
    """Design uplift on the sheet of a bay, worst zone that touches it, and its case."""
    bay = ground.setting_out.plane.bays[bay_number - 1]
    if end_area:
        winds = winds_on_sheet(ground.loads, replace(sheet_area(ground, bay), area_m2=1.0))
    else:
        winds = ground.once(winds_on_sheets)[bay.number]
    best = _Lift(kn_m2=0.0, words="no uplift here")
    weight = ground.loads.dead.sheet_kn_m2 * ground.shape.cos_pitch
    for c in uplift_combinations(ground):
        found = winds["accidental" if c.wind_accidental else "persistent", True]
        if found is None:
            continue
        name, wind = found[0]
        lift = -(c.dead * weight + c.wind * wind)
        if lift > best.kn_m2:
            parts = (c.wind, wind, c.dead, weight)
            best = _Lift(kn_m2=lift, words=f"{c.name}: {name}", parts=parts)
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

    holds = bar.cap_hold_n_m / GAMMA_CAP

    def shown() -> Shown:
        working = (
            *found.steps(),
            Step(
                says="Uplift along the cap",
                formula="uplift * half of both bays",
                numbers=f"{figures(lift)} x ({here:.1f} + {beside:.1f}) / 2",
                result=demand,
                unit="N/m",
                clause="geometry",
            ),
            Step(
                says="Hold of the cap",
                formula="declared / 1.25",
                numbers=f"{bar.cap_hold_n_m:g} / {GAMMA_CAP:g}",
                result=holds,
                unit="N/m",
                clause=f"declared; factor {JUDGEMENT}",
            ),
        )
        return Shown(
            rests_on=(
                ground.of_bar("cap_hold_n_m"),
                ground.of_wind(),
            ),
            working=working,
            picture=_half_bays(here, beside, lift, "cap"),
            cure="Closer bars, or a bar whose cap holds more.",
        )

    return compared(_CAP, place, demand=demand, capacity=holds, case=words, shown=shown)


def _edge_hold(ground: Ground, bay_number: int, rafter: Rafter) -> Check:
    """The verge has the highest suction: an edge profile needs a declared hold, else this is refused."""
    place, profile = Place(bay=bay_number, rafter=rafter.number), ground.parts.edge_profile
    if ground.loads.wind.refused:
        return open_check(_EDGE_PROFILE, place, "refused", Shown(says=ground.loads.wind.refused))
    found = _lift_kn_m2(ground, bay_number, end_area=True)
    lift, words = found.kn_m2, found.words
    centres = ground.setting_out.plane.bays[bay_number - 1].centres_mm
    demand = lift * centres / 2.0
    if profile is None or profile.hold_n_m is None:
        says = (
            f"The edge profile declares no hold; {demand:.0f} N/m is needed. Ask, or end the roof on a bar."
        )
        return open_check(_EDGE_PROFILE, place, "refused", Shown(says=says), demand=demand, case=words)

    holds = profile.hold_n_m / GAMMA_CAP

    def shown() -> Shown:
        path = f"profiles.{profile.id}.hold_n_m"
        working = (
            *found.steps(),
            Step(
                says="Uplift along the profile",
                formula="uplift * half a bay",
                numbers=f"{figures(lift)} x {centres:.1f} / 2",
                result=demand,
                unit="N/m",
                clause="geometry",
            ),
            Step(
                says="Hold of the profile",
                formula="declared / 1.25",
                numbers=f"{profile.hold_n_m:g} / {GAMMA_CAP:g}",
                result=holds,
                unit="N/m",
                clause=f"declared; factor {JUDGEMENT}",
            ),
        )
        return Shown(
            rests_on=(ground.of_catalogue(path, profile.hold_n_m),),
            working=working,
            picture=_half_bays(centres, 0.0, lift, "edge profile"),
            cure="End the roof on a bar.",
        )

    return compared(_EDGE_PROFILE, place, demand=demand, capacity=holds, case=words, shown=shown)
