"""Tells whoever watches how far the search for a cheaper plan has come, and asks whether to go on.

Hearing changes nothing of what is found. A search that is asked to stop gives the best plan it has, with a bound that
holds; how good that is hangs on the machine, so nothing that must come out the same again may be asked to.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SearchedFor:
    """How far the search for one product has come.

    Attributes
    ----------
    item
        The product.
    cost, bound
        What the best plan so far costs net of its rests, and what none can cost less than [smallest unit of money].
    share
        How much of the work is done, 0 to 1; None where that is not known [-].
    """

    item: str
    cost: int
    bound: int
    share: float | None = None


Watcher = Callable[[SearchedFor], None]
Stop = Callable[[], bool]
_STOP: ContextVar[Stop | None] = ContextVar("stop", default=None)
_WATCHER: ContextVar[Watcher | None] = ContextVar("watcher", default=None)


@contextmanager
def told(watcher: Watcher) -> Iterator[None]:
    """Within it, every search of this thread tells the watcher at each look at its plan.

    Parameters
    ----------
    watcher
        Called with how far a search has come; what it raises ends the search.

    Examples
    --------
    >>> heard = []
    >>> with told(heard.append):
    ...     tell(SearchedFor("sheets.opal", cost=9000, bound=8000, share=0.5))
    >>> heard[0].cost
    9000
    """
    before = _WATCHER.set(watcher)
    try:
        yield
    finally:
        _WATCHER.reset(before)


@contextmanager
def stopped_by(stop: Stop) -> Iterator[None]:
    """Within it, every search of this thread asks at each look at its plan whether to stop.

    Parameters
    ----------
    stop
        True once the best plan so far is wanted.

    Examples
    --------
    >>> with stopped_by(lambda: True):
    ...     asked_to_stop()
    True
    """
    before = _STOP.set(stop)
    try:
        yield
    finally:
        _STOP.reset(before)


def asked_to_stop() -> bool:
    """Whether the best plan so far is wanted; False where nobody can ask for it.

    Examples
    --------
    >>> asked_to_stop()
    False
    """
    stop = _STOP.get()
    return stop is not None and stop()


def tell(found: SearchedFor) -> None:
    """Tell the watcher, where there is one.

    Parameters
    ----------
    found
        How far a search has come.

    Examples
    --------
    >>> tell(SearchedFor("bars.screw-down", cost=4000, bound=4000, share=1.0))
    """
    watcher = _WATCHER.get()
    if watcher is not None:
        watcher(found)
