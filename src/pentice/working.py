"""One line of working, made where the arithmetic is done and only shown by papers and pages."""

from __future__ import annotations

from dataclasses import dataclass

from pentice.records import quickly_made


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of a hand calculation: what it gives, formula, numbers put in, result, unit, rule.

    The numbers are arithmetic that gives the result (x multiplies, ^ raises, |a| is a size; min, max, sqrt, ln and cos
    of degrees), with four figures or more, and behind a semicolon what else is to be said. Where no arithmetic leads to
    the result they begin with "given", "read" or "integrated".

    Examples
    --------
    >>> Step(says="Bays", formula="n = ceil((B - r) / c_max)", numbers="ceil((4875 - 70) / 1000)", result=5.0).result
    5.0
    """

    says: str
    formula: str = ""
    numbers: str = ""
    result: float | str = ""
    unit: str = ""
    clause: str = "common practice, no source"
