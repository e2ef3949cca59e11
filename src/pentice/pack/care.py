"""Looking after a roof: cleaning, what it counts on, the snow at which to clear, inspections, signs of trouble."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date

from pentice.checks.values import Check
from pentice.design import Design
from pentice.job.called import head_called
from pentice.pack.handling import gust_words, handling_gust_m_s, people_for
from pentice.pack.paper import blocks as b
from pentice.pack.paper import day
from pentice.pack.programme import INSPECTIONS, inspection_days
from pentice.standards.en1991_1_3 import snow_density_kn_m3

_CARRY_SNOW = (
    "sheet-down", "sheet-strength", "bite-loaded",
    "rafter-bending", "rafter-shear", "rafter-bearing", "rafter-bearing-head", "rafter-notch", "rafter-notch-bending",
    "rafter-bearing-plate", "rafter-head-notch", "rafter-head-notch-bending",
    "rafter-sag", "rafter-sag-final", "bar-bending", "bar-shear", "bar-sag",
    "purlin-bending", "purlin-shear", "purlin-sag", "purlin-sag-final",
)  # fmt: skip
_CARRY_ON = (
    "beam-bending", "beam-knees", "beam-shear", "beam-bearing", "beam-sag", "beam-sag-final", "post-bowing",
    "post-racking", "post-across", "post-both-ways", "post-across-shear", "rafter-across", "rafter-across-shear",
    "knee-bearing", "beam-across", "beam-across-bearing", "purlin-ends", "pad-pressure", "wall-plate", "wall-fixings",
    "hanger-down", "bar-web",
)  # fmt: skip
"""Checks of what carries the same snow on to the ground and into the wall."""


def _carries_on(check: Check) -> bool:
    """Is it one of those, at the eaves or at the head?"""
    return check.id.removeprefix("head-") in _CARRY_ON


def snow_depths_mm(design: Design) -> tuple[tuple[str, float, float], ...] | None:
    """Depth of snow at which to clear, at the wall and at the foot: never more than the roof was calculated for.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple or None
        Place, depth of settled snow and of wet snow [mm]; None where it is not known: a check of sheet or
        rafter is missing, fails, is refused or is an estimate, one of what carries them fails, or no snow was
        calculated.

    Source
    ------
    The calculated snow over 2.0 (settled) and 4.0 kN/m3 (wet): EN 1991-1-3, Annex E. What sheet and rafter have to
    spare is not given away, since beam, posts and wall fixings carry the same snow. Both places
    by one arrangement of snow, the deepest at the wall: two arrangements together were never checked.
    """
    concerned = [check for check in design.checks if check.id in _CARRY_SNOW]
    cases = [case for case in design.loads.snow.cases if case.situation == "persistent"]
    made = {check.id for check in concerned}
    if "sheet-down" not in made or not made & {"rafter-bending", "bar-bending"} or not cases:
        return None
    if any(c.verdict != "passes" or c.says.startswith("Estimated") for c in concerned):
        return None
    if any(check.verdict == "fails" for check in design.checks if _carries_on(check)):
        return None
    middle, foot = design.shape.width_mm / 2.0, design.shape.depth_on_plan_mm
    case = max(cases, key=lambda case: case.at(middle, 0.0))
    loads = ((f"at {head_called(design.job)}", case.at(middle, 0.0)), ("at the foot", case.at(middle, foot)))
    if any(load <= 0.0 for _, load in loads):
        return None
    settled, wet = snow_density_kn_m3("settled"), snow_density_kn_m3("wet")
    return tuple((place, 1000.0 * q / settled, 1000.0 * q / wet) for place, q in loads)


def snow_words(design: Design) -> str:
    """At which depth snow is cleared, in a sentence for every paper that people act on.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        The depth of settled snow at the wall and at the foot, or that it is not known.
    """
    depths = snow_depths_mm(design)
    if depths is None:
        return "Snow on the finished roof: the depth at which to clear it is not known. Ask before the first snow."
    where = " or ".join(f"{_depth(settled)} {place}" for place, settled, _ in depths)
    wet = " or ".join(_depth(wet) for _, _, wet in depths)
    return f"Snow on the finished roof: clear it when {where} has settled, wet snow at {wet}."


def limits(design: Design) -> tuple[str, str]:
    """The gust at which to stop and the snow at which to clear, for papers of other work.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of str
        Two sentences.
    """
    hardest = min(design.setting_out.plane.bays, key=handling_gust_m_s)
    return f"Carrying and fitting sheets: {gust_words(hardest)}.", snow_words(design)


def _depth(depth_mm: float) -> str:
    """A depth as printed: down to a whole centimetre."""
    return f"{math.floor(depth_mm / 10.0 + 1e-6) * 10:d} mm"


def care(design: Design) -> Iterator[b.Block]:
    """The page on looking after a roof.

    Parameters
    ----------
    design
        A solved job.

    Yields
    ------
    Block
        Cleaning, what it counts on, snow, inspection, what to do when something is wrong.
    """
    bays = design.setting_out.plane.bays
    yield b.heading("Cleaning")
    yield b.bullets(
        (
            "Spring, and autumn after the leaves: water, mild soap, a soft brush. From below or from a window.",
            "No abrasives, solvents, ammonia, pressure jet, oily sprays. They crack the sheet or blind it.",
            "Keep the gutter free. Some mist in the flutes in cold weather is normal; standing water is not.",
        )
    )
    yield b.heading("What it counts on")
    yield b.bullets(tuple(counts_on(design)))
    yield b.heading("Snow")
    depths = snow_depths_mm(design)
    if depths is None:
        yield b.paragraph(
            "*The depth at which to clear is not known:* a check of sheet or rafter is estimated, refused or fails. "
            "Ask before the first snow."
        )
    else:
        yield b.table(
            ("Clear when it lies", "settled snow", "wet snow"),
            [(place, b.big_cell(_depth(settled)), b.big_cell(_depth(wet))) for place, settled, wet in depths],
            widths=("1fr", 40, 40),
            h=2.8,
            note=_snow_note(design),
        )
    yield b.bullets(
        (
            "Clear from below with soft tools. Never from on top.",
            "Snow slides off the foot: keep people and cars away from it.",
        )
    )
    yield b.heading("Inspection")
    yield b.table(
        ("When", "Look at", "Done, by"),
        (
            ("After each storm and each deep snow", "Caps, end caps, trims, anything that rattles.", ""),
            *(
                (
                    _when(year, due),
                    _YEARLY if year < INSPECTIONS else f"{_YEARLY} *{_held_by(design).capitalize()} too.*",
                    "",
                )
                for year, due in enumerate(_inspections(design), 1)
            ),
        ),
        widths=(46, "1fr", 28),
        h=2.8,
        note=f"Afterwards every 12 months, the {_held_by(design)} every 5 years. Write down what was seen.",
    )
    people = _PEOPLE[max(people_for(bay) for bay in bays)]
    yield b.paragraph(
        f"A sheet that has to come off is work for {people} who know how, and it waits for calm: "
        f"{gust_words(min(bays, key=handling_gust_m_s))}."
    )
    yield b.heading("When something is wrong")
    yield b.table(
        ("Sign", "Often", "Do"),
        (
            ("Creaks in the sun", "dry seals, a cap driven too far", "call us"),
            ("Rattles in wind", "a cap or button missing", "call us before the next storm"),
            ("Drips at the wall", "flashing, or water behind the wall", "call us")
            if design.job.roof.attached
            else ("Drips at the head", "flashing", "call us"),
            ("Green in the flutes", "foot blocked, tape failed", "clear the gutter, call us"),
        ),
        widths=(42, "1fr", "1fr"),
        h=2.8,
    )


def counts_on(design: Design) -> Iterator[str]:
    """What the owner must leave as it is, because the roof was calculated or built on it.

    Parameters
    ----------
    design
        A solved job.

    Yields
    ------
    str
        A sentence each: sides, doors, heat, loads, snow from above, and what was found at the wall.
    """
    job, house = design.job, design.job.house
    if job.roof.use == "lean-to":
        for opening in job.roof.openings:
            if opening.opens and opening.shut_in_storms and opening.wall != "house":
                where = "in front" if opening.wall == "front" else f"on the {opening.wall}"
                yield f"Shut the {opening.kind} {where} before a storm: the roof counts on it."
        yield "Keep its openings high and low free: a closed room under glazing gets hot."
    elif "open" in (job.roof.left, job.roof.right, job.roof.front):
        yield "Leave its open sides open. A wall, a screen or a gate changes the wind on it: ask us first."
    yield "No fire, grill or heater under it, and no flue through or below it: the sheets soften and drip."
    yield "Hang nothing heavy from the roof: no rafter, beam or bar is checked for it."
    if house is not None and house.roof_drains_to_us and not house.slides_guarded:
        yield "Snow that falls from the house roof strikes it, and no sheet is checked for that: fit guards there."
    for find in job.found:
        if find.action:
            yield f"{find.kind[:1].upper()}{find.kind[1:]}: {find.action.rstrip('.')}."


def _snow_note(design: Design) -> str:
    said = "Whichever place gets there first. Settled snow counted as 200 kg/m³, wet snow as 400."
    held = {check.id for check in design.checks if _carries_on(check) and check.verdict == "passes"}
    open_ = any(_carries_on(check) and check.verdict != "passes" for check in design.checks)
    if held and not open_:
        return said
    return f"{said} Beam, posts and {_held_by(design)} must hold as much: not shown here, ask."


def _held_by(design: Design) -> str:
    """What holds the whole roof, and is looked at every few years."""
    return "wall fixings" if design.job.roof.attached else "post feet"


_PEOPLE = {2: "two", 3: "three"}
_YEARLY = "Caps and screws of the bars, seals, flashing, gutter, rot."


def _inspections(design: Design) -> tuple[date | None, ...]:
    """Days of the first inspections; without a day where the job does not say when the work starts."""
    return inspection_days(design) or (None,) * INSPECTIONS


def _when(year: int, due: date | None) -> str:
    return day(due) if due is not None else f"After {year} year{'' if year == 1 else 's'}"
