"""handover.pdf: as built, care, inspection, snow to clear, warranty, and the notice that nobody walks on it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date

from pentice.design import Design
from pentice.pack.drawings.values import not_proved
from pentice.pack.method import gust_words, handling_gust_m_s, people_for
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.programme import INSPECTIONS, inspection_days
from pentice.pack.setting_out import heading_of
from pentice.pack.words import invented

STRIP = "strip.svg"
SETTLED_KN_M3, WET_KN_M3 = 2.0, 4.0
"""EN 1991-1-3, Annex E: settled and wet snow."""

WITH_IT = (
    "The setting-out drawing, with what was built differently written in.",
    "The site sheet with its readings, and a photo at each hold.",
    "The suppliers' papers: their warranty, their care, the batch of the sheets.",
)
_CARRY_SNOW = (
    "sheet-down", "sheet-strength", "bite-loaded",
    "rafter-bending", "rafter-shear", "rafter-bearing", "rafter-sag", "rafter-sag-final",
)  # fmt: skip


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
        rafter is missing, fails, is refused or is an estimate, or no snow was calculated.

    Source
    ------
    The calculated snow over 2.0 (settled) and 4.0 kN/m3 (wet): EN 1991-1-3, Annex E. What sheet and rafter have to
    spare is not given away, since beam, posts and wall fixings carry the same snow and are not checked. Both places
    by one arrangement of snow, the deepest at the wall: two arrangements together were never checked.
    """
    concerned = [check for check in design.checks if check.id in _CARRY_SNOW]
    cases = [case for case in design.loads.snow.cases if case.situation == "persistent"]
    if not {"sheet-down", "rafter-bending"} <= {check.id for check in concerned} or not cases:
        return None
    if any(c.verdict != "passes" or c.says.startswith("Estimated") for c in concerned):
        return None
    middle, foot = design.shape.width_mm / 2.0, design.shape.depth_on_plan_mm
    case = max(cases, key=lambda case: case.at(middle, 0.0))
    loads = (("at the wall", case.at(middle, 0.0)), ("at the foot", case.at(middle, foot)))
    if any(load <= 0.0 for _, load in loads):
        return None
    return tuple((place, 1000.0 * q / SETTLED_KN_M3, 1000.0 * q / WET_KN_M3) for place, q in loads)


def _depth(depth_mm: float) -> str:
    """A depth as printed: down to a whole centimetre."""
    return f"{math.floor(depth_mm / 10.0 + 1e-6) * 10:d} mm"


