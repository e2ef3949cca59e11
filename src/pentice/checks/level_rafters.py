"""What pushes the ends of a rafter level: wind on roof, ends and front, and the push across a free-standing roof.

No noggin passes anything on to a next rafter, and all of it comes at once with what lifts: on the safe side. What
presses a rafter on its beam, or against the wall, goes by contact; a hanger carries what presses it down as well.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from pentice.checks.ground import JUDGEMENT, Ground, Rule, open_check
from pentice.checks.level import (
    STATICS,
    Holds,
    Keys,
    Pushed,
    blowing,
    holds,
    level_check,
    level_line,
    up_line,
)
from pentice.checks.level_parts import End, Part, Situation, level_parts, widths_m
from pentice.checks.passed_on import PassedOn
from pentice.checks.rests import of_roof
from pentice.checks.values import Check, Place, Shown
from pentice.checks.walls import why_no_wind_on_walls
from pentice.checks.worst import greatest_place
from pentice.errors import OutsideScope
from pentice.loads.combine import Combination
from pentice.working import Step

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

HANGER = Rule(
    id="hanger-level",
    name="Rafter at the wall plate, held level",
    member="frame",
    clause=STATICS,
    unit="of 1",
)
TIE = Rule(
    id="rafter-tie-level", name="Rafter on the beam, held level", member="frame", clause=STATICS, unit="of 1"
)
HEAD_TIE = Rule(
    id="rafter-tie-head-level",
    name="Rafter on the head beam, held level",
    member="frame",
    clause=STATICS,
    unit="of 1",
)
LEVEL_RULES = (HANGER, TIE)
FREE_LEVEL_RULES = (HEAD_TIE, TIE)
_KEYS = {
    "hanger": Keys(
        level="frame.hanger_level_kn", up="frame.hanger_up_kn", down="frame.hanger_down_kn", joint="hanger"
    ),
    "rafter tie": Keys(level="frame.rafter_tie_level_kn", up="frame.rafter_tie_kn", joint="rafter tie"),
}
_ARRIVES = "R what each load brings here, down positive"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pushes:
    """The push across a free-standing roof, design value, and why it is not known."""

    push_kn: float = 0.0
    refused: str = ""


def rafter_level_checks(ground: Ground, loads: PassedOn, across: Pushes | None) -> Iterator[Check]:
    """Hanger and tie, or both ties, of the rafter whose level forces ask most of them.

    Parameters
    ----------
    ground
        The inputs of every check.
    loads
        What the rafters pass on, with the wind of each rafter's own area: `with_own_area`.
    across
        The push across a free-standing roof; None for a roof on a wall.

    Yields
    ------
    Check
        [of 1]; refused, with the force that is needed, where nothing is declared for it.

    Source
    ------
    Statics; EN 1991-1-4:2005, 7.2, 7.5, 7.6. A free-standing roof: each tie may pass on its share of all that pushes
    the roof across, judgement, on the safe side.
    """
    rules = LEVEL_RULES if across is None else FREE_LEVEL_RULES
    why = _why_not(ground, across)
    if not why:
        try:
            parts = {end: tuple(level_parts(ground, end)) for end in ("head", "foot")}
        except OutsideScope as refusal:
            why = str(refusal)
    if why:
        for rule in rules:
            yield open_check(rule, Place(), "refused", Shown(says=why))
        return
    for rule in rules:
        end: End = "foot" if rule is TIE else "head"
        yield _worst(ground, rule, loads, end, parts[end], 0.0 if across is None else across.push_kn)


def _why_not(ground: Ground, across: Pushes | None) -> str:
    roof = ground.job.roof
    if across is not None and across.refused:
        return across.refused
    if "closed" in (roof.left, roof.right, roof.front, roof.back):
        why = why_no_wind_on_walls(ground)
        if why:
            return why
        if ground.shape.head_height_mm is None or ground.shape.eaves_height_mm is None:
            return "The height of the walls is not known: give roof.eaves_height_mm, or the head height."
    return ""


# What arrives at once


@dataclass(frozen=True, slots=True, kw_only=True)
class _Arrives:
    """At the end of every rafter in every combination with wind, shape (cases, rafters) [kN]."""

    acting: Sequence[int]
    """Places in `PassedOn.cases`."""
    along: Array
    square: Array
    up: Array
    down: Array


def _arrives(
    loads: PassedOn, end: End, parts: Sequence[Part], push_kn: float, ground: Ground, *, presses: bool
) -> _Arrives:
    import numpy as np

    acting = [i for i in loads.at_their_most if loads.cases[i].combination.wind > 0.0]
    c = [loads.cases[i].combination for i in acting]
    factors, wind = loads.factors[acting], np.array([[one.wind] for one in c])
    pull = factors @ np.array([load.pull_n for load in loads.all]) / 1000.0
    ends = [load.head_n if end == "head" else load.foot_n for load in loads.all]
    vertical = factors @ np.array(ends) / 1000.0
    attached = ground.job.roof.attached
    if attached:
        pull = np.maximum(pull, 0.0) if end == "head" else np.zeros_like(pull)
    level = {"along": np.zeros_like(pull), "square": np.abs(pull)}
    by_accident = np.array([[one.wind_accidental] for one in c])
    for part in parts:
        force = np.where(by_accident, part.of_each["accidental"], part.of_each["persistent"])
        level[part.way] = level[part.way] + wind * force
    if not attached:
        level["square"] = np.maximum(level["square"], wind / blowing(ground).wind * _of_push(ground, push_kn))
    return _Arrives(
        acting=acting,
        along=level["along"],
        square=level["square"],
        up=np.maximum(-vertical + _more(ground, loads, end, c), 0.0),
        down=np.maximum(vertical, 0.0) if presses else np.zeros_like(vertical),
    )


def _of_push(ground: Ground, push_kn: float) -> Array:
    """Each rafter's share of the push across [kN]."""
    import numpy as np

    wide = np.array(widths_m(ground))
    found: Array = push_kn * wide / wide.sum()
    return found


