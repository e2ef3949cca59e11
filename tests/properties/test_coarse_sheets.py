"""Coarse tables and the bound from them against trying every cut: never below what a sheet can be worth."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.coarse_tables import CoarseTable
from tests.tries import tries

_Size = tuple[int, int]
_FINE = 64


def _greatest_worth(
    sizes: list[_Size], worths: list[int], room: _Size, rate: Fraction, least: _Size, kerf: int
) -> Fraction:
    """The most that a sheet is worth with its rests, by trying every cut; pieces without limit, the kerf added."""

    @cache
    def most(w: int, h: int) -> Fraction:
        best = Fraction(0)
        if w >= least[0] and h >= least[1]:
            best = rate * max(0, w - kerf) * max(0, h - kerf)
        for size, worth in zip(sizes, worths, strict=True):
            if size == (w, h):
                best = max(best, Fraction(worth))
        for at in range(1, w // 2 + 1):
            best = max(best, most(at, h) + most(w - at, h))
        for at in range(1, h // 2 + 1):
            best = max(best, most(w, at) + most(w, h - at))
        return best

    return most(*room)


_PIECES = st.lists(
    st.tuples(st.integers(3, 12), st.integers(3, 12), st.integers(0, 300)), min_size=1, max_size=4
)


@tries(80)
@given(
    _PIECES,
    st.tuples(st.integers(8, 26), st.integers(8, 26)),
    st.tuples(st.integers(1, 3), st.integers(1, 3)),
    st.fractions(0, 2, max_denominator=7),
    st.tuples(st.integers(3, 12), st.integers(3, 12)),
    st.integers(0, 2),
)
def test_no_sheet_is_worth_more_than_a_coarse_table_has(
    pieces: list[tuple[int, int, int]],
    room: _Size,
    units: _Size,
    rate: Fraction,
    least: _Size,
    kerf: int,
) -> None:
    """Whatever the units; the ways that are told apart come to their worths with the pieces that they count."""
    sizes, worths = [(w, h) for w, h, _ in pieces], [v for *_, v in pieces]
    table = CoarseTable(sizes, room, units, rate, least, kerf)
    table.fill(np.array([v * _FINE for v in worths]), _FINE)
    for part in (room, (room[0] - 3, room[1]), (room[0] // 2, room[1] - 1)):
        whole = rate * part[0] * part[1] * _FINE
        assert table.most(part) + whole >= _FINE * _greatest_worth(sizes, worths, part, rate, least, kerf)
        worth, counts = table.best(part, 2)
        assert worth[0] == table.most(part) == max(worth)
        for value, row in zip(worth, counts, strict=True):
            gains = sum(
                int(n) * (v * _FINE - rate * w * h * _FINE) for n, (w, h, v) in zip(row, pieces, strict=True)
            )
            assert value <= gains + len(pieces) * 100
