"""What not_covered.toml says is kept out is kept out: refused, asked for, or no more than a bound."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from pentice.errors import InputError, OutsideScope
from pentice.loads.national import annex_for
from pentice.standards._tables import toml_of
from pentice.standards.annex import Annex, annex_names, load_annex
from pentice.standards.en1991_1_1 import category_h_kn_m2, category_h_point_kn
from pentice.standards.en1991_1_3_ground import ground_snow_kn_m2
from pentice.standards.en1991_1_4_canopies import canopy_coefficient, canopy_envelope
from pentice.standards.en1991_1_4_roofs import roof_coefficients
from pentice.standards.en1995_deflection import final_limit_mm, instant_limit_mm
from tests.unit.loads.roofs import OPEN, job_with, loads_of
from tests.unit.loads.test_national import READ, asked

LIST: list[dict[str, str]] = tomllib.loads(
    Path(__file__).with_name("not_covered.toml").read_text(encoding="utf-8")
)["kept_out"]
EN, UK = load_annex("EN"), load_annex("UK")


def _annex_c() -> None:
    """Every row but the Alpine one; its value would be read at 200 m in zone 2."""
    rows = [
        "Central East",
        "Greece",
        "Iberian",
        "Mediterranean",
        "Central West",
        "Sweden, Finland",
        "UK, Ireland",
    ]
    for row in rows:
        with pytest.raises(OutsideScope, match=r"only remembered.*Give site\.ground_snow_kn_m2"):
            ground_snow_kn_m2(row, 2, 200.0)


def _category_h_uk() -> None:
    for pitch_deg in (10.0, 40.0, 60.0):
        with pytest.raises(OutsideScope, match=r"only remembered.*Give site\.imposed_kn_m2"):
            category_h_kn_m2(UK, pitch_deg)
    with pytest.raises(OutsideScope, match=r"only remembered.*Give site\.imposed_point_kn"):
        category_h_point_kn(UK)


def _exceptional_falls_uk() -> None:
    assert UK.exceptional_drifts is True
    with pytest.raises(OutsideScope, match=r"only remembered.*give site\.accidental_snow_kn_m2"):
        UK.require("exceptional_falls")


def _closed_lean_to_uk() -> None:
    for pitch_deg in (3.0, 10.0, 30.0):
        with pytest.raises(OutsideScope, match=r"NA\.5 to NA\.7.*Give site\.wind_coefficients"):
            roof_coefficients(UK, pitch_deg=pitch_deg, wind="onto foot")


def _open_lean_to_uk() -> None:
    for blockage in (0.0, 1.0):
        with pytest.raises(OutsideScope, match=r"PD 6688-1-4, 3\.5.*Give site\.wind_coefficients"):
            canopy_coefficient(UK, pitch_deg=10.0, blockage=blockage, zone="A")


def _attached_canopy_de() -> None:
    site = {**READ, "annex": "DE", "peak_pressure_kn_m2": 0.6}
    refused = loads_of(job_with(site=site, roof=OPEN), _annex("DE")).wind.refused
    assert refused is not None
    assert "rule of its own for a canopy on a wall" in refused
    assert "Give site.wind_coefficients from the German annex" in refused


def _steep_single_slope() -> None:
    for pitch_deg in (45.1, 60.0, 75.0):
        with pytest.raises(OutsideScope, match=r"expected 0 to 45 deg"):
            roof_coefficients(EN, pitch_deg=pitch_deg, wind="onto foot")


def _wind_maps() -> None:
    france = asked({**READ, "annex": "FR", "terrain": "II", "vb0_m_s": None})
    poland = asked({**READ, "annex": "PL", "terrain": None, "vb0_m_s": None})
    assert set(france) == {"site.vb0_m_s"}
    assert set(poland) == {"site.peak_pressure_kn_m2"}


def _thermal_coefficient() -> None:
    assert job_with().site.thermal_coefficient == 1.0
    assert "says not why" in asked({"thermal_coefficient": 0.681})["site.thermal_coefficient"]


def _greenhouse_snow_de() -> None:
    """Every zone on the ground at the sea, and the coldest glass leaves all of it on the roof."""
    zones = [ground_snow_kn_m2("DE", zone, 0.0) for zone in ("1", "1a", "2", "2a", "3")]
    even = loads_of(job_with(site={"ground_snow_kn_m2": min(zones)})).snow.cases[0].points[0][1]
    assert even == pytest.approx(0.8 * min(zones))
    assert even > 0.25


def _spanish_snow() -> None:
    for zone in (1, 4, 5):
        assert ground_snow_kn_m2("ES", zone, 1600.0) > 0.0
        with pytest.raises(OutsideScope, match=r"altitude_m is 1601 m.*Give site\.ground_snow_kn_m2"):
            ground_snow_kn_m2("ES", zone, 1601.0)


def _wind_duration_uk() -> None:
    assert UK.duration_wind == EN.duration_wind == "short"


def _american_canopies() -> None:
    """Falls up to 2 %: at 0 deg every zone is sucked harder than -1.375, the whole roof harder than -1.125."""
    zones = [canopy_envelope(EN, pitch_deg=0.0, zone=zone).least for zone in ("A", "B", "C")]
    assert max(zones) < -1.375
    assert canopy_envelope(EN, pitch_deg=0.0, zone="cf").least < -1.125
    assert "US" not in annex_names()


def _laxest_sag() -> None:
    with pytest.raises(OutsideScope, match=r"divisor is 150; expected 250 to 350"):
        final_limit_mm(4000.0, divisor=150.0)


def _spanish_sag_of_steel() -> None:
    spain = _annex("ES")
    for span_mm in (1000.0, 4000.0):
        ours = instant_limit_mm(span_mm, divisor=spain.limit_w_inst)
        assert ours <= span_mm / 300.0 < span_mm / 250.0
        assert final_limit_mm(span_mm, divisor=spain.limit_w_fin) <= span_mm / 250.0


def _unread_partial_factors() -> None:
    unread = sorted(
        name for name in annex_names() if "factors" in toml_of(f"annex_{name}.toml").get("not_read", ())
    )
    assert unread == ["CH", "DE", "ES", "FR", "IT", "NL", "NO", "PL"]
    for name in unread:
        with pytest.raises(InputError, match=r"site\.partial_factors is missing"):
            load_annex(name)


def _annex(name: str) -> Annex:
    return annex_for(job_with(site={**READ, "annex": name, "peak_pressure_kn_m2": 0.6}))


HELD: dict[str, Callable[[], None]] = {
    "annex-c": _annex_c,
    "category-h-uk": _category_h_uk,
    "exceptional-falls-uk": _exceptional_falls_uk,
    "closed-lean-to-uk": _closed_lean_to_uk,
    "open-lean-to-uk": _open_lean_to_uk,
    "attached-canopy-de": _attached_canopy_de,
    "steep-single-slope": _steep_single_slope,
    "wind-maps": _wind_maps,
    "thermal-coefficient": _thermal_coefficient,
    "greenhouse-snow-de": _greenhouse_snow_de,
    "spanish-snow-above-1600-m": _spanish_snow,
    "wind-duration-uk": _wind_duration_uk,
    "american-canopies": _american_canopies,
    "laxest-sag-in-the-end": _laxest_sag,
    "spanish-sag-of-steel": _spanish_sag_of_steel,
    "unread-partial-factors": _unread_partial_factors,
}


def test_the_list_and_what_holds_it_are_the_same() -> None:
    """Each entry once, with its rule, its reason, how it is known, and a case here."""
    assert [entry["id"] for entry in LIST] == list(HELD)
    for entry in LIST:
        assert set(entry) == {"id", "rule", "known", "reason"}
        assert entry["known"] in ("seen", "memory", "unseen")


@pytest.mark.parametrize("id", [entry["id"] for entry in LIST])
def test_it_is_kept_out(id: str) -> None:
    """As the list says."""
    HELD[id]()
