"""The site page as one HTML file: every size readable as it is, and with script a page to type readings into.

It holds its own style and script, asks for nothing from outside, and keeps what is typed in the phone's storage.
"""

from __future__ import annotations

import dataclasses
import json
import re
from collections.abc import Iterable, Mapping
from html import escape
from importlib.resources import files

from pentice.pack.site_page.strip import key_strip
from pentice.pack.site_page.values import (
    GapCard,
    HoldLine,
    SiteBay,
    SiteCaution,
    SiteLine,
    SitePage,
    SiteSide,
)

HOLD_NAMES: Mapping[str, str] = {
    "A": "the frame, before the bars",
    "B": "the bars, before the sheets are cut",
    "C": "each sheet, before it is lifted and fixed",
    "D": "water, before you leave",
}
ONLY_TYPICAL = "Holds on typical values"
"""How the sentence begins where every check passes, but some for values that stand for no product."""
_SIGN = '<span class="sign" aria-hidden="true">▲</span>'
PLACES = ("head", "middle", "foot")
SIDE_PLACES = ("width", "left", "right")


def site_page_html(data: SitePage) -> str:
    """The whole page.

    Parameters
    ----------
    data
        What it shows.

    Returns
    -------
    str
        One HTML file; the same data gives the same text.
    """
    parts = {
        "title": escape(f"{data.reference} {data.revision} · Site sheet"),
        "name": escape(data.name),
        "issue": escape(f"{data.reference} · revision {data.revision} · {data.date}"),
        "not_proved": _not_proved(data.not_proved),
        "strip": key_strip(tuple(bay.number for bay in data.bays)),
        "centres": _centres(data.lines, bars_carry=data.bars_carry),
        "sizes": _sizes(data.bays),
        "diagonals": _diagonals(data.diagonals_mm) + _sides(data.sides),
        "cards": "".join(_card(card) for card in data.cards),
        "holds": "".join(_hold(hold, data.holds) for hold in HOLD_NAMES),
        "cautions": "".join(_caution(caution) for caution in data.cautions) or "<p>None listed.</p>",
        "style": _part("site-sheet.css"),
        "script": _part("site-sheet.js"),
        "data": _json(data),
    }
    # In one pass, so that nothing a job is called can stand for a part of the page.
    return re.sub(r"\{\{(\w+)\}\}", lambda match: parts[match.group(1)], _part("site-sheet.html"))


def _part(name: str) -> str:
    return (files("pentice.pack.site_page") / name).read_text(encoding="utf-8")


