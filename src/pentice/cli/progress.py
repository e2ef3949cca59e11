"""Says how far a long search for a cheaper cutting plan has come."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pentice.told import SearchedFor

_EVERY_S = 2.0


class LongSearch:
    """Says a line every two seconds, so nothing at all of a search that takes less.

    Parameters
    ----------
    say
        Takes a line.
    clock
        Gives seconds.
    """

    def __init__(self, say: Callable[[str], None], clock: Callable[[], float] = time.monotonic) -> None:
        self._say, self._clock, self._last = say, clock, clock()

    def __call__(self, found: SearchedFor) -> None:
        """Hear how far a search has come."""
        now = self._clock()
        if now - self._last < _EVERY_S:
            return
        self._last = now
        part = "" if found.share is None else f"{100.0 * found.share:.0f} % of the search done, "
        above = (
            "no bound yet"
            if found.bound <= 0
            else f"at most {100.0 * (found.cost / found.bound - 1.0):.1f} % above the least there can be"
        )
        self._say(f"cutting {found.item}: {part}{found.cost / 100.0:.2f}, {above}; Ctrl-C stops it")
