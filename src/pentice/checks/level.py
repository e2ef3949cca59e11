"""A joint that is pushed level, and lifted, pressed or turned at once: what arrives against what holds it.

A bought connector holds what its paper declares: level, up or down, and against turning, added in a straight line
(judgement) unless its maker says otherwise. Fasteners that the job describes are added so too: EN 1995-1-1, eq. 8.27.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from pentice.checks.fasteners import NOT_HERE, fastened
from pentice.checks.fasteners_level import fastened_level
from pentice.checks.ground import JUDGEMENT, Ground, Rule, compared, open_check
from pentice.checks.pads_values import statics_of
from pentice.checks.values import Check, Place, RestsOn, Shown
from pentice.loads.combine import Combination
from pentice.records import quickly_made
from pentice.working import Step

STATICS = "statics; EN 1990, 6.10"
_LEVEL = "both ways"
_LINEAR = "EN 1995-1-1, eq. 8.27, from memory; screws, bolts and two shears: on the safe side"


@dataclass(frozen=True, slots=True, kw_only=True)
class Keys:
    """Where the job says what holds a joint: level, up and down, and the name of the joint for its fasteners."""

    level: str
    up: str
    down: str = ""
    """Empty: what presses goes by contact, not through the connector."""
    joint: str = ""
    """Empty: its fasteners are not described, the connector is bought."""
    turn: str = ""
    """Against turning; empty: nothing turns it."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Pushed:
    """What arrives at a joint at once, in size [kN]."""

    along_kn: float
    """Along beam or plate."""
    square_kn: float
    up_kn: float
    """Beyond the weight that holds it."""
    down_kn: float
    """What presses through the connector; 0 where it goes by contact."""
    case: str
    steps: Callable[[], tuple[Step, ...]]
    """The lines that lead to all of them."""
    along_knm: float = 0.0
    """Turned along the row, and square to it [kNm]."""
    square_knm: float = 0.0
    rests_on: tuple[RestsOn, ...] = ()
    """What they come from, beside snow and wind."""

    @property
    def level_kn(self) -> float:
        """Both ways together: as the sides of a triangle."""
        return math.hypot(self.along_kn, self.square_kn)

    @property
    def turned_knm(self) -> float:
        """Both ways added: a foot is no round bar."""
        return self.along_knm + self.square_knm


@dataclass(frozen=True, slots=True, kw_only=True)
class Holds:
    """What holds a joint [kN, kNm], and where it is known from."""

    keys: Keys
    along_kn: float = 0.0
    square_kn: float = 0.0
    """Of a declared connector the same as along, both as the sides of a triangle."""
    up_kn: float = 0.0
    down_kn: float = 0.0
    turn_knm: float = 0.0
    declared: bool = False
    missing: str = ""
    """Why nothing is known of level forces."""
    up_missing: str = ""
    """The same of what lifts."""
    working: tuple[Step, ...] = ()
    rests_on: tuple[RestsOn, ...] = ()
    says: str = ""


def blowing(ground: Ground) -> Combination:
    """A combination with the most wind, for how long level forces last.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    Combination
        Of those for strength and uplift.

    Source
    ------
    Definition.
    """
    return ground.once(_blowing)


def _blowing(ground: Ground) -> Combination:
    lasting = [c for c in ground.loads.combinations if c.kind in ("strength", "uplift")]
    return max(lasting, key=lambda c: c.wind)


