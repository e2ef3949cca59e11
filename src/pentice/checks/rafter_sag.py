"""How far a rafter sags, at once and in the end, to EN 1995-1-1, 2.2.3 and 7.2."""

from __future__ import annotations

from pentice.checks.ground import Ground, Rule, compared
from pentice.checks.rafter_loads import RafterCase, lasting_factors
from pentice.checks.rafter_model import RafterModel
from pentice.checks.rafter_shown import EDITION, SYMBOLS, inputs_of, line_steps, rafter_picture, sag_steps
from pentice.checks.timber_shown import limit_step, service_class
from pentice.checks.values import Check, Place, Shown
from pentice.standards.en1995 import k_def
from pentice.standards.en1995_deflection import (
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
    sagging = [case for case in cases if case.acting.lasts]
    now = max(sagging, key=lambda c: abs(c.answer.span_sag_mm))
    sag_now = abs(now.answer.span_sag_mm)
    end = max(sagging, key=lambda c: abs(c.final_sag_mm))
    in_the_end = abs(end.final_sag_mm)
    cap = ground.annex.limit_cap_mm
    soft = f"More than {cap:g} mm: on the soft side for glazing, common practice." if sag_now > cap else ""
    limits = (
        instant_limit_mm(model.span_mm, divisor=ground.annex.limit_w_inst),
        final_limit_mm(model.span_mm, divisor=ground.annex.limit_w_fin),
    )
    return in_the_end, (
        compared(
            INSTANT,
            place,
            demand=sag_now,
            capacity=limits[0],
            case=now.words,
            shown=lambda: _shown(ground, model, now, limits[0], says=soft),
        ),
        compared(
            FINAL,
            place,
            demand=in_the_end,
            capacity=limits[1],
            case=end.words,
            shown=lambda: _shown(ground, model, end, limits[1], _end_step(ground, end)),
        ),
    )


def _shown(
    ground: Ground, model: RafterModel, case: RafterCase, limit_mm: float, *more: Step, says: str = ""
) -> Shown:
    steps = (*line_steps(ground, model, case), *sag_steps(model, case), *more)
    return Shown(
        says=says,
        rests_on=ground.once(inputs_of),
        working=(*steps, limit_step(model.span_mm, limit_mm)),
        picture=rafter_picture(model, case.line),
        cure="A deeper rafter or closer rafters.",
    )


def _end_step(ground: Ground, case: RafterCase) -> Step:
    lasting = ground.once(lasting_factors)
    return Step(
        says="Sag in the end",
        formula="w_fin: G * (1 + k_def), leading Q * (1 + psi_2 k_def), others * (psi_0 + psi_2 k_def)",
        numbers="integrated as before under "
        + " + ".join(f"{lasting[p.action, p.factor == 1.0]:.3g} {SYMBOLS[p.action]}" for p in case.parts)
        + f"; k_def {k_def(service_class(ground)):g}",
        result=abs(case.final_sag_mm),
        unit="mm",
        clause="EN 1995-1-1, 2.2.3, eq. 2.2 to 2.5",
    )
