"""Tells whoever watches how far the search for a cheaper plan has come. It changes nothing of what is found."""

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
