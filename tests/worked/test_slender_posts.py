"""Posts deeper than they are wide, pressed and bent about their stronger axis: eq. 6.35 of EN 1995-1-1 by hand.

6.3.3(6): (sigma_m / (k_crit f_m,d))^2 + sigma_c / (k_c f_c,0,d) <= 1, k_c of the other axis. C24: f_m,k 24, f_c,0,k 21,
E_0.05 7400 (EN 338); short duration in service class 3: k_mod 0.7 (EN 1995-1-1, Table 3.1), gamma_M 1.3, k_h 1 from
150 mm on. Effective length l + 2 h (Table 6.1, even moment, load on the pressed side).
"""

from __future__ import annotations

from math import pi, sqrt
from typing import Any

import pytest

from pentice.checks.post_sideways import slender_post
from pentice.checks.values import Check
from pentice.pipeline import Assessed
from pentice.standards.en1995_members import TimberSection, TimberStrengths
from tests.designs import assessed, changed
from tests.worked.test_printed_lines import wrong_lines

F_M, F_C = 24.0 * 0.7 / 1.3, 21.0 * 0.7 / 1.3
C24 = TimberStrengths(
    f_m_k_n_mm2=24.0, f_t_0_k_n_mm2=14.5, f_c_0_k_n_mm2=21.0, e_0_05_n_mm2=7400.0, k_mod=0.7, gamma_m=1.3
)


def k_crit_of(thin: float, deep: float, length: float) -> float:
    """6.3.3, eq. 6.32 and 6.34."""
    critical = 0.78 * thin**2 * 7400.0 / (deep * (length + 2.0 * deep))
    slender = sqrt(24.0 / critical)
    return min(1.0, 1.56 - 0.75 * slender) if slender <= 1.4 else 1.0 / slender**2


def k_c_of(side: float, length: float) -> float:
    """6.3.2, eq. 6.21 and 6.25 to 6.28."""
    slender = length * sqrt(12.0) / side / pi * sqrt(21.0 / 7400.0)
    k = 0.5 * (1.0 + 0.2 * (slender - 0.3) + slender**2)
    return 1.0 / (k + sqrt(k**2 - slender**2))


def worst(design: Assessed, rule: str) -> Check:
    """The check of a rule that asks most."""
    return max((c for c in design.checks if c.id == rule), key=lambda c: c.demand or 0.0)


def line(check: Check, says: str) -> float:
    """The result of a line of working."""
    return next(float(step.result) for step in check.working if step.says.startswith(says))


@pytest.mark.parametrize(
    ("name", "rule", "thin", "deep", "turned", "bows", "changes"),
    [
        ("boat-rack", "post-across", 95.0, 170.0, False, 2.0, {}),
        (
            "boat-rack",
            "post-racking",
            50.0,
            170.0,
            True,
            1.0,
            {"frame__bracing": "fixed feet", "site__vb0_m_s": 40.0},
        ),
    ],
)
def test_a_bent_post_gives_way_sideways(
    name: str, rule: str, thin: float, deep: float, turned: bool, bows: float, changes: dict[str, Any]
) -> None:
    """Across the roof and along the beam: forces from the lines above, all else by hand; k_crit counts."""
    size = [deep, thin] if turned else [thin, deep]
    design = assessed(changed(name, frame__post_mm=size, **changes))
    check = worst(design, rule)
    assert check.working[-1].clause.startswith("eq. 6.35")
    length = line(check, "Effective length") - 2.0 * deep
    assert 2000.0 < length < 2600.0
    bent = line(check, "Stress from bending") / (k_crit_of(thin, deep, length) * F_M)
    pressed = line(check, "Stress from the push") / (k_c_of(thin, bows * length) * F_C)
    assert check.demand == pytest.approx(bent**2 + pressed, rel=1e-3)
    assert line(check, "Buckling sideways") == pytest.approx(k_crit_of(thin, deep, length), rel=1e-6)
    assert wrong_lines(design) == []


def test_a_post_behind_a_closed_front_gives_way_sideways() -> None:
    """Wind on the front, 47 x 170: N, M and the length from its lines, eq. 6.35 by hand."""
    design = assessed(changed("potting-bay", frame__post_mm=[47.0, 170.0], site__vb0_m_s=42.0))
    check = worst(design, "post-bowing")
    assert check.working[-1].clause.startswith("eq. 6.35")
    length = line(check, "Effective length") - 340.0
    factor = k_crit_of(47.0, 170.0, length)
    assert factor < 0.95
    bent = line(check, "Wind on the front") * 6e6 / 47.0 / 170.0**2 / (factor * F_M)
    pressed = line(check, "On the post in all") * 1e3 / 47.0 / 170.0 / (k_c_of(47.0, length) * F_C)
    assert check.demand == pytest.approx(bent**2 + pressed, rel=1e-3)
    assert wrong_lines(design) == []


def test_a_square_post_and_one_bent_about_its_weaker_axis_cannot() -> None:
    """Nothing to give way to: no k_crit; a deep one has it, the deeper the less."""
    square = TimberSection(width_mm=95.0, depth_mm=95.0)
    flat = TimberSection(width_mm=170.0, depth_mm=45.0)
    assert slender_post(square, C24, length_mm=2200.0, about="y") is None
    assert slender_post(flat, C24, length_mm=2200.0, about="y") is None
    found = slender_post(flat, C24, length_mm=2200.0, about="z")
    assert found is not None
    assert found.k_crit == pytest.approx(k_crit_of(45.0, 170.0, 2200.0), rel=1e-9)
