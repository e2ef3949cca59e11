"""The sheet between its bars: by the supplier's table, else by its own sag, both signs; and the bite under load."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pentice.checks.fit import bite_needed_mm, temperature_inputs
from pentice.checks.ground import JUDGEMENT, Ground, Rule, Shown, compared, open_check
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
from pentice.checks.values import Check, Place, RestsOn
from pentice.loads.on_sheet import SheetLoad
from pentice.mechanics.strip import Sag, chord_shortening_mm
from pentice.working import Step

ESTIMATE_OVER = 50.0
RANGE_OVER = 20.0
"""span/50 passes as an estimate, span/20 is the end of small-deflection theory: judgement, no source."""
BEYOND = 1.5
"""Load at which one rib must still be held: judgement, no source."""

_NAMES = {"down": "Sheet between bars, snow and wind down", "up": "Sheet between bars, uplift"}


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
    read = read_table(table, span_mm=span, sign=sign, between_mm=between)
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
        shown=Shown(
            rests_on=(RestsOn(input=path, value=table.source, mark=table.mark), *_sheet_load_inputs(ground)),
            working=(*_load_steps(load, size), _table_step(read, span, between)),
            cure="Closer bars, or a stronger sheet.",
        ),
    )
    sag = (
        Sag(bending_mm=0.0, shear_mm=read.sag_mm * max(size, 0.0) / read.load_kn_m2)
        if read.sag_mm is not None
        else None
    )
    return Answer(check=check, sag=sag, cover=table.edge_cover_is or "" if sag is None else "")


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
        ground.of_snow(),
        ground.of_wind(),
    )


def _load_steps(load: SheetLoad, size: float) -> tuple[Step, ...]:
    c = load.combination
    terms = [f"{c.dead:g} x {load.dead:.4f}"]
    if c.snow:
        terms.append(f"{c.snow:g} x {load.snow:.4f}")
    if c.wind:
        terms.append(f"{c.wind:g} x {load.wind:.4f}")
    steps = [
        Step(
            says="Load square to the sheet",
            formula=c.name,
            numbers=" + ".join(terms),
            result=load.total,
            unit="kN/m2",
            clause=c.clause,
        )
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
    inputs = (*stiffness.rests_on, *creep_inputs, *_sheet_load_inputs(ground))
    size = abs(sag.total_mm)
    working = (*_load_steps(load, abs(load.total)), _sag_step(load, creep, sag, span))
    place = Place(bay=sheet.bay.number, at=load.at)
    if size > span / RANGE_OVER:
        why = (
            f"Refused: not shown to carry. It would sag {size:.0f}, more than span/20 ({span / RANGE_OVER:.0f}), "
            "and there small-deflection theory ends. Closer bars, a declared load table, or purlins."
        )
        shown = Shown(
            says=why, rests_on=inputs, working=working, cure="Closer bars, a declared load table, or purlins."
        )
        return Answer(check=open_check(rule, place, "refused", shown, demand=size, case=load.words))
    estimated = "estimated" if size <= span / ESTIMATE_OVER else "estimated, get the supplier's table"
    share = f"span/{span / size:.0f}" if size > 0.0 else "none"
    says = f"{estimated[0].upper()}{estimated[1:]}: sag {size:.1f} over {span:.0f}, {share}."
    check = compared(
        rule,
        place,
        demand=size,
        capacity=span / RANGE_OVER,
        case=load.words,
        shown=Shown(says=says, rests_on=inputs, working=working, cure="Closer bars."),
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


def _sag_step(load: SheetLoad, creep: Creep, sag: Sag, span: float) -> Step:
    return Step(
        says=f"Sag at the {load.at}, creep in",
        formula="5 q b4 / (384 By) + q b2 / (8 Sy), ends free + 25 %",
        numbers=f"q with creep {crept_load(load, creep):.4f}, b {span:.0f}: {sag.bending_mm:.1f} + {sag.shear_mm:.1f}",
        result=abs(sag.total_mm),
        unit="mm",
        clause="mechanics of a strip; four-edge plate between purlins",
    )


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
        path = f"sheets.{ground.parts.sheet.id}.load_table"
        shown = Shown(
            says=f"The table asks for {table.edge_cover_mm:g} of edge cover, {table.edge_cover_is}.",
            rests_on=(RestsOn(input=path, value=table.source, mark=table.mark), *temperature_inputs(ground)),
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
        at_once = (bite_needed_mm(edge), edge.bite_cold_mm - drawn, f"{side} edge, characteristic load")
        at_more = (
            edge.rib_at_mm or 0.0,
            edge.bite_cold_mm - beyond,
            f"{side} edge, 1.5 times the load: the rib",
        )
        found += [at_once, at_more]
    demand, capacity, case = min(found, key=lambda f: f[1] - f[0])
    cold = min(sheet.bay.edges.left.bite_cold_mm, sheet.bay.edges.right.bite_cold_mm)
    return compared(
        rule,
        Place(bay=sheet.bay.number),
        demand=demand,
        capacity=capacity,
        case=case,
        shown=Shown(
            rests_on=(*temperature_inputs(ground), ground.of_bar("rebate_mm")),
            working=(
                Step(
                    says="Sheet drawn in by its sag",
                    formula="(2.487 wb^2 + 5.12 wb ws + 2.667 ws^2) / b",
                    numbers=f"wb {sag.bending_mm:.1f}, ws {sag.shear_mm:.1f}, b {span:.0f}",
                    result=drawn,
                    unit="mm",
                    clause="mechanics",
                ),
                Step(
                    says="Bite left",
                    formula="cold bite - drawn in",
                    numbers=f"{cold:.1f}, less {drawn:.2f} ({beyond:.2f} at 1.5 times the load)",
                    result=capacity,
                    unit="mm",
                    clause="geometry",
                ),
            ),
            cure="Closer bars, a stiffer sheet or a deeper rebate.",
        ),
    )
