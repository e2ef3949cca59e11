"""site-sheet.pdf to laminate, and what the site page shows: sizes, gap card, bays to write in, hold points."""

from __future__ import annotations

import math

from pentice.checks.fit import bite_needed_mm
from pentice.design import Design
from pentice.job.called import head_called
from pentice.job.entries import NO_REFERENCE
from pentice.job.found import cautions
from pentice.pack.care import snow_words
from pentice.pack.drawings.values import half_mm, not_proved
from pentice.pack.gaps import gap_cards, safe_until_c
from pentice.pack.handling import gust_words, handling_gust_m_s
from pentice.pack.method import HOLD_TITLES, fixed_joints
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of, issued
from pentice.pack.site_page import (
    GapCard,
    SiteBay,
    SiteCaution,
    SiteLine,
    SitePage,
    SiteSide,
    hold_lines,
)
from pentice.pack.words import AID, NOBODY_ON_IT, asked, bays_named
from pentice.setting_out.values import Bay
from pentice.takeoff.ranges import between_stems_served

STRIP = "strip.svg"


def site_sheet_pdf(design: Design) -> bytes:
    """The site sheet on paper.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    page = site_page_of(design)
    strip = strip_of(
        STRIP, f"The roof from above, {len(page.bays)} bays, {head_called(design.job)} at the top."
    )
    sections = [
        section("Sizes and gaps", _sizes(design, page), result=_result(design), strip=strip),
        section(
            "Measure the frame",
            _measure(page, "wall face" if design.job.roof.attached else "outside of the head beam"),
            result="After hold A. The tightest reading counts.",
            strip=strip,
        ),
        section(
            "Hold points",
            _holds(page),
            result="Each line yes or no, with the reading and initials.",
            strip=strip,
        ),
        section("Cautions", _cautions(page), result="Read before work starts. Open questions come first."),
    ]
    about = meta("Site sheet", **heading_of(design), warning=not_proved(design))
    widths = [bay.centres_mm for bay in design.setting_out.plane.bays]
    return make_pdf(DOCUMENT, {"meta": about, "sections": sections}, {STRIP: strip_svg(widths)})


def site_page_of(design: Design) -> SitePage:
    """What the site page shows.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    SitePage
        Sizes as drawn [mm], cards, holds and cautions.
    """
    job, setting_out = design.job, design.setting_out
    return SitePage(
        name=job.name or "Roof without a name",
        reference=job.reference or NO_REFERENCE,
        revision=job.revision,
        date=day(issued(design)),
        bays=tuple(_bay(design, bay) for bay in setting_out.plane.bays),
        cards=gap_cards(design),
        holds=hold_lines(
            diagonals_mm=setting_out.diagonals_mm,
            pitch_deg=setting_out.plane.pitch_deg,
            bars_carry=design.parts.bar.carries,
            joints=fixed_joints(design),
        ),
        cautions=tuple(
            SiteCaution(text=c.text, why=c.why, ask=c.ask, answered=c.answered)
            for c in cautions(job, bars_carry=design.parts.bar.carries)
        ),
        not_proved=not_proved(design),
        lines=tuple(
            SiteLine(
                name=f"R{rafter.number}",
                centre_mm=(half_mm(rafter.centre_head_mm), half_mm(rafter.centre_foot_mm)),
            )
            for rafter in setting_out.plane.rafters
        ),
        bars_carry=design.parts.bar.carries,
        diagonals_mm=setting_out.diagonals_mm,
        sides=tuple(
            SiteSide(
                number=fit.number,
                side=fit.side,
                opening_mm=fit.opening_mm,
                sheet_mm=(float(fit.width_mm), float(fit.left_mm), float(fit.right_mm)),
            )
            for fit in setting_out.side_sheets
        ),
    )


def _bay(design: Design, bay: Bay) -> SiteBay:
    between = bay.between_stems_mm
    edges = (bay.edges.left, bay.edges.right)
    return SiteBay(
        number=bay.number,
        between_stems_mm=(between.head, between.middle, between.foot),
        slope_length_mm=bay.projection_mm[0] / design.shape.cos_pitch,
        sheet_width_mm=bay.width_mm.cut,
        sheet_length_mm=bay.length_mm.cut,
        side_gap_mm=bay.edges.left.gap_mm,
        head_gap_mm=bay.edges.head.gap_mm,
        bite_mm=min(edge.bite_fitted_mm for edge in edges),
        bite_least_mm=max(*(bite_needed_mm(edge) for edge in edges), _cover(design)),
        serves_mm=between_stems_served(design.job, design.parts.sheet, design.setting_out.temperatures, bay),
    )


def _cover(design: Design) -> float:
    """Edge cover that the supplier's load table asks for [mm]; 0 without a table."""
    table = design.parts.sheet.load_table
    return table.edge_cover_mm or 0.0 if table is not None else 0.0


