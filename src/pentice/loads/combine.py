"""Which loads stand together, with which factors and for how long: every combination a check has to run."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, cast

from pentice.standards.annex import Annex, snow_duration, snow_psi
from pentice.standards.en1995 import Duration, shortest_duration

Kind = Literal["strength", "uplift", "accidental", "characteristic"]
Sense = Literal["down", "up", ""]

_6_10 = "EN 1990, 6.10"
_EQU = "EN 1990, Table A1.2(A)"
_6_11 = "EN 1990, 6.11b"
_6_14 = "EN 1990, 6.14b"


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """Factors on each kind of load; 0 where it is not there."""

    name: str
    clause: str
    kind: Kind
    dead: float
    snow: float = 0.0
    wind: float = 0.0
    imposed: float = 0.0
    wind_sense: Sense = ""
    snow_accidental: bool = False
    wind_accidental: bool = False
    duration: Duration = "permanent"


def combinations_of(
    annex: Annex, altitude_m: float, *, wind_instantaneous: bool = False
) -> tuple[Combination, ...]:
    """Every combination of the annex: strength, uplift, accidental and characteristic.

    Parameters
    ----------
    annex
        National choices.
    altitude_m
        Height of the site [m]: sets psi and the duration of snow.
    wind_instantaneous
        Wind counts as instantaneous in timber; the user says so.

    Returns
    -------
    tuple of Combination
        In the order of the papers. Imposed load never stands with snow or wind.

    Source
    ------
    EN 1990:2002+A1:2005, 6.4.3 and 6.5.3 with Annex A1; EN 1991-1-1:2002, 3.3.2(1).

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> [c.name for c in combinations_of(load_annex("EN"), 100.0)][:2]
    ['1.35 G', '1.35 G + 1.5 S']
    """
    snow = cast(Duration, snow_duration(annex, altitude_m))
    wind: Duration = "instantaneous" if wind_instantaneous else cast(Duration, annex.duration_wind)
    return (
        *_strength(annex, altitude_m, snow, wind),
        *_uplift(annex, wind),
        *_accidental(annex, altitude_m, snow, wind),
        *_characteristic(annex, altitude_m),
    )


def _strength(annex: Annex, altitude_m: float, snow: Duration, wind: Duration) -> Iterator[Combination]:
    g, q = annex.factors.permanent_up, annex.factors.variable
    psi_s, psi_w = snow_psi(annex, altitude_m).psi_0, annex.psi_wind.psi_0
    imposed = cast(Duration, annex.duration_imposed)
    both = shortest_duration((snow, wind))
    yield Combination(name=f"{g:g} G", clause=_6_10, kind="strength", dead=g)
    yield Combination(name=f"{g:g} G + {q:g} S", clause=_6_10, kind="strength", dead=g, snow=q, duration=snow)
    yield Combination(
        name=f"{g:g} G + {q:g} S + {q * psi_w:g} W down",
        clause=_6_10,
        kind="strength",
        dead=g,
        snow=q,
        wind=q * psi_w,
        wind_sense="down",
        duration=both,
    )
    yield Combination(
        name=f"{g:g} G + {q:g} W down + {q * psi_s:g} S",
        clause=_6_10,
        kind="strength",
        dead=g,
        snow=q * psi_s,
        wind=q,
        wind_sense="down",
        duration=both,
    )
    yield Combination(
        name=f"{g:g} G + {q:g} Q", clause=_6_10, kind="strength", dead=g, imposed=q, duration=imposed
    )


def _uplift(annex: Annex, wind: Duration) -> Iterator[Combination]:
    g, q = annex.factors.equ_permanent_down, annex.factors.equ_variable
    yield Combination(
        name=f"{g:g} G + {q:g} W up",
        clause=_EQU,
        kind="uplift",
        dead=g,
        wind=q,
        wind_sense="up",
        duration=wind,
    )
    yield Combination(
        name=f"{g:g} G + 1 W up, door open by accident",
        clause=_6_11,
        kind="uplift",
        dead=g,
        wind=1.0,
        wind_sense="up",
        wind_accidental=True,
        duration=wind,
    )


def _accidental(annex: Annex, altitude_m: float, snow: Duration, wind: Duration) -> Iterator[Combination]:
    psi = snow_psi(annex, altitude_m).psi_2
    short = shortest_duration(("short", snow))
    yield Combination(
        name="G + A, exceptional snow",
        clause=_6_11,
        kind="accidental",
        dead=1.0,
        snow=1.0,
        snow_accidental=True,
        duration=short,
    )
    yield Combination(
        name=f"G + A, door open by accident{f' + {psi:g} S' if psi else ''}",
        clause=_6_11,
        kind="accidental",
        dead=1.0,
        snow=psi,
        wind=1.0,
        wind_sense="down",
        wind_accidental=True,
        duration=wind,
    )


def _characteristic(annex: Annex, altitude_m: float) -> Iterator[Combination]:
    psi_s, psi_w = snow_psi(annex, altitude_m).psi_0, annex.psi_wind.psi_0
    yield Combination(name="G", clause=_6_14, kind="characteristic", dead=1.0)
    yield Combination(name="G + S", clause=_6_14, kind="characteristic", dead=1.0, snow=1.0)
    yield Combination(
        name=f"G + S + {psi_w:g} W down",
        clause=_6_14,
        kind="characteristic",
        dead=1.0,
        snow=1.0,
        wind=psi_w,
        wind_sense="down",
    )
    yield Combination(
        name=f"G + W down + {psi_s:g} S",
        clause=_6_14,
        kind="characteristic",
        dead=1.0,
        snow=psi_s,
        wind=1.0,
        wind_sense="down",
    )
    yield Combination(name="G + Q", clause=_6_14, kind="characteristic", dead=1.0, imposed=1.0)
    yield Combination(
        name="G + W up", clause=_6_14, kind="characteristic", dead=1.0, wind=1.0, wind_sense="up"
    )