def _json(data: SitePage) -> str:
    """The same facts for the script; no text in them can end the element they stand in."""
    cards = [{**dataclasses.asdict(card), "names": bay_names(card.bays)} for card in data.cards]
    facts = {**dataclasses.asdict(data), "cards": cards, "hold_names": HOLD_NAMES}
    text = json.dumps(facts, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def shown(value: float, places: int = 1) -> str:
    """A number as it is printed: no digit that nobody can act on, a true minus.

    Examples
    --------
    >>> shown(953.6), shown(3025.0), shown(-4.26)
    ('953.6', '3025', '−4.3')
    """
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").removesuffix(".")
    return ("0" if text == "-0" else text).replace("-", "−")


def _not_proved(says: str) -> str:
    if not says:
        return ""
    what, _, rest = says.partition(": ")
    # Red and its cross say that something fails or is not shown; that values stand for no product is a caution.
    kind, sign = ("care", _SIGN) if what == ONLY_TYPICAL else ("stop", "")
    rest = rest[:1].upper() + rest[1:]
    return f'<div class="box {kind}" role="note">{sign}<strong>{escape(what)}</strong><p>{escape(rest)}</p></div>'


def _centres(lines: tuple[SiteLine, ...], *, bars_carry: bool) -> str:
    """Where rafters are set out: one column where head and foot agree, as on every frame as drawn."""
    if not lines:
        return ""
    called = "bar" if bars_carry else "rafter"
    square = all(head == foot for line in lines for head, foot in (line.centre_mm,))
    heads = ("From the left",) if square else ("At the head", "At the foot")
    rows = (
        f'<tr><th scope="row">{escape(line.name)}</th>'
        + "".join(f"<td>{shown(mm)}</td>" for mm in line.centre_mm[: len(heads)])
        + "</tr>"
        for line in lines
    )
    caption = f"Centres of the {called}s as drawn, from the outer face of the left one seen from outside, mm"
    return _table(caption, (called.capitalize(), *heads), rows)


def _table(caption: str, heads: Iterable[str], rows: Iterable[str]) -> str:
    head = "".join(f'<th scope="col">{cell}</th>' for cell in heads)
    body = f"<thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody>"
    # A table that is wider than a narrow phone slides by itself, and by keyboard.
    return (
        f'<div class="slides" tabindex="0" role="group" aria-label="{caption}">'
        f"<table><caption>{caption}</caption>{body}</table></div>"
        '<p class="more soft" aria-hidden="true">Slide the table sideways: it goes on →</p>'
    )


def _sizes(bays: tuple[SiteBay, ...]) -> str:
    stems = _table(
        "Between the stems and along the slope, as drawn, mm",
        ("Bay", "Head", "Middle", "Foot", "Slope"),
        (_stems_row(bay) for bay in bays),
    )
    sheets = _table(
        "Sheets, mm",
        ("Sheet", "Width", "Length", "Gap a side", "Gap at head", "Bite"),
        (_sheet_row(bay) for bay in bays),
    )
    return stems + sheets


def _stems_row(bay: SiteBay) -> str:
    keys = [f"measured.between_stems_mm[{bay.number - 1}].{place}" for place in PLACES]
    keys.append(f"measured.slope_lengths_mm[{bay.number - 1}]")
    values = (*bay.between_stems_mm, bay.slope_length_mm)
    cells = "".join(
        f'<td data-key="{key}">{shown(value)}</td>' for key, value in zip(keys, values, strict=True)
    )
    return f'<tr><th scope="row">{bay.number}</th>{cells}</tr>'


def _sheet_row(bay: SiteBay) -> str:
    bite = shown(bay.bite_mm) + (
        f" <small>least {shown(bay.bite_least_mm)}</small>" if bay.bite_least_mm else ""
    )
    cells = (
        shown(bay.sheet_width_mm),
        shown(bay.sheet_length_mm),
        shown(bay.side_gap_mm),
        shown(bay.head_gap_mm),
        bite,
    )
    row = "".join(f"<td>{cell}</td>" for cell in cells)
    return f'<tr><th scope="row">{bay.number}</th>{row}</tr>'


def _diagonals(drawn: float | None) -> str:
    if drawn is None:
        return ""
    names = ("left head to right foot", "right head to left foot")
    rows = (
        f'<tr><th scope="row">{name}</th><td data-key="measured.diagonals_mm[{i}]">{shown(drawn)}</td></tr>'
        for i, name in enumerate(names)
    )
    return _table("Diagonals, level, mm", ("Corners", "Drawn"), rows)


def _sides(sides: tuple[SiteSide, ...]) -> str:
    """Openings and sheets of the sides below the roof; nothing where there are none."""
    if not sides:
        return ""
    openings = _table(
        "Openings of the side sheets as drawn, clear, seen from outside, mm",
        ("Side sheet", "Width", "Height left", "Height right"),
        (
            f'<tr><th scope="row">{side.number} <small>{side.side}</small></th>'
            + "".join(
                f'<td data-key="measured.side_openings_mm[{side.number - 1}].{place}">{shown(mm)}</td>'
                for place, mm in zip(SIDE_PLACES, side.opening_mm, strict=True)
            )
            + "</tr>"
            for side in sides
        ),
    )
    sheets = _table(
        "Side sheets as cut, seen from outside, mm",
        ("Side sheet", "Width", "Left edge", "Right edge"),
        (
            f'<tr><th scope="row">{side.number} <small>{side.side}</small></th>'
            + "".join(f"<td>{shown(mm)}</td>" for mm in side.sheet_mm)
            + "</tr>"
            for side in sides
        ),
    )
    return openings + sheets


def _card(card: GapCard) -> str:
    rows = (
        f'<tr data-c="{row.temperature_c:g}">'
        f'<th scope="row">{shown(row.temperature_c, 0)} °C<span class="now"></span></th>'
        f"<td>{row.side_gap_mm:.1f}</td><td>{row.head_gap_mm:.1f}</td></tr>"
        for row in card.rows
    )
    caption = f"{bay_names(card.bays)}: gaps by the temperature of the sheet, mm"
    return _table(caption, ("On the sheet", "Each side", "At the head"), rows)


def bay_names(bays: tuple[int, ...]) -> str:
    """Bays in words: runs of three and more are drawn together.

    Examples
    --------
    >>> bay_names((1, 2, 3, 4, 6))
    'Bays 1 to 4, 6'
    >>> bay_names((5,))
    'Bay 5'
    """
    runs: list[list[int]] = []
    for bay in bays:
        if runs and bay == runs[-1][-1] + 1:
            runs[-1].append(bay)
        else:
            runs.append([bay])
    texts = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return f"{'Bay' if len(bays) == 1 else 'Bays'} {', '.join(texts)}"


def _hold(hold: str, lines: tuple[HoldLine, ...]) -> str:
    own = [line for line in lines if line.hold == hold]
    if not own:
        return ""
    items = "".join(_hold_line(line) for line in own)
    return f"<h3>Hold {hold}: {escape(HOLD_NAMES[hold])}</h3><ul class='lines'>{items}</ul>"


def _hold_line(line: HoldLine) -> str:
    each = " <small>each bay</small>" if line.per_bay else ""
    return (
        f'<li><span class="tick" aria-hidden="true"></span><div>'
        f"<b>{escape(line.item)}</b>: {escape(line.passes)}{each}"
        f"<br><small>If not: {escape(line.if_not)}</small></div></li>"
    )


def _caution(caution: SiteCaution) -> str:
    ask = ""
    if caution.ask:
        # Whom to ask is not who answered, so that an answered one names nobody.
        ask = "<p><b>Answered.</b></p>" if caution.answered else f"<p><b>Ask</b>: {escape(caution.ask)}.</p>"
    why = f"<p>{escape(caution.why)}</p>" if caution.why else ""
    is_open = bool(caution.ask) and not caution.answered
    sign = _SIGN if is_open else ""
    return f'<div class="box{" care" if is_open else ""}">{sign}<strong>{escape(caution.text)}</strong>{why}{ask}</div>'
