"""Which loads stand together, with which factors and for how long: every combination a check has to run.

The expressions are those of EN 1990, stated once in `standards.en1990`. They are sums, so the factor on one action is
what the expression gives for that action alone, of size 1.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, cast

from pentice.records import quickly_made
from pentice.standards.annex import Annex, snow_duration, snow_psi
from pentice.standards.en1990 import (
    accidental_6_11b,
    characteristic_6_14b,
    combination_6_10,
    combination_6_10a,
    combination_6_10b,
    equilibrium,
)
from pentice.standards.en1995 import Duration, shortest_duration

Kind = Literal["strength", "uplift", "accidental", "characteristic", "frequent", "quasi-permanent"]
Sense = Literal["down", "up", ""]

_6_10 = "EN 1990, 6.10"
_6_10A, _6_10B = "EN 1990, 6.10a", "EN 1990, 6.10b"
_EQU = "EN 1990, Table A1.2(A)"
_6_11 = "EN 1990, 6.11b"
_6_14 = "EN 1990, 6.14b"


@quickly_made
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
    if annex.combination == "6.10":
        yield from _by_6_10(annex, altitude_m, snow, wind)
        return
    # The worse of 6.10a and 6.10b: both are run.
    yield from _by_6_10a(annex, altitude_m, snow, wind)
    yield from _by_6_10b(annex, altitude_m, snow, wind)


def _by_6_10(annex: Annex, altitude_m: float, snow: Duration, wind: Duration) -> Iterator[Combination]:
    f = annex.factors
    g, q = combination_6_10(factors=f, unfavourable=1.0), combination_6_10(factors=f, leading=1.0)
    yield _dead_alone(_6_10, g)
    psi_s, psi_w = _psi_0(annex, altitude_m)
    beside = (
        combination_6_10(factors=f, accompanying=((1.0, psi_s),)),
        combination_6_10(factors=f, accompanying=((1.0, psi_w),)),
    )
    yield from _with_variable(_6_10, g, (q, q), beside, (snow, wind))
    yield _with_imposed(_6_10, g, q, annex)


def _by_6_10a(annex: Annex, altitude_m: float, snow: Duration, wind: Duration) -> Iterator[Combination]:
    """The leading action takes its psi_0 too."""
    f = annex.factors
    g = combination_6_10a(factors=f, unfavourable=1.0)
    s, w, h = (
        combination_6_10a(factors=f, variable=((1.0, psi),))
        for psi in (*_psi_0(annex, altitude_m), annex.psi_imposed.psi_0)
    )
    yield _dead_alone(_6_10A, g)
    yield from _with_variable(_6_10A, g, (s, w), (s, w), (snow, wind))
    yield _with_imposed(_6_10A, g, h, annex)


def _by_6_10b(annex: Annex, altitude_m: float, snow: Duration, wind: Duration) -> Iterator[Combination]:
    f = annex.factors
    g, q = combination_6_10b(factors=f, unfavourable=1.0), combination_6_10b(factors=f, leading=1.0)
    psi_s, psi_w = _psi_0(annex, altitude_m)
    beside = (
        combination_6_10b(factors=f, accompanying=((1.0, psi_s),)),
        combination_6_10b(factors=f, accompanying=((1.0, psi_w),)),
    )
    yield from _with_variable(_6_10B, g, (q, q), beside, (snow, wind))
    yield _with_imposed(_6_10B, g, q, annex)


def _psi_0(annex: Annex, altitude_m: float) -> tuple[float, float]:
    """Of snow and of wind [-]."""
    return snow_psi(annex, altitude_m).psi_0, annex.psi_wind.psi_0


def _dead_alone(clause: str, g: float) -> Combination:
    return Combination(name=f"{g:g} G", clause=clause, kind="strength", dead=g)


def _with_variable(
    clause: str,
    g: float,
    leading: tuple[float, float],
    beside: tuple[float, float],
    durations: tuple[Duration, Duration],
) -> Iterator[Combination]:
    """Snow alone, snow with wind, wind with snow, wind alone; each pair is (snow, wind)."""
    both = shortest_duration(durations)
    s, w = leading
    yield Combination(
        name=f"{g:g} G + {s:g} S", clause=clause, kind="strength", dead=g, snow=s, duration=durations[0]
    )
    for snow, wind, name in (
        (s, beside[1], f"{g:g} G + {s:g} S + {beside[1]:g} W down"),
        (beside[0], w, f"{g:g} G + {w:g} W down + {beside[0]:g} S"),
    ):
        yield Combination(
            name=name,
            clause=clause,
            kind="strength",
            dead=g,
            snow=snow,
            wind=wind,
            wind_sense="down",
            duration=both,
        )
    # Snow on one side of a bearing can help the other: then it is left out (EN 1990, 6.4.3.1).
    yield Combination(
        name=f"{g:g} G + {w:g} W down",
        clause=clause,
        kind="strength",
        dead=g,
        wind=w,
        wind_sense="down",
        duration=durations[1],
    )


def _with_imposed(clause: str, g: float, q: float, annex: Annex) -> Combination:
    return Combination(
        name=f"{g:g} G + {q:g} Q",
        clause=clause,
        kind="strength",
        dead=g,
        imposed=q,
        duration=cast(Duration, annex.duration_imposed),
    )


def _uplift(annex: Annex, wind: Duration) -> Iterator[Combination]:
    f = annex.factors
    g, q = equilibrium(factors=f, stabilising=1.0), equilibrium(factors=f, leading=1.0)
    yield _lift(f"{g:g} G + {q:g} W up", _EQU, g, q, wind)
    # Shown beside it and never the worse: strength with the favourable weight of set B.
    str_g, str_q = combination_6_10(factors=f, favourable=1.0), combination_6_10(factors=f, leading=1.0)
    yield _lift(f"{str_g:g} G + {str_q:g} W up", _6_10, str_g, str_q, wind)
    # The weight that every uplift check counts on, not the 1.0 of 6.11b: on the safe side; judgement, no source.
    a = accidental_6_11b(permanent=0.0, accidental=1.0)
    name = f"{g:g} G + {a:g} W up, door open by accident"
    yield _lift(name, _6_11, g, a, wind, accidental=True)


def _lift(
    name: str, clause: str, dead: float, wind: float, duration: Duration, *, accidental: bool = False
) -> Combination:
    return Combination(
        name=name,
        clause=clause,
        kind="uplift",
        dead=dead,
        wind=wind,
        wind_sense="up",
        wind_accidental=accidental,
        duration=duration,
    )


def _accidental(annex: Annex, altitude_m: float, snow: Duration, wind: Duration) -> Iterator[Combination]:
    g, a = (
        accidental_6_11b(permanent=1.0, accidental=0.0),
        accidental_6_11b(permanent=0.0, accidental=1.0),
    )
    psi_2 = snow_psi(annex, altitude_m).psi_2
    s = accidental_6_11b(permanent=0.0, accidental=0.0, accompanying=((1.0, psi_2),))
    yield Combination(
        name="G + A, exceptional snow",
        clause=_6_11,
        kind="accidental",
        dead=g,
        snow=a,
        snow_accidental=True,
        duration=shortest_duration(("short", snow)),
    )
    yield Combination(
        name=f"G + A, door open by accident{f' + {s:g} S' if s else ''}",
        clause=_6_11,
        kind="accidental",
        dead=g,
        snow=s,
        wind=a,
        wind_sense="down",
        wind_accidental=True,
        duration=wind,
    )


def _characteristic(annex: Annex, altitude_m: float) -> Iterator[Combination]:
    g, q = characteristic_6_14b(permanent=1.0), characteristic_6_14b(permanent=0.0, leading=1.0)
    s, w = (
        characteristic_6_14b(permanent=0.0, accompanying=((1.0, psi),)) for psi in _psi_0(annex, altitude_m)
    )
    yield _together("G", g)
    yield _together("G + S", g, snow=q)
    yield _together(f"G + S + {w:g} W down", g, snow=q, wind=w, wind_sense="down")
    yield _together(f"G + W down + {s:g} S", g, snow=s, wind=q, wind_sense="down")
    yield _together("G + W down", g, wind=q, wind_sense="down")
    yield _together("G + Q", g, imposed=q)
    yield _together("G + W up", g, wind=q, wind_sense="up")


def _together(
    name: str,
    dead: float,
    *,
    snow: float = 0.0,
    wind: float = 0.0,
    imposed: float = 0.0,
    wind_sense: Sense = "",
) -> Combination:
    return Combination(
        name=name,
        clause=_6_14,
        kind="characteristic",
        dead=dead,
        snow=snow,
        wind=wind,
        imposed=imposed,
        wind_sense=wind_sense,
    )
