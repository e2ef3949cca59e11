"""What presses the webs of a bar that carries by itself onto its bearings, against what its supplier declares.

The rule of the standard for it (EN 1999-1-1, 6.7.5) was not seen, and it needs a shape that only the supplier knows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.point_load import PointCase, point_inputs
from pentice.checks.rafter_loads import RafterCase
from pentice.checks.rafter_model import RafterModel
from pentice.checks.rafter_shown import line_steps, rafter_picture, reaction_steps
from pentice.checks.values import Check, Place, Shown
from pentice.mechanics.beam import BeamAnswer
from pentice.working import Step

WEB = Rule(
    id="bar-web",
    name="Bar, its webs over a bearing",
    member="bar",
    clause="the supplier's declared design value",
    unit="kN",
)


def web_check(
    ground: Ground,
    model: RafterModel,
    place: Place,
    cases: Sequence[RafterCase],
    points: Sequence[PointCase],
    why_no_point: str,
) -> Check:
    """The greatest force that presses a bar onto a bearing, at its head or on the beam.

    Parameters
    ----------
    ground, model, place
        The inputs of every check, the bar between its bearings, and which it is.
    cases, points
        Combinations for strength, and a person's weight at each of its places.
    why_no_point
        Why no person's weight is known; empty where it is.

    Returns
    -------
    Check
        Refused, with the force to ask for, where the supplier declares nothing or a load is not known.

    Source
    ------
    Equilibrium; the resistance is declared. A moment over the beam at the same time is the supplier's to count.
    """
    acting: list[RafterCase | PointCase] = [*cases, *points]
    worst = max(acting, key=lambda case: max(_presses(case.answer)))
    head, foot = _presses(worst.answer)
    force, where = max(head, foot, 0.0) / 1000.0, replace(place, at="head" if head > foot else "foot")
    by_person, bar = isinstance(worst, PointCase), ground.parts.bar
    working = (
        *(worst.steps if isinstance(worst, PointCase) else line_steps(ground, model, worst)),
        *reaction_steps(model, worst.line, worst.answer, worst.point),
    )
    loads = () if by_person else (ground.of_snow(), ground.of_wind())
    if bar.web_kn is None or why_no_point:
        says = why_no_point or (
            f"Not calculated: the webs must bear {force:.2f} kN over a bearing, design value. Ask the supplier, and "
            f"give bars.{bar.id}.web_kn as declared."
        )
        shown = Shown(says=says, rests_on=(*point_inputs(ground), *loads), working=working)
        return open_check(WEB, where, "refused", shown, demand=force, case=worst.words)
    declared = Step(
        says="What the webs bear over one bearing, declared",
        formula="F_Rd",
        numbers=f"{bar.web_kn:g}",
        result=bar.web_kn,
        unit="kN",
        clause="the supplier's declared design value",
    )
    shown = Shown(
        says="Where the bar also bends over the beam, its supplier's value must count that.",
        rests_on=(*point_inputs(ground, "web_kn"), *loads),
        working=(*working, declared),
        picture=rafter_picture(model, worst.line, worst.point),
        cure="A block in the bar over its bearings, as its supplier says, or closer bars.",
    )
    return compared(WEB, where, demand=force, capacity=bar.web_kn, case=worst.words, shown=shown)


def _presses(answer: BeamAnswer) -> tuple[float, float]:
    """What presses it onto its head bearing and onto the beam [N]."""
    return answer.head_reaction_n, answer.foot_reaction_n
