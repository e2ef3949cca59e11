"""setting-out.pdf: the A3 drawing that the frame is built from."""

from __future__ import annotations

from datetime import date
from typing import Any

from pentice.design import CutAndOrdered, Design
from pentice.drawing.lettering import text_width_mm
from pentice.drawing.page import A3_LANDSCAPE
from pentice.drawing.svg import render_svg
from pentice.pack.drawings.elevation_sheets import elevation_sheets
from pentice.pack.drawings.sheet import setting_out_sheets
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, day, drawing_section, make_pdf, meta, title_block

HOLD_A = (
    "Hold A.",
    "Measure every bay after the frame is up. Sheets are cut to the bay, not to this drawing.",
)


def setting_out_pdf(design: Design) -> bytes:
    """The setting-out drawing: plan, section and details on one A3 sheet or two, then the elevations.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    sheets = (*setting_out_sheets(design), *elevation_sheets(design))
    images = {f"sheet-{k}.svg": render_svg(s.scene, A3_LANDSCAPE) for k, s in enumerate(sheets, 1)}
    about = meta("Setting-out", **heading_of(design), warning=not_proved(design))
    sections = [
        drawing_section(
            f"sheet-{k}.svg", s.scene.desc, _block(design, s.scales), cautions=cautions_of(design)
        )
        for k, s in enumerate(sheets, 1)
    ]
    return make_pdf(DOCUMENT, {"meta": about, "sections": sections}, images)


def issued(design: CutAndOrdered) -> date | None:
    """The date that papers carry: from the job, since the engine has no clock; None where the job gives none."""
    dates, people = design.job.dates, design.job.people
    return dates.quoted_on or dates.order_on or people.surveyed_on or dates.start_on


def file_date(design: CutAndOrdered) -> date:
    """The date within files whose form demands one (calendar, workbook); nobody reads it on a paper."""
    return issued(design) or date(1970, 1, 1)


def heading_of(design: CutAndOrdered) -> dict[str, Any]:
    """What stands on every page, but the document's name."""
    job = design.job
    return {
        "job": job.name or "Unnamed roof",
        "number": job.reference or "no reference",
        "revision": job.revision,
        "issued": issued(design),
        "firm": design.firm.name,
    }


def cautions_of(design: Design) -> tuple[tuple[str, str], ...]:
    """Three cautions at most: the third names what was not checked."""
    open_ = sorted({c.name.lower() for c in design.checks if c.verdict in ("not checked", "refused")})
    boards = "Nothing on bars" if design.parts.bar.carries else "Boards across rafters, never on bars"
    always = (("Fragile.", f"Nobody stands on a sheet, ever. {boards}, or a tower below."), HOLD_A)
    if not open_:
        return always
    # Names of checks have commas of their own.
    shown = "; ".join(open_[:3]) + (f" and {len(open_) - 3} more" if len(open_) > 3 else "")
    return (*always, ("Ask.", f"Not proved here: {shown}. See the calculations."))


def _block(design: Design, scales: str) -> dict[str, Any]:
    job, firm, people = design.job, design.firm, design.job.people
    use = job.roof.use or "roof"
    by, on = people.surveyed_by, day(people.surveyed_on) if people.surveyed_on else ""
    measured = _first(
        (", ".join(x for x in (by, on) if x), ", ".join(x for x in (by, on[:-5]) if x), by), 31.0
    )
    return title_block(
        (f"Setting-out: {use}", job.name or "Unnamed roof"),
        firm=(firm.name,),
        drawn_by=_first((design.engine, "pentice"), 31.0),
        checked_by="",
        measured=measured,
        scale=scales,
        revisions=(f"{job.revision} {day(issued(design))}",),
    )


def _first(words: tuple[str, ...], room_mm: float) -> str:
    """The first of the words that fits its cell."""
    return next((w for w in words if text_width_mm(w, 2.5) <= room_mm), words[-1])
