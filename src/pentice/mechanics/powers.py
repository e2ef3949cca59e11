"""Where sums of powers are greatest: what a stretch of a beam sags, from one end of it (0) to the other (1)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_STATIONS = 20
_STEPS = 2


def greatest_in_size(terms: Array) -> tuple[Array, Array]:
    """The greatest value in size, with its sign, of sums of powers between 0 and 1.

    Parameters
    ----------
    terms
        The first axis holds the factors of the powers, from none up, to the second at least [any unit].

    Returns
    -------
    tuple of array
        Place [-] and value, of the shape of the terms less that axis: the greatest of some stations, moved by
        Newton's steps to where the slope is nothing.

    Source
    ------
    Newton's method: from a station near by two steps leave the value of a beam's sag to less than 1e-9 of it.

    Examples
    --------
    >>> import numpy as np
    >>> place, value = greatest_in_size(np.array([[0.0, 0.0], [1.0, 0.0], [-1.0, 0.0], [0.0, -2.0]]))
    >>> place.tolist(), value.tolist()
    ([0.5, 1.0], [0.25, -2.0])
    """
    import numpy as np

    stations, powers = np.linspace(0.0, 1.0, _STATIONS + 1), np.arange(len(terms))
    values = terms.reshape(len(terms), -1).T @ stations ** powers[:, None]
    at = stations[np.abs(values).argmax(axis=1)].reshape(terms.shape[1:])
    slopes = [k * term for k, term in enumerate(terms)][1:]
    bends = [k * term for k, term in enumerate(slopes)][1:]
    low, high = np.maximum(at - 1.0 / _STATIONS, 0.0), np.minimum(at + 1.0 / _STATIONS, 1.0)
    place = at
    for _ in range(_STEPS):
        bend = _sum(bends, place)
        # Where nothing bends the place stays: the division is kept from happening.
        step = _sum(slopes, place) / np.where(bend == 0.0, np.inf, bend)
        place = np.minimum(np.maximum(place - step, low), high)
    there, moved = _sum(terms, at), _sum(terms, place)
    better = np.abs(moved) > np.abs(there)
    return np.where(better, place, at), np.where(better, moved, there)


def _sum(terms: Sequence[Array] | Array, of: Array) -> Array:
    """Each sum of powers at a place."""
    found: Array = terms[-1]
    for term in terms[-2::-1]:
        found = found * of + term
    return found