def _result(design: Design) -> str:
    temps = design.setting_out.temperatures
    return f"Sheets are cut at {temps.fit_c:g} °C of sheet. Measure the sheet, not the air."


def _sizes(design: Design, page: SitePage) -> list[b.Block]:
    heads = ("Bay", "Width", "Length", "Gap a side", "Gap at head", "Bite", "Least bite")
    rows = [
        (
            b.big_cell(str(bay.number)),
            b.big_cell(f"{bay.sheet_width_mm:.0f}"),
            b.big_cell(f"{bay.sheet_length_mm:.0f}"),
            f"{bay.side_gap_mm:.1f}",
            f"{bay.head_gap_mm:.1f}",
            f"{bay.bite_mm:.1f}",
            f"{bay.bite_least_mm:.1f}" if bay.bite_least_mm is not None else "ask",
        )
        for bay in page.bays
    ]
    sizes = b.table(heads, rows, widths=(16, *["1fr"] * 6), align=("left", *["right"] * 6), h=2.8, row_mm=1.5)
    hardest = min(design.setting_out.plane.bays, key=handling_gust_m_s)
    wind = f"Sheets: {gust_words(hardest)} where you work. None is left loose."
    cards = [block for card in page.cards for block in _card(design, card)]
    return [
        b.cautions((NOBODY_ON_IT, ("Wind.", wind), *_first_open(page)), h_mm=2.8),
        b.space(3),
        sizes,
        b.paragraph(snow_words(design)),
        *cards,
    ]


def _first_open(page: SitePage) -> tuple[tuple[str, str], ...]:
    """The first open question, or how many there are: the box holds one more line."""
    open_ = [c for c in page.cautions if c.ask and not c.answered]
    if not open_:
        return ()
    if len(open_) == 1:
        return (("Ask.", f"{open_[0].text} Ask {open_[0].ask}."),)
    return (("Ask.", f"{len(open_)} questions are open: see Cautions before you start."),)


def _card(design: Design, card: GapCard) -> list[b.Block]:
    heads = ("Sheet °C", *(f"{row.temperature_c:g}".replace("-", "−") for row in card.rows))
    rows = (
        ("Gap each side", *(_gap(row.side_gap_mm) for row in card.rows)),
        ("Gap at the head", *(_gap(row.head_gap_mm) for row in card.rows)),
    )
    setting_out = design.setting_out
    bay = next(bay for bay in setting_out.plane.bays if bay.number == card.bays[0])
    until = safe_until_c(bay, setting_out.temperatures)
    most = setting_out.temperatures.most_c
    says = f"Lies free until the sheet has {until} °C; the hottest we count with is {most:g} °C."
    if until < most:
        says = f"*Jams at {until} °C of sheet, and it gets {most:g} °C hot.* Do not fit it: cut it anew."
    count = len(card.rows)
    table = b.table(heads, rows, widths=(36, *["1fr"] * count), align=("left", *["right"] * count), h=2.8)
    return [b.space(2), b.keep((b.heading(f"Gap card, {bays_named(card.bays)}"), table, b.paragraph(says)))]


def _gap(gap_mm: float) -> str:
    return f"{gap_mm:.1f}".replace("-", "−")


