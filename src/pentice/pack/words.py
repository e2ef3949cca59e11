"""Sentences that several papers share, so that they read alike everywhere. Short, spoken, the part first."""

from __future__ import annotations

from collections.abc import Sequence

from pentice.design import Design

NOBODY_ON_IT = (
    "Fragile.",
    "Nobody stands, sits or leans on a sheet, a bar or the gutter, whatever its class.",
)
NOTHING_LOOSE = ("Loose.", "No sheet is left without button, caps and edge trims when work stops.")
AID = "An aid for competent people. Local rules, the site's own and the suppliers' instructions come first."

_STATES = {"passes": "holds", "fails": "fails", "refused": "not shown to hold", "not checked": "not checked"}


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
    return f"{listed(names, most=2).capitalize()}: {_STATES[worst]}."


def demo_notice(design: Design) -> str:
    """The sentence that a quote carries while rates or prices are the invented ones that come with the program."""
    invented = any("demo" in given.source.lower() for given in design.firm.marks.values())
    return "Rates and prices here are invented. This is not an offer." if invented else ""


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
