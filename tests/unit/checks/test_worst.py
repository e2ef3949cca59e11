"""The worst of many amounts, and the first of those alike."""

from __future__ import annotations

import random

import numpy as np
import pytest

from pentice.checks.worst import greatest_place, not_outdone


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


def test_the_worst_is_always_among_those_not_outdone() -> None:
    """Whatever more of each amount makes worse, of each kind by itself; of those alike the first is kept."""
    chance = random.Random(11)  # noqa: S311 -- no secret
    for _ in range(200):
        cases = [
            (n, chance.choice("ab"), float(chance.randint(0, 6)), float(chance.randint(0, 6)))
            for n in range(12)
        ]
        kept = not_outdone(cases, kind=lambda case: case[1], amounts=lambda case: case[2:])
        assert kept == sorted(kept)
        for kind in "ab":
            mine = [case for case in cases if case[1] == kind]
            for push, bend in ((1.0, 3.0), (2.0, 1.0), (0.5, 0.5)):

                def used(case: tuple[int, str, float, float]) -> float:
                    return push * case[2] ** 2 + bend * case[3]  # noqa: B023 -- asked at once

                if mine:
                    worst = max(mine, key=used)
                    there = [case for case in kept if case[1] == kind]
                    assert used(max(there, key=used)) == used(worst)
                    alike = [case for case in mine if case[2:] == worst[2:]]
                    assert worst not in kept or worst == alike[0]
