"""The sheet between its bars: by the supplier's table, else by its own sag, both signs; and the bite under load."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pentice.checks.fit import bite_needed_mm, temperature_inputs
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.rests import of_roof
from pentice.checks.sheet_area import LoadedSheet, loaded_sheet
from pentice.checks.sheet_stiffness import (
    Creep,
    Stiffness,
    creep_of,
    crept_load,
    panel_sag_mm,
    sheet_stiffness,
    strip_sag_of,
)
from pentice.checks.sheet_table import TableRead, read_table
from pentice.checks.values import Check, LoadPicture, Place, RestsOn, Shown
from pentice.loads.on_sheet import SheetLoad
from pentice.mechanics.strip import Sag, chord_shortening_mm
from pentice.records import quickly_made
from pentice.working import Step

ESTIMATE_OVER = 50.0
RANGE_OVER = 20.0
"""span/50 passes as an estimate, span/20 is the end of small-deflection theory: judgement, no source."""
BEYOND = 1.5
"""Load at which one rib must still be held: judgement, no source."""

_NAMES = {"down": "Sheet between bars, snow and wind down", "up": "Sheet between bars, uplift"}


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What was found for one sign: the check, and the sag that goes on to the bite (None where none is known)."""

    check: Check
    sag: Sag | None = None
    cover: str = ""
    """Where a table gives an edge cover instead of a sag: "as fitted" or "least"."""


def sheet_checks(ground: Ground) -> Iterator[Check]:
    """Each bay's sheet under load, both signs, with the bite left under load.

    Parameters
    ----------
    ground
        The inputs of every check.

    Yields
    ------
    Check
        "passes", "fails", or "refused" where nobody can tell.

    Source
    ------
    A supplier's table, or textbook mechanics with judged limits.
    """
    stiffness = sheet_stiffness(ground)
    has_table = ground.parts.sheet.load_table is not None
    for bay in ground.setting_out.plane.bays:
        sheet = loaded_sheet(ground, bay)
        answers = {}
        for sign in ("down", "up"):
            refused = sheet.refused_down if sign == "down" else sheet.refused_up
            rule = _rule(sign, "supplier's load table" if has_table else f"strip with shear; {JUDGEMENT}")
            if refused:
                answers[sign] = Answer(check=_refused(rule, sheet, refused))
            elif has_table:
                answers[sign] = _by_table(ground, sheet, sign, rule)
            else:
                answers[sign] = _by_own_sag(ground, sheet, sign, rule, stiffness)
            yield answers[sign].check
        yield from _loaded_bites(ground, sheet, answers)
    if not has_table:
        yield _strength(ground)


def _rule(sign: str, clause: str) -> Rule:
    unit = "kN/m2" if clause.startswith("supplier") else "mm"
    return Rule(id=f"sheet-{sign}", name=_NAMES[sign], member="sheet", clause=clause, unit=unit)


def _refused(rule: Rule, sheet: LoadedSheet, why: str, cure: str = "") -> Check:
    return open_check(rule, Place(bay=sheet.bay.number), "refused", Shown(says=why, cure=cure))


# By table


def _demand(sheet: LoadedSheet, sign: str, basis: str) -> tuple[float, SheetLoad] | None:
    """The load that a table is asked for: characteristic, or design. What is only accidental, and any uplift, comes
    in as a design load; against a characteristic table it is divided by the 1.5 that such a table has in hand."""
    best: tuple[float, SheetLoad] | None = None
    for load in sheet.down if sign == "down" else sheet.up:
        kind = load.combination.kind
        if sign == "down" and kind == ("strength" if basis == "characteristic" else "characteristic"):
            continue
        size = load.total if sign == "down" else -load.total
        if basis == "characteristic" and kind != "characteristic":
            size /= BEYOND
        if best is None or size > best[0]:
            best = (size, load)
    return best


