"""Wind on the whole roof at once, for what stands under it: beam, posts, bases, bracing.

An open roof is pushed and lifted by one force that acts a quarter of its depth behind the windward edge, whatever the
direction. Wind drags along an open roof on both faces, and along an enclosed one where it is long.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from pentice.job.model import WindCoefficients
from pentice.job.shape import RoofShape
from pentice.loads.values import WholeRoofWind
from pentice.standards.annex import Annex
from pentice.standards.en1991_1_4_canopies import canopy_coefficient, canopy_resultant
from pentice.standards.en1991_1_4_roofs import (
    WINDS,
    Wind,
    friction_area_m2,
    friction_coefficient,
    friction_counts,
    friction_force_kn,
)
from pentice.working import Step

IN_WORDS = {
    "onto foot": "wind onto the eaves",
    "onto head": "wind from the house side",
    "from left": "wind from the left",
    "from right": "wind from the right",
}
ONTO_FREE_HEAD = "wind onto the head"
"""Of a free-standing roof, which has no house behind its head."""
SURFACE = "ribbed"
"""Bars and caps stand up from the sheets: the roughest surface of the table, judgement."""


def on_open_roof(
    shape: RoofShape, annex: Annex, peak_kn_m2: float, *, attached: bool = True
) -> Iterator[WholeRoofWind]:
    """The overall force on an open roof in every direction: down, and up without and with blockage.

    Parameters
    ----------
    shape, annex
        The roof's geometry and the national choices.
    peak_kn_m2
        Peak velocity pressure [kN/m2].
    attached
        Does a house stand behind its head?

    Yields
    ------
    WholeRoofWind
        Force [kN], place [mm], drag [kN].

    Raises
    ------
    OutsideScope
        The pitch is outside the table, or the annex has other rules.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 7.3(6), Table 7.6 and Figure 7.16, recommended place, from memory; 5.3(3) on both
    faces of the whole roof, judgement on the safe side. Wind from the house side is kept as a bound.
    """
    by_blockage = {
        phi: canopy_coefficient(annex, pitch_deg=shape.pitch_deg, blockage=phi, zone="cf")
        for phi in (0.0, 1.0)
    }
    for wind in WINDS:
        across, along = _sides_m(shape, wind)
        drag = _drag(peak_kn_m2, 2.0 * across * along)
        for word, phi, sign in (("down, any blockage", 0.0, 1), ("up", 0.0, -1), ("up", 1.0, -1)):
            found = by_blockage[phi]
            c_f = found.greatest if sign > 0 else found.least
            force = canopy_resultant(peak_kn_m2, c_f=c_f, width_m=across, depth_m=along)
            place = _behind_windward_edge(shape, wind, force.from_windward_m / along)
            words = word if sign > 0 else f"{word}, blockage {phi:g}"
            step = Step(
                says="Whole roof, square to the slope, a quarter of the depth behind the windward edge",
                formula="F = c_f q_p A",
                numbers=f"{c_f:.4f} x {peak_kn_m2:.4f} x {across:.4f} x {along:.4f}",
                result=force.force_kn,
                unit="kN",
                clause="EN 1991-1-4, 7.3(6), Table 7.6, Figure 7.16",
            )
            blows = ONTO_FREE_HEAD if wind == "onto head" and not attached else IN_WORDS[wind]
            yield WholeRoofWind(
                name=f"{blows}, {words}",
                force_kn=force.force_kn,
                at_mm=place,
                drag_kn=drag[0],
                drag_along=_axis(wind),
                working=(step, drag[1]),
            )


def on_own_coefficients(
    shape: RoofShape, own: WindCoefficients, peak_kn_m2: float, *, is_open: bool, attached: bool
) -> Iterator[WholeRoofWind]:
    """The drag of the wind with coefficients of the user's own, and the force on the whole roof where they give one.

    Parameters
    ----------
    shape, own
        The roof's geometry and the coefficients.
    peak_kn_m2
        Peak velocity pressure [kN/m2].
    is_open
        Does the wind sweep both faces?
    attached
        Does a house stand behind its head?

    Yields
    ------
    WholeRoofWind
        Force [kN] at its place, None where the zones count; drag [kN].

    Source
    ------
    The document that the job names; EN 1991-1-4:2005+A1:2010, 7.5 for the drag.
    """
    drags = {} if is_open else {w.name: w for w in on_enclosed_roof(shape, peak_kn_m2, attached=attached)}
    forces: list[tuple[str, float | None]] = [("", None)]
    if own.whole_down is not None:
        forces = [(", down", own.whole_down), (", up", own.whole_up)]
    for wind in WINDS:
        across, along = _sides_m(shape, wind)
        blows = ONTO_FREE_HEAD if wind == "onto head" and not attached else IN_WORDS[wind]
        dragged = drags.get(f"{blows}, drag")
        drag, lines = (0.0, ()) if dragged is None else (dragged.drag_kn, dragged.working)
        if is_open:
            drag, step = _drag(peak_kn_m2, 2.0 * across * along)
            lines = (step,)
        for word, c_f in forces:
            if c_f is None and drag == 0.0:
                continue
            yield WholeRoofWind(
                name=f"{blows}{word}, {own.source}",
                force_kn=None if c_f is None else c_f * peak_kn_m2 * across * along,
                at_mm=None if c_f is None else _behind_windward_edge(shape, wind, own.whole_at),
                drag_kn=drag,
                drag_along=_axis(wind),
                working=(*_own_force(own, c_f, peak_kn_m2, across, along), *lines),
            )


def _own_force(
    own: WindCoefficients, c_f: float | None, peak_kn_m2: float, across_m: float, along_m: float
) -> tuple[Step, ...]:
    if c_f is None:
        return ()
    return (
        Step(
            says=f"Whole roof, square to the slope, {own.whole_at:g} of the depth behind the windward edge",
            formula="F = c_f q_p A",
            numbers=f"{c_f:g} x {peak_kn_m2:.4f} x {across_m:.4f} x {along_m:.4f}",
            result=c_f * peak_kn_m2 * across_m * along_m,
            unit="kN",
            clause=own.source,
        ),
    )


def on_enclosed_roof(
    shape: RoofShape, peak_kn_m2: float, *, attached: bool = True
) -> Iterator[WholeRoofWind]:
    """The drag of the wind along an enclosed roof, in the directions in which it is long enough to be dragged.

    Parameters
    ----------
    shape
        The roof's geometry.
    peak_kn_m2
        Peak velocity pressure [kN/m2].
    attached
        Is a house its back?

    Yields
    ------
    WholeRoofWind
        Drag [kN] on the roof's outside; nothing where it does not count, or all of it lies near the windward edge.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.3(4) with the three walls of the lean-to, or the four of a free-standing room, 7.5(3).
    """
    height = max((shape.head_height_mm or 0.0) / 1000.0, 0.01)
    winds: tuple[Wind, ...] = ("onto foot", "from left", "from right") if attached else WINDS
    for wind in winds:
        across, along = _sides_m(shape, wind)
        walls = _walls_m2(shape, wind, attached=attached)
        counts = friction_counts(parallel_m2=across * along + walls[0], square_m2=walls[1])
        area = friction_area_m2(along_m=along, girth_m=across, crosswind_m=across, height_m=height)
        if counts and area > 0.0:
            drag, step = _drag(peak_kn_m2, area)
            blows = ONTO_FREE_HEAD if wind == "onto head" else IN_WORDS[wind]
            yield WholeRoofWind(
                name=f"{blows}, drag",
                force_kn=None,
                at_mm=None,
                drag_kn=drag,
                drag_along=_axis(wind),
                working=(step,),
            )


def _drag(peak_kn_m2: float, area_m2: float) -> tuple[float, Step]:
    c_fr = friction_coefficient(SURFACE)
    force = friction_force_kn(peak_kn_m2, c_fr=c_fr, area_m2=area_m2)
    return force, Step(
        says="Drag along the roof, on every face the wind sweeps",
        formula="F_fr = c_fr q_p A_fr",
        numbers=f"{c_fr:g} x {peak_kn_m2:.4f} x {area_m2:.3f}; {SURFACE}",
        result=force,
        unit="kN",
        clause="EN 1991-1-4, 5.3(3), 7.5, Table 7.10",
    )


def _sides_m(shape: RoofShape, wind: Wind) -> tuple[float, float]:
    """The roof across and along the wind, on its slope [m]."""
    width, slope = shape.width_mm / 1000.0, shape.depth_on_plan_mm / shape.cos_pitch / 1000.0
    return (slope, width) if _axis(wind) == "x" else (width, slope)


def _walls_m2(shape: RoofShape, wind: Wind, *, attached: bool) -> tuple[float, float]:
    """The walls along the wind, and square to it: both ends, the front, and the back unless that is a house [m2]."""
    foot = (shape.eaves_height_mm or 0.0) / 1000.0
    head = (shape.head_height_mm or 0.0) / 1000.0
    front = shape.width_mm / 1000.0 * (foot if attached else foot + head)
    ends = 2.0 * shape.projection_mm / 1000.0 * (foot + head) / 2.0
    return (front, ends) if _axis(wind) == "x" else (ends, front)


def _axis(wind: Wind) -> Literal["x", "y"]:
    return "x" if wind in ("from left", "from right") else "y"


def _behind_windward_edge(shape: RoofShape, wind: Wind, share: float) -> tuple[float, float]:
    """The place on plan that lies a share of the depth behind the windward edge, in the middle across [mm]."""
    width, depth = shape.width_mm, shape.depth_on_plan_mm
    return {
        "onto foot": (width / 2.0, depth * (1.0 - share)),
        "onto head": (width / 2.0, depth * share),
        "from left": (width * share, depth / 2.0),
        "from right": (width * (1.0 - share), depth / 2.0),
    }[wind]
