"""handover.pdf: as built, care, inspection, snow to clear, warranty, and the notice that nobody walks on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pentice.design import Design
from pentice.job.called import along, head_called
from pentice.pack.care import care
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of
from pentice.pack.words import invented

STRIP = "strip.svg"

WITH_IT = (
    "The setting-out drawing, with what was built differently written in.",
    "The site sheet with its readings, and a photo at each hold.",
    "The suppliers' papers: their warranty, their care, the batch of the sheets.",
)


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
    strip = strip_of(STRIP, f"The roof from above, {len(bays)} bays, {head_called(design.job)} at the top.")
    sizes = "As built" if _is_measured(design) else "As drawn: write in what was built differently"
    sections = [
        section("Your roof", list(_built(design)), result=f"{sizes}.", strip=strip),
        section(
            "Looking after it",
            list(care(design)),
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
            f"{shape.width_mm:.0f} {along(design.job)}, {shape.projection_mm:.0f} out, {shape.pitch_deg:.1f}° pitch",
        ),
        (
            "Sheets",
            f"{len(design.setting_out.plane.bays)} of {parts.sheet.name}, {parts.tint}, weather face to the sky",
        ),
        ("Bars", f"{len(design.setting_out.plane.bars)} of {parts.bar.name}"),
        (
            "Frame",
            f"{parts.timber.name}, bars that carry by themselves"
            if parts.bar.carries
            else f"{parts.timber.name}, rafters {_section(design.job.frame.rafter_mm)}",
        ),
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
    bays = design.setting_out.plane.bays
    sizes = [
        (str(bay.number), f"{bay.width_mm.cut:.0f}", f"{bay.length_mm.cut:.0f}", "label up") for bay in bays
    ]
    if sides := design.setting_out.side_sheets:
        widths = _from_to(fit.width_mm for fit in sides)
        lengths = _from_to(n for fit in sides for n in (fit.left_mm, fit.right_mm))
        sizes.append((f"sides, {len(sides)}", widths, lengths, "labels out"))
    yield b.table(
        ("Bay", "Width", "Length", "Batch", "Face seen"),
        [(*size, "", b.sign_cell("box", face)) for *size, face in sizes],
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


def _from_to(sizes_mm: Iterable[int]) -> str:
    """One size, or the least and the greatest."""
    sizes = sorted(set(sizes_mm))
    return f"{sizes[0]}" if len(sizes) == 1 else f"{sizes[0]} to {sizes[-1]}"


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
        b.paragraph(f"Put this up where somebody would climb onto the roof: {_climbs_at(design)}."),
    ]


def _climbs_at(design: Design) -> str:
    return "at the window, at the wall" if design.job.roof.attached else "at the posts, at eye level"