def _by_table(ground: Ground, sheet: LoadedSheet, sign: str, rule: Rule) -> Answer:
    table = ground.parts.sheet.load_table
    found = _demand(sheet, sign, table.basis if table is not None else "characteristic")
    if table is None or found is None:
        return Answer(check=_refused(rule, sheet, "No wind case makes this load; ask."))
    size, load = found
    if sign == "down" and table.duration == "wind only" and load.combination.snow and load.snow > 0.0:
        return Answer(
            check=_refused(rule, sheet, "The load table is for wind only; ask the supplier for snow.")
        )
    span = sheet.daylight_mm if table.span_is == "clear" else sheet.centres_mm
    between = None
    if sign == "down" and sheet.panels_mm:
        frame = ground.job.frame
        if not (frame.head_bearer and frame.foot_bearer):
            why = (
                "Purlins count only where the sheet's head and foot lie on timber too: "
                "declare frame.head_bearer and frame.foot_bearer."
            )
            return Answer(check=_refused(rule, sheet, why))
        between = max(sheet.panels_mm)
    read = ground.once(_read, span, sign, between)
    if isinstance(read, str):
        return Answer(
            check=_refused(rule, sheet, read, "Closer bars, a table that reaches this span, or purlins.")
        )
    path = f"sheets.{ground.parts.sheet.id}.load_table"
    check = compared(
        rule,
        Place(bay=sheet.bay.number, at=load.at),
        demand=max(size, 0.0),
        capacity=read.load_kn_m2,
        case=load.words,
        shown=lambda: Shown(
            rests_on=(
                RestsOn(input=path, value=table.source, mark=table.mark),
                *ground.once(_sheet_load_inputs),
            ),
            working=(
                *_load_steps(ground, load, size),
                _table_step(read, span, between),
                *_table_sag_steps(read, size),
            ),
            picture=_picture(load, span),
            cure="Closer bars, or a stronger sheet.",
        ),
    )
    sag = (
        Sag(bending_mm=0.0, shear_mm=read.sag_mm * max(size, 0.0) / read.load_kn_m2)
        if read.sag_mm is not None
        else None
    )
    return Answer(check=check, sag=sag, cover=table.edge_cover_is or "" if sag is None else "")


def _read(ground: Ground, span: float, sign: str, between: float | None) -> TableRead | str:
    """Of the sheet's load table; asked only where it has one."""
    table = ground.parts.sheet.load_table
    assert table is not None
    return read_table(table, span_mm=span, sign=sign, between_mm=between)


def _table_step(read: TableRead, span: float, between: float | None) -> Step:
    more = f", {between:.0f} between supports" if between is not None else ""
    return Step(
        says="Carried by the table",
        formula=f"at span {span:.0f}{more}",
        numbers=read.how,
        result=read.load_kn_m2,
        unit="kN/m2",
        clause="the table's own rows",
    )


def _sheet_load_inputs(ground: Ground) -> tuple[RestsOn, ...]:
    return (
        ground.of_sheet("mass_kg_m2"),
        *of_roof(ground, "pitch_deg"),
        ground.of_snow(),
        ground.of_wind(),
    )


def _picture(load: SheetLoad, span_mm: float) -> LoadPicture:
    return LoadPicture(
        says="Across the sheet between its bars, load square to it",
        line=((0.0, load.total), (span_mm, load.total)),
        unit="kN/m2",
        held_mm=(0.0, span_mm),
        ends=("bar", "bar"),
    )


def _part_steps(ground: Ground, load: SheetLoad) -> Iterator[Step]:
    """Where each part of the load comes from: the tables of snow, wind and weight."""
    c, cos = load.combination, ground.shape.cos_pitch
    pitch = f"{ground.shape.pitch_deg:.4f}"
    dead = ground.loads.dead.sheet_kn_m2
    yield Step(
        says="Weight, square to the sheet",
        formula="G = g cos(pitch)",
        numbers=f"{dead:.5f} x cos({pitch})",
        result=load.dead,
        unit="kN/m2",
        clause="geometry",
    )
    if c.snow:
        yield Step(
            says=f"Snow at the {load.at}" if load.at != "middle" else "Snow, worst on the sheet",
            formula="S = s cos^2(pitch)",
            numbers=f"{load.snow / cos**2:.4f} x cos({pitch})^2",
            result=load.snow,
            unit="kN/m2",
            clause="geometry",
        )
    peak = ground.loads.wind.peak_pressure_kn_m2
    if c.wind and peak:
        yield Step(
            says="Wind, worst zone on the sheet"
            + ("; the wall's pressure below it" if load.is_beyond_beam else ""),
            formula="W = c q_p",
            numbers=f"{load.wind / peak:.4f} x {peak:.4f}; c for the sheet's own area",
            result=load.wind,
            unit="kN/m2",
            clause="EN 1991-1-4, 5.2, 7.2.1(3)" if load.is_beyond_beam else "EN 1991-1-4, 5.2",
        )


