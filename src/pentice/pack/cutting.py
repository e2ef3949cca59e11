"""cutting.pdf: stock sheets, the table of cuts, lengths, a ticket for each sheet, a drilling ticket for each bar."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from itertools import groupby

from pentice.checks.bar_screws import zones_asked
from pentice.cutting.followed import cuts_at
from pentice.cutting.proof import proof_words
from pentice.design import CutAndOrdered, Design
from pentice.drawing.lettering import wrap
from pentice.drawing.page import View, bare_page
from pentice.drawing.placed import on_paper
from pentice.drawing.scene import Group, Primitive, Scene, Text
from pentice.drawing.sketch import extent
from pentice.drawing.svg import render_svg
from pentice.pack.care import limits
from pentice.pack.drawings.cut_rows import Alike, alike_sheets, cut_rows, stock_line
from pentice.pack.drawings.length_strips import item_words, names_of, strips_height, strips_of, strips_scene
from pentice.pack.drawings.side_tickets import blanks_of, side_ticket_scene, slope_marks
from pentice.pack.drawings.stock_sheets import stock_scene
from pentice.pack.drawings.tickets import (
    BAR_HEIGHT_MM,
    BAR_WIDTH_MM,
    TICKET_HEIGHT_MM,
    TICKET_WIDTH_MM,
    AlikeBars,
    alike_bars,
    bar_section_scene,
    bar_ticket_scene,
    placed,
    sheet_ticket_scene,
)
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, make_pdf, meta, section, strip_of, strip_svg
from pentice.pack.paper.blocks import (
    Block,
    acts,
    big_cell,
    columns,
    fill_boxes,
    fill_space,
    heading,
    keep,
    label,
    number,
    paragraph,
    picture,
    rule,
    space,
    table,
)
from pentice.pack.setting_out import heading_of
from pentice.pack.words import money
from pentice.pieces.cut import shop_of
from pentice.pieces.values import Piece

SHEETS_A_PAGE = 3
CUTS_A_PAGE = 16
"""Rows that the table of cuts has room for below the smallest picture."""
STOCK_TALL_MM = 140.0
STOCK_COLUMN_MM = 12
NAMES_COLUMN_MM = 36.0
"""Widths for words in the table of cuts."""
SIDE_TALL_MM = 142.0
"""Height of the drawing on the ticket of side sheets: two labels stand below it."""
KEPT_NOTE = (
    "Never turn a piece: flutes run down the roof. Cut in the order of the numbers, and write its letter on each part. "
    "The saw's stop counts from the head of the part in hand, the knife's from its left edge, to the near side of the "
    "cut. Hatched is scrap, dashed is kept. Drawn out of scale across."
)


SLOPES_NOTE = " Side sheets are parted along their slopes by their own tickets."
LEANING_NOTE = (
    "*Rafters with sloping ends:* the upper edge drawn is the rafter's back, its head is at the left; lay the length "
    "on its side like that. At every cut the lower end lies to the right. The size is along the back: set the stop to "
    "it, the next rafter begins where the cut has left its end. Cut right of each mark, unless it says left."
)


@dataclass(slots=True)
class _Pictures:
    """Pictures of the document by name."""

    by_name: dict[str, bytes | str] = field(default_factory=dict)
    prefix: str = ""

    def add(self, name: str, svg: str) -> str:
        """Keep a picture; gives its name."""
        self.by_name[self.prefix + name] = svg
        return self.prefix + name


def cutting_pdf(design: Design) -> bytes:
    """Everything that is cut, page by page.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same design.
    """
    pictures = _Pictures()
    sections = [
        *_stock_pages(design, pictures),
        *_length_pages(design, pictures),
        *_tickets(design, pictures),
    ]
    return _paper(design, sections, pictures)


def shared_cutting_pdf(shared: CutAndOrdered, jobs: Sequence[Design], first: Sequence[Block]) -> bytes:
    """Everything that several jobs cut together; the tickets of each carry its reference.

    Parameters
    ----------
    shared
        The shared plan, pieces labelled.
    jobs
        Each job with that plan, in which its own pieces have their own names.
    first
        Sections before the plan.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same jobs.
    """
    pictures = _Pictures()
    sections = [*first, *_stock_pages(shared, pictures), *_length_pages(shared, pictures)]
    for k, job in enumerate(jobs, 1):
        sections += _tickets(job, _Pictures(by_name=pictures.by_name, prefix=f"{k}-"), job.job.reference)
    return _paper(shared, sections, pictures)


def _paper(design: CutAndOrdered, sections: Sequence[Block], pictures: _Pictures) -> bytes:
    about = meta("Cutting tickets", **heading_of(design), warning=not_proved(design))
    return make_pdf(DOCUMENT, {"meta": about, "sections": list(sections)}, pictures.by_name)


def _tickets(design: Design, pictures: _Pictures, reference: str = "") -> Iterator[Block]:
    """A ticket for each sheet, each blank of side sheets and bars alike; with the reference where jobs are several."""
    for piece in sheets_of(design):
        yield _sheet_ticket(design, piece, pictures, reference)
    for piece in blanks_of(design):
        yield _side_ticket(design, piece, pictures, reference)
    for bars in alike_bars(design):
        yield _bar_ticket(design, bars, pictures, reference)


def sheets_of(design: Design) -> tuple[Piece, ...]:
    """The roof's sheets, one ticket each; packing strips need none."""
    return tuple(p for p in design.pieces if p.kind == "sheet" and p.name.startswith("Sheet"))