def _more(ground: Ground, loads: PassedOn, end: End, combinations: Sequence[Combination]) -> Array:
    """What dead weight that lifts the head counts more than in the combination: as `held_down.lift_of` [kN]."""
    import numpy as np

    up = ground.annex.factors.equ_permanent_up
    more = np.array([[max(up - c.dead, 0.0) if c.kind == "uplift" else 0.0] for c in combinations])
    lifts = np.array(loads.dead_lifts_n) / 1000.0 if end == "head" else np.zeros(len(loads.dead_lifts_n))
    found: Array = more * lifts
    return found


def _worst(
    ground: Ground, rule: Rule, loads: PassedOn, end: End, parts: Sequence[Part], push_kn: float
) -> Check:
    """The rafter and the combination that use most of what holds it, or need most where nothing is known."""
    by = holds(ground, _KEYS["hanger" if rule is HANGER else "rafter tie"])
    presses = rule is HANGER and not ground.job.frame.head_notch_mm
    arrives = _arrives(loads, end, parts, push_kn, ground, presses=presses)
    used = _used(arrives, by)
    i, k = divmod(greatest_place(used), used.shape[1])
    case = loads.cases[arrives.acting[i]]
    on = Pushed(
        along_kn=float(arrives.along[i, k]),
        square_kn=float(arrives.square[i, k]),
        up_kn=float(arrives.up[i, k]),
        down_kn=float(arrives.down[i, k]),
        case=case.words,
        steps=partial(_steps, ground, loads, end, parts, push_kn, (arrives, i, k)),
    )
    situation: Situation = "accidental" if case.combination.wind_accidental else "persistent"
    acting = [part for part in parts if part.of_each[situation][k]]
    rests = [*of_roof(ground, "pitch_deg"), *(given for part in acting for given in part.rests_on)]
    if not ground.job.roof.attached:
        rests += of_roof(ground, "width_mm")
    on = replace(on, rests_on=tuple(dict.fromkeys(rests)))
    return level_check(ground, rule, Place(rafter=k + 1, at=end), on, by)


def _used(arrives: _Arrives, by: Holds) -> Array:
    import numpy as np

    level = np.hypot(arrives.along, arrives.square)
    if by.missing:
        return level
    unknown = (arrives.up > 0.0) if by.up_missing else np.zeros_like(level, dtype=bool)
    if not by.down_kn:
        unknown |= arrives.down > 0.0
    if unknown.any():
        return np.where(unknown, level, 0.0)
    if by.declared:
        used = level / by.along_kn
    else:
        used = arrives.along / by.along_kn + arrives.square / by.square_kn
    for force, resists in ((arrives.up, by.up_kn), (arrives.down, by.down_kn)):
        if resists:
            used = used + force / resists
    found: Array = used
    return found


