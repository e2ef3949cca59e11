"""The table of checks, and the table of what goes into them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pentice.checks.values import Check, RestsOn
from pentice.design import Design
from pentice.pack.calculations.figures import (
    mark_words,
    pair_words,
    place_words,
    unit_words,
    used_words,
    value_words,
)
from pentice.pack.calculations.names import input_words, unit_of
from pentice.pack.paper import blocks as b

WORDS = {"passes": "holds", "fails": "*FAILS*", "refused": "*ask*", "not checked": "*ask*"}
NOTE = (
    "~Dashed~: rests on a typical value, page 1. Tall stroke: the limit, 1.00. *ask*: refused or not checked."
)
BAR_MM = 11.0
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
        widths=(5.5, "1fr", 15, 34, 12.5, 12.5, 15, 10.5, BAR_MM * 1.4 + 1.4, 11.5),
        align=("left", "left", "left", "left", "right", "right", "left", "right", "left", "left"),
        fails_rows=[i for i, check in enumerate(rules) if check.verdict == "fails"],
        h=2.5,
        row_mm=0.95,
        note=NOTE,
    )


def short_table(rules: Sequence[Check]) -> b.Block:
    """The first rules of the table alone, without their clauses, for page 1.

    Parameters
    ----------
    rules
        The rules that govern.

    Returns
    -------
    Block
        A table; failing rows stand between heavy rules.
    """
    return b.table(
        ("", "Check", "Where", "Needs", "Has", "", "Used", "", ""),
        [(*row[:3], *row[4:]) for row in (_row(i, check) for i, check in enumerate(rules, 1))],
        widths=(5.5, "1fr", 25, 14, 14, 15, 10.5, BAR_MM * 1.4 + 1.4, 11.5),
        align=("left", "left", "left", "right", "right", "left", "right", "left", "left"),
        fails_rows=[i for i, check in enumerate(rules) if check.verdict == "fails"],
        h=2.5,
        row_mm=0.95,
    )


def _row(place: int, check: Check) -> tuple[b.Cell, ...]:
    fails = check.verdict == "fails"
    name = f"~{check.name}~" if check.typical else check.name
    shown: b.Cell = b.sign_cell("fails", name, bold=True) if fails else name
    used = check.utilisation
    needs, has = pair_words(check.demand, check.capacity, fails=fails)
    rule = "refused" if check.verdict == "refused" and not check.clause else check.clause.split(";")[0]
    return (
        str(place),
        shown,
        place_words(check.place),
        rule,
        needs,
        has,
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
    two_rows = not design.job.roof.attached
    for check in design.checks:
        for given in check.rests_on:
            found.setdefault(given.input, given)
    rows = [
        _input_row(path, given, _source(design, path), two_rows=two_rows)
        for path, given in sorted(found.items(), key=lambda pair: input_words(pair[0], two_rows=two_rows))
    ]
    yield b.table(
        ("What, and its key in the file", "Value", "Mark", "Source"),
        rows,
        widths=(76, 27, 25, "1fr"),
        h=2.5,
        row_mm=0.95,
    )
    yield b.heading("Chosen, because nobody gave it")
    chosen = [
        (named_input(path), measured_words(path, given.value), given.note)
        for path, given in sorted(design.choices.items())
    ]
    if chosen:
        yield b.table(
            ("What, and its key in the file", "Value", "Why"),
            chosen,
            widths=(76, 27, "1fr"),
            h=2.5,
            row_mm=0.95,
        )
    else:
        yield b.paragraph("Nothing: every choice was given.", h_mm=2.5)


def _input_row(path: str, given: RestsOn, source: str, *, two_rows: bool) -> tuple[b.Cell, ...]:
    """A value with its mark; where the value is nothing but its source, that stands once."""
    value = measured_words(path, given.value)
    return named_input(path, two_rows=two_rows), "" if value == source else value, mark_words(given), source


def named_input(path: str, *, two_rows: bool = False) -> b.Cell:
    """An input in words, and under it small the key by which it is edited."""
    words = input_words(path, two_rows=two_rows)
    return {"text": words, "small": path} if "." in path else words


def measured_words(path: str, value: object) -> str:
    """A value with the unit of its key."""
    unit, words = unit_words(unit_of(path)), value_words(value)
    if isinstance(value, bool) or not isinstance(value, float | int | tuple | list):
        return words
    return f"{words}{'' if unit in ('', '°') else ' '}{unit}"


def _source(design: Design, path: str) -> str:
    given = design.catalogue.mark_of(path) or design.job.marks.get(path)
    own = design.job.site.side_wind
    of_table = own.source if own is not None and path.startswith("site.side_wind.") else ""
    return (given.source or given.note or given.by or of_table) if given is not None else of_table