def _stock_pages(design: CutAndOrdered, pictures: _Pictures) -> Iterator[Block]:
    """Stock sheets side by side, and the table of their cuts."""
    for page, some in enumerate(_by_page(design, alike_sheets(design)), 1):
        name = f"stock-{page}.svg"
        scene, height = stock_row(design, some)
        pictures.add(name, render_svg(scene, bare_page(180.0, height)))
        kerf = kerf_words(group.plan.kerf_mm for group in some)
        yield section(
            "Stock sheets" if page == 1 else f"Stock sheets, part {page}",
            [
                paragraph(f"{kerf} {KEPT_NOTE}{SLOPES_NOTE if _has_sides(design, some) else ''}"),
                picture(name, scene.desc),
                *_cut_table(design, some),
            ],
            result=_proof(design),
        )


def _has_sides(design: CutAndOrdered, groups: Sequence[Alike]) -> bool:
    blanks = {p.id for p in design.pieces if p.side_parts}
    return any(p.piece in blanks for group in groups for p in group.plan.placements)


def _by_page(design: CutAndOrdered, groups: Sequence[Alike]) -> Iterator[Sequence[Alike]]:
    """Up to three a page with their table, of one product and kerf: narrow sheets do not shrink beside wide ones."""
    for _, alike in groupby(groups, key=lambda group: (group.plan.item, group.plan.kerf_mm)):
        page: list[Alike] = []
        for group in alike:
            rows = _lines(design, (*page, group))
            if page and (len(page) == SHEETS_A_PAGE or rows > CUTS_A_PAGE):
                yield page
                page = []
            page.append(group)
        yield page


def stock_row(design: CutAndOrdered, groups: Sequence[Alike]) -> tuple[Scene, float]:
    """Up to three stock sheets beside each other, 180 mm wide, with their titles; and its height [mm].

    Parameters
    ----------
    design, groups
        The sheets, alike ones once.
    """
    cell = 180.0 / len(groups)
    room = min(cell - 22.0, 110.0)
    widest = max(g.plan.width_mm for g in groups)
    tallest = max(g.plan.length_mm for g in groups)
    named = max(len(_sheet_words(design, g, cell - 6.0)) for g in groups)
    across, along = room / widest, (_tall(design, groups) - 3.9 * named) / tallest
    content: list[Primitive] = []
    for k, group in enumerate(groups):
        scene = stock_scene(design, group, across, along)
        x = cell * k + 4.0
        made = on_paper(scene.primitives, View(scale=1.0, origin=(x, 20.0 + 3.9 * named)))
        content.append(Group(content=made, part=group.title))
        content.append(Text(at=(x, 5.5), text=group.title, h_mm=5.0, weight=700))
        line = stock_line(design, group)
        content.append(Text(at=(x, 11.5), text=line, h_mm=2.5))
        for row, words in enumerate(_sheet_words(design, group, cell - 6.0)):
            content.append(Text(at=(x, 15.4 + 3.9 * row), text=words, h_mm=2.5))
    desc = (
        "Stock sheets: "
        + ". ".join(
            f"{g.title}, {g.plan.width_mm} by {g.plan.length_mm}, {len(g.plan.cuts)} cuts" for g in groups
        )
        + "."
    )
    return Scene(primitives=tuple(content), title="Stock sheets", desc=desc), extent(content).bottom + 3.0


