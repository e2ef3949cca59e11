"""The worst of many amounts, and the first of those alike."""

from __future__ import annotations

import numpy as np
import pytest

from pentice.checks.worst import greatest_place


@pytest.mark.parametrize(
    ("amounts", "place"),
    [
        ([1.0, 3.0 - 1e-12, 3.0, 2.0], 1),
        ([1.0, 3.0 - 1e-6, 3.0, 2.0], 2),
        ([-5.0, -2.0 - 1e-12, -2.0], 1),
        ([-5.0, -2.0 - 1e-6, -2.0], 2),
        ([0.0, 0.0], 0),
    ],
)
def test_of_amounts_alike_but_for_rounding_the_first_is_named(amounts: list[float], place: int) -> None:
    """A billionth of the greatest is rounding, more is not; below nothing too."""
    assert greatest_place(np.array(amounts)) == place


def test_places_are_counted_row_by_row() -> None:
    """Of a table the place in the array laid flat."""
    assert greatest_place(np.array([[1.0, 2.0], [4.0, 3.0]])) == 2
