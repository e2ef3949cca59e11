"""National choices: read from data, each with a source, absent where they were only remembered."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from pentice.errors import InputError, OutsideScope
from pentice.standards._tables import data_names, interpolate, text_of, toml_of
from pentice.standards.annex import annex_from, annex_names, load_annex, snow_duration, snow_psi
from pentice.standards.en1991_1_1 import category_h_area_m2, category_h_kn_m2, category_h_point_kn
from pentice.standards.en1991_1_3_ground import snow_regions
from pentice.standards.en1991_1_4_canopies import canopy_coefficient
from pentice.standards.en1991_1_4_roofs import roof_coefficients

PSI = (0.5, 0.2, 0.0)
READ = {
    "factors": (load_annex("EN").factors, "a test"),
    "psi_snow_low": (PSI, "a test"),
    "psi_snow_high": (PSI, "a test"),
    "psi_wind": ((0.6, 0.2, 0.0), "a test"),
}
"""What every rule needs and some countries' files do not hold."""


def test_unknown_annex_lists_those_there_are() -> None:
    """The way out is in the message."""
    with pytest.raises(
        InputError, match=r"annex is XX; expected one of CH, .*, UK\. Another country is another data file"
    ):
        load_annex("XX")


@pytest.mark.parametrize("name", annex_names())
def test_every_choice_has_a_source_or_a_reason(name: str) -> None:
    """A choice is known with its source, or absent with what to give; never both, never neither."""
    annex = annex_from(toml_of(f"annex_{name}.toml"), READ)
    known, absent = dict(annex.sources), dict(annex.absent)
    assert not known.keys() & absent.keys()
    assert all(says.strip() for says in (*known.values(), *absent.values()))
    assert all(annex.source(choice) for choice in (*known, *absent))
    assert annex.combination in ("6.10", "6.10a/b")
    assert annex.peak_pressure in ("EN 4.3-4.5", "UK figures", None)
    assert annex.sliding_wording in ("own slope", "0.8")
    assert set(annex.snow_regions) <= set(snow_regions())


def test_source_of_an_unknown_choice_lists_the_choices() -> None:
    """A misspelt choice is an error, not silence."""
    with pytest.raises(InputError, match=r"choice is psi_sun; expected one of combination, factors"):
        load_annex("EN").source("psi_sun")


def test_recommended_values_leave_nothing_absent() -> None:
    """The EN file is whole."""
    assert load_annex("EN").absent == ()


def test_uk_refuses_what_was_only_remembered() -> None:
    """Category H, the wind tables and exceptional falls are asked for."""
    annex = load_annex("UK")
    with pytest.raises(OutsideScope, match=r"Annex UK has no imposed_kn_m2 here: .*Give site\.imposed_kn_m2"):
        category_h_kn_m2(annex, 10.0)
    with pytest.raises(
        OutsideScope, match=r"Annex UK has no imposed_point_kn here: .*Give site\.imposed_point_kn"
    ):
        category_h_point_kn(annex)
    with pytest.raises(OutsideScope, match="Annex UK has no imposed_area_m2 here"):
        category_h_area_m2(annex)
    with pytest.raises(
        OutsideScope, match=r"Annex UK has no exceptional_falls here: .*site\.accidental_snow_kn_m2"
    ):
        annex.require("exceptional_falls")


def test_uk_closed_lean_to_asks_for_its_own_tables() -> None:
    """The UK annex replaces Tables 7.2 to 7.4; a recommended figure is never passed off as British."""
    with pytest.raises(OutsideScope, match=r"Tables NA\.5 to NA\.7.*Give site\.wind_coefficients"):
        roof_coefficients(load_annex("UK"), pitch_deg=10.0, wind="onto foot")


def test_uk_open_lean_to_asks_for_the_published_document() -> None:
    """On a building PD 6688-1-4 counts, not Table 7.6."""
    with pytest.raises(OutsideScope, match=r"PD 6688-1-4, 3\.5.*Give site\.wind_coefficients"):
        canopy_coefficient(load_annex("UK"), pitch_deg=10.0, blockage=1.0, zone="A")


def _data() -> dict[str, Any]:
    return copy.deepcopy(dict(toml_of("annex_EN.toml")))


def test_annex_file_without_a_choice_is_refused() -> None:
    """A forgotten choice is found when the file is read, not when a roof stands on it."""
    data = _data()
    del data["choices"]["psi_wind"]
    with pytest.raises(
        InputError, match=r"choices\.psi_wind is missing or unknown; expected each choice once"
    ):
        annex_from(data)


def test_annex_file_with_an_unknown_choice_is_refused() -> None:
    """So is a misspelt one."""
    data = _data()
    data["choices"]["psi_sun"] = {"value": 1.0, "source": "nowhere"}
    with pytest.raises(InputError, match=r"choices\.psi_sun is missing or unknown"):
        annex_from(data)


def test_annex_file_with_a_value_without_source_is_refused() -> None:
    """No source, no value."""
    data = _data()
    data["choices"]["limit_cap_mm"]["source"] = ""
    with pytest.raises(
        InputError, match=r"choices\.limit_cap_mm is 20\.0; expected a source beside the value"
    ):
        annex_from(data)


@pytest.mark.parametrize("altitude_m", [-11.0, 2001.0])
def test_altitude_beyond_the_range_is_refused(altitude_m: float) -> None:
    """A slip of the pen is caught before it changes a class."""
    with pytest.raises(OutsideScope, match=r"altitude_m is .* expected -10 to 2000 m"):
        snow_psi(load_annex("EN"), altitude_m)
    with pytest.raises(OutsideScope, match="altitude_m is"):
        snow_duration(load_annex("EN"), altitude_m)


@pytest.mark.parametrize("name", [name for name in data_names() if name.endswith(".csv")])
def test_every_table_of_actions_says_its_source(name: str) -> None:
    """A figure without a source is of no use."""
    assert any(line.lower().startswith("# source:") for line in text_of(name).splitlines())


def test_interpolation_never_leaves_the_table() -> None:
    """Both ends are read exactly, beyond them nothing is."""
    points = [(0.0, 0.1), (1.0, 0.3)]
    assert (interpolate("x", 0.0, points), interpolate("x", 1.0, points)) == (0.1, 0.3)
    with pytest.raises(OutsideScope, match=r"x is 1\.1 m; expected 0 to 1 m \(Table 1\)\. Ask\."):
        interpolate("x", 1.1, points, unit="m", source="Table 1", do="Ask.")
    with pytest.raises(OutsideScope, match="x is nan"):
        interpolate("x", float("nan"), points)
    assert interpolate("x", 2.0, [(2.0, 7.0)]) == 7.0
