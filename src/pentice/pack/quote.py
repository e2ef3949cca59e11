"""quote.pdf for the customer: one picture, options side by side, honest notes, what is not in it, how to pay."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date

from pentice.design import Design
from pentice.job.called import along
from pentice.job.found import cautions
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section
from pentice.pack.paper import blocks as b
from pentice.pack.quote_back import back
from pentice.pack.setting_out import heading_of, issued
from pentice.pack.words import checked_word, demo_notice, listed, money, timber_not_named
from pentice.pieces.names import letters_of

PICTURE_MM, PICTURE_SMALL_MM = 112.0, 92.0
"""Width of the picture on the front; the smaller where much stands above it."""
COLUMNS_MOST = 3
"""Options side by side; more go into a further table."""
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_FOOT = "We measure again before anything is cut."

Options = Sequence[tuple[str, Design]]


def quote_pdf(design: Design, options: Options = (), *, picture: bytes | str | None = None) -> bytes:
    """The quote. It never shows cost or margin.

    Parameters
    ----------
    design
        A solved job: what is drawn.
    options
        Name and design of each alternative.
    picture
        An SVG of the roof.

    Returns
    -------
    bytes
        Tagged PDF; the same for the same input.
    """
    job, firm = design.job, design.firm
    reach = (", ".join(firm.address), firm.telephone, firm.email)
    letterhead = {
        "firm": firm.name,
        "address": ". ".join(x for x in reach if x),
        "paper": f"Quote {job.reference}".strip(),
        "dates": f"{day(issued(design))}. {_validity(design)}",
        "for": _for(job.people.client),
    }
    images = {"roof.svg": picture} if picture is not None else {}
    first = section(
        job.name or ("A roof on your wall" if job.roof.attached else "A roof that stands free"),
        list(_first(design, options, picture is not None)),
        letterhead=letterhead,
        foot=_FOOT,
        result=_in_one_line(design),
    )
    second = section(
        "What you should know",
        list(back(design, "How you pay, for A" if options else "How you pay")),
        foot=_FOOT,
        result="Said now, so that nothing surprises you.",
    )
    about = meta("Quote", **heading_of(design), warning=not_proved(design))
    return make_pdf(DOCUMENT, {"meta": about, "sections": [first, second]}, images)


def _for(client: str) -> str:
    """The client's line; a client that begins with "The" goes on small."""
    if not client:
        return ""
    return f"For {client[0].lower() + client[1:] if client.startswith(('The ', 'A ')) else client}"


def _validity(design: Design) -> str:
    until, days = design.price.valid_until, design.firm.valid_days
    if until:
        return f"Good until {day(date.fromisoformat(until))}."
    return f"Good for {days} days." if days else "Ask how long it holds."


def _in_one_line(design: Design) -> str:
    shape = design.shape
    clear = design.setting_out.clear_height_mm
    height = f", {_clear(clear)} clear under the beam" if clear is not None else ""
    bays = len(design.setting_out.plane.bays)
    frame = "on a timber frame" if design.job.frame.rafter_centres_mm is None else "on the rafters that stand"
    return (
        f"{_metres(shape.width_mm)} {along(design.job)}, {_metres(shape.projection_mm)} out{height}. "
        f"{bays} roof sheets, {design.parts.tint}, {frame}."
    )


def _metres(length_mm: float) -> str:
    """A length in metres, to the centimetre, without idle noughts.

    Examples
    --------
    >>> _metres(2402.0)
    '2.4 m'
    """
    return f"{round(length_mm / 1000.0, 2):g} m"


def _clear(height_mm: float) -> str:
    """A clear height: rounded down, since somebody walks under it."""
    return _metres(math.floor(height_mm / 10.0 + 1e-9) * 10.0)


def _first(design: Design, options: Options, has_picture: bool) -> Iterator[b.Block]:
    """The front: what it is, and what it costs in each way."""
    stops = _stops(design)
    if stops:
        yield b.cautions(stops, h_mm=2.8)
        yield b.space(3)
    included = [b.heading("In the price", above_mm=0.0), b.bullets(_included(design))]
    if has_picture:
        alt = f"{'The roof on your wall' if design.job.roof.attached else 'The roof'}. {_in_one_line(design)}"
        wide = PICTURE_MM if len(stops) <= 1 else PICTURE_SMALL_MM
        yield b.columns([[b.picture("roof.svg", alt, width_mm=wide)], included], widths=(wide, "1fr"))
    else:
        yield from included
    yield from _side_by_side(design, options)


STOPS_MOST = 3


