"""The back of the quote: what a customer should know before paying, what is left out, terms, the signature."""

from __future__ import annotations

from collections.abc import Iterator

from pentice.design import Design
from pentice.job.called import along
from pentice.pack.paper import blocks as b
from pentice.pack.paper import day
from pentice.pack.words import listed, members_open, money, timber_not_named

WALL_LINE_MM = 15.0
"""How far a wall may lie off a straight line before the price changes: judgement, no source."""


def back(design: Design, pay: str) -> Iterator[b.Block]:
    """The back of a quote: honest notes before payment, what is left out, what it rests on, terms, the signature.

    Parameters
    ----------
    design
        A solved job.
    pay
        The head over the payments.

    Yields
    ------
    Block
        One page of them.
    """
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
        f"{survey}: {shape.width_mm:.0f} {along(job)}, {shape.projection_mm:.0f} out, {shape.pitch_deg:.1f}° pitch "
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


def _payment(design: Design) -> b.Block:
    price = design.price
    stages = [(name.capitalize(), money(amount, price.currency)) for name, amount in price.stages]
    rows = [
        *stages,
        ("Total with tax", money(price.gross, price.currency)),
        (f"Tax in it, {float(price.tax_rate) * 100:g} %", money(price.tax, price.currency)),
    ]
    return b.table((), rows, align=("left", "right"), strong_rows=(len(stages),), h=2.8, row_mm=1.4)


def _not_included(design: Design) -> tuple[str, ...]:
    unnamed = [name for name, _ in timber_not_named(design)]
    own = design.firm.exclusions or ("Rotten wood, hidden drains, permissions, painting.",)
    return (f"*{listed(unnamed).capitalize()}*: not drawn yet.", *own) if unnamed else tuple(own)
