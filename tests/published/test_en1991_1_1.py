"""EN 1991-1-1:2002, Table 6.10, category H: recommended values, and those of the French annex.

Second-hand: read in a public transcription, and in a public implementation of the French annex with its tests.
"""

from __future__ import annotations

import pytest

from pentice.standards._tables import toml_of
from pentice.standards.annex import annex_from, load_annex
from pentice.standards.en1991_1_1 import category_h_area_m2, category_h_kn_m2, category_h_point_kn


@pytest.mark.parametrize("pitch_deg", [0.0, 12.0, 40.0])
def test_category_h_has_the_recommended_loads(pitch_deg: float) -> None:
    """q_k 0.4 kN/m2 on 10 m2, or Q_k 1.0 kN; printed figures, so exact."""
    annex = load_annex("EN")
    assert category_h_kn_m2(annex, pitch_deg) == 0.4
    assert category_h_point_kn(annex) == 1.0
    assert category_h_area_m2(annex) == 10.0


@pytest.mark.parametrize(("pitch_deg", "printed"), [(0.0, 0.8), (8.53, 0.8), (8.54, 0.0), (40.0, 0.0)])
def test_category_h_of_the_french_annex(pitch_deg: float, printed: float) -> None:
    """0.8 kN/m2 on flat waterproofed roofs, below 15 % (8.53 deg), else 0; Q_k 1.5 kN; exact."""
    psi = ((0.5, 0.2, 0.0), "a test")
    given = {name: psi for name in ("psi_snow_low", "psi_snow_high", "psi_wind")}
    annex = annex_from(toml_of("annex_FR.toml"), {"factors": (load_annex("EN").factors, "a test"), **given})
    assert category_h_kn_m2(annex, pitch_deg) == printed
    assert category_h_point_kn(annex) == 1.5
