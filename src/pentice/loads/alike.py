"""Winds whose zones lie alike on the roof, so that what they do is worked out at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.loads.lines import net_of_share
from pentice.loads.values import Reach, WindCase
from pentice.standards.en1991_1_4_roofs import area_share

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class WindsAlike:
    """Some winds of a roof that have their zones at the same places."""

    numbers: tuple[int, ...]
    """Which of the roof's winds, from 0."""
    reaches: tuple[Reach, ...]
    """How far each zone reaches: `WindCase.reaches` [mm]."""
    at_1_m2: Array
    """Net coefficient of each zone for 1 m2 of loaded area, shape (winds, zones), towards the roof positive [-]."""
    to_10_m2: Array
    """What 10 m2 add to it [-]."""

    def net(self, area_m2: float) -> Array:
        """The same for some loaded area, shape (winds, zones) [-]."""
        return self.at_1_m2 + self.to_10_m2 * area_share(area_m2)


def numbers_alike(cases: Sequence[WindCase]) -> tuple[tuple[int, ...], ...]:
    """The winds of a roof by their numbers, those together whose zones lie alike.

    Parameters
    ----------
    cases
        Every wind.

    Returns
    -------
    tuple of tuple of int
        Each wind, counted from 0, in one of them.

    Source
    ------
    None: an order.

    Examples
    --------
    >>> from pentice.loads.values import WindZone
    >>> ends = (WindZone(name="G", x_mm=(0.0, x), y_mm=(0.0, 3000.0), c_10=-1.0, c_1=-1.5) for x in (5e3, 4e3, 5e3))
    >>> numbers_alike([WindCase(name="a", situation="persistent", zones=(zone,)) for zone in ends])
    ((0, 2), (1,))
    """
    groups: dict[tuple[Reach, ...], list[int]] = {}
    for n, case in enumerate(cases):
        groups.setdefault(tuple([(zone.x_mm, zone.y_mm) for zone in case.zones]), []).append(n)
    return tuple(map(tuple, groups.values()))


def winds_alike(cases: Sequence[WindCase]) -> tuple[WindsAlike, ...]:
    """The winds of a roof, those together whose zones lie alike.

    Parameters
    ----------
    cases
        Every wind.

    Returns
    -------
    tuple of WindsAlike
        Each wind in one of them.

    Source
    ------
    EN 1991-1-4:2005+A1:2010, 5.2 and 7.2.1(1): a coefficient changes in a straight line with `area_share`.

    Examples
    --------
    >>> from pentice.loads.values import WindZone
    >>> zone = WindZone(name="G", x_mm=(0.0, 5000.0), y_mm=(0.0, 3000.0), c_10=-1.0, c_1=-1.5)
    >>> winds = [WindCase(name="a", situation="persistent", zones=(zone,), inside=inside) for inside in (0.25, -0.25)]
    >>> [(found.numbers, found.at_1_m2.tolist(), found.to_10_m2.tolist()) for found in winds_alike(winds)]
    [((0, 1), [[-1.75], [-1.25]], [[0.5], [0.5]])]
    """
    import numpy as np

    found = []
    for numbers in numbers_alike(cases):
        of = [cases[n] for n in numbers]
        at_1, at_10 = (
            np.array([[net_of_share(zone, case.inside, share) for zone in case.zones] for case in of])
            for share in (0.0, 1.0)
        )
        found.append(WindsAlike(numbers=numbers, reaches=of[0].reaches, at_1_m2=at_1, to_10_m2=at_10 - at_1))
    return tuple(found)
