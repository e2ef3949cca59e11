"""What is said of a long search, and that nothing is said of a short one."""

from __future__ import annotations

import itertools
import signal

import pytest

from pentice.cli.progress import LongSearch, cut_short
from pentice.told import SearchedFor, asked_to_stop, tell

LOOK = SearchedFor("sheets.opal", cost=50_000, bound=40_000, share=0.1)


def test_a_line_every_two_seconds() -> None:
    """By a clock of our own: looks after 1, 3, 4 and 5.5 s."""
    times = iter((100.0, 101.0, 103.0, 104.0, 105.5))
    said: list[str] = []
    heard = LongSearch(said.append, clock=lambda: next(times))
    for cost, share in ((50_000, 0.1), (48_000, 0.3), (47_000, 0.4), (44_000, None)):
        heard(SearchedFor("sheets.opal", cost=cost, bound=40_000 if share else 0, share=share))
    assert said == [
        "cutting sheets.opal: 30 % of the search done, 480.00, at most 20.0 % above the least there can be; "
        "Ctrl-C stops it",
        "cutting sheets.opal: 440.00, no bound yet; Ctrl-C stops it",
    ]


def test_a_search_ends_when_its_time_is_over() -> None:
    """By a clock that goes on by 2 s each time it is read; what follows says that it was cut short."""
    clock, said = itertools.count(100.0, 2.0), list[str]()
    with cut_short(7.0, said.append, clock=lambda: next(clock)):
        assert [asked_to_stop() for _ in range(4)] == [False, False, True, True]
    assert not asked_to_stop()
    assert [line.partition(";")[0] for line in said] == [
        "the search for a cheaper cutting plan was cut short"
    ]


def test_ctrl_c_takes_the_best_so_far_once_that_was_offered() -> None:
    """Before, and a second time, it ends everything; a search that nobody stopped is not said to be cut short."""
    clock, said = itertools.count(100.0, 3.0), list[str]()
    with pytest.raises(KeyboardInterrupt), cut_short(None, said.append, clock=lambda: next(clock)):
        signal.raise_signal(signal.SIGINT)
    with pytest.raises(KeyboardInterrupt), cut_short(None, said.append, clock=lambda: next(clock)):
        tell(LOOK)
        assert not asked_to_stop()
        signal.raise_signal(signal.SIGINT)
        assert asked_to_stop()
        signal.raise_signal(signal.SIGINT)
    with cut_short(None, said.append, clock=lambda: next(clock)):
        assert not asked_to_stop()
    assert said == [
        "cutting sheets.opal: 10 % of the search done, 500.00, at most 25.0 % above the least there can be; "
        "Ctrl-C takes the best so far"
    ]
