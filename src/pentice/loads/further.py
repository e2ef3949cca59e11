"""Further combinations: an accident with the main variable action beside it, and what a roof carries in use."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from pentice.loads.combine import Combination, Kind
from pentice.standards.annex import Annex, snow_duration, snow_psi
from pentice.standards.en1990 import accidental_6_11b, frequent_6_15b, quasi_permanent_6_16b
from pentice.standards.en1995 import Duration, shortest_duration

_6_11, _6_15, _6_16 = "EN 1990, 6.11b", "EN 1990, 6.15b", "EN 1990, 6.16b"


def accidents_with_main(annex: Annex, altitude_m: float) -> tuple[Combination, ...]:
    """Accidents with the frequent value of the main variable action beside them.

    Parameters
    ----------
    annex
        National choices.
    altitude_m
        Height of the site [m]: sets psi and the duration of snow.

    Returns
    -------
    tuple of Combination
        Exceptional snow with wind, and a door left open in a storm with snow.

    Source
    ------
    EN 1990:2002+A1:2005, 6.4.3.3 and A1.3.2: the main variable action takes psi_1 or psi_2 as the country says.
    psi_1, never the lighter, is our choice.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> [c.name for c in accidents_with_main(load_annex("EN"), 100.0)]
    ['G + A, exceptional snow + 0.2 W down', 'G + A, door open by accident + 0.2 S']
    """
    psi_s, psi_w = snow_psi(annex, altitude_m).psi_1, annex.psi_wind.psi_1
    dead, accident = (accidental_6_11b(permanent=g, accidental=a) for g, a in ((1.0, 0.0), (0.0, 1.0)))
    snow, wind = (
        accidental_6_11b(permanent=0.0, accidental=0.0, accompanying=((1.0, psi),)) for psi in (psi_s, psi_w)
    )
    lasts = cast(Duration, annex.duration_wind)
    lies = cast(Duration, snow_duration(annex, altitude_m))
    return (
        Combination(
            name=f"G + A, exceptional snow + {wind:g} W down",
            clause=_6_11,
            kind="accidental",
            dead=dead,
            snow=accident,
            snow_accidental=True,
            wind=wind,
            wind_sense="down",
            duration=shortest_duration(("short", lies, lasts)),
        ),
        Combination(
            name=f"G + A, door open by accident + {snow:g} S",
            clause=_6_11,
            kind="accidental",
            dead=dead,
            snow=snow,
            wind=accident,
            wind_sense="down",
            wind_accidental=True,
            duration=shortest_duration((lies, lasts)),
        ),
    )


def service_combinations(annex: Annex, altitude_m: float) -> tuple[Combination, ...]:
    """What the roof carries often, and what it carries nearly always: for comfort, and for creep.

    Parameters
    ----------
    annex
        National choices.
    altitude_m
        Height of the site [m]: sets psi.

    Returns
    -------
    tuple of Combination
        Frequent with snow, wind down and wind up leading, and quasi-permanent. Timber creeps under the last: its
        sag in the end has it term by term. No limit of ours is set to the frequent ones: they are shown.

    Source
    ------
    EN 1990:2002+A1:2005, 6.5.3(2)b and c with Table A1.1.

    Examples
    --------
    >>> from pentice.standards.annex import load_annex
    >>> [c.name for c in service_combinations(load_annex("EN"), 1200.0)]
    ['G + 0.5 S', 'G + 0.2 W down + 0.2 S', 'G + 0.2 W up', 'G + 0.2 S']
    """
    return tuple(_service(annex, altitude_m))


def _service(annex: Annex, altitude_m: float) -> Iterator[Combination]:
    snow, wind = snow_psi(annex, altitude_m), annex.psi_wind
    dead = frequent_6_15b(permanent=1.0, leading=(0.0, 0.0))
    often_s, often_w = (frequent_6_15b(permanent=0.0, leading=(1.0, psi.psi_1)) for psi in (snow, wind))
    beside_s, beside_w = (
        frequent_6_15b(permanent=0.0, leading=(0.0, 0.0), accompanying=((1.0, psi.psi_2),))
        for psi in (snow, wind)
    )
    yield _named("frequent", _6_15, dead, snow=often_s, wind=beside_w)
    yield _named("frequent", _6_15, dead, snow=beside_s, wind=often_w, wind_leads=True)
    yield Combination(
        name=f"G + {often_w:g} W up",
        clause=_6_15,
        kind="frequent",
        dead=dead,
        wind=often_w,
        wind_sense="up",
    )
    lasting_s, lasting_w = (
        quasi_permanent_6_16b(permanent=0.0, variable=((1.0, psi.psi_2),)) for psi in (snow, wind)
    )
    dead = quasi_permanent_6_16b(permanent=1.0)
    yield _named("quasi-permanent", _6_16, dead, snow=lasting_s, wind=lasting_w)


def _named(
    kind: Kind, clause: str, dead: float, *, snow: float, wind: float, wind_leads: bool = False
) -> Combination:
    words = [f"{snow:g} S"] * bool(snow), [f"{wind:g} W down"] * bool(wind)
    parts = [*words[1], *words[0]] if wind_leads else [*words[0], *words[1]]
    return Combination(
        name=" + ".join(["G", *parts]),
        clause=clause,
        kind=kind,
        dead=dead,
        snow=snow,
        wind=wind,
        wind_sense="down" if wind else "",
    )
