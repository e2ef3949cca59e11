"""The scales of the sheets' bound: shares in floating point are those in fractions, rounded once."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.scales import _share, _shares

WAYS = st.tuples(st.sampled_from(["ends", "steps"]), st.integers(1, 300))


@given(st.lists(WAYS, min_size=1), st.lists(st.integers(1, 450), min_size=1), st.integers(1, 400))
def test_shares_at_once_are_the_shares_one_by_one(
    ways: list[tuple[str, int]], lengths: list[int], room: int
) -> None:
    """To the last bit: the pair of scales that is taken must not hang on how they were reckoned."""
    every = [("size", 0), *ways]
    one_by_one = [[float(_share(way, length, room)) for length in lengths] for way in every]
    assert np.array_equal(_shares(every, lengths, room), np.array(one_by_one))
