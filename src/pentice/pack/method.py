"""method.pdf: order of work, hold points, gust limits, people, height, tools, waste, sign-off."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.design import Design
from pentice.job.called import boards_bear, head_called
from pentice.job.found import cautions
from pentice.pack.care import snow_words
from pentice.pack.drawings.mullion_heads import room_words
from pentice.pack.drawings.values import not_proved
from pentice.pack.handling import (
    area_m2,
    general_stop_mph,
    gust_speeds,
    gust_words,
    handling_gust_m_s,
    people_for,
)
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of
from pentice.pack.site_page import hold_lines
from pentice.pack.words import AID, NOBODY_ON_IT, NOTHING_LOOSE, asked, bays_named, listed, members_open
from pentice.pieces.names import letters_of
from pentice.setting_out.side_frames import side_frames
from pentice.takeoff.joints import joints_described

STRIP = "strip.svg"
BRACING = ("bracing", "head-bracing", "bracing-across", "knee-head", "knee-rafter-tie")
"""Checks of what holds the frame upright."""
NEW_FRAME = (
    "Set the datum. Fix the wall plate, packed to the line, not to the bumps.",
    "Posts and bases, then the beam. Brace as you go.",
    "Rafters from one end by the running marks. Brace.",
)
FREE_FRAME = (
    "Set the datum and the diagonals of the post feet. Bases and posts of both rows, each post braced until all stand.",
    "Eaves beam and head beam. Brace along both rows and across before anything goes on top.",
    "Rafters from one end by the running marks, wedged and strapped to both beams. Brace.",
)
KNEED_FRAME = (
    FREE_FRAME[0],
    "Eaves beam and head beam. Brace along both rows; prop across until the knee braces across hold.",
    "Rafters from one end by the running marks, wedged and strapped to both beams; those over posts with their knee "
    "braces across, post, beam and rafter joined so that no beam can roll. Then the props come out.",
)
STANDING_FRAME = (
    "The rafters stand already: look how each is held at the wall and on the beam, for rot, and for bracing.",
)
RAFTERS_FIRST = "Rafters from one end by the running marks"
BEAMS_ON_POSTS = ("Posts and bases, then the beam", "Eaves beam and head beam")
"""How the steps begin that set beams on posts."""
CARRYING_BARS = "Bars from one end by the running marks, both ends held as their supplier says. Brace."
"""In place of the step that sets rafters, where bars carry by themselves."""
WALL_HEAD = "Head profile at the wall, upside down."
FREE_HEAD = "Head profile along the head, its leg down over the beam."
GLAZING = (
    "Bar bases and seals: bed each screw in sealant, wipe. *Hold B.* Bars parallel, bays measured again.",
    "Cut, vacuum, tape and label the sheets. Film back 50 from the edges before taping.",
    "*Hold C* for each sheet: face, flutes, tapes, bite. Lift from one end, button or stop, caps from the foot.",
    "Foot profiles over the breather tape, drip into the gutter; a bead on the top edge.",
    "Flashing over the head profile and the cap heads in one run. Verge trims. End caps.",
)
SIDES = (
    "Side sheets: foot and side profiles screwed to the frame, the sheet in from above, weather face out, then its "
    "head profile; a bead all round. Two people, and none in wind."
)
SIDE_FRAMES = (
    "Between the side sheets: {0}, placed as the elevations show. Plumb and level, the openings measured again; each "
    "end held in and out as the calculations ask"
)
OF_MULLIONS = ", heads cut on the slope on site; leave between them and the rafter {0}"
IN_FRONT = "; those under a beam stay square, leave between them and the beam {0}"
NO_MULLIONS = "Mullions are not named: none is calculated or ordered. Ask."
"""Common practice, no source."""
TOOLS = (
    "Line laser, string, 5 m and 8 m tapes, square, thermometer for the sheet.",
    "Sharp knife along flutes, fine-toothed saw across, jigsaw for curves, vacuum with a narrow nozzle.",
    "Two drills, masonry drill with dust extractor, torque limiter, soft mallet and block, sealant gun.",
    "Padded trestles, clamps, carrying handles.",
)
HEIGHT = (
    "Avoid height first: cut and tape on the ground, fit from a tower or from below.",
    "A ladder only to get there, or for 30 minutes of light work: 1 out to 4 up, tied, 1 m above where you step off.",
    "No ladder against gutter, bar or sheet. Nobody works alone at height.",
    "Six-metre bars and overhead lines: know where they are before you lift one.",
)
HEALTH = (
    "Eyes, cut-resistant gloves, ears at the saw. FFP3 and extraction when drilling masonry: the dust harms for good.",
    "Cordless tools or a 30 mA switch; no leads in rain; cable detector before each hole in the wall.",
    "Soffit or board that nobody knows: stop, it may be asbestos. Ask before you touch it.",
)
AROUND = (
    "Fence off below: children, pets, neighbours, the door that opens into the work.",
    "Water, toilet, first aid box and a telephone that has signal, before work starts.",
    "Find pipes and cables before you dig for posts or drill the wall.",
)
WASTE = "Sheet, aluminium and wood apart, film and tapes with the rest. Burn nothing."


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
    strip = strip_of(STRIP, f"The roof from above, {len(bays)} bays, {head_called(design.job)} at the top.")
    hardest = min(bays, key=handling_gust_m_s)
    wind = gust_words(hardest)
    sections = [
        section("Method", _order(design), result="The order of the work, with its four holds.", strip=strip),
        section("Holds", _holds(design), result="Work goes on only when each line holds.", strip=strip),
        section(
            "Wind, people, height",
            _safety(design),
            result=f"{wind[0].upper()}{wind[1:]}, measured where you work.",
            strip=strip,
        ),
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


def order_of_work(design: Design) -> tuple[str, ...]:
    """The work, step by step, with its holds: a frame that stands is looked at, not built; no gutter, no brackets.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of str
        One sentence or two for each step.
    """
    standing = design.job.frame.rafter_centres_mm is not None
    gutter, attached = design.parts.gutter is not None, design.job.roof.attached
    free = KNEED_FRAME if design.job.frame.bracing_across == "knee braces" else FREE_FRAME
    frame: tuple[str, ...] = STANDING_FRAME if standing else NEW_FRAME if attached else free
    if design.parts.bar.carries:
        frame = tuple(CARRYING_BARS if step.startswith(RAFTERS_FIRST) else step for step in frame)
    frame = tuple(step.replace("wedged", _seated(design)) for step in frame)
    return (
        f"Confirm the survey{' against the wall' if attached else ''}. Protect and clear the place.",
        *_with_joints(frame, design),
        "Diagonals, centres, tops in one plane. *Hold A.* Measure every bay; the cut list is final now.",
        *(("Gutter brackets while you can reach them.",) if gutter else ()),
        WALL_HEAD if attached else FREE_HEAD,
        *GLAZING,
        *_sides(design),
        "Gutter and downpipes. All film off." if gutter else "All film off.",
        "*Hold D.* Hose test from the foot up, 10 minutes each zone. Clean. Hand over.",
    )


def _sides(design: Design) -> Iterator[str]:
    """What closes the sides: first what stands between the sheets, then the sheets."""
    if not design.job.side_sheets:
        return
    letters = {letters_of(piece.id) for piece in design.pieces}
    there = [
        words for key, words in (("SI", "sills"), ("MU", "mullions"), ("TM", "transoms")) if key in letters
    ]
    frames = side_frames(design.job, design.shape)
    if there:
        stand = frames.mullions if "MU" in letters else ()
        under = [mullion.side in ("front", "back") for mullion in stand]
        over = OF_MULLIONS.format(room_words(design)) if not all(under) else ""
        over += IN_FRONT.format(room_words(design, under_beam=True)) if any(under) else ""
        yield SIDE_FRAMES.format(listed(there)) + over + "."
    missing = frames.needs_mullion and not letters & {"MU", "TM"}
    yield f"{SIDES} {NO_MULLIONS}" if missing else SIDES


def _seated(design: Design) -> str:
    """How rafters lie on both beams of a free-standing roof."""
    cuts = (design.job.frame.head_notch_mm, design.job.frame.rafter_notch_mm)
    if not any(cuts):
        return "wedged"
    return "set on their birdsmouths" if all(cuts) else "set on their birdsmouths, wedged at the other beam"


def _with_joints(frame: tuple[str, ...], design: Design) -> Iterator[str]:
    """Each described joint right after the step that brings its timbers together."""
    joints = joints_described(design.job, design.pieces)
    for step in frame:
        yield step
        for joint in joints:
            after = BEAMS_ON_POSTS if joint.fasteners.joint == "post tie" else (RAFTERS_FIRST,)
            if step.startswith(after):
                called = joint.called[0].upper() + joint.called[1:]
                yield f"{called}: {joint.words}. All in before anything goes on top."


def fixed_joints(design: Design) -> tuple[tuple[str, str], ...]:
    """Joints that are made with fasteners the job describes, and what goes into each.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of pairs of str
        "rafter ties" and its nails, screws or bolts; none where nothing is described or the frame stands already.
    """
    return tuple((joint.called, joint.words) for joint in joints_described(design.job, design.pieces))


def _order(design: Design) -> list[b.Block]:
    held = all(check.verdict == "passes" for check in design.checks if check.id in BRACING)
    ask = "" if held else " What braces it is not shown to hold: ask."
    brace = f"The frame is braced and fixed before the first sheet.{ask}"
    return [
        b.cautions((NOBODY_ON_IT, ("Brace.", brace), NOTHING_LOOSE), h_mm=2.8),
        b.space(3),
        b.steps(order_of_work(design)),
        b.heading("Tapes, sealants, sheets"),
        b.bullets(
            (
                "Tapes and sealant dry and above 5 °C. Sheets are cut and fitted at 5 to 30 °C of sheet.",
                "No taping of damp flutes: the water stays inside. No fitting with frost on the seals.",
                "Caps go on until the seals just flatten. An overdriven cap hurts the sheet as it moves.",
                "Seals are laid in relaxed, never stretched.",
            )
        ),
        b.heading("Tools"),
        b.bullets(TOOLS),
    ]


HOLD_TITLES = {
    "A": "Hold A: the frame",
    "B": "Hold B: the bars",
    "C": "Hold C: each sheet",
    "D": "Hold D: water",
}


def _holds(design: Design) -> list[b.Block]:
    sizes = design.setting_out
    lines = hold_lines(
        diagonals_mm=sizes.diagonals_mm,
        pitch_deg=sizes.plane.pitch_deg,
        bars_carry=design.parts.bar.carries,
        joints=fixed_joints(design),
    )
    found: list[b.Block] = []
    for hold, title in HOLD_TITLES.items():
        rows = [(line.item, line.passes, line.if_not) for line in lines if line.hold == hold]
        heads = ("Look or read", "Holds when", "If not")
        table = b.table(heads, rows, widths=(56, 54, "1fr"), h=2.8, bold_columns=(0,))
        found.append(b.keep((b.heading(title, above_mm=4.0), table)))
    found.append(b.paragraph("The gap card and the boxes for readings stand on the site sheet."))
    return found


def _safety(design: Design) -> list[b.Block]:
    kept = design.job.stock.keep_mm
    return [
        _wind_table(design),
        b.paragraph(snow_words(design)),
        b.heading("Height"),
        b.bullets((HEIGHT[0], boards_bear(bars_carry=design.parts.bar.carries), *HEIGHT[1:])),
        b.heading("Eyes, hands, dust, power"),
        b.bullets(HEALTH),
        b.heading("Access and loads"),
        b.bullets(
            (
                _longest(design),
                "Carry sheets on edge by two, flat on full-length boards in the van, straps over boards.",
                "Store flat and level, off the ground, film up and out of the sun, nothing that seals them in.",
            )
        ),
        b.heading("People around"),
        b.bullets(AROUND),
        b.heading("Waste"),
        b.paragraph(f"{WASTE} Keep sheet offcuts from {kept[0]:g} by {kept[1]:g} under film."),
    ]


def _wind_table(design: Design) -> b.Block:
    rows: dict[tuple[str, ...], list[int]] = {}
    for bay in design.setting_out.plane.bays:
        mean, stop = general_stop_mph(bay.length_mm.cut)
        row = (
            f"{area_m2(bay):.2f} m²",
            f"{area_m2(bay) * design.parts.sheet.mass_kg_m2:.1f} kg",
            str(people_for(bay)),
            *gust_speeds(handling_gust_m_s(bay)),
            f"{mean:g} / {stop:g} mph",
        )
        rows.setdefault(row, []).append(bay.number)
    named: list[list[b.Cell]] = [
        [bays_named(numbers).partition(" ")[2], *row[:3], b.big_cell(row[3]), *row[4:]]
        for row, numbers in rows.items()
    ]
    return b.table(
        ("Bays", "Area", "Weight", "People", "Stop: gust", "", "All work: mean / gust"),
        named,
        widths=("1fr", 22, 20, 16, 24, 20, 44),
        h=2.8,
        note="Gust at working height at which the wind pushes a sheet with 150 N, what two people hold (judgement), "
        "never above the general stop: 17 / 26 mph (7.5 / 11.6 m/s) over 5 m of sheet, else 23 / 35 mph (10.2 / 15.6).",
    )


def _longest(design: Design) -> str:
    longest = max((piece.length_mm for piece in design.pieces), default=0.0)
    way = design.job.stock.longest_mm
    room = (
        f" The way in takes {way:.0f}." if way is not None else " Look at the gate, the stairs and the turn."
    )
    return f"Longest piece on site: {longest:.0f} mm.{room}"


def _before(design: Design) -> list[b.Block]:
    rows = [
        (asked(c.text, c.ask, answered=c.answered), c.why)
        for c in cautions(design.job, bars_carry=design.parts.bar.carries)
    ]
    open_ = members_open(design)
    left = (
        [b.paragraph(f"*Not shown to hold:* {listed(open_).lower()}. Ask before you build.")] if open_ else []
    )
    return [
        *left,
        b.table(("Mind this", "Because"), rows, widths=(98, "1fr"), h=2.8),
        b.keep(
            (
                b.heading("Job, people, emergency"),
                b.fill_boxes(
                    ("who leads", "first aider", "nearest hospital", "what to say to 999 or 112"), per_row=2
                ),
            )
        ),
        b.space(2),
        b.keep(
            (
                b.heading("Read and understood", above_mm=0.0),
                b.fill_boxes(("name", "signature", "date", "name", "signature", "date"), per_row=3),
                b.paragraph(AID),
            )
        ),
    ]
