"""Every rule in full at its worst place: what goes in, the working, the verdict with its cure, and the other places."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pentice.checks.values import Check, Place
from pentice.design import Design
from pentice.pack.calculations.figures import (
    mark_words,
    minus,
    pair_words,
    percent_words,
    place_words,
    places_words,
    unit_words,
    used_words,
    with_unit,
)
from pentice.pack.calculations.load_picture import WIDE_MM, load_svg, load_words
from pentice.pack.calculations.names import input_words
from pentice.pack.calculations.verdicts import WORDS, measured_words
from pentice.pack.paper import blocks as b
from pentice.working import Step

PLACES_MOST = 16
"""So many rows of other places, the worst first; a line says how many more there are."""
TOGETHER_MOST = 20
"""A check with no more rows than this stays on one page."""

_VERDICTS = {
    "passes": "Holds.",
    "fails": "FAILS.",
    "refused": "Refused: ask.",
    "not checked": "Not checked: ask.",
}


def working_blocks(design: Design, rules: Sequence[Check]) -> Iterator[b.Block]:
    """The working of every rule that was checked or refused, then who to ask about the rest.

    Parameters
    ----------
    design
        A solved job.
    rules
        The worst check of each rule, in the order of the verdict table.

    Yields
    ------
    Block
        One part for each rule, with the number it has in the table.
    """
    for i, check in enumerate(rules, 1):
        if check.verdict != "not checked":
            yield from _one(design, i, check)
    rest = [(i, check) for i, check in enumerate(rules, 1) if check.verdict == "not checked"]
    if rest:
        yield b.section_head("Not checked here", result="Nothing on these pages shows that these hold.")
        rows = [(str(i), f"*{check.name}*", check.says or check.cure) for i, check in rest]
        yield b.table(("", "Member", "Why, and whom to ask"), rows, widths=(8, 50, "1fr"), h=2.5, row_mm=1.2)


def _one(design: Design, place: int, check: Check) -> Iterator[b.Block]:
    where = place_words(check.place) or "the whole roof"
    result = minus(f"{where[:1].upper()}{where[1:]}. {_sentence(check.case)}".strip())
    upper: list[b.Block] = [b.section_head(check.name, number=str(place), result=result, ruled=place > 1)]
    goes_in = _goes_in(check, two_rows=not design.job.roof.attached)
    if check.picture is not None:
        drawn = b.picture(
            picture_of(place), load_words(check.picture), width_mm=WIDE_MM, caption=f"{check.picture.says}."
        )
        upper.append(
            b.columns([[drawn], [goes_in] if check.rests_on else []], widths=(WIDE_MM, "1fr"), gap_mm=6.0)
        )
    elif check.rests_on:
        upper.append(goes_in)
    lower: list[b.Block] = [steps_table(check.working)] if check.working else []
    lower.append(_verdict(check))
    if len(check.rests_on) + 2 * len(check.working) <= TOGETHER_MOST:
        yield b.keep([*upper, *lower])
    else:
        yield from (*upper, *lower)
    others = [c for c in design.checks if c.id == check.id and c is not check]
    if others:
        yield _others(others)


def load_pictures(rules: Sequence[Check]) -> dict[str, str]:
    """The picture of the load of every rule that has one.

    Parameters
    ----------
    rules
        The worst check of each rule, in the order of the verdict table.

    Returns
    -------
    dict
        SVG by file name.
    """
    return {
        picture_of(i): load_svg(check.picture)
        for i, check in enumerate(rules, 1)
        if check.picture is not None
    }


def picture_of(place: int) -> str:
    """File name of the picture of a rule by its number."""
    return f"load-{place}.svg"


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}." if text else ""


def _goes_in(check: Check, *, two_rows: bool) -> b.Block:
    return b.table(
        ("What goes in", "Value", "Mark"),
        [
            (
                input_words(given.input, two_rows=two_rows),
                measured_words(given.input, given.value),
                mark_words(given),
            )
            for given in check.rests_on
        ],
        widths=("1fr", 28, 20) if check.picture is not None else ("1fr", 62, 26),
        h=2.5,
        row_mm=0.95,
    )


def steps_table(steps: Sequence[Step]) -> b.Block:
    """A working table from the steps of a calculation.

    Parameters
    ----------
    steps
        As the arithmetic left them.

    Returns
    -------
    Block
        A working table.
    """
    return b.working(
        [
            b.working_row(
                step.says,
                minus(step.formula),
                minus(_numbers(step)),
                _result(step),
                step.clause,
            )
            for step in steps
        ],
        says_mm=34.0,
        rule_mm=50.0,
    )


def _numbers(step: Step) -> str:
    """The numbers behind an equals sign; what is given or read stands behind a comma."""
    if not step.numbers:
        return ""
    bare = step.numbers.startswith(("given", "read", "integrated"))
    return f", {step.numbers}" if bare else f" = {step.numbers}"


def _result(step: Step) -> str:
    if isinstance(step.result, float | int):
        return with_unit(step.result, step.unit)
    return minus(f"{step.result} {step.unit}".strip())


def _verdict(check: Check) -> b.Block:
    numbers, fails = "", check.verdict == "fails"
    if check.demand is not None and check.capacity is not None:
        needs, has = pair_words(check.demand, check.capacity, fails=fails)
        space = "" if check.unit in ("", "deg") else " "
        numbers = f"Needs {needs}, has {has}{space}{unit_words(check.unit)}."
        if check.unit == "of 1":
            numbers = f"Needs {needs} of {has}."
    used = check.utilisation
    share = (
        f" {percent_words(used, fails=fails)} is used."
        if used is not None
        else " Nothing is left."
        if fails
        else ""
    )
    beside = " ".join(
        dict.fromkeys(x for x in (check.says, check.cure if check.verdict != "passes" else "") if x)
    )
    return b.verdict(_VERDICTS[check.verdict], f"{numbers}{share}".strip(), beside=minus(beside), fails=fails)


def _others(others: Sequence[Check]) -> b.Block:
    groups: dict[tuple[str, str, str, str], list[Place]] = {}
    for check in sorted(others, key=_used, reverse=True):
        fails = check.verdict == "fails"
        used = used_words(check.utilisation, fails=fails)
        key = (*pair_words(check.demand, check.capacity, fails=fails), used, WORDS[check.verdict])
        groups.setdefault(key, []).append(check.place)
    shown = list(groups.items())[:PLACES_MOST]
    left = sum(len(places) for places in list(groups.values())[PLACES_MOST:])
    return b.table(
        ("Elsewhere", "Needs", "Has", "Used", ""),
        [(places_words(places), *key) for key, places in shown],
        widths=("1fr", 24, 24, 18, 18),
        align=("left", "right", "right", "right", "left"),
        h=2.5,
        row_mm=0.95,
        note=f"{left} more places are used no more than the last of these; design.json has each."
        if left
        else "",
    )


def _used(check: Check) -> tuple[bool, float]:
    """Failing first; where nothing is left, before all others."""
    used = check.utilisation
    if used is None:
        used = float("inf") if check.demand is not None else 0.0
    return check.verdict == "fails", used
