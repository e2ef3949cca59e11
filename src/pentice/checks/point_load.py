"""A person's weight on a rafter or on a bar that carries by itself: the point load of category H, with G alone.

On rafters it stands on boards while the roof is built, on such bars over the cap of the finished roof. Its square of
50 x 50 mm counts as a point.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import cast

from pentice.checks.ground import Ground
from pentice.checks.rafter_loads import Combinations, RafterCase
from pentice.checks.rafter_model import RafterModel, dead_line_n_mm
from pentice.checks.timber_shown import Strength, service_class, strength_for
from pentice.checks.values import RestsOn
from pentice.mechanics.beam import BeamAnswer, BeamLoads, overhang_beams
from pentice.mechanics.lines import LineLoad, even_line
from pentice.records import quickly_made
from pentice.standards.en1995 import Duration
from pentice.working import Step

HALF_SQUARE_MM = 25.0
"""Half of the square that the load stands on: EN 1991-1-1, 6.3.4.2, from memory."""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class PointCase:
    """A person's weight at one place with the weight along the member, both factored, and what the member does."""

    words: str
    line: LineLoad
    """The weight along it [mm, N/mm]."""
    point: tuple[float, float]
    """Place from the head bearing and force [mm, N]."""
    answer: BeamAnswer
    steps: tuple[Step, ...]
    """The lines that lead to both."""
    holds: Strength
    """What timber of strength 1 holds for so long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class APerson:
    """A person's weight on one member, factored, with the member's own along it, and what its beam is asked."""

    force_n: float
    places: tuple[tuple[str, float], ...]
    """Each in words, and from the head bearing [mm]."""
    steps: tuple[Step, ...]
    """The lines that lead to both."""
    holds: Strength
    """What timber of strength 1 holds for so long."""
    loads: BeamLoads

    def answered(self, answers: Sequence[BeamAnswer]) -> tuple[PointCase, ...]:
        """Each place with its answer. Forces [N], moments [N mm]."""
        return tuple(
            PointCase(
                words=f"G + Q at {words}, no sharing",
                line=self.loads.lines[0],
                point=(at, self.force_n),
                answer=answer,
                steps=self.steps,
                holds=self.holds,
            )
            for (words, at), answer in zip(self.places, answers, strict=True)
        )


def why_no_point(ground: Ground) -> str:
    """Why the point load, or the area load that goes with it, is not known.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    str
        A sentence with the key to give; empty where both are known.

    Source
    ------
    Definition.
    """
    imposed = ground.loads.imposed
    lacks = [
        key
        for key, value in (
            ("site.imposed_point_kn", imposed.point_kn),
            ("site.imposed_kn_m2", imposed.area_kn_m2),
        )
        if value is None
    ]
    return f"{imposed.refused} Give {' and '.join(lacks)}." if lacks else ""


def a_person_on(
    ground: Ground, models: Sequence[RafterModel], member: str, beside_mm: Callable[[RafterModel], float]
) -> list[APerson]:
    """A person's weight at each place of each member where it can ask most, to be worked out.

    Parameters
    ----------
    ground, models
        The inputs of every check, and the members between their bearings.
    member
        "rafter" or "bar".
    beside_mm
        How far beside a bearing the shear of a member is greatest that no bearing takes straight [mm].

    Returns
    -------
    list of APerson
        One for each member: mid-span for bending; over the head bearing for what presses there; beside each bearing
        for shear; the tip for what it does past the beam and presses on it. Empty where the load is not known.

    Source
    ------
    EN 1991-1-1:2002, 6.3.4, with EN 1990, 6.10: alone, not together with snow or wind, on one member, no sharing.
    """
    point_kn = ground.loads.imposed.point_kn
    if point_kn is None or why_no_point(ground):
        return []
    factors, shape = ground.annex.factors, ground.shape
    force = factors.variable * point_kn * 1000.0 * shape.cos_pitch
    first = Step(
        says="Point load",
        formula="gamma_Q Q_k cos(pitch)",
        numbers=f"{factors.variable:g} x {point_kn:g} x cos({shape.pitch_deg:.4f})",
        result=force / 1000.0,
        unit="kN",
        clause="EN 1991-1-1, 6.3.4; EN 1990, 6.10",
    )
    holds = strength_for(1.0, cast(Duration, ground.annex.duration_imposed), service_class(ground))
    found = []
    for model in models:
        own = dead_line_n_mm(ground, model)
        near = min(beside_mm(model), model.span_mm / 2.0)
        places = (
            ("mid-span", model.span_mm / 2.0),
            ("the head bearing", 0.0),
            ("beside the head bearing", near),
            ("beside the beam", model.span_mm - near),
            ("the tip", model.length_mm),
        )
        line = even_line(model.length_mm, factors.permanent_up * own)
        along = Step(
            says=f"Weight along the {member}",
            formula="gamma_G G",
            numbers=f"{factors.permanent_up:g} x {own:.5f}",
            result=factors.permanent_up * own,
            unit="kN/m",
            clause="EN 1990, 6.10",
        )
        cases = tuple((((0, 1.0),), ((at, force),)) for _, at in places)
        loads = BeamLoads(beam=model.beam, lines=(line,), cases=cases)
        found.append(APerson(force_n=force, places=places, steps=(first, along), holds=holds, loads=loads))
    return found


def cases_of(
    combinations: Sequence[Combinations], people: Sequence[APerson], members: int
) -> tuple[list[tuple[RafterCase, ...]], list[tuple[PointCase, ...]]]:
    """Combinations on some members and a person's weight on some, worked out all at once.

    Parameters
    ----------
    combinations, people
        What is asked, each of its member; nobody where the load is not known.
    members
        How many may be stood on.

    Returns
    -------
    tuple of list
        The combinations of each member, and the places of the person on each.

    Source
    ------
    As `pentice.mechanics.beam.overhang_beams`.
    """
    asked = [*(one.loads for one in combinations), *(one.loads for one in people)]
    answers = iter(overhang_beams(asked))
    cases = [one.answered(next(answers)) for one in combinations]
    return cases, [one.answered(next(answers)) for one in people] or [()] * members


def point_inputs(ground: Ground, *keys: str) -> tuple[RestsOn, ...]:
    """What the checks of a person's weight on a bar rest on: its values, and the load where the job gives it.

    Parameters
    ----------
    ground
        The inputs of every check.
    keys
        Keys of the bar.

    Returns
    -------
    tuple of RestsOn
        Each with its mark.

    Source
    ------
    Definition.
    """
    given = ground.job.site.imposed_point_kn
    of_job = () if given is None else (ground.of_job("site.imposed_point_kn", given),)
    return (*(ground.of_bar(key) for key in keys), *of_job)