def _sheet_words(design: CutAndOrdered, group: Alike, room_mm: float) -> Sequence[str]:
    """Which sheet it is, where jobs share the plan: one job has one sheet and one tint."""
    shares = " " in group.plan.item
    return wrap(item_words(design, group.plan.item), room_mm, 2.5) if shares else ()


def _tall(design: CutAndOrdered, groups: Sequence[Alike]) -> float:
    """Paper for the longest sheet, so that the table of cuts still goes on the page where it can."""
    return max(95.0, min(STOCK_TALL_MM, 183.0 - 5.9 * _lines(design, groups)))


def _lines(design: CutAndOrdered, groups: Sequence[Alike]) -> int:
    """Lines of the table of their cuts: many numbers of sheets, and names with a job before them, take two or more."""
    return sum(
        max(
            len(wrap(row.stock, STOCK_COLUMN_MM - 1.0, 2.8)),
            len(wrap(row.you_get, NAMES_COLUMN_MM, 2.8)),
            len(wrap(row.remains, NAMES_COLUMN_MM, 2.8)),
            1,
        )
        for group in groups
        for row in cut_rows(design, group)
    )


def kerf_words(kerfs_mm: Iterable[int]) -> str:
    """What a saw takes; of several jobs it may take more or less.

    Examples
    --------
    >>> kerf_words([3, 3]), kerf_words([3, 4])
    ('3 mm kerf allowed at every cut.', '3 or 4 mm kerf allowed at every cut, as its job says.')
    """
    said = " or ".join(str(kerf) for kerf in sorted(set(kerfs_mm)))
    return f"{said} mm kerf allowed at every cut{', as its job says' if ' or ' in said else ''}."


def _cut_table(design: CutAndOrdered, groups: Sequence[Alike]) -> tuple[Block, ...]:
    rows = [
        (
            row.stock,
            str(row.cut),
            row.tool,
            row.cut_from,
            big_cell(str(row.stop_mm)),
            row.you_get,
            row.remains,
        )
        for group in groups
        for row in cut_rows(design, group)
    ]
    if not rows:
        return (paragraph("No cuts: every sheet is used as it comes."),)
    heads = ("Stock", "Cut", "Tool", "Cut it from", "Stop at", "You get", "What remains")
    return (table(heads, rows, widths=(STOCK_COLUMN_MM, 9, 24, 39, 16, "1fr", 39), h=2.8, row_mm=1.05),)


def _proof(design: CutAndOrdered) -> str:
    """How many sheets give how many pieces, and whether fewer would do."""
    plans = design.cutting.sheets
    pieces = sum(len(p.placements) for p in plans)
    sheets = "sheet gives" if len(plans) == 1 else "sheets give"
    said = f"{len(plans)} stock {sheets} {pieces} {'piece' if pieces == 1 else 'pieces'}."

    def amount(pence: int) -> str:
        return money(Decimal(pence) / 100, design.price.currency)

    return f"{said} {proof_words(design.cutting, shop_of(design.job), amount)}"


def _length_pages(design: CutAndOrdered, pictures: _Pictures) -> Iterator[Block]:
    """Bars, profiles and timber: each item's stock lengths as strips."""
    blocks: list[Block] = []
    for k, (item, strips) in enumerate(strips_of(design).items(), 1):
        height = strips_height(design, strips)
        scene = strips_scene(design, strips)
        name = pictures.add(f"length-{k}.svg", render_svg(scene, bare_page(180.0, height)))
        blocks.append(keep([heading(item_words(design, item)), picture(name, scene.desc)]))
    if blocks:
        kerf = kerf_words(plan.kerf_mm for plan in design.cutting.lengths)
        note = f"{kerf} Cut from the left; L1, L2 are the numbers in cuts.csv. Bars are trimmed at the head on site."
        if any(p.lean_mm for plan in design.cutting.lengths for p in plan.pieces):
            note += f" {LEANING_NOTE}"
        count = len(design.cutting.lengths)
        yield section(
            "Lengths", [*blocks, paragraph(note)], result=f"{count} stock lengths, alike ones once."
        )


def _titled(name: str, reference: str) -> str:
    return f"{name}, {reference}" if reference else name


