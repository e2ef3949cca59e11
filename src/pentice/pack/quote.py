"""quote.pdf for the customer: one picture, options side by side, honest notes, what is not in it, how to pay."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal

from pentice.design import Design
from pentice.job.found import cautions
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of, issued
from pentice.pack.words import checked_word, demo_notice, listed, members_open, timber_not_named
from pentice.takeoff.roof import letters_of

SIGNS = {"GBP": "£", "EUR": "€", "USD": "$"}
PICTURE_MM, PICTURE_SMALL_MM = 112.0, 92.0
"""Width of the picture on the front; the smaller where much stands above it."""
COLUMNS_MOST = 3
"""Options side by side; more go into a further table."""
WALL_LINE_MM = 15.0
"""How far a wall may lie off a straight line before the price changes: judgement, no source."""
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
        job.name or "A roof on your wall",
        list(_first(design, options, picture is not None)),
        letterhead=letterhead,
        foot=_FOOT,
        result=_in_one_line(design),
    )
    second = section(
        "What you should know",
        list(_second(design, "How you pay, for A" if options else "How you pay")),
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


def money(amount: Decimal, currency: str) -> str:
    """An amount with its sign, comma thousands and two decimals.

    Examples
    --------
    >>> money(Decimal("4410.76"), "GBP")
    '£4,410.76'
    """
    sign = SIGNS.get(currency, f"{currency} ")
    return f"{'−' if amount < 0 else ''}{sign}{abs(amount):,.2f}"


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
        f"{_metres(shape.width_mm)} along the wall, {_metres(shape.projection_mm)} out{height}. "
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
        alt = f"The roof on your wall. {_in_one_line(design)}"
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


def _payment(design: Design) -> b.Block:
    price = design.price
    stages = [(name.capitalize(), money(amount, price.currency)) for name, amount in price.stages]
    rows = [
        *stages,
        ("Total with tax", money(price.gross, price.currency)),
        (f"Tax in it, {float(price.tax_rate) * 100:g} %", money(price.tax, price.currency)),
    ]
    return b.table((), rows, align=("left", "right"), strong_rows=(len(stages),), h=2.8, row_mm=1.4)


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


_TIMBER = {"WP": "wall plate", "RF": "rafters", "EB": "eaves beam", "PO": "posts"}


def _timber(design: Design) -> str:
    """The timber that is in the price: the frame, or what of it is new."""
    letters = [letters_of(piece.id) for piece in design.pieces]
    there = [name for key, name in _TIMBER.items() if key in letters]
    if not there or timber_not_named(design):
        return listed(there).capitalize()
    posts = letters.count("PO")
    return f"Timber frame{f', {posts} posts' if posts else ''}"


def _not_included(design: Design) -> tuple[str, ...]:
    unnamed = [name for name, _ in timber_not_named(design)]
    own = design.firm.exclusions or ("Rotten wood, hidden drains, permissions, painting.",)
    return (f"*{listed(unnamed).capitalize()}*: not drawn yet.", *own) if unnamed else tuple(own)


def _of_tint(tint: str) -> str:
    words = {
        "clear": "You see the sky. Hot in full sun.",
        "opal": "Soft light, no glare, hides leaves.",
        "bronze": "Takes the glare away, and some of the light.",
    }
    return words.get(tint, "See the sample.")


def _second(design: Design, pay: str) -> Iterator[b.Block]:
    """The back: honest notes before payment, what is left out, what it rests on, terms, the signature."""
    enclosed = design.job.roof.use == "lean-to"
    yield b.bullets(
        (
            "*Rain* drums on it: you will hear it.",
            "*Heat.* It gets hot under it in full sun. "
            + ("It needs openings high and low." if enclosed else "Open sides help."),
            "*Nobody may ever stand on it.* It is fragile, whatever its thickness.",
            "*Cleaning.* Spring and autumn, water and a soft brush. We look together whether all can be reached.",
            "*Mist* inside the sheet in cold weather is normal. Drops can fall from its underside too.",
            "*Snow* that lies deep is cleared from below. It slides off the foot: mind doors and paths.",
            "*Creaks* come when the sun comes and goes: sheets grow and shrink.",
        )
    )
    yield b.space(4)
    left_out = [b.heading("Not in the price", above_mm=0.0), b.bullets(_not_included(design))]
    payment = [b.heading(pay, above_mm=0.0), _payment(design)]
    yield b.columns([left_out, payment], widths=("1fr", 72))
    yield b.heading("What the price rests on", above_mm=4.0)
    yield b.bullets(tuple(_assumptions(design)))
    yield b.heading("Terms", above_mm=4.0)
    yield b.bullets(
        (
            *(design.firm.terms or ("Payment as on this page.",)),
            f"Workmanship: {_years(design.firm.workmanship_years)}. Material: by the suppliers' own papers.",
            *_numbers(design),
        )
    )
    yield b.space(2)
    yield b.keep(
        [
            b.heading("Your right to cancel", above_mm=0.0),
            b.paragraph(
                "A contract signed at home often carries a right to cancel within some days. Check local law: how "
                "many, and whether goods cut to measure are left out. We cut nothing before, unless you sign for it."
            ),
            b.fill_boxes(("right to cancel ends on", "begin before that: signature", "date")),
        ]
    )
    yield b.space(2)
    yield b.keep(
        [b.heading("Yes, build it", above_mm=0.0), b.fill_boxes(("option", "name", "signature", "date"))]
    )


def _numbers(design: Design) -> Iterator[str]:
    """The firm's numbers, as the law of many places asks on a quote."""
    told = [f"{name} {value}" for name, value in design.firm.numbers.items() if value]
    if told:
        yield f"{design.firm.name}: {listed(told)}."


def _years(years: int) -> str:
    return f"{years} year{'' if years == 1 else 's'} from us" if years else "ask us for how long"


def _assumptions(design: Design) -> Iterator[str]:
    job, shape = design.job, design.shape
    people = job.people
    if people.surveyed_on is not None:
        who = f", by {people.surveyed_by}" if people.surveyed_by else ""
        survey = f"Our survey on {day(people.surveyed_on)}{who}"
    else:
        survey = "The sizes we were given"
    yield (
        f"{survey}: {shape.width_mm:.0f} along the wall, {shape.projection_mm:.0f} out, {shape.pitch_deg:.1f}° pitch "
        "(sizes in mm). We measure again before anything is cut; what differs is priced on a signed line with its days."
    )
    if job.roof.attached:
        yield _wall(design)
    open_ = [name[:1].lower() + name[1:] for name in members_open(design)]
    if open_:
        yield (
            f"Not shown to hold yet: {listed(open_, most=4)}. Each is settled before anything is ordered, the frame by "
            "a structural engineer. What that changes is priced again."
        )
    yield "Permission and building control, where they are needed: ask before you sign."


def _wall(design: Design) -> str:
    offsets = [abs(offset) for _, offset in design.job.roof.wall_offsets_mm]
    kind = design.job.house.wall if design.job.house is not None else None
    wall = f"A sound wall ({kind})" if kind else "A sound wall"
    line = f"measured within {max(offsets):g} mm" if offsets else f"taken to be within {WALL_LINE_MM:g} mm"
    return f"{wall} that carries the roof, {line} of a straight line."
