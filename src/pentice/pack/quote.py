"""quote.pdf for the customer: one picture, options side by side, honest notes, what is not in it, how to pay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal

from pentice.design import Design
from pentice.pack.drawings.values import not_proved
from pentice.pack.paper import DOCUMENT, day, make_pdf, meta, section
from pentice.pack.paper import blocks as b
from pentice.pack.setting_out import heading_of, issued

SIGNS = {"GBP": "£", "EUR": "€", "USD": "$"}
COLUMNS_MOST = 3
_LETTERS = "ABC"

Options = Sequence[tuple[str, Design]]


def quote_pdf(design: Design, options: Options = (), *, picture: str | None = None) -> bytes:
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
    job, firm, price = design.job, design.firm, design.price
    letterhead = {
        "firm": firm.name,
        "address": ", ".join(firm.address) + (f". {firm.telephone}" if firm.telephone else ""),
        "paper": f"Quote {job.reference}".strip(),
        "dates": f"{day(issued(design))}. {_validity(price.valid_until)}",
        "for": f"For {job.people.client}" if job.people.client else "",
    }
    images = {"roof.svg": picture} if picture is not None else {}
    first = section(
        job.name or "A roof on your wall",
        list(_first(design, options, picture is not None)),
        letterhead=letterhead,
        foot="We measure again before anything is cut.",
        result=_in_one_line(design),
    )
    second = section(
        "What you should know",
        list(_notes(design)),
        foot="We measure again before anything is cut.",
        result="Said now, so that nothing surprises you.",
    )
    about = meta("Quote", **heading_of(design), warning=not_proved(design))
    return make_pdf(DOCUMENT, {"meta": about, "sections": [first, second]}, images)


def money(amount: Decimal, currency: str) -> str:
    """An amount with its sign, comma thousands and two decimals.

    Examples
    --------
    >>> money(Decimal("4410.76"), "GBP")
    '£4,410.76'
    """
    sign = SIGNS.get(currency, f"{currency} ")
    return f"{'−' if amount < 0 else ''}{sign}{abs(amount):,.2f}"


def _validity(until: str) -> str:
    return f"Good until {day(date.fromisoformat(until))}." if until else "Ask how long it holds."


def _in_one_line(design: Design) -> str:
    shape, clear = design.shape, design.setting_out.clear_height_mm
    height = f", {clear / 1000:.2f} m clear under the beam" if clear is not None else ""
    bays = len(design.setting_out.plane.bays)
    return (
        f"{shape.width_mm / 1000:.2f} m along the wall, {shape.projection_mm / 1000:.2f} m out{height}. "
        f"{bays} roof sheets, {design.parts.tint}, on a timber frame."
    )


def _first(design: Design, options: Options, has_picture: bool) -> Iterator[b.Block]:
    if has_picture:
        yield b.columns(
            [
                [b.picture("roof.svg", f"The roof on your wall. {_in_one_line(design)}", width_mm=112)],
                [b.heading("In the price"), b.bullets(_included(design))],
            ],
            widths=(112, "1fr"),
        )
    else:
        yield b.heading("In the price")
        yield b.bullets(_included(design))
    shown = [("As drawn", design), *options][:COLUMNS_MOST]
    yield b.quote_columns(
        ("Roof", "What it does", "Light through"),
        [
            b.option(letter, name, _rows(name, d), money(d.price.gross, d.price.currency), drawn=d is design)
            for letter, (name, d) in zip(_LETTERS, shown, strict=False)
        ],
    )
    stages = [
        (name.capitalize(), money(amount, design.price.currency)) for name, amount in design.price.stages
    ]
    total = ("Total with tax", money(design.price.gross, design.price.currency))
    yield b.columns(
        [
            [
                b.heading("Not in the price"),
                b.bullets(design.firm.exclusions or ("Rotten wood, hidden drains, permissions, painting.",)),
            ],
            [
                b.heading("How you pay, for A"),
                b.table((), [*stages, total], align=("left", "right"), strong_rows=(len(stages),), h=2.8),
            ],
        ],
        widths=("1fr", 72),
    )


def _included(design: Design) -> tuple[str, ...]:
    items = []
    posts = sum(1 for piece in design.pieces if piece.id.startswith("PO"))
    if design.job.frame.rafter_centres_mm is None:
        items.append(f"Timber frame{f', {posts} posts' if posts else ''}")
    items.append(f"{len(design.setting_out.plane.bays)} sheets, {design.parts.tint}")
    items.append("Aluminium bars, seals and trims")
    if design.parts.gutter is not None:
        items.append("Gutter and downpipe")
    items.append("Sealed to the wall")
    if design.job.dates.working_days is not None:
        items.append(f"{design.job.dates.working_days} days on site")
    return tuple(items)


def _rows(name: str, design: Design) -> tuple[str, str, str]:
    sheet, tint = design.parts.sheet, design.parts.tint
    said = next((o.says for o in design.job.options if o.name == name and o.says), "")
    optics = sheet.optics.get(tint)
    light = f"{optics.light:.0%}" if optics is not None else "ask"
    return f"{sheet.depth_mm:g} mm {tint}", said or _of_tint(tint), light


def _of_tint(tint: str) -> str:
    words = {
        "clear": "You see the sky. Hot in full sun.",
        "opal": "Soft light, no glare, hides leaves.",
        "bronze": "Takes the glare away, and some of the light.",
    }
    return words.get(tint, "See the sample.")


def _notes(design: Design) -> Iterator[b.Block]:
    enclosed = design.job.roof.use == "lean-to"
    yield b.heading("Honest notes")
    yield b.bullets(
        (
            "Rain drums on it: you will hear it.",
            "It gets hot under it in full sun. "
            + ("It needs openings high and low." if enclosed else "Open sides help."),
            "Nobody may ever stand on it. It is fragile, whatever its thickness.",
            "Wash it in spring and autumn, water and a soft brush, from below or from a window. Can you reach it all?",
            "Some mist inside the sheet in cold weather is normal.",
            "Deep snow is cleared from below with soft tools. It slides off the foot: mind doors and paths.",
            "It creaks a little when sun comes and goes: sheets grow and shrink.",
        )
    )
    yield b.heading("What the price rests on")
    people = design.job.people
    survey = (
        f"Our survey on {day(people.surveyed_on)}."
        if people.surveyed_on is not None
        else "The sizes we were given."
    )
    yield b.bullets(
        (
            survey
            + " We measure again before anything is cut; what differs is priced on a signed line with its days.",
            "A sound wall that carries the roof. Beam, posts, bases and wall fixings need a structural check first.",
            "Permission and building control, where they are needed: ask before you sign. We help with drawings.",
        )
    )
    terms = design.firm.terms or ("Payment as on the first page.",)
    yield b.heading("Terms")
    yield b.bullets(
        (
            *terms,
            "A contract signed at home usually carries a right to cancel. Local law says for how long: ask.",
            f"Workmanship: {design.firm.workmanship_years} years from us. Material: by the suppliers' own papers.",
        )
    )
    yield b.heading("Yes, build it")
    yield b.fill_boxes(("option", "name", "signature", "date"))