def _steps(
    ground: Ground,
    loads: PassedOn,
    end: End,
    parts: Sequence[Part],
    push_kn: float,
    at: tuple[_Arrives, int, int],
) -> tuple[Step, ...]:
    arrives, i, k = at
    case = loads.cases[arrives.acting[i]]
    c, found = case.combination, []
    situation: Situation = "accidental" if c.wind_accidental else "persistent"
    terms: dict[str, list[tuple[str, str]]] = {"along": [], "square": []}
    own = [(factor, loads.all[n].pull_n[k] / 1000.0) for n, factor in case.acting if loads.all[n].pull_n[k]]
    drawn = sum(factor * pull for factor, pull in own)
    attached = ground.job.roof.attached
    if own and (not attached or (end == "head" and drawn > 0.0)):
        numbers = " + ".join(f"{factor:g} x ({pull:.5f})" for factor, pull in own)
        found.append(
            Step(
                says="Level part of the wind on its own area",
                formula="H_0 = sum gamma R sin(pitch)",
                numbers=numbers,
                result=drawn,
                unit="kN",
                clause="statics; R what each load brings square to the slope, in brackets its level part",
            )
        )
        terms["square"].append(("|H_0|", f"|{drawn:.5f}|"))
    for part in parts:
        if part.of_each[situation][k]:
            found.append(part.step(situation, k))
            terms[part.way].append((f"gamma {part.name}", f"{c.wind:g} x {part.of_each[situation][k]:.5f}"))
    for way, force in (("along", arrives.along), ("square", arrives.square)):
        here = float(force[i, k])
        formula, numbers = (" + ".join(term[n] for term in terms[way]) for n in (0, 1))
        if way == "square" and not attached:
            found.append(_push_step(ground, push_kn, c.wind, k))
            formula = f"max({formula or '0'}, H_a)"
            numbers = f"max({numbers or '0'}, {float(found[-1].result):.5f})"
        if here:
            found.append(level_line(way, formula, numbers, here))
    return (*found, *_vertical(ground, loads, end, at))


def _push_step(ground: Ground, push_kn: float, wind: float, k: int) -> Step:
    wide, most = widths_m(ground), blowing(ground).wind
    return Step(
        says="Its share of all that pushes the roof across",
        formula="H_a = H b / B, less with less wind",
        numbers=f"{push_kn:.5f} x {wide[k]:.4f} / {sum(wide):.4f} x {wind:g} / {most:g}",
        result=float(_of_push(ground, push_kn)[k]) * wind / most,
        unit="kN",
        clause=f"H: see the bracing across; through the ties of either row, {JUDGEMENT}",
    )


def _vertical(ground: Ground, loads: PassedOn, end: End, at: tuple[_Arrives, int, int]) -> Iterator[Step]:
    """What lifts or presses at once, from the loads of the case."""
    arrives, i, k = at
    case = loads.cases[arrives.acting[i]]
    up, down = float(arrives.up[i, k]), float(arrives.down[i, k])
    if not up and not down:
        return
    values = [
        (factor, (loads.all[n].head_n if end == "head" else loads.all[n].foot_n)[k] / 1000.0)
        for n, factor in case.acting
    ]
    numbers = " + ".join(f"{factor:g} x ({value:.5f})" for factor, value in values)
    if not up:
        yield Step(
            says="Presses here at once",
            formula="sum gamma R",
            numbers=numbers,
            result=down,
            unit="kN",
            clause=f"{case.combination.clause}; {_ARRIVES}",
        )
        return
    more = float(_more(ground, loads, end, [case.combination])[0, k])
    added = f" + {more:.5f}" if more else ""
    yield up_line(
        f"U = 0 - sum gamma R{' + (gamma_sup - gamma_inf) G_lifts' if more else ''}",
        f"0 - ({numbers}){added}",
        up,
        f"{case.combination.clause}; {_ARRIVES}",
    )