def _strip(design: Design, pictures: _Pictures, *, bay: int = 0, bars: Sequence[int] = ()) -> Block:
    """The key strip of a ticket."""
    bays = design.setting_out.plane.bays
    widths = [b.outline_mm[1][0] - b.outline_mm[0][0] for b in bays]
    name = f"strip-{bay}-{'-'.join(str(b) for b in bars)}.svg"
    name = pictures.add(name, strip_svg(widths, (bay,) if bay else (), bars))
    said = f"bay {bay} black" if bay else f"bars {', '.join(f'R{b}' for b in bars)} heavy"
    return strip_of(name, f"The roof from above, {len(bays)} bays, {said}.")


def _sheet_ticket(design: Design, piece: Piece, pictures: _Pictures, reference: str) -> Block:
    """One sheet: what to cut, in which order, and a label."""
    stock, p = placed(design, piece)
    sheet = design.parts.sheet
    bay = piece.bay or 0
    scene = sheet_ticket_scene(design, piece)
    name = pictures.add(
        f"ticket-{piece.id}.svg", render_svg(scene, bare_page(TICKET_WIDTH_MM, TICKET_HEIGHT_MM))
    )
    what = f"{sheet.depth_mm:g} mm {design.parts.tint}"
    right = [
        number("WIDTH", str(p.width_mm)),
        space(2.5),
        number("LENGTH along the flutes", str(p.length_mm)),
        paragraph("1 mm short is better than 1 mm over."),
        rule(0.5),
        acts(ticket_acts(design, piece), word_mm=21.5),
        rule(),
        heading("Measured when cut", h_mm=2.8, above_mm=1.0),
        fill_boxes(("head", "middle", "foot", "length")),
        fill_boxes(("sheet, °C", "by"), height_mm=8.0),
        space(2.0),
        paragraph(" ".join(limits(design)), h_mm=2.5),
    ]
    job = design.job
    tag = label(
        "SHEET, BAY", str(bay), f"{p.width_mm} × {p.length_mm}", f"{what}, this face to the sky",
        f"{job.reference} rev {job.revision}   film off at the end",
        cut_here="Cut here. Stick this on the weather face, at the head.",
    )  # fmt: skip
    return section(
        _titled(piece.name, reference),
        [
            columns(
                [[picture(name, scene.desc, width_mm=TICKET_WIDTH_MM)], right],
                widths=(TICKET_WIDTH_MM, "1fr"),
                gap_mm=4.0,
            ),
            fill_space(),
            tag,
        ],
        result=f"{sheet.name}, {design.parts.tint}. Cut from stock sheet {stock}.",
        strip=_strip(design, pictures, bay=bay),
    )


def ticket_acts(design: Design, piece: Piece) -> tuple[tuple[str, str], ...]:
    """The acts of a sheet's ticket, in order: a verb and what is done.

    Parameters
    ----------
    design
        A solved job.
    piece
        One of its sheets.
    """
    stock, p = placed(design, piece)
    plan = design.cutting.sheets[stock - 1]
    across, rips = cuts_at(plan, p)
    peel = next(
        (m.text for m in piece.marks if m.text.startswith("peel")), "peel 50 of film back, both faces"
    )
    rows = [
        ("Saw", f"across at {p.length_mm} ({_cuts(across)})")
        if across
        else ("Length", "as it comes, no cut"),
        ("Knife", f"along a flute at {p.width_mm} ({_cuts(rips)})")
        if rips
        else ("Width", "as it comes, no cut"),
        ("Vacuum", "every flute, both ends"),
    ]
    rows += [("Drill", f"one {h.width_mm:g} hole, middle of the foot") for h in piece.holes]
    rows += [
        ("Peel", peel.removeprefix("peel ")),
        ("Tape", "solid at HEAD, breather at foot"),
        ("Stick", "the label on, by the head"),
    ]
    return tuple(rows)


