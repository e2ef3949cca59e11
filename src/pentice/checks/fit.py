"""Whether each sheet keeps its hold and its room: cold bite, ribs, room to move, lap over the head, drip."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pentice.checks.ground import JUDGEMENT, PRACTICE, Ground, Rule, compared, open_check
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.mechanics.movement import BITE_LEAST_MM, BUTTON_DROP_MM, WIDTH_ROOM_LEAST_MM, movement_mm
from pentice.setting_out.values import Bay, EdgeFit
from pentice.working import Step

_BITE = Rule(
    id="bite-cold",
    name="Bite on the coldest day",
    member="sheet",
    clause=f"10 mm and one rib: {JUDGEMENT}",
    unit="mm",
)
_WIDTH = Rule(
    id="room-width", name="Room to grow in width", member="sheet", clause=f"movement; {PRACTICE}", unit="mm"
)
_LENGTH = Rule(
    id="room-length", name="Room to grow at the head", member="sheet", clause="movement", unit="mm"
)
_COVER = Rule(
    id="cover-head",
    name="Lap over the head, coldest day",
    member="sheet",
    clause=f"movement; lap {JUDGEMENT}",
    unit="mm",
)
_DRIP = Rule(id="drip", name="Drip into the gutter", member="gutter", clause=PRACTICE, unit="mm")


def bite_needed_mm(edge: EdgeFit) -> float:
    """Bite that an edge needs: 10, or one upright rib and 1 more.

    Parameters
    ----------
    edge
        The edge, with where its first rib stands [mm].

    Returns
    -------
    float
        Bite [mm].

    Source
    ------
    Judgement, no source.

    Examples
    --------
    >>> edge = EdgeFit(held_by="bar", depth_mm=24.0, gap_mm=3.0, bite_fitted_mm=21.0, bite_cold_mm=16.0, rib_at_mm=13.0)
    >>> bite_needed_mm(edge)
    14.0
    """
    return bite_for_rib_mm(edge.rib_at_mm or 0.0)


def bite_for_rib_mm(rib_mm: float) -> float:
    """Bite that holds an edge by its first upright rib: 10, or the rib and 1 more.

    Parameters
    ----------
    rib_mm
        Edge to that rib [mm].

    Returns
    -------
    float
        Bite [mm].

    Source
    ------
    Judgement, no source.

    Examples
    --------
    >>> bite_for_rib_mm(13.0), bite_for_rib_mm(4.0)
    (14.0, 10.0)
    """
    return max(BITE_LEAST_MM, rib_mm + 1.0)


def bite_needed_step(rib_mm: float) -> Step:
    """That sum as a line of working.

    Parameters
    ----------
    rib_mm
        Edge to its first upright rib [mm].

    Returns
    -------
    Step
        In mm.

    Source
    ------
    Judgement, no source.
    """
    return Step(
        says="Bite needed",
        formula="max(10, rib + 1)",
        numbers=f"max(10, {rib_mm:g} + 1)",
        result=bite_for_rib_mm(rib_mm),
        unit="mm",
        clause=JUDGEMENT,
    )


def fit_checks(ground: Ground) -> Iterator[Check]:
    """Every check of hold and room, bay by bay, and the drip.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        Lengths [mm].

    Source
    ------
    Movement with temperature; limits by practice or judgement, no source.
    """
    for bay in ground.setting_out.plane.bays:
        for side in ("left", "right"):
            yield _bite(ground, bay, side)
        yield _room_in_width(ground, bay)
        yield _room_in_length(ground, bay)
        yield _cover(ground, bay)
    yield _drip(ground)


def temperature_inputs(ground: Ground) -> tuple[RestsOn, ...]:
    """The temperatures and the expansion that a movement rests on, with their marks.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RestsOn
        [degC] and [1/K].

    Source
    ------
    The job file and the catalogue.
    """
    g, temps, site = ground.job.glazing, ground.setting_out.temperatures, ground.job.site
    by_code = g.sheet_most_c is None and g.sheet_absorptivity is not None
    hottest = [ground.of_job("glazing.sheet_most_c", temps.most_c, typical=g.sheet_most_c is None)]
    if by_code:
        hottest += [
            ground.of_job("glazing.sheet_absorptivity", g.sheet_absorptivity),
            ground.of_job("site.air_max_c", site.air_max_c, typical="air_max_c" not in site.model_fields_set),
        ]
    measured = ground.job.measured.sheet_temperature_c is not None
    fit = "measured.sheet_temperature_c" if measured else "glazing.sheet_temperature_c"
    if not temps.fit_measured:
        fit = "glazing.sheet_fit_c"
    return (
        ground.of_sheet("alpha_per_k"),
        ground.of_job(fit, temps.fit_c, typical=not temps.fit_measured and g.sheet_fit_c is None),
        ground.of_job("site.air_min_c", site.air_min_c, typical="air_min_c" not in site.model_fields_set),
        *hottest,
    )


def moved_step(ground: Ground, length_mm: float, moved_mm: float, *, grows: bool) -> Step:
    """How far a sheet grows or shrinks, from its length and the two temperatures.

    Parameters
    ----------
    ground
        The inputs of every check.
    length_mm, moved_mm
        Its size, and what that changes by [mm].
    grows
        To the hottest day; else to the coldest.

    Returns
    -------
    Step
        One line of working.

    Source
    ------
    Movement with temperature.
    """
    temps = ground.setting_out.temperatures
    warm, cold = (temps.most_c, temps.fit_c) if grows else (temps.fit_c, temps.least_c)
    alpha = f"{temps.alpha_per_k:.8f}".rstrip("0")
    return Step(
        says="The sheet grows by" if grows else "The sheet shrinks by",
        formula="alpha * size * dT",
        numbers=f"{alpha} x {length_mm:g} x ({warm:g} {'-' if cold >= 0.0 else '+'} {abs(cold):g})",
        result=moved_mm,
        unit="mm",
        clause=f"movement; {'hottest' if grows else 'coldest'} sheet: {temps.most_is if grows else temps.least_is}",
    )


def _bite(ground: Ground, bay: Bay, side: Literal["left", "right"]) -> Check:
    edge: EdgeFit = getattr(bay.edges, side)

    def shown() -> Shown:
        temps, between = ground.setting_out.temperatures, bay.between_stems_mm.greatest
        shrink = movement_mm(bay.width_mm.cut, temps.alpha_per_k, temps.fit_c - temps.least_c)
        return Shown(
            rests_on=(*ground.once(temperature_inputs), ground.of_bar("rebate_mm")),
            working=(
                bite_needed_step(edge.rib_at_mm or 0.0),
                moved_step(ground, bay.width_mm.cut, shrink, grows=False),
                Step(
                    says="Bite there",
                    formula="rebate - (between stems - width + shrinking)",
                    numbers=f"{edge.depth_mm:g} - ({between:.2f} - {bay.width_mm.cut:g} + {shrink:.3f})",
                    result=edge.bite_cold_mm,
                    unit="mm",
                    clause="movement",
                ),
            ),
            cure="A wider sheet, a deeper rebate, or a rib nearer to the edge.",
        )

    return compared(
        _BITE,
        Place(bay=bay.number),
        demand=bite_needed_mm(edge),
        capacity=edge.bite_cold_mm,
        case=f"{side} edge, pushed hard to the other side",
        shown=shown,
    )


def _room_in_width(ground: Ground, bay: Bay) -> Check:
    temps, between = ground.setting_out.temperatures, bay.between_stems_mm.least
    left = ground.job.glazing.gap_residual_mm[0]
    growth = movement_mm(bay.width_mm.cut, temps.alpha_per_k, temps.most_c - temps.fit_c)
    thermal = growth + 2.0 * left
    own = ground.job.glazing.gap_mm is not None
    demand = thermal if own else max(thermal, WIDTH_ROOM_LEAST_MM)
    return compared(
        _WIDTH,
        Place(bay=bay.number),
        demand=demand,
        capacity=between - bay.width_mm.cut,
        case="hottest day, narrowest place",
        shown=lambda: Shown(
            rests_on=ground.once(temperature_inputs),
            working=(
                moved_step(ground, bay.width_mm.cut, growth, grows=True),
                Step(
                    says="Room needed",
                    formula="growing + 2 * gap left" if own else "max(6, growing + 2 * gap left)",
                    numbers=f"{growth:.3f} + 2 x {left:g}" if own else f"max(6, {growth:.3f} + 2 x {left:g})",
                    result=demand,
                    unit="mm",
                    clause="movement" if own else f"movement; 3 a side is {PRACTICE}",
                ),
                Step(
                    says="Room there",
                    formula="between stems - width",
                    numbers=f"{between:.3f} - {bay.width_mm.cut:g}",
                    result=between - bay.width_mm.cut,
                    unit="mm",
                    clause="geometry",
                ),
            ),
            cure="A narrower sheet.",
        ),
    )


def _room_in_length(ground: Ground, bay: Bay) -> Check:
    temps = ground.setting_out.temperatures
    left = ground.job.glazing.gap_residual_mm[1]
    growth = movement_mm(bay.length_mm.cut, temps.alpha_per_k, temps.most_c - temps.fit_c)
    shortest = bay.edges.head.gap_mm - (bay.projection_mm[1] - bay.projection_mm[0]) / ground.shape.cos_pitch
    return compared(
        _LENGTH,
        Place(bay=bay.number, at="head"),
        demand=growth + left,
        capacity=shortest,
        case="hottest day, shallowest place",
        shown=lambda: Shown(
            rests_on=ground.once(temperature_inputs),
            working=(
                moved_step(ground, bay.length_mm.cut, growth, grows=True),
                Step(
                    says="Gap needed at the head",
                    formula="growing + gap left",
                    numbers=f"{growth:.3f} + {left:g}",
                    result=growth + left,
                    unit="mm",
                    clause="movement; the button holds the foot",
                ),
                Step(
                    says="Gap there",
                    formula="head to foot profile - length",
                    numbers=f"{bay.length_mm.cut + shortest:.2f} - {bay.length_mm.cut:g}",
                    result=shortest,
                    unit="mm",
                    clause="geometry",
                ),
            ),
            cure="A shorter sheet.",
        ),
    )


def _cover(ground: Ground, bay: Bay) -> Check:
    head, temps = bay.edges.head, ground.setting_out.temperatures
    needed = head.cover_mm.needed if head.cover_mm is not None else 0.0
    there = head.cover_mm.there if head.cover_mm is not None else 0.0

    def shown() -> Shown:
        shrink = movement_mm(bay.length_mm.cut, temps.alpha_per_k, temps.fit_c - temps.least_c)
        profile = f"profiles.{ground.parts.head_profile.id}.arm_mm"
        return Shown(
            rests_on=(
                *ground.once(temperature_inputs),
                ground.of_catalogue(profile, ground.parts.head_profile.arm_mm),
            ),
            working=(
                moved_step(ground, bay.length_mm.cut, shrink, grows=False),
                Step(
                    says="Arm needed",
                    formula="head gap + shrinking + 3 + 15",
                    numbers=f"{head.gap_mm:.2f} + {shrink:.3f} + {BUTTON_DROP_MM:g} + 15; the button drops 3",
                    result=needed,
                    unit="mm",
                    clause=f"movement; 15 of lap left is {JUDGEMENT}",
                ),
            ),
            cure="A longer sheet or a head profile with a longer arm.",
        )

    return compared(
        _COVER,
        Place(bay=bay.number, at="head"),
        demand=needed,
        capacity=there,
        case="coldest day, deepest place, button dropped",
        shown=shown,
    )


def _drip(ground: Ground) -> Check:
    gutter, place = ground.parts.gutter, Place(at="foot")
    if gutter is None:
        return open_check(
            _DRIP, place, "not checked", Shown(says="No gutter in this job: say where the water goes.")
        )
    window = ground.job.gutter.drip_window
    low, high = window[0] * gutter.width_mm, window[1] * gutter.width_mm
    drip = ground.setting_out.drip_mm
    off_middle = abs(drip - (low + high) / 2.0)
    return compared(
        _DRIP,
        place,
        demand=off_middle,
        capacity=(high - low) / 2.0,
        case="level, from the beam's outer face",
        shown=lambda: Shown(
            says=f"The drip falls {drip:.0f} from the beam; {low:.0f} to {high:.0f} will do.",
            rests_on=(ground.of_catalogue(f"gutters.{gutter.id}.width_mm", gutter.width_mm),),
            working=(
                Step(
                    says="Drip from the middle of its window",
                    formula="|drip - (low + high) / 2|",
                    numbers=f"|{drip:.3f} - ({low:.3f} + {high:.3f}) / 2|",
                    result=off_middle,
                    unit="mm",
                    clause=PRACTICE,
                ),
                Step(
                    says="Half the window",
                    formula="(high - low) / 2",
                    numbers=f"({high:.3f} - {low:.3f}) / 2",
                    result=(high - low) / 2.0,
                    unit="mm",
                    clause=PRACTICE,
                ),
            ),
            cure="Change the overhang, or take a wider gutter.",
        ),
    )
