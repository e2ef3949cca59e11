"""The worst of many amounts. Mirrored places of a roof differ by rounding alone: then the first of them is named."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from operator import ge
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_ALIKE = 1e-9
One = TypeVar("One")


def greatest_place(amounts: NDArray[np.float64]) -> int:
    """Place of the greatest of some amounts; of those alike but for rounding, to 1e-9 of it, the first.

    Parameters
    ----------
    amounts
        In one unit, of any shape.

    Returns
    -------
    int
        In the array laid flat.

    Source
    ------
    None: an order.

    Examples
    --------
    >>> import numpy as np
    >>> greatest_place(np.array([1.0, 3.0, 3.0 + 1e-12, 2.0]))
    1
    """
    most = amounts.max()
    return int((amounts >= most - abs(most) * _ALIKE).argmax())


def not_outdone(
    found: Iterable[One], kind: Callable[[One], Hashable], amounts: Callable[[One], tuple[float, ...]]
) -> list[One]:
    """Those that no other of their kind reaches in every amount: where more of each asks more, only these can govern.

    Parameters
    ----------
    found
        What acts in each of several cases.
    kind
        Only those of one kind are compared.
    amounts
        Of one, each in its unit: the same number of them for all of a kind.

    Returns
    -------
    list
        In the order given; of those alike in every amount the first.

    Source
    ------
    Definition.

    Examples
    --------
    >>> not_outdone([(1.0, 5.0), (2.0, 4.0), (2.0, 5.0), (3.0, 1.0)], lambda one: "", lambda one: one)
    [(2.0, 5.0), (3.0, 1.0)]
    """
    kept: dict[Hashable, list[tuple[int, One, tuple[float, ...]]]] = {}
    for n, one in enumerate(found):
        size, others = amounts(one), kept.setdefault(kind(one), [])
        if not any(_reaches(other, size) for _, _, other in others):
            others[:] = [known for known in others if not _reaches(size, known[2])]
            others.append((n, one, size))
    order = sorted((known for of in kept.values() for known in of), key=lambda known: known[0])
    return [one for _, one, _ in order]


def _reaches(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return all(map(ge, one, other))
