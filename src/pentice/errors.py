"""The few kinds of error that Pentice raises.

    PenticeError
      InputError (also ValueError)   the value given cannot be used        exit 2
      OutsideScope                   no clause or table covers the case    exit 3, or one check refused
      NoSolution                     for example a piece longer than any stock   exit 3
      StoreError                     the job file or a folder              exit 4
      JobsFault                      any of these, of several jobs         exit as the worst

A failed check is never an error: it is a result, and the pack must be able to show it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong with what was given: where, what stands there, what was expected, what to do."""

    place: str
    says: str
    file: str = ""

    def __str__(self) -> str:
        return f"{self.file}: {self.says}" if self.file else self.says


class PenticeError(Exception):
    """Anything that Pentice raises on purpose."""

    exit_code = 3


class InputError(PenticeError, ValueError):
    """A value that was given cannot be used. Holds every problem found, not just the first.

    Examples
    --------
    >>> str(InputError.of("roof.pitch_deg", 97, "expected 0 to 60", "Measure from the horizontal."))
    'roof.pitch_deg is 97; expected 0 to 60. Measure from the horizontal.'
    """

    exit_code = 2

    def __init__(self, problems: Sequence[Problem] | str) -> None:
        self.problems: tuple[Problem, ...] = (
            (Problem("", problems),) if isinstance(problems, str) else tuple(problems)
        )
        super().__init__("\n".join(str(p) for p in self.problems))

    @classmethod
    def of(cls, place: str, value: object, expected: str, do: str = "") -> InputError:
        """An InputError about one place: its value, what was expected, and what to do."""
        says = f"{place} is {value}; {expected}." + (f" {do}" if do else "")
        return cls((Problem(place, says),))


class OutsideScope(PenticeError):
    """No clause or table covers the case. One check is refused for it, or the job when sizes depend on it."""


class NoSolution(PenticeError):
    """No design can be made, for example no stock is long enough for a piece."""


class StoreError(PenticeError):
    """A file or folder cannot be read or written."""

    exit_code = 4


class JobsFault(PenticeError):
    """Something is wrong with one job or more of several: every sentence, and the worst exit code.

    Examples
    --------
    >>> JobsFault("a.toml: no wall.", exit_code=2).exit_code
    2
    """

    def __init__(self, says: str, *, exit_code: int) -> None:
        self.exit_code = exit_code
        super().__init__(says)


def require_within(
    place: str, value: float, least: float, most: float, *, unit: str = "", source: str = "", do: str = ""
) -> None:
    """Raise OutsideScope unless least <= value <= most (a value that is not a number is outside).

    Parameters
    ----------
    place
        Name of the value, as the reader knows it.
    value, least, most
        The value and its range, in the unit named.
    unit, source, do
        What stands behind the number, the clause that sets the range, and the way out.

    Raises
    ------
    OutsideScope
        The value is outside the range.

    Examples
    --------
    >>> require_within("pitch_deg", 12.0, 0.0, 30.0)
    >>> require_within("pitch_deg", 40.0, 0.0, 30.0, unit="deg", source="EN 1991-1-4, Table 7.6")
    Traceback (most recent call last):
    pentice.errors.OutsideScope: pitch_deg is 40 deg; expected 0 to 30 deg (EN 1991-1-4, Table 7.6).
    """
    if not least <= value <= most:
        tail = f" {unit}" if unit else ""
        clause = f" ({source})" if source else ""
        says = f"{place} is {value:g}{tail}; expected {least:g} to {most:g}{tail}{clause}."
        raise OutsideScope(says + (f" {do}" if do else ""))