def holds(ground: Ground, keys: Keys) -> Holds:
    """What the job declares or describes for a joint.

    Parameters
    ----------
    ground, keys
        The inputs of every check, and where to look.

    Returns
    -------
    Holds
        [kN].

    Source
    ------
    Declared; else EN 1995-1-1:2004, section 8.
    """
    combination = blowing(ground)
    known = {key: _declared(ground, key) for key in (keys.level, keys.up, keys.down, keys.turn) if key}
    level, up = known[keys.level], known[keys.up]
    rests = [ground.of_job(key, value) for key, value in known.items() if value is not None]
    found = Holds(
        keys=keys,
        up_kn=up or 0.0,
        down_kn=known.get(keys.down) or 0.0,
        turn_knm=known.get(keys.turn) or 0.0,
    )
    working: tuple[Step, ...] = ()
    by = fastened(ground, keys.joint, combination) if up is None and keys.joint else None
    if up is None:
        if by is None or by.refused:
            found = replace(
                found, up_missing=f"What lifts it at once is not held by anything known: give {keys.up}."
            )
        else:
            found, working = replace(found, up_kn=by.resistance_kn), by.working
            rests.append(ground.of_job("frame.fasteners", keys.joint))
    if level is not None:
        return replace(
            found, along_kn=level, square_kn=level, declared=True, working=working, rests_on=tuple(rests)
        )
    sideways = fastened_level(ground, keys.joint, combination) if keys.joint else None
    if sideways is None or sideways.refused:
        give = f"give {keys.level}, the declared design resistance of what you fit to a force level, whichever way"
        either = (
            ", or what fastens it: frame.fasteners" if keys.joint and sideways is None and up is None else ""
        )
        why = f"{give}{either}."
        why = why[0].upper() + why[1:] if sideways is None else f"{sideways.refused} Or {why}"
        return replace(found, missing=why, rests_on=tuple(rests))
    return replace(
        found,
        along_kn=sideways.along_kn,
        square_kn=sideways.square_kn,
        working=(*working, *sideways.working),
        rests_on=tuple(rests),
        says=NOT_HERE,
    )


def _declared(ground: Ground, key: str) -> float | None:
    value: float | None = getattr(ground.job.frame, key.partition(".")[2])
    return value


def level_check(ground: Ground, rule: Rule, place: Place, on: Pushed, by: Holds, cure: str = "") -> Check:
    """What pushes a joint level, with what lifts, presses or turns it, against what holds it.

    Parameters
    ----------
    ground, rule, place
        What is asked, and where.
    on, by
        What arrives at once, and what holds.
    cure
        The way out in words.

    Returns
    -------
    Check
        [of 1]; refused, with the force that is needed [kN], where nothing is declared or described.

    Source
    ------
    A straight line: judgement for declared connectors; EN 1995-1-1:2004, eq. 8.27 for fasteners, from memory.
    """
    weather = (*on.rests_on, ground.of_snow(), ground.of_wind())
    missing = why_unknown(on, by)
    if missing and on.level_kn > 0.0:
        with_it = [f"{on.up_kn:.2f} kN lift it"] if on.up_kn else []
        with_it += [f"{on.turned_knm:.2f} kNm turn it"] if on.turned_knm else []
        at_once = f" while {' and '.join(with_it)}" if with_it else ""

        def refusal() -> Shown:
            says = f"Needs {on.level_kn:.2f} kN level{at_once}. {missing}"
            return Shown(says=says, rests_on=weather, working=(*on.steps(), *_both_ways(on)))

        asked = replace(rule, unit="kN")
        return open_check(asked, place, "refused", refusal, demand=on.level_kn, case=on.case)

    def shown() -> Shown:
        return Shown(
            says=by.says,
            rests_on=(*weather, *by.rests_on),
            working=(*on.steps(), *by.working, _together(on, by)),
            cure=cure or _cure(on),
        )

    return compared(rule, place, demand=_used(on, by), capacity=1.0, case=on.case, shown=shown)


def _cure(on: Pushed) -> str:
    """What helps: a foot that is turned needs more against turning too."""
    if on.turned_knm:
        return "A foot declared for more against turning, level and up, or more posts."
    return "A connector declared for more level, or one more beside it."


def why_unknown(on: Pushed, by: Holds) -> str:
    """Why what arrives cannot be compared with what holds; empty where it can.

    Parameters
    ----------
    on, by
        As in `level_check`.

    Returns
    -------
    str
        A sentence with the key to give.

    Source
    ------
    Definition.
    """
    if by.missing:
        return by.missing
    if on.up_kn > 0.0 and by.up_missing:
        return by.up_missing
    if on.down_kn > 0.0 and not by.down_kn:
        return f"What presses it at once is not held by anything known: give {by.keys.down}."
    if on.turned_knm > 0.0 and not by.turn_knm:
        return f"What turns it at once is not held by anything known: give {by.keys.turn}."
    return ""


