"""A demo document with every piece of furniture, all of it invented, used by the tests of the paper base."""

from __future__ import annotations

from pentice.drawing.arrows import flutes_big, head_arrow, section_arrow, tape_band, weather_face
from pentice.drawing.furniture import north_arrow, pitch_triangle, scale_bar
from pentice.drawing.leaders import break_line, label_column
from pentice.drawing.page import A3_LANDSCAPE, View, bare_page
from pentice.drawing.placed import sheet_scene
from pentice.drawing.scene import (
    Area,
    Box,
    Dimension,
    Line,
    Polyline,
    Primitive,
    Running,
    Scene,
    Text,
)
from pentice.drawing.svg import render_svg
from pentice.drawing.symbols import bay_number, box_tag, detail_circle, disc, hole, plate, stacked
from pentice.pack.paper import (
    A3_MARKS,
    DOCUMENT,
    drawing_section,
    make_pdf,
    meta,
    section,
    strip_of,
    strip_svg,
    title_block,
)
from pentice.pack.paper import blocks as b

WARNING = "Not proved: beam, posts and wall fixings. Do not order or build before they are."
MARKS = (23.5, 989.0, 1954.5, 2920.5, 3886.0, 4851.5)


def plan_model() -> Scene:
    """A plan of five bays with running marks, chain and overall sizes."""
    parts: list[Primitive] = [
        Area(points=Box(left=-250, top=-250, right=5125, bottom=0).corners, fill="brick"),
        Line(a=(-250, -250), b=(5125, -250), style="narrow"),
        Line(a=(-250, 0), b=(5125, 0), style="extra wide"),
        break_line((-250, 50), (-250, -300)),
        break_line((5125, 50), (5125, -300)),
        plate((2437, -125), "WALL", 3.5),
        Line(a=(23.5, 0), b=(4851.5, 2950), style="double chain"),
        Line(a=(4851.5, 0), b=(23.5, 2950), style="double chain"),
    ]
    for k, x in enumerate(MARKS, start=1):
        parts.append(
            Polyline(points=Box(left=x - 30, top=50, right=x + 30, bottom=3000).corners, closed=True)
        )
        parts.append(box_tag((x, 3300), f"R{k}"))
    for k in range(5):
        mid = (MARKS[k] + MARKS[k + 1]) / 2
        parts += [
            bay_number((mid, 1450), str(k + 1)),
            stacked((mid, 1700), (("947", 5, 700), ("wide", 2.5, 400))),
        ]
        parts.append(Dimension(a=(MARKS[k], 3350), b=(MARKS[k + 1], 3350), text="965.6", offset_mm=-8))
        for j in range(12):
            x = MARKS[k] + 80 + j * 73
            parts.append(Line(a=(x, 120), b=(x, 330), style="hair"))
    parts += [
        Dimension(
            a=(0, -250), b=(4875, -250), text="4875 over the outer rafters", offset_mm=18, kind="overall"
        ),
        Running(origin=(0, -250), stops=tuple((m, f"{m:g}") for m in MARKS), offset_mm=8, noun="marks"),
        Dimension(
            a=(0, 2950), b=(0, 0), text="2950 wall face to outside of beam", offset_mm=13, kind="overall"
        ),
        section_arrow((3640, 250), "A"),
    ]
    return Scene(primitives=tuple(parts), title="Plan", desc="Five bays under a wall.", scale=25)


def section_model() -> Scene:
    """A sketch of a section: wall, rafter, post, ground."""
    parts: list[Primitive] = [
        Area(points=Box(left=-220, top=-3500, right=0, bottom=0).corners, fill="blockwork", style="wide"),
        Line(a=(-500, 0), b=(3200, 0), style="extra wide"),
        Area(
            points=((0, -2870), (3000, -2340), (3000, -2210), (0, -2740)), fill="timber along", style="wide"
        ),
        Area(
            points=Box(left=2880, top=-2200, right=2955, bottom=-2050).corners,
            fill="timber end",
            style="wide",
        ),
        Polyline(points=Box(left=2870, top=-2050, right=2970, bottom=0).corners, closed=True, style="wide"),
        detail_circle((0, -2800), 300, "B", (260, -2350)),
        Dimension(a=(0, 0), b=(2950, 0), text="2950", offset_mm=-10, kind="overall"),
        Dimension(a=(2600, 0), b=(2600, -2050), text="2100 clear", offset_mm=1, axis="y"),
        pitch_triangle((1400, -3300), 176, "10°", "fall 520 in 2950"),
    ]
    return Scene(primitives=tuple(parts), title="Section A–A", desc="Wall left, post right.", scale=25)


