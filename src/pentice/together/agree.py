"""What jobs must agree on before they are cut and ordered together: references, products, and who buys."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from pentice.design import Design
from pentice.errors import InputError, Problem

RESERVED = frozenset(
    {"cutting.pdf", "cuts.csv", "order.pdf", "order.csv", "order.xlsx", "shared.json", "drawings"}
)
"""Names of what jobs share, beside the folders of the jobs."""
_FOLDER = re.compile(r'[^\s.\\/:*?"<>|][^\\/:*?"<>|\x00-\x1f]*(?<![\s.])')
_BUYER = ("name", "address", "discount", "delivery", "minimum_order", "waste_share")
"""What one order has one of."""
_RULES = ("aim", "keep_mm", "keep_length_mm", "keep_share", "saw_bench", "search_effort")
"""What one shop cuts by."""


def require_references(named: Sequence[tuple[str, str]]) -> None:
    """Raise unless each job has a reference of its own that is fit for a folder and a label.

    Parameters
    ----------
    named
        Name of the job's file, and its reference.

    Raises
    ------
    InputError
        One sentence for each fault.
    """
    problems: list[Problem] = []
    files: dict[str, list[str]] = {}
    for file, reference in named:
        if not reference:
            problems.append(
                _problem(f"{file} has no reference; jobs packed together need one each: {_WRITE}.")
            )
        elif not _FOLDER.fullmatch(reference) or reference.casefold() in RESERVED:
            fit = "use letters, figures and hyphens"
            problems.append(
                _problem(f'{file}: reference is "{reference}"; it names the job\'s folder: {fit}.')
            )
        else:
            files.setdefault(reference.casefold(), []).append(file)
    for same in files.values():
        if len(same) > 1:
            reference = next(r for f, r in named if f == same[0])
            twice = (
                f"{same[0]} is given twice"
                if len(set(same)) == 1
                else f"{' and '.join(same)} have one reference"
            )
            problems.append(_problem(f'{twice}, "{reference}"; each job needs its own.'))
    if problems:
        raise InputError(problems)


_WRITE = 'write reference = "…" at its top'


def _problem(says: str) -> Problem:
    return Problem(f"reference {says}", says)


def require_one_buyer(designs: Sequence[Design]) -> None:
    """Raise unless all jobs are bought for by one firm, in one currency, from one price list, and cut by one rule.

    Parameters
    ----------
    designs
        Solved jobs, each with a reference of its own.

    Raises
    ------
    InputError
        Every difference: the firm, the currency, each product that two jobs use under one id with other values, the
        aim of the cutting and what is kept.
    """
    problems = [*_two_firms(designs), *_two_products(designs), *_two_rules(designs)]
    if problems:
        raise InputError(problems)


_APART = "or pack the jobs one by one"


def _two_firms(designs: Sequence[Design]) -> Iterator[Problem]:
    first = designs[0]
    for other in designs[1:]:
        pair = f"{first.job.reference} and {other.job.reference}"
        differ = [key for key in _BUYER if getattr(first.firm, key) != getattr(other.firm, key)]
        if differ:
            ours, theirs = getattr(first.firm, differ[0]), getattr(other.firm, differ[0])
            yield Problem(
                f"firm {other.job.reference}",
                f"{pair} are bought for by two firms: {differ[0]} is {_shown(ours)} and {_shown(theirs)}. One order "
                f"has one buyer: name the same firm file in both, {_APART}.",
            )
        if first.price.currency != other.price.currency:
            yield Problem(
                f"currency {other.job.reference}",
                f"{pair} are priced in {first.price.currency} and {other.price.currency}. One order has one currency: "
                f"write the same price.currency in both, {_APART}.",
            )


def _two_rules(designs: Sequence[Design]) -> Iterator[Problem]:
    first = designs[0]
    for other in designs[1:]:
        for key in _RULES:
            ours, theirs = getattr(first.job.stock, key), getattr(other.job.stock, key)
            if ours != theirs:
                yield Problem(
                    f"stock.{key} {other.job.reference}",
                    f"{first.job.reference} and {other.job.reference} are cut by two rules: stock.{key} is "
                    f"{_shown(ours)} and {_shown(theirs)}. One shop cuts them: write the same in both, {_APART}.",
                )


def _two_products(designs: Sequence[Design]) -> Iterator[Problem]:
    held: dict[str, Design] = {}
    for design in designs:
        for item in used_products(design):
            kind, _, id = item.partition(".")
            first = held.setdefault(item, design)
            ours, theirs = first.catalogue.table(kind)[id], design.catalogue.table(kind)[id]
            differ = [key for key in type(ours).model_fields if getattr(ours, key) != getattr(theirs, key)]
            if differ:
                key, more = differ[0], f" and {len(differ) - 1} more" if len(differ) > 1 else ""
                yield Problem(
                    f"{item} {design.job.reference}",
                    f"{item} is not the same in {first.job.reference} and {design.job.reference}: {key} is "
                    f"{_shown(getattr(ours, key))} and {_shown(getattr(theirs, key))}{more}. Name the same catalogues "
                    f"in both, give one product another id, {_APART}.",
                )


def used_products(design: Design) -> tuple[str, ...]:
    """Products that pieces and order of a job use, by kind and id.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    tuple of str
        "sheets.sheet-16-triple", each once.
    """
    named = (*(piece.item for piece in design.pieces), *(line.item for line in design.order))
    found = dict.fromkeys(item.partition(" ")[0] for item in named if "." in item)
    return tuple(item for item in found if item.partition(".")[2] in _table(design, item.partition(".")[0]))


def _table(design: Design, kind: str) -> frozenset[str]:
    known = kind in type(design.catalogue).model_fields and kind != "marks"
    return frozenset(design.catalogue.table(kind)) if known else frozenset()


def _shown(value: object) -> str:
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 60 else text[:57] + "…"
