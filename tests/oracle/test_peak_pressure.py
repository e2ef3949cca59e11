"""Our peak velocity pressure against eurocodepy (its q_p is right; its v_p is not and is not called)."""

from __future__ import annotations

import numpy as np
import pytest

from pentice.standards.en1991_1_4 import peak_pressure_kn_m2, terrain
from tests.oracle.comparing import CASES, Worst, other_program

pytestmark = pytest.mark.oracle


def test_random_places(worst: Worst) -> None:
    """Five terrains, 1 to 30 m, 18 to 34 m/s, below the least height too. Tolerance 1e-9: the same formulas."""
    wind, chance = other_program("eurocodepy.ec1.wind.pressure"), np.random.default_rng(5)
    for i in range(CASES):
        ground = terrain(("0", "I", "II", "III", "IV")[i % 5])
        height, velocity = float(chance.uniform(1.0, 30.0)), float(chance.uniform(18.0, 34.0))
        rough = wind.c_r(height, ground.z_min_m, ground.z_0_m, 0.05)
        theirs = wind.q_p(height, velocity, ground.z_min_m, ground.z_0_m, rough, 1.0)
        ours = peak_pressure_kn_m2(velocity, z_m=height, ground=ground, air_density_kg_m3=1.25)
        worst.compare("peak pressure", ours, theirs / 1e3)
    assert worst.is_within(1e-9, cases=300)
