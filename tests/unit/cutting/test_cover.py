"""Choosing patterns: the exact way and the solver's way come to the same choice."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from pentice.cutting.cover import _cover_by_highs
from pentice.cutting.cover_states import cover_by_states
from pentice.cutting.patterns import Pattern
from tests.tries import tries

PRICES = (0, 500, 900, 1300)


def pattern(stock: int, kinds: tuple[int, ...]) -> Pattern:
    """A pattern of a stock whose price and size follow from its number."""
    return Pattern(stock=stock, kinds=tuple(sorted(kinds)), price=PRICES[stock], size=1000 + 500 * stock)


def test_the_fewest_stock_pieces_are_taken_where_the_cost_is_equal() -> None:
    """Found in use: started from the first answer, the solver gave that answer back, with ten pieces for five."""
    stocks: dict[int, list[tuple[int, ...]]] = {
        0: [(0, 0, 3), (0, 3), (1,)],
        1: [(0, 2, 3), (1, 1, 2)],
        2: [(0, 2), (2,)],
    }
    stocks[3] = [(0, 1, 2), (1, 2, 2), (1, 3), (2, 2)]
    patterns = [pattern(s, kinds) for s, all_kinds in stocks.items() for kinds in all_kinds]
    found = _cover_by_highs(patterns, [3, 2, 4, 3], [None, 1, 2, None], 1.0)
    assert found is not None
    assert (found.cost, len(found.chosen)) == (2600, 5)


@tries(30)
@given(
    st.lists(
        st.tuples(st.integers(0, 3), st.lists(st.integers(0, 2), min_size=1, max_size=3).map(tuple)),
        min_size=1,
        max_size=8,
    ),
    st.lists(st.integers(1, 4), min_size=3, max_size=3),
    st.lists(st.sampled_from([None, 1, 2]), min_size=4, max_size=4),
)
def test_both_ways_agree(
    rows: list[tuple[int, tuple[int, ...]]], demand: list[int], limits: list[int | None]
) -> None:
    """Cost, number of stock pieces and stock used are the same, or neither way finds any choice."""
    patterns = [pattern(stock, kinds) for stock, kinds in rows]
    exact, solved = cover_by_states(patterns, demand, limits), _cover_by_highs(patterns, demand, limits, 1.0)
    assert (exact is None) == (solved is None)
    if exact is not None and solved is not None:
        assert exact.cost == solved.cost == solved.bound
        assert len(exact.chosen) == len(solved.chosen)
        assert sum(p.size for p in exact.chosen) == sum(p.size for p in solved.chosen)
