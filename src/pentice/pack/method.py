"""method.pdf: order of work, hold points, gust limits, people, height, tools, waste, sign-off."""

from __future__ import annotations

import math

from pentice.design import Design
from pentice.job.found import cautions
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of
from pentice.setting_out.values import Bay

STRIP = "strip.svg"
FORCE_N = 150.0
"""Push of the wind that two people can hold on a sheet: judgement, no source."""
DRAG = 1.2
"""Drag of a flat plate: handbook order of size, from memory."""
HALF_RHO = 0.613
"""Half the density of air [kg/m3]."""
LONG_SHEET_MM = 5000.0
MPH = 0.44704
"""m/s in one mile an hour."""

ORDER = (
    "Confirm the survey against the wall. Protect and clear the place.",
    "Set the datum. Fix the wall plate, packed to the line, not to the bumps.",
    "Posts and bases, then the beam. Brace as you go.",
    "Rafters from one end by the running marks. Brace.",
    "Diagonals, centres, tops in one plane. *Hold A.* Measure every bay; the cut list is final now.",
    "Gutter brackets while you can reach them.",
    "Head profile at the wall, upside down.",
    "Bar bases and seals: bed each screw in sealant, wipe. *Hold B.* Bars parallel, bays measured again.",
    "Cut, vacuum, tape and label the sheets. Film back 50 from the edges before taping.",
    "*Hold C* for each sheet: face, flutes, tapes, bite. Lift from one end, button, caps from the foot.",
    "Foot profiles over the breather tape, drip into the gutter; a bead on the top edge.",
    "Flashing over upstands and cap heads in one run. Verge trims. End caps.",
    "Gutter and downpipes. All film off.",
    "*Hold D.* Hose test from the foot up, 10 minutes each zone. Clean. Hand over.",
)
TOOLS = (
    "Line laser, string, 5 m and 8 m tapes, square, thermometer for the sheet.",
    "Sharp knife along flutes, fine-toothed saw across, jigsaw for curves, vacuum with a narrow nozzle.",
    "Two drills, masonry drill with dust extractor, torque limiter, soft mallet and block, sealant gun.",
    "Padded trestles, clamps, carrying handles.",
)
HEIGHT = (
    "Avoid height first: cut and tape on the ground, fit from a tower or from below.",
    "Boards bear on rafters, and only before the sheets are on. Afterwards from a tower or from below.",
    "A ladder only to get there, or for 30 minutes of light work: 1 out to 4 up, tied, 1 m above where you step off.",
    "No ladder against gutter, bar or sheet. Nobody works alone at height.",
    "Six-metre bars and overhead lines: know where they are before you lift one.",
)
HEALTH = (
    "Eyes, cut-resistant gloves, ears at the saw. FFP3 and extraction when drilling masonry: the dust harms for good.",
    "Cordless tools or a 30 mA switch; no leads in rain; cable detector before each hole in the wall.",
    "Soffit or board that nobody knows: stop, it may be asbestos. Ask before you touch it.",
)
WASTE = "Sheet, aluminium and wood apart, film and tapes with the rest. Burn nothing. Keep offcuts over 300 under film."


def gust_limit_m_s(area_m2: float) -> float:
    """Gust at which two people can no longer hold a sheet.

    Parameters
    ----------
    area_m2
        Area of the sheet [m2].

    Returns
    -------
    float
        [m/s].

    Source
    ------
    F = 0.613 v^2 1.2 A with 150 N: flat plate, from memory; the force is judgement, no source.

    Examples
    --------
    >>> round(gust_limit_m_s(2.9), 1)
    8.4
    """
    return math.sqrt(FORCE_N / (HALF_RHO * DRAG * area_m2))


def general_stop_mph(length_mm: float) -> tuple[float, float]:
    """Mean wind and gust at which handling stops whatever the area.

    Parameters
    ----------
    length_mm
        Length of the sheet [mm].

    Returns
    -------
    tuple of float
        Mean and gust [mph].

    Source
    ------
    Roofers' safety guidance, second-hand: 17 and 26 for sheets over 5 m, else 23 and 35.

    Examples
    --------
    >>> general_stop_mph(6000.0)
    (17.0, 26.0)
    """
    return (17.0, 26.0) if length_mm > LONG_SHEET_MM else (23.0, 35.0)


def handling_gust_m_s(bay: Bay) -> float:
    """Gust at which handling a bay's sheet stops: by its area, never above the general stop.

    Parameters
    ----------
    bay
        The bay.

    Returns
    -------
    float
        [m/s], at working height.

    Source
    ------
    The lower of `gust_limit_m_s` and `general_stop_mph`.
    """
    area = bay.width_mm.cut * bay.length_mm.cut * 1e-6
    return min(gust_limit_m_s(area), general_stop_mph(bay.length_mm.cut)[1] * MPH)


