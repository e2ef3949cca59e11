"""One requirement: what is asked, what is there, how we know, and what it rests on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

from pentice.records import quickly_made
from pentice.working import Step

Verdict = Literal["passes", "fails", "refused", "not checked"]
WORST_FIRST: tuple[Verdict, ...] = ("fails", "refused", "not checked", "passes")


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a check looks: a bay, a rafter, a sheet at a side, or the whole plane."""

    plane: str = "P1"
    bay: int | None = None
    rafter: int | None = None
    bar: int | None = None
    """A bar that carries by itself, in a rafter's place."""
    post: int | None = None
    side_sheet: int | None = None
    at: Literal["head", "middle", "foot", ""] = ""


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class RestsOn:
    """One input of a check with its mark."""

    input: str
    """Key path, of the job or of the catalogue."""
    value: Any
    mark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadPicture:
    """The load of a check as a figure: along what it acts, where that is held, how large it is."""

    says: str
    """What is drawn: "the rafter, load square to the slope"."""
    line: tuple[tuple[float, float], ...]
    """Breakpoints of the load, straight between them, two at a step [mm, kN/m or kN/m2], down positive."""
    unit: str
    held_mm: tuple[float, ...]
    """Places that hold it [mm]."""
    ends: tuple[str, str]
    """What stands at the left and at the right end."""
    force: tuple[float, float, str] | None = None
    """One single force: place [mm], size, down positive, and its unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What a check shows beside its verdict: a sentence, inputs with their marks, arithmetic, load, the way out."""

    says: str = ""
    """One sentence: why it is refused, not checked or "estimated"; what is missing and whom to ask."""
    rests_on: tuple[RestsOn, ...] = ()
    working: tuple[Step, ...] = ()
    picture: LoadPicture | None = None
    cure: str = ""
    """The way out in words, where the check itself knows it."""


class Told:
    """What a check shows, written out when it is first read: most checks are asked for their verdict alone."""

    __slots__ = ("_shown", "_write")

    def __init__(self, write: Shown | Callable[[], Shown]) -> None:
        self._shown = write if isinstance(write, Shown) else None
        self._write = write

    @property
    def shown(self) -> Shown:
        """All of it."""
        if self._shown is None:
            assert not isinstance(self._write, Shown)
            self._shown = self._write = self._write()
        return self._shown

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Told) and self.shown == other.shown

    def __hash__(self) -> int:
        return hash(self.shown)

    def __repr__(self) -> str:
        return repr(self.shown)

    def __reduce__(self) -> tuple[type[Told], tuple[Shown]]:
        return Told, (self.shown,)


_NOTHING_TOLD = Told(Shown())


@quickly_made
@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One requirement with its verdict. capacity <= 0 is a failed check, never an error."""

    id: str
    """The rule, the same for each place: "rafter-bending"."""
    name: str
    member: str
    place: Place
    clause: str
    edition: str = ""
    case: str = ""
    demand: float | None = None
    capacity: float | None = None
    unit: str = ""
    verdict: Verdict
    told: Told = _NOTHING_TOLD

    @property
    def says(self) -> str:
        """As `Shown.says`."""
        return self.told.shown.says

    @property
    def rests_on(self) -> tuple[RestsOn, ...]:
        """As `Shown.rests_on`."""
        return self.told.shown.rests_on

    @property
    def working(self) -> tuple[Step, ...]:
        """As `Shown.working`."""
        return self.told.shown.working

    @property
    def picture(self) -> LoadPicture | None:
        """As `Shown.picture`."""
        return self.told.shown.picture

    @property
    def cure(self) -> str:
        """As `Shown.cure`."""
        return self.told.shown.cure

    @property
    def typical(self) -> bool:
        """True where it rests on a typical value or one recalled from memory."""
        return any(r.mark in ("typical", "from memory") for r in self.rests_on)

    @property
    def utilisation(self) -> float | None:
        """demand / capacity [-]; None where nothing is left or nothing was compared."""
        if self.demand is None or self.capacity is None or self.capacity <= 0.0:
            return None
        return self.demand / self.capacity


def verdict_of(demand: float, capacity: float) -> Verdict:
    """passes where something is there and it is enough; never on rounded values.

    Parameters
    ----------
    demand, capacity
        What is needed and what is there, in one unit.

    Returns
    -------
    Verdict
        "passes" or "fails".

    Source
    ------
    Definition: capacity > 0 and demand <= capacity.

    Examples
    --------
    >>> verdict_of(9.9, 10.0), verdict_of(1.0, 0.0)
    ('passes', 'fails')
    """
    return "passes" if capacity > 0.0 and demand <= capacity else "fails"