def share(on: Pushed, by: Holds) -> float:
    """How much of what holds a joint is used, for the worst of several; the force alone where nothing is known.

    Parameters
    ----------
    on, by
        As in `level_check`.

    Returns
    -------
    float
        [of 1], or [kN].

    Source
    ------
    As `level_check`.
    """
    return on.level_kn if why_unknown(on, by) else _used(on, by)


def _both_ways(on: Pushed) -> Iterator[Step]:
    yield Step(
        says="Level, both ways",
        formula="sqrt(H_along^2 + H_square^2)",
        numbers=f"sqrt({on.along_kn:.5f}^2 + {on.square_kn:.5f}^2)",
        result=on.level_kn,
        unit="kN",
        clause="statics",
    )


def _terms(on: Pushed, by: Holds) -> list[tuple[str, float, float]]:
    """What arrives at a joint, each way with what holds it there [kN, kNm]; the first may be all that is level."""
    upright = [("U", on.up_kn, by.up_kn), ("N", on.down_kn, by.down_kn), ("M", on.turned_knm, by.turn_knm)]
    if on.level_kn and by.declared:
        return [(_LEVEL, on.level_kn, by.along_kn), *(term for term in upright if term[1] and term[2])]
    level = [("along", on.along_kn, by.along_kn), ("square", on.square_kn, by.square_kn)]
    return [term for term in (*level, *upright) if term[1] and term[2]]


def _used(on: Pushed, by: Holds) -> float:
    return float(sum(force / resists for _, force, resists in _terms(on, by)))


def _together(on: Pushed, by: Holds) -> Step:
    terms = _terms(on, by)
    formulas, numbers = [], []
    for name, force, resists in terms:
        if name == _LEVEL:
            both = bool(on.along_kn and on.square_kn)
            formulas.append("sqrt(H_along^2 + H_square^2) / H_d" if both else "H / H_d")
            said = f"sqrt({on.along_kn:.5f}^2 + {on.square_kn:.5f}^2)" if both else f"{force:.5f}"
            numbers.append(f"{said} / {resists:g}")
        else:
            formulas.append(f"{name} / {name}_d" if name in "UNM" else f"H_{name} / R_{name}")
            numbers.append(f"{force:.5f} / {resists:.5g}")
    return Step(
        says="All at once",
        formula=" + ".join(formulas) or "nothing arrives",
        numbers=" + ".join(numbers) or "0",
        result=_used(on, by),
        unit="of 1",
        clause=f"linear, {JUDGEMENT}; or as its maker says" if by.declared else _LINEAR,
    )


def level_line(way: str, formula: str, numbers: str, result: float) -> Step:
    """The force that arrives one way: "Level here, along".

    Parameters
    ----------
    way
        "along" or "square".
    formula, numbers, result
        As of any line [kN].

    Returns
    -------
    Step
        [kN].

    Source
    ------
    Statics.

    Examples
    --------
    >>> level_line("along", "H / n", "2 / 4", 0.5).says
    'Level here, along'
    """
    return Step(
        says=f"Level here, {way}",
        formula=formula,
        numbers=numbers,
        result=result,
        unit="kN",
        clause=statics_of(formula),
    )


def up_line(formula: str, numbers: str, result: float, clause: str) -> Step:
    """What lifts at once.

    Parameters
    ----------
    formula, numbers, result, clause
        As of any line [kN].

    Returns
    -------
    Step
        [kN].

    Source
    ------
    EN 1990:2002, Table A1.2(A).

    Examples
    --------
    >>> up_line("U - gamma G", "3 - 1", 2.0, "EN 1990").result
    2.0
    """
    return Step(
        says="Lifts here at once", formula=formula, numbers=numbers, result=result, unit="kN", clause=clause
    )