def people_for(bay: Bay) -> int:
    """People who lift a sheet: two, or three for one over 4 m or 4 m2.

    Parameters
    ----------
    bay
        The bay.

    Returns
    -------
    int
        People.

    Source
    ------
    Judgement, no source.
    """
    area = bay.width_mm.cut * bay.length_mm.cut * 1e-6
    return 3 if bay.length_mm.cut > 4000.0 or area > 4.0 else 2


def method_pdf(design: Design) -> bytes:
    """The method sheet.

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
    largest = max(bays, key=lambda bay: bay.width_mm.cut * bay.length_mm.cut)
    sections = [
        section("Method", _order(design), result="The order of the work, with its four holds.", strip=strip),
        section("Wind, people, height", _safety(design), result=_wind_sentence(largest), strip=strip),
        section(
            "Before you start",
            _before(design),
            result="What was found, who was asked, who signs.",
            strip=strip,
        ),
    ]
    about = meta("Method", **heading_of(design), warning=not_proved(design))
    return make_pdf(
        DOCUMENT, {"meta": about, "sections": sections}, {STRIP: strip_svg([bay.centres_mm for bay in bays])}
    )


def _order(design: Design) -> list[b.Block]:
    stays = design.job.frame.rafter_centres_mm is not None
    note = "The rafters stand already: begin at hold A, and look at how they are held." if stays else ""
    return [
        b.cautions(
            (
                (
                    "Fragile.",
                    "Nobody stands, sits or leans on a sheet, a bar or the gutter, whatever its class.",
                ),
                (
                    "Brace.",
                    "The frame is braced and fixed before the first sheet. It is not checked here: ask.",
                ),
                ("Loose.", "No sheet is left without button, caps and edge trims when work stops."),
            ),
            h_mm=2.8,
        ),
        b.space(3),
        *([b.paragraph(note)] if note else []),
        b.steps(ORDER),
        b.heading("Tapes, sealants, sheets"),
        b.bullets(
            (
                "Tapes and sealant dry and above 5 °C. Sheets are cut and fitted at 5 to 30 °C of sheet.",
                "No taping of damp flutes: the water stays inside.",
                "Caps go on until the seals just flatten. An overdriven cap hurts the sheet as it moves.",
                "Seals are laid in relaxed, never stretched.",
            )
        ),
        b.heading("Tools"),
        b.bullets(TOOLS),
    ]


def _wind_sentence(largest: Bay) -> str:
    gust = handling_gust_m_s(largest)
    return f"Stop lifting at gusts of {gust:.1f} m/s ({gust / MPH:.0f} mph), measured where you work."


def _safety(design: Design) -> list[b.Block]:
    rows: dict[tuple[str, ...], list[int]] = {}
    for bay in design.setting_out.plane.bays:
        area = bay.width_mm.cut * bay.length_mm.cut * 1e-6
        mean, stop = general_stop_mph(bay.length_mm.cut)
        gust = handling_gust_m_s(bay)
        row = (
            f"{area:.2f} m²",
            f"{area * design.parts.sheet.mass_kg_m2:.1f} kg",
            str(people_for(bay)),
            f"{gust:.1f} m/s, {gust / MPH:.0f} mph",
            f"{mean:g} / {stop:g} mph",
        )
        rows.setdefault(row, []).append(bay.number)
    named = [(", ".join(str(n) for n in numbers), *row) for row, numbers in rows.items()]
    return [
        b.table(
            ("Bays", "Area", "Weight", "People", "Stop at gusts of", "General stop, mean / gust"),
            named,
            widths=(30, "1fr", "1fr", 18, 40, 46),
            h=2.8,
            note="The gust at working height, from 150 N on the sheet (judgement), never above the general stop.",
        ),
        b.heading("Height"),
        b.bullets(HEIGHT),
        b.heading("Eyes, hands, dust, power"),
        b.bullets(HEALTH),
        b.heading("Access and loads"),
        b.bullets(
            (
                f"Longest piece on site: {_longest(design):.0f} mm. Look at the gate, the stairs and the turn.",
                "Carry sheets on edge by two, flat on full-length boards in the van, straps over boards.",
                "Store flat and level, off the ground, film up and out of the sun, nothing that seals them in.",
            )
        ),
        b.heading("Waste"),
        b.paragraph(WASTE),
    ]


def _longest(design: Design) -> float:
    return max(piece.length_mm for piece in design.pieces)


def _before(design: Design) -> list[b.Block]:
    rows = []
    for caution in cautions(design.job):
        state = "answered" if caution.answered else f"*ask* {caution.ask}" if caution.ask else ""
        rows.append((caution.text, caution.why, state))
    return [
        b.table(("Mind this", "Because", "Ask"), rows, widths=("1fr", "1fr", 42), h=2.5),
        b.heading("Job, people, emergency"),
        b.fill_boxes(
            ("who leads", "first aider", "nearest hospital", "what to say to 999 or 112"), per_row=2
        ),
        b.heading("Read and understood"),
        b.fill_boxes(("name", "signature", "date", "name", "signature", "date"), per_row=3),
        b.paragraph(
            "An aid for competent people. Local rules, the site's own and the suppliers' instructions come first.",
            h_mm=2.5,
        ),
    ]