def _stops(design: Design) -> list[tuple[str, str]]:
    """What stands between this paper and an offer: invented figures, what does not hold, questions nobody answered."""
    rows = [("Demo.", notice)] if (notice := demo_notice(design)) else []
    if says := _not_holding(design):
        rows.append(("Not yet.", says))
    open_ = [c for c in cautions(design.job) if c.is_open]
    room = STOPS_MOST - len(rows)
    asks = [f"{c.text} Ask {c.ask}." for c in open_[:room]]
    if more := [c.text.partition(". ")[0].rstrip(".") for c in open_[room:]]:
        asks[-1] = f"{asks[-1]} Open too: {'; '.join(more)}. See the method sheet."
    return [*rows, *(("Ask.", text) for text in asks)]


def _not_holding(design: Design) -> str:
    names = dict.fromkeys(c.member for c in design.checks if c.verdict in ("fails", "refused"))
    if not names:
        return ""
    return (
        f"As drawn it is not shown to hold: {listed(list(names), most=4)}. That is changed before anything is ordered, "
        "and the price with it."
    )


def _side_by_side(design: Design, options: Options) -> Iterator[b.Block]:
    shown = [("As drawn", design), *options]
    facts = [_facts(name, d, is_drawn=d is design) for name, d in shown]
    names = [n for n in facts[0] if n in _ALWAYS or len({fact[n] for fact in facts}) > 1]
    columns = [
        b.option(
            _letter(k),
            name,
            [facts[k][n] for n in names],
            money(d.price.gross, d.price.currency),
            drawn=d is design,
        )
        for k, (name, d) in enumerate(shown)
    ]
    for start in range(0, len(columns), COLUMNS_MOST):
        yield b.keep([b.quote_columns(names, columns[start : start + COLUMNS_MOST])])


def _letter(k: int) -> str:
    return _LETTERS[k] if k < len(_LETTERS) else str(k + 1)


_ALWAYS = ("Roof", "What it does", "Light through", "Checks")


def _facts(name: str, design: Design, *, is_drawn: bool) -> dict[str, str]:
    """What a customer compares, by the name of its row."""
    sheet, tint = design.parts.sheet, design.parts.tint
    said = "" if is_drawn else next((o.says for o in design.job.options if o.name == name and o.says), "")
    optics = sheet.optics.get(tint)
    heat = optics.solar_g if optics is not None else None
    return {
        "Roof": f"{sheet.depth_mm:g} mm {tint}",
        "Size": f"{_metres(design.shape.width_mm)} × {_metres(design.shape.projection_mm)}",
        "Sheets": str(len(design.setting_out.plane.bays)),
        "What it does": said or _of_tint(tint),
        "Light through": f"{optics.light:.0%}".replace("%", " %") if optics is not None else "ask",
        "Sun's heat through": f"{heat:.0%}".replace("%", " %") if heat is not None else "ask",
        "Checks": checked_word(design),
    }


def _included(design: Design) -> tuple[str, ...]:
    timber = _timber(design)
    items = [timber] if timber else []
    items.append(f"{len(design.setting_out.plane.bays)} sheets, {design.parts.tint}")
    if sides := len(design.job.side_sheets):
        items.append(f"{sides} side sheet{'' if sides == 1 else 's'} of the same")
    items.append("Glazing bars, seals and trims")
    if design.parts.gutter is not None:
        items.append("Gutter and downpipe")
    if design.job.roof.attached:
        items.append("Flashing to the wall")
    if design.job.dates.working_days is not None:
        days = design.job.dates.working_days
        items.append(f"{days} day{'' if days == 1 else 's'} on site")
    if design.firm.lead_days:
        items.append(f"Delivery {design.firm.lead_days} working days from order")
    return tuple(items)


_TIMBER = {"WP": "wall plate", "RF": "rafters", "EB": "eaves beam", "HB": "head beam", "PO": "posts",
           "MU": "mullions", "SI": "sills"}  # fmt: skip


def _timber(design: Design) -> str:
    """The timber that is in the price: the frame, or what of it is new."""
    letters = [letters_of(piece.id) for piece in design.pieces]
    there = [name for key, name in _TIMBER.items() if key in letters]
    if not there or timber_not_named(design):
        return listed(there).capitalize()
    posts = letters.count("PO")
    return f"Timber frame{f', {posts} posts' if posts else ''}"


def _of_tint(tint: str) -> str:
    words = {
        "clear": "You see the sky. Hot in full sun.",
        "opal": "Soft light, no glare, hides leaves.",
        "bronze": "Takes the glare away, and some of the light.",
    }
    return words.get(tint, "See the sample.")
