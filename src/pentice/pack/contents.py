"""What lies in a pack: each file's name and what makes it. Pure: gives bytes, writes nothing."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from functools import partial

from pentice.advice.stage import Advice
from pentice.catalogue.model import Catalogue
from pentice.catalogue.reading import select
from pentice.catalogue.writing import catalogue_toml, firm_toml
from pentice.design import Design
from pentice.design_json import design_data
from pentice.job.writing import job_toml, with_keys
from pentice.pack.drawings import Drawing, drawings, stock_drawings
from pentice.pack.shared import where_text
from pentice.together import Shared

Progress = Callable[[str], None]
SIGN = "design.json"
"""In the pack of one job."""
SHARED_SIGN = "shared.json"
"""In the pack of several jobs."""
SHARED = ("cutting.pdf", "cuts.csv", "order.pdf", "order.csv", "order.xlsx")
"""Papers that several jobs have together."""


def pack_files(advice: Advice, *, progress: Progress | None = None) -> dict[str, bytes]:
    """Every file of the pack of one design.

    Parameters
    ----------
    advice
        A solved job, with its options for the quote and its cures.
    progress
        Told the name of each file before it is waited for.

    Returns
    -------
    dict
        Bytes by path within the pack; the same for the same design.
    """
    files = _made(_makers(advice), progress)
    if progress is not None:
        progress("drawings")
    files.update(_drawn(drawings(advice.design)))
    return files


def shared_files(
    shared: Shared, advices: Sequence[Advice], *, progress: Progress | None = None
) -> dict[str, bytes]:
    """Every file of the pack of several jobs: what they share once, the rest in a folder for each.

    Parameters
    ----------
    shared
        Jobs that are cut and ordered together.
    advices
        For each job its options and cures, in the order of the jobs.
    progress
        Told the name of each file before it is waited for.

    Returns
    -------
    dict
        Bytes by path within the pack; the same for the same jobs.
    """
    files = _made(_shared_makers(shared), progress)
    files.update(_drawn(stock_drawings(shared)))
    for advice, view in zip(advices, shared.views, strict=True):
        reference = advice.design.job.reference
        within = None if progress is None else partial(_within, progress, reference)
        where = where_text(shared, reference)
        made = {
            **_made(_job_makers(advice, where), within),
            **_drawn(drawings(view, with_stock=False)),
        }
        files.update({f"{reference}/{name}": data for name, data in made.items()})
    return files


def _within(progress: Progress, folder: str, name: str) -> None:
    progress(f"{folder}/{name}")


Makers = Iterable[tuple[str, Callable[[], bytes | str]]]


AT_ONCE = 2
"""Papers made at the same time: setting type does not hold the interpreter, so that one paper is written meanwhile."""


def _made(makers: Makers, progress: Progress | None) -> dict[str, bytes]:
    """Files in the order of their makers, whatever is ready first."""
    from concurrent.futures import ThreadPoolExecutor

    files: dict[str, bytes] = {}
    pool = ThreadPoolExecutor(AT_ONCE)
    try:
        for name, making in [(name, pool.submit(make)) for name, make in makers]:
            if progress is not None:
                progress(name)
            made = making.result()
            files[name] = made.encode() if isinstance(made, str) else made
    finally:
        pool.shutdown(cancel_futures=True)  # a fault, or Ctrl-C: what has not begun is not begun
    return files


def _shared_makers(shared: Shared) -> Makers:
    from pentice.pack.drawings.cuts_csv import cuts_csv
    from pentice.pack.order import order_csv, order_xlsx
    from pentice.pack.shared import shared_data, shared_order_pdf, together_pdf

    yield "cutting.pdf", lambda: together_pdf(shared)
    yield "cuts.csv", lambda: cuts_csv(shared)
    yield "order.pdf", lambda: shared_order_pdf(shared)
    yield "order.csv", lambda: order_csv(shared)
    yield "order.xlsx", lambda: order_xlsx(shared)
    yield SHARED_SIGN, lambda: _json(shared_data(shared))


def _job_makers(advice: Advice, where: str) -> Makers:
    """A job's papers but those that it shares, and one line that says where these are."""
    for name, make in _makers(advice, shared=where):
        if name not in SHARED:
            yield name, make
    yield "cutting-and-order.txt", lambda: f"{where}\n"