def _side_ticket(design: Design, piece: Piece, pictures: _Pictures, reference: str) -> Block:
    """A blank of side sheets: its size, the marks of its sloping ends, a label for each sheet in it."""
    stock, p = placed(design, piece)
    sheet, job = design.parts.sheet, design.job
    scene = side_ticket_scene(piece, (p.width_mm, p.length_mm))
    name = pictures.add(f"ticket-{piece.id}.svg", render_svg(scene, bare_page(TICKET_WIDTH_MM, SIDE_TALL_MM)))
    right = [
        number("WIDTH", str(p.width_mm)),
        space(2.5),
        number("LENGTH along the flutes", str(p.length_mm)),
        rule(0.5),
        acts(side_acts(design, piece), word_mm=21.5),
    ]
    tags = [
        label(
            "SIDE SHEET",
            part.name.rpartition(" ")[2],
            f"{part.width_mm:.0f} × {part.left_mm:.0f} / {part.right_mm:.0f}",
            f"{sheet.depth_mm:g} mm {design.parts.tint}, {part.side} side, this face out",
            f"{job.reference} rev {job.revision}   film off at the end",
            cut_here="Cut here. Stick this on the weather face, at the head.",
        )
        for part in piece.side_parts
    ]  # fmt: skip
    return section(
        _titled(piece.name, reference),
        [
            columns(
                [[picture(name, scene.desc, width_mm=TICKET_WIDTH_MM)], right],
                widths=(TICKET_WIDTH_MM, "1fr"),
                gap_mm=4.0,
            ),
            fill_space(),
            *tags,
        ],
        result=f"{sheet.name}, {design.parts.tint}. Cut from stock sheet {stock}.",
    )


def side_acts(design: Design, piece: Piece) -> tuple[tuple[str, str], ...]:
    """The acts of the ticket of side sheets, in order: a verb and what is done.

    Parameters
    ----------
    design
        A solved job.
    piece
        A blank of side sheets.
    """
    stock, p = placed(design, piece)
    across, rips = cuts_at(design.cutting.sheets[stock - 1], p)
    many = len(piece.side_parts) > 1
    rows = [
        (
            "Blank",
            f"{p.width_mm} × {p.length_mm} ({_cuts((*across, *rips)) if across or rips else 'as it comes'})",
        )
    ]
    # Marked with the other face up the slope would fall the wrong way.
    rows.append(("Lay", "weather face UP, as drawn"))
    for name, left, right in slope_marks(piece):
        whose = f"{name.rpartition(' ')[2]} " if many else ""
        rows.append(("Mark", f"{whose}from foot {left:.0f} left, {right:.0f} right"))
    if slope_marks(piece):
        rows.append(("Saw", "the slope, kerf beyond the marks"))
    rows += [
        ("Knife", f"{part.name.lower()} to a width of {part.width_mm:.0f}")
        for part in piece.side_parts
        if part.width_mm < p.width_mm
    ]
    return (
        *rows,
        ("Vacuum", "every flute, both ends"),
        ("Peel", next(m.text for m in piece.marks if m.text.startswith("peel")).removeprefix("peel ")),
        ("Tape", "solid at HEAD, breather at foot"),
        ("Stick", f"{'a label on each' if many else 'the label on'}, by the head"),
    )


def _cuts(numbers: Sequence[int]) -> str:
    return f"cut{'s' if len(numbers) > 1 else ''} {', '.join(str(n) for n in numbers)}"


def asked_words(design: Design, alike: AlikeBars) -> str:
    """How far apart holes may be: as the job says, and as the wind asks by zone along the bar.

    Parameters
    ----------
    design
        A solved job.
    alike
        Bars of one drilling pattern.
    """
    said = [
        f"Asked for: {alike.bar.asked_mm:g} at most{', closer in stretches' if design.job.screws.closer_mm else ''}."
    ]
    zones = zones_asked(design.checks, [bar.rafter for bar in alike.bars])
    if zones:
        parts = [f"{spacing:.0f} up to {end:.0f}" for _, end, spacing in zones[:-1]]
        last = f"{zones[-1][2]:.0f} beyond" if parts else f"{zones[-1][2]:.0f}"
        said.append(f"Wind allows {', '.join([*parts, last])}.")
    return " ".join(said)


def meaning_words(design: Design) -> str:
    """What the job's spacing is counted between, as drawn."""
    between = design.job.screws.spacing_between or design.parts.bar.screw_spacing_between
    if between == "successive holes":
        return "Spacing counts hole to hole, sides by turns."
    if between == "holes on one side":
        return "Spacing counts along one side: holes are half of it apart."
    return "What spacing counts between was not said, drawn by the closer reading: ask."


