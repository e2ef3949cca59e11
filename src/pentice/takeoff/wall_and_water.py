"""Flashing at the wall, gutter parts, snow guard, sign, and the kit for the day."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from typing import Literal

from pentice.pieces.names import letters_of
from pentice.takeoff.glazing import bead_m
from pentice.takeoff.needs import ONE_FOR_EACH_JOB, Need, Spare
from pentice.takeoff.roof import Roof

BEYOND_MM = 150.0
"""Flashing past each end of the roof: common practice, no source."""
CLIPS_MM = 1800.0
"""Downpipe clips: common practice, no source."""
DROP_MM = 2400.0
"""Downpipe where no height is known: judgement, no source."""


def wall_and_water_needs(roof: Roof) -> Iterator[Need]:
    """Everything at the wall, everything that carries water, and the kit.

    Parameters
    ----------
    roof
        What the take-off counts on.

    Yields
    ------
    Need
        Quantities with the rule that gives them.
    """
    yield from _flashing(roof)
    yield from _gutter(roof)
    yield from _guard_and_sign(roof)
    yield from _kit(roof)


def flashing_run_m(width_mm: float, side_walls_mm: Iterable[float] = ()) -> float:
    """Flashing along the head and up each side wall, 150 beyond each end [m].

    Examples
    --------
    >>> flashing_run_m(4700.0), flashing_run_m(4700.0, [3000.0])
    (5.0, 8.3)
    """
    runs = (width_mm, *side_walls_mm)
    return sum(run + 2.0 * BEYOND_MM for run in runs) / 1000.0


def _flashing(roof: Roof) -> Iterator[Need]:
    tape = next((f for f in roof.catalogue.flashings.values() if f.kind == "tape"), None)
    product = tape or next(iter(roof.catalogue.flashings.values()), None)
    slope = roof.plane.slope_length_mm + roof.shape.overhang_mm
    walls = [slope for side in (roof.job.roof.left, roof.job.roof.right) if side == "wall"]
    run = flashing_run_m(roof.shape.width_mm, walls)
    laps = max(0, math.ceil(run / product.pack) - 1) * product.lap_mm / 1000.0 if product is not None else 0.0
    attached = roof.job.roof.attached
    where = "along the head" + (" and the side walls" if walls else "")
    lapped = f", {laps:.2f} m for laps" if laps else ""
    up = (
        "at least 150 up the wall."
        if attached
        else "over the head profile and the cap heads, down onto the beam."
    )
    yield Need(
        part="flashing tape or lead",
        group="Wall",
        item=f"flashings.{product.id}" if product is not None else None,
        quantity=run + laps,
        spare=Spare(share=0.1),
        unit="m",
        why=f"{run:.2f} m {where}, 150 beyond each end{lapped}, 10 % spare; {up}",
    )
    if product is None or product.kind == "tape":
        yield Need(
            part="primer",
            group="Wall",
            item=roof.sundry("flashing primer"),
            quantity=run / 20.0,
            unit="can",
            why=f"On {'brick, block and stone' if attached else 'the beam'} under the flashing tape; one can for about "
            "20 m.",
        )
    if not attached:
        return
    chase = next((s for s in roof.catalogue.sealants.values() if s.use == "chase"), None)
    one = bead_m(chase.volume_ml, chase.yield_share, 10.0) if chase is not None else bead_m(310.0, 0.9, 10.0)
    yield Need(
        part="chase sealant",
        group="Wall",
        item=f"sealants.{chase.id}" if chase is not None else None,
        quantity=run / one,
        spare=ONE_FOR_EACH_JOB,
        unit="tube",
        why=f"{run:.2f} m of 10 mm bead, {one:.2f} m a tube; one more.",
    )


_GutterPart = Literal[
    "bracket", "union", "stop end", "outlet", "downpipe", "downpipe clip", "shoe", "leaf guard"
]


_NAMES: Mapping[_GutterPart, str] = {
    "bracket": "brackets",
    "union": "unions",
    "stop end": "ends",
    "outlet": "outlet",
    "downpipe": "downpipe",
    "downpipe clip": "clips",
    "shoe": "shoe",
    "leaf guard": "leaf guard",
}


def _gutter(roof: Roof) -> Iterator[Need]:
    gutter = roof.parts.gutter
    if gutter is None:
        return
    width, spacing = roof.shape.width_mm, gutter.bracket_spacing_mm
    lengths = sum(1 for plan in roof.cutting.lengths for p in plan.pieces if letters_of(p.piece) == "G")
    outlets = max(1, len(roof.job.gutter.outlets_at_mm))
    drop = max(500.0, roof.shape.eaves_height_mm or DROP_MM)
    known = "eaves height over the datum" if roof.shape.eaves_height_mm else "no height known, 2.4 m taken"
    pipes, clips = _pipes(roof, drop), math.ceil(drop / CLIPS_MM) + 1
    counts: Mapping[_GutterPart, tuple[float, float, str, str]] = {
        "bracket": (
            math.ceil(width / spacing) + 1,
            0,
            "each",
            f"Every {spacing:g}. Before the sheets are on.",
        ),
        "union": (lengths - 1, 1, "each", "One at each joint, one more."),
        "stop end": (2, 0, "each", "One at each end."),
        "outlet": (outlets, 0, "each", "As the job names them, at least one."),
        "downpipe": (outlets * pipes, 0, "m", f"{drop / 1000:.2f} m each ({known}), in whole pipes."),
        "downpipe clip": (outlets * clips, 0, "each", "Every 1.8 m and one, on each downpipe."),
        "shoe": (outlets, 0, "each", "One for each downpipe, unless it runs into a drain."),
        "leaf guard": (
            outlets if roof.job.gutter.leaf_guard else 0,
            0,
            "each",
            "One over each outlet: it halves what the outlet takes.",
        ),
    }
    for part, (quantity, spare, unit, why) in counts.items():
        id = gutter.parts.get(part)
        if quantity:
            yield Need(
                part=_NAMES[part],
                group="Water",
                item=f"sundries.{id}" if id is not None else None,
                quantity=float(quantity),
                spare=Spare(more=spare),
                unit=unit,
                why=why,
            )


def _pipes(roof: Roof, drop_mm: float) -> float:
    """Downpipe for one outlet [m]: whole pipes, since a joint wants a socket."""
    gutter = roof.parts.gutter
    id = gutter.parts.get("downpipe") if gutter is not None else None
    product = roof.catalogue.sundries.get(id) if id is not None else None
    return (
        math.ceil(drop_mm / 1000.0 / product.pack) * product.pack if product is not None else drop_mm / 1000.0
    )


def _guard_and_sign(roof: Roof) -> Iterator[Need]:
    house = roof.job.house
    if house is not None and house.roof_drains_to_us and not house.slides_guarded:
        yield Need(
            part="snow guard where it slides",
            group="Wall",
            item=roof.sundry("snow guard"),
            quantity=roof.width_m,
            unit="m",
            why="Snow slides from the house roof onto ours: a guard of declared capacity, by structural check. The "
            "loads count the slide until it is there.",
            mark="typical",
        )
    yield Need(
        part="not-a-walkway sign",
        group="Sundries",
        item=roof.sundry("not-a-walkway sign"),
        quantity=1,
        unit="each",
        why="At the wall, where somebody would climb out."
        if roof.job.roof.attached
        else "On a post, at eye level.",
    )


def _kit(roof: Roof) -> Iterator[Need]:
    for part, having, why in (
        ("blades", "knife", "Knife blades: along the flutes."),
        ("blades", "saw", "One fine-toothed blade: across the flutes."),
        ("bits", "", "For the holes of bars, buttons and plate fixings."),
        ("cloths", "", "Cloths, gloves, bags for dust and film."),
    ):
        item = roof.sundry(part, having=having) or (roof.sundry(part) if having == "knife" else None)
        if item is not None or having != "saw":
            yield Need(part=part, group="Sundries", item=item, quantity=1.0, unit="set", why=why)
