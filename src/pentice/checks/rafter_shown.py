"""The hand calculation of a rafter, line by line, and the picture of its load.

The answers come from `mechanics.beam`; here they are led back to the load in pieces, so that whoever checks finds each
force and moment again from the printed numbers. In kN and m, because that is how it is done by hand.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pentice.checks.ground import Ground
from pentice.checks.rafter_loads import Action, Part, RafterCase
from pentice.checks.rafter_model import RafterModel
from pentice.checks.rests import of_roof
from pentice.checks.timber_shown import service_class
from pentice.checks.values import LoadPicture, RestsOn
from pentice.mechanics.beam import BeamAnswer
from pentice.mechanics.lines import LineLoad
from pentice.working import Step

_HAIR_MM = 1e-6
_BY_HAND = "statics"
EDITION = "EN 1995-1-1:2004+A1:2008"
SYMBOLS: Mapping[Action, str] = {"dead": "G", "snow": "S", "wind": "W", "imposed": "Q"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Force:
    """One piece of a load: its size [kN] and where it acts from the head bearing [m]."""

    kn: float
    at_m: float


def line_steps(ground: Ground, model: RafterModel, case: RafterCase) -> tuple[Step, ...]:
    """The load along the rafter: each part at the head bearing, then all together at both ends.

    Parameters
    ----------
    ground, model, case
        The inputs, the rafter, and the combination that governs.

    Returns
    -------
    tuple of Step
        [kN/m], and what hangs over the foot [kN] where snow does.

    Source
    ------
    EN 1990; geometry; EN 1991-1-3:2003, 6.3, for snow over the foot.
    """
    strip = model.strip.width_mm / 1000.0
    return (
        *(_part_step(ground, strip, part) for part in case.parts),
        *_hanging_steps(ground, model, case),
        _end_step(case, "head bearing", 0),
        _end_step(case, "foot", -1),
    )


def _hanging_steps(ground: Ground, model: RafterModel, case: RafterCase) -> Iterator[Step]:
    if not case.acting.hanging_n:
        return
    yield Step(
        says="Snow that hangs over the foot, at the tip",
        formula="s_e * strip * cos(pitch), factored",
        numbers=f"{case.combination.snow:g} x {ground.loads.snow.foot_line_kn_m:.4f} x "
        f"{model.strip.width_mm / 1000.0:.4f} x cos({ground.shape.pitch_deg:.4f})",
        result=case.acting.hanging_n / 1000.0,
        unit="kN",
        clause="EN 1991-1-3, 6.3",
    )


def _part_step(ground: Ground, strip_m: float, part: Part) -> Step:
    """A part of the load at the head bearing, from the tables of loads."""
    kind, line = SYMBOLS[part.action], part.line
    cos, value, pitch = ground.shape.cos_pitch, line[0][1], f"cos({ground.shape.pitch_deg:.4f})"
    peak = ground.loads.wind.peak_pressure_kn_m2 or 0.0
    dead = ground.loads.dead
    if kind == "S":
        formula = "s cos^2(pitch) * strip"
        numbers = f"{value / strip_m / cos**2:.4f} x {pitch}^2 x {strip_m:.4f}"
    elif kind == "W":
        formula = "c q_p * strip"
        mean = value / strip_m / peak if peak else 0.0
        numbers = f"{mean:.4f} x {peak:.4f} x {strip_m:.4f}; c the mean of the zones across the strip"
    elif kind == "Q":
        formula = "q_k cos^2(pitch) * strip"
        numbers = f"{value / strip_m / cos**2:.4f} x {pitch}^2 x {strip_m:.4f}"
    else:
        along = value / cos - dead.sheet_kn_m2 * strip_m
        formula = "(sheet * strip + bar and timber) cos(pitch)"
        numbers = f"({dead.sheet_kn_m2:.5f} x {strip_m:.4f} + {along:.5f}) x {pitch}"
    names = {"G": "Weight", "S": "Snow", "W": "Wind", "Q": "People"}
    return Step(
        says=f"{names[kind]} at the head bearing",
        formula=f"{kind} = {formula}",
        numbers=numbers,
        result=value,
        unit="kN/m",
        clause="geometry",
    )


def _end_step(case: RafterCase, where: str, end: int) -> Step:
    terms = [(p.factor * p.line[end][1], f"{p.factor:g} x {abs(p.line[end][1]):.4f}") for p in case.parts]
    return Step(
        says=f"Load at the {where}",
        formula=f"{case.combination.name}, square to the slope",
        numbers=_summed(terms),
        result=case.line[end][1],
        unit="kN/m",
        clause=case.combination.clause,
    )


def _summed(terms: Sequence[tuple[float, str]]) -> str:
    """Terms with their signs: each given as its value and its size in words."""
    said = ""
    for value, words in terms:
        sign = " - " if value < 0.0 else " + "
        said += (sign if said else "-" if value < 0.0 else "") + words
    return said or "0"


def _pieces(line: LineLoad, start_mm: float, end_mm: float) -> Iterator[tuple[float, float, float, float]]:
    """The straight pieces of a load between two places: from [mm], to [mm], load at both [kN/m]."""
    for (a, qa), (b, qb) in pairwise(line):
        low, high = max(a, start_mm), min(b, end_mm)
        if high - low <= _HAIR_MM:
            continue
        slope = (qb - qa) / (b - a)
        yield low, high, qa + slope * (low - a), qa + slope * (high - a)


def _forces(line: LineLoad, start_mm: float, end_mm: float) -> list[_Force]:
    found = []
    for a, b, qa, qb in _pieces(line, start_mm, end_mm):
        size = (qa + qb) / 2.0 * (b - a) / 1000.0
        third = (b - a) / 3.0
        middle = a + (third * (qa + 2.0 * qb) / (qa + qb) if abs(qa + qb) > 1e-12 else (b - a) / 2.0)
        found.append(_Force(kn=size, at_m=middle / 1000.0))
    return found


def reaction_steps(
    model: RafterModel, line: LineLoad, answer: BeamAnswer, point: tuple[float, float] | None = None
) -> tuple[Step, ...]:
    """The whole load in its pieces, and what the two bearings take.

    Parameters
    ----------
    model, line, answer
        The rafter, its load from the head bearing [mm, N/mm], and the forces found.
    point
        A single force on it: place [mm], size [N].

    Returns
    -------
    tuple of Step
        [kN].

    Source
    ------
    Equilibrium.
    """
    span = model.span_mm / 1000.0
    forces = _with_point(_forces(line, 0.0, model.length_mm), point)
    areas = []
    for a, b, qa, qb in _pieces(line, 0.0, model.length_mm):
        long = f"{(b - a) / 1000.0:.4f}"
        mean = f"{abs(qa):.4f}" if abs(qa - qb) < 5e-5 else f"({qa:.4f} + {qb:.4f}) / 2".replace("+ -", "- ")
        areas.append((1.0 if mean.startswith("(") else qa, f"{mean} x {long}"))
    if point is not None:
        areas.append((point[1], f"{abs(point[1]) / 1000.0:.4f}"))
    head = _summed([(f.kn * (span - f.at_m), f"{abs(f.kn):.4f} x {abs(span - f.at_m):.4f}") for f in forces])
    total = answer.head_reaction_n + answer.foot_reaction_n
    return (
        Step(
            says="The whole load, piece by piece from the head bearing",
            formula="sum of mean load * length",
            numbers=_summed(areas),
            result=total / 1000.0,
            unit="kN",
            clause=_BY_HAND,
        ),
        Step(
            says="Head bearing takes",
            formula="R_A = sum of piece * lever to the beam / span",
            numbers=f"({head}) / {span:.4f}",
            result=answer.head_reaction_n / 1000.0,
            unit="kN",
            clause=_BY_HAND,
        ),
        Step(
            says="The beam takes",
            formula="R_B = whole load - R_A",
            numbers=f"{total / 1000.0:.4f} - {answer.head_reaction_n / 1000.0:.4f}".replace("- -", "+ "),
            result=answer.foot_reaction_n / 1000.0,
            unit="kN",
            clause=_BY_HAND,
        ),
    )


def _with_point(forces: list[_Force], point: tuple[float, float] | None) -> list[_Force]:
    return forces if point is None else [*forces, _Force(kn=point[1] / 1000.0, at_m=point[0] / 1000.0)]


def moment_step(
    model: RafterModel, line: LineLoad, answer: BeamAnswer, point: tuple[float, float] | None = None
) -> Step:
    """The greatest moment either way, from the forces at one side of its place.

    Parameters
    ----------
    model, line, answer, point
        As in `reaction_steps`.

    Returns
    -------
    Step
        [kNm].

    Source
    ------
    Equilibrium.
    """
    moments = {
        answer.sagging_at_mm: answer.sagging_n_mm,
        answer.hogging_at_mm: -answer.hogging_n_mm,
        model.span_mm: abs(answer.support_moment_n_mm),
    }
    at, size = max(moments.items(), key=lambda pair: pair[1])
    place = at / 1000.0
    if at >= model.span_mm - _HAIR_MM:
        return beyond_steps(model, line, answer, point)[1]
    before = _with_point(
        _forces(line, 0.0, at), point if point is not None and point[0] < at - _HAIR_MM else None
    )
    reaction = answer.head_reaction_n / 1000.0
    terms = [
        (reaction, f"{abs(reaction):.4f} x {place:.4f}"),
        *((-f.kn, f"{abs(f.kn):.4f} x {place - f.at_m:.4f}") for f in before),
    ]
    numbers = _summed(terms)
    return Step(
        says=f"Bending moment at {place:.3f} m",
        formula="M = R_A x - sum of each piece before x, times its lever",
        numbers=f"|{numbers}|" if numbers.startswith("-") else numbers,
        result=size / 1e6,
        unit="kNm",
        clause=_BY_HAND,
    )


def beyond_steps(
    model: RafterModel, line: LineLoad, answer: BeamAnswer, point: tuple[float, float] | None = None
) -> tuple[Step, Step]:
    """What lies beyond the beam: the shear and the moment that it makes over it, in size.

    Parameters
    ----------
    model, line, answer, point
        As in `reaction_steps`.

    Returns
    -------
    tuple of Step
        [kN], [kNm].

    Source
    ------
    Equilibrium.
    """
    span = model.span_mm / 1000.0
    past = point if point is not None and point[0] > model.span_mm else None
    beyond = _with_point(_forces(line, model.span_mm, model.length_mm), past)
    shear = _summed([(f.kn, f"{abs(f.kn):.4f}") for f in beyond])
    moment = _summed([(f.kn, f"{abs(f.kn):.4f} x {f.at_m - span:.4f}") for f in beyond])
    return (
        Step(
            says="All that lies beyond the beam",
            formula="V = sum of the pieces beyond the beam",
            numbers=f"|{shear}|",
            result=abs(answer.shear_beyond_foot_n) / 1000.0,
            unit="kN",
            clause=_BY_HAND,
        ),
        Step(
            says="Bending moment over the beam",
            formula="M = sum of each piece beyond the beam * its lever",
            numbers=f"|{moment}|",
            result=abs(answer.support_moment_n_mm) / 1e6,
            unit="kNm",
            clause=_BY_HAND,
        ),
    )


def shear_step(
    model: RafterModel, line: LineLoad, answer: BeamAnswer, point: tuple[float, float] | None = None
) -> Step:
    """The greatest shear, from the head bearing or from what hangs beyond the beam.

    Parameters
    ----------
    model, line, answer, point
        As in `reaction_steps`.

    Returns
    -------
    Step
        [kN].

    Source
    ------
    Equilibrium.
    """
    reaction, greatest = answer.head_reaction_n / 1000.0, answer.greatest_shear_n / 1000.0
    stops = {0.0, model.span_mm, *(x for x, _ in line if 0.0 < x < model.span_mm)}
    if point is not None and point[0] < model.span_mm:
        stops |= {point[0], point[0] + 2.0 * _HAIR_MM}

    def before(place_mm: float) -> list[_Force]:
        put = point if point is not None and point[0] < place_mm - _HAIR_MM else None
        return _with_point(_forces(line, 0.0, place_mm), put)

    found = {x: reaction - sum(f.kn for f in before(x)) for x in sorted(stops)}
    past = point if point is not None and point[0] > model.span_mm else None
    beyond = sum(f.kn for f in _with_point(_forces(line, model.span_mm, model.length_mm), past))
    at, here = max(found.items(), key=lambda pair: abs(pair[1]))
    if abs(beyond) > abs(here):
        says, numbers = "Shear beyond the beam", f"{abs(beyond):.4f}; all that lies beyond it"
    else:
        says = "Shear at the head" if at == 0.0 else f"Shear at {at / 1000.0:.3f} m"
        terms = [(f.kn, f"{abs(f.kn):.4f}") for f in before(at)]
        numbers = f"|{reaction:.4f} - ({_summed(terms)})|" if terms else f"{abs(reaction):.4f}; R_A"
    return Step(
        says=says,
        formula="V = R_A - sum of the pieces before it",
        numbers=numbers,
        result=greatest,
        unit="kN",
        clause=_BY_HAND,
    )


def sag_steps(model: RafterModel, case: RafterCase) -> tuple[Step, ...]:
    """The sag: by the mean load as anyone may do it, then exactly.

    Parameters
    ----------
    model, case
        The rafter and the combination.

    Returns
    -------
    tuple of Step
        [mm].

    Source
    ------
    Beam tables for the mean load; the exact one integrates the moment over each piece.
    """
    load = sum(f.kn for f in _forces(case.line, 0.0, model.span_mm))
    q, span = load / (model.span_mm / 1000.0), model.span_mm
    b, h, e, g = (
        model.rafter.width_mm,
        model.rafter.depth_mm,
        model.timber.e_0_mean_n_mm2,
        model.timber.g_mean_n_mm2,
    )
    mean = 5.0 * q * span**4 / (384.0 * e * b * h**3 / 12.0) + q * span**2 / (8.0 * g * b * h / 1.2)
    return (
        Step(
            says="By the mean load on the span, to compare",
            formula="5 q L^4 / (384 E I) + q L^2 / (8 G A / 1.2)",
            numbers=(
                f"5 x {q:.4f} x {span:.1f}^4 / (384 x {e:g} x {b:g} x {h:g}^3 / 12) "
                f"+ {q:.4f} x {span:.1f}^2 / (8 x {g:g} x {b:g} x {h:g} / 1.2)"
            ),
            result=mean,
            unit="mm",
            clause="beam tables",
        ),
        Step(
            says="Sag at once",
            formula="w_inst, shear included",
            numbers=f"integrated over the pieces above; span {span:.0f}, foot past it {model.overhang_mm:.0f} mm",
            result=abs(case.answer.span_sag_mm),
            unit="mm",
            clause="statics; EN 1995-1-1, 2.2.3",
        ),
    )


def rafter_picture(
    model: RafterModel, line: LineLoad, point: tuple[float, float] | None = None
) -> LoadPicture:
    """The load of a rafter with its two bearings.

    Parameters
    ----------
    model, line, point
        As in `reaction_steps`.

    Returns
    -------
    LoadPicture
        [mm, kN/m].

    Source
    ------
    Drawn from the load itself.
    """
    return LoadPicture(
        says=f"Along the {'bar' if model.rafter.is_bar else 'rafter'}, load square to the slope",
        line=line,
        unit="kN/m",
        held_mm=(0.0, model.span_mm),
        ends=("head", "foot"),
        force=None if point is None else (point[0], point[1] / 1000.0, "kN"),
    )


def inputs_of(ground: Ground) -> tuple[RestsOn, ...]:
    """What every check of a rafter rests on, each with its mark.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of RestsOn
        Section, strength class, snow, wind and service class.

    Source
    ------
    Definition.
    """
    job, timber = ground.job, ground.parts.timber
    return (
        ground.of_job("frame.rafter_mm", job.frame.rafter_mm),
        *of_roof(ground, "pitch_deg", "overhang_on_slope_mm"),
        ground.of_catalogue(f"timbers.{timber.id}.class", timber.strength_class),
        ground.of_snow(),
        ground.of_wind(),
        ground.of_job("frame.service_class", service_class(ground)),
    )