def _load_steps(ground: Ground, load: SheetLoad, size: float) -> tuple[Step, ...]:
    c = load.combination
    said = f"{c.dead:g} x {load.dead:.4f}"
    said += f" + {c.snow:g} x {load.snow:.4f}" if c.snow else ""
    said += f" {'-' if load.wind < 0.0 else '+'} {c.wind:g} x {abs(load.wind):.4f}" if c.wind else ""
    steps = [
        *_part_steps(ground, load),
        Step(
            says="Load square to the sheet",
            formula=c.name,
            numbers=said,
            result=load.total,
            unit="kN/m2",
            clause=c.clause,
        ),
    ]
    if abs(abs(load.total) - size) > 1e-9:
        steps.append(
            Step(
                says="Against a characteristic table",
                formula="|q| / 1.5",
                numbers=f"{abs(load.total):.4f} / 1.5",
                result=size,
                unit="kN/m2",
                clause=f"gamma of EN 1990 that the table has in hand; {JUDGEMENT}",
            )
        )
    return tuple(steps)


# By its own sag


def _by_own_sag(
    ground: Ground, sheet: LoadedSheet, sign: str, rule: Rule, stiffness: Stiffness | None
) -> Answer:
    if stiffness is None:
        return Answer(
            check=_refused(
                rule, sheet, "The sheet has neither a load table nor a stiffness; ask the supplier."
            )
        )
    creep, creep_inputs = creep_of(ground)
    loads = [
        ld for ld in (sheet.down if sign == "down" else sheet.up) if ld.combination.kind == "characteristic"
    ]
    sags = [(_sag(ground, sheet, load, creep, stiffness), load) for load in loads]
    sag, load = max(sags, key=lambda pair: abs(pair[0].total_mm))
    span = sheet.daylight_mm
    size = abs(sag.total_mm)

    def shown(says: str, cure: str) -> Shown:
        return Shown(
            says=says,
            rests_on=(*stiffness.rests_on, *creep_inputs, *ground.once(_sheet_load_inputs)),
            working=(
                *_load_steps(ground, load, abs(load.total)),
                *_sag_steps(load, creep, sag, stiffness, span),
            ),
            picture=_picture(load, span),
            cure=cure,
        )

    place = Place(bay=sheet.bay.number, at=load.at)
    if size > span / RANGE_OVER:
        why = (
            f"Refused: not shown to carry. It would sag {size:.0f}, more than span/20 ({span / RANGE_OVER:.0f}), "
            "and there small-deflection theory ends. Closer bars, a declared load table, or purlins."
        )
        cure = "Closer bars, a declared load table, or purlins."
        return Answer(
            check=open_check(rule, place, "refused", lambda: shown(why, cure), demand=size, case=load.words)
        )
    estimated = "estimated" if size <= span / ESTIMATE_OVER else "estimated, get the supplier's table"
    share = f"span/{span / size:.0f}" if size > 0.0 else "none"
    says = f"{estimated[0].upper()}{estimated[1:]}: sag {size:.1f} over {span:.0f}, {share}."
    check = compared(
        rule,
        place,
        demand=size,
        capacity=span / RANGE_OVER,
        case=load.words,
        shown=lambda: shown(says, "Closer bars."),
    )
    return Answer(check=check, sag=Sag(bending_mm=abs(sag.bending_mm), shear_mm=abs(sag.shear_mm)))


