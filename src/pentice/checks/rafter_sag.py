"""How far a rafter sags, at once and in the end, to EN 1995-1-1, 2.2.3 and 7.2."""

from __future__ import annotations

from pentice.checks.ground import Ground, Rule, Shown, compared
from pentice.checks.rafter_loads import Part, RafterCase, RafterModel
from pentice.checks.rafter_shown import (
    EDITION,
    SYMBOLS,
    inputs_of,
    line_steps,
    rafter_picture,
    sag_steps,
    service_class,
)
from pentice.checks.timber_shown import limit_step
from pentice.checks.values import Check, Place
from pentice.mechanics.beam import overhang_beam
from pentice.mechanics.lines import summed_line
from pentice.standards.annex import snow_psi
from pentice.standards.en1995 import k_def
from pentice.standards.en1995_deflection import (
    VariableSag,
    final_deflection_mm,
    final_limit_mm,
    instant_limit_mm,
)
from pentice.working import Step

INSTANT = Rule(
    id="rafter-sag",
    name="Rafter, sag at once",
    member="rafter",
    clause="EN 1995-1-1, 2.2.3, 7.2; limit chosen in its range",
    unit="mm",
    edition=EDITION,
)
FINAL = Rule(
    id="rafter-sag-final",
    name="Rafter, sag in the end",
    member="rafter",
    clause="EN 1995-1-1, 2.2.3, 7.2; limit chosen in its range",
    unit="mm",
    edition=EDITION,
)


def sag_checks(
    ground: Ground, model: RafterModel, cases: tuple[RafterCase, ...], place: Place
) -> tuple[float, tuple[Check, Check]]:
    """Sag of a rafter at once and in the end, against the limits chosen.

    Parameters
    ----------
    ground, model, cases, place
        The inputs of every check, the rafter, every combination on it, and where it stands.

    Returns
    -------
    tuple
        Sag in the end [mm], and both checks.

    Source
    ------
    EN 1995-1-1:2004, 2.2.3 and 7.2.
    """
    # Snow that hangs over the foot lifts the span, so it is left out here.
    sagging = [c for c in cases if c.combination.kind == "characteristic" and not c.hanging_n]
    now = max(sagging, key=lambda c: abs(c.answer.span_sag_mm))
    sag_now = abs(now.answer.span_sag_mm)
    lasting = [(case, _lasting(ground, case)) for case in sagging]
    ends = [
        (overhang_beam(model.beam, summed_line([(f, p.line) for f, p in parts])).span_sag_mm, case, parts)
        for case, parts in lasting
    ]
    in_the_end, end, parts = max(ends, key=lambda found: abs(found[0]))
    cap = ground.annex.limit_cap_mm
    soft = f"More than {cap:g} mm: on the soft side for glazing, common practice." if sag_now > cap else ""
    inputs = inputs_of(ground)
    cure = "A deeper rafter or closer rafters."
    steps = (*line_steps(ground, model, end), *sag_steps(model, end))
    in_the_end_step = Step(
        says="Sag in the end",
        formula="w_fin: G x (1 + k_def), leading Q x (1 + psi_2 k_def), others x (psi_0 + psi_2 k_def)",
        numbers="integrated as before under "
        + " + ".join(f"{f:.3g} {SYMBOLS[p.action]}" for f, p in parts)
        + f"; k_def {k_def(service_class(ground)):g}",
        result=abs(in_the_end),
        unit="mm",
        clause="EN 1995-1-1, 2.2.3, eq. 2.2 to 2.5",
    )
    most = (
        instant_limit_mm(model.span_mm, divisor=ground.annex.limit_w_inst),
        final_limit_mm(model.span_mm, divisor=ground.annex.limit_w_fin),
    )
    return abs(in_the_end), (
        compared(
            INSTANT,
            place,
            demand=sag_now,
            capacity=most[0],
            case=now.words,
            shown=Shown(
                says=soft,
                rests_on=inputs,
                working=(
                    *line_steps(ground, model, now),
                    *sag_steps(model, now),
                    limit_step(model.span_mm, most[0]),
                ),
                picture=rafter_picture(model, now.line),
                cure=cure,
            ),
        ),
        compared(
            FINAL,
            place,
            demand=abs(in_the_end),
            capacity=most[1],
            case=end.words,
            shown=Shown(
                rests_on=inputs,
                working=(*steps, in_the_end_step, limit_step(model.span_mm, most[1])),
                picture=rafter_picture(model, end.line),
                cure=cure,
            ),
        ),
    )


def _lasting(ground: Ground, case: RafterCase) -> tuple[tuple[float, Part], ...]:
    """Each action of a case with the factor that brings it to its sag in the end: sag is a sum, so that factor is
    what the expression gives for this action alone, of size 1."""
    creep = k_def(service_class(ground))
    annex = ground.annex
    psi = {
        "snow": snow_psi(annex, ground.job.site.altitude_m or 0.0),
        "wind": annex.psi_wind,
        "imposed": annex.psi_imposed,
    }
    nothing = VariableSag(sag_mm=0.0, psi_0=0.0, psi_2=0.0)
    found = []
    for part in case.parts:
        if part.action == "dead":
            factor = final_deflection_mm(1.0, nothing, k_def=creep)
        else:
            own = psi[part.action]
            one = VariableSag(sag_mm=1.0, psi_0=own.psi_0, psi_2=own.psi_2)
            leads = part.factor == 1.0
            factor = (
                final_deflection_mm(0.0, one, k_def=creep)
                if leads
                else final_deflection_mm(0.0, nothing, (one,), k_def=creep)
            )
        found.append((factor, part))
    return tuple(found)
