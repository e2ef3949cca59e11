"""Which loads stand together, with which factors and for how long: every combination a check has to run."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, cast

from pentice.standards.annex import Annex, snow_duration, snow_psi
from pentice.standards.en1995 import Duration, shortest_duration

Kind = Literal["strength", "uplift", "accidental", "characteristic", "frequent", "quasi-permanent"]
Sense = Literal["down", "up", ""]

_6_10 = "EN 1990, 6.10"
_6_10A, _6_10B = "EN 1990, 6.10a", "EN 1990, 6.10b"
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
    f = annex.factors
    psi_s, psi_w = snow_psi(annex, altitude_m).psi_0, annex.psi_wind.psi_0
    imposed = cast(Duration, annex.duration_imposed)
    if annex.combination == "6.10":
        g, q = f.permanent_up, f.variable
        yield Combination(name=f"{g:g} G", clause=_6_10, kind="strength", dead=g)
        yield from _with_variable(_6_10, g, q, (1.0, psi_w), (1.0, psi_s), (snow, wind))
        yield _with_imposed(_6_10, g, q, imposed)
        return
    # The worse of 6.10a and 6.10b: both are run. In 6.10a the leading action takes its psi_0 too.
    g, q = f.permanent_up, f.variable
    yield Combination(name=f"{g:g} G", clause=_6_10A, kind="strength", dead=g)
    yield from _with_variable(_6_10A, g, q, (psi_s, psi_w), (psi_w, psi_s), (snow, wind))
    yield _with_imposed(_6_10A, g, q * annex.psi_imposed.psi_0, imposed)
    g = f.xi * f.permanent_up
    yield from _with_variable(_6_10B, g, q, (1.0, psi_w), (1.0, psi_s), (snow, wind))
    yield _with_imposed(_6_10B, g, q, imposed)


def _with_variable(
    clause: str,
    g: float,
    q: float,
    snow_leads: tuple[float, float],
    wind_leads: tuple[float, float],
    durations: tuple[Duration, Duration],
) -> Iterator[Combination]:
    """Snow alone, snow with wind, wind with snow; each pair is (share of the leading, of the other)."""
    (first, beside), (wind, snow) = snow_leads, wind_leads
    both = shortest_duration(durations)
    yield Combination(
        name=f"{g:g} G + {q * first:g} S",
        clause=clause,
        kind="strength",
        dead=g,
        snow=q * first,
        duration=durations[0],
    )
    for s, w, name in (
        (q * first, q * beside, f"{g:g} G + {q * first:g} S + {q * beside:g} W down"),
        (q * snow, q * wind, f"{g:g} G + {q * wind:g} W down + {q * snow:g} S"),
    ):
        yield Combination(
            name=name,
            clause=clause,
            kind="strength",
            dead=g,
            snow=s,
            wind=w,
            wind_sense="down",
            duration=both,
        )


def _with_imposed(clause: str, g: float, q: float, duration: Duration) -> Combination:
    return Combination(
        name=f"{g:g} G + {q:g} Q", clause=clause, kind="strength", dead=g, imposed=q, duration=duration
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
    # Shown beside it and never the worse: strength with the favourable weight of set B.
    str_g, str_q = annex.factors.permanent_down, annex.factors.variable
    yield Combination(
        name=f"{str_g:g} G + {str_q:g} W up",
        clause=_6_10,
        kind="uplift",
        dead=str_g,
        wind=str_q,
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
