"""Self-weight by section and mass; category H given, the annex's, or refused."""

from __future__ import annotations

from types import SimpleNamespace
from typing import cast

import pytest

from pentice.catalogue.parts import Parts
from pentice.loads.weight import weights_of
from tests.unit.loads.roofs import job_with, loads_of


def test_what_the_job_gives_counts_before_the_annex() -> None:
    """0.6 and 0.9 given; the recommended values are 0.4 and 1.0."""
    found = loads_of(job_with(site={"imposed_kn_m2": 0.6, "imposed_point_kn": 0.9})).imposed
    assert (found.area_kn_m2, found.point_kn, found.refused) == (0.6, 0.9, "")


def test_the_recommended_values_stand_in() -> None:
    """EN 1991-1-1, Table 6.10: 0.4 kN/m2 and 1.0 kN."""
    found = loads_of(job_with(site={"imposed_kn_m2": None, "imposed_point_kn": None})).imposed
    assert found.area_kn_m2 == pytest.approx(0.4)
    assert found.point_kn == pytest.approx(1.0)


def test_the_uk_s_values_are_asked_for() -> None:
    """They were only remembered: refused, both keys named."""
    site = {"annex": "UK", "imposed_kn_m2": None, "imposed_point_kn": None}
    found = loads_of(job_with(site=site)).imposed
    assert found.area_kn_m2 is None and found.point_kn is None
    assert "site.imposed_kn_m2" in found.refused and "site.imposed_point_kn" in found.refused


def test_weights_are_masses_times_gravity() -> None:
    """C24 has 420 kg/m3: 70 x 145 mm is 0.07 x 0.145 x 420 x 9.81/1000 = 0.04182 kN/m; sheet 2.7 kg/m2: 0.02649."""
    parts = cast(
        Parts,
        SimpleNamespace(
            timber=SimpleNamespace(strength_class="C24"),
            sheet=SimpleNamespace(mass_kg_m2=2.7),
            bar=SimpleNamespace(mass_kg_m=1.5, carries=False),
        ),
    )
    job = job_with(frame={"rafter_mm": [70.0, 145.0], "barge_board_mm": [25.0, 200.0]})
    found = weights_of(job, parts)
    assert found.sheet_kn_m2 == pytest.approx(0.026487)
    assert found.bar_kn_m == pytest.approx(0.014715)
    assert found.rafter_kn_m == pytest.approx(0.0418200, rel=1e-5)
    assert found.barge_kn_m == pytest.approx(0.0206010, rel=1e-5)