def _bar_ticket(design: Design, alike: AlikeBars, pictures: _Pictures, reference: str) -> Block:
    """Bars that are drilled alike: marks from the FOOT, left and right."""
    bar, count = alike.bar, len(alike.bars)
    names = names_of(tuple(b.id for b in alike.bars))
    scene, across = bar_ticket_scene(design, bar), bar_section_scene(design)
    wide = bare_page(BAR_WIDTH_MM, BAR_HEIGHT_MM)
    drilling = pictures.add(f"bar-{bar.id}.svg", render_svg(scene, wide))
    size = bare_page(design.parts.bar.seat_mm + 6.0, 38.0)
    cut = pictures.add("bar-across.svg", render_svg(across, size))
    screw = design.parts.screw
    length, holes = str(int(bar.base_mm)), len(bar.holes)
    hole_mm = next(
        (h.width_mm for p in design.pieces if p.id == f"{bar.id}-base" for h in p.holes), screw.d_mm + 0.5
    )
    carries = design.parts.bar.carries
    drilled = "no holes along it" if carries else f"{holes} holes each, {hole_mm:g} wide"
    held = [
        paragraph("*Held at its two ends*" if carries else f"*{count * holes} screws*", h_mm=3.5),
        paragraph(
            "by its supplier's parts"
            if carries
            else f"{screw.d_mm:g} × {screw.length_mm:g}, {screw.coating}",
            h_mm=3.5,
        ),
    ]
    top = columns(
        [
            [number("BASE", length)],
            [
                space(9.0),
                paragraph(f"*{count} {'bar' if count == 1 else 'bars'}*", h_mm=3.5),
                paragraph(drilled, h_mm=3.5),
            ],
            [space(9.0), *held],
        ],
        widths=(85, "1fr", "1fr"),
    )
    first = bar.holes[0].side if bar.holes else "L"
    side = "left" if first == "L" else "right"
    least, most = (f"{step:.1f}".removesuffix(".0") for step in bar.steps_mm)
    step = least if least == most else f"{least} to {most}"
    asked = f"{asked_words(design, alike)} {meaning_words(design)}".strip()
    says = f"*It carries by itself:* its ends as its supplier says. Cap {int(bar.cap_mm)} long."
    notes = paragraph(
        says
        if carries
        else f"*L and R as you stand at the foot and face the wall. Start {side}, change side at every hole.* "
        f"{step} from hole to hole. {asked} Cap {int(bar.cap_mm)} long, not drilled.",
        h_mm=2.5,
    )
    boxes = [f"R{b.rafter}" for b in alike.bars]
    many = "One bar" if count == 1 else f"{count} alike"
    low = columns(
        [
            [
                heading("Across the bar, full size", above_mm=1.0),
                picture(cut, across.desc, width_mm=size.width_mm),
            ],
            [heading("For each bar", above_mm=1.0), acts(bar_acts(alike, hole_mm, reference))],
            [
                heading("Done, initials", above_mm=1.0),
                _initials(boxes),
            ],
        ],
        widths=(size.width_mm + 2.0, "1fr", 58),
    )
    return section(
        _titled(f"Bar base, {names}", reference),
        [top, space(3.0), picture(drilling, scene.desc), notes, low],
        result=f"{many}. Positions along are true to each other; across is drawn larger.",
        strip=_strip(design, pictures, bars=[b.rafter for b in alike.bars]),
        landscape=True,
    )


def _initials(names: list[str]) -> Block:
    """A box for each bar; where they are many, smaller ones, and past twenty one box for all."""
    if len(names) > 20:
        return fill_boxes([f"{names[0]} to {names[-1]}"], height_mm=20.0, inside=True)
    if len(names) > 6:
        return fill_boxes(names, per_row=5, height_mm=7.0, inside=True)
    return fill_boxes(names, per_row=3, height_mm=9.0, inside=True)


def bar_acts(alike: AlikeBars, hole_mm: float, reference: str = "") -> tuple[tuple[str, str], ...]:
    """The acts of a bar's ticket, in order."""
    names = names_of(tuple(b.id for b in alike.bars))
    if not alike.bar.holes:
        return (
            ("Cut", f"to {int(alike.bar.base_mm)}"),
            ("Write", f"{reference} {names} under it, arrow to the HEAD".lstrip()),
            ("Fit", "both ends as its supplier says, before any sheet"),
        )
    return (
        ("Cut", f"to {int(alike.bar.base_mm)}, then mark from the foot"),
        ("Drill", f"{len(alike.bar.holes)} holes {hole_mm:g} through the seat, clean both faces"),
        ("Write", f"{reference} {names} under it, arrow to the HEAD".lstrip()),
        ("Fit", "sealant in every hole before its screw"),
    )