def _sag(ground: Ground, sheet: LoadedSheet, load: SheetLoad, creep: Creep, stiffness: Stiffness) -> Sag:
    frame = ground.job.frame
    borne = {"head": frame.head_bearer, "foot": frame.foot_bearer, "middle": True}[load.at]
    if load.total < 0.0 and load.at != "middle":
        borne = False  # a bearer carries downward load only
    if sheet.panels_mm and load.total > 0.0 and frame.head_bearer and frame.foot_bearer:
        whole = panel_sag_mm(
            crept_load(load, creep), stiffness.plate, panel_mm=max(sheet.panels_mm), span_mm=sheet.daylight_mm
        )
        return Sag(bending_mm=0.0, shear_mm=whole)
    free = not borne or load.total < 0.0
    return strip_sag_of(load, creep, stiffness.plate, sheet.daylight_mm, free_end=free)


def _table_sag_steps(read: TableRead, size: float) -> tuple[Step, ...]:
    """The sag at this load from the one that the table prints, where it prints one."""
    if read.sag_mm is None:
        return ()
    return (
        Step(
            says="Sag at this load",
            formula="sag of the table * load / load of the table",
            numbers=f"{read.sag_mm:.3f} x {size:.4f} / {read.load_kn_m2:.4f}",
            result=read.sag_mm * size / read.load_kn_m2,
            unit="mm",
            clause="in proportion: judgement, no source",
        ),
    )


def _sag_steps(
    load: SheetLoad, creep: Creep, sag: Sag, stiffness: Stiffness, span: float
) -> tuple[Step, ...]:
    """The sag of the strip, part by part; between purlins the sum of the plate's series as it was found."""
    c, q = load.combination, crept_load(load, creep)
    crept = Step(
        says="Load with creep",
        formula="each part * its creep factor",
        numbers=(
            f"{c.dead:g} x {load.dead:.4f} x {creep.dead:g} + {c.snow:g} x {load.snow:.4f} x {creep.snow:g} "
            f"+ {c.wind:g} x ({load.wind:.4f}) x {creep.wind:g}"
        ),
        result=q,
        unit="kN/m2",
        clause="linear creep",
    )
    if sag.bending_mm == 0.0:
        whole = Step(
            says=f"Sag at the {load.at}",
            formula="four-edge plate with shear, + 5 %",
            numbers="read: the sum of the series",
            result=abs(sag.total_mm),
            unit="mm",
            clause="mechanics of a plate",
        )
        return crept, whole
    plate = stiffness.plate
    free = abs(sag.shear_mm) > abs(q) * 1e-3 * span**2 / (8.0 * plate.sy_n_m / 1000.0) * 1.01
    more = " x 1.25" if free else ""
    bending = Step(
        says=f"Sag at the {load.at} from bending" + (", end free" if free else ""),
        formula="5 q b^4 / (384 B_y)" + more,
        numbers=f"5 x {abs(q):.4f} x {span / 1000.0:.4f}^4 x 10^6 / (384 x {plate.by_n_m:.2f}){more}",
        result=abs(sag.bending_mm),
        unit="mm",
        clause="mechanics of a strip",
    )
    shear = Step(
        says="from shear",
        formula="q b^2 / (8 S_y)" + more,
        numbers=f"{abs(q):.4f} x {span / 1000.0:.4f}^2 x 10^6 / (8 x {plate.sy_n_m:.1f}){more}",
        result=abs(sag.shear_mm),
        unit="mm",
        clause="mechanics of a strip",
    )
    total = Step(
        says="Sag, creep in",
        formula="bending + shear",
        numbers=f"{abs(sag.bending_mm):.3f} + {abs(sag.shear_mm):.3f}",
        result=abs(sag.total_mm),
        unit="mm",
        clause="mechanics of a strip",
    )
    return crept, bending, shear, total


def _strength(ground: Ground) -> Check:
    rule = Rule(
        id="sheet-strength",
        name="Sheet, bending resistance",
        member="sheet",
        clause="declared resistance with its factors",
        unit="N m/m",
    )
    says = (
        "Stiffness says how far it bends, not when it breaks. Ask the supplier for a load table, "
        "or for the bending resistance and its factors."
    )
    return open_check(rule, Place(), "refused", Shown(says=says, cure="A sheet with a declared load table."))


# The bite under load


