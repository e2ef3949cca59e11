"""The drawings of a pack: each on paper for SVG and as a model 1:1 for DXF.

`drawings` gives them all, `roof_picture` the picture for the quote.
"""

from __future__ import annotations

from pentice.design import CutAndOrdered, Design
from pentice.drawing.page import bare_page
from pentice.pack.drawings.bar_detail import bar_detail
from pentice.pack.drawings.cut_rows import alike_sheets
from pentice.pack.drawings.details import foot_detail, wall_detail
from pentice.pack.drawings.elevation import elevation_model
from pentice.pack.drawings.elevation_sheets import elevation_scales
from pentice.pack.drawings.picture import (
    PICTURE_HEIGHT_MM,
    PICTURE_WIDTH_MM,
    picture_model,
    picture_scene,
    roof_picture,
)
from pentice.pack.drawings.plan import plan_model
from pentice.pack.drawings.section import section_model
from pentice.pack.drawings.sheet import scales_of
from pentice.pack.drawings.side_tickets import blanks_of, side_model
from pentice.pack.drawings.stock_sheets import stock_scene
from pentice.pack.drawings.tickets import alike_bars, bar_model, piece_model
from pentice.pack.drawings.values import Drawing, drawn

__all__ = ["Drawing", "drawings", "roof_picture", "stock_drawings"]


def drawings(design: Design, *, with_stock: bool = True) -> tuple[Drawing, ...]:
    """Every drawing of a design: plan, section, elevations, details, picture, stock sheets, sheets, side sheets, bars.

    Parameters
    ----------
    design
        A solved job.
    with_stock
        False where the stock sheets are those of several jobs, drawn beside them.

    Returns
    -------
    tuple of Drawing
        Names are unique and fit for a file.
    """
    plan_n, section_n = scales_of(design)
    page = bare_page(PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM)
    model = picture_model(design)
    picture = Drawing(
        name="picture", title="The roof", scale=0.0, page=page, scene=picture_scene(design), model=model
    )
    sheets = [p for p in design.pieces if p.kind == "sheet" and p.name.startswith("Sheet")]
    return (
        drawn("plan", plan_model(design, plan_n)),
        drawn("section", section_model(design, section_n)),
        *(
            drawn(f"elevation-{side}", elevation_model(design, side, n, keyed=True))
            for side, n in elevation_scales(design)
        ),
        drawn("detail-wall", wall_detail(design)),
        drawn("detail-foot", foot_detail(design)),
        drawn("detail-bar", bar_detail(design)),
        picture,
        *(stock_drawings(design) if with_stock else ()),
        *(drawn(f"sheet-{p.bay}", piece_model(design, p)) for p in sheets),
        *(drawn(f"side-{p.id.removeprefix('SS')}", side_model(p)) for p in blanks_of(design)),
        *(drawn(f"bar-{bars.bar.id}", bar_model(design, bars.bar)) for bars in alike_bars(design)),
    )


def stock_drawings(design: CutAndOrdered) -> tuple[Drawing, ...]:
    """Every stock sheet of one job, or of several that share a plan, alike ones once.

    Parameters
    ----------
    design
        What is cut.

    Returns
    -------
    tuple of Drawing
        Named after the first of the sheets.
    """
    return tuple(
        drawn(f"stock-{group.numbers[0]}", stock_scene(design, group, 1.0, 1.0, scale=20.0))
        for group in alike_sheets(design)
    )
