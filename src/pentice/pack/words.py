"""Sentences that several papers share, so that they read alike everywhere. Short, spoken, the part first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from pentice.catalogue.model import KINDS
from pentice.design import CutAndOrdered, Design
from pentice.marks import Given

NOBODY_ON_IT = (
    "Fragile.",
    "Nobody stands, sits or leans on a sheet, a bar or the gutter, whatever its class.",
)
NOTHING_LOOSE = ("Loose.", "No sheet is left without button, caps and edge trims when work stops.")
AID = "An aid for competent people. Local rules, the site's own and the suppliers' instructions come first."

_STATES = {
    "passes": ("holds", "hold"),
    "fails": ("fails", "fail"),
    "refused": ("not shown to hold",) * 2,
    "not checked": ("not checked",) * 2,
}
"""A verdict in words, of one thing and of several."""


SIGNS = {"GBP": "£", "EUR": "€", "USD": "$"}
"""By currency: the sign before an amount; others stand as their letters."""


def money(amount: Decimal, currency: str) -> str:
    """An amount with its sign, comma thousands and two decimals.

    Examples
    --------
    >>> money(Decimal("4410.76"), "GBP")
    '£4,410.76'
    """
    sign = SIGNS.get(currency, f"{currency} ")
    return f"{'−' if amount < 0 else ''}{sign}{abs(amount):,.2f}"


def listed(names: Sequence[str], most: int = 0) -> str:
    """Names in a row, the last behind "and"; with ``most``, the rest is counted.

    Examples
    --------
    >>> listed(("beam", "posts", "bases"))
    'beam, posts and bases'
    >>> listed(("beam", "posts", "bases"), most=1)
    'beam and 2 more'
    """
    shown = list(names[:most] if most else names)
    if len(names) > len(shown):
        shown.append(f"{len(names) - len(shown)} more")
    return " and ".join(x for x in (", ".join(shown[:-1]), shown[-1] if shown else "") if x)


def bays_named(numbers: Sequence[int]) -> str:
    """Bays by number, runs drawn together.

    Examples
    --------
    >>> bays_named((1, 2, 3, 5))
    'bays 1 to 3, 5'
    >>> bays_named((4,))
    'bay 4'
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said = [f"{r[0]} to {r[-1]}" if len(r) > 2 else ", ".join(str(n) for n in r) for r in runs]
    return f"bay{'s' if len(numbers) > 1 else ''} {', '.join(said)}"


def timber_not_named(design: Design) -> tuple[tuple[str, str], ...]:
    """Timber of a new frame that the job does not name, so that nobody draws, orders or prices it.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of (str, str)
        What it is, and the key that names it. Empty where the rafters stand: the frame is there.
    """
    job, frame = design.job, design.job.frame
    if frame.rafter_centres_mm is not None:
        return ()
    named = (
        ("wall plate", "frame.wall_plate_mm", job.roof.attached and frame.wall_plate_mm is None),
        ("eaves beam", "frame.beam_mm", frame.beam_mm is None),
        ("posts", "frame.post_mm with frame.posts_at_mm", frame.post_mm is None or not frame.posts_at_mm),
    )
    return tuple((name, key) for name, key, missing in named if missing)


def members_open(design: Design) -> tuple[str, ...]:
    """Members and requirements that no check has shown yet, by name, in the order of the checks."""
    return tuple(dict.fromkeys(c.name.partition(",")[0] for c in design.checks if c.verdict != "passes"))


def checked_word(design: Design) -> str:
    """What the checks of a design come to, in a few words for a customer.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        Worst first; never more than was shown.
    """
    if design.proved:
        return "Every check holds."
    worst = design.summary.verdict
    names = sorted({c.member for c in design.checks if c.verdict == worst})
    return f"{listed(names, most=2).capitalize()}: {_STATES[worst][len(names) > 1]}."


_INVENTED = ("demo", "no product")
"""Words by which a source says that its value is made up: the shipped firm and catalogue use them."""


def invented(design: CutAndOrdered) -> tuple[str, ...]:
    """What of a design is made up for the demo: rates, prices, products.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of str
        Empty where firm, prices of what is bought and values of the products in the roof are the user's own.
    """
    found = {
        "rates": any(map(_is_invented, design.firm.marks.values())),
        "prices": any(map(_is_invented, _price_marks(design))),
        "products": any(map(_is_invented, _product_marks(design))),
    }
    return tuple(word for word, there in found.items() if there)


def _is_invented(given: Given[Any]) -> bool:
    return any(word in given.source.lower() for word in _INVENTED)


def _price_marks(design: CutAndOrdered) -> Iterator[Given[Any]]:
    catalogue = design.catalogue
    for item in {line.item.partition(" ")[0] for line in design.order if line.packs}:
        kind, _, id = item.partition(".")
        if kind in KINDS and id in catalogue.table(kind):
            for key in KINDS[kind].price_keys:
                mark = catalogue.mark_of(f"{item}.{key}")
                if mark is not None:
                    yield mark


def _product_marks(design: CutAndOrdered) -> Iterator[Given[Any]]:
    """Marks of the values that sizes and checks rest on, prices apart."""
    catalogue = design.catalogue
    for product in {p.id: p for parts in design.parts_used for p in parts.products}.values():
        kind = next(name for name, model in KINDS.items() if isinstance(product, model))
        stem = f"{kind}.{product.id}."
        prices = tuple(stem + key for key in product.price_keys)
        yield from (
            g for path, g in catalogue.marks.items() if path.startswith(stem) and not path.startswith(prices)
        )
    for id in dict.fromkeys(parts.sheet.id for parts in design.parts_used):
        table = catalogue.mark_of(f"sheets.{id}.load_table")
        if table is not None:
            yield table


def demo_notice(design: Design) -> str:
    """The sentence that quote and price carry while rates, prices or products are the invented ones of the demo.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        Empty where nothing is invented.
    """
    words = invented(design)
    return f"{listed(words).capitalize()} here are invented. This is not an offer." if words else ""


def demo_order_notice(design: CutAndOrdered) -> str:
    """The sentence that an order carries while its prices or products are the invented ones of the demo.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        Empty where nothing of it is invented; the firm's rates do not count here.
    """
    words = [word for word in invented(design) if word != "rates"]
    said = f"{listed(words).capitalize()} here are invented."
    return f"{said} Put your supplier's in their place before you order." if words else ""


def asked(text: str, ask: str, *, answered: bool) -> str:
    """A caution with its question: whom to ask, or that it was answered.

    Examples
    --------
    >>> asked("Stop: a flue.", "a gas engineer", answered=False)
    'Stop: a flue. *Ask a gas engineer.*'
    """
    if answered:
        return f"{text} *Answered.*"
    return f"{text} *Ask {ask}.*" if ask else text