def _loaded_bites(ground: Ground, sheet: LoadedSheet, answers: dict[str, Answer]) -> Iterator[Check]:
    rule = Rule(
        id="bite-loaded",
        name="Bite under load, coldest day",
        member="sheet",
        clause=f"chord shortening; limits {JUDGEMENT}",
        unit="mm",
    )
    worst = [answer.sag for answer in answers.values() if answer.sag is not None]
    known = all(answer.sag is not None for answer in answers.values())
    if known:
        sag = max(worst, key=lambda s: s.total_mm)
        yield _bite_by_sag(ground, sheet, rule, sag)
        return
    table = ground.parts.sheet.load_table
    place = Place(bay=sheet.bay.number)
    if any(answer.check.verdict == "refused" for answer in answers.values()):
        yield open_check(rule, place, "refused", Shown(says="The sheet itself is refused: no sag is known."))
    elif table is None or table.edge_cover_mm is None:
        yield open_check(
            rule,
            place,
            "refused",
            Shown(says="Refused: the table does not say what edge cover it needs. Ask."),
        )
    else:
        edges = (sheet.bay.edges.left, sheet.bay.edges.right)
        fitted = table.edge_cover_is == "as fitted"
        there = min(e.bite_fitted_mm if fitted else e.bite_cold_mm for e in edges)

        def shown() -> Shown:
            path = f"sheets.{ground.parts.sheet.id}.load_table"
            return Shown(
                says=f"The table asks for {table.edge_cover_mm:g} of edge cover, {table.edge_cover_is}.",
                rests_on=(
                    RestsOn(input=path, value=table.source, mark=table.mark),
                    *ground.once(temperature_inputs),
                ),
                cure="A wider sheet or a deeper rebate.",
            )

        yield compared(rule, place, demand=table.edge_cover_mm, capacity=there, shown=shown)


def _bite_by_sag(ground: Ground, sheet: LoadedSheet, rule: Rule, sag: Sag) -> Check:
    """The edge with the least in hand: 10 or one rib at the characteristic sag, the rib itself at 1.5 times it."""
    span = sheet.daylight_mm
    drawn = chord_shortening_mm(sag, span)
    beyond = drawn * BEYOND**2
    found = []
    for side, edge in (("left", sheet.bay.edges.left), ("right", sheet.bay.edges.right)):
        cold = edge.bite_cold_mm
        at_once = (
            bite_needed_mm(edge),
            cold - drawn,
            f"{side} edge, characteristic load",
            f"{cold:.4f} - {drawn:.4f}",
            f"max(10, {edge.rib_at_mm or 0.0:g} + 1)",
        )
        at_more = (
            edge.rib_at_mm or 0.0,
            cold - beyond,
            f"{side} edge, 1.5 times the load: the rib",
            f"{cold:.4f} - {BEYOND:g}^2 x {drawn:.4f}",
            f"{edge.rib_at_mm or 0.0:g}; the first rib from the edge",
        )
        found += [at_once, at_more]
    demand, capacity, case, numbers, asked = min(found, key=lambda f: f[1] - f[0])
    return compared(
        rule,
        Place(bay=sheet.bay.number),
        demand=demand,
        capacity=capacity,
        case=case,
        shown=lambda: Shown(
            rests_on=(*ground.once(temperature_inputs), ground.of_bar("rebate_mm")),
            working=(
                Step(
                    says="Sheet drawn in by its sag",
                    formula="(2.487 w_b^2 + 5.12 w_b w_s + 2.667 w_s^2) / b",
                    numbers=(
                        f"(2.487 x {sag.bending_mm:.3f}^2 + 5.12 x {sag.bending_mm:.3f} x {sag.shear_mm:.3f} "
                        f"+ 2.667 x {sag.shear_mm:.3f}^2) / {span:.1f}"
                    ),
                    result=drawn,
                    unit="mm",
                    clause="mechanics; w its sag, by bending and by shear, together as between its bars; b its span",
                ),
                Step(
                    says="Bite needed",
                    formula="max(10, rib + 1); at 1.5 times the load the rib",
                    numbers=asked,
                    result=demand,
                    unit="mm",
                    clause=JUDGEMENT,
                ),
                Step(
                    says="Bite left",
                    formula="cold bite - drawn in",
                    numbers=numbers,
                    result=capacity,
                    unit="mm",
                    clause="geometry; the draw grows with the square of the load",
                ),
            ),
            cure="Closer bars, a stiffer sheet or a deeper rebate.",
        ),
    )
