"""handover.pdf: as built, care, inspection, snow to clear, warranty, and the notice that nobody walks on it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pentice.design import Design
from pentice.pack.drawings.values import not_proved
from pentice.pack.method import MPH, general_stop_mph, handling_gust_m_s
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of

STRIP = "strip.svg"
SETTLED_KN_M3, WET_KN_M3 = 2.0, 4.0
"""EN 1991-1-3, Annex E: settled and wet snow."""


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
        Place, depth of settled snow and of wet snow [mm]; None where a check of sheet or rafter did not pass, or is
        an estimate: then it is not known.

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
    return tuple((place, 1000.0 * q / SETTLED_KN_M3, 1000.0 * q / WET_KN_M3) for place, q in loads)


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
    sections = [
        section("Your roof", list(_built(design)), result="As built, and what it is made of.", strip=strip),
        section(
            "Looking after it",
            list(_care(design)),
            result="Water, a soft brush, and eyes after each storm.",
            strip=strip,
        ),
        section("Not a walkway", _notice(), result="Nobody stands on it, ever."),
    ]
    about = meta("Handover", **heading_of(design), warning=not_proved(design))
    widths = [bay.centres_mm for bay in bays]
    return make_pdf(DOCUMENT, {"meta": about, "sections": sections}, {STRIP: strip_svg(widths)})


def _built(design: Design) -> Iterator[b.Block]:
    parts, shape, people = design.parts, design.shape, design.job.people
    measured = bool(design.job.measured.between_stems_mm or design.job.measured.rafter_centres_mm)
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
        ("Sizes are", "as measured on the frame" if measured else "as drawn: write in what was built"),
    ]
    yield b.table((), rows, widths=(28, "1fr"), h=2.8, bold_columns=(0,))
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
                f"{design.firm.name}, {design.firm.workmanship_years} years.",
                "Inspected and kept as on the next page.",
            ),
        ),
        widths=(34, "1fr", "1fr"),
        h=2.8,
    )
    yield b.paragraph(
        "Walking on it, a pressure washer, solvents, an added flue or a blocked gutter end both."
    )
    yield b.heading("Handed over")
    yield b.fill_boxes(("date", "for the firm", "for the client", "telephone of the firm"))


def _section(size: tuple[float, float] | None) -> str:
    return f"{size[0]:g} × {size[1]:g}" if size is not None else "as found"


def _care(design: Design) -> Iterator[b.Block]:
    yield b.heading("Cleaning")
    yield b.bullets(
        (
            "Spring, and autumn after the leaves: water, mild soap, a soft brush. From below or from a window.",
            "No abrasives, solvents, ammonia, pressure jet, oily sprays. They crack the sheet or blind it.",
            "Keep the gutter free. Some mist in the flutes in cold weather is normal; standing water is not.",
        )
    )
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
            [
                (place, b.big_cell(f"{math.floor(settled)} mm"), b.big_cell(f"{math.floor(wet)} mm"))
                for place, settled, wet in depths
            ],
            widths=("1fr", 40, 40),
            h=2.8,
            note="The snow that sheet and rafter were checked for. Beam, posts and wall fixings are not checked: ask.",
        )
    yield b.bullets(
        (
            "Clear from below with soft tools. Never from on top.",
            "Snow slides off the foot: keep people and cars away from it.",
        )
    )
    yield b.heading("Inspection")
    yield b.table(
        ("When", "Look at"),
        (
            ("After each storm", "Caps, end caps, trims, anything that rattles."),
            (
                "Every 12 months",
                "Caps and screws of the bars, seals, flashing, gutter, rot at posts and plate.",
            ),
            ("Every 5 years", "Wall fixings: have them looked at and write it down."),
        ),
        widths=(40, "1fr"),
        h=2.8,
    )
    bays = design.setting_out.plane.bays
    mean, _ = general_stop_mph(max(bay.length_mm.cut for bay in bays))
    gust = min(handling_gust_m_s(bay) for bay in bays)
    yield b.paragraph(
        f"A sheet that has to come off waits for calm: never above {mean:g} mph mean, or "
        f"gusts of {math.floor(gust * 10.0) / 10.0:.1f} m/s ({math.floor(gust / MPH)} mph)."
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


def _notice() -> list[b.Block]:
    return [
        b.space(12),
        b.number("This roof does not carry people", "NO STEP", "", h_mm=20),
        b.space(6),
        b.paragraph("Fragile roof. Do not stand, sit, kneel or put a ladder on it.", h_mm=5.0, weight=700),
        b.space(4),
        b.paragraph("Put this up where somebody would climb out onto it.", h_mm=3.5),
    ]
