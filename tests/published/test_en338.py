"""EN 338:2016, Structural timber - Strength classes, Table 1, softwood by edge bending.

Second hand: read in two open libraries that print the table alike (blue-prints 0.8.0, eurocodepy 2027.0.12), not in
the standard itself. The edition of 2009 had other tensile strengths (10 and 14 N/mm2).
"""

from __future__ import annotations

import pytest

from pentice.standards.en338 import class_names, strength_class

TABLE_1 = {
    "C16": (16.0, 8.5, 17.0, 2.2, 3.2, 8000.0, 5400.0, 500.0, 310.0, 370.0),
    "C24": (24.0, 14.5, 21.0, 2.5, 4.0, 11000.0, 7400.0, 690.0, 350.0, 420.0),
}


@pytest.mark.parametrize("name", TABLE_1)
def test_a_strength_class_is_the_row_of_table_1(name: str) -> None:
    """Exact: the values are printed, not calculated."""
    row = strength_class(name)
    held = (
        row.f_m_k_n_mm2,
        row.f_t_0_k_n_mm2,
        row.f_c_0_k_n_mm2,
        row.f_c_90_k_n_mm2,
        row.f_v_k_n_mm2,
        row.e_0_mean_n_mm2,
        row.e_0_05_n_mm2,
        row.g_mean_n_mm2,
        row.rho_k_kg_m3,
        row.rho_mean_kg_m3,
    )
    assert held == TABLE_1[name]


def test_every_class_that_is_held_is_checked_here() -> None:
    """A class added to the data without its row here would go unchecked."""
    assert class_names() == tuple(TABLE_1)
