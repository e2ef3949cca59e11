"""site-sheet.pdf to laminate, and what the site page shows: sizes, gap card, bays to write in, hold points."""

from __future__ import annotations

from pentice.checks.fit import BITE_LEAST_MM, bite_needed_mm
from pentice.design import Design
from pentice.job.found import cautions
from pentice.mechanics.movement import WIDTH_ROOM_LEAST_MM, movement_mm
from pentice.pack.drawings.values import not_proved
from pentice.pack.gaps import gap_cards
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of, issued
from pentice.pack.site_page import GapCard, SiteBay, SiteCaution, SitePage, hold_lines
from pentice.setting_out.values import Bay

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
    strip = strip_of(STRIP, f"The roof from above, {len(page.bays)} bays, the wall at the top.")
    sections = [
        section("Sizes and gaps", _sizes(page), result=_result(design), strip=strip),
        section(
            "Measure the frame",
            _measure(page),
            result="After hold A. The tightest reading counts.",
            strip=strip,
        ),
        section(
            "Hold points",
            _holds(page),
            result="Each line yes or no, with the reading and initials.",
            strip=strip,
        ),
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
        reference=job.reference or "no reference",
        revision=job.revision,
        date=day(issued(design)),
        bays=tuple(_bay(design, bay) for bay in setting_out.plane.bays),
        cards=gap_cards(design),
        holds=hold_lines(diagonals_mm=setting_out.diagonals_mm, pitch_deg=setting_out.plane.pitch_deg),
        cautions=tuple(
            SiteCaution(text=c.text, why=c.why, ask=c.ask, answered=c.answered) for c in cautions(job)
        ),
        not_proved=not_proved(design),
        diagonals_mm=setting_out.diagonals_mm,
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
        bite_least_mm=max(bite_needed_mm(edge) for edge in edges),
        serves_mm=serves(design, bay),
    )


def serves(design: Design, bay: Bay) -> tuple[float, float] | None:
    """Between the stems: the range for which the sheet as drawn still serves.

    Parameters
    ----------
    design
        A solved job.
    bay
        The bay.

    Returns
    -------
    tuple or None
        At the tightest at least, at the widest at most [mm]; None where the sheet does not serve even as drawn.

    Source
    ------
    The windows of setting-out turned round: room on the hottest day, bite on the coldest.
    """
    temps, width = design.setting_out.temperatures, bay.width_mm.cut
    growth = movement_mm(width, temps.alpha_per_k, temps.most_c - temps.fit_c)
    shrink = movement_mm(width, temps.alpha_per_k, temps.fit_c - temps.least_c)
    left = design.job.glazing.gap_residual_mm[0]
    least = width + max(WIDTH_ROOM_LEAST_MM, growth + 2.0 * left)
    edges = (bay.edges.left, bay.edges.right)
    most = width - shrink + min(e.depth_mm - max(bite_needed_mm(e), BITE_LEAST_MM) for e in edges)
    return (least, most) if least <= most else None


def _result(design: Design) -> str:
    temps = design.setting_out.temperatures
    return f"Sheets are cut at {temps.fit_c:g} °C of sheet. Measure the sheet, not the air."


def _sizes(page: SitePage) -> list[b.Block]:
    rows = [
        (
            b.big_cell(str(bay.number)),
            b.big_cell(f"{bay.sheet_width_mm:.0f}"),
            b.big_cell(f"{bay.sheet_length_mm:.0f}"),
            f"{bay.side_gap_mm:.1f}",
            f"{bay.head_gap_mm:.1f}",
            f"{bay.bite_mm:.1f}",
        )
        for bay in page.bays
    ]
    heads = ("Bay", "Width", "Length", "Gap a side", "Gap at head", "Bite")
    sizes = b.table(
        heads, rows, widths=(16, "1fr", "1fr", "1fr", "1fr", "1fr"), align=("left", *["right"] * 5), h=2.8
    )
    return [
        b.cautions(
            (
                (
                    "Fragile.",
                    "Nobody stands on a sheet, ever. Boards across rafters, or work from a tower below.",
                ),
                (
                    "Wind.",
                    "No sheet is lifted in gusts above the limit of the method sheet, and none is left loose.",
                ),
            ),
            h_mm=2.8,
        ),
        b.space(3),
        sizes,
        *(block for card in page.cards for block in _card(card)),
    ]


def _card(card: GapCard) -> list[b.Block]:
    bays = ", ".join(str(n) for n in card.bays)
    heads = ("Sheet °C", *(f"{row.temperature_c:g}" for row in card.rows))
    rows = (
        ("Gap each side", *(f"{row.side_gap_mm:.1f}" for row in card.rows)),
        ("Gap at the head", *(f"{row.head_gap_mm:.1f}" for row in card.rows)),
    )
    title = f"Gap card, bay {bays}" if len(card.bays) == 1 else f"Gap card, bays {bays}"
    count = len(card.rows)
    return [
        b.keep(
            (
                b.heading(title),
                b.table(
                    heads, rows, widths=(36, *["1fr"] * count), align=("left", *["right"] * count), h=2.8
                ),
            )
        )
    ]


def _measure(page: SitePage) -> list[b.Block]:
    found: list[b.Block] = [
        b.paragraph(
            "Between the stems, square across, to half a mm. Slope: wall face to beam face along the rafter top."
        )
    ]
    for bay in page.bays:
        h, m, f = bay.between_stems_mm
        reach = (
            f" The drawn sheet serves from {bay.serves_mm[0]:.1f} to {bay.serves_mm[1]:.1f}."
            if bay.serves_mm
            else ""
        )
        drawn = f"Drawn {h:.1f}, {m:.1f}, {f:.1f}; slope {bay.slope_length_mm:.0f}.{reach}"
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
    return found


_TITLES = {"A": "Hold A: the frame", "B": "Hold B: the bars", "C": "Hold C: each sheet", "D": "Hold D: water"}


def _holds(page: SitePage) -> list[b.Block]:
    found: list[b.Block] = []
    for hold, title in _TITLES.items():
        rows = [
            (b.sign_cell("box", line.item, bold=True), line.passes, line.if_not)
            for line in page.holds
            if line.hold == hold
        ]
        found.append(
            b.keep(
                (
                    b.heading(title),
                    b.table(("Look or read", "Holds when", "If not"), rows, widths=(58, 52, "1fr"), h=2.8),
                    b.fill_boxes(("reading", "initials", "date", "photo")),
                )
            )
        )
    return found
