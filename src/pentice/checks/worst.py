"""The worst of many amounts. Mirrored places of a roof differ by rounding alone: then the first of them is named."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_ALIKE = 1e-9


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
