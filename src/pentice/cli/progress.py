"""Says how far a long search for a cheaper cutting plan has come, and lets it be cut short."""

from __future__ import annotations

import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from pentice.told import stopped_by, told

if TYPE_CHECKING:
    from types import FrameType

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
    way_out
        What Ctrl-C does.
    """

    def __init__(
        self,
        say: Callable[[str], None],
        clock: Callable[[], float] = time.monotonic,
        way_out: str = "Ctrl-C stops it",
    ) -> None:
        self._say, self._clock, self._last, self._way_out = say, clock, clock(), way_out
        self.has_spoken = False

    def __call__(self, found: SearchedFor) -> None:
        """Hear how far a search has come."""
        now = self._clock()
        if now - self._last < _EVERY_S:
            return
        self._last, self.has_spoken = now, True
        part = "" if found.share is None else f"{100.0 * found.share:.0f} % of the search done, "
        above = (
            "no bound yet"
            if found.bound <= 0
            else f"at most {100.0 * (found.cost / found.bound - 1.0):.1f} % above the least there can be"
        )
        self._say(f"cutting {found.item}: {part}{found.cost / 100.0:.2f}, {above}; {self._way_out}")


@contextmanager
def cut_short(
    seconds: float | None, say: Callable[[str], None], clock: Callable[[], float] = time.monotonic
) -> Iterator[None]:
    """Within it the search ends after so many seconds, or at the first Ctrl-C once that was offered: the best so far.

    Parameters
    ----------
    seconds
        From now on [s]; None for no limit.
    say
        Takes a line.
    clock
        Gives seconds.
    """
    begun, asked, reached = clock(), threading.Event(), threading.Event()
    heard = LongSearch(say, clock, "Ctrl-C takes the best so far")

    def stop() -> bool:
        if asked.is_set() or (seconds is not None and clock() - begun >= seconds):
            reached.set()
        return reached.is_set()

    def interrupted(number: int, frame: FrameType | None) -> None:
        if not heard.has_spoken or asked.is_set():
            raise KeyboardInterrupt
        asked.set()

    may_listen = threading.current_thread() is threading.main_thread()
    before = signal.signal(signal.SIGINT, interrupted) if may_listen else None
    try:
        with told(heard), stopped_by(stop):
            yield
    finally:
        if may_listen:
            signal.signal(signal.SIGINT, before)
    if reached.is_set():
        say(
            "the search for a cheaper cutting plan was cut short; `pentice pack` does all of it, and may order less."
        )
