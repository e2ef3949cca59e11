"""The paper base: every document of a pack is data set by one typst template into a tagged PDF.

A document module builds blocks, puts them into sections, and compiles::

    from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
    from pentice.pack.paper.blocks import acts, columns, fill_space, label, number, picture

    about = meta("Cutting tickets", job=job.name, number=job.number, revision="B", issued=job.date, firm=firm.name,
                 warning="Not proved: ...")  # on every page; empty for none
    images = {"strip-3.svg": strip_svg(bay_widths, active_bays=(3,)), "sheet-3.svg": render_svg(scene, page)}
    right = [number("WIDTH", "947"), number("LENGTH along the flutes", "3025"), acts([...])]
    both = columns([[picture("sheet-3.svg", "Sheet 3: ...")], right], widths=("1fr", 88))
    ticket = section("Sheet 3", [both, fill_space(), label(...)],
                     result="16 mm triple wall, opal. Cut from stock sheet 2.",
                     strip=strip_of("strip-3.svg", "Five bays, bay 3 black."))
    pdf = make_pdf(DOCUMENT, {"meta": about, "sections": [ticket, ...]}, images)

Each section begins a page; blocks flow on to further pages, tables repeat their heads. An A4 page leaves 180 mm
across and 240 mm under the title rule (landscape 267 and 153). Pictures are SVG from
`pentice.drawing.svg.render_svg` on a `bare_page` of the size they are set at, so that lettering keeps its height.
An A3 drawing is one SVG of the whole sheet (`A3_LANDSCAPE`) given to `drawing_section`: keep inside `A3_FRAME`, leave
`A3_TITLE_BLOCK` and `A3_CAUTIONS` free, put scale bar and north into `A3_MARKS`.

Rich text: *bold*, ~typical~ (dashed underline). Formulas: single letters are symbols, f_m,k a subscript, ^2 a
superscript, * becomes ×.
Same data, same bytes: dates come from ``meta``.
"""

from pentice.pack.paper.compile import DOCUMENT, make_pdf
from pentice.pack.paper.sections import (
    A3_CAUTIONS,
    A3_FRAME,
    A3_MARKS,
    A3_TITLE_BLOCK,
    day,
    drawing_section,
    meta,
    section,
    strip_of,
    strip_svg,
    title_block,
)

__all__ = [
    "DOCUMENT", "make_pdf", "meta", "section", "drawing_section", "title_block", "strip_of", "strip_svg", "day",
    "A3_FRAME", "A3_TITLE_BLOCK", "A3_CAUTIONS", "A3_MARKS",
]  # fmt: skip
