"""The table of checks, and the table of what goes into them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pentice.checks.values import Check, RestsOn
from pentice.design import Design
from pentice.pack.calculations.figures import (
    mark_words,
    number,
    place_words,
    unit_words,
    used_words,
    value_words,
)
from pentice.pack.paper import blocks as b

WORDS = {"passes": "holds", "fails": "*FAILS*", "refused": "*ask*", "not checked": "*ask*"}
BAR_MM = 13.0
"""Length of a bar at its limit."""


def table_sentence(design: Design) -> str:
    """What the table of checks shows.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        One sentence.
    """
    typical = len({c.id for c in design.checks if c.typical})
    return f"The worst of each rule, most used first. {typical} rules rest on a typical value."


def verdict_table(rules: Sequence[Check]) -> b.Block:
    """Each rule once, at its worst place.

    Parameters
    ----------
    rules
        The worst check of each rule: failing, refused, by use, then not checked.

    Returns
    -------
    Block
        A table; failing rows stand between heavy rules.
    """
    return b.table(
        ("", "Check", "Where", "Rule", "Needs", "Has", "", "Used", "", ""),
        [_row(i, check) for i, check in enumerate(rules, 1)],
        widths=(5.5, "1fr", 16, 33, 13, 13, 15, 11, BAR_MM * 1.4 + 1.4, 12),
        align=("left", "left", "left", "left", "right", "right", "left", "right", "left", "left"),
        fails_rows=[i for i, check in enumerate(rules) if check.verdict == "fails"],
        h=2.5,
        row_mm=0.85,
        note="~Dashed~: rests on a typical value, page 1. Tall stroke: the limit, 1.00. *ask*: refused or not checked.",
    )


def _row(place: int, check: Check) -> tuple[b.Cell, ...]:
    fails = check.verdict == "fails"
    name = f"~{check.name}~" if check.typical else check.name
    shown: b.Cell = b.sign_cell("fails", name, bold=True) if fails else name
    used = check.utilisation
    rule = "refused" if check.verdict == "refused" and not check.clause else check.clause.split(";")[0]
    return (
        str(place),
        shown,
        place_words(check.place),
        rule,
        number(check.demand),
        number(check.capacity),
        unit_words(check.unit) if check.demand is not None else "",
        used_words(used, fails=fails),
        b.bar_cell(used, full_mm=BAR_MM) if used is not None else "",
        WORDS[check.verdict],
    )


def inputs(design: Design) -> Iterator[b.Block]:
    """Every value that a check rests on, with its mark, and what was chosen because nobody gave it.

    Parameters
    ----------
    design
        A solved job.

    Yields
    ------
    Block
        Two tables.
    """
    found: dict[str, RestsOn] = {}
    for check in design.checks:
        for given in check.rests_on:
            found.setdefault(given.input, given)
    rows = [
        (path, value_words(given.value), mark_words(given), _source(design, path))
        for path, given in sorted(found.items())
    ]
    yield b.table(("Key", "Value", "Mark", "Source"), rows, widths=(62, 36, 26, "1fr"), h=2.5, row_mm=1.1)
    yield b.heading("Chosen, because nobody gave it")
    chosen = [(path, value_words(given.value), given.note) for path, given in sorted(design.choices.items())]
    if chosen:
        yield b.table(("Key", "Value", "Why"), chosen, widths=(62, 36, "1fr"), h=2.5, row_mm=1.1)
    else:
        yield b.paragraph("Nothing: every choice was given.", h_mm=2.5)


def _source(design: Design, path: str) -> str:
    given = design.catalogue.mark_of(path) or design.job.marks.get(path)
    return (given.source or given.note or given.by) if given is not None else ""