def sheet_svg() -> str:
    """The whole A3 sheet of the demo."""
    plan, cut = View(scale=25.0, origin=(44.0, 62.0)), View(scale=25.0, origin=(279.0, 184.0))
    labels = label_column(
        (
            ((60.0, 240.0), "flashing, 150 up the wall", 400),
            ((58.0, 250.0), "head gap 12.5 at 12 °C", 700),
            ((62.0, 262.0), "solid tape", 400),
        ),
        80.0,
        top=238.0,
    )
    extra: tuple[Primitive, ...] = (
        Text(at=(26.0, 20.0), text="Plan from above", h_mm=5, weight=700),
        Text(
            at=(26.0, 25.0),
            text="1:25. Hook the tape once, at the left end, and mark every centre from there.",
        ),
        Text(at=(258.0, 20.0), text="Section A–A", h_mm=5, weight=700),
        Line(a=(20.0, 213.0), b=(228.0, 213.0), style="narrow"),
        Area(points=Box(left=40, top=230, right=58, bottom=280).corners, fill="concrete", style="wide"),
        Area(points=Box(left=120, top=230, right=150, bottom=245).corners, fill="insulation", style="wide"),
        Area(points=Box(left=120, top=250, right=150, bottom=265).corners, fill="metal", style="wide"),
        Area(
            points=Box(left=160, top=230, right=190, bottom=245).corners, fill="scrap-turned", style="narrow"
        ),
        *labels,
        scale_bar((A3_MARKS.left + 4, A3_MARKS.top + 1.5), 25.0, 500.0),
        north_arrow((A3_MARKS.right - 16, A3_MARKS.centre[1]), 90.0),
    )
    sheet = sheet_scene(
        ((plan_model(), plan), (section_model(), cut)), "Setting-out", "Plan, section.", extra
    )
    return render_svg(sheet, A3_LANDSCAPE)


def ticket_svg() -> str:
    """The picture of a cutting ticket: one sheet, 82 by 190 mm."""
    box = Box(left=18.0, top=26.0, right=65.0, bottom=174.0)
    flutes = tuple(
        Line(a=(x, box.top + 8), b=(x, box.bottom - 8), style="hair")
        for x in (box.left + 2.0 * k for k in range(1, 23))
    )
    parts: tuple[Primitive, ...] = (
        *flutes,
        Polyline(points=box.corners, closed=True, style="extra wide"),
        *tape_band(Box(left=box.left, top=box.top, right=box.right, bottom=box.top + 5), "solid"),
        *tape_band(Box(left=box.left, top=box.bottom - 5.4, right=box.right, bottom=box.bottom), "breather"),
        head_arrow((box.centre[0], box.top - 2), 13.0),
        weather_face((box.centre[0], 52.0)),
        flutes_big((box.centre[0], 108.0)),
        hole((box.centre[0], 164.0), 1.4),
        disc((box.left, 150.0), "2"),
        Dimension(a=(box.left, box.bottom), b=(box.left, box.top), text="3025", offset_mm=9, kind="overall"),
        Dimension(
            a=(box.left, box.bottom), b=(box.right, box.bottom), text="947", offset_mm=-11, kind="overall"
        ),
    )
    return render_svg(
        Scene(primitives=parts, title="Sheet 3", desc="Sheet with HEAD up, flutes up and down."),
        bare_page(82, 190),
    )


