"""The inner loops are plain Python over flat tables of whole numbers; where numba is installed it compiles them.

Both ways do the same sums on the same numbers and give the same plans. Only the speed differs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

Function = TypeVar("Function", bound=Callable[..., Any])
Table = Any
"""A flat table of whole numbers: a numpy array where the loops are compiled, else a list, which is faster then."""

try:
    import numba
except ImportError:
    COMPILED = False
else:
    COMPILED = True
    from numba.core.options import DefaultOptions

    # A version of numba without this option is only slower.
    _LEAN = {"_nrt": False} if hasattr(DefaultOptions, "_nrt") else {}


def compiled(function: Function) -> Function:
    """The function, compiled where that is possible.

    Parameters
    ----------
    function
        Reads and writes flat tables of whole numbers by their place only.

    Returns
    -------
    callable
        The same function to its callers.
    """
    if COMPILED:
        return numba.njit(cache=True)(function)  # type: ignore[no-any-return]  # numba has no types
    return function


def compiled_lean(function: Function) -> Function:
    """The same for a function that makes no table of its own, and calls none that does.

    Then nobody need count who holds the tables that are handed on, and a call takes a fifth of the time (measured).

    Parameters
    ----------
    function
        As for `compiled`.

    Returns
    -------
    callable
        The same function to its callers.
    """
    if COMPILED:
        return numba.njit(cache=True, **_LEAN)(function)  # type: ignore[no-any-return]  # numba has no types
    return function


def table(numbers: Iterable[int]) -> Table:
    """Numbers as the inner loops want them.

    Parameters
    ----------
    numbers
        Whole numbers; an array need not be turned into a list.

    Returns
    -------
    array or list
        Of 64 bits each where compiled.
    """
    if COMPILED:
        import numpy

        return numpy.array(numbers if hasattr(numbers, "dtype") else list(numbers), dtype=numpy.int64)
    return numbers.tolist() if hasattr(numbers, "tolist") else list(numbers)


def blank(size: int) -> Table:
    """A table of so many zeros; a large one that is little used takes no time where compiled.

    Parameters
    ----------
    size
        [-].

    Returns
    -------
    array or list
        As `table`.
    """
    if COMPILED:
        import numpy

        return numpy.zeros(size, dtype=numpy.int64)
    return [0] * size
