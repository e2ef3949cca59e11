"""A person's weight on a bar that carries by itself: the point load of category H, with the bar's own weight alone.

It stands on the finished roof, over the cap: while the roof is built nobody stands on a bar. Its square of 50 x 50 mm
counts as a point.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from pentice.checks.ground import Ground, Rule
from pentice.checks.rafter_loads import RafterModel, dead_line_n_mm
from pentice.checks.values import RestsOn
from pentice.mechanics.beam import BeamAnswer, BeamLoads, overhang_beams
from pentice.mechanics.lines import LineLoad, even_line
from pentice.working import Step

POINT = Rule(
    id="bar-point",
    name="Bar, bending under a person's weight",
    member="bar",
    clause="EN 1991-1-1, 6.3.4; EN 1999-1-1, 6.2.5, 6.3.2",
    unit="kNm",
    edition="EN 1999-1-1:2007",
)
POINT_SHEAR = replace(
    POINT,
    id="bar-point-shear",
    name="Bar, shear under a person's weight",
    clause="EN 1991-1-1, 6.3.4; EN 1999-1-1, 6.2.6",
    unit="kN",
)
HALF_SQUARE_MM = 25.0
"""Half of the square that the load stands on: EN 1991-1-1, 6.3.4.2, from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PointCase:
    """A person's weight at one place, and the bar's own weight, both factored: what the bar does under them."""

    words: str
    line: LineLoad
    """Own weight [mm, N/mm]."""
    point: tuple[float, float]
    """Place from the head bearing and force [mm, N]."""
    answer: BeamAnswer
    steps: tuple[Step, ...]
    """The lines that lead to both."""


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


def point_cases(ground: Ground, model: RafterModel) -> tuple[PointCase, ...]:
    """A person's weight at each place of a bar where it can ask most.

    Parameters
    ----------
    ground, model
        The inputs of every check, and the bar between its bearings.

    Returns
    -------
    tuple of PointCase
        Mid-span for bending; beside each bearing, wholly in the span, for shear; the tip for what it does past the beam
        and for what the webs bear over it. None where the load is not known.

    Source
    ------
    EN 1991-1-1:2002, 6.3.4, with EN 1990, 6.10: alone, not together with snow or wind, on one bar, no sharing.
    """
    point_kn = ground.loads.imposed.point_kn
    if point_kn is None or why_no_point(ground):
        return ()
    factors, shape = ground.annex.factors, ground.shape
    own = dead_line_n_mm(ground, model)
    force = factors.variable * point_kn * 1000.0 * shape.cos_pitch
    line = even_line(model.length_mm, factors.permanent_up * own)
    steps = (
        Step(
            says="Point load",
            formula="gamma_Q Q_k cos(pitch)",
            numbers=f"{factors.variable:g} x {point_kn:g} x cos({shape.pitch_deg:.4f})",
            result=force / 1000.0,
            unit="kN",
            clause="EN 1991-1-1, 6.3.4; EN 1990, 6.10",
        ),
        Step(
            says="Weight along the bar",
            formula="gamma_G G",
            numbers=f"{factors.permanent_up:g} x {own:.5f}",
            result=factors.permanent_up * own,
            unit="kN/m",
            clause="EN 1990, 6.10",
        ),
    )
    near = min(HALF_SQUARE_MM, model.span_mm / 2.0)
    spots = (
        ("mid-span", model.span_mm / 2.0),
        ("beside the head bearing", near),
        ("beside the beam", model.span_mm - near),
        ("the tip", model.length_mm),
    )
    cases = tuple(((1.0,), ((at, force),)) for _, at in spots)
    [answers] = overhang_beams([BeamLoads(beam=model.beam, lines=(line,), cases=cases)])
    return tuple(
        PointCase(
            words=f"G + Q at {words}, no sharing", line=line, point=(at, force), answer=answer, steps=steps
        )
        for (words, at), answer in zip(spots, answers, strict=True)
    )


def point_inputs(ground: Ground, *keys: str) -> tuple[RestsOn, ...]:
    """What the checks of a person's weight rest on: values of the bar, and the load where the job gives it.

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