def ticket() -> b.Block:
    """A cutting ticket."""
    acts = (
        ("Saw", "across at 3025 (cut 1)"),
        ("Knife", "along a flute at 947 (cut 2)"),
        ("Vacuum", "every flute, both ends"),
        ("Drill", "one 16 hole, middle of the foot"),
        ("Peel", "50 of film back, both faces"),
        ("Tape", "solid at HEAD, breather at foot"),
        ("Stick", "the label on, by the head"),
    )
    right = [
        b.number("WIDTH", "947"),
        b.number("LENGTH along the flutes", "3025"),
        b.paragraph("1 mm short is better than 1 mm over."),
        b.rule(0.5),
        b.acts(acts),
        b.rule(),
        b.heading("Measured when cut", h_mm=2.8, above_mm=2),
        b.fill_boxes(("head", "middle", "foot", "length")),
    ]
    picture = b.picture("ticket.svg", "Sheet 3 with its sizes, HEAD up.", width_mm=82)
    label = b.label(
        "SHEET, BAY",
        "3",
        "947 × 3025",
        "16 mm opal, this face to the sky",
        "P-0417 rev B   Demo hall   film off at the end",
        cut_here="Cut here. Stick this on the weather face, at the head.",
    )
    body = [b.columns([[picture], right], widths=("1fr", 88), gap_mm=6), b.fill_space(), label]
    return section(
        "Sheet 3",
        body,
        result="16 mm triple wall, opal. Cut from stock sheet 2.",
        strip=strip_of("strip.svg", "Roof from above, five bays, bay 3 black."),
    )


def checks() -> b.Block:
    """A table of checks, one failing, and a check with its working."""
    rows: list[tuple[b.Cell, ...]] = [
        (
            "1",
            b.sign_cell("fails", "Rafter, sag", bold=True),
            "R2 to R5",
            "12.9",
            "10.2",
            "1.26",
            b.bar_cell(1.26),
            "*FAILS*",
        ),
        ("2", "Head gap", "sheet length", "12.4", "12.5", "0.99", b.bar_cell(0.99), "holds"),
        ("3", "~Rafter, bending~", "R2 to R5", "14.5", "17.2", "0.84", b.bar_cell(0.84), "holds"),
        ("4", "Beam", "B1", "", "", "", "", b.sign_cell("ask", "ask", bold=True)),
    ]
    table = b.table(
        ("", "Check", "Where", "Needs", "Has", "Used", "", ""),
        rows,
        widths=(6, "1fr", 30, 15, 15, 15, 34, 20),
        align=("left", "left", "left", "right", "right", "right", "left", "left"),
        bold_columns=(1, 5),
        fails_rows=(0,),
        note="~Dashed underline~: rests on a typical value. The tall stroke is the limit, 1.00.",
    )
    lines = [
        b.working_row(
            "Load on one rafter",
            "q = (1.35 g + 1.5 s) c",
            "= (1.35 * 0.122 + 1.5 * 1.018) * 0.9656",
            "1.634 kN/m",
            "EN 1990 6.10",
        ),
        b.working_row("Bending moment", "M = q L^2 / 8", "= 1.634 * 2.950^2 / 8", "1.777 kNm", "statics"),
        b.working_row(
            "Strength to use",
            "f_m,d = k_mod k_h f_m,k / γ_M",
            "= 0.9 * 1.037 * 24 / 1.3",
            "17.2 N/mm²",
            "2.4.1",
        ),
        b.working_row("Depth factor", "k_h = (150 / h)^0.2", "", "1.037", "3.2(3)"),
    ]
    body = [
        table,
        b.section_head("Rafter, bending", number="3", result="R2 to R5, 47 × 125 C24, service class 2."),
        b.working(lines),
        b.verdict(
            "Holds.", "84 % is used.", beside="The next smaller section, 47 × 100, would *fail*: 126 %."
        ),
        b.verdict("Fails.", "126 % would be used.", fails=True),
        b.cautions(
            (
                ("Fragile.", "Nobody stands on a sheet, ever. Boards across rafters, or work from a tower."),
                ("Ask.", "Beam, posts, bases and wall bolts are not checked by this sheet."),
            )
        ),
        b.steps(("Stand outside, face the wall.", "Hook the tape once, at the left end.")),
    ]
    return section(
        "Checks",
        body,
        result="All members, most used first. One fails; one is not checked here.",
        strip=strip_of("strip-bar.svg", "Roof from above, bar R3 heavy."),
    )


