"""The two ends of each rafter: its seat or hanger at the wall plate, its tie to the beam, or to both beams."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, cast

from pentice.checks.ground import Ground, Rule, compared, open_check
from pentice.checks.held_down import Lift, held, lift_of
from pentice.checks.passed_on import Combined, PassedOn
from pentice.checks.rafter_model import rafter_models
from pentice.checks.values import Check, Place, Shown
from pentice.checks.worst import greatest_place
from pentice.loads.combine import Combination
from pentice.standards.en1995 import Duration
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_EQU = "EN 1990, Table A1.2(A)"
SEAT = Rule(
    id="hanger-down", name="Rafter on the wall plate, down", member="frame", clause="EN 1990, 6.10", unit="kN"
)
UP = Rule(id="hanger-up", name="Rafter held at the wall plate, up", member="frame", clause=_EQU, unit="kN")
TIE = Rule(id="rafter-tie", name="Rafter held down to the beam", member="frame", clause=_EQU, unit="kN")
HEAD_TIE = Rule(
    id="rafter-tie-head", name="Rafter held down to the head beam", member="frame", clause=_EQU, unit="kN"
)
RULES = (SEAT, UP, TIE)
FREE_RULES = (HEAD_TIE, TIE)


def joint_checks(ground: Ground, loads: PassedOn) -> Iterator[Check]:
    """Seat, hanger and tie of the rafter that asks most of them.

    Parameters
    ----------
    ground
        The inputs of every check.
    loads
        What the rafters pass on, with the wind of each rafter's own area: `with_own_area`.

    Yields
    ------
    Check
        Refused, with the force that is needed, where nothing is declared for it.

    Source
    ------
    Statics with the wind of the rafter's own loaded area; the seat's own crushing is not counted. EN 1990:2002.
    """
    import numpy as np

    acting = list(loads.at_their_most)
    cases, factors = tuple(loads.cases[i] for i in acting), loads.factors[acting]
    heads = factors @ np.array([load.head_n for load in loads.all]) / 1000.0
    feet = factors @ np.array([load.foot_n for load in loads.all]) / 1000.0
    if not ground.job.roof.attached:
        yield _held(ground, HEAD_TIE, cases, loads, heads, "frame.rafter_tie_kn", "")
        yield _held(ground, TIE, cases, loads, feet, "frame.rafter_tie_kn", "")
        return
    if not ground.job.frame.head_notch_mm:  # else the rafter lies on the plate: see its bearing there
        yield _seat(ground, cases, loads, heads)
    yield _held(ground, UP, cases, loads, heads, "frame.hanger_up_kn", "")
    yield _held(ground, TIE, cases, loads, feet, "frame.rafter_tie_kn", "")


def _seat(ground: Ground, cases: tuple[Combined, ...], loads: PassedOn, heads: NDArray[np.float64]) -> Check:
    i, k = divmod(greatest_place(heads), heads.shape[1])
    step, words = _on_seat(cases[i], loads, k, float(heads[i, k])), cases[i].words
    person = _person(ground, loads)
    if person is not None and float(person[0].result) > float(step.result):
        (step, k), words = person, "G + Q over the seat, no sharing"
    force, declared = float(step.result), ground.job.frame.hanger_down_kn
    rests = (ground.of_snow(), ground.of_wind())
    place = Place(rafter=k + 1, at="head")
    if declared is None:
        why = (
            f"Needs {force:.2f} kN. Give frame.hanger_down_kn, the declared design resistance of the hanger, or of the "
            "seat where the rafter is birdsmouthed."
        )
        return open_check(
            SEAT, place, "refused", lambda: Shown(says=why, rests_on=rests), demand=force, case=words
        )
    shown = Shown(
        rests_on=(*rests, ground.of_job("frame.hanger_down_kn", declared)),
        working=(step,),
        cure="A stronger hanger.",
    )
    return compared(SEAT, place, demand=max(force, 0.0), capacity=declared, case=words, shown=shown)


def _on_seat(case: Combined, loads: PassedOn, k: int, force_kn: float) -> Step:
    return Step(
        says="On the hanger",
        formula="R / cos(pitch) of the head",
        numbers=f"{_terms(case, loads, k)}; {case.words}",
        result=force_kn,
        unit="kN",
        clause=case.combination.clause,
    )


def _person(ground: Ground, loads: PassedOn) -> tuple[Step, int] | None:
    """A person's weight over the seat of the heaviest rafter end, and which; None where no point load is known."""
    point = ground.loads.imposed.point_kn
    if point is None:
        return None
    factors, k = ground.annex.factors, max(range(len(loads.dead.head_n)), key=lambda n: loads.dead.head_n[n])
    dead = loads.dead.head_n[k] / 1000.0
    step = Step(
        says="On the hanger",
        formula="gamma_G G + gamma_Q Q_k, a person over it, alone",
        numbers=f"{factors.permanent_up:g} x ({dead:.4f}) + {factors.variable:g} x {point:g}",
        result=factors.permanent_up * dead + factors.variable * point,
        unit="kN",
        clause="EN 1991-1-1, 6.3.4; EN 1990, 6.10",
    )
    return step, k


def _terms(case: Combined, loads: PassedOn, k: int) -> str:
    """Each load on the head of a rafter with its factor: "1.35 x 0.3012 + 1.5 x 1.2210"."""
    return " + ".join(
        f"{factor:g} x ({loads.all[load].head_n[k] / 1000.0:.4f})" for load, factor in case.acting
    )


def _held(
    ground: Ground,
    rule: Rule,
    cases: tuple[Combined, ...],
    loads: PassedOn,
    ends: NDArray[np.float64],
    key: str,
    more: str,
) -> Check:

    lifting = [i for i, case in enumerate(cases) if case.combination.kind == "uplift"]
    if not lifting:
        lifting = [0]
    rows = ends[lifting]
    n, k = divmod(greatest_place(-rows), rows.shape[1])
    case = cases[lifting[n]]
    at_head = rule is not TIE
    weight = case.combination.dead * (loads.dead.head_n if at_head else loads.dead.foot_n)[k] / 1000.0
    lifts = loads.dead_lifts_n[k] / 1000.0 if at_head else 0.0
    lift = lift_of(ground, case, float(rows[n, k]), weight, lifts)
    if at_head:
        for number, person in enumerate(_from_the_tip(ground, loads)):
            if person.up_kn - person.weight_kn > lift.up_kn - lift.weight_kn:
                lift, k = person, number
    place = Place(rafter=k + 1, at="head" if at_head else "foot")
    joint = "hanger" if rule is UP else "rafter tie"
    return held(ground, rule, place, lift, key, more, joint)


def _from_the_tip(ground: Ground, loads: PassedOn) -> Iterator[Lift]:
    """What a person's weight at the tip of each rafter lifts at its head; none where no point load is known."""
    point = ground.loads.imposed.point_kn
    if point is None:
        return
    factors = ground.annex.factors
    low, leads = factors.equ_permanent_down, factors.equ_variable
    name = f"{low:g} G + {leads:g} Q at the tip"
    combination = Combination(
        name=name,
        clause=_EQU,
        kind="uplift",
        dead=low,
        imposed=leads,
        duration=cast(Duration, ground.annex.duration_imposed),
    )
    case = Combined(combination, f"{name}, no sharing", ((0, low),))
    for k, model in enumerate(ground.once(rafter_models)):
        up = leads * point * model.overhang_mm / model.span_mm
        weight = low * loads.dead.head_n[k] / 1000.0
        yield lift_of(ground, case, weight - up, weight, loads.dead_lifts_n[k] / 1000.0)
