"""Page 1: the verdict in one sentence, what nobody answered, what does not agree, what to replace before building."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pentice.checks.values import Check, RestsOn
from pentice.design import Design
from pentice.job.flags import red_flags
from pentice.job.found import cautions
from pentice.pack.calculations.figures import is_loose, mark_words
from pentice.pack.calculations.verdicts import measured_words, named_input, short_table
from pentice.pack.paper import blocks as b
from pentice.pack.words import AID, listed

GOVERN_MOST = 3
"""So many rules stand on page 1, the ones that govern."""
NAMED_MOST = 4
"""So many rules are named in the verdict; the table has them all."""


def counts_sentence(design: Design) -> str:
    """How many requirements hold, fail, are refused, were not checked.

    Parameters
    ----------
    design
        A solved job.

    Returns
    -------
    str
        One sentence.
    """
    counts = design.summary.counts
    name = f"{design.job.name}. " if design.job.name else ""
    return (
        f"{name}{counts['passes']} requirements hold, {counts['fails']} fail, {counts['refused']} are refused, "
        f"{counts['not_checked']} were not checked."
    )


def front(design: Design, rules: Sequence[Check]) -> Iterator[b.Block]:
    """The blocks of the first page.

    Parameters
    ----------
    design
        A solved job.
    rules
        The worst check of each rule, in the order of the verdict table.

    Yields
    ------
    Block
        Verdict, warnings, and the values to replace.
    """
    yield _verdict(design, rules)
    govern = [check for check in rules if check.demand is not None and check.capacity is not None][
        :GOVERN_MOST
    ]
    if govern:
        yield b.heading("What governs")
        yield short_table(govern)
    yield from _warnings(design)
    yield from _replace(design, rules)
    yield b.paragraph(
        f"{AID} It defers to local codes, building control and licensed designers. "
        f"Made by {design.engine}; {design.loads.edition}.",
        h_mm=2.5,
    )


def _verdict(design: Design, rules: Sequence[Check]) -> b.Block:
    named = {
        v: [_lower(c.name) for c in rules if c.verdict == v] for v in ("fails", "refused", "not checked")
    }
    if named["fails"]:
        said = f"Do not build this. These fail: {listed(named['fails'], most=NAMED_MOST)}."
        return b.verdict("FAILS.", said, beside=_open_words(named), fails=True)
    if named["refused"]:
        said = f"Not shown to hold: {listed(named['refused'], most=NAMED_MOST)}."
        return b.verdict("Not proved.", said, beside=_open_words(named))
    if named["not checked"]:
        said = "What was checked holds." if rules else "Nothing was checked."
        return b.verdict("Not proved.", said, beside=_open_words(named))
    typical = sum(check.typical for check in design.checks)
    beside = (
        f"*Typical:* {typical} checks rest on values of no product. Replace them first." if typical else ""
    )
    return b.verdict("Holds.", "Every requirement was checked and holds.", beside=beside)


def _open_words(named: dict[str, list[str]]) -> str:
    """What else is open, beside the verdict."""
    said = []
    if named["fails"] and named["refused"]:
        said.append(f"*Refused:* {listed(named['refused'])}.")
    if named["not checked"]:
        said.append(f"*Not checked here, ask a structural engineer:* {listed(named['not checked'])}.")
    return " ".join(said)


def _lower(name: str) -> str:
    return name[:1].lower() + name[1:]


def _warnings(design: Design) -> Iterator[b.Block]:
    open_ones = [c for c in cautions(design.job) if c.is_open]
    if open_ones:
        yield b.heading("Asked, and not answered")
        yield b.bullets([f"{c.text} *Ask* {c.ask}." for c in open_ones], h_mm=2.5)
    flags = red_flags(design.job)
    if flags:
        yield b.heading("Survey: look again")
        yield b.bullets([str(flag) for flag in flags], h_mm=2.5)
    if design.loads.notes:
        yield b.heading("About the loads")
        yield b.bullets(list(design.loads.notes), h_mm=2.5)


def _replace(design: Design, rules: Sequence[Check]) -> Iterator[b.Block]:
    rows = list(_to_replace(design, rules))
    yield b.heading("Replace before you build")
    if not rows:
        yield b.paragraph("Nothing rests on a typical value or on one from memory.", h_mm=2.5)
        return
    yield b.table(
        ("Value", "Stands at", "Mark", "For checks"),
        rows,
        widths=(76, 52, 25, "1fr"),
        h=2.5,
        row_mm=0.65,
        note="No product stands behind these yet. Put in what the supplier declares. Numbers: the table of checks.",
    )


def _to_replace(design: Design, rules: Sequence[Check]) -> Iterator[tuple[b.Cell, ...]]:
    """Inputs that are typical or recalled, each once, with the numbers of the checks that rest on it."""
    place = {check.id: i for i, check in enumerate(rules, 1)}
    found: dict[str, tuple[RestsOn, set[int]]] = {}
    for check in design.checks:
        for given in check.rests_on:
            if is_loose(given):
                found.setdefault(given.input, (given, set()))[1].add(place[check.id])
    for path, (given, numbers) in found.items():
        shown = measured_words(path, given.value)
        yield named_input(path), shown, mark_words(given), ", ".join(str(n) for n in sorted(numbers))