def _makers(advice: Advice, *, shared: str = "") -> Makers:
    from pentice.advice.writing import advice_data
    from pentice.pack.calculations import calculations_pdf
    from pentice.pack.care import limits
    from pentice.pack.cutting import cutting_pdf
    from pentice.pack.drawings import roof_picture
    from pentice.pack.drawings.cuts_csv import cuts_csv
    from pentice.pack.handover import handover_pdf
    from pentice.pack.method import method_pdf
    from pentice.pack.order import order_csv, order_pdf, order_xlsx
    from pentice.pack.programme import programme_ics
    from pentice.pack.quote import quote_pdf
    from pentice.pack.setting_out import setting_out_pdf
    from pentice.pack.site_page import site_page_html
    from pentice.pack.site_sheet import site_page_of, site_sheet_pdf

    design = advice.design
    yield "quote.pdf", lambda: quote_pdf(design, advice.options, picture=roof_picture(design))
    yield "setting-out.pdf", lambda: setting_out_pdf(design)
    yield "cutting.pdf", lambda: cutting_pdf(design)
    yield "cuts.csv", lambda: cuts_csv(design)
    yield "calculations.pdf", lambda: calculations_pdf(design)
    yield "order.pdf", lambda: order_pdf(design, limits(design))
    yield "order.csv", lambda: order_csv(design)
    yield "order.xlsx", lambda: order_xlsx(design)
    yield "method.pdf", lambda: method_pdf(design)
    yield "site-sheet.pdf", lambda: site_sheet_pdf(design)
    yield "site-sheet.html", lambda: site_page_html(site_page_of(design))
    yield "handover.pdf", lambda: handover_pdf(design)
    yield "programme.ics", lambda: programme_ics(design)
    yield "job.toml", lambda: packed_job(design)
    yield "firm.toml", lambda: firm_toml(design.firm)
    yield "catalogue.toml", lambda: catalogue_toml(packed_catalogue(design))
    yield "advice.json", lambda: _json(advice_data(advice))
    yield SIGN, lambda: _json(design_data(design, shared=shared))


def _json(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def _drawn(made: Iterable[Drawing]) -> dict[str, bytes]:
    from pentice.drawing.dxf import render_dxf
    from pentice.drawing.svg import render_svg

    files: dict[str, bytes] = {}
    for drawing in made:
        files[f"drawings/{drawing.name}.svg"] = render_svg(drawing.scene, drawing.page).encode()
        files[f"drawings/{drawing.name}.dxf"] = render_dxf(drawing.model)
    return files


def packed_job(design: Design) -> str:
    """The job file of the pack: whole, with what was chosen, and pointing at the pack's own catalogue and firm.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        TOML that can be solved again from the pack alone.
    """
    return job_toml(with_keys(design.job, {"catalogues": ["catalogue.toml"], "firm": "firm.toml"}))


def packed_catalogue(design: Design) -> Catalogue:
    """The catalogue with just the items that the design uses.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    Catalogue
        Products that pieces, order or parts name, with what those name in turn.
    """
    known = {id for kind in _KINDS for id in design.catalogue.table(kind)}
    named = {line.item for line in design.order} | {piece.item for piece in design.pieces}
    ids = {item.partition(".")[2].partition(" ")[0] for item in named}
    ids |= {product.id for product in design.parts.products}
    return select(design.catalogue, sorted(ids & known))


_KINDS = (
    "sheets",
    "bars",
    "profiles",
    "tapes",
    "buttons",
    "seals",
    "screws",
    "sealants",
    "flashings",
    "timbers",
    "sections",
    "gutters",
    "sundries",
)
