"""What is said of a long search, and that nothing is said of a short one."""

from __future__ import annotations

from pentice.cli.progress import LongSearch
from pentice.told import SearchedFor


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
