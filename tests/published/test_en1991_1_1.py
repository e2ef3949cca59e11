"""EN 1991-1-1:2002, Table 6.10, category H, recommended values; second-hand, read in a public transcription."""

from __future__ import annotations

import pytest

from pentice.standards.annex import load_annex
from pentice.standards.en1991_1_1 import category_h_area_m2, category_h_kn_m2, category_h_point_kn


@pytest.mark.parametrize("pitch_deg", [0.0, 12.0, 40.0])
def test_category_h_has_the_recommended_loads(pitch_deg: float) -> None:
    """q_k 0.4 kN/m2 on 10 m2, or Q_k 1.0 kN; printed figures, so exact."""
    annex = load_annex("EN")
    assert category_h_kn_m2(annex, pitch_deg) == 0.4
    assert category_h_point_kn(annex) == 1.0
    assert category_h_area_m2(annex) == 10.0
