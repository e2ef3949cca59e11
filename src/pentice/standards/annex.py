"""National choices, one frozen value per country, read from a data file.

Another annex is another file annex_NAME.toml in the data folder. Every choice carries its source. A choice that
was never read in print is absent: the rule that needs it then refuses and says what to ask for. What every rule needs
(factors, psi) has to be given with its source where the file does not hold it: nothing is borrowed from elsewhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from typing import Any

from pentice.errors import InputError, OutsideScope, Problem, require_within
from pentice.standards._tables import data_names, toml_of
from pentice.standards.en1990 import PartialFactors, Psi

NEEDED = ("factors", "psi_snow_low", "psi_snow_high", "psi_wind")
"""Choices that every load needs: an annex without them is not made."""
NOT_READ = "it was not read in print"
_ASKS: Mapping[str, str] = {
    "factors": "Give site.partial_factors with their source, from the annex to EN 1990, Tables A1.2(A) and A1.2(B).",
    "psi_snow_low": "Give site.psi_snow with its source, from the annex to EN 1990, Table A1.1.",
    "psi_snow_high": "Give site.psi_snow with its source, from the annex to EN 1990, Table A1.1.",
    "psi_wind": "Give site.psi_wind with its source, from the annex to EN 1990, Table A1.1.",
    "exceptional_drifts": (
        "Say site.exceptional_drifts = true or false, from the annex to EN 1991-1-3 (Annex A and Annex B)."
    ),
    "exceptional_falls": (
        "Give site.accidental_snow_kn_m2 from the annex to EN 1991-1-3, 4.3: 0 where the map has none."
    ),
    "exceptional_fall_factor": "Give site.accidental_snow_kn_m2 from the annex to EN 1991-1-3, 4.3.",
    "imposed_kn_m2": "Give site.imposed_kn_m2 from the annex to EN 1991-1-1, category H.",
    "imposed_point_kn": "Give site.imposed_point_kn from the annex to EN 1991-1-1, category H.",
    "imposed_area_m2": "Read it in the annex to EN 1991-1-1, category H.",
    "peak_pressure": "Give site.peak_pressure_kn_m2 by the annex to EN 1991-1-4, with its source.",
    "terrain_table": "Give site.peak_pressure_kn_m2 by the annex to EN 1991-1-4, with its source.",
    "wind_probability": "Give site.vb0_m_s for that return period, and leave site.wind_return_years out.",
    "table_7_3": "Give site.wind_coefficients from the annex to EN 1991-1-4, 7.2.4, with their source.",
    "table_7_6": "Give site.wind_coefficients from the annex to EN 1991-1-4, 7.3, with their source.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Annex:
    """What EN 1990, EN 1991 and EN 1995 leave to the country. None means: not known here, ask."""

    name: str
    title: str
    combination: str  # "6.10", or "6.10a/b" for the worse of 6.10a and 6.10b
    factors: PartialFactors
    psi_snow_low: Psi  # up to snow_boundary_m
    psi_snow_high: Psi
    snow_boundary_m: float
    psi_wind: Psi
    psi_imposed: Psi
    imposed_kn_m2: tuple[tuple[float, float], ...] | None  # (pitch_deg, q_k), straight lines between
    imposed_point_kn: float | None
    imposed_area_m2: float | None
    snow_regions: tuple[str, ...]
    exposures: tuple[tuple[str, float], ...]  # (name, C_e) of the exposures that there are
    flat_addition: tuple[float, float]  # below this fall [-] so much more snow [kN/m2]
    exceptional_drifts: bool | None
    exceptional_falls: bool | None
    exceptional_fall_factor: float | None
    sliding_wording: str  # "own slope" or "0.8"
    air_density_kg_m3: float  # counts only with a profile or figures that are held
    peak_pressure: str | None  # "EN 4.3-4.5" or "UK figures"
    terrain_table: str | None  # "EN" or "FR"
    wind_probability: tuple[float, float] | None  # K and n of c_prob
    table_7_3: bool | None  # closed single-slope roofs
    table_7_6: bool | None  # open canopies on a building
    cpi_unknown: tuple[float, float]
    duration_snow_low: str
    duration_snow_high: str
    duration_wind: str
    duration_imposed: str
    limit_w_inst: float  # span divided by this
    limit_w_fin: float
    limit_cap_mm: float
    sources: tuple[tuple[str, str], ...]
    absent: tuple[tuple[str, str], ...]  # (choice, why and what to give instead)

    def source(self, choice: str) -> str:
        """Where the value of a choice was printed, or why there is none.

        Parameters
        ----------
        choice
            Name of a field.

        Returns
        -------
        str
            One sentence.

        Raises
        ------
        InputError
            There is no such choice.

        Source
        ------
        The data file of the annex.

        Examples
        --------
        >>> load_annex("EN").source("snow_boundary_m")
        'EN 1990:2002+A1:2005, Table A1.1'
        """
        for name, says in (*self.sources, *self.absent):
            if name == choice:
                return says
        known = ", ".join(name for name, _ in (*self.sources, *self.absent))
        raise InputError.of("choice", choice, f"expected one of {known}")

    def require(self, choice: str) -> None:
        """Refuse when a choice is not known for this country.

        Parameters
        ----------
        choice
            Name of a field.

        Raises
        ------
        OutsideScope
            The choice is absent; the message says why and what to give.

        Source
        ------
        The data file of the annex.

        Examples
        --------
        >>> load_annex("EN").require("table_7_3")
        """
        for name, says in self.absent:
            if name == choice:
                raise OutsideScope(f"Annex {self.name} has no {choice} here: {says}")


def annex_names() -> tuple[str, ...]:
    """Names of the annexes that can be loaded.

    Returns
    -------
    tuple
        Names, sorted.

    Source
    ------
    Our own data folder.

    Examples
    --------
    >>> annex_names()
    ('CH', 'DE', 'EN', 'ES', 'FR', 'IT', 'NL', 'NO', 'PL', 'UK')
    """
    found = [name for name in data_names() if name.startswith("annex_") and name.endswith(".toml")]
    return tuple(name.removeprefix("annex_").removesuffix(".toml") for name in found)


@cache
def load_annex(name: str) -> Annex:
    """The national choices of one country.

    Parameters
    ----------
    name
        "EN" for the recommended values, or a country: see annex_names().

    Returns
    -------
    Annex
        The choices, each with its source.

    Raises
    ------
    InputError
        There is no such annex, or its file leaves out a choice.

    Source
    ------
    The data file of the annex, which names a source for every value.

    Examples
    --------
    >>> load_annex("EN").psi_wind.psi_0
    0.6
    """
    if name not in annex_names():
        known = ", ".join(annex_names())
        raise InputError.of(
            "annex", name, f"expected one of {known}", "Another country is another data file."
        )
    return annex_from(toml_of(f"annex_{name}.toml"))


def annex_from(data: Mapping[str, Any], given: Mapping[str, tuple[Any, str]] | None = None) -> Annex:
    """An annex from the content of its data file.

    Parameters
    ----------
    data
        name, title and choices, each choice {value, source} or {absent, ask}. `not_read` lists choices that are
        absent with the common question; `as_recommended` those that stand as in the recommended values.
    given
        Choices that somebody read in the annex itself, each with its source: they count before the file.

    Returns
    -------
    Annex
        The choices.

    Raises
    ------
    InputError
        A choice is missing, unknown, or has no source; or every rule needs it and it is absent.

    Source
    ------
    Our own form of data file.
    """
    choices = {
        **_borrowed(data),
        **{name: {"absent": NOT_READ, "ask": _ASKS[name]} for name in data.get("not_read", ())},
        **data.get("choices", {}),
        **{name: {"value": value, "source": source} for name, (value, source) in (given or {}).items()},
    }
    wanted = {field.name for field in fields(Annex)} - {"name", "title", "sources", "absent"}
    for name in sorted(wanted ^ choices.keys()):
        raise InputError.of(f"choices.{name}", "missing or unknown", "expected each choice once")
    known = {name: choice for name, choice in choices.items() if "absent" not in choice}
    for name, choice in known.items():
        if not choice.get("source"):
            raise InputError.of(f"choices.{name}", choice.get("value"), "expected a source beside the value")
    lacking = [name for name in NEEDED if name not in known]
    if lacking:
        asked = sorted({choices[name]["ask"] for name in lacking})
        raise InputError(tuple(_asked_for(data["name"], ask) for ask in asked))
    values: dict[str, Any] = {
        name: _value(name, known[name]["value"]) if name in known else None for name in choices
    }
    sources = tuple((name, str(choice["source"])) for name, choice in known.items())
    absent = tuple((n, f"{c['absent']}. {c['ask']}") for n, c in choices.items() if "absent" in c)
    return Annex(name=data["name"], title=data["title"], sources=sources, absent=absent, **values)


def _borrowed(data: Mapping[str, Any]) -> dict[str, Any]:
    """Choices that stand as in the recommended values, because the country leaves them or because they are ours."""
    whole = toml_of("annex_EN.toml")["choices"]
    return {name: whole[name] for name in data.get("as_recommended", ())}


def _asked_for(name: str, ask: str) -> Problem:
    """The problem of a choice without which no load can be made: its ask begins with the key of the job file."""
    key = ask.removeprefix("Give ").split(" ", 1)[0]
    return Problem(key, f"{key} is missing; annex {name} does not hold it. {ask}")


def _value(name: str, value: Any) -> Any:
    """A value as its field wants it: lists frozen, factors and psi as their own kinds."""
    if isinstance(value, PartialFactors):
        return value
    if name == "factors":
        return PartialFactors(**value)
    if name.startswith("psi_"):
        return Psi(psi_0=value[0], psi_1=value[1], psi_2=value[2])
    if isinstance(value, list):
        return tuple(tuple(item) if isinstance(item, list) else item for item in value)
    return value


def snow_psi(annex: Annex, altitude_m: float) -> Psi:
    """psi factors of snow at a site.

    Parameters
    ----------
    annex
        National choices.
    altitude_m
        Height of the site above the sea [m].

    Returns
    -------
    Psi
        psi_0, psi_1, psi_2 [-].

    Raises
    ------
    OutsideScope
        The altitude is not between -10 and 2000 m.

    Source
    ------
    EN 1990:2002+A1:2005, Table A1.1 (EN 1991-1-3:2003, Table 4.1).

    Examples
    --------
    >>> snow_psi(load_annex("EN"), 1200.0).psi_0
    0.7
    """
    return annex.psi_snow_high if _is_high(annex, altitude_m) else annex.psi_snow_low


def snow_duration(annex: Annex, altitude_m: float) -> str:
    """Duration class of snow at a site, for timber.

    Parameters
    ----------
    annex
        National choices.
    altitude_m
        Height of the site above the sea [m].

    Returns
    -------
    str
        A class of EN 1995-1-1, Table 2.1.

    Raises
    ------
    OutsideScope
        The altitude is not between -10 and 2000 m.

    Source
    ------
    EN 1995-1-1:2004, Table 2.2, a national choice; from memory.

    Examples
    --------
    >>> snow_duration(load_annex("EN"), 1200.0)
    'medium'
    """
    return annex.duration_snow_high if _is_high(annex, altitude_m) else annex.duration_snow_low


def _is_high(annex: Annex, altitude_m: float) -> bool:
    require_within("altitude_m", altitude_m, -10.0, 2000.0, unit="m", source="judgement, no source")
    return altitude_m > annex.snow_boundary_m