def quote() -> b.Block:
    """A customer's quote."""
    options = (
        b.option("A", "Bright", ("16 mm clear", "You see the sky. Hot in full sun.", "3 weeks"), "£4,262.40"),
        b.option(
            "B",
            "Calm",
            ("16 mm opal", "Soft light, no glare, hides leaves.", "3 weeks"),
            "£4,410.75",
            drawn=True,
        ),
        b.option("C", "Warm", ("25 mm opal", "Like Calm, and warmer in winter.", "5 weeks"), "£5,188.20"),
    )
    know = [
        b.heading("What you should know"),
        b.bullets(("Rain drums on it: you will hear it.", "Nobody may ever walk on it.")),
    ]
    pay = [
        b.heading("How you pay, for B"),
        b.table(
            (),
            (("With the order", "£1,102.69"), ("Total with tax", "£4,410.75")),
            align=("left", "right"),
            strong_rows=(1,),
            h=2.8,
        ),
    ]
    body = [
        b.quote_columns(("Roof", "What it does", "Ready in"), options),
        b.space(3),
        b.columns([know, pay], widths=("1fr", "1fr")),
    ]
    head = {
        "firm": "Your firm’s name",
        "address": "Unit, street, town.",
        "paper": "Quote Q-0417",
        "dates": "9 March 2027. Good until 8 April 2027.",
        "for": "For the committee, demo hall",
    }
    return section(
        "A potting bay along the east wall",
        body,
        letterhead=head,
        foot="We measure again before anything is cut.",
        result="4.9 m along the wall, 2.95 m deep, 2.1 m clear under the beam. Timber frame, three posts, opal roof.",
    )


def bars() -> b.Block:
    """A landscape page with boxes for initials and a table long enough to run over the page."""
    rows = tuple((f"R{k}", f"{k * 361.5:g}", "left" if k % 2 else "right") for k in range(1, 45))
    body = [
        b.fill_boxes(("R1", "R2", "R3", "R4"), inside=True),
        b.table(("Bar", "Hole at", "Side"), rows, align=("left", "right", "left")),
    ]
    return section("Bar base, R1 to R6", body, result="Six alike.", landscape=True)


def demo_data() -> tuple[dict[str, object], dict[str, bytes | str]]:
    """Data and pictures of the demo."""
    about = meta(
        "Demo papers",
        job="Potting bay, demo hall",
        number="P-0417",
        revision="B",
        issued=(2027, 3, 9),
        firm="Your firm’s name",
        warning=WARNING,
    )
    block = title_block(
        ("Setting-out: lean-to over the east wall", "Potting bay, demo hall"),
        firm=("Your firm’s name", "Unit, street, telephone"),
        drawn_by="pentice 0.1",
        checked_by="",
        measured="R. Demo, 2 Mar 2027",
        scale="1:25, 1:5",
        revisions=("A 4 Mar first issue", "B 9 Mar rafters as built"),
    )
    drawing = drawing_section(
        "sheet.svg",
        "Plan and section of the roof.",
        block,
        cautions=(
            (
                "Fragile.",
                "Nobody stands on a sheet, ever. Boards across rafters, or work from a tower below.",
            ),
            (
                "Hold A.",
                "Measure every bay after the frame is up. Sheets are cut to the bay, not to this drawing.",
            ),
            ("Ask.", "Beam, posts, bases and wall bolts are not checked by this sheet."),
        ),
    )
    widths = (965.5, 965.5, 966.0, 965.5, 965.5)
    images: dict[str, bytes | str] = {
        "sheet.svg": sheet_svg(),
        "ticket.svg": ticket_svg(),
        "strip.svg": strip_svg(widths, active_bays=(3,)),
        "strip-bar.svg": strip_svg(widths, active_bars=(3,)),
    }
    return {"meta": about, "sections": [ticket(), checks(), quote(), bars(), drawing]}, images


def demo_pdf() -> bytes:
    """The demo as a PDF."""
    data, images = demo_data()
    return make_pdf(DOCUMENT, data, images)