def handover_pdf(design: Design) -> bytes:
    """The handover paper.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    bays = design.setting_out.plane.bays
    strip = strip_of(STRIP, f"The roof from above, {len(bays)} bays, the wall at the top.")
    sizes = "As built" if _is_measured(design) else "As drawn: write in what was built differently"
    sections = [
        section("Your roof", list(_built(design)), result=f"{sizes}.", strip=strip),
        section(
            "Looking after it",
            list(_care(design)),
            result="Water, a soft brush, and eyes after each storm.",
            strip=strip,
        ),
        section("Not a walkway", _notice(design), result="Nobody stands on it, ever."),
    ]
    about = meta("Handover", **heading_of(design), warning=not_proved(design))
    widths = [bay.centres_mm for bay in bays]
    return make_pdf(DOCUMENT, {"meta": about, "sections": sections}, {STRIP: strip_svg(widths)})


def _is_measured(design: Design) -> bool:
    """True where the sheets were sized by the frame as it stands, in every bay."""
    return all(bay.measured for bay in design.setting_out.plane.bays)


def _built(design: Design) -> Iterator[b.Block]:
    parts, shape, people = design.parts, design.shape, design.job.people
    rows = [
        ("Where", people.address or "see the quote"),
        (
            "Size",
            f"{shape.width_mm:.0f} along the wall, {shape.projection_mm:.0f} out, {shape.pitch_deg:.1f}° pitch",
        ),
        (
            "Sheets",
            f"{len(design.setting_out.plane.bays)} of {parts.sheet.name}, {parts.tint}, weather face to the sky",
        ),
        ("Bars", f"{len(design.setting_out.plane.bars)} of {parts.bar.name}"),
        ("Frame", f"{parts.timber.name}, rafters {_section(design.job.frame.rafter_mm)}"),
        *([("Gutter", parts.gutter.name)] if parts.gutter is not None else []),
        (
            "Sizes are",
            "as measured on the frame" if _is_measured(design) else "as drawn, not measured on the frame",
        ),
    ]
    yield b.table((), rows, widths=(28, "1fr"), h=2.8, bold_columns=(0,))
    if "products" in invented(design):
        yield b.paragraph("*Demo.* The products named here are invented: write in what was built.")
    yield b.heading("Each sheet")
    yield b.table(
        ("Bay", "Width", "Length", "Batch", "Face seen"),
        [
            (
                str(bay.number),
                f"{bay.width_mm.cut:.0f}",
                f"{bay.length_mm.cut:.0f}",
                "",
                b.sign_cell("box", "label up"),
            )
            for bay in design.setting_out.plane.bays
        ],
        widths=(18, 26, 26, "1fr", 40),
        h=2.8,
        row_mm=1.0,
    )
    yield b.heading("Warranty")
    yield b.table(
        ("What", "Who answers", "On condition"),
        (
            (
                "*Material*",
                "The suppliers, by their papers, which we pass on.",
                "Face up, film off, no chemicals, no added holes.",
            ),
            (
                "*Workmanship*",
                _workmanship(design),
                "Inspected and kept as on the next page.",
            ),
        ),
        widths=(34, "1fr", "1fr"),
        h=2.8,
    )
    yield b.paragraph(
        "Walking on it, a pressure washer, solvents, an added flue or a blocked gutter end both."
    )
    yield b.heading("What comes with this paper")
    yield b.bullets(WITH_IT)
    yield b.space(3)
    yield b.keep(
        (
            b.heading("Handed over", above_mm=0.0),
            b.fill_boxes(("date", "for the firm", "for the client")),
            b.paragraph(f"*Who to call:* {_who(design)}. Keep this paper with the house."),
        )
    )


def _workmanship(design: Design) -> str:
    years = design.firm.workmanship_years
    return (
        f"{design.firm.name}, {years} year{'' if years == 1 else 's'}." if years else "Ask us for how long."
    )


def _who(design: Design) -> str:
    firm = design.firm
    return ", ".join(x for x in (firm.name, firm.telephone, firm.email) if x)


def _section(size: tuple[float, float] | None) -> str:
    return f"{size[0]:g} × {size[1]:g}" if size is not None else "as found"


def _care(design: Design) -> Iterator[b.Block]:
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
                (_when(year, due), _YEARLY if year < INSPECTIONS else f"{_YEARLY} *Wall fixings too.*", "")
                for year, due in enumerate(_inspections(design), 1)
            ),
        ),
        widths=(46, "1fr", 28),
        h=2.8,
        note="Afterwards every 12 months, the wall fixings every 5 years. Write down what was seen.",
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
            ("Drips at the wall", "flashing, or water behind the wall", "call us"),
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
    yield "Hang nothing heavy from rafters, beam or bars."
    if house is not None and house.roof_drains_to_us and not house.slides_guarded:
        yield "Snow that falls from the house roof strikes it, and no sheet is checked for that: fit guards there."
    for find in job.found:
        if find.action:
            yield f"{find.kind[:1].upper()}{find.kind[1:]}: {find.action.rstrip('.')}."


def _snow_note(design: Design) -> str:
    said = "Whichever place gets there first. Settled snow counted as 200 kg/m³, wet snow as 400."
    return (
        said
        if design.proved
        else f"{said} Beam, posts and wall fixings must hold as much: not checked here, ask."
    )


_PEOPLE = {2: "two", 3: "three"}
_YEARLY = "Caps and screws of the bars, seals, flashing, gutter, rot."


def _inspections(design: Design) -> tuple[date | None, ...]:
    """Days of the first inspections; without a day where the job does not say when the work starts."""
    return inspection_days(design) or (None,) * INSPECTIONS


def _when(year: int, due: date | None) -> str:
    return day(due) if due is not None else f"After {year} year{'' if year == 1 else 's'}"


def _notice(design: Design) -> list[b.Block]:
    return [
        b.space(14),
        b.paragraph("This roof does not carry people", h_mm=7.0, weight=600),
        b.space(6),
        b.number("", "NO STEP", "", h_mm=28),
        b.space(8),
        b.paragraph("Fragile roof. Do not stand, sit, kneel or put a ladder on it.", h_mm=7.0, weight=700),
        b.space(6),
        b.paragraph(
            "It breaks under a person, whatever its thickness. People have died falling through roofs.",
            h_mm=5.0,
        ),
        b.space(6),
        b.paragraph(f"Something is loose, leaks or is covered in snow? Call {_who(design)}.", h_mm=5.0),
        b.fill_space(),
        b.paragraph("Put this up where somebody would climb out onto the roof: at the window, at the wall."),
    ]
