"""Flashing at the wall, gutter parts, snow guard, sign, and the kit for the day."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

from pentice.takeoff.needs import Need, Roof, not_here

CHASE_M = 3.55
"""One 310 ml tube at 90 % in a 10 mm bead: geometry."""


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


def _flashing(roof: Roof) -> Iterator[Need]:
    width = roof.shape.width_mm / 1000.0
    tape = next((f for f in roof.catalogue.flashings.values() if f.kind == "tape"), None)
    run = width + 0.3
    laps = max(0, math.ceil(run / tape.pack) - 1) * tape.lap_mm / 1000.0 if tape is not None else 0.0
    yield Need(
        part="flashing tape or lead",
        group="Wall",
        item=f"flashings.{tape.id}" if tape is not None else None,
        quantity=run + laps,
        spare=0.1 * (run + laps),
        unit="m",
        why=f"Width {width:.2f} m and 150 beyond each end, laps 100, 10 % spare; 150 up the wall.",
    )
    yield Need(
        part="primer",
        group="Wall",
        item=_key(roof, "flashing primer"),
        quantity=1,
        unit="can",
        why="For the flashing tape on brick or stone.",
    )
    chase = next((s.id for s in roof.catalogue.sealants.values() if s.use == "chase"), None)
    yield Need(
        part="chase sealant",
        group="Wall",
        item=f"sealants.{chase}" if chase is not None else None,
        quantity=run / CHASE_M,
        spare=1,
        unit="tube",
        why=f"{run:.2f} m of 10 mm bead, {CHASE_M} m a tube; one more.",
    )


_GutterPart = Literal[
    "bracket", "union", "stop end", "outlet", "downpipe", "downpipe clip", "shoe", "leaf guard"
]


def _gutter(roof: Roof) -> Iterator[Need]:
    gutter = roof.parts.gutter
    names: dict[_GutterPart, str] = {
        "bracket": "brackets",
        "union": "unions",
        "stop end": "ends",
        "outlet": "outlet",
        "downpipe": "downpipe",
        "downpipe clip": "clips",
        "shoe": "shoe",
        "leaf guard": "leaf guard",
    }
    if gutter is None:
        for part in ("gutter", *names.values()):
            yield not_here(part, "Water", "no gutter in this job: say where the water goes")
        return
    width = roof.shape.width_mm
    joints = max(0, sum(1 for plan in roof.cutting.lengths if plan.item.startswith("gutters.")) - 1)
    outlets = max(1, len(roof.job.gutter.outlets_at_mm))
    drop = max(0.5, (roof.shape.eaves_height_mm or 2300.0) / 1000.0)
    counts: dict[_GutterPart, tuple[float, float, str, str]] = {
        "bracket": (
            math.ceil(width / gutter.bracket_spacing_mm) + 1,
            0,
            "each",
            f"Every {gutter.bracket_spacing_mm:g} and one. Fix them before the sheets are on.",
        ),
        "union": (joints, 1, "each", "One at each joint, one more."),
        "stop end": (2, 0, "each", "One at each end."),
        "outlet": (outlets, 0, "each", "As the job names them, at least one."),
        "downpipe": (outlets * drop, 0, "m", f"{drop:.2f} m for each outlet."),
        "downpipe clip": (outlets * (math.ceil(drop / 1.8) + 1), 0, "each", "Every 1.8 m and one."),
        "shoe": (outlets, 0, "each", "One for each downpipe, unless it goes into a drain."),
        "leaf guard": (width / 1000.0, 0, "m", "Along the gutter: leave it out where no tree stands near."),
    }
    for part, (quantity, spare, unit, why) in counts.items():
        id = gutter.parts.get(part)
        if part == "union" and not joints:
            yield not_here(names[part], "Water", "the gutter is one length")
            continue
        yield Need(
            part=names[part],
            group="Water",
            item=f"sundries.{id}" if id is not None else None,
            quantity=quantity,
            spare=spare,
            unit=unit,
            why=why,
        )


def _guard_and_sign(roof: Roof) -> Iterator[Need]:
    house = roof.job.house
    if house is not None and house.roof_drains_to_us and not house.slides_guarded:
        yield Need(
            part="snow guard where it slides",
            group="Wall",
            item=_key(roof, "snow guard"),
            quantity=roof.shape.width_mm / 1000.0,
            unit="m",
            why="Snow slides from the house roof onto ours. The loads count it all the same.",
            mark="typical",
        )
    else:
        yield not_here("snow guard where it slides", "Wall", "no roof slides its snow onto this one")
    yield Need(
        part="not-a-walkway sign",
        group="Sundries",
        item=_key(roof, "not-a-walkway sign"),
        quantity=1,
        unit="each",
        why="At the wall, where somebody would climb out.",
    )


def _kit(roof: Roof) -> Iterator[Need]:
    for part, having, why in (
        ("blades", "knife", "Knife blades: along the flutes."),
        ("blades", "saw", "One fine-toothed blade: across the flutes."),
        ("bits", "", "Bits for the holes of bars and buttons."),
        ("cloths", "", "Cloths, gloves and bags."),
    ):
        id = roof.sundry(part, having=having)
        yield Need(
            part=part,
            group="Sundries",
            item=f"sundries.{id}" if id is not None else None,
            quantity=1,
            unit="set",
            why=why,
        )


def _key(roof: Roof, part: str) -> str | None:
    id = roof.sundry(part)
    return f"sundries.{id}" if id is not None else None