def _cautions(page: SitePage) -> list[b.Block]:
    rows = [
        (
            b.sign_cell("ask" if c.ask and not c.answered else "caution"),
            asked(c.text, c.ask, answered=c.answered),
            c.why,
        )
        for c in page.cautions
    ]
    table = b.table(("", "Mind this", "Because"), rows, widths=(9, 92, "1fr"), h=2.8)
    return [table, b.paragraph(AID)]


def up_tenth(length_mm: float) -> str:
    """A lower limit to a tenth, up, so that the print never allows more than the sum."""
    return f"{math.ceil(length_mm * 10.0 - 1e-6) / 10.0:.1f}"


def down_tenth(length_mm: float) -> str:
    """An upper limit to a tenth, down."""
    return f"{math.floor(length_mm * 10.0 + 1e-6) / 10.0:.1f}"


def _measure(page: SitePage, start: str) -> list[b.Block]:
    found: list[b.Block] = [
        b.paragraph(
            f"Between the stems, square across, to half a mm. Slope: {start} to beam face, on the tops of what carries."
        )
    ]
    for bay in page.bays:
        h, m, f = bay.between_stems_mm
        reach = (
            f" The sheet as drawn fits from {up_tenth(bay.serves_mm[0])} to {down_tenth(bay.serves_mm[1])}."
            if bay.serves_mm
            else " *No width lets this sheet fit: cut anew.*"
        )
        drawn = f"Drawn {h:.1f}, {m:.1f}, {f:.1f}; slope {bay.slope_length_mm:.0f}.{reach}"
        found.append(b.space(1.5))
        found.append(
            b.keep(
                (
                    b.heading(f"Bay {bay.number}", above_mm=3.0),
                    b.paragraph(drawn),
                    b.fill_boxes(("head", "middle", "foot", "slope length", "sheet °C")),
                )
            )
        )
    if page.diagonals_mm is not None:
        found.append(b.heading(f"Diagonals, level: {page.diagonals_mm:.0f} both ways"))
        found.append(b.fill_boxes(("left head to right foot", "right head to left foot", "by", "on")))
    for side in page.sides:
        width, left, right = side.opening_mm
        drawn = f"Opening as drawn {width:g} wide, {left:g} high at its left end, {right:g} at its right, from outside."
        found.append(b.space(1.5))
        found.append(
            b.keep(
                (
                    b.heading(f"Side sheet {side.number}, {side.side} side", above_mm=3.0),
                    b.paragraph(drawn),
                    b.fill_boxes(("least width", "height left", "height right", "by", "on")),
                )
            )
        )
    return found


def _holds(page: SitePage) -> list[b.Block]:
    found: list[b.Block] = []
    for hold, title in HOLD_TITLES.items():
        rows = [
            (b.sign_cell("box"), line.item, line.passes, line.if_not)
            for line in page.holds
            if line.hold == hold
        ]
        found.append(b.space(1.5))
        found.append(
            b.keep(
                (
                    b.heading(title),
                    b.table(
                        ("", "Look or read", "Holds when", "If not"),
                        rows,
                        widths=(9, 50, 52, "1fr"),
                        h=2.8,
                        bold_columns=(1,),
                    ),
                )
            )
        )
        found += _readings(page, hold)
    return found


def _readings(page: SitePage, hold: str) -> list[b.Block]:
    """Where to write: for hold C a line for each sheet, else one row of boxes."""
    if hold != "C":
        return [b.fill_boxes(("reading", "initials", "date", "photo"))]
    heads = ("Bay", "°C", "Gap left", "Gap right", "Gap head", "Bite", "Photo", "By")
    rows: list[list[b.Cell]] = [[b.big_cell(str(bay.number)), *[""] * (len(heads) - 1)] for bay in page.bays]
    return [
        b.heading("Hold C, sheet by sheet"),
        b.table(heads, rows, widths=(14, *["1fr"] * (len(heads) - 1)), h=2.8, row_mm=2.4),
    ]
