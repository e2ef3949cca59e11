"""What each wind does to every rafter, or to a bar over it: zones over their strips, summed exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pentice.checks.ground import Ground
from pentice.checks.rafter_model import RafterModel, rafter_models
from pentice.loads.alike import WindsAlike, winds_alike
from pentice.loads.lines import ZonesOver, wind_line, zones_over
from pentice.loads.values import WindCase
from pentice.mechanics.lines import LineLoad
from pentice.standards.en1991_1_4_roofs import area_share

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class _OverRafters:
    """Winds with their zones over the strips of the rafters."""

    winds: WindsAlike
    across_mm: Array
    """How far each zone reaches across each strip, shape (zones, rafters)."""
    along_mm: Array
    """From where to where each zone reaches along the slope from the wall face, shape (2, zones)."""


def wind_lines(
    ground: Ground, rafter: int, area_m2: float, *, from_bearing: bool = False
) -> list[tuple[WindCase, LineLoad]]:
    """Each wind along one rafter, by a loaded area.

    Parameters
    ----------
    ground
        The inputs of every check.
    rafter
        Its place from the left, from 0.
    area_m2
        Loaded area [m2].
    from_bearing
        Counted from the head bearing: what lies before it is dropped.

    Returns
    -------
    list
        Each wind with its line from the wall face, or from the bearing [mm, N/mm].

    Source
    ------
    EN 1991-1-4:2005, 7.2.1(1).
    """
    wind, model = ground.loads.wind, ground.once(rafter_models)[rafter]
    peak, lines = wind.peak_pressure_kn_m2 or 0.0, {}
    for group in ground.once(_over_rafters):
        over = zones_over(group.winds.reaches, model.strip)
        if from_bearing:
            over = _from_bearing(over, model)
        for n, pressures in zip(group.winds.numbers, group.winds.net(area_m2) * peak, strict=True):
            lines[n] = wind_line(over, pressures.tolist())
    return [(case, lines[n]) for n, case in enumerate(wind.cases)]


def _from_bearing(over: ZonesOver, model: RafterModel) -> ZonesOver:
    """Zones counted from the head bearing. The last ends at the very foot, so that every load of the rafter does."""
    start = model.start_mm
    kept = [(max(top - start, 0.0), bottom - start, zones) for top, bottom, zones in over if bottom > start]
    top, _, zones = kept.pop()
    return (*kept, (top, model.length_mm, zones))


def wind_at_ends_n(ground: Ground, areas_m2: Sequence[float]) -> Array:
    """What each wind brings to the two bearings of every rafter, square to it, by some loaded area.

    Parameters
    ----------
    ground
        The inputs of every check.
    areas_m2
        One for each rafter [m2].

    Returns
    -------
    array
        At head and foot, shape (winds, rafters, 2), down positive [N].

    Source
    ------
    EN 1991-1-4:2005, 7.2.1(1); statics.
    """
    import numpy as np

    share = np.array([area_share(area) for area in areas_m2])[:, None]
    found = np.zeros((len(ground.loads.wind.cases), len(areas_m2), 2))
    for numbers, at_1, to_10 in ground.once(_at_ends_n):
        found[numbers] = at_1 + to_10 * share
    return found


def wind_on_bars_n(ground: Ground, rafters: Sequence[int], from_foot_mm: Array) -> Array:
    """What each wind brings to stretches of bars, by 1 m2 of loaded area.

    Parameters
    ----------
    ground
        The inputs of every check.
    rafters, from_foot_mm
        Of each stretch the rafter under it, from 0, and from where to where it reaches, shape (stretches, 2) [mm].

    Returns
    -------
    array
        Shape (winds, stretches), down positive [N].

    Source
    ------
    EN 1991-1-4:2005, 7.2.1(1); the line of each wind, summed.
    """
    import numpy as np

    wind, strips = ground.loads.wind, [model.strip for model in ground.once(rafter_models)]
    ends = np.array([strips[k].length_mm for k in rafters])
    high, low = ends - from_foot_mm.T
    found = np.zeros((len(wind.cases), len(ends)))
    for group in ground.once(_over_rafters):
        start, end = group.along_mm[:, :, None]
        over = np.minimum(np.minimum(end, high), ends) - np.maximum(np.maximum(start, low), 0.0)
        found[list(group.winds.numbers)] = group.winds.at_1_m2 @ (
            group.across_mm[:, rafters] * np.maximum(over, 0.0)
        )
    return found * (wind.peak_pressure_kn_m2 or 0.0) * 1e-3


def zones_on_rafters(ground: Ground) -> tuple[bytes, ...]:
    """How the pressures of every wind lie over each rafter, to a millionth: rafters alike have the same.

    Parameters
    ----------
    ground
        The inputs of every check.

    Returns
    -------
    tuple of bytes
        One for each rafter from the left.

    Source
    ------
    None: a key.
    """
    import numpy as np

    found = [np.zeros((0, len(ground.once(rafter_models))))]
    for group in ground.once(_over_rafters):
        # Zones with the same pressures over the same part of the slope are one: at the left and at the right verge.
        alike: dict[bytes, Array] = {}
        columns = np.concatenate((group.winds.at_1_m2, group.winds.to_10_m2, group.along_mm)).T
        for column, across in zip(columns, group.across_mm, strict=True):
            zone = column.tobytes()
            alike[zone] = alike[zone] + across if zone in alike else across
        found.append(np.array(list(alike.values())))
    # With nothing added: less than nothing is nothing too.
    return tuple(column.tobytes() for column in np.round(np.concatenate(found), 6).T + 0.0)


def _over_rafters(ground: Ground) -> tuple[_OverRafters, ...]:
    import numpy as np

    strips = [model.strip for model in ground.once(rafter_models)]
    left, right = np.array([strip.x_mm for strip in strips]).T
    found = []
    for winds in winds_alike(ground.loads.wind.cases):
        (x, y), cos = np.array(winds.reaches).transpose(1, 2, 0), ground.shape.cos_pitch
        across = np.minimum(x[1][:, None], right) - np.maximum(x[0][:, None], left)
        found.append(_OverRafters(winds=winds, across_mm=np.maximum(across, 0.0), along_mm=y / cos))
    return tuple(found)


def _at_ends_n(ground: Ground) -> tuple[tuple[list[int], Array, Array], ...]:
    """Which winds, and what they bring to head and foot of every rafter for 1 m2; and what 10 m2 add to it [N]."""
    import numpy as np

    peak, models = ground.loads.wind.peak_pressure_kn_m2 or 0.0, ground.once(rafter_models)
    length, bearing, span = np.array([(m.strip.length_mm, m.start_mm, m.span_mm) for m in models]).T
    found = []
    for group in ground.once(_over_rafters):
        start, end = np.clip(group.along_mm[:, :, None], 0.0, length)
        force = peak * 1e-3 * group.across_mm * (end - start)
        foot = force * ((start + end) / 2.0 - bearing) / span
        ends, winds = np.stack((force - foot, foot), axis=2), group.winds
        at_1, to_10 = (np.tensordot(of, ends, 1) for of in (winds.at_1_m2, winds.to_10_m2))
        found.append((list(winds.numbers), at_1, to_10))
    return tuple(found)
